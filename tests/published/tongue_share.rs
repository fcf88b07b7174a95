//! Source: the share of gross weight that the tongue should carry: 7 to 12 % for boat trailers (US boat
//! owners' association, trailering article, 2012), 5 to 10 % (two boat builders' owner manuals), 10 to 15 %
//! for trailers in general (vehicle owner manuals). Read in the sources. The first stands where a file has
//! no policy.
//!
//! Each case lies a tenth of a percent inside or outside an end, so no tolerance is needed.

use crate::rigs::{assessed, axle, rig, row, weight};
use approx::assert_abs_diff_eq;
use bunkline::fit::Verdict;

/// 5000 lb on one axle at 200 in, so many percent of it on the tongue.
fn rig_of(percent: f64, policy: &str) -> String {
    // Boat and trailer share one centre, 2 (100 − percent) inches behind the ball.
    let centre = 2.0 * (100.0 - percent);
    let trailer =
        format!("weight = \"1000 lb\"\ncg = \"{centre} in\"\nsuspension = {{ kind = \"torsion\" }}");
    rig(&weight(4000.0, 300.0 - centre), &trailer, &[axle(200.0)], policy)
}

fn verdict(percent: f64, policy: &str) -> Verdict {
    let found = assessed(&rig_of(percent, policy), &[]);
    let share = row(&found, "tongue-share");
    assert_abs_diff_eq!(share.load.expect("a share").si() * 100.0, percent, epsilon = 1e-9);
    share.verdict
}

#[test]
fn each_published_band_is_kept_to_its_ends() {
    let band =
        |min: f64, max: f64| format!("[policy]\ntongue_share = {{ min = \"{min} %\", max = \"{max} %\" }}");
    let bands = [(7.0, 12.0, String::new()), (5.0, 10.0, band(5.0, 10.0)), (10.0, 15.0, band(10.0, 15.0))];
    for (min, max, policy) in bands {
        assert_eq!(verdict(min - 0.1, &policy), Verdict::Fail, "{min} to {max} %");
        assert_eq!(verdict(min + 0.1, &policy), Verdict::Thin, "{min} to {max} %");
        assert_eq!(verdict(f64::midpoint(min, max), &policy), Verdict::Pass, "{min} to {max} %");
        assert_eq!(verdict(max - 0.1, &policy), Verdict::Thin, "{min} to {max} %");
        assert_eq!(verdict(max + 0.1, &policy), Verdict::Fail, "{min} to {max} %");
    }
}
