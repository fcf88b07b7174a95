//! A club's folder of rig files, as its officer and its CI read it.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

/// The least that is a rig; nearly everything is missing.
const LEAST: &str = "format = 1\n[[trailer.axles]]\n";
const AXLE: &str = "[[trailer.axles]]\nrating = \"3500 lb\"\n";
const TRUCK: &str = "[tow]\ngvwr = \"6900 lb\"\n";

pub fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

pub fn bunkline(folder: &Path, arguments: &[&str]) -> Output {
    let mut program = Command::new(env!("CARGO_BIN_EXE_bunkline"));
    program.current_dir(folder).args(arguments).stdin(Stdio::null()).output().expect("the program runs")
}

pub fn said(output: &Output) -> String {
    let said = String::from_utf8(output.stderr.clone()).expect("messages are text");
    assert!(!said.contains("panicked"), "{said}");
    said
}

pub fn printed(output: &Output) -> String {
    assert!(!said(output).contains("panicked"));
    String::from_utf8(output.stdout.clone()).expect("reports are text")
}

/// What `check` does with the folder `club` of these files: its exit code, its summary, its messages.
fn club(name: &str, files: &[(&str, &str)]) -> (Option<i32>, String, String) {
    let output = bunkline(&folder(name, files), &["check", "club", "--summary"]);
    (output.status.code(), printed(&output), said(&output))
}

/// A folder of these files for one test; a repository ends there.
pub fn folder(name: &str, files: &[(&str, &str)]) -> PathBuf {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("club-{name}"));
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(folder.join(".git")).expect("a folder");
    for (path, text) in files {
        let path = folder.join(path);
        fs::create_dir_all(path.parent().expect("a folder")).expect("a folder");
        fs::write(path, text).expect("a file");
    }
    folder
}

#[test]
fn a_folder_is_checked_rig_by_rig() {
    let check = bunkline(root(), &["check", "demo-data/club"]);
    assert_eq!(check.status.code(), Some(0), "{}", said(&check));
    assert_eq!(
        printed(&check),
        "2 rigs in demo-data/club/: 2 pass\n\
         \n        rig               tongue  worst or tightest\n\
         \x20 PASS  safety-boat.toml   9.5 %  tow-gvwr at 82 %\n\
         \x20 PASS  work-punt.toml     9.5 %  axle-1 at 80 %\n\
         \x20 Not rigs of their own, so not checked: shared/truck.toml.\n"
    );
    // What is named besides stands where it is named, once.
    let again = [
        "check",
        "demo-data/club/work-punt.toml",
        "demo-data/club",
        "demo-data/club/shared/..",
        "--format",
        "json",
    ];
    let check = bunkline(root(), &again);
    let lines: Vec<serde_json::Value> =
        printed(&check).lines().map(|line| serde_json::from_str(line).expect("JSON")).collect();
    let paths: Vec<&str> = lines.iter().filter_map(|line| line["rig"]["path"].as_str()).collect();
    assert_eq!(paths, ["demo-data/club/work-punt.toml", "demo-data/club/safety-boat.toml"]);
}

#[test]
fn parts_and_files_of_others_are_passed_over() {
    let tandem = format!("include = [\"shared/axle.toml\", \"shared/truck.toml\"]\nformat = 1\n{}", "");
    let files = [
        ("club/a.toml", tandem.as_str()),
        // A base that is a rig by itself, and another made of it.
        ("club/base.toml", LEAST),
        ("club/made-of-it.toml", "include = [\"base.toml\"]\nshift.boat = \"1 in\"\n"),
        ("club/shared/axle.toml", AXLE),
        ("club/shared/truck.toml", TRUCK),
        ("club/spare-truck.toml", TRUCK),
        ("club/Tool.toml", "[package]\nname = \"tool\"\n"),
        ("club/notes.txt", "format = 1\nnonsense"),
        ("club/.hidden.toml", "nonsense"),
        ("club/old/b.toml", "nonsense"),
        ("club/draft.toml", "nonsense"),
        ("club/.gitignore", "/old\n"),
        ("club/.ignore", "draft.toml\n"),
    ];
    let (code, summary, said) = club("parts", &files);
    assert_eq!(code, Some(3), "{summary}{said}");
    assert!(summary.starts_with("3 rigs in club/: 3 incomplete\n"), "{summary}");
    let passed_over = "Not rigs of their own, so not checked: Tool.toml, shared/axle.toml,\n  shared/truck.toml, spare-truck.toml.\n";
    assert!(summary.ends_with(passed_over), "{summary}");
    assert_eq!(said, "");
}

#[test]
fn a_broken_rig_is_never_taken_for_a_part() {
    let broken = [
        ("misspelt", "formta = 1\nmeasured = { gross_trailer_weight = \"900 lb\" }\n", "club/rig.toml:1:1"),
        ("no-format", AXLE, "note: in club/rig.toml"),
        ("no-toml", "title = Skiff\n", "club/rig.toml:1:9"),
        ("not-there", "include = [\"shared/van.toml\"]\n", "club/rig.toml:1:12"),
        ("itself", "include = [\"rig.toml\"]\n", "club/rig.toml:1:12"),
        ("outside", "include = [\"../../van.toml\"]\nformat = 1\n", "club/rig.toml:1:12"),
        ("not-text", "title = \"a\u{0}\"\n", "club/rig.toml:1:11"),
    ];
    for (name, text, place) in broken {
        let output = bunkline(
            &folder(name, &[("club/good.toml", LEAST), ("club/rig.toml", text)]),
            &["check", "club"],
        );
        assert_eq!(output.status.code(), Some(2), "{name}: {}", printed(&output));
        assert!(said(&output).contains(place), "{name}: {}", said(&output));
        assert!(
            printed(&output).starts_with("2 rigs in club/: 1 incomplete, 1 not read\n"),
            "{}",
            printed(&output)
        );
    }
}

#[test]
fn files_that_include_each_other_are_no_parts() {
    let files = [("club/a.toml", "include = [\"b.toml\"]\n"), ("club/b.toml", "include = [\"a.toml\"]\n")];
    let (code, summary, said) = club("cycle", &files);
    assert_eq!(code, Some(2), "{summary}");
    assert!(
        said.contains("error: club/b.toml:1:12: expected no file that includes itself, found `a.toml` again on the way to here\n"),
        "{said}"
    );
    assert!(summary.contains("NOT READ  a.toml       -  at club/b.toml:1:12"), "{summary}");
}

#[test]
fn a_mistake_in_a_part_makes_every_rig_red_that_includes_it() {
    let rig = "include = [\"truck.toml\"]\nformat = 1\n[[trailer.axles]]\n";
    let files =
        [("club/a.toml", rig), ("club/b.toml", rig), ("club/truck.toml", "[tow]\ngvwr = \"6900 bl\"\n")];
    let (code, summary, _) = club("part", &files);
    assert_eq!(code, Some(2));
    for rig in ["a", "b"] {
        assert!(
            summary.contains(&format!("NOT READ  {rig}.toml       -  at club/truck.toml:2:14")),
            "{summary}"
        );
    }
    assert!(summary.ends_with("so not checked: truck.toml.\n"), "{summary}");
}

#[test]
fn a_folder_without_rigs_is_an_error_beside_what_else_is_asked_for() {
    let folder = folder("empty", &[("rig.toml", LEAST), ("parts/truck.toml", TRUCK)]);
    fs::create_dir(folder.join("none")).expect("a folder");
    let output = bunkline(&folder, &["check", "none", "rig.toml", "parts", "--summary"]);
    assert_eq!(output.status.code(), Some(2));
    for place in ["none", "parts"] {
        let why = format!("error: {place}: expected a folder with rig files, found none in it");
        assert!(said(&output).contains(&why), "{}", said(&output));
    }
    assert!(printed(&output).starts_with("3 rigs: 1 incomplete, 2 not read\n"), "{}", printed(&output));
    let output = bunkline(&folder, &["check", "-", "parts"]);
    assert_eq!((output.status.code(), printed(&output)), (Some(2), String::new()));
    let why = "expected files and folders, or - alone, found both - and the folder parts";
    assert!(said(&output).contains(why), "{}", said(&output));
    let plan = bunkline(&folder, &["check", ".", "--write-plan", "new.toml"]);
    assert_eq!(plan.status.code(), Some(2));
    assert!(said(&plan).contains("expected one rig file with --write-plan"), "{}", said(&plan));
    assert!(!folder.join("new.toml").exists());
}

#[cfg(unix)]
#[test]
fn links_lead_neither_in_circles_nor_out() {
    use std::ffi::OsStr;
    use std::os::unix::{ffi::OsStrExt, fs::symlink};

    let folder = folder("links", &[("club/rig.toml", LEAST), ("club/.ignore", "kept-out\n")]);
    let outside = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("club-links-outside.toml");
    fs::write(&outside, "secret = 1\n").expect("a file");
    let club = folder.join("club");
    // One rig by two names is one.
    symlink("rig.toml", club.join("this-year.toml")).expect("a link");
    symlink(".", club.join("kept-out")).expect("a link");
    let good = bunkline(&folder, &["check", "club", "--summary"]);
    assert_eq!(good.status.code(), Some(3), "{}", said(&good));
    assert!(printed(&good).starts_with("1 rig: 1 incomplete"), "{}", printed(&good));

    symlink(".", club.join("circle")).expect("a link");
    symlink("itself.toml", club.join("itself.toml")).expect("a link");
    symlink("nowhere.toml", club.join("dangling.toml")).expect("a link");
    symlink(&outside, club.join("out.toml")).expect("a link");
    fs::write(club.join(OsStr::from_bytes(b"caf\xe9.toml")), LEAST).expect("a file");
    let pipe = Command::new("mkfifo").arg(club.join("pipe.toml")).status();
    let output = bunkline(&folder, &["check", "club", "--summary"]);
    assert_eq!(output.status.code(), Some(2));
    let said = said(&output);
    for why in [
        "club/circle: expected a folder or a file, found a link to a folder, which is not followed",
        "club/itself.toml: expected a readable rig file, found: ",
        "club/dangling.toml: expected a readable rig file, found: ",
        "club/out.toml: expected a link to a file below the folder or in its repository, found one that leads out of it",
        "club/caf\u{fffd}.toml: expected the name of a file in UTF-8, found other bytes",
    ] {
        assert!(said.contains(why), "{why}: {said}");
    }
    assert!(
        pipe.is_err() || said.contains("club/pipe.toml: expected a file, found a device or a pipe"),
        "{said}"
    );
    assert!(!said.contains("secret"), "{said}");
}

/// Whoever may read everything finds no folder closed.
#[cfg(unix)]
#[test]
fn a_closed_folder_is_named() {
    use std::os::unix::fs::PermissionsExt;

    let folder = folder("closed", &[("club/rig.toml", LEAST), ("club/closed/rig.toml", LEAST)]);
    let closed = folder.join("club/closed");
    let allow = |mode| fs::set_permissions(&closed, fs::Permissions::from_mode(mode)).expect("permissions");
    allow(0);
    let is_open = fs::read_dir(&closed).is_ok();
    let output = bunkline(&folder, &["check", "club"]);
    allow(0o755);
    if !is_open {
        assert_eq!(output.status.code(), Some(2));
        assert!(
            said(&output).contains("club/closed: expected a readable folder, found: "),
            "{}",
            said(&output)
        );
    }
}

#[test]
fn many_rigs_keep_their_order_on_all_cores() {
    let names: Vec<String> = (100..240).map(|i| format!("club/{i}.toml")).collect();
    let files: Vec<(&str, &str)> = names.iter().map(|name| (name.as_str(), LEAST)).collect();
    let folder = folder("many", &files);
    let output = bunkline(&folder, &["check", "club", "--summary"]);
    let table = printed(&output);
    let found: Vec<String> =
        table.lines().filter_map(|line| Some(format!("club/{}", line.split_whitespace().nth(1)?))).collect();
    let found: Vec<String> = found.into_iter().filter(|path| Path::new(path).extension().is_some()).collect();
    assert_eq!(found, names);
}

/// What would break a table, forge a line, call somebody or be a tag.
const HOSTILE: &str = "Punt | <b>`x`</b> @all [a](http://x.example) ]]> &amp; # *1* \\u202e";

#[test]
fn a_pull_request_and_a_test_report_take_any_name() {
    let launch = fs::read_to_string(root().join("demo-data/electric-day-launch.toml")).expect("a demo");
    let titled: String =
        launch
            .lines()
            .map(|line| {
                if line.starts_with("title") {
                    format!("title = \"{HOSTILE}\"\n")
                } else {
                    format!("{line}\n")
                }
            })
            .collect();
    // Two of one title are told apart by their paths.
    let files = [
        ("club/a|b<i>.toml", titled.as_str()),
        ("club/twin.toml", &titled),
        ("club/broken.toml", "formta = 1\n"),
    ];
    let folder = folder("hostile", &files);
    let shown = |form: &str, more: &str| {
        let output = bunkline(&folder, &["check", "club", "--format", form, more]);
        assert_eq!(output.status.code(), Some(2));
        printed(&output)
    };
    insta::assert_snapshot!("club-markdown", shown("markdown", "--summary"));
    insta::assert_snapshot!("club-junit", shown("junit", "--summary"));
    let whole = shown("markdown", "--color=never");
    let title = "Punt \\| \\<b\\>\\`x\\`\\</b\\> @<!-- -->all \\[a\\](http:\\//x.example) \\]\\]\\> \\&amp; \\# \\*1\\* \\\\u202e";
    assert_eq!(whole.matches(title).count(), 2, "{whole}");
    assert!(whole.contains("- club/broken.toml:1:1: expected a key of the rig file, found \\`formta\\` (did you mean \\`format\\`?)"), "{whole}");
}

#[test]
fn a_test_report_is_red_where_the_exit_code_is() {
    let demo = |name: &str| format!("demo-data/{name}.toml");
    let [pass, incomplete] = ["pilot-cutter", "weighed-tender"].map(demo);
    let run = |more: &[&str]| {
        bunkline(root(), &[&["check", &pass, &incomplete, "--format", "junit"], more].concat())
    };
    let red = run(&[]);
    assert_eq!(red.status.code(), Some(3));
    let report = printed(&red);
    assert!(report.contains("tests=\"2\" failures=\"1\" errors=\"0\""), "{report}");
    assert!(report.contains("type=\"incomplete\""), "{report}");
    assert!(report.contains("needs trailer.axles.1.braked: "), "{report}");
    let green = run(&["--allow-incomplete"]);
    assert_eq!(green.status.code(), Some(0));
    assert!(printed(&green).contains("tests=\"2\" failures=\"0\" errors=\"0\""), "{}", printed(&green));
}

#[test]
fn a_pipe_that_closes_is_no_error() {
    let mut program = Command::new(env!("CARGO_BIN_EXE_bunkline"));
    let program = program.current_dir(root()).args(["check", "demo-data/club", "--format", "junit"]);
    let mut child = program.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().expect("the program runs");
    drop(child.stdout.take());
    let output = child.wait_with_output().expect("the program ends");
    assert_eq!((output.status.code(), said(&output)), (Some(0), String::new()));
}

/// A link that leads nowhere is one file that cannot be read, whichever way it is come by.
#[cfg(unix)]
#[test]
fn a_file_that_cannot_be_read_counts_once() {
    let folder = folder("unreadable-once", &[("fold/b.toml", "format = 2\n")]);
    let _ = std::fs::remove_file(folder.join("fold/a.toml"));
    std::os::unix::fs::symlink("nowhere.toml", folder.join("fold/a.toml")).expect("a link");
    let output = bunkline(&folder, &["check", "fold", "fold/a.toml", "fold", "--format", "json"]);
    assert_eq!(output.status.code(), Some(2));
    let lines = printed(&output);
    assert_eq!(lines.lines().count(), 2, "{lines}");
    assert_eq!(said(&output).matches("fold/a.toml").count(), 1, "{}", said(&output));
}
