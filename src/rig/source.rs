//! The texts a rig is read from, and places in them.

use std::ops::Range;

/// Which text a place lies in; the rig file by default.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct SourceId(usize);

impl SourceId {
    /// Its place among the texts, counted from 0: the rig file, what it includes, then changes.
    pub fn index(self) -> usize {
        self.0
    }
}

/// A run of bytes in one of the texts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Span {
    /// The text.
    pub source: SourceId,
    /// The bytes.
    pub range: Range<usize>,
}

impl Span {
    /// The place so many bytes into this one.
    pub(super) fn within(&self, range: Range<usize>) -> Self {
        let start = self.range.start;
        Self { source: self.source, range: start + range.start..start + range.end }
    }
}

/// One text: a rig file, or a change given beside it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Source {
    /// The file's path as the owner named it, or the option that holds the change.
    pub name: String,
    /// All of it.
    pub text: String,
    /// Which of its tables are read.
    tables: Tables,
}

/// Which tables of a text are read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
enum Tables {
    #[default]
    All,
    /// Those that belong to the trailer.
    OfTrailer,
    /// All but those, and but what was weighed on that trailer.
    ButTrailer,
}

/// What belongs to a trailer: its name, itself, how far its parts can go, and where they are proposed.
const OF_TRAILER: [&str; 4] = ["title", "trailer", "travel", "shift"];
/// What scales said of a boat on a trailer.
const WEIGHED: [&str; 2] = ["measured", "weighings"];

impl Source {
    /// Whether a key at its top is read.
    pub(super) fn reads(&self, key: &str) -> bool {
        match self.tables {
            Tables::All => true,
            Tables::OfTrailer => OF_TRAILER.contains(&key),
            Tables::ButTrailer => !OF_TRAILER.contains(&key) && !WEIGHED.contains(&key),
        }
    }
}

/// A line and a column, both counted from 1; columns count characters.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Position {
    /// The line.
    pub line: usize,
    /// The column.
    pub column: usize,
}

/// Every text a rig was read from.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Sources(Vec<Source>);

impl Sources {
    /// Takes a text in.
    pub(super) fn add(&mut self, name: &str, text: &str) -> SourceId {
        self.0.push(Source { name: name.to_string(), text: text.to_string(), tables: Tables::All });
        SourceId(self.0.len() - 1)
    }

    /// The boat of these texts, with its tow vehicle and all else that belongs to it, on the trailer of other texts: of those
    /// only the title, `[trailer]`, `[travel]` and `[shift]` are read, and of these everything but that and what scales said.
    #[must_use]
    pub fn on_trailer(&self, trailer: &Self) -> Self {
        let part =
            |texts: &Self, tables| texts.0.clone().into_iter().map(move |text| Source { tables, ..text });
        Self(part(trailer, Tables::OfTrailer).chain(part(self, Tables::ButTrailer)).collect())
    }

    /// The texts in their order.
    pub fn iter(&self) -> impl Iterator<Item = (SourceId, &Source)> {
        self.0.iter().enumerate().map(|(at, source)| (SourceId(at), source))
    }

    /// The same with another text in place of one.
    pub(super) fn replaced(&self, id: SourceId, text: &str) -> Self {
        let mut sources = self.clone();
        text.clone_into(&mut sources.0[id.0].text);
        sources
    }

    /// The text that an id names.
    pub fn get(&self, id: SourceId) -> &Source {
        &self.0[id.0]
    }

    /// The rig file itself, read first.
    pub fn first(&self) -> Option<&Source> {
        self.0.first()
    }

    /// The line and column where a place begins.
    pub fn position(&self, span: &Span) -> Position {
        let text = &self.get(span.source).text;
        let mut start = span.range.start.min(text.len());
        while !text.is_char_boundary(start) {
            start -= 1;
        }
        let before = &text[..start];
        let line_start = before.rfind('\n').map_or(0, |at| at + 1);
        Position { line: before.matches('\n').count() + 1, column: before[line_start..].chars().count() + 1 }
    }
}
