//! The rig that is worked by hand, changed: what a change does to its figures.

use crate::hand::{INCH, POUND, RIG, in_us, scan};
use bunkline::Rig;
use bunkline::fit::{self, Assessment, Verdict};
use bunkline::quantity::{Quantity, Slope};
use bunkline::study::head::heads;
use bunkline::study::ramp::Choice;
use bunkline::study::uncertainty;

fn read(text: &str, changes: &[&str]) -> Rig {
    Rig::read("hand.toml", text, changes).unwrap_or_else(|problems| panic!("{problems}"))
}

fn assessed(text: &str, changes: &[&str]) -> Assessment {
    fit::assess(&read(text, changes)).expect("a trailer at rest")
}

fn load(found: &Assessment, id: &str) -> f64 {
    let row = found.rows.iter().find(|row| row.id() == id).unwrap_or_else(|| panic!("no row {id}"));
    in_us(row.load.unwrap_or_else(|| panic!("{id}: {:?}", row.missing)))
}

/// Everything but coupler, jack, bow stop and boat comes nearer: so much as a file with those places says.
#[test]
fn a_tongue_drawn_in_brings_frame_and_axles_nearer() {
    let mut nearer = RIG.to_string();
    for (before, after) in [
        ("cg = \"180 in\"", "cg = \"174 in\""),
        ("length = \"320 in\"", "length = \"314 in\""),
        ("held_from = \"90 in\"", "held_from = \"84 in\""),
        ("station = \"200 in\"", "station = \"194 in\""),
        ("station = \"240 in\"", "station = \"234 in\""),
        ("station = \"290 in\"", "station = \"284 in\""),
        ("station = \"180 in\"", "station = \"174 in\""),
        ("station = \"280 in\"", "station = \"274 in\""),
        ("forward_end = \"160 in\"", "forward_end = \"154 in\""),
        ("aft_end = \"300 in\"", "aft_end = \"294 in\""),
    ] {
        assert!(nearer.contains(before), "{before}");
        nearer = nearer.replace(before, after);
    }
    let (drawn, stated) = (assessed(RIG, &["shift.tongue=6 in"]), assessed(&nearer, &[]));
    // W xc = 6000 · 210 + 2000 · 174, the axles' mean 214.
    assert!((load(&drawn, "coupler-tongue") - (8000.0 - 1_608_000.0 / 214.0)).abs() < 8e-3);
    assert_eq!(drawn.rows.len(), stated.rows.len());
    for row in &stated.rows {
        let (stated, drawn) = (load(&stated, &row.id()), load(&drawn, &row.id()));
        // The springs were measured under other loads, and give way by less than 1e-3 in.
        let allowed = if row.is_about_ramps() { 1e-4 } else { 1e-6 };
        assert!((stated - drawn).abs() < allowed * stated.abs().max(1.0), "{}: {stated} {drawn}", row.id());
    }
}

#[test]
fn the_bow_in_the_sharpest_turn() {
    // The bow's tip is 40 in behind the ball, which is 50 in behind the rear axle, the body 38: 12 + 40 cos θ.
    for (turn, clear) in [("60 deg", 32.0), ("80 deg", 12.0 + 40.0 * 80_f64.to_radians().cos())] {
        let found = assessed(&RIG.replace("[policy]\n", &format!("[policy]\nturn = \"{turn}\"\n")), &[]);
        assert!((load(&found, "ramp-bow-clearance") - clear).abs() < 1e-9, "{turn}");
    }
}

#[test]
fn torsion_axles_come_to_their_stops_at_1_45_times_their_deflection() {
    let text = RIG
        .replace("bump = \"3 in\", equalizer_travel = \"9 in\"", "")
        .replace("0.00023 in\", ", "2 in\"")
        .replace("leaf-equalized", "torsion");
    let suspension = read(&text, &[]).proposed().trailer.suspension;
    assert!((suspension.bump.expect("assumed").si() - 2.9 * INCH).abs() < 1e-12);
}

/// A boat known from scales has them say all but its height and side.
#[test]
fn a_weighed_boat_lies_to_the_side_that_is_proposed() {
    let (before, after) = RIG.split_once("[[boat.weights]]").expect("a weight");
    let (_, after) = after.split_once("[trailer]").expect("a trailer");
    let before = before.replacen("[boat]\n", "[boat]\ncg_height = \"26 in\"\ncg_side = \"2 in\"\n", 1);
    let tongue = 8000.0 - 2.0 * 1_620_000.0 / 440.0;
    let text = format!(
        "{before}[measured]\ngross_trailer_weight = \"8000 lb\"\ntongue_weight = \"{tongue:.9} lb\"\n[trailer]{after}"
    );
    for (change, side) in [(&[][..], 2.0), (&["boat.cg_side=5 in"], 5.0), (&["boat.cg_side=-3 in"], 3.0)] {
        let found = assessed(&text, change);
        let by_hand = 1_620_000.0 / 440.0 / 2.0 + 6000.0 * side / 2.0 / 80.0;
        // Of 8000 lb, as everywhere on this rig.
        assert!(
            (load(&found, "tire-1") - by_hand).abs() < 8e-3,
            "{change:?}: {} {by_hand}",
            load(&found, "tire-1")
        );
    }
}

/// The corner of a row about ramps is the crossing of the rig that has those values.
#[test]
fn a_corner_on_a_ramp_is_the_crossing_there() {
    let rig = read(
        &RIG.replace("6000 lb", "6000 lb ± 100 lb")
            .replace("100 in\"\nheight = \"26 in\"\nside", "100 in ± 1 in\"\nheight = \"26 in\"\nside"),
        &[],
    );
    assert_eq!(rig.uncertain().len(), 2);
    let (found, uncertainty) = uncertainty::examine(&rig).expect("a trailer at rest");
    let corners = uncertainty.expect("bounds").corners;
    // Heavy and aft; the tongue's greatest is worst heavy and forward.
    for (id, weight, station) in
        [("ramp-axle-1", "6100", "99"), ("ramp-axle-2", "6100", "99"), ("ramp-tongue", "6100", "101")]
    {
        let there = RIG
            .replace("6000 lb", &format!("{weight} lb"))
            .replace("\"100 in\"\nheight = \"26 in\"", &format!("\"{station} in\"\nheight = \"26 in\""));
        let there = assessed(&there, &[]);
        let margin = there.rows.iter().find(|row| row.id() == id).and_then(|row| row.margin).expect("known");
        let at = found.assessment.rows.iter().position(|row| row.id() == id).expect("a row");
        let corner = corners[at].as_ref().and_then(|corner| corner.margin).expect("known");
        // The same rig, but for the rounding of 6000 + 100.
        assert!((corner.si() - margin.si()).abs() < 1e-6 * 8000.0 * POUND, "{id}: {corner:?} {margin:?}");
    }
}

/// The steepest head at which every rating holds, by looking everywhere.
#[test]
fn the_steepest_head_is_that_of_looking_everywhere() {
    let halves = "[[boat.weights]]\nid = \"one\"\nweight = \"3000 lb\"\nstation = \"100 in\"\nheight = \"26 in\"\nside = \"2 in\"\n";
    let (before, after) = RIG.split_once("[[boat.weights]]").expect("a weight");
    let (_, after) = after.split_once("[trailer]").expect("a trailer");
    // The heavy case comes last.
    let cases = "[[cases]]\nname = \"light\"\nwithout = [\"one\"]\n[[cases]]\nname = \"heavy\"\n";
    let text = format!("{before}{halves}{}[trailer]{after}{cases}", halves.replace("one", "two"));
    let rig = read(&text, &[]);
    let grades: Vec<Slope> = (1..=12).map(|percent| Slope(f64::from(percent) / 50.0)).collect();
    let found = heads(&rig, Choice::default(), &grades).expect("it rests on level ground");
    let steepest = found[0].ratings.as_assumed.expect("the gentlest holds").0;
    let holds = |grade: f64| {
        let found = scan(grade);
        let ratings = [
            (found.axles[0], 4100.0),
            (found.axles[1], 4100.0),
            (found.tires[0], 2100.0),
            (found.tires[1], 2150.0),
            (found.tongue, 810.0),
        ];
        ratings.iter().all(|(load, rating)| load <= rating)
    };
    // It is searched to a tenth of a percent; loads agree to 1e-4 of the weight, far less than that of a grade.
    assert!(holds(steepest - 2e-4) && !holds(steepest + 1.2e-3), "{steepest}");
}

/// Without a rating of the tongue a head that lifts it is as steep as with one.
#[test]
fn a_head_that_lifts_the_tongue_is_too_steep_without_a_rating() {
    // Nothing but the tongue is near its rating.
    let rated = include_str!("../../demo-data/survey-launch-as-changed.toml")
        .replace("\nrating = \"5200 lb\"", "\nrating = \"9000 lb\"")
        .replace("rating = \"2830 lb\"", "rating = \"5000 lb\"");
    let rated = &rated[..];
    let unrated = rated.replace(", tongue_rating = \"1400 lb\"", "");
    let unrated: Vec<&str> = unrated.lines().filter(|line| !line.starts_with("tongue_rating")).collect();
    let unrated = unrated.join("\n");
    let at = |text: &str, grade: f64| {
        bunkline::study::head::at_grade(&read(text, &[]), 0, Slope(grade)).expect("it rests")
    };
    let row = |text: &str| {
        let rows = at(text, 0.15).rows;
        rows.into_iter().find(|row| row.id() == "ramp-tongue").expect("a row")
    };
    assert!(row(rated).load == row(&unrated).load && row(&unrated).verdict == Verdict::Advise);
    assert!(!at(rated, 0.15).holds() && !at(&unrated, 0.15).holds());
    assert!(at(&unrated, 0.10).holds());
}
