//! Worst corners and samples of random rigs, against every corner there is.

use super::sketch::{Sketch, Texts, sketches, weighed};
use super::{SAME, rig};
use crate::cases::cases;
use bunkline::Rig;
use bunkline::fit::{Amount, Assessment, Judge, Reason, RigVerdict, Verdict, assess};
use bunkline::quantity::Kind;
use bunkline::rig::{Key, Varied};
use bunkline::study::samples::samples;
use bunkline::study::uncertainty::{self, Uncertainty};
use proptest::prelude::*;
use proptest::sample::{Index, select, subsequence};

const INCH: f64 = 0.0254;
const POUND: f64 = 0.453_592_37 * 9.806_65;

/// Every input that a bound may stand at, with a great bound for it in SI.
fn inputs(sketch: &Sketch) -> Vec<(Key, f64)> {
    let mut inputs = vec![
        (Key::new("trailer.weight"), 150.0 * POUND),
        (Key::new("trailer.cg"), 8.0 * INCH),
        (Key::new("trailer.cg_height"), 4.0 * INCH),
        (Key::new("trailer.bow_stop"), 5.0 * INCH),
        (Key::new("trailer.gvwr"), 100.0 * POUND),
        (Key::new("trailer.coupler.tongue_rating"), 50.0 * POUND),
        (Key::new("tow.rear_axle_load"), 90.0 * POUND),
        (Key::new("tow.ball_overhang"), 3.0 * INCH),
    ];
    for axle in 0..sketch.axles.len() {
        inputs.push((Key::of("trailer.axles.*.rating", axle), 60.0 * POUND));
        inputs.push((Key::of("trailer.axles.*.tires.rating", axle), 40.0 * POUND));
    }
    for tank in 0..sketch.tanks.len() {
        inputs.push((Key::of("boat.tanks.*.station", tank), 10.0 * INCH));
        inputs.push((Key::of("boat.tanks.*.fill", tank), 0.15));
    }
    if sketch.weighed.is_some() {
        inputs.push((Key::new("measured.gross_trailer_weight"), 80.0 * POUND));
        inputs.push((Key::new("measured.tongue_weight"), 20.0 * POUND));
        inputs.push((Key::new("boat.cg_side"), 2.0 * INCH));
    } else {
        for (i, item) in sketch.items.iter().enumerate() {
            inputs.push((Key::of("boat.weights.*.weight", i), item.weight as f64 * 0.05 * POUND));
            inputs.push((Key::of("boat.weights.*.station", i), 6.0 * INCH));
            inputs.push((Key::of("boat.weights.*.side", i), 5.0 * INCH));
        }
    }
    inputs
}

/// A rig with one to eight uncertain inputs.
fn uncertain() -> impl Strategy<Value = (Sketch, Vec<(Key, f64)>)> {
    prop_oneof![3 => sketches(4), 1 => weighed(4)].prop_flat_map(|sketch| {
        let inputs = inputs(&sketch);
        let some = subsequence(inputs.clone(), 1..=inputs.len().min(8));
        let sizes = prop::collection::vec(1i64..=100, 8);
        (Just(sketch), some, sizes).prop_map(|(sketch, some, sizes)| {
            let sized =
                some.into_iter().zip(sizes).map(|((key, bound), size)| (key, bound * size as f64 / 100.0));
            (sketch, sized.collect())
        })
    })
}

fn with_bounds(sketch: &Sketch, bounds: &[(Key, f64)]) -> Rig {
    let text = sketch.write(Texts::Us);
    let stated = rig(&text, &[]);
    let with_bound = |(key, bound): &(Key, f64)| {
        let variable = stated.variable(&key.to_string()).expect("a quantity");
        let value = stated.value(&variable).expect("stated or a default");
        let unit = match variable.kind {
            Kind::Length => "m",
            Kind::Weight => "N",
            Kind::Share => return format!("{key}={} % ± {} %", 100.0 * value, 100.0 * bound),
            other => panic!("{key} is a {other:?}"),
        };
        format!("{key}={value} {unit} ± {bound} {unit}")
    };
    let changes: Vec<String> = bounds.iter().map(with_bound).collect();
    let changes: Vec<&str> = changes.iter().map(String::as_str).collect();
    let bounded = rig(&text, &changes);
    assert_eq!(bounded.uncertain().len(), bounds.len());
    bounded
}

/// The lesser of two margins. Where one is not known the other hides it, unless it fails.
fn lesser(one: Option<f64>, other: Option<f64>) -> Option<f64> {
    match (one, other) {
        (Some(one), Some(other)) => Some(one.min(other)),
        (one, other) => one.or(other).filter(|known| *known < 0.0),
    }
}

/// The least margin of every row over all corners, worked one by one; none where one of them has no loads.
fn exhaustive(rig: &Rig) -> Option<Vec<Option<f64>>> {
    let mut varied = Varied::new(rig);
    let mut least: Option<Vec<Option<f64>>> = None;
    for corner in 0..1_u32 << rig.uncertain().len() {
        let end = |i: usize| if corner >> i & 1 == 1 { 1.0 } else { -1.0 };
        let errors: Vec<(Key, f64)> =
            rig.uncertain().iter().enumerate().map(|(i, (key, bound))| (*key, bound * end(i))).collect();
        let rows = assess(varied.with_errors(&errors).ok()?).ok()?.rows;
        let margins = rows.iter().map(|row| row.margin.map(Amount::si));
        least = Some(match least {
            None => margins.collect(),
            Some(least) => least.into_iter().zip(margins).map(|(a, b)| lesser(a, b)).collect(),
        });
    }
    least
}

fn examined(rig: &Rig) -> (Assessment, Uncertainty) {
    let (assessment, uncertainty) = uncertainty::brief(rig).expect("a trailer at rest");
    (assessment, uncertainty.expect("inputs with bounds"))
}

const RATINGS: &[&str] =
    &["trailer.gvwr", "trailer.coupler.rating", "trailer.axles.1.rating", "trailer.axles.1.tires.rating"];

proptest! {
    #![proptest_config(cases(48))]

    /// No corner leaves less than the worst that was found. Where a margin is sure to be monotone, no more than that is
    /// told either: elsewhere a lesser one may have been met at a single input's end.
    #[test]
    fn no_corner_is_worse_than_the_worst_one((sketch, bounds) in uncertain()) {
        let rig = with_bounds(&sketch, &bounds);
        let (assessment, uncertainty) = examined(&rig);
        // A corner without loads has nothing to compare.
        let least = exhaustive(&rig);
        prop_assume!(least.is_some());
        let least = least.unwrap_or_default();
        prop_assert_eq!(uncertainty.contradictions, 0);
        prop_assert!(uncertainty.unfit.is_none());
        for ((row, corner), least) in assessment.rows.iter().zip(&uncertainty.corners).zip(least) {
            let id = row.id();
            // Of a light corner no brakes are asked.
            if id == "brakes-required" {
                continue;
            }
            let Some(corner) = corner else {
                prop_assert!(row.margin.is_none(), "{id}");
                continue;
            };
            let (worst, least) = (corner.margin.map(Amount::si), least);
            let (Some(worst), Some(least)) = (worst, least) else {
                prop_assert_eq!(worst, least, "{}", id);
                continue;
            };
            let stated = row.margin.expect("it was made").si();
            // As many roundings as there are inputs, on loads of the size of the limits.
            let tolerance = 1e-7 * row.max.map_or(stated.abs(), |max| max.si().abs()).max(least.abs());
            prop_assert!(worst <= least + tolerance, "{id}: {worst}, but {least} at a corner");
            prop_assert!(worst <= stated + tolerance, "{id}");
            let monotone = ["trailer-gvwr", "coupler", "receiver", "tow-gcwr", "axle-tires-1"];
            if monotone.contains(&id.as_str()) {
                prop_assert!(worst >= least - tolerance, "{id}: {worst}, but no corner under {least}");
            }
        }
    }

    /// Verdicts follow from worst margins.
    #[test]
    fn what_passes_but_not_at_its_corner_is_unsure((sketch, bounds) in uncertain()) {
        let rig = with_bounds(&sketch, &bounds);
        let stated = assess(&rig).expect("a trailer at rest");
        let (assessment, uncertainty) = examined(&rig);
        if uncertainty.unfit.is_some() {
            return Ok(());
        }
        let rows = &assessment.rows;
        for ((before, row), corner) in stated.rows.iter().zip(rows).zip(&uncertainty.corners) {
            let doubt = corner.as_ref().map(|corner| corner.doubt).unwrap_or_default();
            let passes = matches!(before.verdict, Verdict::Pass | Verdict::Thin | Verdict::Advise);
            prop_assert_eq!(row.margin, before.margin);
            // What an assumed value moves is in doubt at other combinations too.
            if row.range.is_some() {
                continue;
            }
            let expected = match before.verdict {
                _ if passes && doubt.may_fail && row.counts => Verdict::Unsure,
                _ if passes && doubt.may_advise => Verdict::Advise,
                before => before,
            };
            prop_assert_eq!(row.verdict, expected, "{}", row.id());
        }
        let some = |verdict| rows.iter().any(|row| row.verdict == verdict);
        let core_missing = rows.iter().any(|row| row.core && row.verdict == Verdict::NotChecked);
        let expected = match (some(Verdict::Fail), core_missing, some(Verdict::Unsure)) {
            (true, _, _) => RigVerdict::Fail,
            (false, true, _) => RigVerdict::Incomplete,
            (false, false, true) => RigVerdict::Unsure,
            (false, false, false) => RigVerdict::Pass,
        };
        prop_assert_eq!(assessment.verdict, expected);
    }

    /// A wider ± never makes a row better.
    #[test]
    fn doubling_a_bound_makes_no_row_better((sketch, bounds) in uncertain(), which in any::<Index>()) {
        let mut wider = bounds.clone();
        wider[which.index(bounds.len())].1 *= 2.0;
        let (one, _) = examined(&with_bounds(&sketch, &bounds));
        let (other, _) = examined(&with_bounds(&sketch, &wider));
        for (narrow, wide) in one.rows.iter().zip(&other.rows) {
            let (before, after) = (badness(narrow.verdict), badness(wide.verdict));
            prop_assert!(before <= after, "{}: {:?}, then {:?}", narrow.id(), narrow.verdict, wide.verdict);
        }
    }

    /// A lower rating never makes a row better that it is a limit of; the springs stay as the file has them.
    #[test]
    fn lowering_a_rating_makes_no_row_better(
        (sketch, bounds) in uncertain(),
        share in 0.3..1.0,
        path in select(RATINGS),
    ) {
        let rig = with_bounds(&sketch, &bounds);
        // A figure too high to believe is in doubt, which a lower one may not be.
        prop_assume!(rig.proposed().implausible().is_empty());
        let (before, _) = examined(&rig);
        // A rating that is too great to be one is doubted; a lower one may not be.
        let implausible = |reason: &Reason| matches!(reason, Reason::Implausible(_));
        prop_assume!(!before.reasons.iter().any(implausible));
        let variable = rig.variable(path).expect("a quantity");
        let Some(value) = rig.value(&variable) else { return Ok(()) };
        // Too low for its own ± or the trailer, it is no rating.
        let Ok(lower) = rig.changed(&variable, share * value) else { return Ok(()) };
        let (after, _) = examined(&lower);
        for (before, after) in before.rows.iter().zip(&after.rows) {
            // Its load is the rating.
            if before.check.id == "axle-tires-*" {
                continue;
            }
            prop_assert!(badness(before.verdict) <= badness(after.verdict), "{path}: {}", before.id());
        }
    }

    /// The inputs' order does not matter, and neither does one that has no bound to speak of.
    #[test]
    fn the_order_of_inputs_does_not_matter((sketch, bounds) in uncertain(), turn in any::<Index>()) {
        let mut turned = bounds.clone();
        turned.rotate_left(turn.index(bounds.len()));
        let (_, one) = examined(&with_bounds(&sketch, &bounds));
        let (_, other) = examined(&with_bounds(&sketch, &turned));
        let slope = |uncertainty: &Uncertainty, row: usize, key: Key| {
            let input = uncertainty.inputs.iter().position(|(other, _)| *other == key);
            uncertainty.corners[row].as_ref().map(|corner| corner.sensitivities[input.expect("an input")])
        };
        for (row, (a, b)) in one.corners.iter().zip(&other.corners).enumerate() {
            let margin = |corner: &Option<uncertainty::Corner>| {
                corner.as_ref().and_then(|corner| corner.margin).map(Amount::si)
            };
            match (margin(a), margin(b)) {
                (Some(a), Some(b)) => prop_assert!((a - b).abs() <= SAME * a.abs().max(1.0), "{a} and {b}"),
                (a, b) => prop_assert_eq!(a, b),
            }
            // Where two limits leave the same either may be told; with one limit there is no choice.
            let one_limit = a.as_ref().is_some() && one_case(&sketch);
            for (key, _) in bounds.iter().filter(|_| one_limit) {
                let (a, b) = (slope(&one, row, *key), slope(&other, row, *key));
                let (a, b) = (a.expect("a corner"), b.expect("a corner"));
                prop_assert!((a - b).abs() <= 1e-6 * a.abs().max(1.0), "{key}: {a} and {b}");
            }
        }
    }

    /// No sample is worse than the worst corner of a margin that is sure to be monotone.
    #[test]
    fn samples_lie_within_the_corners((sketch, bounds) in uncertain(), seed in any::<u64>()) {
        let rig = with_bounds(&sketch, &bounds);
        let (assessment, uncertainty) = examined(&rig);
        let rows = &assessment.rows;
        let drawn = samples(&rig, rows, 50, seed).expect("samples");
        prop_assert_eq!(drawn.rig.of + drawn.contradictions + drawn.unfit, 50);
        for ((row, corner), rate) in rows.iter().zip(&uncertainty.corners).zip(&drawn.rows) {
            prop_assert_eq!(rate.is_some(), row.margin.is_some());
            let linear = matches!(row.check.judge, Judge::Rating) && ["trailer-gvwr", "coupler"].contains(&row.check.id);
            let worst = corner.as_ref().and_then(|corner| corner.margin);
            if let (true, Some(rate), Some(worst)) = (linear, rate, worst) {
                prop_assert!(rate.fails == 0 || worst.si() < 0.0, "{}", row.id());
            }
        }
        // The same seed, the same samples.
        prop_assert_eq!(Some(drawn), samples(&rig, rows, 50, seed));
    }
}

fn one_case(sketch: &Sketch) -> bool {
    sketch.cases.is_empty()
}

/// The order in which a row gets worse; a thin row holds like any.
fn badness(verdict: Verdict) -> u8 {
    match verdict {
        Verdict::Pass | Verdict::Thin => 0,
        Verdict::Advise => 1,
        Verdict::Unsure | Verdict::NotChecked => 2,
        Verdict::Fail => 3,
    }
}
