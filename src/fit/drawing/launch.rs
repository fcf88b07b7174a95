//! A rig from its port side where the stern lifts: across is past the ramp's first break, up is above it.

use super::{Drawing, Figure, Role, View, side};
use crate::fit::assess::Assessment;
use crate::fit::known::{Known, Missing, both, known, need};
use crate::fit::launch::{Event, Launch, LaunchLoads, Spot};
use crate::fit::placement::transom_station;
use crate::fit::ramp::{ground, waters_edge};
use crate::fit::shared::least_tongue_rating;
use crate::quantity::{Length, Quantity};
use crate::rig::Rig;
use crate::rig::inputs::{RAMPS_WATER_LEVEL, TRAILER_KEEL_HEIGHT, TRAILER_LEVEL_BALL_HEIGHT};

/// The water reaches so far past the boat, in metres.
const WATER: f64 = 1.5;

/// The first ramp on which the boat comes off, in the first case.
pub(super) fn launch(rig: &Rig, assessment: &Assessment) -> Known<Drawing> {
    let setup = rig.proposed();
    let marked = |loads: &LaunchLoads| {
        let launch: Launch = loads.found().ok()?.clone();
        Some((loads.ramp, launch.mark.clone()?, launch))
    };
    let Some((ramp, (event, pose), launch)) = assessment.launches.iter().find_map(marked) else {
        let first = known(assessment.launches.first(), RAMPS_WATER_LEVEL.of(0))?;
        return first.found().and_then(|_| Err(Missing::default()));
    };
    let (terrain, _) = ground(&setup.ramps[ramp], ramp)?;
    let edge = known(waters_edge(&setup.ramps[ramp]), RAMPS_WATER_LEVEL.of(ramp))?;
    let heights = both(need(setup, TRAILER_LEVEL_BALL_HEIGHT), need(setup, TRAILER_KEEL_HEIGHT));
    let (transom, (level, keel)) = both(transom_station(setup), heights)?;
    let mut boat = Drawing::new(View::Launch);
    side::boat(&mut boat, setup, Role::Hull);
    boat.turn(pose.transom, pose.trim, (transom, keel));
    let mut drawing = Drawing::new(View::Launch);
    side::trailer(&mut drawing, setup);
    drawing.turn(pose.ball, pose.pitch, (Length::default(), level));
    drawing.shapes.extend(boat.shapes);
    drawing.missing.extend(boat.missing);
    // What happens where the trailer's rear wheels stand there, until she is off.
    let off = launch.comes_off().map_or(edge, |spot| spot.position);
    let happens = launch.events.iter().filter(|(_, spot)| spot.position <= off);
    let happens: Vec<(Event, &Spot)> = happens.map(|(event, spot)| (*event, spot)).collect();
    let last = happens.iter().map(|(_, spot)| spot.position).fold(pose.transom.x, Length::max);
    drawing.rolling(setup, &terrain, (&pose.hubs, pose.ball), pose.tow, last);
    let surface = terrain.height(edge);
    let far = pose.hubs.iter().map(|hub| hub.x).fold(last, Length::max) + Length::from_si(WATER);
    drawing.line(Role::Water, vec![(edge, surface), (far, surface)]);
    for (event, spot) in &happens {
        let (x, z) = (spot.position, terrain.height(spot.position));
        drawing.mark((x, z), Figure::Event(*event, spot.wheel_depth));
    }
    if let Some(spot) = launch.at(event) {
        let rating = least_tongue_rating(setup).ok();
        drawing.mark((pose.ball.x, pose.ball.z), Figure::Tongue(spot.tongue, rating));
    }
    Ok(drawing)
}
