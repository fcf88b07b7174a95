//! From the text of a file, or of a change, to the fields of a [`Setup`].

use super::inputs::{
    At, CASES_FILL, INCLUDE, Input, Key, List, Node, Sign, Slot, children, is_list, list_at, nearest,
    nearest_key, node, static_path,
};
use super::problem::{Fault, Problem};
use super::setup::{Part, Reach, Setup};
use super::source::{Source, SourceId, Sources, Span};
use crate::quantity::{Kind, Length, Quantity, Uncertain, parse};
use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// A list longer than this was not written by hand.
pub(super) const MOST_ELEMENTS: usize = 200;

/// What the parser says of a key that stands twice in a text.
pub(super) const REPEATED: &str = "duplicate key";

/// Less than this share of the largest value of its kind cannot be meant: 0.1 µm, or a tenth of a gram.
const VANISHING: f64 = 1e-9;

/// A setup in the making, and where each of its values stands.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Draft {
    pub setup: Setup,
    /// Where each value stands.
    pub places: BTreeMap<Key, Span>,
    /// The bound of each uncertain value, in SI.
    pub bounds: BTreeMap<Key, f64>,
    /// Every key that stands in the text, readable or not.
    pub seen: BTreeSet<Key>,
    pub problems: Vec<Problem>,
}

impl Draft {
    /// Notes a mistake.
    pub fn blame(&mut self, fault: Fault, at: Option<Span>) {
        self.problems.push(Problem { fault, at, other: None });
    }

    /// Where the value of a key stands.
    pub fn place(&self, key: Key) -> Option<Span> {
        self.places.get(&key).cloned()
    }

    /// Reads the texts of a rig.
    pub fn read(&mut self, sources: &Sources) {
        let texts: Vec<_> = sources
            .iter()
            .map(|(id, file @ Source { text, .. })| (id, file, DeTable::parse_recoverable(text)))
            .collect();
        // The boat comes first, whichever text it stands in: cases name its parts by their ids.
        for boat in [true, false] {
            for (source, file, (table, _)) in &texts {
                let mut reader = Reader { text: &file.text, source: *source, draft: self };
                for (key, value) in table.get_ref() {
                    let name = key.get_ref();
                    if (name == "boat") == boat && name != INCLUDE && file.reads(name) {
                        reader.entry(key, value, "", [0, 0]);
                    }
                }
            }
        }
        for (source, file, (_, errors)) in &texts {
            self.blame_syntax(*source, &file.text, errors);
        }
        let tanks = self.setup.boat.tanks.len();
        for case in &mut self.setup.cases {
            case.fill.resize(tanks, None);
        }
    }

    fn blame_syntax(&mut self, source: SourceId, text: &str, errors: &[toml::de::Error]) {
        let reader = Reader { text, source, draft: self };
        let broken: Vec<Span> = errors.iter().map(|error| reader.syntax_span(error.span())).collect();
        // What reads oddly on a line with broken syntax is a consequence of it.
        let line_ends: Vec<usize> = text.match_indices('\n').map(|(at, _)| at).collect();
        let line_of = |span: &Span| line_ends.partition_point(|end| *end < span.range.start);
        let broken_lines: BTreeSet<usize> = broken.iter().map(line_of).collect();
        let on_broken_line = |span: &Span| span.source == source && broken_lines.contains(&line_of(span));
        self.problems.retain(|problem| !problem.at.as_ref().is_some_and(on_broken_line));
        // A table that stands twice has keys that stand twice: they are a consequence too.
        let mut repeated_table = 0..0;
        let unclosed = errors.iter().zip(&broken).find_map(|(error, span)| unclosed(text, error, span));
        if let Some(brace) = &unclosed {
            let span = Span { source, range: *brace..*brace + 1 };
            self.blame(Fault::Unclosed, Some(span));
        }
        for (error, span) in errors.iter().zip(broken) {
            // What follows a brace that nothing closes is a consequence of it.
            if unclosed.is_some_and(|brace| brace < span.range.start) {
                continue;
            }
            let before = text.get(..span.range.start).unwrap_or_default().trim_end_matches(' ');
            let after_quote = before.ends_with('"') && error.message().starts_with("unexpected key or value");
            let fault = match error.message() {
                _ if after_quote => Fault::AfterQuote,
                _ if is_curly(text, &span) => Fault::CurlyQuotes,
                REPEATED => repeated(text, &span),
                message => Fault::Syntax(message.to_string()),
            };
            if let Fault::Repeated { found, .. } = &fault {
                let is_table = found.starts_with('[');
                if !is_table && repeated_table.contains(&span.range.start) {
                    continue;
                }
                if is_table {
                    let rest = text.get(span.range.end..).unwrap_or_default();
                    let end = rest.find("\n[").map_or(text.len(), |at| span.range.end + at);
                    repeated_table = span.range.end..end;
                }
            }
            self.blame(fault, Some(span));
        }
    }

    /// Takes the text of a word, a name, a number or a list for a key.
    pub fn take_text(&mut self, key: Key, input: &Input, text: &str, place: Span) {
        let before = self.problems.len();
        self.word(input, key, text, &place);
        if self.problems.len() == before {
            self.places.insert(key, place);
        }
    }

    /// Takes a bound in SI for a key, in place of the one it had.
    pub fn take_bound(&mut self, key: Key, bound: f64) {
        if bound > 0.0 {
            self.bounds.insert(key, bound);
        } else {
            self.bounds.remove(&key);
        }
    }

    /// Forgets all readings of scales.
    pub fn forget_weighings(&mut self) {
        self.setup.weighings.clear();
        let stays = |key: &Key| !key.path.starts_with("weighings.");
        self.bounds.retain(|key, _| stays(key));
        self.places.retain(|key, _| stays(key));
        self.seen.retain(stays);
    }

    /// Takes a word, a name, a number or a flag for a key.
    fn word(&mut self, input: &Input, key: Key, text: &str, place: &Span) {
        let fault = match input.slot(&mut self.setup, key.at) {
            Slot::Text(slot) => take_line(slot, text),
            Slot::Id(slot) => take_id(slot, text),
            Slot::Choice(slot) => {
                (!slot.choose(text)).then(|| Fault::Choice { words: slot.words(), found: text.to_string() })
            }
            Slot::Flag(slot) => match text.parse() {
                Ok(flag) => {
                    *slot = Some(flag);
                    None
                }
                Err(_) => Some(Fault::Choice { words: &["true", "false"], found: text.to_string() }),
            },
            Slot::Count(slot) => {
                if let Ok(count) = text.parse() {
                    *slot = Some(count);
                    None
                } else {
                    let (expected, found) = ("a whole number", "something else");
                    Some(Fault::WrongType { expected, found, instead: None })
                }
            }
            Slot::Factor(slot) => take_factor(slot, text),
            // The rest are lists, whose text is TOML.
            _ => return self.toml_list(input, key, text, place),
        };
        if let Some(fault) = fault {
            self.blame(fault, Some(place.clone()));
        }
    }

    /// Takes a list written in TOML as the text of a change.
    fn toml_list(&mut self, input: &Input, key: Key, text: &str, place: &Span) {
        match DeValue::parse(text) {
            Ok(value) => {
                // The value's own spans count from the start of the text.
                let mut reader = Reader { text, source: place.source, draft: self };
                let first = reader.draft.problems.len();
                reader.value(input, key, &value);
                for problem in &mut self.problems[first..] {
                    problem.at = problem.at.take().map(|span| place.within(span.range));
                }
            }
            Err(error) => self.blame(Fault::Syntax(error.message().to_string()), Some(place.clone())),
        }
    }
}

fn take_line(slot: &mut Option<String>, text: &str) -> Option<Fault> {
    if text.chars().any(char::is_control) {
        return Some(Fault::ControlCharacter);
    }
    *slot = Some(text.to_string());
    None
}

/// No plain number of a rig is greater.
const GREATEST_NUMBER: f64 = 1000.0;

fn take_factor(slot: &mut Option<f64>, text: &str) -> Option<Fault> {
    match text.parse::<f64>().ok().filter(|number| *number > 0.0 && *number <= GREATEST_NUMBER) {
        Some(factor) => {
            *slot = Some(factor);
            None
        }
        None => Some(Fault::NotANumber(text.escape_debug().to_string())),
    }
}

fn take_id(slot: &mut Option<String>, text: &str) -> Option<Fault> {
    let plain = |c: char| c.is_alphanumeric() || matches!(c, '-' | '_');
    if text.is_empty() || !text.chars().all(plain) {
        return Some(Fault::BadId(text.escape_debug().to_string()));
    }
    if text == "all" {
        return Some(Fault::ReservedId);
    }
    *slot = Some(text.to_string());
    None
}

/// What is wrong with a text, and with which bytes of it, if not with all of them.
pub(super) type Mistake = (Fault, Option<Range<usize>>);

/// The quantity in SI that a text states for an input, with its bound if it states one.
pub(super) fn quantity(input: &Input, kind: Kind, text: &str) -> Result<(f64, Option<f64>), Mistake> {
    let (value, bound) = parse::parse_bounded(text, kind)
        .map_err(|error| (Fault::Quantity(error.fault), Some(error.at).filter(|at| !at.is_empty())))?;
    let read = Uncertain { value, bound: bound.unwrap_or(0.0) };
    match out_of_bounds(input, kind, read, || text.to_string()) {
        Some(fault) => Err((fault, None)),
        None => Ok((value, bound)),
    }
}

/// Why a value cannot be meant, if it cannot.
pub(super) fn out_of_bounds(
    input: &Input,
    kind: Kind,
    read: Uncertain<f64>,
    text: impl Fn() -> String,
) -> Option<Fault> {
    let what = kind.name();
    let found = || text().trim().to_string();
    let (largest, _) = kind.largest();
    if kind == Kind::Share && read.value > 1.0 {
        return Some(Fault::ShareOverOne(found()));
    }
    // Written so that what is not a number fails too.
    let small_enough = read.value.abs() <= largest && read.bound <= largest;
    if !small_enough {
        return Some(Fault::TooLarge { what, most: kind.largest_as(&found()), found: found() });
    }
    match input.sign {
        Sign::NotNegative if read.value < 0.0 => Some(Fault::Negative { what, found: found() }),
        Sign::Positive if read.value <= least_positive(kind) => {
            Some(Fault::NotPositive { what, meaning: input.meaning, found: found() })
        }
        _ => None,
    }
}

/// What vanishes beside the largest is as good as zero: quotients of values stay finite.
fn least_positive(kind: Kind) -> f64 {
    kind.largest().0 * VANISHING
}

/// The least and the greatest value in SI that [`out_of_bounds`] lets pass.
pub(super) fn bounds(input: &Input, kind: Kind) -> (f64, f64) {
    let (largest, _) = kind.largest();
    let least = match input.sign {
        Sign::Any => -largest,
        Sign::NotNegative => 0.0,
        Sign::Positive => least_positive(kind).next_up(),
    };
    (least, largest)
}

/// A key that is repeated, or the table whose header holds it.
fn repeated(text: &str, key: &Span) -> Fault {
    let before = text.get(..key.range.start).unwrap_or_default();
    let line = text.get(before.rfind('\n').map_or(0, |end| end + 1)..).unwrap_or_default();
    let line = line.lines().next().unwrap_or_default().trim_start();
    let brackets = line.chars().take_while(|c| *c == '[').count();
    // A line of a list of tables may begin with a bracket too.
    let is_header = |inside: &&str| (1..=2).contains(&brackets) && !inside.contains(['{', '=']);
    let header = line.trim_start_matches('[').split(']').next().filter(is_header);
    let key = text.get(key.range.clone()).unwrap_or_default();
    let written =
        |name: &str| name.split('.').map(str::trim).collect::<Vec<_>>().join(".").escape_debug().to_string();
    match header.map(written) {
        Some(table) => {
            let is_list = is_list(&table);
            let found = format!("{}{table}{}", "[".repeat(brackets), "]".repeat(brackets));
            Fault::Repeated { found, is_list }
        }
        None => Fault::Repeated { found: written(key), is_list: false },
    }
}

/// Walks one text's TOML.
struct Reader<'a> {
    text: &'a str,
    source: SourceId,
    draft: &'a mut Draft,
}

/// The brace in an earlier line that nothing closes, where an error is about what follows it.
fn unclosed(text: &str, error: &toml::de::Error, span: &Span) -> Option<usize> {
    let message = error.message();
    let is_about_it = message.contains("inline table") || message.contains("missing comma between key-value");
    let before = text.get(..span.range.start).filter(|_| is_about_it)?;
    let brace = before.rfind('{')?;
    let after = &before[brace..];
    (after.contains('\n') && !after.contains('}')).then_some(brace)
}

impl Reader<'_> {
    fn span(&self, range: Range<usize>) -> Span {
        Span { source: self.source, range }
    }

    /// A syntax error's place; an empty one at the end of a line is widened to be seen.
    fn syntax_span(&self, range: Option<Range<usize>>) -> Span {
        let range = range.unwrap_or(0..0);
        let start = range.start.min(self.text.len());
        self.span(start..range.end.clamp(start, self.text.len()))
    }

    fn table(&mut self, table: &DeTable<'_>, pattern: &str, at: At) {
        let headless = self.headless(table, pattern);
        for (key, value) in table {
            if !headless.contains(key.get_ref().as_ref()) {
                self.entry(key, value, pattern, at);
            }
        }
    }

    /// The keys of a table that belong into an element of one of its lists, as where the line is missing that begins one: two of
    /// them at least. It is said once.
    fn headless(&mut self, table: &DeTable<'_>, pattern: &str) -> BTreeSet<String> {
        let under =
            |name: &str| if pattern.is_empty() { name.to_string() } else { format!("{pattern}.{name}") };
        let names = || table.iter().map(|(key, _)| key.get_ref().as_ref());
        let strange = || names().filter(|name| node(&under(name)).is_none() && !name.contains(['.', '*']));
        if strange().nth(1).is_none() {
            return BTreeSet::new();
        }
        let lists = children(pattern).iter().copied().map(under);
        let lists = lists.filter(|list| matches!(node(list), Some(Node::List(_))));
        let of = |list: &String| {
            let is_its = |name: &&str| node(&format!("{list}.*.{name}")).is_some();
            strange().filter(is_its).map(str::to_string).collect::<BTreeSet<String>>()
        };
        let most = lists.map(|list| (of(&list), list)).max_by_key(|(keys, _)| keys.len());
        let Some((keys, list)) = most.filter(|(keys, _)| keys.len() > 1) else { return BTreeSet::new() };
        let first = table.iter().map(|(key, _)| key).filter(|key| keys.contains(key.get_ref().as_ref()));
        let span = first.map(Spanned::span).min_by_key(|span| span.start).map(|range| self.span(range));
        self.draft.blame(Fault::NoHeading { list: heading(&list) }, span);
        keys
    }

    fn entry(&mut self, key: &Spanned<Cow<'_, str>>, value: &Spanned<DeValue<'_>>, pattern: &str, at: At) {
        let name = key.get_ref().as_ref();
        let path = if pattern.is_empty() { name.to_string() } else { format!("{pattern}.{name}") };
        // A quoted key that looks like a path, or is empty, is no key of the format.
        let plain = !name.is_empty() && !name.contains(['.', '*']);
        match node(&path).filter(|_| plain) {
            Some(Node::Leaf(input)) => match (value.get_ref(), list_at(&path)) {
                // A value that may vary from place to place is one value or a list of them.
                (DeValue::Array(_), Some(list)) => self.list(list, at, value),
                // A part is a table, or a word that says there is none.
                (DeValue::Table(inner), _) if !children(&path).is_empty() => self.table(inner, &path, at),
                (found, _) if !children(&path).is_empty() && says_no_word(input, found) => {
                    self.draft.seen.insert(Key { path: input.path, at });
                    self.wrong_type("a table, or `none`", found, value, keys_instead(&path));
                }
                _ => self.value(input, Key { path: input.path, at }, value),
            },
            Some(Node::List(list)) => self.list(list, at, value),
            Some(Node::Table) => match value.get_ref() {
                DeValue::Table(inner) => self.table(inner, &path, at),
                other @ DeValue::Array(_) => {
                    let instead = format!("there is one: write it in single brackets, [{}]", heading(&path));
                    self.wrong_type("a table", other, value, instead);
                }
                other => self.wrong_type("a table", other, value, keys_instead(&path)),
            },
            None => {
                let near = nearest_key(name, pattern);
                let table = Key { path: static_path(pattern), at }.to_string();
                let fault = Fault::UnknownKey { table, found: name.escape_debug().to_string(), near };
                let span = self.span(key.span());
                self.draft.blame(fault, Some(span));
            }
        }
    }

    fn list(&mut self, list: &'static List, at: At, value: &Spanned<DeValue<'_>>) {
        match value.get_ref() {
            DeValue::Array(elements) if list.path != "cases.*.fill" => {
                let count = elements.len().min(MOST_ELEMENTS);
                if let Some(first_beyond) = elements.get(MOST_ELEMENTS) {
                    let (list, most) = (list.path, MOST_ELEMENTS);
                    let span = self.span(first_beyond.span());
                    self.draft.blame(Fault::TooMany { list, most, found: elements.len() }, Some(span));
                }
                (list.grow)(&mut self.draft.setup, at, count);
                // A list inside a list keeps the outer element.
                let inside = list.path.contains('*');
                let of_values = list.of_values();
                for (i, element) in elements.iter().take(count).enumerate() {
                    let at = if inside { [at[0], i] } else { [i, 0] };
                    match element.get_ref() {
                        _ if let Some(input) = of_values => {
                            self.value(input, Key { path: input.path, at }, element);
                        }
                        DeValue::Table(inner) => self.table(inner, &format!("{}.*", list.path), at),
                        other => self.wrong_type("a table", other, element, brackets_instead(list)),
                    }
                }
            }
            DeValue::Table(fills) if list.path == "cases.*.fill" => self.fills(list, at, fills),
            other if list.path == "cases.*.fill" => {
                let instead = "write how full each tank is: fill = { fuel = \"50 %\" }";
                self.wrong_type("a table of tank ids", other, value, instead);
            }
            other if list.of_values().is_some() => {
                let instead = "write one for each in brackets: [\"3500 lb\", \"3500 lb\"]";
                self.wrong_type("a list of weights, [\"…\", \"…\"]", other, value, instead);
            }
            DeValue::Table(_) => {
                let instead = Some(brackets_instead(list));
                let (expected, found) = ("a list of tables, [[…]]", "one table, […]");
                let fault = Fault::WrongType { expected, found, instead };
                let span = self.span(value.span());
                self.draft.blame(fault, Some(span));
                self.draft.seen.insert(Key { path: list.path, at });
            }
            other => {
                self.wrong_type("a list of tables", other, value, brackets_instead(list));
                self.draft.seen.insert(Key { path: list.path, at });
            }
        }
    }

    /// How full tanks are in a case, by their ids.
    fn fills(&mut self, list: &'static List, at: At, fills: &DeTable<'_>) {
        let tanks = self.draft.setup.boat.tanks.len();
        (list.grow)(&mut self.draft.setup, at, tanks);
        let input = CASES_FILL.input();
        for (id, value) in fills {
            let tank = self.draft.setup.part(id.get_ref());
            if let Some(Part::Tank(i)) = tank {
                self.value(input, Key { path: input.path, at: [at[0], i] }, value);
            } else {
                let tanks = self.draft.setup.boat.tanks.iter().filter_map(|tank| tank.id.as_deref());
                let near = nearest(id.get_ref(), tanks).map(str::to_string);
                let found = id.get_ref().escape_debug().to_string();
                let span = self.span(id.span());
                self.draft.blame(Fault::UnknownId { what: "a tank", found, near }, Some(span));
            }
        }
    }

    fn wrong_type(
        &mut self,
        expected: &'static str,
        found: &DeValue<'_>,
        at: &Spanned<DeValue<'_>>,
        instead: impl Into<String>,
    ) {
        let found = type_name(found);
        let span = self.span(at.span());
        self.draft.blame(Fault::WrongType { expected, found, instead: Some(instead.into()) }, Some(span));
    }

    /// One value for one key.
    fn value(&mut self, input: &Input, key: Key, value: &Spanned<DeValue<'_>>) {
        let whole = self.span(value.span());
        self.draft.seen.insert(key);
        let before = self.draft.problems.len();
        match (input.kind(), value.get_ref()) {
            (Some(kind), DeValue::String(text)) => match quantity(input, kind, text) {
                Ok((value, bound)) => {
                    input.slot(&mut self.draft.setup, key.at).put(Some(value));
                    self.draft.take_bound(key, bound.unwrap_or(0.0));
                }
                Err((fault, at)) => {
                    let inside = InText::new(self.text, &whole, text);
                    let at = at.map_or_else(|| whole.clone(), |at| inside.span(at));
                    self.draft.blame(fault, Some(at));
                }
            },
            (Some(kind), DeValue::Integer(number)) => self.bare_number(kind, number.as_str(), whole.clone()),
            (Some(kind), DeValue::Float(number)) => self.bare_number(kind, number.as_str(), whole.clone()),
            (Some(kind), other) => {
                self.wrong_type(kind.name(), other, value, format!("write for example {}", kind.example()));
            }
            (None, _) => self.other_value(input, key, value, &whole),
        }
        if self.draft.problems.len() == before {
            self.draft.places.insert(key, whole);
        }
    }

    fn bare_number(&mut self, kind: Kind, number: &str, at: Span) {
        self.draft.blame(Fault::BareNumber { kind, found: number.to_string() }, Some(at));
    }

    /// A value that is no quantity.
    fn other_value(&mut self, input: &Input, key: Key, value: &Spanned<DeValue<'_>>, whole: &Span) {
        let bare = self.text.get(value.span()).unwrap_or_default();
        let in_brackets = format!("write it in brackets, each in quotes: [\"{}\"]", bare.trim_matches('"'));
        let (expected, instead) = match (input.slot(&mut self.draft.setup, key.at), value.get_ref()) {
            (Slot::Text(_) | Slot::Id(_) | Slot::Choice(_), DeValue::String(text)) => {
                return self.draft.word(input, key, text, whole);
            }
            (Slot::Flag(slot), DeValue::Boolean(flag)) => {
                *slot = Some(*flag);
                return;
            }
            (Slot::Count(slot), DeValue::Integer(number)) => {
                let (what, found) = ("a whole number", number.as_str().to_string());
                match u32::from_str_radix(number.as_str(), number.radix()) {
                    Ok(count) => *slot = Some(count),
                    Err(_) if found.starts_with('-') => {
                        self.draft.blame(Fault::Negative { what, found }, Some(whole.clone()));
                    }
                    Err(_) => {
                        let fault = Fault::TooLarge { what, most: u32::MAX.to_string(), found };
                        self.draft.blame(fault, Some(whole.clone()));
                    }
                }
                return;
            }
            (Slot::Factor(_), DeValue::Float(number)) => {
                return self.draft.word(input, key, number.as_str(), whole);
            }
            (Slot::Factor(_), DeValue::Integer(number)) => {
                return self.draft.word(input, key, number.as_str(), whole);
            }
            (Slot::Reach(_), DeValue::Array(ends)) if ends.len() == 2 => {
                return self.reach(input, key, [&ends[0], &ends[1]]);
            }
            (Slot::Checks(_), DeValue::Array(_)) => return self.checks(input, key, value),
            (Slot::Parts(_), DeValue::Array(_)) => return self.parts(input, key, value),
            (Slot::Text(_) | Slot::Id(_), DeValue::Table(_) | DeValue::Array(_)) => {
                ("text", "write one text in quotes".to_string())
            }
            (Slot::Text(_) | Slot::Id(_), _) => ("text", format!("write it in quotes: \"{bare}\"")),
            (Slot::Choice(slot), other) => {
                let fault = Fault::Choice { words: slot.words(), found: type_name(other).to_string() };
                return self.draft.blame(fault, Some(whole.clone()));
            }
            (Slot::Flag(_), _) => ("true or false", "write true or false, without quotes".to_string()),
            (Slot::Count(_), _) => ("a whole number", "write it in digits, without quotes".to_string()),
            (Slot::Factor(_), _) => ("a plain number", "write it in digits, without quotes".to_string()),
            (Slot::Reach(_), DeValue::Array(_)) => {
                let expected = "two lengths, [\"…\", \"…\"]";
                let instead = Some(ENDS_INSTEAD.to_string());
                let fault = Fault::WrongType { expected, found: "a list of another length", instead };
                return self.draft.blame(fault, Some(whole.clone()));
            }
            (Slot::Reach(_), _) => ("two lengths, [\"…\", \"…\"]", ENDS_INSTEAD.to_string()),
            (Slot::Checks(_), _) => ("a list of check ids", in_brackets),
            _ => ("a list of ids", in_brackets),
        };
        self.wrong_type(expected, value.get_ref(), value, instead);
    }

    fn reach(&mut self, input: &Input, key: Key, ends: [&Spanned<DeValue<'_>>; 2]) {
        let mut read = [None, None];
        for (end, slot) in ends.into_iter().zip(&mut read) {
            let span = self.span(end.span());
            match end.get_ref() {
                DeValue::String(text) => match quantity(input, Kind::Length, text) {
                    Ok((value, None)) => *slot = Some(Length::from_si(value)),
                    Ok((_, Some(_))) => self.draft.blame(Fault::TravelWithBound, Some(span)),
                    Err((fault, at)) => {
                        let inside = InText::new(self.text, &span, text);
                        let at = at.map_or_else(|| span.clone(), |at| inside.span(at));
                        self.draft.blame(fault, Some(at));
                    }
                },
                DeValue::Integer(number) => self.bare_number(Kind::Length, number.as_str(), span),
                DeValue::Float(number) => self.bare_number(Kind::Length, number.as_str(), span),
                other => self.wrong_type("a length", other, end, ENDS_INSTEAD),
            }
        }
        if let ([Some(from), Some(to)], Slot::Reach(slot)) = (read, input.slot(&mut self.draft.setup, key.at))
        {
            *slot = Some(Reach { from, to });
        }
    }

    /// The texts of a list, with their places.
    fn texts(&mut self, value: &Spanned<DeValue<'_>>) -> Vec<(String, Span)> {
        let DeValue::Array(elements) = value.get_ref() else { return Vec::new() };
        let mut texts = Vec::new();
        for element in elements {
            match element.get_ref() {
                DeValue::String(text) => texts.push((text.to_string(), self.span(element.span()))),
                other => self.wrong_type("text", other, element, "write each in quotes"),
            }
        }
        texts
    }

    fn checks(&mut self, input: &Input, key: Key, value: &Spanned<DeValue<'_>>) {
        let mut patterns = Vec::new();
        for (pattern, span) in self.texts(value) {
            let stem = pattern.strip_suffix('*').unwrap_or(&pattern);
            if pattern.is_empty() || !stem.chars().all(|c| c.is_ascii_alphanumeric() || c == '-') {
                let fault = Fault::BadCheckPattern(pattern.escape_debug().to_string());
                self.draft.blame(fault, Some(span));
            } else {
                patterns.push(pattern);
            }
        }
        if let Slot::Checks(slot) = input.slot(&mut self.draft.setup, key.at) {
            *slot = patterns;
        }
    }

    fn parts(&mut self, input: &Input, key: Key, value: &Spanned<DeValue<'_>>) {
        let mut parts = Vec::new();
        for (id, span) in self.texts(value) {
            let boat = &self.draft.setup.boat;
            if let Some(part) = self.draft.setup.part(&id) {
                parts.push(part);
            } else {
                let weights = boat.weights.iter().filter_map(|weight| weight.id.as_deref());
                let tanks = boat.tanks.iter().filter_map(|tank| tank.id.as_deref());
                let near = nearest(&id, tanks.chain(weights)).map(str::to_string);
                let found = id.escape_debug().to_string();
                self.draft.blame(Fault::UnknownId { what: "a weight or a tank", found, near }, Some(span));
            }
        }
        if let Slot::Parts(slot) = input.slot(&mut self.draft.setup, key.at) {
            *slot = parts;
        }
    }
}

/// How the ends of a travel are written.
const ENDS_INSTEAD: &str = "write both ends, the forward one first: [\"-4 in\", \"8 in\"]";

/// A table's path as a heading writes it, without the elements of lists.
fn heading(path: &str) -> String {
    path.replace(".*", "")
}

/// What to write in place of one value for a table.
fn keys_instead(path: &str) -> String {
    let table = path.rsplit('.').next().unwrap_or(path);
    let keys = children(path);
    let first = keys.first().copied().unwrap_or_default();
    format!("write its keys, each on a line, such as {table}.{first} = …; keys that fit: {}", keys.join(", "))
}

/// How the elements of a list of tables are written.
fn brackets_instead(list: &List) -> String {
    format!("write it in double brackets, once for each: [[{}]]", heading(list.path))
}

/// Whether a key has words to choose from, and this value is none of them.
fn says_no_word(input: &Input, found: &DeValue<'_>) -> bool {
    let words = input.words();
    !words.is_empty() && !found.as_str().is_some_and(|word| words.contains(&word))
}

/// Whether a text begins with the quotes of a word processor.
fn is_curly(text: &str, span: &Span) -> bool {
    text.get(span.range.clone()).is_some_and(|text| text.starts_with(['“', '”', '„', '‘', '’']))
}

/// What kind of TOML value this is, in the owner's words.
pub(super) fn type_name(value: &DeValue<'_>) -> &'static str {
    match value {
        DeValue::String(_) => "text",
        DeValue::Integer(_) => "a whole number",
        DeValue::Float(_) => "a number",
        DeValue::Boolean(_) => "true or false",
        DeValue::Datetime(_) => "a date",
        DeValue::Array(_) => "a list",
        DeValue::Table(_) => "a table",
    }
}

/// Where the decoded text of a TOML string stands in its source.
struct InText<'a> {
    whole: &'a Span,
    /// Source offset of each byte of the decoded text, and of its end, where they can be found.
    offsets: Option<Vec<usize>>,
}

impl<'a> InText<'a> {
    fn new(source: &str, whole: &'a Span, decoded: &str) -> Self {
        Self { whole, offsets: offsets(source.get(whole.range.clone()), whole.range.start, decoded) }
    }

    fn span(&self, range: Range<usize>) -> Span {
        let exact = self.offsets.as_ref().and_then(|offsets| {
            let (start, end) = (*offsets.get(range.start)?, *offsets.get(range.end)?);
            Some(start..end.max(start))
        });
        match exact {
            Some(range) if !range.is_empty() => Span { source: self.whole.source, range },
            _ => self.whole.clone(),
        }
    }
}

/// Follows a one-line TOML string and its decoded text side by side.
fn offsets(raw: Option<&str>, start: usize, decoded: &str) -> Option<Vec<usize>> {
    let raw = raw?;
    let quote = raw.chars().next().filter(|c| matches!(c, '"' | '\''))?;
    let inner = raw.strip_prefix(quote)?.strip_suffix(quote)?;
    let mut offsets = Vec::with_capacity(decoded.len() + 1);
    let mut at = 0;
    for c in decoded.chars() {
        let rest = inner.get(at..)?;
        let length = if quote == '"' && rest.starts_with('\\') {
            match rest.as_bytes().get(1)? {
                b'x' => 4,
                b'u' => 6,
                b'U' => 10,
                _ => 2,
            }
        } else if rest.starts_with(c) {
            c.len_utf8()
        } else {
            // A string over several lines, whose first newline or indent is dropped.
            return None;
        };
        offsets.extend(std::iter::repeat_n(start + 1 + at, c.len_utf8()));
        at += length;
    }
    offsets.push(start + 1 + at);
    Some(offsets)
}
