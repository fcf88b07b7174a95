//! Source: one owner's report of a trailer of about 10 000 lb on two torsion axles: its tongue weighs about
//! 1050 lb level, and 800 to 1300 lb over 3 in of ball height either way. Quoted; good for a sign and an
//! order of magnitude, no more: neither axle spacing, rates nor heights are known.
//!
//! The rig here is a plausible one with these weights, so its change is worked by hand and not compared with the
//! report's. Half the difference between the ball raised and lowered leaves the second order out; the third,
//! `W φ³` with φ = 0.0144, is 0.03 lb, and 0.05 lb is allowed.

use crate::rigs::{assessed, axle, rig, tongue};
use approx::assert_abs_diff_eq;

fn at_ball_height(suspension: &str, height: f64) -> f64 {
    let boat = "[boat]\ncg_height = \"26 in\"\n[measured]\ngross_trailer_weight = \"10000 lb\"\ntongue_weight = \"1050 lb\"";
    let trailer = format!(
        "weight = \"2400 lb\"\ncg = \"190 in\"\nsuspension = {{ {suspension}, deflection_at_rating = \"2.3 in\", bump = \"9 in\" }}"
    );
    let axle = |station: f64| axle(station).replace("radius", "rate = \"2000 lb/in\", radius");
    let axles = [axle(190.0), axle(226.0)];
    let text = rig(boat, &trailer, &axles, &format!("[tow]\nball_height = \"{height} in\""));
    tongue(&assessed(&text, &[]))
}

/// Half of what the tongue gains from the ball 3 in lower to 3 in higher, in pounds.
fn half_gain(suspension: &str) -> f64 {
    let [low, level, high] = [17.0, 20.0, 23.0].map(|height| at_ball_height(suspension, height));
    assert_abs_diff_eq!(level, 1050.0, epsilon = 1e-6);
    (high - low) / 2.0
}

#[test]
fn raising_the_ball_loads_the_tongue_of_torsion_axles() {
    // k = 7000/2.3 lb/in in series with two tires' 4000 lb/in = 1728.395 lb/in; each axle carries 4475 lb.
    // W zc = 7600 × 30 + 2400 × 1 = 230 400 lb in, Σ S ℓ = 8950 × 6 = 53 700 lb in, Σx 416 in, Σx² 87 176 in².
    //   φ = k Δ Σx / (k Σx² − W zc − Σ S ℓ) = 2 157 037 / (150 674 568 − 284 100) = 0.014 342 9 for Δ = 3 in
    //   the axles lose k (2 Δ − φ Σx) = 1728.395 × (6 − 5.966 651) = 57.64 lb, which the tongue gains.
    assert_abs_diff_eq!(half_gain("kind = \"torsion\""), 57.64, epsilon = 0.05);
}

#[test]
fn equalizers_leave_the_heights_only_and_turn_the_sign() {
    // Both axles carry the same and pull at their mean, 208 in: what is left is the centre of gravity and the
    // hubs moving aft, nose up.
    //   S' = dS/dφ = (W zc + Σ S ℓ) / Σx = 284 100 / 416 = 682.933 lb
    //   φ = Δ / (208 − S'/k) = 3 / 207.604 88 = 0.014 450 5
    //   the tongue loses 2 S' φ = 19.74 lb.
    assert_abs_diff_eq!(
        half_gain("kind = \"leaf-equalized\", equalizer_travel = \"3 in\""),
        -19.74,
        epsilon = 0.05
    );
}
