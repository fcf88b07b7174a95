//! What European plates and rules ask, worked by hand on a rig that scales and labels describe.

use bunkline::Rig;
use bunkline::fit::{Amount, Assessment, Caution, Verdict, assess, examine};
use bunkline::quantity::Quantity;
use bunkline::quantity::show::UnitSystem::Metric;
use bunkline::rig::inputs::{TRAILER_COUPLER_D_VALUE, TRAILER_DRAWBAR_D_VALUE};
use bunkline::study::plan::{Action, Item, plan};

/// R = 3.5 t, T = 3.0 t, V = 140 kg, so C = 3.36 t.
const RIG: &str = r#"
format = 1
units = "metric"
[trip]
speed = "100 km/h"
[measured]
gross_trailer_weight = "3000 kg"
tongue_weight = "140 kg"
[trailer]
gvwr = "3500 kg"
[[trailer.axles]]
station = "5 m"
braked = true
[trailer.brakes]
kind = "surge"
[trailer.coupler]
d_value = "16.5 kN"
tongue_rating = "150 kg"
[trailer.drawbar]
d_value = "16.4 kN"
dc_value = "16 kN"
v_value = "10 kN"
tongue_rating = "150 kg"
body = "5 m"
[trailer.safety_chains]
count = 2
breaking = "3500 kg"
[hitch]
receiver = "none"
ball_mount = "none"
ball = { d_value = "16.3 kN", tongue_rating = "150 kg" }
[tow]
front_axle_load = "1300 kg"
rear_axle_load = "1500 kg"
wheelbase = "3 m"
ball_overhang = "1 m"
gvwr = "3000 kg"
rear_gawr = "1500 kg"
tongue_rating = "150 kg"
[policy]
rules = "europe"
"#;

fn rig(changes: &[&str]) -> Rig {
    Rig::read("europe.toml", RIG, changes).unwrap_or_else(|problems| panic!("{changes:?}: {problems}"))
}

fn found(changes: &[&str]) -> Assessment {
    assess(&rig(changes)).expect("a trailer at rest")
}

/// A row's load and its least and greatest limits, in kilonewtons of a force, in kilograms of a weight, else as they are.
#[track_caller]
fn row(found: &Assessment, id: &str) -> (Verdict, [Option<f64>; 3]) {
    let row = found.check(id).unwrap_or_else(|| panic!("no row {id}"));
    let plain = |amount: Amount| match amount {
        Amount::Force(force) => force.si() / 1000.0,
        Amount::Weight(weight) => weight.si() / 9.806_65,
        other => other.si(),
    };
    (row.verdict, [row.load, row.min, row.max].map(|amount| amount.map(plain)))
}

#[track_caller]
fn holds(changes: &[&str], id: &str, verdict: Verdict, load: f64, limit: f64) {
    let found = found(changes);
    let (is, [has, min, max]) = row(&found, id);
    assert_eq!(is, verdict, "{id} with {changes:?}: {has:?}");
    // The figures below are worked to six places.
    assert!((has.unwrap() - load).abs() < 1e-5, "{id}: {has:?}, by hand {load}");
    assert!([min, max].iter().flatten().any(|is| (is - limit).abs() < 1e-5), "{id}: {min:?} {max:?} {limit}");
}

#[test]
fn d_is_held_against_the_least_plate() {
    // 9.81 × 3.0 × 3.5 / 6.5 = 15.846923 kN
    holds(&[], "coupling-d", Verdict::Thin, 15.846_923, 16.3);
    holds(&["hitch.ball.d_value=20 kN"], "coupling-d", Verdict::Thin, 15.846_923, 16.4);
    for plate in ["hitch.ball", "trailer.coupler", "trailer.drawbar"] {
        let change = format!("{plate}.d_value=15.84 kN");
        holds(&[&change], "coupling-d", Verdict::Fail, 15.846_923, 15.84);
        let change = format!("{plate}.d_value=15.85 kN");
        holds(&[&change], "coupling-d", Verdict::Thin, 15.846_923, 15.85);
    }
    // A trailer that weighs more than its GVWR pulls with what it weighs: 9.81 × 3.0 × 4.0 / 7.0 = 16.817143
    let heavy = ["measured.gross_trailer_weight=4 t"];
    holds(&heavy, "coupling-d", Verdict::Fail, 16.817_143, 16.3);
}

#[test]
fn a_plate_that_the_file_does_not_state_leaves_d_open() {
    let without = |key: &str, more: &str| {
        let text = RIG.replace(key, "");
        let rig = Rig::read("europe.toml", &text, &[more]).expect("a rig");
        let found = assess(&rig).expect("a trailer at rest");
        let row = found.check("coupling-d").expect("a row").clone();
        (row.verdict, row.missing.iter().map(ToString::to_string).collect::<Vec<_>>())
    };
    let ball = "d_value = \"16.3 kN\", ";
    let missing = vec!["hitch.ball.d_value".to_string()];
    assert_eq!(without(ball, "policy.rules=europe"), (Verdict::NotChecked, missing));
    // It is past another all the same. Elsewhere the plates that are stated are all that is asked.
    assert_eq!(without(ball, "trailer.coupler.d_value=15 kN"), (Verdict::Fail, vec![]));
    assert_eq!(without(ball, "policy.rules=us"), (Verdict::Thin, vec![]));
    // Beside the plates it names what else D needs.
    let both = [ball, "\ngvwr = \"3000 kg\""].iter().fold(RIG.to_string(), |text, key| text.replace(key, ""));
    let found = assess(&Rig::parse(&both).expect("a rig")).expect("a trailer at rest");
    let missing = &found.check("coupling-d").expect("a row").missing;
    let missing: Vec<String> = missing.iter().map(ToString::to_string).collect();
    assert_eq!(missing, ["tow.gvwr", "hitch.ball.d_value"]);
    let drawbar = "d_value = \"16.4 kN\"\n";
    assert_eq!(without(drawbar, "policy.rules=us").1, ["trailer.drawbar.d_value"]);
}

#[test]
fn dc_leaves_the_nose_weight_out() {
    // 9.81 × 3.0 × 3.36 / 6.36 = 15.547925 kN
    holds(&["trailer.drawbar.dc_value=15.55 kN"], "coupling-dc", Verdict::Thin, 15.547_925, 15.55);
    holds(&["trailer.drawbar.dc_value=15.54 kN"], "coupling-dc", Verdict::Fail, 15.547_925, 15.54);
}

#[test]
fn v_is_asked_for_above_three_and_a_half_tonnes() {
    assert!(found(&[]).check("coupling-v").is_none());
    assert!(found(&["trailer.gvwr=3501 kg"]).check("coupling-v").is_some());
    // C = 4000 − 140 = 3860 kg: 2.4 × 3.86 = 9.264 kN; on air 1.8 × 3.86 = 6.948.
    let heavy = "trailer.gvwr=4 t";
    holds(&[heavy], "coupling-v", Verdict::Thin, 9.264, 10.0);
    holds(&[heavy, "trailer.drawbar.v_value=9.26 kN"], "coupling-v", Verdict::Fail, 9.264, 9.26);
    holds(&[heavy, "tow.air_suspension=true"], "coupling-v", Verdict::Pass, 6.948, 10.0);
    // A body of 6 m over 5 m: 1.44 × 9.264 = 13.34016. Shorter than to the axles it counts once.
    holds(&[heavy, "trailer.drawbar.body=6 m"], "coupling-v", Verdict::Fail, 13.340_16, 10.0);
    holds(&[heavy, "trailer.drawbar.body=4 m"], "coupling-v", Verdict::Thin, 9.264, 10.0);
}

#[test]
fn s_is_held_against_each_plate() {
    for (id, key) in [("ball-tongue", "hitch.ball"), ("drawbar-tongue", "trailer.drawbar")] {
        let with = |s: &str| format!("{key}.tongue_rating={s}");
        holds(&[&with("141 kg")], id, Verdict::Thin, 140.0, 141.0);
        holds(&[&with("139 kg")], id, Verdict::Fail, 140.0, 139.0);
    }
}

#[test]
fn nose_weight_has_a_least_and_a_greatest() {
    // 4 % of 3000 is 120 kg: 25 kg are enough. 4 % of 500 is 20.
    let tongue = |kilograms: &str| format!("measured.tongue_weight={kilograms} kg");
    holds(&[&tongue("25.1")], "nose-least", Verdict::Pass, 25.1, 25.0);
    holds(&[&tongue("24.9")], "nose-least", Verdict::Advise, 24.9, 25.0);
    let light = "measured.gross_trailer_weight=500 kg";
    holds(&[light, &tongue("20.1")], "nose-least", Verdict::Pass, 20.1, 20.0);
    holds(&[light, &tongue("19.9")], "nose-least", Verdict::Advise, 19.9, 20.0);
    // 10 % of the GVWR of 3500 kg is 350. Of 12 t it is 1200 kg, more than 10 kN, which are 1019.716213 kg.
    holds(&[&tongue("349")], "nose-greatest", Verdict::Pass, 349.0, 350.0);
    holds(&[&tongue("351")], "nose-greatest", Verdict::Advise, 351.0, 350.0);
    let large = "trailer.gvwr=12 t";
    holds(&[large, &tongue("1019")], "nose-greatest", Verdict::Pass, 1019.0, 1_019.716_213);
    holds(&[large, &tongue("1020")], "nose-greatest", Verdict::Advise, 1020.0, 1_019.716_213);
}

#[test]
fn a_rear_axle_may_carry_more_up_to_100_km_an_hour() {
    // 1500 + 140 × 4 / 3 = 1686.666667 kg; 1.15 × 1500 = 1725, 1.15 × 1466 = 1685.9.
    let id = "tow-rear-axle";
    holds(&[], id, Verdict::Thin, 1_686.666_667, 1725.0);
    let cautioned = |changes: &[&str]| {
        examine(&rig(changes)).expect("a trailer at rest").cautions.contains(&Caution::RearAxleOverRating)
    };
    assert!(cautioned(&[]));
    assert!(!cautioned(&["tow.rear_gawr=1700 kg"]) && !cautioned(&["tow.rear_gawr=1466 kg"]));
    holds(&["tow.rear_gawr=1466 kg"], id, Verdict::Fail, 1_686.666_667, 1685.9);
    holds(&["trip.speed=101 km/h"], id, Verdict::Fail, 1_686.666_667, 1500.0);
    holds(&["policy.rules=us"], id, Verdict::Fail, 1_686.666_667, 1500.0);
    let silent = Rig::parse(&RIG.replace("speed = \"100 km/h\"\n", "")).expect("a rig");
    let silent = assess(&silent).expect("a trailer at rest");
    assert_eq!(row(&silent, id).0, Verdict::Fail);
}

#[test]
fn brakes_go_by_the_gvwr() {
    let unbraked = RIG.replace("braked = true\n[trailer.brakes]\nkind = \"surge\"\n", "braked = false\n");
    let verdict = |changes: &[&str]| {
        let rig = Rig::read("europe.toml", &unbraked, changes).expect("a rig");
        row(&assess(&rig).expect("a trailer at rest"), "brakes-required").0
    };
    let light = "measured.gross_trailer_weight=700 kg";
    assert_eq!(verdict(&[light, "trailer.gvwr=750 kg"]), Verdict::Pass);
    assert_eq!(verdict(&[light, "trailer.gvwr=751 kg"]), Verdict::Fail);
    assert_eq!(verdict(&[light, "trailer.gvwr=751 kg", "policy.rules=us"]), Verdict::Pass);
    // Surge brakes up to 3.5 t, which is 1.166667 times 3.0 t; 3501 kg are 1.167 times.
    holds(&[], "surge-ratio", Verdict::Pass, 1.166_667, 1.166_667);
    holds(&["trailer.gvwr=3501 kg"], "surge-ratio", Verdict::Advise, 1.167, 1.166_667);
    holds(&["trailer.gvwr=3501 kg", "policy.rules=us"], "surge-ratio", Verdict::Pass, 1.167, 1.75);
}

#[test]
fn rules_make_rows_and_the_usual_band_and_are_named_on_the_page() {
    let asked = |rules: &str| {
        let found = found(&[&format!("policy.rules={rules}")]);
        ["nose-least", "nose-greatest", "safety-chains", "coupling-d"].map(|id| found.check(id).is_some())
    };
    assert_eq!(asked("europe"), [true, true, false, true]);
    // A plate is held against what pulls wherever it is stated.
    assert_eq!(asked("us"), [false, false, true, true]);
    let band = |rig: &Rig| {
        let band = rig.proposed().policy.tongue_share;
        [band.min, band.max].map(|end| (end.expect("a default").si() * 100.0).round())
    };
    // What stands where the file is silent follows the rules, also those of a change.
    assert_eq!(band(&rig(&[])), [4.0, 10.0]);
    assert_eq!(band(&rig(&["policy.rules=us"])), [7.0, 12.0]);
    assert_eq!(rig(&[]).with("policy.rules=us").map(|rig| band(&rig)), Ok([7.0, 12.0]));
    let us = Rig::parse(&RIG.replace("\"europe\"", "\"us\"")).expect("a rig");
    assert_eq!(assess(&us), assess(&rig(&["policy.rules=us"])));
    assert_eq!(band(&us.with("policy.rules=europe").expect("a rig")), [4.0, 10.0]);
    let page = crate::reasons::page_of(&rig(&[]));
    assert!(page.contains("By policy.rules = \"europe\"."), "{page}");
    assert!(!crate::reasons::page_of(&us).contains("policy.rules"));
}

#[test]
fn the_plan_buys_the_parts_whose_plates_say_too_little() {
    // 15.846923 kN are needed: 16 is the next half kilonewton. The ball's 16.3 stays.
    let changes =
        ["trailer.coupler.d_value=15 kN", "trailer.drawbar.d_value=15.5 kN", "tow.rear_gawr=1600 kg"];
    let plan = plan(&rig(&changes)).expect("a trailer at rest").expect("it fails");
    let bought = plan.steps.iter().map(|step| match &step.action {
        Action::Replace { item, figures, .. } => {
            (*item, figures.iter().map(|figure| (figure.key, figure.to)).collect())
        }
        other => panic!("{other:?}"),
    });
    let force = |kilonewtons: f64| Amount::from_si(bunkline::fit::Measure::Force, 1000.0 * kilonewtons);
    let expected: Vec<(Item, Vec<_>)> = vec![
        (Item::Coupler, vec![(TRAILER_COUPLER_D_VALUE.key(), force(16.0))]),
        (Item::Drawbar, vec![(TRAILER_DRAWBAR_D_VALUE.key(), force(16.0))]),
    ];
    assert_eq!(bought.collect::<Vec<_>>(), expected);
    let written: Vec<&str> =
        plan.steps.iter().flat_map(|step| &step.settings).map(|set| set.to.as_str()).collect();
    assert_eq!(written, ["16 kN", "16 kN"]);
    assert_eq!(plan.after.fails, Vec::<String>::new());
}

#[test]
fn a_force_is_not_stated_as_a_mass() {
    // Beside D the plate states masses, which would be taken for ten times too much or too little.
    let refused = Rig::read("europe.toml", RIG, &["trailer.coupler.d_value=3500 kg"]);
    let said = refused.expect_err("a mass").to_string();
    assert!(said.contains("force"), "{said}");
    let rig = rig(&["trailer.coupler.d_value=15900 N"]);
    assert_eq!(TRAILER_COUPLER_D_VALUE.get(rig.proposed()).map(Quantity::si), Some(15_900.0));
    assert_eq!(Metric.force(TRAILER_COUPLER_D_VALUE.get(rig.proposed()).expect("stated")), "15.90 kN");
}

/// Deleting the drawbar's plates takes no row away: what is not known is named.
#[test]
fn a_drawbar_that_is_deleted_is_not_checked() {
    let text = include_str!("../../demo-data/pilot-cutter-metric.toml");
    let (before, rest) = text.split_once("[trailer.drawbar]").expect("a drawbar");
    let (_, after) = rest.split_once("[trailer.jack]").expect("the next section");
    let without = bunkline::Rig::parse(&format!("{before}[trailer.jack]{after}")).expect("it reads");
    let found = bunkline::fit::assess(&without).expect("at rest");
    for id in ["drawbar-tongue", "coupling-dc"] {
        let row = found.check(id).unwrap_or_else(|| panic!("no row {id}"));
        assert_eq!(row.verdict, bunkline::fit::Verdict::NotChecked);
        assert!(row.missing.iter().any(|key| key.path.starts_with("trailer.drawbar.")), "{:?}", row.missing);
    }
}
