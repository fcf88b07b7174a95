//! A straight beam on supports: what each support carries, and how the beam bends.
//!
//! The beam is an Euler–Bernoulli beam of one stiffness, continuous over all its supports, with or without
//! overhangs, under loads that vary linearly along their runs. Stations run from its left end.
//!
//! | symbol | meaning |
//! |---|---|
//! | `EI` | bending stiffness |
//! | `w` | load a length, positive down |
//! | `s_i` | how far support `i` lies below the straight line when nothing presses on it |
//! | `c_i` | its compliance, zero when rigid |
//! | `R_i` | its reaction, positive up on the beam |
//! | `y`, `θ` | deflection, positive down, and its slope `dy/dx` |
//! | `V` | shear: all upward forces left of a station, less the loads there |
//! | `M` | bending moment, positive when the beam sags |
//! | `h` | length of a span, or of a piece of it |
//! | `A`, `B` | `1/h ∫ M0 (h − x) dx` and `1/h ∫ M0 x dx` over a span, `M0` its moment when its ends are hinged |
//!
//! # How the reactions are found
//!
//! With `V' = −w`, `M' = V` and `EI y'' = −M`, a span from support `a` to `b` has the end slopes
//!
//! `θ_a = (y_b − y_a)/h + (h/3 M_a + h/6 M_b + A) / EI`,
//! `θ_b = (y_b − y_a)/h − (h/6 M_a + h/3 M_b + B) / EI`.
//!
//! The beam has no kink over a support. Between its left span `l` and its right span `r` that reads
//!
//! `h_l/6 M_{i−1} + (h_l + h_r)/3 M_i + h_r/6 M_{i+1} + EI ((y_{i+1} − y_i)/h_r − (y_i − y_{i−1})/h_l) = −B_l − A_r`,
//!
//! the equation of three moments. A support stands at `y_i = s_i + c_i R_i`, and its reaction is that of hinged
//! spans and `(M_{i+1} − M_i)/h_r − (M_i − M_{i−1})/h_l`, so elastic supports couple five moments. The moments over
//! the outer supports are those of the overhangs. What is left is one linear equation for each inner support; its
//! matrix is symmetric and positive definite, being a flexibility.
//!
//! # Supports that only push
//!
//! Among all reactions that balance the load and pull nowhere, those of the beam at rest make the complementary
//! energy least. It is strictly convex, so they are unique. They are found by an active set: begin with the two
//! supports next to the load's resultant, which it presses on both. Then again and again (1) solve for the supports in
//! the set; where one would pull, go only as far toward that answer as none does, drop the one that then
//! carries nothing, and solve again; (2) when none pulls, add the support that the beam sinks through
//! the most, or end when there is none. Every time (2) is reached the energy is the least of its set and less than
//! before, so no set is met twice, and there are finitely many.
//!
//! Source: statics and Euler–Bernoulli beam theory; the equation of three moments is Clapeyron's, in any text
//! on the strength of materials.

use crate::numeric::root::Bracket;
use crate::quantity::{BendingStiffness, Length, LineLoad, Moment, Quantity, Rate, Weight};
use arrayvec::ArrayVec;
use std::cmp::Ordering;
use uom::si::torque::newton_meter;

/// Supports closer than this share of the beam's length count as one: they would clamp the beam with huge forces.
const COINCIDENCE: f64 = 1e-6;
/// Loads and supports may overrun the ends by this share of the length, for rounding.
const OVERRUN: f64 = 1e-9;
/// A pull or an overlap smaller than this share of the greatest is rounding.
const ROUNDING: f64 = 1e-11;

/// A support of the beam.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Support {
    /// From the beam's left end.
    pub station: Length,
    /// How far it lies below the straight line when nothing presses on it.
    pub settlement: Length,
    /// Its rate when it is elastic; none when it is rigid.
    pub rate: Option<Rate>,
}

impl Support {
    /// A rigid support on the straight line.
    pub fn rigid(station: Length) -> Self {
        Self { station, settlement: Length::from_si(0.0), rate: None }
    }

    /// The support lower by so much.
    #[must_use]
    pub fn settled(self, by: Length) -> Self {
        Self { settlement: by, ..self }
    }

    /// The support on a spring of this rate, which must be positive.
    #[must_use]
    pub fn elastic(self, rate: Rate) -> Self {
        Self { rate: Some(rate), ..self }
    }
}

/// A load that varies linearly from one station to another. Loads that overlap add up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpreadLoad {
    /// Where it begins.
    pub from: Length,
    /// Where it ends.
    pub to: Length,
    /// Its intensity where it begins, positive down.
    pub at_from: LineLoad,
    /// Its intensity where it ends, positive down.
    pub at_to: LineLoad,
}

/// Which way the supports hold the beam.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Holding {
    /// Up and down, as bolted brackets do.
    #[default]
    BothWays,
    /// Up only: the beam may lift off.
    PushOnly,
}

/// A beam, its supports and its loads.
#[derive(Debug, Clone, PartialEq)]
pub struct Beam {
    /// From end to end.
    pub length: Length,
    /// The same all along.
    pub stiffness: BendingStiffness,
    /// In any order.
    pub supports: Vec<Support>,
    /// In any order.
    pub loads: Vec<SpreadLoad>,
    /// Which way the supports hold.
    pub holding: Holding,
}

/// Why a beam has no answer. Supports and loads are counted from 0, as given.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum BeamError {
    /// A value is infinite or not a number.
    #[error("expected finite numbers, found one that is not")]
    NotFinite,
    /// The length is zero or negative.
    #[error("expected a beam longer than zero")]
    NoLength,
    /// The bending stiffness is zero or negative.
    #[error("expected a bending stiffness above zero")]
    NoStiffness,
    /// A support's rate is zero or negative.
    #[error("expected a rate above zero at support {support}")]
    NoRate {
        /// Which support.
        support: usize,
    },
    /// Fewer than two supports.
    #[error("expected at least two supports, found {found}: the beam is unstable")]
    Unstable {
        /// How many there are.
        found: usize,
    },
    /// A support stands beside the beam.
    #[error("expected support {support} between the beam's ends")]
    SupportOffBeam {
        /// Which support.
        support: usize,
    },
    /// Two supports stand at one station.
    #[error("expected supports apart, found {first} and {second} at one station")]
    Coincident {
        /// The left one.
        first: usize,
        /// The right one.
        second: usize,
    },
    /// A load runs past an end of the beam.
    #[error("expected load {load} between the beam's ends")]
    LoadOffBeam {
        /// Which load.
        load: usize,
    },
    /// A load ends before it begins.
    #[error("expected load {load} to end after it begins")]
    Backward {
        /// Which load.
        load: usize,
    },
    /// Nothing presses the beam onto supports that only push: the resultant points up or lies past the outer ones.
    #[error("the load tips or lifts the beam off supports that only push")]
    Tips,
    /// The numbers lie too far apart for double precision.
    #[error("expected numbers of like size, found some too far apart to compute with")]
    BeyondPrecision,
}

/// A greatest value, with its sign, and where it occurs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Extreme<T> {
    /// The value of greatest size.
    pub value: T,
    /// Where it occurs, from the beam's left end.
    pub station: Length,
}

/// A beam at rest under its loads.
#[derive(Debug, Clone, PartialEq)]
pub struct Bent {
    /// What each support carries, in the order given; positive up on the beam.
    pub reactions: Vec<Weight>,
    /// The greatest bending moment; positive where the beam sags, negative where it hogs.
    pub moment: Extreme<Moment>,
    /// The greatest shear; beside a support it is the greater of the two sides.
    pub shear: Extreme<Weight>,
    /// The greatest deflection, positive down.
    pub deflection: Extreme<Length>,
    stiffness: f64,
    pieces: Vec<Piece>,
}

impl Bent {
    /// The bending moment at a station, positive where the beam sags; past an end, that of the end.
    pub fn moment_at(&self, station: Length) -> Moment {
        let (piece, share) = self.find(station, true);
        Moment::new::<newton_meter>(piece.moment(share))
    }

    /// The deflection at a station, positive down; past an end, that of the end.
    pub fn deflection_at(&self, station: Length) -> Length {
        let (piece, share) = self.find(station, true);
        Length::from_si(piece.deflection(share, self.stiffness))
    }

    /// The shear just left of a station; past an end, that of the end.
    ///
    /// It differs from [`Bent::shear_after`] at a support, by its reaction.
    pub fn shear_before(&self, station: Length) -> Weight {
        let (piece, share) = self.find(station, true);
        Weight::from_si(piece.shear(share))
    }

    /// The shear just right of a station; past an end, that of the end.
    pub fn shear_after(&self, station: Length) -> Weight {
        let (piece, share) = self.find(station, false);
        Weight::from_si(piece.shear(share))
    }

    /// The piece that a station lies on, and how far along it as a share of its length.
    fn find(&self, station: Length, before: bool) -> (&Piece, f64) {
        let x = station.si();
        let behind = self.pieces.partition_point(|piece| if before { piece.end < x } else { piece.end <= x });
        let piece = &self.pieces[behind.min(self.pieces.len() - 1)];
        let share = (x - piece.start) / piece.length();
        // A station that is no number is read as the left end.
        (piece, if share >= 0.0 { share.min(1.0) } else { 0.0 })
    }
}

/// The beam at rest: reactions, greatest bending moment, shear and deflection, and their course.
///
/// Exact but for rounding: the greatest values are at ends of pieces or at roots of their polynomials. The
/// answer depends continuously on every value of the beam as long as supports stay apart; only the places of
/// greatest values may jump between equals.
///
/// Valid for small slopes and slender beams: shear deflection and the pull along a bent beam are left out.
///
/// # Errors
/// [`BeamError`], each with its condition.
///
/// ```
/// use bunkline::mechanics::bunks::beam::{Beam, Holding, SpreadLoad, Support, bend};
/// use bunkline::quantity::{BendingStiffness, Length, LineLoad, Quantity};
///
/// let metres = Length::from_si;
/// let w = LineLoad::from_si(800.0);
/// // Two equal spans of 2 m: 3/8, 10/8 and 3/8 of w L, and w L² / 8 over the middle.
/// let beam = Beam {
///     length: metres(4.0),
///     stiffness: BendingStiffness(1e4),
///     supports: [0.0, 2.0, 4.0].map(|x| Support::rigid(metres(x))).to_vec(),
///     loads: vec![SpreadLoad { from: metres(0.0), to: metres(4.0), at_from: w, at_to: w }],
///     holding: Holding::BothWays,
/// };
/// let bent = bend(&beam)?;
/// assert!((bent.reactions[0].si() - 600.0).abs() < 1e-9);
/// assert!((bent.reactions[1].si() - 2000.0).abs() < 1e-9);
/// assert!((bent.moment.value.value + 400.0).abs() < 1e-9);
/// assert!((bent.moment.station.si() - 2.0).abs() < 1e-9);
/// # Ok::<(), bunkline::mechanics::bunks::beam::BeamError>(())
/// ```
pub fn bend(beam: &Beam) -> Result<Bent, BeamError> {
    let problem = Problem::read(beam)?;
    let all: Vec<usize> = (0..problem.posts.len()).collect();
    let rest = problem.rest_on(&all)?;
    let rest =
        if beam.holding == Holding::PushOnly && rest.pulls() { problem.rest_on_pushing()? } else { rest };
    problem.bent(rest)
}

/// A support in plain numbers, SI.
struct Post {
    /// Its place in the beam's list.
    given: usize,
    x: f64,
    settlement: f64,
    compliance: f64,
}

/// A part of the beam with one linear load and no support inside.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Run {
    start: f64,
    end: f64,
    w_start: f64,
    w_end: f64,
}

impl Run {
    fn length(&self) -> f64 {
        self.end - self.start
    }

    /// All its load.
    fn resultant(&self) -> f64 {
        // h (w_a + w_b) / 2
        self.length() * f64::midpoint(self.w_start, self.w_end)
    }

    /// The moment of its load about a station, clockwise, so positive for loads to the right.
    fn moment_about(&self, x: f64) -> f64 {
        // P (a − x) + h² (w_a + 2 w_b) / 6
        let h = self.length();
        self.resultant() * (self.start - x) + h * h * (self.w_start + 2.0 * self.w_end) / 6.0
    }
}

/// A run with its state at its start: everything in it is a polynomial of the share of its length.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Piece {
    start: f64,
    end: f64,
    w: f64,
    /// How much the load grows from start to end.
    growth: f64,
    v: f64,
    m: f64,
    theta: f64,
    y: f64,
}

impl Piece {
    fn new(run: Run, v: f64, m: f64) -> Self {
        let growth = run.w_end - run.w_start;
        Self { start: run.start, end: run.end, w: run.w_start, growth, v, m, theta: 0.0, y: 0.0 }
    }

    fn length(&self) -> f64 {
        self.end - self.start
    }

    fn load_terms(&self) -> [f64; 2] {
        [self.w, self.growth]
    }

    fn shear_terms(&self) -> [f64; 3] {
        // V = v − w t − g t² / 2h
        let h = self.length();
        [self.v, -self.w * h, -self.growth * h / 2.0]
    }

    fn moment_terms(&self) -> [f64; 4] {
        // M = m + v t − w t² / 2 − g t³ / 6h
        let h = self.length();
        [self.m, self.v * h, -self.w * h * h / 2.0, -self.growth * h * h / 6.0]
    }

    fn slope_terms(&self, ei: f64) -> [f64; 5] {
        // θ = θ_0 − ∫ M dt / EI
        let h = self.length() / ei;
        let [a, b, c, d] = self.moment_terms();
        [self.theta, -a * h, -b * h / 2.0, -c * h / 3.0, -d * h / 4.0]
    }

    fn deflection_terms(&self, ei: f64) -> [f64; 6] {
        // y = y_0 + ∫ θ dt
        let h = self.length();
        let [a, b, c, d, e] = self.slope_terms(ei);
        [self.y, a * h, b * h / 2.0, c * h / 3.0, d * h / 4.0, e * h / 5.0]
    }

    fn shear(&self, share: f64) -> f64 {
        polynomial(&self.shear_terms(), share)
    }

    fn moment(&self, share: f64) -> f64 {
        polynomial(&self.moment_terms(), share)
    }

    fn slope(&self, share: f64, ei: f64) -> f64 {
        polynomial(&self.slope_terms(ei), share)
    }

    fn deflection(&self, share: f64, ei: f64) -> f64 {
        polynomial(&self.deflection_terms(ei), share)
    }

    /// What no moment between its ends can pass: a curve leaves its chord by h²/8 of its second derivative at most.
    fn greatest_moment(&self) -> f64 {
        let load = self.w.abs().max((self.w + self.growth).abs());
        self.moment(0.0).abs().max(self.moment(1.0).abs()) + self.length().powi(2) / 8.0 * load
    }

    /// What no deflection between its ends can pass.
    fn greatest_deflection(&self, ei: f64) -> f64 {
        let ends = self.deflection(0.0, ei).abs().max(self.deflection(1.0, ei).abs());
        ends + self.length().powi(2) / 8.0 * self.greatest_moment() / ei
    }
}

/// The value of `Σ terms_k x^k`.
fn polynomial(terms: &[f64], x: f64) -> f64 {
    terms.iter().rev().fold(0.0, |sum, term| sum * x + term)
}

/// Where a polynomial of at most degree four is zero between 0 and 1, the ends left out.
///
/// Between neighbouring roots of its derivative it is monotone, so each root is bracketed and closed in on.
fn roots(terms: &[f64]) -> ArrayVec<f64, 4> {
    let mut found = ArrayVec::new();
    if terms.len() < 2 || keeps_its_sign(terms) {
        return found;
    }
    let derivative: ArrayVec<f64, 5> =
        terms.iter().enumerate().skip(1).map(|(power, term)| power as f64 * term).collect();
    let turns = roots(&derivative);
    let mut low = 0.0;
    for high in turns.into_iter().chain([1.0]) {
        let (at_low, at_high) = (polynomial(terms, low), polynomial(terms, high));
        if (at_low < 0.0 && at_high > 0.0) || (at_low > 0.0 && at_high < 0.0) {
            found.push(root_between(terms, &derivative, [low, high], at_low < 0.0));
        } else if at_high == 0.0 && high < 1.0 {
            found.push(high);
        }
        low = high;
    }
    found
}

/// Whether a polynomial is seen to be zero nowhere from 0 to 1: its coefficients over Bernstein's basis, between the
/// least and the greatest of which it stays there, are all above or all below zero. Most derivatives of a bent beam's
/// pieces are, which spares the search for their turns.
fn keeps_its_sign(terms: &[f64]) -> bool {
    let degree = terms.len() - 1;
    let coefficient = |i: usize| {
        // b_i = Σ_k C(i, k) / C(n, k) a_k
        let (mut sum, mut share) = (terms[0], 1.0);
        for (k, term) in terms.iter().enumerate().take(i + 1).skip(1) {
            share *= (i + 1 - k) as f64 / (degree + 1 - k) as f64;
            sum += share * term;
        }
        sum
    };
    let mut coefficients = (0..=degree).map(coefficient);
    if terms[0] > 0.0 { coefficients.all(|b| b > 0.0) } else { coefficients.all(|b| b < 0.0) }
}

/// A root, as a share of a piece, is found when Newton's next step is no longer than this: what is greatest there
/// changes by its square.
const NEAR_ENOUGH: f64 = 1e-12;

/// The one root of a polynomial in a bracket; `rises` says that it is negative at its lower end.
fn root_between(terms: &[f64], derivative: &[f64], [low, high]: [f64; 2], rises: bool) -> f64 {
    let mut bracket = Bracket::new(low, high);
    let mut x = f64::midpoint(low, high);
    while bracket.width() > f64::EPSILON {
        let value = polynomial(terms, x);
        bracket.look(x, if rises { value } else { -value });
        let newton = x - value / polynomial(derivative, x);
        let Some(next) = bracket.next(Some(newton)) else { break };
        if next == newton && (next - x).abs() <= NEAR_ENOUGH {
            return next;
        }
        x = next;
    }
    x
}

/// The beam on some of its supports.
struct Rest {
    /// Reaction of every support, left to right; zero outside the set.
    reactions: Vec<f64>,
    pieces: Vec<Piece>,
}

impl Rest {
    /// A force this small is rounding.
    fn negligible(&self) -> f64 {
        ROUNDING * self.reactions.iter().fold(0.0, |most: f64, r| most.max(r.abs()))
    }

    fn pulls(&self) -> bool {
        let negligible = self.negligible();
        self.reactions.iter().any(|reaction| *reaction < -negligible)
    }
}

/// The beam in plain numbers, SI: supports sorted, loads joined to runs.
struct Problem {
    ei: f64,
    posts: Vec<Post>,
    runs: Vec<Run>,
}

impl Problem {
    fn read(beam: &Beam) -> Result<Self, BeamError> {
        let (length, ei) = (beam.length.si(), beam.stiffness.0);
        let of_supports = beam.supports.iter().flat_map(|support| {
            [support.station.si(), support.settlement.si(), support.rate.map_or(1.0, Rate::si)]
        });
        let of_loads = beam
            .loads
            .iter()
            .flat_map(|load| [load.from.si(), load.to.si(), load.at_from.si(), load.at_to.si()]);
        if !of_supports.chain(of_loads).chain([length, ei]).all(f64::is_finite) {
            return Err(BeamError::NotFinite);
        }
        if length <= 0.0 {
            return Err(BeamError::NoLength);
        }
        if ei <= 0.0 {
            return Err(BeamError::NoStiffness);
        }
        let on_beam = |x: f64| {
            let overrun = OVERRUN * length;
            (x >= -overrun && x <= length + overrun).then(|| x.clamp(0.0, length))
        };
        if beam.supports.len() < 2 {
            return Err(BeamError::Unstable { found: beam.supports.len() });
        }
        let mut posts = Vec::new();
        for (given, support) in beam.supports.iter().enumerate() {
            let x = on_beam(support.station.si()).ok_or(BeamError::SupportOffBeam { support: given })?;
            let compliance = match support.rate.map(Rate::si) {
                None => 0.0,
                Some(rate) if rate > 0.0 => 1.0 / rate,
                Some(_) => return Err(BeamError::NoRate { support: given }),
            };
            posts.push(Post { given, x, settlement: support.settlement.si(), compliance });
        }
        posts.sort_by(|a, b| a.x.total_cmp(&b.x));
        if let Some(pair) = posts.windows(2).find(|pair| pair[1].x - pair[0].x < COINCIDENCE * length) {
            return Err(BeamError::Coincident { first: pair[0].given, second: pair[1].given });
        }
        let mut loads = Vec::new();
        for (load, spread) in beam.loads.iter().enumerate() {
            let off = BeamError::LoadOffBeam { load };
            let start = on_beam(spread.from.si()).ok_or(off)?;
            let end = on_beam(spread.to.si()).ok_or(off)?;
            if end < start {
                return Err(BeamError::Backward { load });
            }
            loads.push(Run { start, end, w_start: spread.at_from.si(), w_end: spread.at_to.si() });
        }
        let mut breaks: Vec<f64> = [0.0, length].into_iter().chain(posts.iter().map(|post| post.x)).collect();
        breaks.extend(loads.iter().flat_map(|load| [load.start, load.end]));
        breaks.sort_by(f64::total_cmp);
        breaks.dedup();
        let runs = breaks.windows(2).map(|pair| joined(&loads, pair[0], pair[1])).collect();
        Ok(Self { ei, posts, runs })
    }

    /// The runs between two stations at which runs end.
    fn runs_between(&self, from: f64, to: f64) -> &[Run] {
        let first = self.runs.partition_point(|run| run.start < from);
        let behind = self.runs.partition_point(|run| run.end <= to);
        &self.runs[first..behind.max(first)]
    }

    /// The beam on the supports of a set, at least two and sorted, that hold both ways.
    fn rest_on(&self, set: &[usize]) -> Result<Rest, BeamError> {
        let n = set.len();
        let x: Vec<f64> = set.iter().map(|i| self.posts[*i].x).collect();
        let (left_end, right_end) = (self.runs[0].start, self.runs[self.runs.len() - 1].end);
        let left_overhang = self.runs_between(left_end, x[0]);
        let right_overhang = self.runs_between(x[n - 1], right_end);
        let spans: Vec<Span> = x
            .windows(2)
            .map(|ends| Span::new(self.runs_between(ends[0], ends[1]), ends[0], ends[1]))
            .collect();

        // Reactions of hinged spans, and what the overhangs add to the outer ones.
        let mut reactions = vec![0.0; n];
        for (i, span) in spans.iter().enumerate() {
            reactions[i] += span.left;
            reactions[i + 1] += span.right;
        }
        reactions[0] += left_overhang.iter().map(Run::resultant).sum::<f64>();
        let on_right_overhang: f64 = right_overhang.iter().map(Run::resultant).sum();
        reactions[n - 1] += on_right_overhang;

        // How support i's reaction grows with the moment over support j.
        let mut growth = vec![vec![0.0; n]; n];
        for (i, span) in spans.iter().enumerate() {
            for (support, sign) in [(i, 1.0), (i + 1, -1.0)] {
                growth[support][i + 1] += sign / span.h;
                growth[support][i] -= sign / span.h;
            }
        }
        // Moments over the outer supports are those of the overhangs.
        let mut moments = vec![0.0; n];
        moments[0] = left_overhang.iter().map(|run| run.moment_about(x[0])).sum();
        moments[n - 1] = -right_overhang.iter().map(|run| run.moment_about(x[n - 1])).sum::<f64>();
        add_to_all(&mut reactions, &growth, &moments);
        let stand = |reactions: &[f64]| -> Vec<f64> {
            // y = s + c R
            let posts = set.iter().map(|i| &self.posts[*i]);
            posts.zip(reactions).map(|(post, r)| post.settlement + post.compliance * r).collect()
        };

        // The inner moments close the kinks that the beam would have without them.
        let y = stand(&reactions);
        let (mut flexibility, mut kinks) = (Vec::new(), Vec::new());
        for i in 1..n - 1 {
            let (l, r) = (&spans[i - 1], &spans[i]);
            // −B_l − A_r − h_l/6 M_{i−1} − h_r/6 M_{i+1} − EI ((y_{i+1} − y_i)/h_r − (y_i − y_{i−1})/h_l)
            let bow = (y[i + 1] - y[i]) / r.h - (y[i] - y[i - 1]) / l.h;
            let outer = l.h / 6.0 * moments[i - 1] + r.h / 6.0 * moments[i + 1];
            kinks.push(-l.right_area - r.left_area - outer - self.ei * bow);
            let row = (1..n - 1).map(|j| {
                let bending = match j.cmp(&i) {
                    Ordering::Equal => (l.h + r.h) / 3.0,
                    Ordering::Less if j + 1 == i => l.h / 6.0,
                    Ordering::Greater if j == i + 1 => r.h / 6.0,
                    _ => 0.0,
                };
                // A unit moment over j moves support k by c_k growth_kj, which kinks the beam over i by
                // growth_ik times that.
                let compliances = set.iter().map(|k| self.posts[*k].compliance).enumerate();
                let yielding: f64 = compliances.map(|(k, c)| growth[k][i] * c * growth[k][j]).sum();
                bending + self.ei * yielding
            });
            flexibility.push(row.collect());
        }
        let inner = solve(flexibility, kinks).ok_or(BeamError::BeyondPrecision)?;
        let mut inner_moments = vec![0.0; n];
        inner_moments[1..n - 1].copy_from_slice(&inner);
        add_to_all(&mut reactions, &growth, &inner_moments);
        for (moment, inner) in moments.iter_mut().zip(&inner_moments) {
            *moment += inner;
        }
        let y = stand(&reactions);

        // Course of everything: shear and moment first, then slopes that meet the supports.
        let mut pieces = course(left_overhang, 0.0, 0.0);
        let mut slope = 0.0;
        for (i, span) in spans.iter().enumerate() {
            // V_a = hinged + (M_b − M_a) / h
            let v = span.left + (moments[i + 1] - moments[i]) / span.h;
            let mut course = course(span.runs, v, moments[i]);
            let (sag, turn) = self.lay(&mut course, 0.0, 0.0);
            let first_slope = (y[i + 1] - y[i] - sag) / span.h;
            self.lay(&mut course, y[i], first_slope);
            if i == 0 {
                // Backward from the first support: as if begun level, then turned about it.
                let (sag, turn) = self.lay(&mut pieces, 0.0, 0.0);
                let end_slope = first_slope - turn;
                self.lay(&mut pieces, y[0] - sag - end_slope * (x[0] - left_end), end_slope);
            }
            slope = first_slope + turn;
            pieces.extend(course);
        }
        let mut overhang = course(right_overhang, on_right_overhang, moments[n - 1]);
        self.lay(&mut overhang, y[n - 1], slope);
        pieces.extend(overhang);

        let mut of_all = vec![0.0; self.posts.len()];
        for (i, reaction) in set.iter().zip(reactions) {
            of_all[*i] = reaction;
        }
        Ok(Rest { reactions: of_all, pieces })
    }

    /// Gives pieces in a row their deflections and slopes from those at the first one's start; returns both at the end.
    fn lay(&self, pieces: &mut [Piece], y: f64, theta: f64) -> (f64, f64) {
        let mut at = (y, theta);
        for piece in pieces {
            (piece.y, piece.theta) = at;
            at = (piece.deflection(1.0, self.ei), piece.slope(1.0, self.ei));
        }
        at
    }

    /// The beam on supports that only push (see the module's notes).
    fn rest_on_pushing(&self) -> Result<Rest, BeamError> {
        let load: f64 = self.runs.iter().map(Run::resultant).sum();
        let about_first: f64 = self.runs.iter().map(|run| run.moment_about(self.posts[0].x)).sum();
        // x = Σ M / Σ P
        let resultant = self.posts[0].x + about_first / load;
        let last = self.posts.len() - 1;
        // Over an outer support it just stands.
        let (from, to) = (self.posts[0].x, self.posts[last].x);
        let over = (from - resultant).max(resultant - to);
        if load.is_nan() || load <= 0.0 || over > ROUNDING * (to - from) {
            return Err(BeamError::Tips);
        }
        let right = self.posts.partition_point(|post| post.x <= resultant).min(last);
        let mut set = vec![right - 1, right];
        let mut at = self.rest_on(&set)?;
        for _ in 0..100 * self.posts.len() {
            let Some(sunk) = self.sunk_most(&at, &set) else { return Ok(at) };
            let place = set.partition_point(|i| *i < sunk);
            set.insert(place, sunk);
            loop {
                let next = self.rest_on(&set)?;
                if set.len() == 2 || !next.pulls() {
                    at = next;
                    break;
                }
                // As far toward the next as none pulls.
                let reach = |i: usize| {
                    let (from, to) = (at.reactions[i].max(0.0), next.reactions[i]);
                    if to < 0.0 { from / (from - to) } else { f64::INFINITY }
                };
                let Some(first) = set.iter().copied().min_by(|a, b| reach(*a).total_cmp(&reach(*b))) else {
                    return Err(BeamError::BeyondPrecision);
                };
                let step = reach(first);
                for (reaction, next) in at.reactions.iter_mut().zip(&next.reactions) {
                    *reaction += step * (next - *reaction);
                }
                at.reactions[first] = 0.0;
                set.retain(|i| *i != first);
            }
        }
        Err(BeamError::BeyondPrecision)
    }

    /// The support outside a set that the beam sinks through the most.
    fn sunk_most(&self, rest: &Rest, set: &[usize]) -> Option<usize> {
        // Every support stands where a piece begins or the last one ends.
        let height = |x: f64| match rest.pieces.binary_search_by(|piece| piece.start.total_cmp(&x)) {
            Ok(piece) => rest.pieces[piece].y,
            Err(_) => rest.pieces[rest.pieces.len() - 1].deflection(1.0, self.ei),
        };
        let outside = (0..self.posts.len()).filter(|i| !set.contains(i));
        let greatest = self.posts.iter().map(|post| height(post.x).abs().max(post.settlement.abs()));
        let negligible = ROUNDING * greatest.fold(0.0, f64::max);
        let overlaps = outside.map(|i| (i, height(self.posts[i].x) - self.posts[i].settlement));
        let sunk = overlaps.filter(|(_, overlap)| *overlap > negligible);
        sunk.max_by(|(_, a), (_, b)| a.total_cmp(b)).map(|(i, _)| i)
    }

    fn bent(&self, rest: Rest) -> Result<Bent, BeamError> {
        let ei = self.ei;
        let mut shear = Peak { value: 0.0, station: 0.0 };
        let (mut moment, mut deflection) = (shear, shear);
        for piece in &rest.pieces {
            for share in [0.0, 1.0] {
                shear.look(piece, piece.shear(share), share);
                moment.look(piece, piece.moment(share), share);
                deflection.look(piece, piece.deflection(share, ei), share);
            }
        }
        // Between a piece's ends the root of the derivative tells, sought only where it can matter.
        for piece in &rest.pieces {
            for share in roots(&piece.load_terms()) {
                shear.look(piece, piece.shear(share), share);
            }
            if piece.greatest_moment() > moment.value.abs() {
                for share in roots(&piece.shear_terms()) {
                    moment.look(piece, piece.moment(share), share);
                }
            }
            if piece.greatest_deflection(ei) > deflection.value.abs() {
                for share in roots(&piece.slope_terms(ei)) {
                    deflection.look(piece, piece.deflection(share, ei), share);
                }
            }
        }
        let found = [shear.value, moment.value, deflection.value];
        if !found.iter().chain(&rest.reactions).all(|value| value.is_finite()) {
            return Err(BeamError::BeyondPrecision);
        }
        let mut reactions = vec![Weight::from_si(0.0); self.posts.len()];
        for (post, reaction) in self.posts.iter().zip(&rest.reactions) {
            reactions[post.given] = Weight::from_si(*reaction);
        }
        Ok(Bent {
            reactions,
            moment: typed(moment, Moment::new::<newton_meter>),
            shear: typed(shear, Weight::from_si),
            deflection: typed(deflection, Length::from_si),
            stiffness: self.ei,
            pieces: rest.pieces,
        })
    }
}

/// A greatest value in plain numbers, SI.
#[derive(Clone, Copy)]
struct Peak {
    value: f64,
    station: f64,
}

impl Peak {
    /// Keeps a value so far along a piece if it is greater, or no number.
    fn look(&mut self, piece: &Piece, value: f64, share: f64) {
        if value.abs() > self.value.abs() || !value.is_finite() {
            *self = Self { value, station: piece.start + share * piece.length() };
        }
    }
}

fn typed<T>(extreme: Peak, as_quantity: impl Fn(f64) -> T) -> Extreme<T> {
    Extreme { value: as_quantity(extreme.value), station: Length::from_si(extreme.station) }
}

/// All loads together between two neighbouring breaks.
fn joined(loads: &[Run], start: f64, end: f64) -> Run {
    let mut run = Run { start, end, w_start: 0.0, w_end: 0.0 };
    for load in loads.iter().filter(|load| load.start <= start && load.end >= end) {
        // w = w_a + (w_b − w_a) (x − a) / h
        let at = |x: f64| {
            let share = (x - load.start) / load.length();
            load.w_start * (1.0 - share) + load.w_end * share
        };
        run.w_start += at(start);
        run.w_end += at(end);
    }
    run
}

/// A span between neighbouring supports, as if its ends were hinged.
struct Span<'a> {
    runs: &'a [Run],
    h: f64,
    /// Reactions at its ends.
    left: f64,
    right: f64,
    /// `A` and `B`.
    left_area: f64,
    right_area: f64,
}

impl<'a> Span<'a> {
    fn new(runs: &'a [Run], a: f64, b: f64) -> Self {
        let h = b - a;
        let right = runs.iter().map(|run| run.moment_about(a)).sum::<f64>() / h;
        let left = -runs.iter().map(|run| run.moment_about(b)).sum::<f64>() / h;
        let (mut left_area, mut right_area) = (0.0, 0.0);
        for piece in course(runs, left, 0.0) {
            // Three points of Gauss integrate a cubic times a line exactly.
            let off = 0.6f64.sqrt() / 2.0;
            for (share, weight) in [(0.5 - off, 5.0 / 18.0), (0.5, 8.0 / 18.0), (0.5 + off, 5.0 / 18.0)] {
                let part = weight * piece.length() * piece.moment(share) / h;
                let x = piece.start + share * piece.length();
                left_area += part * (b - x);
                right_area += part * (x - a);
            }
        }
        Self { runs, h, left, right, left_area, right_area }
    }
}

/// Shear and moment along runs in a row, from those at the start.
fn course(runs: &[Run], mut v: f64, mut m: f64) -> Vec<Piece> {
    let pieces = runs.iter().map(|run| {
        let piece = Piece::new(*run, v, m);
        (v, m) = (piece.shear(1.0), piece.moment(1.0));
        piece
    });
    pieces.collect()
}

/// Adds `matrix · by` to values.
fn add_to_all(values: &mut [f64], matrix: &[Vec<f64>], by: &[f64]) {
    for (value, row) in values.iter_mut().zip(matrix) {
        *value += row.iter().zip(by).map(|(a, b)| a * b).sum::<f64>();
    }
}

/// The solution of linear equations, by elimination with row pivots; none when they have no single one.
fn solve(mut matrix: Vec<Vec<f64>>, mut right: Vec<f64>) -> Option<Vec<f64>> {
    let n = right.len();
    for column in 0..n {
        let pivot =
            (column..n).max_by(|a, b| matrix[*a][column].abs().total_cmp(&matrix[*b][column].abs()))?;
        matrix.swap(column, pivot);
        right.swap(column, pivot);
        let (above, below) = matrix.split_at_mut(column + 1);
        let pivot_row = &above[column];
        if pivot_row[column] == 0.0 || !pivot_row[column].is_finite() {
            return None;
        }
        for (offset, row) in below.iter_mut().enumerate() {
            let factor = row[column] / pivot_row[column];
            for (value, pivot) in row.iter_mut().zip(pivot_row).skip(column) {
                *value -= factor * pivot;
            }
            right[column + 1 + offset] -= factor * right[column];
        }
    }
    for row in (0..n).rev() {
        let known: f64 = (row + 1..n).map(|j| matrix[row][j] * right[j]).sum();
        right[row] = (right[row] - known) / matrix[row][row];
    }
    Some(right)
}
