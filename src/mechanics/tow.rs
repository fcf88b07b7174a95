//! The tow vehicle on its two axles, with the trailer on its ball.
//!
//! | symbol | meaning |
//! |---|---|
//! | `F0`, `R0` | front and rear axle load, loaded for the trip, trailer off |
//! | `b` | wheelbase |
//! | `o` | ball behind the rear axle |
//! | `V` | tongue weight |

use crate::quantity::{Length, Weight};

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
        // F = F0 − V o / b
        front: tow.front - tongue_weight * lever,
        // R = R0 + V (b + o) / b
        rear: tow.rear + tongue_weight + tongue_weight * lever,
    }
}
