//! What a coupling's plate is held against in Europe: D, Dc and V.
//!
//! | symbol | meaning |
//! |---|---|
//! | `T` | mass of the tow vehicle, the tongue's load on it included |
//! | `R` | mass of the trailer |
//! | `C` | what the trailer's axles carry, as a mass |
//! | `X`, `L` | length of the trailer's body; ball to the middle of its axles |
//! | `a` | acceleration that the tow vehicle's springs pass on |
//!
//! Source: UN Regulation 55, on pages that quote it.

use crate::quantity::{Length, Quantity, Weight, unit};

/// The regulation's `g`, exactly, m/s².
const G: f64 = 9.81;
/// `a` of a tow vehicle on air springs, m/s².
const ON_AIR: f64 = 1.8;
/// `a` of any other, m/s².
const ON_STEEL: f64 = 2.4;

/// What pulls between a tow vehicle and a trailer, or between it and what the trailer's axles carry (`Dc`).
pub fn d_value(tow: Weight, trailer: Weight) -> Weight {
    // D = g T R / (T + R)
    let together = tow * (trailer / (tow + trailer));
    Weight::from_si(G * mass(together))
}

/// What shakes the coupling of a centre-axle trailer up and down.
pub fn v_value(on_axles: Weight, body: Length, to_axles: Length, on_air: bool) -> Weight {
    // V = a (X/L)² C, (X/L)² not below 1
    let leverage = (body / to_axles).si().powi(2).max(1.0);
    let a = if on_air { ON_AIR } else { ON_STEEL };
    Weight::from_si(a * leverage * mass(on_axles))
}

fn mass(weight: Weight) -> f64 {
    weight.si() / unit::STANDARD_GRAVITY
}
