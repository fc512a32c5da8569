//! A bend zone of the refolded flat as a solid: what the outline leaves of the zone, rolled round the bend's axis.
//!
//! It is worked out from the flat alone: its tangent lines, its turn and what is cut there. Nothing of it rests on how the
//! unfolder came to cut a zone.
//!
//! Source: plane geometry. A place of the metal stands between the inside and the outside radius from the axis; its angle
//! about that, as a share of the turn, is its place across the zone.

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use geometry::{Frame, Point, Point3, Vector3, polygon, tolerance, trig};

use crate::flat::{BendLine, FlatPattern, ReliefCut};
use crate::part::Direction;

/// Angles at which a place's distance is looked at first.
const SECTIONS: u32 = 24;

/// Times that the nearest of them is closed in on, to two thirds each: to a thousandth of a step.
const CLOSER: u32 = 17;

/// How a zone of the flat is rolled up.
#[derive(Debug, Clone, Copy)]
pub(super) struct Roll {
    /// On the axis, over the start of the bend line.
    centre: Point3,
    axis: Vector3,
    /// Off the parent's edge, in the parent's plane.
    across: Vector3,
    /// From the axis to the parent's tangent line.
    to_tangent: Vector3,
    turn_rad: f64,
    zone_mm: f64,
}

/// One bend zone in space.
#[derive(Debug, Clone)]
pub(super) struct Round {
    roll: Roll,
    radii_mm: [f64; 2],
    /// Along the bend, and across it from the parent's tangent line; as it lies on the flat.
    outline: Vec<Point>,
    /// Which of its edges are cut; the others run on into a face.
    cut: Vec<bool>,
    /// Drilled reliefs: centre and radius, as the outline.
    drilled: Vec<(Point, f64)>,
}

impl Round {
    /// Of bend `number`, whose parent came to lie at `parent`.
    pub(super) fn of(flat: &FlatPattern, number: usize, parent: &Frame) -> Self {
        let bend = &flat.bends[number];
        let near = tangent_start(bend);
        let (inside_mm, outside_mm) = (bend.inside_radius_mm, bend.inside_radius_mm + flat.thickness_mm);
        let (centre_z, to_tangent) = match bend.direction {
            Direction::Up => (outside_mm, -parent.z),
            Direction::Down => (-inside_mm, parent.z),
        };
        let outline = outline(flat, number);
        let on = |s: f64, line: f64| (s - line).abs() <= tolerance::SAME_POINT_MM;
        let runs_on = |(a, b): (Point, Point)| {
            [0.0, bend.zone_mm].into_iter().any(|line| on(a.y, line) && on(b.y, line))
        };
        let roll = Roll {
            centre: parent.place(near, centre_z),
            axis: parent.direct(bend.along()),
            across: parent.direct(bend.across()),
            to_tangent,
            turn_rad: bend.turn_rad,
            zone_mm: bend.zone_mm,
        };
        Self {
            roll,
            radii_mm: [inside_mm, outside_mm],
            cut: polygon::edges(&outline).map(|edge| !runs_on(edge)).collect(),
            outline,
            drilled: drilled(flat, |p| on_zone(bend, p)),
        }
    }

    /// How deep a place lies in the metal, mm, below zero outside: to the inside, the outside or a cut end, whichever is
    /// nearest. The sides that run on into faces do not count from within. Never more than the shortest way out as measured
    /// round the axis at the place's own radius.
    pub(super) fn depth_mm(&self, place: Point3) -> f64 {
        let off = place - self.roll.centre;
        let (x, y) = (off.dot(self.roll.across), off.dot(self.roll.to_tangent));
        let radius_mm = (x * x + y * y).sqrt();
        let through = (radius_mm - self.radii_mm[0]).min(self.radii_mm[1] - radius_mm);
        let angle_rad = self.angle_rad(x, y);
        let turn_rad = self.roll.turn_rad;
        let past_rad = (-angle_rad).max(angle_rad - turn_rad);
        let beside =
            if past_rad > 0.0 { -radius_mm * trig::sin(past_rad.min(FRAC_PI_2)) } else { f64::INFINITY };
        if through.min(beside) < -self.radii_mm[1] {
            return through.min(beside);
        }
        let share = (angle_rad / turn_rad).clamp(0.0, 1.0);
        let at = Point::new(off.dot(self.roll.axis), share * self.roll.zone_mm);
        through.min(beside).min(self.within_mm(at, radius_mm))
    }

    /// How far a place is off the metal, mm; zero in it.
    ///
    /// Source: plane geometry. Cut through the axis at any angle the metal is a rectangle, whose distance from the place is plain;
    /// the angle at which that is least is closed in on from the nearest of many.
    pub(super) fn off_mm(&self, place: Point3) -> f64 {
        let off = place - self.roll.centre;
        let at = [off.dot(self.roll.axis), off.dot(self.roll.across), off.dot(self.roll.to_tangent)];
        let own = (self.angle_rad(at[1], at[2]) / self.roll.turn_rad).clamp(0.0, 1.0);
        let steps = (0..=SECTIONS).map(|step| f64::from(step) / f64::from(SECTIONS));
        let found = steps.chain([own]).map(|share| (self.off_section_mm(at, share), share));
        let (mut least_mm, share) =
            found.fold((f64::INFINITY, own), |best, now| if now.0 < best.0 { now } else { best });
        let reach = 1.0 / f64::from(SECTIONS);
        let (mut low, mut high) = ((share - reach).max(0.0), (share + reach).min(1.0));
        for _ in 0..CLOSER {
            let [near, far] = [1.0, 2.0].map(|third: f64| low + (high - low) * third / 3.0);
            let [first, second] = [near, far].map(|share| self.off_section_mm(at, share));
            least_mm = least_mm.min(first).min(second);
            if first < second { high = far } else { low = near }
        }
        least_mm
    }

    /// How far a place, given along the axis, across and toward the tangent line, is off the metal at a share of the turn, mm.
    fn off_section_mm(&self, [along, across, toward]: [f64; 3], share: f64) -> f64 {
        let angle_rad = share * self.roll.turn_rad;
        let (sine, cosine) = (trig::sin(angle_rad), trig::cos(angle_rad));
        let (radius_mm, beside_mm) = (across * sine + toward * cosine, across * cosine - toward * sine);
        let [inside, outside] = self.radii_mm;
        let through_mm = (inside - radius_mm).max(radius_mm - outside).max(0.0);
        // On the tangent lines themselves the outline is not crossed but met.
        let y = share.clamp(tolerance::ZONE_END_SHARE, 1.0 - tolerance::ZONE_END_SHARE) * self.roll.zone_mm;
        let off_ends = self.kept_at(y).into_iter().map(|[from, to]| (from - along).max(along - to).max(0.0));
        let along_mm = off_ends.fold(f64::INFINITY, f64::min);
        (through_mm * through_mm + beside_mm * beside_mm + along_mm * along_mm).sqrt()
    }

    /// What the outline and the drilled reliefs leave of the line along the bend at one place across its zone.
    fn kept_at(&self, across_mm: f64) -> Vec<[f64; 2]> {
        let ends = self.crossings(across_mm);
        let mut kept: Vec<[f64; 2]> = ends.chunks_exact(2).map(|pair| [pair[0], pair[1]]).collect();
        for (centre, hole_mm) in &self.drilled {
            let half = (hole_mm * hole_mm - (across_mm - centre.y) * (across_mm - centre.y)).max(0.0).sqrt();
            let hole = [centre.x - half, centre.x + half];
            let left = |[from, to]: [f64; 2]| [[from, to.min(hole[0])], [from.max(hole[1]), to]];
            kept = kept.into_iter().flat_map(left).filter(|[from, to]| from < to).collect();
        }
        kept
    }

    /// The most that any place on the straight from `a` to `b` can lie in it, mm, by the way through the metal alone.
    pub(super) fn most_through_mm(&self, a: Point3, b: Point3) -> f64 {
        let across = |place: Point3| {
            let off = place - self.roll.centre;
            Point::new(off.dot(self.roll.across), off.dot(self.roll.to_tangent))
        };
        let (axis, a, b) = (Point::default(), across(a), across(b));
        let (nearest, farthest) =
            (polygon::point_to_segment(axis, (a, b)), axis.distance(a).max(axis.distance(b)));
        let [inside, outside] = self.radii_mm;
        (farthest - inside).min(outside - nearest).min(0.5 * (outside - inside))
    }

    /// Angle about the axis from the parent's tangent line, radians; the break lies opposite the middle of the bend.
    fn angle_rad(&self, x: f64, y: f64) -> f64 {
        let angle_rad = trig::atan2(x, y);
        let low = 0.5 * self.roll.turn_rad - PI;
        if angle_rad < low { angle_rad + TAU } else { angle_rad }
    }

    /// How far inside the cut ends a place lies, mm, measured on the cylinder of its radius; below zero beyond them.
    fn within_mm(&self, at: Point, radius_mm: f64) -> f64 {
        let stretch = self.roll.stretch(radius_mm);
        let scaled = |p: Point| Point::new(p.x, p.y * stretch);
        let inside = polygon::contains(&self.outline, at);
        let edges = polygon::edges(&self.outline).zip(&self.cut);
        let off = edges
            .filter(|(_, cut)| !inside || **cut)
            .map(|((a, b), _)| polygon::point_to_segment(scaled(at), (scaled(a), scaled(b))))
            .fold(f64::INFINITY, f64::min);
        let holes = self.drilled.iter().map(|(centre, hole_mm)| centre.distance(at) - hole_mm);
        holes.fold(if inside { off } else { -off }, f64::min)
    }

    /// The edges of the metal: round its ends inside and outside, through the thickness at every corner, and a few lines
    /// along the bend.
    pub(super) fn curves(&self) -> Vec<Curve> {
        let edges: Vec<(Point, Point)> = polygon::edges(&self.outline).collect();
        let ends = edges.iter().zip(&self.cut).filter(|(_, cut)| **cut);
        let round = ends
            .flat_map(|(edge, _)| self.radii_mm.map(|radius_mm| Curve::Round(self.roll, *edge, radius_mm)));
        let corners = edges.iter().map(|(corner, _)| {
            let [inside, outside] = self.radii_mm.map(|radius_mm| self.roll.place(*corner, radius_mm));
            Curve::Straight(inside, outside)
        });
        let lines =
            [0.125, 0.375, 0.625, 0.875].into_iter().flat_map(|share| self.lines(share * self.roll.zone_mm));
        round.chain(corners).chain(lines).collect()
    }

    /// Lines along the bend at one place across its zone, as far as there is metal, inside and outside.
    fn lines(&self, across_mm: f64) -> Vec<Curve> {
        let ends = self.crossings(across_mm);
        let pairs = ends.chunks_exact(2).flat_map(|pair| {
            self.radii_mm.map(|radius_mm| {
                let place = |x: f64| self.roll.place(Point::new(x, across_mm), radius_mm);
                Curve::Straight(place(pair[0]), place(pair[1]))
            })
        });
        pairs.collect()
    }

    /// Where the line along the bend at one place across its zone crosses the outline.
    fn crossings(&self, across_mm: f64) -> Vec<f64> {
        let crossing = |(a, b): (Point, Point)| {
            let share = (across_mm - a.y) / (b.y - a.y);
            ((a.y < across_mm) != (b.y < across_mm)).then(|| a.toward(b, share).x)
        };
        let mut ends: Vec<f64> = polygon::edges(&self.outline).filter_map(crossing).collect();
        ends.sort_by(f64::total_cmp);
        ends
    }

    /// The upright box around it.
    pub(super) fn reach(&self) -> [Point3; 2] {
        let (low, high) = polygon::bounds(&self.outline);
        let steps = 8_u32;
        let outside_mm = self.radii_mm[1] / trig::cos(0.5 * self.roll.turn_rad / f64::from(steps));
        let places = (0..=steps).flat_map(|step| {
            let s = low.y + (high.y - low.y) * f64::from(step) / f64::from(steps);
            [low.x, high.x].into_iter().flat_map(move |u| [(u, s, self.radii_mm[0]), (u, s, outside_mm)])
        });
        bounds(places.map(|(u, s, radius_mm)| self.roll.place(Point::new(u, s), radius_mm)))
    }
}

impl Roll {
    /// A place of the metal: along the bend, across its zone, and from the axis.
    fn place(&self, at: Point, radius_mm: f64) -> Point3 {
        let angle_rad = at.y / self.zone_mm * self.turn_rad;
        let radial = self.across * trig::sin(angle_rad) + self.to_tangent * trig::cos(angle_rad);
        self.centre + self.axis * at.x + radial * radius_mm
    }

    /// By how much lengths across the zone are longer on the cylinder of a radius than on the flat.
    fn stretch(&self, radius_mm: f64) -> f64 {
        radius_mm * self.turn_rad / self.zone_mm
    }
}

/// An edge of the metal, run along from 0 to 1.
#[derive(Debug, Clone, Copy)]
pub(super) enum Curve {
    /// From one place to another.
    Straight(Point3, Point3),
    /// Round a bend at one radius, straight on the flat.
    Round(Roll, (Point, Point), f64),
}

impl Curve {
    /// The place after a share of the way.
    pub(super) fn at(&self, share: f64) -> Point3 {
        match self {
            Self::Straight(a, b) => a.toward(*b, share),
            Self::Round(roll, (a, b), radius_mm) => roll.place(a.toward(*b, share), *radius_mm),
        }
    }

    /// Its length, mm.
    pub(super) fn length_mm(&self) -> f64 {
        match self {
            Self::Straight(a, b) => a.distance(*b),
            Self::Round(roll, (a, b), radius_mm) => {
                let stretch = roll.stretch(*radius_mm);
                Point::new(a.x, a.y * stretch).distance(Point::new(b.x, b.y * stretch))
            }
        }
    }
}

/// The upright box around places.
pub(super) fn bounds(places: impl Iterator<Item = Point3>) -> [Point3; 2] {
    let (low, high) = (f64::INFINITY, f64::NEG_INFINITY);
    places.fold([Point3::new(low, low, low), Point3::new(high, high, high)], |[low, high], p| {
        [
            Point3::new(low.x.min(p.x), low.y.min(p.y), low.z.min(p.z)),
            Point3::new(high.x.max(p.x), high.y.max(p.y), high.z.max(p.z)),
        ]
    })
}

/// Drilled reliefs, their centres sent through `place`.
pub(super) fn drilled(flat: &FlatPattern, place: impl Fn(Point) -> Point) -> Vec<(Point, f64)> {
    let hole = |relief: &crate::flat::FlatRelief| match relief.cut {
        ReliefCut::Round { radius_mm } | ReliefCut::TearDrop { radius_mm } => {
            Some((place(relief.at), radius_mm))
        }
        ReliefCut::None | ReliefCut::Square { .. } => None,
    };
    flat.reliefs.iter().filter_map(hole).collect()
}

/// Where the parent's tangent line begins.
fn tangent_start(bend: &BendLine) -> Point {
    bend.from - bend.across() * (0.5 * bend.zone_mm)
}

/// A place of the flat along a bend and across its zone.
pub(super) fn on_zone(bend: &BendLine, place: Point) -> Point {
    let off = place - tangent_start(bend);
    Point::new(off.dot(bend.along()), off.dot(bend.across()))
}

/// The zone as it is cut. Without a relief it begins at the bend line's ends, where the sheet is not cut; the half before
/// the bend line then reaches to the parent's tangent line.
fn outline(flat: &FlatPattern, number: usize) -> Vec<Point> {
    let bend = &flat.bends[number];
    let mut outline: Vec<Point> = flat.zones[number].iter().map(|&corner| on_zone(bend, corner)).collect();
    let begins = |p: &Point| p.y.abs() <= tolerance::SAME_POINT_MM;
    for (first, at_start) in [(true, 0), (false, outline.len().saturating_sub(1))] {
        if outline.get(at_start).is_none_or(begins) {
            continue;
        }
        let on_line =
            flat.faces[bend.parent].corners.iter().map(|&corner| on_zone(bend, corner)).filter(begins);
        let end = outline[at_start];
        let nearest = on_line.min_by(|p, q| p.distance(end).total_cmp(&q.distance(end)));
        if let Some(tangent) = nearest {
            outline.insert(if first { 0 } else { outline.len() }, tangent);
        }
    }
    if polygon::signed_area(&outline) < 0.0 {
        outline.reverse();
    }
    outline
}
