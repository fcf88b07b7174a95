//! Source: an owner's worked lever check: 3100 lb with 280 lb on the tongue and 180 in from ball to axle.
//! Quoted; the owner gives the answer in sixteenths of an inch only. Derived from the same figures: the centre of
//! gravity lies 280 × 180 / 3100 = 16.258 065 in ahead of the axle.
//!
//! Tolerance: the lever is exact where axles share equally, so 1e-6 in, the rounding of settling.

use crate::rigs::{INCH, POUND, assessed, axle, centre, rig, tongue};
use approx::assert_abs_diff_eq;
use bunkline::mechanics::Spring;
use bunkline::mechanics::road::level::Sharing;
use bunkline::quantity::{Length, Quantity, Rate, Weight};

const AHEAD_OF_AXLE: f64 = 280.0 * 180.0 / 3100.0;

fn weighed(kind: &str, axles: &[f64]) -> String {
    let boat = "[boat]\ncg_height = \"26 in\"\n[measured]\ngross_trailer_weight = \"3100 lb\"\ntongue_weight = \"280 lb\"";
    let trailer = format!("weight = \"800 lb\"\ncg = \"150 in\"\nsuspension = {{ kind = \"{kind}\" }}");
    let axles: Vec<String> = axles.iter().map(|station| axle(*station)).collect();
    rig(boat, &trailer, &axles, "")
}

#[test]
fn scale_figures_put_the_centre_of_gravity_where_the_lever_does() {
    let found = assessed(&weighed("torsion", &[180.0]), &[]);
    assert_abs_diff_eq!(180.0 - centre(&found), AHEAD_OF_AXLE, epsilon = 1e-6);
    assert_abs_diff_eq!(tongue(&found), 280.0, epsilon = 1e-6);
}

#[test]
fn axles_that_share_equally_pull_at_their_mean() {
    // A tandem about the same 180 in, however sprung, and a triple.
    for (kind, axles) in [
        ("leaf-equalized", &[164.0, 196.0][..]),
        ("leaf-separate", &[164.0, 196.0]),
        ("torsion", &[147.0, 180.0, 213.0]),
    ] {
        let found = assessed(&weighed(kind, axles), &[]);
        assert_abs_diff_eq!(180.0 - centre(&found), AHEAD_OF_AXLE, epsilon = 1e-6);
    }
}

#[test]
fn unlike_springs_do_not_pull_at_the_axles_mean() {
    // The rear of two separately sprung axles is twice as stiff and carries more, so the lever's axle lies
    // aft of the mean and so does the centre of gravity: the short form does not hold.
    let spring = |rate: f64| Spring::new(Rate::from_si(rate), Rate::from_si(4e5), Length::from_si(0.1));
    let springs = [spring(2e5), spring(4e5)].into_iter().collect();
    let sharing = Sharing { springs, equalizer_travel: Length::from_si(0.0) };
    let stations = [164.0, 196.0].map(|station| Length::from_si(station * INCH)).into_iter().collect();
    let pounds = |number: f64| Weight::from_si(number * POUND);
    let station = sharing.station_from_tongue_weight(pounds(3100.0), pounds(280.0), &stations);
    // Rates in series with the tires: 400/3 and 200 kN/m, so the pull is at (2 × 164 + 3 × 196) / 5 = 183.2
    // in and the centre at 183.2 (1 − 280/3100) = 166.653 in.
    let centre = station.expect("a station").si() / INCH;
    assert_abs_diff_eq!(centre, 183.2 * (1.0 - 280.0 / 3100.0), epsilon = 1e-9);
    assert!((180.0 - centre - AHEAD_OF_AXLE).abs() > 2.0);
}
