//! A sweep as a picture: of one variable lines, of two a field of verdicts.

use super::{NO_RIG, Rows, heading_words, varied_for_reading};
use crate::fit::{Amount, Bounds, Measure, RigVerdict};
use crate::quantity::show::UnitSystem;
use crate::quantity::{Kind, Quantity};
use crate::report::document::{Document, Holds, Picture, Role, Table, Text};
use crate::report::plot::{Chart, Field, Ground, Line, Panel, Point, Scale, Square, Window};
use crate::report::words;
use crate::study::sweep::{Axis, Cell, Column, Outlook, Shows, Sweep};

/// So many values of one variable fit a chart, and so many of each of two a field.
const MOST: [u64; 2] = [1000, 60];
/// A page has the table of no more points.
const LISTED: usize = 200;

/// Why a sweep is no picture, in its owner's words, and what would make it one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoPicture {
    /// What was expected and found.
    pub why: String,
    /// What to do.
    pub help: String,
}

/// Whether a sweep can be a picture.
///
/// # Errors
/// [`NoPicture`] where it varies three keys or more, one value alone or too many, or shows no number.
pub fn can_be_drawn(sweep: &Sweep<'_>) -> Result<(), NoPicture> {
    let refused = |why: String, help: &str| Err(NoPicture { why, help: help.to_string() });
    let rows = "--format csv has any number of points";
    let axes = sweep.axes();
    if axes.len() > MOST.len() {
        let why = format!("expected one or two --vary for a picture, found {}", axes.len());
        return refused(why, rows);
    }
    let most = MOST[axes.len() - 1];
    for axis in axes {
        let (path, found) = (&axis.variable.path, axis.series.len());
        if found < 2 {
            let why = format!("expected two or more values of {path} for a picture, found one");
            return refused(why, "a range, such as PATH=FROM..TO/STEP");
        }
        if found > most {
            let why = format!("expected at most {most} values of {path} for a picture, found {found}");
            return refused(why, &format!("a larger step; {rows}"));
        }
    }
    if axes.len() == 1 && !sweep.columns().iter().any(|column| scale(column).is_some()) {
        let names: Vec<&str> = sweep.columns().iter().map(|column| column.name.as_str()).collect();
        let why =
            format!("expected a column with numbers in --show for a picture, found {}", names.join(", "));
        return refused(why, "for example --show tongue_share,axle_load,verdict");
    }
    Ok(())
}

/// What a picture needs of one point.
#[derive(Debug, Clone, PartialEq)]
pub struct Spot {
    /// Which point.
    row: u64,
    /// By column the value in SI, if it is a number that is known.
    values: Vec<Option<f64>>,
    /// By column the limits that it faces.
    bounds: Vec<Vec<(String, Bounds)>>,
    /// What became of the rig there; `None` where there is none.
    verdict: Option<RigVerdict>,
    /// The failing check, if one fails.
    fails_by: Option<String>,
    /// The texts of its row in a table.
    texts: Vec<String>,
}

impl Spot {
    /// What a picture needs of a point.
    pub fn of(rows: &Rows<'_>, row: u64, found: Option<&Outlook>) -> Self {
        let sweep = rows.sweep;
        let value = |column: &Column| match found.map(|found| sweep.cell(column, found))? {
            Cell::Amount(amount) => Some(amount.si()),
            Cell::Angle(angle) => Some(angle.si()),
            _ => None,
        };
        let bounds = |column: &Column| {
            let bounds = found.map(|found| sweep.bounds(column, found)).unwrap_or_default();
            bounds.into_iter().map(|(id, bounds)| (id.to_string(), bounds)).collect()
        };
        Self {
            row,
            values: sweep.columns().iter().map(value).collect(),
            bounds: sweep.columns().iter().map(bounds).collect(),
            verdict: found.map(|found| found.verdict),
            fails_by: found.and_then(|found| sweep.failing_check(found)).map(str::to_string),
            texts: rows.texts(row, found),
        }
    }

    /// Its verdict, and what fails.
    fn word(&self) -> String {
        let verdict = self.verdict.map_or(NO_RIG, words::rig_verdict);
        match &self.fails_by {
            Some(id) => format!("{verdict}: {id}"),
            None => verdict.to_string(),
        }
    }
}

/// A sweep as a picture, from all its points in order; `None` where no number of it is known.
pub fn picture(sweep: &Sweep<'_>, units: UnitSystem, spots: &[Spot]) -> Option<String> {
    match sweep.axes() {
        [axis] => lines(sweep, axis, units, spots).drawn(),
        [down, across] => Some(field(sweep, [across, down], units, spots).drawn()),
        _ => None,
    }
}

/// A page with the picture, and its points as a table where they are not too many.
pub fn page(rows: &Rows<'_>, path: &str, spots: &[Spot]) -> Document {
    let sweep = rows.sweep;
    let mut document = Document::default();
    let passing = spots.iter().filter(|spot| spot.verdict == Some(RigVerdict::Pass)).count();
    document.add_title(format!("{} points, of which {passing} pass", spots.len()));
    let paths: Vec<&str> = sweep.axes().iter().map(|axis| axis.variable.path.as_str()).collect();
    let title = sweep.rig().proposed().title.as_deref().unwrap_or(path);
    document.paragraph(Text::from(title).then(", over ").and(Role::Key, &paths.join(", ")));
    document.paragraph("Every value is taken as stated, without its bound.");
    if let Some(svg) = picture(sweep, rows.units, spots) {
        document.pictures(&[Picture { caption: caption(sweep).into(), svg }]);
    }
    if spots.len() <= LISTED {
        let holds = |is_word: bool| if is_word { Holds::Words } else { Holds::Numbers };
        let mut table = Table::new([]);
        table.columns = heading_words(rows)
            .map(|(words, is_word)| crate::report::document::Column {
                holds: holds(is_word),
                heading: words.into(),
            })
            .collect();
        table.rows =
            spots.iter().map(|spot| spot.texts.iter().map(|text| text.as_str().into()).collect()).collect();
        document.table(table);
    } else {
        document.paragraph("Every point is a row of --format csv.");
    }
    document.paragraph(words::SCREENING);
    document
}

fn caption(sweep: &Sweep<'_>) -> String {
    match sweep.axes() {
        [axis] => format!("What is shown, against {}; shaded where the rig passes", axis.variable.path),
        [down, across] => {
            format!("Verdicts over {} and {}", across.variable.path, down.variable.path)
        }
        _ => String::new(),
    }
}

/// What a column measures: its kind, unless it is a share or a plain number, and what its panel is called; `None` of one
/// without numbers.
fn scale(column: &Column) -> Option<(Measured, &'static str)> {
    Some(match column.shows {
        Shows::TongueWeight | Shows::GrossTrailerWeight | Shows::AxleLoad | Shows::LiftedAxleLoad => {
            (Measured::Kind(Kind::Weight), "load")
        }
        Shows::LeastMargin => (Measured::Kind(Kind::Weight), "margin"),
        Shows::TongueShare => (Measured::Share, "share"),
        Shows::Used => (Measured::Share, "used"),
        Shows::Pitch => (Measured::Kind(Kind::Angle), "pitch, bow up"),
        Shows::LaunchDepth(_) => (Measured::Kind(Kind::Length), "depth"),
        Shows::Load(measure) => (Measured::of(measure), "load"),
        Shows::Margin(measure) => (Measured::of(measure), "margin"),
        Shows::LeastMarginCheck | Shows::Verdict | Shows::FailingCheck | Shows::CheckVerdict => return None,
    })
}

/// What a number measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Measured {
    Kind(Kind),
    Share,
    Number,
}

impl Measured {
    fn of(measure: Measure) -> Self {
        match (measure, measure.kind()) {
            (Measure::Number, _) => Self::Number,
            (_, Some(kind)) => Self::Kind(kind),
            (_, None) => Self::Share,
        }
    }

    fn scale(self, name: &str, span: f64, units: UnitSystem) -> Scale {
        match self {
            Self::Kind(kind) => Scale::of(name, kind, span, units),
            Self::Share => Scale::of(name, Kind::Share, span, units),
            Self::Number => Scale::number(name),
        }
    }
}

/// What is drawn in one frame: what its scale measures and in which unit, its lines, and their limits.
type Framed<'a> = ((Measured, &'a str), Vec<Line>, Vec<Limit>);

/// What is shown of each point, against the one variable.
fn lines(sweep: &Sweep<'_>, axis: &Axis, units: UnitSystem, spots: &[Spot]) -> Chart {
    let at = |spot: &Spot| axis.series.si(spot.row);
    let mut spots: Vec<&Spot> = spots.iter().collect();
    spots.sort_by(|a, b| at(a).total_cmp(&at(b)));
    let span = [spots.first().map_or(0.0, |spot| at(spot)), spots.last().map_or(0.0, |spot| at(spot))];
    let mut panels: Vec<Framed<'_>> = Vec::new();
    for (i, column) in sweep.columns().iter().enumerate() {
        let Some(measured) = scale(column) else { continue };
        let points: Vec<Point> = spots.iter().map(|spot| (at(spot), spot.values[i])).collect();
        let load = Line::load(&column.name, points);
        let mut limits = limits(column, &spots, i, &at, units);
        // What is used, and a margin, has a limit of its own.
        let own = match measured.1 {
            "margin" => Some(("no margin", 0.0)),
            "used" => Some(("all of it used", 1.0)),
            _ => None,
        };
        limits.extend(own.map(|(says, at)| Limit {
            of: vec![column.name.clone()],
            says: says.to_string(),
            points: Line::limit("", at, span).points,
        }));
        match panels.iter_mut().find(|(of, ..)| *of == measured) {
            Some((_, loads, known)) => {
                loads.push(load);
                known.extend(limits);
            }
            None => panels.push((measured, vec![load], limits)),
        }
    }
    let panels = panels.into_iter().map(|((measured, name), mut lines, limits)| {
        lines.extend(named(limits, lines.len()));
        let values = lines.iter().flat_map(Line::values);
        let most = values.map(f64::abs).fold(0.0, f64::max);
        Panel { up: measured.scale(name, most, units), lines }
    });
    let stands = sweep.stands(axis).filter(|stands| (span[0]..=span[1]).contains(stands));
    Chart {
        title: format!("A sweep of {}", axis.variable.path),
        said: said(sweep, &spots),
        across: Scale::of(&axis.variable.path, axis.variable.kind, span[1] - span[0], units),
        span,
        windows: passing(&spots, &at),
        posts: stands.map(|stands| (stands, "as it stands".to_string())).into_iter().collect(),
        panels: panels.collect(),
    }
}

/// Where the rig passes, half way to the next point that does not.
fn passing(spots: &[&Spot], at: &impl Fn(&Spot) -> f64) -> Vec<Window> {
    let mut windows: Vec<Window> = Vec::new();
    let passes = |spot: &Spot| spot.verdict == Some(RigVerdict::Pass);
    for (i, spot) in spots.iter().enumerate().filter(|(_, spot)| passes(spot)) {
        let here = at(spot);
        let half = |other: Option<&&Spot>| other.map_or(here, |other| f64::midpoint(here, at(other)));
        let [from, to] = [half(i.checked_sub(1).and_then(|i| spots.get(i))), half(spots.get(i + 1))];
        match windows.last_mut() {
            Some(window) if window.ends[1] >= from => window.ends[1] = to,
            _ => windows.push(Window { ends: [from, to], name: "passes".to_string() }),
        }
    }
    windows
}

/// A limit of a panel.
struct Limit {
    /// The columns that face it.
    of: Vec<String>,
    /// What it says of them.
    says: String,
    points: Vec<Point>,
}

/// The limits of a panel with so many columns as lines: what is said of several alike is said once, and what is said of all
/// without their names.
fn named(limits: Vec<Limit>, columns: usize) -> Vec<Line> {
    let mut known: Vec<Limit> = Vec::new();
    for limit in limits {
        let is_same = |other: &&mut Limit| other.says == limit.says && other.points == limit.points;
        match known.iter_mut().find(is_same) {
            Some(other) => {
                other.of.extend(limit.of.into_iter().filter(|of| !other.of.contains(of)).collect::<Vec<_>>());
            }
            None => known.push(limit),
        }
    }
    let line = |Limit { of, says, points }: Limit| {
        let name = if of.len() == columns { says } else { format!("{} {says}", of.join(", ")) };
        Line { name, is_limit: true, points }
    };
    known.into_iter().map(line).collect()
}

/// The limits that a column faces, with their value where it is the same all over.
fn limits(
    column: &Column,
    spots: &[&Spot],
    place: usize,
    at: &impl Fn(&Spot) -> f64,
    units: UnitSystem,
) -> Vec<Limit> {
    type Side = (&'static str, fn(&Bounds) -> Option<Amount>);
    let sides: [Side; 4] = [
        ("fails above", |bounds| bounds.fails_above),
        ("at most", |bounds| bounds.max.filter(|_| bounds.max != bounds.fails_above)),
        ("at least", |bounds| bounds.min.filter(|_| bounds.min != bounds.fails_below)),
        // A load is not below zero of itself.
        ("fails below", |bounds| bounds.fails_below.filter(|below| below.si() != 0.0)),
    ];
    let mut ids: Vec<&str> = Vec::new();
    for (id, _) in spots.iter().flat_map(|spot| &spot.bounds[place]) {
        if !ids.contains(&id.as_str()) {
            ids.push(id);
        }
    }
    let mut limits = Vec::new();
    for id in ids {
        for (word, side) in sides {
            let amount = |spot: &&Spot| {
                let bounds = spot.bounds[place].iter().find(|(of, _)| of == id);
                (at(spot), bounds.and_then(|(_, bounds)| side(bounds)))
            };
            let amounts: Vec<(f64, Option<Amount>)> = spots.iter().map(amount).collect();
            let mut known = amounts.iter().filter_map(|(_, amount)| *amount);
            let Some(first) = known.next() else { continue };
            let is_one = known.all(|amount| amount == first);
            let value = if is_one { format!(" {}", words::amount(first, units)) } else { String::new() };
            limits.push(Limit {
                of: vec![column.name.clone()],
                says: format!("{word}{value}"),
                points: amounts.iter().map(|(x, amount)| (*x, amount.map(Amount::si))).collect(),
            });
        }
    }
    limits
}

/// How many points pass, in words.
fn said(sweep: &Sweep<'_>, spots: &[&Spot]) -> String {
    let passing = spots.iter().filter(|spot| spot.verdict == Some(RigVerdict::Pass)).count();
    let columns: Vec<&str> = sweep.columns().iter().map(|column| column.name.as_str()).collect();
    format!("{} at {} points, of which {passing} pass.", columns.join(", "), spots.len())
}

/// Verdicts over two variables: the last across, the first up.
fn field(sweep: &Sweep<'_>, [across, up]: [&Axis; 2], units: UnitSystem, spots: &[Spot]) -> Field {
    // Rising values go right and up, however they were listed.
    let order = |axis: &Axis| {
        let mut order: Vec<u64> = (0..axis.series.len()).collect();
        order.sort_by(|a, b| axis.series.si(*a).total_cmp(&axis.series.si(*b)));
        order
    };
    let (columns, rows) = (order(across), order(up));
    let square = |row: u64, column: u64| {
        let spot = usize::try_from(row * across.series.len() + column).ok().and_then(|i| spots.get(i));
        let ground = match spot.and_then(|spot| spot.verdict) {
            Some(RigVerdict::Pass) => Ground::Plain,
            Some(RigVerdict::Fail) => Ground::Hatched,
            Some(RigVerdict::Incomplete | RigVerdict::Unsure) => Ground::Dotted,
            None => Ground::Crossed,
        };
        Square { ground, word: spot.map(Spot::word).unwrap_or_default() }
    };
    let squares =
        rows.iter().map(|row| columns.iter().map(|column| square(*row, *column)).collect()).collect();
    let marks = |axis: &Axis, order: &[u64]| {
        order.iter().map(|place| varied_for_reading(axis, *place, units)).collect::<Vec<_>>()
    };
    let all: Vec<&Spot> = spots.iter().collect();
    Field {
        title: format!("Verdicts over {} and {}", across.variable.path, up.variable.path),
        said: said(sweep, &all),
        across: (super::varied_name(across, units), marks(across, &columns)),
        up: (super::varied_name(up, units), marks(up, &rows)),
        squares,
    }
}
