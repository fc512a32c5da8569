//! The side panel of a console, as the starboard one is seen from its outside.

use fold::Direction;
use fold::part::{Edge, Face, FoldedPart};
use geometry::outline::Chords;
use geometry::{Contour, Point, Segment, trig};

use super::Console;
use crate::plan::side_facts;
use crate::runs::{Run, RunFlange, Runs};
use crate::{Figure, Making, Problem, Shaped};

/// How far a flange stops short of where an arc begins, in widths of the saw notch beside it: one for the notch, one
/// of metal.
const SHORT_OF_ARC: f64 = 2.0;

/// One corner of the side panel: where its arc begins and ends, or the corner itself twice.
pub(super) struct Rounded {
    points: Vec<Point>,
    centre: Option<Point>,
    convex: bool,
}

impl Rounded {
    /// Whether a place lies on the arc, or is the corner.
    pub(super) fn has(&self, place: Point) -> bool {
        let near = |mm: f64| mm.abs() <= geometry::tolerance::SAME_POINT_MM;
        let (Some(centre), &[first, last]) = (self.centre, self.points.as_slice()) else {
            return self.points.iter().any(|point| near(point.distance(place)));
        };
        // Within the sector: no farther from its middle than its ends are.
        let middle = centre + (first.toward(last, 0.5) - centre).unit() * first.distance(centre);
        let reach_mm = middle.distance(first) + geometry::tolerance::SAME_POINT_MM;
        near(place.distance(centre) - first.distance(centre)) && place.distance(middle) <= reach_mm
    }
}

impl Console {
    /// Builds the side panel.
    pub(super) fn side(&self, making: &Making) -> Result<Shaped, Vec<Problem>> {
        let none =
            || vec![Problem::new("outline", "as given", "the wrap closes it up", "make the console larger")];
        let inside = self.moved_in(self.side_in_mm(making)).ok_or_else(none)?;
        let facts = side_facts(
            &inside,
            "side panel, mold lines,",
            "outline, moved in along the wrap as the two meet",
        );
        let part = match self.flange(making) {
            None => self.plain_side(&inside, making),
            Some(leg) => self.flanged_side(&inside, leg.millimetres(), making)?,
        };
        Ok(Shaped { part, facts })
    }

    /// The radius of the side panel's corner, mm, about the same centre as the wrap's; at bare corners the one that is asked for,
    /// none at others that the wrap does not go round.
    fn side_radius_mm(&self, corner: usize, making: &Making) -> Option<f64> {
        if self.bare_corners().contains(&corner) {
            return self.corner_radius.map(units::Length::millimetres);
        }
        let legs = self.legs();
        let count = self.outline.count();
        let wrapped = legs.contains(&((corner + count - 1) % count)) && legs.contains(&corner);
        let radius = self.bend_radius_mm(corner, making);
        let hollow = self.turn_rad(corner) < 0.0;
        let inward = self.side_in_mm(making);
        let outer = radius + making.thickness_mm();
        let own = if hollow { radius + inward } else { outer - inward };
        (wrapped && own > geometry::tolerance::SAME_POINT_MM).then_some(own)
    }

    /// True for a corner with a radius that the job gives, and no brake bend's.
    fn has_own_radius(&self, corner: usize) -> bool {
        self.radius(corner).is_some() || self.bare_corners().contains(&corner)
    }

    /// Both ends of a corner's arc; only corners with a radius of their own when `given_only`.
    pub(super) fn rounded(
        &self,
        inside: &Figure,
        corner: usize,
        given_only: bool,
        making: &Making,
    ) -> Rounded {
        let point = inside.corners[corner];
        let turn_rad = self.turn_rad(corner);
        let radius =
            self.side_radius_mm(corner, making).filter(|_| !given_only || self.has_own_radius(corner));
        let Some(radius) = radius else {
            return Rounded { points: vec![point], centre: None, convex: turn_rad > 0.0 };
        };
        let count = inside.count();
        let before = (point - inside.corners[(corner + count - 1) % count]).unit();
        let after = (inside.corners[(corner + 1) % count] - point).unit();
        let reach = radius * trig::tan(0.5 * turn_rad.abs());
        let first = point - before * reach;
        let toward = if turn_rad > 0.0 { before.left() } else { before.right() };
        Rounded {
            points: vec![first, point + after * reach],
            centre: Some(first + toward * radius),
            convex: turn_rad > 0.0,
        }
    }

    /// A plain plate, its corners true arcs.
    fn plain_side(&self, inside: &Figure, making: &Making) -> FoldedPart {
        let mut segments = Vec::new();
        for corner in 0..inside.count() {
            let rounded = self.rounded(inside, corner, false, making);
            // One round may go over into the next without a straight.
            if segments.last().is_none_or(|last: &Segment| apart(last.end(), rounded.points[0])) {
                segments.push(Segment::Line { to: rounded.points[0] });
            }
            if let (Some(centre), Some(&to)) = (rounded.centre, rounded.points.get(1)) {
                segments.push(Segment::Arc { to, centre, counter_clockwise: rounded.convex });
            }
        }
        // The contour starts where its last segment ends.
        if let (Some(Segment::Line { to }), Some(last)) = (segments.first(), segments.last())
            && !apart(*to, last.end())
        {
            segments.remove(0);
        }
        let contour = Contour { segments };
        let corners = contour.corners(Chords::On);
        let rounded = contour.segments.iter().any(|segment| matches!(segment, Segment::Arc { .. }));
        let making_corners = making.corners();
        FoldedPart::unbent(
            making.number.clone(),
            vec![Face {
                name: "side".to_owned(),
                edges: vec![Edge::Free; corners.len()],
                corners,
                holes: Vec::new(),
                rim: rounded.then_some(contour),
            }],
            making_corners.relief,
            making_corners.notch_width_mm,
        )
    }

    /// How far flanges stand back from a sharp corner of the side panel so that they end where the inside of the wrap's bend
    /// begins: R·tan(turn/2) with R about the same centre (plane geometry), mm. In a hollow the bend turns away from them.
    fn behind_bend_mm(&self, corner: usize, making: &Making) -> f64 {
        let turn_rad = self.turn_rad(corner);
        let radius_mm = self.side_radius_mm(corner, making).filter(|_| 0.0 < turn_rad);
        radius_mm.map_or(0.0, |radius_mm| radius_mm * trig::tan(0.5 * turn_rad))
    }

    /// Flanges in along every wrapped straight; they stop short of arcs, which are cut in chords, and at other corners of
    /// the wrap's bends.
    fn flanged_side(
        &self,
        inside: &Figure,
        leg_mm: f64,
        making: &Making,
    ) -> Result<FoldedPart, Vec<Problem>> {
        let legs = self.legs();
        let short = SHORT_OF_ARC * making.corners().notch_width_mm;
        let (mut corners, mut runs) = (Vec::new(), Vec::new());
        let mut push = |corner: Point, name: &str, flanged: bool, least_back_mm: f64| {
            corners.push(corner);
            let flange = flanged.then_some(RunFlange { leg_mm, direction: Direction::Down });
            runs.push(Run { name: name.to_owned(), flange, least_back_mm });
        };
        for side in 0..inside.count() {
            let name = &inside.sides[side];
            let (here, next) = (
                self.rounded(inside, side, true, making),
                self.rounded(inside, self.corner_after(side), true, making),
            );
            for point in arc_points(&here) {
                push(point, "arc", false, 0.0);
            }
            let (start, end) = (here.points[here.points.len() - 1], next.points[0]);
            if !apart(start, end) {
                // One round goes over into the next, which begins with this point.
                continue;
            }
            let along = (end - start).unit();
            let flanged = legs.contains(&side);
            if flanged && here.centre.is_some() {
                push(start, name, false, 0.0);
                push(start + along * short, name, true, 0.0);
            } else {
                push(start, name, flanged, self.behind_bend_mm(side, making));
            }
            if flanged && next.centre.is_some() {
                push(end - along * short, name, false, 0.0);
            }
        }
        let slit_mm = making.corners().notch_width_mm;
        let runs =
            Runs { name: "side".to_owned(), corners, runs, holes: Vec::new(), slit_mm, ends_meet: false };
        runs.build(making).map_err(|room| {
            let taken = making.print_mm(room.taken_mm + 2.0 * short);
            let wrong = format!("no length is left to its flange; its ends take {taken}");
            vec![Problem::new(
                "side_flange",
                &runs.runs[room.run].name,
                wrong,
                "take a smaller flange or radius",
            )]
        })
    }
}

fn apart(a: Point, b: Point) -> bool {
    a.distance(b) > geometry::tolerance::SAME_POINT_MM
}

/// Points along an arc before its end; none where the corner is sharp.
fn arc_points(rounded: &Rounded) -> Vec<Point> {
    let (Some(centre), &[first, last]) = (rounded.centre, rounded.points.as_slice()) else {
        return Vec::new();
    };
    let segments = vec![
        Segment::Arc { to: last, centre, counter_clockwise: rounded.convex },
        Segment::Line { to: first },
    ];
    let chords = Contour { segments }.corners(Chords::On).into_iter();
    // The arc's end belongs to the run after it.
    std::iter::once(first).chain(chords.filter(|&point| apart(point, first) && apart(point, last))).collect()
}
