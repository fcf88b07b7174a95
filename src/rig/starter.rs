//! The starter file: every key of the rig file with a comment, to fill in.
//!
//! It comes from one template, `starter.txt`. Before the bar of each line stands which files have the line: those that
//! ask for what the **l**evel road, a **r**amp, the **b**unks or a boat to **f**loat off need, or a rig that is only **w**eighed, those in
//! **u**s or **m**etric units alone. The
//! full file has them all. Behind a second bar stand the line's figures in metric units, where they differ, as a metric
//! owner would write them. A line that offers a key begins with `#`, one that offers another way to state the key
//! above it with `# or`. Its values, taken as they stand, are a rig that passes. Of the two [`examples`] that are made
//! of the template the first alone has the **i**tems of the boat, and the **s**econd alone some lines of its own.

use super::Rig;
use crate::quantity::show::UnitSystem;

const TEMPLATE: &str = include_str!("starter.txt");

/// The command that the template names.
const CHECK: &str = "bunkline check rig.toml";

/// What a starter file may ask for alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Question {
    /// What scales and labels alone decide.
    Scales,
    /// Loads on the level road, hitch and tow vehicle included.
    Level,
    /// Loads and clearances over a ramp.
    Ramp,
    /// How the boat lies on its bunks.
    Bunks,
    /// How deep to back in to launch the boat, and how she comes home.
    Launch,
}

/// The starter file in these units, for one question or for all.
///
/// ```
/// use bunkline::quantity::show::UnitSystem;
/// use bunkline::rig::{Rig, starter};
///
/// let text = starter::file(UnitSystem::Metric, Some(starter::Question::Level));
/// let rig = Rig::parse(&starter::filled(&text))?;
/// assert_eq!(rig.measured().trailer.axles.len(), 2);
/// # Ok::<(), bunkline::rig::Problems>(())
/// ```
pub fn file(units: UnitSystem, question: Option<Question>) -> String {
    let mut out = String::new();
    let run = question.map_or(CHECK, Question::command);
    for Line { marks, text, metric } in lines() {
        let is_for = question.is_none_or(|question| marks.contains(question.mark()));
        let of_units = match units {
            UnitSystem::Us => !marks.contains('m'),
            UnitSystem::Metric => !marks.contains('u'),
        };
        if is_for && of_units && !marks.contains('s') {
            let text = text.replace(CHECK, run);
            out += &match (units, metric) {
                (UnitSystem::Metric, Some(figures)) => with_figures(&text, figures),
                _ => text,
            };
            out.push('\n');
        }
    }
    out
}

/// A starter file with every key that it offers filled in as it stands there.
pub fn filled(starter: &str) -> String {
    starter.lines().map(|line| offered(line).unwrap_or(line).to_string() + "\n").collect()
}

/// The rig of the full starter file, and the same rig known from scales and stated the other way wherever there is one:
/// between them they have every key of the format.
pub fn examples() -> Vec<Rig> {
    let (mut first, mut second): (Vec<&str>, Vec<&str>) = (Vec::new(), Vec::new());
    for Line { marks, text, .. } in lines().filter(|line| !line.marks.contains('m')) {
        if let Some(other) = text.strip_prefix("# or ") {
            // It takes the place of the key above, where no line has done so before.
            second.pop_if(|above| offered(above).is_some());
            second.push(other);
            continue;
        }
        if !marks.contains('s') {
            first.push(text);
        }
        if !marks.contains('i') {
            second.push(text);
        }
    }
    [first, second].iter().filter_map(|lines| Rig::parse(&filled(&lines.join("\n"))).ok()).collect()
}

impl Question {
    /// The command that answers it.
    fn command(self) -> &'static str {
        match self {
            Self::Scales | Self::Level => CHECK,
            Self::Ramp => "bunkline ramp rig.toml",
            Self::Bunks => "bunkline bunks rig.toml",
            Self::Launch => "bunkline launch rig.toml",
        }
    }

    fn mark(self) -> char {
        match self {
            Self::Scales => 'w',
            Self::Level => 'l',
            Self::Ramp => 'r',
            Self::Bunks => 'b',
            Self::Launch => 'f',
        }
    }
}

/// A line of the template.
struct Line {
    /// Which files have it.
    marks: &'static str,
    /// It, in US units.
    text: &'static str,
    /// What stands between its quotes in metric units, where that differs.
    metric: Option<&'static str>,
}

fn lines() -> impl Iterator<Item = Line> {
    TEMPLATE.lines().filter_map(|line| {
        let (marks, text) = line.split_once('|')?;
        let (text, metric) = text.split_once('|').map_or((text, None), |(text, metric)| (text, Some(metric)));
        Some(Line { marks, text, metric })
    })
}

/// What a line offers to fill in.
fn offered(line: &str) -> Option<&str> {
    line.strip_prefix('#').filter(|rest| rest.starts_with(|c: char| c == '[' || c.is_lowercase()))
}

/// A line with other figures between its quotes; a comment at its end stays in its column, if there is room.
fn with_figures(line: &str, figures: &str) -> String {
    let mut figures = figures.split("; ");
    let mut replaced = |text: &str| {
        let parts = text.split('"').enumerate();
        let parts = parts.map(|(i, part)| if i % 2 == 1 { figures.next().unwrap_or(part) } else { part });
        parts.collect::<Vec<_>>().join("\"")
    };
    match line.rsplit_once(" # ") {
        Some((before, comment)) => {
            let column = before.chars().count();
            format!("{:column$} # {comment}", replaced(before.trim_end()))
        }
        None => replaced(line),
    }
}
