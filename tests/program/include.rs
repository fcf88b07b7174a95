//! Rig files that include others, as the program reads and writes them.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

const LEAST: &str = "format = 1\n[[trailer.axles]]\n";
const CLUB: &str = "demo-data/club/safety-boat.toml";

fn bunkline(folder: &Path, arguments: &[&str]) -> Output {
    let mut program = Command::new(env!("CARGO_BIN_EXE_bunkline"));
    program.current_dir(folder).args(arguments).stdin(Stdio::null()).output().expect("the program runs")
}

fn said(output: &Output) -> String {
    let said = String::from_utf8(output.stderr.clone()).expect("messages are text");
    assert!(!said.contains("panicked"), "{said}");
    said
}

/// A folder of these files for one test.
fn folder(name: &str, files: &[(&str, &str)]) -> PathBuf {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("include-{name}"));
    let _ = fs::remove_dir_all(&folder);
    // What lies above is none of its files' business.
    fs::create_dir_all(folder.join("rigs/.git")).expect("a folder");
    for (path, text) in files {
        let path = folder.join(path);
        fs::create_dir_all(path.parent().expect("a folder")).expect("a folder");
        fs::write(path, text).expect("a file");
    }
    folder
}

/// What `check` says of a file that cannot be read.
fn refused(folder: &Path, file: &str) -> String {
    let output = bunkline(folder, &["check", file]);
    let said = said(&output);
    assert_eq!(output.status.code(), Some(2), "{said}");
    assert!(output.stdout.is_empty());
    said
}

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// The demo rig of the club in a folder of its own.
fn club(name: &str) -> PathBuf {
    let read = |path: &str| fs::read_to_string(root().join("demo-data/club").join(path)).expect("a demo");
    let files = [("rig.toml", read("safety-boat.toml")), ("shared/truck.toml", read("shared/truck.toml"))];
    folder(name, &files.each_ref().map(|(path, text)| (*path, text.as_str())))
}

fn read(folder: &Path, path: &str) -> String {
    fs::read_to_string(folder.join(path)).expect("a file")
}

#[test]
fn the_clubs_rigs_share_a_truck() {
    for (file, verdict) in [("safety-boat", "PASS"), ("work-punt", "PASS")] {
        let check = bunkline(root(), &["check", &format!("demo-data/club/{file}.toml")]);
        let report = String::from_utf8(check.stdout.clone()).expect("text");
        assert!(report.starts_with(verdict), "{report}{}", said(&check));
    }
    // Each axle of the safety boat carries (3900 − 370)/2 = 1765 lb; the truck weighs 5300 + 370 = 5670 lb.
    let check = bunkline(root(), &["check", CLUB, "--format", "json"]);
    let report: serde_json::Value = serde_json::from_slice(&check.stdout).expect("JSON");
    let load = |id: &str| {
        let checks = report["checks"].as_array().expect("checks");
        checks
            .iter()
            .find(|check| check["id"] == id)
            .and_then(|check| check["load"].as_f64())
            .expect("a load")
    };
    assert!((load("axle-1") - 1765.0).abs() < 1e-6 && (load("tow-gvwr") - 5670.0).abs() < 1e-6);
}

#[test]
fn what_cannot_be_read_is_named_where_it_is_included() {
    let including = |path: &str| format!("include = [\"{path}\"]\n{LEAST}");
    let files =
        ["missing.toml", "tow", "latin.toml", "long.toml", "../../other.toml", "../../nowhere/a.toml"];
    let rigs = files.map(including);
    let mut all: Vec<(String, &str)> = vec![
        ("rigs/tow/van.toml".to_string(), "[tow]\nname = \"van\"\n"),
        ("other.toml".to_string(), "[tow]\nname = \"van\"\n"),
    ];
    all.extend(rigs.iter().enumerate().map(|(at, text)| (format!("rigs/rig-{at}.toml"), text.as_str())));
    let all: Vec<(&str, &str)> = all.iter().map(|(path, text)| (path.as_str(), *text)).collect();
    let folder = folder("unreadable", &all);
    fs::write(folder.join("rigs/latin.toml"), b"[tow]\nname = \"caf\xe9\"\n").expect("a file");
    fs::write(folder.join("rigs/long.toml"), "#".repeat((1 << 20) + 1)).expect("a file");
    for (at, why) in [
        "expected a readable rig file, found: ",
        "expected a file to include, found a folder or a device",
        "expected UTF-8 text, found other bytes on line 2",
        "expected a rig file of at most 1 MiB, found a longer one",
        "found `../../other.toml`, which leads out of it",
        "found `../../nowhere/a.toml`, which leads out of it",
    ]
    .into_iter()
    .enumerate()
    {
        let said = refused(&folder, &format!("rigs/rig-{at}.toml"));
        assert!(said.contains(why), "{said}");
        assert!(said.contains(&format!("rigs/rig-{at}.toml:1:12\n")), "{said}");
    }
}

#[test]
fn a_repository_is_one_tree_and_a_folder_without_one_is_its_own() {
    let van = "[tow]\nname = \"van\"\n";
    let rig = format!("include = [\"../shared/van.toml\"]\n{LEAST}");
    let files = [("rigs/a/rig.toml", &*rig), ("rigs/shared/van.toml", van)];
    let folder = folder("repository", &files);
    let check = bunkline(&folder, &["check", "rigs/a/rig.toml"]);
    assert_eq!(check.status.code(), Some(3), "{}", said(&check));
    fs::remove_dir(folder.join("rigs/.git")).expect("an empty folder");
    // The program's own repository may hold the folder of this test; there it would be one tree again.
    if !folder.ancestors().any(|folder| folder.join(".git").exists()) {
        assert!(refused(&folder, "rigs/a/rig.toml").contains("which leads out of it"));
    }
}

#[cfg(unix)]
#[test]
fn a_link_leads_no_farther_than_a_path() {
    let rig = format!("include = [\"van.toml\"]\n{LEAST}");
    let folder = folder("link", &[("rigs/rig.toml", &rig), ("van.toml", "[tow]\nname = \"van\"\n")]);
    std::os::unix::fs::symlink("../van.toml", folder.join("rigs/van.toml")).expect("a link");
    assert!(refused(&folder, "rigs/rig.toml").contains("found `van.toml`, which leads out of it"));
    // The rig file may be a link itself: what it includes lies beside what the link leads to.
    fs::remove_file(folder.join("rigs/van.toml")).expect("the link");
    fs::rename(folder.join("van.toml"), folder.join("rigs/van.toml")).expect("a file");
    std::os::unix::fs::symlink("rigs/rig.toml", folder.join("rig.toml")).expect("a link");
    assert_eq!(bunkline(&folder, &["check", "rig.toml"]).status.code(), Some(3));
}

#[test]
fn sixteen_files_are_included_and_no_more() {
    let names: Vec<String> = (1..=17).map(|at| format!("rigs/{at}.toml")).collect();
    let mut files: Vec<(&str, &str)> = names.iter().map(|name| (name.as_str(), "# Nothing.\n")).collect();
    let include = |to: usize| {
        let names: Vec<String> = (1..=to).map(|at| format!("\"{at}.toml\"")).collect();
        format!("include = [{}]\n{LEAST}", names.join(", "))
    };
    let (most, more) = (include(16), include(17));
    files.extend([("rigs/most.toml", &*most), ("rigs/more.toml", &*more)]);
    let folder = folder("count", &files);
    assert_eq!(bunkline(&folder, &["check", "rigs/most.toml"]).status.code(), Some(3));
    assert!(refused(&folder, "rigs/more.toml").contains("expected at most 16 included files, found more"));
}

#[test]
fn neither_standard_input_nor_a_change_includes_files() {
    let folder = club("elsewhere");
    let piped = Command::new(env!("CARGO_BIN_EXE_bunkline"))
        .args(["check", "-"])
        .current_dir(&folder)
        .stdin(fs::File::open(folder.join("rig.toml")).expect("a file"))
        .output()
        .expect("the program runs");
    assert_eq!(piped.status.code(), Some(2));
    assert!(said(&piped).contains("expected a whole rig, found one that includes other files"));
    let changed = bunkline(&folder, &["check", "rig.toml", "--set", "include=[\"a.toml\"]"]);
    assert_eq!(changed.status.code(), Some(2));
    let expected = "expected `include` at the top of a rig file, found it in a change";
    assert!(said(&changed).contains(expected), "{}", said(&changed));
}

#[test]
fn json_names_the_file_that_holds_the_mistake() {
    let folder = club("json");
    let truck = read(&folder, "shared/truck.toml").replace("\"6900 lb\"", "6900");
    fs::write(folder.join("shared/truck.toml"), truck).expect("a file");
    let check = bunkline(&folder, &["check", "rig.toml", "rig.toml", "--format", "json"]);
    let line = String::from_utf8(check.stdout).expect("text").lines().next().map(str::to_string);
    let report: serde_json::Value = serde_json::from_str(&line.expect("a line")).expect("JSON");
    assert_eq!(report["error"]["path"], "rig.toml");
    assert_eq!(
        (&report["error"]["source"], &report["error"]["line"]),
        (&"shared/truck.toml".into(), &16.into())
    );
}

/// The sweep that finds the best of these values and writes it into the file that was read.
fn best_in_place(folder: &Path, vary: &[&str]) -> Output {
    let vary = vary.iter().flat_map(|vary| ["--vary", vary]);
    let arguments: Vec<&str> =
        ["sweep", "rig.toml", "--best", "--in-place"].into_iter().chain(vary).collect();
    bunkline(folder, &arguments)
}

#[test]
fn a_value_is_written_into_the_file_that_holds_its_key() {
    let folder = club("in-place");
    let (rig, truck) = (read(&folder, "rig.toml"), read(&folder, "shared/truck.toml"));
    let written = best_in_place(&folder, &["tow.gvwr=6900lb,7100lb"]);
    assert_eq!(written.status.code(), Some(0), "{}", said(&written));
    let note = "note: 1 value written into shared/truck.toml: it changes every rig that includes that file";
    assert!(said(&written).contains(note), "{}", said(&written));
    assert_eq!(read(&folder, "rig.toml"), rig);
    assert_eq!(read(&folder, "shared/truck.toml"), truck.replace("6900 lb", "7100 lb"));

    let written = best_in_place(&folder, &["trailer.gvwr=5000lb,5200lb"]);
    assert_eq!(written.status.code(), Some(0), "{}", said(&written));
    assert!(said(&written).starts_with("note: 1 value written into rig.toml\n"), "{}", said(&written));
    assert_eq!(read(&folder, "rig.toml"), rig.replace("5000 lb", "5200 lb"));
}

#[test]
fn values_of_two_files_are_not_half_written() {
    let folder = club("two-files");
    let (rig, truck) = (read(&folder, "rig.toml"), read(&folder, "shared/truck.toml"));
    let refused = best_in_place(&folder, &["tow.gvwr=6900lb,7100lb", "trailer.gvwr=5000lb,5200lb"]);
    assert_eq!(refused.status.code(), Some(2));
    let expected = "expected one file that holds every key to be written, found rig.toml and shared/truck.toml; nothing was written";
    assert!(said(&refused).contains(expected), "{}", said(&refused));
    assert_eq!((read(&folder, "rig.toml"), read(&folder, "shared/truck.toml")), (rig, truck));
}

#[test]
fn a_new_file_is_whole_wherever_it_lies() {
    let folder = club("new-file");
    let (rig, truck) = (read(&folder, "rig.toml"), read(&folder, "shared/truck.toml"));
    let vary = ["--vary", "tow.gvwr=6900lb,7100lb", "--vary", "trailer.gvwr=5000lb,5200lb"];
    let sweep = [&["sweep", "rig.toml", "--best", "--write", "rigs/new.toml"][..], &vary].concat();
    let written = bunkline(&folder, &sweep);
    assert_eq!(written.status.code(), Some(0), "{}", said(&written));
    assert_eq!((read(&folder, "rig.toml"), read(&folder, "shared/truck.toml")), (rig, truck));
    let flat = String::from_utf8(bunkline(&folder, &["flatten", "rig.toml"]).stdout).expect("text");
    let changed = flat.replace("\"6900 lb\"", "\"7100 lb\"").replace("\"5000 lb\"", "\"5200 lb\"");
    assert_eq!(read(&folder, "rigs/new.toml"), changed);
}

#[test]
fn an_included_file_is_no_place_for_output() {
    let folder = club("output");
    let truck = read(&folder, "shared/truck.toml");
    let sweep = ["sweep", "rig.toml", "--vary", "tow.gvwr=6900lb,7100lb"];
    for more in [&["--output", "shared/truck.toml"][..], &["--best", "--write", "shared/truck.toml"]] {
        let output = bunkline(&folder, &[&sweep, more].concat());
        assert_eq!(output.status.code(), Some(2), "{more:?}");
    }
    let both = ["--best", "--in-place", "--write", "shared/truck.toml"];
    assert_eq!(bunkline(&folder, &[&sweep, &both[..]].concat()).status.code(), Some(2));
    let into = fs::File::options().append(true).open(folder.join("shared/truck.toml")).expect("a file");
    let mut program = Command::new(env!("CARGO_BIN_EXE_bunkline"));
    let program = program.current_dir(&folder).args(["check", "rig.toml"]).stdout(into);
    assert_eq!(program.status().expect("the program runs").code(), Some(2));
    assert_eq!(read(&folder, "shared/truck.toml"), truck);
}
