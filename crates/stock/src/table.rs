//! Reading the tables that are built into the program.

use serde::Deserialize;
use serde::de::DeserializeOwned;
use std::fmt::Debug;
use units::{Length, LengthUnit, ReadError};

/// A data file: what it holds, how to read it, and its rows.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Table<Row> {
    #[serde(rename = "table")]
    _title: String,
    #[serde(rename = "note")]
    _note: String,
    rows: Vec<Row>,
}

/// Parses a data file of this crate and turns each row into its model.
#[expect(clippy::expect_used, reason = "the files are part of the program, and tests read every row of them")]
pub(crate) fn load<Row: DeserializeOwned, Item, Fault: Debug>(
    text: &str,
    convert: impl Fn(Row) -> Result<Item, Fault>,
) -> Vec<Item> {
    let table: Table<Row> = serde_json::from_str(text).expect("the data file is a table of these rows");
    table.rows.into_iter().map(|row| convert(row).expect("the row's figures can be read")).collect()
}

/// Reads a length of a data file, which always has its unit.
pub(crate) fn length(text: &str) -> Result<Length, ReadError> {
    if !text.ends_with(char::is_alphabetic) {
        return Err(ReadError::UnitMissing { known: "in, mm" });
    }
    Length::read(text, LengthUnit::Inch)
}
