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
        (&["sweep", SKIFF, "--vary", "shift.boat=0in"], "text, json, csv"),
    ];
    for (arguments, forms) in commands {
        let with = |form: &str| run(&[arguments, &["--format", form][..]].concat());
        let refused = with("xml");
        assert_eq!(refused.status.code(), Some(2));
        let told = String::from_utf8_lossy(&refused.stderr).into_owned();
        assert!(told.contains(&format!("[possible values: {forms}]")), "{arguments:?}: {told}");
        for form in ["text", "json", "csv", "html", "markdown", "junit"] {
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

/// Each picture of a page is well-formed by itself, and needs nothing from elsewhere.
#[test]
fn pages_carry_their_pictures() {
    let found = "demo-data/survey-launch-as-found.toml";
    for (arguments, captions) in [
        (["check", found], &["From the side, after all", "Across", "On the ramp"][..]),
        (["check", SKIFF], &["From the side"]),
        (["ramp", RIG], &["On the ramp"]),
        (["launch", RIG], &["In the water"]),
        (["bunks", RIG], &["Across", "A bunk as it is cut", "From above"]),
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
            !elsewhere.contains("http") && !page.contains("<script") && !page.contains("url("),
            "{arguments:?}"
        );
    }
    let page = printed(&["ramp", found, "--format", "html", "--full"]);
    let (_, chart) = page.split_once("<svg class=\"plot\"").expect("a chart");
    let (chart, _) = chart.split_once("</svg>").expect("its end");
    assert!(chart.len() < 100_000, "{}", chart.len());
    let chart = format!("<svg class=\"plot\"{chart}</svg>");
    let chart = roxmltree::Document::parse(&chart).unwrap_or_else(|error| panic!("{error}\n{chart}"));
    let path = |class| chart.descendants().filter(move |node| node.attribute("class") == Some(class));
    let highest = |node: roxmltree::Node| {
        let points = node.attribute("d").expect("a line").trim_start_matches('M').split('L');
        let up = points.filter_map(|point| point.split_once(' ')?.1.parse::<f64>().ok());
        up.fold(f64::INFINITY, f64::min)
    };
    // The zero of loads lies at 370, and the rating, 4400 lb, gives the scale; JSON has the greatest load of axle 1.
    let pound = (370.0 - highest(path("limit").next().expect("the rating"))) / 4400.0;
    let report: serde_json::Value =
        serde_json::from_str(&printed(&["check", found, "--format", "json"])).expect("JSON");
    for (axle, line) in path("line").enumerate() {
        let id = format!("ramp-axle-{}", axle + 1);
        let row = report["checks"].as_array().expect("checks").iter().find(|row| row["id"] == id.as_str());
        let load = row.and_then(|row| row["load"].as_f64()).expect("a load");
        // Places are written to a tenth.
        assert!(((370.0 - highest(line)) / pound - load).abs() < 0.1 / pound, "{id}: {load}");
    }
    // What the plan moves is dotted where it was.
    assert!(printed(&["check", found, "--format", "html"]).contains("class=\"before\""));
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
