//! A rig from its port side: across is behind the ball, up is above the ground.

use super::{Drawing, Figure, Point, Role, View, closed};
use crate::fit::assess::Assessment;
use crate::fit::bunks::{crossmember_station, ends};
use crate::fit::known::{both, need};
use crate::fit::model::axle_shift;
use crate::fit::placement::transom_station;
use crate::quantity::{Length, Quantity};
use crate::rig::inputs::{
    BOAT_LENGTH, TOW_BALL_OVERHANG, TOW_TIRE_RADIUS, TRAILER_AXLES_STATION, TRAILER_AXLES_TIRES_RADIUS,
    TRAILER_BOW_STOP, TRAILER_BUNKS_AFT_END, TRAILER_BUNKS_FORWARD_END, TRAILER_BUNKS_TOP,
    TRAILER_CROSSMEMBERS_STATION, TRAILER_KEEL_HEIGHT, TRAILER_LENGTH, TRAILER_LEVEL_BALL_HEIGHT,
    TRAILER_TRANSOM,
};
use crate::rig::{HullSection, Rig, Setup};

/// The ball is drawn so wide, in metres, whatever its size.
pub(super) const BALL: f64 = 0.06;
/// A crossmember is drawn so wide, in metres.
const MEMBER: f64 = 0.08;

/// The side view.
pub(super) fn side(rig: &Rig, assessment: &Assessment) -> Drawing {
    let setup = rig.proposed();
    let mut drawing = Drawing::new(View::Side);
    drawing.before(rig, |old, _| before(old, rig));
    trailer(&mut drawing, setup);
    wheels(&mut drawing, setup);
    boat(&mut drawing, setup, Role::Hull);
    tow(&mut drawing, setup);
    lengths(&mut drawing, setup);
    drawing.cg = cg(setup, assessment).map(|(x, up, _)| (x, up));
    let stations = setup.trailer.axles.iter().map(|axle| Some(axle.station? + axle_shift(setup)));
    let axles = stations.enumerate().map(|(i, at)| (format!("axle-{}", i + 1), at));
    for (id, at) in [("coupler-tongue".to_string(), Some(Length::default()))].into_iter().chain(axles) {
        let known = assessment.check(&id).filter(|row| row.load.is_some());
        if let Some((at, row)) = at.zip(known) {
            drawing.mark((at, Length::default()), Figure::Push(row.clone()));
        }
    }
    drawing
}

/// The centre of gravity of boat and trailer in the first case: behind the ball, above ground and to starboard.
pub(super) fn cg(setup: &Setup, assessment: &Assessment) -> Option<(Length, Length, Length)> {
    let body = assessment.cases.first()?.body.clone().ok()?;
    let level = setup.trailer.level_ball_height?;
    Some((body.at.x, level + body.at.z, body.at.y))
}

/// Whether boat, axles and bunks lie elsewhere than where they were measured.
pub(super) fn moved(rig: &Rig) -> [bool; 3] {
    let (now, before) = (rig.proposed(), rig.measured());
    let ends = |setup: &Setup| ends(setup).map(|ends| (ends.forward, ends.aft)).ok();
    [
        transom_station(now).ok() != transom_station(before).ok(),
        axle_shift(now) != axle_shift(before),
        ends(now) != ends(before),
    ]
}

/// Where boat, axles and bunks were measured, if they are moved.
fn before(before: &mut Drawing, rig: &Rig) {
    let (measured, [boat, axles, bunks]) = (rig.measured(), moved(rig));
    if boat {
        self::boat(before, measured, Role::Before);
    }
    if axles {
        wheels(before, measured);
    }
    if bunks && let Ok((ends, top)) = both(ends(measured), need(measured, TRAILER_BUNKS_TOP)) {
        before.line(Role::Before, vec![(ends.forward, top), (ends.aft, top)]);
    }
}

/// Frame, crossmembers, bunks, fenders and bow stop.
pub(super) fn trailer(drawing: &mut Drawing, setup: &Setup) {
    let trailer = &setup.trailer;
    // What stays with the frame when the tongue is drawn in.
    let with_frame = -setup.shift.tongue.unwrap_or_default();
    let frame = both(need(setup, TRAILER_LENGTH), need(setup, TRAILER_LEVEL_BALL_HEIGHT));
    if let Some((length, z)) = drawing.known(frame) {
        drawing.line(Role::Frame, vec![(Length::default(), z), (length + with_frame, z)]);
        drawing.circle(Role::Ball, (Length::default(), z), Length::from_si(BALL / 2.0));
    }
    let half = Length::from_si(MEMBER / 2.0);
    for (i, member) in trailer.crossmembers.iter().enumerate() {
        if let Some((x, z)) = crossmember_station(setup, i).ok().zip(member.top) {
            let (left, right, low) = (x - half, x + half, z - half);
            drawing.line(Role::Crossmember, closed(vec![(left, z), (right, z), (right, low), (left, low)]));
        }
    }
    if trailer.bunks.are_described()
        && let Some((ends, top)) = drawing.known(both(ends(setup), need(setup, TRAILER_BUNKS_TOP)))
    {
        drawing.line(Role::Bunk, vec![(ends.forward, top), (ends.aft, top)]);
    }
    let fenders = trailer.fenders;
    if let (Some(from), Some(to), Some(top)) = (fenders.forward_end, fenders.aft_end, fenders.height) {
        drawing.line(Role::Fender, vec![(from + axle_shift(setup), top), (to + axle_shift(setup), top)]);
    }
    if let (Some(at), Some(up), Some(frame)) =
        (trailer.bow_stop, trailer.bow_stop_height, trailer.level_ball_height)
    {
        // Bow stop and post move with the boat.
        let x = at + setup.shift.boat.unwrap_or_default();
        drawing.line(Role::BowStop, vec![(x, frame), (x, up)]);
        drawing.circle(Role::BowStop, (x, up), half);
    }
}

fn wheels(drawing: &mut Drawing, setup: &Setup) {
    for (i, axle) in setup.trailer.axles.iter().enumerate() {
        match (axle.station, axle.tires.radius) {
            (Some(x), Some(radius)) => {
                let hub = (x + axle_shift(setup), radius);
                drawing.wheel(setup, TRAILER_AXLES_TIRES_RADIUS.of(i), hub, radius);
            }
            (None, _) => drawing.note(vec![TRAILER_AXLES_STATION.of(i)]),
            (_, None) => drawing.note(vec![TRAILER_AXLES_TIRES_RADIUS.of(i)]),
        }
    }
}

/// The tow vehicle's rear wheels, where they are known: nothing else of its shape is in the file.
fn tow(drawing: &mut Drawing, setup: &Setup) {
    let (overhang, radius) = (setup.tow.ball_overhang, setup.tow.tire_radius);
    if let (Some(overhang), Some(radius), Some(ball)) = (overhang, radius, setup.trailer.level_ball_height) {
        drawing.wheel(setup, TOW_TIRE_RADIUS.key(), (-overhang, radius), radius);
        drawing.line(Role::Tow, vec![(-overhang, radius), (Length::default(), ball)]);
        drawing.dimension(TOW_BALL_OVERHANG.key(), Some(-overhang), None);
    }
}

/// The lengths of the file behind the ball, by their keys.
pub(super) fn lengths(drawing: &mut Drawing, setup: &Setup) {
    let trailer = &setup.trailer;
    let moved = |stated: Option<Length>, by: Length| stated.map(|stated| stated + by);
    let stop = moved(trailer.bow_stop, setup.shift.boat.unwrap_or_default());
    drawing.dimension(TRAILER_BOW_STOP.key(), trailer.bow_stop, stop);
    for (i, axle) in trailer.axles.iter().enumerate() {
        let drawn = moved(axle.station, axle_shift(setup));
        drawing.dimension(TRAILER_AXLES_STATION.of(i), axle.station, drawn);
    }
    for (i, member) in trailer.crossmembers.iter().enumerate() {
        let drawn = crossmember_station(setup, i).ok();
        drawing.dimension(TRAILER_CROSSMEMBERS_STATION.of(i), member.station, drawn);
    }
    let (bunks, ends) = (&trailer.bunks, ends(setup).ok());
    let [forward, aft] = [ends.map(|ends| ends.forward), ends.map(|ends| ends.aft)];
    drawing.dimension(TRAILER_BUNKS_FORWARD_END.key(), bunks.forward_end, forward);
    drawing.dimension(TRAILER_BUNKS_AFT_END.key(), bunks.aft_end, aft);
    drawing.dimension(TRAILER_TRANSOM.key(), trailer.transom, transom_station(setup).ok());
    let with_frame = -setup.shift.tongue.unwrap_or_default();
    drawing.dimension(TRAILER_LENGTH.key(), trailer.length, moved(trailer.length, with_frame));
}

/// The hull by its sections, or by what a tape says of it.
pub(super) fn boat(drawing: &mut Drawing, setup: &Setup, role: Role) {
    let place = both(transom_station(setup), need(setup, TRAILER_KEEL_HEIGHT));
    let Some((transom, keel)) = drawing.known(place) else { return };
    let sections = &setup.boat.sections;
    if sections.is_empty() {
        return taped(drawing, setup, role, (transom, keel));
    }
    let corners = |section: &HullSection| {
        let heights = [section.keel, section.chine.height, section.sheer.height];
        section.station.map(|station| heights.map(|height| height.map(|z| (transom - station, keel + z))))
    };
    let corners: Vec<[Option<Point>; 3]> = sections.iter().filter_map(corners).collect();
    for edge in 0..3 {
        drawing.line(role, corners.iter().filter_map(|section| section[edge]).collect());
    }
    // Transom and stem.
    for section in [corners.first(), corners.last()].into_iter().flatten() {
        drawing.line(role, section.iter().copied().flatten().collect());
    }
}

/// The hull without sections, from the foot of its transom: the straight run of its keel, from there through the bow eye to the
/// stem, and the chine level over the straight run; a line as long as the boat where the file says less.
fn taped(drawing: &mut Drawing, setup: &Setup, role: Role, (transom, keel): Point) {
    let Some(length) = drawing.known(need(setup, BOAT_LENGTH)) else { return };
    let guessed = if role == Role::Hull { Role::Unknown } else { role };
    let at = |station: Length, height: Length| (transom - station, keel + height);
    let (hull, eye, foot) = (&setup.boat.hull, &setup.boat.bow_eye, Length::default());
    let bow = hull.straight_run.zip(eye.station.zip(eye.height));
    let Some((run, (station, height))) = bow.filter(|(run, (station, _))| run < station) else {
        return drawing.line(guessed, vec![at(foot, foot), at(length, foot)]);
    };
    let stem = at(length, height * ((length - run) / (station - run)).si());
    drawing.line(role, vec![at(foot, foot), at(run, foot)]);
    drawing.line(guessed, vec![at(run, foot), stem]);
    let by_deadrise = hull.chine.half_breadth.zip(hull.deadrise);
    let chine = hull.chine.height.or(by_deadrise.map(|(half, deadrise)| half * deadrise.si().tan()));
    if let Some(chine) = chine {
        drawing.line(role, vec![at(foot, foot), at(foot, chine)]);
        drawing.line(guessed, vec![at(foot, chine), at(run, chine), stem]);
    }
}
