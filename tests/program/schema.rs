//! The schema of the rig file: it takes every rig that is read, and refuses what it can know to be a mistake.

use jsonschema::{Validator, draft7};
use serde_json::Value;
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

fn schema() -> Value {
    let output =
        Command::new(env!("CARGO_BIN_EXE_bunkline")).arg("schema").output().expect("the program runs");
    assert!(output.status.success());
    serde_json::from_slice(&output.stdout).expect("JSON")
}

fn validator() -> Validator {
    draft7::new(&schema()).expect("a schema of draft-07")
}

fn files(folder: &str) -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
    let entries = fs::read_dir(folder).expect("a folder").map(|entry| entry.expect("an entry").path());
    let mut files: Vec<PathBuf> =
        entries.filter(|path| path.extension().is_some_and(|end| end == "toml")).collect();
    files.sort();
    files
}

fn stem(path: &Path) -> String {
    path.file_stem().expect("a name").to_string_lossy().into_owned()
}

#[test]
fn the_schema_is_one() {
    assert!(draft7::meta::is_valid(&schema()));
}

#[test]
fn every_rig_of_the_project_keeps_to_it() {
    let validator = validator();
    let folders = ["demo-data", "demo-data/club", "demo-data/club/shared", "tests/rigs"];
    let mut texts: Vec<(String, String)> = folders
        .iter()
        .flat_map(|folder| files(folder))
        // It is no rig but what several tests end theirs with.
        .filter(|path| !path.ends_with("tests/rigs/bunks.toml"))
        .map(|path| (path.display().to_string(), fs::read_to_string(&path).expect("a text")))
        .collect();
    for units in [bunkline::quantity::show::UnitSystem::Us, bunkline::quantity::show::UnitSystem::Metric] {
        let starter = bunkline::rig::starter::file(units, None);
        texts.push(("the starter file, filled in".to_string(), bunkline::rig::starter::filled(&starter)));
    }
    assert!(texts.len() > 12);
    for (name, text) in texts {
        let rig: Value = toml::from_str(&text).unwrap_or_else(|error| panic!("{name}: {error}"));
        let errors: Vec<String> =
            validator.iter_errors(&rig).map(|error| format!("{}: {error}", error.instance_path())).collect();
        assert!(errors.is_empty(), "{name}: {errors:#?}");
    }
}

#[test]
fn quantities_are_taken_as_they_are_read() {
    let validator = validator();
    let refused = |value: Value, path: [&str; 2]| {
        !validator.is_valid(&serde_json::json!({ path[0]: { path[1]: value } }))
    };
    for taken in [
        "11 ft 8 in",
        "62-1/4 in",
        "11'-8\"",
        "½ in",
        "5 ½ in",
        "50 ± 1 in",
        "50 in ± 3 %",
        "1.5m",
        "+3 in +/- 1 mm",
        " 4ft2in ",
        ".5 in",
        "1/2 in",
        "5′ 10″",
    ] {
        assert!(bunkline::quantity::parse::<bunkline::quantity::Length>(taken).is_ok(), "{taken}");
        assert!(!refused(taken.into(), ["boat", "beam"]), "{taken}");
    }
    for wrong in ["", "in", "12", "12,5 in", "-3 in", "five in", "12 ± 1"] {
        assert!(refused(wrong.into(), ["boat", "beam"]), "{wrong}");
    }
    assert!(refused(12.into(), ["boat", "beam"]));
    // What may be on either side may be negative.
    assert!(!refused("-3 in".into(), ["shift", "boat"]));
}

/// Mistakes that no schema can know, by what one would have to know.
const BEYOND: &[(&str, &[&str])] = &[
    (
        "which units fit, and how a number is written",
        &[
            "after-wide-letters",
            "bound-missing",
            "bound-negative",
            "bunk-stress-in-pounds",
            "byte-order-mark",
            "decimal-and-fraction",
            "exponent",
            "feet-after-inches",
            "feet-and-fourteen-inches",
            "fraction-over-one",
            "inside-a-literal-string",
            "inside-a-string-over-lines",
            "inside-escaped-quotes",
            "inside-unicode-escape",
            "missing-unit-after-feet",
            "pounds-and-ounces",
            "section-modulus-in-inches",
            "travel-with-a-bound",
            "two-decimal-points",
            "unit-misspelt-feet",
            "unit-misspelt-lb",
            "unit-misspelt-of-another-kind",
            "unit-ton",
            "unit-unknown",
            "weight-in-fill",
            "windows-line-ends",
            "wrong-kind-of-unit",
        ],
    ),
    (
        "how large or small a quantity may be",
        &[
            "bound-beyond-its-own-value",
            "bound-out-of-bounds",
            "brake-bore-of-zero",
            "case-fill-over-100-percent",
            "deadrise-too-steep",
            "fill-over-100-percent",
            "pressure-over-2-mpa",
            "ramp-friction-over-100-percent",
            "ramp-of-90-degrees",
            "ramp-of-no-length",
            "ramp-over-100-percent",
            "share-over-100-percent",
            "trailer-of-900-ft",
            "vanishing-length",
            "weight-over-100-t",
            "zero-rating",
            "zero-trailer-weight",
        ],
    ),
    (
        "what a rule of one key asks for",
        &[
            "bracket-without-bolts",
            "bunk-board-not-sold",
            "date-code-of-week-60",
            "load-index-off-the-table",
            "low-point-named-keel",
            "policy-names-no-check",
            "ramp-without-runs",
            "reading-without-bound",
            "road-factor-below-one",
            "safety-chains-of-seven",
            "seven-axles",
            "tie-down-count-3",
            "tire-count-3",
            "too-many-weights",
            "trip-date-of-no-day",
        ],
    ),
    (
        "what must be there: an included file may hold it",
        &["no-axles", "no-format", "one-section", "ramp-without-name-or-runs", "reading-without-what"],
    ),
    (
        "which names are taken",
        &[
            "duplicate-id",
            "low-points-of-one-slug",
            "ramps-of-one-name",
            "reading-in-no-case",
            "unknown-id-in-fill",
            "unknown-id-in-without",
        ],
    ),
    (
        "what other files hold",
        &[
            "include-a-file-twice",
            "include-contradiction-between-files",
            "include-each-other",
            "include-itself",
            "include-key-in-two-files",
            "include-leads-out",
            "include-list-in-two-files",
            "include-mistake-inside",
            "include-syntax-inside",
            "include-table-and-none",
        ],
    ),
    (
        "another value",
        &[
            "axle-behind-the-trailer",
            "axles-in-one-place",
            "axles-out-of-order",
            "axles-outweigh-the-trailer",
            "axles-weighed-of-another-number",
            "band-above-the-default",
            "band-upside-down",
            "bow-eye-ahead-of-the-boat",
            "bow-stop-and-transom",
            "brake-actuator-upside-down",
            "brake-gain-and-bore",
            "brake-preload-twice",
            "brakes-of-no-kind",
            "brakes-on-an-unbraked-axle",
            "bunk-ends-reversed",
            "bunk-spacing-twice",
            "bunk-wood-and-bearing",
            "bunk-wood-and-stress",
            "bunks-beyond-beam",
            "capacity-not-below-gvwr",
            "cg-and-tongue-weight",
            "first-section-aft-of-the-transom",
            "counted-and-advised",
            "crossmembers-at-one-place",
            "date-code-after-the-trip",
            "deadrise-out-of-order",
            "fluid-and-density",
            "jack-behind-axle",
            "keel-rollers-reversed",
            "no-ball-for-the-socket",
            "no-section-at-the-transom",
            "ramp-ease-longer-than-a-run",
            "ramp-water-above-the-top",
            "ramp-water-twice",
            "reading-of-axle-3-of-2",
            "reading-of-axles-on-a-jack",
            "reading-with-the-boat-off-the-trailer",
            "scale-gross-below-trailer-and-tanks",
            "scale-gross-below-trailer-weight",
            "scale-tongue-not-below-gross",
            "sections-out-of-order",
            "sheer-below-the-keel",
            "sheer-below-the-chine",
            "shift-carries-axles-ahead-of-ball",
            "shift-carries-axles-ahead-of-jack",
            "side-beyond-beam",
            "straight-run-behind-support",
            "tie-down-ends-coincide",
            "tie-down-working-over-breaking",
            "tire-letters-against-kind",
            "tongue-weight-not-below-weight",
            "trailer-weight-with-a-dot-for-thousands",
            "travel-upside-down",
            "weight-and-capacity",
            "weight-distribution-twice",
            "winch-behind-bow-eye",
            "winch-flange-below-core",
            "winch-motor-upside-down",
            "winch-post-twice",
            "winch-strap-too-short",
        ],
    ),
];

#[test]
fn broken_files_are_refused_where_a_schema_can_tell() {
    let validator = validator();
    let beyond: BTreeSet<&str> = BEYOND.iter().flat_map(|(_, names)| names.iter().copied()).collect();
    let mut wrong = Vec::new();
    for path in files("tests/program/broken") {
        let text = fs::read_to_string(&path).unwrap_or_default();
        // What is no TOML is marked before any schema is asked.
        let passes = toml::from_str::<Value>(&text).is_ok_and(|rig| validator.is_valid(&rig));
        if passes != beyond.contains(stem(&path).as_str()) {
            wrong.push((stem(&path), passes));
        }
    }
    assert!(wrong.is_empty(), "passes the schema or not, against what is listed: {wrong:#?}");
    let names: BTreeSet<String> = files("tests/program/broken").iter().map(|path| stem(path)).collect();
    let gone: Vec<&&str> = beyond.iter().filter(|name| !names.contains(**name)).collect();
    assert!(gone.is_empty(), "{gone:?}");
}
