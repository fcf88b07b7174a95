//! The registry of checks: the checks of every subject, in the order of reports.
//!
//! To add a check, add an entry to its subject's `checks.rs` and a test of it; reports, JSON and `explain` follow.

use super::check::Check;
use super::{brakes, bunks, hitch, ramp, road, tow};
use crate::rig::nearest;

/// Every subject's checks.
static SUBJECTS: &[&[Check]] =
    &[road::CHECKS, hitch::CHECKS, tow::CHECKS, ramp::CHECKS, bunks::CHECKS, brakes::CHECKS];

/// Every check, in the order of reports.
pub fn checks() -> impl Iterator<Item = &'static Check> + Clone {
    SUBJECTS.iter().copied().flatten()
}

/// The check with this id; an axle's number or a low point's name may stand for its `*`, and so may `i` and `NAME`.
pub fn find(id: &str) -> Option<&'static Check> {
    checks().find(|check| match check.stem() {
        Some(stem) => id
            .strip_prefix(stem)
            .is_some_and(|subject| matches!(subject, "*" | "i" | "NAME") || check.is_of(subject)),
        None => check.id == id,
    })
}

/// Whether a policy's pattern can match any row of any check.
pub(super) fn can_match(pattern: &str) -> bool {
    checks().any(|check| check.can_match(pattern))
}

/// The pattern nearest to one that matches no check, if one is near.
pub(super) fn nearest_pattern(pattern: &str) -> Option<String> {
    // Its number or name may be right.
    let subject = pattern.rsplit('-').next().map(str::to_lowercase);
    let mut known: Vec<String> = Vec::new();
    for check in checks() {
        known.push(check.id.to_string());
        known.extend(check.stem().zip(subject.as_ref()).map(|(stem, subject)| format!("{stem}{subject}")));
        let hyphens = check.id.match_indices('-').filter(|_| pattern.ends_with('*'));
        known.extend(hyphens.map(|(at, _)| format!("{}-*", &check.id[..at])));
    }
    known.retain(|known| can_match(known));
    nearest(pattern, known.iter().map(String::as_str)).map(str::to_string)
}
