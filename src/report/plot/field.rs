//! A field of squares, each with a word: squares of one word are one patch, named in it or beside it.

use super::labels::Area;
use super::svg::{Picture, path};
use super::{ROW, WIDTH, width};

/// What a square's ground looks like, in colour and without.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::report) enum Ground {
    /// As the paper is.
    Plain,
    /// With slanting lines.
    Hatched,
    /// With dots.
    Dotted,
    /// With lines both ways.
    Crossed,
}

impl Ground {
    fn class(self) -> &'static str {
        match self {
            Self::Plain => "plain",
            Self::Hatched => "hatched",
            Self::Dotted => "dotted",
            Self::Crossed => "crossed",
        }
    }
}

/// A square of a field.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(in crate::report) struct Square {
    pub ground: Ground,
    pub word: String,
}

/// A field: rows from the lowest up, each from left to right.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::report) struct Field {
    /// What it is called.
    pub title: String,
    /// What it shows, in words.
    pub said: String,
    /// What lies along it, and its values.
    pub across: (String, Vec<String>),
    /// What goes up it, and its values.
    pub up: (String, Vec<String>),
    /// The squares.
    pub squares: Vec<Vec<Square>>,
}

/// Its upper edge, and how high all of it may be.
const TOP: f64 = 34.0;
const HIGH: f64 = 480.0;
/// A square is no higher than this.
const TALLEST: f64 = 60.0;
/// A name in a patch takes so much above and below its middle, and beside it.
const ABOVE: f64 = 8.0;
const BESIDE: f64 = 5.0;

/// Where a field lies, and how large its squares are.
struct Grid {
    left: f64,
    wide: f64,
    high: f64,
    bottom: f64,
}

impl Grid {
    fn x(&self, column: usize) -> f64 {
        self.left + self.wide * column as f64
    }

    /// The lower edge of a row.
    fn y(&self, row: usize) -> f64 {
        self.bottom - self.high * row as f64
    }
}

/// A patch: its word, and its squares by row and column.
struct Patch {
    word: String,
    squares: Vec<(usize, usize)>,
}

impl Field {
    /// It as SVG.
    pub fn drawn(&self) -> String {
        let (rows, columns) = (self.squares.len(), self.squares.first().map_or(0, Vec::len));
        let widest = |texts: &[String]| texts.iter().map(|text| width(text)).fold(0.0, f64::max);
        let left = 20.0 + widest(&self.up.1);
        let words: Vec<String> = self.squares.iter().flatten().map(|square| square.word.clone()).collect();
        let right = WIDTH - 24.0 - widest(&words).min(300.0);
        let high = (HIGH / rows.max(1) as f64).min(TALLEST);
        let grid = Grid {
            left,
            wide: (right - left) / columns.max(1) as f64,
            high,
            bottom: TOP + high * rows as f64,
        };
        let mut picture = Picture::new(&self.title, &self.said);
        picture.add(GROUNDS);
        self.grounds(&mut picture, &grid);
        self.borders(&mut picture, &grid);
        self.marks(&mut picture, &grid);
        self.names(&mut picture, &grid);
        picture.finished(grid.bottom + 2.2 * ROW + 12.0)
    }

    /// The same ground in one row is one area.
    fn grounds(&self, picture: &mut Picture, grid: &Grid) {
        for (row, squares) in self.squares.iter().enumerate() {
            let mut from = 0;
            for run in squares.chunk_by(|a, b| a.ground == b.ground) {
                let to = from + run.len();
                let class = run[0].ground.class();
                picture.area(class, (grid.x(from), grid.y(row + 1)), (grid.x(to), grid.y(row)));
                from = to;
            }
        }
    }

    fn word(&self, row: usize, column: usize) -> Option<&str> {
        self.squares.get(row)?.get(column).map(|square| square.word.as_str())
    }

    /// A line between squares of two words, and round the whole.
    fn borders(&self, picture: &mut Picture, grid: &Grid) {
        let (rows, columns) = (self.squares.len(), self.squares.first().map_or(0, Vec::len));
        let before = |i: usize| i.checked_sub(1);
        for row in 0..=rows {
            let parts = |column: &usize| {
                self.word(row, *column) != before(row).and_then(|row| self.word(row, *column))
            };
            for (from, to) in runs(columns, parts) {
                picture.add(&path(
                    "border",
                    "none",
                    &[(grid.x(from), grid.y(row)), (grid.x(to), grid.y(row))],
                ));
            }
        }
        for column in 0..=columns {
            let parts = |row: &usize| {
                self.word(*row, column) != before(column).and_then(|column| self.word(*row, column))
            };
            for (from, to) in runs(rows, parts) {
                let x = grid.x(column);
                picture.add(&path("border", "none", &[(x, grid.y(from)), (x, grid.y(to))]));
            }
        }
    }

    /// The values of both axes, as many as there is room for.
    fn marks(&self, picture: &mut Picture, grid: &Grid) {
        let widest = self.across.1.iter().map(|text| width(text)).fold(0.0, f64::max);
        // So many squares that a text of this room has its own.
        let every = |room: f64, size: f64| {
            (1..=u8::MAX).find(|n| f64::from(*n) * size >= room).map_or(1, usize::from)
        };
        let (across, up) = (every(widest + 8.0, grid.wide), every(ROW - 4.0, grid.high));
        for (i, text) in self.across.1.iter().enumerate().step_by(across) {
            let x = grid.x(i) + grid.wide / 2.0;
            picture.text("", (x, grid.bottom + ROW), "middle", text);
        }
        for (i, text) in self.up.1.iter().enumerate().step_by(up) {
            let y = grid.y(i) - grid.high / 2.0;
            picture.text("", (grid.left - 8.0, y + 4.0), "end", text);
        }
        picture.text("", (8.0, TOP - 16.0), "start", &self.up.0);
        let middle = grid.x(self.across.1.len()) / 2.0 + grid.left / 2.0;
        picture.text("", (middle, grid.bottom + 2.2 * ROW), "middle", &self.across.0);
    }

    /// Squares of one word that touch, as patches, from the lowest row up.
    fn patches(&self) -> Vec<Patch> {
        let columns = self.squares.first().map_or(0, Vec::len);
        let mut seen = vec![vec![false; columns]; self.squares.len()];
        let mut patches = Vec::new();
        for (row, column) in
            (0..self.squares.len()).flat_map(|row| (0..columns).map(move |column| (row, column)))
        {
            let mut open = vec![(row, column)];
            let mut squares = Vec::new();
            while let Some((r, c)) = open.pop() {
                if self.word(r, c) != self.word(row, column) || seen[r][c] {
                    continue;
                }
                seen[r][c] = true;
                squares.push((r, c));
                open.extend(
                    [(r + 1, c), (r, c + 1)].into_iter().filter(|(r, c)| self.word(*r, *c).is_some()),
                );
                open.extend(r.checked_sub(1).map(|r| (r, c)));
                open.extend(c.checked_sub(1).map(|c| (r, c)));
            }
            if !squares.is_empty() {
                let word = self.word(row, column).unwrap_or_default().to_string();
                patches.push(Patch { word, squares });
            }
        }
        patches
    }

    /// Each patch's name, in it; where none of its word has room for it, beside the field and led to it.
    fn names(&self, picture: &mut Picture, grid: &Grid) {
        let patches = self.patches();
        let mut named: Vec<&str> = Vec::new();
        for patch in &patches {
            if let Some((x, y)) = patch.room(grid) {
                picture.text("name", (x, y + 4.0), "middle", &patch.word);
                named.push(&patch.word);
            }
        }
        let mut aside: Vec<(f64, (f64, f64), &str)> = Vec::new();
        for patch in patches.iter().rev().filter(|patch| !named.contains(&patch.word.as_str())) {
            if aside.iter().any(|(.., word)| *word == patch.word) {
                continue;
            }
            let Some((row, column)) = patch.squares.iter().max_by_key(|(_, column)| *column) else {
                continue;
            };
            let at = (grid.x(*column) + grid.wide / 2.0, grid.y(*row) - grid.high / 2.0);
            aside.push((at.1, at, &patch.word));
        }
        aside.sort_by(|a, b| a.0.total_cmp(&b.0));
        let right = grid.x(self.across.1.len());
        let mut above = TOP;
        for (y, at, word) in aside {
            let y = y.max(above);
            above = y + ROW - 2.0;
            picture.add(&path("leader", "none", &[at, (right + 8.0, y)]));
            picture.text("", (right + 10.0, y + 4.0), "start", word);
        }
    }
}

impl Patch {
    /// The middle of a stretch of it that has room for its word: as near to its own middle as there is one.
    fn room(&self, grid: &Grid) -> Option<(f64, f64)> {
        let half = width(&self.word) / 2.0 + BESIDE;
        let count = self.squares.len() as f64;
        let centre = |(row, column): &(usize, usize)| {
            (grid.x(*column) + grid.wide / 2.0, grid.y(*row) - grid.high / 2.0)
        };
        let sum = self.squares.iter().map(centre).fold((0.0, 0.0), |sum, at| (sum.0 + at.0, sum.1 + at.1));
        let middle = (sum.0 / count, sum.1 / count);
        let far = |at: (f64, f64)| (at.0 - middle.0).hypot(at.1 - middle.1);
        let fits = |at: &(f64, f64)| {
            let area =
                Area { left: at.0 - half, right: at.0 + half, top: at.1 - ABOVE, bottom: at.1 + ABOVE };
            self.covers(&area, grid)
        };
        // Between squares too: a word may stand on their edge.
        let along = self.squares.iter().map(centre).flat_map(|(x, y)| [(x, y), (x + grid.wide / 2.0, y)]);
        along.filter(fits).min_by(|a, b| far(*a).total_cmp(&far(*b)))
    }

    /// Whether every square under an area is its own.
    fn covers(&self, area: &Area, grid: &Grid) -> bool {
        let column = |x: f64| (x - grid.left) / grid.wide;
        let row = |y: f64| (grid.bottom - y) / grid.high;
        let (from, to) = (column(area.left).floor(), column(area.right).ceil());
        let (low, high) = (row(area.bottom).floor(), row(area.top).ceil());
        let wanted = (to - from) * (high - low);
        let inside = |(r, c): &&(usize, usize)| {
            let (r, c) = (*r as f64, *c as f64);
            (from..to).contains(&c) && (low..high).contains(&r)
        };
        self.squares.iter().filter(inside).count() as f64 >= wanted
    }
}

/// Runs of places that are so, each from its first to past its last.
fn runs(count: usize, is_so: impl Fn(&usize) -> bool) -> Vec<(usize, usize)> {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for i in (0..count).filter(is_so) {
        match runs.last_mut() {
            Some((_, to)) if *to == i => *to = i + 1,
            _ => runs.push((i, i + 1)),
        }
    }
    runs
}

/// How grounds look.
pub(super) const GROUNDS: &str = "<defs>\
<pattern id=\"hatched\" width=\"9\" height=\"9\" patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\"><path class=\"ground fails\" d=\"M0 0L0 9\"/></pattern>\
<pattern id=\"dotted\" width=\"9\" height=\"9\" patternUnits=\"userSpaceOnUse\"><circle class=\"dot\" cx=\"4\" cy=\"4\" r=\"1.2\"/></pattern>\
<pattern id=\"crossed\" width=\"9\" height=\"9\" patternUnits=\"userSpaceOnUse\"><path class=\"ground\" d=\"M0 0L9 9\"/><path class=\"ground\" d=\"M9 0L0 9\"/></pattern></defs>";
