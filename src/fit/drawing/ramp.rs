//! A rig from its port side at the moment on a ramp that asks most of an axle: across is past the first break, up is above it.

use super::{Drawing, Figure, Point, Role, View, side};
use crate::fit::assess::{Assessment, governing_crossing};
use crate::fit::known::{Known, Missing, known, need};
use crate::fit::model::Model;
use crate::fit::ramp::{bow_at, ground, points_at, ramp_points};
use crate::fit::shared::least_tongue_rating;
use crate::mechanics::ramp::Instant;
use crate::quantity::{Length, Quantity};
use crate::rig::inputs::{RAMPS_PROFILE_LENGTH, TRAILER_LEVEL_BALL_HEIGHT};
use crate::rig::{Rig, Setup, slug};

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
    drawing.turn(instant.ball, instant.stance.pitch, (Length::default(), level));
    let on_wheels = (&instant.stance.hubs[..], instant.ball);
    let tow = [instant.front.at, instant.rear.at];
    drawing.rolling(setup, &terrain, on_wheels, tow, instant.ball.x);
    if let Some(hub) = instant.stance.hubs.last() {
        let (ramp, case, past) = (crossing.ramp, crossing.case, instant.position);
        drawing.mark((hub.x, hub.z), Figure::Moment { ramp, case, past });
    }
    let tongue = Figure::Tongue(instant.stance.tongue_weight, least_tongue_rating(setup).ok());
    drawing.mark((instant.ball.x, instant.ball.z), tongue);
    for (axle, hub) in instant.stance.hubs.iter().enumerate() {
        let (load, hang) = (instant.stance.axle_loads[axle], instant.stance.hang[axle]);
        let rating = setup.trailer.axles[axle].rating;
        drawing.mark((hub.x, terrain.height(hub.x)), Figure::Axle { axle, load, rating, hang });
    }
    // Where what may ground or touch lies now, with the least that it clears anywhere on the ramps.
    let points = points_at(setup, &instant).into_iter().zip(ramp_points(setup));
    for (at, name) in points.filter_map(|(at, name)| Some((at.ok()?, name))) {
        drawing.mark_least((at.x, at.z), assessment, &format!("ramp-clearance-{}", slug(name)));
    }
    if let Ok(bow) = bow_at(setup, &instant) {
        drawing.mark_least((bow.x, bow.z), assessment, "ramp-bow-clearance");
    }
    Ok(drawing)
}

impl Drawing {
    /// Marks a row about the least clearance over the ramps, if that is known.
    fn mark_least(&mut self, at: Point, assessment: &Assessment, id: &str) {
        if let Some(row) = assessment.check(id).filter(|row| row.load.is_some()) {
            self.mark(at, Figure::Least(row.clone()));
        }
    }
}

/// The share of its rating that the most used axle carries; the greatest load where no axle has a rating.
fn used(setup: &Setup, instant: &Instant) -> f64 {
    let loads = || instant.stance.axle_loads.iter().zip(&setup.trailer.axles);
    let shares = loads().filter_map(|(load, axle)| Some(load.si() / axle.rating?.si()));
    let most = shares.reduce(f64::max);
    most.unwrap_or_else(|| loads().map(|(load, _)| load.si()).fold(0.0, f64::max))
}
