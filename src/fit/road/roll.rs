//! Rolling to the side: the tires on a cross slope, and what tips the trailer in a curve or in the wind. All of it advises.

use super::tires::tire_allowed;
use crate::fit::check::{Basis, Certainty, Check, Core, Judge, Limits, Load, Measure, Rows, Subject};
use crate::fit::facts::View;
use crate::fit::known::{Known, Missing, both, need};
use crate::fit::model::axle_shift;
use crate::fit::placement::transom_station;
use crate::fit::shared::{TIRE_BASIS, one};
use crate::fit::wheels::stations;
use crate::mechanics::road::roll::{Rolling, sideways};
use crate::mechanics::road::sides::{effective_offset, stability_factor};
use crate::quantity::{Length, Quantity, Share, Speed, Weight};
use crate::rig::inputs::{
    BOAT_WINDAGE_AREA, BOAT_WINDAGE_HEIGHT, BOAT_WINDAGE_STATION, TOW_BALL_HEIGHT, TRAILER_TRACK,
    TRIP_CROSS_SLOPE, TRIP_CURVE, TRIP_SPEED, TRIP_WIND,
};

/// Heavy vehicles tip some 25 % earlier than the static stability factor says.
const TIPS_EARLIER: f64 = 0.75;

/// The checks of this file, in the order of reports.
pub(in crate::fit) static CHECKS: &[Check] = &[
    Check {
        id: "cross-slope-tire-*",
        name: "tires of axle * on a cross slope",
        what: "load of the heaviest tire of axle * on the trip's cross slope, against what it may carry",
        formula: "N (1/2 + (|y| + h' tan κ) / t) over the tires on the lower side; h' = (W h − V h_b) / ΣN, since the ball takes its part of the side force at its own height",
        basis: TIRE_BASIS,
        measuring: "With a level and a tape across the lane: rise over run.",
        cures: "Another lane or ramp; gear on the higher side or low down; tires of a higher load range.",
        measure: Measure::Weight,
        rows: Rows::AXLES,
        subject: Subject::Road,
        judge: Judge::Rating,
        core: Core::No,
        remedies: &[],
        too_much: "on the cross slope a tire of axle * carries {load}, {miss} over the {max} that it may",
        too_little: "",
        load: Load::level(|view, axle| one(on_cross_slope(view, axle))),
        limits: |setup, at| Limits::at_most(tire_allowed(setup, at.of)).advising(),
    },
    Check {
        id: "curve-tip",
        name: "tipping in a curve",
        what: "sideways acceleration in the trip's tightest curve, in shares of gravity, against what tips the trailer",
        formula: "v² / (g R), against 0.75 × t / (2 h); h the height of the centre of gravity, t the track",
        basis: Basis {
            limit: "three quarters of the static stability factor",
            source: "NHTSA's static stability factor; heavy vehicles tip some 25 % earlier (SAE 2003-01-3385)",
            certainty: Certainty::Read,
        },
        measuring: "From a map: the radius of the circle that fits the bend.",
        cures: "Drive slower there; carry weight lower.",
        measure: Measure::Share,
        rows: Rows::RIG,
        subject: Subject::Road,
        judge: Judge::Ceiling,
        core: Core::No,
        remedies: &[],
        too_much: "in the curve the trailer feels {load} of gravity to the side; {max} may tip it",
        too_little: "",
        load: Load::level(|view, _| {
            let curve = both(need(view.setup, TRIP_SPEED), need(view.setup, TRIP_CURVE));
            one(curve.map(|(speed, radius)| sideways(speed, radius)))
        })
        .within(|view, _| {
            at_most(rolling(view).map(|roll| stability_factor(roll.track, roll.height) * TIPS_EARLIER))
        }),
        limits: |_, _| by_case(),
    },
    Check {
        id: "wind-tip",
        name: "tipping in the wind",
        what: "the trip's strongest gust from the side, against the one that lifts the windward wheels",
        formula: "F h_w − F_b h_b = ΣN t / 2, with F = q C A, q = 0.00256 v² lb/ft² (v in mph), C = 1.2, F_b = F (x̄ − x_w) / x̄ at the ball",
        basis: Basis {
            limit: "the gust at which one side's wheels lift; springs and tires lean it over sooner, which is not computed",
            source: "statics, with the wind's pressure of building codes; C of 1.0 to 1.4 is common practice",
            certainty: Certainty::Quoted,
        },
        measuring: "Side area and its middle from a photograph taken square to the side.",
        cures: "Wait for less wind; a boat without ballast or high covers is worst.",
        measure: Measure::Speed,
        rows: Rows::RIG,
        subject: Subject::Road,
        judge: Judge::Ceiling,
        core: Core::No,
        remedies: &[],
        too_much: "a gust of {load} is {miss} more than what tips the trailer ({max})",
        too_little: "",
        load: Load::level(|view, _| one(need(view.setup, TRIP_WIND))).within(|view, _| {
            match tipping_wind(view) {
                Ok(None) => Limits::default(),
                Ok(Some(wind)) => at_most(Ok(wind)),
                Err(missing) => at_most::<Speed>(Err(missing)),
            }
        }),
        limits: |_, _| by_case(),
    },
];

/// At most this; past it the owner is advised.
fn at_most<Q: Quantity>(limit: Known<Q>) -> Limits {
    Limits::at_most(limit).advising()
}

/// A limit that only a case gives.
fn by_case() -> Limits {
    at_most::<Share>(Err(Missing::default()))
}

/// What rolls in a case.
fn rolling(view: &View<'_>) -> Known<Rolling> {
    let (setup, case) = (view.setup, view.case());
    let known = both(
        both(case.body.clone(), view.level()),
        both(need(setup, TOW_BALL_HEIGHT), need(setup, TRAILER_TRACK)),
    );
    let ((body, level), (ball_height, track)) = known?;
    let pitch = level.stance.pitch.si();
    // Z = Zb − x sin φ + z cos φ
    let height = ball_height - body.at.x * pitch.sin() + body.at.z * pitch.cos();
    let (tongue_weight, on_axles) = (level.stance.tongue_weight, level.stance.on_axles());
    Ok(Rolling { weight: body.weight, height, tongue_weight, ball_height, on_axles, track })
}

/// The load of the heaviest tire of an axle on the trip's cross slope.
fn on_cross_slope(view: &View<'_>, axle: usize) -> Known<Weight> {
    let setup = view.setup;
    let known = both(
        both(rolling(view), view.level()),
        both(view.case().body.clone(), need(setup, TRIP_CROSS_SLOPE)),
    );
    let ((roll, level), (body, slope)) = known?;
    let offset = effective_offset(body.weight, body.at.y, roll.on_axles);
    let tires = f64::from(setup.trailer.axles[axle].tires.count.unwrap_or(2));
    // Half of the axle's tires stand on its lower side.
    Ok(level.stance.axle_loads[axle] * roll.heavier_side(offset, slope) * 2.0 / tires)
}

/// The gust that tips the trailer, if any does.
fn tipping_wind(view: &View<'_>) -> Known<Option<Speed>> {
    let setup = view.setup;
    let place = both(need(setup, BOAT_WINDAGE_STATION), transom_station(setup));
    let area = both(need(setup, BOAT_WINDAGE_AREA), need(setup, BOAT_WINDAGE_HEIGHT));
    let known = both(both(rolling(view), stations(setup)), both(place, area));
    let ((roll, stations), ((station, transom), (area, height))) = known?;
    let mean = stations.iter().copied().sum::<Length>() / stations.len() as f64 + axle_shift(setup);
    Ok(roll.tipping_wind(area, transom - station, height, mean))
}
