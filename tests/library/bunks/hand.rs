//! Every result of the bunks, worked by hand for one plain rig.
//!
//! tan 18° = 0.324920, cos 18° = 0.951057. Where a tolerance is [`FIGURES`], the hand's figures are rounded to it.

use crate::bunks::rigs::{assessed, bunk, inches, load, loads, max, of, pounds, rig, row};
use approx::{assert_abs_diff_eq, assert_relative_eq};
use bunkline::fit::{self, Verdict};
use bunkline::quantity::Quantity;

/// Hand results carry five figures.
const FIGURES: f64 = 3e-5;
/// What is exact by hand is exact but for rounding.
const EXACT: f64 = 1e-9;

#[test]
fn keel_height_from_the_bunks() {
    // 34 − 31.5·0.324920 = 23.7650 in
    let rig = rig(&[]);
    assert_abs_diff_eq!(inches(rig.proposed().keel_on_bunks().unwrap()), 23.7650, epsilon = 5e-5);
    // The file is silent: the bunks' is taken.
    assert_eq!(rig.proposed().trailer.keel_height, rig.proposed().keel_on_bunks());
    // One bunk farther out than the other: by their mean.
    let uneven = crate::bunks::rigs::rig(&["trailer.bunks.top=35 in"]);
    assert_abs_diff_eq!(inches(uneven.proposed().trailer.keel_height.unwrap()), 24.7650, epsilon = 5e-5);
}

#[test]
fn a_measured_keel_follows_the_bunks_that_a_proposal_moves() {
    let text = crate::bunks::rigs::PLAIN.replace("[trailer]\n", "[trailer]\nkeel_height = \"24 in\"\n");
    let keel = |changes: &[&str]| {
        let rig = bunkline::Rig::read("plain", &text, changes).expect("it reads");
        inches(rig.proposed().trailer.keel_height.unwrap())
    };
    assert_abs_diff_eq!(keel(&[]), 24.0, epsilon = EXACT);
    assert_abs_diff_eq!(keel(&["trailer.bunks.top+=1 1/2 in"]), 25.5, epsilon = EXACT);
    // 2 in farther out: 2·0.324920 = 0.64984 lower.
    assert_abs_diff_eq!(keel(&["trailer.bunks.half_spacing+=2 in"]), 23.35016, epsilon = 1e-5);
    assert_abs_diff_eq!(
        keel(&["trailer.bunks.top=40 in", "trailer.keel_height=25 in"]),
        25.0,
        epsilon = EXACT
    );
}

#[test]
fn the_cut_sheet() {
    let sheet = fit::cut_sheet(rig(&[]).proposed()).unwrap().unwrap();
    // 3.5·0.324920 = 1.13722; 9.25 − 1.13722 = 8.11278
    assert_abs_diff_eq!(inches(sheet.drop), 1.13722, epsilon = 5e-6);
    assert_abs_diff_eq!(inches(sheet.board.outer_depth), 9.25, epsilon = EXACT);
    assert_abs_diff_eq!(inches(sheet.board.inner_depth), 8.11278, epsilon = 5e-6);
    assert_abs_diff_eq!(sheet.board.bevel().si().to_degrees(), 18.0, epsilon = EXACT);
    assert_abs_diff_eq!(inches(sheet.length), 120.0, epsilon = EXACT);
    assert_eq!(sheet.winding, None);
    let holes: Vec<(usize, f64)> =
        sheet.holes.iter().map(|hole| (hole.crossmember, inches(hole.from_forward_end).round())).collect();
    assert_eq!(holes, [(0, 0.0), (1, 40.0), (2, 80.0), (3, 120.0)]);
    // Two bolts 5 in apart stand 2 1/2 in to either side of the bracket's middle.
    let sheet =
        fit::cut_sheet(rig(&["trailer.bunks.brackets.bolt_spacing=5 in"]).proposed()).unwrap().unwrap();
    let second: Vec<f64> = sheet
        .holes
        .iter()
        .filter(|hole| hole.crossmember == 1)
        .map(|hole| inches(hole.from_forward_end))
        .collect();
    assert_abs_diff_eq!(second[..], [37.5, 42.5][..], epsilon = EXACT);
}

#[test]
fn a_board_that_lies_flat_is_tilted_and_not_cut() {
    let sheet = fit::cut_sheet(rig(&["trailer.bunks.lay=flat"]).proposed()).unwrap().unwrap();
    assert_eq!(sheet.board.bevel().si(), 0.0);
    assert_abs_diff_eq!(inches(sheet.board.inner_depth), 3.5, epsilon = EXACT);
    // 9.25·sin 18° = 9.25·0.309017 = 2.85841
    assert_abs_diff_eq!(inches(sheet.drop), 2.85841, epsilon = 5e-6);
    // S = 9.25·3.5²/6 = 18.8854; (4000/0.951057)/18.8854 = 222.70 psi, nothing sideways.
    let bunk = bunk(&["trailer.bunks.lay=flat"]);
    assert_relative_eq!(of(bunk.stress.unwrap().value.si(), "psi"), 222.70, max_relative = FIGURES);
    assert_eq!(bunk.side_stress.unwrap().si(), 0.0);
    // 25/(9.25·0.951057) = 2.84180 psi
    let pressure = loads(&["trailer.bunks.lay=flat"]).pressure.unwrap().unwrap();
    assert_relative_eq!(of(pressure.peak.si(), "psi"), 2.84180, max_relative = FIGURES);
}

#[test]
fn a_twisted_bottom_is_cut_to_its_least_deadrise() {
    let twisted = crate::bunks::rigs::PLAIN.replace(
        "deadrise = \"18 deg\"",
        "deadrise = [ { station = \"0 in\", deadrise = \"18 deg\" }, { station = \"150 in\", deadrise = \"21 deg\" } ]",
    );
    let rig = bunkline::Rig::read("twisted", &twisted, &[] as &[&str]).expect("it reads");
    let sheet = fit::cut_sheet(rig.proposed()).unwrap().unwrap();
    // The bunks end 30 in ahead of the transom: 18 + 3·30/150 = 18.6 deg is the least that bears.
    assert_abs_diff_eq!(sheet.board.bevel().si().to_degrees(), 18.6, epsilon = EXACT);
    // The contact runs from 150 to 30 in ahead of the transom: 18 + 3·(150, 30)/150 = 21 and 18.6 deg.
    let [forward, aft] = sheet.winding.expect("it twists");
    assert_abs_diff_eq!(forward.si().to_degrees(), 21.0, epsilon = EXACT);
    assert_abs_diff_eq!(aft.si().to_degrees(), 18.6, epsilon = EXACT);
    // A list that goes on past the contact's end at 150 in counts up to there: 18 + 3·150/200 = 20.25 deg.
    let beyond = twisted.replace("station = \"150 in\", deadrise", "station = \"200 in\", deadrise");
    let rig = bunkline::Rig::read("beyond", &beyond, &[] as &[&str]).expect("it reads");
    assert_abs_diff_eq!(fit::steepest(rig.proposed()).unwrap().si().to_degrees(), 20.25, epsilon = EXACT);
}

#[test]
fn contact_pressure_and_the_middle_third() {
    let bed = loads(&[]).bed.unwrap().unwrap();
    // The bottom can bear from 300 − 160 = 140 to 300 − 10 = 290 in: all of the bunks touch.
    assert_abs_diff_eq!(inches(bed.contact.forward), 150.0, epsilon = EXACT);
    assert_abs_diff_eq!(inches(bed.contact.aft), 270.0, epsilon = EXACT);
    assert_abs_diff_eq!(inches(bed.eccentricity), 0.0, epsilon = EXACT);
    // 6000/120 = 50 lb/in, both together; 25/3.5 = 7.14286 psi
    assert_relative_eq!(of(bed.forward.si(), "lb/in"), 50.0, max_relative = EXACT);
    assert_relative_eq!(of(bed.aft.si(), "lb/in"), 50.0, max_relative = EXACT);
    let pressure = loads(&[]).pressure.unwrap().unwrap();
    assert_relative_eq!(of(pressure.mean.si(), "psi"), 7.14286, max_relative = FIGURES);
    assert_relative_eq!(of(pressure.peak.si(), "psi"), 7.14286, max_relative = FIGURES);

    // On a longer straight run, 12 in aft: 50·(1 ± 6·12/120) = 50·(1 ± 0.6) = 20 and 80 lb/in
    let bed = loads(&["shift.boat=12 in", "boat.hull.straight_run=200 in"]).bed.unwrap().unwrap();
    assert_relative_eq!(of(bed.forward.si(), "lb/in"), 20.0, max_relative = EXACT);
    assert_relative_eq!(of(bed.aft.si(), "lb/in"), 80.0, max_relative = EXACT);

    // 30 in aft is past the middle third of 20: 3·(60 − 30) = 90 in bears, 2·6000/90 = 133.333 lb/in at its aft end.
    let changes = ["shift.boat=30 in", "boat.hull.straight_run=200 in"];
    let on_bunks = loads(&changes);
    let bed = on_bunks.bed.clone().unwrap().unwrap();
    assert_relative_eq!(of(bed.aft.si(), "lb/in"), 133.333, max_relative = FIGURES);
    assert_eq!(bed.forward.si(), 0.0);
    assert_abs_diff_eq!(inches(bed.bearing.forward), 180.0, epsilon = 1e-6);
    assert_abs_diff_eq!(
        inches(fit::idle(rig(&changes).proposed(), &on_bunks).unwrap()),
        30.0,
        epsilon = 1e-6
    );
    let found = assessed(&changes);
    assert_abs_diff_eq!(row(&found, "bunk-contact").load.unwrap().si(), 0.25, epsilon = 1e-9);
    assert_eq!(row(&found, "bunk-contact").verdict, Verdict::Advise);
}

#[test]
fn ends_that_suit() {
    // 80 in from the centre of gravity to where support can end: contacts of 120 to 240 in keep it in the middle
    // third, and the bottom is straight for 150.
    let rig = rig(&[]);
    let found = assessed(&[]);
    let wanted = fit::wanted_ends(rig.proposed(), &found.bunks).unwrap().unwrap();
    assert_abs_diff_eq!(inches(wanted.aft), 290.0, epsilon = 1e-6);
    assert_abs_diff_eq!(inches(wanted.forward_from), 140.0, epsilon = 1e-6);
    assert_abs_diff_eq!(inches(wanted.forward_to), 170.0, epsilon = 1e-6);
    // Where the bottom is straight for 280, the middle third is what limits the longest: 290 − 3·80 = 50.
    let straight = crate::bunks::hand::rig(&["boat.hull.straight_run=300 in"]);
    let wanted = fit::wanted_ends(straight.proposed(), &found.bunks).unwrap().unwrap();
    assert_abs_diff_eq!(inches(wanted.forward_from), 50.0, epsilon = 1e-6);
}

#[test]
fn what_each_crossmember_carries() {
    // Three equal spans of 40 in under 25 lb/in: 0.4, 1.1, 1.1 and 0.4 of 1000 lb (Hicks, table 2.1).
    let reactions = bunk(&[]).reactions;
    let pounds: Vec<Option<f64>> = reactions.iter().map(|reaction| reaction.map(pounds)).collect();
    for (found, expected) in pounds.iter().zip([400.0, 1100.0, 1100.0, 400.0]) {
        assert_relative_eq!(found.unwrap(), expected, max_relative = EXACT);
    }
    assert_eq!(pounds[4], None, "the bunks end before the last");
    let found = assessed(&[]);
    assert_relative_eq!(load(&found, "crossmember-2", "lb"), 1100.0, max_relative = EXACT);
    assert_eq!(row(&found, "crossmember-2").verdict, Verdict::Fail);
    // 12 in from bunk to rail less half the board: 36 − (31.5 − 1.75) = 6.25; 2·36000/1.67 = 43113.8 lb·in, so
    // 6898.2 lb. Side thrust takes 0.32492·(34 − 22) = 3.899 in off the arm between the bunks only.
    assert_relative_eq!(max(&found, "crossmember-1", "lb"), 6898.2, max_relative = FIGURES);
    // Of the third nothing is stated.
    let asks: Vec<String> = row(&found, "crossmember-3").missing.iter().map(ToString::to_string).collect();
    assert_eq!(asks, ["trailer.crossmembers.3.section_modulus", "trailer.crossmembers.3.yield"]);
}

#[test]
fn side_thrust_on_brackets_and_bolts() {
    // 1100·0.324920 = 357.412 lb on the bracket; two bolts hold 1000.
    let found = assessed(&[]);
    assert_relative_eq!(load(&found, "bunk-bracket", "lb"), 357.412, max_relative = FIGURES);
    assert_relative_eq!(max(&found, "bunk-bracket", "lb"), 1000.0, max_relative = EXACT);
    let rated = assessed(&["trailer.bunks.brackets.rating=300 lb"]);
    assert_eq!(row(&rated, "bunk-bracket").verdict, Verdict::Advise);
}

#[test]
fn whether_the_wood_holds() {
    let carried = bunk(&[]);
    // Three equal spans: 0.1 w L² over the inner supports, 0.6 w L beside the outer ones.
    assert_relative_eq!(
        carried.moment.value.value / (1.0 / of(1.0, "lb") * 0.0254),
        -4000.0,
        max_relative = EXACT
    );
    assert_relative_eq!(pounds(carried.shear.value).abs(), 600.0, max_relative = EXACT);
    let at = inches(carried.moment.station);
    assert!((at - 190.0).abs() < 1e-6 || (at - 230.0).abs() < 1e-6, "{at}");
    // S = 3.5·8.11278²/6 = 38.3930 in³, 4000/38.3930 = 104.185 psi; sideways 8.11278·3.5²/6 = 16.5636 in³,
    // 4000·0.324920/16.5636 = 78.4660 psi.
    assert_relative_eq!(of(carried.stress.unwrap().value.si(), "psi"), 104.185, max_relative = FIGURES);
    assert_relative_eq!(of(carried.side_stress.unwrap().si(), "psi"), 78.4660, max_relative = FIGURES);
    // 1.5·600/(3.5·8.11278·0.951057) = 33.3270 psi
    assert_relative_eq!(of(carried.shear_stress.unwrap().value.si(), "psi"), 33.3270, max_relative = FIGURES);
    // I = 3.5·8.11278³/12 = 155.739 in⁴, E' = 0.9·1.4e6: 0.0068838·25·40⁴/(1.26e6·155.739) = 0.002_245_16 in; the
    // coefficient of the end spans is exact to five figures (0.0069 in the handbook).
    let deflection = inches(carried.deflection.unwrap().value);
    assert_relative_eq!(deflection, 0.002_245_16, max_relative = 1e-4);

    let found = assessed(&[]);
    assert_relative_eq!(load(&found, "bunk-bending", "psi"), 182.651, max_relative = FIGURES);
    // 800 × 0.9 × 1.0 (800·1.1 = 880 ≤ 1150) × 1.1 = 792 psi; 175 × 0.9 × 0.97 = 152.775 psi
    assert_relative_eq!(max(&found, "bunk-bending", "psi"), 792.0, max_relative = EXACT);
    assert_relative_eq!(max(&found, "bunk-shear", "psi"), 152.775, max_relative = EXACT);
    // 40/360 in
    assert_relative_eq!(max(&found, "bunk-deflection", "in"), 0.111_111, max_relative = FIGURES);

    // Twice the static loads for the road: on wood, brackets and crossmembers, not on the hull.
    let road = assessed(&["policy.road_factor=2"]);
    assert_relative_eq!(load(&road, "bunk-bending", "psi"), 365.302, max_relative = FIGURES);
    assert_relative_eq!(load(&road, "crossmember-2", "lb"), 2200.0, max_relative = EXACT);
    assert_relative_eq!(load(&road, "bunk-bracket", "lb"), 714.824, max_relative = FIGURES);
    assert_relative_eq!(load(&road, "bunk-pressure", "psi"), 7.14286, max_relative = FIGURES);
}

#[test]
fn support_at_the_transom() {
    // Support could reach 290 in, the bunks end at 270; the motor's 1000 lb lie 310 − 270 = 40 in behind them.
    let on_bunks = loads(&[]);
    assert_abs_diff_eq!(inches(on_bunks.overhang.unwrap()), 20.0, epsilon = 1e-6);
    let stern = on_bunks.stern.unwrap();
    assert_relative_eq!(pounds(stern.weight), 1000.0, max_relative = EXACT);
    assert_relative_eq!(stern.moment.value * of(1.0, "lb") / 0.0254, 40000.0, max_relative = EXACT);
    // Bunks on to 300 in hold the hull no farther aft than it can bear: 1000 lb, 310 − 290 = 20 in behind that.
    let moment = |changes: &[&str]| loads(changes).stern.unwrap().moment.value * of(1.0, "lb") / 0.0254;
    assert_relative_eq!(moment(&["trailer.bunks.aft_end=300 in"]), 20000.0, max_relative = EXACT);
    // 30 in farther aft they touch from 180 to 290 in, the boat 25 in ahead of the middle, past a sixth: 3·(55 − 25) =
    // 90 in bear, to 270.
    assert_relative_eq!(moment(&["shift.bunks=30 in"]), 40000.0, max_relative = EXACT);
    // The transom stands at 300 in: 30 in hang out, more than 12.
    let found = assessed(&[]);
    assert_abs_diff_eq!(load(&found, "bunk-transom-support", "in"), 30.0, epsilon = 1e-6);
    assert_eq!(row(&found, "bunk-transom-support").verdict, Verdict::Fail);
    // The bunks 18 in aft end within 2 in of where support can, 10 in ahead of the transom.
    let moved = assessed(&["shift.bunks=18 in"]);
    assert_abs_diff_eq!(load(&moved, "bunk-transom-support", "in"), 12.0, epsilon = 1e-6);
    assert_eq!(row(&moved, "bunk-transom-support").verdict, Verdict::Pass);
    // An inch less: past what is wanted, and past 12 in as well.
    let less = assessed(&["shift.bunks=17 in"]);
    assert_eq!(row(&less, "bunk-transom-support").verdict, Verdict::Fail);
    // Where support could end 4 in from the transom, 6 in are wanted and 12 are the most.
    let wanted = assessed(&["boat.hull.support_from=4 in", "shift.bunks=23 in"]);
    assert_eq!(row(&wanted, "bunk-transom-support").verdict, Verdict::Advise);
    assert_abs_diff_eq!(row(&wanted, "bunk-transom-support").max.unwrap().si(), 6.0 * 0.0254, epsilon = 1e-9);
    // Seven inches are shown against the 6 that advise; 13 against the 12 that fail, not against these 6.
    let shown = |found: &fit::Assessment| {
        let by = row(found, "bunk-transom-support").deciding();
        [by.max, by.margin].map(|amount| (amount.unwrap().si() / 0.0254 * 1e6).round() / 1e6)
    };
    assert_eq!(shown(&wanted), [6.0, -1.0]);
    assert_eq!(shown(&assessed(&["boat.hull.support_from=4 in", "shift.bunks=17 in"])), [12.0, -1.0]);
}

#[test]
fn where_each_edge_lands() {
    let [port, starboard] = fit::landings(rig(&[]).proposed()).unwrap();
    assert_eq!((port.strake.as_deref(), starboard.strake.as_deref()), (Some("outer"), Some("outer")));
    assert_abs_diff_eq!(inches(port.miss), 0.0, epsilon = EXACT);
    let apart = crate::bunks::rigs::PLAIN
        .replace("half_spacing = \"31 1/2 in\"\ntop", "port = \"29 in\"\nstarboard = \"41 in\"\ntop");
    let rig = bunkline::Rig::read("apart", &apart, &[] as &[&str]).expect("it reads");
    let [port, starboard] = fit::landings(rig.proposed()).unwrap();
    assert_abs_diff_eq!(inches(port.miss), -2.5, epsilon = EXACT);
    // Nearer to the chine at 43 in than to the strake.
    assert_eq!(starboard.strake, None);
    assert_abs_diff_eq!(inches(starboard.miss), -2.0, epsilon = EXACT);
    // Their mean of 35 in gives the keel: 34 − 35·0.324920 = 22.6278.
    assert_abs_diff_eq!(inches(rig.proposed().keel_on_bunks().unwrap()), 22.6278, epsilon = 5e-5);
}

#[test]
fn a_spacing_known_on_one_side_asks_for_the_other() {
    let one = crate::bunks::rigs::PLAIN.replace("half_spacing = \"31 1/2 in\"\ntop", "port = \"29 in\"\ntop");
    let rig = bunkline::Rig::read("one", &one, &[] as &[&str]).expect("it reads");
    assert_eq!(fit::half_spacings(rig.proposed()).unwrap_err().0[0].to_string(), "trailer.bunks.starboard");
}

#[test]
fn what_clears_what() {
    let found = assessed(&[]);
    // 23.7650 − 15
    assert_abs_diff_eq!(load(&found, "clearance-keel-1", "in"), 8.7650, epsilon = 5e-5);
    // The propeller hangs at 288 in and 23.7650 − 6 = 17.7650; the last crossmember, at 295, is passed on the way.
    assert_abs_diff_eq!(load(&found, "clearance-gear-propeller", "in"), 2.7650, epsilon = 5e-5);
    // Without that one only the ground is left.
    let ground = assessed(&["trailer.crossmembers.5.station=280 in"]);
    assert_abs_diff_eq!(load(&ground, "clearance-gear-propeller", "in"), 17.7650, epsilon = 5e-5);
    // 10 in to one side a straight crossmember stands 15 + 7·10/31.5 = 17.2222: 0.5428 left.
    let aside = assessed(&["boat.low_points.propeller.side=-10 in"]);
    assert_abs_diff_eq!(load(&aside, "clearance-gear-propeller", "in"), 0.5428, epsilon = 5e-5);

    // Over the fender's edge the bottom stands at 23.7650 + 44·0.324920 = 38.0615; sideways there is 1 in.
    assert_abs_diff_eq!(load(&found, "clearance-fender", "in"), 4.0615, epsilon = 5e-5);
    // While loading, 2 in to one side and 1 deg out of line, 75 in from the straight run's middle:
    // 23.7650 + 42·0.324920 − 75·0.0174551 − 34 = 2.1025.
    let loading = [
        "policy.side_play=2 in",
        "policy.loading_trim=1 deg",
        "trailer.fenders.forward_end=140 in",
        "trailer.fenders.aft_end=290 in",
    ];
    assert_abs_diff_eq!(load(&assessed(&loading), "clearance-fender", "in"), 2.1025, epsilon = 5e-5);
    // That decides how far the boat could come down, before the propeller's 2.7650 does.
    let lowest = fit::lowest(rig(&loading).proposed()).unwrap().unwrap();
    assert_eq!(lowest.decides, fit::Decides::Check("clearance-fender".into()));
    assert_abs_diff_eq!(inches(lowest.rise), -2.1025, epsilon = 5e-5);
    assert_abs_diff_eq!(inches(lowest.keel.unwrap()), 23.7650 - 2.1025, epsilon = 1e-4);
    // The spacers are 2 in: none is needed then.
    assert_eq!(lowest.spacer.si(), 0.0);
    // Packing of 2 in would let the bunks down no farther than that.
    let packed = [&loading[..], &["trailer.crossmembers.2.top=22 3/4 in"]].concat();
    let lowest = fit::lowest(rig(&packed).proposed()).unwrap().unwrap();
    assert_eq!(lowest.decides, fit::Decides::Crossmember(1));
    assert_abs_diff_eq!(inches(lowest.rise), -2.0, epsilon = EXACT);
    // With 3 in of clearance wanted the propeller must rise by 0.2350, the hull over the fender by 0.8975.
    let wanted = [&loading[..], &["policy.clearance=3 in"]].concat();
    let lowest = fit::lowest(rig(&wanted).proposed()).unwrap().unwrap();
    assert_eq!(lowest.decides, fit::Decides::Check("clearance-fender".into()));
    assert_abs_diff_eq!(inches(lowest.rise), 0.8975, epsilon = 5e-5);
    // So high it just clears: the bunks' tops at 34 + 0.8975, on spacers of 2 + 0.8975.
    assert_abs_diff_eq!(inches(lowest.top.unwrap()), 34.8975, epsilon = 1e-4);
    assert_abs_diff_eq!(inches(lowest.spacer), 2.8975, epsilon = 1e-4);
}

#[test]
fn a_keel_height_that_contradicts_the_bunks_counts_as_the_lower_of_both() {
    let keel = |stated: &str| {
        let text = crate::bunks::rigs::PLAIN
            .replace("[trailer]\n", &format!("[trailer]\nkeel_height = \"{stated}\"\n"));
        bunkline::Rig::read("plain", &text, &[] as &[&str]).expect("it reads")
    };
    let clear = |stated: &str| inches(fit::keel_clearance(keel(stated).proposed(), 0).unwrap());
    // The bunks give 23.7650. A tape's error off that, the file's holds: 24 − 15.
    assert_abs_diff_eq!(clear("24 in"), 9.0, epsilon = EXACT);
    assert_abs_diff_eq!(clear("26 in"), 8.7650, epsilon = 5e-5);
    assert_abs_diff_eq!(clear("20 in"), 5.0, epsilon = EXACT);
    // Whatever was measured, the bunks rise as the boat does: the propeller at 20 − 6 = 14 in, 1 in under the last
    // crossmember's 15.
    let lowest = fit::lowest(keel("20 in").proposed()).unwrap().unwrap();
    assert_eq!(lowest.decides, fit::Decides::Check("clearance-gear-propeller".into()));
    assert_abs_diff_eq!(inches(lowest.rise), 1.0, epsilon = EXACT);
    assert_abs_diff_eq!(inches(lowest.top.unwrap()), 35.0, epsilon = EXACT);
}

#[test]
fn the_lowest_boat_is_not_told_while_a_clearance_is_unknown() {
    let silent = crate::bunks::rigs::PLAIN.replacen("centre = \"15 in\"\n", "", 1);
    let rig = bunkline::Rig::read("plain", &silent, &[] as &[&str]).expect("it reads");
    let missing = fit::lowest(rig.proposed()).unwrap_err();
    assert_eq!(missing.0[0].to_string(), "trailer.crossmembers.1.centre");
}

#[test]
fn a_proposed_spacer_lifts_bunks_and_boat() {
    let rig = rig(&["trailer.bunks.spacer=3 1/4 in"]);
    // 2 in before: 34 + 1.25, 23.7650 + 1.25.
    assert_abs_diff_eq!(inches(rig.proposed().trailer.bunks.top.unwrap()), 35.25, epsilon = EXACT);
    assert_abs_diff_eq!(inches(rig.proposed().trailer.keel_height.unwrap()), 25.0150, epsilon = 5e-5);
    let both = crate::bunks::rigs::rig(&["trailer.bunks.spacer=3 1/4 in", "trailer.bunks.top=34 in"]);
    assert_abs_diff_eq!(inches(both.proposed().trailer.bunks.top.unwrap()), 34.0, epsilon = EXACT);
}

#[test]
fn bunks_on_fewer_than_two_of_the_crossmembers_hold_no_boat() {
    let aside = ["trailer.crossmembers.1.station=100 in", "trailer.crossmembers.2.station=110 in"];
    let one_left = [&aside[..], &["trailer.crossmembers.3.station=120 in"]].concat();
    // On two, at 230 and 270 in, they stand.
    assert!(row(&assessed(&aside), "bunk-contact").load.is_some());
    let found = assessed(&one_left);
    let contact = row(&found, "bunk-contact");
    assert_eq!((contact.verdict, contact.load), (Verdict::Fail, None));
    assert_eq!(found.verdict, fit::RigVerdict::Fail);
}

#[test]
fn packing_on_the_crossmembers() {
    // 34 − 9.25 − 22
    let packing = fit::packing(rig(&[]).proposed(), 0).unwrap();
    assert_abs_diff_eq!(inches(packing), 2.75, epsilon = EXACT);
    // Tilted flat, its inner edge lowest: 34 − 3.5·0.951057 − 9.25·0.309017 − 22 = 5.81289
    let packing = fit::packing(rig(&["trailer.bunks.lay=flat"]).proposed(), 0).unwrap();
    assert_abs_diff_eq!(inches(packing), 5.81289, epsilon = 5e-6);
}

#[test]
fn bow_bunks_and_side_guides() {
    let rig = rig(&[]);
    let bow = fit::bow_bunks(rig.proposed()).unwrap();
    // √(40² + 10²) = 41.2311; 150 − 100 = 50; atan(10/40) = 14.0362 deg
    assert_abs_diff_eq!(inches(bow.length), 41.2311, epsilon = 5e-5);
    assert_abs_diff_eq!(inches(bow.gap.unwrap()), 50.0, epsilon = EXACT);
    assert_abs_diff_eq!(bow.incline.si().to_degrees(), 14.0362, epsilon = 5e-5);
    let guides = fit::guides(rig.proposed()).unwrap();
    // 48 − 5 − (23.7650 + 19) = 0.2350; 48 − 23.7650 = 24.2350; 45 − 43 = 2
    assert_abs_diff_eq!(inches(guides.lower_edge_above_chine), 0.2350, epsilon = 5e-5);
    assert_abs_diff_eq!(inches(guides.touches_above_keel), 24.2350, epsilon = 5e-5);
    assert_abs_diff_eq!(inches(guides.gap_at_chine.unwrap()), 2.0, epsilon = EXACT);
    // The beam of 86 in is the chine's.
    assert_abs_diff_eq!(inches(guides.gap_at_beam.unwrap()), 2.0, epsilon = EXACT);
}

#[test]
fn a_boat_off_the_centreline_loads_one_bunk_more() {
    // 6.3 in to starboard between bunks at 31.5: (31.5 + 6.3)/63 = 0.6 of it.
    let off = bunk(&["boat.weights.hull.side=6.3 in", "boat.weights.motor.side=6.3 in"]);
    let share = loads(&["boat.weights.hull.side=6.3 in", "boat.weights.motor.side=6.3 in"]).share.unwrap();
    assert_abs_diff_eq!(share, 0.6, epsilon = EXACT);
    assert_relative_eq!(pounds(off.reactions[1].unwrap()), 1320.0, max_relative = EXACT);
}

#[test]
fn the_nearer_of_two_uneven_bunks_carries_more() {
    // On the centreline between bunks at 29 and 41 in: 41/70 on the nearer.
    let apart = crate::bunks::rigs::PLAIN
        .replace("half_spacing = \"31 1/2 in\"\ntop", "port = \"29 in\"\nstarboard = \"41 in\"\ntop");
    let rig = bunkline::Rig::read("apart", &apart, &[] as &[&str]).expect("it reads");
    let found = fit::examine(&rig).expect("it rests");
    assert_relative_eq!(found.assessment.bunks[0].share.clone().unwrap(), 0.585_714, max_relative = 1e-6);
    // It lies 6 in off the centreline, or heels by atan-small 12/70·0.324920 = 0.055701 rad = 3.1914 deg.
    let uneven = found.cautions.iter().find_map(|caution| match caution {
        fit::Caution::UnevenBunks { off_centre, heel } => Some((inches(*off_centre), heel.si().to_degrees())),
        _ => None,
    });
    let (off_centre, heel) = uneven.expect("a caution");
    assert_abs_diff_eq!(off_centre, 6.0, epsilon = EXACT);
    assert_abs_diff_eq!(heel, 3.1914, epsilon = 5e-5);
}

#[test]
fn side_thrust_bends_the_bunk_outward_too() {
    // Down 0.00224516 in; outward 0.324920·(8.11278/3.5)² = 1.74574 times as much: √(1 + 1.74574²) = 2.01188 times.
    let carried = bunk(&[]);
    let times = inches(carried.whole_deflection.unwrap()) / inches(carried.deflection.unwrap().value);
    assert_relative_eq!(times, 2.01188, max_relative = FIGURES);
    assert_relative_eq!(load(&assessed(&[]), "bunk-deflection", "in"), 0.004_516_99, max_relative = 1e-4);
    // Flat: at right angles to the tilt, 1/0.951057.
    let flat = bunk(&["trailer.bunks.lay=flat"]);
    let times = inches(flat.whole_deflection.unwrap()) / inches(flat.deflection.unwrap().value);
    assert_relative_eq!(times, 1.051_462, max_relative = FIGURES);
}

#[test]
fn a_bevel_that_leaves_less_depth_than_breadth_still_bends_up_and_down() {
    // 4x4 at 18 deg: 3.5 − 1.13722 = 2.36278 deep, I = 3.5·2.36278³/12 = 3.84728 in⁴; the 4x10's was 155.739, so
    // with the same elasticity it bends 40.4803 times as far.
    let bent = |changes: &[&str]| inches(bunk(changes).deflection.unwrap().value);
    assert_relative_eq!(bent(&["trailer.bunks.board=4x4"]) / bent(&[]), 40.4803, max_relative = 1e-4);
}

#[test]
fn a_twisted_bottom_thrusts_with_its_steepest_deadrise() {
    let twisted = crate::bunks::rigs::PLAIN.replace(
        "deadrise = \"18 deg\"",
        "deadrise = [ { station = \"0 in\", deadrise = \"18 deg\" }, { station = \"150 in\", deadrise = \"21 deg\" } ]",
    );
    let rig = bunkline::Rig::read("twisted", &twisted, &[] as &[&str]).expect("it reads");
    let found = fit::examine(&rig).expect("it rests");
    // 1100·tan 21° = 1100·0.383864 = 422.250 lb
    assert_relative_eq!(load(&found.assessment, "bunk-bracket", "lb"), 422.250, max_relative = FIGURES);
    // Cut to 18.6 deg, 31.5·(0.383864 − 0.336537) = 1.49080 in stand open where it is steepest.
    let gap = found.cautions.iter().find_map(|caution| match caution {
        fit::Caution::BottomTwists(gap) => Some(inches(*gap)),
        _ => None,
    });
    assert_abs_diff_eq!(gap.expect("a caution"), 1.49080, epsilon = 5e-5);
}

#[test]
fn a_crossmember_that_drops_between_bunks_outside_the_rails() {
    // Bunks' middles at 29.75, rails at 28: −1.75 outside, −1.75 − 0.324920·(12 + 7) = −7.92348 over the middle, which
    // lies 7 in below the bracket: 43113.8/7.92348 = 5441.3 lb.
    let found = assessed(&["trailer.rail_half_spacing=28 in"]);
    assert_relative_eq!(max(&found, "crossmember-1", "lb"), 5441.3, max_relative = 1e-4);
    // Straight across: −1.75 − 0.324920·12 = −5.64904: 7632.1 lb.
    let straight = assessed(&["trailer.rail_half_spacing=28 in", "trailer.crossmembers.1.centre=22 in"]);
    assert_relative_eq!(max(&straight, "crossmember-1", "lb"), 7632.1, max_relative = 1e-4);
}

#[test]
fn a_boat_that_misses_its_bunks_fails_and_nothing_else_is_told_of_them() {
    let found = assessed(&["shift.bunks=-150 in"]);
    assert_eq!(row(&found, "bunk-contact").verdict, Verdict::Fail);
    assert_eq!(row(&found, "bunk-bending").verdict, Verdict::NotChecked);
}

#[test]
fn the_hull_flares_out_over_a_fender_that_reaches_above_its_chine() {
    // The chine stands at 23.7650 + 19 = 42.7650 in, the fender to 45. The half beam of 45 leaves 46.5 − 45, where the
    // chine would leave 3.5; over it there is nothing: 23.7650 + 46.5·0.324920 − 45 = −6.1262.
    let changes =
        ["boat.beam=90 in", "trailer.fenders.half_breadth=46 1/2 in", "trailer.fenders.height=45 in"];
    assert_abs_diff_eq!(load(&assessed(&changes), "clearance-fender", "in"), 1.5, epsilon = EXACT);
    // With 2 in wanted the chine must come up to the fender's top, 45 − 42.7650, where it leaves its 3.5.
    let changes = [&changes[..], &["policy.clearance=2 in"]].concat();
    let lowest = fit::lowest(rig(&changes).proposed()).unwrap().unwrap();
    assert_abs_diff_eq!(inches(lowest.rise), 2.2350, epsilon = 5e-5);
}

#[test]
fn fenders_go_with_the_axles_and_with_a_tongue_drawn_in() {
    // Ends at 200 and 260 in, the straight run's middle at 215: 45 in off it, and 2 deg sink it by 45·0.0349208 =
    // 1.57144. At rest there are 4.0615 in.
    let base =
        ["trailer.fenders.forward_end=200 in", "trailer.fenders.aft_end=260 in", "policy.loading_trim=2 deg"];
    let clear = |more: &[&str]| load(&assessed(&[&base[..], more].concat()), "clearance-fender", "in");
    assert_abs_diff_eq!(clear(&[]), 2.4900, epsilon = 1e-4);
    // 55 in: 1.92064. Drawn in by 5 in, 40 in: 1.39683.
    assert_abs_diff_eq!(clear(&["shift.axles=10 in"]), 2.1409, epsilon = 1e-4);
    assert_abs_diff_eq!(clear(&["shift.tongue=5 in"]), 2.6647, epsilon = 1e-4);
}

#[test]
fn the_lesser_of_a_crossmembers_rating_and_its_section() {
    // The section bears 6898.2 lb, as above.
    let limit = |rating: &str| {
        max(&assessed(&[&format!("trailer.crossmembers.1.rating={rating}")]), "crossmember-1", "lb")
    };
    assert_relative_eq!(limit("1000 lb"), 1000.0, max_relative = EXACT);
    assert_relative_eq!(limit("9000 lb"), 6898.2, max_relative = FIGURES);
}

#[test]
fn the_worse_of_two_uneven_bunks_decides() {
    let apart = crate::bunks::rigs::PLAIN
        .replace("half_spacing = \"31 1/2 in\"\ntop", "port = \"29 in\"\nstarboard = \"41 in\"\ntop");
    let rig = bunkline::Rig::read("apart", &apart, &[] as &[&str]).expect("it reads");
    let found = fit::assess(&rig).expect("it rests");
    // Port 2.5 in inside its strake, starboard 2 in inside the chine.
    assert_abs_diff_eq!(load(&found, "bunk-landing", "in"), -2.5, epsilon = EXACT);
    // Middles at 27.25 and 39.25 in, rails at 36: 8.75 outside port; over the middle of the crossmember, 19 in below the
    // starboard bunk's top, −3.25 − 0.324920·19 = −9.42348: 43113.8/9.42348 = 4575.1 lb.
    assert_relative_eq!(max(&found, "crossmember-1", "lb"), 4575.1, max_relative = FIGURES);
}

#[test]
fn a_wide_board_of_southern_pine() {
    // 2x12: 750 × 0.9 × 1.0 (750 ≤ 1150), its size counted already.
    assert_relative_eq!(
        max(&assessed(&["trailer.bunks.board=2x12"]), "bunk-bending", "psi"),
        675.0,
        max_relative = EXACT
    );
}

#[test]
fn a_floor_under_the_pressure_decides() {
    let low = assessed(&["policy.bunk_pressure.min=10 psi"]);
    assert_eq!(row(&low, "bunk-pressure").verdict, Verdict::Advise);
    assert_eq!(row(&assessed(&["policy.bunk_pressure.min=5 psi"]), "bunk-pressure").verdict, Verdict::Pass);
}
