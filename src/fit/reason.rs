//! What decides a rig's verdict besides its rows.

use super::asked::{Asked, Moved, matches};
use super::check::Judge;
use super::check::{Certainty, Check};
use super::comparison::Fold;
use super::facts::Facts;
use super::placement::ahead_of_ball;
use super::road::CaseLoads;
use super::verdict::{RigVerdict, Verdict};
use crate::quantity::{Angle, Length, Quantity, Weight};
use crate::rig::inputs::{POLICY_TONGUE_SHARE_MAX, POLICY_TONGUE_SHARE_MIN};
use crate::rig::{Implausible, Reach, Setup, usual_tongue_share};

/// A frame this far from level is not what its figures were measured on: 5 degrees.
const TOO_STEEP: f64 = 5.0 * std::f64::consts::PI / 180.0;
/// A stated band for the tongue share that reaches outside these is a policy of the owner's own.
const USUAL_SHARES: [f64; 2] = [0.04, 0.15];

/// Why a rig is unsure or incomplete, whatever its rows say.
#[derive(Debug, Clone, PartialEq)]
pub enum Reason {
    /// The policy asks for rows of which this rig has none.
    NoSuchRow(String),
    /// The policy alone keeps these rows from failing.
    PolicyDecides(Vec<String>),
    /// A proposal lies outside the travel in the file.
    BeyondTravel {
        /// What is moved.
        part: &'static str,
        /// Where to.
        to: Length,
        /// Where it could go.
        reach: Reach,
    },
    /// The bow stop stands so far ahead of the ball, where no trailer is.
    StopAheadOfBall(Length),
    /// The frame is too far from level as towed.
    Pitched {
        /// The case, counted from 0.
        case: usize,
        /// Nose up positive.
        pitch: Angle,
    },
    /// No such rig has these values: a digit or a unit is probably wrong.
    Implausible(Vec<Implausible>),
    /// Rows hold by the figures that the rig is assessed by, and fail by others that the file gives as well.
    Contradicted {
        /// The figures of the assessment.
        by: Figures,
        /// The others.
        others: Figures,
        /// The ids of the rows.
        rows: Vec<String>,
    },
}

/// What a rig weighs in its first case.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figures {
    /// By what.
    pub source: Source,
    /// The gross trailer weight, where it is known.
    pub gross: Option<Weight>,
    /// The tongue weight, where it is known.
    pub tongue: Option<Weight>,
}

/// Where a rig's weight is known from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Source {
    /// The list of what is aboard.
    Items,
    /// Scales.
    Scales,
    /// Scales under each axle.
    AxlesWeighed,
}

impl Figures {
    /// Those of assessed cases.
    pub(super) fn of(cases: &[CaseLoads], source: Source) -> Self {
        let case = cases.first();
        let gross = case.and_then(|case| case.gross.clone().ok());
        let tongue = case.and_then(|case| Some(case.level.as_ref().ok()?.stance.tongue_weight));
        Self { source, gross, tongue }
    }
}

impl Reason {
    /// The best that a rig can be by it.
    pub fn lowers_to(&self) -> RigVerdict {
        match self {
            Self::NoSuchRow(_) => RigVerdict::Incomplete,
            Self::PolicyDecides(_)
            | Self::BeyondTravel { .. }
            | Self::StopAheadOfBall(_)
            | Self::Pitched { .. }
            | Self::Implausible(_)
            | Self::Contradicted { .. } => RigVerdict::Unsure,
        }
    }
}

/// The best that a rig can be by all of them.
pub fn lowered(reasons: &[Reason]) -> RigVerdict {
    let to = |verdict| reasons.iter().any(|reason| reason.lowers_to() == verdict);
    [RigVerdict::Incomplete, RigVerdict::Unsure]
        .into_iter()
        .find(|verdict| to(*verdict))
        .unwrap_or(RigVerdict::Pass)
}

/// Every reason that a proposal gives by itself; figures that contradict each other need another assessment.
pub(super) fn reasons(rows: &[Asked], setup: &Setup, facts: &Facts) -> Vec<Reason> {
    let mut found = no_such_rows(rows, setup);
    let decided = decided_by_policy(rows, setup, facts);
    if !decided.is_empty() {
        found.push(Reason::PolicyDecides(decided));
    }
    found.extend(beyond_travel(setup).map(|(part, to, reach)| Reason::BeyondTravel { part, to, reach }));
    found.extend(ahead_of_ball(setup).map(Reason::StopAheadOfBall));
    found.extend(pitched(facts));
    let implausible = setup.implausible();
    found.extend((!implausible.is_empty()).then_some(Reason::Implausible(implausible)));
    found
}

fn no_such_rows(rows: &[Asked], setup: &Setup) -> Vec<Reason> {
    let names =
        |pattern: &String| rows.iter().any(|asked| asked.is_there(setup) && matches(pattern, &asked.id));
    let unnamed = setup.policy.counts.iter().filter(|pattern| !names(pattern));
    unnamed.map(|pattern| Reason::NoSuchRow(pattern.clone())).collect()
}

/// The rows that a policy keeps from failing by a stamp, a published limit or statics.
fn decided_by_policy(rows: &[Asked], setup: &Setup, facts: &Facts) -> Vec<String> {
    let would_fail = |asked: &&Asked| {
        let kept = asked.moved == Some(Moved::Advises) && !is_mere_practice(asked.check);
        kept && asked.is_there(setup)
            && Fold::of(&asked.unmoved(), setup, facts, 0.0).verdict() == Verdict::Fail
    };
    let mut ids: Vec<String> = rows.iter().filter(would_fail).map(|asked| asked.id.clone()).collect();
    let share = rows.iter().find(|asked| asked.check.id == TONGUE_SHARE);
    if share.is_some() && !ids.iter().any(|id| id == TONGUE_SHARE) && band_decides(setup, facts) {
        ids.push(TONGUE_SHARE.to_string());
    }
    ids
}

const TONGUE_SHARE: &str = "tongue-share";

/// Whether a stated band reaches outside the usual shares and so keeps a share that the usual band would fail.
fn band_decides(setup: &Setup, facts: &Facts) -> bool {
    let band = setup.policy.tongue_share;
    let [least, most] = USUAL_SHARES;
    let stated = |key| !setup.is_assumed(key);
    let below = stated(POLICY_TONGUE_SHARE_MIN.key()) && band.min.is_some_and(|min| min.si() < least);
    let above = stated(POLICY_TONGUE_SHARE_MAX.key()) && band.max.is_some_and(|max| max.si() > most);
    let ([usual, _], _) = usual_tongue_share(setup.policy.rules);
    let shares = || facts.cases.iter().filter_map(|case| case.tongue_share().ok()).map(Quantity::si);
    (below && shares().any(|share| share < usual.si())) || (above && shares().any(|share| share > most))
}

/// Whether a check's limit is common practice, and neither a stamp nor a size.
fn is_mere_practice(check: &Check) -> bool {
    let rule = matches!(check.judge, Judge::Ceiling | Judge::Band | Judge::Between | Judge::Floor);
    rule && check.basis.certainty == Certainty::CommonPractice
}

/// Every part that a proposal moves farther than the file's travel, where to, and where it could go.
pub(super) fn beyond_travel(setup: &Setup) -> impl Iterator<Item = (&'static str, Length, Reach)> {
    let (shift, travel) = (setup.shift, setup.travel);
    let parts = [
        ("boat", shift.boat, travel.boat),
        ("axles", shift.axles, travel.axles),
        ("tongue", shift.tongue, travel.tongue),
        ("bunks", shift.bunks, travel.bunks),
    ];
    parts.into_iter().filter_map(|(part, to, reach)| {
        let (to, reach) = (to?, reach?);
        (to < reach.from || to > reach.to).then_some((part, to, reach))
    })
}

/// A frame that is too far from level, where it is farthest.
fn pitched(facts: &Facts) -> Option<Reason> {
    let (case, pitch) = farthest_from_level(&facts.cases)?;
    (pitch.abs().si() > TOO_STEEP).then_some(Reason::Pitched { case, pitch })
}

/// The case in which the frame is farthest from level, and its pitch, nose up positive.
pub(super) fn farthest_from_level(cases: &[CaseLoads]) -> Option<(usize, Angle)> {
    let cases = cases.iter().enumerate();
    let pitches = cases.filter_map(|(case, loads)| Some((case, loads.level.as_ref().ok()?.stance.pitch)));
    pitches.reduce(|a, b| if b.1.abs() > a.1.abs() { b } else { a })
}
