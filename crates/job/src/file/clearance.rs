//! Clearances as written: one length, or items by name that add up.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::Deserialize;

use super::{Named, Size};

/// What must stay free on each side.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(untagged)]
pub(crate) enum ClearanceFile {
    /// One length.
    One(MultipleFile),
    /// Items by name, added up: gap, covering, hinge knuckle, weld bead, coating.
    Named(Named<MultipleFile>),
}

/// A length, or a count of it: "1/4", "2 x 1/8", "twice 1/8".
#[derive(Debug, Clone, Deserialize)]
#[serde(transparent)]
pub(crate) struct MultipleFile(pub(crate) Size);

impl JsonSchema for MultipleFile {
    fn schema_name() -> Cow<'static, str> {
        "Multiple".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "type": ["string", "number"],
            "title": "a length, or so many times a length",
            "description": "A length as on the tape, or a count of it: \"1/4\", \"2 x 1/8\", \"twice 1/8\"."
        })
    }
}
