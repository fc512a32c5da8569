//! Standards that sheet is supplied to: what an order names.

use crate::alloy::Family;
use crate::metal::Pattern;
use crate::table;
use serde::Deserialize;
use std::convert::Infallible;
use std::sync::LazyLock;
use units::LengthUnit;

static STANDARDS: LazyLock<Vec<SupplyStandard>> = LazyLock::new(|| {
    table::load(include_str!("../data/supply_standards.json"), |row| {
        Ok::<_, Infallible>(SupplyStandard::from_row(row))
    })
});

/// The standards of one family of metals, plain or tread, as ordered by the inch or by the millimetre.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct SupplyStandard {
    /// What it bends like, and is bought as.
    pub family: Family,
    /// Plain or tread.
    pub pattern: Pattern,
    /// Which market.
    pub unit: LengthUnit,
    /// What the product is ordered to.
    pub product: String,
    /// Where thickness, size and flatness have their tolerances.
    pub tolerances: String,
    /// Where the row comes from and how it was got.
    pub source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    family: Family,
    pattern: PatternRow,
    system: SystemRow,
    product: String,
    tolerances: String,
    source: String,
}

#[derive(Deserialize)]
#[serde(rename_all = "snake_case")]
enum PatternRow {
    Plain,
    Tread,
}

#[derive(Deserialize)]
#[serde(rename_all = "snake_case")]
enum SystemRow {
    Inch,
    Mm,
}

/// Every row of the table.
#[must_use]
pub fn supply_standards() -> &'static [SupplyStandard] {
    &STANDARDS
}

/// The row for a metal; none where no standard is known, and the mill is to be asked.
#[must_use]
pub fn supply_standard(
    family: Family,
    pattern: Pattern,
    unit: LengthUnit,
) -> Option<&'static SupplyStandard> {
    STANDARDS.iter().find(|row| row.family == family && row.pattern == pattern && row.unit == unit)
}

impl SupplyStandard {
    /// Whether the names of the row, or what they cover, were recalled and not read: the supplier is then to be asked.
    #[must_use]
    pub fn is_from_memory(&self) -> bool {
        self.source.contains("from memory")
    }

    fn from_row(row: Row) -> Self {
        Self {
            family: row.family,
            pattern: match row.pattern {
                PatternRow::Plain => Pattern::Plain,
                PatternRow::Tread => Pattern::Tread,
            },
            unit: match row.system {
                SystemRow::Inch => LengthUnit::Inch,
                SystemRow::Mm => LengthUnit::Millimetre,
            },
            product: row.product,
            tolerances: row.tolerances,
            source: row.source,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_is_of_its_own_kind_and_names_its_source() {
        for row in supply_standards() {
            assert!(!row.source.is_empty() && !row.tolerances.is_empty());
            assert_eq!(supply_standard(row.family, row.pattern, row.unit), Some(row));
        }
        assert_eq!(supply_standard(Family::Unlisted, Pattern::Plain, LengthUnit::Inch), None);
    }
}
