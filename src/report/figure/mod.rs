//! Drawings as SVG, to scale: numbers in the picture, and every figure in a line of its own below it.

mod numbers;

use super::svg::{STYLE, WIDTH, near, width};
use super::words::{amount, shifted};
use crate::fit::{Deciding, Dimension, Drawing, Event, Figure, Mark, Point, Role, Row, Shape, View};
use crate::quantity::Quantity;
use crate::quantity::show::{UnitSystem, degrees, plain};
use crate::rig::{Key, Setup};
use maud::{Markup, PreEscaped, html};

const EDGE: f64 = 40.0;
/// From one length of the file to the next.
const ROW: f64 = 32.0;
/// From one line of text to the next.
const LINE: f64 = 20.0;
/// An arm of the cross at the centre of gravity, and an arrow from below, are so long.
const CROSS: f64 = 9.0;
const ARROW: f64 = 20.0;
/// What is drawn at full size is printed so wide, in millimetres: on A4 and on letter paper.
const PRINTED: f64 = 180.0;
/// Its view is so wide, that it has room on a page of letter paper.
const WIDTH_AT_FULL_SIZE: f64 = 1000.0;

/// What a picture calls the lengths in it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Names {
    /// As the rig file does, for its owner to find them there.
    Keys,
    /// In words, for a workshop that has no rig file.
    Words,
}

/// What a view shows, part under part.
pub fn drawing(setup: &Setup, drawings: &[Drawing], names: Names, units: UnitSystem) -> String {
    let title = plain(setup.title.as_deref().unwrap_or("A rig"));
    let mut down = 10.0;
    let full_size = drawings.iter().any(|drawing| drawing.is_full_size);
    let wide = if full_size { WIDTH_AT_FULL_SIZE } else { WIDTH };
    let heading = lines(&title, wide);
    let mut parts: Vec<Markup> = heading.iter().map(|line| text(EDGE, step(&mut down, LINE), line)).collect();
    let mut said = Vec::new();
    let mut number = 0;
    for drawing in drawings {
        let part = Part::of(drawing, number, down, wide);
        number += drawing.marks.len();
        let rows = rows(setup, drawing, &part, names, units);
        parts.push(part.picture(drawing));
        down = part.bottom;
        for dimension in &drawing.dimensions {
            down += ROW;
            let label = labelled(dimension, names, units);
            parts.push(part.dimension(down - 18.0, &label, dimension.drawn.si()));
        }
        down += LINE / 2.0;
        for line in rows.iter().flat_map(|row| lines(row, wide)) {
            parts.push(text(EDGE, step(&mut down, LINE), &line));
        }
        said.extend(rows);
        down += LINE;
    }
    let view = drawings.first().map_or("", |drawing| described(drawing.view));
    let picture = html! {
        svg.drawing xmlns="http://www.w3.org/2000/svg" viewBox={ "0 0 " (wide) " " (near(down)) }
            width=[full_size.then(|| format!("{PRINTED}mm"))] role="img" {
            title { (title) }
            desc { (view) " " (said.join("; ")) }
            style { (PreEscaped(STYLE)) }
            @for part in &parts { (part) "\n" }
        }
    };
    picture.into_string() + "\n"
}

/// What a picture is called, of a rig as it is or after a plan.
pub fn caption(view: View, is_planned: bool) -> String {
    let of = match view {
        View::Side => "From the side",
        View::Top => "From above",
        View::Section => "Across, at the crossmember that the keel clears least",
        View::Ramp => "On the ramp, where it asks most of an axle",
        View::Launch => "In the water, where she comes off the trailer",
        View::Bunks => "A bunk as it is cut",
    };
    format!("{of}{}", if is_planned { ", after all that is to be done" } else { "" })
}

fn described(view: View) -> &'static str {
    match view {
        View::Side => "Side view to scale, frame level, ball at the left.",
        View::Top => "View from above, to scale, ball at the left, starboard below.",
        View::Section => "Section to scale at the crossmember that the keel clears least, seen from astern.",
        View::Ramp => {
            "Side view to scale at the moment on the ramp that asks most of an axle, tow vehicle at the left."
        }
        View::Launch => "Side view to scale where she comes off the trailer, tow vehicle at the left.",
        View::Bunks => {
            "A bunk as it is cut: from its outer side, forward end at the left, and its end at full size."
        }
    }
}

/// The lines under a drawing.
fn rows(setup: &Setup, drawing: &Drawing, part: &Part, names: Names, units: UnitSystem) -> Vec<String> {
    let row = |(mark, i): (&Mark, usize)| {
        format!("{} {}", part.numbered + i, figure(setup, &mark.figure, names, units))
    };
    let mut rows: Vec<String> = drawing.marks.iter().zip(1..).map(row).collect();
    if drawing.is_full_size {
        rows.push("print this at 100 %, and hold a rule to the bar".to_string());
    }
    if drawing.cg.is_some() {
        let within = drawing.cg_within.map(|[along, up]| {
            let [along, up] = [along, up].map(|off| units.rough_distance(off));
            let shown = if part.ring(drawing).is_some() { "as ringed" } else { "within the cross" };
            format!("; by the stated \u{b1} it may lie up to {along} fore or aft and {up} up or down of it, {shown}")
        });
        let within = within.unwrap_or_default();
        rows.push(format!("+ centre of gravity of boat and trailer, in the first case{within}"));
    }
    let shifted = shifted(setup, units);
    if !shifted.is_empty() && drawing.view != View::Bunks {
        let stop = stop_moved(setup, units);
        rows.push(format!("drawn as proposed: {}{stop}", shifted.join("; ")));
    }
    let is_drawn = |role| drawing.shapes.iter().any(|shape: &Shape| shape.role() == role);
    if is_drawn(Role::Before) {
        rows.push("short dashes: where it was measured".to_string());
    }
    if drawing.view == View::Bunks && is_drawn(Role::Unknown) {
        let of =
            if drawing.is_full_size { "cut off here: the board goes on" } else { "the inner upper edge" };
        rows.push(format!("dashed: {of}"));
    } else if drawing.shapes.iter().any(Shape::is_dashed) {
        rows.push("dashed: assumed, or of a shape that the file does not give".to_string());
    }
    rows.extend(drawing.missing.iter().map(|key| format!("not drawn in full without {key}")));
    rows.iter().map(|row| plain(row).into_owned()).collect()
}

fn figure(setup: &Setup, figure: &Figure, names: Names, units: UnitSystem) -> String {
    match figure {
        Figure::Push(row) | Figure::Row(row) => self::row(setup, row, units),
        Figure::Length(key, length) => format!("{} {}", names.of(*key), units.distance(*length)),
        Figure::Bevel(angle) => format!("bevel {}", degrees(*angle)),
        Figure::Axle { axle, load, rating, hang } => {
            let rated = rating
                .map_or("rating not known".to_string(), |rating| format!("rated {}", units.weight(rating)));
            let hangs = if hang.si() > 0.0 {
                format!(", its wheels {} clear of the ground", units.rough_distance(*hang))
            } else {
                String::new()
            };
            format!("axle {}: {}, {rated}{hangs}", axle + 1, units.weight(*load))
        }
        Figure::Tongue(weight, rating) => {
            let rated = rating.map(|rating| format!(", limit {}", units.weight(rating)));
            format!("tongue weight {}{}", units.weight(*weight), rated.unwrap_or_default())
        }
        Figure::Least(row) => format!("{}, the least anywhere over the ramps", self::row(setup, row, units)),
        Figure::Moment { ramp, case, past } => {
            let named = |name: Option<&String>, or: &str| name.cloned().unwrap_or_else(|| or.to_string());
            let ramp = named(setup.ramps.get(*ramp).and_then(|ramp| ramp.name.as_ref()), "the ramp");
            let case = named(setup.cases.get(*case).and_then(|case| case.name.as_ref()), "case 1");
            format!("rearmost hub {} past the first break of {ramp} ({case})", units.along(*past))
        }
        Figure::Event(event, depth) => {
            let happens = match event {
                Event::HubsWet => "the trailer's hubs get wet",
                Event::SternLifts => "her stern lifts",
                Event::BowLifts => "her bow lifts",
                Event::Slides => "she slides off at a push",
                Event::Floats => "she floats free",
                Event::TowTire => "the tow vehicle's tires stand as deep as they may",
                Event::TowHub => "the tow vehicle's rear hubs get wet",
                Event::Tailpipe => "its tailpipe gets wet",
                Event::Guides => "the guides are awash",
                Event::Lamps => "the trailer's lamps get wet",
                Event::Ends => "the ramp ends",
            };
            let depth = if depth.si() > 0.0 { units.depth(*depth) } else { "no depth".to_string() };
            format!("{happens}: {depth} of water where the trailer's rear wheels stand")
        }
        Figure::Hole { crossmember, from_forward_end } => format!(
            "hole over crossmember {}: {} from the forward end",
            crossmember + 1,
            units.distance(*from_forward_end)
        ),
        Figure::Scale(length) => format!("the bar is {} long", units.fine_distance(*length)),
    }
}

fn row(setup: &Setup, row: &Row, units: UnitSystem) -> String {
    let case = row.case.and_then(|case| setup.cases.get(case)).and_then(|case| case.name.as_deref());
    let case = case.map(|case| format!(" ({case})")).unwrap_or_default();
    let load = row.load.map_or("not known".to_string(), |load| amount(load, units));
    let Deciding { min, max, .. } = row.deciding();
    let limit = match (max, min) {
        (Some(max), _) => format!("limit {}", amount(max, units)),
        (None, Some(min)) => format!("at least {}", amount(min, units)),
        (None, None) => "limit not known".to_string(),
    };
    format!("{}: {load}, {limit}{case}", row.name())
}

/// A length with its name; one that a proposal changes has that of the file beside it.
fn labelled(dimension: &Dimension, names: Names, units: UnitSystem) -> String {
    let Dimension { key, stated, drawn } = dimension;
    let [drawn, stated] = [drawn, stated].map(|length| units.distance(length.abs()));
    let was = match names {
        Names::Keys => "in the file",
        Names::Words => "was",
    };
    let was = if drawn == stated { String::new() } else { format!(", {was} {stated}") };
    format!("{} {drawn}{was}", names.of(*key))
}

impl Names {
    /// A length of the file that a picture shows.
    fn of(self, key: Key) -> String {
        let Some(input) = key.input().filter(|_| self == Self::Words) else { return key.to_string() };
        let of_tow = if key.path.starts_with("tow.") { "tow vehicle, " } else { "" };
        let which = if key.path.contains('*') { format!(" ({})", key.at[0] + 1) } else { String::new() };
        format!("{of_tow}{}{which}", input.meaning)
    }
}

/// Where the bow stop stands once the boat has moved, with which it goes.
fn stop_moved(setup: &Setup, units: UnitSystem) -> String {
    match (setup.trailer.bow_stop, setup.shift.boat) {
        (Some(stop), Some(by)) if by.si() != 0.0 => {
            format!(
                ", with bow stop and winch post, the stop now {} behind the ball",
                units.length(stop + by)
            )
        }
        _ => String::new(),
    }
}

/// Where a drawing lies on the page.
struct Part {
    left: f64,
    scale: f64,
    /// Its upper edge.
    top: f64,
    /// Where its zero lies, down the page.
    zero: f64,
    /// Its lower edge.
    bottom: f64,
    /// How many numbers stand above it.
    numbered: usize,
    /// How wide the page is.
    wide: f64,
}

impl Part {
    fn of(drawing: &Drawing, numbered: usize, above: f64, wide: f64) -> Self {
        // No less than a metre across: a part alone is not blown up.
        let points = drawing.shapes.iter().flat_map(corners);
        let within = drawing.cg.zip(drawing.cg_within).into_iter().flat_map(|(cg, [along, up])| {
            let ((x, z), along, up) = (si(cg), along.si(), up.si());
            [(x - along, z - up), (x + along, z + up)]
        });
        let points = points
            .chain(within)
            .chain(drawing.cg.map(si))
            .chain(drawing.marks.iter().map(|mark| si(mark.at)));
        let marked = drawing.dimensions.iter().map(|dimension| (dimension.drawn.si(), f64::NAN));
        // Ground and ball, or centreline, are always seen; a ramp's break may lie far away.
        let is_on_ramp = matches!(drawing.view, View::Ramp | View::Launch);
        let zero = if is_on_ramp { f64::INFINITY } else { 0.0 };
        let start: [f64; 4] = [zero, -zero, zero, -zero];
        let [left, right, low, high] =
            points.chain(marked).fold(start, |[left, right, low, high], (x, z)| {
                [left.min(x), right.max(x), low.min(z), high.max(z)]
            });
        let fits = (wide - 2.0 * EDGE) / (right - left).max(1.0);
        let scale = if drawing.is_full_size { wide / PRINTED * 1000.0 } else { fits };
        let zero = above + EDGE + high * scale;
        Self { left, scale, top: above, zero, bottom: zero - low * scale + EDGE, numbered, wide }
    }

    fn at(&self, (x, z): (f64, f64)) -> (f64, f64) {
        (EDGE + (x - self.left) * self.scale, self.zero - z * self.scale)
    }

    fn picture(&self, drawing: &Drawing) -> Markup {
        let stands = matches!(drawing.view, View::Side | View::Section);
        html! {
            @if stands { (path("ground", &[(EDGE, self.zero), (self.wide - EDGE, self.zero)])) "\n" }
            @for shape in &drawing.shapes { (self.shape(shape)) "\n" }
            @if let Some((x, y)) = drawing.cg.map(|cg| self.at(si(cg))) {
                (path("mark", &[(x - CROSS, y), (x + CROSS, y)])) (path("mark", &[(x, y - CROSS), (x, y + CROSS)]))
                @if let Some([along, up]) = self.ring(drawing) {
                    ellipse.within cx=(near(x)) cy=(near(y)) rx=(near(along)) ry=(near(up)) {}
                }
            }
            @for ((mark, number), i) in drawing.marks.iter().zip(numbers::numbers(self, drawing)).zip(1..) {
                (self.sign(mark))
                @if let Some(leader) = number.leader { (path("leader", &leader)) }
                text.mark x=(near(number.at.0)) y=(near(number.at.1)) { (self.numbered + i) } "\n"
            }
        }
    }

    /// How far the centre of gravity may lie off, along and up the page, where that shows beside its cross.
    fn ring(&self, drawing: &Drawing) -> Option<[f64; 2]> {
        // What has no height at all would not be drawn.
        let ring = drawing.cg_within?.map(|off| (off.si() * self.scale).max(1.0));
        ring.iter().any(|off| *off > CROSS).then_some(ring)
    }

    /// An arrow for what pushes from below, a dot for anything else.
    fn sign(&self, mark: &Mark) -> Markup {
        let (x, y) = self.at(si(mark.at));
        if matches!(mark.figure, Figure::Push(_)) {
            return html! {
                (path("mark", &[(x, y + ARROW), (x, y + 2.0)]))
                (path("mark", &[(x - 4.0, y + 9.0), (x, y + 2.0), (x + 4.0, y + 9.0)]))
            };
        }
        html! { circle.mark cx=(near(x)) cy=(near(y)) r="2" {} }
    }

    /// A length of the file from zero, under its label.
    fn dimension(&self, y: f64, label: &str, length: f64) -> Markup {
        let (from, to) = (self.at((0.0, 0.0)).0, self.at((length, 0.0)).0);
        let latest = self.wide - EDGE - width(label);
        html! {
            (text(from.min(to).min(latest).max(EDGE), y, label))
            (path("dimension", &[(from, y + 5.0), (from, y + 13.0)]))
            (path("dimension", &[(from, y + 9.0), (to, y + 9.0)]))
            (path("dimension", &[(to, y + 5.0), (to, y + 13.0)]))
        }
    }

    fn shape(&self, shape: &Shape) -> Markup {
        match shape {
            Shape::Line(role, points) => {
                let points: Vec<_> = points.iter().map(|point| self.at(si(*point))).collect();
                html! { @if !points.is_empty() { (path(class(*role), &points)) } }
            }
            Shape::Circle(role, centre, radius) => {
                let (x, y) = self.at(si(*centre));
                html! { circle class=(class(*role)) cx=(near(x)) cy=(near(y)) r=(near(radius.si() * self.scale)) {} }
            }
        }
    }
}

fn step(down: &mut f64, by: f64) -> f64 {
    *down += by;
    *down
}

fn text(x: f64, y: f64, text: &str) -> Markup {
    html! { text x=(near(x)) y=(near(y)) { (text) } }
}

fn path(class: &str, points: &[(f64, f64)]) -> Markup {
    let points: Vec<String> = points.iter().map(|(x, y)| format!("{} {}", near(*x), near(*y))).collect();
    html! { path class=(class) d={ "M" (points.join("L")) } {} }
}

fn si((x, z): Point) -> (f64, f64) {
    (x.si(), z.si())
}

fn corners(shape: &Shape) -> Vec<(f64, f64)> {
    match shape {
        Shape::Line(_, points) => points.iter().copied().map(si).collect(),
        Shape::Circle(_, centre, radius) => {
            let ((x, z), r) = (si(*centre), radius.si());
            vec![(x - r, z - r), (x + r, z + r)]
        }
    }
}

/// A text in lines that fit a page so wide; a word that is wider than a line is broken.
fn lines(text: &str, wide: f64) -> Vec<String> {
    let fits = |line: &str| width(line) <= wide - 2.0 * EDGE;
    let mut lines = vec![String::new()];
    for word in text.split(' ') {
        let line = lines.last().map_or("", String::as_str);
        let longer = if line.is_empty() { word.to_string() } else { format!("{line} {word}") };
        if fits(&longer) {
            lines.pop();
            lines.push(longer);
            continue;
        }
        let mut rest = String::new();
        for letter in word.chars() {
            if !fits(&format!("{rest}{letter}")) {
                lines.push(std::mem::take(&mut rest));
            }
            rest.push(letter);
        }
        lines.push(rest);
    }
    lines.retain(|line| !line.is_empty());
    lines
}

fn class(role: Role) -> &'static str {
    match role {
        Role::Ground => "ground",
        Role::Water => "water",
        Role::Frame => "frame",
        Role::Ball => "ball",
        Role::Wheel => "wheel",
        Role::AssumedWheel => "wheel assumed",
        Role::Tow => "tow",
        Role::Bunk => "bunk",
        Role::Hole => "hole",
        Role::Crossmember => "crossmember",
        Role::Fender => "fender",
        Role::BowStop => "bow-stop",
        Role::Hull => "hull",
        Role::Unknown => "unknown",
        Role::Before => "before",
        Role::Scale => "scale",
    }
}
