//! The checks of the ramps: the worst moments of every crossing.

use super::{Friction, ramp_points};
use crate::fit::check::{
    At, Basis, Certainty, Check, Core, Judge, Limits, Load, Measure, Of, Reading, Remedy, Rows, Subject,
    axles,
};
use crate::fit::known::{Known, known};
use crate::fit::road::tire_allowed;
use crate::fit::shared::{
    AXLES, GAWR_RULE, MOVE, SLOW_AXLE, SLOW_TIRE, STAMPED, TIRE_BASIS, TIRES, against_tongue_ratings,
    axle_rating, least_clearance, least_tongue_rating, once, one, slowly,
};
use crate::quantity::{Quantity, Share};
use crate::rig::inputs::RAMPS_FRICTION;
use crate::rig::{MAX_AXLES, NO_LOW_POINTS, Setup, slug};

const RAMP_GAWR: Basis = Basis {
    limit: "the placard value in the file; a rating is a road rating and the moment is slow",
    source: GAWR_RULE,
    certainty: Certainty::Read,
};
const FRICTION: Basis = Basis {
    limit: "the ramp's friction in the file, or the wet ramp's assumed",
    source: "wet ramps with weed: 30 to 40 %; clean wet concrete 50 to 70 %",
    certainty: Certainty::CommonPractice,
};
const START: Basis = Basis {
    limit: FRICTION.limit,
    source: "a gentle start of 0.03 g, and the same wet ramps",
    certainty: Certainty::CommonPractice,
};
const TOUCH: Basis = Basis {
    limit: "the policy's least clearance; below zero it touches",
    source: "geometry",
    certainty: Certainty::Derived,
};
const RAMP_TAPE: &str = "Measure the ramp's grades with a 4 ft level, and where they change; the springs' and equalizers' figures matter most.";

/// The checks of this subject, in the order of reports.
pub(in crate::fit) static CHECKS: &[Check] = &[
    Check {
        id: "ramp-rest",
        name: "rest on the wheels on the ramp",
        what: "whether the trailer rests on its wheels all over the ramp: 1 where it does, else 0",
        formula: "a pitch within 44 deg of level that balances the trailer on ball and wheels, at every position of the traverse",
        basis: Basis { limit: "it rests", source: "statics", certainty: Certainty::Derived },
        measuring: RAMP_TAPE,
        cures: "A gentler ramp. Where the springs' figures are assumed, measure them.",
        measure: Measure::Share,
        rows: A_RAMP,
        subject: Subject::Ramp,
        judge: Judge::Floor,
        core: Core::No,
        remedies: &[],
        too_much: "",
        too_little: "on the ramp, the trailer does not rest on its wheels all the way",
        load: Load::on_ramp(|view, _| one(Ok(Share::from_si(f64::from(view.rests()?))))),
        limits: |_, _| Limits::at_least(Ok(Share::from_si(1.0))),
    },
    Check {
        id: "ramp-axle-*",
        name: "axle * on the ramp",
        what: "greatest load of axle * over the ramp, against its rating",
        formula: "the greatest N of the axle at any position of the traverse, every step and every event settled",
        basis: RAMP_GAWR,
        measuring: RAMP_TAPE,
        cures: "A gentler or eased head, longer equalizers, the ball lower, less weight aboard, or axles of a higher rating on springs no stiffer.",
        measure: Measure::Weight,
        rows: RAMP_AXLES,
        subject: Subject::Ramp,
        judge: Judge::Rating,
        core: Core::No,
        remedies: AXLES,
        too_much: "on the ramp, axle * carries {load}, {miss} over its rating of {max}",
        too_little: "",
        load: Load::on_ramp(|view, axle| one(Ok(view.peaks()?.axles[axle].greatest.value))),
        limits: |setup, at| slowly(axle_rating(setup, at.of), SLOW_AXLE),
    },
    Check {
        id: "ramp-tire-*",
        name: "tires of axle * on the ramp",
        what: "greatest load of a tire of axle * over the ramp, against the tire's rating",
        formula: "as for the tire, at the worst position of the traverse",
        basis: TIRE_BASIS,
        measuring: RAMP_TAPE,
        cures: "As for the axle on the ramp, or tires of a higher load range on wheels rated for them.",
        measure: Measure::Weight,
        rows: RAMP_AXLES,
        subject: Subject::Ramp,
        judge: Judge::Rating,
        core: Core::No,
        remedies: TIRES,
        too_much: "on the ramp, a tire of axle * carries {load}, {miss} over the {max} that it may at its pressure",
        too_little: "",
        load: Load::on_ramp(|view, axle| one(view.peaks()?.axles[axle].tire.clone().map(|peak| peak.value))),
        limits: |setup, at| slowly(tire_allowed(setup, at.of), SLOW_TIRE),
    },
    Check {
        id: "ramp-tongue",
        name: "tongue on the ramp",
        what: "tongue weight over the ramp, against the least tongue rating and against zero",
        formula: "V at every position: the greatest, or the least where it is negative",
        basis: STAMPED,
        measuring: RAMP_TAPE,
        cures: "Negative: the tow vehicle is being lifted and its parking brake unloaded; move the boat forward or use a gentler ramp. Too much: the ball is high over the ramp; a lower ball, a gentler ramp or a higher rating.",
        measure: Measure::Weight,
        rows: A_RAMP,
        subject: Subject::Ramp,
        judge: Judge::SignedRating,
        core: Core::No,
        remedies: MOVE,
        too_much: "on the ramp, the tongue carries {load}, {miss} over the least tongue rating ({max})",
        too_little: "on the ramp, the trailer lifts the tow vehicle: tongue weight falls to {load}",
        load: Load::on_ramp(|view, _| {
            let (least, greatest) = (view.peaks()?.tongue_least.value, view.peaks()?.tongue_greatest.value);
            Ok(against_tongue_ratings(view.setup, if least.si() < 0.0 { least } else { greatest }))
        }),
        limits: |setup, _| Limits::up_to(least_tongue_rating(setup)).advising(),
    },
    Check {
        id: "ramp-traction-drive",
        name: "traction of the drive wheels as they start on the ramp",
        what: "friction the drive wheels need to start pulling the rig out, against what the wet ramp gives",
        formula: "as at a steady speed, with a start of 0.03 g more, inertia at the centres of gravity of trailer and tow vehicle",
        basis: START,
        measuring: RAMP_TAPE,
        cures: "Four driven wheels, weight over the driven axle, a gentler or cleaner ramp, a lighter load.",
        measure: Measure::Share,
        rows: A_RAMP,
        subject: Subject::Ramp,
        judge: Judge::Rating,
        core: Core::No,
        remedies: &[],
        too_much: "on the ramp, the drive wheels need a friction of {load} to start pulling the rig out; the wet ramp gives {max}",
        too_little: "",
        load: Load::traction(|view, _| friction(&view.peaks()?.drive)),
        limits: |setup, at| friction_limit(setup, at).advising(),
    },
    Check {
        id: "ramp-traction-steady",
        name: "traction of the drive wheels on the ramp",
        what: "friction the drive wheels need to pull the rig out at a steady speed, against what the wet ramp gives",
        formula: "tangential over normal force at the driven axle, the tow vehicle balanced in its own plane, with a rolling resistance of 0.015 of every wheel's load",
        basis: FRICTION,
        measuring: RAMP_TAPE,
        cures: "Four driven wheels, weight over the driven axle, a gentler or cleaner ramp, a lighter load.",
        measure: Measure::Share,
        rows: A_RAMP,
        subject: Subject::Ramp,
        judge: Judge::Rating,
        core: Core::No,
        remedies: &[],
        too_much: "on the ramp, the drive wheels need a friction of {load} to pull the rig out; the wet ramp gives {max}",
        too_little: "",
        load: Load::traction(|view, _| friction(&view.peaks()?.steady)),
        limits: friction_limit,
    },
    Check {
        id: "ramp-traction-parked",
        name: "hold of the parking brake on the ramp",
        what: "friction the parking brake's wheels need over the ramp, against what the wet ramp gives",
        formula: "tangential over normal force at the axle that the parking brake holds, the rig at rest",
        basis: FRICTION,
        measuring: RAMP_TAPE,
        cures: "Chock the wheels; a gentler or cleaner ramp; more tongue weight. An unloaded axle holds nothing.",
        measure: Measure::Share,
        rows: A_RAMP,
        subject: Subject::Ramp,
        judge: Judge::Rating,
        core: Core::No,
        remedies: &[],
        too_much: "on the ramp, the parking brake's wheels need a friction of {load}; the wet ramp gives {max}",
        too_little: "",
        load: Load::traction(|view, _| friction(&view.peaks()?.parked)),
        limits: friction_limit,
    },
    Check {
        id: "ramp-clearance-*",
        name: "clearance of * on the ramp",
        what: "least clearance of * above the ground over the ramp",
        formula: "height of the point above the ground below it, at every position of the traverse",
        basis: TOUCH,
        measuring: "On level ground, rig coupled, tape the point's height and how far it lies behind the ball.",
        cures: "Raise the point, shorten what overhangs, or use a gentler or eased head.",
        measure: Measure::Length,
        rows: RAMP_POINTS,
        subject: Subject::Ramp,
        judge: Judge::Floor,
        core: Core::No,
        remedies: &[],
        too_much: "",
        too_little: "on the ramp, * grounds: it would be {miss} below the ground",
        load: Load::clearance(|view, point| one(view.clearance(point))),
        limits: least_clearance,
    },
    Check {
        id: "ramp-bow-clearance",
        name: "bow clearance",
        what: "least distance between the bow and the tow vehicle's body, over the ramp and in a turn",
        formula: "along the tow vehicle's axis: bow's tip less the rear of the body, at every position; on the level o − body + x cos θ in the turn that the policy states",
        basis: TOUCH,
        measuring: "Tape from the ball to the bow's tip, and from the rear axle to the rear of the body.",
        cures: "Move the boat aft, draw the ball mount out, or keep to a gentler head and a wider turn.",
        measure: Measure::Length,
        rows: Rows::RIG,
        subject: Subject::Ramp,
        judge: Judge::Floor,
        core: Core::No,
        remedies: &[Remedy::MoveBoat, Remedy::MoveTongue],
        too_much: "",
        too_little: "the bow runs {miss} into the tow vehicle's body",
        load: Load::clearance(|view, _| one(view.bow())),
        limits: least_clearance,
    },
];

/// One row, where there is a ramp.
const A_RAMP: Rows = Rows::one(|setup| once(!setup.ramps.is_empty()));
/// A row for each axle, where there is a ramp.
const RAMP_AXLES: Rows = Rows::numbered(MAX_AXLES, |setup| {
    axles(if setup.ramps.is_empty() { 0 } else { setup.trailer.axles.len() })
});
/// A row for each point that may ground, with or without a ramp; one more where no low point is listed.
const RAMP_POINTS: Rows = Rows::named(|setup| {
    let mut rows: Vec<Of> =
        ramp_points(setup).enumerate().map(|(i, name)| Of::Point(i, slug(name))).collect();
    if rows.len() == 1 {
        rows.push(Of::Point(1, NO_LOW_POINTS.to_string()));
    }
    rows
});

fn friction(found: &Known<Friction>) -> Known<Reading> {
    found.clone().map(|friction| match friction {
        Friction::Needed(peak) => Reading::One(peak.value.si()),
        Friction::HoldsNothing(_) => Reading::HoldsNothing,
    })
}

/// What a ramp's friction allows; past one that the file states the rig fails.
fn friction_limit(setup: &Setup, at: At) -> Limits {
    let ramp = at.ramp.unwrap_or(0);
    let key = RAMPS_FRICTION.of(ramp);
    let limits = Limits::at_most(known(setup.ramps[ramp].friction, key));
    if setup.is_assumed(key) { limits.advising() } else { limits }
}
