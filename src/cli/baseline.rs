//! Baselines: how a club's rigs stood, read from files and written to them.

use super::destination::{resolved, write_over};
use super::folder::Wanted;
use super::rigs::{STDIN, Trouble, shown};
use crate::fit::Assessment;
use crate::report::baseline::Unread;
use crate::report::json::baseline;
use crate::study::baseline::{Since, Stood};
use clap::Args;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Component, Path, PathBuf};

/// What is asked of baselines.
#[derive(Args)]
pub(super) struct Baselines {
    /// Report only what got worse since this baseline was written, and which rigs are gone, and exit 1 only for that
    #[arg(long, value_name = "FILE", conflicts_with_all = [
        "as_stated", "samples", "allow_incomplete", "write_plan", "full", "only", "summary",
    ])]
    baseline: Option<PathBuf>,
    /// Write the verdicts and margins of all rigs to a baseline, over an older one if one is there
    #[arg(long, value_name = "FILE", conflicts_with_all = ["as_stated", "samples", "changes"])]
    write_baseline: Option<PathBuf>,
}

impl Baselines {
    /// Whether what is asked for is what got worse.
    pub fn are_compared(&self) -> bool {
        self.baseline.is_some()
    }

    /// Whether a baseline is to be written.
    pub fn are_written(&self) -> bool {
        self.write_baseline.is_some()
    }

    /// The baseline to compare with, if any, once it is sure that the one to be written endangers no other file.
    pub fn read(&self, files: &[String]) -> Result<Option<Baseline>, Trouble> {
        if (self.are_compared() || self.are_written()) && files.iter().any(|file| file == STDIN) {
            let message =
                "expected rig files for a baseline, which goes by their paths, found standard input";
            return Err(Trouble::Usage(message.to_string()));
        }
        let refused = |place: &Path, found: &str| {
            let place = shown(place);
            let message =
                format!("expected a new file for the baseline, or an older baseline, found {found}: {place}");
            Err(Trouble::Usage(message))
        };
        if let Some(place) = &self.write_baseline {
            let is_read = self.baseline.as_ref().is_some_and(|read| resolved(read) == resolved(place));
            match fs::metadata(place) {
                Ok(_) if is_read => return refused(place, "the one that is read"),
                Ok(stands) if !stands.is_file() => return refused(place, "a folder or a device"),
                Ok(_) if Baseline::read(place).is_err() => return refused(place, "another file"),
                _ => {}
            }
        }
        self.baseline.as_deref().map(Baseline::read).transpose()
    }

    /// Writes how rigs stand, each by its path, if that is asked for; says what was written where.
    pub fn write(&self, rigs: Vec<(String, Stood)>) -> Result<Option<String>, Trouble> {
        let Some(place) = &self.write_baseline else { return Ok(None) };
        let folder = folder(place);
        let rigs: BTreeMap<String, Stood> =
            rigs.into_iter().map(|(path, stood)| (from(&folder, &path), stood)).collect();
        let text = baseline::write(&rigs).map_err(|error| Trouble::Plain(error.to_string()))?;
        write_over(place, &text)?;
        Ok(Some(format!("note: {} written to {}: how each stands", rig_count(rigs.len()), shown(place))))
    }
}

/// A baseline as it was read.
pub(super) struct Baseline {
    /// What messages call it.
    pub name: String,
    /// Its folder: the paths of its rigs begin there, wherever the program runs.
    folder: PathBuf,
    rigs: BTreeMap<String, Stood>,
}

impl Baseline {
    fn read(path: &Path) -> Result<Self, Trouble> {
        let name = shown(path);
        let wrong = |place: &str, message: &str| Trouble::Usage(format!("{name}{place}: {message}"));
        let text = fs::read_to_string(path)
            .map_err(|error| wrong("", &format!("expected a readable baseline, found: {error}")))?;
        let rigs = baseline::read(&text).map_err(|error| {
            let place = error.at.map(|(line, column)| format!(":{line}:{column}")).unwrap_or_default();
            wrong(&place, &error.message)
        })?;
        Ok(Self { folder: folder(path), name, rigs })
    }

    /// What became of a rig.
    pub fn since(&self, path: &str, now: &Assessment) -> Since {
        Since::of(self.rigs.get(&from(&self.folder, path)), now)
    }

    /// The rigs that are not among those that were looked for. One that is not there, or that lies in a folder in which rigs
    /// were looked for, is gone.
    pub fn unread(&self, wanted: &Wanted, asked: &[String]) -> Unread {
        let seen: BTreeSet<String> = wanted.items.iter().map(|item| from(&self.folder, &item.path)).collect();
        let folders = asked.iter().map(Path::new).filter(|path| path.is_dir());
        let folders: Vec<PathBuf> = folders.filter_map(resolved).collect();
        let is_gone = |path: &&String| {
            let place = self.folder.join(path);
            let stands = resolved(&place).unwrap_or_else(|| place.clone());
            !place.is_file() || folders.iter().any(|folder| stands.starts_with(folder))
        };
        let unread = self.rigs.keys().filter(|path| !seen.contains(*path));
        let (gone, unasked) = unread.partition::<Vec<&String>, _>(is_gone);
        let [gone, unasked] = [gone, unasked].map(|paths| paths.into_iter().cloned().collect());
        Unread { gone, unasked }
    }
}

fn rig_count(rigs: usize) -> String {
    if rigs == 1 { "1 rig".to_string() } else { format!("{rigs} rigs") }
}

/// The folder of a file that may not be there yet, by no link.
fn folder(path: &Path) -> PathBuf {
    resolved(path).and_then(|path| path.parent().map(Path::to_path_buf)).unwrap_or_default()
}

/// A path as it is written in a file of a folder: from there, with bars that every system takes.
fn from(folder: &Path, path: &str) -> String {
    let path = resolved(Path::new(path)).unwrap_or_else(|| PathBuf::from(path));
    let shared = folder.components().zip(path.components()).take_while(|(a, b)| a == b).count();
    let up = folder.components().skip(shared).map(|_| Component::ParentDir);
    let steps = up.chain(path.components().skip(shared));
    steps.map(|step| step.as_os_str().to_string_lossy().into_owned()).collect::<Vec<_>>().join("/")
}
