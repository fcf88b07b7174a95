//! What fails, is unsure or advises: a line a cause, the worst first.

use crate::fit::{Amount, Judge, Of, Row, Verdict};
use crate::report::document::{Cell, Holds, Role, Table, Text};
use crate::report::sections::{Report, worst_first};
use crate::report::words;

/// Loads that differ by less than this share of themselves are one load, read by two checks.
const SAME_LOAD: f64 = 1e-9;

/// Rows that stand outside their limits for one cause.
pub(super) struct Fault<'a> {
    /// The one that stands worst.
    pub worst: &'a Row,
    /// The others.
    pub others: Vec<&'a Row>,
}

impl<'a> Fault<'a> {
    /// Whether a row has the same cause: the same load in the same place, or another axle's of the same check.
    fn explains(&self, row: &Row) -> bool {
        self.rows().any(|known| {
            let counted = matches!(row.of, Of::Axle(_) | Of::Crossmember(_));
            known.verdict == row.verdict
                && ((counted && known.check == row.check) || is_same_load(known, row))
        })
    }

    fn rows(&self) -> impl Iterator<Item = &'a Row> {
        std::iter::once(self.worst).chain(self.others.iter().copied())
    }

    /// What it is called: the worst row's name, with the numbers of all axles that it is about.
    fn name(&self) -> String {
        let worst = self.worst;
        let alike = || self.rows().filter(|row| row.check == worst.check);
        let mut numbers: Vec<usize> = alike().map(|row| row.of.element() + 1).collect();
        numbers.sort_unstable();
        let numbers: Vec<String> = numbers.iter().map(ToString::to_string).collect();
        let name = if alike().count() > 1 {
            worst.check.name.replace('*', &numbers.join(", "))
        } else {
            worst.name()
        };
        match self.rows().count() - alike().count() {
            0 => name,
            n => format!("{name} (+ {n})"),
        }
    }
}

fn is_same_load(one: &Row, other: &Row) -> bool {
    let here = one.case == other.case && one.ramp == other.ramp && one.check.measure == other.check.measure;
    let (Some(Amount::Weight(a)), Some(Amount::Weight(b))) = (one.load, other.load) else { return false };
    here && (a - b).abs() <= SAME_LOAD * a.abs()
}

/// Rows by what causes them, the worst first.
pub(super) fn faults_of<'a>(rows: impl Iterator<Item = &'a Row>) -> Vec<Fault<'a>> {
    let mut rows: Vec<&Row> = rows.collect();
    rows.sort_by(|a, b| worst_first(a, b));
    let mut faults: Vec<Fault<'a>> = Vec::new();
    for row in rows {
        match faults.iter_mut().find(|fault| fault.explains(row)) {
            Some(fault) => fault.others.push(row),
            None => faults.push(Fault { worst: row, others: Vec::new() }),
        }
    }
    faults
}

impl<'a> Report<'a> {
    /// What fails, is unsure or advises, by cause.
    pub(super) fn faults(&self) -> Vec<Fault<'a>> {
        faults_of(
            self.rows()
                .filter(|row| matches!(row.verdict, Verdict::Fail | Verdict::Unsure | Verdict::Advise)),
        )
    }

    /// The worst of them, a line each.
    pub fn list_faults(&mut self, most: usize) {
        let faults = self.faults();
        let Some(worst) = faults.first().filter(|_| most > 0) else { return };
        self.document.heading(match worst.worst.verdict {
            Verdict::Fail => "What fails, worst first",
            Verdict::Unsure => "What is unsure, worst first",
            _ => "What is advised",
        });
        let mut table = Table::new([
            (Holds::Words, ""),
            (Holds::Name, ""),
            (Holds::Numbers, ""),
            (Holds::Words, ""),
            (Holds::Words, ""),
        ]);
        table.rows = faults.iter().take(most).map(|fault| self.fault_cells(fault)).collect();
        self.document.table(table);
    }

    fn fault_cells(&self, fault: &Fault<'_>) -> Vec<Cell> {
        let row = fault.worst;
        let role = words::verdict_role(row.verdict);
        let word = words::verdict(row.verdict);
        let word = if role == Role::Fail { word.to_uppercase() } else { word.to_string() };
        let load = row.load.map(|load| self.amount(row, load)).unwrap_or_default();
        let note = match row.verdict {
            Verdict::Unsure => {
                self.at_worst(row).map(|worst| format!("{worst} at worst")).unwrap_or_default()
            }
            _ => self.place(row.case, row.ramp).trim().to_string(),
        };
        let cells = [fault.name(), load, self.limit(row), note].map(Cell::from);
        [Text::of(role, &word).into()].into_iter().chain(cells).collect()
    }

    /// The limit that a row is past, or both where it is past neither as stated.
    fn limit(&self, row: &Row) -> String {
        let (min, max) = words::decisive(row);
        let show = |value: Amount| self.amount(row, value);
        let load = row.load.map(Amount::si);
        let is_past = |limit: Option<Amount>, below: bool| {
            limit
                .zip(load)
                .is_some_and(|(limit, load)| if below { load < limit.si() } else { load > limit.si() })
        };
        match (min, max) {
            (_, Some(max)) if row.check.judge == Judge::Size => show(max),
            (Some(min), _) if is_past(min.into(), true) => format!("at least {}", show(min)),
            (_, Some(max)) if is_past(max.into(), false) => format!("at most {}", show(max)),
            (Some(min), Some(max)) if row.check.judge == Judge::Band => {
                format!("{} to {}", show(min), show(max))
            }
            (_, Some(max)) => format!("at most {}", show(max)),
            (Some(min), None) => format!("at least {}", show(min)),
            (None, None) => String::new(),
        }
    }
}
