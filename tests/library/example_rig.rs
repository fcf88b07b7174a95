//! The launch Copper Kettle on her three axles: every figure of the report against one worked by hand.
//!
//! # Worked by hand, case 1
//!
//! The transom lies 70 + 284 = 354 in behind the ball, the keel 23 − 21 = 2 in above the frame line.
//!
//! | | lb | in behind ball | lb in | in above frame | lb in |
//! |---|---|---|---|---|---|
//! | hull | 7150 | 354 − 122 = 232 | 1 658 800 | 34 | 243 100 |
//! | ice | 260 | 354 − 66 = 288 | 74 880 | 28 | 7280 |
//! | fuel, 130 gal of 7.1 lb | 923 | 354 − 100 = 254 | 234 442 | 22 | 20 306 |
//! | boat | 8333 | | 1 968 122 | | 270 686 |
//! | trailer, 255 (1 − 310/3050) | 3050 | 229.082 | 698 700 | 2 | 6100 |
//! | together | 11 383 | 234.281 | 2 666 822 | 24.316 | 276 786 |
//!
//! The axles stand at 221, 255 and 289 in, mean 255 in. The case is the reference and the ball at level
//! height, so the frame is level and the three alike axles share equally: N = 2 666 822 / 765 = 3486.042
//! lb, V = 11 383 − 3 N = 924.875 lb. These are exact statics: tolerance 0.001 lb and in, the rounding of
//! what is written here.

use approx::assert_abs_diff_eq;
use bunkline::Rig;
use bunkline::fit::{Caution, examine};
use bunkline::quantity::show::UnitSystem;
use bunkline::report::{Subject, json};
use serde_json::Value;

const COPPER_KETTLE: &str = include_str!("../rigs/copper-kettle.toml");

/// Where exact statics apply: the rounding of the figures worked by hand.
const EXACT: f64 = 0.001;

/// Each spring: 6000 lb over 2.25 in is 2666.67 lb/in, in series with two tires of 2000 lb/in: 1600 lb/in.
const RATE: f64 = 1600.0;
/// Reference load of each axle.
const REFERENCE: f64 = 2_666_822.0 / 765.0;
/// Hubs below the frame line: 21 in less 14.4 in given, and less 0.94 (8 + 235 × 0.8 / 25.4) in from the
/// size.
const HUBS: [f64; 3] = [6.6, 6.5225, 6.5225];
const STATIONS: [f64; 3] = [221.0, 255.0, 289.0];

fn report(changes: &[&str]) -> Value {
    let rig = Rig::read("copper-kettle.toml", COPPER_KETTLE, changes).expect("the example is valid");
    let findings = examine(&rig).expect("the trailer rests on its wheels");
    let subject = Subject {
        path: "copper-kettle.toml",
        rig: &rig,
        findings: &findings,
        uncertainty: None,
        as_stated: false,
        units: UnitSystem::Us,
    };
    serde_json::from_str(&json::report(&subject).expect("a report")).expect("JSON")
}

fn number(value: &Value, pointer: &str) -> f64 {
    value.pointer(pointer).and_then(Value::as_f64).unwrap_or_else(|| panic!("no number at {pointer}"))
}

fn check<'a>(report: &'a Value, id: &str) -> &'a Value {
    let checks = report["checks"].as_array().expect("checks");
    checks.iter().find(|check| check["id"] == id).unwrap_or_else(|| panic!("no check {id}"))
}

/// Load of each axle, and the tongue weight, when equal axles carry a body of weight `w` and moments `wx`,
/// `wz` about the ball with the coupler held: to first order in the pitch φ.
///
/// `N = N0 + k φ x̄`, and moments about the ball, `N (Σx − φ Σℓ) = W xc + W zc φ`, give φ.
fn pitched(w: f64, wx: f64, wz: f64, axles: usize) -> (f64, f64) {
    let x: f64 = STATIONS[..axles].iter().sum();
    let l: f64 = HUBS[..axles].iter().sum();
    let mean = x / axles as f64;
    let pitch = (wx - REFERENCE * x) / (RATE * x * mean - REFERENCE * l - wz);
    let load = REFERENCE + RATE * pitch * mean;
    (load, w - load * axles as f64)
}

#[test]
fn weights_and_balance_of_the_reference_are_exact() {
    let report = report(&[]);
    let case = &report["cases"][0];
    assert_eq!(case["name"], "leaving home, tanks full");
    assert_abs_diff_eq!(number(case, "/boat_weight"), 8333.0, epsilon = EXACT);
    assert_abs_diff_eq!(number(case, "/gross_trailer_weight"), 11_383.0, epsilon = EXACT);
    assert_abs_diff_eq!(number(case, "/cg/x"), 234.281, epsilon = EXACT);
    assert_abs_diff_eq!(number(case, "/cg/z"), 24.316, epsilon = EXACT);
    assert_abs_diff_eq!(number(case, "/cg/y"), 0.0, epsilon = 1e-12);
    assert_abs_diff_eq!(number(case, "/pitch"), 0.0, epsilon = 1e-9);
    assert_abs_diff_eq!(number(case, "/tongue_weight"), 924.875, epsilon = EXACT);
    // 924.875 / 11 383
    assert_abs_diff_eq!(number(case, "/tongue_share"), 0.081_250_5, epsilon = 1e-6);
    for axle in 0..3 {
        assert_abs_diff_eq!(number(case, &format!("/axles/{axle}/load")), 3486.042, epsilon = EXACT);
        assert_abs_diff_eq!(number(case, &format!("/axles/{axle}/tire_load")), 1743.021, epsilon = EXACT);
    }
}

#[test]
fn the_tow_vehicle_carries_the_tongue_on_its_lever() {
    // R = 3700 + 924.875 (172 + 51) / 172 = 4899.111 lb, F = 4650 − 924.875 × 51 / 172 = 4375.764 lb, and
    // 4650 + 3700 + 11 383 = 19 733 lb together.
    let report = report(&[]);
    let tow = &report["cases"][0]["tow"];
    assert_abs_diff_eq!(number(tow, "/rear_axle"), 4899.111, epsilon = EXACT);
    assert_abs_diff_eq!(number(tow, "/front_axle"), 4375.764, epsilon = EXACT);
    assert_abs_diff_eq!(number(tow, "/gross_combination"), 19_733.0, epsilon = EXACT);
    assert_abs_diff_eq!(number(check(&report, "tow-front-axle"), "/load"), 4375.764, epsilon = EXACT);
}

#[test]
fn with_the_rear_axle_lifted_two_axles_carry_it_all() {
    // Level they would carry 2 666 822 / 476 = 5602.57 lb each; but they are pressed down 1.32 in and the
    // frame's tail sinks: to first order in the pitch of 0.32° 5606.34 lb, leaving 170.32 lb on the tongue.
    // Second order: half the square of the pitch, 1.6e-5, of the loads, and as much again from the levers.
    // 0.3 lb an axle and 0.6 lb on the tongue allow for it; the first order itself is 3.8 lb an axle.
    // The figures by hand are rounded to two places.
    let (load, tongue) = pitched(11_383.0, 2_666_822.0, 276_786.0, 2);
    assert_abs_diff_eq!(load, 5606.34, epsilon = 0.01);
    assert_abs_diff_eq!(tongue, 170.32, epsilon = 0.01);
    let report = report(&[]);
    let lifted = &report["cases"][0]["lifted_axle"];
    assert_eq!(lifted["axles"].as_array().map(Vec::len), Some(2));
    for axle in 0..2 {
        assert_abs_diff_eq!(number(lifted, &format!("/axles/{axle}/load")), load, epsilon = 0.3);
        assert_abs_diff_eq!(number(lifted, &format!("/axles/{axle}/tire_load")), load / 2.0, epsilon = 0.15);
    }
    assert_abs_diff_eq!(number(lifted, "/tongue_weight"), tongue, epsilon = 0.6);
    // 6000 − 5606 lb is less than a tenth of 6000 lb: thin, and only advice by the file's policy.
    let row = check(&report, "lifted-axle-1");
    assert_eq!((&row["verdict"], &row["counts"]), (&Value::from("thin"), &Value::from(false)));
}

#[test]
fn coming_home_the_frame_noses_down_a_little() {
    // A quarter of the fuel, 230.75 lb, no ice: 7380.75 lb of boat, 10 430.75 lb gross; W xc = 1 658 800 +
    // 230.75 × 254 + 698 700 = 2 416 110.5 lb in, W zc = 243 100 + 230.75 × 22 + 6100 = 254 276.5 lb in.
    // First order in the pitch of −0.046°: 3157.975 lb an axle, 956.825 lb on the tongue, where a level
    // frame would give 955.805 lb. The second order is 3e-7 of the loads and of the levers: 0.03 lb is
    // ample.
    let (load, tongue) = pitched(10_430.75, 2_416_110.5, 254_276.5, 3);
    assert_abs_diff_eq!(tongue, 956.825, epsilon = EXACT);
    let report = report(&[]);
    let case = &report["cases"][1];
    assert_abs_diff_eq!(number(case, "/boat_weight"), 7380.75, epsilon = EXACT);
    assert_abs_diff_eq!(number(case, "/cg/x"), 2_416_110.5 / 10_430.75, epsilon = EXACT);
    assert_abs_diff_eq!(number(case, "/tongue_weight"), tongue, epsilon = 0.03);
    for axle in 0..3 {
        assert_abs_diff_eq!(number(case, &format!("/axles/{axle}/load")), load, epsilon = 0.01);
    }
}

#[test]
fn each_check_is_governed_by_its_worst_case() {
    let report = report(&[]);
    let governing = |id: &str| check(&report, id)["case"].as_str().map(str::to_string);
    let (first, second) = (Some("leaving home, tanks full".into()), Some("coming home, tanks low".into()));
    // Case 1 weighs more; case 2 presses more on the tongue, and with it on the tow vehicle.
    for id in ["trailer-gvwr", "axle-2", "tire-3", "coupler", "tow-gcwr", "lifted-axle-1", "tow-front-axle"] {
        assert_eq!(governing(id), first, "{id}");
    }
    for id in ["receiver-tongue", "tow-gvwr", "tow-rear-axle", "jack", "lifted-tongue"] {
        assert_eq!(governing(id), second, "{id}");
    }
    // 0.0113 above the band's lower end in case 1, 0.0217 in case 2.
    assert_eq!(governing("tongue-share"), first);
    assert_abs_diff_eq!(number(check(&report, "tongue-share"), "/margin"), 0.011_250_5, epsilon = 1e-6);
    assert_eq!(governing("ball-size"), None);
}

#[test]
fn the_jack_lifts_more_than_the_tongue_weighs() {
    // 956.825 × 255 / (255 − 30) = 1084.40 lb in case 2; 0.03 lb on the tongue is 0.034 lb here.
    assert_abs_diff_eq!(number(check(&report(&[]), "jack"), "/load"), 1084.40, epsilon = 0.04);
    // 924.875 × 255 / 225 = 1048.19 lb in case 1 alone, exactly.
    let alone = report(&["cases.2.fill.fuel=100%", "cases.2.without=[]"]);
    assert_abs_diff_eq!(number(check(&alone, "jack"), "/load"), 1048.191, epsilon = EXACT);
}

#[test]
fn limits_are_those_of_the_file() {
    let report = report(&[]);
    // Two tires of 3420 lb, wheels of more.
    assert_abs_diff_eq!(number(check(&report, "axle-tires-2"), "/limits/max"), 6840.0, epsilon = EXACT);
    assert_abs_diff_eq!(number(check(&report, "axle-tires-2"), "/load"), 6000.0, epsilon = EXACT);
    // The least tongue rating is the ball mount's.
    assert_abs_diff_eq!(number(check(&report, "lifted-tongue"), "/limits/max"), 1600.0, epsilon = EXACT);
    // Keel 23 in and bow eye 34 in over it, 2 in either way; the bow stop stands at 56 in.
    let bow = check(&report, "bow-stop-height");
    assert_abs_diff_eq!(number(bow, "/limits/min"), 55.0, epsilon = EXACT);
    assert_abs_diff_eq!(number(bow, "/limits/max"), 59.0, epsilon = EXACT);
    assert_abs_diff_eq!(number(bow, "/used"), 0.5, epsilon = EXACT);
}

#[test]
fn two_spring_ratings_are_wanting_and_rows_over_a_ramp() {
    let report = report(&[]);
    // The policy counts rows over ramps, and there is no ramp.
    assert_eq!(report["verdict"], "incomplete");
    let checks = report["checks"].as_array().expect("checks");
    let unmade: Vec<&str> =
        checks.iter().filter(|c| c["verdict"] == "not-checked").filter_map(|c| c["id"].as_str()).collect();
    assert_eq!(
        unmade,
        [
            "spring-2",
            "spring-3",
            "tire-speed-1",
            "tire-speed-2",
            "tire-speed-3",
            "tire-age-1",
            "tire-age-2",
            "tire-age-3",
            "tire-fender-1",
            "tire-fender-2",
            "tire-fender-3",
            "cross-slope-tire-1",
            "cross-slope-tire-2",
            "cross-slope-tire-3",
            "curve-tip",
            "wind-tip",
            "safety-chains",
            "ramp-clearance-low-points",
            "ramp-bow-clearance",
            "clearance-fender"
        ]
    );
    assert_eq!(check(&report, "spring-2")["missing"][0], "trailer.axles.2.spring_rating");
    let assumed = report["assumed"].as_array().expect("assumed");
    let keys: Vec<&str> = assumed.iter().filter_map(|a| a["key"].as_str()).collect();
    assert_eq!(
        keys,
        [
            "boat.tanks.fuel.density",
            "trailer.axles.all.tires.kind",
            "trailer.axles.2.tires.radius",
            "trailer.axles.3.tires.radius",
            "trailer.axles.2.tires.rate",
            "trailer.axles.3.tires.rate",
            "trailer.axles.all.tires.pressure_max",
            "trailer.axles.all.tires.pressure_exponent",
        ]
    );
}

#[test]
fn the_scales_disagree_by_what_the_items_lack() {
    // 11 383 − 11 420 = −37 lb; the scales' centre lies at 255 (1 − 1010/11 420) = 232.4475 in, 1.8336 in
    // ahead of the items'.
    let rig = Rig::read("copper-kettle.toml", COPPER_KETTLE, &[] as &[&str]).expect("the example is valid");
    let cautions = examine(&rig).expect("the trailer rests on its wheels").cautions;
    let differ = cautions.iter().find_map(|caution| match caution {
        Caution::ScalesDiffer { weight, aft, .. } => Some((*weight, *aft)),
        _ => None,
    });
    let (weight, aft) = differ.expect("items and scales differ");
    assert_abs_diff_eq!(UnitSystem::Us.weight_number(weight), -37.0, epsilon = EXACT);
    assert_abs_diff_eq!(UnitSystem::Us.length_number(aft), 1.8336, epsilon = EXACT);
}

#[test]
fn without_its_items_the_boat_is_what_the_scales_say() {
    // The items taken out of the file: 11 420 lb and 1010 lb on the tongue come back in the first case,
    // whatever the fuel.
    let start = COPPER_KETTLE.find("[[boat.weights]]").expect("items");
    let end = COPPER_KETTLE.find("[[boat.tanks]]").expect("tanks");
    let text = format!("{}{}", &COPPER_KETTLE[..start], &COPPER_KETTLE[end..])
        .replace("bow_eye =", "cg_height = \"32 in\"\nbow_eye =")
        .replace("without = [\"ice\"]", "");
    let rig = Rig::read("copper-kettle.toml", &text, &[] as &[&str]).expect("a valid rig");
    let findings = examine(&rig).expect("a trailer at rest");
    let subject = Subject {
        path: "copper-kettle.toml",
        rig: &rig,
        findings: &findings,
        uncertainty: None,
        as_stated: false,
        units: UnitSystem::Us,
    };
    let report: Value = serde_json::from_str(&json::report(&subject).expect("a report")).expect("JSON");
    let case = &report["cases"][0];
    assert_abs_diff_eq!(number(case, "/gross_trailer_weight"), 11_420.0, epsilon = 1e-6);
    assert_abs_diff_eq!(number(case, "/tongue_weight"), 1010.0, epsilon = 1e-6);
    assert_abs_diff_eq!(number(case, "/cg/x"), 255.0 * (1.0 - 1010.0 / 11_420.0), epsilon = 1e-9);
    // Three quarters of the fuel burnt: 692.25 lb less.
    assert_abs_diff_eq!(number(&report["cases"][1], "/gross_trailer_weight"), 10_727.75, epsilon = 1e-6);
}
