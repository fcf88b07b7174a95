//! `bunkline explain`: what a check is.

use super::format::{self, Format, one_of};
use super::stream::Streams;
use super::{Outcome, diagnostic};
use crate::fit;
use crate::report::explain;
use clap::Args;

/// Explain a check: what it compares, where its limit comes from, what to measure, what fixes it
#[derive(Args)]
#[command(after_help = "Example:\n  bunkline explain lifted-axle-1")]
pub(super) struct Explain {
    /// A check's id as reports name it; without one, all are listed
    #[arg(value_name = "CHECK-ID")]
    id: Option<String>,
    /// How to report
    #[arg(long, value_name = "FORM", default_value = "text", value_parser = one_of(&[Format::Text, Format::Html]))]
    format: Format,
}

impl Explain {
    pub fn run(&self, streams: &mut Streams) -> Outcome {
        let Some(id) = &self.id else {
            format::print(&explain::list(fit::checks()), self.format, streams);
            return Outcome::Done;
        };
        if let Some(check) = fit::find(id) {
            format::print(&explain::explain(check, id, fit::checks()), self.format, streams);
            Outcome::Done
        } else {
            let ids: Vec<String> = fit::checks().map(|check| check.in_general(check.id)).collect();
            let near = crate::rig::nearest(id, ids.iter().map(String::as_str));
            let near = near.map(|near| format!("\nhelp: did you mean `{near}`?")).unwrap_or_default();
            let id = id.escape_debug();
            let message = format!("expected the id of a check, found `{id}`{near}");
            streams.complain(&diagnostic::plain(&message));
            Outcome::Broken
        }
    }
}
