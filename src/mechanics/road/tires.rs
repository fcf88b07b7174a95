//! What a tire carries at a pressure, and the pressure that a load needs.
//!
//! | symbol | meaning |
//! |---|---|
//! | `L_max`, `P_max` | rating on the sidewall, and the pressure that it holds at |
//! | `P`, `n` | pressure, and the power of it with which the load that a tire carries falls |
//! | `L`, `P_needed` | what the tire carries at `P`; the pressure that a load asks for |

use crate::quantity::{Pressure, Quantity, Share, Weight};
use arrayvec::ArrayVec;

/// Below this share of `P_max` the formula is arithmetic only: no table goes lower. Common practice, no source.
pub const LEAST_PRESSURE: f64 = 0.6;

/// The most rows of a size.
pub const MOST_ROWS: usize = 4;

/// A row of a published table of loads by inflation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tabled {
    /// What a tire carries.
    pub load: Weight,
    /// At this pressure.
    pub pressure: Pressure,
}

/// What a tire's load follows from.
#[derive(Debug, Clone, PartialEq)]
pub struct Inflation {
    /// What it carries at its greatest pressure.
    pub rating: Weight,
    /// That pressure.
    pub pressure_max: Pressure,
    /// The power of the pressure with which the load falls.
    pub exponent: Share,
    /// The published rows of its size, by which it carries more than by the formula at some pressures; empty where there
    /// are none.
    pub rows: ArrayVec<Tabled, MOST_ROWS>,
}

impl Inflation {
    /// What a tire carries at a pressure: no more than its rating, and no less than a published row at or below it.
    pub fn carries(&self, pressure: Pressure) -> Weight {
        // L = L_max (P / P_max)^n
        let share = (pressure / self.pressure_max).si().powf(self.exponent.si());
        let rows = self.rows.iter().filter(|row| row.pressure <= pressure).map(|row| row.load);
        rows.fold(self.rating * share, Weight::max).min(self.rating)
    }

    /// The least pressure at which a tire carries a load, and at least [`LEAST_PRESSURE`] of its greatest. A load over the
    /// rating asks for more than the greatest pressure, which no tire may have.
    pub fn needs(&self, load: Weight) -> Pressure {
        let least = self.pressure_max * LEAST_PRESSURE;
        if load.si() <= 0.0 {
            return least;
        }
        // P_needed = P_max (L / L_max)^(1/n)
        let needed = self.pressure_max * (load / self.rating).si().powf(1.0 / self.exponent.si());
        let rows = self.rows.iter().filter(|row| row.load >= load && load <= self.rating);
        rows.map(|row| row.pressure).fold(needed, Pressure::min).max(least)
    }
}
