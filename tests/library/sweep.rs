//! A sweep finds at each point what reading the file with the point's values as last changes and checking it finds.

use bunkline::fit::{self, Amount, Fold, RigVerdict, Row, Scope};
use bunkline::quantity::Quantity;
use bunkline::rig::Rig;
use bunkline::study::sweep::{Axis, Best, Point, Sweep, Unasked};
use rayon::ThreadPool;
use std::ops::ControlFlow;

const AS_FOUND: &str = include_str!("../../demo-data/survey-launch-as-found.toml");
const AS_CHANGED: &str = include_str!("../../demo-data/survey-launch-as-changed.toml");
const DAY_LAUNCH: &str = include_str!("../../demo-data/electric-day-launch.toml");
const SKIFF: &str = include_str!("../../demo-data/fishing-skiff.toml");
const CUTTER: &str = include_str!("../../demo-data/pilot-cutter.toml");
const CRAB_BOAT: &str = include_str!("../../demo-data/crab-boat.toml");
const WORK_BOAT: &str = include_str!("../rigs/work-boat.toml");

fn level(text: &str) -> &str {
    text.split("[[ramps]]").next().unwrap_or(text)
}

fn read(text: &str, changes: &[String]) -> Rig {
    Rig::read("rig", text, changes).expect("it reads")
}

fn axes(rig: &Rig, texts: &[&str]) -> Vec<Axis> {
    texts.iter().map(|text| Axis::parse(rig, text).expect(text)).collect()
}

fn pool(threads: usize) -> ThreadPool {
    rayon::ThreadPoolBuilder::new().num_threads(threads).build().expect("threads")
}

/// Every check of a rig as a column of its own.
fn every_check(rig: &Rig) -> Vec<String> {
    let mut columns: Vec<String> = vec!["verdict".to_string()];
    columns.extend(Scope::all(rig.proposed()).rows().iter().map(|asked| format!("{}.load", asked.id)));
    columns
}

/// All points of a sweep, in their order.
fn points(sweep: &Sweep<'_>, threads: usize) -> Vec<Point> {
    let mut all = Vec::new();
    let keep = |chunk: &mut Vec<u64>, point: &Point| chunk.push(point.row);
    sweep.run(&pool(threads), keep, |chunk, count| {
        assert_eq!(chunk.len() as u64, count);
        all.extend(chunk);
        ControlFlow::Continue(())
    });
    all.into_iter().map(|row| sweep.point(row)).collect()
}

fn bits(value: Option<f64>) -> Option<u64> {
    value.map(f64::to_bits)
}

/// The governing load of a row.
fn load(fold: &Fold) -> Option<f64> {
    fold.governing().and_then(|worst| worst.standing.value)
}

/// Compares every check at every point with a reading of the file for that point alone.
fn same_as_checks(text: &str, before: &[&str], vary: &[&str]) {
    let before: Vec<String> = before.iter().map(ToString::to_string).collect();
    let rig = read(text, &before);
    let sweep = Sweep::new(&rig, axes(&rig, vary), None, Some(&every_check(&rig)), false).expect("a sweep");
    let found = points(&sweep, 2);
    assert_eq!(found.len() as u128, sweep.rows());
    for point in found {
        let settings = sweep.settings(point.row);
        let changes = settings.iter().map(|setting| format!("{}={}", setting.path, setting.text));
        let changes: Vec<String> = before.iter().cloned().chain(changes).collect();
        let alone = read(text, &changes);
        let alone = fit::assess(&alone).expect("it settles");
        let point = point.found.expect("a rig");
        assert_eq!(point.verdict, alone.verdict, "{changes:?}");
        assert_eq!(point.cases.len(), alone.cases.len());
        let asked = sweep.scope().rows().iter().zip(&point.folds);
        let fold_of = |id: &str| asked.clone().find(|(asked, _)| asked.id == id).map(|(_, fold)| fold);
        for row in &alone.rows {
            let fold = fold_of(&row.id()).expect("every row is asked for");
            let same = bits(load(fold)) == bits(row.load.map(Amount::si))
                && bits(fold.margin().filter(|margin| margin.is_finite()))
                    == bits(row.margin.map(Amount::si))
                && bits(fold.margin_to_fail().filter(|margin| margin.is_finite()))
                    == bits(row.margin_to_fail.map(Amount::si))
                && bits(fold.used()) == bits(row.used.map(Quantity::si))
                && fold.verdict() == row.verdict;
            assert!(same, "{changes:?} {}: {fold:?} {row:?}", row.id());
        }
        // What is asked for beyond that is of crossmembers that are not reached here.
        let rows: Vec<String> = alone.rows.iter().map(Row::id).collect();
        for (asked, fold) in asked.filter(|(asked, _)| !rows.contains(&asked.id)) {
            assert!(asked.id.contains("crossmember") || asked.id.starts_with("clearance-keel"));
            assert_eq!((load(fold), fold.verdict()), (None, fit::Verdict::NotChecked));
        }
        // The least margin by another way: over the report's rows.
        let weighs = |row: &&Row| row.counts && matches!(row.margin_to_fail, Some(Amount::Weight(_)));
        let margins = alone.rows.iter().filter(weighs).filter_map(|row| row.margin_to_fail);
        let least = margins.map(Amount::si).fold(f64::INFINITY, f64::min);
        let told = sweep.least_margin(&point).map(|(_, margin)| margin);
        assert_eq!(told.unwrap_or(f64::INFINITY).to_bits(), least.to_bits());
    }
}

#[test]
fn every_point_is_what_a_check_of_it_finds() {
    same_as_checks(level(AS_FOUND), &[], &["shift.boat=-16in..2in/0.7in"]);
    same_as_checks(level(AS_FOUND), &["shift.boat=3in"], &["trailer.bow_stop=5ft..6ft/1.3in"]);
    same_as_checks(WORK_BOAT, &[], &["shift.axles=-4in..4in/2in", "cases.2.fill.petrol=0%,33%,100%"]);
    same_as_checks(CUTTER, &[], &["shift.boat=-100mm..100mm/17mm"]);
    same_as_checks(DAY_LAUNCH, &[], &["shift.boat=-3in..9in/1in", "shift.tongue=0in,1in"]);
    same_as_checks(SKIFF, &[], &["boat.weights.all.weight=100lb..300lb/50lb"]);
}

#[test]
fn corrections_are_swept_too() {
    same_as_checks(level(AS_FOUND), &[], &["trailer.level_ball_height=19in..21in/0.5in"]);
    same_as_checks(
        level(AS_CHANGED),
        &[],
        &["trailer.axles.all.rating=4000lb..5000lb/250lb", "shift.boat=-1in,0in"],
    );
    same_as_checks(DAY_LAUNCH, &[], &["measured.tongue_weight=300lb..400lb/30lb"]);
    // The trailer's own weight, whose centre follows from its tongue weight.
    same_as_checks(level(AS_FOUND), &[], &["trailer.tongue_weight=200lb..300lb/30lb"]);
    same_as_checks(level(AS_FOUND), &[], &["trailer.weight=2300lb,2400lb,2500lb"]);
}

/// The skiff's items pass and her scales would not: no point passes, as no check of it does. Scales that agree with her 2586 lb
/// take nothing from it.
#[test]
fn figures_that_disagree_leave_a_point_unsure() {
    let scales = ["measured.gross_trailer_weight=6000 lb".to_string()];
    let rig = read(SKIFF, &scales);
    let sweep =
        Sweep::new(&rig, axes(&rig, &["shift.boat=-1in..1in/1in"]), None, None, true).expect("columns");
    for row in 0..3 {
        let found = sweep.point(row).found.expect("a rig").verdict;
        assert_eq!(found, RigVerdict::Unsure);
    }
    for scales in [&[][..], &["measured.gross_trailer_weight=2590 lb".to_string()]] {
        let rig = read(SKIFF, scales);
        let sweep = Sweep::new(&rig, axes(&rig, &["shift.boat=0in"]), None, None, true).expect("columns");
        assert_eq!(sweep.point(0).found.expect("a rig").verdict, RigVerdict::Pass);
    }
}

#[test]
fn ramps_are_crossed_as_a_check_crosses_them() {
    same_as_checks(AS_FOUND, &[], &["shift.boat=-8in..2in/5in"]);
    same_as_checks(AS_FOUND, &[], &["ramps.1.profile.2.grade=9%,12%"]);
}

#[test]
fn only_what_is_asked_for_is_planned() {
    let rig = read(AS_FOUND, &[]);
    let planned = |shown: &[&str]| {
        let shown: Vec<String> = shown.iter().map(ToString::to_string).collect();
        let sweep =
            Sweep::new(&rig, axes(&rig, &["shift.boat=0in"]), None, Some(&shown), false).expect("a sweep");
        let ids: Vec<String> = sweep.scope().rows().iter().map(|asked| asked.id.clone()).collect();
        (ids, sweep.scope().crosses_ramps())
    };
    let ids = |ids: &[&str]| ids.iter().map(ToString::to_string).collect::<Vec<_>>();
    assert_eq!(planned(&["tongue_weight"]), (ids(&["tongue-share"]), false));
    assert_eq!(planned(&["axle-3.used", "axle-1.load"]), (ids(&["axle-1", "axle-3"]), false));
    assert_eq!(planned(&["pitch"]), (ids(&[]), false));
    assert_eq!(planned(&["ramp-tongue.margin"]), (ids(&["ramp-tongue"]), true));
    // Rows over ramps can fail, so the verdict asks for them, unless they are left out.
    let level =
        Sweep::without_ramps(&rig, axes(&rig, &["shift.boat=0in"]), None, None, false).expect("a sweep");
    assert!(!level.scope().crosses_ramps());
    let shown = ["ramp-tongue.load".to_string()];
    let unknown = Sweep::without_ramps(&rig, axes(&rig, &["shift.boat=0in"]), None, Some(&shown), false);
    assert!(unknown.is_err());
    let (verdict, crosses) = planned(&["verdict"]);
    assert!(
        crosses && verdict.contains(&"jack".to_string()) && !verdict.contains(&"axle-tires-1".to_string())
    );
}

#[test]
fn one_case_alone_is_judged_alone() {
    let rig = read(level(AS_FOUND), &[]);
    let alone = fit::assess(&rig.narrowed(None, Some(1))).expect("it settles");
    let sweep = Sweep::new(&rig, axes(&rig, &["shift.boat=0in"]), Some(1), Some(&every_check(&rig)), false)
        .expect("a sweep");
    let found = sweep.point(0).found.expect("a rig");
    for (fold, row) in found.folds.iter().zip(&alone.rows) {
        assert_eq!(bits(load(fold)), bits(row.load.map(Amount::si)), "{}", row.id());
        assert_eq!(fold.verdict(), row.verdict, "{}", row.id());
    }
}

#[test]
fn the_first_axis_varies_slowest() {
    let rig = read(SKIFF, &[]);
    let axes = axes(&rig, &["shift.boat=1in,2in", "shift.axles=3in..5in/1in", "tow.ball_height=17in,18in"]);
    let sweep = Sweep::new(&rig, axes, None, None, false).expect("a sweep");
    assert_eq!(sweep.rows(), 12);
    let places: Vec<Vec<u64>> = (0..12).map(|row| sweep.places(row).collect()).collect();
    assert_eq!(places[..3], [[0, 0, 0], [0, 0, 1], [0, 1, 0]]);
    assert_eq!(places[11], [1, 2, 1]);
    assert!(places.is_sorted());
}

#[test]
fn the_best_point_is_the_one_that_looking_at_all_finds() {
    let rig = read(level(AS_CHANGED), &[]);
    let vary = ["shift.boat=-20in..0in/0.5in", "shift.axles=-6in..6in/1in"];
    let sweep =
        Sweep::new(&rig, axes(&rig, &vary), None, Some(&["pitch".to_string()]), true).expect("a sweep");
    let mut passing = Vec::new();
    for row in 0..u64::try_from(sweep.rows()).expect("few") {
        let changes = sweep.settings(row);
        let changes: Vec<String> = changes.iter().map(|one| format!("{}={}", one.path, one.text)).collect();
        let Ok(alone) = Rig::read("rig", level(AS_CHANGED), &changes) else { continue };
        let Ok(alone) = fit::assess(&alone) else { continue };
        if alone.verdict == fit::RigVerdict::Pass {
            passing.push((row, most_used_first(&alone.rows)));
        }
    }
    for threads in [1, 2, 3] {
        let mut best = Best::default();
        sweep.run(
            &pool(threads),
            |best: &mut Best, point| best.see(&sweep, point),
            |seen, _| {
                best.and(seen);
                ControlFlow::Continue(())
            },
        );
        assert_eq!((best.points, best.passing), (sweep.rows() as u64, passing.len() as u64));
        let row = best.row().expect("some pass");
        let (_, used) = passing.iter().find(|(found, _)| *found == row).expect("it passes");
        for (other, others) in &passing {
            assert!(!is_less(others, used), "{other}: {others:?} against {used:?}");
        }
    }
}

/// How much is used of each check that counts, the most first.
fn most_used_first(rows: &[Row]) -> Vec<f64> {
    let counting = rows.iter().filter(|row| row.counts);
    let mut used: Vec<f64> = counting.filter_map(|row| row.used.map(Quantity::si)).collect();
    used.sort_by(|a, b| b.total_cmp(a));
    used
}

/// Whether less is used here than there: at the first place at which they differ. Shares within 1e-7 are told to be
/// the same, and rounding to steps of that may part two by as much again.
fn is_less(these: &[f64], those: &[f64]) -> bool {
    let differing = these.iter().zip(those).find(|(a, b)| (*a - *b).abs() > 2e-7);
    differing.is_some_and(|(a, b)| a < b)
}

/// The value of the one axis at the best point, in the unit that it is stated in.
fn best_value(text: &str, changes: &[&str], vary: &str) -> f64 {
    let changes: Vec<String> = changes.iter().map(ToString::to_string).collect();
    let rig = read(text, &changes);
    let sweep = Sweep::new(&rig, axes(&rig, &[vary]), None, None, true).expect("a sweep");
    let mut best = Best::default();
    for row in 0..u64::try_from(sweep.rows()).expect("few") {
        best.see(&sweep, &sweep.point(row));
    }
    sweep.axes()[0].series.number(best.row().expect("some pass")).0
}

#[test]
fn where_nothing_changes_the_smallest_move_is_best() {
    // The bow stop's height carries no load, and its check only advises.
    let vary = "trailer.bow_stop_height=46in..50in/0.5in";
    assert_eq!(best_value(CRAB_BOAT, &[], vary), 48.0);
}

#[test]
fn what_no_move_changes_does_not_decide() {
    let vary = "shift.boat=-6in..6in/1in";
    // The trailer's gross weight, 5656 of 5800 lb, is used to 97.5 % wherever the boat sits, and so is nothing else.
    // Next is the tow vehicle's: (2900 + 2350 + V)/6800, where V falls as the boat moves aft: 84 % at 0 in. One inch
    // farther the tongue share of 404/5656 = 7.14 % lies at |7.14 - 9.5|/2.5 = 94 % of its band's half.
    let band = "policy.tongue_share.max=12 %";
    // The axles with one lifted may be used to twice their rating; here only the road's limits are compared.
    let lifted = "policy.advises=[\"lifted-*\"]";
    assert_eq!(best_value(CRAB_BOAT, &[band, lifted], vary), 0.0);
    // Were the tow vehicle good for 9000 lb, the coupler, 5656/7000, and the combination, (5250 + 5656)/13500, would
    // be next, both at 80.8 % wherever the boat sits. Then at 0 in the tongue share, 423/5656 = 7.48 %, is at 81 %
    // of its band's half, and at -1 in, 442/5656 = 7.81 %, at 67 %; there the tow vehicle's rear axle,
    // (2350 + 1.331 V)/3900 with V at most some 480 lb, is used to 77 %, and farther forward to more.
    assert_eq!(best_value(CRAB_BOAT, &[band, lifted, "tow.gvwr=9000 lb"], vary), -1.0);
}

#[test]
fn bunks_are_swept_over_crossmembers_that_they_come_to_reach() {
    let text = AS_CHANGED.split("[[ramps]]").next().unwrap_or(AS_CHANGED).to_string()
        + AS_CHANGED
            .split("# New bunks")
            .nth(1)
            .map_or("", |rest| rest.split_once('\n').map_or("", |(_, rest)| rest));
    same_as_checks(&text, &[], &["shift.bunks=-16in..40in/8in"]);
}

#[test]
fn a_point_without_a_rig_says_why_and_harms_no_other() {
    let rig = read(SKIFF, &[]);
    let sweep = Sweep::new(&rig, axes(&rig, &["trailer.jack.station=20in,40ft,24in"]), None, None, false)
        .expect("a sweep");
    let found: Vec<bool> = points(&sweep, 2).iter().map(|point| point.found.is_ok()).collect();
    // In the middle the jack stands behind the axle.
    assert_eq!(found, [true, false, true]);
    let sweep = Sweep::new(&rig, axes(&rig, &["shift.boat=-40ft,0ft"]), None, None, false).expect("a sweep");
    let found = points(&sweep, 1);
    let why = found[0].found.as_ref().expect_err("ahead of the ball").to_string();
    assert!(why.contains("tips over its ball"), "{why}");
    assert!(found[1].found.is_ok());
}

#[test]
fn a_sweep_can_be_ended_early() {
    let rig = read(SKIFF, &[]);
    let sweep = Sweep::new(&rig, axes(&rig, &["shift.boat=-10in..2in/0.00001in"]), None, None, false)
        .expect("a sweep");
    let mut taken = 0;
    sweep.run(
        &pool(2),
        |count: &mut u64, _| *count += 1,
        |chunk, points| {
            assert_eq!(chunk, points);
            taken += 1;
            if taken == 3 { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
        },
    );
    assert_eq!(taken, 3);
}

#[test]
fn one_key_is_varied_once() {
    let rig = read(level(AS_FOUND), &[]);
    for twice in [
        ["shift.boat=1in", "shift.boat=2in"],
        ["trailer.axles.all.rating=4000lb", "trailer.axles.2.rating=5000lb"],
        ["boat.weights.hull.weight=4000lb", "boat.weights.1.weight=5000lb"],
    ] {
        let refused = Sweep::new(&rig, axes(&rig, &twice), None, None, false).expect_err("one key twice");
        assert!(matches!(refused, Unasked::Twice(_)), "{refused}");
    }
}

/// The file states neither the band's end nor the friction: what is varied is stated.
#[test]
fn what_is_varied_can_fail_though_it_was_assumed() {
    same_as_checks(DAY_LAUNCH, &[], &["policy.tongue_share.max=12%,13%,16%"]);
    let assumed: String =
        AS_FOUND.lines().filter(|line| !line.starts_with("friction")).collect::<Vec<_>>().join("\n");
    same_as_checks(&assumed, &[], &["ramps.1.friction=20%,60%"]);
}
