//! A baseline as a file: how rigs stood, a check a line, so that a difference shows what got better and what worse.

use crate::fit::{RigVerdict, Verdict};
use crate::quantity::show::UnitSystem;
use crate::report::baseline::{Changed, Unread};
use crate::report::words;
use crate::study::baseline::{RowStood, Stood, Worse};
use serde::de::{Deserialize, Deserializer, Error};
use serde::{Deserialize as Read, Serialize};
use serde_json::error::Category;
use std::collections::BTreeMap;
use std::fmt::Write;

/// The form of the file that this version writes and reads.
const SCHEMA: u32 = 1;
/// What sets the file apart from other reports.
const KIND: &str = "baseline";
/// The significant figures of a margin: fewer differences from machine to machine, more than anybody measures.
const FIGURES: usize = 6;

/// The text of a baseline: rigs by their paths, and their checks by their ids.
///
/// # Errors
/// Never in practice: every part can be written as JSON.
pub fn write(rigs: &BTreeMap<String, Stood>) -> serde_json::Result<String> {
    let rigs = rigs.iter().map(|(path, stood)| rig(path, stood)).collect::<serde_json::Result<Vec<_>>>()?;
    Ok(format!(
        "{{\n\"schema\": {SCHEMA},\n\"kind\": \"{KIND}\",\n\"rigs\": {{\n{}\n}}\n}}\n",
        rigs.join(",\n")
    ))
}

fn rig(path: &str, stood: &Stood) -> serde_json::Result<String> {
    let path = serde_json::to_string(path)?;
    let (verdict, units) = (words::rig_verdict(stood.verdict), words::units(stood.units));
    let mut out =
        format!("  {path}: {{ \"verdict\": \"{verdict}\", \"units\": \"{units}\", \"checks\": {{\n");
    for (i, (id, row)) in stood.rows.iter().enumerate() {
        let comma = if i + 1 < stood.rows.len() { "," } else { "" };
        let margin = serde_json::to_string(&row.margin.map(rounded))?;
        let (id, verdict) = (serde_json::to_string(id)?, words::verdict(row.verdict));
        // Writing to a text cannot fail.
        let _ = writeln!(out, "    {id}: {{ \"verdict\": \"{verdict}\", \"margin\": {margin} }}{comma}");
    }
    Ok(out + "  }}")
}

/// A number to as many figures as a baseline has.
fn rounded(number: f64) -> f64 {
    format!("{number:.*e}", FIGURES - 1).parse().unwrap_or(number)
}

/// Why a text is no baseline, and where that shows, if it does at one place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoBaseline {
    /// What was expected and found.
    pub message: String,
    /// The line and the column.
    pub at: Option<(usize, usize)>,
}

impl From<serde_json::Error> for NoBaseline {
    fn from(error: serde_json::Error) -> Self {
        let found = match error.classify() {
            Category::Eof => "its end too soon: it is cut off".to_string(),
            Category::Data => in_words(&error.to_string()),
            Category::Syntax | Category::Io => "text that is no JSON".to_string(),
        };
        let message = format!("expected a baseline as --write-baseline writes it, found {found}");
        Self { message, at: (error.line() > 0).then(|| (error.line(), error.column())) }
    }
}

/// What was found instead, in the words of who reads baselines: the reader of JSON has its own for kinds of values.
fn in_words(said: &str) -> String {
    let said = said.rsplit_once(" at line ").map_or(said, |(said, _)| said);
    if let Some(missing) = said.strip_prefix("missing field ") {
        return format!("no {missing} here");
    }
    if let Some(twice) = said.strip_prefix("duplicate field ") {
        return format!("{twice} twice");
    }
    let kinds = said.strip_prefix("invalid type: ").or_else(|| said.strip_prefix("invalid value: "));
    let kinds = kinds.and_then(|kinds| kinds.rsplit_once(", expected "));
    let kind = |kind: &str| match kind {
        "map" | "a map" => "a table".to_string(),
        "sequence" | "a sequence" => "a list".to_string(),
        "a string" => "a word in quotes".to_string(),
        "f64" => "a number".to_string(),
        "null" => "nothing (null)".to_string(),
        other => ["string ", "integer ", "floating point ", "boolean "]
            .iter()
            .find_map(|name| other.strip_prefix(name))
            .unwrap_or(other)
            .to_string(),
    };
    kinds.map_or(said.to_string(), |(found, expected)| {
        format!("{} in place of {}", kind(found), kind(expected))
    })
}

/// Reads the text of a baseline.
///
/// # Errors
/// [`NoBaseline`] where it is no JSON, another file, or of another schema.
pub fn read(text: &str) -> Result<BTreeMap<String, Stood>, NoBaseline> {
    let elsewhere = |message: String| NoBaseline { message, at: None };
    let head: Head = serde_json::from_str(text)?;
    if head.kind.as_deref() != Some(KIND) {
        return Err(elsewhere(
            "expected a baseline as --write-baseline writes it, found other JSON".to_string(),
        ));
    }
    if head.schema != Some(SCHEMA.into()) {
        let found = head.schema.map_or("none".to_string(), |schema| schema.to_string());
        return Err(elsewhere(format!("expected a baseline of schema {SCHEMA}, found schema {found}")));
    }
    let file: File = serde_json::from_str(text)?;
    let row = |row: FileRow| RowStood { verdict: row.verdict, margin: row.margin };
    let rig = |(path, rig): (String, FileRig)| {
        let rows = rig.checks.into_iter().map(|(id, stood)| (id, row(stood)));
        (path, Stood { verdict: rig.verdict, units: rig.units, rows: rows.collect() })
    };
    Ok(file.rigs.into_iter().map(rig).collect())
}

#[derive(Read)]
#[serde(expecting = "a baseline: schema, kind and rigs")]
struct Head {
    kind: Option<String>,
    schema: Option<serde_json::Value>,
}

#[derive(Read)]
#[serde(expecting = "a baseline: schema, kind and rigs")]
struct File {
    rigs: BTreeMap<String, FileRig>,
}

#[derive(Read)]
#[serde(expecting = "a rig: its verdict, units and checks")]
struct FileRig {
    #[serde(deserialize_with = "rig_verdict")]
    verdict: RigVerdict,
    #[serde(deserialize_with = "units")]
    units: UnitSystem,
    checks: BTreeMap<String, FileRow>,
}

#[derive(Read)]
#[serde(expecting = "a check: its verdict and margin")]
struct FileRow {
    #[serde(deserialize_with = "verdict")]
    verdict: Verdict,
    margin: Option<f64>,
}

fn rig_verdict<'de, D: Deserializer<'de>>(reader: D) -> Result<RigVerdict, D::Error> {
    let all = [RigVerdict::Pass, RigVerdict::Fail, RigVerdict::Incomplete, RigVerdict::Unsure];
    one_of(reader, &all.map(|verdict| (words::rig_verdict(verdict), verdict)))
}

fn verdict<'de, D: Deserializer<'de>>(reader: D) -> Result<Verdict, D::Error> {
    let [pass, thin, advise] = [Verdict::Pass, Verdict::Thin, Verdict::Advise];
    let all = [pass, thin, advise, Verdict::Unsure, Verdict::Fail, Verdict::NotChecked];
    one_of(reader, &all.map(|verdict| (words::verdict(verdict), verdict)))
}

fn units<'de, D: Deserializer<'de>>(reader: D) -> Result<UnitSystem, D::Error> {
    one_of(reader, &[UnitSystem::Us, UnitSystem::Metric].map(|units| (words::units(units), units)))
}

/// What a word stands for.
fn one_of<'de, D: Deserializer<'de>, T: Copy>(reader: D, words: &[(&str, T)]) -> Result<T, D::Error> {
    let word = String::deserialize(reader)?;
    let found = words.iter().find(|(name, _)| *name == word).map(|(_, meant)| *meant);
    found.ok_or_else(|| {
        let names: Vec<&str> = words.iter().map(|(name, _)| *name).collect();
        D::Error::custom(format!("`{}` in place of one of {}", word.escape_debug(), names.join(", ")))
    })
}

/// What got worse since a baseline, on one line: rigs with their verdicts, and the checks that got worse with verdicts and
/// margins, in the rig's units. `was` is null for what is new, `is` for what is gone. `not_checked_now` are the rigs of the
/// baseline that this run did not read; those of them that should have been there are `gone`.
///
/// # Errors
/// As [`write()`].
pub fn changes(rigs: &[Changed], unread: &Unread) -> serde_json::Result<String> {
    serde_json::to_string(&Since {
        schema: SCHEMA,
        worse: rigs.iter().filter(|rig| rig.since.is_worse()).map(changed).collect(),
        not_checked_now: unread.all().collect(),
        gone: &unread.gone,
    })
}

#[derive(Serialize)]
struct Since<'a> {
    schema: u32,
    worse: Vec<Rig<'a>>,
    not_checked_now: Vec<&'a str>,
    gone: &'a [String],
}

#[derive(Serialize)]
struct Rig<'a> {
    path: &'a str,
    units: &'static str,
    verdict: Turn<&'static str>,
    checks: Vec<Check<'a>>,
}

#[derive(Serialize)]
struct Check<'a> {
    id: &'a str,
    verdict: Turn<&'static str>,
    margin: Turn<f64>,
}

#[derive(Serialize)]
struct Turn<T> {
    was: Option<T>,
    is: Option<T>,
}

fn changed(rig: &Changed) -> Rig<'_> {
    let since = &rig.since;
    let verdict = Turn { was: since.was.map(words::rig_verdict), is: Some(words::rig_verdict(since.is)) };
    let checks = since.rows.iter().map(|row| check(row, rig.units)).collect();
    Rig { path: &rig.path, units: words::units(rig.units), verdict, checks }
}

fn check(row: &Worse, units: UnitSystem) -> Check<'_> {
    let Worse { id, was, is } = row;
    let verdict = Turn {
        was: was.map(|(verdict, _)| words::verdict(verdict)),
        is: is.map(|(verdict, _)| words::verdict(verdict)),
    };
    let number = |stood: &Option<(Verdict, Option<crate::fit::Amount>)>| {
        stood.and_then(|(_, margin)| Some(margin?.number(units)))
    };
    Check { id, verdict, margin: Turn { was: number(was), is: number(is) } }
}
