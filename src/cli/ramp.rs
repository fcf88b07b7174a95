//! `bunkline ramp`: backs a rig over its ramps, position by position.

use super::format::{self, Format, Whole, one_of};
use super::rigs::{self, Asked, Trouble};
use super::stream::Streams;
use super::{Outcome, draw};
use crate::fit::{self, Moment, View};
use crate::quantity::{Kind, Length, Quantity, Series, SeriesError, Slope, parse};
use crate::report::{Subject, csv, json, ramp};
use crate::rig::Rig;
use crate::study::head::{Heads, heads, steepest};
use crate::study::ramp::{Choice, Crossed, crossings, positions};
use clap::Args;

/// Back a rig over its ramps and report the worst moments
///
/// --full draws the load of each axle along the ramp in characters; --format html has it as a chart, with each rating, and
/// a picture to scale of the moment that asks most of an axle.
#[derive(Args)]
#[command(
    after_help = "Examples:\n  bunkline ramp rig.toml\n  bunkline ramp rig.toml --ramp \"town slip\" --format csv\n  bunkline ramp rig.toml --grade 8%..20%/1%"
)]
pub(super) struct Ramp {
    /// Rig file; - is standard input
    #[arg(value_name = "FILE")]
    file: String,
    /// Only the ramp of this name, instead of all
    #[arg(long = "ramp", value_name = "NAME")]
    name: Option<String>,
    /// The case of this name, instead of the one that uses most of a rating
    #[arg(long, value_name = "NAME")]
    case: Option<String>,
    /// How far the tow vehicle goes between two positions; 1/2 in if not given, 4 in for what is drawn
    #[arg(long, value_name = "LENGTH", value_parser = step)]
    step: Option<Length>,
    /// Try the steepest run at these grades, FROM..TO/STEP, and find the steepest that every rating survives
    #[arg(long, value_name = "RANGE", value_parser = grades)]
    grade: Option<Grades>,
    /// How to report; csv has every position of one crossing: that of the ramp and case named, or else the one that
    /// uses most of a rating
    #[arg(long, value_name = "FORM", default_value = "text", value_parser = one_of(&[Format::Text, Format::Json, Format::Csv, Format::Html]))]
    format: Format,
    #[command(flatten)]
    whole: Whole,
    #[command(flatten)]
    asked: Asked,
}

/// Grades to try, rising.
#[derive(Clone)]
struct Grades(Vec<Slope>);

/// The more grades, the longer it takes; nobody reads more.
const MOST_GRADES: u64 = 1000;

/// How far apart positions are if not asked for otherwise, in metres: in a table, and where they only make a curve that has
/// every event and every worst moment on it.
const TABLED: f64 = 0.0127;
const DRAWN: f64 = 0.1016;

fn step(text: &str) -> Result<Length, String> {
    let step = parse::<Length>(text).map_err(|error| error.to_string())?.value;
    let (least, most) = (Length::from_si(0.001), Length::from_si(0.5));
    if step < least || step > most {
        return Err("expected a step of 1 mm to 500 mm".to_string());
    }
    Ok(step)
}

fn grades(text: &str) -> Result<Grades, String> {
    let shape = "expected FROM..TO/STEP, such as 10%..30%/1%";
    let rising = "expected rising grades from 0 to 100 % in steps above zero";
    let series = Series::parse(text, Kind::Slope).map_err(|error| match error {
        SeriesError::Shape(_) => shape.to_string(),
        SeriesError::ZeroStep(_) | SeriesError::WrongWay { .. } => rising.to_string(),
        other => other.to_string(),
    })?;
    if !series.is_range() {
        return Err(shape.to_string());
    }
    let count = series.len();
    if count > MOST_GRADES + 1 {
        return Err(format!("expected at most {MOST_GRADES} grades, found {count}"));
    }
    let grades: Vec<f64> = (0..count).map(|i| series.si(i)).collect();
    if grades.iter().any(|grade| !(0.0..=1.0).contains(grade)) || !grades.is_sorted() {
        return Err(rising.to_string());
    }
    Ok(Grades(grades.into_iter().map(Slope).collect()))
}

impl Ramp {
    pub fn run(&self, streams: &mut Streams) -> Outcome {
        let outcome = self.report(streams);
        rigs::outcome(outcome, &self.file, streams)
    }

    fn report(&self, streams: &mut Streams) -> Result<Outcome, Trouble> {
        if self.grade.is_some() && self.format == Format::Csv {
            let message = "expected --format text, json or html with --grade, found csv";
            return Err(Trouble::Plain(message.to_string()));
        }
        let rig = rigs::rig(&self.file, &self.asked.changes)?;
        let choice = self.choice(&rig)?;
        match &self.grade {
            Some(Grades(grades)) => self.report_heads(&rig, choice, grades, streams),
            None if self.format == Format::Csv => self.report_positions(&rig, choice, streams),
            None => self.report_crossings(&rig, choice, streams),
        }
    }

    /// The ramp and the case asked for.
    fn choice(&self, rig: &Rig) -> Result<Choice, Trouble> {
        let setup = &rig.proposed();
        if setup.ramps.is_empty() {
            let message = "expected one or more [[ramps]] in the file, found none\nhelp: begin with a name and a profile of runs: see `bunkline new`";
            return Err(Trouble::Plain(message.to_string()));
        }
        let ramp = rigs::named(&setup.ramps, self.name.as_deref(), "ramp", |ramp| ramp.name.as_deref())?;
        let case = rigs::named(&setup.cases, self.case.as_deref(), "case", |case| case.name.as_deref())?;
        Ok(Choice { ramp, case })
    }

    /// The step asked for, else this many metres.
    fn apart(&self, usual: f64) -> Length {
        self.step.unwrap_or(Length::from_si(usual))
    }

    fn report_crossings(&self, rig: &Rig, choice: Choice, streams: &mut Streams) -> Result<Outcome, Trouble> {
        // The heads are no part of the JSON.
        let wants_heads = self.format != Format::Json;
        // Nor is any position but the worst.
        let step = self.apart(if wants_heads { DRAWN } else { f64::INFINITY });
        let (found, heads) = rayon::join(
            || crossings(rig, choice, step),
            || wants_heads.then(|| steepest(rig, choice)).transpose(),
        );
        let found = found.map_err(|why| rigs::unfit(rig, &why))?;
        let units = self.asked.units(rig);
        // `check` reports what bounds do to a rig; here the values are as stated.
        let subject = Subject {
            path: &self.file,
            rig: &found.rig,
            findings: &found.findings,
            uncertainty: None,
            as_stated: false,
            units,
        };
        match self.format {
            Format::Json => streams.print(&in_json(&subject, &found.crossed, &[])?),
            other => {
                let heads = heads.map_err(|why| Trouble::Plain(why.to_string()))?.unwrap_or_default();
                let is_page = other == Format::Html;
                let mut document =
                    ramp::report(&subject, &found.crossed, &heads, self.whole.extent(), is_page);
                if is_page {
                    let assessment = &found.findings.assessment;
                    document.pictures(&draw::pictures(&found.rig, assessment, false, &[View::Ramp], units));
                }
                format::print(&document, other, streams);
            }
        }
        Ok(Outcome::Done)
    }

    /// Every position of the crossing whose ratings stand worst.
    fn report_positions(&self, rig: &Rig, choice: Choice, streams: &mut Streams) -> Result<Outcome, Trouble> {
        let units = self.asked.units(rig);
        streams.print(&csv::header(rig.proposed().trailer.axles.len(), units));
        let visit = &mut |moment: &Moment<'_>| streams.print(&csv::line(moment, units));
        match positions(rig, choice, self.apart(TABLED), visit).map_err(|why| rigs::unfit(rig, &why))? {
            None | Some(Ok(Ok(_))) => Ok(Outcome::Done),
            Some(Ok(Err(stranded))) => Err(Trouble::Plain(stranded.to_string())),
            Some(Err(missing)) => {
                let keys: Vec<String> = missing.0.iter().map(ToString::to_string).collect();
                Err(Trouble::Plain(format!("expected {} in the file, found none", keys.join(", "))))
            }
        }
    }

    fn report_heads(
        &self,
        rig: &Rig,
        choice: Choice,
        grades: &[Slope],
        streams: &mut Streams,
    ) -> Result<Outcome, Trouble> {
        let found = heads(rig, choice, grades).map_err(|why| Trouble::Plain(why.to_string()))?;
        let findings = fit::examine(rig).map_err(|why| rigs::unfit(rig, &why))?;
        let units = self.asked.units(rig);
        let subject = Subject {
            path: &self.file,
            rig,
            findings: &findings,
            uncertainty: None,
            as_stated: false,
            units,
        };
        match self.format {
            Format::Json => streams.print(&in_json(&subject, &[], &found)?),
            other => format::print(&ramp::heads(&subject, &found), other, streams),
        }
        let answered = found.iter().any(|heads| heads.ratings.as_assumed.is_some());
        Ok(if answered { Outcome::Done } else { Outcome::Fails })
    }
}

fn in_json(subject: &Subject<'_>, crossed: &[Crossed], heads: &[Heads]) -> Result<String, Trouble> {
    let document = json::crossings(subject, crossed, heads);
    document.map(|document| document + "\n").map_err(|error| Trouble::Plain(error.to_string()))
}
