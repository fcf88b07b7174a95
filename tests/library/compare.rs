//! Rigs side by side: their order, what is missing, and that a rig does not differ from itself.

use crate::cases::cases;
use crate::properties::sketch::{Texts, sketches};
use bunkline::fit::{Group, RigVerdict, Subject};
use bunkline::quantity::Quantity;
use bunkline::rig::{IncludeFault, Sources, include};
use bunkline::study::compare::{Choice, Compared, Standing, compare};
use bunkline::{Rig, report};
use proptest::prelude::*;

const POUND: f64 = 0.453_592_37 * 9.806_65;

/// 6000 lb of boat on one axle, with nothing near a rating and the tongue in its band.
const FITS: &str = r#"
[boat]
bow_eye = { station = "250 in", height = "30 in" }
[[boat.weights]]
weight = "6000 lb"
station = "100 in"
height = "26 in"
[trailer]
weight = "2000 lb"
cg = "180 in"
gvwr = "20000 lb"
bow_stop = "60 in"
keel_height = "24 in"
level_ball_height = "20 in"
suspension = { kind = "torsion" }
coupler = { rating = "20000 lb", tongue_rating = "2000 lb" }
[[trailer.axles]]
station = "220 in"
rating = "12000 lb"
braked = true
tires = { radius = "14 in", rating = "7000 lb" }
wheels = { rating = "7000 lb" }
"#;

fn read(text: &str, changes: &[&str]) -> Rig {
    Rig::read("rig.toml", &format!("format = 1\n{text}"), changes)
        .unwrap_or_else(|problems| panic!("{problems}"))
}

fn choice(name: &str, changes: &[&str]) -> Choice {
    Choice::of(name, read(FITS, changes)).expect("it rests on its wheels")
}

fn order(compared: &Compared) -> Vec<&str> {
    compared.choices.iter().map(|choice| choice.name.as_str()).collect()
}

/// Each by what it takes: nothing, a move, a part, and a GVWR below the trailer's own weight and half
/// the boat, which no plan meets.
#[test]
fn rigs_are_ranked_by_verdict_and_then_by_what_their_plans_cost() {
    let compared = compare(vec![
        choice("hopeless", &["trailer.gvwr=4000 lb"]),
        choice("ashore", &["trailer.gvwr=7500 lb"]),
        choice("part", &["trailer.coupler.rating=7000 lb"]),
        choice("move", &["shift.boat=6 in"]),
        choice("fits", &[]),
    ]);
    assert_eq!(order(&compared), ["fits", "move", "part", "ashore", "hopeless"]);
    let costs: Vec<_> = compared.choices.iter().map(Choice::cost).collect();
    let counts: Vec<_> = costs.iter().map(|cost| (cost.fails, cost.parts, cost.moves)).collect();
    assert_eq!(counts, [(0, 0, 0), (0, 0, 1), (0, 1, 0), (0, 0, 0), (1, 0, 0)]);
    // 8000 − 7500 = 500 lb.
    assert!((costs[3].ashore.si() / POUND - 500.0).abs() < 1e-6);
    assert!(compared.has_answer() && !compared.is_alike);
    assert!(!compare(vec![choice("hopeless", &["trailer.gvwr=4000 lb"])]).has_answer());
}

/// Of "bare" the axle's rating and the wheels' are missing as well as the coupler's, so that more checks are. "heavy" is over
/// a GVWR that nothing but weight ashore meets, and passes after that.
#[test]
fn a_rig_of_which_too_little_is_known_never_stands_before_one_that_passes() {
    let without = |keys: &[&str]| {
        let rig = keys.iter().fold(FITS.to_string(), |text, key| {
            assert!(text.contains(key), "{key}");
            text.replace(key, "")
        });
        read(&rig, &[])
    };
    let coupler = "coupler = { rating = \"20000 lb\", tongue_rating = \"2000 lb\" }\n";
    let bare = without(&[coupler, "rating = \"12000 lb\"\n", "wheels = { rating = \"7000 lb\" }\n"]);
    let bare = Choice::of("bare", bare).expect("at rest");
    let lacking = Choice::of("lacking", without(&[coupler])).expect("at rest");
    assert!([&bare, &lacking].map(|one| one.found.verdict) == [RigVerdict::Incomplete; 2]);
    let compared = compare(vec![
        bare.clone(),
        choice("hopeless", &["trailer.gvwr=4000 lb"]),
        lacking.clone(),
        choice("heavy", &["trailer.gvwr=7500 lb"]),
        choice("fits", &[]),
    ]);
    assert_eq!(order(&compared), ["fits", "heavy", "lacking", "bare", "hopeless"]);
    assert!(compared.has_answer());
    assert_eq!(compared.choices[2].standing(), Standing::Incomplete(1));
    assert_eq!(compared.choices[3].standing(), Standing::Incomplete(3));
    // One that may fit, or that fits once something is bought, is no answer yet.
    assert!(!compare(vec![bare, lacking]).has_answer());
    assert!(!compare(vec![choice("part", &["trailer.coupler.rating=7000 lb"])]).has_answer());
}

/// A boat of 6000 lb lies on no trailer lighter than 900 lb: of a GVWR of 6500 lb less is left, whatever else is known.
#[test]
fn a_gvwr_that_no_trailer_for_the_boat_keeps_ranks_behind_what_is_merely_unknown() {
    let unweighed = FITS.replace("weight = \"2000 lb\"\ncg = \"180 in\"\n", "");
    let parts = "tires = { radius = \"14 in\", rating = \"7000 lb\" }\nwheels = { rating = \"7000 lb\" }\n";
    let of = |name: &str, text: &str, gvwr: &str| {
        let rig = read(&text.replace("20000 lb\"\nbow", &format!("{gvwr}\"\nbow")), &[]);
        Choice::of(name, rig).expect("at rest")
    };
    let small = of("small", &unweighed, "6500 lb");
    let enough = of("enough", &unweighed.replace(parts, ""), "7000 lb");
    assert!([&small, &enough].map(|one| one.found.verdict) == [RigVerdict::Incomplete; 2]);
    assert_eq!(small.standing(), Standing::TooSmall);
    // Of the other one as many checks are missing, or more.
    assert!(enough.standing() >= of("known", &unweighed, "7000 lb").standing());
    let compared = compare(vec![small, choice("hopeless", &["trailer.gvwr=4000 lb"]), enough]);
    assert_eq!(order(&compared), ["enough", "small", "hopeless"]);
}

#[test]
fn what_is_missing_of_one_rig_is_named_with_its_keys() {
    let without = FITS.replace("bow_stop = \"60 in\"\n", "");
    let tow = "[tow]\nball_height = \"20 in\"\ntow_rating = \"9000 lb\"\n";
    let whole = Choice::of("whole", read(&format!("{FITS}{tow}"), &[])).expect("at rest");
    let lacking = Choice::of("lacking", read(&without, &[])).expect("nothing settles");
    assert_eq!(lacking.found.verdict, RigVerdict::Incomplete);
    let compared = compare(vec![whole, lacking]);
    let at = order(&compared).iter().position(|name| *name == "lacking").expect("it is compared");
    let gap = compared.gaps.iter().find(|gap| gap.choice == at).expect("it lacks its bow stop");
    assert_eq!(gap.subjects[..], [Subject::Tow]);
    let ids: Vec<String> = gap.checks.iter().map(bunkline::fit::Row::id).collect();
    assert!(
        ids.contains(&"tongue-share".to_string()) && !ids.iter().any(|id| id.starts_with("tow-")),
        "{ids:?}"
    );
    assert!(gap.keys.iter().any(|key| key.to_string() == "trailer.bow_stop"), "{:?}", gap.keys);
    // The report has a line of each: all of the one rig, though the other cannot settle nor describes its tow vehicle.
    let groups: Vec<Group> = compared.groups().collect();
    for group in [Group::Tongue, Group::Axles, Group::Of(Subject::Tow)] {
        assert!(groups.contains(&group), "{group:?}: {groups:?}");
    }
}

/// Both fail alike, as the boat stands 6 in too far aft; where the file says that it goes no farther forward than it was, its
/// plan is another.
#[test]
fn rigs_whose_plans_differ_are_not_alike() {
    let aft = "shift.boat=6 in";
    let free = choice("free", &[aft]);
    let held = choice("held", &[aft, "travel.boat=[\"0 in\", \"7 in\"]"]);
    assert_eq!(free.found.rows, held.found.rows);
    assert!(!compare(vec![free.clone(), held]).is_alike);
    assert!(compare(vec![free.clone(), free]).is_alike);
}

fn sources(name: &str, text: &str) -> Sources {
    include(name, text, (), |(), _| Err(IncludeFault::NoFolder))
        .unwrap_or_else(|problems| panic!("{problems}"))
}

/// A boat file and a trailer file give the rig that one file with both gives; what each says beside that is not read.
#[test]
fn a_boat_on_another_trailer_is_the_rig_of_one_file() {
    let (boat, trailer) = FITS.split_at(FITS.find("[trailer]").expect("a trailer"));
    let whole = read(&format!("title = \"on the new one\"\n[shift]\nboat = \"2 in\"\n{FITS}"), &[]);
    let old = "[trailer]\nweight = \"9000 lb\"\nbunks = \"nonsense\"\n[measured]\ngross_trailer_weight = \"1 lb\"\n";
    let boat =
        format!("format = 1\ntitle = \"on the old one\"\n{boat}{old}[travel]\nboat = [\"0 in\", \"1 in\"]\n");
    let other = "[[boat.weights]]\nweight = \"1 lb\"\n[tow]\nwheelbase = \"3 m\"\n";
    let trailer =
        format!("format = 1\ntitle = \"on the new one\"\n[shift]\nboat = \"2 in\"\n{other}{trailer}");
    let both = sources("boat.toml", &boat).on_trailer(&sources("trailer.toml", &trailer));
    let rig = Rig::from_sources(both, &[] as &[&str]).unwrap_or_else(|problems| panic!("{problems}"));
    assert_eq!((rig.measured(), rig.proposed()), (whole.measured(), whole.proposed()));
    // A mistake is shown in the file that holds it.
    let boat = boat.replace("6000 lb", "6000");
    let both = sources("boat.toml", &boat).on_trailer(&sources("trailer.toml", &trailer));
    let problems = Rig::from_sources(both, &[] as &[&str]).expect_err("a weight without its unit");
    let at = problems.list[0].at.as_ref().expect("its place");
    assert_eq!(problems.sources.get(at.source).name, "boat.toml");
}

/// Whether two reports of a comparison differ between columns 2 and 3 of any table.
fn differs(compared: &Compared) -> bool {
    use report::document::Block;
    let document = report::compare::report(compared, None, &[], bunkline::quantity::show::UnitSystem::Us);
    let tables = document.blocks().iter().filter_map(|block| match block {
        Block::Table(table) => Some(table),
        _ => None,
    });
    tables.flat_map(|table| &table.rows).any(|row| row[1] != row[2])
}

proptest! {
    #![proptest_config(cases(3))]

    #[test]
    fn a_rig_does_not_differ_from_itself(sketch in sketches(2)) {
        let rig = read(sketch.write(Texts::Us).trim_start_matches("format = 1\n"), &[]);
        let one = Choice::of("rig.toml", rig).expect("at rest");
        let compared = compare(vec![one.clone(), one.clone()]);
        prop_assert!(compared.is_alike && !differs(&compared));
        let mut gaps: Vec<usize> = compared.gaps.iter().map(|gap| gap.choice).collect();
        gaps.dedup();
        prop_assert!(gaps.is_empty() || gaps == [0, 1]);
        prop_assert_eq!(one.cost(), compared.choices[1].cost());
    }
}
