//! Every key of the table of inputs does something: its ± reaches the corners, and another value changes a report.

use crate::registry::{BUNKS, RAMP, ROLLERS, full_rigs};
use bunkline::Rig;
use bunkline::fit::{Amount, Assessment, Findings, Recalled, Row, Scope, assess_off_ramps, examine};
use bunkline::quantity::show::UnitSystem;
use bunkline::report::check::Wanted;
use bunkline::report::{Extent, Subject, bunks, check, json, text};
use bunkline::rig::INPUTS;
use bunkline::study::place::{Options, Part, place};
use bunkline::study::uncertainty;
use std::cell::LazyCell;
use std::collections::BTreeSet;

/// Keys that decide nothing on these rigs but do on others.
const IDLE_HERE: &[&str] = &[
    // No crossmember lies under the gear.
    "boat.low_points.*.side",
    // A bunk on two crossmembers does not bend where one of them stands higher.
    "policy.packing_error",
    // Behind the rear axle a point rises over a head: it is lowest on the level.
    "tow.low_points.*.station",
    // No bunk pulls up.
    "trailer.bunks.lift_off",
    // The boat may come down by more than it: the least spacer is none.
    "trailer.bunks.spacer",
    // The forward end is the farther from where the boat swings while loading.
    "trailer.fenders.aft_end",
    // The stern lifts about the forward end of what bears.
    "trailer.keel_rollers.aft_end",
];

/// Keys of quantities whose ± moves no check here.
const MOVES_NO_CHECK: &[&str] = &[
    // Only a fender above the chine, or one so near that it clears sideways alone, is compared with these.
    "boat.beam",
    "boat.hull.chine.height",
    // A gross weight goes by the nearer end of the label.
    "trailer.brakes.greatest_gross",
    // A bunk on two crossmembers does not bend where one of them stands higher.
    "policy.packing_error",
    // As above.
    "boat.low_points.*.side",
    "tow.low_points.*.station",
    "trailer.bunks.spacer",
    "trailer.fenders.aft_end",
    // What a search aims at, what tells thin from pass, and the end of a band that is the farther.
    "policy.preferred_tongue_share",
    "policy.thin_margin",
    "policy.tongue_share.max",
    // Shown, compared with nothing.
    "tow.body_aft.height",
    "trailer.bow_bunks.aft_end",
    "trailer.bow_bunks.aft_top",
    "trailer.bow_bunks.forward_top",
    "trailer.bunks.brackets.bolt_diameter",
    "trailer.bunks.brackets.bolt_height",
    "trailer.bunks.brackets.bolt_spacing",
    "trailer.guides.half_spacing",
    "trailer.guides.height",
    "trailer.guides.size",
    // The stern lifts about the forward end of what bears.
    "trailer.keel_rollers.aft_end",
    // Shown while launching, compared with nothing.
    "trailer.lamps_height",
    "trailer.skipper.height",
    "trailer.skipper.station",
];

/// The hull by its sections.
const SECTIONS: &str = r#"
[[boat.sections]]
station = "0 in"
keel = "0 in"
chine.half_breadth = "40 in"
chine.height = "13 in"
sheer.half_breadth = "45 in"
sheer.height = "46 in"
[[boat.sections]]
station = "160 in"
keel = "1 in"
chine.half_breadth = "38 in"
chine.height = "16 in"
sheer.half_breadth = "46 in"
sheer.height = "52 in"
[[boat.sections]]
station = "285 in"
keel = "45 in"
chine.half_breadth = "1 in"
chine.height = "50 in"
sheer.half_breadth = "2 in"
sheer.height = "60 in"
"#;

/// What is taped of a boat afloat whose hull is not known.
const AFLOAT: &str = r#"
[boat.afloat]
draft = "15 in"
eye = "20 in"
"#;

/// Rigs that hold every key between them, one key a line: first without ramps, then with them. Ramps take long to
/// cross, so that only keys which do nothing on the level are tried there, and in one case.
pub fn rigs() -> Vec<String> {
    let whole = whole_rigs();
    let on_the_level = whole.iter().map(|rig| without(rig, "[[ramps"));
    let on_ramps = whole.iter().map(|rig| without(rig, "[[cases"));
    on_the_level.chain(on_ramps).collect()
}

/// A file without the tables that begin so.
pub fn without(rig: &str, tables: &str) -> String {
    let mut taken = false;
    let stays = |line: &&str| {
        taken = if line.starts_with('[') { line.starts_with(tables) } else { taken };
        !taken
    };
    rig.lines().filter(stays).collect::<Vec<_>>().join("\n")
}

fn whole_rigs() -> Vec<String> {
    let [itemised, other, weighed, _] = full_rigs().try_into().expect("four rigs");
    let policy = r#"preferred_tongue_share = "9 %"
turn = "60 deg"
bunk_pressure.min = "1 psi"
bunk_pressure.max = "18 psi"
clearance = "0.5 in"
side_play = "1 in"
loading_trim = "1 deg"
road_factor = 2.0
thin_margin = "9 %"
counts = ["tire-*"]
advises = ["jack"]
"#;
    let tow = r#"[tow]
name = "van"
hitch_rate = "900 lb/in"
"#;
    let rest = r#"[trailer.bow_bunks]
forward_end = "72 in"
aft_end = "108 in"
forward_top = "38 in"
aft_top = "35 in"
bears = true
[[cases]]
name = "out"
[[cases]]
name = "home"
fill.fuel = "25 %"
[shift]
boat = "1 in"
axles = "1 in"
tongue = "1 in"
bunks = "1 in"
[travel]
boat = ["-6 in", "6 in"]
axles = ["-6 in", "6 in"]
tongue = ["-6 in", "6 in"]
bunks = ["-6 in", "6 in"]
"#;
    let whole = |rig: String, bunks: &str| {
        let bars = if bunks.contains("starboard") {
            "[hitch.weight_distribution]\nrestored = \"40 %\"\n[hitch.receiver]\n"
        } else {
            "[hitch.weight_distribution]\nmoment = \"9000 lb in\"\n[hitch.receiver]\n"
        };
        let rig = rig.replace("[tow]\n", tow) + policy;
        let rig = rig
            .replace("format = 1\n", "format = 1\ntitle = \"a rig\"\nunits = \"us\"\n")
            .replacen("[boat]\n", "[boat]\nname = \"boat\"\n", 1)
            .replace("[trailer]\n", "[trailer]\nbow_stop_rating = \"2500 lb\"\n")
            // Letters that say another kind than the one it is changed to would be a mistake.
            .replace("\"ST225/75R15\"", "\"225/75R15\"")
            .replace("id = \"hull\"\n", "id = \"hull\"\nitem = \"hull\"\n")
            .replace("id = \"fuel\"\n", "id = \"fuel\"\nitem = \"fuel\"\n")
            .replace(
                "tires.count = 2\n",
                "tires.kind = \"trailer\"\ntires.pressure_exponent = \"67 %\"\ntires.load_index = 114\ntires.count = 2\n",
            )
            .replace("[hitch.receiver]\n", bars);
        let ramp = RAMP.replace("height = \"-2 in\"\n", "height = \"-2 in\"\nside = \"4 in\"\n");
        rig + &ramp + bunks + rest
    };
    let bunks = BUNKS
        .replace("[trailer.fenders]\n", "[trailer.fenders]\nforward_end = \"170 in\"\naft_end = \"250 in\"\n")
        .replace("[trailer.guides]\n", "[trailer.guides]\nheight = \"44 in\"\nsize = \"10 in\"\nhalf_spacing = \"48 in\"\n")
        .replace("straight_run", "support_from = \"3 in\"\nstraight_run")
        .replace("[[boat.hull.strakes]]\n", "[[boat.hull.strakes]]\nname = \"outer\"\n")
        .replace(
            "brackets.bolts",
            "friction = \"30 %\"\nlay = \"edge\"\nservice = \"wet\"\nspacer = \"1 in\"\nlift_off = false\nbrackets.bolt_spacing = \"4 in\"\nbrackets.bolt_height = \"3 in\"\nbrackets.bolt_diameter = \"0.5 in\"\nbrackets.bolts",
        );
    let other_bunks = bunks
        .replace("half_spacing = \"30 in\"\ntop", "port = \"30 in\"\nstarboard = \"30.5 in\"\ntop")
        .replace("board = \"4x8\"", "width = \"3.5 in\"\ndepth = \"7.25 in\"")
        .replace(
            "wood = \"southern-pine-2\"",
            "bending = \"900 psi\"\nshear = \"110 psi\"\nmodulus = \"1200000 psi\"\nbearing = \"420 psi\"",
        )
        .replace("service = \"wet\"\n", "")
        .replace("brackets.bolts = 2", "brackets.rating = \"1000 lb\"\nbrackets.bolts = 2")
        .replace("stretch = \"5 %\"\n", "")
        .replace(
            "post.moment = \"125000 lb in\"",
            "post.section_modulus = \"8 in3\"\npost.yield = \"36 ksi\"",
        )
        .replace("section_modulus = \"2 in3\"\nyield = \"46 ksi\"", "rating = \"1500 lb\"");
    // Other brakes, on other springs.
    let drums = |rig: String| {
        let disc = "brakes.kind = \"disc\"";
        rig.replace(disc, "brakes.kind = \"drum\"\nbrakes.factor = 2.2")
            .replace("brakes.friction = \"35 %\"\n", "")
            .replace("brakes.caliper = \"floating\"\n", "")
            .replace("brakes.caliper_share = \"33 %\"\n", "")
            .replace("preload = \"200 lb\"", "preload_share = \"3 %\"\nslide_friction = \"50 lb\"")
            .replace("pin_drop = ", "thrust = \"equalizer\"\npin_drop = ")
    };
    let electric = |rig: String| {
        rig.replace("kind = \"surge\"", "kind = \"electric\"\nsetting = \"90 %\"")
            .replace("weld = false", "weld = true")
            .replace(
                "kind = \"leaf-equalized\"",
                "kind = \"torsion\"\narm = \"6 in\"\npivot_height = \"14 in\"",
            )
            .replace("brakes.kind = \"disc\"", "brakes.kind = \"electric\"\nbrakes.force = \"700 lb\"")
            .replace("equalizer_travel = \"1.5 in\"\n", "")
    };
    let by_gain = |rig: String| {
        rig.replace("bore = \"1 in\"\nleverage = 1.1\n", "gain = 5.0\nrelease_push = \"40 lb\"\n")
            .replace("efficiency = \"90 %\"\n", "")
            .replace("\npressure_max = \"500 psi\"", "")
            .lines()
            .filter(|line| !line.starts_with("brakes."))
            .collect::<Vec<_>>()
            .join("\n")
    };
    // Of three plates the least counts: each is that in one of the rigs.
    let least = |rig: String, plate: &str| {
        let [before, after] = [format!("d_value = \"{plate} kN\""), "d_value = \"19 kN\"".to_string()];
        assert!(rig.contains(&before), "{before}");
        rig.replace(&before, &after)
    };
    vec![
        whole(itemised.clone(), &bunks).replacen(
            "brakes.weight = \"17 lb\"",
            "brakes.diameter = \"10 in\"",
            1,
        ) + SECTIONS,
        drums(
            least(whole(other.clone(), &other_bunks), "20.1")
                .replace("material = \"aluminium\"", "material = \"steel\"")
                .replace("water_from_top = \"20 ft\"", "water_level = \"-2 ft\""),
        ) + ROLLERS,
        // Neither the boat's gap nor the tailpipe ends the band for coming home, so that the hub does.
        electric(least(whole(itemised, &bunks), "20.2"))
            .replace("home_gap = \"1 in\"", "home_gap = \"60 in\"")
            .replace("tailpipe.height = \"16 in\"", "tailpipe.height = \"40 in\""),
        by_gain(whole(other, &other_bunks))
            .replace("chine.half_breadth = \"40 in\"\nchine.height = \"14 in\"\n", "")
            + AFLOAT,
        whole(
            weighed.replace("cg_height = \"26 in\"\n", "cg_height = \"26 in\"\ncg_side = \"1 in\"\n"),
            &bunks,
        ),
    ]
}

/// A line of a rig that holds a key: which line, and the key's path in the table of inputs.
pub fn keys(text: &str) -> Vec<(usize, &'static str)> {
    let mut table = String::new();
    let mut found = Vec::new();
    for (i, line) in text.lines().enumerate() {
        if line.starts_with('[') {
            table = line.trim_matches(['[', ']']).replace("ramps.profile", "ramps.*.profile");
            table.push_str(if line.starts_with("[[") { ".*." } else { "." });
            continue;
        }
        let Some((key, _)) = line.split_once(" = ") else { continue };
        let path = format!("{table}{key}").replace("fill.fuel", "fill.*");
        let input = INPUTS.iter().find(|input| input.path == path);
        found.push((i, input.unwrap_or_else(|| panic!("{path} is no key")).path));
    }
    found
}

pub fn with_line(text: &str, at: usize, line: &str) -> String {
    let lines = text.lines().enumerate().map(|(i, old)| if i == at { line } else { old });
    lines.collect::<Vec<_>>().join("\n")
}

/// Number and unit of a quantity's text.
pub fn quantity(value: &str) -> Option<(f64, &str)> {
    let (number, unit) = value.strip_prefix('"')?.strip_suffix('"')?.split_once(' ')?;
    Some((number.parse().ok()?, unit))
}

#[test]
fn the_bound_of_every_quantity_reaches_the_corners_and_moves_a_check() {
    let (mut moves, mut met) = (BTreeSet::new(), BTreeSet::new());
    for text in rigs() {
        for (at, path) in keys(&text) {
            if moves.contains(path) {
                continue;
            }
            let (key, value) = text.lines().nth(at).and_then(|line| line.split_once(" = ")).expect("a key");
            let Some((number, unit)) = quantity(value) else { continue };
            met.insert(path);
            let bound = if number == 0.0 { 0.01 } else { number.abs() * 0.002 };
            let bounded = with_line(&text, at, &format!("{key} = \"{number} {unit} ± {bound} {unit}\""));
            let rig = Rig::read("rig.toml", &bounded, &[] as &[&str])
                .unwrap_or_else(|problems| panic!("{path}: {problems}"));
            let reached = rig.uncertain().iter().any(|(key, bound)| key.path == path && *bound > 0.0);
            assert!(reached, "the ± of {path} is lost");
            let (assessment, found) = uncertainty::brief(&rig).expect("a trailer at rest");
            let corners = found.expect("a bound").corners;
            let moved = assessment.rows.iter().zip(&corners).any(|(row, corner)| {
                let Some(corner) = corner else { return false };
                // A limit that advises may move where the one that fails beyond it does not.
                corner.margin != row.margin || corner.sensitivities.iter().any(|slope| *slope != 0.0)
            });
            if moved {
                moves.insert(path);
            }
        }
    }
    let still: BTreeSet<&str> = met.difference(&moves).copied().collect();
    let known: BTreeSet<&str> = MOVES_NO_CHECK.iter().copied().collect();
    assert_eq!(still, known, "these move no check");
}

/// Another value for a key, as the file would have it.
pub fn another(path: &str, value: &str) -> Option<String> {
    // The first section stands at the transom.
    if path == "boat.sections.*.station" && value.starts_with("\"0 ") {
        return None;
    }
    if let Some((number, unit)) = quantity(value) {
        let other = if number == 0.0 { 1.0 } else { number * 1.01 };
        return Some(format!("\"{other} {unit}\""));
    }
    let other = match path {
        "units" => "\"metric\"",
        "ramps.*.water" => "\"fresh-water\"",
        "boat.tanks.*.fluid" if value.contains("diesel") => "\"gasoline\"",
        "boat.tanks.*.fluid" => "\"diesel\"",
        "trailer.level_measured" => "\"empty\"",
        "trailer.suspension.kind" => "\"torsion\"",
        "trailer.material" if value.contains("steel") => "\"aluminium\"",
        "trailer.material" => "\"steel\"",
        "trailer.axles.*.tires.kind" => "\"passenger\"",
        "trailer.axles.*.tires.construction" => "\"bias\"",
        "trailer.axles.*.tires.size" => "\"205/75R14\"",
        "trailer.axles.*.tires.count" => "4",
        "trailer.axles.*.tires.load_index" => "112",
        "trailer.axles.*.tires.speed_symbol" => "\"N\"",
        "trailer.axles.*.tires.date" => "\"3023\"",
        "trip.date" => "\"2027-06-01\"",
        "trailer.bunks.board" => "\"4x6\"",
        "trailer.bunks.lay" => "\"flat\"",
        "trailer.bunks.wood" => "\"western-cedar-2\"",
        "trailer.bunks.service" => "\"dry\"",
        "trailer.bunks.brackets.bolts" | "trailer.safety_chains.count" => "3",
        "trailer.winch.drive" => "\"hand\"",
        "trailer.winch.gear" => "6",
        "trailer.winch.strap.kind" => "\"wire\"",
        "trailer.tie_downs.*.kind" if value.contains("chain") => "\"strap\"",
        "trailer.tie_downs.*.kind" => "\"chain\"",
        "trailer.tie_downs.*.count" => {
            if value == "2" {
                "1"
            } else {
                "2"
            }
        }
        "tow.driven" | "tow.parking_brake" => "\"front\"",
        "trailer.brakes.kind" if value.contains("surge") => "\"electric\"",
        "trailer.brakes.kind" | "trailer.brakes.reverse" => "\"none\"",
        "trailer.brakes.made_for" => "\"drum\"",
        "trailer.brakes.leverage" | "trailer.axles.*.brakes.pistons" => "2.0",
        "trailer.axles.*.brakes.factor" => "2.5",
        "trailer.brakes.fluid" => "\"DOT 4\"",
        "trailer.axles.*.brakes.kind" if value.contains("disc") => "\"drum\"",
        "trailer.axles.*.brakes.kind" => "\"drum-servo\"",
        "trailer.axles.*.brakes.caliper" => "\"fixed\"",
        "trailer.suspension.radius_rods" => "\"pair\"",
        "trailer.suspension.thrust" => "\"frame\"",
        "trailer.brakes.gain" | "policy.road_factor" => "3.0",
        "policy.rules" => "\"europe\"",
        "policy.counts" => "[\"bow-stop-height\"]",
        "policy.advises" => "[\"coupler\"]",
        "format" | "boat.weights.*.id" | "boat.tanks.*.id" => return None,
        _ if value == "true" => "false",
        _ if value == "false" => "true",
        _ if value.starts_with('[') => "[\"-5 in\", \"5 in\"]",
        _ => return Some(value.replacen('"', "\"other ", 1)),
    };
    Some(other.to_string())
}

fn read(path: &str, file: &str) -> Rig {
    Rig::read("rig.toml", file, &[] as &[&str]).unwrap_or_else(|problems| panic!("{path}: {problems}"))
}

/// What each row comes to, to as many digits as JSON has.
fn rows(found: &Assessment) -> Vec<String> {
    let digits = |amount: Option<Amount>| amount.map(|amount| format!("{:.6e}", amount.si()));
    let row =
        |row: &Row| format!("{} {:?} {:?} {:?}", row.id(), row.verdict, digits(row.load), digits(row.margin));
    found.rows.iter().map(row).collect()
}

/// What the rows over ramps come to.
fn ramp_rows(rig: &Rig, recalled: &Recalled) -> Vec<String> {
    let setup = rig.proposed();
    let scope = Scope::of(setup, |asked| asked.check.crosses_ramps(setup));
    let facts = scope.facts_recalling(rig, recalled).expect("at rest");
    let digits = |si: Option<f64>| si.map(|si| format!("{si:.6e}"));
    let folds = scope.folds(setup, &facts);
    let mut rows: Vec<String> =
        folds.iter().map(|fold| format!("{:?} {:?}", fold.verdict(), digits(fold.margin()))).collect();
    scope.compare(setup, &facts, |row, comparison| {
        let load = comparison.standing.map(|standing| digits(standing.value));
        rows.push(format!("{row} {load:?}"));
    });
    rows
}

/// All that the program says of a rig.
fn said(file: &str, rig: &Rig, findings: &Findings) -> String {
    let units = if file.contains("units = \"metric\"") { UnitSystem::Metric } else { UnitSystem::Us };
    let subject = Subject { path: "rig.toml", rig, findings, uncertainty: None, as_stated: false, units };
    let text = |document| text::render(&document, text::WIDTH, false);
    text(check::report(&subject, &Wanted { full: true, ..Wanted::default() }))
        + &json::report(&subject).expect("JSON")
        + &text(bunks::report(&subject, Extent::Full))
}

/// Where each part must sit.
fn placed(path: &str, file: &str) -> String {
    let rig = read(path, file);
    let options = Options { ramps: false, grains: bunkline::report::place::grains(UnitSystem::Us) };
    let parts = [Part::Boat, Part::Axles, Part::Tongue, Part::Bunks];
    format!("{:?}", parts.map(|part| place(&rig, part, &options)))
}

#[test]
fn every_key_changes_what_is_said() {
    let (mut heard, mut met) = (BTreeSet::new(), BTreeSet::new());
    for text in rigs() {
        let rig = read("the rig itself", &text);
        let findings = examine(&rig).expect("a trailer at rest");
        let before = said(&text, &rig, &findings);
        // Most keys change neither a crossing nor a launch.
        let recalled = Recalled::default();
        let rows_before = [rows(&assess_off_ramps(&rig).expect("at rest")), ramp_rows(&rig, &recalled)];
        let placed_before = LazyCell::new(|| placed("the rig itself", &text));
        for (at, path) in keys(&text) {
            if heard.contains(path) {
                continue;
            }
            let (key, value) = text.lines().nth(at).and_then(|line| line.split_once(" = ")).expect("a key");
            let Some(other) = another(path, value) else { continue };
            met.insert(path);
            // Brakes of an axle that has none would be a mistake.
            if path == "trailer.axles.*.braked" && text.contains("\nbrakes.kind") {
                continue;
            }
            let changed = with_line(&text, at, &format!("{key} = {other}"));
            // Only the search for a place reads these; it is slow.
            let of_place = path.starts_with("travel.") || path == "policy.preferred_tongue_share";
            let moves = of_place && placed(path, &changed) != *placed_before;
            // Where a row differs, so do its figures in JSON; ramps take longer, and whole reports longer still.
            let differs = || {
                let rig = read(path, &changed);
                rows(&assess_off_ramps(&rig).expect("at rest")) != rows_before[0]
                    || ramp_rows(&rig, &recalled) != rows_before[1]
                    || said(&changed, &rig, &examine(&rig).expect("at rest")) != before
            };
            if moves || differs() {
                heard.insert(path);
            }
        }
    }
    let mute: BTreeSet<&str> = met.difference(&heard).copied().collect();
    let known: BTreeSet<&str> = IDLE_HERE.iter().copied().collect();
    assert_eq!(mute, known, "these change nothing that is said");
    let keys: BTreeSet<&str> = INPUTS.iter().map(|input| input.path).collect();
    let unmet: Vec<&str> = keys.difference(&met).copied().collect();
    assert_eq!(unmet, UNMET, "no rig of this file has these");
}

/// Keys that this file's rigs do not vary: the format, ids, and lists that other tests change.
const UNMET: &[&str] = &[
    "boat.hull.deadrise.*.deadrise",
    "boat.hull.deadrise.*.station",
    "boat.tanks.*.id",
    "boat.weights.*.id",
    "cases.*.without",
    "format",
    "hitch.ball",
    "hitch.ball_mount",
    "hitch.receiver",
    "measured.axles.*",
    "policy.trust",
    "shift.ashore",
    // No row reads a reading of a scale; `weigh` tries these.
    "weighings.*.ball_height",
    "weighings.*.boat",
    "weighings.*.case",
    "weighings.*.coupled",
    "weighings.*.weight",
    "weighings.*.what",
    // No row reads these yet.
];
