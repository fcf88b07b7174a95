//! What a check is, and how a load is judged against its limits.

use super::facts::{Facet, View};
use super::known::{Known, Missing};
use crate::quantity::show::{self, UnitSystem};
use crate::quantity::{Charge, Kind, Length, Moment, Pressure, Quantity, Share, Speed, Weight};
use crate::rig::inputs::Handle;
use crate::rig::{LowPoint, MAX_AXLES, Setup, SuspensionKind, slug};

/// What a check compares.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measure {
    /// Weights.
    Weight,
    /// Shares.
    Share,
    /// Lengths.
    Length,
    /// Stresses and pressures.
    Stress,
    /// Deflections: small lengths.
    Deflection,
    /// Pressures of tires and brake lines.
    Inflation,
    /// Moments.
    Moment,
    /// Speeds.
    Speed,
    /// Electric charges.
    Charge,
    /// Heights of hills, and distances along roads.
    Distance,
    /// Forces on plates of couplings.
    Force,
    /// Plain numbers.
    Number,
}

/// A value that a check compares.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Amount {
    /// A weight.
    Weight(Weight),
    /// A share.
    Share(Share),
    /// A length.
    Length(Length),
    /// A stress or a pressure.
    Stress(Pressure),
    /// A deflection.
    Deflection(Length),
    /// The pressure of a tire or a brake line.
    Inflation(Pressure),
    /// A moment.
    Moment(Moment),
    /// A speed.
    Speed(Speed),
    /// An electric charge.
    Charge(Charge),
    /// The height of a hill, or a distance along a road.
    Distance(Length),
    /// A force on a coupling's plate.
    Force(Weight),
    /// A plain number.
    Number(f64),
}

impl Amount {
    /// The amount of this size in SI.
    pub fn from_si(measure: Measure, si: f64) -> Self {
        match measure {
            Measure::Weight => Self::Weight(Weight::from_si(si)),
            Measure::Share => Self::Share(Share::from_si(si)),
            Measure::Length => Self::Length(Length::from_si(si)),
            Measure::Stress => Self::Stress(Pressure::from_si(si)),
            Measure::Deflection => Self::Deflection(Length::from_si(si)),
            Measure::Inflation => Self::Inflation(Pressure::from_si(si)),
            Measure::Moment => Self::Moment(Moment::from_si(si)),
            Measure::Speed => Self::Speed(Speed::from_si(si)),
            Measure::Charge => Self::Charge(Charge::from_si(si)),
            Measure::Distance => Self::Distance(Length::from_si(si)),
            Measure::Force => Self::Force(Weight::from_si(si)),
            Measure::Number => Self::Number(si),
        }
    }

    /// The same kind of value, of this size in SI.
    #[must_use]
    pub fn with_si(self, si: f64) -> Self {
        Self::from_si(self.measure(), si)
    }

    /// What kind of value it is.
    pub fn measure(self) -> Measure {
        match self {
            Self::Weight(_) => Measure::Weight,
            Self::Share(_) => Measure::Share,
            Self::Length(_) => Measure::Length,
            Self::Stress(_) => Measure::Stress,
            Self::Deflection(_) => Measure::Deflection,
            Self::Inflation(_) => Measure::Inflation,
            Self::Moment(_) => Measure::Moment,
            Self::Speed(_) => Measure::Speed,
            Self::Charge(_) => Measure::Charge,
            Self::Distance(_) => Measure::Distance,
            Self::Force(_) => Measure::Force,
            Self::Number(_) => Measure::Number,
        }
    }

    /// It as an unrounded number of the units that machine-readable reports have.
    pub fn number(self, units: UnitSystem) -> f64 {
        self.measure().kind().map_or(self.si(), |kind| show::number(self.si(), kind, units).0)
    }

    /// The amount that [`Self::number`] gives so.
    pub fn from_number(measure: Measure, number: f64, units: UnitSystem) -> Self {
        let unit = Self::from_si(measure, 1.0).number(units);
        Self::from_si(measure, number / unit)
    }

    /// Its size in SI: newtons, metres, pascals, newton metres, metres a second, coulombs, or a plain number.
    pub fn si(self) -> f64 {
        match self {
            Self::Weight(weight) | Self::Force(weight) => weight.si(),
            Self::Share(share) => share.si(),
            Self::Length(length) | Self::Deflection(length) | Self::Distance(length) => length.si(),
            Self::Stress(stress) | Self::Inflation(stress) => stress.si(),
            Self::Moment(moment) => moment.si(),
            Self::Speed(speed) => speed.si(),
            Self::Charge(charge) => charge.si(),
            Self::Number(number) => number,
        }
    }
}

impl Measure {
    /// The kind of quantity whose units it is reported in; a share and a plain number have none.
    pub fn kind(self) -> Option<Kind> {
        match self {
            Self::Share | Self::Number => None,
            Self::Weight => Some(Kind::Weight),
            Self::Length | Self::Deflection => Some(Kind::Length),
            Self::Stress => Some(Kind::Stress),
            Self::Inflation => Some(Kind::LinePressure),
            Self::Moment => Some(Kind::Moment),
            Self::Speed => Some(Kind::Speed),
            Self::Charge => Some(Kind::Charge),
            Self::Distance => Some(Kind::Distance),
            Self::Force => Some(Kind::Force),
        }
    }
}

/// How sure a limit's source is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Certainty {
    /// Read in the source itself.
    Read,
    /// Read on a page that quotes the source.
    Quoted,
    /// Exact mathematics.
    Derived,
    /// A published value recalled, not looked up.
    FromMemory,
    /// A fact of the trade without a source.
    CommonPractice,
}

impl Certainty {
    /// The same in words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Read => "read in the source",
            Self::Quoted => "read on a page that quotes the source",
            Self::Derived => "exact by definition or derivation",
            Self::FromMemory => "from memory",
            Self::CommonPractice => "common practice, no source",
        }
    }
}

/// Where a limit comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Basis {
    /// What sets the limit.
    pub limit: &'static str,
    /// The document behind it.
    pub source: &'static str,
    /// How sure the source is.
    pub certainty: Certainty,
}

/// What a check is about: the folder that it is declared in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Subject {
    /// The trailer on the level road: weight, tongue, axles, tires.
    Road,
    /// What couples the trailer, from coupler to receiver, and the jack.
    Hitch,
    /// The tow vehicle.
    Tow,
    /// The ramps.
    Ramp,
    /// The bunks, and what clears what.
    Bunks,
    /// The brakes.
    Brakes,
    /// The winch.
    Winch,
    /// What ties the boat down.
    TieDowns,
    /// Launching, and coming home.
    Launch,
}

impl Subject {
    /// Every subject, in the order of reports.
    pub const ALL: [Self; 9] = [
        Self::Road,
        Self::Hitch,
        Self::Tow,
        Self::Ramp,
        Self::Bunks,
        Self::Brakes,
        Self::Winch,
        Self::TieDowns,
        Self::Launch,
    ];

    /// Its name, as options and JSON spell it.
    pub fn name(self) -> &'static str {
        match self {
            Self::Road => "road",
            Self::Hitch => "hitch",
            Self::Tow => "tow",
            Self::Ramp => "ramp",
            Self::Bunks => "bunks",
            Self::Brakes => "brakes",
            Self::Winch => "winch",
            Self::TieDowns => "tie-downs",
            Self::Launch => "launch",
        }
    }
}

/// What takes the place of the `*` in the id of a row.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ToldBy {
    /// Nothing: there is one row.
    Nothing,
    /// A number from 1, up to this.
    Number {
        /// The greatest that any rig may have.
        most: usize,
    },
    /// A name as ids spell it.
    Name,
}

/// The rows of a check.
#[derive(Debug, Clone, Copy)]
pub struct Rows {
    /// How their ids differ.
    pub told_by: ToldBy,
    /// What each of them is about, those included that are only there once something has moved.
    pub(super) all: fn(&Setup) -> Vec<Of>,
    /// Whether one of them is there as things stand.
    pub(super) is_there: fn(&Setup, usize) -> bool,
}

impl Rows {
    /// One row, where a rig has what it is about.
    pub(super) const fn one(where_it_has: fn(&Setup) -> Vec<Of>) -> Self {
        Self { told_by: ToldBy::Nothing, all: where_it_has, is_there: |_, _| true }
    }

    /// One row for every rig.
    pub(super) const RIG: Self = Self::one(|_| vec![Of::Rig]);

    /// A row for each axle.
    pub(super) const AXLES: Self = Self::numbered(MAX_AXLES, |setup| axles(setup.trailer.axles.len()));

    /// Rows whose ids differ by a number.
    pub(super) const fn numbered(most: usize, all: fn(&Setup) -> Vec<Of>) -> Self {
        Self { told_by: ToldBy::Number { most }, all, is_there: |_, _| true }
    }

    /// Rows whose ids differ by a name.
    pub(super) const fn named(all: fn(&Setup) -> Vec<Of>) -> Self {
        Self { told_by: ToldBy::Name, all, is_there: |_, _| true }
    }

    /// The same, each there only where this holds of its place in its list.
    pub(super) const fn there_where(self, is_there: fn(&Setup, usize) -> bool) -> Self {
        Self { is_there, ..self }
    }
}

/// The first so many axles.
pub(super) fn axles(count: usize) -> Vec<Of> {
    (0..count).map(Of::Axle).collect()
}

/// These low points.
pub(super) fn named<'a>(points: impl Iterator<Item = &'a LowPoint>) -> Vec<Of> {
    let name = |point: &LowPoint| slug(point.name.as_deref().unwrap_or_default());
    points.enumerate().map(|(i, point)| Of::Point(i, name(point))).collect()
}

/// What one row is about.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Of {
    /// The rig.
    Rig,
    /// An axle, counted from 0.
    Axle(usize),
    /// A crossmember, counted from 0.
    Crossmember(usize),
    /// A low point, counted from 0, and its name as ids spell it.
    Point(usize, String),
}

impl Of {
    /// Its place in its list, 0 for the rig.
    pub fn element(&self) -> usize {
        match self {
            Self::Rig => 0,
            Self::Axle(element) | Self::Crossmember(element) | Self::Point(element, _) => *element,
        }
    }

    /// A text in which `*` stands for the axle's or crossmember's number or the point's name.
    pub fn fill(&self, text: &str) -> String {
        match self {
            Self::Rig => text.to_string(),
            Self::Axle(n) | Self::Crossmember(n) => text.replace('*', &(n + 1).to_string()),
            Self::Point(_, name) => text.replace('*', name),
        }
    }
}

/// How a load is judged.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Judge {
    /// At most a rating.
    Rating,
    /// At most a rating, and not below zero.
    SignedRating,
    /// At most a rating, and not below a lower limit where there is one.
    FlooredRating,
    /// Inside a band.
    Band,
    /// At least a limit.
    Floor,
    /// At most a limit that is no rating.
    Ceiling,
    /// From one limit to the other, of which neither is a rating.
    Between,
    /// Exactly a size.
    Size,
}

/// Whether a rig is incomplete without a check.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Core {
    /// It is not.
    No,
    /// It is.
    Always,
    /// It is where the file describes a hitch or a tow vehicle.
    Coupled,
}

/// What can cure a failing check.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Remedy {
    /// A higher rating that no part alone brings: a placard's, the tow vehicle's, or a crossmember's.
    Rating,
    /// A part that is sold by this rating.
    Buy(Handle<Weight>),
    /// Parts of which each has this figure on its plate: all that state too little.
    Plates(&'static [Handle<Weight>]),
    /// Tires of a higher rating, on a load that each carries.
    Tires,
    /// Tires pumped up to the pressure at which they hold their rating.
    Inflate,
    /// Tires and wheels of a higher rating, on a load that the axle's carry together.
    TiresTogether,
    /// A part of the right size; this key states it.
    Size(Handle<Length>),
    /// A master cylinder of another bore.
    Bore,
    /// A shorter strap on the winch.
    Shorten,
    /// Less weight in the boat.
    Shed,
    /// The boat moved.
    MoveBoat,
    /// The axles moved along the frame.
    MoveAxles,
    /// The tongue drawn in or out.
    MoveTongue,
    /// The bunks moved along the frame.
    MoveBunks,
    /// The ball at the height that levels the frame.
    LevelBall,
    /// Bunks that reach farther forward or aft.
    Ends,
    /// Bunks of another board.
    Board,
    /// One crossmember more under the bunks, or two.
    Crossmember,
    /// A part set higher or lower.
    Reset,
    /// The boat lifted on its bunks.
    Raise,
}

impl Remedy {
    /// Whether something is only set elsewhere.
    pub fn is_move(self) -> bool {
        matches!(
            self,
            Self::MoveBoat
                | Self::MoveAxles
                | Self::MoveTongue
                | Self::MoveBunks
                | Self::LevelBall
                | Self::Inflate
                | Self::Shorten
        )
    }
}

/// What it means to be past a limit.
#[derive(Debug, Clone, PartialEq)]
pub enum Past {
    /// The rig fails.
    Fails,
    /// The owner is advised.
    Advises,
    /// The owner is advised, and past this, in SI, the rig fails.
    FailsBeyond(Known<f64>),
}

/// One side of a row's limits.
#[derive(Debug, Clone, PartialEq)]
pub struct Bound {
    /// The limit in SI, or the keys that it lacks.
    pub at: Known<f64>,
    /// What it means to be past it.
    pub past: Past,
}

impl Bound {
    fn failing<Q: Quantity>(at: Known<Q>) -> Self {
        Self { at: at.map(Quantity::si), past: Past::Fails }
    }

    /// Where the rig fails: at the limit itself, beyond it, or nowhere.
    pub fn fails_at(&self) -> Option<&Known<f64>> {
        match &self.past {
            Past::Fails => Some(&self.at),
            Past::FailsBeyond(at) => Some(at),
            Past::Advises => None,
        }
    }
}

/// The limits of a row in SI. A side without one is none.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Limits {
    /// Not below this.
    pub min: Option<Bound>,
    /// Not above this.
    pub max: Option<Bound>,
}

impl Limits {
    /// At most this; past it the rig fails.
    pub(super) fn at_most<Q: Quantity>(max: Known<Q>) -> Self {
        Self { min: None, max: Some(Bound::failing(max)) }
    }

    /// At most this, and not below zero, which needs no key.
    pub(super) fn up_to<Q: Quantity>(max: Known<Q>) -> Self {
        Self { min: Some(Bound { at: Ok(0.0), past: Past::Fails }), ..Self::at_most(max) }
    }

    /// At least this; below it the rig fails.
    pub(super) fn at_least<Q: Quantity>(min: Known<Q>) -> Self {
        Self { min: Some(Bound::failing(min)), max: None }
    }

    /// From one to the other; outside the rig fails.
    pub(super) fn between<Q: Quantity>(min: Known<Q>, max: Known<Q>) -> Self {
        Self { min: Some(Bound::failing(min)), max: Some(Bound::failing(max)) }
    }

    /// The same limits, past which the owner is advised.
    pub(super) fn advising(self) -> Self {
        let advises = |bound: Bound| Bound { past: Past::Advises, ..bound };
        Self { min: self.min.map(advises), max: self.max.map(advises) }
    }

    /// The same, the upper limit advising up to this, past which the rig fails.
    pub(super) fn failing_above<Q: Quantity>(self, fails: Known<Q>) -> Self {
        let past = Past::FailsBeyond(fails.map(Quantity::si));
        Self { max: self.max.map(|bound| Bound { past, ..bound }), ..self }
    }

    /// The same, the lower limit advising down to this, past which the rig fails.
    pub(super) fn failing_below<Q: Quantity>(self, fails: Known<Q>) -> Self {
        let past = Past::FailsBeyond(fails.map(Quantity::si));
        Self { min: self.min.map(|bound| Bound { past, ..bound }), ..self }
    }

    /// Whether a load can be past a limit so that the rig fails.
    pub(super) fn can_fail(&self) -> bool {
        [&self.min, &self.max].into_iter().flatten().any(|bound| bound.fails_at().is_some())
    }
}

/// What a row is evaluated at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct At {
    /// The place of what the row is about in its list.
    pub of: usize,
    /// The ramp, where ramps matter.
    pub ramp: Option<usize>,
}

/// What was read, in SI.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Reading {
    /// One load.
    One(f64),
    /// One load, and the keys of limits that may be less than those known: inside these it is not known to hold.
    UpTo(f64, Missing),
    /// One to starboard and one to port.
    Sides([f64; 2]),
    /// What should hold is unloaded, or nothing carries the boat: worse than any load.
    HoldsNothing,
    /// Nothing is asked here, whatever the load.
    Free,
}

/// How a load is read; the last argument is the place of what the row is about in its list.
#[derive(Debug, Clone, Copy)]
pub(super) struct Load {
    pub from: Facet,
    pub read: fn(&View<'_>, usize) -> Known<Reading>,
    /// The limits that each case sets, where they differ from case to case: they stand for the check's own there.
    pub limits: Option<fn(&View<'_>, usize) -> Limits>,
}

impl Load {
    /// The same load against limits that each case sets.
    pub const fn within(self, limits: fn(&View<'_>, usize) -> Limits) -> Self {
        Self { limits: Some(limits), ..self }
    }

    /// From the description alone.
    pub const fn described(read: fn(&View<'_>, usize) -> Known<Reading>) -> Self {
        Self { from: Facet::Description, read, limits: None }
    }

    /// From a case on level ground.
    pub const fn level(read: fn(&View<'_>, usize) -> Known<Reading>) -> Self {
        Self { from: Facet::Level, read, limits: None }
    }

    /// From a case with the rear axle lifted.
    pub const fn lifted(read: fn(&View<'_>, usize) -> Known<Reading>) -> Self {
        Self { from: Facet::Lifted, read, limits: None }
    }

    /// From the worst moments of a crossing.
    pub const fn on_ramp(read: fn(&View<'_>, usize) -> Known<Reading>) -> Self {
        Self { from: Facet::Ramp, read, limits: None }
    }

    /// The same, of which more of the ramp must be crossed.
    pub const fn traction(read: fn(&View<'_>, usize) -> Known<Reading>) -> Self {
        Self { from: Facet::Traction, read, limits: None }
    }

    /// From the least clearances of a crossing, or of the level road where there is no ramp.
    pub const fn clearance(read: fn(&View<'_>, usize) -> Known<Reading>) -> Self {
        Self { from: Facet::Clearance, read, limits: None }
    }

    /// From the rig as it brakes in a case.
    pub const fn braking(read: fn(&View<'_>, usize) -> Known<Reading>) -> Self {
        Self { from: Facet::Braking, read, limits: None }
    }

    /// From what bends tongue and rails in a case.
    pub const fn frame(read: fn(&View<'_>, usize) -> Known<Reading>) -> Self {
        Self { from: Facet::Frame, read, limits: None }
    }

    /// From what the bunks carry in a case.
    pub const fn on_bunks(read: fn(&View<'_>, usize) -> Known<Reading>) -> Self {
        Self { from: Facet::Bunks, read, limits: None }
    }

    /// From the winch on a ramp in a case.
    pub const fn winch(read: fn(&View<'_>, usize) -> Known<Reading>) -> Self {
        Self { from: Facet::Winch, read, limits: None }
    }

    /// From launching on a ramp in a case.
    pub const fn launch(read: fn(&View<'_>, usize) -> Known<Reading>) -> Self {
        Self { from: Facet::Launch, read, limits: None }
    }
}

/// One check: everything about it stands here.
///
/// The load and its limits are in SI: newtons, metres, or a plain fraction.
#[derive(Debug)]
pub struct Check {
    /// Its id; `*` stands for the axle's number or the low point's name.
    pub id: &'static str,
    /// A short name; `*` stands for the axle's number.
    pub name: &'static str,
    /// What it compares.
    pub what: &'static str,
    /// How the load is computed.
    pub formula: &'static str,
    /// Where the limit comes from.
    pub basis: Basis,
    /// What to measure, and how.
    pub measuring: &'static str,
    /// What usually cures it.
    pub cures: &'static str,
    /// The subject that it belongs to.
    pub subject: Subject,
    /// What kind of value it compares.
    pub measure: Measure,
    /// Its rows.
    pub rows: Rows,
    /// How the load is judged.
    pub judge: Judge,
    /// Whether a rig is incomplete without it.
    pub core: Core,
    /// What can cure it.
    pub remedies: &'static [Remedy],
    /// What is said when the load is over its limit; `{load}`, `{max}` and `{miss}` stand for amounts.
    pub too_much: &'static str,
    /// What is said when it is under its lower limit; `{load}`, `{min}` and `{miss}` stand for amounts.
    pub too_little: &'static str,
    pub(super) load: Load,
    pub(super) limits: fn(&Setup, At) -> Limits,
}

impl Check {
    /// One of its texts for no axle or point in particular.
    pub fn in_general(&self, text: &str) -> String {
        text.replace('*', if self.rows.told_by == ToldBy::Name { "NAME" } else { "i" })
    }

    /// The pattern by which a policy moves the row of this id, or every row of the check where the id names none.
    pub fn pattern(&self, id: &str) -> String {
        let row = self.stem().and_then(|stem| id.strip_prefix(stem)).filter(|subject| {
            // A name may be an `i`; who asks so means any. Other letters than these a policy does not take.
            *subject != "i" && self.is_of(subject) && subject.is_ascii()
        });
        if row.is_some() { id.to_string() } else { self.id.to_string() }
    }

    /// Its id without the `*`, where it has one.
    pub(super) fn stem(&self) -> Option<&'static str> {
        self.id.strip_suffix('*')
    }

    /// Whether a row may stand for this in the place of the `*`: a number from 1, or a name as ids spell it.
    pub(super) fn is_of(&self, subject: &str) -> bool {
        if self.rows.told_by == ToldBy::Name {
            return !subject.is_empty() && slug(subject) == subject;
        }
        subject.parse::<usize>().is_ok_and(|number| number > 0 && number.to_string() == subject)
    }

    /// Whether a policy's pattern can match a row of it, in this rig or another.
    pub(super) fn can_match(&self, pattern: &str) -> bool {
        let prefix = pattern.strip_suffix('*');
        let Some(stem) = self.stem() else {
            return prefix.map_or(pattern == self.id, |prefix| self.id.starts_with(prefix));
        };
        if prefix.is_some_and(|prefix| stem.starts_with(prefix)) {
            return true;
        }
        let Some(subject) = prefix.unwrap_or(pattern).strip_prefix(stem) else { return false };
        // What a number begins with is a number; a name may go on after a hyphen.
        let begun =
            subject.strip_suffix('-').filter(|_| prefix.is_some() && self.rows.told_by == ToldBy::Name);
        let last = match self.rows.told_by {
            ToldBy::Number { most } => most,
            _ => usize::MAX,
        };
        self.is_of(begun.unwrap_or(subject)) && subject.parse().map_or(true, |number: usize| number <= last)
    }

    /// Whether it is about the worst moments over a ramp.
    pub fn is_about_ramps(&self) -> bool {
        matches!(self.load.from, Facet::Ramp | Facet::Traction | Facet::Clearance)
    }

    /// Whether its rows are read from crossings of ramps, or from launching on one, which take long; without a ramp,
    /// clearances are read from the level road.
    pub fn crosses_ramps(&self, setup: &Setup) -> bool {
        (self.is_about_ramps() && !setup.ramps.is_empty()) || self.load.from == Facet::Launch
    }

    /// Whether it takes a setup's equalized axles to share their load evenly, on the level.
    pub(super) fn shares_evenly(&self, setup: &Setup) -> bool {
        let trailer = &setup.trailer;
        let equalized = trailer.suspension.kind == Some(SuspensionKind::LeafEqualized);
        let of_axles = ["axle-*", "spring-*", "tire-*", "wheel-*"].contains(&self.id);
        of_axles && equalized && trailer.axles.len() > 1
    }

    /// Whether it compares a load with the rating of a part.
    pub fn is_rating(&self) -> bool {
        let rating = matches!(self.judge, Judge::Rating | Judge::SignedRating | Judge::FlooredRating);
        rating && self.measure == Measure::Weight
    }

    /// Whether it is about bunks and what clears what on them.
    pub fn is_about_bunks(&self) -> bool {
        self.subject == Subject::Bunks
    }
}

/// Each id stands for one entry of the registry.
impl PartialEq for Check {
    fn eq(&self, other: &Self) -> bool {
        self.id == other.id
    }
}
