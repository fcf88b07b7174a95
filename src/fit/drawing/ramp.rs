//! A rig from its port side at the moment on a ramp that asks most of an axle: across is past the first break, up is above it.

use super::{Drawing, Figure, Point, Role, Shape, View, side};
use crate::fit::assess::{Assessment, governing_crossing};
use crate::fit::known::{Known, Missing, known, need};
use crate::fit::model::Model;
use crate::fit::ramp::ground;
use crate::mechanics::ramp::Instant;
use crate::mechanics::{FramePoint, GroundPoint, Terrain};
use crate::quantity::{Length, Quantity};
use crate::rig::inputs::{RAMPS_PROFILE_LENGTH, TRAILER_LEVEL_BALL_HEIGHT};
use crate::rig::{Rig, Setup};

/// The ground is drawn through points so far apart, and so far beyond the wheels, in metres.
const STEP: f64 = 0.1;
const BEYOND: f64 = 1.5;

/// The worst moment of the crossing whose ratings stand worst.
pub(super) fn ramp(rig: &Rig, assessment: &Assessment) -> Known<Drawing> {
    let setup = rig.proposed();
    let crossing = governing_crossing(setup, assessment.ramps.iter());
    let crossing = known(crossing, RAMPS_PROFILE_LENGTH.at([0, 0]))?;
    let (terrain, _) = ground(&setup.ramps[crossing.ramp], crossing.ramp)?;
    let level = need(setup, TRAILER_LEVEL_BALL_HEIGHT)?;
    let mut worst: Option<(f64, Instant)> = None;
    let model = Model::new(rig);
    let rests = model.cross(crossing.ramp, crossing.case, Length::from_si(f64::INFINITY), &mut |moment| {
        let used = used(setup, moment.instant);
        if worst.as_ref().is_none_or(|(most, _)| used > *most) {
            worst = Some((used, moment.instant.clone()));
        }
    })?;
    let (_, instant) = worst.filter(|_| rests.is_ok()).ok_or_else(Missing::default)?;
    let mut drawing = Drawing::new(View::Ramp);
    // As they stand on level ground, to be tilted.
    side::trailer(&mut drawing, setup);
    side::boat(&mut drawing, setup, Role::Hull);
    let tilted = |(x, z): &Point| {
        let GroundPoint { x, z } =
            instant.trailer_point(FramePoint { x: *x, z: *z - level, y: Length::default() });
        (x, z)
    };
    for shape in &mut drawing.shapes {
        match shape {
            Shape::Line(_, points) => *points = points.iter().map(tilted).collect(),
            Shape::Circle(_, centre, _) => *centre = tilted(centre),
        }
    }
    wheels(&mut drawing, setup, &instant, &terrain);
    if let Some(hub) = instant.stance.hubs.last() {
        let (ramp, case, past) = (crossing.ramp, crossing.case, instant.position);
        drawing.mark((hub.x, hub.z), Figure::Moment { ramp, case, past });
    }
    drawing.mark((instant.ball.x, instant.ball.z), Figure::Tongue(instant.stance.tongue_weight));
    for (axle, hub) in instant.stance.hubs.iter().enumerate() {
        let (load, hang) = (instant.stance.axle_loads[axle], instant.stance.hang[axle]);
        let rating = setup.trailer.axles[axle].rating;
        drawing.mark((hub.x, terrain.height(hub.x)), Figure::Axle { axle, load, rating, hang });
    }
    Ok(drawing)
}

/// The share of its rating that the most used axle carries; of axles without ratings the load.
fn used(setup: &Setup, instant: &Instant) -> f64 {
    let loads = instant.stance.axle_loads.iter().zip(&setup.trailer.axles);
    loads.map(|(load, axle)| load.si() / axle.rating.map_or(1.0, Quantity::si)).fold(0.0, f64::max)
}

/// The ground, the wheels that stand on it or hang over it, and the tow vehicle's.
fn wheels(drawing: &mut Drawing, setup: &Setup, instant: &Instant, terrain: &Terrain) {
    let (from, to) = (instant.front.at.x.si() - BEYOND, instant.position.si() + BEYOND);
    let steps = ((to - from) / STEP).ceil() as i64;
    let at = |i: i64| Length::from_si(from + STEP * i as f64);
    drawing.line(Role::Ground, (0..=steps).map(at).map(|x| (x, terrain.height(x))).collect());
    for (hub, axle) in instant.stance.hubs.iter().zip(&setup.trailer.axles) {
        if let Some(radius) = axle.tires.radius {
            drawing.circle(Role::Wheel, (hub.x, hub.z), radius);
        }
    }
    let Some(radius) = setup.tow.tire_radius else { return };
    let hubs = [instant.front.at, instant.rear.at].map(|contact| {
        let rise = (terrain.height(contact.x + Length::from_si(STEP / 2.0))
            - terrain.height(contact.x - Length::from_si(STEP / 2.0)))
        .si()
            / STEP;
        // A radius off the ground, square to it.
        let size = rise.hypot(1.0);
        (contact.x - radius * (rise / size), contact.z + radius / size)
    });
    for hub in hubs {
        drawing.circle(Role::Wheel, hub, radius);
    }
    drawing.line(Role::Tow, vec![hubs[0], hubs[1], (instant.ball.x, instant.ball.z)]);
}
