//! How far every load lies inside every limit it must keep: what a search for a passing spot looks at.

use super::assess::{Occurrence, counts, subjects_of};
use super::check::{Bounds, Check, Judge, Of, SAME_SIZE, judge, not_by_a_hair};
use super::known::{Known, both};
use super::loads::{Model, Unfit};
use super::needs::Needs;
use super::registry::CHECKS;
use crate::rig::Setup;

/// Which end of a check's limits is meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// The load may not be less.
    Min,
    /// The load may not be more.
    Max,
}

/// One limit on one load: an end of a check's limits, in one case, over one ramp.
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
    /// Whether it must hold.
    pub counts: bool,
}

impl Limit {
    /// The id of the check's row, with the axle's number.
    pub fn id(&self) -> String {
        self.of.fill(self.check.id)
    }

    /// Whether both are limits of one row, on the same side.
    pub fn is_like(&self, other: &Self) -> bool {
        self.check == other.check && self.of == other.of && self.side == other.side
    }
}

/// A load against one limit, in SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gap {
    /// The load; none where what should hold is unloaded.
    pub load: Option<f64>,
    /// The limit.
    pub limit: f64,
    /// How far the load lies inside the limit: negative outside, and minus infinity where nothing holds.
    pub inside: f64,
    /// Load over rating, or the place inside a band: 0 in its middle, 1 at its ends.
    pub used: Option<f64>,
}

/// Which checks a search looks at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum About {
    /// All but those over ramps.
    Level,
    /// Those over ramps: each ramp is crossed in each case.
    Ramps,
}

impl About {
    fn covers(self, check: &Check) -> bool {
        check.is_about_ramps() == (self == Self::Ramps)
    }
}

impl Model<'_> {
    /// Every limit with its load's gap, or what is missing, in the registry's order.
    ///
    /// A check holds where no gap of its row is negative. A row that is only there for some places, such as a
    /// crossmember's that the boat lies over, has gaps only there. Where a trailer is stranded on a ramp the gap is
    /// unknown, and no key is missing.
    ///
    /// # Errors
    /// [`Unfit`] when the trailer does not rest on its wheels on level ground.
    pub fn gaps(&self, about: About) -> Result<Vec<(Limit, Known<Gap>)>, Unfit> {
        let setup = self.proposed();
        let checks = CHECKS.iter().filter(|check| about.covers(check));
        let worked = self.work(Needs::of(checks.clone()))?;
        let loads = worked.loads(setup);
        let mut gaps = Vec::new();
        for check in checks {
            for of in subjects_of(check, setup) {
                let counts = counts(check, &of, setup);
                let first = gaps.len();
                loads.visit(check, of.element(), |Occurrence { case, ramp, load }| {
                    let known = both(load, loads.limits(check, of.element(), ramp));
                    for side in sides(check.judge) {
                        let gap = match known.clone() {
                            Ok((load, limits)) => match gap(check.judge, *side, load, limits) {
                                Some(gap) => Ok(gap),
                                // There is no limit on that side.
                                None => continue,
                            },
                            Err(missing) => Err(missing),
                        };
                        let limit = Limit { check, of: of.clone(), side: *side, case, ramp, counts };
                        keep_the_lesser(&mut gaps, first, limit, gap);
                    }
                });
            }
        }
        Ok(gaps)
    }
}

/// Adds a limit's gap to a row's, which begin at `first`; of two loads on one limit, as a tire's on either side, the one
/// that leaves less counts.
fn keep_the_lesser(gaps: &mut Vec<(Limit, Known<Gap>)>, first: usize, limit: Limit, gap: Known<Gap>) {
    match gaps[first..].iter_mut().find(|(other, _)| *other == limit) {
        Some((_, Ok(kept))) => {
            if let Ok(gap) = gap
                && gap.inside < kept.inside
            {
                *kept = gap;
            }
        }
        Some(_) => {}
        None => gaps.push((limit, gap)),
    }
}

/// Whether any check over ramps must hold.
pub fn ramps_count(setup: &Setup) -> bool {
    let over_ramps = CHECKS.iter().filter(|check| About::Ramps.covers(check));
    over_ramps.into_iter().any(|check| subjects_of(check, setup).any(|of| counts(check, &of, setup)))
}

fn sides(judge: Judge) -> &'static [Side] {
    match judge {
        Judge::Rating | Judge::Ceiling => &[Side::Max],
        Judge::Floor => &[Side::Min],
        Judge::SignedRating | Judge::FlooredRating | Judge::Band | Judge::Size => &[Side::Min, Side::Max],
    }
}

/// A load against one side of its limits, if there is one.
fn gap(how: Judge, side: Side, load: Option<f64>, limits: Bounds) -> Option<Gap> {
    let limit = match side {
        Side::Min => limits.min?,
        Side::Max => limits.max?,
    };
    let Some(load) = load else {
        return Some(Gap { load: None, limit, inside: f64::NEG_INFINITY, used: None });
    };
    let plain = match side {
        Side::Min => load - limit,
        Side::Max => limit - load,
    };
    // As [`judge`] has it.
    let inside = match how {
        Judge::Size => plain + SAME_SIZE,
        Judge::Floor | Judge::Ceiling => not_by_a_hair(plain),
        Judge::Rating | Judge::SignedRating | Judge::FlooredRating | Judge::Band => plain,
    };
    Some(Gap { load: Some(load), limit, inside, used: judge(how, load, limits, 0.0).used })
}
