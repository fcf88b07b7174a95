//! Trailers that come to no rest, and points that make no ground.

use crate::settling::trailers::{Axle, Ground, Trailer, body, point};
use bunkline::mechanics::terrain::BadTerrain;
use bunkline::mechanics::{GroundPoint, Terrain, Undercarriage, Unsettled, settle};
use bunkline::quantity::{Angle, Length, Quantity};

fn trailer() -> Trailer {
    let axle = |station| Axle { station, radius: 0.36, suspension: 400e3, tires: 700e3, bump: 0.1 };
    Trailer {
        weight: 30e3,
        xc: 5.5,
        zc: 0.7,
        level_xc: 5.5,
        axles: vec![axle(5.7), axle(6.6)],
        travel: 0.05,
        ball_height: 0.5,
    }
}

fn rest_of(body: bunkline::mechanics::Body, wheels: &Undercarriage, ball_height: f64) -> Option<Unsettled> {
    settle(body, wheels, point((0.0, ball_height)), &Terrain::level(), Angle::from_si(0.0)).err()
}

#[test]
fn weight_ahead_of_the_ball_tips_over_it() {
    let trailer = trailer();
    let ahead = body(30e3, -0.2, 0.7);
    assert_eq!(rest_of(ahead, &trailer.wheels(), 0.5), Some(Unsettled::TipsOverBall));
    let [travel, ball_height] = [trailer.travel, trailer.ball_height].map(Length::from_si);
    let level = Undercarriage::level_under(ahead, &trailer.measured_axles(), travel, ball_height);
    assert_eq!(level, Err(Unsettled::TipsOverBall));
}

#[test]
fn ground_far_below_supports_nothing() {
    let trailer = trailer();
    // At 44° nose up the rear axle hangs 6.6 sin 44° = 4.6 m below the ball, and its wheel less than
    // 0.6 m below that.
    assert_eq!(rest_of(trailer.body(), &trailer.wheels(), 5.5), Some(Unsettled::NoSupport));
    assert_eq!(rest_of(trailer.body(), &trailer.wheels(), 4.5), None);
}

#[test]
fn no_axles_support_nothing() {
    let trailer = trailer();
    let none = trailer.wheels().without_rear_axle().without_rear_axle();
    assert_eq!(rest_of(trailer.body(), &none, 0.5), Some(Unsettled::NoSupport));
}

#[test]
fn points_must_make_a_ground() {
    let through = |points: &[(f64, f64)]| {
        let points: Vec<GroundPoint> = points.iter().copied().map(point).collect();
        Terrain::through(&points).err()
    };
    assert_eq!(through(&[]), Some(BadTerrain::TooFewPoints(0)));
    assert_eq!(through(&[(0.0, 0.0)]), Some(BadTerrain::TooFewPoints(1)));
    assert_eq!(through(&[(0.0, 0.0), (1.0, 0.0), (1.0, -1.0)]), Some(BadTerrain::NotAft(3)));
    assert_eq!(through(&[(0.0, 0.0), (-1.0, 0.0)]), Some(BadTerrain::NotAft(2)));
    assert_eq!(through(&[(0.0, 0.0), (f64::NAN, 0.0)]), Some(BadTerrain::NotAft(2)));
    assert_eq!(through(&[(0.0, 0.0), (1.0, f64::INFINITY)]), Some(BadTerrain::NotAft(2)));
    assert_eq!(through(&[(0.0, f64::NAN), (1.0, 0.0)]), Some(BadTerrain::NotAft(2)));
    assert_eq!(through(&[(0.0, 0.0), (f64::INFINITY, 0.0)]), Some(BadTerrain::NotAft(2)));
    assert_eq!(through(&[(f64::NEG_INFINITY, 0.0), (0.0, 0.0)]), Some(BadTerrain::NotAft(2)));
    // A grade of 100 % is the steepest.
    assert_eq!(through(&[(0.0, 0.0), (1.0, -1.0)]), None);
    assert_eq!(through(&[(0.0, 0.0), (2.0, 0.0), (3.0, 1.001)]), Some(BadTerrain::TooSteep(3)));
}

#[test]
fn a_shallow_grade_far_steeper_than_any_ramp_still_settles() {
    let trailer = trailer();
    let slope = -0.7_f64;
    let ball = (-trailer.ball_height * slope.sin(), trailer.ball_height * slope.cos());
    assert!(trailer.settle(ball, &Ground::grade(slope)).is_ok());
}
