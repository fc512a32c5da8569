//! Pictures of wholes: rings and sets of pieces where their recipe puts them, assemblies where the job puts them.

use checks::fit::Body;
use fold::facets::{self, Facets};
use geometry::{Frame, Point3, Vector3};
use job::{JobAssembly, Placed};
use paper::Page;
use paper::layout_sheet::Fact;
use paper::whole_sheet::{self, StandingPiece, WholeSheet};
use units::Length;

use super::corners;
use super::drawings::fact_words;
use crate::plan::{Flats, PlannedPart, body_of};

/// A picture of every whole of which the places of the pieces are known, each hand by itself.
pub(super) fn pictures(flats: &Flats) -> Vec<Page> {
    let mut seen: Vec<&str> = Vec::new();
    let mut pages: Vec<Page> = Vec::new();
    for part in &flats.parts {
        let mark = part.part.written_mark();
        if part.part.piece_of.is_some() && !seen.contains(&mark) {
            seen.push(mark);
            pages.extend(of_recipe(flats, part));
        }
    }
    pages.extend(flats.job.weights.assemblies.iter().filter_map(|whole| of_assembly(flats, whole)));
    pages
}

/// A piece, what it is drawn from, and where its root face lies in the whole.
type InPlace<'a> = (&'a PlannedPart, Frame);

/// All pieces of the whole that a part belongs to; `None` where its recipe does not say where they stand.
fn of_recipe(flats: &Flats, part: &PlannedPart) -> Option<Page> {
    let (recipe, making) = (part.part.shape.recipe(), &part.part.making);
    let mark = part.part.written_mark();
    let hand =
        |frame: Frame| if part.part.opposite_hand_of.is_some() { frame.of_mirrored(ABEAM) } else { frame };
    let places = recipe.put_together(making);
    let in_place = |(number, root): &(usize, Frame)| -> Option<InPlace<'_>> {
        let is_it = |other: &&PlannedPart| {
            other.part.written_mark() == mark
                && other.part.piece_of.as_ref().is_some_and(|piece| piece.number == *number)
        };
        Some((flats.parts.iter().find(is_it)?, hand(*root)))
    };
    let standing: Vec<InPlace<'_>> = places.iter().filter_map(in_place).collect();
    let pieces: Vec<StandingPiece> = standing
        .iter()
        .map(|(piece, root)| {
            let map = |at: Point3| stands(root, home(piece, at));
            StandingPiece { mark: piece.part.mark.clone(), facets: placed(piece, map) }
        })
        .collect();
    if pieces.len() < 2 {
        return None;
    }
    let lines: Vec<(String, [Point3; 2])> = recipe
        .lines_across(making)
        .into_iter()
        .map(|(name, ends)| (name, ends.map(|end| hand(Frame { origin: end, ..Frame::WORLD }).origin)))
        .collect();
    let sizes = recipe.whole_sizes(making).into_iter().map(|fact| part.part.of_hand(fact));
    let as_whole = |fact: Fact| match fact.name.strip_prefix("whole, welded: ") {
        Some(name) => Fact { name: name.to_owned(), ..fact },
        None => fact,
    };
    let mut sizes: Vec<Fact> = sizes.map(|fact| as_whole(fact_words(&flats.job, &fact))).collect();
    sizes.push(over_all(flats, &pieces));
    Some(whole_sheet::draw(&WholeSheet {
        job: &flats.job.name,
        mark,
        title: &title(flats, part),
        pieces: &pieces,
        letters: &letters(&standing),
        lines: &lines,
        sizes: &sizes,
        origin: "The pieces stand where the shape puts them, each folded from its own flat.",
    }))
}

/// Across a whole, in its own coordinates: a mirror image of it is mirrored this way.
const ABEAM: Vector3 = Vector3::new(1.0, 0.0, 0.0);

/// "side locker", or "side locker, opposite hand of LS".
fn title(flats: &Flats, part: &PlannedPart) -> String {
    let words = part.part.shape.recipe().words();
    let hand = part.part.opposite_hand_of.as_ref().and_then(|other| {
        let first = flats.parts.iter().find(|first| first.part.mark == *other)?;
        Some(format!("{words}, opposite hand of {}", first.part.written_mark()))
    });
    hand.unwrap_or_else(|| words.to_owned())
}

/// The smallest upright box round all pieces.
fn over_all(flats: &Flats, pieces: &[StandingPiece]) -> Fact {
    let corners = pieces.iter().flat_map(|piece| &piece.facets.facets).flat_map(|facet| &facet.rings[0]);
    let mut reach = [(f64::INFINITY, f64::NEG_INFINITY); 3];
    for corner in corners {
        for ((low, high), at) in reach.iter_mut().zip([corner.x, corner.y, corner.z]) {
            (*low, *high) = (low.min(at), high.max(at));
        }
    }
    let sizes = reach.map(|(low, high)| Length::from_millimetres(high - low).print(flats.job.style));
    Fact {
        name: "over all, height last".to_owned(),
        value: sizes.join(" × "),
        origin: "smallest upright box round the refolded pieces, put together".to_owned(),
        ..Fact::default()
    }
}

/// Corners by their letters. Pieces that meet at a corner have one letter there; a letter that means another corner on
/// another piece would lead astray, and stands on the pieces' own sheets alone.
fn letters(standing: &[InPlace<'_>]) -> Vec<(String, Point3)> {
    let mut all: Vec<(String, Vec<Point3>)> = Vec::new();
    // Where the shape letters its own corners, letters that come of names of faces are other corners'.
    let own = standing.iter().any(|(piece, _)| !corners::named(piece).corners.is_empty());
    for (piece, root) in standing {
        let half_mm = 0.5 * piece.flat.thickness_mm;
        let named = corners::named(piece);
        let found = if own { named.corners } else { named.letters(&piece.flat) };
        for (letter, at) in found {
            let at = stands(root, home(piece, Point3::new(at.x, at.y, half_mm)));
            match all.iter_mut().find(|(known, _)| *known == letter) {
                Some((_, places)) => places.push(at),
                None => all.push((letter, vec![at])),
            }
        }
    }
    let one_place = |places: &[Point3]| {
        places.iter().all(|one| places.iter().all(|other| one.distance(*other) <= ONE_CORNER_MM))
    };
    // Both sides of a box have the letters of its outline.
    if all.iter().any(|(_, places)| 2 < places.len() && !one_place(places)) {
        return Vec::new();
    }
    let meant = |(letter, mut places): (String, Vec<Point3>)| {
        if one_place(&places) {
            places.truncate(1);
        }
        places.into_iter().map(move |at| (letter.clone(), at))
    };
    all.into_iter().flat_map(meant).collect()
}

/// How far apart the same corner lies at most on two pieces that meet there, mm: their edges stand back for the weld.
const ONE_CORNER_MM: f64 = 25.0;

/// All parts of an assembly in the job; `None` where it holds fewer than two.
fn of_assembly(flats: &Flats, whole: &JobAssembly) -> Option<Page> {
    let part = |placed: &Placed| match placed {
        Placed::Part { part, turns, at } => {
            let part = &flats.parts[*part];
            let turned =
                |place: Point3| turns.iter().fold(home(part, place), |at, &axis| quarter_turned(at, axis));
            let low = low_corner(part, turns);
            let [x, y, z] = at.map(Length::millimetres);
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
            letters: &[],
            lines: &[],
            sizes: &[over_all(flats, &pieces)],
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
    let turned = |normal: Vector3| map(Point3::default() + normal) - zero;
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
