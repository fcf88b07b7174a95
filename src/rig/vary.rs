//! A rig under other values of some inputs, each time from the same file, without reading text again.

use super::change::{Change, corrects, keys};
use super::input::{Input, Key, Role};
use super::problem::{Fault, Problem, Problems};
use super::read::{Draft, out_of_bounds, store, stored};
use super::setup::{Part, Setup, Shift};
use super::source::Sources;
use super::{Rig, boat_follows_bunks, defaults, validate};
use crate::quantity::show::{UnitSystem, written};
use crate::quantity::{Kind, Uncertain};
use std::sync::Arc;

/// From what a rig was made, to make it again with other values.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Origin {
    pub sources: Sources,
    /// The file with its corrections, before defaults, its shift taken out.
    pub draft: Draft,
    pub shift: Shift,
    /// The changes that propose something, and what each changes.
    pub proposals: Vec<(Change, Key)>,
}

/// A quantity that can be varied: one key, or the same key of every element of a list.
#[derive(Debug, Clone, PartialEq)]
pub struct Variable {
    /// The path as asked for.
    pub path: String,
    /// What it measures.
    pub kind: Kind,
    keys: Vec<(Key, bool)>,
}

impl Variable {
    /// The keys that it stands for.
    pub fn keys(&self) -> impl Iterator<Item = Key> {
        self.keys.iter().map(|(key, _)| *key)
    }

    /// Whether setting it corrects what was measured, at any of its keys; else it only proposes.
    pub fn corrects(&self) -> bool {
        self.keys.iter().any(|(_, corrects)| *corrects)
    }

    /// Whether writing it into the file would say that the rig was measured so, which setting it does not.
    pub fn is_measured_in_a_file(&self) -> bool {
        let role = |key: &Key| key.input().map(|input| input.role);
        self.keys.iter().any(|(key, corrects)| !corrects && role(key) == Some(Role::Measured))
    }

    /// Why a value in SI is out of its keys' own bounds, told in these units, if it is.
    pub fn out_of_bounds(&self, value: f64, units: UnitSystem) -> Option<Fault> {
        let read = Uncertain { value, bound: 0.0 };
        out_of_bounds(self.keys().next()?.input()?, self.kind, read, || written(read, self.kind, units))
    }
}

impl Rig {
    /// The quantity at a path, as a change would name it.
    ///
    /// # Errors
    /// [`Fault`] when there is no such path, or no quantity stands there.
    pub fn variable(&self, path: &str) -> Result<Variable, Fault> {
        let draft = &self.origin.draft;
        let keys = keys(path, &self.measured)?;
        let mut scratch = self.measured.clone();
        let mut kind = |key: &Key| key.input()?.slot(&mut scratch, key.at).kind();
        let Some(kind) = keys.first().and_then(&mut kind) else {
            return Err(Fault::NotAQuantity(path.to_string()));
        };
        let keys = keys.into_iter().map(|key| (key, corrects(key, draft))).collect();
        Ok(Variable { path: path.to_string(), kind, keys })
    }

    /// What kind of quantity stands at a key of the rig, if one can.
    pub fn kind(&self, key: Key) -> Option<Kind> {
        let mut scratch = self.measured.clone();
        make_room(&mut scratch, key);
        key.input()?.slot(&mut scratch, key.at).kind()
    }

    /// The path of each key that a variable stands for, spelled as the variable's, elements in place of `all`.
    pub fn paths(&self, variable: &Variable) -> Vec<String> {
        let spelled = |key: Key| {
            let mut elements = key.at.into_iter();
            let segments = key.path.split('.').zip(variable.path.split('.')).enumerate();
            let segments = segments.map(|(i, (pattern, written))| {
                let element = if pattern == "*" { elements.next() } else { None };
                match element {
                    // A case's fills go by the tanks' ids.
                    Some(tank) if key.path == "cases.*.fill.*" && i == 3 => {
                        let id = self.proposed.part_id(Part::Tank(tank));
                        id.map_or_else(|| (tank + 1).to_string(), str::to_string)
                    }
                    Some(element) if written == "all" => (element + 1).to_string(),
                    _ => written.to_string(),
                }
            });
            segments.collect::<Vec<_>>().join(".")
        };
        variable.keys().map(spelled).collect()
    }

    /// The value in SI of a variable as proposed, of the first of its keys; none where there is none.
    pub fn value(&self, variable: &Variable) -> Option<f64> {
        let mut scratch = self.proposed.clone();
        let key = variable.keys().next()?;
        make_room(&mut scratch, key);
        stored(&key.input()?.slot(&mut scratch, key.at))
    }

    /// The rig with a last change to a value in SI: what is varied later starts from it.
    ///
    /// # Errors
    /// [`Problems`] when the value is out of its bounds, or breaks a rule of the file.
    pub fn changed(&self, variable: &Variable, value: f64) -> Result<Self, Problems> {
        let mut rig = Varied::new(self).with(&[(variable, value)])?.clone();
        let mut origin = Origin::clone(&rig.origin);
        for (key, corrects) in &variable.keys {
            if *corrects {
                if let Some(input) = key.input() {
                    make_room(&mut origin.draft.setup, *key);
                    store(input.slot(&mut origin.draft.setup, key.at), value);
                }
            } else {
                let nowhere = origin.sources.end_of_file();
                origin.proposals.push((Change::to(&variable.path, value, nowhere), *key));
            }
        }
        rig.origin = Arc::new(origin);
        rig.uncertain.retain(|(key, _)| !variable.keys().any(|changed| changed == *key));
        Ok(rig)
    }
}

/// A rig that is made again and again with other values.
///
/// Setting a value is the same as naming it in a last change to [`Rig::read`].
///
/// ```
/// use bunkline::quantity::{Length, Quantity};
/// use bunkline::rig::{Rig, Varied};
///
/// let text = r#"
/// format = 1
/// [[trailer.axles]]
/// station = "17 ft 4 in"
/// "#;
/// let no_changes: &[&str] = &[];
/// let rig = Rig::read("rig.toml", text, no_changes)?;
/// let boat = rig.variable("shift.boat").expect("a key of the format");
/// let mut varied = Varied::new(&rig);
/// let moved = varied.with(&[(&boat, 0.1)])?;
/// assert_eq!(moved.proposed.shift.boat, Some(Length::from_si(0.1)));
/// # Ok::<(), bunkline::rig::Problems>(())
/// ```
#[derive(Debug, Clone)]
pub struct Varied {
    rig: Rig,
    /// Its setup is the measured one in the making; the rest tells where things stand.
    draft: Draft,
}

impl Varied {
    /// A rig ready to be varied; as it stands until then.
    pub fn new(rig: &Rig) -> Self {
        Self { rig: rig.clone(), draft: rig.origin.draft.clone() }
    }

    /// The rig with these values in SI in place of its own, the later outranking the earlier.
    ///
    /// Every call must name the same variables.
    ///
    /// # Errors
    /// [`Problems`] when a value is out of its bounds, or breaks a rule of the file. The next call is as good
    /// as ever.
    pub fn with(&mut self, values: &[(&Variable, f64)]) -> Result<&Rig, Problems> {
        let mut problems: Vec<Problem> =
            values.iter().filter_map(|(variable, value)| self.out_of_bounds(variable, *value)).collect();
        if values.iter().any(|(variable, _)| variable.corrects()) {
            self.restart();
            self.put(values, true);
            self.rig.assumed = defaults::resolve(&mut self.draft.setup);
            problems.extend(validate::validate_quantities(&self.draft, &self.draft.setup));
            self.propose(&[]);
        }
        self.put(values, false);
        let varied = values.iter().flat_map(|(variable, _)| variable.keys());
        self.follow_bunks(varied);
        self.finish(problems)
    }

    /// The rig with errors in SI added to inputs of what was measured: both its setups move. An error of the shift moves
    /// the proposal alone.
    ///
    /// A value that has a bound of its own, such as a share of 100 %, stays inside it.
    ///
    /// # Errors
    /// [`Problems`] when a value breaks a rule of the file. The next call is as good as ever.
    pub fn with_errors(&mut self, errors: &[(Key, f64)]) -> Result<&Rig, Problems> {
        self.restart();
        for (key, error) in errors {
            add(&mut self.draft.setup, *key, *error);
        }
        self.rig.assumed = defaults::resolve(&mut self.draft.setup);
        self.propose(errors);
        self.follow_bunks(std::iter::empty());
        self.finish(Vec::new())
    }

    /// Back to the file and its corrections.
    fn restart(&mut self) {
        self.draft.setup.clone_from(&self.rig.origin.draft.setup);
    }

    /// Takes the setup in the making as measured, and proposes on top of it what the changes do.
    fn propose(&mut self, errors: &[(Key, f64)]) {
        self.rig.measured.clone_from(&self.draft.setup);
        self.draft.setup.shift = self.rig.origin.shift;
        // How far something is moved is no part of what was measured, but may be as uncertain.
        for (key, error) in errors.iter().filter(|(key, _)| key.path.starts_with("shift.")) {
            add(&mut self.draft.setup, *key, *error);
        }
        // Everything else has its defaults already, and none of them follows the shift.
        defaults::stay(&mut self.draft.setup.shift);
        for (change, key) in &self.rig.origin.proposals {
            change.apply(&mut self.draft, *key);
            // A plain value hides what was measured; its own error, if any, moves it.
            if let Some((_, error)) = errors.iter().find(|(other, _)| other == key)
                && change.sets()
            {
                add(&mut self.draft.setup, *key, *error);
            }
        }
        std::mem::swap(&mut self.draft.setup, &mut self.rig.proposed);
    }

    fn follow_bunks(&mut self, varied: impl Iterator<Item = Key>) {
        let Rig { measured, proposed, origin, .. } = &mut self.rig;
        let proposals = origin.proposals.iter().map(|(_, key)| *key);
        boat_follows_bunks(measured, proposed, varied.chain(proposals));
    }

    /// Puts the values that correct into the setup in the making, or those that propose into the proposed one.
    fn put(&mut self, values: &[(&Variable, f64)], corrections: bool) {
        for (variable, value) in values {
            for (key, corrects) in &variable.keys {
                if let Some(input) = key.input().filter(|_| *corrects == corrections) {
                    let setup = if corrections { &mut self.draft.setup } else { &mut self.rig.proposed };
                    make_room(setup, *key);
                    store(input.slot(setup, key.at), *value);
                }
            }
        }
    }

    fn finish(&mut self, mut problems: Vec<Problem>) -> Result<&Rig, Problems> {
        problems.append(&mut self.draft.problems);
        for problem in validate::validate_quantities(&self.draft, &self.rig.proposed) {
            if !problems.contains(&problem) {
                problems.push(problem);
            }
        }
        if problems.is_empty() {
            Ok(&self.rig)
        } else {
            Err(Problems { sources: self.rig.origin.sources.clone(), list: problems })
        }
    }

    fn out_of_bounds(&self, variable: &Variable, value: f64) -> Option<Problem> {
        let units = self.rig.measured.units.map_or(UnitSystem::Us, UnitSystem::from);
        Some(Problem { fault: variable.out_of_bounds(value, units)?, at: None, other: None })
    }
}

/// A case's fill has a place of its own only once it is set.
pub(super) fn make_room(setup: &mut Setup, key: Key) {
    if key.path == "cases.*.fill.*" {
        let tanks = setup.boat.tanks.len();
        setup.cases[key.at[0]].fill.resize(tanks, None);
    }
}

/// Adds to a value, as far as its bounds allow.
fn add(setup: &mut Setup, key: Key, error: f64) {
    let Some(input) = key.input() else { return };
    make_room(setup, key);
    let slot = input.slot(setup, key.at);
    let Some(kind) = slot.kind() else { return };
    if let Some(value) = stored(&slot) {
        store(slot, within(input, kind, value + error));
    }
}

fn within(input: &Input, kind: Kind, value: f64) -> f64 {
    let (least, most) = super::read::bounds(input, kind);
    value.clamp(least, most)
}
