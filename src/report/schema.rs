//! The form of a rig file as a JSON Schema, from the table of inputs: with it an editor completes keys, says what they are
//! and marks what cannot be. The form is draft-07, which editors know best.
//!
//! It knows no rule between two values, no unit and no id: what passes it may still be refused when it is read.

use super::explain;
use crate::rig::inputs::{CASES_FILL, FORMAT, Holds, INCLUDE, Input, Preset};
use crate::rig::{MOST_INCLUDED, Sign};
use serde_json::{Map, Value, json};

/// What stands at a path.
#[derive(Default)]
struct Node {
    /// The row of a value.
    input: Option<&'static Input>,
    /// The keys of a table; `*` for the elements of a list. Where there is a row as well, either may stand.
    children: Vec<(&'static str, Node)>,
}

impl Node {
    fn child(&mut self, name: &'static str) -> &mut Self {
        let at = self.children.iter().position(|(other, _)| *other == name).unwrap_or_else(|| {
            self.children.push((name, Self::default()));
            self.children.len() - 1
        });
        &mut self.children[at].1
    }
}

/// The schema of a rig file with these keys, and of a file that one includes.
///
/// # Errors
/// Never but for a fault of the writer.
pub fn schema(inputs: &[&'static Input]) -> serde_json::Result<String> {
    let mut root = Node::default();
    for input in inputs {
        let node = input.path.split('.').fold(&mut root, |node, name| node.child(name));
        node.input = Some(input);
    }
    let mut schema = table(&root);
    schema["$schema"] = json!("http://json-schema.org/draft-07/schema#");
    schema["title"] = json!("Rig file");
    schema["properties"][INCLUDE] = json!({
        "description": "Other files whose keys belong to this rig, by their paths from the folder of this file.",
        "type": "array",
        "items": { "type": "string", "minLength": 1, "pattern": "^[^/]" },
        "maxItems": MOST_INCLUDED,
        "uniqueItems": true,
    });
    serde_json::to_string_pretty(&schema)
}

fn anything_at(node: &Node) -> Value {
    let value = node.input.map(value);
    let inside = match node.children.as_slice() {
        [] => None,
        [("*", element)] => Some(elements(element)),
        _ => Some(table(node)),
    };
    match (value, inside) {
        (Some(value), Some(inside)) => {
            json!({ "description": value["description"], "anyOf": [value, inside] })
        }
        (value, inside) => value.or(inside).unwrap_or_default(),
    }
}

fn table(node: &Node) -> Value {
    let keys = node.children.iter().map(|(name, node)| ((*name).to_string(), anything_at(node)));
    json!({ "type": "object", "properties": keys.collect::<Map<_, _>>(), "additionalProperties": false })
}

fn elements(element: &Node) -> Value {
    let schema = anything_at(element);
    // These go by the ids of tanks.
    if element.input.is_some_and(|input| input.path == CASES_FILL.path()) {
        return json!({ "type": "object", "additionalProperties": schema });
    }
    json!({ "type": "array", "items": schema })
}

fn value(input: &Input) -> Value {
    let mut schema = match input.holds {
        Holds::Quantity(_) => quantity(input.sign),
        Holds::Text => json!({ "type": "string", "pattern": NO_CONTROL }),
        Holds::Id => json!({ "type": "string", "pattern": ID, "not": { "const": "all" } }),
        Holds::Flag => json!({ "type": "boolean" }),
        Holds::Count if input.path == FORMAT.path() => json!({ "const": 1 }),
        Holds::Count => json!({ "type": "integer", "minimum": 0, "maximum": u32::MAX }),
        Holds::Factor => json!({ "type": "number", "exclusiveMinimum": 0 }),
        Holds::Choice => json!({ "type": "string", "enum": input.words() }),
        Holds::Reach => {
            json!({ "type": "array", "items": quantity(input.sign), "minItems": 2, "maxItems": 2 })
        }
        Holds::Checks => json!({ "type": "array", "items": { "type": "string", "pattern": CHECKS } }),
        Holds::Parts => json!({ "type": "array", "items": { "type": "string" } }),
    };
    schema["description"] = json!(description(input));
    match input.default.map(|default| default.preset) {
        Some(Preset::Word(word)) => schema["default"] = json!(word),
        Some(Preset::Count(count)) => schema["default"] = json!(count),
        _ => {}
    }
    schema
}

/// What `explain` says of a key, without the checks that use it.
fn description(input: &Input) -> String {
    let facts = explain::facts(input).into_iter();
    let lines = facts.map(|(label, text)| if label == "Is" { text } else { format!("{label}: {text}") });
    lines.collect::<Vec<_>>().join("\n")
}

const NO_CONTROL: &str = r"^[^\u0000-\u001f\u007f-\u009f]*$";
/// Letters of any language, digits, - and _: no space and no other mark that a keyboard has.
const ID: &str = r"^[^\s!-,./:-@\[-^`{-~]+$";
const CHECKS: &str = r"^([A-Za-z0-9-]+\*?|\*)$";

/// A text that may state a quantity: a number without a comma, then a unit of its own or of its ±. Which units fit stands in
/// the description: they may be spelt in several ways.
fn quantity(sign: Sign) -> Value {
    let sign = if sign == Sign::Any { "[+-]?" } else { r"\+?" };
    let number = r"[0-9.¼-¾⅐-⅞][0-9./ ¼-¾⅐-⅞-]*";
    let unit = "[A-Za-z%#°'\"′″‘’“”]";
    let pattern = format!(r"^\s*{sign}\s*{number}\s*((±|\+/-)\s*{number}\s*)?{unit}[^,]*$");
    json!({ "type": "string", "pattern": pattern })
}
