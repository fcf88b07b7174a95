//! Source: gasoline 6.0 to 6.5 and diesel 6.7 to 7.4 lb a US gallon (US Department of Energy, Alternative Fuels
//! Data Center); within these ranges 6.1 and 7.1 lb (trade pages). Fresh water 1000 kg/m³, 62.4 lb/ft³; sea
//! water 1025 kg/m³, 64 lb/ft³. All quoted.
//!
//! Tolerance: half of the last digit of each figure in lb/ft³; sums are exact to 1e-6 lb.

use crate::rigs::{assessed, axle, load, rig, row, weight};
use approx::assert_abs_diff_eq;
use bunkline::fit::Verdict;

/// What a tank adds to a rig that weighs 3000 lb without it.
fn tank(contents: &str) -> f64 {
    load(&assessed(&with_tank(contents), &[]), "trailer-gvwr") - 3000.0
}

fn with_tank(contents: &str) -> String {
    let tank = format!("[[boat.tanks]]\n{contents}\nstation = \"100 in\"\nheight = \"12 in\"\n");
    let trailer =
        "weight = \"1000 lb\"\ncg = \"170 in\"\ngvwr = \"3650 lb\"\nsuspension = { kind = \"torsion\" }";
    rig(&(weight(2000.0, 110.0) + &tank), trailer, &[axle(200.0)], "")
}

#[test]
fn fuels_weigh_their_figure() {
    assert_abs_diff_eq!(tank("fluid = \"gasoline\"\ncapacity = \"100 gal\""), 610.0, epsilon = 1e-6);
    assert_abs_diff_eq!(tank("fluid = \"diesel\"\ncapacity = \"100 gal\""), 710.0, epsilon = 1e-6);
    assert_abs_diff_eq!(
        tank("fluid = \"diesel\"\ncapacity = \"100 gal\"\nfill = \"25 %\""),
        177.5,
        epsilon = 1e-6
    );
}

#[test]
fn water_weighs_its_figure_a_cubic_foot() {
    // A cubic foot is 1728 / 231 gallons.
    let cubic_foot = format!("capacity = \"{} gal\"", 1728.0 / 231.0);
    let water = |fluid: &str| tank(&format!("fluid = \"{fluid}\"\n{cubic_foot}"));
    assert_abs_diff_eq!(water("fresh-water"), 62.4, epsilon = 0.05);
    assert_abs_diff_eq!(water("sea-water"), 64.0, epsilon = 0.05);
    // And a cubic metre of each is its tonne: 450 L of fresh water weigh 450 kg.
    assert_abs_diff_eq!(
        tank("fluid = \"fresh-water\"\ncapacity = \"450 L\""),
        450.0 / 0.453_592_37,
        epsilon = 1e-6
    );
    assert_abs_diff_eq!(
        tank("fluid = \"sea-water\"\ncapacity = \"400 L\""),
        410.0 / 0.453_592_37,
        epsilon = 1e-6
    );
}

#[test]
fn a_stated_density_replaces_the_fluids() {
    // The heavy end of the range for gasoline.
    assert_abs_diff_eq!(tank("density = \"6.5 lb/gal\"\ncapacity = \"100 gal\""), 650.0, epsilon = 1e-6);
}

#[test]
fn the_fluid_decides_a_close_case() {
    // 3650 lb allowed: 610 lb of gasoline fit, 710 lb of diesel do not.
    let verdict = |fluid: &str| {
        let text = with_tank(&format!("fluid = \"{fluid}\"\ncapacity = \"100 gal\""));
        row(&assessed(&text, &[]), "trailer-gvwr").verdict
    };
    assert_eq!(verdict("gasoline"), Verdict::Thin);
    assert_eq!(verdict("diesel"), Verdict::Fail);
}
