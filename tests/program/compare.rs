//! Trailers side by side, as a buyer sees them.

use serde_json::Value;
use std::process::{Command, Output};

const BOAT: &str = "demo-data/buying/boat.toml";
const TANDEM: &str = "demo-data/buying/trailers/tandem.toml";
const SINGLE: &str = "demo-data/buying/trailers/single.toml";
const TRIPLE: &str = "demo-data/buying/trailers/triple.toml";

fn bunkline(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_bunkline"))
        .args(arguments)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .expect("the program runs")
}

fn printed(output: &Output) -> String {
    let text = String::from_utf8(output.stdout.clone()).expect("it prints UTF-8");
    assert!(text.lines().all(|line| line.chars().count() <= 80), "wider than 80 columns:\n{text}");
    text
}

#[test]
fn three_trailers_for_a_boat() {
    let output = bunkline(&["compare", "--boat", BOAT, SINGLE, TANDEM, TRIPLE]);
    assert_eq!(output.status.code(), Some(0));
    insta::assert_snapshot!("three-trailers", printed(&output));
}

/// Its axles and coupler hold 2 × 4400 + 1000 = 9800 lb: a GVWR of 12000 lb would only look as if little of it were used.
#[test]
fn a_gvwr_beyond_its_parts_is_cautioned_against_in_every_form() {
    let arguments = ["compare", "--boat", BOAT, TANDEM];
    let too_much = ["--set", "trailer.gvwr=12000 lb"];
    let page = printed(&bunkline(&[&arguments[..], &too_much].concat()));
    let page = page.split_whitespace().collect::<Vec<_>>().join(" ");
    let cautions = |more: &[&str]| {
        let output = bunkline(&[&arguments[..], &["--format", "json"], more].concat());
        let document: Value = serde_json::from_slice(&output.stdout).expect("JSON");
        document["rigs"][0]["cautions"].clone()
    };
    assert_eq!(cautions(&[]), serde_json::json!([]));
    let told = cautions(&too_much);
    assert_eq!(told.as_array().map(Vec::len), Some(1), "{told}");
    assert!(
        told[0].as_str().is_some_and(|told| told.contains("12000 lb") && page.contains(told)),
        "{told} {page}"
    );
}

#[test]
fn a_bad_file_does_not_stop_the_others() {
    let arguments = ["compare", "--boat", BOAT, "no/such.toml", TANDEM, "--format", "json"];
    let output = bunkline(&arguments);
    assert_eq!(output.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&output.stderr).contains("no/such.toml"));
    let document: Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert_eq!(document["rigs"][0]["verdict"], "pass");
    assert_eq!(document["errors"][0]["path"], "no/such.toml");
    // What is not read of a trailer's file must be right all the same, and without the boat's file there is no answer.
    let output = bunkline(&["compare", "--boat", "no/such.toml", TANDEM]);
    assert_eq!((output.status.code(), output.stdout.len()), (Some(2), 0));
}

#[test]
fn more_rigs_than_a_page_is_wide_stand_in_blocks() {
    let rigs = [BOAT, SINGLE, TANDEM, TRIPLE, TANDEM, SINGLE, TRIPLE];
    let mut arguments = vec!["compare", "--boat"];
    arguments.extend(rigs);
    let text = printed(&bunkline(&arguments));
    assert!(text.matches("Verdict").count() > 1, "{text}");
    for name in ["1 tandem", "2 tandem", "3 single", "4 single", "5 triple", "6 triple"] {
        assert!(text.contains(name), "{name}: {text}");
    }
}

/// One tandem, whose gross weight is 8500 − 6600 = 1900 lb with the boat's 4300 + 560 + 250 + 70 × 6.1 = 5537 lb: 7437 lb.
#[test]
fn numbers_for_spreadsheets_are_unrounded() {
    let output = bunkline(&["compare", "--boat", BOAT, TANDEM, "--format", "csv"]);
    let text = String::from_utf8(output.stdout).expect("text");
    let mut lines = text.lines().map(|line| line.split(',').collect::<Vec<_>>());
    let header = lines.next().expect("a header");
    let quoted = text.lines().nth(1).expect("a line").replace(", ", " ");
    let line: Vec<&str> = quoted.split(',').collect();
    assert_eq!(header.len(), line.len());
    let at = |name: &str| line[header.iter().position(|column| *column == name).expect("a column")];
    let used: f64 = at("gross_weight_used").parse().expect("a number");
    assert!((used - 7437.0 / 8500.0).abs() < 1e-9, "{used}");
    assert_eq!((at("rank"), at("verdict"), at("parts")), ("1", "pass", "0"));
}

/// The triple is known from an advertisement, and the single does not fit as it stands: the first line says that none of
/// the two passes.
#[test]
fn a_trailer_known_from_an_advertisement_is_no_answer() {
    let output = bunkline(&["compare", "--boat", BOAT, TRIPLE, SINGLE]);
    assert_eq!(output.status.code(), Some(1));
    let text = printed(&output);
    let first = text.lines().next().expect("a line");
    assert!(first.starts_with("FAIL  demo-data/buying/trailers/single.toml"), "{text}");
    assert!(text.replace("\n      ", " ").contains("none of 2 passes"), "{text}");
    let text = printed(&bunkline(&["compare", "--boat", BOAT, TRIPLE, TRIPLE]));
    assert!(text.starts_with("INCOMPLETE"), "{text}");
    assert!(text.contains("checks that a verdict needs"), "{text}");
}

#[test]
fn where_nothing_fits_the_exit_code_says_so() {
    let output = bunkline(&["compare", "--boat", BOAT, TANDEM, "--set", "boat.weights.hull.weight=20000 lb"]);
    assert_eq!(output.status.code(), Some(1), "{}", String::from_utf8_lossy(&output.stderr));
}

/// A spreadsheet takes what begins with = + - @ for a formula, and a line's end in a name for a line.
#[test]
fn a_name_is_no_formula() {
    let folder = std::path::PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("formula");
    std::fs::create_dir_all(&folder).expect("a folder");
    let tandem = std::fs::read_to_string(std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join(TANDEM))
        .expect("a demo");
    for name in ["=1+2.toml", "a\nb.toml"] {
        let text = tandem.lines().filter(|line| !line.starts_with("title")).collect::<Vec<_>>().join("\n");
        let text = format!("title = \"@sum\"\n{text}\n");
        std::fs::write(folder.join(name), text).expect("a file");
    }
    let boat = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join(BOAT);
    let output = Command::new(env!("CARGO_BIN_EXE_bunkline"))
        .args([
            "compare",
            "--boat",
            boat.to_str().expect("text"),
            "=1+2.toml",
            "a\nb.toml",
            "--format",
            "csv",
        ])
        .current_dir(&folder)
        .output()
        .expect("the program runs");
    let text = String::from_utf8(output.stdout).expect("text");
    assert_eq!(text.lines().count(), 3, "{text}{}", String::from_utf8_lossy(&output.stderr));
    assert!(text.contains("\"'=1+2.toml\",\"'@sum\""), "{text}");
    assert!(text.contains("\"a\\u000ab.toml\""), "{text}");
}
