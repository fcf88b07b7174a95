//! What holds of whole ramps.

use bunkline::Rig;
use bunkline::fit::{Amount, Model, assess, waters_edge};
use bunkline::quantity::{Length, Quantity, Slope};
use bunkline::study::head;
use bunkline::study::rates::at_rates;

/// As a share of a rating: the settling's remainder of moment and rounding.
const EXACT: f64 = 1e-9;

fn demo(ramp: &str) -> Rig {
    read(ramp, &[])
}

fn read(ramp: &str, changes: &[&str]) -> Rig {
    let path = format!("{}/demo-data/survey-launch-as-found.toml", env!("CARGO_MANIFEST_DIR"));
    let content = std::fs::read_to_string(path).expect("the demo is there");
    let (before, _) = content.split_once("[[ramps]]").expect("the demo has a ramp");
    let text = format!("{before}[[ramps]]\nname = \"slip\"\n{ramp}\n");
    Rig::read("rig.toml", &text, changes).unwrap_or_else(|problems| panic!("{problems}"))
}

const FOOT: f64 = 0.3048;

#[test]
fn a_steeper_head_asks_more_of_the_front_axle() {
    for ease in ["", "ease = \"6 ft\""] {
        let rig = demo(&format!("profile = [ {{ length = \"60 ft\", grade = \"5 %\" }} ]\n{ease}"));
        let peak = |percent: i32| {
            let at = head::at_grade(&rig, 0, Slope(f64::from(percent) / 100.0)).expect("it settles");
            let peaks = at.crossings[0].peaks.as_ref().expect("known").as_ref().expect("it rests");
            peaks.axles[0].greatest.value.si()
        };
        let peaks: Vec<f64> = (0..=13).map(|step| peak(2 * step)).collect();
        for (gentler, steeper) in peaks.iter().zip(&peaks[1..]) {
            // What a step of 50 mm misses of a smooth peak.
            assert!(*steeper >= gentler * (1.0 - 1e-3), "{gentler} then {steeper}");
        }
    }
}

#[test]
fn a_head_of_no_grade_is_the_level() {
    let rig = demo("profile = [ { length = \"30 ft\", grade = \"5 %\" } ]\nease = \"6 ft\"");
    let level = Model::new(&rig).loads().expect("it settles");
    let at = head::at_grade(&rig, 0, Slope(0.0)).expect("it settles");
    for (crossing, level) in at.crossings.iter().zip(&level) {
        let peaks = crossing.peaks.as_ref().expect("known").as_ref().expect("it rests");
        let stance = &level.level.as_ref().expect("known").stance;
        // Two settlings of 46 kN, each to 1e-9.
        let near = |a: f64, b: f64| assert!((a - b).abs() < 1e-4, "{a} for {b}");
        for (axle, load) in peaks.axles.iter().zip(&stance.axle_loads) {
            near(axle.greatest.value.si(), load.si());
            near(axle.least.value.si(), load.si());
            assert!(axle.hangs.is_empty());
        }
        near(peaks.tongue_greatest.value.si(), stance.tongue_weight.si());
        near(peaks.tongue_least.value.si(), stance.tongue_weight.si());
        near(peaks.pull.value.si(), 0.0);
    }
}

#[test]
fn water_begins_where_the_ramp_reaches_its_level() {
    let edge = |rest: &str| {
        let runs = "{ length = \"30 ft\", grade = \"2 %\" }, { length = \"70 ft\", grade = \"10 %\" }";
        let rig = demo(&format!("profile = [ {runs} ]\n{rest}"));
        waters_edge(&rig.proposed().ramps[0]).map(|edge| edge.si() / FOOT)
    };
    // 30 ft at 2 % is 0.6 ft down; 3 ft down is 2.4 ft more at 10 %: 30 + 24 = 54 ft. Arithmetic only.
    let near = |found: Option<f64>, feet: f64| {
        assert!((found.expect("the ramp reaches the water") - feet).abs() < 1e-9, "{found:?}");
    };
    near(edge("water_level = \"-3 ft\""), 54.0);
    // 0.3 ft down is halfway along the first run.
    near(edge("water_level = \"-0.3 ft\""), 15.0);
    near(edge("water_from_top = \"41 ft\""), 41.0);
    // The ramp ends 0.6 + 7 = 7.6 ft down.
    assert_eq!(edge("water_level = \"-8 ft\""), None);
    assert_eq!(edge(""), None);
}

#[test]
fn softer_rates_swing_less_over_a_sharp_head() {
    let rig = demo("profile = [ { length = \"60 ft\", grade = \"12 %\" } ]");
    let peak = |times: f64| {
        let rig = at_rates(&rig, times).expect("rates that a file may state");
        let crossed = Model::new(&rig).cross(0, 0, Length::from_si(0.05), &mut |_| {});
        let peaks = crossed.expect("known").expect("it rests");
        peaks.axles[0].greatest.value.si()
    };
    let peaks = [0.5, 1.0, 2.0, 4.0].map(peak);
    assert!(peaks.windows(2).all(|pair| pair[0] <= pair[1]), "{peaks:?}");
}

#[test]
fn rates_are_changed_by_the_keys_that_make_them() {
    let slip = "profile = [ { length = \"60 ft\", grade = \"9 %\" } ]";
    let with = |changes: &[&str]| read(slip, changes);
    let tongue = |rig: &Rig| {
        let crossed = Model::new(rig).cross(0, 0, Length::from_si(0.05), &mut |_| {});
        crossed.expect("known").expect("it rests").tongue_least.value.si()
    };
    let stated = with(&["tow.hitch_rate=2000 lb/in"]);
    let deflection =
        stated.proposed().trailer.suspension.deflection_at_rating.expect("a default").si() / 0.0254;
    let halved = with(&[
        "tow.hitch_rate=1000 lb/in",
        &format!("trailer.suspension.deflection_at_rating={} in", 2.0 * deflection),
        "trailer.axles.all.tires.rate=1000 lb/in",
    ]);
    let soft = at_rates(&stated, 0.5).expect("rates that a file may state");
    // The same numbers by two ways of multiplying: rounding, and a rest on the hitch found to a nanometre.
    assert!((tongue(&soft) - tongue(&halved)).abs() < 0.01);
    assert!((tongue(&soft) - tongue(&stated)).abs() > 100.0);
}

/// The frame's tail passes a hump before any wheel reaches it.
#[test]
fn a_tail_behind_the_wheels_is_followed_over_a_hump() {
    let hump =
        "profile = [ { length = \"3 ft\", grade = \"-20 %\" }, { length = \"40 ft\", grade = \"12 %\" } ]";
    let rig = read(hump, &["trailer.low_points.1.station=34 ft"]);
    let peaks = Model::new(&rig).cross(0, 0, Length::from_si(0.02), &mut |_| {});
    let peaks = peaks.expect("nothing is missing").expect("a trailer at rest all the way");
    let tail = peaks.clearances[0].as_ref().expect("a clearance");
    // 15 in over the level, the frame level; the top of the hump is 36 · 0.2 = 7.2 in up. The tail is over it
    // when the rear hub, 408 − 280 = 128 in ahead of the tail, is 36 − 128 = −92 in past the break. The settling
    // leaves a pitch of 1e-12 at most.
    assert!((tail.value.si() - 7.8 * FOOT / 12.0).abs() < 1e-9, "{tail:?}");
    assert!((tail.at.si() + 92.0 * FOOT / 12.0).abs() < 1e-9, "{tail:?}");
}

/// Every weight, capacity, volume and rate of a rig file doubled: shares of ratings stay as they are.
#[test]
fn a_rig_of_twice_the_weight_uses_as_much_of_twice_the_ratings() {
    let ramp = "\n[[ramps]]\nname = \"slip\"\nprofile = [ { length = \"60 ft\", grade = \"12 %\" } ]\n";
    let text = include_str!("../../rigs/work-boat.toml").to_string() + ramp;
    // At the pressure at which the rating holds: tables of loads by pressure do not double with it.
    let inflated = ["trailer.axles.all.tires.pressure=60 psi", "trailer.axles.all.tires.pressure_max=60 psi"];
    let read = |text: &str| Rig::read("rig.toml", text, &inflated);
    let [one, two] = [text.clone(), doubled(&text)].map(|text| {
        let rig = read(&text).unwrap_or_else(|problems| panic!("{problems}\n{text}"));
        assess(&rig).expect("a rig on its wheels")
    });
    let mut compared = 0;
    for (one, two) in one.rows.iter().zip(&two.rows) {
        assert_eq!(one.id(), two.id());
        if let (Some(a), Some(b)) = (one.used, two.used) {
            assert!((a - b).si().abs() < EXACT, "{}: {} and {}", one.id(), a.si(), b.si());
            compared += usize::from(one.is_about_ramps());
        }
        // Lengths stay, frictions stay.
        if let (Some(Amount::Length(a)), Some(Amount::Length(b))) = (one.load, two.load) {
            assert!((a - b).si().abs() < EXACT, "{}", one.id());
        }
    }
    assert!(compared >= 6, "{compared} checks about ramps");
}

/// The text with the number before each of these units doubled.
fn doubled(text: &str) -> String {
    const UNITS: [&str; 6] = ["lb/in", "N/mm", "lb", "kg", "gal", "L"];
    let words = |line: &str| {
        let words: Vec<&str> = line.split(' ').collect();
        let is_unit = |word: &str| UNITS.contains(&word.trim_end_matches(['"', ',', '}', '\r']));
        let double = |i: usize| {
            let digits = words[i].trim_start_matches('"');
            match (digits.parse::<f64>(), words.get(i + 1).is_some_and(|next| is_unit(next))) {
                (Ok(number), true) => words[i].replace(digits, &format!("{}", 2.0 * number)),
                _ => words[i].to_string(),
            }
        };
        (0..words.len()).map(double).collect::<Vec<_>>().join(" ")
    };
    text.lines().map(words).collect::<Vec<_>>().join("\n")
}
