//! What fails, is unsure or advises: a line a cause, the worst first.

use crate::fit::{Amount, Deciding, Judge, Of, Row, Verdict};
use crate::report::document::{Cell, Holds, Role, Table, Text};
use crate::report::sections::{Report, families, worst_first};
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
        let mut places: Vec<usize> = alike().map(|row| row.of.element() + 1).collect();
        places.sort_unstable();
        let name =
            if places.len() > 1 { worst.check.name.replace('*', &numbers(&places)) } else { worst.name() };
        match self.rows().count() - places.len() {
            0 => name,
            n => format!("{name} and {n} more"),
        }
    }
}

/// Numbers in order, as a reader writes them: `1-3`, `1, 3`.
fn numbers(places: &[usize]) -> String {
    match places {
        [first, .., last] if last - first + 1 == places.len() => format!("{first}-{last}"),
        _ => places.iter().map(ToString::to_string).collect::<Vec<_>>().join(", "),
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

    /// The worst of them, a line each, and of those that fail the others by name.
    pub fn list_faults(&mut self, most: usize, names: bool) {
        let faults = self.faults();
        let cut = faults.iter().skip(most).filter(|fault| names && fault.worst.verdict == Verdict::Fail);
        let cut: Vec<&Row> = cut.flat_map(Fault::rows).collect();
        let Some(worst) = faults.first().filter(|_| most > 0 || !cut.is_empty()) else { return };
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
        if most > 0 {
            self.document.table(table);
        }
        if !cut.is_empty() {
            let too = if most > 0 { "Fail too" } else { "Fail" };
            self.document.fact(too, format!("{}.", families(&cut).join(", ")));
        }
    }

    fn fault_cells(&self, fault: &Fault<'_>) -> Vec<Cell> {
        let row = fault.worst;
        let role = words::verdict_role(row.verdict);
        let word = words::verdict(row.verdict);
        let word = if role == Role::Fail { word.to_uppercase() } else { word.to_string() };
        let load = row.load.map(|load| self.amount(row, load)).unwrap_or_default();
        let (limit, is_past) = self.limit(row);
        let limit = match self.at_worst(row) {
            Some(worst) if !is_past => format!("{worst} at worst"),
            _ => limit,
        };
        let mut places = self.places(row.case, row.ramp);
        places.extend(row.moved.map(|_| "by policy".to_string()));
        let cells = [fault.name(), load, limit, places.join(", ")].map(Cell::from);
        [Text::of(role, &word).into()].into_iter().chain(cells).collect()
    }

    /// The limit that a row is past, or what it is inside as stated; and whether it is past one.
    fn limit(&self, row: &Row) -> (String, bool) {
        let Deciding { min, max, .. } = row.deciding();
        let show = |value: Amount| self.amount(row, value);
        let load = row.load.map(Amount::si);
        let under = min.filter(|min| load.is_some_and(|load| load < min.si()));
        let over = max.filter(|max| load.is_some_and(|load| load > max.si()));
        match (under, over, min, max) {
            (Some(_), ..) | (_, Some(_), ..) if row.check.judge == Judge::Size => {
                (format!("not {}", max.map(show).unwrap_or_default()), true)
            }
            (Some(min), ..) => (format!("under {}", show(min)), true),
            (_, Some(max), ..) => (format!("over {}", show(max)), true),
            (.., Some(min), Some(max)) => (format!("{} to {}", show(min), show(max)), false),
            (.., None, Some(max)) => (format!("up to {}", show(max)), false),
            (.., Some(min), None) => (format!("from {}", show(min)), false),
            (.., None, None) => (String::new(), false),
        }
    }
}
