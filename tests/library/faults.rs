//! Faults that were found once, each by the smallest rig that showed it.

use bunkline::Rig;
use bunkline::fit::{self, Verdict};
use bunkline::quantity::{Length, Quantity};
use bunkline::study::place::{Options, Part, Placing, moved, place};
use bunkline::study::ramp::{self, Choice};
use bunkline::study::uncertainty;

const SKIFF: &str = include_str!("../../demo-data/fishing-skiff.toml");
const AS_CHANGED: &str = include_str!("../../demo-data/survey-launch-as-changed.toml");
const AS_FOUND: &str = include_str!("../../demo-data/survey-launch-as-found.toml");
const CRAB_BOAT: &str = include_str!("../../demo-data/crab-boat.toml");

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
    let options = Options { ramps: false, grains: [sixteenth, sixteenth / 1000.0] };
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
        let moved = moved(&asked, part, shift).expect("it can be set");
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
    assert_eq!(found.check("lifted-tongue").map(|row| row.verdict), Some(Verdict::Advise));
    let unrated: Vec<&str> = AS_FOUND.lines().filter(|line| !line.contains("tongue_rating")).collect();
    if let Ok(unrated) = Rig::read("rig.toml", &unrated.join("\n"), &[] as &[&str]) {
        let found = fit::assess(&unrated).expect("it settles");
        assert_eq!(found.check("lifted-tongue").map(|row| row.verdict), Some(Verdict::Advise));
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

/// A proposal moves the value of a shift; how exactly it is placed stays in doubt.
#[test]
fn no_spot_is_surer_than_the_shift_that_it_sets() {
    let mut text = CRAB_BOAT.to_string();
    for bound in [" ± 100 lb", " ± 3 in", " ± 40 lb", " ± 8 in", " ± 30 lb"] {
        text = text.replacen(bound, "", 1);
    }
    assert!(!text.lines().any(|line| !line.starts_with('#') && line.contains('±')));
    let asked = rig(&text, &["shift.boat=0 in ± 2 in", "policy.preferred_tongue_share=7.2 %"]);
    let spot = placed(&asked, Part::Boat).spot.expect("there is a window");
    let there = moved(&asked, Part::Boat, spot.shift).expect("it can be set");
    assert_eq!(there.uncertain(), asked.uncertain());
    let (found, _) = uncertainty::brief(&there).expect("it settles");
    let unsure = found.rows.iter().filter(|row| row.verdict == Verdict::Unsure);
    let unsure: Vec<String> = unsure.map(fit::Row::id).collect();
    assert_eq!(spot.sureness.expect("the shift has a bound").unsure, unsure);
}

/// Every worst moment of a crossing is the worst of all positions 0.04 in apart, in its row as well.
#[test]
fn a_row_is_no_better_than_any_position() {
    let text = without(AS_CHANGED, "ease");
    // It just touches the ground, between two looks.
    let step = "[[trailer.low_points]]\nname = \"step\"\nstation = \"170 in\"\nheight = \"4.2079 in\"\n";
    let asked = rig(&(text + "\n" + step), &[]);
    let choice = Choice { ramp: Some(0), case: Some(0) };
    let axles = asked.proposed().trailer.axles.len();
    let mut least = vec![f64::INFINITY; axles];
    let mut greatest = vec![0.0_f64; axles];
    let mut clearance = f64::INFINITY;
    ramp::positions(&asked, choice, Length::from_si(0.001), &mut |moment| {
        for (axle, load) in moment.instant.stance.axle_loads.iter().enumerate() {
            least[axle] = least[axle].min(load.si());
            greatest[axle] = greatest[axle].max(load.si());
        }
        clearance = clearance.min(moment.clearances[1].as_ref().expect("known").si());
    })
    .expect("it settles");

    // Whatever the step.
    for step in [0.05, f64::INFINITY] {
        let found = ramp::crossings(&asked, choice, Length::from_si(step)).expect("it settles");
        let assessment = &found.findings.assessment;
        let peaks = found.crossed[0].loads.peaks.as_ref().expect("known").as_ref().expect("it rests");
        // A millimetre from a turning point a load is off by the square of that; 1e-5 of the rig's weight is far more.
        let weight = 1e-5 * assessment.cases[0].gross.as_ref().expect("known").si();
        for (axle, peak) in peaks.axles.iter().enumerate() {
            assert!((peak.least.value.si() - least[axle]).abs() < weight, "{axle}");
            assert!((peak.greatest.value.si() - greatest[axle]).abs() < weight, "{axle}");
        }
        let row = assessment.rows.iter().find(|row| row.id() == "ramp-clearance-step").expect("a row");
        let told = row.load.expect("known").si();
        assert!(told < 0.0 && told <= clearance && clearance - told < 2.54e-5, "{told} {clearance}");
        // It touches.
        assert_eq!(row.verdict, Verdict::Fail);
    }
}

/// The case whose moments are shown is the one with the worst rating; friction is none.
#[test]
fn the_case_shown_holds_the_worst_rating() {
    let text = AS_CHANGED.replace("without = [\"sounder\"]", "without = [\"outboards\"]");
    let changes = ["ramps.1.friction=10 %", "ramps.1.profile.2.grade=11 %", "shift.boat=-21 in"];
    for (text, changes) in [(&*text, &changes[..]), (&text, &[]), (AS_FOUND, &[])] {
        let found = ramp::crossings(&rig(text, changes), Choice::default(), Length::from_si(f64::INFINITY))
            .expect("it settles");
        let shown = found.crossed[0].loads.case;
        let rows = found.findings.assessment.rows.iter();
        let ratings = rows.filter(|row| row.is_about_ramps() && row.check.is_rating());
        let bad = |row: &fit::Row| match row.verdict {
            Verdict::Fail | Verdict::Advise => (1, -row.margin.map_or(0.0, bunkline::fit::Amount::si)),
            _ => (0, row.used.map_or(0.0, Quantity::si)),
        };
        let worst = ratings.max_by(|one, other| bad(one).partial_cmp(&bad(other)).expect("numbers"));
        assert_eq!(worst.and_then(|row| row.case), Some(shown), "{:?}", worst.map(fit::Row::id));
    }
}

/// At the least rise that is reported everything clears; at any less something does not.
#[test]
fn the_least_rise_is_the_least() {
    let text = without(&without(AS_CHANGED, "side_play"), "loading_trim");
    let raised = |rise: f64| {
        let by = [format!("trailer.keel_height+={rise} in"), format!("trailer.bunks.top+={rise} in")];
        let changes: Vec<&str> = by.iter().map(String::as_str).collect();
        let rig = rig(&text, &[&["trailer.fenders.height=38 in"][..], &changes].concat());
        let found = fit::assess(&rig).expect("it settles");
        let clearances = found.rows.iter().filter(|row| row.check.id.starts_with("clearance-"));
        let least = clearances.map(|row| row.margin.expect("known").si()).fold(f64::INFINITY, f64::min);
        (least, fit::lowest(rig.proposed()).expect("known").expect("there are clearances").rise.si())
    };
    let told = raised(0.0).1 / 0.0254;
    // The keel stands 21.5 in up, the chine 16 in above it: half an inch more is the fender's 38 in.
    assert!((told - 0.5).abs() < 1e-3, "{told}");
    assert!(raised(told + 1e-6).0 >= 0.0);
    for tenths in 0..10 {
        assert!(raised(told * f64::from(tenths) / 10.0).0 < 0.0, "{tenths} tenths");
    }
}

/// A tongue that lifts is worse than any rating, however much of it is used.
#[test]
fn the_case_shown_is_the_one_that_lifts() {
    // 4900 lb is less than the first case's axle carries over the head; the second's tongue falls to -25 lb.
    let rig = rig(AS_CHANGED, &["ramps.1.profile.2.grade=15 %", "trailer.axles.1.rating=4900 lb"]);
    let found = ramp::crossings(&rig, Choice::default(), Length::from_si(f64::INFINITY)).expect("it settles");
    let row = |id: &str| found.findings.assessment.check(id).expect("a row");
    assert!(row("ramp-tongue").load.is_some_and(|load| load.si() < 0.0));
    let axle = found.findings.assessment.rows.iter().find(|row| row.id() == "ramp-axle-1").expect("a row");
    assert_eq!((axle.verdict, axle.case), (Verdict::Advise, Some(0)));
    assert_eq!(found.crossed[0].loads.case, 1);
}

/// A tow axle's row asks for that axle's own load only: F = F0 − V o / b and R = R0 + V (b + o) / b.
#[test]
fn an_axle_of_the_tow_vehicle_asks_for_its_own_load_only() {
    let loads = |text: &str, id: &str| {
        let found = fit::assess(&rig(text, &[])).expect("it settles");
        let row = found.check(id).expect("a tow vehicle").clone();
        (row.load.map(fit::Amount::si), row.missing.len())
    };
    for (id, other) in [("tow-front-axle", "rear_axle_load"), ("tow-rear-axle", "front_axle_load")] {
        let (whole, silent) = (loads(SKIFF, id), loads(&without(SKIFF, other), id));
        assert!(whole.0.is_some());
        assert_eq!(whole, silent, "{id} without {other}");
    }
}
