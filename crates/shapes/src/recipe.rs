//! What every recipe answers to.

use geometry::{Frame, Point3};

use crate::nearest::Way;
use crate::wrap::{RolledSizes, Round};
use crate::{Fact, Making, Places, Problem, Shaped};

/// The face of a part that is marked, and that film or lugs are on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FaceSide {
    /// The outside.
    Outside,
    /// The inside.
    Inside,
}

/// The face that a drawing from above or from one end shows, by its name on the part as it stands in use.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DrawnFace {
    /// Of a part that lies.
    Upper,
    /// Of a part that lies.
    Under,
    /// Away from the room or box that the part is a side of.
    Outer,
    /// Toward it.
    Inner,
    /// Toward who stands before the part.
    Front,
    /// Away from him.
    Rear,
    /// Toward the stern.
    After,
    /// Toward the bow.
    Forward,
}

impl DrawnFace {
    /// The word before "face".
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Upper => "upper",
            Self::Under => "under",
            Self::Outer => "outer",
            Self::Inner => "inner",
            Self::Front => "front",
            Self::Rear => "rear",
            Self::After => "after",
            Self::Forward => "forward",
        }
    }
}

/// One of several pieces that a shape is made of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Piece {
    /// What is put behind the mark of the whole: "ring", "dash"; letters, digits and dashes.
    pub suffix: String,
    /// What the shop calls it: "dash of the console".
    pub words: String,
    /// How many of it one whole takes.
    pub count: u32,
}

/// A shape with its sizes.
pub trait Recipe {
    /// The word of the job file, like `tapered_lid`.
    fn word(&self) -> &'static str;

    /// What the shop calls it: "tapered lid".
    fn words(&self) -> &'static str;

    /// The marked face of the shape as it comes; `None` where it is drawn from above.
    fn natural_face(&self) -> Option<FaceSide> {
        None
    }

    /// The face that is drawn and marked of a shape without a [`Recipe::natural_face`].
    fn drawn_face(&self) -> DrawnFace {
        DrawnFace::Upper
    }

    /// The field that most likely governs a flat that cannot be laid out.
    fn tight_field(&self) -> &'static str;

    /// The field that sizes the face of this name, where one does; else the tight one.
    fn field_of_face(&self, face: &str) -> &'static str {
        let _ = face;
        self.tight_field()
    }

    /// True when it may fall on a hand or a head.
    fn is_lid(&self) -> bool {
        false
    }

    /// True for a piece that backs a seam between others: it lies with its back to them, its length along the seam.
    fn backs_a_seam(&self, piece: usize) -> bool {
        let _ = piece;
        false
    }

    /// The pieces it is made of, known from its options alone; empty when it is one piece under its own mark.
    fn pieces(&self) -> Vec<Piece> {
        Vec::new()
    }

    /// Shapes piece number `piece` of [`Recipe::pieces`], or the one piece (0), in its natural face and hand.
    ///
    /// # Errors
    /// Every [`Problem`] found with the shape's sizes.
    fn shape_piece(&self, piece: usize, making: &Making) -> Result<Shaped, Vec<Problem>>;

    /// Which sizes would do instead, each tried, where a piece does not come out of one flat or runs into itself when folded;
    /// `None` where none was found.
    fn nearest_remedy(&self, making: &Making) -> Option<String> {
        let _ = making;
        None
    }

    /// The sizes that may be moved where a problem names no nearest one that works; each is tried by [`crate::nearest`].
    fn ways<'a>(&'a self, making: &'a Making) -> Vec<Way<'a>> {
        let _ = making;
        Vec::new()
    }

    /// The same shape once more, where ways of making it are tried; `None` where none are.
    fn boxed(&self) -> Option<Box<dyn Recipe>> {
        None
    }

    /// What a drawing names on the root face of piece number `piece`, where the names of its faces do not tell.
    fn places(&self, piece: usize, making: &Making) -> Places {
        let _ = (piece, making);
        Places::default()
    }

    /// Where the pieces stand in the whole, z up: the number of a piece among [`Self::pieces`] and where its root face lies, once for
    /// every one there is of it. Empty where that is not worked out, and where the part is one piece.
    fn put_together(&self, making: &Making) -> Vec<(usize, Frame)> {
        let _ = making;
        Vec::new()
    }

    /// Where its plate truly lies, where it is rolled round an axis and folded only as flats between element lines. `None` for
    /// any other part, and where it is struck in flats.
    fn round(&self, making: &Making) -> Option<Round> {
        let _ = making;
        None
    }

    /// Sizes of piece number `piece` where it is a ring that goes through the roll; `None` for any other.
    fn rolled_sizes(&self, piece: usize, making: &Making) -> Option<RolledSizes> {
        let _ = piece;
        self.round(making).map(|round| round.sizes())
    }

    /// What a tape proves on the whole once its pieces stand together: sides, diagonals, heights.
    fn whole_sizes(&self, making: &Making) -> Vec<Fact> {
        let _ = making;
        Vec::new()
    }

    /// What stands right across the whole, from end to end in its own coordinates: "frame 2".
    fn lines_across(&self, making: &Making) -> Vec<(String, [Point3; 2])> {
        let _ = making;
        Vec::new()
    }

    /// What to look at before piece number `piece` is cut, though it can be made.
    fn cautions(&self, piece: usize, making: &Making) -> Vec<Problem> {
        let _ = (piece, making);
        Vec::new()
    }
}
