//! Parts put together: marks found, places and weights read.

use units::{Length, Mass};

use super::desk::{Desk, Range};
use super::marks::part_or_pieces;
use super::weights::mass;
use crate::file::{AssemblyFile, AxisFile, PlacedFile};
use crate::model::Part;
use crate::place::Place;

/// A whole made of parts at their places.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JobAssembly {
    /// What it is called.
    pub name: String,
    /// What is in it.
    pub loads: Vec<Placed>,
}

/// Something at its place in a whole.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Placed {
    /// A part of the job, or a whole of several pieces.
    Parts {
        /// Its mark.
        mark: String,
        /// The parts' places in the job: one, or the pieces of the whole.
        parts: Vec<usize>,
        /// Quarter turns in order: 0 about x, 1 about y, 2 about z.
        turns: Vec<usize>,
        /// Where the low corner of its box lies, once it is turned.
        at: [Length; 3],
    },
    /// Something else.
    Item {
        /// What it is.
        item: String,
        /// What it weighs.
        weight: Mass,
        /// Its centre.
        at: [Length; 3],
    },
}

/// One whole of the file.
pub(super) fn assembly(
    file: &AssemblyFile,
    parts: &[Part],
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<JobAssembly> {
    let written = file.loads.iter().enumerate();
    let loads: Vec<Option<Placed>> = written
        .map(|(number, load)| placed(load, parts, &place.field("loads").entry(number), desk))
        .collect();
    Some(JobAssembly { name: file.name.clone(), loads: loads.into_iter().collect::<Option<_>>()? })
}

fn placed(file: &PlacedFile, parts: &[Part], place: &Place, desk: &mut Desk<'_>) -> Option<Placed> {
    let here = place.field("at");
    let mut along = |axis: usize| desk.length(&here.entry(axis), &file.at[axis], Range::Any);
    let [x, y, z] = [along(0), along(1), along(2)];
    let turns: Vec<usize> = file
        .turned_about
        .iter()
        .map(|axis| match axis {
            AxisFile::X => 0,
            AxisFile::Y => 1,
            AxisFile::Z => 2,
        })
        .collect();
    match (&file.part, &file.item, &file.weight) {
        (Some(mark), None, None) => {
            let parts = part_or_pieces(mark, parts, &place.field("part"), desk)?;
            Some(Placed::Parts { mark: mark.clone(), parts, turns, at: [x?, y?, z?] })
        }
        (None, Some(item), Some(weight)) if turns.is_empty() => {
            let weight = mass(weight, &place.field("weight"), desk)?;
            Some(Placed::Item { item: item.clone(), weight, at: [x?, y?, z?] })
        }
        (None, Some(_), Some(_)) => {
            let remedy = "take turned_about out; \"at\" is the centre of the item";
            desk.add(&place.field("turned_about"), "", "an item has no box to turn", remedy);
            None
        }
        _ => {
            let remedy = "give \"part\", or \"item\" with \"weight\"";
            desk.add(
                place,
                "",
                "what is put together is a part of the job, or an item with its weight",
                remedy,
            );
            None
        }
    }
}
