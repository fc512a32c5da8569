//! Notches in the outline of a panel or plate.

use geometry::{Point, Vector};
use units::Length;

use crate::{Figure, Making, Problem};

/// A notch.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Notch {
    /// A bite out of a corner, its sides parallel to the two sides that meet there.
    Corner {
        /// The corner: "C".
        corner: String,
        /// How much of the side that leads to the corner in lettering order (BC for C) is taken.
        along: Length,
        /// How much of the side that leads away from it (CD for C) is taken.
        across: Length,
    },
    /// A bite out of a side, square to it.
    Edge {
        /// The side: "AB".
        side: String,
        /// From the side's first named corner to the middle of the notch.
        at: Length,
        /// Along the side.
        width: Length,
        /// Into the panel.
        depth: Length,
    },
}

/// A side of an outline in the making: its corners from its start to just before its end, and its name.
struct Piece {
    corner: Point,
    corner_name: String,
    side: String,
}

/// The outline with all notches cut; sides of notches are named "notch".
pub(crate) fn cut(
    outline: &Figure,
    notches: &[Notch],
    making: &Making,
    problems: &mut Vec<Problem>,
) -> Figure {
    let mut pieces: Vec<Piece> = (0..outline.count())
        .map(|i| Piece {
            corner: outline.corners[i],
            corner_name: outline.names[i].clone(),
            side: outline.sides[i].clone(),
        })
        .collect();
    for (number, notch) in notches.iter().enumerate() {
        let field = format!("notches[{number}]");
        let found = match notch {
            Notch::Corner { corner, along, across } => {
                cut_corner(&mut pieces, corner, [*along, *across], making)
            }
            Notch::Edge { side, at, width, depth } => {
                cut_edge(&mut pieces, (outline, side), [*at, *width, *depth], making)
            }
        };
        if let Err((value, wrong, remedy)) = found {
            problems.push(Problem::new(field, value, wrong, remedy));
        }
    }
    Figure {
        corners: pieces.iter().map(|piece| piece.corner).collect(),
        names: pieces.iter().map(|piece| piece.corner_name.clone()).collect(),
        sides: pieces.iter().map(|piece| piece.side.clone()).collect(),
    }
}

type Fault = (String, String, String);

fn fault(value: impl Into<String>, wrong: &str, remedy: &str) -> Fault {
    (value.into(), wrong.to_owned(), remedy.to_owned())
}

fn cut_corner(
    pieces: &mut Vec<Piece>,
    corner: &str,
    [along, across]: [Length; 2],
    making: &Making,
) -> Result<(), Fault> {
    let missing =
        || fault(corner, "the outline has no such corner, or it is notched already", "name a corner");
    let here = pieces.iter().position(|piece| piece.corner_name == corner).ok_or_else(missing)?;
    let count = pieces.len();
    let (before, after) = (pieces[(here + count - 1) % count].corner, pieces[(here + 1) % count].corner);
    let point = pieces[here].corner;
    // Lettering may run against the figure: the side that leads to the corner is the one named "?C".
    let forward = pieces[here].side.starts_with(corner);
    let (back_mm, ahead_mm) = if forward {
        (along.millimetres(), across.millimetres())
    } else {
        (across.millimetres(), along.millimetres())
    };
    let fits = |mm: f64, far: Point| mm > 0.0 && mm < point.distance(far);
    if !fits(back_mm, before) || !fits(ahead_mm, after) {
        let value = format!("{} × {}", making.print(along), making.print(across));
        return Err(fault(
            value,
            "does not fit between the neighbouring corners",
            "give two sizes above zero and shorter than the sides",
        ));
    }
    let (back, ahead) = ((before - point).unit() * back_mm, (after - point).unit() * ahead_mm);
    let side = pieces[here].side.clone();
    let cut = [(back, "notch"), (back + ahead, "notch"), (ahead, side.as_str())];
    let new = cut.into_iter().zip(1..).map(|((shift, side), number)| Piece {
        corner: point + shift,
        corner_name: format!("{corner}{number}"),
        side: side.to_owned(),
    });
    pieces.splice(here..=here, new.collect::<Vec<Piece>>());
    Ok(())
}

fn cut_edge(
    pieces: &mut Vec<Piece>,
    (outline, side): (&Figure, &str),
    [at, width, depth]: [Length; 3],
    making: &Making,
) -> Result<(), Fault> {
    let missing = || fault(side, "the outline has no such side", "name a side by its two corners");
    let number = outline.side_number(side).ok_or_else(missing)?;
    let (start, end) = outline.side(number);
    let along = (end - start).unit();
    let forward = side.starts_with(outline.names[number].as_str());
    let length = start.distance(end);
    let middle = if forward { at.millimetres() } else { length - at.millimetres() };
    let half = 0.5 * width.millimetres();
    if half <= 0.0 || depth <= Length::ZERO || middle - half <= 0.0 || middle + half >= length {
        let value =
            format!("at {} wide {} deep {}", making.print(at), making.print(width), making.print(depth));
        return Err(fault(
            value,
            "does not lie within its side",
            "give sizes above zero that end before the corners, or notch the corner",
        ));
    }
    let name = &outline.sides[number];
    let reach = |piece: &Piece| (piece.corner - start).dot(along);
    let holder =
        (0..pieces.len()).rev().find(|&i| pieces[i].side == *name && reach(&pieces[i]) < middle - half);
    let Some(holder) = holder else {
        return Err(fault(side, "another notch lies in the way", "move one of them"));
    };
    let inward: Vector = along.left() * depth.millimetres();
    let (near, far) = (start + along * (middle - half), start + along * (middle + half));
    let next = pieces[(holder + 1) % pieces.len()].corner;
    if (next - start).dot(along) <= middle + half {
        return Err(fault(side, "another notch lies in the way", "move one of them"));
    }
    let corners = [(near, "notch"), (near + inward, "notch"), (far + inward, "notch"), (far, name.as_str())];
    let new = corners.into_iter().map(|(corner, side)| Piece {
        corner,
        corner_name: "notch".to_owned(),
        side: side.to_owned(),
    });
    pieces.splice(holder + 1..=holder, new.collect::<Vec<Piece>>());
    Ok(())
}
