//! `bunkline place` through the program: what it prints passes when it is set, and what lies beyond fails.

use bunkline::Rig;
use bunkline::fit::{Verdict, assess};
use serde_json::Value;
use std::collections::BTreeMap;
use std::process::{Command, Output};
use std::sync::{Arc, Mutex, OnceLock};

const AS_FOUND: &str = "demo-data/survey-launch-as-found.toml";
const AS_CHANGED: &str = "demo-data/survey-launch-as-changed.toml";
const SKIFF: &str = "demo-data/fishing-skiff.toml";
const CUTTER: &str = "demo-data/pilot-cutter.toml";
const CRAB_BOAT: &str = "demo-data/crab-boat.toml";
const DEMOS: [&str; 6] =
    [AS_FOUND, AS_CHANGED, SKIFF, "demo-data/electric-day-launch.toml", CUTTER, CRAB_BOAT];

fn run(arguments: &[&str]) -> Output {
    let mut program = Command::new(env!("CARGO_BIN_EXE_bunkline"));
    program.current_dir(env!("CARGO_MANIFEST_DIR")).env_remove("NO_COLOR").env_remove("CLICOLOR_FORCE");
    program.args(arguments).output().expect("the program runs")
}

/// What it prints, with its exit code.
fn printed(arguments: &[&str]) -> (String, Option<i32>) {
    let output = run(arguments);
    (String::from_utf8(output.stdout).expect("text"), output.status.code())
}

fn json(arguments: &[&str]) -> Value {
    let (text, _) = printed(&[arguments, &["--format", "json"]].concat());
    serde_json::from_str(&text).expect("JSON")
}

/// What `place` says of a rig.
struct Placed {
    text: String,
    code: Option<i32>,
    json: Value,
}

/// The boat of each demo is moved, and of some its axles and tongue.
fn placings() -> impl Iterator<Item = Asked> {
    let boats = DEMOS.map(|file| (file, "boat", "us"));
    let others = [AS_CHANGED, SKIFF, CUTTER].map(|file| [(file, "axles", "us"), (file, "tongue", "metric")]);
    boats.into_iter().chain(others.into_iter().flatten())
}

/// A rig, what is moved, and the units of the report.
type Asked = (&'static str, &'static str, &'static str);

/// What is said of a demo, found once for all tests. Only the boat is moved over the ramps, which take long to cross.
fn placed(asked: Asked) -> Arc<Placed> {
    static FOUND: Mutex<BTreeMap<Asked, Arc<OnceLock<Arc<Placed>>>>> = Mutex::new(BTreeMap::new());
    let cell = FOUND.lock().expect("no test fails while it looks up").entry(asked).or_default().clone();
    let find = || {
        let (file, by, units) = asked;
        let mut arguments = vec!["place", file, "--by", by, "--units", units];
        arguments.extend((by != "boat").then_some("--no-ramps"));
        let (text, code) = printed(&arguments);
        Arc::new(Placed { text, code, json: json(&arguments) })
    };
    cell.get_or_init(find).clone()
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

/// The ids of the checks that fail with a change, by the values as they stand: so windows go.
fn failing(file: &str, change: &str) -> Vec<String> {
    let path = format!("{}/{file}", env!("CARGO_MANIFEST_DIR"));
    let rig = Rig::read(file, &std::fs::read_to_string(path).expect("a demo"), &[change]).expect("it reads");
    let found = assess(&rig).expect("it settles");
    let failing = found.rows.iter().filter(|row| row.verdict == Verdict::Fail);
    failing.map(bunkline::fit::Row::id).collect()
}

/// The ids of the rows that count and that no move mends.
fn unmendable(place: &Value) -> Vec<String> {
    let limits = place["limits"].as_array().expect("limits").iter();
    let never = limits.filter(|limit| limit["counts"] == true && limit["mendable"] == false);
    never.map(|limit| limit["check"].as_str().expect("an id").to_string()).collect()
}

/// What fails with a change beside what no move mends.
fn mendable_failing(file: &str, place: &Value, change: &str) -> Vec<String> {
    let left_out = unmendable(place);
    failing(file, change).into_iter().filter(|id| !left_out.contains(id)).collect()
}

#[test]
fn the_shift_that_is_printed_passes_when_it_is_set() {
    for (file, by, units) in placings() {
        let placed = placed((file, by, units));
        let Placed { text, code, json } = &*placed;
        let place = &json["place"];
        assert_eq!(*code, Some(i32::from(place["answer"] != true)), "{text}");
        let key = format!("shift.{by}");
        let line = text.lines().find_map(|line| line.trim().strip_prefix(&format!("{key} = ")));
        let Some(line) = line else {
            assert!(place["spot"].is_null(), "{text}");
            continue;
        };
        let failing = mendable_failing(file, place, &format!("{key}={line}"));
        assert!(failing.is_empty(), "{file} {key}={line}: {failing:?}");
        let unit = if units == "us" { "in" } else { "mm" };
        assert!(line.ends_with(&format!("{unit}\"")), "{line}");
    }
}

#[test]
fn a_window_holds_up_to_its_ends_and_no_farther() {
    for file in DEMOS {
        let placed = placed((file, "boat", "us"));
        let place = &placed.json["place"];
        for window in place["windows"].as_array().expect("windows") {
            for (end, outward) in [("from", -1.0), ("to", 1.0)] {
                let at = number(&window[end]);
                let set = |at: f64| format!("shift.boat={at:.9} in");
                // A thousandth of an inch inside.
                let failing = mendable_failing(file, place, &set(at - outward * 1e-3));
                assert!(failing.is_empty(), "{file} at {at} in: {failing:?}");
                let closer = &window["closed_by"][end];
                if closer["what"] == "limit" {
                    let failing = mendable_failing(file, place, &set(at + outward * 1e-3));
                    let check = closer["limit"]["check"].as_str().expect("an id").to_string();
                    assert!(failing.contains(&check), "{file} beyond {at} in: {failing:?}, not {check}");
                } else {
                    assert_eq!(
                        closer["what"],
                        if place["range"]["stated"] == true { "travel" } else { "range" }
                    );
                    assert!(closer["limit"].is_null() && at == number(&place["range"][end]));
                }
            }
        }
    }
}

/// A printed move as a change would write it.
fn signed(words: &str) -> String {
    match (words.strip_suffix(" forward"), words.strip_suffix(" aft")) {
        (Some(size), _) => format!("-{size}"),
        (_, Some(size)) => size.to_string(),
        _ => panic!("{words} goes neither way"),
    }
}

#[test]
fn the_ends_that_are_printed_hold() {
    for (file, units) in [(SKIFF, "us"), (SKIFF, "metric"), (AS_FOUND, "us")] {
        let placed = placed((file, "boat", units));
        let Placed { text, json, .. } = &*placed;
        let place = &json["place"];
        let ends = text.lines().filter_map(|line| {
            let line = line.trim_start_matches([' ', '-']);
            let rest = line.strip_prefix("forward end, ").or_else(|| line.strip_prefix("aft end, "))?;
            Some(rest.split_once(':').expect("what closes it").0)
        });
        let ends: Vec<&str> = ends.collect();
        assert_eq!(ends.len(), 2, "{text}");
        for end in ends {
            let failing = mendable_failing(file, place, &format!("shift.boat={}", signed(end)));
            assert!(failing.is_empty(), "{file} at {end}: {failing:?}");
        }
    }
}

#[test]
fn units_of_the_report_do_not_move_the_windows() {
    for file in [SKIFF, CUTTER] {
        let placed = ["us", "metric"].map(|units| placed((file, "boat", units)));
        let [us, metric] = placed.each_ref().map(|placed| &placed.json);
        assert_eq!(us["units"]["length"], "in");
        assert_eq!(metric["units"]["length"], "mm");
        let (us, metric) = (&us["place"]["windows"], &metric["place"]["windows"]);
        let (us, metric) = (us.as_array().expect("windows"), metric.as_array().expect("windows"));
        assert_eq!(us.len(), metric.len());
        for (us, metric) in us.iter().zip(metric) {
            for end in ["from", "to"] {
                // The same search: only the writing differs.
                let off = number(&us[end]) * 25.4 - number(&metric[end]);
                assert!(off.abs() < 1e-9, "{file}: {us} {metric}");
            }
        }
    }
}

#[test]
fn what_is_told_at_the_spot_is_what_check_tells_there() {
    for file in DEMOS {
        let placed = placed((file, "boat", "us"));
        let report = &placed.json;
        let spot = &report["place"]["spot"];
        let change = format!("shift.boat={:.12} in", number(&spot["shift"]));
        let check = json(&["check", file, "--units", "us", "--set", &change]);
        assert_eq!(report["verdict"], check["verdict"]);
        let cases = report["cases"].as_array().expect("cases").iter();
        for (place, check) in cases.zip(check["cases"].as_array().expect("cases")) {
            // A shift is written to 1e-12 in.
            let off = number(&place["tongue_weight"]) - number(&check["tongue_weight"]);
            assert!(off.abs() < 1e-6, "{file}: {place} {check}");
        }
    }
}

#[test]
fn a_report_is_for_reading() {
    for asked in placings() {
        let text = &placed(asked).text;
        // The title is the owner's.
        let long = text.lines().skip(1).find(|line| line.chars().count() > 80);
        assert_eq!(long, None);
        assert!(!text.contains("NaN") && !text.contains("inf ") && !text.contains("-0 "), "{text}");
    }
}

#[test]
fn the_survey_launch_is_told_where_to_sit() {
    insta::assert_snapshot!(placed((AS_FOUND, "boat", "us")).text);
    insta::assert_snapshot!(placed((AS_CHANGED, "boat", "us")).text);
}

#[test]
fn a_conflict_is_told_in_words() {
    let (text, code) = printed(&["place", SKIFF, "--set", "trailer.coupler.tongue_rating=150 lb"]);
    assert_eq!(code, Some(1));
    assert!(text.contains("Two limits conflict by"), "{text}");
}

#[test]
fn what_cannot_be_done_is_refused() {
    for (arguments, says) in [
        (&["place", "no-such-file.toml"][..], "expected a readable rig file"),
        (&["place", SKIFF, "--by", "keel"], "invalid value 'keel'"),
        (&["place", SKIFF, "--set", "policy.preferred_tongue_share=-9 %"], "expected"),
        (&["place", SKIFF, "--set", "policy.preferred_tongue_share=9 in"], "expected"),
    ] {
        let output = run(arguments);
        assert_eq!(output.status.code(), Some(2));
        let message = String::from_utf8(output.stderr).expect("text");
        assert!(output.stdout.is_empty() && message.contains(says), "{message}");
    }
}

#[test]
fn nothing_known_is_said() {
    let (text, code) = printed(&["new"]);
    assert_eq!(code, Some(0));
    let bare =
        text.lines().filter(|line| !line.starts_with("ball_height") && !line.starts_with("level_ball"));
    let file = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("place-bare.toml");
    std::fs::write(&file, bare.collect::<Vec<_>>().join("\n")).expect("a writable folder");
    let (text, code) = printed(&["place", file.to_str().expect("a plain path")]);
    assert_eq!(code, Some(1));
    assert!(text.contains("No check that must hold and could be made"), "{text}");
    assert!(text.contains("tow.ball_height"), "{text}");
}

#[test]
fn the_spot_can_be_written_into_a_rig_file() {
    let folder = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("placed");
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).expect("a folder");
    let new = folder.join("new.toml");
    let path = new.to_str().expect("a path of text");
    let file = "demo-data/survey-launch-as-changed.toml";
    let (printed, _) = printed(&["place", file, "--write", path]);
    // As printed, so written; comments stay.
    let original = std::fs::read_to_string(file).expect("a demo");
    let written = std::fs::read_to_string(&new).expect("it was written");
    assert!(printed.contains("shift.boat = \"-14 13/16 in\""), "{printed}");
    assert_eq!(written, original.replace("boat = \"-13 in\"  ", "boat = \"-14 13/16 in\"  "));
    // What stands there is not overwritten, and --set would not be in it.
    for refused in
        [&["place", file, "--write", path][..], &["place", file, "--write", "x", "--set", "units=us"]]
    {
        let output = run(refused);
        assert_eq!((output.status.code(), output.stdout.len()), (Some(2), 0), "{refused:?}");
    }
    // In place only when asked, and nothing where there is no window.
    run(&["place", path, "--in-place"]);
    assert_eq!(std::fs::read_to_string(&new).expect("it is there"), written);
    let weak = folder.join("weak.toml");
    let skiff = std::fs::read_to_string(SKIFF).expect("a demo");
    std::fs::write(&weak, skiff.replace("tongue_rating = \"500 lb\"", "tongue_rating = \"150 lb\""))
        .expect("a writable folder");
    let none = folder.join("none.toml");
    let [weak, to] = [&weak, &none].map(|path| path.to_str().expect("a path of text"));
    let output = run(&["place", weak, "--write", to]);
    assert_eq!(output.status.code(), Some(1));
    assert!(!none.exists());
    let note = String::from_utf8(output.stderr).expect("text");
    assert!(note.starts_with("note: nothing was written: there is no window"), "{note}");
}

/// The verdict of `check`, bounds and all, with the boat at a shift in the file's words, and its unsure checks.
fn checked(file: &str, changes: &[&str]) -> (Value, Vec<Value>) {
    let changes = changes.iter().flat_map(|change| ["--set", change]);
    let report = json(&["check", file].into_iter().chain(changes).collect::<Vec<_>>());
    let checks = report["checks"].as_array().expect("checks").iter();
    let unsure = checks.filter(|check| check["verdict"] == "unsure").map(|check| check["id"].clone());
    (report["verdict"].clone(), unsure.collect())
}

#[test]
fn the_spot_is_sure_where_the_bounds_leave_one() {
    let (text, _) = printed(&["place", CUTTER]);
    let report = json(&["place", CUTTER]);
    let spot = &report["place"]["spot"];
    // By the values as stated the middle of the window's part in which nothing advises, 21 mm forward, would be chosen:
    // the window begins 59 mm forward, and the hull hangs out more than is wanted from 17 mm aft. There it is unsure.
    assert_eq!(checked(CUTTER, &["shift.boat=-21 mm"]), ("unsure".into(), vec!["tongue-share".into()]));
    assert_eq!(number(&spot["search"]["as_stated"]), -21.0);
    assert_eq!(spot["search"]["unsure"], serde_json::json!(["tongue-share"]));
    // What is recommended passes, and so do both ends of the run that it is the middle of.
    let shift = number(&spot["shift"]);
    assert!(text.contains(&format!("shift.boat = \"{shift} mm\"")), "{text}");
    let sure = &spot["search"]["run"];
    let (from, to) = (number(&sure["from"]), number(&sure["to"]));
    for at in [from, shift, to] {
        assert_eq!(checked(CUTTER, &[&format!("shift.boat={at} mm")]), ("pass".into(), vec![]), "{at}");
    }
    // A stretch of 76 mm is tried every 4 mm: no spot is nearer to the middle by more than half of that and a
    // rounding of half a millimetre, and 6 mm before the run it is unsure.
    assert!((shift - f64::midpoint(from, to)).abs() <= 3.0, "{spot}");
    let before = checked(CUTTER, &[&format!("shift.boat={} mm", from - 6.0)]);
    assert_eq!(before.0, "unsure");
    assert_eq!((&spot["verdict"], &spot["sure"]), (&"pass".into(), &true.into()));
    assert!(text.contains("Windows are for the values as stated."), "{text}");
    // As recommended, so written.
    let new = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("placed-surely.toml");
    let _ = std::fs::remove_file(&new);
    let new = new.to_str().expect("a path of text");
    run(&["place", CUTTER, "--write", new]);
    assert_eq!(checked(new, &[]), ("pass".into(), vec![]));
}

#[test]
fn a_preferred_share_is_met_at_a_sure_spot() {
    // 9.5 % lies 20 mm and more forward of where the cutter stands, where its tongue share is unsure.
    let preferred = "policy.preferred_tongue_share=9.5%";
    let report = json(&["place", CUTTER, "--set", preferred]);
    let spot = &report["place"]["spot"];
    let search = &spot["search"];
    // The share falls as the boat goes aft: the nearest sure spot is the first of the run.
    assert!(number(&search["as_stated"]) < number(&search["run"]["from"]));
    assert_eq!(spot["shift"], search["run"]["from"]);
    let change = format!("shift.boat={} mm", number(&spot["shift"]));
    assert_eq!(checked(CUTTER, &[preferred, &change]), ("pass".into(), vec![]));
}

#[test]
fn where_no_spot_is_sure_it_is_said() {
    // The crab boat's gross weight, wherever it sits: 3300 + 480 + 260 + 366 + 1250 lb (60 gal × 6.1 lb) = 5656 lb,
    // ± 100 + 40 + 30 lb: at worst 5826 lb, over the trailer's 5800 lb.
    let (text, code) = printed(&["place", CRAB_BOAT]);
    assert_eq!(code, Some(0));
    assert!(text.contains("with trailer-gvwr unsure") && text.contains("none is sure"), "{text}");
    let report = json(&["place", CRAB_BOAT]);
    let spot = &report["place"]["spot"];
    assert_eq!((&spot["verdict"], &spot["sure"]), (&"unsure".into(), &false.into()));
    assert_eq!(spot["unsure"], serde_json::json!(["trailer-gvwr"]));
    assert!(spot["search"]["run"].is_null() && spot["search"]["as_stated"] == spot["shift"]);
    // With the hull weighed to 50 lb at worst 5776 lb: then the spot is sure at once.
    let report = json(&["place", CRAB_BOAT, "--set", "boat.weights.hull.weight=3300 lb ± 50 lb"]);
    let spot = &report["place"]["spot"];
    assert_eq!((&spot["verdict"], &spot["sure"]), (&"pass".into(), &true.into()));
    assert!(spot["search"].is_null());
    // Without any bound what is assumed is looked at all the same.
    let spot = &json(&["place", SKIFF])["place"]["spot"];
    assert_eq!(spot["sure"], true);
}
