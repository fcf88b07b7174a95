//! Faults that were found once, each by the smallest rig that showed it.

use bunkline::Rig;
use bunkline::fit::{self, Verdict};
use bunkline::quantity::{Length, Quantity};
use bunkline::study::place::{Options, Part, Placing, place};

const SKIFF: &str = include_str!("../../demo-data/fishing-skiff.toml");
const AS_CHANGED: &str = include_str!("../../demo-data/survey-launch-as-changed.toml");
const AS_FOUND: &str = include_str!("../../demo-data/survey-launch-as-found.toml");

fn rig(text: &str, changes: &[&str]) -> Rig {
    Rig::read("rig.toml", text, changes).unwrap_or_else(|problems| panic!("{problems}"))
}

/// A file without the lines that begin with one of these keys.
fn without(text: &str, key: &str) -> String {
    let stays = |line: &&str| !line.trim_start().starts_with(key);
    text.lines().filter(stays).collect::<Vec<_>>().join("\n")
}

fn placed(rig: &Rig, part: Part) -> Placing {
    let sixteenth = Length::from_si(0.0254 / 16.0);
    let options = Options { with_ramps: false, grains: [sixteenth, sixteenth / 1000.0] };
    place(rig, part, &options).unwrap_or_else(|unplaced| panic!("{unplaced}"))
}

/// How many windows there are; both ends of each, and the spot, pass a check of the rig moved there.
fn windows_pass(text: &str, changes: &[&str], part: Part) -> usize {
    let asked = rig(text, changes);
    let placing = placed(&asked, part);
    if !placing.answers() {
        assert_eq!(placing.spot, None);
        return 0;
    }
    let ends = placing.windows.iter().flat_map(|window| [window.interval.from, window.interval.to]);
    let spot = placing.spot.iter().map(|spot| spot.shift);
    for shift in ends.chain(spot) {
        let moved = bunkline::study::place::moved(&asked, part, shift).expect("it can be set");
        let found = fit::assess(&moved).expect("it settles");
        let failing: Vec<String> =
            found.rows.iter().filter(|row| row.verdict == Verdict::Fail).map(fit::Row::id).collect();
        assert!(failing.is_empty(), "{part:?} at {} m: {failing:?}", shift.si());
    }
    placing.windows.len()
}

/// Where the range begins with refused shifts, their edge was taken for a place where every limit holds.
#[test]
fn no_window_rests_on_the_edge_of_refused_shifts() {
    let far = ["travel.axles=[\"-190 in\", \"10 in\"]"];
    let band = "policy.tongue_share.min=25 %";
    let share = [far[0], "policy.tongue_share.max=26 %", band];
    assert_eq!(windows_pass(SKIFF, &share, Part::Axles), 0);
    assert_eq!(windows_pass(SKIFF, &far, Part::Axles), 1);
    assert_eq!(windows_pass(SKIFF, &["travel.boat=[\"-500 in\", \"10 in\"]"], Part::Boat), 1);
}

/// A tongue that lifts the tow vehicle fails, whatever rating is missing.
#[test]
fn a_missing_rating_hides_no_lifted_tongue() {
    // Case 2 has a tongue weight of -25 lb over this head.
    let text = without(AS_CHANGED, "tongue_rating");
    let text = text
        .lines()
        .map(|line| {
            line.split_once(", tongue_rating = ").map_or(line.to_string(), |(before, after)| {
                let rest = after
                    .split_once('"')
                    .and_then(|(_, rest)| rest.split_once('"'))
                    .map_or("", |(_, rest)| rest);
                format!("{before}{rest}")
            })
        })
        .collect::<Vec<_>>()
        .join("\n");
    let steep = rig(&text, &["ramps.1.profile.2.grade=15 %", "policy.counts=[\"ramp-tongue\"]"]);
    let found = fit::assess(&steep).expect("it settles");
    let row = found.check("ramp-tongue").expect("there is a ramp");
    assert_eq!(row.verdict, Verdict::Fail);
    assert!(row.load.is_some_and(|load| load.si() < 0.0) && !row.missing.is_empty());

    let found = fit::assess(&rig(AS_FOUND, &[])).expect("it settles");
    assert_eq!(found.check("lifted-tongue").map(|row| row.verdict), Some(Verdict::Fail));
    let unrated: Vec<&str> = AS_FOUND.lines().filter(|line| !line.contains("tongue_rating")).collect();
    if let Ok(unrated) = Rig::read("rig.toml", &unrated.join("\n"), &[] as &[&str]) {
        let found = fit::assess(&unrated).expect("it settles");
        assert_eq!(found.check("lifted-tongue").map(|row| row.verdict), Some(Verdict::Fail));
    }
}

/// What is left ashore weighs on nothing, and takes nothing from the balance but its weight.
#[test]
fn weight_left_ashore_is_taken_out_at_the_centre_of_gravity() {
    let pound = 0.453_592_37 * 9.806_65;
    let loads = |changes: &[&str]| fit::assess(&rig(AS_CHANGED, changes)).expect("it settles").cases;
    for (before, after) in loads(&[]).iter().zip(&loads(&["shift.ashore=600 lb"])) {
        let gross = |case: &fit::CaseLoads| case.gross.as_ref().expect("known").si();
        // A sum of some ten thousand pounds, rounded.
        assert!((gross(before) - gross(after) - 600.0 * pound).abs() < 1e-6);
        let moment = |case: &fit::CaseLoads| {
            let body = case.body.as_ref().expect("known");
            body.weight.si() * body.at.x.si()
        };
        let boat = |case: &fit::CaseLoads| case.boat.as_ref().expect("known").si();
        // The trailer's moment is the same; the boat's shrinks as its weight does: M = Mt + Wb x.
        let x = (moment(before) - moment(after)) / (boat(before) - boat(after));
        let lighter = loads(&["shift.ashore=1200 lb"]);
        let third = lighter.iter().find(|case| (boat(before) - boat(case) - 1200.0 * pound).abs() < 1e-6);
        let x_again = third.map(|third| (moment(before) - moment(third)) / (boat(before) - boat(third)));
        assert!(x_again.is_some_and(|again| (again - x).abs() < 1e-9), "{x} {x_again:?}");
    }
    let all = Rig::read("rig.toml", AS_CHANGED, &["shift.ashore=9000 lb"]);
    assert!(all.is_err_and(|problems| problems.to_string().contains("ashore")));
}
