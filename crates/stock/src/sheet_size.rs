//! Sheet sizes in stock.

use crate::table;
use serde::Deserialize;
use std::sync::LazyLock;
use units::{Length, ReadError};

static SHEET_SIZES: LazyLock<Vec<SheetSize>> =
    LazyLock::new(|| table::load(include_str!("../data/sheet_sizes.json"), SheetSize::from_row));

/// A nominal sheet size. A sheared sheet may measure an eighth of an inch less.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct SheetSize {
    /// The short side.
    pub width: Length,
    /// The long side, along the mill's rolling direction.
    pub length: Length,
    /// Where the row comes from and how it was got.
    pub source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    width: String,
    length: String,
    source: String,
}

/// Every sheet size in the table.
#[must_use]
pub fn sheet_sizes() -> &'static [SheetSize] {
    &SHEET_SIZES
}

impl SheetSize {
    fn from_row(row: Row) -> Result<Self, ReadError> {
        Ok(Self {
            width: table::length(&row.width)?,
            length: table::length(&row.length)?,
            source: row.source,
        })
    }
}
