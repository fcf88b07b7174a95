//! What would cure a failing check, and what else it would do, by hand on one rig.

use crate::hand::{RIG, in_us};
use bunkline::Rig;
use bunkline::fit::{Amount, Cure, Findings, Room, examine};
use bunkline::quantity::Length;

fn examined(changes: &[&str]) -> Findings {
    let rig = Rig::read("rig.toml", RIG, changes).unwrap_or_else(|problems| panic!("{problems}"));
    examine(&rig).expect("a trailer at rest")
}

/// The cures of a row, which must be outside its limits.
fn cures(changes: &[&str], id: &str) -> Vec<Cure> {
    let found = examined(changes);
    let of_row = |(row, _): &&(usize, Vec<Cure>)| found.assessment.rows[*row].id() == id;
    found.cures.iter().find(of_row).unwrap_or_else(|| panic!("{id} needs no cure")).1.clone()
}

fn inches(length: Length) -> f64 {
    in_us(Amount::Length(length))
}

/// A search stops within a micrometre or a ten-thousandth of a newton.
const FOUND: f64 = 1e-4;

#[test]
fn a_part_of_a_higher_rating() {
    let [Cure::Rating(rating), ..] = &cures(&["trailer.gvwr=7900 lb"], "trailer-gvwr")[..] else { panic!() };
    assert!((in_us(*rating) - 8000.0).abs() < 1e-9);
    // The heavier tire carries N/2 + 12 000/160; half of them more on a tire made for a car.
    let n = 1_620_000.0 / 440.0;
    let changes = ["trailer.axles.1.tires.rating=1500 lb", "trailer.axles.1.tires.kind=passenger"];
    let [Cure::Tires { rating, at: None }, ..] = cures(&changes, "tire-1")[..] else { panic!() };
    assert!((in_us(Amount::Weight(rating)) - 1.1 * (n / 2.0 + 75.0)).abs() < 1e-2);
    // Two tires under an axle of 4100 lb.
    let [Cure::RatingOfEach(rating)] = cures(&changes, "axle-tires-1")[..] else { panic!() };
    assert!((in_us(Amount::Weight(rating)) - 1.1 * 2050.0).abs() < 1e-9);
    // No rating holds a tongue that lifts: the boat's centre is at 230 in then, and V = 8000 − 1 740 000/220.
    let lifted = cures(&["shift.boat=30 in"], "coupler-tongue");
    assert!(!lifted.iter().any(|cure| matches!(cure, Cure::Rating(_))), "{lifted:?}");
}

#[test]
fn a_part_of_the_right_size_or_height() {
    let [Cure::Size(size)] = cures(&[], "ball-size")[..] else { panic!() };
    assert!((in_us(size) - 2.0).abs() < 1e-9);
    // The eye stands at 54 in, two less to two more do; the middle of 52 to 56.
    let [Cure::Raise(by)] = cures(&["trailer.bow_stop_height=60 in"], "bow-stop-height")[..] else {
        panic!()
    };
    assert!((inches(by) + 6.0).abs() < 1e-9);
    // The keel at 24 in, the crossmember's middle at 28.
    let changes = ["trailer.crossmembers.1.centre=28 in"];
    let [Cure::RaiseBoat(by)] = cures(&changes, "clearance-keel-1")[..] else { panic!() };
    assert!((inches(by) - 4.0).abs() < 1e-9);
    // Inside the chine, 40 in out, the bottom stands at 24 + 39 tan 18° over the fender's edge.
    let fender = |half_breadth: &str| {
        let half_breadth = format!("trailer.fenders.half_breadth={half_breadth} in");
        let changes = [&half_breadth[..], "trailer.fenders.height=40 in"];
        let [Cure::RaiseBoat(by)] = cures(&changes, "clearance-fender")[..] else { panic!() };
        inches(by)
    };
    assert!((fender("39") - (16.0 - 39.0 * 18_f64.to_radians().tan())).abs() < FOUND, "{}", fender("39"));
    // Outside it the chine, 38 in up, clears it as soon as it is level with its top.
    assert!((fender("41") - 2.0).abs() < FOUND, "{}", fender("41"));
}

#[test]
fn so_much_less_in_the_boat() {
    let shed = |changes: &[&str]| {
        let cures = cures(changes, "trailer-gvwr");
        cures.iter().find_map(|cure| match cure {
            Cure::Shed(weight) => Some(in_us(Amount::Weight(*weight))),
            _ => None,
        })
    };
    assert!((shed(&["trailer.gvwr=7900 lb"]).expect("100 lb") - 100.0).abs() < FOUND);
    // More than is left out already.
    assert!((shed(&["trailer.gvwr=7900 lb", "shift.ashore=40 lb"]).expect("60 lb") - 60.0).abs() < FOUND);
    // Never more than half of the boat.
    assert!(shed(&["trailer.gvwr=5001 lb"]).is_some());
    assert_eq!(shed(&["trailer.gvwr=4999 lb"]), None);
}

/// The boat 6 in aft: V = 8000 − (6000 · 216 + 360 000)/220 = 472.73 lb, where 7 % are 560 lb.
#[test]
fn the_boat_moved() {
    let moved = |changes: &[&str]| {
        let cures = cures(&[&["shift.boat=6 in"], changes].concat(), "tongue-share");
        let moves = cures.into_iter().find_map(|cure| match cure {
            Cure::MoveBoat { by, room, breaks, worsens } => Some((inches(by), room, breaks, worsens)),
            _ => None,
        });
        moves.expect("a move")
    };
    // 560 = 8000 − (6000 x + 360 000)/220: x = 212.8.
    let (by, room, breaks, worsens) = moved(&[]);
    assert!((by + 3.2).abs() < FOUND, "{by}");
    assert_eq!(room, Room::Unstated);
    assert_eq!((breaks, worsens), (vec![], vec![]));
    // It goes to 2.8 in.
    assert_eq!(moved(&["travel.boat=[\"0 in\", \"10 in\"]"]).1, Room::Within);
    assert_eq!(moved(&["travel.boat=[\"2.7 in\", \"6 in\"]"]).1, Room::Within);
    let Room::Beyond(reach) = moved(&["travel.boat=[\"2.9 in\", \"10 in\"]"]).1 else { panic!() };
    assert!((inches(reach.from) - 2.9).abs() < 1e-9);
    assert!(matches!(moved(&["travel.boat=[\"-10 in\", \"2.7 in\"]"]).1, Room::Beyond(_)));

    // The tongue carries 560 lb there, and the tow vehicle's rear axle 2800 + 560 · 190/140 = 3560, before 3441.6; the
    // trailer's axles carry less, and may fail as before.
    let (_, _, breaks, worsens) = moved(&["trailer.coupler.tongue_rating=550 lb"]);
    assert_eq!((breaks, worsens), (vec!["coupler-tongue".to_string()], vec![]));
    let overloaded = ["tow.rear_gawr=3000 lb", "trailer.axles.1.rating=3000 lb"];
    let (_, _, breaks, worsens) = moved(&overloaded);
    assert_eq!((breaks, worsens), (vec![], vec!["tow-rear-axle".to_string()]));
    // What only advises breaks nothing.
    let (_, _, breaks, _) =
        moved(&["trailer.coupler.tongue_rating=550 lb", "policy.advises=[\"coupler-tongue\"]"]);
    assert_eq!(breaks, Vec::<String>::new());
}
