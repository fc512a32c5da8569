//! Quantities as written, and maps that keep the file's order.

use std::borrow::Cow;
use std::fmt;
use std::marker::PhantomData;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::de::{Deserialize, Deserializer, MapAccess, Visitor};
use units::{Length, LengthUnit, ReadError};

/// A length as on the tape, or a number in the job's unit.
#[derive(Debug, Clone, serde::Deserialize)]
#[serde(untagged)]
pub(crate) enum Size {
    /// "23 5/16", "4' 7-1/2\"", "589 mm".
    Text(String),
    /// In the job's unit.
    Number(serde_json::Number),
}

/// An angle in degrees.
#[derive(Debug, Clone, serde::Deserialize)]
#[serde(transparent)]
pub(crate) struct Degrees(pub(crate) Size);

/// A sum of money.
#[derive(Debug, Clone, serde::Deserialize)]
#[serde(transparent)]
pub(crate) struct Price(pub(crate) Size);

/// Percent as written: 25, 8.25 or "8.875 %".
#[derive(Debug, Clone, serde::Deserialize)]
#[serde(transparent)]
pub(crate) struct Percentage(pub(crate) Size);

/// Minutes as written.
#[derive(Debug, Clone, serde::Deserialize)]
#[serde(transparent)]
pub(crate) struct MinutesFile(pub(crate) serde_json::Number);

impl Size {
    /// What it is called in the schema and in messages.
    pub(crate) const TITLE: &str = "a length";

    /// The length; a bare number counts in `unit`.
    pub(crate) fn read(&self, unit: LengthUnit) -> Result<Length, ReadError> {
        match self {
            Self::Text(text) => Length::read(text, unit),
            Self::Number(number) => {
                number.as_f64().ok_or(ReadError::NotFinite).and_then(|n| Length::try_from_number(n, unit))
            }
        }
    }
}

impl Degrees {
    /// What it is called in the schema and in messages.
    pub(crate) const TITLE: &str = "an angle in degrees";
}

impl Price {
    /// What it is called in the schema and in messages.
    pub(crate) const TITLE: &str = "a price";
}

impl Percentage {
    /// What it is called in the schema and in messages.
    pub(crate) const TITLE: &str = "a percentage";
}

impl fmt::Display for Size {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Text(text) if text.trim().is_empty() => write!(f, "\"{text}\""),
            Self::Text(text) => f.write_str(text),
            Self::Number(number) => write!(f, "{number}"),
        }
    }
}

/// The schema of something written as text or as a number.
fn text_or_number(title: &str, description: &str) -> Schema {
    json_schema!({ "type": ["string", "number"], "title": title, "description": description })
}

impl JsonSchema for Size {
    fn schema_name() -> Cow<'static, str> {
        "Length".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        let description = "As on the tape: \"23 5/16\", \"23-5/16\\\"\", \"4' 7-1/2\\\"\", \"589 mm\"; or a number in the job's unit.";
        text_or_number(Self::TITLE, description)
    }
}

impl JsonSchema for Degrees {
    fn schema_name() -> Cow<'static, str> {
        "Degrees".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        text_or_number(Self::TITLE, "Degrees: 90, \"22.5\" or \"22.5°\".")
    }
}

impl JsonSchema for Price {
    fn schema_name() -> Cow<'static, str> {
        "Price".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        text_or_number(Self::TITLE, "A price: 210, 210.5 or \"$210.50\".")
    }
}

impl JsonSchema for Percentage {
    fn schema_name() -> Cow<'static, str> {
        "Percent".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        text_or_number(Self::TITLE, "Percent, to a thousandth: 25, 8.25 or \"8.875 %\".")
    }
}

impl JsonSchema for MinutesFile {
    fn schema_name() -> Cow<'static, str> {
        "Minutes".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({ "type": "number", "description": "Minutes: 12 or 2.5." })
    }
}

/// The longest name of a metal, an opening or a clearance.
const LONGEST_NAME: usize = 40;

/// Named entries in the file's order.
#[derive(Debug, Clone)]
pub(crate) struct Named<T>(pub(crate) Vec<(String, T)>);

impl<T> Default for Named<T> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Named<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_map(Entries(PhantomData))
    }
}

struct Entries<T>(PhantomData<T>);

impl<'de, T: Deserialize<'de>> Visitor<'de> for Entries<T> {
    type Value = Named<T>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("names with values")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Self::Value, A::Error> {
        let mut entries = Vec::new();
        while let Some(entry) = map.next_entry()? {
            entries.push(entry);
        }
        Ok(Named(entries))
    }
}

impl<T: JsonSchema> JsonSchema for Named<T> {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        format!("Named_{}", T::schema_name()).into()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let entry = generator.subschema_for::<T>();
        json_schema!({
            "type": "object",
            "propertyNames": { "minLength": 1, "maxLength": LONGEST_NAME },
            "additionalProperties": entry
        })
    }
}
