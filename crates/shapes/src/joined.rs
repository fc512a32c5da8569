//! Seams between the pieces of a whole: the pieces are laid flat, refolded, put in their places and measured.

use fold::FlatPattern;
use fold::part::{FoldedPart, SeamSide, SeamStyle};
use fold::refold::{
    self, Joint, JointEnd, Overlap, PlacedPiece, RefoldError, RoundGap, RoundJoint, SeamGap, WholeProof,
};
use geometry::{Frame, Point, Point3, Vector3, polygon, tolerance};
use units::Angle;

use crate::{Fact, JoinedGap, Making, Problem};

/// A piece where it stands in the whole.
pub(crate) struct Standing {
    /// What it is called: "wrap".
    pub(crate) name: String,
    /// The piece.
    pub(crate) part: FoldedPart,
    /// Where the coordinates of its root face lie.
    pub(crate) root: Frame,
}

/// A seam between pieces and how it is made, in words: "butt, the wrap runs through".
pub(crate) struct Joined {
    /// As designed.
    pub(crate) joint: Joint,
    /// In words.
    pub(crate) style: String,
}

/// Measures every joint on the refolded pieces; `None` when a piece does not come out of one flat, which it is refused
/// for by itself.
///
/// # Errors
/// What the refold of the whole finds.
pub(crate) fn measure(pieces: &[Standing], joints: &[Joined]) -> Result<Option<WholeProof>, RefoldError> {
    let Some(flats) = flats(pieces) else { return Ok(None) };
    let placed = placed(pieces, &flats);
    let designs: Vec<Joint> = joints.iter().map(|joined| joined.joint.clone()).collect();
    refold::measure_whole(&placed, &designs).map(Some)
}

/// Every piece laid flat; `None` when one does not come out of one flat.
fn flats(pieces: &[Standing]) -> Option<Vec<FlatPattern>> {
    pieces.iter().map(|piece| fold::flat::unfold(&piece.part).ok()).collect()
}

fn placed<'a>(pieces: &'a [Standing], flats: &'a [FlatPattern]) -> Vec<PlacedPiece<'a>> {
    let place = |(piece, flat): (&'a Standing, &'a FlatPattern)| PlacedPiece {
        name: &piece.name,
        part: &piece.part,
        flat,
        root: piece.root,
    };
    pieces.iter().zip(flats).map(place).collect()
}

/// A seam along a bend, how it is made, and the gap designed, mm.
pub(crate) struct AlongRound {
    /// As designed.
    pub(crate) joint: RoundJoint,
    /// In words.
    pub(crate) style: String,
    /// Gap designed, mm.
    pub(crate) gap_mm: f64,
}

/// The facts of every seam along a bend that `piece` has a share in; none when a piece does not come out of one flat.
pub(crate) fn round_facts(
    piece: usize,
    pieces: &[Standing],
    rounds: &[AlongRound],
    making: &Making,
) -> Vec<Fact> {
    let Some(flats) = flats(pieces) else { return Vec::new() };
    let designs: Vec<RoundJoint> = rounds.iter().map(|round| round.joint.clone()).collect();
    let gaps = refold::along_rounds(&placed(pieces, &flats), &designs);
    let fact = |(round, RoundGap { gap, cut_away }): (&AlongRound, RoundGap)| {
        if ![round.joint.bend.0, round.joint.face.0].contains(&piece) {
            return None;
        }
        let (made, origin) = if cut_away {
            let made = format!("{}; its corner is cut off clear of the bend", round.style);
            (made, "measured from the refolded bend to what is left beside it, both pieces put together")
        } else {
            let origin = "measured from the edge's corners to the refolded bend, both pieces put together";
            (round.style.clone(), origin)
        };
        let words = words(&made, &gap, round.gap_mm, making);
        let measured = JoinedGap::of(&gap, round.gap_mm, made);
        let name = format!("seam, {}", round.joint.name);
        Some(Fact { gap: Some(measured), ..Fact::words(name, words, origin) })
    };
    rounds.iter().zip(gaps).filter_map(fact).collect()
}

/// The facts of every seam that `piece` has a share in, measured on all pieces put together; none when a piece does not
/// come out of one flat.
///
/// # Errors
/// A [`Problem`] of the first of `fields` when a seam is not as designed, of the second when pieces run into one another.
pub(crate) fn seam_facts(
    piece: usize,
    pieces: &[Standing],
    joints: &[Joined],
    fields: [&str; 2],
    making: &Making,
) -> Result<Vec<Fact>, Vec<Problem>> {
    let proof = measure(pieces, joints).map_err(|error| vec![problem(&error, fields[0], making)])?;
    let Some(proof) = proof else { return Ok(Vec::new()) };
    if let Some(overlap) = &proof.deepest {
        return Err(vec![overlap_problem(overlap, fields[1], making)]);
    }
    Ok(facts(piece, joints, &proof.seams, making))
}

/// An opening wider than any bend rounds away by, mm: there is no other piece near.
const NOTHING_NEAR_MM: f64 = 25.0;

/// A seam as designed and as measured, one line of the packet.
fn words(style: &str, gap: &SeamGap, designed_mm: f64, making: &Making) -> String {
    let angle = Angle::from_radians(gap.inside_angle_rad).print(1);
    let past = gap.past.map_or_else(String::new, |past| {
        let rest = if past.open_mm < NOTHING_NEAR_MM {
            format!(
                "where that plate ends or is bent away, the seam stands up to {} open",
                making.print_mm(past.open_mm)
            )
        } else {
            "where that plate ends, there is nothing to weld to".to_owned()
        };
        format!(
            ", but only {} of it lies on flat metal of the other plate; over the rest, {rest}",
            making.print_mm(past.met_mm)
        )
    });
    format!(
        "{style}, {angle}° inside, {} long outside{past}, gap designed {}, least {}, largest {}",
        making.print_mm(gap.length_mm),
        making.print_mm(designed_mm),
        making.print_mm(gap.least_mm),
        making.print_mm(gap.largest_mm)
    )
}

/// The facts of every joint that `piece` has a share in.
fn facts(piece: usize, joints: &[Joined], gaps: &[SeamGap], making: &Making) -> Vec<Fact> {
    let fact = |(joined, gap): (&Joined, &SeamGap)| {
        let words = words(&joined.style, gap, joined.joint.gap_mm, making);
        let origin = "measured between the refolded plates of both pieces, put together";
        let measured = JoinedGap::of(gap, joined.joint.gap_mm, joined.style.clone());
        Fact { gap: Some(measured), ..Fact::words(format!("seam, {}", joined.joint.name), words, origin) }
    };
    let shares = |joined: &Joined| [joined.joint.first.piece, joined.joint.second.piece].contains(&piece);
    joints.iter().zip(gaps).filter(|(joined, _)| shares(joined)).map(fact).collect()
}

/// The place of a strip that lies level across a length: its own length runs across, its width aft from `origin`.
pub(crate) const fn across(origin: Point3) -> Frame {
    Frame {
        origin,
        x: Vector3::new(0.0, 1.0, 0.0),
        y: Vector3::new(-1.0, 0.0, 0.0),
        z: Vector3::new(0.0, 0.0, 1.0),
    }
}

/// A flat strip or pad, piece `strip`, that lies on the root face of another.
pub(crate) fn lies_on(
    (strip, name): (usize, &str),
    (other, words): (usize, &str),
    pieces: &[Standing],
) -> Joined {
    let root = |piece: usize| JointEnd { piece, face: 0, edge: 0 };
    let (a, b) = pieces[strip].part.faces[0].edge(0);
    let (c, d) = pieces[strip].part.faces[0].edge(1);
    let joint = Joint {
        name: format!("{name} to {words}"),
        first: root(strip),
        second: root(other),
        inside_angle_rad: std::f64::consts::PI,
        length_mm: a.distance(b),
        style: SeamStyle::Lap { width_mm: c.distance(d), carrier: SeamSide::First, outside: false },
        gap_mm: 0.0,
    };
    Joined { joint, style: "lap, lies flat against it".to_owned() }
}

/// A seam that is not measured, and why.
pub(crate) fn unmeasured(name: &str, why: &str) -> Fact {
    Fact::words(format!("seam, {name}"), format!("not measured: {why}"), "pieces as designed")
}

/// Pieces that do not stand to one another as designed.
pub(crate) fn problem(error: &RefoldError, field: &str, making: &Making) -> Problem {
    let wrong = crate::edge::refold_words(error, making);
    Problem::new(field, "as given", wrong, "check the sizes of the pieces")
}

/// Pieces that run into one another.
pub(crate) fn overlap_problem(overlap: &Overlap, field: &str, making: &Making) -> Problem {
    let Overlap { first, second, depth_mm } = overlap;
    let wrong = format!("run into one another by {} when put together", making.print_mm(*depth_mm));
    let remedy = "shorten one of them, or let the other run through";
    Problem::new(field, format!("{first} and {second}"), wrong, remedy)
}

/// The longest edge of an outline that lies along the line through two points.
pub(crate) fn longest_on(corners: &[Point], [a, b]: [Point; 2]) -> Option<usize> {
    let along = (b - a).unit();
    let on = |point: Point| (point - a).cross(along).abs() <= tolerance::REFOLD_MM;
    let edges = polygon::edges(corners).enumerate().filter(|(_, (p, q))| on(*p) && on(*q));
    let longest = edges.max_by(|(_, (p, q)), (_, (r, s))| p.distance(*q).total_cmp(&r.distance(*s)));
    longest.map(|(number, _)| number)
}
