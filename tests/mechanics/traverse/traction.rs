//! What holds the tow vehicle, against elimination of its three equations and a lever.

use super::rigs::{Rig, any_rig};
use crate::settling::trailers::{Axle, Trailer, cases, point};
use approx::assert_abs_diff_eq;
use bunkline::mechanics::ramp::{Contact, Instant};
use bunkline::mechanics::tow::{AtBall, Grip, Hold, Motion, OnRamp, at_ball, hold};
use bunkline::quantity::{Angle, Length, Quantity, Weight};
use proptest::prelude::*;

/// Solves `rows · x = last column` by elimination, the largest pivot first.
fn solved<const N: usize>(mut rows: [[f64; 5]; N]) -> [f64; N] {
    for column in 0..N {
        let pivot = (column..N).max_by(|a, b| rows[*a][column].abs().total_cmp(&rows[*b][column].abs()));
        rows.swap(column, pivot.expect("a row is left"));
        let row = rows[column];
        for (i, other) in rows.iter_mut().enumerate() {
            if i != column {
                let factor = other[column] / row[column];
                for (value, of_row) in other.iter_mut().zip(row) {
                    *value -= factor * of_row;
                }
            }
        }
    }
    std::array::from_fn(|i| rows[i][4] / rows[i][i])
}

/// Up to this friction at both axles the two forces of the ground are far from one line.
const MOST_FRICTION: f64 = 0.8;

/// A tow vehicle in plain numbers.
#[derive(Debug, Clone, Copy)]
struct Tow {
    weight: f64,
    tongue: f64,
    pull: f64,
    centre: (f64, f64),
    front: (f64, f64, f64),
    rear: (f64, f64, f64),
    ball: (f64, f64),
}

impl Tow {
    fn hold(&self, grip: Grip) -> Hold {
        let contact = |(x, z, slope): (f64, f64, f64)| Contact::on(point((x, z)), Angle::from_si(slope));
        let on_ramp = OnRamp {
            weight: Weight::from_si(self.weight),
            centre: point(self.centre),
            front: contact(self.front),
            rear: contact(self.rear),
            ball: point(self.ball),
            at_ball: AtBall { tongue_weight: Weight::from_si(self.tongue), pull: Weight::from_si(self.pull) },
            motion: Motion::Parked,
        };
        hold(&on_ramp, grip)
    }

    /// Normal forces, front and rear, and the forces along the ground, front and rear, with all moments
    /// about the rear contact. At equal friction `μ` the equations are solved for each `μ` and `μ` is halved in.
    fn expected(&self, grip: Grip) -> [f64; 4] {
        let (x0, z0) = (self.rear.0, self.rear.1);
        let at = |(x, z): (f64, f64), (fx, fz): (f64, f64)| [fx, fz, (x - x0) * fz - (z - z0) * fx];
        let foot = |(x, z, slope): (f64, f64, f64)| {
            let (sin, cos) = slope.sin_cos();
            (at((x, z), (-sin, cos)), at((x, z), (cos, sin)))
        };
        let ((nf, tf), (nr, tr)) = (foot(self.front), foot(self.rear));
        let (weight, ball) = (at(self.centre, (0.0, -self.weight)), at(self.ball, (self.pull, -self.tongue)));
        let solve = |along: [f64; 3]| {
            let row = |i: usize| [nf[i], nr[i], along[i], 0.0, -weight[i] - ball[i]];
            solved::<3>([row(0), row(1), row(2)])
        };
        match grip {
            Grip::Front => {
                let [f, r, t] = solve(tf);
                [f, r, t, 0.0]
            }
            Grip::Rear => {
                let [f, r, t] = solve(tr);
                [f, r, 0.0, t]
            }
            Grip::Both => {
                // Forces along the ground Tf and Tr, four unknowns, and a fourth equation Tf Nr = Tr Nf: for a
                // friction μ, Tf = μ Nf and Tr = μ Nr leave the two normals to forces up and moments, and
                // what is then left of the forces aft tells μ.
                let with = |mu: f64| {
                    let (f, r) =
                        ([0, 1, 2].map(|i| nf[i] + mu * tf[i]), [0, 1, 2].map(|i| nr[i] + mu * tr[i]));
                    // Moments and forces up decide; a third unknown takes up the forces aft.
                    let row = |i: usize, aft: f64| [f[i], r[i], aft, 0.0, -weight[i] - ball[i]];
                    solved::<3>([row(0, 1.0), row(1, 0.0), row(2, 0.0)])
                };
                let (mut low, mut high) = (-MOST_FRICTION, MOST_FRICTION);
                let rising = with(high)[2] > with(low)[2];
                for _ in 0..200 {
                    let mu = f64::midpoint(low, high);
                    if (with(mu)[2] > 0.0) == rising { high = mu } else { low = mu }
                }
                let mu = f64::midpoint(low, high);
                let [f, r, _] = with(mu);
                [f, r, mu * f, mu * r]
            }
        }
    }
}

/// Both axles on their own slopes within 30 %, the ball behind, all pulls that a heavy trailer makes.
fn any_tow() -> impl Strategy<Value = Tow> {
    let slopes = (-0.29..0.29, -0.29..0.29);
    let loads = (20e3..45e3, -6e3..9e3, -6e3..12e3);
    (slopes, loads, 2.4..4.5, 0.3..0.7, 0.4..1.0, 0.6..1.6).prop_map(
        |((front, rear), (weight, tongue, pull), wheelbase, share, up, overhang): (
            _,
            _,
            f64,
            f64,
            f64,
            f64,
        )| {
            let line = f64::midpoint(front, rear);
            let along = |aft: f64, up: f64| {
                (3.0 + aft * line.cos() - up * line.sin(), -2.0 + aft * line.sin() + up * line.cos())
            };
            let (f, r) = (along(-wheelbase, 0.0), along(0.0, 0.0));
            Tow {
                weight,
                tongue,
                pull,
                centre: along(-share * wheelbase, up),
                front: (f.0, f.1, front),
                rear: (r.0, r.1, rear),
                ball: along(overhang, 0.5),
            }
        },
    )
}

proptest! {
    #![proptest_config(cases(2000))]

    #[test]
    fn three_equations_hold_it(tow in any_tow()) {
        for grip in [Grip::Front, Grip::Rear, Grip::Both] {
            let [front, rear, t_front, t_rear] = tow.expected(grip);
            let found = tow.hold(grip);
            prop_assert!(found.friction.is_none_or(|friction| friction.si().is_finite()));
            // Where an axle lifts there is no equal friction at both.
            let searched = found.friction.is_some_and(|friction| friction.si() < MOST_FRICTION);
            if grip == Grip::Both && (front <= 0.0 || rear <= 0.0 || !searched) {
                continue;
            }
            // Elimination loses a digit or two; equal friction is searched for by turns, each an eighth of
            // the last at the worst.
            let tolerance = 1e-10 * tow.weight;
            prop_assert!((found.front.si() - front).abs() < tolerance, "{grip:?} {found:?} {front}");
            prop_assert!((found.rear.si() - rear).abs() < tolerance, "{grip:?} {found:?} {rear}");
            let held = match grip {
                Grip::Front => (t_front, front),
                Grip::Rear => (t_rear, rear),
                Grip::Both => (t_front + t_rear, front + rear),
            };
            if held.1 > 100.0 {
                let friction = found.friction.expect("a loaded axle holds").si();
                prop_assert!((friction - (held.0 / held.1).abs()).abs() < 1e-8 * (1.0 + friction));
            } else if held.1 < -100.0 {
                prop_assert_eq!(found.friction, None, "an axle in the air holds nothing");
            }
        }
    }

    /// From the outputs alone: nothing is left of forces and of the moment about the ball.
    #[test]
    fn its_forces_are_in_balance(tow in any_tow()) {
        for grip in [Grip::Front, Grip::Rear, Grip::Both] {
            let found = tow.hold(grip);
            let (Some(friction), front, rear) = (found.friction, found.front.si(), found.rear.si()) else {
                continue;
            };
            if front < 0.0 || rear < 0.0 {
                continue;
            }
            let left = |mu: f64| {
                let (grips_front, grips_rear) = (grip != Grip::Rear, grip != Grip::Front);
                let (mut aft, mut up) = (tow.pull, -tow.weight - tow.tongue);
                let mut moment = -tow.weight * (tow.centre.0 - tow.ball.0);
                for ((x, z, slope), normal, grips) in
                    [(tow.front, front, grips_front), (tow.rear, rear, grips_rear)]
                {
                    let along = if grips { mu * normal } else { 0.0 };
                    let (fx, fz) =
                        (along * slope.cos() - normal * slope.sin(), along * slope.sin() + normal * slope.cos());
                    aft += fx;
                    up += fz;
                    moment += (x - tow.ball.0) * fz - (z - tow.ball.1) * fx;
                }
                aft.abs().max(up.abs()).max(moment.abs())
            };
            // Which way it holds is not told.
            let left = left(friction.si()).min(left(-friction.si()));
            prop_assert!(left < 1e-8 * tow.weight, "{grip:?}: {left} {found:?}");
        }
    }
}

/// 40 kN with 55 % in front, 4 m between axles, its weight 0.8 m up, the ball 1.2 m behind and 0.5 m up,
/// on a grade that falls aft by `slope`.
fn on_grade(slope: f64, tongue: f64, pull: f64) -> Tow {
    let (sin, cos) = slope.sin_cos();
    // Aft along the line and up from it, the line falling aft.
    let along = |aft: f64, up: f64| (aft * cos + up * sin, -aft * sin + up * cos);
    let (front, rear) = (along(-4.0, 0.0), along(0.0, 0.0));
    Tow {
        weight: 40e3,
        tongue,
        pull,
        centre: along(-2.2, 0.8),
        front: (front.0, front.1, -slope),
        rear: (rear.0, rear.1, -slope),
        ball: along(1.2, 0.5),
    }
}

#[test]
fn on_the_level_nothing_slides() {
    for grip in [Grip::Front, Grip::Rear, Grip::Both] {
        let found = on_grade(0.0, 3e3, 0.0).hold(grip);
        // R = 18 + 3 · 5.2 / 4 = 21.9 kN, F = 22 − 3 · 1.2 / 4 = 21.1 kN. Arithmetic only.
        assert_abs_diff_eq!(found.rear.si(), 21.9e3, epsilon = 1e-7);
        assert_abs_diff_eq!(found.front.si(), 21.1e3, epsilon = 1e-7);
        assert_abs_diff_eq!(found.friction.expect("loaded").si(), 0.0, epsilon = 1e-12);
    }
}

#[test]
fn alone_on_a_grade_its_weight_moves_down_the_grade() {
    let slope: f64 = 0.15;
    let (sin, cos) = slope.sin_cos();
    // T = W sin β; about the front contact N_r 4 = W cos β 1.8 + W sin β 0.8: nose up, the rear gains.
    let rear = 40e3 * (cos * 1.8 + sin * 0.8) / 4.0;
    let front = 40e3 * cos - rear;
    for (grip, held_by) in [(Grip::Front, front), (Grip::Rear, rear), (Grip::Both, front + rear)] {
        let found = on_grade(slope, 0.0, 0.0).hold(grip);
        assert_abs_diff_eq!(found.rear.si(), rear, epsilon = 1e-7);
        assert_abs_diff_eq!(found.front.si(), front, epsilon = 1e-7);
        assert_abs_diff_eq!(found.friction.expect("loaded").si(), 40e3 * sin / held_by, epsilon = 1e-12);
    }
}

#[test]
fn a_pull_at_the_ball_loads_the_rear_axle_by_its_height() {
    // 8 kN aft, 0.5 m up, on the level: the front loses 8 · 0.5 / 4 = 1 kN, the rear gains it.
    let found = on_grade(0.0, 0.0, 8e3).hold(Grip::Rear);
    assert_abs_diff_eq!(found.rear.si(), 19e3, epsilon = 1e-7);
    assert_abs_diff_eq!(found.front.si(), 21e3, epsilon = 1e-7);
    assert_abs_diff_eq!(found.friction.expect("loaded").si(), 8.0 / 19.0, epsilon = 1e-12);
}

#[test]
fn a_lifted_axle_holds_nothing() {
    // Lifting with 14 kN: R = 18 − 14 · 5.2 / 4 = −0.2 kN.
    let tow = on_grade(0.0, -14e3, 1e3);
    assert_eq!(tow.hold(Grip::Rear).friction, None);
    // All that is left is on the front: F = 22 + 14 · 1.2 / 4 = 26.2 kN, and the pull takes 1 · 0.5 / 4 off it.
    let both = tow.hold(Grip::Both).friction.expect("the front holds").si();
    assert_abs_diff_eq!(both, 1.0 / (26.2 - 0.125), epsilon = 1e-12);
    // Pressing with 80 kN: F = 22 − 80 · 1.2 / 4 = −2 kN.
    assert_eq!(on_grade(0.0, 80e3, 1e3).hold(Grip::Front).friction, None);
}

/// What holds a rig's tow vehicle, of this weight and with its centre of gravity so far ahead of its rear axle and so
/// high over its contact line.
fn held(
    rig: &Rig,
    instant: &Instant,
    (weight, ahead, up): (f64, f64, f64),
    motion: Motion,
    grip: Grip,
) -> Hold {
    let Instant { front, rear, ball, stance, .. } = instant;
    let centre = instant.tow_point(Length::from_si(-ahead), Length::from_si(up));
    let at_ball = at_ball(rig.trailer.body(), stance, *ball, motion);
    let (front, rear, ball, weight) = (*front, *rear, *ball, Weight::from_si(weight));
    hold(&OnRamp { weight, centre, front, rear, ball, at_ball, motion }, grip)
}

/// Pounds and inches: 10,371 lb on one axle 240 in behind the ball, 907 lb of it on the tongue, behind a rear-driven
/// tow vehicle of 4,300 and 3,400 lb, on a grade.
fn pulling_out(grade: f64) -> (Rig, (f64, f64, f64)) {
    let xc = 240.0 * (1.0 - 907.0 / 10_371.0);
    // So stiff that the frame stays parallel to the ground.
    let axles = vec![Axle { station: 240.0, radius: 14.0, suspension: 1e12, tires: 1e12, bump: 10.0 }];
    let trailer =
        Trailer { weight: 10_371.0, xc, zc: 24.0, level_xc: xc, axles, travel: 0.0, ball_height: 20.0 };
    let runs = vec![(2000.0, grade)];
    let rig =
        Rig { trailer, wheelbase: 157.0, overhang: 50.0, ball_height: 20.0, hitch: None, runs, ease: 0.0 };
    (rig, (7700.0, 157.0 * 4300.0 / 7700.0, 28.0))
}

/// By hand in axes along and normal to the grade, each axle's rolling resistance along it. Parked: N = 9,520, V = 799 and
/// H = 1,032, T = 18,071 sin β = 1,798, Nr = 4,705. Steady: T is 0.015 × 18,071 cos β more, 2,068, and Nr 4,728. Starting: T is
/// 0.03 × 18,071 more than that, 2,610, the trailer's inertia takes 29 lb off the tongue and the tow vehicle's presses
/// its rear axle, Nr = 4,768.
#[test]
fn pulling_out_needs_more_than_parking() {
    let (rig, tow) = pulling_out(0.1);
    let instant = rig.at(800.0);
    for (motion, rear, friction) in [
        (Motion::Parked, 4_705.087, 0.382_167_5),
        (Motion::Steady, 4_727.977, 0.437_364_9),
        (Motion::Start, 4_767.862, 0.547_411_2),
    ] {
        let found = held(&rig, &instant, tow, motion, Grip::Rear);
        // The figures by hand, rounded to their last digit.
        assert_abs_diff_eq!(found.rear.si(), rear, epsilon = 6e-4);
        assert_abs_diff_eq!(found.friction.expect("loaded").si(), friction, epsilon = 6e-8);
    }
}

/// On the level T is 0.045 × 18,071 = 813.2 lb, whichever axles drive.
#[test]
fn starting_on_the_level_takes_friction_too() {
    let (rig, tow) = pulling_out(0.0);
    let instant = rig.at(800.0);
    for grip in [Grip::Front, Grip::Rear, Grip::Both] {
        let found = held(&rig, &instant, tow, Motion::Start, grip);
        let held_by = match grip {
            Grip::Front => found.front,
            Grip::Rear => found.rear,
            Grip::Both => found.front + found.rear,
        };
        let along = found.friction.expect("loaded").si() * held_by.si();
        assert_abs_diff_eq!(along, 0.045 * 18_071.0, epsilon = 1e-6);
        assert_abs_diff_eq!(
            held(&rig, &instant, tow, Motion::Parked, grip).friction.expect("loaded").si(),
            0.0,
            epsilon = 1e-12
        );
    }
}

proptest! {
    #![proptest_config(cases(2000))]

    #[test]
    fn starting_needs_more_than_going_and_that_more_than_parking(
        rig in any_rig(),
        place in 0.0..1.0,
        (weight, share, up) in (20e3..45e3, 0.4..0.65, 0.4..1.0),
    ) {
        let end: f64 = rig.runs.iter().map(|(length, _)| length).sum();
        let instant = rig.at(-rig.reach() + place * (end + rig.reach()));
        let tow = (weight, share * rig.wheelbase, up);
        let [parked, steady, start] = [Motion::Parked, Motion::Steady, Motion::Start].map(|motion| {
            let friction = held(&rig, &instant, tow, motion, Grip::Rear).friction;
            friction.map_or(f64::INFINITY, Quantity::si)
        });
        // More than 1 no ground gives. Rear wheels that are all but lifted need so much; starting then presses them down.
        let asked = instant.stance.pull.si() > 0.0 && parked < 1.0;
        // On ground that falls forward the tow vehicle itself may push the rig out.
        if asked && instant.front.slope().si() <= 0.0 && instant.rear.slope().si() <= 0.0 {
            prop_assert!(parked < steady && steady < start, "{parked} {steady} {start}");
        }
    }
}
