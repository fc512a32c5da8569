//! Names on a small picture of a folded part, which stands beside its flat: only what the flat has too, and every letter of a
//! corner.

use std::collections::BTreeSet;

use geometry::{Point, polygon};

use super::labels::{Corner, Labels, SeenFace};
use crate::drawing::label::Label;
use crate::drawing::{NAMES_EM, leader};
use crate::isometric::{Scene, ViewLine, places};
use crate::page::Item;
use crate::page::font::Weight;
use crate::placing::Field;

/// How much is left free round every word, in text heights: two letters close to one another read as one name.
const ALONE_EM: f64 = 0.35;

/// What is named besides corners.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Names {
    /// Every face that is seen, and every edge that has words.
    All,
    /// Faces that have room for their names.
    WithRoom,
}

/// Names on a small picture.
pub(crate) struct Small {
    /// The words with their leaders.
    pub(crate) items: Vec<Item>,
    /// True when letters stand in brackets.
    pub(crate) in_brackets: bool,
}

/// What is seen of a folded part, whatever size it is drawn in.
pub(crate) struct Sighted<'a> {
    scene: Scene,
    /// By their numbers, `None` for one that looks away.
    faces: Vec<Option<SeenFace<'a>>>,
    corners: Vec<Corner<'a>>,
}

impl<'a> Labels<'a> {
    /// Looks at every face and every lettered corner.
    pub(crate) fn sighted(&self) -> Sighted<'a> {
        let scene = Scene::of(self.facets, self.view);
        let faces = (0..self.flat.faces.len()).map(|number| self.seen(&scene, number)).collect();
        let corners = self.corners(&scene);
        Sighted { scene, faces, corners }
    }

    /// The names that the flat has too: of the words in `on_flat`. The root goes by the `mark` where the flat does not name it.
    pub(crate) fn small(
        &self,
        (sighted, lines): (&Sighted<'_>, &[ViewLine]),
        (on_flat, mark): (&BTreeSet<&str>, &str),
        names: Names,
    ) -> Small {
        let ends: Vec<Point> = lines.iter().flat_map(|line| line.ends).collect();
        let bounds = polygon::bounds(&ends);
        let Sighted { scene, faces, .. } = sighted;
        let mut field = Field::default();
        lines.iter().for_each(|line| field.add_line(line.ends[0], line.ends[1]));
        // What stands off its own thing should not lie on another.
        faces.iter().flatten().for_each(|face| field.add_area(face.outline.clone()));
        let (mut items, in_brackets) = self.small_letters(&mut field, sighted, bounds);
        let mut crowded = Vec::new();
        if names == Names::All {
            let edges = self.edge_tips(scene).into_iter().filter(|(words, _)| on_flat.contains(words));
            crowded.extend(
                edges.map(|(words, tips)| {
                    (Label { weight: Weight::Bold, ..self.label(words, NAMES_EM) }, tips)
                }),
            );
        }
        for (number, seen) in faces.iter().enumerate() {
            let Some(seen) = seen.as_ref().filter(|seen| !seen.places.is_empty()) else { continue };
            let name = self.flat.faces[number].name.as_str();
            let label = match (on_flat.contains(name), number) {
                (true, _) => self.label(name, NAMES_EM),
                (false, 0) if on_flat.contains(mark) => {
                    Label { weight: Weight::Bold, ..self.label(mark, 1.2) }
                }
                (false, _) => continue,
            };
            match self.on_the_face(&mut field, scene, seen, std::slice::from_ref(&label)) {
                Some(own) => items.extend(alone(&mut field, own)),
                None if names == Names::All => crowded.push((label, places::spread(&seen.places))),
                None => {}
            }
        }
        for (label, tips) in crowded {
            let own = leader::place_off_areas(&mut field, &label, &tips, bounds);
            items.extend(alone(&mut field, own));
        }
        Small { items, in_brackets }
    }

    /// Letters of corners, those behind metal in brackets, and whether there are any of these.
    fn small_letters(
        &self,
        field: &mut Field,
        sighted: &Sighted<'_>,
        bounds: (Point, Point),
    ) -> (Vec<Item>, bool) {
        let (mut items, mut in_brackets) = (Vec::new(), false);
        for corner in &sighted.corners {
            let bold = |words: &str| Label { weight: Weight::Bold, ..self.label(words, 1.0) };
            let own = if corner.is_seen {
                self.letter(field, &sighted.scene, (&bold(&corner.letter), corner), bounds)
            } else {
                in_brackets = true;
                let label = bold(&format!("({})", corner.letter));
                leader::place_off_areas(field, &label, &[corner.place], bounds)
            };
            items.extend(alone(field, own));
        }
        (items, in_brackets)
    }
}

/// Keeps other words a little off the words among these items.
fn alone(field: &mut Field, items: Vec<Item>) -> Vec<Item> {
    for item in &items {
        if let Item::Text(text) = item {
            field.keep_quiet(text.bounding_box().grown(ALONE_EM * text.size_mm));
        }
    }
    items
}
