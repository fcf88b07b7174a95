//! What must hold of any text that is taken for a rig file.

use bunkline::Rig;
use bunkline::fit::{self, CaseLoads, Findings, RigVerdict, Row, Verdict};
use bunkline::quantity::Quantity;
use bunkline::quantity::show::UnitSystem;
use bunkline::report::check::Wanted;
use bunkline::report::document::Document;
use bunkline::report::{Extent, Subject, bunks, check, json, place as places, text};
use bunkline::rig::{Fault, Problems};
use bunkline::study::place::{Options, Part, Placing, Unplaced, moved, place};
use bunkline::study::samples::samples;
use bunkline::study::uncertainty::{self, Uncertainty};
use serde_json::Value;

/// How far a text came.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reached {
    /// It holds mistakes.
    Mistaken,
    /// It is a rig that does not rest on its wheels.
    Unfit,
    /// It was reported on.
    Reported,
}

/// Reads a text with changes, examines the rig and reports on it in every form.
///
/// # Panics
/// When anything on the way is unsound.
pub fn take(text: &str, changes: &[&str]) -> Reached {
    let rig = match Rig::read("rig.toml", text, changes) {
        Ok(rig) => rig,
        Err(problems) => {
            told(&problems);
            return Reached::Mistaken;
        }
    };
    let (findings, mut uncertainty) = match uncertainty::examine(&rig) {
        Ok(examined) => examined,
        Err(unfit) => {
            assert!(!unfit.to_string().is_empty());
            return Reached::Unfit;
        }
    };
    judged(&findings);
    for case in &findings.assessment.cases {
        finite(case);
    }
    if let Some(uncertainty) = &mut uncertainty {
        doubted(&findings, uncertainty);
        uncertainty.samples = samples(&rig, &findings.assessment.rows, 2, 1);
    }
    let uncertainty = uncertainty.as_ref();
    for units in [UnitSystem::Us, UnitSystem::Metric] {
        let subject = Subject {
            path: "rig.toml",
            rig: &rig,
            findings: &findings,
            uncertainty,
            as_stated: false,
            units,
        };
        let report = printed(&check::report(&subject, &Wanted { full: true, ..Wanted::default() }));
        assert!(!report.contains("NaN") && !report.contains("inf lb"), "{report}");
        if rig.proposed().trailer.bunks.are_described() {
            let report = printed(&bunks::report(&subject, Extent::Full));
            assert!(!report.contains("NaN") && !report.contains("inf "), "{report}");
        }
        let line = json::report(&subject).expect("a report can be written as JSON");
        assert!(!line.contains('\n'));
        let document: Value = serde_json::from_str(&line).expect("a report in JSON can be read");
        for (row, check) in
            findings.assessment.rows.iter().zip(document["checks"].as_array().expect("a list"))
        {
            written(row, check);
        }
    }
    Reached::Reported
}

/// Reads a text, looks for the place of a part and reports on it in every form.
///
/// # Panics
/// When anything on the way is unsound.
pub fn take_place(text: &str, part: Part) -> Reached {
    let Ok(rig) = Rig::read("rig.toml", text, &[] as &[&str]) else { return Reached::Mistaken };
    for units in [UnitSystem::Us, UnitSystem::Metric] {
        let options = Options { ramps: false, grains: places::grains(units) };
        let placing = match place(&rig, part, &options) {
            Ok(placing) => placing,
            Err(Unplaced::Unfit(_)) => return Reached::Unfit,
            Err(why) => {
                assert!(!why.to_string().is_empty());
                return Reached::Mistaken;
            }
        };
        ordered(&placing);
        let there = placing.spot.as_ref().map_or(placing.now, |spot| spot.shift);
        let Ok(rig) = moved(&rig, part, there) else { return Reached::Mistaken };
        let Ok(findings) = fit::examine(&rig) else { return Reached::Unfit };
        let subject = Subject {
            path: "rig.toml",
            rig: &rig,
            findings: &findings,
            uncertainty: None,
            as_stated: false,
            units,
        };
        let report = printed(&places::report(&subject, &placing, Extent::Full));
        assert!(!report.contains("NaN") && !report.contains("inf lb"), "{report}");
        let document = json::placing(&subject, &placing).expect("a place can be written as JSON");
        let document: Value = serde_json::from_str(&document).expect("a place in JSON can be read");
        assert_eq!(document["place"]["windows"].as_array().expect("a list").len(), placing.windows.len());
    }
    Reached::Reported
}

fn printed(document: &Document) -> String {
    text::render(document, text::WIDTH, false)
}

/// Intervals are in order inside the range, and the spot lies in its window.
fn ordered(placing: &Placing) {
    let windows: Vec<_> = placing.windows.iter().map(|window| window.interval).collect();
    for intervals in placing.held.iter().map(|held| &held.holds).chain([&windows]) {
        for interval in intervals {
            assert!(interval.from <= interval.to, "{interval:?}");
            assert!(placing.range.holds(interval.from) && placing.range.holds(interval.to), "{interval:?}");
        }
        assert!(intervals.windows(2).all(|pair| pair[0].to < pair[1].from), "{intervals:?}");
    }
    assert_eq!(placing.windows.is_empty(), placing.conflict.is_some());
    if let Some(spot) = &placing.spot {
        assert!(placing.windows[spot.window].interval.holds(spot.shift), "{spot:?}");
    }
}

/// Every mistake has words, and a place inside its text.
fn told(problems: &Problems) {
    assert!(!problems.list.is_empty());
    for problem in &problems.list {
        let message = problem.fault.to_string();
        assert!(message.starts_with("expected "), "{message}");
        assert!(problem.fault.help().is_none_or(|help| !help.is_empty()));
        for span in problem.at.iter().chain(&problem.other) {
            let text = &problems.sources.get(span.source).text;
            // What the syntax's own reader marks may end inside a character.
            if !matches!(problem.fault, Fault::Syntax(_)) {
                assert!(text.get(span.range.clone()).is_some(), "{message} at {:?}", span.range);
            }
            let position = problems.sources.position(span);
            assert!(position.line >= 1 && position.column >= 1);
        }
    }
    let line = json::error("rig.toml", &problems.to_string(), Some(problems)).expect("it can be written");
    let document: Value = serde_json::from_str(&line).expect("it can be read");
    assert_eq!(document["schema"], 1);
}

/// Worst margins are finite and no better than what is stated; parts of an uncertainty make a whole.
fn doubted(findings: &Findings, uncertainty: &Uncertainty) {
    let rows = &findings.assessment.rows;
    assert_eq!(rows.len(), uncertainty.corners.len());
    for (i, (row, corner)) in rows.iter().zip(&uncertainty.corners).enumerate() {
        let Some(corner) = corner else { continue };
        let stated = row.margin.expect("a corner is of a row that was made").si();
        assert!(corner.sensitivities.iter().all(|slope| slope.is_finite()), "{}", row.id());
        if let Some(worst) = corner.margin {
            // Over a range the corner is searched where least is left to what fails, whatever that leaves to what advises.
            let no_better = worst.si() <= stated || row.range.is_some();
            assert!(worst.si().is_finite() && no_better, "{}: {corner:?} of {stated}", row.id());
            let to_fail = |margin: Option<fit::Amount>| margin.is_some_and(|margin| margin.si() < 0.0);
            let unsure = row.counts && to_fail(corner.margin_to_fail) && !to_fail(row.margin_to_fail);
            assert!(!unsure || row.verdict == Verdict::Unsure, "{}", row.id());
        }
        let parts: f64 = uncertainty.ranked(i).iter().map(|(.., share)| share.value).sum();
        assert!(parts == 0.0 || (parts - 1.0).abs() < 1e-9, "{}: {parts}", row.id());
    }
}

/// Each verdict agrees with its margin, and the rig's verdict with them all.
fn judged(findings: &Findings) {
    let rows = &findings.assessment.rows;
    for row in rows {
        let id = row.id();
        let unmet = matches!(row.verdict, Verdict::Fail | Verdict::Advise);
        let may_be_bare = row.is_about_ramps()
            || row.check.id == "bunk-contact"
            // No pull moves a boat along a line that leads straight down, and some boats never come off.
            || matches!(row.check.subject, fit::Subject::Winch | fit::Subject::Launch);
        if may_be_bare && row.load.is_none() && unmet {
            // An unloaded axle that should hold, a boat that does not lie on its bunks: there is no figure to tell.
            assert_eq!(row.margin, None, "{id}");
            continue;
        }
        let outside = row.margin.is_some_and(|margin| margin.si() < 0.0);
        // At a corner of its bounds a row may be outside although it is inside as stated.
        let known_outside = matches!(row.verdict, Verdict::Fail | Verdict::Advise | Verdict::Unsure);
        assert!(!outside || known_outside, "{id}: {row:?}");
        let fails = row.margin_to_fail.is_some_and(|margin| margin.si() < 0.0);
        // What fails as stated but holds within the range of what is assumed is unsure.
        assert!(!fails || matches!(row.verdict, Verdict::Fail | Verdict::Unsure), "{id}: {row:?}");
        assert!(fails || row.verdict != Verdict::Fail, "{id}: {row:?}");
        let made = row.verdict != Verdict::NotChecked;
        // Of a light trailer nothing is asked.
        if made && row.margin.is_none() && row.max.or(row.min).is_none() {
            continue;
        }
        assert_eq!((row.load.is_some(), row.margin.is_some()), (made, made), "{id}");
        // On a ramp or on its bunks a boat may come to no rest though nothing is missing.
        let restless = row.is_about_ramps()
            || row.is_about_bunks()
            || matches!(row.check.subject, fit::Subject::Winch | fit::Subject::Launch);
        // What is outside is so whatever is missing elsewhere.
        assert!(row.missing.is_empty() == made || restless || outside, "{id}");
        let amounts = [row.load, row.min, row.max, row.margin].into_iter().flatten();
        for number in amounts.map(fit::Amount::si).chain(row.used.map(Quantity::si)) {
            assert!(number.is_finite(), "{id}: {row:?}");
        }
    }
    let fails = rows.iter().any(|row| row.verdict == Verdict::Fail);
    assert_eq!(fails, findings.assessment.verdict == RigVerdict::Fail);
    assert!(findings.cures.iter().all(|(row, _)| *row < rows.len()));
}

/// Every load that is known is a number, and no wheel pulls.
fn finite(case: &CaseLoads) {
    let weights = [&case.gross, &case.boat, &case.combination, &case.jack];
    for weight in weights.into_iter().flatten() {
        assert!(weight.si().is_finite(), "{case:?}");
    }
    if let Ok(tow) = &case.tow {
        assert!(tow.front.si().is_finite() && tow.rear.si().is_finite(), "{case:?}");
    }
    if let Ok(body) = &case.body {
        assert!([body.at.x, body.at.z, body.at.y].iter().all(|at| at.si().is_finite()), "{case:?}");
    }
    for carried in [Some(&case.level), case.lifted.as_ref()].into_iter().flatten().flatten() {
        let stance = &carried.stance;
        assert!(stance.pitch.si().is_finite() && stance.tongue_weight.si().is_finite(), "{case:?}");
        let tires = carried.tire_loads.iter().flatten();
        for load in stance.axle_loads.iter().chain(tires) {
            assert!(load.si().is_finite() && load.si() >= 0.0, "{case:?}");
        }
        // What the axles and the ball carry is what the rig weighs.
        let gross = case.gross.as_ref().map_or(0.0, |gross| gross.si());
        let carried = stance.on_axles().si() + stance.tongue_weight.si();
        assert!((carried - gross).abs() <= 1e-9 * gross.max(1.0), "{case:?}");
    }
}

/// What JSON says of a check is what was found: null only where nothing is known.
fn written(row: &Row, check: &Value) {
    assert_eq!(check["id"], row.id());
    assert_eq!(check["load"].is_null(), row.load.is_none());
    assert_eq!(check["margin"].is_null(), row.margin.is_none());
    assert_eq!(check["used"].is_null(), row.used.is_none());
    assert_eq!(check["limits"]["min"].is_null(), row.min.is_none());
    assert_eq!(check["limits"]["max"].is_null(), row.max.is_none());
}
