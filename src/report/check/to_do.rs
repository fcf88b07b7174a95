//! What to do about a verdict: the plan, what to measure, what to fill in.

use crate::fit::{Reason, RigVerdict};
use crate::report::document::{Role, Text};
use crate::report::plan;
use crate::report::sections::Report;
use crate::rig::Implausible;
use crate::study::plan::Plan;

/// How many things to do are named.
const MOST: usize = 3;

impl Report<'_> {
    /// What to do next: the plan, what to measure, what to fill in. How many of the keys to fill in are named here comes
    /// back.
    pub fn what_to_do(&mut self, plan: Option<&Plan>) -> usize {
        match self.findings().assessment.verdict {
            RigVerdict::Unsure => self.measure(),
            RigVerdict::Incomplete => return self.fill_in(),
            RigVerdict::Fail | RigVerdict::Pass => {}
        }
        if let Some(plan) = plan {
            let doubted: Vec<String> = self.implausible().map(|value| value.key.to_string()).collect();
            self.document.append(plan::section(plan, &doubted, self.units()));
        }
        0
    }

    /// What to measure, what makes most of the worst doubt first.
    fn measure(&mut self) {
        let misread = self.implausible().map(|value| {
            let key = Text::of(Role::Key, &value.key.to_string());
            key.then(" (no such rig has this value): read it again, its digits and its unit.")
        });
        let doubtful = self.to_measure();
        let doubtful = doubtful
            .iter()
            .map(|doubtful| Text::of(Role::Key, &doubtful.key.to_string()).then(&doubtful.why));
        let steps: Vec<Text> = misread.chain(doubtful).take(MOST).collect();
        if steps.is_empty() {
            return;
        }
        self.document.heading("What to measure");
        for (i, step) in steps.into_iter().enumerate() {
            self.document.fact((i + 1).to_string(), step);
        }
    }

    /// The values that no such rig has.
    pub fn implausible(&self) -> impl Iterator<Item = &Implausible> {
        self.findings().assessment.reasons.iter().flat_map(|reason| match reason {
            Reason::Implausible(values) => values.as_slice(),
            _ => &[],
        })
    }

    /// What to fill in first: what a verdict needs.
    fn fill_in(&mut self) -> usize {
        let gaps = self.gaps();
        let needed = gaps.iter().take_while(|gap| gap.is_needed()).take(MOST);
        let named = needed.clone().count();
        if named > 0 {
            self.document.heading("What to fill in");
        }
        for (i, gap) in needed.enumerate() {
            let text = Text::of(Role::Key, &gap.key).then(&format!(": {} For {}.", gap.how, gap.what_for()));
            self.document.fact((i + 1).to_string(), text);
        }
        named
    }

    /// More keys to fill in, a line each, beyond those that were named.
    pub fn keys_to_fill_in(&mut self, named: usize, most: usize) {
        let gaps = self.gaps();
        if gaps.len() <= named || most == 0 {
            return;
        }
        self.document.heading("Not checked: what to fill in");
        self.document.list(
            gaps.iter()
                .skip(named)
                .take(most)
                .map(|gap| Text::of(Role::Key, &gap.key).then(&format!(" for {}", gap.what_for()))),
        );
    }
}
