//! How rigs stood once, so that a later check can say what got worse and nothing else.

use crate::fit::{Amount, Assessment, RigVerdict, Row, Verdict};
use crate::quantity::show::UnitSystem;
use std::collections::BTreeMap;

/// Loads and margins that differ by less than this share of a row's load or limit are the same: less than any scale or
/// tape shows, more than a baseline rounds off or another machine computes otherwise.
const SAME: f64 = 1e-5;

/// How a rig stood.
#[derive(Debug, Clone, PartialEq)]
pub struct Stood {
    /// Its verdict.
    pub verdict: RigVerdict,
    /// The units of its margins.
    pub units: UnitSystem,
    /// Its rows, by id.
    pub rows: BTreeMap<String, RowStood>,
}

/// How a row of it stood.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RowStood {
    /// Its verdict.
    pub verdict: Verdict,
    /// The smaller distance inside its limits, if it has one.
    pub margin: Option<f64>,
}

impl Stood {
    /// How a rig stands, with its margins in these units.
    pub fn of(found: &Assessment, units: UnitSystem) -> Self {
        let rows = found.rows.iter().map(|row| (row.id(), RowStood::of(row, units)));
        Self { verdict: found.verdict, units, rows: rows.collect() }
    }
}

impl RowStood {
    fn of(row: &Row, units: UnitSystem) -> Self {
        Self { verdict: row.verdict, margin: row.margin.map(|margin| margin.number(units)) }
    }
}

/// What became of a rig since a baseline.
#[derive(Debug, Clone, PartialEq)]
pub struct Since {
    /// Its verdict then; `None` for a rig that is new.
    pub was: Option<RigVerdict>,
    /// Its verdict now.
    pub is: RigVerdict,
    /// The rows that got worse, in the registry's order, then those that are gone. Of a new rig, those that keep it from
    /// passing.
    pub rows: Vec<Worse>,
}

/// A row that got worse.
#[derive(Debug, Clone, PartialEq)]
pub struct Worse {
    /// Its id.
    pub id: String,
    /// How it stood; `None` for a row that is new.
    pub was: Option<(Verdict, Option<Amount>)>,
    /// How it stands; `None` for one that is gone.
    pub is: Option<(Verdict, Option<Amount>)>,
}

impl Worse {
    /// Whether its verdict is a worse one, and not its margin alone.
    pub fn is_by_verdict(&self) -> bool {
        self.was.map(|(verdict, _)| verdict) != self.is.map(|(verdict, _)| verdict)
    }
}

impl Since {
    /// What became of a rig, if it was there before.
    ///
    /// A row got worse where its verdict or its margin did, where it held and is gone, and where it is new and fails or is
    /// unsure. One that can no longer be evaluated got worse whatever it was: no failure hides behind a missing key.
    pub fn of(before: Option<&Stood>, now: &Assessment) -> Self {
        let Some(before) = before else {
            let keeps = |row: &&Row| {
                matches!(row.verdict, Verdict::Fail | Verdict::Unsure)
                    || row.core && row.verdict == Verdict::NotChecked
            };
            let rows = now.rows.iter().filter(keeps).map(|row| Worse {
                id: row.id(),
                was: None,
                is: Some((row.verdict, row.margin)),
            });
            return Self { was: None, is: now.verdict, rows: rows.collect() };
        };
        let mut gone = before.rows.clone();
        let mut rows = Vec::new();
        for row in &now.rows {
            let id = row.id();
            let stood = gone.remove(&id);
            let is_worse = match stood {
                Some(stood) => is_worse(stood, row, before.units),
                None => matches!(row.verdict, Verdict::Fail | Verdict::Unsure),
            };
            if is_worse {
                let amount = |margin: f64| Amount::from_number(row.check.measure, margin, before.units);
                let was = stood.map(|stood| (stood.verdict, stood.margin.map(amount)));
                rows.push(Worse { id, was, is: Some((row.verdict, row.margin)) });
            }
        }
        let held = gone
            .into_iter()
            .filter(|(_, stood)| !matches!(stood.verdict, Verdict::Fail | Verdict::NotChecked));
        rows.extend(held.map(|(id, stood)| Worse { id, was: Some((stood.verdict, None)), is: None }));
        Self { was: Some(before.verdict), is: now.verdict, rows }
    }

    /// Whether it got worse. A new rig did unless it passes.
    pub fn is_worse(&self) -> bool {
        match self.was {
            Some(was) => !self.rows.is_empty() || rig_rank(self.is) > rig_rank(was),
            None => self.is != RigVerdict::Pass,
        }
    }
}

fn is_worse(was: RowStood, row: &Row, units: UnitSystem) -> bool {
    let is = RowStood::of(row, units);
    match (was.verdict, is.verdict) {
        (Verdict::NotChecked, is) => return matches!(is, Verdict::Fail | Verdict::Unsure),
        (_, Verdict::NotChecked) => return true,
        (was, is) if rank(was) != rank(is) => return rank(is) > rank(was),
        _ => {}
    }
    match (was.margin, is.margin) {
        (Some(was), Some(is)) => {
            let amounts = [row.load, row.min, row.max].into_iter().flatten();
            let whole = amounts.map(|amount| amount.number(units).abs()).fold(was.abs(), f64::max);
            was - is > SAME * whole
        }
        // What should hold holds nothing any more.
        (Some(_), None) => is.verdict == Verdict::Fail,
        (None, _) => false,
    }
}

/// How bad the verdict of a row that was evaluated is.
fn rank(verdict: Verdict) -> u8 {
    match verdict {
        Verdict::Pass | Verdict::NotChecked => 0,
        Verdict::Thin => 1,
        Verdict::Advise => 2,
        Verdict::Unsure => 3,
        Verdict::Fail => 4,
    }
}

/// How bad a rig's verdict is.
fn rig_rank(verdict: RigVerdict) -> u8 {
    match verdict {
        RigVerdict::Pass => 0,
        RigVerdict::Unsure | RigVerdict::Incomplete => 1,
        RigVerdict::Fail => 2,
    }
}
