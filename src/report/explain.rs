//! What one check is, from its entry in the registry.

use super::document::{Document, Role, Text};
use crate::fit::{Check, Core, Usually};

/// A check's entry, for a reader who asks about this id of it; `checks` are all there are.
pub fn explain(check: &Check, id: &str, checks: impl Iterator<Item = &'static Check>) -> Document {
    let counts = match check.usually() {
        Usually::Fails => "Outside its limit the rig fails.",
        Usually::Advises => "It advises: outside its limit the rig does not fail.",
        Usually::AdvisesThenFails => "It advises outside its limit; past a second limit the rig fails.",
        Usually::FailsFromThreeAxles => {
            "On three axles and more the rig fails outside its limit; on two it advises first."
        }
    };
    let core = match check.core {
        Core::No => "",
        Core::Always => " A rig is incomplete without it.",
        Core::Coupled => " A rig with a hitch or a tow vehicle in its file is incomplete without it.",
    };
    let policy = policy(check, &check.pattern(id), checks);
    let basis = format!("{}; {} ({}).", check.basis.limit, check.basis.source, check.basis.certainty.words());
    let mut document = Document::default();
    document.add_title(Text::of(Role::Key, &check.in_general(check.id)));
    for (label, text) in [
        ("Compares", check.in_general(check.what)),
        ("Load", check.formula.to_string()),
        ("Limit", basis),
        ("Counts", format!("{counts}{core} {policy}")),
        ("Measure", check.measuring.to_string()),
        ("Cures", check.cures.to_string()),
    ] {
        document.fact(label, text);
    }
    document
}

/// How a policy moves a check, and what else that moves.
fn policy(check: &Check, pattern: &str, checks: impl Iterator<Item = &'static Check>) -> String {
    let says = format!(
        "The file can say otherwise: [policy] counts = [\"{pattern}\"], or advises = [\"{pattern}\"]."
    );
    let Some(prefix) = pattern.strip_suffix('*') else { return says };
    let others = checks.filter(|other| *other != check && other.id.starts_with(prefix));
    let others: Vec<&str> = others.map(|other| other.id).collect();
    if others.is_empty() {
        return says;
    }
    format!("{says} That also covers {}, unless a longer pattern does.", others.join(", "))
}

/// The id of each check and what it compares.
pub fn list(checks: impl Iterator<Item = &'static Check>) -> Document {
    let mut document = Document::default();
    document.add_title("Every check, and what it compares");
    for check in checks {
        document.fact(Text::of(Role::Key, &check.in_general(check.id)), check.in_general(check.what));
    }
    document
}
