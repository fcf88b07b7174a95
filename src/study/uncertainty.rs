//! How sure the checks are when inputs are stated with bounds: the margin at the worst corner of the bounds, which
//! measurement to improve first, and (in [`samples`](super::samples)) how often a check fails.
//!
//! An input `v ± u` may be anything from `v − u` to `v + u`. The rig as stated is one point of the box of all such
//! values, and a *corner* has every input at one of its ends.
//!
//! **The worst corner.** A row's margin is the least over its cases, its sides and its two limits, so it has kinks: a
//! tongue share in the middle of its band gets worse both ways. Each load against each limit is therefore followed
//! by itself. Every input is tried alone at either end; for each load and limit the ends that leave less make one
//! corner, and every such corner is evaluated. On level ground, with up to 8 inputs, all corners are evaluated;
//! with up to 64, each row's worst corner is left by one input at a time, for as long as that finds less. A row's worst
//! margin is the least of all that were evaluated.
//!
//! Where every load against every limit rises or falls with each input, whatever the others are, that is the least over
//! all corners and over the whole box, for 2n + (corners) runs of the loads. With more than 8 inputs it may miss a worse
//! corner where an input works one way for some values of the others and the other way for others (a spring that
//! reaches its bump stop, an equalizer its stop), or where two inputs change nothing until both are off. A lesser margin
//! inside the box may be met by samples only: a load jumps where a bunk's end passes a crossmember. So each input in turn is
//! tried at half its bound too, from every row's worst corner. Over a ramp the positions of the peaks move as well and no
//! input is tried at its other end from the corner; so such rows are worst among the points tried, no more. A corner is
//! evaluated only over the crossing, of one ramp in one case, whose load against whose limit leads to it.
//!
//! **Ends that cannot be.** An end that breaks a rule of the file, or puts an axle or a crossmember past its neighbour, is
//! drawn back to the last value that does not; so are inputs that break a rule only together.
//!
//! **Assumed values** are ranges (`ranges`). Each row's corner is searched at the combination of their ends
//! that leaves it least.
//!
//! **Rows about ramps** have corners as well: a crossing takes milliseconds, a search step of 0.1 m is fine enough
//! because events are visited whatever it is, and the runs are shared by all cores.

use super::ranges::{self, Combinations, Ranged};
use super::samples::{Samples, samples};
use crate::fit::{
    self, Amount, Asked, Assessment, Crossed, Doubt, Findings, Fold, Judge, Missing, Row, Scope, Severity,
    Standing, Subject, Unfit, Verdict,
};
use crate::quantity::{Length, Quantity, Share};
use crate::rig::{Key, Rig, Varied};
use rayon::prelude::*;
use std::collections::BTreeSet;

/// An input that changes a load by less than this share of its margin changes nothing: the settling's own remainder is
/// a thousand times less.
const NOTHING: f64 = 1e-9;
/// A place is not moved by less than this, in metres.
const SAME_PLACE: f64 = 1e-6;
/// How often a row's worst corner is left in search of a worse one.
const MOST_ROUNDS: usize = 4;
/// With up to this many inputs every corner is worked.
const MOST_EXHAUSTED: usize = 8;
/// With more inputs than this no corner is left by one input at a time: it would take too long.
const MOST_TURNED: usize = 64;
/// How many points are worked before what they gave is dropped.
const AT_A_TIME: usize = 256;
/// The same where the first doubt ends the search.
const FIRST_OF: usize = 8;

/// What the stated bounds do to a rig's checks.
#[derive(Debug, Clone, PartialEq)]
pub struct Uncertainty {
    /// The uncertain inputs, each with its bound in SI.
    pub inputs: Vec<(Key, f64)>,
    /// For each row of the assessment: what its bounds do to it; none for a row that could not be made.
    pub corners: Vec<Option<Corner>>,
    /// The row of [`Self::corners`] that [`Self::ranking`] is about: of the rows that count and that any input moves,
    /// the one with the least margin at its worst corner, as a share of its rating or of its band's width. Where that
    /// one is [beyond doubt](Self::beyond_doubt), the same of those that are in doubt; where none is, of those that hold.
    pub governing: Option<usize>,
    /// The row with the least margin at its worst corner, where it fails at its best as well: no measurement helps.
    pub beyond_doubt: Option<usize>,
    /// Corners, and ends of single inputs, at which the figures contradict each other: they were drawn back.
    pub contradictions: usize,
    /// What happens where the trailer does not rest on its wheels; none if it does wherever it was evaluated.
    pub unfit: Option<Unfit>,
    /// Random samples, where they were asked for.
    pub samples: Option<Samples>,
}

/// What stated bounds do to one row.
#[derive(Debug, Clone, PartialEq)]
pub struct Corner {
    /// The least margin, or `None` where it is unknown at one of the corners.
    pub margin: Option<Amount>,
    /// The least margin inside the limits past which the rig fails; `None` where it never does, or where it is unknown.
    pub margin_to_fail: Option<Amount>,
    /// The margin at the opposite corner, by [`Self::sensitivities`]: the most that the load and the limit that decide at
    /// the worst corner can leave. Of a row that can fail it is a limit past which it does, here and in what follows.
    pub best: Amount,
    /// The keys that are missing for it.
    pub missing: Vec<Key>,
    /// By input, in the order of [`Uncertainty::inputs`]: by how much the margin rises for a unit of the input, both in
    /// SI, as a central difference over the whole bound. It is the margin of the load and the limit that decide at the
    /// worst corner.
    pub sensitivities: Vec<f64>,
    /// Which end of each input that corner has: 2 the upper, −2 the lower, 1 and −1 half way there, 0 the value as stated.
    pub ends: Vec<i8>,
    /// Whether the row may be past its limits somewhere within the bounds; so also where it is unknown at a corner.
    pub doubt: Doubt,
}

impl Corner {
    /// By input: its part in the row's uncertainty, |sensitivity| × bound over the sum of all.
    ///
    /// None where no input moves the row.
    pub fn shares(&self, inputs: &[(Key, f64)]) -> Option<Vec<Share>> {
        let parts = || self.sensitivities.iter().zip(inputs).map(|(slope, (_, bound))| (slope * bound).abs());
        let whole: f64 = parts().sum();
        (whole > 0.0).then(|| parts().map(|part| Share::from_si(part / whole)).collect())
    }

    /// Whether a row does not hold even with every input at its better end.
    fn fails_at_best(&self) -> bool {
        self.best.si() < 0.0
    }

    /// Whether a row that holds at its best may not hold.
    pub fn is_in_doubt(&self) -> bool {
        self.doubt.may_advise || self.doubt.may_fail
    }
}

impl Uncertainty {
    /// The inputs with their parts in the uncertainty of the governing row, the greatest first.
    pub fn ranking(&self) -> Vec<(Key, f64, Share)> {
        self.governing.map(|row| self.ranked(row)).unwrap_or_default()
    }

    /// What the bounds leave uncertain of a row.
    fn doubt(&self, place: usize, row: &Row) -> Doubt {
        let doubt = self.corners[place].as_ref().map(|corner| corner.doubt).unwrap_or_default();
        let unfit = self.unfit.is_some() && row.case.is_some();
        Doubt { may_fail: doubt.may_fail || (unfit && row.counts), ..doubt }
    }

    /// The inputs with their parts in a row's uncertainty, the greatest first; empty where no input moves it.
    pub fn ranked(&self, row: usize) -> Vec<(Key, f64, Share)> {
        let corner = self.corners.get(row).and_then(Option::as_ref);
        let shares = corner.and_then(|corner| corner.shares(&self.inputs)).unwrap_or_default();
        let mut ranked: Vec<_> =
            self.inputs.iter().zip(shares).map(|((key, bound), share)| (*key, *bound, share)).collect();
        // A stable sort: equals keep the file's order.
        ranked.sort_by(|a, b| b.2.si().total_cmp(&a.2.si()));
        ranked
    }
}

/// Assesses a rig as [`fit::examine`] does and takes into account the ranges of what it assumes, and its stated bounds:
/// what holds as it stands but not at the worst of these, and must hold, becomes unsure; so does what fails as it stands
/// but holds within the ranges.
///
/// No uncertainty is found where no input has a bound. The rig is taken as it was read: what was narrowed in it since is
/// not seen at the ends.
///
/// # Errors
/// [`Unfit`] when the trailer does not rest on its wheels with every input as stated.
///
/// ```
/// use bunkline::fit::RigVerdict;
/// use bunkline::study::uncertainty;
///
/// let rig = bunkline::Rig::parse(&std::fs::read_to_string("demo-data/crab-boat.toml")?)?;
/// let (findings, uncertainty) = uncertainty::examine(&rig)?;
/// assert_eq!(findings.assessment.verdict, RigVerdict::Unsure);
/// // The tongue share depends most on where the hull's weight is.
/// let first = uncertainty.expect("inputs with bounds").ranking()[0].0;
/// assert_eq!(first.to_string(), "boat.weights.1.station");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn examine(rig: &Rig) -> Result<(Findings, Option<Uncertainty>), Unfit> {
    examine_for(rig, None)
}

/// The same with cures and doubts for the rows of one subject alone, for a report of it; none is every one. The verdict leaves
/// out what is in doubt of other subjects.
///
/// # Errors
/// As [`examine`].
pub fn examine_for(rig: &Rig, subject: Option<Subject>) -> Result<(Findings, Option<Uncertainty>), Unfit> {
    let mut findings = fit::examine_for(rig, subject)?;
    let uncertainty = doubt(rig, &mut findings.assessment, subject);
    Ok((findings, uncertainty))
}

/// The assessment that [`examine`] gives, without all else that it finds.
///
/// # Errors
/// As [`examine`].
pub(super) fn assess(rig: &Rig) -> Result<Assessment, Unfit> {
    Ok(brief(rig)?.0)
}

/// The assessment that [`examine`] gives, and what the stated bounds do, without cures and cautions: for a reader of one line
/// a rig.
///
/// # Errors
/// As [`examine`].
pub fn brief(rig: &Rig) -> Result<(Assessment, Option<Uncertainty>), Unfit> {
    let mut found = fit::assess(rig)?;
    let uncertainty = doubt(rig, &mut found, None);
    Ok((found, uncertainty))
}

/// The same as [`brief`] without the rows for which a ramp is crossed or the boat launched, which take far longer.
///
/// # Errors
/// As [`examine`].
pub(super) fn brief_off_ramps(rig: &Rig) -> Result<(Assessment, Option<Uncertainty>), Unfit> {
    let mut found = fit::assess_off_ramps(rig)?;
    let uncertainty = doubt(rig, &mut found, None);
    Ok((found, uncertainty))
}

/// Takes the ranges of what is assumed and the stated bounds into account in the rows of a subject, or in all; what the bounds
/// do comes back, where an input has one.
fn doubt(rig: &Rig, found: &mut Assessment, subject: Option<Subject>) -> Option<Uncertainty> {
    let mut rows = found.rows.clone();
    for row in rows.iter_mut().filter(|row| !row.is_of(subject)) {
        // As a row that is not made: nothing looks at it.
        (row.verdict, row.margin) = (Verdict::NotChecked, None);
    }
    let mut combinations = Combinations::of(rig);
    let ranged = combinations.ranged(&rows);
    for (i, ranged) in ranged.iter().enumerate() {
        rows[i].range.clone_from(&ranged.range);
        found.rows[i].range.clone_from(&ranged.range);
    }
    let uncertainty = (!rig.uncertain().is_empty()).then(|| of_rows(&combinations, &rows, &ranged));
    let doubts = rows.iter().zip(&ranged).enumerate().map(|(i, (row, ranged))| {
        let stated = uncertainty.as_ref().map(|uncertainty| uncertainty.doubt(i, row));
        ranged.doubt.or(stated.unwrap_or_default())
    });
    let doubts: Vec<Doubt> = doubts.collect();
    found.doubt(&doubts);
    uncertainty
}

/// How far the centre of gravity of boat and trailer in the first case may lie from where it is, along the frame and up,
/// with every input that is stated with ± at the end that moves it most that way; `None` where nothing so stated moves it.
pub fn centre(rig: &Rig) -> Option<[Length; 2]> {
    let at = |rig: &Rig| {
        let body = fit::Model::new(rig).loads().ok()?.into_iter().next()?.body.ok()?;
        let level = rig.proposed().trailer.level_ball_height?;
        Some([body.at.x, level + body.at.z])
    };
    let stated = at(rig)?;
    let mut varied = Varied::new(rig);
    let mut off = |errors: &[(Key, f64)]| {
        let there = varied.with_errors_drawn_back(errors).ok().and_then(|(rig, _)| at(rig))?;
        Some([there[0] - stated[0], there[1] - stated[1]])
    };
    let mut farthest = [Length::default(); 2];
    for way in [1.0, -1.0] {
        // The ends that move it this way, along and up: each input alone shows which.
        let mut ends: [Vec<(Key, f64)>; 2] = [Vec::new(), Vec::new()];
        for (key, bound) in rig.uncertain() {
            let [upper, lower] = [*bound, -bound].map(|error| (error, off(&[(*key, error)])));
            for (axis, ends) in ends.iter_mut().enumerate() {
                let moved = |found: Option<[Length; 2]>| found.map_or(0.0, |off| off[axis].si() * way);
                let best = if moved(upper.1) >= moved(lower.1) { upper } else { lower };
                if moved(best.1) > 0.0 {
                    ends.push((*key, best.0));
                }
            }
        }
        for (axis, ends) in ends.iter().enumerate() {
            farthest[axis] = off(ends).map_or(farthest[axis], |off| farthest[axis].max(off[axis].abs()));
        }
    }
    farthest.iter().any(|off| off.si() > SAME_PLACE).then_some(farthest)
}

/// Draws random samples of a rig that [`examine`] has assessed, and takes them into account: what fails in one of them is
/// no less in doubt than what fails at a corner.
pub fn sample(rig: &Rig, findings: &mut Findings, uncertainty: &mut Uncertainty, count: u64, seed: u64) {
    uncertainty.samples = samples(rig, &findings.assessment.rows, count, seed);
    if let Some(samples) = &uncertainty.samples {
        findings.assessment.doubt(&samples.doubts);
    }
}

/// The ids of the checks that hold as stated and must hold, but may not at the worst of what is uncertain: those that
/// [`examine`] makes unsure.
///
/// # Errors
/// [`Unfit`] when the trailer does not rest on its wheels with every input as stated.
pub(super) fn unsure(rig: &Rig) -> Result<Vec<String>, Unfit> {
    let found = assess(rig)?;
    let unsure = found.rows.iter().filter(|row| row.counts && row.verdict == Verdict::Unsure);
    Ok(unsure.map(Row::id).collect())
}

/// Whether there is no such check; it looks no further than the first that is put in doubt where rows stand nearest to
/// their limits.
///
/// # Errors
/// As [`unsure`].
pub(super) fn is_sure(rig: &Rig) -> Result<bool, Unfit> {
    Ok(!is_doubted_at_once(rig)? && unsure(rig)?.is_empty())
}

/// Whether anything is uncertain: a stated value with a bound, or an assumed one with a range.
pub(super) fn is_any(rig: &Rig) -> bool {
    !rig.uncertain().is_empty() || ranges::any(rig)
}

/// Whether a check that holds and must hold may not, by what is tried first of all that [`unsure`] tries: on the level,
/// then over the crossings where some row stands nearest to its limits. What fails over a ramp does so there first, and one
/// crossing takes a small part of the time that all of them take.
fn is_doubted_at_once(rig: &Rig) -> Result<bool, Unfit> {
    let combinations = Combinations::of(rig);
    // The level first: a crossing takes long.
    for about_ramps in [false, true] {
        // What does not count is never unsure.
        let counts = |row: &Asked| row.fails() && row.check.crosses_ramps(rig.proposed()) == about_ramps;
        let scope = Scope::of(rig.proposed(), counts);
        let facts = scope.facts(rig, None)?;
        let folds = scope.folds(rig.proposed(), &facts);
        let holds = |fold: &Fold| matches!(fold.verdict(), Verdict::Pass | Verdict::Thin | Verdict::Advise);
        let holding: Vec<(&Asked, &Fold)> =
            scope.rows().iter().zip(&folds).filter(|(_, fold)| holds(fold)).collect();
        let parts = if about_ramps { nearest(&holding) } else { vec![None] };
        for part in parts {
            if is_doubted_by_ranges(&combinations, &holding, part)
                || is_doubted_by_bounds(rig, &holding, about_ramps, part)
            {
                return Ok(true);
            }
        }
    }
    Ok(false)
}

/// The crossings at which rows stand nearest to their limits, that of the row first that uses most of its own.
fn nearest(holding: &[(&Asked, &Fold)]) -> Vec<Option<Crossed>> {
    let used = |fold: &Fold| fold.used_to_fail().unwrap_or(f64::NEG_INFINITY);
    let mut holding = holding.to_vec();
    holding.sort_by(|a, b| used(b.1).total_cmp(&used(a.1)));
    let mut crossings = Vec::new();
    for worst in holding.iter().filter_map(|(_, fold)| fold.governing()) {
        let crossing = worst.ramp.zip(worst.case).map(|(ramp, case)| Crossed { ramp, case });
        if crossing.is_some() && !crossings.contains(&crossing) {
            crossings.push(crossing);
        }
    }
    crossings
}

/// Whether a row that holds fails at one of the combinations of assumed values, on the level or over this crossing.
fn is_doubted_by_ranges(
    combinations: &Combinations,
    holding: &[(&Asked, &Fold)],
    crossing: Option<Crossed>,
) -> bool {
    let is_asked = |row: &Asked| holding.iter().any(|(asked, _)| asked.id == row.id);
    let scope = Scope::of(combinations.rig(0).proposed(), is_asked).over(crossing);
    let fails = |(_, rig): &(_, Rig)| {
        let facts = scope.facts(rig, None);
        facts.is_ok_and(|facts| {
            scope.folds(rig.proposed(), &facts).iter().any(|fold| fold.verdict() == Verdict::Fail)
        })
    };
    combinations.over_ramps().par_iter().skip(1).any(fails)
}

/// Whether a row that holds may not at the worst of what the bounds allow, on the level or over this crossing.
fn is_doubted_by_bounds(
    rig: &Rig,
    holding: &[(&Asked, &Fold)],
    about_ramps: bool,
    crossing: Option<Crossed>,
) -> bool {
    let of = |row: &Asked| holding.iter().find(|(asked, _)| asked.id == row.id);
    let mut search = Search::new(rig, about_ramps, |row| of(row).is_some());
    search.first_only = true;
    search.scope = search.scope.over(crossing);
    search.run();
    search.scope.rows().iter().enumerate().any(|(at, row)| {
        let governing = of(row).and_then(|(_, fold)| fold.governing());
        governing.is_some_and(|governing| {
            let unfit = search.unfit.is_some() && governing.case.is_some();
            let found = &search.found[at];
            unfit || found.to_fail < 0.0 || found.unknown_may_fail
        })
    })
}

/// What a rig's bounds do to its rows, each at the combination of assumed values that leaves it least.
fn of_rows(combinations: &Combinations, rows: &[Row], ranged: &[Ranged]) -> Uncertainty {
    let rig = combinations.rig(0);
    let mut uncertainty = Uncertainty {
        corners: vec![None; rows.len()],
        governing: None,
        beyond_doubt: None,
        contradictions: 0,
        unfit: None,
        samples: None,
        inputs: rig.uncertain().to_vec(),
    };
    let place = |asked: &Asked| {
        let of_row = |row: &Row| row.check == asked.check && row.of == asked.of;
        rows.iter().position(of_row).filter(|i| rows[*i].margin.is_some())
    };
    let worst: BTreeSet<usize> = ranged.iter().map(|ranged| ranged.worst).collect();
    for (combination, about_ramps) in worst.iter().flat_map(|at| [(*at, false), (*at, true)]) {
        let is_here = |asked: &Asked| place(asked).is_some_and(|i| ranged[i].worst == combination);
        let searches = searched(combinations.rig(combination), about_ramps, is_here);
        let asked = searches.first().map_or(&[][..], |search| search.scope.rows());
        for (at, asked) in asked.iter().enumerate() {
            if let Some(i) = place(asked) {
                uncertainty.corners[i] = corner(&searches, at);
            }
        }
        for search in searches {
            uncertainty.contradictions = uncertainty.contradictions.max(search.contradictions);
            uncertainty.unfit = uncertainty.unfit.take().or(search.unfit);
        }
    }
    (uncertainty.governing, uncertainty.beyond_doubt) = governing(rows, &uncertainty);
    uncertainty
}

/// The corners of some rows: of those on the level in one search, of those about ramps in one for each crossing. A corner
/// is evaluated only over the crossing whose loads lead to it, and half ways to it only where it decides.
fn searched(rig: &Rig, about_ramps: bool, asked: impl Fn(&Asked) -> bool) -> Vec<Search<'_>> {
    let search = Search::new(rig, about_ramps, asked);
    if search.scope.rows().is_empty() {
        return Vec::new();
    }
    let mut searches: Vec<Search> = search.over_crossings();
    searches.par_iter_mut().for_each(Search::run);
    let rows = 0..searches[0].scope.rows().len();
    let deciding: Vec<[usize; 2]> = rows.map(|row| deciding(&searches, row)).collect();
    let halve = |(i, search): (usize, &mut Search)| search.halve(|row| deciding[row].contains(&i));
    searches.par_iter_mut().enumerate().for_each(halve);
    searches
}

/// The searches, by their places, that found the least of a row: inside all its limits, and inside those past which it fails.
fn deciding(searches: &[Search], row: usize) -> [usize; 2] {
    let least = |of: fn(&Least) -> f64| {
        let found = searches.iter().map(|search| of(&search.found[row])).enumerate();
        found.min_by(|a, b| a.1.total_cmp(&b.1)).map_or(0, |(i, _)| i)
    };
    [least(|found| found.margin), least(|found| found.to_fail)]
}

/// What searches found of the row in this place.
fn corner(searches: &[Search], at: usize) -> Option<Corner> {
    let [in_all, to_fail] = deciding(searches, at).map(|i| searches.get(i));
    let (in_all, to_fail) = (in_all?, to_fail?);
    let missing = searches.iter().filter_map(|search| search.found[at].missing.clone());
    let missing = missing.reduce(Missing::and);
    let amount = |si: f64| in_all.scope.rows()[at].amount(si);
    // What is missing at some corner hides no failure that was found.
    let known = |margin: f64| margin.is_finite() && (missing.is_none() || margin < 0.0);
    let (margin, least_to_fail) = (in_all.found[at].margin, to_fail.found[at].to_fail);
    // Of a row that can fail the limits past which it does are what matters.
    let Decisive { best, sensitivities, ends } =
        if least_to_fail.is_finite() { to_fail.to_fail(at) } else { in_all.in_all(at) };
    Some(Corner {
        best: amount(best),
        margin: known(margin).then(|| amount(margin)),
        margin_to_fail: known(least_to_fail).then(|| amount(least_to_fail)),
        doubt: Doubt {
            may_advise: margin < 0.0 || missing.is_some(),
            may_fail: least_to_fail < 0.0 || searches.iter().any(|search| search.found[at].unknown_may_fail),
            may_hold: false,
        },
        missing: missing.unwrap_or_default().0,
        sensitivities,
        ends,
    })
}

/// The row whose measurements matter most; and the one that would be it, were it not beyond doubt.
fn governing(rows: &[Row], uncertainty: &Uncertainty) -> (Option<usize>, Option<usize>) {
    let room = |(i, row): (usize, &Row)| {
        let corner = uncertainty.corners[i].as_ref().filter(|_| row.counts)?;
        corner.shares(&uncertainty.inputs)?;
        let max = row.fails_above?.si();
        let whole = match row.check.judge {
            Judge::Rating | Judge::SignedRating | Judge::FlooredRating => max,
            Judge::Band => max - row.fails_below?.si(),
            // Nothing to compare a margin with.
            Judge::Floor | Judge::Ceiling | Judge::Between | Judge::Size => return None,
        };
        Some((i, corner.margin_to_fail?.si() / whole))
    };
    let rooms: Vec<(usize, f64)> = rows.iter().enumerate().filter_map(room).collect();
    let is = |test: fn(&Corner) -> bool, i: usize| uncertainty.corners[i].as_ref().is_some_and(test);
    let least = |wanted: &dyn Fn(usize) -> bool| {
        let wanted = rooms.iter().filter(|(i, _)| wanted(*i));
        wanted.min_by(|a, b| a.1.total_cmp(&b.1)).map(|(i, _)| *i)
    };
    let first = least(&|_| true);
    // What moves over the range of something assumed can be measured as well.
    let fixable = |i: usize| !is(Corner::fails_at_best, i) || rows[i].range.is_some();
    if first.is_none_or(fixable) {
        return (first, None);
    }
    let in_doubt = least(&|i| fixable(i) && is(Corner::is_in_doubt, i));
    (in_doubt.or_else(|| least(&fixable)), first)
}

/// Which end each input is at: −2, 2, or half way there, or 0 for the value as stated.
type Ends = Vec<i8>;
/// An end of an input; half of it is half way there.
const END: i8 = 2;

/// How one load stands against one limit.
#[derive(Debug, Clone, Copy)]
struct Stood {
    margin: f64,
    /// The rig fails past the limit.
    fails: bool,
    /// Another limit on its side advises first.
    beyond: bool,
    /// It says nothing about its row while it holds.
    silent: bool,
}

/// A comparison that could not be evaluated.
#[derive(Clone)]
struct Unknown {
    missing: Missing,
    /// The rig fails past its limit.
    fails: bool,
}

/// Every comparison of every row at one point; none of a row that is not there.
type Stands = Vec<Vec<Result<Stood, Unknown>>>;

/// Why a point has no loads.
enum Nowhere {
    /// The figures break a rule of the file.
    Contradiction,
    /// The trailer does not rest on its wheels.
    Unfit(Unfit),
}

/// What one comparison of a row leaves; nothing can be said where nothing holds.
fn left(stands: &[Result<Stood, Unknown>], comparison: usize) -> Option<f64> {
    let margin = stands.get(comparison)?.as_ref().ok()?.margin;
    margin.is_finite().then_some(margin)
}

/// The least that was found of one row.
#[derive(Clone)]
struct Least {
    margin: f64,
    ends: Ends,
    /// Which of the row's comparisons.
    comparison: usize,
    /// What is unknown everywhere.
    missing: Option<Missing>,
    /// The rig may fail by what is unknown.
    unknown_may_fail: bool,
    /// The least margin inside a limit past which the rig fails, and where it is.
    to_fail: f64,
    fail_ends: Ends,
    fail_comparison: usize,
}

/// A load against a limit that decides how a row stands.
struct Decisive {
    best: f64,
    sensitivities: Vec<f64>,
    ends: Ends,
}

#[derive(Clone)]
struct Search<'a> {
    rig: &'a Rig,
    about_ramps: bool,
    /// Ends once some row is in doubt: nothing that is found later takes a doubt away.
    first_only: bool,
    /// The rows examined.
    scope: Scope,
    found: Vec<Least>,
    /// Each input alone at its lower and at its upper end.
    alone: Vec<[Option<Stands>; 2]>,
    base: Stands,
    /// How far each input may go down and up, in SI, by itself.
    reach: Vec<[f64; 2]>,
    seen: BTreeSet<Ends>,
    contradictions: usize,
    unfit: Option<Unfit>,
}

/// Every corner of so many inputs.
fn every_corner(inputs: usize) -> impl Iterator<Item = Ends> {
    let end = |corner: u32, input: usize| if corner >> input & 1 == 1 { END } else { -END };
    (0..1_u32 << inputs).map(move |corner| (0..inputs).map(|input| end(corner, input)).collect())
}

impl<'a> Search<'a> {
    fn new(rig: &'a Rig, about_ramps: bool, asked: impl Fn(&Asked) -> bool) -> Self {
        let ours = |row: &Asked| row.check.crosses_ramps(rig.proposed()) == about_ramps && asked(row);
        Self {
            rig,
            about_ramps,
            first_only: false,
            scope: Scope::of(rig.proposed(), ours),
            found: Vec::new(),
            alone: Vec::new(),
            base: Vec::new(),
            reach: Vec::new(),
            seen: BTreeSet::new(),
            contradictions: 0,
            unfit: None,
        }
    }

    /// The same search over each crossing by itself, where it is about ramps.
    fn over_crossings(self) -> Vec<Self> {
        if !self.about_ramps {
            return vec![self];
        }
        let setup = self.rig.proposed();
        let cases = 0..setup.cases.len();
        let crossings =
            (0..setup.ramps.len()).flat_map(|ramp| cases.clone().map(move |case| Crossed { ramp, case }));
        let over = |crossing| Self { scope: self.scope.clone().over(Some(crossing)), ..self.clone() };
        crossings.map(over).collect()
    }

    fn run(&mut self) {
        if self.scope.rows().is_empty() {
            return;
        }
        self.find_reach();
        let stated = vec![0; self.rig.uncertain().len()];
        let nothing = Least {
            margin: f64::INFINITY,
            ends: stated.clone(),
            comparison: 0,
            missing: None,
            unknown_may_fail: false,
            to_fail: f64::INFINITY,
            fail_ends: stated.clone(),
            fail_comparison: 0,
        };
        self.found = vec![nothing; self.scope.rows().len()];
        self.base = self.work(vec![stated.clone()]).pop().flatten().unwrap_or_default();

        let alone = |input: usize, end: i8| {
            let mut ends = stated.clone();
            ends[input] = end;
            ends
        };
        let inputs = 0..stated.len();
        let points = inputs.flat_map(|input| [alone(input, -END), alone(input, END)]).collect();
        let mut worked = self.work(points).into_iter();
        while let (Some(lower), Some(upper)) = (worked.next(), worked.next()) {
            self.alone.push([lower, upper]);
        }
        if self.has_ended() {
            return;
        }
        let corners: BTreeSet<Ends> = (0..self.scope.rows().len()).flat_map(|row| self.signs(row)).collect();
        self.look(corners);
        match self.alone.len() {
            // A crossing is a thousand times as dear as the level.
            _ if self.about_ramps => {}
            n if n <= MOST_EXHAUSTED => self.look(every_corner(n).filter(|ends| self.can_be(ends)).collect()),
            n if n <= MOST_TURNED => self.refine(),
            _ => {}
        }
    }

    /// How far each input may go by itself: what breaks a rule there is drawn back.
    fn find_reach(&mut self) {
        let mut varied = Varied::new(self.rig);
        for (key, bound) in self.rig.uncertain() {
            let reach = [-bound, *bound].map(|error| {
                let drawn = varied.with_errors_drawn_back(&[(*key, error)]);
                drawn.map_or(0.0, |(_, drawn)| drawn[0].1)
            });
            self.contradictions += reach.iter().filter(|error| error.abs() < *bound).count();
            self.reach.push(reach);
        }
    }

    /// Tries each input in turn half way to its ends from some rows' worst corners: the worst may lie inside a bound.
    fn halve(&mut self, decides: impl Fn(usize) -> bool) {
        let mut points = BTreeSet::new();
        let found = self.found.iter().enumerate().filter(|(row, _)| decides(*row));
        for ends in found.flat_map(|(_, least)| [&least.ends, &least.fail_ends]) {
            for input in 0..ends.len() {
                // Over a ramp the other way costs too much.
                let halves = [ends[input] / 2, if self.about_ramps { 0 } else { -ends[input] / 2 }];
                for half in halves.into_iter().filter(|half| *half != 0) {
                    let mut ends = ends.clone();
                    ends[input] = half;
                    points.insert(ends);
                }
            }
        }
        self.look(points);
    }

    /// The corner of each load and limit of a row: for every input the end that leaves less, the upper one of equals.
    fn signs(&self, row: usize) -> Vec<Ends> {
        let Some(base) = self.base.get(row) else { return Vec::new() };
        let end = |comparison: usize, [lower, upper]: &[Option<Stands>; 2]| {
            let stated = left(base, comparison);
            let left =
                |stands: &Option<Stands>| stands.as_ref().and_then(|stands| left(&stands[row], comparison));
            match (left(lower), left(upper)) {
                (Some(lower), Some(upper)) if lower < upper - NOTHING * lower.abs().max(upper.abs()) => -END,
                (Some(_), Some(_)) => END,
                // Of an end that cannot be had nothing is known; the other is worth going to if it is worse.
                (Some(lower), None) => -END * i8::from(Some(lower) < stated),
                (None, Some(upper)) => END * i8::from(Some(upper) < stated),
                (None, None) => 0,
            }
        };
        let known = (0..base.len()).filter(|comparison| left(base, *comparison).is_some());
        known.map(|comparison| self.alone.iter().map(|alone| end(comparison, alone)).collect()).collect()
    }

    /// Leaves every row's worst corner by one input at a time, for as long as that finds less.
    fn refine(&mut self) {
        for _ in 0..MOST_ROUNDS {
            let before: Vec<[f64; 2]> =
                self.found.iter().map(|least| [least.margin, least.to_fail]).collect();
            let ends = |least: &Least| [least.ends.clone(), least.fail_ends.clone()];
            let worst: BTreeSet<Ends> = self.found.iter().flat_map(ends).collect();
            let mut points = BTreeSet::new();
            for ends in worst {
                // What changed nothing by itself may change something there.
                let corner: Ends = ends
                    .iter()
                    .enumerate()
                    .map(|(i, end)| if *end == 0 { self.an_end(i) } else { *end })
                    .collect();
                for input in 0..corner.len() {
                    let mut turned = corner.clone();
                    turned[input] = -turned[input];
                    if self.can_be_at(input, turned[input]) {
                        points.insert(turned);
                    }
                }
                points.insert(corner);
            }
            self.look(points);
            let is_less = |now: f64, before: f64| now < before - NOTHING * before.abs();
            let less = |(least, [margin, to_fail]): (&Least, &[f64; 2])| {
                is_less(least.margin, *margin) || is_less(least.to_fail, *to_fail)
            };
            if !self.found.iter().zip(&before).any(less) {
                return;
            }
        }
    }

    /// Whether each input by itself at its end of a corner gives loads.
    fn can_be(&self, ends: &Ends) -> bool {
        ends.iter().enumerate().all(|(input, end)| self.can_be_at(input, *end))
    }

    /// Whether an input alone at an end gives loads.
    fn can_be_at(&self, input: usize, end: i8) -> bool {
        self.alone[input][usize::from(end > 0)].is_some()
    }

    /// An end that an input can be at, the upper one first; 0 if it can be at neither.
    fn an_end(&self, input: usize) -> i8 {
        [END, -END].into_iter().find(|end| self.can_be_at(input, *end)).unwrap_or(0)
    }

    /// Works points and keeps only what is least.
    fn look(&mut self, points: BTreeSet<Ends>) {
        let points: Vec<Ends> = points.into_iter().collect();
        let at_a_time = if self.first_only { FIRST_OF } else { AT_A_TIME };
        for some in points.chunks(at_a_time) {
            if self.has_ended() {
                return;
            }
            self.work(some.to_vec());
        }
    }

    /// Whether a first doubt was all that was wanted, and it is there.
    fn has_ended(&self) -> bool {
        let in_doubt = |least: &Least| least.to_fail < 0.0 || least.unknown_may_fail;
        self.first_only && self.found.iter().any(in_doubt)
    }

    /// Evaluates points that have not been evaluated before, on all cores, and keeps what is least; in the points' order.
    fn work(&mut self, points: Vec<Ends>) -> Vec<Option<Stands>> {
        let points: Vec<Ends> = points.into_iter().filter(|ends| self.seen.insert(ends.clone())).collect();
        let worked: Vec<Result<(Stands, bool), Nowhere>> = points
            .par_iter()
            .map_init(|| Varied::new(self.rig), |varied, ends| self.stands(varied, ends))
            .collect();
        let mut all = Vec::with_capacity(worked.len());
        for (ends, stands) in points.iter().zip(worked) {
            match stands {
                Ok((stands, drawn_back)) => {
                    self.contradictions += usize::from(drawn_back);
                    self.keep(ends, &stands);
                    all.push(Some(stands));
                }
                Err(nowhere) => {
                    match nowhere {
                        Nowhere::Contradiction => self.contradictions += 1,
                        Nowhere::Unfit(unfit) => self.unfit = self.unfit.take().or(Some(unfit)),
                    }
                    all.push(None);
                }
            }
        }
        all
    }

    /// Every load at one point; and whether that had to be drawn back.
    fn stands(&self, varied: &mut Varied, ends: &[i8]) -> Result<(Stands, bool), Nowhere> {
        let inputs = self.rig.uncertain().iter().zip(&self.reach).zip(ends);
        let errors: Vec<(Key, f64)> = inputs
            .filter(|(_, end)| **end != 0)
            .map(|(((key, _), reach), end)| {
                (*key, reach[usize::from(*end > 0)] * f64::from(end.abs()) / f64::from(END))
            })
            .collect();
        let drawn = varied.with_errors_drawn_back(&errors);
        let (rig, drawn) = drawn.map_err(|_| Nowhere::Contradiction)?;
        let facts = self.scope.facts(rig, None).map_err(Nowhere::Unfit)?;
        let mut stands: Stands = self.scope.rows().iter().map(|_| Vec::new()).collect();
        self.scope.compare(rig.proposed(), &facts, |row, comparison| {
            let (silent, beyond) = (comparison.is_silent(), comparison.beyond);
            let fails = comparison.severity == Severity::Fails;
            let stood = |standing: Standing| Stood { margin: standing.margin, fails, beyond, silent };
            stands[row].push(comparison.standing.map(stood).map_err(|missing| Unknown { missing, fails }));
        });
        Ok((stands, drawn != errors))
    }

    fn keep(&mut self, ends: &[i8], stands: &Stands) {
        for (least, stands) in self.found.iter_mut().zip(stands) {
            for (comparison, stood) in stands.iter().enumerate() {
                match stood {
                    Ok(stood) if stood.silent => {}
                    Ok(stood) => {
                        if !stood.beyond && stood.margin < least.margin {
                            least.margin = stood.margin;
                            least.ends = ends.to_vec();
                            least.comparison = comparison;
                        }
                        if stood.fails && stood.margin < least.to_fail {
                            least.to_fail = stood.margin;
                            least.fail_ends = ends.to_vec();
                            least.fail_comparison = comparison;
                        }
                    }
                    Err(unknown) => {
                        let known = least.missing.take().unwrap_or_default();
                        least.missing = Some(known.and(unknown.missing.clone()));
                        least.unknown_may_fail |= unknown.fails;
                    }
                }
            }
        }
    }

    /// The load against the limit that leaves least of a row, of all its limits.
    fn in_all(&self, row: usize) -> Decisive {
        let found = &self.found[row];
        self.decisive(row, found.comparison, &found.ends, found.margin)
    }

    /// The same of the limits past which it fails.
    fn to_fail(&self, row: usize) -> Decisive {
        let found = &self.found[row];
        self.decisive(row, found.fail_comparison, &found.fail_ends, found.to_fail)
    }

    fn decisive(&self, row: usize, comparison: usize, ends: &Ends, worst: f64) -> Decisive {
        let as_stated = self.base.get(row).and_then(|stands| left(stands, comparison));
        let slope = |input: usize| {
            let left = |end: usize| {
                self.alone[input][end].as_ref().and_then(|stands| left(&stands[row], comparison))
            };
            let [down, up] = self.reach[input];
            let (rise, over) = match (left(0), as_stated, left(1)) {
                // It gets worse either way, as with a weight to port or starboard: by how much toward the corner.
                (Some(lower), Some(stated), Some(upper)) if lower < stated && upper < stated => {
                    if ends[input] < 0 { (stated - lower, -down) } else { (upper - stated, up) }
                }
                (Some(lower), _, Some(upper)) => (upper - lower, up - down),
                (Some(lower), Some(stated), None) => (stated - lower, -down),
                (None, Some(stated), Some(upper)) => (upper - stated, up),
                _ => (0.0, 1.0),
            };
            if over > 0.0 { rise / over } else { 0.0 }
        };
        let sensitivities: Vec<f64> = (0..self.alone.len()).map(slope).collect();
        let bounds = self.rig.uncertain().iter().map(|(_, bound)| bound);
        let swing: f64 = sensitivities.iter().zip(bounds).map(|(slope, bound)| (slope * bound).abs()).sum();
        Decisive { best: as_stated.unwrap_or(worst) + swing, sensitivities, ends: ends.clone() }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_search_that_ends_at_the_first_doubt_answers_alike() {
        let text = include_str!("../../demo-data/crab-boat.toml");
        let shifts = [-12, -6, -3, 0, 1, 2, 3, 6, 12];
        let sure = shifts.map(|inches| {
            let rig = Rig::read(
                "crab boat",
                text,
                &["trailer.gvwr=6200lb".to_string(), format!("shift.boat={inches}in")],
            )
            .expect("the demo reads");
            let sure = is_sure(&rig).expect("it rests");
            assert_eq!(sure, unsure(&rig).expect("it rests").is_empty(), "{inches} in");
            sure
        });
        assert!(sure.contains(&true) && sure.contains(&false), "{sure:?}");
    }
}
