//! What the README shows is what the program prints, and the starter file does what the README says.

use bunkline::fit::Caution;
use bunkline::quantity::show::UnitSystem;
use bunkline::rig::starter::{Question, file};
use std::process::Command;

fn bunkline(arguments: &[&str]) -> (String, Option<i32>) {
    let output = Command::new(env!("CARGO_BIN_EXE_bunkline"))
        .args(arguments)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .expect("the program runs");
    (String::from_utf8(output.stdout).expect("it prints UTF-8"), output.status.code())
}

#[test]
fn what_is_shown_is_what_is_printed() {
    let readme = include_str!("../../README.md");
    let blocks = readme.split("```console\n").skip(1).filter_map(|rest| rest.split("```").next());
    let mut codes = Vec::new();
    for block in blocks.filter(|block| !is_cut_short(block)) {
        let (command, shown) = block.split_once('\n').expect("a command above what it prints");
        let arguments: Vec<&str> = command.split_whitespace().skip(2).collect();
        let (printed, code) = bunkline(&arguments);
        for (shown, printed) in shown.lines().zip(printed.lines()) {
            assert_eq!(shown, printed, "paste the report anew");
        }
        assert_eq!(shown.lines().count(), printed.lines().count(), "paste anew:\n{printed}");
        codes.push(code);
    }
    // The rig as found fails its check; scales, a card and a sweep have done their job, and the club's rigs pass.
    assert_eq!(codes, [Some(1), Some(0), Some(0), Some(0), Some(0)]);
}

fn is_cut_short(block: &str) -> bool {
    block.ends_with("  ...\n")
}

#[test]
fn the_place_shown_is_the_beginning_of_what_is_printed() {
    let readme = include_str!("../../README.md");
    let blocks = readme.split("```console\n").skip(1).filter_map(|rest| rest.split("```").next());
    let block = blocks.into_iter().find(|block| is_cut_short(block));
    let (command, shown) = block.and_then(|block| block.split_once('\n')).expect("the README shows a place");
    let shown = shown.strip_suffix("  ...\n").expect("it is cut short");
    let (printed, code) = bunkline(&command.split_whitespace().skip(2).collect::<Vec<_>>());
    assert!(printed.starts_with(shown), "paste the report anew");
    assert_eq!(code, Some(1));
}

#[test]
fn the_starter_file_is_incomplete_until_it_is_filled_in() {
    let (starter, code) = bunkline(&["new"]);
    assert_eq!(code, Some(0));
    let check = |text: &str| {
        let rig = bunkline::Rig::read("starter", text, &[] as &[&str]).expect("it reads");
        bunkline::fit::assess(&rig).expect("it settles")
    };
    assert_eq!(check(&starter).verdict, bunkline::fit::RigVerdict::Incomplete);

    // Every line offered for filling in is right: with the # taken off, every check is made and passes.
    let filled = bunkline::rig::starter::filled(&starter);
    let found = check(&filled);
    let unmade: Vec<String> = found
        .rows
        .iter()
        .filter(|row| row.verdict == bunkline::fit::Verdict::NotChecked)
        .map(bunkline::fit::Row::id)
        .collect();
    assert!(unmade.is_empty(), "{unmade:?}");
    assert_eq!(found.verdict, bunkline::fit::RigVerdict::Pass);
    // The examples agree with each other, whatever their bounds allow.
    let rig = bunkline::Rig::read("starter", &filled, &[] as &[&str]).expect("it reads");
    let (findings, _) = bunkline::study::uncertainty::examine(&rig).expect("it settles");
    assert_eq!(findings.assessment.verdict, bunkline::fit::RigVerdict::Pass);
    let disagrees =
        |caution: &Caution| matches!(caution, Caution::ChineOffDeadrise(_) | Caution::KeelOffBunks(_));
    assert!(!findings.cautions.iter().any(disagrees), "{:?}", findings.cautions);
    for (arguments, question) in [
        (vec!["new", "--for", "scales"], Question::Scales),
        (vec!["new", "--for", "level"], Question::Level),
        (vec!["new", "--for", "ramp"], Question::Ramp),
        (vec!["new", "--for", "bunks"], Question::Bunks),
    ] {
        let metric = [&arguments[..], &["--units", "metric"]].concat();
        assert_eq!(bunkline(&arguments).0, file(UnitSystem::Us, Some(question)));
        assert_eq!(bunkline(&metric).0, file(UnitSystem::Metric, Some(question)));
    }
}
