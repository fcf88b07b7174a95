//! Trailers and grounds in plain SI numbers, worked or random, and their way into the library's types.

pub use crate::cases::cases;
use bunkline::mechanics::road::settle::MeasuredAxle;
use bunkline::mechanics::{
    Body, FramePoint, GroundPoint, PerAxle, Spring, Stance, Terrain, Undercarriage, Unsettled, settle,
};
use bunkline::quantity::{Angle, Length, Quantity, Rate, Weight};
use proptest::collection::vec;
use proptest::prelude::*;

/// One axle with its tires.
#[derive(Debug, Clone, Copy)]
pub struct Axle {
    pub station: f64,
    pub radius: f64,
    pub suspension: f64,
    pub tires: f64,
    pub bump: f64,
}

/// A loaded trailer.
#[derive(Debug, Clone)]
pub struct Trailer {
    pub weight: f64,
    pub xc: f64,
    pub zc: f64,
    /// Where the weight stood when the frame sat level, the ball at `ball_height` over level ground.
    pub level_xc: f64,
    pub axles: Vec<Axle>,
    pub travel: f64,
    pub ball_height: f64,
}

/// A point of the ground's plane: aft, up.
pub type Point = (f64, f64);

/// The ground through these points, forward to aft.
#[derive(Debug, Clone)]
pub struct Ground(pub Vec<Point>);

impl Axle {
    /// The rate of suspension and tires in series.
    pub fn rate(&self) -> f64 {
        1.0 / (1.0 / self.suspension + 1.0 / self.tires)
    }

    /// The rate past the bump, where the suspension is ten times as stiff.
    pub fn bumped_rate(&self) -> f64 {
        1.0 / (0.1 / self.suspension + 1.0 / self.tires)
    }

    /// The compression of suspension and tires together at which the suspension bottoms.
    pub fn bump_compression(&self) -> f64 {
        self.bump * (1.0 + self.suspension / self.tires)
    }

    /// The spring's force at a compression.
    pub fn force(&self, compression: f64) -> f64 {
        let short_of_bump = compression.clamp(0.0, self.bump_compression());
        let past_bump = (compression - self.bump_compression()).max(0.0);
        self.rate() * short_of_bump + self.bumped_rate() * past_bump
    }

    /// The energy stored in the spring at a compression.
    pub fn energy(&self, compression: f64) -> f64 {
        let short_of_bump = compression.clamp(0.0, self.bump_compression());
        let past_bump = (compression - self.bump_compression()).max(0.0);
        0.5 * self.rate() * short_of_bump.powi(2)
            + (self.rate() * self.bump_compression() + 0.5 * self.bumped_rate() * past_bump) * past_bump
    }

    fn measured(&self) -> MeasuredAxle {
        MeasuredAxle {
            station: Length::from_si(self.station),
            wheel_radius: Length::from_si(self.radius),
            spring: Spring::new(
                Rate::from_si(self.suspension),
                Rate::from_si(self.tires),
                Length::from_si(self.bump),
            ),
        }
    }
}

impl Trailer {
    /// Its weight, at its centre of gravity.
    pub fn body(&self) -> Body {
        body(self.weight, self.xc, self.zc)
    }

    /// Its undercarriage.
    pub fn wheels(&self) -> Undercarriage {
        let measured = body(self.weight, self.level_xc, self.zc);
        let [travel, ball_height] = [self.travel, self.ball_height].map(Length::from_si);
        Undercarriage::level_under(measured, &self.measured_axles(), travel, ball_height)
            .expect("a trailer measured with its weight behind the ball")
    }

    /// The free length of each hub.
    pub fn free_lengths(&self) -> Vec<f64> {
        self.wheels().axles.iter().map(|axle| axle.free_length.si()).collect()
    }

    /// Its axles as measured.
    pub fn measured_axles(&self) -> PerAxle<MeasuredAxle> {
        self.axles.iter().map(Axle::measured).collect()
    }

    /// Where it rests with its ball held at a point, coming from no pitch.
    pub fn settle(&self, ball: Point, ground: &Ground) -> Result<Stance, Unsettled> {
        self.settle_near(ball, ground, 0.0)
    }

    /// Where it rests with its ball held at a point, coming from a pitch.
    pub fn settle_near(&self, ball: Point, ground: &Ground, pitch: f64) -> Result<Stance, Unsettled> {
        settle(self.body(), &self.wheels(), point(ball), &ground.terrain(), Angle::from_si(pitch))
    }

    /// Where it rests on level ground at `Z = 0`, its ball at a height.
    pub fn settle_level(&self, ball_height: f64) -> Result<Stance, Unsettled> {
        settle(self.body(), &self.wheels(), point((0.0, ball_height)), &Terrain::level(), Angle::from_si(0.0))
    }

    /// The same trailer with every spring's rate multiplied.
    pub fn with_rates(&self, factor: f64) -> Self {
        let mut scaled = self.clone();
        for axle in &mut scaled.axles {
            axle.suspension *= factor;
            axle.tires *= factor;
        }
        scaled
    }
}

impl Ground {
    /// The library's terrain through the same points.
    pub fn terrain(&self) -> Terrain {
        let points: Vec<GroundPoint> = self.0.iter().copied().map(point).collect();
        Terrain::through(&points).expect("points that run aft without cliffs")
    }

    /// One grade for ever, through the origin; `slope` is its angle, up going aft.
    pub fn grade(slope: f64) -> Self {
        Self(vec![(-slope.cos(), -slope.sin()), (slope.cos(), slope.sin())])
    }

    /// The same ground elsewhere.
    pub fn shifted(&self, (dx, dz): Point) -> Self {
        Self(self.0.iter().map(|(x, z)| (x + dx, z + dz)).collect())
    }
}

pub fn body(weight: f64, xc: f64, zc: f64) -> Body {
    let at = FramePoint { x: Length::from_si(xc), z: Length::from_si(zc), ..FramePoint::default() };
    Body { weight: Weight::from_si(weight), at }
}

pub fn point((x, z): Point) -> GroundPoint {
    GroundPoint { x: Length::from_si(x), z: Length::from_si(z) }
}

/// Each of an axle's values, front to rear, in SI.
pub fn si<Q: Quantity>(values: &[Q]) -> Vec<f64> {
    values.iter().map(|value| value.si()).collect()
}

/// One to six unequal axles, sprung apart or with equalizers; some bottom under their share already.
pub fn any_trailer() -> impl Strategy<Value = Trailer> {
    // Spacing, radius, suspension's deflection under an equal share, tires, bump.
    let axle = (0.75..1.3, 0.2..0.5, 0.02..0.12, 4e5..1e6, 0.03..0.14);
    let travel = prop_oneof![1 => Just(0.0), 2 => 0.003..0.1];
    (vec(axle, 1..=6), 8e3..20e3, 3.0..7.0, 0.8..0.99, -0.1..1.5, travel, 0.35..0.75).prop_map(
        |(parts, share, tongue_length, balance, zc, travel, ball_height)| {
            let mut station = tongue_length;
            let axle = |(spacing, radius, deflection, tires, bump)| {
                station += spacing;
                Axle { station, radius, suspension: share / deflection, tires, bump }
            };
            let axles: Vec<Axle> = parts.into_iter().map(axle).collect();
            let count = axles.len() as f64;
            let mean_station = axles.iter().map(|axle| axle.station).sum::<f64>() / count;
            let xc = balance * mean_station;
            Trailer { weight: share * count, xc, zc, level_xc: xc, axles, travel, ball_height }
        },
    )
}

/// Up to eight grades within ±35 %, many shorter than a wheel's radius, near the origin.
pub fn any_ground() -> impl Strategy<Value = Ground> {
    let run = prop_oneof![0.03..0.4, 0.4..5.0];
    vec((run, -0.35..0.35), 1..=8).prop_map(|grades| {
        let mut points = vec![(0.0, 0.0)];
        for (run, grade) in grades {
            let (x, z) = points[points.len() - 1];
            points.push((x + run, z + run * grade));
        }
        Ground(points)
    })
}

/// A trailer with its ball held somewhere over a ground.
#[derive(Debug, Clone)]
pub struct Position {
    pub trailer: Trailer,
    pub ground: Ground,
    pub ball: Point,
}

impl Position {
    /// Where it rests, coming from no pitch.
    pub fn settle(&self) -> Result<Stance, Unsettled> {
        self.trailer.settle(self.ball, &self.ground)
    }
}
