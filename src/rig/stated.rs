//! What a rig's files state, key by key, so that two rigs can be compared by what their owners mean.

use super::inputs::{INPUTS, Slot, list_at};
use super::setup::{Part, Setup};
use super::source::SourceId;
use super::{Key, Rig};
use crate::quantity::Quantity;
use std::collections::HashMap;

/// A key that a rig's files state.
#[derive(Debug, Clone, PartialEq)]
pub struct Stated {
    /// The key.
    pub key: Key,
    /// Its path, an element of a list by its id or name where it alone has that.
    pub name: String,
    /// What the file says, without quotes, on one line.
    pub text: String,
    /// The included file that states it; `None` where the rig file itself does.
    pub included: Option<String>,
    value: Value,
}

/// What a text means.
#[derive(Debug, Clone, PartialEq)]
enum Value {
    /// In SI: a quantity with its bound, or two ends.
    Numbers([f64; 2]),
    /// Anything else, written one way.
    Words(String),
}

/// Texts in two units mean the same where their values differ by no more than this share: the rounding of arithmetic.
const ROUNDING: f64 = 1e-12;

impl Stated {
    /// Whether two texts mean the same: `8 ft` is `96 in`.
    pub fn means(&self, other: &Self) -> bool {
        match (&self.value, &other.value) {
            (Value::Numbers(one), Value::Numbers(other)) => one
                .iter()
                .zip(other)
                .all(|(one, other)| (one - other).abs() <= ROUNDING * one.abs().max(other.abs())),
            (one, other) => one == other,
        }
    }
}

impl Rig {
    /// Every key that its files state, in the order of the table of inputs.
    ///
    /// ```
    /// use bunkline::Rig;
    ///
    /// let rig = |gvwr: &str| Rig::parse(&format!("format = 1\ntrailer.gvwr = \"{gvwr}\"\n[[trailer.axles]]"));
    /// let (one, other) = (rig("2 t")?.stated(), rig("2000 kg")?.stated());
    /// let gvwr = one.iter().zip(&other).find(|(one, _)| one.name == "trailer.gvwr");
    /// assert!(gvwr.is_some_and(|(one, other)| one.means(other) && one.text == "2 t"));
    /// # Ok::<(), bunkline::rig::Problems>(())
    /// ```
    pub fn stated(&self) -> Vec<Stated> {
        let draft = &self.origin.draft;
        // The table reaches a field to change it.
        let mut setup = draft.setup.clone();
        setup.shift = self.origin.shift;
        let mut stated: Vec<Stated> = draft
            .places
            .iter()
            .filter_map(|(key, span)| {
                let source = self.origin.sources.get(span.source);
                let text = source.text.get(span.range.clone())?;
                let included = (span.source != SourceId::default()).then(|| source.name.clone());
                let bound = draft.bounds.get(key).copied().unwrap_or(0.0);
                let value = value(&mut setup, *key, bound)?;
                Some(Stated { key: *key, name: named(&setup, *key), text: bare(text), included, value })
            })
            .collect();
        let rows: HashMap<&str, usize> =
            INPUTS.iter().enumerate().map(|(row, input)| (input.path, row)).collect();
        stated.sort_by_key(|stated| (rows.get(stated.key.path), stated.key.at));
        stated
    }
}

fn value(setup: &mut Setup, key: Key, bound: f64) -> Option<Value> {
    let named = |setup: &Setup, parts: &[Part]| -> Vec<String> {
        parts.iter().filter_map(|part| setup.part_id(*part)).map(str::to_string).collect()
    };
    let words = match key.input()?.slot(setup, key.at) {
        Slot::Quantity(field) => return Some(Value::Numbers([field.si()?, bound])),
        Slot::Text(text) | Slot::Id(text) => text.clone()?,
        Slot::Flag(flag) => (*flag)?.to_string(),
        Slot::Count(count) => (*count)?.to_string(),
        Slot::Factor(factor) => (*factor)?.to_string(),
        Slot::Choice(choice) => choice.chosen()?.to_string(),
        Slot::Reach(reach) => return reach.map(|reach| Value::Numbers([reach.from.si(), reach.to.si()])),
        Slot::Checks(patterns) => format!("{patterns:?}"),
        Slot::Parts(parts) => {
            // Their numbers say nothing: another list may have them elsewhere.
            let parts = parts.clone();
            format!("{:?}", named(setup, &parts))
        }
    };
    Some(Value::Words(words))
}

/// A key's path with the names of elements.
fn named(setup: &Setup, key: Key) -> String {
    let (mut path, mut name, mut depth) = (String::new(), String::new(), 0);
    for segment in key.path.split('.') {
        let element = list_at(&path).filter(|_| segment == "*").map(|list| {
            let element = key.at[depth];
            depth += 1;
            let names = || (0..(list.count)(setup, key.at)).map(|i| (list.name)(setup, i));
            let own = (list.name)(setup, element);
            let own = own.filter(|own| names().filter(|other| *other == Some(*own)).count() == 1);
            own.map_or_else(|| (element + 1).to_string(), str::to_string)
        });
        for (text, part) in [(&mut path, segment), (&mut name, element.as_deref().unwrap_or(segment))] {
            if !text.is_empty() {
                text.push('.');
            }
            text.push_str(part);
        }
    }
    name
}

/// A value without its quotes, on one line.
fn bare(text: &str) -> String {
    let quoted =
        ["\"\"\"", "'''", "\"", "'"].iter().find_map(|quote| text.strip_prefix(quote)?.strip_suffix(quote));
    quoted.unwrap_or(text).split_whitespace().collect::<Vec<_>>().join(" ")
}
