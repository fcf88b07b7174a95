//! Source: UN Regulations 30 and 54, annex 4: what each load index of a tire stands for, in kilograms. Quoted:
//! 80 stands for 450, 85 for 515, 113 for 1150 kg.
//!
//! What is tested: that an owner who writes the index, or looks it up and writes its kilograms, gets the limit that it stands
//! for (0.453 592 37 kg a pound, exact), and that it decides.

use crate::rigs::{POUND, assessed, most, rig, row, weight};
use approx::assert_abs_diff_eq;
use bunkline::fit::Verdict;
use bunkline::quantity::show::UnitSystem;
use bunkline::quantity::{Quantity, Weight};
use bunkline::rig::tires::{index_of_rating, load_of_index};

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

/// Every index of the table that was quoted, in kilograms.
const QUOTED: [(u32, f64); 37] = [
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

#[test]
fn the_table_is_the_quoted_one() {
    for (index, kilograms) in QUOTED {
        let load = load_of_index(index).expect("an index").si() / 9.806_65;
        assert_abs_diff_eq!(load, kilograms, epsilon = 1e-9);
    }
    assert_eq!((load_of_index(59), load_of_index(131)), (None, None));
}

/// Ratings in pounds are round: 975 kg are 2149.5 lb, sold as 2150; 1150 kg 2535.3 lb, sold as 2540; 1550 kg 3417.2 lb, sold as
/// 3420. In kilograms a hair more than an index asks for the next one.
#[test]
fn a_rating_in_pounds_is_its_indexs_rounded() {
    for (pounds, index) in [(2150.0, 107), (2540.0, 113), (3420.0, 123), (2570.0, 114)] {
        let rating = Weight::from_si(pounds * POUND);
        assert_eq!(index_of_rating(rating, UnitSystem::Us), Some(index), "{pounds} lb");
    }
    for (kilograms, index) in [(1150.0, 113), (1151.0, 114), (1550.0, 123)] {
        let rating = Weight::from_si(kilograms * 9.806_65);
        assert_eq!(index_of_rating(rating, UnitSystem::Metric), Some(index), "{kilograms} kg");
    }
}

#[test]
fn indices_that_were_not_quoted_follow_the_same_steps() {
    // The table rounds 45 × 10^(index / 80) kg to steps of 2 to 3 %, so it stays within 3 % of it up to 121; a digit read
    // wrong would not.
    for index in 60..=121 {
        let load = load_of_index(index).expect("an index").si() / 9.806_65;
        let law = 45.0 * 10f64.powf(f64::from(index) / 80.0);
        assert!((load / law - 1.0).abs() < 0.03, "{index}: {load} kg, {law}");
        assert!(load_of_index(index + 1) > load_of_index(index));
    }
}

#[test]
fn an_index_in_the_file_gives_a_missing_rating() {
    let text = on_tires("515 kg").replace("rating = \"515 kg\"", "load_index = 85");
    let found = assessed(&text, &[]);
    assert_abs_diff_eq!(most(&found, "tire-1"), 515.0 / 0.453_592_37, epsilon = 1e-6);
}
