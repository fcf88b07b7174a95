//! What holds for every beam.

use crate::beam::beams::{
    any_beam, any_loads, deflection_scale, force_scale, metres, plain, reactions, resultant, spread,
};
use crate::cases::cases;
use approx::assert_abs_diff_eq;
use bunkline::mechanics::bunks::beam::{Beam, Extreme, Holding, SpreadLoad, Support, bend};
use bunkline::quantity::{BendingStiffness, Length, LineLoad, Quantity, Rate};
use proptest::prelude::*;

/// Rounding: spans are at least a twenty-fourth of the beam, and moments over them make forces, so 1e-16 × 24² × a
/// few hundred terms.
const ROUNDING: f64 = 1e-11;

proptest! {
    #![proptest_config(cases(1000))]

    #[test]
    fn reactions_balance_the_load(beam in any_beam(2000.0)) {
        let bent = bend(&beam).expect("a beam at rest");
        let force = force_scale(&beam, &bent);
        let (mut sum, mut about_end) = (0.0, 0.0);
        for load in &beam.loads {
            let (weight, moment) = resultant(load);
            sum += weight;
            about_end += moment;
        }
        for (reaction, support) in reactions(&bent).iter().zip(&beam.supports) {
            sum -= reaction;
            about_end -= reaction * support.station.si();
        }
        assert_abs_diff_eq!(sum, 0.0, epsilon = ROUNDING * force);
        assert_abs_diff_eq!(about_end, 0.0, epsilon = ROUNDING * force * beam.length.si());
        // Free ends bear neither shear nor moment.
        for end in [metres(0.0), beam.length] {
            let supported = beam.supports.iter().any(|support| (support.station - end).si().abs() < 1e-9);
            assert_abs_diff_eq!(bent.moment_at(end).value, 0.0, epsilon = ROUNDING * force * beam.length.si());
            if !supported {
                assert_abs_diff_eq!(bent.shear_after(end).si(), 0.0, epsilon = ROUNDING * force);
            }
        }
    }

    #[test]
    fn the_beam_meets_its_supports(beam in any_beam(2000.0)) {
        let bent = bend(&beam).expect("a beam at rest");
        let scale = deflection_scale(&beam, &bent);
        let force = force_scale(&beam, &bent);
        for (reaction, support) in reactions(&bent).iter().zip(&beam.supports) {
            let given_way = support.rate.map_or(0.0, |rate| reaction / rate.si());
            let expected = support.settlement.si() + given_way;
            // A stiff spring turns rounded forces into very little.
            let rounding = ROUNDING * (scale + support.rate.map_or(0.0, |rate| force / rate.si()));
            assert_abs_diff_eq!(bent.deflection_at(support.station).si(), expected, epsilon = rounding);
            // Across a support the shear jumps by its reaction.
            let jump = bent.shear_after(support.station) - bent.shear_before(support.station);
            if support.station.si() > 0.0 && support.station < beam.length {
                assert_abs_diff_eq!(jump.si(), *reaction, epsilon = ROUNDING * force);
            }
        }
    }

    #[test]
    fn nothing_exceeds_the_greatest(beam in any_beam(2000.0), shares in prop::collection::vec(0.0..1.0, 40)) {
        let bent = bend(&beam).expect("a beam at rest");
        let hair = 1.0 + 1e-12;
        for share in shares {
            let at = beam.length * share;
            prop_assert!(bent.moment_at(at).value.abs() <= bent.moment.value.value.abs() * hair);
            prop_assert!(bent.shear_after(at).si().abs() <= bent.shear.value.si().abs() * hair);
            prop_assert!(bent.deflection_at(at).si().abs() <= bent.deflection.value.si().abs() * hair);
        }
        // And each is where it is said to be. Shear may be on either side of a support, so a station rounded
        // to its other side still has it.
        let force = force_scale(&beam, &bent);
        let Extreme { value, station } = bent.moment;
        assert_abs_diff_eq!(
            bent.moment_at(station).value, value.value, epsilon = ROUNDING * force * beam.length.si()
        );
        let Extreme { value, station } = bent.deflection;
        assert_abs_diff_eq!(
            bent.deflection_at(station).si(), value.si(), epsilon = ROUNDING * deflection_scale(&beam, &bent)
        );
        let Extreme { value, station } = bent.shear;
        let hair = metres(1e-12 * beam.length.si());
        let sides = [bent.shear_before(station - hair), bent.shear_after(station + hair)];
        let off = sides.map(|side| (side - value).si().abs());
        prop_assert!(off[0].min(off[1]) <= ROUNDING * force);
    }

    #[test]
    fn a_mirrored_beam_mirrors_the_answer(beam in any_beam(2000.0), pushing in any::<bool>()) {
        let holding = if pushing { Holding::PushOnly } else { Holding::BothWays };
        let beam = Beam { holding, ..beam };
        let turned = |x: Length| beam.length - x;
        let mut supports: Vec<Support> = beam.supports.clone();
        for support in &mut supports {
            support.station = turned(support.station);
        }
        let loads = beam.loads.iter().map(|load| SpreadLoad {
            from: turned(load.to), to: turned(load.from), at_from: load.at_to, at_to: load.at_from,
        });
        let mirrored = Beam { supports, loads: loads.collect(), ..beam.clone() };
        match (bend(&beam), bend(&mirrored)) {
            (Ok(bent), Ok(other)) => {
                // Supports keep their place in the list, though their order along the beam has turned.
                let force = force_scale(&beam, &bent);
                for (a, b) in reactions(&bent).iter().zip(reactions(&other)) {
                    assert_abs_diff_eq!(*a, b, epsilon = 10.0 * ROUNDING * force);
                }
                let at = beam.length * 0.37;
                assert_abs_diff_eq!(
                    bent.deflection_at(at).si(), other.deflection_at(turned(at)).si(),
                    epsilon = 10.0 * ROUNDING * deflection_scale(&beam, &bent)
                );
                assert_abs_diff_eq!(
                    bent.shear_after(at).si(), -other.shear_before(turned(at)).si(),
                    epsilon = 10.0 * ROUNDING * force
                );
                assert_abs_diff_eq!(
                    bent.moment.value.value.abs(), other.moment.value.value.abs(),
                    epsilon = 10.0 * ROUNDING * force * beam.length.si()
                );
            }
            (bent, other) => prop_assert_eq!(bent.err(), other.err()),
        }
    }

    #[test]
    fn answers_add_up(
        (beam, more) in any_beam(2000.0).prop_flat_map(|beam| {
            let length = beam.length.si();
            (Just(beam), any_loads(length, 2000.0))
        }),
    ) {
        let level = |support: &Support| support.settled(metres(0.0));
        let other = Beam {
            loads: more.clone(), supports: beam.supports.iter().map(level).collect(), ..beam.clone()
        };
        let together = Beam { loads: [beam.loads.clone(), more].concat(), ..beam.clone() };
        let [one, two, both] = [&beam, &other, &together].map(|beam| bend(beam).expect("a beam at rest"));
        let force = force_scale(&together, &both).max(force_scale(&beam, &one));
        for i in 0..beam.supports.len() {
            let sum = one.reactions[i] + two.reactions[i];
            assert_abs_diff_eq!(sum.si(), both.reactions[i].si(), epsilon = ROUNDING * force);
        }
        let at = beam.length * 0.61;
        let scale = [&one, &two, &both].iter().map(|bent| deflection_scale(&beam, bent)).fold(0.0, f64::max);
        assert_abs_diff_eq!(
            (one.deflection_at(at) + two.deflection_at(at)).si(), both.deflection_at(at).si(),
            epsilon = ROUNDING * scale
        );
    }

    /// Numbers of all sizes and none: an answer in finite numbers, or an error.
    #[test]
    fn no_number_upsets_it(
        length in any_number(), stiffness in any_number(), pushing in any::<bool>(),
        supports in prop::collection::vec((any_number(), any_number(), prop::option::of(any_number())), 0..7),
        loads in prop::collection::vec((any_number(), any_number(), any_number(), any_number()), 0..5),
        station in any_number(),
    ) {
        let beam = Beam {
            length: metres(length),
            stiffness: BendingStiffness(stiffness),
            supports: supports.into_iter().map(|(station, settlement, rate)| Support {
                station: metres(station), settlement: metres(settlement), rate: rate.map(Rate::from_si),
            }).collect(),
            loads: loads.into_iter().map(|(from, to, a, b)| SpreadLoad {
                from: metres(from), to: metres(to), at_from: LineLoad::from_si(a), at_to: LineLoad::from_si(b),
            }).collect(),
            holding: if pushing { Holding::PushOnly } else { Holding::BothWays },
        };
        if let Ok(bent) = bend(&beam) {
            prop_assert!(reactions(&bent).iter().all(|reaction| reaction.is_finite()));
            let at = metres(station);
            prop_assert!(bent.moment_at(at).value.is_finite());
            prop_assert!(bent.shear_before(at).si().is_finite() && bent.shear_after(at).si().is_finite());
            prop_assert!(bent.deflection_at(at).si().is_finite());
            prop_assert!(bent.moment.value.value.is_finite() && bent.moment.station.si().is_finite());
        }
    }
}

/// Mostly between 0 and 1, so that many beams get past the first questions; also huge, tiny and no numbers.
fn any_number() -> impl Strategy<Value = f64> {
    prop_oneof![
        8 => 0.0..1.0,
        2 => Just(0.0),
        2 => Just(1.0),
        1 => (-300.0..300.0f64).prop_map(|power| 10f64.powf(power)),
        1 => -1.0..1.0,
        1 => prop::num::f64::ANY,
    ]
}

/// An inner support goes from near its left neighbour to near its right one, over ends of loads: with steps half
/// as wide nothing jumps more than a good half as much.
#[test]
fn moving_a_support_moves_everything_smoothly() {
    for holding in [Holding::BothWays, Holding::PushOnly] {
        let jumps = |steps: usize| {
            let states = (0..=steps).map(|step| {
                let x = 1.2 + 1.6 * step as f64 / steps as f64;
                let mut beam = Beam { holding, ..plain(5.0, &[0.5, 1.0, x, 3.0, 4.2]) };
                beam.loads = vec![spread(0.3, 2.0, 200.0, 3000.0), spread(1.5, 4.8, 1500.0, 100.0)];
                beam.supports[2].settlement = metres(0.002);
                beam.supports[3].settlement = metres(0.03);
                let bent = bend(&beam).expect("a beam at rest");
                let mut state = reactions(&bent);
                state.push(bent.moment.value.value.abs());
                state.push(bent.deflection.value.si().abs() * 1e5);
                state
            });
            let states: Vec<Vec<f64>> = states.collect();
            (0..states[0].len())
                .map(|i| states.windows(2).map(|pair| (pair[1][i] - pair[0][i]).abs()).fold(0.0, f64::max))
                .collect::<Vec<_>>()
        };
        let (wide, narrow) = (jumps(800), jumps(1600));
        for (wide, narrow) in wide.iter().zip(narrow) {
            assert!(narrow <= 0.55 * wide, "{narrow} against {wide}");
        }
    }
}

#[test]
fn supports_and_loads_may_come_in_any_order() {
    let beam = plain(4.0, &[0.5, 2.0, 3.5]);
    let mut shuffled = plain(4.0, &[3.5, 0.5, 2.0]);
    shuffled.loads = vec![spread(2.5, 4.0, 900.0, 900.0), spread(0.0, 2.5, 900.0, 900.0)];
    let [straight, other] = [beam, shuffled].map(|beam| reactions(&bend(&beam).expect("a beam at rest")));
    for (a, b) in [(0, 1), (1, 2), (2, 0)] {
        assert_abs_diff_eq!(straight[a], other[b], epsilon = 1e-9);
    }
}

#[test]
fn past_its_ends_a_beam_is_as_at_its_ends() {
    let bent = bend(&plain(4.0, &[0.5, 3.5])).expect("a beam at rest");
    for (past, end) in [(-1.0, 0.0), (9.0, 4.0), (f64::NAN, 0.0)] {
        assert_eq!(bent.deflection_at(metres(past)), bent.deflection_at(metres(end)));
        assert_eq!(bent.moment_at(metres(past)), bent.moment_at(metres(end)));
    }
}

#[test]
fn a_beam_without_load_is_straight() {
    let beam = Beam { loads: Vec::new(), ..plain(4.0, &[0.0, 2.0, 4.0]) };
    let bent = bend(&beam).expect("a beam at rest");
    assert!(reactions(&bent).iter().all(|reaction| *reaction == 0.0));
    assert_eq!(bent.deflection.value, metres(0.0));
}
