//! Where a rig file with found values goes: a new file, or the rig file itself, when asked for.

use super::rigs::Trouble;
use super::{apply, file};
use clap::Args;
use std::path::{Path, PathBuf};

/// Where to put the rig file with the values found, if anywhere.
#[derive(Args)]
pub(super) struct Destination {
    /// The rig file with the values found, written to a new file, comments and layout kept
    #[arg(long, value_name = "PATH")]
    write: Option<PathBuf>,
    /// The rig file itself is given the values found
    #[arg(long)]
    in_place: bool,
}

impl Destination {
    /// Whether anything is to be written.
    pub fn is_asked_for(&self) -> bool {
        self.write.is_some() || self.in_place
    }

    /// Where the rig file goes, if anywhere; nothing that stands there is in danger.
    pub fn place(&self, rig_file: &str, changes: &[String]) -> Result<Option<PathBuf>, Trouble> {
        if !self.is_asked_for() {
            return Ok(None);
        }
        if !changes.is_empty() {
            let message = "expected no --set with --write or --in-place: what is written would not have it\nhelp: put it into the rig file first";
            return Err(Trouble::Usage(message.to_string()));
        }
        if rig_file == "-" && self.write.is_none() {
            return Err(Trouble::Usage(
                "expected a rig file for --in-place, found standard input".to_string(),
            ));
        }
        let rig_file = Path::new(rig_file);
        let place = self.write.as_deref().unwrap_or(rig_file);
        let same = |place: &Path| match (place.canonicalize(), rig_file.canonicalize()) {
            (Ok(place), Ok(rig_file)) => place == rig_file,
            _ => false,
        };
        match (same(place), self.in_place) {
            (false, true) => Err(Trouble::Usage(format!(
                "expected either --in-place or another file to --write, found both: {}",
                place.display()
            ))),
            (true, false) => Err(Trouble::Usage(format!(
                "expected a new file to write, found the rig file {}\nhelp: --in-place changes the rig file itself",
                place.display()
            ))),
            (false, false) if place.symlink_metadata().is_ok() => Err(Trouble::Usage(format!(
                "expected a new file to write, found that {} is there",
                place.display()
            ))),
            (true, true) | (false, false) => Ok(Some(place.to_path_buf())),
        }
    }
}

/// Writes a rig file's text with these values put into it: whole or not at all.
pub(super) fn write_with(place: &Path, text: &str, settings: &[(&str, &str)]) -> Result<(), Trouble> {
    let applied = apply::apply(text, settings).map_err(|error| Trouble::Plain(error.to_string()))?;
    file::write(place, &applied).map_err(|error| unwritable(place, &error))
}

/// That a place cannot be written.
pub(super) fn unwritable(place: &Path, error: &std::io::Error) -> Trouble {
    Trouble::Usage(format!("expected to write {}, found: {error}", place.display()))
}
