//! The last lines of a page: what holds, what is assumed, and what there was no room for.

use super::Lines;
use super::opening::tightest;
use crate::fit::{Caution, RigVerdict, Verdict};
use crate::report::sections::{Report, some_of};
use crate::report::words;

/// How many cases are named.
const CASES: usize = 6;

impl Report<'_> {
    /// What holds, what is assumed, and what is left to `--full`.
    pub(super) fn rest(&mut self, filled_in: usize, room: Lines) {
        let found = &self.findings().assessment;
        let holds = self.rows().filter(|row| matches!(row.verdict, Verdict::Pass | Verdict::Thin));
        let (holds, passes) = (holds.count(), found.verdict == RigVerdict::Pass);
        if !passes && holds > 0 {
            let checks = if holds == 1 { "1 check" } else { &format!("{holds} checks") };
            let tightest = if self.only.is_none() { tightest(found) } else { String::new() };
            self.document.fact("Holds", format!("{checks}. {tightest}").trim_end());
        }
        let cases = self.rig().proposed().cases.len();
        if cases > 1 && room.causes() > 0 && !self.faults().is_empty() {
            let named = (0..cases).map(|case| format!("{}: {}", case + 1, words::case(self.rig(), case)));
            self.document.fact("Cases", named.take(CASES).collect::<Vec<_>>().join("; "));
        }
        let assumed = self.rig().assumed();
        if !assumed.is_empty() {
            let keys: Vec<&str> = assumed.iter().map(|assumed| assumed.key.as_str()).collect();
            let pressure = self.sidewall_pressure().unwrap_or_default();
            self.document.fact("Assumed", format!("{} {pressure}", words::abbreviated(&keys)).trim_end());
        }
        let more = self.more(filled_in, room);
        let how = if self.only.is_none() { "--full, or --only bunks" } else { "--full" };
        self.document.fact("More", format!("{more}: {how}"));
        self.document.paragraph(words::SCREENING);
    }

    /// That tires are taken to be at the pressure of their rating, where the file does not say theirs: few are.
    fn sidewall_pressure(&self) -> Option<String> {
        let is_pressure = |key: &str| key.starts_with("trailer.axles.") && key.ends_with(".tires.pressure");
        self.rig().assumed().iter().find(|assumed| is_pressure(&assumed.key))?;
        let tires = self.rig().proposed().trailer.axles.iter().map(|axle| &axle.tires);
        let silent = tires.filter(|tires| tires.pressure.is_none());
        let mut most: Vec<String> =
            silent.filter_map(|tires| Some(self.units().inflation(tires.pressure_max?))).collect();
        most.dedup();
        let at = if most.is_empty() { String::new() } else { format!(": {}", most.join(", ")) };
        Some(format!("Tire pressure is assumed to be the sidewall's{at}."))
    }

    /// What there was no room for: checks by name where the names have room, else by count.
    fn more(&self, filled_in: usize, room: Lines) -> String {
        let [names_fails, names] = room.names;
        let faults = self.faults();
        let unnamed = faults.iter().skip(room.causes()).map(|fault| fault.worst);
        let unnamed = unnamed.filter(|row| !(names_fails && row.verdict == Verdict::Fail));
        let unnamed: Vec<String> = unnamed.map(crate::fit::Row::id).collect();
        let keys = self.gaps().len().saturating_sub(filled_in + room.keys);
        let (mut first, mut other) = (0, 0);
        for caution in &self.findings().cautions {
            match caution {
                // The last line says it.
                Caution::Screening | Caution::PlacardsGovern => {}
                caution if caution.stands_first() => first += 1,
                _ => other += 1,
            }
        }
        let cautions = other + usize::saturating_sub(first, room.cautions);
        let named = (names && !unnamed.is_empty()).then(|| some_of(&unnamed));
        let counted = [
            (if named.is_some() { 0 } else { unnamed.len() }, "check", "checks"),
            (keys, "key to fill in", "keys to fill in"),
            (cautions, "caution", "cautions"),
        ];
        let counted = counted
            .iter()
            .filter(|(count, ..)| *count > 0)
            .map(|(count, one, many)| format!("{count} {}", if *count == 1 { one } else { many }));
        let counted: Vec<String> = named.into_iter().chain(counted).collect();
        if counted.is_empty() { "all of it".to_string() } else { counted.join(", ") }
    }
}
