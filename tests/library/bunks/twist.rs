//! A bottom whose deadrise differs along it: only where it lies on the bunks does it count.

use crate::bunks::rigs::{PLAIN, assessed, inches, of, rig, row};
use approx::{assert_abs_diff_eq, assert_relative_eq};
use bunkline::Rig;
use bunkline::fit::{self, Amount, assess};
use bunkline::quantity::{Length, Quantity};
use proptest::prelude::*;

/// How many points of the hull are lowered.
const POINTS: u32 = 20_000;
/// What is exact but for rounding, as a share.
const EXACT: f64 = 1e-9;

/// The plain rig with a list of stations in inches and deadrises in degrees. Its contact runs from 30 to 150 in.
fn listed(list: &[(f64, f64)], changes: &[String]) -> Rig {
    let entries: Vec<String> =
        list.iter().map(|(s, d)| format!("{{ station = \"{s} in\", deadrise = \"{d} deg\" }}")).collect();
    let text = PLAIN.replace("deadrise = \"18 deg\"", &format!("deadrise = [ {} ]", entries.join(", ")));
    Rig::read("listed", &text, changes).expect("it reads")
}

/// The loads of all rows by their ids, and their limits.
fn figures(rig: &Rig) -> Vec<(String, [Option<f64>; 3])> {
    let rows = assess(rig).expect("it rests").rows;
    let si = |amount: Option<Amount>| amount.map(Amount::si);
    rows.iter().map(|row| (row.id(), [si(row.load), si(row.min), si(row.max)])).collect()
}

fn alike(one: &Rig, other: &Rig) {
    let (one, other) = (figures(one), figures(other));
    assert_eq!(one.len(), other.len());
    for ((id, one), (_, other)) in one.iter().zip(&other) {
        for (a, b) in one.iter().zip(other) {
            let near = match (a, b) {
                (Some(a), Some(b)) => (a - b).abs() <= EXACT * a.abs().max(1.0),
                (a, b) => a.is_none() && b.is_none(),
            };
            assert!(near, "{id}: {a:?} {b:?}");
        }
    }
}

#[test]
fn a_bottom_that_flattens_ahead_of_its_bunks_lies_as_if_it_did_not() {
    // 18 deg up to where the contact ends, at 150 in, and flat as a raft ahead of it.
    let flattens = listed(&[(0.0, 18.0), (150.5, 18.0), (160.0, 2.0)], &[]);
    alike(&flattens, &rig(&[]));
    assert_abs_diff_eq!(inches(flattens.proposed().trailer.keel_height.unwrap()), 23.7650, epsilon = 5e-5);
}

#[test]
fn the_gap_where_the_bottom_twists() {
    // 18 + 3·30/150 = 18.6 deg at the contact's aft end, tan 0.336537, and 21 deg, 0.383864, at its forward one; the
    // crossmembers at 190 and 230 in stand 110 and 70 in ahead of the transom: 20.2 and 19.4 deg, 0.367928 and 0.352156.
    let twisted = listed(&[(0.0, 18.0), (150.0, 21.0)], &[]).proposed().clone();
    let gap = |station: f64| {
        let station = Length::from_si(station * 0.0254);
        fit::standoff(&twisted, station).unwrap().map(inches)
    };
    // 31.5·(0.383864 − 0.336537), and so on.
    assert_abs_diff_eq!(gap(150.0).unwrap(), 1.49080, epsilon = 5e-5);
    assert_abs_diff_eq!(gap(190.0).unwrap(), 0.98882, epsilon = 5e-5);
    assert_abs_diff_eq!(gap(230.0).unwrap(), 0.49198, epsilon = 5e-5);
    assert_abs_diff_eq!(gap(270.0).unwrap(), 0.0, epsilon = 1e-9);
    assert_eq!(gap(295.0), None);
    // Cut to 18.6 deg, it lies at 34 − 31.5·0.336537 = 23.3991 in.
    assert_abs_diff_eq!(inches(twisted.trailer.keel_height.unwrap()), 23.3991, epsilon = 5e-5);
}

#[test]
fn a_boat_moved_to_where_its_bottom_is_steeper_comes_down() {
    let list = [(0.0, 18.0), (100.0, 18.0), (200.0, 28.0)];
    let keel = |changes: &[&str]| {
        let changes: Vec<String> = changes.iter().map(ToString::to_string).collect();
        inches(listed(&list, &changes).proposed().trailer.keel_height.unwrap())
    };
    // The bunks, 80 in long, touch it from 70 in ahead of the transom on. 40 in aft they begin at 110 in, where it is 19
    // deg: 34 − 31.5·0.344328 = 23.1537.
    let short = "trailer.bunks.aft_end=230 in";
    assert_abs_diff_eq!(keel(&[short]), 23.7650, epsilon = 5e-5);
    assert_abs_diff_eq!(keel(&[short, "shift.boat=40 in"]), 23.1537, epsilon = 5e-5);
    // A measured keel comes down as much: 24 − (23.7650 − 23.1537).
    let stated = "trailer.keel_height=24 in";
    assert_abs_diff_eq!(keel(&[short, stated]), 24.0, epsilon = 1e-9);
    // Where it no longer lies on them it stays where it was measured.
    assert_abs_diff_eq!(keel(&[short, "shift.boat=-300 in"]), 23.7650, epsilon = 5e-5);
}

#[test]
fn a_list_asks_for_what_tells_where_the_bunks_lie() {
    let list = "deadrise = [ { station = \"0 in\", deadrise = \"18 deg\" }, { station = \"150 in\", deadrise = \"21 deg\" } ]";
    let text = PLAIN.replace("deadrise = \"18 deg\"", list).replace("straight_run = \"160 in\"\n", "");
    let rig = Rig::read("silent", &text, &[] as &[&str]).expect("it reads");
    let missing = fit::deadrise(rig.proposed()).unwrap_err();
    assert_eq!(missing.0[0].to_string(), "boat.hull.straight_run");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 100, failure_persistence: None, ..ProptestConfig::default() })]

    /// What lies outside the contact changes no figure.
    #[test]
    fn only_the_contact_counts(
        inside in [14.0..24.0_f64, 14.0..24.0_f64, 14.0..24.0_f64],
        outside in [[2.0..30.0_f64, 2.0..30.0_f64], [2.0..30.0_f64, 2.0..30.0_f64]],
    ) {
        let [aft, middle, forward] = inside;
        let with = |[transom, bow]: [f64; 2]| {
            listed(&[(0.0, transom), (30.0, aft), (85.0, middle), (150.0, forward), (240.0, bow)], &[])
        };
        alike(&with(outside[0]), &with(outside[1]));
    }

    /// A hull lowered point by point comes to rest where the first one touches.
    #[test]
    fn the_keel_is_that_of_a_hull_lowered_by_points(
        deadrises in [12.0..24.0_f64, 12.0..24.0_f64, 12.0..24.0_f64, 12.0..24.0_f64],
        boat in -40.0..40.0_f64,
    ) {
        let stations = [0.0, 50.0, 100.0, 170.0];
        let list: Vec<(f64, f64)> = stations.into_iter().zip(deadrises).collect();
        let rig = listed(&list, &[format!("shift.boat={boat} in")]);
        let transom = 300.0 + boat;
        let bottom = |station: f64| {
            let i = (0..2).find(|i| station <= stations[i + 1]).unwrap_or(2);
            let share = (station - stations[i]) / (stations[i + 1] - stations[i]);
            deadrises[i] + (deadrises[i + 1] - deadrises[i]) * share
        };
        // Bunks from 150 to 270 in; the bottom bears from 10 to 160 in ahead of the transom.
        let from = (transom - 270.0_f64).max(10.0);
        let to = (transom - 150.0_f64).min(160.0);
        let keels = (0..=POINTS).map(|i| {
            let station = from + (to - from) * f64::from(i) / f64::from(POINTS);
            34.0 - 31.5 * bottom(station).to_radians().tan()
        });
        let touches = keels.fold(f64::NEG_INFINITY, f64::max);
        // Between two points, 0.006 in apart, the bottom turns by less than 0.24 deg/in of it: 31.5·0.006·0.0042·1.2.
        assert_abs_diff_eq!(inches(rig.proposed().trailer.keel_height.unwrap()), touches, epsilon = 1e-3);
    }
}

#[test]
fn bending_asks_for_no_modulus() {
    let wood = "wood = \"southern-pine-2\"";
    let text = PLAIN.replace(wood, "bending = \"100 psi\"\nshear = \"100 psi\"");
    let found = assess(&Rig::read("stiff", &text, &[] as &[&str]).expect("it reads")).expect("it rests");
    // The hand's stress of 182.651 psi against 100.
    let bending = row(&found, "bunk-bending");
    assert_eq!(bending.verdict, fit::Verdict::Advise);
    assert_relative_eq!(of(bending.load.unwrap().si(), "psi"), 182.651, max_relative = 3e-5);
    let asks = row(&found, "bunk-deflection").missing;
    assert_eq!(asks.iter().map(ToString::to_string).collect::<Vec<_>>(), ["trailer.bunks.modulus"]);
    assert_eq!(row(&assessed(&[]), "bunk-deflection").missing, []);
}
