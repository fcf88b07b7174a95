//! How hot brakes get, without cooling: an upper bound.
//!
//! | symbol | meaning |
//! |---|---|
//! | `B` | brake force, `H`, `θ` height and slope of a descent, `v`, `a` speed and deceleration of a stop |
//! | `Q` | heat |
//! | `m`, `c` | mass of disc or drum; specific heat of iron, 460 J/kg K (from memory) |
//! | `ΔT` | rise of temperature |

use crate::quantity::{Angle, Length, Quantity, STANDARD_GRAVITY, Share, Speed, Weight};

/// `c` of cast iron, J/kg K. From memory.
const IRON: f64 = 460.0;
/// `T_0`, in degrees Celsius.
pub const AMBIENT: f64 = 20.0;
/// Linings lose grip from about here, in degrees Celsius. Common practice, no source.
pub const LININGS_FADE: f64 = 300.0;

/// The rise of temperature, in kelvins, of iron that weighs so much, down a descent that these brakes hold.
pub fn rise_on_descent(brakes: Weight, height: Length, slope: Angle, iron: Weight) -> f64 {
    // Q = B H / sin θ, ΔT = Q / (m c)
    brakes.si() * height.si() / slope.si().sin() / heat_capacity(iron)
}

/// The same in one stop.
pub fn rise_in_stop(brakes: Weight, speed: Speed, deceleration: Share, iron: Weight) -> f64 {
    // Q = B v² / 2a
    let way = speed.si() * speed.si() / (2.0 * deceleration.si() * STANDARD_GRAVITY);
    brakes.si() * way / heat_capacity(iron)
}

fn heat_capacity(iron: Weight) -> f64 {
    iron.si() / STANDARD_GRAVITY * IRON
}

/// The height that may be braked at one go, where a descent of `height` heats the iron by `rise`, and a part that takes
/// `share` of that may reach `limit` degrees Celsius.
pub fn height_at_one_go(height: Length, rise: f64, share: Share, limit: f64) -> Length {
    // H (limit − T_0) / (share ΔT)
    height * ((limit - AMBIENT) / (share.si() * rise))
}
