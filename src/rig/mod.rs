//! The rig: what its file says, read, checked and typed.
//!
//! A [`Rig`] holds two [`Setup`]s: the rig *as measured*, from which the springs' free lengths come,
//! and the rig *as proposed*, whose loads are judged. Without a shift or a change they are the same.

mod change;
mod defaults;
mod input;
mod problem;
mod read;
mod setup;
mod source;
mod validate;
mod vary;

pub use defaults::{Assumed, AssumedValue, density};
pub use input::{At, INPUTS, Input, Key, Role, Sign, Slot, nearest};
pub use problem::{Fault, Problem, Problems};
pub use setup::*;
pub use source::{Position, Source, SourceId, Sources, Span};
pub use vary::{Variable, Varied};

use crate::quantity::Length;
use change::{Change, corrects};
use read::Draft;
use std::sync::Arc;
use vary::Origin;

/// A rig as it was measured and as it is proposed, both valid.
#[derive(Debug, Clone, PartialEq)]
pub struct Rig {
    /// As it was measured, defaults filled in, nothing shifted.
    pub measured: Setup,
    /// As it is proposed.
    pub proposed: Setup,
    /// Every value assumed where the file is silent.
    pub assumed: Vec<Assumed>,
    /// The bound of each uncertain input, in SI.
    pub uncertain: Vec<(Key, f64)>,
    /// The changes made beside the file, as given.
    pub changes: Vec<String>,
    origin: Arc<Origin>,
}

impl Rig {
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
    /// assert_eq!(rig.proposed.trailer.axles.len(), 1);
    ///
    /// let no_changes: &[&str] = &[];
    /// let problems = bunkline::Rig::read("rig.toml", "format = 1\naxels = 3", no_changes).unwrap_err();
    /// assert_eq!(problems.list.len(), 2);
    /// # Ok::<(), bunkline::rig::Problems>(())
    /// ```
    pub fn read<S: AsRef<str>>(name: &str, text: &str, changes: &[S]) -> Result<Self, Problems> {
        let mut sources = Sources::default();
        let file = sources.add(name, text);
        let mut draft = Draft::default();
        draft.read(file, text);
        if draft.problems.iter().any(|problem| matches!(problem.fault, Fault::Syntax(_) | Fault::AfterQuote))
        {
            return Err(in_order(sources, draft.problems));
        }
        let (corrections, proposals) = split_changes(&mut draft, &mut sources, changes);
        let shift = std::mem::take(&mut draft.setup.shift);
        for (change, key) in corrections {
            change.apply(&mut draft, key);
        }
        let origin = Origin { sources, draft: draft.clone(), shift, proposals };
        let assumed = defaults::resolve(&mut draft.setup);
        let mut problems = std::mem::take(&mut draft.problems);
        problems.extend(validate::validate(&draft));
        let measured = draft.setup.clone();

        draft.setup.shift = shift;
        defaults::resolve(&mut draft.setup);
        for (change, key) in &origin.proposals {
            change.apply(&mut draft, *key);
        }
        boat_follows_bunks(&measured, &mut draft.setup, origin.proposals.iter().map(|(_, key)| *key));
        problems.append(&mut draft.problems);
        for problem in validate::validate(&draft) {
            if !problems.contains(&problem) {
                problems.push(problem);
            }
        }
        if !problems.is_empty() {
            return Err(in_order(origin.sources, problems));
        }
        Ok(Self {
            measured,
            proposed: draft.setup,
            assumed,
            uncertain: draft.bounds.into_iter().collect(),
            changes: changes.iter().map(|change| change.as_ref().to_string()).collect(),
            origin: Arc::new(origin),
        })
    }

    /// Whether the file or a change states an equalizer's travel that the suspension does not use.
    pub fn has_idle_equalizer_travel(&self) -> bool {
        validate::idle_equalizer_travel(&self.measured)
    }
}

/// Lets the bunks follow spacers that a proposal changes, and the keel follow bunks that it raises, spreads or lowers,
/// and a boat that it moves to where its bottom is steeper or flatter, unless it says itself where they go.
fn boat_follows_bunks(measured: &Setup, proposed: &mut Setup, changed: impl Iterator<Item = Key>) {
    let changed: Vec<&str> = changed.map(|key| key.path).collect();
    if !changed.contains(&"trailer.bunks.top")
        && let (Some(top), Some(before), Some(after)) =
            (measured.trailer.bunks.top, measured.trailer.bunks.spacer, proposed.trailer.bunks.spacer)
    {
        proposed.trailer.bunks.top = Some(top + (after - before));
    }
    if changed.contains(&"trailer.keel_height") {
        return;
    }
    let on_bunks = measured.keel_on_bunks().zip(proposed.keel_on_bunks());
    // Off its bunks, before or after, the boat lies at no height that they give: the measured one stays.
    let moved = on_bunks.map_or(Length::default(), |(before, after)| after - before);
    proposed.trailer.keel_height = measured.trailer.keel_height.map(|keel| keel + moved);
}

/// A name as an id spells it: lower case, with - for whatever is no letter or digit.
pub fn slug(name: &str) -> String {
    let words = name.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    words.map(str::to_lowercase).collect::<Vec<_>>().join("-")
}

/// The changes with the keys they change: corrections of what was measured, and proposals.
type Split = (Vec<(Change, Key)>, Vec<(Change, Key)>);

fn split_changes<S: AsRef<str>>(draft: &mut Draft, sources: &mut Sources, changes: &[S]) -> Split {
    // Paths may name what only a default brings, such as the one case of a file without cases.
    let mut with_defaults = draft.setup.clone();
    defaults::resolve(&mut with_defaults);
    let (mut corrections, mut proposals) = (Vec::new(), Vec::new());
    for text in changes {
        let text = text.as_ref();
        let source = sources.add("--set", text);
        let place = Span { source, range: 0..text.len() };
        let change = Change::split(text, place.clone());
        match change.and_then(|change| change.keys(&with_defaults).map(|keys| (change, keys))) {
            Ok((change, keys)) => {
                for key in keys {
                    let list = if corrects(key, draft) { &mut corrections } else { &mut proposals };
                    list.push((change.clone(), key));
                }
            }
            Err(fault) => draft.blame(fault, Some(place)),
        }
    }
    (corrections, proposals)
}

/// The problems in the order of the texts, those without a place last.
fn in_order(sources: Sources, mut list: Vec<Problem>) -> Problems {
    list.sort_by_key(|problem| {
        let at = problem.at.as_ref();
        (at.is_none(), at.map(|span| (span.source, span.range.start, span.range.end)))
    });
    Problems { sources, list }
}
