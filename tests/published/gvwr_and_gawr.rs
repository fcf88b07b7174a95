//! Source: 49 CFR 571.3, and NHTSA interpretation letter nht76-3.20 of 15 January 1976: a boat trailer's
//! GVWR includes what the tow vehicle carries; a GAWR is one axle system's load at the tire-ground
//! interface. Read in the source.
//!
//! The cases lie between the right reading of each rating and the wrong one, so no tolerance is needed.

use crate::rigs::{assessed, axle, load, rig, row, tongue, weight};
use approx::assert_abs_diff_eq;
use bunkline::fit::Verdict;

/// 6000 lb, of which one axle at 200 in carries 5400 lb and the tongue 600 lb.
fn loaded(gvwr: &str, gawr: &str) -> String {
    // Boat 4500 lb at 300 − 118 = 182 in, trailer 1500 lb at 174 in: (819 000 + 261 000) / 6000 = 180 in.
    let trailer = format!(
        "weight = \"1500 lb\"\ncg = \"174 in\"\ngvwr = \"{gvwr}\"\nsuspension = {{ kind = \"torsion\" }}"
    );
    let axle = axle(200.0).replace("7000 lb", gawr);
    rig(&weight(4500.0, 118.0), &trailer, &[axle], "")
}

#[test]
fn gvwr_includes_what_the_tow_vehicle_carries() {
    // 5800 lb is above what the axle carries and below what the trailer weighs.
    let found = assessed(&loaded("5800 lb", "7000 lb"), &[]);
    assert_abs_diff_eq!(tongue(&found), 600.0, epsilon = 1e-6);
    assert_abs_diff_eq!(load(&found, "trailer-gvwr"), 6000.0, epsilon = 1e-6);
    assert_eq!(row(&found, "trailer-gvwr").verdict, Verdict::Fail);
    let found = assessed(&loaded("6001 lb", "7000 lb"), &[]);
    assert_eq!(row(&found, "trailer-gvwr").verdict, Verdict::Thin);
}

#[test]
fn gawr_is_compared_with_what_stands_on_the_ground_under_the_axle() {
    // 5600 lb is above what the axle carries and below what the trailer weighs.
    let found = assessed(&loaded("7000 lb", "5600 lb"), &[]);
    assert_abs_diff_eq!(load(&found, "axle-1"), 5400.0, epsilon = 1e-6);
    assert_eq!(row(&found, "axle-1").verdict, Verdict::Thin);
    let found = assessed(&loaded("7000 lb", "5399 lb"), &[]);
    assert_eq!(row(&found, "axle-1").verdict, Verdict::Fail);
}

#[test]
fn a_capacity_leaves_the_gvwr_as_it_is() {
    // A label with a GVWR of 6000 lb and a capacity of 4500 lb tells of a trailer of 1500 lb.
    let text = loaded("6000 lb", "7000 lb").replace("\nweight = \"1500 lb\"", "\ncapacity = \"4500 lb\"");
    let found = assessed(&text, &[]);
    assert_abs_diff_eq!(load(&found, "trailer-gvwr"), 6000.0, epsilon = 1e-6);
}
