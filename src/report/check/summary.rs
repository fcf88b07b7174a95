//! A table of several rigs, a line each.

use crate::fit::{Judge, RigVerdict, Row};
use crate::report::Subject;
use crate::report::document::{Cell, Document, Holds, Role, Table, Text};
use crate::report::sections::Report;
use crate::report::words;

/// One rig of several.
#[derive(Debug, Clone, PartialEq)]
pub struct RigLine {
    path: String,
    /// None where the file could not be read.
    verdict: Option<RigVerdict>,
    /// The tongue's share of the gross weight.
    tongue: String,
    /// What is worst, what is lacking, or what is tightest.
    what: String,
}

impl RigLine {
    /// The line of a rig.
    pub fn of(subject: &Subject<'_>) -> Self {
        let found = &subject.findings.assessment;
        let share = found.check("tongue-share").and_then(|row| row.load);
        Self {
            path: subject.path.to_string(),
            verdict: Some(found.verdict),
            tongue: share.map_or("-".to_string(), |share| words::amount(share, subject.units)),
            what: what(subject),
        }
    }

    /// The line of a file that could not be read, or whose rig does not settle; `place` is where that shows.
    pub fn unread(path: &str, place: Option<&str>) -> Self {
        // The path itself stands beside it.
        let place = place.map(|place| place.strip_prefix(path).unwrap_or(place).trim_start_matches(':'));
        let place = place.filter(|place| !place.is_empty());
        let what = place.map(|place| format!("at {place}")).unwrap_or_default();
        Self { path: path.to_string(), verdict: None, tongue: "-".to_string(), what }
    }

    /// How bad it is, the worst least.
    fn rank(&self) -> u8 {
        match self.verdict {
            None => 0,
            Some(RigVerdict::Fail) => 1,
            Some(RigVerdict::Unsure) => 2,
            Some(RigVerdict::Incomplete) => 3,
            Some(RigVerdict::Pass) => 4,
        }
    }
}

/// What there is to say of a rig in a few words.
fn what(subject: &Subject<'_>) -> String {
    let found = &subject.findings.assessment;
    let report = Report::new(subject, None);
    match found.verdict {
        RigVerdict::Fail => report.faults().first().map(|cause| brief(cause.worst)).unwrap_or_default(),
        RigVerdict::Unsure => match (report.unsure().first(), report.implausible().next()) {
            (_, Some(value)) => format!("is {} right?", value.key),
            (Some((_, row)), None) => row.id(),
            (None, None) => String::new(),
        },
        RigVerdict::Incomplete => {
            let gaps = report.gaps();
            gaps.first().map(|gap| format!("needs {}", gap.key)).unwrap_or_default()
        }
        RigVerdict::Pass => found.tightest().map(|(row, _)| brief(row)).unwrap_or_default(),
    }
}

/// A row in a few words.
fn brief(row: &Row) -> String {
    match row.deciding().used.filter(|used| row.check.judge != Judge::Band && used.value >= 0.0) {
        Some(used) => format!("{} at {}", row.id(), words::used(used)),
        None => row.id(),
    }
}

/// The folder that all of several files lie in, with the bar at its end; empty where there is none.
fn folder(lines: &[RigLine]) -> &str {
    let Some((first, others)) = lines.split_first().filter(|(_, others)| !others.is_empty()) else {
        return "";
    };
    let mut folder = &first.path[..first.path.rfind('/').map_or(0, |bar| bar + 1)];
    while !folder.is_empty() && others.iter().any(|line| !line.path.starts_with(folder)) {
        folder =
            folder.trim_end_matches('/').rsplit_once('/').map_or("", |(above, _)| &folder[..=above.len()]);
    }
    folder
}

/// Several rigs in a table, the worst first, each by its path inside the folder that they share; and which files beside them
/// were passed over.
pub fn summary(lines: &[RigLine], passed_over: &[String]) -> Document {
    let mut sorted: Vec<&RigLine> = lines.iter().collect();
    sorted.sort_by_key(|line| line.rank());
    let count = |verdict: Option<RigVerdict>| lines.iter().filter(|line| line.verdict == verdict).count();
    let counts = [
        (count(Some(RigVerdict::Pass)), ["passes", "pass"]),
        (count(Some(RigVerdict::Fail)), ["fails", "fail"]),
        (count(Some(RigVerdict::Unsure)), ["unsure", "unsure"]),
        (count(Some(RigVerdict::Incomplete)), ["incomplete", "incomplete"]),
        (count(None), ["not read", "not read"]),
    ];
    let counts = counts.iter().filter(|(count, _)| *count > 0);
    let counts =
        counts.map(|(count, [one, many])| format!("{count} {}", if *count == 1 { one } else { many }));
    let rigs = if lines.len() == 1 { "1 rig".to_string() } else { format!("{} rigs", lines.len()) };
    let mut document = Document::default();
    let folder = folder(lines);
    let inside = if folder.is_empty() { String::new() } else { format!(" in {folder}") };
    document.add_title(format!("{rigs}{inside}: {}", counts.collect::<Vec<_>>().join(", ")));
    let mut table = Table::new([
        (Holds::Words, ""),
        (Holds::Name, "rig"),
        (Holds::Numbers, "tongue"),
        (Holds::Words, "worst or tightest"),
    ]);
    for line in sorted {
        let (role, word) = match line.verdict {
            Some(verdict) => (words::rig_role(verdict), words::rig_verdict(verdict).to_uppercase()),
            None => (Role::Fail, "NOT READ".to_string()),
        };
        let cells = [&line.path[folder.len()..], &line.tongue, &line.what].map(Cell::from);
        table.rows.push([Text::of(role, &word).into()].into_iter().chain(cells).collect());
    }
    document.table(table);
    if !passed_over.is_empty() {
        let names: Vec<String> =
            passed_over.iter().map(|path| path.strip_prefix(folder).unwrap_or(path).to_string()).collect();
        document.paragraph(format!("Not rigs of their own, so not checked: {}.", words::some_of(&names)));
    }
    document
}
