//! A rig in several files is the rig that one file describes.

use super::inputs::rigs;
use crate::cases::cases;
use crate::pieces::{cut, name};
use bunkline::rig::{Fault, IncludeFault, Included, Problems, Sources, include};
use bunkline::{Rig, fit};
use proptest::prelude::*;
use std::collections::BTreeMap;

const NO_CHANGES: &[&str] = &[];

/// The texts of files that are held in a map by their paths.
fn read(files: &BTreeMap<String, String>) -> Result<Sources, Problems> {
    let first = name(0);
    include(&first, &files[&first], first.clone(), |by, path| {
        let deeper = by.starts_with("deeper/");
        let place = match path.strip_prefix("../") {
            Some(up) => up.to_string(),
            None if deeper => format!("deeper/{path}"),
            None => path.to_string(),
        };
        let text = files.get(&place).ok_or_else(|| IncludeFault::Unread(format!("expected {place}")))?;
        Ok(Included { name: place.clone(), place, text: text.clone() })
    })
}

proptest! {
    #![proptest_config(cases(200))]

    #[test]
    fn pieces_give_the_whole(
        rig in 0..rigs().len(),
        parents in prop::collection::vec(0_usize..8, 0..6),
        choices in prop::collection::vec(0_usize..60, 1..80),
    ) {
        let (path, whole) = &rigs()[rig];
        let whole = Rig::read(path, whole, NO_CHANGES).expect("a rig of the project");
        let files = cut(&rigs()[rig].1, &parents, &choices);
        let sources = read(&files).map_err(|problems| TestCaseError::fail(format!("{problems}: {files:#?}")))?;
        let pieces = Rig::from_sources(sources, NO_CHANGES).expect("a rig");
        prop_assert_eq!(pieces.measured(), whole.measured());
        prop_assert_eq!(pieces.proposed(), whole.proposed());
        prop_assert_eq!(pieces.assumed(), whole.assumed());
        prop_assert_eq!(pieces.uncertain(), whole.uncertain());
    }
}

#[test]
fn a_change_to_a_rig_in_pieces_is_a_change_to_the_whole() {
    let text = include_str!("../../../demo-data/survey-launch-as-changed.toml");
    let choices: Vec<usize> = (0..50).map(|i| i * 7).collect();
    let pieces = Rig::from_sources(read(&cut(text, &[0, 1, 0], &choices)).expect("no clash"), NO_CHANGES);
    let pieces = pieces.expect("a rig").with("tow.ball_height=21in").expect("a change");
    let whole = Rig::parse(text).expect("a rig").with("tow.ball_height=21in").expect("a change");
    assert_eq!(pieces.proposed(), whole.proposed());
    assert_eq!(fit::assess(&pieces), fit::assess(&whole));
}

/// The first fault of a rig in these two files.
fn fault(rig: &str, other: &str) -> Fault {
    let files = BTreeMap::from([(name(0), rig.to_string()), (name(1), other.to_string())]);
    read(&files).expect_err("a fault").list.remove(0).fault
}

#[test]
fn each_key_stands_in_one_file() {
    let rig = |rest: &str| format!("include = [\"piece-1.toml\"]\nformat = 1\n{rest}");
    for (first, second, twice) in [
        ("", "format = 1", "format"),
        ("title = \"a\"", "title = \"a\"", "title"),
        ("tow.name = \"a\"", "[tow]\nname = \"b\"", "tow.name"),
        ("tow = { name = \"a\" }", "tow.name = \"b\"", "tow.name"),
        ("trailer.axles = []", "[[trailer.axles]]", "trailer.axles"),
        ("trailer = 1", "[trailer.coupler]", "trailer"),
        ("[[cases]]", "[[cases]]\nfill = { a = \"5 %\" }", "cases"),
        ("hitch.ball = \"none\"", "[hitch.ball]\nrating = \"1 lb\"", "hitch.ball"),
        ("[boat.hull]\ndeadrise = \"18 deg\"", "[boat]\nhull.deadrise = []", "boat.hull.deadrise"),
    ] {
        let found = Fault::Repeated { found: twice.to_string(), is_list: false };
        assert_eq!(fault(&rig(first), second), found, "{first} and {second}");
    }
}

#[test]
fn a_text_by_itself_includes_nothing() {
    let problems = Rig::parse("include = [\"a.toml\"]\nformat = 1").expect_err("a fault");
    assert_eq!(problems.list[0].fault, Fault::Include(IncludeFault::NoFolder));
    let rig = Rig::parse("include = []\nformat = 1\n[[trailer.axles]]").expect("nothing is included");
    let problems = rig.with("include=[]").expect_err("no key of a rig");
    assert_eq!(problems.list[0].fault, Fault::Include(IncludeFault::InChange));
    assert!(matches!(rig.variable("include.1"), Err(Fault::Include(IncludeFault::InChange))));
}

#[test]
fn what_repeats_is_told_from_what_goes_round() {
    let itself = "include = [\"rig.toml\"]";
    let again = |path: &str| Fault::Include(IncludeFault::Again(path.to_string()));
    let cycle = |path: &str| Fault::Include(IncludeFault::Cycle(path.to_string()));
    assert_eq!(fault(itself, ""), cycle("rig.toml"));
    assert_eq!(fault("include = [\"piece-1.toml\"]", itself), cycle("rig.toml"));
    assert_eq!(fault("include = [\"piece-1.toml\"]", "include = [\"piece-1.toml\"]"), cycle("piece-1.toml"));
    assert_eq!(fault("include = [\"piece-1.toml\", \"piece-1.toml\"]", ""), again("piece-1.toml"));
}
