//! The checks of the winch.

use super::loads::{BREAKS_LOOSE, WinchLoads, diameter, is_worse_home, pull_home};
use crate::fit::check::{
    Basis, Certainty, Check, Core, Judge, Limits, Load, Measure, Of, Reading, Remedy, Rows, Subject,
};
use crate::fit::known::{Known, known, need};
use crate::fit::shared::{MAKER, STAMPED, once, one, rating};
use crate::quantity::{Moment, Quantity, Weight, unit};
use crate::rig::Setup;
use crate::rig::inputs::{
    BOAT_BOW_EYE_RATING, TRAILER_BUNKS_FRICTION, TRAILER_WINCH_AFLOAT, TRAILER_WINCH_BATTERY,
    TRAILER_WINCH_FLANGE, TRAILER_WINCH_POST_MOMENT, TRAILER_WINCH_POST_SECTION_MODULUS,
    TRAILER_WINCH_POST_YIELD, TRAILER_WINCH_RATING, TRAILER_WINCH_STRAP_BREAKING,
};

/// A strap's breaking strength over the winch's rating. Quoted, weakly.
const STRAP_OVER_WINCH: f64 = 1.5;
/// What a hand pushes on a handle with, in newtons: 50 lb. Common practice, no source.
const BY_HAND: f64 = 50.0 * unit::POUND;
/// A battery holds so many times what one pull takes. Common practice, no source.
const BATTERY_OVER_CHARGE: f64 = 3.0;
/// Yield over the stress that a post may bear at its foot, of steel design by allowable stress; from memory.
const YIELD_OVER_ALLOWED: f64 = 1.67;

fn there(winch: bool) -> Vec<Of> {
    once(winch)
}

const A_WINCH: Rows = Rows::one(|setup| there(setup.trailer.winch.is_described()));
const A_HANDLE: Rows = Rows::one(|setup| there(setup.trailer.winch.has_handle()));
const A_MOTOR: Rows = Rows::one(|setup| there(setup.trailer.winch.has_motor()));
/// How wide the drum is is not in the file, so only a strap's turns can be counted.
const A_STRAP: Rows =
    Rows::one(|setup| there(setup.trailer.winch.is_described() && setup.trailer.winch.strap.is_flat()));

const HAULING: &str = "Tape drum and bow eye, measure the grade at the water, weigh the boat. Most is friction: measure the pull that just drags her.";
const FEWER_PULLS: &str = "Back in deeper, so that more of the boat floats; slick pads or rollers instead of carpet take half of the friction away.";

/// What the rows of the winch have in common.
const OF_WINCH: Check = Check {
    id: "",
    name: "",
    what: "",
    formula: "",
    basis: STAMPED,
    measuring: HAULING,
    cures: FEWER_PULLS,
    subject: Subject::Winch,
    measure: Measure::Weight,
    rows: A_WINCH,
    judge: Judge::Rating,
    core: Core::No,
    remedies: &[Remedy::Rating],
    too_much: "",
    too_little: "",
    load: Load::winch(|view, _| greater_pull(view.winch())),
    limits: |_, _| Limits { min: None, max: None },
};

/// The checks of this subject, in the order of reports.
pub(in crate::fit) static CHECKS: &[Check] = &[
    Check {
        id: "winch-pull",
        name: "winch's pull",
        what: "the pull that the boat needs against what the winch pulls on the layer that is wound",
        formula: "W (sin θ + μ' cos θ) / (cos γ + μ' sin γ): W not afloat, θ the ramp, γ the line over the bunks, μ' = μ / cos deadrise; over rating (r0 + τ/2) / (r + τ/2); with the eye at the stop or the strap paid out",
        basis: Basis {
            limit: "the winch's pull on its layer; 1.3 times the need breaks her loose",
            source: "statics; the 1.3 common practice, no source",
            certainty: Certainty::Derived,
        },
        cures: "Back in deeper; take off strap that is never paid out; fit a stronger winch, or a block at the eye.",
        remedies: &[Remedy::Shorten],
        too_much: "the boat needs a pull of {load}; the winch, with a third more kept to break it loose, is good for {max}",
        load: Load::winch(|view, _| worse_pull(view.setup, view.winch())),
        limits: |setup, _| pull_limits(setup),
        ..OF_WINCH
    },
    Check {
        id: "winch-strap",
        name: "winch's strap",
        what: "the greatest pull against the working limit of strap, hook and shackle",
        formula: "the greater of the pulls home and far out; working limit as stated, else a third of the breaking strength",
        basis: Basis {
            limit: "the working limit in the file; a third of the breaking strength where none is stated",
            source: MAKER,
            certainty: Certainty::CommonPractice,
        },
        cures: "Fit a stronger strap, hook or shackle, or back in deeper.",
        too_much: "the strap pulls with {load}, {miss} over its working limit of {max}",
        limits: |setup, _| strap_limits(setup),
        ..OF_WINCH
    },
    Check {
        id: "winch-strap-breaking",
        name: "winch's strap, breaking",
        what: "one and a half times the winch's rating against the breaking strength of strap, hook and shackle",
        formula: "1.5 × the winch's rating on its first layer",
        basis: Basis {
            limit: "the breaking strength in the file: the winch must not break its strap",
            source: "a maker's page on winch straps",
            certainty: Certainty::Quoted,
        },
        measuring: "Read the strap's label and the stamps on hook and shackle; the least of the three counts.",
        cures: "Fit a stronger strap, hook or shackle.",
        too_much: "one and a half times what the winch can pull is {load}, and its strap breaks at {max}",
        load: Load::described(|view, _| {
            one(need(view.setup, TRAILER_WINCH_RATING).map(|rating| rating * STRAP_OVER_WINCH))
        }),
        limits: |setup, _| rating(setup, TRAILER_WINCH_STRAP_BREAKING).advising(),
        ..OF_WINCH
    },
    Check {
        id: "bow-eye",
        name: "bow eye",
        what: "the winch's greatest pull against the bow eye's rating",
        formula: "the greater of the pulls home and far out",
        cures: "Back in deeper, or have a stronger eye with a backing plate fitted by a boatbuilder.",
        too_much: "the winch pulls at the bow eye with {load}, {miss} over its rating of {max}",
        limits: |setup, _| rating(setup, BOAT_BOW_EYE_RATING),
        ..OF_WINCH
    },
    Check {
        id: "winch-post",
        name: "winch's post",
        what: "the moment at the foot of the winch's post against what it may bear",
        formula: "T cos γ h + T sin γ x, the drum h above and x aft of the foot; section modulus × yield / 1.67 where the moment is not stated",
        basis: Basis {
            limit: "the moment in the file, or its section modulus times yield / 1.67",
            source: "steel design by allowable stress",
            certainty: Certainty::FromMemory,
        },
        cures: "Set the drum lower, brace the post, or back in deeper.",
        measure: Measure::Moment,
        too_much: "the winch's post bears {load} at its foot, {miss} over its {max}",
        load: Load::winch(|view, _| pulled(&view.winch().post)),
        limits: |setup, _| Limits::at_most(post_moment(setup)),
        ..OF_WINCH
    },
    Check {
        id: "winch-drum",
        name: "winch's drum",
        what: "the drum's diameter with all of the strap wound on it against its flange",
        formula: "2 √(r0² + τ L / π)",
        basis: Basis {
            limit: "the flange's diameter in the file: what lies beyond it slips off",
            source: "geometry",
            certainty: Certainty::Derived,
        },
        measuring: "Pay out all of the strap; tape it, the bare drum and the flange.",
        cures: "Fit a shorter or a thinner strap.",
        measure: Measure::Length,
        rows: A_STRAP,
        remedies: &[Remedy::Shorten],
        too_much: "with all of its strap the drum measures {load}, {miss} more than its flange of {max}",
        load: Load::described(|view, _| one(diameter(view.setup))),
        limits: |setup, _| Limits::at_most(need(setup, TRAILER_WINCH_FLANGE)),
        ..OF_WINCH
    },
    Check {
        id: "winch-hand",
        name: "winch by hand",
        what: "the force at the winch's handle against what a hand gives",
        formula: "T (r + τ/2) / (handle × gear × efficiency), the greater of home and far out",
        basis: Basis {
            limit: "50 lb on the handle",
            source: "none found",
            certainty: Certainty::CommonPractice,
        },
        cures: "Use a lower gear or a longer handle, or back in deeper.",
        rows: A_HANDLE,
        judge: Judge::Ceiling,
        remedies: &[],
        too_much: "the handle takes {load}, more than the {max} of a hand",
        load: Load::winch(|view, _| pulled(&view.winch().hand)),
        limits: |_, _| Limits::at_most(Ok(Weight::from_si(BY_HAND))).advising(),
        ..OF_WINCH
    },
    Check {
        id: "winch-battery",
        name: "winch's battery",
        what: "three times the charge that one pull takes against what the battery holds",
        formula: "3 I L / v: current and line speed by the share of the rated torque, half of the strap wound, the eye nearly home",
        basis: Basis {
            limit: "the battery's charge in the file: a third of it for one pull",
            source: "none found",
            certainty: Certainty::CommonPractice,
        },
        measuring: "Read the motor's current and line speed without load and at the rated pull from its sheet, and the battery's label.",
        cures: "Fit a larger battery, or back in deeper.",
        measure: Measure::Charge,
        rows: A_MOTOR,
        too_much: "three pulls take {load} out of a battery of {max}",
        load: Load::winch(|view, _| {
            let motor = view.winch().motor.clone();
            pulled(&motor.map(|motor| motor.map(|runs| runs.charge * BATTERY_OVER_CHARGE)))
        }),
        limits: |setup, _| Limits::at_most(need(setup, TRAILER_WINCH_BATTERY)).advising(),
        ..OF_WINCH
    },
];

/// A load that a pull makes; no pull moves the boat where there is none.
fn pulled<Q: Quantity>(load: &Known<Option<Q>>) -> Known<Reading> {
    Ok(load.clone()?.map_or(Reading::HoldsNothing, |load| Reading::One(load.si())))
}

/// The greater pull of both places. One that is unknown may be more than one that is known.
fn greater_pull(winch: &WinchLoads) -> Known<Reading> {
    let far_out = &winch.far_out.needed;
    match (&winch.home.needed, far_out) {
        (Ok(home), Ok(far_out)) => {
            let greater = home.zip(*far_out).map(|(home, far_out)| home.max(far_out));
            pulled(&Ok(greater))
        }
        (Err(missing), Ok(Some(far_out))) => Ok(Reading::UpTo(far_out.si(), missing.clone())),
        _ => pulled(far_out),
    }
}

/// The pull where the winch uses more of its own.
fn worse_pull(setup: &Setup, winch: &WinchLoads) -> Known<Reading> {
    match (is_worse_home(setup), &winch.far_out.needed) {
        (Ok(true), _) => pulled(&winch.home.needed),
        (Err(missing), Ok(Some(far_out))) => Ok(Reading::UpTo(far_out.si(), missing)),
        (_, far_out) => pulled(far_out),
    }
}

/// What the winch pulls where it uses more of that. It fails the rig where nothing of the pull needed is assumed, and a
/// strap is wound: how rope lies on the drum is not known, and as if each turn lay on the last it pulls least.
fn pull_limits(setup: &Setup) -> Limits {
    let pull = match is_worse_home(setup) {
        Ok(true) => pull_home(setup),
        _ => need(setup, TRAILER_WINCH_RATING),
    };
    let limits = Limits::at_most(pull.clone().map(|pull| pull / BREAKS_LOOSE)).advising();
    let stated = [TRAILER_BUNKS_FRICTION, TRAILER_WINCH_AFLOAT]
        .iter()
        .all(|share| share.get(setup).is_some() && !setup.is_assumed(share.key()));
    if stated && setup.trailer.winch.strap.is_flat() { limits.failing_above(pull) } else { limits }
}

fn strap_limits(setup: &Setup) -> Limits {
    let strap = setup.trailer.winch.strap;
    let limits = Limits::at_most(known(strap.working(), TRAILER_WINCH_STRAP_BREAKING.key()));
    if strap.working.is_some() { limits } else { limits.advising() }
}

/// What the post may bear at its foot.
fn post_moment(setup: &Setup) -> Known<Moment> {
    let post = setup.trailer.winch.post;
    match (post.moment, post.section_modulus, post.yield_stress) {
        (Some(moment), ..) => Ok(moment),
        (None, Some(modulus), Some(yields)) => {
            // S × yield / 1.67
            Ok(Moment::from_si(modulus.si() * yields.si() / YIELD_OVER_ALLOWED))
        }
        (None, Some(_), None) => need(setup, TRAILER_WINCH_POST_YIELD).map(|_| Moment::default()),
        (None, None, Some(_)) => need(setup, TRAILER_WINCH_POST_SECTION_MODULUS).map(|_| Moment::default()),
        (None, None, None) => need(setup, TRAILER_WINCH_POST_MOMENT),
    }
}
