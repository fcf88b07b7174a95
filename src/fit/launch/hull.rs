//! The hull that floats, by what the file says of its shape.

use crate::fit::known::{Known, Missing, both, each, known, need};
use crate::mechanics::launch::ProfilePoint;
use crate::mechanics::launch::hull::{BadHull, HalfPoint, HullByTape, HullLines, HullSection, Waterline};
use crate::quantity::{Angle, Length, Quantity};
use crate::rig::inputs::{
    BOAT_AFLOAT_DRAFT, BOAT_AFLOAT_EYE, BOAT_BOW_EYE_HEIGHT, BOAT_BOW_EYE_STATION,
    BOAT_HULL_CHINE_HALF_BREADTH, BOAT_HULL_DEADRISE, BOAT_HULL_STRAIGHT_RUN, BOAT_LENGTH,
    BOAT_SECTIONS_CHINE_HALF_BREADTH, BOAT_SECTIONS_CHINE_HEIGHT, BOAT_SECTIONS_KEEL,
    BOAT_SECTIONS_SHEER_HALF_BREADTH, BOAT_SECTIONS_SHEER_HEIGHT, BOAT_SECTIONS_STATION,
};
use crate::rig::{Afloat, HullEdge, Setup};

/// What a hull's shape is known by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HullBy {
    /// Its sections.
    Sections,
    /// A tape: length, chine, deadrise and straight run.
    Tape,
    /// Nothing, but how she floats was taped afloat.
    Afloat,
}

impl HullBy {
    /// How the file describes the shape, or would.
    pub fn of(setup: &Setup) -> Self {
        match setup.boat.afloat {
            _ if !setup.boat.sections.is_empty() => Self::Sections,
            Afloat { draft: None, eye: None } => Self::Tape,
            _ if setup.boat.hull.chine.half_breadth.is_some() => Self::Tape,
            _ => Self::Afloat,
        }
    }
}

/// The hull's shape.
///
/// # Errors
/// The keys that are missing; inside, why what the file states is no hull.
pub(super) fn hull(setup: &Setup) -> Known<Result<HullLines, BadHull>> {
    match HullBy::of(setup) {
        HullBy::Sections => sections(setup).map(|sections| HullLines::new(&sections)),
        // Measures that make no hull by tape ask for its sections.
        HullBy::Tape => by_tape(setup).and_then(|tape| {
            HullLines::by_tape(&tape).map(Ok).map_err(|_| Missing::key(BOAT_SECTIONS_STATION.of(0)))
        }),
        HullBy::Afloat => need(setup, BOAT_BOW_EYE_STATION).map(|length| Ok(HullLines::unknown(length))),
    }
}

fn sections(setup: &Setup) -> Known<Vec<HullSection>> {
    each(setup.boat.sections.iter().enumerate().map(|(i, section)| {
        let along = both(
            known(section.station, BOAT_SECTIONS_STATION.of(i)),
            known(section.keel, BOAT_SECTIONS_KEEL.of(i)),
        );
        let edge = |edge: HullEdge, half_breadth, height| {
            both(known(edge.half_breadth, half_breadth), known(edge.height, height))
                .map(|(half_breadth, height)| HalfPoint { half_breadth, height })
        };
        let chine =
            edge(section.chine, BOAT_SECTIONS_CHINE_HALF_BREADTH.of(i), BOAT_SECTIONS_CHINE_HEIGHT.of(i));
        let sheer =
            edge(section.sheer, BOAT_SECTIONS_SHEER_HALF_BREADTH.of(i), BOAT_SECTIONS_SHEER_HEIGHT.of(i));
        let ((station, keel), (chine, sheer)) = both(along, both(chine, sheer))?;
        Ok(HullSection { station, keel, chine, sheer })
    }))
}

fn by_tape(setup: &Setup) -> Known<HullByTape> {
    let ends = both(need(setup, BOAT_LENGTH), need(setup, BOAT_HULL_STRAIGHT_RUN));
    let bottom = both(need(setup, BOAT_HULL_CHINE_HALF_BREADTH), deadrise(setup));
    let ((length, straight_run), ((chine_half_breadth, deadrise), bow_eye)) =
        both(ends, both(bottom, bow_eye(setup)))?;
    Ok(HullByTape { length, chine_half_breadth, deadrise, straight_run, bow_eye })
}

/// The deadrise at the transom: the aftmost that the file lists, or that of the first section.
pub(super) fn deadrise(setup: &Setup) -> Known<Angle> {
    let hull = &setup.boat.hull;
    let listed = hull.deadrise_at.first().and_then(|at| at.deadrise);
    let by_section = setup.boat.sections.first().and_then(|section| {
        let rise = section.chine.height? - section.keel?;
        Some(Angle::from_si(rise.si().atan2(section.chine.half_breadth?.si())))
    });
    known(hull.deadrise.or(listed).or(by_section), BOAT_HULL_DEADRISE.key())
}

/// How the boat floats, where nothing else is known of her shape.
///
/// # Errors
/// The keys that are missing; none where the two figures fit no trim.
pub(super) fn taped_afloat(setup: &Setup) -> Known<Option<Waterline>> {
    if HullBy::of(setup) != HullBy::Afloat {
        return Ok(None);
    }
    let figures = both(need(setup, BOAT_AFLOAT_DRAFT), need(setup, BOAT_AFLOAT_EYE));
    let ((draft, above), eye) = both(figures, bow_eye(setup))?;
    Waterline::taped(draft, above, eye).map(Some).ok_or_else(Missing::default)
}

/// The bow eye.
pub(super) fn bow_eye(setup: &Setup) -> Known<ProfilePoint> {
    let eye: Known<(Length, Length)> =
        both(need(setup, BOAT_BOW_EYE_STATION), need(setup, BOAT_BOW_EYE_HEIGHT));
    eye.map(|(station, height)| ProfilePoint { station, height })
}
