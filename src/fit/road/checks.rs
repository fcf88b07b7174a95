//! The checks of the level road: weight, tongue, axles, springs, tires and wheels, and the rear axle lifted.

use super::tires::{tire_allowed, tire_rating};
use crate::fit::check::{
    Basis, Certainty, Check, Core, Judge, Limits, Load, Measure, Remedy, Rows, Subject, axles,
};
use crate::fit::known::{Known, both, known};
use crate::fit::shared::{
    AXLES, GROSS, GVWR_RULE, LIGHTEN, LIGHTEN_OR_MOVE, MOVE, ONLY_MOVE, PLACARD, PLACARD_GAWR, RAILS_ON_ROAD,
    SLOW_AXLE, SLOW_TIRE, SPRINGS, STAMPED, TIRE_BASIS, TIRES, TONGUE, WEIGH_GROSS, WEIGH_TONGUE, WHEELS,
    against_tongue_ratings, axle_load, axle_rating, least_tongue_rating, metal_limits, once, one, rating,
    slowly, tire_loads, wheel_rating,
};
use crate::quantity::{Quantity, Share, Weight};
use crate::rig::inputs::{
    POLICY_TONGUE_SHARE_MAX, POLICY_TONGUE_SHARE_MIN, TRAILER_AXLES_SPRING_RATING, TRAILER_GVWR,
};
use crate::rig::{MAX_AXLES, Setup};

const WEIGH_AXLES: &str =
    "Weigh each axle on its own pad of a truck scale, coupled, on level ground, everything aboard.";

/// Past this share of gross the tongue fails also where the file states no band: the trade's rule for trailers in
/// general goes no higher.
const MOST_TONGUE_SHARE: f64 = 0.15;

/// The checks of this subject, in the order of reports.
pub(in crate::fit) static CHECKS: &[Check] = &[
    Check {
        id: "tongue-share",
        name: "tongue share",
        what: "tongue weight as a share of gross trailer weight",
        formula: "V / W, the trailer settled on level ground",
        basis: Basis {
            limit: "the policy in the file; else 7 to 12 % of gross, 4 to 10 % where policy.rules is europe (its 25 kg: nose-least)",
            source: "US boat owners' association, 2012, 1 to 2 % less on tandems and triples; builders say 5 to 10, vehicle manuals 10 to 15 %; Europe: national rules and an ISO term, quoted",
            certainty: Certainty::Read,
        },
        measuring: WEIGH_TONGUE,
        cures: "Boat or gear forward, or axles aft, raises it. Too little lets the trailer sway; too much overloads hitch and rear axle.",
        measure: Measure::Share,
        rows: Rows::RIG,
        subject: Subject::Road,
        judge: Judge::Band,
        core: Core::Always,
        remedies: ONLY_MOVE,
        too_much: "the tongue carries {load} of the gross trailer weight, more than the {max} allowed",
        too_little: "the tongue carries only {load} of the gross trailer weight, less than the {min} it needs",
        load: Load::level(|view, _| one(view.case().tongue_share())),
        limits: |setup, _| {
            let band = setup.policy.tongue_share;
            let min = known(band.min, POLICY_TONGUE_SHARE_MIN.key());
            let limits = Limits::between(min, known(band.max, POLICY_TONGUE_SHARE_MAX.key()));
            if setup.is_assumed(POLICY_TONGUE_SHARE_MAX.key()) {
                limits.failing_above(Ok(Share::from_si(MOST_TONGUE_SHARE)))
            } else {
                limits
            }
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
        rows: Rows::RIG,
        subject: Subject::Road,
        judge: Judge::Floor,
        core: Core::No,
        remedies: ONLY_MOVE,
        too_much: "",
        too_little: "the trailer lifts the tow vehicle: tongue weight is {load}",
        load: TONGUE,
        limits: |_, _| Limits::at_least(Ok(Weight::default())),
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
        rows: Rows::RIG,
        subject: Subject::Road,
        judge: Judge::Rating,
        core: Core::Always,
        remedies: LIGHTEN,
        too_much: "trailer and boat weigh {load}, {miss} over the trailer's GVWR of {max}",
        too_little: "",
        load: GROSS,
        limits: |setup, _| rating(setup, TRAILER_GVWR),
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
        rows: Rows::AXLES,
        subject: Subject::Road,
        judge: Judge::Rating,
        core: Core::Always,
        remedies: AXLES,
        too_much: "axle * carries {load}, {miss} over its rating of {max}",
        too_little: "",
        load: Load::level(|view, axle| axle_load(view.level()?, axle)),
        limits: |setup, at| Limits::at_most(axle_rating(setup, at.of)),
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
        rows: Rows::AXLES,
        subject: Subject::Road,
        judge: Judge::Rating,
        core: Core::No,
        remedies: SPRINGS,
        too_much: "the springs of axle * carry {load}, {miss} over their rating of {max}",
        too_little: "",
        load: Load::level(|view, axle| axle_load(view.level()?, axle)),
        limits: |setup, at| {
            let rating = setup.trailer.axles[at.of].spring_rating;
            Limits::at_most(known(rating, TRAILER_AXLES_SPRING_RATING.of(at.of)))
        },
    },
    Check {
        id: "tire-*",
        name: "tires of axle *",
        what: "load of the heaviest tire of axle * against what it may carry at its pressure",
        formula: "N (1/2 + |y|/t) over its tires; y = W yc / ΣN, t the track; against L_max (P / P_max)^n to L_max, at least its published row",
        basis: TIRE_BASIS,
        measuring: "Read load and pressure on the sidewall; keep that pressure. Weigh the two sides separately where gear sits to one side.",
        cures: "Tires of a higher load range, wheels rated for them; gear moved to the lighter side; the boat moved or lightened.",
        measure: Measure::Weight,
        rows: Rows::AXLES,
        subject: Subject::Road,
        judge: Judge::Rating,
        core: Core::Always,
        remedies: TIRES,
        too_much: "a tire of axle * carries {load}, {miss} over the {max} that it may at its pressure",
        too_little: "",
        load: Load::level(|view, axle| tire_loads(view.setup, view.level()?, axle)),
        limits: |setup, at| Limits::at_most(tire_allowed(setup, at.of)),
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
        rows: Rows::AXLES,
        subject: Subject::Road,
        judge: Judge::Rating,
        core: Core::Always,
        remedies: WHEELS,
        too_much: "a tire of axle * carries {load}, {miss} over its wheel's rating of {max}",
        too_little: "",
        load: Load::level(|view, axle| tire_loads(view.setup, view.level()?, axle)),
        limits: |setup, at| Limits::at_most(wheel_rating(setup, at.of)),
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
        rows: Rows::AXLES,
        subject: Subject::Road,
        judge: Judge::Rating,
        core: Core::No,
        remedies: &[Remedy::TiresTogether],
        too_much: "axle * is rated {load}, {miss} more than its tires and wheels can carry ({max})",
        too_little: "",
        load: Load::described(|view, axle| one(axle_rating(view.setup, axle))),
        limits: |setup, at| {
            let count = f64::from(setup.trailer.axles[at.of].tires.count.unwrap_or(2));
            let both = both(tire_rating(setup, at.of), wheel_rating(setup, at.of));
            Limits::at_most(both.map(|(tire, wheel)| tire.min(wheel) * count)).advising()
        },
    },
    Check {
        id: "side-lift",
        name: "lighter side",
        what: "the lighter side's share of the axles' load, against zero",
        formula: "1/2 − |y|/t; y = W yc / ΣN, t the track: the ball resists no roll",
        basis: Basis {
            limit: "zero: a side's wheels lift",
            source: "statics",
            certainty: Certainty::Derived,
        },
        measuring: "Tape the track, and what lies to one side from the centreline; weigh the two sides apart.",
        cures: "Move gear to the lighter side.",
        measure: Measure::Share,
        rows: Rows::RIG,
        subject: Subject::Road,
        judge: Judge::Floor,
        core: Core::No,
        remedies: &[],
        too_much: "",
        too_little: "the wheels of the lighter side lift: its share of the axles' load falls to {load}",
        load: Load::level(|view, _| {
            let heavier = view.level()?.heavier_side.clone()?;
            one(Ok(Share::from_si(1.0) - heavier))
        }),
        limits: |_, _| Limits::at_least(Ok(Share::from_si(0.0))),
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
        rows: ALL_BUT_REAR,
        subject: Subject::Road,
        judge: Judge::Rating,
        core: Core::No,
        remedies: AXLES,
        too_much: "with the rear axle lifted, axle * carries {load}, {miss} over its rating of {max}",
        too_little: "",
        load: Load::lifted(|view, axle| axle_load(view.lifted()?, axle)),
        limits: |setup, at| lifted(setup, axle_rating(setup, at.of), SLOW_AXLE),
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
        rows: ALL_BUT_REAR,
        subject: Subject::Road,
        judge: Judge::Rating,
        core: Core::No,
        remedies: TIRES,
        too_much: "with the rear axle lifted, a tire of axle * carries {load}, {miss} over the {max} that it may at its pressure",
        too_little: "",
        load: Load::lifted(|view, axle| tire_loads(view.setup, view.lifted()?, axle)),
        limits: |setup, at| lifted(setup, tire_allowed(setup, at.of), SLOW_TIRE),
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
        rows: SEVERAL_AXLES,
        subject: Subject::Road,
        judge: Judge::SignedRating,
        core: Core::No,
        remedies: MOVE,
        too_much: "with the rear axle lifted, the tongue carries {load}, {miss} over the least tongue rating ({max})",
        too_little: "with the rear axle lifted, the trailer lifts the tow vehicle: tongue weight is {load}",
        load: Load::lifted(|view, _| {
            Ok(against_tongue_ratings(view.setup, view.lifted()?.stance.tongue_weight))
        }),
        limits: |setup, _| Limits::up_to(least_tongue_rating(setup)).advising(),
    },
    Check {
        id: "rail-bending",
        name: "frame rails in bending",
        what: "greatest bending stress of the rail on the heavier side, at rest",
        formula: "M / S: both rails as one beam on ball and springs, under boat and frame, by the share of the heavier side's wheels; with and without weight distribution bars. A stop bends them otherwise: told, not judged",
        basis: Basis {
            limit: "yield over 2.2: a tenth to spare at twice the load; where the file states it, the rig fails past it over 1.67",
            source: "AISC 360 for 1.67, from memory; twice the load on the road",
            certainty: Certainty::CommonPractice,
        },
        measuring: "Tape a rail's section and wall, the crossmembers and the springs.",
        cures: "Bunks' weight nearer the springs, or less weight; have a qualified person reinforce the rails.",
        measure: Measure::Stress,
        rows: RAILS,
        subject: Subject::Road,
        judge: Judge::Rating,
        core: Core::No,
        remedies: LIGHTEN_OR_MOVE,
        too_much: "a frame rail is stressed to {load} at rest, {miss} over the {max} that leaves room for the road",
        too_little: "",
        load: Load::frame(|view, _| one(view.frame().rails.clone()?.stress)),
        limits: |setup, _| {
            let rails = setup.trailer.rails;
            metal_limits(setup, rails.yield_stress, rails.weld, RAILS_ON_ROAD)
        },
    },
];

/// One row, where the file describes the frame's rails.
const RAILS: Rows = Rows::one(|setup| once(setup.trailer.rails.are_described()));

/// What the axles left may carry: their ratings on three axles and more, of which two must carry it all. A tandem rolls
/// over a ramp's head slowly on one of them.
fn lifted(setup: &Setup, rating: Known<Weight>, slow: f64) -> Limits {
    if setup.trailer.axles.len() >= 3 { Limits::at_most(rating) } else { slowly(rating, slow) }
}

/// A row for each axle but the rear one, on two axles or more.
const ALL_BUT_REAR: Rows = Rows::numbered(MAX_AXLES - 1, |setup| axles(setup.trailer.axles.len() - 1));
/// One row, on two axles or more.
const SEVERAL_AXLES: Rows = Rows::one(|setup| once(setup.trailer.axles.len() > 1));
