//! Tires at their pressure: what must hold of rows and verdict when it falls, and where a file is silent or contradicts itself.

use crate::hand::POUND;
use crate::registry::full_rigs;
use bunkline::Rig;
use bunkline::fit::{Amount, Assessment, Caution, Measure, RigVerdict, Row, Verdict, examine};
use bunkline::study::uncertainty;

const SKIFF: &str = include_str!("../../demo-data/fishing-skiff.toml");
const LAUNCH: &str = include_str!("../../demo-data/survey-launch-as-changed.toml");
const CUTTER: &str = include_str!("../../demo-data/pilot-cutter.toml");

fn examined(text: &str, changes: &[&str]) -> Assessment {
    let rig = Rig::read("rig.toml", text, changes).unwrap_or_else(|problems| panic!("{problems}"));
    uncertainty::brief(&rig).expect("a trailer at rest").0
}

fn row<'a>(found: &'a Assessment, id: &str) -> &'a Row {
    found.check(id).unwrap_or_else(|| panic!("no row {id}"))
}

/// How bad a row is, the worst greatest; what could not be evaluated is not compared.
fn rank(verdict: Verdict) -> Option<u8> {
    Some(match verdict {
        Verdict::Pass => 0,
        Verdict::Thin => 1,
        Verdict::Advise => 2,
        Verdict::Unsure => 3,
        Verdict::Fail => 4,
        Verdict::NotChecked => return None,
    })
}

#[test]
fn a_lower_pressure_never_improves_a_row_or_the_verdict() {
    let silent = SKIFF.replace("rating = \"1760 lb\"", "rating = \"1700 lb\"");
    let index = SKIFF.replace("rating = \"1760 lb\"", "load_index = 104");
    for text in [SKIFF, &silent, &index, CUTTER, LAUNCH] {
        // Over ramps these tires' rows are read from the same crossings.
        let text = text.split("[[ramps]]").next().expect("a rig");
        let mut before: Option<Assessment> = None;
        for psi in [100.0, 80.0, 70.0, 65.0, 60.0, 55.0, 50.0, 45.0, 40.0, 36.0, 30.0, 25.0, 20.0, 12.0] {
            let found = examined(text, &[&format!("trailer.axles.all.tires.pressure={psi} psi")]);
            if let Some(before) = &before {
                for row in &found.rows {
                    let was = before.check(&row.id()).expect("the same rows");
                    let limit = |row: &Row| row.max.map_or(0.0, Amount::si);
                    if row.check.id.contains("tire-") && row.check.measure == Measure::Weight {
                        assert!(limit(row) <= limit(was), "{} at {psi} psi", row.id());
                    }
                    if row.check.id == "tire-pressure-*" {
                        continue;
                    }
                    assert!(
                        rank(row.verdict) >= rank(was.verdict),
                        "{} at {psi} psi: {:?}, was {:?}",
                        row.id(),
                        row.verdict,
                        was.verdict
                    );
                }
            }
            before = Some(found);
        }
    }
    let verdicts = [50, 40, 30, 20]
        .map(|psi| examined(SKIFF, &[&format!("trailer.axles.1.tires.pressure={psi} psi")]).verdict);
    assert_eq!(verdicts, [RigVerdict::Pass, RigVerdict::Pass, RigVerdict::Unsure, RigVerdict::Fail]);
}

#[test]
fn a_silent_greatest_pressure_is_the_published_rows_or_a_range() {
    // 1202 lb on each tire. 1700 lb is no row of the size: at 40 psi 1700 (40/65)^0.7 = 1210 lb, but 1039 of 80 psi.
    let row_of = |tires: &str| {
        let text = SKIFF.replace("rating = \"1760 lb\", pressure = \"50 psi\"", tires);
        let found = examined(&text, &[]);
        let row = found.check("tire-1").expect("a row").clone();
        (row.verdict, row.range.map(|range| range.keys.iter().map(|key| key.path).collect::<Vec<_>>()))
    };
    let most = "trailer.axles.*.tires.pressure_max";
    let exponent = "trailer.axles.*.tires.pressure_exponent";
    assert_eq!(row_of("rating = \"1700 lb\", pressure = \"40 psi\"").0, Verdict::Unsure);
    assert!(row_of("rating = \"1700 lb\", pressure = \"40 psi\"").1.is_some_and(|keys| keys.contains(&most)));
    // The row of 1760 lb stands for 50 psi: there is nothing to be unsure of but how the load falls below it.
    let (verdict, keys) = row_of("rating = \"1760 lb\", pressure = \"45 psi\"");
    assert_eq!((verdict, keys), (Verdict::Pass, Some(vec![exponent])));
    assert_eq!(row_of("rating = \"1760 lb\", pressure = \"50 psi\""), (Verdict::Pass, None));
    // What is stated is a point.
    let stated = "rating = \"1760 lb\", pressure = \"45 psi\", pressure_max = \"50 psi\", pressure_exponent = \"70 %\"";
    assert_eq!(row_of(stated), (Verdict::Pass, None));
}

#[test]
fn a_silent_pressure_is_assumed_and_its_row_not_checked() {
    let text = SKIFF.replace(", pressure = \"50 psi\"", "");
    let rig = Rig::parse(&text).expect("a rig");
    assert!(rig.assumed().iter().any(|assumed| assumed.key == "trailer.axles.all.tires.pressure"));
    let found = examined(&text, &[]);
    assert_eq!(row(&found, "tire-1").max, row(&examined(SKIFF, &[]), "tire-1").max);
    let missing = &row(&found, "tire-pressure-1").missing;
    assert!(missing.iter().any(|key| key.to_string() == "trailer.axles.1.tires.pressure"), "{missing:?}");
}

#[test]
fn of_rating_and_load_index_the_lesser_counts_and_a_contradiction_is_named() {
    let named = |tires: &str| {
        let text = SKIFF.replace("rating = \"1760 lb\", pressure = \"50 psi\"", tires);
        let rig = Rig::parse(&text).unwrap_or_else(|problems| panic!("{problems}"));
        let findings = examine(&rig).expect("a trailer at rest");
        let most = row(&findings.assessment, "tire-1").max.map(Amount::si);
        let named = findings.cautions.iter().any(|caution| matches!(caution, Caution::TwoTireRatings { .. }));
        (most.map(|most| (most / POUND).round()), named)
    };
    // Load index 98 is 750 kg, 1653 lb; 101 is 825 kg, 1819 lb; 100 is 800 kg, 1764 lb.
    assert_eq!(named("rating = \"1760 lb\", load_index = 98"), (Some(1653.0), true));
    assert_eq!(named("rating = \"1760 lb\", load_index = 101"), (Some(1760.0), true));
    assert_eq!(named("rating = \"1760 lb\", load_index = 100"), (Some(1760.0), false));
    assert_eq!(named("load_index = 101"), (Some(1819.0), false));
}

#[test]
fn speed_is_held_to_the_symbol_or_to_what_trailer_tires_take() {
    let at = |speed: f64, tires: &str| {
        let text =
            SKIFF.replace("pressure = \"50 psi\"", tires) + &format!("\n[trip]\nspeed = \"{speed} mph\"\n");
        row(&examined(&text, &[]), "tire-speed-1").verdict
    };
    // The load needs 30 psi, six tenths of 50: at 39 psi the usual limit stands, at 40 and 1202 of 1505 lb 87 mph.
    assert_eq!(at(64.0, "pressure = \"39 psi\""), Verdict::Pass);
    assert_eq!(at(66.0, "pressure = \"39 psi\""), Verdict::Advise);
    assert_eq!(at(86.0, "pressure = \"41 psi\""), Verdict::Pass);
    assert_eq!(at(88.0, "pressure = \"41 psi\""), Verdict::Advise);
    assert_eq!(at(66.0, "pressure = \"39 psi\", speed_symbol = \"K\""), Verdict::Pass);
    assert_eq!(at(69.0, "pressure = \"50 psi\", speed_symbol = \"K\""), Verdict::Fail);
}

#[test]
fn bars_move_the_level_loads_and_leave_the_tongue() {
    let text = &full_rigs()[0];
    let plain = examined(text, &[]);
    let with = examined(text, &["hitch.weight_distribution.moment=20000 lb in"]);
    let load =
        |found: &Assessment, id: &str| row(found, id).load.map_or_else(|| panic!("{id}"), Amount::si) / POUND;
    for id in ["tongue-share", "coupler-tongue", "tow-tongue", "jack", "lifted-axle-1"] {
        assert!((load(&plain, id) - load(&with, id)).abs() < 1e-9, "{id}");
    }
    // The axles' mean lies 207 in behind the ball, wheelbase 140 in, overhang 45 in.
    let moved = 20_000.0 / 207.0;
    for (id, more) in [
        ("axle-1", moved / 2.0),
        ("tow-gvwr", -moved),
        ("tow-front-axle", moved * 45.0 / 140.0 + 20_000.0 / 140.0),
        ("tow-rear-axle", -moved * 185.0 / 140.0 - 20_000.0 / 140.0),
        ("tow-gcwr", 0.0),
    ] {
        // The axles share what is moved as they share their load, which is nearly even here.
        let close = if id == "axle-1" { 0.01 * moved } else { 1e-6 };
        assert!(
            (load(&with, id) - load(&plain, id) - more).abs() < close,
            "{id}: {} and {more}",
            load(&with, id) - load(&plain, id)
        );
    }
    let restored = examined(text, &["hitch.weight_distribution.restored=100 %"]);
    assert!(load(&restored, "tow-front-loss").abs() < 1e-9);
}
