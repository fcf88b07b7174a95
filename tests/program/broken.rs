//! Every broken rig file in `tests/program/broken` and what its owner is told: one mistake a file, named by
//! the file. Adding a case is adding a file.

use std::path::{Path, PathBuf};
use std::process::Command;

#[test]
fn every_mistake_is_told() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/program/broken");
    insta::glob!("broken/*.toml", |path: &Path| {
        let file = path.file_name().map(PathBuf::from).unwrap_or_default();
        let check = Command::new(env!("CARGO_BIN_EXE_bunkline"))
            .args([Path::new("check"), &file, Path::new("--color"), Path::new("never")])
            .current_dir(&folder)
            .output()
            .expect("the program runs");
        let told = String::from_utf8(check.stderr).expect("messages are text");
        assert_eq!(check.status.code(), Some(2), "{told}");
        assert!(check.stdout.is_empty(), "a broken file has no report");
        assert!(!told.contains("panicked"), "{told}");
        assert!(told.contains("expected "), "{told}");
        insta::assert_snapshot!(told);
    });
}
