//! Source: the owners' way to weigh a boat on its trailer: slide it by `X`, read the tongue before and
//! after, `W_boat = C (W1 − W2) / X`, `C` from ball to axle. Quoted; derived: moments about the axle, frame
//! level.
//!
//! Tolerance: 1e-6 lb where it holds exactly; where the frame pitches, the second order of the pitch.

use crate::rigs::{assessed, axle, rig, tongue, weight};
use approx::assert_abs_diff_eq;

const BOAT: f64 = 5000.0;
const SLIDE: f64 = 3.0;

fn on(boat_station: f64, axles: &[f64]) -> String {
    let trailer = "weight = \"1500 lb\"\ncg = \"175 in\"\nsuspension = { kind = \"leaf-equalized\" }";
    let axles: Vec<String> = axles.iter().map(|station| axle(*station)).collect();
    rig(&weight(BOAT, boat_station), trailer, &axles, "")
}

fn boat_weight(lever: f64, before: f64, after: f64) -> f64 {
    lever * (before - after) / SLIDE
}

#[test]
fn sliding_the_boat_with_the_frame_kept_level_weighs_it() {
    // The coupler is set to where the frame is level at each reading: two rigs, each measured level.
    for axles in [&[200.0][..], &[183.0, 217.0], &[168.0, 200.0, 232.0]] {
        let before = tongue(&assessed(&on(120.0, axles), &[]));
        let after = tongue(&assessed(&on(120.0 - SLIDE, axles), &[]));
        assert_abs_diff_eq!(boat_weight(200.0, before, after), BOAT, epsilon = 1e-6);
    }
}

#[test]
fn sliding_it_with_the_coupler_held_reads_too_much() {
    // The springs take the slide as pitch, which carries the centre of gravity and the hub aft, too. To
    // first order in pitch the reading is BOAT / (1 − (W zc + N ℓ) / (k x²)), moments about the ball:
    //   W zc = 5000 × 30 + 1500 × 1 = 151 500 lb in       (26 in over a keel 4 in up; the trailer 1 in up)
    //   W xc = 5000 × 180 + 1500 × 175 = 1 162 500 lb in, N = 1 162 500 / 200 = 5812.5 lb, ℓ = 20 − 14 = 6 in
    //   k: 7000 / 2.25 lb/in in series with 2 × 2000 lb/in = 1750 lb/in, k x² = 70 000 000 lb in
    // so it reads 5000 / (1 − 186 375 / 70 000 000) = 5013.35 lb. The pitch is 75 / (1750 × 200) = 2e-4:
    // the second order is some 2e-4 of the difference, far below the 0.05 lb allowed.
    let text = on(120.0, &[200.0]);
    let before = tongue(&assessed(&text, &[]));
    let after = tongue(&assessed(&text, &["shift.boat=3in"]));
    assert_abs_diff_eq!(boat_weight(200.0, before, after), 5013.35, epsilon = 0.05);
}

#[test]
fn the_lever_is_to_the_axles_mean_not_to_the_front_axle() {
    let axles = &[183.0, 217.0];
    let before = tongue(&assessed(&on(120.0, axles), &[]));
    let after = tongue(&assessed(&on(120.0 - SLIDE, axles), &[]));
    // 183/200 of the boat: 425 lb short.
    assert_abs_diff_eq!(boat_weight(183.0, before, after), BOAT - 425.0, epsilon = 1e-6);
}
