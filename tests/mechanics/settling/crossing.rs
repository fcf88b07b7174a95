//! The crossing of a ramp: the tow vehicle's contacts and ball found by halving, every position at rest by
//! this test's own hub lines and equalizers, and cases worked by hand.

use crate::settling::statics::{Held, disagreement, greatest, reactions};
use crate::settling::trailers::{Axle, Ground, Point, Position, Trailer, any_trailer, body, cases, point};
use approx::assert_abs_diff_eq;
use bunkline::mechanics::ramp::{Convoy, HitchSpring, Instant, TowShape, traverse};
use bunkline::mechanics::terrain::RampRun;
use bunkline::mechanics::{Terrain, Undercarriage};
use bunkline::quantity::{Length, Quantity, Rate, Slope, Weight};
use proptest::collection::vec;
use proptest::prelude::*;

/// Kernel and descent agree as closely as in the settling itself, as a share of the weight.
const AGREEMENT: f64 = 1e-6;
/// Geometry in double precision over some tens of metres.
const SAME_POINT: f64 = 1e-9;

const TOW: [f64; 3] = [3.9, 1.25, 0.5];

fn metres(metres: f64) -> Length {
    Length::from_si(metres)
}

fn tow(ball_height: f64) -> TowShape {
    TowShape { wheelbase: metres(TOW[0]), overhang: metres(TOW[1]), ball_height: metres(ball_height) }
}

/// Level ground, then these runs of length and downhill grade, as points of the ground.
fn ground(runs: &[(f64, f64)]) -> Ground {
    let mut points = vec![(-50.0, 0.0), (0.0, 0.0)];
    for (length, grade) in runs {
        let (x, z) = points[points.len() - 1];
        points.push((x + length, z - length * grade));
    }
    Ground(points)
}

fn ramp(runs: &[(f64, f64)], ease: f64) -> Terrain {
    let run = |(length, grade): &(f64, f64)| RampRun { length: metres(*length), grade: Slope(*grade) };
    Terrain::ramp(&runs.iter().map(run).collect::<Vec<_>>(), metres(ease)).expect("the runs make a ramp")
}

fn visited(convoy: &Convoy<'_>, terrain: &Terrain, end: f64, step: f64) -> Vec<Instant> {
    let mut instants = Vec::new();
    traverse(convoy, terrain, metres(end), metres(step), |_, _| {}, |instant| instants.push(instant.clone()))
        .expect("it rests everywhere");
    instants
}

fn plain(convoy_body: &Trailer, wheels: &Undercarriage, ball_height: f64) -> (TowShape, Undercarriage) {
    assert_eq!(convoy_body.axles.len(), wheels.axles.len());
    (tow(ball_height), wheels.clone())
}

/// The ball of a tow vehicle with its rear axle at `rear`, its front axle found by halving.
fn ball_by_halving(ground: &Ground, rear: f64, ball_height: f64) -> Point {
    let [wheelbase, overhang, _] = TOW;
    let at = |x: f64| (x, ground.height(x));
    let (rear, mut near, mut far) = (at(rear), rear - 0.5 * wheelbase, rear - wheelbase);
    for _ in 0..200 {
        let middle = f64::midpoint(near, far);
        let front = at(middle);
        if (rear.0 - front.0).hypot(rear.1 - front.1) < wheelbase {
            near = middle;
        } else {
            far = middle;
        }
    }
    let front = at(near);
    let (along_x, along_z) = ((rear.0 - front.0) / wheelbase, (rear.1 - front.1) / wheelbase);
    let x = rear.0 + overhang * along_x - ball_height * along_z;
    (x, rear.1 + overhang * along_z + ball_height * along_x)
}

fn any_runs() -> impl Strategy<Value = Vec<(f64, f64)>> {
    vec((2.0..9.0, 0.0..0.25), 1..=3)
}

proptest! {
    #![proptest_config(cases(60))]

    #[test]
    fn every_position_is_at_rest_by_other_means(trailer in any_trailer(), runs in any_runs()) {
        let (terrain, ground) = (ramp(&runs, 0.0), ground(&runs));
        let (shape, wheels) = plain(&trailer, &trailer.wheels(), trailer.ball_height);
        let convoy = Convoy { tow: shape, hitch: None, body: trailer.body(), wheels: &wheels };
        let free_lengths = trailer.free_lengths();
        let instants = visited(&convoy, &terrain, 8.0, 0.4);
        for instant in instants.iter().step_by(7) {
            let ball = ball_by_halving(&ground, instant.rear.at.x.si(), trailer.ball_height);
            let off = [instant.ball.x.si() - ball.0, instant.ball.z.si() - ball.1];
            prop_assert!(greatest(off.into_iter()) < SAME_POINT, "{off:?}");

            let pitch = instant.stance.pitch.si();
            let position = Position { trailer: trailer.clone(), ground: ground.clone(), ball };
            let free = vec![0.0; trailer.axles.len() - 1];
            let held = Held::at(&position, &free_lengths, pitch, free);
            let reactions = reactions(&trailer, &held.hubs, pitch, &held.forces(&trailer));
            prop_assert!(disagreement(&instant.stance, &reactions, trailer.weight) < AGREEMENT);
            prop_assert!(reactions.moment_left.abs() < AGREEMENT);
        }
    }

    /// Events are found and visited, so a step twice as fine finds no worse moment.
    #[test]
    fn halving_the_step_changes_no_peak(trailer in any_trailer(), runs in any_runs(), eased in any::<bool>()) {
        let terrain = ramp(&runs, if eased { 1.5 } else { 0.0 });
        let wheels = trailer.wheels();
        let convoy = Convoy { tow: tow(trailer.ball_height), hitch: None, body: trailer.body(), wheels: &wheels };
        let peaks = |step: f64| {
            let instants = visited(&convoy, &terrain, 10.0, step);
            let axle = |i: usize| instants.iter().map(move |at| at.stance.axle_loads[i].si());
            let mut peaks: Vec<f64> = (0..wheels.axles.len()).map(|i| axle(i).fold(0.0, f64::max)).collect();
            let tongue = instants.iter().map(|at| at.stance.tongue_weight.si());
            peaks.push(tongue.clone().fold(f64::NEG_INFINITY, f64::max));
            peaks.push(tongue.fold(f64::INFINITY, f64::min));
            peaks
        };
        // Half an inch, as the command steps, and half of it: a thousandth of the peak, or, for a tongue weight
        // near zero, of an axle's share of the weight.
        let share = trailer.weight / wheels.axles.len() as f64;
        for (coarse, fine) in peaks(0.0127).iter().zip(peaks(0.006_35)) {
            prop_assert!((coarse - fine).abs() < 1e-3 * share.max(fine.abs()), "{coarse} {fine}");
        }
    }
}

/// Three axles of one kind, `spring` newtons a metre each, sprung apart or not.
fn triple(spring: f64, travel: f64) -> Trailer {
    let axle =
        |station| Axle { station, radius: 0.35, suspension: 2.0 * spring, tires: 2.0 * spring, bump: 0.3 };
    Trailer {
        weight: 40_000.0,
        xc: 5.6,
        zc: 0.0,
        level_xc: 5.6,
        axles: [5.4, 6.2, 7.0].map(axle).to_vec(),
        travel,
        ball_height: 0.5,
    }
}

#[test]
fn on_level_ground_a_crossing_is_the_level_settling() {
    let trailer = triple(4e5, 0.04);
    let wheels = trailer.wheels();
    let convoy = Convoy { tow: tow(0.5), hitch: None, body: trailer.body(), wheels: &wheels };
    for instant in visited(&convoy, &ramp(&[(20.0, 0.0)], 0.0), 10.0, 0.5) {
        // Form 2: N = W xc / Σx = 40 000·5.6/18.6 = 12 043.01, V = 40 000 − 3 N = 3 870.97.
        for load in &instant.stance.axle_loads {
            assert_abs_diff_eq!(load.si(), 224_000.0 / 18.6, epsilon = 1e-9 * 40_000.0);
        }
        assert_abs_diff_eq!(instant.stance.tongue_weight.si(), 3_870.967_742, epsilon = 1e-4);
    }
}

#[test]
fn far_down_a_grade_the_whole_rig_stands_on_it() {
    let trailer = triple(4e5, 0.04);
    let wheels = trailer.wheels();
    let convoy = Convoy { tow: tow(0.5), hitch: None, body: trailer.body(), wheels: &wheels };
    let instants = visited(&convoy, &ramp(&[(60.0, 0.12)], 0.0), 40.0, 1.0);
    let last = instants.last().expect("some positions are visited");
    // Backed down, the nose is up by β = atan 0.12: form 4 with zc = 0 is N = W cos β xc / Σx to first order;
    // the springs give a little under the lesser load, which only zc and the hubs' depth would feel.
    let cos = 1.0 / 1f64.hypot(0.12);
    for load in &last.stance.axle_loads {
        assert_abs_diff_eq!(load.si(), 40_000.0 * cos * 5.6 / 18.6, epsilon = 1.0);
    }
    // All of the weight's share along the slope hangs on the ball: H cos β + V sin β' = W sin β, in ground
    // axes V = W − ΣN cos β, H = ΣN sin β.
    let on_axles: f64 = last.stance.axle_loads.iter().map(|load| load.si()).sum();
    assert_abs_diff_eq!(last.stance.tongue_weight.si(), 40_000.0 - on_axles * cos, epsilon = 1e-6);
    assert_abs_diff_eq!(last.stance.pull.si(), on_axles * 0.12 * cos, epsilon = 1e-6);
}

/// Very stiff springs, no equalizers: the trailer is a beam on the ball and on the one axle that touches.
#[test]
fn a_stiff_triple_on_a_sharp_head_stands_on_its_front_axle() {
    let trailer = triple(4e9, 0.0);
    let wheels = trailer.wheels();
    let convoy = Convoy { tow: tow(0.5), hitch: None, body: trailer.body(), wheels: &wheels };
    let instants = visited(&convoy, &ramp(&[(40.0, 0.2)], 0.0), 6.0, 0.02);
    // With axle 1 alone on the level, hub and ball as when measured, N = W xc / x1 = 40 000·5.6/5.4 = 41 481.5
    // and V = −1481.5: the tow vehicle is lifted.
    let alone: Vec<&Instant> = instants
        .iter()
        .filter(|at| at.stance.axle_loads[1].si() == 0.0 && at.stance.axle_loads[2].si() == 0.0)
        .filter(|at| at.stance.hubs[0].x.si() < 0.0)
        .collect();
    assert!(!alone.is_empty());
    for instant in alone {
        assert_abs_diff_eq!(instant.stance.axle_loads[0].si(), 41_481.481, epsilon = 1.0);
        assert_abs_diff_eq!(instant.stance.tongue_weight.si(), -1481.481, epsilon = 1.0);
        assert!(instant.stance.hang.iter().skip(1).all(|hang| hang.si() > 0.0));
    }
}

/// The same with springs and equalizers that an owner has: nearly so, by the tongue that it lifts.
#[test]
fn a_sprung_triple_on_a_steep_head_nearly_stands_on_its_front_axle() {
    let trailer = triple(1e6, 0.005);
    let wheels = trailer.wheels();
    let convoy = Convoy { tow: tow(0.5), hitch: None, body: trailer.body(), wheels: &wheels };
    let instants = visited(&convoy, &ramp(&[(40.0, 0.25)], 0.0), 6.0, 0.02);
    let greatest = instants.iter().map(|at| at.stance.axle_loads[0].si()).fold(0.0, f64::max);
    let least = instants.iter().map(|at| at.stance.tongue_weight.si()).fold(f64::INFINITY, f64::min);
    assert!((0.95..1.05).contains(&(greatest / 41_481.481)), "{greatest}");
    assert!(least < 0.0, "{least}");
}

#[test]
fn vertical_curves_are_parabolas_about_their_breaks() {
    let runs = [(12.0, 0.02), (30.0, 0.15)];
    let terrain = ramp(&runs, 4.0);
    let sharp = ground(&runs);
    for i in 0..2000 {
        let x = -5.0 + 0.02 * f64::from(i);
        let offset = |at: f64, change: f64| {
            // Inside the curve the parabola lies above or below its tangents by change (L/2 − |u|)² / 2L.
            let inside = 2.0 - (x - at).abs();
            if inside > 0.0 { change * inside * inside / 8.0 } else { 0.0 }
        };
        let expected = sharp.height(x) + offset(0.0, -0.02) + offset(12.0, -0.13);
        // The chords miss the parabola by 0.05 mm at most.
        assert_abs_diff_eq!(terrain.height(metres(x)).si(), expected, epsilon = 5.1e-5);
    }
}

#[test]
fn a_hitch_that_gives_evens_the_tongue_out() {
    let trailer = triple(4e5, 0.04);
    let wheels = trailer.wheels();
    let level = 3_870.967_742;
    let swing = |rate: Option<f64>| {
        let hitch = rate.map(|rate| HitchSpring {
            rate: Rate::from_si(rate),
            level_tongue_weight: Weight::from_si(level),
        });
        let convoy = Convoy { tow: tow(0.5), hitch, body: trailer.body(), wheels: &wheels };
        let instants = visited(&convoy, &ramp(&[(40.0, 0.15)], 0.0), 12.0, 0.1);
        if let Some(rate) = rate {
            for instant in &instants {
                // The ball stands as far under its place as the tongue weight says: (V − V0) / c.
                let place = instant.tow_point(metres(TOW[1]), metres(0.5));
                let sunk = (place.x - instant.ball.x).si().hypot((place.z - instant.ball.z).si());
                let told = (instant.stance.tongue_weight.si() - level).abs() / rate;
                assert_abs_diff_eq!(sunk, told, epsilon = 2e-9);
            }
        }
        let tongue = instants.iter().map(|at| at.stance.tongue_weight.si());
        tongue.clone().fold(0.0, f64::max) - tongue.fold(f64::INFINITY, f64::min)
    };
    let (held, stiff, soft) = (swing(None), swing(Some(1e9)), swing(Some(1e5)));
    // A nanometre of give for each newton.
    assert_abs_diff_eq!(stiff, held, epsilon = 1e-3 * held);
    assert!(soft < 0.95 * held, "{soft} {held}");
}

#[test]
fn a_rig_that_tips_or_hangs_is_told_where() {
    let mut trailer = triple(4e5, 0.04);
    let wheels = trailer.wheels();
    trailer.xc = -0.5;
    let convoy = Convoy { tow: tow(0.5), hitch: None, body: body(40_000.0, -0.5, 0.2), wheels: &wheels };
    let terrain = ramp(&[(40.0, 0.15)], 0.0);
    assert!(traverse(&convoy, &terrain, metres(5.0), metres(0.1), |_, _| {}, |_| {}).is_err());
    assert_eq!(point((1.0, 2.0)).x, metres(1.0));
}
