//! Windows worked by hand on one axle.
//!
//! The rig: 8225 lb, of which 6500 lb are boat and 1725 lb trailer with its centre at 240 in, one axle at 264
//! in, a moment about the ball of 1 900 800 lb in. Its springs are a thousand times as stiff as real ones, so
//! that the frame stays level: the pitch that is left moves an end by (W zc + N ℓ) / (k x²) of the change of
//! axle load, 241 140 / (2e6 × 264²) × 450 lb = 8e-4 lb, or 3e-5 in of boat. Tolerance: 1e-4 in.

use super::{INCH, inches, options, placed, rig};
use approx::assert_abs_diff_eq;
use bunkline::fit::{Amount, Side, assess};
use bunkline::quantity::{Length, Quantity};
use bunkline::study::place::{Closer, Conflict, Part, Placing, Unplaced, moved, place};

const NEAR: f64 = 1e-4;

fn text(axle_rating: &str, rest: &str) -> String {
    format!(
        r#"
format = 1
[[boat.weights]]
weight = "6500 lb"
station = "{} in"
height = "26 in"
[trailer]
weight = "1725 lb"
cg = "240 in"
cg_height = "21 in"
transom = "300 in"
keel_height = "24 in"
level_ball_height = "20 in"
suspension = {{ kind = "torsion", deflection_at_rating = "0.002 in" }}
[[trailer.axles]]
station = "264 in"
braked = true
rating = "{axle_rating}"
tires = {{ radius = "14 in", rate = "2000000 lb/in" }}
{rest}
"#,
        300.0 - 14868.0 / 65.0
    )
}

/// An end of the only window, and the limit that closes it.
fn end(placing: &Placing, which: usize) -> (f64, Option<(String, Side)>) {
    let [window] = placing.windows[..] else { panic!("{:?}", placing.windows) };
    let at = [window.interval.from, window.interval.to][which];
    let closer = match window.closed_by[which] {
        Closer::Limit(i) => Some((placing.held[i].limit.id(), placing.held[i].limit.side)),
        _ => None,
    };
    (inches(at), closer)
}

fn assert_window(placing: &Placing, expected: [(f64, Side); 2]) {
    for (which, (at, side)) in expected.into_iter().enumerate() {
        let (found, closer) = end(placing, which);
        assert_abs_diff_eq!(found, at, epsilon = NEAR);
        assert_eq!(closer, Some(("tongue-share".to_string(), side)));
    }
}

#[test]
fn the_boat_goes_where_the_tongue_share_is_in_its_band() {
    // The share is s where N = W (1 − s) = (1 900 800 + 6500 d) / 264:
    //   12 %: 8225 × 264 × 0.88 = 1 910 832, d = 10 032 / 6500 = 1.543 38 in aft
    //    7 %: 8225 × 264 × 0.93 = 2 019 402, d = 118 602 / 6500 = 18.246 46 in aft
    let placing = placed(&rig(&text("8000 lb", ""), &[]), Part::Boat);
    assert_window(&placing, [(1.543_38, Side::Max), (18.246_46, Side::Min)]);
    // The middle, 9.894 92 in, is nearest to 9 7/8 in.
    let spot = placing.spot.as_ref().expect("a spot");
    assert_abs_diff_eq!(inches(spot.exact), 9.894_92, epsilon = NEAR);
    assert_abs_diff_eq!(inches(spot.shift), 9.875, epsilon = 1e-12);
    assert!(placing.answers() && !spot.finer);
}

#[test]
fn the_tongue_is_drawn_in_until_the_share_is_in_its_band() {
    // 1 900 800 − 1725 t = 8225 (1 − s) (264 − t):
    //   12 %: t = 10 032 / (7238 − 1725) = 1.819 70 in; 7 %: t = 118 602 / (7649.25 − 1725) = 20.019 75 in
    let placing = placed(&rig(&text("8000 lb", ""), &[]), Part::Tongue);
    assert_window(&placing, [(1.819_70, Side::Max), (20.019_75, Side::Min)]);
}

#[test]
fn the_axle_goes_where_the_tongue_share_is_in_its_band() {
    // The centre stays at 1 900 800 / 8225 = 231.100 304 in: the axle belongs at that over (1 − s):
    //   7 %: 248.494 95 in, 15.505 05 in forward; 12 %: 262.613 98 in, 1.386 02 in forward
    let placing = placed(&rig(&text("8000 lb", ""), &[]), Part::Axles);
    assert_window(&placing, [(-15.505_05, Side::Min), (-1.386_02, Side::Max)]);
}

#[test]
fn two_limits_that_conflict_are_named_with_their_distance() {
    // An axle of 7000 lb holds while 1 900 800 + 6500 d ≤ 7000 × 264: d ≤ −52 800 / 6500 = −8.123 08 in. The
    // share is at most 12 % from 1.543 38 in on: 9.666 46 in apart.
    let placing = placed(&rig(&text("7000 lb", ""), &[]), Part::Boat);
    assert!(placing.windows.is_empty() && placing.spot.is_none() && !placing.answers());
    let Some(Conflict::Pair { limits, ends }) = placing.conflict else { panic!("{:?}", placing.conflict) };
    let named = limits.map(|i| (placing.held[i].limit.id(), placing.held[i].limit.side));
    assert_eq!(named, [("tongue-share".to_string(), Side::Max), ("axle-1".to_string(), Side::Max)]);
    assert_abs_diff_eq!(inches(ends[0]), 1.543_38, epsilon = NEAR);
    assert_abs_diff_eq!(inches(ends[1]), -8.123_08, epsilon = NEAR);
}

#[test]
fn a_limit_that_holds_nowhere_tells_its_best_place() {
    // At 2 in forward, the end of the travel, the axle carries (1 900 800 − 13 000) / 264 = 7150.758 lb.
    let placing = placed(&rig(&text("7000 lb", "[travel]\nboat = [\"-2 in\", \"9 in\"]"), &[]), Part::Boat);
    let axle = placing.held.iter().find(|held| held.limit.id() == "axle-1").expect("the axle's limit");
    assert!(axle.never() && !axle.fixable && axle.moves && !placing.answers());
    let Some(Amount::Weight(best)) = axle.best else { panic!("{:?}", axle.best) };
    // 8e-4 lb of pitch, as above.
    assert_abs_diff_eq!(best.si() / (0.453_592_37 * 9.806_65), -150.758, epsilon = 2e-3);
    assert_abs_diff_eq!(inches(axle.best_at), -2.0, epsilon = 1e-9);
    // The rest has a window all the same.
    let (from, closer) = end(&placing, 0);
    assert_abs_diff_eq!(from, 1.543_38, epsilon = NEAR);
    assert_eq!(closer, Some(("tongue-share".to_string(), Side::Max)));
    assert!(placing.spot.is_some());
}

#[test]
fn where_only_a_move_cures_and_none_does_no_place_is_chosen() {
    let rest = "[travel]\nboat = [\"-2 in\", \"1 in\"]";
    let placing = placed(&rig(&text("8000 lb", rest), &[]), Part::Boat);
    assert!(placing.held.iter().any(|held| held.limit.id() == "tongue-share" && held.leaves_no_choice()));
    assert!(placing.spot.is_none() && !placing.answers());
}

#[test]
fn a_travel_closes_an_end() {
    let placing = placed(&rig(&text("8000 lb", "[travel]\nboat = [\"-2 in\", \"10 in\"]"), &[]), Part::Boat);
    assert!(placing.stated);
    let (from, _) = end(&placing, 0);
    assert_abs_diff_eq!(from, 1.543_38, epsilon = NEAR);
    assert_abs_diff_eq!(end(&placing, 1).0, 10.0, epsilon = 1e-12);
    assert_eq!(placing.windows[0].closed_by[1], Closer::Range);
    // A travel of one place is that place.
    let placing = placed(&rig(&text("8000 lb", "[travel]\nboat = [\"3 in\", \"3 in\"]"), &[]), Part::Boat);
    assert_abs_diff_eq!(end(&placing, 0).0, 3.0, epsilon = 1e-12);
    let spot = placing.spot.expect("a spot");
    assert_eq!(inches(spot.shift), inches(Length::from_si(3.0 * INCH)));
    assert!(!spot.finer, "a tape can set 3 in");
}

#[test]
fn a_preferred_share_moves_the_spot() {
    let spot = |share: &str| {
        let rig = rig(&text("8000 lb", ""), &[&format!("policy.preferred_tongue_share={share}")]);
        placed(&rig, Part::Boat).spot.expect("a spot")
    };
    // 10 %: d = (8225 × 264 × 0.9 − 1 900 800) / 6500 = 53 460 / 6500 = 8.224 62 in, nearest to 8 1/4 in.
    let tenth = spot("10 %");
    assert_abs_diff_eq!(inches(tenth.exact), 8.224_62, epsilon = NEAR);
    assert_abs_diff_eq!(inches(tenth.shift), 8.25, epsilon = 1e-12);
    // A share beyond the band is met as nearly as the window allows, rounded inside it.
    let beyond = spot("20 %");
    assert_abs_diff_eq!(inches(beyond.exact), 1.543_38, epsilon = NEAR);
    assert_abs_diff_eq!(inches(beyond.shift), 1.5625, epsilon = 1e-12);
}

#[test]
fn a_window_narrower_than_the_tape_has_a_finer_spot() {
    // 9.5 % ± 0.01 %: 8225 × 264 × 0.0002 / 6500 = 0.0668 in wide, from 9.8613 to 9.9281 in: no sixteenth of
    // an inch but 9 7/8 in. 9.51 % ± 0.005 %: from 9.8446 to 9.8780 in has it too; 9.53 % ± 0.005 % lies from
    // 9.7778 to 9.8112 in, between 9 3/4 and 9 13/16 in.
    let rest = "[policy]\ntongue_share = { min = \"9.525 %\", max = \"9.535 %\" }";
    let rig = rig(&text("8000 lb", rest), &[]);
    let placing = placed(&rig, Part::Boat);
    let spot = placing.spot.as_ref().expect("a spot");
    assert!(spot.finer && placing.windows[0].interval.holds(spot.shift));
    let there = moved(&rig, Part::Boat, spot.shift).expect("a valid shift");
    let share = assess(&there).expect("at rest").cases[0].tongue_share().expect("a share");
    assert_abs_diff_eq!(share.si(), 0.0953, epsilon = 5e-5);
}

#[test]
fn a_shift_in_the_file_is_where_the_part_stands() {
    let placing = placed(&rig(&text("8000 lb", "[shift]\nboat = \"5 in\""), &[]), Part::Boat);
    assert_abs_diff_eq!(inches(placing.now), 5.0, epsilon = 1e-12);
    // Shifts are told whole, from where the rig was measured.
    assert_window(&placing, [(1.543_38, Side::Max), (18.246_46, Side::Min)]);
}

#[test]
fn a_rule_of_the_file_closes_an_end() {
    // The jack stands at 30 in, so the axle cannot go farther forward than 234 in; with the share free and the
    // axle's own rating only advising, nothing else closes that end but a trailer that no longer rests.
    let rest = "[trailer.jack]\nstation = \"30 in\"\n[travel]\naxles = [\"-250 in\", \"0 in\"]\n[policy]\nadvises = [\"*\"]";
    let placing = placed(&rig(&text("8000 lb", rest), &[]), Part::Axles);
    let [window] = placing.windows[..] else { panic!("{:?}", placing.windows) };
    assert_eq!(window.closed_by, [Closer::Refused, Closer::Range]);
    assert!(inches(window.interval.from) > -234.0 - 1e-5, "{}", inches(window.interval.from));
    // Nothing counts: there is no answer.
    assert!(!placing.answers());
}

#[test]
fn nothing_known_is_no_answer() {
    let text = text("8000 lb", "").replace("keel_height = \"24 in\"\n", "");
    let placing = placed(&rig(&text, &[]), Part::Boat);
    assert!(!placing.answers() && placing.spot.is_none());
    let share = placing.unknown.iter().find(|unknown| unknown.id == "tongue-share").expect("told");
    assert_eq!(share.missing[0].to_string(), "trailer.keel_height");
}

/// Scale figures alone say what the tongue carries where the boat stands, 540/7800 = 6.9 %, and nothing of other places: where
/// the axle stands is not known. That the share holds nowhere, or is best where she stands, must not follow.
#[test]
fn what_is_known_at_one_place_only_is_no_answer() {
    let text = "format = 1\n[measured]\ngross_trailer_weight = \"7800 lb\"\ntongue_weight = \"540 lb\"\n\
         [trailer]\ngvwr = \"8500 lb\"\n[[trailer.axles]]\nrating = \"8000 lb\"\n";
    let rig = rig(text, &[]);
    let share =
        assess(&rig).expect("at rest").check("tongue-share").and_then(|row| row.load).expect("a share");
    assert_abs_diff_eq!(share.si(), 540.0 / 7800.0, epsilon = 1e-9);
    let placing = placed(&rig, Part::Boat);
    assert!(!placing.answers() && placing.windows.is_empty());
    assert!(placing.spot.is_none() && placing.conflict.is_none());
    let lacks: Vec<String> = placing.lacks.iter().map(ToString::to_string).collect();
    assert!(lacks.contains(&"trailer.axles.1.station".to_string()), "{lacks:?}");
    assert!(placing.held.iter().all(|held| held.limit.id() != "tongue-share"));
}

#[test]
fn a_move_that_changes_nothing_is_no_answer() {
    // There are no bunks: to move them changes no load.
    let placing = placed(&rig(&text("8000 lb", ""), &[]), Part::Bunks);
    assert!(!placing.answers() && placing.held.iter().all(|held| !held.moves));
}

#[test]
fn a_shift_that_no_rule_allows_is_refused() {
    // The jack stands at 30 in: all of the travel carries the axle ahead of it.
    let rest = "[trailer.jack]\nstation = \"30 in\"\n[travel]\naxles = [\"-260 in\", \"-240 in\"]";
    let refused = place(&rig(&text("8000 lb", rest), &[]), Part::Axles, &options(false));
    assert!(matches!(refused, Err(Unplaced::Refused(_))), "{refused:?}");
}
