//! Varying a rig in place gives the very rig that reading its file with one more change gives.

use bunkline::quantity::{Length, Quantity};
use bunkline::rig::{Fault, Key, Rig, Varied};

const FILE: &str = include_str!("../../../demo-data/survey-launch-as-found.toml");

fn read(changes: &[&str]) -> Rig {
    Rig::read("launch", FILE, changes).expect("the demo reads")
}

/// Paths of every role, a value in SI and the same as a change would write it.
const VALUES: &[(&str, f64, &str)] = &[
    ("shift.boat", -0.0508, "-0.0508 m"),
    ("shift.axles", 0.1, "0.1 m"),
    ("boat.weights.1.station", 3.2, "3.2 m"),
    ("boat.tanks.1.fill", 0.25, "25 %"),
    ("cases.2.fill.fuel", 0.5, "50 %"),
    ("tow.ball_height", 0.6, "0.6 m"),
    ("trailer.level_ball_height", 0.5, "0.5 m"),
    ("trailer.suspension.deflection_at_rating", 0.05, "0.05 m"),
    ("trailer.axles.all.tires.pressure", 5e5, "500 kPa"),
    ("trailer.axles.3.tires.radius", 0.35, "0.35 m"),
    ("ramps.1.profile.1.grade", 0.11, "11 %"),
    ("policy.thin_margin", 0.05, "5 %"),
];

#[test]
fn setting_a_value_is_the_same_as_a_last_change() {
    let before = [&[][..], &["shift.boat=3 in", "trailer.keel_height+=1 in"]];
    for changes in before {
        let rig = read(changes);
        let mut varied_before = Varied::new(&rig);
        for (path, si, text) in VALUES {
            let variable = rig.variable(path).expect(path);
            let change = format!("{path}={text}");
            let changes = [changes, &[&change]].concat();
            let wanted = read(&changes);
            // A fresh one, and one that has been used for something else of the same keys.
            let mut used = Varied::new(&rig);
            used.with(&[(&variable, si * 0.9)]).expect("a value like it");
            for varied in [&mut Varied::new(&rig), &mut used] {
                let found = varied.with(&[(&variable, *si)]).expect(path);
                // Whole setups are too long to print.
                assert!(found.measured() == wanted.measured(), "{path}: as measured");
                assert!(found.proposed() == wanted.proposed(), "{path}: as proposed");
                assert_eq!(found.assumed(), wanted.assumed(), "{path}");
            }
        }
        let two = [rig.variable("shift.boat").unwrap(), rig.variable("trailer.axles.1.station").unwrap()];
        let found = varied_before.with(&[(&two[0], 0.2), (&two[1], 5.5)]).expect("both fit");
        let wanted = read(&[changes, &["shift.boat=0.2 m", "trailer.axles.1.station=5.5 m"]].concat());
        assert!(found.measured() == wanted.measured() && found.proposed() == wanted.proposed());
    }
}

#[test]
fn a_value_that_breaks_a_rule_is_refused_and_harms_nothing() {
    let rig = read(&[]);
    let axle = rig.variable("trailer.axles.1.station").expect("a key");
    let mut varied = Varied::new(&rig);
    let problems = varied.with(&[(&axle, 50.0)]).expect_err("ahead of nothing");
    assert!(problems.list.iter().any(|problem| matches!(problem.fault, Fault::AxleOrder(2))));
    let problems = varied.with(&[(&axle, -1.0)]).expect_err("ahead of the ball");
    assert!(problems.list.iter().any(|problem| matches!(problem.fault, Fault::NotPositive { .. })));
    let found = varied.with(&[(&axle, 5.5)]).expect("it fits").clone();
    assert_eq!(found.proposed(), read(&["trailer.axles.1.station=5.5 m"]).proposed());
}

#[test]
fn only_quantities_can_be_varied() {
    let rig = read(&[]);
    assert!(matches!(rig.variable("tow.driven"), Err(Fault::NotAQuantity(_))));
    assert!(matches!(rig.variable("tow.balls"), Err(Fault::UnknownPath { .. })));
    assert!(matches!(rig.variable("trailer.axles"), Err(Fault::PathIsTable(_))));
    assert!(matches!(rig.variable("trailer.axles.9.station"), Err(Fault::NoSuchElement { .. })));
}

#[test]
fn an_error_of_what_was_measured_moves_both_setups() {
    let hull = Key::of("boat.weights.*.station", 0);
    let keel = Key::new("trailer.keel_height");
    let rig = read(&["boat.weights.1.station+=2 in", "trailer.keel_height=0.5 m"]);
    let found = Varied::new(&rig).with_errors(&[(hull, 0.01), (keel, 0.02)]).expect("it reads").clone();
    let metres = |length: Option<Length>| length.map(Quantity::si).expect("it is stated");
    let moved = |now: &Rig, was: &Rig| {
        let station =
            |rig: &Rig| [&rig.measured(), &rig.proposed()].map(|setup| metres(setup.boat.weights[0].station));
        let height =
            |rig: &Rig| [&rig.measured(), &rig.proposed()].map(|setup| metres(setup.trailer.keel_height));
        let both = |a: [f64; 2], b: [f64; 2]| [a[0] - b[0], a[1] - b[1]];
        (both(station(now), station(was)), both(height(now), height(was)))
    };
    let (station, height) = moved(&found, &rig);
    assert!(station.iter().all(|by| (by - 0.01).abs() < 1e-12), "{station:?}");
    assert!(height.iter().all(|by| (by - 0.02).abs() < 1e-12), "{height:?}");
}

#[test]
fn an_error_moves_what_defaults_to_the_value_and_stops_at_its_bounds() {
    let file = FILE.replace("level_ball_height", "# level_ball_height");
    let rig = Rig::read("launch", &file, &["boat.tanks.1.fill=98 %"]).expect("it reads");
    let errors = [(Key::new("tow.ball_height"), 0.01), (Key::of("boat.tanks.*.fill", 0), 0.05)];
    let found = Varied::new(&rig).with_errors(&errors).expect("it reads").clone();
    let level = |rig: &Rig| rig.measured().trailer.level_ball_height.map(Quantity::si).expect("assumed");
    assert!((level(&found) - level(&rig) - 0.01).abs() < 1e-12);
    assert_eq!(found.proposed().boat.tanks[0].fill.map(Quantity::si), Some(1.0));
    // No error gives back the rig as it was read.
    let same = Varied::new(&rig).with_errors(&[]).expect("it reads").clone();
    assert_eq!((same.measured(), same.proposed()), (rig.measured(), rig.proposed()));
}

#[test]
fn a_changed_rig_is_one_that_was_read_so() {
    for (path, si, text) in VALUES {
        let rig = read(&["shift.boat=3 in"]);
        let changed = rig.changed(&rig.variable(path).expect(path), *si).expect(path);
        let change = format!("{path}={text}");
        let wanted = read(&["shift.boat=3 in", &change]);
        assert!(changed.measured() == wanted.measured() && changed.proposed() == wanted.proposed(), "{path}");
        assert_eq!(changed.uncertain(), wanted.uncertain(), "{path}");
        // And so is what starts from it.
        let (one, other) = (Varied::new(&changed), Varied::new(&wanted));
        let keel = [(Key::new("trailer.keel_height"), 0.01)];
        let erred = |mut varied: Varied| varied.with_errors(&keel).expect("it reads").clone();
        let (one, other) = (erred(one), erred(other));
        assert!(
            one.measured() == other.measured() && one.proposed() == other.proposed(),
            "{path}, with an error"
        );
    }
}

#[test]
fn calls_that_vary_different_keys_leave_no_trace_of_each_other() {
    let full = super::inputs::FULL;
    let rig = Rig::parse(full).expect("it reads");
    let mut varied = Varied::new(&rig);
    let calls: &[&[(&str, f64, &str)]] = &[
        &[("trailer.bunks.spacer", 0.05, "0.05 m")],
        &[("shift.boat", 0.1, "0.1 m")],
        &[("trailer.keel_height", 0.6, "0.6 m"), ("trailer.bunks.spacer", 0.05, "0.05 m")],
        &[("shift.boat", 0.1, "0.1 m"), ("trailer.axles.1.station", 4.5, "4.5 m")],
        &[("trailer.bunks.top", 0.9, "0.9 m")],
        &[("cases.1.fill.1", 0.5, "50 %"), ("shift.boat", 0.2, "0.2 m"), ("shift.boat", 0.3, "0.3 m")],
        &[],
    ];
    for round in 0..2 {
        for call in calls {
            let variables: Vec<_> =
                call.iter().map(|(path, si, _)| (rig.variable(path).expect(path), *si)).collect();
            let values: Vec<_> = variables.iter().map(|(variable, si)| (variable, *si)).collect();
            let changes: Vec<String> = call.iter().map(|(path, _, text)| format!("{path}={text}")).collect();
            let wanted = Rig::read("rig", full, &changes).expect("it reads");
            let found = varied.with(&values).expect("it fits");
            assert!(found.measured() == wanted.measured(), "{round}: {changes:?}: as measured");
            assert!(found.proposed() == wanted.proposed(), "{round}: {changes:?}: as proposed");
            // The same one by one, each as a last change.
            let one_by_one = changes.iter().try_fold(rig.clone(), |rig, change| rig.with(change));
            let one_by_one = one_by_one.expect("it reads");
            assert!(one_by_one.proposed() == wanted.proposed() && one_by_one.measured() == wanted.measured());
            assert_eq!(one_by_one.changes(), wanted.changes());
        }
        varied.with_errors(&[(Key::new("trailer.bunks.spacer"), 0.01)]).expect("it reads");
    }
}

#[test]
fn a_further_change_is_blamed_in_its_own_text() {
    let rig = read(&["shift.boat=3 in"]);
    let problems = rig.with("shift.boat=3 inn").expect_err("no unit");
    let [problem] = &problems.list[..] else { panic!("one mistake: {problems}") };
    let at = problem.at.as_ref().expect("a place");
    assert_eq!(problems.sources.get(at.source).text, "shift.boat=3 inn");
    assert_eq!(at.range, 13..16);
}
