//! Source: SAE J684, read on a page that quotes it: each safety chain of a trailer of class 1, 2 or 3 (2000, 3500, 5000 lb
//! gross) breaks at no less than the class's greatest gross weight, one of class 4 at no less than the trailer's GVWR. 49 CFR
//! 393.70(d), guidance question 2, read in the source: the strength of two chains together counts against the gross weight.
//!
//! A pound over or under needs no tolerance.

use crate::rigs::{assessed, axle, rig, row};
use bunkline::fit::Verdict;

fn verdict(gvwr: f64, breaking: f64) -> Verdict {
    let trailer =
        format!("gvwr = \"{gvwr} lb\"\nsafety_chains = {{ count = 2, breaking = \"{breaking} lb\" }}");
    row(&assessed(&rig("", &trailer, &[axle(200.0)], ""), &[]), "safety-chains").verdict
}

#[test]
fn each_chain_is_of_the_trailers_class() {
    for (gvwr, least) in
        [(1500.0, 2000.0), (2001.0, 3500.0), (3501.0, 5000.0), (5001.0, 5001.0), (9000.0, 9000.0)]
    {
        assert_eq!(verdict(gvwr, least - 1.0), Verdict::Advise, "{gvwr} lb");
        let holds = verdict(gvwr, least);
        assert!(matches!(holds, Verdict::Pass | Verdict::Thin), "{gvwr} lb: {holds:?}");
    }
}

#[test]
fn both_chains_together_hold_the_gross_weight() {
    assert_eq!(verdict(9000.0, 4500.0), Verdict::Advise);
    assert_eq!(verdict(9000.0, 4499.0), Verdict::Fail);
}
