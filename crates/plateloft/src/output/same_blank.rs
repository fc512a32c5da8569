//! Two hands whose blanks are cut alike: told in words, since the drawings look the same.

use fold::{Direction, FlatPattern};
use geometry::outline::Chords;
use geometry::{Contour, Point, Vector, tolerance};

/// How two flats differ that are cut alike.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Bends {
    None,
    SameWay,
    OtherWay,
}

/// How the bends of two hands run whose blanks are one, and whether the second lies end for end; `None` where they are cut
/// differently, or bent partly one way and partly the other. Packet and kit speak from this one comparison.
fn alike(this: &FlatPattern, other: &FlatPattern) -> Option<(Bends, bool)> {
    // As it lies, or end for end: a sheet with a lay allows both.
    [false, true].into_iter().find_map(|turned| Some((compared(this, other, turned)?, turned)))
}

/// True where both hands are cut alike and bent the same way: two pieces that cannot be told apart but by what is marked on them.
pub(super) fn is_one(this: &FlatPattern, other: &FlatPattern) -> bool {
    matches!(alike(this, other), Some((Bends::None | Bends::SameWay, _)))
}

/// What a small label says of the opposite hand.
pub(super) fn on_a_label(this: &FlatPattern, other: &FlatPattern, other_mark: &str) -> String {
    let differ = match alike(this, other) {
        None => "not alike",
        Some((Bends::None, _)) => "cut alike, marked differently",
        Some((Bends::SameWay, _)) => "same blank, bent the same way, its edges marked differently",
        Some((Bends::OtherWay, _)) => "same blank, BENT THE OTHER WAY",
    };
    format!("its opposite hand is {other_mark}: {differ}")
}

/// What to say on the paper of the first of two hands; `None` where they are cut differently, or bent partly one way and
/// partly the other.
pub(super) fn words(
    this: &FlatPattern,
    other: &FlatPattern,
    [mark, other_mark]: [&str; 2],
) -> Option<String> {
    let (bends, turned) = alike(this, other)?;
    let lies = if turned { " turned end for end" } else { "" };
    Some(match bends {
        Bends::None => format!("Cut like {other_mark}{lies}: the two differ in their marks and places only."),
        Bends::SameWay => {
            format!(
                "Same blank as {other_mark}{lies}, bent the same way: the two differ in what is marked on their edges."
            )
        }
        Bends::OtherWay => format!(
            "Same blank as {other_mark}{lies}, BENT THE OTHER WAY: every bend that is up on {mark} is down on {other_mark}. \
             Mark the blank before it is bent."
        ),
    })
}

/// How far, mm, a corner of one flat lies from the mirror image of the other at the most; `None` where they are mirror images
/// by more than a scribed line can tell. Flats of hands that are cut apart alike lie mirrored along or across.
pub(super) fn apart_mm(this: &FlatPattern, other: &FlatPattern) -> Option<f64> {
    let own = corners(this);
    let (length, width) = other.extents_mm();
    let mirrored = [true, false].map(|along| {
        let image =
            |at: Point| if along { Point::new(length - at.x, at.y) } else { Point::new(at.x, width - at.y) };
        corners(other).into_iter().map(image).collect::<Vec<Point>>()
    });
    let worst = |from: &[Point], to: &[Point]| {
        let nearest = |at: &Point| to.iter().map(|other| at.distance(*other)).fold(f64::INFINITY, f64::min);
        from.iter().map(nearest).fold(0.0, f64::max)
    };
    let apart = mirrored.iter().map(|image| worst(&own, image).max(worst(image, &own)));
    Some(apart.fold(f64::INFINITY, f64::min)).filter(|&apart| tolerance::SCRIBED_LINE_MM < apart)
}

/// How the bends of a flat run beside those of one that is cut alike.
fn compared(this: &FlatPattern, other: &FlatPattern, turned: bool) -> Option<Bends> {
    let (length, width) = this.extents_mm();
    let place = |at: Point| if turned { Point::new(length - at.x, width - at.y) } else { at };
    let own: Vec<Point> = corners(this).into_iter().map(place).collect();
    let others = corners(other);
    let meet = |a: Point, b: Point| a.distance(b) <= tolerance::REFOLD_MM;
    let is_in = |points: &[Point], at: Point| points.iter().any(|&point| meet(point, at));
    if own.len() != others.len()
        || !own.iter().all(|&at| is_in(&others, at))
        || !others.iter().all(|&at| is_in(&own, at))
    {
        return None;
    }
    let marks = |flat: &FlatPattern| -> Vec<(Direction, f64, Point, Point)> {
        flat.marks().map(|(bend, (from, to))| (bend.direction, bend.turn_rad, from, to)).collect()
    };
    let (own, others) = (marks(this), marks(other));
    if own.len() != others.len() {
        return None;
    }
    let mut ways = Vec::new();
    for (direction, turn, from, to) in own {
        let (from, to) = (place(from), place(to));
        let twin = others.iter().find(|(_, other_turn, a, b)| {
            (turn - other_turn).abs() <= tolerance::PARALLEL_SINE
                && ((meet(from, *a) && meet(to, *b)) || (meet(from, *b) && meet(to, *a)))
        })?;
        ways.push(direction == twin.0);
    }
    match ways.first() {
        None => Some(Bends::None),
        Some(&first) if ways.iter().all(|&same| same == first) => {
            Some(if first { Bends::SameWay } else { Bends::OtherWay })
        }
        Some(_) => None,
    }
}

/// Corners of the outline and its holes, from the datum corner.
fn corners(flat: &FlatPattern) -> Vec<Point> {
    let (low, _) = flat.outline.bounds();
    let back = Point::default() - low;
    let contours = std::iter::once(&flat.outline.outer).chain(&flat.outline.holes);
    contours
        .flat_map(|contour: &Contour| contour.corners(Chords::On))
        .map(|at| at + Vector::new(back.x, back.y))
        .collect()
}
