//! The brakes of a case in the JSON report.

use super::weight;
use crate::fit::{Assessment, BrakeLoads, Known, Stop};
use crate::quantity::show::{self, UnitSystem};
use crate::quantity::{Kind, Quantity, Weight};
use crate::report::Subject;
use serde::Serialize;

/// What the brakes do in a case.
///
/// Forces are weights; `grip` is brake force over load, `grade_alone` rise over run; `rise` is in kelvins.
#[derive(Serialize)]
pub(super) struct Brakes {
    stop: Option<InStop>,
    stop_downhill: Option<InStop>,
    /// What the tow vehicle's brakes would have to do alone.
    by_tow_alone: Option<f64>,
    pressure: Option<f64>,
    stroke: Option<f64>,
    descent: Option<Descent>,
    heat: Option<Vec<Heat>>,
}

#[derive(Serialize)]
struct InStop {
    push: f64,
    brakes: f64,
    tongue_weight: f64,
    by_tow: Option<f64>,
    on_tow: Option<f64>,
    axles: Vec<Axle>,
}

#[derive(Serialize)]
struct Axle {
    load: f64,
    brakes: f64,
    grip: Option<f64>,
}

#[derive(Serialize)]
struct Descent {
    /// With the tow vehicle's brakes on.
    applied: Held,
    /// With them released.
    released: Held,
    grade_alone: Option<f64>,
}

#[derive(Serialize)]
struct Held {
    push: f64,
    brakes: f64,
    by_tow: f64,
}

#[derive(Serialize)]
struct Heat {
    axle: usize,
    rise: f64,
    caliper_share: Option<f64>,
}

/// The brakes of a case; none where the file says nothing of them.
pub(super) fn brakes(subject: &Subject<'_>, found: &Assessment, case: usize) -> Option<Brakes> {
    let BrakeLoads { stop, by_tow_alone, stop_downhill, pressure, stroke, descent, heat } =
        found.brakes.get(case)?;
    let units = subject.units;
    let number = |weight: Weight| units.weight_number(weight);
    let descent = descent.as_ref().ok().map(|descent| Descent {
        applied: Held {
            push: number(descent.applied.push),
            brakes: number(descent.applied.braked()),
            by_tow: number(descent.by_tow),
        },
        released: Held {
            push: number(descent.released.push),
            brakes: number(descent.released.brakes),
            by_tow: number(descent.released.by_tow),
        },
        grade_alone: descent.grade_alone.map(Quantity::si),
    });
    let heat = heat.as_ref().ok().map(|heats| {
        let heats = heats.iter().map(|heat| Heat {
            axle: heat.axle + 1,
            rise: heat.rise,
            caliper_share: heat.caliper_share.map(Quantity::si),
        });
        heats.collect()
    });
    let pressure = pressure.as_ref().ok();
    Some(Brakes {
        stop: in_stop(stop, units),
        stop_downhill: in_stop(stop_downhill, units),
        by_tow_alone: weight(by_tow_alone, units),
        pressure: pressure.map(|pressure| show::number(pressure.si(), Kind::LinePressure, units).0),
        stroke: stroke.as_ref().ok().map(|stroke| units.length_number(stroke.travel)),
        descent,
        heat,
    })
}

fn in_stop(stop: &Known<Stop>, units: UnitSystem) -> Option<InStop> {
    let stop = stop.as_ref().ok()?;
    let number = |weight: Weight| units.weight_number(weight);
    let trailer = &stop.trailer;
    let axle = |i: usize| Axle {
        load: number(trailer.stance.axle_loads[i]),
        brakes: number(trailer.brakes[i]),
        grip: trailer.grip(i).map(Quantity::si),
    };
    Some(InStop {
        push: number(trailer.push),
        brakes: number(trailer.braked()),
        tongue_weight: number(trailer.stance.tongue_weight),
        by_tow: weight(&stop.by_tow, units),
        on_tow: weight(&stop.on_tow, units),
        axles: (0..trailer.stance.axle_loads.len()).map(axle).collect(),
    })
}
