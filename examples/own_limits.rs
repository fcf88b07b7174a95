//! Holds a rig to limits of its owner's own: a narrower band for the tongue share, and no tire above 85 % of its rating.
//!
//! Run it with `cargo run --example own_limits`.

use bunkline::quantity::show::percent;
use bunkline::quantity::{Quantity, Share};
use bunkline::{Rig, fit};
use std::error::Error;
use std::io::{Write, stdout};

const FILE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/demo-data/survey-launch-as-changed.toml");

fn main() -> Result<(), Box<dyn Error>> {
    run(&mut stdout().lock())
}

/// Writes the verdict under the owner's policy, then how much of its rating each tire uses.
pub(crate) fn run(out: &mut dyn Write) -> Result<(), Box<dyn Error>> {
    // A limit that has a key is a change of policy, as in the rig file.
    let rig = Rig::parse(&std::fs::read_to_string(FILE)?)?.with("policy.tongue_share.min=9 %")?;
    let assessment = fit::assess(&rig)?;
    writeln!(out, "with a tongue share of 9 % or more: {:?}", assessment.verdict)?;

    // Any other limit is a question to the rows.
    let most = Share::from_si(0.85);
    for row in &assessment.rows {
        let id = row.id();
        let Some(used) = row.used.filter(|_| id.contains("tire-")) else { continue };
        let answer = if used > most { "more than the owner allows" } else { "allowed" };
        writeln!(out, "{id} uses {} of its rating: {answer}", percent(used))?;
    }
    Ok(())
}
