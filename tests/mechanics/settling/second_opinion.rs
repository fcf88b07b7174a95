//! Settling by other methods than the library's.
//!
//! * The rest is where the energy of weight and springs is least: golden section over the pitch,
//!   over-relaxed descent over the equalizers at each pitch, no derivative with respect to pitch.
//! * At the library's own pitch the springs' forces are those of a convex program, put to a solver.
//!
//! Hub lines, spring laws and reactions are those of this test.

use crate::settling::energy::Energy;
use crate::settling::positions::{any_position, any_position_in_a_sag};
use crate::settling::statics::{disagreement, reactions, reactions_sharing};
use crate::settling::trailers::{Axle, Trailer, cases, si};
use bunkline::quantity::Quantity;
use clarabel::algebra::CscMatrix;
use clarabel::solver::{
    DefaultSettingsBuilder, DefaultSolver, IPSolver, NonnegativeConeT, SolverStatus, SupportedConeT,
};
use proptest::prelude::*;

/// As a share of the weight. Golden section finds a pitch only to the square root of the energy's
/// last digit, `√(2 ε E k)`, which is 1e-7 of the weight.
const AGREEMENT: f64 = 1e-6;

/// The solver's gap. The program's curvature is near one in its units, so forces are off by the root
/// of this at the worst.
const GAP: f64 = 1e-13;

/// Spring forces as a convex program with the frame held at a pitch.
///
/// Its unknowns are the forces themselves: of all forces `S ≥ 0`, the springs carry those of least
/// complementary energy `Σ (V_i(S_i) − d_i S_i) + (q_max / 2) Σ |S_j − S_{j+1}|`, the last sum being
/// what stopped equalizers take up. `V = a² / 2k + c_b b + b² / 2k_b` for `S = a + b`, the
/// part `a ≤ F_b` short of the bump at compression `c_b` and the part `b` past it; `t_j ≥ |S_j − S_{j+1}|`.
fn forces_of_program(trailer: &Trailer, available: &[f64]) -> Vec<f64> {
    let n = available.len();
    // Units in which forces and compressions are near one.
    let force = trailer.weight / n as f64;
    let length = trailer.weight / trailer.axles.iter().map(Axle::rate).sum::<f64>();
    let (short, past, unequal) = (|i: usize| i, |i: usize| n + i, |j: usize| 2 * n + j);
    let unknowns = 3 * n - 1;
    let mut diagonal = vec![0.0; unknowns];
    let mut linear = vec![0.0; unknowns];
    // Rows `coefficients · unknowns ≤ bound`.
    let mut rows: Vec<(Vec<(usize, f64)>, f64)> = Vec::new();
    for (i, axle) in trailer.axles.iter().enumerate() {
        diagonal[short(i)] = force / axle.rate() / length;
        diagonal[past(i)] = force / axle.bumped_rate() / length;
        linear[short(i)] = -available[i] / length;
        linear[past(i)] = (axle.bump_compression() - available[i]) / length;
        rows.push((vec![(short(i), -1.0)], 0.0));
        rows.push((vec![(short(i), 1.0)], axle.force(axle.bump_compression()) / force));
        rows.push((vec![(past(i), -1.0)], 0.0));
    }
    for j in 0..n - 1 {
        linear[unequal(j)] = trailer.travel / 2.0 / length;
        for sign in [1.0, -1.0] {
            let difference = [(short(j), sign), (past(j), sign), (short(j + 1), -sign), (past(j + 1), -sign)];
            rows.push((difference.into_iter().chain([(unequal(j), -1.0)]).collect(), 0.0));
        }
    }
    let (mut at_row, mut at_column, mut coefficient) = (vec![], vec![], vec![]);
    for (row, (entries, _)) in rows.iter().enumerate() {
        for (column, value) in entries {
            at_row.push(row);
            at_column.push(*column);
            coefficient.push(*value);
        }
    }
    let every: Vec<usize> = (0..unknowns).collect();
    let objective = CscMatrix::new_from_triplets(unknowns, unknowns, every.clone(), every, diagonal);
    let constraints = CscMatrix::new_from_triplets(rows.len(), unknowns, at_row, at_column, coefficient);
    let bounds: Vec<f64> = rows.iter().map(|(_, bound)| *bound).collect();
    let cones: [SupportedConeT<f64>; 1] = [NonnegativeConeT(rows.len())];
    let settings = DefaultSettingsBuilder::default()
        .verbose(false)
        .tol_gap_abs(GAP)
        .tol_gap_rel(GAP)
        .tol_feas(GAP)
        .build()
        .expect("settings of the solver");
    let mut solver = DefaultSolver::new(&objective, &linear, &constraints, &bounds, &cones, settings)
        .expect("a program of matching sizes");
    solver.solve();
    // Almost to its own tolerance will do if the comparison's is met.
    let status = solver.solution.status;
    assert!(matches!(status, SolverStatus::Solved | SolverStatus::AlmostSolved), "{status:?}");
    let found = &solver.solution.x;
    (0..n).map(|i| (found[short(i)] + found[past(i)]) * force).collect()
}

proptest! {
    #![proptest_config(cases(2000))]

    #[test]
    fn rest_is_where_energy_is_least(position in any_position()) {
        let stance = position.settle().expect("a trailer at rest");
        let pitch = stance.pitch.si();
        let mut energy = Energy::new(&position, pitch);
        // Uneven ends, so that the library's pitch is no point that golden section would try. Where
        // the energy has another low it is not this near; this is the nearest one.
        let least = energy.least_between(pitch - 0.013, pitch + 0.021);
        let held = energy.held_at(least);
        let trailer = &position.trailer;
        let expected = reactions(trailer, &held.hubs, least, &held.forces(trailer));
        let off = disagreement(&stance, &expected, trailer.weight);
        prop_assert!(off < AGREEMENT, "{off}: {stance:?} against {expected:?} at {least}");
    }

    #[test]
    fn springs_carry_what_a_convex_program_says(position in any_position()) {
        let stance = position.settle().expect("a trailer at rest");
        let trailer = &position.trailer;
        let held = Energy::new(&position, stance.pitch.si()).held_at(stance.pitch.si());
        let springs = forces_of_program(trailer, &held.available);
        for (found, expected) in si(&stance.spring_forces).into_iter().zip(&springs) {
            let off = (found - expected).abs() / trailer.weight;
            prop_assert!(off < AGREEMENT, "{off}: {stance:?} against {springs:?}");
        }
    }

    /// The rest was chosen first, a wheel leaning on both feet of a sag, and the weight put where it
    /// rests so.
    #[test]
    fn a_wheel_in_a_sag_leans_on_both_feet((position, rest) in any_position_in_a_sag()) {
        let stance = position.settle().expect("a trailer at rest");
        let held = Energy::new(&position, rest.pitch).held_at(rest.pitch);
        let trailer = &position.trailer;
        let expected = reactions_sharing(trailer, &held.hubs, rest.pitch, &held.forces(trailer), rest.share);
        // The pitch bracket's width.
        prop_assert!((stance.pitch.si() - rest.pitch).abs() < 1e-11, "{stance:?} for {rest:?}");
        let off = disagreement(&stance, &expected, trailer.weight);
        prop_assert!(off < AGREEMENT, "{off}: {stance:?} against {expected:?}");
    }
}
