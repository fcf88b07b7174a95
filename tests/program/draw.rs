//! Drawings as users get them.

use std::path::Path;
use std::process::Command;

fn drawn(file: &str, more: &[&str]) -> String {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-data").join(file);
    let output = Command::new(env!("CARGO_BIN_EXE_bunkline")).arg("draw").arg(file).args(more).output();
    let output = output.expect("the program runs");
    assert_eq!(output.status.code(), Some(0), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).expect("it prints UTF-8")
}

/// The places of all texts.
fn texts(svg: &str) -> Vec<(f64, f64)> {
    let number =
        |text: &str| text.split('"').nth(1).and_then(|number| number.parse().ok()).expect("a number");
    let places = svg.split("<text ").skip(1).map(|text| text.split_once(' ').expect("x and y"));
    places.map(|(x, y)| (number(x), number(y))).collect()
}

#[test]
fn labels_stay_apart_and_inside_the_view() {
    for file in ["fishing-skiff.toml", "survey-launch-as-found.toml", "weighed-tender.toml"] {
        for units in ["us", "metric"] {
            let svg = drawn(file, &["--units", units]);
            let view = svg.split("viewBox=\"0 0 1000 ").nth(1).and_then(|rest| rest.split('"').next());
            let height: f64 = view.and_then(|height| height.parse().ok()).expect("a view box");
            let texts = texts(&svg);
            assert!(
                texts.iter().all(|(x, y)| (0.0..1000.0).contains(x) && (13.0..height).contains(y)),
                "{svg}"
            );
            // A line of text is 13 high; only the numbers of pushes share a line, each 8 wide.
            for (i, (x, y)) in texts.iter().enumerate() {
                let apart = |(other, line): &(f64, f64)| (y - line).abs() > 13.0 || (x - other).abs() > 16.0;
                assert!(texts[..i].iter().all(apart), "{file}: {svg}");
            }
        }
    }
}

#[test]
fn the_skiff_is_drawn_with_its_figures() {
    insta::assert_snapshot!("skiff", drawn("fishing-skiff.toml", &[]));
}

/// 12 in are 0.3048 m. The view is 1000 wide with 40 to either side: with nothing else changed the wheels move by as much as
/// the lengths below would have to, at one scale.
#[test]
fn what_is_proposed_is_drawn() {
    let places = |svg: &str| -> Vec<f64> {
        let circles = svg.split("class=\"wheel").skip(1).filter_map(|rest| rest.split("cx=\"").nth(1));
        circles.map(|rest| rest.split('"').next().and_then(|x| x.parse().ok()).expect("a number")).collect()
    };
    let file = "survey-launch-as-found.toml";
    let (before, after) = (drawn(file, &[]), drawn(file, &["--set", "shift.axles=12 in"]));
    assert!(after.contains("drawn as proposed: axles 12 in aft; lengths are those of the file"), "{after}");
    assert!(!before.contains("drawn as proposed"), "{before}");
    let (before, after) = (places(&before), places(&after));
    // Axle 1 to axle 2 is 32 in in this file.
    let inch = (before[1] - before[0]) / 32.0;
    for (before, after) in before.iter().zip(&after) {
        // Places are written to a tenth.
        assert!((after - before - 12.0 * inch).abs() < 0.2, "{before} {after}");
    }
}
