//! Charts as users get them: what lies where is what the reports say.

use crate::svg::Svg;
use serde_json::Value;
use std::path::Path;
use std::process::Command;

const AS_FOUND: &str = "survey-launch-as-found.toml";
const AS_CHANGED: &str = "survey-launch-as-changed.toml";

fn demo(file: &str) -> String {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-data").join(file).display().to_string()
}

fn printed(arguments: &[&str]) -> String {
    let output =
        Command::new(env!("CARGO_BIN_EXE_bunkline")).args(arguments).output().expect("the program runs");
    String::from_utf8(output.stdout).expect("it prints UTF-8")
}

fn json(arguments: &[&str]) -> Value {
    serde_json::from_str(&printed(&[arguments, &["--format", "json"]].concat())).expect("JSON")
}

/// The charts of a page.
fn charts(page: &str) -> Vec<String> {
    let charts = page.split("<svg class=\"plot\"").skip(1);
    charts
        .map(|rest| format!("<svg class=\"plot\"{}</svg>", rest.split("</svg>").next().unwrap_or_default()))
        .collect()
}

/// A value at a height of a panel, by the marks of its axis: a line through the lowest and the highest.
fn value_at(svg: &Svg, panel: usize, y: f64) -> f64 {
    let (low, high) = svg.marks(panel);
    low.0 + (high.0 - low.0) * (y - low.1) / (high.1 - low.1)
}

/// The rating gives the scale; JSON has the greatest load of each axle over the ramp.
#[test]
fn loads_along_a_ramp_are_those_of_the_report() {
    let page = printed(&["ramp", &demo(AS_FOUND), "--format", "html", "--full"]);
    let charts = charts(&page);
    for chart in &charts {
        assert!(chart.len() < 20_000, "{}", chart.len());
        Svg::read(chart).assert_readable("the ramp");
    }
    let svg = Svg::read(&charts[0]);
    let highest = |line: &[(f64, f64)]| line.iter().map(|(_, y)| *y).fold(f64::INFINITY, f64::min);
    // Places are written to a tenth: of 270 for 5000 lb.
    let near = |y: f64, load: f64| (value_at(&svg, 0, y) - load).abs() < 4.0;
    assert!(near(highest(&svg.lines("limit")[0]), 4400.0));
    let report = json(&["check", &demo(AS_FOUND)]);
    let lines = svg.lines("line");
    assert_eq!(lines.len(), 3);
    for (line, axle) in lines.iter().zip(1..) {
        let id = format!("ramp-axle-{axle}");
        let row = report["checks"].as_array().expect("checks").iter().find(|row| row["id"] == id.as_str());
        let load = row.and_then(|row| row["load"].as_f64()).expect("a load");
        assert!(near(highest(line), load), "{id}: {load} {}", value_at(&svg, 0, highest(line)));
    }
}

/// The window's ends are those of the JSON report, and where tongue share meets its limit is the window's end that it
/// closes; at the spot the axle carries what the report says.
#[test]
fn the_chart_of_a_place_is_what_the_report_says() {
    let file = demo(AS_CHANGED);
    let arguments = ["place", file.as_str()];
    let page = printed(&[&arguments[..], &["--format", "html"]].concat());
    let placing = &json(&arguments)["place"];
    let charts = charts(&page);
    assert_eq!(charts.len(), 1);
    let svg = Svg::read(&charts[0]);
    svg.assert_readable("the place");
    // The axis is in inches as the rig's units are, from where the boat stands.
    let now = placing["now"].as_f64().expect("a shift");
    let window = &placing["windows"][0];
    let (from, to) = (window["from"].as_f64().expect("an end"), window["to"].as_f64().expect("an end"));
    let ((left, x0), (right, x1)) = svg.marks_across();
    let across = |x: f64| left + (right - left) * (x - x0) / (x1 - x0);
    let [area_from, area_to] = svg.areas("window")[0];
    // Places are written to a tenth, of 760 for 18 in.
    assert!((across(area_from) - (from - now)).abs() < 0.02, "{} {from} {now}", across(area_from));
    assert!((across(area_to) - (to - now)).abs() < 0.02, "{} {to} {now}", across(area_to));
    for name in ["now", "the spot", "window", "fails above 15.0 %", "fails below 7.0 %", "rating 5200 lb"] {
        assert!(svg.texts.iter().any(|text| text.words == name), "{name}: {:?}", svg.texts);
    }
    // The least share of all cases closes the window at 7 %.
    let least = &svg.lines("line")[1];
    let at = |x: f64| {
        let after = least.iter().position(|point| point.0 >= x).expect("it goes on");
        let [(xa, ya), (xb, yb)] = [least[after - 1], least[after]];
        ya + (yb - ya) * (x - xa) / (xb - xa)
    };
    assert!((value_at(&svg, 0, at(area_to)) - 7.0).abs() < 0.05, "{}", value_at(&svg, 0, at(area_to)));
    insta::assert_snapshot!("place-of-the-launch", words(&svg));
}

fn swept(file: &str, more: &[&str], form: &str) -> String {
    printed(&[&["sweep", &demo(file)], more, &["--format", form]].concat())
}

/// Each point of a line is a row of the table, and what is shaded are the rows that pass.
#[test]
fn a_sweep_of_one_variable_is_drawn_as_its_rows_are() {
    let vary = [
        "--vary",
        "shift.boat=-16in..4in/1in",
        "--show",
        "tongue_share,lifted_axle_load,least_margin,verdict",
    ];
    let svg = Svg::read(&swept(AS_CHANGED, &vary, "svg"));
    svg.assert_readable("sweep");
    let csv = swept(AS_CHANGED, &vary, "csv");
    let rows: Vec<Vec<&str>> = csv.lines().skip(1).map(|line| line.split(',').collect()).collect();
    let lines = svg.lines("line");
    let ((left, x0), (right, x1)) = svg.marks_across();
    let across = |x: f64| left + (right - left) * (x - x0) / (x1 - x0);
    // A line is drawn through as few points as look the same: its ends are always among them.
    for (panel, times, column) in [(0, 0.01, 1), (1, 1.0, 2), (2, 1.0, 3)] {
        for (end, row) in [(lines[panel][0], &rows[0]), (lines[panel][lines[panel].len() - 1], &rows[20])] {
            let found = value_at(&svg, panel, end.1) * times;
            let told: f64 = row[column].parse().expect("a number");
            let at: f64 = row[0].parse().expect("a number");
            // Places are written to a tenth of 270 for the whole axis.
            assert!((found - told).abs() < 0.002 * told.abs().max(200.0 * times), "{panel}: {found} {told}");
            assert!((across(end.0) - at).abs() < 0.02, "{} {at}", across(end.0));
        }
    }
    // From the first row to half way past the last that passes.
    let passing = rows.iter().filter(|row| row[4] == "pass").count() as f64;
    let [from, to] = svg.areas("window")[0];
    assert!((across(from) + 16.0).abs() < 0.02 && (across(to) - (-16.0 + passing - 0.5)).abs() < 0.02);
    insta::assert_snapshot!("sweep-of-the-launch", words(&svg));
}

/// Every verdict is named where it lies, and the field has the squares that the rows have.
#[test]
fn a_sweep_of_two_variables_is_a_field_of_verdicts() {
    let vary = ["--vary", "shift.boat=-36in..30in/6in", "--vary", "shift.axles=-40in..40in/8in"];
    for units in ["us", "metric"] {
        let more = [&vary[..], &["--units", units]].concat();
        let svg = Svg::read(&swept("fishing-skiff.toml", &more, "svg"));
        svg.assert_readable(units);
        let csv = swept("fishing-skiff.toml", &more, "csv");
        let mut verdicts: Vec<String> = csv
            .lines()
            .skip(1)
            .map(|line| {
                let [.., verdict, check] = line.split(',').collect::<Vec<_>>()[..] else { panic!("{line}") };
                if check.is_empty() { verdict.to_string() } else { format!("{verdict}: {check}") }
            })
            .collect();
        // A fifth of the points pass; the squares of their rows are as many.
        let passing = verdicts.iter().filter(|verdict| *verdict == "pass").count();
        let square = (svg.areas("hatched")[0][0], svg.height);
        assert!(passing > 10 && square.0 > 0.0);
        verdicts.sort();
        verdicts.dedup();
        for verdict in verdicts {
            assert!(svg.texts.iter().any(|text| text.words == verdict), "{verdict}: {:?}", svg.texts);
        }
    }
    let field = swept("fishing-skiff.toml", &vary, "svg");
    insta::assert_snapshot!("field-of-the-skiff", words(&Svg::read(&field)));
}

/// Wherever the window and the place where it stands lie: names keep clear of each other at every edge.
#[test]
fn names_keep_clear_at_the_edges() {
    for vary in ["0in..40in/2in", "-40in..0in/2in", "-1in..1in/0.5in", "-60in..60in/4in"] {
        for units in ["us", "metric"] {
            let vary = format!("shift.boat={vary}");
            let more = ["--vary", &vary, "--show", "tongue_share,least_margin,axle_load", "--units", units];
            Svg::read(&swept("fishing-skiff.toml", &more, "svg")).assert_readable(&vary);
        }
    }
}

/// A length that varies by more than 3 m is in metres or feet, a shorter one as files give it. 20 m are 65.6 ft, so that the
/// first round mark is 70.
#[test]
fn a_long_way_is_in_metres_or_feet() {
    for (vary, units, name, ends) in [
        ("ramps.1.profile.2.length=20m..40m/5m", "metric", "ramps.1.profile.2.length, m", (20.0, 40.0)),
        ("ramps.1.profile.2.length=20m..40m/5m", "us", "ramps.1.profile.2.length, ft", (70.0, 130.0)),
        ("shift.boat=-400mm..0mm/100mm", "metric", "shift.boat, mm", (-400.0, 0.0)),
    ] {
        let more = ["--vary", vary, "--show", "tongue_weight", "--units", units];
        let svg = Svg::read(&swept(AS_CHANGED, &more, "svg"));
        svg.assert_readable(vary);
        assert!(svg.texts.iter().any(|text| text.words == name), "{name}: {:?}", svg.texts);
        let (first, last) = svg.marks_across();
        assert_eq!((first.0, last.0), ends, "{vary}");
    }
}

/// What does not change is a level line over an axis from zero, and one at zero is on the axis.
#[test]
fn a_level_line_has_an_axis() {
    let vary = ["--vary", "tow.gvwr=5000lb..6000lb/500lb", "--show", "tongue_weight,pitch"];
    let svg = Svg::read(&swept("fishing-skiff.toml", &vary, "svg"));
    svg.assert_readable("level lines");
    for panel in [0, 1] {
        let ((low, _), (high, _)) = svg.marks(panel);
        assert!(low == 0.0 && high > 0.0, "{panel}: {low} {high}");
        let line = &svg.lines("line")[panel];
        assert!(line.iter().all(|(_, y)| (y - line[0].1).abs() < 0.05), "{line:?}");
    }
}

#[test]
fn what_is_no_picture_is_refused_with_a_way_out() {
    for (more, told) in [
        (
            &[
                "--vary",
                "shift.boat=0in,1in",
                "--vary",
                "shift.axles=0in,1in",
                "--vary",
                "shift.bunks=0in,1in",
            ][..],
            "expected one or two --vary for a picture, found 3",
        ),
        (&["--vary", "shift.boat=1in"], "expected two or more values of shift.boat for a picture, found one"),
        (
            &["--vary", "shift.boat=0in..4in/0.001in"],
            "expected at most 1000 values of shift.boat for a picture, found 4001",
        ),
        (
            &["--vary", "shift.boat=0in,1in", "--vary", "shift.axles=0in..60in/1in"],
            "expected at most 60 values of shift.axles for a picture, found 61",
        ),
        (
            &["--vary", "shift.boat=0in,1in", "--show", "verdict"],
            "expected a column with numbers in --show for a picture, found verdict",
        ),
        (&["--vary", "shift.boat=0in,1in", "--best"], "expected --format text, json or csv with --best"),
        (&["--vary", "title=a,b"], "expected the path of a quantity, found `title`"),
        (&["--vary", "shift.boat=-60ft,-50ft"], "expected a point with loads, found none"),
    ] {
        for form in ["svg", "html"] {
            let output = Command::new(env!("CARGO_BIN_EXE_bunkline"))
                .args([&["sweep", &demo("fishing-skiff.toml")], more, &["--format", form]].concat())
                .output()
                .expect("the program runs");
            let complaint = String::from_utf8_lossy(&output.stderr).into_owned();
            assert_eq!(output.status.code(), Some(2), "{more:?}: {complaint}");
            assert!(output.stdout.is_empty() && complaint.contains(told), "{more:?}: {complaint}");
        }
    }
}

/// The texts of a chart, a line each, without their places.
fn words(svg: &Svg) -> String {
    svg.texts.iter().map(|text| text.words.clone()).collect::<Vec<_>>().join("\n")
}
