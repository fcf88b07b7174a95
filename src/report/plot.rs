//! A chart as SVG: weights against a position, each line named where it lies apart, and dashed in its own way.
//!
//! It holds no text of an owner's file, so there is nothing to escape.

use crate::quantity::show::UnitSystem;
use crate::quantity::{Length, Quantity, STANDARD_GRAVITY, Weight, unit};
use std::fmt::Write;

const STYLE: &str = "svg.plot{background:#fff;max-width:100%;height:auto}.plot text{font:13px sans-serif;fill:#111;paint-order:stroke;stroke:#fff;stroke-width:3}\
.plot path{fill:none;stroke:#111;stroke-width:2}.plot .grid{stroke:#ddd;stroke-width:1}\
.plot .limit{stroke:#a33c00;stroke-dasharray:12 5}.plot text.limit{fill:#a33c00;stroke:#fff;stroke-dasharray:none}";

/// The view, and the frame in it: left, right, top, bottom.
const VIEW: [f64; 2] = [1000.0, 420.0];
const FRAME: [f64; 4] = [90.0, 900.0, 20.0, 370.0];
/// One way to dash a line for each axle that a trailer may have.
const DASHES: [&str; 6] = ["none", "9 4", "2 4", "9 4 2 4", "18 4", "1 7"];
/// Names of lines stay this far apart, down, where they lie within the width of one.
const APART: f64 = 15.0;
const LABEL: f64 = 60.0;
/// Points of a line this near to each other across look like one.
const FINEST: f64 = 2.0;
/// About so many marks on an axis.
const MARKS: f64 = 6.0;

/// The load of each axle by position, and the rating that all share, if they do; `None` where there is nothing to show.
pub(super) fn axle_loads(
    positions: &[Length],
    curves: &[Vec<Weight>],
    rating: Option<Weight>,
    units: UnitSystem,
) -> Option<String> {
    let (first, last) = (positions.first()?.si(), positions.last()?.si());
    let most = curves.iter().flatten().chain(&rating).map(|weight| weight.si()).fold(0.0, f64::max);
    if last <= first || most <= 0.0 {
        return None;
    }
    let [left, right, top, bottom] = FRAME;
    let across = |x: f64| left + (x - first) / (last - first) * (right - left);
    let up = |weight: f64| bottom - weight / (most * 1.05) * (bottom - top);
    let mut svg = format!(
        "<svg class=\"plot\" xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {} {}\" role=\"img\">\
         <title>Axle loads along the ramp</title><desc>{}</desc><style>{STYLE}</style>\n",
        VIEW[0],
        VIEW[1],
        described(curves, rating, units)
    );
    let mut add = |part: String| {
        // A string takes whatever is written.
        let _ = writeln!(svg, "{part}");
    };
    let (weight_unit, length_unit) = match units {
        UnitSystem::Us => (unit::POUND, 12.0 * unit::INCH),
        UnitSystem::Metric => (STANDARD_GRAVITY, 1.0),
    };
    for weight in marks(0.0, most * 1.05, weight_unit) {
        let y = up(weight);
        add(path("grid", "none", &[(left, y), (right, y)]));
        add(text("", left - 8.0, y + 4.0, "end", &units.weight(Weight::from_si(weight))));
    }
    for position in marks(first, last, length_unit) {
        let x = across(position);
        add(path("grid", "none", &[(x, top), (x, bottom)]));
        add(text("", x, bottom + 18.0, "middle", &units.rough_length(Length::from_si(position))));
    }
    add(text("", f64::midpoint(left, right), bottom + 40.0, "middle", "rearmost hub past the first break"));
    if let Some(rating) = rating {
        let y = up(rating.si());
        add(path("limit", "12 5", &[(left, y), (right, y)]));
        add(text("limit", right + 8.0, y + 4.0, "start", "rating"));
    }
    let mut labels: Vec<(f64, f64)> = Vec::new();
    for (i, curve) in curves.iter().enumerate() {
        let points: Vec<(f64, f64)> =
            positions.iter().zip(curve).map(|(x, weight)| (across(x.si()), up(weight.si()))).collect();
        add(path("line", DASHES[i % DASHES.len()], &thinned(&points)));
        let (x, mut y) = points[apart(curves, i)];
        let x = x.min(right - LABEL) + 6.0;
        while labels.iter().any(|(other, line)| (x - other).abs() < LABEL && (y - line).abs() < APART) {
            y += APART;
        }
        labels.push((x, y));
    }
    // Last, so that no line runs through a name.
    for (i, (x, y)) in labels.iter().enumerate() {
        add(text("", *x, y - 4.0, "start", &format!("axle {}", i + 1)));
    }
    Some(svg + "</svg>")
}

/// A line through points no nearer to each other across than the eye tells apart, with every turn of it kept.
fn thinned(points: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let mut kept: Vec<(f64, f64)> = points.first().copied().into_iter().collect();
    for around in points.windows(3) {
        let (before, here, after) = (around[0].1, around[1].1, around[2].1);
        let turns = (here - before) * (after - here) <= 0.0 && here != before;
        let is_far = kept.last().is_none_or(|last| around[1].0 - last.0 >= FINEST);
        if turns || is_far {
            kept.push(around[1]);
        }
    }
    kept.extend(points.last());
    kept
}

/// Where a curve lies farthest from the one nearest to it: there its name is least mistaken.
fn apart(curves: &[Vec<Weight>], which: usize) -> usize {
    let nearest = |at: usize| {
        let others = curves.iter().enumerate().filter(|(i, _)| *i != which);
        let gaps = others.map(|(_, other)| (other[at] - curves[which][at]).abs().si());
        gaps.fold(f64::INFINITY, f64::min)
    };
    // One alone is named at its highest.
    let alone = |at: usize| curves[which][at].si();
    let far = |at: usize| if curves.len() > 1 { nearest(at) } else { alone(at) };
    (0..curves[which].len()).max_by(|a, b| far(*a).total_cmp(&far(*b))).unwrap_or_default()
}

/// The chart in words: the greatest load of each axle.
fn described(curves: &[Vec<Weight>], rating: Option<Weight>, units: UnitSystem) -> String {
    let greatest = |(i, curve): (usize, &Vec<Weight>)| {
        let most = curve.iter().copied().fold(Weight::default(), Weight::max);
        format!("axle {} carries at most {}", i + 1, units.weight(most))
    };
    let all: Vec<String> = curves.iter().enumerate().map(greatest).collect();
    let rated = rating.map(|rating| format!("; each is rated {}", units.weight(rating)));
    format!("Along the ramp {}{}.", all.join(", "), rated.unwrap_or_default())
}

/// Round values of a unit from one value to another.
fn marks(from: f64, to: f64, unit: f64) -> Vec<f64> {
    let about = (to - from) / unit / MARKS;
    let size = 10f64.powf(about.log10().floor());
    let step = [1.0, 2.0, 5.0, 10.0].map(|times| times * size).into_iter().find(|step| *step >= about);
    let step = step.unwrap_or(10.0 * size) * unit;
    let (first, last) = ((from / step).ceil() as i64, (to / step).floor() as i64);
    (first..=last).map(|i| i as f64 * step).collect()
}

fn path(class: &str, dashes: &str, points: &[(f64, f64)]) -> String {
    let points: Vec<String> = points.iter().map(|(x, y)| format!("{x:.1} {y:.1}")).collect();
    format!("<path class=\"{class}\" stroke-dasharray=\"{dashes}\" d=\"M{}\"/>", points.join("L"))
}

fn text(class: &str, x: f64, y: f64, anchor: &str, text: &str) -> String {
    format!("<text class=\"{class}\" x=\"{x:.1}\" y=\"{y:.1}\" text-anchor=\"{anchor}\">{text}</text>")
}
