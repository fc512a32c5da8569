//! From which side a folded part is looked at.

use fold::facets::{Facet, Facets, Place, Surface};
use geometry::{Point, Point3, Vector3, polygon, trig};

use super::hidden::Scene;

/// Which way up a part stands on paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Standing {
    /// Its marked face is up.
    #[default]
    FaceUp,
    /// Its root face lies on top, what is bent off it hangs down: a lid.
    RootOnTop,
    /// Its root face lies below, what is bent off it stands up: a pan.
    RootBelow,
}

/// A parallel view: what is right, up and toward the eye on paper, unit vectors square to one another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct View {
    /// To the right.
    pub right: Vector3,
    /// Up on paper.
    pub up: Vector3,
    /// Toward the eye.
    pub toward: Vector3,
}

/// Directions round the part, degrees from its x axis; the lower right ones first, as drawings of the trade have it.
const ROUND_DEGREES: [f64; 12] =
    [-45.0, -60.0, -30.0, -135.0, -120.0, -150.0, 45.0, 60.0, 30.0, 135.0, 120.0, 150.0];

/// Heights of the eye over the level, degrees: that of the isometric view, in which all three axes are shortened alike
/// (its tangent is 1/√2), and two others.
const HEIGHT_DEGREES: [f64; 3] = [35.264_389_682_754_654, 50.0, 25.0];

/// A face counts as seen when this share of its places is.
const SEEN_SHARE: f64 = 0.25;

impl View {
    /// The view from `round` degrees about the upright axis and `height` degrees over the level. `sign` is −1 where the
    /// part stands on its head.
    #[must_use]
    pub fn from_direction(round_degrees: f64, height_degrees: f64, sign: f64) -> Self {
        let (round, height) = (round_degrees.to_radians(), height_degrees.to_radians());
        let level = Vector3::new(trig::cos(round), sign * trig::sin(round), 0.0);
        let upright = Vector3::new(0.0, 0.0, sign);
        let toward = level * trig::cos(height) + upright * trig::sin(height);
        let right = upright.cross(toward).unit();
        Self { right, up: toward.cross(right), toward }
    }

    /// The place on paper, and the nearness to the eye, mm.
    #[must_use]
    pub fn project(&self, point: Point3) -> (Point, f64) {
        let at = point - Point3::default();
        (Point::new(at.dot(self.right), at.dot(self.up)), at.dot(self.toward))
    }

    /// Nearness of the plane of a facet at a place on paper, mm.
    pub(crate) fn nearness(&self, facet: &Facet, place: Point) -> f64 {
        let Self { right, up, toward } = *self;
        let (corner, near) = self.project(facet.rings[0][0]);
        let off = place - corner;
        near - (facet.normal.dot(right) * off.x + facet.normal.dot(up) * off.y) / facet.normal.dot(toward)
    }
}

/// The view that shows the most faces, then the most of them; the first of equals.
#[must_use]
pub fn choose(facets: &Facets, standing: Standing) -> View {
    let sign = if stands_on_its_head(facets, standing) { -1.0 } else { 1.0 };
    let views = HEIGHT_DEGREES
        .into_iter()
        .flat_map(|height| ROUND_DEGREES.map(|round| View::from_direction(round, height, sign)));
    let mut best = (View::from_direction(ROUND_DEGREES[0], HEIGHT_DEGREES[0], sign), (0, 0));
    for view in views {
        let shown = shown(facets, view);
        if best.1 < shown {
            best = (view, shown);
        }
    }
    best.0
}

/// Whether the marked face of the root must point down.
fn stands_on_its_head(facets: &Facets, standing: Standing) -> bool {
    let heights = facets
        .facets
        .iter()
        .filter(|facet| facet.place != Place::Face(0))
        .flat_map(|facet| facet.rings.first().into_iter().flatten().map(|corner| corner.z));
    let (low, high) =
        heights.fold((0.0, 0.0), |(low, high): (f64, f64), height| (low.min(height), high.max(height)));
    let hangs = high < -low;
    match standing {
        Standing::FaceUp => false,
        Standing::RootOnTop => !hangs,
        Standing::RootBelow => hangs,
    }
}

/// How many faces are seen, and how many places of faces.
fn shown(facets: &Facets, view: View) -> (usize, usize) {
    let scene = Scene::of_skins(facets, view);
    let mut faces: Vec<(usize, usize, usize)> = Vec::new();
    for facet in &facets.facets {
        let (Place::Face(face), Surface::Skin(_)) = (facet.place, facet.surface) else { continue };
        if facet.normal.dot(view.toward) <= 0.0 {
            continue;
        }
        let places = places(&facet.rings[0], view);
        let seen = places.iter().filter(|&&place| scene.sees(place)).count();
        faces.push((face, seen, places.len()));
    }
    let count = |number: usize| f64::from(u32::try_from(number).unwrap_or(u32::MAX));
    let seen = faces.iter().filter(|(_, seen, of)| SEEN_SHARE * count(*of) <= count(*seen));
    (seen.count(), faces.iter().map(|(_, seen, _)| seen).sum())
}

/// Some places well inside a face, on paper with their nearness: on the way from its middle to its corners and the
/// middles of its edges.
fn places(ring: &[Point3], view: View) -> Vec<(Point, f64)> {
    let middle = middle(ring);
    let following = ring.iter().cycle().skip(1);
    let rim = ring.iter().zip(following).flat_map(|(&a, &b)| [a, a.toward(b, 0.5)]);
    let flat: Vec<Point> = ring.iter().map(|&corner| view.project(corner).0).collect();
    let all = rim.flat_map(|corner| [0.4, 0.75].map(|share| view.project(middle.toward(corner, share))));
    all.filter(|(place, _)| polygon::contains(&flat, *place)).collect()
}

/// The middle of a ring's corners.
pub(crate) fn middle(ring: &[Point3]) -> Point3 {
    let count = f64::from(u32::try_from(ring.len()).unwrap_or(u32::MAX));
    let sum = ring.iter().fold(Vector3::default(), |sum, &corner| sum + (corner - Point3::default()));
    Point3::default() + sum * (1.0 / count)
}
