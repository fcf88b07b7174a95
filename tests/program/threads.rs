//! Where no thread can start, the program says the same.

use std::process::Command;

#[test]
fn where_no_thread_can_start_the_same_is_said() {
    let run = |arguments: &[&str], stack: Option<&str>| {
        let mut program = Command::new(env!("CARGO_BIN_EXE_bunkline"));
        program.current_dir(env!("CARGO_MANIFEST_DIR")).args(arguments);
        // No system has room for such a stack.
        program.envs(stack.map(|size| ("RUST_MIN_STACK", size)));
        program.output().expect("the program runs")
    };
    for arguments in [
        &["check", "demo-data/crab-boat.toml", "--samples", "100"][..],
        &["place", "demo-data/crab-boat.toml"],
        &["bunks", "demo-data/survey-launch-as-changed.toml"],
        &["sweep", "demo-data/fishing-skiff.toml", "--vary", "shift.boat=0in,1in", "--threads", "2"],
    ] {
        let (some, none) = (run(arguments, None), run(arguments, Some("70368744177664")));
        assert_eq!(some.status.code(), none.status.code(), "{arguments:?}");
        assert_eq!((some.stdout, some.stderr), (none.stdout, none.stderr), "{arguments:?}");
    }
}
