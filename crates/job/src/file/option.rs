//! Other ways of making the job, which are priced beside it.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::Deserialize;
use serde_json::{Map, Value};

use super::PartFile;

/// Another way of making the job: what stands in it instead, and everything else as the job says.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[expect(
    dead_code,
    reason = "options are taken from the tree before the structs are read; only the schema needs these"
)]
pub(crate) struct OptionFile {
    /// What it is called.
    #[schemars(length(min = 1, max = 40))]
    pub(crate) name: String,
    /// Fields that are replaced, written as in the job; parts are named by their marks, a list is replaced whole, and
    /// null takes a field out.
    pub(crate) instead: Option<InsteadFile>,
    /// Marks of parts that are left out.
    #[serde(default)]
    pub(crate) leave_out: Vec<String>,
    /// Parts that are made besides.
    #[serde(default)]
    pub(crate) add: Vec<Option<PartFile>>,
    /// True when it is sold as the kit of the job.
    #[serde(default)]
    pub(crate) as_kit: bool,
}

/// Any fields of the job but its name, its units and its options.
#[derive(Debug, Deserialize)]
#[serde(transparent)]
pub(crate) struct InsteadFile {
    #[expect(dead_code, reason = "only its place in the schema matters")]
    fields: Map<String, Value>,
}

impl JsonSchema for InsteadFile {
    fn schema_name() -> Cow<'static, str> {
        "Instead".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "type": "object",
            "minProperties": 1,
            "additionalProperties": { "description": "What stands in this field instead." }
        })
    }
}
