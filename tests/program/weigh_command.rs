//! `bunkline weigh` as its users run it.

use bunkline::Rig;
use bunkline::quantity::show::UnitSystem;
use bunkline::report::weigh::to_write;
use bunkline::study::weigh::weigh;
use std::fs;
use std::path::PathBuf;
use std::process::{Command, Output};

const SKIFF: &str = "demo-data/weighed-skiff.toml";
const FISHING: &str = include_str!("../../demo-data/fishing-skiff.toml");

fn run(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_bunkline"))
        .arg("weigh")
        .args(arguments)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .expect("the program runs")
}

fn text(stream: &[u8]) -> String {
    String::from_utf8(stream.to_vec()).expect("text")
}

/// A report for reading: no line too long.
fn printed(arguments: &[&str], code: i32) -> String {
    let output = run(arguments);
    assert_eq!(output.status.code(), Some(code), "{}", text(&output.stderr));
    let report = text(&output.stdout);
    assert!(report.lines().all(|line| line.chars().count() <= 80), "{report}");
    report
}

/// A file of one test.
fn file(name: &str, text: &str) -> PathBuf {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("weigh");
    fs::create_dir_all(&folder).expect("a folder");
    let path = folder.join(name);
    let _ = fs::remove_file(&path);
    if !text.is_empty() {
        fs::write(&path, text).expect("a file");
    }
    path
}

fn reading(what: &str, weight: &str) -> String {
    format!("\n[[weighings]]\nwhat = \"{what}\"\nweight = \"{weight}\"\n")
}

/// The report of the one-axle skiff with these readings, without its path.
fn fishing(name: &str, readings: &[String], code: i32) -> String {
    let path = file(name, &(FISHING.to_string() + &readings.concat()));
    printed(&[path.to_str().expect("text")], code)
}

#[test]
fn the_demo_fits_a_screen() {
    let report = printed(&[SKIFF], 0);
    assert!(report.lines().count() <= 24, "{report}");
    insta::assert_snapshot!("weigh-us", report);
    insta::assert_snapshot!("weigh-metric", printed(&[SKIFF, "--units", "metric"], 0));
    insta::assert_snapshot!("weigh-json", printed(&[SKIFF, "--format", "json"], 0));
}

#[test]
fn contradictions_and_what_is_open_stand_first() {
    let readings = [
        reading("tongue", "235 lb ± 5 lb"),
        reading("tongue", "190 lb ± 5 lb"),
        reading("axles", "2350 lb ± 20 lb"),
    ];
    insta::assert_snapshot!("weigh-contradicted", fishing("contradicted.toml", &readings, 1));
    insta::assert_snapshot!("weigh-one", fishing("one.toml", &readings[..1], 1));
}

#[test]
fn a_rig_without_readings_says_what_to_write() {
    let output = run(&["demo-data/fishing-skiff.toml"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(output.stdout.is_empty());
    insta::assert_snapshot!("weigh-nothing", text(&output.stderr));
}

#[test]
fn a_key_that_a_reading_depends_on_is_named() {
    let text = FISHING.replace("bow_stop = \"4 ft\"\n", "") + &reading("tongue", "235 lb ± 5 lb");
    let path = file("lacks.toml", &text);
    let output = run(&[path.to_str().expect("text")]);
    assert_eq!(output.status.code(), Some(2));
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(said.contains("expected trailer.bow_stop, on which reading 1 depends"), "{said}");
    assert!(said.contains("`bunkline explain trailer.bow_stop`"), "{said}");
}

/// The rig that a written file must describe: what was found, as the report has it, in place of the readings.
fn meant(text: &str) -> Rig {
    let rig = Rig::parse(text).expect("a rig");
    let found = weigh(&rig).expect("weighed").found;
    let values = found.iter().filter_map(|found| Some((found.key, to_write(found, UnitSystem::Us)?.1)));
    rig.weighed(&values.collect::<Vec<_>>()).expect("a rig")
}

#[test]
fn what_is_written_reads_back_to_the_last_bit() {
    let skiff = fs::read_to_string(SKIFF).expect("a demo");
    let in_a_list = format!(
        "weighings = [\n  {{ what = \"tongue\", weight = \"235 lb ± 5 lb\" }}, # dry\n  {{ what = \"axles\", weight = \"2350 lb ± 20 lb\" }},\n]\n{FISHING}"
    );
    let alone = "format = 1\n[[trailer.axles]]\nstation = \"20 ft\"\n".to_string()
        + &reading("gross", "11420 lb ± 40 lb")
        + &reading("tongue", "1010 lb ± 20 lb");
    for (name, before) in
        [("skiff", &skiff), ("crlf", &skiff.replace('\n', "\r\n")), ("list", &in_a_list), ("alone", &alone)]
    {
        let old = file(&format!("{name}.toml"), before);
        let new = file(&format!("{name}-new.toml"), "");
        printed(&[old.to_str().expect("text"), "--write", new.to_str().expect("text")], 0);
        let after = fs::read_to_string(&new).expect("it was written");
        let (read, meant) = (Rig::parse(&after).expect("a rig"), meant(before));
        assert_eq!((read.measured(), read.proposed()), (meant.measured(), meant.proposed()), "{after}");
        assert_eq!(read.uncertain(), meant.uncertain());
        assert!(read.measured().weighings.is_empty());
        assert_eq!(fs::read_to_string(&old).expect("it stays"), *before);
        // Every line is there but for the values found, those of readings as comments.
        let found = |line: &str| line.contains('±') || line.contains("station =") || line.contains("1250 lb");
        let lines: Vec<&str> = after.lines().collect();
        for line in before.lines().filter(|line| !found(line)) {
            let comment = format!("# {line}");
            assert!(lines.contains(&line) || lines.contains(&comment.as_str()), "{line:?} in {after}");
        }
    }
}

#[test]
fn nothing_is_written_over_a_file_or_from_readings_that_give_no_answer() {
    let text_of_two =
        FISHING.to_string() + &reading("tongue", "235 lb ± 5 lb") + &reading("tongue", "190 lb ± 5 lb");
    let old = file("two.toml", &text_of_two);
    let old = old.to_str().expect("text");
    let output = run(&[old, "--write", old]);
    assert_eq!(output.status.code(), Some(2));
    assert!(text(&output.stderr).contains("expected a new file to write"));
    let new = file("never.toml", "");
    let output = run(&[old, "--write", new.to_str().expect("text")]);
    assert_eq!(output.status.code(), Some(1));
    assert!(text(&output.stderr).contains("nothing was written: the readings contradict"));
    assert!(!new.exists());
    assert_eq!(fs::read_to_string(old).expect("it stays"), text_of_two);
}

/// No case leaves the boat out, so that no reading of a case tells the trailer's own centre from the boat's.
#[test]
fn the_trailers_own_centre_asks_for_a_weighing_with_the_boat_off() {
    let readings = [reading("tongue", "235 lb ± 5 lb"), reading("axles", "2350 lb ± 20 lb")].concat();
    for (name, from, to) in [
        ("own-cg.toml", "tongue_weight = \"70 lb\"\n", ""),
        ("own-cg-stated.toml", "tongue_weight = \"70 lb\"\n", "cg = \"10 ft ± 8 in\"\n"),
    ] {
        assert!(FISHING.contains(from));
        let path = file(name, &(FISHING.replacen(from, to, 1) + &readings));
        let report = printed(&[path.to_str().expect("text")], 0);
        let report = report.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(report.contains("weigh the trailer's tongue with the boat off"), "{report}");
    }
    let both =
        FISHING.replacen("tongue_weight = \"70 lb\"\n", "", 1).replacen("weight = \"640 lb\"\n", "", 1);
    let path = file("own-all.toml", &(both + &readings));
    let report = printed(&[path.to_str().expect("text")], 0);
    let report = report.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(report.contains("weigh the trailer and its tongue with the boat off"), "{report}");
}

/// With tongue and axles exchanged the boat would lie ahead of her bow: said in the first line, and not written.
#[test]
fn an_impossible_boat_is_not_written() {
    let readings = [reading("tongue", "2350 lb ± 5 lb"), reading("axles", "235 lb ± 20 lb")];
    let path = file("exchanged.toml", &(FISHING.to_string() + &readings.concat()));
    let target = file("impossible.toml", "");
    let output = run(&[path.to_str().expect("text"), "--write", target.to_str().expect("text")]);
    assert_eq!(output.status.code(), Some(1));
    let report = text(&output.stdout);
    assert!(report.starts_with("IMPOSSIBLE"), "{report}");
    assert!(text(&output.stderr).contains("nothing was written"), "{}", text(&output.stderr));
    assert!(!target.exists());
}
