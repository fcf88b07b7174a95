//! What the tires carry in a case, what they may carry at their pressure, and the pressure that the load needs.

use crate::fit::known::{Known, both, known};
use crate::mechanics::PerAxle;
use crate::mechanics::road::tires::{Inflation, Tabled};
use crate::quantity::unit::{INCH, POUND};
use crate::quantity::{Pressure, Quantity, Weight};
use crate::rig::inputs::{
    TRAILER_AXLES_TIRES_PRESSURE, TRAILER_AXLES_TIRES_PRESSURE_EXPONENT, TRAILER_AXLES_TIRES_PRESSURE_MAX,
    TRAILER_AXLES_TIRES_RATING,
};
use crate::rig::{Setup, TireKind};

/// A passenger-car tire carries less on a trailer. Source: 49 CFR 571.120 S5.1.2.
pub const PASSENGER_DIVISOR: f64 = 1.10;

/// The tires of one axle in a case, on level ground.
#[derive(Debug, Clone, PartialEq)]
pub struct OnTires {
    /// What the heaviest carries.
    pub load: Known<Weight>,
    /// What each may carry at its pressure.
    pub allowed: Known<Weight>,
    /// Their pressure, where it is stated.
    pub pressure: Known<Pressure>,
    /// The least pressure that the load asks for.
    pub needed: Known<Pressure>,
}

impl OnTires {
    /// Of each axle, by what the heaviest tire of each carries.
    pub(super) fn of(setup: &Setup, loads: &Known<PerAxle<Weight>>) -> PerAxle<Self> {
        let of_axle = |axle: usize| {
            let load = loads.as_ref().map(|loads| loads[axle]).map_err(Clone::clone);
            let inflation = inflation(setup, axle);
            let allowed = allowed(setup, axle, inflation.as_ref().map_err(Clone::clone));
            let needed = both(inflation, load.clone()).map(|(inflation, load)| inflation.needs(load));
            Self { load, allowed, pressure: pressure(setup, axle), needed }
        };
        (0..setup.trailer.axles.len()).map(of_axle).collect()
    }
}

/// The pressure that a file states.
pub(super) fn pressure(setup: &Setup, axle: usize) -> Known<Pressure> {
    known(setup.trailer.axles[axle].tires.pressure, TRAILER_AXLES_TIRES_PRESSURE.of(axle))
}

/// The pressure at which the tires hold their rating.
pub(super) fn pressure_max(setup: &Setup, axle: usize) -> Known<Pressure> {
    known(setup.trailer.axles[axle].tires.pressure_max, TRAILER_AXLES_TIRES_PRESSURE_MAX.of(axle))
}

/// What a tire may carry on a trailer by its sidewall, at its greatest pressure.
pub(crate) fn tire_rating(setup: &Setup, axle: usize) -> Known<Weight> {
    let sidewall = setup.trailer.axles[axle].tires.sidewall();
    Ok(known(sidewall, TRAILER_AXLES_TIRES_RATING.of(axle))? / tire_divisor(setup, axle))
}

/// What a tire may carry on a trailer at its pressure; by its sidewall, where no pressure is stated.
pub(crate) fn tire_allowed(setup: &Setup, axle: usize) -> Known<Weight> {
    allowed(setup, axle, inflation(setup, axle).as_ref().map_err(Clone::clone))
}

/// The same, by what the load follows from.
fn allowed(setup: &Setup, axle: usize, inflation: Known<&Inflation>) -> Known<Weight> {
    if setup.trailer.axles[axle].tires.pressure.is_none() {
        return tire_rating(setup, axle);
    }
    both(inflation, pressure(setup, axle)).map(|(inflation, pressure)| inflation.carries(pressure))
}

/// What a tire may carry on a trailer at a pressure.
pub(in crate::fit) fn tire_carries(setup: &Setup, axle: usize, pressure: Pressure) -> Known<Weight> {
    inflation(setup, axle).map(|inflation| inflation.carries(pressure))
}

/// By what the rating on a tire's sidewall is divided on a trailer.
pub(in crate::fit) fn tire_divisor(setup: &Setup, axle: usize) -> f64 {
    match setup.trailer.axles[axle].tires.kind {
        Some(TireKind::Passenger) => PASSENGER_DIVISOR,
        _ => 1.0,
    }
}

/// What a tire's load follows from.
fn inflation(setup: &Setup, axle: usize) -> Known<Inflation> {
    let tires = &setup.trailer.axles[axle].tires;
    let exponent = known(tires.pressure_exponent, TRAILER_AXLES_TIRES_PRESSURE_EXPONENT.of(axle));
    // The exponent has a default wherever there is a pressure.
    let exponent = exponent.map_err(|_| pressure_max(setup, axle).err().unwrap_or_default());
    let figures = both(pressure_max(setup, axle), exponent);
    let (rating, (pressure_max, exponent)) = both(tire_rating(setup, axle), figures)?;
    let row = |&(pounds, inflation): &(f64, f64)| Tabled {
        load: Weight::from_si(pounds * POUND),
        pressure: Pressure::from_si(inflation * (POUND / (INCH * INCH))),
    };
    let rows = tires.published().iter().map(row).collect();
    Ok(Inflation { rating, pressure_max, exponent, rows })
}
