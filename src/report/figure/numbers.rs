//! Where the number of a mark stands: near its dot, clear of every line that is drawn, and never on another number.

use super::{ARROW, CROSS, Part, si};
use crate::fit::{Drawing, Figure, Mark, Shape};
use crate::quantity::Quantity;

/// A place on the page.
type Spot = (f64, f64);

/// A bold figure is so wide, and so high.
const FIGURE: f64 = 9.1;
const HIGH: f64 = 10.0;
/// A number stays so far from what is drawn.
const CLEAR: f64 = 2.0;
/// Numbers stay so far from one another: letters reach a little farther than figures.
const APART: f64 = 4.0;
/// A number's nearest edge lies so far from its dot at first, and so much farther at each next try.
const NEAR: f64 = 5.0;
const FARTHER: f64 = 6.0;
const TRIES: u32 = 40;
/// From so far on a line leads from the dot to its number.
const LED: f64 = 10.0;
/// Ways to go from a dot, the best first; up is less than zero. From an arrow's foot it is down at first.
const WAYS: [Spot; 8] =
    [(1.0, -1.0), (-1.0, -1.0), (1.0, 1.0), (-1.0, 1.0), (0.0, -1.0), (0.0, 1.0), (1.0, 0.0), (-1.0, 0.0)];
const DOWN: Spot = (0.0, 1.0);
/// A circle is looked at as so many straight lines.
const SIDES: u32 = 24;

/// The number of a mark, with its left end on its baseline.
pub(super) struct Number {
    pub at: Spot,
    /// From the dot to it, where it stands far off.
    pub leader: Option<[Spot; 2]>,
}

/// A stretch of the page that a number takes.
#[derive(Clone, Copy)]
struct Area {
    left: f64,
    top: f64,
    right: f64,
    bottom: f64,
}

impl Area {
    /// The area of a number so wide whose nearest edge or corner lies so far from a dot on one way.
    fn beside((x, y): Spot, (across, down): Spot, off: f64, wide: f64) -> Self {
        let place = |at: f64, way: f64, size: f64| at + way * (off + size / 2.0) - size / 2.0;
        let (left, top) = (place(x, across, wide), place(y, down, HIGH));
        Self { left, top, right: left + wide, bottom: top + HIGH }
    }

    fn wider(self, by: f64) -> Self {
        Self { left: self.left - by, top: self.top - by, right: self.right + by, bottom: self.bottom + by }
    }

    fn meets(&self, other: &Self) -> bool {
        self.left < other.right
            && other.left < self.right
            && self.top < other.bottom
            && other.top < self.bottom
    }

    /// The point of it that lies nearest.
    fn nearest(&self, (x, y): Spot) -> Spot {
        (x.clamp(self.left, self.right), y.clamp(self.top, self.bottom))
    }

    /// How far a point lies from it.
    fn from(&self, point: Spot) -> f64 {
        let near = self.nearest(point);
        (near.0 - point.0).hypot(near.1 - point.1)
    }

    /// Whether a straight line comes into it.
    fn is_crossed(&self, [(x0, y0), (x1, y1)]: [Spot; 2]) -> bool {
        let (mut from, mut to) = (0.0_f64, 1.0_f64);
        for (at, run, low, high) in
            [(x0, x1 - x0, self.left, self.right), (y0, y1 - y0, self.top, self.bottom)]
        {
            if run == 0.0 {
                if at <= low || at >= high {
                    return false;
                }
                continue;
            }
            let (a, b) = ((low - at) / run, (high - at) / run);
            (from, to) = (from.max(a.min(b)), to.min(a.max(b)));
        }
        from < to
    }
}

/// The numbers of a drawing's marks, the first after so many.
pub(super) fn numbers(part: &Part, drawing: &Drawing) -> Vec<Number> {
    let page = Area { left: 0.0, top: part.top, right: part.wide, bottom: part.bottom };
    let is_push = |mark: &Mark| matches!(mark.figure, Figure::Push(_));
    let dot = |mark: &Mark| {
        let (x, y) = part.at(si(mark.at));
        (x, if is_push(mark) { y + ARROW } else { y })
    };
    let dots = drawing.marks.iter().map(dot).collect();
    let mut taken = Taken { lines: lines(part, drawing), dots, areas: Vec::new(), page };
    let number = |(mark, i): (&Mark, usize)| {
        let wide = (part.numbered + i).to_string().chars().map(|_| FIGURE).sum();
        taken.place(dot(mark), wide, is_push(mark).then_some(DOWN))
    };
    drawing.marks.iter().zip(1..).map(number).collect()
}

/// All straight lines that are drawn.
fn lines(part: &Part, drawing: &Drawing) -> Vec<[Spot; 2]> {
    let mut lines = Vec::new();
    let mut run = |points: &[Spot]| lines.extend(points.windows(2).map(|pair| [pair[0], pair[1]]));
    for shape in &drawing.shapes {
        match shape {
            Shape::Line(_, points) => {
                run(&points.iter().map(|point| part.at(si(*point))).collect::<Vec<_>>());
            }
            Shape::Circle(_, centre, radius) => {
                let ((x, y), radius) = (part.at(si(*centre)), radius.si() * part.scale);
                let corner = |i: u32| {
                    let (sin, cos) = (std::f64::consts::TAU * f64::from(i) / f64::from(SIDES)).sin_cos();
                    (x + radius * cos, y + radius * sin)
                };
                run(&(0..=SIDES).map(corner).collect::<Vec<_>>());
            }
        }
    }
    if let Some((x, y)) = drawing.cg.map(|cg| part.at(si(cg))) {
        let [along, up] = part.ring(drawing).unwrap_or_default().map(|ring| ring.max(CROSS));
        run(&[(x - along, y), (x, y - up), (x + along, y), (x, y + up), (x - along, y)]);
    }
    for mark in &drawing.marks {
        // Dots and arrows: as wide as a dot, as long as an arrow.
        let (x, y) = part.at(si(mark.at));
        run(&[(x - CLEAR, y), (x + CLEAR, y)]);
        if matches!(mark.figure, Figure::Push(_)) {
            run(&[(x, y), (x, y + ARROW)]);
        }
    }
    lines
}

/// What of the page is taken.
struct Taken {
    lines: Vec<[Spot; 2]>,
    /// Every dot, and the foot of every arrow.
    dots: Vec<Spot>,
    areas: Vec<Area>,
    page: Area,
}

impl Taken {
    /// The nearest place beside a dot, or else an arrow's foot, through which the fewest lines run.
    fn place(&mut self, dot: Spot, wide: f64, first: Option<Spot>) -> Number {
        let ways = || first.into_iter().chain(WAYS);
        let offs = (0..TRIES).map(|i| NEAR + FARTHER * f64::from(i));
        let mut best: Option<(usize, Area, f64)> = None;
        for (off, way) in offs.flat_map(|off| ways().map(move |way| (off, way))) {
            let area = Area::beside(dot, way, off, wide);
            let Some(crossed) = self.crossed(dot, &area, off) else { continue };
            if best.as_ref().is_none_or(|(least, ..)| crossed < *least) {
                best = Some((crossed, area, off));
            }
            if crossed == 0 {
                break;
            }
        }
        let (_, area, off) = best.unwrap_or((0, Area::beside(dot, WAYS[0], NEAR, wide), NEAR));
        let leader = (off > LED).then(|| [dot, area.nearest(dot)]);
        self.lines.extend(leader);
        self.areas.push(area);
        Number { at: (area.left, area.bottom), leader }
    }

    /// How many lines run through a place for a number, and how many dots it is mistaken for the number of; `None` where it
    /// would lie on another number, or off the page.
    fn crossed(&self, dot: Spot, area: &Area, off: f64) -> Option<usize> {
        let page = &self.page;
        let is_on_page = area.left >= page.left
            && area.right <= page.right
            && area.top >= page.top
            && area.bottom <= page.bottom;
        let leader = [dot, area.nearest(dot)];
        let is_free = |other: &Area| {
            !area.wider(APART).meets(other) && (off <= LED || !other.wider(CLEAR).is_crossed(leader))
        };
        (is_on_page && self.areas.iter().all(is_free)).then(|| {
            let clear = area.wider(CLEAR);
            let own = area.from(dot);
            let mistaken = self.dots.iter().filter(|other| off <= LED && area.from(**other) < own - 0.5);
            self.lines.iter().filter(|line| clear.is_crossed(**line)).count() + mistaken.count()
        })
    }
}
