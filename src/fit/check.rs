//! What a check is, and how a load is judged against its limits.

use super::bunks::BunkLoads;
use super::known::Known;
use super::loads::CaseLoads;
use super::ramp::Peaks;
use crate::quantity::{Length, Pressure, Quantity, Share, Weight};
use crate::rig::{Key, MAX_AXLES, Setup, slug};

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
        }
    }

    /// Its size in SI: newtons, metres, pascals, or a plain fraction.
    pub fn si(self) -> f64 {
        match self {
            Self::Weight(weight) => weight.si(),
            Self::Share(share) => share.si(),
            Self::Length(length) | Self::Deflection(length) => length.si(),
            Self::Stress(stress) => stress.si(),
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
    /// It in words.
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

/// For what a check is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rows {
    /// Once for the rig.
    Rig,
    /// For each axle.
    Axles,
    /// For each axle but the rear one, on two axles or more.
    AxlesButRear,
    /// Once, on two axles or more.
    SeveralAxles,
    /// Once, where there is a ramp.
    Ramp,
    /// For each axle, where there is a ramp.
    RampAxles,
    /// For each low point, where there is a ramp.
    RampPoints,
    /// Once, where there are bunks.
    Bunks,
    /// For each crossmember that the bunks reach.
    BunkCrossmembers,
    /// For each crossmember under the boat.
    KeelCrossmembers,
    /// Once, where there are fenders.
    Fenders,
    /// For each of the boat's low points, where there are crossmembers.
    Gear,
}

/// What a check is about, beside the level road.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Topic {
    /// The level road.
    Road,
    /// The ramps.
    Ramps,
    /// The bunks, and what clears what.
    Bunks,
}

impl Rows {
    fn topic(self) -> Topic {
        match self {
            Self::Rig | Self::Axles | Self::AxlesButRear | Self::SeveralAxles => Topic::Road,
            Self::Ramp | Self::RampAxles | Self::RampPoints => Topic::Ramps,
            Self::Bunks | Self::BunkCrossmembers | Self::KeelCrossmembers | Self::Fenders | Self::Gear => {
                Topic::Bunks
            }
        }
    }

    /// Whether its rows are told apart by names, not by numbers.
    pub(super) fn are_named(self) -> bool {
        matches!(self, Self::RampPoints | Self::Gear)
    }
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
    /// The very size.
    Size,
}

/// Whether a check must hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Counts {
    /// It must.
    Yes,
    /// It only advises.
    No,
    /// It must on three axles and more.
    FromThreeAxles,
}

/// What can cure a failing check.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Remedy {
    /// A part of a higher rating.
    Rating,
    /// Tires of a higher rating, on a load that each carries.
    Tires,
    /// Tires and wheels of a higher rating, on a load that the axle's carry together.
    TiresTogether,
    /// A part of the right size.
    Size,
    /// Less weight in the boat.
    Shed,
    /// The boat moved.
    MoveBoat,
    /// A part set higher or lower.
    Reset,
    /// The boat lifted on its bunks.
    Raise,
}

/// The limits of a check in SI; either may be absent.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Bounds {
    /// Not below this.
    pub min: Option<f64>,
    /// Not above this.
    pub max: Option<f64>,
}

impl Bounds {
    pub(super) fn at_most(max: Weight) -> Self {
        Self { min: None, max: Some(max.si()) }
    }

    pub(super) fn up_to(max: Weight) -> Self {
        Self { min: Some(0.0), max: Some(max.si()) }
    }
}

/// How a load is had, in SI; the last argument is the axle or the low point, counted from 0.
#[derive(Debug, Clone, Copy)]
pub(super) enum Load {
    /// From the description alone.
    Stated(fn(&Setup, usize) -> Known<f64>),
    /// From the loads of a case.
    InCase(fn(&Setup, &CaseLoads, usize) -> Known<f64>),
    /// From the loads of a case, to starboard and to port.
    OnSides(fn(&Setup, &CaseLoads, usize) -> Known<[f64; 2]>),
    /// From the worst moments of a crossing; none where an axle that should hold is unloaded.
    OnRamp(fn(&Peaks, usize) -> Known<Option<f64>>),
    /// From what the bunks carry in a case; none where nothing carries the boat.
    OnBunks(fn(&Setup, &BunkLoads, usize) -> Known<Option<f64>>),
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
    /// What kind of value it compares.
    pub measure: Measure,
    /// For what it is made.
    pub rows: Rows,
    /// How the load is judged.
    pub judge: Judge,
    /// Whether it must hold.
    pub counts: Counts,
    /// Whether a rig is incomplete without it.
    pub core: bool,
    /// What can cure it.
    pub remedies: &'static [Remedy],
    /// What is said when the load is over its limit; `{load}`, `{max}` and `{miss}` stand for amounts.
    pub too_much: &'static str,
    /// What is said when it is under its lower limit; `{load}`, `{min}` and `{miss}` stand for amounts.
    pub too_little: &'static str,
    pub(super) load: Load,
    pub(super) limits: fn(&Setup, usize) -> Known<Bounds>,
}

impl Check {
    /// One of its texts for no axle or point in particular.
    pub fn in_general(&self, text: &str) -> String {
        text.replace('*', if self.rows.are_named() { "NAME" } else { "i" })
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
        if self.rows.are_named() {
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
        let begun = subject.strip_suffix('-').filter(|_| prefix.is_some() && self.rows.are_named());
        let last = match self.rows {
            Rows::Axles | Rows::RampAxles => MAX_AXLES,
            Rows::AxlesButRear => MAX_AXLES - 1,
            _ => usize::MAX,
        };
        self.is_of(begun.unwrap_or(subject)) && subject.parse().map_or(true, |number: usize| number <= last)
    }

    /// What it is about.
    pub fn topic(&self) -> Topic {
        self.rows.topic()
    }

    /// Whether it is made of the worst moments over a ramp.
    pub fn is_about_ramps(&self) -> bool {
        self.topic() == Topic::Ramps
    }

    /// Whether it is about bunks and what clears what on them.
    pub fn is_about_bunks(&self) -> bool {
        self.topic() == Topic::Bunks
    }

    /// Whether it is made of the loads with the rear axle lifted.
    pub fn is_about_lifting(&self) -> bool {
        matches!(self.rows, Rows::AxlesButRear | Rows::SeveralAxles)
    }
}

/// Each id stands for one entry of the registry.
impl PartialEq for Check {
    fn eq(&self, other: &Self) -> bool {
        self.id == other.id
    }
}

/// What became of a check.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// Inside, with room.
    Pass,
    /// Inside, with little room.
    Thin,
    /// Inside as stated, but not at every value that the stated uncertainty allows; the limit counts.
    Unsure,
    /// Outside a limit that only advises.
    Advise,
    /// Outside a limit that counts.
    Fail,
    /// Not made: something is missing.
    NotChecked,
}

/// One check, made.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// The check.
    pub check: &'static Check,
    /// What it is about.
    pub of: Of,
    /// The load in the governing case.
    pub load: Option<Amount>,
    /// The lower limit.
    pub min: Option<Amount>,
    /// The upper limit.
    pub max: Option<Amount>,
    /// The smaller distance inside the limits, negative outside.
    pub margin: Option<Amount>,
    /// Load over rating; for a band 0 at its middle and 1 at its ends.
    pub used: Option<Share>,
    /// What became of it.
    pub verdict: Verdict,
    /// Whether it must hold.
    pub counts: bool,
    /// The governing case, where cases matter.
    pub case: Option<usize>,
    /// The governing ramp, where ramps matter.
    pub ramp: Option<usize>,
    /// The keys that are missing.
    pub missing: Vec<Key>,
}

impl Row {
    /// Whether it is made of the worst moments over a ramp.
    pub fn is_about_ramps(&self) -> bool {
        self.check.is_about_ramps()
    }

    /// Whether it is about bunks and what clears what on them.
    pub fn is_about_bunks(&self) -> bool {
        self.check.is_about_bunks()
    }

    /// Its id, with the axle's number.
    pub fn id(&self) -> String {
        self.of.fill(self.check.id)
    }

    /// Its short name, with the axle's number.
    pub fn name(&self) -> String {
        self.of.fill(self.check.name)
    }

    /// What it compares, with the axle's number.
    pub fn what(&self) -> String {
        self.of.fill(self.check.what)
    }
}

/// A load against its limits, in SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Judged {
    /// Negative outside.
    pub margin: f64,
    /// Load over rating, or the place inside a band.
    pub used: Option<f64>,
    /// Inside with less than the policy's share left.
    pub thin: bool,
}

/// Sizes of one part agree when they differ by less than this: a size in inches restated in
/// millimetres is rounded by up to 0.05 mm.
pub(super) const SAME_SIZE: f64 = 5e-5;

/// A limit that a tape gives is met by what misses it by rounding alone: a nanometre, in SI.
const HAIR: f64 = 1e-9;

pub(super) fn not_by_a_hair(margin: f64) -> f64 {
    if margin.abs() < HAIR { 0.0 } else { margin }
}

/// Judges a load; `thin` is the policy's share of a rating or band.
pub(super) fn judge(how: Judge, load: f64, limits: Bounds, thin: f64) -> Judged {
    let (min, max) = (limits.min.unwrap_or(f64::NEG_INFINITY), limits.max.unwrap_or(f64::INFINITY));
    match how {
        Judge::SignedRating if load < 0.0 => Judged { margin: load, used: Some(load / max), thin: false },
        Judge::Rating | Judge::SignedRating => {
            let margin = max - load;
            Judged { margin, used: Some(load / max), thin: margin < thin * max }
        }
        Judge::FlooredRating => {
            let above = max - load;
            Judged { margin: above.min(load - min), used: Some(load / max), thin: above < thin * max }
        }
        Judge::Band => {
            let (middle, half) = (f64::midpoint(min, max), (max - min) / 2.0);
            let margin = (load - min).min(max - load);
            Judged { margin, used: Some((load - middle).abs() / half), thin: margin < thin * (max - min) }
        }
        Judge::Floor => Judged { margin: not_by_a_hair(load - min), used: None, thin: false },
        Judge::Ceiling => Judged { margin: not_by_a_hair(max - load), used: None, thin: false },
        Judge::Size => {
            let miss = (load - max).abs();
            Judged { margin: if miss < SAME_SIZE { 0.0 } else { -miss }, used: None, thin: false }
        }
    }
}
