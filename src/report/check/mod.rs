//! The report of a check: one page that answers, or everything that was found.

mod balance;
mod braking;
mod by_case;
mod chain;
mod faults;
mod glance;
#[cfg(feature = "cli")]
pub mod junit;
mod opening;
mod rest;
mod summary;
mod to_do;
mod winch;

pub use by_case::loads_by_case;
pub(super) use glance::{named, within};
pub use summary::{RigLine, summary};

use super::document::{Document, Item, Picture, Text};
use super::sections::{Report, verdict_title};
use super::{Subject, text, words};
use crate::fit::{RigVerdict, Verdict};
use crate::study::plan::Plan;

/// The lines of a screen: as many as the report of a rig that passes may take.
pub const SCREEN: usize = 24;
/// The lines of a page: as many as any other rig's report may take.
pub const PAGE: usize = 60;

/// How many keys are listed at most, beyond those that a verdict needs.
const KEYS: usize = 8;
/// How many cautions stand beside the verdict at most.
pub(super) const CAUTIONS: usize = 3;

/// How much of what was found a reader wants, and by which flag.
#[derive(Debug, Clone, Copy, Default)]
pub struct Wanted<'a> {
    /// Everything, instead of a page.
    pub full: bool,
    /// One subject alone, after the verdict.
    pub only: Option<crate::fit::Subject>,
    /// The chain of links in place of the checks.
    pub chain: bool,
    /// The flag that decided, if one did.
    pub by_flag: Option<Flag>,
    /// What to change, where something fails.
    pub plan: Option<&'a Plan>,
    /// The rig drawn, for a form that has room for it.
    pub pictures: &'a [Picture],
}

/// A flag that decided a verdict or an exit code.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Flag {
    /// What is uncertain was left out; with it the verdict would be this.
    AsStated(RigVerdict),
    /// An incomplete or unsure rig was allowed.
    AllowIncomplete,
}

/// How much of each list has room on the page.
#[derive(Debug, Clone, Copy)]
struct Lines {
    /// Lines about rows that fail.
    fails: usize,
    /// Lines about rows that are unsure or advise.
    faults: usize,
    /// Keys to fill in, beyond those that stand in what to do.
    keys: usize,
    /// Whether the weakest links stand in a line.
    links: bool,
    /// Whether checks are named for which no line is left: those that fail, and the others.
    names: [bool; 2],
    /// Cautions beside the verdict.
    cautions: usize,
}

impl Lines {
    /// The same with one line less, of what matters least; `None` where no list has a line left.
    fn less(self) -> Option<Self> {
        match self {
            Self { keys: 1.., .. } => Some(Self { keys: self.keys - 1, ..self }),
            Self { faults: 1.., .. } => Some(Self { faults: self.faults - 1, ..self }),
            Self { links: true, .. } => Some(Self { links: false, ..self }),
            // One at least stays: it may be a danger.
            Self { cautions: 2.., .. } => Some(Self { cautions: self.cautions - 1, ..self }),
            Self { names: [fails, true], .. } => Some(Self { names: [fails, false], ..self }),
            Self { fails: 1.., .. } => Some(Self { fails: self.fails - 1, ..self }),
            Self { names: [true, others], .. } => Some(Self { names: [false, others], ..self }),
            _ => None,
        }
    }

    /// Lines about rows that do not hold.
    fn causes(self) -> usize {
        self.fails + self.faults
    }
}

/// One rig's report.
///
/// Where a plan is drawn, the drawings are a part of their own at the end, to hand to a workshop.
pub fn report(subject: &Subject<'_>, wanted: &Wanted<'_>) -> Document {
    let Some(plan) = wanted.plan.filter(|plan| !plan.steps.is_empty() && !wanted.pictures.is_empty()) else {
        return of_owner(subject, wanted);
    };
    let mut document = of_owner(subject, &Wanted { pictures: &[], ..*wanted });
    document.append(for_workshop(subject, plan, wanted.pictures));
    document
}

/// What a workshop needs of a plan, without the verdict, keys and flags.
fn for_workshop(subject: &Subject<'_>, plan: &Plan, pictures: &[Picture]) -> Document {
    let mut document = Document::default();
    document.add_title(format!("For the workshop: {}", subject.name()));
    document.append(super::plan::work(plan, subject.units));
    document.paragraph("The pictures show all of it done. Measure before you cut, drill or weld: lengths are as the owner taped them. Structural and brake work belongs to a qualified person.");
    document.pictures(pictures);
    document
}

/// What the rig's owner reads.
fn of_owner(subject: &Subject<'_>, wanted: &Wanted<'_>) -> Document {
    // The chain has one form.
    if wanted.full && !wanted.chain {
        return full(subject, wanted);
    }
    let passes = subject.findings.assessment.verdict == RigVerdict::Pass;
    let lines = if passes { SCREEN } else { PAGE };
    let whole = Report::new(subject, wanted.only);
    let faults = whole.faults();
    let fails = faults.iter().filter(|fault| fault.worst.verdict == Verdict::Fail).count();
    let mut room = Lines {
        fails,
        faults: faults.len() - fails,
        keys: KEYS,
        links: true,
        names: [true; 2],
        cautions: CAUTIONS,
    };
    loop {
        let page = page(subject, wanted, room);
        match room.less() {
            Some(less) if text::lines(&page) > lines => room = less,
            _ => return page,
        }
    }
}

fn page(subject: &Subject<'_>, wanted: &Wanted<'_>, room: Lines) -> Document {
    let mut report = Report::new(subject, wanted.only);
    report.opening(wanted.by_flag, room.cautions);
    let named = report.what_to_do(wanted.plan);
    if wanted.chain {
        report.chain();
        report.ending();
        return report.document;
    }
    report.glance();
    report.document.pictures(wanted.pictures);
    if room.links {
        report.weakest_links();
    }
    report.list_faults(room.causes(), room.names[0]);
    report.samples();
    report.keys_to_fill_in(named, room.keys);
    report.rest(named, room);
    report.ending();
    report.document
}

fn full(subject: &Subject<'_>, wanted: &Wanted<'_>) -> Document {
    let mut report = Report::new(subject, wanted.only);
    report.opening(wanted.by_flag, CAUTIONS);
    report.what_to_do(wanted.plan);
    report.glance();
    report.document.pictures(wanted.pictures);
    report.chain();
    // What fails outranks what is unsure, which outranks what only advises.
    if subject.findings.assessment.verdict == RigVerdict::Fail {
        report.cures();
        report.doubts();
    } else {
        report.doubts();
        report.cures();
    }
    if wanted.only.is_none() {
        report.measure_first();
        report.balance();
        report.braking();
        report.winch();
        report.tie_downs();
    }
    report.checks();
    report.samples();
    report.not_checked();
    report.assumed();
    report.informational();
    report.cautions();
    report.ending();
    report.document
}

impl Report<'_> {
    /// The verdict and what it is about.
    fn headline(&self) -> Text {
        let verdict = self.findings().assessment.verdict;
        let word = words::rig_verdict(verdict).to_uppercase();
        verdict_title(words::rig_role(verdict), &word, self.subject.path)
    }

    /// The verdict once more, where the first line has left the screen.
    fn ending(&mut self) {
        if text::lines(&self.document) > SCREEN {
            let headline = self.headline();
            self.document.paragraph(headline);
        }
    }
}

/// What stands for the report of a file that could not be read, or whose rig does not settle: why, a mistake a line.
pub fn unread(path: &str, why: &[String]) -> Document {
    let mut document = Document::default();
    document.add_title(verdict_title(words::verdict_role(Verdict::Fail), "NOT READ", path));
    document.list(why.iter().map(|why| Item::from(why.as_str())));
    document
}
