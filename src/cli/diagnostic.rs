//! Draws mistakes: the line of the file, the mark under it, the help.

use crate::quantity::show::plain as printable;
use crate::rig::{Problem, Problems, Span};
use annotate_snippets::{AnnotationKind, Level, Renderer, Snippet};
use std::fmt::Write;

/// More mistakes than this are counted, not drawn.
const MOST_DRAWN: usize = 20;

/// A message longer than this, in characters, quotes something that nobody wrote by hand.
const LONGEST_MESSAGE: usize = 300;

/// Every mistake as a picture, and how many there are.
pub(super) fn picture(problems: &Problems) -> String {
    let renderer = Renderer::styled();
    let drawn = problems.list.iter().take(MOST_DRAWN).map(|problem| one(&renderer, problems, problem));
    let mut out = drawn.collect::<Vec<_>>().join("\n\n");
    let undrawn = problems.list.len().saturating_sub(MOST_DRAWN);
    if undrawn > 0 {
        let plural = if undrawn == 1 { "" } else { "s" };
        let _ = write!(out, "\n\nand {undrawn} more mistake{plural}");
    }
    out
}

/// A mistake that stands nowhere in a file; its help, if any, stands on a line of its own.
pub(super) fn plain(message: &str) -> String {
    let (message, help) = message.split_once("\nhelp: ").map_or((message, None), |(m, h)| (m, Some(h)));
    let (message, help) = (printable(message), help.map(printable));
    let group = Level::ERROR.primary_title(message).elements(help.map(|help| Level::HELP.message(help)));
    Renderer::styled().render(&[group])
}

fn one(renderer: &Renderer, problems: &Problems, problem: &Problem) -> String {
    let message = shortened(printable(&problem.fault.to_string()).into_owned());
    let help = problem.fault.help().map(|help| printable(&help).into_owned());
    let title = Level::ERROR.primary_title(&message);
    let help = help.as_deref().map(|help| Level::HELP.message(help));
    let Some(at) = &problem.at else {
        // It is about the whole file: name it.
        let whole = problems.sources.first().map(|source| format!("in {}", printable(&source.name)));
        let whole = whole.as_deref().map(|whole| Level::NOTE.message(whole));
        return renderer.render(&[title.elements(whole).elements(help)]);
    };
    let primary = excerpt(problems, at);
    let mut snippet = Snippet::source(primary.text)
        .line_start(primary.line)
        .path(printable(&problems.sources.get(at.source).name))
        .annotation(AnnotationKind::Primary.span(primary.range.clone()));
    let mut elsewhere = None;
    if let Some(other) = &problem.other {
        let second = excerpt(problems, other);
        // Two places in one excerpt are drawn together.
        if other.source == at.source {
            let both = excerpt_of_both(problems, at, other);
            snippet = Snippet::source(both.text)
                .line_start(both.line)
                .path(printable(&problems.sources.get(at.source).name))
                .annotation(AnnotationKind::Primary.span(both.range))
                .annotation(AnnotationKind::Context.span(both.other));
        } else {
            elsewhere = Some(
                Snippet::source(second.text)
                    .line_start(second.line)
                    .path(printable(&problems.sources.get(other.source).name))
                    .annotation(AnnotationKind::Context.span(second.range)),
            );
        }
    }
    let group = title.element(snippet).elements(elsewhere).elements(help);
    renderer.render(&[group])
}

/// A message, cut where it quotes something endless.
fn shortened(mut message: String) -> String {
    if let Some((end, _)) = message.char_indices().nth(LONGEST_MESSAGE) {
        message.truncate(end);
        message.push('…');
    }
    message
}

/// The lines of a text that a place touches: long files are not handed to the renderer whole.
struct Excerpt<'a> {
    text: &'a str,
    line: usize,
    range: std::ops::Range<usize>,
}

fn excerpt<'a>(problems: &'a Problems, span: &Span) -> Excerpt<'a> {
    let text = problems.sources.get(span.source).text.as_str();
    let (from, to) = lines(text, span.range.clone());
    let line = text[..from].matches('\n').count() + 1;
    let start = span.range.start.min(to) - from;
    let end = (span.range.end.min(to) - from).max(start);
    // An empty place is widened to one character, so that its mark can be seen.
    let end = if end == start {
        text[from + start..to].chars().next().map_or(end, |c| start + c.len_utf8())
    } else {
        end
    };
    Excerpt { text: &text[from..to], line, range: start..end }
}

struct ExcerptOfBoth<'a> {
    text: &'a str,
    line: usize,
    range: std::ops::Range<usize>,
    other: std::ops::Range<usize>,
}

fn excerpt_of_both<'a>(problems: &'a Problems, at: &Span, other: &Span) -> ExcerptOfBoth<'a> {
    let text = problems.sources.get(at.source).text.as_str();
    let whole = at.range.start.min(other.range.start)..at.range.end.max(other.range.end);
    let (from, to) = lines(text, whole);
    let within = |range: &std::ops::Range<usize>| range.start.min(to) - from..range.end.min(to) - from;
    let line = text[..from].matches('\n').count() + 1;
    ExcerptOfBoth { text: &text[from..to], line, range: within(&at.range), other: within(&other.range) }
}

/// The start and end of the lines that a range touches.
fn lines(text: &str, range: std::ops::Range<usize>) -> (usize, usize) {
    let start = floor(text, range.start);
    let end = floor(text, range.end).max(start);
    let from = text[..start].rfind('\n').map_or(0, |at| at + 1);
    let to = text[end..].find('\n').map_or(text.len(), |at| end + at);
    // A line may end in the two characters of another system.
    let to = if text[from..to].ends_with('\r') { to - 1 } else { to };
    (from, to)
}

/// The character boundary at or before a byte.
fn floor(text: &str, at: usize) -> usize {
    let mut at = at.min(text.len());
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    at
}
