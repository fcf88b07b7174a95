//! The starter file teaches every key, and each of its forms reads and can be evaluated.

use crate::uses::USES;
use bunkline::Rig;
use bunkline::fit::{Assessment, RigVerdict, Subject, Verdict, assess};
use bunkline::quantity::show::UnitSystem::{self, Metric, Us};
use bunkline::rig::INPUTS;
use bunkline::rig::starter::Question::{self, Bunks, Launch, Level, Ramp, Scales};
use bunkline::rig::starter::{examples, file, filled};
use bunkline::study::uses::Uses;
use std::collections::BTreeSet;

const QUESTIONS: [Option<Question>; 6] =
    [None, Some(Scales), Some(Level), Some(Ramp), Some(Bunks), Some(Launch)];

/// The rig that a starter file describes once all that it offers is filled in.
fn rig(units: UnitSystem, question: Option<Question>) -> Rig {
    let text = filled(&file(units, question));
    Rig::parse(&text).unwrap_or_else(|problems| panic!("{question:?} in {units:?}: {problems}"))
}

fn assessed(units: UnitSystem, question: Option<Question>) -> Assessment {
    assess(&rig(units, question)).expect("it rests on its wheels")
}

/// The subjects of a question's rows.
fn subjects(question: Option<Question>) -> &'static [Subject] {
    match question {
        None => &[
            Subject::Road,
            Subject::Hitch,
            Subject::Tow,
            Subject::Ramp,
            Subject::Bunks,
            Subject::Brakes,
            Subject::Launch,
        ],
        // Those of the road lack what is lifted, the springs and the jack; the verdict stands for the rest.
        Some(Scales) => &[Subject::Brakes],
        Some(Level) => &[Subject::Road, Subject::Hitch, Subject::Tow, Subject::Brakes],
        Some(Ramp) => &[Subject::Ramp],
        Some(Bunks) => &[Subject::Bunks],
        Some(Launch) => &[Subject::Launch],
    }
}

/// The path of the key that each line of a starter file offers, with the line's number from 0.
fn offered(text: &str) -> Vec<(usize, String)> {
    let (mut table, mut found) = (String::new(), Vec::new());
    for (i, line) in text.lines().enumerate() {
        let line = line.trim_start_matches("# or ").trim_start_matches('#');
        if line.starts_with('[') {
            table =
                line.trim_matches(['[', ']']).to_string() + if line.starts_with("[[") { ".*." } else { "." };
        }
        let Some((key, value)) = line.split_once(" = ").filter(|(key, _)| !key.contains(' ')) else {
            continue;
        };
        let inner: &[&str] = match key {
            "profile" => &[".*.length", ".*.grade"],
            "deadrise" if value.starts_with('[') => &[".*.station", ".*.deadrise"],
            "fill" if value.starts_with('{') => &[".*"],
            "axles" if table == "measured." => &[".*"],
            _ => &[""],
        };
        found.extend(inner.iter().map(|inner| (i, format!("{table}{key}{inner}"))));
    }
    found
}

#[test]
fn every_key_of_the_format_stands_in_the_full_file_with_a_comment() {
    for units in [Us, Metric] {
        let text = file(units, None);
        let lines: Vec<&str> = text.lines().collect();
        let mut met = BTreeSet::new();
        for (i, path) in offered(&text) {
            assert!(INPUTS.iter().any(|input| input.path == path), "{path} is no key");
            if !met.insert(path.clone()) {
                continue;
            }
            // A comment on the line or above it, or above what begins there, says what it is; names speak for themselves.
            let mut above = lines[..i]
                .iter()
                .rev()
                .skip_while(|line| line.starts_with(['#', '[']) && !line.starts_with("# "));
            let said = lines[i].contains("  # ") || above.next().is_some_and(|line| line.starts_with("# "));
            assert!(said, "{path} has no comment");
        }
        // A part that is not there is spoken of in a comment: it would contradict the lines below it.
        let absent = ["hitch.receiver", "hitch.ball_mount", "hitch.ball"];
        let keys = INPUTS.iter().map(|input| input.path).filter(|path| !absent.contains(path));
        let keys: BTreeSet<String> = keys.map(str::to_string).collect();
        assert_eq!(met, keys);
    }
}

#[test]
fn every_form_reads_as_it_is_printed_and_filled_in() {
    for question in QUESTIONS {
        for units in [Us, Metric] {
            let text = file(units, question);
            let empty = Rig::parse(&text).unwrap_or_else(|problems| panic!("{question:?}: {problems}"));
            assert_eq!(assess(&empty).expect("no load yet").verdict, RigVerdict::Incomplete);
            let prose = text.lines().filter(|line| line.contains("# ") && !line.starts_with("# or "));
            for line in prose {
                assert!(line.chars().count() <= 80, "{line}");
            }
            for row in &assessed(units, question).rows {
                // The short file about the level leaves out what only advises.
                let advice = question == Some(Level) && !row.counts;
                let asked = subjects(question).contains(&row.check.subject) && !advice;
                assert!(!asked || row.verdict != Verdict::NotChecked, "{}: {:?}", row.id(), row.missing);
            }
        }
    }
    assert_eq!(assessed(Us, None).verdict, RigVerdict::Pass);
    assert_eq!(assessed(Us, Some(Scales)).verdict, RigVerdict::Pass);
    assert_eq!(examples().len(), 2);
    for rig in examples() {
        assert_eq!(assess(&rig).expect("it rests on its wheels").verdict, RigVerdict::Pass);
    }
}

#[test]
fn a_form_names_the_command_that_answers_it() {
    for (question, command) in [
        (None, "check"),
        (Some(Scales), "check"),
        (Some(Level), "check"),
        (Some(Ramp), "ramp"),
        (Some(Bunks), "bunks"),
        (Some(Launch), "launch"),
    ] {
        for units in [Us, Metric] {
            let text = file(units, question);
            let run: Vec<&str> = text.lines().filter(|line| line.contains(" rig.toml")).collect();
            assert_eq!(run, [format!("#     bunkline {command} rig.toml")], "{question:?}");
        }
    }
}

/// Units that no metric owner would write, though the rig file reads them: tires are pumped up in bar.
const FOREIGN: [&str; 11] =
    [" in", " ft", " lb", " psi", " ksi", " gal", " mph", " ft/min", " ft2", " in3", " kPa"];

#[test]
fn a_metric_file_speaks_metric_alone() {
    let text = file(Metric, None);
    for line in text.lines() {
        let value = line.rsplit_once(" # ").map_or(line, |(value, _)| value);
        for quoted in value.split('"').skip(1).step_by(2) {
            let foreign = FOREIGN.iter().any(|unit| quoted.ends_with(unit));
            assert!(!foreign || line.contains("bunk_pressure"), "{line}");
        }
        let mut words = line.split(|c: char| !c.is_alphabetic());
        assert!(!words.any(|word| ["inch", "inches", "feet"].contains(&word)), "{line}");
    }
    for natural in ["speed = \"100 km/h\"", "tires.pressure = \"4.5 bar\"", "ball_size = \"70 mm\""] {
        assert!(text.contains(natural), "{natural}");
    }
}

#[test]
fn the_metric_twin_comes_to_the_same() {
    for question in QUESTIONS {
        let (us, metric) = (assessed(Us, question), assessed(Metric, question));
        assert_eq!(us.verdict, metric.verdict);
        for (us, metric) in us.rows.iter().zip(&metric.rows) {
            assert_eq!((us.id(), us.verdict), (metric.id(), metric.verdict));
            // Each figure is rounded by up to 2 %; a bow stop 4 mm off is 0.08 of its band of 51 mm.
            let most = if us.check.is_rating() { 0.02 } else { 0.1 };
            if let (Some(us), Some(metric)) = (us.used, metric.used) {
                assert!((us.value - metric.value).abs() < most, "{question:?}: {us:?} {metric:?}");
            }
        }
    }
}

/// Keys that a file has though no row of its question seems to use them: there is no rig without an axle, and no
/// place of the boat without one of the ball's two heights.
const NAMES: [&str; 5] = ["format", "title", "units", "trailer.axles.*.station", "trailer.level_ball_height"];

/// Keys that no row of launching reads: the line that one person needs is reported from them.
const OF_THE_LINE: [&str; 2] = ["trailer.length", "trailer.bow_stop_height"];
/// How she floats by a tape, which stands for a hull where there is none: no row reads it, the marks do.
const OF_THE_MARKS: [&str; 2] = ["boat.afloat.draft", "boat.afloat.eye"];
/// Limits of launching that something else sets on the two rigs of the starter file: one lies on rollers, the other states its
/// crossmember's section, and the bow eye is weaker than the strap.
const HIDDEN_LIMITS: [&str; 2] = ["trailer.crossmembers.*.rating", "trailer.winch.strap.breaking"];

#[test]
fn a_question_asks_only_for_what_it_needs() {
    for question in [Level, Ramp, Bunks, Launch] {
        let paths: BTreeSet<String> =
            offered(&file(Us, Some(question))).into_iter().map(|(_, path)| path).collect();
        for input in INPUTS.iter().filter(|input| paths.contains(input.path)) {
            let names = NAMES.contains(&input.path)
                || ["name", "id"].contains(&input.path.rsplit('.').next().unwrap_or_default());
            let Uses { plainly, otherwise } = &USES[input.path];
            // A hull is launched by its sections, or by a tape: no rig has both.
            let both = question == Launch;
            let mut used = plainly.iter().chain(otherwise.iter().filter(|_| both || plainly.is_empty()));
            let needed = used.any(|check| subjects(Some(question)).contains(&check.subject));
            let shown = question == Launch
                && OF_THE_LINE
                    .iter()
                    .chain(&OF_THE_MARKS)
                    .chain(&HIDDEN_LIMITS)
                    .any(|path| *path == input.path);
            assert!(names || needed || shown, "{question:?} asks for {}", input.path);
        }
    }
}
