//! Source: SAE J684 as copied in COMAR 11.13.08.10: class 1 couplings take a 1 7/8 in ball, classes 2 and 3
//! a 2 in ball; the greatest gross trailer weights of classes 1 to 4 are 2000, 3500, 5000 and 10 000 lb.
//! Read in the state's rule.
//!
//! A rating is compared with the gross trailer weight, tongue included; sizes must be the same, so no
//! tolerance is needed.

use crate::rigs::{assessed, axle, rig, row, weight};
use bunkline::fit::Verdict;

fn coupled(boat: f64, coupler: &str, ball: &str) -> String {
    let trailer = format!(
        "weight = \"1000 lb\"\ncg = \"180 in\"\nsuspension = {{ kind = \"torsion\" }}\ncoupler = {{ {coupler} }}"
    );
    rig(&weight(boat, 120.0), &trailer, &[axle(200.0)], &format!("[hitch]\nball = {{ {ball} }}"))
}

#[test]
fn a_class_is_kept_by_gross_weight() {
    for (class, most) in [(1, 2000.0), (2, 3500.0), (3, 5000.0), (4, 10_000.0)] {
        let verdict = |gross: f64| {
            let text = coupled(gross - 1000.0, &format!("rating = \"{most} lb\""), "");
            row(&assessed(&text, &[]), "coupler").verdict
        };
        // What the axle alone carries, nine tenths of it, would still be inside.
        assert_eq!(verdict(most + 1.0), Verdict::Fail, "class {class}");
        assert_eq!(verdict(most - 1.0), Verdict::Thin, "class {class}");
        assert_eq!(verdict(0.85 * most), Verdict::Pass, "class {class}");
    }
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
