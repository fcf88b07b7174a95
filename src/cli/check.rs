//! `bunkline check`: reads rig files and reports on each.

use super::Outcome;
use super::colours::palette;
use super::rigs::{self, Asked, Trouble};
use super::stream::Streams;
use crate::fit::{self, RigVerdict};
use crate::report::{Subject, json, text};
use clap::{Args, ValueEnum};

/// Report loads, checks and cures of rig files
///
/// Exits 0 when every rig passes, 1 when one fails, 3 when one is incomplete, and 2 when a file could not be
/// read.
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
    /// Exit 0 for an incomplete rig
    #[arg(long)]
    allow_incomplete: bool,
}

#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// For reading
    Text,
    /// For programs: JSON, one line a rig where there are several
    Json,
}

impl Check {
    pub fn run(&self, streams: &mut Streams) -> Outcome {
        let mut worst = Outcome::Done;
        for (i, path) in self.files.iter().enumerate() {
            if streams.closed() {
                break;
            }
            let outcome = match self.report(path) {
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
            RigVerdict::Incomplete if self.allow_incomplete => Outcome::Done,
            RigVerdict::Incomplete => Outcome::Incomplete,
        }
    }

    fn report(&self, path: &str) -> Result<(String, RigVerdict), Trouble> {
        let rig = rigs::rig(path, &self.asked.changes)?;
        let findings = fit::examine(&rig).map_err(|unfit| Trouble::Plain(unfit.to_string()))?;
        let units = self.asked.units(&rig);
        let subject = Subject { path, rig: &rig, findings: &findings, units };
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
