//! Reading rig files for every command that takes one, and telling what is wrong with them.

use super::stream::Streams;
use super::{Outcome, diagnostic};
use crate::quantity::show::UnitSystem;
use crate::rig::{Problems, Rig, nearest};
use clap::{Args, ValueEnum};
use std::fs::File;
use std::io::Read;

/// A rig file is short; what is longer than this is none.
const LONGEST_FILE: u64 = 1 << 20;

/// The units of a report.
#[derive(Clone, Copy, ValueEnum)]
enum Units {
    /// Pounds, feet and inches
    Us,
    /// Kilograms and millimetres
    Metric,
}

/// What may be asked of any command that reports on a rig.
#[derive(Args)]
pub(super) struct Asked {
    /// Units of the report, instead of the file's
    #[arg(long, value_enum)]
    units: Option<Units>,
    /// Change an input: PATH=VALUE, or += and -= for lengths, weights and shares; may be repeated
    #[arg(long = "set", value_name = "PATH=VALUE")]
    pub changes: Vec<String>,
}

impl Asked {
    /// The units asked for, else the file's.
    pub fn units(&self, rig: &Rig) -> UnitSystem {
        match self.units {
            Some(Units::Us) => UnitSystem::Us,
            Some(Units::Metric) => UnitSystem::Metric,
            None => rig.proposed.units.map_or(UnitSystem::Us, UnitSystem::from),
        }
    }
}

/// Why a file gave no report.
pub(super) enum Trouble {
    /// It could not be read as text, or what it describes could not be computed.
    Plain(String),
    /// It holds mistakes.
    Mistaken(Box<Problems>),
    /// Something beside the file is not as it must be.
    Usage(String),
}

impl Trouble {
    /// It in one line.
    pub fn message(&self) -> String {
        match self {
            Self::Plain(message) | Self::Usage(message) => message.clone(),
            Self::Mistaken(problems) => problems.to_string(),
        }
    }

    /// The mistakes, if it holds any.
    pub fn problems(&self) -> Option<&Problems> {
        match self {
            Self::Plain(_) | Self::Usage(_) => None,
            Self::Mistaken(problems) => Some(problems),
        }
    }

    /// Tells it on stderr.
    pub fn tell(&self, path: &str, streams: &mut Streams) {
        match self {
            Self::Mistaken(problems) => streams.complain(&diagnostic::picture(problems)),
            Self::Plain(message) => streams.complain(&diagnostic::plain(&format!("{path}: {message}"))),
            Self::Usage(message) => streams.complain(&diagnostic::plain(message)),
        }
    }
}

/// The rig of a file, `-` for standard input, with changes applied.
pub(super) fn rig(path: &str, changes: &[String]) -> Result<Rig, Trouble> {
    of_text(path, &text(path)?, changes)
}

/// The rig that a file's text describes, with changes applied.
pub(super) fn of_text(path: &str, text: &str, changes: &[String]) -> Result<Rig, Trouble> {
    let name = if path == "-" { "standard input" } else { path };
    Rig::read(name, text, changes).map_err(|problems| Trouble::Mistaken(Box::new(problems)))
}

/// The place of the one element of a name in a list, if a name is asked for.
pub(super) fn named<T>(
    list: &[T],
    wanted: Option<&str>,
    what: &str,
    name: impl Fn(&T) -> Option<&str>,
) -> Result<Option<usize>, Trouble> {
    let Some(wanted) = wanted else { return Ok(None) };
    if let Some(found) = list.iter().position(|element| name(element) == Some(wanted)) {
        return Ok(Some(found));
    }
    let names: Vec<&str> = list.iter().filter_map(&name).collect();
    let near = nearest(wanted, names.iter().copied());
    let help = near.map(|near| format!("\nhelp: did you mean `{near}`?")).unwrap_or_default();
    let list = names.iter().map(|name| format!("`{name}`")).collect::<Vec<_>>().join(", ");
    let wanted = wanted.escape_debug();
    Err(Trouble::Plain(format!("expected the name of a {what} ({list}), found `{wanted}`{help}")))
}

/// What a command about one file came to; what went wrong is told.
pub(super) fn outcome(told: Result<Outcome, Trouble>, path: &str, streams: &mut Streams) -> Outcome {
    told.unwrap_or_else(|trouble| {
        trouble.tell(path, streams);
        Outcome::Broken
    })
}

/// All of a file's text.
pub(super) fn text(path: &str) -> Result<String, Trouble> {
    read(path).map_err(Trouble::Plain)
}

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
