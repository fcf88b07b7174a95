//! What a rig file states for information only.

use super::inputs::{INPUTS, Role, Slot, keys};
use super::{Key, Rig};
use crate::quantity::Uncertain;
use crate::quantity::show::{UnitSystem, written};

impl Rig {
    /// Every stated key that no check reads, with its value as a rig file would state it, in the table's order.
    ///
    /// ```
    /// use bunkline::{Rig, quantity::show::UnitSystem};
    ///
    /// let rig = Rig::parse("format = 1\ntow.name = \"van\"\n[[trailer.axles]]\nstation = \"17 ft 4 in\"")?;
    /// let (key, value) = &rig.informational(UnitSystem::Us)[0];
    /// assert_eq!((key.to_string().as_str(), value.as_str()), ("tow.name", "van"));
    /// # Ok::<(), bunkline::rig::Problems>(())
    /// ```
    pub fn informational(&self, units: UnitSystem) -> Vec<(Key, String)> {
        // The table reaches a field to change it.
        let mut setup = self.proposed.clone();
        let rows = INPUTS.iter().filter(|input| input.role == Role::Informational);
        // A list without elements has no such keys.
        let stated =
            rows.flat_map(|input| keys(&input.path.replace('*', "all"), &self.proposed).unwrap_or_default());
        let mut value = |key: Key| {
            let input = key.input()?;
            match input.slot(&mut setup, key.at) {
                Slot::Quantity(field) => {
                    let bound = self
                        .uncertain
                        .iter()
                        .find(|(other, _)| *other == key)
                        .map_or(0.0, |(_, bound)| *bound);
                    Some(written(Uncertain { value: field.si()?, bound }, input.kind()?, units))
                }
                Slot::Text(text) => text.clone(),
                Slot::Flag(flag) => flag.map(|flag| flag.to_string()),
                Slot::Choice(choice) => choice.chosen().map(str::to_string),
                _ => None,
            }
        };
        stated.filter_map(|key| Some((key, value(key)?))).collect()
    }
}
