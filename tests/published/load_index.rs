//! Source: UN Regulations 30 and 54, annex 4: what each load index of a tire stands for, in kilograms. Quoted:
//! 80 stands for 450, 85 for 515, 113 for 1150 kg.
//!
//! A rig file states a tire's rating as a weight and knows no load index. So what is tested here is that an owner
//! who looks the index up and writes its kilograms gets the limit that the index stands for (0.453 592 37 kg a
//! pound, exact), and that it decides.

use crate::rigs::{POUND, assessed, most, rig, row, weight};
use approx::assert_abs_diff_eq;
use bunkline::fit::Verdict;
use bunkline::quantity::show::UnitSystem;
use bunkline::quantity::{Quantity, Weight};

/// One axle of 2000 lb on the ground, so 1000 lb a tire.
fn on_tires(rating: &str) -> String {
    // 2000 lb straight over the axle: boat 1500 lb and trailer 500 lb, both 200 in behind the ball.
    let axle = format!(
        "station = \"200 in\"\nrating = \"3500 lb\"\ntires = {{ radius = \"14 in\", rating = \"{rating}\" }}"
    );
    let trailer = "weight = \"500 lb\"\ncg = \"200 in\"\nsuspension = { kind = \"torsion\" }";
    rig(&weight(1500.0, 100.0), trailer, &[axle], "")
}

#[test]
fn load_index_113_is_2535_pounds() {
    // 1150 / 0.453 592 37 = 2535.316 lb, which sidewalls round to 2535.
    let found = assessed(&on_tires("1150 kg"), &[]);
    assert_abs_diff_eq!(most(&found, "tire-1"), 2535.316, epsilon = 0.001);
    // And shown in kilograms again it is the table's.
    let limit = Weight::from_si(row(&found, "tire-1").max.expect("a limit").si());
    assert_eq!(UnitSystem::Metric.weight(limit), "1150 kg");
}

#[test]
fn the_index_decides_whether_a_tire_holds() {
    // 1000 lb on each tire is 453.6 kg: index 80 falls short, index 85 holds.
    let verdict = |rating: &str| row(&assessed(&on_tires(rating), &[]), "tire-1").verdict;
    assert_eq!(verdict("450 kg"), Verdict::Fail);
    assert_eq!(verdict("515 kg"), Verdict::Pass);
    let found = assessed(&on_tires("515 kg"), &[]);
    assert_abs_diff_eq!(row(&found, "tire-1").load.expect("a load").si() / POUND, 1000.0, epsilon = 1e-6);
}
