//! The folded part as flat facets and edges, for drawing: both sides of every plate, its cut edges, and bends as
//! narrow strips round their arcs.
//!
//! It starts from the flat as cut, so that reliefs, notches and holes are there, also where they lie in a bend zone.
//! Places are those of [`crate::refold::fold()`]. Nothing is measured on facets but how
//! far a part reaches, on finer strips of its own ([`reach()`]).

mod centre;
mod edges;
mod pieces;
mod reach;
mod skin;

pub use centre::centre_of_gravity;
use geometry::{Point3, Vector3};
pub use reach::reach;

use crate::flat::FlatPattern;
use crate::part::Side;

/// Largest turn between neighbouring strips of a bend, radians (10°).
const STRIP_TURN_RAD: f64 = std::f64::consts::PI / 18.0;

/// What a facet belongs to, by its number in the flat.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// A face.
    Face(usize),
    /// A bend.
    Bend(usize),
}

/// Which surface of the plate a facet is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Surface {
    /// One of the two large ones.
    Skin(Side),
    /// A cut edge, as wide as the plate is thick.
    Cut,
}

/// A flat piece of the part's surface.
#[derive(Debug, Clone, PartialEq)]
pub struct Facet {
    /// What it belongs to.
    pub place: Place,
    /// Which surface it is.
    pub surface: Surface,
    /// Its outer corners and those of its holes, mm; together they bound it by the even-odd rule.
    pub rings: Vec<Vec<Point3>>,
    /// Unit normal out of the metal.
    pub normal: Vector3,
}

/// How two facets meet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EdgeKind {
    /// At a corner that is seen from everywhere.
    Sharp,
    /// Along a tangent line: a plate goes over into a bend.
    Tangent,
    /// Within a round surface: only seen where the surface turns away from the eye.
    Smooth,
}

/// A straight edge between two facets.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FacetEdge {
    /// Its ends, mm.
    pub ends: [Point3; 2],
    /// Unit normals of the two facets, out of the metal.
    pub normals: [Vector3; 2],
    /// How they meet.
    pub kind: EdgeKind,
}

/// The surface of a folded part.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Facets {
    /// The facets.
    pub facets: Vec<Facet>,
    /// Their edges.
    pub edges: Vec<FacetEdge>,
}

/// The folded part that `flat` becomes, as facets; the root lies in the world's xy plane, its face side up.
#[must_use]
pub fn of(flat: &FlatPattern) -> Facets {
    let cut = pieces::cut(flat);
    let mut facets = Facets::default();
    let skins = skin::skins(&cut, &mut facets, flat.thickness_mm);
    edges::edges(flat, &cut, &skins, &mut facets);
    facets
}
