//! Loads follow the ball without jumps.

use crate::settling::positions::any_position;
use crate::settling::statics::{greatest, stiffness_in_sag};
use crate::settling::trailers::{Ground, Point, Position, Trailer, cases, si};
use bunkline::mechanics::Stance;
use bunkline::quantity::Quantity;
use proptest::prelude::*;

/// All forces of a stance.
fn forces(stance: &Stance) -> Vec<f64> {
    let mut all = si(&stance.axle_loads);
    all.extend([stance.tongue_weight.si(), stance.pull.si()]);
    all
}

/// The greatest change of any force between two stances.
fn change(from: &Stance, to: &Stance) -> f64 {
    greatest(forces(from).iter().zip(forces(to)).map(|(a, b)| a - b))
}

/// The length at which halving ends.
const STEP: f64 = 1e-10;

/// The greatest change that is left when the way of the ball is halved, always keeping the
/// half with the greater change; and the stance there.
fn change_that_is_left(
    trailer: &Trailer,
    ground: &Ground,
    mut from: Point,
    mut to: Point,
) -> (f64, Stance, Point) {
    let settle = |ball, near: f64| trailer.settle_near(ball, ground, near).expect("a trailer at rest");
    let mut at_from = settle(from, 0.0);
    let mut at_to = settle(to, at_from.pitch.si());
    while (to.0 - from.0).hypot(to.1 - from.1) > STEP {
        let middle = (f64::midpoint(from.0, to.0), f64::midpoint(from.1, to.1));
        let at_middle = settle(middle, at_from.pitch.si());
        if change(&at_from, &at_middle) > change(&at_middle, &at_to) {
            (to, at_to) = (middle, at_middle);
        } else {
            (from, at_from) = (middle, at_middle);
        }
    }
    (change(&at_from, &at_to), at_from, from)
}

proptest! {
    #![proptest_config(cases(500))]

    /// Over crests and sags, wheels lifting and landing, equalizers stopping and springs bottoming.
    #[test]
    fn no_jump_survives_refinement(position in any_position(), step in (-0.3..0.3, -0.1..0.1)) {
        let Position { mut trailer, ground, ball } = position;
        // Frames well above their hubs: as ℓ nears zero, a wheel passes a sag at once.
        trailer.ball_height += 0.3;
        let ball = (ball.0, ball.1 + 0.3);
        let to = (ball.0 + step.0, ball.1 + step.1);
        let (left, stance, at) = change_that_is_left(&trailer, &ground, ball, to);
        let hubs = trailer.hubs(&ground, at, stance.pitch.si());
        let explained = stiffness_in_sag(&trailer, &hubs) * STEP;
        prop_assert!(left < explained, "{left} N of {} N, {explained} N explained", trailer.weight);
    }
}
