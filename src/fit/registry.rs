//! The registry of checks: the checks of every subject, in the order of reports.
//!
//! To add a check, add an entry to its subject's `checks.rs` and a test of it; reports, JSON and `explain` follow.

use super::check::Check;
use super::{brakes, bunks, hitch, launch, ramp, road, tie_downs, tow, winch};
use crate::rig::inputs::{POLICY_ADVISES, POLICY_COUNTS};
use crate::rig::{Fault, Problems, Rig, nearest};

/// Every subject's checks.
static SUBJECTS: &[&[Check]] = &[
    road::CHECKS,
    road::TIRE_CHECKS,
    road::ROLL_CHECKS,
    road::size::CHECKS,
    hitch::CHECKS,
    hitch::PLATE_CHECKS,
    tow::CHECKS,
    ramp::CHECKS,
    bunks::CHECKS,
    brakes::CHECKS,
    winch::CHECKS,
    tie_downs::CHECKS,
    launch::CHECKS,
];

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

/// The check that reports give this name, whichever axle or other part they speak of: `springs of axle 2`.
pub fn titled(name: &str) -> Option<&'static Check> {
    let is_number = |word: &str| word.starts_with(|first: char| first.is_ascii_digit() || first == '*');
    let in_general = |name: &str| {
        let words = name.split_whitespace().map(|word| if is_number(word) { "*" } else { word });
        words.collect::<Vec<_>>().join(" ").to_lowercase()
    };
    let name = in_general(name);
    checks().find(|check| in_general(check.name) == name)
}

/// The mistakes of a rig's policy: every pattern that can match no check, with the nearest that does; `None` where each
/// can. Reading a rig does not find them, as it knows no checks.
pub fn unknown_patterns(rig: &Rig) -> Option<Problems> {
    let policy = &rig.proposed().policy;
    let lists = [(POLICY_COUNTS.key(), &policy.counts), (POLICY_ADVISES.key(), &policy.advises)];
    let patterns = lists.into_iter().flat_map(|(key, list)| list.iter().map(move |pattern| (key, pattern)));
    let unknown = patterns.filter(|(_, pattern)| !can_match(pattern));
    let fault =
        |pattern: &String| Fault::NoSuchCheck { found: pattern.clone(), near: nearest_pattern(pattern) };
    rig.mistaken(unknown.map(|(key, pattern)| (key, fault(pattern))))
}

/// Whether a policy's pattern can match any row of any check.
fn can_match(pattern: &str) -> bool {
    checks().any(|check| check.can_match(pattern))
}

/// The pattern nearest to one that matches no check, if one is near.
fn nearest_pattern(pattern: &str) -> Option<String> {
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
