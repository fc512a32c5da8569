//! The table of sheet sizes: what each would take, and what fits none of them.

use estimate::Purchase;
use units::{Area, Money};

use super::ListUnits;
use super::table::{Side, Table, broken};

/// One size of sheet, or a mix of sizes, and what came of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SheetChoice {
    /// The size or the mix: "48 × 96", "1 of 48 × 96 and 1 of 60 × 120".
    pub name: String,
    /// What it takes, or why it cannot be.
    pub outcome: Result<Taken, String>,
    /// True for the choice this packet uses.
    pub chosen: bool,
}

/// What a choice takes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Taken {
    /// Sheets.
    pub sheets: u32,
    /// Area of the sheets.
    pub area: Area,
    /// Price of the sheets, if all have one.
    pub money: Option<Money>,
    /// Share of that area that becomes parts, in thousandths.
    pub yield_permille: u32,
    /// How far fewer sheets, or a cheaper mix, are excluded.
    pub proof: Proof,
    /// What is proved of mixes, where the best that was found is this choice of a single size.
    pub as_mix: Option<Proof>,
    /// What it comes to as an order of its own, where the job has a supplier's terms.
    pub order: Option<Purchase>,
}

/// What is proved of a choice.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Proof {
    /// No nest on these sheets can do with fewer than this.
    LeastSheets(Limit),
    /// Of a mix, where every size has a price: whether none is cheaper by the price of its sheets, and below which price that
    /// is proved in any case.
    LeastPrice {
        /// Whether it is.
        proved: bool,
        /// No mix costs less than this.
        least: Option<Money>,
        /// Whether sheets that cost nothing are among those to choose from: which of them hold nothing was not looked at, so their
        /// room counts in that limit.
        with_free: bool,
    },
    /// Of a mix, where a size has no price or none costs anything: whether none is smaller.
    LeastArea {
        /// Whether it is.
        proved: bool,
    },
    /// Of a mix whose sheets cost more than those of another in the table: nothing is proved of it.
    DearerMix,
}

/// How few sheets could do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Limit {
    /// No nest has fewer.
    pub sheets: u32,
    /// The argument for that: "area of the parts".
    pub argument: String,
    /// What the parts take up with half the gap around each, and what one sheet has for that.
    pub areas: [Area; 2],
}

impl Proof {
    /// "2 sheets, proved least of this size", "4 sheets; 3 of this size not excluded", "3 sheets; a cheaper mix is not excluded".
    pub(crate) fn words(&self, sheets: u32, is_priced: bool) -> String {
        let found = sheets_words(sheets);
        match self {
            Self::LeastSheets(limit) => bound_words(sheets, limit.sheets),
            Self::LeastPrice { proved: true, .. } => format!("{found}, price of sheets proved least"),
            Self::LeastPrice { proved: false, .. } => format!("{found}; a cheaper mix is not excluded"),
            Self::LeastArea { proved: true } => format!("{found}, proved least area"),
            Self::LeastArea { proved: false } => format!("{found}; a smaller mix is not excluded"),
            Self::DearerMix if is_priced => format!("{found}; the best mix is cheaper"),
            Self::DearerMix => format!("{found}; the best mix is smaller"),
        }
    }

    /// What is said of mixes beside a single size that is the best of them: "no mix is cheaper, proved".
    const fn of_mixes(&self) -> &'static str {
        match self {
            Self::LeastPrice { proved: true, .. } => "; no mix is cheaper, proved",
            Self::LeastArea { proved: true } => "; no mix is smaller, proved",
            Self::LeastPrice { proved: false, .. } => "; a cheaper mix is not excluded",
            Self::LeastArea { proved: false } => "; a smaller mix is not excluded",
            Self::LeastSheets(_) | Self::DearerMix => "",
        }
    }

    /// Where the number of sheets comes from, and what proves it.
    fn origin(&self, sheets: u32) -> String {
        const FOUND: &str = "sheets of the best nest found for this choice, verified";
        match self {
            Self::LeastSheets(_) if sheets <= 1 => format!("{FOUND}; no fewer than one can be"),
            Self::LeastSheets(limit) if sheets <= limit.sheets => {
                format!("{FOUND}; fewer is excluded by the {}", limit.argument)
            }
            Self::LeastSheets(limit) => {
                format!("{FOUND}; fewer than {} is excluded by the {}", limit.sheets, limit.argument)
            }
            Self::LeastPrice { proved: true, .. } | Self::LeastArea { proved: true } => {
                format!("{FOUND}; less is excluded by area and by the least number of sheets")
            }
            Self::LeastPrice { proved: false, least: Some(least), .. } => {
                let least = least.print();
                format!("{FOUND}; less than {least} is excluded by area and by the least number of sheets")
            }
            Self::LeastPrice { proved: false, least: None, .. }
            | Self::LeastArea { proved: false }
            | Self::DearerMix => FOUND.to_owned(),
        }
    }

    /// What is proved, and where it is not, how far from it.
    pub(crate) fn sentence(&self, name: &str, sheets: u32, units: ListUnits) -> String {
        match self {
            Self::LeastSheets(_) if sheets <= 1 => format!("{name}: one sheet; no fewer can be."),
            Self::LeastSheets(Limit { sheets: least, argument, .. }) if sheets <= *least => {
                format!("{name}: {sheets} found, and fewer of this size is excluded by the {argument}.")
            }
            Self::LeastSheets(limit) => limit.sentence(name, sheets, units),
            Self::LeastPrice { proved: true, .. } => {
                format!("{name}: no mix of the sheets and offcuts above has a lower price of sheets.")
            }
            Self::LeastArea { proved: true } => format!(
                "{name}: no mix of the sheets and offcuts above has less area. Nothing is proved of money: not every size has a \
                 price."
            ),
            Self::LeastArea { proved: false } => {
                format!("{name}: no smaller mix was found; that there is none is not proved.")
            }
            Self::LeastPrice { proved: false, least, with_free } => least.map_or_else(
                || format!("{name}: no cheaper mix was found; that there is none is not proved."),
                |least| {
                    let least = least.print();
                    let room = if *with_free { ROOM_COUNTS } else { "" };
                    format!(
                        "{name}: no cheaper mix was found; none can cost less than {least}, as far as proved.{room}"
                    )
                },
            ),
            Self::DearerMix => {
                format!(
                    "{name}: the sheets of the best mix come to less; an order may come to less with these."
                )
            }
        }
    }

    fn is_open(&self, sheets: u32) -> bool {
        match self {
            Self::LeastSheets(limit) => limit.sheets < sheets,
            Self::LeastPrice { proved, .. } | Self::LeastArea { proved } => !proved,
            Self::DearerMix => false,
        }
    }
}

/// Said where the least price counts the room of sheets that cost nothing.
const ROOM_COUNTS: &str = " That limit may count room of what costs nothing that holds no part: a price between the two is not excluded, \
                           and may be impossible.";

impl Taken {
    /// "2 sheets, proved least of this size; a cheaper mix is not excluded".
    fn words(&self) -> String {
        let is_priced = self.money.is_some();
        let of_mixes = self.as_mix.as_ref().map_or("", Proof::of_mixes);
        self.proof.words(self.sheets, is_priced) + of_mixes
    }

    fn origin(&self) -> String {
        let of_mixes = self.as_mix.as_ref().map(|proof| format!("; of mixes: {}", proof.origin(self.sheets)));
        self.proof.origin(self.sheets) + &of_mixes.unwrap_or_default()
    }

    /// What is not proved of it, a sentence each.
    fn open(&self, name: &str, units: ListUnits) -> Vec<String> {
        let proofs = [Some(&self.proof), self.as_mix.as_ref()].into_iter().flatten();
        let open = proofs.filter(|proof| proof.is_open(self.sheets));
        open.map(|proof| proof.sentence(name, self.sheets, units)).collect()
    }
}

impl Limit {
    /// "48 × 96: 4 found, 3 neither found nor excluded; fewer cannot be, by the area of the parts. … take 87.4 of 91.2 ft2 on 3; on 2 they would be
    /// 26.6 ft2 short."
    fn sentence(&self, name: &str, sheets: u32, units: ListUnits) -> String {
        let Self { sheets: least, argument, areas: [needed, one] } = self;
        let print = |area: Area| area.print(units.area, 1);
        let there = *one * i64::from(*least);
        let fewer = *one * i64::from(least.saturating_sub(1));
        let short = if 1 < *least && fewer < *needed {
            format!(
                "; on {} they would be {} short",
                least - 1,
                (*needed - fewer).print_with_unit(units.area, 1)
            )
        } else {
            String::new()
        };
        format!(
            "{name}: {sheets} found, {least} neither found nor excluded; fewer cannot be, by the {argument}. With half the gap around each \
             the parts take {} of {} {} on {least}{short}.",
            print(*needed),
            print(there),
            units.area.name()
        )
    }
}

/// The bound on sheets of one size in words: "2 sheets, proved least of this size" or "4 sheets; 3 of this size not excluded". Fewer than
/// one are of no size.
#[must_use]
pub fn bound_words(sheets: u32, least_sheets: u32) -> String {
    let found = sheets_words(sheets);
    match (sheets <= least_sheets, sheets) {
        (true, 0 | 1) => format!("{found}, proved least"),
        (true, _) => format!("{found}, proved least of this size"),
        (false, _) => format!("{found}; {least_sheets} of this size not excluded"),
    }
}

fn sheets_words(sheets: u32) -> String {
    if sheets == 1 { "1 sheet".to_owned() } else { format!("{sheets} sheets") }
}

/// The table as text, what is said of the choices under it.
#[must_use]
pub fn text(metal: &str, choices: &[SheetChoice], units: ListUnits) -> String {
    let mut text = format!("Sheets for {metal}\n\n{}", table(choices, units).text());
    for sentence in notes(choices, units) {
        for line in broken(&sentence, super::table::LINE_WIDTH) {
            text.push_str(&line);
            text.push('\n');
        }
    }
    if let Some(sums) = sums(choices) {
        text.push_str(&format!("\n{}", sums.text()));
    }
    text
}

/// The choices that take something.
pub(crate) fn table(choices: &[SheetChoice], units: ListUnits) -> Table {
    let area = format!("area, {}", units.area.name());
    let mut table = Table::new(&[
        ("", Side::Words),
        ("sheets", Side::Words),
        ("how many", Side::Words),
        (&area, Side::Number),
        ("money", Side::Number),
        ("yield", Side::Number),
    ]);
    table.says_from([
        ["", ""],
        ["", ""],
        ["", ""],
        ["number of sheets × their sizes (sheets in the job, or the rack)", ""],
        ["number of sheets × their prices (sheets in the job)", ""],
        ["area of the flats ÷ area of the sheets", ""],
    ]);
    for choice in choices {
        let Ok(taken) = &choice.outcome else { continue };
        let cells = vec![
            if choice.chosen { "used".to_owned() } else { String::new() },
            choice.name.clone(),
            taken.words(),
            taken.area.print(units.area, 2),
            taken.money.map_or_else(|| "no price".to_owned(), Money::print),
            format!("{}.{} %", taken.yield_permille / 10, taken.yield_permille % 10),
        ];
        let origin = taken.origin();
        let from = ["", "", &origin, "", "", ""].map(str::to_owned).to_vec();
        table.row_from(cells, from);
    }
    table
}

/// How the tables are to be read, where the job has a supplier's terms.
pub(crate) const CHOSEN: &str = "Used are the choices with which the one order of all metals comes to least, with minimum charge, \
                                 cuts, freight, delivery and tax as far as they are set. What is proved is the price of \
                                 the sheets alone, or where not every size of a metal has a price their area.";

/// What every choice comes to as an order of its own, where the job has a supplier's terms.
pub(crate) fn sums(choices: &[SheetChoice]) -> Option<Table> {
    let rows = choices.iter().filter_map(|choice| {
        let order = choice.outcome.as_ref().ok()?.order.as_ref()?;
        Some((if choice.chosen { "used" } else { "" }, choice.name.as_str(), order))
    });
    let rows: Vec<(&str, &str, &Purchase)> = rows.collect();
    (!rows.is_empty()).then(|| super::buying::sums(&rows))
}

/// What is not proved, how far it is from that, and what fits no sheet: a sentence each.
pub(crate) fn notes(choices: &[SheetChoice], units: ListUnits) -> Vec<String> {
    let note = |choice: &SheetChoice| match &choice.outcome {
        Ok(taken) => taken.open(&choice.name, units),
        Err(reason) => vec![format!("{}: {reason}", choice.name)],
    };
    choices.iter().flat_map(note).collect()
}
