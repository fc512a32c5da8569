//! Which published model gives a bend its allowance, and the factors that tables recommend.

use crate::alloy::Family;
use crate::table;
use serde::Deserialize;
use std::convert::Infallible;
use std::fmt;
use std::sync::LazyLock;
use units::Length;

static K_FACTORS: LazyLock<Vec<KFactorRow>> =
    LazyLock::new(|| table::load(include_str!("../data/k_factors.json"), Ok::<_, Infallible>));
static NEUTRAL_FACTORS: LazyLock<Vec<NeutralFactorRow>> =
    LazyLock::new(|| table::load(include_str!("../data/neutral_factors.json"), Ok::<_, Infallible>));

/// The model that gives a bend its allowance. The formulas are in `fold`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum BendModel {
    /// The neutral line lies this share of the thickness from the inside face.
    KFactor(f64),
    /// The per-degree formula of FAA-H-8083-31, chapter 4.
    FaaHandbook,
    /// The empirical lengths of Machinery's Handbook for a group of metals.
    EmpiricalByMaterial(Hardness),
    /// DIN 6935, cold bending of flat rolled steel.
    Din6935,
}

/// How hard a metal is to bend.
///
/// In Machinery's Handbook (31st edition, page 1421): soft brass and soft copper; half-hard copper and brass, soft
/// steel and aluminium; bronze, hard copper, cold-rolled and spring steel.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Hardness {
    /// The softest group; in the neutral-factor table it stands for aluminium.
    Soft,
    /// The middle group.
    HalfHard,
    /// The hardest group; in the neutral-factor table it stands for steel.
    Hard,
}

/// How a bend is made in the brake.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
pub enum Forming {
    /// The punch stops short of the die's floor.
    #[serde(rename = "air bend")]
    AirBend,
    /// The sheet is pressed against the die's sides.
    #[serde(rename = "bottoming")]
    Bottoming,
    /// The punch is pressed into the sheet.
    #[serde(rename = "coining")]
    Coining,
}

/// The K-factor to use for a family of metals where nobody has bent a strip.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
#[non_exhaustive]
pub struct KFactorRow {
    /// The family it is for.
    pub family: Family,
    /// The share of the thickness.
    pub k_factor: f64,
    /// Where the row comes from and how it was got.
    pub source: String,
}

/// Neutral factors for a range of inside radii.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
#[non_exhaustive]
pub struct NeutralFactorRow {
    /// How the bend is made.
    pub forming: Forming,
    /// The range's lower end as a multiple of the thickness, not included unless it is zero.
    pub over_times_thickness: i64,
    /// The range's upper end as a multiple of the thickness, included. None means any radius above.
    pub up_to_times_thickness: Option<i64>,
    /// The factor for soft metal.
    pub soft: f64,
    /// The factor for medium metal.
    pub medium: f64,
    /// The factor for hard metal.
    pub hard: f64,
    /// Where the row comes from and how it was got.
    pub source: String,
}

/// The recommended K-factor for a family, if the table has one.
#[must_use]
pub fn recommended_k_factor(family: Family) -> Option<&'static KFactorRow> {
    K_FACTORS.iter().find(|row| row.family == family)
}

/// Every row of the neutral-factor table.
#[must_use]
pub fn neutral_factors() -> &'static [NeutralFactorRow] {
    &NEUTRAL_FACTORS
}

/// The row for a way of forming and a ratio of inside radius to thickness, if the table has it.
#[must_use]
pub fn find_neutral_factor(
    forming: Forming,
    inside_radius: Length,
    thickness: Length,
) -> Option<&'static NeutralFactorRow> {
    let reaches = |times: i64| inside_radius <= thickness * times;
    let mut of_this_forming = NEUTRAL_FACTORS.iter().filter(|row| row.forming == forming);
    of_this_forming.find(|row| row.up_to_times_thickness.is_none_or(reaches))
}

impl fmt::Display for BendModel {
    /// What the model is called on paper and on the screen; the one place where it is worded.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::KFactor(k_factor) => write!(f, "K-factor {k_factor:.4}"),
            Self::FaaHandbook => f.write_str("formula of FAA-H-8083-31, chapter 4"),
            Self::EmpiricalByMaterial(Hardness::Soft) => {
                f.write_str("empirical lengths of Machinery's Handbook, soft metals")
            }
            Self::EmpiricalByMaterial(Hardness::HalfHard) => {
                f.write_str("empirical lengths of Machinery's Handbook, aluminium and soft steel")
            }
            Self::EmpiricalByMaterial(Hardness::Hard) => {
                f.write_str("empirical lengths of Machinery's Handbook, hard metals")
            }
            Self::Din6935 => f.write_str("DIN 6935"),
        }
    }
}

impl NeutralFactorRow {
    /// The factor for a metal of this hardness.
    #[must_use]
    pub const fn factor(&self, hardness: Hardness) -> f64 {
        match hardness {
            Hardness::Soft => self.soft,
            Hardness::HalfHard => self.medium,
            Hardness::Hard => self.hard,
        }
    }
}
