//! One option chooses the form of every report, with the same words everywhere.

use std::process::{Command, Output};

const RIG: &str = "demo-data/survey-launch-as-changed.toml";
const SKIFF: &str = "demo-data/fishing-skiff.toml";

fn run(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_bunkline"))
        .args(arguments)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .expect("the program runs")
}

fn printed(arguments: &[&str]) -> String {
    String::from_utf8(run(arguments).stdout).expect("it prints UTF-8")
}

#[test]
fn every_command_has_its_forms_and_names_them() {
    let commands: &[(&[&str], &str)] = &[
        (&["check", SKIFF], "text, json, html, markdown, junit"),
        (&["compare", SKIFF, SKIFF], "text, json, csv, html"),
        (&["ramp", RIG], "text, json, csv, html"),
        (&["place", SKIFF], "text, json, html"),
        (&["bunks", RIG], "text, json, html"),
        (&["weigh", "demo-data/weighed-skiff.toml"], "text, json, html"),
        (&["changes", SKIFF, SKIFF], "text, json, html, markdown"),
        (&["explain"], "text, html"),
        (&["sweep", SKIFF, "--vary", "shift.boat=0in,1in"], "text, json, csv, html, svg"),
    ];
    for (arguments, forms) in commands {
        let with = |form: &str| run(&[arguments, &["--format", form][..]].concat());
        let refused = with("xml");
        assert_eq!(refused.status.code(), Some(2));
        let told = String::from_utf8_lossy(&refused.stderr).into_owned();
        assert!(told.contains(&format!("[possible values: {forms}]")), "{arguments:?}: {told}");
        for form in ["text", "json", "csv", "html", "svg", "markdown", "junit"] {
            let output = with(form);
            let has = forms.split(", ").any(|other| other == form);
            assert_eq!(output.status.code() == Some(2), !has, "{arguments:?} {form}");
            let out = String::from_utf8(output.stdout).expect("it prints UTF-8");
            match form {
                "html" if has => assert!(out.starts_with("<!DOCTYPE html>") && out.ends_with("</html>\n")),
                "json" if has => assert!(out.starts_with('{'), "{out}"),
                _ => assert_eq!(out.is_empty(), !has),
            }
        }
    }
}

/// The chain stands in place of the checks, whatever else is asked for.
#[test]
fn the_chain_alone_is_the_chain_alone() {
    for form in ["text", "html"] {
        let chain = ["check", SKIFF, "--only", "chain", "--format", form];
        let page = printed(&chain);
        assert!(page.contains("weakest link first") && !page.contains("At a glance"), "{page}");
        assert!(!page.contains("<svg"), "{page}");
        assert_eq!(printed(&[&chain[..], &["--full"]].concat()), page);
    }
}

/// Programs get the bands and the estimate that text and card tell: the same figures, unrounded.
#[test]
fn programs_get_the_bands_of_a_launch_and_what_it_assumes() {
    let file = "demo-data/launching/by-tape-alone.toml";
    let of = |form: &str| printed(&["launch", file, "--format", form]);
    let said = of("text").split_whitespace().collect::<Vec<_>>().join(" ");
    let json: serde_json::Value = serde_json::from_str(&of("json")).expect("JSON");
    let number = |value: &serde_json::Value| value.as_f64().expect("a number");
    let bands = &json["bands"][0];
    let apart = |band: &serde_json::Value| (number(&band["low"]).floor(), number(&band["high"]).ceil());
    let events = bands["events"].as_array().expect("events");
    let of_event = |name: &str| events.iter().find(|event| event["event"] == name).expect("it happens");
    let (low, high) = apart(of_event("stern-lifts"));
    assert!(said.contains(&format!("the stern lifts with {low} to {high} in over")), "{low} {high}: {said}");
    let (low, high) = apart(&bands["comes_off"]);
    assert!(said.contains(&format!("she comes off at {low} to {high} in.")), "{low} {high}: {said}");
    let assumed = json["estimate"]["assumed"].as_array().expect("what is assumed");
    assert_eq!(assumed.len(), 3);
    for one in assumed {
        let between = format!("{:.0} to {:.0} lb", number(&one["low"]), number(&one["high"]));
        assert!(said.contains(&between), "{between}: {said}");
    }
    // The launch as the file has it is still not known; in the middle of the estimate it is.
    assert!(json["launches"][0]["events"].is_null());
    let csv = of("csv");
    let lines: Vec<Vec<&str>> = csv.lines().map(|line| line.split(',').collect()).collect();
    let column = |name: &str| lines[0].iter().position(|column| *column == name).expect("a column");
    let [low, high, depth] = ["low_in", "high_in", "in"].map(|end| column(&format!("wheel_depth_{end}")));
    assert_eq!(lines.len() - 1, events.len());
    let middle = json["estimate"]["launches"][0]["events"].as_array().expect("events");
    for ((line, event), middle) in lines[1..].iter().zip(events).zip(middle) {
        assert_eq!(line[column("event")], event["event"].as_str().expect("a name"));
        assert_eq!(line[column("estimate")], "true");
        let same = |at: usize, value: &serde_json::Value| {
            // JSON may round the last bit as it is read.
            let found: f64 = line[at].parse().expect("a number");
            assert!((found - number(value)).abs() <= 1e-12 * found.abs(), "{line:?}: {value}");
        };
        same(low, &event["low"]);
        same(high, &event["high"]);
        same(depth, &middle["wheel_depth"]);
    }
    // A file that lacks nothing gets no estimate.
    let whole = printed(&["launch", "demo-data/fishing-skiff-by-tape.toml", "--format", "json"]);
    let whole: serde_json::Value = serde_json::from_str(&whole).expect("JSON");
    assert!(whole["estimate"].is_null() && whole["bands"].as_array().is_some_and(|bands| bands.len() == 1));
}

/// What an owner asks about by another name is a part of a subject.
#[test]
fn a_subject_goes_by_what_it_holds_too() {
    for (word, subject) in [("tires", "road"), ("trailer", "road"), ("coupler", "hitch"), ("strap", "winch")]
    {
        let only = |word: &str| printed(&["check", SKIFF, "--only", word]);
        assert_eq!(only(word), only(subject));
    }
}

/// Each picture of a page is well-formed by itself, and needs nothing from elsewhere.
#[test]
fn pages_carry_their_pictures() {
    let found = "demo-data/survey-launch-as-found.toml";
    for (arguments, captions) in [
        (
            ["check", found],
            &["From the side, after all", "Loads by case, after all", "Across", "On the ramp"][..],
        ),
        (["check", SKIFF], &["From the side"]),
        (["ramp", RIG], &["The load of each axle", "On the ramp"]),
        (["launch", RIG], &["In the water"]),
        (["bunks", RIG], &["Across", "A bunk as it is cut", "From above"]),
        (["place", RIG], &["Tongue share and axle loads"]),
    ] {
        let page = printed(&[&arguments[..], &["--format", "html"]].concat());
        let figures: Vec<&str> =
            page.split("<figcaption>").skip(1).filter(|figure| figure.contains("<svg")).collect();
        assert_eq!(figures.len(), captions.len(), "{arguments:?}");
        for (figure, caption) in figures.iter().zip(captions) {
            assert!(figure.starts_with(caption), "{figure}");
            let svg =
                &figure[figure.find("<svg").expect("a picture")..figure.find("</svg>").expect("its end") + 6];
            let svg = roxmltree::Document::parse(svg).unwrap_or_else(|error| panic!("{error}\n{svg}"));
            // What is seen, in words.
            let said = svg
                .root_element()
                .children()
                .find(|node| node.has_tag_name(("http://www.w3.org/2000/svg", "desc")));
            assert!(said.and_then(|said| said.text()).is_some_and(|said| said.len() > 40));
        }
        let elsewhere = page.replace("http://www.w3.org/2000/svg", "");
        assert!(
            !elsewhere.contains("http")
                && !page.contains("<script")
                && !page.replace("url(#", "").contains("url("),
            "{arguments:?}"
        );
    }
    // The pictures of a plan are a workshop's: no key and no flag of ours stands beside them.
    let page_of_plan = printed(&["check", found, "--format", "html"]);
    let (_, workshop) = page_of_plan.split_once("For the workshop").expect("its part");
    for foreign in ["trailer.", "boat.", "--full", "--only", "FAIL"] {
        assert!(!workshop.contains(foreign), "{foreign}");
    }
    // What the plan moves is dotted where it was.
    assert!(workshop.contains("class=\"before\""));
}

#[test]
fn one_page_holds_every_rig_and_names_what_could_not_be_read() {
    let page = printed(&["check", SKIFF, "no/such<rig>.toml", RIG, "--format", "html"]);
    assert_eq!(page.matches("<!DOCTYPE html>").count(), 1);
    // The table of all rigs, and what could not be read; those that pass have their line in the table.
    assert_eq!(page.matches("<h1>").count(), 2);
    assert!(page.contains(SKIFF) && page.contains(RIG), "{page}");
    assert!(page.contains("NOT READ") && page.contains("no/such&lt;rig&gt;.toml"), "{page}");
}

#[test]
fn steeper_heads_are_a_page_too() {
    let page = printed(&["ramp", RIG, "--grade", "8%..12%/2%", "--format", "html"]);
    assert!(page.contains("The head of &quot;harbour slip&quot; at other grades"), "{page}");
}
