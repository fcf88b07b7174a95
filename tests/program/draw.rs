//! Drawings as users get them.

use crate::svg::Svg;
use bunkline::Rig;
use bunkline::fit::{self, Drawing, View};
use bunkline::quantity::show::UnitSystem;
use bunkline::report::figure::{Names, drawing};
use bunkline::study::uncertainty;
use proptest::prelude::*;
use serde_json::Value;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

const VIEWS: [&str; 6] = ["side", "top", "section", "ramp", "launch", "bunks"];
const LOOKS: [View; 6] = [View::Side, View::Top, View::Section, View::Ramp, View::Launch, View::Bunks];
const AS_FOUND: &str = "survey-launch-as-found.toml";
const AS_CHANGED: &str = "survey-launch-as-changed.toml";
fn demo(file: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-data").join(file)
}

fn run(command: &str, file: &Path, more: &[&str]) -> Output {
    let mut program = Command::new(env!("CARGO_BIN_EXE_bunkline"));
    program.arg(command).arg(file).args(more).output().expect("the program runs")
}

fn drawn(file: &str, more: &[&str]) -> String {
    let output = run("draw", &demo(file), more);
    assert_eq!(output.status.code(), Some(0), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).expect("it prints UTF-8")
}

fn json(command: &str, file: &str) -> Value {
    let output = run(command, &demo(file), &["--format", "json"]);
    serde_json::from_slice(&output.stdout).expect("JSON")
}

/// The texts of a drawing.
fn texts(svg: &str) -> Vec<String> {
    Svg::read(svg).texts.into_iter().map(|text| text.words).collect()
}

/// The file of every rig among the demos.
fn demos() -> Vec<PathBuf> {
    let rigs = ["", "club"].map(|folder| demo(folder).read_dir().expect("a folder"));
    let rigs = rigs.into_iter().flatten().map(|file| file.expect("a file").path());
    rigs.filter(|file| file.extension().is_some_and(|is| is == "toml")).collect()
}

/// A picture of each view that the rig's file says enough for, in both systems of units: each can be read.
fn assert_readable_from_all_sides(rig: &Rig, of: &str) -> usize {
    let assessment = fit::assess(rig).unwrap_or_else(|unfit| panic!("{of}: {unfit}"));
    let within = uncertainty::centre(rig);
    let mut drawn = 0;
    for (view, name) in LOOKS.iter().zip(VIEWS) {
        let Ok(mut drawings) = Drawing::of(*view, rig, &assessment) else { continue };
        for drawing in drawings.iter_mut().filter(|drawing| drawing.view == View::Side) {
            drawing.cg_within = within;
        }
        for units in [UnitSystem::Us, UnitSystem::Metric] {
            for names in [Names::Keys, Names::Words] {
                let svg = drawing(rig.proposed(), &drawings, names, units);
                Svg::read(&svg).assert_readable(&format!("{of}, {name}, {units:?}, {names:?}"));
                assert!(svg.len() < 20_000, "{of}, {name}: {}", svg.len());
            }
            drawn += 1;
        }
    }
    drawn
}

/// Everything that can be drawn of the demos: labels stay apart and inside, and no drawing is large.
#[test]
fn every_view_of_every_demo_can_be_read() {
    let drawn = demos().into_iter().map(|file| {
        let name = file.display().to_string();
        let read = std::fs::read_to_string(&file).expect("a demo");
        // What includes other files is drawn by the program alone.
        let rig = Rig::parse(&read).ok()?;
        Some(assert_readable_from_all_sides(&rig, &name))
    });
    let drawn: Vec<usize> = drawn.flatten().collect();
    // Side and top of all in both systems, and the rest where bunks and ramps are in the file.
    assert!(drawn.len() >= 10 && drawn.iter().all(|views| *views >= 4), "{drawn:?}");
    assert_eq!(drawn.iter().filter(|views| **views == 12).count(), 2, "{drawn:?}");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 8, ..ProptestConfig::default() })]

    /// Axles and crossmembers close together and far apart, the boat moved, the ramp of any grade and the water high or low:
    /// labels crowd in other places.
    #[test]
    fn every_view_of_other_rigs_can_be_read(
        axles in (180i64..220, proptest::collection::vec(28i64..50, 2)),
        crossmembers in (120i64..180, proptest::collection::vec(4i64..40, 6)),
        (boat, grade, water) in (-18i64..6, 6i64..18, 3i64..8),
    ) {
        let stations = |list: &str, (first, gaps): &(i64, Vec<i64>)| {
            let mut at = *first;
            let next = std::iter::once(&0).chain(gaps).map(|gap| {
                at += gap;
                at
            });
            let change = |(i, at): (usize, i64)| format!("trailer.{list}.{}.station={at} in", i + 1);
            next.enumerate().map(change).collect::<Vec<_>>()
        };
        let others = [
            format!("shift.boat={boat} in"),
            format!("ramps.1.profile.2.grade={grade} %"),
            format!("ramps.1.water_level=-{water} ft"),
        ];
        let changes = [stations("axles", &axles), stations("crossmembers", &crossmembers), others.to_vec()].concat();
        let text = std::fs::read_to_string(demo(AS_CHANGED)).expect("a demo");
        let rig = Rig::read("rig.toml", &text, &changes).unwrap_or_else(|problems| panic!("{problems}"));
        prop_assert!(assert_readable_from_all_sides(&rig, &changes.join(", ")) >= 8);
    }
}

#[test]
fn the_views_of_two_demos_are_as_they_were_seen() {
    insta::assert_snapshot!("skiff", drawn("fishing-skiff.toml", &[]));
    for view in VIEWS {
        insta::assert_snapshot!(format!("launch-{view}"), drawn(AS_CHANGED, &["--what", view]));
    }
}

/// The drawings that the README shows are those that the program draws.
#[test]
fn the_examples_are_what_is_drawn() {
    for (example, file, view) in
        [("fishing-skiff", "fishing-skiff.toml", "side"), ("survey-launch", AS_FOUND, "section")]
    {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("examples/{example}.svg"));
        let shown = std::fs::read_to_string(path).expect("an example");
        assert!(
            shown == drawn(file, &["--what", view]),
            "draw {file} --what {view} > examples/{example}.svg"
        );
    }
}

/// Every line about a row has the figures of the JSON report, and the worst moment on the ramp is the axle's worst.
#[test]
fn figures_are_those_of_the_report() {
    let report = json("check", AS_FOUND);
    let checks = report["checks"].as_array().expect("checks").iter();
    let load = |id: &str| {
        let row = checks.clone().find(|row| row["id"] == id).unwrap_or_else(|| panic!("no {id}"));
        row["load"].as_f64().expect("a load")
    };
    let pounds = |id: &str| format!("{:.0} lb", load(id));
    let lines = |view: &str| texts(&drawn(AS_FOUND, &["--what", view])).into_iter();
    let says = |view: &str, begin: &str, figure: &str| {
        assert!(
            lines(view).any(|line| line.contains(begin) && line.contains(figure)),
            "{view}: {begin} {figure}"
        );
    };
    for axle in 1..=3 {
        says("side", &format!("axle {axle}: "), &pounds(&format!("axle-{axle}")));
    }
    says("side", "coupler, tongue: ", &pounds("coupler-tongue"));
    says("section", "crossmember 3: ", &pounds("crossmember-3"));
    says("section", "keel over crossmember 3: ", "1/2 in");
    assert!((load("clearance-keel-3") - 0.5).abs() < 1.0 / 32.0);
    says("ramp", "axle 1: ", &pounds("ramp-axle-1"));
    let launch = json("launch", AS_CHANGED);
    let events = launch["launches"][0]["events"].as_array().expect("events").iter();
    let lifts = events.clone().find(|event| event["event"] == "stern-lifts").expect("she lifts");
    let depth = format!("{:.0} in of water", lifts["wheel_depth"].as_f64().expect("a depth"));
    let launched = texts(&drawn(AS_CHANGED, &["--what", "launch"]));
    let says_so = |line: &String| line.contains("her stern lifts") && line.contains(&depth);
    assert!(launched.iter().any(says_so), "{depth}");
    // Holes are those of the cut sheet.
    let sheet = json("bunks", AS_FOUND);
    let holes = sheet["bunks"]["holes"].as_array().expect("holes");
    assert_eq!(lines("bunks").filter(|line| line.contains(" hole over crossmember ")).count(), holes.len());
}

/// At full size a bar of 4 in takes 4 in of a print that is 180 mm wide.
#[test]
fn a_bunks_end_prints_at_full_size() {
    let svg = drawn(AS_CHANGED, &["--what", "bunks"]);
    let document = roxmltree::Document::parse(&svg).expect("XML");
    assert_eq!(document.root_element().attribute("width"), Some("180mm"));
    let ends = |class: &str| {
        let path = document.descendants().rfind(|node| node.attribute("class") == Some(class));
        let path = path.and_then(|path| path.attribute("d")).expect("a path").trim_start_matches('M');
        let point =
            |point: &str| point.split(' ').map(|n| n.parse::<f64>().expect("a number")).collect::<Vec<_>>();
        path.split('L').map(point).collect::<Vec<_>>()
    };
    let millimetres = |units: f64| units * 180.0 / 1000.0;
    let bar = ends("scale");
    assert!((millimetres(bar[1][0] - bar[0][0]) - 101.6).abs() < 0.05, "{bar:?}");
    // Its bevel is the deadrise, 20 deg: places are written to a tenth of 0.18 mm.
    let end = ends("bunk");
    let (run, rise) = (end[1][0] - end[2][0], end[2][1] - end[1][1]);
    assert!((rise.atan2(run).to_degrees() - 20.0).abs() < 0.05, "{end:?}");
}

/// 12 in are 0.3048 m. Whatever the scale, axles 32 in apart give it.
#[test]
fn what_is_proposed_is_drawn_and_where_it_was() {
    let places = |svg: &str, class: &str| -> Vec<f64> {
        let begin = format!("<circle class=\"{class}");
        let circles = svg.split(&begin).skip(1).filter_map(|rest| rest.split("cx=\"").nth(1));
        circles.map(|rest| rest.split('"').next().and_then(|x| x.parse().ok()).expect("a number")).collect()
    };
    let after = drawn(AS_FOUND, &["--set", "shift.axles=12 in"]);
    assert!(after.contains(">drawn as proposed: axles 12 in aft<"), "{after}");
    // At 18 ft, drawn where it is to stand.
    assert!(after.contains(">trailer.axles.1.station 228 in, in the file 216 in<"), "{after}");
    assert!(after.contains("short dashes: where it was measured"), "{after}");
    assert!(!drawn(AS_FOUND, &[]).contains("class=\"before\""));
    // The tow vehicle's wheel is the last.
    let (before, wheels) = (places(&after, "before"), places(&after, "wheel"));
    let inch = (before[1] - before[0]) / 32.0;
    for (before, after) in before.iter().zip(&wheels[..3]) {
        // Places are written to a tenth.
        assert!((after - before - 12.0 * inch).abs() < 0.2, "{before} {after}");
    }
}

#[test]
fn almost_nothing_is_drawn_as_far_as_it_is_known() {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("drawn");
    std::fs::create_dir_all(&folder).expect("a folder");
    let file = folder.join("little.toml");
    let title = "W".repeat(300) + " <script>alert(1)</script> ]]> \\u202e & more";
    let text = format!(
        "format = 1\ntitle = \"{title}\"\n[measured]\ngross_trailer_weight = \"5000 lb\"\ntongue_weight = \"500 lb\"\n\
         [[trailer.axles]]\nstation = \"14 ft\"\n[[trailer.axles]]\nstation = \"17 ft\"\n"
    );
    std::fs::write(&file, text).expect("a file");
    for view in ["side", "top"] {
        let output = run("draw", &file, &["--what", view]);
        let svg = String::from_utf8(output.stdout).expect("UTF-8");
        Svg::read(&svg).assert_readable(view);
        assert!(svg.contains("not drawn in full without trailer.length"), "{svg}");
        assert!(!svg.contains("<script>") && !svg.contains('\u{202e}'), "{svg}");
    }
    for (view, lacks) in [
        ("section", "trailer.keel_height"),
        ("bunks", "trailer.bunks"),
        ("ramp", "ramps.1"),
        ("launch", "ramps.1"),
    ] {
        let output = run("draw", &file, &["--what", view]);
        let told = String::from_utf8_lossy(&output.stderr).into_owned();
        assert_eq!(output.status.code(), Some(2), "{view}: {told}");
        assert!(output.stdout.is_empty() && told.contains(lacks), "{view}: {told}");
    }
}
