//! What differs between two rigs.

use super::{Limits, RigName, Subject, TOOL, Tool, Units, number, words};
use crate::fit::{Amount, Row};
use crate::quantity::show::UnitSystem;
use crate::study::changes::{Changes, KeyChange, RowChange};
use serde::Serialize;

#[derive(Serialize)]
pub(super) struct Document<'a> {
    schema: u32,
    tool: Tool,
    old: Rig<'a>,
    new: Rig<'a>,
    units: Units,
    keys: Vec<Said<'a>>,
    checks: Vec<Check>,
}

#[derive(Serialize)]
struct Rig<'a> {
    #[serde(flatten)]
    name: RigName<'a>,
    verdict: &'static str,
}

#[derive(Serialize)]
struct Said<'a> {
    key: &'a str,
    meaning: &'static str,
    old: Option<&'a str>,
    new: Option<&'a str>,
    /// The included file that states it; null where the rig file itself does.
    included: Option<&'a str>,
}

#[derive(Serialize)]
struct Check {
    id: String,
    old: Option<Standing>,
    new: Option<Standing>,
}

#[derive(Serialize)]
struct Standing {
    verdict: &'static str,
    load: Option<f64>,
    limits: Limits,
    margin: Option<f64>,
}

pub(super) fn document<'a>(old: &Subject<'a>, new: &Subject<'a>, changes: &'a Changes) -> Document<'a> {
    let rig = |subject: &Subject<'a>| Rig {
        name: RigName { path: subject.path, title: subject.rig.proposed().title.as_deref() },
        verdict: words::rig_verdict(subject.findings.assessment.verdict),
    };
    Document {
        schema: 1,
        tool: TOOL,
        old: rig(old),
        new: rig(new),
        units: Units::of(new.units),
        keys: changes.keys.iter().map(key).collect(),
        checks: changes.rows.iter().map(|row| check(row, new.units)).collect(),
    }
}

fn key(change: &KeyChange) -> Said<'_> {
    let KeyChange { key, name, old, new, included } = change;
    let meaning = key.input().map_or("", |input| input.meaning);
    Said { key: name, meaning, old: old.as_deref(), new: new.as_deref(), included: included.as_deref() }
}

fn check(change: &RowChange, units: UnitSystem) -> Check {
    let number = |amount: Option<Amount>| amount.map(|amount| number(amount, units));
    let standing = |row: &Row| Standing {
        verdict: words::verdict(row.verdict),
        load: number(row.load),
        limits: Limits { min: number(row.min), max: number(row.max) },
        margin: number(row.margin),
    };
    Check { id: change.id(), old: change.old.as_ref().map(standing), new: change.new.as_ref().map(standing) }
}
