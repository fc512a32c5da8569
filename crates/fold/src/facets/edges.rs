//! Edges between facets, and the facets of cut edges.

use std::collections::BTreeMap;

use geometry::{Contour, Point, Point3, Segment, Vector3, tolerance};

use super::pieces::Cut;
use super::skin::{Skins, normal};
use super::{EdgeKind, Facet, FacetEdge, Facets, Place, Surface};
use crate::flat::FlatPattern;

/// Cosine of the turn (20°) from which two cut edges make a corner.
const CORNER_COSINE: f64 = 0.939_692_620_785_908_4;

/// A cut edge of a piece, in walking order.
struct CutEdge {
    piece: usize,
    from: usize,
    to: usize,
    /// Unit normals where it begins and where it ends.
    normals: [Vector3; 2],
    /// The arc it is a chord of, if any.
    arc: Option<usize>,
}

/// Adds the facets of all cut edges, and all edges.
pub(super) fn edges(flat: &FlatPattern, cut: &Cut, skins: &Skins, facets: &mut Facets) {
    let owners = owners(cut);
    let arcs = arcs(flat);
    let mut cut_edges = Vec::new();
    for (&(from, to), &piece) in &owners {
        match owners.get(&(to, from)) {
            Some(&other) if from < to => shared(flat, cut, skins, ((from, to), piece, other), facets),
            Some(_) => {}
            None => {
                let arc = arc_under(&arcs, cut.points[from], cut.points[to]);
                cut_edges.push(sawn(flat, cut, skins, ((from, to), piece, arc), facets));
            }
        }
    }
    corners(flat, cut, &cut_edges, facets);
}

/// The piece on the left of every edge.
fn owners(cut: &Cut) -> BTreeMap<(usize, usize), usize> {
    let mut owners = BTreeMap::new();
    for (number, piece) in cut.pieces.iter().enumerate() {
        for ring in &piece.rings {
            let following = ring.iter().cycle().skip(1);
            owners.extend(ring.iter().zip(following).map(|(&from, &to)| ((from, to), number)));
        }
    }
    owners
}

/// Two pieces go over into one another.
fn shared(
    flat: &FlatPattern,
    cut: &Cut,
    skins: &Skins,
    ((from, to), piece, other): ((usize, usize), usize, usize),
    facets: &mut Facets,
) {
    let is_face = |number: usize| matches!(cut.pieces[number].place, Place::Face(_));
    let kind = if is_face(piece) == is_face(other) { EdgeKind::Smooth } else { EdgeKind::Tangent };
    for (side, z_mm) in [0.0, flat.thickness_mm].into_iter().enumerate() {
        let ends = [from, to].map(|corner| cut.pieces[piece].fold(cut.points[corner], z_mm));
        facets.edges.push(FacetEdge { ends, normals: [skins[piece][side], skins[other][side]], kind });
    }
}

/// A cut edge: its facets, and its edges with both sides of the plate. Where it runs askew over a bend it is twisted,
/// and two triangles stand for it.
fn sawn(
    flat: &FlatPattern,
    cut: &Cut,
    skins: &Skins,
    ((from, to), piece, arc): ((usize, usize), usize, Option<usize>),
    facets: &mut Facets,
) -> CutEdge {
    let place = |corner: usize, z_mm: f64| cut.pieces[piece].fold(cut.points[corner], z_mm);
    let [back, face] = [0.0, flat.thickness_mm].map(|z_mm| [place(from, z_mm), place(to, z_mm)]);
    let whole = vec![back[0], back[1], face[1], face[0]];
    let is_flat = (face[0] - back[0]).dot(normal(&whole[..3])).abs() <= tolerance::DRAWN_POINT_MM;
    let halves = if is_flat {
        vec![whole]
    } else {
        vec![vec![back[0], back[1], face[1]], vec![back[0], face[1], face[0]]]
    };
    let normals: Vec<Vector3> = halves.iter().map(|ring| normal(ring)).collect();
    let (low, high) = (normals[0], normals[normals.len() - 1]);
    for (side, (ends, outward)) in [(back, low), (face, high)].into_iter().enumerate() {
        facets.edges.push(FacetEdge { ends, normals: [skins[piece][side], outward], kind: EdgeKind::Sharp });
    }
    if !is_flat {
        let ends = [back[0], face[1]];
        facets.edges.push(FacetEdge { ends, normals: [low, high], kind: EdgeKind::Smooth });
    }
    let place = cut.pieces[piece].place;
    for (ring, normal) in halves.into_iter().zip(normals) {
        facets.facets.push(Facet { place, surface: Surface::Cut, rings: vec![ring], normal });
    }
    CutEdge { piece, from, to, normals: [high, low], arc }
}

/// Edges through the thickness, where one cut edge ends and the next begins.
fn corners(flat: &FlatPattern, cut: &Cut, cut_edges: &[CutEdge], facets: &mut Facets) {
    for edge in cut_edges {
        let following = || cut_edges.iter().filter(|next| next.from == edge.to);
        let same = following().find(|next| next.piece == edge.piece);
        let Some(next) = same.or_else(|| following().next()) else { continue };
        let on_one_arc = edge.arc.is_some() && edge.arc == next.arc;
        let normals = [edge.normals[1], next.normals[0]];
        let turned = normals[0].dot(normals[1]) < CORNER_COSINE;
        let kind = if turned && !on_one_arc { EdgeKind::Sharp } else { EdgeKind::Smooth };
        let place = |z_mm: f64| -> Point3 { cut.pieces[edge.piece].fold(cut.points[edge.to], z_mm) };
        let ends = [place(0.0), place(flat.thickness_mm)];
        facets.edges.push(FacetEdge { ends, normals, kind });
    }
}

/// Centre and radius, mm, of every arc of the outline.
fn arcs(flat: &FlatPattern) -> Vec<(Point, f64)> {
    let of = |contour: &Contour| -> Vec<(Point, f64)> {
        let circle = |segment: &Segment| match *segment {
            Segment::Arc { to, centre, .. } => Some((centre, centre.distance(to))),
            Segment::Line { .. } => None,
        };
        contour.segments.iter().filter_map(circle).collect()
    };
    std::iter::once(&flat.outline.outer).chain(&flat.outline.holes).flat_map(of).collect()
}

/// The circle on which both points lie.
fn arc_under(arcs: &[(Point, f64)], from: Point, to: Point) -> Option<usize> {
    let on = |point: Point, (centre, radius): (Point, f64)| {
        (point.distance(centre) - radius).abs() <= tolerance::DRAWN_POINT_MM
    };
    arcs.iter().position(|&circle| on(from, circle) && on(to, circle))
}
