//! Quantities: the typed values of a rig, read from and shown in the units of the trade.
//!
//! Inside, every value is in SI. Pounds, inches and gallons exist only where a text is read
//! ([`parse()`]) or shown ([`show`]), through one table of exact factors ([`mod@unit`]).

pub mod parse;
pub mod series;
pub mod show;
pub mod unit;

pub use parse::{QuantityError, QuantityFault, parse};
pub use series::{Series, SeriesError};
pub use unit::{Kind, STANDARD_GRAVITY};

/// A distance, in metres inside.
pub type Length = uom::si::f64::Length;
/// A weight, which is a force; in newtons inside. A rating in pounds or kilograms is a weight.
pub type Weight = uom::si::f64::Force;
/// An angle, in radians inside.
pub type Angle = uom::si::f64::Angle;
/// A share of something: 0.12 is 12 %.
pub type Share = uom::si::f64::Ratio;
/// A pressure, in pascals inside.
pub type Pressure = uom::si::f64::Pressure;
/// A volume, in cubic metres inside.
pub type Volume = uom::si::f64::Volume;
/// A density, in kilograms a cubic metre inside.
pub type Density = uom::si::f64::MassDensity;
/// A spring's rate, in newtons a metre inside.
pub type Rate = uom::si::f64::SurfaceTension;
/// A load spread along a line, in newtons a metre inside.
pub type LineLoad = Rate;
/// A bending moment, in newton metres inside.
pub type Moment = uom::si::f64::Torque;
/// An area, in square metres inside.
pub type Area = uom::si::f64::Area;
/// A speed, in metres a second inside.
pub type Speed = uom::si::f64::Velocity;
/// An electric current, in amperes inside.
pub type Current = uom::si::f64::ElectricCurrent;
/// An electric charge, in coulombs inside.
pub type Charge = uom::si::f64::ElectricCharge;

/// The second moment of a section's area about the axis it bends around, m⁴.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct SecondMoment(pub f64);

/// How stiff a beam is in bending: modulus of elasticity times second moment of area, N·m².
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct BendingStiffness(pub f64);

impl SecondMoment {
    /// The bending stiffness of a beam of this section, of a material with this modulus of elasticity.
    pub fn stiffness(self, modulus: Pressure) -> BendingStiffness {
        // E I
        BendingStiffness(modulus.si() * self.0)
    }
}

/// The slope of the ground: rise over run, so 0.15 is 15 %.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Slope(pub f64);

/// A typed value that one [`Kind`] of text describes.
pub trait Quantity: Copy {
    /// Which kind of text describes it.
    const KIND: Kind;
    /// The quantity of this size in SI units.
    fn from_si(value: f64) -> Self;
    /// Its size in SI units.
    fn si(self) -> f64;
}

macro_rules! quantity {
    ($name:ident, $kind:ident, $unit:path) => {
        impl Quantity for $name {
            const KIND: Kind = Kind::$kind;
            fn from_si(value: f64) -> Self {
                Self::new::<$unit>(value)
            }
            fn si(self) -> f64 {
                self.value
            }
        }
    };
}

quantity!(Length, Length, uom::si::length::meter);
quantity!(Weight, Weight, uom::si::force::newton);
quantity!(Angle, Angle, uom::si::angle::radian);
quantity!(Share, Share, uom::si::ratio::ratio);
quantity!(Pressure, Pressure, uom::si::pressure::pascal);
quantity!(Volume, Volume, uom::si::volume::cubic_meter);
quantity!(Density, Density, uom::si::mass_density::kilogram_per_cubic_meter);
quantity!(Rate, Rate, uom::si::surface_tension::newton_per_meter);
quantity!(Moment, Moment, uom::si::torque::newton_meter);
quantity!(Speed, Speed, uom::si::velocity::meter_per_second);
quantity!(Current, Current, uom::si::electric_current::ampere);
quantity!(Charge, Charge, uom::si::electric_charge::coulomb);
quantity!(Area, Area, uom::si::area::square_meter);

impl Quantity for Slope {
    const KIND: Kind = Kind::Slope;
    fn from_si(value: f64) -> Self {
        Self(value)
    }
    fn si(self) -> f64 {
        self.0
    }
}

/// A value and the bound on its error: `v ± u` says that the truth lies within.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Uncertain<Q> {
    /// The value as stated.
    pub value: Q,
    /// How far the truth may lie to either side; zero when the text states none.
    pub bound: Q,
}

impl<Q> Uncertain<Q> {
    /// The same value and bound, each as another type.
    pub fn map<P>(self, as_other: impl Fn(Q) -> P) -> Uncertain<P> {
        Uncertain { value: as_other(self.value), bound: as_other(self.bound) }
    }
}
