//! Where the program writes, and what becomes of it when it cannot.

use super::Outcome;
use crate::quantity::show::plain;
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

    /// Writes to stdout; what cannot be written is reported at the end.
    pub fn print(&mut self, text: &str) {
        if self.failure.is_none() {
            self.failure = self.out.write_all(harmless(text).as_bytes()).err();
        }
    }

    /// Writes whole lines without colour to stdout at once: whatever ends the program, the last line is whole.
    pub fn print_lines(&mut self, lines: &str) {
        if self.failure.is_none() {
            let before = self.out.flush();
            self.failure =
                before.and_then(|()| io::stdout().lock().write_all(harmless(lines).as_bytes())).err();
        }
    }

    /// Writes a text of the program's own to stdout, tabs and all.
    pub fn print_as_it_is(&mut self, text: &[u8]) {
        if self.failure.is_none() {
            self.failure = self.out.write_all(text).err();
        }
    }

    /// Writes to stderr.
    pub fn complain(&mut self, text: &str) {
        // Where stderr is gone there is nobody left to read it.
        let _ = writeln!(self.err, "{}", harmless(text.trim_end()));
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
                self.complain(&format!("error: expected to write to stdout, and could not: {error}"));
                Outcome::Broken
            }
            _ => outcome,
        }
    }
}

/// The text as a terminal may have it: of what moves its cursor or turns text around, only line ends and colours stay.
///
/// A name inside the text must have been made [`plain`] before: a line end in it would stay too.
fn harmless(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find(['\n', ESCAPE]) {
        let (before, mark) = rest.split_at(at);
        let (mark, after) = mark.split_at(if mark.starts_with('\n') { 1 } else { colour_length(mark) });
        out.push_str(&plain(before));
        out.push_str(mark);
        rest = after;
        if mark.is_empty() {
            let (escape, after) = rest.split_at(ESCAPE.len_utf8());
            out.push_str(&plain(escape));
            rest = after;
        }
    }
    out + &plain(rest)
}

const ESCAPE: char = '\x1b';

/// How many bytes of a text that begins with an escape are a colour, `ESC [ digits and semicolons m`.
fn colour_length(text: &str) -> usize {
    let parameters = text.strip_prefix("\x1b[").unwrap_or_default();
    let end = parameters.find(|c: char| !c.is_ascii_digit() && c != ';');
    match end.filter(|end| parameters[*end..].starts_with('m')) {
        Some(end) => "\x1b[".len() + end + "m".len(),
        None => 0,
    }
}

#[cfg(test)]
mod tests {
    use super::harmless;

    #[test]
    fn only_line_ends_and_colours_stay() {
        let ours = "\x1b[1m\x1b[31mFAIL\x1b[0m  skiff\n° ± № é\n";
        assert_eq!(harmless(ours), ours);
        assert_eq!(harmless("\x1b]0;a\x07\x1b[2J\x1b[1"), "\\u001b]0;a\\u0007\\u001b[2J\\u001b[1");
        assert_eq!(harmless("{\"a\":\"\u{202e}\u{7f}\"}\n"), "{\"a\":\"\\u202e\\u007f\"}\n");
    }
}
