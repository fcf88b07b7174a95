//! Ranges of assumed values, and ends of ± that cannot be: each row at every combination, by reading the file with it.

use bunkline::Rig;
use bunkline::fit::{Assessment, RigVerdict, Row, Verdict, assess};
use bunkline::rig::inputs::{
    Input, TRAILER_JACK_STATION, TRAILER_SUSPENSION_BUMP, TRAILER_SUSPENSION_DEFLECTION_AT_RATING,
};
use bunkline::study::uncertainty::{self, brief, sample};
use std::sync::LazyLock;

const SKIFF: &str = include_str!("../../demo-data/fishing-skiff.toml");
/// The demo without what its owner has of the springs and the tires.
static AS_CHANGED: LazyLock<String> = LazyLock::new(|| {
    let text = include_str!("../../demo-data/survey-launch-as-changed.toml");
    let of_springs = ["deflection_at_rating", "bump", "equalizer_travel"];
    let lines = text.lines().filter(|line| !of_springs.iter().any(|key| line.starts_with(key)));
    lines.collect::<Vec<_>>().join("\n").replace(", rate = \"2000 lb/in\"", "")
});
const AS_FOUND: &str = include_str!("../../demo-data/survey-launch-as-found.toml");
const INCH: f64 = 0.0254;
const COUNTS: &str = "policy.counts=[\"ramp-axle-*\"]";
const MEMBER: &str = "trailer.crossmembers.4.station";

fn read(text: &str, changes: &[&str]) -> Rig {
    Rig::read("rig.toml", text, changes).unwrap_or_else(|problems| panic!("{problems}"))
}

/// With ± and ranges taken into account.
fn examined(text: &str, changes: &[&str]) -> Assessment {
    brief(&read(text, changes)).expect("it rests").0
}

fn row(found: &Assessment, id: &str) -> Row {
    found.check(id).unwrap_or_else(|| panic!("{id}")).clone()
}

fn without(text: &str, line: &str) -> String {
    assert_eq!(text.matches(line).count(), 1, "{line}");
    text.replace(line, "")
}

/// The launch's springs, tires and equalizers are assumed: 2.25 in, 2000 lb/in, 1.5 in. Its rows over the ramp are what
/// reading the file with every combination of their ends gives.
#[test]
fn a_row_goes_from_its_least_to_its_greatest_over_every_combination() {
    let found = examined(&AS_CHANGED, &[COUNTS]);
    let mut loads = vec![Vec::new(); 3];
    let mut left = vec![Vec::new(); 3];
    let mut take = |changes: &[&str]| {
        let there = assess(&read(&AS_CHANGED, &[&[COUNTS], changes].concat())).expect("it rests");
        for axle in 0..3 {
            let row = row(&there, &format!("ramp-axle-{}", axle + 1));
            loads[axle].push(row.load.expect("a load").si());
            left[axle].push(row.margin_to_fail.expect("a margin").si());
        }
    };
    take(&[]);
    for (deflection, rate) in [("4.5 in", "1000 lb/in"), ("1.125 in", "4000 lb/in")] {
        for travel in ["1 in", "3 in"] {
            take(&[
                &format!("trailer.suspension.deflection_at_rating={deflection}"),
                &format!("trailer.axles.all.tires.rate={rate}"),
                &format!("trailer.suspension.equalizer_travel={travel}"),
            ]);
        }
    }
    let least = |values: &[f64]| values.iter().copied().fold(f64::INFINITY, f64::min);
    for axle in 0..3 {
        let row = row(&found, &format!("ramp-axle-{}", axle + 1));
        let range = row.range.expect("it moves");
        assert_eq!(range.low.si(), least(&loads[axle]));
        assert_eq!(range.high.si(), -least(&loads[axle].iter().map(|load| -load).collect::<Vec<_>>()));
        assert_eq!(range.margin_to_fail.expect("it counts").si(), least(&left[axle]));
        let keys: Vec<String> = range.keys.iter().map(ToString::to_string).collect();
        assert!(keys.contains(&"trailer.suspension.deflection_at_rating".to_string()), "{keys:?}");
        assert!(keys.contains(&"trailer.axles.2.tires.rate".to_string()), "{keys:?}");
        assert!(
            !keys.contains(&"trailer.suspension.bump".to_string()),
            "it follows the deflection: {keys:?}"
        );
    }
    // What all of it weighs does not depend on springs.
    assert_eq!(row(&found, "coupler").range, None);
}

/// Stiffer springs than are assumed and softer ones both load the rear axle more: its range begins at what is assumed.
#[test]
fn a_range_holds_the_row_as_assumed() {
    let text = without(include_str!("../rigs/work-boat.toml"), "deflection_at_rating = \"2.2 in\"\n");
    let load = |changes: &[&str]| {
        let found = assess(&read(&text, changes)).expect("it rests");
        row(&found, "axle-2").load.expect("a load").si()
    };
    let deflection = TRAILER_SUSPENSION_DEFLECTION_AT_RATING.input();
    let ends = deflection.ends(read(&text, &[]).measured(), [0, 0]).expect("a range");
    let ends = ends.map(|end| load(&[&format!("trailer.suspension.deflection_at_rating={end} m")]));
    let assumed = load(&[]);
    assert!(assumed < ends[0] && assumed < ends[1], "{assumed}, {ends:?}");
    let range = row(&examined(&text, &[]), "axle-2").range.expect("it moves");
    assert_eq!((range.low.si(), range.high.si()), (assumed, ends[0].max(ends[1])));
}

/// On the stiffest springs an axle is overloaded on the ramp, as assumed it is not.
#[test]
fn what_fails_at_one_end_of_its_range_is_unsure() {
    let found = examined(&AS_CHANGED, &[COUNTS]);
    assert_eq!(found.verdict, RigVerdict::Unsure);
    let unsure: Vec<String> =
        found.rows.iter().filter(|row| row.verdict == Verdict::Unsure).map(Row::id).collect();
    assert!(!unsure.is_empty() && unsure.iter().all(|id| id.starts_with("ramp-axle-")), "{unsure:?}");
    // What only advises does not make a rig unsure.
    let advised = examined(&AS_CHANGED, &[]);
    assert_eq!(advised.verdict, RigVerdict::Pass);
    assert_eq!(row(&advised, &unsure[0]).verdict, Verdict::Advise);
    // With what was assumed stated there is no doubt left.
    let stated = [
        COUNTS,
        "trailer.suspension.deflection_at_rating=2.25 in",
        "trailer.suspension.bump=3.15 in",
        "trailer.suspension.equalizer_travel=1.5 in",
        "trailer.axles.all.tires.rate=2000 lb/in",
    ];
    let found = examined(&AS_CHANGED, &stated);
    assert!(found.rows.iter().all(|row| row.range.is_none()));
}

/// A row fails only where it fails over all of its range.
#[test]
fn what_fails_as_assumed_but_holds_at_an_end_is_unsure() {
    let as_assumed = |rating: &str| {
        let changes = [COUNTS, &format!("trailer.axles.all.rating={rating}")];
        let alone = assess(&read(&AS_CHANGED, &changes)).expect("it rests");
        let found = examined(&AS_CHANGED, &changes);
        ["ramp-axle-1", "ramp-axle-2", "ramp-axle-3"].map(|id| {
            let (alone, found) = (row(&alone, id), row(&found, id));
            let range = found.range.clone().expect("it moves");
            let rating = found.max.expect("a rating").si();
            let expected = match (range.low.si() > rating, range.high.si() > rating) {
                (true, _) => Verdict::Fail,
                (false, true) => Verdict::Unsure,
                (false, false) => alone.verdict,
            };
            assert_eq!(found.verdict, expected, "{id} at {rating}");
            (alone.verdict, found.verdict)
        })
    };
    let seen: Vec<_> = ["2500 lb", "4200 lb", "4600 lb"].into_iter().flat_map(as_assumed).collect();
    assert!(seen.contains(&(Verdict::Fail, Verdict::Unsure)), "{seen:?}");
    assert!(seen.contains(&(Verdict::Fail, Verdict::Fail)), "{seen:?}");
}

#[test]
fn a_jack_without_a_station_may_stand_four_feet_behind_the_ball() {
    let rated = |text: &str| examined(text, &["trailer.jack.rating=220 lb"]);
    assert_eq!(row(&rated(SKIFF), "jack").verdict, Verdict::Fail);
    let silent = without(SKIFF, "station = \"22 in\"\n");
    let found = rated(&silent);
    let jack = row(&found, "jack");
    assert_eq!((found.verdict, jack.verdict), (RigVerdict::Unsure, Verdict::Unsure));
    let range = jack.range.expect("its station moves it");
    assert_eq!(range.keys, [TRAILER_JACK_STATION.key()]);
    // V x̄/(x̄ − 48 in) over V.
    let mean = read(SKIFF, &[]).proposed().trailer.axles[0].station.expect("a station").value;
    let expected = range.low.si() * mean / (mean - 48.0 * INCH);
    assert!((range.high.si() - expected).abs() < 1e-9 * expected);
    // As if it stood there.
    let there = examined(SKIFF, &["trailer.jack.station=4 ft"]);
    assert_eq!(row(&there, "jack").load.expect("a load").si(), range.high.si());
}

#[test]
fn a_bump_that_is_assumed_follows_a_deflection_that_is() {
    let ends = |input: &Input, changes: &[&str]| input.ends(read(&AS_CHANGED, changes).measured(), [0, 0]);
    let (bump, deflection) =
        (TRAILER_SUSPENSION_BUMP.input(), TRAILER_SUSPENSION_DEFLECTION_AT_RATING.input());
    assert_eq!(ends(deflection, &[]), Some([4.5 * INCH, 1.125 * INCH]));
    assert_eq!(ends(bump, &[]), None);
    let stated = ["trailer.suspension.deflection_at_rating=2 in"];
    assert_eq!(ends(deflection, &stated), None);
    let close = |found: Option<[f64; 2]>, [one, other]: [f64; 2]| {
        let [low, high] = found.expect("a range");
        assert!((low - one).abs() < 1e-12 && (high - other).abs() < 1e-12, "{low} and {high}");
    };
    close(ends(bump, &stated), [2.4 * INCH, 4.0 * INCH]);
    let both = [stated[0], "trailer.suspension.bump=3 in"];
    assert_eq!(ends(bump, &both), None);
}

fn rank(verdict: RigVerdict) -> u8 {
    match verdict {
        RigVerdict::Pass => 0,
        RigVerdict::Unsure | RigVerdict::Incomplete => 1,
        RigVerdict::Fail => 2,
    }
}

/// An end that cannot be is drawn back, and proves nothing.
#[test]
fn a_wider_bound_never_makes_a_verdict_better() {
    let widening = |text: &str, key: &str, value: &str, bounds: &[&str]| {
        let at = |bound: &&str| examined(text, &[&format!("{key}={value} ± {bound}")]).verdict;
        let found: Vec<RigVerdict> = bounds.iter().map(at).collect();
        assert!(found.windows(2).all(|pair| rank(pair[0]) <= rank(pair[1])), "{key}: {found:?}");
        found
    };
    // Axle 1 stands at 18 ft, axle 3 at 23 ft 4 in.
    let axles = widening(&AS_CHANGED, "trailer.axles.2.station", "20 ft 8 in", &["3 in", "24 in", "90 in"]);
    assert_eq!(axles[1..], [RigVerdict::Unsure; 2]);
    let share = widening(SKIFF, "policy.tongue_share.min", "7 %", &["3 %", "6 %", "7 %"]);
    assert_eq!(share, [RigVerdict::Unsure; 3]);
    // Crossmember 3 stands at 18 ft 2 in, 28 in ahead.
    let members = widening(&AS_CHANGED, MEMBER, "20 ft 6 in", &["15 in", "34 in", "68 in"]);
    assert_eq!(members[1..], [RigVerdict::Unsure; 2]);
}

/// Axles 32 in apart, each ± 3 ft: each by itself stops at the other, and both together meet between.
#[test]
fn bounds_that_break_a_rule_together_are_drawn_back_together() {
    let apart = ["trailer.axles.1.station=18 ft ± 3 ft", "trailer.axles.2.station=20 ft 8 in ± 3 ft"];
    let rig = read(&AS_CHANGED, &apart);
    let mut varied = bunkline::rig::Varied::new(&rig);
    let [ahead, behind] = [0, 1].map(|axle| bunkline::rig::inputs::TRAILER_AXLES_STATION.of(axle));
    let (there, drawn) =
        varied.with_errors_drawn_back(&[(ahead, 36.0 * INCH), (behind, -36.0 * INCH)]).expect("drawn back");
    let station = |axle: usize| there.measured().trailer.axles[axle].station.expect("a station").value;
    // They meet half way: each moves 16 in.
    assert!(station(0) < station(1) && station(1) - station(0) < 1e-6);
    assert!((drawn[0].1 - 16.0 * INCH).abs() < 1e-6 && (drawn[1].1 + 16.0 * INCH).abs() < 1e-6, "{drawn:?}");
    // What does not conflict keeps all of its error.
    let hull = bunkline::rig::inputs::BOAT_WEIGHTS_WEIGHT.of(0);
    let (_, drawn) =
        varied.with_errors_drawn_back(&[(hull, 100.0), (behind, -36.0 * INCH)]).expect("drawn back");
    assert_eq!(drawn[0].1, 100.0);
    assert!((drawn[1].1 + 32.0 * INCH).abs() < 1e-6);
    assert_eq!(examined(&AS_CHANGED, &apart).verdict, RigVerdict::Unsure);
}

/// A sample that fails is no less in doubt than a corner.
#[test]
fn a_sample_that_fails_makes_its_row_unsure() {
    let rig = read(&AS_CHANGED, &[&format!("{MEMBER}=20 ft 6 in ± 34 in")]);
    let (mut findings, uncertainty) = uncertainty::examine(&rig).expect("it rests");
    let mut uncertainty = uncertainty.expect("bounds");
    // As if the corners had found nothing.
    findings.assessment = assess(&rig).expect("it rests");
    assert_eq!(findings.assessment.verdict, RigVerdict::Pass);
    sample(&rig, &mut findings, &mut uncertainty, 60, 1);
    assert!(uncertainty.samples.expect("samples").rig.fails > 0);
    assert_eq!(findings.assessment.verdict, RigVerdict::Unsure);
}

/// A lower rating is a lower limit: it leaves the springs as they are.
#[test]
fn a_lower_rating_leaves_the_springs() {
    let counts = "policy.counts=[\"ramp-tire-*\"]";
    let as_rated = examined(AS_FOUND, &[counts]);
    let lower = examined(AS_FOUND, &[counts, "trailer.axles.1.rating=3080 lb"]);
    for id in ["ramp-tire-1", "ramp-tire-2", "ramp-tire-3"] {
        let (as_rated, lower) = (row(&as_rated, id), row(&lower, id));
        assert_eq!(
            (as_rated.load, as_rated.verdict, &as_rated.range),
            (lower.load, lower.verdict, &lower.range)
        );
    }
}

/// A drum's factor is a plain number, assumed as 2.0 and tried at 1.4 and 2.6. By hand: G = 0.9 × 6 × C × 0.7854 × (5/13.3)/0.6013
/// is 2.651 C, F = (0.435 × 10 371 + 250 G)/(1 + G) is 927 lb at 2.0 and 1155 lb at 1.4, so the tow vehicle of 7700 lb brakes with
/// 4276 and 4504 of 0.435 × 10 200 = 4437 lb.
#[test]
fn a_stop_that_fails_at_one_end_of_a_drum_s_factor_is_unsure() {
    let text = include_str!("../../demo-data/survey-launch-as-changed.toml");
    let discs: Vec<&str> =
        text.lines().filter(|line| line.starts_with("brakes = { kind = \"disc\"")).collect();
    let drum = |factor: &str| {
        format!(
            "brakes = {{ kind = \"drum\", piston = \"1 in\", radius = \"5 in\", travel = \"0.06 in\"{factor} }}"
        )
    };
    let drums = |factor: &str| text.replace(discs[0], &drum(factor));
    let gvwr = ["tow.gvwr=10200 lb"];
    let stop = |text: &str| row(&examined(text, &gvwr), "brake-stop");
    let assumed = stop(&drums(""));
    assert_eq!(assumed.verdict, Verdict::Unsure);
    let pounds = |load: Option<bunkline::fit::Amount>| load.expect("a load").si() / (0.453_592_37 * 9.806_65);
    assert!((pounds(assumed.load) - 4276.0).abs() < 1.0, "{:?}", assumed.load);
    let range = assumed.range.expect("a range");
    assert!((pounds(Some(range.high)) - 4504.3).abs() < 1.0, "{range:?}");
    assert!(range.keys.iter().all(|key| key.path == "trailer.axles.*.brakes.factor"), "{range:?}");
    // At each end as reading the file with it.
    for (factor, verdict) in [("2.0", Verdict::Thin), ("1.4", Verdict::Fail)] {
        assert_eq!(stop(&drums(&format!(", factor = {factor}"))).verdict, verdict, "{factor}");
    }
}
