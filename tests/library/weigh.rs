//! Weighing: readings of a scale give back the rig that they were read of.

use crate::cases::cases;
use bunkline::Rig;
use bunkline::fit::{Model, assess};
use bunkline::quantity::Quantity;
use bunkline::rig::OnScale;
use bunkline::study::weigh::{Estimate, Part, Unweighed, Weighed, weigh};
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
        assert!(!reading.is_contradicted);
    }
    let others = found.readings[0].others.expect("tongue and axles give it");
    assert!((others.value / POUND - 11_460.0).abs() < 0.01, "{others:?}");
    // √(20² + 30²)
    assert!((others.bound / POUND - 1300_f64.sqrt()).abs() < 0.01, "{others:?}");
}

/// Of the 11 442.07 lb and 1004.48 lb by hand 442.07 are past a GVWR of 11 000 and 4.48 past a tongue rating of 1000; a coupler of
/// 12 000 holds.
#[test]
fn ratings_that_were_passed_on_the_scale_are_named() {
    let ratings =
        "[trailer]\ngvwr = \"11000 lb\"\ncoupler = { rating = \"12000 lb\", tongue_rating = \"1000 lb\" }\n";
    let text = scales_alone(&three()).replace("format = 1\n", &format!("format = 1\n{ratings}"));
    let past: Vec<(String, f64)> =
        weighed(&text).past.iter().map(|past| (past.key.to_string(), past.by.si() / POUND)).collect();
    let keys: Vec<&str> = past.iter().map(|(key, _)| key.as_str()).collect();
    assert_eq!(keys, ["trailer.gvwr", "trailer.coupler.tongue_rating"]);
    assert!((past[0].1 - 442.07).abs() < 0.005 && (past[1].1 - 4.48).abs() < 0.005, "{past:?}");
    assert!(weighed(&scales_alone(&three())).past.is_empty());
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
    let named: Vec<bool> = found.readings.iter().map(|reading| reading.is_contradicted).collect();
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

const FISHING: &str = include_str!("../../demo-data/fishing-skiff.toml");

/// The one-axle skiff with readings.
fn fishing(readings: &[String]) -> Weighed {
    weighed(&(FISHING.to_string() + "\n" + &readings.concat()))
}

/// What a reading of the tongue, ± 5 lb, and one of the axles, ± 20 lb, leave of the share T/(T + A) = 235/2585:
/// √((2350 × 5)² + (235 × 20)²)/2585² = 12 655/6 682 225 = 0.189 38 %.
#[test]
fn two_readings_decide_the_share() {
    let found = fishing(&[reading("tongue", 235.0, 5.0, ""), reading("axles", 2350.0, 20.0, "")]);
    assert!(found.answers());
    let share = found.share.expect("decided");
    assert!((share.value - 235.0 / 2585.0).abs() < 1e-9);
    assert!((share.bound.expect("decided") - 0.001_893_8).abs() < 5e-8, "{share:?}");
    assert!(found.readings.iter().all(|reading| reading.others.is_none()), "nothing checks either");
}

/// By hand: the rear axle gains V (b + o)/b with b 128 and o 48 in, so V = (2360 − 2050) × 128/176 = 225.4545 lb,
/// ± √(20² + 20²) × 128/176 = 20.570.
#[test]
fn the_tow_vehicles_axle_gives_the_tongue_weight_by_difference() {
    let found = fishing(&[
        reading("tow-rear", 2050.0, 20.0, "coupled = false\n"),
        reading("tow-rear", 2360.0, 20.0, ""),
        reading("axles", 2350.0, 20.0, ""),
    ]);
    let (tongue, bound) = pounds(found.tongue);
    assert!((tongue - 225.4545).abs() < 0.001, "{tongue}");
    assert!((bound - 20.570).abs() < 0.001, "{bound}");
}

/// By hand: trailer 640, outboard 430, tackle 120 and 24 gal of gasoline at 6.1, 146.4: of 235 + 2650 lb that leaves
/// 1548.6 for the hull, ± √(5² + 20²) = 20.616. The file says 1250 ± 20: 298.6 apart, of σ ½ √(425 + 400) = 14.361.
#[test]
fn what_the_file_states_with_its_bound_can_be_contradicted() {
    let text = FISHING.replace("\"1250 lb\"", "\"1250 lb ± 20 lb\"");
    let readings = reading("tongue", 235.0, 5.0, "") + &reading("axles", 2650.0, 20.0, "");
    let found = weighed(&(text + "\n" + &readings));
    let hull = &found.found[0];
    let others = hull.others.expect("the readings give it");
    assert!((others.value / POUND - 1548.6).abs() < 0.01, "{others:?}");
    assert!((others.bound / POUND - 20.616).abs() < 0.001, "{others:?}");
    assert!((others.off + 298.6 / 14.361).abs() < 0.01, "{others:?}");
    assert!(hull.is_contradicted && !found.answers());
}

#[test]
fn readings_that_no_rig_can_show_are_refused() {
    // The trailer alone weighs 640 lb.
    let text =
        FISHING.to_string() + "\n" + &reading("tongue", 235.0, 5.0, "") + &reading("gross", 600.0, 20.0, "");
    assert!(matches!(weigh(&read(&text)), Err(Unweighed::Unsettled)));
}

#[test]
fn a_scale_too_good_to_be_true_does_no_harm() {
    let fine = "[[weighings]]\nwhat = \"tongue\"\nweight = \"235 lb ± 1e-200 lb\"\n"
        .replace("1e-200", &format!("0.{}1", "0".repeat(170)));
    let found = fishing(&[fine, reading("axles", 2350.0, 20.0, "")]);
    assert!((pounds(found.tongue).0 - 235.0).abs() < 1e-3);
    assert!(found.answers() && found.boat.height.expect("a start").bound.is_none());
}

fn keys(open: &bunkline::study::weigh::Open) -> Vec<String> {
    open.keys.iter().map(ToString::to_string).collect()
}

#[test]
fn what_is_open_is_named_with_a_reading_that_decides_it() {
    let found = fishing(&[reading("gross", 2600.0, 20.0, "")]);
    assert!(!found.answers() && found.tongue.expect("a start").bound.is_none());
    let station = found.open.iter().find(|open| keys(open) == ["boat.weights.1.station"]).expect("open");
    assert_eq!(station.resolved_by.as_ref().map(|state| state.what), Some(OnScale::Tongue));
    // Trailer and hull cannot be told apart while both stay where they are; one moved on the other can.
    let text = FISHING.replace("weight = \"640 lb\"\n", "");
    let readings = [reading("tongue", 235.0, 5.0, ""), reading("axles", 2350.0, 20.0, "")];
    let found = weighed(&(text + "\n" + &readings.concat()));
    assert!(found.answers(), "the share needs no more");
    let open = found.open.iter().find(|open| keys(open).contains(&"trailer.weight".to_string()));
    let by = open.and_then(|open| open.resolved_by.as_ref()).expect("a reading that decides it");
    assert!(by.boat.si() > 0.0, "{by:?}");
}

/// A second method: the reading that is recommended, taken, leaves the ± that was promised, and no other leaves less.
#[test]
fn the_next_reading_leaves_what_it_promises() {
    let text = skiff();
    let found = weighed(&text);
    let next = found.next.expect("a reading to take");
    let taken = |what: &str, weight: f64, bound: f64, more: &str| {
        let found = weighed(&format!("{text}\n{}", reading(what, weight, bound, more)));
        found.share.and_then(|share| share.bound).expect("decided")
    };
    let (tongue, gross) = (pounds(found.tongue).0, pounds(found.gross).0);
    assert_eq!((next.state.what, next.state.boat.si()), (OnScale::Tongue, 0.0));
    let left = taken("tongue", tongue, 10.0, "");
    // What was found moves by less than a pound, and the slopes with it.
    assert!((left / next.leaves - 1.0).abs() < 1e-3, "{left} {}", next.leaves);
    for other in [
        taken("gross", gross, 20.0, ""),
        taken("axles", gross - tongue, 20.0, ""),
        // Of the boat's 5207 lb each inch aft takes 5207/198 from the tongue.
        taken("tongue", tongue - 12.0 * 5207.0 / 198.0, 10.0, "boat = \"12 in\"\n"),
    ] {
        assert!(other > 0.9999 * left, "{other} is less than {left}");
    }
}

#[test]
fn scales_that_are_trusted_are_what_is_found() {
    let text = FISHING.to_string()
        + "\n[policy]\ntrust = \"scale\"\n[measured]\ngross_trailer_weight = \"2600 lb ± 20 lb\"\n";
    let readings = reading("tongue", 235.0, 5.0, "") + &reading("axles", 2350.0, 20.0, "");
    let found = weighed(&(text + &readings));
    // 2600 ± 20 and 2585 ± √(5² + 20²): by their weights 1/400 and 1/425.
    let by_hand = (2600.0 / 400.0 + 2585.0 / 425.0) / (1.0 / 400.0 + 1.0 / 425.0);
    assert!((pounds(found.gross).0 - by_hand).abs() < 0.01, "{by_hand}");
    assert_eq!(found.found[0].key.to_string(), "measured.gross_trailer_weight");
}

/// The one-axle skiff weighed again and again.
fn again(readings: &[(&str, f64, f64)]) -> Weighed {
    let written: Vec<String> =
        readings.iter().map(|(what, weight, bound)| reading(what, *weight, *bound, "")).collect();
    fishing(&written)
}

/// Draws of a normal distribution, by the sum of twelve even ones: near enough up to three deviations, and fewer beyond.
fn normal(state: &mut u64) -> f64 {
    let even = |_| {
        *state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (*state >> 11) as f64 / (1_u64 << 53) as f64
    };
    (0..12).map(even).sum::<f64>() - 6.0
}

/// Readings of one rig, each off by a normal draw of half its ±: three of the tongue, three of the axles, two of the gross
/// weight, which is their sum.
fn drawn(state: &mut u64) -> Vec<(&'static str, f64, f64)> {
    let (tongue, axles) = (232.0, 2354.0);
    let true_values = [("tongue", tongue, 6.0), ("axles", axles, 20.0), ("gross", tongue + axles, 30.0)];
    let each = [0, 0, 0, 1, 1, 1, 2, 2];
    let taken = each.map(|which: usize| {
        let (what, weight, bound) = true_values[which];
        (what, weight + normal(state) * bound / 2.0, bound)
    });
    taken.to_vec()
}

/// Of 100 honest sets at most 5 % are accused on average: 5, and with a chance of 99.9 % no more than 12 (5 + 3.1 times
/// √(100 × 0.05 × 0.95)). With a bound of 2 σ for each of the eight readings some 25 were.
#[test]
fn honest_sets_are_seldom_accused() {
    let mut state = 11;
    let accused = (0..100).filter(|_| again(&drawn(&mut state)).is_contradicted()).count();
    assert!(accused <= 12, "{accused} of 100");
}

/// One reading that is eight σ off is named, and hardly ever another one with it.
#[test]
fn the_reading_that_is_off_is_the_one_that_is_named() {
    let mut state = 5;
    let mut alone = 0;
    for round in 0..40 {
        let mut readings = drawn(&mut state);
        let wrong = round % readings.len();
        readings[wrong].1 += if round % 3 == 0 { -8.0 } else { 8.0 } * readings[wrong].2 / 2.0;
        let found = again(&readings);
        let named: Vec<usize> =
            (0..readings.len()).filter(|at| found.readings[*at].is_contradicted).collect();
        assert!(named.contains(&wrong), "{named:?} and not {wrong} in {readings:?}");
        alone += usize::from(named.len() == 1);
    }
    assert!(alone >= 38, "{alone} of 40");
}

/// By hand: with the readings of tongue and axles exchanged all of it lies 235/2585 of the way to the axle behind the ball, a
/// foot or so. The bow stop is at 4 ft and the bow eye 15 ft 4 in ahead of the transom, so the boat would have its centre
/// farther forward than 18 ft, ahead of her bow at 17 ft 8 in.
#[test]
fn a_centre_of_gravity_outside_the_boat_is_no_answer() {
    let found = fishing(&[reading("tongue", 2350.0, 5.0, ""), reading("axles", 235.0, 20.0, "")]);
    let [outside] = &found.outside[..] else { panic!("{:?}", found.outside) };
    assert_eq!(outside.what, Part::BoatStation);
    assert!(!outside.is_within_bound() && outside.value > outside.within[1], "{outside:?}");
    assert!(!found.answers() && !found.can_be_stated());
    let right = fishing(&[reading("tongue", 235.0, 5.0, ""), reading("axles", 2350.0, 20.0, "")]);
    assert!(right.outside.is_empty() && right.can_be_stated());
}

/// An inch of height takes 2.09 lb from the raised tongue: 1100 lb there puts the centre 77 in lower than 938.56, below the
/// keel line, and ± 14 in does not bring it back. 1000 lb puts it 29 in lower, 5 in below the keel line; that ± does.
#[test]
fn a_height_below_the_keel_is_impossible_or_a_matter_of_its_bound() {
    let raised = |weight: f64| {
        let both = reading("tongue", 1000.0, 20.0, "")
            + &reading("tongue", weight, 20.0, "ball_height = \"32 in\"\n");
        weighed(&rigid(&both).replace(" ± 60 in", ""))
    };
    let far = raised(1100.0);
    assert_eq!(far.outside.len(), 1, "{:?}", far.outside);
    assert!(far.outside[0].what == Part::BoatHeight && !far.answers());
    let near = raised(1000.0);
    assert!(near.outside[0].is_within_bound() && near.answers() && !near.can_be_stated());
}
