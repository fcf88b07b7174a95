//! `bunkline changes`: what differs between two rig files, and what that does.

use super::Outcome;
use super::format::{self, Format, Whole, one_of};
use super::rigs::{self, STDIN, Trouble, Units};
use super::stream::Streams;
use crate::fit::Findings;
use crate::quantity::show::UnitSystem;
use crate::report::{self, Subject, json};
use crate::rig::Rig;
use crate::study::changes::changes;
use crate::study::uncertainty::Uncertainty;
use clap::Args;

/// Show what differs between two rig files, and what that does to each check
///
/// Keys are compared by what they mean, whatever the unit and the order. Exits 0 whether or not anything differs.
#[derive(Args)]
#[command(
    after_help = "Examples:\n  bunkline changes as-found.toml as-changed.toml\n  git show HEAD:rig.toml | bunkline changes - rig.toml"
)]
pub(super) struct Changes {
    /// The older rig file; - is standard input
    #[arg(value_name = "OLD")]
    old: String,
    /// The newer rig file
    #[arg(value_name = "NEW")]
    new: String,
    /// How to report
    #[arg(long, value_name = "FORM", default_value = "text", value_parser = one_of(&[Format::Text, Format::Json, Format::Html, Format::Markdown]))]
    format: Format,
    #[command(flatten)]
    whole: Whole,
    /// Units of the report, instead of the newer file's
    #[arg(long, value_enum)]
    units: Option<Units>,
}

impl Changes {
    pub fn run(&self, streams: &mut Streams) -> Outcome {
        if self.old == STDIN && self.new == STDIN {
            let message = "expected one rig file from standard input, found two";
            return rigs::outcome(Err(Trouble::Usage(message.to_string())), "", streams);
        }
        // What is wrong with either is reported, whatever is wrong with the other.
        let [old, new] = [&self.old, &self.new]
            .map(|path| read(path).map_err(|trouble| trouble.report(path, streams)).ok());
        let (Some(old), Some(new)) = (old, new) else { return Outcome::Broken };
        let outcome = self.report(&old, &new, streams);
        rigs::outcome(outcome, &self.new, streams)
    }

    fn report(&self, old: &Read, new: &Read, streams: &mut Streams) -> Result<Outcome, Trouble> {
        let of_file = || new.rig.proposed().units.map_or(UnitSystem::Us, UnitSystem::from);
        let units = self.units.map_or_else(of_file, UnitSystem::from);
        let found = changes((&old.rig, &old.findings.assessment), (&new.rig, &new.findings.assessment));
        let (old, new) = (old.subject(&self.old, units), new.subject(&self.new, units));
        if self.format == Format::Json {
            let text =
                json::changes(&old, &new, &found).map_err(|error| Trouble::Plain(error.to_string()))?;
            streams.print(&(text + "\n"));
        } else {
            let document = report::changes::report(&old, &new, &found, self.whole.extent());
            format::print(&document, self.format, streams);
        }
        Ok(Outcome::Done)
    }
}

/// A rig with what was found of it.
struct Read {
    rig: Rig,
    findings: Findings,
    uncertainty: Option<Uncertainty>,
}

fn read(path: &str) -> Result<Read, Trouble> {
    let rig = rigs::rig(path, &[])?;
    let (findings, uncertainty) = rigs::examine_briefly(&rig)?;
    Ok(Read { rig, findings, uncertainty })
}

impl Read {
    fn subject<'a>(&'a self, path: &'a str, units: UnitSystem) -> Subject<'a> {
        let Self { rig, findings, uncertainty } = self;
        Subject { path, rig, findings, uncertainty: uncertainty.as_ref(), as_stated: false, units }
    }
}
