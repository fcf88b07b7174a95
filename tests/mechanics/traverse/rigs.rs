//! Whole rigs over ramps in plain SI numbers, worked or random.

use crate::settling::trailers::{Axle, Ground, Point, Trailer, any_trailer, si};
use bunkline::mechanics::Terrain;
use bunkline::mechanics::Undercarriage;
use bunkline::mechanics::ramp::{Convoy, HitchSpring, Instant, TowShape, traverse};
use bunkline::mechanics::terrain::RampRun;
use bunkline::quantity::{Angle, Length, Quantity, Rate, Slope, Weight};
use proptest::collection::vec;
use proptest::prelude::*;

/// A tow vehicle with a trailer before a ramp.
#[derive(Debug, Clone)]
pub struct Rig {
    pub trailer: Trailer,
    pub wheelbase: f64,
    pub overhang: f64,
    /// Of the ball over the tow vehicle's contact line.
    pub ball_height: f64,
    /// Rate of the hitch, with the tongue weight at which it gives nothing.
    pub hitch: Option<(f64, f64)>,
    /// Length and grade, downhill positive.
    pub runs: Vec<(f64, f64)>,
    pub ease: f64,
}

impl Rig {
    /// The ramp as the library has it.
    pub fn terrain(&self) -> Terrain {
        let run =
            |(length, grade): &(f64, f64)| RampRun { length: Length::from_si(*length), grade: Slope(*grade) };
        let runs: Vec<RampRun> = self.runs.iter().map(run).collect();
        Terrain::ramp(&runs, Length::from_si(self.ease)).expect("a ramp of moderate grades")
    }

    /// The ramp with sharp breaks, point by point.
    pub fn ground(&self) -> Ground {
        let mut points = vec![(-100.0, 0.0), (0.0, 0.0)];
        for (length, grade) in &self.runs {
            let (x, z) = points[points.len() - 1];
            points.push((x + length, z - length * grade));
        }
        Ground(points)
    }

    /// The rig over its ramp, its trailer on these wheels.
    pub fn convoy<'a>(&self, wheels: &'a Undercarriage) -> Convoy<'a> {
        Convoy {
            tow: TowShape {
                wheelbase: Length::from_si(self.wheelbase),
                overhang: Length::from_si(self.overhang),
                ball_height: Length::from_si(self.ball_height),
            },
            hitch: self.hitch.map(|(rate, level)| HitchSpring {
                rate: Rate::from_si(rate),
                level_tongue_weight: Weight::from_si(level),
            }),
            body: self.trailer.body(),
            wheels,
        }
    }

    /// The rig with its tow vehicle's rear axle at a place.
    pub fn at(&self, rear_axle: f64) -> Instant {
        let wheels = self.trailer.wheels();
        self.convoy(&wheels)
            .at(&self.terrain(), Length::from_si(rear_axle), Angle::from_si(0.0))
            .expect("a trailer at rest")
    }

    /// Everything that is visited up to the end of the last run, a step apart.
    pub fn crossing(&self, step: f64) -> Vec<Instant> {
        let wheels = self.trailer.wheels();
        let end = Length::from_si(self.runs.iter().map(|(length, _)| length).sum());
        let mut visited = Vec::new();
        let follow = |instant: &Instant, values: &mut Vec<f64>| {
            values.extend(followed(instant).iter().flat_map(|value| [*value, -value]));
        };
        traverse(&self.convoy(&wheels), &self.terrain(), end, Length::from_si(step), follow, |instant| {
            visited.push(instant.clone());
        })
        .expect("a trailer at rest all the way");
        visited
    }

    /// From the ball to the rearmost axle, and the tow vehicle's rear axle to the ball.
    pub fn reach(&self) -> f64 {
        self.overhang + self.trailer.axles.last().map_or(0.0, |axle| axle.station)
    }
}

/// Every load, and how far every wheel hangs: what a crossing follows to its greatest and its least.
pub fn followed(instant: &Instant) -> Vec<f64> {
    let stance = &instant.stance;
    let ball = [stance.tongue_weight.si(), stance.pull.si()];
    si(&stance.axle_loads).into_iter().chain(ball).chain(stance.hang.iter().map(|hang| hang.si())).collect()
}

/// A ground point as two numbers.
pub fn pair(at: bunkline::mechanics::GroundPoint) -> Point {
    (at.x.si(), at.z.si())
}

/// A triple of hand-workable numbers, sprung apart, behind a tow vehicle whose ball holds its frame level.
pub fn triple() -> Rig {
    let axle = |station| Axle { station, radius: 0.35, suspension: 4e5, tires: 8e5, bump: 0.1 };
    Rig {
        trailer: Trailer {
            weight: 44e3,
            xc: 6.0,
            zc: 0.8,
            level_xc: 6.0,
            axles: [5.5, 6.2, 6.9].map(axle).to_vec(),
            travel: 0.0,
            ball_height: 0.5,
        },
        wheelbase: 4.0,
        overhang: 1.25,
        ball_height: 0.5,
        hitch: None,
        runs: vec![(30.0, 0.12)],
        ease: 0.0,
    }
}

/// One to six axles over one to three runs, at most 12 points of grade apart, sharp breaks.
pub fn any_rig() -> impl Strategy<Value = Rig> {
    let runs = vec((1.0..12.0, -0.06..0.12), 1..=3);
    (any_trailer(), 2.4..4.5, 0.6..1.6, -0.08..0.08, runs).prop_map(
        |(trailer, wheelbase, overhang, off, changes): (Trailer, _, _, f64, Vec<(f64, f64)>)| {
            let mut grade: f64 = 0.0;
            let runs = changes.into_iter().map(|(length, change)| {
                grade = (grade + change).clamp(-0.1, 0.3);
                (length, grade)
            });
            let (ball_height, runs) = (trailer.ball_height + off, runs.collect());
            Rig { trailer, wheelbase, overhang, ball_height, hitch: None, runs, ease: 0.0 }
        },
    )
}

/// As [`any_rig`], its breaks eased or sharp.
pub fn any_eased_rig() -> impl Strategy<Value = Rig> {
    (any_rig(), 0.1..0.9).prop_map(|(rig, share)| {
        let shortest = rig.runs.iter().map(|(length, _)| *length).fold(f64::INFINITY, f64::min);
        Rig { ease: share * shortest, ..rig }
    })
}
