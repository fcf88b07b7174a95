//! How steep a ramp head the rig survives, and how far its equalizers must swing.
//!
//! The head is the steepest run of the ramp's profile; the other runs stay as they are.

use crate::fit::{self, CaseLoads, Judge, Model, RampLoads, Row, Unfit};
use crate::quantity::{Length, Quantity, Share, Slope};
use crate::rig::{Rig, SuspensionKind};

/// A grade is found this closely: a tenth of a percent.
const GRADE_WITHIN: f64 = 1e-3;
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

    /// The rating of which most is used.
    pub fn worst(&self) -> Option<&Row> {
        let used = |row: &Row| {
            row.used.map_or(f64::INFINITY, |used| if used.si() < 0.0 { f64::INFINITY } else { used.si() })
        };
        let rated = self.rows.iter().filter(|row| is_rating(row) && row.load.is_some());
        rated.max_by(|a, b| used(a).total_cmp(&used(b)))
    }

    /// The share of that rating that is used.
    pub fn used(&self) -> Option<Share> {
        self.worst()?.used
    }
}

/// A rating whose key is missing cannot be survived; it is not asked.
fn is_rating(row: &Row) -> bool {
    let rating = matches!(row.check.judge, Judge::Rating | Judge::SignedRating);
    rating && row.check.measure == fit::Measure::Weight && row.missing.is_empty()
}

/// The ramp crossed with its head at a grade, in every case.
///
/// # Errors
/// [`Unfit`] when the trailer does not rest on its wheels on level ground.
pub fn at_grade(rig: &Rig, ramp: usize, grade: Slope) -> Result<AtGrade, Unfit> {
    let mut steeper = rig.clone();
    let runs = &mut steeper.proposed.ramps[ramp].profile;
    let steepness = |run: &crate::rig::Run| run.grade.map_or(0.0, Quantity::si);
    if let Some(head) = runs.iter_mut().max_by(|a, b| steepness(a).total_cmp(&steepness(b))) {
        head.grade = Some(grade);
    }
    let (_, crossings) = crossed(&steeper, ramp)?;
    let rows = fit::ramp_rows(&steeper.proposed, &crossings);
    Ok(AtGrade { grade, crossings, rows })
}

/// The ramp's crossings as the rig stands, one a case.
fn crossed(rig: &Rig, ramp: usize) -> Result<(Vec<CaseLoads>, Vec<RampLoads>), Unfit> {
    let model = Model::new(rig);
    let cases = model.loads()?;
    let cross = |case| RampLoads { ramp, case, peaks: model.peaks(ramp, case) };
    let crossings = (0..rig.proposed.cases.len()).map(cross).collect();
    Ok((cases, crossings))
}

/// The steepest grade up to which every rating holds, to a tenth of a percent; none when the gentlest of the
/// grades fails already.
///
/// `looked_at` are the grades in rising order. A grade above the first that fails is not asked for again.
///
/// # Errors
/// As [`at_grade`].
pub fn steepest(rig: &Rig, ramp: usize, looked_at: &[AtGrade]) -> Result<Option<Slope>, Unfit> {
    let holding = looked_at.iter().take_while(|at| at.holds()).count();
    let Some(last_holding) = holding.checked_sub(1) else { return Ok(None) };
    let mut low = looked_at[last_holding].grade.si();
    let Some(failing) = looked_at.get(holding) else { return Ok(Some(Slope(low))) };
    let mut high = failing.grade.si();
    while high - low > GRADE_WITHIN {
        let middle = f64::midpoint(low, high);
        if at_grade(rig, ramp, Slope(middle))?.holds() {
            low = middle;
        } else {
            high = middle;
        }
    }
    Ok(Some(Slope(low)))
}

/// The least travel of the equalizers that keeps the rear axle loaded all over the ramp; zero where it needs none.
///
/// None on a trailer without equalizers, where the loads are unknown, or where no travel does it.
///
/// # Errors
/// As [`at_grade`].
pub fn least_equalizer_travel(rig: &Rig, ramp: usize) -> Result<Option<Length>, Unfit> {
    let several = rig.proposed.trailer.axles.len() > 1;
    if rig.proposed.trailer.suspension.kind != Some(SuspensionKind::LeafEqualized) || !several {
        return Ok(None);
    }
    let stays_loaded = |travel: f64| -> Result<bool, Unfit> {
        let mut changed = rig.clone();
        // The suspension is what was measured: both states have it.
        for setup in [&mut changed.measured, &mut changed.proposed] {
            setup.trailer.suspension.equalizer_travel = Some(Length::from_si(travel));
        }
        let (_, crossings) = crossed(&changed, ramp)?;
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
