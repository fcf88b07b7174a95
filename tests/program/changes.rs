//! What differs between two rig files, and what that does.

use super::club::{bunkline, folder, printed, root, said};
use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};

fn demo(name: &str) -> String {
    fs::read_to_string(root().join("demo-data").join(name)).expect("a demo")
}

fn two(name: &str, old: &str, new: &str) -> PathBuf {
    folder(&format!("changes-{name}"), &[("old.toml", old), ("new.toml", new)])
}

/// What `changes` prints of the two files.
fn changes(folder: &Path, more: &[&str]) -> String {
    let output = bunkline(folder, &[&["changes", "old.toml", "new.toml"], more].concat());
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    assert_eq!(said(&output), "");
    printed(&output)
}

#[test]
fn what_means_the_same_is_no_difference() {
    let skiff = demo("fishing-skiff.toml");
    let same = skiff
        .replace("# ", "# Another remark: ")
        .replace("gvwr = \"3600 lb\"", "gvwr = \"1632.932532 kg\"")
        .replace("title = \"", "title   =   \"");
    assert_ne!(same, skiff);
    let cut = demo("club/safety-boat.toml").replace("include = [\"shared/truck.toml\"]", "")
        + &demo("club/shared/truck.toml");
    for (name, old, new) in [("itself", skiff.as_str(), skiff.as_str()), ("otherwise", &skiff, &same)] {
        let printed = changes(&two(name, old, new), &[]);
        assert!(printed.starts_with("No difference: both files describe the same rig\n"), "{printed}");
        assert_eq!(printed.lines().count(), 3, "{printed}");
    }
    let folder = two("cut", &cut, &demo("club/safety-boat.toml"));
    fs::create_dir(folder.join("shared")).expect("a folder");
    fs::write(folder.join("shared/truck.toml"), demo("club/shared/truck.toml")).expect("a file");
    assert!(changes(&folder, &[]).starts_with("No difference"), "{}", changes(&folder, &[]));
}

#[test]
fn a_change_is_named_with_what_it_did() {
    let skiff = demo("fishing-skiff.toml");
    // It weighs 2,586.4 lb in all.
    let folder = two("gvwr", &skiff, &skiff.replace("gvwr = \"3600 lb\"", "gvwr = \"2500 lb\""));
    assert_eq!(
        changes(&folder, &[]),
        "FAIL, was pass; 1 key differs\n\
         \x20 Old  old.toml: Fishing skiff Minnow Bucket on one axle\n\
         \x20 New  new.toml: Fishing skiff Minnow Bucket on one axle\n\
         \nWhat was changed\n\
         \x20 - trailer.gvwr: 3600 lb -> 2500 lb (gross vehicle weight rating)\n\
         \nWhat that did\n\
         \x20 check          verdict            load was       is  margin was       is\n\
         \x20 trailer-gvwr   was pass, is fail   2586 lb  2586 lb     1014 lb   -86 lb\n\
         \x20 safety-chains  pass                3600 lb  2586 lb     2400 lb  3414 lb\n"
    );
    let json: Value = serde_json::from_str(&changes(&folder, &["--format", "json"])).expect("JSON");
    assert_eq!((&json["old"]["verdict"], &json["new"]["verdict"]), (&"pass".into(), &"fail".into()));
    assert_eq!(json["keys"][0]["key"], "trailer.gvwr");
    assert_eq!((&json["keys"][0]["old"], &json["keys"][0]["new"]), (&"3600 lb".into(), &"2500 lb".into()));
    let (old, new) = (&json["checks"][0]["old"], &json["checks"][0]["new"]);
    assert_eq!((&old["verdict"], &new["verdict"]), (&"pass".into(), &"fail".into()));
    let margin = |row: &Value| row["margin"].as_f64().expect("a margin");
    // A pound is exact, a sum of them rounds in the last bits.
    assert!((margin(old) - 1013.6).abs() < 1e-9 && (margin(new) + 86.4).abs() < 1e-9, "{json}");
}

#[test]
fn a_change_in_a_shared_file_names_it() {
    let rig = "include = [\"truck.toml\"]\nformat = 1\n[[trailer.axles]]\nrating = \"RATING\"\n";
    let truck = |gvwr: &str| format!("[tow]\ngvwr = \"{gvwr}\"\n");
    let files = [
        ("old.toml", rig.replace("RATING", "3500 lb")),
        ("new.toml", rig.replace("RATING", "4400 lb").replace("truck.toml", "shared/truck.toml")),
        ("truck.toml", truck("6900 lb")),
        ("shared/truck.toml", truck("7000 lb")),
    ];
    let folder = folder("changes-shared", &files.each_ref().map(|(name, text)| (*name, text.as_str())));
    let printed = changes(&folder, &[]);
    assert!(
        printed.contains("vehicle weight rating), in\n    shared/truck.toml")
            || printed.contains(", in shared/truck.toml"),
        "{printed}"
    );
    let json: Value = serde_json::from_str(&changes(&folder, &["--format", "json"])).expect("JSON");
    let included: Vec<&Value> =
        json["keys"].as_array().expect("keys").iter().map(|key| &key["included"]).collect();
    assert_eq!(included, [&Value::Null, &"shared/truck.toml".into()]);
}

#[test]
fn elements_of_lists_go_by_their_names() {
    let skiff = demo("fishing-skiff.toml");
    let first = skiff.find("[[boat.weights]]").expect("a list of weights");
    let crate_of_bait = "[[boat.weights]]\nid = \"bait\"\nitem = \"a crate of bait\"\nweight = \"20 lb\"\nstation = \"6 ft\"\n\n";
    let new = format!("{}{crate_of_bait}{}", &skiff[..first], &skiff[first..]);
    let printed = changes(&two("names", &skiff, &new), &[]);
    let keys: Vec<&str> = printed.lines().filter(|line| line.starts_with("  - ")).collect();
    assert!(
        !keys.is_empty() && keys.iter().all(|line| line.starts_with("  - boat.weights.bait.")),
        "{printed}"
    );
    assert!(printed.contains("boat.weights.bait.weight: not stated -> 20 lb ("), "{printed}");
}

#[test]
fn what_is_changed_on_every_axle_is_one_line() {
    // Three axles alike; without its ramp it takes no time.
    let launch = demo("survey-launch-as-found.toml");
    let old = launch.split("[[ramps]]").next().expect("a rig");
    let new = old.replace("\"4400 lb\"", "\"5200 lb\"");
    let printed = changes(&two("axles", old, &new), &[]);
    assert!(
        printed.contains("  - trailer.axles.1.rating and 2 alike: 4400 lb -> 5200 lb (gross axle"),
        "{printed}"
    );
}

#[test]
fn each_file_that_cannot_be_read_is_named() {
    let folder = two("broken", "format = 1\ntitel = \"a\"\n", "format = 1\n");
    let output = bunkline(&folder, &["changes", "old.toml", "new.toml"]);
    assert_eq!((output.status.code(), printed(&output)), (Some(2), String::new()));
    for place in ["--> old.toml:2:1", "in new.toml"] {
        assert!(said(&output).contains(place), "{}", said(&output));
    }
    let output = bunkline(&folder, &["changes", "-", "-"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(
        said(&output).contains("expected one rig file from standard input, found two"),
        "{}",
        said(&output)
    );
}
