//! `bunkline explain`: what a check or a key of the rig file is.

use super::format::{self, Format, one_of};
use super::rigs::{self, Trouble};
use super::stream::Streams;
use super::{Outcome, diagnostic};
use crate::fit::{self, Check};
use crate::quantity::show::UnitSystem;
use crate::report::document::Document;
use crate::report::{Subject, explain};
use crate::rig::inputs::{INPUTS, named, nearest, nearest_key, nearest_path};
use crate::study::uses::uses;
use clap::Args;

/// Explain a check (what it compares, where its limit comes from, what fixes it) or a key of the rig file (what it is,
/// how to measure it, which checks use it)
#[derive(Args)]
#[command(
    after_help = "Examples:\n  bunkline explain lifted-axle-1\n  bunkline explain lifted-axle-1 rig.toml\n  bunkline explain trailer.level_ball_height"
)]
pub(super) struct Explain {
    /// A check's id or its name in a report, or a key as --set names it; without one, all are listed
    #[arg(value_name = "CHECK-ID|KEY")]
    about: Option<String>,
    /// Rig file: say too how the check stands on this rig, and what would fix it alone; - is standard input
    #[arg(value_name = "FILE")]
    file: Option<String>,
    /// How to report
    #[arg(long, value_name = "FORM", default_value = "text", value_parser = one_of(&[Format::Text, Format::Html]))]
    format: Format,
}

impl Explain {
    pub fn run(&self, streams: &mut Streams) -> Outcome {
        match (&self.about, &self.file) {
            (Some(about), Some(file)) => rigs::outcome(self.on_rig(about, file, streams), file, streams),
            (Some(about), None) => self.print(explained(about).ok_or_else(|| unknown(about)), streams),
            (None, _) => self.print(Ok(explain::list(fit::checks(), &INPUTS)), streams),
        }
    }

    fn print(&self, document: Result<Document, String>, streams: &mut Streams) -> Outcome {
        match document {
            Ok(document) => {
                format::print(&document, self.format, streams);
                Outcome::Done
            }
            Err(message) => {
                streams.complain(&diagnostic::plain(&message));
                Outcome::Broken
            }
        }
    }

    /// The check's entry, and how the check stands on the rig of a file.
    fn on_rig(&self, about: &str, file: &str, streams: &mut Streams) -> Result<Outcome, Trouble> {
        let Some((check, id)) = check(about) else {
            let message = match explained(about) {
                Some(_) => format!("expected the id of a check with a file, found the key `{about}`"),
                None => unknown(about),
            };
            return Err(Trouble::Plain(message));
        };
        let rig = rigs::rig(file, &[])?;
        let (findings, uncertainty) = rigs::examine(&rig)?;
        let units = rig.proposed().units.map_or(UnitSystem::Us, UnitSystem::from);
        let uncertainty = uncertainty.as_ref();
        let subject =
            Subject { path: file, rig: &rig, findings: &findings, uncertainty, as_stated: false, units };
        let entry = explain::explain(check, id, fit::checks());
        format::print(&explain::on_rig(entry, check, &subject), self.format, streams);
        Ok(Outcome::Done)
    }
}

/// The check of an id or of the name that reports give it, and the id.
fn check(about: &str) -> Option<(&'static Check, &str)> {
    let by_id = fit::find(about).map(|check| (check, about));
    by_id.or_else(|| fit::titled(about).map(|check| (check, check.id)))
}

/// What there is to say of a check, a key or a table of keys, if there is one of this name.
fn explained(about: &str) -> Option<Document> {
    if let Some((check, id)) = check(about) {
        return Some(explain::explain(check, id, fit::checks()));
    }
    match named(about).as_slice() {
        [] => None,
        [input] => Some(explain::key(input, &uses(input))),
        inputs => Some(explain::table(about, inputs)),
    }
}

/// That a name is neither a check's nor a key's, and which is most likely meant.
fn unknown(about: &str) -> String {
    let near = near(about).map(|near| format!("\nhelp: did you mean `{near}`?")).unwrap_or_default();
    let about = about.escape_debug();
    format!("expected the id of a check or a key of the rig file, found `{about}`{near}")
}

/// The check or the key that a name most likely means.
fn near(name: &str) -> Option<String> {
    let ids: Vec<String> = fit::checks().map(|check| check.in_general(check.id)).collect();
    let check = || nearest(name, ids.iter().map(String::as_str)).map(str::to_string);
    let key = || nearest_path(name).or_else(|| nearest_key(name.rsplit('.').next()?, ""));
    // Only keys have dots and low lines.
    if name.contains(['.', '_']) { key().or_else(check) } else { check().or_else(key) }
}
