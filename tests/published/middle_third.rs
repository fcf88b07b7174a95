//! The middle third of an elastic bed.
//!
//! Source: the kern of a rectangle, any text on the strength of materials: a load within the middle third presses
//! all along, at its edge one end bears nothing and the other twice the mean, and past it a triangle three times as
//! long as the load's distance from the edge bears.

use approx::{assert_abs_diff_eq, assert_relative_eq};
use bunkline::mechanics::bunks::{Bed, Stretch, press};
use bunkline::quantity::{Length, Quantity, Weight};

const WEIGHT: f64 = 30e3;
const LENGTH: f64 = 3.6;
/// Rounding of a dozen operations.
const EXACT: f64 = 1e-12;

fn pressed(eccentricity: f64) -> Option<Bed> {
    let contact = Stretch { forward: Length::from_si(5.0), aft: Length::from_si(5.0 + LENGTH) };
    press(Weight::from_si(WEIGHT), Length::from_si(5.0 + LENGTH / 2.0 + eccentricity), contact)
}

#[test]
fn the_ends_of_the_bed_follow_the_load() {
    let mean = WEIGHT / LENGTH;
    // e / L, and the ends' loads over the mean: forward, aft.
    for (e, forward, aft) in [
        (0.0, 1.0, 1.0),
        (1.0 / 12.0, 0.5, 1.5),
        (1.0 / 6.0, 0.0, 2.0),
        (-1.0 / 6.0, 2.0, 0.0),
        // A quarter off: 3/4 of the length bears, its peak 8/3 of the mean.
        (0.25, 0.0, 8.0 / 3.0),
        (-0.25, 8.0 / 3.0, 0.0),
        // A third off: half of it bears, at four times the mean.
        (1.0 / 3.0, 0.0, 4.0),
    ] {
        let bed = pressed(e * LENGTH).expect("it lies on the bed");
        assert_abs_diff_eq!(bed.forward.si() / mean, forward, epsilon = EXACT * 10.0);
        assert_abs_diff_eq!(bed.aft.si() / mean, aft, epsilon = EXACT * 10.0);
    }
}

#[test]
fn the_bed_balances_the_load_and_its_moment() {
    for step in -48..=48 {
        let e = LENGTH / 2.0 * f64::from(step) / 50.0;
        let bed = pressed(e).expect("it lies on the bed");
        let (from, to) = (bed.bearing.forward.si(), bed.bearing.aft.si());
        let (a, b) = (bed.forward.si(), bed.aft.si());
        let length = to - from;
        // A trapezium: its area, and the distance of its middle from its forward end.
        let area = length * (a + b) / 2.0;
        let middle = from + length * (a + 2.0 * b) / (3.0 * (a + b));
        assert_relative_eq!(area, WEIGHT, max_relative = EXACT * 100.0);
        assert_abs_diff_eq!(middle, 5.0 + LENGTH / 2.0 + e, epsilon = EXACT * 100.0);
    }
}

#[test]
fn a_load_off_the_bed_tips() {
    assert!(pressed(LENGTH / 2.0).is_none());
    assert!(pressed(-LENGTH).is_none());
    assert!(pressed(f64::NAN).is_none());
}
