//! Rows in doubt because a figure was probably misread: one that no such rig has, or one of two that disagree.

use super::assess::{Assessment, Doubt, Row, as_stated};
use super::caution::{LIKELY_FACTORS, axles_off_scales};
use super::comparison::{Fold, Standing};
use super::known::Known;
use super::model::{Model, Unfit};
use super::reason::{Figures, Reason, Source};
use super::scope::Scope;
use super::verdict::Verdict;
use crate::quantity::{Quantity, Weight};
use crate::rig::inputs::MEASURED_GROSS_TRAILER_WEIGHT;
use crate::rig::{Implausible, Problems, Rig, Trust};
use std::collections::BTreeMap;

/// Works out the loads of every case, crosses every ramp and evaluates every row.
///
/// A row that uses an implausible value, or that fails by another figure that the file gives, is unsure.
///
/// # Errors
/// [`Unfit`] when the trailer does not rest on its wheels on level ground.
pub fn assess(rig: &Rig) -> Result<Assessment, Unfit> {
    let mut found = as_stated(rig)?;
    let (doubtful, reasons) = misread(rig, &found);
    found.reasons.extend(reasons);
    let doubts = doubtful.iter().zip(&found.rows);
    // What only advises is past nothing.
    let doubt =
        |(doubtful, row): (&bool, &Row)| Doubt { may_fail: *doubtful && row.counts, ..Doubt::default() };
    let doubts: Vec<Doubt> = doubts.map(doubt).collect();
    found.doubt(&doubts);
    Ok(found)
}

/// Whether each row of an assessment is in doubt, and why, where two figures disagree.
fn misread(rig: &Rig, found: &Assessment) -> (Vec<bool>, Vec<Reason>) {
    let mut doubtful = using_implausible(rig, found);
    let mut reasons = Vec::new();
    for (source, other) in by_other_figures(rig) {
        let (differing, reason) = contradicted(rig, found, source, other);
        for (doubtful, differs) in doubtful.iter_mut().zip(differing) {
            *doubtful |= differs;
        }
        reasons.extend(reason);
    }
    (doubtful, reasons)
}

/// Which rows use an implausible value: those that compare anything else once it has the nearest plausible one. Where
/// that cannot be tried, as it breaks a rule of the file, every row.
fn using_implausible(rig: &Rig, found: &Assessment) -> Vec<bool> {
    let implausible = found.reasons.iter().find_map(|reason| match reason {
        Reason::Implausible(values) => Some(values),
        _ => None,
    });
    let Some(implausible) = implausible else { return vec![false; found.rows.len()] };
    let all = vec![true; found.rows.len()];
    let Ok(before) = compared(rig) else { return all };
    let mut used = vec![false; found.rows.len()];
    for value in implausible {
        let after = plausibly(rig, value).and_then(|rig| compared(&rig).ok());
        let Some(after) = after else { return all };
        for (row, used) in found.rows.iter().zip(&mut used) {
            let id = row.id();
            *used |= before.get(&id) != after.get(&id);
        }
    }
    used
}

/// The rig with the nearest plausible value proposed.
fn plausibly(rig: &Rig, value: &Implausible) -> Option<Rig> {
    let variable = rig.variable(&value.key.to_string()).ok()?;
    rig.changed(&variable, value.nearest()).ok()
}

/// What is compared in each row, by its id.
fn compared(rig: &Rig) -> Result<BTreeMap<String, Vec<Known<Standing>>>, Unfit> {
    let setup = rig.proposed();
    let scope = Scope::all(setup);
    let facts = scope.facts(rig, None)?;
    let mut rows: BTreeMap<String, Vec<Known<Standing>>> = BTreeMap::new();
    scope.compare(setup, &facts, |i, comparison| {
        rows.entry(scope.rows()[i].id.clone()).or_default().push(comparison.standing);
    });
    Ok(rows)
}

/// The rig by each figure that disagrees with the one by which it is assessed.
fn by_other_figures(rig: &Rig) -> Vec<(Source, Result<Rig, Problems>)> {
    let measured = rig.measured();
    let mut others = Vec::new();
    let scales = &measured.measured;
    let both =
        !measured.boat.weights.is_empty() && (scales.gross().is_some() || scales.tongue_weight.is_some());
    if both && measured.policy.trust != Some(Trust::Scale) {
        others.push((Source::Scales, rig.with("policy.trust=scale")));
    }
    // What the owner trusts is off by more than one of the items can be.
    let far = |rig: &Rig| Model::new(rig).scaling().is_some_and(|by| !LIKELY_FACTORS.contains(&by.factor));
    if both && measured.policy.trust == Some(Trust::Scale) && far(rig) {
        others.push((Source::Items, rig.with("policy.trust=items")));
    }
    if let (Some((axles, _)), Some(tongue)) = (axles_off_scales(rig), scales.tongue_weight) {
        others.push((Source::AxlesWeighed, with_gross(rig, axles + tongue)));
    }
    others
}

/// The rig as if scales had given this gross weight, and were trusted.
fn with_gross(rig: &Rig, gross: Weight) -> Result<Rig, Problems> {
    let trusting = rig.with("policy.trust=scale")?;
    match trusting.variable(MEASURED_GROSS_TRAILER_WEIGHT.path()) {
        Ok(variable) => trusting.changed(&variable, gross.si()),
        Err(_) => Ok(trusting),
    }
}

/// Whether a row of a scope holds by the figures that a rig is assessed by and fails by others that its file gives as
/// well, so that the rig is unsure where it would pass. `folds` are the scope's rows of the rig.
pub fn is_contradicted(rig: &Rig, scope: &Scope, folds: &[Fold]) -> bool {
    let fails_otherwise = |other: &Rig| {
        let setup = other.proposed();
        let Ok(facts) = scope.facts(other, None) else { return true };
        let others = scope.folds(setup, &facts);
        let mut rows = scope.rows().iter().zip(folds.iter().zip(&others));
        rows.any(|(asked, (fold, other))| {
            let holds = !matches!(fold.verdict(), Verdict::Fail | Verdict::NotChecked);
            asked.fails() && holds && other.verdict() == Verdict::Fail
        })
    };
    by_other_figures(rig).iter().any(|(_, other)| other.as_ref().map_or(true, fails_otherwise))
}

/// Which rows hold by the figures of the assessment and fail by the others, and the reason for the doubt, if any do.
/// Others by which there is no rig, or none that rests on its wheels, leave every row in doubt that depends on loads.
fn contradicted(
    rig: &Rig,
    found: &Assessment,
    source: Source,
    other: Result<Rig, Problems>,
) -> (Vec<bool>, Option<Reason>) {
    let other = other.ok().and_then(|rig| as_stated(&rig).ok());
    let fails = |row: &Row| match &other {
        Some(other) => other.check(&row.id()).is_some_and(|row| row.verdict == Verdict::Fail),
        None => row.case.is_some(),
    };
    let holds = |row: &Row| row.counts && !matches!(row.verdict, Verdict::Fail | Verdict::NotChecked);
    let differing: Vec<bool> = found.rows.iter().map(|row| holds(row) && fails(row)).collect();
    let rows = found.rows.iter().zip(&differing).filter(|(_, differs)| **differs);
    let rows: Vec<String> = rows.map(|(row, _)| row.id()).collect();
    let measured = rig.measured();
    let by = if measured.goes_by_scales() { Source::Scales } else { Source::Items };
    let others = match &other {
        Some(other) => Figures::of(&other.cases, source),
        None => Figures { source, gross: measured.measured.gross(), tongue: measured.measured.tongue_weight },
    };
    let reason = Reason::Contradicted { by: Figures::of(&found.cases, by), others, rows: rows.clone() };
    (differing, (!rows.is_empty()).then_some(reason))
}
