//! The `bunkline` program: hands the command line to the library's front end.

use std::process::ExitCode;

fn main() -> ExitCode {
    bunkline::cli::run()
}
