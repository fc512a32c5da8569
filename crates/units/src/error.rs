//! Why a written quantity could not be read, and what to write instead.

/// Why a written quantity was refused.
///
/// The message says what is wrong; [`ReadError::remedy`] says what to do. Whoever holds the text adds the place.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ReadError {
    /// There is no text, or only blanks.
    #[error("nothing is written here")]
    Empty,
    /// The text is too long to be one quantity.
    #[error("{characters} characters are too many for one number")]
    TooLong {
        /// How many characters there are.
        characters: usize,
    },
    /// A number was looked for and something else found.
    #[error("`{text}` is not a number")]
    NotANumber {
        /// What was found.
        text: String,
    },
    /// More digits than any quantity here can hold.
    #[error("the number has more digits than can be kept")]
    TooManyDigits,
    /// A comma inside a number, which may mean tenths or thousands.
    #[error("the comma may mean tenths or thousands")]
    Comma,
    /// `5/0`.
    #[error("the fraction has a zero below the line")]
    ZeroDenominator,
    /// `5/12`: no tape has twelfths.
    #[error("{numerator}/{denominator} is not on a tape")]
    NotOnTape {
        /// The number above the line.
        numerator: i64,
        /// The number below the line.
        denominator: i64,
    },
    /// `17/16`: more than a whole, most likely a slip.
    #[error("{numerator}/{denominator} is a whole or more")]
    FractionNotBelowOne {
        /// The number above the line.
        numerator: i64,
        /// The number below the line.
        denominator: i64,
    },
    /// `5/16 5/16`.
    #[error("there are two fractions")]
    SecondFraction,
    /// `23.5 5/16`.
    #[error("there are both a decimal and a fraction")]
    DecimalAndFraction,
    /// A fraction with millimetres, written or meant.
    #[error("fractions go with inches, and this is metric")]
    MetricFraction,
    /// `4 furlongs`.
    #[error("`{unit}` is none of {known}")]
    UnknownUnit {
        /// The unit as written.
        unit: String,
        /// The units that are read here.
        known: &'static str,
    },
    /// `4' 30 mm`.
    #[error("two systems of units are mixed")]
    MixedUnits,
    /// `4.5' 3"`.
    #[error("the feet are not whole and inches follow")]
    FeetNotWhole,
    /// `4' 13"`.
    #[error("there are a foot or more of inches after the feet")]
    TooManyInches,
    /// `23 - 5/16` or `23-.125`: a joining dash or a minus.
    #[error("the dash may join or take away")]
    AmbiguousDash,
    /// What follows `+` or `-` is not a small decimal.
    #[error("what follows the + or - is not a decimal below one inch")]
    BadLeftover,
    /// Something is left over at the end.
    #[error("`{text}` is not expected here")]
    Unexpected {
        /// What was found.
        text: String,
    },
    /// Larger than any quantity of its kind in this trade.
    #[error("it is more than {limit}")]
    TooLarge {
        /// The largest that is read, in words.
        limit: &'static str,
    },
    /// Money with parts of a cent.
    #[error("money goes to two decimals")]
    PartOfACent,
    /// A weight, density or the like written without a unit.
    #[error("the unit is missing: {known}")]
    UnitMissing {
        /// The units that are read here.
        known: &'static str,
    },
    /// A number that came by calculation is infinite or not a number.
    #[error("it is not a finite number")]
    NotFinite,
    /// A quantity that must be above zero is not.
    #[error("it is not above zero")]
    Negative,
}

impl ReadError {
    /// What to write instead.
    #[must_use]
    pub const fn remedy(&self) -> &'static str {
        match self {
            Self::Empty | Self::NotANumber { .. } | Self::NotFinite => "write a number",
            Self::TooLong { .. } | Self::TooManyDigits => "write one plain number",
            Self::Comma => "use a point for decimals and nothing for thousands",
            Self::ZeroDenominator | Self::NotOnTape { .. } => {
                "use halves, quarters, eighths, 16ths, 32nds or 64ths, or a decimal"
            }
            Self::FractionNotBelowOne { .. } => "check the fraction and carry the whole",
            Self::SecondFraction | Self::DecimalAndFraction => "write one fraction or one decimal",
            Self::MetricFraction => "write a decimal, or mark the size `in`",
            Self::UnknownUnit { .. } => "use one of these units",
            Self::MixedUnits => "write the whole size in one system",
            Self::FeetNotWhole => "write whole feet, then inches",
            Self::TooManyInches => "carry the foot, or write inches only",
            Self::AmbiguousDash => "join with `23-5/16`, take away with `23 5/16 - .004`",
            Self::BadLeftover => "write the leftover as `+ .004` or `- .004`",
            Self::Unexpected { .. } => "write one size and nothing after it",
            Self::TooLarge { .. } => "check the number and its unit",
            Self::PartOfACent => "write dollars and cents, like 210.50",
            Self::UnitMissing { .. } => "add the unit",
            Self::Negative => "write a number above zero",
        }
    }
}

/// A piece of the user's text made safe to repeat in a message.
pub(crate) fn shown(text: &str) -> String {
    text.chars().map(|c| if c.is_control() { '\u{fffd}' } else { c }).collect()
}
