//! The registry of checks: each is declared here once, with its formula, its basis and its cures.
//!
//! To add a check, add an entry and a test of it; the reports, the JSON and `explain` follow.

use super::bunks::{self, Bunk, BunkLoads};
use super::check::{Basis, Bounds, Certainty, Check, Counts, Judge, Load, Measure, Remedy, Rows};
use super::known::{Known, Missing, both, need, need_of};
use super::loads::{Carried, CaseLoads};
use super::ramp::Friction;
use crate::mechanics::bunks::side_thrust;
use crate::quantity::{Length, Pressure, Quantity, Weight};
use crate::rig::{Setup, TireKind, nearest};

/// The check with this id; an axle's number or a low point's name may stand for its `*`, and so may `i` and `NAME`.
pub fn find(id: &str) -> Option<&'static Check> {
    CHECKS.iter().find(|check| match check.stem() {
        Some(stem) => id
            .strip_prefix(stem)
            .is_some_and(|subject| matches!(subject, "*" | "i" | "NAME") || check.is_of(subject)),
        None => check.id == id,
    })
}

/// Whether a policy's pattern can match any row of any check.
pub(super) fn can_match(pattern: &str) -> bool {
    CHECKS.iter().any(|check| check.can_match(pattern))
}

/// The pattern nearest to one that matches no check, if one is near.
pub(super) fn nearest_pattern(pattern: &str) -> Option<String> {
    // Its number or name may be right.
    let subject = pattern.rsplit('-').next().map(str::to_lowercase);
    let mut known: Vec<String> = Vec::new();
    for check in CHECKS {
        known.push(check.id.to_string());
        known.extend(check.stem().zip(subject.as_ref()).map(|(stem, subject)| format!("{stem}{subject}")));
        let hyphens = check.id.match_indices('-').filter(|_| pattern.ends_with('*'));
        known.extend(hyphens.map(|(at, _)| format!("{}-*", &check.id[..at])));
    }
    known.retain(|known| can_match(known));
    nearest(pattern, known.iter().map(String::as_str)).map(str::to_string)
}

/// A passenger-car tire carries less on a trailer. Source: 49 CFR 571.120 S5.1.2.
pub const PASSENGER_DIVISOR: f64 = 1.10;
/// How far a bow stop may be off the bow eye. Common practice, no source.
const BOW_STOP_TOLERANCE: f64 = 2.0 * 0.0254;

const PLACARD: &str = "the placard value in the file";
const GVWR_RULE: &str = "49 CFR 571.3; for a boat trailer it includes what the tow vehicle carries (NHTSA interpretation nht76-3.20, 15 January 1976)";
const GAWR_RULE: &str = "49 CFR 571.3: one axle system, measured at the tire-ground interface";
const TIRE_RULE: &str = "49 CFR 571.120 S5.1.2: the tires' maximum load ratings; a passenger-car tire's is divided by 1.10 (trailers up to 10,000 lb: 571.110 S4.2.2, that section from memory)";
const MAKER: &str = "the maker's rating";

const PLACARD_GAWR: Basis = Basis { limit: PLACARD, source: GAWR_RULE, certainty: Certainty::Read };
const TIRE_BASIS: Basis =
    Basis { limit: "the sidewall value in the file", source: TIRE_RULE, certainty: Certainty::Read };
const STAMPED: Basis =
    Basis { limit: "the stamped value in the file", source: MAKER, certainty: Certainty::CommonPractice };
const TOW_LABEL: Basis = Basis {
    limit: "the door label or manual value in the file",
    source: "49 CFR 571.3 for GVWR and GAWR",
    certainty: Certainty::Read,
};
const TOW_MAKER: Basis = Basis {
    limit: "the door label or manual value in the file",
    source: MAKER,
    certainty: Certainty::CommonPractice,
};

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
const TOUCH: Basis = Basis { limit: "zero: it touches", source: "geometry", certainty: Certainty::Derived };
const RAMP_TAPE: &str = "Measure the ramp's grades with a 4 ft level, and where they change; the springs' and equalizers' figures matter most.";

const NOTHING_BETWEEN: Basis = Basis {
    limit: "the policy's least clearance; where it is silent, zero: it touches",
    source: "geometry",
    certainty: Certainty::Derived,
};
const WOOD: Basis = Basis {
    limit: "the grade's design value with its adjustments, for a lasting load; or the allowable stress in the file",
    source: "National Design Specification Supplement 2018 and its adjustment factors; western cedar, southern pine 4 and 12 in wide and load durations other than two months are from memory",
    certainty: Certainty::Quoted,
};
const TAPE_BUNKS: &str = "Tape the bunks' ends and the crossmembers behind the ball, the boards as they are, and the hull's straight run from the transom.";
const MORE_WOOD: &str = "A deeper board, a board on edge, another crossmember in the longest span, or a crossmember moved to where the load is.";

const LIGHTEN_OR_MOVE: &[Remedy] = &[Remedy::Rating, Remedy::Shed, Remedy::MoveBoat];
const LIGHTEN: &[Remedy] = &[Remedy::Rating, Remedy::Shed];
const TIRES: &[Remedy] = &[Remedy::Tires, Remedy::Shed, Remedy::MoveBoat];
const MOVE: &[Remedy] = &[Remedy::Rating, Remedy::MoveBoat];

const WEIGH_TONGUE: &str = "Weigh at the coupler, frame level, everything aboard as for the trip. A scale under the jack reads more.";
const WEIGH_GROSS: &str = "Weigh the loaded trailer on a truck scale, coupler included: hitched, all axles on the scale, plus the tongue weight.";
const WEIGH_AXLES: &str =
    "Weigh each axle on its own pad of a truck scale, coupled, on level ground, everything aboard.";
const SOLO_AXLES: &str = "Weigh the tow vehicle alone, loaded for the trip, each axle on its own pad; measure its wheelbase and how far the ball stands behind its rear axle.";

/// Every check, in the order of reports.
pub static CHECKS: &[Check] = &[
    Check {
        id: "tongue-share",
        name: "tongue share",
        what: "tongue weight as a share of gross trailer weight",
        formula: "V / W: what the ball carries with the trailer settled on level ground, over boat plus trailer",
        basis: Basis {
            limit: "the policy in the file; where it is silent, 7 to 12 % of gross",
            source: "US boat owners' association, trailering article, 2012: 7 to 12 % for boat trailers, 1 to 2 % less on tandems and triples; boat builders' manuals say 5 to 10 %, vehicle manuals 10 to 15 % for trailers in general",
            certainty: Certainty::Read,
        },
        measuring: WEIGH_TONGUE,
        cures: "Move the boat (forward raises the share), or the axles the other way, or heavy gear in the boat. Too little lets the trailer sway; too much overloads the hitch and the tow vehicle's rear axle.",
        measure: Measure::Share,
        rows: Rows::Rig,
        judge: Judge::Band,
        counts: Counts::Yes,
        core: true,
        remedies: &[Remedy::MoveBoat],
        too_much: "the tongue carries {load} of the gross trailer weight, more than the {max} it may",
        too_little: "the tongue carries only {load} of the gross trailer weight, less than the {min} it needs",
        load: Load::InCase(|_, case, _| case.tongue_share().map(Quantity::si)),
        limits: |setup, _| {
            let band = setup.policy.tongue_share;
            let (min, max) =
                both(need(band.min, "policy.tongue_share.min"), need(band.max, "policy.tongue_share.max"))?;
            Ok(Bounds { min: Some(min.si()), max: Some(max.si()) })
        },
    },
    Check {
        id: "tongue-uplift",
        name: "tongue uplift",
        what: "tongue weight against lifting the tow vehicle",
        formula: "V = W − ΣN ≥ 0",
        basis: Basis {
            limit: "zero: below it the trailer lifts the tow vehicle's rear axle, and no hitch rating covers the pull",
            source: "statics",
            certainty: Certainty::Derived,
        },
        measuring: WEIGH_TONGUE,
        cures: "Do not tow it. Move the boat forward or the axles aft until the tongue share is in its band.",
        measure: Measure::Weight,
        rows: Rows::Rig,
        judge: Judge::Floor,
        counts: Counts::Yes,
        core: false,
        remedies: &[Remedy::MoveBoat],
        too_much: "",
        too_little: "the trailer lifts the tow vehicle: tongue weight is {load}",
        load: Load::InCase(|_, case, _| tongue(case)),
        limits: |_, _| Ok(Bounds { min: Some(0.0), max: None }),
    },
    Check {
        id: "trailer-gvwr",
        name: "trailer GVWR",
        what: "gross trailer weight against the trailer's GVWR",
        formula: "W = boat, all aboard + trailer",
        basis: Basis { limit: PLACARD, source: GVWR_RULE, certainty: Certainty::Read },
        measuring: WEIGH_GROSS,
        cures: "Leave weight at home, or carry the boat on a heavier trailer. Bigger axles or tires do not raise a GVWR; only its maker, or a certified alterer, can.",
        measure: Measure::Weight,
        rows: Rows::Rig,
        judge: Judge::Rating,
        counts: Counts::Yes,
        core: true,
        remedies: LIGHTEN,
        too_much: "trailer and boat weigh {load}, {miss} over the trailer's GVWR of {max}",
        too_little: "",
        load: Load::InCase(|_, case, _| gross(case)),
        limits: |setup, _| rating(setup.trailer.gvwr, "trailer.gvwr"),
    },
    Check {
        id: "axle-*",
        name: "axle *",
        what: "load of axle * against its rating",
        formula: "N of the axle, the trailer settled on level ground at the tow vehicle's ball height",
        basis: PLACARD_GAWR,
        measuring: WEIGH_AXLES,
        cures: "Move the boat, lighten it, set the ball so that the frame rides level, or fit an axle, springs, wheels and tires of a higher rating.",
        measure: Measure::Weight,
        rows: Rows::Axles,
        judge: Judge::Rating,
        counts: Counts::Yes,
        core: true,
        remedies: LIGHTEN_OR_MOVE,
        too_much: "axle * carries {load}, {miss} over its rating of {max}",
        too_little: "",
        load: Load::InCase(|_, case, axle| axle_load(level(case), axle)),
        limits: |setup, axle| {
            let rating = setup.trailer.axles[axle].rating;
            Ok(Bounds::at_most(need_of(rating, "trailer.axles.*.rating", axle)?))
        },
    },
    Check {
        id: "spring-*",
        name: "springs of axle *",
        what: "load of axle * against the rating of its springs",
        formula: "N of the axle; the unsprung weight is left in, on the safe side",
        basis: STAMPED,
        measuring: WEIGH_AXLES,
        cures: "Fit springs of a higher rating, as a pair and alike on all equalized axles.",
        measure: Measure::Weight,
        rows: Rows::Axles,
        judge: Judge::Rating,
        counts: Counts::Yes,
        core: false,
        remedies: LIGHTEN_OR_MOVE,
        too_much: "the springs of axle * carry {load}, {miss} over their rating of {max}",
        too_little: "",
        load: Load::InCase(|_, case, axle| axle_load(level(case), axle)),
        limits: |setup, axle| {
            let rating = setup.trailer.axles[axle].spring_rating;
            Ok(Bounds::at_most(need_of(rating, "trailer.axles.*.spring_rating", axle)?))
        },
    },
    Check {
        id: "tire-*",
        name: "tires of axle *",
        what: "load of the heaviest tire of axle * against the tire's rating",
        formula: "N (1/2 + |y|/t) over the tires on the heavier side; y = W yc / ΣN, t the track",
        basis: TIRE_BASIS,
        measuring: "Read load and pressure on the sidewall; keep that pressure. Weigh the two sides apart where gear sits to one side.",
        cures: "Fit tires of a higher load range on wheels rated for them, at their pressure; move gear to the lighter side; move or lighten the boat.",
        measure: Measure::Weight,
        rows: Rows::Axles,
        judge: Judge::Rating,
        counts: Counts::Yes,
        core: true,
        remedies: TIRES,
        too_much: "a tire of axle * carries {load}, {miss} over its rating of {max}",
        too_little: "",
        load: Load::OnSides(|setup, case, axle| tire_loads(setup, level(case)?, axle)),
        limits: |setup, axle| Ok(Bounds::at_most(tire_rating(setup, axle)?)),
    },
    Check {
        id: "wheel-*",
        name: "wheels of axle *",
        what: "load of the heaviest tire of axle * against the wheel's rating",
        formula: "as for the tire",
        basis: STAMPED,
        measuring: "Read the rating stamped on the back of the wheel or inside its rim.",
        cures: "Fit wheels of a higher rating with the same offset and bolt pattern.",
        measure: Measure::Weight,
        rows: Rows::Axles,
        judge: Judge::Rating,
        counts: Counts::Yes,
        core: true,
        remedies: LIGHTEN_OR_MOVE,
        too_much: "a tire of axle * carries {load}, {miss} over its wheel's rating of {max}",
        too_little: "",
        load: Load::OnSides(|setup, case, axle| tire_loads(setup, level(case)?, axle)),
        limits: |setup, axle| Ok(Bounds::at_most(wheel_rating(setup, axle)?)),
    },
    Check {
        id: "axle-tires-*",
        name: "tires for axle *",
        what: "rating of axle * against what its tires and wheels can carry",
        formula: "GAWR ≤ tires on the axle × the lesser of tire and wheel rating",
        basis: Basis {
            limit: "the sidewall and wheel values in the file",
            source: "49 CFR 571.120 S5.1.2: the sum of the tires' maximum load ratings is not less than the GAWR; 95 % was refused (NHTSA letter 77-3.29). It binds makers, so it only advises an owner",
            certainty: Certainty::Read,
        },
        measuring: "Compare the axle's rating with twice the lesser of the figures on tire and wheel.",
        cures: "Fit tires and wheels that carry the axle's rating, or treat the axle as rated for what they carry.",
        measure: Measure::Weight,
        rows: Rows::Axles,
        judge: Judge::Rating,
        counts: Counts::No,
        core: false,
        remedies: &[Remedy::TiresTogether],
        too_much: "axle * is rated {load}, {miss} more than its tires and wheels can carry ({max})",
        too_little: "",
        load: Load::Stated(|setup, axle| {
            let rating = setup.trailer.axles[axle].rating;
            need_of(rating, "trailer.axles.*.rating", axle).map(Quantity::si)
        }),
        limits: |setup, axle| {
            let (tire, wheel) = both(tire_rating(setup, axle), wheel_rating(setup, axle))?;
            let count = f64::from(setup.trailer.axles[axle].tires.count.unwrap_or(2));
            Ok(Bounds::at_most(tire.min(wheel) * count))
        },
    },
    Check {
        id: "lifted-axle-*",
        name: "axle * with the rear one lifted",
        what: "load of axle * with the rear axle lifted, against its rating",
        formula: "N of the axle, the trailer settled on level ground without its rear axle and that axle's equalizer",
        basis: PLACARD_GAWR,
        measuring: "Weigh the other axles with the rear wheels jacked clear, or trust the arithmetic: it needs no ramp.",
        cures: "Axles of a higher rating, less weight, or the boat farther forward. It is not a bound: over a sharp ramp head the middle axle of a triple unloads too.",
        measure: Measure::Weight,
        rows: Rows::AxlesButRear,
        judge: Judge::Rating,
        counts: Counts::FromThreeAxles,
        core: false,
        remedies: LIGHTEN_OR_MOVE,
        too_much: "with the rear axle lifted, axle * carries {load}, {miss} over its rating of {max}",
        too_little: "",
        load: Load::InCase(|_, case, axle| axle_load(lifted(case), axle)),
        limits: |setup, axle| {
            let rating = setup.trailer.axles[axle].rating;
            Ok(Bounds::at_most(need_of(rating, "trailer.axles.*.rating", axle)?))
        },
    },
    Check {
        id: "lifted-tire-*",
        name: "tires of axle * with the rear one lifted",
        what: "load of the heaviest tire of axle * with the rear axle lifted, against the tire's rating",
        formula: "as for the tire, with the lifted axle's loads",
        basis: TIRE_BASIS,
        measuring: "Read load and pressure on the sidewall.",
        cures: "Tires of a higher load range on wheels rated for them, less weight, or the boat farther forward.",
        measure: Measure::Weight,
        rows: Rows::AxlesButRear,
        judge: Judge::Rating,
        counts: Counts::FromThreeAxles,
        core: false,
        remedies: TIRES,
        too_much: "with the rear axle lifted, a tire of axle * carries {load}, {miss} over its rating of {max}",
        too_little: "",
        load: Load::OnSides(|setup, case, axle| tire_loads(setup, lifted(case)?, axle)),
        limits: |setup, axle| Ok(Bounds::at_most(tire_rating(setup, axle)?)),
    },
    Check {
        id: "lifted-tongue",
        name: "tongue with the rear axle lifted",
        what: "tongue weight with the rear axle lifted, against the least tongue rating and against zero",
        formula: "V = W − ΣN with the rear axle lifted",
        basis: STAMPED,
        measuring: WEIGH_TONGUE,
        cures: "Move the boat: aft when it is too much, forward when it is negative; or raise the weakest tongue rating.",
        measure: Measure::Weight,
        rows: Rows::SeveralAxles,
        judge: Judge::SignedRating,
        counts: Counts::FromThreeAxles,
        core: false,
        remedies: MOVE,
        too_much: "with the rear axle lifted, the tongue carries {load}, {miss} over the least tongue rating ({max})",
        too_little: "with the rear axle lifted, the trailer lifts the tow vehicle: tongue weight is {load}",
        load: Load::InCase(|_, case, _| Ok(lifted(case)?.stance.tongue_weight.si())),
        limits: |setup, _| Ok(Bounds::up_to(least_tongue_rating(setup)?)),
    },
    Check {
        id: "coupler",
        name: "coupler",
        what: "gross trailer weight against the coupler's rating",
        formula: "W",
        basis: STAMPED,
        measuring: WEIGH_GROSS,
        cures: "Fit a coupler of a higher rating for the same tongue; bolting and welding belong to a qualified person.",
        measure: Measure::Weight,
        rows: Rows::Rig,
        judge: Judge::Rating,
        counts: Counts::Yes,
        core: true,
        remedies: LIGHTEN,
        too_much: "trailer and boat weigh {load}, {miss} over the coupler's rating of {max}",
        too_little: "",
        load: Load::InCase(|_, case, _| gross(case)),
        limits: |setup, _| rating(setup.trailer.coupler.rating, "trailer.coupler.rating"),
    },
    Check {
        id: "coupler-tongue",
        name: "coupler, tongue",
        what: "tongue weight against the coupler's tongue rating",
        formula: "V",
        basis: STAMPED,
        measuring: WEIGH_TONGUE,
        cures: "Move the boat aft within the tongue share band, or fit a coupler of a higher rating.",
        measure: Measure::Weight,
        rows: Rows::Rig,
        judge: Judge::SignedRating,
        counts: Counts::Yes,
        core: false,
        remedies: MOVE,
        too_much: "the tongue carries {load}, {miss} over the coupler's tongue rating of {max}",
        too_little: "tongue weight is {load}: the coupler is pulled upward",
        load: Load::InCase(|_, case, _| tongue(case)),
        limits: |setup, _| {
            tongue_rating(setup.trailer.coupler.tongue_rating, "trailer.coupler.tongue_rating")
        },
    },
    Check {
        id: "receiver",
        name: "receiver",
        what: "gross trailer weight against the receiver's rating",
        formula: "W",
        basis: STAMPED,
        measuring: WEIGH_GROSS,
        cures: "Fit a receiver of a higher rating; it does not raise the tow vehicle's own rating.",
        measure: Measure::Weight,
        rows: Rows::Rig,
        judge: Judge::Rating,
        counts: Counts::Yes,
        core: true,
        remedies: LIGHTEN,
        too_much: "trailer and boat weigh {load}, {miss} over the receiver's rating of {max}",
        too_little: "",
        load: Load::InCase(|_, case, _| gross(case)),
        limits: |setup, _| rating(setup.hitch.receiver.rating, "hitch.receiver.rating"),
    },
    Check {
        id: "receiver-tongue",
        name: "receiver, tongue",
        what: "tongue weight against the receiver's tongue rating",
        formula: "V",
        basis: STAMPED,
        measuring: WEIGH_TONGUE,
        cures: "Move the boat aft within the tongue share band, or fit a receiver of a higher rating.",
        measure: Measure::Weight,
        rows: Rows::Rig,
        judge: Judge::SignedRating,
        counts: Counts::Yes,
        core: false,
        remedies: MOVE,
        too_much: "the tongue carries {load}, {miss} over the receiver's tongue rating of {max}",
        too_little: "tongue weight is {load}: the receiver is pulled upward",
        load: Load::InCase(|_, case, _| tongue(case)),
        limits: |setup, _| tongue_rating(setup.hitch.receiver.tongue_rating, "hitch.receiver.tongue_rating"),
    },
    Check {
        id: "ball-mount",
        name: "ball mount",
        what: "gross trailer weight against the ball mount's rating",
        formula: "W",
        basis: STAMPED,
        measuring: WEIGH_GROSS,
        cures: "Fit a ball mount of a higher rating.",
        measure: Measure::Weight,
        rows: Rows::Rig,
        judge: Judge::Rating,
        counts: Counts::Yes,
        core: true,
        remedies: LIGHTEN,
        too_much: "trailer and boat weigh {load}, {miss} over the ball mount's rating of {max}",
        too_little: "",
        load: Load::InCase(|_, case, _| gross(case)),
        limits: |setup, _| rating(setup.hitch.ball_mount.rating, "hitch.ball_mount.rating"),
    },
    Check {
        id: "ball-mount-tongue",
        name: "ball mount, tongue",
        what: "tongue weight against the ball mount's tongue rating",
        formula: "V",
        basis: STAMPED,
        measuring: WEIGH_TONGUE,
        cures: "Move the boat aft within the tongue share band, or fit a ball mount of a higher rating.",
        measure: Measure::Weight,
        rows: Rows::Rig,
        judge: Judge::SignedRating,
        counts: Counts::Yes,
        core: false,
        remedies: MOVE,
        too_much: "the tongue carries {load}, {miss} over the ball mount's tongue rating of {max}",
        too_little: "tongue weight is {load}: the ball mount is pulled upward",
        load: Load::InCase(|_, case, _| tongue(case)),
        limits: |setup, _| {
            tongue_rating(setup.hitch.ball_mount.tongue_rating, "hitch.ball_mount.tongue_rating")
        },
    },
    Check {
        id: "ball",
        name: "ball",
        what: "gross trailer weight against the ball's rating",
        formula: "W",
        basis: STAMPED,
        measuring: WEIGH_GROSS,
        cures: "Fit a ball of a higher rating and the same diameter.",
        measure: Measure::Weight,
        rows: Rows::Rig,
        judge: Judge::Rating,
        counts: Counts::Yes,
        core: true,
        remedies: LIGHTEN,
        too_much: "trailer and boat weigh {load}, {miss} over the ball's rating of {max}",
        too_little: "",
        load: Load::InCase(|_, case, _| gross(case)),
        limits: |setup, _| rating(setup.hitch.ball.rating, "hitch.ball.rating"),
    },
    Check {
        id: "ball-size",
        name: "ball size",
        what: "the ball's diameter against the coupler's socket",
        formula: "diameter = socket size",
        basis: STAMPED,
        measuring: "Read the size stamped on the ball and on the coupler.",
        cures: "Fit a ball of the socket's size. A smaller one can jump out of the socket.",
        measure: Measure::Length,
        rows: Rows::Rig,
        judge: Judge::Size,
        counts: Counts::Yes,
        core: true,
        remedies: &[Remedy::Size],
        too_much: "the ball measures {load}, but the coupler's socket takes {max}",
        too_little: "the ball measures {load}, but the coupler's socket takes {max}",
        load: Load::Stated(|setup, _| {
            need(setup.hitch.ball.diameter, "hitch.ball.diameter").map(Quantity::si)
        }),
        limits: |setup, _| size(setup.trailer.coupler.ball_size, "trailer.coupler.ball_size"),
    },
    Check {
        id: "shank-size",
        name: "shank size",
        what: "the ball mount's shank against the receiver's tube",
        formula: "shank size = tube size",
        basis: STAMPED,
        measuring: "Tape across the shank and across the receiver's opening.",
        cures: "Fit a ball mount of the tube's size; a sleeve only where the receiver's maker allows it.",
        measure: Measure::Length,
        rows: Rows::Rig,
        judge: Judge::Size,
        counts: Counts::Yes,
        core: false,
        remedies: &[Remedy::Size],
        too_much: "the ball mount's shank measures {load}, but the receiver's tube takes {max}",
        too_little: "the ball mount's shank measures {load}, but the receiver's tube takes {max}",
        load: Load::Stated(|setup, _| {
            need(setup.hitch.ball_mount.shank, "hitch.ball_mount.shank").map(Quantity::si)
        }),
        limits: |setup, _| size(setup.hitch.receiver.tube, "hitch.receiver.tube"),
    },
    Check {
        id: "jack",
        name: "tongue jack",
        what: "what the tongue jack lifts against its rating",
        formula: "V x̄ / (x̄ − x_jack), x̄ the mean axle station; V alone, a lower bound, without the jack's station",
        basis: STAMPED,
        measuring: "Tape from the ball back to the jack; weigh the tongue at the coupler.",
        cures: "Fit a jack of a higher rating, or set it nearer the coupler.",
        measure: Measure::Weight,
        rows: Rows::Rig,
        judge: Judge::SignedRating,
        counts: Counts::Yes,
        core: false,
        remedies: MOVE,
        too_much: "the tongue jack lifts {load}, {miss} over its rating of {max}",
        too_little: "the tongue jack would be pulled up: its load is {load}",
        load: Load::InCase(|_, case, _| case.jack.clone().map(Quantity::si)),
        limits: |setup, _| tongue_rating(setup.trailer.jack.rating, "trailer.jack.rating"),
    },
    Check {
        id: "tow-rating",
        name: "tow rating",
        what: "gross trailer weight against what the tow vehicle may tow",
        formula: "W",
        basis: TOW_MAKER,
        measuring: WEIGH_GROSS,
        cures: "Leave weight at home, or tow with a heavier vehicle.",
        measure: Measure::Weight,
        rows: Rows::Rig,
        judge: Judge::Rating,
        counts: Counts::Yes,
        core: true,
        remedies: LIGHTEN,
        too_much: "trailer and boat weigh {load}, {miss} over what the tow vehicle may tow ({max})",
        too_little: "",
        load: Load::InCase(|_, case, _| gross(case)),
        limits: |setup, _| rating(setup.tow.tow_rating, "tow.tow_rating"),
    },
    Check {
        id: "tow-tongue",
        name: "tow vehicle, tongue",
        what: "tongue weight against what the tow vehicle's maker allows",
        formula: "V",
        basis: TOW_MAKER,
        measuring: WEIGH_TONGUE,
        cures: "Move the boat aft within the tongue share band, or tow with a heavier vehicle.",
        measure: Measure::Weight,
        rows: Rows::Rig,
        judge: Judge::SignedRating,
        counts: Counts::Yes,
        core: false,
        remedies: MOVE,
        too_much: "the tongue carries {load}, {miss} over what the tow vehicle's maker allows ({max})",
        too_little: "tongue weight is {load}: the tow vehicle is pulled upward",
        load: Load::InCase(|_, case, _| tongue(case)),
        limits: |setup, _| tongue_rating(setup.tow.tongue_rating, "tow.tongue_rating"),
    },
    Check {
        id: "tow-gvwr",
        name: "tow vehicle GVWR",
        what: "the coupled tow vehicle's weight against its GVWR",
        formula: "F + R, front and rear axle coupled, which is F0 + R0 + V",
        basis: TOW_LABEL,
        measuring: SOLO_AXLES,
        cures: "Leave weight out of the tow vehicle, or move the boat aft within the tongue share band.",
        measure: Measure::Weight,
        rows: Rows::Rig,
        judge: Judge::Rating,
        counts: Counts::Yes,
        core: true,
        remedies: MOVE,
        too_much: "the coupled tow vehicle weighs {load}, {miss} over its GVWR of {max}",
        too_little: "",
        load: Load::InCase(|setup, case, _| {
            let front = need(setup.tow.front_axle_load, "tow.front_axle_load");
            let rear = need(setup.tow.rear_axle_load, "tow.rear_axle_load");
            let ((front, rear), tongue) = both(both(front, rear), tongue(case))?;
            Ok((front + rear).si() + tongue)
        }),
        limits: |setup, _| rating(setup.tow.gvwr, "tow.gvwr"),
    },
    Check {
        id: "tow-gcwr",
        name: "combination",
        what: "tow vehicle and trailer together against the combination rating",
        formula: "F0 + R0 + W",
        basis: TOW_MAKER,
        measuring: "Weigh tow vehicle and trailer together on a truck scale.",
        cures: "Leave weight at home, or tow with a heavier vehicle.",
        measure: Measure::Weight,
        rows: Rows::Rig,
        judge: Judge::Rating,
        counts: Counts::Yes,
        core: false,
        remedies: LIGHTEN,
        too_much: "tow vehicle and trailer weigh {load}, {miss} over the combination rating of {max}",
        too_little: "",
        load: Load::InCase(|_, case, _| case.combination.clone().map(Quantity::si)),
        limits: |setup, _| rating(setup.tow.gcwr, "tow.gcwr"),
    },
    Check {
        id: "tow-front-axle",
        name: "tow vehicle, front axle",
        what: "the tow vehicle's front axle load, coupled, against its rating",
        formula: "F = F0 − V o / b; o the ball's overhang, b the wheelbase",
        basis: TOW_LABEL,
        measuring: SOLO_AXLES,
        cures: "Shift load in the tow vehicle.",
        measure: Measure::Weight,
        rows: Rows::Rig,
        judge: Judge::SignedRating,
        counts: Counts::Yes,
        core: false,
        remedies: &[Remedy::Rating],
        too_much: "the tow vehicle's front axle carries {load}, {miss} over its rating of {max}",
        too_little: "the tow vehicle's front axle would lift: its load is {load}",
        load: Load::InCase(|_, case, _| case.tow.clone().map(|tow| tow.front.si())),
        limits: |setup, _| tongue_rating(setup.tow.front_gawr, "tow.front_gawr"),
    },
    Check {
        id: "tow-rear-axle",
        name: "tow vehicle, rear axle",
        what: "the tow vehicle's rear axle load, coupled, against its rating",
        formula: "R = R0 + V (b + o) / b; o the ball's overhang, b the wheelbase",
        basis: TOW_LABEL,
        measuring: SOLO_AXLES,
        cures: "Shift load forward in the tow vehicle, or move the boat aft within the tongue share band.",
        measure: Measure::Weight,
        rows: Rows::Rig,
        judge: Judge::Rating,
        counts: Counts::Yes,
        core: true,
        remedies: MOVE,
        too_much: "the tow vehicle's rear axle carries {load}, {miss} over its rating of {max}",
        too_little: "",
        load: Load::InCase(|_, case, _| case.tow.clone().map(|tow| tow.rear.si())),
        limits: |setup, _| rating(setup.tow.rear_gawr, "tow.rear_gawr"),
    },
    Check {
        id: "bow-stop-height",
        name: "bow stop height",
        what: "the bow stop's height against the bow eye's on the bunks",
        formula: "bow stop height = keel height + bow eye height, within 2 in",
        basis: Basis {
            limit: "within 2 in of the bow eye",
            source: "the strap should neither lift nor press the bow",
            certainty: Certainty::CommonPractice,
        },
        measuring: "On level ground, rig coupled, frame level, tape from the ground to the bow stop's roller and to the bow eye.",
        cures: "Slide the bow stop up or down its post.",
        measure: Measure::Length,
        rows: Rows::Rig,
        judge: Judge::Band,
        counts: Counts::No,
        core: false,
        remedies: &[Remedy::Reset],
        too_much: "the bow stop stands {load} above ground, above the {max} that suits the bow eye",
        too_little: "the bow stop stands {load} above ground, below the {min} that suits the bow eye",
        load: Load::Stated(|setup, _| {
            need(setup.trailer.bow_stop_height, "trailer.bow_stop_height").map(Quantity::si)
        }),
        limits: |setup, _| {
            let keel = need(setup.trailer.keel_height, "trailer.keel_height");
            let eye = need(setup.boat.bow_eye.height, "boat.bow_eye.height");
            let (keel, eye) = both(keel, eye)?;
            let bow_eye = (keel + eye).si();
            Ok(Bounds { min: Some(bow_eye - BOW_STOP_TOLERANCE), max: Some(bow_eye + BOW_STOP_TOLERANCE) })
        },
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
        rows: Rows::RampAxles,
        judge: Judge::Rating,
        counts: Counts::No,
        core: false,
        remedies: LIGHTEN_OR_MOVE,
        too_much: "on the ramp, axle * carries {load}, {miss} over its rating of {max}",
        too_little: "",
        load: Load::OnRamp(|peaks, axle| Ok(Some(peaks.axles[axle].greatest.value.si()))),
        limits: |setup, axle| {
            let rating = setup.trailer.axles[axle].rating;
            Ok(Bounds::at_most(need_of(rating, "trailer.axles.*.rating", axle)?))
        },
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
        rows: Rows::RampAxles,
        judge: Judge::Rating,
        counts: Counts::No,
        core: false,
        remedies: TIRES,
        too_much: "on the ramp, a tire of axle * carries {load}, {miss} over its rating of {max}",
        too_little: "",
        load: Load::OnRamp(|peaks, axle| peaks.axles[axle].tire.clone().map(|peak| Some(peak.value.si()))),
        limits: |setup, axle| Ok(Bounds::at_most(tire_rating(setup, axle)?)),
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
        rows: Rows::Ramp,
        judge: Judge::SignedRating,
        counts: Counts::No,
        core: false,
        remedies: MOVE,
        too_much: "on the ramp, the tongue carries {load}, {miss} over the least tongue rating ({max})",
        too_little: "on the ramp, the trailer lifts the tow vehicle: tongue weight falls to {load}",
        load: Load::OnRamp(|peaks, _| {
            let (least, greatest) = (peaks.tongue_least.value, peaks.tongue_greatest.value);
            Ok(Some(if least.si() < 0.0 { least.si() } else { greatest.si() }))
        }),
        limits: |setup, _| Ok(Bounds::up_to(least_tongue_rating(setup)?)),
    },
    Check {
        id: "ramp-traction-drive",
        name: "traction of the drive wheels on the ramp",
        what: "friction the drive wheels need over the ramp, against what the wet ramp gives",
        formula: "tangential over normal force at the driven axle, the tow vehicle balanced in its own plane; coming out loaded is the same curve the other way",
        basis: FRICTION,
        measuring: RAMP_TAPE,
        cures: "Four driven wheels, weight over the driven axle, a gentler or cleaner ramp, a lighter load.",
        measure: Measure::Share,
        rows: Rows::Ramp,
        judge: Judge::Rating,
        counts: Counts::No,
        core: false,
        remedies: &[],
        too_much: "on the ramp, the drive wheels need a friction of {load}; the wet ramp gives {max}",
        too_little: "",
        load: Load::OnRamp(|peaks, _| friction(&peaks.drive)),
        limits: friction_limit,
    },
    Check {
        id: "ramp-traction-parked",
        name: "hold of the parking brake on the ramp",
        what: "friction the parking brake's wheels need over the ramp, against what the wet ramp gives",
        formula: "as for the drive wheels, at the axle that the parking brake holds",
        basis: FRICTION,
        measuring: RAMP_TAPE,
        cures: "Chock the wheels; a gentler or cleaner ramp; more tongue weight. An unloaded axle holds nothing.",
        measure: Measure::Share,
        rows: Rows::Ramp,
        judge: Judge::Rating,
        counts: Counts::No,
        core: false,
        remedies: &[],
        too_much: "on the ramp, the parking brake's wheels need a friction of {load}; the wet ramp gives {max}",
        too_little: "",
        load: Load::OnRamp(|peaks, _| friction(&peaks.parked)),
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
        rows: Rows::RampPoints,
        judge: Judge::Floor,
        counts: Counts::No,
        core: false,
        remedies: &[],
        too_much: "",
        too_little: "on the ramp, * grounds: it would be {miss} below the ground",
        load: Load::OnRamp(|peaks, point| peaks.clearances[point].clone().map(|peak| Some(peak.value.si()))),
        limits: |_, _| Ok(Bounds { min: Some(0.0), max: None }),
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
        rows: Rows::Ramp,
        judge: Judge::Floor,
        counts: Counts::No,
        core: false,
        remedies: &[Remedy::MoveBoat],
        too_much: "",
        too_little: "the bow runs {miss} into the tow vehicle's body",
        load: Load::OnRamp(|peaks, _| {
            let least = peaks.bow.clone()?.value;
            Ok(Some(peaks.bow_in_turn.map_or(least, |turn| turn.min(least)).si()))
        }),
        limits: |_, _| Ok(Bounds { min: Some(0.0), max: None }),
    },
    Check {
        id: "bunk-transom-support",
        name: "support at the transom",
        what: "how far the hull hangs out aft of the bunks' aft end",
        formula: "from the bunks' aft end to where support could end: the transom, or the front of tabs",
        basis: Basis {
            limit: "2 in: bunks end at the transom, to an inch or two",
            source: "an engine on the transom bends what hangs out behind its support",
            certainty: Certainty::CommonPractice,
        },
        measuring: "Tape from the transom along the keel to where the bunks end.",
        cures: "Longer bunks, or bunks moved aft, or the boat moved forward, until they reach the transom under its engine.",
        measure: Measure::Length,
        rows: Rows::Bunks,
        judge: Judge::Ceiling,
        counts: Counts::Yes,
        core: false,
        remedies: &[Remedy::MoveBoat],
        too_much: "the hull hangs out {load} aft of its bunks; support should reach to within {max}",
        too_little: "",
        load: Load::OnBunks(|_, on_bunks, _| on_bunks.overhang.clone().map(|overhang| Some(overhang.si()))),
        limits: |_, _| Ok(Bounds { min: None, max: Some(UNSUPPORTED_STERN) }),
    },
    Check {
        id: "bunk-contact",
        name: "balance on the bunks",
        what: "how far the boat's centre of gravity lies aft of the contact's middle, as a share of the contact",
        formula: "e / L: within a sixth either way the load varies along the whole contact, past it part of the bunk is idle",
        basis: Basis {
            limit: "one sixth either way: the middle third",
            source: "the kern of an elastic bed, any text on the strength of materials",
            certainty: Certainty::Derived,
        },
        measuring: TAPE_BUNKS,
        cures: "Bunks that reach farther the way the centre of gravity lies, or the boat moved the other way.",
        measure: Measure::Share,
        rows: Rows::Bunks,
        judge: Judge::Band,
        counts: Counts::Yes,
        core: false,
        remedies: &[Remedy::MoveBoat],
        too_much: "the boat's centre of gravity lies {load} of the contact aft of its middle, outside the middle third ({max})",
        too_little: "the boat's centre of gravity lies {load} of the contact from its middle, too far forward: outside the middle third ({min})",
        load: Load::OnBunks(|_, on_bunks, _| {
            // Bunks that would tip off the crossmembers hold no boat.
            let lies = !matches!(on_bunks.bunk, Ok(None));
            let bed = on_bunks.bed.clone()?.filter(|_| lies);
            Ok(bed.map(|bed| bed.eccentricity.si() / bed.contact.length().si()))
        }),
        limits: |_, _| Ok(Bounds { min: Some(-1.0 / 6.0), max: Some(1.0 / 6.0) }),
    },
    Check {
        id: "bunk-pressure",
        name: "pressure on the hull",
        what: "the greatest pressure of a bunk on the hull",
        formula: "line load at the contact's heavier end, a bunk's share of it, over the breadth that touches",
        basis: Basis {
            limit: "the policy in the file; where it is silent, up to 20 psi",
            source: "what a bottom stands without a frame or stringer behind it differs by boat: ask its builder",
            certainty: Certainty::CommonPractice,
        },
        measuring: TAPE_BUNKS,
        cures: "Longer bunks, broader boards, or the boat moved until its weight lies nearer the contact's middle.",
        measure: Measure::Stress,
        rows: Rows::Bunks,
        judge: Judge::FlooredRating,
        counts: Counts::Yes,
        core: false,
        remedies: &[Remedy::MoveBoat],
        too_much: "a bunk presses on the hull with {load}, {miss} over the {max} it may",
        too_little: "a bunk presses on the hull with no more than {load}, less than the {min} asked for",
        load: Load::OnBunks(|_, on_bunks, _| {
            let pressure = on_bunks.pressure.clone()?.ok_or_else(Missing::default)?;
            Ok(Some(pressure.peak.si()))
        }),
        limits: |setup, _| {
            let max = need(setup.policy.bunk_pressure.max, "policy.bunk_pressure.max")?;
            Ok(Bounds { min: setup.policy.bunk_pressure.min.map(Quantity::si), max: Some(max.si()) })
        },
    },
    Check {
        id: "bunk-bending",
        name: "bunk in bending",
        what: "the greatest bending stress of a bunk, the vee's side thrust included",
        formula: "M / S at the smaller depth, plus M tan(deadrise) over the section modulus sideways, both at the greatest moment; times the policy's road factor",
        basis: WOOD,
        measuring: TAPE_BUNKS,
        cures: MORE_WOOD,
        measure: Measure::Stress,
        rows: Rows::Bunks,
        judge: Judge::Rating,
        counts: Counts::Yes,
        core: false,
        remedies: &[],
        too_much: "a bunk is stressed to {load} in bending, {miss} over the {max} its wood may bear",
        too_little: "",
        load: Load::OnBunks(|setup, on_bunks, _| {
            of_bunk(on_bunks, |bunk| {
                let (up, side) = both(bunk.stress.clone(), bunk.side_stress.clone())?;
                Ok((up.value + side) * bunks::road_factor(setup))
            })
        }),
        limits: |setup, _| Ok(at_most_stress(bunks::timber(setup)?.bending.value)),
    },
    Check {
        id: "bunk-shear",
        name: "bunk in shear",
        what: "the greatest shear stress of a bunk along its grain",
        formula: "3/2 V / (b d cos(deadrise)) at the smaller depth; times the policy's road factor",
        basis: WOOD,
        measuring: TAPE_BUNKS,
        cures: MORE_WOOD,
        measure: Measure::Stress,
        rows: Rows::Bunks,
        judge: Judge::Rating,
        counts: Counts::Yes,
        core: false,
        remedies: &[],
        too_much: "a bunk is stressed to {load} in shear, {miss} over the {max} its wood may bear",
        too_little: "",
        load: Load::OnBunks(|setup, on_bunks, _| {
            of_bunk(on_bunks, |bunk| Ok(bunk.shear_stress.clone()?.value * bunks::road_factor(setup)))
        }),
        limits: |setup, _| Ok(at_most_stress(bunks::timber(setup)?.shear.value)),
    },
    Check {
        id: "bunk-deflection",
        name: "bunk's deflection",
        what: "the greatest deflection of a bunk between its crossmembers, down and sideways together",
        formula: "elastic, at the smaller depth, supports rigid: down, and outward by tan(deadrise) (d/b)^2 times as much from the vee's side thrust",
        basis: Basis {
            limit: "1/360 of the longest stretch between crossmembers, an overhang counting twice",
            source: "half of what is usual for a lasting load, since wet wood creeps to about twice its first deflection (National Design Specification 3.5.2, from memory)",
            certainty: Certainty::CommonPractice,
        },
        measuring: TAPE_BUNKS,
        cures: MORE_WOOD,
        measure: Measure::Deflection,
        rows: Rows::Bunks,
        judge: Judge::Rating,
        counts: Counts::Yes,
        core: false,
        remedies: &[],
        too_much: "a bunk bends by {load}, {miss} more than the {max} it may",
        too_little: "",
        load: Load::OnBunks(|_, on_bunks, _| of_bunk(on_bunks, |bunk| bunk.whole_deflection.clone())),
        limits: |setup, _| {
            let most = bunks::longest_span(setup)?.si() * bunks::DEFLECTION_SHARE;
            Ok(Bounds { min: None, max: Some(most) })
        },
    },
    Check {
        id: "bunk-bracket",
        name: "brackets",
        what: "the greatest side thrust of the vee on one bracket",
        formula: "R tan(deadrise), R the greatest reaction and the deadrise the steepest along the bunk; times the policy's road factor. How that thrust pries the bracket and pulls its bolts, acting at the bunk's top, is not in it",
        basis: Basis {
            limit: "the bracket's rating in the file, or its bolts' number times theirs, whichever is less",
            source: "lumber connection tables for the bolts; the maker for the bracket",
            certainty: Certainty::CommonPractice,
        },
        measuring: "Count each bracket's bolts and tape their diameter; look up what one holds across the grain.",
        cures: "More or thicker bolts, gusseted brackets, or a crossmember more to share the load.",
        measure: Measure::Weight,
        rows: Rows::Bunks,
        judge: Judge::Rating,
        counts: Counts::Yes,
        core: false,
        remedies: &[Remedy::Rating],
        too_much: "the vee pushes a bracket outward with {load}, {miss} over the {max} it holds",
        too_little: "",
        load: Load::OnBunks(|setup, on_bunks, _| {
            of_bunk(on_bunks, |bunk| {
                let steepest = bunks::steepest(setup)?;
                let reactions = bunk.reactions.iter().flatten();
                let most = reactions.map(|reaction| reaction.abs()).fold(Weight::default(), Weight::max);
                Ok(side_thrust(most, steepest) * bunks::road_factor(setup))
            })
        }),
        limits: |setup, _| Ok(Bounds::at_most(bunks::bracket_rating(setup)?)),
    },
    Check {
        id: "bunk-landing",
        name: "where the bunks' edges land",
        what: "how far outside its nearest strake or chine a bunk's outer edge lies, the worse side",
        formula: "half-spacing less the line's half-breadth, port and starboard apart; the greater of both",
        basis: Basis {
            limit: "an inch either way",
            source: "an edge between strakes dents the bottom and does not guide it",
            certainty: Certainty::CommonPractice,
        },
        measuring: "Tape each bunk's outer edge and each strake from the centreline.",
        cures: "Move the bunk in or out on its crossmembers until its outer edge lies along the strake; its height follows.",
        measure: Measure::Length,
        rows: Rows::Bunks,
        judge: Judge::Band,
        counts: Counts::Yes,
        core: false,
        remedies: &[],
        too_much: "a bunk's outer edge lies {load} outside its strake or chine, {miss} more than it may",
        too_little: "a bunk's outer edge lies inside its strake or chine by {miss} more than it may ({load})",
        load: Load::Stated(|setup, _| {
            let [port, starboard] = bunks::landings(setup)?.map(|landing| landing.miss);
            Ok(if port.abs() > starboard.abs() { port } else { starboard }.si())
        }),
        limits: |_, _| Ok(Bounds { min: Some(-OFF_STRAKE), max: Some(OFF_STRAKE) }),
    },
    Check {
        id: "crossmember-*",
        name: "crossmember *",
        what: "load of one bunk on crossmember *, against what it may carry from each",
        formula: "the bunk's reaction, up or down; times the policy's road factor",
        basis: Basis {
            limit: "the rating in the file, or the load that bends its section to yield stress over 1.67",
            source: "AISC 360, allowable strength design",
            certainty: Certainty::FromMemory,
        },
        measuring: "Tape the crossmember's section and wall, and where it stands; find its section modulus in a table of shapes.",
        cures: "Another crossmember beside it, a heavier one, or packing that lets its neighbours take their share.",
        measure: Measure::Weight,
        rows: Rows::BunkCrossmembers,
        judge: Judge::Rating,
        counts: Counts::Yes,
        core: false,
        remedies: &[Remedy::Rating],
        too_much: "crossmember * carries {load} from one bunk, {miss} over the {max} it may",
        too_little: "",
        load: Load::OnBunks(|setup, on_bunks, member| {
            of_bunk(on_bunks, |bunk| {
                let reaction = bunk.reactions[member].ok_or_else(Missing::default)?;
                Ok(reaction.abs() * bunks::road_factor(setup))
            })
        }),
        limits: |setup, member| Ok(Bounds::at_most(bunks::crossmember_rating(setup, member)?)),
    },
    Check {
        id: "clearance-keel-*",
        name: "keel over crossmember *",
        what: "clearance of the keel over the middle of crossmember *, at rest",
        formula: "keel height less the crossmember's, under the keel",
        basis: NOTHING_BETWEEN,
        measuring: "On level ground, rig coupled, tape the keel and the crossmember's middle up from the ground.",
        cures: "Spacers under the bunks, or a crossmember that drops in the middle.",
        measure: Measure::Length,
        rows: Rows::KeelCrossmembers,
        judge: Judge::Floor,
        counts: Counts::Yes,
        core: false,
        remedies: &[Remedy::Raise],
        too_much: "",
        too_little: "the keel's clearance over crossmember * is {load}, {miss} less than it should be",
        load: Load::Stated(|setup, member| bunks::keel_clearance(setup, member).map(Quantity::si)),
        limits: least_clearance,
    },
    Check {
        id: "clearance-fender",
        name: "hull beside the fenders",
        what: "least clearance of the hull beside or over the fenders, at rest and while loading",
        formula: "the fender's inner edge less the chine, or the bottom over that edge less the fender's top, whichever is more; while loading with the policy's side play and trim",
        basis: NOTHING_BETWEEN,
        measuring: "Tape the fenders' inner edges and tops, and the chine's half-breadth and height above the keel.",
        cures: "Spacers under the bunks, guides that leave less play, or fenders set lower or farther apart.",
        measure: Measure::Length,
        rows: Rows::Fenders,
        judge: Judge::Floor,
        counts: Counts::Yes,
        core: false,
        remedies: &[Remedy::Raise],
        too_much: "",
        too_little: "the hull's clearance from the fenders is {load}, {miss} less than it should be",
        load: Load::Stated(|setup, _| Ok(bunks::beside_fender(setup)?.least().si())),
        limits: least_clearance,
    },
    Check {
        id: "clearance-gear-*",
        name: "* over the crossmembers",
        what: "least clearance of * over every crossmember that it passes, and over level ground, in line with the bunks",
        formula: "keel height plus the point's, less each crossmember's that lies aft of it, straight from its middle to the bracket",
        basis: NOTHING_BETWEEN,
        measuring: "Tape the point below or above the keel line, and the crossmembers' middles up from the ground.",
        cures: "Spacers under the bunks, crossmembers that drop in the middle, or gear that tilts or comes off.",
        measure: Measure::Length,
        rows: Rows::Gear,
        judge: Judge::Floor,
        counts: Counts::Yes,
        core: false,
        remedies: &[Remedy::Raise],
        too_much: "",
        too_little: "the clearance of * over the crossmembers is {load}, {miss} less than it should be",
        load: Load::Stated(|setup, point| bunks::gear_clearance(setup, point).map(Quantity::si)),
        limits: least_clearance,
    },
];

/// Bunks end within this of the transom. Common practice, no source.
const UNSUPPORTED_STERN: f64 = 2.0 * 0.0254;
/// A bunk's edge lies within this of its strake. Common practice, no source.
const OFF_STRAKE: f64 = 0.0254;

/// One figure of the bunk, in SI; not known where boat or bunk would tip, of which `bunk-contact` speaks.
fn of_bunk<Q: Quantity>(on_bunks: &BunkLoads, figure: impl Fn(&Bunk) -> Known<Q>) -> Known<Option<f64>> {
    let bunk = on_bunks.bunk.as_ref().map_err(Clone::clone)?.as_ref().ok_or_else(Missing::default)?;
    Ok(Some(figure(bunk)?.si()))
}

fn at_most_stress(max: Pressure) -> Bounds {
    Bounds { min: None, max: Some(max.si()) }
}

fn least_clearance(setup: &Setup, _: usize) -> Known<Bounds> {
    Ok(Bounds { min: Some(need(setup.policy.clearance, "policy.clearance")?.si()), max: None })
}

fn gross(case: &CaseLoads) -> Known<f64> {
    case.gross.clone().map(Quantity::si)
}

fn level(case: &CaseLoads) -> Known<&Carried> {
    case.level.as_ref().map_err(Clone::clone)
}

fn lifted(case: &CaseLoads) -> Known<&Carried> {
    // Asked for on several axles only.
    case.lifted.as_ref().ok_or_else(Missing::default)?.as_ref().map_err(Clone::clone)
}

fn tongue(case: &CaseLoads) -> Known<f64> {
    Ok(level(case)?.stance.tongue_weight.si())
}

fn axle_load(carried: Known<&Carried>, axle: usize) -> Known<f64> {
    carried.map(|carried| carried.stance.axle_loads[axle].si())
}

/// The load of each of an axle's tires to starboard, and to port.
///
/// The heavier alone decides a check. Which it is may change with an input: either side's load has no kink there.
fn tire_loads(setup: &Setup, carried: &Carried, axle: usize) -> Known<[f64; 2]> {
    let heavier = carried.tire_loads.as_ref().map(|loads| loads[axle].si()).map_err(Clone::clone)?;
    let tires = f64::from(setup.trailer.axles[axle].tires.count.unwrap_or(2));
    // Both sides together carry the axle's load, each on half of its tires.
    let lighter = carried.stance.axle_loads[axle].si() * 2.0 / tires - heavier;
    let lighter = lighter.min(heavier);
    Ok(if carried.leans_to_starboard { [heavier, lighter] } else { [lighter, heavier] })
}

/// What a tire may carry on a trailer.
fn tire_rating(setup: &Setup, axle: usize) -> Known<Weight> {
    let rating = need_of(setup.trailer.axles[axle].tires.rating, "trailer.axles.*.tires.rating", axle)?;
    Ok(rating / tire_divisor(setup, axle))
}

/// By what the rating on a tire's sidewall is divided on a trailer.
pub(super) fn tire_divisor(setup: &Setup, axle: usize) -> f64 {
    match setup.trailer.axles[axle].tires.kind {
        Some(TireKind::Passenger) => PASSENGER_DIVISOR,
        _ => 1.0,
    }
}

fn wheel_rating(setup: &Setup, axle: usize) -> Known<Weight> {
    need_of(setup.trailer.axles[axle].wheel_rating, "trailer.axles.*.wheels.rating", axle)
}

fn rating(value: Option<Weight>, path: &'static str) -> Known<Bounds> {
    need(value, path).map(Bounds::at_most)
}

fn tongue_rating(value: Option<Weight>, path: &'static str) -> Known<Bounds> {
    need(value, path).map(Bounds::up_to)
}

fn size(value: Option<Length>, path: &'static str) -> Known<Bounds> {
    let size = need(value, path)?.si();
    Ok(Bounds { min: Some(size), max: Some(size) })
}

fn friction(found: &Known<Friction>) -> Known<Option<f64>> {
    found.clone().map(|friction| match friction {
        Friction::Needed(peak) => Some(peak.value.si()),
        Friction::HoldsNothing(_) => None,
    })
}

/// What a ramp's friction allows.
fn friction_limit(setup: &Setup, ramp: usize) -> Known<Bounds> {
    let friction = need_of(setup.ramps[ramp].friction, "ramps.*.friction", ramp)?;
    Ok(Bounds { min: None, max: Some(friction.si()) })
}

/// The least tongue rating given anywhere in the chain.
fn least_tongue_rating(setup: &Setup) -> Known<Weight> {
    let given = [
        setup.trailer.coupler.tongue_rating,
        setup.hitch.receiver.tongue_rating,
        setup.hitch.ball_mount.tongue_rating,
        setup.tow.tongue_rating,
    ];
    let least = given.into_iter().flatten().reduce(Weight::min);
    need(least, "trailer.coupler.tongue_rating")
}
