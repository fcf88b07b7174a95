//! Changes given beside the file: `PATH=VALUE`, `PATH+=VALUE`, `PATH-=VALUE`.

use super::input::{At, Input, Key, LISTS, Node, Role, list_at, nearest, node};
use super::problem::Fault;
use super::read::{Draft, out_of_bounds, store, stored};
use super::setup::Setup;
use super::source::Span;
use super::vary::make_room;
use crate::quantity::show::{UnitSystem, written};
use crate::quantity::{Kind, Uncertain, parse};

/// How a value is changed.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Verb {
    Set,
    /// Set to a value in SI that never was a text.
    SetTo(f64),
    Add,
    Subtract,
}

/// One change, split but not yet looked up.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Change {
    path: String,
    verb: Verb,
    value: String,
    /// Where the value begins in the change's text.
    value_from: usize,
    place: Span,
}

impl Change {
    /// Splits a change's text; `place` is all of it.
    pub fn split(text: &str, place: Span) -> Result<Self, Fault> {
        let sides = text.split_once('=').filter(|(path, _)| !path.trim_matches([' ', '+', '-']).is_empty());
        let Some((path, value)) = sides else {
            return Err(Fault::NotAChange(text.escape_debug().to_string()));
        };
        let (path, verb) = if let Some(path) = path.strip_suffix('+') {
            (path, Verb::Add)
        } else if let Some(path) = path.strip_suffix('-') {
            (path, Verb::Subtract)
        } else {
            (path, Verb::Set)
        };
        let trimmed = value.trim();
        let bare = unquoted(trimmed);
        let value_from = text.len() - value.trim_start().len() + usize::from(bare.len() < trimmed.len());
        let (path, value) = (path.trim().to_string(), bare.to_string());
        Ok(Self { path, verb, value, value_from, place })
    }

    /// The keys it changes in a setup: several where its path says `all`.
    pub fn keys(&self, setup: &Setup) -> Result<Vec<Key>, Fault> {
        keys(&self.path, setup)
    }

    /// A change to a value in SI; `place` is where its text would stand.
    pub fn to(path: &str, si: f64, place: Span) -> Self {
        Self { path: path.to_string(), verb: Verb::SetTo(si), value: String::new(), value_from: 0, place }
    }

    /// Whether it puts a value in place of what was there, whatever that was.
    pub fn sets(&self) -> bool {
        matches!(self.verb, Verb::Set | Verb::SetTo(_))
    }

    /// Makes the change to one key of a draft.
    pub fn apply(&self, draft: &mut Draft, key: Key) {
        let Some(input) = key.input() else { return };
        make_room(&mut draft.setup, key);
        let place = self.place.within(self.value_from..self.value_from + self.value.len());
        match self.verb {
            Verb::Set => draft.take_text(key, &self.value, place),
            Verb::SetTo(si) => store(input.slot(&mut draft.setup, key.at), si),
            Verb::Add => self.add(draft, input, key, &place, 1.0),
            Verb::Subtract => self.add(draft, input, key, &place, -1.0),
        }
    }

    fn add(&self, draft: &mut Draft, input: &Input, key: Key, place: &Span, sign: f64) {
        // A default stands where the file is silent.
        let mut with_defaults = draft.setup.clone();
        super::defaults::resolve(&mut with_defaults);
        let units = with_defaults.units.map_or(UnitSystem::Us, UnitSystem::from);
        let slot = input.slot(&mut with_defaults, key.at);
        let Some(kind @ (Kind::Length | Kind::Weight | Kind::Share)) = slot.kind() else {
            return draft.blame(Fault::CannotAdd(input.meaning), Some(place.clone()));
        };
        let Some(before) = stored(&slot) else {
            return draft.blame(Fault::NothingToAddTo(key), Some(self.place.clone()));
        };
        match parse::parse_si(&self.value, kind) {
            Ok(by) => {
                let value = before + sign * by.value;
                let sum = Uncertain { value, bound: 0.0 };
                let fault = out_of_bounds(input, kind, sum, || written(sum, kind, units));
                match fault {
                    Some(fault) => draft.blame(fault, Some(place.clone())),
                    None => store(input.slot(&mut draft.setup, key.at), value),
                }
            }
            Err(error) => {
                let at = place.within(error.at);
                draft.blame(Fault::Quantity(error.fault), Some(at));
            }
        }
    }
}

/// The keys that a path names in a setup: several where it says `all`.
pub(super) fn keys(path: &str, setup: &Setup) -> Result<Vec<Key>, Fault> {
    let mut pattern = String::new();
    let mut ats: Vec<Vec<usize>> = vec![Vec::new()];
    for segment in path.split('.') {
        if let Some(list) = list_at(&pattern) {
            let mut inner = Vec::new();
            for at in &ats {
                let element = |i: usize| at.get(i).copied().unwrap_or(0);
                for named in elements(list.path, setup, [element(0), element(1)], segment)? {
                    inner.push([&at[..], &[named]].concat());
                }
            }
            pattern.push_str(".*");
            ats = inner;
            continue;
        }
        if !pattern.is_empty() {
            pattern.push('.');
        }
        pattern.push_str(segment);
        if segment.is_empty() || node(&pattern).is_none() {
            return Err(unknown_path(path));
        }
    }
    match node(&pattern) {
        Some(Node::Leaf(input)) => Ok(ats.iter().map(|at| key(input, at)).collect()),
        Some(_) => Err(Fault::PathIsTable(path.to_string())),
        None => Err(unknown_path(path)),
    }
}

fn unknown_path(path: &str) -> Fault {
    let generic: Vec<&str> =
        path.split('.').map(|s| if s.parse::<usize>().is_ok() || s == "all" { "*" } else { s }).collect();
    let near = nearest(&generic.join("."), super::input::INPUTS.iter().map(|input| input.path));
    // Put the elements that were written back into the suggestion.
    let near = near.map(|near| {
        let written = path.split('.');
        let segments: Vec<&str> = near.split('.').collect();
        if segments.len() != generic.len() {
            return near.to_string();
        }
        let filled =
            segments.iter().zip(written).map(|(near, written)| if *near == "*" { written } else { near });
        filled.collect::<Vec<_>>().join(".")
    });
    Fault::UnknownPath { found: path.escape_debug().to_string(), near }
}

fn key(input: &'static Input, at: &[usize]) -> Key {
    let element = |i: usize| at.get(i).copied().unwrap_or(0);
    Key { path: input.path, at: [element(0), element(1)] }
}

/// Whether changing the key corrects what was measured, rather than proposing something else.
pub(super) fn corrects(key: Key, draft: &Draft) -> bool {
    match key.input().map(|input| input.role) {
        Some(Role::Correction) => true,
        Some(Role::Measured) => !draft.seen.contains(&key),
        _ => false,
    }
}

/// The elements of a list that a path's segment names.
fn elements(list: &'static str, setup: &Setup, at: At, segment: &str) -> Result<Vec<usize>, Fault> {
    let Some(list) = LISTS.iter().find(|candidate| candidate.path == list) else { return Ok(Vec::new()) };
    let count = (list.count)(setup, at);
    if segment == "all" && count > 0 {
        return Ok((0..count).collect());
    }
    let by_id = (0..count).find(|i| (list.id)(setup, *i) == Some(segment));
    let by_number = || segment.parse::<usize>().ok().filter(|n| (1..=count).contains(n)).map(|n| n - 1);
    if let Some(element) = by_id.or_else(by_number) {
        Ok(vec![element])
    } else {
        let ids = (0..count).filter_map(|i| (list.id)(setup, i));
        let near = nearest(segment, ids).map(str::to_string);
        let list = Key { path: list.path, at }.to_string();
        Err(Fault::NoSuchElement { list, count, found: segment.escape_debug().to_string(), near })
    }
}

/// A value without the quotes that a TOML file would need.
fn unquoted(value: &str) -> &str {
    value.strip_prefix('"').and_then(|value| value.strip_suffix('"')).unwrap_or(value)
}
