//! Source: UN Regulations 30 and 54, annex 4: what each load index of a tire stands for, in kilograms.
//! Quoted.
//!
//! A rig file states a tire's rating as a weight and knows no load index. So what is checked here is that
//! an owner who looks the index up and writes its kilograms gets the limit in pounds that the index stands
//! for (0.453 592 37 kg a pound, exact), and that the copy of the table is sound: it grows, and no row has
//! slipped.

use crate::rigs::{POUND, assessed, most, rig, row, weight};
use approx::{assert_abs_diff_eq, assert_relative_eq};
use bunkline::fit::Verdict;
use bunkline::quantity::show::UnitSystem;
use bunkline::quantity::{Quantity, Weight};

/// Load index and kilograms.
const TABLE: &[(u32, f64)] = &[
    (70, 335.0),
    (75, 387.0),
    (80, 450.0),
    (85, 515.0),
    (90, 600.0),
    (95, 690.0),
    (100, 800.0),
    (101, 825.0),
    (102, 850.0),
    (103, 875.0),
    (104, 900.0),
    (105, 925.0),
    (106, 950.0),
    (107, 975.0),
    (108, 1000.0),
    (109, 1030.0),
    (110, 1060.0),
    (111, 1090.0),
    (112, 1120.0),
    (113, 1150.0),
    (114, 1180.0),
    (115, 1215.0),
    (116, 1250.0),
    (117, 1285.0),
    (118, 1320.0),
    (119, 1360.0),
    (120, 1400.0),
    (121, 1450.0),
    (122, 1500.0),
    (123, 1550.0),
    (124, 1600.0),
    (125, 1650.0),
    (126, 1700.0),
    (127, 1750.0),
    (128, 1800.0),
    (129, 1850.0),
    (130, 1900.0),
];

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
fn a_rating_in_kilograms_is_the_indexs_limit_in_pounds() {
    for (index, kilograms) in TABLE {
        let found = assessed(&on_tires(&format!("{kilograms} kg")), &[]);
        assert_relative_eq!(most(&found, "tire-1"), kilograms / 0.453_592_37, max_relative = 1e-12);
        // And shown in kilograms again it is the table's.
        let limit = Weight::from_si(row(&found, "tire-1").max.expect("a limit").si());
        assert_relative_eq!(UnitSystem::Metric.weight_number(limit), *kilograms, max_relative = 1e-12);
        assert_eq!(UnitSystem::Metric.weight(limit), format!("{kilograms} kg"), "load index {index}");
    }
}

#[test]
fn load_index_113_is_2535_pounds() {
    // 1150 / 0.453 592 37 = 2535.316 lb, which sidewalls round to 2535.
    let found = assessed(&on_tires("1150 kg"), &[]);
    assert_abs_diff_eq!(most(&found, "tire-1"), 2535.316, epsilon = 0.001);
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

/// From memory: the table follows the preferred numbers, 80 steps to a factor of ten from 45 kg at index 0,
/// rounded to figures of two or three digits. A step is 2.9 %, so within 2 % of the smooth curve, and
/// growing by 2 to 4 % a step, no row can have slipped to its neighbour.
#[test]
fn the_table_grows_and_no_row_has_slipped() {
    for pair in TABLE.windows(2) {
        let [(low, from), (high, to)] = [pair[0], pair[1]];
        let step = (to / from).powf(1.0 / f64::from(high - low));
        assert!((1.02..1.04).contains(&step), "{pair:?} grow by {step} a step");
    }
    for (index, kilograms) in TABLE {
        let smooth = 45.0 * 10f64.powf(f64::from(*index) / 80.0);
        assert!((kilograms / smooth - 1.0).abs() < 0.02, "{index}: {kilograms} against {smooth}");
    }
}
