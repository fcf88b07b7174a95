//! The checks of the brakes.

use crate::fit::check::{
    Basis, Certainty, Check, Core, Judge, Limits, Load, Measure, Reading, Rows, Subject,
};
use crate::fit::facts::View;
use crate::fit::known::{Known, known};
use crate::fit::shared::one;
use crate::quantity::{Quantity, Share, Weight, unit};
use crate::rig::Setup;
use crate::rig::inputs::{TRAILER_AXLES_BRAKED, TRAILER_GVWR};

/// Up to this gross weight no brakes are asked for, in pounds.
const UNBRAKED: f64 = 3000.0;

/// The checks of this subject, in the order of reports.
pub(in crate::fit) static CHECKS: &[Check] = &[Check {
    id: "brakes-required",
    name: "brakes on the axles",
    what: "the share of the trailer's axles that are braked",
    formula: "braked axles over all axles, for a trailer of more than 3,000 lb gross (its GVWR where the gross weight is not known)",
    basis: Basis {
        limit: "every axle; above 3,000 lb gross the rig fails without any",
        source: "49 CFR 393.42: a trailer of more than 3,000 lb gross weight needs brakes on its wheels; many states say so of private trailers as well",
        certainty: Certainty::Quoted,
    },
    measuring: "Look behind each wheel for a drum or a disc with its line or wire. Where the file says of one axle whether it is braked, the others count as unbraked.",
    cures: "Have a qualified person fit brakes to every axle.",
    measure: Measure::Share,
    rows: Rows::RIG,
    subject: Subject::Brakes,
    judge: Judge::Floor,
    core: Core::Always,
    remedies: &[],
    too_much: "",
    too_little: "only {load} of the axles are braked",
    load: Load::level(
        |view, _| if weighs_little(view)? { Ok(Reading::Free) } else { one(braked(view.setup)) },
    ),
    limits: |setup, _| {
        let one_axle = 1.0 / setup.trailer.axles.len() as f64;
        Limits::at_least(Ok(Share::from_si(1.0))).failing_below(Ok(Share::from_si(one_axle)))
    },
}];

/// Whether the trailer is so light that no brakes are asked for.
fn weighs_little(view: &View<'_>) -> Known<bool> {
    let gross = view.case().gross.clone().or_else(|_| known(view.setup.trailer.gvwr, TRAILER_GVWR.key()))?;
    Ok(gross <= Weight::from_si(UNBRAKED * unit::POUND))
}

/// The share of axles that are braked: where one is said to be or not, the others count as unbraked.
fn braked(setup: &Setup) -> Known<Share> {
    let axles = &setup.trailer.axles;
    let said = axles.iter().any(|axle| axle.braked.is_some());
    let braked = axles.iter().filter(|axle| axle.braked == Some(true)).count();
    known(said.then(|| Share::from_si(braked as f64 / axles.len() as f64)), TRAILER_AXLES_BRAKED.of(0))
}
