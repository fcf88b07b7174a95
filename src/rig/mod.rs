//! The rig: what its file says, read, checked and typed.
//!
//! A [`Rig`] holds two [`Setup`]s: the rig *as measured*, from which the springs' free lengths come,
//! and the rig *as proposed*, whose loads are judged. Without a shift or a change they are the same.

mod change;
mod defaults;
mod include;
mod informational;
pub mod inputs;
mod problem;
mod read;
mod setup;
mod source;
pub mod starter;
mod stated;
pub mod tires;
mod validate;

pub use change::{Variable, Varied};
pub use defaults::{Assumed, AssumedValue, density, unloaded_radius, usual_tongue_share, yield_stress};
pub use include::{Included, Outline, include};
pub use inputs::{At, INPUTS, Implausible, Input, Key, Role, Sign, nearest};
pub use problem::{Fault, IncludeFault, MOST_INCLUDED, Problem, Problems};
pub use setup::*;
pub use source::{Position, Source, SourceId, Sources, Span};
pub use stated::Stated;

use change::Origin;
use read::Draft;
use std::sync::Arc;

/// A rig as it was measured and as it is proposed, both valid.
#[derive(Debug, Clone, PartialEq)]
pub struct Rig {
    /// As it was measured, defaults filled in, nothing shifted.
    measured: Setup,
    /// As it is proposed.
    proposed: Setup,
    /// Every value assumed where the file is silent.
    assumed: Vec<Assumed>,
    /// The bound of each uncertain input, in SI.
    uncertain: Vec<(Key, f64)>,
    /// The changes made beside the file, as given.
    changes: Vec<String>,
    origin: Arc<Origin>,
}

impl Rig {
    /// The rig that the text of a file describes.
    ///
    /// # Errors
    /// [`Problems`]: every mistake in the text, each with its place.
    ///
    /// ```
    /// use bunkline::Rig;
    ///
    /// let rig = Rig::parse("format = 1\n[[trailer.axles]]\nstation = \"17 ft 4 in\"")?;
    /// assert_eq!(rig.measured().trailer.axles.len(), 1);
    /// # Ok::<(), bunkline::rig::Problems>(())
    /// ```
    pub fn parse(text: &str) -> Result<Self, Problems> {
        let no_changes: &[&str] = &[];
        Self::read("the rig file", text, no_changes)
    }

    /// The rig that a file describes, with changes applied in their order.
    ///
    /// `name` is what messages call the file. A change is `PATH=VALUE`, or `PATH+=VALUE` and `PATH-=VALUE`
    /// for lengths, weights and shares. A change to the suspension, the axles, the level ball height or the
    /// scale figures corrects what was measured, as does one to a key that the file lacks and that has no
    /// default; every other change proposes something and leaves the springs as they are.
    ///
    /// # Errors
    /// [`Problems`]: every mistake in the file and the changes, each with its place.
    ///
    /// ```
    /// let text = r#"
    /// format = 1
    /// [[trailer.axles]]
    /// station = "17 ft 4 in"
    /// "#;
    /// let rig = bunkline::Rig::read("rig.toml", text, &["trailer.axles.1.rating=7000 lb"])?;
    /// assert_eq!(rig.proposed().trailer.axles.len(), 1);
    ///
    /// let no_changes: &[&str] = &[];
    /// let problems = bunkline::Rig::read("rig.toml", "format = 1\naxels = 3", no_changes).unwrap_err();
    /// assert_eq!(problems.list.len(), 2);
    /// # Ok::<(), bunkline::rig::Problems>(())
    /// ```
    pub fn read<S: AsRef<str>>(name: &str, text: &str, changes: &[S]) -> Result<Self, Problems> {
        Self::from_sources(include(name, text, (), |(), _| Err(IncludeFault::NoFolder))?, changes)
    }

    /// The rig that a file describes together with those that it includes, with changes applied.
    ///
    /// # Errors
    /// As [`Self::read`].
    pub fn from_sources<S: AsRef<str>>(sources: Sources, changes: &[S]) -> Result<Self, Problems> {
        let mut draft = Draft::default();
        draft.read(&sources);
        if draft
            .problems
            .iter()
            .any(|problem| matches!(problem.fault, Fault::Syntax(_) | Fault::AfterQuote | Fault::CurlyQuotes))
        {
            return Err(in_order(sources, draft.problems));
        }
        let shift = std::mem::take(&mut draft.setup.shift);
        let mut origin = Origin { sources, draft, shift, proposals: Vec::new() };
        origin.take(changes);
        origin.rig(changes.iter().map(|change| change.as_ref().to_string()).collect())
    }

    /// The rig as it was measured: defaults filled in, nothing shifted.
    pub fn measured(&self) -> &Setup {
        &self.measured
    }

    /// The rig as it is proposed.
    pub fn proposed(&self) -> &Setup {
        &self.proposed
    }

    /// The text that states a key, or in which it would be stated: an element of a list stands in one text with its list,
    /// and what stands nowhere goes into the rig file itself.
    pub fn source_of(&self, key: Key) -> SourceId {
        let places = &self.origin.draft.places;
        let list = key.path.split_once(".*").map(|(list, _)| list);
        let of_list =
            || places.iter().find(|(other, _)| other.path.split_once(".*").map(|(list, _)| list) == list);
        let stated = places.get(&key).or_else(|| list.and_then(|_| of_list()).map(|(_, span)| span));
        stated.map_or_else(SourceId::default, |span| span.source)
    }

    /// Every value assumed where the file is silent.
    pub fn assumed(&self) -> &[Assumed] {
        &self.assumed
    }

    /// The bound of each uncertain input, in SI.
    pub fn uncertain(&self) -> &[(Key, f64)] {
        &self.uncertain
    }

    /// The changes made beside the file, as given.
    pub fn changes(&self) -> &[String] {
        &self.changes
    }

    /// The rig with one ramp and one case alone, where they are asked for, counted from 0. What was measured stays
    /// whole. A change made to it later is a change to the whole rig.
    #[must_use]
    pub fn narrowed(&self, ramp: Option<usize>, case: Option<usize>) -> Self {
        let mut narrowed = self.clone();
        keep(&mut narrowed.proposed.ramps, ramp);
        keep(&mut narrowed.proposed.cases, case);
        narrowed
    }

    /// Whether the file or a change states an equalizer's travel that the suspension does not use.
    pub fn has_idle_equalizer_travel(&self) -> bool {
        validate::idle_equalizer_travel(&self.measured)
    }
}

/// Keeps one element of a list, if it is asked for and there.
fn keep<T>(list: &mut Vec<T>, wanted: Option<usize>) {
    if let Some(wanted) = wanted.filter(|wanted| *wanted < list.len()) {
        *list = vec![list.swap_remove(wanted)];
    }
}

/// The keel's name among the points that may ground: no listed point may have it.
pub(crate) const KEEL: &str = "keel";
/// What stands in an id for low points where none is listed: no listed point may have it.
pub(crate) const NO_LOW_POINTS: &str = "low-points";

/// A name as an id spells it: lower case, with - for whatever is no letter or digit.
pub fn slug(name: &str) -> String {
    let words = name.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    words.map(str::to_lowercase).collect::<Vec<_>>().join("-")
}

/// The problems in the order of the texts, those without a place last.
fn in_order(sources: Sources, mut list: Vec<Problem>) -> Problems {
    list.sort_by_key(|problem| {
        let at = problem.at.as_ref();
        (at.is_none(), at.map(|span| (span.source, span.range.start, span.range.end)))
    });
    Problems { sources, list }
}
