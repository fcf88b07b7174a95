//! The ground under the wheels, and the line that a wheel's hub follows over it.
//!
//! | symbol | meaning |
//! |---|---|
//! | `R` | wheel radius, hub to ground |
//! | `α` | slope angle of the hub line, negative going down aft |
//! | `ℓ` | distance from a frame point down the frame normal to the hub line |
//!
//! The ground is a chain of straight grades and vertical curves, each curve a parabola. A wheel of radius `R` touches it
//! from above, so its hub follows the upper edge of all discs of radius `R` set on the ground: every piece moved out
//! by `R`, an arc about each crest, and at a sag the point where two moved pieces cross. Going down from the
//! frame, the first of these that is met is the hub: crests, sags and pieces too short for
//! the wheel need no case of their own.

use crate::numeric::root::Bracket;
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

/// The ground as a chain of straight grades and vertical curves; the first and the last piece go on for ever.
#[derive(Debug, Clone, PartialEq)]
pub struct Terrain {
    pieces: Cow<'static, [Piece]>,
}

/// One straight grade or one vertical curve, from its forward end.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Piece {
    from_x: f64,
    from_z: f64,
    to_x: f64,
    /// No crest or sag at the forward end of the first piece.
    begins: bool,
    /// `dz/dx` at its forward end.
    slope: f64,
    /// `d²z/dx²`, zero on a straight grade.
    bend: f64,
    /// Which way it goes at its forward end and at its aft end.
    heading: [Heading; 2],
    /// How many breaks that are no part of a vertical curve lie before it.
    breaks_before: u16,
    /// Whether the break at its forward end is one of them.
    sharp: bool,
}

/// A slope's angle, going aft.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Heading {
    sin: f64,
    cos: f64,
}

/// One run of a ramp.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RampRun {
    /// Its horizontal length.
    pub length: Length,
    /// Its grade, positive downhill going aft.
    pub grade: Slope,
}

const LEVEL_HEADING: Heading = Heading { sin: 0.0, cos: 1.0 };

const LEVEL: Piece = Piece {
    from_x: 0.0,
    from_z: 0.0,
    to_x: f64::INFINITY,
    begins: false,
    slope: 0.0,
    bend: 0.0,
    heading: [LEVEL_HEADING; 2],
    breaks_before: 0,
    sharp: false,
};

static ALL_LEVEL: [Piece; 1] = [LEVEL];

/// With more pieces than this, only those near a wheel are looked at.
const FEW_PIECES: usize = 3;

/// Hubs farther from the frame line than this, in metres, are looked for over all pieces.
const NEAR_FRAME: f64 = 2.0;

/// Points computed from a grade of 100 % give it back within this, rounded.
const STEEPEST: f64 = 1.0 + 1e-9;

/// Once Newton's step to a place on a curve is this short, in metres, the next would be far below rounding: each is of
/// the order of the square of the one before.
const CURVE_STEP: f64 = 1e-9;
/// Far more steps than any place on a curve takes.
const MOST_CURVE_STEPS: usize = 60;

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
        Self { pieces: Cow::Borrowed(&ALL_LEVEL) }
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
        let mut pieces: Vec<Piece> = Vec::with_capacity(points.len() - 1);
        for (i, pair) in points.windows(2).enumerate() {
            let (run, rise) = ((pair[1].x - pair[0].x).si(), (pair[1].z - pair[0].z).si());
            check_run(run, rise, i + 2)?;
            let start = (pair[0].x.si(), pair[0].z.si());
            let before = pieces.last().copied();
            pieces.push(Piece::after(before, start, rise / run, 0.0));
        }
        Ok(Self::of(pieces))
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
        let mut pieces = vec![LEVEL];
        let (mut x, mut z, mut before) = (0.0, 0.0, 0.0);
        for (i, run) in runs.iter().enumerate() {
            let (length, after) = (run.length.si(), -run.grade.si());
            check_run(length, length * after, i + 2)?;
            let half = ease / 2.0;
            if after != before && ease > 0.0 {
                let start = (x - half, z - before * half);
                pieces.push(Piece::after(pieces.last().copied(), start, before, (after - before) / ease));
            }
            if after != before {
                pieces.push(Piece::after(pieces.last().copied(), (x + half, z + after * half), after, 0.0));
            }
            x += length;
            z += length * after;
            before = after;
        }
        Ok(Self::of(pieces))
    }

    /// Each piece ends where the next begins.
    fn of(mut pieces: Vec<Piece>) -> Self {
        for i in 1..pieces.len() {
            let next = pieces[i].from_x;
            pieces[i - 1].end_at(next);
        }
        Self { pieces: Cow::Owned(pieces) }
    }
}

/// Whether a run up to a point of this number goes aft, no steeper than 100 %.
fn check_run(run: f64, rise: f64, point: usize) -> Result<(), BadTerrain> {
    if !(run > 0.0 && run.is_finite() && rise.is_finite()) {
        return Err(BadTerrain::NotAft(point));
    }
    if rise.abs() > run * STEEPEST {
        return Err(BadTerrain::TooSteep(point));
    }
    Ok(())
}

impl Heading {
    fn of(slope: f64) -> Self {
        let length = (slope * slope + 1.0).sqrt();
        Self { sin: slope / length, cos: 1.0 / length }
    }
}

impl Piece {
    /// A piece that begins at a point, after another or as the first of all; so far without an end.
    fn after(before: Option<Self>, (from_x, from_z): (f64, f64), slope: f64, bend: f64) -> Self {
        // A vertical curve goes on as what lies before it, and so does what follows it.
        let sharp = before.is_some_and(|before| bend == 0.0 && before.bend == 0.0);
        let breaks_before = before.map_or(0, |before| before.breaks_before) + u16::from(sharp);
        let heading = [Heading::of(slope); 2];
        let to_x = f64::INFINITY;
        Self { from_x, from_z, to_x, begins: before.is_some(), slope, bend, heading, breaks_before, sharp }
    }

    fn end_at(&mut self, x: f64) {
        self.to_x = x;
        self.heading[1] = Heading::of(self.slope_at(x));
    }

    fn slope_at(&self, x: f64) -> f64 {
        if self.bend == 0.0 { self.slope } else { self.slope + self.bend * (x - self.from_x) }
    }

    fn height_at(&self, x: f64) -> f64 {
        let u = x - self.from_x;
        self.from_z + u * (self.slope + self.bend * u / 2.0)
    }

    fn heading_at(&self, x: f64) -> Heading {
        if self.bend == 0.0 { self.heading[0] } else { Heading::of(self.slope_at(x)) }
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
    /// How sharply the hub line bends down there: `1/R` on a crest's arc, 0 over a straight grade.
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
        if self.pieces.len() > FEW_PIECES {
            // A hub this near the frame line lies beside the ray's start, and its foot within a radius of it.
            let beside = radius + NEAR_FRAME * ray.sin.abs();
            let near = self.pieces.iter().skip_while(|piece| piece.to_x < ray.x - beside);
            let near = near.take_while(|piece| !piece.begins || piece.from_x <= ray.x + beside);
            let hub = first_hub(near, ray, radius);
            if hub.distance.abs() <= NEAR_FRAME {
                return hub;
            }
        }
        first_hub(self.pieces.iter(), ray, radius)
    }
}

/// The hub over these pieces alone.
fn first_hub<'a>(pieces: impl Iterator<Item = &'a Piece>, ray: Ray, radius: f64) -> Hub {
    let mut first = Hub { distance: f64::INFINITY, sin: 0.0, cos: 1.0, curvature: 0.0, place: 0 };
    for piece in pieces {
        if piece.begins {
            first = nearer(first, piece.crest(ray, radius));
        }
        if piece.bend == 0.0 {
            first = nearer(first, piece.straight(ray, radius));
        } else {
            first = piece.curved(ray, radius).into_iter().fold(first, nearer);
        }
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
    /// `sin α` and `cos α` of the ground under it.
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

    /// The highest place of the ground up to a distance aft; the first piece counts from its end.
    pub fn highest_up_to(&self, x: Length) -> GroundPoint {
        let point = |x: f64| GroundPoint { x: Length::from_si(x), z: Length::from_si(self.at(x).z) };
        let begun = self.pieces.iter().filter(|piece| piece.begins && piece.from_x < x.si());
        // A curve may be highest within, where its slope is zero.
        let tops = begun.flat_map(|piece| {
            let turn = piece.from_x - piece.slope / piece.bend;
            let inside = turn > piece.from_x && turn < piece.to_x.min(x.si());
            [Some(piece.from_x), inside.then_some(turn)].into_iter().flatten()
        });
        tops.map(point).fold(point(x.si()), |top, other| if other.z > top.z { other } else { top })
    }

    /// The least height of a straight line between two points, the forward one first, above the ground; both ends and
    /// what lies between count.
    pub fn least_below(&self, [from, to]: [GroundPoint; 2]) -> Length {
        let (x0, z0) = (from.x.si(), from.z.si());
        let run = (to.x - from.x).si();
        let slope = if run > 0.0 { (to.z - from.z).si() / run } else { 0.0 };
        let above = |x: f64| z0 + slope * (x - x0) - self.at(x).z;
        // Nearest over a break, or on a curve where the ground runs as the line does.
        let between = self.pieces.iter().filter(|piece| piece.begins).flat_map(|piece| {
            let alike = piece.from_x + (slope - piece.slope) / piece.bend;
            [Some(piece.from_x), (alike > piece.from_x && alike < piece.to_x).then_some(alike)]
        });
        let inside = between.flatten().filter(|x| (x0..=to.x.si()).contains(x));
        Length::from_si([x0, to.x.si()].into_iter().chain(inside).map(above).fold(f64::INFINITY, f64::min))
    }

    /// Where the first piece ends: at the first break, or where its vertical curve begins.
    pub(super) fn first_bend(&self) -> f64 {
        self.pieces[0].to_x
    }

    /// Where the last piece begins: at the last break, or where its vertical curve ends. None where there is none.
    pub fn last_bend(&self) -> Option<Length> {
        let last = self.pieces.last().filter(|piece| piece.begins)?;
        Some(Length::from_si(last.from_x))
    }

    /// Whether one straight grade reaches from one place to another.
    pub(super) fn is_straight(&self, from: f64, to: f64) -> bool {
        let piece = self.piece(from);
        piece.bend == 0.0 && to <= piece.to_x
    }

    /// The ground at a distance aft; at a break, that of the piece aft of it.
    pub(super) fn at(&self, x: f64) -> Footing {
        self.piece(x).footing(x)
    }

    /// The piece at a distance aft; at a break, the one aft of it.
    fn piece(&self, x: f64) -> &Piece {
        let begun = self.pieces.iter().rev().find(|piece| !piece.begins || piece.from_x <= x);
        begun.unwrap_or(&LEVEL)
    }

    /// The point of the ground that lies `distance` straight ahead of a point on it, going forward.
    pub(super) fn ahead(&self, from: Footing, distance: f64) -> Footing {
        let behind = |piece: &&Piece| !piece.begins || piece.from_x < from.x;
        let reaches = |piece: &&Piece| {
            let (dx, dz) = (piece.from_x - from.x, piece.from_z - from.z);
            !piece.begins || dx * dx + dz * dz >= distance * distance
        };
        let piece = self.pieces.iter().filter(behind).rev().find(reaches);
        piece.map_or(from, |piece| piece.footing(piece.at_distance(from, distance)))
    }
}

impl Piece {
    fn footing(&self, x: f64) -> Footing {
        let Heading { sin, cos } = self.heading_at(x);
        Footing { x, z: self.height_at(x), sin, cos, breaks_before: self.breaks_before }
    }

    /// Where it lies `distance` ahead of a point that is aft of its forward end.
    fn at_distance(&self, from: Footing, distance: f64) -> f64 {
        if self.bend == 0.0 {
            let Heading { sin, cos } = self.heading[0];
            // |from + u − point| = distance along the grade: u² + 2 u w·τ + w² = distance², w from the point.
            let (wx, wz) = (self.from_x - from.x, self.from_z - from.z);
            let along = wx * cos + wz * sin;
            let root = (along * along - wx * wx - wz * wz + distance * distance).max(0.0).sqrt();
            return self.from_x + (-along - root) * cos;
        }
        // distance² − (x − x0)² − (z − z0)² rises with x up to the point.
        let aft = self.to_x.min(from.x);
        on_curve([self.from_x, aft], (from.x - distance).clamp(self.from_x, aft), |x| {
            let (dx, dz) = (x - from.x, self.height_at(x) - from.z);
            (distance * distance - dx * dx - dz * dz, -2.0 * (dx + dz * self.slope_at(x)))
        })
    }

    /// The hubs with the wheel's foot on the curve: one, but two where it is too tight for the wheel.
    fn curved(&self, ray: Ray, radius: f64) -> [Option<Hub>; 2] {
        let place = 2 * self.breaks_before;
        if radius * self.bend <= 1.0 {
            return [self.curve(ray, radius, [self.from_x, self.to_x], place), None];
        }
        // In a sag the wheel stands nowhere that bends more sharply than it does, z'' > (1 + z'²)^(3/2) / R.
        let tight = ((radius * self.bend).cbrt().powi(2) - 1.0).max(0.0).sqrt();
        let with_slope = |slope: f64| self.from_x + (slope - self.slope) / self.bend;
        let (fore, aft) = (with_slope(-tight).min(self.to_x), with_slope(tight).max(self.from_x));
        // Either side of it is a place of its own.
        let fore = self.curve(ray, radius, [self.from_x, fore], place);
        [fore, self.curve(ray, radius, [aft, self.to_x], place + 1)]
    }

    /// The hub with the wheel's foot on the straight.
    fn straight(&self, ray: Ray, radius: f64) -> Option<Hub> {
        let Heading { sin, cos } = self.heading[0];
        // The grade's normal is ν = (−sin α, cos α); the moved grade is where ν·(P − from) = R.
        let height = -(ray.x - self.from_x) * sin + (ray.z - self.from_z) * cos;
        // ν·n = cos(φ + α)
        let closing = cos * ray.cos - sin * ray.sin;
        if closing <= 0.0 {
            return None;
        }
        let distance = (height - radius) / closing;
        let foot = ray.x - distance * ray.sin + radius * sin;
        let on = (!self.begins || foot >= self.from_x) && foot <= self.to_x;
        let place = 2 * self.breaks_before;
        on.then_some(Hub { distance, sin, cos, curvature: 0.0, place })
    }

    /// The hub with the wheel's foot on a part of the curve where it can stand.
    fn curve(&self, ray: Ray, radius: f64, part: [f64; 2], place: u16) -> Option<Hub> {
        // How far the hub over a foot at x lies aft of the ray, square to it: (P + R ν − O)·(cos φ, −sin φ), with
        // ν = (−sin α, cos α). It grows with x as cos(φ + α) / cos α (1 − R z'' cos³ α).
        let hub = |x: f64, Heading { sin, cos }: Heading| {
            (x - radius * sin - ray.x, self.height_at(x) + radius * cos - ray.z)
        };
        let aside = |x: f64, heading: Heading| {
            let (dx, dz) = hub(x, heading);
            dx * ray.cos - dz * ray.sin
        };
        let end = |i: usize| {
            if part[i] == [self.from_x, self.to_x][i] { self.heading[i] } else { self.heading_at(part[i]) }
        };
        let ends = [aside(part[0], end(0)), aside(part[1], end(1))];
        if !(part[0] < part[1] && ends[0] <= 0.0 && ends[1] >= 0.0) {
            return None;
        }
        let straight = part[0] - ends[0] * (part[1] - part[0]) / (ends[1] - ends[0]);
        let foot = on_curve(part, straight, |x| {
            let heading = self.heading_at(x);
            let Heading { sin, cos } = heading;
            let closing = cos * ray.cos - sin * ray.sin;
            (aside(x, heading), closing / cos * (1.0 - radius * self.bend * cos.powi(3)))
        });
        let heading = self.heading_at(foot);
        let (dx, dz) = hub(foot, heading);
        // The ground bends down by κ = −z'' cos³ α, the hub line by κ / (1 + R κ).
        let bends = -self.bend * heading.cos.powi(3);
        Some(Hub {
            distance: -dx * ray.sin - dz * ray.cos,
            sin: heading.sin,
            cos: heading.cos,
            curvature: bends / (1.0 + radius * bends),
            place,
        })
    }

    /// The hub with the wheel turning about the break at the piece's forward end.
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

/// Where a function that rises along a part of a curve is zero, by Newton's steps from a first guess; `value` returns
/// the function and how it grows.
fn on_curve(part: [f64; 2], guess: f64, value: impl Fn(f64) -> (f64, f64)) -> f64 {
    let mut bracket = Bracket::new(part[0], part[1]);
    let mut x = guess;
    for _ in 0..MOST_CURVE_STEPS {
        let (value, growth) = value(x);
        let newton = x - value / growth;
        if (newton - x).abs() <= CURVE_STEP {
            return newton.clamp(part[0], part[1]);
        }
        bracket.look(x, value);
        let Some(next) = bracket.next(Some(newton)) else { break };
        x = next;
    }
    x
}
