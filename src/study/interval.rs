//! Where functions of one variable hold: intervals, found from samples and met with each other.

use crate::numeric::root::edge;
use crate::quantity::{Length, Quantity};

/// From one place to another, both within.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interval {
    /// The lesser.
    pub from: Length,
    /// The greater.
    pub to: Length,
}

impl Interval {
    /// From one place in metres to another.
    pub fn new(from: f64, to: f64) -> Self {
        Self { from: Length::from_si(from), to: Length::from_si(to) }
    }

    /// How far it reaches.
    pub fn width(self) -> Length {
        self.to - self.from
    }

    /// Whether a place lies within.
    pub fn holds(self, at: Length) -> bool {
        self.from <= at && at <= self.to
    }
}

/// A place in metres and the function's value there.
pub type Sample = (f64, f64);

/// A turn is examined when its value is no farther from zero than so many times the function's change
/// between neighbouring samples: it may reach zero between them.
const REACHES: f64 = 2.0;
/// A change this small beside the value is rounding, no turn.
const ROUNDING: f64 = 1e-12;
/// A turn is looked for this many times as coarsely as an end: what reaches beyond zero for less is no interval.
const TURN: f64 = 100.0;
/// The golden section: what is left of a bracket at each step.
const GOLDEN: f64 = 0.618_033_988_749_894_8;

/// The intervals on which a function is at least zero, in order, each end found to `within` metres from inside.
///
/// `samples` are places in order, the first and the last being the ends of the range. Every change of
/// sign between neighbours is refined. Where the samples turn near zero the turn itself is looked for, so that
/// a dip or a rise between two samples is found if its flanks show in them; what comes and goes between two
/// samples and leaves them as they were is not. Minus infinity counts as not holding.
///
/// ```
/// use bunkline::study::interval::{Interval, holding};
///
/// // Holds up to −1 and from 1 on, seen every half metre from −2 to 2.
/// let gap = |x: f64| x * x - 1.0;
/// let samples: Vec<(f64, f64)> = (-4..=4).map(|i| f64::from(i) / 2.0).map(|x| (x, gap(x))).collect();
/// assert_eq!(holding(&samples, 1e-9, &mut |x| gap(x)), [Interval::new(-2.0, -1.0), Interval::new(1.0, 2.0)]);
/// ```
pub fn holding(samples: &[Sample], within: f64, gap: &mut dyn FnMut(f64) -> f64) -> Vec<Interval> {
    let mut points = samples.to_vec();
    points.extend(turns(samples, within, gap));
    points.sort_by(|(a, _), (b, _)| a.total_cmp(b));
    let mut found = Vec::new();
    let mut from = points.first().filter(|first| is_inside(**first)).map(|(x, _)| *x);
    for pair in points.windows(2) {
        match (is_inside(pair[0]), is_inside(pair[1])) {
            (false, true) => from = Some(edge(pair[1], pair[0], within, &mut *gap)),
            (true, false) => {
                let to = edge(pair[0], pair[1], within, &mut *gap);
                found.extend(from.take().map(|from| Interval::new(from, to)));
            }
            _ => {}
        }
    }
    found.extend(from.zip(points.last()).map(|(from, (to, _))| Interval::new(from, *to)));
    found
}

fn is_inside((_, gap): Sample) -> bool {
    gap >= 0.0
}

/// Points beyond zero found where the samples turn near it: bottoms of dips, tops of rises.
fn turns(samples: &[Sample], within: f64, gap: &mut dyn FnMut(f64) -> f64) -> Vec<Sample> {
    let last = samples.len().saturating_sub(1);
    let mut found = Vec::new();
    for (i, (_, value)) in samples.iter().enumerate() {
        let around = &samples[i.saturating_sub(1)..=last.min(i + 1)];
        let near = &samples[i.saturating_sub(2)..=last.min(i + 2)];
        let change = near.windows(2).map(|pair| (pair[1].1 - pair[0].1).abs()).fold(0.0, f64::max);
        // Where a neighbour is on the other side of zero the change of sign is found anyhow.
        let side = if *value >= 0.0 { 1.0 } else { -1.0 };
        let turns = around.iter().all(|other| side * other.1 >= side * value);
        let near_zero = value.abs() <= REACHES * change && change > ROUNDING * value.abs();
        if turns && near_zero && change.is_finite() {
            let (from, to) = (around[0].0, around[around.len() - 1].0);
            found.extend(beyond(from, to, side, within, gap));
        }
    }
    found
}

/// The first point beyond zero that a golden section toward the turn meets, if it meets one.
fn beyond(
    mut from: f64,
    mut to: f64,
    side: f64,
    within: f64,
    gap: &mut dyn FnMut(f64) -> f64,
) -> Option<Sample> {
    let mut look = |x: f64| (x, gap(x));
    let is_beyond = |point: Sample| is_inside(point) == (side < 0.0);
    let (mut left, mut right) = (look(to - GOLDEN * (to - from)), look(from + GOLDEN * (to - from)));
    loop {
        if let Some(point) = [left, right].into_iter().find(|point| is_beyond(*point)) {
            return Some(point);
        }
        if to - from <= TURN * within {
            return None;
        }
        if side * left.1 < side * right.1 {
            (to, right) = (right.0, left);
            left = look(to - GOLDEN * (to - from));
        } else {
            (from, left) = (left.0, right);
            right = look(from + GOLDEN * (to - from));
        }
    }
}

/// Where both hold.
pub fn meet(these: &[Interval], those: &[Interval]) -> Vec<Interval> {
    let mut both = Vec::new();
    for this in these {
        let with =
            those.iter().map(|that| Interval { from: this.from.max(that.from), to: this.to.min(that.to) });
        both.extend(with.filter(|interval| interval.from <= interval.to));
    }
    both.sort_by(|a, b| a.from.si().total_cmp(&b.from.si()));
    both
}

/// The shortest way from a place where these hold to one where those hold, if they hold nowhere together.
pub fn apart(these: &[Interval], those: &[Interval]) -> Option<(Length, Length)> {
    let mut shortest: Option<(Length, Length)> = None;
    for this in these {
        for that in those {
            let way = if this.to < that.from { (this.to, that.from) } else { (this.from, that.to) };
            if this.from <= that.to && that.from <= this.to {
                return None;
            }
            let length = |(from, to): (Length, Length)| (to - from).abs();
            if shortest.is_none_or(|known| length(way) < length(known)) {
                shortest = Some(way);
            }
        }
    }
    shortest
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Samples of a function from −1 to 1.
    fn sampled(count: i32, gap: impl Fn(f64) -> f64) -> Vec<Sample> {
        (0..=count).map(|i| f64::from(2 * i - count) / f64::from(count)).map(|x| (x, gap(x))).collect()
    }

    /// Ends found to a nanometre: 2e-9 allows for the rounding of the function itself.
    fn assert_holds(count: i32, gap: impl Fn(f64) -> f64, expected: &[(f64, f64)]) {
        let found = holding(&sampled(count, &gap), 1e-9, &mut |x| gap(x));
        assert_eq!(found.len(), expected.len(), "{found:?}");
        for (interval, (from, to)) in found.iter().zip(expected) {
            let off = (interval.from.si() - from).abs().max((interval.to.si() - to).abs());
            assert!(off < 2e-9, "{interval:?} is not {from} to {to}");
            assert!(gap(interval.from.si()) >= 0.0 && gap(interval.to.si()) >= 0.0, "{interval:?}");
        }
    }

    #[test]
    fn a_straight_line_has_one_edge() {
        assert_holds(10, |x| 3.0 * x - 0.7, &[(0.7 / 3.0, 1.0)]);
        assert_holds(10, |x| 0.7 - 3.0 * x, &[(-1.0, 0.7 / 3.0)]);
    }

    #[test]
    fn what_never_changes_sign_holds_everywhere_or_nowhere() {
        assert_holds(10, |x| x + 2.0, &[(-1.0, 1.0)]);
        assert_holds(10, |x| x - 2.0, &[]);
        assert_holds(10, |_| 0.0, &[(-1.0, 1.0)]);
        assert_holds(10, |_| f64::NEG_INFINITY, &[]);
    }

    #[test]
    fn a_jump_is_found_like_a_crossing() {
        assert_holds(10, |x| if x < 0.123 { f64::NEG_INFINITY } else { 5.0 }, &[(0.123, 1.0)]);
        assert_holds(10, |x| if x < 0.123 { 1e6 } else { -1e-6 }, &[(-1.0, 0.123)]);
    }

    #[test]
    fn a_dip_between_two_samples_parts_the_interval() {
        // Samples at −0.2, 0, 0.2 …: between 0 and 0.2 the parabola dips to −0.0016.
        let (a, b) = (0.06, 0.14);
        assert_holds(10, |x| (x - a) * (x - b), &[(-1.0, a), (b, 1.0)]);
        // The same with straight flanks, as of two limits met at a stop.
        assert_holds(10, |x: f64| (x - 0.1).abs() - 0.04, &[(-1.0, a), (b, 1.0)]);
        // And in the first and the last cell.
        assert_holds(10, |x: f64| (x + 0.9).abs() - 0.04, &[(-1.0, -0.94), (-0.86, 1.0)]);
        assert_holds(10, |x: f64| (x - 0.9).abs() - 0.04, &[(-1.0, 0.86), (0.94, 1.0)]);
    }

    #[test]
    fn a_rise_between_two_samples_is_an_interval() {
        let (a, b) = (0.06, 0.14);
        assert_holds(10, |x| (x - a) * (b - x), &[(a, b)]);
        assert_holds(10, |x: f64| 0.04 - (x - 0.1).abs(), &[(a, b)]);
    }

    #[test]
    fn every_hump_of_a_wave_is_found() {
        // sin(40 x) + 0.2 holds between the roots (2πk − asin 0.2) / 40 and (2πk + π + asin 0.2) / 40, seen
        // every 0.02: eight samples a wave.
        let tilt = 0.2f64.asin();
        let turn = std::f64::consts::TAU;
        let humps = (-7..=7).filter_map(|k| {
            let from = (turn * f64::from(k) - tilt) / 40.0;
            let to = (turn * f64::from(k) + turn / 2.0 + tilt) / 40.0;
            (from < 1.0 && to > -1.0).then(|| (from.max(-1.0), to.min(1.0)))
        });
        assert_holds(100, |x: f64| (40.0 * x).sin() + 0.2, &humps.collect::<Vec<_>>());
    }

    #[test]
    fn intervals_meet_where_both_hold() {
        let these = [Interval::new(0.0, 2.0), Interval::new(3.0, 5.0)];
        let those = [Interval::new(1.0, 3.5), Interval::new(5.0, 6.0)];
        let both = [Interval::new(1.0, 2.0), Interval::new(3.0, 3.5), Interval::new(5.0, 5.0)];
        assert_eq!(meet(&these, &those), both);
        assert_eq!(apart(&these, &those), None);
        assert_eq!(meet(&these, &[]), []);
        let far = [Interval::new(-2.0, -1.0), Interval::new(5.5, 6.0)];
        assert_eq!(apart(&these, &far), Some((Length::from_si(5.0), Length::from_si(5.5))));
    }
}
