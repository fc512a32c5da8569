//! Pictures of wholes: rings and sets of pieces where their recipe puts them, assemblies where the job puts them.

use checks::fit::Body;
use estimate::Assembly;
use fold::facets::{self, Facets};
use geometry::{Frame, Point, Point3, Vector3, polygon, tolerance};
use job::{JobAssembly, Placed, ShapeInput};
use paper::Page;
use paper::layout_sheet::Fact;
use paper::packet::WholeToCheck;
use paper::whole_sheet::{self, StandingPiece, WholeSheet};
use units::{Length, Mass};

use super::corners;
use super::drawings::fact_words;
use super::legs_to_check::legs;
use super::weights::{caution_of_whole, one_of_each_whole};
use crate::plan::balance::{WeighedPart, assemblies, only_part};
use crate::plan::standing::{InPlace, in_place, of_hand, stands};
use crate::plan::{Flats, PlannedPart, box_round, reach_of};
use crate::speech::Refusal;

/// A picture of every whole of which the places of the pieces are known, each hand by itself.
///
/// # Errors
/// An assembly of a whole of which nobody knows where its pieces stand.
pub(super) fn pictures(flats: &Flats, weighed: &[WeighedPart]) -> Result<Vec<Page>, Refusal> {
    let mut seen: Vec<&str> = Vec::new();
    let mut pages: Vec<Page> = Vec::new();
    for part in &flats.parts {
        let mark = part.part.written_mark();
        if part.part.piece_of.is_some() && !seen.contains(&mark) {
            seen.push(mark);
            pages.extend(of_recipe(flats, part));
        }
    }
    let together = assemblies(flats, weighed)?;
    let of_assembly = |(asked, whole): &(&JobAssembly, Assembly)| of_assembly(flats, asked, whole.mass());
    pages.extend(together.iter().filter_map(of_assembly));
    Ok(pages)
}

/// Every whole of several pieces, each hand by itself, and every assembly of the job of which a picture can be drawn.
pub(super) fn to_check(flats: &Flats) -> Vec<WholeToCheck> {
    let mut wholes: Vec<WholeToCheck> = Vec::new();
    let mut seen: Vec<&str> = Vec::new();
    for part in &flats.parts {
        let mark = part.part.written_mark();
        let Some(piece) = part.part.piece_of.as_ref().filter(|_| !seen.contains(&mark)) else { continue };
        seen.push(mark);
        let is_drawn = 1 < in_place(flats, part).len();
        let of_it = flats.parts.iter().filter(|other| other.part.written_mark() == mark).count();
        if of_it < 2 && piece.piece.count < 2 {
            continue;
        }
        wholes.push(WholeToCheck {
            name: format!("{mark}, put together"),
            quantity: part.part.quantity / piece.piece.count.max(1),
            bare: (!is_drawn).then(|| {
                format!(
                    "{mark} has no page of its own under \"Pieces put together\": its shape does not say where its pieces \
                     stand. Each piece is checked by its own page, and all of them where they go."
                )
            }),
        });
    }
    let assembled = flats.job.weights.assemblies.iter().filter(|whole| 1 < pieces_in(flats, whole));
    wholes.extend(assembled.map(|whole| WholeToCheck {
        name: format!("{}, put together", whole.name),
        quantity: 1,
        bare: None,
    }));
    wholes
}

/// How many pieces an assembly is drawn of.
fn pieces_in(flats: &Flats, whole: &JobAssembly) -> usize {
    let count = |placed: &Placed| match placed {
        Placed::Parts { mark, parts, .. } if only_part(flats, mark, parts).is_some() => 1,
        Placed::Parts { parts, .. } => {
            parts.first().map_or(0, |&piece| in_place(flats, &flats.parts[piece]).len())
        }
        _ => 0,
    };
    whole.loads.iter().map(count).sum()
}

/// All pieces of the whole that a part belongs to; `None` where its recipe does not say where they stand.
fn of_recipe(flats: &Flats, part: &PlannedPart) -> Option<Page> {
    let (recipe, making) = (part.part.shape.recipe(), &part.part.making);
    let mark = part.part.written_mark();
    let standing = in_place(flats, part);
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
        .map(|(name, ends)| {
            (name, ends.map(|end| of_hand(part, Frame { origin: end, ..Frame::WORLD }).origin))
        })
        .collect();
    let sizes = recipe.whole_sizes(making).into_iter().map(|fact| part.part.of_hand(fact));
    let as_whole = |fact: Fact| match fact.name.strip_prefix("whole, welded: ") {
        Some(name) => Fact { name: name.to_owned(), ..fact },
        None => fact,
    };
    let mut sizes: Vec<Fact> = sizes.map(|fact| as_whole(fact_words(&flats.job, &fact))).collect();
    sizes.extend(legs_of_whole(flats, &standing));
    let places =
        standing.iter().flat_map(|(piece, root)| reach_of(piece).into_iter().map(|at| stands(root, at)));
    sizes.push(over_all(flats, &places.collect::<Vec<Point3>>()));
    let mass = one_of_each_whole(flats).into_iter().find(|(whole, _)| *whole == mark).map(|(_, mass)| mass);
    sizes.extend(mass.and_then(|mass| heavy(flats, mass, "sum of the printed weights of its pieces")));
    Some(whole_sheet::draw(&WholeSheet {
        job: &flats.job.name,
        mark,
        title: &title(flats, part),
        pieces: &pieces,
        letters: &letters(&standing),
        edges: &edges(&standing),
        lines: &lines,
        sizes: &sizes,
        origin: "The pieces stand where the shape puts them, each folded from its own flat.",
    }))
}

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
fn over_all(flats: &Flats, places: &[Point3]) -> Fact {
    let (low, high) = box_round(places);
    let sizes = [high.x - low.x, high.y - low.y, high.z - low.z];
    let sizes = sizes.map(|millimetres| Length::from_millimetres(millimetres).print(flats.job.style));
    Fact {
        name: "over all, height last".to_owned(),
        value: sizes.join(" × "),
        origin: "smallest upright box round the refolded pieces, put together".to_owned(),
        ..Fact::default()
    }
}

/// What hands must know before the whole is lifted or turned over; nothing where one person may lift it.
fn heavy(flats: &Flats, mass: Mass, origin: &str) -> Option<Fact> {
    let value = caution_of_whole(flats, mass)?;
    Some(Fact { name: "weight".to_owned(), value, origin: origin.to_owned(), ..Fact::default() })
}

/// The legs of a console's wrap, as its own folded sheet gives them: cut square at its ends, they stop short of the outline.
fn legs_of_whole(flats: &Flats, standing: &[InPlace<'_>]) -> Vec<Fact> {
    let is_wrap = |part: &PlannedPart| {
        matches!(part.part.shape, ShapeInput::Console(_))
            && part.part.piece_of.as_ref().is_some_and(|piece| piece.number == 0)
    };
    let wrap = standing.iter().find(|(part, _)| is_wrap(part));
    wrap.map_or_else(Vec::new, |(wrap, _)| legs(flats, wrap, &[]))
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

/// Which end and which side of the whole is which: the words of edges that pieces name in capitals, each once, at the piece of which
/// that edge lies farthest out. The end of a piece at a seam is no end of the whole.
fn edges(standing: &[InPlace<'_>]) -> Vec<(String, [Point3; 2])> {
    let mut all: Vec<(String, [Point3; 2], f64)> = Vec::new();
    let mut ways: Vec<(String, Vector3)> = Vec::new();
    for (piece, root) in standing {
        let Some(face) = piece.flat.faces.first() else { continue };
        let at = |end: Point| stands(root, home(piece, Point3::new(end.x, end.y, piece.flat.thickness_mm)));
        let middle = at(polygon::centroid(&face.corners));
        for (words, ends) in corners::named(piece).edges {
            let is_of_whole = 2 < words.len() && words.chars().all(|c| c.is_uppercase() || c == ' ');
            if !is_of_whole {
                continue;
            }
            let ends = ends.map(at);
            let here = ends[0].toward(ends[1], 0.5);
            let known = ways.iter().find(|(known, _)| *known == words);
            let way = known.map_or(here - middle, |(_, way)| *way);
            let out_mm = way.unit().dot(here - Point3::default());
            match all.iter_mut().find(|(known, ..)| *known == words) {
                Some(known) if known.2 + tolerance::SAME_POINT_MM < out_mm => *known = (words, ends, out_mm),
                Some(_) => {}
                None => {
                    ways.push((words.clone(), way));
                    all.push((words, ends, out_mm));
                }
            }
        }
    }
    all.into_iter().map(|(words, ends, _)| (words, ends)).collect()
}

/// How far apart the same corner lies at most on two pieces that meet there, mm: their edges stand back for the weld.
const ONE_CORNER_MM: f64 = 25.0;

/// All parts and wholes of an assembly in the job; `None` where they are fewer than two pieces.
fn of_assembly(flats: &Flats, whole: &JobAssembly, mass: Mass) -> Option<Page> {
    let mut places: Vec<Point3> = Vec::new();
    let mut pieces: Vec<StandingPiece> = Vec::new();
    for placed in &whole.loads {
        let Placed::Parts { mark, parts, turns, at } = placed else { continue };
        let standing = match only_part(flats, mark, parts) {
            Some(part) => vec![(&flats.parts[part], Frame::WORLD)],
            None => parts.first().map_or_else(Vec::new, |&piece| in_place(flats, &flats.parts[piece])),
        };
        let turned = |at: Point3| turns.iter().fold(at, |at, &axis| quarter_turned(at, axis));
        let reach = standing
            .iter()
            .flat_map(|(piece, root)| reach_of(piece).into_iter().map(|at| turned(stands(root, at))));
        let reach: Vec<Point3> = reach.collect();
        let (low, _) = box_round(&reach);
        let [x, y, z] = at.map(Length::millimetres);
        let moved = |at: Point3| Point3::new(at.x - low.x + x, at.y - low.y + y, at.z - low.z + z);
        places.extend(reach.into_iter().map(moved));
        pieces.extend(standing.iter().map(|(piece, root)| {
            let map = |place: Point3| moved(turned(stands(root, home(piece, place))));
            StandingPiece { mark: piece.part.mark.clone(), facets: self::placed(piece, map) }
        }));
    }
    (1 < pieces.len()).then(|| {
        let mut sizes = vec![over_all(flats, &places)];
        sizes.extend(heavy(flats, mass, "sum of the weights of its loads"));
        whole_sheet::draw(&WholeSheet {
            job: &flats.job.name,
            mark: "together",
            title: &whole.name,
            pieces: &pieces,
            letters: &[],
            edges: &[],
            lines: &[],
            sizes: &sizes,
            origin: "Every part stands where the job puts its box.",
        })
    })
}

/// A place of the refolded flat in the recipe's own coordinates.
fn home(part: &PlannedPart, at: Point3) -> Point3 {
    Body::home(&part.flat, part.part.is_seen_from_back(), at)
}

/// A quarter turn about an axis, counter-clockwise as seen with that axis pointing at you.
fn quarter_turned(at: Point3, axis: usize) -> Point3 {
    match axis {
        0 => Point3::new(at.x, -at.z, at.y),
        1 => Point3::new(at.z, at.y, -at.x),
        _ => Point3::new(-at.y, at.x, at.z),
    }
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
