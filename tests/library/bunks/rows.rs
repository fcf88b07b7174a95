//! What must hold of the rows about bunks, whatever is stated, moved or left out.

use crate::bunks::rigs::{PLAIN, inches, rig};
use bunkline::Rig;
use bunkline::fit::{self, Amount, Caution, Row, Verdict, assess, examine};
use proptest::prelude::*;

/// The plain rig with everything that its bunks' rows use, a key a line.
fn full() -> String {
    PLAIN
        .replace("board = \"4x10\"", "width = \"3 1/2 in\"\ndepth = \"9 1/4 in\"")
        .replace(
            "wood = \"southern-pine-2\"",
            "bending = \"900 psi\"\nshear = \"150 psi\"\nmodulus = \"1200000 psi\"",
        )
        .replace("[trailer]\n", "[trailer]\nkeel_height = \"23 3/4 in\"\n")
        .replace("rating = \"1000 lb\"", "section_modulus = \"2 in3\"\nyield = \"36 ksi\"")
        .replace("station = \"230 in\"", "station = \"230 in\"\nrating = \"1500 lb\"")
        .replace("station = \"270 in\"", "station = \"270 in\"\nrating = \"1500 lb\"")
}

fn rows(text: &str) -> Vec<Row> {
    let rig = Rig::read("full", text, &[] as &[&str]).expect("it reads");
    let about = |row: &Row| ["bunk-", "crossmember-", "clearance-"].iter().any(|of| row.id().starts_with(of));
    assess(&rig).expect("it rests").rows.into_iter().filter(about).collect()
}

/// Keys that something else stands in for, or that mean nothing when they are silent: their rows may change.
const STOOD_IN_FOR: [&str; 5] = ["rating", "support_from", "strakes", "lay", "spacer"];

#[test]
fn a_row_asks_for_what_it_uses_and_follows_nothing_else() {
    let text = full();
    let lines: Vec<&str> = text.lines().collect();
    let whole = rows(&text);
    assert!(whole.iter().all(|row| row.verdict != Verdict::NotChecked), "{whole:?}");
    let (mut section, mut tried) = ("", 0);
    for (i, line) in lines.iter().enumerate() {
        if line.starts_with('[') {
            section = line;
        }
        let Some((key, _)) = line.split_once(" = ") else { continue };
        let about = ["[boat.hull]", "[trailer.bunks]", "[[trailer.crossmembers]]", "[trailer.fenders]"];
        if !about.contains(&section) || STOOD_IN_FOR.contains(&key) {
            continue;
        }
        tried += 1;
        let without = [&lines[..i], &lines[i + 1..]].concat().join("\n");
        let found = rows(&without);
        for before in &whole {
            let after = found.iter().find(|row| row.id() == before.id()).expect("no row goes");
            let asks: Vec<String> = after.missing.iter().map(ToString::to_string).collect();
            if after.verdict == Verdict::NotChecked {
                let own = asks.iter().all(|path| path.split('.').any(|part| part == key));
                assert!(!asks.is_empty() && own, "{} without {section} {key} asks for {asks:?}", after.id());
            } else {
                let figures = |row: &Row| [row.load, row.min, row.max].map(|amount| amount.map(Amount::si));
                assert_eq!(figures(before), figures(after), "{} without {section} {key}", after.id());
            }
        }
    }
    assert!(tried > 25, "{tried}");
}

/// The plain rig, the last crossmember, at 295 in, higher than its keel.
fn high(shift: f64) -> Vec<Row> {
    let changes = [
        format!("shift.boat={shift} in"),
        "trailer.crossmembers.5.centre=25 in".to_string(),
        "trailer.crossmembers.5.top=26 in".to_string(),
    ];
    assess(&Rig::read("high", PLAIN, &changes).expect("it reads")).expect("it rests").rows
}

#[test]
fn a_crossmember_aft_of_the_transom_counts() {
    // 10 in forward the transom stands at 290 in. The keel came over 25 in on its way: 23.7650 − 25.
    let rows = high(-10.0);
    let row = rows.iter().find(|row| row.id() == "clearance-keel-5").expect("a row");
    assert_eq!(row.verdict, Verdict::Fail);
    assert!((row.load.unwrap().si() / 0.0254 + 1.2350).abs() < 5e-5);
    let changes =
        ["shift.boat=-10 in", "trailer.crossmembers.5.centre=25 in", "trailer.crossmembers.5.top=26 in"];
    let lowest = fit::lowest(rig(&changes).proposed()).unwrap().unwrap();
    // The propeller, at 17.7650 in and on the centreline too, needs more: 25 − 17.7650.
    assert!((inches(lowest.rise) - 7.2350).abs() < 5e-5);
}

#[test]
fn a_crossmember_ahead_of_the_bow_does_not_count() {
    // The bow eye lies at 60 in behind the ball.
    let ids = |station: &str| {
        let changes = [format!("trailer.crossmembers.1.station={station}")];
        let rig = Rig::read("ahead", PLAIN, &changes).expect("it reads");
        assess(&rig).expect("it rests").rows.iter().map(Row::id).collect::<Vec<_>>()
    };
    assert!(!ids("59 in").contains(&"clearance-keel-1".to_string()));
    assert!(ids("61 in").contains(&"clearance-keel-1".to_string()));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    /// Moving the boat takes no failing clearance of the keel away.
    #[test]
    fn no_failing_row_goes_as_the_boat_moves(shift in -60.0..200.0_f64) {
        let failing = |shift| {
            let rows = high(shift).into_iter().filter(|row| row.id().starts_with("clearance-keel"));
            rows.filter(|row| row.verdict == Verdict::Fail).map(|row| row.id()).collect::<Vec<_>>()
        };
        prop_assert_eq!(failing(0.0), ["clearance-keel-5"]);
        prop_assert_eq!(failing(shift), failing(0.0));
    }

    /// At the rise that is reported everything clears; at any lesser one something does not.
    #[test]
    fn the_lowest_boat_is_the_lowest(
        fender in (43.5..47.0_f64, 30.0..48.0_f64),
        beam in 80.0..100.0_f64,
        wanted in 0.0..3.0_f64,
        play in 0.0..1.0_f64,
    ) {
        let base = [
            format!("trailer.fenders.half_breadth={} in", fender.0),
            format!("trailer.fenders.height={} in", fender.1),
            format!("boat.beam={beam} in"),
            format!("policy.clearance={wanted} in"),
            format!("policy.side_play={play} in"),
        ];
        let at = |rise: f64| {
            let up = [format!("trailer.bunks.top+={rise} in")];
            Rig::read("plain", PLAIN, &[&base[..], &up].concat()).expect("it reads").proposed().clone()
        };
        let clears = |rise: f64| {
            let setup = at(rise);
            let keels = (0..5).map(|member| fit::keel_clearance(&setup, member).unwrap());
            let gear = fit::gear_clearance(&setup, 0).unwrap();
            let fender = fit::beside_fender(&setup).unwrap().least();
            let all = keels.chain([gear, fender]).all(|clear| inches(clear) >= wanted - 1e-7);
            let stands = (0..4).all(|member| inches(fit::packing(&setup, member).unwrap()) >= -1e-7);
            all && stands
        };
        let rise = inches(fit::lowest(&at(0.0)).unwrap().unwrap().rise);
        prop_assert!(clears(rise), "at {rise}");
        for step in 1..40 {
            let lower = rise - f64::from(step * step) * 0.005;
            prop_assert!(!clears(lower), "at {lower}, below {rise}");
        }
    }

    /// Each hole is on the board, or a caution says that it is not.
    #[test]
    fn a_hole_is_on_the_board_or_cautioned(
        forward in 140.0..152.0_f64,
        aft in 262.0..280.0_f64,
        spacing in 1.0..8.0_f64,
        height in 5.0..12.0_f64,
    ) {
        let changes = [
            format!("trailer.bunks.forward_end={forward} in"),
            format!("trailer.bunks.aft_end={aft} in"),
            format!("trailer.bunks.brackets.bolt_spacing={spacing} in"),
            format!("trailer.bunks.brackets.bolt_height={height} in"),
        ];
        let rig = Rig::read("holes", PLAIN, &changes).expect("it reads");
        let cautions = examine(&rig).expect("it rests").cautions;
        // The bracket's middles stand at the crossmembers that the bunks reach, their bolts half the spacing off.
        let reached = [150.0, 190.0, 230.0, 270.0].into_iter().filter(|at| forward <= *at && *at <= aft);
        let past = reached.map(|at| (forward - at + spacing / 2.0).max(at + spacing / 2.0 - aft));
        let past = past.fold(f64::NEG_INFINITY, f64::max);
        let told = cautions.iter().find_map(|caution| match caution {
            Caution::HolePastTheEnd { past, .. } => Some(inches(*past)),
            _ => None,
        });
        match told {
            Some(told) => prop_assert!((told - past).abs() < 1e-9, "{told} {past}"),
            None => prop_assert!(past < 1e-9, "{past}"),
        }
        // 9.25 − 3.5·0.324920 deep at the inner edge.
        let high = cautions.iter().any(|caution| matches!(caution, Caution::HolesTooHigh { .. }));
        prop_assert_eq!(high, height >= 9.25 - 3.5 * 18.0_f64.to_radians().tan());
    }
}
