//! Whole sheets against rectangles that the supplier cuts to size.

use units::Money;

use super::ListUnits;
use super::table::{LINE_WIDTH, Side, Table, broken};
use crate::scrap_report::{mass_count, print_mass};

/// Whole sheets against rectangles cut to size, for one metal.
#[derive(Debug, Clone)]
pub struct CutOrWhole<'a> {
    /// The rectangles, priced.
    pub blanks: &'a [estimate::CutBlank],
    /// What the supplier asks for them.
    pub terms: &'a estimate::CutToSize,
    /// What the shop reckons a drop is worth, where it says so.
    pub drop_rate: Option<estimate::PriceOfMass>,
    /// Price of the whole sheets.
    pub sheets: Option<Money>,
    /// Weight of the drops kept of them, printed; empty without any.
    pub kept: String,
    /// What those are worth to the shop.
    pub drops: Option<Money>,
    /// Weight of the pieces of the rack that are used, printed; empty without any.
    pub rack: String,
    /// What those are worth to the shop, by the same rate.
    pub rack_worth: Option<Money>,
    /// What whole sheets and rectangles come to, each as an order of its own with all of the supplier's terms; none while one
    /// is not set.
    pub orders: [Option<Money>; 2],
}

impl CutOrWhole<'_> {
    /// The comparison as text.
    #[must_use]
    pub fn text(&self, metal: &str, units: ListUnits) -> String {
        let weight = format!("weight, {}", units.mass.name());
        let mut table = Table::new(&[
            ("cut to size", Side::Words),
            ("rectangle", Side::Words),
            (&weight, Side::Number),
            ("metal", Side::Number),
            ("cuts", Side::Number),
            ("money", Side::Number),
        ]);
        let mut mass_sum = 0;
        for blank in self.blanks {
            let mass = mass_count(blank.mass, units);
            mass_sum += mass;
            let [length, width] = blank.size.map(|side| side.print(units.length));
            table.row(vec![
                format!("{} of {}", blank.quantity, blank.mark),
                format!("{length} × {width}"),
                print_mass(mass),
                blank.metal.print(),
                blank.cuts.print(),
                (blank.metal + blank.cuts).print(),
            ]);
        }
        let metal_sum: Money = self.blanks.iter().map(|blank| blank.metal).sum();
        let cuts: Money = self.blanks.iter().map(|blank| blank.cuts).sum();
        let all = metal_sum + cuts;
        let sums = [print_mass(mass_sum), metal_sum.print(), cuts.print(), all.print()];
        table.sum([vec!["all".to_owned(), String::new()], sums.to_vec()].concat());
        let verdict = format!("{} {}", self.rates(units), self.verdict(all));
        let verdict = broken(&verdict, LINE_WIDTH).join("\n");
        format!("Whole sheets or cut to size: {metal}\n\n{}\n{verdict}\n", table.text())
    }

    /// The rates that the table and the sum under it are worked with.
    fn rates(&self, units: ListUnits) -> String {
        let allowance = if self.terms.allowance == units::Length::ZERO {
            String::new()
        } else {
            format!(" and {} more at every edge", self.terms.allowance.print_with_unit(units.length))
        };
        let worth = self.drop_rate.filter(|_| !(self.kept.is_empty() && self.rack.is_empty()));
        let worth = worth.map(|rate| {
            format!(
                " Drops and pieces of the rack: the printed weight of each × {}, rounded to cents.",
                rate.print()
            )
        });
        format!(
            "A rectangle is the smallest upright one round the flat{allowance}. Metal is the printed weight × {}, cuts are {} a \
             rectangle.{}",
            self.terms.metal.print(),
            self.terms.cut_charge.print(),
            worth.unwrap_or_default()
        )
    }

    fn verdict(&self, cut: Money) -> String {
        let Some(sheets) = self.sheets else {
            return "The whole sheets have no price; give it under \"sheets\" to compare.".to_owned();
        };
        let unsaid = |weight: &str, what: &str| {
            format!(
                "Whole sheets {}; what {weight} of {what} is worth must be said first: \"drop_value\" under \"buying\".",
                sheets.print()
            )
        };
        let (of_rack, rack) = match (self.rack_worth, self.rack.is_empty()) {
            (_, true) => (Money::ZERO, String::new()),
            (Some(worth), false) => (worth, format!("and {} for {} of the rack, ", worth.print(), self.rack)),
            (None, false) => return unsaid(&self.rack, "pieces of the rack"),
        };
        let (net, drops) = match (self.drops, self.kept.is_empty()) {
            (_, true) => (sheets + of_rack, format!("{rack}no drop is kept")),
            (Some(worth), false) => (
                sheets + of_rack - worth,
                format!("{rack}less {} for {} of kept drops", worth.print(), self.kept),
            ),
            (None, false) => return unsaid(&self.kept, "kept drops"),
        };
        let goods = format!(
            "Whole sheets {}, {drops}: {}. Cut to size {}. Goods alone: {}.",
            sheets.print(),
            net.print(),
            cut.print(),
            less(net, cut)
        );
        let worth = sheets - net;
        let all = match self.orders {
            [Some(whole), Some(pieces)] => format!(
                "With minimum charge, cuts, freight, delivery and tax, each as an order of its own: whole sheets {}{}, cut to size \
                 {}: {}.",
                whole.print(),
                match (self.rack.is_empty(), self.kept.is_empty()) {
                    (true, true) => String::new(),
                    (true, false) => format!(" less the drops {}", (whole - worth).print()),
                    (false, true) => format!(" and the pieces of the rack {}", (whole - worth).print()),
                    (false, false) =>
                        format!(" and the pieces of the rack, less the drops {}", (whole - worth).print()),
                },
                pieces.print(),
                less(whole - worth, pieces)
            ),
            _ => "Minimum charge, freight, delivery and tax are in neither: they are not all set.".to_owned(),
        };
        format!("{goods} {all}")
    }
}

/// Which of the two is less, and by how much.
fn less(whole: Money, cut: Money) -> String {
    match whole.cmp(&cut) {
        std::cmp::Ordering::Less => format!("whole sheets are {} less", (cut - whole).print()),
        std::cmp::Ordering::Equal => "both cost the same".to_owned(),
        std::cmp::Ordering::Greater => format!("cut to size is {} less", (whole - cut).print()),
    }
}
