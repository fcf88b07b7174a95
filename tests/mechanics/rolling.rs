//! Rolling to the side against moments taken about the line on which the trailer turns, and a weight distribution hitch
//! against the equilibrium of both vehicles.

use approx::{assert_abs_diff_eq, assert_relative_eq};
use bunkline::mechanics::road::roll::{Rolling, sideways};
use bunkline::mechanics::road::sides::stability_factor;
use bunkline::mechanics::tow::{Bars, TowVehicle, coupled};
use bunkline::quantity::{Area, Length, Moment, Quantity, Share, Slope, Speed, Weight};
use proptest::prelude::*;

const POUND: f64 = 0.453_592_37 * 9.806_65;
const INCH: f64 = 0.0254;
const MPH: f64 = 0.447_04;

fn lb(number: f64) -> Weight {
    Weight::from_si(number * POUND)
}

fn inches(number: f64) -> Length {
    Length::from_si(number * INCH)
}

/// W, h, V, h_b, t in pounds and inches; the axles carry W − V.
fn rolling([weight, height, tongue, ball, track]: [f64; 5]) -> Rolling {
    Rolling {
        weight: lb(weight),
        height: inches(height),
        tongue_weight: lb(tongue),
        ball_height: inches(ball),
        on_axles: lb(weight - tongue),
        track: inches(track),
    }
}

#[test]
fn a_cross_slope_of_3_degrees_loads_the_lower_tires_as_worked() {
    let roll = rolling([10_371.0, 44.0, 907.0, 20.0, 85.0]);
    assert_abs_diff_eq!(roll.height_for_the_axles().si() / INCH, 46.3, epsilon = 0.05);
    let slope = Slope::from_si(3f64.to_radians().tan());
    let heavier = roll.heavier_side(Length::default(), slope).si();
    assert_abs_diff_eq!(3155.0 * heavier, 1668.0, epsilon = 0.5);
    // With h for h' it would be 1663.
    assert_abs_diff_eq!(3155.0 * (0.5 + 44.0 * 3f64.to_radians().tan() / 85.0), 1663.0, epsilon = 0.5);
}

#[test]
fn factors_of_stability_are_as_worked() {
    let factor = stability_factor(inches(85.0), inches(44.0)).si();
    assert_abs_diff_eq!(factor, 0.966, epsilon = 0.0005);
    assert_abs_diff_eq!(0.75 * factor, 0.724, epsilon = 0.0005);
    let roll = rolling([10_371.0, 44.0, 907.0, 20.0, 85.0]);
    let on_ball = stability_factor(roll.track, roll.height_for_the_axles()).si();
    assert_abs_diff_eq!(on_ball, 0.918, epsilon = 0.0005);
    // The same by moments about the line from the ball to the outer contact: the weight's lever about it is the line's
    // distance to the side under the centre of gravity, where the line stands h_b V / W high.
    let (share, height) = (907.0 / 10_371.0, 44.0);
    assert_relative_eq!((1.0 - share) * 42.5 / (height - share * 20.0), on_ball, max_relative = 1e-12);
}

#[test]
fn gusts_tip_the_trailer_as_worked() {
    let foot = 12.0 * INCH;
    // q = 0.00256 × 60² = 9.216 psf, on 120 ft² with C = 1.2: 1327 lb.
    assert_abs_diff_eq!(0.00256 * 3600.0 * 1.2 * 120.0, 1327.0, epsilon = 0.5);
    let wind = |tongue, centre: f64, ball: f64| {
        let roll = rolling([10_371.0, 44.0, tongue, ball, 84.0]);
        let area = Area::from_si(120.0 * foot * foot);
        let gust =
            roll.tipping_wind(area, inches(12.0 * centre), inches(84.0), inches(240.0)).expect("a gust");
        gust.si() / MPH
    };
    assert_abs_diff_eq!(wind(907.0, 20.0, 20.0), 113.0, epsilon = 0.5);
    assert_abs_diff_eq!(wind(907.0, 16.0, 20.04), 116.0, epsilon = 0.5);
    // A force so far forward and low that the ball takes all of its moment tips nothing.
    let roll = rolling([10_371.0, 44.0, 907.0, 20.0, 84.0]);
    assert_eq!(roll.tipping_wind(Area::from_si(1.0), inches(0.0), inches(19.0), inches(240.0)), None);
}

#[test]
fn a_turn_pulls_sideways_by_its_speed_and_radius() {
    // 60 mph is 88 ft/s; on 400 ft that is 19.36 ft/s², over 32.174 0.602.
    let found = sideways(Speed::from_si(60.0 * MPH), inches(4800.0)).si();
    assert_relative_eq!(found, 19.36 / (9.80665 / (12.0 * INCH)), max_relative = 1e-12);
    assert_abs_diff_eq!(found, 0.602, epsilon = 0.0005);
}

#[test]
fn bars_that_restore_half_are_as_worked() {
    // V 1000, o 50, b 157, axles at 240.
    let bars = Bars::restoring(Share::from_si(0.5), lb(1000.0), inches(50.0), inches(240.0));
    assert_abs_diff_eq!(bars.moment.si() / (POUND * INCH), 20_690.0, epsilon = 0.5);
    assert_abs_diff_eq!(1000.0 - bars.moved.si() / POUND, 914.0, epsilon = 0.5);
    let tow =
        TowVehicle { front: lb(3000.0), rear: lb(2800.0), wheelbase: inches(157.0), overhang: inches(50.0) };
    let lost = |bars| 3000.0 - coupled(tow, lb(1000.0), bars).front.si() / POUND;
    assert_abs_diff_eq!(lost(None), 318.5, epsilon = 0.5);
    assert_abs_diff_eq!(lost(Some(bars)), 159.2, epsilon = 0.5);
}

proptest! {
    /// Both vehicles stay in equilibrium, whatever the bars' moment: all three groups of wheels carry all the weight, and
    /// about any point the moments of both together vanish.
    #[test]
    fn with_bars_forces_and_moments_of_the_whole_rig_vanish(
        moment in 0.0..60_000.0_f64,
        tongue in 200.0..1500.0_f64,
        overhang in 30.0..70.0,
        wheelbase in 110.0..180.0,
        mean in 150.0..300.0,
    ) {
        let tow = TowVehicle { front: lb(3000.0), rear: lb(2800.0), wheelbase: inches(wheelbase), overhang: inches(overhang) };
        let bars = Bars::of_moment(Moment::from_si(moment * POUND * INCH), inches(mean));
        let with = coupled(tow, lb(tongue), Some(bars));
        let [front, rear, axles] = [with.front, with.rear, bars.moved].map(|force| force.si() / POUND);
        // Vertical: what the ball lost the axles carry.
        prop_assert!((front + rear + axles - 5800.0 - tongue).abs() < 1e-6);
        // About the ball, the tow vehicle alone: its weights against its wheels and the bars' moment; the trailer alone: the
        // bars' moment against what its axles carry more.
        let about: f64 = 3000.0 * (overhang + wheelbase) + 2800.0 * overhang - front * (overhang + wheelbase) - rear * overhang;
        prop_assert!((about + moment).abs() < 1e-6, "{about} {moment}");
        prop_assert!((axles * mean - moment).abs() < 1e-6);
    }

    /// The axles see a side force above the centre of gravity: moments of the whole trailer about the ground's line.
    #[test]
    fn the_ball_takes_its_part_of_a_side_force_and_no_roll(
        weight in 1000.0..15_000.0, share in 0.02..0.2, height in 25.0..70.0, ball in 12.0..24.0, slope in 0.0..0.1,
    ) {
        let (tongue, track) = (share * weight, 80.0);
        let roll = rolling([weight, height, tongue, ball, track]);
        let heavier = roll.heavier_side(Length::default(), Slope::from_si(slope)).si();
        // W tan κ at h, less V tan κ at the ball, is taken by the axles' two sides, t apart.
        let moment = slope * (weight * height - tongue * ball);
        let sides = (weight - tongue) * (2.0 * heavier - 1.0) * track / 2.0;
        prop_assert!((moment - sides).abs() < 1e-9 * weight * height);
    }
}
