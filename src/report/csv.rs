//! Traverses, launches and comparisons as comma-separated values: one line a position, an event or a rig, numbers unrounded,
//! and no text that a spreadsheet would take for a formula.

use super::check::named;
use super::{Subject, words};
use crate::fit::{Event, Group, Known, Moment, Row};
use crate::quantity::show::{UnitSystem, plain};
use crate::quantity::{Length, Quantity};
use crate::rig::slug;
use crate::study::compare::Compared;
use crate::study::launch::Launching;

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

/// Launching on every ramp in every case, a line an event. Names are quoted, as they may hold anything.
///
/// The last columns are the least and the greatest depth at the rear wheels by all that is uncertain, empty where nothing
/// is and in cases that are not the hardest of their ramp, and whether the line is an estimate, for want of keys.
pub fn launches(subject: &Subject<'_>, launching: &Launching) -> String {
    let units = subject.units;
    let (weight, length) = (units.weight_unit(), units.length_unit());
    let lengths = [
        "past_edge",
        "wheel_depth",
        "tow_tire_depth",
        "guides_dry",
        "tailpipe_dry",
        "lamps_dry",
        "skipper_depth",
    ];
    let mut columns = vec!["ramp".to_string(), "case".to_string(), "event".to_string()];
    columns.extend(lengths.map(|name| format!("{name}_{length}")));
    columns.extend([format!("on_trailer_{weight}"), format!("tongue_weight_{weight}")]);
    columns.extend(["low", "high"].map(|end| format!("wheel_depth_{end}_{length}")));
    columns.push("estimate".to_string());
    let mut out = columns.join(",") + "\n";
    let estimated = launching.is_estimate();
    for (loads, marks) in launching.launches.iter().zip(&launching.marks) {
        let Ok(launch) = loads.found() else { continue };
        let names = [words::ramp(subject.rig, loads.ramp), words::case(subject.rig, loads.case)].map(quoted);
        for (event, spot) in &launch.events {
            let number = |length: Length| units.length_number(length).to_string();
            let known = |length: &Known<Length>| length.clone().map(number).unwrap_or_default();
            let mut fields = names.to_vec();
            fields.push(event_name(*event).to_string());
            fields.extend([spot.along, spot.wheel_depth, spot.tow_tire].map(number));
            fields.extend([&spot.guides, &spot.tailpipe, &spot.lamps, &spot.skipper].map(known));
            fields.extend([spot.carried, spot.tongue].map(|load| units.weight_number(load).to_string()));
            let ends = marks.as_ref().and_then(|marks| marks.between(|launch| launch.at(*event)));
            let end = |at: usize| ends.map(|ends| number(ends[at].wheel_depth)).unwrap_or_default();
            fields.extend([end(0), end(1), estimated.to_string()]);
            out += &(fields.join(",") + "\n");
        }
    }
    out
}

/// Rigs side by side, a line each, the best first: what it takes to make each fit, and for each group of checks the one that
/// governs, how much of its limit is used, and its verdict.
pub fn compared(compared: &Compared, units: UnitSystem) -> String {
    let groups: Vec<Group> = compared.groups().collect();
    let fixed = ["rank", "rig", "title", "verdict", "still_fails", "beyond_travel"].map(String::from);
    let mut columns = fixed.to_vec();
    columns.push(format!("ashore_{}", units.weight_unit()));
    columns.extend(["wood", "parts", "moves", "advise_or_unsure"].map(String::from));
    for group in &groups {
        let name = slug(named(*group)).replace('-', "_");
        columns.extend(["check", "used", "verdict"].map(|of| format!("{name}_{of}")));
    }
    let mut out = columns.join(",") + "\n";
    for (at, choice) in compared.choices.iter().enumerate() {
        let cost = choice.cost();
        let title = choice.rig.proposed().title.as_deref().unwrap_or_default();
        let mut fields = vec![(at + 1).to_string(), quoted(&choice.name), quoted(title)];
        fields.push(words::rig_verdict(choice.found.verdict).to_string());
        fields.extend([cost.fails, cost.beyond].map(|count| count.to_string()));
        fields.push(units.weight_number(cost.ashore).to_string());
        fields.extend([cost.wood, cost.parts, cost.moves, cost.doubts].map(|count| count.to_string()));
        for group in &groups {
            let row = choice.governing(*group);
            let used = row.and_then(|row| row.used).map(|used| used.si().to_string());
            // Ids and verdicts are letters, digits and hyphens, and begin with a letter.
            fields.extend([row.map(Row::id), used].map(Option::unwrap_or_default));
            fields.push(row.map(|row| words::verdict(row.verdict)).unwrap_or_default().to_string());
        }
        out += &(fields.join(",") + "\n");
    }
    out
}

fn quoted(name: &str) -> String {
    format!("\"{}\"", as_text(name).replace('"', "\"\""))
}

/// A text as a spreadsheet may have it: what it would take for a formula, a text that begins with =, +, - or @, has an
/// apostrophe before it, and what is not seen is written out, so that a field is a line's and a name cannot hide.
pub(super) fn as_text(text: &str) -> String {
    let apostrophe = if text.starts_with(['=', '+', '-', '@', '\t', '\r']) { "'" } else { "" };
    format!("{apostrophe}{}", plain(text))
}

/// An event as columns and JSON spell it.
pub(super) fn event_name(event: Event) -> &'static str {
    match event {
        Event::HubsWet => "hubs-wet",
        Event::SternLifts => "stern-lifts",
        Event::BowLifts => "bow-lifts",
        Event::Slides => "slides",
        Event::Floats => "floats",
        Event::TowTire => "tow-tire-at-limit",
        Event::TowHub => "tow-hub-wet",
        Event::Tailpipe => "tailpipe-wet",
        Event::Guides => "guides-awash",
        Event::Lamps => "lamps-wet",
        Event::Ends => "ramp-ends",
    }
}
