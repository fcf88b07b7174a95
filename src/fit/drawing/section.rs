//! A rig from astern, cut at a crossmember: across is to starboard, up is above the ground.

use super::{Drawing, Figure, Point, Role, View, closed};
use crate::fit::assess::Assessment;
use crate::fit::bunks::{board, deadrise, half_spacings, is_passed_over, keel_clearance};
use crate::fit::known::{Known, both, need};
use crate::mechanics::bunks::Bevelled;
use crate::mechanics::bunks::wood::Lay;
use crate::quantity::{Angle, Length, Quantity};
use crate::rig::inputs::{
    BOAT_HULL_CHINE_HALF_BREADTH, TRAILER_BUNKS_HALF_SPACING, TRAILER_BUNKS_PORT, TRAILER_BUNKS_STARBOARD,
    TRAILER_BUNKS_TOP, TRAILER_FENDERS_HALF_BREADTH, TRAILER_FENDERS_HEIGHT, TRAILER_KEEL_HEIGHT,
};
use crate::rig::{Crossmember, Rig, Setup};

/// A fender is drawn so wide, in metres.
const FENDER: f64 = 0.25;
/// The sides of a hull above its chine are drawn so high, in metres.
const SIDES: f64 = 0.3;

/// The section at the crossmember that the keel clears least.
pub(super) fn section(rig: &Rig, assessment: &Assessment) -> Known<Drawing> {
    let setup = rig.proposed();
    let (keel, deadrise) = both(need(setup, TRAILER_KEEL_HEIGHT), deadrise(setup))?;
    let mut drawing = Drawing::new(View::Section);
    hull(&mut drawing, setup, keel, deadrise);
    let spacings = drawing.known(half_spacings(setup));
    if let Some((member, at)) = member(setup) {
        let rail = setup.trailer.rail_half_spacing;
        let half = rail.or(spacings.map(|[port, starboard]| port.max(starboard))).unwrap_or_default();
        if let Some(along) = top_of(&at, half, spacings) {
            let middle = along[2];
            drawing.line(Role::Crossmember, along);
            drawing.mark_row(middle, assessment, &format!("clearance-keel-{}", member + 1));
        }
        drawing.before(rig, |before, measured| {
            // Where she lay, the keel cleared another one least.
            let old = self::member(measured).filter(|(other, _)| *other != member);
            if let Some(along) = old.and_then(|(_, at)| top_of(&at, half, spacings)) {
                before.line(Role::Before, along);
            }
        });
        let board = board(setup).map(|board| board.zip(spacings));
        let known = both(board, need(setup, TRAILER_BUNKS_TOP));
        if let Some((Some((board, [port, starboard])), top)) = drawing.known(known) {
            for (spacing, side) in [(port, -1.0), (starboard, 1.0)] {
                let corners = end_of(&board, (spacing, top));
                let middle = spacing - board.breadth / 2.0;
                let foot = at.top.unwrap_or(top);
                let under = vec![(middle * side, foot), (middle * side, corners[2].1)];
                drawing.line(Role::Crossmember, under);
                drawing.line(Role::Bunk, closed(corners.iter().map(|(y, z)| (*y * side, *z)).collect()));
            }
            drawing.mark((starboard, top), Figure::Bevel(deadrise));
            drawing.mark_row(
                (starboard - board.breadth / 2.0, at.top.unwrap_or(top)),
                assessment,
                &format!("crossmember-{}", member + 1),
            );
        }
    }
    drawing.mark((Length::default(), keel), Figure::Length(TRAILER_KEEL_HEIGHT.key(), keel));
    fenders(&mut drawing, setup, assessment);
    for (key, at) in [
        (TRAILER_BUNKS_HALF_SPACING.key(), setup.trailer.bunks.half_spacing),
        (TRAILER_BUNKS_STARBOARD.key(), setup.trailer.bunks.starboard),
        (TRAILER_BUNKS_PORT.key(), setup.trailer.bunks.port.map(|port| -port)),
        (BOAT_HULL_CHINE_HALF_BREADTH.key(), setup.boat.hull.chine.half_breadth),
        (TRAILER_FENDERS_HALF_BREADTH.key(), setup.trailer.fenders.half_breadth),
    ] {
        drawing.dimension(key, at, None);
    }
    Ok(drawing)
}

/// A crossmember's top, from side to side; its middle is the third point.
fn top_of(at: &Crossmember, half: Length, spacings: Option<[Length; 2]>) -> Option<Vec<Point>> {
    let (centre, top) = at.centre.zip(at.top)?;
    // Its top is taped where the brackets stand.
    let [port, starboard] = spacings.unwrap_or([half, half]);
    let middle = (Length::default(), centre);
    Some(vec![(-half.max(port), top), (-port, top), middle, (starboard, top), (half.max(starboard), top)])
}

/// The bottom's vee to the chine, or as far as the bunks where no chine is known, and the sides above it.
fn hull(drawing: &mut Drawing, setup: &Setup, keel: Length, deadrise: Angle) {
    let chine = setup.boat.hull.chine.half_breadth;
    let role = if chine.is_some() { Role::Hull } else { Role::Unknown };
    if chine.is_none() {
        drawing.note(vec![BOAT_HULL_CHINE_HALF_BREADTH.key()]);
    }
    let [port, starboard] = half_spacings(setup).unwrap_or_default();
    let half = chine.or(setup.boat.beam.map(|beam| beam / 2.0)).unwrap_or(port.max(starboard));
    let up = keel + half * deadrise.si().tan();
    drawing.line(role, vec![(-half, up), (Length::default(), keel), (half, up)]);
    let outer = setup.boat.beam.map_or(half, |beam| beam / 2.0).max(half);
    let sheer = up + Length::from_si(SIDES);
    for side in [-1.0, 1.0] {
        drawing.line(Role::Unknown, vec![(half * side, up), (outer * side, sheer)]);
    }
}

/// The crossmember that the keel clears least of those that it passes over; without heights the first.
fn member(setup: &Setup) -> Option<(usize, Crossmember)> {
    let passed = (0..setup.trailer.crossmembers.len()).filter(|member| is_passed_over(setup, *member));
    let clearance = |member: &usize| keel_clearance(setup, *member).map_or(f64::INFINITY, Quantity::si);
    let least = passed.min_by(|a, b| clearance(a).total_cmp(&clearance(b)))?;
    Some((least, setup.trailer.crossmembers[least]))
}

/// A board's end with its outer upper edge at a point, from that edge round by the inner one.
pub(super) fn end_of(board: &Bevelled, (y, top): Point) -> Vec<Point> {
    let (sin, cos) = board.deadrise.si().sin_cos();
    match board.lay {
        Lay::OnEdge => {
            let inner = y - board.breadth;
            let bottom = top - board.outer_depth;
            vec![(y, top), (inner, bottom + board.inner_depth), (inner, bottom), (y, bottom)]
        }
        Lay::Flat => {
            let inner = (y - board.breadth * cos, top - board.breadth * sin);
            let down = |(y, z): Point| (y + board.outer_depth * sin, z - board.outer_depth * cos);
            vec![(y, top), inner, down(inner), down((y, top))]
        }
    }
}

fn fenders(drawing: &mut Drawing, setup: &Setup, assessment: &Assessment) {
    let fenders = (need(setup, TRAILER_FENDERS_HALF_BREADTH), need(setup, TRAILER_FENDERS_HEIGHT));
    let (Ok(inner), Ok(top)) = fenders else { return };
    let (outer, low) = (inner + Length::from_si(FENDER), top - Length::from_si(FENDER));
    for side in [-1.0, 1.0] {
        drawing.line(Role::Fender, vec![(inner * side, low), (inner * side, top), (outer * side, top)]);
    }
    drawing.mark_row((inner, top), assessment, "clearance-fender");
}
