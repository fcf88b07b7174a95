//! How large trailer and boat are on the road, against what the file says the law allows.

use crate::fit::check::{Basis, Certainty, Check, Core, Judge, Limits, Load, Measure, Remedy, Rows, Subject};
use crate::fit::known::{Known, both, gathered, known, need};
use crate::fit::placement::transom_station;
use crate::fit::shared::{once, one};
use crate::quantity::Length;
use crate::rig::inputs::{
    BOAT_BEAM, BOAT_LOW_POINTS_STATION, BOAT_TOP, POLICY_SIZE_HEIGHT, POLICY_SIZE_LENGTH,
    POLICY_SIZE_REAR_PROJECTION, POLICY_SIZE_WIDTH, TRAILER_KEEL_HEIGHT, TRAILER_LENGTH, TRAILER_WIDTH,
};
use crate::rig::{LowPoint, Setup};

const LAW: Basis = Basis {
    limit: "what the file says the law allows where you tow; no national table is built in",
    source: "the owner's reading of the law, in policy.size",
    certainty: Certainty::CommonPractice,
};

/// What the sizes have in common.
const SIZE: Check = Check {
    id: "",
    name: "",
    what: "",
    formula: "",
    basis: LAW,
    measuring: "",
    cures: "",
    measure: Measure::Length,
    rows: Rows::RIG,
    subject: Subject::Road,
    judge: Judge::Ceiling,
    core: Core::No,
    remedies: &[],
    too_much: "",
    too_little: "",
    load: Load::described(|view, _| one(width(view.setup))),
    limits: |_, _| Limits::default(),
};

/// The checks of size, in the order of reports. They only advise: which law holds, the owner must know.
pub(in crate::fit) static CHECKS: &[Check] = &[
    Check {
        id: "overall-length",
        name: "overall length",
        what: "trailer and boat from the ball aft, against the length that the law allows",
        formula: "from the ball to the aftmost of trailer, transom and the boat's low points",
        measuring: "On level ground tape from a plumb line at the ball to one at the aftmost point. What reaches ahead of the ball is not in it.",
        cures: "Tilt or take off what hangs out astern, or move the boat forward.",
        remedies: &[Remedy::MoveBoat],
        too_much: "trailer and boat are {load} long from the ball, {miss} over the {max} that policy.size allows",
        rows: Rows::one(|setup| once(setup.policy.size.length.is_some())),
        load: Load::described(|view, _| one(length(view.setup))),
        limits: |setup, _| Limits::at_most(need(setup, POLICY_SIZE_LENGTH)).advising(),
        ..SIZE
    },
    Check {
        id: "overall-width",
        name: "overall width",
        what: "the wider of trailer and boat, against the width that the law allows",
        formula: "the greater of trailer.width and boat.beam",
        measuring: "Tape across the fenders, and across the boat at its widest.",
        cures: "A wide load may need a permit: ask the authority.",
        too_much: "trailer and boat are {load} wide, {miss} over the {max} that policy.size allows",
        rows: Rows::one(|setup| once(setup.policy.size.width.is_some())),
        limits: |setup, _| Limits::at_most(need(setup, POLICY_SIZE_WIDTH)).advising(),
        ..SIZE
    },
    Check {
        id: "overall-height",
        name: "overall height",
        what: "the boat's highest point above ground on the trailer, against the height that the law allows",
        formula: "keel above ground + highest point above the keel line, the frame level. Off level that point stands higher or lower, by its distance from the axles times the slope; no key says where it lies, so that this is not in it",
        measuring: "Lay a straight board over the highest point and tape down to level ground, coupled as it is towed: that has the slope in it.",
        cures: "Fold or take down masts, arches and aerials.",
        too_much: "the boat stands {load} high on its trailer, {miss} over the {max} that policy.size allows",
        rows: Rows::one(|setup| once(setup.policy.size.height.is_some())),
        load: Load::described(|view, _| one(height(view.setup))),
        limits: |setup, _| Limits::at_most(need(setup, POLICY_SIZE_HEIGHT)).advising(),
        ..SIZE
    },
    Check {
        id: "rear-projection",
        name: "rear projection",
        what: "how far the boat reaches out behind the trailer, against what the law allows",
        formula: "from the trailer's aft end to the aftmost of transom and the boat's low points",
        measuring: "Tape from a plumb line at the trailer's aft end to one at the boat's aftmost point.",
        cures: "Tilt or take off what hangs out, move the boat forward, or mark the load as the law asks.",
        remedies: &[Remedy::MoveBoat],
        too_much: "the boat reaches {load} out behind the trailer, {miss} over the {max} that policy.size allows",
        rows: Rows::one(|setup| once(setup.policy.size.rear_projection.is_some())),
        load: Load::described(|view, _| {
            let ends = both(boat_end(view.setup), trailer_end(view.setup));
            one(ends.map(|(boat, trailer)| (boat - trailer).max(Length::default())))
        }),
        limits: |setup, _| Limits::at_most(need(setup, POLICY_SIZE_REAR_PROJECTION)).advising(),
        ..SIZE
    },
];

/// From the ball to the aftmost point of trailer and boat.
pub(in crate::fit) fn length(setup: &Setup) -> Known<Length> {
    both(trailer_end(setup), boat_end(setup)).map(|(trailer, boat)| trailer.max(boat))
}

/// The wider of trailer and boat.
pub(in crate::fit) fn width(setup: &Setup) -> Known<Length> {
    both(need(setup, TRAILER_WIDTH), need(setup, BOAT_BEAM)).map(|(trailer, boat)| trailer.max(boat))
}

/// The boat's highest point above ground, the frame level.
pub(in crate::fit) fn height(setup: &Setup) -> Known<Length> {
    both(need(setup, TRAILER_KEEL_HEIGHT), need(setup, BOAT_TOP)).map(|(keel, top)| keel + top)
}

/// The trailer's aft end behind the ball.
fn trailer_end(setup: &Setup) -> Known<Length> {
    Ok(need(setup, TRAILER_LENGTH)? - setup.shift.tongue.unwrap_or_default())
}

/// The boat's aftmost point behind the ball: what hangs lower than its keel may reach out behind the transom.
fn boat_end(setup: &Setup) -> Known<Length> {
    let station =
        |(i, point): (usize, &LowPoint)| known(point.station, BOAT_LOW_POINTS_STATION.of(i)).map(|at| -at);
    let points = setup.boat.low_points.iter().enumerate().map(station);
    let astern = gathered(points, |astern| astern.fold(Length::default(), Length::max));
    both(transom_station(setup), astern).map(|(transom, astern)| transom + astern)
}
