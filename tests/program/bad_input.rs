//! What the program does with files it cannot read, changes it cannot make and pipes that close.

use serde_json::Value;
use std::fs;
use std::io::{Read, Write};
use std::path::PathBuf;
use std::process::{Command, Output, Stdio};

/// A whole rig, which passes.
const RIG: &str = include_str!("../rigs/work-boat.toml");
const RIG_PATH: &str = "tests/rigs/work-boat.toml";
/// The least that is a rig; nearly everything is missing.
const LEAST: &str = "format = 1\n[[trailer.axles]]\n";

fn program() -> Command {
    let mut program = Command::new(env!("CARGO_BIN_EXE_bunkline"));
    program.current_dir(env!("CARGO_MANIFEST_DIR")).env_remove("NO_COLOR").env_remove("CLICOLOR_FORCE");
    program
}

fn run(arguments: &[&str]) -> Output {
    program().args(arguments).output().expect("the program runs")
}

/// The report on the whole rig with changes.
fn changed(changes: &[&str]) -> Output {
    let changes = changes.iter().flat_map(|change| ["--set", change]);
    run(&["check", RIG_PATH, "--format", "json"].into_iter().chain(changes).collect::<Vec<_>>())
}

fn json(output: &Output) -> Value {
    serde_json::from_slice(&output.stdout).unwrap_or_else(|error| panic!("{error}: {}", told(output)))
}

fn told(output: &Output) -> String {
    let told = String::from_utf8(output.stderr.clone()).expect("messages are text");
    assert!(!told.contains("panicked"), "{told}");
    told
}

/// What a run says that could not do its job and has nothing to report.
fn refused(output: &Output) -> String {
    let told = told(output);
    assert_eq!(output.status.code(), Some(2), "{told}");
    assert!(output.stdout.is_empty(), "stdout holds {:?}", String::from_utf8_lossy(&output.stdout));
    told
}

/// A file for one test.
fn file(name: &str, content: impl AsRef<[u8]>) -> String {
    let path = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    fs::write(&path, content).expect("the temporary folder takes files");
    path.to_str().expect("its path is text").to_string()
}

/// The exit code of `check` and its messages, with the rig on stdin.
fn piped(content: &[u8]) -> Output {
    let mut child = program()
        .args(["check", "-"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program runs");
    // It may stop reading before the end.
    let _ = child.stdin.take().expect("stdin is a pipe").write_all(content);
    child.wait_with_output().expect("the program ends")
}

fn noise(length: usize) -> Vec<u8> {
    let mut state = 0x9e37_79b9_7f4a_7c15_u64;
    let mut next = || {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        state.to_le_bytes()
    };
    std::iter::repeat_with(&mut next).flatten().take(length).collect()
}

#[test]
fn the_whole_rig_passes() {
    let report = run(&["check", RIG_PATH]);
    assert_eq!(report.status.code(), Some(0), "{}", told(&report));
    assert_eq!(told(&report), "");
}

#[test]
fn a_file_that_is_not_there_is_named() {
    let told = refused(&run(&["check", "no/such-rig.toml"]));
    assert!(told.contains("no/such-rig.toml: expected a readable rig file, found: "), "{told}");
}

#[test]
fn a_folder_is_no_file() {
    let told = refused(&run(&["place", "tests"]));
    assert!(told.contains("tests: expected a readable rig file, found: "), "{told}");
}

#[test]
fn an_empty_file_lacks_format_and_axles() {
    for output in [run(&["check", &file("empty.toml", "")]), piped(b"")] {
        let told = refused(&output);
        assert!(told.contains("expected `format = 1` at the top, found no format"), "{told}");
        assert!(told.contains("expected one or more [[trailer.axles]], found none"), "{told}");
    }
}

#[test]
fn a_hundred_megabytes_of_noise_are_not_read() {
    let noise = noise(1 << 20).repeat(100);
    let path = file("noise.toml", &noise);
    let by_name = run(&["check", &path]);
    fs::remove_file(path).expect("the file was written");
    for output in [by_name, piped(&noise)] {
        let told = refused(&output);
        assert!(told.contains("expected a rig file of at most 1 MiB, found a longer one"), "{told}");
    }
}

#[test]
fn bytes_that_are_no_text_are_told_by_their_line() {
    let told = refused(&run(&["check", &file("latin-1.toml", b"format = 1\ntitle = \"caf\xe9\"\n")]));
    assert!(told.contains("expected UTF-8 text, found other bytes on line 2"), "{told}");
    refused(&piped(&noise(1000)));
}

#[test]
fn depth_and_length_break_nothing() {
    let deep = 100_000;
    let lines = |line: &dyn Fn(usize) -> String| (0..500).map(line).collect::<String>();
    let texts = [
        format!("format = 1\nx = {}", "[".repeat(deep)),
        format!("format = 1\nx = {}1{}", "[".repeat(deep), "]".repeat(deep)),
        format!("format = 1\n{}a = 1\n", "a.".repeat(deep)),
        format!("format = 1\n[{}a]\n", "a.".repeat(deep)),
        format!("format = 1\nx = {}", "{a=".repeat(deep)),
        format!("{} = 1\n", "a".repeat(1_000_000)),
        format!("format = 1\ntitle = \"{}\u{1}\"\n", "a".repeat(1_000_000)),
        format!("format = 1\ntitle = {}\n", "'".repeat(deep)),
        lines(&|i| format!("key_{i} = 1 and more\n")),
        lines(&|i| format!("key_{i} = 1\n")),
        // As many cases as tanks, each case with a place for each tank.
        format!("format = 1\ncases = [{0}]\n[boat]\ntanks = [{0}]\n", "{},".repeat(deep)),
    ];
    for (i, text) in texts.iter().enumerate() {
        let told = refused(&piped(text.as_bytes()));
        assert!(told.contains("expected "), "text {i}: {told}");
        assert!(told.len() < 20_000, "text {i} is told in {} bytes", told.len());
    }
}

#[test]
fn a_bad_file_does_not_stop_the_others() {
    let least = file("least.toml", LEAST);
    let failing = file("failing.toml", RIG.replace("\"10000 lb\"", "\"8000 lb\""));
    let bad = file("bad.toml", "format = 1\naxels = 3\n");
    let code = |files: &[&str]| {
        let output = run(&[&["check"], files].concat());
        told(&output);
        (output.status.code(), String::from_utf8(output.stdout).expect("a report is text"))
    };
    let (exit, report) = code(&[&bad, RIG_PATH]);
    assert_eq!(exit, Some(2));
    assert!(report.starts_with("2 rigs: 1 passes, 1 not read\n") && report.contains(RIG_PATH), "{report}");
    // 2 outranks 1, 1 outranks 3, 3 outranks 0, in any order.
    assert_eq!(code(&[&least]).0, Some(3));
    assert_eq!(code(&[&failing]).0, Some(1));
    for (files, exit) in [
        ([RIG_PATH, &least, &failing], 1),
        ([&least, RIG_PATH, RIG_PATH], 3),
        ([&failing, &least, RIG_PATH], 1),
        ([&failing, &bad, &least], 2),
        ([&bad, &least, &failing], 2),
    ] {
        assert_eq!(code(&files).0, Some(exit), "{files:?}");
    }
}

#[test]
fn among_lines_of_json_a_bad_file_has_its_own() {
    let bad = file("bad-among-lines.toml", "format = 1\n[[trailer.axles]]\nrating = 5200\n");
    let missing = "no/such-rig.toml";
    let output = run(&["check", "--format", "json", RIG_PATH, &bad, missing]);
    assert_eq!(output.status.code(), Some(2));
    let text = String::from_utf8(output.stdout.clone()).expect("JSON is text");
    let lines: Vec<Value> =
        text.lines().map(|line| serde_json::from_str(line).expect("each line is JSON")).collect();
    assert_eq!(lines.len(), 3);
    assert_eq!(lines[0]["verdict"], "pass");
    assert_eq!(lines[1]["schema"], 1);
    let error = &lines[1]["error"];
    assert_eq!(error["message"], "expected a weight with its unit, found the bare number 5200");
    assert_eq!((&error["line"], &error["column"]), (&3.into(), &10.into()));
    assert!(lines[2]["error"]["message"].as_str().is_some_and(|message| message.contains("readable")));
    assert_eq!(lines[2]["error"]["line"], Value::Null);
    assert!(told(&output).contains("found the bare number 5200"));
}

#[test]
fn a_single_bad_file_gives_no_json() {
    let bad = file("bad-alone.toml", "format = 2\n[[trailer.axles]]\n");
    refused(&run(&["check", "--format", "json", &bad]));
    refused(&run(&["check", "--format", "json", "no/such-rig.toml"]));
}

#[test]
fn changes_that_cannot_be_made_are_told() {
    let wrong: &[(&str, &[&str])] = &[
        ("trailer.bow_stp=3in", &["found `trailer.bow_stp`", "did you mean `trailer.bow_stop`?"]),
        ("trailer.axels.1.rating=3lb", &["did you mean `trailer.axles.1.rating`?"]),
        ("trailr.axles.all.rating=3lb", &["did you mean `trailer.axles.all.rating`?"]),
        ("boat.weights.*.weight=3lb", &["expected boat.weights 1 to 3, an id or `all`, found `*`"]),
        ("bow stop", &["expected PATH=VALUE, found `bow stop`"]),
        ("=3in", &["expected PATH=VALUE, found `=3in`"]),
        ("+=3in", &["expected PATH=VALUE, found `+=3in`"]),
        (".boat.beam=3in", &["expected a key of the rig file, found `.boat.beam`"]),
        ("boat..beam=3in", &["expected a key of the rig file, found `boat..beam`"]),
        ("boat=3in", &["expected a key with a value, found the table `boat`"]),
        ("trailer.axles.3.rating=3lb", &["expected trailer.axles 1 to 2, an id or `all`, found `3`"]),
        ("trailer.axles.0.rating=3lb", &["found `0`"]),
        ("trailer.axles.rating=3lb", &["expected trailer.axles 1 to 2", "found `rating`"]),
        ("boat.tanks.petrl.fill=3%", &["found `petrl`", "did you mean `petrol`?"]),
        ("cases.3.name=x", &["expected cases 1 to 2", "found `3`"]),
        ("boat.name+=x", &["expected a length, a weight or a share to add to, found the boat's name"]),
        ("trailer.axles.1.tires.pressure+=5psi", &["to add to, found cold inflation pressure"]),
        ("trailer.cg+=3in", &["expected a value in the file to add to, found none at trailer.cg"]),
        ("trailer.bow_stop+=99m", &["expected a length of at most 100 m (3937 in), found "]),
        ("trailer.bow_stop-=57in", &["expected a length above zero, found 0 in"]),
        ("boat.tanks.petrol.fill+=11%", &["expected a share of at most 100 %, found 101 %"]),
        ("trailer.bow_stop=60", &["expected a unit after `60`, found none"]),
        ("trailer.bow_stop+=2", &["expected a unit after `2`, found none"]),
        ("trailer.bow_stop=", &["expected a length, found nothing"]),
        ("trailer.axles.all.rating=3 lbx", &["found `lbx`", "did you mean `lb`?"]),
        ("trailer.axles.all.station=20ft", &["found axle 2 not behind axle 1"]),
        ("trailer.axles.1.tires.count=3", &["expected 2 or 4 tires on an axle, found 3"]),
        ("trailer.transom=24ft", &["expected one of trailer.bow_stop and trailer.transom, found both"]),
        (
            "boat.weights.pots.side=5ft",
            &["expected no more from the centreline than half the beam, 48 in; found 60 in"],
        ),
        ("boat.weights.pots.id=shell", &["expected each id once, found `shell` again"]),
        ("cases.2.without=[\"pot\"]", &["found `pot`", "did you mean `pots`?"]),
        ("policy.road_factor=0.5", &["expected a plain number from 1 to 10, found 0.5"]),
        ("trailer.bunks.board=3x9", &["expected a nominal size of 2, 4, 6, 8, 10 or 12", "found `3x9`"]),
        ("trailer.bunks.bending=900", &["expected a unit after `900`, found none"]),
        ("boat.hull.deadrise=70 deg", &["expected a deadrise below 60 deg, found 70 deg"]),
        ("shift.axles=-20ft", &["expected the front axle to stay behind the ball and the jack"]),
        ("format=2", &["expected format 1, found format 2"]),
        ("title=\u{1b}[31m", &["expected plain text, found a control character"]),
    ];
    for (change, says) in wrong {
        let told = refused(&changed(&[change]));
        for expected in *says {
            assert!(told.contains(expected), "--set {change}: {told}");
        }
    }
    // All of them at once.
    let told = refused(&changed(&["trailer.bow_stp=3in", "boat=3in", "format=2"]));
    assert_eq!(told.matches("error: ").count(), 3, "{told}");
}

#[test]
fn a_change_to_a_list_that_is_not_there_says_so() {
    let least = file("least-to-change.toml", LEAST);
    for element in ["1", "all"] {
        let change = format!("boat.tanks.{element}.fill=50%");
        let told = refused(&run(&["check", &least, "--set", &change]));
        assert!(told.contains("an element of boat.tanks, of which the file has none"), "{told}");
    }
}

/// A check in a report.
fn check<'a>(report: &'a Value, id: &str) -> &'a Value {
    let checks = report["checks"].as_array().expect("checks are a list");
    checks.iter().find(|check| check["id"] == id).expect("every check is listed")
}

fn load(report: &Value, id: &str) -> f64 {
    check(report, id)["load"].as_f64().expect("it was made")
}

fn limit(report: &Value, id: &str) -> f64 {
    check(report, id)["limits"]["max"].as_f64().expect("it has a limit")
}

#[test]
fn changes_apply_in_their_order() {
    let gross = |changes: &[&str]| load(&json(&changed(changes)), "trailer-gvwr");
    let (before, shell) = (gross(&[]), "boat.weights.shell.weight");
    let gained = |changes: &[String]| gross(&changes.iter().map(String::as_str).collect::<Vec<_>>()) - before;
    let near = |found: f64, expected: f64| assert!((found - expected).abs() < 1e-6, "{found} {expected}");
    near(gained(&[format!("{shell}=4400lb"), format!("{shell}+=50 lb")]), 150.0);
    near(gained(&[format!("{shell}+=50 lb"), format!("{shell}=4400lb")]), 100.0);
    near(gained(&[format!("{shell}+=50lb"), format!("{shell}-=20lb"), format!("{shell}+=1lb")]), 31.0);
    near(gained(&[format!("{shell} = \"4500 lb\"")]), 200.0);
    // By number and by id it is the same weight.
    near(gained(&["boat.weights.1.weight+=10lb".to_string(), format!("{shell}+=10lb")]), 20.0);
    near(gained(&["boat.weights.all.weight-=10lb".to_string()]), -30.0);
    // 10 % of 110 gal at 6.1 lb/gal.
    near(gained(&["boat.tanks.petrol.fill+=10%".to_string()]), 67.1);
    near(gained(&["cases.2.fill.petrol=90%".to_string()]), 0.0);
}

#[test]
fn all_names_every_axle() {
    let report = json(&changed(&["trailer.axles.all.rating=6000 lb", "trailer.axles.2.rating=7000 lb"]));
    assert!((limit(&report, "axle-1") - 6000.0).abs() < 1e-6);
    assert!((limit(&report, "axle-2") - 7000.0).abs() < 1e-6);
}

/// Pitch in the reference case, in degrees, with the file's own shift and ball height set aside.
fn pitch(changes: &[&str]) -> f64 {
    let level = ["shift.boat=0in", "shift.axles=0in", "tow.ball_height=18in"];
    let report = json(&changed(&[&level, changes].concat()));
    report["cases"][0]["pitch"].as_f64().expect("it settles")
}

#[test]
fn corrections_move_the_measured_rig_and_proposals_do_not() {
    assert!(pitch(&[]).abs() < 1e-9, "the frame sits level as measured");
    // Springs, axles and the level ball height are corrected: the frame still sits level as measured.
    for correction in [
        "trailer.axles.1.rating=6500 lb",
        "trailer.axles.2.station+=6 in",
        "trailer.axles.all.tires.rate=2400 lb/in",
        "trailer.suspension.deflection_at_rating=1.8 in",
        "trailer.suspension.bump=3.6 in",
        "trailer.suspension.kind=leaf-separate",
    ] {
        assert!(pitch(&[correction]).abs() < 1e-9, "{correction}");
    }
    let corrected = pitch(&["trailer.level_ball_height=17 in"]);
    assert!(corrected > 0.1, "an inch over level raises the nose, not by {corrected}");
    let proposed = pitch(&["tow.ball_height=19 in"]);
    assert!((corrected - proposed).abs() < 0.05, "{corrected} {proposed}");
    // Weights and places are proposals: the springs stay as they are and the frame settles anew.
    for proposal in [
        "boat.weights.pots.weight+=600 lb",
        "boat.tanks.petrol.fill=10%",
        "trailer.bow_stop+=6 in",
        "shift.axles=4in",
        "trailer.capacity-=600 lb",
    ] {
        assert!(pitch(&[proposal]).abs() > 1e-4, "{proposal}");
    }
}

#[test]
fn both_setups_of_a_rig_follow_the_kind_of_change() {
    use bunkline::Rig;
    let read = |text: &str, change: &str| Rig::read("rig.toml", text, &[change]).expect("a valid change");

    let rig = read(RIG, "trailer.level_ball_height=17 in");
    assert_eq!(rig.measured().trailer.level_ball_height, rig.proposed().trailer.level_ball_height);
    let rig = read(RIG, "trailer.axles.1.spring_rating=6000 lb");
    assert_eq!(rig.measured().trailer.axles, rig.proposed().trailer.axles);
    // An axle's rating is only a limit: the springs stay as they were measured.
    let rig = read(RIG, "trailer.axles.1.rating=6000 lb");
    assert_ne!(rig.measured().trailer.axles, rig.proposed().trailer.axles);
    let rig = read(RIG, "measured.tongue_weight=810 lb");
    assert_eq!(rig.measured().measured, rig.proposed().measured);
    let rig = read(RIG, "boat.weights.shell.weight=4400 lb");
    assert_ne!(rig.measured().boat.weights, rig.proposed().boat.weights);
    // A key that the file lacks is the missing part of the measurement.
    let silent = RIG.replace("weight = \"4300 lb ± 150 lb\"\n", "");
    let rig = read(&silent, "boat.weights.shell.weight=4400 lb");
    assert!(rig.measured().boat.weights[0].weight.is_some());
    assert_eq!(rig.measured().boat.weights, rig.proposed().boat.weights);
    // One with a default is a proposal all the same.
    let silent = RIG.replace("fill = \"90 %\"\n", "");
    let rig = read(&silent, "boat.tanks.petrol.fill=50%");
    assert_ne!(rig.measured().boat.tanks, rig.proposed().boat.tanks);
    // The file's own shift proposes too.
    assert_ne!(rig.measured().shift, rig.proposed().shift);
}

#[test]
fn a_reader_that_leaves_is_no_error() {
    for format in ["text", "json"] {
        let mut child = program()
            .args(["check", "--format", format])
            .args(std::iter::repeat_n(RIG_PATH, 100))
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .expect("the program runs");
        let mut start = [0; 10];
        let mut stdout = child.stdout.take().expect("stdout is a pipe");
        stdout.read_exact(&mut start).expect("the report begins");
        drop(stdout);
        let output = child.wait_with_output().expect("the program ends");
        assert_eq!(told(&output), "");
        assert_eq!(output.status.code(), Some(0));
    }
}

#[test]
fn colour_is_for_terminals_and_who_asks_for_it() {
    let bad = file("bad-in-colour.toml", "format = 2\n");
    let coloured = |arguments: &[&str], setting: Option<(&str, &str)>| {
        let mut program = program();
        program.args(["check", RIG_PATH, &bad]).args(arguments).envs(setting);
        let output = program.output().expect("the program runs");
        let escapes = |stream: &[u8]| stream.contains(&0x1b);
        (escapes(&output.stdout), escapes(&output.stderr))
    };
    assert_eq!(coloured(&[], None), (false, false));
    assert_eq!(coloured(&[], Some(("NO_COLOR", "1"))), (false, false));
    assert_eq!(coloured(&["--color", "auto"], Some(("CLICOLOR_FORCE", "1"))), (true, true));
    assert_eq!(coloured(&["--color", "always"], None), (true, true));
    assert_eq!(coloured(&["--color", "never"], Some(("CLICOLOR_FORCE", "1"))), (false, false));
}

#[test]
fn usage_errors_exit_with_2() {
    for arguments in [
        &["check"][..],
        &[],
        &["chekc"],
        &["check", RIG_PATH, "--fromat", "json"],
        &["check", RIG_PATH, "--format", "yaml"],
        &["check", RIG_PATH, "--units", "imperial"],
        &["check", RIG_PATH, "--color", "sometimes"],
        &["check", RIG_PATH, "--set"],
        &["explain", "axle-i", RIG_PATH, "jack"],
        &["new", "rig.toml"],
    ] {
        let told = refused(&run(arguments));
        assert!(told.contains("Usage:") || told.contains("--help"), "{arguments:?}: {told}");
    }
    for arguments in [&["--help"][..], &["--version"], &["check", "--help"]] {
        let output = run(arguments);
        assert_eq!((output.status.code(), told(&output).as_str()), (Some(0), ""), "{arguments:?}");
    }
}

#[test]
fn a_check_that_is_not_known_is_not_explained() {
    let told = refused(&run(&["explain", "tonge-share"]));
    assert!(
        told.contains("expected the id of a check or a key of the rig file, found `tonge-share`"),
        "{told}"
    );
    assert!(told.contains("did you mean `tongue-share`?"), "{told}");
    let told = refused(&run(&["explain", "\u{1b}[31m"]));
    assert!(!told.contains('\u{1b}'), "{told}");
    for id in ["", "*", "axle-*-", "é", "lifted-"] {
        refused(&run(&["explain", id]));
    }
    assert_eq!(run(&["explain", "tongue-share"]).status.code(), Some(0));
}

#[test]
fn an_incomplete_rig_can_be_allowed() {
    let least = file("least-allowed.toml", LEAST);
    assert_eq!(run(&["check", &least]).status.code(), Some(3));
    assert_eq!(run(&["check", &least, "--allow-incomplete"]).status.code(), Some(0));
    // Only that: a failing rig fails, a bad one is refused.
    let failing = file("failing-allowed.toml", RIG.replace("\"10000 lb\"", "\"8000 lb\""));
    assert_eq!(run(&["check", &failing, "--allow-incomplete"]).status.code(), Some(1));
    assert_eq!(run(&["check", &least, "--allow-incomplete", "--set", "boat=1"]).status.code(), Some(2));
}

#[test]
fn weight_behind_the_axles_lifts_the_tow_vehicle() {
    let output = changed(&["trailer.bow_stop+=8ft"]);
    assert_eq!(output.status.code(), Some(1), "{}", told(&output));
    let report = json(&output);
    assert_eq!(report["verdict"], "fail");
    assert!(load(&report, "tongue-uplift") < 0.0);
    for check in report["checks"].as_array().expect("checks are a list") {
        let id = check["id"].as_str().unwrap_or_default();
        if id == "tongue-uplift" || (id.ends_with("-tongue") && id != "lifted-tongue") {
            assert_eq!(check["verdict"], "fail", "{id}");
        }
    }
}

#[test]
fn weight_ahead_of_the_ball_is_refused_with_its_case() {
    for changes in [&["shift.boat=-30ft"][..], &["shift.boat=-30ft", "trailer.level_measured=empty"]] {
        let told = refused(&changed(changes));
        assert!(told.contains("in the case \"outward bound\", the trailer tips over its ball"), "{told}");
    }
}

#[test]
fn a_figure_that_no_rig_has_is_to_be_read_again_before_anything_is_bought() {
    // A coupler of 80 lb.
    let output = std::process::Command::new(env!("CARGO_BIN_EXE_bunkline"))
        .args(["check", "demo-data/survey-launch-as-changed.toml", "--set", "trailer.coupler.rating=80 lb"])
        .output()
        .expect("the program runs");
    let text = String::from_utf8(output.stdout).expect("text").replace("\n  ", " ");
    let first = text.find("What to do: correct the file first").expect(&text);
    let buy = text.find("Fit a coupler").expect(&text);
    assert!(first < buy, "{text}");
    assert!(
        text.contains(
            "Read trailer.coupler.rating again, digits and unit. Buy and move nothing before that."
        ),
        "{text}"
    );
}
