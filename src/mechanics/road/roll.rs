//! Rolling to the side: in a turn, on a cross slope, in the wind.
//!
//! | symbol | meaning |
//! |---|---|
//! | `W`, `h` | gross weight, and the height of its centre above ground |
//! | `V`, `h_b` | tongue weight, and the ball's height |
//! | `ΣN`, `x̄` | all axle loads, and the axles' mean distance behind the ball |
//! | `t` | track, between the wheels' centres |
//! | `κ` | slope to the side |
//! | `v`, `R`, `g` | speed, radius of the turn, standard gravity |
//! | `q`, `C`, `A` | the wind's pressure, drag coefficient, side area |
//! | `F`, `x_w`, `h_w` | the wind's force, its centre behind the ball and above ground |
//! | `F_b` | the ball's part of it |
//!
//! The ball takes its part of a side force at its own height and resists no roll.

use crate::quantity::{Area, Length, Quantity, STANDARD_GRAVITY, Share, Slope, Speed, Weight, unit};

/// `C` of a boat on its trailer: 1.0 to 1.4. Common practice, no source.
const DRAG: f64 = 1.2;

/// What lies at which height, for rolling.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rolling {
    /// Boat and trailer.
    pub weight: Weight,
    /// Their centre of gravity above ground.
    pub height: Length,
    /// What the ball carries.
    pub tongue_weight: Weight,
    /// The ball above ground.
    pub ball_height: Length,
    /// All axle loads.
    pub on_axles: Weight,
    /// Between the wheels' centres.
    pub track: Length,
}

impl Rolling {
    /// The height at which a side force on the centre of gravity acts on the axles: above that centre, since the ball takes
    /// its part lower down.
    pub fn height_for_the_axles(&self) -> Length {
        // h' = (W h − V h_b) / ΣN
        (self.weight * self.height - self.tongue_weight * self.ball_height) / self.on_axles
    }

    /// The share of every axle's load on its heavier side where the road slopes to that side; `offset` is how far off the
    /// centreline the axles' load acts on the level, see [`effective_offset`](super::sides::effective_offset).
    pub fn heavier_side(&self, offset: Length, cross_slope: Slope) -> Share {
        // 1/2 + (|y| + h' tan κ) / t
        Share::from_si(0.5) + (offset.abs() + self.height_for_the_axles() * cross_slope.si()) / self.track
    }

    /// The gust from the side at which the windward wheels lift; `None` where no wind lifts them. `centre` is that of the
    /// area behind the ball, `mean` the axles' mean station.
    ///
    /// The pressure is `q = 0.00256 v²` in pounds a square foot and miles an hour, as building codes have it (quoted).
    pub fn tipping_wind(&self, area: Area, centre: Length, height: Length, mean: Length) -> Option<Speed> {
        // F_b = F (x̄ − x_w) / x̄
        let ball = ((mean - centre) / mean).si();
        // F h_w − F_b h_b = ΣN t / 2
        let lever = height.si() - ball * self.ball_height.si();
        let force = (lever > 0.0).then(|| self.on_axles.si() * self.track.si() / 2.0 / lever)?;
        // F = q C A
        let pressure = force / (DRAG * area.si());
        let foot = 12.0 * unit::INCH;
        let of_one_mile_an_hour = 0.00256 * unit::POUND / (foot * foot);
        Some(Speed::from_si((pressure / of_one_mile_an_hour).max(0.0).sqrt() * unit::MILE_AN_HOUR))
    }
}

/// Sideways acceleration in a steady turn, as a share of gravity.
pub fn sideways(speed: Speed, radius: Length) -> Share {
    // v² / (g R)
    Share::from_si(speed.si() * speed.si() / (STANDARD_GRAVITY * radius.si()))
}
