//! The hull's bottom over the bunks: where it can bear, its deadrise, its keel, and the lines that edges land on.

use super::layout::half_spacings;
use crate::fit::known::{Known, Missing, both, need};
use crate::fit::placement::transom_station;
use crate::mechanics::bunks::Stretch;
use crate::quantity::{Angle, Length, Quantity};
use crate::rig::Setup;

/// A keel this much off what the bunks give contradicts them: half an inch, in metres. Common practice, no source.
pub(in crate::fit) const KEEL_OFF: f64 = 0.0127;

/// The deadrise that the bunks are cut to: the least where they may bear.
///
/// # Errors
/// The keys that are missing.
pub fn deadrise(setup: &Setup) -> Known<Angle> {
    need(setup.boat.hull.least_deadrise(), "boat.hull.deadrise")
}

/// The deadrise that presses sideways: the greatest where the bunks may bear.
///
/// # Errors
/// The keys that are missing.
pub fn steepest(setup: &Setup) -> Known<Angle> {
    need(setup.boat.hull.greatest_deadrise(), "boat.hull.deadrise")
}

/// The part of the bottom that bunks can bear on, behind the ball.
///
/// # Errors
/// The keys that are missing.
pub fn straight_run(setup: &Setup) -> Known<Stretch> {
    let hull = &setup.boat.hull;
    let end = need(hull.straight_run, "boat.hull.straight_run");
    let (transom, end) = both(transom_station(setup), end)?;
    let at = |station: Length| transom - station;
    Ok(Stretch { forward: at(end), aft: at(hull.support_from.unwrap_or_default()) })
}

/// The keel above level ground, for clearances: as the file states it, or what its bunks give where that is lower by
/// more than a tape's error.
///
/// # Errors
/// The keys that are missing.
pub fn safe_keel(setup: &Setup) -> Known<Length> {
    let stated = need(setup.trailer.keel_height, "trailer.keel_height")?;
    let by_bunks = setup.keel_on_bunks().filter(|by_bunks| (stated - *by_bunks).si() > KEEL_OFF);
    Ok(by_bunks.unwrap_or(stated))
}

/// The bunks' outer upper edge at which the keel comes to a height, at their present spacing.
pub(super) fn top_for(setup: &Setup, keel: Length) -> Known<Length> {
    let ([port, starboard], deadrise) = both(half_spacings(setup), deadrise(setup))?;
    Ok(keel + (port + starboard) / 2.0 * deadrise.si().tan())
}

/// The line along the hull that a bunk's outer edge lies nearest to.
#[derive(Debug, Clone, PartialEq)]
pub struct Landing {
    /// The strake's name; none is the chine.
    pub strake: Option<String>,
    /// How far outside the line the edge lies; negative inside.
    pub miss: Length,
}

/// The lines that the port and the starboard bunk's outer edges land on, the nearest each.
///
/// # Errors
/// The keys that are missing.
pub fn landings(setup: &Setup) -> Known<[Landing; 2]> {
    let hull = &setup.boat.hull;
    let strakes = hull.strakes.iter().filter_map(|strake| Some((strake.name.clone(), strake.half_breadth?)));
    let chine = hull.chine.half_breadth.map(|half_breadth| (None, half_breadth));
    let lines: Vec<(Option<String>, Length)> = strakes.chain(chine).collect();
    let spacings = half_spacings(setup);
    if lines.is_empty() {
        let missing = Missing::of("boat.hull.strakes.*.half_breadth", 0);
        return Err(spacings.map_or_else(|lacking| lacking.and(missing.clone()), |_| missing.clone()));
    }
    Ok(spacings?.map(|edge| {
        let misses = lines.iter().map(|(name, line)| (name, edge - *line));
        let nearest = misses.min_by(|(_, a), (_, b)| a.abs().si().total_cmp(&b.abs().si()));
        let (strake, miss) = nearest.map_or((None, Length::default()), |(name, miss)| (name.clone(), miss));
        Landing { strake, miss }
    }))
}
