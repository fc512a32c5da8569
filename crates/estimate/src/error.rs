//! Why a sheet's sums do not close.

use units::{ApportionError, Area, AreaUnit, Money};

/// Why a report cannot be made. Each names the sheet.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum EstimateError {
    /// The sheet has no area.
    #[error("{sheet}: the sheet has no area")]
    EmptySheet {
        /// The sheet's name.
        sheet: String,
    },
    /// A part, drop, kerf or trim has an area below zero.
    #[error("{sheet}: {what} has an area below zero")]
    NegativeArea {
        /// The sheet's name.
        sheet: String,
        /// The line or the part's mark.
        what: String,
    },
    /// The price is below zero.
    #[error("{sheet}: the price {} is below zero", price.print())]
    NegativePrice {
        /// The sheet's name.
        sheet: String,
        /// The price.
        price: Money,
    },
    /// Parts, kept drops, kerf and trim together are more than the sheet.
    #[error("{sheet}: parts, kept drops, kerf and trim pass the sheet by {}", excess.print_with_unit(AreaUnit::SquareMillimetre, 2))]
    MoreThanTheSheet {
        /// The sheet's name.
        sheet: String,
        /// By how much.
        excess: Area,
    },
    /// The scrap left over by the sum is not the skeleton that was measured.
    #[error(
        "{sheet}: the sum leaves {} of scrap, the skeleton measures {}",
        closing.print_with_unit(AreaUnit::SquareMillimetre, 2),
        measured.print_with_unit(AreaUnit::SquareMillimetre, 2)
    )]
    SkeletonDiffers {
        /// The sheet's name.
        sheet: String,
        /// What the sum leaves over.
        closing: Area,
        /// What was measured.
        measured: Area,
    },
    /// The sheet's mass or price cannot be shared out.
    #[error("{sheet}: {fault}")]
    Shares {
        /// The sheet's name.
        sheet: String,
        /// Why.
        fault: ApportionError,
    },
}
