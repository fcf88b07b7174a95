//! What must hold of any bunks under any boat.

use crate::bunks::rigs::{PLAIN, of};
use crate::cases::cases;
use bunkline::Rig;
use bunkline::fit::{Amount, Assessment, Bunk, assess};
use bunkline::quantity::Quantity;
use proptest::prelude::*;

/// Where everything stands, in inches.
#[derive(Debug, Clone)]
struct Layout {
    boat: f64,
    ends: [f64; 2],
    members: Vec<f64>,
}

fn layout() -> impl Strategy<Value = Layout> {
    let member = |from: f64| from..(from + 22.0);
    (
        -12.0..12.0_f64,
        [150.0..160.0_f64, 262.0..272.0_f64],
        (member(162.0), member(190.0), member(218.0), 246.0..258.0_f64),
    )
        .prop_map(|(boat, ends, (a, b, c, d))| Layout { boat, ends, members: vec![a, b, c, d] })
}

fn assessed(layout: &Layout, more: &[&str]) -> Assessment {
    let mut changes = vec![
        format!("shift.boat={} in", layout.boat),
        format!("trailer.bunks.forward_end={} in", layout.ends[0]),
        format!("trailer.bunks.aft_end={} in", layout.ends[1]),
    ];
    for (i, station) in layout.members.iter().enumerate() {
        changes.push(format!("trailer.crossmembers.{}.station={station} in", i + 1));
    }
    changes.extend(more.iter().map(ToString::to_string));
    assess(&Rig::read("layout", PLAIN, &changes).expect("it reads")).expect("it rests")
}

fn bunk(found: &Assessment) -> &Bunk {
    found.bunks[0].bunk.as_ref().expect("nothing is missing").as_ref().expect("the boat lies on them")
}

/// Reactions and the stations of the four crossmembers, in newtons and metres.
fn reactions(found: &Assessment) -> Vec<f64> {
    bunk(found).reactions.iter().flatten().map(|reaction| reaction.si()).collect()
}

proptest! {
    #![proptest_config(cases(200))]

    /// Half the boat, at its centre of gravity, is what the crossmembers under one bunk carry.
    #[test]
    fn reactions_sum_to_the_load_and_its_moment(layout in layout()) {
        let found = assessed(&layout, &[]);
        let boat = found.bunks[0].boat.clone().expect("known");
        let reactions = reactions(&found);
        let half = boat.weight.si() / 2.0;
        let sum: f64 = reactions.iter().sum();
        // Rounding of sums and of the linear equations behind them.
        prop_assert!((sum - half).abs() <= 1e-9 * half);
        let moment: f64 = reactions.iter().zip(&layout.members).map(|(r, x)| r * x * 0.0254).sum();
        prop_assert!((moment - half * boat.at.x.si()).abs() <= 1e-9 * moment.abs());
    }

    /// Everything turned end for end about the bunks' middle: so are the reactions.
    #[test]
    fn mirrored_bunks_carry_the_mirror_image(layout in layout()) {
        let middle = f64::midpoint(layout.ends[0], layout.ends[1]);
        // The bottom is straight well beyond both ends, so only the centre of gravity moves: from 210 + boat.
        let back = Layout {
            boat: 2.0 * middle - 420.0 - layout.boat,
            ends: layout.ends,
            members: layout.members.iter().rev().map(|x| 2.0 * middle - x).collect(),
        };
        let longer = ["boat.hull.straight_run=200 in", "boat.hull.support_from=0 in"];
        let (there, back) = (assessed(&layout, &longer), assessed(&back, &longer));
        let mut mirrored = reactions(&back);
        mirrored.reverse();
        for (one, other) in reactions(&there).iter().zip(&mirrored) {
            prop_assert!((one - other).abs() <= 1e-8 * 6000.0 * 4.448, "{one} {other}");
        }
        let moments = [bunk(&there).moment.value.value, bunk(&back).moment.value.value];
        prop_assert!((moments[0].abs() - moments[1].abs()).abs() <= 1e-8 * moments[0].abs());
    }

    /// A crossmember moved by a hundred-thousandth of an inch changes hardly anything: no jump.
    #[test]
    fn a_crossmember_moved_a_little_changes_results_a_little(layout in layout(), which in 0..4_usize) {
        const STEP: f64 = 1e-5;
        let mut moved = layout.clone();
        moved.members[which] += STEP;
        let (before, after) = (assessed(&layout, &[]), assessed(&moved, &[]));
        // Spans are 6 in and more. A reaction on a beam of such spans changes by a few of itself in a span, so by no more
        // than twice half the boat in an inch. Moments go with the reactions and deflections with the square of a span
        // besides: five times themselves in an inch. A jump of more than a few hundred-thousandths would be seen.
        let half = 3000.0 * 4.448;
        for (one, other) in reactions(&before).iter().zip(reactions(&after)) {
            prop_assert!((one - other).abs() <= 2.0 * STEP * half, "{one} {other}");
        }
        let deflections = [&before, &after].map(|found| bunk(found).deflection.clone().expect("known").value.si());
        prop_assert!((deflections[0] - deflections[1]).abs() <= 5.0 * STEP * deflections[0].abs().max(1e-6));
    }

    /// Bunks that only lie on their brackets: none is pulled down, and the sums still hold.
    #[test]
    fn bunks_that_may_lift_are_only_pushed(layout in layout()) {
        let found = assessed(&layout, &["trailer.bunks.lift_off=true"]);
        let reactions = reactions(&found);
        let half = found.bunks[0].boat.clone().expect("known").weight.si() / 2.0;
        prop_assert!(reactions.iter().all(|reaction| *reaction >= 0.0));
        prop_assert!((reactions.iter().sum::<f64>() - half).abs() <= 1e-9 * half);
    }

    /// The order in which the file lists crossmembers and strakes means nothing.
    #[test]
    fn order_means_nothing(layout in layout()) {
        let found = assessed(&layout, &[]);
        let mut turned = layout.clone();
        turned.members.rotate_left(1);
        let other = assessed(&turned, &[]);
        let mut one = reactions(&found);
        one.rotate_left(1);
        for (one, other) in one.iter().zip(reactions(&other)) {
            prop_assert!((one - other).abs() <= 1e-9 * 13344.0);
        }
    }
}

#[test]
fn units_mean_nothing() {
    let metric = PLAIN.replace("5000 lb", "2267.96185 kg").replace("\"110 in\"", "\"2794 mm\"");
    let read =
        |text: &str| assess(&Rig::read("units", text, &[] as &[&str]).expect("it reads")).expect("it rests");
    let (us, metric) = (read(PLAIN), read(&metric));
    for (one, other) in us.rows.iter().zip(&metric.rows) {
        let (one, other) = (one.load.map(Amount::si), other.load.map(Amount::si));
        let near = match (one, other) {
            (Some(one), Some(other)) => (one - other).abs() <= 1e-9 * one.abs().max(1.0),
            (one, other) => one.is_none() && other.is_none(),
        };
        assert!(near, "{one:?} {other:?}");
    }
    assert!((of(1.0, "lb") - 0.224_808_943_1).abs() < 1e-9);
}
