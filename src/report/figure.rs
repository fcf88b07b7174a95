//! A drawing as SVG, to scale, with every figure in a line of its own below it.

use super::words::{amount, shifted};
use crate::fit::{Drawing, Point, Push, Role, Shape};
use crate::quantity::Quantity;
use crate::quantity::show::{UnitSystem, plain};
use crate::rig::Setup;
use maud::{Markup, PreEscaped, html};

const STYLE: &str = "svg{background:#fff}text{font:13px sans-serif;fill:#111}path,circle{fill:none;stroke:#111;stroke-width:1.5}\
.bunk{stroke-width:5}.unknown,.assumed{stroke-dasharray:6 5}\
.cg,.push{stroke:#a33c00;stroke-width:2.5}.dimension{stroke-width:.8}";

const WIDTH: f64 = 1000.0;
const EDGE: f64 = 40.0;
const ROW: f64 = 32.0;
/// As many letters as a line has room for.
const LETTERS: usize = 110;

/// A side view as SVG.
pub fn side(setup: &Setup, drawing: &Drawing, units: UnitSystem) -> String {
    let points = drawing.shapes.iter().flat_map(corners).chain(drawing.cg.map(|(x, z)| (x.si(), z.si())));
    let marked = drawing.dimensions.iter().map(|(_, x)| (x.si(), 0.0));
    let start: [f64; 3] = [-0.5, 1.0, 1.0];
    let [left, right, top] = points
        .chain(marked)
        .fold(start, |[left, right, top], (x, z)| [left.min(x), right.max(x), top.max(z)]);
    let scale = (WIDTH - 2.0 * EDGE) / (right - left);
    let ground = 2.0 * EDGE + top * scale;
    let at = |x: f64, z: f64| (EDGE + (x - left) * scale, ground - z * scale);
    let push_row = |(i, push): (usize, &Push)| {
        let row = &push.row;
        let case = row.case.and_then(|case| setup.cases.get(case)).and_then(|case| case.name.as_deref());
        let load = row.load.map_or("not known".to_string(), |load| amount(load, units));
        let limit =
            row.max.map_or("limit not known".to_string(), |max| format!("limit {}", amount(max, units)));
        format!(
            "{} {}: {load}, {limit}{}",
            i + 1,
            row.name(),
            case.map(|case| format!(" ({case})")).unwrap_or_default()
        )
    };
    let mut rows: Vec<String> = drawing.pushes.iter().enumerate().map(push_row).collect();
    if drawing.cg.is_some() {
        rows.push("+ centre of gravity of boat and trailer, in the first case".to_string());
    }
    let shifted = shifted(setup, units);
    if !shifted.is_empty() {
        rows.push(format!("drawn as proposed: {}; lengths are those of the file", shifted.join("; ")));
    }
    if drawing.shapes.iter().any(Shape::is_dashed) {
        rows.push("dashed: assumed, or of a shape that the file does not give".to_string());
    }
    rows.extend(drawing.missing.iter().map(|key| format!("not drawn in full without {key}")));
    let dimensions = ground + 50.0;
    let below = dimensions + drawing.dimensions.len() as f64 * ROW;
    let height = below + rows.len() as f64 * 20.0 + 30.0;
    let title = plain(setup.title.as_deref().unwrap_or("A rig"));
    let line = |x: f64, y: f64, text: &str| html! { text x=(near(x)) y=(near(y)) { (text.chars().take(LETTERS).collect::<String>()) } };
    let path = |class: &str, points: &[(f64, f64)]| html! { path class=(class) d=(through(points)) {} };
    let picture = html! {
        svg xmlns="http://www.w3.org/2000/svg" viewBox={ "0 0 " (WIDTH) " " (near(height)) } role="img" {
            title { (title) }
            desc { "Side view to scale, frame level, ball at the left. " (plain(&rows.join("; "))) }
            style { (PreEscaped(STYLE)) }
            (line(EDGE, 24.0, &title))
            (path("ground", &[(EDGE, ground), (WIDTH - EDGE, ground)]))
            @for shape in &drawing.shapes { (self::shape(shape, &at, scale)) "\n" }
            @if let Some((x, z)) = drawing.cg {
                @let (x, y) = at(x.si(), z.si());
                (path("cg", &[(x - 9.0, y), (x + 9.0, y)])) (path("cg", &[(x, y - 9.0), (x, y + 9.0)]))
            }
            @for (i, push) in drawing.pushes.iter().enumerate() {
                @let x = at(push.at.si(), 0.0).0;
                (path("push", &[(x, ground + 20.0), (x, ground + 2.0)]))
                (path("push", &[(x - 4.0, ground + 9.0), (x, ground + 2.0), (x + 4.0, ground + 9.0)]))
                (line(x - 4.0, ground + 34.0, &(i + 1).to_string()))
            }
            @for (i, (key, length)) in drawing.dimensions.iter().enumerate() {
                @let y = dimensions + i as f64 * ROW + 14.0;
                @let (from, to) = (at(0.0, 0.0).0, at(length.si(), 0.0).0);
                (line(EDGE, y, &format!("{key} {}", units.distance(*length))))
                (path("dimension", &[(from, y + 5.0), (from, y + 13.0)]))
                (path("dimension", &[(from, y + 9.0), (to, y + 9.0)]))
                (path("dimension", &[(to, y + 5.0), (to, y + 13.0)])) "\n"
            }
            @for (i, text) in rows.iter().enumerate() { (line(EDGE, below + 20.0 + i as f64 * 20.0, &plain(text))) "\n" }
        }
    };
    picture.into_string() + "\n"
}

/// A number as short as the eye needs it.
fn near(number: f64) -> f64 {
    (number * 10.0).round() / 10.0
}

fn through(points: &[(f64, f64)]) -> String {
    let points: Vec<String> = points.iter().map(|(x, y)| format!("{} {}", near(*x), near(*y))).collect();
    format!("M{}", points.join("L"))
}

fn corners(shape: &Shape) -> Vec<(f64, f64)> {
    let si = |(x, z): &Point| (x.si(), z.si());
    match shape {
        Shape::Line(_, points) => points.iter().map(si).collect(),
        Shape::Circle(_, centre, radius) => {
            let ((x, z), r) = (si(centre), radius.si());
            vec![(x - r, z - r), (x + r, z + r)]
        }
    }
}

fn shape(shape: &Shape, at: &impl Fn(f64, f64) -> (f64, f64), scale: f64) -> Markup {
    match shape {
        Shape::Line(role, points) => {
            let points: Vec<_> = points.iter().map(|(x, z)| at(x.si(), z.si())).collect();
            html! { @if !points.is_empty() { path class=(class(*role)) d=(through(&points)) {} } }
        }
        Shape::Circle(role, (x, z), radius) => {
            let (x, y) = at(x.si(), z.si());
            html! { circle class=(class(*role)) cx=(near(x)) cy=(near(y)) r=(near(radius.si() * scale)) {} }
        }
    }
}

fn class(role: Role) -> &'static str {
    match role {
        Role::Frame => "frame",
        Role::Ball => "ball",
        Role::Wheel => "wheel",
        Role::AssumedWheel => "wheel assumed",
        Role::Bunk => "bunk",
        Role::Crossmember => "crossmember",
        Role::Hull => "hull",
        Role::Unknown => "unknown",
    }
}
