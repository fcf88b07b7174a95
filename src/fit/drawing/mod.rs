//! A rig drawn in true lengths: shapes with the part that each plays, places with a figure each, and the lengths of the file.
//!
//! One file a view. Nothing is computed here but where things lie: every load is a row's or a stance's.

mod bunks;
mod launch;
mod ramp;
mod section;
mod side;
mod top;

use super::assess::{Assessment, Row};
use super::known::{Known, Missing};
use super::launch::Event;
use crate::mechanics::{GroundPoint, Terrain};
use crate::quantity::{Angle, Length, Quantity, Weight};
use crate::rig::inputs::{TOW_TIRE_RADIUS, TRAILER_AXLES_TIRES_RADIUS};
use crate::rig::{Key, Rig, Setup};

/// From where a rig is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum View {
    /// From its port side, on level ground with the frame level.
    Side,
    /// From above.
    Top,
    /// From astern, cut at the crossmember that the keel clears least.
    Section,
    /// From its port side where a ramp asks most of an axle.
    Ramp,
    /// From its port side where the stern lifts off the trailer.
    Launch,
    /// A bunk as it is cut: from its side, and its end at full size.
    Bunks,
}

/// What a shape stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// The ground.
    Ground,
    /// The water's surface.
    Water,
    /// The trailer's frame.
    Frame,
    /// The ball that it is coupled to.
    Ball,
    /// A wheel.
    Wheel,
    /// A wheel of which the radius is assumed.
    AssumedWheel,
    /// A wheel of the tow vehicle, and what joins them.
    Tow,
    /// A bunk.
    Bunk,
    /// A hole in a bunk.
    Hole,
    /// A crossmember.
    Crossmember,
    /// A fender.
    Fender,
    /// The bow stop on its post.
    BowStop,
    /// A line of the hull that the file gives.
    Hull,
    /// A hull of which only its length or its beam is known.
    Unknown,
    /// What is moved, where it was measured.
    Before,
    /// A bar as long as it says, to check a print by.
    Scale,
}

/// A point: across the drawing, and up it.
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
    /// What it stands for.
    pub fn role(&self) -> Role {
        let (Self::Line(role, _) | Self::Circle(role, ..)) = self;
        *role
    }

    /// Whether it is not known as it is drawn.
    pub fn is_dashed(&self) -> bool {
        matches!(self.role(), Role::AssumedWheel | Role::Unknown)
    }
}

/// A figure that belongs to a place of a drawing.
#[derive(Debug, Clone, PartialEq)]
pub enum Figure {
    /// A load from below, and its limit.
    Push(Row),
    /// A row of the assessment: what it compares lies here.
    Row(Row),
    /// A length of the file.
    Length(Key, Length),
    /// The bevel that the bunks are cut to.
    Bevel(Angle),
    /// What an axle carries at one moment, against its rating, where one is known.
    Axle {
        /// The axle, counted from 0.
        axle: usize,
        /// What it carries.
        load: Weight,
        /// What it may.
        rating: Option<Weight>,
        /// How far its wheels hang clear.
        hang: Length,
    },
    /// Tongue weight at one moment, against the least tongue rating, where one is known.
    Tongue(Weight, Option<Weight>),
    /// A row of the assessment that compares the least of all that happens here over the ramps.
    Least(Row),
    /// The moment itself.
    Moment {
        /// The ramp.
        ramp: usize,
        /// The case.
        case: usize,
        /// The rearmost hub past the first break.
        past: Length,
    },
    /// What happens in the water, and how deep that is over where the trailer's rear wheels stand.
    Event(Event, Length),
    /// A bolt's hole.
    Hole {
        /// The crossmember under it, counted from 0.
        crossmember: usize,
        /// From the bunk's forward end.
        from_forward_end: Length,
    },
    /// The length of the bar beside it.
    Scale(Length),
}

/// A place with its figure.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// Where.
    pub at: Point,
    /// What.
    pub figure: Figure,
}

/// A length of the file, from the zero of a drawing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dimension {
    /// Its key.
    pub key: Key,
    /// As the file states it.
    pub stated: Length,
    /// Where what it leads to is drawn, which a proposal may have moved.
    pub drawn: Length,
}

/// What is seen.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawing {
    /// From where.
    pub view: View,
    /// What is drawn.
    pub shapes: Vec<Shape>,
    /// The centre of gravity of boat and trailer in the first case.
    pub cg: Option<Point>,
    /// How far it may lie from there, along and up, by what is stated with ±.
    pub cg_within: Option<[Length; 2]>,
    /// Places with a figure each.
    pub marks: Vec<Mark>,
    /// Lengths of the file across the drawing, from its zero.
    pub dimensions: Vec<Dimension>,
    /// The keys without which something is not drawn.
    pub missing: Vec<Key>,
    /// Whether it is drawn as large as it is.
    pub is_full_size: bool,
}

impl Drawing {
    /// What a view shows of a rig, a part a drawing.
    ///
    /// # Errors
    /// The keys without which nothing of it can be drawn; none where a trailer comes to no rest on its ramp.
    pub fn of(view: View, rig: &Rig, assessment: &Assessment) -> Known<Vec<Self>> {
        match view {
            View::Side => Ok(vec![side::side(rig, assessment)]),
            View::Top => Ok(vec![top::top(rig, assessment)]),
            View::Section => section::section(rig, assessment).map(|drawing| vec![drawing]),
            View::Ramp => ramp::ramp(rig, assessment).map(|drawing| vec![drawing]),
            View::Launch => launch::launch(rig, assessment).map(|drawing| vec![drawing]),
            View::Bunks => bunks::bunks(rig),
        }
    }

    fn new(view: View) -> Self {
        Self {
            view,
            shapes: Vec::new(),
            cg: None,
            cg_within: None,
            marks: Vec::new(),
            dimensions: Vec::new(),
            missing: Vec::new(),
            is_full_size: false,
        }
    }

    fn line(&mut self, role: Role, points: Vec<Point>) {
        self.shapes.push(Shape::Line(role, points));
    }

    fn circle(&mut self, role: Role, centre: Point, radius: Length) {
        self.shapes.push(Shape::Circle(role, centre, radius));
    }

    /// A wheel, of which the radius may be assumed.
    fn wheel(&mut self, setup: &Setup, radius_key: Key, hub: Point, radius: Length) {
        let is_assumed = setup.is_assumed(radius_key);
        self.circle(if is_assumed { Role::AssumedWheel } else { Role::Wheel }, hub, radius);
    }

    /// Turns everything drawn so far, bow or nose up, about a point that lay at zero and comes to lie at another.
    fn turn(&mut self, to: GroundPoint, by: Angle, zero: Point) {
        let (sin, cos) = by.si().sin_cos();
        let turned = |(x, z): Point| {
            let (x, z) = (x - zero.0, z - zero.1);
            (to.x + x * cos + z * sin, to.z + z * cos - x * sin)
        };
        for shape in &mut self.shapes {
            match shape {
                Shape::Line(_, points) => *points = points.iter().copied().map(turned).collect(),
                Shape::Circle(_, centre, _) => *centre = turned(*centre),
            }
        }
    }

    /// The ground of a ramp past its farthest place, the wheels that stand on it or hang over it, and the tow vehicle from its front wheels to the ball.
    fn rolling(
        &mut self,
        setup: &Setup,
        terrain: &Terrain,
        (hubs, ball): (&[GroundPoint], GroundPoint),
        tow: [GroundPoint; 2],
        farthest: Length,
    ) {
        let last = hubs.iter().map(|hub| hub.x).fold(farthest, Length::max);
        let (from, to) = (tow[0].x.si() - BEYOND, last.si() + BEYOND);
        let steps = ((to - from) / STEP).ceil() as i64;
        let at = |i: i64| Length::from_si(from + STEP * i as f64);
        self.line(Role::Ground, (0..=steps).map(at).map(|x| (x, terrain.height(x))).collect());
        for (i, (hub, axle)) in hubs.iter().zip(&setup.trailer.axles).enumerate() {
            if let Some(radius) = axle.tires.radius {
                self.wheel(setup, TRAILER_AXLES_TIRES_RADIUS.of(i), (hub.x, hub.z), radius);
            }
        }
        let Some(radius) = setup.tow.tire_radius else { return };
        let half = Length::from_si(STEP / 2.0);
        let hubs = tow.map(|contact| {
            let rise = ((terrain.height(contact.x + half) - terrain.height(contact.x - half)) / STEP).si();
            // A radius off the ground, square to it.
            let size = rise.hypot(1.0);
            (contact.x - radius * (rise / size), contact.z + radius / size)
        });
        for hub in hubs {
            self.wheel(setup, TOW_TIRE_RADIUS.key(), hub, radius);
        }
        self.line(Role::Tow, hubs.into_iter().chain([(ball.x, ball.z)]).collect());
    }

    /// What is drawn of the rig as it was measured, if anything of it is moved: as a shape of the past, whatever it stands for.
    fn before(&mut self, rig: &Rig, draw: impl Fn(&mut Self, &Setup)) {
        if rig.proposed().shift == rig.measured().shift {
            return;
        }
        let mut measured = Self::new(self.view);
        draw(&mut measured, rig.measured());
        let past = |shape| match shape {
            Shape::Line(_, points) => Shape::Line(Role::Before, points),
            Shape::Circle(_, centre, radius) => Shape::Circle(Role::Before, centre, radius),
        };
        self.shapes.extend(measured.shapes.into_iter().map(past));
    }

    fn mark(&mut self, at: Point, figure: Figure) {
        self.marks.push(Mark { at, figure });
    }

    /// Marks a row of the assessment, if it is there.
    fn mark_row(&mut self, at: Point, assessment: &Assessment, id: &str) {
        if let Some(row) = assessment.check(id) {
            self.mark(at, Figure::Row(row.clone()));
        }
    }

    /// A length of the file, if it states it, and where what it leads to is drawn, if that is known.
    fn dimension(&mut self, key: Key, stated: Option<Length>, drawn: Option<Length>) {
        let drawn = |stated| drawn.unwrap_or(stated);
        self.dimensions.extend(stated.map(|stated| Dimension { key, stated, drawn: drawn(stated) }));
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
}

/// The ground is drawn through points so far apart, and so far beyond the wheels, in metres.
const STEP: f64 = 0.1;
const BEYOND: f64 = 1.5;

/// A corner-to-corner outline.
fn closed(mut corners: Vec<Point>) -> Vec<Point> {
    corners.extend(corners.first().copied());
    corners
}
