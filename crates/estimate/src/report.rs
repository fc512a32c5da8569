//! The scrap report: per sheet, per metal and in all.

use crate::breakdown::{Amount, Breakdown};
use crate::error::EstimateError;
use crate::sheet::{PartOnSheet, SheetUse};
use units::{ApportionError, Area, Mass, Money, apportion};

/// What became of every sheet, bought or of the rack.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct ScrapReport {
    /// Every sheet, in the order given.
    pub sheets: Vec<SheetReport>,
    /// Sums by metal, in the order in which the metals first appear.
    pub metals: Vec<MetalTotal>,
    /// The sum of all sheets. Its money is none if any sheet has no price.
    pub total: Breakdown,
    /// How many sheets have no price.
    pub sheets_without_price: usize,
}

/// What became of one sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct SheetReport {
    /// The sheet's name.
    pub sheet: String,
    /// The metal's name.
    pub metal: String,
    /// Whether it is a piece of the rack.
    pub from_rack: bool,
    /// Its five lines.
    pub breakdown: Breakdown,
    /// Its parts; their amounts add up to the parts line exactly.
    pub parts: Vec<PartShare>,
}

/// The sum for one metal.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct MetalTotal {
    /// The metal's name.
    pub metal: String,
    /// How many sheets of it.
    pub sheets: usize,
    /// Their sum.
    pub breakdown: Breakdown,
}

/// The parts of one mark on one sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct PartShare {
    /// The part's mark.
    pub mark: String,
    /// How many.
    pub quantity: u32,
    /// Mass of one: area of its flat × mass per area of the metal, rounded to the microgram.
    pub each: Mass,
    /// All of them together: area, mass, and the price of just their metal.
    pub amount: Amount,
    /// What the sheet charges to them: its price less that of the kept drops, shared by the parts' areas, so that
    /// kerf, trim and scrap are paid for. None if the sheet has no price.
    pub charged: Option<Money>,
}

impl ScrapReport {
    /// Whole pieces of the rack in it, of one metal or of all.
    #[must_use]
    pub fn of_rack(&self, metal: Option<&str>) -> Amount {
        self.wholes(metal, true)
    }

    /// Whole sheets bought, of one metal or of all.
    #[must_use]
    pub fn bought(&self, metal: Option<&str>) -> Amount {
        self.wholes(metal, false)
    }

    fn wholes(&self, metal: Option<&str>, from_rack: bool) -> Amount {
        let of_metal = |sheet: &&SheetReport| metal.is_none_or(|metal| sheet.metal == metal);
        let sheets = self.sheets.iter().filter(of_metal).filter(|sheet| sheet.from_rack == from_rack);
        sheets.fold(Amount::ZERO, |sum, sheet| sum + sheet.breakdown.whole)
    }
}

/// Makes the report. In every sheet and sum, each column adds up exactly.
///
/// # Errors
/// [`EstimateError`] for the first sheet whose sum does not close.
pub fn scrap_report(sheets: &[SheetUse]) -> Result<ScrapReport, EstimateError> {
    let sheets_without_price = sheets.iter().filter(|sheet| sheet.price.is_none()).count();
    let sheets = sheets.iter().map(report_sheet).collect::<Result<Vec<_>, _>>()?;
    let total = sheets.iter().fold(Breakdown::ZERO, |sum, sheet| sum + sheet.breakdown);
    Ok(ScrapReport { metals: total_by_metal(&sheets), sheets, total, sheets_without_price })
}

fn total_by_metal(sheets: &[SheetReport]) -> Vec<MetalTotal> {
    let mut totals: Vec<MetalTotal> = Vec::new();
    for sheet in sheets {
        match totals.iter_mut().find(|total| total.metal == sheet.metal) {
            Some(total) => {
                total.sheets += 1;
                total.breakdown = total.breakdown + sheet.breakdown;
            }
            None => {
                let metal = sheet.metal.clone();
                totals.push(MetalTotal { metal, sheets: 1, breakdown: sheet.breakdown });
            }
        }
    }
    totals
}

fn report_sheet(sheet: &SheetUse) -> Result<SheetReport, EstimateError> {
    let areas = sheet.areas()?.lines;
    let name_fault = |fault| EstimateError::Shares { sheet: sheet.sheet.clone(), fault };
    let whole = Amount { area: sheet.area, mass: sheet.weight_per_area.over(sheet.area), money: sheet.price };
    let lines = split(whole, &areas).map_err(name_fault)?;
    let &[parts, kept_drops, kerf, edge_trim, scrap] = lines.as_slice() else {
        return Err(name_fault(ApportionError::NoWeight));
    };
    let breakdown = Breakdown { whole, parts, kept_drops, kerf, edge_trim, scrap };
    let parts = share_parts(sheet, &breakdown).map_err(name_fault)?;
    let (name, metal, from_rack) = (sheet.sheet.clone(), sheet.metal.clone(), sheet.from_rack);
    Ok(SheetReport { sheet: name, metal, from_rack, breakdown, parts })
}

/// Splits an amount by areas that add up to its own; mass and money go by largest remainders.
fn split(whole: Amount, areas: &[Area]) -> Result<Vec<Amount>, ApportionError> {
    let weights: Vec<i128> = areas.iter().map(|area| area.square_nanometres()).collect();
    let masses = share(whole.mass.micrograms(), &weights)?;
    let money = whole.money.map(|money| share(money.cents(), &weights)).transpose()?;
    let amount = |(index, (area, mass)): (usize, (&Area, &i64))| Amount {
        area: *area,
        mass: Mass::from_micrograms(*mass),
        money: money.as_ref().and_then(|money| money.get(index)).copied().map(Money::from_cents),
    };
    Ok(areas.iter().zip(&masses).enumerate().map(amount).collect())
}

fn share_parts(cut: &SheetUse, sheet: &Breakdown) -> Result<Vec<PartShare>, ApportionError> {
    let parts = &cut.parts;
    let weights: Vec<i128> = parts.iter().map(|part| part.total_area().square_nanometres()).collect();
    // Shared anew, since the parts line may have given back a rounding.
    let areas = apportion(sheet.parts.area.square_nanometres(), &weights)?;
    let areas: Vec<Area> = areas.into_iter().map(Area::from_square_nanometres).collect();
    let amounts = split(sheet.parts, &areas)?;
    let to_charge = sheet.whole.money.zip(sheet.kept_drops.money).map(|(whole, kept)| whole - kept);
    let charges = match to_charge.filter(|_| weights.iter().any(|&weight| weight > 0)) {
        Some(money) => {
            share(money.cents(), &weights)?.into_iter().map(|cents| Some(Money::from_cents(cents))).collect()
        }
        None => vec![None; parts.len()],
    };
    let of_part = |((part, amount), charged): ((&PartOnSheet, Amount), Option<Money>)| PartShare {
        mark: part.mark.clone(),
        quantity: part.quantity,
        each: cut.weight_per_area.over(part.area),
        amount,
        charged,
    };
    Ok(parts.iter().zip(amounts).zip(charges).map(of_part).collect())
}

/// Shares a 64-bit count; no share is larger than the count, so each fits again.
fn share(total: i64, weights: &[i128]) -> Result<Vec<i64>, ApportionError> {
    let shares = apportion(i128::from(total), weights)?;
    shares.into_iter().map(|share| i64::try_from(share).map_err(|_| ApportionError::TooLarge)).collect()
}
