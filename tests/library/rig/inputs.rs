//! The table of inputs holds together, row by row.

use bunkline::Rig;
use bunkline::rig::inputs::{Holds, INPUTS, Preset};
use bunkline::rig::{At, Setup};
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

/// A rig with bunks and everything that they are checked against, a winch and tie-downs.
pub(super) const FULL: &str =
    concat!(include_str!("../../rigs/work-boat.toml"), include_str!("../../rigs/bunks.toml"));

/// Every rig file of the project.
pub(super) fn rigs() -> Vec<(String, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let folders =
        ["demo-data", "tests/rigs"].map(|folder| fs::read_dir(root.join(folder)).expect("a folder"));
    let files = folders.into_iter().flatten().map(|file| file.expect("a file").path());
    let mut rigs: Vec<_> = files
        .filter(|path| path.extension().is_some_and(|extension| extension == "toml"))
        .filter(|path| !path.ends_with("bunks.toml"))
        .map(|path| (path.display().to_string(), fs::read_to_string(&path).expect("a text")))
        .collect();
    rigs.push(("the full rig".to_string(), FULL.to_string()));
    assert!(rigs.len() > 5);
    rigs
}

/// The elements that a row's lists have in a setup.
pub(super) fn elements(path: &str, setup: &Setup) -> Vec<At> {
    let one = |count: usize| (0..count).map(|i| [i, 0]).collect();
    match path.split(".*").next().expect("a beginning") {
        whole if whole == path => vec![[0, 0]],
        "boat.weights" => one(setup.boat.weights.len()),
        "boat.tanks" => one(setup.boat.tanks.len()),
        "boat.low_points" => one(setup.boat.low_points.len()),
        "boat.sections" => one(setup.boat.sections.len()),
        "boat.hull.deadrise" => one(setup.boat.hull.deadrise_at.len()),
        "boat.hull.strakes" => one(setup.boat.hull.strakes.len()),
        "measured.axles" => one(setup.measured.axles.len()),
        "trailer.axles" => one(setup.trailer.axles.len()),
        "trailer.crossmembers" => one(setup.trailer.crossmembers.len()),
        "trailer.tie_downs" => one(setup.trailer.tie_downs.len()),
        "trailer.low_points" => one(setup.trailer.low_points.len()),
        "weighings" => one(setup.weighings.len()),
        "tow.low_points" => one(setup.tow.low_points.len()),
        "ramps" if !path.contains("profile") => one(setup.ramps.len()),
        "ramps" => {
            let ramps = setup.ramps.iter().enumerate();
            ramps.flat_map(|(i, ramp)| (0..ramp.profile.len()).map(move |j| [i, j])).collect()
        }
        "cases" if !path.contains("fill") => one(setup.cases.len()),
        "cases" => {
            (0..setup.cases.len()).flat_map(|i| (0..setup.boat.tanks.len()).map(move |j| [i, j])).collect()
        }
        other => panic!("{other} is no list of this test"),
    }
}

#[test]
fn a_handle_is_named_as_its_path() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/rig/inputs");
    let mut found = 0;
    for file in fs::read_dir(folder).expect("a folder") {
        let text = fs::read_to_string(file.expect("a file").path()).expect("a text");
        for line in text.lines().filter(|line| line.starts_with("    ") && line.contains(" = \"")) {
            let Some((name, rest)) = line.trim().split_once(": ") else { continue };
            let Some(path) = rest.split('"').nth(1) else { continue };
            if INPUTS.iter().any(|input| input.path == path) {
                assert_eq!(name, path.replace(".*", "").replace('.', "_").to_uppercase());
                found += 1;
            }
        }
    }
    assert_eq!(found, INPUTS.len(), "every row once");
}

#[test]
fn paths_are_unique_and_defaults_fit_what_they_stand_for() {
    for (i, input) in INPUTS.iter().enumerate() {
        assert!(INPUTS[..i].iter().all(|other| other.path != input.path), "{} twice", input.path);
        match (input.default.map(|default| default.preset), input.holds) {
            (Some(Preset::Value(_)), Holds::Quantity(_) | Holds::Factor)
            | (Some(Preset::Count(_)), Holds::Count)
            | (Some(Preset::Word(_)), Holds::Choice | Holds::Flag)
            | (Some(Preset::Rule(_)) | None, _) => {}
            (preset, holds) => panic!("{}: {preset:?} for {holds:?}", input.path),
        }
        let plausible = input.plausible.is_none_or(|(least, most)| least < most);
        assert!(plausible, "{}: a range upside down", input.path);
        assert!(input.plausible.is_none() || input.kind().is_some(), "{}", input.path);
    }
}

#[test]
fn a_word_that_stands_by_default_is_one_that_the_file_may_state() {
    let text = format!("{FULL}\n[[ramps]]\nprofile = [ {{ length = \"30 ft\", grade = \"12 %\" }} ]\n");
    for input in INPUTS.iter() {
        let Some(Preset::Word(word)) = input.default.map(|default| default.preset) else { continue };
        let change = format!("{}={word}", input.path.replace('*', "1"));
        Rig::read("rig", &text, &[&change]).expect(&change);
    }
}

#[test]
fn every_rig_of_the_project_is_plausible() {
    for (name, text) in rigs() {
        let rig = Rig::parse(&text).expect(&name);
        for input in INPUTS.iter() {
            let Some((least, most)) = input.plausible else { continue };
            for at in elements(input.path, rig.measured()) {
                let Some(value) = input.si(rig.measured(), at) else { continue };
                assert!((least..=most).contains(&value), "{name}: {} {at:?} = {value}", input.path);
            }
        }
    }
}

/// What a report lists as assumed of axles stands as assumed at each of them.
#[test]
fn what_is_assumed_of_axles_is_so_of_each() {
    let mut listed = 0;
    for (name, text) in rigs() {
        let rig = Rig::parse(&text).expect(&name);
        let axles = 1..=rig.measured().trailer.axles.len();
        let stands = rig.measured().assumed().iter().map(ToString::to_string);
        let stands: BTreeSet<String> = stands.filter(|key| key.starts_with("trailer.axles.")).collect();
        let all = rig.assumed().iter().map(|assumed| &assumed.key);
        let said = all.filter(|key| key.starts_with("trailer.axles.")).flat_map(|key| {
            let of = |axle: usize| key.replace(".all.", &format!(".{axle}."));
            axles.clone().map(of)
        });
        let said: BTreeSet<String> = said.collect();
        let lost: Vec<&String> = said.difference(&stands).collect();
        assert!(lost.is_empty(), "{name}: {lost:?}");
        listed += said.len();
    }
    assert!(listed > 40, "{listed}");
}
