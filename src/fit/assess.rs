//! Evaluates every row of a rig and finds the rig's verdict.

use super::asked::Asked;
use super::bunks::BunkLoads;
use super::check::{Amount, At, Check, Of};
use super::comparison::Fold;
use super::facts::Facts;
use super::model::Unfit;
use super::ramp::RampLoads;
use super::road::CaseLoads;
use super::scope::Scope;
use super::verdict::{RigVerdict, Verdict, rig_verdict};
use crate::quantity::{Quantity, Share};
use crate::rig::{Key, Rig, Setup};

/// A rig's loads and what they mean.
#[derive(Debug, Clone, PartialEq)]
pub struct Assessment {
    /// The loads, case by case.
    pub cases: Vec<CaseLoads>,
    /// Every ramp crossed in every case.
    pub ramps: Vec<RampLoads>,
    /// What the bunks carry, case by case; empty where there are none.
    pub bunks: Vec<BunkLoads>,
    /// Every row, in the registry's order.
    pub rows: Vec<Row>,
    /// The rig's verdict.
    pub verdict: RigVerdict,
}

impl Assessment {
    /// The row of an id, such as `axle-1`.
    pub fn check(&self, id: &str) -> Option<&Row> {
        self.rows.iter().find(|row| row.id() == id)
    }

    /// Makes unsure every row that is in doubt, passes and must hold, and finds the rig's verdict again.
    ///
    /// This is the one place where doubt turns into a verdict; rows without an entry are not in doubt.
    pub fn doubt(&mut self, in_doubt: &[bool]) {
        for (row, in_doubt) in self.rows.iter_mut().zip(in_doubt) {
            if *in_doubt && row.counts && matches!(row.verdict, Verdict::Pass | Verdict::Thin) {
                row.verdict = Verdict::Unsure;
            }
        }
        self.verdict = rig_verdict(self.rows.iter().map(|row| (row.check, row.verdict)));
    }
}

/// One row: how a check stands for what it is about.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// The check.
    pub check: &'static Check,
    /// What it is about.
    pub of: Of,
    /// The load in the governing case.
    pub load: Option<Amount>,
    /// The lower limit.
    pub min: Option<Amount>,
    /// The upper limit.
    pub max: Option<Amount>,
    /// The smaller distance inside the limits, negative outside.
    pub margin: Option<Amount>,
    /// Load over rating; for a band 0 at its middle and 1 at its ends.
    pub used: Option<Share>,
    /// What became of it.
    pub verdict: Verdict,
    /// Whether it must hold.
    pub counts: bool,
    /// The governing case, where cases matter.
    pub case: Option<usize>,
    /// The governing ramp, where ramps matter.
    pub ramp: Option<usize>,
    /// The keys that are missing.
    pub missing: Vec<Key>,
}

impl Row {
    /// Whether it is about the worst moments over a ramp.
    pub fn is_about_ramps(&self) -> bool {
        self.check.is_about_ramps()
    }

    /// Whether it is about bunks and what clears what on them.
    pub fn is_about_bunks(&self) -> bool {
        self.check.is_about_bunks()
    }

    /// Its id, with the axle's number.
    pub fn id(&self) -> String {
        self.of.fill(self.check.id)
    }

    /// Its short name, with the axle's number.
    pub fn name(&self) -> String {
        self.of.fill(self.check.name)
    }

    /// What it compares, with the axle's number.
    pub fn what(&self) -> String {
        self.of.fill(self.check.what)
    }
}

/// Works out the loads of every case, crosses every ramp and evaluates every row.
///
/// # Errors
/// [`Unfit`] when the trailer does not rest on its wheels on level ground.
pub fn assess(rig: &Rig) -> Result<Assessment, Unfit> {
    let setup = &rig.proposed();
    let scope = Scope::all(setup);
    let facts = scope.facts(rig, None)?;
    let rows = rows(&scope, setup, &facts);
    let verdict = rig_verdict(rows.iter().map(|row| (row.check, row.verdict)));
    let Facts { cases, ramps, bunks } = facts;
    Ok(Assessment { cases, ramps, bunks, rows, verdict })
}

/// The rows that a setup has of those asked for.
fn rows(scope: &Scope, setup: &Setup, facts: &Facts) -> Vec<Row> {
    let folds = scope.rows().iter().zip(scope.folds(setup, facts));
    folds.filter(|(asked, _)| asked.is_there(setup)).map(|(asked, fold)| row(asked, setup, &fold)).collect()
}

fn row(asked: &Asked, setup: &Setup, fold: &Fold) -> Row {
    let Asked { check, of, .. } = asked;
    let amount = |si: f64| Amount::from_si(check.measure, si);
    let governing = fold.governing();
    let ramp = governing.and_then(|worst| worst.ramp);
    // As far as known, also where the row cannot be evaluated.
    let limits = (check.limits)(setup, At { of: of.element(), ramp });
    let known = |limit: Option<super::Known<f64>>| limit.and_then(Result::ok).map(amount);
    // Where nothing holds there is no load to show.
    let standing = governing.map(|worst| worst.standing).filter(|standing| standing.value.is_some());
    Row {
        check,
        of: of.clone(),
        load: standing.and_then(|standing| standing.value).map(amount),
        min: known(limits.min),
        max: known(limits.max),
        margin: standing.map(|standing| amount(standing.margin)),
        used: standing.and_then(|standing| standing.used).map(Share::from_si),
        verdict: fold.verdict(),
        counts: asked.fails(),
        case: governing.and_then(|worst| worst.case),
        ramp,
        missing: fold.missing().0.clone(),
    }
}

/// Every row about ramps, of these crossings only.
pub fn ramp_rows(setup: &Setup, crossings: &[RampLoads]) -> Vec<Row> {
    let scope = Scope::of(setup, |asked| asked.check.is_about_ramps());
    let facts = Facts { cases: Vec::new(), ramps: crossings.to_vec(), bunks: Vec::new() };
    rows(&scope, setup, &facts)
}

/// Of these crossings the one whose ratings stand worst: first by verdict, then by the share of a rating that is used; the
/// first of equals. Friction is no rating.
pub fn governing_crossing<'a>(
    setup: &Setup,
    crossings: impl Iterator<Item = &'a RampLoads>,
) -> Option<&'a RampLoads> {
    let stands = crossings.map(|crossing| (crossing, standing(setup, crossing)));
    let worse = |one: (u8, f64), other: (u8, f64)| other.0 > one.0 || (other.0 == one.0 && other.1 > one.1);
    let worst = stands.reduce(|worst, next| if worse(worst.1, next.1) { next } else { worst });
    worst.map(|(crossing, _)| crossing)
}

/// How the ratings stand on one crossing, the worst of them: how bad its verdict is, and how much is used.
fn standing(setup: &Setup, crossing: &RampLoads) -> (u8, f64) {
    let rows = ramp_rows(setup, std::slice::from_ref(crossing));
    let ratings = rows.iter().filter(|row| row.check.is_rating());
    let of = |row: &Row| {
        let bad = match row.verdict {
            Verdict::Fail => 4,
            Verdict::Unsure => 3,
            Verdict::Advise => 2,
            Verdict::Thin => 1,
            Verdict::Pass | Verdict::NotChecked => 0,
        };
        let lifted = row.load.is_some_and(|load| load.si() < 0.0);
        // A load below zero is worse than any share of a rating.
        (bad, if lifted { f64::INFINITY } else { row.used.map_or(0.0, Quantity::si) })
    };
    ratings.map(of).fold((0, 0.0), |worst, next| if next > worst { next } else { worst })
}
