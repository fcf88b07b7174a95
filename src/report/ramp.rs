//! The report of a ramp: where the worst moments are, and how bad.

use super::document::{Cell, Document, Holds, Picture, Role, Table, Text};
use super::page::{Extent, Page};
use super::plot::{Chart, Line, Panel, Scale};
use super::sections::{Report, axle_ratings, capital, severity, the, verdict_title};
use super::{Subject, chart, words};
use crate::fit::{Friction, Peak, Peaks, RampLoads, RigVerdict, Row, Verdict};
use crate::quantity::show::percent;
use crate::quantity::{Kind, Length, Quantity, Share, Slope, Weight};
use crate::rig::Ramp;
use crate::study::head::{AtGrade, Heads, STEEPEST_TRIED, Steepest};
use crate::study::ramp::Crossed;
use std::fmt::Write;

/// The report of crossings, and up to which grade each head may go, where that was looked for; with charts for a form that
/// has room for pictures.
pub fn report(
    subject: &Subject<'_>,
    crossings: &[Crossed],
    heads: &[(usize, Option<Slope>)],
    extent: Extent,
    with_charts: bool,
) -> Document {
    let mut page = Page::new(Report::new(subject, Some(crate::fit::Subject::Ramp)));
    let worst = worst_rating(&page.report);
    verdict(&mut page.report, crossings, heads);
    page.stays();
    page.report.cures();
    page.stays();
    for crossed in crossings {
        // The ramp on which a rating is used most stays longest.
        let is_worst = worst.is_none_or(|row| row.ramp == Some(crossed.loads.ramp));
        let later = if is_worst { 0 } else { 5 };
        let name = words::ramp(subject.rig, crossed.loads.ramp).to_string();
        ramp(&mut page.report, crossed);
        if is_worst {
            page.stays();
        } else {
            page.gives_way(9, format!("the ramp \"{name}\""));
        }
        let Ok(Ok(peaks)) = &crossed.loads.peaks else { continue };
        drawing(&mut page.report, crossed, with_charts);
        page.gives_way(later + 4, format!("the loads over \"{name}\" drawn"));
        let worse = moments(&mut page.report, crossed, peaks);
        if is_worst {
            page.stays();
        } else {
            page.gives_way(6, format!("the worst moments over \"{name}\""));
        }
        worse_elsewhere(&mut page.report, worse);
        page.gives_way(later + 1, format!("what is worse over \"{name}\" in another case"));
    }
    page.report.checks();
    page.gives_way(2, "every check");
    if extent == Extent::Full {
        return page.whole();
    }
    let answers = page.report.rows().any(|row| row.load.is_some());
    page.keys_to_fill_in(answers);
    page.fitted()
}

/// The most used rating over the ramps.
fn worst_rating<'a>(report: &Report<'a>) -> Option<&'a Row> {
    let rated = report.rows().filter(|row| row.check.is_rating() && row.load.is_some());
    rated.max_by(|a, b| severity(a).total_cmp(&severity(b)))
}

/// The worst of the ramps' checks, the worst moment and the steepest head, and whether the rig fails elsewhere.
fn verdict(report: &mut Report<'_>, crossings: &[Crossed], heads: &[(usize, Option<Slope>)]) {
    let found = &report.findings().assessment;
    let made = report.rows().any(|row| row.load.is_some());
    let (verdict, word, reason) = match report.worst_row() {
        // What fails on the level is never hidden behind what a ramp advises.
        row if found.verdict == RigVerdict::Fail && row.is_none_or(|row| row.verdict != Verdict::Fail) => {
            let whole = Report::new(&report.subject, None);
            let fault = whole.worst_row().map(|row| words::fault(row, report.units()));
            let reason = format!("On level ground already: {}.", fault.unwrap_or_default());
            (Verdict::Fail, "FAIL".to_string(), reason)
        }
        Some(row) if row.verdict == Verdict::Unsure => {
            let reason = format!("{} may fail, within what is uncertain.", capital(&the(row)));
            (Verdict::Unsure, "UNSURE".to_string(), reason)
        }
        Some(row) => {
            let place = row.ramp.map(|ramp| format!(" (\"{}\")", words::ramp(report.rig(), ramp)));
            let fault = capital(&words::fault(row, report.units()));
            let word = words::verdict(row.verdict).to_uppercase();
            (row.verdict, word, format!("{fault}{}.", place.unwrap_or_default()))
        }
        None if made => (
            Verdict::Pass,
            "PASS".to_string(),
            "Every ramp check that could be evaluated passes.".to_string(),
        ),
        None => {
            let reason = "Nothing about the ramps could be computed. The keys to fill in are listed below.";
            (Verdict::NotChecked, "INCOMPLETE".to_string(), reason.to_string())
        }
    };
    let name = format!("{}, on its ramps", report.subject.name());
    let said = [Some(reason), worst_moment(report, crossings), steepest(report, heads)];
    let said: Vec<String> = said.into_iter().flatten().collect();
    report.answer(verdict_title(words::verdict_role(verdict), &word, &said.join(" ")), &name);
    let elsewhere = match found.verdict {
        RigVerdict::Pass => "",
        RigVerdict::Fail => "What else fails, and what to do about it: `bunkline check`.",
        RigVerdict::Incomplete => "Checks on level ground are missing: see `bunkline check`.",
        RigVerdict::Unsure => "What is uncertain leaves the rig unsure: see `bunkline check`.",
    };
    if !elsewhere.is_empty() {
        report.document.paragraph(elsewhere);
    }
    if found.cases.len() > 1 {
        let (rig, cases) = (report.rig(), 0..found.cases.len());
        let name = |case| format!("case {}: {}", case + 1, words::case(rig, case));
        report.document.list(cases.map(name));
    }
}

/// Where the rig stands while it uses most of a rating, in a sentence.
fn worst_moment(report: &Report<'_>, crossings: &[Crossed]) -> Option<String> {
    let row = worst_rating(report)?;
    let (units, setup) = (report.units(), report.rig().proposed());
    let loads = crossings.iter().flat_map(|crossed| std::iter::once(&crossed.loads).chain(&crossed.others));
    let of_row = |loads: &&RampLoads| Some(loads.ramp) == row.ramp && Some(loads.case) == row.case;
    let peaks = loads.filter(of_row).find_map(|loads| loads.peaks.as_ref().ok()?.as_ref().ok())?;
    let lifts = row.load.is_some_and(|load| load.si() < 0.0);
    let at = match (row.check.id, row.of.element()) {
        ("ramp-axle-*", axle) => peaks.axles[axle].greatest.at,
        ("ramp-tire-*", axle) => peaks.axles[axle].tire.as_ref().ok()?.at,
        ("ramp-tongue", _) if lifts => peaks.tongue_least.at,
        ("ramp-tongue", _) => peaks.tongue_greatest.at,
        _ => return None,
    };
    let used = match row.used {
        Some(used) if used.si() >= 0.0 => format!(", {} of its rating", words::used(used)),
        _ => String::new(),
    };
    let load = row.load.map(|load| words::amount(load, units))?;
    let ramp = row.ramp.filter(|_| setup.ramps.len() > 1);
    let ramp = ramp.map(|ramp| format!(" of \"{}\"", words::ramp(report.rig(), ramp))).unwrap_or_default();
    let stands = tow_vehicle(report, at).map(|stands| format!(", {stands}")).unwrap_or_default();
    Some(format!("Worst moment: {load}{used}, for {}{stands}{ramp}.", the(row)))
}

/// Where the tow vehicle's rear wheels stand when the trailer's rearmost hub is somewhere past the first break.
fn tow_vehicle(report: &Report<'_>, at: Length) -> Option<String> {
    let setup = report.rig().proposed();
    let hub = setup.trailer.axles.last()?.station?;
    let ahead = at - hub - setup.tow.ball_overhang?;
    let shown = report.units().along(ahead.abs());
    let way = if ahead.si() < 0.0 { "short of" } else { "past" };
    Some(format!("with the tow vehicle's rear wheels {shown} {way} the first break"))
}

/// Up to which grade every rating holds, where that was looked for and anything is known of it.
fn steepest(report: &Report<'_>, heads: &[(usize, Option<Slope>)]) -> Option<String> {
    worst_rating(report)?;
    let several = report.rig().proposed().ramps.len() > 1;
    let said = heads.iter().map(|(ramp, steepest)| {
        let of_one = || format!("the head of \"{}\"", words::ramp(report.rig(), *ramp));
        let head = if several { of_one() } else { "the head".to_string() };
        match steepest {
            Some(grade) => format!("{head} at up to {}", no_steeper(*grade)),
            None => format!("{head} at no grade of 0 to {}", percent(Share::from_si(STEEPEST_TRIED.si()))),
        }
    });
    let said: Vec<String> = said.collect();
    (!said.is_empty()).then(|| format!("Every rating holds with {}.", said.join(", ")))
}

fn ramp(report: &mut Report<'_>, crossed: &Crossed) {
    let (rig, setup) = (report.rig(), report.rig().proposed());
    let ramp = &setup.ramps[crossed.loads.ramp];
    report.document.heading(format!("Over \"{}\"", words::ramp(rig, crossed.loads.ramp)));
    if setup.cases.len() > 1 {
        let case = crossed.loads.case + 1;
        report.document.paragraph(format!("In case {case}, the one that uses most of a rating."));
    }
    let shape = profile(report, ramp, crossed.loads.waters_edge(setup));
    report.document.paragraph(shape);
}

/// The axles' loads against the place: in characters, and as a picture.
fn drawing(report: &mut Report<'_>, crossed: &Crossed, with_chart: bool) {
    let (units, setup) = (report.units(), report.rig().proposed());
    let positions: Vec<Length> = crossed.samples.iter().map(|sample| sample.position).collect();
    let axles = setup.trailer.axles.len();
    let curve = |i: usize| crossed.samples.iter().map(|sample| sample.axle_loads[i]).collect::<Vec<Weight>>();
    let curves: Vec<Vec<Weight>> = (0..axles).map(curve).collect();
    let ratings = axle_ratings(setup, units);
    let levels: Vec<Weight> = ratings.iter().map(|(_, rating)| *rating).collect();
    let drawn = chart::weights(&positions, &curves, &levels, units);
    if !drawn.is_empty() {
        let line = match &ratings[..] {
            [] => String::new(),
            // One that all share is named by the report.
            [_] if setup.trailer.axles.iter().all(|axle| axle.rating.is_some()) => {
                "; - is their rating".to_string()
            }
            _ => {
                let named: Vec<String> = ratings.iter().map(|(name, _)| name.clone()).collect();
                format!("; - are ratings: {}", named.join(", "))
            }
        };
        let legend = format!(
            "The load of each axle, drawn with its number{line}, against the rear hub's distance past the first break:"
        );
        let picture = if with_chart { chart(report, crossed, &curves) } else { None };
        report.document.figure(legend, &drawn, picture);
    }
}

/// The axles' loads over a ramp as a picture.
fn chart(report: &Report<'_>, crossed: &Crossed, curves: &[Vec<Weight>]) -> Option<Picture> {
    let (units, setup) = (report.units(), report.rig().proposed());
    let positions = || crossed.samples.iter().map(|sample| sample.position.si());
    let span = [positions().next()?, positions().next_back()?];
    let points = |curve: &[Weight]| positions().zip(curve).map(|(x, load)| (x, Some(load.si()))).collect();
    let loads = curves.iter().zip(1..).map(|(curve, n)| Line::load(format!("axle {n}"), points(curve)));
    let ratings = axle_ratings(setup, units);
    let limits = ratings.into_iter().map(|(name, rating)| Line::limit(name, rating.si(), span));
    let greatest = |(curve, n): (&Vec<Weight>, usize)| {
        let most = curve.iter().copied().fold(Weight::default(), Weight::max);
        format!("axle {n} carries at most {}", units.weight(most))
    };
    let greatest: Vec<String> = curves.iter().zip(1..).map(greatest).collect();
    let over = words::ramp(report.rig(), crossed.loads.ramp);
    let chart = Chart {
        title: format!("The axles' loads over \"{over}\""),
        said: format!("Over \"{over}\" {}.", greatest.join(", ")),
        across: Scale::of("rearmost hub past the first break", Kind::Length, span[1] - span[0], units),
        span,
        windows: Vec::new(),
        posts: Vec::new(),
        panels: vec![Panel {
            up: Scale::of("axle load", Kind::Weight, 0.0, units),
            lines: loads.chain(limits).collect(),
        }],
    };
    let caption = format!(
        "The load of each axle over \"{over}\", against the rear hub's distance past the first break"
    );
    Some(Picture { caption: caption.into(), svg: chart.drawn()? })
}

/// The ramp's shape in one line.
fn profile(report: &Report<'_>, ramp: &Ramp, waters_edge: Option<Length>) -> String {
    let units = report.units();
    let mut out = "From the level:".to_string();
    for run in &ramp.profile {
        let length = run.length.map_or("?".to_string(), |length| units.along(length));
        let grade = run.grade.map_or("?".to_string(), |grade| percent(Share::from_si(grade.si())));
        let _ = write!(out, " {length} at {grade},");
    }
    out.pop();
    match ramp.ease.filter(|ease| ease.si() > 0.0) {
        Some(ease) => {
            let _ = write!(out, "; breaks eased over {}.", units.along(ease));
        }
        None => out.push_str("; sharp breaks."),
    }
    if let Some(edge) = waters_edge {
        let _ = write!(out, " The rear hub reaches the water's edge at {}.", units.along(edge));
    }
    out
}

/// A value, the greater the worse, in words and where it occurs, where it is known.
type Shown = Option<(f64, String, Option<Length>)>;

/// The worst moments in the case whose ratings stand worst; what is worse in another case comes back.
fn moments(report: &mut Report<'_>, crossed: &Crossed, peaks: &Peaks) -> Vec<Vec<Cell>> {
    let other = |loads: Option<&RampLoads>| match loads.map(|loads| loads.peaks.clone()) {
        Some(Ok(Ok(peaks))) => Some(peaks),
        _ => None,
    };
    let (softer, stiffer) = (other(crossed.softer.as_ref()), other(crossed.stiffer.as_ref()));
    let mut table = Table::new([
        (Holds::Name, "worst moments"),
        (Holds::Numbers, ""),
        (Holds::Numbers, "at"),
        (Holds::Numbers, "rates / 2"),
        (Holds::Numbers, "rates x 2"),
    ]);
    let others: Vec<(usize, &Peaks)> = crossed
        .others
        .iter()
        .filter_map(|other| Some((other.case, other.peaks.as_ref().ok()?.as_ref().ok()?)))
        .collect();
    let found = Found { peaks, softer: softer.as_ref(), stiffer: stiffer.as_ref(), others };
    let worse;
    (table.rows, worse) = rows(report, &found);
    report.document.table(table);
    report.document.paragraph(
        "rates: the same with springs, tires and hitch half and twice as stiff as the file says or as assumed.",
    );
    let units = report.units();
    for (i, axle) in peaks.axles.iter().enumerate() {
        if axle.hangs.is_empty() {
            continue;
        }
        let range = |(from, to): &(Length, Length)| format!("{} to {}", units.along(*from), units.along(*to));
        let ranges: Vec<String> = axle.hangs.iter().map(range).collect();
        report.document.paragraph(format!("Axle {} hangs clear from {}.", i + 1, ranges.join(", from ")));
    }
    worse
}

/// What is worse in another case than in the one shown.
fn worse_elsewhere(report: &mut Report<'_>, worse: Vec<Vec<Cell>>) {
    if worse.is_empty() {
        return;
    }
    let mut table = Table::new([
        (Holds::Name, "worse in another case"),
        (Holds::Numbers, ""),
        (Holds::Numbers, "at"),
        (Holds::Numbers, "case"),
    ]);
    table.rows = worse;
    report.document.table(table);
}

/// The worst moments over one ramp.
struct Found<'a> {
    /// In the case whose ratings stand worst.
    peaks: &'a Peaks,
    softer: Option<&'a Peaks>,
    stiffer: Option<&'a Peaks>,
    /// In the other cases.
    others: Vec<(usize, &'a Peaks)>,
}

/// What is worst of each: its value and position, and its value at other rates; and what is worse in another case, with
/// that case.
fn rows(report: &Report<'_>, found: &Found<'_>) -> (Vec<Vec<Cell>>, Vec<Vec<Cell>>) {
    let (setup, units, peaks) = (&report.rig().proposed(), report.units(), found.peaks);
    let (mut rows, mut worse): (Vec<Vec<Cell>>, Vec<Vec<Cell>>) = (Vec::new(), Vec::new());
    let place = |at: Option<Length>| at.map(|at| units.along(at)).unwrap_or_default();
    let mut add = |label: String, value: &dyn Fn(&Peaks) -> Shown| {
        let Some((badness, shown, at)) = value(peaks) else { return };
        let other =
            |peaks: Option<&Peaks>| peaks.and_then(value).map(|(_, shown, _)| shown).unwrap_or_default();
        let elsewhere = found.others.iter().filter_map(|(case, peaks)| Some((*case, value(peaks)?)));
        let worst = elsewhere.max_by(|(_, a), (_, b)| a.0.total_cmp(&b.0));
        if let Some((case, (there, other_shown, at))) = worst
            && there > badness
            && other_shown != shown
        {
            let case = (case + 1).to_string();
            worse.push([label.clone(), other_shown, place(at), case].map(Cell::from).into());
        }
        rows.push(
            [label, shown, place(at), other(found.softer), other(found.stiffer)].map(Cell::from).into(),
        );
    };
    let most = |peak: Peak<Weight>| Some((peak.value.si(), units.weight(peak.value), Some(peak.at)));
    let least = |peak: Peak<Weight>| Some((-peak.value.si(), units.weight(peak.value), Some(peak.at)));
    let gap = |peak: Peak<Length>| Some((-peak.value.si(), units.rough_distance(peak.value), Some(peak.at)));
    let friction = |friction: &Friction| match friction {
        // Where an axle is nearly unloaded the figure means nothing more.
        Friction::Needed(peak) if peak.value.si() > 10.0 => {
            Some((peak.value.si(), "over 1000 %".to_string(), Some(peak.at)))
        }
        Friction::Needed(peak) => Some((peak.value.si(), percent(peak.value), Some(peak.at))),
        Friction::HoldsNothing(at) => Some((f64::INFINITY, "unloaded".to_string(), Some(*at))),
    };
    let hangs = |axle: usize| {
        let all = found.others.iter().map(|(_, peaks)| *peaks).chain([peaks]);
        all.into_iter().any(|peaks| peaks.axles[axle].hang.value.si() > 0.0)
    };
    for axle in 0..peaks.axles.len() {
        let n = axle + 1;
        add(format!("axle {n}, greatest load"), &|peaks| most(peaks.axles[axle].greatest));
        add(format!("axle {n}, least load"), &|peaks| least(peaks.axles[axle].least));
        if hangs(axle) {
            add(format!("axle {n}, wheels hang by"), &|peaks| {
                let hang = peaks.axles[axle].hang;
                Some((hang.value.si(), units.rough_distance(hang.value), Some(hang.at)))
            });
        }
        add(format!("axle {n}, greatest tire load"), &|peaks| {
            peaks.axles[axle].tire.clone().ok().and_then(most)
        });
    }
    add("tongue, greatest".into(), &|peaks| most(peaks.tongue_greatest));
    add("tongue, least".into(), &|peaks| least(peaks.tongue_least));
    add("pull on the tow vehicle".into(), &|peaks| most(peaks.pull));
    add("friction, starting out".into(), &|peaks| peaks.drive.as_ref().ok().and_then(friction));
    add("friction, pulling out".into(), &|peaks| peaks.steady.as_ref().ok().and_then(friction));
    add("friction, parking brake".into(), &|peaks| peaks.parked.as_ref().ok().and_then(friction));
    for (i, (name, _)) in peaks.points(setup).enumerate() {
        add(format!("{name}, clearance"), &|peaks| peaks.clearances.get(i)?.clone().ok().and_then(gap));
    }
    add("bow to tow vehicle".into(), &|peaks| peaks.bow.clone().ok().and_then(gap));
    add("bow to it, in a turn".into(), &|peaks| {
        peaks.bow_in_turn.map(|gap| (-gap.si(), units.rough_distance(gap), None))
    });
    (rows, worse)
}

/// The report of heads at several grades.
pub fn heads(subject: &Subject<'_>, found: &[Heads]) -> Document {
    let mut document = Document::default();
    let answers = found.iter().map(|heads| match found.len() {
        1 => holds_up_to(heads),
        _ => format!("\"{}\": {}", words::ramp(subject.rig, heads.ramp), holds_up_to(heads)),
    });
    document.add_title(answers.collect::<Vec<_>>().join(" "));
    document.paragraph(subject.name());
    for heads in found {
        document.heading(format!("The head of \"{}\" at other grades", words::ramp(subject.rig, heads.ramp)));
        let mut table = Table::new([
            (Holds::Numbers, "grade"),
            (Holds::Words, ""),
            (Holds::Name, "weakest"),
            (Holds::Numbers, "load"),
            (Holds::Numbers, "used"),
        ]);
        table.rows = heads.grades.iter().map(|at| head_row(subject, at)).collect();
        document.table(table);
        if let Some(travel) = heads.least_travel {
            let shown = subject.units.distance(travel);
            document.paragraph(if travel.si() > 0.0 {
                format!(
                    "On the ramp as it is, an equalizer travel of {shown} each way keeps the rear axle loaded all the way."
                )
            } else {
                "On the ramp as it is, the rear axle stays loaded all the way, whatever the equalizers' travel."
                    .to_string()
            });
        }
    }
    document
}

/// Up to which grade every rating holds, and up to which nothing fails, in sentences.
fn holds_up_to(heads: &Heads) -> String {
    if !heads.grades.iter().any(AtGrade::is_known) {
        return "Nothing about the ramp could be computed: without --grade the keys to fill in are listed."
            .to_string();
    }
    let last = heads.grades.last().map(|at| at.grade);
    let ratings = [
        "Every rating holds up to a head of",
        "Every rating holds at every grade tried",
        "There is no grade among those tried at which every rating holds",
    ];
    let checks = [
        "No check fails up to a head of",
        "No check fails at any grade tried",
        "Some check fails at every grade tried",
    ];
    format!("{} {}", up_to(ratings, heads.ratings, last), up_to(checks, heads.nothing_fails, last))
}

/// A grade in tenths of a percent, rounded down: what holds up to it holds at what is shown.
fn no_steeper(grade: Slope) -> String {
    percent(Share::from_si((grade.si() * 1000.0 + 1e-6).floor() / 1000.0))
}

/// Up to which grade something holds; where what is assumed moves it, from which to which.
fn up_to([up_to, always, never]: [&str; 3], steepest: Steepest, last: Option<Slope>) -> String {
    let grade = |grade: Option<Slope>| match grade {
        Some(grade) if Some(grade) == last => format!("{} and more", no_steeper(grade)),
        Some(grade) => no_steeper(grade),
        None => "no grade tried".to_string(),
    };
    let found = match steepest.as_assumed {
        None => never.to_string(),
        found if found == last => always.to_string(),
        found => format!("{up_to} {}", grade(found)),
    };
    let (worse, better) = (grade(steepest.worse), grade(steepest.better));
    if worse == better {
        return found + ".";
    }
    format!("{found} ({worse} to {better} within what is assumed).")
}

fn head_row(subject: &Subject<'_>, at: &AtGrade) -> Vec<Cell> {
    let worst = at.worst();
    let (role, word) = match worst {
        _ if at.holds() => (Role::Pass, "holds"),
        Some(_) => (Role::Fail, "over"),
        // The trailer does not rest on its wheels.
        None if at.is_known() => (Role::Fail, "no rest"),
        None => (Role::NotChecked, "unknown"),
    };
    let load = worst.and_then(|row| row.load).map(|load| words::amount(load, subject.units));
    vec![
        percent(Share::from_si(at.grade.si())).into(),
        Text::of(role, word).into(),
        Text::of(Role::Key, &worst.map(Row::id).unwrap_or_default()).into(),
        load.unwrap_or_default().into(),
        at.used().map(words::used).unwrap_or_default().into(),
    ]
}
