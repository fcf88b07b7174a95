//! The winch and the tie-downs in the JSON report, case by case.

use super::{Subject, weight};
use crate::fit::{AtPlace, Known, TieDownLoads, TiedDown, WinchLoads};
use crate::quantity::show::{self, UnitSystem};
use crate::quantity::{Quantity, Weight};
use crate::report::words;
use serde::Serialize;

/// The winch in one case. What is not known is null, and so is what no pull does.
#[derive(Serialize)]
pub(super) struct Winch<'a> {
    drive: Option<&'static str>,
    ramps: Vec<OnRamp<'a>>,
}

/// The winch on one ramp; `line_angle` and `line_length` are of the line from the eye at the stop to the drum.
#[derive(Serialize)]
struct OnRamp<'a> {
    ramp: Option<&'a str>,
    grade: Option<f64>,
    dragged: Option<f64>,
    line_angle: Option<f64>,
    line_length: Option<f64>,
    home: Pull,
    far_out: Pull,
    lift: Option<f64>,
    post_moment: Option<f64>,
    drum_diameter: Option<f64>,
    longest_strap: Option<f64>,
    strap_within_flange: Option<f64>,
    handle_force: Option<f64>,
    motor: Option<Motor>,
}

#[derive(Serialize)]
struct Pull {
    needed: Option<f64>,
    /// To move a boat that stands on its bunks.
    breaks_loose: Option<f64>,
    available: Option<f64>,
}

/// The motor with the eye nearly home; `torque` is a share of its rated one.
#[derive(Serialize)]
struct Motor {
    torque: f64,
    current: f64,
    line_speed: f64,
    minutes: f64,
    charge: f64,
}

/// What the tie-downs hold, and what they must in one case.
#[derive(Serialize)]
pub(super) struct TieDowns<'a> {
    names: Vec<&'a str>,
    working: EachWay,
    breaking: EachWay,
    down: Held,
    together: Held,
    /// What friction would hold; counted nowhere.
    friction: Option<f64>,
    count: f64,
    needed: Option<f64>,
}

#[derive(Serialize)]
struct EachWay {
    forward: Held,
    rearward: Held,
    side: Held,
}

#[derive(Serialize)]
struct Held {
    needed: Option<f64>,
    held: Option<f64>,
}

/// The winch in a case, where the file describes one.
pub(super) fn winch<'a>(subject: &Subject<'a>, case: usize) -> Option<Winch<'a>> {
    let (rig, units) = (subject.rig, subject.units);
    let winch = &subject.findings.assessment.winch;
    let on_ramp = |loads: &WinchLoads| OnRamp {
        ramp: loads.ramp.map(|ramp| words::ramp(rig, ramp)),
        grade: loads.slope.clone().ok().map(Quantity::si),
        dragged: weight(&loads.dragged, units),
        line_angle: loads.line.clone().ok().map(|(angle, _)| angle.si().to_degrees()),
        line_length: loads.line.clone().ok().map(|(_, length)| units.length_number(length)),
        home: pull(&loads.home, units),
        far_out: pull(&loads.far_out, units),
        lift: pulled(&loads.lift, units),
        post_moment: loads.post.clone().ok().flatten().map(|moment| units.moment_number(moment)),
        drum_diameter: loads.diameter.clone().ok().map(|length| units.length_number(length)),
        longest_strap: loads.longest.clone().ok().flatten().map(|length| units.length_number(length)),
        strap_within_flange: loads.fits.clone().ok().map(|length| units.length_number(length)),
        handle_force: pulled(&loads.hand, units),
        motor: loads.motor.clone().ok().flatten().map(|running| Motor {
            torque: running.torque.si(),
            current: running.current.si(),
            line_speed: number(running.speed, units),
            minutes: running.seconds / 60.0,
            charge: number(running.charge, units),
        }),
    };
    let ramps: Vec<OnRamp<'a>> = winch.iter().filter(|loads| loads.case == case).map(on_ramp).collect();
    let drive = rig.proposed().trailer.winch.drive.map(crate::rig::Drive::word);
    (!ramps.is_empty()).then_some(Winch { drive, ramps })
}

/// The tie-downs in a case, where the file describes any.
pub(super) fn tie_downs<'a>(subject: &Subject<'a>, case: usize) -> Option<TieDowns<'a>> {
    let units = subject.units;
    let (tied, cases) = subject.findings.tie_downs.as_ref()?;
    let TieDownLoads { working, breaking, down, together, friction } = cases.get(case)?;
    let held = |needed: &Known<Weight>, held: &Known<Weight>| Held {
        needed: weight(needed, units),
        held: weight(held, units),
    };
    let each_way = |needed: &Known<[Weight; 3]>, holds: &[Known<Weight>; 3]| {
        let [forward, rearward, side] = [0, 1, 2].map(|way| {
            let needed = needed.clone().map(|needed| needed[way]);
            held(&needed, &holds[way])
        });
        EachWay { forward, rearward, side }
    };
    let TiedDown { working: holds, breaking: holds_breaking, .. } = tied;
    let names = subject.rig.proposed().trailer.tie_downs.iter();
    Some(TieDowns {
        names: names.filter_map(|one| one.name.as_deref()).collect(),
        working: each_way(working, holds),
        breaking: each_way(breaking, holds_breaking),
        down: held(down, &tied.down),
        together: held(together, &tied.together),
        friction: weight(friction, units),
        count: tied.count,
        needed: tied.needed.clone().ok(),
    })
}

fn pull(at: &AtPlace, units: UnitSystem) -> Pull {
    Pull {
        needed: pulled(&at.needed, units),
        breaks_loose: pulled(&at.breaks_loose, units),
        available: weight(&at.pull, units),
    }
}

fn pulled(pull: &Known<Option<Weight>>, units: UnitSystem) -> Option<f64> {
    pull.clone().ok().flatten().map(|pull| units.weight_number(pull))
}

fn number<Q: Quantity>(quantity: Q, units: UnitSystem) -> f64 {
    show::number(quantity.si(), Q::KIND, units).0
}
