//! The report of a ramp: where the worst moments are, and how bad.

use super::text::{Page, Palette, wrap_under};
use super::{Subject, chart, words};
use crate::fit::{
    Friction, Moment, Peak, Peaks, RampLoads, RigVerdict, Row, Verdict, low_points, waters_edge,
};
use crate::quantity::show::percent;
use crate::quantity::{Length, Quantity, Weight};
use crate::rig::Ramp;
use crate::study::head::AtGrade;
use std::fmt::Write;

/// One crossing with all that is told of it.
#[derive(Debug, Clone)]
pub struct Told {
    /// Its worst moments.
    pub loads: RampLoads,
    /// The same with all springs and tires half as stiff.
    pub softer: Option<RampLoads>,
    /// The same with all of them twice as stiff.
    pub stiffer: Option<RampLoads>,
    /// Axle loads by position, for the chart.
    pub samples: Vec<Sample>,
}

/// Axle loads at one position.
#[derive(Debug, Clone)]
pub struct Sample {
    position: Length,
    axle_loads: Vec<Weight>,
}

impl Sample {
    /// What the chart shows of a moment.
    pub fn of(moment: &Moment<'_>) -> Self {
        let stance = &moment.instant.stance;
        Self { position: moment.instant.position, axle_loads: stance.axle_loads.to_vec() }
    }
}

/// How steep a head a rig survives.
#[derive(Debug, Clone)]
pub struct Heads {
    /// The ramp.
    pub ramp: usize,
    /// The head at each grade asked for.
    pub grades: Vec<AtGrade>,
    /// The steepest grade up to which every rating holds.
    pub steepest: Option<crate::quantity::Slope>,
    /// The least equalizer travel that keeps the rear axle loaded on the ramp as it is.
    pub least_travel: Option<Length>,
}

/// The report of crossings.
pub fn report(subject: &Subject<'_>, crossings: &[Told], palette: &Palette) -> String {
    let mut page = Page::new(subject, palette, Row::is_about_ramps);
    verdict(&mut page);
    for told in crossings {
        crossing(&mut page, told);
    }
    page.cures();
    page.checks();
    page.not_checked();
    page.assumed();
    page.cautions();
    page.out
}

/// The worst of the ramps' checks, in one sentence.
fn verdict(page: &mut Page<'_>) {
    let worst = page.worst_outside();
    let name = page.subject.name();
    let made = page.findings().assessment.rows.iter().any(|row| row.is_about_ramps() && row.load.is_some());
    let stranded =
        page.findings().assessment.ramps.iter().find(|crossing| matches!(crossing.peaks, Ok(Err(_))));
    let (word, mark, reason) = match worst {
        Some(row) => {
            let place = row.ramp.map(|ramp| format!(" (\"{}\")", words::ramp(page.rig(), ramp)));
            let word = if row.verdict == Verdict::Fail { "FAIL" } else { "ADVISE" };
            let fault = super::text::capital(&words::fault(row, page.subject.units));
            (word, page.mark(row.verdict), format!("{fault}{}.", place.unwrap_or_default()))
        }
        None if stranded.is_some() => {
            let name = stranded.map(|crossing| words::ramp(page.rig(), crossing.ramp)).unwrap_or_default();
            let reason = format!(
                "On \"{name}\" the trailer does not rest on its wheels all the way: see the cautions."
            );
            ("INCOMPLETE", page.mark(Verdict::NotChecked), reason)
        }
        None if made => {
            ("PASS", page.mark(Verdict::Pass), "Every check made of the ramps holds.".to_string())
        }
        None => {
            let reason = "Nothing about the ramps could be computed; the keys to fill in are listed below.";
            ("INCOMPLETE", page.mark(Verdict::NotChecked), reason.to_string())
        }
    };
    let _ = writeln!(page.out, "{}{word}{}  {name}, on its ramps", mark.0, mark.1);
    let elsewhere = match page.findings().assessment.verdict {
        RigVerdict::Pass => "",
        RigVerdict::Fail => " On the level the rig fails: see `bunkline check`.",
        RigVerdict::Incomplete => " Checks on the level are missing: see `bunkline check`.",
        RigVerdict::Unsure => " The stated uncertainty leaves the rig unsure: see `bunkline check`.",
    };
    page.out.push_str(&wrap_under(&(reason + elsewhere), 2, 2));
    let cases = page.findings().assessment.cases.len();
    if cases > 1 {
        for case in 0..cases {
            let text = format!("case {}: {}", case + 1, words::case(page.rig(), case));
            page.out.push_str(&wrap_under(&text, 2, 4));
        }
    }
}

fn crossing(page: &mut Page<'_>, told: &Told) {
    let (rig, units) = (page.rig(), page.subject.units);
    let setup = &rig.proposed;
    let ramp = &setup.ramps[told.loads.ramp];
    page.heading(&format!("Over \"{}\"", words::ramp(rig, told.loads.ramp)));
    if setup.cases.len() > 1 {
        let case = format!("In case {}, which uses most of any rating.", told.loads.case + 1);
        page.out.push_str(&wrap_under(&case, 2, 4));
    }
    page.out.push_str(&wrap_under(&profile(page, ramp), 2, 4));
    let Ok(Ok(peaks)) = &told.loads.peaks else { return };

    let positions: Vec<Length> = told.samples.iter().map(|sample| sample.position).collect();
    let axles = setup.trailer.axles.len();
    let curve = |i: usize| told.samples.iter().map(|sample| sample.axle_loads[i]).collect::<Vec<Weight>>();
    let curves: Vec<Vec<Weight>> = (0..axles).map(curve).collect();
    let ratings: Vec<Option<Weight>> = setup.trailer.axles.iter().map(|axle| axle.rating).collect();
    let rating =
        ratings.first().copied().flatten().filter(|_| ratings.windows(2).all(|pair| pair[0] == pair[1]));
    let drawn = chart::weights(&positions, &curves, rating, units);
    if !drawn.is_empty() {
        let line = if rating.is_some() { "; - is their rating" } else { "" };
        let legend = format!(
            "Load of each axle by its number{line}, against the rear hub's distance past the first break:"
        );
        page.out.push_str(&wrap_under(&legend, 2, 2));
        for line in drawn {
            page.line(&line);
        }
    }
    page.line("");
    moments(page, told, peaks);
}

/// The ramp's shape in one line.
fn profile(page: &Page<'_>, ramp: &Ramp) -> String {
    let units = page.subject.units;
    let mut out = "From the level:".to_string();
    for run in &ramp.profile {
        let length = run.length.map_or("?".to_string(), |length| units.rough_length(length));
        let grade =
            run.grade.map_or("?".to_string(), |grade| percent(crate::quantity::Share::from_si(grade.si())));
        let _ = write!(out, " {length} at {grade},");
    }
    out.pop();
    match ramp.ease.filter(|ease| ease.si() > 0.0) {
        Some(ease) => {
            let _ = write!(out, "; breaks eased over {}.", units.rough_length(ease));
        }
        None => out.push_str("; sharp breaks."),
    }
    if let Some(edge) = waters_edge(ramp) {
        let _ = write!(out, " The rear hub reaches the water's edge at {}.", units.rough_length(edge));
    }
    out
}

/// A line of the table: what, its value and position, and its value at other rates.
struct Line {
    label: String,
    value: String,
    at: String,
    softer: String,
    stiffer: String,
}

/// A value in words and where it occurs, where it is known.
type Shown = Option<(String, Option<Length>)>;

fn moments(page: &mut Page<'_>, told: &Told, peaks: &Peaks) {
    let other = |loads: Option<&RampLoads>| match loads.map(|loads| loads.peaks.clone()) {
        Some(Ok(Ok(peaks))) => Some(peaks),
        _ => None,
    };
    let (softer, stiffer) = (other(told.softer.as_ref()), other(told.stiffer.as_ref()));
    page.line(&columns("worst moments", "", "at", "rates / 2", "rates x 2"));
    for line in lines(page, peaks, softer.as_ref(), stiffer.as_ref()) {
        page.line(&columns(&line.label, &line.value, &line.at, &line.softer, &line.stiffer));
    }
    page.out.push_str(&wrap_under(
        "rates: the same with springs, tires and hitch half and twice as stiff as the file says or as assumed.",
        2,
        2,
    ));
    let units = page.subject.units;
    for (i, axle) in peaks.axles.iter().enumerate() {
        if axle.hangs.is_empty() {
            continue;
        }
        let range = |(from, to): &(Length, Length)| {
            format!("{} to {}", units.rough_length(*from), units.rough_length(*to))
        };
        let ranges: Vec<String> = axle.hangs.iter().map(range).collect();
        let text = format!("axle {} hangs clear from {}", i + 1, ranges.join(", from "));
        page.out.push_str(&wrap_under(&text, 2, 4));
    }
}

fn columns(label: &str, value: &str, at: &str, softer: &str, stiffer: &str) -> String {
    let numbers = format!("{value:>11}{at:>17}{softer:>11}{stiffer:>12}");
    let line = if label.chars().count() < 28 {
        format!("  {label:<27}{numbers}")
    } else {
        // A long name has a line of its own.
        format!("  {label}\n{:29}{numbers}", "")
    };
    line.trim_end().to_string()
}

fn lines(page: &Page<'_>, peaks: &Peaks, softer: Option<&Peaks>, stiffer: Option<&Peaks>) -> Vec<Line> {
    let units = page.subject.units;
    let mut lines = Vec::new();
    let mut add = |label: String, value: &dyn Fn(&Peaks) -> Shown| {
        let Some((shown, at)) = value(peaks) else { return };
        let other = |peaks: Option<&Peaks>| peaks.and_then(value).map(|(shown, _)| shown).unwrap_or_default();
        lines.push(Line {
            label,
            value: shown,
            at: at.map(|at| units.rough_length(at)).unwrap_or_default(),
            softer: other(softer),
            stiffer: other(stiffer),
        });
    };
    let weight = |peak: Peak<Weight>| Some((units.weight(peak.value), Some(peak.at)));
    let distance = |peak: Peak<Length>| Some((units.rough_distance(peak.value), Some(peak.at)));
    let friction = |friction: &Friction| match friction {
        // Where an axle is nearly unloaded the figure means nothing more.
        Friction::Needed(peak) if peak.value.si() > 10.0 => Some(("over 1000 %".to_string(), Some(peak.at))),
        Friction::Needed(peak) => Some((percent(peak.value), Some(peak.at))),
        Friction::HoldsNothing(at) => Some(("unloaded".to_string(), Some(*at))),
    };
    for axle in 0..peaks.axles.len() {
        let n = axle + 1;
        add(format!("axle {n}, greatest load"), &|peaks| weight(peaks.axles[axle].greatest));
        add(format!("axle {n}, least load"), &|peaks| weight(peaks.axles[axle].least));
        if peaks.axles[axle].hang.value.si() > 0.0 {
            add(format!("axle {n}, wheels hang by"), &|peaks| distance(peaks.axles[axle].hang));
        }
        add(format!("axle {n}, greatest tire load"), &|peaks| {
            peaks.axles[axle].tire.clone().ok().and_then(weight)
        });
    }
    add("tongue, greatest".into(), &|peaks| weight(peaks.tongue_greatest));
    add("tongue, least".into(), &|peaks| weight(peaks.tongue_least));
    add("pull on the tow vehicle".into(), &|peaks| weight(peaks.pull));
    add("friction, drive wheels".into(), &|peaks| peaks.drive.as_ref().ok().and_then(friction));
    add("friction, parking brake".into(), &|peaks| peaks.parked.as_ref().ok().and_then(friction));
    for (i, point) in low_points(&page.rig().proposed).enumerate() {
        let name = point.name.clone().unwrap_or_default();
        add(format!("{name}, clearance"), &|peaks| peaks.clearances.get(i)?.clone().ok().and_then(distance));
    }
    add("bow to tow vehicle".into(), &|peaks| peaks.bow.clone().ok().and_then(distance));
    add("bow to it, in a turn".into(), &|peaks| {
        peaks.bow_in_turn.map(|gap| (units.rough_distance(gap), None))
    });
    lines
}

/// The report of heads at several grades.
pub fn heads(subject: &Subject<'_>, found: &[Heads]) -> String {
    let mut out = String::new();
    let name = subject.name();
    let _ = writeln!(out, "{name}");
    for heads in found {
        let ramp = words::ramp(subject.rig, heads.ramp);
        let _ = writeln!(out, "\nThe head of \"{ramp}\" at other grades\n");
        let _ = writeln!(out, "  {:>7}  {:<8}{:<16}{:>12}{:>10}", "grade", "", "weakest", "load", "used");
        for at in &heads.grades {
            out.push_str(&head_line(subject, at));
        }
        let steepest = match heads.steepest {
            Some(_) if heads.grades.last().is_some_and(AtGrade::holds) => {
                "Every rating holds at every grade tried.".to_string()
            }
            Some(grade) => format!(
                "Every rating holds up to a head of {}.",
                percent(crate::quantity::Share::from_si(grade.si()))
            ),
            None if heads.grades.iter().any(AtGrade::is_known) => {
                "No grade asked for holds every rating.".to_string()
            }
            None => {
                "Nothing about the ramp could be computed: without --grade the keys to fill in are listed."
                    .to_string()
            }
        };
        let _ = writeln!(out);
        out.push_str(&wrap_under(&steepest, 2, 2));
        if let Some(travel) = heads.least_travel {
            let shown = subject.units.distance(travel);
            let text = if travel.si() > 0.0 {
                format!(
                    "On the ramp as it is, an equalizer travel of {shown} each way keeps the rear axle loaded all the way."
                )
            } else {
                "On the ramp as it is, the rear axle stays loaded all the way, whatever the equalizers' travel.".to_string()
            };
            out.push_str(&wrap_under(&text, 2, 2));
        }
    }
    out
}

fn head_line(subject: &Subject<'_>, at: &AtGrade) -> String {
    let grade = percent(crate::quantity::Share::from_si(at.grade.si()));
    let word = match at.worst() {
        _ if at.holds() => "holds",
        Some(_) => "over",
        // The trailer does not rest on its wheels.
        None if at.is_known() => "no rest",
        None => "unknown",
    };
    let worst = at.worst();
    let id = worst.map(Row::id).unwrap_or_default();
    let load =
        worst.and_then(|row| row.load).map(|load| words::amount(load, subject.units)).unwrap_or_default();
    let used = at.used().map(words::used).unwrap_or_default();
    let line = format!("  {grade:>7}  {word:<8}{id:<16}{load:>12}{used:>10}");
    line.trim_end().to_string() + "\n"
}
