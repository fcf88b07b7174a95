//! A traverse as comma-separated values: one line a position, numbers unrounded.
//!
//! Every field is a number or empty, so nothing needs quoting.

use crate::fit::Moment;
use crate::quantity::Quantity;
use crate::quantity::show::UnitSystem;

/// The line that names the columns.
pub fn header(axles: usize, units: UnitSystem) -> String {
    let (weight, length) = (units.weight_unit(), units.length_unit());
    let mut columns = vec![format!("position_{length}")];
    columns.extend((1..=axles).map(|axle| format!("axle_{axle}_{weight}")));
    columns.extend([format!("tongue_weight_{weight}"), format!("pull_{weight}")]);
    columns.extend(["drive_friction".to_string(), "parked_friction".to_string()]);
    columns.push(format!("least_clearance_{length}"));
    columns.push("steady_friction".to_string());
    columns.join(",") + "\n"
}

/// The line of one position; an axle that holds nothing leaves its friction empty.
pub fn line(moment: &Moment<'_>, units: UnitSystem) -> String {
    let stance = &moment.instant.stance;
    let number = |number: f64| number.to_string();
    let mut fields = vec![number(units.length_number(moment.instant.position))];
    fields.extend(stance.axle_loads.iter().map(|load| number(units.weight_number(*load))));
    fields.push(number(units.weight_number(stance.tongue_weight)));
    fields.push(number(units.weight_number(stance.pull)));
    let [drive, parked, steady] = [moment.drive, moment.parked, moment.steady].map(|hold| {
        let friction = hold.and_then(|hold| hold.friction);
        friction.map(|friction| number(friction.si())).unwrap_or_default()
    });
    fields.extend([drive, parked]);
    let clearance = moment.least_clearance();
    fields.push(clearance.map(|clearance| number(units.length_number(clearance))).unwrap_or_default());
    fields.push(steady);
    fields.join(",") + "\n"
}
