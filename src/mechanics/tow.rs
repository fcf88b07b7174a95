//! The tow vehicle on its two axles, with the trailer on its ball.
//!
//! | symbol | meaning |
//! |---|---|
//! | `F0`, `R0` | front and rear axle load, loaded for the trip, trailer off |
//! | `b` | wheelbase |
//! | `o` | ball behind the rear axle |
//! | `V`, `H` | tongue weight, and the trailer's pull aft |
//! | `Nf`, `Nr`, `T` | normal forces of the ground, and the force along it |
//! | `α` | slope of the ground under an axle |

use super::ramp::Contact;
use super::terrain::GroundPoint;
use crate::quantity::{Length, Quantity, Share, Weight};

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

/// The axle loads under a tongue weight, on the level.
pub fn coupled(tow: TowVehicle, tongue_weight: Weight) -> Coupled {
    let lever = tow.overhang / tow.wheelbase;
    Coupled {
        front: front_coupled(tow.front, tongue_weight, lever),
        rear: rear_coupled(tow.rear, tongue_weight, lever),
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
    /// Tongue weight, positive down on it.
    pub tongue_weight: Weight,
    /// The trailer's pull on it, aft.
    pub pull: Weight,
}

/// What holds the tow vehicle on a ramp.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hold {
    /// Ground force on the front axle, normal to the ground.
    pub front: Weight,
    /// Ground force on the rear axle, normal to the ground.
    pub rear: Weight,
    /// Tangential over normal force at the gripping axle; none where that axle is unloaded and holds nothing.
    pub friction: Option<Share>,
}

/// The friction that one axle, or both alike, must find to hold or move the rig.
///
/// The tow vehicle in its own plane carries its weight, the ball's reaction `(H, −V)`, a normal force under
/// each axle and one force `T` along the ground, no other. With `ν = (−sin α, cos α)` and `τ = (cos α, sin α)`
/// at each contact:
///
/// `Nf νf + Nr νr + T τ = (−H, W + V)`, and no moment about the rear contact.
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
    let (w, v, h) = (tow.weight.si(), tow.tongue_weight.si(), tow.pull.si());
    let arm = |point: GroundPoint| ((point.x - tow.rear.at.x).si(), (point.z - tow.rear.at.z).si());
    // A force's column: aft, up, and its moment about the rear contact, dx Fz − dz Fx.
    let column = |(dx, dz): (f64, f64), (fx, fz): (f64, f64)| [fx, fz, dx * fz - dz * fx];
    let plus = |a: [f64; 3], b: [f64; 3]| [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
    let (sf, cf) = tow.front.slope.si().sin_cos();
    let (sr, cr) = tow.rear.slope.si().sin_cos();
    let (front, rear) = (arm(tow.front.at), (0.0, 0.0));
    let loads = plus(column(arm(tow.centre), (0.0, -w)), column(arm(tow.ball), (h, -v)));
    let (f, r) = (front_share, 1.0 - front_share);
    let normal_front = column(front, (-sf, cf));
    let normal_rear = column(rear, (-sr, cr));
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
