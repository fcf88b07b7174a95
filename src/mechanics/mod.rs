//! Mechanics: pure functions from points, weights and springs to loads.
//!
//! Nothing here knows a file, a string or a verdict. The frames are:
//!
//! * *Trailer frame*: origin at the centre of the coupler ball, `x` aft along the frame rails, `z`
//!   up and normal to the rails, `y` to starboard. The line `z = 0` is the *frame line*.
//! * *Ground*: `X` horizontal and growing aft, `Z` up.
//! * *Pitch* `φ`: positive nose up. A frame point `(x, z)` lies at
//!   `X = Xb + x cos φ + z sin φ`, `Z = Zb − x sin φ + z cos φ`, with the ball at `(Xb, Zb)`.
//!
//! One subject is one file or folder; what several subjects stand on, the ground, has a file of its own.
//!
//! Inside a function everything is `f64` in SI; at its edges everything is a typed quantity.

pub mod brakes;
pub mod bunks;
pub mod coupling;
pub mod frame;
pub mod launch;
pub mod ramp;
pub mod road;
pub mod sway;
pub mod terrain;
pub mod tie_downs;
pub mod tow;
pub mod winch;

pub use road::balance::Body;
pub use road::settle::{Stance, Undercarriage, Unsettled, settle};
pub use road::springs::Spring;
pub use terrain::{GroundPoint, Terrain};

use crate::quantity::{Angle, Length, Quantity};

/// The most axles a trailer may have here.
pub const MAX_AXLES: usize = 6;

/// One value for each axle, front to rear.
pub type PerAxle<T> = arrayvec::ArrayVec<T, MAX_AXLES>;

/// A point of the trailer frame.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct FramePoint {
    /// Aft of the ball along the rails.
    pub x: Length,
    /// Above the frame line.
    pub z: Length,
    /// To starboard of the centreline.
    pub y: Length,
}

/// A taut line from one point of the trailer frame to another: a tie-down, a winch's strap.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    along: [f64; 3],
}

impl Line {
    /// The line between two points.
    pub fn between(from: FramePoint, to: FramePoint) -> Self {
        Self { along: [to.x - from.x, to.y - from.y, from.z - to.z].map(Quantity::si) }
    }

    /// From end to end.
    pub fn length(self) -> Length {
        Length::from_si(self.along.iter().map(|part| part * part).sum::<f64>().sqrt())
    }

    /// How much of it goes aft, to starboard and down, each as a share of its length; nothing sensible where it has none.
    pub fn direction(self) -> [f64; 3] {
        let length = self.length().si();
        self.along.map(|part| part / length)
    }

    /// The angle above the rails at which it leads forward, seen from the side.
    pub fn angle_forward(self) -> Angle {
        let [aft, _, down] = self.along;
        Angle::from_si((-down).atan2(-aft))
    }
}
