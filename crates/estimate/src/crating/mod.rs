//! Flats laid in crates, layer upon layer.
//!
//! Every flat counts as the rectangle round it. The same flats give the same crates: the largest go first, each into the
//! first layer of the first crate that has room and weight left; what is wanted first goes last, on top.

mod check;
mod pack;
mod room;

pub use check::CratingFault;
pub use pack::pack;

use units::{Area, Length, Mass, MassPerArea};

/// One flat to be sent.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FlatToSend {
    /// Its mark.
    pub mark: String,
    /// Which of its copies, from 1.
    pub copy: u32,
    /// Sizes of the smallest rectangle around it.
    pub size: [Length; 2],
    /// Thickness of its metal.
    pub thickness: Length,
    /// What it weighs.
    pub weight: Mass,
    /// The mark of its opposite hand, with which it never shares a layer.
    pub opposite_hand: Option<String>,
    /// Whether it is wanted before all others, as a test strip is: it goes uppermost, in the first crate that takes it there.
    pub first_wanted: bool,
}

/// What a crate takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CrateLimits {
    /// Length, width and height inside.
    pub inside: [Length; 3],
    /// What is kept clear along the walls, and between flats of one layer.
    pub clear: Length,
    /// Thickness of the packing under the first layer, between layers, and over the last.
    pub between: Length,
    /// What an area of that packing weighs.
    pub between_weight: Option<MassPerArea>,
    /// Weight of the empty crate.
    pub empty: Mass,
    /// Most that the full crate may weigh.
    pub heaviest: Mass,
    /// Most crates that may be sent.
    pub most: Option<u32>,
}

/// A flat in its layer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Packed {
    /// Which flat, by its place among those to be sent.
    pub flat: usize,
    /// Its corner nearest to the crate's own: along its length and its width.
    pub at: [Length; 2],
    /// True when its first size runs along the crate's width.
    pub turned: bool,
}

/// One layer of a crate.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Layer {
    /// What lies in it.
    pub flats: Vec<Packed>,
    /// Thickness of the thickest flat in it.
    pub thickness: Length,
}

/// A packed crate.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Crate {
    /// Its layers, the lowest first.
    pub layers: Vec<Layer>,
    /// What the flats weigh.
    pub flats: Mass,
}

impl CrateLimits {
    /// Packing for so many layers, one more than there are.
    #[must_use]
    pub fn packing(&self, layers: usize) -> Mass {
        let sheets = i64::try_from(layers + 1).unwrap_or(i64::MAX);
        self.between_weight.map_or(Mass::ZERO, |weight| weight.over(self.floor())) * sheets
    }

    /// Area of one sheet of packing.
    #[must_use]
    pub fn floor(&self) -> Area {
        self.inside[0] * self.inside[1]
    }

    /// What a crate with these layers weighs: crate, packing and flats.
    #[must_use]
    pub fn gross(&self, packed: &Crate) -> Mass {
        self.empty + self.packing(packed.layers.len()) + packed.flats
    }

    /// Height of these layers with the packing under, between and over them.
    #[must_use]
    pub fn height(&self, layers: &[Layer]) -> Length {
        let packing: Length = layers.iter().map(|_| self.between).fold(self.between, |sum, one| sum + one);
        layers.iter().fold(packing, |sum, layer| sum + layer.thickness)
    }
}

impl FlatToSend {
    /// Its sizes along the crate's length and width.
    #[must_use]
    pub const fn laid(&self, turned: bool) -> [Length; 2] {
        let [a, b] = self.size;
        if turned { [b, a] } else { [a, b] }
    }
}
