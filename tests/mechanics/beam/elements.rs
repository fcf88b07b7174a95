//! The beam by finite elements: cubic between nodes, loads turned into the forces and moments of their work.
//!
//! Such elements are exact at their nodes for a beam of one stiffness, so what differs from the library's
//! answer there is rounding.

use bunkline::mechanics::bunks::beam::Beam;
use bunkline::quantity::{Quantity, Rate};

/// Elements along the beam: two for every step of the random beams.
pub const ELEMENTS: usize = 2 * crate::beam::beams::STEPS;

/// Coupled displacements lie at most this far apart in the list of all.
const BAND: usize = 3;

/// State at every node.
pub struct Nodes {
    pub deflection: Vec<f64>,
    /// Moment, sagging positive.
    pub moment: Vec<f64>,
    /// Shear right of every node but the last, which has it on its left.
    pub shear: Vec<f64>,
    /// Reactions of the supports of the set, up positive.
    pub reactions: Vec<f64>,
}

/// Stiffness of an element for deflection and slope at its start and its end.
fn stiffness(ei: f64, h: f64) -> [[f64; 4]; 4] {
    let k = ei / (h * h * h);
    let rows = [
        [12.0, 6.0 * h, -12.0, 6.0 * h],
        [6.0 * h, 4.0 * h * h, -6.0 * h, 2.0 * h * h],
        [-12.0, -6.0 * h, 12.0, -6.0 * h],
        [6.0 * h, 2.0 * h * h, -6.0 * h, 4.0 * h * h],
    ];
    rows.map(|row| row.map(|term| k * term))
}

/// Forces and moments of a linear load on an element.
fn work(a: f64, b: f64, h: f64) -> [f64; 4] {
    [
        h * (7.0 * a + 3.0 * b) / 20.0,
        h * h * (3.0 * a + 2.0 * b) / 60.0,
        h * (3.0 * a + 7.0 * b) / 20.0,
        -h * h * (2.0 * a + 3.0 * b) / 60.0,
    ]
}

/// The node at a station.
pub fn node_at(beam: &Beam, x: f64) -> usize {
    let place = x / beam.length.si() * ELEMENTS as f64;
    (0..ELEMENTS).find(|node| *node as f64 > place - 0.5).unwrap_or(ELEMENTS)
}

/// The beam on the supports of a set, holding both ways. Supports and ends of loads must lie on nodes.
pub fn solve(beam: &Beam, set: &[usize]) -> Nodes {
    let (length, ei) = (beam.length.si(), beam.stiffness.0);
    let h = length / ELEMENTS as f64;
    let size = 2 * (ELEMENTS + 1);
    let node_of = |x: f64| node_at(beam, x);
    let loads: Vec<[f64; 4]> = (0..ELEMENTS)
        .map(|element| {
            let (mut a, mut b) = (0.0, 0.0);
            for load in &beam.loads {
                let (from, to) = (node_of(load.from.si()), node_of(load.to.si()));
                if from <= element && element < to {
                    let at = |node: usize| {
                        let share = (node - from) as f64 / (to - from) as f64;
                        load.at_from.si() + share * (load.at_to.si() - load.at_from.si())
                    };
                    a += at(element);
                    b += at(element + 1);
                }
            }
            work(a, b, h)
        })
        .collect();

    let element = stiffness(ei, h);
    // Row i holds columns i to i + BAND.
    let mut matrix = vec![[0.0; BAND + 1]; size];
    let mut right = vec![0.0; size];
    for (number, load) in loads.iter().enumerate() {
        for i in 0..4 {
            right[2 * number + i] += load[i];
            for j in i..4 {
                matrix[2 * number + i][j - i] += element[i][j];
            }
        }
    }
    for i in set {
        let support = &beam.supports[*i];
        let place = 2 * node_of(support.station.si());
        if let Some(rate) = support.rate {
            matrix[place][0] += rate.si();
            right[place] += rate.si() * support.settlement.si();
        } else {
            // Known displacements go to the right-hand side.
            for offset in 1..=BAND {
                if place >= offset {
                    right[place - offset] -= matrix[place - offset][offset] * support.settlement.si();
                    matrix[place - offset][offset] = 0.0;
                }
                if place + offset < size {
                    right[place + offset] -= matrix[place][offset] * support.settlement.si();
                    matrix[place][offset] = 0.0;
                }
            }
            right[place] = matrix[place][0] * support.settlement.si();
        }
    }
    let moved = eliminate(matrix, right);

    let ends = |number: usize| {
        let own = &moved[2 * number..2 * number + 4];
        [0, 1, 2, 3].map(|i| (0..4).map(|j| element[i][j] * own[j]).sum::<f64>() - loads[number][i])
    };
    let (mut moment, mut shear) = (Vec::new(), Vec::new());
    for number in 0..ELEMENTS {
        let force = ends(number);
        // The end force is what the rest does to the element, down and clockwise positive.
        shear.push(-force[0]);
        moment.push(force[1]);
    }
    let last = ends(ELEMENTS - 1);
    shear.push(last[2]);
    moment.push(-last[3]);
    let reactions = set.iter().map(|i| {
        let support = &beam.supports[*i];
        let node = node_of(support.station.si());
        if let Some(rate) = support.rate.map(Rate::si) {
            rate * (moved[2 * node] - support.settlement.si())
        } else {
            let left = if node > 0 { ends(node - 1)[2] } else { 0.0 };
            let right = if node < ELEMENTS { ends(node)[0] } else { 0.0 };
            -left - right
        }
    });
    Nodes {
        reactions: reactions.collect(),
        deflection: moved.iter().copied().step_by(2).collect(),
        moment,
        shear,
    }
}

/// Solves a symmetric, positive definite, banded set of equations.
fn eliminate(mut matrix: Vec<[f64; BAND + 1]>, mut right: Vec<f64>) -> Vec<f64> {
    let size = right.len();
    for i in 0..size {
        let row = matrix[i];
        for offset in 1..=BAND.min(size - 1 - i) {
            let factor = row[offset] / row[0];
            for further in offset..=BAND {
                if i + further < size {
                    matrix[i + offset][further - offset] -= factor * row[further];
                }
            }
            right[i + offset] -= factor * right[i];
        }
    }
    for i in (0..size).rev() {
        let known: f64 = (1..=BAND.min(size - 1 - i)).map(|k| matrix[i][k] * right[i + k]).sum();
        right[i] = (right[i] - known) / matrix[i][0];
    }
    right
}
