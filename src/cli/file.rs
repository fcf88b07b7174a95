//! Files that the program writes: whole or not at all.

use super::interrupt;
use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use tempfile::TempPath;

/// A file in the making. Until it is [kept](Self::keep) it stands beside its place under another name.
pub(super) struct Draft {
    file: File,
    /// Its own name and the one that it gets; none for a device or a pipe, which is written to as it is.
    names: Option<(TempPath, PathBuf)>,
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
        let prefix = format!(".{}.", name.to_string_lossy());
        let folder = place.parent().filter(|folder| !folder.as_os_str().is_empty());
        let folder = folder.unwrap_or(Path::new("."));
        let mut builder = tempfile::Builder::new();
        let builder = builder.prefix(&prefix).suffix(".part");
        let mut parts = interrupt::parts();
        // As any new file: who may read it is for the folder's owner to say.
        let (file, part) = builder.make_in(folder, |path| File::create_new(path))?.into_parts();
        parts.add(&part);
        drop(parts);
        let draft = Self { file, names: Some((part, place)) };
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

    /// Puts it in its place, whatever stands there.
    ///
    /// # Errors
    /// When it cannot be written out or renamed; then nothing is left of it.
    pub fn keep(self) -> io::Result<()> {
        self.put(|part, place| part.persist(place).map_err(|error| error.error))
    }

    /// Puts it in its place, where nothing may stand.
    ///
    /// # Errors
    /// As [`Self::keep`], and when something stands there.
    pub fn keep_as_new(self) -> io::Result<()> {
        self.put(|part, place| part.persist_noclobber(place).map_err(|error| error.error))
    }

    /// Puts it in its place if what stands there passes a last look.
    ///
    /// # Errors
    /// As [`Self::keep`], and what the look comes to.
    pub fn keep_if(self, look: impl FnOnce() -> io::Result<()>) -> io::Result<()> {
        self.put(|part, place| {
            look()?;
            part.persist(place).map_err(|error| error.error)
        })
    }

    fn put(mut self, rename: impl FnOnce(TempPath, &Path) -> io::Result<()>) -> io::Result<()> {
        let Some((part, place)) = self.names.take() else { return Ok(()) };
        let written = self.file.sync_all();
        let mut parts = interrupt::parts();
        let name = part.to_path_buf();
        let renamed = written.and_then(|()| rename(part, &place));
        parts.forget(&name);
        renamed
    }
}

/// What is not kept goes: its name removes it.
impl Drop for Draft {
    fn drop(&mut self) {
        if let Some((part, _)) = self.names.take() {
            let mut parts = interrupt::parts();
            parts.forget(&part);
        }
    }
}
