//! `bunkline ramp`: backs a rig over its ramps, position by position.

use super::Outcome;
use super::format::{self, Format, one_of};
use super::rigs::{self, Asked, Trouble};
use super::stream::Streams;
use crate::fit::{self, Findings, Model, RampLoads, Trial, governing_crossing};
use crate::quantity::{Kind, Length, Quantity, Series, SeriesError, Slope, parse};
use crate::report::ramp::{Heads, Sample, Told};
use crate::report::{Subject, csv, json, ramp};
use crate::rig::Rig;
use crate::study::head;
use clap::Args;

/// Back a rig over its ramps and report the worst moments
#[derive(Args)]
#[command(
    after_help = "Examples:\n  bunkline ramp rig.toml\n  bunkline ramp rig.toml --ramp \"town slip\" --format csv\n  bunkline ramp rig.toml --grade 8%..20%/1%"
)]
pub(super) struct Ramp {
    /// Rig file; - is standard input
    #[arg(value_name = "FILE")]
    file: String,
    /// Only the ramp of this name; else all
    #[arg(long = "ramp", value_name = "NAME")]
    name: Option<String>,
    /// The case of this name; else the one that uses most of any rating
    #[arg(long, value_name = "NAME")]
    case: Option<String>,
    /// How far the tow vehicle goes between two looks
    #[arg(long, value_name = "LENGTH", default_value = "1/2 in", value_parser = step)]
    step: Length,
    /// Try the steepest run at these grades, FROM..TO/STEP, and find the steepest that every rating survives
    #[arg(long, value_name = "RANGE", value_parser = grades)]
    grade: Option<Grades>,
    /// How to report; csv has every position of one crossing: of the ramp and the case named, else of those that
    /// use most of any rating
    #[arg(long, value_name = "FORM", default_value = "text", value_parser = one_of(&[Format::Text, Format::Json, Format::Csv, Format::Html]))]
    format: Format,
    #[command(flatten)]
    asked: Asked,
}

/// Grades to try, rising.
#[derive(Clone)]
struct Grades(Vec<Slope>);

/// The more grades, the longer it takes; nobody reads more.
const MOST_GRADES: u64 = 1000;

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
        let told = self.tell(streams);
        rigs::outcome(told, &self.file, streams)
    }

    fn tell(&self, streams: &mut Streams) -> Result<Outcome, Trouble> {
        if self.grade.is_some() && self.format == Format::Csv {
            let message = "expected --format text, json or html with --grade, found csv";
            return Err(Trouble::Plain(message.to_string()));
        }
        let rig = self.narrowed(rigs::rig(&self.file, &self.asked.changes)?)?;
        let findings = fit::examine(&rig).map_err(|unfit| Trouble::Plain(unfit.to_string()))?;
        let units = self.asked.units(&rig);
        // What bounds do to a rig is told by `check`; here the values are as stated.
        let subject = Subject { path: &self.file, rig: &rig, findings: &findings, uncertainty: None, units };
        if let Some(Grades(grades)) = &self.grade {
            return self.tell_heads(&subject, grades, streams);
        }
        if self.format == Format::Csv {
            return self.tell_positions(&subject, streams);
        }
        let ramps = 0..rig.proposed.ramps.len();
        let crossings: Vec<Told> = ramps.filter_map(|ramp| self.crossing(&rig, &findings, ramp)).collect();
        match self.format {
            Format::Json => streams.print(&in_json(&subject, &crossings, &[])?),
            other => format::print(&ramp::report(&subject, &crossings), other, streams),
        }
        Ok(Outcome::Done)
    }

    /// The rig with only the ramp and the case asked for. What was measured stays whole.
    fn narrowed(&self, mut rig: Rig) -> Result<Rig, Trouble> {
        let ramps = &mut rig.proposed.ramps;
        if ramps.is_empty() {
            let message = "expected one or more [[ramps]] in the file, found none\nhelp: begin with a name and a profile of runs: see `bunkline new`";
            return Err(Trouble::Plain(message.to_string()));
        }
        keep_named(ramps, self.name.as_deref(), "ramp", |ramp| ramp.name.as_deref())?;
        keep_named(&mut rig.proposed.cases, self.case.as_deref(), "case", |case| case.name.as_deref())?;
        Ok(rig)
    }

    /// A ramp crossed in the governing case.
    fn crossing(&self, rig: &Rig, findings: &Findings, ramp: usize) -> Option<Told> {
        let case = governing_crossing(&rig.proposed, &findings.assessment, ramp)?.case;
        let mut samples = Vec::new();
        let visit = &mut |moment: &fit::Moment<'_>| samples.push(Sample::of(moment));
        let peaks = Model::new(rig).cross(ramp, case, Trial::default(), self.step, visit);
        // Springs and tires are rarely known well: how much do the peaks hang on them?
        let at_rates = |times: f64| {
            let model = Model::with_rates(rig, times);
            let peaks = model.cross(ramp, case, Trial::default(), self.step, &mut |_| {});
            Some(RampLoads { ramp, case, peaks })
        };
        Some(Told {
            loads: RampLoads { ramp, case, peaks },
            softer: at_rates(0.5),
            stiffer: at_rates(2.0),
            samples,
        })
    }

    /// Every position of the crossing that uses most of any rating.
    fn tell_positions(&self, subject: &Subject<'_>, streams: &mut Streams) -> Result<Outcome, Trouble> {
        let (rig, units) = (subject.rig, subject.units);
        let found = &subject.findings.assessment;
        let ramps = 0..rig.proposed.ramps.len();
        let governing = ramps.filter_map(|ramp| governing_crossing(&rig.proposed, found, ramp));
        let used = |crossing: &RampLoads| fit::most_used(&rig.proposed, &found.cases, crossing);
        let Some(worst) = governing.max_by(|a, b| used(a).total_cmp(&used(b))) else {
            return Ok(Outcome::Done);
        };
        streams.print(&csv::header(rig.proposed.trailer.axles.len(), units));
        let visit = &mut |moment: &fit::Moment<'_>| streams.print(&csv::line(moment, units));
        match Model::new(rig).cross(worst.ramp, worst.case, Trial::default(), self.step, visit) {
            Ok(Ok(_)) => Ok(Outcome::Done),
            Ok(Err(stranded)) => Err(Trouble::Plain(stranded.to_string())),
            Err(missing) => {
                let keys: Vec<String> = missing.0.iter().map(ToString::to_string).collect();
                Err(Trouble::Plain(format!("expected {} in the file, found none", keys.join(", "))))
            }
        }
    }

    fn tell_heads(
        &self,
        subject: &Subject<'_>,
        grades: &[Slope],
        streams: &mut Streams,
    ) -> Result<Outcome, Trouble> {
        let unfit = |unfit: fit::Unfit| Trouble::Plain(unfit.to_string());
        let mut found = Vec::new();
        for ramp in 0..subject.rig.proposed.ramps.len() {
            let at = |grade: &Slope| head::at_grade(subject.rig, ramp, *grade);
            let grades = grades.iter().map(at).collect::<Result<Vec<_>, _>>().map_err(unfit)?;
            let steepest = head::steepest(subject.rig, ramp, &grades).map_err(unfit)?;
            let least_travel = head::least_equalizer_travel(subject.rig, ramp).map_err(unfit)?;
            found.push(Heads { ramp, grades, steepest, least_travel });
        }
        match self.format {
            Format::Json => streams.print(&in_json(subject, &[], &found)?),
            other => format::print(&ramp::heads(subject, &found), other, streams),
        }
        let answered = found.iter().any(|heads| heads.steepest.is_some());
        Ok(if answered { Outcome::Done } else { Outcome::Fails })
    }
}

fn in_json(subject: &Subject<'_>, told: &[Told], heads: &[Heads]) -> Result<String, Trouble> {
    let document = json::crossings(subject, told, heads);
    document.map(|document| document + "\n").map_err(|error| Trouble::Plain(error.to_string()))
}

/// Keeps the one element of a name, if a name is asked for.
fn keep_named<T>(
    list: &mut Vec<T>,
    wanted: Option<&str>,
    what: &str,
    name: impl Fn(&T) -> Option<&str>,
) -> Result<(), Trouble> {
    if rigs::named(list, wanted, what, &name)?.is_none() {
        return Ok(());
    }
    list.retain(|element| name(element) == wanted);
    Ok(())
}
