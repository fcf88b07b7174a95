//! The checks of European plates, and of what European rules ask of the nose weight: the tongue's.

use crate::fit::check::{
    Basis, Certainty, Check, Core, Judge, Limits, Load, Measure, Reading, Remedy, Rows, Subject,
};
use crate::fit::facts::View;
use crate::fit::known::{Known, Missing, both, known, need};
use crate::fit::model::axle_shift;
use crate::fit::shared::{ONLY_MOVE, WEIGH_TONGUE, gross_or_gvwr, once, one, tongue};
use crate::fit::wheels::stations;
use crate::mechanics::coupling::{d_value, v_value};
use crate::quantity::{Length, Quantity, Weight, unit};
use crate::rig::inputs::{
    HITCH_BALL_D_VALUE, Handle, TOW_GVWR, TRAILER_COUPLER_D_VALUE, TRAILER_DRAWBAR_BODY,
    TRAILER_DRAWBAR_D_VALUE, TRAILER_DRAWBAR_DC_VALUE, TRAILER_DRAWBAR_V_VALUE, TRAILER_GVWR,
};
use crate::rig::{Key, Setup};

/// The parts with D on their plates, from front to rear.
const D_PLATES: &[Handle<Weight>] = &[HITCH_BALL_D_VALUE, TRAILER_COUPLER_D_VALUE, TRAILER_DRAWBAR_D_VALUE];

/// One row, where a plate with D is stated, and in Europe.
const D: Rows = Rows::one(|setup| once(setup.is_european() || d_plates(setup).next().is_some()));
/// One row, where the file describes a drawbar, and in Europe, where each has a plate.
const DRAWBAR: Rows = Rows::one(|setup| once(setup.trailer.drawbar.is_described() || setup.is_european()));
/// The same, unless the trailer is known to be too light for V.
const V: Rows = DRAWBAR.there_where(|setup, _| setup.trailer.gvwr.is_none_or(|gvwr| gvwr.si() > ASKS_FOR_V));
/// One row in Europe.
const EUROPE: Rows = Rows::one(|setup| once(setup.is_european()));

/// V is asked for above this weight of the trailer. UN Regulation 55, from memory.
const ASKS_FOR_V: f64 = 3500.0 * unit::STANDARD_GRAVITY;
/// The nose weight is enough from this share of the trailer's weight, or from so much.
const LEAST_NOSE: (f64, f64) = (0.04, 25.0 * unit::STANDARD_GRAVITY);
/// It is too much from this share of the trailer's greatest weight, or from so much.
const MOST_NOSE: (f64, f64) = (0.10, 10_000.0);

const PLATE: Basis = Basis {
    limit: "the least of the plates in the file",
    source: "UN Regulation 55, g taken as 9.81 m/s²; that V is asked for above 3.5 t only, from memory",
    certainty: Certainty::Quoted,
};

/// What the checks of plates have in common.
const ON_PLATE: Check = Check {
    id: "",
    name: "",
    what: "",
    formula: "",
    basis: PLATE,
    measuring: "Read both certification labels, and D, Dc and V on the plates of coupling head, ball and drawbar.",
    cures: "",
    measure: Measure::Force,
    rows: DRAWBAR,
    subject: Subject::Hitch,
    judge: Judge::Rating,
    core: Core::No,
    remedies: &[],
    too_much: "",
    too_little: "",
    load: Load::level(|_, _| Ok(Reading::Free)),
    limits: |_, _| Limits { min: None, max: None },
};

/// What the checks of nose weight have in common.
const NOSE: Check = Check {
    measuring: WEIGH_TONGUE,
    measure: Measure::Weight,
    rows: EUROPE,
    remedies: ONLY_MOVE,
    ..ON_PLATE
};

/// The checks in the order of reports.
pub(in crate::fit) static PLATE_CHECKS: &[Check] = &[
    Check {
        id: "coupling-d",
        name: "coupling, D",
        what: "the pull between tow vehicle and trailer against D on the plates of ball, coupling head and drawbar",
        formula: "9.81 m/s² T R / (T + R), T the tow vehicle's GVWR, R the trailer's, or its gross weight where that is more",
        cures: "Fit a coupling head, ball or drawbar with a greater D on its plate; what is on the tow vehicle does not raise its own rating.",
        rows: D,
        remedies: &[Remedy::Plates(D_PLATES)],
        too_much: "between tow vehicle and trailer D is {load}, {miss} over the least plate's {max}",
        load: Load::level(|view, _| {
            let silent: Vec<Key> = silent(view.setup).map(Handle::key).collect();
            match d_of(view, gross_or_gvwr(view)) {
                Ok(d) => Ok(Reading::UpTo(d.si(), Missing(silent))),
                Err(missing) => Err(Missing([missing.0, silent].concat())),
            }
        }),
        limits: |setup, _| {
            let least = d_plates(setup).reduce(Weight::min);
            Limits::at_most(known(least, TRAILER_COUPLER_D_VALUE.key()))
        },
        ..ON_PLATE
    },
    Check {
        id: "coupling-dc",
        name: "drawbar, Dc",
        what: "the pull between tow vehicle and the trailer's axle loads against Dc on the drawbar's plate",
        formula: "9.81 m/s² T C / (T + C), T as for D, C the trailer's weight as for D less its nose weight",
        cures: "Fit a drawbar with a greater Dc on its plate.",
        remedies: &[Remedy::Buy(TRAILER_DRAWBAR_DC_VALUE)],
        too_much: "on the drawbar Dc is {load}, {miss} over its plate's {max}",
        load: Load::level(|view, _| one(d_of(view, on_axles(view)))),
        limits: |setup, _| Limits::at_most(need(setup, TRAILER_DRAWBAR_DC_VALUE)),
        ..ON_PLATE
    },
    Check {
        id: "coupling-v",
        name: "drawbar, V",
        what: "what shakes the drawbar up and down against V on its plate, for a trailer above 3.5 t",
        formula: "a (X/L)² C, (X/L)² not below 1; X the body's length, L ball to the axles' middle, C as for Dc, a 1.8 m/s² where the tow vehicle is on air springs, else 2.4 m/s²",
        rows: V,
        cures: "Fit a drawbar with a greater V on its plate, or tow with a vehicle on air springs.",
        remedies: &[Remedy::Buy(TRAILER_DRAWBAR_V_VALUE)],
        too_much: "on the drawbar V is {load}, {miss} over its plate's {max}",
        load: Load::level(|view, _| {
            let trailer = gross_or_gvwr(view)?;
            if trailer.si() <= ASKS_FOR_V { Ok(Reading::Free) } else { one(v_of(view)) }
        }),
        limits: |setup, _| Limits::at_most(need(setup, TRAILER_DRAWBAR_V_VALUE)),
        ..ON_PLATE
    },
    Check {
        id: "nose-least",
        name: "nose weight, least",
        what: "nose weight, which is the tongue's, against the least that European rules ask for",
        formula: "V, not less than the lesser of 4 % of the gross trailer weight and 25 kg: above 625 kg gross 25 kg is enough here. tongue-share asks for its share all the same",
        basis: Basis {
            limit: "4 % of the trailer's weight, 25 kg being enough: what the law asks, where tongue-share is what keeps a trailer steady",
            source: "national rules, on pages that quote them; Directive 92/21/EEC asks as much of the tow vehicle's rating",
            certainty: Certainty::Quoted,
        },
        cures: "Move the boat forward, or the axles aft.",
        judge: Judge::Floor,
        too_little: "nose weight is only {load}, less than the {min} that European rules ask for",
        load: Load::level(|view, _| one(tongue(view))).within(|view, _| {
            Limits::at_least(view.case().gross.clone().map(|gross| lesser(gross, LEAST_NOSE))).advising()
        }),
        limits: |_, _| Limits::at_least(Ok(Weight::from_si(LEAST_NOSE.1))).advising(),
        ..NOSE
    },
    Check {
        id: "nose-greatest",
        name: "nose weight, greatest",
        what: "nose weight, which is the tongue's, against the most that a centre-axle trailer has by European rules",
        formula: "V, not more than the lesser of 10 % of the trailer's GVWR and 10 kN",
        basis: Basis {
            limit: "10 % of the trailer's greatest weight, or 10 kN",
            source: "an ISO term for centre-axle trailers, on pages that quote it",
            certainty: Certainty::Quoted,
        },
        cures: "Move the boat aft, or the axles forward.",
        judge: Judge::Ceiling,
        too_much: "nose weight is {load}, {miss} over the {max} of a centre-axle trailer",
        load: Load::level(|view, _| one(tongue(view))),
        limits: |setup, _| {
            Limits::at_most(need(setup, TRAILER_GVWR).map(|gvwr| lesser(gvwr, MOST_NOSE))).advising()
        },
        ..NOSE
    },
];

/// What the plates in the file say of D.
fn d_plates(setup: &Setup) -> impl Iterator<Item = Weight> {
    D_PLATES.iter().filter_map(|plate| plate.get(setup))
}

/// The parts that ought to have D on a plate and of which the file does not state it.
fn silent(setup: &Setup) -> impl Iterator<Item = Handle<Weight>> {
    let ball = setup.is_european() && setup.hitch.ball.absent.is_none();
    let ought = [ball, setup.is_european(), setup.trailer.drawbar.is_described()];
    let silent = D_PLATES.iter().zip(ought).filter(|(plate, ought)| *ought && plate.get(setup).is_none());
    silent.map(|(plate, _)| *plate)
}

/// D between the tow vehicle and a trailer of this weight.
fn d_of(view: &View<'_>, trailer: Known<Weight>) -> Known<Weight> {
    both(need(view.setup, TOW_GVWR), trailer).map(|(tow, trailer)| d_value(tow, trailer))
}

/// What the trailer's axles carry while the trailer weighs its most.
fn on_axles(view: &View<'_>) -> Known<Weight> {
    let carried = both(gross_or_gvwr(view), tongue(view));
    carried.map(|(trailer, tongue)| (trailer - tongue).max(Weight::default()))
}

fn v_of(view: &View<'_>) -> Known<Weight> {
    let setup = view.setup;
    let lengths = both(need(setup, TRAILER_DRAWBAR_BODY), stations(setup));
    let ((body, stations), carried) = both(lengths, on_axles(view))?;
    let to_axles = stations.iter().copied().sum::<Length>() / stations.len() as f64 + axle_shift(setup);
    Ok(v_value(carried, body, to_axles, setup.tow.air_suspension == Some(true)))
}

/// The lesser of a share of a weight and so many newtons.
fn lesser(of: Weight, (share, newtons): (f64, f64)) -> Weight {
    (of * share).min(Weight::from_si(newtons))
}
