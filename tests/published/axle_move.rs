//! How far to move an axle to bring the tongue to a tenth of the gross weight: T = 1025 lb on the tongue,
//! W = 8225 lb, D = 264 in from ball to axle. Source: common practice, no source for the figures; the trade's
//! shortcut is `X = D (t − 0.1)` with `t = T / W`, 6.50 in. Derived: the shortcut is wrong. The rig's centre
//! of gravity, at `D (1 − t)`, stays where it is, so the axle belongs at `D (1 − t) / 0.9`, which is
//! `X = D (t − 0.1) / 0.9`, 7.22 in.
//!
//! The derived rule holds exactly for one axle, with the frame level before and after, and with the axle's own
//! weight left out. Tolerances: 0.005 in is half of the last digit of the figures above; 1e-6 lb where exact.

use crate::rigs::{INCH, assessed, axle, centre, rig, row, tongue, weight};
use approx::assert_abs_diff_eq;
use bunkline::Rig;
use bunkline::fit::{Caution, Side, examine};
use bunkline::quantity::{Length, Quantity};
use bunkline::study::place::{Closer, Options, Part, place};

const W: f64 = 8225.0;
const T: f64 = 1025.0;
const D: f64 = 264.0;

/// How far forward the axle must go: 264 × 0.024 620 / 0.9 = 7.2219 in.
const DERIVED: f64 = 7.22;
/// How far the trade's shortcut moves it: 264 × 0.024 620 = 6.4997 in.
const SHORTCUT: f64 = 6.50;

fn by_rule() -> f64 {
    D * (T / W - 0.1) / 0.9
}

/// A rig of 8225 lb whose tongue weighs 1025 lb with the axle at 264 in.
fn with_axle(station: f64, axle_weight: &str) -> String {
    // The centre lies at 264 (1 − 1025/8225) = 1 900 800 / 8225 = 231.1 in. Trailer 1725 lb at 240 in, 414
    // 000 lb in, leaves 1 486 800 lb in for 6500 lb of boat: 228.738 in behind the ball, 71.2615… = 300 −
    // 14868/65 in before the transom.
    let trailer = "weight = \"1725 lb\"\ncg = \"240 in\"\nsuspension = { kind = \"torsion\" }";
    let boat = weight(6500.0, 300.0 - 14868.0 / 65.0);
    rig(&boat, trailer, &[axle(station) + "\n" + axle_weight], "")
}

#[test]
fn the_share_is_a_tenth_at_the_derived_distance_and_not_at_the_shortcuts() {
    // Found through the rig, not the rule: the axle stations at which its share is a tenth.
    let share = |station: f64| {
        row(&assessed(&with_axle(station, ""), &[]), "tongue-share").load.expect("a share").si()
    };
    let (mut low, mut high) = (D - 20.0, D);
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        if share(middle) < 0.1 { low = middle } else { high = middle }
    }
    assert_abs_diff_eq!(D - low, DERIVED, epsilon = 0.005);
    assert_abs_diff_eq!(D - low, by_rule(), epsilon = 1e-9);
    // The shortcut leaves too much on the tongue: 1 − 231.1003 / (264 − 6.50) = 10.252 %.
    assert_abs_diff_eq!(share(D - SHORTCUT), 0.10252, epsilon = 5e-6);
}

#[test]
fn the_tongue_weighs_1025_pounds_before_and_a_tenth_after() {
    assert_abs_diff_eq!(tongue(&assessed(&with_axle(D, ""), &[])), T, epsilon = 1e-6);
    // The axle moved and the coupler set so that the frame is level again.
    assert_abs_diff_eq!(tongue(&assessed(&with_axle(D - by_rule(), ""), &[])), W / 10.0, epsilon = 1e-6);
}

#[test]
fn with_the_coupler_held_the_frame_pitches_and_the_tongue_lightens_a_little_more() {
    // The springs are as before, so the nose rises. To first order in the pitch φ, moments about the ball,
    // with x = 264 − 7.2219 = 256.7781 in, N0 = 7200 lb before and A = 0.9 × 8225 = 7402.5 lb by the rule:
    //   k: 7000/2.3 lb/in in series with 4000 lb/in = 1728.40 lb/in
    //   W zc = 6500 × 30 + 1725 × 1 = 196 725 lb in, N ℓ = 7402.5 × 6 = 44 415 lb in
    //   B = (196 725 + 44 415) / (1728.40 × 256.7781²) = 0.002 115 97
    //   N = (A − B N0) / (1 − B) = 7402.929 lb, so the tongue carries 822.071 lb.
    // Second order: φ is 4.6e-4, its square 2e-7 of the weight: 0.002 lb; allowed 0.01 lb.
    let change = format!("shift.axles=-{} in", by_rule());
    let found = assessed(&with_axle(D, ""), &[&change]);
    assert_abs_diff_eq!(tongue(&found), 822.071, epsilon = 0.01);
    // Without the axle's weight the centre stays where it was.
    assert_abs_diff_eq!(centre(&found), D * (1.0 - T / W), epsilon = 1e-9);
}

#[test]
fn an_axle_of_known_weight_takes_the_centre_along() {
    // A 500 lb axle moved forward by X carries the centre forward by X 500/8225, so a tenth needs X = D (t
    // − 0.1) / (0.9 − 500/8225) = 7.745 in. Stated on the centre, which no pitch disturbs: it must then lie
    // at nine tenths of the axle's station.
    let moved = D * (T / W - 0.1) / (0.9 - 500.0 / W);
    let text = with_axle(D, "weight = \"500 lb\"");
    let change = format!("shift.axles=-{moved} in");
    let found = assessed(&text, &[&change]);
    assert_abs_diff_eq!(centre(&found), 0.9 * (D - moved), epsilon = 1e-9);
    // The rule's own distance is then too short.
    let found = assessed(&text, &[&format!("shift.axles=-{} in", by_rule())]);
    assert!(centre(&found) < 0.9 * (D - by_rule()) - 0.4);
}

#[test]
fn a_report_says_that_an_axle_of_unknown_weight_leaves_the_centre() {
    let cautions = |axle_weight: &str| {
        let rig = Rig::read("case.toml", &with_axle(D, axle_weight), &["shift.axles=-7in"]).expect("a rig");
        examine(&rig).expect("a trailer at rest").cautions
    };
    assert!(cautions("").contains(&Caution::AxleWeightStays));
    assert!(!cautions("weight = \"500 lb\"").contains(&Caution::AxleWeightStays));
}

/// How far forward the axle may go with the tongue at a tenth or more, by the search for its place, in inches.
fn farthest_forward(text: &str) -> f64 {
    // Rated for what the axle carries at a tenth; the share may not fall below that.
    let text =
        text.replace("7000 lb", "8000 lb") + "[policy]\ntongue_share = { min = \"10 %\", max = \"15 %\" }\n";
    let rig = Rig::read("case.toml", &text, &[] as &[&str]).expect("a rig");
    let options = Options { ramps: false, grains: [Length::from_si(INCH / 16.0); 2] };
    let placing = place(&rig, Part::Axles, &options).expect("a trailer at rest");
    let [window] = placing.windows[..] else { panic!("{:?}", placing.windows) };
    let Closer::Limit(limit) = window.closed_by[0] else { panic!("{:?}", window.closed_by) };
    let limit = &placing.held[limit].limit;
    assert_eq!((limit.id(), limit.side), ("tongue-share".to_string(), Side::Min));
    -window.interval.from.si() / INCH
}

#[test]
fn the_search_for_the_axles_place_ends_at_the_derived_distance() {
    // Springs and tires a thousand times as stiff keep the frame level, as the rule has it: the pitch that is
    // left takes a thousandth of the 0.014 in of the next test. 0.005 in as above, 1e-4 in against the rule.
    let stiff = with_axle(D, "")
        .replace("kind = \"torsion\"", "kind = \"torsion\", deflection_at_rating = \"0.0023 in\"")
        .replace("radius = \"14 in\"", "radius = \"14 in\", rate = \"2000000 lb/in\"");
    assert_abs_diff_eq!(farthest_forward(&stiff), DERIVED, epsilon = 0.005);
    assert_abs_diff_eq!(farthest_forward(&stiff), by_rule(), epsilon = 1e-4);
}

#[test]
fn with_the_coupler_held_the_search_stops_a_little_before_the_rule() {
    // The frame pitches as above; here for springs rated 8000 lb: 8000/2.3 lb/in in series with 4000 lb/in is
    // k = 1860.47 lb/in. At a tenth N = 7402.5 lb, and N = (A − B N0) / (1 − B) with A = W xc / x gives
    //   x ≈ 256.79 in: B = (196 725 + 44 415) / (1860.47 × 256.79²) = 0.001 965 6
    //   A = 7402.5 − B (7402.5 − 7200) = 7402.1020 lb, x = 1 900 800 / 7402.1020 = 256.7919 in
    //   264 − 256.7919 = 7.2081 in
    // Second order, 0.002 lb of axle load as above, is 1e-4 in; allowed 5e-4 in.
    assert_abs_diff_eq!(farthest_forward(&with_axle(D, "")), 7.2081, epsilon = 5e-4);
}
