//! Contours as path data.

use geometry::outline::arc_sweep;
use geometry::{Contour, Point, Segment};

use super::number::number;

/// All contours as one path, so that holes stay holes. `place` sends paper points to SVG points and turns y down,
/// which also turns the sense of arcs.
pub(super) fn data(contours: &[Contour], place: impl Fn(Point) -> Point) -> String {
    let mut data = Vec::new();
    for contour in contours.iter().filter(|contour| !contour.segments.is_empty()) {
        data.push(format!("M{}", pair(place(contour.start()))));
        data.extend(contour.pieces().map(|(from, segment)| piece(from, &segment, &place)));
        data.push("Z".to_owned());
    }
    data.join(" ")
}

fn piece(from: Point, segment: &Segment, place: &impl Fn(Point) -> Point) -> String {
    match *segment {
        Segment::Line { to } => format!("L{}", pair(place(to))),
        Segment::Arc { to, centre, counter_clockwise } => {
            let radius = number(centre.distance(to));
            let sweep = arc_sweep(from, to, centre, counter_clockwise).abs();
            let large = u8::from(std::f64::consts::PI < sweep);
            let clockwise_on_screen = u8::from(!counter_clockwise);
            format!("A{radius} {radius} 0 {large} {clockwise_on_screen} {}", pair(place(to)))
        }
    }
}

fn pair(point: Point) -> String {
    format!("{} {}", number(point.x), number(point.y))
}
