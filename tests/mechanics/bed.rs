//! One rigid boat on several stretches, wood over a bracket, and a bracket's foot.

use bunkline::mechanics::bunks::wood::{
    Board, LoadDuration, Lumber, Service, Use, allowed, bearing_area_factor,
};
use bunkline::mechanics::bunks::{Bearing, Stretch, foot_pull, press, press_on, side_thrust};
use bunkline::quantity::{Angle, Length, LineLoad, Quantity, Weight, unit};
use proptest::prelude::*;

const IN: f64 = unit::INCH;
const LB: f64 = unit::POUND;

fn inches(number: f64) -> Length {
    Length::from_si(number * IN)
}

fn bearing(forward: f64, aft: f64, stiffness: f64) -> Bearing {
    Bearing { stretch: Stretch { forward: inches(forward), aft: inches(aft) }, stiffness }
}

/// Pounds an inch at both ends of each stretch.
fn pressed(weight: f64, at: f64, bearings: &[Bearing]) -> Option<Vec<[f64; 2]>> {
    let found = press_on(Weight::from_si(weight * LB), inches(at), bearings)?;
    let number = |load: LineLoad| load.si() / (LB / IN);
    Some(found.into_iter().map(|ends| ends.map(number)).collect())
}

/// The same by many little springs that do not pull: a rigid bar on all of them, and again without those that would pull,
/// or with those that would press, until none changes.
fn by_springs(weight: f64, at: f64, bearings: &[Bearing]) -> [f64; 2] {
    const EACH: usize = 4000;
    let springs: Vec<(f64, f64)> = bearings
        .iter()
        .flat_map(|bearing| {
            let (from, to) = (bearing.stretch.forward.si() / IN, bearing.stretch.aft.si() / IN);
            let step = (to - from) / EACH as f64;
            (0..EACH).map(move |i| (from + (i as f64 + 0.5) * step, bearing.stiffness * step))
        })
        .collect();
    let mut pressing = vec![true; springs.len()];
    for _ in 0..500 {
        let mut sums = [0.0; 3];
        for ((x, k), _) in springs.iter().zip(&pressing).filter(|(_, pressing)| **pressing) {
            let arm = x - at;
            sums = [sums[0] + k, sums[1] + k * arm, sums[2] + k * arm * arm];
        }
        let determinant = sums[0] * sums[2] - sums[1] * sums[1];
        let line = [weight * sums[2] / determinant, -weight * sums[1] / determinant];
        let next: Vec<bool> = springs.iter().map(|(x, _)| line[0] + line[1] * (x - at) > 0.0).collect();
        if next == pressing {
            return line;
        }
        pressing = next;
    }
    panic!("the springs do not come to rest");
}

#[test]
fn bow_bunks_that_bear_are_those_worked_by_hand() {
    // 9000 lb an inch sixth of the main bunks' length ahead of their middle: from twice the mean, 120 lb/in, to nothing.
    let main = bearing(180.0, 330.0, 1.0);
    let alone = pressed(9000.0, 230.0, &[main]).expect("it lies");
    assert!((alone[0][0] - 120.0).abs() < 1e-9 && alone[0][1].abs() < 1e-9, "{alone:?}");
    // Bow bunks from 120 to 150 in, their bed 0.8 as stiff.
    let both = pressed(9000.0, 230.0, &[main, bearing(120.0, 150.0, 0.8)]).expect("it lies");
    // Worked to a tenth of a pound an inch.
    assert!((both[0][0] - 59.4).abs() < 0.05 && (both[0][1] - 39.7).abs() < 0.05, "{both:?}");
    let bow = 30.0 * (both[1][0] + both[1][1]) / 2.0;
    assert!((bow - 1566.0).abs() < 0.5, "{bow}");
}

#[test]
fn a_boat_beyond_every_stretch_tips() {
    let main = bearing(180.0, 330.0, 1.0);
    assert!(pressed(9000.0, 179.0, &[main]).is_none());
    assert!(pressed(9000.0, 331.0, &[main]).is_none());
    assert!(pressed(9000.0, 165.0, &[main, bearing(120.0, 150.0, 1.0)]).is_some());
    assert!(pressed(9000.0, f64::NAN, &[main]).is_none());
}

#[test]
fn wood_over_a_bracket_and_the_pull_on_its_foot() {
    // Three inches of bearing help by an eighth, but not within three of the end, and six do not.
    assert!((bearing_area_factor(inches(3.0), inches(3.0)) - 1.125).abs() < 1e-12);
    assert!((bearing_area_factor(inches(3.0), inches(2.99)) - 1.0).abs() < 1e-12);
    assert!((bearing_area_factor(inches(6.0), inches(30.0)) - 1.0).abs() < 1e-12);
    // Wet southern pine No. 2, 565 × 0.67 = 378.55 psi, bears 425.87 psi over 3 in: less than 2367 lb on 1.5 by 3 in, 526 psi.
    let board = Board::nominal(2, 8).expect("sizes of the table");
    let values = Lumber::SouthernPine2.design_values(board).expect("in the tables");
    let wet = Use { duration: LoadDuration::Permanent, service: Service::Wet };
    let across = allowed(values, board, wet).expect("in the tables").bearing.value();
    let bears = across.si() * bearing_area_factor(inches(3.0), inches(20.0)) / (LB / (IN * IN));
    assert!((bears - 425.868_75).abs() < 1e-3 && bears < 2367.0 / (1.5 * 3.0), "{bears}");
    // Moments about the outer bolts, 6 in from the inner ones: 1000 tan 20° × 12 in up, 1000 × 3 in down, over 6 in.
    let (r, steep) = (Weight::from_si(1000.0 * LB), Angle::from_si(20f64.to_radians()));
    let pull = foot_pull(r, side_thrust(r, steep), inches(12.0), inches(6.0)).si() / LB;
    assert!((pull - (363.970_234 * 12.0 - 3000.0) / 6.0).abs() < 1e-5, "{pull}");
    // A low and broad one stands.
    assert_eq!(foot_pull(r, side_thrust(r, steep), inches(6.0), inches(6.0)), Weight::default());
}

proptest! {
    /// On one stretch it is the bed that bunks are; on several it is what springs that do not pull come to; and it carries the
    /// boat where the boat is.
    #[test]
    fn a_boat_on_stretches_is_a_bar_on_springs(
        gaps in prop::collection::vec((5.0..60.0, 10.0..150.0, 0.2..3.0), 1..4),
        share in 0.02..0.98,
    ) {
        let mut end = 100.0;
        let mut bearings = Vec::new();
        for (gap, length, stiffness) in gaps {
            bearings.push(bearing(end + gap, end + gap + length, stiffness));
            end += gap + length;
        }
        let from = bearings[0].stretch.forward.si() / IN;
        let at = from + share * (end - from);
        let found = pressed(5000.0, at, &bearings).expect("it lies between the ends");
        let line = by_springs(5000.0, at, &bearings);
        let greatest = found.iter().flatten().fold(0.0_f64, |most, load| most.max(*load));
        for (bearing, loads) in bearings.iter().zip(&found) {
            for (end, load) in [bearing.stretch.forward, bearing.stretch.aft].iter().zip(loads) {
                let by_springs = bearing.stiffness * (line[0] + line[1] * (end.si() / IN - at)).max(0.0);
                // Springs of a four-thousandth of a stretch: where few of them press, as at a far end, each counts.
                prop_assert!((load - by_springs).abs() <= 0.02 * greatest, "{load}, by springs {by_springs}");
            }
        }
        if let [only] = &bearings[..] {
            let bed = press(Weight::from_si(5000.0 * LB), inches(at), only.stretch).expect("it lies");
            let ends = [bed.forward, bed.aft].map(|load| load.si() / (LB / IN));
            for (load, bed) in found[0].iter().zip(ends) {
                prop_assert!((load - bed).abs() <= 1e-6 * greatest, "{load}, as a bed {bed}");
            }
        }
    }
}
