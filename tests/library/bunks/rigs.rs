//! One plain rig whose bunks can be worked by hand.

use bunkline::Rig;
use bunkline::fit::{Assessment, Bunk, BunkLoads, Row, assess};
use bunkline::quantity::{Length, Quantity, Weight, unit};

/// Three equal spans of 40 in, the boat's centre of gravity over their middle.
///
/// Transom at 60 + 240 = 300 in; centre of gravity (5000·110 − 1000·10)/6000 = 90 in ahead of it, at 210 in.
pub const PLAIN: &str = r#"
format = 1
[boat]
beam = "86 in"
bow_eye = { station = "240 in", height = "40 in" }
[boat.hull]
deadrise = "18 deg"
chine = { half_breadth = "43 in", height = "19 in" }
straight_run = "160 in"
support_from = "10 in"
strakes = [ { name = "inner", half_breadth = "16 in" }, { name = "outer", half_breadth = "31 1/2 in" } ]
[[boat.low_points]]
name = "propeller"
station = "12 in"
height = "-6 in"
[[boat.weights]]
id = "hull"
weight = "5000 lb"
station = "110 in"
height = "30 in"
[[boat.weights]]
id = "motor"
weight = "1000 lb"
station = "-10 in"
height = "30 in"
[trailer]
weight = "1500 lb"
cg = "190 in"
bow_stop = "60 in"
level_ball_height = "20 in"
rail_half_spacing = "36 in"
[trailer.suspension]
kind = "leaf-separate"
[[trailer.axles]]
station = "220 in"
rating = "8000 lb"
tires = { rating = "4000 lb", radius = "14 in" }
[trailer.bunks]
forward_end = "150 in"
aft_end = "270 in"
half_spacing = "31 1/2 in"
top = "34 in"
board = "4x10"
lay = "edge"
wood = "southern-pine-2"
spacer = "2 in"
brackets = { bolts = 2, bolt_rating = "500 lb" }
[[trailer.crossmembers]]
station = "150 in"
top = "22 in"
centre = "15 in"
section_modulus = "2 in3"
yield = "36 ksi"
[[trailer.crossmembers]]
station = "190 in"
top = "22 in"
centre = "15 in"
rating = "1000 lb"
[[trailer.crossmembers]]
station = "230 in"
top = "22 in"
centre = "15 in"
[[trailer.crossmembers]]
station = "270 in"
top = "22 in"
centre = "15 in"
[[trailer.crossmembers]]
station = "295 in"
top = "22 in"
centre = "15 in"
[trailer.fenders]
half_breadth = "44 in"
height = "34 in"
[trailer.bow_bunks]
forward_end = "60 in"
aft_end = "100 in"
forward_top = "40 in"
aft_top = "30 in"
[trailer.guides]
height = "48 in"
size = "10 in"
half_spacing = "45 in"
"#;

pub fn rig(changes: &[&str]) -> Rig {
    Rig::read("plain", PLAIN, changes).expect("it reads")
}

pub fn assessed(changes: &[&str]) -> Assessment {
    assess(&rig(changes)).expect("it rests on its wheels")
}

/// What the bunks carry in the rig's one case.
pub fn loads(changes: &[&str]) -> BunkLoads {
    assessed(changes).bunks.remove(0)
}

pub fn bunk(changes: &[&str]) -> Bunk {
    loads(changes).bunk.expect("nothing is missing").expect("the boat lies on them")
}

pub fn row(found: &Assessment, id: &str) -> Row {
    found.rows.iter().find(|row| row.id() == id).unwrap_or_else(|| panic!("no row {id}")).clone()
}

/// A size in SI in a unit of the rig file.
pub fn of(si: f64, name: &str) -> f64 {
    si / unit::find(name).expect("a unit").factor
}

pub fn inches(length: Length) -> f64 {
    of(length.si(), "in")
}

pub fn pounds(weight: Weight) -> f64 {
    of(weight.si(), "lb")
}

/// The load of a row, in the unit named.
pub fn load(found: &Assessment, id: &str, name: &str) -> f64 {
    of(row(found, id).load.unwrap_or_else(|| panic!("{id} is not made")).si(), name)
}

/// The upper limit of a row, in the unit named.
pub fn max(found: &Assessment, id: &str, name: &str) -> f64 {
    of(row(found, id).max.expect("a limit").si(), name)
}
