//! A quantity that can be varied, and what it is in a rig.

use super::Target;
use crate::quantity::show::{UnitSystem, written};
use crate::quantity::{Kind, Uncertain};
use crate::rig::Rig;
use crate::rig::inputs::{CASES_FILL, Holds, Key, Role, keys};
use crate::rig::problem::Fault;
use crate::rig::read::out_of_bounds;
use crate::rig::setup::Part;

/// A quantity that can be varied: one key, or the same key of every element of a list.
#[derive(Debug, Clone, PartialEq)]
pub struct Variable {
    /// The path as asked for.
    pub path: String,
    /// What it measures.
    pub kind: Kind,
    pub(super) targets: Vec<Target>,
}

impl Variable {
    /// The keys that it stands for: each names its elements by their places, whatever the path calls them.
    pub fn keys(&self) -> impl Iterator<Item = Key> {
        self.targets.iter().map(|target| target.key)
    }

    /// Whether setting it corrects what was measured, at any of its keys; else it only proposes.
    pub fn corrects(&self) -> bool {
        self.targets.iter().any(|target| target.corrects)
    }

    /// Whether writing it into the file would say that the rig was measured so, which setting it does not.
    pub fn is_measured_in_a_file(&self) -> bool {
        self.targets.iter().any(|target| !target.corrects && target.input.role == Role::Measured)
    }

    /// Why a value in SI is out of its keys' own bounds, in words of these units, if it is.
    pub fn out_of_bounds(&self, value: f64, units: UnitSystem) -> Option<Fault> {
        let read = Uncertain { value, bound: 0.0 };
        let input = self.targets.first()?.input;
        // A plain number has no bounds of a kind.
        out_of_bounds(input, input.kind()?, read, || written(read, self.kind, units))
    }
}

impl Rig {
    /// The quantity at a path, as a change would name it.
    ///
    /// # Errors
    /// [`Fault`] when there is no such path, or no quantity stands there.
    pub fn variable(&self, path: &str) -> Result<Variable, Fault> {
        let keys = keys(path, &self.measured)?;
        let Some(kind) = keys.first().and_then(|key| key.input()?.kind()) else {
            return Err(Fault::NotAQuantity(path.to_string()));
        };
        let targets = keys.into_iter().filter_map(|key| self.target(key)).collect();
        Ok(Variable { path: path.to_string(), kind, targets })
    }

    /// The quantity or the plain or whole number at a key, a number as a share that may be any; `None` where none can stand there.
    pub(crate) fn number(&self, key: Key) -> Option<Variable> {
        let input = key.input()?;
        let kind =
            input.kind().or(matches!(input.holds, Holds::Factor | Holds::Count).then_some(Kind::Share))?;
        Some(Variable { path: key.to_string(), kind, targets: vec![self.target(key)?] })
    }

    fn target(&self, key: Key) -> Option<Target> {
        Some(Target { key, input: key.input()?, corrects: self.origin.corrects(key) })
    }

    /// What kind of quantity stands at a key, if one can.
    pub fn kind(&self, key: Key) -> Option<Kind> {
        key.input()?.kind()
    }

    /// The path of each key that a variable stands for, spelled as the variable's, elements in place of `all`.
    pub fn paths(&self, variable: &Variable) -> Vec<String> {
        let spelled = |key: Key| {
            let mut elements = key.at.into_iter();
            let segments = key.path.split('.').zip(variable.path.split('.')).enumerate();
            let segments = segments.map(|(i, (pattern, written))| {
                let element = if pattern == "*" { elements.next() } else { None };
                match element {
                    // A case's fills go by the tanks' ids, unless digits would name another tank by its number.
                    Some(tank) if key.path == CASES_FILL.path() && i == 3 => {
                        let id = self.proposed.part_id(Part::Tank(tank));
                        let id = id.filter(|id| id.parse::<usize>().is_err());
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

    /// The value in SI of a variable as proposed, of the first of its keys, if it has one.
    pub fn value(&self, variable: &Variable) -> Option<f64> {
        let target = variable.targets.first()?;
        target.input.si(&self.proposed, target.key.at)
    }
}
