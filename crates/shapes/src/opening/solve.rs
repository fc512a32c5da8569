//! Five lengths to four corners.

use geometry::Point;

use super::Diagonal;

/// Three lengths that make no triangle.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct NoTriangle {
    /// Names of the three.
    pub(super) sides: [String; 3],
    /// The longest.
    pub(super) longest: String,
    /// Its length, mm.
    pub(super) longest_mm: f64,
    /// The other two together, mm.
    pub(super) others_mm: f64,
}

/// Corners A, B, C, D, counter-clockwise, A at the origin and B on the x axis, from AB, BC, CD, DA and a diagonal.
pub(super) fn corners(sides: [f64; 4], diagonal_mm: f64, by: Diagonal) -> Result<[Point; 4], NoTriangle> {
    let [ab, bc, cd, da] = sides;
    let (a, b) = (Point::new(0.0, 0.0), Point::new(ab, 0.0));
    match by {
        Diagonal::AC => {
            let c = apex(a, b, diagonal_mm, bc)
                .ok_or_else(|| named([("AB", ab), ("BC", bc), ("AC", diagonal_mm)]))?;
            let d = apex(a, c, da, cd).ok_or_else(|| named([("CD", cd), ("DA", da), ("AC", diagonal_mm)]))?;
            Ok([a, b, c, d])
        }
        Diagonal::BD => {
            let d = apex(a, b, da, diagonal_mm)
                .ok_or_else(|| named([("AB", ab), ("DA", da), ("BD", diagonal_mm)]))?;
            let c = apex(d, b, cd, bc).ok_or_else(|| named([("BC", bc), ("CD", cd), ("BD", diagonal_mm)]))?;
            Ok([a, b, c, d])
        }
    }
}

/// The point left of p→q at the given distances from both; `None` when they make no triangle.
pub(super) fn apex(p: Point, q: Point, from_p_mm: f64, from_q_mm: f64) -> Option<Point> {
    let base = p.distance(q);
    let along = (base * base + from_p_mm * from_p_mm - from_q_mm * from_q_mm) / (2.0 * base);
    let squared = from_p_mm * from_p_mm - along * along;
    let unit = (q - p).unit();
    (squared > 0.0).then(|| p + unit * along + unit.left() * squared.sqrt())
}

fn named(sides: [(&str, f64); 3]) -> NoTriangle {
    fault(sides.map(|(name, length)| (name.to_owned(), length)))
}

/// That three named lengths make no triangle.
pub(super) fn fault(sides: [(String, f64); 3]) -> NoTriangle {
    let longest =
        sides.iter().fold(&sides[0], |most, side| if side.1 > most.1 { side } else { most }).clone();
    let total: f64 = sides.iter().map(|side| side.1).sum();
    NoTriangle {
        sides: sides.map(|side| side.0),
        longest: longest.0,
        longest_mm: longest.1,
        others_mm: total - longest.1,
    }
}

/// The other diagonal of a solved quadrilateral, mm; `None` when the five lengths make none.
pub(super) fn other_diagonal(sides: [f64; 4], diagonal_mm: f64, by: Diagonal) -> Option<f64> {
    let [a, b, c, d] = corners(sides, diagonal_mm, by).ok()?;
    Some(match by {
        Diagonal::AC => b.distance(d),
        Diagonal::BD => a.distance(c),
    })
}
