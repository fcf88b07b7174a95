//! Source: an article on hydraulic trailer brakes, quoted on a page: a force of 600 lb on master cylinders of 7/8, 1 and
//! 1 1/4 in makes 997, 764 and 489 psi.
//!
//! Tolerance: 1.1 psi. The article cuts figures off and takes a rounded area for the smallest bore: 600 / 0.60132 in² is
//! 997.8 psi.

use approx::assert_abs_diff_eq;
use bunkline::mechanics::brakes::hydraulics::Master;
use bunkline::quantity::{Length, Quantity, Share, Weight, unit};

fn pressure(bore: f64, leverage: f64, push: f64) -> f64 {
    let master = Master {
        bore: Length::from_si(bore * unit::INCH),
        leverage,
        efficiency: Share::from_si(1.0),
        preload: Weight::default(),
        pressure_max: None,
    };
    let psi = unit::POUND / (unit::INCH * unit::INCH);
    master.pressure(Weight::from_si(push * unit::POUND)).si() / psi
}

#[test]
fn six_hundred_pounds_on_three_bores() {
    for (bore, printed) in [(0.875, 997.0), (1.0, 764.0), (1.25, 489.0)] {
        assert_abs_diff_eq!(pressure(bore, 1.0, 600.0), printed, epsilon = 1.1);
    }
}

#[test]
fn leverage_and_push_alike_raise_it_and_a_larger_bore_does_not() {
    assert_abs_diff_eq!(pressure(1.0, 2.0, 300.0), pressure(1.0, 1.0, 600.0), epsilon = 1e-9);
    assert!(pressure(1.125, 1.0, 600.0) < pressure(1.0, 1.0, 600.0));
}
