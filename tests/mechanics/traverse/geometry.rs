//! Where everything is, worked out again: chords by halving, rotations by multiplying complex numbers.

use crate::settling::trailers::{Point, cases};
use crate::traverse::rigs::{Rig, any_eased_rig, any_rig, pair};
use bunkline::mechanics::terrain::RampRun;
use bunkline::mechanics::{FramePoint, Terrain};
use bunkline::quantity::{Length, Quantity, Slope};
use proptest::prelude::*;

/// Coordinates of some tens of metres, a few roundings each.
const PLACE: f64 = 1e-12;

/// The ramp as it is meant, with true parabolas at the breaks.
fn meant_height(rig: &Rig, x: f64) -> f64 {
    // A grade that changes by c over an ease L about a break adds c u² / 2L, u from the curve's beginning,
    // and c (x − break) past its end.
    let (mut z, mut at, mut before) = (0.0, 0.0, 0.0);
    for (length, grade) in &rig.runs {
        let (change, u) = (-grade - before, x - (at - rig.ease / 2.0));
        z += if u <= 0.0 {
            0.0
        } else if u < rig.ease {
            change * u * u / (2.0 * rig.ease)
        } else {
            change * (x - at)
        };
        at += length;
        before = -grade;
    }
    z
}

/// `a` turned by the angle whose cosine and sine are `by`: the product of two complex numbers.
fn turned(a: Point, by: Point) -> Point {
    (a.0 * by.0 - a.1 * by.1, a.0 * by.1 + a.1 * by.0)
}

fn far(a: Point, b: Point) -> f64 {
    (a.0 - b.0).hypot(a.1 - b.1)
}

proptest! {
    #![proptest_config(cases(400))]

    #[test]
    fn a_curve_is_a_parabola_within_its_chords(rig in any_eased_rig(), share in 0.0..1.0) {
        let terrain = rig.terrain();
        let end: f64 = rig.runs.iter().map(|(length, _)| length).sum();
        for i in 0..200 {
            let x = -5.0 + (end + 10.0) * (f64::from(i) + share) / 200.0;
            let off = terrain.height(Length::from_si(x)).si() - meant_height(&rig, x);
            // What chords are allowed to miss.
            prop_assert!(off.abs() <= 5e-5 + PLACE, "{off} at {x}");
        }
    }

    #[test]
    fn breaks_are_where_they_are_stated(rig in any_rig()) {
        let terrain = rig.terrain();
        let height = |x: f64| terrain.height(Length::from_si(x)).si();
        let (mut x, mut z, mut before) = (0.0, 0.0, 0.0);
        for (length, grade) in &rig.runs {
            prop_assert!((height(x) - z).abs() < PLACE);
            // A hand before and behind, each on its own grade.
            prop_assert!((height(x - 0.1) - (z + 0.1 * before)).abs() < PLACE);
            prop_assert!((height(x + 0.1) - (z - 0.1 * grade)).abs() < PLACE);
            (x, z, before) = (x + length, z - length * grade, *grade);
        }
    }

    #[test]
    fn the_tow_vehicle_stands_on_both_axles(rig in any_eased_rig(), along in 0.0..1.0) {
        let terrain = rig.terrain();
        let end: f64 = rig.runs.iter().map(|(length, _)| length).sum();
        let rear = -rig.reach() - 1.0 + along * (end + rig.reach() + 4.0);
        let instant = rig.at(rear);
        let ground = |x: f64| (x, terrain.height(Length::from_si(x)).si());
        let contact = ground(rear);
        // The front contact is where the ground leaves the circle of the wheelbase about the rear one.
        let (mut outside, mut inside) = (rear - rig.wheelbase - 0.01, rear);
        while inside - outside > 1e-14 * rear.abs().max(1.0) {
            let middle = f64::midpoint(outside, inside);
            if middle == outside || middle == inside {
                break;
            }
            if far(ground(middle), contact) > rig.wheelbase { outside = middle } else { inside = middle }
        }
        let front = ground(inside);
        prop_assert!(far(pair(instant.rear.at), contact) < PLACE);
        prop_assert!(far(pair(instant.front.at), front) < 10.0 * PLACE, "{:?} {front:?}", instant.front);

        // The ball, in the tow vehicle's own axes turned into its line.
        let line = ((contact.0 - front.0) / rig.wheelbase, (contact.1 - front.1) / rig.wheelbase);
        let to_ball = turned((rig.overhang, rig.ball_height), line);
        let ball = (contact.0 + to_ball.0, contact.1 + to_ball.1);
        prop_assert!(far(pair(instant.ball), ball) < 10.0 * PLACE);

        // A low point of the tow vehicle, and one of the trailer, whose nose up turns it the other way.
        let spare = turned((0.8, 0.25), line);
        let found = pair(instant.tow_point(Length::from_si(0.8), Length::from_si(0.25)));
        prop_assert!(far(found, (contact.0 + spare.0, contact.1 + spare.1)) < 10.0 * PLACE);
        let (sin, cos) = instant.stance.pitch.si().sin_cos();
        for (x, z) in [(0.0, 0.0), (8.1, -0.2), (0.9, 1.6)] {
            let frame = FramePoint { x: Length::from_si(x), z: Length::from_si(z), y: Length::default() };
            let offset = turned((x, z), (cos, -sin));
            let expected = (ball.0 + offset.0, ball.1 + offset.1);
            let found = instant.trailer_point(frame);
            prop_assert!(far(pair(found), expected) < 10.0 * PLACE);
            // Along the tow vehicle's line: turned back, the first coordinate.
            let from_axle = (expected.0 - contact.0, expected.1 - contact.1);
            let back = turned(from_axle, (line.0, -line.1));
            prop_assert!((instant.aft_of_rear_axle(found).si() - back.0).abs() < 10.0 * PLACE);
        }

        // The position is that of the rearmost hub.
        let last = instant.stance.hubs.len() - 1;
        prop_assert_eq!(instant.position, instant.stance.hubs[last].x);
    }
}

proptest! {
    #![proptest_config(cases(2000))]

    /// A grade of 100 % is allowed, and no rounding of where its points lie makes it steeper.
    #[test]
    fn a_grade_of_100_percent_makes_a_ramp(
        lengths in prop::collection::vec(0.3..30.0, 1..4),
        ease in prop_oneof![Just(0.0), 0.01..0.29],
        down in any::<bool>(),
        turn in prop_oneof![Just(1.0), Just(-1.0)],
    ) {
        let mut grade: f64 = if down { 1.0 } else { -1.0 };
        let runs = lengths.into_iter().map(|length| {
            // Straight on, or back and forth.
            grade *= turn;
            RampRun { length: Length::from_si(length), grade: Slope(grade) }
        });
        let made = Terrain::ramp(&runs.collect::<Vec<_>>(), Length::from_si(ease));
        prop_assert!(made.is_ok(), "{made:?}");
    }
}
