//! `bunkline launch`: how deep to back in, what happens on the way, and between which depths the boat comes home.

use super::format::{self, Format, Whole, one_of};
use super::rigs::{self, Asked, Trouble};
use super::stream::Streams;
use super::{Outcome, draw};
use crate::fit::{self, View};
use crate::report::{Subject, csv, json, launch};
use crate::rig::{Ramp, Rig};
use crate::study::launch::launching;
use crate::study::ramp::Choice;
use clap::Args;

/// Back the boat into the water: when she lifts, slides off and floats, and how she comes home
#[derive(Args)]
#[command(
    after_help = "Examples:\n  bunkline launch rig.toml\n  bunkline launch rig.toml --ramp \"town slip\" --card\n  bunkline launch rig.toml --set ramps.1.water_level=-6ft"
)]
pub(super) struct Launch {
    /// Rig file; - is standard input
    #[arg(value_name = "FILE")]
    file: String,
    /// Only the ramp of this name, instead of all that have water
    #[arg(long = "ramp", value_name = "NAME")]
    name: Option<String>,
    /// The case of this name, instead of the one in which she comes off farthest down the ramp
    #[arg(long, value_name = "NAME")]
    case: Option<String>,
    /// A card to laminate: the marks, the order of doing, the line's length
    #[arg(long, conflicts_with = "full")]
    card: bool,
    /// How to report; csv has a line an event
    #[arg(long, value_name = "FORM", default_value = "text", value_parser = one_of(&[Format::Text, Format::Json, Format::Csv, Format::Html]))]
    format: Format,
    #[command(flatten)]
    whole: Whole,
    #[command(flatten)]
    asked: Asked,
}

impl Launch {
    pub fn run(&self, streams: &mut Streams) -> Outcome {
        let outcome = self.report(streams);
        rigs::outcome(outcome, &self.file, streams)
    }

    fn report(&self, streams: &mut Streams) -> Result<Outcome, Trouble> {
        let whole = rigs::rig(&self.file, &self.asked.changes)?;
        let choice = self.choice(&whole)?;
        let rig = whole.narrowed(choice.ramp, choice.case);
        // JSON holds the whole of it.
        let of_launch = (self.format != Format::Json).then_some(fit::Subject::Launch);
        let (findings, uncertainty) = rigs::examine_for(&rig, of_launch)?;
        let found = launching(&whole, choice, &findings);
        let units = self.asked.units(&rig);
        let subject = Subject {
            path: &self.file,
            rig: &rig,
            findings: &findings,
            uncertainty: uncertainty.as_ref(),
            as_stated: false,
            units,
        };
        match self.format {
            Format::Json => {
                let document =
                    json::launched(&subject, &found).map_err(|error| Trouble::Plain(error.to_string()))?;
                streams.print(&(document + "\n"));
            }
            Format::Csv => streams.print(&csv::launches(&subject, &found)),
            Format::Html if !self.card => {
                let mut document = launch::report(&subject, &found, self.whole.extent());
                let assessment = &findings.assessment;
                document.pictures(&draw::pictures(&rig, assessment, false, &[View::Launch], units));
                format::print(&document, Format::Html, streams);
            }
            other if self.card => format::print(&launch::card(&subject, &found), other, streams),
            other => format::print(&launch::report(&subject, &found, self.whole.extent()), other, streams),
        }
        let answered =
            found.launches.iter().any(|loads| loads.found().is_ok_and(|found| found.comes_off().is_some()));
        Ok(if answered { Outcome::Done } else { Outcome::Fails })
    }

    /// The ramp and the case that are asked for.
    fn choice(&self, rig: &Rig) -> Result<Choice, Trouble> {
        let setup = rig.proposed();
        if !setup.ramps.iter().any(Ramp::has_water) {
            let message = "expected a ramp with water_level or water_from_top in [[ramps]], found none\nhelp: level across from the ramp's head to a staff at the water's edge: see `bunkline new --for launch`";
            return Err(Trouble::Plain(message.to_string()));
        }
        let ramp = rigs::named(&setup.ramps, self.name.as_deref(), "ramp", |ramp| ramp.name.as_deref())?;
        let case = rigs::named(&setup.cases, self.case.as_deref(), "case", |case| case.name.as_deref())?;
        Ok(Choice { ramp, case })
    }
}
