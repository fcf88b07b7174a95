//! The sheet for a seller, as it is printed.

use std::process::{Command, Output};

const BOAT: &str = "demo-data/buying/boat.toml";

fn bunkline(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_bunkline"))
        .args(arguments)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .expect("the program runs")
}

fn printed(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).expect("it prints UTF-8")
}

#[test]
fn a_sheet_for_a_seller() {
    for units in ["us", "metric"] {
        let output = bunkline(&["spec", BOAT, "--units", units]);
        assert_eq!(output.status.code(), Some(0));
        let text = printed(&output);
        assert!(text.lines().count() <= 60 && text.lines().all(|line| line.chars().count() <= 80), "{text}");
        insta::assert_snapshot!(format!("sheet-{units}"), text);
    }
    let document: serde_json::Value =
        serde_json::from_slice(&bunkline(&["spec", BOAT, "--format", "json"]).stdout).expect("JSON");
    assert_eq!((&document["axles"], &document["verdict"]), (&2.into(), &"pass".into()));
    assert!(printed(&bunkline(&["spec", BOAT, "--format", "html"])).starts_with("<!DOCTYPE html>"));
}

/// What the file does not say is named among what is assumed, and is not called the owner's.
#[test]
fn what_stands_in_for_the_file_is_named() {
    let flat = |arguments: &[&str]| {
        let text = printed(&bunkline(arguments));
        text.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let own = flat(&["spec", BOAT]);
    assert!(own.contains("your ball") && !own.contains("The ball stands at"), "{own}");
    let folder = std::path::PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("spec-silent");
    std::fs::create_dir_all(&folder).expect("a folder");
    let file = folder.join("boat.toml");
    let text =
        std::fs::read_to_string(std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join(BOAT)).expect("a demo");
    let silent: String = text
        .lines()
        .filter(|line| !line.starts_with("ball_height"))
        .map(|line| line.to_string() + "\n")
        .collect();
    std::fs::write(&file, silent).expect("a writable folder");
    let silent = flat(&["spec", file.to_str().expect("text")]);
    assert!(!silent.contains("your ball") && silent.contains("The ball stands at 18 in."), "{silent}");
    let winds = flat(&["spec", "demo-data/survey-launch-as-found.toml"]);
    assert!(winds.contains("Winch and strap pull against a friction of 30.0 % on the bunks"), "{winds}");
}

#[test]
fn what_no_trailer_changes_is_said_and_what_cannot_be_asked_is_refused() {
    let output = bunkline(&["spec", BOAT, "--set", "tow.tow_rating=5000 lb"]);
    assert_eq!(output.status.code(), Some(1));
    assert!(printed(&output).starts_with("NO TRAILER FITS"));
    for arguments in [
        &["spec", BOAT, "--set", "trailer.gvwr=1 lb"][..],
        &["spec", BOAT, "--reserve", "60%"],
        &["spec", BOAT, "--axles", "4"],
        &["spec", "demo-data/weighed-tender.toml"],
    ] {
        let output = bunkline(arguments);
        assert_eq!((output.status.code(), output.stdout.len()), (Some(2), 0), "{arguments:?}");
    }
}

#[test]
fn the_first_line_asks_for_a_wrong_digit() {
    let output = bunkline(&["spec", BOAT, "--set", "boat.weights.hull.height=30 ft"]);
    assert_eq!(output.status.code(), Some(1));
    let text = printed(&output);
    assert!(
        text.starts_with("ASK FIRST  is a digit or a unit wrong? boat.weights.1.height is 360 in"),
        "{text}"
    );
    let output = bunkline(&["spec", BOAT, "--set", "boat.weights.hull.station=90 ft"]);
    assert_eq!((output.status.code(), output.stdout.len()), (Some(2), 0));
    let said = String::from_utf8(output.stderr).expect("text");
    assert!(said.contains("is a digit or a unit wrong in boat.weights.1.station?"), "{said}");
}
