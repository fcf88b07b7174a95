//! Supports that only push, against all the ways a beam might lie on them.

use crate::beam::beams::{any_beam, deflection_scale, force_scale, metres, plain, reactions};
use crate::beam::elements::{node_at, solve};
use crate::cases::cases;
use approx::assert_abs_diff_eq;
use bunkline::mechanics::bunks::beam::{Beam, BeamError, Holding, bend};
use bunkline::quantity::Quantity;
use proptest::prelude::*;

/// What finite elements leave of forces and deflections, with room: see the second opinion.
const ROUNDING: f64 = 1e-7;

proptest! {
    #![proptest_config(cases(150))]

    /// Every set of supports is tried with finite elements. One that neither pulls nor sinks through another
    /// support is the answer.
    #[test]
    fn the_set_that_carries_is_the_one_of_all(beam in any_beam(300.0)) {
        let beam = Beam { holding: Holding::PushOnly, ..beam };
        let found = bend(&beam);
        let n = beam.supports.len();
        let mut answers = 0;
        for bits in 0..1_usize << n {
            let set: Vec<usize> = (0..n).filter(|i| bits >> i & 1 == 1).collect();
            if set.len() < 2 {
                continue;
            }
            let nodes = solve(&beam, &set);
            let y = |i: usize| nodes.deflection[node_at(&beam, beam.supports[i].station.si())];
            let force = nodes.reactions.iter().fold(0.0, |most: f64, r| most.max(r.abs()));
            let sag = nodes.deflection.iter().fold(0.0, |most: f64, y| most.max(y.abs()));
            let pulls = nodes.reactions.iter().any(|reaction| *reaction < -ROUNDING * force);
            let sinks = (0..n).filter(|i| !set.contains(i)).any(|i| {
                y(i) - beam.supports[i].settlement.si() > ROUNDING * sag
            });
            if pulls || sinks {
                continue;
            }
            answers += 1;
            let bent = found.as_ref().expect("a beam at rest, as finite elements have it");
            let mut expected = vec![0.0; n];
            for (i, reaction) in set.iter().zip(&nodes.reactions) {
                expected[*i] = *reaction;
            }
            // A set that fits by a hair too much carries a hair too much: a hundred times the rounding.
            let scale = force_scale(&beam, bent).max(force);
            for (found, expected) in reactions(bent).iter().zip(expected) {
                assert_abs_diff_eq!(*found, expected, epsilon = 100.0 * ROUNDING * scale);
            }
        }
        if answers == 0 {
            prop_assert_eq!(found.err(), Some(BeamError::Tips));
        }
    }
}

proptest! {
    #![proptest_config(cases(2000))]

    #[test]
    fn no_support_pulls_and_none_is_sunk_through(beam in any_beam(300.0)) {
        let beam = Beam { holding: Holding::PushOnly, ..beam };
        let Ok(bent) = bend(&beam) else { return Ok(()) };
        let force = force_scale(&beam, &bent);
        let sag = deflection_scale(&beam, &bent);
        for (support, reaction) in beam.supports.iter().zip(reactions(&bent)) {
            // The rounding allowed inside is 1e-11.
            prop_assert!(reaction >= -1e-10 * force);
            let overlap = (bent.deflection_at(support.station) - support.settlement).si();
            if reaction <= 1e-10 * force {
                let given_way = support.rate.map_or(0.0, |rate| 1e-10 * force / rate.si());
                prop_assert!(overlap <= 1e-10 * sag + given_way);
            }
        }
    }

    /// Where nothing would pull, it does not matter which way supports hold.
    #[test]
    fn pressed_beams_do_not_care(beam in any_beam(300.0)) {
        let both = bend(&beam).expect("a beam at rest");
        if both.reactions.iter().all(|reaction| reaction.si() > 0.0) {
            let pushing = bend(&Beam { holding: Holding::PushOnly, ..beam });
            prop_assert_eq!(pushing.expect("a beam at rest"), both);
        }
    }
}

#[test]
fn a_low_support_carries_nothing() {
    let mut beam = Beam { holding: Holding::PushOnly, ..plain(4.0, &[0.0, 2.0, 4.0]) };
    // Free between the ends it would sag 5/384 wL⁴/EI = 0.6 m; the middle support lies lower still.
    beam.supports[1].settlement = metres(0.7);
    let bent = bend(&beam).expect("a beam at rest");
    assert_eq!(bent.reactions[1].si(), 0.0);
    assert_abs_diff_eq!(bent.reactions[0].si(), 1800.0, epsilon = 1e-9);
    assert_abs_diff_eq!(bent.deflection.value.si(), 0.6, epsilon = 1e-12);
    // Held both ways it would be pulled down to it.
    let held = bend(&Beam { holding: Holding::BothWays, ..beam }).expect("a beam at rest");
    assert!(held.reactions[1].si() < 0.0);
}

#[test]
fn a_loaded_overhang_lifts_the_far_end() {
    // Two equal spans and a long overhang: over the third support the beam hogs and rises off the middle one.
    let mut beam = plain(6.0, &[0.0, 2.0, 4.0]);
    beam.loads = vec![crate::beam::beams::spread(4.5, 6.0, 900.0, 900.0)];
    let held = bend(&beam).expect("a beam at rest");
    assert!(held.reactions.iter().any(|reaction| reaction.si() < 0.0));
    // Nothing ahead of the last support holds the beam down, so it tips.
    beam.holding = Holding::PushOnly;
    assert_eq!(bend(&beam), Err(BeamError::Tips));
    // With enough load between the first supports it stays.
    beam.loads.push(crate::beam::beams::spread(0.0, 2.0, 2000.0, 2000.0));
    let bent = bend(&beam).expect("a beam at rest");
    assert!(bent.reactions.iter().all(|reaction| reaction.si() >= 0.0));
}

#[test]
fn an_upward_load_lifts_the_beam() {
    let mut beam = Beam { holding: Holding::PushOnly, ..plain(4.0, &[0.0, 2.0, 4.0]) };
    beam.loads = vec![crate::beam::beams::spread(0.0, 4.0, -900.0, -900.0)];
    assert_eq!(bend(&beam), Err(BeamError::Tips));
}
