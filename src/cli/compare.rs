//! `bunkline compare`: rigs side by side, the best first.

use super::format::{self, Format, one_of};
use super::rigs::{Asked, RigFile, Trouble};
use super::stream::Streams;
use super::{Outcome, threads};
use crate::report::compare::{self, BoatFile};
use crate::report::json::Unread;
use crate::report::{csv, json};
use crate::study::compare::{Choice, Compared, compare};
use clap::Args;

/// Put rigs side by side, the best first, with what it takes to make each one fit
///
/// Rigs are ranked by verdict, then by what their plans cost: one of which too little is known never stands before one
/// that passes, or that passes after its plan. With --boat every file is a trailer for that file's boat.
/// Exits 0 when a rig passes as it stands, 1 when none does, and 2 when a file could not be read.
#[derive(Args)]
#[command(
    after_help = "Examples:\n  bunkline compare mine.toml theirs.toml\n  bunkline compare --boat boat.toml trailers/*.toml --format html"
)]
pub(super) struct Compare {
    /// Rig files; with --boat, the files of trailers
    #[arg(required = true, value_name = "FILE")]
    files: Vec<String>,
    /// The boat, hitch and tow vehicle for every trailer; a trailer in this file is not read
    #[arg(long, value_name = "BOAT")]
    boat: Option<String>,
    /// How to report
    #[arg(long, value_name = "FORM", default_value = "text", value_parser = one_of(&[Format::Text, Format::Json, Format::Csv, Format::Html]))]
    format: Format,
    #[command(flatten)]
    asked: Asked,
}

impl Compare {
    pub fn run(&self, streams: &mut Streams) -> Outcome {
        let boat = self.boat.as_deref().map(|path| RigFile::read(path).map_err(|trouble| (path, trouble)));
        let boat = match boat.transpose() {
            Ok(boat) => boat,
            Err((path, trouble)) => {
                trouble.report(path, streams);
                return Outcome::Broken;
            }
        };
        let mut choices = Vec::new();
        let mut unread: Vec<(&str, Trouble)> = Vec::new();
        for path in &self.files {
            match self.choice(path, boat.as_ref()) {
                Ok(choice) => choices.push(choice),
                Err(trouble) => {
                    trouble.report(path, streams);
                    unread.push((path, trouble));
                }
            }
        }
        let compared = compare(choices);
        if let Err(trouble) = self.print(&compared, &unread, streams) {
            trouble.report(&self.files[0], streams);
            return Outcome::Broken;
        }
        match (unread.is_empty(), compared.has_answer()) {
            (false, _) => Outcome::Broken,
            (true, true) => Outcome::Done,
            (true, false) => Outcome::Fails,
        }
    }

    /// The rig of a file, or the boat on the trailer of that file, assessed whole.
    fn choice(&self, path: &str, boat: Option<&RigFile>) -> Result<Choice, Trouble> {
        let file = RigFile::read(path)?;
        let rig = match boat {
            Some(boat) => {
                // A mistake in what is not read of it is a mistake all the same.
                file.rig(&[])?;
                boat.on_trailer(&file, &self.asked.changes)?
            }
            None => file.rig(&self.asked.changes)?,
        };
        let choice = threads::compute(|| Choice::of(path, rig));
        choice.map_err(|unfit| Trouble::Plain(unfit.to_string()))
    }

    fn print(
        &self,
        compared: &Compared,
        unread: &[(&str, Trouble)],
        streams: &mut Streams,
    ) -> Result<(), Trouble> {
        let Some(first) = compared.choices.first().filter(|_| !streams.closed()) else { return Ok(()) };
        let units = self.asked.units(&first.rig);
        match self.format {
            Format::Json => {
                let messages: Vec<String> = unread.iter().map(|(_, trouble)| trouble.message()).collect();
                let errors = unread.iter().zip(&messages).map(|((path, trouble), message)| Unread {
                    path,
                    message,
                    problems: trouble.problems(),
                });
                let errors: Vec<Unread<'_>> = errors.collect();
                let document = json::compared(compared, self.boat.as_deref(), &errors, units);
                let document = document.map_err(|error| Trouble::Plain(error.to_string()))?;
                streams.print(&(document + "\n"));
            }
            Format::Csv => streams.print(&csv::compared(compared, units)),
            form => {
                let unread: Vec<String> = unread.iter().map(|(path, _)| (*path).to_string()).collect();
                let boat = self.boat.as_deref().map(BoatFile);
                format::print(&compare::report(compared, boat, &unread, units), form, streams);
            }
        }
        Ok(())
    }
}
