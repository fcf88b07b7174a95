//! Cautions appear where they should, and not on the same rig without what causes them.

use crate::hand::RIG;
use bunkline::Rig;
use bunkline::fit::{Caution, examine};

fn cautions(text: &str, changes: &[&str]) -> Vec<Caution> {
    let rig =
        Rig::read("rig.toml", text, changes).unwrap_or_else(|problems| panic!("{changes:?}: {problems}"));
    examine(&rig).expect("a trailer at rest").cautions
}

/// Asserts that the caution is there with the changes, and is not there without them.
fn only_with(text: &str, changes: &[&str], is: impl Fn(&Caution) -> bool) {
    assert!(!cautions(text, &[]).iter().any(&is), "without {changes:?}");
    assert!(cautions(text, changes).iter().any(&is), "with {changes:?}");
}

#[test]
fn a_proposal_beyond_its_travel_is_named_at_both_ends() {
    let text = format!("{RIG}[travel]\nboat = [\"-2 in\", \"3 in\"]\naxles = [\"-1 in\", \"1 in\"]\n");
    let beyond = |of: &'static str| move |caution: &Caution| matches!(caution, Caution::BeyondTravel { part, .. } if *part == of);
    only_with(&text, &["shift.boat=-2.1 in"], beyond("boat"));
    only_with(&text, &["shift.boat=3.1 in"], beyond("boat"));
    only_with(&text, &["shift.axles=1.1 in"], beyond("axles"));
    assert!(!cautions(&text, &["shift.boat=3 in"]).iter().any(beyond("boat")));
}

#[test]
fn a_side_lifts_once_the_other_carries_more_than_all() {
    // y = 6000 × side / 7363.636 lb; the lighter side lifts where y exceeds half the track, 40 in: side 49.09 in.
    let lifts = |caution: &Caution| matches!(caution, Caution::SideLifts(0));
    only_with(RIG, &["boat.weights.1.side=49.2 in"], lifts);
    assert!(!cautions(RIG, &["boat.weights.1.side=49 in"]).iter().any(lifts));
}

#[test]
fn springs_on_their_stops_and_equalizers_at_theirs() {
    // Each spring of 4100 lb at 0.00023 in carries 3681.8 lb, 0.898 of its rating.
    let on_bump = |caution: &Caution| matches!(caution, Caution::OnBump { axle: 0, case: 0 });
    let rig = RIG.replace("bump = \"3 in\"", "bump = \"0.00024 in\"");
    assert!(!cautions(&rig, &[]).iter().any(on_bump));
    // 1.0435 of 3500 lb is 3652 lb: less than the load.
    assert!(cautions(&rig.replace("rating = \"4100 lb\"", "rating = \"3500 lb\""), &[]).iter().any(on_bump));
    // The ball 1.5 in high pitches the frame by 1.5/220, which asks 40 × 1.5/220 = 0.27 in of the equalizer.
    let stopped = |caution: &Caution| matches!(caution, Caution::EqualizerAtStop { case: 0 });
    let rig = RIG.replace("equalizer_travel = \"9 in\"", "equalizer_travel = \"0.1 in\"");
    only_with(&rig, &["tow.ball_height=21.5 in"], stopped);
}

#[test]
fn what_follows_from_the_description() {
    let has = |wanted: Caution| move |caution: &Caution| *caution == wanted;
    only_with(RIG, &["trailer.axles.1.tires.kind=passenger"], has(Caution::PassengerTires));
    only_with(RIG, &["trailer.suspension.kind=torsion"], has(Caution::IdleEqualizerTravel));
    only_with(RIG, &["shift.axles=1 in"], has(Caution::AxleWeightStays));
    only_with(RIG, &["policy.counts=[\"axel-1\"]"], |caution| {
        matches!(caution, Caution::MatchesNoCheck { .. })
    });
    // The boat's centre at 250 in: N = (6000 × 250 + 360 000) / 440 × 2 = 8454.5 lb, more than 8000.
    only_with(RIG, &["boat.weights.1.station=60 in"], has(Caution::LiftsTowVehicle(0)));
}
