//! The report for a person at a kitchen table: 80 columns, words before colour.

use super::{Subject, words};
use crate::fit::{CaseLoads, Cure, Findings, Judge, Measure, Of, RigVerdict, Room, Row, Verdict};
use crate::quantity::show::{UnitSystem, degrees, percent};
use crate::quantity::{Length, Quantity, Share, Weight};
use crate::rig::{Key, Rig};
use std::fmt::Write;

/// The width of a report.
const WIDTH: usize = 80;
/// How many cases stand side by side.
const CASES_ABREAST: usize = 3;

/// The marks put around words of each colour; all empty for plain text.
#[derive(Debug, Clone, Default)]
pub struct Palette {
    /// Around what fails.
    pub bad: (String, String),
    /// Around what needs attention.
    pub warn: (String, String),
    /// Around what passes.
    pub good: (String, String),
    /// Around headings.
    pub heading: (String, String),
}

/// One rig's report.
pub fn report(subject: &Subject<'_>, palette: &Palette) -> String {
    let mut page = Page::new(subject, palette, |_| true);
    page.verdict();
    page.proposal();
    // What fails outranks what is unsure, which outranks what only advises.
    if subject.findings.assessment.verdict == RigVerdict::Fail {
        page.cures();
        page.doubts();
    } else {
        page.doubts();
        page.cures();
    }
    page.measure_first();
    page.balance();
    page.checks();
    page.samples();
    page.not_checked();
    page.assumed();
    page.cautions();
    page.out
}

/// A text as lines of at most the report's width, each behind the indent.
pub(super) fn wrap(text: &str, indent: usize) -> String {
    wrap_under(text, indent, indent)
}

/// As [`wrap`], with the first line indented otherwise.
pub(super) fn wrap_under(text: &str, first: usize, indent: usize) -> String {
    let mut out = " ".repeat(first);
    let mut column = first;
    let mut fresh = true;
    for word in text.replace(" %", "\u{a0}%").split_ascii_whitespace() {
        let word = word.replace('\u{a0}', " ");
        let length = word.chars().count();
        if !fresh && column + 1 + length > WIDTH {
            out.push('\n');
            out.push_str(&" ".repeat(indent));
            column = indent;
            fresh = true;
        }
        if !fresh {
            out.push(' ');
            column += 1;
        }
        out.push_str(&word);
        column += length;
        fresh = false;
    }
    out.push('\n');
    out
}

/// A report in the making.
pub(super) struct Page<'a> {
    pub subject: Subject<'a>,
    palette: &'a Palette,
    /// Which checks the report is about.
    about: fn(&Row) -> bool,
    pub out: String,
}

impl<'a> Page<'a> {
    pub fn new(subject: &Subject<'a>, palette: &'a Palette, about: fn(&Row) -> bool) -> Self {
        Self { subject: *subject, palette, about, out: String::new() }
    }

    pub fn rig(&self) -> &'a Rig {
        self.subject.rig
    }

    pub fn findings(&self) -> &'a Findings {
        self.subject.findings
    }

    fn units(&self) -> UnitSystem {
        self.subject.units
    }

    pub fn line(&mut self, line: &str) {
        self.out.push_str(line.trim_end());
        self.out.push('\n');
    }

    pub fn heading(&mut self, heading: &str) {
        let (on, off) = &self.palette.heading;
        let _ = writeln!(self.out, "\n{on}{heading}{off}");
    }

    pub fn mark(&self, verdict: Verdict) -> &'a (String, String) {
        match verdict {
            Verdict::Fail => &self.palette.bad,
            Verdict::Advise | Verdict::Unsure | Verdict::Thin | Verdict::NotChecked => &self.palette.warn,
            Verdict::Pass => &self.palette.good,
        }
    }

    /// The rows that the report is about.
    fn rows(&self) -> impl Iterator<Item = &'a Row> + use<'a> {
        let about = self.about;
        self.findings().assessment.rows.iter().filter(move |row| about(row))
    }

    /// The worst row outside its limits, failing ones first.
    pub fn worst_outside(&self) -> Option<&'a Row> {
        let outside = self.rows().filter(|row| matches!(row.verdict, Verdict::Fail | Verdict::Advise));
        outside.min_by(|a, b| worst_first(a, b))
    }

    fn outside(&self) -> Vec<&'a Row> {
        let mut rows: Vec<&Row> = self.rows().collect();
        rows.retain(|row| row.verdict == Verdict::Fail);
        rows.sort_by(|a, b| severity(b).total_cmp(&severity(a)));
        rows
    }

    fn verdict(&mut self) {
        let found = &self.findings().assessment;
        let (word, mark) = match found.verdict {
            RigVerdict::Pass => ("PASS", &self.palette.good),
            RigVerdict::Fail => ("FAIL", &self.palette.bad),
            RigVerdict::Incomplete => ("INCOMPLETE", &self.palette.warn),
            RigVerdict::Unsure => ("UNSURE", &self.palette.warn),
        };
        let name = self.subject.name();
        let head = format!("{}{word}{}  {name}", mark.0, mark.1);
        let reason = self.reason(found.verdict);
        self.line(&head);
        self.out.push_str(&wrap(&reason, 2));
    }

    /// Why the verdict is what it is, in one sentence and what goes with it.
    fn reason(&self, verdict: RigVerdict) -> String {
        let found = &self.findings().assessment;
        let not_made = found.rows.iter().filter(|row| row.verdict == Verdict::NotChecked).count();
        let unmade = match not_made {
            0 => String::new(),
            1 => " 1 check was not made.".to_string(),
            n => format!(" {n} checks were not made."),
        };
        match verdict {
            RigVerdict::Fail => {
                let failing = self.outside();
                let Some(worst) = failing.first() else { return unmade };
                let several = worst.case.filter(|_| found.cases.len() > 1);
                let place = several.map(|case| format!(" in \"{}\"", words::case(self.rig(), case)));
                let others = match failing.len() - 1 {
                    0 => String::new(),
                    1 => " 1 more check fails.".to_string(),
                    n => format!(" {n} more checks fail."),
                };
                let fault = capital(&words::fault(worst, self.units()));
                let tightest = weakest_link(&found.rows).unwrap_or_default();
                let unsure = self.also_unsure();
                format!("{fault}{}.{others}{unsure}{tightest}{unmade}", place.unwrap_or_default())
            }
            RigVerdict::Incomplete => {
                let core =
                    found.rows.iter().filter(|row| row.check.core && row.verdict == Verdict::NotChecked);
                format!(
                    "Nothing that could be checked fails, but {} of the checks that a verdict needs could not be made; the keys to fill in are listed below.{}",
                    core.count(),
                    self.also_unsure()
                )
            }
            RigVerdict::Unsure => format!("{}{unmade}", self.why_unsure()),
            RigVerdict::Pass => {
                let cases = match found.cases.len() {
                    1 => "its load case".to_string(),
                    2 => "both load cases".to_string(),
                    n => format!("all {n} load cases"),
                };
                let tightest = weakest_link(&found.rows).unwrap_or_default();
                let advising = found.rows.iter().filter(|row| row.verdict == Verdict::Advise).count();
                let advising = match advising {
                    0 => String::new(),
                    1 => " 1 check that only advises is outside its limit.".to_string(),
                    n => format!(" {n} checks that only advise are outside their limits."),
                };
                format!("Every check that counts holds in {cases}.{tightest}{advising}{unmade}")
            }
        }
    }

    fn proposal(&mut self) {
        let setup = &self.rig().proposed;
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
        let changed = self.rig().changes.iter().filter(|change| !change.starts_with("shift.")).cloned();
        let proposed: Vec<String> = moved.chain(changed).collect();
        if !proposed.is_empty() {
            let text = format!("As proposed: {}.", proposed.join("; "));
            self.out.push_str(&wrap_under(&text, 2, 4));
        }
    }

    pub fn cures(&mut self) {
        let findings = self.findings();
        let mut sorted: Vec<(&Row, &Vec<Cure>)> =
            findings.cures.iter().map(|(i, cures)| (&findings.assessment.rows[*i], cures)).collect();
        sorted.retain(|(row, _)| (self.about)(row));
        if sorted.is_empty() {
            return;
        }
        sorted.sort_by(|(a, _), (b, _)| worst_first(a, b));
        let lines: Vec<(String, String, Vec<String>)> = sorted
            .iter()
            .map(|(row, cures)| {
                let advises = if row.counts { "" } else { " (advises only)" };
                let several = row.case.filter(|_| findings.assessment.cases.len() > 1);
                let case = several.map(|case| format!(" [case {}]", case + 1)).unwrap_or_default();
                let several = row.ramp.filter(|_| self.rig().proposed.ramps.len() > 1);
                let ramp = several.map(|ramp| format!(" [{}]", words::ramp(self.rig(), ramp)));
                let case = case + &ramp.unwrap_or_default();
                let fault = format!("{}: {}{case}{advises}", row.id(), words::fault(row, self.units()));
                (row.id(), fault, cures.iter().map(|cure| self.cure(row, cure)).collect())
            })
            .collect();
        let fails = sorted.iter().any(|(row, _)| row.verdict == Verdict::Fail);
        self.heading(if fails {
            "What would cure it, each on its own"
        } else {
            "What is advised, and what would meet it"
        });
        let mut told: Option<(&str, &[String])> = None;
        for (id, fault, cures) in &lines {
            self.out.push_str(&wrap_under(fault, 2, 4));
            // Axles that share alike are cured alike.
            if let Some((before, same)) = told
                && same == cures
                && !cures.is_empty()
            {
                self.line(&format!("      - as for {before}"));
                continue;
            }
            for (i, cure) in cures.iter().enumerate() {
                let or = if i == 0 { "- " } else { "- or " };
                self.out.push_str(&wrap_under(&format!("{or}{cure}"), 6, 8));
            }
            told = Some((id, cures));
        }
        self.line("  More on any of them: bunkline explain ID");
    }

    fn cure(&self, row: &Row, cure: &Cure) -> String {
        let units = self.units();
        match cure {
            Cure::Rating(at_least) => {
                let part = match row.check.measure {
                    Measure::Weight => weight_at_least(row, at_least.si(), units),
                    Measure::Share | Measure::Length | Measure::Stress | Measure::Deflection => {
                        words::amount(*at_least, units)
                    }
                };
                format!("a rating of {part} or more")
            }
            Cure::RatingOfEach(at_least) => {
                let part = weight_at_least(row, at_least.si(), units);
                format!("a rating of {part} or more for each tire and wheel")
            }
            Cure::Size(size) => format!("a part of {}", words::amount(*size, units)),
            Cure::Shed(weight) => {
                format!(
                    "{} less in the boat, at its centre of gravity",
                    weight_at_least(row, weight.si(), units)
                )
            }
            Cure::Raise(by) => {
                let way = if by.si() < 0.0 { "lower" } else { "higher" };
                format!("set it {} {way}", units.distance(by.abs()))
            }
            Cure::RaiseBoat(by) => {
                format!("the boat {} higher on its bunks, by spacers", units.distance_at_least(*by))
            }
            Cure::MoveBoat { by, room, breaks, worsens } => {
                let room = match room {
                    Room::Within => "within the file's travel".to_string(),
                    Room::Beyond(reach) => {
                        format!("beyond the file's travel, {}", words::reach(*reach, units))
                    }
                    Room::Unstated => "the file states no travel.boat".to_string(),
                };
                let breaks = match breaks.len() {
                    0 => String::new(),
                    1..=3 => format!("; then {} would fail", breaks.join(", ")),
                    n => format!("; then {} and {} more would fail", breaks[..2].join(", "), n - 2),
                };
                let worse = match worsens.len() {
                    0 => String::new(),
                    1 => format!("; {} gets worse", worsens[0]),
                    n => format!("; {} and {} more get worse", worsens[0], n - 1),
                };
                format!("the boat {} ({room}{breaks}{worse})", move_at_least(*by, units))
            }
        }
    }

    fn balance(&mut self) {
        self.heading("Weights and balance, level ground");
        let cases = self.findings().assessment.cases.len();
        for first in (0..cases).step_by(CASES_ABREAST) {
            let block = first..cases.min(first + CASES_ABREAST);
            if cases > 1 {
                for case in block.clone() {
                    let name = words::case(self.rig(), case);
                    let reference = if case == 0 { " (reference)" } else { "" };
                    let text = format!("case {}: {name}{reference}", case + 1);
                    self.out.push_str(&wrap_under(&text, 2, 4));
                }
                let heads: Vec<String> = block.clone().map(|case| format!("case {}", case + 1)).collect();
                self.row("", &heads);
            }
            for (label, cells) in self.balance_rows(block) {
                self.row(&label, &cells);
            }
        }
    }

    fn row(&mut self, label: &str, cells: &[String]) {
        let mut line = format!("  {label:<27}");
        for cell in cells {
            let _ = write!(line, "{cell:>17}");
        }
        self.line(&line);
    }

    fn balance_rows(&self, block: std::ops::Range<usize>) -> Vec<(String, Vec<String>)> {
        let cases = &self.findings().assessment.cases[block];
        let axles = self.rig().proposed.trailer.axles.len();
        let units = self.units();
        let mut rows: Vec<(String, Vec<String>)> = Vec::new();
        let mut add = |label: String, value: &dyn Fn(&CaseLoads) -> Option<String>| {
            let cells = cases.iter().map(|case| value(case).unwrap_or_else(|| "unknown".to_string()));
            rows.push((label, cells.collect()));
        };
        let show = |weight: Weight| units.weight(weight);
        add("boat with all aboard".into(), &|case| case.boat.clone().ok().map(show));
        add("gross trailer weight".into(), &|case| case.gross.clone().ok().map(show));
        add("CG behind the ball".into(), &|case| {
            case.body.as_ref().ok().map(|body| units.rough_length(body.at.x))
        });
        add("CG above ground".into(), &|case| {
            let level = self.rig().proposed.trailer.level_ball_height?;
            case.body.as_ref().ok().map(|body| units.rough_length(body.at.z + level))
        });
        add("tongue weight".into(), &|case| {
            case.level.as_ref().ok().map(|level| show(level.stance.tongue_weight))
        });
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
        if self.rig().proposed.tow.is_described() {
            add("tow vehicle, front axle".into(), &|case| case.tow.as_ref().ok().map(|tow| show(tow.front)));
            add("tow vehicle, rear axle".into(), &|case| case.tow.as_ref().ok().map(|tow| show(tow.rear)));
            add("tow vehicle and trailer".into(), &|case| case.combination.clone().ok().map(show));
        }
        rows
    }

    pub fn checks(&mut self) {
        let mut rows: Vec<&Row> = self.rows().collect();
        rows.retain(|row| row.verdict != Verdict::NotChecked);
        if rows.is_empty() {
            return;
        }
        rows.sort_by(|a, b| worst_first(a, b));
        let lines: Vec<String> = rows.iter().map(|row| self.check_line(row)).collect();
        let at_worst: Vec<Option<String>> = rows.iter().map(|row| self.outside_at_worst(row)).collect();
        self.heading("Checks, worst first");
        self.line(&check_columns("", "check", "load", "limit", "left", "used", "case"));
        for (line, at_worst) in lines.iter().zip(&at_worst) {
            self.line(line);
            if let Some(left) = at_worst {
                self.line(&format!("{:>58}{left:>10}", "at the worst:"));
            }
        }
        if at_worst.iter().any(Option::is_some) {
            let text = "at the worst: with every ± of the file at the end that is worse for the check; told where that is outside its limits.";
            self.out.push_str(&wrap(text, 2));
        }
        if rows.iter().any(|row| row.verdict == Verdict::Thin) {
            let thin = self.rig().proposed.policy.thin_margin.unwrap_or_default();
            let text =
                format!("thin: it passes, with less than {} of the rating or band left.", percent(thin));
            self.out.push_str(&wrap(&text, 2));
        }
    }

    fn check_line(&self, row: &Row) -> String {
        let units = self.units();
        let show = |value: Option<crate::fit::Amount>| {
            value.map(|value| match value {
                // What a settled rig clears is known no finer.
                crate::fit::Amount::Length(length) if row.is_about_ramps() => units.rough_distance(length),
                other => words::amount(other, units),
            })
        };
        let (min, max) = (show(row.min).unwrap_or_default(), show(row.max).unwrap_or_default());
        let limit = match row.check.judge {
            Judge::Rating | Judge::Ceiling => format!("up to {max}"),
            Judge::FlooredRating if row.min.is_none() => format!("up to {max}"),
            Judge::SignedRating => format!("0 to {max}"),
            Judge::Band | Judge::FlooredRating => format!("{min} to {max}"),
            Judge::Floor => format!("from {min}"),
            Judge::Size => max,
        };
        let used = match row.check.judge {
            // The place inside a band is no share of a rating.
            Judge::Band => None,
            _ => row.used.map(words::used),
        };
        let left = match row.check.judge {
            Judge::Size => String::new(),
            _ => show(row.margin).unwrap_or_default(),
        };
        let word = match row.verdict {
            Verdict::Fail => "FAIL",
            other => words::verdict(other),
        };
        let case = row.case.map(|case| (case + 1).to_string()).unwrap_or_default();
        let plain = check_columns(
            word,
            &row.id(),
            &show(row.load).unwrap_or_default(),
            &limit,
            &left,
            &used.unwrap_or_default(),
            &case,
        );
        let (on, off) = self.mark(row.verdict);
        plain.replacen(word, &format!("{on}{word}{off}"), 1)
    }

    pub fn not_checked(&mut self) {
        let rows: Vec<&Row> = self.rows().filter(|row| row.verdict == Verdict::NotChecked).collect();
        if rows.is_empty() {
            return;
        }
        let (rows, restless): (Vec<&Row>, Vec<&Row>) =
            rows.into_iter().partition(|row| !row.missing.is_empty());
        if !restless.is_empty() {
            self.heading("Not made, though no key is missing");
            let ids: Vec<String> = restless.iter().map(|row| row.id()).collect();
            let text = format!("{}: what fails, or a caution, says why", ids.join(", "));
            self.out.push_str(&wrap_under(&text, 2, 4));
        }
        if rows.is_empty() {
            return;
        }
        let mut gaps: Vec<(Key, Vec<String>)> = Vec::new();
        for row in &rows {
            for key in &row.missing {
                match gaps.iter_mut().find(|(known, _)| known == key) {
                    Some((_, ids)) => ids.push(row.id()),
                    None => gaps.push((*key, vec![row.id()])),
                }
            }
        }
        let axles = self.rig().proposed.trailer.axles.len();
        let gaps = same_on_all_axles(&gaps, axles);
        // Where no key is missing a caution says why.
        if gaps.is_empty() {
            return;
        }
        self.heading("Not checked: what to fill in");
        for (path, key, ids) in gaps {
            let Some(input) = key.input() else { continue };
            self.out.push_str(&wrap_under(&format!("{path}: {}. {}", input.meaning, input.how), 2, 6));
            let list = if ids.len() > 6 {
                format!("for {} and {} more", ids[..5].join(", "), ids.len() - 5)
            } else {
                format!("for {}", ids.join(", "))
            };
            self.out.push_str(&wrap(&list, 6));
        }
    }

    pub fn assumed(&mut self) {
        if self.rig().assumed.is_empty() {
            return;
        }
        let units = self.units();
        let lines: Vec<String> = self
            .rig()
            .assumed
            .iter()
            .map(|assumed| {
                format!("{} = {}: {}", assumed.key, words::assumed(assumed.value, units), assumed.why)
            })
            .collect();
        self.heading("Assumed where the file is silent");
        for line in lines {
            self.out.push_str(&wrap_under(&line, 2, 6));
        }
    }

    pub fn cautions(&mut self) {
        let (rig, units) = (self.rig(), self.units());
        let cautions = self.findings().cautions.iter();
        let lines: Vec<String> = cautions.map(|caution| words::caution(caution, rig, units)).collect();
        self.heading("Cautions");
        for line in lines {
            self.out.push_str(&wrap_under(&format!("- {line}"), 2, 4));
        }
    }
}

fn check_columns(
    verdict: &str,
    id: &str,
    load: &str,
    limit: &str,
    left: &str,
    used: &str,
    case: &str,
) -> String {
    let numbers = format!("{load:>10}  {limit:<19}{left:>10}{used:>7}{case:>5}");
    if id.chars().count() < 18 {
        format!("  {verdict:<7}{id:<18}{numbers}")
    } else {
        // A long id has a line of its own.
        format!("  {verdict:<7}{id}\n{:27}{numbers}", "")
    }
}

/// Keys that are missing on every axle, named once for all.
fn same_on_all_axles(gaps: &[(Key, Vec<String>)], axles: usize) -> Vec<(String, Key, Vec<String>)> {
    let mut merged: Vec<(String, Key, Vec<String>)> = Vec::new();
    for (key, ids) in gaps {
        let of_axles = key.path.starts_with("trailer.axles.*");
        let count = gaps.iter().filter(|(other, _)| other.path == key.path).count();
        let path = if of_axles && axles > 1 && count == axles {
            key.path.replace('*', "all")
        } else {
            key.to_string()
        };
        match merged.iter_mut().find(|(known, _, _)| *known == path) {
            Some((_, _, known)) => {
                for id in ids {
                    if !known.contains(id) {
                        known.push(id.clone());
                    }
                }
            }
            None => merged.push((path, *key, ids.clone())),
        }
    }
    merged
}

/// How far outside a row is: what has no rating outranks what has.
fn severity(row: &Row) -> f64 {
    row.used.map_or(f64::INFINITY, |used| if used.si() < 0.0 { f64::INFINITY } else { used.si() })
}

fn rank(verdict: Verdict) -> u8 {
    match verdict {
        Verdict::Fail => 0,
        Verdict::Advise => 1,
        Verdict::Unsure => 2,
        Verdict::Thin => 3,
        Verdict::Pass => 4,
        Verdict::NotChecked => 5,
    }
}

/// Failing rows first, and within a verdict the most used first.
pub(super) fn worst_first(a: &Row, b: &Row) -> std::cmp::Ordering {
    let used = |row: &Row| match row.verdict {
        // Sizes and floors that hold use nothing.
        Verdict::Fail | Verdict::Advise => severity(row),
        _ => row.used.map_or(f64::NEG_INFINITY, Quantity::si),
    };
    rank(a.verdict).cmp(&rank(b.verdict)).then(used(b).total_cmp(&used(a)))
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

/// A row's name in a sentence.
pub(super) fn the(row: &Row) -> String {
    let name = row.name();
    if matches!(row.of, Of::Axle(_)) && name.starts_with("axle") { name } else { format!("the {name}") }
}

pub(super) fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map(|first| first.to_uppercase().chain(chars).collect()).unwrap_or_default()
}

/// A weight rounded up to the next whole unit, or ten of them over a ramp, whose peaks are known no closer:
/// what is asked for must suffice.
fn weight_at_least(row: &Row, si: f64, units: UnitSystem) -> String {
    let step = if row.is_about_ramps() { 10.0 } else { 1.0 };
    let number = units.weight_number(Weight::from_si(si));
    // A whole number that arithmetic left a hair above itself stays.
    let steps = ((number - 1e-6) / step).ceil();
    format!("{} {}", crate::quantity::show::whole(steps * step), units.weight_unit())
}

/// A move rounded away from zero to what a tape can set.
fn move_at_least(by: Length, units: UnitSystem) -> String {
    let step = match units {
        UnitSystem::Us => 0.0254 / 4.0,
        UnitSystem::Metric => 0.005,
    };
    let steps = (by.si().abs() / step - 1e-6).ceil();
    words::aft(Length::from_si(by.si().signum() * steps * step), units)
}
