//! What one check or one key of the rig file is, from the registry and the table of inputs.

use super::Subject;
use super::document::{Document, Role, Text};
use super::sections::Report;
use crate::fit::{Check, Core, Usually};
use crate::quantity::Kind;
use crate::quantity::show::{UnitSystem, brief, plain};
use crate::rig::inputs::{Ends, Extent, Fallback, Holds, Input, Preset};
use crate::rig::{self, Sign};
use crate::study::uses::Uses;

/// A check's entry, for a reader who asks about this id of it; `checks` are all there are.
pub fn explain(check: &Check, id: &str, checks: impl Iterator<Item = &'static Check>) -> Document {
    let counts = match check.usually() {
        Usually::Fails => "outside it a rig fails",
        Usually::Advises => "it advises only",
        Usually::FailsWhereStated => "it advises; with nothing assumed a rig fails",
        Usually::AdvisesThenFails => "it advises; past a second limit a rig fails",
        Usually::FailsFromThreeAxles => "three axles or more fail outside it; on two it advises first",
    };
    let core = match check.core {
        Core::No => "",
        Core::Always => ", and is incomplete without it",
        Core::Coupled => ", and with a hitch or a tow vehicle is incomplete without it",
    };
    let policy = policy(check, &check.pattern(id), checks);
    let basis = format!("{}; {} ({}).", check.basis.limit, check.basis.source, check.basis.certainty.words());
    let mut document = Document::default();
    document.add_title(Text::of(Role::Key, &check.in_general(check.id)));
    for (label, text) in [
        ("Compares", check.in_general(check.what)),
        ("Load", check.formula.to_string()),
        ("Limit", basis),
        ("Counts", format!("{counts}{core}. {policy}")),
        ("Measure", check.measuring.to_string()),
        ("Cures", check.cures.to_string()),
    ] {
        document.fact(label, text);
    }
    document
}

/// A check's entry and how the check stands on a rig: what would fix it alone, what leaves it in doubt, and what it lacks.
pub fn on_rig(entry: Document, check: &'static Check, subject: &Subject<'_>) -> Document {
    let mut report = Report::of_check(subject, check, entry);
    if report.rows().next().is_none() {
        let path = plain(subject.path);
        report.document.paragraph(format!("{path} describes nothing that this check compares."));
    }
    report.cures();
    report.doubts();
    report.checks();
    report.not_checked();
    report.document
}

/// How a policy moves a check, and what else that moves.
fn policy(check: &Check, pattern: &str, checks: impl Iterator<Item = &'static Check>) -> String {
    if pattern == check.id && !pattern.ends_with('*') {
        return "[policy] can move it.".to_string();
    }
    let others = pattern.strip_suffix('*').map_or_else(Vec::new, |prefix| {
        let others = checks.filter(|other| *other != check && other.id.starts_with(prefix));
        others.map(|other| other.id).collect()
    });
    let others =
        if others.is_empty() { String::new() } else { format!(", and {} with it", others.join(", ")) };
    format!("[policy] can move it as \"{pattern}\"{others}.")
}

/// A row of the table of inputs, with the checks that use it.
pub fn key(input: &Input, uses: &Uses) -> Document {
    let mut document = Document::default();
    document.add_title(Text::of(Role::Key, &in_general(input.path)));
    for (label, text) in facts(input) {
        document.fact(label, text);
    }
    document.fact("Checks", checks(input, uses));
    document
}

/// What the table itself says of a row, each fact under its label; the first is what it is.
pub(super) fn facts(input: &Input) -> Vec<(&'static str, String)> {
    let mut facts = vec![
        ("Is", format!("{}.", input.meaning)),
        ("Measure", input.how.to_string()),
        ("Value", value(input)),
    ];
    if let Some(kind) = input.kind() {
        facts.push(("Sign", sign(input.sign).to_string()));
        facts.push(("±", bound(kind).to_string()));
    }
    facts.push(("Default", default(input)));
    if let Some((least, most)) = input.plausible
        && let Some(kind) = input.kind()
    {
        let range = format!(
            "from {} to {}; outside of it a digit or a unit is more likely wrong than right.",
            both(least, kind),
            both(most, kind)
        );
        facts.push(("Plausible", range));
    }
    facts
}

/// What stands for an element of a list in a path that means any.
fn in_general(path: &str) -> String {
    path.replace('*', "i")
}

/// How its value is written.
fn value(input: &Input) -> String {
    match input.holds {
        Holds::Quantity(kind) => format!("{}: {}.", kind.name(), kind.example()),
        Holds::Text => "a line of text in quotes.".to_string(),
        Holds::Id => "a short name in quotes, which cases and --set then use.".to_string(),
        Holds::Flag => "true or false.".to_string(),
        Holds::Count => "a whole number, without quotes.".to_string(),
        Holds::Factor => "a number, without quotes.".to_string(),
        Holds::Choice => format!("one of {}, in quotes.", input.words().join(", ")),
        Holds::Reach => "two lengths: [\"-4 in\", \"8 in\"].".to_string(),
        Holds::Checks => "ids of checks, or beginnings of ids: [\"tow-tongue\", \"ramp-*\"].".to_string(),
        Holds::Parts => "ids of weights and tanks: [\"ice\"].".to_string(),
    }
}

fn sign(sign: Sign) -> &'static str {
    match sign {
        Sign::Positive => "more than zero.",
        Sign::NotNegative => "zero or more.",
        Sign::Any => "either: the other way from what it is measured to is negative.",
    }
}

/// Whether and how it may be stated as uncertain.
fn bound(kind: Kind) -> &'static str {
    match kind {
        Kind::Share | Kind::Slope => "may be stated: \"12 % ± 1 %\" lies between 11 and 13 %.",
        _ => "may be stated, in a unit or as a share of the value.",
    }
}

/// What stands where the file is silent, and why.
fn default(input: &Input) -> String {
    let Some(Fallback { preset, basis, extent }) = input.default else {
        return match input.role {
            rig::Role::Informational => "none.".to_string(),
            _ => "none: checks that need the key are not checked without it.".to_string(),
        };
    };
    let value = match preset {
        Preset::Value(si) => input.kind().map_or_else(String::new, |kind| both(si, kind)),
        Preset::Count(count) => count.to_string(),
        Preset::Word(word) => word.to_string(),
        Preset::Rule(rule) => rule.to_string(),
    };
    let tried = extent.map_or_else(String::new, |extent| format!(" Tried too: {}.", tried(input, extent)));
    match basis {
        Some(basis) => format!("{value}, which reports list as assumed: {basis}.{tried}"),
        None => format!("{value}.{tried}"),
    }
}

/// The ends that are tried of a value that is assumed, in words.
fn tried(input: &Input, extent: Extent) -> String {
    let si = |si: f64| input.kind().map_or_else(String::new, |kind| both(si, kind));
    match extent.ends {
        Ends::Times(one, other) => format!("{} and {} times the value", one.min(other), one.max(other)),
        Ends::Around(by) => format!("{} less and more", si(by)),
        Ends::Between(one, other) => format!("{} and {}", si(one), si(other)),
        Ends::Rule(words, _) => words.to_string(),
        Ends::TimesStated(path, one, other) => {
            format!("{one} and {other} times {path}, where that is stated")
        }
    }
}

/// A quantity in units of both systems, once where they are the same.
fn both(si: f64, kind: Kind) -> String {
    let [us, metric] = [UnitSystem::Us, UnitSystem::Metric].map(|system| brief(si, kind, system));
    if us == metric { us } else { format!("{us} ({metric})") }
}

/// The checks that use a key.
fn checks(input: &Input, uses: &Uses) -> Text {
    let Uses { plainly, otherwise } = uses;
    match (plainly.is_empty(), otherwise.is_empty()) {
        (true, true) if input.path.starts_with("weighings.") => {
            Text::from("none; read by ").and(Role::Key, "bunkline weigh").then(".")
        }
        (true, true) if input.role == rig::Role::Informational => "none; reports repeat the value.".into(),
        (true, true) => "none, on the rigs of the starter file.".into(),
        (true, false) => named(Text::default(), otherwise),
        (false, true) => named(Text::default(), plainly),
        (false, false) => {
            let text = named(Text::default(), plainly);
            named(
                text.then(
                    " On rigs described in another way (from scales, or by the other of two keys) also ",
                ),
                otherwise,
            )
        }
    }
}

/// A text, and then the ids of these checks.
fn named(mut text: Text, checks: &[&Check]) -> Text {
    for (i, check) in checks.iter().enumerate() {
        let comma = if i == 0 { "" } else { ", " };
        text = text.then(comma).and(Role::Key, &check.in_general(check.id));
    }
    text.then(".")
}

/// The id of each check by subject and what it compares, and each key by section and what it is.
pub fn list(checks: impl Iterator<Item = &'static Check>, inputs: &[&'static Input]) -> Document {
    let mut document = Document::default();
    document.add_title("Every check, and what it compares");
    let mut subject = None;
    for check in checks {
        if subject != Some(check.subject) {
            document.heading(check.subject.name());
            subject = Some(check.subject);
        }
        document.fact(Text::of(Role::Key, &check.in_general(check.id)), check.in_general(check.what));
    }
    document.add_title("Every key of the rig file, and what it is");
    keys(&mut document, inputs);
    document
}

/// The keys of one table.
pub fn table(name: &str, inputs: &[&'static Input]) -> Document {
    let mut document = Document::default();
    document.add_title(format!("Keys of {name}"));
    keys(&mut document, inputs);
    document
}

/// Keys by section, each with what it is.
fn keys(document: &mut Document, inputs: &[&'static Input]) {
    let mut section = None;
    for input in inputs {
        let own = input.path.split_once('.').map_or("", |(section, _)| section);
        if section != Some(own) {
            document.heading(if own.is_empty() {
                "above every table".to_string()
            } else {
                format!("[{own}]")
            });
            section = Some(own);
        }
        document.fact(Text::of(Role::Key, &in_general(input.path)), input.meaning);
    }
}
