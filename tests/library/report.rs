//! Documents and what renders them: nothing that a file says can break out of its place, and no line is too wide.

use bunkline::Rig;
use bunkline::fit::checks;
use bunkline::quantity::show::UnitSystem;
use bunkline::quantity::{Length, Quantity};
use bunkline::report::check::Wanted;
use bunkline::report::document::{Block, Document, Holds, Role, Table, Text};
use bunkline::report::{Extent, Subject, bunks, check, explain, html, place, ramp, text};
use bunkline::rig::INPUTS;
use bunkline::study::place::{Options, Part, place as find_place};
use bunkline::study::ramp::{Choice, crossings};
use bunkline::study::{samples, uncertainty};
use std::fs;
use unicode_width::UnicodeWidthStr;

const HOSTILE: &str = "x\nPASS  all fine </title><script>alert(1)</script> \u{1b}[31m\u{202e}& \"'";

fn demos() -> Vec<(String, String)> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/demo-data");
    let mut demos: Vec<(String, String)> = fs::read_dir(folder)
        .expect("a folder")
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.is_file())
        .map(|path| {
            let name = path.file_name().expect("a name").to_string_lossy().into_owned();
            (name, fs::read_to_string(path).expect("a demo"))
        })
        .collect();
    demos.sort();
    demos
}

fn rig(name: &str, text: &str) -> Rig {
    Rig::read(name, text, &[] as &[&str]).expect("the demo reads")
}

/// The check of a demo that is read from a file of some name.
fn checked(demo: &str, path: &str) -> Document {
    let (name, text) = demos().into_iter().find(|(name, _)| name == demo).expect("a demo");
    let rig = rig(&name, &text);
    let (findings, uncertainty) = uncertainty::examine(&rig).expect("it settles");
    let uncertainty = uncertainty.as_ref();
    let units = UnitSystem::Us;
    let subject = Subject { path, rig: &rig, findings: &findings, uncertainty, as_stated: false, units };
    check::report(&subject, &Wanted::default())
}

/// Every report of a rig, in either system of units.
fn reports(name: &str, rig: &Rig) -> Vec<(&'static str, Document)> {
    let (findings, mut uncertain) = uncertainty::examine(rig).expect("it settles");
    if let Some(uncertain) = &mut uncertain {
        uncertain.samples = samples::samples(rig, &findings.assessment.rows, 10, 1);
    }
    let uncertainty = uncertain.as_ref();
    let crossings = crossings(rig, Choice::default(), Length::from_si(0.2)).expect("it settles").crossed;
    let options = Options { ramps: false, grains: place::grains(UnitSystem::Us) };
    let placings = [Part::Boat, Part::Axles].map(|part| find_place(rig, part, &options));
    let mut reports = Vec::new();
    for units in [UnitSystem::Us, UnitSystem::Metric] {
        let subject = Subject { path: name, rig, findings: &findings, uncertainty, as_stated: false, units };
        reports.push(("page", check::report(&subject, &Wanted::default())));
        reports.push(("check", check::report(&subject, &Wanted { full: true, ..Wanted::default() })));
        let extents = [Extent::Page, Extent::Full];
        for extent in extents {
            reports.push(("ramp", ramp::report(&subject, &crossings, &[], extent, false)));
            reports.push(("bunks", bunks::report(&subject, extent)));
        }
        for placing in placings.iter().flatten() {
            for extent in extents {
                reports.push(("place", place::report(&subject, placing, extent)));
            }
        }
    }
    reports
}

#[test]
fn no_line_of_any_report_is_wider_than_a_page() {
    let mut documents: Vec<(String, Document)> =
        vec![("explain".to_string(), explain::list(checks(), &INPUTS))];
    for check in checks() {
        documents.push((check.id.to_string(), explain::explain(check, check.id, checks())));
    }
    for (name, text) in demos() {
        let reports = reports(&name, &rig(&name, &text));
        documents
            .extend(reports.into_iter().map(|(report, document)| (format!("{report} of {name}"), document)));
    }
    for (what, document) in &documents {
        let plain = text::render(document, text::WIDTH, false);
        for line in plain.lines() {
            assert!(line.width() <= text::WIDTH, "{what}: {line}");
            assert_eq!(line, line.trim_end(), "{what}");
        }
        // Colour adds marks and changes no word.
        assert_eq!(without_colour(&text::render(document, text::WIDTH, true)), plain, "{what}");
        assert_eq!(html::render(document), html::render(&document.clone()), "{what}");
    }
}

/// A text without "select graphic rendition".
fn without_colour(text: &str) -> String {
    let mut parts = text.split("\u{1b}[");
    let first = parts.next().unwrap_or_default().to_string();
    parts.fold(first, |out, part| out + part.split_once('m').expect("the end of a colour").1)
}

#[test]
fn nothing_in_a_name_breaks_out_of_its_place() {
    let (name, text) = demos().into_iter().find(|(name, _)| name == "fishing-skiff.toml").expect("a demo");
    // Without a title the report is headed by the file's name.
    let lines: Vec<&str> = text.lines().filter(|line| !line.starts_with("title")).collect();
    let untitled = lines.join("\n");
    let rig = rig(&name, &untitled);
    for (_, document) in reports(HOSTILE, &rig) {
        let plain = text::render(&document, text::WIDTH, false);
        assert!(plain.chars().all(|c| c == '\n' || !c.is_control()), "{plain}");
        assert!(!plain.contains('\u{202e}') && !plain.contains("\nPASS  all fine"), "{plain}");
        let coloured = text::render(&document, text::WIDTH, true);
        assert!(!coloured.contains("\u{1b}[31m"), "{coloured}");
        let page = html::render(&document);
        assert!(!page.contains("<script") && page.contains("&lt;script&gt;"), "{page}");
        // Each picture has a title of its own.
        assert_eq!(page.matches("</title>").count(), 1 + page.matches("<svg").count());
        assert!(page.chars().all(|c| c == '\n' || !c.is_control()));
    }
}

#[test]
fn every_piece_of_a_page_is_escaped() {
    let bad = "<b>&\"";
    let mut document = Document::default();
    document.add_title(bad);
    document.heading(bad);
    document.paragraph(Text::of(Role::Key, bad).and(Role::Fail, bad));
    document.list([bad]);
    document.fact(bad, bad);
    let mut table = Table::new([(Holds::Name, bad)]);
    table.rows.push(vec![bad.into()]);
    document.table(table);
    document.figure(bad, &[bad.to_string()], None);
    document.code(&[bad.to_string()]);
    let page = html::render(&document);
    // Twice in the title, the paragraph, the facts, the table and the figure.
    assert_eq!(page.matches("&lt;b&gt;&amp;").count(), 13, "{page}");
    assert!(!page.contains("<b>"), "{page}");
}

#[test]
fn wide_letters_are_measured_by_their_columns() {
    let mut document = Document::default();
    document.paragraph("\u{8239}".repeat(100));
    document.fact("\u{8239}\u{8239}", "x");
    document.fact("four", "y");
    let printed = text::render(&document, 40, false);
    // Each takes two columns: 19 of them fill 38 beside the indent.
    assert_eq!(printed.lines().next().map(|line| line.chars().count()), Some(2 + 19));
    let facts: Vec<&str> = printed.lines().rev().take(2).collect();
    assert_eq!(facts, ["  four  y", "  \u{8239}\u{8239}  x"]);
}

#[test]
fn a_long_name_in_a_table_has_a_line_of_its_own() {
    let mut table = Table::new([(Holds::Words, ""), (Holds::Name, "check"), (Holds::Numbers, "load")]);
    table.rows.push(["pass", "short", "1 lb"].map(Into::into).into());
    table.rows.push(["FAIL", "a-name-that-is-much-too-long", "2 lb"].map(Into::into).into());
    let mut document = Document::default();
    document.table(table);
    let printed = text::render(&document, 36, false);
    let lines: Vec<&str> = printed.lines().collect();
    assert_eq!(lines[1], "  pass short                    1 lb");
    assert_eq!(lines[2], "  FAIL a-name-that-is-much-too-long");
    assert_eq!(lines[3], "                                2 lb");
}

#[test]
fn several_rigs_make_one_page() {
    let mut page = checked("fishing-skiff.toml", "a.toml");
    page.append(check::unread("b.toml", &["expected a readable rig file, found none".to_string()]));
    let titles: Vec<String> = page
        .blocks()
        .iter()
        .filter_map(|block| if let Block::Title(title) = block { Some(title.plain()) } else { None })
        .collect();
    assert_eq!(titles.len(), 2);
    assert_eq!(titles[1], "NOT READ  b.toml");
    assert_eq!(html::render(&page).matches("<h1>").count(), 2);
}

#[test]
fn pages_as_browsers_read_them() {
    for demo in ["survey-launch-as-found", "fishing-skiff"] {
        let page = html::render(&checked(&format!("{demo}.toml"), demo));
        insta::assert_snapshot!(format!("html-{demo}"), page);
    }
}
