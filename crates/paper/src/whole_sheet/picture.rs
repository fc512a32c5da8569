//! One picture of a whole: its lines, the marks of its pieces, letters at its corners, and what stands across it.

use fold::facets::{Facet, Facets, Surface};
use geometry::{Point, Point3, Vector, Vector3, polygon};

use super::{StandingPiece, WholeSheet};
use crate::drawing::label::Label;
use crate::drawing::{leader, named};
use crate::isometric::{self, Scene, View, ViewLine, middle, places};
use crate::page::font::Weight;
use crate::page::{Item, Pen, TextBox};
use crate::placing::Field;

/// Steps of the search for room on a side, each way.
const STEPS: u32 = 14;

/// So many of a piece's sides are looked at for room, the largest first.
const SIDES: usize = 3;

/// How large a letter is, in text heights.
const LETTER_EM: f64 = 1.2;

/// A picture in the making.
pub(super) struct Picture<'a> {
    pub(super) sheet: &'a WholeSheet<'a>,
    /// Of all pieces.
    pub(super) all: &'a Facets,
    pub(super) view: View,
    pub(super) lines: &'a [ViewLine],
    pub(super) text_mm: f64,
}

/// A side that looks toward the eye, with places where it is seen.
struct Seen<'a> {
    facet: &'a Facet,
    rings: Vec<Vec<Point>>,
    places: Vec<Point>,
}

impl Picture<'_> {
    /// All of it.
    pub(super) fn items(&self) -> Vec<Item> {
        let mark = self.sheet.mark;
        let scene = Scene::of(self.all, self.view);
        let mut field = Field::default();
        for line in self.lines {
            field.add_line(line.ends[0], line.ends[1]);
        }
        // A word in an opening would seem to name what is seen through it.
        for facet in self.sheet.pieces.iter().flat_map(|piece| sides(piece, self.view)) {
            rings(facet, self.view).into_iter().skip(1).for_each(|hole| field.add_area(hole));
        }
        let ends: Vec<Point> = self.lines.iter().flat_map(|line| line.ends).collect();
        let bounds = polygon::bounds(&ends);
        let (across, tips) = self.across(&scene, &mut field);
        let mut labels = self.letters(&scene, &mut field, bounds);
        let mut crowded = Vec::new();
        for piece in self.sheet.pieces {
            let seen = self.seen(piece, &scene);
            let label = Label { weight: Weight::Bold, ..Label::new(piece.mark.as_str(), self.text_mm) };
            match seen.iter().find_map(|side| self.on_the_side(&mut field, &scene, side, &label)) {
                Some(items) => labels.extend(items),
                None => crowded.extend(seen.first().map(|side| (label, places::spread(&side.places)))),
            }
        }
        crowded.extend(tips);
        for (label, tips) in crowded {
            labels.extend(laid_alone(&mut field, &label, &tips, bounds));
        }
        let mut drawn = isometric::drawn(self.lines, |at| at);
        drawn.extend(across);
        vec![Item::group(format!("{mark} together"), drawn), Item::group(format!("{mark} marks"), labels)]
    }

    /// What stands across, where it is seen, with a label for each.
    fn across(&self, scene: &Scene, field: &mut Field) -> (Vec<Item>, Vec<(Label, Vec<Point>)>) {
        let (mut items, mut labels) = (Vec::new(), Vec::new());
        for (name, ends) in self.sheet.lines {
            let seen = isometric::seen_of(scene, self.view, *ends);
            let Some(longest) = seen.iter().max_by(|a, b| length(a).total_cmp(&length(b))) else { continue };
            let tips = [0.0, 1.0, 0.5].map(|share| longest[0].toward(longest[1], share)).to_vec();
            labels.push((Label::new(name.as_str(), self.text_mm), tips));
            for [from, to] in seen {
                field.add_hairline(from, to);
                items.push(Item::line(from, to, Pen::Extension));
            }
        }
        (items, labels)
    }

    /// Letters of corners, those behind metal in brackets, and words of edges that are seen.
    fn letters(&self, scene: &Scene, field: &mut Field, bounds: (Point, Point)) -> Vec<Item> {
        let mut items = Vec::new();
        let mut lay = |words: &str, size_em: f64, tips: &[Point]| {
            let label = Label { weight: Weight::Bold, ..Label::new(words, size_em * self.text_mm) };
            items.extend(laid_alone(field, &label, tips, bounds));
        };
        for (letter, corner) in self.sheet.letters {
            if sees_corner(scene, self.view, *corner) {
                lay(letter, LETTER_EM, &[self.view.project(*corner).0]);
            }
        }
        for (words, [from, to]) in self.sheet.edges {
            let at = named::TIP_SHARES.map(|share| from.toward(*to, share));
            let seen = at.into_iter().filter(|&at| sees_corner(scene, self.view, at));
            let tips: Vec<Point> = seen.map(|at| self.view.project(at).0).collect();
            if !tips.is_empty() {
                lay(words, 1.0, &tips);
            }
        }
        for (letter, corner) in hidden_letters(self.sheet, scene, self.view) {
            lay(&format!("({letter})"), LETTER_EM, &[self.view.project(corner).0]);
        }
        items
    }

    /// The largest sides of a piece that are seen, with places on them.
    fn seen<'p>(&self, piece: &'p StandingPiece, scene: &Scene) -> Vec<Seen<'p>> {
        let side = |facet: &'p Facet| Seen { facet, rings: rings(facet, self.view), places: Vec::new() };
        let area = |side: &Seen<'_>| polygon::signed_area(&side.rings[0]).abs();
        let mut all: Vec<Seen<'p>> = sides(piece, self.view).map(side).collect();
        all.sort_by(|a, b| area(b).total_cmp(&area(a)));
        for side in &mut all {
            let all = places::grid(polygon::bounds(&side.rings[0]), STEPS);
            side.places = all.filter(|&place| self.is_on(scene, side, place)).collect();
        }
        all.retain(|side| !side.places.is_empty());
        all.truncate(SIDES);
        all
    }

    /// True when a side is what is seen at a place.
    fn is_on(&self, scene: &Scene, side: &Seen<'_>, place: Point) -> bool {
        is_metal(&side.rings, place) && scene.sees((place, self.view.nearness(side.facet, place)))
    }

    /// A mark on the side itself, where a clear room lies wholly on what is seen of it; nearest to the middle of that.
    fn on_the_side(
        &self,
        field: &mut Field,
        scene: &Scene,
        side: &Seen<'_>,
        label: &Label,
    ) -> Option<Vec<Item>> {
        let level = Vector::new(1.0, 0.0);
        let holds = |room: &TextBox| room.corners.iter().all(|&corner| self.is_on(scene, side, corner));
        let fits = |centre: &Point| {
            let room = label.room(*centre, level).grown(0.2 * label.size_mm);
            field.is_clear(&room) && field.hairlines_through(&room) == 0 && holds(&room)
        };
        let centre = places::nearest_to_middle(&side.places, fits)?;
        field.take(label.room(centre, level));
        field.keep_quiet(label.room(centre, level).grown(ALONE_EM * label.size_mm));
        Some(label.items(centre, level))
    }
}

/// How much is left free round every word of a picture, in text heights: two marks close to one another read as one.
const ALONE_EM: f64 = 0.7;

/// A label on a leader, and free space round it.
fn laid_alone(field: &mut Field, label: &Label, tips: &[Point], bounds: (Point, Point)) -> Vec<Item> {
    let items = leader::place_off_areas(field, label, tips, bounds);
    for item in &items {
        if let Item::Text(text) = item {
            field.keep_quiet(text.bounding_box().grown(ALONE_EM * label.size_mm));
        }
    }
    items
}

/// A piece is seen where a side of at least this share of its largest is: the collar of a hopper's far face is not that face.
const SEEN_SHARE: f64 = 0.2;

/// How many sides of every piece are seen in a view, by their middles, or by places toward their corners where the middle is hidden;
/// none of a piece of which only small sides are.
pub(super) fn sides_seen(pieces: &[StandingPiece], all: &Facets, view: View) -> Vec<usize> {
    let scene = Scene::of(all, view);
    let is_seen = |facet: &&Facet| {
        let ring = &facet.rings[0];
        let middle = middle(ring);
        let rings = rings(facet, view);
        let places =
            ring.iter().flat_map(|corner| [0.3, 0.6, 0.85].map(|share| middle.toward(*corner, share)));
        let mut places = std::iter::once(middle).chain(places).map(|at| view.project(at));
        places.any(|(place, near)| is_metal(&rings, place) && scene.sees((place, near)))
    };
    let seen = |piece: &StandingPiece| {
        let skins = piece.facets.facets.iter().filter(|facet| facet.surface != Surface::Cut);
        let least = SEEN_SHARE * skins.map(area_mm2).fold(0.0, f64::max);
        let seen: Vec<&Facet> = sides(piece, view).filter(is_seen).collect();
        if seen.iter().any(|facet| least <= area_mm2(facet)) { seen.len() } else { 0 }
    };
    pieces.iter().map(seen).collect()
}

/// True where nothing stands before a lettered corner, or no more than the metal that meets there.
pub(super) fn sees_corner(scene: &Scene, view: View, corner: Point3) -> bool {
    let (place, near) = view.project(corner);
    scene.sees((place, near + CORNER_DEPTH_MM))
}

/// Lettered corners that stand behind metal, but for those of which another place with the same letter is seen.
pub(super) fn hidden_letters<'s>(
    sheet: &'s WholeSheet<'_>,
    scene: &Scene,
    view: View,
) -> Vec<(&'s str, Point3)> {
    let is_seen =
        |letter: &str| sheet.letters.iter().any(|(own, at)| own == letter && sees_corner(scene, view, *at));
    let mut hidden: Vec<(&str, Point3)> = Vec::new();
    for (letter, at) in sheet.letters {
        if !is_seen(letter) && hidden.iter().all(|(known, _)| *known != letter) {
            hidden.push((letter, *at));
        }
    }
    hidden
}

/// How deep a lettered corner may lie in the metal that meets there, mm: at the middle of a plate, behind the one that laps it.
const CORNER_DEPTH_MM: f64 = 10.0;

/// Area of the outer ring of a facet, by the areas of its shadows (Newell), mm².
fn area_mm2(facet: &Facet) -> f64 {
    let ring = &facet.rings[0];
    let first = ring[0];
    let pairs = ring.windows(2).map(|pair| (pair[0] - first).cross(pair[1] - first));
    0.5 * pairs.fold(Vector3::default(), |sum, cross| sum + cross).length()
}

/// The large sides of a piece's plates and bends that look toward the eye.
fn sides(piece: &StandingPiece, view: View) -> impl Iterator<Item = &Facet> {
    let toward = view.toward;
    let faces = move |facet: &&Facet| facet.surface != Surface::Cut && 0.0 < facet.normal.dot(toward);
    piece.facets.facets.iter().filter(faces)
}

fn rings(facet: &Facet, view: View) -> Vec<Vec<Point>> {
    let flat = |ring: &Vec<Point3>| ring.iter().map(|&corner| view.project(corner).0).collect();
    facet.rings.iter().map(flat).collect()
}

/// Whether a place lies in the metal of a facet, not in a hole of it: there it lies in two rings.
fn is_metal(rings: &[Vec<Point>], place: Point) -> bool {
    rings.iter().filter(|ring| polygon::contains(ring, place)).count() % 2 == 1
}

fn length(ends: &[Point; 2]) -> f64 {
    ends[0].distance(ends[1])
}
