//! One resolution of paths: an element of any list goes by its number, else by its id or name.

use bunkline::Rig;
use bunkline::rig::Fault;
use bunkline::rig::inputs::{BOAT_TANKS_FILL, CASES_FILL};

const TWO_TANKS: &str = r#"
format = 1
[[boat.tanks]]
id = "2"
[[boat.tanks]]
id = "aft"
[[cases]]
name = "home"
[[cases]]
name = "1"
fill = { 2 = "40 %", aft = "50 %" }
[[trailer.axles]]
station = "5 m"
"#;

#[test]
fn a_number_is_a_place_in_every_list_and_a_name_what_is_no_number_there() {
    let rig = Rig::parse(TWO_TANKS).expect("it reads");
    let keys = |path: &str| rig.variable(path).expect(path).keys().collect::<Vec<_>>();
    assert_eq!(keys("cases.1.fill.aft"), [CASES_FILL.at([0, 1])]);
    assert_eq!(keys("cases.2.fill.2"), [CASES_FILL.at([1, 1])], "the second tank, not the one with the id 2");
    assert_eq!(keys("cases.home.fill.1"), [CASES_FILL.at([0, 0])]);
    assert_eq!(keys("boat.tanks.2.fill"), [BOAT_TANKS_FILL.of(1)]);
    assert_eq!(keys("boat.tanks.aft.fill"), [BOAT_TANKS_FILL.of(1)]);
    assert_eq!(keys("cases.all.fill.1").len(), 2);
    for path in ["cases.3.fill.1", "cases.0.fill.1", "boat.tanks.after.fill"] {
        assert!(matches!(rig.variable(path), Err(Fault::NoSuchElement { .. })), "{path}");
    }
    // A file names a tank by its id alone.
    assert_eq!(CASES_FILL.get_at(rig.measured(), [1, 0]).map(|fill| fill.value), Some(0.4));
}

#[test]
fn the_paths_of_a_variable_lead_back_to_its_keys() {
    let rig = Rig::parse(TWO_TANKS).expect("it reads");
    for path in
        ["cases.all.fill.all", "cases.home.fill.all", "boat.tanks.all.fill", "trailer.axles.all.station"]
    {
        let variable = rig.variable(path).expect(path);
        let back = rig
            .paths(&variable)
            .into_iter()
            .flat_map(|path| rig.variable(&path).expect("its own path").keys().collect::<Vec<_>>());
        assert_eq!(back.collect::<Vec<_>>(), variable.keys().collect::<Vec<_>>(), "{path}");
    }
}

#[test]
fn a_name_that_several_have_names_none() {
    let rig = Rig::parse(&TWO_TANKS.replace("\"1\"", "\"home\"")).expect("it reads");
    assert!(matches!(rig.variable("cases.home.fill.1"), Err(Fault::NoSuchElement { near: None, .. })));
}
