//! The winch on whole rigs: which place, ramp and case governs, what decides whether a row fails, and what must hold of any.

use crate::cases::cases;
use crate::hand::{RIG, assessed, in_us};
use bunkline::Rig;
use bunkline::fit::{Amount, Assessment, Caution, Row, Subject, Verdict, assess, examine};
use bunkline::quantity::Quantity;
use bunkline::quantity::show::UnitSystem;
use bunkline::report::{self, json};
use bunkline::study::uncertainty;
use proptest::prelude::*;

fn read(text: &str, changes: &[&str]) -> Assessment {
    let rig = Rig::read("winch.toml", text, changes).unwrap_or_else(|problems| panic!("{problems}"));
    assess(&rig).expect("a trailer at rest")
}

fn row<'a>(found: &'a Assessment, id: &str) -> &'a Row {
    found.check(id).unwrap_or_else(|| panic!("no row {id}"))
}

fn load(found: &Assessment, id: &str) -> f64 {
    in_us(row(found, id).load.unwrap_or_else(|| panic!("{id} is not made: {:?}", row(found, id).missing)))
}

fn most(found: &Assessment, id: &str) -> f64 {
    in_us(row(found, id).max.unwrap_or_else(|| panic!("{id} has no limit")))
}

/// The rig with a boat, a ramp and a case more: 20 % of which the water reaches the first run.
const TWO_RAMPS: &str = r#"
[[ramps]]
name = "steep"
profile = [ { length = "30 ft", grade = "16 %" }, { length = "30 ft", grade = "20 %" } ]
[[cases]]
name = "all aboard"
[[cases]]
name = "crew ashore"
without = ["crew"]
"#;

fn two_ramps() -> String {
    let crew =
        "[[boat.weights]]\nid = \"crew\"\nweight = \"500 lb\"\nstation = \"100 in\"\nheight = \"30 in\"\n";
    RIG.replacen("[[boat.weights]]", &format!("{crew}[[boat.weights]]"), 1) + TWO_RAMPS
}

#[test]
fn each_ramp_and_case_is_pulled_on_and_the_worst_is_named() {
    let found = read(&two_ramps(), &[]);
    assert_eq!(found.winch.len(), 4);
    let pull = row(&found, "winch-pull");
    assert_eq!((pull.ramp, pull.case), (Some(1), Some(0)));
    let worst = found.winch.iter().find(|winch| (winch.ramp, winch.case) == (Some(1), 0)).expect("it");
    // Its last run, where the file does not say where the water is.
    assert!((worst.slope.clone().expect("a grade").si() - 0.20).abs() < 1e-12);
    let needed = worst.home.needed.clone().expect("known").expect("it moves");
    assert!((needed.si() - pull.load.expect("made").si()).abs() < 1e-9);
    for winch in &found.winch {
        let other = winch.home.needed.clone().expect("known").expect("it moves");
        assert!(other <= needed);
    }
    // At the water, where the file says where that is: on the first run, at its end, on the second.
    for (water, grade) in [("10 ft", 0.16), ("30 ft", 0.20), ("31 ft", 0.20), ("90 ft", 0.20)] {
        let found = read(&two_ramps(), &[&format!("ramps.2.water_from_top={water}")]);
        let slope = found.winch.iter().find(|winch| winch.ramp == Some(1)).expect("it").slope.clone();
        assert!((slope.expect("a grade").si() - grade).abs() < 1e-12, "{water}");
    }
    let found = read(&two_ramps(), &["ramps.2.water_level=-2 ft"]);
    let slope = found.winch.iter().find(|winch| winch.ramp == Some(1)).expect("it").slope.clone();
    assert!((slope.expect("a grade").si() - 0.16).abs() < 1e-12);
    // The sections of a full report and JSON have what was found.
    let rig = Rig::read("rig.toml", &two_ramps(), &[] as &[&str]).expect("it reads");
    let findings = examine(&rig).expect("it rests");
    let subject = report::Subject {
        path: "rig.toml",
        rig: &rig,
        findings: &findings,
        uncertainty: None,
        as_stated: false,
        units: UnitSystem::Us,
    };
    let document: serde_json::Value =
        serde_json::from_str(&json::report(&subject).expect("JSON")).expect("JSON");
    let ramps = &document["cases"][0]["winch"]["ramps"];
    assert_eq!((&ramps[0]["ramp"], &ramps[1]["ramp"]), (&"ramp 1".into(), &"steep".into()));
    let shown = ramps[1]["home"]["needed"].as_f64().expect("a number");
    assert!((shown - in_us(pull.load.expect("made"))).abs() < 1e-6, "{shown}");
    assert_eq!(document["cases"][1]["winch"]["drive"], "electric");
}

/// What the table says that the winch is good for is what the row goes by, and 1.3 times that is what it gives.
#[test]
fn table_and_row_agree_on_what_the_winch_is_good_for() {
    let found = assessed(&[]);
    let home = &found.winch[0].home;
    let good_for = home.good_for().expect("known").si();
    assert!((good_for - row(&found, "winch-pull").max.expect("a limit").si()).abs() < 1e-9);
    assert!((good_for * 1.3 - home.pull.clone().expect("known").si()).abs() < 1e-9);
}

#[test]
fn without_a_ramp_the_pull_is_not_checked_and_names_one() {
    let (level, _) = RIG.split_once("[[ramps]]").expect("a ramp");
    let found = read(level, &[]);
    for id in ["winch-pull", "winch-strap", "bow-eye", "winch-post", "winch-hand", "winch-battery"] {
        let row = row(&found, id);
        assert_eq!(row.verdict, Verdict::NotChecked, "{id}");
        let missing: Vec<String> = row.missing.iter().map(ToString::to_string).collect();
        assert_eq!(missing, ["ramps.1.profile.1.grade"], "{id}");
    }
    for id in ["winch-strap-breaking", "winch-drum"] {
        assert_eq!(row(&found, id).verdict, Verdict::Pass, "{id}");
    }
    // Without a winch there is no row of it, and it is not covered.
    let (before, after) = level.split_once("[trailer.winch]").expect("a winch");
    let (_, after) = after.split_once("[[trailer.tie_downs]]").expect("tie-downs");
    let found = read(&format!("{before}[[trailer.tie_downs]]{after}"), &[]);
    assert!(found.rows.iter().all(|row| row.check.subject != Subject::Winch));
    assert!(found.not_covered.contains(&Subject::Winch) && !found.not_covered.contains(&Subject::TieDowns));
}

#[test]
fn the_place_that_uses_more_of_the_winch_governs() {
    // With hardly any strap on the drum the line's lift makes home the easier place.
    let found = assessed(&["trailer.winch.strap.length=25 in"]);
    let winch = &found.winch[0];
    let at = |place: &bunkline::fit::AtPlace| {
        place.needed.clone().expect("known").expect("it moves") / place.pull.clone().expect("known")
    };
    assert!(at(&winch.far_out) > at(&winch.home));
    assert!((load(&found, "winch-pull") - load(&found, "winch-strap")).abs() < 1e-9);
    assert!((most(&found, "winch-pull") - 4000.0 / 1.3).abs() < 1e-6);
    let found = assessed(&[]);
    assert!(at(&found.winch[0].home) > at(&found.winch[0].far_out));
    assert!(load(&found, "winch-pull") < load(&found, "winch-strap"), "eye and strap take the greater");
}

#[test]
fn only_a_pull_that_rests_on_nothing_assumed_fails() {
    // The boat needs some 1700 lb.
    let weak = "trailer.winch.rating=2000 lb";
    assert_eq!(row(&assessed(&[weak]), "winch-pull").verdict, Verdict::Fail);
    for line in ["afloat = \"30 %\"\n", "friction = \"30 %\"\n"] {
        let found = read(&RIG.replace(line, ""), &[weak]);
        let row = row(&found, "winch-pull");
        assert_eq!((row.verdict, row.counts), (Verdict::Advise, false), "without {line}");
    }
    // How a rope lies on the drum is not known, and the drum's width would have to be.
    let rope = read(RIG, &[weak, "trailer.winch.strap.kind=wire"]);
    assert_eq!(row(&rope, "winch-pull").verdict, Verdict::Advise);
    assert!(rope.check("winch-drum").is_none());
    // A working limit that is a third of the breaking strength advises; one that is stated fails.
    let strap = RIG.replace(", working = \"3500 lb\"", "");
    let found = read(&strap, &["trailer.winch.strap.breaking=4500 lb"]);
    assert!((most(&found, "winch-strap") - 1500.0).abs() < 1e-6);
    assert_eq!(row(&found, "winch-strap").verdict, Verdict::Advise);
    assert_eq!(
        row(&assessed(&["trailer.winch.strap.working=1500 lb"]), "winch-strap").verdict,
        Verdict::Fail
    );
    assert_eq!(row(&assessed(&["boat.bow_eye.rating=1500 lb"]), "bow-eye").verdict, Verdict::Fail);
}

#[test]
fn an_assumed_friction_is_tried_at_both_ends() {
    let assumed = RIG.replace("friction = \"30 %\"\n", "");
    // 4200 lb up 12 %: at a friction of 45 % wedged by 18° some 2470 lb, at 30 % some 1820.
    let rig = Rig::read("rig.toml", &assumed, &["boat.bow_eye.rating=2200 lb"]).expect("it reads");
    let (findings, _) = uncertainty::examine(&rig).expect("it rests");
    let row = findings.assessment.check("bow-eye").expect("it");
    assert_eq!(row.verdict, Verdict::Unsure, "{row:?}");
    let range = row.range.as_ref().expect("a range");
    assert_eq!(range.keys.iter().map(ToString::to_string).collect::<Vec<_>>(), ["trailer.bunks.friction"]);
    let end = |friction: &str| load(&assessed(&[&format!("trailer.bunks.friction={friction}")]), "bow-eye");
    assert!((in_us(range.low) - end("15 %")).abs() < 1e-6 && (in_us(range.high) - end("45 %")).abs() < 1e-6);
}

#[test]
fn one_missing_figure_hides_no_failure_far_out() {
    let no_core = RIG.replace("core = \"2.5 in\"\n", "");
    let found = read(&no_core, &[]);
    let pull = row(&found, "winch-pull");
    assert_eq!(pull.verdict, Verdict::NotChecked);
    let missing: Vec<String> = pull.missing.iter().map(ToString::to_string).collect();
    assert_eq!(missing, ["trailer.winch.core"]);
    // Far out the first layer pulls, whatever the drum measures.
    assert_eq!(row(&read(&no_core, &["trailer.winch.rating=1500 lb"]), "winch-pull").verdict, Verdict::Fail);
    // What needs no drum is checked.
    assert_eq!(row(&found, "bow-eye").verdict, Verdict::Pass);
}

#[test]
fn a_winch_by_hand_or_by_motor_has_the_rows_of_what_turns_it() {
    let by_hand = RIG
        .replace("drive = \"electric\"", "drive = \"hand\"")
        .replace("no_load_current = \"18 A\"\nno_load_speed = \"14 ft/min\"\n", "")
        .replace("rated_current = \"150 A\"\nrated_speed = \"6 ft/min\"\n", "");
    let found = read(&by_hand, &[]);
    assert!(found.check("winch-battery").is_none());
    assert!(load(&found, "winch-hand") > 0.0);
    let by_motor = RIG.replace("gear = 5\nhandle = \"9 in\"\nefficiency = \"75 %\"\n", "");
    let found = read(&by_motor, &[]);
    assert!(found.check("winch-hand").is_none());
    assert!(load(&found, "winch-battery") > 0.0);
    // A motor that stalls holds nothing.
    let found = assessed(&["trailer.winch.rating=800 lb"]);
    let battery = row(&found, "winch-battery");
    assert_eq!((battery.verdict, battery.load), (Verdict::Advise, None));
}

#[test]
fn wire_and_a_line_that_leads_down_are_cautioned() {
    let cautions = |changes: &[&str]| {
        let rig = Rig::read("rig.toml", RIG, changes).expect("it reads");
        examine(&rig).expect("it rests").cautions
    };
    let has = |changes: &[&str], is: fn(&Caution) -> bool| cautions(changes).iter().any(is);
    let wire = |caution: &Caution| matches!(caution, Caution::RopeOnDrum { wire: true });
    let small = |caution: &Caution| matches!(caution, Caution::SmallCore { .. });
    let down = |caution: &Caution| matches!(caution, Caution::LinePullsDown(_));
    assert!(!has(&[], wire) && !has(&[], small) && !has(&[], down));
    let thick = "trailer.winch.strap.thickness=0.26 in";
    assert!(has(&["trailer.winch.strap.kind=wire", thick], wire));
    assert!(has(&["trailer.winch.strap.kind=wire", thick], small));
    assert!(!has(&["trailer.winch.strap.kind=wire", "trailer.winch.strap.thickness=0.24 in"], small));
    assert!(!has(&["trailer.winch.strap.kind=rope", thick], small));
    // The eye stands 54 in above ground.
    assert!(has(&["trailer.winch.height=53.9 in"], down));
    assert!(!has(&["trailer.winch.height=54.1 in"], down));
}

#[test]
fn the_winch_goes_with_the_boat_and_stays_when_the_tongue_is_drawn_in() {
    let before = assessed(&[]);
    for shift in ["shift.boat=-3 in", "shift.tongue=2 in", "shift.axles=2 in"] {
        let after = assessed(&[shift]);
        for id in ["winch-pull", "winch-post", "winch-drum", "bow-eye"] {
            assert!((load(&before, id) - load(&after, id)).abs() < 1e-6, "{id} with {shift}");
        }
    }
}

/// Ratings of what the winch, the tie-downs and the chains are made of.
const STRENGTHS: &[(&str, f64)] = &[
    ("trailer.winch.rating", 4000.0),
    ("trailer.winch.strap.breaking", 10_000.0),
    ("trailer.winch.strap.working", 3500.0),
    ("boat.bow_eye.rating", 5000.0),
    ("trailer.bow_stop_rating", 500.0),
    ("trailer.safety_chains.breaking", 7000.0),
    ("trailer.tie_downs.1.working", 2000.0),
    ("trailer.tie_downs.1.breaking", 6300.0),
    ("trailer.tie_downs.2.working", 2600.0),
    ("trailer.tie_downs.2.breaking", 9000.0),
];

proptest! {
    #![proptest_config(cases(60))]

    #[test]
    fn a_longer_strap_never_pulls_more(length in 30.0..900.0, more in 0.0..200.0) {
        let at = |length: f64| assessed(&[&format!("trailer.winch.strap.length={length} in")]);
        let (shorter, longer) = (at(length), at(length + more));
        let used = |found: &Assessment| row(found, "winch-pull").used.expect("a rating").si();
        prop_assert!(used(&longer) >= used(&shorter) * (1.0 - 1e-9));
        prop_assert!(load(&longer, "winch-drum") >= load(&shorter, "winch-drum"));
        prop_assert!(load(&longer, "winch-battery") > 0.0);
    }

    #[test]
    fn more_friction_never_lowers_the_pull_needed(friction in 2.0..60.0, more in 0.0..30.0, height in 40.0..70.0) {
        let at = |friction: f64| assessed(&[
            &format!("trailer.bunks.friction={friction} %"),
            &format!("trailer.winch.height={height} in"),
        ]);
        let (less, greater) = (at(friction), at(friction + more));
        for id in ["winch-strap", "bow-eye", "winch-hand"] {
            prop_assert!(load(&greater, id) >= load(&less, id) * (1.0 - 1e-9), "{id}");
        }
        let used = |found: &Assessment| row(found, "winch-pull").used.expect("a rating").si();
        prop_assert!(used(&greater) >= used(&less) * (1.0 - 1e-9));
    }

    #[test]
    fn a_stronger_part_worsens_no_row(part in 0..STRENGTHS.len(), by in 1.0..1.6, unlike in 0.2..9.0) {
        let (key, rating) = STRENGTHS[part];
        // Straps of another stretch share unevenly.
        let stretch = format!("trailer.tie_downs.2.stretch={unlike} %");
        let before = assessed(&[&stretch]);
        let at = rating * by;
        let rig = Rig::read("rig.toml", RIG, &[stretch, format!("{key}={at} lb")]);
        // What works beyond what breaks is a mistake.
        let Ok(rig) = rig else { return Ok(()) };
        let after = assess(&rig).expect("it rests");
        for (before, after) in before.rows.iter().zip(&after.rows) {
            let id = before.id();
            // Its load is the winch's rating.
            if key == "trailer.winch.rating" && id == "winch-strap-breaking" {
                continue;
            }
            let margin = |row: &Row| row.margin.map(Amount::si);
            let worse = margin(before).zip(margin(after)).is_some_and(|(before, after)| {
                after < before - 1e-9 * before.abs().max(1.0)
            });
            prop_assert!(!worse, "{id} with {key}: {:?}, then {:?}", before.margin, after.margin);
            prop_assert!(after.load.is_some() == before.load.is_some(), "{id} with {key}");
        }
    }
}
