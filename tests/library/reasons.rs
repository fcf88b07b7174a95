//! What decides a verdict besides rows: values that no such rig has, figures that disagree, policies, proposals.

use crate::faults::without;
use bunkline::Rig;
use bunkline::fit::{Findings, Reason, RigVerdict, Verdict};
use bunkline::quantity::show::UnitSystem;
use bunkline::report::check::{Wanted, report};
use bunkline::report::{Subject, text};
use bunkline::study::uncertainty;

const SKIFF: &str = include_str!("../../demo-data/fishing-skiff.toml");
const AS_CHANGED: &str = include_str!("../../demo-data/survey-launch-as-changed.toml");
const PILOT: &str = include_str!("../../demo-data/pilot-cutter.toml");

fn read(text: &str, changes: &[&str]) -> Rig {
    Rig::read("rig.toml", text, changes).unwrap_or_else(|problems| panic!("{changes:?}: {problems}"))
}

fn examined(text: &str, changes: &[&str]) -> Findings {
    uncertainty::examine(&read(text, changes)).unwrap_or_else(|unfit| panic!("{changes:?}: {unfit}")).0
}

fn verdict(text: &str, changes: &[&str]) -> RigVerdict {
    examined(text, changes).assessment.verdict
}

/// The page of a rig in one line, up to its first heading.
fn first_lines(text: &str, changes: &[&str]) -> String {
    let rig = read(text, changes);
    let (findings, uncertainty) = uncertainty::examine(&rig).expect("it settles");
    let subject = Subject {
        path: "rig.toml",
        rig: &rig,
        findings: &findings,
        uncertainty: uncertainty.as_ref(),
        as_stated: false,
        units: UnitSystem::Us,
    };
    let page = text::render(&report(&subject, &Wanted::default()), text::WIDTH, false);
    let (opening, _) = page.split_once("At a glance").expect("a glance");
    opening.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The ids of the rows of a verdict.
fn rows(findings: &Findings, verdict: Verdict) -> Vec<String> {
    let rows = findings.assessment.rows.iter().filter(|row| row.verdict == verdict);
    rows.map(bunkline::fit::Row::id).collect()
}

#[test]
fn a_wrong_digit_is_not_strength() {
    let steep = "ramps.1.profile.2.grade=16 %";
    let counts = "policy.counts=[\"ramp-axle-*\"]";
    for (text, changes, key) in [
        (SKIFF, &["trailer.axles.1.tires.rating=17600 lb"][..], "trailer.axles.1.tires.rating"),
        (SKIFF, &["trailer.gvwr=36000 lb"], "trailer.gvwr"),
        (SKIFF, &["trailer.coupler.rating=99 t"], "trailer.coupler.rating"),
        (SKIFF, &["trailer.weight=80 lb"], "trailer.weight"),
        (PILOT, &["trailer.capacity=3300 kg"], "trailer.capacity"),
        (SKIFF, &["tow.front_axle_load=300 lb", "tow.rear_axle_load=0 lb"], "tow.front_axle_load"),
        (SKIFF, &["boat.weights.hull.height=20 ft"], "boat.weights.1.height"),
        (SKIFF, &["trailer.track=50 ft"], "trailer.track"),
        (AS_CHANGED, &[steep, counts, "tow.hitch_rate=10 lb/in"], "tow.hitch_rate"),
    ] {
        let found = verdict(text, changes);
        // The ball that sinks so far lets the trailer touch the ramp as well.
        assert_ne!(found, RigVerdict::Pass, "{changes:?}");
        assert!(found != RigVerdict::Fail || key == "tow.hitch_rate", "{changes:?}");
        let opening = first_lines(text, changes);
        assert!(opening.contains("a digit or a unit wrong?") && opening.contains(key), "{opening}");
    }
    for text in [SKIFF, AS_CHANGED, PILOT] {
        assert_eq!(verdict(text, &[]), RigVerdict::Pass);
    }
}

/// Only the rows that use the value are unsure.
#[test]
fn an_implausible_value_puts_in_doubt_what_uses_it() {
    let unsure = |text: &str, changes: &[&str]| rows(&examined(text, changes), Verdict::Unsure);
    assert_eq!(unsure(SKIFF, &["trailer.gvwr=36000 lb"]), ["trailer-gvwr"]);
    assert_eq!(unsure(SKIFF, &["trailer.axles.1.tires.rating=17600 lb"]), ["tire-1"]);
    assert_eq!(unsure(SKIFF, &["trailer.coupler.rating=99 t"]), ["coupler"]);
    // The ball sinks over a ramp only.
    let sinks = unsure(AS_CHANGED, &["policy.counts=[\"ramp-axle-*\"]", "tow.hitch_rate=10 lb/in"]);
    assert!(sinks.iter().all(|id| id.starts_with("ramp-")) && sinks.len() > 3, "{sinks:?}");
    // What fails goes on failing.
    let heavy = ["trailer.gvwr=36000 lb", "boat.weights.hull.weight=40000 lb"];
    assert_eq!(
        examined(SKIFF, &heavy).assessment.check("trailer-gvwr").map(|row| row.verdict),
        Some(Verdict::Fail)
    );
}

/// 6000 lb on the scale, 2590 lb by the list: the GVWR is 3600 lb, the coupler holds 5000 lb.
#[test]
fn a_row_that_fails_by_the_scales_does_not_pass() {
    let changes = ["measured.gross_trailer_weight=6000 lb"];
    let found = examined(SKIFF, &changes);
    assert_eq!(found.assessment.verdict, RigVerdict::Unsure);
    let unsure = rows(&found, Verdict::Unsure);
    for id in ["trailer-gvwr", "axle-1", "coupler"] {
        assert!(unsure.contains(&id.to_string()), "{id}: {unsure:?}");
    }
    // 6000 lb are no more than the receiver's 6000 lb.
    assert!(!unsure.contains(&"receiver".to_string()), "{unsure:?}");
    let opening = first_lines(SKIFF, &changes);
    assert!(opening.contains("by the scales it weighs 6000 lb"), "{opening}");
    assert!(opening.contains("By the items the rig weighs 25"), "{opening}");
    // Within every rating by both.
    assert_eq!(verdict(SKIFF, &["measured.gross_trailer_weight=2600 lb"]), RigVerdict::Pass);
    // Less than the trailer itself weighs: no rig has that.
    assert_eq!(verdict(SKIFF, &["measured.gross_trailer_weight=600 lb"]), RigVerdict::Unsure);
    // What fails by the items fails.
    let heavy = ["boat.weights.hull.weight=4000 lb", "measured.gross_trailer_weight=2600 lb"];
    assert_eq!(verdict(SKIFF, &heavy), RigVerdict::Fail);
}

#[test]
fn scales_that_are_trusted_are_not_trusted_blindly() {
    // The list says 4000 lb for the hull; by the scale all aboard weighs 1900 lb, less than half of it.
    let trusting =
        ["policy.trust=scale", "boat.weights.hull.weight=4000 lb", "measured.gross_trailer_weight=2600 lb"];
    let found = examined(SKIFF, &trusting);
    assert_eq!(found.assessment.verdict, RigVerdict::Unsure);
    assert!(rows(&found, Verdict::Unsure).contains(&"trailer-gvwr".to_string()));
    // 3560 lb by the list would be 100 lb too much; the factor is 0.85.
    let near =
        ["policy.trust=scale", "boat.weights.hull.weight=2400 lb", "measured.gross_trailer_weight=3300 lb"];
    assert!(examined(SKIFF, &near).assessment.reasons.is_empty());
}

/// Each axle by its own scale carries more than it may; by gross and tongue weight less.
#[test]
fn axles_weighed_apart_count() {
    let tender = include_str!("../../demo-data/weighed-tender.toml");
    let weighed = tender.replace(
        "tongue_weight = \"500 lb\"",
        "tongue_weight = \"500 lb\", axles = [\"3600 lb\", \"2400 lb\"]",
    );
    let found = examined(&weighed, &[]);
    // 3600 of 3500 lb; 6000 of 4500 lb make 2700 lb of it by the other figures.
    assert!(rows(&found, Verdict::Unsure).contains(&"axle-1".to_string()), "{:?}", found.assessment.reasons);
    let contradicted =
        found.assessment.reasons.iter().any(|reason| matches!(reason, Reason::Contradicted { .. }));
    assert!(contradicted);
    let agreeing = weighed.replace("\"3600 lb\", \"2400 lb\"", "\"2300 lb\", \"2200 lb\"");
    assert!(examined(&agreeing, &[]).assessment.reasons.is_empty());
}
