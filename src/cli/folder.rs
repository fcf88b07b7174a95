//! Which rig files a command line asks for: those that it names, and those that lie in the folders that it names.
//!
//! A `*.toml` of a folder is a rig if it states `format`, or if no other file there includes it and it states axles, itself
//! or through what it includes. Anything else is a part of rigs, or no business of ours. What cannot be read or is not
//! TOML is taken for a rig, so that no mistake makes a rig vanish.

use super::destination::resolved;
use super::part::{Part, tree};
use super::rigs::{RigFile, STDIN, Trouble, shown};
use crate::rig::Outline;
use ignore::{DirEntry, WalkBuilder};
use std::collections::{HashMap, HashSet};
use std::fs;
use std::path::{Path, PathBuf};

/// What a command line asks for.
pub(super) struct Wanted {
    /// The rig files in order, and what stands in the place of rigs that cannot be found.
    pub items: Vec<Item>,
    /// The `*.toml` of folders that are no rigs of their own.
    pub passed_over: Vec<String>,
    /// Whether one rig is reported as several are: a folder may hold more tomorrow.
    pub several: bool,
}

/// A rig file, or a path that leads to none, and why.
pub(super) struct Item {
    pub path: String,
    pub trouble: Option<String>,
}

/// The rig files that paths lead to: files as they are named, those of a folder in the order of their paths.
///
/// # Errors
/// When standard input is asked for beside a folder.
pub(super) fn wanted(paths: &[String]) -> Result<Wanted, Trouble> {
    let is_folder = |path: &&String| Path::new(path).is_dir();
    let Some(folder) = paths.iter().find(is_folder) else {
        let items: Vec<Item> = paths.iter().map(|path| Item { path: path.clone(), trouble: None }).collect();
        return Ok(Wanted { several: items.len() > 1, items, passed_over: Vec::new() });
    };
    if paths.iter().any(|path| path == STDIN) {
        let folder = shown(Path::new(folder));
        let message = format!("expected files and folders, or - alone, found both - and the folder {folder}");
        return Err(Trouble::Usage(message));
    }
    let asked: Vec<Vec<Found>> = paths
        .iter()
        .map(
            |path| if is_folder(&path) { walk(Path::new(path)) } else { vec![Found::named(Path::new(path))] },
        )
        .collect();
    let parts = parts(asked.iter().flatten());
    // What is named stands where it is named, whichever folders hold it too.
    let named = asked.iter().flatten().filter(|found| !found.by_folder);
    let mut seen: HashSet<PathBuf> = named.filter_map(|found| found.stands.clone()).collect();
    let mut wanted = Wanted { items: Vec::new(), passed_over: Vec::new(), several: true };
    for (path, found) in paths.iter().zip(asked) {
        let mut has_rigs = false;
        for found in found {
            let is_rig = found.trouble.is_some() || !found.by_folder || found.is_rig(&parts);
            has_rigs |= is_rig;
            if found.by_folder && found.stands.is_some_and(|place| !seen.insert(place)) {
                continue;
            }
            let path = found.path.to_string_lossy().into_owned();
            if is_rig {
                wanted.items.push(Item { path, trouble: found.trouble });
            } else {
                wanted.passed_over.push(path);
            }
        }
        if !has_rigs {
            let trouble = "expected a folder with rig files, found none in it: a rig file ends in .toml and states format = 1";
            wanted.items.push(Item { path: path.clone(), trouble: Some(trouble.to_string()) });
        }
    }
    Ok(wanted)
}

/// A file that may be a rig, as it was found.
struct Found {
    path: PathBuf,
    /// Whether it was found in a folder, not named.
    by_folder: bool,
    /// Its path by no link and no way round; none where it cannot be followed.
    canonical: Option<PathBuf>,
    /// The same of the file that it leads to, or, where it leads to none, of itself: what tells two of them apart.
    stands: Option<PathBuf>,
    /// What it shows at its top, if it can be read.
    outline: Option<Outline>,
    /// Why it cannot be looked at.
    trouble: Option<String>,
}

impl Found {
    fn named(path: &Path) -> Self {
        // A pipe can be read once only.
        let outline = path.is_file().then(|| Part::read(path).ok()).flatten();
        let outline = outline.map(|part| Outline::of(&part.text));
        let canonical = fs::canonicalize(path).ok();
        let stands = resolved(path);
        Self { path: path.to_path_buf(), by_folder: false, canonical, stands, outline, trouble: None }
    }

    fn wrong(path: &Path, why: &str) -> Self {
        let trouble = Some(why.to_string());
        // A link that is not followed is not what it leads to.
        let stands = path.parent().and_then(resolved).zip(path.file_name());
        let stands = stands.map(|(folder, name)| folder.join(name));
        Self { path: path.to_path_buf(), by_folder: true, canonical: None, stands, outline: None, trouble }
    }

    /// The files that it includes, by no link and no way round.
    fn includes(&self) -> impl Iterator<Item = PathBuf> {
        let folder = self.canonical.as_ref().and_then(|path| path.parent());
        let paths = self.outline.iter().flat_map(|outline| &outline.includes);
        paths.filter_map(move |path| fs::canonicalize(folder?.join(path)).ok())
    }

    /// Whether it states the format, or may have meant to.
    fn states_format(&self) -> bool {
        self.outline.as_ref().is_none_or(|outline| outline.states_format)
    }

    /// Whether a file of a folder is a rig of its own.
    fn is_rig(&self, parts: &HashSet<PathBuf>) -> bool {
        if self.states_format() {
            return true;
        }
        if self.canonical.as_ref().is_some_and(|canonical| parts.contains(canonical)) {
            return false;
        }
        // A rig whose files cannot be brought together is a rig all the same.
        let Ok(whole) = RigFile::read(&self.path.to_string_lossy()) else { return true };
        let mut outlines = whole.sources.iter().map(|(_, source)| Outline::of(&source.text));
        outlines.any(|outline| outline.is_broken || outline.states_format || outline.states_axles)
    }
}

/// Every file that another one of these includes, perhaps by way of others. Where files include each other in a circle and
/// nothing else leads to them, they are none.
fn parts<'a>(found: impl Iterator<Item = &'a Found>) -> HashSet<PathBuf> {
    let found: Vec<&Found> = found.collect();
    let included: HashSet<PathBuf> = found.iter().flat_map(|found| found.includes()).collect();
    let is_included = |found: &Found| found.canonical.as_ref().is_some_and(|path| included.contains(path));
    let by_path: HashMap<&PathBuf, &Found> =
        found.iter().filter_map(|found| Some((found.canonical.as_ref()?, *found))).collect();
    let mut next: Vec<&Found> =
        found.iter().copied().filter(|found| found.states_format() || !is_included(found)).collect();
    let mut parts = HashSet::new();
    while let Some(found) = next.pop() {
        for path in found.includes() {
            if !parts.contains(&path) {
                next.extend(by_path.get(&path));
                parts.insert(path);
            }
        }
    }
    parts
}

/// The files of a folder and of those in it that may be rigs, by path; hidden ones and those that ignore files name left
/// out. What ignores files on one machine only is not heeded.
fn walk(folder: &Path) -> Vec<Found> {
    let whole = fs::canonicalize(folder).unwrap_or_else(|_| folder.to_path_buf());
    let mut walk = WalkBuilder::new(folder);
    walk.require_git(false).git_global(false).git_exclude(false);
    let mut found: Vec<Found> = walk
        .build()
        .filter_map(|entry| match entry {
            Ok(entry) => in_folder(&entry, tree(&whole)),
            Err(error) => {
                let found = error.io_error().map_or_else(|| error.to_string(), ToString::to_string);
                Some(Found::wrong(
                    place(&error).unwrap_or(folder),
                    &format!("expected a readable folder, found: {found}"),
                ))
            }
        })
        .collect();
    found.sort_by(|a, b| a.path.cmp(&b.path));
    found
}

/// Where something could not be looked at.
fn place(error: &ignore::Error) -> Option<&Path> {
    match error {
        ignore::Error::WithPath { path, .. } => Some(path),
        ignore::Error::WithDepth { err, .. } | ignore::Error::WithLineNumber { err, .. } => place(err),
        _ => None,
    }
}

/// What a folder holds, if it may be a rig or leads to some. A link is followed to a file that belongs to the folder's
/// `tree`; to a folder it is not followed, as it may lead in a circle, but neither is it passed over.
fn in_folder(entry: &DirEntry, tree: &Path) -> Option<Found> {
    let path = entry.path();
    let is_named_so = path.extension().is_some_and(|extension| extension.eq_ignore_ascii_case("toml"));
    let is_link = entry.path_is_symlink();
    let metadata = fs::metadata(path);
    if metadata.as_ref().is_ok_and(fs::Metadata::is_dir) {
        let why = "expected a folder or a file, found a link to a folder, which is not followed\nhelp: name that folder too, or put the link into a file called .ignore";
        return (is_link && entry.depth() > 0).then(|| Found::wrong(path, why));
    }
    if !is_named_so {
        return None;
    }
    let canonical = fs::canonicalize(path).ok();
    let wrong = |why: &str| Some(Found::wrong(path, why));
    if is_link && canonical.as_ref().is_some_and(|canonical| !canonical.starts_with(tree)) {
        return wrong(
            "expected a link to a file below the folder or in its repository, found one that leads out of it",
        );
    }
    if metadata.is_ok_and(|metadata| !metadata.is_file()) {
        return wrong("expected a file, found a device or a pipe");
    }
    if path.to_str().is_none() {
        return wrong("expected the name of a file in UTF-8, found other bytes");
    }
    Some(Found { by_folder: true, ..Found::named(path) })
}
