//! Values put into the text of a rig file, its comments, order and layout kept.

use std::fmt;
use toml_edit::{DocumentMut, InlineTable, Item, Table, TableLike, Value};

/// Why a value cannot be put into a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum CannotApply {
    /// The file is no TOML.
    Syntax(String),
    /// Something else stands on the way to the key.
    Blocked(String),
    /// The list has no such element in the file.
    NoElement(String),
    /// With the values in it the file is no rig any more.
    NoRig(String),
}

impl fmt::Display for CannotApply {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Syntax(message) => write!(out, "expected TOML: {message}"),
            Self::Blocked(path) => {
                write!(out, "expected a place for {path} in the file, found something else there")
            }
            Self::NoElement(path) => write!(out, "expected the element of {path} in the file, found none"),
            Self::NoRig(message) => {
                write!(out, "expected a rig with the new values in the file, found: {message}")
            }
        }
    }
}

/// The text with each value at its path, whether one stood there or not.
///
/// A path is what a change would name; an element of a list goes by its number or its id.
pub(super) fn apply(text: &str, settings: &[(&str, &str)]) -> Result<String, CannotApply> {
    let mut document: DocumentMut = text
        .parse()
        .map_err(|error: toml_edit::TomlError| CannotApply::Syntax(error.message().to_string()))?;
    for (path, value) in settings {
        put(document.as_table_mut(), path, value)?;
    }
    let applied = with_line_ends_of(text, document.to_string());
    let no_changes: &[&str] = &[];
    match crate::Rig::read("the new file", &applied, no_changes) {
        Ok(_) => Ok(applied),
        Err(problems) => Err(CannotApply::NoRig(problems.to_string())),
    }
}

/// New lines end as the old ones do, the last one too.
fn with_line_ends_of(text: &str, mut applied: String) -> String {
    if !text.ends_with('\n') && applied.ends_with('\n') {
        applied.pop();
    }
    let returns = text.matches("\r\n").count();
    if returns == 0 || returns < text.matches('\n').count() {
        return applied;
    }
    applied.replace("\r\n", "\n").replace('\n', "\r\n")
}

fn put(document: &mut Table, path: &str, value: &str) -> Result<(), CannotApply> {
    let segments: Vec<&str> = path.split('.').collect();
    let Some((name, tables)) = segments.split_last() else { return Ok(()) };
    let (table, in_braces) = descend(document, false, tables, path)?;
    let blocked = || CannotApply::Blocked(path.to_string());
    match table.get_mut(name) {
        Some(item) => {
            let old = item.as_value_mut().ok_or_else(blocked)?;
            let mut new = Value::from(value);
            // What stands around it, such as a comment, stays.
            *new.decor_mut() = old.decor().clone();
            *old = new;
        }
        None => {
            insert(table, in_braces, name, Item::Value(Value::from(value)));
        }
    }
    Ok(())
}

/// Adds a key at the end of a table.
fn insert(table: &mut dyn TableLike, in_braces: bool, name: &str, mut new: Item) {
    let last = table.iter_mut().last().and_then(|(_, item)| item.as_value_mut());
    if in_braces && let (Some(last), Some(new)) = (last, new.as_value_mut()) {
        // The space before the closing brace stays there.
        let space = last.decor().suffix().cloned().unwrap_or_default();
        last.decor_mut().set_suffix("");
        new.decor_mut().set_suffix(space);
        new.decor_mut().set_prefix(" ");
    }
    table.insert(name, new);
}

/// The table at the end of a way, and whether it stands in braces. Where there is none it is made: in braces below
/// a list or another table in braces.
fn descend<'t>(
    table: &'t mut dyn TableLike,
    in_braces: bool,
    way: &[&str],
    path: &str,
) -> Result<(&'t mut dyn TableLike, bool), CannotApply> {
    let Some((first, rest)) = way.split_first() else { return Ok((table, in_braces)) };
    if table.get(first).is_none() {
        insert(table, in_braces, first, new_table(in_braces));
    }
    let blocked = || CannotApply::Blocked(path.to_string());
    let item = table.get_mut(first).ok_or_else(blocked)?;
    let no_element = || CannotApply::NoElement(path.to_string());
    match item {
        Item::ArrayOfTables(elements) => {
            let (element, rest) = rest.split_first().ok_or_else(blocked)?;
            let by_id = elements.iter().position(|table| has_id(table, element));
            let table = by_id.or_else(|| number(element)).and_then(|at| elements.get_mut(at));
            descend(table.ok_or_else(no_element)?, true, rest, path)
        }
        Item::Value(Value::Array(elements)) => {
            let (element, rest) = rest.split_first().ok_or_else(blocked)?;
            let goes_by = |value: &Value| value.as_inline_table().is_some_and(|table| has_id(table, element));
            let by_id = elements.iter().position(goes_by);
            let value = by_id.or_else(|| number(element)).and_then(|at| elements.get_mut(at));
            let table = value.and_then(Value::as_inline_table_mut);
            descend(table.ok_or_else(no_element)?, true, rest, path)
        }
        Item::Value(Value::InlineTable(table)) => descend(table, true, rest, path),
        Item::Table(table) => descend(table, in_braces, rest, path),
        _ => Err(blocked()),
    }
}

/// An empty table, written as its surroundings are.
fn new_table(in_braces: bool) -> Item {
    if in_braces {
        return Item::Value(Value::InlineTable(InlineTable::new()));
    }
    let mut table = Table::new();
    // Its heading is written once it holds something.
    table.set_implicit(true);
    Item::Table(table)
}

/// Whether an element of a list goes by this word.
fn has_id(table: &dyn TableLike, word: &str) -> bool {
    ["id", "name"].iter().any(|key| table.get(key).and_then(Item::as_str) == Some(word))
}

/// An element's place by its number, counted from 1.
fn number(word: &str) -> Option<usize> {
    word.parse::<usize>().ok()?.checked_sub(1)
}

#[cfg(test)]
mod tests {
    use super::*;

    const AXLE: &str = "format = 1\n[[trailer.axles]]\n";

    /// A file of these lines, ended as Unix and as Windows end them, with one value put in.
    fn applied(text: &str, path: &str, value: &str) -> String {
        let applied = apply(text, &[(path, value)]).expect(text);
        let windows = apply(&text.replace('\n', "\r\n"), &[(path, value)]).expect(text);
        assert_eq!(windows, applied.replace('\n', "\r\n"));
        applied
    }

    #[test]
    fn a_value_that_stands_there_is_replaced_and_nothing_else() {
        for (line, after) in [
            ("[shift]\nboat = \"1 in\"   # as of spring\n", "[shift]\nboat = \"-3 in\"   # as of spring\n"),
            ("[shift]\n  boat='1 in'\n", "[shift]\n  boat=\"-3 in\"\n"),
            (
                "# moves\n[shift] # try\n\n\naxles = \"2 in\"\nboat = \"1 in\"",
                "# moves\n[shift] # try\n\n\naxles = \"2 in\"\nboat = \"-3 in\"",
            ),
        ] {
            assert_eq!(applied(&format!("{AXLE}{line}"), "shift.boat", "-3 in"), format!("{AXLE}{after}"));
        }
        for (line, after) in [
            (
                "shift = { axles = \"2 in\", boat = \"1 in\" } # try\n",
                "shift = { axles = \"2 in\", boat = \"-3 in\" } # try\n",
            ),
            ("shift.boat = \"1 in\" # try\n", "shift.boat = \"-3 in\" # try\n"),
        ] {
            assert_eq!(applied(&format!("{line}{AXLE}"), "shift.boat", "-3 in"), format!("{after}{AXLE}"));
        }
    }

    #[test]
    fn a_value_that_is_not_there_gets_its_place() {
        let end = applied(AXLE, "shift.boat", "-3 in");
        assert_eq!(end, format!("{AXLE}\n[shift]\nboat = \"-3 in\"\n"));
        let without_end = applied("format = 1\n[[trailer.axles]]\n# the last line", "shift.boat", "-3 in");
        assert!(without_end.contains("# the last line"), "{without_end}");
        for (text, after) in [
            (
                format!("{AXLE}[shift]\naxles = \"2 in\" # try\n\n[travel]\n"),
                format!("{AXLE}[shift]\naxles = \"2 in\" # try\nboat = \"-3 in\"\n\n[travel]\n"),
            ),
            (
                format!("shift = {{ axles = \"2 in\" }}\n{AXLE}"),
                format!("shift = {{ axles = \"2 in\", boat = \"-3 in\" }}\n{AXLE}"),
            ),
            (
                format!("shift.axles = \"2 in\" # try\n{AXLE}"),
                format!("shift.axles = \"2 in\" # try\nshift.boat = \"-3 in\"\n{AXLE}"),
            ),
        ] {
            assert_eq!(applied(&text, "shift.boat", "-3 in"), after);
        }
    }

    #[test]
    fn elements_go_by_number_id_and_name() {
        let tanks = "[[boat.tanks]]\nid = \"fuel\"\n\n[[cases]]\n\n[[cases]]\nfill = { fuel = \"20 %\" }\n";
        let text = format!("{AXLE}{tanks}");
        assert_eq!(
            applied(&text, "boat.tanks.fuel.fill", "5 %"),
            text.replace("\"fuel\"\n", "\"fuel\"\nfill = \"5 %\"\n")
        );
        assert_eq!(applied(&text, "cases.2.fill.fuel", "5 %"), text.replace("20 %", "5 %"));
        assert_eq!(
            applied(&text, "cases.1.fill.fuel", "5 %"),
            text.replace("[[cases]]\n\n", "[[cases]]\nfill = { fuel = \"5 %\" }\n\n")
        );
        let axles = "format = 1\n[trailer]\naxles = [\n  { rating = \"3500 lb\" }, # front\n  { station = \"9 ft\" },\n]\n";
        assert_eq!(applied(axles, "trailer.axles.2.station", "10 ft"), axles.replace("9 ft", "10 ft"));
        assert_eq!(
            applied(axles, "trailer.axles.1.tires.rating", "1760 lb"),
            axles.replace("\"3500 lb\"", "\"3500 lb\", tires = { rating = \"1760 lb\" }")
        );
        assert_eq!(
            apply(axles, &[("trailer.axles.3.station", "10 ft")]),
            Err(CannotApply::NoElement("trailer.axles.3.station".to_string()))
        );
    }

    #[test]
    fn what_is_no_rig_afterwards_is_refused() {
        let applied = apply(&format!("{AXLE}station = \"9 ft\"\n"), &[("shift.axles", "-10 ft")]);
        assert!(matches!(applied, Err(CannotApply::NoRig(_))), "{applied:?}");
        assert!(matches!(apply("format = ", &[]), Err(CannotApply::Syntax(_))));
        assert!(matches!(apply("shift = 1", &[("shift.boat", "1 in")]), Err(CannotApply::Blocked(_))));
    }
}
