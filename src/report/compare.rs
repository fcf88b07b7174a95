//! Several rigs side by side, for someone who has to choose.

use super::check::{named, within};
use super::document::{Cell, Column, Document, Holds, Item, Role, Table, Text};
use super::plan::steps;
use super::sections::families;
use super::words::listed;
use super::{text, words};
use crate::fit::{Group, Judge, RigVerdict, Row, Verdict};
use crate::quantity::Weight;
use crate::quantity::show::UnitSystem;
use crate::report::words::SCREENING;
use crate::study::compare::{Choice, Compared, Cost, Gap, Standing};
use unicode_width::UnicodeWidthStr;

/// The columns of a page that a rig takes at most.
const MOST_WIDE: usize = 18;
/// How many keys are named in a line.
const NAMED: usize = 6;

/// How rigs are ranked.
pub(super) const RANKED_BY: &str = "by verdict: PASS; UNSURE; FAIL with a plan after which it passes, or is unsure; \
     INCOMPLETE, the fewest missing checks first; INCOMPLETE with a GVWR too small for the boat on any trailer; the other \
     FAIL. Then by what it takes to make them fit: fewest checks \
     that still fail, fewest moves beyond the travel in the file, least weight ashore, fewest changes to the wood, fewest \
     parts, fewest moves; then by fewest checks that advise or are unsure";

/// Which file the boat comes from, where the others are trailers for it.
#[derive(Debug, Clone, Copy)]
pub struct BoatFile<'a>(pub &'a str);

/// The report of a comparison. `unread` are the files that could not be compared.
pub fn report(
    compared: &Compared,
    boat: Option<BoatFile<'_>>,
    unread: &[String],
    units: UnitSystem,
) -> Document {
    let names = short_names(&compared.choices);
    let mut page = Page { compared, names, units, document: Document::default() };
    page.document.add_title(page.answer());
    if let Some(BoatFile(path)) = boat {
        page.document.paragraph(format!(
            "The boat, its hitch and tow vehicle and all else are those of {path}. Of the other files only the title, [trailer], [travel] and [shift] are read."
        ));
    }
    if !unread.is_empty() {
        page.document.paragraph(format!("Not read, and so not here: {}.", unread.join(", ")));
    }
    page.document.paragraph(format!("Ranked {RANKED_BY}."));
    page.tables();
    if compared.is_alike && compared.choices.len() > 1 {
        page.document.paragraph("There is no difference: every check stands the same.");
    }
    page.cautions();
    page.sway();
    page.plans();
    page.gaps();
    page.document.paragraph(SCREENING);
    page.document
}

/// A word or two for each rig: its place, and its file's name.
fn short_names(choices: &[Choice]) -> Vec<String> {
    let stem = |name: &str| {
        let file = name.rsplit('/').next().unwrap_or(name);
        cut(file.strip_suffix(".toml").unwrap_or(file), MOST_WIDE - 3)
    };
    choices.iter().enumerate().map(|(i, choice)| format!("{} {}", i + 1, stem(&choice.name))).collect()
}

/// A text as far as so many letters.
fn cut(text: &str, most: usize) -> String {
    if text.chars().count() <= most {
        text.to_string()
    } else {
        text.chars().take(most - 1).chain(['~']).collect()
    }
}

struct Page<'a> {
    compared: &'a Compared,
    names: Vec<String>,
    units: UnitSystem,
    document: Document,
}

impl Page<'_> {
    /// The first line: which rig to look at.
    fn answer(&self) -> Text {
        let choices = &self.compared.choices;
        let Some(first) = choices.first() else { return Text::of(Role::Fail, "Nothing to compare") };
        let verdict = first.found.verdict;
        let passing = choices.iter().filter(|choice| choice.found.verdict == RigVerdict::Pass).count();
        let count = match (passing, choices.len()) {
            (1, 1) => "one rig".to_string(),
            (_, 1) => "one rig, no answer yet".to_string(),
            (0, n) => format!("no answer yet: none of {n} passes"),
            (1, n) => format!("1 of {n} passes"),
            (some, n) => format!("{some} of {n} pass"),
        };
        let lead = Text::of(words::rig_role(verdict), &words::rig_verdict(verdict).to_uppercase());
        let why = match first.standing() {
            Standing::Passes => ", as far as checked".to_string(),
            Standing::Unsure => "; nothing fails as stated, but a measurement decides".to_string(),
            Standing::PassesAfter => "; of those that can be made to fit it takes least".to_string(),
            Standing::UnsureAfter => "; after its plan a measurement decides".to_string(),
            Standing::Incomplete(missing) => {
                format!("; nothing checked fails, but {} missing", needed(missing))
            }
            Standing::IncompleteAfter(missing) => {
                format!("; after its plan nothing checked fails, but {} missing", needed(missing))
            }
            Standing::TooSmall => "; its GVWR is too small for the boat on any trailer".to_string(),
            Standing::Fails => "; whatever is done something fails".to_string(),
        };
        lead.then(&format!("  {}{why} ({count})", first.name))
    }

    /// A table with all rigs side by side, or as many as it takes.
    fn tables(&mut self) {
        let lines = self.lines();
        let wide = |cells: &mut dyn Iterator<Item = usize>| cells.max().unwrap_or(0);
        let label = wide(&mut lines.iter().map(|(label, _)| label.width()));
        let cells = lines.iter().flat_map(|(_, cells)| cells).map(|cell| cell.plain().width());
        let column = wide(&mut cells.chain(self.names.iter().map(|name| name.width())));
        let indent = 2;
        let fitting = ((text::WIDTH - label - indent) / (column + 2)).max(1);
        for from in (0..self.names.len()).step_by(fitting) {
            let to = (from + fitting).min(self.names.len());
            let of_rig = |name: &String| Column { holds: Holds::Words, heading: name.as_str().into() };
            let first = Column { holds: Holds::Words, heading: Text::default() };
            let columns = [first].into_iter().chain(self.names[from..to].iter().map(of_rig)).collect();
            // What is said of none of them is left out.
            let rows = lines.iter().filter(|(_, cells)| cells[from..to].iter().any(|cell| !cell.is_empty()));
            let row = |(label, cells): &(String, Vec<Text>)| {
                let cells = cells[from..to].iter().cloned().map(Cell::from);
                [Cell::from(label.as_str())].into_iter().chain(cells).collect()
            };
            self.document.table(Table { columns, rows: rows.map(row).collect() });
        }
    }

    /// The lines of the table, each with a cell for every rig.
    fn lines(&self) -> Vec<(String, Vec<Text>)> {
        let choices = &self.compared.choices;
        let verdict = |choice: &Choice| {
            let verdict = choice.found.verdict;
            Text::of(words::rig_role(verdict), &words::rig_verdict(verdict).to_uppercase())
        };
        let mut lines = vec![("Verdict".to_string(), choices.iter().map(verdict).collect())];
        let mut fails: Vec<usize> = Vec::new();
        for choice in choices {
            fails.push(choice.found.rows.iter().filter(|row| row.verdict == Verdict::Fail).count());
        }
        if fails.iter().any(|count| *count > 0) {
            lines.push((
                "Checks that fail".into(),
                fails.iter().map(|count| count.to_string().into()).collect(),
            ));
        }
        for group in self.compared.groups() {
            self.group(group, &mut lines);
        }
        lines.push((
            "To make it fit".to_string(),
            choices.iter().map(|choice| effort(choice).into()).collect(),
        ));
        let costs: Vec<Cost> = choices.iter().map(Choice::cost).collect();
        let mut count = |label: &str, of: &dyn Fn(&Cost) -> Option<String>| {
            if costs.iter().any(|cost| of(cost).is_some()) {
                let cells = costs.iter().map(|cost| of(cost).unwrap_or_default().into());
                lines.push((format!(". {label}"), cells.collect()));
            }
        };
        let some = |count: usize| (count > 0).then(|| count.to_string());
        count("still fails", &|cost| some(cost.fails));
        count("moves", &|cost| some(cost.moves));
        count("parts", &|cost| some(cost.parts));
        count("wood", &|cost| some(cost.wood));
        let units = self.units;
        count("ashore", &|cost| (cost.ashore > Weight::default()).then(|| units.weight(cost.ashore)));
        lines
    }

    /// The figures that govern a group, and below them what they are about where that differs.
    fn group(&self, group: Group, lines: &mut Vec<(String, Vec<Text>)>) {
        let rows: Vec<Option<&Row>> =
            self.compared.choices.iter().map(|choice| choice.governing(group)).collect();
        let cells = rows.iter().map(|row| row.map_or(Text::of(Role::Muted, "-"), |row| self.figure(row)));
        let cells: Vec<Text> = cells.collect();
        lines.push((named(group).to_string(), cells));
        if !matches!(group, Group::Weight | Group::Tongue) {
            let about = rows.iter().map(|row| row.map_or(String::new(), |row| within(group, row)));
            lines.push((
                String::new(),
                about.map(|about| Text::of(Role::Muted, &cut(&about, MOST_WIDE))).collect(),
            ));
        }
    }

    /// How a row stands: how much of its rating is used, or its load.
    fn figure(&self, row: &Row) -> Text {
        let used =
            row.deciding().used.filter(|_| matches!(row.check.judge, Judge::Rating | Judge::SignedRating));
        let load = || row.load.map(|load| words::amount(load, self.units)).unwrap_or_default();
        let figure = used.map_or_else(load, words::used);
        let word = match row.verdict {
            Verdict::Pass => "",
            Verdict::Fail => " FAIL",
            other => &format!(" {}", words::verdict(other)),
        };
        Text::from(figure).and(words::verdict_role(row.verdict), word)
    }

    /// A rig's number and the path of its file.
    fn full_name(&self, at: usize) -> String {
        format!("{} {}", at + 1, self.compared.choices[at].name)
    }

    /// What makes a rig look better than it is.
    fn cautions(&mut self) {
        for (choice, name) in self.compared.choices.iter().zip(&self.names) {
            for caution in &choice.cautions {
                self.document
                    .paragraph(format!("{name}: {}", words::caution(caution, &choice.rig, self.units)));
            }
        }
    }

    /// How the other rigs sway beside the first one.
    fn sway(&mut self) {
        let sways = self.compared.sway.iter().enumerate().filter_map(|(at, sway)| Some((at, (*sway)?)));
        let said =
            |(at, sway)| format!("{} is {}", self.names[at], words::sway(&sway, &self.names[0], self.units));
        let said: Vec<String> = sways.map(said).collect();
        if !said.is_empty() {
            self.document.paragraph(format!(
                "Sway beside {}: {}. {}",
                self.names[0],
                said.join("; "),
                words::NO_VERDICT_ON_SWAY
            ));
        }
    }

    /// What would make each rig fit.
    fn plans(&mut self) {
        let mut items = Vec::new();
        for (at, choice) in self.compared.choices.iter().enumerate() {
            let Some(plan) = &choice.plan else { continue };
            let after = match plan.after.fails.len() {
                _ if plan.steps.is_empty() => {
                    "nothing that a plan may change makes fewer checks fail".to_string()
                }
                0 if plan.after.verdict == RigVerdict::Unsure => {
                    "nothing fails then, but not all is sure".into()
                }
                0 if plan.after.verdict == RigVerdict::Incomplete => "nothing checked fails then".into(),
                0 => "nothing fails then".into(),
                _ => format!("{} still fails then", words::some_of(&plan.after.fails)),
            };
            let below = steps(plan, self.units).into_iter().map(Text::from).collect();
            items.push(Item { text: format!("{}: {after}", self.full_name(at)).into(), below });
        }
        if !items.is_empty() {
            self.document.heading("To make it fit");
            self.document.list(items);
        }
    }

    /// What cannot be compared.
    fn gaps(&mut self) {
        if self.compared.gaps.is_empty() {
            return;
        }
        self.document.heading("What cannot be compared, because it is missing");
        let items: Vec<Item> = self.compared.gaps.iter().map(|gap| self.gap(gap)).collect();
        self.document.list(items);
    }

    fn gap(&self, gap: &Gap) -> Item {
        let mut below = Vec::new();
        let subjects: Vec<String> = gap.subjects.iter().map(|subject| subject.name().to_string()).collect();
        if !subjects.is_empty() {
            below.push(Text::from(format!("nothing could be checked of {}", listed(&subjects))));
        }
        if !gap.checks.is_empty() {
            let keys = words::keys(&gap.keys);
            let shown: Vec<&str> = keys.iter().take(NAMED).map(String::as_str).collect();
            let more = keys.len() - shown.len();
            let more = if more > 0 { format!(" And {more} more.") } else { String::new() };
            let checks = families(&gap.checks.iter().collect::<Vec<_>>());
            below.push(format!("not checked: {}", words::some_of(&checks)).into());
            if !keys.is_empty() {
                below
                    .push(Text::from("to fill in: ").and(Role::Key, &words::abbreviated(&shown)).then(&more));
            }
        }
        Item { text: self.full_name(gap.choice).into(), below }
    }
}

/// So many checks that a verdict needs, with their verb.
fn needed(missing: usize) -> String {
    match missing {
        0 => "what a verdict needs is".to_string(),
        1 => "1 check that a verdict needs is".to_string(),
        some => format!("{some} checks that a verdict needs are"),
    }
}

/// What it takes to make a rig fit, in a word or two.
fn effort(choice: &Choice) -> &'static str {
    match (choice.found.verdict, &choice.plan) {
        (RigVerdict::Pass, _) => "nothing",
        (RigVerdict::Incomplete, _) => "not known yet",
        (RigVerdict::Unsure, _) => "measure first",
        (RigVerdict::Fail, Some(plan)) if plan.after.fails.is_empty() => "as listed below",
        (RigVerdict::Fail, _) => "not possible",
    }
}
