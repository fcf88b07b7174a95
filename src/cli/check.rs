//! `bunkline check`: reads rig files and reports on each.

use super::colours::palette;
use super::rigs::{self, Asked, Trouble};
use super::stream::Streams;
use super::{Outcome, threads};
use crate::fit::{self, RigVerdict};
use crate::quantity::show::plain;
use crate::report::{Subject, json, text};
use crate::study::samples::{MOST_SAMPLES, samples};
use clap::{Args, ValueEnum};

/// Report loads, checks and cures of rig files
///
/// Exits 0 when every rig passes, 1 when one fails, 3 when one is incomplete or unsure, and 2 when a file could
/// not be read. A rig is unsure when it passes as stated, but not at the worst corner of the bounds that its file
/// states with ±.
#[derive(Args)]
#[command(after_help = "Example:\n  bunkline check rig.toml --set shift.boat=-4in --units metric")]
pub(super) struct Check {
    /// Rig files; - is standard input
    #[arg(required = true, value_name = "FILE")]
    files: Vec<String>,
    /// How to report
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
    #[command(flatten)]
    asked: Asked,
    /// Take every value as stated, whatever its bound (±)
    #[arg(long, conflicts_with = "samples")]
    as_stated: bool,
    /// Exit 0 for an incomplete or unsure rig
    #[arg(long)]
    allow_incomplete: bool,
    /// Draw so many random rigs within the bounds stated with ±, and tell how often each check fails
    #[arg(long, value_name = "N", value_parser = sample_count)]
    samples: Option<u64>,
    /// The seed of the samples: the same seed, the same samples
    #[arg(long, value_name = "S", default_value_t = 1, requires = "samples")]
    seed: u64,
}

#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// For reading
    Text,
    /// For programs: JSON, one line a rig where there are several
    Json,
}

/// A number of samples that can be drawn.
fn sample_count(text: &str) -> Result<u64, String> {
    let expected = format!("expected a whole number of samples, 1 to {MOST_SAMPLES}");
    match text.parse::<u64>() {
        Ok(0) => Err(format!("{expected}, found 0")),
        Ok(count) if count > MOST_SAMPLES => {
            Err(format!("{expected}, found {count}; 100000 tell a share to 0.2 %"))
        }
        Ok(count) => Ok(count),
        Err(_) => Err(expected),
    }
}

impl Check {
    pub fn run(&self, streams: &mut Streams) -> Outcome {
        let mut worst = Outcome::Done;
        for (i, path) in self.files.iter().enumerate() {
            if streams.closed() {
                break;
            }
            let outcome = match self.report(path, streams) {
                Ok((report, verdict)) => {
                    if i > 0 && self.format == Format::Text {
                        streams.print("\n");
                    }
                    streams.print(&report);
                    self.outcome(verdict)
                }
                Err(trouble) => {
                    self.complain(path, &trouble, streams);
                    Outcome::Broken
                }
            };
            worst = worst.max(outcome);
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

    fn report(&self, path: &str, streams: &mut Streams) -> Result<(String, RigVerdict), Trouble> {
        let rig = rigs::rig(path, &self.asked.changes)?;
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
        let units = self.asked.units(&rig);
        let subject =
            Subject { path, rig: &rig, findings: &findings, uncertainty: uncertainty.as_ref(), units };
        let report = match self.format {
            Format::Text => Ok(text::report(&subject, &palette())),
            Format::Json if self.files.len() > 1 => json::report(&subject).map(|line| line + "\n"),
            Format::Json => json::pretty(&subject).map(|document| document + "\n"),
        };
        let report = report.map_err(|error| Trouble::Plain(error.to_string()))?;
        Ok((report, findings.assessment.verdict))
    }

    fn complain(&self, path: &str, trouble: &Trouble, streams: &mut Streams) {
        trouble.tell(path, streams);
        // Among several lines of JSON the reader must find one for this file too.
        if self.format == Format::Json
            && self.files.len() > 1
            && let Ok(line) = json::error(path, &trouble.message(), trouble.problems())
        {
            streams.print(&(line + "\n"));
        }
    }
}
