//! Launching in the JSON report, ramp by ramp and case by case.

use super::{Document, Subject};
use crate::fit::{Closes, Event, Home, HullBy, Known, Launch, LaunchLoads, Spot};
use crate::quantity::Length;
use crate::quantity::show::UnitSystem;
use crate::report::csv::event_name;
use crate::report::words;
use crate::study::launch::{Launching, Marks, Silent, StandIn};
use serde::Serialize;

/// Launching on one ramp in one case; `why_not` where the boat cannot be launched there.
#[derive(Serialize)]
pub(super) struct OnRamp<'a> {
    ramp: &'a str,
    case: &'a str,
    why_not: Option<String>,
    missing: Vec<String>,
    #[serde(flatten)]
    launch: Option<Found>,
    line: Option<f64>,
}

/// What happens. Lengths along the ramp are from the water's edge; `trim` is positive bow up.
#[derive(Serialize)]
struct Found {
    hull_by: &'static str,
    draft: f64,
    trim: f64,
    events: Vec<At>,
    taut_strap: Option<f64>,
    ramp_end: f64,
    home: Option<Band>,
}

/// The rig at an event; what is dry has a negative depth, what is under water a negative height.
#[derive(Serialize)]
struct At {
    event: &'static str,
    past_edge: f64,
    wheel_depth: f64,
    on_trailer: f64,
    tongue_weight: f64,
    axles: Vec<f64>,
    tow_tire_depth: f64,
    guides_dry: Option<f64>,
    tailpipe_dry: Option<f64>,
    lamps_dry: Option<f64>,
    skipper_depth: Option<f64>,
}

/// Between which depths at the rear wheels the boat comes home; `from` is null where the winch cannot draw her home.
#[derive(Serialize)]
struct Band {
    from: Option<f64>,
    to: f64,
    ends_with: &'static str,
}

/// A report with what was assumed for launching alone, and how far its marks lie apart.
#[derive(Serialize)]
pub(super) struct Launched<'a> {
    #[serde(flatten)]
    document: Document<'a>,
    estimate: Option<Estimate<'a>>,
    bands: Vec<Bands<'a>>,
}

/// What stands in for keys that the file lacks, and what happens in its middle.
#[derive(Serialize)]
struct Estimate<'a> {
    assumed: Vec<Taken>,
    launches: Vec<OnRamp<'a>>,
}

/// A weight that stands in for keys.
#[derive(Serialize)]
struct Taken {
    what: &'static str,
    keys: Vec<String>,
    low: f64,
    high: f64,
}

/// How far the marks of a launch lie apart; `measure` are the keys that would bring them nearest together.
#[derive(Serialize)]
struct Bands<'a> {
    ramp: &'a str,
    case: &'a str,
    events: Vec<Apart>,
    comes_off: Option<Apart>,
    home: Option<Band>,
    may_stop_too_soon: bool,
    measure: Vec<String>,
}

/// The least and the greatest depth at the rear wheels.
#[derive(Serialize)]
struct Apart {
    #[serde(skip_serializing_if = "Option::is_none")]
    event: Option<&'static str>,
    low: f64,
    high: f64,
}

impl<'a> Launched<'a> {
    pub fn new(document: Document<'a>, subject: &Subject<'a>, launching: &Launching) -> Self {
        let units = subject.units;
        let taken = |one: &StandIn| Taken {
            what: match one.silent {
                Silent::Trailer => "trailer-weight",
                Silent::Tongue => "tongue-weight",
                Silent::Springs => "spring-rating",
            },
            keys: words::keys(&one.keys),
            low: units.weight_number(one.between[0]),
            high: units.weight_number(one.between[1]),
        };
        let estimate = launching.is_estimate().then(|| Estimate {
            assumed: launching.stand_ins.iter().map(taken).collect(),
            launches: each(subject, &launching.launches),
        });
        let marked = launching.launches.iter().zip(&launching.marks);
        let bands = marked.filter_map(|(loads, marks)| bands(subject, loads, marks.as_ref()?));
        Self { document, estimate, bands: bands.collect() }
    }
}

fn bands<'a>(subject: &Subject<'a>, loads: &LaunchLoads, marks: &Marks) -> Option<Bands<'a>> {
    let (launch, units) = (loads.found().ok()?, subject.units);
    let apart = |event, ends: [&Spot; 2]| {
        let [low, high] = ends.map(|spot| units.length_number(spot.wheel_depth));
        Apart { event, low, high }
    };
    let of_event = |event: Event| {
        marks.between(|launch| launch.at(event)).map(|ends| apart(Some(event_name(event)), ends))
    };
    Some(Bands {
        ramp: words::ramp(subject.rig, loads.ramp),
        case: words::case(subject.rig, loads.case),
        events: launch.events.iter().filter_map(|(event, _)| of_event(*event)).collect(),
        comes_off: marks.between(Launch::comes_off).map(|ends| apart(None, ends)),
        home: launch.home.as_ref().ok().map(|home| band(&marks.worst_home(home), units)),
        may_stop_too_soon: marks.may_stop_too_soon(),
        measure: words::keys(&marks.first),
    })
}

/// Launching on every ramp with water in every case; none where the file does not describe it.
pub(super) fn launches<'a>(subject: &Subject<'a>) -> Vec<OnRamp<'a>> {
    each(subject, &subject.findings.assessment.launches)
}

fn each<'a>(subject: &Subject<'a>, launches: &[LaunchLoads]) -> Vec<OnRamp<'a>> {
    let (rig, units) = (subject.rig, subject.units);
    let each = launches.iter().map(|loads| OnRamp {
        ramp: words::ramp(rig, loads.ramp),
        case: words::case(rig, loads.case),
        why_not: loads.launch.as_ref().ok().and_then(|found| found.as_ref().err().map(ToString::to_string)),
        missing: loads.launch.as_ref().err().map(|missing| words::keys(&missing.0)).unwrap_or_default(),
        launch: loads.found().ok().map(|launch| found(launch, units)),
        line: length(&loads.line, units),
    });
    each.collect()
}

fn found(launch: &Launch, units: UnitSystem) -> Found {
    let at = |event, spot: &Spot| At {
        event,
        past_edge: units.length_number(spot.along),
        wheel_depth: units.length_number(spot.wheel_depth),
        on_trailer: units.weight_number(spot.carried),
        tongue_weight: units.weight_number(spot.tongue),
        axles: spot.axles.iter().map(|load| units.weight_number(*load)).collect(),
        tow_tire_depth: units.length_number(spot.tow_tire),
        guides_dry: length(&spot.guides, units),
        tailpipe_dry: length(&spot.tailpipe, units),
        lamps_dry: length(&spot.lamps, units),
        skipper_depth: length(&spot.skipper, units),
    };
    Found {
        hull_by: match launch.hull {
            HullBy::Sections => "sections",
            HullBy::Tape => "tape",
            HullBy::Afloat => "afloat",
        },
        draft: units.length_number(launch.afloat.draft),
        trim: launch.afloat.trim.value.to_degrees(),
        events: launch.events.iter().map(|(event, spot)| at(event_name(*event), spot)).collect(),
        taut_strap: launch
            .taut
            .as_ref()
            .ok()
            .and_then(Option::as_ref)
            .map(|spot| units.weight_number(spot.carried)),
        ramp_end: units.length_number(launch.ramp_end),
        home: launch.home.as_ref().ok().map(|home| band(home, units)),
    }
}

fn band(home: &Home, units: UnitSystem) -> Band {
    Band {
        from: home.from.as_ref().map(|spot| units.length_number(spot.wheel_depth)),
        to: units.length_number(home.to.1.wheel_depth),
        ends_with: match home.to.0 {
            Closes::SitsShort => "sits-short",
            Closes::Guides => "guides-awash",
            Closes::TowHub => "tow-hub-wet",
            Closes::Tailpipe => "tailpipe-wet",
            Closes::RampEnds => "ramp-ends",
        },
    }
}

fn length(known: &Known<Length>, units: UnitSystem) -> Option<f64> {
    known.as_ref().ok().map(|length| units.length_number(*length))
}
