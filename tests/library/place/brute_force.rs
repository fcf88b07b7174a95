//! Every spot tried one by one, as `check` would: each row is outside its limits there exactly when the search
//! says so, and the rows that count hold together exactly inside the windows.
//!
//! Places within two micrometres of an end are left out: over ramps an end is found to one, and a load at its
//! very limit is decided by rounding.

use super::{options, placed, rig};
use crate::cases::cases;
use crate::properties::sketch::{Sketch, Texts, sketches, weighed};
use bunkline::Rig;
use bunkline::fit::{RigVerdict, Row, Verdict, assess};
use bunkline::quantity::{Length, Quantity};
use bunkline::rig::Varied;
use bunkline::study::interval::Interval;
use bunkline::study::place::{Held, Part, Placing, moved, place};
use proptest::prelude::*;

/// Two micrometres, in metres.
const NEAR: f64 = 2e-6;

const DEMOS: [&str; 5] = [
    include_str!("../../../demo-data/electric-day-launch.toml"),
    include_str!("../../../demo-data/fishing-skiff.toml"),
    include_str!("../../../demo-data/pilot-cutter.toml"),
    include_str!("../../../demo-data/survey-launch-as-changed.toml"),
    include_str!("../../../demo-data/survey-launch-as-found.toml"),
];

/// The file without its ramps: what is compared is on the level.
fn on_the_level(text: &str) -> String {
    let blocks = text.split("\n[[ramps]]");
    let mut kept = String::new();
    for (i, block) in blocks.enumerate() {
        // After the first, the ramp's own lines go, up to the next table.
        let from = if i == 0 { 0 } else { block.find("\n[").unwrap_or(block.len()) };
        kept.push_str(&block[from..]);
    }
    kept
}

fn near_an_end(intervals: &[Interval], range: Interval, at: Length) -> bool {
    let ends = intervals.iter().flat_map(|interval| [interval.from, interval.to]);
    // The range's own ends are no edge of a limit.
    let edges = ends.filter(|end| *end != range.from && *end != range.to);
    edges.into_iter().any(|end| (end - at).si().abs() < NEAR)
}

fn holds(intervals: &[Interval], at: Length) -> bool {
    intervals.iter().any(|interval| interval.holds(at))
}

fn limits_of<'a>(placing: &'a Placing, row: &Row) -> Vec<&'a Held> {
    placing.held.iter().filter(|held| held.limit.check == row.check && held.limit.of == row.of).collect()
}

/// Whether a row agrees with the search at a place.
fn assert_row(placing: &Placing, row: &Row, at: Length) {
    let limits = limits_of(placing, row);
    if row.verdict == Verdict::NotChecked {
        assert!(placing.unknown.iter().any(|unknown| unknown.id == row.id()), "{} is not told", row.id());
        return;
    }
    // Of a light trailer no brakes are asked, and what could not be made at every place is only named.
    let is_told = placing.unknown.iter().any(|unknown| unknown.id == row.id());
    let free = is_told || row.min.is_none() && row.max.is_none();
    assert!(free || !limits.is_empty(), "{} has no limits", row.id());
    if limits.iter().any(|held| near_an_end(&held.holds, placing.range, at)) {
        return;
    }
    // A row that another figure of the file leaves in doubt may be past what it advises at as well.
    let is_past = row.verdict == Verdict::Unsure && row.margin.is_some_and(|margin| margin.si() < 0.0);
    let outside = is_past || matches!(row.verdict, Verdict::Fail | Verdict::Advise);
    let found = !limits.iter().all(|held| holds(&held.holds, at));
    assert!(outside == found || outside && is_told, "{} at {} m: {row:?}", row.id(), at.si());
}

/// Whether all that count hold, but for the rows that no move mends.
fn assert_windows(placing: &Placing, rows: &[Row], at: Length) {
    if !placing.lacks.is_empty() {
        assert!(placing.windows.is_empty() && placing.spot.is_none() && !placing.answers());
        return;
    }
    let windows: Vec<Interval> = placing.windows.iter().map(|window| window.interval).collect();
    if near_an_end(&windows, placing.range, at) {
        return;
    }
    let left_out = |row: &Row| limits_of(placing, row).iter().any(|held| held.limit.fails() && !held.fixable);
    let failing = rows.iter().filter(|row| row.verdict == Verdict::Fail);
    let (beyond_mending, failing): (Vec<&Row>, Vec<&Row>) = failing.partition(|row| left_out(row));
    assert_eq!(failing.is_empty(), holds(&windows, at), "{failing:?} at {} m", at.si());
    let counting = placing.held.iter().filter(|held| held.limit.fails() && held.never());
    for held in counting {
        assert!(
            beyond_mending.iter().any(|row| row.id() == held.limit.id()),
            "{} is mended",
            held.limit.id()
        );
    }
}

/// Tries every place of the range at so many metres from each other.
fn try_all(rig: &Rig, part: Part, spacing: f64) -> Placing {
    let placing = placed(rig, part);
    let variable = rig.variable(part.path()).expect("a key of the format");
    let mut varied = Varied::new(rig);
    let (from, width) = (placing.range.from.si(), placing.range.width().si());
    let count = (width / spacing).ceil();
    for i in 0..=(count as i64) {
        // Rounding must not carry the last place beyond the range.
        let at = (from + width * (i as f64 / count)).min(placing.range.to.si());
        let there = varied.with(&[(&variable, at)]).expect("a shift that can be set");
        let found = assess(there).expect("a trailer at rest");
        for row in &found.rows {
            assert_row(&placing, row, Length::from_si(at));
        }
        assert_windows(&placing, &found.rows, Length::from_si(at));
    }
    assert_spot(rig, &placing);
    placing
}

/// The spot passes when it is assessed whole, or fails in what no move mends only.
fn assert_spot(rig: &Rig, placing: &Placing) {
    let Some(spot) = &placing.spot else { return };
    let windows = &placing.windows;
    assert!(windows[spot.window].interval.holds(spot.shift) && holds(&[placing.range], spot.shift));
    let there = moved(rig, placing.part, spot.shift).expect("a shift that can be set");
    let found = assess(&there).expect("a trailer at rest");
    assert_windows(placing, &found.rows, spot.shift);
    if placing.answers() {
        assert_ne!(found.verdict, RigVerdict::Fail);
    }
}

#[test]
fn the_demo_rigs_agree_with_every_place() {
    for demo in DEMOS {
        let rig = rig(&on_the_level(demo), &[]);
        assert!(rig.proposed().ramps.is_empty());
        // Every 3 mm where no travel is stated: there are 3 m to go.
        try_all(&rig, Part::Boat, if rig.proposed().travel.boat.is_some() { 1e-3 } else { 3e-3 });
    }
}

#[test]
fn the_demo_rigs_agree_by_axles_and_by_tongue() {
    for demo in DEMOS {
        let rig = rig(&on_the_level(demo), &[]);
        try_all(&rig, Part::Axles, 0.03);
        try_all(&rig, Part::Tongue, 0.03);
    }
}

#[test]
fn moved_bunks_agree() {
    // What bunks bear has jumps and several intervals: a crossmember is reached or not.
    for demo in &DEMOS[2..] {
        let rig = rig(&on_the_level(demo), &[]);
        let placing = try_all(&rig, Part::Bunks, 0.03);
        assert!(placing.held.iter().any(|held| held.moves), "the demo has bunks");
    }
}

#[test]
fn a_file_that_is_read_again_at_each_place_agrees() {
    // Not by varying a rig in place, but through the text of a change, every 50 mm.
    let text = on_the_level(DEMOS[3]);
    let placing = placed(&rig(&text, &[]), Part::Boat);
    let mut at = placing.range.from.si();
    while at < placing.range.to.si() {
        let found =
            assess(&rig(&text, &[&format!("shift.boat={} mm", at * 1e3)])).expect("a trailer at rest");
        for row in &found.rows {
            assert_row(&placing, row, Length::from_si(at));
        }
        at += 0.05;
    }
}

#[test]
fn ramps_that_count_agree_with_every_crossing() {
    // Over ramps every row counts: crossings are made every 40 mm of the travel.
    let policy = DEMOS[4].replace("[policy]", "[policy]\ncounts = [\"ramp-*\"]");
    // The first case is enough, and half as long.
    let (before, cases) = policy.split_once("[[cases]]").expect("cases");
    let (_, after) = cases.split_once("[travel]").expect("a travel");
    let rig = rig(&format!("{before}[travel]{after}"), &[]);
    let placing = place(&rig, Part::Boat, &options(true)).expect("a trailer at rest");
    assert!(placing.ramps && placing.held.iter().any(|held| held.limit.check.is_about_ramps()));
    let variable = rig.variable("shift.boat").expect("a key of the format");
    let mut varied = Varied::new(&rig);
    let mut at = placing.range.from.si();
    while at < placing.range.to.si() {
        let found = assess(varied.with(&[(&variable, at)]).expect("a valid shift")).expect("at rest");
        for row in &found.rows {
            assert_row(&placing, row, Length::from_si(at));
        }
        assert_windows(&placing, &found.rows, Length::from_si(at));
        at += 0.04;
    }
}

/// Ratings near the loads, so that most limits end inside the range; a policy wide enough for windows.
fn with_policy(sketch: &Sketch, texts: Texts) -> String {
    sketch.write(texts) + "[policy]\ntongue_share = { min = \"4 %\", max = \"22 %\" }\n"
}

proptest! {
    #![proptest_config(cases(12))]

    #[test]
    fn random_rigs_agree(sketch in prop_oneof![sketches(4), weighed(3)], over in -24i64..=24) {
        let sketch = Sketch { ball_over_level: over, ..sketch };
        let rig = rig(&with_policy(&sketch, Texts::Us), &[]);
        for part in [Part::Boat, Part::Axles, Part::Tongue] {
            try_all(&rig, part, 0.05);
        }
    }

    #[test]
    fn units_of_the_file_do_not_matter(sketch in sketches(4)) {
        let found = [Texts::Us, Texts::Metric].map(|texts| {
            let rig = rig(&with_policy(&sketch, texts), &[]);
            placed(&rig, Part::Boat)
        });
        prop_assert_eq!(found[0].windows.len(), found[1].windows.len());
        for (us, metric) in found[0].windows.iter().zip(&found[1].windows) {
            prop_assert_eq!(us.closed_by, metric.closed_by);
            // Each end is found to 1e-7 m.
            prop_assert!((us.interval.from - metric.interval.from).si().abs() < 2e-7);
            prop_assert!((us.interval.to - metric.interval.to).si().abs() < 2e-7);
        }
    }
}
