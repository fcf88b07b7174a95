//! `bunkline check`: reads rig files and reports on each.

use super::stream::Streams;
use super::{Outcome, diagnostic};
use crate::fit::{self, RigVerdict};
use crate::quantity::show::UnitSystem;
use crate::report::text::Palette;
use crate::report::{Subject, json, text};
use crate::rig::{Problems, Rig};
use anstyle::{AnsiColor, Style};
use clap::{Args, ValueEnum};
use std::fs::File;
use std::io::Read;

/// A rig file is short; what is longer than this is none.
const LONGEST_FILE: u64 = 1 << 20;

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
    /// Units of the report, instead of the file's
    #[arg(long, value_enum)]
    units: Option<Units>,
    /// Change an input: PATH=VALUE, or += and -= for lengths, weights and shares; may be repeated
    #[arg(long = "set", value_name = "PATH=VALUE")]
    changes: Vec<String>,
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

#[derive(Clone, Copy, ValueEnum)]
enum Units {
    /// Pounds, feet and inches
    Us,
    /// Kilograms and millimetres
    Metric,
}

/// Why a file gave no report.
enum Trouble {
    /// It could not be read as text.
    Unread(String),
    /// It holds mistakes.
    Mistaken(Box<Problems>),
    /// The trailer does not rest on its wheels.
    Unfit(String),
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
        let content = read(path).map_err(Trouble::Unread)?;
        let name = if path == "-" { "standard input" } else { path };
        let rig = Rig::read(name, &content, &self.changes)
            .map_err(|problems| Trouble::Mistaken(Box::new(problems)))?;
        let findings = fit::examine(&rig).map_err(|unfit| Trouble::Unfit(unfit.to_string()))?;
        let units = match self.units {
            Some(Units::Us) => UnitSystem::Us,
            Some(Units::Metric) => UnitSystem::Metric,
            None => rig.proposed.units.map_or(UnitSystem::Us, UnitSystem::from),
        };
        let subject = Subject { path, rig: &rig, findings: &findings, units };
        let report = match self.format {
            Format::Text => Ok(text::report(&subject, &palette())),
            Format::Json if self.files.len() > 1 => json::report(&subject).map(|line| line + "\n"),
            Format::Json => json::pretty(&subject).map(|document| document + "\n"),
        };
        let report = report.map_err(|error| Trouble::Unread(error.to_string()))?;
        Ok((report, findings.assessment.verdict))
    }

    fn complain(&self, path: &str, trouble: &Trouble, streams: &mut Streams) {
        let (message, problems) = match trouble {
            Trouble::Unread(message) | Trouble::Unfit(message) => (message.clone(), None),
            Trouble::Mistaken(problems) => (problems.to_string(), Some(problems.as_ref())),
        };
        match problems {
            Some(problems) => streams.complain(&diagnostic::picture(problems)),
            None => streams.complain(&diagnostic::plain(&format!("{path}: {message}"))),
        }
        // Among several lines of JSON the reader must find one for this file too.
        if self.format == Format::Json
            && self.files.len() > 1
            && let Ok(line) = json::error(path, &message, problems)
        {
            streams.print(&(line + "\n"));
        }
    }
}

/// All of a file's text.
fn read(path: &str) -> Result<String, String> {
    let mut bytes = Vec::new();
    let read = if path == "-" {
        std::io::stdin().lock().take(LONGEST_FILE + 1).read_to_end(&mut bytes)
    } else {
        File::open(path).and_then(|file| file.take(LONGEST_FILE + 1).read_to_end(&mut bytes))
    };
    read.map_err(|error| format!("expected a readable rig file, found: {error}"))?;
    if bytes.len() as u64 > LONGEST_FILE {
        return Err("expected a rig file of at most 1 MiB, found a longer one".to_string());
    }
    String::from_utf8(bytes).map_err(|error| {
        let before = &error.as_bytes()[..error.utf8_error().valid_up_to()];
        let line = before.split(|byte| *byte == b'\n').count();
        format!("expected UTF-8 text, found other bytes on line {line}")
    })
}

fn palette() -> Palette {
    let around = |style: Style| (style.render().to_string(), style.render_reset().to_string());
    let bold = |colour: AnsiColor| around(Style::new().bold().fg_color(Some(colour.into())));
    Palette {
        bad: bold(AnsiColor::Red),
        warn: bold(AnsiColor::Yellow),
        good: bold(AnsiColor::Green),
        heading: around(Style::new().bold()),
    }
}
