//! The schema of the job file, made from its structs. The reader goes by the same schema.

use std::sync::LazyLock;

use serde_json::{Map, Value, json};

use crate::file::{JobFile, StripLine};

/// The fields that hold notes, at every level.
pub(crate) const NOTES: [&str; 2] = ["note", "notes"];

/// The longest text of one note, characters.
const LONGEST_NOTE: usize = 400;

/// The schema, as the reader and [`schema`] use it.
pub(crate) static SCHEMA: LazyLock<Value> = LazyLock::new(|| {
    let mut schema = schemars::schema_for!(JobFile).to_value();
    without_null(&mut schema);
    with_notes(&mut schema);
    if let Some(definitions) = schema.get_mut("$defs").and_then(Value::as_object_mut) {
        definitions.insert("Note".to_owned(), note());
    }
    schema
});

/// JSON Schema (draft 2020-12) of the job file.
#[must_use]
pub fn schema() -> String {
    // A schema holds only plain values with text for keys, which always print.
    let mut text = serde_json::to_string_pretty(&*SCHEMA).unwrap_or_default();
    text.push('\n');
    text
}

/// JSON Schema of one line of the shop's log of test strips.
#[must_use]
pub fn strip_line_schema() -> String {
    let mut text = serde_json::to_string_pretty(&schemars::schema_for!(StripLine)).unwrap_or_default();
    text.push('\n');
    text
}

fn note() -> Value {
    let text = json!({ "type": "string", "maxLength": LONGEST_NOTE });
    json!({
        "title": "a note",
        "description": "A note to the reader: one text, or a list of them.",
        "anyOf": [text, { "type": "array", "items": text }]
    })
}

/// A field that is not wanted is left out, never written as `null`.
fn without_null(schema: &mut Value) {
    let Value::Object(fields) = schema else {
        if let Value::Array(entries) = schema {
            entries.iter_mut().for_each(without_null);
        }
        return;
    };
    fields.values_mut().for_each(without_null);
    if fields.get("default").is_some_and(Value::is_null) {
        fields.shift_remove("default");
    }
    if let Some(Value::Array(kinds)) = fields.get_mut("type") {
        kinds.retain(|kind| kind != "null");
        if let [only] = kinds.as_slice() {
            let only = only.clone();
            fields.insert("type".to_owned(), only);
        }
    }
    let Some(Value::Array(choices)) = fields.get_mut("anyOf") else { return };
    let before = choices.len();
    choices.retain(|choice| choice.get("type").is_none_or(|kind| kind != "null"));
    if let ([Value::Object(only)], true) = (choices.as_slice(), choices.len() < before) {
        let only = only.clone();
        fields.shift_remove("anyOf");
        fields.extend(only);
    }
}

/// Lets every group of fields take notes.
fn with_notes(schema: &mut Value) {
    match schema {
        Value::Object(fields) => {
            if fields.get("type").is_some_and(|kind| kind == "object") {
                let own = fields.entry("properties").or_insert_with(|| Value::Object(Map::new()));
                if let Value::Object(own) = own {
                    for name in NOTES {
                        own.insert(name.to_owned(), json!({ "$ref": "#/$defs/Note" }));
                    }
                }
            }
            fields.values_mut().for_each(with_notes);
        }
        Value::Array(entries) => entries.iter_mut().for_each(with_notes),
        _ => {}
    }
}
