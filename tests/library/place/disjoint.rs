//! A limit that is not monotone has several windows, and all are found.
//!
//! A point under the boat passes over a washboard of troughs 6 ft apart, each falling and rising 8 % over 3 ft,
//! 2.9 in deep. The tow vehicle, more than the washboard's length ahead, stays on the level. With the wheels in
//! a trough, the tail sunk by the trough and by a lever of L / axle station more, a point L behind the axle
//! has least room where L is half a trough's length and a whole number of them more, and most where it is a
//! whole number. So the clearance falls, rises, falls and rises as the boat goes aft.

use super::{options, rig};
use bunkline::fit::{Verdict, assess};
use bunkline::quantity::{Length, Quantity};
use bunkline::rig::Varied;
use bunkline::study::place::{Part, place};

const RIG: &str = r#"
format = 1
[boat]
bow_eye = { station = "240 in", height = "30 in" }
[[boat.low_points]]
name = "skeg"
station = "10 in"
height = "HEIGHT"
[[boat.weights]]
weight = "3000 lb"
station = "110 in"
height = "26 in"
[trailer]
weight = "1200 lb"
cg = "150 in"
cg_height = "21 in"
bow_stop = "40 in"
keel_height = "24 in"
level_ball_height = "20 in"
suspension = { kind = "torsion" }
[[trailer.axles]]
station = "200 in"
rating = "7000 lb"
tires = { radius = "14 in" }
[tow]
front_axle_load = "4000 lb"
rear_axle_load = "3500 lb"
wheelbase = "140 in"
ball_overhang = "80 in"
ball_height = "20 in"
[travel]
boat = ["-48 in", "72 in"]
[policy]
advises = ["*"]
counts = ["ramp-clearance-skeg", "tongue-uplift"]
[[ramps]]
name = "washboard"
profile = [ RUNS ]
"#;

#[test]
fn both_windows_of_a_clearance_over_ridges_are_found() {
    let up_and_down = r#"{ length = "3 ft", grade = "8 %" }, { length = "3 ft", grade = "-8 %" }"#;
    let runs = [up_and_down; 4].join(", ") + ", { length = \"40 ft\", grade = \"8 %\" }";
    let text = RIG.replace("RUNS", &runs).replace("HEIGHT", "-21 1/2 in");
    let rig = rig(&text, &[]);
    let placing = place(&rig, Part::Boat, &options(true)).expect("a trailer at rest");
    assert!(placing.ramps);

    let variable = rig.variable("shift.boat").expect("a key of the format");
    let mut varied = Varied::new(&rig);
    let (from, width) = (placing.range.from.si(), placing.range.width().si());
    let mut changes = Vec::new();
    for i in 0..=120 {
        let at = from + width * f64::from(i) / 120.0;
        let found = assess(varied.with(&[(&variable, at)]).expect("a valid shift")).expect("at rest");
        let passes = found.rows.iter().all(|row| row.verdict != Verdict::Fail);
        let near = placing.windows.iter().any(|window| {
            let ends = [window.interval.from, window.interval.to];
            ends.iter().any(|end| (end.si() - at).abs() < 1e-6)
        });
        let inside = placing.windows.iter().any(|window| window.interval.holds(Length::from_si(at)));
        assert!(near || passes == inside, "at {at} m");
        if changes.last() != Some(&passes) {
            changes.push(passes);
        }
    }
    assert_eq!(changes, [true, false, true, false]);
    assert_eq!(placing.windows.len(), 2);
    assert!(placing.answers());
}
