//! A sweep, row by row: as a table, as comma-separated values, as JSON lines; and its best point as TOML to paste.
//!
//! Numbers for programs are unrounded, in the units that their columns name; shares are fractions.

pub mod chart;

use super::csv::as_text;
use super::words;
use crate::fit::{Amount, Asked, Measure};
use crate::quantity::show::{self, UnitSystem, decimals, file_unit, percent, trimmed, whole};
use crate::quantity::{Kind, Quantity, Share, unit};
use crate::study::sweep::{Axis, Best, Cell, Column, Outlook, Setting, Shows, Sweep};

/// How rows are written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// For reading: numbers rounded, columns as wide as their headings.
    Table,
    /// Comma-separated values under a line of names.
    Csv,
    /// One JSON object a line.
    JsonLines,
}

/// The verdict of a point at which there is no rig.
const NO_RIG: &str = "none";

/// What a row is made from: the sweep, and how it is printed.
#[derive(Debug)]
pub struct Rows<'s> {
    sweep: &'s Sweep<'s>,
    units: UnitSystem,
    form: Form,
    columns: Vec<Heading>,
    gap: &'static str,
}

/// A column's name, and how wide a table makes it.
#[derive(Debug)]
struct Heading {
    name: String,
    /// What stands before its value in a JSON object.
    json: String,
    pieces: Vec<String>,
    width: usize,
    /// How wide its values may be: the last column's words have room to the right, and are not filled up.
    widest: usize,
    is_word: bool,
}

/// No line of a table is wider, where its columns let it.
const PAGE: usize = 80;

impl<'s> Rows<'s> {
    /// The rows of a sweep in a form.
    ///
    /// # Errors
    /// Never in practice: every name can be written as JSON.
    pub fn new(sweep: &'s Sweep<'s>, units: UnitSystem, form: Form) -> serde_json::Result<Self> {
        let varied = sweep.axes().iter().map(|axis| varied_heading(axis, units));
        let results = sweep.columns().iter().map(|column| result_heading(sweep, column, units));
        let columns = varied.chain(results).collect::<serde_json::Result<Vec<_>>>()?;
        let widths: usize = columns.iter().map(|column| column.widest).sum();
        let gap = if widths + 2 * (columns.len() - 1) <= PAGE { "  " } else { " " };
        Ok(Self { sweep, units, form, columns, gap })
    }

    /// What stands above the rows.
    pub fn header(&self) -> String {
        match self.form {
            Form::JsonLines => String::new(),
            Form::Csv => {
                let names: Vec<String> = self.columns.iter().map(|column| quoted(&column.name)).collect();
                names.join(",") + "\n"
            }
            Form::Table => {
                let lines = self.columns.iter().map(|column| column.pieces.len()).max().unwrap_or(0);
                let mut header = String::new();
                for line in 0..lines {
                    let piece = |column: &Heading| {
                        // All stand on the last line.
                        let piece = (line + column.pieces.len()).checked_sub(lines);
                        piece.and_then(|piece| column.pieces.get(piece).cloned()).unwrap_or_default()
                    };
                    let pieces: Vec<String> = self.columns.iter().map(piece).collect();
                    self.push_line(&mut header, &pieces);
                }
                header
            }
        }
    }

    /// Adds the line of one point; without anything found there its results are empty, and its verdict is none.
    pub fn push(&self, out: &mut String, row: u64, found: Option<&Outlook>) {
        match self.form {
            Form::Table => self.push_for_reading(out, row, found),
            Form::Csv => {
                self.push_values(out, row, found, |out, i, _| {
                    if i > 0 {
                        out.push(',');
                    }
                });
                out.push('\n');
            }
            Form::JsonLines => {
                out.push('{');
                self.push_values(out, row, found, |out, i, heading| {
                    if i > 0 {
                        out.push(',');
                    }
                    out.push_str(&heading.json);
                });
                out.push_str("}\n");
            }
        }
    }

    /// Every value of a row, each after what stands before it.
    fn push_values(
        &self,
        out: &mut String,
        row: u64,
        found: Option<&Outlook>,
        before: impl Fn(&mut String, usize, &Heading),
    ) {
        let (varied, results) = self.columns.split_at(self.sweep.axes().len());
        let axes = self.sweep.axes().iter().zip(self.sweep.places(row)).zip(varied);
        for (i, ((axis, place), heading)) in axes.enumerate() {
            before(out, i, heading);
            push_number(out, varied_number(axis, place, self.units));
        }
        for (i, (column, heading)) in self.sweep.columns().iter().zip(results).enumerate() {
            before(out, varied.len() + i, heading);
            match self.plain(column, found) {
                Plain::Number(number) => push_number(out, number),
                Plain::Word(word) if self.form == Form::JsonLines => {
                    out.push('"');
                    // Ids and verdicts are letters, digits and hyphens.
                    out.push_str(word);
                    out.push('"');
                }
                Plain::Word(word) => out.push_str(word),
                Plain::Nothing if self.form == Form::JsonLines => out.push_str("null"),
                Plain::Nothing => {}
            }
        }
    }

    fn plain(&self, column: &Column, found: Option<&Outlook>) -> Plain<'_> {
        match (found.map(|found| self.sweep.cell(column, found)), column.shows) {
            (None, Shows::Verdict) => Plain::Word(NO_RIG),
            (None | Some(Cell::Unknown), _) => Plain::Nothing,
            (Some(Cell::Amount(amount)), _) => {
                let si = amount.si();
                Plain::Number(amount.measure().kind().map_or(si, |kind| show::number(si, kind, self.units).0))
            }
            (Some(Cell::Angle(angle)), _) => Plain::Number(angle.si().to_degrees()),
            (Some(Cell::Check(id)), _) => Plain::Word(id),
            (Some(Cell::CheckVerdict(verdict)), _) => Plain::Word(words::verdict(verdict)),
            (Some(Cell::RigVerdict(verdict)), _) => Plain::Word(words::rig_verdict(verdict)),
        }
    }

    fn push_for_reading(&self, out: &mut String, row: u64, found: Option<&Outlook>) {
        self.push_line(out, &self.texts(row, found));
    }

    /// The values of a point, column by column, for reading.
    fn texts(&self, row: u64, found: Option<&Outlook>) -> Vec<String> {
        let axes = self.sweep.axes().iter().zip(self.sweep.places(row));
        let varied = axes.map(|(axis, place)| varied_for_reading(axis, place, self.units));
        let results = self.sweep.columns().iter().map(|column| self.for_reading(column, found));
        varied.chain(results).collect()
    }

    fn for_reading(&self, column: &Column, found: Option<&Outlook>) -> String {
        let number = match self.plain(column, found) {
            Plain::Number(number) => number,
            Plain::Word(word) => return word.to_string(),
            Plain::Nothing => return "-".to_string(),
        };
        match column.shows {
            Shows::TongueShare | Shows::Load(Measure::Share) | Shows::Margin(Measure::Share) => {
                percent(Share::from_si(number))
            }
            Shows::Used => words::used(Share::from_si(number)),
            Shows::Load(Measure::Length) | Shows::Margin(Measure::Length) if self.units == UnitSystem::Us => {
                decimals(number, 2)
            }
            Shows::Pitch => decimals(number, 2),
            _ => whole(number),
        }
    }

    fn push_line(&self, out: &mut String, texts: &[String]) {
        let mut line = String::new();
        for (i, (heading, text)) in self.columns.iter().zip(texts).enumerate() {
            let gap = if i > 0 { self.gap } else { "" };
            let spaces = " ".repeat(heading.width.saturating_sub(text.chars().count()));
            let (before, after) = if heading.is_word { ("", &*spaces) } else { (&*spaces, "") };
            line.extend([gap, before, text, after]);
        }
        out.push_str(line.trim_end());
        out.push('\n');
    }
}

/// A value as programs read it.
enum Plain<'a> {
    Number(f64),
    Word(&'a str),
    Nothing,
}

/// The shortest text that reads back as the number; a whole one without a point.
fn push_number(out: &mut String, number: f64) {
    /// Whole numbers below this are exact, and short.
    const WHOLE: f64 = 1e9;
    if number.fract() == 0.0 && number.abs() < WHOLE {
        out.push_str(&(number as i64).to_string());
        return;
    }
    // No number's shortest text is longer than 24 bytes.
    let mut buffer = [0; 32];
    let mut rest = &mut buffer[..];
    if serde_json::to_writer(&mut rest, &number).is_ok() {
        let left = rest.len();
        let written = &buffer[..buffer.len() - left];
        out.push_str(std::str::from_utf8(written).unwrap_or_default());
    }
}

/// A field of comma-separated values. Source: RFC 4180, section 2.
fn quoted(field: &str) -> String {
    let field = as_text(field);
    if field.contains([',', '"']) { format!("\"{}\"", field.replace('"', "\"\"")) } else { field }
}

/// The unit that names of columns carry; shares and slopes are plain fractions.
fn unit_of(kind: Kind, units: UnitSystem) -> Option<&'static str> {
    (!is_fraction(kind)).then(|| file_unit(kind, units))
}

fn is_fraction(kind: Kind) -> bool {
    matches!(kind, Kind::Share | Kind::Slope)
}

/// A value of an axis in the unit of its column.
fn varied_number(axis: &Axis, place: u64, units: UnitSystem) -> f64 {
    let kind = axis.variable.kind;
    let (number, stated) = axis.series.number(place);
    let wanted = unit_of(kind, units).and_then(unit::find);
    match wanted {
        // What was written stays as it was.
        Some(wanted) if wanted.factor == stated.factor => number,
        Some(wanted) => wanted.number(axis.series.si(place), kind),
        None if stated.name == "%" => number / 100.0,
        None => axis.series.si(place),
    }
}

fn varied_for_reading(axis: &Axis, place: u64, units: UnitSystem) -> String {
    let number = varied_number(axis, place, units);
    if is_fraction(axis.variable.kind) { trimmed(number * 100.0, 4) + " %" } else { trimmed(number, 4) }
}

fn heading(name: String, width: usize, is_word: bool) -> serde_json::Result<Heading> {
    let json = serde_json::to_string(&name)? + ":";
    let pieces: Vec<String> = name.split(['.', '_']).flat_map(parts).collect();
    let width = pieces.iter().map(|piece| piece.chars().count()).chain([width]).max().unwrap_or(0);
    Ok(Heading { name, json, pieces, width, widest: width, is_word })
}

/// A word of a heading in parts no wider than numbers are, parted after hyphens.
fn parts(word: &str) -> Vec<String> {
    let mut parts: Vec<String> = Vec::new();
    for part in word.split_inclusive('-') {
        match parts.last_mut() {
            Some(last) if last.len() + part.len() <= NUMBER => last.push_str(part),
            _ => parts.push(part.to_string()),
        }
    }
    parts
}

/// How wide a number of a table may be: `-12345`, `-10.2 %`.
const NUMBER: usize = 6;

/// A varied key with the unit that its values are read in.
fn varied_name(axis: &Axis, units: UnitSystem) -> String {
    let unit = unit_of(axis.variable.kind, units).map(|unit| format!(", {unit}")).unwrap_or_default();
    format!("{}{unit}", axis.variable.path)
}

/// Each column's heading as words, and whether words stand under it.
fn heading_words<'r>(rows: &'r Rows<'_>) -> impl Iterator<Item = (String, bool)> + use<'r> {
    rows.columns.iter().map(|column| (column.pieces.join(" "), column.is_word))
}

fn varied_heading(axis: &Axis, units: UnitSystem) -> serde_json::Result<Heading> {
    let unit = unit_of(axis.variable.kind, units).map(|unit| format!("_{unit}")).unwrap_or_default();
    let last = axis.series.len() - 1;
    // Of even steps the second and the last but one have as many decimals as any.
    let places = [0, 1.min(last), last.saturating_sub(1), last];
    let width = places.map(|place| varied_for_reading(axis, place, units).len()).into_iter().max();
    heading(format!("{}{unit}", axis.variable.path), width.unwrap_or(0), false)
}

fn result_heading(sweep: &Sweep<'_>, column: &Column, units: UnitSystem) -> serde_json::Result<Heading> {
    let unit = match column.shows {
        Shows::TongueWeight
        | Shows::GrossTrailerWeight
        | Shows::AxleLoad
        | Shows::LiftedAxleLoad
        | Shows::LeastMargin => Some(units.weight_unit()),
        Shows::Load(measure) | Shows::Margin(measure) => {
            measure.kind().map(|kind| show::file_unit(kind, units))
        }
        Shows::Pitch => Some("deg"),
        _ => None,
    };
    let name = unit.map_or_else(|| column.name.clone(), |unit| format!("{}_{unit}", column.name));
    let widest = |of: fn(&Asked) -> bool| {
        let ids = sweep.scope().rows().iter().filter(|asked| of(asked)).map(|asked| asked.id.len());
        ids.max().unwrap_or(0)
    };
    let (width, is_word) = match column.shows {
        Shows::LeastMarginCheck => (widest(Asked::has_weight_margin), true),
        Shows::FailingCheck => (widest(Asked::fails), true),
        // What is incomplete has no failing check: before that column it needs no room of its own.
        Shows::Verdict if sweep.columns().last().is_some_and(|last| last.shows == Shows::FailingCheck) => {
            (0, true)
        }
        Shows::Verdict => ("incomplete".len(), true),
        Shows::CheckVerdict => ("not-checked".len(), true),
        _ => (NUMBER, false),
    };
    let is_last = sweep.columns().last() == Some(column);
    let heading = heading(name, if is_word && is_last { 0 } else { width }, is_word)?;
    Ok(Heading { widest: heading.width.max(width), ..heading })
}

/// The best point of a sweep as lines of TOML: what was found there in comments, then what to paste.
pub fn best(sweep: &Sweep<'_>, units: UnitSystem, seen: &Best, found: &Outlook, row: u64) -> String {
    let mut lines = vec![format!("# Best of {}, of which {} pass.", points(seen.points), seen.passing)];
    let axes = || sweep.axes().iter().zip(sweep.places(row));
    let varied = axes().map(|(axis, place)| (axis.variable.path.clone(), axis.series.text(place)));
    let results =
        sweep.columns().iter().map(|column| (column.name.clone(), shown(sweep, column, found, units)));
    let shown: Vec<(String, String)> = varied.chain(results).collect();
    let width = shown.iter().map(|(name, _)| name.chars().count()).max().unwrap_or(0);
    lines.extend(shown.iter().map(|(name, value)| format!("#   {name:<width$}  {value}")));
    lines.extend(toml(sweep.settings(row)));
    lines.join("\n") + "\n"
}

/// What is said where no point passes.
pub fn none_passes(seen: &Best) -> String {
    format!("# None of {} passes.\n", points(seen.points))
}

fn points(count: u64) -> String {
    if count == 1 { "1 point".to_string() } else { format!("{count} points") }
}

fn shown(sweep: &Sweep<'_>, column: &Column, found: &Outlook, units: UnitSystem) -> String {
    match sweep.cell(column, found) {
        Cell::Amount(Amount::Share(share)) if column.shows == Shows::Used => words::used(share),
        Cell::Amount(amount) => words::amount(amount, units),
        Cell::Angle(angle) => format!("{} deg", decimals(angle.si().to_degrees(), 2)),
        Cell::Check(id) => id.to_string(),
        Cell::CheckVerdict(verdict) => words::verdict(verdict).to_string(),
        Cell::RigVerdict(verdict) => words::rig_verdict(verdict).to_string(),
        Cell::Unknown if column.shows == Shows::FailingCheck => "none".to_string(),
        Cell::Unknown => "unknown".to_string(),
    }
}

/// A name as a key of TOML, quoted where it must be: the ids of tanks may have letters that a bare key may not.
fn toml_key(name: &str) -> String {
    let bare = name.bytes().all(|byte| byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'_'));
    if bare { name.to_string() } else { format!("\"{name}\"") }
}

/// Values as lines of TOML, each under the heading of its table.
fn toml(settings: Vec<Setting>) -> Vec<String> {
    let mut lines = Vec::new();
    let mut last = None;
    for Setting { path, text, key } in settings {
        let (table, name) = path.rsplit_once('.').unwrap_or(("", &path));
        if last.as_deref() != Some(table) {
            // What stands in a list has no heading of its own that could be pasted: say where it belongs.
            lines.extend([
                String::new(),
                if key.path.contains('*') { format!("# in {table}:") } else { format!("[{table}]") },
            ]);
            last = Some(table.to_string());
        }
        lines.push(format!("{} = \"{text}\"", toml_key(name)));
    }
    lines
}
