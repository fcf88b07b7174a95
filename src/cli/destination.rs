//! Where a rig file with found values goes: a new file, or the rig file itself, when asked for.

use super::apply;
use super::file::Draft;
use super::flatten;
use super::rigs::{RigFile, Trouble, shown};
use crate::fit;
use crate::quantity::show::plain;
use crate::rig::inputs::TITLE;
use crate::rig::{Key, Problems, Rig, SourceId};
use clap::Args;
use same_file::Handle;
use std::fs::{self, File, TryLockError};
use std::io;
use std::path::{Path, PathBuf};

/// Where to put the rig file with the values found, if anywhere.
#[derive(Args)]
pub(super) struct Destination {
    /// Write the rig file with the values found to a new file, and keep comments and layout; it includes no other file
    #[arg(long, value_name = "PATH")]
    write: Option<PathBuf>,
    /// Write the values found into the rig file itself, or the file it includes that holds them
    #[arg(long)]
    in_place: bool,
}

/// A place for a rig file, found fit to be written.
pub(super) enum Place {
    /// Where nothing stands.
    New(PathBuf),
    /// The rig file that was read, or the file which it includes that holds the values.
    Same,
}

impl Destination {
    /// A new file, if one is asked for.
    pub fn new_file(path: Option<&Path>) -> Self {
        Self { write: path.map(Path::to_path_buf), in_place: false }
    }

    /// Whether anything is to be written.
    pub fn is_asked_for(&self) -> bool {
        self.write.is_some() || self.in_place
    }

    /// Where the rig file goes, if anywhere; no other file that stands there is in danger.
    pub fn place(&self, file: &RigFile, changes: &[String]) -> Result<Option<Place>, Trouble> {
        if !self.is_asked_for() {
            return Ok(None);
        }
        let refused = |message: String| Err(Trouble::Usage(message));
        if !changes.is_empty() {
            return refused(
                "expected no --set with --write or --in-place: what is written would not have it\nhelp: put it into the rig file first".to_string(),
            );
        }
        let rig_file = file.path();
        if self.in_place && rig_file.is_none() {
            return refused("expected a rig file for --in-place, found standard input".to_string());
        }
        let Some(place) = self.write.as_deref().or(rig_file) else { return Ok(None) };
        let shown = shown(place);
        match (file.is(place), self.in_place) {
            (false, true) => {
                refused(format!("expected either --in-place or another file to --write, found both: {shown}"))
            }
            (true, false) => refused(format!(
                "expected a new file to write, found the rig file {shown}\nhelp: --in-place changes the rig file itself"
            )),
            (false, false) if place.symlink_metadata().is_ok() => {
                refused(format!("expected a new file to write, found that {shown} is there"))
            }
            (false, false) => Ok(Some(Place::New(place.to_path_buf()))),
            (true, true) => Ok(Some(Place::Same)),
        }
    }

    /// Refuses a file for other output that is the one to write, too.
    pub fn refuse_same(&self, output: &Path) -> Result<(), Trouble> {
        if self.write.as_deref().is_some_and(|write| resolved(write) == resolved(output)) {
            let message =
                format!("expected two files for --output and --write, found one: {}", shown(output));
            return Err(Trouble::Usage(message));
        }
        Ok(())
    }
}

/// A path without links, also of a file that is not there yet.
pub(super) fn resolved(path: &Path) -> Option<PathBuf> {
    if let Ok(path) = path.canonicalize() {
        return Some(path);
    }
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    Some(folder.canonicalize().ok()?.join(path.file_name()?))
}

impl Place {
    /// Writes the rig file with these values in it, whole or not at all, if reading it gives the rig that was meant.
    /// Returns what was written where.
    pub fn write(&self, file: &RigFile, settings: &[(Key, String)], meant: &Rig) -> Result<String, Trouble> {
        let rig = file.rig(&[])?;
        let (sources, source) = match self {
            // A new file may lie anywhere: it is whole.
            Self::New(_) => (flatten::whole_source(&file.sources)?, SourceId::default()),
            Self::Same => (file.sources.clone(), the_one_source(&rig, file, settings)?),
        };
        let cannot = |error: apply::CannotApply| Trouble::Usage(error.to_string());
        let mut text = apply::apply(&sources.get(source).text, &rig, settings).map_err(cannot)?;
        // What readings gave stands in the values.
        if meant.measured().weighings.is_empty() {
            text = apply::without_readings(&text).map_err(cannot)?;
        }
        let not_a_rig = |problems: Problems| unwritten(&format!("a rig, found: {problems}"));
        let sources = sources.with(source, &text).map_err(not_a_rig)?;
        let written = Rig::from_sources(sources, &[""; 0]).map_err(not_a_rig)?;
        if written.uncertain() != meant.uncertain() {
            return Err(unwritten("the ± of every input as it was meant, found another"));
        }
        if !says_the_same(&written, meant)? {
            let keys: Vec<String> = settings.iter().map(|(key, _)| key.to_string()).collect();
            return Err(unwritten(&format!(
                "the loads that were found, found others: the rig file states {} as measured, and the springs would be taken to stand level under the new value",
                keys.join(" and ")
            )));
        }
        let values = match settings.iter().filter(|(key, _)| *key != TITLE.key()).count() {
            1 => "1 value".to_string(),
            count => format!("{count} values"),
        };
        let place = match self {
            Self::New(place) => {
                new(place, file, &text).map_err(|error| unwritable(place, &error))?;
                return Ok(format!("note: the rig with {values} put in is written to {}", shown(place)));
            }
            Self::Same => file.part(source).and_then(|part| part.path.as_deref()),
        };
        if let Some(place) = place {
            over(place, file, &text).map_err(|error| unwritable(place, &error))?;
        }
        let name = plain(&file.sources.get(source).name);
        let shared = source != SourceId::default();
        let others = if shared { ": it changes every rig that includes that file" } else { "" };
        Ok(format!("note: {values} written into {name}{others}"))
    }
}

/// The text that holds all of these keys.
fn the_one_source(rig: &Rig, file: &RigFile, settings: &[(Key, String)]) -> Result<SourceId, Trouble> {
    let mut sources: Vec<SourceId> = settings.iter().map(|(key, _)| rig.source_of(*key)).collect();
    sources.sort();
    sources.dedup();
    match sources[..] {
        [] => Ok(SourceId::default()),
        [source] => Ok(source),
        _ => {
            let names: Vec<_> = sources.iter().map(|id| plain(&file.sources.get(*id).name)).collect();
            Err(Trouble::Usage(format!(
                "expected one file that holds every key to be written, found {}; nothing was written\nhelp: --write makes one whole file with them",
                names.join(" and ")
            )))
        }
    }
}

/// Nothing was written, as what is written would not say what was found.
fn unwritten(why: &str) -> Trouble {
    Trouble::Usage(format!(
        "expected the written file to give {why}; nothing was written\nhelp: try the values by --set"
    ))
}

/// Whether a rig that was read from a file is the one meant: proposed to the last bit, with the same loads.
fn says_the_same(written: &Rig, meant: &Rig) -> Result<bool, Trouble> {
    if written.proposed() != meant.proposed() {
        return Ok(false);
    }
    // What is stated as measured may make other springs.
    let loads = |rig: &Rig| fit::assess(rig).map_err(|unfit| Trouble::Plain(unfit.to_string()));
    Ok(written.measured() == meant.measured() || loads(written)? == loads(meant)?)
}

fn new(place: &Path, file: &RigFile, text: &str) -> io::Result<()> {
    let mut draft = Draft::begin(place)?;
    draft.add(text)?;
    file.still_reads_the_same()?;
    draft.keep_as_new()
}

/// Writes over the rig file, unless it is no longer what was read. Of two that do so at once one fails: whoever has
/// the lock looks at the file that stands there before it takes its place.
fn over(place: &Path, file: &RigFile, text: &str) -> io::Result<()> {
    let place = fs::canonicalize(place)?;
    let stands = File::options().read(true).append(true).open(&place)?;
    match stands.try_lock() {
        Err(TryLockError::WouldBlock) => return Err(io::Error::other("another program writing to it")),
        // Where files cannot be locked the look is all there is.
        Ok(()) | Err(TryLockError::Error(_)) => {}
    }
    let locked = Handle::from_file(stands)?;
    let mut draft = Draft::begin(&place)?;
    draft.add(text)?;
    draft.keep_if(|| {
        // Once replaced, a locked file guards nothing.
        if Handle::from_path(&place)? != locked {
            return Err(RigFile::changed());
        }
        file.still_reads_the_same()
    })
}

/// Writes a text whole or not at all, over what stands there.
pub(super) fn write_over(place: &Path, text: &str) -> Result<(), Trouble> {
    let write = || {
        let mut draft = Draft::begin(place)?;
        draft.add(text)?;
        draft.keep()
    };
    write().map_err(|error| unwritable(place, &error))
}

/// That a place cannot be written.
pub(super) fn unwritable(place: &Path, error: &io::Error) -> Trouble {
    Trouble::Usage(format!("expected to write {}, found: {error}", shown(place)))
}
