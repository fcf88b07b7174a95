//! A rig that goes down a hill at a steady speed, with its tow vehicle's brakes on and released.
//!
//! | symbol | meaning |
//! |---|---|
//! | `W`, `W_t` | weight of the trailer, and of the tow vehicle alone |
//! | `θ` | slope of the hill |
//! | `G`, `P0` | brake force for each newton of push beyond the preload; the preload |
//! | `P_r` | push down to which an actuator holds its pressure once the brakes are released |
//! | `F`, `B` | push at the coupler; the trailer's brakes |
//! | `E` | what the engine holds, the tow vehicle's brakes released |
//!
//! Rolling resistance is left out, which is on the safe side.

use crate::quantity::{Angle, Quantity, Slope, Weight};

/// What an actuator remembers of the pressure once the tow vehicle's brakes are released.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Memory {
    /// Nothing.
    None,
    /// It holds all pressure until the push has fallen to this.
    Holds(Weight),
    /// Friction alone, of so much either way: the pressure follows a lower line down.
    Friction(Weight),
}

/// What holds a rig on a hill.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Held {
    /// The push at the coupler.
    pub push: Weight,
    /// The trailer's brakes.
    pub brakes: Weight,
    /// What the tow vehicle holds: by brakes and engine together, or, where its brakes are released, by the engine.
    pub by_tow: Weight,
}

/// What the brakes of a trailer on a push-worked actuator do where so much is to be held.
fn braked(force: f64, gain: f64, preload: f64) -> f64 {
    // F = (W sin θ + G P0) / (1 + G), B = G (F − P0); below the preload nothing
    gain * ((force - preload) / (1.0 + gain)).max(0.0)
}

/// With the tow vehicle's brakes released, on a push-worked actuator whose brakes hold at most `greatest`.
pub fn released(
    (trailer, tow): (Weight, Weight),
    slope: Angle,
    (gain, preload, greatest): (f64, Weight, Option<Weight>),
    memory: Memory,
) -> Held {
    let sin = slope.si().sin();
    let (force, own) = (trailer.si() * sin, tow.si() * sin);
    let most = greatest.map_or(f64::INFINITY, Quantity::si);
    let brakes = match memory {
        Memory::None => braked(force, gain, preload.si()),
        // B ≤ W sin θ − P_r
        Memory::Holds(release) => force - release.si(),
        // P_r = P0 − 2 × friction
        Memory::Friction(friction) => braked(force, gain, preload.si() - 2.0 * friction.si()),
    };
    let brakes = brakes.clamp(0.0, most);
    // F = W sin θ − B, E = W_t sin θ + F
    let push = force - brakes;
    Held { push: Weight::from_si(push), brakes: Weight::from_si(brakes), by_tow: Weight::from_si(own + push) }
}

/// The grade that the tow vehicle would have to hold alone, in gear, if it holds so much.
pub fn grade_alone(holds: Weight, tow: Weight) -> Option<Slope> {
    // tan(asin(E / W_t))
    let sin = holds.si() / tow.si();
    (sin.abs() < 1.0).then(|| Slope(sin.asin().tan()))
}
