//! Source: 49 CFR 393.102: tie-downs hold 0.435 g forward, 0.5 g rearward and 0.25 g to a side within their working load
//! limits, 0.8, 0.5 and 0.5 g within their breaking strengths, and a fifth of the weight down. Read in the source. 49 CFR
//! 393.106(d): the working limits come to half the weight, a tie-down from vehicle to cargo counting half; 393.110: one
//! tie-down for each 10 ft begun, and one more where nothing blocks the way forward. Read on a page that quotes them.
//!
//! Tolerance: 1e-6 lb; the figures are exact shares of the boat's weight.

use crate::rigs::{assessed, axle, load, most, rig, row, weight};
use bunkline::fit::Verdict;

/// A boat of 8000 lb and 25 ft, tied down by this.
fn tied(rest: &str) -> String {
    let boat = format!("[boat]\nlength = \"25 ft\"\n{}", weight(8000.0, 110.0));
    let trailer = "weight = \"2000 lb\"\ncg = \"180 in\"\nsuspension = { kind = \"torsion\" }";
    rig(&boat, trailer, &[axle(200.0)], &format!("[[trailer.tie_downs]]\n{rest}"))
}

/// Two straps that lead 10 in aft, 6 in out and 24 in down.
const TWO_STRAPS: &str = "count = 2
boat = { station = \"0 in\", height = \"24 in\", side = \"40 in\" }
trailer = { station = \"310 in\", height = \"24 in\", side = \"46 in\" }
working = \"2000 lb\"
breaking = \"6000 lb\"
";

#[test]
fn each_way_asks_for_its_share_of_the_boat() {
    let found = assessed(&tied(TWO_STRAPS), &[]);
    for (id, share) in [
        ("tie-down-forward", 0.435),
        ("tie-down-rearward", 0.5),
        ("tie-down-side", 0.25),
        ("tie-down-forward-breaking", 0.8),
        ("tie-down-rearward-breaking", 0.5),
        ("tie-down-side-breaking", 0.5),
        ("tie-down-down", 0.2),
        ("tie-down-total", 0.5),
    ] {
        assert!((load(&found, id) - 8000.0 * share).abs() < 1e-6, "{id}");
        assert!(!row(&found, id).counts, "{id}: an owner is advised");
    }
    // What two such straps hold was worked to the pound.
    for (id, holds) in [
        ("tie-down-forward", 1499.0),
        ("tie-down-down", 3598.0),
        ("tie-down-side", 450.0),
        ("tie-down-total", 2000.0),
    ] {
        assert!((most(&found, id) - holds).abs() < 0.5, "{id}: {}", most(&found, id));
    }
    assert_eq!(row(&found, "tie-down-down").verdict, Verdict::Pass);
    assert_eq!(row(&found, "tie-down-forward").verdict, Verdict::Advise);
}

#[test]
fn a_boat_of_25_ft_asks_for_four_and_for_three_where_it_is_blocked() {
    let number = |change: &[&str]| {
        let found = assessed(&tied(TWO_STRAPS), change);
        row(&found, "tie-down-number").load.expect("made").si()
    };
    assert!((number(&[]) - 4.0).abs() < 1e-12);
    assert!((number(&["trailer.bow_stop_rating=4000 lb"]) - 3.0).abs() < 1e-12);
}
