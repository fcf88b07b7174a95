//! The files of one rig: the rig file, and what it includes, from where it may.

use crate::quantity::show::plain;
use crate::rig::IncludeFault;
use same_file::Handle;
use std::fs::{self, File};
use std::io::{self, Read};
use std::path::{Component, Path, PathBuf};

/// A rig file is short; what is longer than this is none.
const LONGEST_FILE: u64 = 1 << 20;

/// A file of a rig as it was read.
pub(super) struct Part {
    /// Where it was read; none for standard input.
    pub path: Option<PathBuf>,
    /// Which file that is, or `None` where the system does not say.
    identity: Option<Handle>,
    /// All of its text.
    pub text: String,
}

impl Part {
    /// Reads a file.
    ///
    /// # Errors
    /// Why it cannot be read, in words.
    pub fn read(path: &Path) -> Result<Self, String> {
        let mut file = File::open(path).map_err(|error| unreadable(&error))?;
        let text = text(&mut file)?;
        Ok(Self { path: Some(path.to_path_buf()), identity: Handle::from_file(file).ok(), text })
    }

    /// Reads standard input.
    ///
    /// # Errors
    /// As [`Self::read`].
    pub fn read_stdin() -> Result<Self, String> {
        Ok(Self { path: None, identity: Handle::stdin().ok(), text: text(&mut io::stdin().lock())? })
    }

    /// Whether a path leads to it, by whatever way.
    pub fn is(&self, path: &Path) -> bool {
        // A pipe would be waited for.
        let is_file = path.metadata().is_ok_and(|metadata| metadata.is_file());
        is_file && self.identity.is_some() && Handle::from_path(path).ok() == self.identity
    }

    /// Whether the file still holds the text that was read; standard input cannot be read again.
    pub fn still_reads_the_same(&self) -> io::Result<bool> {
        let bytes = self.path.as_ref().map(fs::read).transpose()?;
        Ok(bytes.is_none_or(|bytes| bytes == self.text.as_bytes()))
    }

    /// Whether output goes into it.
    pub fn is_output(&self) -> bool {
        let streams = [Handle::stdout(), Handle::stderr()];
        let is_file = |handle: &Handle| handle.as_file().metadata().is_ok_and(|metadata| metadata.is_file());
        streams.iter().flatten().any(|handle| is_file(handle) && Some(handle) == self.identity.as_ref())
    }
}

/// Where a part lies.
#[derive(Clone)]
pub(super) struct Place {
    /// By no link and no way round.
    canonical: PathBuf,
    /// As messages call it.
    shown: PathBuf,
}

/// What lies at one place is one file, whatever it is called.
impl PartialEq for Place {
    fn eq(&self, other: &Self) -> bool {
        self.canonical == other.canonical
    }
}

impl Place {
    /// That of a rig file; none for a pipe, which lies in no folder.
    pub fn of(path: &Path) -> Option<Self> {
        Some(Self { canonical: fs::canonicalize(path).ok()?, shown: path.to_path_buf() })
    }

    /// What messages call it.
    pub fn name(&self) -> String {
        self.shown.to_string_lossy().into_owned()
    }

    /// What may be included from here, if this is the rig file itself.
    fn tree(&self) -> &Path {
        tree(self.canonical.parent().unwrap_or(&self.canonical))
    }

    /// Reads a file that the one here includes, inside the tree of the rig file.
    ///
    /// # Errors
    /// Why it may not be included.
    pub fn include(&self, rig_file: &Self, path: &str) -> Result<(Self, Part), IncludeFault> {
        let tree = rig_file.tree();
        let beside = |place: &Path| place.parent().unwrap_or(Path::new("")).join(path);
        let outside = || IncludeFault::Outside(path.escape_debug().to_string());
        // Nothing outside is looked at: neither by the path as it is written nor, below, by a link.
        if !straight(&beside(&self.canonical)).starts_with(tree) {
            return Err(outside());
        }
        let unread = |error| IncludeFault::Unread(unreadable(&error));
        let canonical = fs::canonicalize(beside(&self.canonical)).map_err(unread)?;
        if !canonical.starts_with(tree) {
            return Err(outside());
        }
        if !canonical.metadata().map_err(unread)?.is_file() {
            let message = "expected a file to include, found a folder or a device";
            return Err(IncludeFault::Unread(message.to_string()));
        }
        let part = Part::read(&canonical).map_err(IncludeFault::Unread)?;
        let place = Self { canonical, shown: straight(&beside(&self.shown)) };
        Ok((place, part))
    }
}

/// What belongs to a folder: its own tree, or the repository that holds it.
pub(super) fn tree(folder: &Path) -> &Path {
    let repository = folder.ancestors().find(|folder| folder.join(".git").exists());
    repository.unwrap_or(folder)
}

/// A path without the steps that lead back.
fn straight(path: &Path) -> PathBuf {
    let mut straight = PathBuf::new();
    for component in path.components() {
        match (component, straight.components().next_back()) {
            (Component::ParentDir, Some(Component::Normal(_))) => {
                straight.pop();
            }
            (Component::CurDir, _) | (Component::ParentDir, Some(Component::RootDir)) => {}
            (component, _) => straight.push(component),
        }
    }
    straight
}

/// All of a file's text.
fn text(file: &mut dyn Read) -> Result<String, String> {
    let mut bytes = Vec::new();
    let read = file.take(LONGEST_FILE + 1).read_to_end(&mut bytes);
    read.map_err(|error| unreadable(&error))?;
    if bytes.len() as u64 > LONGEST_FILE {
        return Err("expected a rig file of at most 1 MiB, found a longer one".to_string());
    }
    String::from_utf8(bytes).map_err(|error| {
        let before = &error.as_bytes()[..error.utf8_error().valid_up_to()];
        let line = before.split(|byte| *byte == b'\n').count();
        format!("expected UTF-8 text, found other bytes on line {line}\nhelp: save the file as UTF-8: an editor's \"save as\" asks for the encoding")
    })
}

fn unreadable(error: &io::Error) -> String {
    plain(&format!("expected a readable rig file, found: {error}")).into_owned()
}
