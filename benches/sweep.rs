//! How long a sweep takes a point, rows written out, beside a fixed loop of square roots that tells how fast the
//! machine is.
//!
//! Absolute times vary by machine: quote the ratio to `a_million_square_roots`, and one thread to two.

use bunkline::Rig;
use bunkline::quantity::show::UnitSystem;
use bunkline::report::sweep::{Form, Rows};
use bunkline::study::sweep::{Axis, Sweep};
use divan::{Bencher, black_box};
use std::ops::ControlFlow;

/// A triple on bunks, with a ramp.
const LAUNCH: &str = include_str!("../demo-data/survey-launch-as-found.toml");
/// A tandem without bunks and ramps.
const CRAB_BOAT: &str = include_str!("../demo-data/crab-boat.toml");

fn main() {
    divan::main();
}

#[divan::bench]
fn a_million_square_roots() -> f64 {
    (0..1_000_000).map(|i| black_box(f64::from(i)).sqrt()).sum()
}

/// Two cases, the usual columns as comma-separated values: everything that a verdict needs on the level.
#[divan::bench(args = [1, 2], sample_count = 20)]
fn a_hundred_thousand_level_points(bencher: Bencher, threads: usize) {
    bench(bencher, CRAB_BOAT, threads, "shift.boat=-0.25m..0.249995m/0.000005m", None);
}

/// The same with what bunks carry.
#[divan::bench(args = [1, 2], sample_count = 20)]
fn a_hundred_thousand_points_on_bunks(bencher: Bencher, threads: usize) {
    bench(bencher, LAUNCH, threads, "shift.boat=-0.4m..0.099995m/0.000005m", None);
}

/// Two cases, each backed over the ramp.
#[divan::bench(args = [1, 2], sample_count = 10)]
fn forty_points_over_a_ramp(bencher: Bencher, threads: usize) {
    bench(
        bencher,
        LAUNCH,
        threads,
        "shift.boat=-0.4m..-0.01m/0.01m",
        Some("ramp-axle-1.load,ramp-tongue.margin,verdict"),
    );
}

fn bench(bencher: Bencher, file: &str, threads: usize, vary: &str, shown: Option<&str>) {
    let rig = Rig::read("rig", file, &[] as &[&str]).expect("the demo reads");
    let axis = Axis::parse(&rig, vary).expect("an axis");
    let shown: Option<Vec<String>> = shown.map(|names| names.split(',').map(str::to_string).collect());
    // Without columns named, the verdict is shown: it would ask for the ramps as well.
    let make = if shown.is_some() { Sweep::new } else { Sweep::without_ramps };
    let sweep = make(&rig, vec![axis], None, shown.as_deref(), false).expect("a sweep");
    let rows = Rows::new(&sweep, UnitSystem::Us, Form::Csv).expect("rows");
    let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().expect("threads");
    bencher.bench_local(|| {
        let mut bytes = 0;
        sweep.run(
            &pool,
            |text: &mut String, point| rows.push(text, point.row, point.found.as_ref().ok()),
            |text, _| {
                bytes += text.len();
                ControlFlow::Continue(())
            },
        );
        bytes
    });
}
