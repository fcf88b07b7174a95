//! The tow vehicle on its two axles, with the trailer on its ball.
//!
//! | symbol | meaning |
//! |---|---|
//! | `F0`, `R0` | front and rear axle load, loaded for the trip, trailer off |
//! | `b` | wheelbase |
//! | `o` | ball behind the rear axle |
//! | `M_w`, `ρ`, `x̄` | moment of weight distribution bars; the share of the front axle's loss that they restore; the trailer's axles behind the ball |
//! | `V`, `H` | tongue weight, and the trailer's pull aft |
//! | `Nf`, `Nr`, `T` | normal forces of the ground, and the force along it |
//! | `α` | slope of the ground under an axle |
//! | `f_r`, `a/g` | rolling resistance over the normal force on a wheel; acceleration pulling out |
//! | `W`, `xc`, `zc`, `φ` | weight, centre of gravity and pitch of the trailer |
//! | `Fx`, `Fz` | ground force on a trailer axle while parked, aft and up, at its hub `(dX, dZ)` from the ball |

use super::ramp::Contact;
use super::road::settle::Stance;
use super::terrain::GroundPoint;
use super::{Body, FramePoint};
use crate::quantity::{Length, Moment, Quantity, Share, Weight};

/// `f_r` of a tire on a hard surface: 0.010 to 0.015, quoted.
const ROLLING_RESISTANCE: f64 = 0.015;
/// `a/g` of a gentle start up the ramp. Common practice, no source.
const START: f64 = 0.03;

/// A tow vehicle as it stands alone, loaded for the trip.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TowVehicle {
    /// Load of the front axle.
    pub front: Weight,
    /// Load of the rear axle.
    pub rear: Weight,
    /// Between its axles.
    pub wheelbase: Length,
    /// From the rear axle back to the ball.
    pub overhang: Length,
}

/// The tow vehicle's axle loads with the trailer coupled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Coupled {
    /// Load of the front axle; negative would mean that it lifts.
    pub front: Weight,
    /// Load of the rear axle.
    pub rear: Weight,
}

/// The axle loads under a tongue weight, on the level, with bars that distribute weight or without.
pub fn coupled(tow: TowVehicle, tongue_weight: Weight, bars: Option<Bars>) -> Coupled {
    let lever = tow.overhang / tow.wheelbase;
    // V' = V − M_w / x̄
    let left = bars.map_or(tongue_weight, |bars| tongue_weight - bars.moved);
    let onto_front = bars.map_or(Weight::default(), |bars| bars.onto_front(tow.wheelbase));
    Coupled {
        front: front_coupled(tow.front, left, lever) + onto_front,
        rear: rear_coupled(tow.rear, left, lever) - onto_front,
    }
}

/// The front axle's load under a tongue weight, on the level; `lever` is the ball's overhang over the wheelbase.
pub fn front_coupled(front: Weight, tongue_weight: Weight, lever: Share) -> Weight {
    // F = F0 − V o / b
    front - tongue_weight * lever
}

/// The rear axle's load under a tongue weight, on the level; `lever` is the ball's overhang over the wheelbase.
pub fn rear_coupled(rear: Weight, tongue_weight: Weight, lever: Share) -> Weight {
    // R = R0 + V (b + o) / b
    rear + tongue_weight + tongue_weight * lever
}

/// A weight distribution hitch: bars that turn the tongue up against the tow vehicle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bars {
    /// Their moment `M_w`, in newton metres.
    pub moment: Moment,
    /// What they put on the trailer's axles, and take off the ball.
    pub moved: Weight,
}

impl Bars {
    /// Bars of a moment; `mean` is the mean station `x̄` of the trailer's axles.
    pub fn of_moment(moment: Moment, mean: Length) -> Self {
        // M_w / x̄
        Self { moment, moved: Weight::from_si(moment.si() / mean.si()) }
    }

    /// Bars that give back this share `ρ` of what the tongue takes off the tow vehicle's front axle.
    pub fn restoring(share: Share, tongue_weight: Weight, overhang: Length, mean: Length) -> Self {
        // M_w = ρ V o / (1 + o / x̄)
        let moment = share.si() * tongue_weight.si() * overhang.si() / (1.0 + (overhang / mean).si());
        Self::of_moment(Moment::from_si(moment), mean)
    }

    /// What the bars put on the tow vehicle's front axle and take off its rear one, beside what the tongue weight that is
    /// left does.
    pub fn onto_front(self, wheelbase: Length) -> Weight {
        // M_w / b
        Weight::from_si(self.moment.si() / wheelbase.si())
    }
}

/// Which axle holds or drives.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Grip {
    /// The front axle.
    Front,
    /// The rear axle.
    Rear,
    /// Both, at equal friction.
    Both,
}

/// What the rig does on the ramp while its wheels must hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Motion {
    /// It stands on its brakes.
    Parked,
    /// It comes out at a steady speed: its wheels' rolling resistance holds it back.
    Steady,
    /// It starts to come out: its inertia holds it back too.
    Start,
}

impl Motion {
    fn rolling_resistance(self) -> f64 {
        if self == Self::Parked { 0.0 } else { ROLLING_RESISTANCE }
    }

    fn acceleration(self) -> f64 {
        if self == Self::Start { START } else { 0.0 }
    }
}

/// What the trailer does to the ball.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AtBall {
    /// Tongue weight, positive down on the tow vehicle.
    pub tongue_weight: Weight,
    /// The trailer's pull on the tow vehicle, aft.
    pub pull: Weight,
}

/// What a trailer at rest with its ball at a point does to the ball, parked or pulled out.
///
/// Rolling resistance turns each ground force aft about its hub, since a wheel rolls freely; inertia is a force aft along
/// the frame at the centre of gravity. Both turn the trailer about the ball. The axles carry the change in proportion to
/// what they carry parked, which is exact for one axle and for equalized ones within their travel.
///
/// About the ball: `s Σ (dX Fz − dZ Fx − f_r (dX Fx + dZ Fz)) = W (xc cos φ + zc sin φ) + W a/g zc`, `s` the axle loads over
/// those while parked; and without motion the sum of `dX Fz − dZ Fx` is the weight's moment.
pub fn at_ball(body: Body, stance: &Stance, ball: GroundPoint, motion: Motion) -> AtBall {
    if motion == Motion::Parked {
        return AtBall { tongue_weight: stance.tongue_weight, pull: stance.pull };
    }
    let (rolling, acceleration) = (motion.rolling_resistance(), motion.acceleration());
    let (w, FramePoint { x: xc, z: zc, .. }) = (body.weight.si(), body.at);
    let (xc, zc) = (xc.si(), zc.si());
    let (v, h) = (stance.tongue_weight.si(), stance.pull.si());
    let (sin, cos) = stance.pitch.si().sin_cos();
    // −Σ (dX Fx + dZ Fz)
    let axles = stance.ground_forces.iter().zip(&stance.hubs);
    let rolling_moment: f64 = axles
        .map(|(force, hub)| {
            let (dx, dz) = ((hub.x - ball.x).si(), (hub.z - ball.z).si());
            -(dx * force.aft.si() + dz * force.up.si())
        })
        .sum();
    let weight_moment = w * (xc * cos + zc * sin);
    let s = (weight_moment + w * acceleration * zc) / (weight_moment + rolling * rolling_moment);
    // On the wheels, parked: Σ Fx = H, Σ Fz = W − V. Turned by the rolling resistance: Fx + f_r Fz, Fz − f_r Fx.
    AtBall {
        tongue_weight: Weight::from_si(w + w * acceleration * sin - s * (w - v - rolling * h)),
        pull: Weight::from_si(w * acceleration * cos + s * (h + rolling * (w - v))),
    }
}

/// The tow vehicle as a body on a ramp.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OnRamp {
    /// Its weight alone.
    pub weight: Weight,
    /// Its centre of gravity.
    pub centre: GroundPoint,
    /// Its front contact.
    pub front: Contact,
    /// Its rear contact.
    pub rear: Contact,
    /// The ball.
    pub ball: GroundPoint,
    /// What the trailer does to the ball.
    pub at_ball: AtBall,
    /// What the rig does.
    pub motion: Motion,
}

/// What holds the tow vehicle on a ramp.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hold {
    /// Ground force on the front axle, normal to the ground.
    pub front: Weight,
    /// Ground force on the rear axle, normal to the ground.
    pub rear: Weight,
    /// Tangential over normal force at the gripping axle; `None` where that axle is unloaded and holds nothing.
    pub friction: Option<Share>,
}

/// The friction that one axle, or both alike, must find to hold or move the rig.
///
/// The tow vehicle in its own plane carries its weight, the ball's reaction `(H, −V)`, a normal force under
/// each axle and one force `T` along the ground, no other but what motion adds: its wheels' rolling resistance along
/// the ground, and its inertia at its centre of gravity, aft along the line `t` of its contacts. With
/// `ν = (−sin α, cos α)` and `τ = (cos α, sin α)` at each contact:
///
/// `Nf (νf + f_r τf) + Nr (νr + f_r τr) + T τ = (−H, W + V) − W a/g t`, and no moment about the rear contact.
///
/// `T` acts at the gripping axle; where both grip, each takes its share by its normal force, which is the
/// same friction at both.
pub fn hold(tow: &OnRamp, grip: Grip) -> Hold {
    let (nf, nr, t, held_by) = match grip {
        Grip::Front => {
            let (nf, nr, t) = balance(tow, 1.0);
            (nf, nr, t, nf)
        }
        Grip::Rear => {
            let (nf, nr, t) = balance(tow, 0.0);
            (nf, nr, t, nr)
        }
        Grip::Both => {
            // The share moves the normals only through the difference of two slopes: it settles at once.
            let mut share = 0.5;
            for _ in 0..20 {
                let (nf, nr, _) = balance(tow, share);
                let (nf, nr) = (nf.max(0.0), nr.max(0.0));
                let next = if nf + nr > 0.0 { nf / (nf + nr) } else { 0.5 };
                if next == share {
                    break;
                }
                share = next;
            }
            let (nf, nr, t) = balance(tow, share);
            (nf, nr, t, nf.max(0.0) + nr.max(0.0))
        }
    };
    let friction = (held_by > 0.0).then(|| t.abs() / held_by).filter(|friction| friction.is_finite());
    Hold { front: Weight::from_si(nf), rear: Weight::from_si(nr), friction: friction.map(Share::from_si) }
}

/// `Nf`, `Nr` and `T` with this share of `T` at the front axle: three equations by Cramer's rule.
fn balance(tow: &OnRamp, front_share: f64) -> (f64, f64, f64) {
    let (w, v, h) = (tow.weight.si(), tow.at_ball.tongue_weight.si(), tow.at_ball.pull.si());
    let (rolling, inertia) = (tow.motion.rolling_resistance(), w * tow.motion.acceleration());
    let arm = |point: GroundPoint| ((point.x - tow.rear.at.x).si(), (point.z - tow.rear.at.z).si());
    // A force's column: aft, up, and its moment about the rear contact, dx Fz − dz Fx.
    let column = |(dx, dz): (f64, f64), (fx, fz): (f64, f64)| [fx, fz, dx * fz - dz * fx];
    let plus = |a: [f64; 3], b: [f64; 3]| [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
    let ((sf, cf), (sr, cr)) = (tow.front.heading(), tow.rear.heading());
    let (front, rear) = (arm(tow.front.at), (0.0, 0.0));
    let b = (front.0 * front.0 + front.1 * front.1).sqrt();
    let (tx, tz) = (-front.0 / b, -front.1 / b);
    let at_centre = (inertia * tx, inertia * tz - w);
    let loads = plus(column(arm(tow.centre), at_centre), column(arm(tow.ball), (h, -v)));
    let (f, r) = (front_share, 1.0 - front_share);
    let normal_front = column(front, (rolling * cf - sf, cf + rolling * sf));
    let normal_rear = column(rear, (rolling * cr - sr, cr + rolling * sr));
    let along = plus(column(front, (f * cf, f * sf)), column(rear, (r * cr, r * sr)));
    let against = loads.map(|load| -load);
    let whole = determinant(normal_front, normal_rear, along);
    (
        determinant(against, normal_rear, along) / whole,
        determinant(normal_front, against, along) / whole,
        determinant(normal_front, normal_rear, against) / whole,
    )
}

fn determinant(a: [f64; 3], b: [f64; 3], c: [f64; 3]) -> f64 {
    a[0] * (b[1] * c[2] - b[2] * c[1]) - b[0] * (a[1] * c[2] - a[2] * c[1])
        + c[0] * (a[1] * b[2] - a[2] * b[1])
}
