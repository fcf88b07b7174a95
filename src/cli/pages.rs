//! What `check` prints of its rigs once all are known: a table of several, the reports of those that do not pass, a suite
//! of test cases, or what got worse.

use super::baseline::Baseline;
use super::folder::Wanted;
use super::format::{self, Format};
use super::rigs::Trouble;
use super::stream::Streams;
use crate::report::baseline::{self, Changed, Unread};
use crate::report::check::{self, RigLine, junit};
use crate::report::document::Document;
use crate::report::json;

/// The report of one rig.
pub(super) enum Report {
    /// As JSON, printed at once.
    Line(String),
    /// For reading, with its line among several.
    Document(Document, RigLine),
    /// As a test case.
    Case(Box<junit::Case>),
    /// What became of it since a baseline.
    Since(Changed),
}

/// What there is to print when all rigs are known.
#[derive(Default)]
pub(super) struct Pages {
    lines: Vec<RigLine>,
    /// Each with whether it passes.
    reports: Vec<(Document, bool)>,
    cases: Vec<junit::Case>,
    changed: Vec<Changed>,
}

impl Pages {
    /// Takes a rig's report in; `passes` is whether the rig does.
    pub fn add(&mut self, report: Report, passes: bool, streams: &mut Streams) {
        match report {
            Report::Line(line) => streams.print(&line),
            Report::Document(document, line) => {
                self.lines.push(line);
                self.reports.push((document, passes));
            }
            Report::Case(case) => self.cases.push(*case),
            Report::Since(changed) => self.changed.push(changed),
        }
    }

    /// Takes in why a file gave no report. Who reads a page or a test report may not see the messages.
    pub fn add_unread(&mut self, path: &str, trouble: &Trouble, format: Format) {
        self.lines.push(RigLine::unread(path, trouble.place().as_deref()));
        match format {
            Format::Html | Format::Markdown => {
                self.reports.push((check::unread(path, &trouble.lines()), false));
            }
            Format::Junit => self.cases.push(junit::unread(path, &trouble.lines())),
            _ => {}
        }
    }

    /// Prints all of it: where one rig was asked for, its report.
    pub fn print(self, wanted: &Wanted, summary: bool, format: Format, streams: &mut Streams) {
        let mut parts = Vec::new();
        if wanted.several || summary {
            parts.push(check::summary(&self.lines, &wanted.passed_over));
        }
        let shown = self.reports.into_iter().filter(|(_, passes)| !summary && (!wanted.several || !passes));
        parts.extend(shown.map(|(document, _)| document));
        match format {
            Format::Json => {}
            Format::Junit => print_cases(self.cases, streams),
            _ => print_parts(parts, format, streams),
        }
    }

    /// Prints what got worse since a baseline, and which of its rigs are gone; nothing where all is as it was.
    pub fn print_since(mut self, since: &Baseline, unread: &Unread, format: Format, streams: &mut Streams) {
        match format {
            Format::Json => {
                let line = json::baseline::changes(&self.changed, unread);
                streams.print(&line.map(|line| line + "\n").unwrap_or_default());
            }
            Format::Junit => {
                self.cases.extend(unread.gone.iter().map(|path| junit::gone(path, &since.name)));
                print_cases(self.cases, streams);
            }
            _ => {
                let mut parts = vec![baseline::report(&since.name, &self.changed, unread)];
                parts.extend(self.reports.into_iter().map(|(document, _)| document));
                print_parts(parts, format, streams);
            }
        }
    }
}

fn print_cases(cases: Vec<junit::Case>, streams: &mut Streams) {
    streams.print(&junit::render(cases).unwrap_or_default());
}

fn print_parts(mut parts: Vec<Document>, format: Format, streams: &mut Streams) {
    parts.retain(|part| !part.blocks().is_empty());
    if format == Format::Html {
        // A page holds all rigs.
        let mut page = Document::default();
        for part in parts {
            page.append(part);
        }
        return format::print(&page, format, streams);
    }
    for (i, part) in parts.iter().enumerate() {
        if i > 0 {
            streams.print("\n");
        }
        format::print(part, format, streams);
    }
}
