//! Which rows are asked for, and all that follows from the choice: the loads that they need, and how they stand.

use super::asked::Asked;
use super::check::Check;
use super::comparison::{Bounds, Comparison, Fold, compare};
use super::facts::{Crossed, Facts, Needs};
use super::model::{AsMeasured, Model, Unfit};
use super::reason::{lowered, reasons};
use super::recalled::Recalled;
use super::registry::checks;
use super::verdict::{Outcome, RigVerdict, rig_verdict};
use crate::quantity::Quantity;
use crate::rig::{Rig, Setup};

/// The rows that are asked for, chosen once and evaluated for as many rigs as wanted that have the same keys.
#[derive(Debug, Clone, PartialEq)]
pub struct Scope {
    rows: Vec<Asked>,
    needs: Needs,
}

impl Scope {
    /// The rows that are wanted of all that a rig may have, those included that it has only once something has moved.
    pub fn of(setup: &Setup, wanted: impl Fn(&Asked) -> bool) -> Self {
        let asked = |check: &'static Check| {
            let of_each = (check.rows.all)(setup).into_iter();
            of_each.map(move |of| Asked::new(check, of, setup))
        };
        let rows: Vec<Asked> = checks().flat_map(asked).filter(wanted).collect();
        let mut needs = Needs::of(rows.iter().map(|row| row.check.load.from));
        needs.ramps &= !setup.ramps.is_empty();
        Self { rows, needs }
    }

    /// Every row.
    pub fn all(setup: &Setup) -> Self {
        Self::of(setup, |_| true)
    }

    /// The same in one case alone, counted from 0; none is every case.
    #[must_use]
    pub fn in_case(self, case: Option<usize>) -> Self {
        Self { needs: Needs { case, ..self.needs }, ..self }
    }

    /// The same over one crossing alone; none is every one.
    #[must_use]
    pub fn over(self, crossing: Option<Crossed>) -> Self {
        Self { needs: Needs { crossing, ..self.needs }, ..self }
    }

    /// The rows, in the order of reports.
    pub fn rows(&self) -> &[Asked] {
        &self.rows
    }

    /// Whether ramps are crossed, which takes a thousand times as long as the level does.
    pub fn crosses_ramps(&self) -> bool {
        self.needs.ramps
    }

    /// The loads that the rows need; `measured` spares computing anew what follows from a measured state that many
    /// rigs share.
    ///
    /// # Errors
    /// [`Unfit`] when the trailer does not rest on its wheels on level ground.
    pub fn facts(&self, rig: &Rig, measured: Option<&AsMeasured>) -> Result<Facts, Unfit> {
        let model = measured.map_or_else(|| Model::new(rig), |measured| Model::proposing(rig, measured));
        model.facts(self.needs)
    }

    /// The same of a rig that may cross a ramp as others before it did.
    ///
    /// # Errors
    /// As [`Scope::facts`].
    pub fn facts_recalling(&self, rig: &Rig, recalled: &Recalled) -> Result<Facts, Unfit> {
        Model::new(rig).facts_recalling(self.needs, recalled)
    }

    /// Shows every comparison of every row that the setup has, with the row's place, always in the same order.
    pub fn compare<'a>(&'a self, setup: &Setup, facts: &Facts, mut look: impl FnMut(usize, Comparison<'a>)) {
        for (i, row) in self.rows.iter().enumerate().filter(|(_, row)| row.is_there(setup)) {
            compare(row, setup, facts, |comparison| look(i, comparison));
        }
    }

    /// What the rows and what else decides make of the rig. Every row that [decides](Asked::decides) must be asked for.
    pub fn verdict(&self, setup: &Setup, facts: &Facts, folds: &[Fold]) -> RigVerdict {
        let there = self.rows.iter().zip(folds).filter(|(asked, _)| asked.is_there(setup));
        let outcome = |(asked, fold): (&Asked, &Fold)| Outcome {
            verdict: fold.verdict(),
            can_fail: asked.fails(),
            core: asked.is_core(setup),
        };
        rig_verdict(there.map(outcome), || lowered(&reasons(&self.rows, setup, facts)))
    }

    /// The limits of each row where the load stands that governs its fold.
    pub fn bounds(&self, setup: &Setup, facts: &Facts, folds: &[Fold]) -> Vec<Bounds> {
        let rows = self.rows().iter().zip(folds);
        rows.map(|(asked, fold)| Bounds::of(asked, setup, facts, fold)).collect()
    }

    /// What each row comes to; a row that the setup does not have is not evaluated.
    pub fn folds(&self, setup: &Setup, facts: &Facts) -> Vec<Fold> {
        let thin = setup.policy.thin_margin.map_or(0.0, Quantity::si);
        // Filled in place: a fold is large.
        let mut folds = vec![Fold::default(); self.rows.len()];
        for (fold, row) in folds.iter_mut().zip(&self.rows).filter(|(_, row)| row.is_there(setup)) {
            fold.take(row, setup, facts, thin);
        }
        folds
    }
}
