//! `bunkline flatten`: a rig file and what it includes as one file.

use super::Outcome;
use super::rigs::{self, RigFile, Trouble};
use super::stream::Streams;
use crate::quantity::show::plain;
use crate::rig::{IncludeFault, Rig, Sources, include};
use clap::Args;
use toml_edit::{Document, DocumentMut, Item, Table};

/// Print a rig file and the files that it includes as one file, comments kept
///
/// A rig file includes others by `include = ["tow/van.toml", "trailer-17.toml"]` in its first lines. Each path begins at
/// the folder of the file that names it.
#[derive(Args)]
#[command(after_help = "Example:\n  bunkline flatten rig.toml > whole.toml")]
pub(super) struct Flatten {
    /// Rig file; - is standard input
    #[arg(value_name = "FILE")]
    file: String,
}

impl Flatten {
    pub fn run(&self, streams: &mut Streams) -> Outcome {
        let outcome = self.print(streams);
        rigs::outcome(outcome, &self.file, streams)
    }

    fn print(&self, streams: &mut Streams) -> Result<Outcome, Trouble> {
        let file = RigFile::read(&self.file)?;
        let rig = file.rig(&[])?;
        // A terminal gets no control characters, and TOML takes spaces for tabs.
        let text = whole(&file.sources)?.replace("\r\n", "\n").replace('\t', "    ");
        let text: String = text.split_inclusive('\n').map(printable).collect();
        if !Rig::read("the whole file", &text, &[""; 0]).is_ok_and(|read| is_same(&read, &rig)) {
            let message = "expected one file that describes the same rig, found none: a text in the file holds a control character";
            return Err(Trouble::Plain(message.to_string()));
        }
        streams.print(&text);
        Ok(Outcome::Done)
    }
}

/// A line as a terminal may have it.
fn printable(line: &str) -> String {
    match line.strip_suffix('\n') {
        Some(line) => plain(line).into_owned() + "\n",
        None => plain(line).into_owned(),
    }
}

/// Whether two rigs are the same to the last bit.
fn is_same(one: &Rig, other: &Rig) -> bool {
    (one.measured(), one.proposed(), one.assumed(), one.uncertain())
        == (other.measured(), other.proposed(), other.assumed(), other.uncertain())
}

/// The text that states what these do; the one text there is stays as it is.
pub(super) fn whole(sources: &Sources) -> Result<String, Trouble> {
    let mut texts = sources.iter().map(|(_, source)| source.text.as_str());
    let first = texts.next().unwrap_or_default();
    let unread = |error: toml_edit::TomlError| Trouble::Plain(error.message().to_string());
    let mut whole: DocumentMut = without_include(first).map_err(unread)?.parse().map_err(unread)?;
    let mut parts = 0;
    for text in texts {
        let part: DocumentMut = without_include(text).map_err(unread)?.parse().map_err(unread)?;
        let trailing = part.trailing().as_str().unwrap_or_default().to_string();
        let mut part = part.into_table();
        parts += 1;
        place_after(&mut part, parts);
        merge(whole.as_table_mut(), part);
        let before = whole.trailing().as_str().unwrap_or_default().to_string();
        whole.set_trailing(before + &trailing);
    }
    Ok(if parts == 0 { first.to_string() } else { whole.to_string() })
}

/// The same as a rig's only text.
pub(super) fn whole_source(sources: &Sources) -> Result<Sources, Trouble> {
    let whole = include("the new file", &whole(sources)?, (), |(), _| Err(IncludeFault::NoFolder));
    whole.map_err(|problems| Trouble::Mistaken(Box::new(problems)))
}

/// A text without the lines by which it includes others.
fn without_include(text: &str) -> Result<String, toml_edit::TomlError> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let document = Document::parse(text)?;
    let statement = document.as_table().get_key_value("include");
    let span = statement.and_then(|(key, value)| Some(key.span()?.start..value.span()?.end));
    let Some(span) = span else { return Ok(text.to_string()) };
    let start = text[..span.start].rfind('\n').map_or(0, |end| end + 1);
    let end = text[span.end..].find('\n').map_or(text.len(), |end| span.end + end + 1);
    Ok(text[..start].to_string() + &text[end..])
}

/// More tables than a rig file can have.
const MOST_TABLES: isize = 1 << 20;

/// Puts the headers of a text's tables after those of the texts before, `part` of them.
fn place_after(table: &mut Table, part: isize) {
    let place = |table: &mut Table| {
        let within = table.position().unwrap_or(0);
        table.set_position(Some(part * MOST_TABLES + within));
        let above = table.decor().prefix().and_then(|prefix| prefix.as_str()).unwrap_or_default();
        if !above.starts_with('\n') {
            let above = format!("\n{above}");
            table.decor_mut().set_prefix(above);
        }
        place_after(table, part);
    };
    for (_, item) in table.iter_mut() {
        match item {
            Item::Table(table) => place(table),
            Item::ArrayOfTables(tables) => tables.iter_mut().for_each(place),
            _ => {}
        }
    }
}

/// Merges a table into another. What stands in both is a table.
fn merge(into: &mut Table, mut from: Table) {
    let is_first_header = into.is_implicit() && !from.is_implicit();
    if is_first_header {
        into.set_implicit(false);
        into.set_position(from.position());
        *into.decor_mut() = from.decor().clone();
    } else {
        let of_header = [from.decor().prefix(), from.decor().suffix()];
        let of_header = of_header.map(|text| text.and_then(|text| text.as_str()).unwrap_or_default().trim());
        let of_header = of_header.join("\n");
        comment_first_value(&mut from, &of_header);
    }
    let keys: Vec<String> = from.iter().map(|(key, _)| key.to_string()).collect();
    for key in keys {
        let Some((key, item)) = from.remove_entry(&key) else { continue };
        match into.get_mut(&key) {
            Some(there) => {
                let mut table = std::mem::take(there).into_table().unwrap_or_default();
                merge(&mut table, item.into_table().unwrap_or_default());
                *there = Item::Table(table);
            }
            None => {
                into.insert_formatted(&key, item);
            }
        }
    }
}

/// Puts the comments of a table's header, which goes, above its first value.
fn comment_first_value(table: &mut Table, comment: &str) {
    let comment = comment.trim_matches('\n');
    let value = table.iter().find(|(_, item)| item.is_value()).map(|(key, _)| key.to_string());
    if let Some(mut key) = value.and_then(|key| table.key_mut(&key)).filter(|_| !comment.is_empty()) {
        let own = key.leaf_decor().prefix().and_then(|own| own.as_str()).unwrap_or_default();
        let both = format!("{comment}\n{own}");
        key.leaf_decor_mut().set_prefix(both);
    }
}
