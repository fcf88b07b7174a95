//! `bunkline check`: reads rig files and reports on each.

use super::baseline::{Baseline, Baselines};
use super::destination::{Destination, Place};
use super::folder::{self, Item};
use super::format::{Format, one_of};
use super::pages::{Pages, Report};
use super::rigs::{self, Asked, RigFile, Trouble};
use super::stream::Streams;
use super::{Outcome, diagnostic, draw, threads};
use crate::fit::{self, Findings, RigVerdict, View};
use crate::quantity::show::plain;
use crate::report::baseline::Changed;
use crate::report::check::{Flag, RigLine, Wanted, junit};
use crate::report::document::{Document, Picture};
use crate::report::{Subject, check, json};
use crate::rig::inputs::TITLE;
use crate::rig::{Key, Rig};
use crate::study::baseline::Stood;
use crate::study::plan::Plan;
use crate::study::samples::MOST_SAMPLES;
use crate::study::uncertainty::{self, Uncertainty};
use clap::Args;
use clap::builder::{PossibleValue, PossibleValuesParser, TypedValueParser};
use rayon::prelude::*;
use std::borrow::Cow;
use std::path::PathBuf;

/// Report the loads of rig files, every check, and what would fix what fails
///
/// Of a folder, its rig files are checked. Exits 0 when every rig passes, 1 when one fails, 3 when one is incomplete or
/// unsure, and 2 when a file could not be read. A rig is unsure when it passes as stated, but not with every ± in its file, and
/// what is assumed, at its worst.
#[derive(Args)]
#[command(after_help = "Example:\n  bunkline check rig.toml --set shift.boat=-4in --units metric")]
pub(super) struct Check {
    /// Rig files, and folders of them; - is standard input
    #[arg(required = true, value_name = "FILE")]
    files: Vec<String>,
    /// How to report
    #[arg(long, value_name = "FORM", default_value = "text", value_parser = one_of(FORMS))]
    format: Format,
    #[command(flatten)]
    asked: Asked,
    /// Take every value as it stands, whatever its bound (±) or the range of what is assumed
    #[arg(long, conflicts_with = "samples")]
    as_stated: bool,
    /// Exit 0 for an incomplete or unsure rig
    #[arg(long)]
    allow_incomplete: bool,
    #[command(flatten)]
    extent: Extent,
    /// Draw so many random rigs within the bounds stated with ±, and report how often each check fails
    #[arg(long, value_name = "N", value_parser = sample_count)]
    samples: Option<u64>,
    /// Write the rig file with the plan in it to a new file, and keep comments and layout
    #[arg(long, value_name = "PATH")]
    write_plan: Option<PathBuf>,
    #[command(flatten)]
    baselines: Baselines,
    /// The seed of the samples; the same seed gives the same samples
    #[arg(long, value_name = "S", default_value_t = 1, requires = "samples")]
    seed: u64,
}

/// How much of the report is printed.
#[derive(Args)]
struct Extent {
    /// Print everything that was found, not a page of it
    #[arg(long)]
    full: bool,
    /// Narrow what follows the verdict to one subject, or to the chain from tow vehicle to tires and straps
    #[arg(long, value_name = "SUBJECT", value_parser = one_view())]
    only: Option<Only>,
    /// Print a table alone, a line a rig
    #[arg(long, conflicts_with_all = ["full", "only", "write_plan"])]
    summary: bool,
}

/// A number of samples that can be drawn.
fn sample_count(text: &str) -> Result<u64, String> {
    let expected = format!("expected a whole number of samples, 1 to {MOST_SAMPLES}");
    match text.parse::<u64>() {
        Ok(0) => Err(format!("{expected}, found 0")),
        Ok(count) if count > MOST_SAMPLES => {
            Err(format!("{expected}, found {count}; 100000 give a share to within 0.2 %"))
        }
        Ok(count) => Ok(count),
        Err(_) => Err(expected),
    }
}

/// What the report is narrowed to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Only {
    /// The checks of one subject.
    Subject(fit::Subject),
    /// The chain's links, which several subjects have.
    Chain,
}

impl Only {
    fn subject(self) -> Option<fit::Subject> {
        match self {
            Self::Subject(subject) => Some(subject),
            Self::Chain => None,
        }
    }
}

/// What else owners call a subject, by what it holds.
fn also_called(subject: fit::Subject) -> &'static [&'static str] {
    match subject {
        fit::Subject::Road => &[
            "trailer",
            "tongue",
            "axle",
            "axles",
            "hubs",
            "tire",
            "tires",
            "tyres",
            "wheels",
            "springs",
            "suspension",
            "frame",
        ],
        fit::Subject::Hitch => &["coupler", "receiver", "ball", "chains", "jack"],
        fit::Subject::Tow => &["tow-vehicle", "vehicle", "truck", "car"],
        fit::Subject::Ramp => &["ramps", "slip", "slipway"],
        fit::Subject::Bunks => &["bunk", "hull", "fenders", "clearance", "crossmembers"],
        fit::Subject::Brakes => &["brake"],
        fit::Subject::Winch => &["strap", "bow-eye"],
        fit::Subject::TieDowns => &["tie-down", "tiedowns", "straps"],
        fit::Subject::Launch => &["launching"],
    }
}

/// Takes the name of a subject, or of the chain.
fn one_view() -> impl TypedValueParser<Value = Only> {
    let subjects = fit::Subject::ALL
        .map(|subject| PossibleValue::new(subject.name()).aliases(also_called(subject).iter().copied()));
    let names = subjects.into_iter().chain([PossibleValue::new(CHAIN)]);
    PossibleValuesParser::new(names).map(|name| {
        let named =
            |subject: &fit::Subject| subject.name() == name || also_called(*subject).contains(&name.as_str());
        fit::Subject::ALL.into_iter().find(named).map_or(Only::Chain, Only::Subject)
    })
}

/// The forms that it has.
const FORMS: &[Format] = &[Format::Text, Format::Json, Format::Html, Format::Markdown, Format::Junit];

/// The name of the chain's table.
const CHAIN: &str = "chain";

/// So many rigs are checked at a time: enough for all cores, few enough for their reports to be held.
const AT_A_TIME: usize = 64;

/// A rig that was checked.
struct Checked {
    report: Report,
    verdict: RigVerdict,
    outcome: Outcome,
    /// How it stands, for a baseline to be written.
    stood: Option<Stood>,
    /// What its owner should know besides.
    notes: Vec<String>,
}

impl Check {
    pub fn run(&self, streams: &mut Streams) -> Outcome {
        rigs::outcome(self.all(streams), "", streams)
    }

    fn all(&self, streams: &mut Streams) -> Result<Outcome, Trouble> {
        let wanted = folder::wanted(&self.files)?;
        let baseline = self.baselines.read(&self.files)?;
        let (mut worst, mut pages, mut stood) = (Outcome::Done, Pages::default(), Vec::new());
        for items in wanted.items.chunks(AT_A_TIME) {
            if streams.closed() {
                break;
            }
            let check = |item: &Item| self.check(item, wanted.several, baseline.as_ref());
            let checked: Vec<Result<Checked, Trouble>> = match items {
                [item] => vec![check(item)],
                items => threads::compute(|| items.par_iter().map(check).collect()),
            };
            for (Item { path, .. }, checked) in items.iter().zip(checked) {
                let outcome = match checked {
                    Ok(checked) => {
                        pages.add(checked.report, checked.verdict == RigVerdict::Pass, streams);
                        for note in &checked.notes {
                            streams.complain(note);
                        }
                        stood.extend(checked.stood.map(|stood| (path.clone(), stood)));
                        checked.outcome
                    }
                    Err(trouble) => {
                        self.complain(path, &trouble, wanted.several, streams);
                        pages.add_unread(path, &trouble, self.format);
                        Outcome::Broken
                    }
                };
                worst = worst.max(outcome);
            }
        }
        match &baseline {
            Some(baseline) => {
                let unread = baseline.unread(&wanted, &self.files);
                if !unread.gone.is_empty() {
                    worst = worst.max(Outcome::Fails);
                }
                pages.print_since(baseline, &unread, self.format, streams);
            }
            None => pages.print(&wanted, self.extent.summary, self.format, streams),
        }
        if stood.len() == wanted.items.len() {
            if let Some(note) = self.baselines.write(stood)? {
                streams.complain(&note);
            }
        } else if self.baselines.are_written() {
            streams.complain("note: no baseline was written: not every rig was checked");
        }
        Ok(worst)
    }

    fn outcome(&self, verdict: RigVerdict) -> Outcome {
        match verdict {
            RigVerdict::Pass => Outcome::Done,
            RigVerdict::Fail => Outcome::Fails,
            RigVerdict::Incomplete | RigVerdict::Unsure if self.allow_incomplete => Outcome::Done,
            RigVerdict::Incomplete | RigVerdict::Unsure => Outcome::Incomplete,
        }
    }

    /// Whether no more of a rig is shown than its verdict and its rows, so that nothing else is looked for.
    fn is_brief(&self) -> bool {
        let is_summary = self.extent.summary && self.format != Format::Json;
        is_summary || self.format == Format::Junit || self.baselines.are_compared()
    }

    fn check(&self, item: &Item, several: bool, baseline: Option<&Baseline>) -> Result<Checked, Trouble> {
        if let Some(why) = &item.trouble {
            return Err(Trouble::Plain(why.clone()));
        }
        let path = &item.path;
        let file = RigFile::read(path)?;
        let destination = self.destination(&file, several)?;
        let rig = file.rig(&self.asked.changes)?;
        let mut notes = Vec::new();
        let (mut findings, mut uncertainty) = self.examine(&rig)?;
        match (self.samples, &mut uncertainty) {
            (Some(count), Some(uncertainty)) => {
                threads::compute(|| {
                    uncertainty::sample(&rig, &mut findings, uncertainty, count, self.seed);
                });
            }
            (Some(_), None) => {
                let path = plain(path);
                notes.push(format!("{path}: no input has a bound (±): there is nothing to sample"));
            }
            (None, _) => {}
        }
        let verdict = findings.assessment.verdict;
        let look = destination.is_some() || !self.is_brief();
        let plan = look.then(|| rigs::plan(&rig, &findings.assessment, self.as_stated)).flatten();
        let subject = Subject {
            path,
            rig: &rig,
            findings: &findings,
            uncertainty: uncertainty.as_ref(),
            as_stated: self.as_stated,
            units: self.asked.units(&rig),
        };
        let (report, outcome) = match baseline {
            Some(baseline) => self.since(&subject, baseline),
            None => (self.report(&subject, plan.as_ref(), several)?, self.outcome(verdict)),
        };
        if let Some(place) = destination {
            notes.extend(write(&place, &file, plan.as_ref())?);
        }
        let stood = self.baselines.are_written().then(|| Stood::of(&findings.assessment, subject.units));
        Ok(Checked { report, verdict, outcome, stood, notes })
    }

    /// What is found of a rig, as far as it is asked for.
    fn examine(&self, rig: &Rig) -> Result<(Findings, Option<Uncertainty>), Trouble> {
        let found = match (self.as_stated, self.is_brief()) {
            (false, false) => return rigs::examine(rig),
            (false, true) => return rigs::examine_briefly(rig),
            (true, false) => fit::examine(rig),
            (true, true) => fit::assess(rig).map(Findings::brief),
        };
        Ok((found.map_err(|why| rigs::unfit(rig, &why))?, None))
    }

    fn report(&self, subject: &Subject<'_>, plan: Option<&Plan>, several: bool) -> Result<Report, Trouble> {
        let verdict = subject.findings.assessment.verdict;
        Ok(match self.format {
            Format::Json => {
                let line = json::checked(subject, plan, several);
                Report::Line(line.map_err(|error| Trouble::Plain(error.to_string()))? + "\n")
            }
            Format::Junit => {
                let passes = self.outcome(verdict) == Outcome::Done;
                Report::Case(Box::new(junit::case(subject, passes)))
            }
            // The table alone is shown.
            _ if self.is_brief() => Report::Document(Document::default(), RigLine::of(subject)),
            _ => {
                let by_flag = self.flag(subject.rig, verdict)?;
                let Extent { full, only, .. } = self.extent;
                let chain = only == Some(Only::Chain);
                let only = only.and_then(Only::subject);
                let pictures = match self.format {
                    Format::Html if !chain && only.is_none() => Self::pictures(subject, plan)?,
                    _ => Vec::new(),
                };
                let wanted = Wanted { full, only, chain, by_flag, plan, pictures: &pictures };
                Report::Document(check::report(subject, &wanted), RigLine::of(subject))
            }
        })
    }

    /// The rig drawn: as it would be after the plan, what is moved dotted where it was.
    fn pictures(subject: &Subject<'_>, plan: Option<&Plan>) -> Result<Vec<Picture>, Trouble> {
        let planned = plan.map(|plan| fit::assess(&plan.rig)).transpose();
        let planned = planned.map_err(|unfit| Trouble::Plain(unfit.to_string()))?;
        let rig = plan.map_or(subject.rig, |plan| &plan.rig);
        let found = planned.as_ref().unwrap_or(&subject.findings.assessment);
        let (is_planned, units) = (plan.is_some(), subject.units);
        let mut pictures = draw::pictures(rig, found, is_planned, &[View::Side], units);
        pictures.extend(check::loads_by_case(rig, found, is_planned, units));
        pictures.extend(draw::pictures(rig, found, is_planned, &[View::Section, View::Ramp], units));
        Ok(pictures)
    }

    /// What became of a rig since a baseline.
    fn since(&self, subject: &Subject<'_>, baseline: &Baseline) -> (Report, Outcome) {
        let since = baseline.since(subject.path, &subject.findings.assessment);
        let outcome = if since.is_worse() { Outcome::Fails } else { Outcome::Done };
        let changed = Changed::of(subject, since);
        let report = match self.format {
            Format::Junit => Report::Case(Box::new(junit::since(&changed))),
            _ => Report::Since(changed),
        };
        (report, outcome)
    }

    /// The flag that decides the verdict or the exit code, if one does.
    fn flag(&self, rig: &Rig, verdict: RigVerdict) -> Result<Option<Flag>, Trouble> {
        let allowed = matches!(verdict, RigVerdict::Incomplete | RigVerdict::Unsure);
        Ok(match verdict {
            _ if self.allow_incomplete && allowed => Some(Flag::AllowIncomplete),
            RigVerdict::Pass if self.as_stated => {
                Some(Flag::AsStated(rigs::examine(rig)?.0.assessment.verdict))
            }
            _ if self.as_stated => Some(Flag::AsStated(verdict)),
            _ => None,
        })
    }

    /// Where the plan is to be written, if anywhere.
    fn destination(&self, file: &RigFile, several: bool) -> Result<Option<Place>, Trouble> {
        if self.write_plan.is_some() && several {
            return Err(Trouble::Usage("expected one rig file with --write-plan, found several".to_string()));
        }
        Destination::new_file(self.write_plan.as_deref()).place(file, &self.asked.changes)
    }

    fn complain(&self, path: &str, trouble: &Trouble, several: bool, streams: &mut Streams) {
        match trouble.lines().split_first() {
            // A table is for a screen: the mistakes of one file would push it off.
            Some((first, others)) if self.extent.summary && several && trouble.problems().is_some() => {
                let more =
                    if others.is_empty() { String::new() } else { format!(" (and {} more)", others.len()) };
                streams.complain(&diagnostic::plain(&(plain(first).into_owned() + &more)));
            }
            _ => trouble.report(path, streams),
        }
        // Among several lines of JSON the reader must find one for this file too.
        if self.format == Format::Json
            && several
            && let Ok(line) = json::error(path, &trouble.message(), trouble.problems())
        {
            streams.print(&(line + "\n"));
        }
    }
}

/// Writes a plan; what its owner should know of that comes back, such as what still fails.
fn write(place: &Place, file: &RigFile, plan: Option<&Plan>) -> Result<Vec<String>, Trouble> {
    let Some(plan) = plan else {
        return Ok(vec!["note: nothing was written: no check fails".to_string()]);
    };
    let mut settings: Vec<(Key, String)> =
        plan.settings().map(|setting| (setting.key, setting.to.clone())).collect();
    if settings.is_empty() {
        let note = "note: nothing was written: nothing that a plan may change makes fewer checks fail";
        return Ok(vec![note.to_string()]);
    }
    let mut meant = Cow::Borrowed(&plan.rig);
    if let Some(title) = planned_title(&plan.rig) {
        let titled = plan.rig.with(&format!("{}=\"{title}\"", TITLE.path()));
        meant = Cow::Owned(titled.map_err(|problems| Trouble::Mistaken(Box::new(problems)))?);
        settings.push((TITLE.key(), title));
    }
    let mut notes = vec![place.write(file, &settings, &meant)?];
    if !plan.after.fails.is_empty() {
        notes.push(format!("note: what was written still fails: {}", plan.after.fails.join(", ")));
    }
    Ok(notes)
}

/// The title of a rig as a plan would make it, where it has one: it is no longer as found.
fn planned_title(rig: &Rig) -> Option<String> {
    const PLANNED: &str = ", as planned";
    let title = rig.proposed().title.as_deref()?;
    let found = title.strip_suffix(", as found").or(title.strip_suffix(PLANNED)).unwrap_or(title);
    Some(format!("{found}{PLANNED}"))
}
