//! Points of a detail that no saw tells apart: slits and jogs.

use fold::FlatPattern;
use geometry::outline::Chords;
use geometry::{Point, polygon, tolerance};
use units::{LengthStyle, LengthUnit};

use crate::drawing::printed;

/// [`tolerance::SAWN_JOG_MM`] as the page prints lengths.
pub(in crate::layout_sheet) const fn sawn_jog(style: LengthStyle) -> &'static str {
    match style.unit() {
        LengthUnit::Inch => "1/64 in",
        LengthUnit::Millimetre => "0.4 mm",
    }
}

/// Points of a detail nearer to one another than any jog that can be sawn, in words: the sides of a slit, and how it is cut as the
/// caution of it says; else one mark.
pub(super) fn too_near(flat: &FlatPattern, points: &[(usize, Point)], style: LengthStyle) -> Vec<String> {
    let mut groups: Vec<Vec<usize>> = Vec::new();
    for (number, (_, point)) in points.iter().enumerate() {
        let near = |group: &&mut Vec<usize>| {
            group.iter().any(|&other| points[other].1.distance(*point) < tolerance::SAWN_JOG_MM)
        };
        match groups.iter_mut().find(near) {
            Some(group) => group.push(number),
            None => groups.push(vec![number]),
        }
    }
    let words = |group: &Vec<usize>| {
        let numbers: Vec<String> = group.iter().map(|&place| points[place].0.to_string()).collect();
        let numbers = numbers.join(", ");
        let at: Vec<Point> = group.iter().map(|&place| points[place].1).collect();
        match slit_mm(flat, &at) {
            Some(width_mm) => {
                let cut = checks::slit_cut_words(width_mm, style);
                format!("{numbers}: sides of a slit {} wide; {cut}", printed(width_mm, style))
            }
            None => format!("{numbers}: less than {} apart, one mark", sawn_jog(style)),
        }
    };
    groups.iter().filter(|group| 1 < group.len()).map(words).collect()
}

/// The least distance, mm, between two of these corners of the outer edge with no metal between them.
fn slit_mm(flat: &FlatPattern, corners: &[Point]) -> Option<f64> {
    let outer = flat.outline.outer.corners(Chords::On);
    let on_edge = |at: Point| {
        polygon::edges(&outer).any(|edge| polygon::point_to_segment(at, edge) <= tolerance::SAME_POINT_MM)
    };
    let pairs =
        corners.iter().enumerate().flat_map(|(at, a)| corners[at + 1..].iter().map(move |b| (*a, *b)));
    let open = pairs.filter(|(a, b)| {
        let middle = a.toward(*b, 0.5);
        on_edge(*a) && on_edge(*b) && (on_edge(middle) || !polygon::contains(&outer, middle))
    });
    open.map(|(a, b)| a.distance(b)).min_by(f64::total_cmp)
}
