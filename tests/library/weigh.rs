//! Weighing: readings of a scale give back the rig that they were read of.

use crate::cases::cases;
use bunkline::Rig;
use bunkline::fit::{Model, assess};
use bunkline::quantity::Quantity;
use bunkline::rig::OnScale;
use bunkline::study::weigh::{Estimate, Reading, Unweighed, Weighed, weigh};
use proptest::prelude::*;

/// In newtons, as weights are.
const POUND: f64 = 0.453_592_37 * 9.806_65;
const INCH: f64 = 0.0254;

fn read(text: &str) -> Rig {
    Rig::parse(text).unwrap_or_else(|problems| panic!("{problems}\n{text}"))
}

fn weighed(text: &str) -> Weighed {
    weigh(&read(text)).unwrap_or_else(|why| panic!("{why}"))
}

fn pounds(estimate: Option<Estimate>) -> (f64, f64) {
    let estimate = estimate.expect("a figure");
    (estimate.value / POUND, estimate.bound.expect("a bound") / POUND)
}

/// A reading as a rig file has it.
fn reading(what: &str, weight: f64, bound: f64, more: &str) -> String {
    format!("[[weighings]]\nwhat = \"{what}\"\nweight = \"{weight} lb ± {bound} lb\"\n{more}")
}

/// Nothing known but three readings.
fn scales_alone(readings: &[String]) -> String {
    format!("format = 1\n[[trailer.axles]]\nstation = \"20 ft\"\n{}", readings.concat())
}

fn three() -> [String; 3] {
    [
        reading("gross", 11420.0, 40.0, ""),
        reading("tongue", 1010.0, 20.0, ""),
        reading("axles", 10450.0, 30.0, ""),
    ]
}

/// Worked by hand: gross − tongue − axles is 11 420 − 1010 − 10 450 = −40. The variances (σ half of the ±) are 400, 100
/// and 225, together 725: each reading takes its share of the 40, gross 400/725 × 40 = 22.069 up, tongue
/// 100/725 × 40 = 5.517 down, axles 12.414 down. The tongue's variance is 100 (1 − 100/725) = 86.207, so ± 18.570.
/// 40/√725 = 1.4856.
#[test]
fn three_readings_that_disagree_share_it_by_their_variances() {
    let found = weighed(&scales_alone(&three()));
    let near = |(value, _): (f64, f64), by_hand: f64| {
        // The search ends within 0.1 g; the hand's figures have two decimals.
        assert!((value - by_hand).abs() < 0.005, "{value} is not {by_hand}");
    };
    near(pounds(found.gross), 11_442.07);
    near(pounds(found.tongue), 1_004.48);
    near(pounds(found.axles), 10_437.59);
    assert!((pounds(found.tongue).1 - 18.57).abs() < 0.005);
    for reading in &found.readings {
        let off = reading.others.expect("two others decide it").off.abs();
        assert!((off - 40.0 / 725_f64.sqrt()).abs() < 1e-4, "{off}");
        assert!(!reading.is_contradicted());
    }
    let others = found.readings[0].others.expect("tongue and axles give it");
    assert!((others.value / POUND - 11_460.0).abs() < 0.01, "{others:?}");
    // √(20² + 30²)
    assert!((others.bound / POUND - 1300_f64.sqrt()).abs() < 0.01, "{others:?}");
}

/// A second method: the least of the same sum by a random search that knows nothing of slopes.
#[test]
fn a_random_search_finds_the_same_least_sum() {
    let mut state = 7_u64;
    let mut draw = || {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 11) as f64 / (1_u64 << 53) as f64 - 0.5
    };
    let sum = |[gross, tongue]: [f64; 2]| {
        let off = [(11_420.0 - gross) / 20.0, (1010.0 - tongue) / 10.0, (10_450.0 - gross + tongue) / 15.0];
        off.iter().map(|off| off * off).sum::<f64>()
    };
    let (mut best, mut width) = ([11_000.0, 900.0], 1000.0);
    while width > 1e-4 {
        for _ in 0..60 {
            let next = [best[0] + width * draw(), best[1] + width * draw()];
            if sum(next) < sum(best) {
                best = next;
            }
        }
        width *= 0.9;
    }
    let found = weighed(&scales_alone(&three()));
    assert!((pounds(found.gross).0 - best[0]).abs() < 0.01, "{best:?}");
    assert!((pounds(found.tongue).0 - best[1]).abs() < 0.01, "{best:?}");
}

#[test]
fn two_readings_that_contradict_each_other_are_both_named() {
    let found = weighed(&scales_alone(&[
        reading("gross", 11_420.0, 20.0, ""),
        reading("gross", 11_600.0, 20.0, ""),
        reading("tongue", 1000.0, 20.0, ""),
    ]));
    let named: Vec<bool> = found.readings.iter().map(Reading::is_contradicted).collect();
    assert_eq!(named, [true, true, false]);
    // 180 lb apart, each with σ 10 lb.
    assert!((found.readings[1].others.expect("decided").off - 180.0 / 200_f64.sqrt()).abs() < 1e-4);
}

/// One axle at 240 in, 10 000 lb with its centre at 216 in and 30 in above the hub, the ball 6 in above the hub. The
/// springs hardly give, so the frame is as good as rigid.
fn rigid(readings: &str) -> String {
    format!(
        r#"format = 1
[boat]
length = "250 in"
bow_eye = {{ station = "200 in", height = "30 in" }}
[[boat.weights]]
id = "hull"
weight = "9900 lb ± 0.001 lb"
station = "64 in ± 50 in"
height = "24 in ± 60 in"
[trailer]
weight = "100 lb"
cg = "216 in"
cg_height = "44 in"
bow_stop = "80 in"
keel_height = "20 in"
level_ball_height = "20 in"
length = "400 in"
suspension = {{ kind = "torsion", deflection_at_rating = "0.01 in" }}
[[trailer.axles]]
station = "240 in"
rating = "12000 lb"
tires = {{ radius = "14 in", rate = "5000000 lb/in", count = 2 }}
[tow]
ball_height = "20 in"
{readings}"#
    )
}

/// Worked by hand, from the hub: the centre lies 24 in forward and 30 in up, the ball 240 in forward and 6 in up. Level,
/// V = W 24/240 = 1000. With the ball 12 in higher, 240 sin φ + 6 cos φ = 18: φ = 2.868°, and
/// V = W (24 cos φ − 30 sin φ)/(240 cos φ − 6 sin φ) = 10 000 × 22.469/239.40 = 938.56. An inch more height takes
/// W sin φ/239.40 = 2.09 from it.
#[test]
fn a_higher_ball_gives_the_height() {
    let raised = |height: f64| {
        let rig = read(&rigid("")).with("tow.ball_height=32 in").expect("a rig");
        let rig = rig.with(&format!("boat.weights.1.height={height} in")).expect("a rig");
        assess(&rig).expect("at rest").cases[0].tongue.clone().expect("known").si() / POUND
    };
    // The trailer's 100 lb lie 30 in above the hub as the boat's 9900 lb do.
    assert!((raised(24.0) - 938.56).abs() < 0.02, "{}", raised(24.0));
    // Only 9900 of the 10 000 lb rise.
    assert!((raised(24.0) - raised(25.0) - 2.09 * 0.99).abs() < 0.005);

    let level = reading("tongue", 1000.0, 20.0, "");
    let once = weighed(&rigid(&level).replace(" ± 60 in", ""));
    assert_eq!(once.boat.height.expect("a start").bound, None, "one height of the ball says nothing");
    assert!(once.open.iter().any(|open| {
        let keys: Vec<String> = open.keys.iter().map(ToString::to_string).collect();
        keys == ["boat.weights.1.height"]
            && open.resolved_by.as_ref().is_some_and(|state| state.ball_height.is_some())
    }));

    let high = reading("tongue", 938.56, 20.0, "ball_height = \"32 in\"\n");
    let twice = weighed(&rigid(&(level + &high)).replace(" ± 60 in", ""));
    let height = twice.boat.height.expect("found");
    assert!((height.value / INCH - 24.0).abs() < 0.02, "{}", height.value / INCH);
    // ± 20 lb each: √(20² + (0.9386 × 20)²)/2.07 is 13 to 14 in.
    let bound = height.bound.expect("two heights of the ball") / INCH;
    assert!((12.5..14.0).contains(&bound), "{bound}");
}

fn skiff() -> String {
    std::fs::read_to_string("demo-data/weighed-skiff.toml").expect("a demo rig")
}

#[test]
fn order_and_units_of_readings_do_not_matter() {
    let text = skiff();
    let (rig, readings) = text.split_once("[[weighings]]").expect("readings");
    let mut parts: Vec<&str> = readings.split("[[weighings]]").collect();
    parts.reverse();
    let turned = parts.iter().flat_map(|part| ["[[weighings]]", part, "\n"]).collect::<String>();
    let metric =
        text.replace("630 lb ± 10 lb", "285.7631931 kg ± 4.5359237 kg").replace("\"3 in\"", "\"76.2 mm\"");
    let one = weighed(&text);
    for other in [weighed(&format!("{rig}{turned}")), weighed(&metric)] {
        for (one, other) in one.found.iter().zip(&other.found) {
            // Both searches end within a step of 0.1 g or 0.1 µm.
            assert!((one.estimate.value - other.estimate.value).abs() < 1e-4, "{one:?} {other:?}");
        }
    }
}

#[test]
fn readings_change_no_verdict() {
    let text = skiff();
    let (without, _) = text.split_once("[[weighings]]").expect("readings");
    let (with, without) = (read(&text), read(without));
    assert_eq!(with.uncertain(), without.uncertain());
    assert_eq!(assess(&with).expect("at rest"), assess(&without).expect("at rest"));
}

#[test]
fn what_is_missing_is_named() {
    assert!(matches!(weigh(&read(&scales_alone(&[]))), Err(Unweighed::NoReadings)));
    let lacks =
        weigh(&read(&scales_alone(&[reading("tow-front", 4000.0, 20.0, "")]))).expect_err("no tow vehicle");
    assert!(lacks.to_string().contains("tow.front_axle_load"), "{lacks}");
    let text = scales_alone(&[reading("tongue", 900.0, 20.0, "ball_height = \"20 in\"\n")]);
    let lacks = weigh(&read(&text)).expect_err("no level height");
    assert!(lacks.to_string().contains("trailer.level_ball_height"), "{lacks}");
}

proptest! {
    #![proptest_config(cases(24))]
    /// Readings made from a rig give that rig back, whatever the file says of it.
    #[test]
    fn readings_of_a_known_rig_give_it_back(
        weight in 3000.0..6000.0_f64,
        station in 85.0..110.0_f64,
        off in -400.0..400.0_f64,
    ) {
        let text = skiff();
        let (rig, _) = text.split_once("[[weighings]]").expect("readings");
        let rig_of = |weight: f64, station: f64| rig
            .replace("5000 lb ± 800 lb", &format!("{weight} lb"))
            .replace("8 ft 4 in", &format!("{station} in"));
        let truth = read(&rig_of(weight, station));
        let loads = Model::new(&truth).loads().expect("at rest");
        let tongue = loads[0].tongue.clone().expect("known").si() / POUND;
        let gross = loads[0].gross.clone().expect("known").si() / POUND;
        prop_assume!(tongue > 0.0);
        let readings = reading("tongue", tongue, 10.0, "") + &reading("axles", gross - tongue, 20.0, "");
        let found = weighed(&(rig_of(weight + off, station - off / 40.0) + &readings));
        let (back, bound) = pounds(found.boat.weight);
        // What is written of a reading has all its digits, so only the end of the search is left.
        prop_assert!((back - weight).abs() < 0.01, "{back} is not {weight}");
        // ± of gross: √(10² + 20²).
        prop_assert!((bound - 500_f64.sqrt()).abs() < 0.01, "{bound}");
        let at = found.boat.station.expect("known");
        prop_assert!((at.value / INCH - station).abs() < 0.001, "{} is not {station}", at.value / INCH);
        prop_assert!(at.bound.is_some());
    }
}

#[test]
fn every_key_of_a_reading_changes_what_is_found() {
    let cases = "[[cases]]\nname = \"full\"\n[[cases]]\nname = \"bare\"\nwithout = [\"gear\"]\n";
    let gear = "[[boat.weights]]\nid = \"gear\"\nweight = \"300 lb\"\nstation = \"3 ft\"\nheight = \"20 in\"\n\n[trailer]";
    let tow = "[tow]\nfront_axle_load = \"3000 lb\"\nrear_axle_load = \"2800 lb\"\nwheelbase = \"140 in\"\nball_overhang = \"50 in\"";
    let text = skiff().replace("[trailer]", gear).replace("[tow]", &(cases.to_string() + tow));
    let found = |more: &str| weighed(&format!("{text}{more}"));
    let plain = found(&reading("tow-rear", 3500.0, 20.0, ""));
    for (what, weight, bound, more) in [
        ("tow-rear", 3501.0, 20.0, ""),
        ("tow-rear", 3500.0, 21.0, ""),
        ("tow-front", 3500.0, 20.0, ""),
        ("tow-rear", 3500.0, 20.0, "coupled = false\n"),
        ("tow-rear", 3500.0, 20.0, "case = \"bare\"\n"),
        ("tow-rear", 3500.0, 20.0, "ball_height = \"21 in\"\n"),
        ("tow-rear", 3500.0, 20.0, "boat = \"1 in\"\n"),
    ] {
        let other = found(&reading(what, weight, bound, more));
        assert_ne!(other.readings[3].fitted, plain.readings[3].fitted, "{what} {weight} {bound} {more}");
    }
}

#[test]
fn what_stands_on_the_scale_has_its_axle() {
    assert_eq!(OnScale::Axle3.axle(), Some(2));
    assert_eq!(OnScale::Axles.axle(), None);
}
