//! Sweeps the boat along its trailer on all cores and prints the place with the most to spare.
//!
//! Run it with `cargo run --release --example sweep_the_boat`.

use bunkline::Rig;
use bunkline::quantity::show::UnitSystem;
use bunkline::quantity::{Quantity, Weight};
use bunkline::study::sweep::{Axis, Best, Sweep};
use std::error::Error;
use std::io::{Write, stdout};
use std::ops::ControlFlow;

const FILE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/demo-data/survey-launch-as-changed.toml");

fn main() -> Result<(), Box<dyn Error>> {
    run(&mut stdout().lock())
}

/// Writes how many places pass, and the best of them.
pub(crate) fn run(out: &mut dyn Write) -> Result<(), Box<dyn Error>> {
    let rig = Rig::parse(&std::fs::read_to_string(FILE)?)?;
    let boat = Axis::parse(&rig, "shift.boat=-16in..2in/0.1in")?;
    let sweep = Sweep::new(&rig, vec![boat], None, None, true)?;
    let mut best = Best::default();
    let pool = rayon::ThreadPoolBuilder::new().build()?;
    sweep.run(
        &pool,
        |seen: &mut Best, point| seen.see(&sweep, point),
        |seen, _| {
            best.and(seen);
            ControlFlow::Continue(())
        },
    );
    let Some(row) = best.row() else {
        writeln!(out, "no place of {} passes", best.points)?;
        return Ok(());
    };
    let found = sweep.point(row).found?;
    let margin = sweep
        .least_margin(&found)
        .map(|(_, margin)| UnitSystem::Us.weight(Weight::from_si(margin)))
        .unwrap_or_default();
    let place = sweep.axes()[0].series.text(row);
    writeln!(
        out,
        "{} of {} places pass; the best is {place}, with {margin} to spare",
        best.passing, best.points
    )?;
    Ok(())
}
