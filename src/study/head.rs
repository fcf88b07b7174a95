//! How steep a ramp head the rig survives, and how far its equalizers must swing.
//!
//! The head is the steepest run of the ramp's profile; the other runs stay as they are.

use super::NoRig;
use super::ramp::Choice;
use super::ranges::Combinations;
use crate::fit::{self, Model, RampLoads, Row, Unfit, Verdict};
use crate::numeric::root::edge;
use crate::quantity::{Length, Quantity, Share, Slope};
use crate::rig::inputs::{RAMPS_PROFILE_GRADE, TRAILER_SUSPENSION_EQUALIZER_TRAVEL};
use crate::rig::{Key, Problems, Rig, Run, SuspensionKind, Variable, Varied};
use rayon::prelude::*;

/// A grade is found this closely: a tenth of the tenth of a percent that is shown.
const GRADE_WITHIN: f64 = 1e-4;
/// An equalizer's travel is found this closely, in metres.
const TRAVEL_WITHIN: f64 = 1e-4;
/// No equalizer swings farther, in metres.
const MOST_TRAVEL: f64 = 0.3;

/// A ramp crossed with its head at one grade.
#[derive(Debug, Clone, PartialEq)]
pub struct AtGrade {
    /// The head's grade.
    pub grade: Slope,
    /// Its crossings, one a case.
    pub crossings: Vec<RampLoads>,
    /// Every check about ramps.
    pub rows: Vec<Row>,
}

impl AtGrade {
    /// Whether any rating could be asked: none can where a key is missing that every load needs.
    pub fn is_known(&self) -> bool {
        self.rows.iter().any(is_rating)
    }

    /// Whether every rating holds: those of axles, tires and tongue.
    pub fn holds(&self) -> bool {
        let rated = self.rows.iter().filter(|row| is_rating(row));
        rated.clone().count() > 0
            && rated.into_iter().all(|row| row.margin.is_some_and(|margin| margin.si() >= 0.0))
    }

    /// Whether anything about the ramp could be evaluated, and nothing of it fails.
    pub fn does_not_fail(&self) -> bool {
        self.is_known() && self.rows.iter().all(|row| row.verdict != Verdict::Fail)
    }

    /// The most used rating.
    pub fn worst(&self) -> Option<&Row> {
        let used = |row: &Row| {
            row.used.map_or(f64::INFINITY, |used| if used.si() < 0.0 { f64::INFINITY } else { used.si() })
        };
        let rated = self.rows.iter().filter(|row| is_rating(row) && row.load.is_some());
        rated.max_by(|a, b| used(a).total_cmp(&used(b)))
    }

    /// How far inside its limit the worst rating stands, as a share of it; negative outside.
    fn least(&self) -> f64 {
        let inside = |row: &Row| Some(row.margin?.si() / row.max.map_or(1.0, |max| max.si().abs()));
        self.rows.iter().filter(|row| is_rating(row)).filter_map(inside).fold(f64::INFINITY, f64::min)
    }

    /// The share of that rating that is used.
    pub fn used(&self) -> Option<Share> {
        self.worst()?.used
    }
}

/// A rating whose key is missing is not asked, unless it fails all the same: a tongue that lifts needs none.
fn is_rating(row: &Row) -> bool {
    row.check.is_rating() && (row.missing.is_empty() || row.margin.is_some())
}

/// How steep a head of one ramp a rig survives.
#[derive(Debug, Clone)]
pub struct Heads {
    /// The ramp, counted from 0.
    pub ramp: usize,
    /// The head at each grade asked for.
    pub grades: Vec<AtGrade>,
    /// The steepest grade up to which every rating holds.
    pub ratings: Steepest,
    /// The steepest grade up to which nothing fails.
    pub nothing_fails: Steepest,
    /// The least travel of the equalizers that keeps the rear axle loaded all over the ramp as it is; zero where it
    /// needs none, none on a trailer without equalizers, where the loads are unknown, or where no travel does it.
    pub least_travel: Option<Length>,
}

/// The steepest of the grades asked for up to which something holds, to a hundredth of a percent; `None` where the gentlest is
/// too steep already.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Steepest {
    /// With every value as stated or assumed.
    pub as_assumed: Option<Slope>,
    /// At the worse end of what is assumed.
    pub worse: Option<Slope>,
    /// At its better end.
    pub better: Option<Slope>,
}

impl Steepest {
    /// Of what was found at each combination of the ends, as assumed first.
    fn of(found: &[Option<Slope>]) -> Self {
        let grade = |found: &Option<Slope>| found.map_or(f64::NEG_INFINITY, Quantity::si);
        let by_grade = |a: &&Option<Slope>, b: &&Option<Slope>| grade(a).total_cmp(&grade(b));
        Self {
            as_assumed: found.first().copied().flatten(),
            worse: found.iter().min_by(by_grade).copied().flatten(),
            better: found.iter().max_by(by_grade).copied().flatten(),
        }
    }
}

/// How steep a head of each ramp asked for a rig survives in the cases asked for; `grades` are those to try, rising.
///
/// # Errors
/// [`NoRig`] when a grade cannot be set, or the trailer does not rest on its wheels on level ground.
pub fn heads(rig: &Rig, choice: Choice, grades: &[Slope]) -> Result<Vec<Heads>, NoRig> {
    let combinations = Combinations::of(rig);
    let of_ramp = |ramp| {
        let at_ends = combinations.over_ramps().par_iter().map(|(_, rig)| {
            let mut head = Head::of(rig, ramp, choice.case)?;
            let looked_at = grades.iter().map(|grade| head.at(*grade)).collect::<Result<Vec<_>, _>>()?;
            let ratings = head.steepest(&looked_at, AtGrade::holds)?;
            let nothing_fails = head.steepest(&looked_at, AtGrade::does_not_fail)?;
            Ok((looked_at, ratings, nothing_fails))
        });
        let at_ends = at_ends.collect::<Result<Vec<_>, NoRig>>()?;
        let ratings: Vec<_> = at_ends.iter().map(|(_, ratings, _)| *ratings).collect();
        let nothing_fails: Vec<_> = at_ends.iter().map(|(.., nothing_fails)| *nothing_fails).collect();
        Ok(Heads {
            ramp,
            // As assumed.
            grades: at_ends.into_iter().next().map(|(looked_at, ..)| looked_at).unwrap_or_default(),
            ratings: Steepest::of(&ratings),
            nothing_fails: Steepest::of(&nothing_fails),
            least_travel: least_equalizer_travel(rig, ramp, choice.case)?,
        })
    };
    choice.ramps(rig).into_iter().map(of_ramp).collect()
}

/// The steepest head tried where none is asked for, and the steps in which it is approached.
pub const STEEPEST_TRIED: Slope = Slope(0.4);
/// 5 % each.
const STEPS_TRIED: u8 = 8;

/// The steepest head of each ramp asked for up to which every rating holds, all values as stated or assumed; `None` where
/// none does, or nothing about the ramp is known.
///
/// # Errors
/// As [`heads`].
pub fn steepest(rig: &Rig, choice: Choice) -> Result<Vec<(usize, Option<Slope>)>, NoRig> {
    let of_ramp = |ramp| {
        let mut head = Head::of(rig, ramp, choice.case)?;
        let mut looked_at = Vec::new();
        for step in 0..=STEPS_TRIED {
            let part = f64::from(step) / f64::from(STEPS_TRIED);
            looked_at.push(head.at(Slope(STEEPEST_TRIED.0 * part))?);
            if !looked_at.last().is_some_and(AtGrade::holds) {
                break;
            }
        }
        Ok((ramp, head.steepest(&looked_at, AtGrade::holds)?))
    };
    choice.ramps(rig).into_iter().map(of_ramp).collect()
}

/// The ramp crossed with its head at a grade, in every case.
///
/// # Errors
/// As [`heads`].
pub fn at_grade(rig: &Rig, ramp: usize, grade: Slope) -> Result<AtGrade, NoRig> {
    Head::of(rig, ramp, None)?.at(grade)
}

/// The head of a ramp that is tried at one grade after another.
struct Head {
    varied: Varied,
    grade: Variable,
    ramp: usize,
    case: Option<usize>,
}

impl Head {
    fn of(rig: &Rig, ramp: usize, case: Option<usize>) -> Result<Self, NoRig> {
        let runs = rig.proposed().ramps[ramp].profile.iter().enumerate();
        let steepness = |run: &Run| run.grade.map_or(0.0, Quantity::si);
        let steepest = runs.max_by(|(_, a), (_, b)| steepness(a).total_cmp(&steepness(b)));
        // A valid ramp has a run.
        let run = steepest.map_or(0, |(run, _)| run);
        let grade = variable(rig, RAMPS_PROFILE_GRADE.at([ramp, run]))?;
        Ok(Self { varied: Varied::new(rig), grade, ramp, case })
    }

    fn at(&mut self, grade: Slope) -> Result<AtGrade, NoRig> {
        let rig = self.varied.with(&[(&self.grade, grade.si())])?;
        let crossings = crossed(rig, self.ramp, self.case)?;
        let rows = fit::ramp_rows(rig.proposed(), &crossings);
        Ok(AtGrade { grade, crossings, rows })
    }

    /// The steepest grade up to which something holds. A grade above the first at which it does not is not asked for again.
    fn steepest(
        &mut self,
        looked_at: &[AtGrade],
        holds: fn(&AtGrade) -> bool,
    ) -> Result<Option<Slope>, NoRig> {
        let holding = looked_at.iter().take_while(|at| holds(at)).count();
        let Some(last_holding) = holding.checked_sub(1) else { return Ok(None) };
        let last = &looked_at[last_holding];
        let Some(failing) = looked_at.get(holding) else { return Ok(Some(last.grade)) };
        // Whether it holds decides; how far from its limits the worst rating stands only guides the search.
        let value = |at: &AtGrade| {
            at.least().abs().max(f64::MIN_POSITIVE).copysign(if holds(at) { 1.0 } else { -1.0 })
        };
        let known = |at: &AtGrade| (at.grade.si(), value(at));
        let mut stopped = None;
        let found = edge(known(last), known(failing), GRADE_WITHIN, |grade| {
            self.at(Slope(grade)).map_or_else(
                |why| {
                    stopped = Some(why);
                    f64::NAN
                },
                |at| value(&at),
            )
        });
        stopped.map_or(Ok(Some(Slope(found))), Err)
    }
}

/// The variable of a key of the file.
fn variable(rig: &Rig, key: Key) -> Result<Variable, NoRig> {
    rig.variable(&key.to_string()).map_err(|fault| Problems::from(fault).into())
}

/// The ramp's crossings as a rig stands, one for each case asked for.
fn crossed(rig: &Rig, ramp: usize, case: Option<usize>) -> Result<Vec<RampLoads>, Unfit> {
    let model = Model::new(rig);
    // A trailer that does not rest on level ground is not backed down a ramp.
    model.loads()?;
    let cases = case.map_or(0..rig.proposed().cases.len(), |case| case..case + 1);
    Ok(cases.into_par_iter().map(|case| RampLoads { ramp, case, peaks: model.peaks(ramp, case) }).collect())
}

fn least_equalizer_travel(rig: &Rig, ramp: usize, case: Option<usize>) -> Result<Option<Length>, NoRig> {
    let several = rig.proposed().trailer.axles.len() > 1;
    if rig.proposed().trailer.suspension.kind != Some(SuspensionKind::LeafEqualized) || !several {
        return Ok(None);
    }
    let variable = variable(rig, TRAILER_SUSPENSION_EQUALIZER_TRAVEL.key())?;
    let mut varied = Varied::new(rig);
    let mut stays_loaded = |travel: f64| -> Result<bool, NoRig> {
        let crossings = crossed(varied.with(&[(&variable, travel)])?, ramp, case)?;
        Ok(crossings.iter().all(|crossing| {
            let rear =
                crossing.peaks.as_ref().ok().and_then(|peaks| peaks.as_ref().ok()?.axles.last().cloned());
            rear.is_some_and(|rear| rear.hangs.is_empty())
        }))
    };
    if stays_loaded(0.0)? {
        return Ok(Some(Length::default()));
    }
    if !stays_loaded(MOST_TRAVEL)? {
        return Ok(None);
    }
    let (mut low, mut high) = (0.0, MOST_TRAVEL);
    while high - low > TRAVEL_WITHIN {
        let middle = f64::midpoint(low, high);
        if stays_loaded(middle)? {
            high = middle;
        } else {
            low = middle;
        }
    }
    Ok(Some(Length::from_si(high)))
}
