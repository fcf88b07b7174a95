//! A frame that does not stand level as towed, and the ball height that levels it.

use super::reason::farthest_from_level;
use super::road::CaseLoads;
use super::scope::Scope;
use crate::quantity::{Angle, Length, Quantity, Weight};
use crate::rig::inputs::TOW_BALL_HEIGHT;
use crate::rig::{Rig, SuspensionKind};

/// A frame this far from level is worth a word: 1 degree.
const NOTABLE: f64 = std::f64::consts::PI / 180.0;
/// Torsion axles share by how level the frame is; loads farther apart than this share of their mean are worth a word.
const APART: f64 = 0.1;
/// Below this, in radians, the ball's height does not keep the frame from being level: a twentieth of a degree.
const LEVEL: f64 = NOTABLE / 20.0;

/// A frame that does not stand level as towed, or whose torsion axles share unevenly.
#[derive(Debug, Clone, PartialEq)]
pub struct OffLevel {
    /// The case, counted from 0.
    pub case: usize,
    /// Nose up positive.
    pub pitch: Angle,
    /// The least and the greatest axle load, where torsion axles share unevenly.
    pub apart: Option<[Weight; 2]>,
    /// The ball height that levels it there, where the ball is at another.
    pub levels_at: Option<Length>,
}

/// The case in which the frame is farthest from level, where that is notable, else the first in which torsion axles
/// share unevenly.
pub(super) fn off_level(rig: &Rig, cases: &[CaseLoads]) -> Option<OffLevel> {
    let torsion = rig.proposed().trailer.suspension.kind == Some(SuspensionKind::Torsion);
    let apart = |case: &usize| axles_apart(&cases[*case]).filter(|_| torsion);
    let pitched = farthest_from_level(cases).filter(|(_, pitch)| pitch.abs().si() > NOTABLE);
    let case =
        pitched.map(|(case, _)| case).or_else(|| (0..cases.len()).find(|case| apart(case).is_some()))?;
    let pitch = cases[case].level.as_ref().ok()?.stance.pitch;
    let levels_at = if pitch.abs().si() > LEVEL { levels_at(rig, case, pitch) } else { None };
    Some(OffLevel { case, pitch, apart: apart(&case), levels_at })
}

/// The least and the greatest axle load, where they are far apart.
fn axles_apart(case: &CaseLoads) -> Option<[Weight; 2]> {
    let loads = &case.level.as_ref().ok()?.stance.axle_loads;
    let sizes = || loads.iter().map(|load| load.si());
    let (least, most) = (sizes().fold(f64::INFINITY, f64::min), sizes().fold(0.0, f64::max));
    let mean = sizes().sum::<f64>() / sizes().count() as f64;
    (most - least > APART * mean).then(|| [least, most].map(Weight::from_si))
}

/// The ball height that levels the frame in a case: a first guess as if the frame turned about its axles without
/// springs, then along the straight line through both. Springs make that line bend by next to nothing.
fn levels_at(rig: &Rig, case: usize, pitch: Angle) -> Option<Length> {
    let setup = rig.proposed();
    let ball = setup.tow.ball_height?.si();
    let stations: Option<Vec<f64>> =
        setup.trailer.axles.iter().map(|axle| Some(axle.station?.si())).collect();
    let stations = stations?;
    let mean = stations.iter().sum::<f64>() / stations.len() as f64;
    let guess = ball - pitch.si().tan() * mean;
    let variable = rig.variable(TOW_BALL_HEIGHT.path()).ok()?;
    let lower = rig.changed(&variable, guess).ok()?;
    let facts =
        Scope::of(lower.proposed(), |asked| asked.check.id == "tongue-uplift").facts(&lower, None).ok()?;
    let left = facts.cases.get(case)?.level.as_ref().ok()?.stance.pitch.si();
    // h = h1 − φ1 (h0 − h1) / (φ0 − φ1)
    Some(Length::from_si(guess - left * (ball - guess) / (pitch.si() - left)))
}
