//! Help and explanations as people read them.

use std::process::Command;

fn printed(arguments: &[&str]) -> String {
    let output =
        Command::new(env!("CARGO_BIN_EXE_bunkline")).args(arguments).output().expect("the program runs");
    assert!(output.status.success());
    let text = String::from_utf8(output.stdout).expect("it prints UTF-8");
    assert!(text.lines().all(|line| line.chars().count() <= 80), "wider than 80 columns:\n{text}");
    text
}

#[test]
fn help() {
    insta::assert_snapshot!("help", printed(&["--help"]));
    for command in ["check", "ramp", "place", "bunks", "sweep", "explain", "new"] {
        insta::assert_snapshot!(format!("help-{command}"), printed(&[command, "--help"]));
    }
}

#[test]
fn explanations() {
    insta::assert_snapshot!("explain-list", printed(&["explain"]));
    for id in ["tongue-share", "lifted-axle-1", "bow-stop-height", "ramp-clearance-skeg"] {
        insta::assert_snapshot!(format!("explain-{id}"), printed(&["explain", id]));
    }
}
