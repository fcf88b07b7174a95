//! Checks of many rigs that differ only in the values of quantities: chosen once, then made at each.
//!
//! [`super::assess`] makes every check of one rig and keeps all there is to say about it. A [`Plan`] knows which
//! checks are asked for, computes only the loads that they need, and names nothing while it does.

use super::assess::{Governing, Loads, RigVerdict, counts, is_made_of, possible_subjects_of, verdict};
use super::check::{Amount, Check, Measure, Of, Verdict};
use super::loads::{AsMeasured, CaseLoads, Model, Unfit};
use super::needs::Needs;
use super::registry::CHECKS;
use crate::rig::{Rig, Setup};

/// One check that a plan makes.
#[derive(Debug, Clone, PartialEq)]
pub struct Planned {
    /// The check.
    pub check: &'static Check,
    /// Its id, as a [`super::Row`] would give it.
    pub id: String,
    /// Whether it must hold.
    pub counts: bool,
    of: Of,
}

impl Planned {
    /// Every check of a rig, in the order of reports, those included that it has only once something has moved.
    pub fn all(setup: &Setup) -> Vec<Self> {
        let planned = |check: &'static Check| {
            possible_subjects_of(check, setup).into_iter().map(move |of| {
                let counts = counts(check, &of, setup);
                Self { check, id: of.fill(check.id), counts, of }
            })
        };
        CHECKS.iter().flat_map(planned).collect()
    }

    /// Whether its margin is one of those of which the least is told: it counts, and compares weights.
    pub fn has_weight_margin(&self) -> bool {
        self.counts && self.check.measure == Measure::Weight
    }
}

/// Which checks are made of a rig, and in which cases.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    checks: Vec<Planned>,
    needs: Needs,
}

/// A check made by a plan: a [`super::Row`] without its names and limits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Made {
    /// The load in the governing case, in SI.
    pub load: Option<f64>,
    /// The smaller distance inside the limits, negative outside, in SI.
    pub margin: Option<f64>,
    /// Load over rating; for a band 0 at its middle and 1 at its ends.
    pub used: Option<f64>,
    /// What became of it.
    pub verdict: Verdict,
    /// The governing one of [`Outlook::cases`], where cases matter.
    pub case: Option<usize>,
}

/// What a plan finds of one rig.
#[derive(Debug, Clone, PartialEq)]
pub struct Outlook {
    /// The loads of the plan's cases.
    pub cases: Vec<CaseLoads>,
    /// Its checks, in its order.
    pub made: Vec<Made>,
    /// The least margin in weight of the checks that count and compare weights, and which of the plan's checks it
    /// belongs to; the first of equals.
    pub least_margin: Option<(usize, f64)>,
    /// What they make of the rig: its verdict, where every check that counts or is of the core is planned.
    pub verdict: RigVerdict,
}

impl Plan {
    /// The checks that are needed, over every case or one alone.
    pub fn new(setup: &Setup, case: Option<usize>, needed: impl Fn(&Planned) -> bool) -> Self {
        let checks: Vec<Planned> = Planned::all(setup).into_iter().filter(needed).collect();
        let needs = Needs { case, ..Needs::of(checks.iter().map(|planned| planned.check)) };
        Self { checks, needs }
    }

    /// Its checks, in the order of reports.
    pub fn checks(&self) -> &[Planned] {
        &self.checks
    }

    /// Whether it crosses ramps, which takes a thousand times as long as the level does.
    pub fn crosses_ramps(&self) -> bool {
        self.needs.ramps.is_some()
    }

    /// Makes its checks of a rig with the keys of the plan's own; `measured` spares computing anew what follows
    /// from a measured state that all rigs share.
    ///
    /// # Errors
    /// [`Unfit`] when the trailer does not rest on its wheels on level ground.
    pub fn assess(&self, rig: &Rig, measured: Option<&AsMeasured>) -> Result<Outlook, Unfit> {
        let model = measured.map_or_else(|| Model::new(rig), |measured| Model::proposing(rig, measured));
        let setup = &rig.proposed;
        let worked = model.work(self.needs)?;
        let loads = worked.loads(setup);
        let made: Vec<Made> = self.checks.iter().map(|planned| planned.made(loads)).collect();
        let verdicts = self.checks.iter().zip(&made).map(|(planned, made)| (planned.check, made.verdict));
        let verdict = verdict(verdicts);
        Ok(Outlook { cases: worked.cases, least_margin: self.least_margin(&made), made, verdict })
    }

    fn least_margin(&self, made: &[Made]) -> Option<(usize, f64)> {
        let made = self.checks.iter().zip(made).enumerate();
        let margins = made
            .filter(|(_, (planned, _))| planned.has_weight_margin())
            .filter_map(|(i, (_, made))| Some((i, made.margin?)));
        margins.reduce(|least, next| if next.1 < least.1 { next } else { least })
    }
}

impl Planned {
    fn made(&self, loads: Loads<'_>) -> Made {
        let unmade = Made { load: None, margin: None, used: None, verdict: Verdict::NotChecked, case: None };
        // A crossmember that the bunks do not reach here, but do elsewhere, has no row here.
        if !is_made_of(self.check, &self.of, loads.setup) {
            return unmade;
        }
        let Ok(governing) = loads.governing(self.check, self.of.element()) else { return unmade };
        let verdict = governing.verdict(self.counts);
        let Governing { case, judged, .. } = governing;
        let Some((load, judged)) = judged else { return Made { verdict, case, ..unmade } };
        Made { load: Some(load), margin: Some(judged.margin), used: judged.used, verdict, case }
    }

    /// An amount of what the check compares, from SI.
    pub fn amount(&self, si: f64) -> Amount {
        Amount::from_si(self.check.measure, si)
    }
}
