//! Settling: the trailer on its wheels, anywhere.
//!
//! One kernel answers level ground, a raised or lowered ball, the lifted rear axle and every position
//! on a ramp.
//!
//! | symbol | meaning |
//! |---|---|
//! | `Xb`, `Zb` | the ball, in ground axes |
//! | `φ` | pitch, positive nose up: the one unknown |
//! | `W`, `xc`, `zc` | weight on ball and wheels, and its centre in the trailer frame |
//! | `x_i`, `f_i`, `R_i` | station, hub free length and wheel radius of axle `i` |
//! | `ℓ_i` | from frame point `(x_i, 0)` down the frame normal to the hub line |
//! | `d_i` | compression available at axle `i`, `f_i − ℓ_i` |
//! | `S_i` | force of its springs, along the frame normal |
//! | `α_i` | slope of the hub line at its hub |
//! | `N_i` | ground force on its wheels, normal to the hub line |
//! | `V`, `H` | tongue weight, and the pull aft on the tow vehicle |
//!
//! # Derivation
//!
//! The trailer turns about a fixed ball. Its energy is that of its weight and its springs,
//!
//! `E(φ) = W (−xc sin φ + zc cos φ) + Σ U_i(d_i − m_i)`, equalizers settled (see [`super::springs`]).
//!
//! Let `t = (cos φ, −sin φ)` run aft along the frame and `n = (sin φ, cos φ)` be its normal. The hub is
//! `P = ball + x t − ℓ n`, and `dt/dφ = −n`, `dn/dφ = t`. It stays on the hub line, whose normal is
//! `ν = (−sin α, cos α)`, so `ν · dP/dφ = 0`. With `ν·n = cos(φ+α)` and `ν·t = −sin(φ+α)` that is
//!
//! `dℓ/dφ = ℓ tan(φ+α) − x`, so `dd/dφ = x − ℓ tan(φ+α)`: the lever arm of the spring force.
//!
//! The trailer rests where `dE/dφ = 0`:
//!
//! `Σ S_i (x_i − ℓ_i tan(φ+α_i)) = W (xc cos φ + zc sin φ)`.
//!
//! This is also the moment about the ball of ground forces that act along `ν` through the hubs, as they
//! must when wheels roll freely: `N_i = S_i / cos(φ+α_i)`. Newton's steps need one derivative more,
//! `d²ℓ/dφ² = (dℓ/dφ) tan(φ+α) + ℓ (1 + dα/dφ) / cos²(φ+α)`; `α` changes only on a crest's arc, where the
//! hub moves by `ds/dφ = −ℓ / cos(φ+α)` along an arc of radius `R`: `dα/dφ = ℓ / (R cos(φ+α))`.
//!
//! A trailer that slows down adds its inertia `F`, forward at the centre of gravity, and its brakes `B`, aft on the ground:
//! `Σ S_i (…) = W (xc cos φ + zc sin φ) − F (zc cos φ − xc sin φ) − B Zb`.
//!
//! At a sag the hub touches two grades and `α` jumps, so the moment may pass zero in a step. Then the
//! two sides of the step are blended until the moments cancel: both contacts push, each with its share.
//!
//! The functions here allocate nothing and keep no state.

use super::springs::{Shared, common_compression, share};
use crate::mechanics::terrain::{GroundPoint, Hub, Ray, Terrain};
use crate::mechanics::{Body, PerAxle, Spring};
use crate::numeric::root::Bracket;
use crate::quantity::{Angle, Length, Quantity, Weight};

/// A trailer pitched beyond this is not resting on its wheels in any sense meant here.
const PITCH_LIMIT: f64 = 0.78;
/// The moment that is left, as a share of `W xc`. The statics ask for 1e-9; Newton's last step
/// overshoots that for nothing.
const MOMENT_TOLERANCE: f64 = 1e-12;
/// A pitch bracket this narrow holds a step of the moment.
const PITCH_TOLERANCE: f64 = 1e-12;
/// Far more steps than halving a bracket of the whole pitch range to its tolerance takes.
const MAX_STEPS: usize = 200;

/// Why a trailer does not come to rest on its wheels.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum Unsettled {
    /// The weight lies ahead of the ball at every pitch.
    #[error(
        "the trailer tips over its ball: the weight lies ahead of the coupler and no wheel carries any of it"
    )]
    TipsOverBall,
    /// The ground lies below every wheel.
    #[error("no wheel reaches the ground at any pitch")]
    NoSupport,
    /// Only a pitch beyond what is meant here would balance it.
    #[error(
        "no pitch within 44 deg of level balances the trailer: its springs are too soft, or the ground is too steep or too far off"
    )]
    OutOfRange,
}

/// One axle with nothing on it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SprungAxle {
    /// Aft of the ball along the frame.
    pub station: Length,
    /// From the frame line to the hub, along the frame normal, suspension and tires unloaded.
    pub free_length: Length,
    /// From hub to ground, loaded.
    pub wheel_radius: Length,
    /// Its suspension and tires.
    pub spring: Spring,
}

/// The axles of a trailer and the equalizers between them.
#[derive(Debug, Clone, PartialEq)]
pub struct Undercarriage {
    /// Front to rear.
    pub axles: PerAxle<SprungAxle>,
    /// End travel of every equalizer, each way; zero for axles sprung apart.
    pub equalizer_travel: Length,
}

/// One axle as it was measured, before its free length is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MeasuredAxle {
    /// Aft of the ball along the frame.
    pub station: Length,
    /// From hub to ground, loaded.
    pub wheel_radius: Length,
    /// Its suspension and tires.
    pub spring: Spring,
}

impl Undercarriage {
    /// The undercarriage whose frame sits level on flat ground under this body with its ball at this height.
    ///
    /// With the frame level, all springs are pressed by the same `δ`, at which they balance the body
    /// about the ball, `Σ S_i x_i = W xc`; so `f_i = level ball height − R_i + δ`.
    ///
    /// # Errors
    /// [`Unsettled::TipsOverBall`] when the body lies ahead of the ball.
    pub fn level_under(
        body: Body,
        axles: &PerAxle<MeasuredAxle>,
        equalizer_travel: Length,
        level_ball_height: Length,
    ) -> Result<Self, Unsettled> {
        let springs: PerAxle<Spring> = axles.iter().map(|axle| axle.spring).collect();
        let stations: PerAxle<f64> = axles.iter().map(|axle| axle.station.si()).collect();
        // Σ S_i x_i = W xc
        let moment = body.weight.si() * body.at.x.si();
        let delta = common_compression(&springs, equalizer_travel.si(), &stations, moment)
            .ok_or(Unsettled::TipsOverBall)?;
        let axles = axles.iter().map(|axle| SprungAxle {
            station: axle.station,
            // f_i = level ball height − R_i + δ
            free_length: level_ball_height - axle.wheel_radius + Length::from_si(delta),
            wheel_radius: axle.wheel_radius,
            spring: axle.spring,
        });
        Ok(Self { axles: axles.collect(), equalizer_travel })
    }

    /// The same axles moved aft along the frame.
    #[must_use]
    pub fn moved_aft(&self, by: Length) -> Self {
        let mut moved = self.clone();
        for axle in &mut moved.axles {
            axle.station += by;
        }
        moved
    }

    /// The undercarriage with its rear axle lifted, and the equalizer before that axle out of play.
    #[must_use]
    pub fn without_rear_axle(&self) -> Self {
        let mut lifted = self.clone();
        lifted.axles.pop();
        lifted
    }
}

/// A trailer at rest: its pitch, and every force on it.
#[derive(Debug, Clone, PartialEq)]
pub struct Stance {
    /// Pitch of the frame, positive nose up.
    pub pitch: Angle,
    /// What the ball carries, positive down on the tow vehicle.
    pub tongue_weight: Weight,
    /// How hard the trailer pulls the tow vehicle aft.
    pub pull: Weight,
    /// Ground force on each axle, normal to the ground under it.
    pub axle_loads: PerAxle<Weight>,
    /// The same force in ground axes.
    pub ground_forces: PerAxle<GroundForce>,
    /// Force of each axle's springs, along the frame normal.
    pub spring_forces: PerAxle<Weight>,
    /// Displacement of the equalizer behind each axle; zero behind the last.
    pub equalizers: PerAxle<Length>,
    /// How far each axle's wheels hang clear of the ground; zero where they carry. Where several hang on one
    /// chain of slack equalizers this is one of the ways they may share the slack.
    pub hang: PerAxle<Length>,
    /// The hub of each axle's wheels, where they carry or would touch, in ground axes; empty where only the loads on a
    /// level frame are known.
    pub hubs: PerAxle<GroundPoint>,
    /// What each axle's wheels are doing, for telling when it changes.
    pub(in crate::mechanics) doing: PerAxle<Doing>,
}

/// A force in ground axes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GroundForce {
    /// Aft.
    pub aft: Weight,
    /// Up.
    pub up: Weight,
}

/// What an axle's wheels are doing: between two positions that are alike in this, loads change smoothly.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::mechanics) struct Doing {
    /// Which side of which sharp break they are on.
    place: u16,
    /// Whether they hang.
    hangs: bool,
    /// Whether their suspension is on its bump.
    bumped: bool,
    /// Which stop the equalizer behind is at, if any.
    stop: i8,
}

impl Stance {
    /// All axle loads together.
    pub fn on_axles(&self) -> Weight {
        self.axle_loads.iter().copied().sum()
    }
}

/// Where a trailer comes to rest with its ball held at a point, and every force on it.
///
/// `body` is all that ball and wheels carry, in the trailer frame; `ball` and `terrain` are in ground axes.
/// `near` is the pitch to begin from: zero, or the pitch of a neighbouring position. The search goes downhill
/// in energy from there, so on ground with several places to rest it finds the one that lies that way.
///
/// Valid for grades up to 100 % and pitches up to 44°.
///
/// # Errors
/// [`Unsettled`] when no pitch within that range puts a wheel on the ground.
///
/// ```
/// use bunkline::mechanics::{Body, FramePoint, GroundPoint, Spring, Terrain, Undercarriage, settle};
/// use bunkline::mechanics::road::settle::MeasuredAxle;
/// use bunkline::quantity::{Angle, Length, Quantity, Rate, Weight};
///
/// let metres = Length::from_si;
/// let spring = Spring::new(Rate::from_si(4e5), Rate::from_si(7e5), metres(0.08));
/// let axle = MeasuredAxle { station: metres(5.0), wheel_radius: metres(0.35), spring };
/// let body = Body { weight: Weight::from_si(20e3), at: FramePoint { x: metres(4.5), ..FramePoint::default() } };
/// let wheels = Undercarriage::level_under(body, &[axle].into_iter().collect(), metres(0.0), metres(0.5))?;
/// let ball = GroundPoint { x: metres(0.0), z: metres(0.5) };
/// let stance = settle(body, &wheels, ball, &Terrain::level(), Angle::from_si(0.0))?;
/// // One axle on the level: N = W xc / x, and the tongue carries the rest.
/// assert!((stance.axle_loads[0].si() - 18e3).abs() < 1e-6);
/// assert!((stance.tongue_weight.si() - 2e3).abs() < 1e-6);
/// # Ok::<(), bunkline::mechanics::Unsettled>(())
/// ```
pub fn settle(
    body: Body,
    wheels: &Undercarriage,
    ball: GroundPoint,
    terrain: &Terrain,
    near: Angle,
) -> Result<Stance, Unsettled> {
    settle_pushed(body, wheels, ball, terrain, near, Pushed::default())
}

/// Forces along the ground beside the weight: a trailer that slows down.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Pushed {
    /// Forward, at the centre of gravity: the inertia of a trailer that slows down, or its weight's part down a slope.
    pub forward: Weight,
    /// Aft, where the wheels stand on level ground at `Z = 0`: its brakes.
    pub aft_on_ground: Weight,
}

/// As [`settle`], with forces along the ground beside the weight; what they leave over pushes the tow vehicle and does not
/// show in the stance's pull.
///
/// # Errors
/// As [`settle`].
pub fn settle_pushed(
    body: Body,
    wheels: &Undercarriage,
    ball: GroundPoint,
    terrain: &Terrain,
    near: Angle,
    pushed: Pushed,
) -> Result<Stance, Unsettled> {
    let trailer = Trailer { pushed, ..Trailer::new(body, wheels, ball, terrain) };
    let tolerance = MOMENT_TOLERANCE * (trailer.w * trailer.xc).abs();
    // The moment rises with the pitch. Only the pitches are kept: what else belongs to them is found again where the
    // search ends on the bracket.
    let mut bracket = Bracket::new(f64::NEG_INFINITY, f64::INFINITY);
    let mut phi = near.si().clamp(-PITCH_LIMIT, PITCH_LIMIT);
    let mut reach = 0.02;
    for _ in 0..MAX_STEPS {
        let trial = trailer.at(phi);
        if trial.moment.abs() <= tolerance {
            return trailer.rest(&[(1.0, &trial)]);
        }
        bracket.look(phi, trial.moment);
        let newton = (trial.slope > 0.0).then(|| phi - trial.moment / trial.slope);
        if bracket.width() <= PITCH_TOLERANCE {
            return trailer.rest_between(bracket.low(), bracket.high());
        }
        if bracket.low() >= PITCH_LIMIT || bracket.high() <= -PITCH_LIMIT {
            return Err(trailer.out_of_range(phi));
        }
        phi = if let Some(next) = bracket.next(newton).filter(|_| bracket.width().is_finite()) {
            next
        } else {
            let toward = if trial.moment < 0.0 { 1.0 } else { -1.0 };
            // Newton's step is trusted as far as the reach. Where it gains no more, rounding leaves more than the
            // tolerance and it would end short of the root for ever: half a bracket's width crosses it.
            let least = if bracket.halved() { 0.0 } else { PITCH_TOLERANCE / 2.0 };
            let stride = newton.map_or(reach, |newton| (newton - phi).abs());
            let stride = if stride <= reach { stride.max(least) } else { reach };
            reach *= 2.0;
            (phi + toward * stride).clamp(-PITCH_LIMIT, PITCH_LIMIT)
        };
    }
    Err(Unsettled::OutOfRange)
}

/// The problem in plain numbers, SI.
struct Trailer<'a> {
    w: f64,
    xc: f64,
    zc: f64,
    ball_x: f64,
    ball_z: f64,
    wheels: &'a Undercarriage,
    springs: PerAxle<Spring>,
    terrain: &'a Terrain,
    pushed: Pushed,
}

/// Everything at one trial pitch.
struct Trial {
    phi: f64,
    /// What turns the trailer nose down about the ball, less what turns it nose up.
    moment: f64,
    /// How the moment grows with pitch.
    slope: f64,
    hubs: PerAxle<Hub>,
    /// `cos(φ+α)` at each hub.
    closing: PerAxle<f64>,
    shared: Shared,
}

impl<'a> Trailer<'a> {
    fn new(body: Body, wheels: &'a Undercarriage, ball: GroundPoint, terrain: &'a Terrain) -> Self {
        Self {
            w: body.weight.si(),
            xc: body.at.x.si(),
            zc: body.at.z.si(),
            ball_x: ball.x.si(),
            ball_z: ball.z.si(),
            wheels,
            springs: wheels.axles.iter().map(|axle| axle.spring).collect(),
            terrain,
            pushed: Pushed::default(),
        }
    }

    /// Why the moment does not vanish up to a pitch at the end of the range.
    #[cold]
    fn out_of_range(&self, phi: f64) -> Unsettled {
        let trial = self.at(phi);
        let (sin, cos) = phi.sin_cos();
        if trial.moment > 0.0 && self.xc * cos + self.zc * sin < 0.0 {
            Unsettled::TipsOverBall
        } else if trial.moment < 0.0 && trial.shared.force.iter().all(|force| *force <= 0.0) {
            Unsettled::NoSupport
        } else {
            Unsettled::OutOfRange
        }
    }

    #[expect(
        clippy::inline_always,
        reason = "it is the body of the search's loop, where most of a sweep's time goes"
    )]
    #[inline(always)]
    fn at(&self, phi: f64) -> Trial {
        let (sin, cos) = phi.sin_cos();
        let mut hubs = PerAxle::new();
        let mut closing = PerAxle::new();
        let mut d = PerAxle::<f64>::new();
        let mut levers = PerAxle::<f64>::new();
        let mut lever_growths = PerAxle::<f64>::new();
        for axle in &self.wheels.axles {
            let (x, f, r) = (axle.station.si(), axle.free_length.si(), axle.wheel_radius.si());
            let ray = Ray { x: self.ball_x + x * cos, z: self.ball_z - x * sin, sin, cos };
            let hub = self.terrain.hub(ray, r);
            let l = hub.distance;
            let cos_sum = cos * hub.cos - sin * hub.sin;
            let tan_sum = (sin * hub.cos + cos * hub.sin) / cos_sum;
            // d = f − ℓ, and its lever x − ℓ tan(φ+α)
            let lever = x - l * tan_sum;
            // dα/dφ = ℓ / (R cos(φ+α)) on a crest's arc
            let turning = hub.curvature * l / cos_sum;
            // d²ℓ/dφ² = (dℓ/dφ) tan(φ+α) + ℓ (1 + dα/dφ) / cos²(φ+α), dℓ/dφ = −lever
            lever_growths.push(lever * tan_sum - l * (1.0 + turning) / (cos_sum * cos_sum));
            levers.push(lever);
            d.push(f - l);
            hubs.push(hub);
            closing.push(cos_sum);
        }
        let shared = share(&self.springs, &d, &levers, self.wheels.equalizer_travel.si());
        // Σ S (x − ℓ tan(φ+α)) − W (xc cos φ + zc sin φ) + F (zc cos φ − xc sin φ) + B Zb
        let (forward, aft) = (self.pushed.forward.value, self.pushed.aft_on_ground.value);
        let mut moment = -self.w * (self.xc * cos + self.zc * sin)
            + forward * (self.zc * cos - self.xc * sin)
            + aft * self.ball_z;
        let mut slope = self.w * (self.xc * sin - self.zc * cos) - forward * (self.zc * sin + self.xc * cos);
        for i in 0..levers.len() {
            moment += shared.force[i] * levers[i];
            slope += shared.growth[i] * levers[i] + shared.force[i] * lever_growths[i];
        }
        Trial { phi, moment, slope, hubs, closing, shared }
    }

    /// The stance on a step of the moment: both sides of it, blended until the moments cancel.
    #[inline(never)]
    fn rest_between(&self, low: f64, high: f64) -> Result<Stance, Unsettled> {
        let (low, high) = (self.at(low), self.at(high));
        let share_of_high = low.moment / (low.moment - high.moment);
        self.rest(&[(1.0 - share_of_high, &low), (share_of_high, &high)])
    }

    /// The stance at a trial, or at a blend of trials whose shares sum to one.
    fn rest(&self, parts: &[(f64, &Trial)]) -> Result<Stance, Unsettled> {
        let blend = |value: &dyn Fn(&Trial) -> f64| {
            parts.iter().map(|(share, trial)| share * value(trial)).sum::<f64>()
        };
        let (mut v, mut h) = (self.w, 0.0);
        let (mut axle_loads, mut ground_forces) = (PerAxle::new(), PerAxle::new());
        let mut spring_forces = PerAxle::new();
        let mut equalizers = PerAxle::new();
        let (mut hang, mut hubs, mut doing) = (PerAxle::new(), PerAxle::new(), PerAxle::new());
        let turned = parts[0].1.phi.sin_cos();
        for i in 0..self.springs.len() {
            // N = S / cos(φ+α)
            let normal = |trial: &Trial| trial.shared.force[i] / trial.closing[i];
            let up = blend(&|trial| normal(trial) * trial.hubs[i].cos);
            let aft = -blend(&|trial| normal(trial) * trial.hubs[i].sin);
            // V = W − Σ N cos α, H = −Σ N sin α
            v -= up;
            h += aft;
            ground_forces.push(GroundForce { aft: Weight::from_si(aft), up: Weight::from_si(up) });
            axle_loads.push(Weight::from_si(blend(&normal)));
            spring_forces.push(Weight::from_si(blend(&|trial| trial.shared.force[i])));
            equalizers.push(Length::from_si(blend(&|trial| trial.shared.equalizer[i])));
            hang.push(Length::from_si(blend(&|trial| (-trial.shared.compression[i]).max(0.0))));
            hubs.push(self.hub_point(i, parts[0].1, turned));
            doing.push(self.doing(i, parts));
        }
        if spring_forces.iter().all(|force| force.si() <= 0.0) {
            // Balanced on the ball alone: the weight hangs straight below it or stands on it.
            return Err(Unsettled::TipsOverBall);
        }
        Ok(Stance {
            pitch: Angle::from_si(blend(&|trial| trial.phi)),
            tongue_weight: Weight::from_si(v),
            pull: Weight::from_si(h),
            axle_loads,
            ground_forces,
            spring_forces,
            equalizers,
            hang,
            hubs,
            doing,
        })
    }

    /// The hub of an axle's wheels in ground axes, with the sine and cosine of the pitch.
    fn hub_point(&self, axle: usize, trial: &Trial, (sin, cos): (f64, f64)) -> GroundPoint {
        let (x, l) = (self.wheels.axles[axle].station.si(), trial.hubs[axle].distance);
        // X = Xb + x cos φ + z sin φ, Z = Zb − x sin φ + z cos φ, with z = −ℓ
        GroundPoint {
            x: Length::from_si(self.ball_x + x * cos - l * sin),
            z: Length::from_si(self.ball_z - x * sin - l * cos),
        }
    }

    fn doing(&self, axle: usize, parts: &[(f64, &Trial)]) -> Doing {
        let (trial, other) = (parts[0].1, parts[parts.len() - 1].1);
        let (shared, travel) = (&trial.shared, self.wheels.equalizer_travel.si());
        let displaced = shared.equalizer[axle];
        // An equalizer's displacement is computed as a difference of sums: at a stop it may be a hair inside.
        let at_stop = travel > 0.0 && displaced.abs() >= travel * (1.0 - 1e-9);
        Doing {
            // A wheel held in a sag stands on both sides of the break: between them, as on a crest's arc.
            place: u16::midpoint(trial.hubs[axle].place, other.hubs[axle].place),
            hangs: shared.force[axle] <= 0.0,
            bumped: shared.force[axle] > self.springs[axle].bump_force().si(),
            stop: if at_stop { displaced.signum() as i8 } else { 0 },
        }
    }
}
