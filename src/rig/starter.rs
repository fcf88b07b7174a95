//! The starter file: every key of the rig file with a comment, to fill in.
//!
//! It comes from one template, `starter.txt`. Before the bar of each line stands which files have the line: those that
//! ask for what the **l**evel road, a **r**amp, the **b**unks or a boat to **f**loat off need, or a rig that is only **w**eighed, those in
//! **u**s or **m**etric units alone. The
//! full file has them all. A line that offers a key begins with `#`, one that offers another way to state the key
//! above it with `# or`. Its values, taken as they stand, are a rig that passes. Of the two [`examples`] that are made
//! of the template the first alone has the **i**tems of the boat, and the **s**econd alone some lines of its own.

use super::Rig;
use crate::quantity::Kind;
use crate::quantity::parse::parse_bounded;
use crate::quantity::show::{UnitSystem, number, trimmed};

const TEMPLATE: &str = include_str!("starter.txt");

/// The command that the template names.
const CHECK: &str = "bunkline check rig.toml";

/// The kinds of quantity in the template whose units differ, a small pressure ahead of a large stress, and a force
/// ahead of the weight that it would be as well.
const KINDS: [Kind; 13] = [
    Kind::Length,
    Kind::Force,
    Kind::Weight,
    Kind::Pressure,
    Kind::Stress,
    Kind::Volume,
    Kind::Density,
    Kind::Rate,
    Kind::SectionModulus,
    Kind::Distance,
    Kind::Moment,
    Kind::Speed,
    Kind::Area,
];

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
    for (marks, line) in lines() {
        let is_for = question.is_none_or(|question| marks.contains(question.mark()));
        let of_units = match units {
            UnitSystem::Us => !marks.contains('m'),
            UnitSystem::Metric => !marks.contains('u'),
        };
        if is_for && of_units && !marks.contains('s') {
            match units {
                UnitSystem::Metric if !marks.contains('m') => out.push_str(&metric(line).replace(CHECK, run)),
                _ => out.push_str(&line.replace(CHECK, run)),
            }
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
    for (marks, line) in lines().filter(|(marks, _)| !marks.contains('m')) {
        if let Some(other) = line.strip_prefix("# or ") {
            // It takes the place of the key above, where no line has done so before.
            second.pop_if(|above| offered(above).is_some());
            second.push(other);
            continue;
        }
        if !marks.contains('s') {
            first.push(line);
        }
        if !marks.contains('i') {
            second.push(line);
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

/// The marks of each line of the template, and the line.
fn lines() -> impl Iterator<Item = (&'static str, &'static str)> {
    TEMPLATE.lines().filter_map(|line| line.split_once('|'))
}

/// What a line offers to fill in.
fn offered(line: &str) -> Option<&str> {
    line.strip_prefix('#').filter(|rest| rest.starts_with(|c: char| c == '[' || c.is_lowercase()))
}

/// A line with its quantities in metric units; a comment at its end stays in its column.
fn metric(line: &str) -> String {
    let quoted = |text: &str| text.split('"').enumerate().map(metric_part).collect::<Vec<_>>().join("\"");
    match line.rsplit_once("  # ") {
        Some((before, comment)) => {
            let column = before.chars().count();
            format!("{:column$}  # {}", quoted(before.trim_end()), quoted(comment))
        }
        None => quoted(line),
    }
}

/// A part of a line between quotes, every second of which is quoted.
fn metric_part((i, part): (usize, &str)) -> String {
    let kind = KINDS.into_iter().find(|kind| {
        i % 2 == 1 && parse_bounded(part, *kind).is_ok_and(|(value, _)| value <= kind.largest().0)
    });
    let Some((kind, (value, bound))) = kind.and_then(|kind| Some((kind, parse_bounded(part, kind).ok()?)))
    else {
        return part.to_string();
    };
    let value = rounded(value, kind, 3);
    bound.map_or_else(|| value.clone(), |bound| format!("{value} ± {}", rounded(bound, kind, 2)))
}

/// A value in SI in its metric unit, to so many figures: as exactly as a tape or a scale is read.
fn rounded(si: f64, kind: Kind, figures: i32) -> String {
    let (number, unit) = number(si, kind, UnitSystem::Metric);
    let magnitude = if number == 0.0 { 0 } else { number.abs().log10().floor() as i32 };
    let step = 10f64.powi(magnitude + 1 - figures);
    format!("{} {}", trimmed((number / step).round() * step, 4), unit.unwrap_or_default())
}
