//! A rig with something else at one key: what then differs depends on the key.

use super::{Change, Origin, Verb};
use crate::rig::Rig;
use crate::rig::inputs::{Input, Key, Slot, keys};
use crate::rig::read::bounds;

/// By how much a quantity is multiplied: a little, so that no rule is broken, and much, so that what it decides shows.
/// The first of them show most.
const FACTORS: [f64; 6] = [1.01, 0.5, 2.0, 0.99, 0.1, 10.0];
/// What stands for a quantity of zero, in SI: a few inches, a few percent.
const INSTEAD_OF_ZERO: [f64; 2] = [0.05, -0.05];

impl Rig {
    /// The keys of a row of the table in the lists that the rig has.
    pub fn keys(&self, input: &Input) -> Vec<Key> {
        keys(&input.path.replace('*', "all"), &self.measured).unwrap_or_default()
    }

    /// The rig with other values in its file at one key, and with none. Values that break a rule are left out.
    ///
    /// ```
    /// use bunkline::rig::{Rig, inputs::TRAILER_GVWR};
    ///
    /// let text = "format = 1\ntrailer.gvwr = \"8000 lb\"\n[[trailer.axles]]\nstation = \"17 ft\"";
    /// let others = Rig::parse(text)?.measured_otherwise(TRAILER_GVWR.key());
    /// assert!(others.iter().any(|rig| TRAILER_GVWR.get(rig.measured()).is_none()));
    /// # Ok::<(), bunkline::rig::Problems>(())
    /// ```
    pub fn measured_otherwise(&self, key: Key) -> Vec<Self> {
        let Some(input) = key.input() else { return Vec::new() };
        let quantities = self.quantities(key);
        let made = |other: usize| {
            let mut origin = Origin::clone(&self.origin);
            let setup = &mut origin.draft.setup;
            // How far something is moved is kept apart from what was measured.
            std::mem::swap(&mut setup.shift, &mut origin.shift);
            let is_other = put(input.slot(setup, key.at), &quantities, other);
            std::mem::swap(&mut setup.shift, &mut origin.shift);
            is_other.then(|| origin.rig(Vec::new()).ok())
        };
        (0..).map_while(made).flatten().collect()
    }

    /// The rig with other values proposed at one key of a quantity. Values that break a rule are left out.
    pub fn proposed_otherwise(&self, key: Key) -> Vec<Self> {
        let made = |si: f64| {
            let mut origin = Origin::clone(&self.origin);
            origin.make(Change { key, verb: Verb::Set(si), text: None });
            origin.rig(Vec::new()).ok()
        };
        self.quantities(key).into_iter().filter_map(made).collect()
    }

    /// Other values in SI than a quantity's own.
    fn quantities(&self, key: Key) -> Vec<f64> {
        let Some((input, kind)) = key.input().and_then(|input| Some((input, input.kind()?))) else {
            return Vec::new();
        };
        let (least, most) = bounds(input, kind);
        let others = match input.si(&self.proposed, key.at) {
            None => Vec::new(),
            Some(0.0) => INSTEAD_OF_ZERO.to_vec(),
            Some(si) => FACTORS.map(|factor| factor * si).to_vec(),
        };
        others.into_iter().map(|other| other.clamp(least, most)).collect()
    }
}

/// Puts one of the other values into a field, the first being none; false where there are no more.
fn put(mut slot: Slot<'_>, quantities: &[f64], other: usize) -> bool {
    let Some(next) = other.checked_sub(1) else {
        slot.clear();
        return true;
    };
    match &mut slot {
        Slot::Quantity(field) => {
            let other = quantities.get(next).copied();
            field.put(other);
            return other.is_some();
        }
        Slot::Choice(choice) => return choice.words().get(next).is_some_and(|word| choice.choose(word)),
        Slot::Flag(flag) => **flag = flag.map(|flag| !flag),
        Slot::Count(count) => **count = count.map(|count| 2 * count),
        Slot::Factor(factor) => **factor = factor.map(|factor| 2.0 * factor),
        Slot::Text(_) | Slot::Id(_) | Slot::Reach(_) | Slot::Checks(_) | Slot::Parts(_) => return false,
    }
    next == 0
}
