//! The report of the bunks: how the boat lies, what everything carries, and what the workshop cuts.

use super::text::{Page, Palette, capital, wrap_under};
use super::{Subject, words};
use crate::fit::{self, Allowable, Bunk, BunkLoads, CutSheet, Known, Landing, Row, Verdict};
use crate::quantity::show::{UnitSystem, decimals, degrees, percent};
use crate::quantity::{Length, Quantity, Share};
use crate::rig::{Lay, Setup};
use std::fmt::Write;

/// Where the values of labelled lines begin.
const VALUES: usize = 28;
/// How wide a bunk is drawn.
const DRAWN: usize = 62;

/// The report of a rig's bunks.
pub fn report(subject: &Subject<'_>, palette: &Palette) -> String {
    let mut page = Page::new(subject, palette, Row::is_about_bunks);
    verdict(&mut page);
    page.cures();
    if let Some((case, on_bunks)) = heaviest(subject) {
        lies(&mut page, case, on_bunks);
        presses(&mut page, on_bunks);
        if let Ok(Some(bunk)) = &on_bunks.bunk {
            carries(&mut page, bunk);
            wood(&mut page, bunk);
        }
    }
    clearances(&mut page);
    cut_sheet(&mut page);
    around(&mut page);
    page.checks();
    page.not_checked();
    page.assumed();
    page.cautions();
    page.out
}

/// The case in which the boat is heaviest, and what the bunks carry then; the first of equals.
pub(super) fn heaviest<'a>(subject: &Subject<'a>) -> Option<(usize, &'a BunkLoads)> {
    let cases = subject.findings.assessment.bunks.iter().enumerate();
    let weight = |on_bunks: &BunkLoads| on_bunks.boat.as_ref().map_or(0.0, |boat| boat.weight.si());
    cases.reduce(|most, next| if weight(next.1) > weight(most.1) { next } else { most })
}

fn verdict(page: &mut Page<'_>) {
    let rows = || page.findings().assessment.rows.iter().filter(|row| row.is_about_bunks());
    let unmade = rows().filter(|row| row.verdict == Verdict::NotChecked).count();
    let unmade = match unmade {
        0 => String::new(),
        1 => " 1 check was not made.".to_string(),
        n => format!(" {n} checks were not made."),
    };
    let made = rows().any(|row| row.load.is_some());
    let (word, mark, reason) = match page.worst_outside() {
        Some(row) => {
            let word = if row.verdict == Verdict::Fail { "FAIL" } else { "ADVISE" };
            let others = rows().filter(|other| other.verdict == Verdict::Fail).count().saturating_sub(1);
            let others = match others {
                0 => String::new(),
                1 => " 1 more check fails.".to_string(),
                n => format!(" {n} more checks fail."),
            };
            let fault = capital(&words::fault(row, page.subject.units));
            (word, page.mark(row.verdict), format!("{fault}.{others}"))
        }
        None if rows().any(|row| row.verdict == Verdict::Unsure) => {
            let reason = "Every check made of the bunks holds as stated, but not at the worst that the stated bounds allow.";
            ("UNSURE", page.mark(Verdict::Unsure), reason.to_string())
        }
        None if made => {
            ("PASS", page.mark(Verdict::Pass), "Every check made of the bunks holds.".to_string())
        }
        None => {
            let reason = "Nothing about the bunks could be computed; the keys to fill in are listed below.";
            ("INCOMPLETE", page.mark(Verdict::NotChecked), reason.to_string())
        }
    };
    let unmade = if made { unmade } else { String::new() };
    let name = page.subject.name();
    let _ = writeln!(page.out, "{}{word}{}  {name}, on its bunks", mark.0, mark.1);
    page.out.push_str(&wrap_under(&(reason + &unmade), 2, 2));
}

/// A line of a label and what is told of it.
fn told(page: &mut Page<'_>, label: &str, value: &str) {
    let wrapped = wrap_under(value, VALUES, VALUES);
    if label.chars().count() > VALUES - 3 {
        // A long label has a line of its own.
        let _ = write!(page.out, "  {label}\n{wrapped}");
        return;
    }
    let rest = wrapped.get(VALUES..).unwrap_or_default();
    let _ = write!(page.out, "  {label:<width$}{rest}", width = VALUES - 2);
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

fn lies(page: &mut Page<'_>, case: usize, on_bunks: &BunkLoads) {
    let (setup, units) = (&page.rig().proposed, page.subject.units);
    page.heading("How the boat lies");
    if setup.cases.len() > 1 {
        let name = words::case(page.rig(), case);
        let text = format!("In case {}, in which the boat is heaviest: {name}.", case + 1);
        page.out.push_str(&wrap_under(&text, 2, 4));
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
        told(page, "keel by the bunks", &format!("{} above ground{measured}", exactly(by_bunks, units)));
    }
    let stretch = |forward: Length, aft: Length| {
        format!("{} to {} behind the ball", units.length(forward), units.length(aft))
    };
    let run = fit::straight_run(setup);
    told(page, "bottom that can bear", &or_unknown(&run, |run| stretch(run.forward, run.aft)));
    let ends = fit::ends(setup);
    told(page, "bunks", &or_unknown(&ends, |ends| stretch(ends.forward, ends.aft)));
    match &on_bunks.bed {
        Ok(Some(bed)) => {
            let idle = fit::idle(setup, on_bunks);
            let idle = or_unknown(&idle, |idle| units.length(*idle));
            let contact = stretch(bed.contact.forward, bed.contact.aft);
            told(page, "contact", &format!("{contact}; {idle} of each bunk is idle"));
            let (e, third) = (bed.eccentricity, bed.contact.length() / 6.0);
            let inside = if e.abs() <= third { "inside" } else { "outside" };
            let centre = format!(
                "{} of the contact's middle, {inside} the middle third ({} either way)",
                words::roughly_aft(e, units),
                units.rough_distance(third)
            );
            told(page, "centre of gravity", &centre);
        }
        Ok(None) => told(page, "contact", "the boat does not lie on the bunks, or would tip off them"),
        Err(_) => told(page, "contact", "unknown"),
    }
    standoffs(page);
    stern(page, on_bunks);
    let landings = fit::landings(setup);
    for (side, i) in [("port edge", 0), ("starboard edge", 1)] {
        told(page, side, &or_unknown(&landings, |landings| landing(&landings[i], units)));
    }
    ends_wanted(page);
}

/// How far the bunks stand off a bottom that twists: at the contact's ends and over each crossmember.
fn standoffs(page: &mut Page<'_>) {
    let (setup, units) = (&page.rig().proposed, page.subject.units);
    let Some(contact) = fit::contact(setup).ok().flatten() else { return };
    let at = |station: Length| fit::standoff(setup, station).ok().flatten();
    let (Some(forward), Some(aft)) = (at(contact.forward), at(contact.aft)) else { return };
    let members = fit::supports(setup).unwrap_or_default();
    let over: Vec<(usize, Length)> =
        members.into_iter().filter_map(|(member, station)| Some((member, at(station)?))).collect();
    if [forward, aft].into_iter().chain(over.iter().map(|(_, gap)| *gap)).all(|gap| gap.si() == 0.0) {
        return;
    }
    let mut text = format!(
        "{} at the contact's forward end, {} at its aft end",
        units.distance(forward),
        units.distance(aft)
    );
    for (member, gap) in over {
        let _ = write!(text, "; {} over crossmember {}", units.distance(gap), member + 1);
    }
    told(page, "gap under the hull", &text);
}

fn stern(page: &mut Page<'_>, on_bunks: &BunkLoads) {
    let units = page.subject.units;
    let Ok(overhang) = &on_bunks.overhang else {
        return told(page, "hangs out aft", "unknown");
    };
    let hangs = if overhang.si() > 0.0 {
        format!("{} of hull", units.distance(*overhang))
    } else {
        "nothing: the bunks reach as far as support can".to_string()
    };
    let beyond = match &on_bunks.stern {
        Ok(stern) if stern.weight.si() > 0.0 => format!(
            "; {} lies aft of where the bunks bear and bends the hull there by {}",
            units.weight(stern.weight),
            units.moment(stern.moment)
        ),
        _ => String::new(),
    };
    told(page, "hangs out aft", &(hangs + &beyond));
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

fn ends_wanted(page: &mut Page<'_>) {
    let (setup, units) = (&page.rig().proposed, page.subject.units);
    let Ok(wanted) = fit::wanted_ends(setup, &page.findings().assessment.bunks) else { return };
    let text = match wanted {
        Some(wanted) => format!(
            "aft at {}, forward between {} and {} behind the ball: to the end of what can bear, with the centre of gravity of every case in the middle third",
            units.length(wanted.aft),
            units.rough_length(wanted.forward_from),
            units.rough_length(wanted.forward_to)
        ),
        None => "none that reach as far aft as support can keep every case in the middle third".to_string(),
    };
    told(page, "ends that would suit", &text);
}

/// What presses on hull and bunk, before it is known what holds the bunk up.
fn presses(page: &mut Page<'_>, on_bunks: &BunkLoads) {
    let units = page.subject.units;
    let Ok(Some(bed)) = &on_bunks.bed else { return };
    page.heading("What one bunk carries");
    let boat = or_unknown(&on_bunks.boat, |boat| units.weight(boat.weight));
    let share = or_unknown(&on_bunks.share, |share| {
        let side = if *share == 0.5 { "half of" } else { "the heavier side of" };
        format!("{}, {side} a boat of {boat}", percent(Share::from_si(*share)))
    });
    told(page, "share", &share);
    let load = format!(
        "{} at the contact's forward end, {} at its aft end, both bunks together",
        units.line_load(bed.forward),
        units.line_load(bed.aft)
    );
    told(page, "load along it", &load);
    if let Ok(Some(pressure)) = &on_bunks.pressure {
        let pressure =
            format!("{} in the mean, {} at most", units.stress(pressure.mean), units.stress(pressure.peak));
        told(page, "pressure on the hull", &pressure);
    }
    page.out.push_str(&wrap_under(
        "Taken as a rigid boat on an even, springy bed that it touches all along: a stiff hull presses hardest over the crossmembers, so the true peak can be higher.",
        2,
        2,
    ));
}

fn carries(page: &mut Page<'_>, bunk: &Bunk) {
    let (setup, units) = (&page.rig().proposed, page.subject.units);
    page.line("");
    page.line(&member_columns("crossmember", "behind the ball", "load", "outward", "a bolt", "packing"));
    let bolts = setup.trailer.bunks.brackets.bolts;
    let steepest = fit::steepest(setup);
    for (i, reaction) in bunk.reactions.iter().enumerate() {
        let station = or_unknown(&fit::crossmember_station(setup, i), |station| units.length(*station));
        let Some(reaction) = reaction else {
            page.line(&member_columns(&(i + 1).to_string(), &station, "not under it", "", "", ""));
            continue;
        };
        let thrust = steepest.as_ref().ok().map(|steepest| fit::outward(*reaction, *steepest));
        let thrust_shown = thrust.map(|thrust| units.weight(thrust)).unwrap_or_default();
        let each = thrust.zip(bolts).map(|(thrust, bolts)| units.weight(thrust / f64::from(bolts)));
        let packing = fit::packing(setup, i).ok().map(|packing| units.distance(packing));
        page.line(&member_columns(
            &(i + 1).to_string(),
            &station,
            &units.weight(*reaction),
            &thrust_shown,
            &each.unwrap_or_default(),
            &packing.unwrap_or_default(),
        ));
    }
    page.out.push_str(&wrap_under(
        "outward: the vee's side thrust on the bracket; a bolt: each bolt's share of it; packing: what stands between crossmember and bunk, spacer and bracket together, at the inner edge of a board that lies flat. The brackets are taken rigid and in one line with the hull: one that stands 1/16 in high or low can take more than its neighbours' loads, so shim until every one bears. The thrust acts at the bunk's top: how it pries the bracket and pulls its bolts is not checked.",
        2,
        2,
    ));
}

fn member_columns(n: &str, station: &str, load: &str, outward: &str, bolt: &str, packing: &str) -> String {
    format!("  {n:<12}{station:>16}{load:>13}{outward:>11}{bolt:>10}{packing:>14}").trim_end().to_string()
}

fn wood(page: &mut Page<'_>, bunk: &Bunk) {
    let (setup, units) = (&page.rig().proposed, page.subject.units);
    page.heading("Whether the wood holds");
    let behind = |station: Length| units.length(station);
    let moment = &bunk.moment;
    let sense = if moment.value.value < 0.0 { "hogging over" } else { "sagging at" };
    let greatest = format!("{}, {sense} {}", units.moment(moment.value.abs()), behind(moment.station));
    told(page, "greatest moment", &greatest);
    let shear = &bunk.shear;
    let greatest = format!("{} at {}", units.weight(shear.value.abs()), behind(shear.station));
    told(page, "greatest shear", &greatest);
    let bends = or_unknown(&bunk.deflection, |bends| {
        format!("{} at {}", units.fine_distance(bends.value), behind(bends.station))
    });
    told(page, "greatest deflection", &format!("{bends}, down"));
    let whole = or_unknown(&bunk.whole_deflection, |whole| units.fine_distance(*whole));
    let whole = format!("{whole}; a lasting load about doubles it in wet wood");
    told(page, "with the vee's thrust", &whole);
    let bending = or_unknown(&bunk.stress, |stress| units.stress(stress.value));
    let side = or_unknown(&bunk.side_stress, |stress| units.stress(*stress));
    told(page, "bending stress", &format!("{bending} up and down, {side} sideways from the vee"));
    let stress = or_unknown(&bunk.shear_stress, |stress| units.stress(stress.value));
    told(page, "shear stress", &stress);
    let timber = fit::timber(setup);
    let allowed =
        |of: fn(&fit::Timber) -> &Known<Allowable>| or_unknown(of(&timber), |of| allowable(of, units));
    told(page, "allowed in bending", &allowed(|timber| &timber.bending));
    told(page, "allowed in shear", &allowed(|timber| &timber.shear));
    told(page, "elasticity", &allowed(|timber| &timber.elasticity));
    let lasting = match timber.bending.as_ref().ok().and_then(|bending| bending.adjusted.as_ref()) {
        Some(_) => {
            "CD: a lasting load, a boat stored on its trailer; CM: wet or dry service; CF: the board's size. Not looked at: beams that roll over (a depth of more than twice the breadth wants holding), incised or hot wood, the twist of a board on edge under the vee's thrust, wood crushed across its grain over a bracket, bolt holes, knots cut by the bevel."
        }
        None => {
            "Allowable stresses as the file states them. Not looked at: beams that roll over (a depth of more than twice the breadth wants holding), the twist of a board on edge under the vee's thrust, wood crushed across its grain over a bracket, bolt holes, knots cut by the bevel."
        }
    };
    page.out.push_str(&wrap_under(lasting, 2, 2));
    let road = match setup.policy.road_factor {
        Some(factor) => format!(
            "Wood, brackets and crossmembers are checked under {factor} times these static loads, as the policy asks."
        ),
        None => "Static only: bumps on the road are not in these loads (policy.road_factor).".to_string(),
    };
    page.out.push_str(&wrap_under(&road, 2, 2));
}

/// An allowable stress with each factor that it is made of.
fn allowable(allowable: &Allowable, units: UnitSystem) -> String {
    let value = units.stress(allowable.value);
    let Some(adjusted) = &allowable.adjusted else { return format!("{value}, as the file states") };
    let mut factors = String::new();
    for (which, factor) in &adjusted.factors {
        let _ = write!(factors, " x {} {factor}", which.symbol());
    }
    format!("{}{factors} = {value}", units.stress(adjusted.reference))
}

fn clearances(page: &mut Page<'_>) {
    let (setup, units) = (&page.rig().proposed, page.subject.units);
    let rows: Vec<&Row> = page.findings().assessment.rows.iter().collect();
    let of = |id: &str| rows.iter().filter(|row| row.check.id.starts_with(id)).copied().collect::<Vec<_>>();
    let clear = of("clearance-");
    if clear.iter().all(|row| row.load.is_none()) {
        return;
    }
    page.heading("What clears what");
    for row in clear.iter().filter(|row| row.check.id != "clearance-fender") {
        if let Some(load) = row.load {
            told(page, &row.name(), &words::amount(load, units));
        }
    }
    if let Ok(fender) = fit::beside_fender(setup) {
        let loading = match fender.loading {
            Some(loading) => format!("{} while loading", units.distance(loading)),
            None => {
                "while loading not looked at: policy.side_play and policy.loading_trim are not stated".into()
            }
        };
        let text = format!("{} at rest; {loading}", units.distance(fender.at_rest));
        told(page, "hull beside the fenders", &text);
        page.line("  Keel and running gear: at rest, over crossmembers only, not over bunks.");
    }
    lowest_boat(page, setup);
}

/// The least spacer and the lowest boat that clear everything.
fn lowest_boat(page: &mut Page<'_>, setup: &Setup) {
    let units = page.subject.units;
    let lowest = match fit::lowest(setup) {
        Ok(lowest) => lowest,
        Err(missing) => {
            let keys: Vec<String> = missing.0.iter().map(ToString::to_string).collect();
            return told(page, "lowest that clears all", &format!("unknown without {}", keys.join(", ")));
        }
    };
    let Some(fit::Lowest { decides, rise, keel: Some(keel), top, spacer }) = lowest else { return };
    let spacer =
        if spacer.si() > 0.0 { units.distance_at_least(spacer) } else { "none is needed".to_string() };
    let by = units.distance_at_least(rise);
    let way = match by.strip_prefix('-') {
        Some(down) => format!("it could come down by {down}"),
        None if by.starts_with("0 ") => "where it is".to_string(),
        None => format!("up by {by}"),
    };
    let top = top.map_or(String::new(), |top| format!(", bunk tops at {}", units.distance_at_least(top)));
    let keel = units.distance_at_least(keel);
    let decides = match decides {
        fit::Decides::Check(id) => format!("{id} decides"),
        fit::Decides::Crossmember(member) => {
            format!("then the bunks lie on crossmember {}", member + 1)
        }
    };
    let text = format!("keel at {keel}{top}: {way}; {decides}");
    told(page, "lowest that clears all", &text);
    told(page, "least spacer for that", &spacer);
}

fn cut_sheet(page: &mut Page<'_>) {
    let (setup, units) = (&page.rig().proposed, page.subject.units);
    let sheet = match fit::cut_sheet(setup) {
        Ok(Some(sheet)) => sheet,
        Ok(None) => {
            page.heading("Cut sheet");
            let text = "The bevel would leave nothing of the board's inner edge: a deeper or thinner board.";
            page.out.push_str(&wrap_under(text, 2, 2));
            return;
        }
        Err(_) => return,
    };
    page.heading("Cut sheet, starboard bunk; the port one is its mirror image");
    let flat = setup.trailer.bunks.lay == Some(Lay::Flat);
    told(page, "length", &exactly(sheet.length, units));
    told(page, "breadth across", &exactly(sheet.board.breadth, units));
    if flat {
        told(page, "depth", &exactly(sheet.board.outer_depth, units));
        let tilt =
            format!("tilted to {}, {} across", degrees(sheet.board.deadrise), units.distance(sheet.drop));
        told(page, "bevel", &format!("none: the board lies flat, {tilt}"));
    } else {
        told(page, "depth at the outer edge", &exactly(sheet.board.outer_depth, units));
        told(page, "depth at the inner edge", &exactly(sheet.board.inner_depth, units));
        let bevel = format!("{}, a drop of {}", degrees(sheet.board.bevel()), exactly(sheet.drop, units));
        told(page, "bevel", &bevel);
    }
    if let Some([forward, aft]) = sheet.winding {
        let text = format!(
            "the bottom twists: {} at the contact's forward end, {} at its aft end; cut to the least, packed or planed to touch elsewhere",
            degrees(forward),
            degrees(aft)
        );
        told(page, "winding", &text);
    }
    if !flat {
        page.line("");
        section(page, &sheet);
    }
    if !sheet.holes.is_empty() {
        page.line("");
        holes(page, &sheet);
    }
}

/// The board's end, seen from aft: the outer edge to the right.
fn section(page: &mut Page<'_>, sheet: &CutSheet) {
    let units = page.subject.units;
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
    for (left, shape, right) in lines {
        page.line(&format!("{left:>24}{shape:<16}  {right}"));
    }
}

/// The bunk from its side with its holes, and where they are.
fn holes(page: &mut Page<'_>, sheet: &CutSheet) {
    let units = page.subject.units;
    let place = |i: usize| sheet.length * (i as f64 / (DRAWN - 1) as f64);
    let half = sheet.length / (2 * (DRAWN - 1)) as f64;
    let holed = |i: usize| sheet.holes.iter().any(|hole| (hole.from_forward_end - place(i)).abs() <= half);
    let drawn: String = (0..DRAWN).map(|i| if holed(i) { 'o' } else { '-' }).collect();
    page.line(&format!("  forward |{drawn}| aft"));
    let of = |hole: &fit::Hole| {
        let at = hole.from_forward_end;
        let off = if sheet.past_the_end(hole).is_some() { ", off the board" } else { "" };
        format!("crossmember {}: {}{off}", hole.crossmember + 1, exactly(at, units))
    };
    page.line("");
    for hole in &sheet.holes {
        told(page, "", &of(hole));
    }
    let flat = page.rig().proposed.trailer.bunks.lay == Some(Lay::Flat);
    let height = match sheet.hole_height {
        _ if flat => String::new(),
        Some(height) => {
            let off = if sheet.too_high().is_some() { ", off the board's inner side" } else { "" };
            format!(", {} above the lower edge{off}", exactly(height, units))
        }
        None => "; how high is not stated (trailer.bunks.brackets.bolt_height)".to_string(),
    };
    let brackets = page.rig().proposed.trailer.bunks.brackets;
    let apart = match (brackets.bolts, brackets.bolt_spacing) {
        (Some(bolts @ 2..), None) => {
            format!(
                "; each stands for a bracket's {bolts} bolts, whose spacing is not stated (trailer.bunks.brackets.bolt_spacing)"
            )
        }
        _ => String::new(),
    };
    let text = format!("holes (o), from the forward end to their middles{height}{apart}");
    page.out.push_str(&wrap_under(&text, 2, 2));
}

/// Bow bunks and side guides.
fn around(page: &mut Page<'_>) {
    let (setup, units) = (&page.rig().proposed, page.subject.units);
    let (bow, guides) = (fit::bow_bunks(setup), fit::guides(setup));
    if bow.is_err() && guides.is_err() {
        return;
    }
    page.heading("Around the bunks");
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
        told(page, "bow bunks", &text);
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
        told(page, "side guides", &text);
    }
}
