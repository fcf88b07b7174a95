//! Which rows are asked for, and all that follows from the choice: the loads that they need, and how they stand.

use super::check::{Amount, Check, Counts, Measure, Of};
use super::comparison::{Comparison, Fold, Severity, compare};
use super::facts::{Crossed, Facts, Needs};
use super::model::{AsMeasured, Model, Unfit};
use super::registry::checks;
use crate::quantity::Quantity;
use crate::rig::{Rig, Setup};

/// One row that is asked for.
#[derive(Debug, Clone, PartialEq)]
pub struct Asked {
    /// The check.
    pub check: &'static Check,
    /// What it is about.
    pub of: Of,
    /// Its id.
    pub id: String,
    /// What it means to be outside its limits.
    pub severity: Severity,
}

impl Asked {
    /// Whether the rig fails where it does not hold.
    pub fn fails(&self) -> bool {
        self.severity == Severity::Fails
    }

    /// Whether its margin is one of those of which the least is reported: it can fail, and compares weights.
    pub fn has_weight_margin(&self) -> bool {
        self.fails() && self.check.measure == Measure::Weight
    }

    /// An amount of what the check compares, from SI.
    pub fn amount(&self, si: f64) -> Amount {
        Amount::from_si(self.check.measure, si)
    }

    /// Whether a setup has it as things stand. A crossmember that the bunks do not reach here, but do elsewhere, has
    /// no row here.
    pub(super) fn is_there(&self, setup: &Setup) -> bool {
        (self.check.rows.is_there)(setup, self.of.element())
    }
}

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
            of_each.map(move |of| {
                let id = of.fill(check.id);
                let severity = severity(check, &id, setup);
                Asked { check, of, id, severity }
            })
        };
        let rows: Vec<Asked> = checks().flat_map(asked).filter(wanted).collect();
        let needs = Needs::of(rows.iter().map(|row| row.check));
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

    /// Shows every comparison of every row that the setup has, with the row's place, always in the same order.
    pub fn compare<'a>(&'a self, setup: &Setup, facts: &Facts, mut look: impl FnMut(usize, Comparison<'a>)) {
        for (i, row) in self.rows.iter().enumerate().filter(|(_, row)| row.is_there(setup)) {
            compare(row, setup, facts, |comparison| look(i, comparison));
        }
    }

    /// What each row comes to; a row that the setup does not have is not evaluated.
    pub fn folds(&self, setup: &Setup, facts: &Facts) -> Vec<Fold> {
        let thin = setup.policy.thin_margin.map_or(0.0, Quantity::si);
        let fold = |row: &Asked| {
            if row.is_there(setup) { Fold::of(row, setup, facts, thin) } else { Fold::default() }
        };
        self.rows.iter().map(fold).collect()
    }
}

/// What it means that a row is outside its limits: the longest pattern of the policy that matches it decides, else the
/// check's own rule.
fn severity(check: &Check, id: &str, setup: &Setup) -> Severity {
    let policy = &setup.policy;
    // Of two patterns the longer says more, the star not counted: an id outweighs every prefix of it.
    let says = |pattern: &String| (pattern.trim_end_matches('*').len(), !pattern.ends_with('*'));
    let longest =
        |patterns: &[String]| patterns.iter().filter(|pattern| matches(pattern, id)).map(says).max();
    let fails = match (longest(&policy.counts), longest(&policy.advises)) {
        (None, None) => match check.counts {
            Counts::Yes => true,
            Counts::No => false,
            Counts::FromThreeAxles => setup.trailer.axles.len() >= 3,
        },
        (must, may) => must > may,
    };
    if fails { Severity::Fails } else { Severity::Advises }
}

fn matches(pattern: &str, id: &str) -> bool {
    match pattern.strip_suffix('*') {
        Some(prefix) => id.starts_with(prefix),
        None => pattern == id,
    }
}
