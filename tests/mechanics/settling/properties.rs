//! What holds at every rest.

use crate::settling::positions::any_position;
use crate::settling::statics::{disagreement, reactions, stiffness_in_sag};
use crate::settling::trailers::{Trailer, any_trailer, body, cases, point, si};
use bunkline::mechanics::road::level::Sharing;
use bunkline::mechanics::{Stance, Terrain, Undercarriage, settle};
use bunkline::quantity::{Angle, Length, Quantity, Weight};
use proptest::prelude::*;

/// As a share of the weight: what settling promises of its moment, and so of forces that act metres
/// from the ball.
const STATICS: f64 = 1e-9;

/// An equalizer's displacement comes from sums of metres, rounded at 1e-16 m each.
const DISPLACEMENT: f64 = 1e-12;

/// Twice the width of the pitch's bracket, at the far end of a long trailer.
const PLACE: f64 = 5e-11;

fn settle_level(trailer: &Trailer, wheels: &Undercarriage, xc: f64) -> Stance {
    let body = body(trailer.weight, xc, trailer.zc);
    settle(body, wheels, point((0.0, trailer.ball_height)), &Terrain::level(), Angle::from_si(0.0))
        .expect("a trailer at rest on level ground")
}

proptest! {
    #![proptest_config(cases(3000))]

    /// From pitch, spring forces and displacements alone, in ground axes: nothing is left of any force
    /// or moment, and no equalizer could move to where the springs hold less energy.
    #[test]
    fn a_stance_is_in_equilibrium(position in any_position()) {
        let stance = position.settle().expect("a trailer at rest");
        let (trailer, pitch) = (&position.trailer, stance.pitch.si());
        let tolerance = STATICS * trailer.weight;

        let hubs = trailer.hubs(&position.ground, position.ball, pitch);
        let springs = si(&stance.spring_forces);
        let expected = reactions(trailer, &hubs, pitch, &springs);
        prop_assert!(expected.moment_left.abs() < STATICS, "{expected:?}");
        let off = disagreement(&stance, &expected, trailer.weight);
        prop_assert!(off < STATICS, "{off}: {stance:?} against {expected:?}");

        let q = si(&stance.equalizers);
        let free_lengths = trailer.free_lengths();
        let mut before = 0.0;
        for (i, axle) in trailer.axles.iter().enumerate() {
            // S = k max(0, d − m), m = (q_i − q_{i−1}) / 2
            let available = free_lengths[i] - hubs[i].distance;
            let compression = available - (q[i] - before) / 2.0;
            let carried = axle.force(compression);
            prop_assert!(springs[i] >= 0.0, "axle {i}: {stance:?}");
            prop_assert!((springs[i] - carried).abs() < tolerance, "axle {i}: {stance:?}");
            before = q[i];
            // A spring that is not compressed hangs by what it lacks.
            let off = stance.hang[i].si() - (-compression).max(0.0);
            prop_assert!(off.abs() < PLACE, "axle {i}: {stance:?}");
            let hub = trailer.hub_point(i, &hubs[i], position.ball, pitch);
            let off = (stance.hubs[i].x.si() - hub.0).hypot(stance.hubs[i].z.si() - hub.1);
            prop_assert!(off < PLACE, "axle {i}: {stance:?}");
        }
        prop_assert_eq!(q[q.len() - 1], 0.0);
        for (q, forces) in q.iter().zip(springs.windows(2)) {
            prop_assert!(q.abs() <= trailer.travel + DISPLACEMENT);
            // Going further up unloads the front spring onto the rear one, so the front one, if it
            // carried more, would have it go; and the other way round.
            if *q < trailer.travel - DISPLACEMENT {
                prop_assert!(forces[0] <= forces[1] + tolerance, "{stance:?}");
            }
            if *q > DISPLACEMENT - trailer.travel {
                prop_assert!(forces[0] >= forces[1] - tolerance, "{stance:?}");
            }
        }
    }

    #[test]
    fn the_frame_sits_level_where_it_was_measured(trailer in any_trailer()) {
        let stance = settle_level(&trailer, &trailer.wheels(), trailer.xc);
        let tolerance = STATICS * trailer.weight;
        // The lever on the level: Σ N x = W xc, Σ N + V = W, no pull.
        let loads = si(&stance.axle_loads);
        let moment: f64 = loads.iter().zip(&trailer.axles).map(|(n, axle)| n * axle.station).sum();
        prop_assert!((moment - trailer.weight * trailer.xc).abs() < tolerance * trailer.xc);
        let carried = (stance.on_axles() + stance.tongue_weight).si();
        prop_assert!((carried - trailer.weight).abs() < tolerance);
        prop_assert_eq!(stance.pull.si(), 0.0);
        // The moment left, 1e-12 W xc, over the least stiffness in pitch, k x² − W zc > W x.
        prop_assert!(stance.pitch.si().abs() < 1e-12, "{stance:?}");
    }

    /// The tongue weight on the level says where the weight is.
    #[test]
    fn a_measured_tongue_weight_gives_the_station_back(trailer in any_trailer()) {
        let stance = settle_level(&trailer, &trailer.wheels(), trailer.xc);
        let axles = trailer.measured_axles();
        let springs = axles.iter().map(|axle| axle.spring).collect();
        let sharing = Sharing { springs, equalizer_travel: Length::from_si(trailer.travel) };
        let stations = axles.iter().map(|axle| axle.station).collect();
        let weight = Weight::from_si(trailer.weight);
        let station = sharing.station_from_tongue_weight(weight, stance.tongue_weight, &stations);
        let station = station.expect("a tongue weight below the weight").si();
        // Within a station's length, a share of the weight is as great a share of the lever.
        prop_assert!((station - trailer.xc).abs() < STATICS * trailer.xc, "{station}");
    }

    /// Moving weight aft turns the nose up, and that presses every spring harder: each lever
    /// `x − ℓ tan φ` is positive at the pitches a trailer takes on the level, and no spring lets go
    /// when another is pressed. So it holds for any springs and equalizers, on level ground, with
    /// the weight's centre anywhere behind the ball.
    #[test]
    fn moving_weight_aft_never_raises_tongue_weight(
        trailer in any_trailer(),
        stations in (0.5..1.3, 0.0..0.3),
        raised in -0.15..0.15,
    ) {
        let wheels = trailer.wheels();
        let moved = Trailer { ball_height: trailer.ball_height + raised, ..trailer.clone() };
        let [forward, aft] = [stations.0, stations.0 + stations.1]
            .map(|share| settle_level(&moved, &wheels, share * trailer.xc).tongue_weight.si());
        // Two settlings, each to its own tolerance.
        prop_assert!(aft <= forward + 2.0 * STATICS * trailer.weight, "{forward} then {aft}");
    }

    #[test]
    fn where_the_ground_lies_changes_nothing(
        position in any_position(),
        shift in (-50.0..50.0, -50.0..50.0),
    ) {
        let there = position.settle().expect("a trailer at rest");
        let ball = (position.ball.0 + shift.0, position.ball.1 + shift.1);
        let here = position.trailer.settle(ball, &position.ground.shifted(shift)).expect("the same trailer");
        // A wheel in a sag is settled to a pitch within 1e-12, so its hub, less than a metre off, to 1e-12 m; its
        // stiffness multiplies that. Coordinates of 50 m, rounded at 7e-15 m, are far below.
        let trailer = &position.trailer;
        let hubs = trailer.hubs(&position.ground, position.ball, there.pitch.si());
        let tolerance = STATICS * trailer.weight + 1e-12 * stiffness_in_sag(trailer, &hubs);
        for (here, there) in here.axle_loads.iter().zip(&there.axle_loads) {
            prop_assert!((*here - *there).si().abs() < tolerance, "{here:?} for {there:?}");
        }
        prop_assert!((here.tongue_weight - there.tongue_weight).si().abs() < tolerance);
        prop_assert!((here.pull - there.pull).si().abs() < tolerance);
    }

    /// Springs thirty times too soft give a metre and more, and then a trailer may turn over; none fails
    /// sooner. The stiffest, whose forces round by more than is left of the moment, come up often.
    #[test]
    fn any_rate_settles_unless_springs_give_metres(
        position in any_position(),
        decades in prop_oneof![-3.0..3.0, 2.7..3.0_f64],
    ) {
        match position.trailer.with_rates(10f64.powf(decades)).settle(position.ball, &position.ground) {
            Ok(stance) => {
                let mut all = [stance.pitch.si(), stance.tongue_weight.si(), stance.pull.si()].to_vec();
                all.extend(si(&stance.axle_loads));
                all.extend(si(&stance.spring_forces));
                all.extend(si(&stance.equalizers));
                prop_assert!(all.iter().all(|value| value.is_finite()), "{stance:?}");
            }
            Err(reason) => prop_assert!(decades < -1.5, "{reason:?}"),
        }
    }
}

/// The random positions are worth nothing for a case that they never meet.
#[test]
fn random_positions_meet_every_case() {
    use proptest::strategy::ValueTree;
    let mut runner = proptest::test_runner::TestRunner::new(cases(1));
    let [mut hangs, mut bottoms, mut stops, mut free, mut sags, mut arcs, mut lifts] = [0; 7];
    for _ in 0..1000 {
        let position = any_position().new_tree(&mut runner).expect("a position").current();
        let stance = position.settle().expect("a trailer at rest");
        let trailer = &position.trailer;
        let springs = si(&stance.spring_forces);
        let inner = &si(&stance.equalizers)[..springs.len() - 1];
        let stopped = |q: &f64| q.abs() >= trailer.travel - DISPLACEMENT;
        let hubs = trailer.hubs(&position.ground, position.ball, stance.pitch.si());
        hangs += i32::from(springs.contains(&0.0));
        bottoms += i32::from(
            springs.iter().zip(&trailer.axles).any(|(s, axle)| *s > axle.force(axle.bump_compression())),
        );
        stops += i32::from(trailer.travel > 0.0 && inner.iter().any(stopped));
        free += i32::from(!inner.iter().all(stopped));
        sags += i32::from(
            hubs.iter()
                .zip(&springs)
                .any(|(hub, s)| *s > 0.0 && (hub.slopes[0] - hub.slopes[1]).abs() > 1e-6),
        );
        arcs += i32::from(hubs.iter().any(|hub| {
            position.ground.grades().all(|(_, tangent, _)| (hub.slopes[0].tan() - tangent).abs() > 1e-6)
        }));
        lifts += i32::from(stance.tongue_weight.si() < 0.0);
    }
    let met = [hangs, bottoms, stops, free, sags, arcs, lifts];
    assert!(met.iter().all(|times| *times >= 20), "{met:?}");
}
