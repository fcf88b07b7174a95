//! One row that is asked for, and what the policy makes of it.

use super::check::{Amount, At, Bound, Check, Core, Measure, Of, Past};
use super::known::Known;
use crate::rig::Setup;

/// What it means that a load is past a limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Severity {
    /// The rig fails.
    Fails,
    /// The owner is advised.
    Advises,
}

/// How the policy moves a row from its usual severity.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Moved {
    /// It fails at the first of its limits.
    Counts,
    /// It never fails.
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
    /// How the policy moves it.
    pub moved: Option<Moved>,
    can_fail: bool,
}

impl Asked {
    /// A row of a check.
    pub(super) fn new(check: &'static Check, of: Of, setup: &Setup) -> Self {
        let id = of.fill(check.id);
        let moved = moved(&id, setup);
        let about_ramps = check.is_about_ramps() && !setup.ramps.is_empty();
        let ramps = if about_ramps { (0..setup.ramps.len()).map(Some).collect() } else { vec![None] };
        let fails = |ramp| (check.limits)(setup, At { of: of.element(), ramp }).can_fail();
        let can_fail = match moved {
            Some(Moved::Counts) => true,
            Some(Moved::Advises) => false,
            None => ramps.into_iter().any(fails),
        };
        Self { check, of, id, moved, can_fail }
    }

    /// Whether the rig can fail by it.
    pub fn fails(&self) -> bool {
        self.can_fail
    }

    /// Whether a rig is incomplete without it.
    pub fn is_core(&self, setup: &Setup) -> bool {
        match (self.moved, self.check.core) {
            (Some(Moved::Counts), _) | (None, Core::Always) => true,
            (Some(Moved::Advises), _) | (None, Core::No) => false,
            (None, Core::Coupled) => setup.is_coupled(),
        }
    }

    /// Whether the rig's verdict may depend on it.
    pub fn decides(&self) -> bool {
        self.can_fail || self.check.core != Core::No || self.moved.is_some()
    }

    /// The same row as if no policy moved it.
    pub(super) fn unmoved(&self) -> Self {
        Self { moved: None, ..self.clone() }
    }

    /// The limits of one side, nearest first, each with what it means to be past it.
    pub(super) fn limits_of<'b>(&self, bound: &'b Bound) -> [Option<(Severity, &'b Known<f64>)>; 2] {
        let first = |severity| Some((severity, &bound.at));
        match (self.moved, &bound.past) {
            (Some(Moved::Counts), _) | (None, Past::Fails) => [first(Severity::Fails), None],
            (Some(Moved::Advises), _) | (None, Past::Advises) => [first(Severity::Advises), None],
            (None, Past::FailsBeyond(at)) => [first(Severity::Advises), Some((Severity::Fails, at))],
        }
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

/// How the policy moves a row: the longest pattern that matches it decides.
fn moved(id: &str, setup: &Setup) -> Option<Moved> {
    let policy = &setup.policy;
    // Of two patterns the longer says more, the star not counted: an id outweighs every prefix of it.
    let says = |pattern: &String| (pattern.trim_end_matches('*').len(), !pattern.ends_with('*'));
    let longest =
        |patterns: &[String]| patterns.iter().filter(|pattern| matches(pattern, id)).map(says).max();
    match (longest(&policy.counts), longest(&policy.advises)) {
        (None, None) => None,
        (must, may) if must > may => Some(Moved::Counts),
        _ => Some(Moved::Advises),
    }
}

/// Whether a policy's pattern names a row.
pub(super) fn matches(pattern: &str, id: &str) -> bool {
    match pattern.strip_suffix('*') {
        Some(prefix) => id.starts_with(prefix),
        None => pattern == id,
    }
}
