//! The `plan` part of a document: what to change so that fewest checks fail.
//!
//! `step` and the numbers of `instead_of` are those of the report for reading, from 1. `from` and `to` are texts as a rig
//! file has them; `from` is null where nothing stands at the key. `why` names the checks that fail without the step.
//! `enough` has smaller parts that would pass too, `surest` more weight left ashore with which less is in doubt, each by the step
//! that it stands for.
//! What is in `worse_after` has a worse verdict than now or is clearly farther past its limits, what is in `thin_after` becomes
//! thin, what is in `advises_after` advises as it does now.

use crate::fit::Row;
use crate::quantity::show::{self, UnitSystem};
use crate::quantity::{Kind, Quantity, Speed};
use crate::report::words;
use crate::study::plan::{After, Alternative, Plan, Setting, Step};
use crate::study::sway::Sway;
use serde::Serialize;

/// The plan of a document, null where nothing fails.
#[derive(Serialize)]
#[serde(transparent)]
pub(super) struct OfCheck(Option<Planned>);

#[derive(Serialize)]
struct Planned {
    changes: Vec<Change>,
    #[serde(flatten)]
    after: Became,
    conflicts: Vec<Conflicting>,
    enough: Vec<Change>,
    surest: Vec<Change>,
    alternatives: Vec<Other>,
    /// How it then sways beside now; null where that cannot be compared.
    sway: Option<Swaying>,
}

/// How a rig sways beside another setting of it, at a speed.
#[derive(Serialize)]
pub(super) struct Swaying {
    change: &'static str,
    speed: f64,
    as_steady_at: Option<f64>,
}

impl Swaying {
    pub fn of(sway: &Sway, units: UnitSystem) -> Self {
        let number = |speed: Speed| show::number(speed.si(), Kind::Speed, units).0;
        Self {
            change: words::sway_change(sway.change),
            speed: number(sway.speed),
            as_steady_at: sway.as_steady_at.map(number),
        }
    }
}

#[derive(Serialize)]
struct Change {
    step: usize,
    key: String,
    from: Option<String>,
    to: String,
    why: String,
}

#[derive(Serialize)]
struct Became {
    #[serde(rename = "verdict_after")]
    verdict: &'static str,
    #[serde(rename = "fails_after")]
    fails: Vec<String>,
    #[serde(rename = "thin_after")]
    thin: Vec<String>,
    #[serde(rename = "worse_after")]
    worse: Vec<String>,
    #[serde(rename = "advises_after")]
    advises: Vec<String>,
}

/// A check that fails all the same, and what it conflicts with.
#[derive(Serialize)]
struct Conflicting {
    check: String,
    with: Option<String>,
}

#[derive(Serialize)]
struct Other {
    instead_of: Vec<usize>,
    changes: Vec<Change>,
    #[serde(flatten)]
    after: Became,
}

pub(super) fn of_check(plan: Option<&Plan>, units: UnitSystem) -> OfCheck {
    OfCheck(plan.map(|plan| planned(plan, units)))
}

fn planned(plan: &Plan, units: UnitSystem) -> Planned {
    let conflicts = plan.conflicts.iter().map(|conflict| Conflicting {
        check: conflict.row.id(),
        with: conflict.with.as_ref().map(|(other, _)| other.clone()),
    });
    Planned {
        changes: changes(&plan.steps, 0),
        after: became(&plan.after),
        conflicts: conflicts.collect(),
        enough: plan.enough.iter().flat_map(in_place).collect(),
        surest: plan.surest.iter().flat_map(in_place).collect(),
        alternatives: plan.alternatives.iter().map(|other| alternative(other, plan.steps.len())).collect(),
        sway: plan.sway.as_ref().map(|sway| Swaying::of(sway, units)),
    }
}

/// The changes of a step that stands for another, by the place of that.
fn in_place((place, step): &(usize, Step)) -> Vec<Change> {
    changes(std::slice::from_ref(step), *place)
}

/// The changes of steps that are numbered after so many others.
fn changes(steps: &[Step], others: usize) -> Vec<Change> {
    let numbered = steps.iter().enumerate().map(|(i, step)| (others + i + 1, step));
    let of_step = |(number, step): (usize, &Step)| {
        let why = format!("without it {} would fail", step.cures.join(", "));
        let change = |setting: &Setting| Change {
            step: number,
            key: setting.key.to_string(),
            from: setting.from.clone(),
            to: setting.to.clone(),
            why: why.clone(),
        };
        step.settings.iter().map(change).collect::<Vec<_>>()
    };
    numbered.flat_map(of_step).collect()
}

fn became(after: &After) -> Became {
    let ids = |rows: &[Row]| rows.iter().map(Row::id).collect();
    Became {
        verdict: words::rig_verdict(after.verdict),
        fails: after.fails.clone(),
        thin: ids(&after.thin),
        worse: ids(&after.worse),
        advises: ids(&after.advises),
    }
}

fn alternative(alternative: &Alternative, others: usize) -> Other {
    Other {
        instead_of: alternative.instead_of.iter().map(|step| step + 1).collect(),
        changes: changes(&alternative.steps, others),
        after: became(&alternative.after),
    }
}
