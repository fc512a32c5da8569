//! Welds: every pair of edges that meet without a bend, within a piece or between pieces.

use std::f64::consts::PI;

use fold::FlatPattern;
use fold::refold::{self, Joint, Nearness, Overlap, PlacedPiece, SeamGap};
use geometry::tolerance;

use super::{Shell, ShellPiece};
use crate::joined;
use crate::{CornerStyle, Fact, JoinedGap, Making, Problem, near_bend_words};

/// Two edges to weld together.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Weld {
    /// "slope at corner B"; "face AB to collar AB" where its plates are no like ones of two neighbouring sides.
    pub(crate) name: String,
    /// Plate and its edge.
    pub(crate) first: (usize, usize),
    /// Plate and its edge on the other side.
    pub(crate) second: (usize, usize),
    /// Angle inside, radians; π in one plane.
    pub(crate) inside_angle_rad: f64,
    /// Length between the corners of the design, mm.
    pub(crate) length_mm: f64,
}

/// What a weld between two plates is called: like plates of two sides meet at the corner that the sides share, by which the
/// seams of rings go too.
pub(super) fn weld_name(first: &str, second: &str) -> String {
    let corner = || {
        let ((band, side), (other_band, other_side)) = (band_and_side(first)?, band_and_side(second)?);
        let mut shared = side.chars().filter(|letter| other_side.contains(*letter));
        let (letter, more) = (shared.next()?, shared.next());
        let stands_there =
            |name: &str| name.rsplit_once(" at ").is_none_or(|(_, at)| at == letter.to_string());
        let meets = band == other_band && more.is_none() && stands_there(first) && stands_there(second);
        // Faces of a hopper meet in what is called a hip all over its pages.
        let name =
            || if band == "face" { format!("hip {letter}") } else { format!("{band} at corner {letter}") };
        meets.then(name)
    };
    corner().unwrap_or_else(|| format!("{first} to {second}"))
}

/// "skirt" and "AB" of a plate named "skirt AB", or "skirt AB at A" where it is half of its side's.
fn band_and_side(name: &str) -> Option<(&str, &str)> {
    let (own, _) = name.split_once(" at ").unwrap_or((name, ""));
    let (band, side) = own.rsplit_once(' ')?;
    (side.len() == 2 && side.chars().all(|letter| letter.is_ascii_uppercase())).then_some((band, side))
}

impl Shell {
    /// Every weld, each once.
    pub(crate) fn welds(&self) -> Vec<Weld> {
        let mut welds = Vec::new();
        for (plate, sketch) in self.plates.iter().enumerate() {
            for edge in 0..sketch.corners.len() {
                let Some(joint) = self.joint(plate, edge) else { continue };
                if joint.bent || joint.other < plate {
                    continue;
                }
                let (a, b) = sketch.edge(edge);
                welds.push(Weld {
                    name: weld_name(&sketch.name, &self.plates[joint.other].name),
                    first: (plate, edge),
                    second: (joint.other, joint.other_edge),
                    inside_angle_rad: PI - joint.turn_rad,
                    length_mm: a.distance(b),
                });
            }
        }
        welds
    }

    /// What a shop needs to know of every weld of the piece `built`: its length, the angle inside, and between two pieces
    /// how it is made and what gap was measured once both were refolded and put together. Seams within the piece are
    /// measured with it.
    ///
    /// # Errors
    /// A [`Problem`] when the two pieces do not stand to one another as designed.
    pub(crate) fn weld_facts(&self, built: &ShellPiece, making: &Making) -> Result<Vec<Fact>, Vec<Problem>> {
        let ours = |plate: usize| built.plates.contains(&plate);
        let of_piece = |weld: &Weld| ours(weld.first.0) || ours(weld.second.0);
        let welds: Vec<Weld> = self.welds().into_iter().filter(of_piece).collect();
        let measured = self.measured(built, &welds, making)?;
        let fact = |(weld, measured): (&Weld, Option<(String, SeamGap)>)| {
            let length = making.print_mm(weld.length_mm);
            let flat = weld.inside_angle_rad >= PI - tolerance::PARALLEL_SINE;
            let words = if flat {
                format!("{length}, flat")
            } else {
                format!("{length}, {:.1}° inside", weld.inside_angle_rad.to_degrees())
            };
            let made = match self.style_words(weld) {
                Some(style) => style,
                None if flat => "edge to edge".to_owned(),
                None => "open corner".to_owned(),
            };
            let words = format!("{words}, {made}");
            let (more, gap) = measured.unzip();
            let gap = gap.map(|gap| {
                let near = near_bend_words(&gap, making.style);
                JoinedGap::of(&gap, self.weld_gap_mm(weld), made + &near)
            });
            let origin = "corners of the design; angle between the plates; gaps of the refolded pieces";
            let words = words + &more.unwrap_or_default();
            Fact { gap, ..Fact::words(format!("weld {}", weld.name), words, origin) }
        };
        let mut facts: Vec<Fact> = welds.iter().zip(measured).map(fact).collect();
        facts.extend(self.flange_facts(built, making)?);
        Ok(facts)
    }

    /// What was measured at every weld between this piece and another, as refolded; nothing within the piece.
    fn measured(
        &self,
        built: &ShellPiece,
        welds: &[Weld],
        making: &Making,
    ) -> Result<Vec<Option<(String, SeamGap)>>, Vec<Problem>> {
        let mut pieces = Pieces::of(built);
        let mut measured = vec![None; welds.len()];
        let mut done = vec![false; welds.len()];
        for number in 0..welds.len() {
            if done[number] {
                continue;
            }
            // All welds with one other piece are measured at once.
            let Some(other) = pieces.other(&welds[number]) else { continue };
            let Some((of, beyond)) = pieces.with(self, other) else { continue };
            let joints = welds.iter().enumerate().skip(number);
            let joints: Vec<(usize, Joint)> = joints
                .filter_map(|(at, weld)| Some((at, self.joint_of(weld, [&of.piece, &beyond.piece])?)))
                .collect();
            joints.iter().for_each(|(at, _)| done[*at] = true);
            let own =
                |weld: &Weld| if built.plates.contains(&weld.first.0) { weld.first } else { weld.second };
            let names = [own(&welds[number]).0, other]
                .map(|plate| format!("the piece of {}", self.plates[plate].name));
            let (Some(placed), Some(next)) = (of.placed(&names[0]), beyond.placed(&names[1])) else {
                continue;
            };
            let designs: Vec<Joint> = joints.iter().map(|(_, joint)| joint.clone()).collect();
            let proof = refold::measure_whole(&[placed, next], &designs)
                .map_err(|error| vec![joined::problem(&error, "corner", making)])?;
            if let Some(overlap) = &proof.deepest {
                return Err(vec![overlap_problem(overlap, making)]);
            }
            let within_mm = self.making.gap_mm - tolerance::REFOLD_MM;
            let nearest = (!self.lie_on_one_another([&of.piece, &beyond.piece]))
                .then(|| refold::nearest(&[placed, next], within_mm));
            let nearest = nearest.flatten();
            for ((at, _), gap) in joints.iter().zip(&proof.seams) {
                let designed_mm = self.weld_gap_mm(&welds[*at]);
                let words = measured_words((gap, designed_mm), nearest.as_ref(), making);
                let near_bend =
                    nearest.as_ref().map(|near| (near.apart_mm, [near.first.clone(), near.second.clone()]));
                measured[*at] = Some((words, SeamGap { near_bend, ..gap.clone() }));
            }
        }
        Ok(measured)
    }

    /// True where a plate of one piece is meant to lie on one of the other, as a flange to weld to: beside both its ends what it
    /// is bent off touches that plate too.
    fn lie_on_one_another(&self, pieces: [&ShellPiece; 2]) -> bool {
        let place = |plate: usize| pieces.iter().position(|piece| piece.face_of(plate).is_some());
        self.plates.iter().enumerate().any(|(number, plate)| {
            let both = plate.lies_on.and_then(|other| Some([place(number)?, place(other)?]));
            both.is_some_and(|[own, its]| own != its)
        })
    }

    /// A weld between this piece and another, as it is measured; `None` for one that is not between the two.
    fn joint_of(&self, weld: &Weld, pieces: [&ShellPiece; 2]) -> Option<Joint> {
        let end = |edge: (usize, usize)| {
            pieces.iter().enumerate().find_map(|(number, piece)| piece.end(number, edge))
        };
        let (first, second) = (end(weld.first)?, end(weld.second)?);
        (first.piece != second.piece).then(|| Joint {
            name: weld.name.clone(),
            first,
            second,
            inside_angle_rad: weld.inside_angle_rad,
            length_mm: weld.length_mm,
            style: self.style(weld),
            gap_mm: self.weld_gap_mm(weld),
        })
    }

    /// The gap designed between the plates of a weld, mm.
    pub(super) fn weld_gap_mm(&self, weld: &Weld) -> f64 {
        self.gap_mm([weld.first.0, weld.second.0])
    }
}

/// The gap that was measured between two pieces that are clear of one another, and where other metal of theirs stands nearer.
fn measured_words(
    (gap, designed_mm): (&SeamGap, f64),
    nearest: Option<&Nearness>,
    making: &Making,
) -> String {
    let gaps = format!(
        ", gap designed {}, least {}, largest {}, no metal in the other piece",
        making.print_mm(designed_mm),
        making.print_mm(gap.least_mm),
        making.print_mm(gap.largest_mm)
    );
    let near = nearest.map_or_else(String::new, |near| {
        let apart = making.print_mm(near.apart_mm);
        format!("; {} and {} stand only {apart} apart", near.first, near.second)
    });
    gaps + &near
}

/// Pieces that run into one another, and how they would not.
fn overlap_problem(overlap: &Overlap, making: &Making) -> Problem {
    let mut problem = joined::overlap_problem(overlap, "corner", making);
    if making.corner != CornerStyle::Open {
        problem.remedy = format!("make the part with open corners, or {}", problem.remedy);
    }
    problem
}

/// A piece, and its flat where it comes out of one.
pub(super) struct Laid {
    pub(super) piece: ShellPiece,
    flat: Option<FlatPattern>,
}

impl Laid {
    fn flat(piece: ShellPiece) -> Self {
        let flat = fold::flat::unfold(&piece.part).ok();
        Self { piece, flat }
    }

    pub(super) fn placed<'a>(&'a self, name: &'a str) -> Option<PlacedPiece<'a>> {
        let flat = self.flat.as_ref()?;
        Some(PlacedPiece { name, part: &self.piece.part, flat, root: self.piece.frames[0] })
    }
}

/// A piece and those it is welded to, each built and laid flat once, and not before a weld leaves the piece.
pub(super) struct Pieces<'a> {
    built: &'a ShellPiece,
    own: Option<Laid>,
    beyond: Vec<Laid>,
}

impl<'a> Pieces<'a> {
    pub(super) const fn of(built: &'a ShellPiece) -> Self {
        Self { built, own: None, beyond: Vec::new() }
    }

    /// The plate at a weld that is of another piece.
    fn other(&self, weld: &Weld) -> Option<usize> {
        match [weld.first.0, weld.second.0].map(|plate| self.built.plates.contains(&plate)) {
            [true, false] => Some(weld.second.0),
            [false, true] => Some(weld.first.0),
            _ => None,
        }
    }

    /// The piece itself and the one that has `plate`; `None` where that cannot be built: it is refused for that, under its own
    /// mark.
    pub(super) fn with(&mut self, shell: &Shell, plate: usize) -> Option<(&Laid, &Laid)> {
        let known = self.beyond.iter().position(|laid| laid.piece.plates.contains(&plate));
        let number = if let Some(number) = known {
            number
        } else {
            self.beyond.push(Laid::flat(shell.piece(plate).ok()?));
            self.beyond.len() - 1
        };
        let own = self.own.get_or_insert_with(|| Laid::flat(self.built.clone()));
        Some((own, &self.beyond[number]))
    }
}

#[cfg(test)]
mod tests {
    use fold::part::{Relief, Side};
    use fold::{BendNumber, bend::Origin};
    use geometry::{Point3, Vector3};
    use stock::BendModel;
    use units::Length;

    use super::*;

    #[test]
    fn like_plates_of_two_sides_meet_at_their_corner() {
        for (first, second, name) in [
            ("slope AB", "slope BC", "slope at corner B"),
            ("wall DA", "wall AB", "wall at corner A"),
            ("face BC", "face AB", "hip B"),
            ("drip bottom AB", "drip bottom BC", "drip bottom at corner B"),
            ("skirt AB at A", "skirt DA", "skirt at corner A"),
            ("skirt AB at A", "skirt AB at B", "skirt AB at A to skirt AB at B"),
            ("face AB at the rim", "face BC at the rim", "face AB at the rim to face BC at the rim"),
            ("face AB", "collar AB", "face AB to collar AB"),
            ("top toward DA", "skirt AB at A", "top toward DA to skirt AB at A"),
        ] {
            assert_eq!(weld_name(first, second), name);
        }
    }
    use crate::ring::Corners;
    use crate::shell::ShellPlate;

    /// Four sloping plates and a lid on them, over a crooked rim, all welded.
    fn frustum(gap_mm: f64, sized_to: Side) -> Shell {
        let rim = [(0.0, 0.0), (300.0, 10.0), (280.0, 250.0), (-20.0, 240.0)];
        let rim = rim.map(|(x, y)| Point3::new(x, y, 0.0));
        // Each side moved in by the same share toward one point stays parallel to itself, so every face is flat.
        let peak = Point3::new(120.0, 110.0, 200.0);
        let top = rim.map(|corner| corner.toward(peak, 0.4));
        let face = |side: usize| {
            let next = (side + 1) % 4;
            let corners = vec![rim[side], rim[next], top[next], top[side]];
            ShellPlate::new(format!("face {}", ["AB", "BC", "CD", "DA"][side]), corners, sized_to)
        };
        let mut plates: Vec<ShellPlate> = (0..4).map(face).collect();
        plates.push(ShellPlate::new("top", top.to_vec(), sized_to));
        let inches = Length::from_inches(0.125);
        let number = BendNumber::new(inches, inches, BendModel::KFactor(0.42), Origin::Job).unwrap();
        let making =
            Corners { relief: Relief::Square, style: CornerStyle::Open, gap_mm, notch_width_mm: 3.0 };
        Shell { plates, bends: Vec::new(), number, making }
    }

    #[test]
    fn butted_plates_of_two_pieces_stop_the_gap_off_the_one_that_runs_through() {
        for gap_mm in [0.0, 1.5] {
            for sized_to in [Side::Face, Side::Back] {
                let mut shell = frustum(gap_mm, sized_to);
                let through = crate::Chosen::Sides(vec!["AB".to_owned(), "CD".to_owned()]);
                shell.making.style = CornerStyle::Butt { through };
                let hips: Vec<Weld> = shell
                    .welds()
                    .into_iter()
                    .filter(|weld| shell.plates[weld.second.0].side.is_some())
                    .collect();
                assert_eq!(hips.len(), 4);
                for weld in hips {
                    let first = ["face AB", "face CD"].contains(&shell.plates[weld.first.0].name.as_str());
                    let (runs, stops) =
                        if first { (weld.first, weld.second) } else { (weld.second, weld.first) };
                    // The backs are inside: what stops comes to the back of what runs through, with its nearer edge.
                    let inside = shell.plane(runs.0, Side::Back);
                    let both = [Side::Face, Side::Back].map(|side| ends(&shell, stops, side));
                    let off = both.map(|edge| edge.map(|end| -inside.distance(end)));
                    assert!(off.iter().all(|[a, b]| (a - b).abs() < tolerance::REFOLD_MM), "{off:?}");
                    let nearer = off[0][0].min(off[1][0]);
                    assert!((nearer - gap_mm).abs() < tolerance::REFOLD_MM, "{}: {off:?}", weld.name);
                }
            }
        }
    }

    /// Both ends of a weld edge in space, on one side of the metal.
    fn ends(shell: &Shell, (plate, edge): (usize, usize), side: Side) -> [Point3; 2] {
        let piece = shell.piece(plate).unwrap();
        let (a, b) = piece.part.faces[0].edge(edge);
        [a, b].map(|end| piece.frames[0].place(end, piece.part.side_mm(side)))
    }

    fn off_line(point: Point3, [a, b]: [Point3; 2]) -> f64 {
        let along: Vector3 = (b - a).unit();
        (point - a).cross(along).length()
    }

    #[test]
    fn welds_between_pieces_stand_the_gap_apart_along_their_whole_length() {
        for gap_mm in [0.0, 1.5] {
            for sized_to in [Side::Face, Side::Back] {
                let shell = frustum(gap_mm, sized_to);
                let welds = shell.welds();
                assert_eq!(welds.len(), 8);
                for weld in welds {
                    // The plates turn away from the face side, so their backs are inside.
                    let [first, second] =
                        [weld.first, weld.second].map(|edge| ends(&shell, edge, Side::Back));
                    for end in first {
                        let off = off_line(end, second) - gap_mm;
                        assert!(off.abs() < tolerance::REFOLD_MM, "{}: {off}", weld.name);
                    }
                }
            }
        }
    }
}
