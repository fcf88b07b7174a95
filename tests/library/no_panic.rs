//! Whatever a text holds, reading it, examining the rig and reporting on it ends soundly.

use crate::cases::cases;
use crate::sound::{Reached, take, take_place};
use bunkline::quantity::show::{self, UnitSystem};
use bunkline::quantity::{
    Angle, Kind, Length, Quantity, Share, Slope, Uncertain, Weight, parse::parse_si, unit,
};
use bunkline::study::place::Part;
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::{Index, select};
use std::process::Command;

const RIG: &str = concat!(include_str!("../rigs/work-boat.toml"), include_str!("../rigs/bunks.toml"));

const KINDS: [Kind; 19] = [
    Kind::Length,
    Kind::Weight,
    Kind::Angle,
    Kind::Slope,
    Kind::Share,
    Kind::Pressure,
    Kind::Volume,
    Kind::Density,
    Kind::Rate,
    Kind::Stress,
    Kind::SectionModulus,
    Kind::Distance,
    Kind::LinePressure,
    Kind::Moment,
    Kind::Speed,
    Kind::Current,
    Kind::Charge,
    Kind::Area,
    Kind::Force,
];

/// One slip of the pen in a text.
#[derive(Debug, Clone)]
enum Slip {
    DeleteLine(Index),
    RepeatLine(Index, Index),
    SwapLines(Index, Index),
    CutShort(Index),
    DropCharacter(Index),
    PutCharacter(Index, char),
    PutWord(Index, &'static str),
    /// Another value between two quotes.
    Value(Index, String),
    /// Another number, in the unit that stands there.
    Number(Index, String),
    /// The number that stands there, larger or smaller.
    Scaled(Index, f64),
    /// Another unit.
    Unit(Index, &'static str),
}

const WORDS: &[&str] = &[
    "[[trailer.axles]]\n",
    "[[cases]]\n",
    "[[boat.tanks]]\n",
    "[trailer]\n",
    "\"",
    "'",
    "\"\"\"",
    "{",
    "}",
    "[",
    "]",
    ".",
    "=",
    "\r\n",
    "\\u00b1",
    "\\e",
    "±",
    "\u{feff}",
    "nan",
    "\"boat.weights.*.weight\" = \"1 lb\"\n",
    "\"trailer.axles.*\" = { station = \"1 in\" }\n",
    "format = 1\n",
];

/// Numbers of all sizes that a file can state, most of them likely.
fn number() -> impl Strategy<Value = String> {
    prop_oneof![
        4 => (0_u32..20_000).prop_map(|n| n.to_string()),
        2 => (0.0..500.0).prop_map(|n: f64| format!("{n:.2}")),
        1 => (0_u32..40, 0_u32..17, 0_u32..17).prop_map(|(n, above, below)| format!("{n} {above}/{below}")),
        1 => (-12_i32..12).prop_map(|power| format!("{:.15}", 10_f64.powi(power))),
        1 => (-900_i32..0).prop_map(|n| n.to_string()),
        1 => select(vec!["0", "-0", "0.0", ".", "1.2.3", "1,000", "", "1/0", "99999999999999999999"]).prop_map(str::to_string),
    ]
}

fn any_unit() -> impl Strategy<Value = &'static str> {
    select(unit::UNITS.iter().map(|unit| unit.name).collect::<Vec<_>>())
}

fn quantity_text() -> impl Strategy<Value = String> {
    let bound = prop_oneof![Just(String::new()), number().prop_map(|n| format!(" ± {n} %"))];
    (number(), any_unit(), bound).prop_map(|(number, unit, bound)| format!("{number} {unit}{bound}"))
}

fn slip() -> impl Strategy<Value = Slip> {
    let at = any::<Index>;
    prop_oneof![
        6 => at().prop_map(Slip::DeleteLine),
        1 => (at(), at()).prop_map(|(from, to)| Slip::RepeatLine(from, to)),
        1 => (at(), at()).prop_map(|(one, other)| Slip::SwapLines(one, other)),
        1 => at().prop_map(Slip::CutShort),
        1 => at().prop_map(Slip::DropCharacter),
        1 => (at(), any::<char>()).prop_map(|(at, c)| Slip::PutCharacter(at, c)),
        1 => (at(), select(WORDS)).prop_map(|(at, word)| Slip::PutWord(at, word)),
        2 => (at(), quantity_text()).prop_map(|(at, value)| Slip::Value(at, value)),
        12 => (at(), number()).prop_map(|(at, number)| Slip::Number(at, number)),
        2 => (at(), any_unit()).prop_map(|(at, unit)| Slip::Unit(at, unit)),
    ]
}

/// The character boundary nearest below a place picked in the text.
fn place(text: &str, at: Index) -> usize {
    let mut place = at.index(text.len() + 1);
    while !text.is_char_boundary(place) {
        place -= 1;
    }
    place
}

/// The bytes of one of the runs for which a test holds.
fn run_of(text: &str, at: Index, test: impl Fn(char) -> bool) -> Option<std::ops::Range<usize>> {
    let runs = text.split(|c| !test(c)).filter(|run| !run.is_empty());
    let starts: Vec<_> =
        runs.map(|run| (run.as_ptr() as usize - text.as_ptr() as usize, run.len())).collect();
    (!starts.is_empty()).then(|| at.get(&starts)).map(|(start, length)| *start..start + length)
}

fn slipped(mut text: String, slip: &Slip) -> String {
    let lines = |text: &str| text.lines().map(str::to_string).collect::<Vec<_>>();
    let joined = |lines: Vec<String>| lines.join("\n") + "\n";
    match slip {
        Slip::DeleteLine(_) | Slip::RepeatLine(..) | Slip::SwapLines(..) if text.is_empty() => text,
        Slip::DeleteLine(at) => {
            let mut lines = lines(&text);
            lines.remove(at.index(lines.len()));
            joined(lines)
        }
        Slip::RepeatLine(from, to) => {
            let mut lines = lines(&text);
            let line = from.get(&lines).clone();
            lines.insert(to.index(lines.len()), line);
            joined(lines)
        }
        Slip::SwapLines(one, other) => {
            let mut lines = lines(&text);
            let (one, other) = (one.index(lines.len()), other.index(lines.len()));
            lines.swap(one, other);
            joined(lines)
        }
        Slip::CutShort(at) => {
            text.truncate(place(&text, *at));
            text
        }
        Slip::DropCharacter(at) => {
            let at = place(&text, *at);
            if at < text.len() {
                text.remove(at);
            }
            text
        }
        Slip::PutCharacter(at, c) => {
            text.insert(place(&text, *at), *c);
            text
        }
        Slip::PutWord(at, word) => {
            text.insert_str(place(&text, *at), word);
            text
        }
        Slip::Value(at, value) => {
            let quoted: Vec<_> = text.match_indices('"').map(|(at, _)| at).collect();
            let Some(pair) = (quoted.len() > 1).then(|| at.index(quoted.len() / 2)) else { return text };
            text.replace_range(quoted[2 * pair] + 1..quoted[2 * pair + 1], &value.replace('"', "\\\""));
            text
        }
        Slip::Number(at, number) => {
            if let Some(run) = run_of(&text, *at, |c| c.is_ascii_digit()) {
                text.replace_range(run, number);
            }
            text
        }
        Slip::Scaled(at, by) => {
            if let Some(run) = run_of(&text, *at, |c| c.is_ascii_digit()) {
                let scaled = text[run.clone()].parse::<f64>().map_or(1.0, |number| (number * by).round());
                text.replace_range(run, &scaled.to_string());
            }
            text
        }
        Slip::Unit(at, unit) => {
            if let Some(run) = run_of(&text, *at, char::is_alphabetic) {
                text.replace_range(run, &unit.replace('"', "\\\""));
            }
            text
        }
    }
}

/// The whole rig after a few slips.
fn mutated() -> impl Strategy<Value = String> {
    vec(slip(), 1..8).prop_map(|slips| slips.iter().fold(RIG.to_string(), slipped))
}

/// A rig that is likely valid, with figures of its own.
fn refigured() -> impl Strategy<Value = String> {
    let deleted = vec(any::<Index>().prop_map(Slip::DeleteLine), 0..3);
    let figures = vec((any::<Index>(), 0.3..2.5).prop_map(|(at, by)| Slip::Scaled(at, by)), 1..4);
    (deleted, figures)
        .prop_map(|(deleted, figures)| deleted.iter().chain(&figures).fold(RIG.to_string(), slipped))
}

/// A change to any of the rig's keys, most of them refused.
fn wild_change() -> impl Strategy<Value = String> {
    let paths: Vec<&str> = bunkline::rig::INPUTS.iter().map(|input| input.path).collect();
    let element = select(vec!["1", "2", "all", "3", "petrol", "shell", "*", "", "-1"]);
    let words = ["true", "2", "torsion", "[\"a\"]", "[\"1 in\", \"2 in\"]", "\"", "[[[", ""];
    let value = prop_oneof![3 => quantity_text(), 1 => select(words.to_vec()).prop_map(str::to_string)];
    let verb = select(vec!["=", "+=", "-=", "", "=="]);
    (select(paths), element, verb, value)
        .prop_map(|(path, element, verb, value)| format!("{}{verb}{value}", path.replace('*', element)))
}

/// A change that is likely to be made.
fn tame_change() -> impl Strategy<Value = String> {
    let lengths = [
        "trailer.bow_stop",
        "trailer.level_ball_height",
        "trailer.track",
        "trailer.axles.2.station",
        "trailer.suspension.bump",
        "trailer.suspension.deflection_at_rating",
        "trailer.axles.all.tires.radius",
        "boat.weights.pots.side",
        "boat.weights.all.station",
        "shift.boat",
        "shift.axles",
        "shift.tongue",
        "tow.ball_height",
        "tow.ball_overhang",
    ];
    let weights = [
        "boat.weights.shell.weight",
        "boat.weights.pots.weight",
        "trailer.axles.1.rating",
        "trailer.axles.all.weight",
        "trailer.capacity",
        "trailer.tongue_weight",
        "tow.rear_axle_load",
    ];
    let kinds = select(vec!["torsion", "leaf-separate", "leaf-equalized"]);
    prop_oneof![
        3 => (select(lengths.to_vec()), select(vec!["=", "+=", "-="]), 0..400_u32)
            .prop_map(|(path, verb, quarters)| format!("{path}{verb}{} in", f64::from(quarters) / 4.0)),
        2 => (select(weights.to_vec()), select(vec!["=", "+=", "-="]), 0..6_000_u32)
            .prop_map(|(path, verb, pounds)| format!("{path}{verb}{pounds} lb")),
        1 => (0..101_u32).prop_map(|percent| format!("boat.tanks.all.fill={percent}%")),
        1 => kinds.prop_map(|kind| format!("trailer.suspension.kind={kind}")),
    ]
}

proptest! {
    #![proptest_config(cases(400))]

    #[test]
    fn any_text_is_read_soundly(text in any::<String>(), change in any::<String>()) {
        take(&text, &[]);
        take("format = 1\n[[trailer.axles]]\n", &[&change]);
        take(&format!("format = 1\n[[trailer.axles]]\nstation = \"{text}\"\n"), &[]);
    }

    #[test]
    fn any_bytes_are_read_soundly(bytes in vec(any::<u8>(), 0..400)) {
        take(&String::from_utf8_lossy(&bytes), &[]);
    }

    #[test]
    fn any_rig_like_text_is_read_soundly(pieces in vec(select(WORDS), 0..30)) {
        take(&pieces.concat(), &[]);
    }

    #[test]
    fn any_text_is_a_quantity_or_a_mistake_in_it(
        text in prop_oneof![any::<String>(), "[0-9.,/ '\"±+%a-z-]{0,24}", quantity_text()]
    ) {
        for kind in KINDS {
            match parse_si(&text, kind) {
                Ok(read) => prop_assert!(!read.value.is_nan() && read.bound >= 0.0),
                Err(error) => {
                    prop_assert!(text.get(error.at.clone()).is_some(), "{error} at {:?}", error.at);
                    prop_assert!(error.to_string().starts_with("expected "));
                    prop_assert!(error.fault.help().is_none_or(|help| !help.is_empty()));
                }
            }
        }
    }
}

proptest! {
    #![proptest_config(cases(60))]

    #[test]
    fn a_mutated_rig_is_reported_soundly(text in mutated()) {
        take(&text, &[]);
    }

    #[test]
    fn a_rig_of_other_figures_is_reported_soundly(text in refigured()) {
        take(&text, &[]);
    }

    #[test]
    fn changes_are_made_soundly(tame in vec(tame_change(), 1..4), wild in vec(wild_change(), 1..3)) {
        let tame: Vec<&str> = tame.iter().map(String::as_str).collect();
        take(RIG, &tame);
        take(RIG, &wild.iter().map(String::as_str).chain(tame).collect::<Vec<_>>());
    }
}

/// A short ramp of any shape, with low points and a hitch that gives. Short, for it is crossed many times
/// over while cures are looked for.
fn ramp() -> impl Strategy<Value = String> {
    let run = (0.05..6.0, prop_oneof![-100.0..100.0, 0.0..30.0f64]);
    let point = (-30.0..30.0, -3.0..3.0);
    (vec(run, 1..=4), 0.0..1.5, point, 0.01..100.0, -5.0..-0.01).prop_map(
        |(runs, ease, (station, height), friction, water)| {
            let runs: Vec<String> = runs
                .iter()
                .map(|(length, grade)| format!("{{ length = \"{length:.3} m\", grade = \"{grade:.2} %\" }}"))
                .collect();
            format!(
                "\n[[ramps]]\nprofile = [ {} ]\nease = \"{ease:.3} m\"\nfriction = \"{friction:.2} %\"\n\
                 water_level = \"{water:.2} m\"\n\
                 [[trailer.low_points]]\nstation = \"{station:.2} m\"\nheight = \"{height:.2} m\"\n\
                 [[tow.low_points]]\nname = \"step\"\nstation = \"{height:.2} m\"\nheight = \"{height:.2} m\"\n",
                runs.join(", ")
            )
        },
    )
}

proptest! {
    #![proptest_config(cases(4))]

    #[test]
    fn a_rig_of_other_figures_is_placed_soundly(
        text in refigured(),
        part in select(vec![Part::Boat, Part::Axles, Part::Tongue, Part::Bunks]),
    ) {
        take_place(&text, part);
    }

    #[test]
    fn a_rig_on_any_ramp_is_reported_soundly(ramp in ramp(), hitch in prop_oneof![1e-3..1e-1, 0.1..1e4f64]) {
        let text = format!("{RIG}{ramp}");
        take(&text, &[]);
        take(&text, &[&format!("tow.hitch_rate={hitch:.4} N/mm")]);
    }
}

/// On so steep a fall the trailer pitches past the steepest trim at which the boat is looked for: no trim lies between the two.
#[test]
fn a_trailer_that_pitches_past_every_trim_launches_no_boat() {
    let ramp = "\n[[ramps]]\nprofile = [ { length = \"5.419 m\", grade = \"91.02 %\" }, \
                { length = \"0.050 m\", grade = \"-57.53 %\" } ]\nease = \"0.000 m\"\nfriction = \"13.04 %\"\n\
                water_level = \"-4.82 m\"\n[[trailer.low_points]]\nstation = \"0.00 m\"\nheight = \"0.00 m\"\n\
                [[tow.low_points]]\nname = \"step\"\nstation = \"0.00 m\"\nheight = \"0.00 m\"\n";
    assert_eq!(take(&format!("{RIG}{ramp}"), &["tow.hitch_rate=0.0230 N/mm"]), Reached::Reported);
}

#[test]
fn the_whole_rig_is_reported() {
    assert_eq!(take(RIG, &[]), Reached::Reported);
}

/// A rig without any one of its lines is reported as well, unless the line holds another together.
#[test]
fn a_rig_without_a_line_is_reported_soundly() {
    let lines: Vec<&str> = RIG.lines().collect();
    let without = |left_out: usize| {
        let kept = lines.iter().enumerate().filter(|(i, _)| *i != left_out).map(|(_, line)| *line);
        kept.collect::<Vec<_>>().join("\n")
    };
    // Whole reports take long: by default a sixth of the lines, others with each seed.
    let few = cases(lines.len() as u32 / 6).cases as usize;
    let seed = std::env::var("PROPTEST_RNG_SEED").ok().and_then(|seed| seed.parse::<usize>().ok());
    let tried = (0..lines.len()).map(|i| (6 * i + seed.unwrap_or(0)) % lines.len());
    let reported: Vec<bool> = tried.take(few).map(|i| take(&without(i), &[]) == Reached::Reported).collect();
    let count = reported.iter().filter(|reported| **reported).count();
    // Every fifth line or so holds another together; of few lines it may be every fourth.
    assert!(count > reported.len() * 2 / 3, "{count} of {}", reported.len());
}

proptest! {
    #![proptest_config(cases(2))]

    #[test]
    fn the_program_tells_every_mistake(texts in vec(mutated(), 40)) {
        let folder = std::path::PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("mutated");
        std::fs::create_dir_all(&folder).expect("the temporary folder takes folders");
        let mut check = Command::new(env!("CARGO_BIN_EXE_bunkline"));
        check.arg("check");
        for (i, text) in texts.iter().enumerate() {
            let path = folder.join(format!("{i}.toml"));
            std::fs::write(&path, text).expect("the temporary folder takes files");
            check.arg(path);
        }
        let output = check.output().expect("the program runs");
        let told = String::from_utf8(output.stderr).expect("messages are text");
        prop_assert!(!told.contains("panicked"), "{told}");
        prop_assert!(output.status.code().is_some_and(|code| code <= 3), "{told}");
    }
}

/// A value of a kind, in SI, as a rig may hold it.
fn value(kind: Kind) -> impl Strategy<Value = f64> {
    let (least, most) = match kind {
        Kind::Length | Kind::Speed => (-100.0, 100.0),
        Kind::Weight | Kind::Force => (-1e6, 1e6),
        Kind::Angle => (-1.5, 1.5),
        Kind::Slope | Kind::Share => (-1.0, 1.0),
        Kind::Pressure => (0.0, 2e6),
        Kind::Volume => (0.0, 100.0),
        Kind::Density => (0.0, 25e3),
        Kind::Rate => (0.0, 1e9),
        Kind::Stress => (0.0, 2e12),
        Kind::SectionModulus => (0.0, 1.0),
        Kind::Distance => (0.0, 5e3),
        Kind::LinePressure => (0.0, 40e6),
        Kind::Moment => (0.0, 1e7),
        Kind::Charge => (0.0, 3.6e7),
        Kind::Current | Kind::Area => (0.0, 1e4),
    };
    // Some near zero, where signs and fractions are delicate.
    prop_oneof![3 => least..most, 1 => (least..most).prop_map(|value| value * 1e-4), 1 => Just(0.0)]
}

fn any_value() -> impl Strategy<Value = (Kind, f64, f64)> {
    select(KINDS.to_vec()).prop_flat_map(|kind| {
        (Just(kind), value(kind), prop_oneof![Just(0.0), value(kind).prop_map(f64::abs)])
    })
}

/// The size of the unit that a text ends with.
fn last_unit(text: &str) -> f64 {
    // A unit of a moment is two words.
    let words: Vec<&str> = text.split(' ').collect();
    let two = words.split_last_chunk::<2>().map(|(_, two)| two.join(" "));
    let name = words.last().copied().unwrap_or_default();
    two.and_then(|two| unit::find(&two)).or_else(|| unit::find(name)).map_or(f64::NAN, |unit| unit.factor)
}

/// What is shown can be read back to within `rounding`, and is then shown the same.
fn back<Q: Quantity>(quantity: Q, rounding: f64, show: impl Fn(Q) -> String) -> Result<(), TestCaseError> {
    let shown = show(quantity);
    let read = parse_si(&shown, Q::KIND).map_err(|error| TestCaseError::fail(format!("{shown}: {error}")))?;
    let si = quantity.si();
    prop_assert!((read.value - si).abs() <= rounding * (1.0 + 1e-9) + 1e-12 * si.abs(), "{shown} for {si}");
    prop_assert_eq!(show(Q::from_si(read.value)), shown);
    Ok(())
}

proptest! {
    #![proptest_config(cases(2000))]

    #[test]
    fn a_shown_weight_is_read_back(newtons in value(Kind::Weight)) {
        for system in [UnitSystem::Us, UnitSystem::Metric] {
            let unit = last_unit(system.weight_unit());
            back(Weight::from_si(newtons), 0.5 * unit, |weight| system.weight(weight))?;
        }
    }

    #[test]
    fn a_shown_length_is_read_back(metres in value(Kind::Length)) {
        let length = Length::from_si(metres);
        back(length, 0.0254 / 32.0, |length| UnitSystem::Us.length(length))?;
        back(length, 0.0254 / 32.0, |length| UnitSystem::Us.distance(length))?;
        back(length, 0.0005, |length| UnitSystem::Metric.length(length))?;
        back(length, 0.0005, |length| UnitSystem::Metric.distance(length))?;
    }

    #[test]
    fn shown_shares_and_angles_are_read_back(share in value(Kind::Share), angle in value(Kind::Angle)) {
        back(Share::from_si(share), 0.0005, show::percent)?;
        back(Angle::from_si(angle), 0.05_f64.to_radians(), show::degrees)?;
        back(Slope(share), 0.5e-6, |slope| {
            let si = Uncertain { value: slope.si(), bound: 0.0 };
            show::written(si, Kind::Slope, UnitSystem::Us)
        })?;
    }

    #[test]
    fn a_written_value_is_read_back_with_its_bound((kind, value, bound) in any_value()) {
        for system in [UnitSystem::Us, UnitSystem::Metric] {
            let shown = show::written(Uncertain { value, bound }, kind, system);
            let read = parse_si(&shown, kind)
                .map_err(|error| TestCaseError::fail(format!("{shown}: {error}")))?;
            let rounding = 0.5e-4 * last_unit(&shown);
            let near = |read: f64, stated: f64| (read - stated).abs() <= rounding * (1.0 + 1e-6) + 1e-12 * stated.abs();
            prop_assert!(near(read.value, value) && near(read.bound, bound), "{shown} for {value} ± {bound}");
            let again = show::written(read, kind, system);
            // A bound that rounds to nothing is not shown again.
            prop_assert_eq!(again.split(" ± 0 ").next(), shown.split(" ± 0 ").next());
        }
    }

    #[test]
    fn reading_and_writing_settle_at_once(text in quantity_text()) {
        for kind in KINDS {
            let Ok(read) = parse_si(&text, kind) else { continue };
            if read.value.abs() > 1e9 || read.bound > 1e9 {
                continue;
            }
            for system in [UnitSystem::Us, UnitSystem::Metric] {
                let once = show::written(read, kind, system);
                let read = parse_si(&once, kind).map_err(|error| TestCaseError::fail(format!("{once}: {error}")))?;
                let twice = show::written(read, kind, system);
                prop_assert_eq!(twice.split(" ± 0 ").next(), once.split(" ± 0 ").next());
            }
        }
    }
}
