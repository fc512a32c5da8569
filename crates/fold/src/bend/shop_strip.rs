//! A test strip of the shop's with everything that says where it may be used: metal, die, date, springback.

use stock::Family;
use units::{Angle, Length};

use super::strip::{StripError, TestStrip};

/// What a strip was cut from, or what a job bends: alloy, temper, and whether lugs stand on it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StripMetal {
    /// The alloy's name, like `5052`.
    pub alloy: String,
    /// The temper, if one is named.
    pub temper: Option<String>,
    /// What it bends like.
    pub family: Family,
    /// True for tread plate.
    pub tread: bool,
}

/// A test strip of the shop's. Made by [`ShopStrip::new`], which refuses one that proves nothing.
#[derive(Debug, Clone, PartialEq)]
pub struct ShopStrip {
    strip: TestStrip,
    k_factor: f64,
    /// What it was cut from.
    pub metal: StripMetal,
    /// Opening of the die it was bent over, if noted.
    pub v_opening: Option<Length>,
    /// Turn in the die before it sprang back, if measured; more than the strip's own turn, or the same.
    pub turn_in_die: Option<Angle>,
    /// When it was bent, like `2026-03-04`; later dates sort later.
    pub date: Option<String>,
    /// Where it is written down: `bend-strips.jsonl: line 3`, `shop.strips[0]`.
    pub place: String,
    /// True for a strip that the job itself gives for its own metal.
    pub of_job: bool,
}

impl StripMetal {
    /// Alloy and temper as they are ordered, like `5052-H32`, and `tread` after it.
    #[must_use]
    pub fn words(&self) -> String {
        let temper = self.temper.as_ref().map(|temper| format!("-{temper}")).unwrap_or_default();
        format!("{}{temper}{}", self.alloy, if self.tread { " tread" } else { "" })
    }
}

impl ShopStrip {
    /// A strip of `metal`; die, date and springback are set afterwards.
    ///
    /// # Errors
    /// [`StripError`] when its sizes prove nothing.
    pub fn new(strip: TestStrip, metal: StripMetal, place: String) -> Result<Self, StripError> {
        let k_factor = strip.k_factor()?;
        Ok(Self {
            strip,
            k_factor,
            metal,
            v_opening: None,
            turn_in_die: None,
            date: None,
            place,
            of_job: false,
        })
    }

    /// The strip's sizes.
    #[must_use]
    pub const fn strip(&self) -> &TestStrip {
        &self.strip
    }

    /// The K-factor it proves.
    #[must_use]
    pub const fn k_factor(&self) -> f64 {
        self.k_factor
    }

    /// Turn on the bench over turn in the die, when it was measured.
    #[must_use]
    pub fn springback_ratio(&self) -> Option<f64> {
        self.turn_in_die.map(|in_die| self.strip.turn.degrees() / in_die.degrees())
    }
}
