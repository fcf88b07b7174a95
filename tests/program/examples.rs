//! The example script does what it says.

use std::process::{Command, Output};

fn run(arguments: &[&str]) -> Output {
    Command::new("sh")
        .arg("examples/sweep_the_boat.sh")
        .args(arguments)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .env("BUNKLINE", env!("CARGO_BIN_EXE_bunkline"))
        .output()
        .expect("a shell")
}

fn text(stream: &[u8]) -> &str {
    std::str::from_utf8(stream).expect("it prints UTF-8")
}

/// Whether one change passes, by the library.
fn passes(inches: i32) -> bool {
    let path = "demo-data/survey-launch-as-changed.toml";
    let rig = std::fs::read_to_string(path).expect("a demo");
    let rig = bunkline::Rig::read(path, &rig, &[format!("shift.boat={inches}in")]).expect("it reads");
    bunkline::fit::assess(&rig).expect("it settles").verdict == bunkline::fit::RigVerdict::Pass
}

#[test]
fn loop_and_sweep_find_the_same_window() {
    let output = run(&[]);
    assert!(output.status.success(), "{}", text(&output.stderr));
    let passing: Vec<i32> = (-16..=2).filter(|inches| passes(*inches)).collect();
    let (first, last) = (passing.first().expect("some pass"), passing.last().expect("some pass"));
    let window = format!("passes with the boat shifted from {first} in to {last} in");
    let printed = text(&output.stdout);
    assert_eq!(printed.lines().last(), Some(window.as_str()));
    assert_eq!(printed.lines().filter(|line| line.ends_with(",pass")).count(), passing.len());
    assert_eq!(printed.lines().count(), 20);
}

#[test]
fn where_no_place_passes_the_script_fails() {
    let output = run(&["demo-data/survey-launch-as-found.toml", "-2", "0"]);
    assert_eq!(output.status.code(), Some(1));
    assert_eq!(text(&output.stdout).lines().last(), Some("no place passes"));
}
