//! Tie-downs against another method, a boat drawn away from its lines until one of them carries all it may; and what must
//! hold of any lines.

use crate::cases::cases;
use bunkline::mechanics::FramePoint;
use bunkline::mechanics::tie_downs::{
    AFT, DOWN, Direction, FORWARD, Lashing, PORT, STARBOARD, hold, hold_down, lead,
};
use bunkline::quantity::unit::{INCH, POUND};
use bunkline::quantity::{Length, Quantity, Share, Weight};
use proptest::prelude::*;

/// A line that leads so far aft, to starboard and down, in inches, of this limit in pounds and stretch.
fn line([aft, starboard, down]: [f64; 3], limit: f64, stretch: f64) -> Lashing {
    let point = |[x, y, z]: [f64; 3]| FramePoint {
        x: Length::from_si(x * INCH),
        y: Length::from_si(y * INCH),
        z: Length::from_si(z * INCH),
    };
    let (boat, trailer) = (point([100.0, 20.0, 60.0]), point([100.0 + aft, 20.0 + starboard, 60.0 - down]));
    let (direction, length) = lead(boat, trailer).expect("two places");
    Lashing { direction, length, limit: Weight::from_si(limit * POUND), stretch: Share::from_si(stretch) }
}

fn held(lines: &[Lashing], against: Direction) -> f64 {
    hold(lines, against).si() / POUND
}

/// What lines hold by drawing the boat away from them in small steps: each pulls by how much longer it has become, until one
/// carries all it may.
fn by_drawing(lines: &[Lashing], against: Direction) -> f64 {
    let pulls = |moved: f64| -> (f64, bool) {
        let each = lines.iter().map(|line| {
            let leads: f64 = line.direction.iter().zip(against).map(|(u, e)| u * e).sum();
            // For small ways a line grows by its share of the way.
            let longer = (moved * leads).max(0.0) / line.length.si();
            let pull = line.limit.si() * longer / line.stretch.si();
            (pull * leads.max(0.0), pull > line.limit.si())
        });
        each.fold((0.0, false), |(sum, past), (pull, over)| (sum + pull, past || over))
    };
    let (mut holds, mut breaks) = (0.0, 1e6);
    for _ in 0..300 {
        let moved = f64::midpoint(holds, breaks);
        if pulls(moved).1 { breaks = moved } else { holds = moved }
    }
    pulls(holds).0 / POUND
}

#[test]
fn two_straps_hold_what_was_worked() {
    let strap = line([10.0, 6.0, 24.0], 2000.0, 0.05);
    assert!((strap.length.si() / INCH - 26.68).abs() < 0.005);
    let pair = [strap, strap.mirrored()];
    for (found, worked) in [
        (held(&pair, AFT), 1499.0),
        (hold_down(&pair).si() / POUND, 3598.0),
        // One of them acts.
        (held(&pair, STARBOARD), 450.0),
        (held(&pair, PORT), 450.0),
        (held(&pair, FORWARD), 0.0),
    ] {
        assert!((found - worked).abs() < 0.5, "{found} lb of {worked}");
    }
    // The second twice as stiff: the first carries half of what it may.
    let stiff = Lashing { stretch: Share::from_si(0.025), ..strap.mirrored() };
    let found = held(&[strap, stiff], AFT);
    assert!((found - 1124.0).abs() < 0.5, "{found} lb");
}

#[test]
fn what_leads_nowhere_holds_nothing() {
    let here = FramePoint { x: Length::from_si(1.0), y: Length::from_si(0.2), z: Length::from_si(0.5) };
    assert_eq!(lead(here, here), None);
    assert_eq!(held(&[], AFT), 0.0);
    let upright = line([0.0, 0.0, 20.0], 1000.0, 0.05);
    assert_eq!([AFT, FORWARD, PORT, STARBOARD].map(|way| held(&[upright], way)), [0.0; 4]);
    // What leads up holds nothing down.
    let upward = line([10.0, 0.0, -5.0], 1000.0, 0.05);
    assert_eq!(hold_down(&[upward]), Weight::default());
}

fn any_line() -> impl Strategy<Value = Lashing> {
    let part = -60.0..60.0;
    ([part.clone(), part.clone(), part], 200.0..5000.0, 0.005..0.1)
        .prop_filter("two places", |(way, ..)| way.iter().any(|part: &f64| part.abs() > 1.0))
        .prop_map(|(way, limit, stretch)| line(way, limit, stretch))
}

fn any_way() -> impl Strategy<Value = Direction> {
    prop::sample::select(vec![AFT, FORWARD, STARBOARD, PORT, DOWN])
}

proptest! {
    #![proptest_config(cases(300))]

    #[test]
    fn lines_hold_what_a_boat_drawn_away_meets(lines in prop::collection::vec(any_line(), 1..7), way in any_way()) {
        // A line that leads by next to nothing lets the boat go farther than the search looks.
        let leads = |line: &Lashing| line.direction.iter().zip(way).map(|(u, e)| u * e).sum::<f64>();
        prop_assume!(lines.iter().all(|line| leads(line) <= 0.0 || leads(line) > 1e-4));
        let (found, second) = (held(&lines, way), by_drawing(&lines, way));
        prop_assert!((found - second).abs() <= 1e-9 * second.max(1.0), "{found} lb, drawn {second}");
    }

    #[test]
    fn none_passes_its_limit_and_order_does_not_matter(
        lines in prop::collection::vec(any_line(), 1..7), way in any_way(),
    ) {
        let most: f64 = lines.iter().map(|line| {
            let leads: f64 = line.direction.iter().zip(way).map(|(u, e)| u * e).sum();
            line.limit.si() / POUND * leads.max(0.0)
        }).sum();
        let found = held(&lines, way);
        prop_assert!(found <= most * (1.0 + 1e-9));
        let turned: Vec<Lashing> = lines.iter().rev().copied().collect();
        prop_assert!((held(&turned, way) - found).abs() <= 1e-9 * found.max(1.0));
        let other: Vec<Lashing> = lines.iter().map(|line| line.mirrored()).collect();
        let mirrored = [way[0], -way[1], way[2]];
        prop_assert!((held(&other, mirrored) - found).abs() <= 1e-9 * found.max(1.0));
    }

    #[test]
    fn a_lower_limit_never_holds_more(
        lines in prop::collection::vec(any_line(), 1..7), of in 0_usize..7, left in 0.05..1.0, way in any_way(),
    ) {
        let mut weaker = lines.clone();
        let count = lines.len();
        weaker[of % count].limit *= left;
        prop_assert!(held(&weaker, way) <= held(&lines, way) * (1.0 + 1e-12));
        prop_assert!(hold_down(&weaker) <= hold_down(&lines));
    }
}
