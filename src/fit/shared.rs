//! Bases, readings and limits that the checks of several subjects share.

use super::check::{At, Basis, Certainty, Limits, Load, Of, Reading, Remedy};
use super::facts::View;
use super::known::{Known, Missing, known, need};
use super::road::Carried;
use crate::quantity::{Length, Pressure, Quantity, Weight};
use crate::rig::inputs::Handle;
use crate::rig::inputs::{
    HITCH_BALL_MOUNT_TONGUE_RATING, HITCH_BALL_TONGUE_RATING, HITCH_RECEIVER_TONGUE_RATING, POLICY_CLEARANCE,
    TOW_TONGUE_RATING, TRAILER_AXLES_RATING, TRAILER_AXLES_SPRING_RATING, TRAILER_AXLES_WHEELS_RATING,
    TRAILER_COUPLER_TONGUE_RATING, TRAILER_DRAWBAR_TONGUE_RATING,
};
use crate::rig::{Material, Setup, yield_stress};

pub(super) const PLACARD: &str = "the placard value in the file";
pub(super) const GVWR_RULE: &str = "49 CFR 571.3; for a boat trailer it includes what the tow vehicle carries (NHTSA interpretation nht76-3.20, 15 January 1976)";
pub(super) const GAWR_RULE: &str = "49 CFR 571.3: one axle system, measured at the tire-ground interface";
pub(super) const TIRE_RULE: &str =
    "49 CFR 571.120 S5.1.2; passenger tires' over 1.10 (571.110 S4.2.2, from memory)";
pub(super) const MAKER: &str = "the maker's rating";
pub(super) const PLACARD_GAWR: Basis =
    Basis { limit: PLACARD, source: GAWR_RULE, certainty: Certainty::Read };
pub(super) const TIRE_BASIS: Basis =
    Basis { limit: "the sidewall value in the file", source: TIRE_RULE, certainty: Certainty::Read };
pub(super) const STAMPED: Basis =
    Basis { limit: "the stamped value in the file", source: MAKER, certainty: Certainty::CommonPractice };
pub(super) const TOW_LABEL: Basis = Basis {
    limit: "the door label or manual value in the file",
    source: "49 CFR 571.3 for GVWR and GAWR",
    certainty: Certainty::Read,
};
pub(super) const TOW_MAKER: Basis = Basis {
    limit: "the door label or manual value in the file",
    source: MAKER,
    certainty: Certainty::CommonPractice,
};
/// A part of a higher rating, less weight, or what carries it set elsewhere.
const fn part_or_less_or_move(part: Remedy) -> [Remedy; 6] {
    use Remedy::{LevelBall, MoveAxles, MoveBoat, MoveTongue, Shed};
    [part, Shed, MoveBoat, MoveAxles, MoveTongue, LevelBall]
}

/// A part of a higher tongue rating, or what carries the boat set elsewhere.
pub(super) const fn part_or_move(part: Remedy) -> [Remedy; 5] {
    use Remedy::{LevelBall, MoveAxles, MoveBoat, MoveTongue};
    [part, MoveBoat, MoveAxles, MoveTongue, LevelBall]
}

pub(super) const AXLES: &[Remedy] = &part_or_less_or_move(Remedy::Buy(TRAILER_AXLES_RATING));
/// The same of springs, which come with axles.
pub(super) const SPRINGS: &[Remedy] = &part_or_less_or_move(Remedy::Buy(TRAILER_AXLES_SPRING_RATING));
pub(super) const WHEELS: &[Remedy] = &part_or_less_or_move(Remedy::Buy(TRAILER_AXLES_WHEELS_RATING));
pub(super) const TIRES: &[Remedy] = {
    use Remedy::{Inflate, LevelBall, MoveAxles, MoveBoat, MoveTongue, Shed, Tires};
    &[Inflate, Tires, Shed, MoveBoat, MoveAxles, MoveTongue, LevelBall]
};
/// What the tow vehicle carries: no part raises its ratings.
pub(super) const LIGHTEN_OR_MOVE: &[Remedy] = &part_or_less_or_move(Remedy::Rating);
pub(super) const LIGHTEN: &[Remedy] = &[Remedy::Rating, Remedy::Shed];
pub(super) const MOVE: &[Remedy] = &part_or_move(Remedy::Rating);
/// What only the place of things cures.
pub(super) const ONLY_MOVE: &[Remedy] =
    &[Remedy::MoveBoat, Remedy::MoveAxles, Remedy::MoveTongue, Remedy::LevelBall];
pub(super) const WEIGH_TONGUE: &str = "Weigh at the coupler, frame level, everything aboard as for the trip. A scale under the jack reads more.";
pub(super) const WEIGH_GROSS: &str = "Weigh the loaded trailer on a truck scale, coupler included: hitched, all axles on the scale, plus the tongue weight.";

/// The one row of what is there.
pub(super) fn once(there: bool) -> Vec<Of> {
    if there { vec![Of::Rig] } else { Vec::new() }
}

/// Gross trailer weight.
pub(super) const GROSS: Load = Load::level(|view, _| one(view.case().gross.clone()));
/// Tongue weight.
pub(super) const TONGUE: Load = Load::level(|view, _| one(tongue(view)));

/// One load, as it is read.
pub(super) fn one<Q: Quantity>(value: Known<Q>) -> Known<Reading> {
    value.map(|value| Reading::One(value.si()))
}

/// Tongue weight in a case.
pub(super) fn tongue(view: &View<'_>) -> Known<Weight> {
    view.case().tongue.clone()
}

/// The greater of GVWR and gross weight, as far as they are known.
pub(super) fn gross_or_gvwr(view: &View<'_>) -> Known<Weight> {
    match (view.setup.trailer.gvwr, view.case().gross.clone()) {
        (Some(gvwr), Ok(gross)) => Ok(gvwr.max(gross)),
        (Some(gvwr), Err(_)) => Ok(gvwr),
        (None, gross) => gross,
    }
}

/// The load of an axle.
pub(super) fn axle_load(carried: &Carried, axle: usize) -> Known<Reading> {
    one(Ok(carried.stance.axle_loads[axle]))
}

/// The load of each of an axle's tires to starboard, and to port.
///
/// The heavier alone decides a check. Which it is may change with an input: either side's load has no kink there.
pub(super) fn tire_loads(setup: &Setup, carried: &Carried, axle: usize) -> Known<Reading> {
    let heavier = carried.tire_loads.as_ref().map(|loads| loads[axle].si()).map_err(Clone::clone)?;
    let tires = f64::from(setup.trailer.axles[axle].tires.count.unwrap_or(2));
    // Both sides together carry the axle's load, each on half of its tires.
    let lighter = carried.stance.axle_loads[axle].si() * 2.0 / tires - heavier;
    let lighter = lighter.min(heavier);
    let sides = if carried.leans_to_starboard { [heavier, lighter] } else { [lighter, heavier] };
    Ok(Reading::Sides(sides))
}

/// What a wheel may carry.
pub(super) fn wheel_rating(setup: &Setup, axle: usize) -> Known<Weight> {
    known(setup.trailer.axles[axle].wheel_rating, TRAILER_AXLES_WHEELS_RATING.of(axle))
}

/// What an axle may carry.
pub(super) fn axle_rating(setup: &Setup, axle: usize) -> Known<Weight> {
    known(setup.trailer.axles[axle].rating, TRAILER_AXLES_RATING.of(axle))
}

/// An axle rolling slowly over a ramp's head fails past this many times its rating. Common practice, no source.
pub(super) const SLOW_AXLE: f64 = 2.0;
/// The same for a tire: what tables of inflation allow at walking pace, from memory.
pub(super) const SLOW_TIRE: f64 = 1.9;

/// A road rating of what rolls slowly: past it the owner is advised, past so many times it the rig fails.
pub(super) fn slowly(rating: Known<Weight>, times: f64) -> Limits {
    Limits::at_most(rating.clone()).failing_above(rating.map(|rating| rating * times))
}

/// At most a rating.
pub(super) fn rating(setup: &Setup, input: Handle<Weight>) -> Limits {
    Limits::at_most(need(setup, input))
}

/// At most a tongue rating, and not lifted.
pub(super) fn tongue_rating(setup: &Setup, input: Handle<Weight>) -> Limits {
    Limits::up_to(need(setup, input))
}

/// The very size.
pub(super) fn size(setup: &Setup, input: Handle<Length>) -> Limits {
    let size = need(setup, input);
    Limits::between(size.clone(), size)
}

/// At least the policy's clearance; what touches fails.
pub(super) fn least_clearance(setup: &Setup, _: At) -> Limits {
    Limits::at_least(need(setup, POLICY_CLEARANCE)).failing_below(Ok(Length::default()))
}

/// The tongue ratings of the chain from coupler to tow vehicle.
const TONGUE_RATINGS: [Handle<Weight>; 6] = [
    TRAILER_COUPLER_TONGUE_RATING,
    TRAILER_DRAWBAR_TONGUE_RATING,
    HITCH_BALL_TONGUE_RATING,
    HITCH_RECEIVER_TONGUE_RATING,
    HITCH_BALL_MOUNT_TONGUE_RATING,
    TOW_TONGUE_RATING,
];

/// The least tongue rating given anywhere in the chain.
pub(super) fn least_tongue_rating(setup: &Setup) -> Known<Weight> {
    let least = TONGUE_RATINGS.iter().filter_map(|rating| rating.get(setup)).reduce(Weight::min);
    known(least, TRAILER_COUPLER_TONGUE_RATING.key())
}

/// A tongue weight against the least tongue rating given: one that is missing may be less.
pub(super) fn against_tongue_ratings(setup: &Setup, tongue: Weight) -> Reading {
    let asked = if setup.is_coupled() { &TONGUE_RATINGS[..] } else { &TONGUE_RATINGS[..2] };
    let is_there = |rating: &&Handle<Weight>| match rating.path() {
        path if path == TRAILER_DRAWBAR_TONGUE_RATING.path() => setup.trailer.drawbar.is_described(),
        path if path == HITCH_BALL_TONGUE_RATING.path() => setup.has_plate_at_ball(),
        path if path == HITCH_RECEIVER_TONGUE_RATING.path() => setup.hitch.receiver.absent.is_none(),
        path if path == HITCH_BALL_MOUNT_TONGUE_RATING.path() => setup.hitch.ball_mount.absent.is_none(),
        _ => true,
    };
    let silent = asked.iter().filter(is_there).filter(|rating| rating.get(setup).is_none());
    let missing = silent.map(|rating| rating.key());
    Reading::UpTo(tongue.si(), Missing(missing.collect()))
}

/// The loads of a road are taken to be this many times those at rest on the tongue. Common practice, no source.
pub(super) const TONGUE_ON_ROAD: f64 = 3.0;
/// The same on the rails. Common practice, no source.
pub(super) const RAILS_ON_ROAD: f64 = 2.0;
/// What is left below the yield stress under the loads of a road. Common practice, no source.
const BELOW_YIELD: f64 = 1.1;
/// What is left below it at rest. Source: AISC 360, allowable strength design, safety factor for flexure; from memory.
const AT_REST: f64 = 1.67;

/// What a member's stress at rest is held against: it advises past what its yield stress leaves for the road, and fails past what it
/// leaves at rest, where the file states the yield stress.
pub(super) fn metal_limits(
    setup: &Setup,
    stated: Option<Pressure>,
    weld: Option<bool>,
    on_road: f64,
) -> Limits {
    let yields = yields_at(setup, stated, weld);
    let advises = Limits::at_most(Ok(yields / (BELOW_YIELD * on_road)));
    if stated.is_some() { advises.failing_above(Ok(yields / AT_REST)) } else { advises.advising() }
}

/// The yield stress of a member, as stated or by its metal; a weld softens aluminium whatever is stated.
fn yields_at(setup: &Setup, stated: Option<Pressure>, weld: Option<bool>) -> Pressure {
    let material = setup.trailer.material;
    let (by_metal, _) = yield_stress(material, weld);
    match stated {
        Some(stated) if material == Some(Material::Aluminium) && weld == Some(true) => stated.min(by_metal),
        Some(stated) => stated,
        None => by_metal,
    }
}
