//! A document as plain text, for a terminal or a printer: words before colour.

use super::document::{Bar, Block, Cell, Document, Holds, Item, Role, Table, Text};
use textwrap::{Options, WordSeparator, WordSplitter, WrapAlgorithm};
use unicode_width::UnicodeWidthStr;

/// How many columns a report has, for paper and for terminals alike.
pub const WIDTH: usize = 80;

/// The columns of a bar.
const BAR: usize = 16;
/// The longest label that has its value beside it.
const LABEL: usize = 24;
/// What stands before the lines of a block.
const INDENT: &str = "  ";

/// A document in lines of at most `width` columns, with or without colour.
pub fn render(document: &Document, width: usize, colour: bool) -> String {
    let mut page = Page { width, colour, out: String::new() };
    let mut last: Option<&Block> = None;
    for block in document.blocks() {
        if last.is_some_and(|last| is_apart(last, block)) {
            page.out.push('\n');
        }
        page.block(block);
        last = Some(block);
    }
    page.out
}

/// How many lines a document takes on paper.
pub fn lines(document: &Document) -> usize {
    render(document, WIDTH, false).lines().count()
}

/// Whether a line is left free between two blocks.
fn is_apart(before: &Block, after: &Block) -> bool {
    match (before, after) {
        (_, Block::Heading(_) | Block::Title(_)) => true,
        (Block::Heading(_), _) => false,
        (Block::Figure { .. }, _)
        | (_, Block::Figure { .. } | Block::Table(_))
        | (Block::Table(_) | Block::List(_), Block::Facts(_)) => true,
        _ => false,
    }
}

struct Page {
    width: usize,
    colour: bool,
    out: String,
}

impl Page {
    fn block(&mut self, block: &Block) {
        match block {
            Block::Title(text) => self.wrapped(text, "", INDENT),
            Block::Heading(text) => {
                let heading = self.styled("1", &text.plain());
                self.fill(&heading, "", INDENT);
            }
            Block::Paragraph(text) => self.wrapped(text, INDENT, INDENT),
            Block::List(items) => {
                for item in items {
                    self.item(item);
                }
            }
            Block::Facts(facts) => self.facts(facts),
            Block::Table(table) => self.table(table),
            Block::Figure { caption, drawing, .. } => {
                if !caption.is_empty() {
                    self.wrapped(caption, INDENT, INDENT);
                }
                for line in drawing {
                    self.line(line);
                }
            }
            Block::Code(lines) => {
                for line in lines {
                    self.line(&format!("      {line}"));
                }
            }
            // There is no room for one.
            Block::Picture(_) => {}
        }
    }

    fn item(&mut self, item: &Item) {
        self.wrapped(&item.text, "  - ", "    ");
        for text in &item.below {
            self.wrapped(text, "      - ", "        ");
        }
    }

    fn facts(&mut self, facts: &[(Text, Text)]) {
        let fitting = facts.iter().map(|(label, _)| label.plain().width()).filter(|width| *width <= LABEL);
        let column = fitting.max().unwrap_or(0);
        let beside = " ".repeat(column + 4);
        for (label, value) in facts {
            let width = label.plain().width();
            let mut label = INDENT.to_string() + &self.painted(label);
            if width > column {
                // A long label has a line of its own.
                self.fill(&label, "", "    ");
                self.wrapped(value, &beside, &beside);
            } else {
                label.push_str(&" ".repeat(column - width + 2));
                self.wrapped(value, &label, &beside);
            }
        }
    }

    fn table(&mut self, table: &Table) {
        let headings: Vec<Cell> = table.columns.iter().map(|column| column.heading.clone().into()).collect();
        let (widths, gap) = self.widths(table, &headings);
        let mut rows: Vec<&Vec<Cell>> = table.rows.iter().collect();
        if headings.iter().any(|heading| !heading.text.is_empty()) {
            rows.insert(0, &headings);
        }
        for row in rows {
            let mut line = String::new();
            for (i, ((cell, column), width)) in row.iter().zip(&table.columns).zip(&widths).enumerate() {
                line.push_str(if i == 0 { INDENT } else { &gap });
                let (shown, taken) = self.cell(cell);
                if taken > *width {
                    // A long name has a line of its own.
                    self.fill(&(line.clone() + &shown), "", "    ");
                    line = " ".repeat(INDENT.len() + widths[..=i].iter().sum::<usize>() + i * gap.len());
                    continue;
                }
                let free = " ".repeat(width - taken);
                let (before, after) =
                    if column.holds == Holds::Numbers { (&*free, "") } else { ("", &*free) };
                line.extend([before, &shown, after]);
            }
            // Nothing may stand beside a long name.
            if !line.trim().is_empty() {
                self.line(&line);
            }
        }
    }

    /// How wide the columns of a table are, and what stands between them: as wide as what is in them, where the
    /// page allows it; else the names make room.
    fn widths(&self, table: &Table, headings: &[Cell]) -> (Vec<usize>, String) {
        let rows = || table.rows.iter().map(Vec::as_slice).chain([headings]);
        let width = |i: usize| rows().filter_map(|row| row.get(i)).map(|cell| self.cell(cell).1).max();
        let mut widths: Vec<usize> = (0..table.columns.len()).map(|i| width(i).unwrap_or(0)).collect();
        let gaps = table.columns.len().saturating_sub(1);
        let page = self.width.saturating_sub(INDENT.len());
        let name = table.columns.iter().position(|column| column.holds == Holds::Name);
        let all = widths.iter().sum::<usize>();
        let gap = if all + 2 * gaps <= page { 2 } else { 1 };
        if let Some(name) = name {
            let others = all - widths[name] + gap * gaps;
            widths[name] = widths[name].min(page.saturating_sub(others));
        }
        (widths, " ".repeat(gap))
    }

    /// A cell as it is printed, and how many columns it takes.
    fn cell(&self, cell: &Cell) -> (String, usize) {
        match &cell.bar {
            Some(bar) if cell.text.is_empty() => {
                let drawn = drawn(bar);
                let columns = drawn.width();
                (drawn, columns)
            }
            _ => (self.painted(&cell.text), cell.text.plain().width()),
        }
    }

    fn wrapped(&mut self, text: &Text, first: &str, rest: &str) {
        let painted = self.painted(text);
        self.fill(&painted, first, rest);
    }

    /// Adds a text in lines, each behind its indent.
    fn fill(&mut self, text: &str, first: &str, rest: &str) {
        let options = Options::new(self.width)
            .initial_indent(first)
            .subsequent_indent(rest)
            .word_separator(WordSeparator::AsciiSpace)
            .word_splitter(WordSplitter::NoHyphenation)
            .wrap_algorithm(WrapAlgorithm::FirstFit);
        // A number stays with its percent sign.
        for line in textwrap::wrap(&text.replace(" %", "\u{a0}%"), options) {
            self.line(&line.replace("\u{a0}%", " %"));
        }
    }

    fn line(&mut self, line: &str) {
        self.out.push_str(line.trim_end());
        self.out.push('\n');
    }

    /// A text with its colours.
    fn painted(&self, text: &Text) -> String {
        text.spans().iter().map(|span| self.styled(style(span.role()), span.text())).collect()
    }

    fn styled(&self, style: &str, text: &str) -> String {
        if style.is_empty() || !self.colour {
            text.to_string()
        } else {
            format!("\x1b[{style}m{text}\x1b[0m")
        }
    }
}

/// How a role is set off, as parameters of "select graphic rendition": 1 is bold, 2 faint, 31 red, 32 green,
/// 33 yellow. Source: ECMA-48, section 8.3.117.
fn style(role: Role) -> &'static str {
    match role {
        Role::Plain | Role::Key => "",
        Role::Pass => "1;32",
        Role::Thin | Role::Advise | Role::Unsure | Role::NotChecked => "1;33",
        Role::Fail => "1;31",
        Role::Muted => "2",
    }
}

/// A bar in characters.
fn drawn(bar: &Bar) -> String {
    let middle = |column: usize| (column as f64 + 0.5) / BAR as f64;
    let is_filled = |at: f64| bar.filled.iter().any(|(from, to)| *from <= at && at <= *to);
    let free = if bar.post.is_some() { ' ' } else { '.' };
    let mut cells: Vec<char> = (0..BAR).map(|i| if is_filled(middle(i)) { '=' } else { free }).collect();
    // A place on the bar is at most 1, a bar a few columns.
    let column = |at: f64| usize::try_from((at * BAR as f64) as i64).unwrap_or(0).min(BAR - 1);
    for (at, sign) in &bar.marks {
        cells[column(*at)] = *sign;
    }
    if let Some(post) = bar.post {
        cells.insert(column(post), '|');
    }
    cells.into_iter().collect()
}
