//! `bunkline explain`: what a check or a key of the rig file is.

use super::format::{self, Format, one_of};
use super::stream::Streams;
use super::{Outcome, diagnostic};
use crate::fit;
use crate::report::document::Document;
use crate::report::explain;
use crate::rig::inputs::{INPUTS, named, nearest, nearest_key, nearest_path};
use crate::study::uses::uses;
use clap::Args;

/// Explain a check (what it compares, where its limit comes from, what fixes it) or a key of the rig file (what it is,
/// how to measure it, which checks use it)
#[derive(Args)]
#[command(
    after_help = "Examples:\n  bunkline explain lifted-axle-1\n  bunkline explain trailer.level_ball_height"
)]
pub(super) struct Explain {
    /// A check's id as reports name it, or a key as --set names it; without one, all are listed
    #[arg(value_name = "CHECK-ID|KEY")]
    about: Option<String>,
    /// How to report
    #[arg(long, value_name = "FORM", default_value = "text", value_parser = one_of(&[Format::Text, Format::Html]))]
    format: Format,
}

impl Explain {
    pub fn run(&self, streams: &mut Streams) -> Outcome {
        let document = match &self.about {
            None => Some(explain::list(fit::checks(), &INPUTS)),
            Some(about) => explained(about),
        };
        if let Some(document) = document {
            format::print(&document, self.format, streams);
            return Outcome::Done;
        }
        let about = self.about.as_deref().unwrap_or_default();
        let near = near(about).map(|near| format!("\nhelp: did you mean `{near}`?")).unwrap_or_default();
        let about = about.escape_debug();
        let message = format!("expected the id of a check or a key of the rig file, found `{about}`{near}");
        streams.complain(&diagnostic::plain(&message));
        Outcome::Broken
    }
}

/// What there is to say of a check, a key or a table of keys, if there is one of this name.
fn explained(about: &str) -> Option<Document> {
    if let Some(check) = fit::find(about) {
        return Some(explain::explain(check, about, fit::checks()));
    }
    match named(about).as_slice() {
        [] => None,
        [input] => Some(explain::key(input, &uses(input))),
        inputs => Some(explain::table(about, inputs)),
    }
}

/// The check or the key that a name most likely means.
fn near(name: &str) -> Option<String> {
    let ids: Vec<String> = fit::checks().map(|check| check.in_general(check.id)).collect();
    let check = || nearest(name, ids.iter().map(String::as_str)).map(str::to_string);
    let key = || nearest_path(name).or_else(|| nearest_key(name.rsplit('.').next()?, ""));
    // Only keys have dots and low lines.
    if name.contains(['.', '_']) { key().or_else(check) } else { check().or_else(key) }
}
