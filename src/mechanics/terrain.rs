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

use crate::quantity::{Length, Quantity, Slope};
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
    /// How many breaks that are no part of a vertical curve lie before it.
    breaks_before: u16,
    /// Whether the break at its forward end is one of them.
    sharp: bool,
}

/// One run of a ramp.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RampRun {
    /// Its horizontal length.
    pub length: Length,
    /// Its grade, positive downhill going aft.
    pub grade: Slope,
}

static LEVEL: [Grade; 1] = [Grade {
    from_x: 0.0,
    from_z: 0.0,
    to_x: f64::INFINITY,
    begins: false,
    sin: 0.0,
    cos: 1.0,
    breaks_before: 0,
    sharp: false,
}];

/// With more grades than this, only those near a wheel are looked at.
const FEW_GRADES: usize = 6;

/// Hubs farther from the frame line than this, in metres, are looked for over all grades.
const NEAR_FRAME: f64 = 2.0;

/// Points computed from a grade of 100 % give it back within this, rounded.
const STEEPEST: f64 = 1.0 + 1e-9;

/// A vertical curve is drawn in chords that miss it by no more than this, in metres.
const CHORD_MISS: f64 = 5e-5;

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
    /// A vertical curve reaches past the middle of a run.
    #[error("expected vertical curves no longer than the runs they join, found run {0} shorter")]
    CurveTooLong(usize),
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
        Self::chained(points, |_| true)
    }

    /// Level ground up to `X = 0`, then the runs of a ramp; the last goes on for ever.
    ///
    /// With an `ease` above zero every break is a vertical curve of that horizontal length: a parabola whose
    /// grade changes evenly, centred on the break.
    ///
    /// # Errors
    /// [`BadTerrain`] when there is no run, a length is not positive, a grade is steeper than 100 %, or the
    /// curves of neighbouring breaks would overlap.
    pub fn ramp(runs: &[RampRun], ease: Length) -> Result<Self, BadTerrain> {
        if runs.is_empty() {
            return Err(BadTerrain::TooFewPoints(1));
        }
        let ease = ease.si().max(0.0);
        let inner = &runs[..runs.len() - 1];
        if let Some(short) = inner.iter().position(|run| run.length.si() > 0.0 && run.length.si() <= ease) {
            return Err(BadTerrain::CurveTooLong(short + 1));
        }
        let point = |x: f64, z: f64| GroundPoint { x: Length::from_si(x), z: Length::from_si(z) };
        let mut points = vec![point(-1.0 - ease, 0.0)];
        let mut sharp = vec![false];
        let (mut x, mut z, mut before) = (0.0, 0.0, 0.0);
        for run in runs {
            let after = -run.grade.si();
            for (dx, dz) in eased(before, after, ease) {
                points.push(point(x + dx, z + dz));
                sharp.push(ease == 0.0 && after != before);
            }
            x += run.length.si();
            z += run.length.si() * after;
            before = after;
        }
        // The last point only gives the last grade its direction.
        let last = points[points.len() - 1];
        points.push(point(last.x.si() + 1.0, last.z.si() + before));
        Self::chained(&points, |i| sharp.get(i).copied().unwrap_or(false))
    }

    fn chained(points: &[GroundPoint], sharp: impl Fn(usize) -> bool) -> Result<Self, BadTerrain> {
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
            if rise.abs() > run * STEEPEST {
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
                breaks_before: 0,
                sharp: i > 0 && sharp(i),
            })
        };
        let mut grades = (0..=last).map(grade).collect::<Result<Vec<_>, _>>()?;
        let mut breaks = 0;
        for grade in &mut grades {
            breaks += u16::from(grade.sharp);
            grade.breaks_before = breaks;
        }
        Ok(Self { grades: Cow::Owned(grades) })
    }
}

/// The points of a vertical curve about a break, from the break; the break alone without one.
fn eased(before: f64, after: f64, ease: f64) -> Vec<(f64, f64)> {
    if ease == 0.0 {
        return vec![(0.0, 0.0)];
    }
    let change = after - before;
    // A chord over 1/n of the curve misses it by ease · |change| / (8 n²).
    let chords = (ease * change.abs() / (8.0 * CHORD_MISS)).sqrt().ceil().max(1.0);
    let along = |i: usize| {
        let u = ease * i as f64 / chords;
        // z = z0 + g1 u + (g2 − g1) u² / 2L, from half the curve before the break
        (u - ease / 2.0, before * (u - ease / 2.0) + change * u * u / (2.0 * ease))
    };
    let last = usize::try_from(chords as i64).unwrap_or(1);
    (0..=last).map(along).collect()
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
    /// Which side of which sharp break the wheel is on: changes when it meets or leaves one.
    pub place: u16,
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
        if self.grades.len() <= FEW_GRADES {
            return first_hub(&self.grades, ray, radius);
        }
        // A hub this near the frame line lies beside the ray's start, and its foot within a radius of it.
        let beside = radius + NEAR_FRAME * ray.sin.abs();
        let from = self.grades.partition_point(|grade| grade.to_x < ray.x - beside);
        let to = self.grades.partition_point(|grade| !grade.begins || grade.from_x <= ray.x + beside);
        let near = self.grades.get(from..to).map(|near| first_hub(near, ray, radius));
        match near {
            Some(hub) if hub.distance.abs() <= NEAR_FRAME => hub,
            _ => first_hub(&self.grades, ray, radius),
        }
    }
}

/// The hub over these grades alone.
fn first_hub(grades: &[Grade], ray: Ray, radius: f64) -> Hub {
    let mut first = Hub { distance: f64::INFINITY, sin: 0.0, cos: 1.0, curvature: 0.0, place: 0 };
    for grade in grades {
        if grade.begins {
            first = nearer(first, grade.crest(ray, radius));
        }
        first = nearer(first, grade.straight(ray, radius));
    }
    first
}

fn nearer(first: Hub, other: Option<Hub>) -> Hub {
    match other {
        Some(other) if other.distance < first.distance => other,
        _ => first,
    }
}

/// A point that stands on the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Footing {
    pub x: f64,
    pub z: f64,
    /// `sin α` and `cos α` of the grade under it.
    pub sin: f64,
    pub cos: f64,
    /// How many sharp breaks lie before it.
    pub breaks_before: u16,
}

impl Terrain {
    /// Height of the ground at a distance aft.
    pub fn height(&self, x: Length) -> Length {
        Length::from_si(self.at(x.si()).z)
    }

    /// The highest place of the ground up to a distance aft; the first grade counts from its end.
    pub fn highest_up_to(&self, x: Length) -> GroundPoint {
        let breaks = self.grades.iter().filter(|grade| grade.begins && grade.from_x < x.si());
        let tops = breaks
            .map(|grade| GroundPoint { x: Length::from_si(grade.from_x), z: Length::from_si(grade.from_z) });
        let here = GroundPoint { x, z: self.height(x) };
        tops.fold(here, |top, other| if other.z > top.z { other } else { top })
    }

    /// Where the first grade ends: at the first break, or where its vertical curve begins.
    pub(super) fn first_bend(&self) -> f64 {
        self.grades[0].to_x
    }

    /// The ground at a distance aft; at a break, that of the grade aft of it.
    pub(super) fn at(&self, x: f64) -> Footing {
        let aft_of = self.grades.partition_point(|grade| !grade.begins || grade.from_x <= x);
        self.grades[aft_of.max(1) - 1].footing(x)
    }

    /// The point of the ground that lies `distance` straight ahead of a point on it, going forward.
    pub(super) fn ahead(&self, from: Footing, distance: f64) -> Footing {
        let behind = |grade: &&Grade| !grade.begins || grade.from_x < from.x;
        let candidates = self.grades.iter().filter(behind).rev();
        for grade in candidates {
            let reached = (grade.from_x - from.x).hypot(grade.from_z - from.z);
            if grade.begins && reached < distance {
                continue;
            }
            // |from + u − point| = distance along the grade: u² + 2 u w·τ + w² = distance², w from the point.
            let (wx, wz) = (grade.from_x - from.x, grade.from_z - from.z);
            let along = wx * grade.cos + wz * grade.sin;
            let root = (along * along - wx * wx - wz * wz + distance * distance).max(0.0).sqrt();
            return grade.footing(grade.from_x + (-along - root) * grade.cos);
        }
        from
    }
}

impl Grade {
    fn footing(&self, x: f64) -> Footing {
        let z = self.from_z + (x - self.from_x) * self.sin / self.cos;
        Footing { x, z, sin: self.sin, cos: self.cos, breaks_before: self.breaks_before }
    }

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
        let place = 2 * self.breaks_before;
        on.then_some(Hub { distance, sin: self.sin, cos: self.cos, curvature: 0.0, place })
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
        // On a sharp break's arc the wheel is between its two sides.
        let place = 2 * self.breaks_before - u16::from(self.sharp);
        Some(Hub { distance, sin, cos, curvature: 1.0 / radius, place })
    }
}
