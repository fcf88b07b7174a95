//! Whole rigs at random positions, settled by least energy on hub lines of the test's own.

use crate::settling::energy::Energy;
use crate::settling::statics::{disagreement, reactions};
use crate::settling::trailers::{Position, cases};
use crate::traverse::rigs::{any_rig, pair};
use bunkline::quantity::Quantity;
use proptest::prelude::*;

proptest! {
    #![proptest_config(cases(500))]

    #[test]
    fn a_rig_rests_where_its_energy_is_least(rig in any_rig(), along in 0.0..1.0) {
        let end: f64 = rig.runs.iter().map(|(length, _)| length).sum();
        let instant = rig.at(-rig.reach() - 1.0 + along * (end + rig.reach() + 1.0));
        // The ball is the geometry's to prove.
        let position = Position { trailer: rig.trailer.clone(), ground: rig.ground(), ball: pair(instant.ball) };
        let pitch = instant.stance.pitch.si();
        let mut energy = Energy::new(&position, pitch);
        // Uneven ends, so that the library's pitch is no point that golden section would try.
        let least = energy.least_between(pitch - 0.013, pitch + 0.021);
        let held = energy.held_at(least);
        let trailer = &position.trailer;
        let expected = reactions(trailer, &held.hubs, least, &held.forces(trailer));
        let off = disagreement(&instant.stance, &expected, trailer.weight);
        // Golden section finds a pitch to the square root of the energy's last digit: 1e-7 of the weight.
        prop_assert!(off < 1e-6, "{off}: {instant:?} against {expected:?} at {least}");
    }
}
