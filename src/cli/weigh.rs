//! `bunkline weigh`: what readings of scales say of the boat's weight and centre of gravity.

use super::Outcome;
use super::destination::Destination;
use super::format::{self, Format, one_of};
use super::rigs::{self, RigFile, Trouble, Units};
use super::stream::Streams;
use crate::quantity::show::UnitSystem;
use crate::report::{json, weigh as report};
use crate::study::weigh::{Unweighed, Weighed, weigh};
use clap::Args;
use std::path::PathBuf;

/// Find the boat's weight and centre of gravity from readings of scales
///
/// The readings stand in [[weighings]] of the rig file: of the tongue, the axles, boat and trailer or the tow vehicle's
/// axles, each with its ±, in any state of the rig: tanks full and empty, the boat moved, the ball higher. They
/// are fitted by least squares. The report has the ± of what was found, what contradicts what, what is not decided, and
/// what to weigh next. Exits 0 when the readings decide the tongue share, 1 when they do not, contradict each other or
/// give a centre of gravity outside the boat, or when --write has nothing fit to write, and 2 when the file could not be
/// read.
#[derive(Args)]
#[command(
    after_help = "Examples:\n  bunkline weigh rig.toml\n  bunkline weigh rig.toml --write weighed.toml"
)]
pub(super) struct Weigh {
    /// Rig file; - is standard input
    #[arg(value_name = "FILE")]
    file: String,
    /// How to report
    #[arg(long, value_name = "FORM", default_value = "text", value_parser = one_of(&[Format::Text, Format::Json, Format::Html]))]
    format: Format,
    /// Write the rig file with what was found to a new file, and keep comments and layout; the readings become comments
    #[arg(long, value_name = "PATH")]
    write: Option<PathBuf>,
    /// Units of the report, instead of the file's
    #[arg(long, value_enum)]
    units: Option<Units>,
}

impl From<Unweighed> for Trouble {
    fn from(unweighed: Unweighed) -> Self {
        match unweighed {
            Unweighed::Problems(problems) => Self::Mistaken(problems),
            Unweighed::NoReadings => Self::Plain(format!(
                "{unweighed}\nhelp: write one entry a reading: [[weighings]], and below it what = \"tongue\" and weight = \"630 lb ± 10 lb\"; `bunkline explain weighings` lists its keys"
            )),
            Unweighed::Unsettled => Self::Plain(format!(
                "{unweighed}\nhelp: look for a wrong digit, a wrong unit, or a reading of something else"
            )),
            Unweighed::Lacks { ref missing, .. } => {
                let key = missing.0.first().map(ToString::to_string).unwrap_or_default();
                Self::Plain(format!("{unweighed}\nhelp: `bunkline explain {key}` says how to measure it"))
            }
            other => Self::Plain(other.to_string()),
        }
    }
}

impl Weigh {
    pub fn run(&self, streams: &mut Streams) -> Outcome {
        let outcome = self.report(streams);
        rigs::outcome(outcome, &self.file, streams)
    }

    fn report(&self, streams: &mut Streams) -> Result<Outcome, Trouble> {
        let file = RigFile::read(&self.file)?;
        let destination = Destination::new_file(self.write.as_deref()).place(&file, &[])?;
        let rig = file.rig(&[])?;
        let of_file = || rig.measured().units.map_or(UnitSystem::Us, UnitSystem::from);
        let units = self.units.map_or_else(of_file, UnitSystem::from);
        let weighed = weigh(&rig)?;
        if self.format == Format::Json {
            let document = json::weighed(&self.file, &rig, &weighed, units);
            let document = document.map_err(|error| Trouble::Plain(error.to_string()))?;
            streams.print(&(document + "\n"));
        } else {
            format::print(&report::report(&self.file, &rig, &weighed, units), self.format, streams);
        }
        match destination {
            Some(place) if weighed.can_be_stated() => {
                let written = weighed
                    .found
                    .iter()
                    .filter_map(|found| Some((found.key, report::to_write(found, units)?)));
                let (settings, values): (Vec<_>, Vec<_>) =
                    written.map(|(key, (text, value))| ((key, text), (key, value))).unzip();
                let meant = rig.weighed(&values).map_err(|problems| Trouble::Mistaken(Box::new(problems)))?;
                streams.complain(&place.write(&file, &settings, &meant)?);
            }
            Some(_) => {
                streams.complain(&format!("note: nothing was written: {}", why_not(&weighed)));
                return Ok(Outcome::Fails);
            }
            None => {}
        }
        Ok(if weighed.answers() { Outcome::Done } else { Outcome::Fails })
    }
}

/// Why there is nothing worth writing.
fn why_not(weighed: &Weighed) -> &'static str {
    if weighed.is_contradicted() {
        "the readings contradict each other or the file"
    } else if !weighed.outside.is_empty() {
        "what was found lies where it cannot"
    } else {
        "the readings do not decide the tongue share"
    }
}
