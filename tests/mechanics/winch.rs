//! The winch against other methods: balance in ground axes, turns laid one by one, work along the line; and what must hold
//! of any winch.

use crate::cases::cases;
use bunkline::mechanics::winch::{Drum, Handle, Motor, post_moment, pull_needed, wedged};
use bunkline::mechanics::{FramePoint, Line};
use bunkline::quantity::unit::{INCH, POUND};
use bunkline::quantity::{Angle, Charge, Current, Length, Quantity, Share, Slope, Speed, Weight};
use proptest::prelude::*;
use std::f64::consts::PI;

fn pounds(number: f64) -> Weight {
    Weight::from_si(number * POUND)
}

fn inches(number: f64) -> Length {
    Length::from_si(number * INCH)
}

fn degrees(number: f64) -> Angle {
    Angle::from_si(number.to_radians())
}

fn share(number: f64) -> Share {
    Share::from_si(number)
}

/// The drum of the worked figures: 1.25 in of radius, a strap of 0.10 in.
fn drum() -> Drum {
    Drum { core: inches(2.5), thickness: inches(0.1) }
}

/// The pull at which a body on a slope begins to move, by halving: its balance is taken level and upright, and the line and
/// what presses on the bunks are turned into these axes.
fn by_halving(weight: f64, slope: f64, friction: f64, line: f64) -> f64 {
    let theta = slope.atan();
    let moves = |pull: f64| {
        let (level, upright) = (pull * (theta + line).cos(), pull * (theta + line).sin() - weight);
        // Along the slope, and into it.
        let along = level * theta.cos() + upright * theta.sin();
        let into = level * theta.sin() - upright * theta.cos();
        along >= friction * into
    };
    let (mut holds, mut gives) = (0.0, 1e3 * weight);
    for _ in 0..200 {
        let pull = f64::midpoint(holds, gives);
        if moves(pull) { gives = pull } else { holds = pull }
    }
    gives
}

#[test]
fn a_boat_is_dragged_up_by_what_its_balance_asks() {
    let friction = wedged(share(0.3), degrees(20.0));
    assert!((friction.si() - 0.319_25).abs() < 5e-6);
    // Worked figures to the pound: along the bunks, up by 10°, down by 15°.
    for (line, worked) in [(0.0_f64, 3053.0), (10.0, 2935.0), (-15.0, 3456.0)] {
        let pull = pull_needed(pounds(7000.0), Slope(0.12), friction, degrees(line)).expect("it moves");
        let found = pull.si() / POUND;
        assert!((found - worked).abs() < 0.5, "{line}°: {found} lb");
        let second = by_halving(7000.0, 0.12, friction.si(), line.to_radians());
        assert!((found - second).abs() < 1e-6 * second, "{line}°: {found}, by balance {second}");
    }
    // 1500 kg up 25° with a friction of 0.5, in newtons.
    let weight = Weight::from_si(1500.0 * 9.806_65);
    let pull =
        pull_needed(weight, Slope(25f64.to_radians().tan()), share(0.5), degrees(0.0)).expect("it moves");
    // 12 887 N with g 9.81, to the newton 12 882.5 with g 9.80665.
    assert!((pull.si() * 9.81 / 9.806_65 - 12_887.0).abs() < 1.0, "{} N", pull.si());
}

#[test]
fn a_line_that_only_presses_moves_nothing_and_what_slides_needs_none() {
    let friction = share(0.3);
    // Below, the line's lift holds back more than its lead draws: tan γ < −1 / μ.
    let steep = degrees(-74.0);
    assert_eq!(pull_needed(pounds(1000.0), Slope(0.1), friction, steep), None);
    assert!(pull_needed(pounds(1000.0), Slope(0.1), friction, degrees(-73.0)).is_some());
    // A line that leads by next to nothing would have to pull more than any number says.
    let square = Angle::from_si(PI / 2.0 - 1e-10);
    assert_eq!(pull_needed(Weight::from_si(1e300), Slope(0.1), share(0.0), square), None);
    assert_eq!(pull_needed(pounds(1000.0), Slope(-0.4), friction, degrees(0.0)), Some(pounds(0.0)));
    assert_eq!(pull_needed(pounds(0.0), Slope(0.1), friction, degrees(0.0)), Some(pounds(0.0)));
}

#[test]
fn a_strap_winds_turn_upon_turn() {
    // Worked figures, in percent to a tenth.
    for (wound, left) in [(0.0, 100.0), (36.0, 76.7), (120.0, 54.9), (300.0, 38.4)] {
        let found = drum().share(inches(wound)).si() * 100.0;
        assert!((found - left).abs() < 0.05, "{wound} in: {found} %");
    }
    // So many whole turns, each as long as a circle through its middle.
    for turns in [1, 7, 40] {
        let each = |turn: i32| 2.0 * PI * (1.25 + 0.1 * (f64::from(turn) - 0.5));
        let length: f64 = (1..=turns).map(each).sum();
        let outside = 2.0 * (1.25 + 0.1 * f64::from(turns));
        let found = drum().diameter(inches(length)).si() / INCH;
        assert!((found - outside).abs() < 1e-9, "{turns} turns: {found} in, by circles {outside}");
        let back = drum().within(inches(outside)).si() / INCH;
        assert!((back - length).abs() < 1e-9, "{back} of {length}");
    }
}

#[test]
fn a_hand_does_the_work_of_the_line() {
    // A turn of the drum at 1.73 in takes five of the handle; three quarters of the work are left.
    let handle = Handle { radius: inches(9.0), gear: 5.0, efficiency: share(0.75) };
    let work = 50.0 * 2.0 * PI * 9.0 * 5.0 * 0.75;
    let pull = work / (2.0 * PI * 1.73);
    assert!((pull - 975.0).abs() < 0.8, "{pull} lb");
    let force = handle.force(pounds(pull), inches(1.73)).si() / POUND;
    assert!((force - 50.0).abs() < 1e-9, "{force} lb");
}

#[test]
fn a_post_bears_the_pull_at_its_arm() {
    // The cross product of the arm and the pull, which leads aft and down.
    let (line, pull) = (10f64.to_radians(), 1000.0);
    let (arm, force) = ([-2.0, 34.0], [pull * line.cos(), -pull * line.sin()]);
    let worked: f64 = arm[0] * force[1] - arm[1] * force[0];
    let found = post_moment(pounds(pull), degrees(10.0), inches(34.0), inches(-2.0)).si() / (POUND * INCH);
    assert!((found - worked.abs()).abs() < 1e-6, "{found} lb in, by arms {worked}");
}

fn motor() -> Motor {
    let speed = |feet_a_minute: f64| Speed::from_si(feet_a_minute * 12.0 * INCH / 60.0);
    Motor {
        no_load_current: Current::from_si(18.0),
        rated_current: Current::from_si(150.0),
        no_load_speed: speed(14.0),
        rated_speed: speed(6.0),
    }
}

#[test]
fn a_motor_draws_by_its_torque() {
    let rating = pounds(3500.0);
    // With half of 14 ft wound the strap lies 2.05823 in out: 0.61663 of the first layer's pull is its rated torque.
    let level = pounds(3500.0 * 1.3 / (2.058_228_2 + 0.05));
    let runs = motor().winds(rating, drum(), inches(168.0), level).expect("it runs");
    assert!((runs.torque.si() - 1.0).abs() < 1e-6, "{runs:?}");
    assert!((runs.current.si() - 150.0).abs() < 1e-4, "{runs:?}");
    // 14 ft at 6 ft/min × 2.10823 / 1.3 take 1.43881 min, and that 150 A: 3.59702 Ah.
    assert!((runs.seconds / 60.0 - 1.438_807).abs() < 1e-5, "{runs:?}");
    assert!((runs.charge.si() / 3600.0 - 3.597_02).abs() < 1e-4, "{runs:?}");
    // 14 less 8 ft/min for each rated torque: at 14 / 8 of it the motor stands.
    assert!(motor().winds(rating, drum(), inches(168.0), level * 1.749).is_some());
    assert_eq!(motor().winds(rating, drum(), inches(168.0), level * 1.751), None);
}

proptest! {
    #![proptest_config(cases(300))]

    #[test]
    fn whatever_the_line_its_pull_is_what_balance_asks(
        slope in 0.0..0.3, friction in 0.02..0.6, deadrise in 0.0..30.0, line in -40.0..60.0,
    ) {
        let friction = wedged(share(friction), degrees(deadrise));
        let Some(pull) = pull_needed(Weight::from_si(1e4), Slope(slope), friction, degrees(line)) else {
            return Ok(());
        };
        let second = by_halving(1e4, slope, friction.si(), line.to_radians());
        prop_assert!((pull.si() - second).abs() < 1e-6 * second.max(1.0), "{} of {second}", pull.si());
        // The line that leads up by the angle of friction asks least.
        let best = Angle::from_si(friction.si().atan());
        let least = pull_needed(Weight::from_si(1e4), Slope(slope), friction, best).expect("it moves");
        prop_assert!(least.si() <= pull.si() * (1.0 + 1e-12));
    }

    #[test]
    fn more_friction_takes_no_less_pull(
        slope in -0.1..0.3, friction in 0.02..0.6, more in 0.0..0.3, line in -40.0..70.0,
    ) {
        let pull = |friction| pull_needed(pounds(5000.0), Slope(slope), share(friction), degrees(line));
        match (pull(friction), pull(friction + more)) {
            (Some(less), Some(greater)) => prop_assert!(greater.si() >= less.si() * (1.0 - 1e-12)),
            (None, Some(_)) => prop_assert!(false, "more friction moves what less does not"),
            _ => {}
        }
    }

    #[test]
    fn a_longer_strap_never_pulls_more(
        core in 0.5..6.0, thickness in 0.03..0.4, wound in 0.0..900.0, more in 0.0..300.0, rating in 500.0..9000.0,
    ) {
        let drum = Drum { core: inches(core), thickness: inches(thickness) };
        prop_assert!(drum.share(inches(wound + more)) <= drum.share(inches(wound)));
        prop_assert!(drum.diameter(inches(wound + more)) >= drum.diameter(inches(wound)));
        // The longest strap pulls just what is asked, and a longer one less.
        let pull = pounds(rating) * drum.share(inches(wound));
        let longest = drum.longest(pounds(rating), pull).expect("it pulls that").si() / INCH;
        prop_assert!((longest - wound).abs() < 1e-6 * (1.0 + wound), "{longest} of {wound}");
        prop_assert_eq!(drum.longest(pounds(rating), pounds(rating * 1.001)), None);
    }

    #[test]
    fn a_heavier_pull_takes_no_less_out_of_the_battery(pull in 0.0..5000.0, more in 0.0..500.0) {
        let takes = |pull: f64| motor().winds(pounds(3500.0), drum(), inches(200.0), pounds(pull));
        match (takes(pull), takes(pull + more)) {
            (Some(less), Some(greater)) => prop_assert!(greater.charge >= less.charge),
            (None, Some(_)) => prop_assert!(false, "it stalls under less"),
            (less, None) => prop_assert!(less.is_none_or(|runs| runs.charge > Charge::default())),
        }
    }
}

#[test]
fn a_line_leads_from_its_first_end_to_its_second() {
    // From an eye at (96, 54) in, the drum at (72, 64) in: 24 in forward, 10 in up, 26 in long; 12 in to starboard as well, its
    // length is √(24² + 10² + 12²) = 28.636 in, and its angle from the side is the same.
    let near = |found: f64, by_hand: f64, within: f64| {
        assert!((found - by_hand).abs() <= within, "{found}, by hand {by_hand}");
    };
    let at = |x: f64, z: f64, y: f64| FramePoint {
        x: Length::from_si(x * INCH),
        z: Length::from_si(z * INCH),
        y: Length::from_si(y * INCH),
    };
    let strap = Line::between(at(96.0, 54.0, 0.0), at(72.0, 64.0, 0.0));
    near(strap.length().si() / INCH, 26.0, 1e-9);
    near(strap.angle_forward().si(), (10.0_f64 / 24.0).atan(), 1e-12);
    let [aft, starboard, down] = strap.direction();
    near(aft, -24.0 / 26.0, 1e-12);
    near(down, -10.0 / 26.0, 1e-12);
    assert_eq!(starboard, 0.0);
    let aside = Line::between(at(96.0, 54.0, 0.0), at(72.0, 64.0, 12.0));
    near(aside.length().si() / INCH, 28.6356, 1e-4);
    assert_eq!(aside.angle_forward(), strap.angle_forward());
}
