//! A comparison of rigs as one document: `rigs` stand in their order, the best first.
//!
//! `subjects` hold, by group of checks, the row that governs it; `to_fit` is what a plan costs, in the order that counts,
//! and `plan` the plan itself. `not_compared` names what is missing; `errors` are the files that could not be read.

use super::{Failure, Limits, RigName, TOOL, Tool, Units, failure, number, plan};
use crate::fit::{Amount, Group, Row};
use crate::quantity::Quantity;
use crate::quantity::show::UnitSystem;
use crate::report::check::named;
use crate::report::compare::RANKED_BY;
use crate::report::words;
use crate::rig::Problems;
use crate::study::compare::{Choice, Compared, Gap};
use serde::Serialize;

/// A file that could not be compared: its path, why, and the mistakes in it.
#[derive(Debug, Clone, Copy)]
pub struct Unread<'a> {
    /// Its path.
    pub path: &'a str,
    /// Why.
    pub message: &'a str,
    /// The mistakes in it.
    pub problems: Option<&'a Problems>,
}

#[derive(Serialize)]
struct Document<'a> {
    schema: u32,
    tool: Tool,
    units: Units,
    /// The file of the boat, where the others are trailers for it.
    boat: Option<&'a str>,
    ranked: &'static str,
    alike: bool,
    rigs: Vec<Ranked<'a>>,
    errors: Vec<Failure<'a>>,
}

#[derive(Serialize)]
struct Ranked<'a> {
    rank: usize,
    rig: RigName<'a>,
    verdict: &'static str,
    not_covered: Vec<&'static str>,
    subjects: Vec<Stands>,
    to_fit: ToFit,
    plan: plan::OfCheck,
    not_compared: Option<Missing>,
    /// What makes it look better than it is.
    cautions: Vec<String>,
    /// How it sways beside the first one; null where they are not settings of one rig.
    sway: Option<plan::Swaying>,
}

/// How a group of checks stands by the row that governs it; of the others all but `subject` is null.
#[derive(Serialize)]
struct Stands {
    subject: String,
    check: Option<String>,
    load: Option<f64>,
    limits: Option<Limits>,
    used: Option<f64>,
    verdict: Option<&'static str>,
}

#[derive(Serialize)]
struct ToFit {
    still_fails: usize,
    beyond_travel: usize,
    ashore: f64,
    wood: usize,
    parts: usize,
    moves: usize,
    advise_or_unsure: usize,
}

#[derive(Serialize)]
struct Missing {
    subjects: Vec<&'static str>,
    checks: Vec<String>,
    keys: Vec<String>,
}

/// A comparison over several lines.
///
/// # Errors
/// Never in practice: every part of it can be written as JSON.
pub fn compared(
    compared: &Compared,
    boat: Option<&str>,
    unread: &[Unread<'_>],
    units: UnitSystem,
) -> serde_json::Result<String> {
    let groups: Vec<Group> = compared.groups().collect();
    let gap = |at: usize| compared.gaps.iter().find(|gap| gap.choice == at).map(missing);
    let sway = |at: usize| compared.sway[at].as_ref().map(|sway| plan::Swaying::of(sway, units));
    let rig =
        |(at, choice)| Ranked { not_compared: gap(at), sway: sway(at), ..rig(at, choice, &groups, units) };
    serde_json::to_string_pretty(&Document {
        schema: 1,
        tool: TOOL,
        units: Units::of(units),
        boat,
        ranked: RANKED_BY,
        alike: compared.is_alike,
        rigs: compared.choices.iter().enumerate().map(rig).collect(),
        errors: unread.iter().map(|file| failure(file.path, file.message, file.problems)).collect(),
    })
}

fn rig<'a>(at: usize, choice: &'a Choice, groups: &[Group], units: UnitSystem) -> Ranked<'a> {
    let cost = choice.cost();
    Ranked {
        rank: at + 1,
        rig: RigName { path: &choice.name, title: choice.rig.proposed().title.as_deref() },
        verdict: words::rig_verdict(choice.found.verdict),
        not_covered: choice.found.not_covered.iter().map(|subject| subject.name()).collect(),
        subjects: groups.iter().map(|group| stands(*group, choice.governing(*group), units)).collect(),
        to_fit: ToFit {
            still_fails: cost.fails,
            beyond_travel: cost.beyond,
            ashore: units.weight_number(cost.ashore),
            wood: cost.wood,
            parts: cost.parts,
            moves: cost.moves,
            advise_or_unsure: cost.doubts,
        },
        plan: plan::of_check(choice.plan.as_ref(), units),
        not_compared: None,
        cautions: choice.cautions.iter().map(|one| words::caution(one, &choice.rig, units)).collect(),
        sway: None,
    }
}

fn stands(group: Group, row: Option<&Row>, units: UnitSystem) -> Stands {
    let amount = |amount: Option<Amount>| amount.map(|amount| number(amount, units));
    let deciding = row.map(Row::deciding);
    Stands {
        subject: named(group).to_lowercase(),
        check: row.map(Row::id),
        load: row.and_then(|row| amount(row.load)),
        limits: deciding.map(|by| Limits { min: amount(by.min), max: amount(by.max) }),
        used: deciding.and_then(|by| by.used).map(Quantity::si),
        verdict: row.map(|row| words::verdict(row.verdict)),
    }
}

fn missing(gap: &Gap) -> Missing {
    Missing {
        subjects: gap.subjects.iter().map(|subject| subject.name()).collect(),
        checks: gap.checks.iter().map(Row::id).collect(),
        keys: gap.keys.iter().map(ToString::to_string).collect(),
    }
}
