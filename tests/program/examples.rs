//! The examples do what they say.

use std::error::Error;
use std::io::Write;
use std::process::{Command, Output};

#[expect(dead_code, reason = "a test calls `run`, not `main`")]
#[path = "../../examples/compare_two_rigs.rs"]
mod compare_two_rigs;
#[expect(dead_code, reason = "a test calls `run`, not `main`")]
#[path = "../../examples/move_the_boat.rs"]
mod move_the_boat;
#[expect(dead_code, reason = "a test calls `run`, not `main`")]
#[path = "../../examples/own_limits.rs"]
mod own_limits;
#[expect(dead_code, reason = "a test calls `run`, not `main`")]
#[path = "../../examples/sweep_the_boat.rs"]
mod sweep_the_boat;

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

/// An example's way to write what it finds.
type Example = fn(&mut dyn Write) -> Result<(), Box<dyn Error>>;

/// What an example prints.
fn printed(example: Example) -> String {
    let mut out = Vec::new();
    example(&mut out).expect("the example runs");
    text(&out).to_string()
}

#[test]
fn examples_in_rust_print_what_they_find() {
    insta::assert_snapshot!("move-the-boat", printed(move_the_boat::run));
    insta::assert_snapshot!("compare-two-rigs", printed(compare_two_rigs::run));
    insta::assert_snapshot!("own-limits", printed(own_limits::run));
    insta::assert_snapshot!("sweep-the-boat", printed(sweep_the_boat::run));
}
