//! Crossings whose every position is known.

use crate::settling::trailers::{cases, si};
use crate::traverse::rigs::{Rig, any_rig, triple};
use approx::assert_abs_diff_eq;
use bunkline::quantity::Quantity;
use proptest::prelude::*;

proptest! {
    #![proptest_config(cases(60))]

    #[test]
    fn a_ramp_of_no_grade_is_the_level(rig in any_rig(), length in 1.0..6.0) {
        let flat = Rig { runs: vec![(length, 0.0), (length, 0.0)], ..rig };
        let level = flat.trailer.settle_level(flat.ball_height).expect("a trailer at rest");
        for instant in flat.crossing(0.4) {
            // Two settlings, each to 1e-9 of the weight as the statics ask.
            let tolerance = 2e-9 * flat.trailer.weight;
            for (found, expected) in si(&instant.stance.axle_loads).into_iter().zip(si(&level.axle_loads)) {
                prop_assert!((found - expected).abs() < tolerance, "{instant:?}");
            }
            prop_assert!((instant.stance.tongue_weight - level.tongue_weight).si().abs() < tolerance);
            prop_assert!(instant.stance.pull.si().abs() < tolerance);
        }
    }

    /// Whatever the ease, a crossing begins with every wheel on the level.
    #[test]
    fn a_crossing_begins_on_the_level(rig in any_rig(), ease in 0.0..6.0) {
        let long = Rig { runs: rig.runs.iter().map(|(_, grade)| (12.0, *grade)).collect(), ease, ..rig };
        let level = long.trailer.settle_level(long.ball_height).expect("a trailer at rest");
        let first = long.crossing(1.0)[0].clone();
        prop_assert!((first.stance.tongue_weight - level.tongue_weight).si().abs() < 2e-9 * long.trailer.weight);
        prop_assert!(first.stance.pull.si().abs() < 2e-9 * long.trailer.weight, "{first:?}");
    }
}

#[test]
fn the_whole_rig_on_one_grade_stands_parallel_to_it() {
    for (grade, uphill) in [(0.12, false), (0.3, false), (-0.12, true), (-0.3, true)] {
        let mut rig = Rig { runs: vec![(40.0, grade)], ..triple() };
        let (sin, cos) = f64::atan(grade).sin_cos();
        // Going down aft the nose is up: N = W cos β (xc + zc tan β) / Σ x; the other way minus, which the
        // grade's own sign does. At 12 %: 44 · 0.992877 · (6 + 0.096) / 18.6 = 14.3180 kN.
        let lever = cos * (rig.trailer.xc + rig.trailer.zc * grade);
        let load = rig.trailer.weight * lever / 18.6;
        // The frame stays parallel where the springs give as much as when it was measured.
        rig.trailer.level_xc = lever;
        let instant = rig.at(30.0);
        assert_abs_diff_eq!(instant.stance.pitch.si(), f64::atan(grade), epsilon = 1e-11);
        assert_abs_diff_eq!(instant.front.slope().si(), -f64::atan(grade), epsilon = 1e-12);
        let exact = 1e-9 * rig.trailer.weight;
        for found in si(&instant.stance.axle_loads) {
            assert_abs_diff_eq!(found, load, epsilon = exact);
        }
        // Backing down, the trailer pulls the tow vehicle aft; backing up it pushes it forward.
        let pull = instant.stance.pull.si();
        assert_abs_diff_eq!(pull, 3.0 * load * sin, epsilon = exact);
        assert_eq!(pull < 0.0, uphill);
        let tongue = rig.trailer.weight - 3.0 * load * cos;
        assert_abs_diff_eq!(instant.stance.tongue_weight.si(), tongue, epsilon = exact);
        // All of the weight's part along the grade is at the ball: wheels that roll freely hold nothing.
        let along = pull * cos + tongue * sin;
        assert_abs_diff_eq!(along, rig.trailer.weight * sin, epsilon = exact);
    }
}
