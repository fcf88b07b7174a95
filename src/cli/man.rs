//! `bunkline man`: the manual's pages.

use super::stream::Streams;
use super::{Arguments, Outcome, diagnostic};
use crate::rig::nearest;
use clap::{Args, CommandFactory};
use clap_mangen::Man as Page;

/// Print a page of the manual, in the form that `man` reads
#[derive(Args)]
#[command(after_help = "Examples:\n  bunkline man > bunkline.1\n  bunkline man check > bunkline-check.1")]
pub(super) struct Man {
    /// The command that the page is about; without one, the program
    #[arg(value_name = "COMMAND")]
    about: Option<String>,
}

impl Man {
    pub fn run(&self, streams: &mut Streams) -> Outcome {
        let mut program = Arguments::command();
        program.build();
        let command = match &self.about {
            None => Some(&program),
            Some(name) => program.find_subcommand(name),
        };
        let Some(command) = command else {
            streams.complain(&diagnostic::plain(&self.unknown(&program)));
            return Outcome::Broken;
        };
        let mut page = Vec::new();
        if let Err(error) = Page::new(command.clone()).render(&mut page) {
            streams.complain(&diagnostic::plain(&format!("expected a page, found: {error}")));
            return Outcome::Broken;
        }
        streams.print_as_it_is(&page);
        Outcome::Done
    }

    fn unknown(&self, program: &clap::Command) -> String {
        let wanted = self.about.as_deref().unwrap_or_default();
        let near = nearest(wanted, program.get_subcommands().map(clap::Command::get_name));
        let help = near.map(|near| format!("\nhelp: did you mean `{near}`?")).unwrap_or_default();
        format!("expected a command of bunkline, found `{}`{help}", wanted.escape_debug())
    }
}
