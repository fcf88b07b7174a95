//! Random beams, and what every test needs of them.

use bunkline::mechanics::bunks::beam::{Beam, Bent, Holding, SpreadLoad, Support};
use bunkline::quantity::{BendingStiffness, Length, LineLoad, Quantity, Rate};
use proptest::prelude::*;
use proptest::sample::subsequence;

/// Supports and ends of loads stand on this many equal steps, so that elements of one size meet all of them.
pub const STEPS: usize = 24;

pub fn metres(x: f64) -> Length {
    Length::from_si(x)
}

pub fn spread(from: f64, to: f64, at_from: f64, at_to: f64) -> SpreadLoad {
    SpreadLoad {
        from: metres(from),
        to: metres(to),
        at_from: LineLoad::from_si(at_from),
        at_to: LineLoad::from_si(at_to),
    }
}

/// A plain beam with one uniform load.
pub fn plain(length: f64, stations: &[f64]) -> Beam {
    Beam {
        length: metres(length),
        stiffness: BendingStiffness(5000.0),
        supports: stations.iter().map(|x| Support::rigid(metres(*x))).collect(),
        loads: vec![spread(0.0, length, 900.0, 900.0)],
        holding: Holding::BothWays,
    }
}

/// Trapezoids that may overlap, of any sign.
pub fn any_loads(length: f64, upward: f64) -> impl Strategy<Value = Vec<SpreadLoad>> {
    let one = (0..STEPS, 1..=STEPS, -upward..5000.0, -upward..5000.0).prop_map(move |(from, steps, a, b)| {
        let at = |step: usize| length * step as f64 / STEPS as f64;
        spread(at(from), at((from + steps).min(STEPS)), a, b)
    });
    prop::collection::vec(one, 1..4)
}

/// Beams as a bunk may be, and odder: two to eight supports, settled up to 20 mm, some on springs.
pub fn any_beam(upward: f64) -> impl Strategy<Value = Beam> {
    let size = (1.0..8.0, 3.0..6.0f64, 2..=8usize);
    size.prop_flat_map(move |(length, power, n)| {
        let settlement = prop_oneof![Just(0.0), -0.02..0.02];
        // From as soft as the whole beam to as stiff as a short piece of it.
        let own = 10f64.powf(power) / (length * length * length);
        let rate =
            prop::option::of((0.0..5.0f64).prop_map(move |power| Rate::from_si(own * 10f64.powf(power))));
        let hold = prop::collection::vec((settlement, rate), n);
        let places = subsequence((0..=STEPS).collect::<Vec<_>>(), n);
        (places, hold, any_loads(length, upward)).prop_map(move |(places, hold, loads)| Beam {
            length: metres(length),
            stiffness: BendingStiffness(10f64.powf(power)),
            supports: places
                .iter()
                .zip(hold)
                .map(|(step, (settlement, rate))| Support {
                    station: metres(length * *step as f64 / STEPS as f64),
                    settlement: metres(settlement),
                    rate,
                })
                .collect(),
            loads,
            holding: Holding::BothWays,
        })
    })
}

pub fn reactions(bent: &Bent) -> Vec<f64> {
    bent.reactions.iter().map(|reaction| reaction.si()).collect()
}

/// The load of a trapezoid, and its moment about the beam's left end.
pub fn resultant(load: &SpreadLoad) -> (f64, f64) {
    let (from, length) = (load.from.si(), (load.to - load.from).si());
    let (a, b) = (load.at_from.si(), load.at_to.si());
    // A rectangle and a triangle.
    let (rectangle, triangle) = (a * length, (b - a) * length / 2.0);
    (rectangle + triangle, rectangle * (from + length / 2.0) + triangle * (from + 2.0 * length / 3.0))
}

/// What forces of the beam are measured against: everything that presses on it, and the greatest reaction.
pub fn force_scale(beam: &Beam, bent: &Bent) -> f64 {
    let loads: f64 =
        beam.loads.iter().map(|l| (l.at_from.si().abs() + l.at_to.si().abs()) * beam.length.si()).sum();
    reactions(bent).iter().fold(loads, |most, reaction| most.max(reaction.abs()))
}

/// What deflections of the beam are measured against.
pub fn deflection_scale(beam: &Beam, bent: &Bent) -> f64 {
    let settled = beam.supports.iter().map(|support| support.settlement.si().abs());
    settled.fold(bent.deflection.value.si().abs(), f64::max)
}
