//! The sweep command through the program.

use serde_json::Value;
use std::fs;
use std::io::{BufRead, BufReader, Read};
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

const AS_FOUND: &str = "demo-data/survey-launch-as-found.toml";
const AS_CHANGED: &str = "demo-data/survey-launch-as-changed.toml";
const CUTTER: &str = "demo-data/pilot-cutter.toml";
const SKIFF: &str = "demo-data/fishing-skiff.toml";
const WORK_BOAT: &str = "tests/rigs/work-boat.toml";

fn program() -> Command {
    let mut program = Command::new(env!("CARGO_BIN_EXE_bunkline"));
    program.current_dir(env!("CARGO_MANIFEST_DIR")).env_remove("NO_COLOR").env_remove("CLICOLOR_FORCE");
    program
}

fn sweep(arguments: &[&str]) -> Output {
    program().arg("sweep").args(arguments).output().expect("the program runs")
}

fn text(stream: &[u8]) -> String {
    String::from_utf8(stream.to_vec()).expect("it prints UTF-8")
}

/// What a sweep that does its job prints.
fn told(arguments: &[&str]) -> String {
    let output = sweep(arguments);
    assert_eq!(output.status.code(), Some(0), "{arguments:?}: {}", text(&output.stderr));
    // All that it may say besides is what it wrote where.
    let wrote = |line: &str| line.starts_with("note: 1 value written") || line.contains(" is written to ");
    let said = text(&output.stderr);
    assert!(said.lines().all(wrote), "{arguments:?}: {said}");
    assert_eq!(
        said.is_empty(),
        !arguments.iter().any(|argument| ["--write", "--in-place"].contains(argument))
    );
    text(&output.stdout)
}

/// What a sweep says that cannot do its job.
fn refused(arguments: &[&str]) -> String {
    let output = sweep(arguments);
    let told = text(&output.stderr);
    assert_eq!(output.status.code(), Some(2), "{arguments:?}: {told}");
    assert!(output.stdout.is_empty(), "{arguments:?}: {}", text(&output.stdout));
    assert!(!told.contains("panicked"), "{told}");
    told
}

/// A fresh folder for one test.
fn folder(name: &str) -> PathBuf {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).expect("a folder");
    folder
}

fn path_text(path: &Path) -> &str {
    path.to_str().expect("its path is text")
}

fn files_in(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).expect("a folder");
    let mut names: Vec<String> =
        entries.map(|entry| entry.expect("an entry").file_name().to_string_lossy().into_owned()).collect();
    names.sort();
    names
}

/// Rows of comma-separated values without quotes, by the names above them.
fn rows(csv: &str) -> Vec<Vec<(String, String)>> {
    let mut lines = csv.lines();
    let names: Vec<&str> = lines.next().expect("a line of names").split(',').collect();
    let row = |line: &str| {
        let fields: Vec<&str> = line.split(',').collect();
        assert_eq!(fields.len(), names.len(), "{line}");
        names.iter().zip(fields).map(|(name, field)| ((*name).to_string(), field.to_string())).collect()
    };
    lines.map(row).collect()
}

fn field<'a>(row: &'a [(String, String)], name: &str) -> &'a str {
    let found = row.iter().find(|(column, _)| column == name);
    &found.unwrap_or_else(|| panic!("no column {name} in {row:?}")).1
}

fn number(row: &[(String, String)], name: &str) -> f64 {
    field(row, name).parse().unwrap_or_else(|_| panic!("{name} in {row:?}"))
}

/// What `check` says in JSON of a rig with changes, every value as stated: so does a sweep.
fn check(rig: &str, changes: &[String]) -> Value {
    let changes = changes.iter().flat_map(|change| ["--set", change]);
    let arguments = ["check", rig, "--as-stated", "--format", "json"].into_iter().chain(changes);
    let output = program().args(arguments).output().expect("the program runs");
    serde_json::from_slice(&output.stdout).unwrap_or_else(|error| panic!("{error}: {}", text(&output.stderr)))
}

fn of_check<'a>(report: &'a Value, id: &str) -> &'a Value {
    let checks = report["checks"].as_array().expect("checks are a list");
    checks.iter().find(|check| check["id"] == id).expect(id)
}

#[test]
fn a_shell_loop_over_check_gives_the_very_same_numbers() {
    for (rig, path, unit, range, steps) in [
        (AS_FOUND, "shift.boat", "in", "-1.4in..0.7in/0.7in", &["-1.4in", "-0.7in", "0in", "0.7in"][..]),
        (WORK_BOAT, "boat.tanks.petrol.fill", "", "10%..70%/20%", &["10%", "30%", "50%", "70%"]),
        (CUTTER, "trailer.keel_height", "mm", "0.5m..0.6m/0.05m", &["0.5m", "0.55m", "0.6m"]),
    ] {
        let weight = if rig == CUTTER { "kg" } else { "lb" };
        let csv = told(&[rig, "--vary", &format!("{path}={range}"), "--format", "csv"]);
        let found = rows(&csv);
        assert_eq!(found.len(), steps.len());
        for (row, value) in found.iter().zip(steps) {
            let report = check(rig, &[format!("{path}={value}")]);
            let share = of_check(&report, "tongue-share");
            let case =
                report["cases"].as_array().expect("cases").iter().find(|case| case["name"] == share["case"]);
            let same = |name: &str, expected: &Value| {
                assert_eq!(Some(number(row, name)), expected.as_f64(), "{path}={value}: {name}");
            };
            same(&format!("tongue_weight_{weight}"), &case.expect("it governs")["tongue_weight"]);
            same("tongue_share", &share["load"]);
            for axle in 1..=report["cases"][0]["axles"].as_array().expect("axles").len() {
                same(
                    &format!("axle-{axle}.load_{weight}"),
                    &of_check(&report, &format!("axle-{axle}"))["load"],
                );
            }
            assert_eq!(field(row, "verdict"), report["verdict"], "{path}={value}");
            // The least margin by hand: over the counting rows that compare weights.
            let no_weight = [
                "tongue-share",
                "side-lift",
                "ball-size",
                "shank-size",
                "bow-stop-height",
                "ramp-traction",
                "ramp-clearance",
                "ramp-bow",
                "brakes-required",
                "brake-stroke",
                "tire-pressure",
                "tire-speed",
                "tongue-bending",
                "rail-bending",
                "winch-post",
                "bunk-bevel",
                "bunk-transom",
                "bunk-contact",
                "bunk-pressure",
                "bunk-bending",
                "bunk-shear",
                "bunk-deflection",
                "bunk-landing",
                "clearance-",
            ];
            let margins = report["checks"].as_array().expect("checks").iter().filter(|check| {
                let id = check["id"].as_str().unwrap_or_default();
                check["counts"] == true && !no_weight.iter().any(|other| id.starts_with(other))
            });
            let margins = margins.filter_map(|check| Some((check["margin_to_fail"].as_f64()?, &check["id"])));
            let least =
                margins.reduce(|least, next| if next.0 < least.0 { next } else { least }).expect("margins");
            assert_eq!(number(row, &format!("least_margin_{weight}")), least.0, "{path}={value}");
            assert_eq!(field(row, "least_margin_check"), least.1, "{path}={value}");
        }
        let heading = format!("{path}{}{unit}", if unit.is_empty() { "" } else { "_" });
        assert!(csv.starts_with(&heading), "{csv}");
    }
}

#[test]
fn columns_are_named_by_path_and_unit() {
    let names = |arguments: &[&str]| {
        let csv = told(&[arguments, &["--format", "csv"]].concat());
        csv.lines().next().expect("a line of names").to_string()
    };
    assert_eq!(
        names(&[AS_FOUND, "--vary", "shift.boat=0in"]),
        "shift.boat_in,tongue_weight_lb,tongue_share,axle-1.load_lb,axle-2.load_lb,axle-3.load_lb,\
         lifted-axle-1.load_lb,lifted-axle-2.load_lb,least_margin_lb,least_margin_check,verdict,\
         failing_check"
    );
    assert_eq!(
        names(&[SKIFF, "--vary", "shift.boat=0in", "--units", "metric"]),
        "shift.boat_mm,tongue_weight_kg,tongue_share,axle-1.load_kg,least_margin_kg,least_margin_check,verdict,\
         failing_check"
    );
    let vary = [
        "--vary",
        "policy.turn=50deg",
        "--vary",
        "cases.1.fill.fuel=0.5%",
        "--vary",
        "ramps.1.profile.2.grade=10%",
    ];
    let show = "verdict,pitch,gross_trailer_weight,tongue-share.margin,bow-stop-height.margin,axle-3.used,axle-3.verdict,ramp-bow-clearance.load,least_margin";
    assert_eq!(
        names(&[&[AS_FOUND, "--show", show], &vary[..]].concat()),
        "policy.turn_deg,cases.1.fill.fuel,ramps.1.profile.2.grade,verdict,pitch_deg,gross_trailer_weight_lb,\
         tongue-share.margin,bow-stop-height.margin_in,axle-3.used,axle-3.verdict,ramp-bow-clearance.load_in,least_margin_lb"
    );
    // A name that holds a comma is quoted, as RFC 4180 has it.
    let folder = folder("quoted-name");
    let file = folder.join("rig.toml");
    let rig = fs::read_to_string(AS_FOUND).expect("a demo").replace("\"frame tail\"", "'tail, \"frame\"'");
    fs::write(&file, rig).expect("a file");
    let vary = "trailer.low_points.tail, \"frame\".height=10in";
    let csv = told(&[path_text(&file), "--vary", vary, "--show", "verdict", "--format", "csv"]);
    assert_eq!(csv, "\"trailer.low_points.tail, \"\"frame\"\".height_in\",verdict\n10,fail\n");
}

#[test]
fn every_form_tells_the_same() {
    let arguments = [
        AS_FOUND,
        "--vary",
        "shift.boat=-1.5in..1.5in/1.5in",
        "--show",
        "tongue_share,axle-1.load,tire-1.verdict,verdict",
    ];
    let form = |form: &str| told(&[&arguments[..], &["--format", form]].concat());
    let csv = form("csv");
    for (line, row) in form("json-lines").lines().zip(rows(&csv)) {
        let object: Value = serde_json::from_str(line).expect("each line is JSON");
        let object = object.as_object().expect("an object");
        assert_eq!(object.len(), row.len());
        for (name, written) in &row {
            match &object[name] {
                Value::String(word) => assert_eq!(word, written),
                value => assert_eq!(value.as_f64(), written.parse().ok(), "{name}"),
            }
        }
        // In the order of the columns.
        let places: Vec<Option<usize>> =
            row.iter().map(|(name, _)| line.find(&format!("\"{name}\":"))).collect();
        assert!(places.is_sorted() && places.iter().all(Option::is_some), "{line}");
    }
    insta::assert_snapshot!("sweep-csv", csv);
    insta::assert_snapshot!("sweep-json-lines", form("json-lines"));
    insta::assert_snapshot!("sweep-table", form("table"));
}

#[test]
fn tables_are_for_reading() {
    let usual = told(&[WORK_BOAT, "--vary", "shift.axles=-4in..4in/2in"]);
    assert!(usual.lines().all(|line| line.chars().count() <= 80), "{usual}");
    insta::assert_snapshot!("sweep-tandem", usual);
    let vary = ["--vary", "cases.1.fill.fuel=0%,50%,100%", "--vary", "shift.boat=-10cm..10cm/10cm"];
    let show = [
        "--show",
        "pitch,lifted-tongue.margin,axle-2.used,bow-stop-height.load,verdict",
        "--units",
        "metric",
    ];
    insta::assert_snapshot!("sweep-two-axes", told(&[&[AS_CHANGED], &vary[..], &show].concat()));
}

#[test]
fn rows_do_not_depend_on_the_threads() {
    // More than one block of points, and less than a whole one at the end.
    let vary = ["--vary", "shift.boat=-10in..2in/0.00125in", "--show", "tongue_weight,pitch"];
    let arguments = [&[AS_FOUND], &vary[..], &["--format", "csv"]].concat();
    let by = |threads: &str| told(&[&arguments[..], &["--threads", threads]].concat());
    let one = by("1");
    assert_eq!(one.lines().count(), 9_602);
    assert!(one == by("2") && one == by("3"), "other rows from other threads");
    let limited = program().arg("sweep").args(&arguments).env("RAYON_NUM_THREADS", "1").output();
    assert!(text(&limited.expect("the program runs").stdout) == one);
    let ramp =
        [AS_FOUND, "--vary", "shift.boat=-4in..2in/2in", "--show", "ramp-axle-1.load", "--format", "csv"];
    let by = |threads: &str| told(&[&ramp[..], &["--threads", threads]].concat());
    assert_eq!(by("1"), by("2"));
}

#[test]
fn one_case_can_be_asked_for() {
    let show = ["--vary", "shift.boat=-2in..2in/2in", "--show", "gross_trailer_weight", "--format", "csv"];
    let governing = told(&[&[AS_FOUND], &show[..]].concat());
    let first = told(&[&[AS_FOUND, "--case", "out to the survey, tank full"], &show[..]].concat());
    let second = told(&[&[AS_FOUND, "--case", "home again, tank low, crates ashore"], &show[..]].concat());
    assert_eq!(governing, first);
    let report = check(AS_FOUND, &[]);
    for (csv, case) in [(first, 0), (second, 1)] {
        let gross = report["cases"][case]["gross_trailer_weight"].as_f64();
        assert_eq!(Some(number(&rows(&csv)[1], "gross_trailer_weight_lb")), gross);
    }
    let told = refused(&[AS_FOUND, "--vary", "shift.boat=0in", "--case", "out to the survey, tank ful"]);
    assert!(told.contains("expected the name of a case") && told.contains("did you mean"), "{told}");
}

#[test]
fn points_without_loads_are_empty_and_counted() {
    let arguments = [
        SKIFF,
        "--vary",
        "trailer.jack.station=40ft,2ft,41ft,42ft",
        "--show",
        "tongue_share,axle-1.verdict,verdict",
    ];
    let output = sweep(&[&arguments[..], &["--format", "csv"]].concat());
    assert_eq!(output.status.code(), Some(0));
    let csv = text(&output.stdout);
    let found = rows(&csv);
    assert_eq!(csv.lines().nth(1), Some("480,,,none"));
    assert_eq!(csv.lines().nth(3), Some("492,,,none"));
    assert_eq!(field(&found[1], "verdict"), "pass");
    let note = text(&output.stderr);
    assert!(
        note.contains(
            "3 of 4 points have no loads; the first, at trailer.jack.station=40 ft: expected the jack ahead of the front axle"
        ),
        "{note}"
    );
    let lines = text(&sweep(&[&arguments[..], &["--format", "json-lines"]].concat()).stdout);
    assert!(
        lines.starts_with(
            "{\"trailer.jack.station_in\":480,\"tongue_share\":null,\"axle-1.verdict\":null,\"verdict\":\"none\"}\n"
        ),
        "{lines}"
    );
    // Nothing is printed before a point has loads, and then everything.
    let arguments = [SKIFF, "--vary", "shift.boat=-60ft..0ft/0.01ft", "--format", "csv"];
    let output = sweep(&arguments);
    let csv = text(&output.stdout);
    assert_eq!(csv.lines().count(), 6_002);
    assert!(csv.lines().nth(1).is_some_and(|line| line.starts_with("-720,,")), "{:?}", csv.lines().nth(1));
    let places: Vec<f64> = rows(&csv).iter().map(|row| number(row, "shift.boat_in")).collect();
    assert!(places.is_sorted());
    assert!(text(&output.stderr).contains("tips over its ball"));
    // None with loads is a mistake.
    let told = refused(&[SKIFF, "--vary", "shift.boat=-60ft..-50ft/0.01ft", "--format", "csv"]);
    assert!(told.contains("expected a point with loads, found none; at shift.boat=-60 ft: "), "{told}");
    let told = refused(&[SKIFF, "--vary", "trailer.jack.station=40ft,41ft"]);
    assert!(told.contains("expected the jack ahead of the front axle"), "{told}");
}

#[test]
fn the_best_point_is_told_as_toml_to_paste() {
    let arguments = [AS_CHANGED, "--vary", "shift.boat=-16in..2in/1in"];
    let best = told(&[&arguments[..], &["--best"]].concat());
    insta::assert_snapshot!("sweep-best", best);
    // By looking at all rows: of all that passes the greatest least margin, which here is that of the check that is
    // most used of those that the boat moves.
    let csv = told(&[&arguments[..], &["--format", "csv"]].concat());
    let found = rows(&csv);
    let passing = found.iter().filter(|row| field(row, "verdict") == "pass");
    let greatest =
        passing.max_by(|a, b| number(a, "least_margin_lb").total_cmp(&number(b, "least_margin_lb")));
    let greatest = greatest.expect("some pass");
    assert!(best.contains(&format!("boat = \"{} in\"", field(greatest, "shift.boat_in"))), "{best}");
    // Pasted in place of the file's own shift, it gives that margin.
    let folder = folder("best-pasted");
    let file = folder.join("rig.toml");
    let rig = fs::read_to_string(AS_CHANGED).expect("a demo");
    let shift = rig.find("[shift]").expect("it has a shift");
    let end = shift + rig[shift..].find("\n\n").expect("a blank line");
    fs::write(&file, format!("{}{}\n{best}", &rig[..shift], &rig[end..])).expect("a file");
    let report = check(path_text(&file), &[]);
    assert_eq!(report["verdict"], "pass");
    let id = field(greatest, "least_margin_check");
    assert_eq!(of_check(&report, id)["margin"].as_f64(), Some(number(greatest, "least_margin_lb")));
    // For programs: that row alone.
    let row = told(&[&arguments[..], &["--best", "--format", "csv"]].concat());
    assert_eq!(rows(&row), std::slice::from_ref(greatest));
    // Keys of lists say where they belong; and what a file would take as measured is told.
    let hull = "boat.weights.hull.station=9ft..10ft/1in";
    let output =
        sweep(&[AS_CHANGED, "--vary", hull, "--vary", "shift.boat=-13in", "--best", "--show", "verdict"]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    let best = text(&output.stdout);
    let (_, lines) = best.split_once("\n\n").expect("lines to paste");
    let mut lines = lines.lines();
    assert_eq!(lines.next(), Some("# in boat.weights.hull:"));
    assert!(
        lines.next().is_some_and(|line| line.starts_with("station = \"1") && line.ends_with(" in\"")),
        "{best}"
    );
    assert_eq!(lines.collect::<Vec<_>>(), ["", "[shift]", "boat = \"-13 in\""]);
    let note = text(&output.stderr);
    assert!(note.contains("states boat.weights.hull.station as measured"), "{note}");
    assert!(!note.contains("states shift.boat"), "{note}");
}

#[test]
fn a_failing_row_names_what_fails() {
    let arguments = [AS_CHANGED, "--vary", "shift.boat=-16in..4in/2in"];
    let mut named = 0;
    for row in rows(&told(&[&arguments[..], &["--format", "csv"]].concat())) {
        let id = field(&row, "failing_check");
        assert_eq!(id.is_empty(), field(&row, "verdict") == "pass", "{row:?}");
        if !id.is_empty() {
            let change = format!("shift.boat={} in", field(&row, "shift.boat_in"));
            let report = check(AS_CHANGED, &[change]);
            assert_eq!(of_check(&report, id)["verdict"], "fail");
            named += 1;
        }
    }
    assert!(named > 0);
    // The greatest loads are those of the axles' own columns.
    let show = "axle_load,axle-1.load,axle-2.load,axle-3.load,lifted_axle_load,lifted-axle-1.load,lifted-axle-2.load";
    for row in rows(&told(&[&arguments[..], &["--format", "csv", "--show", show]].concat())) {
        let greatest =
            |ids: &[&str]| ids.iter().map(|id| number(&row, &format!("{id}.load_lb"))).fold(0.0, f64::max);
        assert_eq!(number(&row, "axle_load_lb"), greatest(&["axle-1", "axle-2", "axle-3"]));
        assert_eq!(number(&row, "lifted_axle_load_lb"), greatest(&["lifted-axle-1", "lifted-axle-2"]));
    }
}

#[test]
fn the_usual_table_fits_a_page() {
    for rig in [AS_FOUND, AS_CHANGED, SKIFF, "demo-data/pilot-cutter.toml", "demo-data/crab-boat.toml"] {
        let table = told(&[rig, "--vary", "shift.boat=-16in..8in/2in", "--units", "us"]);
        assert!(table.lines().all(|line| line.chars().count() <= 80), "{table}");
        assert!(table.contains(" fail "), "{table}");
    }
}

#[test]
fn no_passing_point_is_no_answer() {
    let output = sweep(&[AS_FOUND, "--vary", "shift.boat=-16in..2in/1in", "--best"]);
    assert_eq!(output.status.code(), Some(1));
    assert_eq!(text(&output.stdout), "# None of 19 points passes.\n");
    // Points without loads do not pass either.
    let output = sweep(&[SKIFF, "--vary", "trailer.jack.station=40ft,41ft", "--best", "--format", "csv"]);
    assert_eq!((output.status.code(), text(&output.stdout).as_str()), (Some(1), ""));
}

#[test]
fn the_best_values_can_be_written_into_the_rig_file() {
    let folder = folder("best-written");
    let (rig, new) = (folder.join("rig.toml"), folder.join("new.toml"));
    let original = fs::read_to_string(AS_CHANGED).expect("a demo");
    fs::write(&rig, &original).expect("a file");
    let vary = [path_text(&rig), "--vary", "shift.boat=-16in..2in/1in", "--best"];
    told(&[&vary[..], &["--write", path_text(&new)]].concat());
    let written = fs::read_to_string(&new).expect("it is there");
    assert_eq!(written, original.replace("boat = \"-13 in\"  ", "boat = \"-16 in\"  "));
    assert_eq!(fs::read_to_string(&rig).expect("it stands"), original);
    // What is there is not overwritten, and the rig file only where that is asked for.
    let refused_text = refused(&[&vary[..], &["--write", path_text(&new)]].concat());
    assert!(refused_text.contains("expected a new file to write, found that"), "{refused_text}");
    let refused_text = refused(&[&vary[..], &["--write", path_text(&rig)]].concat());
    assert!(refused_text.contains("--in-place changes the rig file itself"), "{refused_text}");
    let refused_text = refused(&[&vary[..], &["--in-place", "--write", path_text(&new)]].concat());
    assert!(refused_text.contains("found both"), "{refused_text}");
    let refused_text = refused(&[&vary[..], &["--in-place", "--set", "shift.axles=1in"]].concat());
    assert!(refused_text.contains("expected no --set with --write or --in-place"), "{refused_text}");
    assert_eq!(fs::read_to_string(&rig).expect("it stands"), original);
    told(&[&vary[..], &["--in-place"]].concat());
    assert_eq!(fs::read_to_string(&rig).expect("it stands"), written);
    told(&[&vary[..], &["--in-place", "--write", path_text(&rig)]].concat());
    assert_eq!(files_in(&folder), ["new.toml", "rig.toml"]);
    // Without an answer nothing is written.
    let none = folder.join("none.toml");
    let output = sweep(&[AS_FOUND, "--vary", "shift.boat=0in", "--best", "--write", path_text(&none)]);
    assert_eq!(output.status.code(), Some(1));
    assert_eq!(files_in(&folder), ["new.toml", "rig.toml"]);
    let nowhere = folder.join("no/folder/rig.toml");
    let refused_text = refused_with_answer(&[&vary[..], &["--write", path_text(&nowhere)]].concat());
    assert!(refused_text.contains("expected to write"), "{refused_text}");
}

/// As [`refused`], for what is found out only once there is an answer.
fn refused_with_answer(arguments: &[&str]) -> String {
    let output = sweep(arguments);
    assert_eq!(output.status.code(), Some(2), "{}", text(&output.stderr));
    text(&output.stderr)
}

#[test]
fn an_output_file_is_whole_or_not_there() {
    let folder = folder("output");
    let file = folder.join("rows.csv");
    let arguments = [AS_FOUND, "--vary", "shift.boat=-16in..2in/1in", "--format", "csv"];
    let run = |file: &Path| sweep(&[&arguments[..], &["--output", path_text(file)]].concat());
    let output = run(&file);
    assert_eq!((output.status.code(), output.stdout.len(), output.stderr.len()), (Some(0), 0, 0));
    assert_eq!(fs::read_to_string(&file).expect("it is there"), told(&arguments));
    // Another sweep takes its place.
    fs::write(&file, "old").expect("a file");
    assert_eq!(run(&file).status.code(), Some(0));
    assert_eq!(fs::read_to_string(&file).expect("it is there"), told(&arguments));
    assert_eq!(files_in(&folder), ["rows.csv"]);
    // What cannot be written is told before anything is computed, and nothing is left.
    for place in [folder.join("no/rows.csv"), folder.clone(), folder.join("rows.csv/more.csv")] {
        let message = refused(&[&arguments[..], &["--output", path_text(&place)]].concat());
        assert!(message.contains(&format!("expected to write {}", path_text(&place))), "{message}");
    }
    assert_eq!(files_in(&folder), ["rows.csv"]);
    // A sweep that fails leaves what was there.
    let bad = [SKIFF, "--vary", "shift.boat=-60ft,-50ft", "--output", path_text(&file)];
    refused(&bad);
    assert_eq!(fs::read_to_string(&file).expect("it is there"), told(&arguments));
    assert_eq!(files_in(&folder), ["rows.csv"]);
}

#[cfg(unix)]
#[test]
fn devices_are_written_to_and_not_replaced() {
    let arguments = [AS_FOUND, "--vary", "shift.boat=-16in..2in/1in", "--format", "csv"];
    let output = sweep(&[&arguments[..], &["--output", "/dev/null"]].concat());
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    assert!(!fs::metadata("/dev/null").expect("a device").is_file());
    // Nothing can be written to a full device.
    if PathBuf::from("/dev/full").exists() {
        let message = refused(&[&arguments[..], &["--output", "/dev/full"]].concat());
        assert!(message.contains("expected to write /dev/full"), "{message}");
        let full = fs::File::options().write(true).open("/dev/full").expect("a device");
        let output = program().arg("sweep").args(arguments).stdout(full).output().expect("the program runs");
        assert_eq!(output.status.code(), Some(2));
        assert!(text(&output.stderr).contains("expected to write to stdout"));
    }
}

/// A sweep that takes longer than anybody waits, its rows coming through a pipe.
#[cfg(unix)]
fn endless(more: &[&str]) -> std::process::Child {
    let vary = ["sweep", AS_FOUND, "--vary", "shift.boat=-16in..2in/0.0000001in", "--format", "csv"];
    let mut program = program();
    program.args(vary).args(more).stdout(Stdio::piped()).stderr(Stdio::piped());
    program.spawn().expect("the program runs")
}

#[cfg(unix)]
fn interrupt(child: &std::process::Child) {
    let sent = Command::new("kill").args(["-INT", &child.id().to_string()]).status();
    assert!(sent.expect("kill runs").success());
}

#[cfg(unix)]
#[test]
fn an_interrupted_sweep_ends_with_a_whole_row() {
    let mut child = endless(&[]);
    let mut rows = BufReader::new(child.stdout.take().expect("a pipe"));
    let mut read = String::new();
    for _ in 0..100 {
        rows.read_line(&mut read).expect("rows come");
    }
    interrupt(&child);
    rows.read_to_string(&mut read).expect("the rest is text");
    let output = child.wait_with_output().expect("the program ends");
    assert_eq!(output.status.code(), Some(2));
    let lines: Vec<&str> = read.lines().collect();
    let told = text(&output.stderr);
    assert!(told.contains(&format!("interrupted after {} of 180000001 points", lines.len() - 1)), "{told}");
    let last = lines.last().and_then(|line| line.split_once(",fail,"));
    assert!(read.ends_with('\n') && last.is_some_and(|(_, id)| !id.is_empty()), "{:?}", lines.last());
    let columns = |line: &str| line.split(',').count();
    assert!(lines.iter().all(|line| columns(line) == columns(lines[0])));
}

#[cfg(unix)]
#[test]
fn an_interrupted_sweep_leaves_no_file() {
    let folder = folder("interrupted");
    let file = folder.join("rows.csv");
    let child = endless(&["--output", path_text(&file)]);
    // It has begun once its file in the making is there.
    let waited = std::time::Instant::now();
    while files_in(&folder).is_empty() && waited.elapsed().as_secs() < 60 {
        std::thread::sleep(std::time::Duration::from_millis(20));
    }
    interrupt(&child);
    let output = child.wait_with_output().expect("the program ends");
    assert_eq!(output.status.code(), Some(2), "{}", text(&output.stderr));
    assert!(text(&output.stderr).contains("interrupted after "));
    assert!(files_in(&folder).is_empty());
}

#[test]
fn a_reader_that_leaves_is_no_error() {
    let mut child = program()
        .args(["sweep", AS_FOUND, "--vary", "shift.boat=-16in..2in/0.0001in"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program runs");
    let mut start = [0; 10];
    let mut stdout = child.stdout.take().expect("a pipe");
    stdout.read_exact(&mut start).expect("rows begin");
    drop(stdout);
    let output = child.wait_with_output().expect("the program ends");
    assert_eq!((output.status.code(), text(&output.stderr).as_str()), (Some(0), ""));
}

#[test]
fn what_cannot_be_swept_is_told() {
    let wrong: &[(&[&str], &[&str])] = &[
        (
            &["--vary", "shift.boat"],
            &["expected PATH=FROM..TO/STEP or PATH=A,B,C, found `shift.boat`", "for example"],
        ),
        (
            &["--vary", "shift.boat=1in..2in/0in"],
            &["shift.boat: expected a step other than zero, found `0in`"],
        ),
        (
            &["--vary", "shift.boat=1in..2in/-1in"],
            &["expected a step from 1in toward 2in, found `-1in`", "did you mean a step of 1in?"],
        ),
        (&["--vary", "shift.boat=1in..2in"], &["expected FROM..TO/STEP or a list"]),
        (
            &["--vary", "shift.boat=1lb..2lb/1lb"],
            &["expected a length, found a weight (`lb`) in `1lb`", "units that fit"],
        ),
        (&["--vary", "shift.boat=1in..2in/1lb"], &["expected a length, found a weight"]),
        (&["--vary", "shift.boat=1..2/1"], &["expected a unit after `1`, found none"]),
        (&["--vary", "shift.boat=1in..200m/1in"], &["shift.boat: expected a length of at most 100 m"]),
        (
            &["--vary", "boat.tanks.fuel.fill=50%..110%/10%"],
            &["expected a share of at most 100 %, found 110 %"],
        ),
        (
            &["--vary", "boat.beam=8ft,-1in,9ft"],
            &["expected a length above zero, found -1 in", "the boat's beam"],
        ),
        (
            &["--vary", "shift.bot=1in"],
            &["expected a key of the rig file, found `shift.bot`", "did you mean `shift.boat`?"],
        ),
        (&["--vary", "shift=1in"], &["expected a key with a value, found the table `shift`"]),
        (
            &["--vary", "tow.driven=front,rear"],
            &["expected the path of a quantity, found `tow.driven`, which is none"],
        ),
        (&["--vary", "trailer.axles.7.rating=1lb"], &["expected trailer.axles 1 to 3", "found `7`"]),
        (
            &["--vary", "shift.boat=1in", "--vary", "shift.boat=2in"],
            &["expected each key once, found `shift.boat` in two places"],
        ),
        (
            &["--vary", "shift.boat=1in", "--show", "tongue_wait"],
            &["expected the name of a column, found `tongue_wait`", "did you mean `tongue_weight`?"],
        ),
        (&["--vary", "shift.boat=1in", "--show", "axle-1"], &["did you mean `axle-1.load`?"]),
        (&["--vary", "shift.boat=1in", "--show", "axle-1.lode"], &["did you mean `axle-1.load`?"]),
        (
            &["--vary", "shift.boat=1in", "--show", "axle-4.load"],
            &["expected the name of a column, found `axle-4.load`", "did you mean `axle-"],
        ),
        (
            &["--vary", "shift.boat=1in", "--show", "zzzzzz"],
            &["columns are tongue_weight, tongue_share", "the id of any check"],
        ),
        (
            &["--vary", "shift.boat=1in", "--show", "verdict,pitch,verdict"],
            &["expected each column once, found `verdict` twice"],
        ),
        (&["--vary", "shift.boat=1in", "--show", ""], &["expected the name of a column, found ``"]),
        (
            &["--vary", "shift.boat=1in", "--case", "out"],
            &["expected the name of a case (`out to the survey, tank full`"],
        ),
        (
            &["--vary", "shift.boat=0in..100in/0.0000001in"],
            &["expected at most 1000000000 points, found 1000000001", "--yes if they are meant"],
        ),
        (
            &["--vary", "shift.boat=0m..1m/0.00001m", "--vary", "shift.axles=0m..1m/0.00001m"],
            &["expected at most 1000000000 points, found 10000200001"],
        ),
        (
            &[
                "--yes",
                "--vary",
                "shift.boat=0m..1m/0.000000000001m",
                "--vary",
                "shift.axles=0m..1m/0.000000000001m",
            ],
            &["expected fewer than 18446744073709551615 points, found 1000000000002000000000001"],
        ),
        (&["--vary", "shift.boat=1in", "--set", "shift.bot=1in"], &["did you mean `shift.boat`?"]),
        (&["--vary", "shift.boat=\u{1b}[31m"], &["expected a length that begins with a number"]),
    ];
    for (arguments, says) in wrong {
        let told = refused(&[&[AS_FOUND], *arguments].concat());
        let flat = told.split_whitespace().collect::<Vec<_>>().join(" ");
        for expected in *says {
            assert!(flat.contains(expected), "{arguments:?}: {told}");
        }
        assert!(!told.contains('\u{1b}'), "{told}");
    }
    for arguments in [
        &[AS_FOUND][..],
        &["--vary", "shift.boat=1in"],
        &[AS_FOUND, "--vary", "shift.boat=1in", "--threads", "0"],
        &[AS_FOUND, "--vary", "shift.boat=1in", "--format", "xml"],
    ] {
        let told = refused(arguments);
        assert!(told.contains("Usage:") || told.contains("--help"), "{arguments:?}: {told}");
    }
    let told = refused(&["no/such-rig.toml", "--vary", "shift.boat=1in"]);
    assert!(told.contains("no/such-rig.toml: expected a readable rig file"), "{told}");
    for more in [&["--write", "rig.toml"][..], &["--in-place"]] {
        let told = refused(&[&[AS_FOUND, "--vary", "shift.boat=1in"], more].concat());
        assert!(told.contains("expected --best with --write or --in-place"), "{told}");
    }
}

/// An earlier table may be replaced, another rig file may not.
#[test]
fn an_output_replaces_no_rig_file() {
    let folder = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("another-rig");
    std::fs::create_dir_all(&folder).expect("a folder");
    let other = folder.join("other.toml");
    std::fs::write(&other, "format = 1\n").expect("a file");
    let output = std::process::Command::new(env!("CARGO_BIN_EXE_bunkline"))
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .args(["sweep", "demo-data/fishing-skiff.toml", "--vary", "shift.boat=0in,1in", "--output"])
        .arg(&other)
        .output()
        .expect("the program runs");
    let told = String::from_utf8_lossy(&output.stderr).into_owned();
    assert_eq!(output.status.code(), Some(2), "{told}");
    assert!(told.contains("found the rig file"), "{told}");
    assert_eq!(std::fs::read_to_string(&other).expect("a file"), "format = 1\n");
}
