//! Slits and cut-outs are as wide as the cut that makes them.
//!
//! A saw, disc or torch takes its kerf out of whatever it is led along. Between two edges that lie nearer one another than
//! that it cuts into one of them, or into both. Judged are straight edges that face one another across the open: slits,
//! slots, gaps between tabs, sides of reliefs. Round holes are drilled.

use geometry::outline::Chords;
use geometry::{Point, Segment, Vector, polygon, tolerance};
use units::{Length, LengthStyle, LengthUnit};

use crate::{Finding, Severity, Subject};

pub(crate) const NAME: &str = "narrow_cut";

/// Sine of 15°: edges that run together by more are the sides of a notch, cut from its two sides (common practice, no
/// source).
const ALONG_SINE: f64 = 0.26;

/// Widths that come within this of one another go by one line, mm: less than anybody sets a saw by (common practice, no
/// source).
const SAME_WIDTH_MM: f64 = 0.25;

/// What thin cutting tools take, mm, narrowest first (common practice, no source: packets and blades say it exactly).
const TOOLS: [(f64, &str); 4] = [
    (1.0, "a hacksaw blade"),
    (1.2, "a thin cutting disc"),
    (1.5, "a jigsaw blade for thin metal"),
    (2.0, "a fine circular-saw blade for metal"),
];

/// A straight edge, metal on its left.
type Side = (Point, Point);

/// Two edges with less than the kerf between them.
struct Narrow {
    /// Least width, mm.
    width_mm: f64,
    /// The middle of the stretch, on the flat.
    middle: Point,
    /// Length of the stretch, mm.
    long_mm: f64,
    /// What lies on its two sides.
    faces: [usize; 2],
}

pub(crate) fn look(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let Some(kerf) = subject.limits.kerf.filter(|kerf| Length::ZERO < *kerf) else { return };
    let mut narrow = narrow_places(subject, kerf.millimetres());
    narrow.sort_by(|a, b| a.width_mm.total_cmp(&b.width_mm));
    let mut rest = narrow.as_slice();
    while let Some(first) = rest.first() {
        let count = rest.iter().take_while(|other| other.width_mm < first.width_mm + SAME_WIDTH_MM).count();
        let (alike, wider) = rest.split_at(count);
        findings.push(finding(subject, kerf, alike));
        rest = wider;
    }
}

fn finding(subject: &Subject<'_>, kerf: Length, alike: &[Narrow]) -> Finding {
    let width_mm = alike.iter().map(|narrow| narrow.width_mm).fold(f64::INFINITY, f64::min);
    let places: Vec<String> = alike.iter().map(|narrow| place(subject, narrow)).collect();
    let kerf = kerf.print(subject.style);
    Finding {
        rule: NAME,
        severity: Severity::Caution,
        place: places.join("; "),
        measured: format!("open by {} only", subject.print_mm(width_mm)),
        wrong: format!("the cut of {kerf} that the shop gives takes metal off both sides"),
        remedy: format!("{}, or make it {kerf} wide or more", slit_cut_words(width_mm, subject.style)),
    }
}

/// With what a slit of this width, mm, is cut, in words: which of the thin tools pass it, or that none does. The drawings of a
/// slit say the same.
#[must_use]
pub fn slit_cut_words(width_mm: f64, style: LengthStyle) -> String {
    let takes = |mm: f64| match style.unit() {
        LengthUnit::Inch => {
            format!("about {}", Length::from_millimetres(mm).print(LengthStyle::Inches { places: 2 }))
        }
        LengthUnit::Millimetre => format!("about {mm:.1}"),
    };
    let tools: Vec<String> = TOOLS
        .iter()
        .filter(|(cut_mm, _)| *cut_mm <= width_mm + tolerance::SCRIBED_LINE_MM)
        .map(|(cut_mm, name)| format!("{name} ({})", takes(*cut_mm)))
        .collect();
    if tools.is_empty() {
        "no saw or disc passes: part it along one line with snips or a chisel".to_owned()
    } else {
        format!("cut it with {}, after measuring what yours takes", tools.join(" or "))
    }
}

/// "slit between flange AB and flange BC (about 3 1/2 across, 12 up)", from the lower left corner of the flat.
fn place(subject: &Subject<'_>, narrow: &Narrow) -> String {
    let (low, _) = subject.flat.outline.bounds();
    let [across, up] = [narrow.middle.x - low.x, narrow.middle.y - low.y].map(|mm| subject.about_mm(mm));
    let name = |face: usize| subject.flat.faces[face].name.as_str();
    let whose = match narrow.faces {
        [first, second] if first == second => format!("slit in {}", name(first)),
        [first, second] => format!("slit between {} and {}", name(first), name(second)),
    };
    format!("{whose} (about {across} across, {up} up on the flat)")
}

fn narrow_places(subject: &Subject<'_>, kerf_mm: f64) -> Vec<Narrow> {
    let outline = &subject.flat.outline;
    let mut sides: Vec<Side> = Vec::new();
    for (contour, wanted) in
        std::iter::once((&outline.outer, 1.0)).chain(outline.holes.iter().map(|hole| (hole, -1.0)))
    {
        let is_turned = polygon::signed_area(&contour.corners(Chords::On)) * wanted < 0.0;
        let lines = contour.pieces().filter_map(|(from, piece)| match piece {
            Segment::Line { to } => Some(if is_turned { (to, from) } else { (from, to) }),
            Segment::Arc { .. } => None,
        });
        sides.extend(lines.filter(|(from, to)| tolerance::SAME_POINT_MM < from.distance(*to)));
    }
    let rings: Vec<Vec<Point>> = std::iter::once(&outline.outer)
        .chain(&outline.holes)
        .map(|contour| contour.corners(Chords::On))
        .collect();
    let in_metal = |p: Point| {
        polygon::contains(&rings[0], p) && !rings[1..].iter().any(|hole| polygon::contains(hole, p))
    };
    let mut found: Vec<Narrow> = Vec::new();
    for (number, &one) in sides.iter().enumerate() {
        for &other in &sides[number + 1..] {
            let Some((width_mm, middle, long_mm)) = open_between(one, other, kerf_mm) else { continue };
            if in_metal(middle) {
                continue;
            }
            let faces = [one, other].map(|side| face_at(subject, nearest_on(side, middle)));
            let narrow = Narrow { width_mm, middle, long_mm, faces };
            match found.iter_mut().find(|known| known.goes_on(&narrow, kerf_mm)) {
                Some(known) => known.add(&narrow),
                None => found.push(narrow),
            }
        }
    }
    found
}

impl Narrow {
    /// Whether another stretch is of the same slit, whose sides are broken by a jog or go over from one face to the next.
    fn goes_on(&self, other: &Self, kerf_mm: f64) -> bool {
        self.middle.distance(other.middle) <= 0.5 * (self.long_mm + other.long_mm) + 2.0 * kerf_mm
    }

    fn add(&mut self, other: &Self) {
        let parts_two = |narrow: &Self| narrow.faces[0] != narrow.faces[1];
        if (parts_two(self), self.long_mm) < (parts_two(other), other.long_mm) {
            (self.middle, self.faces) = (other.middle, other.faces);
        }
        self.width_mm = self.width_mm.min(other.width_mm);
        self.long_mm += other.long_mm;
    }
}

/// The least width between two edges that face one another across the open, and the middle and length of where they are
/// nearer than the kerf, where that is longer than the kerf is wide.
fn open_between(one: Side, other: Side, kerf_mm: f64) -> Option<(f64, Point, f64)> {
    let along = (one.1 - one.0).unit();
    let back = (other.1 - other.0).unit();
    let faces_back = along.dot(back) < 0.0 && along.cross(back).abs() <= ALONG_SINE;
    if !faces_back {
        return None;
    }
    // Metal lies on the left of both, so the open lies on the right.
    let across = |p: Point| (p - one.0).dot(along.right());
    let at = |p: Point| (p - one.0).dot(along);
    let length_mm = one.0.distance(one.1);
    let (near, far) = (at(other.1), at(other.0));
    let (from, to) = (near.max(0.0), far.min(length_mm));
    if to - from <= kerf_mm {
        return None;
    }
    let width = |place_mm: f64| {
        let share = (place_mm - near) / (far - near);
        across(other.1) + share * (across(other.0) - across(other.1))
    };
    let slope = (width(to) - width(from)) / (to - from);
    let limit = kerf_mm - tolerance::SCRIBED_LINE_MM;
    // Where the width falls to less than the kerf.
    let [mut low, mut high] = [from, to];
    if limit < width(from) {
        low = from + (limit - width(from)) / slope;
    }
    if limit < width(to) {
        high = to - (width(to) - limit) / slope;
    }
    let least = width(from).min(width(to));
    let is_slit = least < limit && -tolerance::SAME_POINT_MM <= least && kerf_mm < high - low;
    let middle_mm = 0.5 * (low + high);
    let middle = one.0 + along * middle_mm + along.right() * (0.5 * width(middle_mm));
    is_slit.then_some((least.max(0.0), middle, high - low))
}

fn nearest_on((from, to): Side, point: Point) -> Point {
    let along: Vector = to - from;
    let share = (point - from).dot(along) / along.dot(along);
    from + along * share.clamp(0.0, 1.0)
}

/// The face that lies nearest to a place on the flat.
fn face_at(subject: &Subject<'_>, place: Point) -> usize {
    let off = |corners: &[Point]| {
        if polygon::contains(corners, place) {
            return 0.0;
        }
        polygon::edges(corners)
            .map(|edge| polygon::point_to_segment(place, edge))
            .fold(f64::INFINITY, f64::min)
    };
    let faces = subject.flat.faces.iter().enumerate();
    faces.min_by(|a, b| off(&a.1.corners).total_cmp(&off(&b.1.corners))).map_or(0, |(face, _)| face)
}
