//! The first lines: the verdict, why, and what it did not look at.

use super::Flag;
use super::faults::{Fault, faults_of};
use crate::fit::{Assessment, Moved, NeverLoaded, RigVerdict, Row, Subject, Verdict};
use crate::quantity::Share;
use crate::report::document::Text;
use crate::report::sections::{Report, capital, families, some_of};
use crate::report::words;
use crate::rig::Part;

/// How many causes of a failure stand in whole sentences.
const CAUSES: usize = 2;
/// The letters of a title that have room in a line.
const TITLE: usize = 76;

impl Report<'_> {
    /// The verdict with its reason, and what was not covered.
    pub fn opening(&mut self, by_flag: Option<Flag>, most_cautions: usize) {
        let verdict = self.findings().assessment.verdict;
        let passes = verdict == RigVerdict::Pass;
        let mut title = self.headline();
        if passes {
            title = title.then(", as far as checked");
        }
        title = title.then(&by_flag.map(|flag| flagged(flag, verdict)).unwrap_or_default());
        self.document.add_title(title);
        if let Some(title) = &self.rig().proposed().title {
            self.document.paragraph(cut(title, TITLE));
        }
        let proposed = self.proposed();
        let uncovered = self.uncovered();
        let reason = self.reason(verdict);
        let first = match (passes, proposed.is_empty() || uncovered.is_empty()) {
            (false, _) => vec![proposed, reason, uncovered],
            (true, true) => vec![proposed, uncovered, reason],
            // A screen has no line to spare.
            (true, false) => vec![proposed.then(&format!(" {}", uncovered.plain())), reason],
        };
        for text in first.into_iter().filter(|text| !text.is_empty()) {
            self.document.paragraph(text);
        }
        let (rig, units) = (self.rig(), self.units());
        let cautions = self.findings().cautions.iter().filter(|caution| caution.stands_first());
        for caution in cautions.take(most_cautions) {
            self.document.paragraph(words::caution(caution, rig, units));
        }
    }

    /// Why the verdict is what it is: danger first.
    pub(super) fn reason(&self, verdict: RigVerdict) -> Text {
        let found = &self.findings().assessment;
        let dangers = faults_of(found.rows.iter().filter(|row| row.is_danger()));
        let mut said: Vec<String> = dangers.iter().take(CAUSES).map(|danger| self.cause(danger)).collect();
        match verdict {
            RigVerdict::Fail => said.extend(self.why_it_fails(CAUSES.saturating_sub(dangers.len()).max(1))),
            RigVerdict::Incomplete => said.extend([why_incomplete(found), self.also_unsure()]),
            RigVerdict::Unsure => said.push(self.why_unsure()),
            RigVerdict::Pass => said.push(why_it_passes(found)),
        }
        let reasons = found.reasons.iter().map(|reason| words::reason(reason, self.rig(), self.units()));
        said.extend(reasons.map(|reason| capital(&reason) + "."));
        if verdict == RigVerdict::Fail {
            said.push(format!("Do not {} as it is.", what_not_to_do(found)));
        }
        said.retain(|sentence| !sentence.is_empty());
        said.iter().map(|sentence| sentence.trim()).collect::<Vec<_>>().join(" ").into()
    }

    /// What fails beside any danger: so many causes in sentences, the others by count.
    fn why_it_fails(&self, most: usize) -> Vec<String> {
        let rows = &self.findings().assessment.rows;
        let fails = || rows.iter().filter(|row| row.verdict == Verdict::Fail);
        let causes = faults_of(fails().filter(|row| !row.is_danger()));
        let mut said: Vec<String> = causes.iter().take(most).map(|cause| self.cause(cause)).collect();
        if causes.len() > most {
            said.push(format!("In all, {} checks fail.", fails().count()));
        }
        said.push(self.also_unsure());
        if fails().all(|row| row.moved == Some(Moved::Counts)) {
            said.push("All that fails does so because policy.counts says that it counts.".to_string());
        }
        said
    }

    /// A cause in a sentence.
    fn cause(&self, cause: &Fault<'_>) -> String {
        let places = self.places(cause.worst.case, cause.worst.ramp);
        let places = if places.is_empty() { String::new() } else { format!(" ({})", places.join(", ")) };
        let with_it = match (cause.others.len(), cause.worst.verdict) {
            (0, _) => String::new(),
            (1, Verdict::Fail) => "; 1 more check fails by it".to_string(),
            (1, _) => "; 1 more check advises by it".to_string(),
            (n, Verdict::Fail) => format!("; {n} more checks fail by it"),
            (n, _) => format!("; {n} more checks advise by it"),
        };
        format!("{}{places}{with_it}.", capital(&words::fault(cause.worst, self.units())))
    }

    /// What is proposed, if anything: without it the verdict may be another.
    fn proposed(&self) -> Text {
        let shifted = words::shifted(self.rig().proposed(), self.units());
        let changed = self.rig().changes().iter().filter(|change| !change.starts_with("shift.")).cloned();
        let proposed: Vec<String> = shifted.into_iter().chain(changed).collect();
        if proposed.is_empty() {
            Text::default()
        } else {
            format!("As proposed: {}.", proposed.join("; ")).into()
        }
    }

    /// What the verdict did not look at: subjects, rows, and what is never aboard.
    fn uncovered(&self) -> Text {
        let found = &self.findings().assessment;
        let mut said = Vec::new();
        let subjects: Vec<&str> = found.not_covered.iter().map(|subject| subject.name()).collect();
        if !subjects.is_empty() {
            said.push(format!("Not covered: {}.", subjects.join(", ")));
        }
        let left_out: Vec<&Row> = found.left_out().collect();
        let rows = |count: usize| if count == 1 { "1 row".to_string() } else { format!("{count} rows") };
        let advising = found.only_advise_and_left_out();
        let advise = if advising == 1 { "that only advises" } else { "that only advise" };
        let named = families(&left_out).join(", ");
        match (left_out.len(), advising) {
            (0, 0) => {}
            (0, n) => said.push(format!("Not checked: {} {advise}.", rows(n))),
            (n, 0) => said.push(format!("{} not checked: {named}.", rows(n))),
            (some, n) => said.push(format!("{} not checked: {named}, and {n} {advise}.", rows(some + n))),
        }
        if self.rig().proposed().is_european() {
            said.push("By policy.rules = \"europe\".".to_string());
        }
        let absent: Vec<&str> = self.rig().proposed().hitch.absent().collect();
        if !absent.is_empty() {
            said.push(format!("Said to be none: {}.", absent.join(", ")));
        }
        let never = NeverLoaded::of(self.rig().proposed());
        if !never.is_empty() {
            let never: Vec<String> = never.iter().map(|never| self.never(never)).collect();
            said.push(format!("Never loaded: {}.", some_of(&never)));
        }
        said.join(" ").into()
    }

    fn never(&self, never: &NeverLoaded) -> String {
        let boat = &self.rig().proposed().boat;
        let named = |id: &Option<String>, item: &Option<String>, list: &str, i: usize| {
            id.clone().or_else(|| item.clone()).unwrap_or_else(|| format!("boat.{list}.{}", i + 1))
        };
        let name = match never.part {
            Part::Weight(i) => named(&boat.weights[i].id, &boat.weights[i].item, "weights", i),
            Part::Tank(i) => named(&boat.tanks[i].id, &boat.tanks[i].item, "tanks", i),
        };
        match never.at_most {
            Some(fill) => format!("{name} above {}", words::used(fill)),
            None => name,
        }
    }
}

/// What a flag has to do with the verdict.
fn flagged(flag: Flag, verdict: RigVerdict) -> String {
    match flag {
        Flag::AsStated(with_doubt) if with_doubt == verdict => ", as stated".to_string(),
        Flag::AsStated(RigVerdict::Fail) => ", as stated; with ± it fails".to_string(),
        Flag::AsStated(with_doubt) => {
            format!(", as stated; with ± it is {}", words::rig_verdict(with_doubt))
        }
        Flag::AllowIncomplete => ", allowed by --allow-incomplete".to_string(),
    }
}

/// What a rig that fails must not do: where nothing but launching fails, the road bears it.
fn what_not_to_do(found: &Assessment) -> &'static str {
    let mut fails = found.rows.iter().filter(|row| row.verdict == Verdict::Fail).peekable();
    let launching = fails.peek().is_some() && fails.all(|row| row.check.subject == Subject::Launch);
    if launching { "launch there" } else { "tow it" }
}

fn why_incomplete(found: &Assessment) -> String {
    let needed: Vec<&Row> =
        found.rows.iter().filter(|row| row.core && row.verdict == Verdict::NotChecked).collect();
    match needed.len() {
        0 if found.reasons.is_empty() => "No check that can fail could be evaluated.".to_string(),
        0 => "Nothing checked fails, but the verdict lacks something.".to_string(),
        1 => format!("Nothing checked fails. A verdict needs 1 more check: {}.", needed[0].id()),
        n => format!(
            "Nothing checked fails. A verdict needs {n} more checks: {}.",
            families(&needed).join(", ")
        ),
    }
}

fn why_it_passes(found: &Assessment) -> String {
    let cases = words::all_cases(found.cases.len());
    let advises = || found.rows.iter().filter(|row| row.verdict == Verdict::Advise);
    let advising = match advises().count() {
        0 => return format!("Every check holds in {cases}. {}", tightest(found)),
        1 => "1 more advises".to_string(),
        n => format!("{n} more advise"),
    };
    let by_range =
        advises().filter(|row| row.range.is_some() && row.margin.is_some_and(|margin| margin.si() >= 0.0));
    let advising = match by_range.count() {
        0 => advising,
        n => format!("{advising}, {n} only within the range of what is assumed"),
    };
    format!("Every check that can fail holds in {cases}; {advising}. {}", tightest(found))
}

/// Which rating is used most, and how much of it.
pub(super) fn tightest(found: &Assessment) -> String {
    let said = |(row, used): (&Row, Share)| format!("Tightest: {}, {}.", row.name(), words::used(used));
    found.tightest().map(said).unwrap_or_default()
}

/// A text, or its beginning where it is longer than so many letters.
fn cut(text: &str, most: usize) -> String {
    match text.char_indices().nth(most) {
        Some((at, _)) => format!("{} ...", text[..at].trim_end()),
        None => text.to_string(),
    }
}
