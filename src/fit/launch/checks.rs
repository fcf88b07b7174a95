//! The checks of launching and of coming home.

use super::hull::HullBy;
use super::loads::{Launch, LaunchLoads};
use super::slipway::{Event, NoLaunch, Spot, has_rollers, no_shape};
use crate::fit::bunks::{crossmember_rating, supports, under_bow_bunks};
use crate::fit::check::{
    Basis, Certainty, Check, Core, Judge, Limits, Load, Measure, Of, Reading, Rows, Subject, named,
};
use crate::fit::facts::View;
use crate::fit::known::{Known, Missing, known, need};
use crate::fit::shared::{STAMPED, against_tongue_ratings, least_clearance, least_tongue_rating, once, one};
use crate::quantity::{Length, Quantity, Weight, unit};
use crate::rig::Setup;
use crate::rig::inputs::{
    BOAT_BOW_EYE_RATING, TOW_TIRE_WET_LIMIT, TRAILER_CROSSMEMBERS_RATING, TRAILER_CROSSMEMBERS_STATION,
    TRAILER_WINCH_STRAP_BREAKING,
};

/// The ramp goes on so far behind the wheels of a rig that stands where the boat comes off: 1 ft, in metres. Common
/// practice, no source.
const RAMP_BEHIND: f64 = 12.0 * unit::INCH;

fn there(launches: bool) -> Vec<Of> {
    once(launches)
}

const LAUNCHES: Rows = Rows::one(|setup| there(setup.launches()));
const ON_BUNKS: Rows = Rows::one(|setup| there(setup.launches() && !has_rollers(setup)));
const ON_ROLLERS: Rows = Rows::one(|setup| there(setup.launches() && has_rollers(setup)));
const WINCHED: Rows = Rows::one(|setup| there(setup.launches() && setup.trailer.winch.is_described()));
const LOW_POINTS: Rows =
    Rows::named(|setup| if setup.launches() { named(setup.boat.low_points.iter()) } else { Vec::new() });

const SHAPE: &str = "Measure the hull at three or more stations, the water's level against the ramp's head, and where the boat's weight lies: that matters more than the hull.";
const STATICS: Basis =
    Basis { limit: "", source: "statics of a floating body", certainty: Certainty::Derived };
const CHOSEN: Basis = Basis {
    limit: "the limit in the file, or the one that is assumed",
    source: "none found",
    certainty: Certainty::CommonPractice,
};

/// What the rows of launching have in common.
const OF_LAUNCH: Check = Check {
    id: "",
    name: "",
    what: "",
    formula: "",
    basis: STATICS,
    measuring: SHAPE,
    cures: "",
    subject: Subject::Launch,
    measure: Measure::Weight,
    rows: LAUNCHES,
    judge: Judge::Rating,
    core: Core::No,
    remedies: &[],
    too_much: "",
    too_little: "",
    load: Load::launch(|_, _| Ok(Reading::Free)),
    limits: |_, _| Limits { min: None, max: None },
};

/// The checks of this subject, in the order of reports.
pub(in crate::fit) static CHECKS: &[Check] = &[
    Check {
        id: "launch-ramp-end",
        name: "ramp's length for launching",
        what: "how far down the ramp the trailer's rear wheels go until the boat comes off, against where the ramp ends",
        formula: "from the water's edge along the ramp to the rear wheels, where the boat slides off at the push or floats free: the sooner",
        basis: Basis {
            limit: "the ramp's end, past which wheels drop off it; it advises from a wheel's radius and 1 ft before",
            source: "the 1 ft is common practice, no source",
            certainty: Certainty::Derived,
        },
        cures: "Higher water, a steeper ramp, less weight in the stern; slick pads or rollers instead of carpet let her be pushed off earlier.",
        measure: Measure::Distance,
        judge: Judge::Ceiling,
        too_much: "the boat comes off with the trailer's wheels {load} past the water's edge; the ramp is good for {max}",
        load: Load::launch(|view, _| down_the_ramp(view.launch()))
            .within(|view, _| ramp_limits(view.launch())),
        limits: |_, _| {
            // Where they are is found with the load.
            let unknown = || Known::<Length>::Err(Missing::default());
            Limits::at_most(unknown()).failing_above(unknown())
        },
        ..OF_LAUNCH
    },
    Check {
        id: "launch-tongue",
        name: "tongue as the stern lifts",
        what: "tongue weight as the stern lifts, against the least tongue rating",
        formula: "the trailer settled on its springs under what it still carries of the boat, on the forward support",
        basis: STAMPED,
        cures: "A support farther aft, such as bow bunks that stand clear; weight farther aft in the boat; or keep the strap slack until she floats.",
        judge: Judge::SignedRating,
        too_much: "as the stern lifts, the tongue carries {load}, {miss} over the least tongue rating ({max})",
        too_little: "as the stern lifts, the trailer lifts the tow vehicle: tongue weight falls to {load}",
        load: Load::launch(|view, _| match lifts(view)? {
            Some(spot) => Ok(against_tongue_ratings(view.setup, spot.tongue)),
            None => Ok(Reading::Free),
        }),
        limits: |setup, _| Limits::up_to(least_tongue_rating(setup)).advising(),
        ..OF_LAUNCH
    },
    Check {
        id: "launch-support",
        name: "forward support as the stern lifts",
        what: "what each bunk's forward end carries as the stern lifts, against the rating of the foremost crossmember under what bears the bow",
        formula: "(W − w Vol) / 2, where W (p − s_G + z_G t) = w Vol (p − s_b + z_b t) about the forward support p",
        basis: STAMPED,
        cures: "Back in until she lifts, and let her off quickly: it is the moment that loads the forward end most. A stronger crossmember there, or a support farther aft.",
        rows: ON_BUNKS,
        too_much: "as the stern lifts, each bunk presses on the foremost crossmember with {load}, {miss} over its {max}",
        load: Load::launch(|view, _| match lifts(view)? {
            Some(spot) => one(Ok(spot.carried / 2.0)),
            None => Ok(Reading::Free),
        }),
        limits: |setup, _| Limits::at_most(foremost(setup)).advising(),
        ..OF_LAUNCH
    },
    Check {
        id: "launch-strap",
        name: "strap held taut as the stern lifts",
        what: "what a taut strap holds down as the stern lifts, against its working limit and the bow eye's rating",
        formula: "as for the forward support, the boat turning about the bow eye",
        basis: STAMPED,
        cures: "Slack the strap before the stern lifts; leave the safety chain off only when the boat is about to float.",
        rows: WINCHED,
        too_much: "with the strap taut as the stern lifts, it pulls with {load}, {miss} over the {max} of strap or bow eye",
        load: Load::launch(|view, _| match view.launch().found()?.taut.clone()? {
            Some(spot) => Ok(Reading::UpTo(spot.carried.si(), unstated(view.setup))),
            None => Ok(Reading::Free),
        }),
        limits: |setup, _| Limits::at_most(strap_or_eye(setup)).advising(),
        ..OF_LAUNCH
    },
    Check {
        id: "launch-tow-tire",
        name: "tow vehicle's rear tires in the water",
        what: "how deep the tow vehicle's rear tires stand as the boat comes off, against the limit for them",
        formula: "the water's surface less the ground under the rear tires",
        basis: CHOSEN,
        measuring: "Tape what must stay dry: hubs, tailpipe, the sill of the doors.",
        cures: "Use a steeper ramp, a higher tide, a longer ball mount or an extension, or push her off earlier.",
        measure: Measure::Length,
        judge: Judge::Ceiling,
        too_much: "as the boat comes off, the tow vehicle's rear tires stand {load} deep, {miss} more than the limit of {max}",
        load: Load::launch(|view, _| one(Ok(off(view)?.tow_tire))),
        limits: |setup, _| Limits::at_most(need(setup, TOW_TIRE_WET_LIMIT)).advising(),
        ..OF_LAUNCH
    },
    Check {
        id: "launch-tailpipe",
        name: "tow vehicle's tailpipe over the water",
        what: "the tailpipe above the water as the boat comes off",
        formula: "the tailpipe's lower edge less the water's surface",
        basis: Basis { limit: "the water's surface", source: "geometry", certainty: Certainty::Derived },
        measuring: "Tape the tailpipe's lower edge above ground and its distance behind the rear axle.",
        cures: "Use a steeper ramp or a higher tide, or push her off earlier.",
        measure: Measure::Length,
        judge: Judge::Floor,
        too_little: "before the boat comes off, the tailpipe is {miss} under water",
        load: Load::launch(|view, _| one(off(view)?.tailpipe.clone())),
        limits: |_, _| above_water(),
        ..OF_LAUNCH
    },
    Check {
        id: "launch-guides",
        name: "guides over the water",
        what: "the tops of the guides' posts above the water as the boat comes off",
        formula: "the posts' tops less the water's surface",
        basis: Basis {
            limit: "the water's surface: nothing is seen of guides awash",
            source: "none found",
            certainty: Certainty::CommonPractice,
        },
        measuring: "Tape the posts' tops above ground and how far they stand behind the ball.",
        cures: "Longer posts, or a flag on top of each.",
        measure: Measure::Length,
        judge: Judge::Floor,
        too_little: "as the boat comes off, the guides' tops are {miss} under water",
        load: Load::launch(|view, _| one(off(view)?.guides.clone())),
        limits: |_, _| above_water(),
        ..OF_LAUNCH
    },
    Check {
        id: "launch-clearance-*",
        name: "clearance of * as the boat comes off",
        what: "least clearance of * above the ramp while the boat lifts and comes off",
        formula: "height of the point above the ramp, as the stern lifts, as the boat slides and as she floats free",
        basis: Basis {
            limit: "the policy's least clearance; below zero it touches",
            source: "geometry",
            certainty: Certainty::Derived,
        },
        measuring: "Tape the point above the keel line and its distance from the transom.",
        cures: "Tilt or lift it before launching, or launch on a steeper ramp.",
        measure: Measure::Length,
        rows: LOW_POINTS,
        judge: Judge::Floor,
        too_little: "as the boat comes off, * grounds: it would be {miss} below the ramp",
        load: Load::launch(|view, point| {
            let known = view.launch().found()?.clearances.get(point).cloned();
            one(known.unwrap_or_else(|| Err(Missing::default())))
        }),
        limits: least_clearance,
        ..OF_LAUNCH
    },
    Check {
        id: "launch-home",
        name: "depths at which she comes home",
        what: "how far apart the depths lie between which the boat can be winched home and sits down on her marks",
        formula: "along the ramp, from where the winch can draw what does not float to the first of: she sits down too far short of the stop, guides awash, tow vehicle's rear hub or tailpipe wet, ramp's end",
        basis: Basis {
            limit: "one depth at least",
            source: "statics of a floating body",
            certainty: Certainty::Derived,
        },
        cures: "Shallower with a stronger winch or slicker bunks; deeper with longer guides, a steeper ramp or a bow stop that can be reset.",
        measure: Measure::Distance,
        rows: WINCHED,
        judge: Judge::Floor,
        too_little: "no depth suits coming home: where the winch can draw her up lies {miss} past what ends it",
        load: Load::launch(|view, _| {
            let width = view.launch().found()?.home.clone()?.width();
            Ok(width.map_or(Reading::HoldsNothing, |width| Reading::One(width.si())))
        }),
        limits: |_, _| above_water(),
        ..OF_LAUNCH
    },
    Check {
        id: "launch-heel",
        name: "steadiness on keel rollers",
        what: "the boat's metacentric height as her stern lifts off rollers on the centreline, less what they take of it",
        formula: "KM w Vol / W − KG",
        basis: Basis {
            limit: "zero: below it she falls to one side unless guides hold her",
            source: "a textbook of naval architecture on dry-docking",
            certainty: Certainty::Quoted,
        },
        cures: "Guides that hold her upright, or weight lower in the boat.",
        measure: Measure::Length,
        rows: ON_ROLLERS,
        judge: Judge::Floor,
        too_little: "as the stern lifts, the boat would fall to one side: her metacentric height is {load}",
        load: Load::launch(|view, _| match lifts(view)?.and_then(|spot| spot.virtual_gm) {
            Some(height) => one(Ok(height)),
            None => Ok(Reading::Free),
        }),
        limits: |_, _| above_water(),
        ..OF_LAUNCH
    },
];

/// Not below zero; below it the owner is advised.
fn above_water() -> Limits {
    Limits::at_least(Ok(Length::default())).advising()
}

/// The rig as the stern lifts, where it does.
fn lifts<'a>(view: &View<'a>) -> Known<Option<&'a Spot>> {
    match no_shape(HullBy::of(view.setup)) {
        Some(missing) => Err(missing),
        None => Ok(view.launch().found()?.at(Event::SternLifts)),
    }
}

/// The rig as the boat comes off. No key is missing where she never does.
fn off<'a>(view: &View<'a>) -> Known<&'a Spot> {
    view.launch().found()?.comes_off().ok_or_else(Missing::default)
}

/// Where the trailer's wheels stand as the boat comes off. She never does where she does not float, or where the ramp does
/// not reach the water.
fn down_the_ramp(launch: &LaunchLoads) -> Known<Reading> {
    match launch.launch.as_ref().map_err(Clone::clone)? {
        Ok(found) => {
            Ok(found.comes_off().map_or(Reading::HoldsNothing, |spot| Reading::One(spot.along.si())))
        }
        Err(NoLaunch::Sinks(_) | NoLaunch::WaterBelowEnd) => Ok(Reading::HoldsNothing),
        Err(_) => Err(Missing::default()),
    }
}

/// The ramp's end, and so far ahead of it that the wheels stand on the ramp with room behind them.
fn ramp_limits(launch: &LaunchLoads) -> Limits {
    if let Ok(Err(NoLaunch::Sinks(_) | NoLaunch::WaterBelowEnd)) = launch.launch {
        // She comes off nowhere, wherever the ramp ends.
        return Limits::at_most(Ok(Length::default()));
    }
    let end = |find: fn(&Launch) -> Length| launch.found().map(find);
    let advises = end(|found| found.ramp_end - found.wheel_radius - Length::from_si(RAMP_BEHIND));
    Limits::at_most(advises).failing_above(end(|found| found.ramp_end))
}

/// What the foremost crossmember under what bears the bow may carry from each bunk: that under the bow bunks by its rating
/// alone, for a section is known to bear the main bunks only.
fn foremost(setup: &Setup) -> Known<Weight> {
    if setup.trailer.bow_bunks.bears == Some(true) {
        let member = under_bow_bunks(setup)?;
        let rating = setup.trailer.crossmembers[member].rating;
        return known(rating, TRAILER_CROSSMEMBERS_RATING.of(member));
    }
    let first = supports(setup)?.into_iter().reduce(|a, b| if b.1 < a.1 { b } else { a });
    crossmember_rating(setup, known(first, TRAILER_CROSSMEMBERS_STATION.of(0))?.0)
}

/// The lesser of what strap and bow eye may hold, by what the file states of them.
fn strap_or_eye(setup: &Setup) -> Known<Weight> {
    let strap = setup.trailer.winch.strap.working();
    let least = [strap, BOAT_BOW_EYE_RATING.get(setup)].into_iter().flatten().reduce(Weight::min);
    known(least, BOAT_BOW_EYE_RATING.key())
}

/// Which of these ratings the file lacks: it may be less than the other.
fn unstated(setup: &Setup) -> Missing {
    let strap = setup.trailer.winch.strap.working().is_none().then(|| TRAILER_WINCH_STRAP_BREAKING.key());
    let eye = BOAT_BOW_EYE_RATING.get(setup).is_none().then(|| BOAT_BOW_EYE_RATING.key());
    Missing(strap.into_iter().chain(eye).collect())
}
