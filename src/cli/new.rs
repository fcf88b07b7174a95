//! `bunkline new`: a starter file to fill in.

use super::Outcome;
use super::stream::Streams;
use clap::Args;

/// The starter file.
const STARTER: &str = include_str!("starter.toml");

/// Print a commented starter file that says what to measure and how
#[derive(Args)]
#[command(after_help = "Example:\n  bunkline new > rig.toml")]
pub(super) struct New {}

impl New {
    pub fn run(streams: &mut Streams) -> Outcome {
        streams.print(STARTER);
        Outcome::Done
    }
}
