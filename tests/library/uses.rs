//! The checks that are reported to use a key do.

use crate::inputs::{another, keys, quantity, rigs, with_line};
use bunkline::Rig;
use bunkline::fit::{Known, Recalled, Scope, Severity, Standing, Subject, find};
use bunkline::rig::INPUTS;
use bunkline::study::uses::{Uses, uses};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::LazyLock;

/// What uses each key, found once for all tests.
pub static USES: LazyLock<BTreeMap<&str, Uses>> =
    LazyLock::new(|| INPUTS.iter().map(|input| (input.path, uses(input))).collect());

/// The ids of the checks that use a key.
fn ids(path: &str) -> BTreeSet<&'static str> {
    let Uses { plainly, otherwise } = &USES[path];
    plainly.iter().chain(otherwise).map(|check| check.id).collect()
}

type Row = Vec<(Severity, Known<Standing>)>;

/// What the rows of some checks come to in a file; none where the file breaks a rule.
fn rows(
    text: &str,
    recalled: &Recalled,
    wanted: impl Fn(&str) -> bool,
) -> Option<BTreeMap<(&'static str, usize), Row>> {
    let rig = Rig::read("rig.toml", text, &[] as &[&str]).ok()?;
    let setup = rig.proposed();
    let scope = Scope::of(setup, |asked| wanted(asked.check.id));
    let facts = scope.facts_recalling(&rig, recalled).ok()?;
    let mut rows: BTreeMap<_, Row> = BTreeMap::new();
    scope.compare(setup, &facts, |i, comparison| {
        let asked = &scope.rows()[i];
        let row = rows.entry((asked.check.id, asked.of.element())).or_default();
        row.push((comparison.severity, comparison.standing));
    });
    Some(rows)
}

/// Other lines in place of one that holds a key, and none.
fn others(path: &str, line: &str) -> Vec<String> {
    let (key, value) = line.split_once(" = ").expect("a key");
    let values = quantity(value).map_or_else(Vec::new, |(number, unit)| {
        [0.1, 0.5, 0.9, 1.1, 2.0, 10.0]
            .map(|factor| format!("{key} = \"{} {unit}\"", number * factor))
            .to_vec()
    });
    let other = another(path, value).map(|other| format!("{key} = {other}"));
    [String::new()].into_iter().chain(other).chain(values).collect()
}

/// Subjects whose rows need a ramp.
const ON_RAMPS: [Subject; 2] = [Subject::Ramp, Subject::Launch];

#[test]
fn the_checks_that_use_a_key_depend_on_it() {
    let mut moved: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
    for text in rigs() {
        // Most keys change neither a crossing nor a launch.
        let recalled = Recalled::default();
        let before = rows(&text, &recalled, |_| true).expect("a rig");
        let off_ramps = !text.contains("[[ramps");
        for (at, path) in keys(&text).into_iter().filter(|(_, path)| !HIDDEN_HERE.contains(path)) {
            let moved = moved.entry(path).or_default();
            for other in others(path, text.lines().nth(at).expect("a line")) {
                // Off its ramps a rig has no rows about them.
                let here = |id: &&str| {
                    !off_ramps || find(id).is_some_and(|check| !ON_RAMPS.contains(&check.subject))
                };
                let ids = ids(path);
                let left: BTreeSet<&str> = ids.difference(moved).copied().filter(here).collect();
                if left.is_empty() {
                    break;
                }
                let of_interest =
                    |id: &str| left.contains(id) || ALONE.iter().any(|(alone, _)| *alone == path);
                let Some(after) = rows(&with_line(&text, at, &other), &recalled, of_interest) else {
                    continue;
                };
                let differing = after.iter().filter(|(row, shown)| before.get(row) != Some(shown));
                let gone = before.keys().filter(|row| !after.contains_key(row));
                moved.extend(differing.map(|(row, _)| row).chain(gone).map(|(id, _)| *id));
            }
        }
    }
    let hidden = |id: &&str| !HIDDEN_CHECKS.contains(id);
    let idle = moved
        .iter()
        .map(|(path, moved)| (*path, ids(path).difference(moved).copied().filter(hidden).collect()));
    let idle: Vec<(&str, Vec<&str>)> = idle
        .filter(|(path, idle): &(&str, Vec<&str>)| !idle.is_empty() && !HIDDEN_HERE.contains(path))
        .collect();
    assert!(idle.is_empty(), "these move none of these: {idle:?}");
    // And nothing else depends on it.
    for (path, expected) in ALONE {
        let expected: BTreeSet<&str> = expected.iter().copied().collect();
        assert_eq!((&moved[*path], &ids(path)), (&expected, &expected), "{path}");
    }
}

/// Keys with all the checks that depend on them.
const ALONE: &[(&str, &[&str])] = &[
    ("tow.gvwr", &["brake-stop", "coupling-d", "coupling-dc", "surge-ratio", "tow-front-share", "tow-gvwr"]),
    ("trailer.jack.rating", &["jack"]),
    ("trailer.coupler.ball_size", &["ball-size"]),
    ("trailer.axles.*.rating", &["axle-*", "axle-tires-*", "brake-axle-*", "lifted-axle-*", "ramp-axle-*"]),
    ("trailer.axles.*.wheels.rating", &["axle-tires-*", "lifted-tires-total", "wheel-*"]),
    ("tow.driven", &["ramp-traction-drive", "ramp-traction-steady"]),
    ("trailer.bunks.brackets.bolt_rating", &["bunk-bracket"]),
];

/// Checks whose limits move by steps here: the least pressure of a tire is far above what its load needs; and the one of
/// rollers, which no rig here has with all the rest.
const HIDDEN_CHECKS: &[&str] = &["tire-pressure-*", "tire-speed-*", "launch-heel"];

/// Keys that move some of their checks' rows on the starter file's rigs only: here something else governs the row, or
/// states the same, or the boat's weight does not follow from theirs.
const HIDDEN_HERE: &[&str] = &[
    "boat.tanks.*.capacity",
    "boat.tanks.*.density",
    "boat.tanks.*.fluid",
    "boat.weights.*.weight",
    "boat.hull.straight_run",
    "boat.hull.support_from",
    "boat.low_points.*.side",
    "cases.*.fill.*",
    "hitch.weight_distribution.restored",
    "policy.counts",
    "policy.packing_error",
    "policy.thin_margin",
    "ramps.*.profile.*.length",
    "ramps.*.water_from_top",
    "ramps.*.water_level",
    "shift.boat",
    "shift.bunks",
    "shift.tongue",
    "trailer.axles.*.braked",
    "trailer.axles.*.tires.rate",
    "trailer.axles.*.tires.size",
    "trailer.bow_stop",
    "trailer.brakes.kind",
    "trailer.brakes.release_push",
    "trailer.bunks.aft_end",
    "trailer.bunks.forward_end",
    "trailer.bunks.port",
    "trailer.bunks.service",
    "trailer.bunks.spacer",
    "trailer.bunks.starboard",
    "trailer.bunks.width",
    "trailer.capacity",
    "trailer.cg",
    "trailer.crossmembers.*.centre",
    "trailer.crossmembers.*.top",
    "trailer.gvwr",
    "trailer.transom",
];

#[test]
fn a_check_whose_rows_a_key_takes_away_uses_it() {
    // These have rows only where the trailer's push works the brakes, as it does in the starter file.
    let pushed = ["brake-actuator", "brake-actuator-tongue", "surge-ratio", "brake-stroke"];
    let plainly: Vec<&str> = USES["trailer.brakes.kind"].plainly.iter().map(|check| check.id).collect();
    assert!(pushed.iter().all(|id| plainly.contains(id)), "{plainly:?}");
}
