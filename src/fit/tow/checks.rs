//! The checks of the tow vehicle.

use crate::fit::check::{Check, Core, Judge, Load, Measure, Reading, Rows, Subject};
use crate::fit::facts::View;
use crate::fit::known::{Known, both, need};
use crate::fit::shared::{
    GROSS, LIGHTEN, LIGHTEN_OR_MOVE, MOVE, TONGUE, TOW_LABEL, TOW_MAKER, WEIGH_GROSS, WEIGH_TONGUE, one,
    rating, tongue, tongue_rating,
};
use crate::mechanics::tow::{front_coupled, rear_coupled};
use crate::quantity::{Share, Weight};
use crate::rig::inputs::{
    Handle, TOW_BALL_OVERHANG, TOW_FRONT_AXLE_LOAD, TOW_FRONT_GAWR, TOW_GCWR, TOW_GVWR, TOW_REAR_AXLE_LOAD,
    TOW_REAR_GAWR, TOW_TONGUE_RATING, TOW_TOW_RATING, TOW_WHEELBASE,
};

const SOLO_AXLES: &str = "Weigh the tow vehicle alone, loaded for the trip, each axle on its own pad; measure its wheelbase and how far the ball stands behind its rear axle.";

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
            one(both(both(front, rear), tongue(view)).map(|((front, rear), tongue)| front + rear + tongue))
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
        formula: "F = F0 − V o / b; o the ball's overhang, b the wheelbase",
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
        load: Load::level(|view, _| coupled(view, TOW_FRONT_AXLE_LOAD, front_coupled)),
        limits: |setup, _| tongue_rating(setup, TOW_FRONT_GAWR),
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
        rows: Rows::RIG,
        subject: Subject::Tow,
        judge: Judge::Rating,
        core: Core::Coupled,
        remedies: LIGHTEN_OR_MOVE,
        too_much: "the tow vehicle's rear axle carries {load}, {miss} over its rating of {max}",
        too_little: "",
        load: Load::level(|view, _| coupled(view, TOW_REAR_AXLE_LOAD, rear_coupled)),
        limits: |setup, _| rating(setup, TOW_REAR_GAWR),
    },
];

/// One axle's load, coupled: it needs no more than its own load alone, the tongue weight and the ball's lever.
fn coupled(
    view: &View<'_>,
    alone: Handle<Weight>,
    load: fn(Weight, Weight, Share) -> Weight,
) -> Known<Reading> {
    let setup = view.setup;
    let lever = both(need(setup, TOW_BALL_OVERHANG), need(setup, TOW_WHEELBASE)).map(|(o, b)| o / b);
    let found = both(both(need(setup, alone), tongue(view)), lever);
    one(found.map(|((alone, tongue), lever)| load(alone, tongue, lever)))
}
