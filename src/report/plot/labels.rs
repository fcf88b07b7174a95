//! Where the name of a line stands: beside it, where it is least mistaken, and clear of everything else.

use super::width;

/// A stretch of the page.
#[derive(Debug, Clone, Copy)]
pub(super) struct Area {
    pub left: f64,
    pub right: f64,
    pub top: f64,
    pub bottom: f64,
}

impl Area {
    fn holds(&self, other: &Self) -> bool {
        self.left <= other.left
            && other.right <= self.right
            && self.top <= other.top
            && other.bottom <= self.bottom
    }

    fn meets(&self, other: &Self) -> bool {
        self.left < other.right
            && other.left < self.right
            && self.top < other.bottom
            && other.top < self.bottom
    }
}

/// A line on the page.
type Run = Vec<(f64, f64)>;

/// A name's letters are so high, and it stands so far from its line.
const HIGH: f64 = 13.0;
const OFF: f64 = 4.0;
/// So many places along a line are tried.
const TRIED: u32 = 60;
/// Where a line lies so far from every other, its name is not mistaken; nor is it where it is so far from them itself.
const FAR: f64 = 60.0;
const NEAR: f64 = 20.0;

/// Names that have their place, and the lines that they stay clear of.
pub(super) struct Placed {
    frame: Area,
    names: Vec<Area>,
    pub lines: Vec<Run>,
}

impl Placed {
    pub fn new(frame: Area) -> Self {
        Self { frame, names: Vec::new(), lines: Vec::new() }
    }

    /// Where the name of a line starts, and its baseline.
    pub fn place(&mut self, text: &str, runs: &[Run]) -> (f64, f64) {
        let wide = width(text);
        let mut best: Option<(f64, Area)> = None;
        for step in 0..=TRIED {
            let left = self.frame.left
                + (self.frame.right - self.frame.left - wide) * f64::from(step) / f64::from(TRIED);
            let right = left + wide;
            let Some([high, low]) = extent(runs, left, right) else { continue };
            for top in [high - OFF - HIGH, low + OFF] {
                let name = Area { left, right, top, bottom: top + HIGH };
                if !self.frame.holds(&name) || self.names.iter().any(|other| other.meets(&name)) {
                    continue;
                }
                let gap = self.gap(&name, runs);
                let apart = self.apart(&name, runs).min(FAR);
                // Of equals the one that is farther from other lines.
                let score = gap.min(NEAR) + gap.min(10.0 * FAR) / 100.0 + apart - (low - high) / 2.0;
                if best.as_ref().is_none_or(|(most, _)| score > *most) {
                    best = Some((score, name));
                }
            }
        }
        // A panel too full for it: at its line's end, come what may.
        let end = runs.last().and_then(|run| run.last()).copied().unwrap_or_default();
        let name = best.map_or(
            Area { left: end.0 - wide, right: end.0, top: end.1 - OFF - HIGH, bottom: end.1 - OFF },
            |(_, name)| name,
        );
        self.names.push(name);
        (name.left, name.bottom - 2.0)
    }

    /// How far a line lies from the nearest other one where its name stands.
    fn apart(&self, name: &Area, own: &[Run]) -> f64 {
        let middle = f64::midpoint(name.left, name.right);
        let at = |runs: &[Run]| extent(runs, middle, middle).map(|[high, _]| high);
        let Some(here) = at(own) else { return 0.0 };
        let others = self.lines.iter().filter(|run| !own.contains(run));
        let gaps = others.filter_map(|run| Some((at(std::slice::from_ref(run))? - here).abs()));
        gaps.fold(f64::INFINITY, f64::min)
    }

    /// How far from a name the nearest of the other lines runs; far below zero where one runs through it.
    fn gap(&self, name: &Area, own: &[Run]) -> f64 {
        let others = self.lines.iter().filter(|run| !own.contains(run));
        let gap = others.filter_map(|run| extent(std::slice::from_ref(run), name.left, name.right)).map(
            |[high, low]| match (low < name.top, high > name.bottom) {
                (true, _) => name.top - low,
                (_, true) => high - name.bottom,
                _ => -10.0 * FAR,
            },
        );
        gap.fold(f64::INFINITY, f64::min)
    }
}

/// The highest and the lowest that lines come between two places; `None` where they do not.
fn extent(runs: &[Run], left: f64, right: f64) -> Option<[f64; 2]> {
    let mut found: Option<[f64; 2]> = None;
    let mut take = |y: f64| {
        found = Some(found.map_or([y, y], |[high, low]| [high.min(y), low.max(y)]));
    };
    for run in runs {
        if let [(x, y)] = run[..]
            && (left..=right).contains(&x)
        {
            take(y);
        }
        for pair in run.windows(2) {
            let [(x0, y0), (x1, y1)] = [pair[0], pair[1]];
            if x1 < left || x0 > right {
                continue;
            }
            let at = |x: f64| if x1 > x0 { y0 + (y1 - y0) * (x - x0) / (x1 - x0) } else { y0 };
            take(at(x0.max(left)));
            take(at(x1.min(right)));
            if x1 <= x0 {
                take(y1);
            }
        }
    }
    found
}
