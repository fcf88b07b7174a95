//! What every section's file writes its rows with: the types, sizes of units, and the ways to measure.

pub(super) use super::rows::{
    Ends, Going, Handle, Holds, Input, List, Role, Sign, Slot, Stored, count, rule, value, word,
};
pub(super) use crate::quantity::Kind;
pub(super) use crate::rig::setup::*;

/// The type of the value that each row [`Holds`].
pub mod types {
    pub use crate::quantity::{
        Angle, Area, Charge, Current, Density, Length, Moment, Pressure, Rate, Share, Slope, Speed, Volume,
        Weight,
    };
    pub use crate::rig::setup::Reach;

    pub type Stress = Pressure;
    pub type LinePressure = Pressure;
    pub type Distance = Length;
    pub type Force = Weight;
    pub type SectionModulus = Volume;
    pub type Text = String;
    pub type Id = String;
    pub type Flag = bool;
    pub type Count = u32;
    pub type Factor = f64;
    pub type Choice<Word> = Word;
    pub type Checks = Vec<String>;
    pub type Parts = Vec<crate::rig::setup::Part>;
}

use crate::quantity::unit::{GALLON, INCH, LITRE, MILE_AN_HOUR, POUND};

pub(super) const fn inches(number: f64) -> f64 {
    number * INCH
}

pub(super) const fn feet(number: f64) -> f64 {
    number * (12.0 * INCH)
}

pub(super) const fn pounds(number: f64) -> f64 {
    number * POUND
}

pub(super) const fn kilonewtons(number: f64) -> f64 {
    number * 1000.0
}

pub(super) const fn percent(number: f64) -> f64 {
    number / 100.0
}

pub(super) const fn pounds_an_inch(number: f64) -> f64 {
    number * (POUND / INCH)
}

pub(super) const fn pounds_a_square_inch(number: f64) -> f64 {
    number * (POUND / (INCH * INCH))
}

pub(super) const fn cubic_inches(number: f64) -> f64 {
    number * (INCH * INCH * INCH)
}

pub(super) const fn square_feet(number: f64) -> f64 {
    number * (144.0 * INCH * INCH)
}

pub(super) const fn gallons(number: f64) -> f64 {
    number * GALLON
}

pub(super) const fn kilograms_a_litre(number: f64) -> f64 {
    number / LITRE
}

pub(super) const fn pound_inches(number: f64) -> f64 {
    number * (POUND * INCH)
}

pub(super) const fn miles_an_hour(number: f64) -> f64 {
    number * MILE_AN_HOUR
}

pub(super) const PLACARD: &str = "From the certification label on the trailer's forward left side.";
pub(super) const SIDEWALL: &str =
    "Moulded on the tire's sidewall: the single figure for a single axle, the dual one for duals.";
pub(super) const PLATE: &str = "Read the approval plate on the part: D, Dc and V in kN, S in kg.";
pub(super) const STAMPED: &str = "Stamped or labelled on the part itself.";
pub(super) const TAPE_X: &str =
    "With the rig level, drop a plumb line from each point to the ground and tape along the ground.";
pub(super) const TAPE_STATION: &str =
    "Tape along the keel line from the transom forward; aft of the transom is negative.";
pub(super) const TAPE_KEEL: &str = "Tape up from the keel line.";
pub(super) const GROUND: &str = "On level ground, rig coupled, frame level, tape up from the ground.";
pub(super) const PLAIN: &str = "Your choice.";
pub(super) const DOOR: &str = "From the label in the driver's door frame.";
pub(super) const MANUAL: &str = "From the tow vehicle's owner's manual, for its engine, axle ratio and cab.";
pub(super) const SCALE_TOW: &str =
    "Weigh the tow vehicle alone on a truck scale, crew and gear aboard, each axle on its own pad.";
