//! A rig known from scales, and an itemised one with its frame level, ask for no more than their loads need.

use crate::cases::cases;
use crate::properties::sketch::{Sketch, Texts, sketches, weighed};
use bunkline::Rig;
use bunkline::fit::{Assessment, CaseLoads, Verdict, assess};
use bunkline::quantity::Quantity;
use proptest::prelude::*;

const TENDER: &str = include_str!("../../demo-data/weighed-tender.toml");
const POUND: f64 = 0.453_592_37 * 9.806_65;

fn assessed(text: &str, changes: &[&str]) -> Assessment {
    let rig = Rig::read("rig.toml", text, changes).unwrap_or_else(|problems| panic!("{problems}\n{text}"));
    assess(&rig).unwrap_or_else(|unfit| panic!("{unfit}\n{text}"))
}

/// A row's load in pounds, or a share.
fn load(found: &Assessment, id: &str) -> Option<f64> {
    let row = found.check(id).unwrap_or_else(|| panic!("no row {id}"));
    let si = row.load?.si();
    Some(if id == "tongue-share" { si } else { si / POUND })
}

fn missing(found: &Assessment, id: &str) -> Vec<String> {
    let row = found.check(id).unwrap_or_else(|| panic!("no row {id}"));
    row.missing.iter().map(ToString::to_string).collect()
}

/// A file without the lines that begin with one of these keys, and without a key of inline tables.
fn without(text: &str, keys: &[&str], inline: &str) -> String {
    let begins = |line: &str| keys.iter().any(|key| line.starts_with(&format!("{key} =")));
    let lines = text.lines().filter(|line| !begins(line)).map(|line| {
        let Some((before, value)) = line.split_once(&format!("{inline} = ")) else { return line.to_string() };
        let after = value.split_once("\", ").map_or("}", |(_, after)| after);
        format!("{before}{after}")
    });
    lines.collect::<Vec<_>>().join("\n")
}

/// Gross 5000, tongue 500: a share of 10 %, and 4500 on two axles and eight tires' worth of four.
#[test]
fn scales_and_labels_alone_are_enough_for_what_they_show() {
    let found = assessed(TENDER, &[]);
    for (id, by_hand) in [
        ("trailer-gvwr", 5000.0),
        ("coupler", 5000.0),
        ("coupler-tongue", 500.0),
        ("tongue-share", 0.1),
        ("axle-1", 2250.0),
        ("axle-2", 2250.0),
        ("tire-1", 1125.0),
        ("tire-2", 1125.0),
        ("wheel-1", 1125.0),
        ("wheel-2", 1125.0),
    ] {
        let load = load(&found, id).unwrap_or_else(|| panic!("{id}: {:?}", missing(&found, id)));
        assert!((load - by_hand).abs() < 1e-9 * by_hand, "{id}: {load}");
        assert_eq!(found.check(id).map(|row| row.verdict), Some(Verdict::Pass), "{id}");
    }
}

/// Even shares do not ask where the axles stand.
#[test]
fn even_shares_need_no_stations() {
    let found = assessed(&without(TENDER, &["station"], "none"), &[]);
    assert_eq!(load(&found, "axle-2"), Some(2250.0));
}

#[test]
fn one_figure_alone_serves_what_it_can() {
    let gross = TENDER.replace(", tongue_weight = \"500 lb\"", "");
    let found = assessed(&gross, &[]);
    assert_eq!(load(&found, "coupler"), Some(5000.0));
    for id in ["tongue-share", "tongue-uplift", "coupler-tongue", "axle-1", "tire-2"] {
        assert_eq!(missing(&found, id), ["measured.tongue_weight"], "{id}");
    }
    let tongue = TENDER.replace("gross_trailer_weight = \"5000 lb\", ", "");
    let found = assessed(&tongue, &[]);
    assert_eq!(load(&found, "coupler-tongue"), Some(500.0));
    for id in ["tongue-share", "trailer-gvwr", "axle-1", "tire-2"] {
        assert_eq!(missing(&found, id), ["measured.gross_trailer_weight"], "{id}");
    }
}

/// What one axle carries does not depend on its springs, what apart sprung ones carry does.
#[test]
fn springs_are_asked_for_where_they_decide() {
    let kind = |kind: &str| format!("trailer.suspension.kind={kind}");
    let unlike = "trailer.axles.2.rating=5000 lb";
    let found = assessed(TENDER, &[unlike]);
    assert_eq!(load(&found, "axle-1"), Some(2250.0), "a proposed rating is a limit alone");
    let other = |axles: &str| TENDER.replacen("rating = \"3500 lb\"", axles, 1);
    let found = assessed(&other("rating = \"5000 lb\""), &[]);
    assert_eq!(missing(&found, "axle-1"), ["trailer.suspension.kind"]);
    let found = assessed(&other(""), &[&kind("leaf-equalized")]);
    assert_eq!(load(&found, "axle-2"), Some(2250.0));
    let found = assessed(&other(""), &[&kind("torsion")]);
    assert_eq!(missing(&found, "axle-2"), ["trailer.axles.1.rating"]);
    // By rate: suspension 5000 / 2.3 and 3500 / 2.3, in series with 4000 lb/in of tires:
    // 1408.45 and 1102.36 lb/in, 4500 lb in all.
    let found = assessed(&other("rating = \"5000 lb\""), &[&kind("torsion")]);
    let rate = |rating: f64| 1.0 / (2.3 / rating + 1.0 / 4000.0);
    let by_hand = 4500.0 * rate(5000.0) / (rate(5000.0) + rate(3500.0));
    let load = load(&found, "axle-1").expect("a load");
    assert!((load - by_hand).abs() < 1e-9 * by_hand, "{load} {by_hand}");
}

/// The empty trailer, stations and heights are asked for where something has moved; the gross weight never needs them.
#[test]
fn what_has_moved_asks_for_more() {
    for change in ["shift.boat=1 in", "tow.ball_height=20 in"] {
        let text = TENDER.replace("trailer.gvwr", "trailer.level_ball_height = \"18 in\"\ntrailer.gvwr");
        let found = assessed(&text, &[change]);
        assert_eq!(load(&found, "coupler"), Some(5000.0));
        let missing = missing(&found, "axle-1");
        assert!(missing.contains(&"trailer.weight".to_string()), "{change}: {missing:?}");
        assert!(missing.contains(&"boat.cg_height".to_string()), "{change}: {missing:?}");
    }
    let found = assessed(TENDER, &["shift.ashore=200 lb"]);
    assert_eq!(load(&found, "coupler"), Some(4800.0));
    assert_eq!(load(&found, "axle-1"), None);
}

/// In another case the tanks hold something else: 20 gal of diesel at 7.1 lb/gal, half of it gone.
#[test]
fn another_case_weighs_what_its_tanks_do() {
    let tank = "[[boat.tanks]]\nid = \"fuel\"\nfluid = \"diesel\"\ncapacity = \"20 gal\"\n[[cases]]\n[[cases]]\nfill = { fuel = \"50 %\" }\n";
    let found = assessed(&format!("{TENDER}{tank}"), &[]);
    let gross = |case: usize| found.cases[case].gross.as_ref().map(|gross| gross.si() / POUND);
    assert_eq!(gross(0), Ok(5000.0));
    assert!((gross(1).expect("a gross weight") - 4929.0).abs() < 1e-9 * 5000.0);
    assert!(found.cases[0].level.is_ok() && found.cases[1].level.is_err());
}

/// A side that is stated is weighed against the whole: the boat and its tanks, less the trailer.
#[test]
fn a_side_asks_for_what_lies_there() {
    let found = assessed(TENDER, &["boat.cg_side=2 in"]);
    assert_eq!(load(&found, "axle-1"), Some(2250.0));
    assert_eq!(missing(&found, "tire-1"), ["trailer.weight"]);
    let found = assessed(TENDER, &["boat.cg_side=2 in", "trailer.weight=1000 lb"]);
    assert_eq!(missing(&found, "tire-1"), ["trailer.track"]);
    // yc = 4000 × 2 / 5000, on the axles 5000 / 4500 of it: 1.7778 in, over a track of 80 in 0.52222 of 2250 on one of
    // two tires.
    let found = assessed(TENDER, &["boat.cg_side=2 in", "trailer.weight=1000 lb", "trailer.track=80 in"]);
    let tire = load(&found, "tire-1").expect("a load");
    assert!((tire - 2250.0 * (0.5 + 8000.0 / 4500.0 / 80.0)).abs() < 1e-9 * tire, "{tire}");
}

/// What scales and springs alone say of a case: gross, tongue, axles and tires.
fn on_the_level(case: &CaseLoads) -> Vec<f64> {
    let level = case.level.as_ref().unwrap_or_else(|missing| panic!("{missing:?}"));
    let tires = level.tire_loads.as_ref().unwrap_or_else(|missing| panic!("{missing:?}"));
    let weights = [&case.gross, &case.tongue].map(|weight| *weight.as_ref().expect("it is known"));
    weights.iter().chain(&level.stance.axle_loads).chain(tires).map(|load| load.si()).collect()
}

const HEIGHTS: &[&str] = &["height", "cg_height", "keel_height", "level_ball_height", "ball_height"];
const WHERE_AND_HOW_HEAVY: &[&str] =
    &["bow_eye", "bow_stop", "station", "weight", "cg", "capacity", "density", "fill"];

/// Whether the first case has the same loads without these keys, and without radii.
fn agrees_without(sketch: &Sketch, keys: &[&str]) -> Result<(), TestCaseError> {
    let whole = sketch.write(Texts::Us);
    let bare = without(&whole, keys, "radius");
    let (whole, bare) = (assessed(&whole, &[]), assessed(&bare, &[]));
    prop_assert!(bare.cases[0].body.is_err(), "the height of its centre of gravity is not known");
    let gross = whole.cases[0].gross.as_ref().expect("a gross weight").si();
    let pairs = on_the_level(&whole.cases[0]).into_iter().zip(on_the_level(&bare.cases[0]));
    for (with, without) in pairs {
        prop_assert!((with - without).abs() <= 1e-9 * gross, "{with} N with them, {without} N without");
    }
    Ok(())
}

proptest! {
    #![proptest_config(cases(200))]

    /// No load on a level frame depends on a height, a wheel's radius or a tire's size.
    #[test]
    fn a_level_frame_asks_for_no_heights(sketch in sketches(4)) {
        agrees_without(&sketch, HEIGHTS)?;
    }

    /// What scales have weighed depends on neither the empty trailer nor on where anything stands.
    #[test]
    fn scales_ask_for_no_stations(sketch in weighed(4)) {
        agrees_without(&sketch, &[HEIGHTS, WHERE_AND_HOW_HEAVY].concat())?;
    }
}
