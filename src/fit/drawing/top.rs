//! A rig from above: across is behind the ball, up is to port.

use super::side::{cg, lengths, moved};
use super::{Drawing, Point, Role, Shape, View, closed};
use crate::fit::assess::Assessment;
use crate::fit::bunks::{board_size, crossmember_station, ends, half_spacings};
use crate::fit::known::{both, need};
use crate::fit::model::axle_shift;
use crate::fit::placement::transom_station;
use crate::quantity::{Length, Quantity};
use crate::rig::inputs::{
    BOAT_BEAM, BOAT_LENGTH, TRAILER_AXLES_STATION, TRAILER_LENGTH, TRAILER_RAIL_HALF_SPACING, TRAILER_TRACK,
};
use crate::rig::{Rig, Setup};

/// A tire is drawn so wide, in metres.
const TIRE: f64 = 0.2;
/// A fender is drawn so wide, in metres.
const FENDER: f64 = 0.25;

/// The view from above.
pub(super) fn top(rig: &Rig, assessment: &Assessment) -> Drawing {
    let setup = rig.proposed();
    let mut drawing = Drawing::new(View::Top);
    drawing.before(rig, |before, measured| {
        let [boat, axles, bunks] = moved(rig);
        if axles {
            self::wheels(before, measured);
        }
        if bunks {
            self::bunks(before, measured);
        }
        if boat {
            hull(before, measured);
        }
    });
    trailer(&mut drawing, setup);
    wheels(&mut drawing, setup);
    bunks(&mut drawing, setup);
    hull(&mut drawing, setup);
    lengths(&mut drawing, setup);
    // To starboard is down.
    drawing.cg = cg(setup, assessment).map(|(x, _, side)| (x, -side));
    drawing.circle(Role::Ball, Default::default(), Length::from_si(super::side::BALL / 2.0));
    drawing
}

impl Drawing {
    /// The same line on both sides of the centreline.
    fn both_sides(&mut self, role: Role, points: &[Point]) {
        self.line(role, points.to_vec());
        self.line(role, points.iter().map(|(x, y)| (*x, -*y)).collect());
    }

    fn box_on_both_sides(&mut self, role: Role, [from, to]: [Length; 2], [inner, outer]: [Length; 2]) {
        self.both_sides(role, &closed(vec![(from, inner), (to, inner), (to, outer), (from, outer)]));
    }
}

/// Rails, crossmembers and fenders.
fn trailer(drawing: &mut Drawing, setup: &Setup) {
    let trailer = &setup.trailer;
    let with_frame = -setup.shift.tongue.unwrap_or_default();
    let length = drawing.known(need(setup, TRAILER_LENGTH)).map(|length| length + with_frame);
    if let Some(length) = length {
        drawing.line(Role::Frame, vec![(Length::default(), Length::default()), (length, Length::default())]);
    }
    let members = (0..trailer.crossmembers.len()).filter_map(|i| crossmember_station(setup, i).ok());
    let members: Vec<Length> = members.collect();
    let rail = drawing.known(need(setup, TRAILER_RAIL_HALF_SPACING));
    if let Some(rail) = rail {
        // The rails part from the tongue where the foremost crossmember stands.
        let fork = members.iter().copied().reduce(Length::min);
        if let Some((fork, length)) = fork.zip(length) {
            drawing.both_sides(Role::Frame, &[(fork, rail), (length, rail)]);
        }
        for x in members {
            drawing.line(Role::Crossmember, vec![(x, rail), (x, -rail)]);
        }
    }
    let fenders = trailer.fenders;
    if let (Some(from), Some(to), Some(inner)) = (fenders.forward_end, fenders.aft_end, fenders.half_breadth)
    {
        let ends = [from, to].map(|end| end + axle_shift(setup));
        drawing.box_on_both_sides(Role::Fender, ends, [inner, inner + Length::from_si(FENDER)]);
    }
}

fn wheels(drawing: &mut Drawing, setup: &Setup) {
    let Some(track) = drawing.known(need(setup, TRAILER_TRACK)) else { return };
    let (middle, half) = (track / 2.0, Length::from_si(TIRE / 2.0));
    for (i, axle) in setup.trailer.axles.iter().enumerate() {
        let Some(station) = axle.station else {
            drawing.note(vec![TRAILER_AXLES_STATION.of(i)]);
            continue;
        };
        let x = station + axle_shift(setup);
        if let Some(radius) = axle.tires.radius {
            drawing.box_on_both_sides(Role::Wheel, [x - radius, x + radius], [middle - half, middle + half]);
        }
        drawing.line(Role::Frame, vec![(x, middle - half), (x, half - middle)]);
    }
}

fn bunks(drawing: &mut Drawing, setup: &Setup) {
    if !setup.trailer.bunks.are_described() {
        return;
    }
    let known = both(both(ends(setup), half_spacings(setup)), board_size(setup));
    let Some(((ends, [port, starboard]), (breadth, _))) = drawing.known(known) else { return };
    for (outer, inner) in [(port, port - breadth), (-starboard, breadth - starboard)] {
        let corners =
            vec![(ends.forward, outer), (ends.aft, outer), (ends.aft, inner), (ends.forward, inner)];
        drawing.shapes.push(Shape::Line(Role::Bunk, closed(corners)));
    }
}

/// Chine and sheer by the sections; without them a box as long and as wide as the boat.
fn hull(drawing: &mut Drawing, setup: &Setup) {
    let Some(transom) = drawing.known(transom_station(setup)) else { return };
    let sections = &setup.boat.sections;
    if sections.is_empty() {
        let size = both(need(setup, BOAT_LENGTH), need(setup, BOAT_BEAM));
        if let Some((length, beam)) = drawing.known(size) {
            let (bow, half) = (transom - length, beam / 2.0);
            drawing.both_sides(Role::Unknown, &[(transom, Length::default()), (transom, half), (bow, half)]);
        }
        return;
    }
    for edge in [0, 1] {
        let point = |section: &crate::rig::HullSection| {
            let half_breadth = [section.chine, section.sheer][edge].half_breadth?;
            Some((transom - section.station?, half_breadth))
        };
        let points: Vec<Point> = sections.iter().filter_map(point).collect();
        drawing.both_sides(Role::Hull, &points);
    }
    if let Some(half_breadth) = sections[0].sheer.half_breadth {
        drawing.line(Role::Hull, vec![(transom, half_breadth), (transom, -half_breadth)]);
    }
}
