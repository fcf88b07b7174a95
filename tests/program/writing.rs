//! What the program writes: never over a file that it reads but when asked to, and only what was found.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use std::time::Duration;

const SKIFF: &str = "demo-data/fishing-skiff.toml";
const CRAB_BOAT: &str = "demo-data/crab-boat.toml";
const AS_CHANGED: &str = "demo-data/survey-launch-as-changed.toml";

fn program() -> Command {
    let mut program = Command::new(env!("CARGO_BIN_EXE_bunkline"));
    program.current_dir(env!("CARGO_MANIFEST_DIR")).env_remove("NO_COLOR").env_remove("CLICOLOR_FORCE");
    program
}

fn run(arguments: &[&str]) -> Output {
    program().args(arguments).output().expect("the program runs")
}

fn text(stream: &[u8]) -> String {
    String::from_utf8(stream.to_vec()).expect("it prints UTF-8")
}

/// A fresh folder for one test.
fn folder(name: &str) -> PathBuf {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("writing-{name}"));
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).expect("a folder");
    folder
}

fn path_text(path: &Path) -> &str {
    path.to_str().expect("its path is text")
}

fn read(path: impl AsRef<Path>) -> String {
    fs::read_to_string(path).expect("a file")
}

/// A copy of a demo rig, changed.
fn copy(folder: &Path, demo: &str, change: impl FnOnce(String) -> String) -> PathBuf {
    let file = folder.join("rig.toml");
    fs::write(&file, change(read(demo))).expect("a file");
    file
}

/// Every file of a folder, with what it holds.
fn files(folder: &Path) -> Vec<(String, String)> {
    let entries = fs::read_dir(folder).expect("a folder").map(|entry| entry.expect("an entry"));
    let files = entries.filter(|entry| entry.path().is_file());
    let mut files: Vec<(String, String)> =
        files.map(|file| (file.file_name().to_string_lossy().into_owned(), read(file.path()))).collect();
    files.sort();
    files
}

/// The report of a check in JSON, values as stated, without the name of its file.
fn checked(file: &str, changes: &[String]) -> serde_json::Value {
    let mut arguments = vec!["check", file, "--format", "json", "--as-stated"];
    for change in changes {
        arguments.extend(["--set", change]);
    }
    let report: serde_json::Value = serde_json::from_slice(&run(&arguments).stdout).expect("JSON");
    serde_json::json!([report["cases"], report["checks"], report["verdict"]])
}

#[cfg(unix)]
#[test]
fn no_command_changes_a_file_that_it_reads() {
    let folder = folder("input");
    let file = copy(&folder, AS_CHANGED, |text| text);
    fs::create_dir(folder.join("sub")).expect("a folder");
    std::os::unix::fs::symlink(&file, folder.join("link.toml")).expect("a link");
    fs::hard_link(&file, folder.join("hard.toml")).expect("a link");
    let before = files(&folder);
    let around = folder.join("sub/../rig.toml");
    for name in [&file, &around, &folder.join("link.toml"), &folder.join("hard.toml")] {
        let name = path_text(name);
        for rest in [
            &["sweep", "FILE", "--vary", "shift.boat=-13in,-12in", "--output", name][..],
            &["sweep", "FILE", "--vary", "shift.boat=-13in", "--best", "--output", name],
            &["sweep", "FILE", "--vary", "shift.boat=-13in", "--best", "--write", name],
            &["place", "FILE", "--write", name],
        ] {
            for input in [path_text(&file), "-"] {
                let arguments: Vec<&str> =
                    rest.iter().map(|word| if *word == "FILE" { input } else { word }).collect();
                let stdin = fs::File::open(&file).expect("a file");
                let output = program().args(&arguments).stdin(stdin).output().expect("the program runs");
                assert_eq!(output.status.code(), Some(2), "{arguments:?}: {}", text(&output.stderr));
                assert_eq!(files(&folder), before, "{arguments:?}");
            }
        }
    }
    // Nor does it grow by what is said of it.
    for command in ["check", "place", "ramp", "bunks"] {
        let append = || fs::File::options().append(true).open(&file).expect("a file");
        let output = program().args([command, path_text(&file)]).stdout(append()).output().expect("it runs");
        assert_eq!(output.status.code(), Some(2), "{command}");
        assert!(text(&output.stderr).contains("elsewhere than into the rig file"), "{command}");
        let quiet = program().args([command, path_text(&file)]).stderr(append()).output().expect("it runs");
        assert_eq!(quiet.status.code(), Some(2), "{command}");
        fs::write(&file, &before[1].1).expect("a file");
    }
}

#[test]
fn output_and_rig_file_are_two_files() {
    let folder = folder("two");
    fs::create_dir(folder.join("sub")).expect("a folder");
    let (new, again) = (folder.join("new.toml"), folder.join("sub/../new.toml"));
    let vary = ["sweep", SKIFF, "--vary", "shift.boat=0in,1in", "--best"];
    let output = run(&[&vary[..], &["--write", path_text(&new), "--output", path_text(&again)]].concat());
    assert_eq!(output.status.code(), Some(2));
    assert!(text(&output.stderr).contains("expected two files for --output and --write"));
    assert_eq!(files(&folder), []);
}

/// Starts a sweep that takes a while and then writes into its file.
fn writer(file: &Path, vary: &str) -> std::process::Child {
    let arguments = ["sweep", path_text(file), "--vary", vary, "--best", "--in-place", "--threads", "1"];
    program().args(arguments).stdout(Stdio::null()).stderr(Stdio::piped()).spawn().expect("it runs")
}

#[test]
fn an_edit_in_the_meantime_is_not_lost() {
    let folder = folder("edit");
    let file = copy(&folder, SKIFF, |text| text);
    let child = writer(&file, "shift.boat=0in..1in/0.00002in");
    std::thread::sleep(Duration::from_millis(100));
    let edited = read(&file) + "# seen to\n";
    fs::write(&file, &edited).expect("a file");
    let output = child.wait_with_output().expect("it ends");
    assert_eq!(output.status.code(), Some(2), "{}", text(&output.stderr));
    assert!(text(&output.stderr).contains("changed since it was read"), "{}", text(&output.stderr));
    assert_eq!(files(&folder), [("rig.toml".to_string(), edited)]);

    // Nor is a copy made of what is no longer there.
    let new = folder.join("new.toml");
    let vary = ["--vary", "shift.boat=0in..1in/0.00002in", "--best", "--threads", "1"];
    let mut sweep = program();
    sweep.args(["sweep", path_text(&file)]).args(vary).args(["--write", path_text(&new)]);
    let child = sweep.stdout(Stdio::null()).stderr(Stdio::piped()).spawn().expect("it runs");
    std::thread::sleep(Duration::from_millis(100));
    fs::write(&file, "# again\n").expect("a file");
    assert_eq!(child.wait_with_output().expect("it ends").status.code(), Some(2));
    assert!(!new.exists());
}

#[test]
fn of_two_writers_none_loses_what_the_other_wrote() {
    let folder = folder("writers");
    for _ in 0..12 {
        let file = copy(&folder, SKIFF, |text| text);
        let writers = ["shift.boat=0.5in,1in", "shift.axles=-0.5in,-1in"].map(|vary| writer(&file, vary));
        let done = writers.map(|writer| writer.wait_with_output().expect("it ends").status.code());
        let written = read(&file);
        for (code, key) in done.into_iter().zip(["boat = ", "axles = "]) {
            let shift = written.split("[shift]").nth(1).unwrap_or_default();
            assert!(matches!(code, Some(0 | 2)), "{code:?}");
            assert_eq!(shift.contains(key), code == Some(0), "{done:?}: {written}");
        }
        assert!(done.contains(&Some(0)), "{done:?}");
        assert_eq!(files(&folder).len(), 1);
    }
}

#[cfg(unix)]
#[test]
fn a_place_that_is_ended_leaves_no_file() {
    let folder = folder("ended");
    for (i, signal) in ["INT", "TERM"].into_iter().cycle().take(40).enumerate() {
        let file = copy(&folder, SKIFF, |text| text);
        let mut child = program()
            .args(["place", path_text(&file), "--in-place"])
            .stdout(Stdio::null())
            .spawn()
            .expect("it runs");
        std::thread::sleep(Duration::from_millis(i as u64));
        let signal = format!("-{signal}");
        Command::new("kill").args([&signal, &child.id().to_string()]).status().expect("kill is there");
        child.wait().expect("it ends");
        assert_eq!(files(&folder).len(), 1, "{:?}", files(&folder));
    }
}

#[test]
fn what_is_written_is_what_set_gives() {
    let folder = folder("same");
    let file = copy(&folder, CRAB_BOAT, |text| text);
    let rig = path_text(&file);
    let new = folder.join("new.toml");
    for vary in [
        "shift.boat=-2in,-1in,0in,1in",
        "shift.axles=0mm,1mm",
        "cases.1.fill.fuel=50%,60%",
        "cases.1.fill.1=50%,60%",
        "cases.2.fill.all=33.3%",
        "trailer.axles.all.rating=5200lb,5300lb",
        "trailer.coupler.rating=14001lb",
        "boat.weights.hull.station=100in,101in",
        "boat.weights.hull.weight=3200lb,3250lb",
        "trailer.level_ball_height=20.1in,20.2in",
        "policy.thin_margin=3.3%",
        "tow.gvwr=10801lb",
        "trailer.suspension.deflection_at_rating=2.1in",
    ] {
        let _ = fs::remove_file(&new);
        let arguments =
            ["sweep", rig, "--vary", vary, "--best", "--format", "csv", "--write", path_text(&new)];
        let output = run(&arguments);
        match output.status.code() {
            Some(0) => {
                let best = text(&output.stdout);
                let path = vary.split('=').next().expect("a path");
                let value = best.lines().nth(1).expect("a row").split(',').next().expect("a value");
                let values = vary.split_once('=').expect("values").1.split(',');
                let number =
                    |text: &str| text.trim_end_matches(|c: char| !c.is_ascii_digit()).parse::<f64>().ok();
                let percent = |text: &str| {
                    number(text).map(|value| if text.contains('%') { value / 100.0 } else { value })
                };
                let inches = |text: &str| {
                    number(text).map(|value| if text.contains("mm") { value / 25.4 } else { value })
                };
                let is_it = |text: &&str| {
                    let found = value.parse::<f64>().expect("a number");
                    [percent(text), inches(text)].iter().flatten().any(|value| (value - found).abs() < 1e-12)
                };
                let stated = values.into_iter().find(is_it).unwrap_or_else(|| panic!("{vary}: {best}"));
                let written = checked(path_text(&new), &[]);
                assert_eq!(written, checked(rig, &[format!("{path}={stated}")]), "{vary}");
            }
            Some(1) => assert!(!new.exists(), "{vary}: none passes"),
            Some(2) => {
                assert!(!new.exists(), "{vary}");
                assert!(
                    text(&output.stderr).contains("nothing was written"),
                    "{vary}: {}",
                    text(&output.stderr)
                );
            }
            other => panic!("{vary}: {other:?}"),
        }
        assert_eq!(files(&folder)[0].1.matches('±').count(), read(CRAB_BOAT).matches('±').count());
    }
}

#[test]
fn a_fill_is_written_to_its_own_case() {
    let folder = folder("fill");
    // Each case by the number of the other, the tank by a letter that no bare key may have.
    let renamed = |text: String| {
        let text = text.replace("name = \"out with pots", "name = \"2\" # \"out with pots");
        let text = text.replace("name = \"home, pots", "name = \"1\" # \"home, pots");
        text.replace("id = \"fuel\"", "id = \"é\"").replace("fuel = ", "\"é\" = ")
    };
    let file = copy(&folder, CRAB_BOAT, renamed);
    let rig = path_text(&file);
    for (i, tank) in ["é", "1", "all"].into_iter().enumerate() {
        let new = folder.join(format!("new-{i}.toml"));
        let vary = format!("cases.2.fill.{tank}=50%");
        let output = run(&["sweep", rig, "--vary", &vary, "--best", "--write", path_text(&new)]);
        assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
        assert!(text(&output.stdout).contains("\n\"é\" = \"50 %\"\n"), "{}", text(&output.stdout));
        let cases = |file: &Path| {
            let text = read(file);
            text.split("[[cases]]").skip(1).map(str::to_string).collect::<Vec<String>>()
        };
        let (before, after) = (cases(&file), cases(&new));
        assert_eq!(after[1], before[1].replace("40 %", "50 %"));
        assert_eq!(before[0], after[0]);
        assert_eq!(checked(path_text(&new), &[]), checked(rig, &[format!("cases.2.fill.{tank}=50%")]));
    }
}

#[test]
fn a_narrow_window_is_written_as_it_was_found() {
    let folder = folder("narrow");
    let band = "[policy]\ntongue_share = { min = \"8 %\", max = \"8.0000002 %\" }\n";
    let file = copy(&folder, SKIFF, |text| text + "\n" + band);
    let new = folder.join("new.toml");
    for units in ["us", "metric"] {
        let _ = fs::remove_file(&new);
        let output = run(&["place", path_text(&file), "--units", units, "--write", path_text(&new)]);
        assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
        // A window goes by the values as they stand.
        let written = run(&["check", "--as-stated", path_text(&new)]);
        assert_eq!(written.status.code(), Some(0), "{}", text(&written.stdout));
    }
}

/// What a check in JSON says of a file.
fn checked_in_json(file: &str) -> serde_json::Value {
    serde_json::from_str(&text(&run(&["check", file, "--format", "json"]).stdout)).expect("JSON")
}

#[test]
fn a_plan_is_written_and_read_back() {
    let folder = folder("plan");
    for name in ["electric-day-launch", "survey-launch-as-found"] {
        let file = format!("demo-data/{name}.toml");
        let new = folder.join(format!("{name}.toml"));
        let new = path_text(&new);
        let write = || run(&["check", &file, "--write-plan", new]);
        let done = write();
        assert_eq!(done.status.code(), Some(1), "{}", text(&done.stderr));
        let plan = &checked_in_json(&file)["plan"];
        assert_eq!(checked_in_json(new)["verdict"], plan["verdict_after"]);
        assert_eq!(plan["fails_after"], serde_json::json!([]));
        // What the owner wrote beside the figures stays.
        let written = read(new);
        let comments = |text: &str| {
            let comments =
                text.lines().filter_map(|line| line.split_once('#')).map(|(_, comment)| comment.to_string());
            comments.collect::<Vec<_>>()
        };
        assert_eq!(comments(&written), comments(&read(&file)));
        let changes = plan["changes"].as_array().expect("a list");
        for change in changes {
            assert!(written.contains(change["to"].as_str().expect("a text")), "{change}");
        }
        let values =
            if changes.len() == 1 { "1 value".to_string() } else { format!("{} values", changes.len()) };
        let note = format!("note: the rig with {values} put in is written to {new}\n");
        assert_eq!(text(&done.stderr), note);
        // It is no longer as found.
        let title = |text: &str| text.lines().find(|line| line.starts_with("title")).map(str::to_string);
        let found = title(&read(&file)).expect("a title").replace(", as found", "");
        assert_eq!(title(&written), found.strip_suffix('"').map(|found| format!("{found}, as planned\"")));
        // It writes over nothing.
        let again = write();
        assert_eq!(again.status.code(), Some(2));
        assert!(text(&again.stderr).contains("expected a new file to write"), "{}", text(&again.stderr));
        assert_eq!(read(new), written);
    }
}

/// A bore of the table and a strap of whole feet, in text, in JSON and in the file that is written.
#[test]
fn a_plan_writes_a_bore_and_a_strap() {
    let folder = folder("bore-and-strap");
    let file = copy(&folder, AS_CHANGED, |text| {
        text.replace("bore = \"7/8 in\"", "bore = \"1 1/2 in\"")
            .replace("length = \"16 ft\"", "length = \"40 ft\"")
    });
    let new = folder.join("new.toml");
    let done = run(&["check", path_text(&file), "--write-plan", path_text(&new)]);
    let page = text(&done.stdout);
    assert!(page.contains("Fit a master cylinder of 1 1/4 in bore"), "{page}");
    assert!(page.contains("Cut the winch's strap to 19 ft"), "{page}");
    let changes = checked_in_json(path_text(&file))["plan"]["changes"].clone();
    let shown = |change: &serde_json::Value| {
        [&change["key"], &change["from"], &change["to"]].map(serde_json::Value::clone)
    };
    let shown: Vec<_> = changes.as_array().expect("a list").iter().map(shown).collect();
    let strap = ["trailer.winch.strap.length", "40 ft", "19 ft"];
    let bore = ["trailer.brakes.bore", "1 1/2 in", "1 1/4 in"];
    assert_eq!(shown, [strap, bore].map(|change| change.map(serde_json::Value::from)));
    let written = read(&new);
    assert!(written.contains("bore = \"1 1/4 in\"") && written.contains("length = \"19 ft\""), "{written}");
    assert_eq!(checked_in_json(path_text(&new))["verdict"], "pass");
}

/// The middle of a span of 10 ft, with the neighbour's table in the words of the file, ± and all.
#[test]
fn a_plan_writes_a_crossmember() {
    let folder = folder("crossmember");
    let between = |part: &&str| !["18 ft 2 in", "20 ft 6 in", "23 ft\""].iter().any(|at| part.contains(at));
    let list = "[[trailer.crossmembers]]\n";
    let file = copy(&folder, AS_CHANGED, |text| {
        let parts: Vec<&str> =
            text.split(list).filter(|part| !part.starts_with("station") || between(part)).collect();
        parts.join(list).replace("top = \"22 in\"", "top = \"22 in ± 1/8 in\"   # taped twice")
    });
    let new = folder.join("new.toml");
    let done = run(&["check", path_text(&file), "--write-plan", path_text(&new)]);
    let page = text(&done.stdout);
    assert!(
        page.contains("Add a crossmember 20 ft 6 in behind the ball, like the one at 15 ft 6 in"),
        "{page}"
    );
    let html = run(&["check", path_text(&file), "--format", "html"]);
    assert!(
        text(&html.stdout)
            .contains("Add a crossmember 20 ft 6 in behind the ball, like the one at 15 ft 6 in")
    );
    let plan = checked_in_json(path_text(&file))["plan"].clone();
    let change = &plan["changes"][0];
    assert_eq!(change["key"], "trailer.crossmembers.5.station");
    assert_eq!((&change["from"], &change["to"]), (&serde_json::Value::Null, &"246 in".into()));
    let member = "station = \"246 in\"\ntop = \"22 in ± 1/8 in\"\ncentre = \"20 in\"\nsection_modulus = \"1.1 in3\"\nyield = \"36 ksi\"\n";
    let (before, after) = (read(&file), read(&new));
    assert_eq!(after.replace(&format!("{list}{member}\n"), "").replace(", as planned", ""), before);
    let again = checked_in_json(path_text(&new));
    assert_eq!((&again["verdict"], &again["plan"]), (&plan["verdict_after"], &serde_json::Value::Null));
}

/// Other tires have another load index: what the file says of the old ones does not stay, but for the comment beside it.
#[test]
fn a_plan_writes_the_load_index_of_its_tires() {
    let folder = folder("load-index");
    let tires = "[trailer.axles.tires]\nsize = \"ST205/75R14\"\nrating = \"1760 lb\"\nload_index = 74   # worn\npressure = \"50 psi\"\n";
    let inline = "tires = { size = \"ST205/75R14\", rating = \"1760 lb\", pressure = \"50 psi\" }\n";
    let file = copy(&folder, SKIFF, |text| {
        let (before, after) = text.split_once(inline).expect("tires");
        let (wheels, rest) = after.split_once("\n\n").expect("wheels");
        format!("{before}{wheels}\n\n{tires}\n{rest}")
    });
    let new = folder.join("new.toml");
    let done = run(&["check", path_text(&file), "--write-plan", path_text(&new)]);
    let page = text(&done.stdout);
    assert!(page.contains("Fit tires of 1764 lb each (load index 100), on wheels"), "{page}");
    let (before, after) = (read(&file), read(&new).replace(", as planned", ""));
    let indexed = before.replace("load_index = 74   # worn", "load_index = 100   # worn");
    assert_eq!(after, indexed.replace("rating = \"1760 lb\"", "rating = \"800 kg\""));
    let again = checked_in_json(path_text(&new));
    assert_eq!((&again["verdict"], &again["plan"]), (&"pass".into(), &serde_json::Value::Null));
    // Nor do the two contradict each other.
    assert!(!again["cautions"].to_string().contains("load index"), "{}", again["cautions"]);
}

#[test]
fn where_there_is_no_plan_nothing_is_written() {
    let folder = folder("no-plan");
    let new = folder.join("new.toml");
    let new = path_text(&new);
    let fine = run(&["check", SKIFF, "--write-plan", new]);
    assert_eq!(fine.status.code(), Some(0));
    assert!(text(&fine.stderr).contains("nothing was written: no check fails"), "{}", text(&fine.stderr));
    assert_eq!(checked_in_json(SKIFF)["plan"], serde_json::Value::Null);
    // Where a figure is misread that comes first.
    let misread = text(&run(&["check", CRAB_BOAT, "--set", "trailer.gvwr=5.8 lb"]).stdout);
    assert!(misread.contains("What to do: correct the file first\n  Read trailer.gvwr again"), "{misread}");
    // No plan fits brakes.
    let unbraked = copy(&folder, CRAB_BOAT, |text| text.replace("braked = true", "braked = false"));
    let helpless = run(&["check", path_text(&unbraked), "--write-plan", new]);
    assert_eq!(helpless.status.code(), Some(1));
    assert!(text(&helpless.stderr).contains("nothing was written: nothing"), "{}", text(&helpless.stderr));
    let two = run(&["check", SKIFF, CRAB_BOAT, "--write-plan", new]);
    assert_eq!(two.status.code(), Some(2));
    assert!(!Path::new(new).exists());
}
