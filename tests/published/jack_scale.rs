//! Source: derived. A scale under the tongue jack carries the coupler's load over a shorter arm: moments
//! about the axle, frame level, give `W (x − xc) / (x − x_jack)`, more than the tongue weighs.
//!
//! Tolerance: 1e-6 lb; the moments are worked from weights and stations, not from the tongue weight.

use crate::rigs::{assessed, axle, load, rig, tongue, weight};
use approx::assert_abs_diff_eq;

fn on(axles: &[f64], jack: &str) -> String {
    // Boat 4500 lb at 300 − 118 = 182 in, trailer 1500 lb at 174 in: 6000 lb at 180 in.
    let trailer = "weight = \"1500 lb\"\ncg = \"174 in\"\nsuspension = { kind = \"leaf-equalized\" }";
    let axles: Vec<String> = axles.iter().map(|station| axle(*station)).collect();
    let trailer = format!("{trailer}\njack = {{ rating = \"2000 lb\"{jack} }}");
    rig(&weight(4500.0, 118.0), &trailer, &axles, "")
}

#[test]
fn a_jack_aft_of_the_ball_carries_more_than_the_tongue() {
    // 6000 × (200 − 180) / (200 − 30) = 705.882 lb, against 600 lb at the coupler.
    for axles in [&[200.0][..], &[183.0, 217.0], &[168.0, 200.0, 232.0]] {
        let found = assessed(&on(axles, ", station = \"30 in\""), &[]);
        assert_abs_diff_eq!(tongue(&found), 600.0, epsilon = 1e-6);
        assert_abs_diff_eq!(load(&found, "jack"), 6000.0 * 20.0 / 170.0, epsilon = 1e-6);
    }
}

#[test]
fn without_its_station_the_jack_is_only_known_to_carry_the_tongue() {
    let found = assessed(&on(&[200.0], ""), &[]);
    assert_abs_diff_eq!(load(&found, "jack"), 600.0, epsilon = 1e-6);
}
