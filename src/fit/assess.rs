//! Evaluates every row of a rig and finds the rig's verdict.

use super::asked::{Asked, Moved};
use super::brakes::BrakeLoads;
use super::bunks::BunkLoads;
use super::check::{Amount, Check, Of, Subject};
use super::comparison::{Bounds, Fold, UNEVEN};
use super::facts::Facts;
use super::frame::FrameLoads;
use super::launch::LaunchLoads;
use super::model::Unfit;
use super::ramp::RampLoads;
use super::reason::{Reason, lowered, reasons};
use super::road::CaseLoads;
use super::scope::Scope;
use super::verdict::{Outcome, RigVerdict, Verdict, rig_verdict};
use super::winch::WinchLoads;
use crate::quantity::{Quantity, Share};
use crate::rig::{Hitch, Key, Rig, Setup};

/// A rig's loads and what they mean.
#[derive(Debug, Clone, PartialEq)]
pub struct Assessment {
    /// The loads, case by case.
    pub cases: Vec<CaseLoads>,
    /// Every ramp crossed in every case.
    pub ramps: Vec<RampLoads>,
    /// What the bunks carry, case by case; empty where there are none.
    pub bunks: Vec<BunkLoads>,
    /// What the brakes do, case by case; empty where the file says nothing of them.
    pub brakes: Vec<BrakeLoads>,
    /// What the winch pulls, on every ramp in every case; empty where there is none.
    pub winch: Vec<WinchLoads>,
    /// What bends tongue and rails, case by case; empty where the file says nothing of either.
    pub frames: Vec<FrameLoads>,
    /// Launching, on every ramp with water in every case; empty where the file does not describe it.
    pub launches: Vec<LaunchLoads>,
    /// Every row, in the registry's order.
    pub rows: Vec<Row>,
    /// What decides the verdict besides rows.
    pub reasons: Vec<Reason>,
    /// The subjects of which nothing was evaluated.
    pub not_covered: Vec<Subject>,
    /// The rig's verdict.
    pub verdict: RigVerdict,
}

/// What is uncertain of a row: whether it may be past its limits somewhere in what is uncertain.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Doubt {
    /// It is past a limit that advises, somewhere.
    pub may_advise: bool,
    /// It is past a limit that fails, somewhere.
    pub may_fail: bool,
    /// It holds what fails, somewhere within what is assumed.
    pub may_hold: bool,
}

impl Doubt {
    /// What may be by either.
    #[must_use]
    pub fn or(self, other: Self) -> Self {
        Self {
            may_advise: self.may_advise || other.may_advise,
            may_fail: self.may_fail || other.may_fail,
            may_hold: self.may_hold || other.may_hold,
        }
    }
}

impl Assessment {
    /// The row of an id, such as `axle-1`.
    pub fn check(&self, id: &str) -> Option<&Row> {
        self.rows.iter().find(|row| row.id() == id)
    }

    /// Takes what is uncertain of each row into account and finds the rig's verdict again.
    ///
    /// This is the one place where doubt turns into a verdict; rows without an entry are not in doubt.
    pub fn doubt(&mut self, doubts: &[Doubt]) {
        for (row, doubt) in self.rows.iter_mut().zip(doubts) {
            let within = matches!(row.verdict, Verdict::Pass | Verdict::Thin | Verdict::Advise);
            row.verdict = match row.verdict {
                Verdict::Fail if doubt.may_hold => Verdict::Unsure,
                _ if within && row.counts && doubt.may_fail => Verdict::Unsure,
                _ if within && (doubt.may_advise || doubt.may_fail) => Verdict::Advise,
                stands => stands,
            };
        }
        self.verdict = verdict(&self.rows, &self.reasons);
    }
}

fn verdict(rows: &[Row], reasons: &[Reason]) -> RigVerdict {
    let outcome = |row: &Row| Outcome { verdict: row.verdict, can_fail: row.counts, core: row.core };
    rig_verdict(rows.iter().map(outcome), || lowered(reasons))
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
    /// Below this the rig fails: the lower limit or one beyond it.
    pub fails_below: Option<Amount>,
    /// Above this the rig fails: the upper limit or one beyond it.
    pub fails_above: Option<Amount>,
    /// The smaller distance inside the limits, negative outside.
    pub margin: Option<Amount>,
    /// The smaller distance inside the limits past which the rig fails; `None` where it never does.
    pub margin_to_fail: Option<Amount>,
    /// Load over rating; for a band 0 at its middle and 1 at its ends.
    pub used: Option<Share>,
    /// The same of the limits past which the rig fails; `None` where it never does.
    pub used_to_fail: Option<Share>,
    /// What became of it.
    pub verdict: Verdict,
    /// Whether the rig can fail by it.
    pub counts: bool,
    /// Whether the rig is incomplete without it.
    pub core: bool,
    /// How the policy moves it.
    pub moved: Option<Moved>,
    /// Where it stands over the ranges of what is assumed; `None` where none of them moves it, or none was tried.
    pub range: Option<Range>,
    /// How it stands if equalized axles share as unevenly as friction allows.
    pub uneven: Option<Uneven>,
    /// The governing case, where cases matter.
    pub case: Option<usize>,
    /// The governing ramp, where ramps matter.
    pub ramp: Option<usize>,
    /// The keys that are missing.
    pub missing: Vec<Key>,
}

/// Where a row stands over the ranges of what is assumed.
#[derive(Debug, Clone, PartialEq)]
pub struct Range {
    /// The least load.
    pub low: Amount,
    /// The greatest load.
    pub high: Amount,
    /// The least distance inside the limits past which the rig fails; `None` where it never does, or where it is unknown
    /// at some end.
    pub margin_to_fail: Option<Amount>,
    /// What to measure: the keys whose ranges move it.
    pub keys: Vec<Key>,
}

/// A load of one of several equalized axles that carries more than an even share.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Uneven {
    /// The load.
    pub load: Amount,
    /// The distance inside the upper limit.
    pub margin: Amount,
}

/// How a row stands against the limits that decide its verdict.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Deciding {
    /// The lower limit.
    pub min: Option<Amount>,
    /// The upper limit.
    pub max: Option<Amount>,
    /// The smaller distance inside them, negative outside.
    pub margin: Option<Amount>,
    /// Load over rating; for a band 0 at its middle and 1 at its ends.
    pub used: Option<Share>,
}

impl Row {
    /// How it stands against what decides: of two limits on a side the one past which the rig fails, where it fails or may fail, else
    /// the one past which it advises. The side that does not decide has the limit that it meets first.
    pub fn deciding(&self) -> Deciding {
        let fails = matches!(self.verdict, Verdict::Fail | Verdict::Unsure);
        if !fails || (self.fails_below.is_none() && self.fails_above.is_none()) {
            return self.advising();
        }
        // Of a band only the end that is nearer decides.
        let off = |limit: Option<Amount>| {
            limit.zip(self.load).map_or(f64::INFINITY, |(limit, load)| (limit.si() - load.si()).abs())
        };
        let (below, above) = (off(self.fails_below), off(self.fails_above));
        Deciding {
            min: self.fails_below.filter(|_| below <= above).or(self.min),
            max: self.fails_above.filter(|_| above <= below).or(self.max),
            margin: self.margin_to_fail,
            used: self.used_to_fail,
        }
    }

    /// How far inside the limits past which the rig fails it stands, or where it has none, inside those past which it advises.
    pub fn margin_to_decide(&self) -> Option<Amount> {
        self.margin_to_fail.or(self.margin)
    }

    /// How it stands against the limits that it meets first, which are those past which it advises where it has two on a side.
    pub fn advising(&self) -> Deciding {
        let Self { min, max, margin, used, .. } = *self;
        Deciding { min, max, margin, used }
    }

    /// Whether it is about the worst moments over a ramp.
    pub fn is_about_ramps(&self) -> bool {
        self.check.is_about_ramps()
    }

    /// Whether it is about bunks and what clears what on them.
    pub fn is_about_bunks(&self) -> bool {
        self.check.is_about_bunks()
    }

    /// Whether it belongs to a subject; none is every one.
    pub fn is_of(&self, subject: Option<Subject>) -> bool {
        subject.is_none_or(|subject| self.check.subject == subject)
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

/// Works out the loads of every case, crosses every ramp and evaluates every row, every figure taken at its word.
///
/// # Errors
/// [`Unfit`] when the trailer does not rest on its wheels on level ground.
pub(super) fn as_stated(rig: &Rig) -> Result<Assessment, Unfit> {
    of_rows(rig, &Scope::all(rig.proposed()))
}

/// The same without the rows for which a ramp is crossed or the boat launched, which take far longer; its verdict leaves
/// them out.
///
/// # Errors
/// [`Unfit`] when the trailer does not rest on its wheels on level ground.
pub fn assess_off_ramps(rig: &Rig) -> Result<Assessment, Unfit> {
    let setup = rig.proposed();
    of_rows(rig, &Scope::of(setup, |asked| !asked.check.crosses_ramps(setup)))
}

fn of_rows(rig: &Rig, scope: &Scope) -> Result<Assessment, Unfit> {
    let setup = &rig.proposed();
    let facts = scope.facts(rig, None)?;
    let rows = rows(scope, setup, &facts);
    let reasons = reasons(scope.rows(), setup, &facts);
    let verdict = verdict(&rows, &reasons);
    let not_covered =
        Subject::ALL.into_iter().filter(|subject| !is_covered(*subject, setup, &rows)).collect();
    let Facts { cases, ramps, bunks, brakes, winch, frames, launches } = facts;
    Ok(Assessment {
        cases,
        ramps,
        bunks,
        brakes,
        winch,
        frames,
        launches,
        rows,
        reasons,
        not_covered,
        verdict,
    })
}

/// Whether the file describes a subject, and something of it was evaluated.
fn is_covered(subject: Subject, setup: &Setup, rows: &[Row]) -> bool {
    let described = match subject {
        Subject::Road => true,
        Subject::Hitch => setup.hitch != Hitch::default(),
        Subject::Tow => setup.tow.is_described(),
        Subject::Ramp => !setup.ramps.is_empty(),
        Subject::Bunks => setup.trailer.bunks.are_described(),
        Subject::Brakes => setup.trailer.brakes.kind.is_some(),
        Subject::Winch => setup.trailer.winch.is_described(),
        Subject::TieDowns => !setup.trailer.tie_downs.is_empty(),
        Subject::Launch => setup.launches(),
    };
    let evaluated = |row: &Row| row.check.subject == subject && row.verdict != Verdict::NotChecked;
    described && rows.iter().any(evaluated)
}

/// The rows that a setup has of those asked for.
fn rows(scope: &Scope, setup: &Setup, facts: &Facts) -> Vec<Row> {
    let folds = scope.rows().iter().zip(scope.folds(setup, facts));
    let there = folds.filter(|(asked, _)| asked.is_there(setup));
    there.map(|(asked, fold)| row(asked, setup, facts, &fold)).collect()
}

fn row(asked: &Asked, setup: &Setup, facts: &Facts, fold: &Fold) -> Row {
    let Asked { check, of, .. } = asked;
    let amount = |si: f64| Amount::from_si(check.measure, si);
    let governing = fold.governing();
    let ramp = governing.and_then(|worst| worst.ramp);
    let Bounds { min, max, fails_below, fails_above } = Bounds::of(asked, setup, facts, fold);
    // Where nothing holds there is no load to show.
    let shown = governing.filter(|worst| worst.standing.value.is_some());
    let load = shown.and_then(|worst| worst.standing.value);
    let uneven = load.zip(max.map(Amount::si));
    let uneven = uneven.filter(|_| check.shares_evenly(setup)).map(|(load, max)| {
        let load = load * UNEVEN;
        Uneven { load: amount(load), margin: amount(max - load) }
    });
    Row {
        check,
        of: of.clone(),
        load: load.map(amount),
        min,
        max,
        fails_below,
        fails_above,
        margin: shown.and_then(|worst| worst.inside.margin).map(amount),
        margin_to_fail: shown.and_then(|worst| worst.inside.to_fail).map(amount),
        used: shown.and_then(|worst| worst.inside.used).map(Share::from_si),
        used_to_fail: shown.and_then(|worst| worst.inside.used_to_fail).map(Share::from_si),
        verdict: fold.verdict(),
        counts: asked.fails() && !fold.is_free(),
        core: asked.is_core(setup),
        moved: asked.moved,
        range: None,
        uneven,
        case: governing.and_then(|worst| worst.case),
        ramp,
        missing: fold.missing().0.clone(),
    }
}

/// Every row about ramps, of these crossings only.
pub fn ramp_rows(setup: &Setup, crossings: &[RampLoads]) -> Vec<Row> {
    let scope = Scope::of(setup, |asked| asked.check.is_about_ramps());
    let facts = Facts { ramps: crossings.to_vec(), ..Facts::default() };
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
