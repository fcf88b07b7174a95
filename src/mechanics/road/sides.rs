//! Side to side: what the heavier side carries.
//!
//! | symbol | meaning |
//! |---|---|
//! | `W`, `yc` | gross weight and how far its centre lies off the centreline |
//! | `ΣN` | all axle loads |
//! | `t` | track, between the wheels' centres |
//! | `h` | height of the centre of gravity above the ground |

use crate::quantity::{Length, Quantity, Share, Weight};

/// How far off the centreline the axles' common load acts: the ball resists no roll, so the axles
/// carry the whole side moment.
///
/// Zero when the axles carry nothing.
pub fn effective_offset(weight: Weight, offset: Length, on_axles: Weight) -> Length {
    if on_axles.si() <= 0.0 {
        return Length::from_si(0.0);
    }
    // y = W yc / ΣN
    offset * (weight / on_axles)
}

/// The share of every axle's load that its heavier side carries: 0.5 when balanced, over 1 when
/// the lighter side would lift.
pub fn heavier_side(effective_offset: Length, track: Length) -> Share {
    // 1/2 + |y|/t
    Share::from_si(0.5) + (effective_offset / track).abs()
}

/// The static stability factor `t / 2h`.
///
/// Source: NHTSA's definition. Heavy vehicles tip some 25 % earlier than it says (SAE 2003-01-3385).
pub fn stability_factor(track: Length, cg_height: Length) -> Share {
    track / (2.0 * cg_height)
}
