//! A report that holds to a page: what matters least gives way until the rest fits.

use super::check::{CAUTIONS, PAGE};
use super::document::Document;
use super::sections::{Report, capital};
use super::text;
use super::words;
use crate::fit::Reason;

/// How many keys to fill in are named beside what was computed.
const KEYS: usize = 8;

/// How much of what was found a reader wants.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Extent {
    /// A page.
    #[default]
    Page,
    /// Everything.
    Full,
}

/// A part of a report, in the order of reading.
struct Section {
    document: Document,
    /// What it is called where there is no room for it, and how early it gives way, the greatest first; `None` of what
    /// always stays.
    gives_way: Option<(u8, String)>,
}

/// A report in the making that may have to hold to a page.
pub(super) struct Page<'a> {
    pub report: Report<'a>,
    sections: Vec<Section>,
}

/// Which of the file's figures were probably misread, a paragraph each.
pub(super) fn misread(report: &Report<'_>) -> Document {
    let mut doubts = Document::default();
    let is_misread =
        |reason: &&Reason| matches!(reason, Reason::Implausible(_) | Reason::Contradicted { .. });
    for reason in report.findings().assessment.reasons.iter().filter(is_misread) {
        let said = capital(&words::reason(reason, report.rig(), report.units()));
        doubts.paragraph(format!("{}.", said.trim_end_matches('.')));
    }
    doubts
}

impl<'a> Page<'a> {
    pub fn new(report: Report<'a>) -> Self {
        Self { report, sections: Vec::new() }
    }

    /// What was written since the last section always stays.
    pub fn stays(&mut self) {
        self.section(None);
    }

    /// What was written since the last section gives way where the page is full, the greatest rank first.
    pub fn gives_way(&mut self, rank: u8, name: impl Into<String>) {
        self.section(Some((rank, name.into())));
    }

    fn section(&mut self, gives_way: Option<(u8, String)>) {
        let document = std::mem::take(&mut self.report.document);
        if !document.blocks().is_empty() {
            self.sections.push(Section { document, gives_way });
        }
    }

    /// Keys to fill in, a line each: as many as there is room for where they are all that there is to answer.
    pub fn keys_to_fill_in(&mut self, answers: bool) {
        if answers {
            self.report.keys_to_fill_in(0, KEYS);
            self.gives_way(3, "keys to fill in");
        } else {
            self.report.keys_to_fill_in(0, PAGE);
            self.stays();
        }
    }

    /// Everything, with all that is missing, assumed and to be known.
    pub fn whole(mut self) -> Document {
        let doubts = misread(&self.report);
        if let Some(verdict) = self.sections.first_mut() {
            verdict.document.append(doubts);
        }
        self.report.not_checked();
        self.report.assumed();
        self.report.cautions();
        self.stays();
        self.joined()
    }

    /// As much as a page holds, and by name what it had no room for.
    pub fn fitted(mut self) -> Document {
        let dangers = self.dangers();
        if let Some(verdict) = self.sections.first_mut() {
            verdict.document.append(dangers);
        }
        let mut left_out: Vec<String> = Vec::new();
        loop {
            let mut page = self.joined();
            page.append(self.ending(&left_out));
            if text::lines(&page) <= PAGE {
                return page;
            }
            let ranks = self.sections.iter().enumerate();
            let ranks = ranks.filter_map(|(i, section)| Some((section.gives_way.as_ref()?.0, i)));
            if let Some((_, i)) = ranks.max() {
                let section = &mut self.sections[i];
                left_out.extend(section.gives_way.take().map(|(_, name)| name));
                section.document = std::mem::take(&mut section.document).pictures_alone();
                continue;
            }
            // Only long lists are left to be cut.
            let longest = self.sections.iter_mut().max_by_key(|section| section.document.longest());
            if !longest.is_some_and(|section| section.document.shorten()) {
                return page;
            }
            let cut = "the ends of lists".to_string();
            if !left_out.contains(&cut) {
                left_out.push(cut);
            }
        }
    }

    fn joined(&self) -> Document {
        let mut all = Document::default();
        for section in &self.sections {
            all.append(section.document.clone());
        }
        all
    }

    /// What stands beside the verdict: figures that were probably misread, and the cautions that come first.
    fn dangers(&self) -> Document {
        let (rig, units) = (self.report.rig(), self.report.units());
        let mut dangers = misread(&self.report);
        let first = self.report.findings().cautions.iter().filter(|caution| caution.stands_first());
        for caution in first.take(CAUTIONS) {
            dangers.paragraph(words::caution(caution, rig, units));
        }
        dangers
    }

    /// The last lines of a page.
    fn ending(&self, left_out: &[String]) -> Document {
        let mut ending = Report::new(&self.report.subject, self.report.only).document;
        let assumed: Vec<&str> =
            self.report.rig().assumed().iter().map(|assumed| assumed.key.as_str()).collect();
        if !assumed.is_empty() {
            ending.fact("Assumed", words::abbreviated(&assumed));
        }
        let more = if left_out.is_empty() { "all of it".to_string() } else { left_out.join(", ") };
        ending.fact("More", format!("{more}: --full"));
        ending.paragraph(words::SCREENING);
        ending
    }
}
