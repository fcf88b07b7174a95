//! Source: NIST SP 811, appendix B. The pound (0.453 592 37 kg), the inch (25.4 mm) and the US gallon (231
//! in³) are exact by definition; the gallon in litres and the psi in kilopascals are printed there to seven
//! digits. From memory; the exact ones are derived besides.
//!
//! Tolerance: 1e-12 relative for exact factors, half of the last printed digit for rounded ones.

use crate::rigs::{assessed, axle, load, most, rig, weight};
use approx::{assert_abs_diff_eq, assert_relative_eq};
use bunkline::quantity::{Density, Length, Pressure, Quantity, Rate, Volume, Weight, parse};

fn si<Q: Quantity>(text: &str) -> f64 {
    parse::<Q>(text).unwrap_or_else(|error| panic!("{text}: {error}")).value.si()
}

#[test]
fn exact_factors_are_exact() {
    let exact = [
        (si::<Weight>("1 lb"), 0.453_592_37 * 9.806_65),
        (si::<Weight>("1 lbf"), 4.448_221_615_260_5),
        (si::<Weight>("1 kg"), 9.806_65),
        (si::<Weight>("1 t"), 9806.65),
        (si::<Weight>("1 kN"), 1000.0),
        (si::<Length>("1 in"), 0.0254),
        (si::<Length>("1 ft"), 0.3048),
        (si::<Volume>("1 gal"), 3.785_411_784e-3),
        (si::<Pressure>("1 bar"), 1e5),
        // 4.448 221 615 260 5 N over 0.0254 m
        (si::<Rate>("1 lb/in"), 175.126_835_246_476_4),
        (si::<Rate>("1 N/mm"), 1e3),
        // 0.453 592 37 kg over 0.3048³ m³, and over a gallon
        (si::<Density>("1 lb/ft3"), 16.018_463_373_960_14),
        (si::<Density>("1 lb/gal"), 119.826_427_316_896_6),
    ];
    for (found, expected) in exact {
        assert_relative_eq!(found, expected, max_relative = 1e-12);
    }
}

#[test]
fn printed_factors_agree_to_their_last_digit() {
    assert_abs_diff_eq!(si::<Volume>("1 gal") * 1e3, 3.785_412, epsilon = 5e-7);
    assert_abs_diff_eq!(si::<Pressure>("1 psi") / 1e3, 6.894_757, epsilon = 5e-7);
}

#[test]
fn a_file_may_mix_units() {
    // Boat and rating said twice, in pounds and inches and in kilograms and millimetres.
    let trailer =
        "weight = \"1000 lb\"\ncg = \"170 in\"\ngvwr = \"5000 lb\"\nsuspension = { kind = \"torsion\" }";
    let us = rig(&weight(2000.0, 110.0), trailer, &[axle(200.0)], "");
    let metric = us
        .replace("\"2000 lb\"", "\"907.18474 kg\"")
        .replace("\"110 in\"", "\"2794 mm\"")
        .replace("\"5000 lb\"", "\"2.26796185 t\"")
        .replace("\"200 in\"", "\"508 cm\"");
    assert_ne!(us, metric);
    let (us, metric) = (assessed(&us, &[]), assessed(&metric, &[]));
    for id in ["trailer-gvwr", "axle-1", "tongue-uplift"] {
        assert_relative_eq!(load(&us, id), load(&metric, id), max_relative = 1e-12);
    }
    assert_relative_eq!(most(&us, "trailer-gvwr"), most(&metric, "trailer-gvwr"), max_relative = 1e-12);
}
