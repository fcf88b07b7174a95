//! Stated values outside what is plausible of their keys.

use super::rows::{Input, List, Role};
use super::{BOAT_WEIGHTS_WEIGHT, INPUTS, Key, TRAILER_CAPACITY, TRAILER_WEIGHT, list_at};
use crate::quantity::Quantity;
use crate::rig::setup::Setup;
use std::sync::LazyLock;

/// A stated value of which a digit or a unit is more likely wrong than right.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Implausible {
    /// Its key.
    pub key: Key,
    /// The value in SI.
    pub value: f64,
    /// The least and the greatest plausible value in SI.
    pub range: (f64, f64),
}

impl Implausible {
    /// Whether it is off by so much that a digit or a unit must be wrong: twice the greatest plausible value, or half the least.
    pub(in crate::rig) fn is_far_off(&self) -> bool {
        let (least, most) = self.range;
        let lowest = if least > 0.0 { least / 2.0 } else { 2.0 * least };
        self.value > 2.0 * most || self.value < lowest
    }

    /// The plausible value that is nearest.
    pub fn nearest(&self) -> f64 {
        self.value.clamp(self.range.0, self.range.1)
    }
}

/// A row, its plausible range, and the lists that it stands in.
type Ranged = (&'static Input, (f64, f64), [Option<&'static List>; 2]);

/// The rows that have a plausible range and that checks read.
static RANGED: LazyLock<Vec<Ranged>> = LazyLock::new(|| {
    let ranged = INPUTS.iter().filter(|input| input.role != Role::Informational);
    let with_lists = |input: &&'static Input| {
        let mut lists = input.path.match_indices(".*").filter_map(|(end, _)| list_at(&input.path[..end]));
        Some((*input, input.plausible?, [lists.next(), lists.next()]))
    };
    ranged.filter_map(with_lists).collect()
});

/// An empty trailer weighs this share of its GVWR at least. Common practice, no source: 15 to 35 % is usual.
const LIGHTEST_TRAILER: f64 = 0.08;

/// A boat weighs this share of its empty trailer at least. Common practice, no source: most weigh more than it.
const LIGHTEST_BOAT: f64 = 0.1;

/// Whether a value lies outside a range by more than the rounding of its unit.
fn is_outside(value: f64, (least, most): (f64, f64)) -> bool {
    let rounding = 1e-9 * (most - least);
    value < least - rounding || value > most + rounding
}

impl Setup {
    /// Every stated value that is not plausible, in the order of the table of inputs.
    pub fn implausible(&self) -> Vec<Implausible> {
        let mut found = Vec::new();
        let count = |list: Option<&List>, at| list.map_or(1, |list| (list.count)(self, at));
        for (input, range, [outer, inner]) in RANGED.iter() {
            for i in 0..count(*outer, [0, 0]) {
                for j in 0..count(*inner, [i, 0]) {
                    let key = Key { path: input.path, at: [i, j] };
                    let Some(value) = input.si(self, key.at) else { continue };
                    if is_outside(value, *range) && !self.is_assumed(key) {
                        found.push(Implausible { key, value, range: *range });
                    }
                }
            }
        }
        found.extend(self.implausible_capacity());
        found.extend(self.implausible_boat());
        found
    }

    /// The heaviest of a list of weights that is no boat's: it weighs next to nothing beside its trailer.
    fn implausible_boat(&self) -> Option<Implausible> {
        let trailer = self.trailer.weight?.si();
        let (_, most) = BOAT_WEIGHTS_WEIGHT.input().plausible?;
        let weights: Option<Vec<f64>> =
            self.boat.weights.iter().map(|item| item.weight.map(Quantity::si)).collect();
        let (heaviest, value) =
            weights.as_ref()?.iter().copied().enumerate().max_by(|a, b| a.1.total_cmp(&b.1))?;
        let others = weights?.iter().sum::<f64>() - value;
        let range = (LIGHTEST_BOAT * trailer - others, most);
        (value < range.0).then_some(Implausible { key: BOAT_WEIGHTS_WEIGHT.of(heaviest), value, range })
    }

    /// A capacity that leaves hardly anything, or far too much, of the GVWR for the trailer itself.
    fn implausible_capacity(&self) -> Option<Implausible> {
        let (gvwr, capacity) = (self.trailer.gvwr?.si(), self.trailer.capacity?.si());
        let (least, most) = TRAILER_WEIGHT.input().plausible?;
        let range = (gvwr - most, gvwr - least.max(LIGHTEST_TRAILER * gvwr));
        is_outside(capacity, range).then_some(Implausible {
            key: TRAILER_CAPACITY.key(),
            value: capacity,
            range,
        })
    }
}
