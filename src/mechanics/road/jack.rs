//! A trailer that stands on its jack, its coupler raised off the ball.
//!
//! | symbol | meaning |
//! |---|---|
//! | `x_j` | the jack, aft of the ball |
//! | `z_j` | the frame line above ground over the jack: the one unknown |
//! | `Z_c` | the coupler above ground |
//! | `φ` | pitch, positive nose up |
//!
//! The trailer settles (see [`super::settle`]) held at the jack instead of at the ball. Its coupler then stands at
//! `z_j + x_j sin φ`, which grows with `z_j`: about `1 + x_j / (x̄ − x_j)` times as fast, `x̄` the mean axle station.

use super::settle::{Undercarriage, Unsettled, settle};
use crate::mechanics::{Body, GroundPoint, Terrain};
use crate::quantity::{Angle, Length, Quantity, Weight};

/// A coupler this near its height stands at it, in metres.
const NEAR: f64 = 1e-11;
/// Each step leaves less than a tenth of the miss before it: far more than it takes.
const MOST_STEPS: usize = 60;

/// What a jack `jack` aft of the ball carries on level ground, the coupler this high above it. The jack must stand ahead of
/// every axle.
///
/// # Errors
/// [`Unsettled`] where the trailer does not come to rest on its wheels and the jack at that height.
pub fn jacked(
    body: Body,
    wheels: &Undercarriage,
    jack: Length,
    coupler: Length,
) -> Result<Weight, Unsettled> {
    let mut from_jack = body;
    from_jack.at.x -= jack;
    let wheels = wheels.moved_aft(-jack);
    let mean = wheels.axles.iter().map(|axle| axle.station.si()).sum::<f64>() / wheels.axles.len() as f64;
    let rise = 1.0 + jack.si() / mean;
    let (mut z, mut pitch) = (coupler.si(), 0.0);
    for _ in 0..MOST_STEPS {
        let held = GroundPoint { x: Length::default(), z: Length::from_si(z) };
        let stance = settle(from_jack, &wheels, held, &Terrain::level(), Angle::from_si(pitch))?;
        pitch = stance.pitch.si();
        // Z_c = z_j + x_j sin φ
        let miss = z + jack.si() * pitch.sin() - coupler.si();
        if miss.abs() <= NEAR {
            return Ok(stance.tongue_weight);
        }
        z -= miss / rise;
    }
    Err(Unsettled::OutOfRange)
}
