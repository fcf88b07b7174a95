//! The library's beam against PyNiteFEA 3.2.0, a general finite-element library for frames.
//!
//! `reference/pynite.py` made the values in `reference/pynite.csv`; it says how to make them anew. It needs Python
//! and three packages, so it is not run with the tests.

use bunkline::mechanics::bunks::beam::{Beam, Bent, Holding, SpreadLoad, Support, bend};
use bunkline::quantity::{BendingStiffness, Length, LineLoad, Quantity, Rate};

const VALUES: &str = include_str!("reference/pynite.csv");

/// Both are exact but for rounding; the elements' equations are worse conditioned, by some 1e4.
const ROUNDING: f64 = 1e-10;

/// The beams of the script, in its order.
fn beams() -> [(&'static str, Beam); 3] {
    let metres = Length::from_si;
    let rigid = |stations: &[f64]| stations.iter().map(|x| Support::rigid(metres(*x))).collect::<Vec<_>>();
    let load = |from, to, at_from, at_to| SpreadLoad {
        from: metres(from),
        to: metres(to),
        at_from: LineLoad::from_si(at_from),
        at_to: LineLoad::from_si(at_to),
    };
    let beam = |length, supports, load| Beam {
        length: metres(length),
        stiffness: BendingStiffness(9.0e9 * 4.0e-5),
        supports,
        loads: vec![load],
        holding: Holding::BothWays,
    };
    let mut mixed = rigid(&[0.5, 1.5, 2.75, 3.8]);
    mixed[1] = mixed[1].settled(metres(0.002));
    mixed[2] = mixed[2].elastic(Rate::from_si(4.0e5));
    [
        (
            "two spans with overhangs",
            beam(3.3528, rigid(&[0.1524, 1.6764, 3.2004]), load(0.0, 3.3528, 6520.0, 4066.0)),
        ),
        (
            "five supports under a triangle",
            beam(3.8354, rigid(&[0.3556, 1.1684, 1.8796, 2.6416, 3.4036]), load(0.0, 2.9, 9000.0, 0.0)),
        ),
        ("one settled and one elastic", beam(4.0, mixed, load(0.2, 3.9, 3000.0, 5500.0))),
    ]
}

#[test]
fn a_reference_library_agrees() {
    let mut compared = 0;
    for (name, beam) in beams() {
        let bent = bend(&beam).expect("a beam at rest");
        for line in VALUES.lines().skip(1).filter(|line| line.starts_with(name)) {
            let fields: Vec<&str> = line.split(',').collect();
            let number = |i: usize| fields[i].parse::<f64>().expect("a number");
            let (found, scale) = figure(&beam, &bent, fields[1], number(2));
            assert!((found - number(3)).abs() <= ROUNDING * scale, "{line}: found {found}");
            compared += 1;
        }
    }
    assert_eq!(compared, VALUES.lines().count() - 1, "every value is compared");
}

/// A figure of a beam, and the size of its greatest.
fn figure(beam: &Beam, bent: &Bent, what: &str, station: f64) -> (f64, f64) {
    let at = Length::from_si(station);
    match what {
        "reaction" => {
            let support = beam.supports.iter().position(|support| support.station == at).expect("a support");
            let total: f64 = bent.reactions.iter().map(|reaction| reaction.si()).sum();
            (bent.reactions[support].si(), total)
        }
        "moment" => (bent.moment_at(at).value, bent.moment.value.value.abs()),
        "deflection" => (bent.deflection_at(at).si(), bent.deflection.value.si().abs()),
        other => panic!("no such figure: {other}"),
    }
}
