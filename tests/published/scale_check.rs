//! Source: US boat owners' association, trailering article, 2012: the tow vehicle weighs 4600 lb hitched
//! and 4200 lb alone, so the tongue weighs 400 lb. Read in the source.
//!
//! Tolerance: 1e-6 lb; it is one subtraction, only rounded by floating-point arithmetic.

use crate::rigs::{POUND, assessed, axle, load, rig, tongue, weight};
use approx::assert_abs_diff_eq;
use bunkline::quantity::Quantity;

/// 4000 lb whose centre lies 180 in behind the ball, on one axle at 200 in: 400 lb on the tongue.
fn hitched(overhang: &str) -> String {
    // Boat 3000 lb at 300 − 115 = 185 in, trailer 1000 lb at 165 in: (555 000 + 165 000) / 4000 = 180 in.
    let trailer = "weight = \"1000 lb\"\ncg = \"165 in\"\nsuspension = { kind = \"torsion\" }";
    let tow = format!(
        "[tow]\nfront_axle_load = \"2200 lb\"\nrear_axle_load = \"2000 lb\"\nwheelbase = \"120 in\"\nball_overhang = \"{overhang}\"\ngvwr = \"6000 lb\""
    );
    rig(&weight(3000.0, 115.0), trailer, &[axle(200.0)], &tow)
}

#[test]
fn the_tow_vehicle_weighs_more_by_the_tongue_weight() {
    for overhang in ["30 in", "48 in"] {
        let found = assessed(&hitched(overhang), &[]);
        assert_abs_diff_eq!(tongue(&found), 400.0, epsilon = 1e-6);
        assert_abs_diff_eq!(load(&found, "tow-gvwr"), 4600.0, epsilon = 1e-6);
    }
}

#[test]
fn the_rear_axle_alone_gains_more_than_the_tongue_weight() {
    // Derived: 400 (120 + 48) / 120 = 560 lb on the rear axle, 160 lb off the front one. Reading the tongue
    // weight off the rear axle's scale would be wrong.
    let found = assessed(&hitched("48 in"), &[]);
    let tow = found.cases[0].tow.as_ref().expect("a tow vehicle");
    assert_abs_diff_eq!(tow.rear.si() / POUND, 2000.0 + 560.0, epsilon = 1e-6);
    assert_abs_diff_eq!(tow.front.si() / POUND, 2200.0 - 160.0, epsilon = 1e-6);
}
