//! A picture as it is written.

use crate::report::svg::{STYLE, WIDTH, near};
use std::fmt::Write;

/// A picture in the making, as wide as all are.
pub(super) struct Picture {
    title: String,
    said: String,
    parts: String,
}

impl Picture {
    pub fn new(title: &str, said: &str) -> Self {
        Self { title: escaped(title), said: escaped(said), parts: String::new() }
    }

    pub fn add(&mut self, part: &str) {
        self.parts.push_str(part);
        self.parts.push('\n');
    }

    /// A text whose baseline is at a place, at which it starts, ends or has its middle.
    pub fn text(&mut self, class: &str, (x, y): (f64, f64), anchor: &str, text: &str) {
        let class = if class.is_empty() { String::new() } else { format!(" class=\"{class}\"") };
        let anchor = if anchor == "start" { String::new() } else { format!(" text-anchor=\"{anchor}\"") };
        let (x, y, text) = (near(x), near(y), escaped(text));
        self.add(&format!("<text{class} x=\"{x}\" y=\"{y}\"{anchor}>{text}</text>"));
    }

    /// An area from its upper left corner to its lower right one.
    pub fn area(&mut self, class: &str, (left, top): (f64, f64), (right, bottom): (f64, f64)) {
        let (x, y, wide, high) = (near(left), near(top), near(right - left), near(bottom - top));
        self.add(&format!(
            "<rect class=\"{class}\" x=\"{x}\" y=\"{y}\" width=\"{wide}\" height=\"{high}\"/>"
        ));
    }

    /// All of it, so high.
    pub fn finished(self, high: f64) -> String {
        let Self { title, said, parts } = self;
        format!(
            "<svg class=\"plot\" xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {WIDTH} {}\" role=\"img\">\
             <title>{title}</title><desc>{said}</desc><style>{STYLE}</style>\n{parts}</svg>",
            near(high)
        )
    }
}

/// A line through points; a dash of its own where there is one.
pub(super) fn path(class: &str, dash: &str, points: &[(f64, f64)]) -> String {
    let dash = if dash == "none" { String::new() } else { format!(" stroke-dasharray=\"{dash}\"") };
    let mut path = format!("<path class=\"{class}\"{dash} d=\"");
    for (i, (x, y)) in points.iter().enumerate() {
        // A string takes whatever is written.
        let _ = write!(path, "{}{} {}", if i == 0 { "M" } else { "L" }, near(*x), near(*y));
    }
    path + "\"/>"
}

/// A text as it stands between tags.
fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}
