//! Source: the share of gross weight that the tongue should carry: 7 to 12 % for boat trailers (US boat
//! owners' association, trailering article, 2012), 5 to 10 % of GVWR, not of the gross weight (two boat
//! builders' owner manuals), 10 to 15 % for trailers in general (vehicle owner manuals). Read in the sources.
//! The first stands where a file has no policy.
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
fn where_the_policy_is_silent_the_boat_owners_band_is_kept_to_its_ends() {
    assert_eq!(verdict(6.9, ""), Verdict::Fail);
    assert_eq!(verdict(7.1, ""), Verdict::Thin);
    assert_eq!(verdict(9.5, ""), Verdict::Pass);
    assert_eq!(verdict(11.9, ""), Verdict::Thin);
    // Silent files are advised up to what vehicle manuals allow trailers in general.
    assert_eq!(verdict(12.1, ""), Verdict::Advise);
    assert_eq!(verdict(14.9, ""), Verdict::Advise);
    assert_eq!(verdict(15.1, ""), Verdict::Fail);
}

#[test]
fn a_band_of_the_policy_replaces_it_end_by_end() {
    // Only the end that is stated moves.
    let least = "[policy]\ntongue_share = { min = \"5 %\" }";
    assert_eq!(verdict(5.1, least), Verdict::Thin);
    assert_eq!(verdict(12.1, least), Verdict::Advise);
    let most = "[policy]\ntongue_share = { max = \"10 %\" }";
    assert_eq!(verdict(10.1, most), Verdict::Fail);
    assert_eq!(verdict(6.9, most), Verdict::Fail);
}
