//! Several values of one kind in a text: a range `-4in..6in/1in`, or a list `2 ft, 30 in, 1 m`.

use super::parse::{QuantityError, QuantityFault, Stated, parse_stated};
use super::unit::{Kind, Unit};

/// Values of one kind, in the order asked for; never empty.
#[derive(Debug, Clone, PartialEq)]
pub struct Series {
    kind: Kind,
    values: Values,
}

#[derive(Debug, Clone, PartialEq)]
enum Values {
    Range(Range),
    List(Vec<Listed>),
}

/// A value as it was written.
#[derive(Debug, Clone, PartialEq)]
struct Listed {
    stated: Stated,
    /// Its text, where its number of its unit is not the same to the last bit: feet and inches, or another unit.
    text: Option<String>,
}

/// Evenly spaced values, in the unit of the step.
#[derive(Debug, Clone, PartialEq)]
struct Range {
    /// The first, in the unit of the step.
    from: Listed,
    step: f64,
    count: u64,
    /// First value and step as whole numbers of a decimal place, and how many of that make one: what decimals
    /// say is then hit to the last bit, as if each value had been written out.
    decimal: Option<(i64, i64, f64)>,
}

/// Why a text is no series of values.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum SeriesError {
    /// Neither a range nor a list.
    #[error("expected FROM..TO/STEP or a list A,B,C, found `{0}`")]
    Shape(String),
    /// One of its values is no quantity.
    #[error("{fault} in `{text}`")]
    Quantity {
        /// The value as written.
        text: String,
        /// What is wrong with it.
        fault: QuantityFault,
    },
    /// There are two ways to read what follows the range's `..`.
    #[error("expected FROM..TO/STEP that reads in one way, found `{0}`, which reads in two")]
    Ambiguous(String),
    /// A step that goes nowhere.
    #[error("expected a step other than zero, found `{0}`")]
    ZeroStep(String),
    /// A step that leads away from the range's end.
    #[error("expected a step from {from} toward {to}, found `{step}`, which leads away")]
    WrongWay {
        /// Where the range begins, as written.
        from: String,
        /// Where it ends, as written.
        to: String,
        /// The step, as written.
        step: String,
    },
}

impl SeriesError {
    /// What the owner could write instead.
    pub fn help(&self) -> Option<String> {
        match self {
            Self::Shape(_) => Some("for example -4in..6in/1in, or -4in,0in,6in".to_string()),
            Self::Quantity { fault, .. } => fault.help(),
            Self::Ambiguous(_) => Some("write every value with its unit".to_string()),
            Self::WrongWay { step, .. } => match step.strip_prefix('-') {
                Some(size) => Some(format!("did you mean a step of {size}?")),
                None => Some(format!("did you mean a step of -{step}?")),
            },
            Self::ZeroStep(_) => None,
        }
    }
}

impl Series {
    /// The series that a text states.
    ///
    /// A range is `FROM..TO/STEP`: both its ends belong to it where the step meets them, each value is
    /// from + i × step, and a number without a unit takes the step's. A list is `A,B,C`, or one value alone.
    ///
    /// # Errors
    /// [`SeriesError`] whenever the text is not wholly one range or list of the kind.
    ///
    /// ```
    /// use bunkline::quantity::{Kind, Series};
    ///
    /// let series = Series::parse("-0.3in..0.3in/0.1in", Kind::Length)?;
    /// assert_eq!(series.len(), 7);
    /// assert_eq!(series.text(1), "-0.2 in");
    /// assert_eq!(series.si(1), -0.2 * 0.0254);
    /// # Ok::<(), bunkline::quantity::SeriesError>(())
    /// ```
    pub fn parse(text: &str, kind: Kind) -> Result<Self, SeriesError> {
        let values = match text.split_once("..") {
            Some((from, rest)) => Values::Range(range(text, from.trim(), rest, kind)?),
            None if text.trim().is_empty() => return Err(SeriesError::Shape(text.to_string())),
            None => {
                let listed = text.split(',').map(str::trim).map(|value| {
                    let stated = stated(value, None, kind)?;
                    Ok(Listed::new(stated, value, kind))
                });
                Values::List(listed.collect::<Result<_, _>>()?)
            }
        };
        Ok(Self { kind, values })
    }

    /// What its values measure.
    pub fn kind(&self) -> Kind {
        self.kind
    }

    /// How many values there are; [`u64::MAX`] stands for that many or more.
    pub fn len(&self) -> u64 {
        match &self.values {
            Values::Range(range) => range.count,
            Values::List(list) => list.len() as u64,
        }
    }

    /// Whether there are none: never.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// One value in SI, counted from 0; past the end of a list its last.
    pub fn si(&self, i: u64) -> f64 {
        match &self.values {
            // What the first was written as it is, whatever the step's unit.
            Values::Range(range) if i == 0 => range.from.stated.si,
            Values::Range(range) => range.from.stated.unit.to_si(range.number(i), self.kind),
            Values::List(list) => listed(list, i).stated.si,
        }
    }

    /// The same as so many of a unit.
    pub fn number(&self, i: u64) -> (f64, &'static Unit) {
        match &self.values {
            Values::Range(range) => (range.number(i), range.from.stated.unit),
            Values::List(list) => (listed(list, i).stated.number, listed(list, i).stated.unit),
        }
    }

    /// The same as a rig file would state it: read back, it is the same to the last bit.
    pub fn text(&self, i: u64) -> String {
        let written = match &self.values {
            Values::Range(range) if i == 0 => &range.from.text,
            Values::Range(_) => &None,
            Values::List(list) => &listed(list, i).text,
        };
        let (number, unit) = self.number(i);
        written.clone().unwrap_or_else(|| format!("{number} {}", unit.name))
    }

    /// Whether it is a range, evenly spaced.
    pub fn is_range(&self) -> bool {
        matches!(self.values, Values::Range(_))
    }
}

fn listed(list: &[Listed], i: u64) -> &Listed {
    let last = list.len() - 1;
    &list[usize::try_from(i).unwrap_or(last).min(last)]
}

impl Listed {
    fn new(stated: Stated, text: &str, kind: Kind) -> Self {
        let same = stated.unit.to_si(stated.number, kind).to_bits() == stated.si.to_bits();
        Self { stated, text: (!same).then(|| text.to_string()) }
    }
}

impl Range {
    fn number(&self, i: u64) -> f64 {
        match self.decimal {
            // The count keeps the sum below 2^53.
            Some((from, step, places)) => (from + step * i.cast_signed()) as f64 / places,
            None => self.from.stated.number + i as f64 * self.step,
        }
    }
}

/// One value; without a unit it takes the one given.
fn stated(text: &str, unit: Option<&'static Unit>, kind: Kind) -> Result<Stated, SeriesError> {
    let in_text = |error: QuantityError| SeriesError::Quantity { text: text.to_string(), fault: error.fault };
    match (parse_stated(text, kind), unit) {
        (Err(QuantityError { fault: QuantityFault::NoUnit { meant: None, .. }, .. }), Some(unit)) => {
            parse_stated(&format!("{text} {}", unit.name), kind).map_err(in_text)
        }
        (stated, _) => stated.map_err(in_text),
    }
}

/// What follows the `..` of a range: its end and its step, with the step as written.
type EndAndStep<'a> = ((Stated, &'a str), (Stated, &'a str));

fn range(text: &str, from: &str, rest: &str, kind: Kind) -> Result<Range, SeriesError> {
    let ((to, to_text), (step, step_text)) = end_and_step(text, rest, kind)?;
    let unit = step.unit;
    let first = stated(from, Some(unit), kind)?;
    if step.si == 0.0 {
        return Err(SeriesError::ZeroStep(step_text.to_string()));
    }
    // In the unit of the step, where they are not in it already.
    let in_unit = |value: Stated| {
        if value.unit == unit { value.number } else { unit.number(value.si, kind) }
    };
    let (start, end) = (in_unit(first), in_unit(to));
    if (end - start) * step.number < 0.0 {
        let (from, to, step) = (from.to_string(), to_text.to_string(), step_text.to_string());
        return Err(SeriesError::WrongWay { from, to, step });
    }
    let as_written = first.unit == unit && to.unit == unit;
    let from = Listed::new(Stated { number: start, unit, si: first.si }, from, kind);
    let decimal = Decimals::of([start, end, step.number]);
    let count = match &decimal {
        Some(Decimals { whole: [start, end, step], .. }) if as_written => (end - start) / step,
        // Where the step meets the end but for rounding, the end belongs to it.
        _ => {
            let steps = (end - start) / step.number;
            (steps + 1e-9 * steps.max(1.0)).floor() as i64
        }
    };
    let count = u64::try_from(count).unwrap_or(0).saturating_add(1);
    let decimal = decimal.map(|Decimals { whole: [start, _, step], places }| (start, step, places));
    Ok(Range { from, step: step.number, count, decimal })
}

/// The end and the step, apart at the slash that leaves two values.
fn end_and_step<'a>(text: &str, rest: &'a str, kind: Kind) -> Result<EndAndStep<'a>, SeriesError> {
    let mut found: Option<EndAndStep<'a>> = None;
    let mut nearest: Option<(usize, SeriesError)> = None;
    for (at, _) in rest.match_indices('/') {
        let (to, step_text) = (rest[..at].trim(), rest[at + 1..].trim());
        let step = stated(step_text, None, kind);
        let unit = step.as_ref().ok().map(|step| step.unit);
        match (stated(to, unit, kind), step) {
            (Ok(_), Ok(_)) if found.is_some() => return Err(SeriesError::Ambiguous(text.to_string())),
            (Ok(to_value), Ok(step)) => found = Some(((to_value, to), (step, step_text))),
            (to, step) => {
                // Of several slashes the one that leaves most of it right was meant.
                let wrong = usize::from(to.is_err()) + usize::from(step.is_err());
                if let Some(error) = step.err().or(to.err())
                    && nearest.as_ref().is_none_or(|(least, _)| wrong < *least)
                {
                    nearest = Some((wrong, error));
                }
            }
        }
    }
    let shape = || SeriesError::Shape(text.to_string());
    found.ok_or_else(|| nearest.map_or_else(shape, |(_, error)| error))
}

/// Numbers as whole numbers of one decimal place.
struct Decimals<const N: usize> {
    whole: [i64; N],
    /// How many of that place make one.
    places: f64,
}

impl<const N: usize> Decimals<N> {
    /// None where a number has too many digits to be exact in that form.
    fn of(numbers: [f64; N]) -> Option<Self> {
        // The shortest text that reads back as the number: what was written, or as good.
        let texts = numbers.map(|number| number.to_string());
        let after_point = |text: &String| text.split_once('.').map_or(0, |(_, digits)| digits.len());
        let most = texts.iter().map(after_point).max()?;
        let mut whole = [0; N];
        for (whole, text) in whole.iter_mut().zip(&texts) {
            let zeros = "0".repeat(most - after_point(text));
            *whole = (text.replace('.', "") + &zeros).parse().ok()?;
        }
        // Whole numbers up to here are exact, and so are powers of ten up to the 22nd.
        let exact = |whole: &i64| whole.unsigned_abs() < 1 << 52;
        let places = i32::try_from(most).ok().filter(|places| *places <= 22)?;
        whole.iter().all(exact).then(|| Self { whole, places: 10_f64.powi(places) })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::parse::parse_si;

    fn series(text: &str, kind: Kind) -> Series {
        Series::parse(text, kind).unwrap_or_else(|error| panic!("{text}: {error}"))
    }

    fn texts(text: &str, kind: Kind) -> Vec<String> {
        let series = series(text, kind);
        (0..series.len()).map(|i| series.text(i)).collect()
    }

    #[test]
    fn a_range_holds_both_its_ends_where_the_step_meets_them() {
        for (text, expected) in [
            ("-4in..6in/5in", &["-4 in", "1 in", "6 in"][..]),
            ("-4in..5in/5in", &["-4 in", "1 in"]),
            ("6in..-4in/-5in", &["6 in", "1 in", "-4 in"]),
            ("-4..6/5in", &["-4 in", "1 in", "6 in"]),
            ("-4in..6/5in", &["-4 in", "1 in", "6 in"]),
            ("1/2..1 1/2/1/2in", &["0.5 in", "1 in", "1.5 in"]),
            ("5 ft 10 in..6 ft/1 in", &["5 ft 10 in", "71 in", "72 in"]),
            ("1ft..2ft/6in", &["12 in", "18 in", "24 in"]),
            ("3in..3in/1in", &["3 in"]),
            ("3in..3in/-1in", &["3 in"]),
            // Tenths that no sum of floating-point tenths would meet.
            ("0.1in..0.7in/0.2in", &["0.1 in", "0.3 in", "0.5 in", "0.7 in"]),
            ("2 ft, 30in,1 m", &["2 ft", "30 in", "1 m"]),
            ("5 ft 2 in", &["5 ft 2 in"]),
        ] {
            assert_eq!(texts(text, Kind::Length), expected, "{text}");
        }
        assert_eq!(texts("100lb/in..300lb/in/100lb/in", Kind::Rate), ["100 lb/in", "200 lb/in", "300 lb/in"]);
        assert_eq!(texts("2deg..8deg/3deg", Kind::Slope), ["2 deg", "5 deg", "8 deg"]);
        assert_eq!(texts("0..100/50%", Kind::Share), ["0 %", "50 %", "100 %"]);
    }

    #[test]
    fn a_value_is_what_its_text_reads_as_to_the_last_bit() {
        for (text, kind) in [
            ("-0.3in..0.3in/0.01in", Kind::Length),
            ("-1.7ft..2ft/0.1ft", Kind::Length),
            ("1in..2in/1/16in", Kind::Length),
            ("0.4m..0.6m/0.001m", Kind::Length),
            ("0%..100%/0.7%", Kind::Share),
            ("1deg..9deg/0.3deg", Kind::Slope),
            ("5%..15%/0.1%", Kind::Slope),
            ("4000lb..6000lb/33.3lb", Kind::Weight),
            ("1/3in..9in/1/3in", Kind::Length),
            ("1ft,2.1in,0.7mm,5 ft 10 in,6 ft 1.3 in", Kind::Length),
            ("5ft..6ft/1.3in", Kind::Length),
            ("5 ft 7 in..6ft/1.3mm", Kind::Length),
            ("5deg..20%/1%", Kind::Slope),
        ] {
            let series = series(text, kind);
            for i in 0..series.len() {
                let read = parse_si(&series.text(i), kind).expect("it reads").value;
                assert_eq!(read.to_bits(), series.si(i).to_bits(), "{text}: {}", series.text(i));
            }
        }
    }

    #[test]
    fn counts_are_told_however_large() {
        assert_eq!(series("0in..1000in/0.000001in", Kind::Length).len(), 1_000_000_001);
        assert_eq!(series("0in..3900in/0.0000000000000000000001in", Kind::Length).len(), (1 << 63));
        assert!(!series("1in", Kind::Length).is_empty());
    }

    #[test]
    fn what_is_no_series_says_why() {
        for (text, says, helps) in [
            ("", "expected FROM..TO/STEP or a list A,B,C, found ``", "for example -4in..6in/1in"),
            ("1in..2in", "expected FROM..TO/STEP", "for example"),
            ("1in..2in/0in", "expected a step other than zero, found `0in`", ""),
            ("1in..2in/-1in", "expected a step from 1in toward 2in, found `-1in`", "a step of 1in?"),
            ("2in..1in/1in", "which leads away", "a step of -1in?"),
            ("1in..2in/1", "expected a unit after `1`, found none in `1`", "write for example"),
            ("1..2/1", "expected a unit after `1`, found none in `1`", "write for example"),
            ("1in..2lb/1in", "expected a length, found a weight (`lb`) in `2lb`", "units that fit: in"),
            ("1in..2in/1inn", "found `inn` in `1inn`", "did you mean `in`?"),
            ("in..2in/1in", "expected a length that begins with a number", "write for example"),
            ("0..1/2/3in", "which reads in two", "every value with its unit"),
            ("9,000 lb", "expected a unit after `9`, found none", "write for example"),
            ("1in ± 1in", "expected the end of the value, found `± 1in`", ""),
            ("1in,,2in", "expected a length, found nothing in ``", "write for example"),
        ] {
            let kind = if text.contains("000") { Kind::Weight } else { Kind::Length };
            let error = Series::parse(text, kind).expect_err(text);
            assert!(error.to_string().contains(says), "{text}: {error}");
            assert!(error.help().unwrap_or_default().contains(helps), "{text}: {:?}", error.help());
        }
    }
}
