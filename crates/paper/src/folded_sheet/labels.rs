//! Names on a folded part: faces where they are seen, letters at the root's corners, seams.

use fold::FlatPattern;
use fold::facets::{Facet, Facets, Place, Surface};
use fold::part::Side;
use geometry::{Frame, Point, Vector, polygon};

use crate::drawing::label::Label;
use crate::drawing::leader;
use crate::drawing::named::{self, Named};
use crate::isometric::{Scene, View, ViewLine, places};
use crate::page::font::Weight;
use crate::page::{Item, TextBox};
use crate::placing::Field;

/// Steps of the search for room on a face, each way.
const STEPS: u32 = 16;

/// A lettered corner is another face's own where the root lies so many times as far off, and this much more, mm: a corner that
/// is notched away lies about as far from the root as from the flange beside it.
const TIMES_FARTHER: f64 = 4.0;
const LEAST_OFF_MM: f64 = 10.0;

/// What is labelled, and how it is seen.
pub(crate) struct Labels<'a> {
    pub(crate) flat: &'a FlatPattern,
    pub(crate) facets: &'a Facets,
    pub(crate) named: &'a Named,
    pub(crate) view: View,
    pub(crate) text_mm: f64,
}

/// A face that looks toward the eye, on paper.
pub(super) struct SeenFace<'a> {
    facet: &'a Facet,
    pub(super) outline: Vec<Point>,
    /// Holes: nothing of the face is seen there.
    holes: Vec<Vec<Point>>,
    /// Places where it is seen.
    pub(super) places: Vec<Point>,
}

/// A lettered corner on paper.
pub(super) struct Corner<'a> {
    pub(super) letter: String,
    /// Where it lies, or where a seam that ends there is seen.
    pub(super) place: Point,
    /// True when nothing stands before that.
    pub(super) is_seen: bool,
    /// The face that it is seen on.
    face: Option<SeenFace<'a>>,
}

impl<'a> Labels<'a> {
    /// All labels, and the names of faces that are not seen.
    pub(super) fn items(&self, lines: &[ViewLine], bounds: (Point, Point)) -> (Vec<Item>, Vec<String>) {
        let mut field = Field::default();
        for line in lines {
            field.add_line(line.ends[0], line.ends[1]);
        }
        let scene = Scene::of(self.facets, self.view);
        let mut unseen = Vec::new();
        let mut items = self.letters(&mut field, &scene, bounds, &mut unseen);
        items.extend(self.edges(&mut field, &scene, bounds));
        let mut crowded = Vec::new();
        for (number, face) in self.flat.faces.iter().enumerate() {
            let seen = self.seen(&scene, number);
            let Some(seen) = seen.filter(|seen| !seen.places.is_empty()) else {
                unseen.push(face.name.clone());
                continue;
            };
            let labels = [1.0, 0.85].map(|size_em| self.label(&face.name, size_em));
            match self.on_the_face(&mut field, &scene, &seen, &labels) {
                Some(label) => items.extend(label),
                None => crowded.push((self.label(&face.name, 0.85), places::spread(&seen.places))),
            }
        }
        crowded.extend(self.seams(&scene));
        for (label, tips) in crowded {
            items.extend(leader::place(&mut field, &label, &tips, bounds));
        }
        (items, unseen)
    }

    pub(super) fn label(&self, words: &str, size_em: f64) -> Label {
        Label::new(words, size_em * self.text_mm)
    }

    /// The side of a face that looks toward the eye, with places where it is seen.
    pub(super) fn seen(&self, scene: &Scene, number: usize) -> Option<SeenFace<'a>> {
        let own = |facet: &&Facet| {
            facet.place == Place::Face(number)
                && facet.surface != Surface::Cut
                && 0.0 < facet.normal.dot(self.view.toward)
        };
        let facet = self.facets.facets.iter().find(own)?;
        let flat =
            |ring: &Vec<_>| ring.iter().map(|&corner| self.view.project(corner).0).collect::<Vec<Point>>();
        let outline = flat(facet.rings.first()?);
        let holes = facet.rings.iter().skip(1).map(flat).collect();
        let mut seen = SeenFace { facet, outline, holes, places: Vec::new() };
        let all = places::grid(polygon::bounds(&seen.outline), STEPS);
        seen.places = all.filter(|&place| self.is_on(scene, &seen, place)).collect();
        Some(seen)
    }

    /// True when the face is what is seen at `place`.
    fn is_on(&self, scene: &Scene, seen: &SeenFace<'_>, place: Point) -> bool {
        polygon::contains(&seen.outline, place)
            && !seen.holes.iter().any(|hole| polygon::contains(hole, place))
            && scene.sees((place, self.view.nearness(seen.facet, place)))
    }

    /// The first of the labels for which a clear room lies wholly on what is seen of the face, nearest to the middle of that.
    pub(super) fn on_the_face(
        &self,
        field: &mut Field,
        scene: &Scene,
        seen: &SeenFace<'_>,
        labels: &[Label],
    ) -> Option<Vec<Item>> {
        let level = Vector::new(1.0, 0.0);
        labels.iter().find_map(|label| {
            let fits = |centre: &Point| {
                let room = label.room(*centre, level).grown(0.2 * label.size_mm);
                let is_in_room =
                    |hole: &Vec<Point>| hole.iter().any(|&at| polygon::contains(&room.corners, at));
                room.corners.iter().all(|&corner| self.is_on(scene, seen, corner))
                    && !seen.holes.iter().any(is_in_room)
                    && field.is_clear(&room)
            };
            let centre = places::nearest_to_middle(&seen.places, fits)?;
            field.take(label.room(centre, level));
            Some(label.items(centre, level))
        })
    }

    /// Letters of corners: on the seen side of their face beside them, else on a leader to the corner or to a seam that ends
    /// there; the letters of corners that nothing seen belongs to are added to `unseen`.
    fn letters(
        &self,
        field: &mut Field,
        scene: &Scene,
        bounds: (Point, Point),
        unseen: &mut Vec<String>,
    ) -> Vec<Item> {
        let mut items = Vec::new();
        for corner in self.corners(scene) {
            if corner.is_seen {
                let label = Label { weight: Weight::Bold, ..self.label(&corner.letter, 1.2) };
                items.extend(self.letter(field, scene, (&label, &corner), bounds));
            } else {
                unseen.push(format!("corner {}", corner.letter));
            }
        }
        items
    }

    /// The letter of a corner that is seen.
    pub(super) fn letter(
        &self,
        field: &mut Field,
        scene: &Scene,
        (label, corner): (&Label, &Corner<'_>),
        bounds: (Point, Point),
    ) -> Vec<Item> {
        let Some(face) = &corner.face else {
            return leader::place(field, label, &[corner.place], bounds);
        };
        let middle = polygon::centroid(&face.outline);
        let holds = |room: &TextBox| {
            std::iter::once(room.centre()).chain(room.corners).all(|point| self.is_on(scene, face, point))
        };
        named::at_corner(field, label, (corner.place, middle), holds, bounds)
    }

    /// Every lettered corner.
    pub(super) fn corners(&self, scene: &Scene) -> Vec<Corner<'a>> {
        let folded = fold::refold::fold(self.flat);
        let corner = |(letter, corner): (String, Point)| {
            let number = self.face_at(corner);
            let (face, frame) = (&self.flat.faces[number], &folded[number]);
            let own = self.seen(scene, number);
            let seen_z = own.as_ref().map(|seen| match seen.facet.surface {
                Surface::Skin(Side::Face) => self.flat.thickness_mm,
                Surface::Skin(Side::Back) | Surface::Cut => 0.0,
            });
            // A corner on the mold lines of bends lies off the metal: the face begins a few thicknesses inward.
            let inward = (polygon::centroid(&face.corners) - corner).unit() * self.flat.thickness_mm;
            let places = [0.0, 1.0, 2.0, 3.0, 5.0].into_iter().flat_map(|steps| {
                let heights = seen_z.into_iter().chain([0.0, self.flat.thickness_mm]);
                heights.map(move |z_mm| self.view.project(frame.place(corner + inward * steps, z_mm)))
            });
            let own_place = places.into_iter().find(|&place| scene.sees(place)).map(|(place, _)| place);
            let place = own_place.or_else(|| self.seam_end((scene, &folded), &letter));
            Corner {
                letter,
                is_seen: place.is_some(),
                place: place.unwrap_or_else(|| self.view.project(frame.place(corner, 0.0)).0),
                face: own.filter(|_| own_place.is_some()),
            }
        };
        self.named.letters(self.flat).into_iter().map(corner).collect()
    }

    /// The face that a lettered corner belongs to: the root, but for a corner far off it that another face is near to, as on
    /// the second half of a crowned top.
    fn face_at(&self, corner: Point) -> usize {
        let off_mm = |number: usize| {
            let corners = &self.flat.faces[number].corners;
            if polygon::contains(corners, corner) {
                return 0.0;
            }
            let edges = polygon::edges(corners);
            edges.map(|edge| polygon::point_to_segment(corner, edge)).fold(f64::INFINITY, f64::min)
        };
        let others = 1..self.flat.faces.len();
        let nearest = others.min_by(|&a, &b| off_mm(a).total_cmp(&off_mm(b)));
        let is_its_own = |&other: &usize| TIMES_FARTHER * off_mm(other) + LEAST_OFF_MM < off_mm(0);
        nearest.filter(is_its_own).unwrap_or(0)
    }

    /// A seen place on a seam that is named after a corner: "wall at corner C".
    fn seam_end(&self, (scene, folded): (&Scene, &[Frame]), letter: &str) -> Option<Point> {
        let own = self.flat.seams.iter().filter(|seam| seam.name.split(' ').any(|word| word == letter));
        let places = own.flat_map(|seam| {
            let sides = [&seam.first, &seam.second].into_iter();
            sides.flat_map(|(face, [a, b])| {
                let frame = &folded[*face];
                [0.5, 0.2, 0.8].into_iter().flat_map(move |share| {
                    [0.0, self.flat.thickness_mm]
                        .map(|z_mm| self.view.project(frame.place(a.toward(*b, share), z_mm)))
                })
            })
        });
        places.into_iter().find(|&place| scene.sees(place)).map(|(place, _)| place)
    }

    /// Words of edges that are seen, on leaders.
    fn edges(&self, field: &mut Field, scene: &Scene, bounds: (Point, Point)) -> Vec<Item> {
        let mut items = Vec::new();
        for (words, tips) in self.edge_tips(scene) {
            let label = Label { weight: Weight::Bold, ..self.label(words, 0.85) };
            items.extend(leader::place(field, &label, &tips, bounds));
        }
        items
    }

    /// Words of the edges that are seen, each with the places a leader may point to.
    pub(super) fn edge_tips(&self, scene: &Scene) -> Vec<(&str, Vec<Point>)> {
        let tips = |[from, to]: &[Point; 2]| -> Vec<Point> {
            let at = |share: f64| {
                let heights = [self.flat.thickness_mm, 0.0].into_iter();
                heights.map(move |z_mm| self.view.project(Frame::WORLD.place(from.toward(*to, share), z_mm)))
            };
            let places = named::TIP_SHARES.into_iter().flat_map(at);
            places.filter(|&place| scene.sees(place)).map(|(place, _)| place).take(4).collect()
        };
        let all = self.named.edges.iter().map(|(words, ends)| (words.as_str(), tips(ends)));
        all.filter(|(_, tips)| !tips.is_empty()).collect()
    }

    /// The seams that are seen, each with the places a leader may point to.
    fn seams(&self, scene: &Scene) -> Vec<(Label, Vec<Point>)> {
        let folded = fold::refold::fold(self.flat);
        let mut labels = Vec::new();
        for seam in &self.flat.seams {
            let places = [&seam.first, &seam.second].into_iter().flat_map(|(face, [a, b])| {
                let shares = [0.5, 0.35, 0.65, 0.2, 0.8];
                let heights = [0.0, self.flat.thickness_mm];
                let frame = &folded[*face];
                shares.into_iter().flat_map(move |share| {
                    heights.map(|z_mm| self.view.project(frame.place(a.toward(*b, share), z_mm)))
                })
            });
            let tips: Vec<Point> =
                places.filter(|&place| scene.sees(place)).map(|(place, _)| place).take(4).collect();
            if !tips.is_empty() {
                labels.push((self.label(&seam.name, 0.85), tips));
            }
        }
        labels
    }
}
