//! What got worse since a baseline: rig by rig, and row by row.

use super::document::{Cell, Document, Holds, Role, Table, Text};
use super::sections::capital;
use super::{Subject, words};
use crate::quantity::show::UnitSystem;
use crate::study::baseline::{Since, Worse};

/// So many rows of a rig that lost nothing but margin stand in its table; the others are named.
const MARGINS: usize = 6;

/// A rig of a baseline, or a new one.
#[derive(Debug, Clone, PartialEq)]
pub struct Changed {
    /// Its path, as the reader named it.
    pub path: String,
    /// What became of it.
    pub since: Since,
    /// What besides its rows decides its verdict, in sentences.
    pub reasons: Vec<String>,
    /// The units to report in.
    pub units: UnitSystem,
}

impl Changed {
    /// What became of the rig of a report.
    pub fn of(subject: &Subject<'_>, since: Since) -> Self {
        let reasons = subject.findings.assessment.reasons.iter();
        let said = reasons.map(|reason| capital(&words::reason(reason, subject.rig, subject.units)));
        let path = subject.path.to_string();
        Self { path, since, reasons: said.collect(), units: subject.units }
    }

    /// What became of its verdict, as its path's predicate: `was pass, is fail`.
    pub fn said(&self) -> String {
        let is = words::rig_verdict(self.since.is);
        match self.since.was {
            None => format!("is new, and is {is}"),
            Some(was) if was != self.since.is => format!("was {}, is {is}", words::rig_verdict(was)),
            Some(_) if self.since.rows.iter().any(Worse::is_by_verdict) => {
                format!("is {is} as before, with checks that got worse")
            }
            Some(_) => format!("is {is} as before, with less to spare"),
        }
    }

    /// The rows that got worse, a line each, and what else decides.
    pub fn lines(&self) -> Vec<String> {
        let line = |row: &Worse| {
            let margin = match self.margins(row) {
                [None, None] => String::new(),
                [Some(was), None] => format!("; margin was {was}"),
                [None, Some(is)] => format!("; margin {is}"),
                [Some(was), Some(is)] => format!("; margin was {was}, is {is}"),
            };
            format!("{}: {}{margin}", row.id, verdict(row).plain())
        };
        self.since.rows.iter().map(line).chain(self.reasons.iter().cloned()).collect()
    }

    /// A row's margin before and now.
    fn margins(&self, row: &Worse) -> [Option<String>; 2] {
        [row.was, row.is].map(|stood| Some(words::amount(stood?.1?, self.units)))
    }

    fn cells(&self, row: &Worse) -> Vec<Cell> {
        let margins = self.margins(row).map(|margin| Cell::from(margin.unwrap_or_default()));
        [Text::of(Role::Key, &row.id).into(), verdict(row).into()].into_iter().chain(margins).collect()
    }
}

/// The rigs of a baseline that were not checked.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Unread {
    /// Those that are no longer there, or no longer rigs: whatever they would show now is hidden.
    pub gone: Vec<String>,
    /// Those that nobody asked for.
    pub unasked: Vec<String>,
}

impl Unread {
    /// All of them.
    pub fn all(&self) -> impl Iterator<Item = &str> {
        self.gone.iter().chain(&self.unasked).map(String::as_str)
    }
}

/// What to do about a rig of a baseline that is gone.
pub fn for_gone(baseline: &str) -> String {
    format!(
        "put it back, or, if it is to be gone, write the baseline anew: check the same folders with --write-baseline {baseline}"
    )
}

/// What became of a row's verdict.
fn verdict(row: &Worse) -> Text {
    let [was, is] = [row.was, row.is].map(|stood| stood.map(|(verdict, _)| verdict));
    words::turn(was, is)
}

/// How many rigs got worse, how many new ones do not pass, and how many are gone.
fn title(worse: &[&Changed], gone: usize, baseline: &str) -> String {
    let new = worse.iter().filter(|rig| rig.since.was.is_none()).count();
    let rigs = |count: usize, what: &str| match count {
        0 => None,
        1 => Some(format!("1 {what}rig")),
        n => Some(format!("{n} {what}rigs")),
    };
    let got_worse = rigs(worse.len() - new, "").map(|rigs| format!("{rigs} got worse since {baseline}"));
    let new_ones =
        rigs(new, "new ").map(|rigs| format!("{rigs} {} not pass", if new == 1 { "does" } else { "do" }));
    let gone_ones = rigs(gone, "")
        .map(|rigs| format!("{rigs} of {baseline} {} gone", if gone == 1 { "is" } else { "are" }));
    got_worse.into_iter().chain(new_ones).chain(gone_ones).collect::<Vec<_>>().join("; ")
}

/// What got worse since a baseline, and which of its rigs were not checked now. Where nothing did, it is empty.
pub fn report(baseline: &str, rigs: &[Changed], unread: &Unread) -> Document {
    let mut document = Document::default();
    let worse: Vec<&Changed> = rigs.iter().filter(|rig| rig.since.is_worse()).collect();
    if !worse.is_empty() || !unread.gone.is_empty() {
        document.add_title(title(&worse, unread.gone.len(), baseline));
    }
    for rig in worse {
        let heading = Text::of(words::rig_role(rig.since.is), &rig.path);
        document.heading(heading.then(&format!(" {}", rig.said())));
        rows(rig, &mut document);
        document.list(rig.reasons.iter().map(String::as_str));
    }
    if !unread.gone.is_empty() {
        document.paragraph(format!("Gone: {}. For each, {}.", unread.gone.join(", "), for_gone(baseline)));
    }
    if !unread.unasked.is_empty() {
        document.paragraph(format!("In the baseline, but not checked now: {}.", unread.unasked.join(", ")));
    }
    document
}

/// The rows of a rig: all whose verdict got worse, and of the others the first.
fn rows(rig: &Changed, document: &mut Document) {
    let (by_verdict, by_margin): (Vec<&Worse>, Vec<&Worse>) =
        rig.since.rows.iter().partition(|row| row.is_by_verdict());
    let mut table = Table::new([
        (Holds::Name, "check"),
        (Holds::Words, "verdict"),
        (Holds::Numbers, "margin was"),
        (Holds::Numbers, "is"),
    ]);
    let shown = by_verdict.iter().chain(by_margin.iter().take(MARGINS));
    table.rows = shown.map(|row| rig.cells(row)).collect();
    if !table.rows.is_empty() {
        document.table(table);
    }
    let others: Vec<&str> = by_margin.iter().skip(MARGINS).map(|row| row.id.as_str()).collect();
    if !others.is_empty() {
        document.paragraph(format!("Less margin too: {}.", others.join(", ")));
    }
}
