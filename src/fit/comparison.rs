//! How loads stand against limits: the one answer that rows, margins, governing cases, corners, windows, best points
//! and samples are folds over.

use super::asked::{Asked, Severity};
use super::check::{At, Check, Judge, Limits, Of, Reading};
use super::facts::Facts;
use super::known::{Known, Missing, both};
use super::verdict::Verdict;
use crate::rig::Setup;

/// Which end of a row's limits is meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// The load may not be less.
    Min,
    /// The load may not be more.
    Max,
}

/// A load against one of its limits, in SI: newtons, metres, pascals, or a plain fraction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Standing {
    /// The load, or `None` where what should hold is unloaded.
    pub value: Option<f64>,
    /// The limit.
    pub limit: f64,
    /// How far the load lies inside the limit: negative outside, minus infinity where nothing holds.
    pub margin: f64,
    /// Load over rating; for a band the place inside it, 0 at its middle and 1 at its ends.
    pub used: Option<f64>,
    /// The rating, or the width of the band, of which a thin margin is a share; 0 where neither makes sense.
    pub whole: f64,
}

impl Standing {
    /// Whether the load is past the limit.
    pub fn is_outside(&self) -> bool {
        self.margin < 0.0
    }

    /// Whether less than this share of the rating or the band is left.
    fn is_thin(&self, share: f64) -> bool {
        self.margin < share * self.whole
    }
}

/// One load against one limit: a row's, in one case, over one ramp.
///
/// Where it could not be evaluated `standing` names the keys that it lacks; no key where the trailer does not rest on
/// its wheels there. What was not evaluated holds nowhere and fails nowhere.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison<'a> {
    /// The check.
    pub check: &'static Check,
    /// What the row is about.
    pub of: &'a Of,
    /// The case, where cases matter.
    pub case: Option<usize>,
    /// The ramp, where ramps matter.
    pub ramp: Option<usize>,
    /// Which end of the limits.
    pub side: Side,
    /// What it means to be past it.
    pub severity: Severity,
    /// How the load stands.
    pub standing: Known<Standing>,
}

impl Comparison<'_> {
    /// Whether it says nothing of the row while it holds, as a tongue that is not lifted: margin and use are the
    /// rating's then.
    pub fn is_silent(&self) -> bool {
        let quiet = self.check.judge == Judge::SignedRating && self.side == Side::Min;
        quiet && self.standing.as_ref().is_ok_and(|standing| !standing.is_outside())
    }

    /// Which limit on which load it is.
    pub fn limit(&self) -> Limit {
        let Self { check, of, side, case, ramp, severity, .. } = self;
        Limit { check, of: (*of).clone(), side: *side, case: *case, ramp: *ramp, severity: *severity }
    }
}

/// Which limit on which load: a comparison without its figures.
#[derive(Debug, Clone, PartialEq)]
pub struct Limit {
    /// The check.
    pub check: &'static Check,
    /// What it is about.
    pub of: Of,
    /// Which end.
    pub side: Side,
    /// The case, where cases matter.
    pub case: Option<usize>,
    /// The ramp, where ramps matter.
    pub ramp: Option<usize>,
    /// What it means to be past it.
    pub severity: Severity,
}

impl Limit {
    /// The id of the check's row.
    pub fn id(&self) -> String {
        self.of.fill(self.check.id)
    }

    /// Whether the rig fails past it.
    pub fn fails(&self) -> bool {
        self.severity == Severity::Fails
    }

    /// Whether both are limits of one row, on the same side.
    pub fn is_like(&self, other: &Self) -> bool {
        self.check == other.check && self.of == other.of && self.side == other.side
    }
}

/// Sizes of one part agree when they differ by less than this: a size in inches restated in
/// millimetres is rounded by up to 0.05 mm.
const SAME_SIZE: f64 = 5e-5;

/// A limit that a tape gives is met by what misses it by rounding alone: a nanometre, in SI.
const HAIR: f64 = 1e-9;

/// A margin that is not outside by less than a tolerance.
fn beyond(tolerance: f64, margin: f64) -> f64 {
    if margin.abs() < tolerance { 0.0 } else { margin }
}

/// A load against one side of its limits; `other` is the limit on the other side, where there is one.
fn stand(judge: Judge, side: Side, value: Option<f64>, limit: f64, other: Option<f64>) -> Standing {
    let plain = match (side, value) {
        (_, None) => f64::NEG_INFINITY,
        (Side::Min, Some(value)) => value - limit,
        (Side::Max, Some(value)) => limit - value,
    };
    // The rating is the upper limit, on whichever side the load stands.
    let rating = || if side == Side::Max { Some(limit) } else { other };
    let (margin, used, whole) = match judge {
        Judge::Rating | Judge::SignedRating | Judge::FlooredRating => {
            let used = value.zip(rating()).map(|(value, rating)| value / rating);
            (plain, used, if side == Side::Max { limit } else { 0.0 })
        }
        Judge::Band => {
            let ends = other.map(|other| if side == Side::Min { (limit, other) } else { (other, limit) });
            let used = value.zip(ends).map(|(value, (min, max))| {
                let (middle, half) = (f64::midpoint(min, max), (max - min) / 2.0);
                (value - middle).abs() / half
            });
            (plain, used, ends.map_or(0.0, |(min, max)| max - min))
        }
        Judge::Floor | Judge::Ceiling => (beyond(HAIR, plain), None, 0.0),
        Judge::Size => (beyond(SAME_SIZE, plain), None, 0.0),
    };
    Standing { value, limit, margin, used, whole }
}

/// Shows every comparison of a row, always in the same order: by case and side, or by crossing.
pub(super) fn compare<'a>(
    row: &'a Asked,
    setup: &Setup,
    facts: &Facts,
    mut look: impl FnMut(Comparison<'a>),
) {
    let check = row.check;
    let of = row.of.element();
    let limits_at = |ramp| (check.limits)(setup, At { of, ramp });
    // What is asked of a ramp as such differs from ramp to ramp; nothing else does.
    let mut limits: Option<(Option<usize>, Limits)> = None;
    for (case, ramp, view) in facts.views(setup, check.load.from) {
        let limits = match &mut limits {
            Some((of_ramp, limits)) if *of_ramp == ramp => limits,
            other => &mut other.insert((ramp, limits_at(ramp))).1,
        };
        let whole = view.is_whole(check.load.from);
        let mut against = |value: Known<Option<f64>>, whole: &Known<()>| {
            for (side, limit, other) in
                [(Side::Min, &limits.min, &limits.max), (Side::Max, &limits.max, &limits.min)]
            {
                let Some(limit) = limit else { continue };
                let standing = match (&value, limit) {
                    (Ok(value), Ok(limit)) => {
                        let other = other.as_ref().and_then(|other| other.as_ref().ok()).copied();
                        let standing = stand(check.judge, side, *value, *limit, other);
                        // What fails fails, however little of a ramp was crossed.
                        if standing.is_outside() { Ok(standing) } else { whole.clone().map(|()| standing) }
                    }
                    (value, limit) => Err(lacking(value.as_ref(), limit.as_ref())),
                };
                look(Comparison { check, of: &row.of, case, ramp, side, severity: row.severity, standing });
            }
        };
        match (check.load.read)(&view, of) {
            Ok(Reading::One(value)) => against(Ok(Some(value)), &whole),
            Ok(Reading::UpTo(value, missing)) => {
                let known = if missing.0.is_empty() { Ok(()) } else { Err(missing) };
                against(Ok(Some(value)), &both(known, whole).map(|_| ()));
            }
            Ok(Reading::Sides(values)) => {
                values.into_iter().for_each(|value| against(Ok(Some(value)), &whole));
            }
            Ok(Reading::HoldsNothing) => against(Ok(None), &whole),
            Err(missing) => against(Err(missing), &whole),
        }
    }
}

/// What is missing of a load and its limit, of which one is unknown at least.
fn lacking<A, B>(value: Result<A, &Missing>, limit: Result<B, &Missing>) -> Missing {
    both(value.map_err(Clone::clone), limit.map_err(Clone::clone)).err().unwrap_or_default()
}

/// What all comparisons of a row come to.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Fold {
    /// The comparison with the least margin, with its case and ramp; the first of equals.
    worst: Option<Worst>,
    /// Less than the policy's share of some rating or band is left.
    thin: bool,
    /// The keys without which it could not be evaluated.
    missing: Missing,
    /// A comparison could not be evaluated, for want of keys or of a trailer that rests.
    unevaluated: bool,
}

/// The comparison that governs a row.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Worst {
    /// How the load stands.
    pub standing: Standing,
    /// The case, where cases matter.
    pub case: Option<usize>,
    /// The ramp, where ramps matter.
    pub ramp: Option<usize>,
    /// What it means to be past the limit.
    pub severity: Severity,
}

impl Fold {
    /// The fold of a row; `thin` is the policy's share of a rating or band.
    pub(super) fn of(row: &Asked, setup: &Setup, facts: &Facts, thin: f64) -> Self {
        let mut fold = Self::default();
        compare(row, setup, facts, |comparison| fold.add(&comparison, thin));
        fold
    }

    fn add(&mut self, comparison: &Comparison<'_>, thin: f64) {
        let standing = match &comparison.standing {
            Ok(standing) => *standing,
            Err(missing) => {
                self.unevaluated = true;
                self.missing = std::mem::take(&mut self.missing).and(missing.clone());
                return;
            }
        };
        if comparison.is_silent() {
            return;
        }
        self.thin |= standing.is_thin(thin);
        if self.worst.is_none_or(|worst| standing.margin < worst.standing.margin) {
            let Comparison { case, ramp, severity, .. } = *comparison;
            self.worst = Some(Worst { standing, case, ramp, severity });
        }
    }

    /// The comparison that governs, if the row could be evaluated. One that is outside governs whatever is missing
    /// elsewhere: a missing figure hides no failure. One that holds proves nothing about what was not evaluated.
    pub fn governing(&self) -> Option<&Worst> {
        self.worst.as_ref().filter(|worst| worst.standing.is_outside() || !self.unevaluated)
    }

    /// The keys that are missing.
    pub fn missing(&self) -> &Missing {
        &self.missing
    }

    /// The row's margin, if it could be evaluated.
    pub fn margin(&self) -> Option<f64> {
        self.governing().map(|worst| worst.standing.margin)
    }

    /// Load over rating, or the place inside the band, if the row could be evaluated and has one.
    pub fn used(&self) -> Option<f64> {
        self.governing().and_then(|worst| worst.standing.used)
    }

    /// What became of the row.
    pub fn verdict(&self) -> Verdict {
        match self.governing() {
            None => Verdict::NotChecked,
            Some(worst) => match (worst.standing.is_outside(), worst.severity) {
                (true, Severity::Fails) => Verdict::Fail,
                (true, Severity::Advises) => Verdict::Advise,
                (false, _) if self.thin => Verdict::Thin,
                (false, _) => Verdict::Pass,
            },
        }
    }
}
