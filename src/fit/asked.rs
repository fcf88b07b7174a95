//! One row that is asked for, and what it means to be outside its limits.

use super::check::{Amount, Check, Counts, Measure, Of};
use crate::rig::Setup;

/// What it means that a load is past a limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Severity {
    /// The rig fails.
    Fails,
    /// The owner is advised.
    Advises,
}

/// One row that is asked for.
#[derive(Debug, Clone, PartialEq)]
pub struct Asked {
    /// The check.
    pub check: &'static Check,
    /// What it is about.
    pub of: Of,
    /// Its id.
    pub id: String,
    /// What it means to be outside its limits.
    pub severity: Severity,
}

impl Asked {
    /// A row of a check.
    pub(super) fn new(check: &'static Check, of: Of, setup: &Setup) -> Self {
        let id = of.fill(check.id);
        let severity = severity(check, &id, setup);
        Self { check, of, id, severity }
    }

    /// Whether the rig fails where it does not hold.
    pub fn fails(&self) -> bool {
        self.severity == Severity::Fails
    }

    /// Whether its margin is one of those of which the least is reported: it can fail, and compares weights.
    pub fn has_weight_margin(&self) -> bool {
        self.fails() && self.check.measure == Measure::Weight
    }

    /// An amount of what the check compares, from SI.
    pub fn amount(&self, si: f64) -> Amount {
        Amount::from_si(self.check.measure, si)
    }

    /// Whether a setup has it as things stand. A crossmember that the bunks do not reach here, but do elsewhere, has
    /// no row here.
    pub(super) fn is_there(&self, setup: &Setup) -> bool {
        (self.check.rows.is_there)(setup, self.of.element())
    }
}

/// What it means that a row is outside its limits: the longest pattern of the policy that matches it decides, else the
/// check's own rule.
fn severity(check: &Check, id: &str, setup: &Setup) -> Severity {
    let policy = &setup.policy;
    // Of two patterns the longer says more, the star not counted: an id outweighs every prefix of it.
    let says = |pattern: &String| (pattern.trim_end_matches('*').len(), !pattern.ends_with('*'));
    let longest =
        |patterns: &[String]| patterns.iter().filter(|pattern| matches(pattern, id)).map(says).max();
    let fails = match (longest(&policy.counts), longest(&policy.advises)) {
        (None, None) => match check.counts {
            Counts::Yes => true,
            Counts::No => false,
            Counts::FromThreeAxles => setup.trailer.axles.len() >= 3,
        },
        (must, may) => must > may,
    };
    if fails { Severity::Fails } else { Severity::Advises }
}

fn matches(pattern: &str, id: &str) -> bool {
    match pattern.strip_suffix('*') {
        Some(prefix) => id.starts_with(prefix),
        None => pattern == id,
    }
}
