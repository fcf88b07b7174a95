//! The examples do what they say.

use std::error::Error;
use std::fs;
use std::io::Write;
use std::path::Path;
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

/// What the CI step of a club comes to in its folder, with the program on the path.
fn club_ci(folder: &Path) -> (Option<i32>, String) {
    let program = Path::new(env!("CARGO_BIN_EXE_bunkline"));
    let path = std::env::var_os("PATH").unwrap_or_default();
    let path = std::env::join_paths(
        program.parent().map(Path::to_path_buf).into_iter().chain(std::env::split_paths(&path)),
    );
    let output = Command::new("sh")
        .args(["check.sh", ".", "reports"])
        .current_dir(folder)
        .env_remove("BUNKLINE")
        .env("PATH", path.expect("folders"))
        .output()
        .expect("a shell");
    (output.status.code(), [text(&output.stdout), text(&output.stderr)].concat())
}

#[test]
fn a_clubs_ci_is_green_until_a_rig_gets_worse() {
    let there = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/club");
    let club = Path::new(env!("CARGO_TARGET_TMPDIR")).join("example-club");
    let _ = fs::remove_dir_all(&club);
    fs::create_dir_all(club.join("shared")).expect("a folder");
    for file in [
        "check.sh",
        "baseline.json",
        "committee-boat.toml",
        "old-launch.toml",
        "rescue-boat.toml",
        "shared/tandem.toml",
        "shared/van.toml",
    ] {
        fs::copy(there.join(file), club.join(file)).expect("a file");
    }
    assert_eq!(club_ci(&club), (Some(0), "no rig got worse\n".to_string()));

    // An officer adds a file that cannot be read.
    fs::write(club.join("punt.toml"), "format = 1\ntitel = \"Punt\"\n").expect("a file");
    let (code, said) = club_ci(&club);
    assert_eq!(code, Some(2), "{said}");
    assert!(said.contains("--> ./punt.toml:2:1"), "{said}");
    let report = |name: &str| fs::read_to_string(club.join("reports").join(name)).expect("a report");
    assert!(report("rigs.xml").contains("errors=\"1\""), "{}", report("rigs.xml"));
    assert!(report("rigs.md").contains("| **NOT READ** | punt.toml | - | at 2:1 |"), "{}", report("rigs.md"));
    fs::remove_file(club.join("punt.toml")).expect("a file");

    // Another anchor: 60 lb more on the rescue boat's axles, 30 lb on each; (3760 − 350)/2 = 1705 lb of 3500.
    let rescue = fs::read_to_string(club.join("rescue-boat.toml")).expect("a rig");
    fs::write(club.join("rescue-boat.toml"), rescue.replace("3700 lb", "3760 lb")).expect("a file");
    let (code, said) = club_ci(&club);
    assert_eq!(code, Some(1), "{said}");
    assert!(said.contains("./rescue-boat.toml is pass as before, with less to spare"), "{said}");
    assert!(said.contains("axle-1        pass        1825 lb  1795 lb"), "{said}");
    let accept =
        said.lines().find_map(|line| line.strip_prefix("if that is meant: bunkline ")).expect("a command");
    let written =
        Command::new(env!("CARGO_BIN_EXE_bunkline")).args(accept.split(' ')).current_dir(&club).output();
    assert_eq!(written.expect("the program runs").status.code(), Some(1));
    assert_eq!(club_ci(&club), (Some(0), "no rig got worse\n".to_string()));
}

#[test]
fn without_the_program_a_clubs_ci_is_red() {
    let output = Command::new("sh")
        .arg("examples/club/check.sh")
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .env("BUNKLINE", "/no/such/program")
        .output()
        .expect("a shell");
    assert_eq!(output.status.code(), Some(2));
    assert!(text(&output.stderr).starts_with("expected the program bunkline"), "{}", text(&output.stderr));
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
