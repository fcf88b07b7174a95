//! Stiff springs: the trailer stands on its ball and as few axles as a beam would.

use crate::settling::statics::reactions;
use crate::settling::trailers::{cases, si};
use crate::traverse::rigs::{Rig, any_rig, pair, triple};
use approx::assert_abs_diff_eq;
use bunkline::quantity::Quantity;
use proptest::prelude::*;

/// Springs that give tens of micrometres at most.
fn stiff(rig: &Rig, times: f64) -> Rig {
    let mut trailer = rig.trailer.with_rates(times);
    trailer.travel = 0.0;
    for axle in &mut trailer.axles {
        // Never on the bump.
        axle.bump = 1.0;
    }
    Rig { trailer, ..rig.clone() }
}

#[test]
fn the_front_axle_of_a_triple_carries_it_all_on_the_head() {
    let rig = stiff(&triple(), 1e5);
    // The frame level, hub 1 right over the head: 1.25 m of overhang and 5.5 m of frame ahead of it.
    let instant = rig.at(-6.75);
    let stance = &instant.stance;
    // On the level each axle carries 44 · 6 / 18.6 = 14.194 kN and the tongue 44 − 42.581 = 1.419 kN.
    // Here axles 2 and 3 stand 0.7 and 1.4 m past the head, over ground 84 and 168 mm lower: they hang. A
    // beam on ball and axle 1: N = 44 · 6 / 5.5 = 48 kN, V = 44 − 48 = −4 kN, no pull on level ground.
    // Springs of 27 GN/m give 2 µm, which turns the frame by 1e-6: 1e-6 of 48 kN is 0.05 N, and the
    // ground's force leans as much.
    let loads = si(&stance.axle_loads);
    assert_abs_diff_eq!(loads[0], 48e3, epsilon = 0.1);
    assert_eq!((loads[1], loads[2]), (0.0, 0.0));
    assert_abs_diff_eq!(stance.tongue_weight.si(), -4e3, epsilon = 0.1);
    assert_abs_diff_eq!(stance.pull.si(), 0.0, epsilon = 0.5);
    // They hang by what the ground lies lower along the frame's normal, to the hub line: the moved grade is
    // x tan β + R (1 / cos β − 1) below level. 0.7 · 0.12 = 84 mm less 0.35 · 0.007174 = 2.51 mm: 81.49 mm.
    assert_abs_diff_eq!(stance.hang[1].si(), 0.081_489, epsilon = 1e-5);
    assert_abs_diff_eq!(stance.hang[2].si(), 0.165_489, epsilon = 1e-5);
}

#[test]
fn a_tandem_just_past_the_head_stands_on_its_front_axle() {
    let mut rig = triple();
    rig.trailer.axles.remove(0);
    rig.trailer.xc = 5.9;
    rig.trailer.level_xc = 5.9;
    let rig = stiff(&rig, 1e5);
    // The ball still on the level, hubs 1.0 and 1.7 m past the head: −6.45 + 1.25 + 6.2 = 1.0. The frame is less
    // nose up than the grade falls, so the ramp lies farther under axle 2 and axle 1 alone is on it.
    let stance = rig.at(-6.45).stance;
    let loads = si(&stance.axle_loads);
    assert!(stance.hang[0].si() == 0.0 && stance.hang[1].si() > 0.0, "{stance:?}");
    // Alone on axle 1. ℓ = 0.5 − 0.35 = 0.15 m, its hub lies 1.0 · 0.12 − 0.35 · 0.007174 = 0.1175 m lower
    // than on the level: φ = 0.1175 / 6.2 = 0.01895, and the force leans back by β = 0.11943:
    // N cos(φ − β) (6.2 − 0.15 tan(φ − β)) = 44 (5.9 cos φ + 0.8 sin φ)
    // N · 0.99496 · (6.2 + 0.01513) = 44 (5.89894 + 0.01516) = 260.220: N = 42.082 kN.
    assert_eq!(loads[1], 0.0);
    // Second order in the frame's turning: 6.2 φ² / 2 = 1 mm of hub position, 1e-4 of the drop.
    assert_abs_diff_eq!(loads[0], 42_082.0, epsilon = 15.0);
    // H = N sin β = 42.082 · 0.119145 = 5.014 kN; V = 44 − 42.082 · 0.992877 = 2.218 kN.
    assert_abs_diff_eq!(stance.pull.si(), 5014.0, epsilon = 3.0);
    assert_abs_diff_eq!(stance.tongue_weight.si(), 2218.0, epsilon = 15.0);
}

proptest! {
    #![proptest_config(cases(200))]

    /// The tail sinks until the first axle is on the ground. Where no other is within a millimetre of it that
    /// axle and the ball carry everything.
    #[test]
    fn stiff_trailers_stand_like_beams(rig in any_rig(), along in 0.0..1.0) {
        let rig = stiff(&rig, 1e5);
        let end: f64 = rig.runs.iter().map(|(length, _)| length).sum();
        let instant = rig.at(-rig.reach() - 1.0 + along * (end + rig.reach() + 1.0));
        let (trailer, ground, ball) = (&rig.trailer, rig.ground(), pair(instant.ball));
        let free_lengths = trailer.free_lengths();
        let gaps = |pitch: f64| -> Vec<f64> {
            let hubs = trailer.hubs(&ground, ball, pitch);
            hubs.iter().zip(&free_lengths).map(|(hub, free)| hub.distance - free).collect()
        };
        let least = |pitch: f64| gaps(pitch).into_iter().fold(f64::INFINITY, f64::min);
        let (mut clear, mut sunk) = (-0.4, 0.4);
        while sunk - clear > 1e-13 {
            let middle = f64::midpoint(clear, sunk);
            if least(middle) > 0.0 { clear = middle } else { sunk = middle }
        }
        let gaps = gaps(clear);
        let on: Vec<usize> = (0..gaps.len()).filter(|i| gaps[*i] < 1e-3).collect();
        let hubs = trailer.hubs(&ground, ball, clear);
        let leaning = hubs.iter().any(|hub| hub.slopes[0] != hub.slopes[1]);
        // A wheel that leans into a sag may be pushed from both sides.
        if let ([axle], false) = (&on[..], leaning) {
            let mut springs = vec![0.0; gaps.len()];
            springs[*axle] = 1.0;
            // A force of 1 N at the springs against the weight's moment gives the force that balances it.
            let weighed = reactions(trailer, &hubs, clear, &springs).moment_left;
            let idle = reactions(trailer, &hubs, clear, &vec![0.0; gaps.len()]).moment_left;
            springs[*axle] = -idle / (weighed - idle);
            let expected = reactions(trailer, &hubs, clear, &springs);
            // Springs of some 10 GN/m give micrometres, a millionth of a radian and on an arc of 0.2 m five
            // millionths of it; a hundred for the few metres that the ball's height leans over.
            let tolerance = 1e-4 * trailer.weight;
            for (found, load) in si(&instant.stance.axle_loads).into_iter().zip(&expected.axle_loads) {
                prop_assert!((found - load).abs() < tolerance, "{instant:?} for {expected:?}");
            }
            prop_assert!((instant.stance.tongue_weight.si() - expected.tongue_weight).abs() < tolerance);
            prop_assert!((instant.stance.pull.si() - expected.pull).abs() < tolerance);
        }
    }
}
