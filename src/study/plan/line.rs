//! Along one line of rigs, as a boat that is moved: the stretches in which the same limits are met, from looks at a few
//! places.
//!
//! Between two looks every margin is taken to run straight, and one that is infinite on a side to turn in the middle.
//! More looks where it matters make that as near as is wanted.

/// How far inside each limit a load lies at one place.
#[derive(Debug, Clone)]
pub(super) struct Look {
    /// The place.
    pub at: f64,
    /// By limit; one that is not there has none, and is met.
    pub margins: Vec<f64>,
    /// The tongue share in the first case, where it is known.
    pub share: Option<f64>,
}

/// A stretch in which the same limits are met.
#[derive(Debug, Clone)]
pub(super) struct Cell {
    pub from: f64,
    pub to: f64,
    /// By limit: whether the load is past it.
    pub outside: Vec<bool>,
}

fn margin(look: &Look, limit: usize) -> f64 {
    look.margins.get(limit).copied().unwrap_or(f64::INFINITY)
}

/// The stretches between the first look and the last, in order; the looks are in order, too.
pub(super) fn cells(looks: &[Look]) -> Vec<Cell> {
    let limits = looks.iter().map(|look| look.margins.len()).max().unwrap_or(0);
    let (Some(first), Some(last)) = (looks.first(), looks.last()) else { return Vec::new() };
    let mut outside: Vec<bool> = (0..limits).map(|limit| margin(first, limit) < 0.0).collect();
    let mut cells = Vec::new();
    let mut from = first.at;
    for pair in looks.windows(2) {
        let turns = (0..limits).filter_map(|limit| Some((turn(&pair[0], &pair[1], limit)?, limit)));
        let mut turns: Vec<(f64, usize)> = turns.collect();
        turns.sort_by(|a, b| a.0.total_cmp(&b.0));
        for (at, limit) in turns {
            if at > from {
                cells.push(Cell { from, to: at, outside: outside.clone() });
                from = at;
            }
            outside[limit] = !outside[limit];
        }
    }
    cells.push(Cell { from, to: last.at, outside });
    cells
}

/// Where between two looks a margin changes its sign, if it does.
fn turn(before: &Look, after: &Look, limit: usize) -> Option<f64> {
    let (one, other) = (margin(before, limit), margin(after, limit));
    if (one < 0.0) == (other < 0.0) {
        return None;
    }
    let share = one / (one - other);
    let share = if share.is_finite() { share } else { 0.5 };
    Some(before.at + (after.at - before.at) * share)
}

/// From one place to another.
pub(super) type Stretch = (f64, f64);

/// The stretches of the cells that are wanted, neighbours taken together.
pub(super) fn stretches<'a>(cells: impl Iterator<Item = (&'a Cell, bool)>) -> Vec<Stretch> {
    let mut found: Vec<Stretch> = Vec::new();
    for (cell, wanted) in cells {
        match found.last_mut() {
            _ if !wanted => {}
            Some(last) if last.1 == cell.from => last.1 = cell.to,
            _ => found.push((cell.from, cell.to)),
        }
    }
    found
}

/// The widest of them, the first of equals.
pub(super) fn widest(stretches: &[Stretch]) -> Option<Stretch> {
    let width = |(from, to): Stretch| to - from;
    stretches.iter().copied().reduce(|a, b| if width(b) > width(a) { b } else { a })
}

/// The place inside these stretches at which the tongue share is nearest to another, if it is known at all looks.
pub(super) fn nearest_share(looks: &[Look], stretches: &[Stretch], share: f64) -> Option<f64> {
    let mut best: Option<(f64, f64)> = None;
    for pair in looks.windows(2) {
        let (one, other) = (pair[0].share?, pair[1].share?);
        let run = pair[1].at - pair[0].at;
        let of = |at: f64| one + (other - one) * ((at - pair[0].at) / run);
        let met = pair[0].at + run * (share - one) / (other - one);
        for (from, to) in stretches {
            let (from, to) = (from.max(pair[0].at), to.min(pair[1].at));
            if from > to {
                continue;
            }
            let at = if met.is_finite() { met.clamp(from, to) } else { from };
            let off = (of(at) - share).abs();
            if best.is_none_or(|(least, _)| off < least) {
                best = Some((off, at));
            }
        }
    }
    best.map(|(_, at)| at)
}
