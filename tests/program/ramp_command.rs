//! `bunkline ramp` through the program: its text, its JSON and CSV, what it refuses, and ramps that no rig
//! should meet.

use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

const AS_FOUND: &str = "demo-data/survey-launch-as-found.toml";
const AS_CHANGED: &str = "demo-data/survey-launch-as-changed.toml";
/// What numbers lose in writing: nothing, so that two forms of one crossing differ by arithmetic only.
const SAME: f64 = 1e-9;

fn program() -> Command {
    let mut program = Command::new(env!("CARGO_BIN_EXE_bunkline"));
    program.current_dir(env!("CARGO_MANIFEST_DIR")).env_remove("NO_COLOR").env_remove("CLICOLOR_FORCE");
    program
}

fn ramp(arguments: &[&str]) -> Output {
    program().arg("ramp").args(arguments).output().expect("the program runs")
}

fn text(output: &[u8]) -> String {
    String::from_utf8(output.to_vec()).expect("what it writes is text")
}

/// What it reports when all is well.
fn told(arguments: &[&str]) -> String {
    let output = ramp(arguments);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    text(&output.stdout)
}

/// What it says when it has nothing to report.
fn refused(arguments: &[&str]) -> String {
    let output = ramp(arguments);
    let message = text(&output.stderr);
    assert_eq!(output.status.code(), Some(2), "{message}");
    assert!(output.stdout.is_empty() && !message.contains("panicked"), "{message}");
    message
}

fn json(arguments: &[&str]) -> Value {
    let arguments = [arguments, &["--format", "json"]].concat();
    serde_json::from_str(&told(&arguments)).expect("the report is JSON")
}

/// A demo rig with other ramps in its file.
fn with_ramps(name: &str, demo: &str, ramps: &str) -> String {
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join(demo);
    let content = fs::read_to_string(demo).expect("the demo is there");
    let start = content.find("[[ramps]]").expect("the demo has a ramp");
    let end = content[start..].find("\n\n[").map_or(content.len(), |end| start + end);
    let path = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    fs::write(&path, format!("{}{ramps}{}", &content[..start], &content[end..])).expect("it takes files");
    path.to_str().expect("its path is text").to_string()
}

/// Header, and every line's fields; none where a field is empty.
fn table(csv: &str) -> (Vec<String>, Vec<Vec<Option<f64>>>) {
    let mut lines = csv.lines();
    let header = lines.next().expect("a header").split(',').map(str::to_string).collect();
    let number = |field: &str| (!field.is_empty()).then(|| field.parse().expect("a number"));
    (header, lines.map(|line| line.split(',').map(number).collect()).collect())
}

#[test]
fn reports_as_people_read_them() {
    for (name, rig) in [("as-found", AS_FOUND), ("as-changed", AS_CHANGED)] {
        for units in ["us", "metric"] {
            let page = told(&[rig, "--units", units]);
            assert!(page.lines().all(|line| line.chars().count() <= 80), "wider than 80 columns");
            insta::assert_snapshot!(format!("{name}-{units}"), page);
        }
    }
}

#[test]
fn heads_as_people_read_them() {
    insta::assert_snapshot!("as-changed-heads", told(&[AS_CHANGED, "--grade", "6%..12%/2%"]));
}

/// The names of all fields, one a line, lists by their first element.
fn keys(value: &Value, path: &str, out: &mut Vec<String>) {
    match value {
        Value::Object(fields) => {
            for (key, value) in fields {
                keys(value, &format!("{path}.{key}"), out);
            }
        }
        Value::Array(values) if !values.is_empty() => keys(&values[0], &format!("{path}[]"), out),
        _ => out.push(path.to_string()),
    }
}

#[test]
fn json_has_the_same_keys_at_every_rig() {
    let mut all = [AS_FOUND, AS_CHANGED].map(|rig| {
        let document = json(&[rig]);
        let mut out = Vec::new();
        keys(&document["ramps"], "ramps", &mut out);
        // Where wheels hang there is a list of where.
        out.retain(|path| !path.contains(".hangs"));
        out
    });
    assert_eq!(all[0], all[1]);
    insta::assert_snapshot!("json-keys", std::mem::take(&mut all[0]).join("\n"));
}

#[test]
fn json_holds_the_extremes_of_the_csv() {
    for (rig, units) in [(AS_FOUND, "us"), (AS_CHANGED, "us"), (AS_CHANGED, "metric")] {
        let document = json(&[rig, "--units", units]);
        let found = &document["ramps"][0]["peaks"];
        let (header, lines) = table(&told(&[rig, "--units", units, "--format", "csv"]));
        let column = |name: &str| {
            let place = header.iter().position(|column| column.starts_with(name)).expect("a column");
            lines.iter().filter_map(move |line| line[place]).collect::<Vec<f64>>()
        };
        let greatest = |name: &str| column(name).into_iter().fold(f64::NEG_INFINITY, f64::max);
        let least = |name: &str| column(name).into_iter().fold(f64::INFINITY, f64::min);
        let same = |found: &Value, expected: f64| {
            let found = found["value"].as_f64().expect("a finite number");
            assert!((found - expected).abs() < SAME * expected.abs().max(1.0), "{found} {expected}");
        };
        for axle in 1..=3 {
            let peaks = &found["axles"][axle - 1];
            same(&peaks["greatest"], greatest(&format!("axle_{axle}")));
            same(&peaks["least"], least(&format!("axle_{axle}")));
        }
        same(&found["tongue_weight"]["greatest"], greatest("tongue_weight"));
        same(&found["tongue_weight"]["least"], least("tongue_weight"));
        same(&found["pull"], greatest("pull"));
        same(&found["drive_friction"], greatest("drive_friction"));
        same(&found["parked_friction"], greatest("parked_friction"));
        let clearances = found["clearances"].as_array().expect("a list");
        let lowest = clearances
            .iter()
            .min_by(|a, b| {
                a["least"]["value"].as_f64().partial_cmp(&b["least"]["value"].as_f64()).expect("numbers")
            })
            .expect("a low point");
        same(&lowest["least"], least("least_clearance"));
        // From the level to the end of the ramp, never back.
        let positions = column("position");
        assert!(positions.windows(2).all(|pair| pair[0] <= pair[1]));
        let (feet_100, unit) = if units == "us" { (1200.0, "in") } else { (30_480.0, "mm") };
        assert!(positions[0] < 0.0 && positions[positions.len() - 1] >= feet_100, "{unit}");
    }
}

#[test]
fn csv_names_its_columns() {
    let header = |units: &str| {
        told(&[AS_FOUND, "--units", units, "--format", "csv"]).lines().next().map(str::to_string)
    };
    assert_eq!(
        header("us").as_deref(),
        Some(
            "position_in,axle_1_lb,axle_2_lb,axle_3_lb,tongue_weight_lb,pull_lb,drive_friction,parked_friction,least_clearance_in,steady_friction"
        )
    );
    assert_eq!(
        header("metric").as_deref(),
        Some(
            "position_mm,axle_1_kg,axle_2_kg,axle_3_kg,tongue_weight_kg,pull_kg,drive_friction,parked_friction,least_clearance_mm,steady_friction"
        )
    );
}

const SHARP: &str =
    "[[ramps]]\nname = \"old slip\"\nprofile = [ { length = \"60 ft\", grade = \"35 %\" } ]\n";

#[test]
fn an_axle_that_holds_nothing_leaves_its_friction_empty() {
    // A head of 35 % lifts the tow vehicle's rear axle, which lies light and far behind its weight.
    let file = with_ramps("unloaded.toml", AS_FOUND, SHARP);
    let light = ["--set", "tow.rear_axle_load=600 lb", "--set", "tow.parking_brake=front"];
    let arguments = [&[file.as_str()], &light[..]].concat();
    let (header, lines) = table(&told(&[&arguments[..], &["--format", "csv"]].concat()));
    let [drive, parked] = ["drive_friction", "parked_friction"]
        .map(|name| header.iter().position(|column| column == name).expect("a column"));
    assert!(lines.iter().any(|line| line[drive].is_none()), "the rear wheels lift");
    assert!(lines.iter().any(|line| line[drive].is_some()));
    assert!(lines.iter().all(|line| line[parked].is_some_and(f64::is_finite)), "the front wheels hold");
    let page = told(&[&arguments[..], &["--full"]].concat());
    let friction = page.lines().find(|line| line.contains("friction, starting out")).expect("a line");
    assert!(friction.contains("unloaded"), "{friction}");
}

#[test]
fn as_found_is_too_much_for_the_ramp_and_as_changed_is_not() {
    let over = |rig: &str| -> Vec<String> {
        let document = json(&[rig]);
        let checks = document["checks"].as_array().expect("a list");
        let ids = checks.iter().filter(|check| {
            let ramp = check["id"].as_str().is_some_and(|id| id.starts_with("ramp-"));
            ramp && matches!(check["verdict"].as_str(), Some("fail" | "advise"))
        });
        ids.filter_map(|check| check["id"].as_str()).map(str::to_string).collect()
    };
    // At 50 psi the tires hold less than their rating at 65.
    assert_eq!(over(AS_FOUND), ["ramp-axle-1", "ramp-tire-1", "ramp-tire-2", "ramp-traction-drive"]);
    assert_eq!(over(AS_CHANGED), ["ramp-traction-drive"]);
}

#[test]
fn one_ramp_or_one_case_may_be_asked_for() {
    let two = format!(
        "{SHARP}\n[[ramps]]\nname = \"new slip\"\nprofile = [ {{ length = \"60 ft\", grade = \"8 %\" }} ]\n"
    );
    let file = with_ramps("two.toml", AS_CHANGED, &two);
    let names = |arguments: &[&str]| -> Vec<String> {
        let document = json(&[&[file.as_str()], arguments].concat());
        let ramps = document["ramps"].as_array().expect("a list");
        ramps.iter().map(|ramp| format!("{} {}", ramp["name"], ramp["case"]).replace('"', "")).collect()
    };
    let full = "out to the survey, tank full";
    let low = "home again, tank low, crates ashore";
    assert_eq!(names(&["--ramp", "new slip", "--case", low]), [format!("new slip {low}")]);
    assert_eq!(names(&["--case", full]), [format!("old slip {full}"), format!("new slip {full}")]);
    // The steeper one uses more of its ratings, and is the one whose positions are told.
    let csv = |arguments: &[&str]| told(&[&[file.as_str(), "--format", "csv"], arguments].concat());
    assert_eq!(csv(&[]), csv(&["--ramp", "old slip"]));
    assert_ne!(csv(&[]), csv(&["--ramp", "new slip"]));

    let message = refused(&[&file, "--ramp", "new slips"]);
    assert!(message.contains("expected the name of a ramp (`old slip`, `new slip`)"), "{message}");
    assert!(message.contains("did you mean `new slip`?"), "{message}");
    let message = refused(&[&file, "--case", "out to the survey, tank ful"]);
    assert!(message.contains(&format!("did you mean `{full}`?")), "{message}");
    assert!(!refused(&[&file, "--ramp", "quarry"]).contains("did you mean"));
}

#[test]
fn the_step_is_how_far_apart_positions_are() {
    let lines = |step: &str| table(&told(&[AS_FOUND, "--format", "csv", "--step", step])).1;
    let (coarse, fine) = (lines("6 in"), lines("3 in"));
    assert!(fine.len() > coarse.len());
    // Twenty looks on the level and on the lower run are 6 in apart, nearly: the trailer turns a little.
    let apart = coarse[1][0].expect("a position") - coarse[0][0].expect("a position");
    assert!((apart - 6.0).abs() < 1e-6, "{apart}");
    for (bad, expected) in [
        ("3", "expected a unit"),
        ("0 in", "expected a step of 1 mm to 500 mm"),
        ("-1 in", "expected a step of 1 mm to 500 mm"),
        ("2 ft", "expected a step of 1 mm to 500 mm"),
        ("wide", "expected"),
    ] {
        let message = refused(&[AS_FOUND, &format!("--step={bad}")]);
        assert!(message.contains(expected), "{bad}: {message}");
    }
}

#[test]
fn the_steepest_head_is_searched() {
    let document = json(&[AS_FOUND, "--grade", "6%..12%/3%"]);
    let heads = &document["heads"][0];
    let steepest = heads["steepest"].as_f64();
    assert!(steepest.is_some_and(|grade| grade > 0.06 && grade < 0.12), "{heads}");
    // Where none of the grades holds, that is the answer, and the exit code says so.
    let output = ramp(&[AS_FOUND, "--grade", "20%..25%/5%"]);
    assert_eq!(output.status.code(), Some(1), "{}", text(&output.stderr));
    assert!(
        text(&output.stdout).contains("There is no grade among those tried at which every rating holds.")
    );
    // A head on which the trailer leaves its wheels is no rating exceeded.
    let output = ramp(&[AS_CHANGED, "--grade", "100%..100%/1%"]);
    assert_eq!(output.status.code(), Some(1), "{}", text(&output.stderr));
    assert!(text(&output.stdout).contains("100.0 %  no rest"), "{}", text(&output.stdout));
    for (bad, expected) in [
        ("10%", "expected FROM..TO/STEP"),
        ("5%..10%", "expected FROM..TO/STEP"),
        ("10%..5%/1%", "expected rising grades"),
        ("-5%..5%/1%", "expected rising grades"),
        ("5%..10%/0%", "expected rising grades"),
        ("5%..10%/-1%", "expected rising grades"),
        ("5%..101%/1%", "expected rising grades"),
        ("0%..90deg/1%", "expected"),
        ("0%..100%/0.01%", "expected at most 1000 grades"),
        ("5..10/1", "expected a unit"),
        ("a..b/c", "expected a slope"),
    ] {
        let message = refused(&[AS_FOUND, &format!("--grade={bad}")]);
        assert!(message.contains(expected), "{bad}: {message}");
    }
    let message = refused(&[AS_FOUND, "--grade", "5%..10%/1%", "--format", "csv"]);
    assert!(message.contains("expected --format text, json or html with --grade"), "{message}");
}

/// A grade up to which every rating holds is rounded down: at what is shown they hold, a tenth of a percent above it they do not.
#[test]
fn the_steepest_head_that_is_shown_holds() {
    for rig in [AS_FOUND, AS_CHANGED] {
        let shown = text(&ramp(&[rig]).stdout).split_whitespace().collect::<Vec<_>>().join(" ");
        let (_, rest) = shown.split_once("with the head at up to ").expect("the steepest head");
        let tenths = rest.split_once(" %").and_then(|(grade, _)| grade.parse::<f64>().ok()).expect("a grade");
        let above = tenths + 0.1;
        let tried = json(&[rig, "--grade", &format!("{tenths}%..{above}%/0.1%")]);
        let holds =
            tried["heads"][0]["grades"].as_array().expect("grades").iter().map(|at| at["holds"].clone());
        assert_eq!(holds.collect::<Vec<_>>(), [true, false], "{shown}");
    }
}

#[test]
fn one_ramp_with_an_answer_is_an_answer() {
    let ramp_of = |name: &str, ease: &str| {
        format!(
            "[[ramps]]\nname = \"{name}\"\nease = \"{ease}\"\nprofile = [ {{ length = \"30 ft\", grade = \"2 %\" }}, \
             {{ length = \"70 ft\", grade = \"10 %\" }} ]\n"
        )
    };
    // Over a curve of 28 ft the axles share where over an edge they do not.
    let (abrupt, eased) = (ramp_of("abrupt", "0 in"), ramp_of("eased", "28 ft"));
    for (ramps, code) in [(abrupt.clone() + &eased, 0), (eased.clone() + &abrupt, 0), (abrupt, 1), (eased, 0)]
    {
        let file = with_ramps("two-ramps.toml", AS_FOUND, &ramps);
        let output = ramp(&[&file, "--grade", "10%..16%/3%"]);
        assert_eq!(output.status.code(), Some(code), "{}", text(&output.stdout));
    }
}

#[test]
fn a_head_without_loads_is_unknown() {
    let path = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("least-with-ramp.toml");
    let least =
        "format = 1\n[[trailer.axles]]\n[[ramps]]\nprofile = [ { length = \"30 ft\", grade = \"12 %\" } ]\n";
    fs::write(&path, least).expect("it takes files");
    let output = ramp(&[path.to_str().expect("its path is text"), "--grade", "8%..9%/1%"]);
    // No answer was found.
    assert_eq!(output.status.code(), Some(1), "{}", text(&output.stderr));
    let page = text(&output.stdout);
    assert!(page.contains("8.0 %  unknown") && page.contains("Nothing about the ramp could be"), "{page}");
    assert!(!page.contains("over"), "{page}");
}

#[test]
fn a_rig_without_ramps_is_told_so() {
    let message = refused(&["demo-data/fishing-skiff.toml"]);
    assert!(message.contains("expected one or more [[ramps]] in the file, found none"), "{message}");
    assert!(message.contains("help: begin with a name and a profile of runs"), "{message}");
}

#[test]
fn a_reader_may_stop_reading() {
    let mut child = program()
        .args(["ramp", AS_FOUND, "--format", "csv"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program runs");
    // Closed before it has written more than a pipe holds.
    drop(child.stdout.take());
    let output = child.wait_with_output().expect("the program ends");
    assert!(output.stderr.is_empty(), "{}", text(&output.stderr));
    assert_eq!(output.status.code(), Some(0));
}

/// A page in one line: the gravest cautions stand beside the verdict.
fn cautions(page: &str) -> String {
    page.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn a_ramp_shorter_than_the_rig_is_told() {
    let short = "[[ramps]]\nname = \"stub\"\nprofile = [ { length = \"12 ft\", grade = \"12 %\" } ]\n";
    let cautions = cautions(&told(&[&with_ramps("short.toml", AS_CHANGED, short)]));
    assert!(
        cautions.contains("\"stub\" ends before the whole tow vehicle is past its last break"),
        "{cautions}"
    );
}

#[test]
fn a_trailer_that_leaves_its_wheels_is_told() {
    // Rigs that no ramp should meet: on none does a number fail to be one.
    let cliff = "[[ramps]]\nname = \"quay\"\nprofile = [ { length = \"2 ft\", grade = \"100 %\" }, { length = \"60 ft\", grade = \"-100 %\" } ]\n";
    let steep = "[[ramps]]\nname = \"quay\"\nprofile = [ { length = \"60 ft\", grade = \"100 %\" } ]\n";
    let bank = "[[ramps]]\nname = \"quay\"\nprofile = [ { length = \"60 ft\", grade = \"-100 %\" } ]\n";
    let mut stranded = 0;
    for (name, ramps) in [("cliff.toml", cliff), ("steep.toml", steep), ("bank.toml", bank)] {
        let file = with_ramps(name, AS_CHANGED, ramps);
        let page = told(&[&file]);
        assert!(!page.contains("NaN") && !page.contains("inf "), "{page}");
        let document = json(&[&file]);
        if !document["ramps"][0]["stranded"].is_null() {
            stranded += 1;
            let cautions = cautions(&page);
            assert!(cautions.contains("quay"), "{cautions}");
            let output = ramp(&[&file, "--format", "csv"]);
            assert_eq!(output.status.code(), Some(2));
            assert!(text(&output.stderr).contains("the trailer"), "{}", text(&output.stderr));
        }
    }
    assert!(stranded > 0, "one of these is beyond any trailer");
}

#[test]
fn a_ramp_without_loads_is_no_pass() {
    let ramps = "[[ramps]]\nname = \"lane\"\nfriction = \"60 %\"\nprofile = [ { length = \"100 ft\", grade = \"6 %\" } ]\n\n[[ramps]]\nname = \"quay\"\nprofile = [ { length = \"100 ft\", grade = \"100 %\" } ]\n";
    let file = with_ramps("lane-and-quay.toml", AS_CHANGED, ramps);
    let page = told(&[&file]);
    let first = "FAIL  On the ramp, the trailer does not rest on its wheels all the way (\"quay\").";
    assert!(page.starts_with(first), "{page}");
    assert!(!page.contains("what to fill in"), "nothing is missing: {page}");
    let document = json(&[&file]);
    let checks = document["checks"].as_array().expect("a list");
    for check in
        checks.iter().filter(|check| check["id"].as_str().is_some_and(|id| id.starts_with("ramp-axle")))
    {
        assert_eq!(check["verdict"], "not-checked", "{check}");
    }
    // The ramp beside it passes by itself.
    assert!(told(&[&file, "--ramp", "lane"]).starts_with("PASS"));
    // No grade holds on a ramp that cannot be crossed.
    assert_eq!(ramp(&[&file, "--ramp", "quay", "--grade", "98%..100%/2%"]).status.code(), Some(1));
}

/// A tow vehicle so light behind that the trailer lifts its rear axle.
#[test]
fn an_axle_of_the_tow_vehicle_that_lifts_is_told() {
    let sharp = ["--set", "ramps.1.profile.2.grade=40%", "--set", "ramps.1.ease=0 in"];
    let light = ["--set", "tow.rear_axle_load=900 lb", "--set", "tow.front_axle_load=6800 lb"];
    let page = told(&[&[AS_FOUND][..], &sharp, &light].concat());
    assert!(cautions(&page).contains("an axle of the parked tow vehicle lifts"), "{page}");
    // As it is, both its axles stay down even there.
    let page = told(&[&[AS_FOUND][..], &sharp].concat());
    assert!(!cautions(&page).contains("an axle of the parked tow vehicle lifts"), "{page}");
}
