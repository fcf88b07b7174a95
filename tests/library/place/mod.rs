//! Where a part must sit: the windows against every spot tried one by one, against hand statics, and through
//! the program.

mod brute_force;
mod closed_forms;
mod command;
mod disjoint;

use bunkline::Rig;
use bunkline::quantity::{Length, Quantity};
use bunkline::study::place::{Options, Part, Placing, place};

/// Metres in an inch, exact by definition.
const INCH: f64 = 0.0254;

/// A rig whose file states the usual band of tongue shares, where it states no other: past it the rig fails.
fn rig(text: &str, changes: &[&str]) -> Rig {
    let stated = if text.contains("tongue_share") { None } else { Some("policy.tongue_share.max=12 %") };
    let changes: Vec<&str> = stated.into_iter().chain(changes.iter().copied()).collect();
    Rig::read("rig.toml", text, &changes).unwrap_or_else(|problems| panic!("{problems}\n{text}"))
}

/// Sixteenths of an inch, then ten-thousandths.
fn options(ramps: bool) -> Options {
    Options { ramps, grains: [Length::from_si(INCH / 16.0), Length::from_si(INCH / 1e4)] }
}

fn placed(rig: &Rig, part: Part) -> Placing {
    place(rig, part, &options(false)).unwrap_or_else(|why| panic!("{why}"))
}

fn inches(length: Length) -> f64 {
    length.si() / INCH
}
