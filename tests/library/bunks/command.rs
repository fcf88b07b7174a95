//! `bunkline bunks`, as people and programs read it.

use serde_json::Value;
use std::process::{Command, Output};

fn run(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_bunkline"))
        .args(arguments)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .expect("the program runs")
}

fn printed(arguments: &[&str]) -> String {
    let output = run(arguments);
    assert_eq!(output.status.code(), Some(0), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).expect("it prints UTF-8")
}

#[test]
fn reports() {
    for (name, file) in [
        ("as-found", "demo-data/survey-launch-as-found.toml"),
        ("as-changed", "demo-data/survey-launch-as-changed.toml"),
        ("cutter", "demo-data/pilot-cutter.toml"),
    ] {
        let report = printed(&["bunks", file]);
        assert!(report.lines().all(|line| line.chars().count() <= 80), "{report}");
        insta::assert_snapshot!(name, report);
    }
    let document = printed(&["bunks", "demo-data/survey-launch-as-found.toml", "--format", "json"]);
    let mut document = serde_json::from_str(&document).expect("it prints JSON");
    round(&mut document);
    insta::assert_snapshot!("as-found-json", format!("{document:#}"));
}

/// To four decimals: what a search leaves in the last digits is no finding.
fn round(value: &mut Value) {
    match value {
        Value::Number(number) if number.is_f64() => {
            let rounded = number.as_f64().map(|number| (number * 1e4).round() / 1e4 + 0.0);
            *value = rounded.into();
        }
        Value::Array(values) => values.iter_mut().for_each(round),
        Value::Object(members) => members.values_mut().for_each(round),
        _ => {}
    }
}

#[test]
fn json_carries_the_agreed_keys_in_the_named_units() {
    let file = concat!(env!("CARGO_TARGET_TMPDIR"), "/plain-bunks.toml");
    std::fs::write(file, crate::bunks::rigs::PLAIN).expect("the temporary folder takes files");
    let document: Value = serde_json::from_str(&printed(&["bunks", file, "--format", "json"])).expect("JSON");
    let bunks = &document["bunks"];
    let number = |value: &Value| value.as_f64().unwrap_or_else(|| panic!("no number in {bunks}"));
    // As worked by hand beside.
    for (found, expected) in [
        (&bunks["keel_height"], 23.7650),
        (&bunks["bevel"], 18.0),
        (&bunks["drop"], 1.13722),
        (&bunks["outer_depth"], 9.25),
        (&bunks["inner_depth"], 8.11278),
        (&bunks["contact"]["aft"], 270.0),
        (&bunks["contact"]["forward"], 150.0),
        (&bunks["pressure"]["aft"], 50.0),
        (&bunks["pressure"]["forward"], 50.0),
        (&bunks["crossmembers"][1]["station"], 190.0),
        (&bunks["crossmembers"][1]["reaction"], 1100.0),
        (&bunks["crossmembers"][4]["reaction"], 0.0),
        (&bunks["moment"]["value"], 4000.0),
        (&bunks["shear"]["value"], 600.0),
        (&bunks["stress"]["value"], 104.185),
        (&bunks["deflection"]["value"], 0.002_245_16),
    ] {
        assert!(
            (number(found) - expected).abs() <= 1e-4 * expected.abs().max(1e-9),
            "{found} for {expected}"
        );
    }
    assert!(number(&bunks["eccentricity"]).abs() < 1e-9);
    // Kilograms and millimetres: 25.4 of them, and 0.45359237 of the others; a moment is in newton metres.
    let metric: Value =
        serde_json::from_str(&printed(&["bunks", file, "--format", "json", "--units", "metric"]))
            .expect("JSON");
    let ratio = number(&metric["bunks"]["moment"]["value"]) / number(&bunks["moment"]["value"]);
    assert!((ratio - 0.453_592_37 * 9.806_65 * 0.0254).abs() < 1e-9);
    let ratio = number(&metric["bunks"]["stress"]["value"]) / number(&bunks["stress"]["value"]);
    // Megapascals.
    assert!((ratio - 0.453_592_37 * 9.806_65 / (0.0254 * 0.0254) / 1e6).abs() < 1e-12);
}

#[test]
fn a_rig_without_bunks_says_so() {
    let output = run(&["bunks", "demo-data/fishing-skiff.toml"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(output.stdout.is_empty());
    let told = String::from_utf8_lossy(&output.stderr);
    assert!(told.contains("expected bunks in [trailer.bunks], found none"), "{told}");
    // And check says nothing of them.
    let document: Value =
        serde_json::from_str(&printed(&["check", "demo-data/fishing-skiff.toml", "--format", "json"]))
            .expect("JSON");
    assert!(document["bunks"].is_null());
}

#[test]
fn bunks_that_say_too_little_name_the_keys() {
    let little = "format = 1\n[[trailer.axles]]\nstation = \"200 in\"\n[trailer.bunks]\nboard = \"4x8\"\n";
    let file = concat!(env!("CARGO_TARGET_TMPDIR"), "/little-bunks.toml");
    std::fs::write(file, little).expect("the temporary folder takes files");
    let output = run(&["bunks", file]);
    // Nothing about them could be computed.
    assert_eq!(output.status.code(), Some(1));
    let report = String::from_utf8_lossy(&output.stdout);
    for key in ["boat.hull.straight_run", "trailer.bunks.aft_end", "trailer.bunks.wood"] {
        assert!(report.contains(key), "{key} is not asked for:\n{report}");
    }
}
