//! Sway of a rig beside another setting of it: what the moves of record do, and where it is not compared at all.

use bunkline::Rig;
use bunkline::quantity::Quantity;
use bunkline::study::sway::{Change, Sway, sway};

fn rig(changes: &[&str]) -> Rig {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/demo-data/survey-launch-as-changed.toml");
    let text = std::fs::read_to_string(path).expect("a demo");
    Rig::read("rig.toml", &text, changes).unwrap_or_else(|problems| panic!("{problems}"))
}

fn moved(change: &str) -> Option<Sway> {
    let now = rig(&[]);
    sway(&now, &now.with(change).unwrap_or_else(|problems| panic!("{problems}")))
}

/// By how much the speed of equal steadiness grows.
fn faster(sway: &Sway) -> f64 {
    sway.as_steady_at.expect("a speed").si() / sway.speed.si() - 1.0
}

/// The boat 3 in forward makes any rig steadier, by 6 to 13 % of speed; axles 3 in aft by 10 to 22 % (400 invented rigs),
/// in whole percent.
#[test]
fn the_boat_forward_and_the_axles_aft_make_it_steadier() {
    for (change, least, most) in [("shift.boat-=3in", 0.055, 0.135), ("shift.axles+=3in", 0.095, 0.225)] {
        let steadier = moved(change).expect("one rig");
        assert_eq!(steadier.change, Change::Steadier, "{change}");
        let faster = faster(&steadier);
        assert!((least..=most).contains(&faster), "{change}: {faster}");
    }
    let less = moved("shift.boat+=3in").expect("one rig");
    assert_eq!(less.change, Change::LessSteady);
    assert!(faster(&less) < 0.0);
}

#[test]
fn a_rig_is_as_steady_as_itself_and_another_rig_is_not_compared() {
    let same = moved("shift.boat+=0in").expect("one rig");
    assert!(matches!(same.change, Change::NoDifference | Change::WellDamped) && same.as_steady_at.is_none());
    for other in ["trailer.axles.all.tires.rating=3000 lb", "tow.wheelbase+=1in", "trailer.weight+=100lb"] {
        assert_eq!(moved(other), None, "{other}");
    }
}
