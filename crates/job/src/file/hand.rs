//! The opposite hand of a part: its mark alone, or its mark and what differs.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::Deserialize;
use serde_json::{Map, Value};

/// The mark of the opposite hand, or that mark with what is edited.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(untagged)]
pub(crate) enum HandFile {
    /// An exact mirror image.
    Mark(String),
    /// A mirror image of this part with some fields replaced.
    Edited(EditedHandFile),
}

/// An opposite hand that is not an exact mirror image.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct EditedHandFile {
    /// Mark of the opposite hand, as many of it.
    pub(crate) mark: String,
    /// Fields that differ, written as if they were this part's own; the whole is mirrored afterwards.
    #[expect(dead_code, reason = "the edited part is made up before the structs are read")]
    pub(crate) edit: EditFile,
}

/// Any fields of the part but its mark, its shape and its opposite hand.
#[derive(Debug, Deserialize)]
#[serde(transparent)]
pub(crate) struct EditFile {
    #[expect(dead_code, reason = "only its place in the schema matters")]
    fields: Map<String, Value>,
}

impl HandFile {
    /// Mark of the opposite hand.
    pub(crate) fn mark(&self) -> &str {
        match self {
            Self::Mark(mark) | Self::Edited(EditedHandFile { mark, .. }) => mark,
        }
    }
}

impl JsonSchema for EditFile {
    fn schema_name() -> Cow<'static, str> {
        "Edit".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "type": "object",
            "minProperties": 1,
            "additionalProperties": { "description": "What stands in this field of the opposite hand instead." }
        })
    }
}
