//! The demo rigs against loads worked by hand, and their reports as people and programs read them.
//!
//! Hand work is in lb and in (kg and mm for the cutter). `M` is a moment about the ball, `x̄` the mean axle
//! station. At the reference load with the ball at its level height the statics are exact, so the
//! tolerance there is 0.01 of a unit, the rounding of the hand figures. Where the frame pitches a little,
//! the hand figure holds to first order in the pitch and the tolerance says so.

use approx::assert_abs_diff_eq;
use bunkline::fit::{Assessment, CaseLoads, RigVerdict};
use bunkline::quantity::Weight;
use bunkline::quantity::show::UnitSystem;
use bunkline::report::check::Wanted;
use bunkline::report::{Subject, check, json, text};
use bunkline::study::uncertainty;
use bunkline::{Rig, fit};

const EXACT: f64 = 0.01;
/// First order in a pitch below 0.4°: what is left out is of the order of 1e-4 of the load.
const FIRST_ORDER: f64 = 0.6;

fn demo(name: &str) -> (Rig, Assessment) {
    let path = format!("{}/demo-data/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    let content = std::fs::read_to_string(path).expect("the demo is there");
    let rig = Rig::read(name, &content, &[] as &[&str]).expect("the demo reads");
    let assessment = fit::assess(&rig).expect("the demo settles");
    (rig, assessment)
}

fn pounds(weight: Weight) -> f64 {
    UnitSystem::Us.weight_number(weight)
}

fn kilograms(weight: Weight) -> f64 {
    UnitSystem::Metric.weight_number(weight)
}

fn tongue(case: &CaseLoads) -> Weight {
    case.level.as_ref().expect("the loads are known").stance.tongue_weight
}

fn axle(case: &CaseLoads, axle: usize) -> Weight {
    case.level.as_ref().expect("the loads are known").stance.axle_loads[axle]
}

fn lifted(case: &CaseLoads, axle: usize) -> Weight {
    let lifted = case.lifted.as_ref().expect("there are several axles");
    lifted.as_ref().expect("the loads are known").stance.axle_loads[axle]
}

#[test]
fn survey_launch_as_found() {
    let (_, found) = demo("survey-launch-as-found");
    let first = &found.cases[0];
    // Fuel 110 gal × 6.1 = 671. Boat 5600 + 1100 + 180 + 420 + 671 = 7971.
    assert_abs_diff_eq!(pounds(*first.boat.as_ref().unwrap()), 7971.0, epsilon = EXACT);
    assert_abs_diff_eq!(pounds(*first.gross.as_ref().unwrap()), 10_371.0, epsilon = EXACT);
    // About the transom: 5600·116 − 1100·14 + 180·18 + 420·150 + 671·86 = 758 146. The transom lies at
    // 62 + 274 = 336: M = 7971·336 − 758 146 = 1 920 110. Trailer: x̄ = 248, (2400 − 260)·248 = 530 720.
    // M = 2 450 830; V = 10 371 − 2 450 830/248 = 488.62; N = 2 450 830/744 = 3294.13 each.
    assert_abs_diff_eq!(pounds(tongue(first)), 488.62, epsilon = EXACT);
    for i in 0..3 {
        assert_abs_diff_eq!(pounds(axle(first, i)), 3294.13, epsilon = EXACT);
    }
    // Rear axle lifted. Springs: 4400/2.25 = 1955.6 lb/in over tires 2·2000 = 4000: k = 1313.4 lb/in. To
    // first order N = M/464 = 5282, 1988 more than level: the frame sinks 1988/1313.4 = 1.514 in at the two
    // axles' mean, 232 in: φ = 0.00652 nose up. That carries the centre of gravity, W zc = 250 200 lb·in above
    // the ball, aft, and the hubs, 20 − 12.74 = 7.26 in below it, forward:
    // N = (2 450 830 + 250 200·0.00652 + 10 564·7.26·0.00652)/464 = 5286.6 each.
    for i in 0..2 {
        assert_abs_diff_eq!(pounds(lifted(first, i)), 5286.6, epsilon = FIRST_ORDER);
    }
    // Tow vehicle: b = 157, o = 50: R = 3350 + 488.62·207/157 = 3994.23, F = 4350 − 488.62·50/157 = 4194.39.
    let tow = first.tow.as_ref().unwrap();
    assert_abs_diff_eq!(pounds(tow.rear), 3994.23, epsilon = EXACT);
    assert_abs_diff_eq!(pounds(tow.front), 4194.39, epsilon = EXACT);
    // Jack at 26: 488.62·248/(248 − 26) = 545.85.
    assert_abs_diff_eq!(pounds(*first.jack.as_ref().unwrap()), 545.85, epsilon = EXACT);

    assert_eq!(found.verdict, RigVerdict::Fail);
    let failing = ids(&found, fit::Verdict::Fail);
    let expected = [
        "tongue-share",
        "lifted-axle-1",
        "lifted-axle-2",
        "lifted-tire-1",
        "lifted-tire-2",
        "coupler",
        "bunk-transom-support",
        "bunk-bending-vertical",
        "bunk-shear-vertical",
        "crossmember-3",
    ];
    assert_eq!(failing, expected);
}

#[test]
fn survey_launch_as_changed() {
    let (_, found) = demo("survey-launch-as-changed");
    let first = &found.cases[0];
    // The boat 13 in forward: M = 2 450 830 − 7971·13 = 2 347 207. V = 10 371 − 2 347 207/248 = 906.45.
    // The axles carry 417.8 less than where the springs were measured, 139.3 each; k = 2311.1 in series
    // with 4000 = 1464.8: the tail rises 0.095 in at 248 in, φ = −0.000384, which takes
    // (250 200 + 9464·(20 − 13.30))·0.000384 = 120 lb·in off M and adds 120/248 = 0.48 to V: 906.93.
    // The correction itself is 0.48: what the second order leaves out is a tenth of it at the most.
    assert_abs_diff_eq!(pounds(tongue(first)), 906.93, epsilon = 0.05);
    assert_eq!(found.verdict, RigVerdict::Pass);
    // By hand 0.55 on a grade of 10 % (tests/mechanics/traverse/traction.rs); the slip gives 0.55.
    // And home again the brakes of axle 1 ask for 1154 lb of the 1563 lb that it carries in a stop: 0.74, past 0.5.
    // On 10 % the tow vehicle's rear tires stand 10 % of the way from the trailer's wheels, 27 ft 6 in, shallower than these:
    // 53 less 33 in. The tailpipe, 15 in up and 40 in aft of them, is 20 + 4 - 15 = 9 in under.
    let advised = ["ramp-traction-drive", "brake-grip-1", "launch-tow-tire", "launch-tailpipe"];
    assert_eq!(ids(&found, fit::Verdict::Advise), advised);
}

#[test]
fn fishing_skiff() {
    let (_, found) = demo("fishing-skiff");
    let only = &found.cases[0];
    // Fuel 24 × 6.1 = 146.4; boat 1250 + 430 + 120 + 146.4 = 1946.4. About the transom: 1250·96 − 430·12 +
    // 120·72 + 146.4·30 = 127 872; transom at 48 + 184 = 232: M = 451 564.8 − 127 872 = 323 692.8. Trailer
    // (640 − 70)·180 = 102 600. N = 426 292.8/180 = 2368.29; V = 2586.4 − 2368.29 = 218.11.
    assert_abs_diff_eq!(pounds(axle(only, 0)), 2368.29, epsilon = EXACT);
    assert_abs_diff_eq!(pounds(tongue(only)), 218.11, epsilon = EXACT);
    // The ice chest: 120·10 = 1200 lb·in over 2368.29 = 0.5067 in; of the track, 68 in, 0.00745:
    // the heavier tire carries 2368.29·0.50745 = 1201.79.
    let level = only.level.as_ref().unwrap();
    assert_abs_diff_eq!(pounds(level.tire_loads.as_ref().unwrap()[0]), 1201.79, epsilon = EXACT);
    assert!(only.lifted.is_none());
    // Tow vehicle: R = 2050 + 218.11·176/128 = 2349.90.
    assert_abs_diff_eq!(pounds(only.tow.as_ref().unwrap().rear), 2349.90, epsilon = EXACT);
    assert_eq!(found.verdict, RigVerdict::Pass);
}

#[test]
fn electric_day_launch() {
    let (rig, found) = demo("electric-day-launch");
    let only = &found.cases[0];
    // Scales: 5180 with 790 on the tongue; (5180 − 790)/2 = 2195 on each axle. Boat 5180 − 1350 = 3830.
    assert_abs_diff_eq!(pounds(tongue(only)), 790.0, epsilon = EXACT);
    assert_abs_diff_eq!(pounds(axle(only, 0)), 2195.0, epsilon = EXACT);
    assert_abs_diff_eq!(pounds(*only.boat.as_ref().unwrap()), 3830.0, epsilon = EXACT);
    assert_eq!(found.verdict, RigVerdict::Fail);
    assert_eq!(found.rows[0].verdict, fit::Verdict::Fail);
    // 12 % is 621.6: 168.4 less on the tongue. x̄ = 200: 168.4·200/3830 = 8.79 in aft by the statics of equal
    // sharing; the frame's pitch adds or takes a hundredth.
    let findings = fit::examine(&rig).unwrap();
    let by = findings.cures[0].1.iter().find_map(|cure| match cure {
        fit::Cure::MoveBoat { by, room: fit::Room::Within, .. } => Some(UnitSystem::Us.length_number(*by)),
        _ => None,
    });
    // 84 lb more on each axle sink 1217 lb/in springs 0.07 in at 200 in, φ = 0.00035: it moves some 38 lb·in, which
    // 3830 lb of boat make up in 0.01 in.
    assert_abs_diff_eq!(by.expect("moving the boat cures it"), 8.79, epsilon = 0.02);
}

#[test]
fn pilot_cutter() {
    let (_, found) = demo("pilot-cutter");
    let first = &found.cases[0];
    // Diesel: 160 L × 7.1 lb/gal = 160 × 0.850768 = 136.12; water 30. Boat 2140 + 95 + 60 + 136.12 + 30 =
    // 2461.12. About the transom: 2140·2620 + 95·6050 + 60·1400 + 136.12·1850 + 30·4300 = 6 646 377. Transom at
    // 1180 + 6480 = 7660: M = 18 852 202 − 6 646 377 = 12 205 825; trailer (3500 − 2750)·4420 = 3 315 000.
    // V = 3211.12 − 15 520 825/5320 = 293.68; N = 15 520 825/10 640 = 1458.72.
    assert_abs_diff_eq!(kilograms(*first.boat.as_ref().unwrap()), 2461.12, epsilon = EXACT);
    assert_abs_diff_eq!(kilograms(tongue(first)), 293.68, epsilon = EXACT);
    assert_abs_diff_eq!(kilograms(axle(first, 0)), 1458.72, epsilon = EXACT);
    assert_abs_diff_eq!(kilograms(axle(first, 1)), 1458.72, epsilon = EXACT);
    // Side: 60·800/2917.44 = 16.45 mm to port, of the track 0.00844: 1458.72·0.50844 = 741.67.
    let level = first.level.as_ref().unwrap();
    assert_abs_diff_eq!(kilograms(level.tire_loads.as_ref().unwrap()[0]), 741.67, epsilon = EXACT);
    assert_eq!(found.verdict, RigVerdict::Pass);
}

#[test]
fn crab_boat() {
    let (rig, found) = demo("crab-boat");
    let first = &found.cases[0];
    // Fuel 60 × 6.1 = 366. Transom at 60 + 234 = 294. About the ball: 3300·(294 − 98) + 480·(294 + 16) +
    // 260·(294 − 48) + 366·(294 − 42) = 646 800 + 148 800 + 63 960 + 92 232 = 951 792; trailer: x̄ = 232,
    // (1250 − 120)·232 = 262 160. V = 5656 − 1 213 952/232 = 423.45, 7.4868 % of 5656; N = 1 213 952/464 = 2616.28.
    assert_abs_diff_eq!(pounds(tongue(first)), 423.45, epsilon = EXACT);
    assert_abs_diff_eq!(pounds(axle(first, 0)), 2616.28, epsilon = EXACT);
    assert_eq!(found.verdict, RigVerdict::Pass);

    let (findings, uncertainty) = uncertainty::examine(&rig).expect("the demo settles");
    assert_eq!(findings.assessment.verdict, RigVerdict::Unsure);
    assert_eq!(ids(&findings.assessment, fit::Verdict::Unsure), ["tongue-share", "trailer-gvwr"]);
    let uncertainty = uncertainty.expect("it states bounds");
    let worst = |row: usize| uncertainty.corners[row].as_ref().unwrap().margin.unwrap().si();
    // The share is least with the hull light and aft (its share of the tongue is over 7 %), the pots (behind the
    // axles) and the trailer heavy: 3200·(294 − 95) + 148 800 + 300·246 + 92 232 = 951 632 of boat and
    // (1280 − 120)·232 = 269 120 of trailer. W = 5626; V = 5626 − 1 220 752/232 = 364.138, a share of 0.0647242: 0.0052758
    // under 7 %. At each corner the frame sits level as measured, so the statics are exact.
    assert_abs_diff_eq!(worst(0), -0.005_275_8, epsilon = 1e-7);
    // Gross: 5656 + 100 + 40 + 30 = 5826, 26 over 5800.
    let gross = findings.assessment.rows.iter().position(|row| row.id() == "trailer-gvwr").unwrap();
    assert_abs_diff_eq!(worst(gross) / (0.453_592_37 * 9.806_65), -26.0, epsilon = EXACT);
}

#[test]
fn pilot_cutter_behind_a_european_bracket() {
    let (_, found) = demo("pilot-cutter-metric");
    let first = &found.cases[0];
    // Diesel 160 L × 0.850768 kg/L = 136.1228; boat 2140 + 95 + 136.1228 = 2371.1228; gross 3121.1228. About the transom:
    // 2140·2620 + 95·6050 + 136.1228·1850 = 6 433 377.2; transom at 1160 + 6480 = 7640: M = 2371.1228·7640 − 6 433 377.2 +
    // 750·4420 = 14 997 001.1; x̄ = 5320: V = 3121.1228 − 2818.9852 = 302.1376.
    assert_abs_diff_eq!(kilograms(*first.gross.as_ref().unwrap()), 3121.1228, epsilon = EXACT);
    assert_abs_diff_eq!(kilograms(tongue(first)), 302.1376, epsilon = EXACT);
    let load = |id: &str| found.check(id).unwrap().load.unwrap().si();
    // D = 9.81 × 3.2 × 3.5 / 6.7 = 16.3988 kN; C = 3.5 − 0.3021 t: Dc = 9.81 × 3.2 × 3.1979 / 6.3979 = 15.6908.
    assert_abs_diff_eq!(load("coupling-d") / 1000.0, 16.3988, epsilon = 1e-4);
    assert_abs_diff_eq!(load("coupling-dc") / 1000.0, 15.6908, epsilon = 1e-4);
    assert_eq!(found.verdict, RigVerdict::Pass);
    // A tandem's rear axle lifted: as of most, past the rating of the other.
    assert_eq!(ids(&found, fit::Verdict::Advise).iter().filter(|id| !id.starts_with("lifted-")).count(), 0);
}

fn ids(found: &Assessment, verdict: fit::Verdict) -> Vec<String> {
    found.rows.iter().filter(|row| row.verdict == verdict).map(fit::Row::id).collect()
}

#[test]
fn reports_as_people_and_programs_read_them() {
    insta::glob!("../../demo-data", "*.toml", |path| {
        let content = std::fs::read_to_string(path).expect("the demo is there");
        let name = path.file_name().and_then(|name| name.to_str()).expect("demo files have plain names");
        let rig = Rig::read(name, &content, &[] as &[&str]).expect("the demo reads");
        let (findings, uncertainty) = uncertainty::examine(&rig).expect("the demo settles");
        let uncertainty = uncertainty.as_ref();
        for (units, system) in [("us", UnitSystem::Us), ("metric", UnitSystem::Metric)] {
            let subject = Subject {
                path: name,
                rig: &rig,
                findings: &findings,
                uncertainty,
                as_stated: false,
                units: system,
            };
            let page = text::render(&check::report(&subject, &Wanted::default()), text::WIDTH, false);
            assert!(page.lines().all(|line| line.chars().count() <= 80), "wider than 80 columns");
            insta::assert_snapshot!(format!("text-{units}"), page);
            if units == "us" {
                let full = check::report(&subject, &Wanted { full: true, ..Wanted::default() });
                insta::assert_snapshot!("full", text::render(&full, text::WIDTH, false));
            }
            let document = json::pretty(&subject).expect("a report can be written");
            insta::assert_snapshot!(format!("json-{units}"), rounded(&document));
        }
    });
}

/// The document with its numbers rounded: the last digits of a float are no part of what is promised.
fn rounded(document: &str) -> String {
    fn round(value: &mut serde_json::Value) {
        match value {
            serde_json::Value::Number(number) => {
                let rounded = number.as_f64().map(|number| (number * 1e4).round() / 1e4 + 0.0);
                if let Some(rounded) = rounded.filter(|_| number.is_f64()) {
                    *value = rounded.into();
                }
            }
            serde_json::Value::Array(values) => values.iter_mut().for_each(round),
            serde_json::Value::Object(fields) => fields.values_mut().for_each(round),
            _ => {}
        }
    }
    let mut value = serde_json::from_str(document).expect("the report is JSON");
    round(&mut value);
    serde_json::to_string_pretty(&value).expect("it can be written again")
}
