//! What one check is, from its entry in the registry.

use super::text::wrap;
use crate::fit::{Check, Counts, checks};
use std::fmt::Write;

/// A check's entry, for a reader who asks about this id of it.
pub fn explain(check: &Check, id: &str) -> String {
    let counts = match check.counts {
        Counts::Yes => "It must hold: outside its limit the rig fails.",
        Counts::No => "It advises: outside its limit the rig does not fail.",
        Counts::FromThreeAxles => "It must hold on three axles and more, and advises on two.",
    };
    let core = if check.core { " A rig is incomplete without it." } else { "" };
    let policy = policy(check, &check.pattern(id));
    let basis = format!("{}; {} ({}).", check.basis.limit, check.basis.source, check.basis.certainty.words());
    let parts = [
        ("Compares", check.in_general(check.what)),
        ("Load", check.formula.to_string()),
        ("Limit", basis),
        ("Counts", format!("{counts}{core} {policy}")),
        ("Measure", check.measuring.to_string()),
        ("Cures", check.cures.to_string()),
    ];
    let mut out = format!("{}\n", check.in_general(check.id));
    for (label, text) in parts {
        let _ = write!(out, "\n  {label}\n{}", wrap(&text, 4));
    }
    out
}

/// How a policy moves a check, and what else that moves.
fn policy(check: &Check, pattern: &str) -> String {
    let says = format!(
        "The file can say otherwise: [policy] counts = [\"{pattern}\"], or advises = [\"{pattern}\"]."
    );
    let Some(prefix) = pattern.strip_suffix('*') else { return says };
    let others = checks().filter(|other| *other != check && other.id.starts_with(prefix));
    let others: Vec<&str> = others.map(|other| other.id).collect();
    if others.is_empty() {
        return says;
    }
    format!("{says} That speaks of {} too, where no longer pattern does.", others.join(", "))
}

/// Every check's id and what it compares.
pub fn list() -> String {
    let mut out = String::new();
    // What a check compares begins beside the longest id.
    let column = checks().map(|check| check.id.len() + 1).max().unwrap_or_default();
    for check in checks() {
        let what = wrap(&check.in_general(check.what), column);
        let _ = write!(out, "{:<column$}{}", check.in_general(check.id), what.trim_start());
    }
    out
}
