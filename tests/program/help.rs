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

const AS_FOUND: &str = "demo-data/survey-launch-as-found.toml";

#[test]
fn a_check_with_a_file_says_how_it_stands_there_and_what_would_fix_it_alone() {
    let coupler = printed(&["explain", "coupler", AS_FOUND]);
    assert!(coupler.starts_with(&printed(&["explain", "coupler"])), "{coupler}");
    // 10371 lb on a coupler for 8000.
    for said in ["2371 lb over the coupler's rating", "a rating of 10371 lb or more", "take 2371 lb out"] {
        assert!(coupler.contains(said), "{coupler}");
    }
    let tow = printed(&["explain", "tow-gvwr", AS_FOUND]);
    assert!(tow.contains("pass  tow-gvwr") && !tow.contains("fix it"), "{tow}");
    // No other check stands there.
    assert!(!tow.contains("tongue-share"), "{tow}");
    let strap = printed(&["explain", "launch-home", "demo-data/club/work-punt.toml"]);
    assert!(strap.contains("describes nothing that this check compares"), "{strap}");
    for (about, says) in [
        ("tow.gvwr", "expected the id of a check with a file, found the key `tow.gvwr`"),
        ("coupl", "did you mean `coupler`?"),
    ] {
        let output = Command::new(env!("CARGO_BIN_EXE_bunkline")).args(["explain", about, AS_FOUND]).output();
        let output = output.expect("the program runs");
        assert_eq!((output.status.code(), output.stdout.len()), (Some(2), 0));
        let said = String::from_utf8(output.stderr).expect("text");
        assert!(said.contains(says), "{said}");
    }
}

#[test]
fn a_check_may_be_named_as_a_report_names_it() {
    for (name, id) in [
        ("support at the transom", "bunk-transom-support"),
        ("tires of axle 1-2 with the rear one lifted", "lifted-tire-*"),
        ("Crossmember 3", "crossmember-*"),
    ] {
        assert_eq!(printed(&["explain", name]), printed(&["explain", id]));
    }
}
