//! `bunkline place`: where must the boat, the axles, the tongue or the bunks sit.

use super::destination::Destination;
use super::format::{self, Format, Whole, one_of};
use super::rigs::{self, Asked, RigFile, Trouble};
use super::stream::Streams;
use super::{Outcome, threads};
use crate::report::{Subject, json, place as report};
use crate::rig::Key;
use crate::study::place::{Options, Part, Unplaced, moved, place};
use clap::{Args, ValueEnum};

/// Find where the boat, or another part of the rig, must sit
///
/// For every check and load case it finds the moves at which the check holds, and where all that count hold
/// together. Windows are for the values as stated. The spot is also checked with every ± and what is assumed at
/// its worst. If a check is unsure there, the windows are searched for a sure spot, which is recommended instead.
/// Exits 0 when there is such a window, 1 when there is none or too little is known to tell, and 2 when the file could not be read.
#[derive(Args)]
#[command(
    after_help = "Examples:\n  bunkline place rig.toml\n  bunkline place rig.toml --by axles --units metric\n  bunkline place rig.toml --set policy.preferred_tongue_share=9%\n  bunkline place rig.toml --write moved.toml"
)]
pub(super) struct Place {
    /// Rig file; - is standard input
    #[arg(value_name = "FILE")]
    file: String,
    /// What is moved
    #[arg(long, value_enum, default_value_t = By::Boat)]
    by: By,
    /// Leave the ramps out
    #[arg(long)]
    no_ramps: bool,
    /// How to report
    #[arg(long, value_name = "FORM", default_value = "text", value_parser = one_of(&[Format::Text, Format::Json, Format::Html]))]
    format: Format,
    #[command(flatten)]
    whole: Whole,
    #[command(flatten)]
    destination: Destination,
    #[command(flatten)]
    asked: Asked,
}

#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum By {
    /// Boat, bow stop and winch post
    Boat,
    /// The tongue, drawn in or out
    Tongue,
    /// The axles along the frame
    Axles,
    /// The bunks with their brackets
    Bunks,
}

impl From<By> for Part {
    fn from(by: By) -> Self {
        match by {
            By::Boat => Self::Boat,
            By::Tongue => Self::Tongue,
            By::Axles => Self::Axles,
            By::Bunks => Self::Bunks,
        }
    }
}

impl From<Unplaced> for Trouble {
    fn from(unplaced: Unplaced) -> Self {
        match unplaced {
            Unplaced::Refused(problems) => Self::Mistaken(problems),
            other => Self::Plain(other.to_string()),
        }
    }
}

impl Place {
    pub fn run(&self, streams: &mut Streams) -> Outcome {
        let outcome = self.report(streams);
        rigs::outcome(outcome, &self.file, streams)
    }

    fn report(&self, streams: &mut Streams) -> Result<Outcome, Trouble> {
        let file = RigFile::read(&self.file)?;
        let destination = self.destination.place(&file, &self.asked.changes)?;
        let rig = file.rig(&self.asked.changes)?;
        let units = self.asked.units(&rig);
        let part = Part::from(self.by);
        let options = Options { ramps: !self.no_ramps, grains: report::grains(units) };
        let placing = threads::compute(|| place(&rig, part, &options))?;
        // The loads in the report are those at the spot it recommends.
        let there = placing.spot.as_ref().map_or(placing.now, |spot| spot.shift);
        let rig = moved(&rig, part, there)?;
        let (findings, uncertainty) = rigs::examine(&rig)?;
        let uncertainty = uncertainty.as_ref();
        let subject = Subject {
            path: &self.file,
            rig: &rig,
            findings: &findings,
            uncertainty,
            as_stated: false,
            units,
        };
        if self.format == Format::Json {
            let document = json::placing(&subject, &placing);
            let document = document.map_err(|error| Trouble::Plain(error.to_string()))?;
            streams.print(&(document + "\n"));
        } else {
            format::print(&report::report(&subject, &placing, self.whole.extent()), self.format, streams);
        }
        match (destination, placing.spot.as_ref().filter(|_| placing.answers())) {
            (Some(place), Some(spot)) => {
                let shift = report::to_write(spot, units);
                streams.complain(&place.write(&file, &[(Key::new(part.path()), shift)], &rig)?);
            }
            (Some(_), None) if !placing.lacks.is_empty() => {
                streams.complain("note: nothing was written: not every place could be evaluated");
            }
            (Some(_), None) => streams.complain(
                "note: nothing was written: there is no window in which every check that counts holds",
            ),
            (None, _) => {}
        }
        Ok(if placing.answers() { Outcome::Done } else { Outcome::Fails })
    }
}
