//! What the rows about ramps may not do: pass on a ramp that was not crossed, vanish, or be worse than what is shown.

use crate::cases::cases;
use crate::hand::{INCH, RIG};
use bunkline::Rig;
use bunkline::fit::{Amount, Assessment, Caution, Row, Verdict, assess, examine};
use bunkline::quantity::{Length, Quantity};
use bunkline::report::{Extent, Subject, ramp, text};
use bunkline::study::ramp::{Choice, crossings};
use proptest::prelude::*;

const SKIFF: &str = include_str!("../../demo-data/fishing-skiff.toml");
const AS_CHANGED: &str = include_str!("../../demo-data/survey-launch-as-changed.toml");
const ALL_COUNT: &str = "policy.counts=[\"ramp-*\"]";

fn rig(text: &str, changes: &[String]) -> Rig {
    Rig::read("rig.toml", text, changes).unwrap_or_else(|problems| panic!("{problems}"))
}

fn found(text: &str, changes: &[&str]) -> Assessment {
    let changes: Vec<String> = changes.iter().map(ToString::to_string).collect();
    assess(&rig(text, &changes)).unwrap_or_else(|unfit| panic!("{unfit}"))
}

fn row<'a>(found: &'a Assessment, id: &str) -> &'a Row {
    found.check(id).unwrap_or_else(|| panic!("no row {id}"))
}

fn missing(row: &Row) -> Vec<String> {
    row.missing.iter().map(ToString::to_string).collect()
}

fn passes(row: &Row) -> bool {
    matches!(row.verdict, Verdict::Pass | Verdict::Thin)
}

/// A file without the table of this heading.
fn without_table(text: &str, heading: &str) -> String {
    let (before, after) = text.split_once(heading).expect("it has the table");
    let rest = after.split_once("\n[").map_or(String::new(), |(_, rest)| format!("[{rest}"));
    format!("{before}{rest}")
}

/// A head at which no pitch within 44 deg balances the trailer fails, and names no key.
#[test]
fn a_trailer_that_leaves_its_wheels_fails() {
    for grade in ["88%", "100%"] {
        let found = found(AS_CHANGED, &[&format!("ramps.1.profile.2.grade={grade}")]);
        let rest = row(&found, "ramp-rest");
        assert_eq!((rest.verdict, rest.load.map(Amount::si)), (Verdict::Fail, Some(0.0)), "{grade}");
        let axle = row(&found, "ramp-axle-1");
        assert_eq!((axle.verdict, missing(axle).len()), (Verdict::NotChecked, 0));
    }
    assert_eq!(row(&found(AS_CHANGED, &[]), "ramp-rest").load.map(Amount::si), Some(1.0));
}

proptest! {
    #![proptest_config(cases(10))]

    /// Of the rows, on heads up to 40 %: on steeper ones the weight's share square to the road shrinks faster than the
    /// rest grows, and an axle may carry a little less. The verdict stays on those too.
    #[test]
    fn no_steeper_head_takes_a_row_out_of_fail(
        boat in -40.0..10.0,
        ball in 17.0..24.0,
        deflection in 1.0..5.0,
    ) {
        let mut failing: Vec<String> = Vec::new();
        for grade in [6, 10, 14, 18, 24, 32, 40, 60, 80, 100] {
            let changes = [
                ALL_COUNT.to_string(),
                format!("shift.boat={boat} in"),
                format!("tow.ball_height={ball} in"),
                format!("trailer.suspension.deflection_at_rating={deflection} in"),
                format!("ramps.1.profile.2.grade={grade} %"),
            ];
            let found = assess(&rig(AS_CHANGED, &changes)).expect("it rests on the level");
            let fails = |id: &str| row(&found, id).verdict == Verdict::Fail;
            if !fails("ramp-rest") && grade <= 40 {
                for id in &failing {
                    prop_assert!(fails(id), "{id} at {grade} %: {:?}", row(&found, id));
                }
            }
            let now = found.rows.iter().filter(|row| row.is_about_ramps() && row.verdict == Verdict::Fail);
            let failed = !failing.is_empty();
            failing = now.map(Row::id).collect();
            prop_assert!(!failed || !failing.is_empty(), "nothing fails at {grade} %");
        }
    }

    /// What passes on a shortened profile passes on the whole one.
    #[test]
    fn no_shorter_profile_makes_a_row_pass(
        first in 40.0..300.0,
        last in 10.0..500.0,
        grades in (0.02..0.2, 0.02..0.2),
        boat in -30.0..10.0,
    ) {
        let at = |last: f64| {
            let (first_grade, last_grade) = grades;
            let ramp = format!("[[ramps]]\nname = \"slip\"\nfriction = \"60 %\"\nprofile = [ {{ length = \"{first} in\", grade = \"{} %\" }}, {{ length = \"{last} in\", grade = \"{} %\" }} ]\n", 100.0 * first_grade, 100.0 * last_grade);
            let text = without_table(AS_CHANGED, "[[ramps]]") + "\n" + &ramp;
            assess(&rig(&text, &[format!("shift.boat={boat} in")])).expect("it rests on the level")
        };
        let (short, whole) = (at(last), at(900.0));
        for row in short.rows.iter().filter(|row| row.is_about_ramps() && passes(row)) {
            let on_the_whole = whole.check(&row.id()).expect("the same rows");
            prop_assert!(passes(on_the_whole), "{} in: {row:?} {on_the_whole:?}", last);
        }
    }
}

/// The rear hub is 240 in behind the ball, and that 50 + 140 in behind the tow vehicle's front axle; the only break is at 0.
#[test]
fn a_row_passes_only_where_the_profile_goes_far_enough() {
    let at = |length: &str| found(RIG, &[&format!("ramps.1.profile.1.length={length}")]);
    let key = ["ramps.1.profile.1.length"];
    for (length, ball, tow) in [("200 in", false, false), ("265 in", true, false), ("440 in", true, true)] {
        let found = at(length);
        for (id, crossed) in [
            ("ramp-rest", ball),
            ("ramp-axle-2", ball),
            ("ramp-clearance-tail", ball),
            ("ramp-bow-clearance", ball),
            ("ramp-traction-parked", tow),
        ] {
            let row = row(&found, id);
            assert_eq!(row.verdict == Verdict::NotChecked, !crossed, "{id} over {length}");
            assert_eq!(missing(row), if crossed { &[][..] } else { &key[..] }, "{id} over {length}");
        }
    }
    // What fails fails, however little was crossed.
    let ground = found(RIG, &["ramps.1.profile.1.length=100 in", "tow.low_points.1.height=-1 in"]);
    assert!(row(&ground, "ramp-clearance-spare").load.is_some_and(|load| load.si() < 0.0));

    let short = rig(RIG, &["ramps.1.profile.1.length=200 in".to_string()]);
    let cautions = examine(&short).expect("it settles").cautions;
    let needed = cautions.iter().find_map(|caution| match caution {
        Caution::ProfileTooShort { ramp: 0, needed } => Some(needed.si() / INCH),
        _ => None,
    });
    let needed = needed.expect("it is too short");
    // Near 430 in: a little less, since ball and hubs lie along a slope of 12 %, and half an inch to round.
    assert!(needed > 420.0 && needed < 435.0, "{needed}");
    assert!(missing(row(&at(&format!("{needed} in")), "ramp-traction-parked")).is_empty());
    // The wheelbase of 140 in lies along the slope too, 1 in less of it level.
    assert!(!missing(row(&at(&format!("{} in", needed - 2.0)), "ramp-traction-parked")).is_empty());
}

/// Level ground is a ramp of 0 %: by tape, tail 16 in, propeller 24 − 1, spare 14, keel 24; the bow 50 − 38 + 40 behind the
/// body.
#[test]
fn the_level_road_is_checked_without_a_ramp() {
    let level = without_table(RIG, "[[ramps]]");
    let found_level = found(&level, &[]);
    for (id, inches) in [
        ("ramp-clearance-tail", 16.0),
        ("ramp-clearance-propeller", 23.0),
        ("ramp-clearance-spare", 14.0),
        ("ramp-clearance-keel", 24.0),
        ("ramp-bow-clearance", 52.0),
    ] {
        let load = row(&found_level, id).load.expect("known").si() / INCH;
        // The springs give by less than 1e-3 in.
        assert!((load - inches).abs() < 1e-3, "{id}: {load}");
    }
    let others = found_level.rows.iter().filter(|row| row.id().starts_with("ramp-"));
    assert_eq!(others.count(), 5);

    let touching = |text: &str, changes: &[&str], id: &str| {
        let found = found(text, &[&[ALL_COUNT][..], changes].concat());
        assert_eq!(row(&found, id).verdict, Verdict::Fail, "{id}");
    };
    touching(SKIFF, &["trailer.keel_height=-20 in"], "ramp-clearance-keel");
    touching(&level, &["trailer.low_points.1.height=-4 in"], "ramp-clearance-tail");
    touching(&level, &["boat.bow_overhang=75 in"], "ramp-bow-clearance");
}

#[test]
fn rows_do_not_vanish_with_their_keys() {
    let skiff = found(SKIFF, &[]);
    for id in ["clearance-fender", "ramp-clearance-low-points", "ramp-bow-clearance"] {
        assert_eq!(row(&skiff, id).verdict, Verdict::NotChecked, "{id}");
        assert!(!row(&skiff, id).missing.is_empty(), "{id}");
    }
    let no_gear = found(&without_table(AS_CHANGED, "[[boat.low_points]]"), &[]);
    let gear = row(&no_gear, "clearance-gear-low-points");
    assert_eq!((gear.verdict, missing(gear)), (Verdict::NotChecked, vec!["boat.low_points.1.height".into()]));
    let no_fenders = found(&without_table(AS_CHANGED, "[trailer.fenders]"), &[]);
    let fender = row(&no_fenders, "clearance-fender");
    assert!(missing(fender).contains(&"trailer.fenders.height".to_string()));
    let lines: Vec<&str> = AS_CHANGED.lines().filter(|line| !line.starts_with("beam")).collect();
    let no_beam = found(&lines.join("\n"), &[]);
    assert_eq!(missing(row(&no_beam, "clearance-fender")), ["boat.beam"]);
}

#[test]
fn a_side_that_lifts_fails() {
    let found = found(
        SKIFF,
        &[
            "boat.beam=14 ft",
            "boat.weights.hull.side=70 in",
            "trailer.track=4 ft",
            "trailer.axles.1.tires.rating=3500 lb",
            "trailer.axles.1.wheels.rating=3500 lb",
        ],
    );
    assert_eq!(row(&found, "side-lift").verdict, Verdict::Fail);
}

/// With one tongue rating missing of those given a tongue weight may pass none, but fails past what is known.
#[test]
fn a_missing_tongue_rating_is_named() {
    let ids = ["ramp-tongue", "lifted-tongue"];
    let whole = found(RIG, &[]);
    let text = RIG.replacen("tongue_rating = \"830 lb\", ", "", 1);
    for id in ids {
        assert!(row(&whole, id).missing.is_empty());
        let row = row(&whole, id);
        // 810 lb is the least given, with the receiver's or without.
        assert!((row.max.expect("given").si() / crate::hand::POUND - 810.0).abs() < 1e-9);
    }
    let lacking = found(&text, &["trailer.coupler.tongue_rating=5000 lb"]);
    for id in ids {
        let row = row(&lacking, id);
        assert_eq!(missing(row), ["hitch.receiver.tongue_rating"], "{id}");
        assert!(row.load.is_none_or(|_| !passes(row)), "{id}");
    }
    let over = found(&text, &["trailer.coupler.tongue_rating=100 lb", ALL_COUNT]);
    assert_eq!(row(&over, "ramp-tongue").verdict, Verdict::Fail);
}

/// Whatever case a row's load is from, the report of the ramp shows it.
#[test]
fn no_row_is_worse_than_the_moment_shown_for_it() {
    let text = AS_CHANGED.replace("without = [\"sounder\"]", "without = [\"outboards\"]");
    let changes = ["ramps.1.friction=10 %", "ramps.1.profile.2.grade=11 %", "shift.boat=-21 in"];
    let rig = rig(&text, &changes.map(str::to_string));
    let found = crossings(&rig, Choice::default(), Length::from_si(f64::INFINITY)).expect("it settles");
    let crossed = &found.crossed[0];
    let rows = found.findings.assessment.rows.iter();
    let elsewhere: Vec<&Row> = rows
        .filter(|row| row.is_about_ramps() && row.case.is_some_and(|case| case != crossed.loads.case))
        .collect();
    assert!(!elsewhere.is_empty(), "a row is governed by another case");
    let units = bunkline::quantity::show::UnitSystem::Us;
    let subject = Subject {
        path: "rig",
        rig: &found.rig,
        findings: &found.findings,
        uncertainty: None,
        as_stated: false,
        units,
    };
    let page =
        text::render(&ramp::report(&subject, &found.crossed, &[], Extent::Full, false), text::WIDTH, false);
    let moments = page.split("Checks, worst first").next().expect("the moments come first");
    for row in elsewhere {
        let Some(load) = row.load else { continue };
        let shown = match load {
            bunkline::fit::Amount::Weight(weight) => units.weight(weight),
            bunkline::fit::Amount::Length(length) => units.rough_distance(length),
            other => bunkline::quantity::show::percent(bunkline::quantity::Share::from_si(other.si())),
        };
        assert!(row.id() == "ramp-rest" || moments.contains(&shown), "{} {shown} in {moments}", row.id());
    }
}
