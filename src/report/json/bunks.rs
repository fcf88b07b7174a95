//! The bunks in the JSON report.

use crate::fit::{Allowable, At, BunkFit, CrossmemberFit, Decides, Known};
use crate::quantity::show::UnitSystem;
use crate::quantity::{Length, Pressure, Quantity, Weight};
use crate::report::{Subject, words};
use crate::rig::Setup;
use serde::Serialize;

/// The bunks: a cut-sheet's sizes, and what they go through in the case in which the boat is heaviest.
///
/// Stations are behind the ball. `pressure` is a weight a length, of both bunks together, at the contact's ends;
/// reactions, moment, shear, deflection and stresses are one bunk's, the more heavily loaded. Stresses are in weights
/// a square length, moments in weights times lengths.
#[derive(Serialize)]
pub(super) struct OnBunks<'a> {
    case: Option<&'a str>,
    keel_height: Option<f64>,
    deadrise: Option<f64>,
    bevel: Option<f64>,
    drop: Option<f64>,
    outer_depth: Option<f64>,
    inner_depth: Option<f64>,
    length: Option<f64>,
    contact: Option<Ends>,
    gap: Option<Ends>,
    idle: Option<f64>,
    pressure: Option<Ends>,
    bearing_pressure: BearingPressure,
    eccentricity: Option<f64>,
    overhang: Option<f64>,
    stern_moment: Option<f64>,
    share: Option<f64>,
    crossmembers: Vec<Member>,
    moment: Option<Somewhere>,
    shear: Option<Somewhere>,
    deflection: Option<Somewhere>,
    whole_deflection: Option<f64>,
    stress: Option<Somewhere>,
    side_stress: Option<f64>,
    shear_stress: Option<Somewhere>,
    allowed: Allowed,
    landing: Option<Landings<'a>>,
    holes: Vec<f64>,
    ends_wanted: Option<EndsWanted>,
    lowest: Option<Lowest>,
    fender: Option<Fender>,
    bow_bunks: Option<BowBunks>,
    /// What they carry if they bear; null where they do not.
    bow_bunks_bear: Option<BowBunksBear>,
    guides: Option<Guides>,
}

/// Where the bunks' ends would suit every case, behind the ball.
#[derive(Serialize)]
struct EndsWanted {
    aft: f64,
    forward_from: f64,
    forward_to: f64,
}

/// The lowest boat that clears everything.
#[derive(Serialize)]
struct Lowest {
    keel_height: Option<f64>,
    spacer: f64,
    rise: f64,
    decides: String,
}

#[derive(Serialize)]
struct Fender {
    at_rest: f64,
    loading: Option<f64>,
}

#[derive(Serialize)]
struct BowBunks {
    length: f64,
    gap: Option<f64>,
    incline: f64,
}

#[derive(Serialize)]
struct BowBunksBear {
    load: f64,
    /// A weight a length, of both main bunks together, at the contact's ends.
    main: Ends,
}

#[derive(Serialize)]
struct Guides {
    lower_edge_above_chine: f64,
    touches_above_keel: f64,
    gap_at_chine: Option<f64>,
    gap_at_beam: Option<f64>,
}

#[derive(Serialize)]
struct Ends {
    aft: f64,
    forward: f64,
}

#[derive(Serialize)]
struct BearingPressure {
    mean: Option<f64>,
    peak: Option<f64>,
}

#[derive(Serialize)]
struct Member {
    station: Option<f64>,
    reaction: f64,
    side_thrust: Option<f64>,
    packing: Option<f64>,
    gap: Option<f64>,
}

#[derive(Serialize)]
struct Somewhere {
    value: f64,
    station: f64,
    /// Of a moment: whether the bunk hogs there.
    #[serde(skip_serializing_if = "Option::is_none")]
    hogs: Option<bool>,
}

#[derive(Serialize)]
struct Allowed {
    bending: Option<f64>,
    shear: Option<f64>,
    elasticity: Option<f64>,
}

#[derive(Serialize)]
struct Landings<'a> {
    port: Landing<'a>,
    starboard: Landing<'a>,
}

#[derive(Serialize)]
struct Landing<'a> {
    on: &'a str,
    miss: f64,
}

/// The bunks, where the file describes any.
pub(super) fn bunks<'a>(subject: &Subject<'a>) -> Option<OnBunks<'a>> {
    let (setup, units) = (&subject.rig.proposed(), subject.units);
    let fit = subject.findings.bunks.as_ref()?;
    let on_bunks = &subject.findings.assessment.bunks[fit.heaviest];
    let length = |length: Length| units.length_number(length);
    let sheet = fit.sheet.as_ref().ok().and_then(Option::as_ref);
    let bed = on_bunks.bed.clone().ok().flatten();
    let pressure = on_bunks.pressure.clone().ok().flatten();
    let bunk = on_bunks.bunk.as_ref().ok().and_then(Option::as_ref);
    let weighs = |at: At<Weight>| Somewhere {
        value: units.weight_number(at.value.abs()),
        station: length(at.station),
        hogs: None,
    };
    let stressed = |at: &Known<At<Pressure>>| {
        let at = at.as_ref().ok()?;
        Some(Somewhere { value: units.stress_number(at.value), station: length(at.station), hogs: None })
    };
    let stress = |known: &Known<Pressure>| known.as_ref().ok().map(|stress| units.stress_number(*stress));
    let allowed = |of: &Known<Allowable>| of.as_ref().ok().map(|of| units.stress_number(of.value));
    Some(OnBunks {
        case: Some(words::case(subject.rig, fit.heaviest)),
        keel_height: setup.keel_on_bunks().map(length),
        deadrise: fit.deadrise.as_ref().ok().map(|deadrise| deadrise.si().to_degrees()),
        bevel: sheet.map(|sheet| sheet.board.bevel().si().to_degrees()),
        drop: sheet.map(|sheet| length(sheet.drop)),
        outer_depth: sheet.map(|sheet| length(sheet.board.outer_depth)),
        inner_depth: sheet.map(|sheet| length(sheet.board.inner_depth)),
        length: fit.ends.as_ref().ok().map(|ends| length(ends.length())),
        contact: bed.map(|bed| Ends { aft: length(bed.contact.aft), forward: length(bed.contact.forward) }),
        gap: fit.gaps.map(|[forward, aft]| Ends { aft: length(aft), forward: length(forward) }),
        idle: fit.idle.clone().ok().map(length),
        pressure: bed.map(|bed| Ends {
            aft: units.line_load_number(bed.aft),
            forward: units.line_load_number(bed.forward),
        }),
        bearing_pressure: BearingPressure {
            mean: pressure.map(|pressure| units.stress_number(pressure.mean)),
            peak: pressure.map(|pressure| units.stress_number(pressure.peak)),
        },
        eccentricity: bed.map(|bed| length(bed.eccentricity)),
        overhang: on_bunks.overhang.clone().ok().map(length),
        stern_moment: on_bunks.stern.as_ref().ok().map(|stern| units.moment_number(stern.moment)),
        share: on_bunks.share.clone().ok(),
        crossmembers: fit.crossmembers.iter().map(|crossmember| member(crossmember, units)).collect(),
        moment: bunk.map(|bunk| Somewhere {
            value: units.moment_number(bunk.moment.value.abs()),
            hogs: Some(bunk.moment.value.value < 0.0),
            station: length(bunk.moment.station),
        }),
        shear: bunk.map(|bunk| weighs(bunk.shear)),
        deflection: bunk.and_then(|bunk| bunk.deflection.as_ref().ok()).map(|at| Somewhere {
            value: length(at.value),
            station: length(at.station),
            hogs: None,
        }),
        whole_deflection: bunk.and_then(|bunk| bunk.whole_deflection.clone().ok()).map(length),
        stress: bunk.and_then(|bunk| stressed(&bunk.stress)),
        side_stress: bunk.and_then(|bunk| stress(&bunk.side_stress)),
        shear_stress: bunk.and_then(|bunk| stressed(&bunk.shear_stress)),
        allowed: Allowed {
            bending: allowed(&fit.timber.bending),
            shear: allowed(&fit.timber.shear),
            elasticity: allowed(&fit.timber.elasticity),
        },
        landing: landings(setup, fit, units),
        holes: sheet
            .iter()
            .flat_map(|sheet| &sheet.holes)
            .map(|hole| length(hole.from_forward_end))
            .collect(),
        ends_wanted: fit.wanted_ends.as_ref().ok().and_then(Option::as_ref).map(|wanted| EndsWanted {
            aft: length(wanted.aft),
            forward_from: length(wanted.forward_from),
            forward_to: length(wanted.forward_to),
        }),
        lowest: lowest(fit, units),
        fender: fit
            .fender
            .as_ref()
            .ok()
            .map(|fender| Fender { at_rest: length(fender.at_rest), loading: fender.loading.map(length) }),
        bow_bunks: fit.bow_bunks.as_ref().ok().map(|bow| BowBunks {
            length: length(bow.length),
            gap: bow.gap.map(length),
            incline: bow.incline.si().to_degrees(),
        }),
        bow_bunks_bear: fit.bow_bunks_bear.as_ref().ok().and_then(Option::as_ref).map(|bear| {
            let [forward, aft] = bear.main.map(|load| units.line_load_number(load));
            BowBunksBear { load: units.weight_number(bear.bow), main: Ends { aft, forward } }
        }),
        guides: fit.guides.as_ref().ok().map(|guides| Guides {
            lower_edge_above_chine: length(guides.lower_edge_above_chine),
            touches_above_keel: length(guides.touches_above_keel),
            gap_at_chine: guides.gap_at_chine.map(length),
            gap_at_beam: guides.gap_at_beam.map(length),
        }),
    })
}

fn lowest(fit: &BunkFit, units: UnitSystem) -> Option<Lowest> {
    let lowest = fit.lowest.as_ref().ok()?.as_ref()?;
    Some(Lowest {
        keel_height: lowest.keel.map(|keel| units.length_number(keel)),
        spacer: units.length_number(lowest.spacer),
        rise: units.length_number(lowest.rise),
        decides: match &lowest.decides {
            Decides::Check(id) => id.clone(),
            Decides::Crossmember(member) => format!("trailer.crossmembers.{}", member + 1),
        },
    })
}

/// A crossmember; one that the bunks do not reach carries no load.
fn member(crossmember: &CrossmemberFit, units: UnitSystem) -> Member {
    let length = |known: &Known<Length>| known.as_ref().ok().map(|length| units.length_number(*length));
    Member {
        station: length(&crossmember.station),
        reaction: units.weight_number(crossmember.reaction.unwrap_or_default()),
        side_thrust: crossmember.thrust.map(|thrust| units.weight_number(thrust)),
        packing: length(&crossmember.packing),
        gap: crossmember.gap.map(|gap| units.length_number(gap)),
    }
}

fn landings<'a>(setup: &'a Setup, fit: &BunkFit, units: UnitSystem) -> Option<Landings<'a>> {
    let names = |landing: &crate::fit::Landing| {
        let strakes = &setup.boat.hull.strakes;
        let named = strakes.iter().find(|strake| strake.name.is_some() && strake.name == landing.strake);
        let on = named.and_then(|strake| strake.name.as_deref()).unwrap_or("chine");
        Landing { on, miss: units.length_number(landing.miss) }
    };
    let [port, starboard] = fit.landings.as_ref().ok()?;
    Some(Landings { port: names(port), starboard: names(starboard) })
}
