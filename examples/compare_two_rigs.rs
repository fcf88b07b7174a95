//! Compares two rigs, check by check, and prints every check that changes its verdict from one to the other.
//!
//! Run it with `cargo run --example compare_two_rigs`.

use bunkline::{Rig, fit};
use std::error::Error;
use std::io::{Write, stdout};

const DEMOS: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/demo-data");

fn main() -> Result<(), Box<dyn Error>> {
    run(&mut stdout().lock())
}

/// Writes the two verdicts, then a line for each check that differs.
pub(crate) fn run(out: &mut dyn Write) -> Result<(), Box<dyn Error>> {
    let assess = |name: &str| -> Result<fit::Assessment, Box<dyn Error>> {
        let rig = Rig::parse(&std::fs::read_to_string(format!("{DEMOS}/{name}.toml"))?)?;
        Ok(fit::assess(&rig)?)
    };
    let found = assess("survey-launch-as-found")?;
    let changed = assess("survey-launch-as-changed")?;
    writeln!(out, "as found: {:?}; as changed: {:?}", found.verdict, changed.verdict)?;
    for before in &found.rows {
        let id = before.id();
        match changed.check(&id) {
            Some(after) if after.verdict != before.verdict => {
                writeln!(out, "{id}: {:?} as found, {:?} as changed", before.verdict, after.verdict)?;
            }
            Some(_) => {}
            None => writeln!(out, "{id}: {:?} as found, not there as changed", before.verdict)?,
        }
    }
    Ok(())
}
