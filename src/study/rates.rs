//! The same rig on softer or stiffer springs, tires and hitch: their rates are rarely known well.

use crate::rig::{Problems, Rig, Variable, Varied};

/// The rig with its springs, its tires and its hitch so many times as stiff as the file states or the defaults take them.
///
/// A rate is changed by the keys that make it: a spring's by its deflection at rating, a tire's and the hitch's by their
/// own. So a suspension bottoms under the same force where its bump is assumed, and at the same deflection where the
/// file states the bump. What the file leaves unknown stays unknown.
///
/// # Errors
/// [`Problems`] where such a rate breaks a rule of the file.
pub fn at_rates(rig: &Rig, times: f64) -> Result<Rig, Problems> {
    let mut changes: Vec<(Variable, f64)> = Vec::new();
    let mut change = |path: &str, factor: f64| {
        let Ok(variable) = rig.variable(path) else { return };
        if let Some(value) = rig.value(&variable) {
            changes.push((variable, value * factor));
        }
    };
    change("trailer.suspension.deflection_at_rating", 1.0 / times);
    for axle in 1..=rig.proposed().trailer.axles.len() {
        change(&format!("trailer.axles.{axle}.tires.rate"), times);
    }
    change("tow.hitch_rate", times);
    let changes: Vec<(&Variable, f64)> = changes.iter().map(|(variable, value)| (variable, *value)).collect();
    Varied::new(rig).with(&changes).cloned()
}
