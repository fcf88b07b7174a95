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
use crate::rig::Key;
use crate::rig::inputs::{BOAT_WEIGHTS_STATION, TOW_TIRE_RADIUS};
use crate::study::launch::{Launching, Marks, Silent, StandIn};

/// The lines of the card at most: it is laminated and kept in the tow vehicle.
pub const CARD: usize = 20;

/// Where a depth is not known.
const UNKNOWN: &str = "-";

/// The report of launching on every ramp with water.
pub fn report(subject: &Subject<'_>, launching: &Launching, extent: Extent) -> Document {
    let mut page = Page::new(Report::new(subject, Some(crate::fit::Subject::Launch)));
    let shown = hardest(launching);
    answer(&mut page.report, launching, &shown);
    page.stays();
    page.report.cures();
    page.stays();
    for (i, shown) in shown.iter().enumerate() {
        on_ramp(&mut page.report, *shown);
        if i == 0 {
            page.stays();
        } else {
            page.gives_way(5, format!("the ramp \"{}\"", words::ramp(subject.rig, shown.loads.ramp)));
        }
    }
    if extent == Extent::Full {
        for loads in others(launching, &shown) {
            on_ramp(&mut page.report, Shown { loads, marks: None });
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
pub fn card(subject: &Subject<'_>, launching: &Launching) -> Document {
    let ramps = hardest(launching);
    let of_ramps = |count| of_ramps(subject, launching, &ramps, count);
    let fits = |document: &Document| super::text::lines(document) <= CARD;
    let whole = (1..=ramps.len()).rev().map(of_ramps).find(fits);
    whole.unwrap_or_else(|| {
        let mut document = of_ramps(1);
        while !fits(&document) && document.shorten() {}
        document
    })
}

/// A card of the first of these ramps; the others are named.
fn of_ramps(subject: &Subject<'_>, launching: &Launching, ramps: &[Shown<'_>], count: usize) -> Document {
    let mut report = Report::new(subject, Some(crate::fit::Subject::Launch));
    let boat = subject.rig.proposed().boat.name.clone();
    report.document.add_title(format!("Launching {}", boat.as_deref().unwrap_or("the boat")));
    let (shown, others) = ramps.split_at(count.min(ramps.len()));
    for shown in shown {
        report.document.heading(card_heading(&report, shown.loads));
        report.document.list(on_card(&report, *shown));
    }
    let known = shown.iter().find_map(|shown| shown.loads.found().ok());
    if known.is_some() && launching.is_estimate() {
        let keys = words::listed(&lacking_keys(launching));
        report.document.paragraph(format!("An estimate, for want of {keys}."));
    }
    if let Some(band) = known.and_then(|launch| band(launch.hull, report.units())) {
        report.document.paragraph(band);
    }
    if let Some(line) = line(&report) {
        report.document.paragraph(line);
    }
    if !others.is_empty() {
        let named =
            others.iter().map(|other| format!("--ramp \"{}\"", words::ramp(subject.rig, other.loads.ramp)));
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
fn on_card(report: &Report<'_>, shown: Shown<'_>) -> Vec<String> {
    let launch = match &shown.loads.launch {
        Ok(Ok(launch)) => launch,
        Ok(Err(why)) => return vec![format!("{}.", capital(&no_launch(why)))],
        Err(missing) => {
            let lacks = format!("How deep to back in is not known without {}.", lacking(missing));
            return std::iter::once(lacks).chain(estimate_the_boat(missing)).collect();
        }
    };
    let mut list = doing(report, launch, shown.marks);
    list.push(match &launch.home {
        Ok(home) => home_by(report, home, shown.marks),
        Err(missing) => format!("Home: not known without {}.", lacking(missing)),
    });
    if launch.events.iter().any(|(_, spot)| spot.tailpipe.is_err()) {
        list.push("The tailpipe is not in the file: watch where it gets wet.".to_string());
    }
    let setup = report.rig().proposed();
    if launch.at(Event::TowHub).is_some() && setup.is_assumed(TOW_TIRE_RADIUS.key()) {
        let radius = setup.tow.tire_radius.unwrap_or_default();
        list.push(format!(
            "The tow vehicle's hubs are taken to lie {} up: on smaller wheels they get wet sooner.",
            report.units().distance(radius)
        ));
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

/// A launch that is shown, and its marks at the ends of what is uncertain.
#[derive(Clone, Copy)]
struct Shown<'a> {
    loads: &'a LaunchLoads,
    marks: Option<&'a Marks>,
}

/// The launches that a reader needs first, one a ramp.
fn hardest(launching: &Launching) -> Vec<Shown<'_>> {
    let shown = |at: usize| Shown { loads: &launching.launches[at], marks: launching.marks[at].as_ref() };
    launching.hardest().into_iter().map(shown).collect()
}

fn others<'a>(launching: &'a Launching, shown: &[Shown<'a>]) -> impl Iterator<Item = &'a LaunchLoads> {
    let is_shown = |loads: &&LaunchLoads| shown.iter().any(|shown| std::ptr::eq(shown.loads, *loads));
    launching.launches.iter().filter(move |loads| !is_shown(loads))
}

/// What the first lines say: how deep to back in on the first ramp, and the worst of what stands against it.
fn answer(report: &mut Report<'_>, launching: &Launching, shown: &[Shown<'_>]) {
    let worst = report.worst_row();
    let made = report.rows().any(|row| row.verdict != Verdict::NotChecked);
    let is_found = shown.iter().any(|shown| shown.loads.found().is_ok());
    // No row compares the marks at the ends of what is uncertain.
    let may_stop = shown.iter().any(|shown| shown.marks.is_some_and(Marks::may_stop_too_soon));
    let (verdict, word) = match worst {
        None if made && may_stop => (Verdict::Advise, words::verdict(Verdict::Advise).to_uppercase()),
        Some(row) => (row.verdict, words::verdict(row.verdict).to_uppercase()),
        None if made => (Verdict::Pass, "PASS".to_string()),
        None if is_found => (Verdict::NotChecked, "ESTIMATE".to_string()),
        None => (Verdict::NotChecked, "INCOMPLETE".to_string()),
    };
    let mut said: Vec<String> = shown.iter().map(|shown| back_in(report, *shown)).collect();
    if !made && !is_found {
        let missing = shown.iter().find_map(|shown| shown.loads.launch.as_ref().err());
        let without = missing.map(|missing| format!(" without {}", lacking(missing))).unwrap_or_default();
        said = vec![format!(
            "Nothing about launching could be computed{without}. For what a tape does not give an estimate with its ± will do."
        )];
        said.extend(missing.and_then(estimate_the_boat));
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
    if is_found && launching.is_estimate() {
        let basis = estimated_from(report, launching);
        report.document.paragraph(basis);
    }
}

/// What an estimate is made from, and what to measure to narrow it.
fn estimated_from(report: &Report<'_>, launching: &Launching) -> String {
    let units = report.units();
    let taken =
        |one: &StandIn| format!("{} {}", assumed(one), span(one.between.map(|end| units.weight(end))));
    let taken: Vec<String> = launching.stand_ins.iter().map(taken).collect();
    let mut said = vec![format!(
        "This is an estimate: the file lacks {}. For launching alone it is assumed, as common practice has it, that {}. Each depth allows for the whole of these ranges.",
        words::listed(&lacking_keys(launching)),
        words::listed(&taken)
    )];
    said.extend(unsure_centre(report));
    said.join(" ")
}

/// The keys that would take the place of what is assumed.
fn lacking_keys(launching: &Launching) -> Vec<String> {
    let keys: Vec<Key> = launching.stand_ins.iter().flat_map(|one| one.keys.clone()).collect();
    words::keys(&keys)
}

/// What is assumed, in words.
fn assumed(stand_in: &StandIn) -> &'static str {
    match stand_in.silent {
        Silent::Trailer => "the trailer weighs",
        Silent::Tongue => "its tongue without the boat weighs",
        Silent::Springs => "each axle's springs are rated for",
    }
}

/// Asks for a ± where nothing says how sure the place of her weight is, which moves the marks most.
fn unsure_centre(report: &Report<'_>) -> Option<String> {
    let rig = report.rig();
    let is_station = |(key, _): &(Key, f64)| key.path == BOAT_WEIGHTS_STATION.path();
    if rig.uncertain().iter().any(is_station) {
        return None;
    }
    let weights = rig.measured().boat.weights.iter().enumerate();
    let weights = weights.filter_map(|(i, part)| Some((i, part.weight?.si())));
    let (heaviest, _) = weights.reduce(|most, next| if next.1 > most.1 { next } else { most })?;
    let key = BOAT_WEIGHTS_STATION.of(heaviest);
    Some(format!("Where her weight lies matters more than all of these: state {key} with its ±."))
}

/// Asks for what nothing stands in for: what the boat weighs, and where that lies.
fn estimate_the_boat(missing: &Missing) -> Option<String> {
    let of_boat = |key: &&Key| key.path.starts_with("boat.weights.") || key.path.starts_with("boat.tanks.");
    let keys: Vec<Key> = missing.0.iter().filter(of_boat).copied().collect();
    let asks = || {
        let listed = words::listed(&words::keys(&keys));
        let is_place = |key: &Key| key.path.ends_with(".station");
        let as_stated = match (keys.iter().all(is_place), keys.iter().any(is_place)) {
            (true, _) => "\"9 ft ± 1 ft\"",
            (_, false) => "\"3500 lb ± 400 lb\"",
            _ => "\"3500 lb ± 400 lb\" or \"9 ft ± 1 ft\"",
        };
        format!("Her weight and where it lies are never assumed: estimate {listed}, with ±, as {as_stated}.")
    };
    (!keys.is_empty()).then(asks)
}

/// What usually helps a row that stands outside its limits.
fn remedy(row: &Row) -> String {
    if row.verdict == Verdict::Unsure { String::new() } else { row.check.cures.to_string() }
}

/// How deep to back in on a ramp, in a sentence.
fn back_in(report: &Report<'_>, Shown { loads, marks }: Shown<'_>) -> String {
    let units = report.units();
    let ramp = words::ramp(report.rig(), loads.ramp);
    match &loads.launch {
        Err(_) => format!("At \"{ramp}\" keys are missing."),
        Ok(Err(why)) => format!("At \"{ramp}\" {}.", no_launch(why)),
        Ok(Ok(launch)) => match launch.comes_off() {
            Some(off) => {
                let lifts = launch.lifts().map(|spot| {
                    let at = depths(units, ends(marks, spot, Launch::lifts));
                    format!("the stern lifts with {at} over the trailer's rear wheels, and ")
                });
                let stops = launch.must_stop().filter(|_| launch.stops_too_soon());
                let stops = stops.map(|(event, stop)| {
                    format!(
                        "do not launch: {} at {}; ",
                        stopping(event),
                        depth(units, units.depth_below(soonest(marks, stop, stops_at).wheel_depth))
                    )
                });
                let off = depths(units, ends(marks, off, Launch::comes_off));
                let (lifts, stops) = (lifts.unwrap_or_default(), stops.unwrap_or_default());
                let may = launch.must_stop().filter(|_| marks.is_some_and(Marks::may_stop_too_soon));
                let may = may.map(|(event, _)| format!(" At worst {} before she is off.", stopping(event)));
                let may = may.unwrap_or_default();
                format!("At \"{ramp}\" {stops}{lifts}she comes off at {off}.{may}")
            }
            None => format!("At \"{ramp}\" she does not come off, however far the ramp goes on."),
        },
    }
}

/// The soonest and the latest of a mark that in the middle lies at a spot.
fn ends<'a>(
    marks: Option<&'a Marks>,
    spot: &'a Spot,
    mark: impl Fn(&'a Launch) -> Option<&'a Spot>,
) -> [&'a Spot; 2] {
    marks.and_then(|marks| marks.between(mark)).unwrap_or([spot, spot])
}

/// Two lengths are one where they differ by less than so much, in metres.
const APART: f64 = 1e-6;

/// The depths over the rear wheels at two spots; a band holds all that was found.
fn depths(units: UnitSystem, ends: [&Spot; 2]) -> String {
    let [low, high] = outward(units, ends.map(|spot| spot.wheel_depth));
    span([depth(units, low), depth(units, high)])
}

/// The least and the greatest of a band at the nearest marks of a stick outside of it; one length stays as it is.
fn outward(units: UnitSystem, [low, high]: [Length; 2]) -> [Length; 2] {
    if (high - low).si() < APART { [low, high] } else { [units.depth_below(low), units.depth_above(high)] }
}

/// How much of the guide posts stands dry at most and at least, or how far they are under water.
fn posts(units: UnitSystem, [most, least]: [Length; 2]) -> String {
    let [last, first] = outward(units, [least, most]);
    let side = |dry: Length| if dry.si() < 0.0 { "under" } else { "dry" };
    let shown = |dry: Length| depth(units, dry.abs());
    if side(first) == side(last) {
        return format!(", posts {} {}", span([shown(first), shown(last)]), side(last));
    }
    format!(", posts {} {} to {} {}", shown(first), side(first), shown(last), side(last))
}

/// Two lengths in one unit as one says them: `41 to 44 in`.
fn span([low, high]: [String; 2]) -> String {
    if low == high {
        return high;
    }
    let unit = |text: &str| text.rsplit_once(' ').map(|(_, unit)| unit.to_string());
    let alike = unit(&low).is_some() && unit(&low) == unit(&high);
    let number = low.rsplit_once(' ').filter(|_| alike).map_or(low.as_str(), |(number, _)| number);
    format!("{number} to {high}")
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
fn on_ramp(report: &mut Report<'_>, Shown { loads, marks }: Shown<'_>) {
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
        coming_home(report, launch, marks),
        marks.map(|marks| middle_of(report, marks)),
    ];
    for said in said.into_iter().flatten() {
        report.document.paragraph(said);
    }
}

/// That the table stands in the middle of what is uncertain, and what to measure to narrow that.
fn middle_of(report: &Report<'_>, marks: &Marks) -> String {
    let keys = words::keys(&marks.first);
    // What moves them most may have no ± in the file.
    let most = if unsure_centre(report).is_some() { "Of the rest" } else { "To narrow the depths most" };
    let measure = format!(" {most}, measure {}.", words::listed(&keys));
    let measure = if keys.is_empty() { "" } else { &measure };
    format!(
        "The table stands in the middle of what is uncertain; the first lines and coming home allow for all of it.{measure}"
    )
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
fn coming_home(report: &Report<'_>, launch: &Launch, marks: Option<&Marks>) -> Option<String> {
    let as_it_is = launch.home.as_ref().ok()?;
    let home = worst_home(as_it_is, marks);
    let units = report.units();
    let (closes, to) = &home.to;
    let end = closing(*closes);
    Some(match (&home.from, home.width()) {
        (Some(from), Some(width)) if width.si() >= 0.0 => {
            let [least, greatest] = inward(units, [from.wheel_depth, to.wheel_depth]);
            let from = if from.wheel_depth.si() <= 0.0 {
                "from the water's edge".to_string()
            } else {
                format!("from {}", depth(units, least))
            };
            format!(
                "Coming home: {from} to {} over the rear wheels; beyond that {end}.",
                depth(units, greatest)
            )
        }
        (Some(from), _) if suits(as_it_is) => format!(
            "Coming home: no one depth suits all that is uncertain. At worst the winch can draw her to the stop only from {} over the rear wheels, and at {} {end}.",
            depth(units, from.wheel_depth),
            depth(units, to.wheel_depth)
        ),
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

/// The least and the greatest depth that hold, at the nearest marks of a stick between them; as they are where there is none.
fn inward(units: UnitSystem, [least, greatest]: [Length; 2]) -> [Length; 2] {
    let [from, to] = [units.depth_above(least), units.depth_below(greatest)];
    if from > to { [least, greatest] } else { [from, to] }
}

/// The depths for coming home that hold at all ends of what is uncertain.
fn worst_home(home: &Home, marks: Option<&Marks>) -> Home {
    marks.map_or_else(|| home.clone(), |marks| marks.worst_home(home))
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
fn how_good(report: &mut Report<'_>, shown: &[Shown<'_>]) {
    let by = shown.iter().find_map(|shown| shown.loads.found().ok()).map(|launch| launch.hull);
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
fn doing(report: &Report<'_>, launch: &Launch, marks: Option<&Marks>) -> Vec<String> {
    let units = report.units();
    let mark = |spot: &Spot, which: fn(&Launch) -> Option<&Spot>| {
        let dry = match marks {
            Some(marks) => marks.posts_between(which),
            None => spot.guides.as_ref().ok().map(|dry| [*dry; 2]),
        };
        let posts = dry.map(|dry| posts(units, dry)).unwrap_or_default();
        format!("{} over the rear wheels{posts}", depths(units, ends(marks, spot, which)))
    };
    // Where something must not be passed its soonest counts.
    let before = |spot: &Spot, which: fn(&Launch) -> Option<&Spot>| {
        let dry = match marks {
            Some(marks) => marks.posts_between(which).map(|[most, _]| most),
            None => spot.guides.as_ref().ok().copied(),
        };
        let posts = dry.map(|dry| posts(units, [units.depth_above(dry); 2])).unwrap_or_default();
        let soonest = units.depth_below(soonest(marks, spot, which).wheel_depth);
        format!("{} over the rear wheels{posts}", depth(units, soonest))
    };
    let (off, stop) = (launch.comes_off(), launch.must_stop());
    let mut list = Vec::new();
    if let Some((event, spot)) = stop.filter(|_| launch.stops_too_soon()) {
        let at = before(spot, stops_at);
        list.push(format!("Do not launch here: {} at {at}, and she is not off yet.", stopping(event)));
    } else {
        let sooner = |spot: &&Spot| stop.is_none_or(|(_, stop)| spot.position < stop.position);
        let lifts = launch.lifts();
        let slack = if lifts.is_none() { "Slack the strap. " } else { "" };
        let lifts = lifts.map(|spot| {
            let at = mark(spot, Launch::lifts);
            (spot, format!("Slack the strap. Back in to {at}: the stern lifts."))
        });
        let off =
            off.map(|spot| (spot, format!("{slack}At {}: push her off.", mark(spot, Launch::comes_off))));
        let tires = launch.at(Event::TowTire).filter(sooner).map(|spot| {
            let at = before(spot, |launch| launch.at(Event::TowTire));
            (spot, format!("At {at}: the tow vehicle's rear tires stand as deep as they may."))
        });
        let stop = stop.map(|(event, spot)| {
            let at = before(spot, stops_at);
            let may = marks.is_some_and(Marks::may_stop_too_soon);
            let may = if may { ", maybe before she is off" } else { "" };
            (spot, format!("Stop before {at}: {}{may}.", stopping(event)))
        });
        let mut marks: Vec<(&Spot, String)> = [lifts, off, tires, stop].into_iter().flatten().collect();
        marks.sort_by(|(one, _), (other, _)| one.position.si().total_cmp(&other.position.si()));
        list.extend(marks.into_iter().map(|(_, what)| what));
    }
    list
}

/// Where the launch has to stop.
fn stops_at(launch: &Launch) -> Option<&Spot> {
    launch.must_stop().map(|(_, spot)| spot)
}

/// The soonest of a mark that in the middle lies at a spot.
fn soonest<'a>(
    marks: Option<&'a Marks>,
    spot: &'a Spot,
    mark: impl Fn(&'a Launch) -> Option<&'a Spot>,
) -> &'a Spot {
    ends(marks, spot, mark)[0]
}

/// Whether there is a depth at which she comes home, as it is or at one end of what is uncertain.
fn suits(home: &Home) -> bool {
    home.width().is_some_and(|width| width.si() >= 0.0)
}

fn home_by(report: &Report<'_>, home: &Home, marks: Option<&Marks>) -> String {
    let as_it_is = home;
    let home = worst_home(home, marks);
    let units = report.units();
    match (&home.from, home.width()) {
        (Some(from), Some(width)) if width.si() >= 0.0 => {
            let from = from.wheel_depth.max(Length::default());
            let [from, to] = inward(units, [from, home.to.1.wheel_depth]);
            format!("Home: {} to {} over the rear wheels.", depth(units, from), depth(units, to))
        }
        (Some(_), _) if suits(as_it_is) => "Home: no one depth surely suits the winch.".to_string(),
        _ => "Home: no depth suits the winch.".to_string(),
    }
}
