//! The ground under the wheels, and the line that a wheel's hub follows over it.
//!
//! | symbol | meaning |
//! |---|---|
//! | `R` | wheel radius, hub to ground |
//! | `α` | slope angle of the hub line, negative going down aft |
//! | `ℓ` | distance from a frame point down the frame normal to the hub line |
//!
//! The ground is a chain of straight grades. A wheel of radius `R` touches it from above, so its hub
//! follows the upper edge of all discs of radius `R` set on the ground: grades moved out by `R`, an
//! arc about each crest, and at a sag the point where two moved grades cross. Going down from the
//! frame, the first of these that is met is the hub: crests, sags and grades too short for
//! the wheel need no case of their own.

use crate::quantity::{Length, Quantity};
use std::borrow::Cow;

/// A point in the vertical plane of the ground.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct GroundPoint {
    /// Horizontal, growing aft.
    pub x: Length,
    /// Up.
    pub z: Length,
}

/// The ground as a chain of straight grades; the first and the last go on for ever.
#[derive(Debug, Clone, PartialEq)]
pub struct Terrain {
    grades: Cow<'static, [Grade]>,
}

/// One straight grade, from its forward end.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Grade {
    from_x: f64,
    from_z: f64,
    to_x: f64,
    /// No crest or sag at the forward end of the first grade.
    begins: bool,
    sin: f64,
    cos: f64,
}

static LEVEL: [Grade; 1] =
    [Grade { from_x: 0.0, from_z: 0.0, to_x: f64::INFINITY, begins: false, sin: 0.0, cos: 1.0 }];

/// Why points make no terrain.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum BadTerrain {
    /// A line needs two points.
    #[error("expected two points or more, found {0}")]
    TooFewPoints(usize),
    /// The points must run aft, and all be finite.
    #[error("expected points that run aft, found point {0} not aft of the one before it")]
    NotAft(usize),
    /// The settling holds for grades up to 100 %.
    #[error("expected grades of at most 100 %, found a steeper one before point {0}")]
    TooSteep(usize),
}

impl Terrain {
    /// Level ground at `Z = 0`.
    pub fn level() -> Self {
        Self { grades: Cow::Borrowed(&LEVEL) }
    }

    /// The ground through the points, forward to aft; its first and last grades go on for ever.
    ///
    /// # Errors
    /// [`BadTerrain`] when there are fewer than two points, when they do not run aft, or when a grade
    /// is steeper than 100 %.
    pub fn through(points: &[GroundPoint]) -> Result<Self, BadTerrain> {
        if points.len() < 2 {
            return Err(BadTerrain::TooFewPoints(points.len()));
        }
        let last = points.len() - 2;
        let grade = |i: usize| {
            let (from, to) = (points[i], points[i + 1]);
            let (run, rise) = ((to.x - from.x).si(), (to.z - from.z).si());
            if !(run > 0.0 && run.is_finite() && rise.is_finite()) {
                return Err(BadTerrain::NotAft(i + 2));
            }
            if rise.abs() > run {
                return Err(BadTerrain::TooSteep(i + 2));
            }
            let length = run.hypot(rise);
            Ok(Grade {
                from_x: from.x.si(),
                from_z: from.z.si(),
                to_x: if i == last { f64::INFINITY } else { to.x.si() },
                begins: i > 0,
                sin: rise / length,
                cos: run / length,
            })
        };
        let grades = (0..=last).map(grade).collect::<Result<Vec<_>, _>>()?;
        Ok(Self { grades: Cow::Owned(grades) })
    }
}

/// Where a ray down the frame normal meets the hub line.
#[derive(Debug, Clone, Copy)]
pub(super) struct Hub {
    /// `ℓ`, from the frame line down.
    pub distance: f64,
    /// `sin α` of the hub line there.
    pub sin: f64,
    /// `cos α` of the hub line there.
    pub cos: f64,
    /// How sharply the hub line bends down there: `1/R` on a crest's arc, else 0.
    pub curvature: f64,
}

/// A ray from a frame point down the frame normal; the normal is `(sin φ, cos φ)`.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ray {
    pub x: f64,
    pub z: f64,
    pub sin: f64,
    pub cos: f64,
}

impl Terrain {
    /// The hub of a wheel of this radius, where the ray first meets the hub line from above.
    pub(super) fn hub(&self, ray: Ray, radius: f64) -> Hub {
        let mut first = Hub { distance: f64::INFINITY, sin: 0.0, cos: 1.0, curvature: 0.0 };
        for grade in self.grades.iter() {
            if grade.begins {
                first = nearer(first, grade.crest(ray, radius));
            }
            first = nearer(first, grade.straight(ray, radius));
        }
        first
    }
}

fn nearer(first: Hub, other: Option<Hub>) -> Hub {
    match other {
        Some(other) if other.distance < first.distance => other,
        _ => first,
    }
}

impl Grade {
    /// The hub with the wheel's foot on the straight.
    fn straight(&self, ray: Ray, radius: f64) -> Option<Hub> {
        // The grade's normal is ν = (−sin α, cos α); the moved grade is where ν·(P − from) = R.
        let height = -(ray.x - self.from_x) * self.sin + (ray.z - self.from_z) * self.cos;
        // ν·n = cos(φ + α)
        let closing = self.cos * ray.cos - self.sin * ray.sin;
        if closing <= 0.0 {
            return None;
        }
        let distance = (height - radius) / closing;
        let foot = ray.x - distance * ray.sin + radius * self.sin;
        let on = (!self.begins || foot >= self.from_x) && foot <= self.to_x;
        on.then_some(Hub { distance, sin: self.sin, cos: self.cos, curvature: 0.0 })
    }

    /// The hub with the wheel turning about the break at the grade's forward end.
    fn crest(&self, ray: Ray, radius: f64) -> Option<Hub> {
        let (x, z) = (ray.x - self.from_x, ray.z - self.from_z);
        // The ray passes the break at this distance to the side.
        let aside = x * ray.cos - z * ray.sin;
        let below = radius * radius - aside * aside;
        if below < 0.0 {
            return None;
        }
        let distance = x * ray.sin + z * ray.cos - below.sqrt();
        // ν = (P − break) / R
        let (sin, cos) = (-(x - distance * ray.sin) / radius, (z - distance * ray.cos) / radius);
        Some(Hub { distance, sin, cos, curvature: 1.0 / radius })
    }
}
