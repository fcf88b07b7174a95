//! The page of a check: it keeps its length on every rig, and names what the verdict did not look at.

use crate::cases::cases;
use crate::properties::sketch::{Texts, sketches, weighed};
use crate::reasons::without_brakes;
use bunkline::Rig;
use bunkline::fit::{Assessment, Findings, RigVerdict, Row, Verdict, assess};
use bunkline::quantity::show::UnitSystem;
use bunkline::quantity::{Length, Quantity, Slope};
use bunkline::report::check::{Flag, PAGE, RigLine, SCREEN, Wanted, report, summary};
use bunkline::report::{Extent, Subject, bunks, place, ramp, text};
use bunkline::study::place::{Options, Part, place as find_place};
use bunkline::study::plan;
use bunkline::study::ramp::{Choice, crossings};
use bunkline::study::uncertainty::{self, Uncertainty};
use proptest::prelude::*;
use std::fs;
use unicode_width::UnicodeWidthStr;

fn demo(name: &str, changes: &[&str]) -> Rig {
    let path = format!("{}/demo-data/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    Rig::read(name, &fs::read_to_string(path).expect("a demo"), changes).expect("it reads")
}

/// A rig's page with its rows and its verdict, as `wanted`.
fn page_of(rig: &Rig, units: UnitSystem, wanted: &Wanted) -> (String, Vec<Row>, RigVerdict) {
    let (findings, uncertainty) = uncertainty::examine(rig).expect("it settles");
    let page = page_in(units, rig, &findings, uncertainty.as_ref(), wanted);
    (page, findings.assessment.rows, findings.assessment.verdict)
}

/// The page of what is known of a rig.
fn page_in(
    units: UnitSystem,
    rig: &Rig,
    findings: &Findings,
    uncertainty: Option<&Uncertainty>,
    wanted: &Wanted,
) -> String {
    let subject = Subject { path: "rigs/rig.toml", rig, findings, uncertainty, as_stated: false, units };
    text::render(&report(&subject, wanted), text::WIDTH, false)
}

/// A demo's page.
fn page(name: &str, changes: &[&str]) -> String {
    page_of(&demo(name, changes), UnitSystem::Us, &Wanted::default()).0
}

/// A page in one line.
fn flat(page: &str) -> String {
    page.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// What holds for the page of any rig.
fn keeps_its_rules(rig: &Rig, units: &[UnitSystem]) {
    let (findings, uncertainty) = uncertainty::examine(rig).expect("it settles");
    let plan = plan::of(rig, &assess(rig).expect("it settles"), true);
    let wanted = Wanted { plan: plan.as_ref(), ..Wanted::default() };
    for units in units {
        let page = page_in(*units, rig, &findings, uncertainty.as_ref(), &wanted);
        page_keeps_its_rules(rig, &findings.assessment, &page);
    }
}

fn page_keeps_its_rules(rig: &Rig, found: &Assessment, page: &str) {
    let (rows, verdict) = (&found.rows, found.verdict);
    let lines = page.lines().count();
    let most = if verdict == RigVerdict::Pass { SCREEN } else { PAGE };
    assert!(lines <= most, "{lines} lines:\n{page}");
    for line in page.lines() {
        assert!(line.width() <= text::WIDTH, "{line}\n{page}");
    }
    if lines > SCREEN {
        let (first, last) = (page.lines().next(), page.lines().next_back());
        assert_eq!(first.map(str::trim), last.map(str::trim), "{page}");
    }
    let flat = flat(page);
    for row in rows.iter().filter(|row| row.counts && row.verdict == Verdict::NotChecked) {
        let (id, subject) = (row.id(), row.check.subject.name());
        let named = [id.as_str(), row.check.id].iter().any(|id| flat.contains(id));
        assert!(
            named || flat.contains(&format!("{subject},")) || flat.contains(&format!("{subject}.")),
            "{id}\n{page}"
        );
    }
    for assumed in rig.assumed() {
        let last = assumed.key.rsplit('.').next().expect("a key");
        assert!(flat.contains(last), "{last}\n{page}");
    }
    assert!(flat.contains("Screening only"), "{page}");
}

/// Without a trip no descent and no speed is known; what goes by these only advises, and is counted.
#[test]
fn rows_that_only_advise_and_are_not_checked_are_counted() {
    let path = format!("{}/demo-data/survey-launch-as-changed.toml", env!("CARGO_MANIFEST_DIR"));
    let text = fs::read_to_string(path).expect("a demo");
    let (before, rest) = text.split_once("[trip]").expect("a trip");
    let (_, after) = rest.split_once("\n[").expect("the next section");
    let rig = Rig::parse(&format!("{before}[{after}")).expect("it reads");
    let (page, rows, _) = page_of(&rig, UnitSystem::Us, &Wanted::default());
    let not_checked: Vec<String> =
        rows.iter().filter(|row| row.verdict == Verdict::NotChecked).map(Row::id).collect();
    let advise = rows.iter().filter(|row| row.verdict == Verdict::NotChecked && !row.counts).count();
    assert_eq!(advise, not_checked.len(), "none can fail: {not_checked:?}");
    for id in ["brake-descent", "brake-heat-lining", "brake-heat-fluid", "brake-bend"] {
        assert!(not_checked.contains(&id.to_string()), "{not_checked:?}");
    }
    let said = format!("Not checked: {advise} rows that only advise.");
    assert!(flat(&page).contains(&said), "{page}");
}

#[test]
fn every_demo_fits_its_page() {
    for entry in fs::read_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/demo-data")).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            continue;
        }
        let name = path.file_stem().expect("a name").to_string_lossy().into_owned();
        keeps_its_rules(&demo(&name, &[]), &[UnitSystem::Us, UnitSystem::Metric]);
    }
}

proptest! {
    #![proptest_config(cases(16))]

    #[test]
    fn every_rig_fits_its_page(sketch in prop_oneof![sketches(3), weighed(3)], metric in any::<bool>()) {
        let units = if metric { UnitSystem::Metric } else { UnitSystem::Us };
        let text = sketch.write(Texts::Us);
        let rig = Rig::read("rig.toml", &text, &[] as &[&str]).expect("it reads");
        keeps_its_rules(&rig, &[units]);
    }
}

/// A rig without ratings has more keys to fill in than a page has lines.
#[test]
fn a_rig_of_which_little_is_known_fits_its_page() {
    let axle = "[[trailer.axles]]\nstation = \"S in\"\n";
    let axles: String = (0..6).map(|i| axle.replace('S', &(200 + 34 * i).to_string())).collect();
    let rig = Rig::read("rig.toml", &format!("format = 1\n{axles}"), &[] as &[&str]).expect("it reads");
    keeps_its_rules(&rig, &[UnitSystem::Us]);
    let (page, _, verdict) = page_of(&rig, UnitSystem::Us, &Wanted::default());
    assert_eq!(verdict, RigVerdict::Incomplete);
    assert!(page.contains("What to fill in"), "{page}");
}

#[test]
fn a_pass_says_how_far_it_was_checked() {
    let page = page("pilot-cutter", &[]);
    assert!(page.starts_with("PASS  rigs/rig.toml, as far as checked\n"), "{page}");
    let flat = flat(&page);
    // Two axles lack the springs' rating; the shank's size is not stated.
    let unmade =
        "4 rows not checked: spring-*, shank-size, clearance-gear-low-points, and 10 that only advise.";
    assert!(flat.contains(unmade), "{page}");
    assert!(flat.contains("Not covered: ramp, brakes, winch, tie-downs, launch."), "{page}");
    assert!(flat.contains("Never loaded: water above 50 %."), "{page}");
}

#[test]
fn a_proposal_stands_in_the_first_lines() {
    let page = page("survey-launch-as-changed", &[]);
    let first: Vec<&str> = page.lines().take(4).collect();
    assert!(first.iter().any(|line| line.contains("As proposed: boat 13 in forward.")), "{page}");
}

#[test]
fn what_no_case_loads_is_named() {
    let text = fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/demo-data/fishing-skiff.toml"));
    let text = text.expect("a demo")
        + "\n[[cases]]\nname = \"bare\"\nwithout = [\"tackle\"]\nfill = { fuel = \"0 %\" }\n";
    let rig = Rig::read("rig.toml", &text, &[] as &[&str]).expect("it reads");
    let (page, ..) = page_of(&rig, UnitSystem::Us, &Wanted::default());
    assert!(flat(&page).contains("Never loaded: tackle, fuel above 0 %."), "{page}");
    // With a case that carries both nothing is named.
    let rig =
        Rig::read("rig.toml", &(text + "[[cases]]\nname = \"all\"\n"), &[] as &[&str]).expect("it reads");
    let (page, ..) = page_of(&rig, UnitSystem::Us, &Wanted::default());
    assert!(!page.contains("Never loaded"), "{page}");
}

/// One tongue weight that passes four ratings is one line; so are axles that share alike.
#[test]
fn one_cause_is_one_line() {
    let tongue = page("electric-day-launch", &[]);
    assert!(tongue.contains("coupler, tongue and 3 more"), "{tongue}");
    assert!(!tongue.contains("receiver, tongue"), "{tongue}");
    let axles = page("survey-launch-as-found", &[]);
    assert!(axles.contains("tires of axle 1-2 with the rear one lifted"), "{axles}");
}

/// The bunks end 24 in ahead of the transom: 2 in is wanted, and past 12 in the rig fails.
#[test]
fn a_failing_row_stands_against_what_fails() {
    let page = page("survey-launch-as-found", &[]);
    let line = page.lines().find(|line| line.contains("FAIL   support at the transom")).expect("a line");
    assert!(flat(line).contains("24 in over 12 in"), "{line}");
}

#[test]
fn danger_stands_first() {
    let text = without_brakes(include_str!("../../demo-data/survey-launch-as-found.toml"));
    let rig = Rig::read("rig.toml", &text, &["trailer.axles.all.braked=false"]).expect("it reads");
    let page = page_of(&rig, UnitSystem::Us, &Wanted::default()).0;
    let flat = flat(&page);
    let at = |text: &str| flat.find(text).unwrap_or_else(|| panic!("{text}\n{page}"));
    assert!(at("None of the axles are braked") < at("checks fail."), "{page}");
    assert!(at("None of the axles are braked") < at("At a glance"), "{page}");
}

#[test]
fn one_subject_narrows_all_but_the_verdict() {
    let rig = demo("survey-launch-as-found", &[]);
    let only = Some(bunkline::fit::Subject::Hitch);
    for full in [false, true] {
        let (page, ..) = page_of(&rig, UnitSystem::Us, &Wanted { full, only, ..Wanted::default() });
        assert!(page.starts_with("FAIL  rigs/rig.toml\n") && page.contains("coupler"), "{page}");
        let after = &page[page.find("At a glance").expect("a glance")..];
        for other in ["tongue share ", "tongue-share ", "Bunks:", "bunk-bending", "tow-gvwr"] {
            assert!(!after.contains(other), "{page}");
        }
    }
}

#[test]
fn a_flag_says_that_it_decided() {
    let rig = demo("crab-boat", &[]);
    let first = |flag| {
        let by_flag = Some(flag);
        page_of(&rig, UnitSystem::Us, &Wanted { by_flag, ..Wanted::default() })
            .0
            .lines()
            .next()
            .map(str::to_string)
    };
    assert_eq!(
        first(Flag::AllowIncomplete).as_deref(),
        Some("UNSURE  rigs/rig.toml, allowed by --allow-incomplete")
    );
    assert_eq!(
        first(Flag::AsStated(RigVerdict::Fail)).as_deref(),
        Some("UNSURE  rigs/rig.toml, as stated; with ± it fails")
    );
}

/// The axle is rated more than its tires carry, which only advises unless the policy says otherwise.
#[test]
fn what_the_policy_moves_says_so() {
    let moved = ["policy.counts=[\"axle-tires-*\"]", "trailer.axles.1.rating=5000 lb"];
    let rig = demo("fishing-skiff", &moved);
    let (page, ..) = page_of(&rig, UnitSystem::Us, &Wanted::default());
    assert!(flat(&page).contains("because policy.counts says that it counts."), "{page}");
    let line = page.lines().find(|line| line.contains("FAIL  tires for axle 1")).expect("a line");
    assert!(line.ends_with("by policy"), "{page}");
    let (full, ..) = page_of(&rig, UnitSystem::Us, &Wanted { full: true, ..Wanted::default() });
    assert!(flat(&full).contains("The policy says that past its limit it fails: axle-tires-1."), "{full}");
}

#[test]
fn several_rigs_make_a_table_with_the_worst_first() {
    let mut lines = vec![RigLine::unread("gone.toml", None)];
    for name in ["fishing-skiff", "crab-boat", "survey-launch-as-found"] {
        let rig = demo(name, &[]);
        let (findings, uncertainty) = uncertainty::examine(&rig).expect("it settles");
        let uncertainty = uncertainty.as_ref();
        let units = UnitSystem::Us;
        let subject =
            Subject { path: name, rig: &rig, findings: &findings, uncertainty, as_stated: false, units };
        lines.push(RigLine::of(&subject));
    }
    let table = text::render(&summary(&lines, &[]), text::WIDTH, false);
    let shown: Vec<&str> = table.lines().collect();
    assert_eq!(shown[0], "4 rigs: 1 passes, 1 fails, 1 unsure, 1 not read");
    let rest: Vec<&str> = shown[2..].iter().map(|line| line.trim()).collect();
    // The worst of what is shown, as ids.
    assert!(flat(&table).contains("survey-launch-as-found 4.1 % tongue-share"), "{table}");
    let begins = [
        "rig",
        "NOT READ  gone.toml",
        "FAIL      survey-launch-as-found",
        "UNSURE    crab-boat",
        "PASS      fishing-skiff",
    ];
    for (line, begin) in rest.iter().zip(begins) {
        assert!(line.starts_with(begin), "{table}");
    }
}

/// What holds for the pages of `ramp`, `bunks` and `place`, of whatever length they are in full.
fn other_pages_keep_their_rules(rig: &Rig, units: &[UnitSystem]) {
    let found = crossings(rig, Choice::default(), Length::from_si(0.2)).expect("it settles");
    let heads: Vec<_> = (0..rig.proposed().ramps.len()).map(|ramp| (ramp, Some(Slope(0.111)))).collect();
    let options = Options { ramps: false, grains: place::grains(units[0]) };
    let placings = [Part::Boat, Part::Axles].map(|part| find_place(rig, part, &options));
    let mut pages = Vec::new();
    for units in units {
        let subject = Subject {
            path: "rigs/rig.toml",
            rig,
            findings: &found.findings,
            uncertainty: None,
            as_stated: false,
            units: *units,
        };
        pages.push(ramp::report(&subject, &found.crossed, &heads, Extent::Page, true));
        pages.push(bunks::report(&subject, Extent::Page));
        let placed = placings.iter().flatten();
        pages.extend(placed.map(|placing| place::report(&subject, placing, Extent::Page)));
    }
    for page in pages {
        let page = text::render(&page, text::WIDTH, false);
        assert!(page.lines().count() <= PAGE, "{} lines:\n{page}", page.lines().count());
        for line in page.lines() {
            assert!(line.width() <= text::WIDTH, "{line}\n{page}");
        }
        assert!(page.contains("--full") && page.contains("Screening only"), "{page}");
        let flat = flat(&page);
        for assumed in rig.assumed() {
            let last = assumed.key.rsplit('.').next().expect("a key");
            assert!(flat.contains(last), "{last}\n{page}");
        }
    }
}

#[test]
fn every_report_of_every_demo_fits_its_page() {
    for entry in fs::read_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/demo-data")).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            continue;
        }
        let name = path.file_stem().expect("a name").to_string_lossy().into_owned();
        other_pages_keep_their_rules(&demo(&name, &[]), &[UnitSystem::Us, UnitSystem::Metric]);
    }
}

proptest! {
    #![proptest_config(cases(12))]

    #[test]
    fn every_report_of_every_rig_fits_its_page(sketch in prop_oneof![sketches(3), weighed(3)], metric in any::<bool>()) {
        let units = if metric { UnitSystem::Metric } else { UnitSystem::Us };
        let rig = Rig::read("rig.toml", &sketch.write(Texts::Us), &[] as &[&str]).expect("it reads");
        other_pages_keep_their_rules(&rig, &[units]);
    }
}

/// The ramps only advise, but a coupler that is too weak on the level is said first.
#[test]
fn a_ramp_that_advises_hides_no_failing_row() {
    let rig = demo("survey-launch-as-changed", &["trailer.coupler.rating=8000 lb"]);
    let found = crossings(&rig, Choice::default(), Length::from_si(0.2)).expect("it settles");
    let subject = Subject {
        path: "rigs/rig.toml",
        rig: &found.rig,
        findings: &found.findings,
        uncertainty: None,
        as_stated: false,
        units: UnitSystem::Us,
    };
    let page =
        text::render(&ramp::report(&subject, &found.crossed, &[], Extent::Page, false), text::WIDTH, false);
    assert!(page.starts_with("FAIL  On level ground already: trailer and boat weigh 10371 lb"), "{page}");
}
