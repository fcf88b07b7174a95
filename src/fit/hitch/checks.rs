//! The checks of what couples the trailer, from coupler to receiver, and of the jack.

use crate::fit::check::{
    Basis, Certainty, Check, Core, Judge, Limits, Load, Measure, Of, Remedy, Rows, Subject,
};
use crate::fit::known::{both, known, need};
use crate::fit::shared::{
    GROSS, MOVE, STAMPED, TONGUE, TONGUE_ON_ROAD, WEIGH_GROSS, WEIGH_TONGUE, gross_or_gvwr, metal_limits,
    once, one, part_or_move, rating, size, tongue_rating,
};
use crate::quantity::{Quantity, Weight, unit};
use crate::rig::inputs::{
    HITCH_BALL_DIAMETER, HITCH_BALL_MOUNT_RATING, HITCH_BALL_MOUNT_SHANK, HITCH_BALL_MOUNT_TONGUE_RATING,
    HITCH_BALL_RATING, HITCH_BALL_TONGUE_RATING, HITCH_RECEIVER_RATING, HITCH_RECEIVER_TONGUE_RATING,
    HITCH_RECEIVER_TUBE, TRAILER_COUPLER_BALL_SIZE, TRAILER_COUPLER_RATING, TRAILER_COUPLER_TONGUE_RATING,
    TRAILER_DRAWBAR_TONGUE_RATING, TRAILER_JACK_RATING, TRAILER_SAFETY_CHAINS_BREAKING,
    TRAILER_SAFETY_CHAINS_COUNT, TRAILER_TONGUE_CLAMP_RATING,
};
use crate::rig::{Absent, Setup};

/// One row, unless there is no receiver.
const RECEIVER: Rows = Rows::one(|setup| unless(setup.hitch.receiver.absent));
/// One row, unless there is no ball mount.
const BALL_MOUNT: Rows = Rows::one(|setup| unless(setup.hitch.ball_mount.absent));
/// One row, unless there is no ball.
const BALL: Rows = Rows::one(|setup| unless(setup.hitch.ball.absent));
/// One row, where the ball has, or ought to have, a plate.
const BALL_PLATE: Rows = Rows::one(|setup| once(setup.has_plate_at_ball()));
/// One row, where the file describes a drawbar, and in Europe, where each has a plate.
const DRAWBAR: Rows = Rows::one(|setup| once(setup.trailer.drawbar.is_described() || setup.is_european()));
/// One row, unless the rules of Europe apply, which ask for no chains.
const CHAINS: Rows = Rows::one(|setup| once(!setup.is_european()));
/// One row, unless one of the two that fit into each other is not there.
const SHANK: Rows = Rows::one(|setup| unless(setup.hitch.receiver.absent.or(setup.hitch.ball_mount.absent)));

/// What a chain must break at, and the greatest gross weight that such a chain is for, in newtons; a stronger one is for as
/// much as it breaks at. Source: SAE J684, classes 1 to 3, quoted.
const CHAIN_CLASSES: [f64; 3] = [2000.0 * unit::POUND, 3500.0 * unit::POUND, 5000.0 * unit::POUND];

/// The gross weight that one chain of this breaking strength is for; nothing below the first class.
fn towed_by_one(breaking: Weight) -> Weight {
    let [.., last] = CHAIN_CLASSES;
    let class = CHAIN_CLASSES.into_iter().rfind(|class| *class <= breaking.si());
    if breaking.si() > last { breaking } else { Weight::from_si(class.unwrap_or(0.0)) }
}

fn chains(setup: &Setup) -> Limits {
    let breaking = need(setup, TRAILER_SAFETY_CHAINS_BREAKING);
    let count = known(setup.trailer.safety_chains.count, TRAILER_SAFETY_CHAINS_COUNT.key());
    let all = both(breaking.clone(), count).map(|(breaking, count)| breaking * f64::from(count));
    Limits::at_most(breaking.map(towed_by_one)).failing_above(all)
}

/// One row, where the file says how the tongue bends.
const TONGUE_BENDS: Rows = Rows::one(|setup| once(setup.trailer.tongue.bends()));
/// One row, where the file says that two clamps hold the tongue.
const CLAMPED: Rows = Rows::one(|setup| once(setup.trailer.tongue.is_clamped()));

fn unless(absent: Option<Absent>) -> Vec<Of> {
    once(absent.is_none())
}

const METAL_ON_ROAD_TONGUE: Basis = Basis {
    limit: "yield stress over 3.3: a tenth to spare at three times the load; where the file states it, the rig fails past it over 1.67",
    source: "AISC 360, allowable strength design, for 1.67, from memory; three times the load on the road",
    certainty: Certainty::CommonPractice,
};

/// What the parts that gross trailer weight hangs on have in common.
const GROSS_RATING: Check = Check {
    id: "",
    name: "",
    what: "",
    cures: "",
    too_much: "",
    limits: |_, _| Limits { min: None, max: None },
    formula: "W",
    basis: STAMPED,
    measuring: WEIGH_GROSS,
    measure: Measure::Weight,
    rows: Rows::RIG,
    subject: Subject::Hitch,
    judge: Judge::Rating,
    core: Core::Coupled,
    remedies: &[],
    too_little: "",
    load: GROSS,
};

/// What the parts that tongue weight rests on have in common.
const TONGUE_RATING: Check = Check {
    id: "",
    name: "",
    what: "",
    cures: "",
    too_much: "",
    limits: |_, _| Limits { min: None, max: None },
    too_little: "",
    formula: "V",
    basis: STAMPED,
    measuring: WEIGH_TONGUE,
    measure: Measure::Weight,
    rows: Rows::RIG,
    subject: Subject::Hitch,
    judge: Judge::SignedRating,
    core: Core::No,
    remedies: &[],
    load: TONGUE,
};

/// The checks of this subject, in the order of reports.
pub(in crate::fit) static CHECKS: &[Check] = &[
    Check {
        id: "coupler",
        name: "coupler",
        what: "gross trailer weight against the coupler's rating",
        cures: "Fit a coupler of a higher rating for the same tongue; bolting and welding belong to a qualified person.",
        too_much: "trailer and boat weigh {load}, {miss} over the coupler's rating of {max}",
        limits: |setup, _| rating(setup, TRAILER_COUPLER_RATING),
        remedies: &[Remedy::Buy(TRAILER_COUPLER_RATING), Remedy::Shed],
        core: Core::Always,
        ..GROSS_RATING
    },
    Check {
        id: "coupler-tongue",
        name: "coupler, tongue",
        what: "tongue weight against the coupler's tongue rating",
        cures: "Move the boat aft within the tongue share band, or fit a coupler of a higher rating.",
        too_much: "the tongue carries {load}, {miss} over the coupler's tongue rating of {max}",
        too_little: "tongue weight is {load}: the coupler is pulled upward",
        limits: |setup, _| tongue_rating(setup, TRAILER_COUPLER_TONGUE_RATING),
        remedies: &part_or_move(Remedy::Buy(TRAILER_COUPLER_TONGUE_RATING)),
        ..TONGUE_RATING
    },
    Check {
        id: "drawbar-tongue",
        rows: DRAWBAR,
        name: "drawbar, tongue",
        what: "tongue weight against S on the drawbar's plate",
        cures: "Move the boat aft within the tongue share band, or fit a drawbar with a greater S on its plate.",
        too_much: "the tongue carries {load}, {miss} over the drawbar's S of {max}",
        too_little: "tongue weight is {load}: the drawbar is pulled upward",
        limits: |setup, _| tongue_rating(setup, TRAILER_DRAWBAR_TONGUE_RATING),
        remedies: &part_or_move(Remedy::Buy(TRAILER_DRAWBAR_TONGUE_RATING)),
        ..TONGUE_RATING
    },
    Check {
        id: "receiver",
        rows: RECEIVER,
        name: "receiver",
        what: "gross trailer weight against the receiver's rating",
        cures: "Fit a receiver of a higher rating; it does not raise the tow vehicle's own rating.",
        too_much: "trailer and boat weigh {load}, {miss} over the receiver's rating of {max}",
        limits: |setup, _| rating(setup, HITCH_RECEIVER_RATING),
        remedies: &[Remedy::Buy(HITCH_RECEIVER_RATING), Remedy::Shed],
        ..GROSS_RATING
    },
    Check {
        id: "receiver-tongue",
        rows: RECEIVER,
        name: "receiver, tongue",
        what: "tongue weight against the receiver's tongue rating",
        cures: "Move the boat aft within the tongue share band, or fit a receiver of a higher rating.",
        too_much: "the tongue carries {load}, {miss} over the receiver's tongue rating of {max}",
        too_little: "tongue weight is {load}: the receiver is pulled upward",
        limits: |setup, _| tongue_rating(setup, HITCH_RECEIVER_TONGUE_RATING),
        remedies: &part_or_move(Remedy::Buy(HITCH_RECEIVER_TONGUE_RATING)),
        ..TONGUE_RATING
    },
    Check {
        id: "ball-mount",
        rows: BALL_MOUNT,
        name: "ball mount",
        what: "gross trailer weight against the ball mount's rating",
        cures: "Fit a ball mount of a higher rating.",
        too_much: "trailer and boat weigh {load}, {miss} over the ball mount's rating of {max}",
        limits: |setup, _| rating(setup, HITCH_BALL_MOUNT_RATING),
        remedies: &[Remedy::Buy(HITCH_BALL_MOUNT_RATING), Remedy::Shed],
        ..GROSS_RATING
    },
    Check {
        id: "ball-mount-tongue",
        rows: BALL_MOUNT,
        name: "ball mount, tongue",
        what: "tongue weight against the ball mount's tongue rating",
        cures: "Move the boat aft within the tongue share band, or fit a ball mount of a higher rating.",
        too_much: "the tongue carries {load}, {miss} over the ball mount's tongue rating of {max}",
        too_little: "tongue weight is {load}: the ball mount is pulled upward",
        limits: |setup, _| tongue_rating(setup, HITCH_BALL_MOUNT_TONGUE_RATING),
        remedies: &part_or_move(Remedy::Buy(HITCH_BALL_MOUNT_TONGUE_RATING)),
        ..TONGUE_RATING
    },
    Check {
        id: "ball",
        rows: BALL,
        name: "ball",
        what: "gross trailer weight against the ball's rating",
        cures: "Fit a ball of a higher rating and the same diameter.",
        too_much: "trailer and boat weigh {load}, {miss} over the ball's rating of {max}",
        limits: |setup, _| rating(setup, HITCH_BALL_RATING),
        remedies: &[Remedy::Buy(HITCH_BALL_RATING), Remedy::Shed],
        ..GROSS_RATING
    },
    Check {
        id: "ball-tongue",
        rows: BALL_PLATE,
        name: "ball, tongue",
        what: "tongue weight against S on the ball's plate",
        cures: "Move the boat aft within the tongue share band, or fit a ball with a greater S on its plate.",
        too_much: "the tongue carries {load}, {miss} over the ball's S of {max}",
        too_little: "tongue weight is {load}: the ball is pulled upward",
        limits: |setup, _| tongue_rating(setup, HITCH_BALL_TONGUE_RATING),
        remedies: &part_or_move(Remedy::Buy(HITCH_BALL_TONGUE_RATING)),
        ..TONGUE_RATING
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
        rows: BALL,
        subject: Subject::Hitch,
        judge: Judge::Size,
        core: Core::Coupled,
        remedies: &[Remedy::Size(HITCH_BALL_DIAMETER)],
        too_much: "the ball measures {load}, but the coupler's socket takes {max}",
        too_little: "the ball measures {load}, but the coupler's socket takes {max}",
        load: Load::described(|view, _| one(need(view.setup, HITCH_BALL_DIAMETER))),
        limits: |setup, _| size(setup, TRAILER_COUPLER_BALL_SIZE),
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
        rows: SHANK,
        subject: Subject::Hitch,
        judge: Judge::Size,
        core: Core::No,
        remedies: &[Remedy::Size(HITCH_BALL_MOUNT_SHANK)],
        too_much: "the ball mount's shank measures {load}, but the receiver's tube takes {max}",
        too_little: "the ball mount's shank measures {load}, but the receiver's tube takes {max}",
        load: Load::described(|view, _| one(need(view.setup, HITCH_BALL_MOUNT_SHANK))),
        limits: |setup, _| size(setup, HITCH_RECEIVER_TUBE),
    },
    Check {
        id: "safety-chains",
        rows: CHAINS,
        name: "safety chains",
        what: "gross trailer weight against what one safety chain may hold by its class, and against all of them",
        formula: "GVWR, or the gross weight where that is more; one chain is for its class (2,000, 3,500, 5,000 lb) or above these its breaking strength, all for their strengths together",
        basis: Basis {
            limit: "each chain by its class advises, all chains together fail",
            source: "SAE J684 for each chain (read on a page that quotes it); 49 CFR 393.70(d) for all",
            certainty: Certainty::Read,
        },
        measuring: "Read the tags on the chains or their maker's sheet; the least of chain, hook and anchor counts.",
        cures: "Fit chains of a higher breaking strength, hooks and anchors included.",
        remedies: &[Remedy::Rating],
        core: Core::No,
        too_much: "trailer and boat weigh up to {load}, and the safety chains are for {max}",
        load: Load::level(|view, _| one(gross_or_gvwr(view))),
        limits: |setup, _| chains(setup),
        ..GROSS_RATING
    },
    Check {
        id: "jack",
        name: "tongue jack",
        what: "what the tongue jack lifts against its rating",
        formula: "V x̄ / (x̄ − x_jack), x̄ the mean axle station; on several axles sprung apart, the trailer settled on its jack with the coupler 4 in above its height on the ball; V alone, a lower bound, without the jack's station",
        basis: STAMPED,
        measuring: "Tape from the ball back to the jack; weigh the tongue at the coupler.",
        cures: "Fit a jack of a higher rating, or set it nearer the coupler.",
        measure: Measure::Weight,
        rows: Rows::RIG,
        subject: Subject::Hitch,
        judge: Judge::SignedRating,
        core: Core::No,
        remedies: &part_or_move(Remedy::Buy(TRAILER_JACK_RATING)),
        too_much: "the tongue jack lifts {load}, {miss} over its rating of {max}",
        too_little: "the tongue jack would be pulled up: its load is {load}",
        load: Load::level(|view, _| one(view.case().jack.clone())),
        limits: |setup, _| tongue_rating(setup, TRAILER_JACK_RATING),
    },
    Check {
        id: "tongue-bending",
        name: "tongue in bending",
        what: "the tongue's bending stress where it is held, at rest",
        formula: "V x_t / S, x_t from the ball to where it is held; with bars of moment M that distribute weight (V x_t + M (1 − x_t / x̄)) / S, x̄ the trailer's axles behind the ball",
        basis: METAL_ON_ROAD_TONGUE,
        measuring: "Tape from the ball back to where the frame or the forward clamp holds the tongue, and the section and wall of its members.",
        cures: "Move the boat aft within the tongue share band, draw the tongue in, or have a qualified person fit a stronger one.",
        measure: Measure::Stress,
        rows: TONGUE_BENDS,
        subject: Subject::Hitch,
        judge: Judge::Rating,
        core: Core::No,
        remedies: MOVE,
        too_much: "tongue weight stresses the tongue to {load} where it is held, {miss} over the {max} that leaves room for the road",
        too_little: "",
        load: Load::frame(|view, _| one(view.frame().tongue.stress.clone())),
        limits: |setup, _| {
            let tongue = setup.trailer.tongue;
            metal_limits(setup, tongue.yield_stress, tongue.weld, TONGUE_ON_ROAD)
        },
    },
    Check {
        id: "tongue-clamp",
        name: "tongue's forward clamp",
        what: "what the forward clamp of the tongue holds down, at rest, against its rating",
        formula: "V (x_t + c) / c, c between the clamps; the rear one holds V less. With bars of moment M that distribute weight V' + (V' x_t + M) / c, V' = V − M / x̄",
        basis: Basis {
            limit: "a third of the rating in the file; past the rating the rig fails",
            source: "the maker's rating; on the road three times the load at rest",
            certainty: Certainty::CommonPractice,
        },
        measuring: "Tape from the ball back to the forward clamp, and between the clamps' middles.",
        cures: "Set the clamps farther apart, or move the boat aft within the tongue share band.",
        measure: Measure::Weight,
        rows: CLAMPED,
        subject: Subject::Hitch,
        judge: Judge::Rating,
        core: Core::No,
        remedies: MOVE,
        too_much: "the tongue's forward clamp holds {load} at rest, {miss} over the {max} that leaves room for the road",
        too_little: "",
        load: Load::frame(|view, _| {
            one(view.frame().tongue.clamps.clone().map(|[forward, _]| forward.abs()))
        }),
        limits: |setup, _| {
            let rating = need(setup, TRAILER_TONGUE_CLAMP_RATING);
            Limits::at_most(rating.clone().map(|rating| rating / TONGUE_ON_ROAD)).failing_above(rating)
        },
    },
];
