//! The checks of the bunks, and of what clears what.

use super::brackets::{Seat, pull_on_feet, seat};
use super::hull::support_from;
use super::timber::wood_left;
use super::{
    Bunk, DEFLECTION_SHARE, beside_fender, bracket_rating, crossmember_rating, gear_clearance,
    is_passed_over, is_reached, keel_clearance, landings, longest_span, road_factor, steepest, timber,
};
use crate::fit::check::{
    Basis, Certainty, Check, Core, Judge, Limits, Load, Measure, Of, Reading, Remedy, Rows, Subject, named,
};
use crate::fit::facts::View;
use crate::fit::known::{Known, Missing, both, need};
use crate::fit::shared::{least_clearance, once, one};
use crate::mechanics::bunks::side_thrust;
use crate::quantity::{Length, Quantity, Share, Weight};
use crate::rig::inputs::{
    BOAT_BOW_EYE_HEIGHT, POLICY_BUNK_PRESSURE_MAX, TRAILER_BOW_STOP_HEIGHT,
    TRAILER_BUNKS_BRACKETS_FOOT_RATING, TRAILER_KEEL_HEIGHT,
};
use crate::rig::{NO_LOW_POINTS, Setup};

/// How far a bow stop may be off the bow eye. Common practice, no source.
const BOW_STOP_TOLERANCE: f64 = 2.0 * 0.0254;
const NOTHING_BETWEEN: Basis = Basis {
    limit: "the policy's least clearance; where it is silent, zero: it touches",
    source: "geometry",
    certainty: Certainty::Derived,
};
const WOOD: Basis = Basis {
    limit: "the grade's design value, adjusted, or the file's allowable stress",
    source: "National Design Specification Supplement 2018; from memory: western cedar, southern pine 4 and 12 in wide, durations but two months",
    certainty: Certainty::Quoted,
};
const TAPE_BUNKS: &str = "Tape the bunks' ends and the crossmembers behind the ball, the boards as they are, and the hull's straight run from the transom.";
const MORE_WOOD: &str = "A deeper board, a board on edge, another crossmember in the longest span, or a crossmember moved to where the load is.";
/// Bunks end within this of the transom. Common practice, no source.
const UNSUPPORTED_STERN: f64 = 2.0 * 0.0254;
/// No hull hangs out farther than this. Common practice, no source.
const MOST_UNSUPPORTED: f64 = 12.0 * 0.0254;
/// A bunk's edge lies within this of its strake. Common practice, no source.
const OFF_STRAKE: f64 = 0.0254;

/// Another board, or bunks that reach farther.
const MORE_BUNK: &[Remedy] = &[Remedy::Board, Remedy::Ends, Remedy::Crossmember];

/// What the stresses of a bunk under its vertical load have in common.
const STRESSED: Check = Check {
    id: "",
    name: "",
    what: "",
    formula: "",
    too_much: "",
    load: Load::described(|_, _| Err(Missing(Vec::new()))),
    limits: |_, _| Limits { min: None, max: None },
    basis: WOOD,
    measuring: TAPE_BUNKS,
    cures: MORE_WOOD,
    measure: Measure::Stress,
    rows: BUNKS,
    subject: Subject::Bunks,
    judge: Judge::Rating,
    core: Core::No,
    remedies: MORE_BUNK,
    too_little: "",
};

/// The checks of this subject, in the order of reports.
pub(in crate::fit) static CHECKS: &[Check] = &[
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
        rows: Rows::RIG,
        subject: Subject::Bunks,
        judge: Judge::Band,
        core: Core::No,
        remedies: &[Remedy::Reset],
        too_much: "the bow stop stands {load} above ground, above the {max} that suits the bow eye",
        too_little: "the bow stop stands {load} above ground, below the {min} that suits the bow eye",
        load: Load::described(|view, _| one(need(view.setup, TRAILER_BOW_STOP_HEIGHT))),
        limits: |setup, _| {
            let keel = need(setup, TRAILER_KEEL_HEIGHT);
            let eye = need(setup, BOAT_BOW_EYE_HEIGHT);
            let bow_eye = both(keel, eye).map(|(keel, eye)| keel + eye);
            let off = Length::from_si(BOW_STOP_TOLERANCE);
            Limits::between(bow_eye.clone().map(|at| at - off), bow_eye.map(|at| at + off)).advising()
        },
    },
    Check {
        id: "bunk-transom-support",
        name: "support at the transom",
        what: "how far the hull hangs out from the bunks' aft end to the transom",
        formula: "from the bunks' aft end to the transom",
        basis: Basis {
            limit: "2 in aft of where support could end (the transom, or the front of tabs), at most 12; past 12 in the rig fails",
            source: "an engine on the transom bends what hangs out behind its support",
            certainty: Certainty::CommonPractice,
        },
        measuring: "Tape from the transom along the keel to where the bunks end.",
        cures: "Longer bunks, or bunks moved aft, or the boat moved forward, until they reach the transom under its engine.",
        measure: Measure::Length,
        rows: BUNKS,
        subject: Subject::Bunks,
        judge: Judge::Ceiling,
        core: Core::No,
        remedies: &[Remedy::MoveBoat, Remedy::MoveBunks, Remedy::Ends],
        too_much: "the hull hangs out {load} aft of its bunks; support should reach to within {max}",
        too_little: "",
        load: Load::on_bunks(|view, _| {
            let to_limit = view.on_bunks().overhang.clone();
            one(to_limit.map(|to_limit| to_limit + support_from(view.setup)))
        }),
        limits: |setup, _| {
            let most = Length::from_si(MOST_UNSUPPORTED);
            let wanted = support_from(setup) + Length::from_si(UNSUPPORTED_STERN);
            Limits::at_most(Ok(wanted.min(most))).failing_above(Ok(most))
        },
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
        rows: BUNKS,
        subject: Subject::Bunks,
        judge: Judge::Band,
        core: Core::No,
        remedies: &[Remedy::MoveBoat, Remedy::MoveBunks, Remedy::Ends],
        too_much: "the boat's centre of gravity lies {load} of the contact aft of its middle, outside the middle third ({max})",
        too_little: "the boat's centre of gravity lies {load} of the contact from its middle, too far forward: outside the middle third ({min})",
        load: Load::on_bunks(|view, _| {
            let on_bunks = view.on_bunks();
            // Bunks that would tip off the crossmembers hold no boat.
            let lies = !matches!(on_bunks.bunk, Ok(None));
            let bed = on_bunks.bed.clone()?.filter(|_| lies);
            Ok(bed.map_or(Reading::HoldsNothing, |bed| {
                Reading::One(bed.eccentricity.si() / bed.contact.length().si())
            }))
        }),
        limits: |_, _| {
            let off = |share: f64| Ok(Share::from_si(share));
            let third = Limits::between(off(-1.0 / 6.0), off(1.0 / 6.0));
            third.failing_below(off(-0.5)).failing_above(off(0.5))
        },
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
        rows: BUNKS,
        subject: Subject::Bunks,
        judge: Judge::FlooredRating,
        core: Core::No,
        remedies: &[Remedy::MoveBoat],
        too_much: "a bunk presses on the hull with {load}, {miss} over the {max} allowed",
        too_little: "a bunk presses on the hull with no more than {load}, less than the {min} asked for",
        load: Load::on_bunks(|view, _| {
            one(Ok(view.on_bunks().pressure.clone()?.ok_or_else(Missing::default)?.peak))
        }),
        limits: |setup, _| {
            let max = need(setup, POLICY_BUNK_PRESSURE_MAX);
            match setup.policy.bunk_pressure.min {
                Some(min) => Limits::between(Ok(min), max).advising(),
                None => Limits::at_most(max).advising(),
            }
        },
    },
    Check {
        id: "bunk-bending",
        name: "bunk in bending",
        what: "the greatest bending stress of a bunk, the vee's side thrust included",
        formula: "M / S at the smaller depth, plus M tan(deadrise) over the section modulus sideways; times the policy's road factor",
        basis: WOOD,
        measuring: TAPE_BUNKS,
        cures: MORE_WOOD,
        measure: Measure::Stress,
        rows: BUNKS,
        subject: Subject::Bunks,
        judge: Judge::Rating,
        core: Core::No,
        remedies: MORE_BUNK,
        too_much: "a bunk is stressed to {load} in bending, {miss} over the {max} allowed for its wood",
        too_little: "",
        load: Load::on_bunks(|view, _| {
            of_bunk(view, |bunk| {
                let (up, side) = both(bunk.stress.clone(), bunk.side_stress.clone())?;
                Ok((up.value + side) * road_factor(view.setup))
            })
        }),
        limits: |setup, _| bending_limit(setup).advising(),
    },
    Check {
        id: "bunk-bending-vertical",
        name: "bunk in bending, vertical load",
        what: "the greatest bending stress of a bunk under its vertical load alone",
        formula: "M / S at the smaller depth, a board that lies flat being pressed at right angles to its tilted face; times the policy's road factor",
        too_much: "a bunk's vertical load alone stresses it to {load} in bending, {miss} over the {max} allowed for its wood",
        load: Load::on_bunks(|view, _| {
            of_bunk(view, |bunk| Ok(bunk.stress.clone()?.value * road_factor(view.setup)))
        }),
        limits: |setup, _| bending_limit(setup),
        ..STRESSED
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
        rows: BUNKS,
        subject: Subject::Bunks,
        judge: Judge::Rating,
        core: Core::No,
        remedies: MORE_BUNK,
        too_much: "a bunk is stressed to {load} in shear, {miss} over the {max} allowed for its wood",
        too_little: "",
        load: Load::on_bunks(|view, _| {
            of_bunk(view, |bunk| Ok(bunk.shear_stress.clone()?.value * road_factor(view.setup)))
        }),
        limits: |setup, _| shear_limit(setup).advising(),
    },
    Check {
        id: "bunk-shear-vertical",
        name: "bunk in shear, vertical load",
        what: "the greatest shear stress of a bunk along its grain under its vertical load alone",
        formula: "3/2 V / (b d) at the smaller depth; times the policy's road factor",
        too_much: "a bunk's vertical load alone stresses it to {load} in shear, {miss} over the {max} allowed for its wood",
        load: Load::on_bunks(|view, _| {
            of_bunk(view, |bunk| {
                let whole = bunk.shear_stress.clone()?.value;
                // The whole stress is this over the cosine of the steepest deadrise.
                Ok(whole * steepest(view.setup)?.si().cos() * road_factor(view.setup))
            })
        }),
        limits: |setup, _| shear_limit(setup),
        ..STRESSED
    },
    Check {
        id: "bunk-bevel",
        name: "wood left by the bevel",
        what: "how much of a bunk's depth the bevel leaves at its inner edge",
        formula: "depth less thickness times tan(deadrise), for a board on edge",
        basis: Basis {
            limit: "zero: below it the board cannot be cut",
            source: "geometry",
            certainty: Certainty::Derived,
        },
        measuring: TAPE_BUNKS,
        cures: "A deeper or thinner board, or one that lies flat.",
        measure: Measure::Length,
        rows: BUNKS,
        subject: Subject::Bunks,
        judge: Judge::Floor,
        core: Core::No,
        remedies: &[Remedy::Board],
        too_much: "",
        too_little: "the bevel takes {miss} more than the board is deep: it cannot be cut",
        load: Load::described(|view, _| one(wood_left(view.setup))),
        limits: |_, _| Limits::at_least(Ok(Length::default())),
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
        rows: BUNKS,
        subject: Subject::Bunks,
        judge: Judge::Rating,
        core: Core::No,
        remedies: &[],
        too_much: "a bunk bends by {load}, {miss} more than the {max} allowed",
        too_little: "",
        load: Load::on_bunks(|view, _| of_bunk(view, |bunk| bunk.whole_deflection.clone())),
        limits: |setup, _| {
            let most = longest_span(setup).map(|span| span * DEFLECTION_SHARE);
            Limits::at_most(most).advising()
        },
    },
    Check {
        id: "bunk-bracket",
        name: "brackets",
        what: "the greatest side thrust of the vee on one bracket",
        formula: "R tan(deadrise), R the greatest reaction and the deadrise the steepest along the bunk; times the policy's road factor. It leaves out that the thrust acts at the bunk's top, and so pries the bracket and pulls its bolts",
        basis: Basis {
            limit: "the bracket's rating in the file, or its bolts' number times theirs, whichever is less",
            source: "lumber connection tables for the bolts; the maker for the bracket",
            certainty: Certainty::CommonPractice,
        },
        measuring: "Count each bracket's bolts and tape their diameter; look up what one holds across the grain.",
        cures: "More or thicker bolts, gusseted brackets, or another crossmember to share the load.",
        measure: Measure::Weight,
        rows: BUNKS,
        subject: Subject::Bunks,
        judge: Judge::Rating,
        core: Core::No,
        remedies: &[Remedy::Rating],
        too_much: "the vee pushes a bracket outward with {load}, {miss} over the {max} it holds",
        too_little: "",
        load: Load::on_bunks(|view, _| {
            of_bunk(view, |bunk| {
                let steepest = steepest(view.setup)?;
                let reactions = bunk.reactions.iter().flatten();
                let most = reactions.map(|reaction| reaction.abs()).fold(Weight::default(), Weight::max);
                Ok(side_thrust(most, steepest) * road_factor(view.setup))
            })
        }),
        limits: |setup, _| Limits::at_most(bracket_rating(setup)).advising(),
    },
    Check {
        id: "bunk-bearing",
        name: "bunk over a bracket",
        what: "the stress across the bunk's grain where it lies on a bracket",
        formula: "R / (b l_b), l_b how long it lies there; times the policy's road factor",
        basis: Basis {
            limit: "the grade's design value for wet or dry service, or the allowable stress in the file; times (l_b + 0.375 in) / l_b where a bracket shorter than 6 in begins 3 in or more from the bunk's end",
            source: "National Design Specification 3.10.4 and Supplement 2018",
            certainty: Certainty::Quoted,
        },
        measuring: "Tape how long the bunk lies on a bracket, and how broad it is.",
        cures: "Longer brackets, broader boards, or another crossmember to share the load.",
        rows: ON_BRACKETS,
        too_much: "a bunk is pressed to {load} over a bracket, {miss} more than the {max} that its wood bears across the grain",
        load: Load::on_bunks(|view, _| one(of_seat(view, |seat| seat.stress * road_factor(view.setup))))
            .within(|view, _| Limits::at_most(of_seat(view, |seat| seat.allowed))),
        limits: |setup, _| Limits::at_most(timber(setup).bearing.map(|allowable| allowable.value)),
        ..STRESSED
    },
    Check {
        id: "bunk-packing",
        name: "bunk with one support out of line",
        what: "the greatest bending stress of a bunk under its vertical load with one crossmember out of line",
        formula: "M / S with each support in turn higher, then lower, by the policy's packing error; times the policy's road factor",
        rows: PACKED,
        cures: "Shims that bring every crossmember into line, within a tighter packing error; or a board that gives more.",
        remedies: &[],
        too_much: "with one crossmember out of line a bunk is stressed to {load} in bending, {miss} over the {max} allowed for its wood",
        load: Load::on_bunks(|view, _| {
            of_bunk(view, |bunk| Ok(bunk.out_of_line.clone()? * road_factor(view.setup)))
        }),
        limits: |setup, _| bending_limit(setup).advising(),
        ..STRESSED
    },
    Check {
        id: "bunk-foot",
        name: "brackets' feet",
        what: "the greatest pull on the inner bolts of a bracket's foot, against what they hold",
        formula: "R (h tan(deadrise) − w/2) / w where that pulls, h the bunk's top above the foot and w the foot bolt to bolt; times the policy's road factor",
        basis: Basis {
            limit: "the rating in the file",
            source: "statics; friction between hull and bunk taken to hold none of the thrust",
            certainty: Certainty::CommonPractice,
        },
        measuring: "Tape the foot from its inner to its outer bolts, and from the crossmember up to the bunk's outer edge.",
        cures: "Broader feet, lower brackets, gussets to the crossmember, or stronger bolts.",
        measure: Measure::Weight,
        rows: ON_FEET,
        remedies: &[],
        too_much: "the vee pulls the inner bolts of a bracket's foot with {load}, {miss} over the {max} they hold",
        load: Load::on_bunks(|view, _| {
            of_bunk(view, |bunk| Ok(pull_on_feet(view.setup, bunk)? * road_factor(view.setup)))
        }),
        limits: |setup, _| Limits::at_most(need(setup, TRAILER_BUNKS_BRACKETS_FOOT_RATING)).advising(),
        ..STRESSED
    },
    Check {
        id: "bunk-landing",
        name: "landing of the bunks' edges",
        what: "how far outside its nearest strake or chine a bunk's outer edge lies, the worse side",
        formula: "half-spacing less the line's half-breadth, for each side; the greater of the two",
        basis: Basis {
            limit: "an inch either way",
            source: "an edge between strakes dents the bottom and does not guide it",
            certainty: Certainty::CommonPractice,
        },
        measuring: "Tape each bunk's outer edge and each strake from the centreline.",
        cures: "Move the bunk in or out on its crossmembers until its outer edge lies along the strake; its height follows.",
        measure: Measure::Length,
        rows: BUNKS,
        subject: Subject::Bunks,
        judge: Judge::Band,
        core: Core::No,
        remedies: &[],
        too_much: "a bunk's outer edge lies {load} outside its strake or chine, {miss} more than allowed",
        too_little: "a bunk's outer edge lies inside its strake or chine by {miss} more than allowed ({load})",
        load: Load::described(|view, _| {
            let [port, starboard] = landings(view.setup)?.map(|landing| landing.miss);
            one(Ok(if port.abs() > starboard.abs() { port } else { starboard }))
        }),
        limits: |_, _| {
            let off = Length::from_si(OFF_STRAKE);
            Limits::between(Ok(-off), Ok(off)).advising()
        },
    },
    Check {
        id: "crossmember-*",
        name: "crossmember *",
        what: "load of one bunk on crossmember *, against what it may carry from each bunk",
        formula: "the bunk's reaction, up or down; times the policy's road factor",
        basis: Basis {
            limit: "the rating in the file, or the load that bends its section to yield stress over 1.67",
            source: "AISC 360, allowable strength design",
            certainty: Certainty::FromMemory,
        },
        measuring: "Tape the crossmember's section and wall, and where it stands; find its section modulus in a table of shapes.",
        cures: "Another crossmember beside it, a heavier one, or packing that lets its neighbours take their share.",
        measure: Measure::Weight,
        rows: UNDER_BUNKS,
        subject: Subject::Bunks,
        judge: Judge::Rating,
        core: Core::No,
        remedies: &[Remedy::Rating, Remedy::Ends, Remedy::Board, Remedy::Crossmember],
        too_much: "crossmember * carries {load} from one bunk, {miss} over the {max} allowed",
        too_little: "",
        load: Load::on_bunks(|view, member| {
            of_bunk(view, |bunk| {
                let reaction = bunk.reactions[member].ok_or_else(Missing::default)?;
                Ok(reaction.abs() * road_factor(view.setup))
            })
        }),
        limits: |setup, at| Limits::at_most(crossmember_rating(setup, at.of)),
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
        rows: UNDER_KEEL,
        subject: Subject::Bunks,
        judge: Judge::Floor,
        core: Core::No,
        remedies: &[Remedy::Raise],
        too_much: "",
        too_little: "the keel's clearance over crossmember * is {load}, {miss} less than it should be",
        load: Load::described(|view, member| one(keel_clearance(view.setup, member))),
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
        rows: Rows::RIG,
        subject: Subject::Bunks,
        judge: Judge::Floor,
        core: Core::No,
        remedies: &[Remedy::Raise],
        too_much: "",
        too_little: "the hull's clearance from the fenders is {load}, {miss} less than it should be",
        load: Load::described(|view, _| one(Ok(beside_fender(view.setup)?.least()))),
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
        rows: GEAR,
        subject: Subject::Bunks,
        judge: Judge::Floor,
        core: Core::No,
        remedies: &[Remedy::Raise],
        too_much: "",
        too_little: "the clearance of * over the crossmembers is {load}, {miss} less than it should be",
        load: Load::described(|view, point| one(gear_clearance(view.setup, point))),
        limits: least_clearance,
    },
];

/// One row, where there are bunks.
const BUNKS: Rows = Rows::one(|setup| once(setup.trailer.bunks.are_described()));
/// One row, where the bunks lie on brackets: one that hangs on side bolts bears otherwise.
const ON_BRACKETS: Rows = Rows::one(|setup| {
    let lies = setup.trailer.bunks.brackets.bearing_length.is_some();
    once(lies)
});
/// One row, where the policy says how far a crossmember may be out of line.
const PACKED: Rows = Rows::one(|setup| {
    let packed = setup.trailer.bunks.are_described() && setup.policy.packing_error.is_some();
    once(packed)
});
/// One row, where the file describes the brackets' feet.
const ON_FEET: Rows = Rows::one(|setup| {
    let brackets = setup.trailer.bunks.brackets;
    once(brackets.foot.is_some() || brackets.foot_rating.is_some())
});
/// A row for each crossmember that the bunks reach.
const UNDER_BUNKS: Rows = Rows::numbered(usize::MAX, |setup| {
    if setup.trailer.bunks.are_described() { crossmembers(setup) } else { Vec::new() }
})
.there_where(is_reached);
/// A row for each crossmember that the boat passes over.
const UNDER_KEEL: Rows = Rows::numbered(usize::MAX, crossmembers).there_where(is_passed_over);
/// A row for each of the boat's low points, where there are crossmembers; one where no point is listed.
const GEAR: Rows = Rows::named(|setup| {
    let points = named(setup.boat.low_points.iter());
    match (setup.trailer.crossmembers.is_empty(), points.is_empty()) {
        (true, _) => Vec::new(),
        (false, true) => vec![Of::Point(0, NO_LOW_POINTS.to_string())],
        (false, false) => points,
    }
});

fn crossmembers(setup: &Setup) -> Vec<Of> {
    (0..setup.trailer.crossmembers.len()).map(Of::Crossmember).collect()
}

/// One figure of the bunk; not known where boat or bunk would tip, of which `bunk-contact` speaks.
fn of_bunk<Q: Quantity>(view: &View<'_>, figure: impl Fn(&Bunk) -> Known<Q>) -> Known<Reading> {
    let bunk = view.on_bunks().bunk.as_ref().map_err(Clone::clone)?.as_ref().ok_or_else(Missing::default)?;
    one(figure(bunk))
}

/// One figure of where the bunk lies hardest on a bracket.
fn of_seat<Q>(view: &View<'_>, figure: impl Fn(&Seat) -> Q) -> Known<Q> {
    let bunk = view.on_bunks().bunk.as_ref().map_err(Clone::clone)?.as_ref().ok_or_else(Missing::default)?;
    seat(view.setup, bunk).map(|seat| figure(&seat))
}

fn bending_limit(setup: &Setup) -> Limits {
    Limits::at_most(timber(setup).bending.map(|allowable| allowable.value))
}

fn shear_limit(setup: &Setup) -> Limits {
    Limits::at_most(timber(setup).shear.map(|allowable| allowable.value))
}
