//! The command line: arguments, streams and exit codes.

mod apply;
mod baseline;
mod bunks;
mod changes;
mod check;
mod compare;
mod completions;
mod destination;
mod diagnostic;
mod draw;
mod explain;
mod file;
mod flatten;
mod folder;
mod format;
mod interrupt;
mod launch;
mod man;
mod new;
mod pages;
mod part;
mod place;
mod ramp;
mod rigs;
mod schema;
mod spec;
mod stream;
mod sweep;
mod threads;
mod weigh;

use crate::quantity::show::plain;
use clap::{ColorChoice, Parser, Subcommand, ValueEnum};
use std::process::ExitCode;
use stream::Streams;

/// Check whether boat, trailer, hitch and tow vehicle fit each other, and find what to change when they do not.
#[derive(Parser)]
#[command(name = "bunkline", version, max_term_width = 80, arg_required_else_help = true)]
#[command(after_help = "Example:\n  bunkline new > rig.toml\n  bunkline check rig.toml")]
struct Arguments {
    #[command(subcommand)]
    command: Command,
    /// When to colour what is printed; auto heeds NO_COLOR
    // Last before help, however many commands there are.
    #[arg(long, global = true, display_order = 998, value_enum, default_value_t = Colour::Auto, value_name = "WHEN")]
    color: Colour,
}

#[derive(Subcommand)]
enum Command {
    Check(check::Check),
    Compare(compare::Compare),
    Ramp(ramp::Ramp),
    Place(place::Place),
    Bunks(bunks::Bunks),
    Spec(spec::Spec),
    Launch(launch::Launch),
    Draw(draw::Draw),
    Sweep(sweep::Sweep),
    Weigh(weigh::Weigh),
    Changes(changes::Changes),
    Explain(explain::Explain),
    New(new::New),
    Flatten(flatten::Flatten),
    Schema(schema::Schema),
    Completions(completions::Completions),
    Man(man::Man),
}

#[derive(Clone, Copy, ValueEnum)]
enum Colour {
    /// When the output is a terminal
    Auto,
    /// Always
    Always,
    /// Never
    Never,
}

/// What a command came to; the later outranks the earlier.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Outcome {
    /// It did its job, and the rig passes.
    Done,
    /// The rig is incomplete, or unsure.
    Incomplete,
    /// The rig fails.
    Fails,
    /// The job could not be done.
    Broken,
}

impl From<Outcome> for ExitCode {
    fn from(outcome: Outcome) -> Self {
        ExitCode::from(match outcome {
            Outcome::Done => 0,
            Outcome::Fails => 1,
            Outcome::Broken => 2,
            Outcome::Incomplete => 3,
        })
    }
}

/// A usage error, which quotes arguments, as a terminal may have it.
fn printable(error: clap::Error) -> clap::Error {
    let arguments = std::env::args_os().map(|argument| plain(&argument.to_string_lossy()).into_owned());
    Arguments::try_parse_from(arguments).err().unwrap_or(error)
}

/// Runs the program on its own arguments and streams.
pub fn run() -> ExitCode {
    let arguments = match Arguments::try_parse() {
        Ok(arguments) => arguments,
        Err(error) => {
            // Help goes to stdout with 0, a usage error to stderr with 2; a closed pipe is no error.
            let error = printable(error);
            let _ = error.print();
            return ExitCode::from(u8::from(error.use_stderr()) * 2);
        }
    };
    let mut streams = Streams::new(match arguments.color {
        Colour::Auto => ColorChoice::Auto,
        Colour::Always => ColorChoice::Always,
        Colour::Never => ColorChoice::Never,
    });
    let outcome = match arguments.command {
        Command::Check(check) => check.run(&mut streams),
        Command::Compare(compare) => compare.run(&mut streams),
        Command::Ramp(ramp) => ramp.run(&mut streams),
        Command::Place(place) => place.run(&mut streams),
        Command::Bunks(bunks) => bunks.run(&mut streams),
        Command::Spec(spec) => spec.run(&mut streams),
        Command::Launch(bunks) => bunks.run(&mut streams),
        Command::Draw(draw) => draw.run(&mut streams),
        Command::Sweep(sweep) => sweep.run(&mut streams),
        Command::Weigh(weigh) => weigh.run(&mut streams),
        Command::Changes(changes) => changes.run(&mut streams),
        Command::Explain(explain) => explain.run(&mut streams),
        Command::New(new) => new.run(&mut streams),
        Command::Flatten(flatten) => flatten.run(&mut streams),
        Command::Schema(_) => schema::run(&mut streams),
        Command::Completions(completions) => completions.run(&mut streams),
        Command::Man(man) => man.run(&mut streams),
    };
    streams.finish(outcome).into()
}
