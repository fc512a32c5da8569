//! Two hands cut of one blank: how they are told apart.

use fold::FlatPattern;
use fold::flat::BendLine;
use geometry::Point;
use geometry::outline::Chords;
use geometry::tolerance::SCRIBED_LINE_MM;

/// How two hands whose blanks are the same are told apart, if they are: by the bends.
pub(super) fn same_blank(this: &FlatPattern, other: &FlatPattern, mark: &str) -> Option<String> {
    let turns = [Laid::AsDrawn, Laid::TurnedHalf].into_iter().filter(|laid| laid.is_same_blank(this, other));
    let mut turns = turns.map(|laid| (laid, laid.bends(this, other))).collect::<Vec<_>>();
    turns.sort_by_key(|(_, bends)| *bends);
    let (laid, bends) = turns.first()?;
    let turned = if *laid == Laid::AsDrawn { "" } else { ", turned half round" };
    let head = format!("Same blank as {mark}{turned}");
    Some(match bends {
        SameBends::Alike if this.bends.is_empty() => format!("{head}: either serves both hands."),
        SameBends::Alike => format!("{head}, and bent alike: either serves both hands."),
        SameBends::Opposite => format!("{head}; bend it the other way, or it is {mark}."),
        SameBends::Elsewhere => format!("{head}; its bend lines lie elsewhere: scribe it from this sheet."),
    })
}

/// How one blank is laid on another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Laid {
    AsDrawn,
    TurnedHalf,
}

/// How the bends of two equal blanks compare, the likest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum SameBends {
    Alike,
    Opposite,
    Elsewhere,
}

impl Laid {
    /// Where a point of the other flat lies on this one.
    fn place(self, other: &FlatPattern, point: Point) -> Point {
        let (length, width) = other.extents_mm();
        match self {
            Self::AsDrawn => point,
            Self::TurnedHalf => Point::new(length - point.x, width - point.y),
        }
    }

    /// Whether every outline of the one has its like in the other, to a scribed line.
    fn is_same_blank(self, this: &FlatPattern, other: &FlatPattern) -> bool {
        let own = corners(this);
        let others: Vec<Point> = corners(other).into_iter().map(|point| self.place(other, point)).collect();
        let has_like =
            |of: &[Point], point: &Point| of.iter().any(|at| at.distance(*point) <= SCRIBED_LINE_MM);
        this.outline.holes.len() == other.outline.holes.len()
            && own.iter().all(|point| has_like(&others, point))
            && others.iter().all(|point| has_like(&own, point))
    }

    fn bends(self, this: &FlatPattern, other: &FlatPattern) -> SameBends {
        let like = |is_opposite: bool| {
            let is_like = |own: &BendLine, its: &BendLine| {
                let ends = [self.place(other, its.from), self.place(other, its.to)];
                let near = |a: Point, b: Point| a.distance(b) <= SCRIBED_LINE_MM;
                let same = near(own.from, ends[0]) && near(own.to, ends[1]);
                let turned = near(own.from, ends[1]) && near(own.to, ends[0]);
                (same || turned)
                    && (own.turn_rad - its.turn_rad).abs() * own.from.distance(own.to) <= SCRIBED_LINE_MM
                    && (own.direction != its.direction) == is_opposite
            };
            this.bends.len() == other.bends.len()
                && this.bends.iter().all(|own| other.bends.iter().any(|its| is_like(own, its)))
        };
        match (like(false), like(true)) {
            (true, _) => SameBends::Alike,
            (false, true) => SameBends::Opposite,
            (false, false) => SameBends::Elsewhere,
        }
    }
}

/// Corners of all outlines of a flat; arcs as chords.
fn corners(flat: &FlatPattern) -> Vec<Point> {
    let contours = std::iter::once(&flat.outline.outer).chain(&flat.outline.holes);
    contours.flat_map(|contour| contour.corners(Chords::On)).collect()
}
