//! Reading rig files for every command that takes one, and reporting what is wrong with them.

use super::part::{Part, Place};
use super::stream::Streams;
use super::{Outcome, diagnostic, threads};
use crate::fit::{self, Assessment, Findings, Subject, Unfit};
use crate::quantity::show::{UnitSystem, plain};
use crate::report;
use crate::rig::{IncludeFault, Included, Problem, Problems, Rig, SourceId, Sources, include, nearest};
use crate::study::plan::{self, Plan};
use crate::study::uncertainty::{self, Uncertainty};
use clap::{Args, ValueEnum};
use std::io;
use std::path::Path;

/// The units of a report.
#[derive(Clone, Copy, ValueEnum)]
pub(super) enum Units {
    /// Pounds, feet and inches
    Us,
    /// Kilograms and millimetres
    Metric,
}

impl From<Units> for UnitSystem {
    fn from(units: Units) -> Self {
        match units {
            Units::Us => Self::Us,
            Units::Metric => Self::Metric,
        }
    }
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
    /// The units asked for, if any are.
    pub fn units_asked(&self) -> Option<UnitSystem> {
        self.units.map(UnitSystem::from)
    }

    /// The units asked for, else the file's.
    pub fn units(&self, rig: &Rig) -> UnitSystem {
        let of_file = || rig.proposed().units.map_or(UnitSystem::Us, UnitSystem::from);
        self.units.map_or_else(of_file, UnitSystem::from)
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

    /// Every mistake in a line, with its place and what helps.
    pub fn lines(&self) -> Vec<String> {
        let Self::Mistaken(problems) = self else { return vec![self.message().replace("\nhelp: ", "; ")] };
        let line = |problem: &Problem| {
            let place = place(problems, problem).unwrap_or_default();
            let help = problem.fault.help().map(|help| format!(" ({help})")).unwrap_or_default();
            format!("{place}: {}{help}", problem.fault)
        };
        problems.list.iter().map(line).collect()
    }

    /// Where its first mistake stands, if it holds any.
    pub fn place(&self) -> Option<String> {
        let problems = self.problems()?;
        place(problems, problems.list.first()?)
    }

    /// Reports it on stderr.
    pub fn report(&self, path: &str, streams: &mut Streams) {
        match self {
            Self::Mistaken(problems) => streams.complain(&diagnostic::picture(problems)),
            Self::Plain(message) => {
                streams.complain(&diagnostic::plain(&format!("{}: {message}", plain(path))));
            }
            Self::Usage(message) => streams.complain(&diagnostic::plain(message)),
        }
    }
}

/// The file, line and column of a mistake, as far as it has a place.
fn place(problems: &Problems, problem: &Problem) -> Option<String> {
    let Some(at) = &problem.at else { return problems.sources.first().map(|source| source.name.clone()) };
    let position = problems.sources.position(at);
    Some(format!("{}:{}:{}", problems.sources.get(at.source).name, position.line, position.column))
}

/// A rig file as it was read, with the files that it includes.
pub(super) struct RigFile {
    /// Its path; `-` for standard input.
    name: String,
    /// The file itself, then those that it includes, in the order of [`Self::sources`].
    parts: Vec<Part>,
    /// Their texts.
    pub sources: Sources,
}

impl RigFile {
    /// Reads a file, `-` for standard input, and what it includes.
    pub fn read(path: &str) -> Result<Self, Trouble> {
        let part = if path == STDIN { Part::read_stdin() } else { Part::read(Path::new(path)) };
        let part = part.map_err(Trouble::Plain)?;
        let text = part.text.clone();
        let mut parts = vec![part];
        let name = if path == STDIN { "standard input" } else { path };
        let rig_file = if path == STDIN { None } else { Place::of(Path::new(path)) };
        let sources = include(name, &text, rig_file.clone(), |by, path| {
            let (Some(by), Some(rig_file)) = (by, &rig_file) else { return Err(IncludeFault::NoFolder) };
            let (place, part) = by.include(rig_file, path)?;
            let (name, text) = (place.name(), part.text.clone());
            parts.push(part);
            Ok(Included { place: Some(place), name, text })
        });
        let sources = sources.map_err(|problems| Trouble::Mistaken(Box::new(problems)))?;
        // A part would grow by the report on it.
        if parts.iter().any(Part::is_output) {
            let message = "expected output to go elsewhere than into the rig file that is read";
            return Err(Trouble::Plain(message.to_string()));
        }
        Ok(Self { name: path.to_string(), parts, sources })
    }

    /// The rig that it describes, with changes applied.
    pub fn rig(&self, changes: &[String]) -> Result<Rig, Trouble> {
        rig_of(self.sources.clone(), changes)
    }

    /// Its boat, and all that belongs to it, on the trailer of another file, with changes applied.
    pub fn on_trailer(&self, trailer: &Self, changes: &[String]) -> Result<Rig, Trouble> {
        rig_of(self.sources.on_trailer(&trailer.sources), changes)
    }

    /// Its path; none for standard input.
    pub fn path(&self) -> Option<&Path> {
        (self.name != STDIN).then(|| Path::new(&self.name))
    }

    /// The part that holds one of the texts.
    pub fn part(&self, source: SourceId) -> Option<&Part> {
        self.parts.get(source.index())
    }

    /// Whether a path leads to it, by whatever way.
    pub fn is(&self, path: &Path) -> bool {
        self.parts.first().is_some_and(|part| part.is(path))
    }

    /// Whether a path leads to it or to a file that it includes.
    pub fn has(&self, path: &Path) -> bool {
        self.parts.iter().any(|part| part.is(path))
    }

    /// Fails unless its files still hold the texts that were read; standard input cannot be read again.
    pub fn still_reads_the_same(&self) -> io::Result<()> {
        for part in &self.parts {
            if !part.still_reads_the_same()? {
                return Err(Self::changed());
            }
        }
        Ok(())
    }

    /// That the file is another by now.
    pub fn changed() -> io::Error {
        io::Error::other("the rig file changed since it was read; nothing was written")
    }
}

/// The rig that texts describe, with changes applied.
fn rig_of(sources: Sources, changes: &[String]) -> Result<Rig, Trouble> {
    let mistaken = |problems| Trouble::Mistaken(Box::new(problems));
    let rig = Rig::from_sources(sources, changes).map_err(mistaken)?;
    fit::unknown_patterns(&rig).map_or(Ok(rig), |problems| Err(mistaken(problems)))
}

/// A rig file by this name is standard input.
pub(super) const STDIN: &str = "-";

/// The rig of a file, `-` for standard input, with changes applied.
pub(super) fn rig(path: &str, changes: &[String]) -> Result<Rig, Trouble> {
    RigFile::read(path)?.rig(changes)
}

/// A rig with what was found of it, and what its stated bounds do to that.
pub(super) fn examine(rig: &Rig) -> Result<(Findings, Option<Uncertainty>), Trouble> {
    examine_for(rig, None)
}

/// The same as a report of one subject needs it; none is every one.
pub(super) fn examine_for(
    rig: &Rig,
    subject: Option<Subject>,
) -> Result<(Findings, Option<Uncertainty>), Trouble> {
    let examined = if rig.uncertain().is_empty() && rig.proposed().ramps.is_empty() {
        // Nothing here is worth starting threads for.
        uncertainty::examine_for(rig, subject)
    } else {
        threads::compute(|| uncertainty::examine_for(rig, subject))
    };
    examined.map_err(|why| unfit(rig, &why))
}

/// The same without cures and cautions.
pub(super) fn examine_briefly(rig: &Rig) -> Result<(Findings, Option<Uncertainty>), Trouble> {
    match threads::compute(|| uncertainty::brief(rig)) {
        Ok((found, uncertainty)) => Ok((Findings::brief(found), uncertainty)),
        Err(why) => Err(unfit(rig, &why)),
    }
}

/// That a rig could not be assessed.
pub(super) fn unfit(rig: &Rig, why: &Unfit) -> Trouble {
    Trouble::Plain(report::unfit(rig, why))
}

/// The plan for a rig that has been assessed, as stated or with all that is uncertain; `None` where nothing fails.
pub(super) fn plan(rig: &Rig, found: &Assessment, as_stated: bool) -> Option<Plan> {
    let simple = (as_stated || rig.uncertain().is_empty()) && rig.proposed().ramps.is_empty();
    let find = || plan::of(rig, found, as_stated);
    // Nothing here is worth starting threads for where a rig is simple.
    if simple { find() } else { threads::compute(find) }
}

/// A path as it may be printed.
pub(super) fn shown(path: &Path) -> String {
    plain(&path.to_string_lossy()).into_owned()
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

/// What a command about one file came to; reports what went wrong.
pub(super) fn outcome(outcome: Result<Outcome, Trouble>, path: &str, streams: &mut Streams) -> Outcome {
    outcome.unwrap_or_else(|trouble| {
        trouble.report(path, streams);
        Outcome::Broken
    })
}
