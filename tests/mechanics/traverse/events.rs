//! Peaks, hanging and the hitch: what is gathered from the positions visited.

use crate::settling::trailers::{Axle, Trailer, cases};
use crate::traverse::rigs::{Rig, any_eased_rig, any_rig, followed, pair, triple};
use bunkline::fit::{Model, Moment, Peaks, ramp_points};
use bunkline::mechanics::ramp::Instant;
use bunkline::quantity::{Angle, Length, Quantity};
use proptest::prelude::*;

/// The step of the library's reports.
const STEP: f64 = 0.0127;

/// Greatest and least of everything followed.
fn peaks<'a>(visited: impl Iterator<Item = &'a Instant>) -> Vec<[f64; 2]> {
    let mut peaks = Vec::new();
    for instant in visited {
        let values = followed(instant);
        peaks.resize(values.len(), [f64::NEG_INFINITY, f64::INFINITY]);
        for (peak, value) in peaks.iter_mut().zip(values) {
            *peak = [peak[0].max(value), peak[1].min(value)];
        }
    }
    peaks
}

/// Half and double the springs' rates, tires and hitch with them.
fn at_rates(rig: &Rig, times: f64) -> Rig {
    let mut rig = rig.clone();
    for axle in &mut rig.trailer.axles {
        axle.suspension *= times;
        axle.tires *= times;
    }
    rig.hitch = rig.hitch.map(|(rate, level)| (rate * times, level));
    rig
}

/// What peaks may differ by: a hundred-thousandth of the weight, or of how far a wheel hangs (some tenths of a
/// metre) 1e-3 in.
fn tolerances(rig: &Rig) -> Vec<f64> {
    let axles = rig.trailer.axles.len();
    [vec![1e-5 * rig.trailer.weight; axles + 2], vec![1e-3 * 0.0254; axles]].concat()
}

/// The second method: every millimetre settled from scratch, whatever happens between.
fn is_as_every_millimetre(rig: &Rig) -> Result<(), TestCaseError> {
    let visited = rig.crossing(0.5);
    let found = peaks(visited.iter());
    let (wheels, terrain) = (rig.trailer.wheels(), rig.terrain());
    let convoy = rig.convoy(&wheels);
    let [first, last] = [&visited[0], &visited[visited.len() - 1]].map(|instant| instant.rear.at.x.si());
    let mut brute: Vec<[f64; 2]> = Vec::new();
    for millimetre in 0.. {
        let rear = first + 1e-3 * f64::from(millimetre);
        if rear > last {
            break;
        }
        let instant =
            convoy.at(&terrain, Length::from_si(rear), Angle::default()).expect("a trailer at rest");
        let values = followed(&instant);
        brute.resize(values.len(), [f64::NEG_INFINITY, f64::INFINITY]);
        for (peak, value) in brute.iter_mut().zip(values) {
            *peak = [peak[0].max(value), peak[1].min(value)];
        }
    }
    let slack = tolerances(rig);
    for (i, (found, brute)) in found.iter().zip(&brute).enumerate() {
        prop_assert!(found[0] >= brute[0] - slack[i], "{i}: greatest {found:?} of {brute:?}: {rig:?}");
        prop_assert!(found[1] <= brute[1] + slack[i], "{i}: least {found:?} of {brute:?}: {rig:?}");
    }
    Ok(())
}

/// Its rearmost axle peaks between two looks where these lie a tenth of a metre apart on the curve, 1.18 m long.
#[test]
fn a_peak_on_a_long_curve_is_not_passed_over() -> Result<(), TestCaseError> {
    let axle =
        |station, radius, suspension| Axle { station, radius, suspension, tires: 200_000.0, bump: 0.03 };
    let axles = vec![
        axle(4.272_408_102_916_475, 0.356_984_048_189_525_9, 50_808.783_399_599_1),
        axle(5.043_542_337_522_147_5, 0.2, 278_325.328_006_898_7),
        axle(5.848_227_777_695_905, 0.320_420_450_949_730_7, 190_727.830_360_199_32),
    ];
    let (xc, ball_height) = (4.043_780_858_169_208, 0.444_424_433_430_909_4);
    let (weight, zc) = (33_399.039_360_827_84, 1.427_915_464_208_443_3);
    is_as_every_millimetre(&Rig {
        trailer: Trailer { weight, xc, zc, level_xc: xc, axles, travel: 0.0, ball_height },
        wheelbase: 2.4,
        overhang: 0.6,
        ball_height,
        hitch: None,
        runs: vec![
            (1.553_719_605_819_909_2, 0.057_814_392_196_191_56),
            (2.264_919_369_718_431, 0.138_709_673_756_844_5),
        ],
        ease: 1.175_588_740_902_517_4,
    })
}

proptest! {
    #![proptest_config(cases(12))]

    #[test]
    fn peaks_are_those_of_looking_every_millimetre(
        sharp in any_rig(),
        eased in any_eased_rig(),
        times in prop_oneof![Just(0.5), Just(1.0), Just(2.0)],
    ) {
        for rig in [at_rates(&sharp, times), at_rates(&eased, times)] {
            is_as_every_millimetre(&rig)?;
        }
    }

    #[test]
    fn any_step_finds_the_same_peaks(rig in any_rig(), step in 0.001..0.5) {
        let (found, others) = (peaks(rig.crossing(step).iter()), peaks(rig.crossing(0.1).iter()));
        for (found, other) in found.iter().flatten().zip(others.iter().flatten()) {
            // What rounding leaves on a plateau is no peak.
            prop_assert!((found - other).abs() <= 1e-9 * other.abs(), "{found} {other}");
        }
    }

    /// A wheel that lifts or lands is visited just before and just after: it carries next to nothing there.
    #[test]
    fn lifting_is_visited_on_both_sides(rig in any_rig()) {
        for pair in rig.crossing(4.0 * STEP).windows(2) {
            let [before, after] = pair else { continue };
            for axle in 0..rig.trailer.axles.len() {
                let forces = [before, after].map(|instant| instant.stance.spring_forces[axle].si());
                if forces.contains(&0.0) && forces != [0.0, 0.0] {
                    // An event is found to 1e-7 m, a wheel sinks no faster than the rig goes, and a bumped
                    // spring is no stiffer than 2 MN/m; a second wheel doubles it.
                    prop_assert!(forces[0].max(forces[1]) < 1.0, "{forces:?} at {:?}", before.position);
                }
            }
        }
    }
}

proptest! {
    #![proptest_config(cases(150))]

    #[test]
    fn the_ball_sinks_as_its_hitch_gives(rig in any_rig(), along in 0.0..1.0, rate in 5e4..1e6) {
        let end: f64 = rig.runs.iter().map(|(length, _)| length).sum();
        let rear = -rig.reach() - 1.0 + along * (end + rig.reach() + 1.0);
        let level = rig.trailer.settle_level(rig.ball_height).expect("a trailer at rest").tongue_weight.si();
        let stiff = rig.at(rear);
        let giving = |rate: f64| Rig { hitch: Some((rate, level)), ..rig.clone() }.at(rear);

        let sprung = giving(rate);
        // How far the ball stands over the line of the contacts, from the points alone.
        let (front, axle, ball) = (pair(sprung.front.at), pair(sprung.rear.at), pair(sprung.ball));
        let line = (axle.0 - front.0, axle.1 - front.1);
        let over = (line.0 * (ball.1 - axle.1) - line.1 * (ball.0 - axle.0)) / line.0.hypot(line.1);
        let sunk = (sprung.stance.tongue_weight.si() - level) / rate;
        // The rest on the hitch is found to a nanometre.
        prop_assert!((over - (rig.ball_height - sunk)).abs() < 2e-9, "{over} {sunk} {sprung:?}");

        // A giving hitch takes some of the swing: no wider from the level's tongue weight. Two rests found to
        // a nanometre, under springs of some MN/m. On one axle the trailer only pivots: the tongue weight goes
        // with the slope under that wheel, a little either way.
        let swing = |instant: &Instant| (instant.stance.tongue_weight.si() - level).abs();
        let carrying = |instant: &Instant| instant.stance.axle_loads.iter().filter(|load| load.si() > 0.0).count();
        let stays_on_two = rig.trailer.travel == 0.0 && [&sprung, &stiff].into_iter().all(|rest| carrying(rest) > 1);
        if stays_on_two {
            prop_assert!(swing(&sprung) <= swing(&stiff) + 0.1, "{sprung:?} {stiff:?}");
        }

        // At 1 TN/m the ball sinks by nanometres: springs of MN/m change by thousandths of a newton.
        let hard = giving(1e12);
        prop_assert!((hard.stance.tongue_weight - stiff.stance.tongue_weight).si().abs() < 0.5);
    }
}

proptest! {
    #![proptest_config(cases(2000))]

    /// A hitch far softer than any built still has its one place of rest, between wheels that lift and stop.
    #[test]
    fn a_hitch_of_rubber_has_its_rest(rig in any_rig(), along in 0.0..1.0, decades in 4.0..4.7_f64) {
        let end: f64 = rig.runs.iter().map(|(length, _)| length).sum();
        let rear = -rig.reach() - 1.0 + along * (end + rig.reach() + 1.0);
        let level = rig.trailer.settle_level(rig.ball_height).expect("a trailer at rest").tongue_weight.si();
        let rate = 10f64.powf(decades);
        let sprung = Rig { hitch: Some((rate, level)), ..rig.clone() }.at(rear);
        let (front, axle, ball) = (pair(sprung.front.at), pair(sprung.rear.at), pair(sprung.ball));
        let line = (axle.0 - front.0, axle.1 - front.1);
        let over = (line.0 * (ball.1 - axle.1) - line.1 * (ball.0 - axle.0)) / line.0.hypot(line.1);
        let sunk = (sprung.stance.tongue_weight.si() - level) / rate;
        // The rest on the hitch is found to a nanometre.
        prop_assert!((over - (rig.ball_height - sunk)).abs() < 2e-9, "{over} {sunk} {sprung:?}");
    }
}

/// A wheel that reaches a sag is held there, on both grades at once, while the ball goes on by micrometres: both
/// ends of that are events, and the pull falls in between.
#[test]
fn a_wheel_held_in_a_sag_is_visited_at_both_ends() {
    let rig = Rig { runs: vec![(6.0, 0.2), (14.0, 0.0)], ..triple() };
    let visited = rig.crossing(STEP);
    let mut held = 0;
    for axle in 0..3 {
        let pairs = visited.windows(2).filter(|pair| {
            let hub = |instant: &Instant| instant.stance.hubs[axle].x.si();
            let gone = (pair[1].rear.at.x - pair[0].rear.at.x).si();
            let carries = pair.iter().all(|instant| instant.stance.axle_loads[axle].si() > 0.0);
            // More than the width to which events are found; the hub stays to the pitch's last digits.
            carries && gone > 1e-7 && (hub(&pair[1]) - hub(&pair[0])).abs() < 1e-10
        });
        for pair in pairs {
            let [before, after] = pair else { continue };
            // From the grade's fifth of the wheel's load to nothing.
            let fall = (before.stance.pull - after.stance.pull) / after.stance.axle_loads[axle];
            assert!((0.1..0.25).contains(&fall.si()), "axle {axle}: {fall:?}");
            held += 1;
        }
    }
    assert!(held > 0, "no wheel is held in the sag");
}

/// The demo triple over a ramp of these lines, with changes.
fn crossed(ramp: &str, changes: &[&str], step: f64, visit: &mut dyn FnMut(&Moment<'_>)) -> Peaks {
    let path = format!("{}/demo-data/survey-launch-as-found.toml", env!("CARGO_MANIFEST_DIR"));
    let content = std::fs::read_to_string(path).expect("the demo is there");
    let (before, _) = content.split_once("[[ramps]]").expect("the demo has a ramp");
    let text = format!("{before}[[ramps]]\nname = \"slip\"\n{ramp}\n");
    let rig = bunkline::Rig::read("rig.toml", &text, changes).expect("the rig reads");
    assert_eq!(ramp_points(rig.proposed()).count(), 3);
    Model::new(&rig)
        .cross(0, 0, Length::from_si(step), visit)
        .expect("nothing is missing")
        .expect("it rests on its wheels")
}

const SHARP: &str =
    r#"profile = [ { length = "25 ft", grade = "14 %" }, { length = "60 ft", grade = "8 %" } ]"#;
const EASED: &str = r#"profile = [ { length = "30 ft", grade = "14 %" }, { length = "40 ft", grade = "6 %" } ]
ease = "10 ft""#;

#[test]
fn no_sample_is_past_its_peak() {
    for ramp in [SHARP, EASED] {
        let mut seen = Vec::new();
        let peaks = crossed(ramp, &[], 0.05, &mut |moment| {
            let clearances: Vec<f64> =
                moment.clearances.iter().map(|clearance| clearance.as_ref().expect("known").si()).collect();
            let friction = moment.drive.and_then(|hold| hold.friction).expect("its wheels are loaded");
            seen.push((moment.instant.clone(), clearances, friction, moment.bow.expect("known")));
        });
        for (instant, clearances, friction, bow) in &seen {
            let stance = &instant.stance;
            for (axle, peaks) in peaks.axles.iter().enumerate() {
                assert!(stance.axle_loads[axle] <= peaks.greatest.value);
                assert!(stance.axle_loads[axle] >= peaks.least.value);
                assert!(stance.hang[axle] <= peaks.hang.value);
            }
            assert!(stance.tongue_weight <= peaks.tongue_greatest.value);
            assert!(stance.tongue_weight >= peaks.tongue_least.value);
            assert!(stance.pull <= peaks.pull.value);
            for (clearance, least) in clearances.iter().zip(&peaks.clearances) {
                assert!(*clearance >= least.as_ref().expect("known").value.si());
            }
            assert!(*bow >= peaks.bow.as_ref().expect("known").value);
            let Ok(bunkline::fit::Friction::Needed(most)) = peaks.drive else { panic!("friction is known") };
            assert!(*friction <= most.value);
        }
        // And every peak is that of a position that was visited.
        for (axle, peaks) in peaks.axles.iter().enumerate() {
            assert!(seen.iter().any(|(instant, ..)| {
                instant.position == peaks.greatest.at
                    && instant.stance.axle_loads[axle] == peaks.greatest.value
            }));
        }
    }
}

#[test]
fn wheels_hang_where_they_carry_nothing() {
    let changes = ["trailer.suspension.equalizer_travel=0.2 in"];
    let mut seen = Vec::new();
    let peaks = crossed(SHARP, &changes, 0.02, &mut |moment| seen.push(moment.instant.clone()));
    let mut hanging = 0;
    for (axle, peaks) in peaks.axles.iter().enumerate() {
        for instant in &seen {
            let at = instant.position;
            let hangs = instant.stance.axle_loads[axle].si() == 0.0;
            hanging += usize::from(hangs);
            let told = peaks.hangs.iter().any(|(from, to)| *from <= at && at <= *to);
            assert!(told || !hangs, "axle {axle} hangs at {at:?}");
            // An interval ends at the first position where the wheel carries again.
            let inside = peaks.hangs.iter().any(|(from, to)| *from <= at && at < *to);
            assert!(hangs || !inside, "axle {axle} carries at {at:?}");
        }
        assert_eq!(peaks.hangs.is_empty(), peaks.hang.value.si() == 0.0);
        assert_eq!(peaks.hangs.is_empty(), peaks.least.value.si() > 0.0);
    }
    assert!(hanging > 10, "this head lifts wheels");
}

/// The worst moments of the changed demo on a ramp with sharp breaks, and its positions.
fn as_changed(changes: &[&str], step: f64) -> (Peaks, Vec<(Instant, Vec<f64>)>) {
    let rig = changed_demo(changes);
    let mut seen = Vec::new();
    let peaks = Model::new(&rig).cross(0, 0, Length::from_si(step), &mut |moment| {
        let clearances = moment.clearances.iter().map(|clearance| clearance.as_ref().expect("known").si());
        seen.push((moment.instant.clone(), clearances.collect()));
    });
    (peaks.expect("nothing is missing").expect("it rests on its wheels"), seen)
}

fn changed_demo(changes: &[&str]) -> bunkline::Rig {
    let path = format!("{}/demo-data/survey-launch-as-changed.toml", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(path).expect("the demo is there");
    let step = "[[trailer.low_points]]\nname = \"step\"\nstation = \"170 in\"\nheight = \"4.2079 in\"\n";
    let text = text.replace("ease = \"8 ft\"\n", "") + step;
    bunkline::Rig::read("rig.toml", &text, changes).unwrap_or_else(|problems| panic!("{problems}"))
}

/// Turns that lie within one look of an event, or between looks a few centimetres apart.
#[test]
fn worst_moments_are_no_better_than_any_position() {
    for changes in [&[][..], &["ramps.1.profile.2.grade=15%"], &["tow.hitch_rate=4000 lb/in"]] {
        for times in [0.5, 1.0, 2.0] {
            let rig = bunkline::study::rates::at_rates(&changed_demo(changes), times).expect("rates");
            // A millimetre, 0.04 in.
            let mut seen = Vec::new();
            let peaks = Model::new(&rig).cross(0, 1, Length::from_si(0.001), &mut |moment| {
                let clearances =
                    moment.clearances.iter().map(|clearance| clearance.as_ref().expect("known").si());
                let friction = moment.parked.and_then(|hold| hold.friction).expect("known").si();
                let bow = moment.bow.map(Quantity::si);
                seen.push((moment.instant.clone(), clearances.collect::<Vec<f64>>(), friction, bow));
            });
            let peaks = peaks.expect("nothing is missing").expect("it rests on its wheels");
            // A hundred-thousandth of some 50 kN; and a thousandth of an inch.
            let (newtons, metres) = (0.5, 2.54e-5);
            for (instant, clearances, friction, bow) in &seen {
                for (axle, peaks) in peaks.axles.iter().enumerate() {
                    let load = instant.stance.axle_loads[axle].si();
                    assert!(load <= peaks.greatest.value.si() + newtons);
                    assert!(load >= peaks.least.value.si() - newtons);
                    assert!(instant.stance.hang[axle].si() <= peaks.hang.value.si() + metres);
                }
                assert!(instant.stance.tongue_weight.si() <= peaks.tongue_greatest.value.si() + newtons);
                assert!(instant.stance.tongue_weight.si() >= peaks.tongue_least.value.si() - newtons);
                assert!(instant.stance.pull.si() <= peaks.pull.value.si() + newtons);
                for (clearance, least) in clearances.iter().zip(&peaks.clearances) {
                    assert!(*clearance >= least.as_ref().expect("known").value.si() - metres);
                }
                let Ok(bunkline::fit::Friction::Needed(most)) = peaks.parked else {
                    panic!("friction is known")
                };
                assert!(*friction <= most.value.si() + 1e-5);
                if let (Some(bow), Ok(least)) = (bow, &peaks.bow) {
                    assert!(*bow >= least.value.si() - metres);
                }
            }
            // Each is the value of a position that is shown, and so is each clearance.
            let shown = |at: Length, value: &dyn Fn(&Instant, &[f64]) -> bool| {
                seen.iter()
                    .any(|(instant, clearances, ..)| instant.position == at && value(instant, clearances))
            };
            for (axle, peaks) in peaks.axles.iter().enumerate() {
                assert!(shown(peaks.greatest.at, &|i, _| i.stance.axle_loads[axle] == peaks.greatest.value));
                assert!(shown(peaks.least.at, &|i, _| i.stance.axle_loads[axle] == peaks.least.value));
            }
            for (point, least) in peaks.clearances.iter().enumerate() {
                let least = least.as_ref().expect("known");
                assert!(shown(least.at, &|_, clearances| clearances[point] == least.value.si()));
            }
        }
    }
}

/// A low point whose clearance is just above nothing at every half inch, and below it over a break between two.
#[test]
fn a_low_point_is_followed_to_the_break() {
    let (peaks, seen) = as_changed(&[], 0.0127);
    let least = peaks.clearances.iter();
    let least: Vec<f64> = least.map(|least| least.as_ref().expect("known").value.si()).collect();
    for (point, least) in least.iter().enumerate() {
        assert_eq!(*least, seen.iter().map(|(_, all)| all[point]).fold(f64::INFINITY, f64::min));
    }
    // 0.04 in apart it was seen at -0.0034 in.
    assert!(least.iter().any(|least| *least < -0.0034 * 0.0254), "{least:?}");
}
