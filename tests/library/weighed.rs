//! A rig known from scales, and an itemised one with its frame level, ask for no more than their loads need.

use crate::cases::cases;
use crate::properties::sketch::{Sketch, Texts, sketches, weighed};
use bunkline::Rig;
use bunkline::fit::{Assessment, CaseLoads, Caution, Findings, Verdict, assess, examine};
use bunkline::quantity::Quantity;
use bunkline::quantity::show::UnitSystem;
use bunkline::report::check::Wanted;
use bunkline::report::{Subject, check, json, text};
use proptest::prelude::*;

const TENDER: &str = include_str!("../../demo-data/weighed-tender.toml");
const POUND: f64 = 0.453_592_37 * 9.806_65;

fn assessed(text: &str, changes: &[&str]) -> Assessment {
    let rig = Rig::read("rig.toml", text, changes).unwrap_or_else(|problems| panic!("{problems}\n{text}"));
    assess(&rig).unwrap_or_else(|unfit| panic!("{unfit}\n{text}"))
}

fn examined(text: &str, changes: &[&str]) -> Findings {
    let rig = Rig::read("rig.toml", text, changes).unwrap_or_else(|problems| panic!("{problems}\n{text}"));
    examine(&rig).unwrap_or_else(|unfit| panic!("{unfit}\n{text}"))
}

fn problem(text: &str, changes: &[&str]) -> String {
    Rig::read("rig.toml", text, changes).map_or_else(|problems| problems.to_string(), |_| "none".to_string())
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

/// What stands for heights that nobody gives, and for a kind of suspension, is named.
#[test]
fn what_a_level_frame_assumes_is_listed() {
    let assumed = |changes: &[&str]| {
        let rig = Rig::read("rig.toml", TENDER, changes).expect("it reads");
        let keys = rig.assumed().iter().map(|assumed| assumed.key.clone());
        keys.filter(|key| ["ball_height", "kind", "side"].iter().any(|end| key.ends_with(end))).collect()
    };
    let listed: Vec<String> = assumed(&[]);
    let all = ["boat.cg_side", "tow.ball_height", "trailer.suspension.kind", "trailer.axles.all.tires.kind"];
    assert_eq!(listed, all);
    let listed: Vec<String> = assumed(&["tow.ball_height=18 in", "trailer.suspension.kind=torsion"]);
    assert_eq!(listed, ["boat.cg_side", "trailer.level_ball_height", "trailer.axles.all.tires.kind"]);
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

/// The tender, its axles weighed apart.
fn apart(axles: &str) -> String {
    TENDER.replace("tongue_weight = \"500 lb\"", &format!("tongue_weight = \"500 lb\", axles = [{axles}]"))
}

/// 2400 and 2100 lb of 4500: each axle carries what it did on its own pad, whatever the springs would share.
#[test]
fn axles_weighed_apart_carry_what_they_did() {
    for kind in ["leaf-equalized", "torsion"] {
        let found =
            assessed(&apart("\"2400 lb\", \"2100 lb\""), &[&format!("trailer.suspension.kind={kind}")]);
        for (id, by_hand) in
            [("axle-1", 2400.0), ("axle-2", 2100.0), ("tire-1", 1200.0), ("tongue-share", 0.1)]
        {
            let load = load(&found, id).expect("a load");
            assert!((load - by_hand).abs() < 1e-9 * by_hand, "{id}: {load}");
        }
    }
    // They say how the load is shared, so the kind of suspension is not asked for, nor a rating.
    let found = assessed(&without(&apart("\"2400 lb\", \"2100 lb\""), &["rating"], "none"), &[]);
    assert_eq!(missing(&found, "axle-1"), ["trailer.axles.1.rating"]);
    assert!((load(&found, "wheel-1").expect("a load") - 1200.0).abs() < 1e-9 * 1200.0);
    // Set on the command line as any other key.
    let found = assessed(&apart("\"2400 lb\", \"2100 lb\""), &["measured.axles.1=2390 lb"]);
    let by_hand = 4500.0 * 2390.0 / 4490.0;
    assert!((load(&found, "axle-1").expect("a load") - by_hand).abs() < 1e-9 * by_hand);
}

/// Without a gross weight it is what axles and tongue carry together.
#[test]
fn axles_weighed_apart_give_the_gross_weight() {
    let text = apart("\"2400 lb ± 20 lb\", \"2100 lb\"").replace("gross_trailer_weight = \"5000 lb\", ", "");
    let found = assessed(&text, &[]);
    for (id, by_hand) in [("trailer-gvwr", 5000.0), ("axle-2", 2100.0)] {
        assert!((load(&found, id).expect("a load") - by_hand).abs() < 1e-9 * by_hand, "{id}");
    }
    let found = assessed(&text.replace("tongue_weight = \"500 lb\", ", ""), &[]);
    assert_eq!(missing(&found, "trailer-gvwr"), ["measured.tongue_weight"]);
}

/// More than their ± away from gross less tongue, or than 1 % of it: 45 lb.
#[test]
fn axles_weighed_apart_must_agree_with_the_other_scales() {
    let differs = |axles: &str| {
        let cautions = examined(&apart(axles), &[]).cautions;
        cautions.iter().any(|caution| matches!(caution, Caution::AxlesOffScales { .. }))
    };
    assert!(!differs("\"2400 lb\", \"2144 lb\""));
    assert!(differs("\"2400 lb\", \"2146 lb\""));
    assert!(differs("\"2400 lb ± 30 lb\", \"2140 lb\""));
    assert!(!differs("\"2400 lb ± 30 lb\", \"2140 lb ± 11 lb\""));
    assert!(problem(&apart("\"4500 lb\""), &[]).contains("one weight for each axle"));
    assert!(problem(&apart("\"4500\", \"1 lb\""), &[]).contains("unit"));
    assert!(
        problem(&TENDER.replace("tongue_weight", "axles = \"9 lb\", tongue_weight"), &[]).contains("a list")
    );
}

const ITEMISED: &str = r#"format = 1
[boat]
bow_eye.station = "15 ft"
[[boat.weights]]
id = "hull"
weight = "2000 lb"
station = "70 in"
[[boat.weights]]
id = "gear"
weight = "500 lb"
station = "100 in"
[[boat.tanks]]
id = "fuel"
density = "5 lb/gal"
capacity = "40 gal"
station = "40 in"
[measured]
gross_trailer_weight = "3950 lb"
tongue_weight = "400 lb"
[trailer]
weight = "1000 lb"
cg = "150 in"
bow_stop = "60 in"
[[trailer.axles]]
station = "180 in"
[policy]
trust = "scale"
"#;

/// By hand: 3950 − 1000 − 200 of fuel leaves 2750 for 2500 lb of items, a factor of 1.1. Scales put the centre at
/// 180 (1 − 400 / 3950), a moment of 639 000 lb in. Trailer 150 000; fuel 200 × (240 − 40) = 40 000; items
/// 1.1 × (2000 × 170 + 500 × 140) = 451 000: together 641 000. So 2750 lb of items move 2000 / 2750 in forward.
#[test]
fn items_are_brought_to_the_scales() {
    let findings = examined(ITEMISED, &[]);
    let scaled = findings.scaled.expect("a factor and a distance");
    assert!((scaled.factor - 1.1).abs() < 1e-12, "{scaled:?}");
    assert!((scaled.forward.si() / 0.0254 - 2000.0 / 2750.0).abs() < 1e-9, "{scaled:?}");
    let first = &findings.assessment.cases[0];
    let pounds = |weight: &bunkline::fit::Known<bunkline::quantity::Weight>| {
        weight.as_ref().expect("a weight").si() / POUND
    };
    assert!((pounds(&first.gross) - 3950.0).abs() < 1e-9 * 3950.0);
    assert!((pounds(&first.tongue) - 400.0).abs() < 1e-9 * 3950.0);
    // As listed: 3700 lb, 150 000 + 40 000 + 410 000 about the ball: 600 000 / 180 on the axle.
    let listed = examined(ITEMISED, &["policy.trust=items"]);
    assert_eq!(listed.scaled, None);
    let tongue = pounds(&listed.assessment.cases[0].tongue);
    assert!((tongue - (3700.0 - 600_000.0 / 180.0)).abs() < 1e-9 * 3700.0, "{tongue}");
}

/// One figure alone changes only what it can: the weights, or the places.
#[test]
fn one_scale_figure_brings_the_items_as_far_as_it_goes() {
    let gross = without(ITEMISED, &["tongue_weight"], "none");
    let scaled = examined(&gross, &[]).scaled.expect("a factor");
    assert!((scaled.factor - 1.1).abs() < 1e-12 && scaled.forward.si() == 0.0, "{scaled:?}");
    let tongue = without(ITEMISED, &["gross_trailer_weight"], "none");
    let findings = examined(&tongue, &[]);
    // 180 × (3700 − 400) = 594 000 of 600 000: 2500 lb of items move 2.4 in forward.
    let scaled = findings.scaled.expect("a distance");
    assert!(scaled.factor == 1.0 && (scaled.forward.si() / 0.0254 - 2.4).abs() < 1e-9, "{scaled:?}");
}

/// Text and JSON name factor and distance; a factor that no list is wrong by is a caution.
#[test]
fn what_is_done_to_the_items_is_reported() {
    let rig = Rig::read("rig.toml", ITEMISED, &[] as &[&str]).expect("it reads");
    let findings = examine(&rig).expect("it settles");
    let subject = Subject {
        path: "rig.toml",
        rig: &rig,
        findings: &findings,
        uncertainty: None,
        as_stated: false,
        units: UnitSystem::Us,
    };
    let told =
        text::render(&check::report(&subject, &Wanted { full: true, ..Wanted::default() }), 200, false);
    assert!(told.contains("every weight times 1.1000, every station moved 3/4 in forward"), "{told}");
    let json = json::report(&subject).expect("JSON");
    assert!(json.contains("\"scaled\":{\"factor\":1.1"), "{json}");
    let far = |gross: &str| {
        let cautions = examined(ITEMISED, &[&format!("measured.gross_trailer_weight={gross}")]).cautions;
        cautions.iter().any(|caution| matches!(caution, Caution::ScaledFar(_)))
    };
    // The factor is (gross − 1200) / 2500.
    assert!(!far("4320 lb") && far("4330 lb") && !far("3210 lb") && far("3190 lb"));
    assert!(
        problem(ITEMISED, &["measured.gross_trailer_weight=1100 lb"]).contains("above the trailer's own")
    );
}

/// A part that is not there has no rows, and no figures.
#[test]
fn rows_of_an_absent_part_vanish() {
    let changes = ["hitch.receiver=none", "hitch.ball_mount=none", "hitch.ball=none"];
    let rig = Rig::read("rig.toml", TENDER, &changes).expect("it reads");
    assert_eq!(rig.proposed().hitch.absent().collect::<Vec<_>>(), ["receiver", "ball mount", "ball"]);
    let found = assess(&rig).expect("it settles");
    for id in
        ["receiver", "receiver-tongue", "ball-mount", "ball-mount-tongue", "ball", "ball-size", "shank-size"]
    {
        assert!(found.check(id).is_none(), "{id}");
    }
    assert!(found.check("coupler").is_some());
    // One of the two that fit into each other is enough to have nothing to compare.
    let found = assessed(TENDER, &["hitch.receiver=none"]);
    assert!(found.check("shank-size").is_none() && found.check("ball-mount").is_some());
    let table = format!("{TENDER}[hitch]\nreceiver = \"none\"\nball = {{ rating = \"6000 lb\" }}\n");
    let found = assessed(&table, &[]);
    assert!(found.check("receiver").is_none());
    assert_eq!(load(&found, "ball"), Some(5000.0));
    assert!(problem(&table, &["trailer.coupler.ball_size=2 in", "hitch.ball=none"]).contains("found both"));
    assert!(problem(&table, &["hitch.receiver.rating=6000 lb"]).contains("found both"));
    assert!(problem(TENDER, &["hitch.receiver=some"]).contains("a table, or `none`"));
}

/// A silent kind follows the letters, and never the kinder way: 1820 lb of a tire without letters are 1655.
#[test]
fn a_silent_kind_of_tire_follows_the_letters() {
    let limit = |size: &str| {
        let found = assessed(TENDER, &[&format!("trailer.axles.all.tires.size={size}")]);
        found.check("tire-1").and_then(|row| row.max).map(|max| (max.si() / POUND).round())
    };
    assert_eq!(limit("ST205/75R15"), Some(1820.0));
    assert_eq!(limit("LT205/75R15"), Some(1820.0));
    assert_eq!(limit("205R15C"), Some(1820.0));
    assert_eq!(limit("205/75R15"), Some(1655.0));
    assert_eq!(limit("P205/75R15"), Some(1655.0));
    let assumed = |changes: &[&str]| {
        let rig = Rig::read("rig.toml", TENDER, changes).expect("it reads");
        rig.assumed().iter().any(|assumed| assumed.key == "trailer.axles.all.tires.kind")
    };
    assert!(assumed(&[]) && !assumed(&["trailer.axles.all.tires.kind=trailer"]));
    let against = problem(TENDER, &["trailer.axles.2.tires.kind=light-truck"]);
    assert_eq!(against, "expected a trailer tire, by the letters of its size; found light-truck");
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
