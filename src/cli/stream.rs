//! Where the program writes, and what becomes of it when it cannot.

use super::Outcome;
use anstream::{AutoStream, ColorChoice as Choice};
use clap::ColorChoice;
use std::io::{self, BufWriter, ErrorKind, Write};

/// The standard streams, with colour where it is wanted.
pub(super) struct Streams {
    out: BufWriter<AutoStream<io::Stdout>>,
    err: AutoStream<io::Stderr>,
    failure: Option<io::Error>,
}

impl Streams {
    pub fn new(colour: ColorChoice) -> Self {
        let choice = match colour {
            ColorChoice::Auto => Choice::Auto,
            ColorChoice::Always => Choice::Always,
            ColorChoice::Never => Choice::Never,
        };
        Self {
            out: BufWriter::new(AutoStream::new(io::stdout(), choice)),
            err: AutoStream::new(io::stderr(), choice),
            failure: None,
        }
    }

    /// Writes to stdout; what cannot be written is told at the end.
    pub fn print(&mut self, text: &str) {
        if self.failure.is_none() {
            self.failure = self.out.write_all(text.as_bytes()).err();
        }
    }

    /// Writes whole lines without colour to stdout at once: whatever ends the program, the last line is whole.
    pub fn print_lines(&mut self, lines: &str) {
        if self.failure.is_none() {
            let before = self.out.flush();
            self.failure = before.and_then(|()| io::stdout().lock().write_all(lines.as_bytes())).err();
        }
    }

    /// Writes to stderr.
    pub fn complain(&mut self, text: &str) {
        // Where stderr is gone there is nobody left to tell.
        let _ = writeln!(self.err, "{}", text.trim_end());
    }

    /// Whether nothing more can be written, as when the reader of a pipe has left.
    pub fn closed(&self) -> bool {
        self.failure.is_some()
    }

    /// Flushes, and turns an outcome into a failure when its output was lost. A closed pipe loses nothing
    /// that anybody wanted.
    pub fn finish(mut self, outcome: Outcome) -> Outcome {
        let failure = self.failure.take().or_else(|| self.out.flush().err());
        match failure {
            Some(error) if error.kind() != ErrorKind::BrokenPipe => {
                self.complain(&format!("error: expected to write to stdout, found that {error}"));
                Outcome::Broken
            }
            _ => outcome,
        }
    }
}
