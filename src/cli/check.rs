//! `bunkline check`: reads rig files and reports on each.

use super::destination::{Destination, Place};
use super::format::{self, Format, one_of};
use super::rigs::{self, Asked, RigFile, Trouble};
use super::stream::Streams;
use super::{Outcome, threads};
use crate::fit::{self, RigVerdict};
use crate::quantity::show::plain;
use crate::report::document::Document;
use crate::report::{Subject, check, json};
use crate::rig::Key;
use crate::study::plan::Plan;
use crate::study::samples::{MOST_SAMPLES, samples};
use clap::Args;
use std::path::PathBuf;

/// Report the loads of rig files, every check, and what would fix what fails
///
/// Exits 0 when every rig passes, 1 when one fails, 3 when one is incomplete or unsure, and 2 when a file could
/// not be read. A rig is unsure when it passes as stated, but not with every ± in its file at its worst.
#[derive(Args)]
#[command(after_help = "Example:\n  bunkline check rig.toml --set shift.boat=-4in --units metric")]
pub(super) struct Check {
    /// Rig files; - is standard input
    #[arg(required = true, value_name = "FILE")]
    files: Vec<String>,
    /// How to report
    #[arg(long, value_name = "FORM", default_value = "text", value_parser = one_of(&[Format::Text, Format::Json, Format::Html]))]
    format: Format,
    #[command(flatten)]
    asked: Asked,
    /// Take every value as stated, whatever its bound (±)
    #[arg(long, conflicts_with = "samples")]
    as_stated: bool,
    /// Exit 0 for an incomplete or unsure rig
    #[arg(long)]
    allow_incomplete: bool,
    /// Draw so many random rigs within the bounds stated with ±, and report how often each check fails
    #[arg(long, value_name = "N", value_parser = sample_count)]
    samples: Option<u64>,
    /// Write the rig file with the plan in it to a new file, and keep comments and layout
    #[arg(long, value_name = "PATH")]
    write_plan: Option<PathBuf>,
    /// The seed of the samples; the same seed gives the same samples
    #[arg(long, value_name = "S", default_value_t = 1, requires = "samples")]
    seed: u64,
}

/// A number of samples that can be drawn.
fn sample_count(text: &str) -> Result<u64, String> {
    let expected = format!("expected a whole number of samples, 1 to {MOST_SAMPLES}");
    match text.parse::<u64>() {
        Ok(0) => Err(format!("{expected}, found 0")),
        Ok(count) if count > MOST_SAMPLES => {
            Err(format!("{expected}, found {count}; 100000 give a share to within 0.2 %"))
        }
        Ok(count) => Ok(count),
        Err(_) => Err(expected),
    }
}

/// The report of one rig.
enum Report {
    /// As JSON.
    Line(String),
    /// For reading.
    Document(Document),
}

impl Check {
    pub fn run(&self, streams: &mut Streams) -> Outcome {
        let mut worst = Outcome::Done;
        // A page holds all rigs: it is printed when all are known.
        let mut page = Document::default();
        for (i, path) in self.files.iter().enumerate() {
            if streams.closed() {
                break;
            }
            let outcome = match self.report(path, streams) {
                Ok((report, verdict)) => {
                    match report {
                        Report::Line(line) => streams.print(&line),
                        Report::Document(document) if self.format == Format::Html => page.append(document),
                        Report::Document(document) => {
                            if i > 0 {
                                streams.print("\n");
                            }
                            format::print(&document, self.format, streams);
                        }
                    }
                    self.outcome(verdict)
                }
                Err(trouble) => {
                    self.complain(path, &trouble, streams);
                    page.append(check::unread(path, &trouble.message()));
                    Outcome::Broken
                }
            };
            worst = worst.max(outcome);
        }
        if self.format == Format::Html {
            format::print(&page, self.format, streams);
        }
        worst
    }

    fn outcome(&self, verdict: RigVerdict) -> Outcome {
        match verdict {
            RigVerdict::Pass => Outcome::Done,
            RigVerdict::Fail => Outcome::Fails,
            RigVerdict::Incomplete | RigVerdict::Unsure if self.allow_incomplete => Outcome::Done,
            RigVerdict::Incomplete | RigVerdict::Unsure => Outcome::Incomplete,
        }
    }

    fn report(&self, path: &str, streams: &mut Streams) -> Result<(Report, RigVerdict), Trouble> {
        let file = RigFile::read(path)?;
        let destination = self.destination(&file)?;
        let rig = file.rig(&self.asked.changes)?;
        let (findings, mut uncertainty) = if self.as_stated {
            (fit::examine(&rig).map_err(|unfit| Trouble::Plain(unfit.to_string()))?, None)
        } else {
            rigs::examine(&rig)?
        };
        match (self.samples, &mut uncertainty) {
            (Some(count), Some(uncertainty)) => {
                let rows = &findings.assessment.rows;
                uncertainty.samples = threads::compute(|| samples(&rig, rows, count, self.seed));
            }
            (Some(_), None) => {
                let path = plain(path);
                streams.complain(&format!("{path}: no input has a bound (±): there is nothing to sample"));
            }
            (None, _) => {}
        }
        let plan = rigs::plan(&rig, &findings.assessment, self.as_stated);
        let units = self.asked.units(&rig);
        let subject = Subject {
            path,
            rig: &rig,
            findings: &findings,
            uncertainty: uncertainty.as_ref(),
            as_stated: self.as_stated,
            units,
        };
        let report = if self.format == Format::Json {
            let line = json::checked(&subject, plan.as_ref(), self.files.len() > 1);
            Report::Line(line.map_err(|error| Trouble::Plain(error.to_string()))? + "\n")
        } else {
            Report::Document(check::report(&subject))
        };
        if let Some(place) = destination {
            write(&place, &file, plan.as_ref(), streams)?;
        }
        Ok((report, findings.assessment.verdict))
    }

    /// Where the plan is to be written, if anywhere.
    fn destination(&self, file: &RigFile) -> Result<Option<Place>, Trouble> {
        if self.write_plan.is_some() && self.files.len() > 1 {
            let message = format!("expected one rig file with --write-plan, found {}", self.files.len());
            return Err(Trouble::Usage(message));
        }
        Destination::new_file(self.write_plan.as_deref()).place(file, &self.asked.changes)
    }

    fn complain(&self, path: &str, trouble: &Trouble, streams: &mut Streams) {
        trouble.report(path, streams);
        // Among several lines of JSON the reader must find one for this file too.
        if self.format == Format::Json
            && self.files.len() > 1
            && let Ok(line) = json::error(path, &trouble.message(), trouble.problems())
        {
            streams.print(&(line + "\n"));
        }
    }
}

/// Writes a plan, and reports what it leaves failing.
fn write(place: &Place, file: &RigFile, plan: Option<&Plan>, streams: &mut Streams) -> Result<(), Trouble> {
    let Some(plan) = plan else {
        streams.complain("note: nothing was written: no check fails");
        return Ok(());
    };
    let settings: Vec<(Key, String)> =
        plan.settings().map(|setting| (setting.key, setting.to.clone())).collect();
    if settings.is_empty() {
        streams.complain("note: nothing was written: nothing that a plan may change makes fewer checks fail");
        return Ok(());
    }
    place.write(file, &settings, &plan.rig)?;
    if !plan.after.fails.is_empty() {
        let fails = plan.after.fails.join(", ");
        streams.complain(&format!("note: what was written still fails: {fails}"));
    }
    Ok(())
}
