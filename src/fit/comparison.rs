//! How loads stand against limits: the one answer that rows, margins, governing cases, corners, windows, best points
//! and samples are folds over.

use super::asked::{Asked, Severity};
use super::check::{Amount, At, Bound, Check, Judge, Limits, Of, Reading};
use super::facts::{Facts, View};
use super::known::{Known, Missing, both};
use super::verdict::Verdict;
use crate::rig::{Key, Setup};
use arrayvec::ArrayVec;

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
        self.margin < share * self.whole * (1.0 - ROUNDING)
    }
}

/// A margin that is exactly what is asked for is not thin, whatever rounding makes of it.
const ROUNDING: f64 = 1e-9;

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
    /// Whether it lies beyond another limit on the same side, past which the owner is advised.
    pub beyond: bool,
    /// How the load stands.
    pub standing: Known<Standing>,
    /// How the load stands inside all limits of the row.
    pub inside: Inside,
}

/// How one load stands inside all limits of its row, as far as they are known, in SI.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Inside {
    /// The smaller distance inside the limits: of two on a side, the one that advises.
    pub margin: Option<f64>,
    /// The smaller distance inside those past which the rig fails; `None` where it never does.
    pub to_fail: Option<f64>,
    /// Load over rating; for a band the place inside it.
    pub used: Option<f64>,
    /// The same by the limits past which the rig fails; `None` where it never does.
    pub used_to_fail: Option<f64>,
}

impl Comparison<'_> {
    /// Whether it says nothing of the row while it holds, as a tongue that is not lifted: margin and use are the
    /// rating's then.
    pub fn is_silent(&self) -> bool {
        self.standing.as_ref().is_ok_and(|standing| is_silent(self.check.judge, self.side, standing))
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

fn is_silent(judge: Judge, side: Side, standing: &Standing) -> bool {
    judge == Judge::SignedRating && side == Side::Min && !standing.is_outside()
}

/// Sizes of one part agree when they differ by less than this: a size in inches restated in
/// millimetres is rounded by up to 0.05 mm.
const SAME_SIZE: f64 = 5e-5;

/// A limit is met by what misses it by rounding alone: a nanometre or a nanonewton, in SI.
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
    let plain = beyond(HAIR, plain);
    // The rating is the upper limit, on whichever side the load stands.
    let rating = || if side == Side::Max { Some(limit) } else { other };
    let (margin, used, whole) = match judge {
        Judge::Rating | Judge::SignedRating | Judge::FlooredRating => {
            let used = value.zip(rating()).map(|(value, rating)| value / rating);
            // Nothing is a share of no rating, as of straps of which none leads that way.
            let used = used.filter(|used| used.is_finite());
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
        Judge::Floor | Judge::Ceiling | Judge::Between => (plain, None, 0.0),
        Judge::Size => (beyond(SAME_SIZE, plain), None, 0.0),
    };
    Standing { value, limit, margin, used, whole }
}

/// One limit that the loads of a row face.
#[derive(Debug, Clone, Copy)]
struct Face<'l> {
    side: Side,
    severity: Severity,
    beyond: bool,
    limit: &'l Known<f64>,
    /// The limit on the other side, where it is known.
    other: Option<f64>,
}

/// What is known of each limit that the loads of a row face: up to two on each side.
type PerFace<T> = ArrayVec<T, 4>;

fn faces<'l>(row: &Asked, limits: &'l Limits) -> PerFace<Face<'l>> {
    let known = |bound: &Option<Bound>| bound.as_ref().and_then(|bound| bound.at.as_ref().ok()).copied();
    let mut faces = PerFace::new();
    let sides = [(Side::Min, &limits.min, known(&limits.max)), (Side::Max, &limits.max, known(&limits.min))];
    for (side, bound, other) in sides {
        let Some(bound) = bound else { continue };
        for (i, (severity, limit)) in row.limits_of(bound).into_iter().flatten().enumerate() {
            faces.push(Face { side, severity, beyond: i > 0, limit, other });
        }
    }
    faces
}

/// One load of a row with the limits that it faces. It is small, and nothing in it is allocated: there is one for every
/// load of every point of a sweep.
struct Stood<'f> {
    judge: Judge,
    case: Option<usize>,
    ramp: Option<usize>,
    value: &'f Known<Option<f64>>,
    /// Whether the whole of what the load is taken over is known.
    whole: &'f Known<()>,
    faces: &'f [Face<'f>],
}

impl<'f> Stood<'f> {
    /// Each limit with how the load stands against it, if that is known; where not the whole of what the load is taken
    /// over is, only where it is outside.
    fn each(&self) -> impl Iterator<Item = (&Face<'f>, Option<Standing>)> {
        self.faces.iter().map(|face| {
            let known = self.value.as_ref().ok().zip(face.limit.as_ref().ok());
            let standing =
                known.map(|(value, limit)| stand(self.judge, face.side, *value, *limit, face.other));
            (face, standing.filter(|standing| self.whole.is_ok() || standing.is_outside()))
        })
    }

    /// The keys that are missing to know how it stands against a limit.
    fn lacks(&self, face: &Face<'f>) -> impl Iterator<Item = Key> {
        let of_the_whole = || self.whole.as_ref().err().filter(|_| self.value.is_ok() && face.limit.is_ok());
        let missing = [self.value.as_ref().err(), face.limit.as_ref().err(), of_the_whole()];
        missing.into_iter().flatten().flat_map(|missing| &missing.0).copied()
    }

    /// How it stands inside all limits.
    fn inside(&self) -> Inside {
        let mut inside = Inside::default();
        let less =
            |known: Option<f64>, margin: f64| Some(known.map_or(margin, |known: f64| known.min(margin)));
        for (face, standing) in self.each() {
            let Some(standing) = standing else { continue };
            let fails = face.severity == Severity::Fails;
            if !face.beyond {
                inside.used = standing.used.or(inside.used);
            }
            if fails {
                inside.used_to_fail = standing.used.or(inside.used_to_fail);
            }
            if is_silent(self.judge, face.side, &standing) {
                continue;
            }
            if !face.beyond {
                inside.margin = less(inside.margin, standing.margin);
            }
            if fails {
                inside.to_fail = less(inside.to_fail, standing.margin);
            }
        }
        if self.faces.iter().any(|face| face.beyond) {
            inside.used_to_fail = self.used_to_fail();
        }
        inside
    }

    /// How much is used of the limits past which the rig fails, of which one at least lies beyond another.
    fn used_to_fail(&self) -> Option<f64> {
        let fails_at = |side: Side| {
            let fails = self.faces.iter().find(|face| face.side == side && face.severity == Severity::Fails);
            fails.and_then(|face| face.limit.as_ref().ok()).copied()
        };
        let value = self.value.as_ref().ok().copied().flatten();
        let (min, max) = (fails_at(Side::Min), fails_at(Side::Max));
        let used = |side, limit: Option<f64>, other| stand(self.judge, side, value, limit?, other).used;
        used(Side::Max, max, min).or_else(|| used(Side::Min, min, max))
    }
}

/// What the loads of a row come upon, in order.
enum Met<'f> {
    /// Its limits.
    Stood(Stood<'f>),
    /// None: nothing is asked of a load.
    Free,
}

/// Shows how every load of a row stands, always in the same order: by case, or by crossing.
fn stand_all(row: &Asked, setup: &Setup, facts: &Facts, mut look: impl FnMut(Met<'_>)) {
    let check = row.check;
    let of = row.of.element();
    let mut views = facts.views(setup, check.load.from).peekable();
    if let Some(limits) = check.load.limits {
        for (case, ramp, view) in views {
            let limits = limits(&view, of);
            stand_one(row, (case, ramp), &view, &faces(row, &limits), &mut look);
        }
        return;
    }
    // What is asked of a ramp as such differs from ramp to ramp; nothing else does.
    while let Some((_, of_ramp, _)) = views.peek() {
        let of_ramp = *of_ramp;
        let limits = (check.limits)(setup, At { of, ramp: of_ramp });
        let faces = faces(row, &limits);
        while let Some((case, ramp, view)) = views.next_if(|(_, ramp, _)| *ramp == of_ramp) {
            stand_one(row, (case, ramp), &view, &faces, &mut look);
        }
    }
}

/// Shows how the loads of a row stand in one case, or on one crossing.
fn stand_one(
    row: &Asked,
    (case, ramp): (Option<usize>, Option<usize>),
    view: &View<'_>,
    faces: &[Face<'_>],
    look: &mut impl FnMut(Met<'_>),
) {
    let check = row.check;
    let whole = view.is_whole(check.load.from);
    let mut against = |value: &Known<Option<f64>>, whole: &Known<()>| {
        look(Met::Stood(Stood { judge: check.judge, case, ramp, value, whole, faces }));
    };
    match (check.load.read)(view, row.of.element()) {
        Ok(Reading::One(value)) => against(&Ok(Some(value)), &whole),
        Ok(Reading::UpTo(value, missing)) => {
            let known = if missing.0.is_empty() { Ok(()) } else { Err(missing) };
            against(&Ok(Some(value)), &both(known, whole).map(|_| ()));
        }
        Ok(Reading::Sides(values)) => {
            for value in values {
                against(&Ok(Some(value)), &whole);
            }
        }
        Ok(Reading::HoldsNothing) => against(&Ok(None), &whole),
        Ok(Reading::Free) => look(Met::Free),
        Err(missing) => against(&Err(missing), &whole),
    }
}

/// The limits of a row where its governing load stands, as far as they are known.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Bounds {
    /// The lower limit.
    pub min: Option<Amount>,
    /// The upper limit.
    pub max: Option<Amount>,
    /// Below this the rig fails: the lower limit or one beyond it.
    pub fails_below: Option<Amount>,
    /// Above this the rig fails: the upper limit or one beyond it.
    pub fails_above: Option<Amount>,
}

impl Bounds {
    /// Those of a row.
    pub(super) fn of(asked: &Asked, setup: &Setup, facts: &Facts, fold: &Fold) -> Self {
        // As far as known, also where the row cannot be evaluated.
        let limits = limits_at(asked, setup, facts, fold.governing());
        let limits = if fold.is_free() { Limits::default() } else { limits };
        let known = |limit: Option<&Known<f64>>| {
            let limit = limit.and_then(|limit| limit.as_ref().ok()).copied();
            limit.map(|si| Amount::from_si(asked.check.measure, si))
        };
        let first = |bound: &Option<Bound>| known(bound.as_ref().map(|bound| &bound.at));
        let failing = |bound: &Option<Bound>| {
            let sides = bound.as_ref().map(|bound| asked.limits_of(bound));
            let fails =
                sides.into_iter().flatten().flatten().find(|(severity, _)| *severity == Severity::Fails);
            known(fails.map(|(_, limit)| limit))
        };
        Self {
            min: first(&limits.min),
            max: first(&limits.max),
            fails_below: failing(&limits.min),
            fails_above: failing(&limits.max),
        }
    }
}

/// The limits of a row where its governing load stands: the check's own, or those that its case sets.
pub(super) fn limits_at(row: &Asked, setup: &Setup, facts: &Facts, worst: Option<&Worst>) -> Limits {
    let (check, of) = (row.check, row.of.element());
    let by_case = check.load.limits.zip(worst).and_then(|(limits, worst)| {
        let mut views = facts.views(setup, check.load.from);
        let (.., view) = views.find(|(case, ramp, _)| (*case, *ramp) == (worst.case, worst.ramp))?;
        Some(limits(&view, of))
    });
    let ramp = worst.and_then(|worst| worst.ramp);
    by_case.unwrap_or_else(|| (check.limits)(setup, At { of, ramp }))
}

/// Shows every comparison of a row, always in the same order: by case and side, or by crossing.
pub(super) fn compare<'a>(
    row: &'a Asked,
    setup: &Setup,
    facts: &Facts,
    mut look: impl FnMut(Comparison<'a>),
) {
    stand_all(row, setup, facts, |met| {
        let Met::Stood(stood) = met else { return };
        let Stood { case, ramp, .. } = stood;
        let inside = stood.inside();
        for (face, standing) in stood.each() {
            let Face { side, severity, beyond, .. } = *face;
            let (check, of) = (row.check, &row.of);
            let standing = standing.ok_or_else(|| Missing::of(stood.lacks(face)));
            look(Comparison { check, of, case, ramp, side, severity, beyond, standing, inside });
        }
    });
}

/// Equalized axles share their load evenly to within this: friction in leaves and hangers keeps the rest. Common
/// practice, no source.
pub(super) const UNEVEN: f64 = 1.1;

/// What all comparisons of a row come to.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Fold {
    /// The comparison that stands worst: by verdict, then by margin; the first of equals.
    worst: Option<Worst>,
    /// The keys without which it could not be evaluated.
    missing: Missing,
    /// A comparison could not be evaluated, for want of keys or of a trailer that rests.
    unevaluated: bool,
    /// One of those is with a limit past which the rig fails.
    may_fail: bool,
    /// Nothing is asked of some load.
    free: bool,
}

/// The comparison that governs a row.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Worst {
    /// How the load stands.
    pub standing: Standing,
    /// How it stands inside all limits of the row.
    pub inside: Inside,
    /// What becomes of the row by it.
    pub verdict: Verdict,
    /// The case, where cases matter.
    pub case: Option<usize>,
    /// The ramp, where ramps matter.
    pub ramp: Option<usize>,
}

impl Worst {
    /// Whether a comparison of this verdict and margin stands worse.
    fn is_better_than(&self, verdict: Verdict, margin: f64) -> bool {
        let rank = |verdict: Verdict| match verdict {
            Verdict::Fail => 3,
            Verdict::Advise => 2,
            Verdict::Thin => 1,
            _ => 0,
        };
        let (this, other) = (rank(self.verdict), rank(verdict));
        other > this || (other == this && margin < self.standing.margin)
    }
}

impl Fold {
    /// The fold of a row; `thin` is the policy's share of a rating or band.
    pub(super) fn of(row: &Asked, setup: &Setup, facts: &Facts, thin: f64) -> Self {
        let mut fold = Self::default();
        fold.take(row, setup, facts, thin);
        fold
    }

    /// Takes every comparison of a row in.
    pub(super) fn take(&mut self, row: &Asked, setup: &Setup, facts: &Facts, thin: f64) {
        let thin = if row.check.shares_evenly(setup) { thin.max(1.0 - 1.0 / UNEVEN) } else { thin };
        stand_all(row, setup, facts, |met| match met {
            Met::Stood(stood) => {
                stood.each().for_each(|(face, standing)| self.add(&stood, face, standing, thin));
            }
            Met::Free => self.free = true,
        });
    }

    fn add<'f>(&mut self, stood: &Stood<'f>, face: &Face<'f>, standing: Option<Standing>, thin: f64) {
        let Some(standing) = standing else {
            self.unevaluated = true;
            self.may_fail |= face.severity == Severity::Fails;
            self.missing.add(stood.lacks(face));
            return;
        };
        if is_silent(stood.judge, face.side, &standing) {
            return;
        }
        let verdict = match (standing.is_outside(), face.severity) {
            (true, Severity::Fails) => Verdict::Fail,
            (true, Severity::Advises) => Verdict::Advise,
            (false, _) if !face.beyond && standing.is_thin(thin) => Verdict::Thin,
            (false, _) => Verdict::Pass,
        };
        if self.worst.as_ref().is_none_or(|worst| worst.is_better_than(verdict, standing.margin)) {
            let Stood { case, ramp, .. } = *stood;
            self.worst = Some(Worst { standing, inside: stood.inside(), verdict, case, ramp });
        }
    }

    /// The comparison that governs, if the row could be evaluated. One that fails governs whatever is missing elsewhere:
    /// a missing figure hides no failure. One that holds proves nothing about what was not evaluated, and advice hides
    /// no limit past which the rig might fail.
    pub fn governing(&self) -> Option<&Worst> {
        self.worst.as_ref().filter(|worst| match worst.verdict {
            Verdict::Fail => true,
            Verdict::Advise => !self.may_fail,
            _ => !self.unevaluated,
        })
    }

    /// Whether the rig may fail by what could not be evaluated.
    pub fn may_fail(&self) -> bool {
        self.may_fail
    }

    /// The keys that are missing.
    pub fn missing(&self) -> &Missing {
        &self.missing
    }

    /// The smaller distance inside the row's limits, if it could be evaluated.
    pub fn margin(&self) -> Option<f64> {
        self.governing().and_then(|worst| worst.inside.margin)
    }

    /// The smaller distance inside the limits past which the rig fails, if the row could be evaluated and can fail.
    pub fn margin_to_fail(&self) -> Option<f64> {
        self.governing().and_then(|worst| worst.inside.to_fail)
    }

    /// Load over rating, or the place inside the band, if the row could be evaluated and has one.
    pub fn used(&self) -> Option<f64> {
        self.governing().and_then(|worst| worst.inside.used)
    }

    /// Whether nothing is asked of any load.
    pub(super) fn is_free(&self) -> bool {
        self.free && self.worst.is_none() && !self.unevaluated
    }

    /// The same as [`Self::used`] by the limits past which the rig fails.
    pub fn used_to_fail(&self) -> Option<f64> {
        self.governing().and_then(|worst| worst.inside.used_to_fail)
    }

    /// What became of the row.
    pub fn verdict(&self) -> Verdict {
        match self.governing() {
            Some(worst) => worst.verdict,
            None if self.is_free() => Verdict::Pass,
            None => Verdict::NotChecked,
        }
    }
}
