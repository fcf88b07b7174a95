//! The report of launching: how deep to back in, what happens on the way, and between which depths she comes home.

use super::document::{Cell, Document, Holds, Table};
use super::page::{Extent, Page, misread};
use super::sections::{Report, capital, the, verdict_title};
use super::{Subject, words};
use crate::fit::{
    Caution, Closes, Event, Home, HullBy, Known, Launch, LaunchLoads, Missing, NoLaunch, Row, Sinks, Spot,
    Verdict,
};
use crate::quantity::show::{UnitSystem, degrees, percent};
use crate::quantity::{Length, Quantity, Share, unit};

/// The lines of the card at most: it is laminated and kept in the tow vehicle.
pub const CARD: usize = 20;

/// Where a depth is not known.
const UNKNOWN: &str = "-";

/// The report of launching on every ramp with water.
pub fn report(subject: &Subject<'_>, extent: Extent) -> Document {
    let mut page = Page::new(Report::new(subject, Some(crate::fit::Subject::Launch)));
    let shown = hardest(subject);
    answer(&mut page.report, &shown);
    page.stays();
    page.report.cures();
    page.stays();
    for (i, loads) in shown.iter().enumerate() {
        on_ramp(&mut page.report, loads);
        if i == 0 {
            page.stays();
        } else {
            page.gives_way(5, format!("the ramp \"{}\"", words::ramp(subject.rig, loads.ramp)));
        }
    }
    if extent == Extent::Full {
        for loads in others(subject, &shown) {
            on_ramp(&mut page.report, loads);
        }
        page.stays();
    }
    how_good(&mut page.report, &shown);
    floats_otherwise(&mut page.report);
    page.stays();
    page.report.checks();
    page.gives_way(4, "every check");
    if extent == Extent::Full {
        return page.whole();
    }
    let answers = page.report.rows().any(|row| row.load.is_some());
    page.keys_to_fill_in(answers);
    page.fitted()
}

/// That a draft taped afloat is another than the file gives, on which all of it rests.
fn floats_otherwise(report: &mut Report<'_>) {
    let (rig, units) = (report.rig(), report.units());
    let cautions = report.findings().cautions.iter();
    for caution in cautions.filter(|caution| matches!(caution, Caution::FloatsOtherwise { .. })) {
        report.document.paragraph(words::caution(caution, rig, units));
    }
}

/// The card to laminate: the marks, the order of doing and the line's length, ramp by ramp as far as there is room.
pub fn card(subject: &Subject<'_>) -> Document {
    let ramps = hardest(subject);
    let fits = |document: &Document| super::text::lines(document) <= CARD;
    let whole = (1..=ramps.len()).rev().map(|count| of_ramps(subject, &ramps, count)).find(fits);
    whole.unwrap_or_else(|| {
        let mut document = of_ramps(subject, &ramps, 1);
        while !fits(&document) && document.shorten() {}
        document
    })
}

/// A card of the first of these ramps; the others are named.
fn of_ramps(subject: &Subject<'_>, ramps: &[&LaunchLoads], count: usize) -> Document {
    let mut report = Report::new(subject, Some(crate::fit::Subject::Launch));
    let boat = subject.rig.proposed().boat.name.clone();
    report.document.add_title(format!("Launching {}", boat.as_deref().unwrap_or("the boat")));
    let (shown, others) = ramps.split_at(count.min(ramps.len()));
    for loads in shown {
        report.document.heading(card_heading(&report, loads));
        report.document.list(on_card(&report, loads));
    }
    let known = shown.iter().find_map(|loads| loads.found().ok());
    if let Some(band) = known.and_then(|launch| band(launch.hull, report.units())) {
        report.document.paragraph(band);
    }
    if let Some(line) = line(&report) {
        report.document.paragraph(line);
    }
    if !others.is_empty() {
        let named = others.iter().map(|loads| format!("--ramp \"{}\"", words::ramp(subject.rig, loads.ramp)));
        let named: Vec<String> = named.collect();
        report.document.paragraph(format!("No room for another ramp: {}.", named.join(", ")));
    }
    let doubts = misread(&report);
    report.document.append(doubts);
    report.document.paragraph("Screening only. Nobody between tow vehicle, trailer and boat.");
    report.document
}

/// A ramp with its grade at the water and what the boat weighs, as far as they are known: who tows her lighter or elsewhere needs
/// another card.
fn card_heading(report: &Report<'_>, loads: &LaunchLoads) -> String {
    let grade = loads.grade.as_ref().ok().map(|grade| percent(Share::from(grade.0)));
    let grade = grade.map(|grade| format!(", {grade} at the water")).unwrap_or_default();
    let boat = report.findings().assessment.cases.get(loads.case).and_then(|case| case.boat.clone().ok());
    let boat = boat.map(|boat| format!(", boat at {}", report.units().weight(boat))).unwrap_or_default();
    format!("{}{grade}{boat}", heading(report, loads))
}

/// What to do on a ramp, or in words why that is not known.
fn on_card(report: &Report<'_>, loads: &LaunchLoads) -> Vec<String> {
    let launch = match &loads.launch {
        Ok(Ok(launch)) => launch,
        Ok(Err(why)) => return vec![format!("{}.", capital(&no_launch(why)))],
        Err(missing) => {
            return vec![format!("How deep to back in is not known without {}.", lacking(missing))];
        }
    };
    let mut list = doing(report, launch);
    list.push(match &launch.home {
        Ok(home) => home_by(report, home),
        Err(missing) => format!("Home: not known without {}.", lacking(missing)),
    });
    if launch.events.iter().any(|(_, spot)| spot.tailpipe.is_err()) {
        list.push("The tailpipe is not in the file: watch where it gets wet.".to_string());
    }
    list
}

/// How many keys a card names.
const NAMED: usize = 6;

/// The first of the keys that are missing, and how many more there are.
fn lacking(missing: &Missing) -> String {
    let mut keys = words::keys(&missing.0);
    let more = keys.len().saturating_sub(NAMED);
    keys.truncate(NAMED);
    if more > 0 {
        keys.push(format!("{more} more"));
    }
    words::listed(&keys)
}

/// Of each ramp the case in which the boat comes off farthest down; the first of equals.
fn hardest<'a>(subject: &Subject<'a>) -> Vec<&'a LaunchLoads> {
    let launches = &subject.findings.assessment.launches;
    let down = |loads: &LaunchLoads| {
        let off = loads.found().ok().and_then(Launch::comes_off).map(|spot| spot.along.si());
        off.unwrap_or(f64::INFINITY)
    };
    let ramps = (0..subject.rig.proposed().ramps.len()).filter_map(|ramp| {
        let cases = launches.iter().filter(|loads| loads.ramp == ramp);
        cases.reduce(|most, next| if down(next) > down(most) { next } else { most })
    });
    ramps.collect()
}

fn others<'a>(subject: &Subject<'a>, shown: &[&LaunchLoads]) -> impl Iterator<Item = &'a LaunchLoads> {
    let launches = &subject.findings.assessment.launches;
    let is_shown = |loads: &&LaunchLoads| shown.iter().any(|shown| std::ptr::eq(*shown, *loads));
    launches.iter().filter(move |loads| !is_shown(loads))
}

/// What the first lines say: how deep to back in on the first ramp, and the worst of what stands against it.
fn answer(report: &mut Report<'_>, shown: &[&LaunchLoads]) {
    let worst = report.worst_row();
    let made = report.rows().any(|row| row.verdict != Verdict::NotChecked);
    let (verdict, word) = match worst {
        Some(row) => (row.verdict, words::verdict(row.verdict).to_uppercase()),
        None if made => (Verdict::Pass, "PASS".to_string()),
        None => (Verdict::NotChecked, "INCOMPLETE".to_string()),
    };
    let mut said: Vec<String> = shown.iter().map(|loads| back_in(report, loads)).collect();
    if !made {
        said = vec![
            "Nothing about launching could be computed. The keys to fill in are listed below; for what a tape does not give an estimate with its ± will do.".to_string(),
        ];
    }
    if let Some(row) = worst {
        let fault = match row.verdict {
            Verdict::Unsure => format!("{} may fail, within what is uncertain", capital(&the(row))),
            _ => capital(&words::fault(row, report.units())),
        };
        said.push(format!("{fault}{}.", report.place(None, row.ramp)));
        said.push(remedy(row));
    }
    let name = format!("{}, launching", report.subject.name());
    report.answer(verdict_title(words::verdict_role(verdict), &word, said.join(" ").trim()), &name);
}

/// What usually helps a row that stands outside its limits.
fn remedy(row: &Row) -> String {
    if row.verdict == Verdict::Unsure { String::new() } else { row.check.cures.to_string() }
}

/// How deep to back in on a ramp, in a sentence.
fn back_in(report: &Report<'_>, loads: &LaunchLoads) -> String {
    let units = report.units();
    let ramp = words::ramp(report.rig(), loads.ramp);
    match &loads.launch {
        Err(_) => format!("At \"{ramp}\" keys are missing."),
        Ok(Err(why)) => format!("At \"{ramp}\" {}.", no_launch(why)),
        Ok(Ok(launch)) => match launch.comes_off() {
            Some(off) => {
                let lifts = launch.at(Event::SternLifts).filter(|spot| spot.position < off.position);
                let lifts = lifts.map(|spot| {
                    format!(
                        "the stern lifts with {} over the trailer's rear wheels, and ",
                        depth(units, spot.wheel_depth)
                    )
                });
                let stops = launch.must_stop().filter(|(_, stop)| stop.position < off.position);
                let stops = stops.map(|(event, stop)| {
                    format!(
                        " Do not launch there: {} at {}.",
                        stopping(event),
                        depth(units, stop.wheel_depth)
                    )
                });
                let off = depth(units, off.wheel_depth);
                let (lifts, stops) = (lifts.unwrap_or_default(), stops.unwrap_or_default());
                format!("At \"{ramp}\" {lifts}she comes off at {off}.{stops}")
            }
            None => format!("At \"{ramp}\" she does not come off, however far the ramp goes on."),
        },
    }
}

fn no_launch(why: &NoLaunch) -> String {
    match why {
        NoLaunch::Sinks(Sinks::TooHeavy) => {
            "she does not float: she weighs more than her hull displaces up to the sheer".to_string()
        }
        NoLaunch::Sinks(Sinks::TrimsUnder) => {
            "she does not float: she trims until the water comes over her sheer".to_string()
        }
        NoLaunch::Stopped(_) => format!("the rig does not rest in the water: {why}"),
        other => other.to_string(),
    }
}

fn heading(report: &Report<'_>, loads: &LaunchLoads) -> String {
    let rig = report.rig();
    let several = report.findings().assessment.cases.len() > 1;
    let case = if several { format!(", case {}", loads.case + 1) } else { String::new() };
    format!("At \"{}\"{case}", words::ramp(rig, loads.ramp))
}

fn depth(units: UnitSystem, length: Length) -> String {
    units.depth(length)
}

/// What happens on one ramp, event by event, and coming home.
fn on_ramp(report: &mut Report<'_>, loads: &LaunchLoads) {
    let Ok(Ok(launch)) = &loads.launch else { return };
    let units = report.units();
    let heading = heading(report, loads);
    report.document.heading(heading);
    let mut table = Table::new([
        (Holds::Name, ""),
        (Holds::Numbers, "past edge"),
        (Holds::Numbers, "at wheels"),
        (Holds::Numbers, "posts dry"),
        (Holds::Numbers, "tow tire"),
        (Holds::Numbers, "on trailer"),
        (Holds::Numbers, "tongue"),
    ]);
    for (event, spot) in &launch.events {
        let known =
            |length: &Known<Length>| length.clone().map_or(UNKNOWN.to_string(), |dry| depth(units, dry));
        let cells: [Cell; 7] = [
            happens(*event, launch).into(),
            units.road(spot.along).into(),
            depth(units, spot.wheel_depth).into(),
            known(&spot.guides).into(),
            depth(units, spot.tow_tire).into(),
            units.weight(spot.carried).into(),
            units.weight(spot.tongue).into(),
        ];
        table.rows.push(cells.into());
    }
    report.document.table(table);
    let said = [
        Some(afloat(report, launch)),
        taut(report, launch),
        wet(report, launch),
        coming_home(report, launch),
    ];
    for said in said.into_iter().flatten() {
        report.document.paragraph(said);
    }
}

/// An event in the words of its table.
fn happens(event: Event, launch: &Launch) -> &'static str {
    match event {
        Event::HubsWet => "hubs get wet",
        Event::SternLifts => "stern lifts",
        Event::BowLifts => "bow lifts",
        Event::Slides if launch.slides_dry() => "would slide, dry",
        Event::Slides => "slides at a push",
        Event::Floats => "floats free",
        Event::TowTire => "tow tires at limit",
        Event::TowHub => "tow hubs get wet",
        Event::Tailpipe => "tailpipe gets wet",
        Event::Guides => "guides awash",
        Event::Lamps => "lamps get wet",
        Event::Ends => "ramp ends",
    }
}

fn afloat(report: &Report<'_>, launch: &Launch) -> String {
    let (draft, trim) = (launch.afloat.draft, launch.afloat.trim);
    let way = if trim.si() < 0.0 { "down" } else { "up" };
    let draws = depth(report.units(), draft);
    format!("Afloat she draws {draws} at the transom, her bow {} {way}.", degrees(trim.abs()))
}

fn taut(report: &Report<'_>, launch: &Launch) -> Option<String> {
    let spot = launch.taut.as_ref().ok()?.as_ref()?;
    Some(format!(
        "Slack the strap before the stern lifts: held taut, it would pull with {}.",
        report.units().weight(spot.carried)
    ))
}

/// Where the skipper stands and whether the lamps get wet as she comes off.
fn wet(report: &Report<'_>, launch: &Launch) -> Option<String> {
    let (units, off) = (report.units(), launch.comes_off()?);
    let skipper = off.skipper.as_ref().ok().map(|water| {
        if water.si() > 0.0 {
            format!("the skipper stands {} deep", depth(units, *water))
        } else {
            "the skipper stands dry".to_string()
        }
    });
    let lamps = off.lamps.as_ref().ok().map(|dry| {
        if dry.si() > 0.0 {
            format!("the lamps are {} above the water", depth(units, *dry))
        } else {
            format!("the lamps are {} under water", depth(units, -*dry))
        }
    });
    let said: Vec<String> = skipper.into_iter().chain(lamps).collect();
    (!said.is_empty()).then(|| format!("As she comes off, {}.", said.join(" and ")))
}

/// Between which depths she comes home, and what ends the band.
fn coming_home(report: &Report<'_>, launch: &Launch) -> Option<String> {
    let home = launch.home.as_ref().ok()?;
    let units = report.units();
    let (closes, to) = &home.to;
    let end = closing(*closes);
    Some(match (&home.from, home.width()) {
        (Some(from), Some(width)) if width.si() >= 0.0 => {
            let from = if from.wheel_depth.si() <= 0.0 {
                "from the water's edge".to_string()
            } else {
                format!("from {}", depth(units, from.wheel_depth))
            };
            format!(
                "Coming home: {from} to {} over the rear wheels; beyond that {end}.",
                depth(units, to.wheel_depth)
            )
        }
        (Some(from), _) => format!(
            "Coming home: no depth suits. The winch can draw her to the stop from {} over the rear wheels, but at {} {end}.",
            depth(units, from.wheel_depth),
            depth(units, to.wheel_depth)
        ),
        (None, _) => format!(
            "Coming home: the winch cannot draw her to the stop at any depth, and at {} {end}.",
            depth(units, to.wheel_depth)
        ),
    })
}

fn closing(closes: Closes) -> &'static str {
    match closes {
        Closes::SitsShort => "her stern floats so that she sits down short of the stop",
        Closes::Guides => "the guides are awash",
        Closes::TowHub => "the tow vehicle's rear hubs get wet",
        Closes::Tailpipe => "the tailpipe gets wet",
        Closes::RampEnds => "the ramp ends",
    }
}

/// What ends a launch, in a sentence.
fn stopping(event: Event) -> &'static str {
    match event {
        Event::TowHub => closing(Closes::TowHub),
        Event::Tailpipe => closing(Closes::Tailpipe),
        _ => closing(Closes::RampEnds),
    }
}

/// How much line one person needs, from the eye to a post or the tow vehicle.
fn line(report: &Report<'_>) -> Option<String> {
    let launches = &report.findings().assessment.launches;
    let length = launches.iter().find_map(|loads| loads.line.as_ref().ok())?;
    Some(format!("Line: {} from the bow eye to the winch's post.", report.units().road(*length)))
}

/// How good the answer is, by how the hull is known, and the line.
fn how_good(report: &mut Report<'_>, shown: &[&LaunchLoads]) {
    let by = shown.iter().find_map(|loads| loads.found().ok()).map(|launch| launch.hull);
    let Some(by) = by else {
        // A tape alone gives the line.
        return line(report).into_iter().for_each(|line| report.document.paragraph(line));
    };
    let how = match by {
        HullBy::Sections => {
            "The hull is known by its sections. Where her weight lies matters more: weigh it.".to_string()
        }
        HullBy::Tape => format!(
            "{} The forward support may carry up to 4 % less. Measure sections for better.",
            band(by, report.units()).unwrap_or_default()
        ),
        HullBy::Afloat => format!(
            "{} Nothing else is known of her. Measure the hull for more.",
            band(by, report.units()).unwrap_or_default()
        ),
    };
    report.document.paragraph(how);
    if let Some(line) = line(report) {
        report.document.paragraph(line);
    }
    report
        .document
        .paragraph("Not covered: waves, current, way on, suction, soft bottoms, a hull that gives.");
}

/// How far off along the ramp the marks may be, by how the hull is known; `None` where its shape is.
///
/// Derived from invented hulls, 90 % of which lie inside.
fn band(by: HullBy, units: UnitSystem) -> Option<String> {
    let inches = |inches: f64| depth(units, Length::from_si(inches * unit::INCH));
    match by {
        HullBy::Sections => None,
        HullBy::Tape => Some(format!(
            "The hull is known by a tape alone: along the ramp the stern may lift from {} sooner to {} later.",
            inches(9.0),
            inches(3.0)
        )),
        HullBy::Afloat => Some(format!(
            "Only how she floats is known: along the ramp she floats free within some {} of that.",
            inches(5.0)
        )),
    }
}

/// What to do, in order.
fn doing(report: &Report<'_>, launch: &Launch) -> Vec<String> {
    let units = report.units();
    let mark = |spot: &Spot| {
        let post = spot.guides.as_ref().ok().map(|dry| {
            let dry_or_not = if dry.si() < 0.0 { "under" } else { "dry" };
            format!(", posts {} {dry_or_not}", depth(units, dry.abs()))
        });
        format!("{} over the rear wheels{}", depth(units, spot.wheel_depth), post.unwrap_or_default())
    };
    let (off, stop) = (launch.comes_off(), launch.must_stop());
    let too_late = |(_, stop): &(Event, &Spot)| off.is_none_or(|off| stop.position < off.position);
    let mut list = Vec::new();
    if let Some((event, spot)) = stop.filter(too_late) {
        let at = mark(spot);
        list.push(format!("Do not launch here: {} at {at}, and she is not off yet.", stopping(event)));
    } else {
        let sooner = |spot: &&Spot| stop.is_none_or(|(_, stop)| spot.position < stop.position);
        let lifts = launch.at(Event::SternLifts);
        let lifts = lifts.filter(|lifts| off.is_none_or(|off| lifts.position < off.position));
        let slack = if lifts.is_none() { "Slack the strap. " } else { "" };
        let lifts =
            lifts.map(|spot| (spot, format!("Slack the strap. Back in to {}: the stern lifts.", mark(spot))));
        let off = off.map(|spot| (spot, format!("{slack}At {}: push her off.", mark(spot))));
        let tires = launch.at(Event::TowTire).filter(sooner).map(|spot| {
            (spot, format!("At {}: the tow vehicle's rear tires stand as deep as they may.", mark(spot)))
        });
        let stop =
            stop.map(|(event, spot)| (spot, format!("Stop before {}: {}.", mark(spot), stopping(event))));
        let mut marks: Vec<(&Spot, String)> = [lifts, off, tires, stop].into_iter().flatten().collect();
        marks.sort_by(|(one, _), (other, _)| one.position.si().total_cmp(&other.position.si()));
        list.extend(marks.into_iter().map(|(_, what)| what));
    }
    list
}

fn home_by(report: &Report<'_>, home: &Home) -> String {
    let units = report.units();
    let to = depth(units, home.to.1.wheel_depth);
    match (&home.from, home.width()) {
        (Some(from), Some(width)) if width.si() >= 0.0 => {
            format!(
                "Home: {} to {to} over the rear wheels.",
                depth(units, from.wheel_depth.max(Length::default()))
            )
        }
        _ => "Home: no depth suits the winch.".to_string(),
    }
}
