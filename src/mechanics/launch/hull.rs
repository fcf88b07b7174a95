//! What a hull displaces under an inclined water surface.
//!
//! | symbol | meaning |
//! |---|---|
//! | `s`, `z`, `y` | station forward of the transom, height above the keel line, half-breadth |
//! | `d`, `t` | draft at the transom normal to the keel line; tangent of the trim |
//! | `h` | height of the water surface at a station, `d − t s` |
//! | `A`, `b` | area of a section under water, breadth of the hull at the surface |
//! | `Vol`, `s_b`, `z_b` | volume under water and its centre |
//! | `I_T` | second moment of the waterplane about the centreline, seen along the hull's normal |
//!
//! A section is straight from keel to chine and from chine to sheer, and mirrored; between two sections each of these
//! points runs straight. So the hull is made of panels, below the chine and above it. Along the stations everything is smooth
//! but where the water crosses an edge of a panel, so each is cut there and every piece integrated by itself.
//!
//! Above the sheer the hull is closed: water over it adds nothing.

use super::ProfilePoint;
use crate::quantity::{Angle, Length, Quantity, Volume};

/// A rule of Gauss and Legendre, exact for polynomials up to a degree of twice its places less one: half of its places and
/// weights, of which the other half lies opposite.
///
/// The tests compare volumes with a polyhedron's.
type Gauss = &'static [(f64, f64)];

/// For 2 places.
const TWO: Gauss = &[(0.577_350_269_189_625_8, 1.0)];

/// For 4 places.
const FOUR: Gauss =
    &[(0.339_981_043_584_856_3, 0.652_145_154_862_546_1), (0.861_136_311_594_052_6, 0.347_854_845_137_453_7)];

/// For 6 places.
const SIX: Gauss = &[
    (0.238_619_186_083_196_9, 0.467_913_934_572_691),
    (0.661_209_386_466_264_5, 0.360_761_573_048_138_6),
    (0.932_469_514_203_152, 0.171_324_492_379_170_4),
];

/// For 8 places.
const EIGHT: Gauss = &[
    (0.183_434_642_495_649_8, 0.362_683_783_378_362),
    (0.525_532_409_916_329, 0.313_706_645_877_887_3),
    (0.796_666_477_413_626_7, 0.222_381_034_453_374_5),
    (0.960_289_856_497_536_3, 0.101_228_536_290_376_3),
];

/// For 16 places.
const SIXTEEN: Gauss = &[
    (0.095_012_509_837_637_44, 0.189_450_610_455_068_5),
    (0.281_603_550_779_258_9, 0.182_603_415_044_923_6),
    (0.458_016_777_657_227_4, 0.169_156_519_395_002_5),
    (0.617_876_244_402_643_7, 0.149_595_988_816_576_8),
    (0.755_404_408_355_003, 0.124_628_971_255_533_9),
    (0.865_631_202_387_831_8, 0.095_158_511_682_492_9),
    (0.944_575_023_073_232_6, 0.062_253_523_938_647_8),
    (0.989_400_934_991_649_9, 0.027_152_459_411_754_1),
];

/// A tape gives no sheer: the walls go up this far above the keel line, in metres, beyond any water.
const WALLS: f64 = 100.0;

/// A corner of a section, to one side.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct HalfPoint {
    /// Out from the centreline.
    pub half_breadth: Length,
    /// Above the keel line.
    pub height: Length,
}

/// The hull at one station.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct HullSection {
    /// Forward of the transom along the keel line.
    pub station: Length,
    /// Height of the keel above the keel line: zero along the straight run.
    pub keel: Length,
    /// The chine.
    pub chine: HalfPoint,
    /// The sheer.
    pub sheer: HalfPoint,
}

/// A hull as a tape gives it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HullByTape {
    /// From transom to stem.
    pub length: Length,
    /// Half the beam at the chines.
    pub chine_half_breadth: Length,
    /// Angle of the bottom at the transom.
    pub deadrise: Angle,
    /// Where the keel's straight run ends.
    pub straight_run: Length,
    /// The bow eye, taken to lie on the stem.
    pub bow_eye: ProfilePoint,
}

/// Why sections make no hull.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum BadHull {
    /// A hull needs two sections.
    #[error("expected two sections or more, found {0}")]
    TooFewSections(usize),
    /// The first section is the transom.
    #[error("expected the first section at station 0, the transom, found it elsewhere")]
    NoTransom,
    /// Sections run forward.
    #[error("expected sections that run forward, found section {0} not forward of the one before it")]
    NotForward(usize),
    /// Half-breadths are not negative, and everything is finite.
    #[error("expected half-breadths of zero or more, found a lesser one in section {0}")]
    NoBreadth(usize),
    /// The sheer is each section's highest point.
    #[error("expected the sheer no lower than chine and keel, found it lower in section {0}")]
    LowSheer(usize),
    /// The straight run ends before the bow eye, and the bow eye lies before the stem.
    #[error("expected straight run, bow eye and length in this order from the transom, found another")]
    TapeOutOfOrder,
    /// The bottom has an angle, and a breadth.
    #[error("expected a deadrise from 0 to below 90 deg and a half-breadth of zero or more, found others")]
    NoBottom,
}

/// A surface of still water in the boat's axes.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Waterline {
    /// Height of the surface above the keel line at the transom, normal to the keel line; negative where it is lower.
    pub draft: Length,
    /// Angle of the keel line to the surface, positive bow up.
    pub trim: Angle,
}

/// What a hull displaces.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Displacement {
    /// Volume under water.
    pub volume: Volume,
    /// Its centre.
    pub centre: ProfilePoint,
    /// Height of the transverse metacentre above the keel line.
    pub metacentre: Length,
}

/// A hull by its sections, from the transom forward.
#[derive(Debug, Clone, PartialEq)]
pub struct HullLines {
    sections: Vec<Lines>,
}

/// A section in plain numbers: keel, chine and sheer.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Lines {
    station: f64,
    corners: [Corner; 3],
}

#[derive(Debug, Clone, Copy, PartialEq)]
struct Corner {
    y: f64,
    z: f64,
}

/// A water surface in plain numbers.
#[derive(Debug, Clone, Copy)]
pub(super) struct Surface {
    pub d: f64,
    pub t: f64,
}

/// What lies under water, as integrals along the stations.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Immersed {
    /// `∫ A`
    pub volume: f64,
    /// `∫ A s`
    pub along: f64,
    /// `∫ A z`
    pub up: f64,
    /// `∫ b`, `∫ b s` and `∫ b s²`.
    pub plane: [f64; 3],
    /// `I_T = ∫ b³ / 12`
    pub across: f64,
}

impl Waterline {
    /// How a boat floats by what a tape says afloat: her keel at the transom so deep under the water, her bow eye so high
    /// above it. `None` where no trim fits.
    pub fn taped(draft: Length, eye_height: Length, eye: ProfilePoint) -> Option<Self> {
        let (s, h) = (eye.station.si(), eye.height.si());
        // s_e sin τ + h_e cos τ = T + f
        let tau = ((draft + eye_height).si() / s.hypot(h)).asin() - h.atan2(s);
        let trim = Angle::from_si(tau);
        // d = T / cos τ
        tau.is_finite().then(|| Self { draft: draft / tau.cos(), trim })
    }

    /// How deep the keel lies under water at the transom, plumb down.
    pub fn transom_draft(self) -> Length {
        // T = d cos τ
        self.draft * self.trim.si().cos()
    }
}

impl HullLines {
    /// The hull through sections, from the transom forward.
    ///
    /// A section may be flat, without breadth, or have its keel above its chine, as where both run into the stem.
    ///
    /// # Errors
    /// [`BadHull`] when there are fewer than two sections, when they do not begin at the transom and run forward, where a
    /// half-breadth is negative, or where the sheer is lower than chine or keel.
    pub fn new(sections: &[HullSection]) -> Result<Self, BadHull> {
        if sections.len() < 2 {
            return Err(BadHull::TooFewSections(sections.len()));
        }
        let sections: Vec<Lines> = sections.iter().map(Lines::of).collect();
        if sections[0].station != 0.0 {
            return Err(BadHull::NoTransom);
        }
        for (i, section) in sections.iter().enumerate() {
            let [keel, chine, sheer] = section.corners;
            if i > 0 && !(section.station > sections[i - 1].station && section.station.is_finite()) {
                return Err(BadHull::NotForward(i + 1));
            }
            if !section.corners.iter().all(|corner| corner.y >= 0.0 && corner.y.is_finite()) {
                return Err(BadHull::NoBreadth(i + 1));
            }
            if !(sheer.z >= chine.z.max(keel.z) && sheer.z.is_finite() && chine.z.min(keel.z).is_finite()) {
                return Err(BadHull::LowSheer(i + 1));
            }
        }
        Ok(Self { sections })
    }

    /// The hull that a few measures by tape give.
    ///
    /// The chine is level to the end of the straight run, then runs straight to the stem; the keel runs straight from
    /// the end of the straight run through the bow eye. The walls go straight up from the chine without end, so such a
    /// hull never swamps.
    ///
    /// # Errors
    /// [`BadHull`] when the straight run, the bow eye and the stem do not follow each other, when the deadrise is no angle
    /// of a bottom, or when the half-breadth is negative.
    ///
    /// ```
    /// use bunkline::mechanics::launch::ProfilePoint;
    /// use bunkline::mechanics::launch::hull::{HullByTape, HullLines, Waterline};
    /// use bunkline::quantity::{Angle, Length, Quantity};
    ///
    /// let metres = Length::from_si;
    /// let hull = HullLines::by_tape(&HullByTape {
    ///     length: metres(7.0),
    ///     chine_half_breadth: metres(1.0),
    ///     deadrise: Angle::from_si(0.25_f64.atan()),
    ///     straight_run: metres(5.0),
    ///     bow_eye: ProfilePoint { station: metres(6.5), height: metres(0.9) },
    /// })?;
    /// // A level 0.2 m of water over the straight run alone: a vee 0.2 deep and 1.6 wide, a little more at the bow.
    /// let below = hull.below(Waterline { draft: metres(0.2), ..Waterline::default() }).expect("it is wet");
    /// assert!((0.80..0.85).contains(&below.volume.si()));
    /// # Ok::<(), bunkline::mechanics::launch::hull::BadHull>(())
    /// ```
    pub fn by_tape(tape: &HullByTape) -> Result<Self, BadHull> {
        let (run, length) = (tape.straight_run, tape.length);
        let (eye, beta) = (tape.bow_eye, tape.deadrise.si());
        if !(run.si() >= 0.0 && run < eye.station && eye.station <= length && eye.height.si() > 0.0) {
            return Err(BadHull::TapeOutOfOrder);
        }
        if !((0.0..std::f64::consts::FRAC_PI_2).contains(&beta) && tape.chine_half_breadth.si() >= 0.0) {
            return Err(BadHull::NoBottom);
        }
        let half_breadth = tape.chine_half_breadth;
        // z_c = b tan β
        let chine = HalfPoint { half_breadth, height: half_breadth * beta.tan() };
        let walled = |station, keel, chine: HalfPoint| HullSection {
            station,
            keel,
            chine,
            sheer: HalfPoint { height: Length::from_si(WALLS), ..chine },
        };
        // z = h_e (s − run) / (s_e − run)
        let stem = eye.height * ((length - run) / (eye.station - run)).si();
        let ends = HalfPoint { height: stem, ..HalfPoint::default() };
        let level = Length::default();
        let mut sections =
            vec![walled(level, level, chine), walled(run, level, chine), walled(length, stem, ends)];
        if run.si() == 0.0 {
            sections.remove(0);
        }
        Self::new(&sections)
    }

    /// A hull of no breadth, which displaces nothing: of a boat whose shape is not known.
    pub fn unknown(length: Length) -> Self {
        let section = |station: f64| Lines { station, corners: [Corner { y: 0.0, z: 0.0 }; 3] };
        Self { sections: vec![section(0.0), section(length.si())] }
    }

    /// What the hull displaces under a water surface; `None` where it is dry.
    pub fn below(&self, waterline: Waterline) -> Option<Displacement> {
        self.immersed(Surface::of(waterline)).displacement()
    }

    /// From the transom to the last section.
    pub fn length(&self) -> Length {
        Length::from_si(self.last_station())
    }

    pub(super) fn last_station(&self) -> f64 {
        self.sections[self.sections.len() - 1].station
    }

    /// Whether the surface lies below the sheer everywhere.
    pub(super) fn has_freeboard(&self, surface: Surface) -> bool {
        self.sections.iter().all(|section| surface.at(section.station) < section.corners[2].z)
    }

    /// The drafts at which the hull is dry and at which it is all under water, at a trim's tangent.
    pub(super) fn drafts(&self, t: f64) -> [f64; 2] {
        let corners = self
            .sections
            .iter()
            .flat_map(|section| section.corners.map(|corner| corner.z + t * section.station));
        corners.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], d| [low.min(d), high.max(d)])
    }

    /// What lies under a water surface.
    pub(super) fn immersed(&self, surface: Surface) -> Immersed {
        let mut sum = Immersed::default();
        for pair in self.sections.windows(2) {
            let station = Straight::between(pair[0].station, pair[1].station);
            let [keel, chine, sheer] =
                [0, 1, 2].map(|corner| Edge::of([&pair[0], &pair[1]], corner, surface));
            for (low, high) in [(keel, chine), (chine, sheer)] {
                Panel { station, low, high }.add_to(&mut sum);
            }
        }
        sum
    }
}

impl Lines {
    fn of(section: &HullSection) -> Self {
        let corner = |point: HalfPoint| Corner { y: point.half_breadth.si(), z: point.height.si() };
        let keel = HalfPoint { height: section.keel, ..HalfPoint::default() };
        Self {
            station: section.station.si(),
            corners: [corner(keel), corner(section.chine), corner(section.sheer)],
        }
    }
}

/// A value that runs straight between two sections, by the share of the way.
#[derive(Debug, Clone, Copy)]
struct Straight {
    from: f64,
    grows: f64,
}

impl Straight {
    fn between(from: f64, to: f64) -> Self {
        Self { from, grows: to - from }
    }

    fn at(self, share: f64) -> f64 {
        self.from + share * self.grows
    }

    /// Where it changes its sign on the way; at the end where it does not.
    fn zero(self) -> f64 {
        let to = self.from + self.grows;
        if (self.from < 0.0) == (to < 0.0) { 1.0 } else { (-self.from / self.grows).clamp(0.0, 1.0) }
    }
}

/// An edge of a panel: a line from a corner of one section to the same corner of the next.
#[derive(Debug, Clone, Copy)]
struct Edge {
    /// Half-breadth.
    y: Straight,
    /// Height.
    z: Straight,
    /// How far under the surface it lies.
    depth: Straight,
}

impl Edge {
    fn of([aft, fore]: [&Lines; 2], corner: usize, surface: Surface) -> Self {
        let (from, to) = (aft.corners[corner], fore.corners[corner]);
        Self {
            y: Straight::between(from.y, to.y),
            z: Straight::between(from.z, to.z),
            depth: Straight::between(surface.at(aft.station) - from.z, surface.at(fore.station) - to.z),
        }
    }

    /// Its half-breadth and height a share of the way.
    fn at(&self, share: f64) -> (f64, f64) {
        (self.y.at(share), self.z.at(share))
    }
}

/// What lies between the centreline plane and the hull's skin from one edge up to another, on both sides.
///
/// Where the upper edge dips below the lower one, as a chine below the keel, it lies outside of the hull and counts less.
#[derive(Debug, Clone, Copy)]
struct Panel {
    station: Straight,
    low: Edge,
    high: Edge,
}

/// How much of a panel lies under water.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Wet {
    Nothing,
    All,
    /// The surface crosses it.
    Below,
    /// The surface crosses it where the upper edge dips below the lower one.
    Inverted,
}

impl Panel {
    /// Adds what lies under water, piece by piece between the places where the surface crosses an edge.
    fn add_to(&self, sum: &mut Immersed) {
        let (one, other) = (self.low.depth.zero(), self.high.depth.zero());
        let cuts = [0.0, one.min(other), one.max(other), 1.0];
        for piece in cuts.windows(2) {
            let [from, to] = [piece[0], piece[1]];
            if to > from {
                self.add_piece([from, to], sum);
            }
        }
    }

    fn add_piece(&self, [from, to]: [f64; 2], sum: &mut Immersed) {
        let (middle, half) = (f64::midpoint(from, to), (to - from) / 2.0);
        let wet = self.wet(middle);
        let rule = match wet {
            Wet::Nothing => return,
            Wet::All => TWO,
            Wet::Below | Wet::Inverted => self.rule(from, to),
        };
        for (place, weight) in rule {
            let ds = weight * half * self.station.grows;
            for share in [middle - half * place, middle + half * place] {
                self.add_strip(wet, share, ds, sum);
            }
        }
    }

    /// Adds a strip `ds` long of the section at a share of the way.
    fn add_strip(&self, wet: Wet, share: f64, ds: f64, sum: &mut Immersed) {
        let s = self.station.at(share);
        let (low, high) = (self.low.at(share), self.high.at(share));
        match wet {
            Wet::Nothing => {}
            Wet::All => sum.add_whole(low, high, s, ds),
            Wet::Below => sum.add_crossed(low, high, self.low.depth.at(share), s, ds),
            // From the keel out to a chine below it the hull lies outside of the line.
            Wet::Inverted => sum.add_crossed(high, low, self.high.depth.at(share), s, -ds),
        }
    }

    /// How much of the section at a share of the way is under water.
    fn wet(&self, share: f64) -> Wet {
        match (self.low.depth.at(share) > 0.0, self.high.depth.at(share) > 0.0) {
            (false, false) => Wet::Nothing,
            (true, true) => Wet::All,
            (true, false) => Wet::Below,
            (false, true) => Wet::Inverted,
        }
    }

    /// The rule that integrates a piece that the surface crosses to the last digits.
    ///
    /// Where the panel's height stays the same it gives polynomials of the sixth degree at most. Else what it gives has a pole
    /// where that height would vanish, and a rule of n places errs by about `r^-2n`, r the sum of the half axes of the ellipse
    /// about the piece through that pole. With the height at one end `m` times that at the other, `r = x + √(x² − 1)` of
    /// `x = (m + 1)/(m − 1)`: below 1e-12 for 4, 6 and 8 places while `m` is at most 1.05, 1.4 and 2.
    fn rule(&self, from: f64, to: f64) -> Gauss {
        let height = |share| (self.high.z.at(share) - self.low.z.at(share)).abs();
        let (one, other) = (height(from), height(to));
        let (least, most) = (one.min(other), one.max(other));
        let rules = [(1.05, FOUR), (1.4, SIX), (2.0, EIGHT)];
        let enough = rules.into_iter().find(|(times, _)| most <= times * least);
        enough.map_or(SIXTEEN, |(_, rule)| rule)
    }
}

impl Immersed {
    /// Adds a strip `ds` long of a section between two corners `(y, z)` that are both under water: all of it polynomials of
    /// the third degree along the stations.
    fn add_whole(&mut self, (y0, z0): (f64, f64), (y, z): (f64, f64), s: f64, ds: f64) {
        let w = z - z0;
        // 2 ∫ y dz = w (y0 + y)
        let area = w * (y0 + y) * ds;
        self.volume += area;
        self.along += area * s;
        // 2 ∫ y z dz = z0 w (y0 + y) + w² (y0 + 2 y) / 3
        self.up += z0 * area + w * w * (y0 + 2.0 * y) / 3.0 * ds;
    }

    /// Adds a strip of a section between two corners of which the lower lies `w` under the surface and the upper above it.
    fn add_crossed(&mut self, low: (f64, f64), high: (f64, f64), w: f64, s: f64, ds: f64) {
        // Where both corners come together at the surface rounding must not leave the line between them.
        let share = (w / (high.1 - low.1).max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
        // The half-breadth at the surface.
        let y = low.0 + share * (high.0 - low.0);
        self.add_whole(low, (y, low.1 + w), s, ds);
        // b = 2 y, b³ / 12
        let breadth = 2.0 * y * ds;
        self.plane[0] += breadth;
        self.plane[1] += breadth * s;
        self.plane[2] += breadth * s * s;
        self.across += breadth * y * y / 3.0;
    }
}

impl Surface {
    pub(super) fn of(waterline: Waterline) -> Self {
        Self { d: waterline.draft.si(), t: waterline.trim.si().tan() }
    }

    pub(super) fn waterline(self) -> Waterline {
        Waterline { draft: Length::from_si(self.d), trim: Angle::from_si(self.t.atan()) }
    }

    /// Its height at a station.
    pub(super) fn at(self, s: f64) -> f64 {
        // h = d − t s
        self.d - self.t * s
    }

    /// `1 / cos τ`
    fn secant(self) -> f64 {
        (self.t * self.t + 1.0).sqrt()
    }

    /// How deep a point lies under it, straight down.
    pub(super) fn depth(self, s: f64, z: f64) -> f64 {
        // (h − z) cos τ
        (self.at(s) - z) / self.secant()
    }

    /// The surface of this trim under which a point lies this deep.
    pub(super) fn over([s, z]: [f64; 2], depth: f64, t: f64) -> Self {
        // d = D / cos τ + t s + z
        Self { d: depth * Self { d: 0.0, t }.secant() + t * s + z, t }
    }
}

impl Immersed {
    pub(super) fn displacement(&self) -> Option<Displacement> {
        let volume = self.volume;
        (volume > 0.0).then(|| {
            // z_b + I_T / Vol
            let metacentre = (self.up + self.across) / volume;
            Displacement {
                volume: Volume::from_si(volume),
                centre: ProfilePoint {
                    station: Length::from_si(self.along / volume),
                    height: Length::from_si(self.up / volume),
                },
                metacentre: Length::from_si(metacentre),
            }
        })
    }
}
