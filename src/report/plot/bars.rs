//! Bars in groups: one for each case, against the limit of the group, which stands as a post.

use super::field::GROUNDS;
use super::svg::{Picture, path};
use super::{ROW, WIDTH, cut, width};

/// A load.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::report) struct Load {
    /// What it is in.
    pub name: String,
    /// It.
    pub at: f64,
    /// It as a number with its unit.
    pub shown: String,
}

/// Loads of one part, and what it may carry.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::report) struct Group {
    /// The part.
    pub name: String,
    /// What it may carry, and how that is named.
    pub limit: Option<(f64, String)>,
    /// Its loads.
    pub loads: Vec<Load>,
}

/// Groups, one under the other, of one scale.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::report) struct Bars {
    /// What it is called.
    pub title: String,
    /// What it shows, in words.
    pub said: String,
    /// The groups.
    pub groups: Vec<Group>,
}

/// Names take no more room than this, and numbers behind a bar so much.
const NAMED: f64 = 300.0;
const NUMBERED: f64 = 90.0;
/// How high a bar is, and from one to the next.
const THICK: f64 = 14.0;
const STEP: f64 = 22.0;
/// A number stands so far behind its bar, or behind the post.
const BESIDE: f64 = 6.0;
/// Between two groups.
const GAP: f64 = 16.0;

impl Bars {
    /// It as SVG; `None` where nothing is carried.
    pub fn drawn(&self) -> Option<String> {
        let loads = || self.groups.iter().flat_map(|group| &group.loads);
        let limits = self.groups.iter().filter_map(|group| Some(group.limit.as_ref()?.0));
        let most = loads().map(|load| load.at).chain(limits).fold(0.0, f64::max);
        if most <= 0.0 {
            return None;
        }
        let left = 28.0 + loads().map(|load| width(&load.name)).fold(0.0, f64::max).min(NAMED);
        let right = WIDTH - NUMBERED;
        let across = |at: f64| left + at.max(0.0) / most * (right - left);
        let mut picture = Picture::new(&self.title, &self.said);
        picture.add(GROUNDS);
        let mut down = 0.0;
        for group in &self.groups {
            down += GAP + ROW;
            picture.text("name", (8.0, down), "start", &group.name);
            let post = group.limit.as_ref().map(|(at, name)| (across(*at), name));
            if let Some((x, name)) = post {
                let half = width(name) / 2.0;
                picture.text("limit", (x.min(WIDTH - half), down), "middle", name);
            }
            let top = down + 4.0;
            for load in &group.loads {
                down += STEP;
                let end = across(load.at);
                let (high, low) = (down - THICK + 2.0, down + 2.0);
                let is_over = group.limit.as_ref().is_some_and(|(limit, _)| load.at > *limit);
                picture.area(if is_over { "bar hatched" } else { "bar" }, (left, high), (end, low));
                picture.text("", (left - 8.0, down), "end", &cut(&load.name, NAMED));
            }
            if let Some((x, _)) = post {
                picture.add(&path("limit upright", "none", &[(x, top), (x, down + 6.0)]));
            }
            for (load, y) in
                group.loads.iter().rev().zip(0..).map(|(load, i)| (load, down - STEP * f64::from(i)))
            {
                let x = across(load.at) + BESIDE;
                let clear = |post: f64| post + BESIDE < x || x + width(&load.shown) + BESIDE < post;
                // Clear of the post, if not at its bar's end.
                let x =
                    post.map(|(post, _)| post).filter(|post| !clear(*post)).map_or(x, |post| post + BESIDE);
                picture.text("name", (x, y), "start", &load.shown);
            }
        }
        Some(picture.finished(down + 14.0))
    }
}
