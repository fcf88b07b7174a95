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
    for command in [
        "check",
        "compare",
        "ramp",
        "place",
        "bunks",
        "spec",
        "launch",
        "draw",
        "sweep",
        "weigh",
        "changes",
        "explain",
        "new",
        "flatten",
        "schema",
        "completions",
        "man",
    ] {
        insta::assert_snapshot!(format!("help-{command}"), printed(&[command, "--help"]));
    }
}

#[test]
fn explanations() {
    insta::assert_snapshot!("explain-list", printed(&["explain"]));
    for id in ["tongue-share", "lifted-axle-1", "bow-stop-height", "ramp-clearance-skeg", "launch-home"] {
        insta::assert_snapshot!(format!("explain-{id}"), printed(&["explain", id]));
    }
    for key in ["trailer.level_ball_height", "trailer.gvwr", "trailer.bunks.wood", "tow.name"] {
        insta::assert_snapshot!(format!("explain-{key}"), printed(&["explain", key]));
    }
}

#[test]
fn a_key_may_be_named_as_a_change_or_a_report_names_it() {
    let rating = printed(&["explain", "trailer.axles.i.rating"]);
    assert!(rating.starts_with("trailer.axles.i.rating\n"), "{rating}");
    for same in ["trailer.axles.2.rating", "trailer.axles.all.rating", "trailer.axles.rating"] {
        assert_eq!(printed(&["explain", same]), rating);
    }
    assert_eq!(printed(&["explain", "boat.tanks.fuel.fill"]), printed(&["explain", "boat.tanks.1.fill"]));
    // A table lists its keys.
    let jack = printed(&["explain", "trailer.jack"]);
    assert!(jack.contains("trailer.jack.rating") && jack.contains("trailer.jack.station"), "{jack}");
}

#[test]
fn what_is_neither_check_nor_key_gets_a_near_miss() {
    for (word, near) in [
        ("tongue-shar", "tongue-share"),
        ("trailer.axels.2.rating", "trailer.axles.2.rating"),
        ("trailer.axles.ratng", "trailer.axles.*.rating"),
        ("trailer.level_bal_height", "trailer.level_ball_height"),
        ("level_ball_height", "trailer.level_ball_height"),
    ] {
        let output = Command::new(env!("CARGO_BIN_EXE_bunkline")).args(["explain", word]).output();
        let output = output.expect("the program runs");
        let said = String::from_utf8(output.stderr).expect("text");
        assert_eq!(output.status.code(), Some(2), "{word}");
        assert!(said.contains(&format!("did you mean `{near}`?")), "{said}");
    }
}
