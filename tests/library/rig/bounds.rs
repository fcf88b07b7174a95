//! A bound (±) belongs to its key, whatever value is proposed.

use super::inputs::{FULL, elements};
use bunkline::Rig;
use bunkline::quantity::Kind;
use bunkline::rig::inputs::{INPUTS, Input, SHIFT_BOAT, TOW_BALL_HEIGHT, TRAILER_WEIGHT};
use bunkline::rig::{At, Fault, Key, Role, Sign, Varied};

const LAUNCH: &str = include_str!("../../../demo-data/survey-launch-as-found.toml");

/// The bound of a key, in SI.
fn bound(rig: &Rig, key: Key) -> Option<f64> {
    rig.uncertain().iter().find(|(other, _)| *other == key).map(|(_, bound)| *bound)
}

fn unit(kind: Kind) -> (&'static str, f64) {
    match kind {
        Kind::Length | Kind::Distance => ("m", 1.0),
        Kind::Weight => ("N", 1.0),
        Kind::Angle => ("deg", std::f64::consts::PI / 180.0),
        Kind::Share | Kind::Slope => ("%", 0.01),
        Kind::Pressure | Kind::LinePressure => ("kPa", 1e3),
        Kind::Volume => ("L", 1e-3),
        Kind::Density => ("kg/m3", 1.0),
        Kind::Rate => ("N/mm", 1e3),
        Kind::Stress => ("MPa", 1e6),
        Kind::SectionModulus => ("cm3", 1e-6),
        Kind::Moment => ("N m", 1.0),
        Kind::Speed => ("m/s", 1.0),
        Kind::Current => ("A", 1.0),
        Kind::Charge => ("Ah", 3600.0),
        Kind::Area => ("m2", 1.0),
        Kind::Force => ("kN", 1e3),
    }
}

/// Every quantity that the full rig has, with where it stands and its value.
fn quantities(rig: &Rig) -> Vec<(&'static Input, Key, Kind, f64)> {
    let elements = |input: &Input| -> Vec<At> { elements(input.path, rig.proposed()) };
    let found = INPUTS.iter().flat_map(|input| elements(input).into_iter().map(move |at| (*input, at)));
    found
        .filter_map(|(input, at)| {
            let key = Key { path: input.path, at };
            Some((input, key, input.kind()?, input.si(rig.proposed(), at)?))
        })
        .collect()
}

#[test]
fn the_bound_of_every_key_is_read_and_moves_its_value() {
    let rig = Rig::parse(FULL).expect("it reads");
    let quantities = quantities(&rig);
    assert!(quantities.len() > 90, "the rig states most of the format: {}", quantities.len());
    for (input, key, kind, value) in quantities {
        // Half of what lies about zero would be negative.
        if value == 0.0 && input.sign == Sign::NotNegative && kind != Kind::Share {
            continue;
        }
        let (unit, size) = unit(kind);
        let error = 1e-3 * if value == 0.0 { size } else { value.abs() };
        let stated = value / size;
        let change = format!("{key}={stated} {unit} ± {} {unit}", error / size);
        let uncertain = rig.with(&change).unwrap_or_else(|problems| panic!("{change}: {problems}"));
        let found = bound(&uncertain, key).unwrap_or_else(|| panic!("{change}: no bound"));
        assert!((found / error - 1.0).abs() < 1e-9, "{change}: {found}");
        // Downward, where no share is over 100 %.
        let moved = Varied::new(&uncertain).with_errors(&[(key, -error)]).expect(&change).clone();
        let by = |rig: &Rig| input.si(rig.proposed(), key.at).expect("a value");
        let change_of_value = by(&moved) - by(&uncertain);
        let clamped = by(&uncertain) - error < 0.0 && by(&moved) == 0.0;
        assert!(clamped || (change_of_value / -error - 1.0).abs() < 1e-6, "{change}: {change_of_value}");
        if input.role == Role::Correction {
            assert_eq!(input.si(moved.measured(), key.at), input.si(moved.proposed(), key.at), "{change}");
        }
    }
}

#[test]
fn a_bound_in_the_file_stays_whatever_value_is_proposed() {
    let file = LAUNCH.replace("[shift]", "[shift]\naxles = \"0 in ± 1 in\"");
    let file =
        if file.contains("[shift]") { file } else { format!("{file}\n[shift]\nboat = \"0 in ± 2 in\"\n") };
    let rig = Rig::parse(&file).expect("it reads");
    assert!(!rig.uncertain().is_empty());
    for (key, was) in rig.uncertain() {
        let variable = rig.variable(&key.to_string()).expect("a quantity");
        let value = rig.value(&variable).expect("a value");
        let (unit, size) = unit(variable.kind);
        let other = value * 1.01 + 0.001 * size;
        let changed = rig.changed(&variable, other).expect("it fits");
        assert_eq!(bound(&changed, *key), Some(*was), "{key}: changed");
        let set = rig.with(&format!("{key}={} {unit}", other / size)).expect("it fits");
        assert_eq!(bound(&set, *key), Some(*was), "{key}: set");
        let varied = Varied::new(&rig).with(&[(&variable, other)]).expect("it fits").clone();
        assert_eq!(bound(&varied, *key), Some(*was), "{key}: varied");
        // A change that states its own outranks it, one of nothing too.
        let own = rig.with(&format!("{key}={} {unit} ± {} {unit}", other / size, 2.0 * was / size));
        let own = bound(&own.expect("it fits"), *key).expect("a bound");
        assert!((own / was - 2.0).abs() < 1e-9, "{key}: {own}");
        let none = rig.with(&format!("{key}={} {unit} ± 0 {unit}", other / size)).expect("it fits");
        assert_eq!(bound(&none, *key), None, "{key}: surely known");
    }
}

#[test]
fn the_error_of_a_proposed_value_moves_the_proposal() {
    let file = format!("{LAUNCH}\n[shift]\nboat = \"0 in ± 2 in\"\n");
    let rig = Rig::parse(&file).expect("it reads").with("shift.boat=0.5 m").expect("it fits");
    assert_eq!(bound(&rig, SHIFT_BOAT.key()), Some(2.0 * 0.0254));
    let moved = Varied::new(&rig).with_errors(&[(SHIFT_BOAT.key(), 0.05)]).expect("it fits").clone();
    assert!((SHIFT_BOAT.get(moved.proposed()).expect("a shift").value - 0.55).abs() < 1e-12);
    assert_eq!(SHIFT_BOAT.get(moved.measured()).map(|shift| shift.value), Some(0.0));
    // Of a value that was measured, both move: the proposal from where it is proposed.
    let rig = Rig::parse(&file).expect("it reads").with("tow.ball_height=0.6 m ± 0.02 m").expect("it fits");
    let was = TOW_BALL_HEIGHT.get(rig.measured()).expect("a height");
    let moved = Varied::new(&rig).with_errors(&[(TOW_BALL_HEIGHT.key(), 0.02)]).expect("it fits").clone();
    assert!((TOW_BALL_HEIGHT.get(moved.proposed()).expect("a height").value - 0.62).abs() < 1e-12);
    let by = (TOW_BALL_HEIGHT.get(moved.measured()).expect("a height") - was).value;
    assert!((by - 0.02).abs() < 1e-12, "{by}");
    assert!(TRAILER_WEIGHT.get(rig.measured()).is_some());
}

#[test]
fn a_travel_has_no_bound() {
    let change = "travel.boat=[\"-16 in ± 6 in\", \"2 in\"]";
    let problems = Rig::parse(LAUNCH).expect("it reads").with(change).expect_err("a bound");
    assert!(matches!(problems.list[..], [ref problem] if problem.fault == Fault::TravelWithBound));
}
