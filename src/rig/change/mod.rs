//! The one way to propose: a key gets another value, and the rig is made again from its file.
//!
//! A change is stated beside the file as `PATH=VALUE`, `PATH+=VALUE` or `PATH-=VALUE` ([`Rig::read`], [`Rig::with`]),
//! or is a value in SI of a [`Variable`] ([`Rig::changed`], [`Varied`]). What corrects the measurement goes into the
//! file's setup before any default does; everything else is proposed on top of the measured setup. A bound (±) belongs
//! to its key: it stays with a changed value, unless the change states its own.

mod crossmember;
mod otherwise;
mod stated;
mod variable;
mod varied;

pub use variable::Variable;
pub use varied::Varied;

use super::inputs::{Input, Key, Role, TRAILER_BUNKS_TOP, TRAILER_KEEL_HEIGHT, WEIGHINGS_WEIGHT};
use super::problem::{Fault, Problem, Problems};
use super::read::{Draft, bounds, out_of_bounds};
use super::setup::{Setup, Shift};
use super::source::{Sources, Span};
use super::{Rig, defaults, in_order, validate};
use crate::quantity::show::{UnitSystem, written};
use crate::quantity::{Length, Uncertain};
use std::sync::Arc;

/// From what a rig is made.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Origin {
    pub sources: Sources,
    /// The file with its corrections, before defaults, its shift taken out.
    pub draft: Draft,
    pub shift: Shift,
    /// The changes that propose something, in their order.
    pub proposals: Vec<Change>,
}

/// A change of one key.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Change {
    key: Key,
    verb: Verb,
    /// Where it is stated, if its value was a text.
    text: Option<Stated>,
}

/// What happens to a key.
#[derive(Debug, Clone, PartialEq)]
enum Verb {
    /// A quantity gets this value in SI.
    Set(f64),
    /// This much in SI is added to a quantity.
    Add(f64),
    /// Anything but a quantity gets what this text states.
    Take(String),
}

/// Where a change is stated.
#[derive(Debug, Clone, PartialEq)]
struct Stated {
    whole: Span,
    /// The place of its value.
    value: Span,
    /// The bound in SI, where it states one.
    bound: Option<f64>,
}

impl Origin {
    /// The rig that is made so.
    ///
    /// # Errors
    /// [`Problems`]: those of reading, and each rule that the rig breaks as measured or as proposed.
    pub fn rig(mut self, changes: Vec<String>) -> Result<Rig, Problems> {
        let mut problems = std::mem::take(&mut self.draft.problems);
        let mut draft = self.draft.clone();
        let assumed = defaults::resolve(&mut draft.setup);
        problems.extend(validate::validate(&draft));
        let measured = draft.setup.clone();
        self.propose(&mut draft, &measured, &[], &[]);
        problems.append(&mut draft.problems);
        for problem in validate::validate(&draft) {
            if !problems.contains(&problem) {
                problems.push(problem);
            }
        }
        if !problems.is_empty() {
            return Err(in_order(self.sources, problems));
        }
        // A reading of a scale moves no check, and so does its ±.
        let moves = |(key, _): &(Key, f64)| key.path != WEIGHINGS_WEIGHT.path();
        let uncertain = draft.bounds.into_iter().filter(moves).collect();
        Ok(Rig { measured, proposed: draft.setup, assumed, uncertain, changes, origin: Arc::new(self) })
    }

    /// Makes a change: at once where it corrects the measurement, else whenever the rig is made.
    fn make(&mut self, change: Change) {
        if self.corrects(change.key) {
            change.apply(&mut self.draft);
        } else {
            self.proposals.push(change);
        }
    }

    /// Whether changing the key corrects what was measured, rather than proposing something else.
    fn corrects(&self, key: Key) -> bool {
        match key.input().map(|input| input.role) {
            Some(Role::Correction) => true,
            Some(Role::Measured) => !self.draft.seen.contains(&key),
            _ => false,
        }
    }

    /// Makes of a draft that holds the measured setup, defaults filled in, the proposed one: with the origin's
    /// proposals, then with `last`, values in SI. Errors in SI of keys move what the proposals set.
    fn propose(&self, draft: &mut Draft, measured: &Setup, last: &[(Target, f64)], errors: &[(Key, f64)]) {
        draft.setup.shift = self.shift;
        // Everything else has its defaults already, and none of them follows the shift.
        defaults::stay(&mut draft.setup);
        let err = |setup: &mut Setup, key: Key| {
            for (_, error) in errors.iter().filter(|(other, _)| *other == key) {
                add(setup, key, *error);
            }
        };
        // How far something is moved is no part of what was measured, but may be as uncertain.
        for (key, _) in errors.iter().filter(|(key, _)| key.path.starts_with("shift.")) {
            err(&mut draft.setup, *key);
        }
        for change in &self.proposals {
            change.apply(draft);
            // A plain value hides what was measured; the error of its key moves it as well.
            if matches!(change.verb, Verb::Set(_)) {
                err(&mut draft.setup, change.key);
            }
        }
        for (target, value) in last {
            target.set(&mut draft.setup, *value);
            err(&mut draft.setup, target.key);
        }
        let changed = self.proposals.iter().map(|change| change.key);
        follow_bunks(measured, &mut draft.setup, changed.chain(last.iter().map(|(target, _)| target.key)));
    }
}

impl Change {
    /// Makes the change to a draft.
    fn apply(&self, draft: &mut Draft) {
        let Some(input) = self.key.input() else { return };
        let value = match &self.verb {
            Verb::Take(text) => {
                if let Some(stated) = &self.text {
                    draft.setup.is_stated(self.key);
                    draft.take_text(self.key, input, text, stated.value.clone());
                }
                return;
            }
            Verb::Set(value) => *value,
            Verb::Add(by) => match self.sum(draft, input, *by) {
                Ok(sum) => sum,
                Err(fault) => {
                    let at = self.text.as_ref().map(|stated| match fault {
                        Fault::NothingToAddTo(_) => stated.whole.clone(),
                        _ => stated.value.clone(),
                    });
                    return draft.blame(fault, at);
                }
            },
        };
        input.slot(&mut draft.setup, self.key.at).put(Some(value));
        draft.setup.is_stated(self.key);
        if let Some(stated) = &self.text {
            draft.places.insert(self.key, stated.value.clone());
            if let Some(bound) = stated.bound {
                draft.take_bound(self.key, bound);
            }
        }
    }

    /// What a value becomes by adding to it. A default stands where the draft is silent.
    fn sum(&self, draft: &Draft, input: &Input, by: f64) -> Result<f64, Fault> {
        let mut with_defaults = draft.setup.clone();
        defaults::resolve(&mut with_defaults);
        let kind = input.kind().ok_or(Fault::CannotAdd(input.meaning))?;
        let before = input.si(&with_defaults, self.key.at).ok_or(Fault::NothingToAddTo(self.key))?;
        let sum = Uncertain { value: before + by, bound: 0.0 };
        let units = with_defaults.units.map_or(UnitSystem::Us, UnitSystem::from);
        match out_of_bounds(input, kind, sum, || written(sum, kind, units)) {
            Some(fault) => Err(fault),
            None => Ok(sum.value),
        }
    }
}

/// A quantity's key, looked up once.
#[derive(Debug, Clone, Copy)]
struct Target {
    key: Key,
    input: &'static Input,
    /// Whether setting it corrects what was measured.
    corrects: bool,
}

impl Target {
    fn set(self, setup: &mut Setup, si: f64) {
        self.input.slot(setup, self.key.at).put(Some(si));
        setup.is_stated(self.key);
    }
}

impl PartialEq for Target {
    fn eq(&self, other: &Self) -> bool {
        (self.key, self.corrects) == (other.key, other.corrects)
    }
}

/// Adds to a quantity within its own bounds: a share stops at 100 %.
fn add(setup: &mut Setup, key: Key, error: f64) {
    let Some((input, kind)) = key.input().and_then(|input| Some((input, input.kind()?))) else { return };
    if let Some(value) = input.si(setup, key.at) {
        let (least, most) = bounds(input, kind);
        input.slot(setup, key.at).put(Some((value + error).clamp(least, most)));
    }
}

/// Lets the bunks follow spacers that a proposal changes, and the keel follow bunks that it raises, spreads or lowers,
/// and a boat that it moves to where its bottom is steeper or flatter, unless the proposal itself says where they go.
fn follow_bunks(measured: &Setup, proposed: &mut Setup, changed: impl Iterator<Item = Key>) {
    let (mut top_is_set, mut keel_is_set) = (false, false);
    for key in changed {
        top_is_set |= key.path == TRAILER_BUNKS_TOP.path();
        keel_is_set |= key.path == TRAILER_KEEL_HEIGHT.path();
    }
    if !top_is_set
        && let (Some(top), Some(before), Some(after)) =
            (measured.trailer.bunks.top, measured.trailer.bunks.spacer, proposed.trailer.bunks.spacer)
    {
        proposed.trailer.bunks.top = Some(top + (after - before));
    }
    if keel_is_set {
        return;
    }
    let on_bunks = measured.keel_on_bunks().zip(proposed.keel_on_bunks());
    // Off its bunks, before or after, the boat lies at no height that they give: the measured one stays.
    let moved = on_bunks.map_or(Length::default(), |(before, after)| after - before);
    proposed.trailer.keel_height = measured.trailer.keel_height.map(|keel| keel + moved);
}

impl Rig {
    /// The rig with one more change, as if it stood last among those given to [`Rig::read`].
    ///
    /// # Errors
    /// [`Problems`] when the change cannot be read, or the rig breaks a rule with it. Their places lie in its text.
    ///
    /// ```
    /// use bunkline::Rig;
    ///
    /// let rig = Rig::parse("format = 1\n[[trailer.axles]]\nstation = \"17 ft 4 in\"")?;
    /// let moved = rig.with("shift.boat=-2in")?;
    /// assert_eq!(moved.proposed().shift.boat.map(|aft| aft.value), Some(-2.0 * 0.0254));
    ///
    /// let problems = moved.with("shift.boat=1 yard").unwrap_err();
    /// assert_eq!(problems.to_string(), "expected a unit of length, found `yard`");
    /// # Ok::<(), bunkline::rig::Problems>(())
    /// ```
    pub fn with(&self, change: &str) -> Result<Self, Problems> {
        let mut origin = Origin::clone(&self.origin);
        origin.take(&[change]);
        origin.rig([&self.changes[..], &[change.to_string()]].concat())
    }

    /// Mistakes that only who knows more than the format can find, each at the place where its key is stated; `None` where
    /// there are none.
    pub fn mistaken(&self, faults: impl Iterator<Item = (Key, Fault)>) -> Option<Problems> {
        let stated = |key: Key| {
            let changes = self.origin.proposals.iter().rev();
            let change = changes.into_iter().find(|change| change.key == key);
            change.map_or_else(
                || self.origin.draft.place(key),
                |change| Some(change.text.as_ref()?.value.clone()),
            )
        };
        let problem = |(key, fault)| Problem { fault, at: stated(key), other: None };
        let list: Vec<Problem> = faults.map(problem).collect();
        (!list.is_empty()).then(|| in_order(self.origin.sources.clone(), list))
    }

    /// The rig with these values in SI in what was measured, as if its file had them: its proposals stand on top.
    ///
    /// # Errors
    /// [`Problems`] when a value is out of its bounds, or breaks a rule of the file.
    pub fn corrected_to(&self, values: &[(&Variable, f64)]) -> Result<Self, Problems> {
        let mut origin = Origin::clone(&self.origin);
        let units = self.measured.units.map_or(UnitSystem::Us, UnitSystem::from);
        for (variable, value) in values {
            if let Some(fault) = variable.out_of_bounds(*value, units) {
                origin.draft.blame(fault, None);
            }
            for key in variable.keys() {
                Change { key, verb: Verb::Set(*value), text: None }.apply(&mut origin.draft);
            }
        }
        origin.rig(self.changes.clone())
    }

    /// The rig with what its readings of scales gave, values and bounds in SI, in place of these readings: kept beside what
    /// they gave, they would count twice.
    ///
    /// # Errors
    /// As [`Self::corrected_to`].
    pub fn weighed(&self, found: &[(Key, Uncertain<f64>)]) -> Result<Self, Problems> {
        let mut origin = Origin::clone(&self.origin);
        origin.draft.forget_weighings();
        for (key, Uncertain { value, bound }) in found {
            Change { key: *key, verb: Verb::Set(*value), text: None }.apply(&mut origin.draft);
            origin.draft.take_bound(*key, *bound);
        }
        origin.rig(self.changes.clone())
    }

    /// The bound in SI of a reading of a scale, which moves no check.
    pub fn bound_of_reading(&self, reading: usize) -> f64 {
        let key = WEIGHINGS_WEIGHT.of(reading);
        self.origin.draft.bounds.get(&key).copied().unwrap_or_default()
    }

    /// The rig with a last change to a value in SI: what is varied later starts from it.
    ///
    /// # Errors
    /// [`Problems`] when the value is out of its bounds, or breaks a rule of the file.
    pub fn changed(&self, variable: &Variable, value: f64) -> Result<Self, Problems> {
        self.changed_to(&[(variable, value)])
    }

    /// The same with several last changes.
    ///
    /// # Errors
    /// As [`Self::changed`].
    pub fn changed_to(&self, values: &[(&Variable, f64)]) -> Result<Self, Problems> {
        let mut origin = Origin::clone(&self.origin);
        let units = self.measured.units.map_or(UnitSystem::Us, UnitSystem::from);
        for (variable, value) in values {
            if let Some(fault) = variable.out_of_bounds(*value, units) {
                origin.draft.blame(fault, None);
            }
            for key in variable.keys() {
                origin.make(Change { key, verb: Verb::Set(*value), text: None });
            }
        }
        origin.rig(self.changes.clone())
    }
}

/// A problem without a place.
fn nowhere(fault: Fault) -> Problem {
    Problem { fault, at: None, other: None }
}
