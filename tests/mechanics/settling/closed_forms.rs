//! Cases whose answer is a formula.

use crate::settling::statics::greatest;
use crate::settling::trailers::{Axle, Ground, Trailer, point, si};
use approx::assert_abs_diff_eq;
use bunkline::mechanics::{Stance, Terrain, settle};
use bunkline::quantity::{Angle, Quantity};

/// The balance is exact; what remains is the moment that the kernel leaves and rounding.
const EXACT: f64 = 1e-9;

/// A 45 kN trailer on axles at 6.0, 6.9, 7.8, … m, sprung 250 kN/m each.
fn trailer(axles: usize) -> Trailer {
    let axle = |i| Axle {
        station: 6.0 + 0.9 * i as f64,
        radius: 0.36,
        // 1/k = 1/400 + 1/(2000/3) = 1/250 m/kN
        suspension: 400e3,
        tires: 2000e3 / 3.0,
        bump: 0.2,
    };
    Trailer {
        weight: 45e3,
        xc: 5.4,
        zc: 0.8,
        level_xc: 5.4,
        axles: (0..axles).map(axle).collect(),
        travel: 0.06,
        ball_height: 0.5,
    }
}

fn level(trailer: &Trailer) -> Stance {
    trailer.settle_level(trailer.ball_height).expect("a trailer at rest on level ground")
}

#[test]
fn one_axle_is_a_lever() {
    let stance = level(&trailer(1));
    // N = W xc / x = 45 · 5.4 / 6 = 40.5 kN, V = 45 − 40.5 = 4.5 kN
    assert_abs_diff_eq!(stance.axle_loads[0].si(), 40.5e3, epsilon = EXACT * 45e3);
    assert_abs_diff_eq!(stance.tongue_weight.si(), 4.5e3, epsilon = EXACT * 45e3);
    // The frame was measured level under this very load.
    assert_abs_diff_eq!(stance.pitch.si(), 0.0, epsilon = 1e-12);
}

#[test]
fn equal_shares_on_the_level() {
    // N = W xc / Σ x: 243/12.9 = 18.837209…, 243/20.7 = 11.739130…, 243/29.4 = 8.265306… kN.
    for (axles, load) in [(2, 243e3 / 12.9), (3, 243e3 / 20.7), (4, 243e3 / 29.4)] {
        for travel in [0.0, 0.06] {
            let stance = level(&Trailer { travel, ..trailer(axles) });
            for found in si(&stance.axle_loads) {
                assert_abs_diff_eq!(found, load, epsilon = EXACT * 45e3);
            }
            assert_abs_diff_eq!(
                stance.tongue_weight.si(),
                45e3 - axles as f64 * load,
                epsilon = EXACT * 45e3
            );
        }
    }
}

#[test]
fn equalizers_share_equally_between_unequal_springs() {
    let mut unequal = trailer(3);
    unequal.axles[1].suspension = 600e3;
    unequal.axles[2].tires = 400e3;
    let stance = level(&unequal);
    for found in si(&stance.axle_loads) {
        assert_abs_diff_eq!(found, 243e3 / 20.7, epsilon = EXACT * 45e3);
    }
    // c = S (1/k_s + 1/k_t) with S = 11.739130 kN: 46.956522, 37.173913 and 58.695652 mm; their
    // mean 47.608696 mm is d. q = 2 Σ (d − c): q_1 = 1.304348 mm, q_2 = q_1 + 20.869565 = 22.173913 mm.
    let found = si(&stance.equalizers);
    for (found, expected) in found.iter().zip([1.304_347_826e-3, 22.173_913_043e-3, 0.0]) {
        // Ten digits written; a micrometre's millionth is far below any term's size.
        assert_abs_diff_eq!(*found, expected, epsilon = 1e-12);
    }
}

#[test]
fn without_equalizers_springs_share_by_their_rates() {
    let mut unequal = Trailer { travel: 0.0, ..trailer(2) };
    unequal.axles[1].suspension = 1000e3;
    let stance = level(&unequal);
    // k_2 = 1/(1/1000 + 3/2000) = 400 kN/m; d = W xc / Σ k x = 243/(250·6 + 400·6.9) = 243/4260 m.
    for (found, rate) in si(&stance.axle_loads).into_iter().zip([250e3, 400e3]) {
        assert_abs_diff_eq!(found, rate * 243.0 / 4260.0, epsilon = EXACT * 45e3);
    }
}

#[test]
fn a_raised_ball_shifts_load_aft_in_proportion() {
    let trailer = Trailer { travel: 0.0, ..trailer(3) };
    let k = 250e3;
    let stations = [6.0, 6.9, 7.8];
    let sum = |of: fn(f64) -> f64| stations.into_iter().map(of).sum::<f64>();
    // δ = W xc / (k Σ x) = 243/(250 · 20.7) = 46.956522 mm, ℓ = 0.5 − 0.36 = 0.14 m
    let (delta, l) = (243e3 / (k * sum(|x| x)), 0.14);
    // The limit's error at a rise Δ, as shares of the pitch and of the load shifted.
    let errors = |rise: f64| {
        // φ = k Δ Σx / (k Σx² − W zc − Σ δ k ℓ)
        let pitch =
            k * rise * sum(|x| x) / (k * sum(|x| x * x) - trailer.weight * trailer.zc - 3.0 * delta * k * l);
        let stance = trailer.settle_level(trailer.ball_height + rise).expect("a trailer at rest");
        let mut worst = (stance.pitch.si() - pitch).abs() / pitch.abs();
        for (found, x) in si(&stance.axle_loads).into_iter().zip(stations) {
            // N_i = k (δ + x_i φ − Δ)
            worst = worst.max((found - k * (delta + x * pitch - rise)).abs() / (k * rise.abs()));
        }
        worst
    };
    for rise in [1e-3, -1e-3] {
        let coarse = errors(rise);
        // The first terms left out are Δ² terms: ℓ φ / x ≈ (0.14 · Δ/7)/7 of the pitch, W zc φ of
        // the moment and k δ φ² of a load. At 1 mm all are below 1e-4 of the shift.
        assert!(coarse < 1e-4, "{coarse} at {rise}");
        // A relative error of first order falls tenfold with Δ. At 0.1 mm the rounding of a 1e-12
        // moment is 1e-8 of it; the next order changes the ratio by less than a hundredth.
        let ratio = coarse / errors(rise / 10.0);
        assert!((ratio - 10.0).abs() < 0.1, "{ratio} at {rise}");
    }
}

#[test]
fn a_uniform_grade_shifts_weight_through_its_height() {
    for (slope, nose_up) in [(-0.15_f64, true), (0.15, false), (-0.3, true), (0.3, false)] {
        let mut loaded = trailer(3);
        let grade = slope.abs();
        let (sin, cos) = grade.sin_cos();
        // N = W cos β (xc ± zc tan β) / Σ x, plus nose up. At 0.15 rad nose up:
        // 45 · 0.988771 · (5.4 + 0.8 · 0.151135)/20.7 = 11.8673 kN.
        let lever = cos * (loaded.xc + if nose_up { 1.0 } else { -1.0 } * loaded.zc * grade.tan());
        let load = loaded.weight * lever / 20.7;
        // The frame stays parallel to the ground where its springs give as much as when it was
        // measured: so measure it under a load that presses them as this one does.
        loaded.level_xc = lever;
        // The ball stands its level height off the grade, along the grade's normal.
        let ball = (-loaded.ball_height * slope.sin(), loaded.ball_height * slope.cos());
        let stance = loaded.settle(ball, &Ground::grade(slope)).expect("a trailer at rest on a grade");
        assert_abs_diff_eq!(stance.pitch.si(), -slope, epsilon = 1e-12);
        for found in si(&stance.axle_loads) {
            assert_abs_diff_eq!(found, load, epsilon = EXACT * 45e3);
        }
        // Three equal forces along the grade's normal: V = W − 3 N cos β, and nose up the trailer
        // pulls aft with 3 N sin β.
        let pull = 3.0 * load * if nose_up { sin } else { -sin };
        assert_abs_diff_eq!(
            stance.tongue_weight.si(),
            loaded.weight - 3.0 * load * cos,
            epsilon = EXACT * 45e3
        );
        assert_abs_diff_eq!(stance.pull.si(), pull, epsilon = EXACT * 45e3);
    }
}

#[test]
fn stiff_springs_with_the_rear_axle_lifted_share_as_one_axle_fewer() {
    // The error of form 2 over the axles left, as a share of the weight.
    let error = |stiffening: f64| {
        let stiff = trailer(3).with_rates(stiffening);
        let lifted = stiff.wheels().without_rear_axle();
        let stance = settle(
            stiff.body(),
            &lifted,
            point((0.0, stiff.ball_height)),
            &Terrain::level(),
            Angle::from_si(0.0),
        )
        .expect("two axles that carry it");
        assert_eq!(stance.axle_loads.len(), 2);
        // N = W xc / (x_1 + x_2) = 243/12.9 = 18.837209 kN; V = 45 − 37.674419 = 7.325581 kN
        let load = 243e3 / 12.9;
        let loads = si(&stance.axle_loads).into_iter().map(|found| found - load);
        let tongue = stance.tongue_weight.si() - (45e3 - 2.0 * load);
        greatest(loads.chain([tongue])) / 45e3
    };
    // Springs give S/k = 18.8 kN / 250 MN/m = 75 µm, 28 µm more than measured: the frame pitches by
    // 4 µrad, and the weight's height moves its lever by 0.8 · 4e-6 of 5.4 m.
    let coarse = error(1e3);
    assert!(coarse < 1e-6, "{coarse}");
    // Nothing but the give is wrong, so ten times the rate leaves a tenth of the error.
    let ratio = coarse / error(1e4);
    assert!((ratio - 10.0).abs() < 0.1, "{ratio}");
}
