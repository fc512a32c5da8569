//! Pictures of wholes: rings and sets of pieces where their recipe puts them, assemblies where the job puts them.

use checks::fit::Body;
use fold::facets::{self, Facets};
use geometry::{Frame, Point3};
use job::{JobAssembly, Placed};
use paper::Page;
use paper::whole_sheet::{self, StandingPiece, WholeSheet};

use crate::plan::{Flats, PlannedPart, body_of};

/// A picture of every whole of which the places of the pieces are known.
pub(super) fn pictures(flats: &Flats) -> Vec<Page> {
    let mut seen: Vec<&str> = Vec::new();
    let mut pages: Vec<Page> = Vec::new();
    for part in &flats.parts {
        let mark = part.part.written_mark();
        // An opposite hand mirrors the places of the first, which has the picture.
        let is_first = part.part.piece_of.is_some() && part.part.opposite_hand_of.is_none();
        if is_first && !seen.contains(&mark) {
            seen.push(mark);
            pages.extend(of_recipe(flats, part));
        }
    }
    pages.extend(flats.job.weights.assemblies.iter().filter_map(|whole| of_assembly(flats, whole)));
    pages
}

/// All pieces of the whole that a part belongs to; `None` where its recipe does not say where they stand.
fn of_recipe(flats: &Flats, part: &PlannedPart) -> Option<Page> {
    let recipe = part.part.shape.recipe();
    let places = recipe.put_together(&part.part.making);
    let mark = part.part.written_mark();
    let own = flats.parts.iter().filter(|other| other.part.written_mark() == mark);
    let pieces: Vec<StandingPiece> = own
        .filter_map(|piece| {
            let place = places.get(piece.part.piece_of.as_ref()?.number)?;
            let map = |at: Point3| stands(place, home(piece, at));
            Some(StandingPiece { mark: piece.part.mark.clone(), facets: placed(piece, map) })
        })
        .collect();
    (1 < pieces.len()).then(|| {
        whole_sheet::draw(&WholeSheet {
            job: &flats.job.name,
            mark,
            title: recipe.words(),
            pieces: &pieces,
            origin: "The pieces stand where the shape puts them, each folded from its own flat.",
        })
    })
}

/// All parts of an assembly in the job; `None` where it holds fewer than two.
fn of_assembly(flats: &Flats, whole: &JobAssembly) -> Option<Page> {
    let part = |placed: &Placed| match placed {
        Placed::Part { part, turns, at } => {
            let part = &flats.parts[*part];
            let turned =
                |place: Point3| turns.iter().fold(home(part, place), |at, &axis| quarter_turned(at, axis));
            let low = low_corner(part, turns);
            let [x, y, z] = at.map(units::Length::millimetres);
            let map = |place: Point3| {
                let at = turned(place);
                Point3::new(at.x - low.x + x, at.y - low.y + y, at.z - low.z + z)
            };
            Some(StandingPiece { mark: part.part.mark.clone(), facets: self::placed(part, map) })
        }
        Placed::Item { .. } => None,
    };
    let pieces: Vec<StandingPiece> = whole.loads.iter().filter_map(part).collect();
    (1 < pieces.len()).then(|| {
        whole_sheet::draw(&WholeSheet {
            job: &flats.job.name,
            mark: "together",
            title: &whole.name,
            pieces: &pieces,
            origin: "Every part stands where the job puts its box.",
        })
    })
}

/// A place of the refolded flat in the recipe's own coordinates.
fn home(part: &PlannedPart, at: Point3) -> Point3 {
    Body::home(&part.flat, part.part.is_seen_from_back(), at)
}

/// A place of a piece's own coordinates in those of the whole.
fn stands(frame: &Frame, at: Point3) -> Point3 {
    frame.origin + frame.x * at.x + frame.y * at.y + frame.z * at.z
}

/// A quarter turn about an axis, counter-clockwise as seen with that axis pointing at you.
fn quarter_turned(at: Point3, axis: usize) -> Point3 {
    match axis {
        0 => Point3::new(at.x, -at.z, at.y),
        1 => Point3::new(at.z, at.y, -at.x),
        _ => Point3::new(-at.y, at.x, at.z),
    }
}

/// The least corner of a part's box once it is turned.
fn low_corner(part: &PlannedPart, turns: &[usize]) -> Point3 {
    let (low, high) = body_of(part).bounds();
    let corners = [low, high].map(|corner| turns.iter().fold(corner, |at, &axis| quarter_turned(at, axis)));
    let [a, b] = corners;
    Point3::new(a.x.min(b.x), a.y.min(b.y), a.z.min(b.z))
}

/// The surface of a part with every place moved by `map`, which turns and shifts only.
fn placed(part: &PlannedPart, map: impl Fn(Point3) -> Point3) -> Facets {
    let zero = map(Point3::default());
    let turned = |normal: geometry::Vector3| map(Point3::default() + normal) - zero;
    let mut surface = facets::of(&part.flat);
    for facet in &mut surface.facets {
        facet.rings.iter_mut().flatten().for_each(|corner| *corner = map(*corner));
        facet.normal = turned(facet.normal);
    }
    for edge in &mut surface.edges {
        edge.ends = edge.ends.map(&map);
        edge.normals = edge.normals.map(turned);
    }
    surface
}
