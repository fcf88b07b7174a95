//! Source: SAE J684 as copied in COMAR 11.13.08.10: class 1 couplings take a 1 7/8 in ball, classes 2 and 3
//! a 2 in ball; the greatest gross trailer weights of classes 1 to 4 are 2000, 3500, 5000 and 10 000 lb.
//! Read in the state's rule.
//!
//! The program knows no classes: an owner states what the coupler is stamped with. So what is tested here is
//! that a rating is compared with the gross trailer weight, tongue included, and that sizes must be the same.
//! A pound over or under needs no tolerance.

use crate::rigs::{assessed, axle, load, rig, row, weight};
use bunkline::fit::Verdict;

fn coupled(boat: f64, coupler: &str, ball: &str) -> String {
    let trailer = format!(
        "weight = \"1000 lb\"\ncg = \"180 in\"\nsuspension = {{ kind = \"torsion\" }}\ncoupler = {{ {coupler} }}"
    );
    rig(&weight(boat, 120.0), &trailer, &[axle(200.0)], &format!("[hitch]\nball = {{ {ball} }}"))
}

#[test]
fn a_rating_is_compared_with_the_gross_weight_tongue_included() {
    // A coupler of class 4, and 10 % of the gross on the ball: what the axle alone carries would still be inside.
    let verdict = |gross: f64| {
        let text = coupled(gross - 1000.0, "rating = \"10000 lb\"", "");
        let found = assessed(&text, &[]);
        assert!((load(&found, "coupler") - gross).abs() < 1e-6);
        assert!(load(&found, "axle-1") < 0.95 * gross);
        row(&found, "coupler").verdict
    };
    assert_eq!(verdict(10_001.0), Verdict::Fail);
    assert_eq!(verdict(9999.0), Verdict::Thin);
    assert_eq!(verdict(8500.0), Verdict::Pass);
}

#[test]
fn a_ball_must_be_of_the_sockets_size() {
    let verdict = |socket: &str, ball: &str| {
        let text = coupled(1000.0, &format!("ball_size = \"{socket}\""), &format!("diameter = \"{ball}\""));
        row(&assessed(&text, &[]), "ball-size").verdict
    };
    assert_eq!(verdict("1 7/8 in", "1 7/8 in"), Verdict::Pass);
    assert_eq!(verdict("2 in", "2 in"), Verdict::Pass);
    // The same size in millimetres, exactly and rounded to the tenth.
    assert_eq!(verdict("2 in", "50.8 mm"), Verdict::Pass);
    assert_eq!(verdict("2 5/16 in", "58.7 mm"), Verdict::Pass);
    // A smaller or larger ball, and the 50 mm ball of other countries, are not the same size.
    assert_eq!(verdict("2 in", "1 7/8 in"), Verdict::Fail);
    assert_eq!(verdict("2 in", "2 5/16 in"), Verdict::Fail);
    assert_eq!(verdict("2 in", "50 mm"), Verdict::Fail);
}
