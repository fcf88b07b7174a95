//! In which form a command reports: one option, with the same words everywhere.

use super::stream::Streams;
use crate::report::document::Document;
use crate::report::{Extent, html, markdown, text};
use clap::builder::{PossibleValuesParser, TypedValueParser};
use clap::{Args, ValueEnum};

/// The form of a report.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, ValueEnum)]
pub(super) enum Format {
    /// For reading
    #[default]
    #[value(alias = "table")]
    Text,
    /// For programs
    #[value(alias = "json-lines")]
    Json,
    /// For spreadsheets: comma-separated values, unrounded
    Csv,
    /// For a browser or paper: one page that needs no other file
    Html,
    /// A picture
    Svg,
    /// For a pull request, a wiki, a forum
    Markdown,
    /// For programs that run tests: JUnit's XML, a rig a test case
    Junit,
}

/// How much of a report is printed.
#[derive(Args)]
pub(super) struct Whole {
    /// Print everything that was found, not a page of it
    #[arg(long)]
    full: bool,
}

impl Whole {
    pub fn extent(&self) -> Extent {
        if self.full { Extent::Full } else { Extent::Page }
    }
}

/// Takes one of the forms that a command has.
pub(super) fn one_of(forms: &[Format]) -> impl TypedValueParser<Value = Format> + use<> {
    let values: Vec<_> = forms.iter().filter_map(ValueEnum::to_possible_value).collect();
    PossibleValuesParser::new(values).map(|name| Format::from_str(&name, false).unwrap_or_default())
}

/// Prints a document for reading. Where no colour is wanted the stream takes it out.
pub(super) fn print(document: &Document, format: Format, streams: &mut Streams) {
    streams.print(&match format {
        Format::Html => html::render(document),
        Format::Markdown => markdown::render(document),
        _ => text::render(document, text::WIDTH, true),
    });
}
