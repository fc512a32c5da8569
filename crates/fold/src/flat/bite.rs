//! A disc taken out of an outline, exactly: what is straight stays straight, and the edge of the disc becomes an arc.

use std::f64::consts::TAU;

use geometry::{Contour, Point, Segment, tolerance, trig};

/// A piece of the outline, wholly outside the disc or wholly inside.
struct Piece {
    from: Point,
    segment: Segment,
    inside: bool,
}

/// The outlines that are left of the counter-clockwise `contour` without the disc; several when metal comes off.
/// Arcs of the contour must not meet the disc.
pub(super) fn without_disc(contour: &Contour, centre: Point, radius_mm: f64) -> Vec<Contour> {
    let pieces: Vec<Piece> =
        contour.pieces().flat_map(|(from, segment)| split(from, segment, centre, radius_mm)).collect();
    let Some(first) = pieces.iter().position(|piece| piece.inside) else { return vec![contour.clone()] };
    let runs = runs(&pieces, first);
    // The metal that the disc takes lies clockwise from where the outline enters it, up to where it leaves it.
    let angle = |point: Point| trig::atan2(point.y - centre.y, point.x - centre.x);
    let clockwise = |from: Point, to: Point| (angle(from) - angle(to)).rem_euclid(TAU);
    let following = |run: &Run| {
        let nearest = |a: &usize, b: &usize| {
            clockwise(run.end, runs[*a].start).total_cmp(&clockwise(run.end, runs[*b].start))
        };
        (0..runs.len()).min_by(nearest).unwrap_or(0)
    };
    let mut used = vec![false; runs.len()];
    let mut loops = Vec::new();
    for start in 0..runs.len() {
        let mut segments = Vec::new();
        let mut run = start;
        while !used[run] {
            used[run] = true;
            segments.extend(runs[run].segments.iter().copied());
            run = following(&runs[run]);
            segments.push(Segment::Arc { to: runs[run].start, centre, counter_clockwise: false });
        }
        if !segments.is_empty() {
            loops.push(Contour { segments });
        }
    }
    loops
}

/// A stretch of the outline outside the disc, from where it leaves the disc to where it enters it again.
struct Run {
    start: Point,
    end: Point,
    segments: Vec<Segment>,
}

fn runs(pieces: &[Piece], first_inside: usize) -> Vec<Run> {
    let count = pieces.len();
    let mut runs: Vec<Run> = Vec::new();
    let mut open = false;
    for number in 0..count {
        let piece = &pieces[(first_inside + number) % count];
        if piece.inside {
            open = false;
            continue;
        }
        match runs.last_mut().filter(|_| open) {
            Some(run) => {
                run.end = piece.segment.end();
                run.segments.push(piece.segment);
            }
            None => {
                let end = piece.segment.end();
                runs.push(Run { start: piece.from, end, segments: vec![piece.segment] });
            }
        }
        open = true;
    }
    runs
}

fn split(from: Point, segment: Segment, centre: Point, radius_mm: f64) -> Vec<Piece> {
    let Segment::Line { to } = segment else { return vec![Piece { from, segment, inside: false }] };
    let mut stops = vec![0.0];
    stops.extend(crossings((from, to), centre, radius_mm));
    stops.push(1.0);
    let length = from.distance(to);
    let parts = stops.windows(2).filter(|pair| (pair[1] - pair[0]) * length > tolerance::SAME_POINT_MM);
    let parts: Vec<[f64; 2]> = parts.map(|pair| [pair[0], pair[1]]).collect();
    let mut pieces = Vec::with_capacity(parts.len());
    let mut start = from;
    for (number, pair) in parts.iter().enumerate() {
        let middle = from.toward(to, 0.5 * (pair[0] + pair[1]));
        let inside = middle.distance(centre) < radius_mm - tolerance::SAME_POINT_MM;
        let end = if number + 1 == parts.len() { to } else { from.toward(to, pair[1]) };
        pieces.push(Piece { from: start, segment: Segment::Line { to: end }, inside });
        start = end;
    }
    pieces
}

/// Shares of the way at which a straight crosses the circle, rising.
pub(super) fn crossings((from, to): (Point, Point), centre: Point, radius_mm: f64) -> Vec<f64> {
    let (along, off) = (to - from, from - centre);
    let squared = along.dot(along);
    let half = off.dot(along) / squared;
    let root = half * half - (off.dot(off) - radius_mm * radius_mm) / squared;
    if squared <= 0.0 || root <= 0.0 {
        return Vec::new();
    }
    [-half - root.sqrt(), -half + root.sqrt()]
        .into_iter()
        .filter(|share| 0.0 < *share && *share < 1.0)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square() -> Contour {
        Contour::polygon(&[(0.0, 0.0), (40.0, 0.0), (40.0, 40.0), (0.0, 40.0)].map(|(x, y)| Point::new(x, y)))
    }

    #[test]
    fn a_disc_about_a_corner_takes_a_quarter_of_itself() {
        let left = without_disc(&square(), Point::new(40.0, 0.0), 8.0);
        assert_eq!(left.len(), 1);
        let quarter = std::f64::consts::FRAC_PI_4 * 64.0;
        assert!((left[0].area_mm2() - (1600.0 - quarter)).abs() < 1e-9, "{}", left[0].area_mm2());
    }

    #[test]
    fn a_disc_across_leaves_two_pieces() {
        let strip = [(0.0, 0.0), (40.0, 0.0), (40.0, 4.0), (0.0, 4.0)].map(|(x, y)| Point::new(x, y));
        assert_eq!(without_disc(&Contour::polygon(&strip), Point::new(20.0, 0.0), 5.0).len(), 2);
    }

    #[test]
    fn a_disc_that_only_touches_takes_nothing() {
        let left = without_disc(&square(), Point::new(20.0, -8.0), 8.0);
        assert_eq!(left, vec![square()]);
    }

    #[test]
    fn two_edges_across_a_void_are_both_bitten() {
        // A slot 2 wide, 20 deep: a disc in its mouth bites both lips, and the metal stays in one piece.
        let corners = [
            (0.0, 0.0),
            (40.0, 0.0),
            (40.0, 40.0),
            (21.0, 40.0),
            (21.0, 20.0),
            (19.0, 20.0),
            (19.0, 40.0),
            (0.0, 40.0),
        ];
        let slotted = Contour::polygon(&corners.map(|(x, y)| Point::new(x, y)));
        let left = without_disc(&slotted, Point::new(20.0, 20.0), 5.0);
        assert_eq!(left.len(), 1);
        // What the slot leaves of the disc: all but the band |x| < 1 above y = 20.
        let band = 2.0 * (0.5 * 24.0_f64.sqrt() + 12.5 * trig::atan2(1.0, 24.0_f64.sqrt()));
        let gone = std::f64::consts::PI * 25.0 - band;
        assert!((left[0].area_mm2() - (1560.0 - gone)).abs() < 1e-9);
    }
}
