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
