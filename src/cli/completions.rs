//! `bunkline completions`: what makes a shell complete the program's commands and options.

use super::stream::Streams;
use super::{Arguments, Outcome};
use clap::{Args, CommandFactory};
use clap_complete::{Shell, generate};

/// Print a script with which a shell completes commands and options
#[derive(Args)]
#[command(
    after_help = "Example:\n  bunkline completions bash > ~/.local/share/bash-completion/completions/bunkline"
)]
pub(super) struct Completions {
    /// For which shell
    #[arg(value_enum, value_name = "SHELL")]
    shell: Shell,
}

impl Completions {
    pub fn run(&self, streams: &mut Streams) -> Outcome {
        let mut script = Vec::new();
        let mut command = Arguments::command();
        let name = command.get_name().to_string();
        generate(self.shell, &mut command, name, &mut script);
        streams.print_as_it_is(&script);
        Outcome::Done
    }
}
