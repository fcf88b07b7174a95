//! The checks of the tires beside their load: pressure, speed, age, room, and whether they go together.

use super::tires::{pressure, pressure_max, tire_allowed};
use crate::fit::check::{
    Basis, Certainty, Check, Core, Judge, Limits, Load, Measure, Reading, Remedy, Rows, Subject, axles,
};
use crate::fit::facts::View;
use crate::fit::known::{Known, both, each, gathered, known, need};
use crate::fit::shared::{LIGHTEN, TIRE_BASIS, once, one, wheel_rating};
use crate::mechanics::road::tires::LEAST_PRESSURE;
use crate::quantity::unit::{INCH, MILE_AN_HOUR, POUND};
use crate::quantity::{Length, Pressure, Quantity, Speed, Weight};
use crate::rig::inputs::{
    TRAILER_AXLES_RATING, TRAILER_AXLES_STATION, TRAILER_AXLES_TIRES_CONSTRUCTION, TRAILER_AXLES_TIRES_DATE,
    TRAILER_AXLES_TIRES_FENDER, TRAILER_AXLES_TIRES_PRESSURE_MAX, TRAILER_AXLES_TIRES_RADIUS,
    TRAILER_AXLES_TIRES_SPEED_SYMBOL, TRAILER_SUSPENSION_KIND, TRIP_DATE, TRIP_SPEED,
};
use crate::rig::tires::{day_of_date, day_of_date_code, speed_of_symbol};
use crate::rig::{MAX_AXLES, Setup, TireKind, unloaded_radius};

/// Past the greatest pressure by this much the rig fails.
const OVER: f64 = 10.0;
/// A tire's radius as it turns unloaded, over its loaded one. Common practice, no source.
const UNLOADED: f64 = 1.06;
/// Room that a tire needs, to a fender or to the next tire. Common practice, no source.
const ROOM: f64 = 1.0;
/// The greatest age of a tire. Common practice, no source.
const OLDEST: f64 = 6.0;
/// Days in a year of the calendar, leap years counted in.
const YEAR: f64 = 365.25;
/// Trailer tires without a symbol: the usual limit; that of tires at 10 psi more than the load needs; and that of such
/// tires with a tenth of their load to spare.
const ST_SPEEDS: [f64; 3] = [65.0, 75.0, 87.0];
/// The share of what it may carry that a tire may carry at the last of them.
const ST_SPARING: f64 = 0.9;

const ROOM_BASIS: Basis = Basis {
    limit: "1 in, as tires grow at speed and throw stones",
    source: "no published figure was found",
    certainty: Certainty::CommonPractice,
};

/// The checks of this file, in the order of reports.
pub(in crate::fit) static CHECKS: &[Check] = &[
    Check {
        id: "lifted-tires-total",
        name: "all tires with the rear axle lifted",
        what: "what all other axles carry with the rear axle lifted, against what their tires and wheels carry together",
        formula: "ΣN without the rear axle, against the sum over the axles left of count × the lesser of tire and wheel",
        basis: TIRE_BASIS,
        measuring: "Read load and pressure on the sidewall, and the rating on the wheel.",
        cures: "Tires and wheels of a higher rating, less weight, or another axle.",
        measure: Measure::Weight,
        rows: SEVERAL_AXLES,
        subject: Subject::Road,
        judge: Judge::Rating,
        core: Core::No,
        remedies: LIGHTEN,
        too_much: "with the rear axle lifted, the other tires carry {load} together, {miss} over what they may ({max})",
        too_little: "",
        load: Load::lifted(|view, _| one(Ok(view.lifted()?.stance.on_axles()))),
        limits: |setup, _| {
            let left = 0..setup.trailer.axles.len().saturating_sub(1);
            Limits::at_most(gathered(left.map(|axle| of_axle(setup, axle)), |each| each.sum::<Weight>()))
                .advising()
        },
    },
    Check {
        id: "tire-pressure-*",
        name: "pressure of axle *'s tires",
        what: "pressure of the tires of axle *, from what the load needs to what the sidewall allows",
        formula: "P, not less than P_max (L / L_max)^(1/n) nor 0.6 P_max, L the heaviest tire's load; or a published row that asks for less",
        basis: Basis {
            limit: "what the load needs, to the sidewall's pressure; 10 psi over that the rig fails",
            source: "published tables of loads by inflation: n 0.58 to 0.75 on trailer, 0.7 to 0.8 on light-truck, 0.8 on passenger tires",
            certainty: Certainty::Quoted,
        },
        measuring: "With a gauge, cold, before driving; the greatest pressure is moulded on the sidewall.",
        cures: "Set the sidewall's pressure, cold, never more; else larger tires.",
        measure: Measure::Inflation,
        rows: Rows::AXLES,
        subject: Subject::Road,
        judge: Judge::Between,
        core: Core::No,
        remedies: &[Remedy::Inflate],
        too_much: "the tires of axle * stand at {load}, {miss} over the {max} that they may have",
        too_little: "the tires of axle * stand at {load}: their load asks for {min}",
        load: Load::level(|view, axle| one(pressure(view.setup, axle)))
            .within(|view, axle| pressures(view.setup, axle, view.case().tires[axle].needed.clone())),
        limits: |setup, at| {
            pressures(setup, at.of, pressure_max(setup, at.of).map(|most| most * LEAST_PRESSURE))
        },
    },
    Check {
        id: "tire-speed-*",
        name: "speed for axle *'s tires",
        what: "the trip's speed against what the tires of axle * are made for",
        formula: "the speed of the trip, against that for which the symbol stands. For a trailer tire without one: 65 mph; 75 mph where its pressure is 10 psi more than the load needs; 87 mph where it also carries no more than 0.9 of its rating",
        basis: Basis {
            limit: "the symbol on the sidewall; without one the usual limit of trailer tires, which only advises",
            source: "UN Regulation 30 for the symbols; the tire industry's yearbook for trailer tires (ST)",
            certainty: Certainty::Quoted,
        },
        measuring: "Read the letter after the load index on the sidewall.",
        cures: "Drive slower, or fit tires of a higher speed symbol.",
        measure: Measure::Speed,
        rows: Rows::AXLES,
        subject: Subject::Road,
        judge: Judge::Ceiling,
        core: Core::No,
        remedies: &[],
        too_much: "{load} is {miss} more than the tires of axle * are made for ({max})",
        too_little: "",
        load: Load::level(|view, _| one(need(view.setup, TRIP_SPEED)))
            .within(|view, axle| speed(view.setup, axle, usual_speed(view, axle))),
        limits: |setup, at| speed(setup, at.of, ST_SPEEDS[0]),
    },
    Check {
        id: "tire-age-*",
        name: "age of axle *'s tires",
        what: "age of the tires of axle * in years on the day of the trip",
        formula: "from the Monday of the week moulded in to the day of the trip",
        basis: Basis {
            limit: "6 years",
            source: "no published figure was found; makers say from 5 to 10 years",
            certainty: Certainty::CommonPractice,
        },
        measuring: "The last four digits of the code that begins with DOT on the sidewall are week and year.",
        cures: "New tires: rubber ages standing still, and trailers stand most of the time.",
        measure: Measure::Number,
        rows: Rows::AXLES,
        subject: Subject::Road,
        judge: Judge::Ceiling,
        core: Core::No,
        remedies: &[],
        too_much: "the tires of axle * are {load} years old, {miss} more than {max}",
        too_little: "",
        load: Load::described(|view, axle| age(view.setup, axle).map(Reading::One)),
        limits: |_, _| most_number(OLDEST).advising(),
    },
    Check {
        id: "tire-fender-*",
        name: "fender over axle *'s tires",
        what: "room between the tires of axle * and their fender with the springs at their bump stops",
        formula: "fender over hub − 1.06 R − (bump − d); R the loaded radius, d the springs' deflection in the first case",
        basis: ROOM_BASIS,
        measuring: "Loaded as in the first case, tape from the hub's centre up to the fender's underside.",
        cures: "Raise the fender, or fit smaller tires of the same rating.",
        measure: Measure::Length,
        rows: Rows::AXLES,
        subject: Subject::Road,
        judge: Judge::Floor,
        core: Core::No,
        remedies: &[],
        too_much: "",
        too_little: "at the bump stops the tires of axle * have {load} to their fender, less than {min}",
        load: Load::level(|view, axle| one(under_fender(view, axle))),
        limits: |_, _| Limits::at_least(Ok(inches(ROOM))).advising(),
    },
    Check {
        id: "axle-spacing-*",
        name: "room behind axle *",
        what: "room between the tires of axle * and those of the next axle",
        formula: "the distance between the axles less both tires' unloaded radii, by their size, else 1.06 of the loaded radius",
        basis: ROOM_BASIS,
        measuring: "Tape between the hubs; read the tires' size.",
        cures: "Smaller tires of the same rating, or axles farther apart.",
        measure: Measure::Length,
        rows: ALL_BUT_REAR,
        subject: Subject::Road,
        judge: Judge::Floor,
        core: Core::No,
        remedies: &[],
        too_much: "",
        too_little: "the tires of axle * have {load} to the next axle's, less than {min}",
        load: Load::described(|view, axle| one(spacing(view.setup, axle))),
        limits: |_, _| Limits::at_least(Ok(inches(ROOM))).advising(),
    },
    Check {
        id: "tire-construction",
        name: "tires of one construction",
        what: "how many constructions of tire stand on the trailer",
        formula: "the number of different constructions among the axles' tires",
        basis: Basis {
            limit: "one: bias and radial tires carry and steer differently",
            source: "no published figure was found",
            certainty: Certainty::CommonPractice,
        },
        measuring: "Read the size: R stands for radial, D or - for bias.",
        cures: "Tires of one construction on all axles.",
        measure: Measure::Number,
        rows: SEVERAL_AXLES,
        subject: Subject::Road,
        judge: Judge::Ceiling,
        core: Core::No,
        remedies: &[],
        too_much: "{load} constructions of tire stand on the trailer, where there should be one",
        too_little: "",
        load: Load::described(|view, _| constructions(view.setup)),
        limits: |_, _| most_number(1.0).advising(),
    },
];

/// A row for each axle but the rear one, on two axles or more.
const ALL_BUT_REAR: Rows = Rows::numbered(MAX_AXLES - 1, |setup| axles(setup.trailer.axles.len() - 1));
/// One row, on two axles or more.
const SEVERAL_AXLES: Rows = Rows::one(|setup| once(setup.trailer.axles.len() > 1));

fn inches(number: f64) -> Length {
    Length::from_si(number * INCH)
}

fn psi(number: f64) -> Pressure {
    Pressure::from_si(number * (POUND / (INCH * INCH)))
}

/// What the tires and wheels of an axle carry together.
fn of_axle(setup: &Setup, axle: usize) -> Known<Weight> {
    let count = f64::from(setup.trailer.axles[axle].tires.count.unwrap_or(2));
    let each = both(tire_allowed(setup, axle), wheel_rating(setup, axle));
    each.map(|(tire, wheel)| tire.min(wheel) * count)
}

/// From what is needed to the greatest pressure. Well past one that a sidewall or a published row gives the rig fails; one that
/// is only usual advises.
fn pressures(setup: &Setup, axle: usize, needed: Known<Pressure>) -> Limits {
    let most = pressure_max(setup, axle);
    let limits = Limits::between(needed, most.clone()).advising();
    let is_assumed = setup.is_assumed(TRAILER_AXLES_TIRES_PRESSURE_MAX.of(axle));
    if is_assumed && setup.trailer.axles[axle].tires.published().is_empty() {
        return limits;
    }
    limits.failing_above(most.map(|most| most + psi(OVER)))
}

/// The speed of a symbol, past which the rig fails; else the usual one of trailer tires, in miles an hour.
fn speed(setup: &Setup, axle: usize, usual: f64) -> Limits {
    let tires = &setup.trailer.axles[axle].tires;
    if let Some(symbol) = tires.speed_symbol {
        return Limits::at_most(Ok(speed_of_symbol(symbol)));
    }
    let usual = (tires.kind == Some(TireKind::Trailer)).then(|| Speed::from_si(usual * MILE_AN_HOUR));
    Limits::at_most(known(usual, TRAILER_AXLES_TIRES_SPEED_SYMBOL.of(axle))).advising()
}

/// The usual limit of a trailer tire without a symbol in a case, in miles an hour: what is not known of it grants nothing.
fn usual_speed(view: &View<'_>, axle: usize) -> f64 {
    let tires = &view.case().tires[axle];
    let [usual, pumped, sparing] = ST_SPEEDS;
    let (Ok(load), Ok(allowed), Ok(pressure), Ok(needed)) =
        (&tires.load, &tires.allowed, &tires.pressure, &tires.needed)
    else {
        return usual;
    };
    let is_pumped = pressure.si() >= (*needed + psi(OVER)).si();
    match (is_pumped, load.si() <= ST_SPARING * allowed.si()) {
        (false, _) => usual,
        (true, false) => pumped,
        (true, true) => sparing,
    }
}

/// The age of an axle's tires in years.
fn age(setup: &Setup, axle: usize) -> Known<f64> {
    let trip = known(setup.trip.date.as_deref().and_then(day_of_date), TRIP_DATE.key());
    let code = setup.trailer.axles[axle].tires.date.as_deref();
    let made = known(code.and_then(day_of_date_code), TRAILER_AXLES_TIRES_DATE.of(axle));
    both(trip, made).map(|(trip, made)| (trip - made) as f64 / YEAR)
}

/// What is left between an axle's tires and their fender when the springs bottom.
fn under_fender(view: &View<'_>, axle: usize) -> Known<Length> {
    let setup = view.setup;
    let (of_axle, suspension) = (&setup.trailer.axles[axle], setup.trailer.suspension);
    let fender = known(of_axle.tires.fender, TRAILER_AXLES_TIRES_FENDER.of(axle));
    let radius = known(of_axle.tires.radius, TRAILER_AXLES_TIRES_RADIUS.of(axle));
    let bump = known(suspension.bump, TRAILER_SUSPENSION_KIND.key());
    let at_rating = known(suspension.deflection_at_rating, TRAILER_SUSPENSION_KIND.key());
    let rating = known(of_axle.spring_rating.or(of_axle.rating), TRAILER_AXLES_RATING.of(axle));
    // What it stands at was taped in the first case.
    let level = view.first_case().level.as_ref().map_err(Clone::clone);
    let force = level.map(|level| level.stance.spring_forces[axle]);
    // d = S / k_s
    let deflection =
        both(both(force, rating), at_rating).map(|((force, rating), at_rating)| at_rating * (force / rating));
    let ((fender, radius), (bump, deflection)) = both(both(fender, radius), both(bump, deflection))?;
    Ok(fender - radius * UNLOADED - (bump - deflection.min(bump)))
}

/// What is left between an axle's tires and those behind it.
fn spacing(setup: &Setup, axle: usize) -> Known<Length> {
    let radius = |axle: usize| {
        let tires = &setup.trailer.axles[axle].tires;
        let loaded =
            || known(tires.radius, TRAILER_AXLES_TIRES_RADIUS.of(axle)).map(|radius| radius * UNLOADED);
        tires.size.as_deref().and_then(unloaded_radius).map_or_else(loaded, Ok)
    };
    let station = |axle: usize| known(setup.trailer.axles[axle].station, TRAILER_AXLES_STATION.of(axle));
    let stations = both(station(axle), station(axle + 1));
    both(stations, both(radius(axle), radius(axle + 1)))
        .map(|((ahead, behind), (one, other))| behind - ahead - one - other)
}

/// How many constructions the tires have.
fn constructions(setup: &Setup) -> Known<Reading> {
    let of = |axle: usize| {
        known(setup.trailer.axles[axle].tires.construction, TRAILER_AXLES_TIRES_CONSTRUCTION.of(axle))
    };
    let all: Vec<_> = each((0..setup.trailer.axles.len()).map(of))?;
    let alike = all.windows(2).all(|pair| pair[0] == pair[1]);
    Ok(Reading::One(if alike { 1.0 } else { 2.0 }))
}

/// At most a plain number.
fn most_number(number: f64) -> Limits {
    Limits::at_most(Ok(crate::quantity::Share::from_si(number)))
}
