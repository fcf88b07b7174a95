//! Paths: what stands at one, which keys one names, and what a misspelt one was meant to be.

use super::key::{At, Key};
use super::rows::{Input, List, Slot};
use super::{BY_PATH, INPUTS, LISTS, TABLES};
use crate::rig::problem::{Fault, IncludeFault};
use crate::rig::setup::Setup;
use std::collections::HashMap;
use std::sync::LazyLock;

/// The key that names other files. It is no input: what a rig is does not depend on how its file is cut.
pub const INCLUDE: &str = "include";

impl Key {
    /// Its row of the table; `None` for the path of a list or a table.
    pub fn input(&self) -> Option<&'static Input> {
        BY_PATH.get(self.path).copied()
    }
}

impl Input {
    /// The words that its value may be; empty where it is no word from a list.
    pub fn words(&self) -> &'static [&'static str] {
        let mut setup = Setup::default();
        for (end, _) in self.path.match_indices(".*") {
            if let Some(list) = list_at(&self.path[..end]) {
                (list.grow)(&mut setup, [0, 0], 1);
            }
        }
        match self.slot(&mut setup, [0, 0]) {
            Slot::Choice(choice) => choice.words(),
            _ => &[],
        }
    }
}

/// What stands at a path.
pub(in crate::rig) enum Node {
    /// A value.
    Leaf(&'static Input),
    /// A list of tables, or of values by id.
    List(&'static List),
    /// A table.
    Table,
}

/// The list at a path written with `*`, if there is one.
pub(in crate::rig) fn list_at(path: &str) -> Option<&'static List> {
    LISTS.iter().copied().find(|list| list.path == path)
}

/// Whether a list stands at a table's name as a file's header writes it, without `*`.
pub(in crate::rig) fn is_list(table: &str) -> bool {
    LISTS.iter().any(|list| list.path.replace(".*", "") == table)
}

/// What stands at a path written with `*`, if anything; where that is one value or a list of them, the value.
pub(in crate::rig) fn node(path: &str) -> Option<Node> {
    if let Some(input) = BY_PATH.get(path) {
        return Some(Node::Leaf(input));
    }
    if let Some(list) = list_at(path) {
        return Some(Node::List(list));
    }
    TABLES.contains(path).then_some(Node::Table)
}

impl List {
    /// The row of its elements, where they are values and not tables.
    pub fn of_values(&self) -> Option<&'static Input> {
        BY_PATH.get(format!("{}.*", self.path).as_str()).copied()
    }
}

/// What follows a prefix in a path.
fn below<'a>(path: &'a str, prefix: &str) -> Option<&'a str> {
    match prefix {
        "" => Some(path),
        _ => path.strip_prefix(prefix)?.strip_prefix('.'),
    }
}

/// A path, or the beginning of one, as the table of inputs spells it.
pub(in crate::rig) fn static_path(pattern: &str) -> &'static str {
    let paths = LISTS.iter().map(|list| list.path).chain(INPUTS.iter().map(|input| input.path));
    let spelled = paths.into_iter().find(|path| path.starts_with(pattern));
    spelled.and_then(|whole| whole.get(..pattern.len())).unwrap_or_default()
}

/// The keys that may stand in a table, each once; at the top also the one that is no input.
pub(in crate::rig) fn children(prefix: &str) -> &'static [&'static str] {
    /// Found once for all tables: reading asks for them at every key.
    static CHILDREN: LazyLock<HashMap<&str, Vec<&str>>> = LazyLock::new(|| {
        let mut children = HashMap::from([("", vec![INCLUDE])]);
        for input in INPUTS.iter() {
            let ends = input.path.match_indices('.').map(|(end, _)| end);
            for end in std::iter::once(None).chain(ends.map(Some)) {
                let (table, rest) =
                    end.map_or(("", input.path), |end| (&input.path[..end], &input.path[end + 1..]));
                let name = rest.split('.').next().unwrap_or(rest);
                let names: &mut Vec<&str> = children.entry(table).or_default();
                if !names.contains(&name) {
                    names.push(name);
                }
            }
        }
        children
    });
    CHILDREN.get(prefix).map_or(&[], Vec::as_slice)
}

/// What owners call the tow vehicle.
const TOW_VEHICLES: [&str; 8] =
    ["vehicle", "tow_vehicle", "towvehicle", "tow-vehicle", "truck", "car", "van", "tug"];

/// The key nearest to a word: of the table itself, else the path of one below it, else of one elsewhere in the file.
pub fn nearest_key(word: &str, table: &str) -> Option<String> {
    if table.is_empty() && TOW_VEHICLES.contains(&word) {
        return Some("tow".to_string());
    }
    if let Some(name) = nearest(word, children(table).iter().copied()) {
        return Some(name.to_string());
    }
    let prefixes = INPUTS.iter().flat_map(|input| {
        let dots = input.path.match_indices('.').map(|(at, _)| at);
        dots.chain([input.path.len()]).map(|end| &input.path[..end])
    });
    let last = |path: &'static str| path.rsplit('.').next().unwrap_or(path);
    let among = |inside: &dyn Fn(&str) -> bool| {
        let prefixes = prefixes.clone().filter(|path| inside(path));
        let near = nearest(word, prefixes.clone().map(last).filter(|name| *name != "*"))?;
        prefixes.into_iter().find(|path| last(path) == near).map(|path| path.replace(".*", ""))
    };
    among(&|path| below(path, table).is_some()).or_else(|| among(&|_| true))
}

/// The rows that a path names: one, or all those of a table, or none. An element of a list may go by any name, or be
/// left out.
pub fn named(path: &str) -> Vec<&'static Input> {
    let written: Vec<&str> = path.split('.').collect();
    let left = |input: &&'static Input| {
        let pattern: Vec<&str> = input.path.split('.').collect();
        Some((left_over(&pattern, &written)?, *input))
    };
    let mut rows: Vec<(usize, &'static Input)> = INPUTS.iter().filter_map(left).collect();
    if let Some(whole) = rows.iter().copied().find(|(left, _)| *left == 0) {
        rows = vec![whole];
    }
    rows.into_iter().map(|(_, input)| input).collect()
}

/// How many segments of a row's path follow on those that are written, if the path begins with them.
fn left_over(pattern: &[&str], written: &[&str]) -> Option<usize> {
    match (pattern, written) {
        (rest, []) => Some(rest.len()),
        (["*", rest @ ..], [element, others @ ..]) => {
            // At the end any other word is a key, perhaps a misspelt one.
            let is_element = !others.is_empty() || is_any_element(element);
            let with = if is_element { left_over(rest, others) } else { None };
            let without = left_over(rest, written);
            with.into_iter().chain(without).min()
        }
        ([name, rest @ ..], [word, others @ ..]) if name == word => left_over(rest, others),
        _ => None,
    }
}

/// Whether a segment of a path is an element of a list, whichever list it is.
fn is_any_element(segment: &str) -> bool {
    segment.parse::<usize>().is_ok() || matches!(segment, "*" | "all" | "i")
}

/// The word nearest to one that is not known, if one is near.
pub fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let word = word.to_lowercase();
    let letters = word.chars().count();
    // A third of the letters may be wrong: enough for a slip, too few for another word.
    let slips = |name: &str| name.len().max(3) / 3;
    let alike = known.into_iter().filter(|name| {
        // Where the lengths alone differ by more there is nothing to compare.
        name.chars().count().abs_diff(letters) <= slips(name)
    });
    let measured = alike.map(|name| (name, strsim::osa_distance(&word, name)));
    let near = measured.filter(|(name, distance)| *distance <= slips(name));
    near.min_by_key(|(_, distance)| *distance).map(|(name, _)| name)
}

/// The keys that a path names in a setup: several where it says `all`.
pub(in crate::rig) fn keys(path: &str, setup: &Setup) -> Result<Vec<Key>, Fault> {
    if path.split('.').next() == Some(INCLUDE) {
        return Err(IncludeFault::InChange.into());
    }
    let mut pattern = String::new();
    let mut ats: Vec<(At, usize)> = vec![([0, 0], 0)];
    for segment in path.split('.') {
        if let Some(list) = list_at(&pattern) {
            let mut inner = Vec::new();
            for (at, depth) in ats {
                for element in elements(list, setup, at, segment)? {
                    let mut at = at;
                    at[depth] = element;
                    inner.push((at, depth + 1));
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
        Some(Node::Leaf(input)) => Ok(ats.into_iter().map(|(at, _)| Key { path: input.path, at }).collect()),
        Some(_) => Err(Fault::PathIsTable(path.to_string())),
        None => Err(unknown_path(path)),
    }
}

/// The elements of a list that a path's segment names: by `all`, by its number, else by the id or the name that it
/// alone has. So digits are always a number where the list has that many elements.
fn elements(list: &List, setup: &Setup, at: At, segment: &str) -> Result<Vec<usize>, Fault> {
    let count = (list.count)(setup, at);
    if segment == "all" && count > 0 {
        return Ok((0..count).collect());
    }
    if let Some(number) = segment.parse::<usize>().ok().filter(|number| (1..=count).contains(number)) {
        return Ok(vec![number - 1]);
    }
    let named: Vec<usize> = (0..count).filter(|i| (list.name)(setup, *i) == Some(segment)).collect();
    if named.len() == 1 {
        return Ok(named);
    }
    let others = (0..count).filter_map(|i| (list.name)(setup, i)).filter(|name| *name != segment);
    let near = nearest(segment, others).map(str::to_string);
    let list = Key { path: list.path, at }.to_string();
    Err(Fault::NoSuchElement { list, count, found: segment.escape_debug().to_string(), near })
}

fn unknown_path(path: &str) -> Fault {
    Fault::UnknownPath { found: path.escape_debug().to_string(), near: nearest_path(path) }
}

/// The path nearest to one that is not known, if one is near, with the elements that were written.
pub fn nearest_path(path: &str) -> Option<String> {
    let generic: Vec<&str> = path.split('.').map(|s| if is_any_element(s) { "*" } else { s }).collect();
    let near = nearest(&generic.join("."), INPUTS.iter().map(|input| input.path))?;
    let segments: Vec<&str> = near.split('.').collect();
    if segments.len() != generic.len() {
        return Some(near.to_string());
    }
    let filled = segments.iter().zip(path.split('.'));
    let filled = filled.map(|(near, written)| if *near == "*" { written } else { near });
    Some(filled.collect::<Vec<_>>().join("."))
}
