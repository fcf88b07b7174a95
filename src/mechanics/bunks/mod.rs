//! Bunks: how a vee bottom lies on them, what they press on it with, and what that does to wood and steel.
//!
//! Stations run aft of the ball along the frame, heights up from level ground, breadths from the centreline.
//!
//! | symbol | meaning |
//! |---|---|
//! | `β` | deadrise: the bottom's angle to either side above level |
//! | `y`, `z` | a bunk's outer upper edge: breadth and height |
//! | `t` | a bunk's breadth across, as it lies |
//! | `L` | length of the contact between bottom and bunks |
//! | `e` | how far aft of the contact's middle the boat's centre of gravity lies |
//! | `W` | weight of the boat |
//! | `R`, `T` | what one bunk presses on a crossmember with: down, and outward |
//! | `b`, `d` | a board's breadth and depth as it lies |
//! | `M`, `V` | its bending moment and shear |
//!
//! The boat is rigid and touches all along; the bunks are an elastic bed that pushes at right angles to the bottom
//! and does not rub. The bunks' own weight is left out. Valid where the bottom is straight along the contact and no steeper than the bunk's bevel can
//! follow. Bow bunks and guides carry nothing.
//!
//! Source: statics and strength of materials; the middle third (kern) of an elastic bed is in any text on the
//! strength of materials.

pub mod beam;
pub mod wood;

use crate::quantity::{Angle, Length, LineLoad, Moment, Pressure, Quantity, Weight};
use beam::SpreadLoad;
use uom::si::torque::newton_meter;
use wood::{Lay, Section};

/// A boat that lies on less than this, in metres, tips.
const LEAST_BEARING: f64 = 1e-3;

/// Halving a trailer's length so often leaves less than rounding does.
const MOST_HALVINGS: usize = 60;

/// A gap that is short by less than this, in metres, is so by rounding.
const ROUNDING: f64 = 1e-9;

/// A stretch along the trailer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stretch {
    /// Its forward end.
    pub forward: Length,
    /// Its aft end.
    pub aft: Length,
}

impl Stretch {
    /// From end to end.
    pub fn length(self) -> Length {
        self.aft - self.forward
    }

    /// Half way.
    pub fn middle(self) -> Length {
        (self.forward + self.aft) / 2.0
    }

    /// What it has in common with another; `None` where that has no length.
    pub fn overlap(self, other: Self) -> Option<Self> {
        let forward = self.forward.max(other.forward);
        let aft = self.aft.min(other.aft);
        (forward < aft).then_some(Self { forward, aft })
    }

    /// Whether a station lies on it, its ends included.
    pub fn contains(self, station: Length) -> bool {
        self.forward <= station && station <= self.aft
    }
}

/// What a boat presses on its bunks with, both together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bed {
    /// Where bottom and bunks touch.
    pub contact: Stretch,
    /// The part of it that bears: all of it, or what a far centre of gravity leaves.
    pub bearing: Stretch,
    /// The load at the contact's forward end.
    pub forward: LineLoad,
    /// The load at its aft end.
    pub aft: LineLoad,
    /// How far aft of the contact's middle the centre of gravity lies.
    pub eccentricity: Length,
}

/// What a boat presses on its bunks with, or `None` where its centre of gravity lies off the contact, or within
/// a millimetre of its end: it would tip.
///
/// While the centre of gravity lies in the middle third of the contact the load varies along all of it,
/// `W/L (1 ± 6 e/L)` at the ends. Past that only `3 (L/2 − |e|)` bears, at `2 W / (3 (L/2 − |e|))` at its end.
///
/// ```
/// use bunkline::mechanics::bunks::{Stretch, press};
/// use bunkline::quantity::{Length, Quantity, Weight};
///
/// let metres = Length::from_si;
/// let contact = Stretch { forward: metres(4.0), aft: metres(8.0) };
/// // At the edge of the middle third one end just bears nothing, the other twice the mean.
/// let bed = press(Weight::from_si(6000.0), metres(6.0 + 4.0 / 6.0), contact).expect("it lies on them");
/// assert!(bed.forward.si().abs() < 1e-9);
/// assert!((bed.aft.si() - 3000.0).abs() < 1e-9);
/// ```
pub fn press(weight: Weight, at: Length, contact: Stretch) -> Option<Bed> {
    let (w, length) = (weight.si(), contact.length().si());
    let e = (at - contact.middle()).si();
    let beyond = length / 2.0 - e.abs();
    // Written so that what is not a number tips too.
    let lies = beyond > LEAST_BEARING;
    if !lies {
        return None;
    }
    let (forward, aft, bearing) = if e.abs() <= length / 6.0 {
        // W/L (1 ± 6 e/L)
        let tilt = 6.0 * e / length;
        (w / length * (1.0 - tilt), w / length * (1.0 + tilt), contact)
    } else {
        // 3 (L/2 − |e|) bears; peak 2 W / (3 (L/2 − |e|))
        let bears = 3.0 * beyond;
        let peak = 2.0 * w / bears;
        let bears = Length::from_si(bears);
        if e > 0.0 {
            (0.0, peak, Stretch { forward: contact.aft - bears, ..contact })
        } else {
            (peak, 0.0, Stretch { aft: contact.forward + bears, ..contact })
        }
    };
    Some(Bed {
        contact,
        bearing,
        forward: LineLoad::from_si(forward),
        aft: LineLoad::from_si(aft),
        eccentricity: Length::from_si(e),
    })
}

/// A stretch that bears, and how stiff its bed is beside that of the others.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bearing {
    /// Where.
    pub stretch: Stretch,
    /// Load a length for each length that it is pressed, as a plain number: only how they compare matters.
    pub stiffness: f64,
}

/// What one rigid boat presses on each of several stretches with, at its forward and its aft end, or `None` where it would
/// tip.
///
/// `q = k (α + δ x)`, and nothing where that would pull. The line `α + δ x` is that at which all loads together come to the boat's
/// weight and centre of gravity. For a line that vanishes at a station `n`, and presses on one side of it, the centre of
/// all loads goes toward that side as `n` does: so `n` is found by halving.
pub fn press_on(weight: Weight, at: Length, bearings: &[Bearing]) -> Option<Vec<[LineLoad; 2]>> {
    let ends = |bearing: &Bearing| [bearing.stretch.forward.si(), bearing.stretch.aft.si()];
    let forward = bearings.iter().map(|bearing| ends(bearing)[0]).fold(f64::INFINITY, f64::min);
    let aft = bearings.iter().map(|bearing| ends(bearing)[1]).fold(f64::NEG_INFINITY, f64::max);
    let (w, x) = (weight.si(), at.si());
    // Written so that what is not a number tips too.
    let lies = x - forward > LEAST_BEARING && aft - x > LEAST_BEARING;
    if !lies {
        return None;
    }
    let line =
        whole_line(w, x, bearings, [forward, aft]).or_else(|| part_line(w, x, bearings, [forward, aft]))?;
    let load = |bearing: &Bearing, x: f64| LineLoad::from_si(bearing.stiffness * line.at(x).max(0.0));
    Some(bearings.iter().map(|bearing| ends(bearing).map(|end| load(bearing, end))).collect())
}

/// `α + δ x` about a station of its own.
struct Line {
    about: f64,
    value: f64,
    slope: f64,
}

impl Line {
    fn at(&self, x: f64) -> f64 {
        self.value + self.slope * (x - self.about)
    }
}

/// Σ ∫k (x − about)^p over what lies within these ends, for p = 0, 1, 2.
fn moments_of(bearings: &[Bearing], about: f64, [from, to]: [f64; 2]) -> [f64; 3] {
    let mut sums = [0.0; 3];
    for bearing in bearings {
        let a = bearing.stretch.forward.si().max(from) - about;
        let b = bearing.stretch.aft.si().min(to) - about;
        if a < b {
            sums[0] += bearing.stiffness * (b - a);
            sums[1] += bearing.stiffness * (b * b - a * a) / 2.0;
            sums[2] += bearing.stiffness * (b * b * b - a * a * a) / 3.0;
        }
    }
    sums
}

/// The line that presses everywhere, if it does: two equations for two unknowns.
fn whole_line(w: f64, x: f64, bearings: &[Bearing], ends: [f64; 2]) -> Option<Line> {
    let [s0, s1, s2] = moments_of(bearings, x, ends);
    // W = α S0 + δ S1, 0 = α S1 + δ S2 about the boat's centre of gravity
    let determinant = s0 * s2 - s1 * s1;
    let line = Line { about: x, value: w * s2 / determinant, slope: -w * s1 / determinant };
    (line.at(ends[0]) >= 0.0 && line.at(ends[1]) >= 0.0).then_some(line)
}

/// The line that leaves one end idle: the one toward which it falls when all of it presses.
fn part_line(w: f64, x: f64, bearings: &[Bearing], [forward, aft]: [f64; 2]) -> Option<Line> {
    let [_, s1, _] = moments_of(bearings, x, [forward, aft]);
    let rises_aft = s1 < 0.0;
    let pressed = |n: f64| if rises_aft { [n, aft] } else { [forward, n] };
    // ∫k (x − n)(x − n) / ∫k (x − n): how far from n the loads' centre lies
    let centre = |n: f64| {
        let [_, m1, m2] = moments_of(bearings, n, pressed(n));
        n + m2 / m1
    };
    let (mut low, mut high) = (forward, aft);
    for _ in 0..MOST_HALVINGS {
        let middle = f64::midpoint(low, high);
        *(if centre(middle) < x { &mut low } else { &mut high }) = middle;
    }
    let n = f64::midpoint(low, high);
    let [_, m1, _] = moments_of(bearings, n, pressed(n));
    let slope = w / m1;
    slope.is_finite().then_some(Line { about: n, value: 0.0, slope })
}

impl Bed {
    /// The greatest load a length.
    pub fn peak(&self) -> LineLoad {
        self.forward.max(self.aft)
    }

    /// The load on a bunk that carries this share, as a beam from `from` that is `length` long sees it.
    ///
    /// Touching at an end, rounding would put it off the beam: it is kept on it.
    pub fn on_beam(&self, share: f64, from: Length, length: Length) -> SpreadLoad {
        let along = |station: Length| (station - from).max(Length::default()).min(length);
        SpreadLoad {
            from: along(self.bearing.forward),
            to: along(self.bearing.aft),
            at_from: self.forward * share,
            at_to: self.aft * share,
        }
    }
}

/// The share of the boat that the more heavily loaded bunk carries, its centre of gravity `side` off the centreline
/// to starboard, the bunks at these breadths.
///
/// The two balance about it: the starboard one carries `(y_port + side) / (y_port + y_starboard)`. A centre of
/// gravity beyond a bunk leaves that one all of it.
pub fn heavier_share(side: Length, port: Length, starboard: Length) -> f64 {
    let of_starboard = ((port + side) / (port + starboard)).value;
    of_starboard.max(1.0 - of_starboard).min(1.0)
}

/// Side thrust of a vee bottom, outward: `vertical tan β`.
pub fn side_thrust(vertical: Weight, deadrise: Angle) -> Weight {
    vertical * deadrise.si().tan()
}

/// Pull on the inner bolts of a bracket's foot, none where it stands firm: `(T h − R w/2)/w`.
///
/// The side thrust `T` acts at the bunk's top, `h` above the foot, and turns the bracket about its outer bolts, `w` from the inner
/// ones; what it carries, `R`, holds it down midway.
pub fn foot_pull(vertical: Weight, thrust: Weight, height: Length, foot: Length) -> Weight {
    let pull = (thrust.si() * height.si() - vertical.si() * foot.si() / 2.0) / foot.si();
    Weight::from_si(pull.max(0.0))
}

/// Force at right angles to the bottom: `vertical / cos β`.
pub fn normal_force(vertical: Weight, deadrise: Angle) -> Weight {
    vertical / deadrise.si().cos()
}

/// How much lower a bunk's inner upper edge is than its outer one.
///
/// On edge the bevel drops `t tan β` across the board; flat the board itself tilts, and drops `t sin β`.
pub fn drop(breadth: Length, deadrise: Angle, lay: Lay) -> Length {
    match lay {
        Lay::OnEdge => breadth * deadrise.si().tan(),
        Lay::Flat => breadth * deadrise.si().sin(),
    }
}

/// What a bunk presses on the hull with: its line load over the breadth that touches.
///
/// On edge `w / cos β` presses on `t / cos β`; flat it presses on `t`.
pub fn bearing_pressure(line_load: LineLoad, breadth: Length, deadrise: Angle, lay: Lay) -> Pressure {
    let w_over_t = line_load.si() / breadth.si();
    Pressure::from_si(match lay {
        Lay::OnEdge => w_over_t,
        Lay::Flat => w_over_t / deadrise.si().cos(),
    })
}

/// A board as a beam under a vee bottom: its size as it bends, cut down to its smaller depth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bevelled {
    /// Across, as it lies.
    pub breadth: Length,
    /// Up and down at its outer edge.
    pub outer_depth: Length,
    /// Up and down at its inner edge, where the bevel has taken most.
    pub inner_depth: Length,
    /// How it lies.
    pub lay: Lay,
    /// The deadrise that it is cut to.
    pub deadrise: Angle,
    /// The deadrise that presses on it sideways: the greatest along it, where the bottom twists.
    pub steepest: Angle,
}

impl Bevelled {
    /// A board cut for a deadrise; `None` where the bevel leaves nothing of its inner edge. The bottom may be as steep
    /// as `steepest` elsewhere along it, packed to touch.
    pub fn cut(breadth: Length, depth: Length, lay: Lay, deadrise: Angle, steepest: Angle) -> Option<Self> {
        let inner_depth = match lay {
            Lay::OnEdge => depth - drop(breadth, deadrise, lay),
            Lay::Flat => depth,
        };
        let outer_depth = depth;
        (inner_depth.si() > 0.0).then_some(Self {
            breadth,
            outer_depth,
            inner_depth,
            lay,
            deadrise,
            steepest,
        })
    }

    /// The angle that is cut along its top.
    pub fn bevel(&self) -> Angle {
        match self.lay {
            Lay::OnEdge => self.deadrise,
            Lay::Flat => Angle::from_si(0.0),
        }
    }

    /// Its section for bending up and down, at its smaller depth.
    pub fn section(&self) -> Section {
        Section::rectangle(self.breadth, self.inner_depth)
    }

    /// How far it bends in all where it bends down by this.
    ///
    /// On edge the side thrust bends it outward too, by `tan β` times as much load on `(b / d)²` times the stiffness:
    /// `√(δ² + (δ tan β d² / b²)²)`. Flat it bends at right angles to its tilt: `δ / cos β`.
    pub fn whole_deflection(&self, down: Length) -> Length {
        let (b, d) = (self.breadth.si(), self.inner_depth.si());
        match self.lay {
            Lay::OnEdge => down * 1.0_f64.hypot(self.steepest.si().tan() * d * d / (b * b)),
            Lay::Flat => down / self.steepest.si().cos(),
        }
    }

    /// Stress of the extreme fibre from bending up and down: `M / S`, `S = b d² / 6` at the smaller depth.
    ///
    /// A board that lies flat is pressed at right angles to its tilted face: `M / cos β`.
    pub fn bending_stress(&self, moment: Moment) -> Pressure {
        let moment = match self.lay {
            Lay::OnEdge => moment.value,
            Lay::Flat => moment.value / self.steepest.si().cos(),
        };
        Pressure::from_si(moment.abs() / self.section().modulus.si())
    }

    /// Stress of the extreme fibre from the vee's side thrust, held at the same brackets: `M tan β / (d b² / 6)`.
    ///
    /// None of it in a board that lies flat against the bottom.
    pub fn side_stress(&self, moment: Moment) -> Pressure {
        match self.lay {
            Lay::OnEdge => {
                let sideways = Section::rectangle(self.inner_depth, self.breadth);
                Pressure::from_si(moment.value.abs() * self.steepest.si().tan() / sideways.modulus.si())
            }
            Lay::Flat => Pressure::from_si(0.0),
        }
    }

    /// Shear stress along the grain at the section's middle: `3/2 V / (b d cos β)`, the vee's side thrust included.
    pub fn shear_stress(&self, shear: Weight) -> Pressure {
        Pressure::from_si(1.5 * shear.si().abs() / (self.section().area.value * self.steepest.si().cos()))
    }
}

/// Where a bunk stands on a crossmember that spans from rail to rail.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Standing {
    /// The bunk's middle from the centreline.
    pub bunk: Length,
    /// A rail's middle from the centreline.
    pub rail: Length,
    /// The bunk's outer upper edge above the crossmember.
    pub height: Length,
    /// How much lower the crossmember's middle lies than where the bunk stands.
    pub drop: Length,
}

/// The greatest bending moment of a crossmember under two like bunks: simply held at the rails.
///
/// Outside the bunks `R (y_rail − y_bunk)`, between them `R (y_rail − y_bunk) − T h`: side thrust at the height `h`
/// pries the brackets apart, and more so over the middle of a crossmember that drops. It relieves a crossmember whose
/// bunks stand inside the rails and adds to one whose bunks stand outside.
pub fn crossmember_moment(reaction: Weight, thrust: Weight, standing: Standing) -> Moment {
    let arm = (standing.rail - standing.bunk).si();
    let outside = reaction.si() * arm;
    let between = |height: Length| outside - thrust.si() * height.si();
    let beside = between(standing.height);
    let in_the_middle = between(standing.height + standing.drop);
    Moment::new::<newton_meter>(outside.abs().max(beside.abs()).max(in_the_middle.abs()))
}

/// The hull beside a fender.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Beside {
    /// The keel above ground.
    pub keel: Length,
    /// The deadrise.
    pub deadrise: Angle,
    /// The chine from the centreline.
    pub chine: Length,
    /// The chine above the keel.
    pub chine_height: Length,
    /// Half the boat's beam: the sides flare out to it above the chine.
    pub half_beam: Length,
}

/// A fender's inner upper corner.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fender {
    /// From the centreline.
    pub half_breadth: Length,
    /// Above ground.
    pub height: Length,
}

/// How far a hull is clear of a fender; negative where they overlap that way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gap {
    /// From the fender's inner edge to the chine, or to half the beam where the fender reaches above the chine.
    pub sideways: Length,
    /// From the fender's top to the lowest part of the hull over it: the bottom over its inner edge, or the chine.
    pub upward: Length,
    /// From the fender's top up to the chine.
    pub to_chine: Length,
    /// From the fender's inner edge to the chine.
    pub beside_chine: Length,
    /// From the fender's inner edge to the widest part of the hull.
    pub to_beam: Length,
}

impl Gap {
    /// The clearance as a tape has it, plumb or level: clear one way is clear. Over the bottom's slope the true distance
    /// is less, by cos β.
    pub fn clearance(self) -> Length {
        self.sideways.max(self.upward)
    }

    /// How much the hull must rise at least for a clearance, negative how much it could come down; `None` where it
    /// is clear sideways at any height.
    pub fn rise_for(self, wanted: Length) -> Option<Length> {
        let wide_enough = |sideways: Length| (wanted - sideways).si() < ROUNDING;
        if wide_enough(self.to_beam) {
            return None;
        }
        let over = wanted - self.upward;
        // Where its chine fits between the fenders, they may reach as high as that.
        Some(if wide_enough(self.beside_chine) { over.min(-self.to_chine) } else { over })
    }
}

/// The gap between a hull and a fender. `play` moves the hull toward the fender, `sink` lowers it.
pub fn gap(hull: Beside, fender: Fender, play: Length, sink: Length) -> Gap {
    let keel = hull.keel - sink;
    let chine = keel + hull.chine_height;
    let inner = fender.half_breadth - play;
    let to_beam = inner - hull.half_beam.max(hull.chine);
    let beside_chine = inner - hull.chine;
    // A fender as high as the chine, but for rounding, stands beside it.
    let sideways = if (fender.height - chine).si() > ROUNDING { to_beam } else { beside_chine };
    // The bottom over the fender's inner edge: keel + y tan β, and nothing of it is above the chine.
    let over_edge = keel + inner * hull.deadrise.si().tan();
    let upward = over_edge.min(chine) - fender.height;
    Gap { sideways, upward, to_chine: chine - fender.height, beside_chine, to_beam }
}
