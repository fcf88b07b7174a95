//! Hub lines and equilibrium from their definitions.
//!
//! The library meets a ray with moved grades and arcs. Here the hub line is what it means: at `X` the
//! hub stands as high as the highest disc centre that some ground point within `R` asks for,
//! `max g(X + t) + √(R² − t²)`; and the slope there follows from where the wheel's foot is.

use crate::settling::trailers::{Axle, Ground, Point, Position, Trailer, si};
use bunkline::mechanics::Stance;
use bunkline::quantity::Quantity;

/// Feet whose discs ask for heights this close both carry the wheel.
const SAME_HEIGHT: f64 = 1e-9;
/// Feet whose slopes differ by less are one foot at the end of a grade, told apart by rounding.
const OTHER_FOOT: f64 = 1e-3;

/// Where a wheel's hub is.
#[derive(Debug, Clone, Copy)]
pub struct Hub {
    /// From the frame line down the frame normal.
    pub distance: f64,
    /// Slope of the hub line ahead of the hub and behind it; the two differ in a sag.
    pub slopes: [f64; 2],
}

impl Ground {
    /// Height of the ground.
    pub fn height(&self, x: f64) -> f64 {
        let grade = self.grades().find(|(_, _, span)| x <= span[1]).expect("the last grade never ends");
        grade.0.1 + (x - grade.0.0) * grade.1
    }

    /// Each grade as a point of it, its tangent, and where it begins and ends.
    pub fn grades(&self) -> impl Iterator<Item = (Point, f64, [f64; 2])> + '_ {
        let last = self.0.len() - 2;
        self.0.windows(2).enumerate().map(move |(i, ends)| {
            let tangent = (ends[1].1 - ends[0].1) / (ends[1].0 - ends[0].0);
            let from = if i == 0 { f64::NEG_INFINITY } else { ends[0].0 };
            let to = if i == last { f64::INFINITY } else { ends[1].0 };
            (ends[0], tangent, [from, to])
        })
    }

    /// The height that each grade asks of a hub at `x`, and the slope of the hub line if it has its way.
    fn feet(&self, x: f64, radius: f64) -> impl Iterator<Item = (f64, f64)> + '_ {
        self.grades().filter_map(move |(at, tangent, [from, to])| {
            let (nearest, farthest) = ((from - x).max(-radius), (to - x).min(radius));
            // g(X + t) + √(R² − t²) is concave in t and greatest where t / √(R² − t²) is the tangent.
            let steepest = radius * tangent / 1f64.hypot(tangent);
            (nearest <= farthest).then(|| {
                let t = steepest.clamp(nearest, farthest);
                (at.1 + (x + t - at.0) * tangent + (radius * radius - t * t).sqrt(), (t / radius).asin())
            })
        })
    }

    /// Height of the hub line.
    fn hub_height(&self, x: f64, radius: f64) -> f64 {
        self.feet(x, radius).map(|(asked, _)| asked).fold(f64::NEG_INFINITY, f64::max)
    }

    /// Slopes of the hub line ahead of a hub and behind it.
    fn hub_slopes(&self, x: f64, radius: f64) -> [f64; 2] {
        let highest = |feet: &mut dyn Iterator<Item = (f64, f64)>| feet.max_by(|a, b| a.0.total_cmp(&b.0));
        let (height, slope) = highest(&mut self.feet(x, radius)).expect("a grade under the wheel");
        let mut others = self
            .feet(x, radius)
            .filter(|other| other.0 > height - SAME_HEIGHT && (other.1 - slope).abs() > OTHER_FOOT);
        let other = highest(&mut others).map_or(slope, |(_, slope)| slope);
        [slope.min(other), slope.max(other)]
    }

    /// The hub of a wheel in each sag that holds it.
    pub fn sags(&self, radius: f64) -> Vec<Point> {
        let grades: Vec<_> = self.grades().collect();
        let hubs = grades.windows(2).map(|pair| {
            let [ahead, behind] = [pair[0].1, pair[1].1].map(f64::atan);
            // The wheel touches both grades from the line that halves the angle between them.
            let (sin, cos) = f64::midpoint(ahead, behind).sin_cos();
            let off = radius / ((behind - ahead) / 2.0).cos();
            (pair[1].0.0 - off * sin, pair[1].0.1 + off * cos)
        });
        let holds = |(x, _): &Point| {
            let slopes = self.hub_slopes(*x, radius);
            slopes[1] - slopes[0] > 0.03
        };
        hubs.filter(holds).collect()
    }

    /// The hub of a wheel on the ray from a point down the normal of a frame at this pitch.
    pub fn hub(&self, (x, z): Point, pitch: f64, radius: f64) -> Hub {
        let (sin, cos) = pitch.sin_cos();
        let mut distance = 0.0;
        // Walk down the ray by the gap to the hub line: a step leaves a gap at most |tan φ tan α|
        // times as great.
        for _ in 0..100 {
            let gap = z - distance * cos - self.hub_height(x - distance * sin, radius);
            distance += gap / cos;
            if gap.abs() < 4e-16 {
                break;
            }
        }
        Hub { distance, slopes: self.hub_slopes(x - distance * sin, radius) }
    }
}

impl Trailer {
    /// Every axle's hub with the frame at a pitch.
    pub fn hubs(&self, ground: &Ground, ball: Point, pitch: f64) -> Vec<Hub> {
        let (sin, cos) = pitch.sin_cos();
        let hub = |axle: &Axle| {
            let over = (ball.0 + axle.station * cos, ball.1 - axle.station * sin);
            ground.hub(over, pitch, axle.radius)
        };
        self.axles.iter().map(hub).collect()
    }

    /// An axle's hub in ground axes.
    pub fn hub_point(&self, axle: usize, hub: &Hub, ball: Point, pitch: f64) -> Point {
        let ((sin, cos), x) = (pitch.sin_cos(), self.axles[axle].station);
        (ball.0 + x * cos - hub.distance * sin, ball.1 - x * sin - hub.distance * cos)
    }
}

/// The springs of a frame held at a pitch, the equalizers settled.
#[derive(Debug, Clone)]
pub struct Held {
    pub hubs: Vec<Hub>,
    /// What each spring could be compressed by with every equalizer centred.
    pub available: Vec<f64>,
    pub compressions: Vec<f64>,
    /// Displacement of the equalizer behind each axle but the last.
    pub equalizers: Vec<f64>,
}

impl Held {
    /// The springs with the frame held at a pitch; the equalizers begin where `equalizers` says.
    pub fn at(position: &Position, free_lengths: &[f64], pitch: f64, equalizers: Vec<f64>) -> Self {
        let hubs = position.trailer.hubs(&position.ground, position.ball, pitch);
        let available: Vec<f64> =
            hubs.iter().zip(free_lengths).map(|(hub, free_length)| free_length - hub.distance).collect();
        let compressions = compressions(&available, &equalizers);
        let mut held = Self { hubs, available, compressions, equalizers };
        held.settle_equalizers(&position.trailer);
        held
    }

    /// Moves the equalizers to where the springs' energy is least.
    ///
    /// Each in turn moves down the energy's slope over the greatest curvature that its two springs can
    /// have, so none passes the least by more than the over-relaxation.
    fn settle_equalizers(&mut self, trailer: &Trailer) {
        const OVER_RELAXATION: f64 = 1.5;
        for _ in 0..20_000 {
            let mut farthest: f64 = 0.0;
            for (j, q) in self.equalizers.iter_mut().enumerate() {
                let (front, rear) = (&trailer.axles[j], &trailer.axles[j + 1]);
                let c = &mut self.compressions;
                let slope = (rear.force(c[j + 1]) - front.force(c[j])) / 2.0;
                let curvature = (front.bumped_rate() + rear.bumped_rate()) / 4.0;
                let to = (*q - OVER_RELAXATION * slope / curvature).clamp(-trailer.travel, trailer.travel);
                c[j] -= (to - *q) / 2.0;
                c[j + 1] += (to - *q) / 2.0;
                farthest = farthest.max((to - *q).abs());
                *q = to;
            }
            // A sweep that moves nothing by more leaves a nanonewton out of balance.
            if farthest < 1e-14 {
                return;
            }
        }
        panic!("equalizers that do not settle");
    }

    /// The force of each spring.
    pub fn forces(&self, trailer: &Trailer) -> Vec<f64> {
        trailer.axles.iter().zip(&self.compressions).map(|(axle, c)| axle.force(*c)).collect()
    }
}

/// Compressions when equalizers are displaced by `q`, one behind each axle but the last.
pub fn compressions(available: &[f64], q: &[f64]) -> Vec<f64> {
    let displaced = |i: usize| q.get(i).copied().unwrap_or(0.0);
    let before = |i: usize| if i == 0 { 0.0 } else { displaced(i - 1) };
    // c = d − m, m = (q_i − q_{i−1}) / 2
    available.iter().enumerate().map(|(i, d)| d - (displaced(i) - before(i)) / 2.0).collect()
}

/// How stiffly a wheel in a sag can hold the ball: all springs, with the lever `x / ℓ` both ways.
///
/// Doubled for the cosines of pitch and slope, which are above 0.8.
pub fn stiffness_in_sag(trailer: &Trailer, hubs: &[Hub]) -> f64 {
    let shortest = hubs.iter().map(|hub| hub.distance.abs()).fold(f64::INFINITY, f64::min);
    let springs = trailer.axles.iter().map(|axle| axle.bumped_rate() * axle.station.powi(2));
    2.0 * springs.sum::<f64>() / shortest.powi(2)
}

/// Forces of the ground on every axle and of the ball.
#[derive(Debug, Clone)]
pub struct Reactions {
    pub axle_loads: Vec<f64>,
    pub tongue_weight: f64,
    pub pull: f64,
    /// What is left of the moment about the ball, as a share of `W xc`.
    pub moment_left: f64,
}

/// What a trailer's springs ask of ground and ball, in ground axes.
///
/// In a sag the wheel leans on two feet. Then the share of the rear one is that, between none and all,
/// at which the moments about the ball cancel best.
pub fn reactions(trailer: &Trailer, hubs: &[Hub], pitch: f64, springs: &[f64]) -> Reactions {
    let with_share = |share| reactions_sharing(trailer, hubs, pitch, springs, share);
    let [none, all] = [0.0, 1.0].map(|share| with_share(share).moment_left);
    with_share(if none == all { 0.0 } else { (none / (none - all)).clamp(0.0, 1.0) })
}

/// The reactions with this share of every wheel in a sag on its rear foot.
pub fn reactions_sharing(
    trailer: &Trailer,
    hubs: &[Hub],
    pitch: f64,
    springs: &[f64],
    share: f64,
) -> Reactions {
    let (sin, cos) = pitch.sin_cos();
    let mut all =
        Reactions { axle_loads: vec![], tongue_weight: trailer.weight, pull: 0.0, moment_left: 0.0 };
    // The weight turns the trailer about the ball with its horizontal distance from it.
    let mut moment = -trailer.weight * (trailer.xc * cos + trailer.zc * sin);
    for ((axle, hub), spring) in trailer.axles.iter().zip(hubs).zip(springs) {
        let mut on_axle = 0.0;
        for (slope, share) in hub.slopes.into_iter().zip([1.0 - share, share]) {
            // The spring holds the frame along its normal; the ground's force has that part along it.
            let load = share * spring / (pitch + slope).cos();
            let (aft, up) = (-load * slope.sin(), load * slope.cos());
            let hub_aft = axle.station * cos - hub.distance * sin;
            let hub_up = -axle.station * sin - hub.distance * cos;
            moment += up * hub_aft - aft * hub_up;
            all.tongue_weight -= up;
            all.pull += aft;
            on_axle += load;
        }
        all.axle_loads.push(on_axle);
    }
    all.moment_left = moment / (trailer.weight * trailer.xc);
    all
}

/// The greatest difference between a stance's forces and these reactions, as a share of the weight.
pub fn disagreement(stance: &Stance, reactions: &Reactions, weight: f64) -> f64 {
    let loads = si(&stance.axle_loads);
    let loads = loads.iter().zip(&reactions.axle_loads).map(|(a, b)| a - b);
    let ball = [stance.tongue_weight.si() - reactions.tongue_weight, stance.pull.si() - reactions.pull];
    greatest(loads.chain(ball)) / weight
}

/// The greatest size of any number; NaN, if there is one.
pub fn greatest(numbers: impl Iterator<Item = f64>) -> f64 {
    numbers.map(f64::abs).max_by(f64::total_cmp).unwrap_or(0.0)
}
