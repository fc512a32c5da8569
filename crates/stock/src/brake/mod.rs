//! The machines that bend: press brake, folder with a clamp bar or with fingers, slip roll; their tooling, and the
//! published figures that go with them.
//!
//! Only sizes, no algorithms. What the shop does not give stays `None`; [`PressBrake::assumed`] and
//! [`Folder::assumed`] hold the figures taken instead, and each is printed as an assumption.

mod folder;
mod force;
mod hem;
mod press;
mod roll;
mod tooling;

pub use folder::{AssumedFolder, Clamp, Folder};
pub use force::{ForceFactor, force_factor, us_tons_per_foot};
pub use hem::hem_us_tons_per_foot;
pub use press::{AssumedPress, PressBrake, Profile, Punch};
pub use roll::SlipRoll;
pub use tooling::{
    AirBendRadius, VOpening, air_bend_radius, chosen_v_opening, shortest_flange_in_v, v_opening,
};

use units::Length;

/// The machine that a shop bends its sheet on.
#[derive(Debug, Clone, PartialEq)]
pub enum Machine {
    /// Punch and V die.
    Press(PressBrake),
    /// A clamp and a leaf that swings up.
    Folder(Folder),
}

/// How far behind the bend line a back stop is taken to reach where the shop does not say: 24 in (common practice, no
/// source).
pub const ASSUMED_STOP_REACH: Length = Length::from_nanometres(609_600_000);

impl Machine {
    /// How far behind the bend line its back stop reaches, when the shop says.
    #[must_use]
    pub const fn stop_reach(&self) -> Option<Length> {
        match self {
            Self::Press(press) => press.stop_reach,
            Self::Folder(folder) => folder.stop_reach,
        }
    }

    /// Longest bend it makes, when the shop says.
    #[must_use]
    pub const fn length(&self) -> Option<Length> {
        match self {
            Self::Press(press) => press.length,
            Self::Folder(folder) => folder.length,
        }
    }

    /// What it is called in a sentence.
    #[must_use]
    pub const fn name(&self) -> &'static str {
        match self {
            Self::Press(_) => "press brake",
            Self::Folder(_) => "folder",
        }
    }
}
