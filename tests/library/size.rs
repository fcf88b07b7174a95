//! How large trailer and boat are on the road.

use bunkline::Rig;
use bunkline::fit::{Caution, RigVerdict, Verdict, assess, examine};

const CUTTER: &str = include_str!("../../demo-data/pilot-cutter-metric.toml");

fn rig(changes: &[&str]) -> Rig {
    Rig::read("rig.toml", CUTTER, changes).unwrap_or_else(|problems| panic!("{problems}"))
}

/// The load of a row in millimetres, and its verdict.
fn row(changes: &[&str], id: &str) -> (f64, Verdict) {
    let found = assess(&rig(changes)).expect("at rest");
    let row = found.check(id).unwrap_or_else(|| panic!("no row {id}"));
    (row.load.expect("a load").si() * 1000.0, row.verdict)
}

/// Bow stop 1160 and bow eye 6480 put the transom at 7640, past the trailer's end at 7400; the keel lies at 530, the roof 2100
/// above it; trailer 2480 wide, boat 2450.
#[test]
fn sizes_are_what_a_tape_finds() {
    for (changes, id, expected, verdict) in [
        (&[][..], "overall-length", 7640.0, Verdict::Pass),
        (&[], "overall-width", 2480.0, Verdict::Pass),
        (&[], "overall-height", 2630.0, Verdict::Pass),
        (&[], "rear-projection", 240.0, Verdict::Pass),
        (&["shift.boat=-300 mm"], "overall-length", 7400.0, Verdict::Pass),
        (&["shift.boat=-300 mm"], "rear-projection", 0.0, Verdict::Pass),
        (&["shift.boat=100 mm"], "rear-projection", 340.0, Verdict::Pass),
        // A tongue drawn in brings the trailer's end nearer the ball, and leaves the boat.
        (&["shift.tongue=100 mm"], "rear-projection", 340.0, Verdict::Pass),
        (&["shift.tongue=100 mm"], "overall-length", 7640.0, Verdict::Pass),
        (&["boat.beam=2.6 m"], "overall-width", 2600.0, Verdict::Advise),
        (&["boat.top=3.5 m"], "overall-height", 4030.0, Verdict::Advise),
        (&["policy.size.rear_projection=200 mm"], "rear-projection", 240.0, Verdict::Advise),
        (&["policy.size.length=7.6 m"], "overall-length", 7640.0, Verdict::Advise),
    ] {
        let (found, is) = row(changes, id);
        assert!((found - expected).abs() < 1e-6, "{id} {changes:?}: {found}");
        assert_eq!(is, verdict, "{id} {changes:?}");
    }
}

/// An engine that hangs 600 behind the transom reaches out 840 behind the trailer.
#[test]
fn what_hangs_out_astern_counts() {
    let with_engine = format!(
        "{CUTTER}\n[[boat.low_points]]\nname = \"skeg\"\nstation = \"-600 mm\"\nheight = \"100 mm\"\n"
    );
    let found = assess(&Rig::parse(&with_engine).expect("it reads")).expect("at rest");
    for (id, expected) in [("rear-projection", 0.84), ("overall-length", 8.24)] {
        let load = found.check(id).and_then(|row| row.load).expect("a load").si();
        assert!((load - expected).abs() < 1e-9, "{id}: {load}");
    }
}

#[test]
fn no_size_fails_a_rig_and_what_is_not_measured_is_not_checked() {
    let past = ["length=5 m", "width=2 m", "height=2 m", "rear_projection=1 mm"]
        .map(|size| format!("policy.size.{size}"));
    let past = past.each_ref().map(String::as_str);
    let verdict = |changes: &[&str]| assess(&rig(changes)).expect("at rest").verdict;
    assert_eq!((verdict(&past), verdict(&[])), (RigVerdict::Pass, RigVerdict::Pass));
    for (line, id) in [
        ("length = \"7.40 m\"", "rear-projection"),
        ("width = \"2.48 m\"", "overall-width"),
        ("top = \"2.10 m\" ", "overall-height"),
    ] {
        let found = assess(&Rig::parse(&CUTTER.replace(line, "")).expect("it reads")).expect("at rest");
        let row = found.check(id).expect("a row");
        assert_eq!((row.verdict, row.missing.len()), (Verdict::NotChecked, 1), "{id}: {:?}", row.missing);
    }
}

/// Where the file states no size that the law allows there is no row, but a caution with what is known.
#[test]
fn a_silent_file_is_cautioned() {
    let line = CUTTER.lines().find(|line| line.starts_with("size = ")).expect("the sizes");
    let silent = Rig::parse(&CUTTER.replace(line, "")).expect("it reads");
    let sizes = |rig: &Rig| {
        let cautions = examine(rig).expect("at rest").cautions;
        cautions.into_iter().find_map(|caution| match caution {
            Caution::SizeNotStated { length, width, height } => Some((length, width, height)),
            _ => None,
        })
    };
    let (length, width, height) = sizes(&silent).expect("the caution");
    assert!(length.is_some() && width.is_some() && height.is_some());
    assert!(assess(&silent).expect("at rest").check("overall-length").is_none());
    assert_eq!(sizes(&rig(&[])), None);
}
