//! A rig in several files: a file names others at its top, and what they all state is one rig.
//!
//! Nothing here reads a file: whoever calls [`include`] says how that is done.

use super::in_order;
use super::inputs::{FORMAT, INCLUDE, children, list_at, nearest, node};
use super::problem::{Fault, IncludeFault, MOST_INCLUDED, Problem, Problems};
use super::read::{REPEATED, type_name};
use super::source::{SourceId, Sources, Span};
use std::collections::BTreeMap;
use toml::de::{DeTable, DeValue};

/// What a text shows at its top, before it is read as a rig: enough to tell a rig file from a part that others include.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Outline {
    /// Whether it is not TOML, so that what it was meant to be is not known.
    pub is_broken: bool,
    /// Whether it states `format`, or a key spelled much like it.
    pub states_format: bool,
    /// Whether it states axles, without which there is no rig.
    pub states_axles: bool,
    /// The paths that it includes, as written.
    pub includes: Vec<String>,
}

impl Outline {
    /// That of a text.
    ///
    /// ```
    /// use bunkline::rig::Outline;
    ///
    /// let part = Outline::of("include = [\"tires.toml\"]\n[[trailer.axles]]\nrating = \"3500 lb\"");
    /// assert!(part.states_axles && !part.states_format && part.includes == ["tires.toml"]);
    /// assert!(Outline::of("formta = 1").states_format);
    /// ```
    pub fn of(text: &str) -> Self {
        let (table, errors) = DeTable::parse_recoverable(text);
        let table = table.get_ref();
        let at = |name: &str| {
            table.iter().find(|(key, _)| key.get_ref() == name).map(|(_, value)| value.get_ref())
        };
        let trailer = at("trailer").and_then(DeValue::as_table);
        let paths = at(INCLUDE).and_then(DeValue::as_array).into_iter().flat_map(|paths| paths.iter());
        Self {
            is_broken: !errors.is_empty(),
            states_format: table.keys().any(|key| nearest(key.get_ref(), [FORMAT.path()]).is_some()),
            states_axles: trailer.is_some_and(|trailer| trailer.keys().any(|key| key.get_ref() == "axles")),
            includes: paths.filter_map(|path| path.get_ref().as_str()).map(str::to_string).collect(),
        }
    }
}

/// A file that another one includes, as it was read.
#[derive(Debug, Clone)]
pub struct Included<Place> {
    /// Where it lies. Two files at one place are one.
    pub place: Place,
    /// What messages call it.
    pub name: String,
    /// All of its text.
    pub text: String,
}

/// A file on the list of those to be read.
struct File<Place> {
    place: Place,
    source: SourceId,
    /// Which file includes it.
    by: Option<usize>,
    /// Where that stands.
    at: Option<Span>,
}

/// The texts of a rig file and of every file that it includes.
///
/// `read` is given the place of a file and the path of another that it includes, as written there. The path is not
/// empty and not absolute. `read` decides where it may lead.
///
/// # Errors
/// [`Problems`]: each path that cannot be included, and each key that stands in two of the files.
///
/// ```
/// use bunkline::rig::{Included, Rig, include};
///
/// let text = "include = [\"axle.toml\"]\nformat = 1";
/// let sources = include("rig.toml", text, "rig.toml".to_string(), |_, path| {
///     let text = "[[trailer.axles]]\nstation = \"5 m\"".to_string();
///     Ok(Included { place: path.to_string(), name: path.to_string(), text })
/// })?;
/// let no_changes: &[&str] = &[];
/// let rig = Rig::from_sources(sources, no_changes)?;
/// assert_eq!(rig.measured().trailer.axles.len(), 1);
/// # Ok::<(), bunkline::rig::Problems>(())
/// ```
pub fn include<Place: PartialEq>(
    name: &str,
    text: &str,
    place: Place,
    mut read: impl FnMut(&Place, &str) -> Result<Included<Place>, IncludeFault>,
) -> Result<Sources, Problems> {
    let mut sources = Sources::default();
    let mut problems = Vec::new();
    let mut files = vec![File { place, source: sources.add(name, text), by: None, at: None }];
    let mut next = 0;
    while next < files.len() {
        for (path, at) in paths(&sources, files[next].source, &mut problems) {
            let mut blame = |fault, other| {
                problems.push(Problem { fault: Fault::Include(fault), at: Some(at.clone()), other });
            };
            if files.len() > MOST_INCLUDED {
                blame(IncludeFault::TooMany, None);
                return Err(in_order(sources, problems));
            }
            match found(&files, next, &path, &mut read) {
                Ok(file) => {
                    let source = sources.add(&file.name, &file.text);
                    files.push(File { place: file.place, source, by: Some(next), at: Some(at) });
                }
                Err((fault, other)) => blame(fault, other),
            }
        }
        next += 1;
    }
    if problems.is_empty() && files.len() > 1 {
        problems = clashes(&sources);
    }
    if problems.is_empty() { Ok(sources) } else { Err(in_order(sources, problems)) }
}

impl Sources {
    /// The same with another text in place of one.
    ///
    /// # Errors
    /// [`Problems`] when a key stands in two of the texts then.
    pub fn with(&self, id: SourceId, text: &str) -> Result<Self, Problems> {
        let sources = self.replaced(id, text);
        let clashes = clashes(&sources);
        if clashes.is_empty() { Ok(sources) } else { Err(in_order(sources, clashes)) }
    }
}

/// The file at a path that one of the files includes, if it may be included there. A fault may be about another place too.
fn found<Place: PartialEq>(
    files: &[File<Place>],
    by: usize,
    path: &str,
    read: &mut impl FnMut(&Place, &str) -> Result<Included<Place>, IncludeFault>,
) -> Result<Included<Place>, (IncludeFault, Option<Span>)> {
    let written = || path.escape_debug().to_string();
    if path.trim().is_empty() {
        return Err((IncludeFault::NoPath, None));
    }
    if std::path::Path::new(path).has_root() {
        return Err((IncludeFault::Absolute(written()), None));
    }
    let file = read(&files[by].place, path).map_err(|fault| (fault, None))?;
    let Some(known) = files.iter().position(|other| other.place == file.place) else { return Ok(file) };
    let mut way = std::iter::successors(Some(by), |file| files[*file].by);
    let is_cycle = way.any(|file| file == known);
    let fault = if is_cycle { IncludeFault::Cycle(written()) } else { IncludeFault::Again(written()) };
    Err((fault, files[known].at.clone()))
}

/// The paths that a text includes, with their places.
fn paths(sources: &Sources, source: SourceId, problems: &mut Vec<Problem>) -> Vec<(String, Span)> {
    let (table, errors) = DeTable::parse_recoverable(&sources.get(source).text);
    // What is wrong with its syntax is found when the rig is read.
    if errors.iter().any(|error| error.message() != REPEATED) {
        return Vec::new();
    }
    let Some((_, value)) = table.get_ref().iter().find(|(key, _)| key.get_ref() == INCLUDE) else {
        return Vec::new();
    };
    let mut wrong = |expected, found, range| {
        let instead = Some("for example: include = [\"tow/van.toml\"]".to_string());
        let fault = Fault::WrongType { expected, found: type_name(found), instead };
        problems.push(Problem { fault, at: Some(Span { source, range }), other: None });
    };
    let DeValue::Array(elements) = value.get_ref() else {
        wrong("a list of files, [\"…\", \"…\"]", value.get_ref(), value.span());
        return Vec::new();
    };
    let mut paths = Vec::new();
    for element in elements {
        match element.get_ref() {
            DeValue::String(path) => paths.push((path.to_string(), Span { source, range: element.span() })),
            other => wrong("the path of a file in quotes", other, element.span()),
        }
    }
    paths
}

/// Each key that stands in two of the texts. Tables are merged; everything else, lists included, stands in one text.
fn clashes(sources: &Sources) -> Vec<Problem> {
    let mut stated = Stated::default();
    for (source, text) in sources.iter().map(|(id, source)| (id, &source.text)) {
        let (table, errors) = DeTable::parse_recoverable(text);
        // A key on a broken line may be none.
        if errors.is_empty() {
            stated.take(source, table.get_ref(), "");
        }
    }
    stated.clashes
}

/// What stands in the texts so far, by path.
#[derive(Default)]
struct Stated {
    /// Where, and whether it is a table.
    keys: BTreeMap<String, (Span, bool)>,
    clashes: Vec<Problem>,
}

impl Stated {
    fn take(&mut self, source: SourceId, table: &DeTable<'_>, pattern: &str) {
        for (key, value) in table {
            let name = key.get_ref();
            let path = if pattern.is_empty() { name.to_string() } else { format!("{pattern}.{name}") };
            // What is no key of the format is a mistake by itself.
            if name.contains('.') || node(&path).is_none() {
                continue;
            }
            let inner = match value.get_ref() {
                DeValue::Table(inner) if list_at(&path).is_none() && !children(&path).is_empty() => {
                    Some(inner)
                }
                _ => None,
            };
            let here = Span { source, range: key.span() };
            match (self.keys.get(&path), inner) {
                (Some((_, true)), Some(_)) => {}
                (Some((other, _)), _) => {
                    let fault = Fault::Repeated { found: path, is_list: false };
                    self.clashes.push(Problem { fault, at: Some(here), other: Some(other.clone()) });
                    continue;
                }
                (None, _) => {
                    self.keys.insert(path.clone(), (here, inner.is_some()));
                }
            }
            if let Some(inner) = inner {
                self.take(source, inner, &path);
            }
        }
    }
}
