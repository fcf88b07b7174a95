//! The checks of the brakes.

use super::loads::{BrakeLoads, Heat};
use crate::fit::check::{
    Basis, Certainty, Check, Core, Judge, Limits, Load, Measure, Reading, Remedy, Rows, Subject, axles,
};
use crate::fit::facts::View;
use crate::fit::known::{Known, both, known, need};
use crate::fit::shared::{
    GROSS, LIGHTEN, STAMPED, TONGUE, WEIGH_GROSS, WEIGH_TONGUE, axle_rating, once, one, part_or_move,
    tongue_rating,
};
use crate::fit::tow::tow_vehicle;
use crate::mechanics::brakes::heat::{LININGS_FADE, height_at_one_go};
use crate::quantity::{Length, Quantity, Share, Weight, unit};
use crate::rig::inputs::{
    TOW_FRONT_AXLE_LOAD, TOW_GVWR, TOW_HOLDS_IN_GEAR, TOW_REAR_AXLE_LOAD, TRAILER_AXLES_BRAKED,
    TRAILER_BRAKES_GREATEST_GROSS, TRAILER_BRAKES_LEAST_GROSS, TRAILER_BRAKES_STROKE,
    TRAILER_BRAKES_TONGUE_RATING, TRAILER_GVWR, TRIP_BEND, TRIP_DESCENT_HEIGHT,
};
use crate::rig::{BrakeFluid, BrakeSystem, MAX_AXLES, Setup};

/// Up to this gross weight no brakes are asked for, in pounds.
const UNBRAKED: f64 = 3000.0;
/// In Europe none are asked for up to this GVWR. UN Regulation 13, category O1, from memory.
const UNBRAKED_IN_EUROPE: f64 = 750.0 * unit::STANDARD_GRAVITY;
/// In Europe brakes that the trailer's push works go up to this GVWR. UN Regulation 13, category O2, from memory.
const PUSHED_IN_EUROPE: f64 = 3500.0 * unit::STANDARD_GRAVITY;
/// An axle may carry this many times its rating for as long as a stop takes. Common practice, no source.
const IN_A_STOP: f64 = 1.5;
/// A wet road may hold no more than this share of what a wheel carries: wet concrete 0.5 to 0.7, quoted.
const WET_GRIP: f64 = 0.5;
/// A tow vehicle stops with no more than this share of what its axles carry. Common practice, no source.
const TOW_GRIP: f64 = 0.6;
/// What a single vehicle of up to 10,000 lb has to brake with, and one above that: 49 CFR 393.52(d), from memory.
const ALONE: [f64; 2] = [0.528, 0.435];
/// A push to the side may take this share of what the tow vehicle's rear axle carries. Common practice, no source.
const SIDE_PUSH: f64 = 0.2;

/// One row, where the trailer has brakes that the file describes.
const BRAKED: Rows = Rows::one(|setup| once(setup.trailer.brakes.are_described()));
/// The same with fluid that a push moves.
const PUSHED: Rows = Rows::one(|setup| once(is_pushed(setup)));
/// The same with fluid.
const HYDRAULIC: Rows = Rows::one(|setup| once(setup.trailer.brakes.are_hydraulic()));
/// One row, where the file says what works the brakes, or that nothing does.
const SAID: Rows = Rows::one(|setup| once(setup.trailer.brakes.kind.is_some()));
/// A row for each axle of a trailer with brakes.
const BRAKED_AXLES: Rows = Rows::numbered(MAX_AXLES, |setup| {
    axles(if setup.trailer.brakes.are_described() { setup.trailer.axles.len() } else { 0 })
});

fn is_pushed(setup: &Setup) -> bool {
    setup.trailer.brakes.kind == Some(BrakeSystem::Surge)
}

const STOP_MEASURING: &str = "Tape the actuator's bore, pistons, and discs or drums; what you leave out is assumed, with a range. Better: push on the parked trailer's coupler and read a gauge in the brake line.";
const SERVICE: &str = "Have a qualified person set up or replace the brakes; a smaller bore brakes harder and needs more stroke.";

/// A rule of the trade about brakes.
const TRADE: Basis = Basis { limit: "common practice", source: "none", certainty: Certainty::CommonPractice };

/// What the checks of a stop have in common.
const IN_STOP: Check = Check {
    id: "",
    name: "",
    what: "",
    formula: "",
    basis: TRADE,
    measuring: STOP_MEASURING,
    cures: SERVICE,
    measure: Measure::Weight,
    rows: BRAKED,
    subject: Subject::Brakes,
    judge: Judge::Ceiling,
    core: Core::No,
    remedies: &[],
    too_much: "",
    too_little: "",
    load: Load::described(|_, _| Ok(Reading::Free)),
    limits: |_, _| Limits { min: None, max: None },
};

/// The checks of this subject, in the order of reports.
pub(in crate::fit) static CHECKS: &[Check] = &[
    Check {
        id: "brakes-required",
        name: "brakes on the axles",
        what: "the share of the trailer's axles that are braked",
        formula: "braked axles over all axles, above 3,000 lb gross (GVWR where that is unknown); where policy.rules is europe, above 750 kg GVWR",
        basis: Basis {
            limit: "every axle; the rig fails where none is",
            source: "49 CFR 393.42, and many states' law for private trailers; in Europe UN Regulation 13, from memory",
            certainty: Certainty::Quoted,
        },
        measuring: "Look behind each wheel for a drum or a disc with its line or wire. Where the file says of one axle whether it is braked, the others count as unbraked.",
        cures: "Have a qualified person fit brakes to every axle.",
        measure: Measure::Share,
        rows: Rows::RIG,
        subject: Subject::Brakes,
        judge: Judge::Floor,
        core: Core::Always,
        remedies: &[],
        too_much: "",
        too_little: "only {load} of the axles are braked",
        load: Load::level(
            |view, _| if weighs_little(view)? { Ok(Reading::Free) } else { one(braked(view.setup)) },
        ),
        limits: |setup, _| {
            let one_axle = 1.0 / setup.trailer.axles.len() as f64;
            Limits::at_least(Ok(Share::from_si(1.0))).failing_below(Ok(Share::from_si(one_axle)))
        },
    },
    Check {
        id: "brake-actuator",
        name: "brake actuator",
        what: "gross trailer weight against the weights that the actuator is made for",
        formula: "W",
        basis: STAMPED,
        measuring: WEIGH_GROSS,
        cures: "Fit an actuator made for this weight: one made for a heavier trailer brakes too little, one for a lighter runs out of stroke.",
        rows: PUSHED,
        judge: Judge::Band,
        remedies: LIGHTEN,
        too_much: "trailer and boat weigh {load}, {miss} more than the actuator is made for ({max})",
        too_little: "trailer and boat weigh {load}, {miss} less than the actuator is made for ({min})",
        load: GROSS,
        limits: |setup, _| {
            Limits::between(
                need(setup, TRAILER_BRAKES_LEAST_GROSS),
                need(setup, TRAILER_BRAKES_GREATEST_GROSS),
            )
        },
        ..IN_STOP
    },
    Check {
        id: "brake-actuator-tongue",
        name: "brake actuator, tongue",
        what: "tongue weight against what the actuator may hold",
        formula: "V",
        basis: STAMPED,
        measuring: WEIGH_TONGUE,
        cures: "Move the boat aft within the tongue share band, or fit an actuator of a higher rating.",
        rows: PUSHED,
        judge: Judge::SignedRating,
        remedies: &part_or_move(Remedy::Rating),
        too_much: "the tongue carries {load}, {miss} over the actuator's rating of {max}",
        too_little: "tongue weight is {load}: the actuator is pulled upward",
        load: TONGUE,
        limits: |setup, _| tongue_rating(setup, TRAILER_BRAKES_TONGUE_RATING),
        ..IN_STOP
    },
    Check {
        id: "surge-ratio",
        name: "surge brakes and tow vehicle",
        what: "the trailer's GVWR over the tow vehicle's, for surge brakes",
        formula: "trailer GVWR / tow GVWR; where policy.rules is europe against 3.5 t / tow GVWR",
        basis: Basis {
            limit: "1.75 up to 12,000 lb of trailer GVWR, 1.25 up to 20,000 lb, no surge brakes above; in Europe a trailer GVWR of 3.5 t",
            source: "49 CFR 393.48(d) (72 FR, 6 March 2007), for commercial vehicles; many states copy it. In Europe UN Regulation 13, from memory",
            certainty: Certainty::Read,
        },
        measuring: "Read both certification labels.",
        cures: "Tow with a heavier vehicle, or have brakes fitted that do not work by the trailer's push.",
        measure: Measure::Number,
        rows: PUSHED,
        too_much: "the trailer's GVWR is {load} times the tow vehicle's; surge brakes go up to {max}",
        load: Load::described(|view, _| {
            one(both(need(view.setup, TRAILER_GVWR), need(view.setup, TOW_GVWR))
                .map(|(trailer, tow)| trailer / tow))
        }),
        limits: |setup, _| {
            if setup.is_european() {
                let most = need(setup, TOW_GVWR).map(|tow| Weight::from_si(PUSHED_IN_EUROPE) / tow);
                return Limits::at_most(most).advising();
            }
            let most = need(setup, TRAILER_GVWR).map(|gvwr| {
                let pounds = gvwr.si() / unit::POUND;
                Share::from_si(if pounds <= 12_000.0 {
                    1.75
                } else if pounds <= 20_000.0 {
                    1.25
                } else {
                    0.0
                })
            });
            Limits::at_most(most).advising()
        },
        ..IN_STOP
    },
    Check {
        id: "brake-stroke",
        name: "actuator's stroke",
        what: "travel of the master piston in a stop against what the actuator has",
        formula: "(Σ A δ + κ p) / A_m: what all pistons take to touch, and what the hoses swell by at the pressure of a 0.435 g stop",
        basis: Basis {
            limit: "the stroke in the file; where a piston's travel is assumed, it fails at the short end of that",
            source: "geometry; swelling of the hoses from what 49 CFR 571.106 allows, from memory",
            certainty: Certainty::Derived,
        },
        measuring: "Push the coupler home with the fluid drained and tape how far it slides; tape the hoses; a feeler gauge at the pads gives their travel.",
        cures: "Adjust the drums, have worn pads and long hoses replaced, or fit an actuator of a larger bore or a longer stroke.",
        measure: Measure::Length,
        rows: PUSHED,
        remedies: &[Remedy::Bore],
        too_much: "the actuator's piston would have to travel {load} of the {max} that it has: pressure rises no further",
        load: Load::braking(|view, _| one(view.braking().stroke.clone().map(|stroke| stroke.travel))).within(
            |view, _| {
                let has = need(view.setup, TRAILER_BRAKES_STROKE);
                // At the short end of what is assumed it may be past as well.
                let at_short_end = both(has.clone(), view.braking().stroke.clone())
                    .map(|(has, stroke)| has * (stroke.travel / stroke.least));
                Limits::at_most(has).failing_above(at_short_end)
            },
        ),
        limits: |setup, _| {
            let has = need(setup, TRAILER_BRAKES_STROKE);
            Limits::at_most(has.clone()).failing_above(has)
        },
        ..IN_STOP
    },
    Check {
        id: "brake-stop",
        name: "tow vehicle in a stop",
        what: "what the tow vehicle's own brakes must do in a 0.435 g stop",
        formula: "0.435 of its own weight, and the push that the trailer's brakes leave to it: with surge brakes (0.435 W + G P0) / (1 + G), W the trailer, G its braking for each pound of push beyond P0",
        basis: Basis {
            limit: "0.6 of its axles' load (common practice); fails past 0.528 of its GVWR, 0.435 above 10,000 lb",
            source: "49 CFR 393.52(d)",
            certainty: Certainty::FromMemory,
        },
        rows: SAID,
        judge: Judge::Rating,
        measuring: "Tape bore, pistons and discs or drums; what is left out is assumed.",
        cures: "Have trailer brakes set up; else less weight, a heavier tow vehicle.",
        remedies: &[Remedy::Bore, Remedy::Shed],
        too_much: "to stop at 0.435 g the tow vehicle's brakes would have to do {load}, {miss} more than the {max} they can be asked for",
        load: Load::braking(|view, _| {
            let alone = both(need(view.setup, TOW_FRONT_AXLE_LOAD), need(view.setup, TOW_REAR_AXLE_LOAD));
            one(both(stop(view), alone).and_then(|(stop, _)| stop.by_tow.clone()))
        })
        .within(|view, _| {
            let grip = stop(view).and_then(|stop| stop.on_tow.clone()).map(|on_tow| on_tow * TOW_GRIP);
            let alone = need(view.setup, TOW_GVWR).map(|gvwr| {
                let is_light = gvwr.si() <= 10_000.0 * unit::POUND;
                gvwr * (if is_light { ALONE[0] } else { ALONE[1] })
            });
            match (&grip, &alone) {
                (Ok(grip), Ok(alone)) if alone <= grip => Limits::at_most(Ok(*alone)),
                _ => Limits::at_most(grip).failing_above(alone),
            }
        }),
        limits: |setup, _| {
            let gvwr = need(setup, TOW_GVWR);
            Limits::at_most(gvwr.clone()).failing_above(gvwr)
        },
        ..IN_STOP
    },
    Check {
        id: "brake-axle-*",
        name: "axle * in a stop",
        what: "load of axle * in a 0.435 g stop, against one and a half times its rating",
        formula: "N of the axle: the trailer settled under W, its inertia W a and its brakes; each spring's rear end presses harder by B h_e/s, and equalizers pass that on",
        basis: Basis {
            limit: "1.5 times the axle's rating, for a stop",
            source: "that equalizers pass load on: SAE 852344 (1985), abstract",
            certainty: Certainty::CommonPractice,
        },
        rows: BRAKED_AXLES,
        judge: Judge::Rating,
        too_much: "in a 0.435 g stop axle * carries {load}, {miss} over one and a half times its rating ({max})",
        load: Load::braking(|view, axle| one(Ok(stop(view)?.trailer.stance.axle_loads[axle]))),
        limits: |setup, at| {
            Limits::at_most(axle_rating(setup, at.of).map(|rating| rating * IN_A_STOP)).advising()
        },
        ..IN_STOP
    },
    Check {
        id: "brake-grip-*",
        name: "grip of axle * in a stop",
        what: "the grip that the brakes of axle * ask for in a 0.435 g stop, against what a wet road holds",
        formula: "u = B / N, B as the pressure asks it",
        basis: Basis {
            limit: "0.5: wet concrete holds 0.5 to 0.7",
            source: "handbook values of friction on roads",
            certainty: Certainty::Quoted,
        },
        cures: "Its wheels slide first: brakes of less force on this axle, or more load on it; radius rods in pairs keep equalizers from unloading it.",
        measure: Measure::Share,
        rows: BRAKED_AXLES,
        too_much: "in a 0.435 g stop the wheels of axle * need a grip of {load} of their load; a wet road gives {max}",
        load: Load::braking(|view, axle| {
            let trailer = &stop(view)?.trailer;
            if trailer.asked[axle] == Weight::default() {
                return Ok(Reading::One(0.0));
            }
            Ok(trailer.grip(axle).map_or(Reading::HoldsNothing, |grip| Reading::One(grip.si())))
        }),
        limits: |_, _| Limits::at_most(Ok(Share::from_si(WET_GRIP))).advising(),
        ..IN_STOP
    },
    Check {
        id: "brake-bend",
        name: "push in a bend",
        what: "the push to the side at the ball in a 0.435 g stop in the sharpest bend",
        formula: "F sin ψ against 0.2 R, R the tow vehicle's rear axle load in that stop",
        cures: "Brake before the bend. Trailer brakes of more force push less.",
        too_much: "a 0.435 g stop in the sharpest bend pushes the tow vehicle's rear aside with {load}, more than a fifth of what its rear axle carries ({max})",
        load: Load::braking(|view, _| {
            let bend = need(view.setup, TRIP_BEND);
            // What the limit needs too.
            let stop = both(stop(view), tow_vehicle(view.setup)).map(|(stop, _)| stop);
            one(both(stop, bend).map(|(stop, bend)| stop.trailer.push * bend.si().sin()))
        })
        .within(|view, _| {
            let rear = stop(view).and_then(|stop| stop.rear_axle.clone());
            Limits::at_most(rear.map(|rear| rear * SIDE_PUSH)).advising()
        }),
        limits: |_, _| Limits::at_most(Ok(Weight::default())).advising(),
        ..IN_STOP
    },
    Check {
        id: "brake-descent",
        name: "descent in gear",
        what: "the grade that the tow vehicle would have to hold alone, in gear, with its brakes released on the descent",
        formula: "tan(asin(E / W_t)), E = W_t sin θ + F",
        basis: Basis {
            limit: "the grade in the file that it holds alone",
            source: "statics; rolling resistance is left out",
            certainty: Certainty::Derived,
        },
        measuring: "Try what grade the tow vehicle holds alone in the gear you would take; read the descent from a map.",
        cures: "Go down in a lower gear and brake in short spells; an actuator that holds its pressure leaves less to the tow vehicle.",
        measure: Measure::Share,
        too_much: "on the descent the tow vehicle would have to hold in gear as much as alone on a grade of {load}; the file says that it holds {max}",
        load: Load::braking(|view, _| {
            let descent = view.braking().descent.as_ref().map_err(Clone::clone)?;
            Ok(descent.grade_alone.map_or(Reading::HoldsNothing, |grade| Reading::One(grade.si())))
        }),
        limits: |setup, _| Limits::at_most(need(setup, TOW_HOLDS_IN_GEAR)).advising(),
        ..IN_STOP
    },
    Check {
        id: "brake-heat-lining",
        name: "heat of the linings",
        what: "the height of the descent against what the trailer's linings brake at one go",
        formula: "H (300 − 20) / ΔT, ΔT = B H / (sin θ Σ m c), without cooling: an upper bound of the heat",
        basis: Basis {
            limit: "linings lose grip from about 300 °C, from an ambient 20 °C",
            source: "common practice; specific heat of iron 460 J/kg K, from memory",
            certainty: Certainty::CommonPractice,
        },
        measuring: "Weigh a disc or drum, or take its maker's figure; read the descent from a map.",
        cures: "Stop to cool halfway, and go down in a lower gear.",
        measure: Measure::Distance,
        too_much: "the descent is {load} high; without cooling, its linings may brake {max} of descent at one go",
        load: Load::braking(|view, _| descends(view, lining)).within(|view, _| at_one_go(view, lining)),
        limits: |_, _| Limits::at_most(Ok(Length::default())).advising(),
        ..IN_STOP
    },
    Check {
        id: "brake-heat-fluid",
        name: "heat of the fluid",
        what: "the height of the descent against what the calipers' fluid stands at one go",
        formula: "as for the linings, of a share of the disc's rise, up to the wet boiling point of the fluid",
        basis: Basis {
            limit: "wet boiling point: DOT 3 140 °C, DOT 4 155 °C",
            source: "49 CFR 571.116; the caliper's share of the disc's rise is common practice",
            certainty: Certainty::Quoted,
        },
        measuring: "Read the fluid on the reservoir's cap; change it every two years.",
        cures: "Stop to cool halfway, and go down in a lower gear; fresh fluid of a higher boiling point.",
        measure: Measure::Distance,
        rows: HYDRAULIC,
        too_much: "the descent is {load} high; without cooling the fluid in the calipers may boil after {max}",
        load: Load::braking(|view, _| descends(view, fluid)).within(|view, _| at_one_go(view, fluid)),
        limits: |_, _| Limits::at_most(Ok(Length::default())).advising(),
        ..IN_STOP
    },
];

/// The stop on the level.
fn stop<'a>(view: &View<'a>) -> Known<&'a super::loads::Stop> {
    let loads: &'a BrakeLoads = view.braking();
    loads.stop.as_ref().map_err(Clone::clone)
}

/// What a part takes of a brake's heat: its share of the rise, the rise, and how hot it may get in degrees Celsius.
type Takes = fn(&Setup, &Heat) -> Option<(Share, f64, f64)>;

#[expect(clippy::unnecessary_wraps, reason = "one of the parts that take heat, and always there")]
fn lining(_: &Setup, heat: &Heat) -> Option<(Share, f64, f64)> {
    Some((Share::from_si(1.0), heat.rise, LININGS_FADE))
}

/// Wet boiling points: 49 CFR 571.116, quoted.
fn fluid(setup: &Setup, heat: &Heat) -> Option<(Share, f64, f64)> {
    let boils = match setup.trailer.brakes.fluid {
        Some(BrakeFluid::Dot4) => 155.0,
        _ => 140.0,
    };
    Some((heat.caliper_share?, heat.rise, boils))
}

/// What gets hot on the descent.
fn hot(view: &View<'_>, takes: Takes) -> Known<Vec<(Share, f64, f64)>> {
    let heats = view.braking().heat.as_ref().map_err(Clone::clone)?;
    let hot = heats.iter().filter_map(|heat| takes(view.setup, heat));
    Ok(hot.filter(|(_, rise, _)| *rise > 0.0).collect())
}

/// The descent's height, where a part gets hot on it.
fn descends(view: &View<'_>, takes: Takes) -> Known<Reading> {
    let (hot, height) = both(hot(view, takes), need(view.setup, TRIP_DESCENT_HEIGHT))?;
    Ok(if hot.is_empty() { Reading::Free } else { Reading::One(height.si()) })
}

/// The height that may be braked at one go until a part gets too hot, the least of all axles.
fn at_one_go(view: &View<'_>, takes: Takes) -> Limits {
    let least = both(hot(view, takes), need(view.setup, TRIP_DESCENT_HEIGHT)).map(|(hot, height)| {
        let go = hot.iter().map(|(share, rise, limit)| height_at_one_go(height, *rise, *share, *limit));
        go.reduce(Length::min).unwrap_or_default()
    });
    Limits::at_most(least).advising()
}

/// Whether the trailer is so light that no brakes are asked for.
fn weighs_little(view: &View<'_>) -> Known<bool> {
    let gross = view.case().gross.clone();
    let gvwr = known(view.setup.trailer.gvwr, TRAILER_GVWR.key());
    if view.setup.is_european() {
        return Ok(gvwr.or(gross)? <= Weight::from_si(UNBRAKED_IN_EUROPE));
    }
    Ok(gross.or(gvwr)? <= Weight::from_si(UNBRAKED * unit::POUND))
}

/// The share of axles that are braked: where one is said to be or not, the others count as unbraked.
fn braked(setup: &Setup) -> Known<Share> {
    let trailer = &setup.trailer;
    if trailer.brakes.kind == Some(BrakeSystem::None) {
        return Ok(Share::from_si(0.0));
    }
    let braked = trailer.braked_axles().count() as f64 / trailer.axles.len() as f64;
    known(trailer.says_what_is_braked().then(|| Share::from_si(braked)), TRAILER_AXLES_BRAKED.of(0))
}
