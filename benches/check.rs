//! How long a check takes, beside a fixed loop of square roots that tells how fast the machine is.
//!
//! Absolute times vary by machine: quote the ratio to `a_million_square_roots`.

use bunkline::fit::{Drawing, View};
use bunkline::mechanics::ramp::{Convoy, Instant, TowShape, traverse};
use bunkline::mechanics::road::settle::MeasuredAxle;
use bunkline::mechanics::terrain::RampRun;
use bunkline::mechanics::{Body, FramePoint, GroundPoint, PerAxle, Spring, Terrain, Undercarriage, settle};
use bunkline::quantity::show::UnitSystem;
use bunkline::quantity::{Angle, Length, Quantity, Rate, Slope, Weight};
use bunkline::report::figure::{self, Names};
use bunkline::study::place::{Options, Part, place};
use bunkline::study::{samples, uncertainty};
use bunkline::{Rig, fit};
use divan::{Bencher, black_box};

const FILE: &str = include_str!("../demo-data/survey-launch-as-found.toml");

/// The demo triple without its ramp.
fn triple_on_the_level() -> &'static str {
    FILE.split("[[ramps]]").next().unwrap_or(FILE)
}

fn main() {
    divan::main();
}

#[divan::bench]
fn a_million_square_roots() -> f64 {
    (0..1_000_000).map(|i| black_box(f64::from(i)).sqrt()).sum()
}

#[divan::bench]
fn parse_and_check_the_triple() -> fit::Assessment {
    let rig = Rig::read("triple", black_box(triple_on_the_level()), &[] as &[&str]).expect("the demo reads");
    fit::assess(&rig).expect("the demo settles")
}

#[divan::bench]
fn check_the_parsed_triple(bencher: Bencher) {
    let rig = Rig::read("triple", triple_on_the_level(), &[] as &[&str]).expect("the demo reads");
    bencher.bench_local(|| fit::assess(black_box(&rig)).expect("the demo settles"));
}

/// The same with its ramp: two more crossings, one a case.
#[divan::bench]
fn check_the_triple_with_its_ramp(bencher: Bencher) {
    let rig = Rig::read("triple", FILE, &[] as &[&str]).expect("the demo reads");
    bencher.bench_local(|| fit::assess(black_box(&rig)).expect("the demo settles"));
}

/// What a drawing takes once a rig is assessed: the demo triple as it was changed, which has every view.
#[divan::bench(args = ["side", "top", "section", "ramp", "launch", "bunks"])]
fn draw_a_view(bencher: Bencher, name: &str) {
    let views = [View::Side, View::Top, View::Section, View::Ramp, View::Launch, View::Bunks];
    let named = ["side", "top", "section", "ramp", "launch", "bunks"].into_iter().zip(views);
    let view = named.into_iter().find_map(|(of, view)| (of == name).then_some(view)).expect("a view");
    let file = include_str!("../demo-data/survey-launch-as-changed.toml");
    let rig = Rig::parse(file).expect("the demo reads");
    let assessment = fit::assess(&rig).expect("the demo settles");
    bencher.bench_local(|| {
        let drawings = Drawing::of(view, black_box(&rig), &assessment).expect("all is known");
        figure::drawing(rig.proposed(), &drawings, Names::Keys, UnitSystem::Us)
    });
}

/// What each rig of a summary takes: it is read and assessed with every ± and range, and nothing else is looked for.
#[divan::bench(args = ["fishing-skiff", "pilot-cutter", "crab-boat"])]
fn a_rig_of_a_summary(bencher: Bencher, name: &str) {
    let file = std::fs::read_to_string(format!("demo-data/{name}.toml")).expect("a demo");
    bencher.bench_local(|| {
        let rig = Rig::parse(black_box(&file)).expect("the demo reads");
        uncertainty::brief(&rig).expect("the demo settles")
    });
}

/// Every worst corner of the demo triple's two uncertain inputs, without its ramp; the check itself included.
#[divan::bench]
fn worst_corners_of_the_triple(bencher: Bencher) {
    let rig = Rig::read("triple", triple_on_the_level(), &[] as &[&str]).expect("the demo reads");
    bencher.bench_local(|| uncertainty::examine(black_box(&rig)).expect("the demo settles"));
}

/// A hundred thousand samples of it, on all cores.
#[divan::bench(sample_count = 5)]
fn a_hundred_thousand_samples_of_the_triple(bencher: Bencher) {
    let rig = Rig::read("triple", triple_on_the_level(), &[] as &[&str]).expect("the demo reads");
    let rows = fit::assess(&rig).expect("the demo settles").rows;
    bencher.bench_local(|| samples::samples(black_box(&rig), &rows, 100_000, 1).expect("inputs with bounds"));
}

/// Where its boat must sit, on all cores: every level check at 201 places, and over its ramp at 61.
#[divan::bench(sample_count = 10)]
fn place_the_boat_of_the_triple(bencher: Bencher) {
    let rig = Rig::read("triple", FILE, &[] as &[&str]).expect("the demo reads");
    let sixteenth = metres(0.0254 / 16.0);
    let options = Options { ramps: true, grains: [sixteenth, sixteenth / 1000.0] };
    bencher.bench_local(|| place(black_box(&rig), Part::Boat, &options).expect("it rests"));
}

/// Three axles that share equally, the ball where the frame sits level.
#[divan::bench]
fn settle_level_sharing(bencher: Bencher) {
    let (body, wheels) = triple(0.0381);
    bench_settling(bencher, body, &wheels, 0.5, &Terrain::level());
}

/// The ball an inch high: the frame pitches, still sharing equally.
#[divan::bench]
fn settle_level_ball_high(bencher: Bencher) {
    let (body, wheels) = triple(0.0381);
    bench_settling(bencher, body, &wheels, 0.5254, &Terrain::level());
}

/// Axles sprung apart, the ball an inch high.
#[divan::bench]
fn settle_level_apart(bencher: Bencher) {
    let (body, wheels) = triple(0.0);
    bench_settling(bencher, body, &wheels, 0.5254, &Terrain::level());
}

/// The middle axle just past a 15 % head.
#[divan::bench]
fn settle_on_a_ramp_head(bencher: Bencher) {
    let (body, wheels) = triple(0.0381);
    let point = |x: f64, z: f64| GroundPoint { x: metres(x), z: metres(z) };
    let ramp = Terrain::through(&[point(-20.0, 0.0), point(6.0, 0.0), point(26.0, -3.0)]);
    bench_settling(bencher, body, &wheels, 0.5, &ramp.expect("the ramp runs aft"));
}

/// A triple backed 100 ft over a 15 % head, the greatest load of its front axle found.
#[divan::bench]
fn traverse_100_feet(bencher: Bencher) {
    let (body, wheels) = triple(0.0381);
    let run = RampRun { length: metres(40.0), grade: Slope(0.15) };
    let terrain = Terrain::ramp(&[run], metres(0.0)).expect("the ramp runs aft");
    let tow = TowShape { wheelbase: metres(4.0), overhang: metres(1.27), ball_height: metres(0.5) };
    let convoy = Convoy { tow, hitch: None, body, wheels: &wheels };
    bencher.bench_local(|| {
        let front = |instant: &Instant, followed: &mut Vec<f64>| {
            followed.push(instant.stance.axle_loads[0].si());
        };
        traverse(black_box(&convoy), &terrain, metres(30.48), metres(f64::INFINITY), front, |_| {})
            .expect("it rests everywhere")
    });
}

fn bench_settling(bencher: Bencher, body: Body, wheels: &Undercarriage, ball_height: f64, terrain: &Terrain) {
    let ball = GroundPoint { x: metres(0.0), z: metres(ball_height) };
    let level = Angle::from_si(0.0);
    bencher.bench_local(|| {
        settle(black_box(body), black_box(wheels), ball, black_box(terrain), level).expect("it rests")
    });
}

fn metres(metres: f64) -> Length {
    Length::from_si(metres)
}

fn triple(equalizer_travel: f64) -> (Body, Undercarriage) {
    let body = Body {
        weight: Weight::from_si(46e3),
        at: FramePoint { x: metres(6.0), z: metres(0.6), y: metres(0.0) },
    };
    let axle = |station: f64| MeasuredAxle {
        station: metres(station),
        wheel_radius: metres(0.345),
        spring: Spring::new(Rate::from_si(3.4e5), Rate::from_si(7e5), metres(0.08)),
    };
    let axles: PerAxle<MeasuredAxle> = [5.5, 6.3, 7.1].into_iter().map(axle).collect();
    let wheels = Undercarriage::level_under(body, &axles, metres(equalizer_travel), metres(0.5));
    (body, wheels.expect("it stands level"))
}
