//! The checks of the tow vehicle.

use super::loads::{TowAxle, on_axle};
use crate::fit::check::{
    Basis, Certainty, Check, Core, Judge, Limits, Load, Measure, Reading, Rows, Subject,
};
use crate::fit::facts::View;
use crate::fit::known::{Known, both, need};
use crate::fit::shared::{
    GROSS, LIGHTEN, LIGHTEN_OR_MOVE, MOVE, ONLY_MOVE, TONGUE, TOW_LABEL, TOW_MAKER, WEIGH_GROSS,
    WEIGH_TONGUE, one, rating, tongue, tongue_rating,
};
use crate::quantity::{Quantity, Share, Weight};
use crate::rig::Setup;
use crate::rig::inputs::{
    TOW_FRONT_AXLE_LOAD, TOW_FRONT_GAWR, TOW_GCWR, TOW_GVWR, TOW_REAR_AXLE_LOAD, TOW_REAR_GAWR,
    TOW_TONGUE_RATING, TOW_TOW_RATING,
};

const SOLO_AXLES: &str = "Weigh the tow vehicle alone, loaded, axle by axle; tape its wheelbase, and the ball behind its rear axle.";

/// The least share of its greatest weight on a tow vehicle's front axle.
const LEAST_FRONT: f64 = 0.2;
/// In Europe a rear axle may carry this many times its rating while it tows, up to 100 km/h.
const REAR_AXLE_IN_EUROPE: f64 = 1.15;
/// That speed, in m/s.
const SLOW_IN_EUROPE: f64 = 100.0 / 3.6;
/// The greatest share of its load alone that the front axle may lose. Common practice, no source.
const MOST_FRONT_LOSS: f64 = 0.15;

/// The checks of this subject, in the order of reports.
pub(in crate::fit) static CHECKS: &[Check] = &[
    Check {
        id: "tow-rating",
        name: "tow rating",
        what: "gross trailer weight against what the tow vehicle may tow",
        formula: "W",
        basis: TOW_MAKER,
        measuring: WEIGH_GROSS,
        cures: "Leave weight at home, or tow with a heavier vehicle.",
        measure: Measure::Weight,
        rows: Rows::RIG,
        subject: Subject::Tow,
        judge: Judge::Rating,
        core: Core::Coupled,
        remedies: LIGHTEN,
        too_much: "trailer and boat weigh {load}, {miss} over what the tow vehicle may tow ({max})",
        too_little: "",
        load: GROSS,
        limits: |setup, _| rating(setup, TOW_TOW_RATING),
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
        rows: Rows::RIG,
        subject: Subject::Tow,
        judge: Judge::SignedRating,
        core: Core::No,
        remedies: LIGHTEN_OR_MOVE,
        too_much: "the tongue carries {load}, {miss} over what the tow vehicle's maker allows ({max})",
        too_little: "tongue weight is {load}: the tow vehicle is pulled upward",
        load: TONGUE,
        limits: |setup, _| tongue_rating(setup, TOW_TONGUE_RATING),
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
        rows: Rows::RIG,
        subject: Subject::Tow,
        judge: Judge::Rating,
        core: Core::Coupled,
        remedies: LIGHTEN_OR_MOVE,
        too_much: "the coupled tow vehicle weighs {load}, {miss} over its GVWR of {max}",
        too_little: "",
        load: Load::level(|view, _| {
            let front = need(view.setup, TOW_FRONT_AXLE_LOAD);
            let rear = need(view.setup, TOW_REAR_AXLE_LOAD);
            // V' = V − M_w / x̄
            let left = both(tongue(view), view.case().bars.clone())
                .map(|(tongue, bars)| bars.map_or(tongue, |bars| tongue - bars.moved));
            one(both(both(front, rear), left).map(|((front, rear), left)| front + rear + left))
        }),
        limits: |setup, _| rating(setup, TOW_GVWR),
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
        rows: Rows::RIG,
        subject: Subject::Tow,
        judge: Judge::Rating,
        core: Core::No,
        remedies: LIGHTEN,
        too_much: "tow vehicle and trailer weigh {load}, {miss} over the combination rating of {max}",
        too_little: "",
        load: Load::level(|view, _| one(view.case().combination.clone())),
        limits: |setup, _| rating(setup, TOW_GCWR),
    },
    Check {
        id: "tow-front-axle",
        name: "tow vehicle, front axle",
        what: "the tow vehicle's front axle load, coupled, against its rating",
        formula: "F = F0 − V o / b; o the ball's overhang, b the wheelbase; with bars of moment M that distribute weight F0 − V' o / b + M / b, V' = V − M / x̄, x̄ the trailer's axles behind the ball",
        basis: TOW_LABEL,
        measuring: SOLO_AXLES,
        cures: "Shift load in the tow vehicle, or move the boat forward within the tongue share band.",
        measure: Measure::Weight,
        rows: Rows::RIG,
        subject: Subject::Tow,
        judge: Judge::SignedRating,
        core: Core::No,
        remedies: MOVE,
        too_much: "the tow vehicle's front axle carries {load}, {miss} over its rating of {max}",
        too_little: "the tow vehicle's front axle would lift: its load is {load}",
        load: Load::level(|view, _| one(coupled(view, TowAxle::Front))),
        limits: |setup, _| tongue_rating(setup, TOW_FRONT_GAWR),
    },
    Check {
        id: "tow-rear-axle",
        name: "tow vehicle, rear axle",
        what: "the tow vehicle's rear axle load, coupled, against its rating",
        formula: "R = R0 + V (b + o) / b; o the ball's overhang, b the wheelbase; with bars R0 + V' (b + o) / b − M / b, as for the front axle",
        basis: Basis {
            limit: "the door label's or manual's value; where policy.rules is europe and trip.speed to 100 km/h, 1.15 times that, tires at 0.2 bar more",
            source: "49 CFR 571.3; Regulation (EU) 1230/2012, on pages that quote it",
            certainty: Certainty::Read,
        },
        measuring: SOLO_AXLES,
        cures: "Shift load forward in the tow vehicle, or move the boat aft within the tongue share band.",
        measure: Measure::Weight,
        rows: Rows::RIG,
        subject: Subject::Tow,
        judge: Judge::Rating,
        core: Core::Coupled,
        remedies: LIGHTEN_OR_MOVE,
        too_much: "the tow vehicle's rear axle carries {load}, {miss} over its rating of {max}",
        too_little: "",
        load: Load::level(|view, _| one(coupled(view, TowAxle::Rear))),
        limits: |setup, _| {
            let times = if is_slow_in_europe(setup) { REAR_AXLE_IN_EUROPE } else { 1.0 };
            Limits::at_most(need(setup, TOW_REAR_GAWR).map(|rating| rating * times))
        },
    },
    Check {
        id: "tow-front-share",
        name: "weight on the front axle",
        what: "the tow vehicle's front axle load, coupled, against a fifth of its GVWR",
        formula: "F as for the front axle's rating, not less than 0.2 GVWR",
        basis: Basis {
            limit: "20 % of the greatest laden mass, so that it still steers and brakes",
            source: "Regulation (EU) 1230/2012, for vehicles of categories N2 and N3; taken as advice for every tow vehicle",
            certainty: Certainty::Quoted,
        },
        measuring: SOLO_AXLES,
        cures: "Shift load forward in the tow vehicle, move the boat aft within the tongue share band, or use a weight distribution hitch.",
        measure: Measure::Weight,
        rows: Rows::RIG,
        subject: Subject::Tow,
        judge: Judge::Floor,
        core: Core::No,
        remedies: ONLY_MOVE,
        too_much: "",
        too_little: "the tow vehicle's front axle carries only {load}, less than a fifth of its GVWR ({min})",
        load: Load::level(|view, _| one(coupled(view, TowAxle::Front))),
        limits: |setup, _| Limits::at_least(need(setup, TOW_GVWR).map(|gvwr| gvwr * LEAST_FRONT)).advising(),
    },
    Check {
        id: "tow-front-loss",
        name: "weight lost by the front axle",
        what: "what the tongue takes off the tow vehicle's front axle, as a share of what that carries alone",
        formula: "(F0 − F) / F0, which is V o / (b F0) without bars that distribute weight",
        basis: Basis {
            limit: "15 %",
            source: "no published figure was found; a light front axle steers late and lets the trailer sway",
            certainty: Certainty::CommonPractice,
        },
        measuring: SOLO_AXLES,
        cures: "Move the boat aft within the tongue share band, shorten the ball mount, or use a weight distribution hitch.",
        measure: Measure::Share,
        rows: Rows::RIG,
        subject: Subject::Tow,
        judge: Judge::Ceiling,
        core: Core::No,
        remedies: ONLY_MOVE,
        too_much: "the tongue takes {load} off the tow vehicle's front axle, more than {max}",
        too_little: "",
        load: Load::level(|view, _| {
            let front = coupled(view, TowAxle::Front);
            let alone = need(view.setup, TOW_FRONT_AXLE_LOAD);
            let lost = both(front, alone).map(|(front, alone)| (alone, alone - front));
            lost.map(|(alone, lost)| match alone.si() {
                // An axle that carries nothing has nothing to lose.
                0.0 => Reading::Free,
                _ => Reading::One((lost / alone).si()),
            })
        }),
        limits: |_, _| Limits::at_most(Ok(Share::from_si(MOST_FRONT_LOSS))).advising(),
    },
];

/// Whether the rig is towed by European rules, and no faster than they let a rear axle carry more than its rating.
fn is_slow_in_europe(setup: &Setup) -> bool {
    // A hair over the speed is rounding.
    setup.is_european() && setup.trip.speed.is_some_and(|speed| speed.si() <= SLOW_IN_EUROPE * (1.0 + 1e-9))
}

/// The load of one of the tow vehicle's axles in a case, coupled.
fn coupled(view: &View<'_>, axle: TowAxle) -> Known<Weight> {
    on_axle(view.setup, tongue(view), view.case().bars.clone(), axle)
}
