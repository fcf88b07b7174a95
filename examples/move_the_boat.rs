//! Moves the boat along its trailer and prints tongue weight, tongue share and verdict at each place.
//!
//! Run it with `cargo run --example move_the_boat`.

use bunkline::quantity::show::{UnitSystem, percent};
use bunkline::{Rig, fit};
use std::error::Error;
use std::io::{Write, stdout};

const FILE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/demo-data/electric-day-launch.toml");

fn main() -> Result<(), Box<dyn Error>> {
    run(&mut stdout().lock())
}

/// Writes a line for every 4 in.
pub(crate) fn run(out: &mut dyn Write) -> Result<(), Box<dyn Error>> {
    let rig = Rig::parse(&std::fs::read_to_string(FILE)?)?;
    for inches in (0..=24).step_by(4) {
        let moved = rig.with(&format!("shift.boat={inches} in"))?;
        let assessment = fit::assess(&moved)?;
        let Some(Ok(level)) = assessment.cases.first().map(|case| &case.level) else { continue };
        let Ok(share) = assessment.cases[0].tongue_share() else { continue };
        let tongue = UnitSystem::Us.weight(level.stance.tongue_weight);
        let (share, verdict) = (percent(share), assessment.verdict);
        writeln!(
            out,
            "{inches:>3} in aft: the tongue carries {tongue:>6}, {share:>6} of gross: {verdict:?}"
        )?;
    }
    Ok(())
}
