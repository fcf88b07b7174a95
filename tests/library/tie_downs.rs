//! Tie-downs and safety chains on whole rigs.

use crate::cases::cases;
use crate::hand::{RIG, assessed, in_us};
use bunkline::Rig;
use bunkline::fit::{Assessment, Row, Subject, Verdict, assess};
use proptest::prelude::*;

fn read(text: &str, changes: &[&str]) -> Assessment {
    let rig = Rig::read("rig.toml", text, changes).unwrap_or_else(|problems| panic!("{problems}"));
    assess(&rig).expect("a trailer at rest")
}

fn row<'a>(found: &'a Assessment, id: &str) -> &'a Row {
    found.check(id).unwrap_or_else(|| panic!("no row {id}"))
}

fn most(found: &Assessment, id: &str) -> f64 {
    in_us(row(found, id).max.unwrap_or_else(|| panic!("{id} has no limit")))
}

const EVERY: [&str; 9] = [
    "tie-down-forward",
    "tie-down-rearward",
    "tie-down-side",
    "tie-down-forward-breaking",
    "tie-down-rearward-breaking",
    "tie-down-side-breaking",
    "tie-down-down",
    "tie-down-total",
    "tie-down-number",
];

/// The rig with other tie-downs, each the lines of its entry.
fn with(tie_downs: &[&str]) -> String {
    let (before, after) = RIG.split_once("[[trailer.tie_downs]]").expect("tie-downs");
    let (_, after) = after.split_once("[[trailer.low_points]]").expect("a low point");
    let entries: String =
        tie_downs.iter().flat_map(|lines| ["[[trailer.tie_downs]]\n", *lines, "\n"]).collect();
    format!("{before}{entries}[[trailer.low_points]]{after}")
}

/// One strap that leads so far aft, out and down, in inches.
fn strap([aft, out, down]: [f64; 3], side: f64, more: &str) -> String {
    // The boat's end: 100 in from the transom, which is at 310 in, 30 above a keel that is 24 above ground.
    format!(
        "boat = {{ station = \"100 in\", height = \"30 in\", side = \"{side} in\" }}
trailer = {{ station = \"{} in\", height = \"{} in\", side = \"{} in\" }}
working = \"2000 lb\"
breaking = \"6000 lb\"
{more}",
        210.0 + aft,
        54.0 - down,
        side + out * side.signum(),
    )
}

#[test]
fn without_tie_downs_nothing_holds_and_nothing_passes() {
    let found = read(&with(&[]), &[]);
    assert!(found.not_covered.contains(&Subject::TieDowns));
    assert!(found.rows.iter().all(|row| row.check.subject != Subject::TieDowns));
}

#[test]
fn where_nothing_leads_that_way_the_row_advises_without_a_share() {
    let found = read(&with(&[&strap([0.0, 0.0, 20.0], 30.0, "")]), &["trailer.bow_stop_rating=500 lb"]);
    let aft = row(&found, "tie-down-rearward");
    assert_eq!((aft.verdict, aft.used), (Verdict::Advise, None));
    assert_eq!(most(&found, "tie-down-rearward"), 0.0);
    // The bow stop alone blocks the way forward.
    assert!((most(&found, "tie-down-forward") - 500.0).abs() < 1e-9);
}

#[test]
fn a_bow_stop_with_a_rating_counts_where_it_is_more_and_spares_a_strap() {
    let none = RIG.replace("bow_stop_rating = \"500 lb\"\n", "");
    let (found, by_straps) = (read(&none, &[]), 4000.0 * 10.0 / 712f64.sqrt());
    assert!((most(&found, "tie-down-forward") - by_straps).abs() < 1e-6);
    assert!((in_us(row(&found, "tie-down-number").load.expect("made")) - 4.0).abs() < 1e-12);
    assert_eq!(row(&found, "tie-down-number").verdict, Verdict::Advise);
    for (rating, holds) in [(1000.0, by_straps), (3000.0, 3000.0)] {
        let found = assessed(&[&format!("trailer.bow_stop_rating={rating} lb")]);
        assert!((most(&found, "tie-down-forward") - holds).abs() < 1e-6, "{rating}");
    }
    // 10 ft to the inch ask for one, and a hair more for two.
    for (feet, number) in [("30 ft", 3.0), ("30.1 ft", 4.0), ("25 ft", 3.0)] {
        let found = assessed(&[&format!("boat.length={feet}")]);
        assert!((in_us(row(&found, "tie-down-number").load.expect("made")) - number).abs() < 1e-12, "{feet}");
    }
}

#[test]
fn a_pair_is_two_and_one_over_the_boat_is_two_lines_that_count_whole() {
    let way = [10.0, 6.0, 24.0];
    let pair = read(&with(&[&strap(way, 30.0, "count = 2")]), &[]);
    let apart = read(&with(&[&strap(way, 30.0, ""), &strap(way, -30.0, "")]), &[]);
    let over = read(&with(&[&strap(way, 30.0, "over = true")]), &[]);
    for id in EVERY {
        assert!((most(&pair, id) - most(&apart, id)).abs() < 1e-9, "{id}");
        let same = ["tie-down-total", "tie-down-number"].contains(&id);
        let whole = if same { 0.0 } else { most(&pair, id) - most(&over, id) };
        assert!(whole.abs() < 1e-9, "{id}");
    }
    // Half of each of two, or the whole of one over the boat.
    assert!((most(&pair, "tie-down-total") - 2000.0).abs() < 1e-9);
    assert!((most(&over, "tie-down-total") - 2000.0).abs() < 1e-9);
    assert_eq!((most(&pair, "tie-down-number"), most(&over, "tie-down-number")), (2.0, 1.0));
}

#[test]
fn what_a_row_needs_is_named_and_nothing_else() {
    for (line, missing) in [
        ("working = \"2000 lb\"\n", [true, false, true, true]),
        ("breaking = \"6300 lb\"\n", [false, true, false, false]),
    ] {
        let found = read(&RIG.replacen(line, "", 1), &[]);
        let ids = ["tie-down-side", "tie-down-side-breaking", "tie-down-down", "tie-down-total"];
        for (id, missing) in ids.into_iter().zip(missing) {
            assert_eq!(row(&found, id).verdict == Verdict::NotChecked, missing, "{id} without {line}");
        }
    }
    let found = read(&RIG.replace("keel_height = \"24 in\"\n", ""), &[]);
    assert_eq!(row(&found, "tie-down-total").verdict, Verdict::Thin);
}

#[test]
fn a_tongue_drawn_in_takes_the_anchors_along_and_leaves_the_boat() {
    // The straps lead 10 in aft, and 4 in with the tongue drawn in by 6.
    let found = assessed(&["shift.tongue=6 in"]);
    let length = (4.0f64 * 4.0 + 36.0 + 576.0).sqrt();
    assert!((most(&found, "tie-down-forward") - 4000.0 * 4.0 / length).abs() < 1e-6);
    let found = assessed(&["shift.boat=-6 in"]);
    let length = (16.0f64 * 16.0 + 36.0 + 576.0).sqrt();
    assert!((most(&found, "tie-down-forward") - 4000.0 * 16.0 / length).abs() < 1e-6);
}

#[test]
fn chains_are_judged_each_by_its_class_and_together() {
    let rig = "format = 1\n[trailer]\ngvwr = \"GVWR\"\nsafety_chains = { count = 2, breaking = \"CHAIN\" }\n[[trailer.axles]]\nstation = \"12 ft\"\n";
    for (gvwr, chain, one, verdict) in [
        // Below the first class a chain is for nothing.
        ("1600 lb", "1800 lb", 0.0, Verdict::Advise),
        ("3900 lb", "1900 lb", 0.0, Verdict::Fail),
        ("2000 lb", "2000 lb", 2000.0, Verdict::Thin),
        ("2100 lb", "3400 lb", 2000.0, Verdict::Advise),
        ("3600 lb", "4200 lb", 3500.0, Verdict::Advise),
        ("3100 lb", "4200 lb", 3500.0, Verdict::Pass),
        ("6000 lb", "5000 lb", 5000.0, Verdict::Advise),
        ("6000 lb", "7000 lb", 7000.0, Verdict::Pass),
        ("10100 lb", "5000 lb", 5000.0, Verdict::Fail),
    ] {
        let found = read(&rig.replace("GVWR", gvwr).replace("CHAIN", chain), &[]);
        assert!((most(&found, "safety-chains") - one).abs() < 1e-9, "{gvwr}, {chain}");
        assert_eq!(row(&found, "safety-chains").verdict, verdict, "{gvwr}, {chain}");
    }
    // What it weighs counts where that is more than its GVWR, and where there is none.
    let heavy = assessed(&["trailer.gvwr=7000 lb"]);
    assert!((in_us(row(&heavy, "safety-chains").load.expect("made")) - 8000.0).abs() < 1e-6);
    let silent = read(&RIG.replace("gvwr = \"8100 lb\"\n", ""), &[]);
    assert!((in_us(row(&silent, "safety-chains").load.expect("made")) - 8000.0).abs() < 1e-6);
    // One that fails is not hidden by a count that is missing, nor does one pass.
    let counts = |chain: &str| {
        let text = RIG.replace("count = 2, breaking = \"7000 lb\"", &format!("breaking = \"{chain}\""));
        row(&read(&text, &[]), "safety-chains").verdict
    };
    assert_eq!((counts("7000 lb"), counts("9000 lb")), (Verdict::NotChecked, Verdict::NotChecked));
}

fn any_strap() -> impl Strategy<Value = (String, String)> {
    let way = (-30.0..30.0_f64, 1.0..20.0_f64, 2.0..24.0_f64);
    (way, 10.0..45.0_f64, any::<bool>(), any::<bool>(), 200.0..4000.0_f64, 1.0..8.0_f64).prop_map(
        |((aft, out, down), side, port, over, working, stretch)| {
            let side = if port { -side } else { side };
            let entry = |side: f64| {
                strap([aft, out, down], side, &format!("stretch = \"{stretch} %\"\nover = {over}"))
                    .replace("2000 lb", &format!("{working} lb"))
                    .replace("6000 lb", &format!("{} lb", 3.0 * working))
            };
            (entry(side), entry(-side))
        },
    )
}

proptest! {
    #![proptest_config(cases(40))]

    #[test]
    fn order_and_side_do_not_matter(straps in prop::collection::vec(any_strap(), 1..5)) {
        let of = |entries: Vec<&str>| read(&with(&entries), &[]);
        let found = of(straps.iter().map(|(one, _)| one.as_str()).collect());
        let turned = of(straps.iter().rev().map(|(one, _)| one.as_str()).collect());
        let mirrored = of(straps.iter().map(|(_, other)| other.as_str()).collect());
        for id in EVERY {
            let holds = most(&found, id);
            for other in [&turned, &mirrored] {
                prop_assert!((most(other, id) - holds).abs() <= 1e-9 * holds.max(1.0), "{id}");
            }
        }
    }

    #[test]
    fn a_weaker_strap_never_holds_more(
        straps in prop::collection::vec(any_strap(), 1..5), of in 0_usize..5, left in 0.1..1.0,
    ) {
        let entries: Vec<&str> = straps.iter().map(|(one, _)| one.as_str()).collect();
        let text = with(&entries);
        let (found, of) = (read(&text, &[]), of % entries.len() + 1);
        for (key, ids) in [("working", [0, 1, 2, 6, 7]), ("breaking", [3, 4, 5, 3, 4])] {
            let rig = Rig::read("rig.toml", &text, &[] as &[&str]).expect("it reads");
            let variable = rig.variable(&format!("trailer.tie_downs.{of}.{key}")).expect("a quantity");
            let now = rig.value(&variable).expect("a value");
            // Below what it works at nothing breaks: that is a mistake.
            let Ok(weaker) = rig.changed(&variable, now * left) else { continue };
            let weaker = assess(&weaker).expect("it rests");
            for (i, id) in EVERY.into_iter().enumerate() {
                let (less, holds) = (most(&weaker, id), most(&found, id));
                prop_assert!(less <= holds * (1.0 + 1e-12), "{id} with a weaker {key}");
                prop_assert!(ids.contains(&i) || less == holds, "{id} with a weaker {key}");
            }
        }
    }
}
