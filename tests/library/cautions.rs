//! Cautions appear where they should, and not on the same rig without what causes them.

use crate::hand::RIG;
use bunkline::Rig;
use bunkline::fit::{Caution, examine};

/// Its case 2 is light on the tongue.
const AS_CHANGED: &str = include_str!("../../demo-data/survey-launch-as-changed.toml");
/// A rig on which every check passes.
const SKIFF: &str = include_str!("../../demo-data/fishing-skiff.toml");

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
    // 1.0435 of 3600 lb is 3757 lb, and of 3500 lb 3652 lb: less than the load.
    assert!(!cautions(&rig.replace("rating = \"4100 lb\"", "rating = \"3600 lb\""), &[]).iter().any(on_bump));
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
    // The boat's centre at 250 in: N = (6000 × 250 + 360 000) / 440 × 2 = 8454.5 lb, more than 8000.
    only_with(RIG, &["boat.weights.1.station=60 in"], has(Caution::LiftsTowVehicle(0)));
}

#[test]
fn what_every_report_begins_and_ends_with() {
    for text in [RIG, SKIFF] {
        let told = cautions(text, &[]);
        assert_eq!(told[..2], [Caution::Screening, Caution::PlacardsGovern]);
        assert_eq!(told.last(), Some(&Caution::StandClear));
    }
    let work = |caution: &Caution| *caution == Caution::QualifiedWork;
    // Something fails, or something is moved.
    only_with(SKIFF, &["trailer.gvwr=2000 lb"], work);
    only_with(SKIFF, &["shift.boat=0.25 in"], work);
}

#[test]
fn what_the_figures_leave_out() {
    let has = |text: &str, wanted: Caution| cautions(text, &[]).contains(&wanted);
    let (on_the_level, _) = RIG.split_once("[[ramps]]").expect("a ramp");
    assert!(has(on_the_level, Caution::LiftedIsNoBound) && !has(RIG, Caution::LiftedIsNoBound));
    assert!(!has(SKIFF, Caution::LiftedIsNoBound));
    // Where the file describes brakes, stops are computed.
    assert!(!has(RIG, Caution::BrakingNotInAxleLoads));
    assert!(has(SKIFF, Caution::BrakingNotInAxleLoads));
    let no_station = RIG.replace("station = \"24 in\"\n", "");
    assert!(has(&no_station, Caution::JackLowerBound) && !has(RIG, Caution::JackLowerBound));
}

#[test]
fn scales_that_say_otherwise() {
    // Gross 8000 lb, tongue 636.364 lb.
    let measured = |gross: &str| {
        RIG.replacen("[trailer]\n", &format!("[measured]\ngross_trailer_weight = \"{gross} lb\"\ntongue_weight = \"636.364 lb\"\n[trailer]\n"), 1)
    };
    let differ = |caution: &Caution| matches!(caution, Caution::ScalesDiffer { .. });
    assert!(!cautions(&measured("8000"), &[]).iter().any(differ));
    assert!(cautions(&measured("8010"), &[]).iter().any(differ));
    // The items weigh 8000 lb. It stands first where they differ by more than the ±, or than 1 % where none is stated.
    let first = |gross: &str| cautions(&measured(gross), &[]).iter().any(Caution::stands_first);
    for (gross, stands) in
        [("8010", false), ("8060", false), ("8100", true), ("8060 lb ± 40", true), ("8060 lb ± 70", false)]
    {
        assert_eq!(first(gross), stands, "{gross}");
    }

    // Without the item; its centre lies at 60 in or ahead where the tongue carries (6000 · 60 + 360 000)/220 less than
    // 8000 lb: 4727 lb.
    let (before, after) = RIG.split_once("[[boat.weights]]").expect("a weight");
    let (_, after) = after.split_once("[trailer]").expect("a trailer");
    let before = before.replacen("length = \"300 in\"\n", "cg_height = \"26 in\"\nlength = \"250 in\"\n", 1);
    let weighed = |tongue: &str| {
        format!(
            "{before}[measured]\ngross_trailer_weight = \"8000 lb\"\ntongue_weight = \"{tongue} lb\"\n[trailer]{after}"
        )
    };
    assert!(!cautions(&weighed("4700"), &[]).contains(&Caution::CentreOutsideBoat));
    assert!(cautions(&weighed("4760"), &[]).contains(&Caution::CentreOutsideBoat));
}

#[test]
fn what_happens_on_ramps() {
    // Its case 2 has a tongue weight of -25 lb over a head of 15 %.
    let lifts = |caution: &Caution| matches!(caution, Caution::LiftsOnRamp { ramp: 0, case: 1, .. });
    only_with(AS_CHANGED, &["ramps.1.profile.2.grade=15 %"], lifts);
    assert!(!cautions(RIG, &[]).iter().any(|caution| matches!(caution, Caution::LiftsOnRamp { .. })));
    // 300 − 636.4 · 50/140 = 72.7 lb on the level; its own weight takes 5100 · 27 · 0.12/140 = 118 lb off there.
    let tow_lifts = |caution: &Caution| matches!(caution, Caution::TowAxleLifts { ramp: 0, case: 0, .. });
    only_with(RIG, &["tow.front_axle_load=300 lb", "tow.rear_axle_load=4800 lb"], tow_lifts);
    let stranded = |caution: &Caution| matches!(caution, Caution::StrandedOnRamp { ramp: 0, case: 0, .. });
    only_with(RIG, &["ramps.1.profile.1.grade=100 %"], stranded);
    // From the front axle of the tow vehicle to the rear hub: 140 + 50 + 240 in, a little less along the slope.
    let short = |caution: &Caution| matches!(caution, Caution::ProfileTooShort { ramp: 0, .. });
    only_with(RIG, &["ramps.1.profile.1.length=415 in"], short);
    assert!(!cautions(RIG, &["ramps.1.profile.1.length=440 in"]).iter().any(short));
}

#[test]
fn what_happens_on_bunks() {
    let third = |station: &str| {
        let member = format!(
            "[[trailer.crossmembers]]\nstation = \"{station} in\"\ntop = \"24 in\"\ncentre = \"20 in\"\n"
        );
        RIG.replacen("[[trailer.crossmembers]]", &format!("{member}[[trailer.crossmembers]]"), 1)
    };
    let most = |caution: &Caution| matches!(caution, Caution::OneCrossmemberCarriesMost { .. });
    let pulls = |caution: &Caution| matches!(caution, Caution::BunkPullsUp { .. });
    // Of two one always does. Held 10 in ahead of the next, the bunk's span of 100 in levers it up there.
    assert!(!cautions(RIG, &[]).iter().any(most) && !cautions(RIG, &[]).iter().any(pulls));
    assert!(cautions(&third("179"), &[]).iter().any(pulls));
    assert!(cautions(&third("179"), &[]).iter().any(most));
    // It lifts off where nothing holds it down.
    assert!(!cautions(&third("179"), &["trailer.bunks.lift_off=true"]).iter().any(pulls));

    // 40 tan 18° = 12.997 in.
    let chine = |caution: &Caution| matches!(caution, Caution::ChineOffDeadrise(_));
    only_with(
        &RIG.replace("height = \"14 in\" }\nstrakes", "height = \"13.9 in\" }\nstrakes"),
        &["boat.hull.chine.height=14 in"],
        chine,
    );
    // The bunks give 34 − 30 tan 18° = 24.252 in.
    let keel = |caution: &Caution| matches!(caution, Caution::KeelOffBunks(_));
    only_with(RIG, &["trailer.keel_height=22 in"], keel);
    // The board's lower edge stands at 34 − 7.25 = 26.75 in.
    let through = |caution: &Caution| matches!(caution, Caution::BunkThroughCrossmember { member: 0, .. });
    only_with(RIG, &["trailer.crossmembers.1.top=27 in"], through);
    let uneven = |caution: &Caution| matches!(caution, Caution::UnevenBunks { .. });
    let apart = RIG.replace("half_spacing = \"30 in\"", "port = \"30 in\"\nstarboard = \"30.25 in\"");
    assert!(cautions(&apart, &[]).iter().any(uneven) && !cautions(RIG, &[]).iter().any(uneven));

    let beyond = |caution: &Caution| *caution == Caution::BeyondLumberTables;
    let graded = RIG.replace(
        "board = \"4x8\"\nbending = \"900 psi\"\nshear = \"110 psi\"\nmodulus = \"1200000 psi\"",
        "width = \"3.5 in\"\ndepth = \"7.25 in\"\nwood = \"southern-pine-2\"",
    );
    let graded = graded.replace("bearing = \"420 psi\"\n", "");
    only_with(&graded, &["trailer.bunks.width=5.5 in", "trailer.bunks.depth=7.5 in"], beyond);
}
