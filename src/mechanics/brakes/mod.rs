//! Brakes: from the push at the coupler, or from current, to what each axle carries while it brakes, what the tow vehicle
//! has to do, and how hot everything gets.
//!
//! [`hydraulics`] turns a push into pressure and force, [`stop`] finds a rig that slows down, [`descent`] one that is held
//! on a hill, and [`heat`] what that heats.

pub mod descent;
pub mod heat;
pub mod hydraulics;
pub mod stop;

/// A wheel that brakes with more than this share of what it carries slides: dry pavement holds 0.6 to 0.8. Read.
pub const SLIDES_AT: f64 = 0.7;
