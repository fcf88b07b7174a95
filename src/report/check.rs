//! The report of a check: the verdict, what would fix it, loads and every check.

use super::document::{Cell, Column, Document, Holds, Table};
use super::sections::{Report, capital, more_checks, not_made, severity, the, verdict_title};
use super::{Subject, words};
use crate::fit::{CaseLoads, Judge, RigVerdict, Row, Verdict};
use crate::quantity::show::{degrees, percent};
use crate::quantity::{Quantity, Share, Weight};

/// How many cases stand side by side.
const CASES_ABREAST: usize = 3;

/// One rig's report.
pub fn report(subject: &Subject<'_>) -> Document {
    let mut report = Report::new(subject, |_| true);
    report.verdict();
    report.proposal();
    // What fails outranks what is unsure, which outranks what only advises.
    if subject.findings.assessment.verdict == RigVerdict::Fail {
        report.cures();
        report.doubts();
    } else {
        report.doubts();
        report.cures();
    }
    report.measure_first();
    report.balance();
    report.checks();
    report.samples();
    report.not_checked();
    report.assumed();
    report.informational();
    report.cautions();
    report.document
}

/// What stands for the report of a file that could not be read, or whose rig does not settle.
pub fn unread(path: &str, why: &str) -> Document {
    let mut document = Document::default();
    document.add_title(verdict_title(words::verdict_role(Verdict::Fail), "NOT READ", path));
    document.paragraph(capital(why) + ".");
    document
}

impl Report<'_> {
    fn verdict(&mut self) {
        let verdict = self.findings().assessment.verdict;
        let word = words::rig_verdict(verdict).to_uppercase();
        self.document.add_title(verdict_title(words::rig_role(verdict), &word, self.subject.name()));
        self.document.paragraph(self.reason(verdict));
    }

    /// Why the verdict is what it is, in one sentence and what goes with it.
    fn reason(&self, verdict: RigVerdict) -> String {
        let found = &self.findings().assessment;
        let not_checked = || found.rows.iter().filter(|row| row.verdict == Verdict::NotChecked);
        let not_made = not_made(not_checked().count());
        match verdict {
            RigVerdict::Fail => {
                let mut failing: Vec<&Row> = self.rows().collect();
                failing.retain(|row| row.verdict == Verdict::Fail);
                failing.sort_by(|a, b| severity(b).total_cmp(&severity(a)));
                let Some(worst) = failing.first() else { return not_made };
                let several = worst.case.filter(|_| found.cases.len() > 1);
                let case = several.map(|case| format!(" in \"{}\"", words::case(self.rig(), case)));
                let case = case.unwrap_or_default();
                let fault = capital(&words::fault(worst, self.units()));
                let others = more_checks(failing.len() - 1, "fails", "fail");
                let tightest = weakest_link(&found.rows).unwrap_or_default();
                let unsure = self.also_unsure();
                format!("{fault}{case}.{others}{unsure}{tightest}{not_made}")
            }
            RigVerdict::Incomplete => {
                let needed = not_checked().filter(|row| row.core).count();
                let unsure = self.also_unsure();
                format!(
                    "Nothing that could be checked fails, but {needed} of the checks that a verdict needs could not be evaluated. The keys to fill in are listed below.{unsure}"
                )
            }
            RigVerdict::Unsure => format!("{}{not_made}", self.why_unsure()),
            RigVerdict::Pass => {
                let cases = words::all_cases(found.cases.len());
                let tightest = weakest_link(&found.rows).unwrap_or_default();
                let advising = match found.rows.iter().filter(|row| row.verdict == Verdict::Advise).count() {
                    0 => String::new(),
                    1 => " 1 check that only advises is outside its limit.".to_string(),
                    n => format!(" {n} checks that only advise are outside their limits."),
                };
                format!("Every check that counts passes in {cases}.{tightest}{advising}{not_made}")
            }
        }
    }

    fn proposal(&mut self) {
        let setup = &self.rig().proposed();
        let parts = [
            ("boat", setup.shift.boat),
            ("axles", setup.shift.axles),
            ("tongue drawn in,", setup.shift.tongue),
            ("bunks", setup.shift.bunks),
        ];
        let moved = parts.iter().filter_map(|(part, by)| {
            let by = by.filter(|by| by.si() != 0.0)?;
            Some(format!("{part} {}", words::aft(by, self.units())))
        });
        let changed = self.rig().changes().iter().filter(|change| !change.starts_with("shift.")).cloned();
        let proposed: Vec<String> = moved.chain(changed).collect();
        if !proposed.is_empty() {
            self.document.paragraph(format!("With these changes: {}.", proposed.join("; ")));
        }
    }

    fn balance(&mut self) {
        self.document.heading("Weights and balance on level ground");
        if let Some(scaling) = self.findings().scaled {
            self.document.paragraph(words::scaling(scaling, self.units()));
        }
        let cases = self.findings().assessment.cases.len();
        for first in (0..cases).step_by(CASES_ABREAST) {
            let block = first..cases.min(first + CASES_ABREAST);
            let mut columns = vec![Column { holds: Holds::Name, heading: "".into() }];
            for case in block.clone() {
                let heading = if cases > 1 { format!("case {}", case + 1) } else { String::new() };
                columns.push(Column { holds: Holds::Numbers, heading: heading.into() });
            }
            if cases > 1 {
                let rig = self.rig();
                self.document.list(block.clone().map(|case| {
                    let reference = if case == 0 { " (reference)" } else { "" };
                    format!("case {}: {}{reference}", case + 1, words::case(rig, case))
                }));
            }
            let rows = self.balance_rows(block);
            self.document.table(Table { columns, rows });
        }
    }

    fn balance_rows(&self, block: std::ops::Range<usize>) -> Vec<Vec<Cell>> {
        let cases = &self.findings().assessment.cases[block];
        let axles = self.rig().proposed().trailer.axles.len();
        let units = self.units();
        let mut rows: Vec<Vec<Cell>> = Vec::new();
        let mut add = |label: String, value: &dyn Fn(&CaseLoads) -> Option<String>| {
            let cells = cases.iter().map(|case| value(case).unwrap_or_else(|| "unknown".to_string()).into());
            rows.push([label.into()].into_iter().chain(cells).collect());
        };
        let show = |weight: Weight| units.weight(weight);
        add("boat with all aboard".into(), &|case| case.boat.clone().ok().map(show));
        add("gross trailer weight".into(), &|case| case.gross.clone().ok().map(show));
        add("CG behind the ball".into(), &|case| {
            case.body.as_ref().ok().map(|body| units.rough_length(body.at.x))
        });
        add("CG above ground".into(), &|case| {
            let level = self.rig().proposed().trailer.level_ball_height?;
            case.body.as_ref().ok().map(|body| units.rough_length(body.at.z + level))
        });
        add("tongue weight".into(), &|case| case.tongue.clone().ok().map(show));
        add("tongue share of gross".into(), &|case| case.tongue_share().ok().map(percent));
        add("frame pitch, nose up".into(), &|case| {
            case.level.as_ref().ok().map(|level| degrees(level.stance.pitch))
        });
        for axle in 0..axles {
            add(format!("axle {}", axle + 1), &|case| {
                case.level.as_ref().ok().map(|level| show(level.stance.axle_loads[axle]))
            });
        }
        if axles > 1 {
            for axle in 0..axles - 1 {
                add(format!("rear axle lifted: axle {}", axle + 1), &|case| {
                    let lifted = case.lifted.as_ref()?.as_ref().ok()?;
                    Some(show(lifted.stance.axle_loads[axle]))
                });
            }
            add("rear axle lifted: tongue".into(), &|case| {
                Some(show(case.lifted.as_ref()?.as_ref().ok()?.stance.tongue_weight))
            });
        }
        if self.rig().proposed().tow.is_described() {
            add("tow vehicle, front axle".into(), &|case| case.tow.as_ref().ok().map(|tow| show(tow.front)));
            add("tow vehicle, rear axle".into(), &|case| case.tow.as_ref().ok().map(|tow| show(tow.rear)));
            add("tow vehicle and trailer".into(), &|case| case.combination.clone().ok().map(show));
        }
        rows
    }
}

/// Which rating of those that count is used most, and how much of it.
fn weakest_link(rows: &[Row]) -> Option<String> {
    let rated = rows.iter().filter(|row| {
        row.counts && row.load.is_some() && matches!(row.check.judge, Judge::Rating | Judge::SignedRating)
    });
    let used = |row: &Row| row.used.map_or(0.0, Share::si);
    let row = rated.max_by(|a, b| used(a).total_cmp(&used(b)))?;
    Some(format!(" The weakest link is {} at {}.", the(row), words::used(row.used?)))
}
