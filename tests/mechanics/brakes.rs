//! Brakes: worked by hand, and by energy where the axles share a load between them.

use approx::{assert_abs_diff_eq, assert_relative_eq};
use bunkline::mechanics::brakes::descent::{Memory, grade_alone, released};
use bunkline::mechanics::brakes::heat::{LININGS_FADE, height_at_one_go, rise_in_stop, rise_on_descent};
use bunkline::mechanics::brakes::hydraulics::{
    Master, WheelBrake, disc_factor, piston_area, to_swell, to_touch,
};
use bunkline::mechanics::brakes::stop::{Actuation, Couple, Slowing, slow};
use bunkline::mechanics::road::settle::MeasuredAxle;
use bunkline::mechanics::{Body, FramePoint, GroundPoint, PerAxle, Spring, Undercarriage};
use bunkline::quantity::{Angle, Length, Pressure, Quantity, Rate, Share, Speed, Volume, Weight, unit};
use proptest::prelude::*;

const IN: f64 = unit::INCH;
const LB: f64 = unit::POUND;
const PSI: f64 = LB / (IN * IN);

fn inches(number: f64) -> Length {
    Length::from_si(number * IN)
}

fn pounds(number: f64) -> Weight {
    Weight::from_si(number * LB)
}

fn lb(weight: Weight) -> f64 {
    weight.si() / LB
}

fn share(number: f64) -> Share {
    Share::from_si(number)
}

fn master(bore: f64, efficiency: f64, preload: f64) -> Master {
    Master {
        bore: inches(bore),
        leverage: 1.0,
        efficiency: share(efficiency),
        preload: pounds(preload),
        pressure_max: None,
    }
}

/// A disc of the worked cases: one 2 1/4 in piston, pads of 0.35, radius 4.6 in, tire 13.3 in.
fn disc() -> WheelBrake {
    WheelBrake {
        area: piston_area(inches(2.25)),
        factor: disc_factor(share(0.35)),
        radius: inches(4.6),
        tire_radius: inches(13.3),
    }
}

#[test]
fn six_discs_on_four_bores() {
    // A C r / R = 3.97608 × 0.7 × 4.6/13.3 = 0.96263 lb a psi.
    assert_abs_diff_eq!(disc().force_per_pressure().si() * PSI / LB, 0.962_63, epsilon = 1e-5);
    // G = 6 × 0.96263 / (π d²/4)
    for (bore, gain) in [(0.75, 13.07), (0.875, 9.61), (1.0, 7.35), (1.25, 4.71)] {
        let found = master(bore, 1.0, 0.0).gain(disc().force_per_pressure() * 6.0);
        // To the rounding of the figures worked by hand.
        assert_abs_diff_eq!(found, gain, epsilon = 0.006);
    }
}

#[test]
fn the_fluid_that_six_discs_take() {
    // 6 × 3.97608 × 0.030 in³ = 0.7157 in³; over π/4 in² 0.911 in, over 0.44179 in² 1.620 in.
    let touch = to_touch(piston_area(inches(2.25)) * 6.0, inches(0.030));
    assert_abs_diff_eq!(touch.si() / IN.powi(3), 0.715_69, epsilon = 1e-5);
    assert_abs_diff_eq!(master(1.0, 1.0, 0.0).stroke(touch).si() / IN, 0.911_25, epsilon = 1e-5);
    assert_abs_diff_eq!(master(0.75, 1.0, 0.0).stroke(touch).si() / IN, 1.620_0, epsilon = 1e-4);
    // 4 ft of hose at 831 psi swell by 0.04 × 4 × 0.831 = 0.13296 in³.
    let swell = to_swell(inches(48.0), Pressure::from_si(831.0 * PSI));
    assert_abs_diff_eq!(swell.si() / IN.powi(3), 0.132_96, epsilon = 1e-6);
}

#[test]
fn pressure_and_stroke_of_a_stop() {
    // W 13,000 lb, 0.435 g, P0 200 lb: F = (W a + G P0) / (1 + G), p = (F − P0) / A_m, and the stroke of touch and swell.
    for (bore, pressure, stroke) in [(1.0, 831.0, 1.08), (0.75, 877.0, 1.94)] {
        let master = master(bore, 1.0, 200.0);
        let gain = master.gain(disc().force_per_pressure() * 6.0);
        let push = pounds((13000.0 * 0.435 + gain * 200.0) / (1.0 + gain));
        let found = master.pressure(push);
        assert_abs_diff_eq!(found.si() / PSI, pressure, epsilon = 0.5);
        let fluid: Volume =
            to_touch(piston_area(inches(2.25)) * 6.0, inches(0.030)) + to_swell(inches(48.0), found);
        assert_abs_diff_eq!(master.stroke(fluid).si() / IN, stroke, epsilon = 0.005);
    }
}

#[test]
fn pressure_stops_at_its_limit() {
    let master = Master { pressure_max: Some(Pressure::from_si(500.0 * PSI)), ..master(1.0, 0.9, 100.0) };
    let greatest = master.greatest_push().expect("a limit");
    // 500 psi × 0.7854 in² / 0.9 + 100 lb = 536.33 lb
    assert_abs_diff_eq!(lb(greatest), 536.332, epsilon = 1e-3);
    for more in [0.0, 300.0] {
        let found = master.pressure(greatest + pounds(more));
        assert_relative_eq!(found.si(), 500.0 * PSI, max_relative = 1e-12);
    }
    assert_eq!(master.pressure(pounds(90.0)).si(), 0.0);
}

/// A trailer on axles alike, level under its load.
struct Trailer {
    weight: f64,
    xc: f64,
    zc: f64,
    stations: Vec<f64>,
    suspension: f64,
    tires: f64,
    travel: f64,
}

const BALL: f64 = 20.0;

impl Trailer {
    fn body(&self) -> Body {
        let at = FramePoint { x: inches(self.xc), z: inches(self.zc), ..FramePoint::default() };
        Body { weight: pounds(self.weight), at }
    }

    fn wheels(&self) -> Undercarriage {
        let rate = |number: f64| Rate::from_si(number * LB / IN);
        let spring = Spring::new(rate(self.suspension), rate(self.tires), inches(1000.0));
        let axle =
            |station: &f64| MeasuredAxle { station: inches(*station), wheel_radius: inches(14.0), spring };
        let axles: PerAxle<MeasuredAxle> = self.stations.iter().map(axle).collect();
        Undercarriage::level_under(self.body(), &axles, inches(self.travel), inches(BALL)).expect("it rests")
    }

    fn slow(&self, deceleration: f64, actuation: &Actuation, couple: &Couple) -> Slowing {
        let ball = GroundPoint { x: inches(0.0), z: inches(BALL) };
        let level = Angle::from_si(0.0);
        slow(self.body(), &self.wheels(), ball, share(deceleration), level, (actuation, couple))
            .expect("it rests")
    }
}

/// Tires this hard leave the suspension's rate.
const RIGID: f64 = 1e12;

fn tandem(travel: f64) -> Trailer {
    Trailer {
        weight: 10000.0,
        xc: 216.0,
        zc: 24.0,
        stations: vec![220.0, 254.0],
        suspension: 1500.0,
        tires: RIGID,
        travel,
    }
}

fn equalized(pin_lever: f64) -> Couple {
    Couple::Equalized { spring_length: inches(26.0), eye_height: inches(14.0), pin_lever }
}

/// Brakes that hold so much on each axle, whatever pushes.
fn current(forces: &[f64]) -> Actuation {
    Actuation::Current(forces.iter().map(|force| pounds(*force)).collect())
}

fn loads(slowing: &Slowing) -> Vec<f64> {
    slowing.stance.axle_loads.iter().map(|load| lb(*load)).collect()
}

/// Figures worked by hand take small angles; the trailer pitches by a degree or two.
fn near(found: &[f64], by_hand: &[f64], within: f64) {
    assert_eq!(found.len(), by_hand.len());
    for (found, by_hand) in found.iter().zip(by_hand) {
        assert!((found - by_hand).abs() <= within * 10000.0, "{found}, by hand {by_hand}");
    }
}

#[test]
fn a_tandem_at_rest_and_braking_inside_its_travel() {
    let still = tandem(1.5).slow(0.0, &current(&[0.0, 0.0]), &equalized(0.0));
    // 10,000 × 216 / 474 = 4,556.96 each
    near(&loads(&still), &[4556.96, 4556.96], 1e-6);
    assert_abs_diff_eq!(lb(still.stance.tongue_weight), 886.08, epsilon = 0.01);
    // N2 − N1 = 2 × 3,000 × 14/26 = 3,230.8; Σ N x = 10,000 (216 − 0.4 × 24) − 3,000 × 20
    let found = tandem(100.0).slow(0.4, &current(&[1500.0, 1500.0]), &equalized(0.0));
    near(&loads(&found), &[2496.6, 5727.4], 1e-3);
    assert_abs_diff_eq!(lb(found.stance.tongue_weight), 1776.0, epsilon = 10.0);
    assert_abs_diff_eq!(lb(found.push), 1000.0, epsilon = 1e-6);
    // With the rear axle's thrust in the equalizer, its pin 1.5 in below or above, on a 3 in arm.
    let below = tandem(100.0).slow(0.4, &current(&[1500.0, 1500.0]), &equalized(0.5));
    near(&loads(&below), &[3300.0, 5031.0], 1e-3);
    // Above, with 1,000 lb each so that no wheel slides: N2 − N1 = 2 (2,000 × 14/26 + 1,000 / 2) = 3,153.8.
    let above = tandem(100.0).slow(0.4, &current(&[1000.0, 1000.0]), &equalized(-0.5));
    near(&loads(&above), &[2580.1, 5733.9], 1e-3);
}

#[test]
fn a_tandem_braking_with_its_equalizer_at_the_stop() {
    let found = tandem(1.5).slow(0.4, &current(&[1500.0, 1500.0]), &equalized(0.0));
    near(&loads(&found), &[3053.0, 5245.0], 1e-3);
    assert_abs_diff_eq!(lb(found.stance.tongue_weight), 1702.0, epsilon = 10.0);
    // The front axle's grip: 1,500 / 3,053.
    assert_abs_diff_eq!(found.grip(0).expect("it carries").si(), 0.49, epsilon = 0.005);
    // The band over travel and pin.
    let front =
        |travel, pin| loads(&tandem(travel).slow(0.4, &current(&[1500.0, 1500.0]), &equalized(pin)))[0];
    let all = [front(1.0, 0.5), front(1.0, -0.5), front(3.0, 0.5), front(3.0, -0.5)];
    let least = all.iter().copied().fold(f64::INFINITY, f64::min);
    let most = all.iter().copied().fold(0.0, f64::max);
    near(&[least, most], &[1854.0, 3453.0], 2e-3);
}

#[test]
fn a_triple_whose_front_wheels_would_slide() {
    let triple = |travel| Trailer {
        weight: 12000.0,
        xc: 228.0,
        stations: vec![206.0, 240.0, 274.0],
        ..tandem(travel)
    };
    let asked = current(&[1200.0; 3]);
    let found = triple(100.0).slow(0.4, &asked, &equalized(0.0));
    // No wheel brakes with more than 0.7 of its load: B of the front axle 749 lb.
    near(&loads(&found), &[1070.0, 3170.0, 5754.0], 2e-3);
    assert_abs_diff_eq!(lb(found.brakes[0]), 749.0, epsilon = 5.0);
    assert_relative_eq!(found.brakes[0].si(), 0.7 * found.stance.axle_loads[0].si(), max_relative = 1e-8);
    let stopped = triple(1.5).slow(0.4, &asked, &equalized(0.0));
    near(&loads(&stopped), &[2365.0, 3439.0, 4512.0], 2e-3);
}

#[test]
fn a_torsion_tandem_pulls_its_frame_down() {
    let tandem = |suspension, tires| Trailer { suspension, tires, ..tandem(0.0) };
    let couple = |suspension: f64| Couple::Torsion {
        arm: inches(6.0),
        pivot_height: inches(15.0),
        rates: [suspension; 2].into_iter().map(|rate| Rate::from_si(rate * LB / IN)).collect(),
    };
    for (suspension, tires, brakes, by_hand) in [
        (1500.0, RIGID, [2000.0, 0.0], [1529.0, 6833.0]),
        (2400.0, 4000.0, [2000.0, 0.0], [2600.0, 5906.0]),
        (1500.0, RIGID, [1000.0, 1000.0], [4194.0, 4525.0]),
        // k 1500, J/k_s 2500/2400: 112 916 θ = 1394.67 − 1440.0 + 229.17, N = 1500 (3.038 − 1.0417 + 220 θ), 1500 (3.038 + 254 θ).
        (2400.0, 4000.0, [1000.0, 0.0], [3531.7, 5177.3]),
    ] {
        let found = tandem(suspension, tires).slow(0.2, &current(&brakes), &couple(suspension));
        // By hand the front axle's brakes are taken whole, though its wheels slide in the first.
        if brakes[0] / by_hand[0] <= 0.7 {
            near(&loads(&found), &by_hand, 3e-3);
        } else {
            assert!(found.brakes[0] < found.asked[0]);
        }
    }
}

#[test]
fn a_push_worked_stop() {
    // F = (W a + G P0) / (1 + G): 882.4 and 4,772.6 lb; 1,563.8 and 4,091.3 lb.
    for (gain, push, brakes) in [(7.0, 882.0, 4773.0), (3.0, 1564.0, 4091.0)] {
        let actuation = Actuation::Push {
            preload: pounds(200.0),
            greatest: None,
            gains: [gain / 2.0; 2].into_iter().collect(),
        };
        let heavy = Trailer { weight: 13000.0, ..tandem(1.5) };
        let found = heavy.slow(0.435, &actuation, &Couple::IntoFrame);
        assert_abs_diff_eq!(lb(found.push), push, epsilon = 0.5);
        assert_abs_diff_eq!(lb(found.braked()), brakes, epsilon = 0.5);
    }
}

#[test]
fn a_descent_in_its_three_states() {
    let (trailer, tow) = (pounds(13000.0), pounds(8000.0));
    let slope = Angle::from_si(0.08f64.atan());
    let surge = (7.0, pounds(200.0), None);
    let none = released((trailer, tow), slope, surge, Memory::None);
    assert_abs_diff_eq!(lb(none.push), 304.6, epsilon = 0.05);
    assert_abs_diff_eq!(lb(none.brakes), 732.1, epsilon = 0.05);
    assert_abs_diff_eq!(lb(none.by_tow), 942.5, epsilon = 0.06);
    assert_abs_diff_eq!(grade_alone(none.by_tow, tow).expect("a grade").0, 0.118_64, epsilon = 1e-5);
    let holds = released((trailer, tow), slope, surge, Memory::Holds(pounds(50.0)));
    assert_abs_diff_eq!(lb(holds.by_tow), 688.0, epsilon = 0.5);
    assert_abs_diff_eq!(lb(holds.brakes), 987.0, epsilon = 0.5);
    let friction = released((trailer, tow), slope, surge, Memory::Friction(pounds(75.0)));
    assert_abs_diff_eq!(lb(friction.push), 173.3, epsilon = 0.1);
    assert_abs_diff_eq!(lb(friction.by_tow), 811.3, epsilon = 0.1);
    // A pressure limit leaves the rest to the tow vehicle.
    let limited = released((trailer, tow), slope, (7.0, pounds(200.0), Some(pounds(500.0))), Memory::None);
    assert_abs_diff_eq!(lb(limited.brakes), 500.0, epsilon = 1e-9);
    assert_abs_diff_eq!(lb(limited.push + limited.brakes), lb(none.push + none.brakes), epsilon = 1e-9);
}

#[test]
fn heat_of_a_descent_and_of_a_stop() {
    let slope = Angle::from_si(0.08f64.atan());
    let iron = Weight::from_si(48.0 * unit::STANDARD_GRAVITY);
    let height = Length::from_si(300.0);
    // 732.1 lb × 300 m / sin θ = 12.25 MJ into 48 kg: 555 K
    let rise = rise_on_descent(pounds(732.1), height, slope, iron);
    assert_abs_diff_eq!(rise, 555.0, epsilon = 0.5);
    let linings = height_at_one_go(height, rise, share(1.0), LININGS_FADE);
    assert_abs_diff_eq!(linings.si(), 151.0, epsilon = 0.5);
    let fluid = height_at_one_go(height, rise, share(1.0 / 3.0), 140.0);
    assert_abs_diff_eq!(fluid.si(), 195.0, epsilon = 0.6);
    // From 60 mph 70 % of the trailer's energy, 0.7 × 5,897 kg × (26.82 m/s)² / 2 = 1.485 MJ, into 48 kg × 460 J/kg K: 67.2 K.
    let brakes = pounds(13000.0 * 0.435 * 0.7);
    let rise = rise_in_stop(brakes, Speed::from_si(60.0 * unit::MILE_AN_HOUR), share(0.435), iron);
    assert_abs_diff_eq!(rise, 67.2, epsilon = 0.05);
}

/// The loads of a tandem by energy, small angles: for each displacement of the equalizer the pitch follows from moments,
/// and of all displacements the one of least energy is sought by looking at many.
fn by_energy(trailer: &Trailer, deceleration: f64, brakes: [f64; 2], lever: f64) -> [f64; 2] {
    let (w, k) = (trailer.weight, trailer.suspension);
    let [x1, x2] = [trailer.stations[0], trailer.stations[1]];
    let rest = w * trailer.xc / (x1 + x2) / k;
    let lean = (brakes[0] + brakes[1]) * lever;
    let moment = w * (trailer.xc - deceleration * trailer.zc) - (brakes[0] + brakes[1]) * BALL;
    let at = |q: f64| {
        // c1 = δ + x1 φ − q/2, c2 = δ + x2 φ + q/2, both pushing; k (c1 x1 + c2 x2) = moment
        let phi = (moment / k - (rest - q / 2.0) * x1 - (rest + q / 2.0) * x2) / (x1 * x1 + x2 * x2);
        let c = [rest + x1 * phi - q / 2.0, rest + x2 * phi + q / 2.0];
        // springs, less what the forces do: the moment through the pitch, the lean through the displacement
        let energy = k * (c[0] * c[0] + c[1] * c[1]) / 2.0 - moment * phi - q * lean;
        (energy, [k * c[0], k * c[1]])
    };
    let steps = 20_000;
    let all = (-steps..=steps).map(|i| at(trailer.travel * f64::from(i) / f64::from(steps)));
    all.fold((f64::INFINITY, [0.0; 2]), |best, next| if next.0 < best.0 { next } else { best }).1
}

proptest! {
    /// Two methods agree: the string of springs that lean, and the least energy.
    #[test]
    fn a_braked_tandem_has_the_least_energy(
        weight in 4000.0..12000.0f64,
        xc in 205.0..225.0f64,
        deceleration in 0.0..0.3f64,
        one in 0.0..600.0f64,
        two in 0.0..600.0f64,
        eye in 10.0..18.0f64,
        travel in 0.2..3.0f64,
    ) {
        let trailer = Trailer { weight, xc, suspension: 4000.0, ..tandem(travel) };
        let couple = Couple::Equalized { spring_length: inches(26.0), eye_height: inches(eye), pin_lever: 0.0 };
        let found = trailer.slow(deceleration, &current(&[one, two]), &couple);
        let lever = eye / 26.0;
        let expected = by_energy(&trailer, deceleration, [one, two], lever);
        // Small angles against exact ones: the pitch stays below 1 degree, and the grid of displacements is 1e-4 of the travel.
        for (found, expected) in loads(&found).iter().zip(expected) {
            prop_assert!((found - expected).abs() < 2e-3 * weight, "{found} and {expected}");
        }
    }

    /// Braking takes from the axles what it gives to the ball, and nothing else; push and brakes hold what is asked.
    #[test]
    fn braking_makes_no_weight(
        weight in 4000.0..12000.0f64,
        deceleration in 0.0..0.6f64,
        gain in 0.0..12.0f64,
        preload in 0.0..500.0f64,
        greatest in 400.0..3000.0f64,
        pin in -0.5..0.5f64,
    ) {
        let trailer = Trailer { weight, ..tandem(1.5) };
        let actuation = Actuation::Push {
            preload: pounds(preload),
            greatest: Some(pounds(greatest)),
            gains: [gain / 2.0; 2].into_iter().collect(),
        };
        let found = trailer.slow(deceleration, &actuation, &equalized(pin));
        let all = lb(found.stance.tongue_weight) + loads(&found).iter().sum::<f64>();
        prop_assert!((all - weight).abs() < 1e-8 * weight);
        let held = lb(found.push) + lb(found.braked());
        prop_assert!((held - weight * deceleration).abs() < 1e-8 * weight, "{held}");
        for axle in 0..2 {
            prop_assert!(found.brakes[axle].si() <= 0.7 * found.stance.axle_loads[axle].si() * (1.0 + 1e-6) + 1e-6);
            prop_assert!(found.brakes[axle].si() <= found.asked[axle].si() * (1.0 + 1e-12));
        }
    }

    /// A larger bore never brakes harder.
    #[test]
    fn a_larger_bore_never_brakes_harder(bore in 0.6..1.4f64, more in 1.0..1.5f64, push in 0.0..2000.0f64) {
        let area = disc().force_per_pressure() * 4.0;
        let [small, large] = [bore, bore * more].map(|bore| master(bore, 0.9, 150.0));
        prop_assert!(large.gain(area) <= small.gain(area) * (1.0 + 1e-12));
        prop_assert!(large.pressure(pounds(push)) <= small.pressure(pounds(push)) * (1.0 + 1e-12));
    }
}
