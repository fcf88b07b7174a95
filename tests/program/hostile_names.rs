//! Names and titles that would take a terminal over, or forge a line of a report.

use std::fs;
use std::path::PathBuf;
use std::process::Command;

const SKIFF: &str = "demo-data/fishing-skiff.toml";
const AS_CHANGED: &str = "demo-data/survey-launch-as-changed.toml";

/// Each would do harm in its own way: colour, a title bar and a bell, a line of its own, text turned around, the
/// eight-bit form of an escape, a help that is none.
const NAMES: [&str; 7] = [
    "a\x1b[31mred",
    "b\x1b]0;owned\x07",
    "c\nPASS  all fine",
    "d\u{202e}lmot",
    "e\u{9b}2J\r\u{200b}",
    "f\nhelp: g\x1b[2J",
    "h\u{e0041}\u{2028}\u{feff}\u{7f}",
];

fn folder() -> PathBuf {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("hostile-names");
    fs::create_dir_all(&folder).expect("a folder");
    folder
}

/// What the program prints on both streams, colours wanted.
fn printed(arguments: &[&str]) -> String {
    let mut program = Command::new(env!("CARGO_BIN_EXE_bunkline"));
    program.current_dir(env!("CARGO_MANIFEST_DIR")).env_remove("NO_COLOR");
    let output = program.args(arguments).args(["--color", "always"]).output().expect("the program runs");
    assert!(output.status.code().is_some(), "{arguments:?}");
    let both = [output.stdout, output.stderr].concat();
    String::from_utf8(both).expect("it prints UTF-8")
}

/// The text without colours: bold, red, and so on, which are ours.
fn without_colours(mut text: String) -> String {
    while let Some(at) = text.find("\x1b[") {
        let length = text[at..].find('m').unwrap_or_else(|| panic!("no colour: {:?}", &text[at..]));
        let inside = &text[at + 2..at + length];
        assert!(inside.bytes().all(|byte| byte.is_ascii_digit() || byte == b';'), "no colour: {inside:?}");
        text.replace_range(at..=at + length, "");
    }
    text
}

/// Asserts that nothing in it is hidden, moves the cursor or turns text around, nor begins a line as a name does.
fn assert_harmless(printed: String, name: &str, arguments: &[&str]) {
    if name.contains("\x1b[31m") {
        assert!(!printed.contains("a\x1b[31mred"), "{arguments:?}");
    }
    let text = without_colours(printed);
    let hidden = |c: char| {
        (c.is_control() && c != '\n')
            || matches!(c, '\u{ad}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{feff}')
            || ('\u{e0000}'..='\u{e007f}').contains(&c)
    };
    let found: Vec<char> = text.chars().filter(|c| hidden(*c)).collect();
    assert!(found.is_empty(), "{arguments:?}: {found:?} in {text}");
    let begins = |line: &str| {
        let line = line.trim_start_matches([' ', '=', '|', '╰', '│', '╭']);
        line.starts_with("PASS  all fine") || line.starts_with("help: g")
    };
    let forged = text.lines().any(begins);
    assert!(!forged, "{arguments:?}: {text}");
}

#[test]
fn names_of_files_do_no_harm() {
    let commands: &[&[&str]] = &[
        &["check"],
        &["check", "--format", "json"],
        &["check", "--samples", "10", "--set", "title=\"x"],
        &["check", "--set", "boat.wieght=1 lb"],
        &["place"],
        &["ramp"],
        &["bunks"],
        &["ramp", "--grade", "8%..9%/1%"],
        &["sweep", "--vary", "shift.boat=0in,1in"],
        &["sweep", "--vary", "shift.boat=0in", "--best", "--in-place", "--write", "demo-data"],
    ];
    for (i, name) in NAMES.iter().enumerate() {
        let demo = fs::read_to_string(if i == 0 { AS_CHANGED } else { SKIFF }).expect("a demo rig");
        let untitled = demo.lines().filter(|line| !line.starts_with("title")).collect::<Vec<_>>().join("\n");
        for (kind, text) in
            [("good", untitled.clone()), ("bad", untitled.replace("format = 1", "formta = 1"))]
        {
            let file = folder().join(format!("{kind}-{name}.toml"));
            fs::write(&file, text).expect("a file");
            let path = file.to_str().expect("its path is text");
            for command in commands {
                let arguments = [&[command[0], path][..], &command[1..]].concat();
                assert_harmless(printed(&arguments), name, &arguments);
            }
        }
        for arguments in [
            &["check", &format!("nowhere/{name}")][..],
            &["check", SKIFF, "--format", name],
            &["check", SKIFF, "--set", name],
            &["check", SKIFF, "--set", &format!("shift.boat={name}")],
            &["sweep", SKIFF, "--vary", name],
            &["sweep", SKIFF, "--vary", "shift.boat=0in", "--output", &format!("nowhere/{name}")],
            &["sweep", SKIFF, "--vary", "shift.boat=0in", "--case", name],
            &["ramp", AS_CHANGED, "--ramp", name],
            &["explain", name],
            &[name],
        ] {
            assert_harmless(printed(arguments), name, arguments);
        }
    }
}

#[test]
fn names_in_files_do_no_harm() {
    let demo = fs::read_to_string(AS_CHANGED).expect("a demo rig");
    // What a file may hold: no control characters, which are refused, but all else.
    let name = "d\u{202e}lmot\u{200b}\u{e0041}\u{2028}";
    let file = folder().join("names.toml");
    let mut named = String::new();
    for line in demo.lines() {
        let key = line.split('=').next().unwrap_or_default().trim();
        let is_name = matches!(key, "title" | "name" | "item") && line.contains('=');
        let quoted = if is_name { format!("{key} = \"{name}\"") } else { line.to_string() };
        named += &(quoted + "\n");
    }
    fs::write(&file, named).expect("a file");
    let path = file.to_str().expect("its path is text");
    for arguments in [
        &["check", path][..],
        &["check", path, "--format", "json"],
        &["place", path],
        &["ramp", path],
        &["ramp", path, "--format", "csv"],
        &["bunks", path],
        &["sweep", path, "--vary", "shift.boat=0in,1in"],
        &["ramp", path, "--case", "x"],
    ] {
        let printed = printed(arguments);
        assert!(
            printed.contains("\\u202e") || arguments.contains(&"csv") || arguments[0] == "sweep",
            "{printed}"
        );
        assert_harmless(printed, name, arguments);
    }
}
