//! Decks, and what is made as a set of plates that fit one another.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{PartCommon, PartLayFile};
use crate::file::Size;

part_file!(
    /// A side deck from widths at stations; its outboard flange follows the edge in straight runs. Drawn from above with
    /// the bow to the right and the inboard edge below, as a port deck; the upper face is marked.
    DeckFile, DeckWord "deck",
    {
        /// From aft forward, each station and the width there from the straight inboard edge: ["15", "12 1/4"].
        #[schemars(length(min = 2))]
        stations: Vec<[Size; 2]>,
        /// Flange along the outboard runs: "1 1/2 down". None when not given.
        outboard: Option<String>,
        /// Flange along the inboard edge: "3/4 down". None when not given.
        inboard: Option<String>,
        /// Width of the slit between the flanges of two runs.
        slit: Size,
        /// Stations at which the deck is split, from aft forward.
        #[serde(default)]
        splits_at: Vec<Size>,
        /// Spacing of the frames, counted from station 0. A seam then lies on a frame only.
        frames_every: Option<Size>,
        /// Longest piece that can be had.
        longest: Option<Size>,
        /// Width of the backing strip under each seam. No strips when not given.
        backing_strip: Option<Size>,
    }
);
