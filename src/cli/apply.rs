//! Values put into the text of a rig file, its comments, order and layout kept.

use crate::quantity::parse::parse_si;
use crate::quantity::show::{UnitSystem, exact};
use crate::rig::inputs::Holds;
use crate::rig::{Key, Part, Rig};
use std::fmt;
use std::ops::Range;
use toml_edit::{
    Array, ArrayOfTables, Document, DocumentMut, InlineTable, Item, RawString, Table, TableLike, Value,
};

/// Why a value cannot be put into a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum CannotApply {
    /// The file is no TOML.
    Syntax(String),
    /// Something else stands on the way to the key.
    Blocked(Key),
    /// The list has no such element in the file.
    NoElement(Key),
    /// The bound of the value that stands there cannot be kept.
    Bound(Key),
}

impl fmt::Display for CannotApply {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Syntax(message) => write!(out, "expected TOML: {message}"),
            Self::Blocked(key) => {
                write!(out, "expected a place for {key} in the file, found something else there")
            }
            Self::NoElement(key) => write!(out, "expected the element of {key} in the file, found none"),
            Self::Bound(key) => write!(out, "expected to keep the ± of {key}, found no text that states it"),
        }
    }
}

/// The text with each value at its key, whether one stood there or not. `rig` is what the text describes.
///
/// An element of a list is the one at its place, whatever it or another is called; the one after the last is added. Where the value that stands there
/// states a ±, the new one has it too, unless it has its own.
pub(super) fn apply(text: &str, rig: &Rig, settings: &[(Key, String)]) -> Result<String, CannotApply> {
    let mut document: DocumentMut = text.parse().map_err(|error| syntax(&error))?;
    for (key, value) in settings {
        put(document.as_table_mut(), rig, *key, value)?;
    }
    Ok(with_line_ends_of(text, document.to_string()))
}

/// The text with its readings of scales as comments, each line where it stood.
pub(super) fn without_readings(text: &str) -> Result<String, CannotApply> {
    let document = Document::parse(text).map_err(|error| syntax(&error))?;
    let readings = match document.as_table().get_key_value("weighings") {
        Some((_, Item::ArrayOfTables(tables))) => tables.iter().filter_map(lines_of).collect(),
        Some((key, value)) => {
            key.span().zip(value.span()).map(|(key, value)| key.start..value.end).into_iter().collect()
        }
        None => Vec::new(),
    };
    let mut out = String::new();
    let mut at = 0;
    for line in text.split_inclusive('\n') {
        let is_part = |part: &Range<usize>| at < part.end && part.start < at + line.len();
        let is_empty = line.trim().is_empty() || line.trim_start().starts_with('#');
        if !is_empty && readings.iter().any(is_part) {
            out.push_str("# ");
        }
        out.push_str(line);
        at += line.len();
    }
    Ok(out)
}

/// From the heading of a table to the end of its last value.
fn lines_of(table: &Table) -> Option<Range<usize>> {
    let heading = table.span()?;
    let values = table.iter().filter_map(|(_, value)| Some(value.span()?.end));
    Some(heading.start..values.max().unwrap_or(heading.end))
}

fn syntax(error: &toml_edit::TomlError) -> CannotApply {
    CannotApply::Syntax(error.message().to_string())
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

/// A step on the way to a key.
#[derive(Clone, Copy)]
enum Step {
    /// Into the table, or to the value, of a name.
    Name(&'static str),
    /// To an element of a list, counted from 0.
    Element(usize),
}

fn put(document: &mut Table, rig: &Rig, key: Key, value: &str) -> Result<(), CannotApply> {
    let mut elements = key.at.into_iter();
    let step = |segment: &'static str| match segment {
        "*" => Step::Element(elements.next().unwrap_or(0)),
        name => Step::Name(name),
    };
    let steps: Vec<Step> = key.path.split('.').map(step).collect();
    let Some((last, way)) = steps.split_last() else { return Ok(()) };
    if let Some(old) = in_a_list_of_values(document, last, way, key) {
        return replace(old, value, rig, key);
    }
    let (table, in_braces) = descend(document, false, way, key)?;
    let name = match last {
        Step::Name(name) => (*name).to_string(),
        // A case's fills are a table by tank.
        Step::Element(tank) => fill_name(table, rig, *tank),
    };
    match table.get_mut(&name) {
        Some(item) => {
            let old = item.as_value_mut().ok_or(CannotApply::Blocked(key))?;
            replace(old, value, rig, key)?;
        }
        None => {
            insert(table, in_braces, &name, Item::Value(written(value.to_string(), key)));
        }
    }
    Ok(())
}

/// The value at the end of a way, where that leads to an element of a list of values.
fn in_a_list_of_values<'t>(
    document: &'t mut Table,
    last: &Step,
    way: &[Step],
    key: Key,
) -> Option<&'t mut Value> {
    let (Step::Element(at), Some((Step::Name(list), way))) = (last, way.split_last()) else { return None };
    let (table, _) = descend(document, false, way, key).ok()?;
    table.get_mut(list)?.as_array_mut()?.get_mut(*at)
}

fn replace(old: &mut Value, value: &str, rig: &Rig, key: Key) -> Result<(), CannotApply> {
    let mut new = written(with_bound_of(old, value, rig, key)?, key);
    // What stands around it, such as a comment, stays.
    *new.decor_mut() = old.decor().clone();
    *old = new;
    Ok(())
}

/// A value as a file has it: a whole number without quotes.
fn written(value: String, key: Key) -> Value {
    let is_count = key.input().is_some_and(|input| input.holds == Holds::Count);
    value.parse::<i64>().ok().filter(|_| is_count).map_or_else(|| Value::from(value), Value::from)
}

/// What a tank goes by in a table of fills: what it goes by there already, else its id, else its number.
fn fill_name(fills: &dyn TableLike, rig: &Rig, tank: usize) -> String {
    let setup = &rig.measured();
    let number = (tank + 1).to_string();
    let is_tank = |name: &str| match setup.part(name) {
        Some(part) => part == Part::Tank(tank),
        None => name == number,
    };
    let stands = fills.iter().map(|(name, _)| name).find(|name| is_tank(name));
    stands.or(setup.part_id(Part::Tank(tank))).unwrap_or(&number).to_string()
}

/// The new value with the bound that the old one states, if any. A bound in % of the value stays as large as it was.
fn with_bound_of(old: &Value, new: &str, rig: &Rig, key: Key) -> Result<String, CannotApply> {
    let old = old.as_str().unwrap_or_default();
    let bound_in = |text: &str| ["±", "+/-"].iter().find_map(|mark| text.find(mark));
    let Some(mark) = bound_in(old).filter(|_| bound_in(new).is_none()) else { return Ok(new.to_string()) };
    let cannot = || CannotApply::Bound(key);
    // Only a quantity has one: in a title it is a letter.
    let Some(kind) = rig.kind(key) else { return Ok(new.to_string()) };
    let bound = parse_si(old, kind).map_err(|_| cannot())?.bound;
    let value = parse_si(new, kind).map_err(|_| cannot())?.value;
    let says_both =
        |text: &String| parse_si(text, kind).is_ok_and(|read| read.value == value && read.bound == bound);
    let as_it_stands = format!("{new} {}", old[mark..].trim_end());
    if says_both(&as_it_stands) {
        return Ok(as_it_stands);
    }
    let units = rig.measured().units.map_or(UnitSystem::Us, UnitSystem::from);
    let bound = exact(bound, kind, units).ok_or_else(cannot)?;
    Some(format!("{new} ± {bound}")).filter(says_both).ok_or_else(cannot)
}

/// Adds a key at the end of a table.
fn insert(table: &mut dyn TableLike, in_braces: bool, name: &str, mut new: Item) {
    let last = table.iter_mut().last().and_then(|(_, item)| item.as_value_mut());
    if in_braces
        && let (Some(last), Some(new)) = (last, new.as_value_mut())
        && let Some(space) = last.decor().suffix().cloned()
    {
        // The space before the closing brace stays there.
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
    way: &[Step],
    key: Key,
) -> Result<(&'t mut dyn TableLike, bool), CannotApply> {
    let Some((Step::Name(first), rest)) = way.split_first() else { return Ok((table, in_braces)) };
    let (element, rest) = match rest.split_first() {
        Some((Step::Element(element), rest)) => (Some(*element), rest),
        _ => (None, rest),
    };
    if table.get(first).is_none() {
        match element {
            None => insert(table, in_braces, first, new_table(in_braces)),
            // The one element that a list has without standing in the file, such as the one case.
            Some(0) if !in_braces => insert(table, in_braces, first, Item::ArrayOfTables(one_table())),
            Some(_) => return Err(CannotApply::NoElement(key)),
        }
    }
    let item = table.get_mut(first).ok_or(CannotApply::Blocked(key))?;
    match (item, element) {
        (Item::ArrayOfTables(tables), Some(at)) => {
            if at == tables.len() {
                tables.push(Table::new());
            }
            let table = tables.get_mut(at).ok_or(CannotApply::NoElement(key))?;
            descend(table, true, rest, key)
        }
        (Item::Value(Value::Array(values)), Some(at)) => {
            if at == values.len() {
                push_in_braces(values);
            }
            let value = values.get_mut(at).ok_or(CannotApply::NoElement(key))?;
            let table = value.as_inline_table_mut().ok_or(CannotApply::Blocked(key))?;
            descend(table, true, rest, key)
        }
        (Item::Value(Value::InlineTable(table)), None) => descend(table, true, rest, key),
        (Item::Table(table), None) => descend(table, in_braces, rest, key),
        _ => Err(CannotApply::Blocked(key)),
    }
}

/// Adds an empty table in braces to a list, on a line of its own where the list has lines. The comment beside the last one stays there.
fn push_in_braces(values: &mut Array) {
    let text = |raw: Option<&RawString>| raw.and_then(RawString::as_str).unwrap_or_default().to_string();
    let last = values.iter_mut().last();
    let indent = last.as_ref().map(|last| text(last.decor().prefix())).unwrap_or_default();
    let after_last = last.map(|last| {
        let after = text(last.decor().suffix());
        last.decor_mut().set_suffix("");
        after
    });
    let after = after_last.unwrap_or_default() + &text(Some(values.trailing()));
    let table = Value::InlineTable(InlineTable::new());
    let Some((comments, closing)) = after.rsplit_once('\n') else {
        values.push_formatted(table.decorated(" ", after));
        values.set_trailing("");
        values.set_trailing_comma(false);
        return;
    };
    // What stands before the last line of it are comments.
    let indent = indent.rsplit('\n').next().unwrap_or_default();
    values.push_formatted(table.decorated(format!("{comments}\n{indent}"), ""));
    values.set_trailing(format!("\n{closing}"));
    values.set_trailing_comma(true);
}

/// A list of one table with nothing in it.
fn one_table() -> ArrayOfTables {
    let mut tables = ArrayOfTables::new();
    tables.push(Table::new());
    tables
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

#[cfg(test)]
mod tests {
    use super::*;

    const AXLE: &str = "format = 1\n[[trailer.axles]]\n";

    /// One value put into a text.
    fn put_in(text: &str, path: &str, value: &str) -> Result<String, CannotApply> {
        let rig = Rig::read("rig.toml", text, &[""; 0]).expect(text);
        let keys: Vec<Key> = rig.variable(path).expect(path).keys().collect();
        apply(text, &rig, &keys.iter().map(|key| (*key, value.to_string())).collect::<Vec<_>>())
    }

    /// A file of these lines, ended as Unix and as Windows end them, with one value put in.
    fn applied(text: &str, path: &str, value: &str) -> String {
        let applied = put_in(text, path, value).expect(text);
        let windows = put_in(&text.replace('\n', "\r\n"), path, value).expect(text);
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
    fn a_list_of_values_keeps_its_shape() {
        let text = "format = 1\n[measured]\naxles = [\"900 lb ± 10 lb\", # front\n  \"800 lb\"]\n[[trailer.axles]]\n[[trailer.axles]]\n";
        assert_eq!(applied(text, "measured.axles.1", "910 lb"), text.replace("900 lb", "910 lb"));
        assert_eq!(applied(text, "measured.axles.2", "810 lb"), text.replace("800 lb", "810 lb"));
    }

    #[test]
    fn elements_go_by_their_place() {
        let tanks = "[[boat.tanks]]\nid = \"fuel\"\n\n[[cases]]\n\n[[cases]]\nfill = { fuel = \"20 %\" }\n";
        let text = format!("{AXLE}{tanks}");
        assert_eq!(
            applied(&text, "boat.tanks.fuel.fill", "5 %"),
            text.replace("\"fuel\"\n", "\"fuel\"\nfill = \"5 %\"\n")
        );
        for tank in ["fuel", "1", "all"] {
            assert_eq!(applied(&text, &format!("cases.2.fill.{tank}"), "5 %"), text.replace("20 %", "5 %"));
            assert_eq!(
                applied(&text, &format!("cases.1.fill.{tank}"), "5 %"),
                text.replace("[[cases]]\n\n", "[[cases]]\nfill = { fuel = \"5 %\" }\n\n")
            );
        }
        let axles = "format = 1\n[trailer]\naxles = [\n  { rating = \"3500 lb\" }, # front\n  { station = \"9 ft\" },\n]\n";
        assert_eq!(applied(axles, "trailer.axles.2.station", "10 ft"), axles.replace("9 ft", "10 ft"));
        assert_eq!(
            applied(axles, "trailer.axles.1.tires.rating", "1760 lb"),
            axles.replace("\"3500 lb\"", "\"3500 lb\", tires = { rating = \"1760 lb\" }")
        );
        let rig = Rig::read("rig.toml", axles, &[""; 0]).expect("a rig");
        let fourth = Key::of("trailer.axles.*.station", 3);
        assert_eq!(apply(axles, &rig, &[(fourth, "10 ft".to_string())]), Err(CannotApply::NoElement(fourth)));
    }

    #[test]
    fn the_element_after_the_last_is_added() {
        let [station, top] = ["station", "top"].map(|name| format!("trailer.crossmembers.*.{name}"));
        let keys = [station, top].map(|path| {
            let input = crate::rig::INPUTS.iter().find(|input| input.path == path).expect("a row");
            Key::of(input.path, 1)
        });
        let settings = [(keys[0], "14 ft".to_string()), (keys[1], "22 in ± 1 in".to_string())];
        let added = |text: &str| {
            let rig = Rig::read("rig.toml", text, &[""; 0]).expect(text);
            apply(text, &rig, &settings).expect(text)
        };
        let tables = format!(
            "{AXLE}[[trailer.crossmembers]] # the first\nstation = \"12 ft\"\ntop = \"22 in\"\n\n# the fenders\n[trailer.fenders]\nheight = \"34 in\"\n"
        );
        let new = "\n[[trailer.crossmembers]]\nstation = \"14 ft\"\ntop = \"22 in ± 1 in\"\n\n# the fenders";
        assert_eq!(added(&tables), tables.replace("\n\n# the fenders", &format!("\n{new}")));
        let new = "{ station = \"14 ft\", top = \"22 in ± 1 in\" }";
        let list =
            |members: &str| format!("format = 1\n[trailer]\ncrossmembers = [{members}]\n[[trailer.axles]]\n");
        let first = "{ station = \"12 ft\" }";
        assert_eq!(added(&list(first)), list(&format!("{first}, {new}")));
        let lines = |more: &str| list(&format!("\n  # the first\n  {first}, # so far\n{more}"));
        assert_eq!(added(&lines("")), lines(&format!("  {new},\n")));
        let without_comma = lines("").replace(", # so far", " # so far");
        assert_eq!(added(&without_comma), lines(&format!("  {new},\n")));
    }

    #[test]
    fn digits_as_names_lead_nowhere_else() {
        // Every tank and weight is called by the number of another: a number goes first.
        let weights = "[[boat.weights]]\nid = \"2\"\nweight = \"1 lb\"\n[[boat.weights]]\nid = \"1\"\nweight = \"2 lb\"\n";
        let tanks = "[[boat.tanks]]\nid = \"4\"\n[[boat.tanks]]\nid = \"3\"\n";
        let cases =
            "[[cases]]\nname = \"2\"\n[[cases]]\nname = \"1\"\nfill = { 4 = \"40 %\", 3 = \"30 %\" }\n";
        let text = format!("{AXLE}{weights}{tanks}{cases}");
        assert_eq!(applied(&text, "boat.weights.1.weight", "9 lb"), text.replace("\"1 lb", "\"9 lb"));
        assert_eq!(applied(&text, "boat.weights.2.weight", "9 lb"), text.replace("\"2 lb", "\"9 lb"));
        assert_eq!(applied(&text, "cases.2.fill.4", "9 %"), text.replace("40 %", "9 %"));
        assert_eq!(applied(&text, "cases.2.fill.2", "9 %"), text.replace("30 %", "9 %"));
        assert_eq!(
            applied(&text, "cases.1.fill.3", "9 %"),
            text.replace("name = \"2\"\n", "name = \"2\"\nfill = { 3 = \"9 %\" }\n")
        );
    }

    #[test]
    fn a_bound_stays() {
        for (stated, new, after) in [
            ("1 in ± 2 in", "-3 in", "-3 in ± 2 in"),
            ("1 in +/- 2 mm", "-3 in", "-3 in +/- 2 mm"),
            ("0 in ± 2 in ", "1 m", "1 m ± 2 in"),
            // Half of 4 in are 2 in, whatever the value becomes.
            ("-4 in ± 50 %", "1 in", "1 in ± 2 in"),
            ("-4 in ± 50 %", "4 in", "4 in ± 50 %"),
        ] {
            let text = |value: &str| format!("{AXLE}[shift]\nboat = \"{value}\" # try\n");
            assert_eq!(applied(&text(stated), "shift.boat", new), text(after));
        }
    }

    #[test]
    fn the_one_case_of_a_file_without_cases_gets_its_place() {
        let text = format!("{AXLE}[[boat.tanks]]\nid = \"é\"\n");
        let after = applied(&text, "cases.1.fill.é", "5 %");
        assert!(after.contains("\n[[cases]]\nfill = { \"é\" = \"5 %\" }\n"), "{after}");
    }

    #[test]
    fn what_stands_in_the_way_is_named() {
        let rig = Rig::read("rig.toml", AXLE, &[""; 0]).expect("a rig");
        let boat = Key::new("shift.boat");
        let put = |text| apply(text, &rig, &[(boat, "1 in".to_string())]);
        assert!(matches!(put("format = "), Err(CannotApply::Syntax(_))));
        assert_eq!(put("shift = 1"), Err(CannotApply::Blocked(boat)));
    }
}
