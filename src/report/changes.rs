//! What differs between two rigs, for a reader: what was changed, and what that did.

use super::document::{Cell, Document, Holds, Role, Table, Text};
use super::{Extent, Subject, words};
use crate::fit::{Amount, Row, Verdict};
use crate::quantity::show::{UnitSystem, plain};
use crate::study::changes::{Changes, KeyChange, RowChange};

/// So many changes of keys stand on a page.
const KEYS: usize = 24;
/// So many checks that keep their verdict stand in the table of a page; the others are named.
const SAME_VERDICT: usize = 12;

/// The report: its first line answers.
pub fn report(old: &Subject<'_>, new: &Subject<'_>, changes: &Changes, extent: Extent) -> Document {
    let mut document = Document::default();
    document.add_title(title(old, new, changes));
    for (what, subject) in [("Old", old), ("New", new)] {
        let title = subject.rig.proposed().title.as_deref().map(|title| format!(": {title}"));
        document.fact(what, format!("{}{}", subject.path, title.unwrap_or_default()));
    }
    keys(&changes.keys, extent, &mut document);
    if changes.rows.is_empty() {
        if !changes.keys.is_empty() {
            document.paragraph("No check stands otherwise by it.");
        }
        return document;
    }
    document.heading("What that did");
    rows(changes, new.units, extent, &mut document);
    document
}

/// What became of the verdict, or that nothing differs.
fn title(old: &Subject<'_>, new: &Subject<'_>, changes: &Changes) -> Text {
    if changes.keys.is_empty() && changes.rows.is_empty() {
        return "No difference: both files describe the same rig".into();
    }
    let [was, is] = [old, new].map(|subject| subject.findings.assessment.verdict);
    let word = |verdict| Text::of(words::rig_role(verdict), &words::rig_verdict(verdict).to_uppercase());
    let keys = match changes.keys.len() {
        1 => "1 key differs".to_string(),
        n => format!("{n} keys differ"),
    };
    let before =
        if was == is { ", as before".to_string() } else { format!(", was {}", words::rig_verdict(was)) };
    word(is).then(&format!("{before}; {keys}"))
}

/// The keys with what they said and say; those of a list that were changed alike in one line.
fn keys(keys: &[KeyChange], extent: Extent, document: &mut Document) {
    if keys.is_empty() {
        return;
    }
    document.heading("What was changed");
    let alike = |one: &KeyChange, other: &KeyChange| {
        let said = |change: &KeyChange| {
            (change.key.path, change.old.clone(), change.new.clone(), change.included.clone())
        };
        said(one) == said(other)
    };
    let groups: Vec<&[KeyChange]> = keys.chunk_by(alike).collect();
    let most = if extent == Extent::Full { groups.len() } else { KEYS };
    document.list(groups.iter().take(most).filter_map(|group| key(group)));
    let left: usize = groups.iter().skip(most).map(|group| group.len()).sum();
    if left > 0 {
        document.paragraph(format!("{left} more keys: --full."));
    }
}

/// Keys that were changed alike: what they said and say, and what that is.
fn key(group: &[KeyChange]) -> Option<Text> {
    let (KeyChange { key, name, old, new, included }, others) = group.split_first()?;
    let alike = if others.is_empty() { String::new() } else { format!(" and {} alike", others.len()) };
    let old = old.as_deref().unwrap_or("not stated");
    let new = new.as_deref().unwrap_or("no longer stated");
    let meaning = key.input().map_or("", |input| input.meaning);
    let said = format!("{alike}: {old} -> {new} ");
    let place = included.as_ref().map(|file| format!(", in {}", plain(file))).unwrap_or_default();
    let said = Text::of(Role::Key, name).then(&said).and(Role::Muted, &format!("({meaning})"));
    Some(said.then(&place))
}

/// The checks that stand otherwise, those with another verdict first.
fn rows(changes: &Changes, units: UnitSystem, extent: Extent, document: &mut Document) {
    let (by_verdict, others): (Vec<&RowChange>, Vec<&RowChange>) =
        changes.rows.iter().partition(|row| row.verdicts()[0] != row.verdicts()[1]);
    let most = if extent == Extent::Full { others.len() } else { SAME_VERDICT };
    let mut table = Table::new([
        (Holds::Name, "check"),
        (Holds::Words, "verdict"),
        (Holds::Numbers, "load was"),
        (Holds::Numbers, "is"),
        (Holds::Numbers, "margin was"),
        (Holds::Numbers, "is"),
    ]);
    let shown = by_verdict.iter().chain(others.iter().take(most));
    table.rows = shown.map(|row| cells(row, units)).collect();
    document.table(table);
    let left: Vec<String> = others.iter().skip(most).map(|row| row.id()).collect();
    if !left.is_empty() {
        document.paragraph(format!("Another load or margin: {}. With figures: --full.", left.join(", ")));
    }
}

fn cells(change: &RowChange, units: UnitSystem) -> Vec<Cell> {
    let show = |row: &Option<Row>, of: fn(&Row) -> Option<Amount>| {
        let amount = row.as_ref().and_then(of);
        Cell::from(amount.map(|amount| words::amount(amount, units)).unwrap_or_default())
    };
    // Both margins are to one limit: what fails is compared with what fails.
    let fails =
        change.verdicts().into_iter().any(|verdict| matches!(verdict, Some(Verdict::Fail | Verdict::Unsure)));
    let margin = if fails { |row: &Row| row.margin_to_decide() } else { |row: &Row| row.margin };
    let figures = [
        show(&change.old, |row| row.load),
        show(&change.new, |row| row.load),
        show(&change.old, margin),
        show(&change.new, margin),
    ];
    let [was, is] = change.verdicts();
    let id = Text::of(Role::Key, &change.id());
    [id.into(), words::turn(was, is).into()].into_iter().chain(figures).collect()
}
