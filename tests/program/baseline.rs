//! Baselines: what a club's rigs were worth once, and what got worse since.

use super::club::{bunkline, folder, printed, root, said};
use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Output;

/// The demo's club with a baseline of it, and a rig that fails in both.
fn club(name: &str) -> PathBuf {
    let demo = |path: &str| fs::read_to_string(root().join("demo-data").join(path)).expect("a demo");
    let files = ["safety-boat.toml", "work-punt.toml", "shared/truck.toml"]
        .map(|path| (format!("club/{path}"), demo(&format!("club/{path}"))));
    let failing = ("club/launch.toml".to_string(), demo("electric-day-launch.toml"));
    let files: Vec<(&str, &str)> =
        files.iter().chain([&failing]).map(|(path, text)| (path.as_str(), text.as_str())).collect();
    let folder = folder(&format!("baseline-{name}"), &files);
    let written = bunkline(&folder, &["check", "club", "--write-baseline", "club/base.json", "--summary"]);
    assert_eq!(written.status.code(), Some(1), "{}", said(&written));
    assert_eq!(said(&written), "note: 3 rigs written to club/base.json: how each stands\n");
    folder
}

fn against(folder: &Path, more: &[&str]) -> Output {
    bunkline(folder, &[&["check", "club", "--baseline", "club/base.json"], more].concat())
}

/// Replaces one text in a file by another.
fn edit(folder: &Path, file: &str, from: &str, to: &str) {
    let path = folder.join(file);
    let text = fs::read_to_string(&path).expect("a file");
    assert!(text.contains(from), "{text}");
    fs::write(path, text.replace(from, to)).expect("a file");
}

#[test]
fn a_set_against_itself_is_quiet() {
    let folder = club("itself");
    let base = folder.join("club/base.json");
    let text = fs::read_to_string(&base).expect("a baseline");
    // (3900 − 370)/2 = 1765 lb on an axle of 3500.
    let line = "\n    \"axle-1\": { \"verdict\": \"pass\", \"margin\": 1735.0 },\n";
    assert!(
        text.contains(&format!(
            "  \"safety-boat.toml\": {{ \"verdict\": \"pass\", \"units\": \"us\", \"checks\": {{{line}"
        )),
        "{text}"
    );
    // From wherever, in whatever units: the paths are those from the baseline.
    let inside =
        bunkline(&folder.join("club"), &["check", ".", "--baseline", "base.json", "--units", "metric"]);
    for output in [against(&folder, &[]), inside, against(&folder, &["--format", "markdown"])] {
        assert_eq!(
            (output.status.code(), printed(&output), said(&output)),
            (Some(0), String::new(), String::new())
        );
    }
    let json: Value = serde_json::from_str(&printed(&against(&folder, &["--format", "json"]))).expect("JSON");
    assert_eq!(json, serde_json::json!({ "schema": 1, "worse": [], "not_checked_now": [], "gone": [] }));
    let junit = printed(&against(&folder, &["--format", "junit"]));
    assert!(junit.contains("tests=\"3\" failures=\"0\" errors=\"0\""), "{junit}");
    // Written again it is the same, to the letter.
    let again = bunkline(&folder, &["check", "club", "--write-baseline", "club/base.json", "--summary"]);
    assert_eq!(again.status.code(), Some(1));
    assert_eq!(fs::read_to_string(&base).expect("a baseline"), text);
}

#[test]
fn what_got_better_is_quiet_and_what_got_worse_is_named() {
    let folder = club("worse");
    edit(
        &folder,
        "club/safety-boat.toml",
        "coupler = { rating = \"7000 lb\"",
        "coupler = { rating = \"7500 lb\"",
    );
    let better = against(&folder, &[]);
    assert_eq!((better.status.code(), printed(&better)), (Some(0), String::new()));

    // Less on the tongue: 240/3900 = 6.2 %, and (3900 − 240)/2 = 1830 lb on an axle.
    edit(&folder, "club/safety-boat.toml", "\"370 lb\"", "\"240 lb\"");
    edit(&folder, "club/safety-boat.toml", "safety_chains", "#safety_chains");
    // More on one axle: 2150 − 185 = 1965 lb of 2200, with 235 to spare, which were 435.
    edit(&folder, "club/work-punt.toml", "\"1950 lb\"", "\"2150 lb\"");
    fs::rename(folder.join("club/launch.toml"), folder.join("club/new.toml")).expect("a file");
    let worse = against(&folder, &[]);
    assert_eq!(worse.status.code(), Some(1), "{}", said(&worse));
    insta::assert_snapshot!("baseline-text", printed(&worse));
    let markdown = printed(&against(&folder, &["--format", "markdown"]));
    assert!(
        markdown.contains("| `safety-chains` | was pass, is **not-checked** | 2600 lb |  |"),
        "{markdown}"
    );
    let junit = printed(&against(&folder, &["--format", "junit"]));
    assert!(junit.contains("axle-1: pass; margin was 435 lb, is 235 lb"), "{junit}");
    assert!(junit.contains("tongue-share: was pass, is fail; margin was 2.5 %, is -0.8 %"), "{junit}");
    let json: Value = serde_json::from_str(&printed(&against(&folder, &["--format", "json"]))).expect("JSON");
    let rig = &json["worse"][1];
    assert_eq!((&rig["path"], &rig["verdict"]["was"]), (&"club/safety-boat.toml".into(), &"pass".into()));
    let axle = rig["checks"]
        .as_array()
        .expect("checks")
        .iter()
        .find(|check| check["id"] == "axle-1")
        .expect("a row");
    assert!((axle["margin"]["is"].as_f64().expect("a margin") - 1670.0).abs() < 1e-6, "{axle}");
    assert_eq!(json["not_checked_now"], serde_json::json!(["launch.toml"]));
}

/// Whatever it would show now is hidden; one that was not asked for is another matter.
#[test]
fn a_rig_that_is_gone_is_no_pass() {
    let folder = club("vanished");
    let one = ["check", "club/safety-boat.toml", "--baseline", "club/base.json"];
    let unasked = bunkline(&folder, &one);
    assert_eq!(unasked.status.code(), Some(0));
    assert!(
        printed(&unasked)
            .trim_start()
            .starts_with("In the baseline, but not checked now: launch.toml, work-punt.toml.")
    );
    fs::remove_file(folder.join("club/launch.toml")).expect("a file");
    // No longer a rig, as far as can be seen.
    fs::write(folder.join("club/work-punt.toml"), "title = \"punt\"\n").expect("a file");
    let output = against(&folder, &[]);
    assert_eq!(output.status.code(), Some(1), "{}", printed(&output));
    let text = printed(&output);
    assert!(text.starts_with("2 rigs of club/base.json are gone\n"), "{text}");
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("Gone: launch.toml, work-punt.toml."), "{text}");
    assert!(text.contains("--write-baseline club/base.json"), "{text}");
    let json: Value = serde_json::from_str(&printed(&against(&folder, &["--format", "json"]))).expect("JSON");
    assert_eq!(json["gone"], serde_json::json!(["launch.toml", "work-punt.toml"]));
    assert_eq!(json["not_checked_now"], json["gone"]);
    let junit = printed(&against(&folder, &["--format", "junit"]));
    assert!(
        junit.contains("tests=\"3\" failures=\"2\"") && junit.contains("is in club/base.json, and gone"),
        "{junit}"
    );
    // One that is gone for good, and of which nobody asked: the file is not there.
    assert_eq!(bunkline(&folder, &one).status.code(), Some(1));
    let again = bunkline(&folder, &["check", "club", "--write-baseline", "club/base.json", "--summary"]);
    assert_eq!(again.status.code(), Some(0), "{}", said(&again));
    assert_eq!(against(&folder, &[]).status.code(), Some(0));
}

#[test]
fn a_row_that_held_and_is_gone_got_worse() {
    let folder = club("gone");
    edit(&folder, "club/work-punt.toml", "include = [\"shared/truck.toml\"]", "");
    let worse = against(&folder, &[]);
    assert_eq!(worse.status.code(), Some(1));
    assert!(printed(&worse).contains("tow-gvwr"), "{}", printed(&worse));
}

#[test]
fn a_failure_does_not_hide_behind_a_missing_key() {
    let folder = club("hidden");
    edit(&folder, "club/launch.toml", "tongue_rating = \"700 lb\"", "#");
    let worse = against(&folder, &[]);
    assert_eq!(worse.status.code(), Some(1));
    let lines: Vec<String> = printed(&worse).lines().map(str::to_string).collect();
    assert_eq!(lines[..2], ["1 rig got worse since club/base.json", ""]);
    assert_eq!(lines[2], "club/launch.toml is fail as before, with checks that got worse");
    assert!(
        lines.iter().any(|line| line.starts_with("  coupler-tongue  was fail, is not-checked")),
        "{lines:?}"
    );
}

#[test]
fn a_broken_rig_ends_with_2_beside_a_baseline_too() {
    let folder = club("broken");
    fs::write(folder.join("club/broken.toml"), "format = 2\n").expect("a file");
    edit(&folder, "club/work-punt.toml", "\"1950 lb\"", "\"2150 lb\"");
    let output = against(&folder, &[]);
    assert_eq!(output.status.code(), Some(2));
    assert!(said(&output).contains("--> club/broken.toml:1:10"), "{}", said(&output));
    assert!(printed(&output).starts_with("1 rig got worse since club/base.json\n"), "{}", printed(&output));
    let base = fs::read(folder.join("club/base.json")).expect("a baseline");
    let write = bunkline(&folder, &["check", "club", "--write-baseline", "club/base.json"]);
    assert_eq!(write.status.code(), Some(2));
    assert!(
        said(&write).contains("note: no baseline was written: not every rig was checked"),
        "{}",
        said(&write)
    );
    assert_eq!(fs::read(folder.join("club/base.json")).expect("a baseline"), base);
}

#[test]
fn what_is_no_baseline_is_refused_before_anything_is_checked() {
    let folder = club("unreadable");
    let base = fs::read_to_string(folder.join("club/base.json")).expect("a baseline");
    let cases = [
        (
            "not-json",
            "format = 1\n".to_string(),
            "bad.json:1:2: expected a baseline as --write-baseline writes it, found text that is no JSON",
        ),
        (
            "cut",
            base[..base.len() / 2].to_string(),
            ": expected a baseline as --write-baseline writes it, found its end too soon: it is cut off",
        ),
        (
            "other",
            "{\"schema\":1}".to_string(),
            "bad.json: expected a baseline as --write-baseline writes it, found other JSON",
        ),
        (
            "newer",
            base.replace("\"schema\": 1", "\"schema\": 2"),
            "bad.json: expected a baseline of schema 1, found schema 2",
        ),
        (
            "none",
            base.replace("\"schema\": 1,", ""),
            "bad.json: expected a baseline of schema 1, found schema none",
        ),
        (
            "word",
            base.replacen("\"thin\"", "\"thick\"", 1),
            "`thick` in place of one of pass, thin, advise, unsure, fail, not-checked",
        ),
        ("no-text", "\u{0}".to_string(), "bad.json:1:1: "),
        ("text", "here\n".to_string(), "found text that is no JSON"),
        ("half", base[..base.len() / 2].to_string(), "found its end too soon: it is cut off"),
        ("list", "[1]".to_string(), "bad.json:1:"),
        ("number", "5".to_string(), "found `5` in place of a baseline: schema, kind and rigs"),
        ("no-rigs", base.replacen("\"rigs\"", "\"boats\"", 1), "found no `rigs` here"),
        (
            "rig",
            base.replacen("\"safety-boat.toml\": {", "\"safety-boat.toml\": 7, \"x\": {", 1),
            "found `7` in place of a rig: its verdict, units and checks",
        ),
        (
            "check",
            base.replacen("\"axle-1\": {", "\"axle-1\": \"fine\", \"x\": {", 1),
            "found \"fine\" in place of a check: its verdict and margin",
        ),
        ("margin", base.replacen("1735.0", "\"wide\"", 1), "found \"wide\" in place of a number"),
        (
            "unit",
            base.replacen("\"units\": \"us\"", "\"units\": 3", 1),
            "found `3` in place of a word in quotes",
        ),
    ];
    for (name, text, why) in cases {
        fs::write(folder.join("bad.json"), text).expect("a file");
        let output = bunkline(&folder, &["check", "club", "--baseline", "bad.json", "--format", "json"]);
        assert_eq!((output.status.code(), printed(&output)), (Some(2), String::new()), "{name}");
        let said = said(&output);
        assert!(said.contains(why), "{name}: {said}");
        // No names of the program's own.
        let leaks =
            ["struct", "invalid type", "field", "FileR", "Head", "f64", "ident", "EOF", "map", "sequence"];
        assert!(leaks.iter().all(|leak| !said.contains(leak)), "{name}: {said}");
    }
    for (file, why) in [
        ("gone.json", "gone.json: expected a readable baseline, found: "),
        ("club", "club: expected a readable baseline, found: "),
    ] {
        let output = bunkline(&folder, &["check", "club", "--baseline", file]);
        assert_eq!((output.status.code(), printed(&output)), (Some(2), String::new()));
        assert!(said(&output).contains(why), "{}", said(&output));
    }
}

#[test]
fn a_baseline_is_written_over_nothing_but_an_older_one() {
    let folder = club("places");
    let files = ["club/safety-boat.toml", "club/shared/truck.toml", "notes.txt", "club/base.json"];
    fs::write(folder.join("notes.txt"), "ours").expect("a file");
    let before = files.map(|file| fs::read(folder.join(file)).expect("a file"));
    let refused = |arguments: &[&str], why: &str| {
        let output = bunkline(&folder, arguments);
        assert_eq!((output.status.code(), printed(&output)), (Some(2), String::new()), "{arguments:?}");
        assert!(said(&output).contains(why), "{arguments:?}: {}", said(&output));
    };
    for place in &files[..3] {
        refused(&["check", "club", "--write-baseline", place], "found another file: ");
    }
    refused(&["check", "club", "--write-baseline", "club"], "found a folder or a device: club");
    let both =
        ["check", "club", "--baseline", "club/base.json", "--write-baseline", "club/shared/../base.json"];
    refused(&both, "found the one that is read: ");
    refused(&["check", "-", "--write-baseline", "new.json"], "found standard input");
    refused(
        &["check", "club", "--write-baseline", "new.json", "--set", "shift.boat=1in"],
        "cannot be used with",
    );
    assert_eq!(files.map(|file| fs::read(folder.join(file)).expect("a file")), before);
    assert!(!folder.join("new.json").exists());
    let nowhere = bunkline(&folder, &["check", "club", "--write-baseline", "no/where.json", "--summary"]);
    assert_eq!(nowhere.status.code(), Some(2));
    assert!(said(&nowhere).contains("expected to write no/where.json, found: "), "{}", said(&nowhere));
    let hidden = fs::read_dir(folder.join("club")).expect("a folder").flatten();
    assert!(hidden.into_iter().all(|entry| !entry.file_name().to_string_lossy().starts_with('.')));
}

#[test]
fn a_new_rig_with_a_misread_figure_says_which() {
    let folder = club("misread");
    let punt = fs::read_to_string(folder.join("club/work-punt.toml")).expect("a rig");
    // A digit too many in the rating of the axle.
    let line = punt.lines().find(|line| line.starts_with("rating = ")).expect("a rating");
    let wrong = punt.replacen(line, "rating = \"35000 lb\"", 1);
    fs::write(folder.join("club/new.toml"), wrong).expect("a file");
    let printed = printed(&against(&folder, &[]));
    assert!(printed.contains("is new, and is unsure"), "{printed}");
    assert!(printed.replace('\n', " ").contains("rating is 35000 lb"), "{printed}");
    let junit = super::club::printed(&against(&folder, &["--format", "junit"]));
    assert!(junit.contains("35000 lb"), "{junit}");
}
