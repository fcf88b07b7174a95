//! The checks of the tie-downs.

use super::loads::{Against, DOWN, Strength, TOGETHER, count, holds, holds_down, number_needed, together};
use crate::fit::check::{
    Basis, Certainty, Check, Core, Judge, Limits, Load, Measure, Reading, Rows, Subject,
};
use crate::fit::facts::View;
use crate::fit::known::Known;
use crate::fit::shared::{once, one};
use crate::quantity::{Quantity, Share};
use crate::rig::Setup;

/// One row, where the file describes a tie-down.
const A_TIE_DOWN: Rows = Rows::one(|setup| once(!setup.trailer.tie_downs.is_empty()));

const WORKING: Basis = Basis {
    limit: "what the tie-downs hold within their working limits",
    source: "49 CFR 393.102(a)(2)",
    certainty: Certainty::Read,
};
const BREAKING: Basis = Basis {
    limit: "what the tie-downs hold before one of them breaks",
    source: "49 CFR 393.102(a)(1)",
    certainty: Certainty::Read,
};
const ENDS: &str = "Tape both ends of every tie-down, and read the working limit and the breaking strength on its label: the least of strap, ratchet, hooks, anchor and eye.";
const LEAD: &str = "Add a pair that leads that way, fit stronger ones, or set the anchors so that they lead more that way. Unlike straps share badly: the stiffer carries most.";

/// What the rows of the tie-downs have in common.
const OF_TIE_DOWNS: Check = Check {
    id: "",
    name: "",
    what: "",
    formula: "",
    basis: WORKING,
    measuring: ENDS,
    cures: LEAD,
    subject: Subject::TieDowns,
    measure: Measure::Weight,
    rows: A_TIE_DOWN,
    judge: Judge::Rating,
    core: Core::No,
    remedies: &[],
    too_much: "",
    too_little: "",
    load: Load::level(|view, _| share(view, 0.0)),
    limits: |_, _| Limits { min: None, max: None },
};

/// The checks of this subject, in the order of reports.
pub(in crate::fit) static CHECKS: &[Check] = &[
    Check {
        id: "tie-down-forward",
        name: "tie-downs against going forward",
        what: "0.435 of the boat against what keeps it from going forward",
        formula: "0.435 W against Σ L u: working limits that lead aft, shared by stiffness so that none passes its limit; or the bow stop's rating where that is more",
        cures: "Add a pair that leads aft, or have the bow stop's rating from the trailer's maker. The winch's strap counts for nothing: its brake holds the winch, not the road.",
        too_much: "a stop needs {load}, and what leads aft holds {max} within its working limits",
        load: Load::level(|view, _| share(view, Against::Forward.demand(Strength::Working))),
        limits: |setup, _| held(setup, Against::Forward, Strength::Working),
        ..OF_TIE_DOWNS
    },
    Check {
        id: "tie-down-rearward",
        name: "tie-downs against going aft",
        what: "half of the boat against what keeps it from going aft",
        formula: "0.5 W against Σ L u: working limits that lead forward, shared by stiffness so that none passes its limit",
        too_much: "pulling away needs {load}, and what leads forward holds {max} within its working limits",
        load: Load::level(|view, _| share(view, Against::Rearward.demand(Strength::Working))),
        limits: |setup, _| held(setup, Against::Rearward, Strength::Working),
        ..OF_TIE_DOWNS
    },
    Check {
        id: "tie-down-side",
        name: "tie-downs against going to a side",
        what: "a quarter of the boat against what keeps it from going to a side",
        formula: "0.25 W against Σ L u: working limits that lead to the other side, shared by stiffness so that none passes its limit; the weaker side",
        too_much: "a bend needs {load}, and what leads to that side holds {max} within its working limits",
        load: Load::level(|view, _| share(view, Against::Side.demand(Strength::Working))),
        limits: |setup, _| held(setup, Against::Side, Strength::Working),
        ..OF_TIE_DOWNS
    },
    Check {
        id: "tie-down-forward-breaking",
        name: "tie-downs against going forward, breaking",
        what: "0.8 of the boat against what keeps it from going forward before it breaks",
        formula: "0.8 W against Σ S u: breaking strengths that lead aft, shared by stiffness; or the bow stop's rating where that is more",
        basis: BREAKING,
        too_much: "a hard stop needs {load}, and what leads aft breaks at {max}",
        load: Load::level(|view, _| share(view, Against::Forward.demand(Strength::Breaking))),
        limits: |setup, _| held(setup, Against::Forward, Strength::Breaking),
        ..OF_TIE_DOWNS
    },
    Check {
        id: "tie-down-rearward-breaking",
        name: "tie-downs against going aft, breaking",
        what: "half of the boat against what keeps it from going aft before it breaks",
        formula: "0.5 W against Σ S u: breaking strengths that lead forward, shared by stiffness so that none passes its own",
        basis: BREAKING,
        too_much: "a hard start needs {load}, and what leads forward breaks at {max}",
        load: Load::level(|view, _| share(view, Against::Rearward.demand(Strength::Breaking))),
        limits: |setup, _| held(setup, Against::Rearward, Strength::Breaking),
        ..OF_TIE_DOWNS
    },
    Check {
        id: "tie-down-side-breaking",
        name: "tie-downs against going to a side, breaking",
        what: "half of the boat against what keeps it from going to a side before it breaks",
        formula: "0.5 W against Σ S u: breaking strengths that lead to the other side, shared by stiffness so that none passes its own; the weaker side",
        basis: BREAKING,
        too_much: "a hard swerve needs {load}, and what leads to that side breaks at {max}",
        load: Load::level(|view, _| share(view, Against::Side.demand(Strength::Breaking))),
        limits: |setup, _| held(setup, Against::Side, Strength::Breaking),
        ..OF_TIE_DOWNS
    },
    Check {
        id: "tie-down-down",
        name: "tie-downs pulling down",
        what: "a fifth of the boat against what the tie-downs pull down with",
        formula: "0.2 W against Σ L u, u how far each leads down",
        basis: Basis {
            limit: "what the tie-downs pull down with at their working limits",
            source: "49 CFR 393.102(b)",
            certainty: Certainty::Read,
        },
        cures: "Fit stronger straps, or set the anchors more under their ends on the boat.",
        too_much: "a bump needs {load} down, and the tie-downs pull down with {max}",
        load: Load::level(|view, _| share(view, DOWN)),
        limits: |setup, _| at_most(holds_down(setup)),
        ..OF_TIE_DOWNS
    },
    Check {
        id: "tie-down-total",
        name: "tie-downs together",
        what: "half of the boat against the working limits of all tie-downs",
        formula: "0.5 W against Σ c L, c 1/2 from trailer to boat, 1 over the boat to the other side",
        basis: Basis {
            limit: "half of each working limit, the whole of one that goes over the boat",
            source: "49 CFR 393.106(d)",
            certainty: Certainty::Quoted,
        },
        cures: "Fit stronger tie-downs, or more of them.",
        too_much: "half of the boat weighs {load}, and the tie-downs together hold {max}",
        load: Load::level(|view, _| share(view, TOGETHER)),
        limits: |setup, _| at_most(together(setup)),
        ..OF_TIE_DOWNS
    },
    Check {
        id: "tie-down-number",
        name: "number of tie-downs",
        what: "the number of tie-downs that the boat's length asks for against those there are",
        formula: "one for each 10 ft begun, and one more where no bow stop with a stated rating keeps the boat from going forward",
        basis: Basis {
            limit: "the tie-downs in the file",
            source: "49 CFR 393.110",
            certainty: Certainty::Quoted,
        },
        measuring: "Count the tie-downs that are hooked on, and tape the boat's length.",
        cures: "Add tie-downs.",
        measure: Measure::Number,
        judge: Judge::Ceiling,
        too_much: "a boat of this length needs {load} tie-downs, and the file has {max}",
        load: Load::described(|view, _| number_needed(view.setup).map(Reading::One)),
        limits: |setup, _| at_most(Ok(Share::from_si(count(setup)))),
        ..OF_TIE_DOWNS
    },
];

/// A share of the boat in a case.
fn share(view: &View<'_>, share: f64) -> Known<Reading> {
    one(view.case().boat.clone().map(|boat| boat * share))
}

fn held(setup: &Setup, way: Against, strength: Strength) -> Limits {
    at_most(holds(setup, way, strength))
}

/// What the tie-downs hold: common carriers' rules, by which an owner is advised.
fn at_most<Q: Quantity>(held: Known<Q>) -> Limits {
    Limits::at_most(held).advising()
}
