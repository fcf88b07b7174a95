//! A rig under other values of some inputs, each time from the same file, without reading text again.

use super::{Target, Variable, add, follow_bunks, nowhere};
use crate::numeric::root::halve;
use crate::quantity::show::UnitSystem;
use crate::rig::inputs::Key;
use crate::rig::problem::{Problem, Problems};
use crate::rig::read::Draft;
use crate::rig::setup::Setup;
use crate::rig::{Rig, defaults, validate};
use std::convert::Infallible;

/// Errors in SI, each of an input.
pub type Errors = Vec<(Key, f64)>;

/// A bound that breaks a rule of the file is drawn back to within this share of it.
const FINE: f64 = 1e-9;

/// A rig that is made again and again with other values.
///
/// Setting a value is the same as naming it in a last change to [`Rig::read`].
///
/// ```
/// use bunkline::quantity::{Length, Quantity};
/// use bunkline::rig::{Rig, Varied};
///
/// let rig = Rig::parse("format = 1\n[[trailer.axles]]\nstation = \"17 ft 4 in\"")?;
/// let boat = rig.variable("shift.boat").expect("a key of the format");
/// let mut varied = Varied::new(&rig);
/// let moved = varied.with(&[(&boat, 0.1)])?;
/// assert_eq!(moved.proposed().shift.boat, Some(Length::from_si(0.1)));
/// # Ok::<(), bunkline::rig::Problems>(())
/// ```
#[derive(Debug, Clone)]
pub struct Varied {
    /// The rig as it stands.
    base: Rig,
    /// The rig as made last.
    rig: Rig,
    made: Made,
    /// Scratch: its setup is the one being made; its places say where each value stands.
    draft: Draft,
    /// The values asked for last, and before.
    values: Vec<(Target, f64)>,
    before: Vec<(Target, f64)>,
}

/// What making the rig last has changed of it.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Made {
    /// Nothing but the proposed values asked for last, and what follows them.
    Proposed,
    /// Anything.
    Anew,
}

impl Varied {
    /// A rig ready to be varied; as it stands until then.
    pub fn new(rig: &Rig) -> Self {
        let (base, draft) = (rig.clone(), rig.origin.draft.clone());
        Self { base, rig: rig.clone(), made: Made::Proposed, draft, values: Vec::new(), before: Vec::new() }
    }

    /// The rig with these values in SI in place of its own, the later outranking the earlier.
    ///
    /// # Errors
    /// [`Problems`] when a value is out of its bounds, or breaks a rule of the file. The next call
    /// is not affected.
    pub fn with(&mut self, values: &[(&Variable, f64)]) -> Result<&Rig, Problems> {
        let units = self.base.measured.units.map_or(UnitSystem::Us, UnitSystem::from);
        let out_of_bounds =
            values.iter().filter_map(|(variable, value)| variable.out_of_bounds(*value, units));
        let problems = out_of_bounds.map(nowhere).collect();
        let values = values
            .iter()
            .flat_map(|(variable, value)| variable.targets.iter().map(|target| (*target, *value)));
        self.make(values, &[], problems)
    }

    /// The rig with errors in SI added to inputs of what was measured: both its setups move. An error of the shift moves
    /// the proposal alone.
    ///
    /// A value that has a bound of its own, such as a share of 100 %, stays inside it.
    ///
    /// # Errors
    /// [`Problems`] when a value breaks a rule of the file. The next call is not affected.
    pub fn with_errors(&mut self, errors: &[(Key, f64)]) -> Result<&Rig, Problems> {
        self.make(std::iter::empty(), errors, Vec::new())
    }

    /// The same where these errors break no rule of the file, and stay in order; else with those that break one drawn
    /// back together, to the last that does not. Also returns what each error became.
    ///
    /// # Errors
    /// [`Problems`] when a rule is broken without any error.
    pub fn with_errors_drawn_back(&mut self, errors: &[(Key, f64)]) -> Result<(&Rig, Errors), Problems> {
        let mut drawn = errors.to_vec();
        if !self.can_be(&drawn) {
            let culprits: Vec<usize> =
                (0..errors.len()).filter(|i| self.can_be(&without(errors, *i))).collect();
            let culprits = if culprits.is_empty() { (0..errors.len()).collect() } else { culprits };
            let mut at = |share: f64| {
                for i in &culprits {
                    drawn[*i].1 = share * errors[*i].1;
                }
                self.can_be(&drawn)
            };
            let Ok((share, _)) = halve(0.0, 1.0, FINE, |share| Ok::<bool, Infallible>(at(share)));
            at(share);
        }
        Ok((self.with_errors(&drawn)?, drawn))
    }

    fn can_be(&mut self, errors: &[(Key, f64)]) -> bool {
        self.with_errors(errors).is_ok()
    }

    fn make(
        &mut self,
        values: impl Iterator<Item = (Target, f64)>,
        errors: &[(Key, f64)],
        mut problems: Vec<Problem>,
    ) -> Result<&Rig, Problems> {
        std::mem::swap(&mut self.values, &mut self.before);
        self.values.clear();
        self.values.extend(values);
        if errors.is_empty() && !self.values.iter().any(|(target, _)| target.corrects) {
            self.propose();
        } else {
            problems.extend(self.make_anew(errors));
        }
        for problem in validate::validate_quantities(&self.draft, &self.rig.proposed) {
            if !problems.contains(&problem) {
                problems.push(problem);
            }
        }
        if !errors.is_empty() {
            // An error is no reason to take one part for another.
            problems.extend(validate::reordered(&self.base.proposed, &self.rig.proposed).map(nowhere));
        }
        if problems.is_empty() {
            Ok(&self.rig)
        } else {
            Err(Problems { sources: self.base.origin.sources.clone(), list: problems })
        }
    }

    /// Makes both setups from the file and its corrections.
    fn make_anew(&mut self, errors: &[(Key, f64)]) -> Vec<Problem> {
        self.made = Made::Anew;
        let origin = &self.base.origin;
        self.draft.setup.clone_from(&origin.draft.setup);
        self.values.retain(|(target, value)| {
            if target.corrects {
                target.set(&mut self.draft.setup, *value);
            }
            !target.corrects
        });
        for (key, error) in errors {
            add(&mut self.draft.setup, *key, *error);
        }
        self.rig.assumed = defaults::resolve(&mut self.draft.setup);
        let mut problems = validate::validate_quantities(&self.draft, &self.draft.setup);
        self.rig.measured.clone_from(&self.draft.setup);
        origin.propose(&mut self.draft, &self.rig.measured, &self.values, errors);
        std::mem::swap(&mut self.draft.setup, &mut self.rig.proposed);
        problems.append(&mut self.draft.problems);
        problems
    }

    /// Proposes the values on the rig as it stands: only what they and those before touch is written.
    fn propose(&mut self) {
        let Self { base, rig, values, before, .. } = self;
        if self.made == Made::Anew {
            rig.clone_from(base);
            self.made = Made::Proposed;
        } else {
            for (target, _) in before.iter() {
                let at = target.key.at;
                target.input.slot(&mut rig.proposed, at).put(target.input.si(&base.proposed, at));
            }
            rig.proposed.assumed.clone_from(&base.proposed.assumed);
            put_back_what_follows(&base.proposed, &mut rig.proposed);
        }
        for (target, value) in values.iter() {
            target.set(&mut rig.proposed, *value);
        }
        let proposed = base.origin.proposals.iter().map(|change| change.key);
        let changed = proposed.chain(values.iter().map(|(target, _)| target.key));
        follow_bunks(&base.measured, &mut rig.proposed, changed);
    }
}

/// All errors but one.
fn without(errors: &[(Key, f64)], one: usize) -> Vec<(Key, f64)> {
    let others = errors.iter().enumerate().filter(|(i, _)| *i != one);
    others.map(|(_, error)| *error).collect()
}

/// What [`follow_bunks`] moves.
fn put_back_what_follows(base: &Setup, proposed: &mut Setup) {
    proposed.trailer.bunks.top = base.trailer.bunks.top;
    proposed.trailer.keel_height = base.trailer.keel_height;
}
