//! The program as its users run it: every command, good input and bad.

mod bad_input;
mod baseline;
mod broken;
mod browser;
mod changes;
mod charts;
mod club;
mod compare;
mod demo;
mod draw;
#[cfg(unix)]
mod examples;
mod flatten;
mod formats;
mod help;
mod hostile_names;
mod include;
#[path = "../shared/pieces.rs"]
mod pieces;
mod ramp_command;
mod readme;
mod schema;
mod shell;
mod spec;
mod svg;
mod sweep_command;
mod threads;
mod weigh_command;
mod writing;
