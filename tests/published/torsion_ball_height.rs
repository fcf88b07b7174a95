//! Source: one owner's report of a trailer of about 10 000 lb on two torsion axles: its tongue weighs about
//! 1050 lb level, and 800 to 1300 lb over 3 in of ball height either way. Quoted; good for a sign and an
//! order of magnitude, no more.
//!
//! Neither axle spacing, rates nor heights are known, so the rig here is a plausible one. Compared are the
//! sign of the change, that it goes both ways, and its size within a factor of ten of 250 lb for 3 in.

use crate::rigs::{assessed, axle, rig, tongue};
use approx::assert_abs_diff_eq;

fn at_ball_height(kind: &str, height: f64) -> f64 {
    let boat = "[boat]\ncg_height = \"26 in\"\n[measured]\ngross_trailer_weight = \"10000 lb\"\ntongue_weight = \"1050 lb\"";
    let trailer = format!("weight = \"2400 lb\"\ncg = \"190 in\"\nsuspension = {{ kind = \"{kind}\" }}");
    let axles = [axle(190.0), axle(226.0)];
    let text = rig(boat, &trailer, &axles, &format!("[tow]\nball_height = \"{height} in\""));
    tongue(&assessed(&text, &[]))
}

#[test]
fn raising_the_ball_loads_the_tongue_of_torsion_axles() {
    let [low, level, high] = [17.0, 20.0, 23.0].map(|height| at_ball_height("torsion", height));
    assert_abs_diff_eq!(level, 1050.0, epsilon = 1e-6);
    assert!(low < level && level < high, "{low} {level} {high}");
    for change in [level - low, high - level] {
        assert!((25.0..2500.0).contains(&change), "{low} {level} {high}");
    }
}

#[test]
fn equalizers_take_most_of_it_away() {
    // Within their travel both axles carry the same and pull at their mean: only the heights of the centre
    // of gravity and of the hubs are left, and they work the other way, nose up moving the centre aft over
    // the axles.
    let [low, level, high] = [17.0, 20.0, 23.0].map(|height| at_ball_height("leaf-equalized", height));
    assert!(low > level && level > high, "{low} {level} {high}");
}
