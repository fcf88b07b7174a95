//! Source: Transportation Research Record 1356, 1992, on vehicles that ground at breaks of grade. Its abstract,
//! read: a wheelbase of 36 ft and 5 in of clearance give 4.6 %. Derived: a low point midway between two axles
//! grounds at a sharp break whose grades differ by `A = 4 h / L`, `h` its clearance and `L` the wheelbase.
//!
//! Driven through the library: a tow vehicle of that wheelbase with a low point midway backs over the break.
//!
//! Tolerance: the formula is of first order in `A`: chords and slopes of 5 % leave `A²`, 0.25 % of it. The low
//! point comes as near to the break as half a step, which moves the clearance by `A` of that: 0.3 mm in 127.

use crate::rigs::{INCH, axle, rig, weight};
use bunkline::Rig;
use bunkline::fit::Model;
use bunkline::quantity::Quantity;

/// The share of `A` that the first order leaves out, and the step.
const FIRST_ORDER: f64 = 5e-3;

/// The least clearance, in inches, over a break from the level to this grade.
fn clearance(percent: f64, wheelbase: f64, height: f64) -> f64 {
    let rest = format!(
        r#"
[trailer.suspension]
kind = "torsion"
[tow]
wheelbase = "{wheelbase} in"
ball_overhang = "48 in"
ball_height = "20 in"
[[tow.low_points]]
name = "belly"
station = "{} in"
height = "{height} in"
[[ramps]]
name = "break"
profile = [ {{ length = "80 ft", grade = "{percent} %" }} ]
"#,
        -wheelbase / 2.0
    );
    let trailer = "weight = \"1500 lb\"\ntongue_weight = \"150 lb\"";
    let text = rig(&weight(4000.0, 90.0), trailer, &[axle(190.0)], &rest);
    let rig = Rig::read("case.toml", &text, &[] as &[&str]).unwrap_or_else(|problems| panic!("{problems}"));
    let peaks = Model::new(&rig).peaks(0, 0).expect("nothing is missing").expect("it rests on its wheels");
    peaks.clearances[0].as_ref().expect("its station and height are known").value.si() / INCH
}

/// The grade at which it grounds, in percent.
fn grounds_at(wheelbase: f64, height: f64) -> f64 {
    let (mut clear, mut grounded) = (0.0, 20.0);
    while grounded - clear > 1e-3 {
        let middle = f64::midpoint(clear, grounded);
        if clearance(middle, wheelbase, height) > 0.0 {
            clear = middle;
        } else {
            grounded = middle;
        }
    }
    clear
}

#[test]
fn a_low_point_midway_grounds_at_four_heights_over_the_wheelbase() {
    // 36 ft and 5 in: 4 · 5 / 432 = 4.63 %, printed as 4.6 %. And two of the same formula.
    for (wheelbase, height, percent) in [(432.0, 5.0, 4.6296), (432.0, 3.0, 2.7778), (240.0, 4.0, 6.6667)] {
        let found = grounds_at(wheelbase, height);
        assert!((found - percent).abs() < FIRST_ORDER * percent, "{found} % for {percent} %");
    }
    assert_eq!(format!("{:.1}", grounds_at(432.0, 5.0)), "4.6");
}

#[test]
fn half_that_break_takes_half_the_height() {
    // h − A L / 4: 5 − 0.023148 · 432 / 4 = 2.5 in.
    let found = clearance(2.3148, 432.0, 5.0);
    assert!((found - 2.5).abs() < FIRST_ORDER * 5.0, "{found}");
}
