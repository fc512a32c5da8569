//! What a schema says of one value: its kinds, its words, and both as a shop reads them.

use serde_json::Value;

use crate::file::{Degrees, Percentage, Price, Size};
use crate::schema::SCHEMA;

/// The schema itself, where `schema` only refers to one.
pub(crate) fn resolved(schema: &Value) -> &Value {
    let name = schema.get("$ref").and_then(Value::as_str).and_then(|name| name.strip_prefix("#/$defs/"));
    let found = name.and_then(|name| SCHEMA.get("$defs")?.get(name));
    found.map_or(schema, resolved)
}

/// What may stand for a schema: itself, or each of its alternatives, and theirs.
pub(crate) fn alternatives(schema: &Value) -> Vec<&Value> {
    let schema = resolved(schema);
    match schema.get("anyOf").and_then(Value::as_array) {
        Some(choices) => choices.iter().flat_map(alternatives).collect(),
        None => vec![schema],
    }
}

/// The words that may stand where only words may.
pub(super) fn words(schema: &Value) -> Option<Vec<&str>> {
    if let Some(word) = schema.get("const") {
        return Some(word.as_str().into_iter().collect());
    }
    if let Some(words) = schema.get("enum").and_then(Value::as_array) {
        return Some(words.iter().filter_map(Value::as_str).collect());
    }
    let choices = schema.get("oneOf")?.as_array()?;
    Some(choices.iter().filter_map(words).flatten().collect())
}

/// The field whose word tells groups of fields apart.
pub(super) fn word_field(choices: &[&Value]) -> Option<&'static str> {
    let all_have = |name: &&str| choices.iter().all(|choice| word_of(choice, name).is_some());
    ["shape", "fit"].into_iter().find(all_have)
}

/// The one word that a field must have.
pub(crate) fn word_of<'a>(choice: &'a Value, field: &str) -> Option<&'a str> {
    words(resolved(choice.get("properties")?.get(field)?))?.first().copied()
}

pub(super) fn has_field(choice: &Value, name: &str) -> bool {
    choice.get("properties").is_some_and(|known| known.get(name).is_some())
}

/// The kinds of value that the schema takes.
pub(super) fn kinds(schema: &Value) -> Vec<&str> {
    match schema.get("type") {
        Some(Value::String(kind)) => vec![kind],
        Some(Value::Array(kinds)) => kinds.iter().filter_map(Value::as_str).collect(),
        _ => Vec::new(),
    }
}

pub(super) fn fits_kind(schema: &Value, value: &Value) -> bool {
    if let Some(choices) = schema.get("anyOf").and_then(Value::as_array) {
        return choices.iter().any(|choice| fits_kind(resolved(choice), value));
    }
    let fits = |kind: &str| match kind {
        "string" => value.is_string(),
        "number" => value.is_number(),
        "integer" => value.is_u64() || value.is_i64(),
        "boolean" => value.is_boolean(),
        "array" => value.is_array(),
        "object" => value.is_object(),
        _ => false,
    };
    let kinds = kinds(schema);
    kinds.is_empty() || kinds.into_iter().any(fits)
}

/// Whether the schema leaves open what stands there.
pub(super) fn takes_anything(schema: &Value) -> bool {
    ["type", "anyOf", "oneOf", "enum", "const"].iter().all(|name| schema.get(name).is_none())
}

/// A quantity that may be written in several ways.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::reading) enum Quantity {
    /// A length.
    Length,
    /// An angle.
    Angle,
    /// A sum of money.
    Price,
    /// Percent.
    Percentage,
}

/// The quantity that the schema is of.
pub(super) fn quantity_of(schema: &Value) -> Option<Quantity> {
    match schema.get("title")?.as_str()? {
        Size::TITLE => Some(Quantity::Length),
        Degrees::TITLE => Some(Quantity::Angle),
        Price::TITLE => Some(Quantity::Price),
        Percentage::TITLE => Some(Quantity::Percentage),
        _ => None,
    }
}

/// Line ends, tabs and other characters that no drawing or list can show.
pub(super) fn is_unprintable(c: char) -> bool {
    c.is_control() || matches!(c, '\u{fffe}' | '\u{ffff}')
}

/// What the schema takes, in words.
pub(super) fn kind_words(schema: &Value) -> String {
    if let Some(title) = schema.get("title").and_then(Value::as_str) {
        return title.to_owned();
    }
    let word = |kind: &str| match kind {
        "string" => "a text in quotes",
        "number" => "a number",
        "integer" => "a whole number",
        "boolean" => "true or false",
        "array" => "a list in [ ]",
        _ => "a group of fields in { }",
    };
    kinds(schema).into_iter().map(word).collect::<Vec<_>>().join(" or ")
}

/// What to write in a field: the first sentence of its description.
pub(super) fn remedy_of(schema: &Value) -> String {
    let described = schema.get("description").or_else(|| resolved(schema).get("description"));
    let Some(text) = described.and_then(Value::as_str) else { return "see the schema".to_owned() };
    let first = text.split(". ").next().unwrap_or_default().trim_end_matches('.').replace('\n', " ");
    let mut letters = first.chars();
    match (letters.next(), letters.next()) {
        (Some(capital), Some(next)) if next.is_lowercase() || next == ' ' => {
            format!("give {}{}", capital.to_lowercase(), &first[capital.len_utf8()..])
        }
        _ => format!("give {first}"),
    }
}

/// A value as it was written, near enough.
pub(super) fn printed(value: &Value) -> String {
    match value {
        Value::String(text) if !text.trim().is_empty() => text.clone(),
        other => other.to_string(),
    }
}
