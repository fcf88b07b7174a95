//! Source: NHTSA's static stability factor, track over twice the height of the centre of gravity. Read in
//! the source. Heavy vehicles tip some 25 % earlier than it says (SAE 2003-01-3385, read in the source),
//! which is not modelled.
//!
//! The factor is the sideways acceleration, in g, at which the lighter side just lifts. So it is checked
//! against the side to side sharing of loads, which is another formula: under that acceleration the heavier
//! side carries everything. Tolerance: 1e-12, floating-point arithmetic only.

use crate::rigs::INCH;
use approx::{assert_abs_diff_eq, assert_relative_eq};
use bunkline::mechanics::road::sides::{heavier_side, stability_factor};
use bunkline::quantity::{Length, Quantity};

fn inches(number: f64) -> Length {
    Length::from_si(number * INCH)
}

#[test]
fn a_wide_low_rig_has_a_high_factor() {
    // Worked by hand: an 86 in track over twice 43 in is 1, and over twice 53.75 in 0.8.
    assert_relative_eq!(stability_factor(inches(86.0), inches(43.0)).si(), 1.0, max_relative = 1e-12);
    assert_relative_eq!(stability_factor(inches(86.0), inches(53.75)).si(), 0.8, max_relative = 1e-12);
}

#[test]
fn at_the_factor_the_lighter_side_just_lifts() {
    for (track, height) in [(86.0, 43.0), (79.0, 55.0), (92.0, 38.5)] {
        let factor = stability_factor(inches(track), inches(height)).si();
        // An acceleration of so many g moves the line of the resultant sideways by that share of the
        // height.
        let carried = |g: f64| heavier_side(inches(g * height), inches(track)).si();
        assert_abs_diff_eq!(carried(factor), 1.0, epsilon = 1e-12);
        assert!(carried(0.99 * factor) < 1.0 && carried(1.01 * factor) > 1.0);
    }
}
