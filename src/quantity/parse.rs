//! Reads a quantity from text: `"11 ft 8 in"`, `"62-1/4 in"`, `"6350 lb ± 3 %"`.
//!
//! The grammar is small and its error text is the product, so the scanner is written by hand:
//!
//! ```text
//! uncertain = value [ ("±" | "+/-") value ]   the bound may be a share of the value in %;
//!                                             one of the two may leave its unit to the other
//! value     = [ "-" | "+" ] number unit [ [ "-" ] number unit ]   the second only for inches after feet
//! number    = digits [ "." digits ] | [ digits (" " | "-") ] fraction
//! fraction  = digits "/" digits | "½" and its like
//! ```
//!
//! Units may be in any case, and in a few other spellings ([`unit::find`]).

use super::unit::{self, Kind, Unit};
use super::{Quantity, Uncertain};
use std::ops::Range;

/// Why a text is no quantity, and where in the text.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{fault}")]
pub struct QuantityError {
    /// What is wrong.
    pub fault: QuantityFault,
    /// The bytes of the text that are to blame.
    pub at: Range<usize>,
}

/// What is wrong with a quantity's text.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum QuantityFault {
    /// There is nothing there, or nothing after a sign.
    #[error("expected {}, found nothing", .0.name())]
    Empty(Kind),
    /// A number should stand here.
    #[error("expected {} that begins with a number, found `{found}`", .expected.name())]
    NoNumber {
        /// What should be read.
        expected: Kind,
        /// What stands there.
        found: String,
    },
    /// A number without its unit.
    #[error("expected a unit after `{number}`, found none")]
    NoUnit {
        /// The number as written.
        number: String,
        /// What should be read.
        expected: Kind,
        /// The text as it was probably meant.
        meant: Option<String>,
    },
    /// A word that is no unit.
    #[error("expected a unit of {}, found `{found}`", .expected.name().trim_start_matches("an ").trim_start_matches("a "))]
    UnknownUnit {
        /// What should be read.
        expected: Kind,
        /// The word as written.
        found: String,
    },
    /// A unit of something else.
    #[error("expected {}, found {} (`{unit}`)", .expected.name(), .found.name())]
    WrongKind {
        /// What should be read.
        expected: Kind,
        /// What the unit measures.
        found: Kind,
        /// The unit as written.
        unit: &'static str,
    },
    /// A comma inside a number.
    #[error("expected a plain number, found a comma in `{found}`")]
    Comma {
        /// The number as written.
        found: String,
        /// The number as it was probably meant.
        meant: String,
    },
    /// A fraction that is none.
    #[error("expected a fraction below one such as 1/4, found `{found}`")]
    Fraction {
        /// The fraction as written.
        found: String,
    },
    /// A fraction after a decimal number.
    #[error("expected a decimal number or a fraction, found both in `{found}`")]
    DecimalAndFraction {
        /// The number as written.
        found: String,
        /// The two ways in which it may be meant.
        either: [String; 2],
    },
    /// As many inches as make a foot, after feet.
    #[error("expected less than 12 in after the feet, found `{found}`")]
    InchesMakeAFoot {
        /// The inches as written.
        found: String,
        /// The same length as it is usually written.
        meant: String,
    },
    /// Something follows the quantity.
    #[error("expected the end of the value, found `{found}`")]
    Trailing {
        /// What follows.
        found: String,
    },
    /// A bound below zero.
    #[error("expected a bound of zero or more after ±, found a negative one")]
    NegativeBound,
}

impl QuantityFault {
    /// What the owner could write instead.
    pub fn help(&self) -> Option<String> {
        match self {
            Self::Empty(kind) => Some(format!("write for example {}", kind.example())),
            Self::NoNumber { expected, .. } => Some(format!("write for example {}", expected.example())),
            Self::NoUnit { expected, meant, .. } => Some(match meant {
                Some(meant) => format!("did you mean \"{meant}\"?"),
                None => format!("write for example {}", expected.example()),
            }),
            Self::UnknownUnit { expected, found } => Some(match unit::nearest(found, *expected) {
                Some("t") => "write `t` for a metric tonne of 1000 kg, or give the weight in lb".to_string(),
                Some(near) => format!("did you mean `{near}`?"),
                None => format!("units that fit: {}", unit_list(*expected)),
            }),
            Self::WrongKind { expected, .. } => Some(format!("units that fit: {}", unit_list(*expected))),
            Self::Comma { meant, .. } | Self::InchesMakeAFoot { meant, .. } => Some(format!("write {meant}")),
            Self::DecimalAndFraction { either: [one, other], .. } => Some(format!("write {one} or {other}")),
            Self::Trailing { found } if found.starts_with("+-") => Some("write ± or +/-".to_string()),
            Self::Trailing { found } if found == "." => Some("write the unit without a point".to_string()),
            Self::Fraction { .. } | Self::Trailing { .. } | Self::NegativeBound => None,
        }
    }
}

fn unit_list(kind: Kind) -> String {
    unit::names(kind).collect::<Vec<_>>().join(", ")
}

/// The quantity that a text states, with its bound.
///
/// The kind follows from the type asked for. A bound in % is a share of the value, except for
/// shares, where it is absolute: `"12 % ± 1 %"` lies between 11 and 13 %.
///
/// # Errors
/// [`QuantityError`], with the bytes to mark, whenever the text is not wholly one quantity.
///
/// ```
/// use bunkline::quantity::{Length, parse};
/// let length = parse::<Length>("5 ft 10 1/2 in ± 1/4 in")?;
/// assert!((length.value.value - 70.5 * 0.0254).abs() < 1e-12);
/// assert!((length.bound.value - 0.25 * 0.0254).abs() < 1e-12);
/// # Ok::<(), bunkline::quantity::QuantityError>(())
/// ```
pub fn parse<Q: Quantity>(text: &str) -> Result<Uncertain<Q>, QuantityError> {
    Ok(parse_si(text, Q::KIND)?.map(Q::from_si))
}

/// As [`parse`], for a kind known only when the program runs; the values are in SI.
///
/// # Errors
/// As [`parse`].
pub fn parse_si(text: &str, kind: Kind) -> Result<Uncertain<f64>, QuantityError> {
    let (value, bound) = parse_bounded(text, kind)?;
    Ok(Uncertain { value, bound: bound.unwrap_or(0.0) })
}

/// As [`parse_si`], but the bound is `None` if the text states none: `3 in` differs from `3 in ± 0 in`.
///
/// # Errors
/// As [`parse`].
pub fn parse_bounded(text: &str, kind: Kind) -> Result<(f64, Option<f64>), QuantityError> {
    let mut scanner = Scanner { text, at: 0, kind };
    let read = scanner.bounded()?;
    scanner.end()?;
    Ok(read)
}

/// A value as it was written: so many of a unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stated {
    /// How many, signed; of feet and inches, all in inches.
    pub number: f64,
    /// The unit, the last one where there are two.
    pub unit: &'static Unit,
    /// The value in SI.
    pub si: f64,
}

/// As [`parse_si`], for a value without a bound, with the number and the unit that it was written in.
///
/// # Errors
/// As [`parse`]; what follows the value is too much, also a bound.
pub fn parse_stated(text: &str, kind: Kind) -> Result<Stated, QuantityError> {
    let mut scanner = Scanner { text, at: 0, kind };
    let stated = scanner.value()?;
    scanner.end()?;
    Ok(stated)
}

struct Scanner<'a> {
    text: &'a str,
    at: usize,
    kind: Kind,
}

impl<'a> Scanner<'a> {
    fn rest(&self) -> &'a str {
        &self.text[self.at..]
    }

    fn skip_space(&mut self) {
        self.at = self.text.len() - self.rest().trim_start().len();
    }

    fn eat(&mut self, mark: &str) -> bool {
        self.skip_space();
        let found = self.rest().starts_with(mark);
        if found {
            self.at += mark.len();
        }
        found
    }

    /// The next run of characters that satisfy the test.
    fn run(&mut self, test: impl Fn(char) -> bool) -> &'a str {
        let rest = self.rest();
        let length = rest.find(|c| !test(c)).unwrap_or(rest.len());
        self.at += length;
        &rest[..length]
    }

    fn fail<T>(&self, from: usize, fault: QuantityFault) -> Result<T, QuantityError> {
        let at = from..self.at.max(from);
        Err(QuantityError { fault, at })
    }

    fn end(&mut self) -> Result<(), QuantityError> {
        self.skip_space();
        let from = self.at;
        let found = self.rest().trim_end();
        if found.is_empty() {
            return Ok(());
        }
        self.at += found.len();
        self.fail(from, QuantityFault::Trailing { found: found.into() })
    }

    /// A value in SI with its bound, if it has one.
    fn bounded(&mut self) -> Result<(f64, Option<f64>), QuantityError> {
        match self.value() {
            Ok(stated) if self.eat_plus_minus() => Ok((stated.si, Some(self.bound(stated)?))),
            Ok(stated) => Ok((stated.si, None)),
            Err(error @ QuantityError { fault: QuantityFault::NoUnit { .. }, .. }) => {
                self.at = 0;
                self.of_one_unit().unwrap_or(Err(error))
            }
            Err(error) => Err(error),
        }
    }

    /// A value and its bound that has the unit of both, `50 ± 1 in`; `None` where it is not that the unit is stated once.
    fn of_one_unit(&mut self) -> Option<Result<(f64, Option<f64>), QuantityError>> {
        let sign = self.sign();
        self.skip_space();
        let number = sign * self.number().ok()?;
        if !self.eat_plus_minus() {
            return None;
        }
        match self.part(None) {
            Ok(bound) => Some(Ok((bound.unit.to_si(number, self.kind), Some(bound.si)))),
            Err(error @ QuantityError { fault: QuantityFault::Comma { .. }, .. }) => Some(Err(error)),
            Err(_) => None,
        }
    }

    fn eat_plus_minus(&mut self) -> bool {
        self.eat("±") || self.eat("+/-")
    }

    fn sign(&mut self) -> f64 {
        if self.eat("-") {
            return -1.0;
        }
        self.eat("+");
        1.0
    }

    /// A signed value.
    fn value(&mut self) -> Result<Stated, QuantityError> {
        let sign = self.sign();
        self.skip_space();
        if self.rest().is_empty() {
            return self.fail(0, QuantityFault::Empty(self.kind));
        }
        let Stated { mut number, mut unit, mut si } = self.part(None)?;
        // Feet may be followed by inches, and by nothing else.
        if is_feet(unit) && self.starts_inches() {
            let from = self.at;
            let inches = self.part(Some(unit))?;
            if inches.number >= 12.0 {
                let feet = sign * (number + (inches.number / 12.0).floor());
                let rest = inches.number % 12.0;
                let found = self.text[from..self.at].to_string();
                let meant = format!("{feet} ft {rest} in");
                return self.fail(from, QuantityFault::InchesMakeAFoot { found, meant });
            }
            number = number * 12.0 + inches.number;
            unit = inches.unit;
            si += inches.si;
        }
        Ok(Stated { number: sign * number, unit, si: sign * si })
    }

    /// Whether a number follows, also after a dash that joins it to the feet: `11'-8"`.
    fn starts_inches(&mut self) -> bool {
        let joined = self.rest().strip_prefix('-').filter(|rest| starts_number(rest));
        match joined {
            Some(_) => self.at += 1,
            None => self.skip_space(),
        }
        starts_number(self.rest())
    }

    /// One number with its unit. After feet only inches may follow.
    fn part(&mut self, after: Option<&Unit>) -> Result<Stated, QuantityError> {
        self.skip_space();
        let from = self.at;
        let number = self.number()?;
        let written = self.text[from..self.at].trim_end();
        let number_end = from + written.len();
        self.skip_space();
        let unit_from = self.at;
        let word = self.unit_word();
        if word.is_empty() {
            self.at = number_end;
            let meant = after.map(|_| format!("{} in", &self.text[..number_end]));
            let (number, expected) = (written.to_string(), self.kind);
            return self.fail(from, QuantityFault::NoUnit { number, expected, meant });
        }
        let expected = self.kind;
        let Some(unit) = unit::find(word) else {
            return self.fail(unit_from, QuantityFault::UnknownUnit { expected, found: word.into() });
        };
        if !unit.measures(expected) {
            let (found, unit) = (unit.kind, unit.name);
            return self.fail(unit_from, QuantityFault::WrongKind { expected, found, unit });
        }
        if after.is_some() && !matches!(unit.name, "in" | "\"") {
            let found = self.text[from..self.at].to_string();
            return self.fail(from, QuantityFault::Trailing { found });
        }
        Ok(Stated { number, unit, si: unit.to_si(number, expected) })
    }

    /// A unit's whole word: letters and digits after them with an optional `/` part, or one of the marks.
    fn unit_word(&mut self) -> &'a str {
        let from = self.at;
        if self.rest().starts_with(['\'', '"', '%', '#', '°', '′', '″', '‘', '’', '“', '”']) {
            self.at += self.rest().chars().next().map_or(0, char::len_utf8);
            return &self.text[from..self.at];
        }
        self.run(char::is_alphabetic);
        if self.kind == Kind::Moment {
            self.run_on();
        }
        // The digits after feet begin the inches, where a length is wanted: `4ft2in`.
        let feet = matches!(self.kind, Kind::Length | Kind::Distance)
            && unit::find(&self.text[from..self.at]).is_some_and(is_feet);
        if self.at > from && !feet {
            self.run(|c| c.is_ascii_digit());
        }
        if self.at > from && self.rest().starts_with('/') {
            self.at += 1;
            self.run(char::is_alphanumeric);
        }
        &self.text[from..self.at]
    }

    /// Takes the second word of a moment's unit, if there is one: `lb in`.
    fn run_on(&mut self) {
        let word_end = self.at;
        if self.run(|c| c == ' ').len() != 1 || self.run(char::is_alphabetic).is_empty() {
            self.at = word_end;
        }
    }

    /// A plain, decimal, fractional or mixed number; never negative.
    fn number(&mut self) -> Result<f64, QuantityError> {
        let from = self.at;
        let whole = self.run(|c| c.is_ascii_digit() || c == '.' || c == ',');
        if whole.contains(',') {
            return self.comma(from, whole);
        }
        if self.rest().starts_with('/') {
            self.at = from;
            return self.fraction();
        }
        if whole.is_empty()
            && let Some(fraction) = self.vulgar_fraction()
        {
            return Ok(fraction);
        }
        let Ok(value) = whole.parse::<f64>() else {
            // The rest of the word is part of what was found, as in `5.1.5`.
            self.run(|c| !c.is_whitespace());
            let found = self.text[from..self.at].to_string();
            return self.fail(from, QuantityFault::NoNumber { expected: self.kind, found });
        };
        let fraction_from = self.at;
        let fraction = self.fraction_after_whole()?;
        if whole.contains('.') && self.at > fraction_from {
            let found = self.text[from..self.at].to_string();
            let fraction = self.text[fraction_from..self.at].trim_start_matches([' ', '-']);
            let either = [whole.to_string(), format!("{} {fraction}", value.floor())];
            return self.fail(from, QuantityFault::DecimalAndFraction { found, either });
        }
        Ok(value + fraction)
    }

    /// A number with commas: they part thousands, unless that is more than can be meant, or no three digits follow, or
    /// points part the thousands.
    fn comma<T>(&mut self, from: usize, found: &str) -> Result<T, QuantityError> {
        let number_end = self.at;
        self.skip_space();
        let word = self.unit_word();
        self.at = number_end;
        let unit = unit::find(word).filter(|unit| unit.measures(self.kind));
        let in_thousands =
            found.split(',').skip(1).all(|group| group.split('.').next().map_or(0, str::len) == 3);
        let plain = found.replace(',', "");
        let size = plain
            .parse()
            .map_or(f64::NAN, |number| unit.map_or(number, |unit| unit.to_si(number, self.kind)));
        let thousands = in_thousands && (unit.is_none() || size <= self.kind.largest().0);
        let points_first = found.find('.') < found.find(',') && found.contains('.');
        let number = if points_first {
            found.replace('.', "").replace(',', ".")
        } else if thousands || found.matches(',').count() > 1 || found.contains('.') {
            plain
        } else {
            found.replace(',', ".")
        };
        let meant = unit.map_or_else(|| number.clone(), |unit| format!("{number} {}", unit.name));
        self.fail(from, QuantityFault::Comma { found: found.into(), meant })
    }

    /// The fraction of a mixed number, `62 1/4`, `62-1/4` or `62¼`; zero when none follows.
    fn fraction_after_whole(&mut self) -> Result<f64, QuantityError> {
        let from = self.at;
        let joined = self.rest().chars().next().filter(|c| *c == '-' || c.is_whitespace());
        self.at += joined.map_or(0, char::len_utf8);
        if let Some(fraction) = self.vulgar_fraction() {
            return Ok(fraction);
        }
        let digits = self.rest().find(|c: char| !c.is_ascii_digit()).unwrap_or(self.rest().len());
        if self.at == from || digits == 0 || !self.rest()[digits..].starts_with('/') {
            self.at = from;
            return Ok(0.0);
        }
        self.fraction()
    }

    /// A fraction that is one character.
    fn vulgar_fraction(&mut self) -> Option<f64> {
        let mark = self.rest().chars().next()?;
        let (_, above, below) = VULGAR_FRACTIONS.iter().find(|(fraction, ..)| *fraction == mark)?;
        self.at += mark.len_utf8();
        Some(above / below)
    }

    fn fraction(&mut self) -> Result<f64, QuantityError> {
        let from = self.at;
        let above = self.run(|c| c.is_ascii_digit()).parse::<f64>();
        self.eat("/");
        let below = self.run(|c| c.is_ascii_digit()).parse::<f64>();
        match (above, below) {
            (Ok(above), Ok(below)) if above < below && below.is_finite() => Ok(above / below),
            _ => {
                let found = self.text[from..self.at].to_string();
                self.fail(from, QuantityFault::Fraction { found })
            }
        }
    }

    /// The bound after ±, in SI: a value of the same kind, a number of the value's unit, or a share of the value.
    fn bound(&mut self, of: Stated) -> Result<f64, QuantityError> {
        self.skip_space();
        let from = self.at;
        let relative =
            !matches!(self.kind, Kind::Share | Kind::Slope) && self.rest().trim_end().ends_with('%');
        let bound = if relative {
            let mut share = Scanner { text: self.text, at: self.at, kind: Kind::Share };
            let share_value = share.value()?.si;
            self.at = share.at;
            share_value * of.si.abs()
        } else {
            match self.value() {
                Err(QuantityError { fault: QuantityFault::NoUnit { meant: None, .. }, .. }) => {
                    self.at = from;
                    let sign = self.sign();
                    self.skip_space();
                    of.unit.to_si(sign * self.number()?, self.kind)
                }
                value => value?.si,
            }
        };
        if bound < 0.0 {
            return self.fail(from, QuantityFault::NegativeBound);
        }
        Ok(bound)
    }
}

/// The fractions that are one character.
const VULGAR_FRACTIONS: &[(char, f64, f64)] = &[
    ('½', 1.0, 2.0),
    ('⅓', 1.0, 3.0),
    ('⅔', 2.0, 3.0),
    ('¼', 1.0, 4.0),
    ('¾', 3.0, 4.0),
    ('⅛', 1.0, 8.0),
    ('⅜', 3.0, 8.0),
    ('⅝', 5.0, 8.0),
    ('⅞', 7.0, 8.0),
];

fn is_feet(unit: &Unit) -> bool {
    matches!(unit.name, "ft" | "'")
}

fn starts_number(text: &str) -> bool {
    text.starts_with(|c: char| {
        c.is_ascii_digit() || c == '.' || VULGAR_FRACTIONS.iter().any(|(mark, ..)| *mark == c)
    })
}
