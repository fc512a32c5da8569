//! Notes: read at every level, kept for the job, its sheets, its parts and its fit checks, and out of the way of everything else.

use serde_json::Value;

use crate::schema::NOTES;

/// The notes that are kept.
#[derive(Debug, Default)]
pub(crate) struct Notes {
    /// Of the job as a whole.
    pub(crate) job: Vec<String>,
    /// Of each sheet size, in the file's order.
    pub(crate) sheets: Vec<Vec<String>>,
    /// Of each part, in the file's order.
    pub(crate) parts: Vec<Vec<String>>,
    /// Of each fit check, in the file's order.
    pub(crate) fits: Vec<Vec<String>>,
}

/// Takes all notes out of the tree and keeps those of the job, its sheets, its parts and its fit checks.
pub(super) fn take(tree: &mut Value) -> Notes {
    let each = |list: &str| -> Vec<Vec<String>> {
        let entries = tree.get(list).and_then(Value::as_array).map(Vec::as_slice).unwrap_or_default();
        entries.iter().map(of).collect()
    };
    let notes = Notes { job: of(tree), sheets: each("sheets"), parts: each("parts"), fits: each("fits") };
    strip(tree);
    notes
}

fn of(fields: &Value) -> Vec<String> {
    let texts = NOTES.iter().filter_map(|name| fields.get(name)).flat_map(|note| match note {
        Value::Array(entries) => entries.iter().collect::<Vec<_>>(),
        one => vec![one],
    });
    texts.filter_map(Value::as_str).map(str::to_owned).collect()
}

fn strip(tree: &mut Value) {
    match tree {
        Value::Object(fields) => {
            for name in NOTES {
                fields.shift_remove(name);
            }
            fields.values_mut().for_each(strip);
        }
        Value::Array(entries) => entries.iter_mut().for_each(strip),
        _ => {}
    }
}
