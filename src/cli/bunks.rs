//! `bunkline bunks`: how the boat lies on its bunks, what they carry, and how to cut them.

use super::format::{self, Format, Whole, one_of};
use super::rigs::{self, Asked, Trouble};
use super::stream::Streams;
use super::{Outcome, draw};
use crate::fit::View;
use crate::report::{Subject, bunks, json};
use clap::Args;

/// Show how the boat lies on its bunks, what they carry, and how to cut them
#[derive(Args)]
#[command(
    after_help = "Examples:\n  bunkline bunks rig.toml\n  bunkline bunks rig.toml --set shift.bunks=8in --units metric"
)]
pub(super) struct Bunks {
    /// Rig file; - is standard input
    #[arg(value_name = "FILE")]
    file: String,
    /// How to report
    #[arg(long, value_name = "FORM", default_value = "text", value_parser = one_of(&[Format::Text, Format::Json, Format::Html]))]
    format: Format,
    #[command(flatten)]
    whole: Whole,
    #[command(flatten)]
    asked: Asked,
}

impl Bunks {
    pub fn run(&self, streams: &mut Streams) -> Outcome {
        let outcome = self.report(streams);
        rigs::outcome(outcome, &self.file, streams)
    }

    fn report(&self, streams: &mut Streams) -> Result<Outcome, Trouble> {
        let rig = rigs::rig(&self.file, &self.asked.changes)?;
        if !rig.proposed().trailer.bunks.are_described() {
            let message = "expected bunks in [trailer.bunks], found none\nhelp: begin with forward_end, aft_end, half_spacing, top and board: see `bunkline new`";
            return Err(Trouble::Plain(message.to_string()));
        }
        let (findings, uncertainty) = rigs::examine(&rig)?;
        let units = self.asked.units(&rig);
        let subject = Subject {
            path: &self.file,
            rig: &rig,
            findings: &findings,
            uncertainty: uncertainty.as_ref(),
            as_stated: false,
            units,
        };
        if self.format == Format::Json {
            let document = json::pretty(&subject).map_err(|error| Trouble::Plain(error.to_string()))?;
            streams.print(&(document + "\n"));
        } else {
            let mut document = bunks::report(&subject, self.whole.extent());
            if self.format == Format::Html {
                let views = [View::Section, View::Bunks, View::Top];
                document.pictures(&draw::pictures(&rig, &findings.assessment, false, &views, units));
            }
            format::print(&document, self.format, streams);
        }
        let answered = findings.assessment.rows.iter().any(|row| row.is_about_bunks() && row.load.is_some());
        Ok(if answered { Outcome::Done } else { Outcome::Fails })
    }
}
