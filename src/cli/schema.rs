//! `bunkline schema`: the form of a rig file, for an editor.

use super::stream::Streams;
use super::{Outcome, diagnostic};
use crate::report::schema;
use crate::rig::INPUTS;
use clap::Args;

/// Print a JSON Schema of the rig file, with which an editor completes keys and says what they are
#[derive(Args)]
#[command(after_help = "Example:\n  bunkline schema > rig.schema.json")]
pub(super) struct Schema {}

/// Prints it.
pub(super) fn run(streams: &mut Streams) -> Outcome {
    match schema::schema(&INPUTS) {
        Ok(schema) => {
            streams.print(&(schema + "\n"));
            Outcome::Done
        }
        Err(error) => {
            streams.complain(&diagnostic::plain(&error.to_string()));
            Outcome::Broken
        }
    }
}
