//! A document as Markdown with tables, as pull requests and wikis show it.
//!
//! Source: the GitHub Flavored Markdown specification 0.29, sections 2.4 (backslash escapes), 4.10 (tables), 6.3 (code spans)
//! and 6.9 (autolinks).

use super::document::{Block, Cell, Document, Holds, Item, Role, Table, Text};

/// A document as Markdown.
pub fn render(document: &Document) -> String {
    let blocks: Vec<String> = document.blocks().iter().map(block).collect();
    blocks.join("\n")
}

/// A block with the end of its last line.
fn block(block: &Block) -> String {
    match block {
        Block::Title(text) => format!("## {}\n", words(text)),
        Block::Heading(text) => format!("### {}\n", words(text)),
        Block::Paragraph(text) => format!("{}\n", line(text)),
        Block::List(items) => items.iter().map(item).collect::<Vec<_>>().join("\n") + "\n",
        Block::Facts(facts) => {
            let facts = facts.iter().map(|(label, value)| format!("- **{}** {}", words(label), words(value)));
            facts.collect::<Vec<_>>().join("\n") + "\n"
        }
        Block::Table(table) => self::table(table),
        Block::Figure { caption, drawing, .. } if caption.is_empty() => fenced(drawing),
        Block::Figure { caption, drawing, .. } => format!("{}\n\n{}", line(caption), fenced(drawing)),
        Block::Code(lines) => fenced(lines),
        Block::Picture(_) => String::new(),
    }
}

fn item(item: &Item) -> String {
    let below = item.below.iter().map(|text| format!("  - {}", line(text)));
    std::iter::once(format!("- {}", line(&item.text))).chain(below).collect::<Vec<_>>().join("\n")
}

/// A table without the columns that hold bars alone: their words stand beside them.
fn table(table: &Table) -> String {
    let has_words = |i: usize| {
        let cells = table.rows.iter().filter_map(|row| row.get(i));
        cells.chain([&Cell::from(table.columns[i].heading.clone())]).any(|cell| !cell.text.is_empty())
    };
    let shown: Vec<usize> = (0..table.columns.len()).filter(|i| has_words(*i)).collect();
    let row = |cells: &dyn Fn(usize) -> String| {
        let cells: Vec<String> = shown.iter().map(|i| cells(*i)).collect();
        format!("| {} |\n", cells.join(" | "))
    };
    let align = |i: usize| if table.columns[i].holds == Holds::Numbers { "---:" } else { "---" }.to_string();
    let mut out = row(&|i| words(&table.columns[i].heading)) + &row(&align);
    for cells in &table.rows {
        out += &row(&|i| cells.get(i).map(|cell| words(&cell.text)).unwrap_or_default());
    }
    out
}

/// Lines as they stand, between fences longer than any in them.
fn fenced(lines: &[String]) -> String {
    let fence = "`".repeat(longest_run(&lines.join("\n")).max(2) + 1);
    format!("{fence}text\n{}\n{fence}\n", lines.join("\n"))
}

/// A text that begins a line: what it begins with makes no list and no rule of it.
fn line(text: &Text) -> String {
    let words = words(text);
    let number = words.trim_start_matches(|c: char| c.is_ascii_digit());
    let digits = words.len() - number.len();
    match number.chars().next() {
        Some('-' | '+' | '=') if digits == 0 => format!("\\{words}"),
        Some('.' | ')') if digits > 0 => format!("{}\\{number}", &words[..digits]),
        _ => words,
    }
}

fn words(text: &Text) -> String {
    let spans = text.spans().iter().map(|span| match span.role() {
        Role::Plain | Role::Muted => escaped(span.text()),
        Role::Key => code(span.text()),
        _ if span.text().trim() != span.text() => escaped(span.text()),
        _ => format!("**{}**", escaped(span.text())),
    });
    spans.collect::<String>().trim().to_string()
}

/// A text of which nothing is markup, a link, or a call to somebody.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        let is_link = (c == '/' && out.ends_with(':')) || (c == '.' && out.to_lowercase().ends_with("www"));
        if is_link
            || matches!(c, '\\' | '`' | '*' | '_' | '[' | ']' | '<' | '>' | '|' | '~' | '&' | '#' | '!' | '$')
        {
            out.push('\\');
        }
        out.push(c);
        if c == '@' {
            // A name after it is no longer one.
            out.push_str("<!-- -->");
        }
    }
    out
}

/// A word to copy, as code.
fn code(text: &str) -> String {
    let fence = "`".repeat(longest_run(text) + 1);
    let room = if text.starts_with('`') || text.ends_with('`') { " " } else { "" };
    // In a table a bar ends its cell even inside code.
    format!("{fence}{room}{}{room}{fence}", text.replace('|', "\\|"))
}

/// The most backticks in a row.
fn longest_run(text: &str) -> usize {
    text.split(|c| c != '`').map(str::len).max().unwrap_or(0)
}
