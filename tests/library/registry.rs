//! The registry of checks: complete, in the order of reports, and never asking for a key that the file
//! cannot hold.

use crate::cases::cases;
use bunkline::Rig;
use bunkline::fit::{
    Assessment, Core, Judge, Row, ToldBy, Usually, Verdict, assess, checks, find, unknown_patterns,
};
use bunkline::report::document::Block;
use bunkline::report::explain::{explain, list};
use bunkline::report::text;
use bunkline::rig::{Fault, INPUTS, Key};
use proptest::prelude::*;
use proptest::sample::Index;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::LazyLock;
use unicode_width::UnicodeWidthStr;

/// Every check's id in the order of reports.
const IDS: &[&str] = &[
    "tongue-share",
    "tongue-uplift",
    "trailer-gvwr",
    "axle-*",
    "spring-*",
    "tire-*",
    "wheel-*",
    "axle-tires-*",
    "side-lift",
    "lifted-axle-*",
    "lifted-tire-*",
    "lifted-tongue",
    "rail-bending",
    "lifted-tires-total",
    "tire-pressure-*",
    "tire-speed-*",
    "tire-age-*",
    "tire-fender-*",
    "axle-spacing-*",
    "tire-construction",
    "cross-slope-tire-*",
    "curve-tip",
    "wind-tip",
    "overall-length",
    "overall-width",
    "overall-height",
    "rear-projection",
    "coupler",
    "coupler-tongue",
    "drawbar-tongue",
    "receiver",
    "receiver-tongue",
    "ball-mount",
    "ball-mount-tongue",
    "ball",
    "ball-tongue",
    "ball-size",
    "shank-size",
    "safety-chains",
    "jack",
    "tongue-bending",
    "tongue-clamp",
    "coupling-d",
    "coupling-dc",
    "coupling-v",
    "nose-least",
    "nose-greatest",
    "tow-rating",
    "tow-tongue",
    "tow-gvwr",
    "tow-gcwr",
    "tow-front-axle",
    "tow-rear-axle",
    "tow-front-share",
    "tow-front-loss",
    "ramp-rest",
    "ramp-axle-*",
    "ramp-tire-*",
    "ramp-tongue",
    "ramp-traction-drive",
    "ramp-traction-steady",
    "ramp-traction-parked",
    "ramp-clearance-*",
    "ramp-bow-clearance",
    "bow-stop-height",
    "bunk-transom-support",
    "bunk-contact",
    "bunk-pressure",
    "bunk-bending",
    "bunk-bending-vertical",
    "bunk-shear",
    "bunk-shear-vertical",
    "bunk-bevel",
    "bunk-deflection",
    "bunk-bracket",
    "bunk-bearing",
    "bunk-packing",
    "bunk-foot",
    "bunk-landing",
    "crossmember-*",
    "clearance-keel-*",
    "clearance-fender",
    "clearance-gear-*",
    "brakes-required",
    "brake-actuator",
    "brake-actuator-tongue",
    "surge-ratio",
    "brake-stroke",
    "brake-stop",
    "brake-axle-*",
    "brake-grip-*",
    "brake-bend",
    "brake-descent",
    "brake-heat-lining",
    "brake-heat-fluid",
    "winch-pull",
    "winch-strap",
    "winch-strap-breaking",
    "bow-eye",
    "winch-post",
    "winch-drum",
    "winch-hand",
    "winch-battery",
    "tie-down-forward",
    "tie-down-rearward",
    "tie-down-side",
    "tie-down-forward-breaking",
    "tie-down-rearward-breaking",
    "tie-down-side-breaking",
    "tie-down-down",
    "tie-down-total",
    "tie-down-number",
    "launch-ramp-end",
    "launch-tongue",
    "launch-support",
    "launch-strap",
    "launch-tow-tire",
    "launch-tailpipe",
    "launch-guides",
    "launch-clearance-*",
    "launch-home",
    "launch-heel",
];

/// What a rig is incomplete without.
const CORE: &[&str] =
    &["tongue-share", "trailer-gvwr", "axle-*", "tire-*", "wheel-*", "coupler", "brakes-required"];

/// The same where the file describes a hitch or a tow vehicle.
const CORE_COUPLED: &[&str] =
    &["receiver", "ball-mount", "ball", "ball-size", "tow-rating", "tow-gvwr", "tow-rear-axle"];

/// Past their limits the owner is advised.
const ADVISING: &[&str] = &[
    "axle-tires-*",
    "lifted-tongue",
    "lifted-tires-total",
    "tire-speed-*",
    "tire-age-*",
    "tire-fender-*",
    "axle-spacing-*",
    "tire-construction",
    "cross-slope-tire-*",
    "curve-tip",
    "wind-tip",
    "overall-length",
    "overall-width",
    "overall-height",
    "rear-projection",
    "nose-least",
    "nose-greatest",
    "tow-front-share",
    "tow-front-loss",
    "ramp-tongue",
    "ramp-traction-drive",
    "bow-stop-height",
    "bunk-pressure",
    "bunk-bending",
    "bunk-shear",
    "bunk-deflection",
    "bunk-bracket",
    "bunk-packing",
    "bunk-foot",
    "bunk-landing",
    "surge-ratio",
    "brake-axle-*",
    "brake-grip-*",
    "brake-bend",
    "brake-descent",
    "brake-heat-lining",
    "brake-heat-fluid",
    "winch-strap-breaking",
    "winch-hand",
    "winch-battery",
    "tie-down-forward",
    "tie-down-rearward",
    "tie-down-side",
    "tie-down-forward-breaking",
    "tie-down-rearward-breaking",
    "tie-down-side-breaking",
    "tie-down-down",
    "tie-down-total",
    "tie-down-number",
    "launch-tongue",
    "launch-support",
    "launch-strap",
    "launch-tow-tire",
    "launch-tailpipe",
    "launch-guides",
    "launch-home",
    "launch-heel",
];

/// Past their limits the owner is advised; where the file states what else is assumed, the rig fails.
const FAILING_WHERE_STATED: &[&str] = &[
    "rail-bending",
    "tongue-bending",
    "ramp-traction-steady",
    "ramp-traction-parked",
    "winch-pull",
    "winch-strap",
];

/// Past their limits the owner is advised; past others the rig fails.
const ADVISING_THEN_FAILING: &[&str] = &[
    "tongue-share",
    "tire-pressure-*",
    "safety-chains",
    "tongue-clamp",
    "ramp-axle-*",
    "ramp-tire-*",
    "ramp-clearance-*",
    "ramp-bow-clearance",
    "bunk-transom-support",
    "bunk-contact",
    "clearance-keel-*",
    "clearance-fender",
    "clearance-gear-*",
    "brakes-required",
    "brake-stroke",
    "brake-stop",
    "launch-ramp-end",
    "launch-clearance-*",
];

#[test]
fn every_check_stands_in_the_registry_once_in_the_order_of_reports() {
    let ids: Vec<&str> = checks().map(|check| check.id).collect();
    assert_eq!(ids, IDS);
    let names: BTreeSet<&str> = checks().map(|check| check.name).collect();
    assert_eq!(names.len(), checks().count(), "two checks share a name");
}

#[test]
fn core_checks_and_those_that_only_advise_are_the_agreed_ones() {
    let with = |test: &dyn Fn(&bunkline::fit::Check) -> bool| -> Vec<&str> {
        checks().filter(|check| test(check)).map(|check| check.id).collect()
    };
    assert_eq!(with(&|check| check.core == Core::Always), CORE);
    assert_eq!(with(&|check| check.core == Core::Coupled), CORE_COUPLED);
    assert_eq!(with(&|check| check.usually() == Usually::Advises), ADVISING);
    assert_eq!(with(&|check| check.usually() == Usually::FailsWhereStated), FAILING_WHERE_STATED);
    assert_eq!(with(&|check| check.usually() == Usually::AdvisesThenFails), ADVISING_THEN_FAILING);
    assert_eq!(with(&|check| check.is_about_ramps()), with(&|check| check.id.starts_with("ramp-")));
    let lifted = ["lifted-axle-*", "lifted-tire-*"];
    assert_eq!(with(&|check| check.usually() == Usually::FailsFromThreeAxles), lifted);
}

#[test]
fn the_longer_pattern_of_a_policy_decides() {
    let counts = |policy: &str| -> Vec<bool> {
        let text = format!("{}{policy}", full_rigs()[0]);
        let found = assessed(&text, &[]).expect("a rig");
        ["tire-1", "tire-2", "lifted-tire-1", "axle-tires-1"]
            .iter()
            .map(|id| row(&found, id).counts)
            .collect()
    };
    assert_eq!(counts(""), [true, true, true, false]);
    assert_eq!(counts("advises = [\"tire-*\"]"), [false, false, true, false]);
    assert_eq!(counts("advises = [\"*\"]\ncounts = [\"tire-*\"]"), [true, true, false, false]);
    assert_eq!(counts("counts = [\"*\"]\nadvises = [\"lifted-*\"]"), [true, true, false, true]);
    assert_eq!(counts("counts = [\"lifted-*\"]\nadvises = [\"lifted-tire-*\"]"), [true, true, false, false]);
    // An id says more than a prefix of it, star or no star.
    assert_eq!(counts("advises = [\"tire-*\"]\ncounts = [\"tire-1\"]"), [true, false, true, false]);
    assert_eq!(counts("counts = [\"tire-*\"]\nadvises = [\"tire-1\"]"), [false, true, true, false]);
    assert_eq!(counts("advises = [\"tire-1*\"]\ncounts = [\"tire-1\"]"), [true, true, true, false]);
}

#[test]
fn every_entry_says_all_it_must() {
    for check in checks() {
        let id = check.id;
        let basis = check.basis;
        for (part, text) in [
            ("name", check.name),
            ("what", check.what),
            ("formula", check.formula),
            ("limit", basis.limit),
            ("source", basis.source),
            ("measuring", check.measuring),
            ("cures", check.cures),
        ] {
            assert!(!text.trim().is_empty(), "{id} has no {part}");
            assert_eq!(text, text.trim(), "{id} has spaces around its {part}");
        }
        // Traction and clearance depend on the ramp: no rating, size or move of the boat is sure to cure them.
        let by_ramp = ["ramp-traction", "ramp-clearance", "ramp-rest"].iter().any(|of| id.starts_with(of));
        // What lies to one side is not the boat's place along the trailer.
        let by_side = id == "side-lift";
        // Nor is what only advises about bunks: the report of the bunks tells what would suit.
        let by_board =
            ["bunk-deflection", "bunk-landing", "bunk-packing", "bunk-foot", "brakes-required"].contains(&id);
        // Brakes are set up by a qualified person, and a descent is taken another way.
        let by_brakes =
            ["surge-ratio", "brake-axle", "brake-grip", "brake-bend", "brake-descent", "brake-heat"]
                .iter()
                .any(|of| id.starts_with(of));
        // Backing in deeper, other straps and other anchors are no rating.
        let by_strap = id == "winch-hand" || id.starts_with("tie-down-");
        // Another ramp, another water level and other hands at it are no rating either.
        let by_water = id.starts_with("launch-");
        // Nor is what a slower drive or other tires cure.
        let of_tires = ["tire-speed", "tire-age", "tire-fender", "axle-spacing", "tire-construction"];
        let of_roll = ["cross-slope-tire", "curve-tip", "wind-tip"];
        // What the law allows is no rating; only what hangs out astern moves with the boat.
        let of_size = ["overall-width", "overall-height"];
        let by_hand = of_tires.iter().chain(&of_size).chain(&of_roll).any(|of| id.starts_with(of));
        assert_eq!(
            check.remedies.is_empty(),
            by_ramp || by_board || by_side || by_brakes || by_strap || by_water || by_hand,
            "{id}: what can be computed to cure it"
        );
        let (over, under) = match check.judge {
            Judge::Rating | Judge::Ceiling => (true, false),
            Judge::Floor => (false, true),
            Judge::SignedRating | Judge::FlooredRating | Judge::Band | Judge::Between | Judge::Size => {
                (true, true)
            }
        };
        assert_eq!(!check.too_much.is_empty(), over, "{id}: what is said over its limit");
        assert_eq!(!check.too_little.is_empty(), under, "{id}: what is said under its limit");
        for text in [check.too_much, check.too_little].into_iter().filter(|text| !text.is_empty()) {
            let says = text.contains("{load}") || text.contains("{miss}") || id == "ramp-rest";
            assert!(says, "{id} does not say how much");
            let known =
                text.replace("{load}", "").replace("{min}", "").replace("{max}", "").replace("{miss}", "");
            assert!(!known.contains(['{', '}']), "{id} has an unknown mark in `{text}`");
        }
        let numbered = check.rows.told_by != ToldBy::Nothing;
        for (part, text) in [("id", check.id), ("name", check.name), ("what", check.what)] {
            assert_eq!(text.contains('*'), numbered, "{id}: what it is about in its {part}");
        }
    }
}

#[test]
fn every_check_is_explained() {
    for check in checks() {
        // With a number, with `i`, with the star itself, and as a list names it.
        for axle in ["1", "6", "i", "*", "NAME"] {
            let id = check.id.replace('*', axle);
            assert_eq!(find(&id), Some(check), "{id}");
        }
        let text = text::render(&explain(check, check.id, checks()), text::WIDTH, false);
        let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
        for part in [check.formula, check.basis.limit, check.basis.source, check.measuring, check.cures] {
            assert!(flat.contains(part), "{} does not explain `{part}`:\n{text}", check.id);
        }
        assert!(text.lines().all(|line| line.width() <= 80), "{text}");
        // Short enough to be read at once; the row about the whole rig's stop teaches most owners something new.
        let most = if check.id == "brake-stop" { 10 } else { 14 };
        assert!(text.lines().count() <= most, "more than {most} lines:\n{text}");
    }
    let list = list(checks(), &INPUTS);
    let facts = list.blocks().iter().filter_map(|block| match block {
        Block::Facts(facts) => Some(facts),
        _ => None,
    });
    let mut listed: Vec<String> = facts.flatten().map(|(id, _)| id.plain()).collect();
    let keys = listed.split_off(IDS.len());
    assert_eq!(keys, INPUTS.iter().map(|input| input.path.replace('*', "i")).collect::<Vec<_>>());
    let general = |id: &&str| {
        id.replace(
            '*',
            if ["clearance-gear", "ramp-clearance", "launch-clearance"].iter().any(|of| id.starts_with(of)) {
                "NAME"
            } else {
                "i"
            },
        )
    };
    let ids: Vec<String> = IDS.iter().map(general).collect();
    assert_eq!(listed, ids);
    assert_eq!(find("ramp-clearance-frame-tail").map(|check| check.id), Some("ramp-clearance-*"));
    for unknown in [
        "ramp-clearance-",
        "ramp-clearance-Frame tail",
        "axle-0",
        "axle-01",
        "axle-+1",
        "axle-",
        "axle-x",
        "axle",
        "tongue",
        "",
        "lifted-tongue-1",
        "ball-size-1",
    ] {
        assert_eq!(find(unknown), None, "{unknown}");
    }
}

#[test]
fn a_pattern_that_can_match_no_check_is_told_with_the_near_miss() {
    let told = |pattern: &str| -> Option<Option<String>> {
        let text = format!("{}advises = [\"{pattern}\"]\n", full_rigs()[0]);
        let rig = Rig::read("rig.toml", &text, &[] as &[&str]).expect("a rig");
        unknown_patterns(&rig)?.list.into_iter().find_map(|problem| match problem.fault {
            Fault::NoSuchCheck { found, near } if found == pattern => {
                let at = problem.at.expect("its place");
                assert!(text[at.range].contains(pattern), "{pattern}");
                Some(near)
            }
            _ => None,
        })
    };
    // This rig has no crossmembers, ramps or gear; another may.
    for id in IDS {
        for subject in ["1", "5", "*"] {
            assert_eq!(told(&id.replace('*', subject)), None, "{id} of {subject}");
        }
    }
    for pattern in [
        "*",
        "ramp-*",
        "ramp*",
        "tow-*",
        "axle-6",
        "axle-1*",
        "crossmember-40",
        "crossmember-1*",
        "clearance-gear-skeg",
        "clearance-gear-twin-*",
        "ramp-clearance-i",
    ] {
        assert_eq!(told(pattern), None, "{pattern}");
    }
    for (pattern, near) in [
        ("crosmember-3", Some("crossmember-3")),
        ("lifted-axel-*", Some("lifted-axle-*")),
        ("lifted-axle-i", Some("lifted-axle-*")),
        ("ramps-*", Some("ramp-*")),
        ("Tongue-Share", Some("tongue-share")),
        ("clearance-gear-Skeg", Some("clearance-gear-skeg")),
        ("clearance-gear--*", Some("clearance-gear-*")),
        ("axle-7", Some("axle-*")),
        ("axle-0", Some("axle-*")),
        ("axle-7*", Some("axle-*")),
        // Six axles at most, and the rear one is the one that is lifted.
        ("lifted-axle-6", Some("lifted-axle-*")),
        ("crossmember-01", Some("crossmember-*")),
        ("coupler-1", Some("coupler")),
        ("surge-ratios", Some("surge-ratio")),
    ] {
        assert_eq!(told(pattern), Some(near.map(str::to_string)), "{pattern}");
    }
}

/// The pattern that `explain` prints for an id.
fn printed_pattern(id: &str) -> String {
    let text = text::render(&explain(find(id).expect("a check's id"), id, checks()), text::WIDTH, false);
    let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
    // Where it says none, the id itself moves the check.
    let Some((_, rest)) = flat.split_once("[policy] can move it as \"") else {
        assert!(flat.contains("[policy] can move it."), "{text}");
        return id.to_string();
    };
    rest.split('"').next().expect("its end").to_string()
}

#[test]
fn the_pattern_that_is_printed_for_a_check_moves_it() {
    let rig = |policy: &str| format!("{}{policy}{RAMP}{BUNKS}", full_rigs()[0]);
    let before = assessed(&rig(""), &[]).expect("a whole rig").rows;
    // Asked about by the report's own id, in general, and as the list names the check.
    let asks: [fn(&Row) -> String; 3] =
        [|row| row.id(), |row| row.check.id.to_string(), |row| row.check.in_general(row.check.id)];
    for ask in asks {
        let list = |counting: bool| {
            let rows = before.iter().filter(|row| row.counts == counting);
            rows.map(|row| printed_pattern(&ask(row))).collect::<Vec<_>>()
        };
        let policy = format!("counts = {:?}\nadvises = {:?}\n", list(false), list(true));
        let after = assessed(&rig(&policy), &[]).expect("a whole rig").rows;
        for (before, after) in before.iter().zip(&after) {
            assert_eq!(after.counts, !before.counts, "{}: {policy}", before.id());
        }
    }
    assert_eq!(printed_pattern("crossmember-3"), "crossmember-3");
    assert_eq!(printed_pattern("crossmember-i"), "crossmember-*");
    assert_eq!(printed_pattern("ramp-clearance-frame-tail"), "ramp-clearance-frame-tail");
    assert_eq!(printed_pattern("clearance-gear-NAME"), "clearance-gear-*");
    // A policy takes no other letters, so the star stands for them.
    assert_eq!(printed_pattern("ramp-clearance-h\u{e9}lice"), "ramp-clearance-*");
    // What else a prefix moves is told.
    let axles =
        text::render(&explain(find("axle-i").expect("a check"), "axle-i", checks()), text::WIDTH, false);
    assert!(axles.contains("axle-tires-*"), "{axles}");
}

/// Everything that both rigs below say: one key a line, so that any of them can be taken out.
const COMMON: &str = r#"
format = 1
[trip]
speed = "60 mph"
curve = "1500 ft"
date = "2026-06-01"
wind = "40 mph"
cross_slope = "2 %"
bend = "10 deg"
descent.grade = "8 %"
descent.height = "300 ft"
[boat]
length = "24 ft"
beam = "8 ft"
top = "110 in"
bow_eye.station = "20 ft"
bow_eye.height = "30 in"
bow_eye.rating = "6000 lb"
bow_overhang = "20 in"
windage.area = "100 ft2"
windage.station = "9 ft"
windage.height = "5 ft"
BOAT
[[boat.tanks]]
id = "fuel"
TANK
capacity = "60 gal"
fill = "50 %"
station = "6 ft"
height = "18 in"
side = "0 in"
[trailer]
TRAILER
cg_height = "22 in"
length = "300 in"
width = "100 in"
lamps_height = "60 in"
skipper.station = "5 ft"
skipper.height = "16 in"
material = "aluminium"
rail_half_spacing = "34 in"
gvwr = "8000 lb"
bow_stop_height = "54 in"
keel_height = "24 in"
level_ball_height = "20 in"
level_measured = "loaded"
track = "84 in"
[trailer.suspension]
kind = "leaf-equalized"
deflection_at_rating = "2.25 in"
equalizer_travel = "1.5 in"
bump = "3.2 in"
spring_length = "26 in"
eye_height = "14 in"
radius_rods = "none"
pin_drop = "0.5 in"
pin_arm = "3 in"
[[trailer.axles]]
braked = true
station = "190 in"
rating = "4000 lb"
spring_rating = "4000 lb"
weight = "250 lb"
tires.size = "ST225/75R15"
tires.count = 2
tires.construction = "radial"
tires.pressure = "60 psi"
tires.pressure_max = "65 psi"
tires.speed_symbol = "M"
tires.date = "3224"
tires.fender = "20 in"
tires.rating = "2540 lb"
tires.radius = "13.4 in"
tires.rate = "2000 lb/in"
wheels.rating = "2600 lb"
brakes.kind = "disc"
brakes.piston = "2.25 in"
brakes.pistons = 1.0
brakes.caliper = "floating"
brakes.radius = "4.15 in"
brakes.friction = "35 %"
brakes.travel = "0.03 in"
brakes.weight = "17 lb"
brakes.one_piece = false
brakes.caliper_share = "33 %"
[[trailer.axles]]
braked = true
station = "224 in"
rating = "4000 lb"
spring_rating = "4000 lb"
weight = "250 lb"
tires.count = 2
tires.construction = "radial"
tires.pressure = "60 psi"
tires.pressure_max = "65 psi"
tires.speed_symbol = "M"
tires.date = "3224"
tires.fender = "20 in"
tires.rating = "2540 lb"
tires.radius = "13.4 in"
tires.rate = "2000 lb/in"
wheels.rating = "2600 lb"
brakes.kind = "disc"
brakes.piston = "2.25 in"
brakes.pistons = 1.0
brakes.caliper = "floating"
brakes.radius = "4.15 in"
brakes.friction = "35 %"
brakes.travel = "0.03 in"
brakes.weight = "17 lb"
brakes.one_piece = false
brakes.caliper_share = "33 %"
[trailer.brakes]
kind = "surge"
made_for = "disc"
least_gross = "4000 lb"
greatest_gross = "9000 lb"
tongue_rating = "1000 lb"
bore = "1 in"
leverage = 1.1
efficiency = "90 %"
stroke = "2.25 in"
hose = "4 ft"
preload = "200 lb"
pressure_max = "500 psi"
fluid = "DOT 3"
reverse = "lock-out"
breakaway = true
[trailer.tongue]
section_modulus = "9 in3"
yield = "30 ksi"
weld = false
held_from = "90 in"
clamps = "30 in"
clamp_rating = "9000 lb"
[trailer.coupler]
rating = "10000 lb"
tongue_rating = "1500 lb"
ball_size = "2 in"
d_value = "20 kN"
[trailer.drawbar]
d_value = "20.1 kN"
dc_value = "20 kN"
v_value = "20 kN"
tongue_rating = "1100 lb"
body = "20 ft"
[trailer.safety_chains]
count = 2
breaking = "12000 lb"
[trailer.jack]
rating = "1500 lb"
station = "24 in"
[hitch.receiver]
rating = "10000 lb"
tongue_rating = "1000 lb"
tube = "2 in"
[hitch.ball_mount]
rating = "10000 lb"
tongue_rating = "1000 lb"
shank = "2 in"
[hitch.ball]
rating = "10000 lb"
diameter = "2 in"
tongue_rating = "1100 lb"
d_value = "20.2 kN"
[tow]
front_axle_load = "3000 lb"
rear_axle_load = "2800 lb"
wheelbase = "140 in"
ball_overhang = "45 in"
ball_height = "20 in"
gvwr = "8000 lb"
front_gawr = "4500 lb"
rear_gawr = "5000 lb"
gcwr = "18000 lb"
tow_rating = "10000 lb"
tongue_rating = "1000 lb"
driven = "rear"
parking_brake = "rear"
holds_in_gear = "12 %"
cg_height = "27 in"
tailpipe.station = "36 in"
tailpipe.height = "16 in"
tire_radius = "15 in"
tire_wet_limit = "9 in"
air_suspension = false
body_aft.station = "38 in"
body_aft.height = "40 in"
[policy]
tongue_share.min = "7 %"
tongue_share.max = "12 %"
packing_error = "0.0625 in"
push = "100 lb"
rules = "us"
home_gap = "1 in"
size.length = "40 ft"
size.width = "102 in"
size.height = "13 ft"
size.rear_projection = "4 ft"
"#;

/// A ramp into the water, and what could ground on it.
pub const RAMP: &str = r#"
[[boat.low_points]]
name = "skeg"
station = "-10 in"
height = "-2 in"
[[trailer.low_points]]
name = "frame tail"
station = "300 in"
height = "18 in"
[[tow.low_points]]
name = "spare"
station = "30 in"
height = "14 in"
[[ramps]]
name = "town"
ease = "4 ft"
water_from_top = "20 ft"
water = "sea-water"
friction = "40 %"
[[ramps.profile]]
length = "60 ft"
grade = "12 %"
"#;

/// Bunks and all that they are checked against, a winch and tie-downs.
pub const BUNKS: &str = r#"
[trailer.winch]
rating = "5000 lb"
core = "2.5 in"
flange = "8 in"
station = "36 in"
height = "58 in"
afloat = "50 %"
drive = "electric"
gear = 5
handle = "9 in"
efficiency = "75 %"
no_load_current = "18 A"
no_load_speed = "14 ft/min"
rated_current = "150 A"
rated_speed = "6 ft/min"
battery = "75 Ah"
strap.kind = "strap"
strap.length = "14 ft"
strap.thickness = "0.1 in"
strap.breaking = "10000 lb"
strap.working = "3500 lb"
post.station = "38 in"
post.height = "24 in"
post.moment = "125000 lb in"
[[trailer.tie_downs]]
name = "transom straps"
kind = "strap"
count = 2
boat.station = "-1 in"
boat.height = "24 in"
boat.side = "40 in"
trailer.station = "311 in"
trailer.height = "20 in"
trailer.side = "41 in"
working = "2000 lb"
breaking = "6000 lb"
stretch = "5 %"
over = false
[[trailer.tie_downs]]
name = "bow chain"
kind = "chain"
count = 1
boat.station = "20 ft"
boat.height = "30 in"
boat.side = "0 in"
trailer.station = "45 in"
trailer.height = "24 in"
trailer.side = "1 in"
working = "2650 lb"
breaking = "10600 lb"
stretch = "1 %"
over = false
[boat.hull]
deadrise = "18 deg"
straight_run = "13 ft"
chine.half_breadth = "40 in"
chine.height = "14 in"
[[boat.hull.strakes]]
half_breadth = "30 in"
[trailer.bunks]
forward_end = "150 in"
aft_end = "299 in"
half_spacing = "30 in"
top = "34 in"
board = "4x8"
wood = "southern-pine-2"
brackets.bolts = 2
brackets.bolt_rating = "600 lb"
brackets.bearing_length = "3 in"
brackets.foot = "6 in"
brackets.foot_rating = "1800 lb"
[trailer.rails]
section_modulus = "9 in3"
yield = "30 ksi"
weld = true
[[trailer.crossmembers]]
station = "160 in"
top = "24 in"
centre = "20 in"
section_modulus = "2 in3"
yield = "46 ksi"
[[trailer.crossmembers]]
station = "290 in"
top = "24 in"
centre = "20 in"
section_modulus = "2 in3"
yield = "46 ksi"
[trailer.fenders]
half_breadth = "44 in"
height = "32 in"
[trailer.guides]
station = "290 in"
top = "70 in"
"#;

/// Rollers that bear the keel instead of bunks, while the boat is launched.
pub const ROLLERS: &str = r#"
[trailer.keel_rollers]
forward_end = "150 in"
aft_end = "295 in"
"#;

const ITEMISED: &str = r#"[[boat.weights]]
id = "hull"
weight = "4500 lb"
station = "8 ft"
height = "26 in"
side = "1 in""#;

const WEIGHED: &str = r#"cg_height = "26 in"
[measured]
gross_trailer_weight = "6300 lb"
tongue_weight = "600 lb""#;

/// Rigs that say everything: from items or from scales, each by one of the two ways of saying things.
pub fn full_rigs() -> Vec<String> {
    let rig = |boat: &str, tank: &str, trailer: &str| {
        COMMON.replace("BOAT", boat).replace("TANK", tank).replace("TRAILER", trailer)
    };
    let plain = "weight = \"1500 lb\"\ntongue_weight = \"150 lb\"\nbow_stop = \"60 in\"";
    let other = "capacity = \"6500 lb\"\ncg = \"185 in\"\ntransom = \"300 in\"";
    vec![
        rig(ITEMISED, "fluid = \"gasoline\"", plain),
        rig(ITEMISED, "density = \"6.3 lb/gal\"", other),
        rig(WEIGHED, "fluid = \"diesel\"", plain),
        rig(WEIGHED, "density = \"6.3 lb/gal\"", other),
    ]
}

/// What to fill in for a key that a report names.
fn filling(key: Key) -> &'static str {
    let path = key.path;
    if path == "trailer.axles.*.station" && key.at[0] == 1 {
        return "224 in";
    }
    if path == "trailer.crossmembers.*.station" && key.at[0] == 1 {
        return "290 in";
    }
    let texts: BTreeMap<&str, &str> = BTreeMap::from([
        ("boat.tanks.*.fluid", "gasoline"),
        ("boat.weights.*.weight", "4500 lb"),
        ("boat.weights.*.station", "8 ft"),
        ("boat.weights.*.height", "26 in"),
        ("trailer.weight", "1500 lb"),
        ("trailer.tongue_weight", "150 lb"),
        ("trailer.bow_stop", "60 in"),
        ("boat.cg_height", "26 in"),
        ("measured.gross_trailer_weight", "6300 lb"),
        ("measured.tongue_weight", "600 lb"),
    ]);
    if let Some(text) = texts.get(path) {
        return text;
    }
    // The others stand in the texts above.
    let (mut table, mut found) = (String::new(), None);
    for line in COMMON.lines().chain(RAMP.lines()).chain(BUNKS.lines()) {
        if line.starts_with('[') {
            table = line.trim_matches(['[', ']']).replace("ramps.profile", "ramps.*.profile");
            table.push_str(if line.starts_with("[[") { ".*" } else { "" });
            continue;
        }
        let Some((key, value)) = line.split_once(" = ") else { continue };
        if format!("{table}.{key}") == path {
            found.get_or_insert(value.trim_matches('"'));
        }
    }
    found.unwrap_or_else(|| panic!("no text to fill in for {path}"))
}

fn assessed(text: &str, changes: &[String]) -> Result<Assessment, String> {
    let rig = Rig::read("rig.toml", text, changes).map_err(|problems| problems.to_string())?;
    assess(&rig).map_err(|unfit| unfit.to_string())
}

fn row<'a>(found: &'a Assessment, id: &str) -> &'a Row {
    found.rows.iter().find(|row| row.id() == id).expect("the same rows")
}

/// A rig's text without these lines; none when one of them holds no key.
fn without(text: &str, taken: &[usize]) -> Option<String> {
    let lines: Vec<&str> = text.lines().collect();
    let holds_key = |line: &usize| lines[*line].contains(" = ");
    if !taken.iter().all(holds_key) {
        return None;
    }
    let kept = lines.iter().enumerate().filter(|(i, _)| !taken.contains(i)).map(|(_, line)| *line);
    Some(kept.collect::<Vec<_>>().join("\n"))
}

/// Fills in what the rows that are not made ask for, until they are made; returns all the keys that were
/// asked for.
fn fill_in(text: &str, taken: &str) -> BTreeSet<Key> {
    let mut asked = BTreeSet::new();
    let found = match assessed(text, &[]) {
        Ok(found) => found,
        // What is stated of brakes would otherwise not be checked at all.
        Err(_) if taken.contains("kind = \"surge\"") => return asked,
        Err(problem) => panic!("without {taken}: {problem}"),
    };
    // Rows that ask for the same keys are filled in together.
    let mut unmade: BTreeMap<Vec<Key>, Vec<String>> = BTreeMap::new();
    for row in found.rows.iter().filter(|row| row.verdict == Verdict::NotChecked) {
        // It asks for an entry of a list, which takes a new table in the file.
        if row.id().ends_with("-low-points") {
            continue;
        }
        assert!(!row.missing.is_empty(), "without {taken}: {} is not made and asks for nothing", row.id());
        unmade.entry(row.missing.clone()).or_default().push(row.id());
    }
    for (missing, ids) in unmade {
        for key in &missing {
            assert!(key.input().is_some(), "without {taken}: {ids:?} ask for {key}, which is no key");
        }
        asked.extend(missing.iter().copied());
        // A boat that is not there at all has no entry to fill in beside the file.
        if missing.iter().any(|key| key.path.starts_with("boat.weights"))
            && !text.contains("[[boat.weights]]")
        {
            continue;
        }
        let changes: Vec<String> = missing.iter().map(|key| format!("{key}={}", filling(*key))).collect();
        let filled = assessed(text, &changes).unwrap_or_else(|problem| {
            panic!("without {taken}: {ids:?} ask for {changes:?}, but then: {problem}")
        });
        for id in ids {
            let still = &row(&filled, &id).missing;
            // Whether tires need the track shows only once the boat's centre is known to lie to one side.
            // And a centre of the trailer that is proposed beside the file was not measured, of a boat known from scales.
            let only_track =
                still.iter().all(|key| matches!(key.path, "trailer.track" | "trailer.cg_height"));
            assert!(only_track, "without {taken}: {id} with {changes:?} still asks for {still:?}");
        }
    }
    asked
}

#[test]
fn rigs_that_say_everything_have_every_check_made() {
    // Bunks hold a boat upright, and rollers on the centreline have no forward end on a crossmember.
    let supports = [("", "launch-heel"), (ROLLERS, "launch-support")];
    let rigs = full_rigs()
        .into_iter()
        .flat_map(|text| supports.map(|(on, not)| (text.clone() + RAMP + BUNKS + on, not)));
    for (i, (text, not_there)) in rigs.enumerate() {
        // Rules of the one place ask for what those of the other do not.
        let (rules, not_asked) =
            [("us", &["nose-least", "nose-greatest"][..]), ("europe", &["safety-chains"])][i / 2 % 2];
        let found = assessed(&text, &[format!("policy.rules={rules}")]).expect("a whole rig");
        let made: BTreeSet<&str> = found.rows.iter().map(|row| row.check.id).collect();
        let asked = IDS.iter().copied().filter(|id| *id != not_there && !not_asked.contains(id));
        assert_eq!(made, asked.collect());
        for row in &found.rows {
            assert!(row.verdict != Verdict::NotChecked, "{} asks for {:?}", row.id(), row.missing);
            assert!(row.load.is_some() && row.margin.is_some() && row.missing.is_empty(), "{}", row.id());
            // A reader asks about a row by the id that the report gives it.
            assert_eq!(find(&row.id()), Some(row.check), "{}", row.id());
        }
    }
}

#[test]
fn filling_in_the_keys_that_a_check_asks_for_makes_it() {
    let mut asked = BTreeSet::new();
    for (i, own) in full_rigs().into_iter().enumerate() {
        let text = own.clone() + RAMP + BUNKS;
        // What all rigs share is taken out of the first alone, and of the others every other line.
        let lines = if i == 0 { text.lines().count() } else { own.lines().count() };
        for line in (0..lines).step_by(if i == 0 { 1 } else { 2 }) {
            let Some(rest) = without(&text, &[line]) else { continue };
            let taken = text.lines().nth(line).expect("a line");
            if taken.starts_with("format") {
                assert!(assessed(&rest, &[]).is_err());
                continue;
            }
            asked.extend(fill_in(&rest, taken).into_iter().map(|key| key.path));
        }
    }
    // Every row's own limit was among them, and nothing that has a default.
    for path in
        ["trailer.gvwr", "trailer.track", "tow.wheelbase", "hitch.ball_mount.shank", "boat.bow_eye.height"]
    {
        assert!(asked.contains(path), "nothing asked for {path}");
    }
    for path in
        ["policy.tongue_share.min", "boat.tanks.*.fill", "trailer.cg_height", "trailer.axles.*.tires.rate"]
    {
        assert!(!asked.contains(path), "something asked for {path}, which has a default");
    }
    assert!(asked.iter().all(|path| INPUTS.iter().any(|input| input.path == *path)));
}

/// Two rigs that between them say everything in both ways, and the lines of each that the mechanics need: of the ratings any
/// one stands for all.
static MECHANICAL: LazyLock<Vec<(String, Vec<usize>)>> = LazyLock::new(|| {
    let ratings = ["rating", "gawr", "gcwr", "format", "spring_rating", "length", "beam"];
    let mechanical = |text: String| {
        let is_one = |line: &str| {
            let key = line.split(" = ").next().unwrap_or_default();
            !ratings.iter().any(|end| key.ends_with(end))
        };
        let lines = text.lines().enumerate().filter(|(_, line)| is_one(line)).map(|(i, _)| i).collect();
        (text, lines)
    };
    full_rigs().into_iter().step_by(3).map(mechanical).collect()
});

proptest! {
    #![proptest_config(cases(300))]

    #[test]
    fn so_it_is_when_two_keys_are_missing(rig in any::<Index>(), pair in any::<[Index; 2]>()) {
        let (text, lines) = rig.get(&MECHANICAL);
        let mut pair = pair.map(|line| *line.get(lines));
        pair.sort_unstable();
        let taken = pair.map(|line| text.lines().nth(line).unwrap_or_default()).join(" and ");
        if pair[0] < pair[1] && let Some(rest) = without(text, &pair) {
            fill_in(&rest, &taken);
        }
    }
}
