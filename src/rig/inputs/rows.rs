//! What a row of the table says, and how a section's file writes its rows.

use super::key::{At, Key};
use crate::quantity::{Kind, Quantity};
use crate::rig::setup::{Choice, Part, Reach, Setup};
use std::fmt;

/// The sign a value may have.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sign {
    /// Any.
    Any,
    /// Zero or more.
    NotNegative,
    /// More than zero.
    Positive,
}

/// What setting an input beside the file means.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// A proposal, or, where the file lacks the key, the missing part of what was measured.
    Measured,
    /// Always a proposal: the file has it, or its default stands.
    Defaulted,
    /// Always a correction of what was measured.
    Correction,
    /// A proposal that no check reads: reports only repeat it.
    Informational,
}

/// What stands where the file is silent.
#[derive(Debug, Clone, Copy)]
pub struct Fallback {
    /// The value.
    pub preset: Preset,
    /// Why this value. With a basis, reports list the value as assumed; without one it goes without saying.
    pub basis: Option<&'static str>,
    /// Between which values the right one may lie, where that is tried.
    pub extent: Option<Extent>,
}

/// Between which values the right one may lie where a value is assumed.
#[derive(Debug, Clone, Copy)]
pub struct Extent {
    /// Both of them; of what makes a rate the softer first.
    pub ends: Ends,
    /// What it goes to its ends with.
    pub going: Going,
}

/// The ends of an [`Extent`].
#[derive(Debug, Clone, Copy)]
pub enum Ends {
    /// So many times the assumed value.
    Times(f64, f64),
    /// From one value to the other, in SI.
    Between(f64, f64),
    /// So much less and so much more than the assumed value, in SI.
    Around(f64),
    /// So many times the value of this key where that one is stated; where both are assumed, this one follows it.
    TimesStated(&'static str, f64, f64),
    /// They depend on other keys: how, in words, and what they are in SI in one setup.
    Rule(&'static str, fn(&Setup, At) -> Option<[f64; 2]>),
}

/// What an assumed value goes to its ends with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Going {
    /// With everything else that makes a rate: all soft or all stiff.
    WithRates,
    /// By itself, and combined end with end with the rates.
    WithEach,
    /// The same on the level alone: it matters only while the rig brakes.
    WhileBraking,
    /// By itself, alike in every element of its list. It changes what the level bears and limits, never how a ramp is
    /// crossed.
    Alone,
}

/// The value of a [`Fallback`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Preset {
    /// A quantity in SI.
    Value(f64),
    /// A whole number.
    Count(u32),
    /// A word, as the file would write it.
    Word(&'static str),
    /// It depends on other keys: how, in words.
    Rule(&'static str),
}

impl Fallback {
    /// The same value, listed as assumed for this reason.
    #[must_use]
    pub const fn assumed(self, basis: &'static str) -> Self {
        Self { basis: Some(basis), ..self }
    }

    /// The same value, and between which values the right one may lie.
    #[must_use]
    pub const fn within(self, ends: Ends, going: Going) -> Self {
        Self { extent: Some(Extent { ends, going }), ..self }
    }
}

/// A whole number that goes without saying.
pub const fn count(number: u32) -> Fallback {
    Fallback { preset: Preset::Count(number), basis: None, extent: None }
}

/// A quantity that goes without saying, in SI.
pub const fn value(si: f64) -> Fallback {
    Fallback { preset: Preset::Value(si), basis: None, extent: None }
}

/// A word that goes without saying.
pub const fn word(word: &'static str) -> Fallback {
    Fallback { preset: Preset::Word(word), basis: None, extent: None }
}

/// A value that depends on other keys.
pub const fn rule(how: &'static str) -> Fallback {
    Fallback { preset: Preset::Rule(how), basis: None, extent: None }
}

/// What a key's value is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Holds {
    /// A quantity of a kind.
    Quantity(Kind),
    /// A line of text.
    Text,
    /// A short name for cases and changes.
    Id,
    /// Yes or no.
    Flag,
    /// A whole number.
    Count,
    /// A plain number by which loads are multiplied.
    Factor,
    /// A word from a list.
    Choice,
    /// Two lengths.
    Reach,
    /// Patterns of check ids.
    Checks,
    /// Parts of the boat's load, by id.
    Parts,
}

/// One row of the table.
#[derive(Debug)]
pub struct Input {
    /// The path, with `*` for a list element.
    pub path: &'static str,
    /// What its value is.
    pub holds: Holds,
    /// The sign its value may have.
    pub sign: Sign,
    /// What setting it beside the file means.
    pub role: Role,
    /// What it is.
    pub meaning: &'static str,
    /// How to get it.
    pub how: &'static str,
    /// What stands where the file is silent, if anything does.
    pub default: Option<Fallback>,
    /// The least and the greatest value in SI that a rig from a dinghy's trailer to 12 t may have: outside of it a
    /// digit or a unit is more likely wrong than right. Wide on purpose; common practice, no source.
    pub plausible: Option<(f64, f64)>,
    pub(super) si: fn(&Setup, At) -> Option<f64>,
    pub(super) slot: for<'a> fn(&'a mut Setup, At) -> Slot<'a>,
}

impl Input {
    /// The kind of quantity that it is, if it is one.
    pub fn kind(&self) -> Option<Kind> {
        match self.holds {
            Holds::Quantity(kind) => Some(kind),
            _ => None,
        }
    }

    /// The value in SI that a setup states, of a quantity. The elements must be there.
    pub fn si(&self, setup: &Setup, at: At) -> Option<f64> {
        (self.si)(setup, at)
    }

    /// Between which values in SI the right one may lie, the first end first, where a setup assumes it and that is tried.
    pub fn ends(&self, setup: &Setup, at: At) -> Option<[f64; 2]> {
        let key = Key { path: self.path, at };
        let extent = self.default?.extent.filter(|_| setup.is_assumed(key))?;
        match extent.ends {
            Ends::Between(one, other) => Some([one, other]),
            Ends::Around(by) => self.si(setup, at).map(|value| [value - by, value + by]),
            Ends::Rule(_, ends) => ends(setup, at),
            Ends::Times(one, other) => self.si(setup, at).map(|value| [one * value, other * value]),
            Ends::TimesStated(path, one, other) => {
                let of = Key::new(path);
                let value = of.input()?.si(setup, of.at).filter(|_| !setup.is_assumed(of))?;
                Some([one * value, other * value])
            }
        }
    }

    /// Its field in a setup. The elements must be there.
    pub(in crate::rig) fn slot<'a>(&self, setup: &'a mut Setup, at: At) -> Slot<'a> {
        (self.slot)(setup, at)
    }
}

/// A field that may hold a quantity.
pub trait Stored {
    /// Its value in SI.
    fn si(&self) -> Option<f64>;
    /// Puts a value in SI into it, or empties it.
    fn put(&mut self, si: Option<f64>);
}

impl<Q: Quantity> Stored for Option<Q> {
    fn si(&self) -> Option<f64> {
        self.map(Quantity::si)
    }
    fn put(&mut self, si: Option<f64>) {
        *self = si.map(Q::from_si);
    }
}

/// A field that a key leads to.
pub enum Slot<'a> {
    /// A quantity.
    Quantity(&'a mut dyn Stored),
    /// A line of text.
    Text(&'a mut Option<String>),
    /// A short name for cases and changes.
    Id(&'a mut Option<String>),
    /// Yes or no.
    Flag(&'a mut Option<bool>),
    /// A whole number.
    Count(&'a mut Option<u32>),
    /// A plain number by which loads are multiplied.
    Factor(&'a mut Option<f64>),
    /// A word from a list.
    Choice(&'a mut dyn Choice),
    /// Two lengths.
    Reach(&'a mut Option<Reach>),
    /// Patterns of check ids.
    Checks(&'a mut Vec<String>),
    /// Parts of the boat's load, by id.
    Parts(&'a mut Vec<Part>),
}

impl Slot<'_> {
    /// Empties the field.
    pub(in crate::rig) fn clear(&mut self) {
        match self {
            Self::Quantity(field) => field.put(None),
            Self::Text(field) | Self::Id(field) => **field = None,
            Self::Flag(field) => **field = None,
            Self::Count(field) => **field = None,
            Self::Factor(field) => **field = None,
            Self::Choice(field) => field.clear(),
            Self::Reach(field) => **field = None,
            Self::Checks(field) => field.clear(),
            Self::Parts(field) => field.clear(),
        }
    }

    /// Puts a value in SI, or a plain or whole number, into a quantity's or a number's field, or empties it; leaves anything else.
    pub(in crate::rig) fn put(self, si: Option<f64>) {
        match self {
            Self::Quantity(field) => field.put(si),
            Self::Factor(field) => *field = si,
            Self::Count(field) => {
                #[expect(clippy::cast_sign_loss, reason = "a negative count becomes none")]
                let whole = |number: f64| number.round() as u32;
                *field = si.map(whole);
            }
            _ => {}
        }
    }
}

/// The key of a row together with the type of its value: how code names an input.
///
/// ```
/// use bunkline::rig::{Rig, inputs::TRAILER_AXLES_STATION};
///
/// let rig = Rig::parse("format = 1\n[[trailer.axles]]\nstation = \"5 m\"")?;
/// let station = TRAILER_AXLES_STATION.get_of(rig.measured(), 0);
/// assert_eq!(station.map(|station| station.value), Some(5.0));
/// assert_eq!(TRAILER_AXLES_STATION.of(0).to_string(), "trailer.axles.1.station");
/// # Ok::<(), bunkline::rig::Problems>(())
/// ```
pub struct Handle<T: 'static> {
    pub(super) input: &'static Input,
    pub(super) read: for<'a> fn(&'a Setup, At) -> Option<&'a T>,
}

impl<T> Handle<T> {
    /// Its row of the table.
    pub fn input(self) -> &'static Input {
        self.input
    }

    /// Its path, with `*` for a list element.
    pub const fn path(self) -> &'static str {
        self.input.path
    }

    /// Its key, outside any list.
    pub fn key(self) -> Key {
        self.at([0, 0])
    }

    /// Its key in one element of a list, counted from 0.
    pub fn of(self, element: usize) -> Key {
        self.at([element, 0])
    }

    /// Its key in an element of a list inside a list.
    pub fn at(self, at: At) -> Key {
        Key { path: self.input.path, at }
    }
}

impl<T> Handle<T> {
    /// Whether a setup states it. The elements must be there.
    pub fn is_stated(self, setup: &Setup, at: At) -> bool {
        (self.read)(setup, at).is_some()
    }

    /// Why its default is assumed; empty where nothing is.
    pub fn basis(self) -> &'static str {
        self.input.default.and_then(|default| default.basis).unwrap_or_default()
    }
}

impl<Q: Quantity> Handle<Q> {
    /// Its default, where that depends on nothing else.
    pub fn default(self) -> Option<Q> {
        match self.input.default?.preset {
            Preset::Value(si) => Some(Q::from_si(si)),
            _ => None,
        }
    }
}

impl<T: Copy> Handle<T> {
    /// The value that a setup states, outside any list.
    pub fn get(self, setup: &Setup) -> Option<T> {
        self.get_at(setup, [0, 0])
    }

    /// The value that a setup states in one element of a list, which must be there.
    pub fn get_of(self, setup: &Setup, element: usize) -> Option<T> {
        self.get_at(setup, [element, 0])
    }

    /// The value that a setup states in an element of a list inside a list; both must be there.
    pub fn get_at(self, setup: &Setup, at: At) -> Option<T> {
        (self.read)(setup, at).copied()
    }
}

impl<T> Clone for Handle<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Handle<T> {}

/// Each path has one handle.
impl<T> PartialEq for Handle<T> {
    fn eq(&self, other: &Self) -> bool {
        self.path() == other.path()
    }
}

impl<T> Eq for Handle<T> {}

impl<T> fmt::Debug for Handle<T> {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(self.input.path)
    }
}

/// A list of tables in the file, or of values.
pub(in crate::rig) struct List {
    /// Its path.
    pub path: &'static str,
    /// Makes room for so many elements.
    pub grow: fn(&mut Setup, At, usize),
    /// How many there are.
    pub count: fn(&Setup, At) -> usize,
    /// What an element may be called beside its number.
    pub name: fn(&Setup, usize) -> Option<&str>,
}

/// The rows of a section: for each a [`Handle`], named as its path without `*`, and all together as `ROWS`.
///
/// `s` and `at` stand in a place for the setup and the list elements. What a value is goes by [`Holds`], the name of a
/// quantity's kind standing for it.
macro_rules! inputs {
    ($s:ident, $at:ident; $(
        $name:ident: $holds:ident $(<$word:ty>)? = $path:literal, $place:expr, $sign:ident, $role:ident,
        $meaning:literal, $how:expr $(, default: $default:expr)? $(, plausible: $plausible:expr)?;
    )+) => {
        $(
            #[doc = concat!("`", $path, "`: ", $meaning, ".")]
            pub const $name: Handle<types::$holds $(<$word>)?> = Handle {
                input: &Input {
                    path: $path,
                    holds: holds!($holds),
                    sign: Sign::$sign,
                    role: Role::$role,
                    meaning: $meaning,
                    how: $how,
                    default: optional!($($default)?),
                    plausible: optional!($($plausible)?),
                    si: |$s, $at| {
                        let _ = ($s, $at);
                        si!($holds, $place)
                    },
                    slot: |$s, $at| {
                        let _ = $at;
                        slot!($holds, $place)
                    },
                },
                read: |$s, $at| {
                    let _ = $at;
                    read!($holds, $place)
                },
            };
        )+

        pub(super) const ROWS: &[&Input] = &[$($name.input),+];
    };
}

/// The lists of a section, as `LISTS`: for each its path, its field, and what element `i` may be called.
macro_rules! lists {
    ($s:ident, $at:ident, $i:ident; $($path:literal, $field:expr, $name:expr;)+) => {
        pub(super) const LISTS: &[List] = &[$(List {
            path: $path,
            grow: |$s, $at, count| {
                let _ = $at;
                $field.resize_with(count, Default::default);
            },
            count: |$s, $at| {
                let _ = $at;
                $field.len()
            },
            name: |$s, $i| {
                let _ = ($s, $i);
                $name
            },
        }),+];
    };
}

macro_rules! optional {
    () => {
        None
    };
    ($value:expr) => {
        Some($value)
    };
}

macro_rules! holds {
    (Text) => {
        Holds::Text
    };
    (Id) => {
        Holds::Id
    };
    (Flag) => {
        Holds::Flag
    };
    (Count) => {
        Holds::Count
    };
    (Factor) => {
        Holds::Factor
    };
    (Choice) => {
        Holds::Choice
    };
    (Reach) => {
        Holds::Reach
    };
    (Checks) => {
        Holds::Checks
    };
    (Parts) => {
        Holds::Parts
    };
    ($kind:ident) => {
        Holds::Quantity(Kind::$kind)
    };
}

macro_rules! slot {
    (Text, $place:expr) => {
        Slot::Text(&mut $place)
    };
    (Id, $place:expr) => {
        Slot::Id(&mut $place)
    };
    (Flag, $place:expr) => {
        Slot::Flag(&mut $place)
    };
    (Count, $place:expr) => {
        Slot::Count(&mut $place)
    };
    (Factor, $place:expr) => {
        Slot::Factor(&mut $place)
    };
    (Choice, $place:expr) => {
        Slot::Choice(&mut $place)
    };
    (Reach, $place:expr) => {
        Slot::Reach(&mut $place)
    };
    (Checks, $place:expr) => {
        Slot::Checks(&mut $place)
    };
    (Parts, $place:expr) => {
        Slot::Parts(&mut $place)
    };
    ($kind:ident, $place:expr) => {
        Slot::Quantity(&mut $place)
    };
}

macro_rules! si {
    (Text, $place:expr) => {
        None
    };
    (Id, $place:expr) => {
        None
    };
    (Flag, $place:expr) => {
        None
    };
    (Count, $place:expr) => {
        None
    };
    (Factor, $place:expr) => {
        $place
    };
    (Choice, $place:expr) => {
        None
    };
    (Reach, $place:expr) => {
        None
    };
    (Checks, $place:expr) => {
        None
    };
    (Parts, $place:expr) => {
        None
    };
    ($kind:ident, $place:expr) => {
        $place.si()
    };
}

macro_rules! read {
    (Checks, $place:expr) => {
        Some(&$place)
    };
    (Parts, $place:expr) => {
        Some(&$place)
    };
    ($holds:ident, $place:expr) => {
        $place.as_ref()
    };
}
