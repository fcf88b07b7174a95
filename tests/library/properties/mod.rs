//! What must hold for every rig, tried on random ones.
//!
//! Tolerances: two ways of saying one thing may differ by rounding in floating-point arithmetic, and by the
//! settling's own remainder of moment, 1e-12 of the whole; 1e-9 relative allows for both with room and
//! hides no term.

mod corners;
pub mod sketch;

use crate::cases::cases;
use bunkline::Rig;
use bunkline::fit::{Amount, Assessment, Carried, Caution, Judge, RigVerdict, Row, Verdict, assess, examine};
use bunkline::quantity::Quantity;
use bunkline::quantity::show::UnitSystem;
use bunkline::report::{Subject, json};
use proptest::prelude::*;
use sketch::{LEVEL, Sketch, Tank, Texts, sketches, weighed};

const POUND: f64 = 0.453_592_37 * 9.806_65;
const EIGHTH: f64 = 0.0254 / 8.0;
const SAME: f64 = 1e-9;

fn rig(text: &str, changes: &[&str]) -> Rig {
    Rig::read("rig.toml", text, changes).unwrap_or_else(|problems| panic!("{problems}\n{text}"))
}

fn assessed(text: &str, changes: &[&str]) -> Assessment {
    assess(&rig(text, changes)).unwrap_or_else(|unfit| panic!("{unfit}\n{text}"))
}

fn level(found: &Assessment, case: usize) -> &Carried {
    found.cases[case].level.as_ref().expect("a rig that says all that the mechanics need")
}

fn tongue(found: &Assessment, case: usize) -> f64 {
    level(found, case).stance.tongue_weight.si()
}

fn gross(found: &Assessment, case: usize) -> f64 {
    found.cases[case].gross.as_ref().expect("a gross weight").si()
}

/// Every load of a case in SI: what tongue, axles, tires, tow vehicle and jack carry, level and with the
/// rear axle lifted.
fn loads(found: &Assessment, case: usize) -> Vec<f64> {
    let case = &found.cases[case];
    let mut all = vec![
        case.gross.as_ref().expect("a gross weight").si(),
        case.boat.as_ref().expect("a boat weight").si(),
        case.tow.as_ref().expect("a tow vehicle").front.si(),
        case.tow.as_ref().expect("a tow vehicle").rear.si(),
        case.combination.as_ref().expect("a combination").si(),
        case.jack.as_ref().expect("a jack load").si(),
    ];
    let lifted = case.lifted.iter().map(|lifted| lifted.as_ref().expect("a lifted axle"));
    for carried in lifted.chain([case.level.as_ref().expect("a trailer at rest")]) {
        all.push(carried.stance.tongue_weight.si());
        all.extend(carried.stance.axle_loads.iter().map(|load| load.si()));
        all.extend(carried.tire_loads.as_ref().expect("tire loads").iter().map(|load| load.si()));
    }
    all
}

/// Whether two assessments have the same loads, the second's over a scale, within a share of the gross
/// weight.
fn same_loads(a: &Assessment, b: &Assessment, scale: f64) -> Result<(), TestCaseError> {
    prop_assert_eq!(a.cases.len(), b.cases.len());
    for case in 0..a.cases.len() {
        let whole = gross(a, case);
        for (a, b) in loads(a, case).into_iter().zip(loads(b, case)) {
            prop_assert!(
                (a - b / scale).abs() <= SAME * whole,
                "{a} N and {b} N over {scale} in case {case}"
            );
        }
    }
    Ok(())
}

/// Whether two assessments judge alike: the same verdicts and shares used, but for rows on the very edge.
fn same_verdicts(a: &Assessment, b: &Assessment) -> Result<(), TestCaseError> {
    prop_assert_eq!(a.rows.len(), b.rows.len());
    for (a, b) in a.rows.iter().zip(&b.rows) {
        if let (Some(a), Some(b)) = (a.used, b.used) {
            prop_assert!((a - b).si().abs() <= 1e-8, "{a:?} and {b:?}");
        }
        if !on_edge(a) {
            prop_assert_eq!(a.verdict, b.verdict, "{}", a.id());
        }
    }
    Ok(())
}

/// Whether rounding may tip a row's verdict.
fn on_edge(row: &Row) -> bool {
    let (Some(margin), Some(max)) = (row.margin, row.max) else { return false };
    let (margin, max) = (margin.si(), max.si());
    let width = row.min.map_or(max, |min| if row.check.judge == Judge::Band { max - min.si() } else { max });
    let tip = 1e-8 * max.abs();
    margin.abs() <= tip || (margin - 0.1 * width).abs() <= tip
}

proptest! {
    #![proptest_config(cases(192))]

    /// Moments about the ball: what goes aft takes load off the tongue, equalizers, bump stops and pitch or
    /// not.
    #[test]
    fn moving_weight_aft_never_raises_tongue_weight(
        sketch in sketches(6),
        pick in any::<prop::sample::Index>(),
        eighths in 1i64..400,
    ) {
        let text = sketch.write(Texts::Us);
        let before = assessed(&text, &[]);
        let item = pick.index(sketch.items.len());
        let inches = eighths as f64 / 8.0;

        // Proposed: the springs stay as they are, in every case.
        let path = format!("boat.weights.{}.station-={inches} in", item + 1);
        let item_moved = assessed(&text, &[&path]);
        let boat_moved = assessed(&text, &[&format!("shift.boat={inches} in")]);
        for case in 0..before.cases.len() {
            let allowed = tongue(&before, case) + SAME * gross(&before, case);
            prop_assert!(tongue(&item_moved, case) <= allowed);
            prop_assert!(tongue(&boat_moved, case) <= allowed);
        }

        // Stated so from the start: the frame is level then as well.
        let mut stated = sketch.clone();
        stated.items[item].station -= eighths;
        let stated = assessed(&stated.write(Texts::Us), &[]);
        prop_assert!(tongue(&stated, 0) <= tongue(&before, 0) + SAME * gross(&before, 0));
        // It moves the centre of gravity by its share, and the tongue by more than nothing.
        prop_assert!(tongue(&stated, 0) < tongue(&before, 0));
    }

    /// Everything stands on ball and wheels, and the moments about the ball cancel at the pitch found:
    /// vertical forces on level ground at the hubs' own distances, nothing of the settling's way to it.
    #[test]
    fn loads_balance_on_the_level(sketch in sketches(6), over in -32i64..=32, shift in -80i64..=80) {
        let sketch = Sketch { ball_over_level: over, ..sketch };
        let changes = [format!("shift.axles={} in", shift as f64 / 8.0)];
        let found = assessed(&sketch.write(Texts::Us), &[&changes[0]]);
        let ball = (LEVEL + over) as f64 * EIGHTH;
        for case in &found.cases {
            let body = case.body.as_ref().expect("a body");
            let (w, xc, zc) = (body.weight.si(), body.at.x.si(), body.at.z.si());
            let lifted = case.lifted.iter().map(|lifted| lifted.as_ref().expect("a lifted axle"));
            for carried in lifted.chain([case.level.as_ref().expect("a trailer at rest")]) {
                let stance = &carried.stance;
                prop_assert!(((stance.on_axles() + stance.tongue_weight).si() - w).abs() <= SAME * w);
                prop_assert!(stance.pull.si().abs() <= SAME * w);
                let (sin, cos) = stance.pitch.si().sin_cos();
                let moments = stance.axle_loads.iter().zip(&sketch.axles).map(|(load, axle)| {
                    let (x, r) = ((axle.station + shift) as f64 * EIGHTH, axle.radius as f64 * EIGHTH);
                    // The hub stands at the wheel's radius: Z = ball − x sin φ − ℓ cos φ = R; and X = x cos
                    // φ − ℓ sin φ.
                    let l = (ball - x * sin - r) / cos;
                    load.si() * (x * cos - l * sin)
                });
                let moment: f64 = moments.sum();
                let weighs = w * (xc * cos + zc * sin);
                prop_assert!((moment - weighs).abs() <= SAME * w * xc, "{moment} and {weighs}");
                prop_assert!(stance.axle_loads.iter().all(|load| load.si() >= 0.0));
            }
        }
    }

    /// Within their travel equalizers give every axle the same spring force; no law of settling is used to
    /// say so.
    #[test]
    fn equalizers_off_their_stops_share_equally(sketch in sketches(6), over in -16i64..=16) {
        let sketch = Sketch { kind: "leaf-equalized", ball_over_level: over, ..sketch };
        let found = assessed(&sketch.write(Texts::Us), &[]);
        let travel = sketch.travel as f64 * EIGHTH;
        for case in 0..found.cases.len() {
            let stance = &level(&found, case).stance;
            for (i, q) in stance.equalizers.iter().enumerate().take(sketch.axles.len() - 1) {
                prop_assert!(q.si().abs() <= travel * (1.0 + SAME));
                let (ahead, behind) = (stance.spring_forces[i].si(), stance.spring_forces[i + 1].si());
                if q.si().abs() < travel * (1.0 - 1e-6) {
                    prop_assert!((ahead - behind).abs() <= SAME * gross(&found, case), "{ahead} N and {behind} N");
                } else {
                    // At a stop with its rear end up (q > 0) the front spring pushes the harder, and the
                    // other way round.
                    prop_assert!((ahead - behind) * q.si() >= -SAME * gross(&found, case) * travel);
                }
            }
        }
    }

    /// A report says so when an equalizer stands at its stop, and only then.
    #[test]
    fn an_equalizer_at_its_stop_is_told(sketch in sketches(4), over in -48i64..=48) {
        let sketch = Sketch { kind: "leaf-equalized", ball_over_level: over, ..sketch };
        let found = examine(&rig(&sketch.write(Texts::Us), &[])).expect("a trailer at rest");
        let travel = sketch.travel as f64 * EIGHTH;
        let furthest = |case| {
            let equalizers = &level(&found.assessment, case).stance.equalizers;
            equalizers.iter().map(|q| q.si().abs()).fold(0.0, f64::max)
        };
        let furthest = (0..found.assessment.cases.len()).map(furthest).fold(0.0, f64::max);
        let told = found.cautions.iter().any(|caution| matches!(caution, Caution::EqualizerAtStop { .. }));
        prop_assert_eq!(told, furthest >= travel * (1.0 - SAME), "{} of {}", furthest, travel);
    }

    /// A weighed boat's centre goes up with its keel and with its own height, and with neither in level
    /// attitude otherwise.
    #[test]
    fn a_weighed_boat_is_as_high_as_proposed(
        sketch in weighed(3),
        keel in -40i64..=40,
        own in -40i64..=40,
    ) {
        let text = sketch.write(Texts::Us);
        let change = |path: &str, eighths: i64| format!("{path}+={} in", eighths as f64 / 8.0);
        let (keel_up, own_up) = (change("trailer.keel_height", keel), change("boat.cg_height", own));
        let (before, after) = (assessed(&text, &[]), assessed(&text, &[&keel_up, &own_up]));
        let moment = |found: &Assessment| {
            let body = found.cases[0].body.as_ref().expect("a body");
            body.weight.si() * body.at.z.si()
        };
        let contents = |tank: &Tank| tank.gallons * tank.tenths_of_pound_a_gallon * tank.fill;
        let tanks = sketch.tanks.iter().map(contents).sum::<i64>() as f64 / 1000.0;
        let boat = (sketch.gross() - sketch.trailer_weight) as f64;
        // Tanks hang on the keel alone.
        let raised = (boat * keel as f64 + (boat - tanks) * own as f64) * EIGHTH * POUND;
        prop_assert!((moment(&after) - moment(&before) - raised).abs() <= SAME * gross(&before, 0));
        prop_assert!((tongue(&after, 0) - tongue(&before, 0)).abs() <= SAME * gross(&before, 0));
    }

    /// A file in millimetres and kilograms says the same as one in inches and pounds.
    #[test]
    fn the_units_of_the_files_texts_do_not_matter(sketch in prop_oneof![sketches(6), weighed(6)]) {
        let (us, metric) = (sketch.write(Texts::Us), sketch.write(Texts::Metric));
        let (us, metric) = (assessed(&us, &[]), assessed(&metric, &[]));
        same_loads(&us, &metric, 1.0)?;
        same_verdicts(&us, &metric)?;
    }

    /// The report's units change how it is told, by exact factors, and nothing of what is found.
    #[test]
    fn the_units_of_the_report_change_only_the_report(sketch in sketches(3)) {
        let text = sketch.write(Texts::Us);
        let rig = rig(&text, &[]);
        let metric_file = text.replace("format = 1", "format = 1\nunits = \"metric\"");
        prop_assert_eq!(&assessed(&text, &[]), &assessed(&metric_file, &[]));

        let findings = examine(&rig).expect("a trailer at rest");
        let document = |units| {
            let subject =
                Subject { path: "rig.toml", rig: &rig, findings: &findings, uncertainty: None, as_stated: false, units };
            let report = json::report(&subject).expect("a report");
            serde_json::from_str::<serde_json::Value>(&report).expect("JSON")
        };
        let (us, metric) = (document(UnitSystem::Us), document(UnitSystem::Metric));
        let checks = |document: &serde_json::Value| document["checks"].as_array().expect("checks").clone();
        for (us, metric) in checks(&us).iter().zip(&checks(&metric)) {
            prop_assert_eq!(&us["id"], &metric["id"]);
            prop_assert_eq!(&us["verdict"], &metric["verdict"]);
            prop_assert_eq!(&us["used"], &metric["used"]);
            let factor = match us["id"].as_str().expect("an id") {
                "tongue-share" | "brakes-required" | "side-lift" | "curve-tip" | "tow-front-loss" | "tire-construction" => 1.0,
                id if id.starts_with("tire-age") => 1.0,
                id if id.starts_with("tire-fender") || id.starts_with("axle-spacing") => 25.4,
                // psi in bar, and mph in km/h.
                id if id.starts_with("tire-pressure") => 0.453_592_37 * 9.806_65 / (0.0254 * 0.0254) / 1e5,
                id if id.starts_with("tire-speed") || id == "wind-tip" => 1.609_344,
                id if id.contains("clearance") => 25.4,
                "bow-stop-height" | "ball-size" | "shank-size" => 25.4,
                _ => 0.453_592_37,
            };
            for part in ["/load", "/margin", "/limits/max"] {
                let number = |check: &serde_json::Value| check.pointer(part)?.as_f64();
                if let (Some(us), Some(metric)) = (number(us), number(metric)) {
                    prop_assert!((us * factor - metric).abs() <= 1e-9 * metric.abs().max(1.0), "{us} and {metric}");
                } else {
                    prop_assert_eq!(number(us), number(metric));
                }
            }
        }
    }

    /// Weights and tanks are a sum: their order in the file does not matter.
    #[test]
    fn the_order_of_weights_and_tanks_does_not_matter(sketch in sketches(4), turn in 0usize..5) {
        let mut turned = sketch.clone();
        let turn_items = turn % sketch.items.len();
        turned.items.rotate_left(turn_items);
        turned.tanks.reverse();
        for (fills, left_out) in &mut turned.cases {
            fills.truncate(sketch.tanks.len());
            fills.reverse();
            *left_out = left_out.map(|item| (item + sketch.items.len() - turn_items) % sketch.items.len());
        }
        same_loads(&assessed(&sketch.write(Texts::Us), &[]), &assessed(&turned.write(Texts::Us), &[]), 1.0)?;
    }

    /// What scales say of the rig comes back from it, however it is sprung and with tanks or without.
    #[test]
    fn a_measured_rig_gives_back_what_the_scales_said(sketch in weighed(6)) {
        let found = assessed(&sketch.write(Texts::Us), &[]);
        let said = sketch.gross();
        let whole = said as f64 * POUND;
        let thousandths = sketch.weighed.expect("a weighed rig");
        prop_assert!((gross(&found, 0) - whole).abs() <= SAME * whole);
        prop_assert!((tongue(&found, 0) - (said * thousandths / 1000) as f64 * POUND).abs() <= SAME * whole);
        prop_assert!(level(&found, 0).stance.pitch.si().abs() <= SAME);
        // What is burnt or filled in another case is the tanks' alone.
        for (case, (fills, _)) in sketch.cases.iter().enumerate() {
            let change: f64 = sketch.tanks.iter().zip(fills).map(|(tank, fill)| {
                (tank.gallons * tank.tenths_of_pound_a_gallon * (fill - tank.fill)) as f64 / 1000.0
            }).sum();
            prop_assert!((gross(&found, case + 1) - whole - change * POUND).abs() <= SAME * whole);
        }
    }

    /// An empty trailer's tongue weight places its centre of gravity so that the empty trailer gives it
    /// back.
    #[test]
    fn an_empty_trailer_gives_back_its_tongue_weight(sketch in sketches(6), percent in 3i64..30) {
        let text = sketch.write(Texts::Us);
        let tongue_weight = sketch.trailer_weight * percent / 100;
        let cg = text.lines().find(|line| line.starts_with("cg = ")).expect("a line");
        let text = text.replace(cg, &format!("tongue_weight = \"{tongue_weight} lb\""));
        // Next to nothing aboard, so that what is weighed is the trailer: a hundred-millionth of a pound.
        let mut empty = String::new();
        for line in text.lines() {
            let in_boat = line.starts_with("weight = ") && !empty.contains("[trailer]");
            let line = if in_boat { "weight = \"0.00000001 lb\"" } else { line };
            let line = if line.starts_with("fill = \"") { "fill = \"0 %\"" } else { line };
            empty.push_str(line);
            empty.push('\n');
        }
        let found = assessed(&empty, &[]);
        let whole = sketch.trailer_weight as f64 * POUND;
        prop_assert!((tongue(&found, 0) - tongue_weight as f64 * POUND).abs() <= SAME * whole);
    }

    /// The boat goes where its bow stop goes, whichever says so.
    #[test]
    fn moving_the_boat_is_moving_its_bow_stop(
        sketch in prop_oneof![sketches(4), weighed(4)],
        eighths in -200i64..=200,
        over in -16i64..=16,
    ) {
        let text = Sketch { ball_over_level: over, ..sketch }.write(Texts::Us);
        let inches = eighths as f64 / 8.0;
        let shifted = assessed(&text, &[&format!("shift.boat={inches} in")]);
        let restopped = assessed(&text, &[&format!("trailer.bow_stop+={inches} in")]);
        let in_file = assessed(&format!("{text}[shift]\nboat = \"{inches} in\"\n"), &[]);
        same_loads(&shifted, &restopped, 1.0)?;
        prop_assert_eq!(&shifted, &in_file);
    }

    /// Drawing the tongue in brings axles and trailer nearer the ball and leaves the boat.
    #[test]
    fn drawing_the_tongue_in_moves_axles_and_trailer_forward(
        sketch in sketches(4),
        eighths in -160i64..=160,
    ) {
        let mut sketch = sketch;
        for axle in &mut sketch.axles {
            axle.weight = None;
        }
        let text = sketch.write(Texts::Us);
        let inches = eighths as f64 / 8.0;
        let drawn = assessed(&text, &[&format!("shift.tongue={inches} in")]);
        let (axles, trailer) = (format!("shift.axles={} in", -inches), format!("trailer.cg-={inches} in"));
        let moved = assessed(&text, &[&axles, &trailer]);
        same_loads(&drawn, &moved, 1.0)?;
    }

    /// Moved axles take their own weight along, and no more of the trailer.
    #[test]
    fn axles_take_their_own_weight_along(sketch in sketches(6), eighths in -160i64..=160) {
        let text = sketch.write(Texts::Us);
        let found = assessed(&text, &[&format!("shift.axles={} in", eighths as f64 / 8.0)]);
        let before = assessed(&text, &[]);
        let weights: i64 = sketch.axles.iter().filter_map(|axle| axle.weight).sum();
        let moved = (weights * eighths) as f64 * EIGHTH * POUND;
        for case in 0..before.cases.len() {
            let moment = |found: &Assessment| {
                let body = found.cases[case].body.as_ref().expect("a body");
                body.weight.si() * body.at.x.si()
            };
            let (from, to) = (moment(&before), moment(&found));
            prop_assert!((to - from - moved).abs() <= SAME * from);
        }
    }

    /// Twice the weight on twice the trailer: every load doubles, every share used and every verdict stays.
    /// Springs must be twice as stiff for it. The suspension's are by themselves, since it deflects as far
    /// under twice the rating; the tires' rate doubles with the other weights of the file. Lengths and
    /// angles stay as they are. Four axles at most: twice the ratings of a heavier rig would pass the 100 t
    /// that a file may state.
    #[test]
    fn doubling_every_weight_and_rating_changes_no_verdict(
        sketch in prop_oneof![sketches(4), weighed(4)],
        over in -16i64..=16,
    ) {
        // The tow vehicle's and the tanks' figures double as well.
        let sketch = Sketch { ball_over_level: over, ..sketch };
        let single = assessed(&sketch.write(Texts::Us), &[]);
        let double = assessed(&Sketch { scale: 2, ..sketch }.write(Texts::Us), &[]);
        same_loads(&single, &double, 2.0)?;
        // Twice as heavy it may be out of all proportion, half as heavy too light for a trailer.
        if single.reasons.is_empty() && double.reasons.is_empty() {
            same_verdicts(&single, &double)?;
        }
        prop_assert_eq!(single.verdict == RigVerdict::Fail, double.verdict == RigVerdict::Fail);
    }

    /// Port and starboard are alike.
    #[test]
    fn mirrored_sides_carry_the_same(sketch in sketches(3)) {
        let mut mirrored = sketch.clone();
        for item in &mut mirrored.items {
            item.side = -item.side;
        }
        same_loads(&assessed(&sketch.write(Texts::Us), &[]), &assessed(&mirrored.write(Texts::Us), &[]), 1.0)?;
    }

    /// The ball resists no roll: over the track, what the tires of one side carry more than those of the other balances
    /// the whole side moment of boat and trailer, worked here from the items.
    #[test]
    fn the_tires_carry_the_whole_side_moment(sketch in sketches(4)) {
        let found = assessed(&sketch.write(Texts::Us), &[]);
        let moment: i64 = sketch.items.iter().map(|item| item.weight * item.side).sum();
        let moment = moment as f64 * POUND * EIGHTH;
        let track = 85.0 * 0.0254;
        let case = &found.cases[0];
        let lifted = case.lifted.iter().map(|lifted| lifted.as_ref().expect("a lifted axle"));
        for carried in lifted.chain([case.level.as_ref().expect("a trailer at rest")]) {
            let tire_loads = carried.tire_loads.as_ref().expect("tire loads");
            let axles = carried.stance.axle_loads.iter().zip(&sketch.axles);
            let more_on_heavier_side = axles.zip(tire_loads).map(|((load, axle), tire)| {
                let heavier = tire.si() * axle.tires as f64 / 2.0;
                heavier - (load.si() - heavier)
            });
            let balanced = more_on_heavier_side.sum::<f64>() * track / 2.0;
            prop_assert!((balanced - moment.abs()).abs() <= SAME * gross(&found, 0) * track, "{balanced} and {moment}");
        }
    }

    /// A row's parts agree with each other, and the rig's verdict with its rows.
    #[test]
    fn verdicts_follow_from_margins(
        sketch in prop_oneof![sketches(4), weighed(4)],
        over in -24i64..=24,
        thin in 0i64..30,
        boat in -400i64..=400,
    ) {
        let text = Sketch { ball_over_level: over, ..sketch }.write(Texts::Us);
        let text = format!("{text}[policy]\nthin_margin = \"{thin} %\"\n");
        let found = assessed(&text, &[&format!("shift.boat={} in", boat as f64 / 8.0)]);
        let thin = thin as f64 / 100.0;
        for row in found.rows.iter().filter(|row| row.verdict != Verdict::Unsure) {
            consistent(row, thin)?;
        }
        let some = |test: &dyn Fn(&Row) -> bool| found.rows.iter().any(test);
        let expected = if some(&|row| row.verdict == Verdict::Fail) {
            RigVerdict::Fail
        } else if some(&|row| row.core && row.verdict == Verdict::NotChecked) {
            RigVerdict::Incomplete
        } else if !found.reasons.is_empty() {
            RigVerdict::Unsure
        } else {
            RigVerdict::Pass
        };
        prop_assert_eq!(found.verdict, expected);
        prop_assert!(!found.reasons.is_empty() || !some(&|row| row.verdict == Verdict::Unsure));
        if tongue(&found, 0) < 0.0 {
            for row in found.rows.iter().filter(|row| row.check.id.ends_with("-tongue") && row.load.is_some()) {
                let fails = matches!(row.verdict, Verdict::Fail | Verdict::Advise);
                prop_assert!(fails || row.check.id == "lifted-tongue", "{}", row.id());
            }
        }
    }

    /// The worst case governs, so one case more can only make a row worse.
    #[test]
    fn another_case_never_improves_a_margin(
        sketch in prop_oneof![sketches(4), weighed(4)],
        fills in prop::collection::vec(0i64..=100, 2),
        item in prop::option::of(0usize..4),
    ) {
        let mut more = sketch.clone();
        let item = item.filter(|item| *item < sketch.items.len() && sketch.items.len() > 1);
        more.cases.push((fills, item));
        let (before, after) = (assessed(&sketch.write(Texts::Us), &[]), assessed(&more.write(Texts::Us), &[]));
        for (before, after) in before.rows.iter().zip(&after.rows) {
            let after_row = after;
            let rank = |row: &Row| match row.verdict {
                Verdict::Fail => 3,
                Verdict::Advise => 2,
                Verdict::Thin => 1,
                _ => 0,
            };
            prop_assert!(rank(after) >= rank(before), "{}", after.id());
            // The margin to the limit that gives the verdict.
            let (to_before, to_after) = match after.verdict {
                Verdict::Fail => (before.margin_to_fail, after.margin_to_fail),
                _ => (before.margin, after.margin),
            };
            match (to_before, to_after) {
                _ if rank(after) > rank(before) => {}
                (Some(before), Some(after)) => prop_assert!(after.si() <= before.si()),
                // Of a light case no brakes are asked, of a heavier one they are.
                (None, Some(_)) if after_row.check.id == "brakes-required" => {}
                // With a rating missing a row shows only what fails.
                (None, Some(after)) => prop_assert!(after.si() < 0.0),
                (before, after) => prop_assert_eq!(before, after),
            }
        }
    }
}

/// Whether a row's load, limits, margin, share used and verdict agree.
fn consistent(row: &Row, thin: f64) -> Result<(), TestCaseError> {
    let id = row.id();
    if row.verdict == Verdict::Pass && row.load.is_none() {
        // Of a light trailer nothing is asked.
        prop_assert!(row.min.is_none() && row.max.is_none() && !row.counts, "{id}");
        return Ok(());
    }
    let (Some(load), Some(margin)) = (row.load, row.margin) else {
        prop_assert_eq!(row.verdict, Verdict::NotChecked, "{}", id);
        prop_assert!(
            row.load.is_none() && row.margin.is_none() && row.used.is_none() && row.case.is_none(),
            "{id}"
        );
        prop_assert!(!row.missing.is_empty(), "{id}");
        return Ok(());
    };
    // A row that misses a figure somewhere holds nowhere for certain, but what is outside is so all the same.
    prop_assert!(row.missing.is_empty() || margin.si() < 0.0, "{id}");
    let of_tires = ["axle-spacing-*", "tire-age-*", "tire-construction"].contains(&row.check.id);
    let stated =
        of_tires || ["axle-tires-*", "ball-size", "shank-size", "bow-stop-height"].contains(&row.check.id);
    prop_assert_eq!(row.case.is_none(), stated, "{}", id);
    let (load, margin) = (load.si(), margin.si());
    let (min, max) = (row.min.map(Amount::si), row.max.map(Amount::si));
    let inside = min.is_none_or(|min| load >= min) && max.is_none_or(|max| load <= max);
    if row.check.judge != Judge::Size {
        prop_assert_eq!(margin >= 0.0, inside, "{}", id);
    }
    let past = |below: Option<Amount>, above: Option<Amount>| {
        below.is_some_and(|min| load < min.si()) || above.is_some_and(|max| load > max.si())
    };
    let outside = if past(row.fails_below, row.fails_above) { Verdict::Fail } else { Verdict::Advise };
    let to_fail = row.margin_to_fail.map(Amount::si);
    prop_assert_eq!(to_fail.is_some_and(|margin| margin < 0.0), row.verdict == Verdict::Fail, "{}", id);
    let room = match row.check.judge {
        Judge::Rating | Judge::SignedRating | Judge::FlooredRating => {
            let Some(max) = max else {
                // A load below zero fails whatever its rating would be.
                prop_assert!(load < 0.0 && row.used.is_none() && row.verdict == outside, "{id}");
                return Ok(());
            };
            prop_assert!((row.used.expect("a share used").si() - load / max).abs() <= 1e-12, "{id}");
            Some(max)
        }
        Judge::Band => {
            let (min, max) = (min.expect("a band"), max.expect("a band"));
            let place = (2.0 * load - min - max).abs() / (max - min);
            prop_assert!((row.used.expect("a place in the band").si() - place).abs() <= 1e-9, "{id}");
            Some(max - min)
        }
        Judge::Floor | Judge::Ceiling | Judge::Between | Judge::Size => {
            prop_assert!(row.used.is_none(), "{id}");
            None
        }
    };
    let expected = match room {
        _ if margin < 0.0 => outside,
        Some(room) if margin < thin * room => Verdict::Thin,
        _ if row.uneven.is_some_and(|uneven| uneven.margin.si() < 0.0) => Verdict::Thin,
        _ => Verdict::Pass,
    };
    prop_assert_eq!(row.verdict, expected, "{}", id);
    if let Some(used) = row.used.filter(|_| load >= 0.0) {
        prop_assert_eq!(used.si() <= 1.0 + 1e-12, margin >= -1e-12 * max.unwrap_or(1.0), "{}", id);
    }
    Ok(())
}
