//! The report of the bunks: how the boat lies, what everything carries, and what the workshop cuts.

use super::document::{Cell, Document, Holds, Table};
use super::page::{Extent, Page};
use super::sections::{Report, capital, more_checks, not_made, verdict_title};
use super::{Subject, words};
use crate::fit::{
    Allowable, BowBunksBear, Bunk, BunkFit, BunkLoads, CutSheet, Decides, Hole, Known, Landing, Lowest, Row,
    Verdict,
};
use crate::quantity::show::{UnitSystem, decimals, degrees, percent};
use crate::quantity::{Length, Quantity, Share, Weight};
use crate::rig::Lay;
use std::fmt::Write;

/// A bracket so far out of line with its neighbours can take more than their loads: 1/16 in, in metres. Common practice, no source.
const HIGH_OR_LOW: f64 = 0.001_587_5;
/// How wide a bunk is drawn.
const DRAWN: usize = 62;

/// The report of a rig's bunks: a page to take to the saw, or everything.
pub fn report(subject: &Subject<'_>, extent: Extent) -> Document {
    let mut page = Page::new(Report::new(subject, Some(crate::fit::Subject::Bunks)));
    verdict(&mut page.report);
    page.stays();
    page.report.cures();
    page.stays();
    if let Some(fit) = &subject.findings.bunks {
        let on_bunks = &subject.findings.assessment.bunks[fit.heaviest];
        cut_sheet(&mut page.report, fit);
        page.stays();
        presses(&mut page.report, on_bunks);
        if let Ok(Some(_)) = &on_bunks.bunk {
            carries(&mut page.report, fit);
        }
        page.gives_way(2, "what one bunk carries");
        clearances(&mut page.report, fit);
        page.gives_way(3, "what clears what");
        around(&mut page.report, fit);
        page.gives_way(4, "bow bunks and guides");
        lies(&mut page.report, fit, on_bunks);
        page.gives_way(5, "how the boat lies");
        if let Ok(Some(bunk)) = &on_bunks.bunk {
            wood(&mut page.report, fit, bunk);
            page.gives_way(6, "the wood's stresses");
        }
    }
    page.report.checks();
    page.gives_way(7, "every check");
    if extent == Extent::Full {
        return page.whole();
    }
    let answers = page.report.rows().any(|row| row.load.is_some());
    page.keys_to_fill_in(answers);
    page.fitted()
}

fn verdict(report: &mut Report<'_>) {
    let count = |verdict: Verdict| report.rows().filter(|row| row.verdict == verdict).count();
    let made = report.rows().any(|row| row.load.is_some());
    let (verdict, word, reason) = match report.worst_row().filter(|row| row.verdict != Verdict::Unsure) {
        Some(row) => {
            let others = more_checks(count(Verdict::Fail).saturating_sub(1), "fails", "fail");
            let fault = capital(&words::fault(row, report.units()));
            let carries = if row.verdict == Verdict::Fail {
                "The bunks do not hold the boat as they are: "
            } else {
                ""
            };
            let fault = if carries.is_empty() { fault } else { words::fault(row, report.units()) };
            (row.verdict, words::verdict(row.verdict).to_uppercase(), format!("{carries}{fault}.{others}"))
        }
        None if count(Verdict::Unsure) > 0 => {
            let reason = "Every bunk check that could be evaluated passes as stated, but not with every stated ± at its worst.";
            (Verdict::Unsure, "UNSURE".to_string(), reason.to_string())
        }
        None if made => (
            Verdict::Pass,
            "PASS".to_string(),
            "Every bunk check that could be evaluated passes.".to_string(),
        ),
        None => {
            let reason = "Nothing about the bunks could be computed. The keys to fill in are listed below.";
            (Verdict::NotChecked, "INCOMPLETE".to_string(), reason.to_string())
        }
    };
    let unmade = if made { not_made(count(Verdict::NotChecked)) } else { String::new() };
    let name = format!("{}, on its bunks", report.subject.name());
    let reason = reason + &unmade + &what_to_cut(report, verdict);
    report.answer(verdict_title(words::verdict_role(verdict), &word, &reason), &name);
}

/// What the sheet says in a sentence, where it is known.
fn what_to_cut(report: &Report<'_>, verdict: Verdict) -> String {
    let units = report.units();
    let Some(BunkFit { sheet: Ok(Some(sheet)), .. }) = &report.findings().bunks else { return String::new() };
    if verdict == Verdict::Fail {
        return " Do not cut them like this: `bunkline check` says what would hold.".to_string();
    }
    let board = match &report.rig().proposed().trailer.bunks.board {
        Some(board) => board.clone(),
        None => {
            format!("{} by {}", units.distance(sheet.board.breadth), units.distance(sheet.board.outer_depth))
        }
    };
    let length = units.distance(sheet.length);
    let bevel = if report.rig().proposed().trailer.bunks.lay == Some(Lay::Flat) {
        String::new()
    } else {
        format!(
            ", bevelled {} to {} inside",
            degrees(sheet.board.bevel()),
            units.distance(sheet.board.inner_depth)
        )
    };
    format!(" Cut two of {board}, {length} long{bevel}.")
}

/// A length for the tape, and the same exactly.
fn exactly(length: Length, units: UnitSystem) -> String {
    match units {
        UnitSystem::Us => {
            format!("{} ({} in)", units.distance(length), decimals(units.length_number(length), 3))
        }
        UnitSystem::Metric => {
            format!("{} ({} mm)", units.distance(length), decimals(units.length_number(length), 1))
        }
    }
}

fn or_unknown<T>(known: &Known<T>, show: impl Fn(&T) -> String) -> String {
    known.as_ref().map_or("unknown".to_string(), show)
}

fn lies(report: &mut Report<'_>, fit: &BunkFit, on_bunks: &BunkLoads) {
    let case = fit.heaviest;
    let (setup, units) = (&report.rig().proposed(), report.units());
    report.document.heading("How the boat lies");
    if setup.cases.len() > 1 {
        let name = words::case(report.rig(), case);
        let text = format!("In case {}, in which the boat is heaviest: {name}.", case + 1);
        report.document.paragraph(text);
    }
    if let Some(by_bunks) = setup.keel_on_bunks() {
        let measured = setup.trailer.keel_height.map_or(String::new(), |keel| {
            let off = keel - by_bunks;
            let way = if off.si() < 0.0 { "lower" } else { "higher" };
            match units.distance(off.abs()).as_str() {
                "0 in" | "0 mm" => "; the file's keel height agrees".to_string(),
                off => format!("; the file's keel height is {off} {way}"),
            }
        });
        report
            .document
            .fact("keel by the bunks", format!("{} above ground{measured}", exactly(by_bunks, units)));
    }
    let stretch = |forward: Length, aft: Length| {
        format!("{} to {} behind the ball", units.length(forward), units.length(aft))
    };
    report
        .document
        .fact("bottom that can bear", or_unknown(&fit.straight_run, |run| stretch(run.forward, run.aft)));
    report.document.fact("bunks", or_unknown(&fit.ends, |ends| stretch(ends.forward, ends.aft)));
    match &on_bunks.bed {
        Ok(Some(bed)) => {
            let idle = or_unknown(&fit.idle, |idle| units.length(*idle));
            let contact = stretch(bed.contact.forward, bed.contact.aft);
            report.document.fact("contact", format!("{contact}; {idle} of each bunk is idle"));
            let (e, third) = (bed.eccentricity, bed.contact.length() / 6.0);
            let inside = if e.abs() <= third { "inside" } else { "outside" };
            let centre = format!(
                "{} of the contact's middle, {inside} the middle third ({} either way)",
                words::roughly_aft(e, units),
                units.rough_distance(third)
            );
            report.document.fact("centre of gravity", centre);
        }
        Ok(None) => {
            report.document.fact("contact", "the boat does not lie on the bunks, or would tip off them");
        }
        Err(_) => report.document.fact("contact", "unknown"),
    }
    stern(report, on_bunks);
    gaps(report, fit);
    for (side, i) in [("port edge", 0), ("starboard edge", 1)] {
        report.document.fact(side, or_unknown(&fit.landings, |landings| landing(&landings[i], units)));
    }
    ends_wanted(report, fit);
}

/// How far the bunks stand off a bottom that twists: at the contact's ends and over each crossmember.
fn gaps(report: &mut Report<'_>, fit: &BunkFit) {
    let units = report.units();
    let Some([forward, aft]) = fit.gaps else { return };
    let members = fit.crossmembers.iter().enumerate();
    let over: Vec<(usize, Length)> = members.filter_map(|(i, member)| Some((i + 1, member.gap?))).collect();
    if [forward, aft].into_iter().chain(over.iter().map(|(_, gap)| *gap)).all(|gap| gap.si() == 0.0) {
        return;
    }
    let ends = format!(
        "{} at the contact's forward end, {} at its aft end",
        units.distance(forward),
        units.distance(aft)
    );
    let over = over.iter().map(|(member, gap)| format!("{} over crossmember {member}", units.distance(*gap)));
    let gaps: Vec<String> = std::iter::once(ends).chain(over).collect();
    report.document.fact("gap under the hull", gaps.join("; "));
}

fn stern(report: &mut Report<'_>, on_bunks: &BunkLoads) {
    let units = report.units();
    let Ok(overhang) = &on_bunks.overhang else {
        return report.document.fact("hangs out aft", "unknown");
    };
    let hangs = if overhang.si() > 0.0 {
        format!("{} of hull", units.distance(*overhang))
    } else {
        "nothing: the bunks reach as far aft as they can bear".to_string()
    };
    let beyond = match &on_bunks.stern {
        Ok(stern) if stern.weight.si() > 0.0 => format!(
            "; {} lies aft of where the bunks bear and bends the hull there by {}",
            units.weight(stern.weight),
            units.moment(stern.moment)
        ),
        _ => String::new(),
    };
    report.document.fact("hangs out aft", hangs + &beyond);
}

fn landing(landing: &Landing, units: UnitSystem) -> String {
    let line = match &landing.strake {
        Some(name) => format!("strake \"{name}\""),
        None => "the chine".to_string(),
    };
    match units.distance(landing.miss.abs()).as_str() {
        "0 in" | "0 mm" => format!("along {line}"),
        miss if landing.miss.si() < 0.0 => format!("{miss} inside {line}"),
        miss => format!("{miss} outside {line}"),
    }
}

fn ends_wanted(report: &mut Report<'_>, fit: &BunkFit) {
    let units = report.units();
    let Ok(wanted) = &fit.wanted_ends else { return };
    let text = match wanted {
        Some(wanted) => format!(
            "aft at {}, forward between {} and {} behind the ball: as far aft as they can bear, with the centre of gravity of every case in the middle third",
            units.length(wanted.aft),
            units.rough_length(wanted.forward_from),
            units.rough_length(wanted.forward_to)
        ),
        None => "none: bunks that reach as far aft as they can bear leave some case outside the middle third"
            .to_string(),
    };
    report.document.fact("ends that would suit", text);
}

/// What presses on hull and bunk, before it is known what holds the bunk up.
fn presses(report: &mut Report<'_>, on_bunks: &BunkLoads) {
    let units = report.units();
    let Ok(Some(bed)) = &on_bunks.bed else { return };
    report.document.heading("What one bunk carries");
    let boat = or_unknown(&on_bunks.boat, |boat| units.weight(boat.weight));
    let share = or_unknown(&on_bunks.share, |share| {
        let side = if *share == 0.5 { "half of" } else { "the heavier side of" };
        format!("{}, {side} a boat of {boat}", percent(Share::from_si(*share)))
    });
    report.document.fact("share", share);
    let load = format!(
        "{} at the contact's forward end, {} at its aft end, both bunks together",
        units.line_load(bed.forward),
        units.line_load(bed.aft)
    );
    report.document.fact("load along it", load);
    if let Ok(Some(pressure)) = &on_bunks.pressure {
        let pressure =
            format!("{} on average, {} at most", units.stress(pressure.mean), units.stress(pressure.peak));
        report.document.fact("pressure on the hull", pressure);
    }
    report.document.paragraph("The boat is taken as rigid, on an even, springy bed that it touches all along. A stiff hull presses hardest over the crossmembers, so the true peak can be higher.");
}

fn carries(report: &mut Report<'_>, fit: &BunkFit) {
    let units = report.units();
    let mut table = Table::new([
        (Holds::Name, "crossmember"),
        (Holds::Numbers, "behind the ball"),
        (Holds::Numbers, "load"),
        (Holds::Numbers, "outward"),
        (Holds::Numbers, "a bolt"),
        (Holds::Numbers, "packing"),
    ]);
    for (i, crossmember) in fit.crossmembers.iter().enumerate() {
        let weight = |weight: Option<Weight>| weight.map(|weight| units.weight(weight)).unwrap_or_default();
        let station = or_unknown(&crossmember.station, |station| units.length(*station));
        let carried = if crossmember.reaction.is_some() {
            let packing = crossmember.packing.as_ref().map(|packing| units.distance(*packing));
            let (thrust, a_bolt) = (crossmember.thrust, crossmember.thrust_a_bolt);
            [weight(crossmember.reaction), weight(thrust), weight(a_bolt), packing.unwrap_or_default()]
        } else {
            ["not under it".to_string(), String::new(), String::new(), String::new()]
        };
        let cells = [(i + 1).to_string(), station].into_iter().chain(carried);
        table.rows.push(cells.map(Cell::from).collect());
    }
    report.document.table(table);
    let foot = if report.rig().proposed().trailer.bunks.brackets.foot.is_some() {
        ""
    } else {
        " The thrust acts at the bunk's top: whether it pries the bracket or pulls its bolts is not checked."
    };
    let text = "outward: the vee's side thrust on the bracket if nothing rubs, which is what to build for: friction may hold all of it at rest, but comes and goes on the road; a bolt: each bolt's share of it; packing: what stands between crossmember and bunk, spacer and bracket together, at the inner edge of a board that lies flat. The brackets are taken as rigid and in line with the hull: one that stands {off} high or low can take more than its neighbours' loads, so shim until every one bears.";
    let text = text.replace("{off}", &report.units().distance(Length::from_si(HIGH_OR_LOW)));
    report.document.paragraph(format!("{text}{foot}"));
}

fn wood(report: &mut Report<'_>, fit: &BunkFit, bunk: &Bunk) {
    let (setup, units) = (&report.rig().proposed(), report.units());
    report.document.heading("Whether the wood holds");
    let behind = |station: Length| units.length(station);
    let moment = &bunk.moment;
    let sense = if moment.value.value < 0.0 { "hogging over" } else { "sagging at" };
    let greatest = format!("{}, {sense} {}", units.moment(moment.value.abs()), behind(moment.station));
    report.document.fact("greatest moment", greatest);
    let shear = &bunk.shear;
    let greatest = format!("{} at {}", units.weight(shear.value.abs()), behind(shear.station));
    report.document.fact("greatest shear", greatest);
    let bends = or_unknown(&bunk.deflection, |bends| {
        format!("{} at {}", units.fine_distance(bends.value), behind(bends.station))
    });
    report.document.fact("greatest deflection", format!("{bends}, down"));
    let whole = or_unknown(&bunk.whole_deflection, |whole| units.fine_distance(*whole));
    let whole = format!("{whole}; a lasting load about doubles it in wet wood");
    report.document.fact("with the vee's thrust", whole);
    let bending = or_unknown(&bunk.stress, |stress| units.stress(stress.value));
    let side = or_unknown(&bunk.side_stress, |stress| units.stress(*stress));
    report.document.fact("bending stress", format!("{bending} up and down, {side} sideways from the vee"));
    let stress = or_unknown(&bunk.shear_stress, |stress| units.stress(stress.value));
    report.document.fact("shear stress", stress);
    let allowed = |of: &Known<Allowable>| or_unknown(of, |allowed| allowable(allowed, units));
    report.document.fact("allowed in bending", allowed(&fit.timber.bending));
    report.document.fact("allowed in shear", allowed(&fit.timber.shear));
    report.document.fact("elasticity", allowed(&fit.timber.elasticity));
    let crushed = if setup.trailer.bunks.brackets.bearing_length.is_some() {
        ""
    } else {
        " wood crushed across its grain over a bracket,"
    };
    let graded = fit.timber.bending.as_ref().is_ok_and(|bending| bending.adjusted.is_some());
    let (lasting, by_table) = if graded {
        let factors =
            "CD: a lasting load, a boat stored on its trailer; CM: wet or dry service; CF: the board's size.";
        (factors, " incised or hot wood,")
    } else {
        ("Allowable stresses as the file states them.", "")
    };
    report.document.paragraph(format!("{lasting} Not checked: beams that roll over (a board deeper than twice its breadth needs holding upright),{by_table} the twist of a board on edge under the vee's thrust,{crushed} bolt holes, knots cut by the bevel."));
    let road = match setup.policy.road_factor {
        Some(factor) => format!(
            "Wood, brackets and crossmembers are checked under {factor} times these static loads, as the policy asks."
        ),
        None => "Static only: bumps on the road are not in these loads (policy.road_factor).".to_string(),
    };
    report.document.paragraph(road);
}

/// An allowable stress with each of its factors.
fn allowable(allowable: &Allowable, units: UnitSystem) -> String {
    let value = units.stress(allowable.value);
    let Some(adjusted) = &allowable.adjusted else { return format!("{value}, as the file states") };
    let mut factors = String::new();
    for (which, factor) in &adjusted.factors {
        let _ = write!(factors, " x {} {factor}", which.symbol());
    }
    format!("{}{factors} = {value}", units.stress(adjusted.reference))
}

fn clearances(report: &mut Report<'_>, fit: &BunkFit) {
    let units = report.units();
    let rows = report.findings().assessment.rows.iter();
    let clear: Vec<&Row> = rows.filter(|row| row.check.id.starts_with("clearance-")).collect();
    if clear.iter().all(|row| row.load.is_none()) {
        return;
    }
    report.document.heading("What clears what");
    for row in clear.iter().filter(|row| row.check.id != "clearance-fender") {
        if let Some(load) = row.load {
            report.document.fact(row.name(), words::amount(load, units));
        }
    }
    if let Ok(fender) = &fit.fender {
        let loading = match fender.loading {
            Some(loading) => format!("{} while loading", units.distance(loading)),
            None => {
                "while loading not checked: policy.side_play and policy.loading_trim are not stated".into()
            }
        };
        let text = format!("{} at rest; {loading}", units.distance(fender.at_rest));
        report.document.fact("hull beside the fenders", text);
    }
    lowest_boat(report, fit);
    if fit.fender.is_ok() {
        let text = "Keel and running gear: at rest, over crossmembers only, not over bunks.";
        report.document.paragraph(text);
    }
}

/// The least spacer and the lowest boat that clear everything.
fn lowest_boat(report: &mut Report<'_>, fit: &BunkFit) {
    let units = report.units();
    let lowest = match &fit.lowest {
        Ok(lowest) => lowest,
        Err(missing) => {
            let keys: Vec<String> = missing.0.iter().map(ToString::to_string).collect();
            return report
                .document
                .fact("lowest that clears all", format!("unknown without {}", keys.join(", ")));
        }
    };
    let Some(Lowest { decides, rise, keel: Some(keel), top, spacer }) = lowest else { return };
    let spacer =
        if spacer.si() > 0.0 { units.distance_at_least(*spacer) } else { "none is needed".to_string() };
    let by = units.distance_at_least(*rise);
    let way = match by.strip_prefix('-') {
        Some(down) => format!("it could come down by {down}"),
        None if by.starts_with("0 ") => "where it is".to_string(),
        None => format!("up by {by}"),
    };
    let top = top.map_or(String::new(), |top| format!(", bunk tops at {}", units.distance_at_least(top)));
    let keel = units.distance_at_least(*keel);
    let decides = match decides {
        Decides::Check(id) => format!("{id} decides"),
        Decides::Crossmember(member) => {
            format!("then the bunks lie on crossmember {}", member + 1)
        }
    };
    let text = format!("keel at {keel}{top}: {way}; {decides}");
    report.document.fact("lowest that clears all", text);
    report.document.fact("least spacer for that", spacer);
}

fn cut_sheet(report: &mut Report<'_>, fit: &BunkFit) {
    let (setup, units) = (&report.rig().proposed(), report.units());
    let sheet = match &fit.sheet {
        Ok(Some(sheet)) => sheet,
        Ok(None) => {
            report.document.heading("Cut sheet");
            let text =
                "The bevel would cut away the board's whole inner edge: choose a deeper or a thinner board.";
            report.document.paragraph(text);
            return;
        }
        Err(_) => return,
    };
    report.document.heading("Cut sheet, starboard bunk; the port one is its mirror image");
    let flat = setup.trailer.bunks.lay == Some(Lay::Flat);
    report.document.fact("length", exactly(sheet.length, units));
    report.document.fact("breadth across", exactly(sheet.board.breadth, units));
    if flat {
        report.document.fact("depth", exactly(sheet.board.outer_depth, units));
        let tilt =
            format!("tilted to {}, {} across", degrees(sheet.board.deadrise), units.distance(sheet.drop));
        report.document.fact("bevel", format!("none: the board lies flat, {tilt}"));
    } else {
        report.document.fact("depth at the outer edge", exactly(sheet.board.outer_depth, units));
        report.document.fact("depth at the inner edge", exactly(sheet.board.inner_depth, units));
        let bevel = format!("{}, a drop of {}", degrees(sheet.board.bevel()), exactly(sheet.drop, units));
        report.document.fact("bevel", bevel);
    }
    if let Some([forward, aft]) = sheet.winding {
        let text = format!(
            "the bottom twists: {} at the contact's forward end, {} at its aft end; cut to the least, packed or planed to touch elsewhere",
            degrees(forward),
            degrees(aft)
        );
        report.document.fact("winding", text);
    }
    if !flat {
        section(report, sheet);
    }
    if !sheet.holes.is_empty() {
        holes(report, sheet);
    }
}

/// The board's end, seen from aft: the outer edge to the right.
fn section(report: &mut Report<'_>, sheet: &CutSheet) {
    let units = report.units();
    let length = |length: Length| units.distance(length);
    let lines = [
        ("", "             _.-|", format!("bevel {}", degrees(sheet.board.bevel()))),
        ("", "         _.-'   |", format!("drop {}", length(sheet.drop))),
        ("", "     |.-'       |", String::new()),
        (
            &*format!("inner {}", length(sheet.board.inner_depth)),
            "     |          |",
            format!("outer {}", length(sheet.board.outer_depth)),
        ),
        ("", "     |          |", String::new()),
        ("", "     |__________|", String::new()),
        ("", "", format!("breadth {}", length(sheet.board.breadth))),
    ];
    let drawn = lines.map(|(left, shape, right)| format!("{left:>24}{shape:<16}  {right}"));
    report.document.figure("", &drawn, None);
}

/// The bunk from its side with its holes, and where they are.
fn holes(report: &mut Report<'_>, sheet: &CutSheet) {
    let units = report.units();
    let place = |i: usize| sheet.length * (i as f64 / (DRAWN - 1) as f64);
    let half = sheet.length / (2 * (DRAWN - 1)) as f64;
    let holed = |i: usize| sheet.holes.iter().any(|hole| (hole.from_forward_end - place(i)).abs() <= half);
    let drawn: String = (0..DRAWN).map(|i| if holed(i) { 'o' } else { '-' }).collect();
    report.document.figure("", &[format!("  forward |{drawn}| aft")], None);
    let of = |hole: &Hole| {
        let at = hole.from_forward_end;
        let off = if sheet.past_the_end(hole).is_some() { ", off the board" } else { "" };
        format!("{}{off}", exactly(at, units))
    };
    for holes in sheet.holes.chunk_by(|one, other| one.crossmember == other.crossmember) {
        let places: Vec<String> = holes.iter().map(of).collect();
        report.document.fact(format!("crossmember {}", holes[0].crossmember + 1), places.join(", "));
    }
    let flat = report.rig().proposed().trailer.bunks.lay == Some(Lay::Flat);
    let height = match sheet.hole_height {
        _ if flat => String::new(),
        Some(height) => {
            let off = if sheet.too_high().is_some() { ", off the board's inner side" } else { "" };
            format!(", {} above the lower edge{off}", exactly(height, units))
        }
        None => "; how high is not stated (trailer.bunks.brackets.bolt_height)".to_string(),
    };
    let brackets = report.rig().proposed().trailer.bunks.brackets;
    let apart = match (brackets.bolts, brackets.bolt_spacing) {
        (Some(bolts @ 2..), None) => {
            format!(
                "; each stands for a bracket's {bolts} bolts, whose spacing is not stated (trailer.bunks.brackets.bolt_spacing)"
            )
        }
        _ => String::new(),
    };
    let bolts = brackets
        .bolt_diameter
        .map_or(String::new(), |diameter| format!(" for bolts of {}", exactly(diameter, units)));
    let text = format!("holes (o){bolts}, from the forward end to their middles{height}{apart}");
    report.document.paragraph(text);
}

/// Bow bunks and side guides.
fn around(report: &mut Report<'_>, fit: &BunkFit) {
    let units = report.units();
    let (bow, guides) = (&fit.bow_bunks, &fit.guides);
    if bow.is_err() && guides.is_err() {
        return;
    }
    report.document.heading("Around the bunks");
    if let Ok(bow) = bow {
        let gap = bow.gap.map_or(String::new(), |gap| {
            if gap.si() < 0.0 {
                format!(", overlapping the main bunks by {}", units.distance(gap.abs()))
            } else {
                format!(", {} ahead of the main bunks", units.distance(gap))
            }
        });
        let text =
            format!("{} long{gap}, rising forward at {}", units.length(bow.length), degrees(bow.incline));
        report.document.fact("bow bunks", text);
    }
    if let Ok(Some(BowBunksBear { bow, main: [forward, aft] })) = &fit.bow_bunks_bear {
        let (forward, aft) = (units.line_load(*forward), units.line_load(*aft));
        let text = format!("{} together, the main ones {forward} forward and {aft} aft", units.weight(*bow));
        let (label, rest) = match report.rig().proposed().trailer.bow_bunks.bears {
            Some(true) => ("they bear", "; set high they carry more"),
            _ => (
                "if they bear",
                "; else nothing; set high, more: slide a sheet of paper under the hull to see",
            ),
        };
        report
            .document
            .fact(label, format!("{text}{rest}. Everything else here takes them to bear nothing."));
    }
    if let Ok(guides) = guides {
        let lower = guides.lower_edge_above_chine;
        let place = if lower.si() < 0.0 {
            format!(
                "its lower edge {} below the chine: it presses on the bottom",
                units.distance(lower.abs())
            )
        } else {
            format!("its lower edge {} above the chine: it touches the side", units.distance(lower))
        };
        let gap = |gap: Option<Length>, to: &str| {
            gap.map_or(String::new(), |gap| format!("; {} from its face to {to}", units.distance(gap)))
        };
        let text = format!(
            "the pad's middle {} above the keel, {place}{}{}",
            units.distance(guides.touches_above_keel),
            gap(guides.gap_at_chine, "the chine"),
            gap(guides.gap_at_beam, "half the beam")
        );
        report.document.fact("side guides", text);
    }
}
