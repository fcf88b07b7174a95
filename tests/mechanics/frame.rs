//! The frame in bending, worked by hand, and by summing up small pieces of the rails.

use bunkline::mechanics::frame::{
    AxleForce, Force, Hung, Motion, Rails, Spread, axles_on_rails, bend_rails, bending_stress, clamp_forces,
    tongue_moment,
};
use bunkline::mechanics::tow::Bars;
use bunkline::quantity::{Angle, Length, Moment, Quantity, Share, Volume, Weight, unit};
use proptest::prelude::*;

const IN: f64 = unit::INCH;
const LB: f64 = unit::POUND;

fn inches(number: f64) -> Length {
    Length::from_si(number * IN)
}

fn pounds(number: f64) -> Weight {
    Weight::from_si(number * LB)
}

/// A force up, without a couple.
fn up(station: f64, force: f64) -> Force {
    Force { station: inches(station), up: pounds(force), couple: Moment::default() }
}

fn pound_inches(moment: Moment) -> f64 {
    moment.si() / (LB * IN)
}

#[test]
fn a_clamped_tongue_is_the_one_worked_by_hand() {
    // 907 lb, 96 in to the forward clamp, 30 in to the rear one: 907 × 126/30 and 907 × 96/30. Moments about the forward
    // clamp: the rear one pushes 2902.4 × 30 = 87 072 lb in, as the tongue weight does, 907 × 96.
    let (v, x_t, c) = (pounds(907.0), inches(96.0), inches(30.0));
    let [forward, rear] = clamp_forces(v, x_t, c, None).map(|force| force.si() / LB);
    assert!((forward - 3809.4).abs() < 1e-6 && (rear - 2902.4).abs() < 1e-6, "{forward} {rear}");
    assert!((forward - rear - 907.0).abs() < 1e-6);
    let moment = tongue_moment(v, x_t, None);
    assert!((pound_inches(moment) - 87_072.0).abs() < 1e-6);
    // 87 072 / 8.4 psi, whichever way it bends.
    let stress = bending_stress(-moment, Volume::from_si(8.4 * IN.powi(3))).si() / (LB / (IN * IN));
    assert!((stress - 10_365.714).abs() < 1e-3, "{stress}");
}

/// Bars that give back half of the front axle's loss: V 1000 lb, overhang 50 in, axles at 240 in: M_w = 25 000/(1 + 50/240) =
/// 20 689.655 lb in, on the ball 1000 − 86.207 = 913.793 lb. At 96 in 913.793 × 96 + 20 689.655 = 108 413.793 lb in, 12 413.793
/// more than without; over 30 in 3613.793 lb on the rear clamp and 4527.586 on the forward one.
#[test]
fn bars_bend_a_clamped_tongue_as_worked_by_hand() {
    let (v, x_t, c, mean) = (pounds(1000.0), inches(96.0), inches(30.0), inches(240.0));
    let bars = Bars::restoring(Share::from_si(0.5), v, inches(50.0), mean);
    let moment = pound_inches(tongue_moment(v, x_t, Some(bars)));
    // Of figures rounded to a thousandth.
    assert!((moment - 108_413.793).abs() < 1e-2, "{moment}");
    let [forward, rear] = clamp_forces(v, x_t, c, Some(bars)).map(|force| force.si() / LB);
    assert!((forward - 4527.586).abs() < 1e-2 && (rear - 3613.793).abs() < 1e-2, "{forward} {rear}");
    // The same from every force by itself: chains that hang 27 in behind the ball pull down, the coupler presses up.
    let chains = 20_689.655 / 27.0;
    let coupler = 913.793 + chains;
    assert!((coupler * 96.0 - chains * (96.0 - 27.0) - moment).abs() < 1e-1);
    // And about the forward clamp of the trailer's rear part: the rear clamp's 30 in against it.
    assert!((rear * 30.0 - moment).abs() < 1e-6 && (forward - rear - 913.793).abs() < 1e-2);
    // What holds it at the axles feels no bars: there 240 V.
    assert!((pound_inches(tongue_moment(v, mean, Some(bars))) - 240_000.0).abs() < 1e-6);
}

/// The moments at every hundredth of an inch up to a station, from the forces' definition alone: each piece of the
/// frame's weight is a force of its own, at its middle.
fn summed(forces: &[Force], frame: Spread, at: f64) -> f64 {
    let arm = |station: Length| at - station.si() / IN;
    let ahead = forces.iter().filter(|force| arm(force.station) > 0.0);
    let by_forces: f64 =
        ahead.map(|force| force.up.si() / LB * arm(force.station) + pound_inches(force.couple)).sum();
    let (from, to) = (frame.from.si() / IN, frame.to.si() / IN);
    let pieces = 20_000;
    let length = (to - from) / f64::from(pieces);
    let weight = frame.weight.si() / LB / f64::from(pieces);
    let middles = (0..pieces).map(|i| from + (f64::from(i) + 0.5) * length);
    by_forces - middles.map(|middle| weight * (at - middle).max(0.0)).sum::<f64>()
}

/// A triple: 10 371 lb, of it 2371 lb the trailer from 20 to 340 in; 907 lb on the ball; axles at 206, 240 and 274 in on
/// equalized springs of 26 in, so ends at 193 and 287 and pins at 223 and 257; the boat on crossmembers at 160 and 300.
fn triple() -> (Vec<Force>, Spread) {
    let spring = (10_371.0 - 907.0) / 3.0;
    // What balances the springs' moment, 720 in × a spring, less the trailer's, 2371 × 180.
    let aft = (720.0 * spring - 2371.0 * 180.0 - 8000.0 * 160.0) / 140.0;
    let forces = vec![
        up(0.0, 907.0),
        up(193.0, spring / 2.0),
        up(223.0, spring),
        up(257.0, spring),
        up(287.0, spring / 2.0),
        up(160.0, aft - 8000.0),
        up(300.0, -aft),
    ];
    (forces, Spread { weight: pounds(2371.0), from: inches(20.0), to: inches(340.0) })
}

#[test]
fn the_rails_of_a_triple_are_those_worked_by_hand() {
    let (forces, frame) = triple();
    // Worked by hand: 907 x − 7.409 (x − 20)²/2 up to the first crossmember, and on from there.
    for (at, worked) in [(96.0, 65_674.0), (160.0, 72_508.0), (193.0, -66_747.0), (240.0, -151_245.8)] {
        let moment = summed(&forces, frame, at);
        // Worked to the pound inch and rounded.
        assert!((moment - worked).abs() < 0.6, "at {at}: {moment}, by hand {worked}");
    }
    let Rails { moment, station, left, unbalanced } = bend_rails(&forces, frame);
    // It is greatest over the front pin, where the shear turns from below zero to above: 907 × 223 − 7.409 × 203²/2
    // − 3967.29 × 63 + 1577.33 × 30.
    assert!((pound_inches(moment) + 153_024.5).abs() < 0.6, "{}", pound_inches(moment));
    assert!((station.si() / IN - 223.0).abs() < 1e-9, "{}", station.si() / IN);
    let at = station.si() / IN;
    assert!((pound_inches(moment) - summed(&forces, frame, at)).abs() < 0.1);
    // To rounding: sums of some ten terms of up to 2e6 lb in.
    assert!(pound_inches(left).abs() < 1e-6 && (unbalanced.si() / LB).abs() < 1e-9);
}

#[test]
fn what_does_not_balance_is_left_at_the_tail() {
    let (mut forces, frame) = triple();
    forces[0] = up(0.0, 917.0);
    let Rails { left, unbalanced, .. } = bend_rails(&forces, frame);
    assert!((pound_inches(left) - 10.0 * 340.0).abs() < 1e-6 && (unbalanced.si() / LB - 10.0).abs() < 1e-9);
    // A couple turns all that lies aft of it.
    let (mut forces, frame) = triple();
    forces[2].couple = Moment::from_si(500.0 * LB * IN);
    assert!((pound_inches(bend_rails(&forces, frame).left) - 500.0).abs() < 1e-6);
}

proptest! {
    /// No station has a greater moment than the greatest one, and that one is where it is said to be.
    #[test]
    fn the_greatest_moment_is_the_greatest_of_all_stations(
        loads in prop::collection::vec((0.0..350.0, -4000.0..4000.0, -20_000.0..20_000.0), 1..8),
        weight in 100.0..4000.0,
        ends in (0.0..150.0, 160.0..350.0),
    ) {
        let force = |(station, up, couple): &(f64, f64, f64)| Force {
            station: inches(*station),
            up: pounds(*up),
            couple: Moment::from_si(couple * LB * IN),
        };
        let forces: Vec<Force> = loads.iter().map(force).collect();
        let frame = Spread { weight: pounds(weight), from: inches(ends.0), to: inches(ends.1) };
        let found = bend_rails(&forces, frame);
        let greatest = pound_inches(found.moment).abs();
        let last = loads.iter().map(|(station, ..)| *station).fold(ends.1, f64::max);
        // 20 000 pieces of the frame's weight: each is off by no more than its own length of moment.
        let allowed = 1e-3 * weight + 1e-9 * greatest;
        for station in (0..=40).map(|i| f64::from(i) * last / 40.0) {
            let moment = summed(&forces, frame, station);
            prop_assert!(moment.abs() <= greatest + allowed, "at {station}: {moment}, greatest {greatest}");
        }
        let at = found.station.si() / IN;
        // At a couple the moment jumps: it is the one just before or just behind.
        let beside = [at - 1e-7, at + 1e-7].map(|at| summed(&forces, frame, at));
        let near = beside.iter().any(|moment| (moment.abs() - greatest).abs() <= allowed + 0.01);
        prop_assert!(near, "{greatest} at {at}, but {beside:?}");
    }
}

/// A tandem that slows down by 0.4 g, its frame level: 8,000 lb of boat at 225 in, 30 in up, on crossmembers at 160 and 300;
/// 2,000 lb of trailer at 180, its centre on the rails; ball at 20 in; axles at 220 and 254, each braked with 1,500 lb, springs
/// of 26 in held 14 in above ground, equalizer inside its travel.
///
/// About the ball: 220 N1 + 254 N2 = 10,000 (216 − 0.4 × 24) − 3,000 × 20 = 2,004,000 lb in; the equalizer: N2 − N1 =
/// 4 × 1,500 × 14/26 = 3,230.769. So N 2,496.592 and 5,727.361 lb, V 1,776.047.
fn tandem_in_a_stop() -> (Vec<Force>, Spread) {
    let motion = Motion { pitch: Angle::default(), deceleration: Share::from_si(0.4) };
    let axle = |station: f64, spring: f64| AxleForce {
        station: inches(station),
        hub: inches(station),
        spring: pounds(spring),
        brake: pounds(1500.0),
        held_at: inches(14.0),
    };
    let hung = Hung::OnLeaves { length: inches(26.0), equalized: true };
    let front = (2_004_000.0 - 254.0 * 4.0 * 1500.0 * 14.0 / 26.0) / 474.0;
    let rear = front + 4.0 * 1500.0 * 14.0 / 26.0;
    let axles = [axle(220.0, front), axle(254.0, rear)];
    let boat =
        [(160.0, 8000.0 * 75.0 / 140.0), (300.0, 8000.0 * 65.0 / 140.0)].map(|(station, down)| Force {
            station: inches(station),
            up: -motion.presses(pounds(down)),
            couple: motion.turns(pounds(down), inches(30.0)),
        });
    let mut forces = axles_on_rails(&axles, hung, motion.pitch, inches(20.0));
    forces.extend(boat);
    forces.push(up(0.0, 10_000.0 - front - rear));
    (forces, Spread { weight: motion.presses(pounds(2000.0)), from: inches(20.0), to: inches(340.0) })
}

#[test]
fn rails_in_a_stop_are_those_worked_by_hand() {
    let (forces, frame) = tandem_in_a_stop();
    // Aft of 160 the boat's inertia on that crossmember, 4,285.714 × 0.4 × 30 = 51,428.6 lb in, is off. The front spring's ends
    // press with 1,248.296 ∓ 807.692 lb, the rear one's with 2,863.681 ∓ 807.692: 2,055.99 each at the equalizer. A thrust
    // lies 6 in under the rails: 9,000 lb in at each axle.
    // To 160: 1,776.047 × 160 − 6.25 × 140²/2. To 207: 1,776.047 × 207 − 4,285.714 × 47 − 6.25 × 187²/2 − 51,428.6. At 255 so on,
    // + 440.604 × 48 − 18,000 + 4,111.976 × 18.
    let worked = [(160.0, 222_917.5), (207.0, 5_506.4), (255.0, -101_093.0)];
    for (at, worked) in worked {
        let moment = summed(&forces, frame, at);
        assert!((moment - worked).abs() < 1.0, "at {at}: {moment}, by hand {worked}");
    }
    let Rails { moment, station, left, unbalanced } = bend_rails(&forces, frame);
    assert!((pound_inches(moment) - 222_917.5).abs() < 1.0, "{}", pound_inches(moment));
    assert!((station.si() / IN - 160.0).abs() < 1e-9);
    // Every couple is there: sums of some ten terms of up to 2e6 lb in.
    assert!(pound_inches(left).abs() < 1e-6 && (unbalanced.si() / LB).abs() < 1e-9, "{left:?}");
    // Without the push of the ends or the thrust's own height they would not close.
    let couples = |forces: &[Force]| forces.iter().map(|force| pound_inches(force.couple)).sum::<f64>();
    assert!((couples(&forces) + 2.0 * 9000.0 + 8000.0 * 0.4 * 30.0).abs() < 1e-6);
}

/// How a force in ground axes, aft and up, bends what lies ahead of a place on the rails' line: the cross product alone.
fn bends([aft, up]: [f64; 2], at: [f64; 2], cut: f64, pitch: f64) -> f64 {
    let (sin, cos) = pitch.sin_cos();
    let arm = [at[0] - cut * cos, at[1] + cut * sin];
    arm[1] * aft - arm[0] * up
}

proptest! {
    /// Aft of the springs, the rails feel what the ground does to the wheels, as free bodies of wheel and spring: about any place
    /// on their line, pitched or not, however axles hang.
    #[test]
    fn springs_pass_on_what_the_ground_does_to_the_wheels(
        axles in prop::collection::vec((150.0..200.0, 10.0..20.0, 100.0..5000.0, -500.0..3000.0), 1..4),
        pitch in -0.1..0.1,
        ball in 14.0..30.0,
        held in 0.0..18.0,
        length in 20.0..30.0,
        way in 0..3,
    ) {
        let (sin, cos) = f64::sin_cos(pitch);
        let hung = match way {
            0 => Hung::AtTubes,
            way => Hung::OnLeaves { length: inches(length), equalized: way == 2 },
        };
        // 34 in apart, hubs some way down along the frame's normal.
        let place = |i: usize| axles[i].0 + 34.0 * i as f64;
        let hub = |i: usize| place(i) * cos - axles[i].1 * sin;
        let of = |i: usize| AxleForce {
            station: inches(place(i)),
            hub: inches(hub(i)),
            spring: pounds(axles[i].2),
            brake: pounds(axles[i].3),
            held_at: if way == 0 { Length::default() } else { inches(held) },
        };
        let rails: Vec<AxleForce> = (0..axles.len()).map(of).collect();
        let forces = axles_on_rails(&rails, hung, Angle::from_si(pitch), inches(ball));
        let cut = 400.0;
        let felt: f64 = forces
            .iter()
            .map(|force| force.up.si() / LB * (cut - force.station.si() / IN) + pound_inches(force.couple))
            .sum();
        let ground: f64 = (0..axles.len())
            .map(|i| bends([axles[i].3, axles[i].2 / cos], [hub(i), -ball], cut, pitch))
            .sum();
        // Rounding of terms of up to 2e6 lb in.
        prop_assert!((felt - ground).abs() < 1e-6, "{felt}, by free bodies {ground}");
    }

    /// A weight and its inertia, at a height over the rails: the same cross product.
    #[test]
    fn a_weight_that_slows_down_bends_by_its_place_alone(
        at in (50.0..300.0, -20.0..60.0),
        weight in 100.0..9000.0,
        pitch in -0.1..0.1,
        slows in 0.0..0.6,
    ) {
        let (sin, cos) = f64::sin_cos(pitch);
        let motion = Motion { pitch: Angle::from_si(pitch), deceleration: Share::from_si(slows) };
        let cut = 400.0;
        let felt: f64 = pound_inches(motion.turns(pounds(weight), inches(at.1)))
            - motion.presses(pounds(weight)).si() / LB * (cut - at.0);
        let place = [at.0 * cos + at.1 * sin, at.1 * cos - at.0 * sin];
        let by_place = bends([-slows * weight, -weight], place, cut, pitch);
        prop_assert!((felt - by_place).abs() < 1e-6, "{felt}, by its place {by_place}");
    }
}
