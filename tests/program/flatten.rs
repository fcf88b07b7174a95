//! A rig in several files printed as one.

use crate::pieces::cut;
use bunkline::Rig;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

const NO_CHANGES: &[&str] = &[];

fn flatten(file: &Path) -> Output {
    Command::new(env!("CARGO_BIN_EXE_bunkline")).arg("flatten").arg(file).output().expect("the program runs")
}

fn flat(file: &Path) -> String {
    let output = flatten(file);
    assert_eq!(output.status.code(), Some(0), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).expect("it prints UTF-8")
}

fn demo(path: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-data").join(path)
}

fn folder(name: &str) -> PathBuf {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("flatten-{name}"));
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(folder.join("deeper")).expect("a folder");
    folder
}

fn assert_same(one: &Rig, other: &Rig, text: &str) {
    assert_eq!(one.measured(), other.measured(), "{text}");
    assert_eq!(one.proposed(), other.proposed(), "{text}");
    assert_eq!(one.assumed(), other.assumed(), "{text}");
    assert_eq!(one.uncertain(), other.uncertain(), "{text}");
}

/// Numbers that look drawn, the same at every run.
fn numbers(seed: u64) -> impl Iterator<Item = usize> {
    let mut state = seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1;
    std::iter::repeat_with(move || {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        usize::try_from(state >> 40).expect("24 bits")
    })
}

#[test]
fn pieces_of_every_demo_give_it_back() {
    let folder = folder("pieces");
    let demos = fs::read_dir(demo("")).expect("a folder").map(|entry| entry.expect("an entry").path());
    let mut tried = 0;
    for demo in demos.filter(|path| path.is_file()) {
        let text = fs::read_to_string(&demo).expect("a demo");
        let whole = Rig::parse(&text).expect("a rig");
        let comments: Vec<&str> =
            text.lines().filter_map(|line| line.split_once("# ")).map(|(_, is)| is).collect();
        for seed in 1..9 {
            let mut numbers = numbers(seed);
            let parents: Vec<usize> = numbers.by_ref().take(seed as usize % 5 + 1).collect();
            let choices: Vec<usize> = numbers.take(97).collect();
            for (name, piece) in cut(&text, &parents, &choices) {
                fs::write(folder.join(name), piece).expect("a file");
            }
            let flat = flat(&folder.join("rig.toml"));
            assert_same(&Rig::parse(&flat).expect("a rig"), &whole, &flat);
            assert!(!flat.contains("include"), "{flat}");
            for comment in &comments {
                assert!(flat.contains(comment), "`{comment}` is lost of {}:\n{flat}", demo.display());
            }
            tried += 1;
        }
    }
    assert!(tried >= 7 * 8, "{tried}");
}

#[test]
fn one_file_stays_as_it_is() {
    for name in ["fishing-skiff.toml", "weighed-tender.toml", "crab-boat.toml"] {
        assert_eq!(flat(&demo(name)), fs::read_to_string(demo(name)).expect("a demo"));
    }
}

#[test]
fn the_clubs_rig_is_printed_with_its_truck() {
    insta::assert_snapshot!(flat(&demo("club/work-punt.toml")));
}

#[test]
fn tables_merge_however_they_are_written() {
    let folder = folder("tables");
    let least = "include = [\"other.toml\"] # with it\nformat = 1\n";
    let axle = "[[trailer.axles]]\nstation = \"9 ft\"\n";
    for (one, other) in [
        (format!("tow = {{ name = \"a\" }}\n{axle}"), "[tow]\ngvwr = \"7000 lb\"\n".to_string()),
        (format!("{axle}[tow]\nname = \"a\"\n"), "tow.gvwr = \"7000 lb\"".to_string()),
        (format!("tow.name = \"a\"\n{axle}"), "# Both.\n[tow]\ngvwr = \"7000 lb\"\n".to_string()),
        (format!("tow = {{ name = \"a\" }}\n{axle}"), "tow = { gvwr = \"7000 lb\" }".to_string()),
        (format!("trailer.gvwr = \"1 t\"\n{axle}"), "[trailer]\nbow_stop = \"4 ft\"\n".to_string()),
        (
            "trailer.gvwr = \"1 t\"\n".to_string(),
            format!("\u{feff}[trailer]\r\nbow_stop = \"4 ft\"\r\n{axle}"),
        ),
        (
            format!("hitch = {{ ball = {{ rating = \"1 t\" }} }}\n{axle}"),
            "hitch.ball.diameter = \"2 in\"\n[hitch.receiver]\n\trating = \"1 t\"".to_string(),
        ),
        (
            format!("[hitch.ball]\nrating = \"1 t\"\n{axle}"),
            "# Above.\n[hitch]\nball_mount.rating = \"1 t\"\n[hitch.ball]\ndiameter = \"2 in\"\n".to_string(),
        ),
    ] {
        fs::write(folder.join("rig.toml"), format!("{least}{one}")).expect("a file");
        fs::write(folder.join("other.toml"), &other).expect("a file");
        let flat = flat(&folder.join("rig.toml"));
        let rig = Rig::read("flat", &flat, NO_CHANGES).expect(&flat);
        let stated = |text: &str| text.matches("\"1 t\"").count() + text.matches(" in\"").count();
        assert_eq!(stated(&flat), stated(&one) + stated(&other), "{flat}");
        assert_eq!(rig.measured().trailer.axles.len(), 1, "{flat}");
    }
}

#[test]
fn what_is_no_rig_is_not_printed() {
    let folder = folder("broken");
    fs::write(folder.join("rig.toml"), "include = [\"other.toml\"]\nformat = 1\n").expect("a file");
    fs::write(folder.join("other.toml"), "axels = 3\n").expect("a file");
    let output = flatten(&folder.join("rig.toml"));
    assert_eq!(output.status.code(), Some(2));
    assert!(output.stdout.is_empty());
    assert!(String::from_utf8_lossy(&output.stderr).contains("found `axels`"));
}
