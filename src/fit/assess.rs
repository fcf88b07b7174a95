//! Makes every check of a rig and finds the rig's verdict.

use super::check::{Amount, Bounds, Check, Counts, Judged, Row, Rows, Verdict, judge};
use super::known::{Known, Missing};
use super::loads::{CaseLoads, Model, Trial, Unfit};
use super::registry::CHECKS;
use crate::quantity::{Quantity, Share};
use crate::rig::{Rig, Setup};

/// What became of a rig.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RigVerdict {
    /// Every core check was made, and every check that counts holds.
    Pass,
    /// A check that counts fails.
    Fail,
    /// Nothing that counts fails, but a core check could not be made.
    Incomplete,
}

/// A rig's loads and what they mean.
#[derive(Debug, Clone, PartialEq)]
pub struct Assessment {
    /// The loads, case by case.
    pub cases: Vec<CaseLoads>,
    /// Every check, in the registry's order.
    pub rows: Vec<Row>,
    /// The rig's verdict.
    pub verdict: RigVerdict,
}

/// Computes the loads of every case and makes every check.
///
/// # Errors
/// [`Unfit`] when the trailer does not rest on its wheels.
pub fn assess(rig: &Rig) -> Result<Assessment, Unfit> {
    assess_trial(&Model::new(rig), &rig.proposed, Trial::default())
}

pub(super) fn assess_trial(model: &Model<'_>, setup: &Setup, trial: Trial) -> Result<Assessment, Unfit> {
    let cases = model.loads(trial)?;
    let mut rows = Vec::with_capacity(CHECKS.len() + 6 * setup.trailer.axles.len());
    for check in CHECKS {
        for axle in axles_of(check, setup) {
            rows.push(make(check, axle, setup, &cases));
        }
    }
    let verdict = verdict(&rows);
    Ok(Assessment { cases, rows, verdict })
}

/// The axles for which a check is made; one entry without an axle for the rig.
fn axles_of(check: &Check, setup: &Setup) -> impl Iterator<Item = Option<usize>> + use<> {
    let axles = setup.trailer.axles.len();
    let (count, numbered) = match check.rows {
        Rows::Rig => (1, false),
        Rows::SeveralAxles => (usize::from(axles > 1), false),
        Rows::Axles => (axles, true),
        Rows::AxlesButRear => (axles - 1, true),
    };
    (0..count).map(move |axle| numbered.then_some(axle))
}

/// Makes one check.
pub(super) fn make(check: &'static Check, axle: Option<usize>, setup: &Setup, cases: &[CaseLoads]) -> Row {
    let element = axle.unwrap_or(0);
    let limits = (check.limits)(setup, element);
    let thin = setup.policy.thin_margin.map_or(0.0, Quantity::si);
    let governing = governing(check, element, setup, cases, limits.clone(), thin);
    let counts = counts(check, axle, setup);
    let amount = |si: f64| Amount::from_si(check.measure, si);
    let bounds = limits.unwrap_or_default();
    let (min, max) = (bounds.min.map(amount), bounds.max.map(amount));
    match governing {
        Ok((case, load, judged)) => Row {
            check,
            axle,
            load: Some(amount(load)),
            min,
            max,
            margin: Some(amount(judged.margin)),
            used: judged.used.map(Share::from_si),
            verdict: judged.verdict(counts),
            counts,
            case: check.by_case.then_some(case),
            missing: Vec::new(),
        },
        Err(missing) => Row {
            check,
            axle,
            load: None,
            min,
            max,
            margin: None,
            used: None,
            verdict: Verdict::NotChecked,
            counts,
            case: None,
            missing: missing.0,
        },
    }
}

impl Judged {
    fn verdict(self, counts: bool) -> Verdict {
        match (self.margin < 0.0, counts, self.thin) {
            (true, true, _) => Verdict::Fail,
            (true, false, _) => Verdict::Advise,
            (false, _, true) => Verdict::Thin,
            (false, _, false) => Verdict::Pass,
        }
    }
}

/// The case with the least margin, its load and how it is judged.
fn governing(
    check: &Check,
    axle: usize,
    setup: &Setup,
    cases: &[CaseLoads],
    limits: Known<Bounds>,
    thin: f64,
) -> Known<(usize, f64, Judged)> {
    let mut worst: Option<(usize, f64, Judged)> = None;
    let mut missing = Missing::default();
    let considered = if check.by_case { cases.len() } else { 1 };
    for (i, case) in cases.iter().take(considered).enumerate() {
        match ((check.load)(setup, case, axle), &limits) {
            (Ok(load), Ok(limits)) => {
                let judged = judge(check.judge, load, *limits, thin);
                if worst.is_none_or(|(_, _, worst)| judged.margin < worst.margin) {
                    worst = Some((i, load, judged));
                }
            }
            (Err(lacking), _) => missing = missing.and(lacking),
            (Ok(_), Err(_)) => {}
        }
    }
    if let Err(lacking) = limits {
        missing = missing.and(lacking);
    }
    if missing.0.is_empty() { worst.ok_or(missing) } else { Err(missing) }
}

/// How far the loads of all cases lie inside a check's limits, in SI: the least distance, negative outside.
///
/// Unlike a row's margin it knows both limits at once, so it has no jump for a search to stumble over.
pub(super) fn least_gap(
    check: &Check,
    axle: Option<usize>,
    setup: &Setup,
    cases: &[CaseLoads],
) -> Option<f64> {
    let element = axle.unwrap_or(0);
    let limits = (check.limits)(setup, element).ok()?;
    let gap = |case| {
        let load = (check.load)(setup, case, element).ok()?;
        let below = limits.max.map_or(f64::INFINITY, |max| max - load);
        let above = limits.min.map_or(f64::INFINITY, |min| load - min);
        Some(below.min(above))
    };
    let gaps: Option<Vec<f64>> = cases.iter().map(gap).collect();
    gaps?.into_iter().reduce(f64::min)
}

/// Whether a check must hold: the longest pattern of the policy that matches it decides, else its own rule.
fn counts(check: &Check, axle: Option<usize>, setup: &Setup) -> bool {
    let policy = &setup.policy;
    if !policy.counts.is_empty() || !policy.advises.is_empty() {
        let id = match axle {
            Some(axle) => check.id.replace('*', &(axle + 1).to_string()),
            None => check.id.to_string(),
        };
        let longest = |patterns: &[String]| {
            patterns.iter().filter(|pattern| matches(pattern, &id)).map(std::string::String::len).max()
        };
        match (longest(&policy.counts), longest(&policy.advises)) {
            (None, None) => {}
            (must, may) => return must > may,
        }
    }
    match check.counts {
        Counts::Yes => true,
        Counts::No => false,
        Counts::FromThreeAxles => setup.trailer.axles.len() >= 3,
    }
}

fn matches(pattern: &str, id: &str) -> bool {
    match pattern.strip_suffix('*') {
        Some(prefix) => id.starts_with(prefix),
        None => pattern == id,
    }
}

fn verdict(rows: &[Row]) -> RigVerdict {
    if rows.iter().any(|row| row.verdict == Verdict::Fail) {
        RigVerdict::Fail
    } else if rows.iter().any(|row| row.check.core && row.verdict == Verdict::NotChecked) {
        RigVerdict::Incomplete
    } else {
        RigVerdict::Pass
    }
}
