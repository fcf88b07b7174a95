//! Brakes of whole rigs: what an owner may leave out, and what must hold of any.

use crate::registry::full_rigs;
use bunkline::Rig;
use bunkline::fit::{Assessment, RigVerdict, Row, Verdict, assess};
use bunkline::quantity::Quantity;

fn assessed(text: &str, changes: &[&str]) -> Assessment {
    let rig = Rig::read("rig.toml", text, changes).unwrap_or_else(|problems| panic!("{problems}"));
    assess(&rig).expect("a trailer at rest")
}

fn row<'a>(found: &'a Assessment, id: &str) -> &'a Row {
    found.check(id).unwrap_or_else(|| panic!("no row {id}"))
}

fn load(found: &Assessment, id: &str) -> f64 {
    row(found, id).load.unwrap_or_else(|| panic!("{id}: {:?}", row(found, id).missing)).si()
}

#[test]
fn a_trailer_said_to_have_no_brakes_fails_whatever_its_axles_say() {
    let text =
        &full_rigs()[0].lines().filter(|line| !line.starts_with("brakes.")).collect::<Vec<_>>().join("\n");
    let found = assessed(text, &["trailer.brakes.kind=none"]);
    assert_eq!(row(&found, "brakes-required").verdict, Verdict::Fail);
    assert_eq!(found.verdict, RigVerdict::Fail);
    // What the tow vehicle then has to do alone is still worked out: all of both weights.
    let (gross, tow) = (found.cases[0].gross.clone().expect("a weight"), 5800.0);
    let pound = bunkline::quantity::unit::POUND;
    let alone = 0.435 * (gross.si() / pound + tow);
    assert!((load(&found, "brake-stop") / pound - alone).abs() < 1e-6);
}

#[test]
fn brakes_that_are_not_described_are_not_covered() {
    let text =
        full_rigs()[0].lines().filter(|line| !line.starts_with("brakes.")).collect::<Vec<_>>().join("\n");
    let (before, rest) = text.split_once("[trailer.brakes]").expect("the section");
    let (_, after) = rest.split_once("[trailer.coupler]").expect("the next");
    let found = assessed(&format!("{before}[trailer.coupler]{after}"), &[]);
    assert!(found.not_covered.contains(&bunkline::fit::Subject::Brakes));
    assert!(found.rows.iter().all(|row| !row.id().starts_with("brake-")));
}

#[test]
fn more_bore_never_brakes_harder_and_a_limit_of_pressure_never_helps() {
    let text = &full_rigs()[0];
    let push = |changes: &[&str]| {
        let found = assessed(text, changes);
        found.brakes[0].stop.as_ref().expect("a stop").trailer.push.si()
    };
    let mut last = 0.0;
    for bore in [0.75, 0.875, 1.0, 1.125, 1.25, 1.5] {
        let next = push(&[&format!("trailer.brakes.bore={bore} in"), "trailer.brakes.pressure_max=3000 psi"]);
        assert!(next > last, "{bore} in");
        last = next;
    }
    assert!(push(&["trailer.brakes.pressure_max=400 psi"]) > push(&["trailer.brakes.pressure_max=500 psi"]));
}

#[test]
fn a_piston_s_travel_that_is_assumed_fails_only_at_its_short_end() {
    let text = full_rigs()[0].replace("brakes.travel = \"0.03 in\"\n", "");
    // As assumed the stroke would be 1.4 in or so; half the travel leaves more than half of it, for the hoses swell.
    let (assumed, stroke) = (assessed(&text, &[]), load(&assessed(&text, &[]), "brake-stroke"));
    assert_eq!(row(&assumed, "brake-stroke").verdict, Verdict::Pass);
    let of = |has: f64| format!("trailer.brakes.stroke={} m", has * stroke);
    let verdict = |text: &str, has: f64| row(&assessed(text, &[&of(has)]), "brake-stroke").verdict;
    assert_eq!(verdict(&text, 0.99), Verdict::Advise);
    assert_eq!(verdict(&text, 0.4), Verdict::Fail);
    assert_eq!(verdict(&full_rigs()[0], 0.99), Verdict::Fail);
}

#[test]
fn free_axles_carry_what_they_carry_without_a_stop() {
    // Each axle for itself and no inertia to speak of: with all brakes current-worked at a setting of nothing, a stop moves
    // load to the ball alone, by W a zc / x̄ for a frame on even springs.
    let text = full_rigs()[0].replace("kind = \"surge\"", "kind = \"electric\"\nsetting = \"0 %\"");
    let found = assessed(&text, &[]);
    let stop = found.brakes[0].stop.as_ref().expect("a stop");
    let all: f64 = stop.trailer.stance.axle_loads.iter().map(|load| load.si()).sum();
    let gross = found.cases[0].gross.clone().expect("a weight").si();
    assert!((all + stop.trailer.stance.tongue_weight.si() - gross).abs() < 1e-8 * gross);
    assert!((stop.trailer.push.si() - 0.435 * gross).abs() < 1e-8 * gross);
    // Found without settling, what the tow vehicle does alone is what settling this trailer gives.
    let alone = found.brakes[0].by_tow_alone.as_ref().expect("known").si();
    assert!((alone - stop.by_tow.as_ref().expect("known").si()).abs() < 1e-9 * alone);
}
