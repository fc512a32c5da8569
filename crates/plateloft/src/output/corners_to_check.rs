//! Where the corners of a finished part lie, as a tape finds them from edge to edge and from corner to corner.

use fold::part::Edge;
use geometry::{Point, tolerance};
use paper::layout_sheet::Fact;
use shapes::console::Console;
use shapes::panel::Panel;
use units::{Angle, Length};

use super::corners;
use crate::plan::{Flats, PlannedPart};

/// Every side of a panel that no size among `proven` tells, how far its corners lie from its longest side, and the diagonals of a
/// panel of more than four corners from both ends of that side.
pub(super) fn sides_and_widths(flats: &Flats, panel: &Panel, proven: &[Fact]) -> Vec<Fact> {
    let outline = &panel.outline;
    let cut =
        if panel.notches.is_empty() { "" } else { ", to where the edges cross if a corner is cut away" };
    let side = |(number, name): (usize, &String)| {
        let is_told = proven.iter().any(|fact| fact.name.starts_with(&format!("side {name}")));
        (!is_told).then(|| Fact {
            name: format!("side {name}, over the outsides{cut}"),
            value: Length::from_millimetres(outline.side_mm(number)).print(flats.job.style),
            origin: "outline, over the outsides".to_owned(),
            ..Fact::default()
        })
    };
    let sides = outline.sides.iter().enumerate().filter(|_| outline.count() <= MOST_SIDES).filter_map(side);
    sides.chain(corner_widths(flats, panel)).chain(long_diagonals(flats, panel)).collect()
}

/// Of more sides than these none is checked when bent: on the flat, both its ends have their numbers.
const MOST_SIDES: usize = 12;

/// From both ends of the longest side of a panel of more than four corners to the corner that lies farthest from each.
fn long_diagonals(flats: &Flats, panel: &Panel) -> Vec<Fact> {
    let outline = &panel.outline;
    let count = outline.count();
    let longest = (0..count).max_by(|&a, &b| outline.side_mm(a).total_cmp(&outline.side_mm(b)));
    let Some(base) = longest.filter(|_| 4 < count) else { return Vec::new() };
    let diagonal = |from: usize| {
        let apart_mm = |to: &usize| outline.corners[from].distance(outline.corners[*to]);
        let is_beside = |to: &usize| [0, 1, count - 1].contains(&((to + count - from) % count));
        let others = (0..count).filter(|to| !is_beside(to));
        let to = others.max_by(|a, b| apart_mm(a).total_cmp(&apart_mm(b)))?;
        Some(Fact {
            name: format!("diagonal, {} to {}, over the outsides", outline.names[from], outline.names[to]),
            value: Length::from_millimetres(apart_mm(&to)).print(flats.job.style),
            origin: "corners of the outline, over the outsides".to_owned(),
            ..Fact::default()
        })
    };
    [base, (base + 1) % count].into_iter().filter_map(diagonal).collect()
}

/// How far every corner of a panel of more than four lies from its longest side with a square flange; none for a plainer panel,
/// whose own sizes tell.
fn corner_widths(flats: &Flats, panel: &Panel) -> Vec<Fact> {
    let outline = &panel.outline;
    let is_square = |turn: Angle| (turn.radians() - Angle::RIGHT.radians()).abs() <= tolerance::PARALLEL_SINE;
    let flanged = panel.flanges.iter().filter(|flange| is_square(flange.turn));
    let sides = flanged.filter_map(|flange| outline.side_number(&flange.side));
    let longest = sides.max_by(|&a, &b| outline.side_mm(a).total_cmp(&outline.side_mm(b)));
    let Some(base) = longest.filter(|_| 4 < outline.count()) else { return Vec::new() };
    let (from, to) = outline.side(base);
    let inward = (to - from).unit().left();
    let others = outline.names.iter().zip(&outline.corners);
    let others = others.filter(|(_, corner)| **corner != from && **corner != to);
    let off_mm = |corner: &Point| (*corner - from).dot(inward).abs();
    let off = |(name, corner): (&String, &Point)| Fact {
        name: format!("corner {name}, square from the outside of flange {}", outline.sides[base]),
        value: Length::from_millimetres(off_mm(corner)).print(flats.job.style),
        origin: "outline, over the outsides".to_owned(),
        ..Fact::default()
    };
    let mut others: Vec<(&String, &Point)> = others.collect();
    if MOST_WIDTHS < others.len() {
        others.sort_by(|a, b| off_mm(a.1).total_cmp(&off_mm(b.1)));
        others = others.first().into_iter().chain(others.last()).copied().collect();
    }
    others.into_iter().map(off).collect()
}

/// Of more corners than these only the nearest and the farthest are checked when bent: on the flat, every one has its numbers.
const MOST_WIDTHS: usize = 40;

/// Every edge of a side of a console between its lettered corners, and diagonals from the first two of them to all others that are
/// not rounded; none for its other pieces.
pub(super) fn side_of_console(flats: &Flats, part: &PlannedPart, console: &Console) -> Vec<Fact> {
    let is_side = part.part.piece_of.as_ref().is_some_and(|piece| [1, 2].contains(&piece.number));
    if !is_side {
        return Vec::new();
    }
    let corners = corners::named(part).corners;
    let print = |a: &(String, Point), b: &(String, Point)| {
        Length::from_millimetres(a.1.distance(b.1)).print(flats.job.style)
    };
    let is_bare = |letter: &str| !console.wrapped.iter().any(|side| side.contains(letter));
    let is_round = |letter: &str| {
        console.radii.iter().any(|(of, _)| of == letter) || console.corner_radius.is_some() && is_bare(letter)
    };
    let fact = |name: String, value: String| Fact {
        name,
        value,
        origin: "outline, moved in along the wrap as the two meet; over the outsides".to_owned(),
        ..Fact::default()
    };
    let count = corners.len();
    let edge = |number: usize| {
        let ends = [&corners[number], &corners[(number + 1) % count]];
        let round: Vec<&str> = ends.iter().map(|end| end.0.as_str()).filter(|end| is_round(end)).collect();
        let [from, to] = ends;
        let crossing = if round.is_empty() {
            String::new()
        } else {
            format!(", to where straightedges along both edges cross at {}", round.join(" and "))
        };
        fact(format!("edge {}{}, over the outsides{crossing}", from.0, to.0), print(from, to))
    };
    let diagonals = [0, 1].into_iter().flat_map(|from| {
        let beside = move |to: usize| (to + 1) % count == from || (from + 1) % count == to || from == to;
        (0..count).filter(move |&to| !beside(to)).map(move |to| [from, to])
    });
    let diagonals: Vec<String> = diagonals
        .map(|pair| pair.map(|number| &corners[number]))
        .filter(|ends| ends.iter().all(|end| !is_round(&end.0)))
        .map(|[from, to]| format!("{} to {} {}", from.0, to.0, print(from, to)))
        .collect();
    let mut all: Vec<Fact> = (0..count).map(edge).collect();
    if !diagonals.is_empty() {
        all.push(fact("diagonals of the side, over the outsides".to_owned(), diagonals.join(", ")));
    }
    all
}

/// Where the corners of a bulkhead lie from both ends of its longest flange, and how long that is, all where outsides of flanges
/// meet; none where fewer than two flanges meet there.
pub(super) fn corners_from_base(flats: &Flats, part: &PlannedPart) -> Vec<Fact> {
    let folded = &part.shaped.part;
    let Some(root) = folded.faces.first() else { return Vec::new() };
    let count = root.corners.len();
    let flange = |edge: usize| match root.edges[edge] {
        Edge::Bend(bend) => {
            let name = folded.faces[folded.bends[bend].child].name.as_str();
            Some(name.strip_prefix("flange ").unwrap_or(name))
        }
        _ => None,
    };
    let at = |corner: usize| root.corners[corner % count];
    let long_mm = |edge: &usize| at(*edge).distance(at(edge + 1));
    // Between two runs whose flanges stop short of one another the root has corners of its own: only whole runs are told.
    let base =
        (0..count).filter(|&edge| flange(edge).is_some()).max_by(|a, b| long_mm(a).total_cmp(&long_mm(b)));
    let Some(base) = base else { return Vec::new() };
    let name = |corner: usize| {
        let (before, after) = (flange((corner + count - 1) % count)?, flange(corner % count)?);
        Some(format!("corner of {before} and {after}"))
    };
    let print =
        |from: usize, to: usize| Length::from_millimetres(at(from).distance(at(to))).print(flats.job.style);
    let fact = |name: String, value: String| Fact {
        name,
        value,
        origin: "outline, where the outsides of the flanges meet".to_owned(),
        ..Fact::default()
    };
    let Some([start, end]) = name(base).zip(name(base + 1)).map(|(start, end)| [start, end]) else {
        return Vec::new();
    };
    let whole = fact(format!("from the {start} to the {end}, over the outsides"), print(base, base + 1));
    let others = (2..count).map(|step| (base + step) % count).filter_map(|corner| {
        let value =
            format!("{} from the {start}, {} from the {end}", print(corner, base), print(corner, base + 1));
        Some(fact(format!("{}, over the outsides", name(corner)?), value))
    });
    std::iter::once(whole).chain(others).collect()
}
