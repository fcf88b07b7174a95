//! The frame of whole rigs: rails that balance, tongues that are drawn in, wood over brackets, a jack under free axles.

use crate::registry::{BUNKS, full_rigs};
use bunkline::Rig;
use bunkline::fit::{Assessment, Caution, Row, Verdict, assess, examine};
use bunkline::quantity::{Quantity, unit};
use proptest::prelude::*;

fn assessed(text: &str, changes: &[&str]) -> Assessment {
    let rig = Rig::read("rig.toml", text, changes).unwrap_or_else(|problems| panic!("{problems}"));
    assess(&rig).expect("a trailer at rest")
}

fn row<'a>(found: &'a Assessment, id: &str) -> &'a Row {
    found.check(id).unwrap_or_else(|| panic!("no row {id}"))
}

fn load(found: &Assessment, id: &str) -> f64 {
    row(found, id).load.unwrap_or_else(|| panic!("{id}: {:?}", row(found, id).missing)).si()
}

/// Whether the rails balance in every case: what they leave at the tail is no more than 1e-9 of W x̄.
fn balance(found: &Assessment, mean: f64) {
    for (case, frame) in found.cases.iter().zip(&found.frames) {
        let rails = frame.rails.as_ref().unwrap_or_else(|missing| panic!("no rails: {missing:?}"));
        let whole = case.gross.clone().expect("a weight").si() * mean;
        assert!(rails.left.si().abs() <= 1e-9 * whole, "{} of {whole} is left", rails.left.si());
        // In a stop as well, wherever the trailer comes to rest on its wheels in it: nothing else keeps it from being known.
        if found.brakes.first().is_some_and(|brakes| brakes.stop.is_ok()) {
            let stop = rails.stop.as_ref().unwrap_or_else(|missing| panic!("no rails: {missing:?}"));
            assert!(stop.left.si().abs() <= 1e-9 * whole, "{} of {whole} is left", stop.left.si());
        }
    }
}

#[test]
fn the_rails_of_every_demo_and_every_way_to_say_a_rig_balance() {
    for text in full_rigs() {
        let text = text + BUNKS;
        for kind in ["leaf-equalized", "leaf-separate", "torsion"] {
            // The second ball is off level: the frame pitches.
            for ball in ["20 in", "23 in", "16.5 in"] {
                let text = text.replace("kind = \"leaf-equalized\"", &format!("kind = \"{kind}\""));
                let changes = [&*format!("tow.ball_height={ball}"), "shift.boat=2 in", "shift.tongue=3 in"];
                let found = assessed(&text, &changes);
                balance(&found, 204.0 * unit::INCH);
            }
        }
    }
    for (name, text) in demos() {
        let found = assessed(&text, &["trailer.length=32 ft", "trailer.rails.section_modulus=9 in3"]);
        let rig = Rig::read("rig.toml", &text, &[] as &[&str]).expect("a rig");
        let axles = &rig.proposed().trailer.axles;
        let mean =
            axles.iter().filter_map(|axle| axle.station).map(bunkline::quantity::Quantity::si).sum::<f64>()
                / axles.len() as f64;
        let bears = found.bunks.iter().all(|on| matches!(on.bunk, Ok(Some(_))));
        if bears && !found.bunks.is_empty() {
            balance(&found, mean);
            assert_ne!(row(&found, "rail-bending").verdict, Verdict::NotChecked, "{name}");
        }
    }
}

fn demos() -> Vec<(String, String)> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/demo-data");
    let entries = std::fs::read_dir(folder).expect("the folder").map(|entry| entry.expect("an entry").path());
    let rigs = entries.filter(|path| path.extension().is_some_and(|end| end == "toml"));
    rigs.map(|path| (path.display().to_string(), std::fs::read_to_string(&path).expect("a file"))).collect()
}

proptest! {
    /// Wherever boat, axles, crossmembers and ball are.
    #[test]
    fn rails_balance_on_any_rig(
        boat in -10.0..10.0,
        apart in 26.5..50.0,
        ball in 14.0..26.0,
        member in 150.0..200.0,
        weight in 2000.0..7000.0,
        travel in 0.1..3.0,
        kind in prop::sample::select(vec!["leaf-equalized", "leaf-separate", "torsion"]),
    ) {
        let rig = full_rigs().swap_remove(0) + BUNKS;
        let rig = rig
            .replace("station = \"224 in\"", &format!("station = \"{} in\"", 190.0 + apart))
            .replace("station = \"160 in\"", &format!("station = \"{member} in\""))
            .replace("weight = \"4500 lb\"", &format!("weight = \"{weight} lb\""))
            .replace("equalizer_travel = \"1.5 in\"", &format!("equalizer_travel = \"{travel} in\""))
            .replace("kind = \"leaf-equalized\"", &format!("kind = \"{kind}\""));
        let changes = [format!("shift.boat={boat} in"), format!("tow.ball_height={ball} in")];
        let rig = Rig::read("rig.toml", &rig, &changes).expect("a rig");
        let Ok(found) = assess(&rig) else { return Ok(()) };
        if found.bunks.iter().all(|on| matches!(on.bunk, Ok(Some(_)))) {
            balance(&found, (190.0 + apart / 2.0) * unit::INCH);
        }
    }
}

#[test]
fn bars_bend_the_rails_ahead_of_the_springs_by_their_moment_and_less_toward_the_axles() {
    // The boat so far forward that the rails sag most on the foremost crossmember, at 160 in.
    let text = full_rigs()[0].clone() + BUNKS;
    let rails = |moment: &str| {
        let bars = format!("hitch.weight_distribution.moment={moment}");
        assessed(&text, &["shift.boat=-30 in", &bars]).frames[0].rails.clone().expect("rails")
    };
    let (off, on) = (rails("0 lb in"), rails("60000 lb in"));
    let inch_pounds = |moment: bunkline::quantity::Moment| moment.si() / (unit::POUND * unit::INCH);
    // M_w (1 − x / x̄) more there, the axles at 190 and 224 in. The frame pitches so far forward that this is off by a five
    // thousandth.
    let more = 60_000.0 * (1.0 - 160.0 / 207.0);
    assert!((inch_pounds(on.moment) - inch_pounds(off.moment) - more).abs() < 1e-3 * more);
    assert!(on.with_bars && !off.with_bars && (on.station.si() / unit::INCH - 160.0).abs() < 1e-9);
    // With the boat where it was they hog most between the axles, where bars lift none of it: then those off count.
    let hog = |change: &str| assessed(&text, &[change]).frames[0].rails.clone().expect("rails");
    let plain = hog("hitch.weight_distribution.moment=0 lb in");
    let with = hog("hitch.weight_distribution.moment=60000 lb in");
    assert!(!with.with_bars && with.moment == plain.moment);
    let (one, other) = (plain.stress.expect("a stress").si(), with.stress.expect("a stress").si());
    assert!((one - other).abs() < 1e-9 * one, "{one} and {other}");
}

#[test]
fn a_stop_bends_rails_beside_what_is_judged() {
    let text = full_rigs()[0].clone() + BUNKS;
    let found = assessed(&text, &[]);
    let rails = found.frames[0].rails.as_ref().expect("rails");
    let stop = rails.stop.as_ref().expect("a stop");
    // Ahead of the springs a stop adds what the tongue gains there, less the boat's inertia where she lies: both sag more, and the
    // row compares what stands at rest.
    assert!(stop.moment.si() > 0.0 && rails.moment.si() < 0.0, "{stop:?}");
    let compared = load(&found, "rail-bending");
    assert!((compared - rails.stress.clone().expect("a stress").si()).abs() < 1e-6 * compared);
    // At the foremost crossmember, ahead of all couples but the trailer's own: V x − w (x − from)²/2, V that of the stop.

    let in_stop = &found.brakes[0].stop.as_ref().expect("a stop").trailer.stance;
    let in_stop = in_stop.tongue_weight.si() / unit::POUND;
    // 1,500 lb at 186.3 in (150 lb on the tongue of 207 (1 − 0.1)), from the nearer end: 300 − 186.3 to either side.
    let centre = 207.0 * 0.9;
    let reach: f64 = 300.0 - centre;
    let from = centre - reach;
    let own = 1500.0 / (2.0 * reach) * (160.0 - from).powi(2) / 2.0;
    let by_hand = 160.0 * in_stop - own;
    let moment = stop.moment.si() / (unit::POUND * unit::INCH);
    assert!((stop.station.si() / unit::INCH - 160.0).abs() < 1e-9);
    // The frame pitches by a third of a degree while it slows: what leans along it is left out by hand.
    assert!((moment - by_hand).abs() < 1e-2 * moment, "{moment}, by hand {by_hand}");

    // Where the brakes are not known the row stands all the same.
    let silent = assessed(&text.replace("bore = \"1 in\"\n", ""), &[]);
    let without = silent.frames[0].rails.clone().expect("rails");
    assert_eq!((without.moment, without.station), (rails.moment, rails.station));
    let missing = without.stop.expect_err("no stop");
    assert!(missing.0.iter().any(|key| key.to_string() == "trailer.brakes.bore"), "{missing:?}");
}

#[test]
fn rails_go_by_the_springs_where_axles_were_weighed_apart() {
    let text = full_rigs()[0].clone() + BUNKS;
    let weighed = text.replace(
        "[policy]",
        "[measured]\ngross_trailer_weight = \"6180 lb\"\naxles = [\"3200 lb\", \"2400 lb\"]\n[policy]",
    );
    let (plain, weighed) = (assessed(&text, &[]), assessed(&weighed, &[]));
    assert!((load(&plain, "rail-bending") - load(&weighed, "rail-bending")).abs() < 1e-3);
    assert!((load(&plain, "axle-1") - load(&weighed, "axle-1")).abs() > 1.0);
}

#[test]
fn rails_under_a_boat_that_tips_off_its_bunks_are_not_checked_and_that_is_told() {
    let text = full_rigs()[0].clone() + BUNKS;
    let tips = ["shift.bunks=-120 in"];
    assert_eq!(row(&assessed(&text, &tips), "rail-bending").verdict, Verdict::NotChecked);
    assert!(cautions(&text, &tips).contains(&Caution::RailsOutOfBalance));
    assert!(!cautions(&text, &[]).contains(&Caution::RailsOutOfBalance));
}

fn cautions(text: &str, changes: &[&str]) -> Vec<Caution> {
    let rig = Rig::read("rig.toml", text, changes).unwrap_or_else(|problems| panic!("{problems}"));
    examine(&rig).expect("a trailer at rest").cautions
}

#[test]
fn clamps_that_come_nearer_by_more_than_a_fifth_are_named() {
    let nearer = |clamps: &str| {
        let change = format!("trailer.tongue.clamps={clamps}");
        cautions(&full_rigs()[0], &[&change]).contains(&Caution::ClampsNearer)
    };
    // They stand 30 in apart.
    assert_eq!([nearer("24.1 in"), nearer("23.9 in"), nearer("40 in")], [false, true, false]);
}

#[test]
fn bars_that_distribute_weight_bend_the_tongue_more() {
    let text = &full_rigs()[0];
    let with_bars = assessed(text, &["hitch.weight_distribution.moment=9000 lb in"]);
    let plain = assessed(text, &["hitch.weight_distribution.moment=0 lb in"]);
    let rig = Rig::read("rig.toml", text, &[] as &[&str]).unwrap_or_else(|problems| panic!("{problems}"));
    let stations = rig.proposed().trailer.axles.iter().map(|axle| axle.station.expect("a station").si());
    let mean = stations.sum::<f64>() / rig.proposed().trailer.axles.len() as f64 / unit::INCH;
    // 9000 (1 − 90/x̄) lb in over 9 in³.
    let psi = unit::POUND / (unit::INCH * unit::INCH);
    let more = (load(&with_bars, "tongue-bending") - load(&plain, "tongue-bending")) / psi;
    assert!((more - 1000.0 * (1.0 - 90.0 / mean)).abs() < 1e-6, "{more}");
}

#[test]
fn a_tongue_drawn_in_bends_less_and_a_weld_softens_aluminium_alone() {
    let text = &full_rigs()[0];
    let found = assessed(text, &[]);
    let v = found.cases[0].tongue.clone().expect("a tongue").si();
    let section = 9.0 * unit::INCH.powi(3);
    assert!((load(&found, "tongue-bending") - v * 90.0 * unit::INCH / section).abs() < 1e-6);
    let drawn_in = assessed(text, &["shift.tongue=2 in"]);
    let v = drawn_in.cases[0].tongue.clone().expect("a tongue").si();
    assert!((load(&drawn_in, "tongue-bending") - v * 88.0 * unit::INCH / section).abs() < 1e-6);
    let ksi = 1000.0 * unit::POUND / (unit::INCH * unit::INCH);
    let limits = |changes: &[&str]| {
        let found = assessed(text, changes);
        let row = row(&found, "tongue-bending");
        [row.max, row.fails_above].map(|limit| limit.map(|limit| (limit.si() / ksi * 1e6).round() / 1e6))
    };
    let round = |ksi: f64| Some((ksi * 1e6).round() / 1e6);
    assert_eq!(limits(&[]), [round(30.0 / 3.3), round(30.0 / 1.67)]);
    assert_eq!(limits(&["trailer.tongue.weld=true"]), [round(15.0 / 3.3), round(15.0 / 1.67)]);
    assert_eq!(
        limits(&["trailer.tongue.weld=true", "trailer.material=steel"]),
        [round(30.0 / 3.3), round(30.0 / 1.67)]
    );
    // What is assumed of the metal only advises.
    let silent = text.replacen("yield = \"30 ksi\"\n", "", 1);
    let found = assessed(&silent, &[]);
    let row = row(&found, "tongue-bending");
    assert_eq!(
        (row.max.map(|max| (max.si() / ksi * 1e6).round() / 1e6), row.fails_above),
        (round(35.0 / 3.3), None)
    );
    let steel = assessed(&silent, &["trailer.material=steel"]);
    let max = steel.check("tongue-bending").and_then(|row| row.max).map(|max| max.si() / ksi);
    assert!(max.is_some_and(|max| (max - 36.0 / 3.3).abs() < 1e-9), "{max:?}");
}

#[test]
fn rows_of_the_frame_are_there_only_where_the_file_has_what_they_are_about() {
    let text = full_rigs()[0].clone() + BUNKS;
    let without = |starts: &[&str]| {
        let stays = |line: &&str| !starts.iter().any(|start| line.starts_with(start));
        text.lines().filter(stays).collect::<Vec<_>>().join("\n")
    };
    let ids = |text: &str| {
        let new =
            ["tongue-bending", "tongue-clamp", "rail-bending", "bunk-bearing", "bunk-packing", "bunk-foot"];
        let found = assessed(text, &[]);
        new.into_iter().filter(|id| found.check(id).is_some()).collect::<Vec<_>>()
    };
    assert_eq!(ids(&text).len(), 6);
    let clamped = without(&["section_modulus = \"9", "yield = \"30", "weld"]);
    assert_eq!(ids(&clamped), ["tongue-clamp", "bunk-bearing", "bunk-packing", "bunk-foot"]);
    let none = without(&[
        "section_modulus = \"9",
        "yield = \"30",
        "weld",
        "held_from",
        "clamp",
        "packing_error",
        "brackets.bearing",
        "brackets.foot",
    ]);
    assert_eq!(ids(&none), [] as [&str; 0]);
}

#[test]
fn a_jack_under_free_axles_carries_more_than_the_lever_says() {
    let text = full_rigs()[0].replace("kind = \"leaf-equalized\"", "kind = \"torsion\"");
    let found = assessed(&text, &[]);
    let v = found.cases[0].tongue.clone().expect("a tongue").si();
    let lever = v * 207.0 / (207.0 - 24.0);
    let jack = load(&found, "jack");
    assert!(jack > lever, "{jack} {lever}");
    // Held at the ball, 4 in up: the same as coupled to a ball 4 in higher, the jack being there.
    let at_ball = load(&assessed(&text, &["trailer.jack.station=0 in"]), "jack");
    let raised = assessed(&text, &["tow.ball_height=24 in"]).cases[0].tongue.clone().expect("a tongue").si();
    assert!((at_ball - raised).abs() < 1e-8 * raised, "{at_ball} {raised}");
    let equalized = assessed(&full_rigs()[0], &[]);
    let v = equalized.cases[0].tongue.clone().expect("a tongue").si();
    assert!((load(&equalized, "jack") - v * 207.0 / 183.0).abs() < 1e-9 * v);
}
