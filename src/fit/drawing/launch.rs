//! A rig from its port side where the stern lifts: across is past the ramp's first break, up is above it.

use super::{Drawing, Figure, Role, View, side};
use crate::fit::assess::Assessment;
use crate::fit::known::{Known, Missing, both, known, need};
use crate::fit::launch::{Launch, LaunchLoads};
use crate::fit::placement::transom_station;
use crate::fit::ramp::{ground, waters_edge};
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
    drawing.rolling(setup, &terrain, (&pose.hubs, pose.ball), pose.tow);
    let surface = terrain.height(edge);
    let far = pose.hubs.iter().map(|hub| hub.x).fold(pose.transom.x, Length::max) + Length::from_si(WATER);
    drawing.line(Role::Water, vec![(edge, surface), (far, surface)]);
    if let Some((spot, hub)) = launch.at(event).zip(pose.hubs.last()) {
        drawing.mark((hub.x, terrain.height(hub.x)), Figure::Event(event, spot.wheel_depth));
        drawing.mark((pose.ball.x, pose.ball.z), Figure::Tongue(spot.tongue));
    }
    Ok(drawing)
}
