//! Hours of work: set-up and run, from the shop's own minutes.

use units::{Length, LengthUnit, Money, rounding};

use crate::percent::cents;

/// A stretch of time in thousandths of a minute.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Minutes(i64);

/// The kinds of work that are counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum WorkKind {
    /// Marking out, a piece.
    LayOut,
    /// Straight cuts, a length.
    CutStraight,
    /// Curved cuts, a length.
    CutCurved,
    /// Strokes of the shear, each.
    Shear,
    /// Round holes, each.
    Holes,
    /// Bends, each.
    Bend,
    /// Seams left open for a full weld, a length.
    WeldOpen,
    /// Butted seams, a length.
    WeldButt,
    /// Lapped seams, a length.
    WeldLap,
    /// Tabbed seams, a length.
    WeldTab,
    /// Corners to close and dress, each.
    Corners,
    /// Edges to break and pieces to clean, a piece.
    Finish,
    /// Sawing bars, pipe and section, a piece.
    SawBars,
    /// Cutting and fitting coverings and liner, a panel.
    FitCoverings,
    /// Packing into the crates of a kit, a piece.
    Pack,
}

/// The shop's minutes for one kind of work. What is not given is asked for; 0 where there is none.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct WorkRate {
    /// Once a job.
    pub set_up: Option<Minutes>,
    /// For one piece, bend, hole or corner, or for one foot or metre.
    pub each: Option<Minutes>,
    /// A second hand's minutes for each, at their own rate.
    pub second_hand: Option<Minutes>,
}

/// What an hour costs.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct HourRates {
    /// Of the maker.
    pub hour: Option<Money>,
    /// Of the second hand.
    pub second_hand_hour: Option<Money>,
}

/// How much there is of one kind of work.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Workload {
    /// The kind.
    pub kind: WorkKind,
    /// How much.
    pub amount: Counted,
    /// The shop's minutes, when set.
    pub rate: Option<WorkRate>,
}

/// Pieces or lengths.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Counted {
    /// So many.
    Each(u64),
    /// So long, counted in feet or metres; see [`Counted::along`].
    Along(Length, LengthUnit),
}

/// One line of work.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WorkLine {
    /// The kind.
    pub kind: WorkKind,
    /// How much.
    pub amount: Counted,
    /// The maker's time; none when the rate is not set.
    pub time: Option<Minutes>,
    /// The second hand's time.
    pub second_hand_time: Option<Minutes>,
    /// What it costs; none when a rate it needs is not set.
    pub money: Option<Money>,
    /// What must be asked.
    pub questions: Vec<String>,
    /// Whether the shop gives its own minutes and says nothing of a second hand's.
    pub asks_second_hand: bool,
}

impl Minutes {
    /// No time.
    pub const ZERO: Self = Self(0);

    /// So many thousandths of a minute.
    #[must_use]
    pub const fn from_thousandths(thousandths: i64) -> Self {
        Self(thousandths)
    }

    /// Thousandths of a minute.
    #[must_use]
    pub const fn thousandths(self) -> i64 {
        self.0
    }

    /// "92.5 min", "31.03 min": all that is counted of it, so that what it costs can be redone by hand.
    #[must_use]
    pub fn print(self) -> String {
        format!("{} min", one_decimal_or_more(i128::from(self.0), 3))
    }

    /// What it costs at so much an hour, to the nearest cent.
    #[must_use]
    pub fn cost(self, hour: Money) -> Money {
        const THOUSANDTHS_PER_HOUR: i128 = 60_000;
        cents(rounding::divide(i128::from(self.0) * i128::from(hour.cents()), THOUSANDTHS_PER_HOUR))
    }

    fn plus(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl Counted {
    /// A length to the nearest hundredth of a foot or metre, as it prints: hours and money are worked from that.
    #[must_use]
    pub fn along(length: Length, unit: LengthUnit) -> Self {
        let hundredth = i128::from(one(unit).nanometres()) / 100;
        let count = rounding::divide(i128::from(length.nanometres()), hundredth).unwrap_or(0);
        let nanometres = i64::try_from(count * hundredth).unwrap_or(i64::MAX);
        Self::Along(Length::from_nanometres(nanometres), unit)
    }

    /// Nothing to do.
    #[must_use]
    pub fn is_nothing(self) -> bool {
        match self {
            Self::Each(count) => count == 0,
            Self::Along(length, _) => length <= Length::ZERO,
        }
    }

    /// So many minutes for each of it.
    fn times(self, each: Minutes) -> Minutes {
        let each = i128::from(each.0);
        let thousandths = match self {
            Self::Each(count) => Some(each.saturating_mul(i128::from(count))),
            Self::Along(length, unit) => {
                rounding::divide(each * i128::from(length.nanometres()), i128::from(one(unit).nanometres()))
            }
        };
        Minutes(i64::try_from(thousandths.unwrap_or(0)).unwrap_or(i64::MAX))
    }

    /// What it comes to at a price for each, or for each foot or metre; to the nearest cent.
    #[must_use]
    pub fn price(self, each: Money) -> Money {
        match self {
            Self::Each(count) => each * i64::try_from(count).unwrap_or(i64::MAX),
            Self::Along(length, unit) => {
                let product = i128::from(each.cents()) * i128::from(length.nanometres());
                cents(rounding::divide(product, i128::from(one(unit).nanometres())))
            }
        }
    }

    /// "14", "62.3 ft" or "0.67 ft".
    #[must_use]
    pub fn print(self) -> String {
        match self {
            Self::Each(count) => count.to_string(),
            Self::Along(length, unit) => {
                let hundredths = rounding::divide(
                    i128::from(length.nanometres()) * 100,
                    i128::from(one(unit).nanometres()),
                );
                format!("{} {}", one_decimal_or_more(hundredths.unwrap_or(0), 2), long_unit(unit))
            }
        }
    }
}

/// A count of last digits as a decimal number, without the zeros at its end but for the first decimal.
fn one_decimal_or_more(count: i128, places: usize) -> String {
    let digits = format!("{count:0width$}", width = places + 1);
    let (whole, rest) = digits.split_at(digits.len() - places);
    let rest = rest.trim_end_matches('0');
    format!("{whole}.{}", if rest.is_empty() { "0" } else { rest })
}

/// A foot or a metre.
fn one(unit: LengthUnit) -> Length {
    match unit {
        LengthUnit::Inch => Length::from_inches(12.0),
        LengthUnit::Millimetre => Length::from_millimetres(1000.0),
    }
}

const fn long_unit(unit: LengthUnit) -> &'static str {
    match unit {
        LengthUnit::Inch => "ft",
        LengthUnit::Millimetre => "m",
    }
}

impl WorkKind {
    /// "straight cuts".
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::LayOut => "marking out",
            Self::CutStraight => "straight cuts",
            Self::Shear => "strokes of the shear",
            Self::CutCurved => "curved cuts",
            Self::Holes => "round holes",
            Self::Bend => "bends",
            Self::WeldOpen => "weld, open corners",
            Self::WeldButt => "weld, butt corners",
            Self::WeldLap => "weld, laps",
            Self::WeldTab => "weld, tabs",
            Self::Corners => "corners to close and dress",
            Self::Finish => "edges and cleaning",
            Self::SawBars => "bars to saw",
            Self::FitCoverings => "coverings to cut and fit",
            Self::Pack => "labels and packing",
        }
    }

    /// Its field under `quote.work`.
    #[must_use]
    pub const fn field(self) -> &'static str {
        match self {
            Self::LayOut => "lay_out",
            Self::CutStraight => "cut_straight",
            Self::Shear => "shear",
            Self::CutCurved => "cut_curved",
            Self::Holes => "holes",
            Self::Bend => "bend",
            Self::WeldOpen => "weld_open",
            Self::WeldButt => "weld_butt",
            Self::WeldLap => "weld_lap",
            Self::WeldTab => "weld_tab",
            Self::Corners => "corners",
            Self::Finish => "finish",
            Self::SawBars => "saw_bars",
            Self::FitCoverings => "fit_coverings",
            Self::Pack => "pack",
        }
    }
}

/// A line for every kind of work that there is any of.
#[must_use]
pub fn work_lines(rates: &HourRates, work: &[Workload]) -> Vec<WorkLine> {
    work.iter().filter(|load| !load.amount.is_nothing()).map(|load| work_line(rates, load)).collect()
}

fn work_line(rates: &HourRates, load: &Workload) -> WorkLine {
    let (kind, amount) = (load.kind, load.amount);
    let mut questions: Vec<String> = minutes_to_ask(load).into_iter().collect();
    let rate = load.rate.unwrap_or_default();
    let time = rate.set_up.zip(rate.each).map(|(set_up, each)| set_up.plus(amount.times(each)));
    let second = rate.second_hand.map(|each| amount.times(each));
    let takes_time = |time: Option<Minutes>| time.is_some_and(|time| Minutes::ZERO < time);
    if rates.hour.is_none() && takes_time(time) {
        questions.push("What does an hour cost? \"hour\" under \"quote\" is not set.".to_owned());
    }
    if rates.second_hand_hour.is_none() && takes_time(second) {
        questions.push(
            "What does an hour of the second hand cost? \"second_hand_hour\" under \"quote\" is not set."
                .to_owned(),
        );
    }
    let cost = |time: Option<Minutes>, hour: Option<Money>| match time? {
        Minutes::ZERO => Some(Money::ZERO),
        time => hour.map(|hour| time.cost(hour)),
    };
    let money = cost(time, rates.hour)
        .zip(cost(second, rates.second_hand_hour))
        .map(|(first, second)| first + second);
    let asks_second_hand = load.rate.is_some() && rate.second_hand.is_none();
    WorkLine { kind, amount, time, second_hand_time: second, money, questions, asks_second_hand }
}

/// The question after the maker's minutes, named by the fields that are not set.
fn minutes_to_ask(load: &Workload) -> Option<String> {
    let (words, field) = (load.kind.words(), load.kind.field());
    let per = match load.amount {
        Counted::Each(_) => "for each".to_owned(),
        Counted::Along(_, unit) => format!("a {}", long_unit(unit)),
    };
    let ask = |minutes: &str, unset: &str| {
        format!("{words}: how many minutes {minutes}? {unset} under \"quote.work\" is not set.")
    };
    let both = format!("to set up, and {per}");
    let Some(rate) = load.rate else { return Some(ask(&both, &format!("\"{field}\""))) };
    match (rate.set_up, rate.each) {
        (Some(_), Some(_)) => None,
        (None, Some(_)) => Some(ask("to set up", &format!("\"set_up\" of \"{field}\""))),
        (Some(_), None) => Some(ask(&per, &format!("\"each\" of \"{field}\""))),
        (None, None) => Some(ask(&both, &format!("\"set_up\" and \"each\" of \"{field}\""))),
    }
}
