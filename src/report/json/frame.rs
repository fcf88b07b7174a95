//! Tongue and rails of a case in the JSON report.

use crate::fit::{Assessment, Known};
use crate::quantity::show::UnitSystem;
use crate::quantity::{Pressure, Quantity};
use crate::report::Subject;
use serde::Serialize;

/// What bends the tongue, at rest.
#[derive(Serialize)]
pub(super) struct Tongue {
    moment: Option<f64>,
    stress: Option<f64>,
    /// What the forward clamp holds down and the rear one up; null without two clamps.
    clamps: Option<Clamps>,
}

#[derive(Serialize)]
struct Clamps {
    forward: f64,
    rear: f64,
}

/// What bends the rails, at rest: both together, but for `stress`, that of the rail on the heavier side.
#[derive(Serialize)]
pub(super) struct Rails {
    moment: f64,
    station: f64,
    /// Whether they hog there.
    hogs: bool,
    share: Option<f64>,
    stress: Option<f64>,
    /// Whether the bars of a weight distribution hitch are on: at rest the rails are taken with them and without.
    with_bars: bool,
    /// In a stop; null where the brakes or what they need are not known.
    stop: Option<InStop>,
}

/// What bends the rails in a stop, which no check compares.
#[derive(Serialize)]
struct InStop {
    moment: f64,
    station: f64,
    hogs: bool,
    stress: Option<f64>,
}

fn stress(known: &Known<Pressure>, units: UnitSystem) -> Option<f64> {
    known.as_ref().ok().map(|stress| units.stress_number(*stress))
}

/// The tongue of a case; none where the file says nothing of it.
pub(super) fn tongue(subject: &Subject<'_>, found: &Assessment, case: usize) -> Option<Tongue> {
    let (setup, units) = (subject.rig.proposed(), subject.units);
    let described = setup.trailer.tongue.bends() || setup.trailer.tongue.is_clamped();
    let tongue = &found.frames.get(case).filter(|_| described)?.tongue;
    let weight = |weight| units.weight_number(weight);
    Some(Tongue {
        moment: tongue.moment.as_ref().ok().map(|moment| units.moment_number(*moment)),
        stress: stress(&tongue.stress, units),
        clamps: tongue
            .clamps
            .as_ref()
            .ok()
            .map(|[forward, rear]| Clamps { forward: weight(*forward), rear: weight(*rear) }),
    })
}

/// The rails of a case; none where their loads are not known.
pub(super) fn rails(subject: &Subject<'_>, found: &Assessment, case: usize) -> Option<Rails> {
    let units = subject.units;
    let rails = found.frames.get(case)?.rails.as_ref().ok()?;
    Some(Rails {
        moment: units.moment_number(rails.moment).abs(),
        station: units.length_number(rails.station),
        hogs: rails.moment.si() < 0.0,
        share: rails.share.clone().ok(),
        stress: stress(&rails.stress, units),
        with_bars: rails.with_bars,
        stop: rails.stop.as_ref().ok().map(|stop| InStop {
            moment: units.moment_number(stop.moment).abs(),
            station: units.length_number(stop.station),
            hogs: stop.moment.si() < 0.0,
            stress: stress(&stop.stress, units),
        }),
    })
}
