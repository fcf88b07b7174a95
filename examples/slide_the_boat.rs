//! Slides the boat along its trailer and prints tongue weight and verdict at each stop.
//!
//! Run it with `cargo run --example slide_the_boat`.

use bunkline::quantity::show::{UnitSystem, percent};
use bunkline::{Rig, fit};
use std::error::Error;
use std::io::Write;

const FILE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/demo-data/electric-day-launch.toml");

fn main() -> Result<(), Box<dyn Error>> {
    let text = std::fs::read_to_string(FILE)?;
    let mut out = std::io::stdout().lock();
    for inches in (0..=24).step_by(4) {
        let rig = Rig::read(FILE, &text, &[format!("shift.boat={inches} in")])?;
        let found = fit::assess(&rig)?;
        let Some(level) = found.cases.first().and_then(|case| case.level.as_ref().ok()) else {
            continue;
        };
        let tongue = level.stance.tongue_weight;
        let share = found.cases[0].gross.as_ref().map(|gross| percent(tongue / *gross)).unwrap_or_default();
        let (tongue, verdict) = (UnitSystem::Us.weight(tongue), found.verdict);
        writeln!(out, "{inches:>3} in aft: tongue {tongue:>7}, {share:>7} of gross: {verdict:?}")?;
    }
    Ok(())
}
