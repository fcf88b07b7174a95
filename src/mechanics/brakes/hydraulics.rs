//! From the push at the coupler to the pressure in the line, the force on each wheel, and the fluid that takes.
//!
//! | symbol | meaning |
//! |---|---|
//! | `F`, `P0` | push at the coupler; what its spring and friction hold back |
//! | `i`, `η` | leverage of the push on the master piston; efficiency |
//! | `d`, `A_m` | bore of the master cylinder, its area `π d²/4` |
//! | `p`, `p_max` | pressure in the line, and its limit |
//! | `A` | area of a wheel's pistons: of a disc those on one side, of a drum one piston of the wheel cylinder |
//! | `C`, `r` | brake factor, and the radius at which the brake drags |
//! | `R` | tire's loaded radius |
//! | `B_w` | brake force of a wheel at the ground |
//! | `δ`, `κ`, `q` | travel of a piston; what a hose swells by; the fluid needed |

use crate::quantity::{Area, Length, Pressure, Quantity, Share, Volume, Weight, unit};
use std::f64::consts::PI;

/// `κ`: rubber hose swells by 0.04 in³ a foot for each 1,000 psi (0.66 cc: what 49 CFR 571.106 allows for 1/8 in hose, from
/// memory). In m³ a metre and pascal.
const SWELL: f64 = 0.04 * unit::INCH * unit::INCH * unit::INCH
    / (12.0 * unit::INCH)
    / (1000.0 * unit::POUND / (unit::INCH * unit::INCH));

/// The area of a round piston.
pub fn piston_area(diameter: Length) -> Area {
    // A = π d² / 4
    Area::from_si(PI * diameter.si() * diameter.si() / 4.0)
}

/// The brake factor of a disc: one clamping force drags on two faces.
pub fn disc_factor(pad_friction: Share) -> f64 {
    // C = 2 μ
    2.0 * pad_friction.si()
}

/// The master cylinder that a push works.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Master {
    /// Its bore.
    pub bore: Length,
    /// Leverage of the push on its piston.
    pub leverage: f64,
    /// What is left of a push after friction.
    pub efficiency: Share,
    /// What the coupler's spring and friction hold back.
    pub preload: Weight,
    /// The pressure at which a valve stops it rising, where it has one.
    pub pressure_max: Option<Pressure>,
}

impl Master {
    /// Pressure in the line for each newton of push beyond the preload, in pascals.
    fn pressure_per_push(&self) -> f64 {
        // i η / A_m
        self.leverage * self.efficiency.si() / piston_area(self.bore).si()
    }

    /// The pressure that a push makes.
    pub fn pressure(&self, push: Weight) -> Pressure {
        // p = i η (F − P0) / A_m, from 0 to p_max
        let pressure = ((push - self.preload).si() * self.pressure_per_push()).max(0.0);
        let most = self.pressure_max.map_or(f64::INFINITY, Quantity::si);
        Pressure::from_si(pressure.min(most))
    }

    /// The push at which the pressure rises no more, where there is such a one.
    pub fn greatest_push(&self) -> Option<Weight> {
        let most = self.pressure_max?;
        Some(self.preload + Weight::from_si(most.si() / self.pressure_per_push()))
    }

    /// How much brake force each newton of push beyond the preload makes, on wheels of this force for each pascal.
    pub fn gain(&self, force_per_pressure: Area) -> f64 {
        // G = i η Σ C A r / (A_m R)
        self.pressure_per_push() * force_per_pressure.si()
    }

    /// How far its piston goes to move so much fluid.
    pub fn stroke(&self, fluid: Volume) -> Length {
        // q / A_m
        Length::from_si(fluid.si() / piston_area(self.bore).si())
    }
}

/// One wheel's hydraulic brake.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WheelBrake {
    /// Area of its pistons: of a disc those on one side alone, of a drum one piston.
    pub area: Area,
    /// Its brake factor.
    pub factor: f64,
    /// Where it drags, from the hub.
    pub radius: Length,
    /// The tire's loaded radius.
    pub tire_radius: Length,
}

impl WheelBrake {
    /// Its force at the ground for each pascal in the line.
    pub fn force_per_pressure(&self) -> Area {
        // B_w / p = A C r / R
        Area::from_si(self.area.si() * self.factor * (self.radius.si() / self.tire_radius.si()))
    }
}

/// The fluid that pistons of this area together take to touch and squeeze, each travelling so far.
pub fn to_touch(area: Area, travel: Length) -> Volume {
    // Σ A δ
    Volume::from_si(area.si() * travel.si())
}

/// The fluid that swells so much rubber hose at a pressure.
pub fn to_swell(hose: Length, pressure: Pressure) -> Volume {
    // κ p
    Volume::from_si(SWELL * hose.si() * pressure.si())
}
