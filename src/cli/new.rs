//! `bunkline new`: a starter file to fill in.

use super::Outcome;
use super::rigs::Units;
use super::stream::Streams;
use crate::rig::starter;
use clap::{Args, ValueEnum};

/// Print a commented starter file that says what to measure and how
#[derive(Args)]
#[command(
    after_help = "Examples:\n  bunkline new > rig.toml\n  bunkline new --for level --units metric > rig.toml\n  bunkline new --for scales > rig.toml"
)]
pub(super) struct New {
    /// Units of the examples and of the reports
    #[arg(long, value_enum, default_value_t = Units::Us)]
    units: Units,
    /// Ask only for what this question needs; without it, for everything
    #[arg(long = "for", value_enum, value_name = "QUESTION")]
    question: Option<Question>,
}

#[derive(Clone, Copy, ValueEnum)]
enum Question {
    /// What scales and labels alone decide: the shortest file
    Scales,
    /// Loads on the level road, hitch and tow vehicle included
    Level,
    /// Loads and clearances over a ramp
    Ramp,
    /// How the boat lies on its bunks
    Bunks,
    /// How deep to back in to launch the boat, and how she comes home
    Launch,
}

impl From<Question> for starter::Question {
    fn from(question: Question) -> Self {
        match question {
            Question::Scales => Self::Scales,
            Question::Level => Self::Level,
            Question::Ramp => Self::Ramp,
            Question::Bunks => Self::Bunks,
            Question::Launch => Self::Launch,
        }
    }
}

impl New {
    pub fn run(&self, streams: &mut Streams) -> Outcome {
        streams.print(&starter::file(self.units.into(), self.question.map(Into::into)));
        Outcome::Done
    }
}
