//! Files that the program writes: whole or not at all.

use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// A file in the making. Until it is [kept](Self::keep) it stands beside its place under another name.
pub(super) struct Draft {
    file: File,
    /// Its own name and the one that it gets; none for a device or a pipe, which is written to as it is.
    names: Option<(PathBuf, PathBuf)>,
}

impl Draft {
    /// Begins a file that takes the place of whatever stands there.
    ///
    /// # Errors
    /// When nothing can be written there.
    pub fn begin(path: &Path) -> io::Result<Self> {
        // A link is followed: what it leads to is written.
        let place = fs::canonicalize(path).unwrap_or_else(|_| path.to_path_buf());
        let stands = fs::metadata(&place).ok();
        if stands.as_ref().is_some_and(fs::Metadata::is_dir) {
            return Err(io::Error::from(io::ErrorKind::IsADirectory));
        }
        if stands.as_ref().is_some_and(|stands| !stands.is_file()) {
            return Ok(Self { file: File::options().write(true).open(&place)?, names: None });
        }
        if stands.is_some() {
            // What may not be written to is not replaced either.
            File::options().append(true).open(&place)?;
        }
        let name = place.file_name().ok_or_else(|| io::Error::from(io::ErrorKind::InvalidInput))?;
        let beside = format!(".{}.{}.part", name.to_string_lossy(), std::process::id());
        let beside = place.with_file_name(beside);
        let file = File::create_new(&beside)?;
        let draft = Self { file, names: Some((beside, place)) };
        if let Some(stands) = stands {
            draft.file.set_permissions(stands.permissions())?;
        }
        Ok(draft)
    }

    /// Adds to it.
    ///
    /// # Errors
    /// When it cannot be written.
    pub fn add(&mut self, text: &str) -> io::Result<()> {
        self.file.write_all(text.as_bytes())
    }

    /// Puts it in its place.
    ///
    /// # Errors
    /// When it cannot be written out or renamed; then nothing is left of it.
    pub fn keep(mut self) -> io::Result<()> {
        let Some((beside, place)) = self.names.clone() else { return Ok(()) };
        self.file.sync_all()?;
        fs::rename(beside, place)?;
        self.names = None;
        Ok(())
    }
}

/// What is not kept goes.
impl Drop for Draft {
    fn drop(&mut self) {
        if let Some((beside, _)) = &self.names {
            // Where it cannot be removed there is nothing more to do.
            let _ = fs::remove_file(beside);
        }
    }
}

/// Writes a whole file.
///
/// # Errors
/// When nothing can be written there; then what stood there stands as before.
pub(super) fn write(path: &Path, text: &str) -> io::Result<()> {
    let mut draft = Draft::begin(path)?;
    draft.add(text)?;
    draft.keep()
}
