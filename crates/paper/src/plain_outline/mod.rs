//! Plain outlines: a part's flat as a text file that a person can read and any program can be taught to.
//!
//! # The format, version 1
//!
//! UTF-8 text, one statement to the line, words parted by single blanks, lines ended by a line feed. Lines that
//! start with `#` are remarks. The statements, in this order:
//!
//! ```text
//! plateloft outline 1            name of the format and its version; always the first line
//! units inch                     inch or mm: what every length below is in
//! job Oyster skiff               free text to the end of the line
//! mark L1                        free text
//! metal skin: 5052-H32           free text
//! quantity 2                     how many to cut
//! thickness 0.1250
//! face this face up              free text: which side is seen
//! loop outer                     the edge to cut; then one `loop hole` for every cut-out
//! start 0.0000 1.5000            where the loop starts
//! line to 36.5000 1.5000         straight to a point
//! arc to 36.5 2.5 centre 36.5 2.0 radius 0.5 ccw      along a circle, ccw or cw
//! close                          the loop ends where it started
//! bend up turn 90.0000 radius 0.1250 zone 0.2788 from 0.0000 2.0000 to 36.5000 2.0000   one for every bend, up or down
//! end
//! ```
//!
//! * x runs right and y up, seen from the marked face; (0, 0) is the datum corner, the lower left corner of the
//!   smallest upright rectangle around the part. The part is never mirrored.
//! * Lengths have four decimals, turns are degrees from flat with four decimals. `up` is toward the viewer. A bend's radius
//!   is the inside one; half its zone, which is the bend allowance, lies to each side of its line.
//! * The outer loop runs counter-clockwise, holes clockwise; a whole circle is two arcs. The last point of a loop
//!   repeats its start.
//! * In free text a backslash is written `\\`, a line feed `\n`, a carriage return `\r`.
//!
//! Only [`fold`]'s flat is written, nothing is computed; [`read`] takes the file apart again.

mod read;
mod scan;
mod write;

use fold::{Direction, FlatPattern};
use geometry::{Outline, Point};
use units::LengthUnit;

pub use read::{OutlineError, read};
pub use write::write;

/// Version of the format that is written and read.
pub const VERSION: u32 = 1;

/// A part to write.
#[derive(Debug, Clone, Copy)]
pub struct PlainOutline<'a> {
    /// Unit of all lengths in the file.
    pub unit: LengthUnit,
    /// Name of the job.
    pub job: &'a str,
    /// Mark of the part.
    pub mark: &'a str,
    /// The metal, in words.
    pub metal: &'a str,
    /// How many to cut.
    pub quantity: u32,
    /// Which side is seen: "this face up".
    pub face: &'a str,
    /// The flat.
    pub flat: &'a FlatPattern,
}

/// A file read back. Lengths in millimetres.
#[derive(Debug, Clone, PartialEq)]
pub struct ReadOutline {
    /// Unit the file was written in.
    pub unit: LengthUnit,
    /// Name of the job.
    pub job: String,
    /// Mark of the part.
    pub mark: String,
    /// The metal, in words.
    pub metal: String,
    /// How many to cut.
    pub quantity: u32,
    /// Thickness, mm.
    pub thickness_mm: f64,
    /// Which side is seen.
    pub face: String,
    /// Outer loop and holes.
    pub outline: Outline,
    /// Bend lines.
    pub bends: Vec<ReadBend>,
}

/// A bend line read back.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ReadBend {
    /// Up or down, as seen from the marked face.
    pub direction: Direction,
    /// Turn from flat, degrees.
    pub turn_degrees: f64,
    /// Inside radius, mm.
    pub radius_mm: f64,
    /// Width of the bend zone, half to each side of the line, mm.
    pub zone_mm: f64,
    /// One end.
    pub from: Point,
    /// The other end.
    pub to: Point,
}

/// Millimetres to one of the unit.
const fn millimetres_per(unit: LengthUnit) -> f64 {
    match unit {
        LengthUnit::Inch => 25.4,
        LengthUnit::Millimetre => 1.0,
    }
}

/// The word for the unit in a file.
const fn unit_word(unit: LengthUnit) -> &'static str {
    match unit {
        LengthUnit::Inch => "inch",
        LengthUnit::Millimetre => "mm",
    }
}
