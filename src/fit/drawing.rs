//! A rig seen from its port side, in true lengths, on level ground with its frame level.

use super::assess::{Assessment, Row};
use super::bunks::{crossmember_station, ends};
use super::known::{Known, Missing, need};
use super::model::axle_shift;
use super::placement::transom_station;
use crate::quantity::{Length, Quantity};
use crate::rig::inputs::{
    BOAT_LENGTH, TRAILER_AXLES_STATION, TRAILER_AXLES_TIRES_RADIUS, TRAILER_BOW_STOP, TRAILER_BUNKS_AFT_END,
    TRAILER_BUNKS_FORWARD_END, TRAILER_BUNKS_TOP, TRAILER_CROSSMEMBERS_STATION, TRAILER_KEEL_HEIGHT,
    TRAILER_LENGTH, TRAILER_LEVEL_BALL_HEIGHT, TRAILER_TRANSOM,
};
use crate::rig::{HullSection, Key, Setup};

/// The ball is drawn so wide, in metres, whatever its size.
const BALL: f64 = 0.06;

/// What a shape stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// The trailer's frame.
    Frame,
    /// The ball that it is coupled to.
    Ball,
    /// A wheel.
    Wheel,
    /// A wheel of which the radius is assumed.
    AssumedWheel,
    /// The bunks.
    Bunk,
    /// A crossmember.
    Crossmember,
    /// A line of the hull that the file's sections give.
    Hull,
    /// A hull of which only its length is known.
    Unknown,
}

/// A point: behind the ball, and above the ground.
pub type Point = (Length, Length);

/// A shape of a drawing.
#[derive(Debug, Clone, PartialEq)]
pub enum Shape {
    /// A line through these points.
    Line(Role, Vec<Point>),
    /// A circle of this radius.
    Circle(Role, Point, Length),
}

impl Shape {
    /// Whether it is not known as it is drawn.
    pub fn is_dashed(&self) -> bool {
        let (Self::Line(role, _) | Self::Circle(role, ..)) = self;
        matches!(role, Role::AssumedWheel | Role::Unknown)
    }
}

/// What pushes on the trailer from below, by a row of the assessment.
#[derive(Debug, Clone, PartialEq)]
pub struct Push {
    /// Where, behind the ball.
    pub at: Length,
    /// The row: its load and its limit.
    pub row: Row,
}

/// A side view.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Drawing {
    /// What is drawn.
    pub shapes: Vec<Shape>,
    /// The centre of gravity of boat and trailer in the first case.
    pub cg: Option<Point>,
    /// What ball and axles carry.
    pub pushes: Vec<Push>,
    /// Lengths behind the ball as the file states them, and their keys.
    pub dimensions: Vec<(Key, Length)>,
    /// The keys without which something is not drawn.
    pub missing: Vec<Key>,
}

impl Drawing {
    /// The side view of a setup and its assessment.
    pub fn side(setup: &Setup, assessment: &Assessment) -> Self {
        let mut drawing = Self::default();
        drawing.draw_trailer(setup);
        drawing.draw_boat(setup);
        let body = assessment.cases.first().map(|case| case.body.clone());
        let level = setup.trailer.level_ball_height;
        drawing.cg = body.and_then(Result::ok).zip(level).map(|(body, level)| (body.at.x, level + body.at.z));
        let stations = setup.trailer.axles.iter().map(|axle| Some(axle.station? + axle_shift(setup)));
        let axles = stations.enumerate().map(|(i, at)| (format!("axle-{}", i + 1), at));
        for (id, at) in [("coupler-tongue".to_string(), Some(Length::default()))].into_iter().chain(axles) {
            if let Some((at, row)) = at.zip(assessment.check(&id)) {
                drawing.pushes.push(Push { at, row: row.clone() });
            }
        }
        drawing
    }

    /// A value, or a note of the keys that it lacks.
    fn known<T>(&mut self, value: Known<T>) -> Option<T> {
        value.map_err(|Missing(keys)| self.note(keys)).ok()
    }

    fn note(&mut self, keys: Vec<Key>) {
        for key in keys {
            if !self.missing.contains(&key) {
                self.missing.push(key);
            }
        }
    }

    fn dimension(&mut self, key: Key, length: Option<Length>) {
        self.dimensions.extend(length.map(|length| (key, length)));
    }

    fn draw_trailer(&mut self, setup: &Setup) {
        let trailer = &setup.trailer;
        // What stays with the frame when the tongue is drawn in.
        let with_frame = -setup.shift.tongue.unwrap_or_default();
        let frame = (need(setup, TRAILER_LENGTH), need(setup, TRAILER_LEVEL_BALL_HEIGHT));
        if let (Some(length), Some(z)) = (self.known(frame.0), self.known(frame.1)) {
            self.shapes
                .push(Shape::Line(Role::Frame, vec![(Length::default(), z), (length + with_frame, z)]));
            self.shapes.push(Shape::Circle(Role::Ball, (Length::default(), z), Length::from_si(BALL / 2.0)));
        }
        self.dimension(TRAILER_BOW_STOP.key(), trailer.bow_stop);
        for (i, axle) in trailer.axles.iter().enumerate() {
            self.dimension(TRAILER_AXLES_STATION.of(i), axle.station);
            match (axle.station, axle.tires.radius) {
                (Some(x), Some(radius)) => {
                    let is_assumed = setup.is_assumed(TRAILER_AXLES_TIRES_RADIUS.of(i));
                    let role = if is_assumed { Role::AssumedWheel } else { Role::Wheel };
                    self.shapes.push(Shape::Circle(role, (x + axle_shift(setup), radius), radius));
                }
                (None, _) => self.note(vec![TRAILER_AXLES_STATION.of(i)]),
                (_, None) => self.note(vec![TRAILER_AXLES_TIRES_RADIUS.of(i)]),
            }
        }
        for (i, member) in trailer.crossmembers.iter().enumerate() {
            self.dimension(TRAILER_CROSSMEMBERS_STATION.of(i), member.station);
            if let Some((x, z)) = crossmember_station(setup, i).ok().zip(member.top) {
                let half = Length::from_si(0.04);
                let side = vec![
                    (x - half, z),
                    (x + half, z),
                    (x + half, z - half),
                    (x - half, z - half),
                    (x - half, z),
                ];
                self.shapes.push(Shape::Line(Role::Crossmember, side));
            }
        }
        if trailer.bunks.are_described() {
            let (ends, top) = (self.known(ends(setup)), self.known(need(setup, TRAILER_BUNKS_TOP)));
            if let Some((ends, top)) = ends.zip(top) {
                self.shapes.push(Shape::Line(Role::Bunk, vec![(ends.forward, top), (ends.aft, top)]));
            }
            self.dimension(TRAILER_BUNKS_FORWARD_END.key(), trailer.bunks.forward_end);
            self.dimension(TRAILER_BUNKS_AFT_END.key(), trailer.bunks.aft_end);
        }
        self.dimension(TRAILER_TRANSOM.key(), trailer.transom);
        self.dimension(TRAILER_LENGTH.key(), trailer.length);
    }

    fn draw_boat(&mut self, setup: &Setup) {
        let transom = self.known(transom_station(setup));
        let keel = self.known(need(setup, TRAILER_KEEL_HEIGHT));
        let Some((transom, keel)) = transom.zip(keel) else { return };
        let sections = &setup.boat.sections;
        if sections.is_empty() {
            if let Some(length) = self.known(need(setup, BOAT_LENGTH)) {
                let line = vec![(transom, keel), (transom - length, keel)];
                self.shapes.push(Shape::Line(Role::Unknown, line));
            }
            return;
        }
        let corners = |section: &HullSection| {
            let heights = [section.keel, section.chine.height, section.sheer.height];
            section.station.map(|station| heights.map(|height| height.map(|z| (transom - station, keel + z))))
        };
        let corners: Vec<[Option<Point>; 3]> = sections.iter().filter_map(corners).collect();
        let edges = (0..3).map(|edge| corners.iter().filter_map(|section| section[edge]).collect());
        // Transom and stem.
        let ends = [corners.first(), corners.last()].into_iter().flatten();
        let ends = ends.map(|section| section.iter().copied().flatten().collect());
        self.shapes.extend(edges.chain(ends).map(|points| Shape::Line(Role::Hull, points)));
    }
}
