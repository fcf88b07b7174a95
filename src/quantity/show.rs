//! Shows a quantity in the units of the reader, without false precision.
//!
//! Every text of a quantity that a rig file states can be read back by [`super::parse()`]; what is lost is the rounding
//! that each function states.

use super::parse::{parse, parse_si};
use super::unit::{self, Kind};
use super::{Angle, Charge, Length, LineLoad, Moment, Pressure, Quantity, Share, Speed, Uncertain, Weight};
use std::borrow::Cow;
use std::fmt::Write;

/// A name or title as it may be printed: what moves a terminal's cursor, starts a new line or turns text around
/// is escaped, as JSON and TOML escape it.
///
/// ```
/// use bunkline::quantity::show::plain;
/// assert_eq!(plain("Skiff № 2"), "Skiff № 2");
/// assert_eq!(plain("a\nb\u{202e}"), "a\\u000ab\\u202e");
/// ```
pub fn plain(text: &str) -> Cow<'_, str> {
    // Nearly every text is this.
    if text.bytes().all(|byte| (b' '..=b'~').contains(&byte)) || !text.chars().any(is_unprintable) {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len() + 5);
    for c in text.chars() {
        if is_unprintable(c) {
            for unit in c.encode_utf16(&mut [0; 2]) {
                let _ = write!(out, "\\u{unit:04x}");
            }
        } else {
            out.push(c);
        }
    }
    Cow::Owned(out)
}

/// Controls, and what Unicode calls format characters and separators of lines: nothing that is seen.
fn is_unprintable(c: char) -> bool {
    c.is_control()
        || matches!(c,
            '\u{ad}' | '\u{61c}' | '\u{180e}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}'
            | '\u{2060}'..='\u{206f}' | '\u{feff}' | '\u{fff9}'..='\u{fffb}' | '\u{1d173}'..='\u{1d17a}'
            | '\u{e0000}'..='\u{e007f}')
}

/// The units in which a report speaks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum UnitSystem {
    /// Pounds, feet and inches.
    #[default]
    Us,
    /// Kilograms and millimetres.
    Metric,
}

impl UnitSystem {
    /// The unit of weights in tables and machine-readable reports.
    pub fn weight_unit(self) -> &'static str {
        match self {
            Self::Us => "lb",
            Self::Metric => "kg",
        }
    }

    /// The unit of lengths in machine-readable reports.
    pub fn length_unit(self) -> &'static str {
        match self {
            Self::Us => "in",
            Self::Metric => "mm",
        }
    }

    /// A weight as an unrounded number of [`Self::weight_unit`].
    pub fn weight_number(self, weight: Weight) -> f64 {
        weight.value / factor(self.weight_unit())
    }

    /// A length as an unrounded number of [`Self::length_unit`].
    pub fn length_number(self, length: Length) -> f64 {
        length.value / factor(self.length_unit())
    }

    /// A small length exactly: `0.054 in`, `1.4 mm`.
    pub fn fine_distance(self, length: Length) -> String {
        let places = match self {
            Self::Us => 3,
            Self::Metric => 1,
        };
        format!("{} {}", decimals(self.length_number(length), places), self.length_unit())
    }

    /// As [`Self::distance`], rounded up: what is at least needed.
    pub fn distance_at_least(self, length: Length) -> String {
        let unit = match self {
            Self::Us => factor("in") / 16.0,
            Self::Metric => factor("mm"),
        };
        // A hair over a whole unit is rounding.
        self.distance(Length::from_si((length.value / unit - 1e-6).ceil() * unit))
    }

    /// The length that a tape shows and that is at most this far from zero: what is allowed.
    pub fn within_tape(self, length: Length) -> Length {
        let unit = match self {
            Self::Us => factor("in") / 16.0,
            Self::Metric => factor("mm"),
        };
        // A hair short of a whole unit is rounding.
        let units = (length.value.abs() / unit + 1e-6).floor();
        Length::from_si((units * unit).copysign(length.value))
    }

    /// The unit of stresses in machine-readable reports.
    pub fn stress_unit(self) -> &'static str {
        match self {
            Self::Us => "psi",
            Self::Metric => "MPa",
        }
    }

    /// A stress or pressure as an unrounded number of [`Self::stress_unit`].
    pub fn stress_number(self, stress: Pressure) -> f64 {
        stress.value / factor(self.stress_unit())
    }

    /// A load along a line as an unrounded number of weight units on a length unit.
    pub fn line_load_number(self, load: LineLoad) -> f64 {
        load.value / (factor(self.weight_unit()) / factor(self.length_unit()))
    }

    /// A bending moment as an unrounded number of the unit in which a rig file states one.
    pub fn moment_number(self, moment: Moment) -> f64 {
        number(moment.value, Kind::Moment, self).0
    }

    /// A stress or pressure for a reader: `891 psi`, `7.2 psi`; `6.1 MPa`, `49.6 kPa`.
    pub fn stress(self, stress: Pressure) -> String {
        let number =
            |unit: &str, places: usize| format!("{} {unit}", decimals(stress.value / factor(unit), places));
        match self {
            Self::Us if stress.value.abs() < 100.0 * factor("psi") => number("psi", 1),
            Self::Us => number("psi", 0),
            Self::Metric if stress.value.abs() < factor("MPa") => number("kPa", 1),
            Self::Metric if stress.value.abs() < 100.0 * factor("MPa") => number("MPa", 2),
            Self::Metric => number("MPa", 0),
        }
    }

    /// A load along a line for a reader: `31.2 lb/in`, `5.46 N/mm`.
    pub fn line_load(self, load: LineLoad) -> String {
        match self {
            Self::Us => format!("{} lb/in", decimals(load.value / factor("lb/in"), 1)),
            Self::Metric => format!("{} N/mm", decimals(load.value / factor("N/mm"), 2)),
        }
    }

    /// A bending moment for a reader: `9840 lb in`, `1.11 kN m`.
    pub fn moment(self, moment: Moment) -> String {
        match self {
            Self::Us => format!("{} lb in", whole(self.moment_number(moment))),
            Self::Metric => format!("{} kN m", decimals(moment.value / 1000.0, 2)),
        }
    }

    /// A length in inches as a tape shows it or in feet, or in millimetres, where either says it to the last bit.
    pub fn taped(self, length: Length) -> Option<String> {
        let shown = [self.distance(length), self.length(length)];
        let says_it_all = |text: &String| parse::<Length>(text).is_ok_and(|read| read.value == length);
        shown.into_iter().find(says_it_all)
    }

    /// The size of a part that has to match another's, to the last bit: `2 5/16 in`, and `50 mm` in either system.
    pub fn size(self, length: Length) -> String {
        let other = if self == Self::Us { Self::Metric } else { Self::Us };
        let exactly = [self, other].into_iter().filter_map(|system| exact(length.si(), Kind::Length, system));
        let taped = self.taped(length).or_else(|| other.taped(length));
        taped.or_else(|| exactly.min_by_key(String::len)).unwrap_or_else(|| self.distance(length))
    }

    /// The pressure of a tire or a brake line for a reader: `62 psi`, `4.3 bar`, `4.04 bar`.
    pub fn inflation(self, pressure: Pressure) -> String {
        let hundredths = (pressure.si() / 1e3).round();
        let places = match self {
            Self::Us => 0,
            Self::Metric if hundredths % 10.0 == 0.0 => 1,
            Self::Metric => 2,
        };
        rounded(pressure.value, Kind::LinePressure, self, places)
    }

    /// A speed for a reader: `62 mph`, `100 km/h`.
    pub fn speed(self, speed: Speed) -> String {
        rounded(speed.value, Kind::Speed, self, 0)
    }

    /// The height of a hill, or a distance along a road or a ramp, for a reader: `700 ft`, `213 m`, `12.4 m`.
    pub fn road(self, distance: Length) -> String {
        let is_short = distance.value.abs() < 100.0;
        rounded(distance.value, Kind::Distance, self, usize::from(self == Self::Metric && is_short))
    }

    /// A place along a ramp, no finer than it can be trusted: to the quarter of an inch, or the centimetre.
    pub fn along(self, place: Length) -> String {
        match self {
            Self::Us => self.rough_length(place),
            Self::Metric => rounded(place.value, Kind::Distance, self, 2),
        }
    }

    /// The last of the depths that [`Self::depth`] shows which is no greater than this.
    pub fn depth_below(self, depth: Length) -> Length {
        self.stick(depth, f64::floor)
    }

    /// The first of the depths that [`Self::depth`] shows which is no less than this.
    pub fn depth_above(self, depth: Length) -> Length {
        self.stick(depth, f64::ceil)
    }

    /// A depth at the mark of a stick to one side of it; what is a hair off a mark is at it.
    fn stick(self, depth: Length, side: fn(f64) -> f64) -> Length {
        let mark = match self {
            Self::Us => factor("in"),
            Self::Metric => 0.01,
        };
        let marks = depth.value / mark;
        let near = marks.round();
        Length::from_si(if (marks - near).abs() < 1e-6 { near } else { side(marks) } * mark)
    }

    /// A charge for a reader: `4.6 Ah`.
    pub fn charge(self, charge: Charge) -> String {
        rounded(charge.value, Kind::Charge, self, 1)
    }

    /// A force on a coupling's plate for a reader: `15.85 kN`.
    pub fn force(self, force: Weight) -> String {
        rounded(force.value, Kind::Force, self, 2)
    }

    /// A weight to the whole pound or kilogram: `6480 lb`.
    pub fn weight(self, weight: Weight) -> String {
        let number = whole(self.weight_number(weight));
        format!("{number} {}", self.weight_unit())
    }

    /// A length for the tape: to the sixteenth of an inch, or the millimetre.
    pub fn length(self, length: Length) -> String {
        match self {
            Self::Us => feet_and_sixteenths(length),
            Self::Metric => format!("{} mm", whole(self.length_number(length))),
        }
    }

    /// A computed length, no finer than it can be trusted: to the quarter of an inch, or the millimetre.
    pub fn rough_length(self, length: Length) -> String {
        let quarter = factor("in") / 4.0;
        match self {
            Self::Us => feet_and_sixteenths(Length::from_si((length.value / quarter).round() * quarter)),
            Self::Metric => self.length(length),
        }
    }

    /// As [`Self::rough_length`], without feet.
    pub fn rough_distance(self, length: Length) -> String {
        let quarter = factor("in") / 4.0;
        match self {
            Self::Us => sixteenths(Length::from_si((length.value / quarter).round() * quarter)),
            Self::Metric => self.length(length),
        }
    }

    /// A depth as it is read off a stick: whole inches, or to the nearest 10 mm.
    pub fn depth(self, depth: Length) -> String {
        match self {
            Self::Us => rounded(depth.value, Kind::Length, self, 0),
            Self::Metric => self.length(Length::from_si((depth.value * 100.0).round() / 100.0)),
        }
    }

    /// A short distance: inches to the sixteenth without feet, or millimetres.
    pub fn distance(self, length: Length) -> String {
        match self {
            Self::Us => sixteenths(length),
            Self::Metric => self.length(length),
        }
    }
}

/// A share to the tenth of a percent: `8.8 %`.
pub fn percent(share: Share) -> String {
    format!("{} %", decimals(share.value * 100.0, 1))
}

/// An angle to the tenth of a degree: `-0.3 deg`.
pub fn degrees(angle: Angle) -> String {
    format!("{} deg", decimals(angle.value.to_degrees(), 1))
}

/// A value as a rig file would state it, with its bound where it has one.
///
/// Numbers keep at most four decimals of the unit: `63.5 in`, `6350 lb ± 200 lb`.
pub fn written(si: Uncertain<f64>, kind: Kind, system: UnitSystem) -> String {
    let unit = file_unit(kind, system);
    let number = |si: f64| trimmed(si / factor(unit), 4);
    let value = format!("{} {unit}", number(si.value));
    if si.bound == 0.0 { value } else { format!("{value} ± {} {unit}", number(si.bound)) }
}

/// A value in SI of a kind as a rig file would state it so that reading the text gives the very same number: with as
/// few decimals as that takes, in the unit of the system where that can do it, else in another, or `None` where no unit can.
///
/// ```
/// use bunkline::quantity::show::{UnitSystem, exact};
/// use bunkline::quantity::{Kind, Length, parse};
/// assert_eq!(exact(-13.5 * 0.0254, Kind::Length, UnitSystem::Us).as_deref(), Some("-13.5 in"));
/// let third = 1.0 / 3.0;
/// let text = exact(third, Kind::Length, UnitSystem::Us).expect("metres state every length");
/// assert_eq!(parse::<Length>(&text)?.value.value, third);
/// # Ok::<(), bunkline::quantity::QuantityError>(())
/// ```
pub fn exact(si: f64, kind: Kind, system: UnitSystem) -> Option<String> {
    /// More decimals than a number below 10 can have to the last bit.
    const MOST_DECIMALS: usize = 17;
    let own = file_unit(kind, system);
    let others = unit::names(kind).filter(|name| *name != own);
    std::iter::once(own).chain(others).filter_map(unit::find).find_map(|unit| {
        let number = unit.number(si, kind);
        // Reading multiplies by the unit and rounds: the number's neighbours may be what gives the value.
        let near = [number, number.next_up(), number.next_down()];
        let short = (0..=MOST_DECIMALS).map(|places| trimmed(number, places));
        let texts = short.chain(near.map(|number| number.to_string()));
        texts
            .map(|number| format!("{number} {}", unit.name))
            .find(|text| parse_si(text, kind).is_ok_and(|read| read.value == si))
    })
}

/// A value in SI of a kind, to four significant figures: `7.1 lb/gal`, `850.8 kg/m3`.
pub fn brief(si: f64, kind: Kind, system: UnitSystem) -> String {
    let unit = file_unit(kind, system);
    let number = si / factor(unit);
    let magnitude = number.abs().max(1.0).log10().floor() as i32;
    format!("{} {unit}", trimmed(number, usize::try_from(3 - magnitude).unwrap_or(0)))
}

/// A value in SI of a kind as an unrounded number, with the unit in which a rig file of the system states the kind.
///
/// A share and a slope are plain fractions, without a unit.
pub fn number(si: f64, kind: Kind, system: UnitSystem) -> (f64, Option<&'static str>) {
    match kind {
        Kind::Share | Kind::Slope => (si, None),
        _ => {
            let unit = file_unit(kind, system);
            (si / factor(unit), Some(unit))
        }
    }
}

/// The unit in which a rig file of the system states a kind.
pub fn file_unit(kind: Kind, system: UnitSystem) -> &'static str {
    let (us, metric) = match kind {
        Kind::Length => ("in", "mm"),
        Kind::Weight => ("lb", "kg"),
        Kind::Angle => ("deg", "deg"),
        Kind::Slope | Kind::Share => ("%", "%"),
        Kind::Pressure => ("psi", "kPa"),
        Kind::Volume => ("gal", "L"),
        Kind::Density => ("lb/gal", "kg/m3"),
        Kind::Rate => ("lb/in", "N/mm"),
        Kind::Stress => ("psi", "MPa"),
        Kind::SectionModulus => ("in3", "cm3"),
        Kind::Distance => ("ft", "m"),
        Kind::LinePressure => ("psi", "bar"),
        Kind::Moment => ("lb in", "N m"),
        Kind::Speed => ("mph", "km/h"),
        Kind::Current => ("A", "A"),
        Kind::Charge => ("Ah", "Ah"),
        Kind::Area => ("ft2", "m2"),
        Kind::Force => ("kN", "kN"),
    };
    match system {
        UnitSystem::Us => us,
        UnitSystem::Metric => metric,
    }
}

/// A value in SI of a kind to so many decimals of its unit.
fn rounded(si: f64, kind: Kind, system: UnitSystem, places: usize) -> String {
    let unit = file_unit(kind, system);
    format!("{} {unit}", decimals(si / factor(unit), places))
}

fn factor(unit: &str) -> f64 {
    unit::find(unit).map_or(1.0, |unit| unit.factor)
}

/// Feet, inches and sixteenths: `17 ft 2 3/16 in`.
pub fn feet_and_sixteenths(length: Length) -> String {
    let count = sixteenths_count(length);
    let feet = count.abs() / 192;
    if feet == 0 {
        return sixteenths(length);
    }
    let sign = if count < 0 { "-" } else { "" };
    match count.abs() % 192 {
        0 => format!("{sign}{feet} ft"),
        rest => format!("{sign}{feet} ft {}", inches(rest)),
    }
}

/// Inches and sixteenths: `62 1/4 in`.
pub fn sixteenths(length: Length) -> String {
    let count = sixteenths_count(length);
    let sign = if count < 0 { "-" } else { "" };
    format!("{sign}{}", inches(count.abs()))
}

fn sixteenths_count(length: Length) -> i64 {
    // Lengths in a rig are bounded by 100 m: the count fits with room to spare.
    (length.value / factor("in") * 16.0).round() as i64
}

/// A count of sixteenths as inches with a reduced fraction.
fn inches(sixteenths: i64) -> String {
    let (whole, rest) = (sixteenths / 16, sixteenths % 16);
    if rest == 0 {
        return format!("{whole} in");
    }
    let halvings = rest.trailing_zeros();
    let (above, below) = (rest >> halvings, 16 >> halvings);
    if whole == 0 { format!("{above}/{below} in") } else { format!("{whole} {above}/{below} in") }
}

/// A number to the whole, without a negative zero.
pub fn whole(number: f64) -> String {
    decimals(number, 0)
}

/// A number to so many decimals, without a negative zero.
pub fn decimals(number: f64, places: usize) -> String {
    let text = format!("{number:.places$}");
    match text.strip_prefix('-') {
        Some(size) if size.bytes().all(|c| matches!(c, b'0' | b'.')) => size.to_string(),
        _ => text,
    }
}

/// As [`decimals`], without trailing zeros.
pub fn trimmed(number: f64, places: usize) -> String {
    let text = decimals(number, places);
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_string() } else { text }
}
