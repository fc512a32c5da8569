//! What must stay free between a part and its place: named items that add up, always printed as the sum they are.

use units::{Length, LengthStyle};

use crate::{Making, Problem};

/// A clearance on each side: the sum of its items.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Clearance {
    /// The items in the order they are written.
    pub items: Vec<ClearanceItem>,
}

/// One item of a clearance: a gap, a covering that goes round twice, a hinge knuckle, a weld bead, a coating.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ClearanceItem {
    /// What it is.
    pub name: String,
    /// How many times it counts.
    pub count: u32,
    /// One of it.
    pub each: Length,
}

impl ClearanceItem {
    /// What the item takes in all.
    #[must_use]
    pub fn length(&self) -> Length {
        self.each * i64::from(self.count)
    }

    /// "1/4 gap" or "2 × 1/8 covering".
    fn words(&self, style: LengthStyle) -> String {
        let printed = self.each.print(style);
        // Below the tape's smallest mark only thousandths are left.
        let each = printed.strip_prefix("0 + ").unwrap_or(&printed);
        let each =
            if each.contains(" + ") || each.contains(" - ") { format!("({each})") } else { each.to_owned() };
        if self.count == 1 {
            format!("{each} {}", self.name)
        } else {
            format!("{} × {each} {}", self.count, self.name)
        }
    }
}

impl Clearance {
    /// A clearance of one item.
    #[must_use]
    pub fn single(name: &str, each: Length) -> Self {
        Self { items: vec![ClearanceItem { name: name.to_owned(), count: 1, each }] }
    }

    /// All items together.
    #[must_use]
    pub fn total(&self) -> Length {
        self.items.iter().map(ClearanceItem::length).sum()
    }

    /// The items as a sum on paper, without its total: "1/4 gap + 2 × 1/8 covering".
    #[must_use]
    pub fn words(&self, style: LengthStyle) -> String {
        let words: Vec<String> = self.items.iter().map(|item| item.words(style)).collect();
        if words.is_empty() { "no clearance".to_owned() } else { words.join(" + ") }
    }

    /// The items and what they come to: "1/4 gap + 2 × 1/8 covering = 1/2 a side".
    #[must_use]
    pub fn sum_words(&self, style: LengthStyle) -> String {
        match self.items.as_slice() {
            [] => "no clearance".to_owned(),
            [only] if only.count == 1 => format!("{} a side", self.words(style)),
            _ => format!("{} = {} a side", self.words(style), self.total().print(style)),
        }
    }

    /// The total, each item checked to be zero or more.
    pub(crate) fn checked_total(&self, making: &Making, problems: &mut Vec<Problem>) -> Length {
        for item in &self.items {
            making.not_below_zero(&format!("clearance.{}", item.name), item.each, problems);
        }
        self.total()
    }
}

#[cfg(test)]
mod tests {
    use units::{LengthUnit, TapeDenominator};

    use super::*;

    #[test]
    fn a_clearance_prints_as_the_sum_it_is() {
        let style = LengthStyle::Tape { denominator: TapeDenominator::Sixteenths };
        let inches = |text: &str| Length::read(text, LengthUnit::Inch).unwrap();
        let mut clearance = Clearance::single("gap", inches("1/4"));
        assert_eq!(clearance.sum_words(style), "1/4 gap a side");
        clearance.items.push(ClearanceItem { name: "covering".to_owned(), count: 2, each: inches("1/8") });
        assert_eq!(clearance.total(), inches("1/2"));
        assert_eq!(clearance.sum_words(style), "1/4 gap + 2 × 1/8 covering = 1/2 a side");
        // Thousandths beside the tape's marks stay one number.
        let coating = |each: &str| ClearanceItem { name: "coating".to_owned(), count: 2, each: inches(each) };
        clearance.items = vec![coating(".012"), coating(".074")];
        assert_eq!(clearance.words(style), "2 × .012 coating + 2 × (1/16 + .012) coating");
        assert_eq!(Clearance::default().sum_words(style), "no clearance");
    }
}
