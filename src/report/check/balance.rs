//! Weights and balance on level ground, case by case.

use crate::fit::CaseLoads;
use crate::quantity::Weight;
use crate::quantity::show::{degrees, percent};
use crate::report::document::{Cell, Column, Holds, Table};
use crate::report::sections::Report;
use crate::report::words;
use std::ops::Range;

/// How many cases stand side by side.
const CASES_ABREAST: usize = 3;

/// The cases that stand side by side, block by block.
pub(super) fn abreast(cases: usize) -> impl Iterator<Item = Range<usize>> {
    (0..cases).step_by(CASES_ABREAST).map(move |first| first..cases.min(first + CASES_ABREAST))
}

/// A column for what stands in a row, and one for each case of a block.
pub(super) fn case_columns(block: Range<usize>, cases: usize) -> Vec<Column> {
    let heading = |case: usize| if cases > 1 { format!("case {}", case + 1) } else { String::new() };
    let of_cases = block.map(|case| Column { holds: Holds::Numbers, heading: heading(case).into() });
    [Column { holds: Holds::Name, heading: "".into() }].into_iter().chain(of_cases).collect()
}

impl Report<'_> {
    /// What each case weighs, and what stands where.
    pub fn balance(&mut self) {
        self.document.heading("Weights and balance on level ground");
        if let Some(scaling) = self.findings().scaled {
            self.document.paragraph(words::scaling(scaling, self.units()));
        }
        let cases = self.findings().assessment.cases.len();
        for block in abreast(cases) {
            let columns = case_columns(block.clone(), cases);
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

    fn balance_rows(&self, block: Range<usize>) -> Vec<Vec<Cell>> {
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
