//! A flat plate too wide for its sheet, or too heavy for two hands, parted along straight seams.
//!
//! All seams run from one side of the outline to another. Each piece stands half a joint back from them.

use geometry::{Frame, Point, Vector, polygon, tolerance};
use units::Length;

use crate::figure::corner_letter;
use crate::flat_piece::flat_piece;
use crate::places::between_pieces;
use crate::weight_limit::{self, WeightLimit};
use crate::{Fact, Figure, Making, Piece, Places, Problem, Recipe, Shaped, not_convex, whole};

/// A plate in pieces.
#[derive(Debug, Clone, PartialEq)]
pub struct SplitPlate {
    /// The whole outline.
    pub outline: Figure,
    /// The two sides that the seams run between, as they are named: "AB", "CD".
    pub between: [String; 2],
    /// Where each seam meets the two sides, from the first-named corner of each.
    pub seams: Vec<[Length; 2]>,
    /// Open along each seam.
    pub joint: Length,
    /// What one piece may weigh.
    pub heaviest: Option<WeightLimit>,
}

impl Recipe for SplitPlate {
    fn word(&self) -> &'static str {
        "split_plate"
    }

    fn words(&self) -> &'static str {
        "plate in pieces"
    }

    fn tight_field(&self) -> &'static str {
        "outline"
    }

    fn pieces(&self) -> Vec<Piece> {
        let count = self.seams.len() + 1;
        (1..=count)
            .map(|number| Piece {
                suffix: number.to_string(),
                words: format!("piece {number} of {count}"),
                count: 1,
            })
            .collect()
    }

    fn shape_piece(&self, piece: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        let mut problems = Vec::new();
        making.not_below_zero("joint", self.joint, &mut problems);
        if let Some(fault) = not_convex(&self.outline.corners, &self.outline.names, making.style) {
            problems.push(Problem::new("outline", "as given", fault.wrong, fault.remedy));
        }
        let lines = self.lines(making, &mut problems);
        if !problems.is_empty() {
            return Err(problems);
        }
        let corners = self.corners(piece, &lines);
        if corners.len() < 3 || polygon::signed_area(&corners) <= tolerance::SAME_POINT_MM {
            let wrong = format!("nothing is left of piece {}", piece + 1);
            let remedy = "give the seams in order, each beyond the one before on both sides";
            return Err(vec![Problem::new("seams", "as given", wrong, remedy)]);
        }
        if let Some(limit) = &self.heaviest {
            let what = format!("piece {}", piece + 1);
            problems.extend(limit.problem(&what, &corners, making, "move the seams, or add one"));
        }
        if !problems.is_empty() {
            return Err(problems);
        }
        let facts = self.facts(piece, &corners, &lines, making);
        Ok(Shaped { part: flat_piece("plate", corners, Vec::new(), making), facts })
    }

    fn put_together(&self, _: &Making) -> Vec<(usize, Frame)> {
        whole::numbered(vec![Frame::WORLD; self.seams.len() + 1])
    }

    fn whole_sizes(&self, making: &Making) -> Vec<Fact> {
        vec![Fact::words("the whole", whole::sides_words(&self.outline, making), "outline")]
    }

    fn places(&self, piece: usize, making: &Making) -> Places {
        let lines = self.lines(making, &mut Vec::new());
        let corners = self.corners(piece, &lines);
        let letters = self.letters(&corners, &lines);
        let seams = self.seams_of(piece, &letters, &lines);
        let edges: Vec<(Point, Point)> = polygon::edges(&corners).collect();
        let places = Places { corners: letters.into_iter().zip(corners).collect(), ..Places::default() };
        seams.into_iter().fold(places, |places, (edge, other, name)| {
            let (a, b) = edges[edge];
            let words = between_pieces(&name, self.joint, other + 1, making);
            places.with_edge(&words.replacen("seam", "SEAM", 1).replacen("joint", "JOINT", 1), a, b)
        })
    }
}

impl SplitPlate {
    /// The corners of a piece between its seams.
    fn corners(&self, piece: usize, lines: &[(Point, Point)]) -> Vec<Point> {
        let half = 0.5 * self.joint.millimetres();
        let mut corners = self.outline.corners.clone();
        if let Some((from, to)) = piece.checked_sub(1).and_then(|before| lines.get(before)) {
            let along = (*to - *from).unit();
            corners = kept_left(&corners, *from + along.left() * half, along);
        }
        if let Some((from, to)) = lines.get(piece) {
            let along = (*from - *to).unit();
            corners = kept_left(&corners, *to + along.left() * half, along);
        }
        corners
    }

    /// Both ends of every seam, so that piece 0 lies to its right and the last piece to its left.
    fn lines(&self, making: &Making, problems: &mut Vec<Problem>) -> Vec<(Point, Point)> {
        let sides = [0, 1].map(|end| self.outline.side_number(&self.between[end]));
        let [Some(first), Some(second)] = sides else {
            let remedy = format!("the sides are {}", self.outline.sides.join(", "));
            let value = self.between.join(" and ");
            problems.push(Problem::new("between", value, "the outline has no such side", remedy));
            return Vec::new();
        };
        if first == second {
            let value = self.between.join(" and ");
            problems.push(Problem::new("between", value, "a seam runs between two sides", "name two"));
            return Vec::new();
        }
        let mut lines: Vec<(Point, Point)> = Vec::new();
        for (number, at) in self.seams.iter().enumerate() {
            let ends = [(first, at[0], 0), (second, at[1], 1)].map(|(side, at, end)| {
                let most = Length::from_millimetres(self.outline.side_mm(side));
                if at < Length::ZERO || at > most {
                    let wrong = format!(
                        "lies beyond side {}, which is {} long",
                        self.between[end],
                        making.print(most)
                    );
                    let field = format!("seams[{number}]");
                    problems.push(Problem::new(
                        field,
                        making.print(at),
                        wrong,
                        "measure from its first-named corner",
                    ));
                }
                self.on_side(side, end, at)
            });
            lines.push((ends[0], ends[1]));
        }
        if lines.len() > 1 {
            // Turned so that each next seam lies to the left of the one before.
            let (from, to) = lines[0];
            let next = lines[1].0.toward(lines[1].1, 0.5);
            if (to - from).cross(next - from) < 0.0 {
                lines = lines.into_iter().map(|(from, to)| (to, from)).collect();
            }
        }
        lines
    }

    /// A place on a side, from its first-named corner.
    fn on_side(&self, side: usize, end: usize, at: Length) -> Point {
        let (a, b) = self.outline.side(side);
        let forward = self.between[end].starts_with(self.outline.names[side].as_str());
        let (from, to) = if forward { (a, b) } else { (b, a) };
        from + (to - from).unit() * at.millimetres()
    }

    /// A letter for every corner of a piece: those of the whole keep theirs, the ends of the seams have the next ones, the
    /// same on both pieces that meet there.
    fn letters(&self, corners: &[Point], lines: &[(Point, Point)]) -> Vec<String> {
        let ends = lines.iter().flat_map(|(from, to)| [*from, *to]);
        let of_seams: Vec<(Point, String)> = ends.zip(self.letters_of_seams()).collect();
        let letter = |corner: &Point| {
            let of_whole = self.outline.corners.iter().zip(&self.outline.names);
            let mut of_whole = of_whole.filter(|(at, _)| at.distance(*corner) <= tolerance::SAME_POINT_MM);
            let nearest = || {
                let off = |end: &&(Point, String)| end.0.distance(*corner);
                of_seams.iter().min_by(|a, b| off(a).total_cmp(&off(b))).map(|(_, letter)| letter.clone())
            };
            of_whole.next().map(|(_, name)| name.clone()).or_else(nearest).unwrap_or_default()
        };
        corners.iter().map(letter).collect()
    }

    /// Letters that no corner of the whole has, two a seam.
    fn letters_of_seams(&self) -> impl Iterator<Item = String> + '_ {
        let all = (self.outline.names.len()..).map(corner_letter);
        all.filter(|letter| !self.outline.names.contains(letter))
    }

    /// The seams of a piece: the number of its edge there, the piece on the other side, and the letters of both ends.
    fn seams_of(
        &self,
        piece: usize,
        letters: &[String],
        lines: &[(Point, Point)],
    ) -> Vec<(usize, usize, String)> {
        let before = piece.checked_sub(1).map(|other| (other, other));
        let after = (piece < lines.len()).then_some((piece, piece + 1));
        let seam = |(line, other): (usize, usize)| {
            let pair: Vec<String> = self.letters_of_seams().skip(2 * line).take(2).collect();
            let joins = |edge: &usize| {
                let next = (edge + 1) % letters.len();
                pair.contains(&letters[*edge])
                    && pair.contains(&letters[next])
                    && letters[*edge] != letters[next]
            };
            (0..letters.len()).find(joins).map(|edge| (edge, other, pair.concat()))
        };
        before.into_iter().chain(after).filter_map(seam).collect()
    }

    fn facts(&self, piece: usize, corners: &[Point], lines: &[(Point, Point)], making: &Making) -> Vec<Fact> {
        let letters = self.letters(corners, lines);
        let seams = self.seams_of(piece, &letters, lines);
        let mut facts: Vec<Fact> = polygon::edges(corners)
            .enumerate()
            .map(|(edge, (a, b))| {
                let name = match seams.iter().find(|(seam, ..)| *seam == edge) {
                    Some((_, other, name)) => between_pieces(name, self.joint, other + 1, making),
                    None => format!("side {}{}", letters[edge], letters[(edge + 1) % letters.len()]),
                };
                Fact::length_mm(name, a.distance(b), "outline, seams")
            })
            .collect();
        let origin = "outline";
        facts.push(Fact::area_mm2("area of the whole", self.outline.area_mm2(), origin));
        for (number, name) in self.outline.names.iter().enumerate() {
            let angle = self.outline.corner_angle(number);
            facts.push(Fact::angle_rad(format!("corner {name} of the whole"), angle, origin));
        }
        facts.extend(weight_limit::fact(self.heaviest.as_ref(), corners, making));
        facts
    }
}

/// What of a convex figure lies to the left of a line.
fn kept_left(corners: &[Point], on: Point, along: Vector) -> Vec<Point> {
    let side = |point: Point| along.cross(point - on);
    let mut kept = Vec::new();
    for (a, b) in polygon::edges(corners) {
        let (from, to) = (side(a), side(b));
        if from >= 0.0 {
            kept.push(a);
        }
        if (from > 0.0 && to < 0.0) || (from < 0.0 && to > 0.0) {
            kept.push(a.toward(b, from / (from - to)));
        }
    }
    kept
}
