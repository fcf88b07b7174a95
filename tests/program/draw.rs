//! Drawings as users get them.

use serde_json::Value;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

const VIEWS: [&str; 6] = ["side", "top", "section", "ramp", "launch", "bunks"];
const AS_FOUND: &str = "survey-launch-as-found.toml";
const AS_CHANGED: &str = "survey-launch-as-changed.toml";
const DEMOS: [&str; 7] = [
    AS_FOUND,
    AS_CHANGED,
    "fishing-skiff.toml",
    "fishing-skiff-by-tape.toml",
    "pilot-cutter-metric.toml",
    "crab-boat.toml",
    "weighed-tender.toml",
];

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

/// A text of a drawing, with its left end and its baseline.
type Text = (f64, f64, String);

/// All texts of a drawing that is well-formed, and the height of its view, which is 1000 wide.
fn texts(svg: &str) -> (Vec<Text>, f64) {
    let document = roxmltree::Document::parse(svg).unwrap_or_else(|error| panic!("{error}\n{svg}"));
    let root = document.root_element();
    assert!(root.has_tag_name(("http://www.w3.org/2000/svg", "svg")));
    let view = root.attribute("viewBox").and_then(|view| view.strip_prefix("0 0 1000 "));
    let height = view.and_then(|height| height.parse().ok()).expect("a view box");
    let of = |text: &roxmltree::Node| {
        let number = |name| text.attribute(name).and_then(|number| number.parse().ok()).expect("a number");
        (number("x"), number("y"), text.text().unwrap_or_default().to_string())
    };
    let texts = root.descendants().filter(|node| node.tag_name().name() == "text");
    (texts.map(|text| of(&text)).collect(), height)
}

/// Half an em a letter, which is about what a face without serifs takes of mixed text, at 13 px.
fn width(text: &str) -> f64 {
    6.5 * text.chars().count() as f64
}

fn assert_readable(svg: &str, of: &str) {
    let (texts, height) = texts(svg);
    for (i, (x, y, text)) in texts.iter().enumerate() {
        let inside = *x >= 0.0 && x + width(text) <= 1000.0 && *y >= 13.0 && *y <= height;
        assert!(inside, "{of}: {text} at {x} {y} of {height}");
        for (other_x, other_y, other) in &texts[..i] {
            let beside = x + width(text) <= *other_x || other_x + width(other) <= *x;
            assert!((y - other_y).abs() >= 13.0 || beside, "{of}: {text} over {other}");
        }
    }
}

/// Everything that can be drawn of the demos: labels stay apart and inside, and no drawing is large.
#[test]
fn every_view_is_readable_and_well_formed() {
    let mut drawings = 0;
    for file in DEMOS {
        for view in VIEWS {
            let units: &[&str] = if [AS_CHANGED, "pilot-cutter-metric.toml"].contains(&file) {
                &["us", "metric"]
            } else {
                &["us"]
            };
            for units in units {
                let output = run("draw", &demo(file), &["--what", view, "--units", units]);
                let (svg, told) = (String::from_utf8_lossy(&output.stdout), output.stderr);
                if output.status.code() == Some(2) {
                    let told = String::from_utf8_lossy(&told);
                    assert!(svg.is_empty() && told.contains("expected "), "{file} {view}: {told}");
                    continue;
                }
                assert_readable(&svg, &format!("{file} {view} {units}"));
                assert!(svg.len() < 20_000, "{file} {view}: {}", svg.len());
                drawings += 1;
            }
        }
    }
    // Side and top of all, and the rest where bunks and ramps are in the file.
    assert!(drawings >= 25, "{drawings}");
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
    let lines = |view: &str| texts(&drawn(AS_FOUND, &["--what", view])).0.into_iter().map(|(.., text)| text);
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
    let launched = texts(&drawn(AS_CHANGED, &["--what", "launch"])).0;
    let says_so = |(.., line): &Text| line.contains("her stern lifts") && line.contains(&depth);
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
    assert!(after.contains("drawn as proposed: axles 12 in aft; lengths are those of the file"), "{after}");
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
        assert_readable(&svg, view);
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
