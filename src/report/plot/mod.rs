//! Charts as SVG: lines over one axis, in one panel or several, with limits, windows and places named where they lie.
//!
//! A builder says what is drawn, in SI; here is only where it goes on the page. Each line is dashed in its own way, so
//! that a print without colour still tells them apart.

mod bars;
mod field;
mod labels;
mod svg;

use super::svg::{WIDTH, cut, width};
use crate::quantity::Kind;
use crate::quantity::show::{UnitSystem, file_unit, trimmed};
use crate::quantity::unit;
pub(super) use bars::{Bars, Group, Load};
pub(super) use field::{Field, Ground, Square};
use labels::{Area, Placed};
use svg::{Picture, path};

/// What an axis measures: what it is called, and how large one of its units is in SI.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::report) struct Scale {
    name: String,
    unit: f64,
}

/// From this span on, in metres, an axis is in feet or metres instead of inches or millimetres.
const LONG: f64 = 3.0;

impl Scale {
    /// The axis of a kind, for values that span so much.
    pub fn of(name: &str, kind: Kind, span: f64, units: UnitSystem) -> Self {
        // A long way in inches is no number that anyone sees.
        let kind = if kind == Kind::Length && span > LONG { Kind::Distance } else { kind };
        let unit = file_unit(kind, units);
        let size = unit::find(unit).map_or(1.0, |unit| unit.factor);
        Self { name: format!("{name}, {unit}"), unit: size }
    }

    /// The axis of plain numbers.
    pub fn number(name: &str) -> Self {
        Self { name: name.to_string(), unit: 1.0 }
    }

    /// A value as a mark of the axis shows it.
    fn shown(&self, si: f64) -> String {
        grouped(&trimmed(si / self.unit, 6))
    }
}

/// A number with its thousands set apart where there are ten of them or more.
fn grouped(number: &str) -> String {
    let (sign, size) = number.strip_prefix('-').map_or(("", number), |size| ("-", size));
    let whole = size.find('.').unwrap_or(size.len());
    if whole < 5 {
        return number.to_string();
    }
    let mut out = sign.to_string();
    for (i, digit) in size.chars().enumerate() {
        if i > 0 && i < whole && (whole - i) % 3 == 0 {
            out.push('\u{2009}');
        }
        out.push(digit);
    }
    out
}

/// A point of a line: where, and what, unless that is not known there.
pub(in crate::report) type Point = (f64, Option<f64>);

/// A line of a panel.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::report) struct Line {
    /// What it is called.
    pub name: String,
    /// Whether it is a limit and not a load.
    pub is_limit: bool,
    /// Its points, from left to right.
    pub points: Vec<Point>,
}

impl Line {
    /// A load.
    pub fn load(name: impl Into<String>, points: Vec<Point>) -> Self {
        Self { name: name.into(), is_limit: false, points }
    }

    /// A limit that is the same all over.
    pub fn limit(name: impl Into<String>, at: f64, [from, to]: [f64; 2]) -> Self {
        Self { name: name.into(), is_limit: true, points: vec![(from, Some(at)), (to, Some(at))] }
    }

    /// What is known of it.
    pub fn values(&self) -> impl Iterator<Item = f64> {
        self.points.iter().filter_map(|(_, value)| *value)
    }
}

/// Lines of one measure.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::report) struct Panel {
    /// What they measure.
    pub up: Scale,
    /// They.
    pub lines: Vec<Line>,
}

/// A stretch that is shaded, and its name.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::report) struct Window {
    /// From where to where.
    pub ends: [f64; 2],
    /// What it is called.
    pub name: String,
}

/// Panels one under the other, over one axis.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::report) struct Chart {
    /// What it is called.
    pub title: String,
    /// What it shows, in words.
    pub said: String,
    /// What lies along it.
    pub across: Scale,
    /// From where to where.
    pub span: [f64; 2],
    /// Stretches that are shaded.
    pub windows: Vec<Window>,
    /// Places that are marked, each with its name.
    pub posts: Vec<(f64, String)>,
    /// The panels; what has no points is left out.
    pub panels: Vec<Panel>,
}

/// The left edge of every panel, and how high it is.
const LEFT: f64 = 90.0;
const HIGH: f64 = 270.0;
/// Room above a panel, for what it measures.
const TITLE: f64 = 36.0;
/// From the names above the panels down to the first.
const BELOW: f64 = 8.0;
/// From one line of text to the next.
const ROW: f64 = 18.0;
/// A name at the right edge stands so far from it.
const ASIDE: f64 = 14.0;
/// Names at the right edge have no more room than this.
const WIDEST: f64 = 400.0;
/// One way to dash a line for each axle that a trailer may have.
const DASHES: [&str; 6] = ["none", "9 4", "2 4", "9 4 2 4", "18 4", "1 7"];
/// And one for limits.
const LIMIT: &str = "16 3 2 3 2 3";
/// A point this near to a line looks as if it were on it.
const FINEST: f64 = 0.1;
/// No more points than this are left out together.
const TOGETHER: usize = 100;
/// What varies by less than this share of itself is a level line.
const LEVEL: f64 = 1e-3;
/// Lines nowhere farther apart than this are drawn as one.
const ONE: f64 = 0.5;
/// About so many marks on an axis.
const MARKS: f64 = 6.0;

impl Chart {
    /// It as SVG; `None` where there is nothing to show.
    pub fn drawn(&self) -> Option<String> {
        let [from, to] = self.span;
        let panels: Vec<&Panel> = self.panels.iter().filter(|panel| panel.is_seen()).collect();
        if panels.is_empty() || to <= from {
            return None;
        }
        let limits = panels.iter().flat_map(|panel| &panel.lines).filter(|line| line.is_limit);
        let widest = limits.map(|line| width(&line.name)).fold(0.0, f64::max);
        let right = WIDTH - ASIDE - widest.clamp(20.0, WIDEST) - 6.0;
        let mut picture = Picture::new(&self.title, &self.said);
        let across = |x: f64| LEFT + (x - from) / (to - from) * (right - LEFT);
        let names = self.names(&across);
        let rows = names.iter().map(|name| name.row + 1).max().unwrap_or(0);
        // What the first panel measures stands over these names, so that no place's line runs through it.
        let first = TITLE + ROW * rows as f64 - BELOW;
        let mut down = 0.0;
        let mut frames = Vec::new();
        for panel in panels {
            let is_first = frames.is_empty();
            let top = down + if is_first { first } else { TITLE };
            let titled = if is_first { ROW } else { top - 10.0 };
            down = top + HIGH;
            frames.push((panel, Frame { left: LEFT, right, titled, top, bottom: down }));
        }
        let bottom = down;
        for Window { ends: [from, to], .. } in &self.windows {
            for (_, frame) in &frames {
                picture.area("window", (across(*from), frame.top), (across(*to), frame.bottom));
            }
        }
        for at in marks(from, to, self.across.unit) {
            let x = across(at);
            for (_, frame) in &frames {
                picture.add(&path("grid", "none", &[(x, frame.top), (x, frame.bottom)]));
            }
            picture.text("", (x, bottom + ROW), "middle", &self.across.shown(at));
        }
        picture.text("", (f64::midpoint(LEFT, right), bottom + 2.2 * ROW), "middle", &self.across.name);
        for name in &names {
            let y = TITLE + ROW * name.row as f64;
            picture.text("", (name.x, y), name.anchor, &name.text);
            let below = y + 4.0;
            match name.of {
                Named::Window([from, to]) => {
                    let bracket = [(from, y + 7.0), (from, below), (to, below), (to, y + 7.0)];
                    picture.add(&path("post", "none", &bracket));
                }
                Named::Place(x) => {
                    let ends = frames.iter().map(|(_, frame)| (frame.top, frame.bottom));
                    for (from, to) in std::iter::once((below, first)).chain(ends) {
                        picture.add(&path("post", "none", &[(x, from), (x, to)]));
                    }
                }
            }
        }
        for (panel, frame) in &frames {
            let posts: Vec<f64> = self.posts.iter().map(|(at, _)| across(*at)).collect();
            panel.draw(&mut picture, frame, &across, &posts);
        }
        Some(picture.finished(bottom + 2.2 * ROW + 12.0))
    }

    /// The names of windows and places above the panels: windows in the first row, if there are any.
    fn names(&self, across: &impl Fn(f64) -> f64) -> Vec<Name> {
        let mut names: Vec<Name> = Vec::new();
        for Window { ends, name } in &self.windows {
            let ends = ends.map(across);
            let x = f64::midpoint(ends[0], ends[1]);
            names.push(Name::of(name, x, "middle", Named::Window(ends)).below(&names, 0));
        }
        let row = names.iter().map(|name| name.row + 1).max().unwrap_or(0);
        let mut posts: Vec<(f64, &str)> =
            self.posts.iter().map(|(at, name)| (across(*at), name.as_str())).collect();
        posts.sort_by(|a, b| a.0.total_cmp(&b.0));
        let near = |pair: &[(f64, &str)]| {
            pair[1].0 - pair[0].0 < f64::midpoint(width(pair[0].1), width(pair[1].1)) + APART
        };
        for (i, (x, name)) in posts.iter().enumerate() {
            // Of two near each other one stands to the left and one to the right.
            let anchor =
                match (i > 0 && near(&posts[i - 1..=i]), i + 1 < posts.len() && near(&posts[i..=i + 1])) {
                    (false, true) => "end",
                    (true, false) => "start",
                    _ => "middle",
                };
            names.push(Name::of(name, *x, anchor, Named::Place(*x)).below(&names, row));
        }
        names
    }
}

/// Names side by side stay so far apart.
const APART: f64 = 8.0;

/// A name above the panels.
struct Name {
    text: String,
    x: f64,
    anchor: &'static str,
    of: Named,
    row: usize,
}

/// What a name above the panels is of, on the page.
enum Named {
    /// A window, from its left end to its right one.
    Window([f64; 2]),
    /// A place, which has a line.
    Place(f64),
}

impl Name {
    fn of(text: &str, x: f64, anchor: &'static str, of: Named) -> Self {
        let (before, after) = Self::sides(width(text), anchor);
        Self { text: text.to_string(), x: x.clamp(before, WIDTH - after), anchor, of, row: 0 }
    }

    /// How far a text reaches to the left and to the right of where it is set.
    fn sides(wide: f64, anchor: &str) -> (f64, f64) {
        match anchor {
            "start" => (0.0, wide),
            "end" => (wide, 0.0),
            _ => (wide / 2.0, wide / 2.0),
        }
    }

    fn ends(&self) -> (f64, f64) {
        let (before, after) = Self::sides(width(&self.text), self.anchor);
        (self.x - before, self.x + after)
    }

    /// In the first row from one on in which it meets no other.
    fn below(mut self, others: &[Self], row: usize) -> Self {
        self.row = row;
        let (left, right) = self.ends();
        // Two that share a line part there.
        let meets = |other: &Self| {
            let (from, to) = other.ends();
            from + 1.0 < right && left + 1.0 < to
        };
        while others.iter().any(|other| other.row == self.row && meets(other)) {
            self.row += 1;
        }
        self
    }
}

/// Where a panel lies.
struct Frame {
    left: f64,
    right: f64,
    /// The baseline of what it measures.
    titled: f64,
    top: f64,
    bottom: f64,
}

/// A line on the page: the runs of it that are known.
struct Drawn {
    name: String,
    is_limit: bool,
    runs: Vec<Vec<(f64, f64)>>,
}

impl Panel {
    /// Whether any load of it is known anywhere.
    fn is_seen(&self) -> bool {
        self.lines.iter().any(|line| !line.is_limit && line.values().next().is_some())
    }

    /// From what to what it measures: from zero, unless all lies far from there and is no level line.
    fn range(&self) -> [f64; 2] {
        let values = self.lines.iter().flat_map(Line::values);
        let [low, high] = values
            .fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], value| [low.min(value), high.max(value)]);
        let far = |near: f64, far: f64| near > 0.75 * far && far - near > LEVEL * far;
        let low = if low > 0.0 && !far(low, high) { 0.0 } else { low };
        let high = if high < 0.0 && !far(-high, -low) { 0.0 } else { high };
        if high <= low {
            return [low, low + self.up.unit];
        }
        let spare = (high - low) * 0.06;
        [if low == 0.0 { 0.0 } else { low - spare }, if high == 0.0 { 0.0 } else { high + spare }]
    }

    fn draw(&self, picture: &mut Picture, frame: &Frame, across: &impl Fn(f64) -> f64, posts: &[f64]) {
        let [low, high] = self.range();
        let up = |value: f64| frame.bottom - (value - low) / (high - low) * (frame.bottom - frame.top);
        picture.text("", (8.0, frame.titled), "start", &self.up.name);
        for value in marks(low, high, self.up.unit) {
            let y = up(value);
            picture.add(&path("grid", "none", &[(frame.left, y), (frame.right, y)]));
            picture.text("", (frame.left - 8.0, y + 4.0), "end", &self.up.shown(value));
        }
        let lines = self.lines.iter().map(|line| Drawn {
            name: line.name.clone(),
            is_limit: line.is_limit,
            runs: runs(&line.points, across, &up),
        });
        let drawn = joined(lines.filter(|line| !line.runs.is_empty()).collect());
        let mut dashes = DASHES.iter().cycle();
        for line in &drawn {
            let (class, dash) =
                if line.is_limit { ("limit", LIMIT) } else { ("line", *dashes.next().unwrap_or(&"none")) };
            for run in &line.runs {
                picture.add(&path(class, dash, &thinned(run)));
            }
        }
        Self::name_limits(picture, frame, &drawn);
        // Last, so that no line runs through a name.
        let (loads, limits): (Vec<&Drawn>, Vec<&Drawn>) = drawn.iter().partition(|line| !line.is_limit);
        let mut placed = Placed::new(Area {
            left: frame.left + 2.0,
            right: frame.right - 2.0,
            top: frame.top + 2.0,
            bottom: frame.bottom - 2.0,
        });
        for line in loads.iter().chain(&limits) {
            placed.lines.extend(line.runs.iter().cloned());
        }
        placed.lines.extend(posts.iter().map(|x| vec![(*x, frame.top), (*x, frame.bottom)]));
        for line in loads {
            let name = cut(&line.name, WIDEST);
            let at = placed.place(&name, &line.runs);
            picture.text("name", at, "start", &name);
        }
    }

    /// The names of limits, at the right edge, each at its line or led to it.
    fn name_limits(picture: &mut Picture, frame: &Frame, drawn: &[Drawn]) {
        let end = |line: &Drawn| line.runs.last().and_then(|run| run.last()).copied();
        let limits = drawn.iter().filter(|line| line.is_limit);
        let mut ends: Vec<((f64, f64), &str)> =
            limits.filter_map(|line| Some((end(line)?, line.name.as_str()))).collect();
        ends.sort_by(|a, b| a.0.1.total_cmp(&b.0.1));
        // From the lowest up, none below the frame and each clear of the one under it; then they are pushed back down.
        let mut places: Vec<f64> = ends.iter().map(|(end, _)| end.1).collect();
        for i in 1..places.len() {
            places[i] = places[i].max(places[i - 1] + ROW - 2.0);
        }
        let mut floor = frame.bottom;
        for place in places.iter_mut().rev() {
            *place = place.min(floor);
            floor = *place - (ROW - 2.0);
        }
        for ((end, name), y) in ends.iter().zip(places) {
            picture.add(&path("leader", "none", &[*end, (frame.right + ASIDE - 4.0, y)]));
            picture.text("limit", (frame.right + ASIDE, y + 4.0), "start", &cut(name, WIDEST));
        }
    }
}

/// The stretches of a line that are known, on the page.
fn runs(points: &[Point], across: &impl Fn(f64) -> f64, up: &impl Fn(f64) -> f64) -> Vec<Vec<(f64, f64)>> {
    let mut runs: Vec<Vec<(f64, f64)>> = vec![Vec::new()];
    for (x, value) in points {
        match (value, runs.last_mut()) {
            (Some(value), Some(run)) => run.push((across(*x), up(*value))),
            _ => runs.push(Vec::new()),
        }
    }
    runs.retain(|run| !run.is_empty());
    runs
}

/// Lines that lie on one another as one, with all their names.
fn joined(lines: Vec<Drawn>) -> Vec<Drawn> {
    let is_one = |a: &Drawn, b: &Drawn| {
        let (a_points, b_points) = (a.runs.concat(), b.runs.concat());
        let mut pairs = a_points.iter().zip(&b_points);
        a.is_limit == b.is_limit
            && a_points.len() == b_points.len()
            && pairs.all(|(a, b)| (a.0 - b.0).abs() < ONE && (a.1 - b.1).abs() < ONE)
    };
    let mut kept: Vec<Drawn> = Vec::new();
    for line in lines {
        match kept.iter_mut().find(|other| is_one(other, &line)) {
            Some(other) if other.name.split(", ").any(|name| name == line.name) => {}
            Some(other) => other.name = format!("{}, {}", other.name, line.name),
            None => kept.push(line),
        }
    }
    kept
}

/// A line through as few points as look the same: what is left out lies less than [`FINEST`] from the line.
fn thinned(points: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let off = |(x0, y0): (f64, f64), (x1, y1): (f64, f64), (x, y): (f64, f64)| {
        let along = if x1 > x0 { (x - x0) / (x1 - x0) } else { 0.0 };
        (y - y0 - (y1 - y0) * along).abs()
    };
    let mut kept: Vec<(f64, f64)> = points.first().copied().into_iter().collect();
    let mut from = 0;
    for to in 2..points.len() {
        let between = &points[from + 1..to];
        let bends = between.iter().any(|point| off(points[from], points[to], *point) > FINEST);
        // What lies far back is not looked at again and again.
        if bends || between.len() >= TOGETHER {
            kept.push(points[to - 1]);
            from = to - 1;
        }
    }
    if points.len() > 1 {
        kept.extend(points.last());
    }
    kept
}

/// Round values of a unit from one value to another.
fn marks(from: f64, to: f64, unit: f64) -> Vec<f64> {
    let about = (to - from) / unit / MARKS;
    let size = 10f64.powf(about.log10().floor());
    let step = [1.0, 2.0, 5.0, 10.0].map(|times| times * size).into_iter().find(|step| *step >= 0.7 * about);
    let step = step.unwrap_or(10.0 * size) * unit;
    let (first, last) = ((from / step).ceil() as i64, (to / step).floor() as i64);
    (first..=last).map(|i| i as f64 * step).collect()
}
