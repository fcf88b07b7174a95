//! A report as a document: what it says, in which order, and what part each piece plays. Not how it looks.
//!
//! No text of a document holds a control character: what a file's name or title brings along is escaped where it
//! comes in, so no renderer has to think of it.

use crate::quantity::show::plain;

/// The part that a piece of text plays.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Role {
    /// What is simply read.
    #[default]
    Plain,
    /// A check, or a rig, that passes.
    Pass,
    /// A check that passes with little to spare.
    Thin,
    /// A check outside its limits that only advises.
    Advise,
    /// What the stated uncertainty leaves open.
    Unsure,
    /// A check, or a rig, that fails.
    Fail,
    /// What could not be checked.
    NotChecked,
    /// What is read second.
    Muted,
    /// What is typed or looked up as it stands: a key, the id of a check, a command.
    Key,
}

/// A piece of text with its role.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Span {
    role: Role,
    text: String,
}

impl Span {
    /// Its role.
    pub fn role(&self) -> Role {
        self.role
    }

    /// Its text.
    pub fn text(&self) -> &str {
        &self.text
    }
}

/// A line of thought: spans, one after another.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Text(Vec<Span>);

impl Text {
    /// A text that plays one part.
    pub fn of(role: Role, text: &str) -> Self {
        Self::default().and(role, text)
    }

    /// This text, and then another piece.
    #[must_use]
    pub fn and(mut self, role: Role, text: &str) -> Self {
        if !text.is_empty() {
            self.0.push(Span { role, text: plain(text).into_owned() });
        }
        self
    }

    /// This text, and then plain words.
    #[must_use]
    pub fn then(self, text: &str) -> Self {
        self.and(Role::Plain, text)
    }

    /// Its pieces.
    pub fn spans(&self) -> &[Span] {
        &self.0
    }

    /// Whether it says nothing.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Its words alone.
    pub fn plain(&self) -> String {
        self.0.iter().map(Span::text).collect()
    }
}

impl From<&str> for Text {
    fn from(text: &str) -> Self {
        Self::of(Role::Plain, text)
    }
}

impl From<String> for Text {
    fn from(text: String) -> Self {
        Self::from(text.as_str())
    }
}

/// An entry of a list, with what belongs under it.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Item {
    /// What it says.
    pub text: Text,
    /// The entries under it.
    pub below: Vec<Text>,
}

impl<T: Into<Text>> From<T> for Item {
    fn from(text: T) -> Self {
        Self { text: text.into(), below: Vec::new() }
    }
}

/// A table.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Table {
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its rows, each with a cell for every column.
    pub rows: Vec<Vec<Cell>>,
}

impl Table {
    /// A table without rows.
    pub fn new<const N: usize>(columns: [(Holds, &str); N]) -> Self {
        let columns = columns.map(|(holds, heading)| Column { holds, heading: heading.into() });
        Self { columns: columns.into(), rows: Vec::new() }
    }
}

/// A column of a table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Column {
    /// What stands in it.
    pub holds: Holds,
    /// What stands above it.
    pub heading: Text,
}

/// What stands in a column, and so how it is aligned.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Holds {
    /// What a row is about: on the left. A long one may take a line to itself.
    Name,
    /// Words: on the left.
    Words,
    /// Numbers: on the right.
    Numbers,
}

/// A cell of a table. Where a form has no room for both, its words stand for its bar.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Cell {
    /// What it says.
    pub text: Text,
    /// What it shows.
    pub bar: Option<Bar>,
}

impl<T: Into<Text>> From<T> for Cell {
    fn from(text: T) -> Self {
        Self { text: text.into(), bar: None }
    }
}

impl From<Bar> for Cell {
    fn from(bar: Bar) -> Self {
        Self { text: Text::default(), bar: Some(bar) }
    }
}

/// Stretches and marks on a line from 0 to 1: how much of a limit is used, where in a range a check holds.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Bar {
    /// What it is about.
    pub role: Role,
    /// The stretches that are filled.
    pub filled: Vec<(f64, f64)>,
    /// Places that are marked, each with its sign.
    pub marks: Vec<(f64, char)>,
    /// Where on the line a limit stands, if any: a post between what is inside and what is outside.
    pub post: Option<f64>,
}

impl Bar {
    /// How much of a limit is used, with a post where the limit stands. A third of the limit fits beyond the post, and
    /// whatever is over it shows.
    pub fn used(role: Role, share: f64) -> Self {
        let over = if share > 1.0 { Self::POST + Self::LEAST } else { 0.0 };
        let end = (Self::POST * share).max(over).clamp(0.0, 1.0);
        Self { role, filled: vec![(0.0, end)], marks: Vec::new(), post: Some(Self::POST) }
    }

    /// Where the limit stands.
    const POST: f64 = 0.75;
    /// The shortest stretch that any renderer shows: half of a sixteenth.
    const LEAST: f64 = 1.0 / 32.0;
}

/// A part of a document.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// What the whole is about, and what came of it.
    Title(Text),
    /// What the next blocks are about.
    Heading(Text),
    /// Sentences.
    Paragraph(Text),
    /// Entries that stand side by side.
    List(Vec<Item>),
    /// Labels, each with what there is to say of it.
    Facts(Vec<(Text, Text)>),
    /// A table.
    Table(Table),
    /// A drawing in plain characters, and what it shows.
    Figure {
        /// What it shows.
        caption: Text,
        /// Its lines.
        drawing: Vec<String>,
        /// The same as a picture, which stands for it where there is room for one.
        picture: Option<Picture>,
    },
    /// Lines to copy as they stand.
    Code(Vec<String>),
    /// A picture; a form that has no room for pictures leaves it out.
    Picture(Picture),
}

/// A picture that says in its own words what is seen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Picture {
    /// What it is called.
    pub caption: Text,
    /// The picture as SVG; every text in it is escaped.
    pub svg: String,
}

impl Block {
    /// The entries of a list or the rows of a table; anything else has none.
    fn entries(&self) -> usize {
        match self {
            Self::List(items) => items.len(),
            Self::Table(table) => table.rows.len(),
            _ => 0,
        }
    }
}

/// A report, from its title to its last caution.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Document {
    blocks: Vec<Block>,
}

impl Document {
    /// Its parts, in order.
    pub fn blocks(&self) -> &[Block] {
        &self.blocks
    }

    /// The words of its first title.
    pub fn title(&self) -> String {
        let title = self.blocks.iter().find_map(|block| match block {
            Block::Title(title) => Some(title.plain()),
            _ => None,
        });
        title.unwrap_or_default()
    }

    /// Adds all of another document.
    pub fn append(&mut self, other: Document) {
        self.blocks.extend(other.blocks);
    }

    /// Its pictures alone, which take no line of a page.
    #[must_use]
    pub fn pictures_alone(self) -> Self {
        let picture = |block| match block {
            Block::Figure { picture, .. } => picture.map(Block::Picture),
            Block::Picture(_) => Some(block),
            _ => None,
        };
        Self { blocks: self.blocks.into_iter().filter_map(picture).collect() }
    }

    /// The entries of its longest list or table.
    pub fn longest(&self) -> usize {
        self.blocks.iter().map(Block::entries).max().unwrap_or(0)
    }

    /// Leaves the last entry of its longest list or table out; says whether there is one with several.
    pub fn shorten(&mut self) -> bool {
        let longest = self.blocks.iter_mut().max_by_key(|block| block.entries());
        match longest.filter(|block| block.entries() > 1) {
            Some(Block::List(items)) => items.pop().is_some(),
            Some(Block::Table(table)) => table.rows.pop().is_some(),
            _ => false,
        }
    }

    /// Adds a title.
    pub fn add_title(&mut self, title: impl Into<Text>) {
        self.blocks.push(Block::Title(title.into()));
    }

    /// Adds a heading.
    pub fn heading(&mut self, heading: impl Into<Text>) {
        self.blocks.push(Block::Heading(heading.into()));
    }

    /// Adds sentences.
    pub fn paragraph(&mut self, text: impl Into<Text>) {
        self.blocks.push(Block::Paragraph(text.into()));
    }

    /// Adds a list, unless it is empty.
    pub fn list<I: Into<Item>>(&mut self, items: impl IntoIterator<Item = I>) {
        let items: Vec<Item> = items.into_iter().map(Into::into).collect();
        if !items.is_empty() {
            self.blocks.push(Block::List(items));
        }
    }

    /// Adds one fact, to those before it where it follows any.
    pub fn fact(&mut self, label: impl Into<Text>, value: impl Into<Text>) {
        let fact = (label.into(), value.into());
        if let Some(Block::Facts(facts)) = self.blocks.last_mut() {
            facts.push(fact);
        } else {
            self.blocks.push(Block::Facts(vec![fact]));
        }
    }

    /// Adds a table.
    pub fn table(&mut self, table: Table) {
        self.blocks.push(Block::Table(table));
    }

    /// Adds a drawing, and what stands for it where there is room for a picture.
    pub fn figure(&mut self, caption: impl Into<Text>, drawing: &[String], picture: Option<Picture>) {
        let drawing = drawing.iter().map(|line| plain(line).into_owned()).collect();
        self.blocks.push(Block::Figure { caption: caption.into(), drawing, picture });
    }

    /// Adds pictures.
    pub fn pictures(&mut self, pictures: &[Picture]) {
        self.blocks.extend(pictures.iter().cloned().map(Block::Picture));
    }

    /// Adds lines to copy.
    pub fn code(&mut self, lines: &[String]) {
        self.blocks.push(Block::Code(lines.iter().map(|line| plain(line).into_owned()).collect()));
    }
}
