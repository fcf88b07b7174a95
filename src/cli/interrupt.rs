//! What becomes of the program, and of files not yet whole, when it is interrupted or asked to end.

use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Mutex, MutexGuard, Once, PoisonError};

/// Files in the making: they go when the program is ended.
static PARTS: Mutex<Vec<PathBuf>> = Mutex::new(Vec::new());
/// Whether the command ends by itself once it is interrupted.
static GENTLY: AtomicBool = AtomicBool::new(false);
static INTERRUPTED: AtomicBool = AtomicBool::new(false);
static CATCH: Once = Once::new();

/// Whether the program was asked to end.
pub(super) fn interrupted() -> bool {
    INTERRUPTED.load(Ordering::Relaxed)
}

/// Lets the command end by itself when it is interrupted, as it then must. Whoever asks twice is not kept waiting.
pub(super) fn end_gently() {
    GENTLY.store(true, Ordering::Relaxed);
    catch();
}

/// The files in the making. While this is held the program is not ended, so a file is made or renamed, and its name
/// put here or taken away, as one step.
pub(super) fn parts() -> Parts {
    catch();
    // A poisoned lock still holds every name.
    Parts(PARTS.lock().unwrap_or_else(PoisonError::into_inner))
}

/// See [`parts`].
pub(super) struct Parts(MutexGuard<'static, Vec<PathBuf>>);

impl Parts {
    pub fn add(&mut self, part: &Path) {
        self.0.push(part.to_path_buf());
    }

    pub fn forget(&mut self, part: &Path) {
        self.0.retain(|other| other != part);
    }

    /// Removes them all from the disk.
    fn remove(&self) {
        for part in self.0.iter() {
            // What cannot be removed stays: there is nothing more to do.
            let _ = std::fs::remove_file(part);
        }
    }
}

fn catch() {
    CATCH.call_once(|| {
        // The signals are looked at by a thread. Where none can start they end the program as they always do.
        if std::thread::Builder::new().spawn(|| {}).is_ok() {
            let _ = ctrlc::set_handler(handle);
        }
    });
}

fn handle() {
    if GENTLY.load(Ordering::Relaxed) && !INTERRUPTED.swap(true, Ordering::Relaxed) {
        return;
    }
    let parts = parts();
    parts.remove();
    std::process::exit(2);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cli::file::Draft;

    #[test]
    fn nothing_in_the_making_is_left() {
        let folder = tempfile::tempdir().expect("a folder");
        let files = || std::fs::read_dir(folder.path()).expect("a folder").count();
        let drafts = ["a", "b"].map(|name| Draft::begin(&folder.path().join(name)).expect("a file"));
        assert_eq!(files(), 2);
        parts().remove();
        assert_eq!(files(), 0);
        drop(drafts);
        let mut kept = Draft::begin(&folder.path().join("c")).expect("a file");
        kept.add("text").expect("it takes text");
        kept.keep().expect("its place takes it");
        parts().remove();
        assert_eq!(files(), 1);
    }
}
