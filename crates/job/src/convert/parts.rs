//! Parts: marks, metals, hands and lays; the sizes of each shape are read in `shapes`.

use std::collections::BTreeMap;

use ::shapes::{Chosen, CornerStyle, DrawnFace, FaceSide, Making, ReliefStyle};

use stock::{Film, Pattern};
use units::Length;

use super::Beside;
use super::desk::Desk;
use super::metals::{Metals, number_of};
use super::openings::Openings;
use super::shapes;
use super::shop::{style_of, unknown_metal};
use super::stand_outs;
use super::turns;
use crate::file::{DrawnFaceFile, FaceFile, JobFile, MirrorFile, PartCommon, PartFile, PartLayFile};
use crate::model::{JobMetal, Part, PartLay, PieceOf, ShapeInput, Shop};
use crate::other_hand;
use crate::place::Place;
use crate::written::Written;

/// The longest mark, which names files and is stamped on parts.
const LONGEST_MARK: usize = 24;

/// What parts may name.
#[derive(Clone, Copy)]
pub(super) struct Known<'a> {
    /// The shop's habits.
    pub(super) shop: &'a Shop,
    /// Metals.
    pub(super) metals: &'a Metals,
    /// Openings.
    pub(super) openings: &'a Openings,
}

/// Every part, each opposite hand behind the part it mirrors.
pub(super) fn parts(
    file: &JobFile,
    beside: &Beside<'_>,
    known: &Known<'_>,
    desk: &mut Desk<'_>,
) -> Vec<Part> {
    let mut marks = Marks::default();
    let mut parts = Vec::new();
    for number in (0..file.parts.len()).filter(|&number| !beside.hands.is_edited(number)) {
        let Some(part) = &file.parts[number] else { continue };
        let common = part.common();
        let place = Place::part(common.mark);
        marks.take(common.mark, &place.field("mark"), desk);
        if let Some(hand) = common.opposite_hand {
            marks.take(hand.mark(), &place.field("opposite_hand"), desk);
        }
        let first = self::part(number, beside, file, known, desk);
        let second = common.opposite_hand.and_then(|hand| match beside.hands.of(number) {
            Some(edited) => {
                let hand_edits = edited.edits.clone();
                Some(Part { hand_edits, ..self::part(edited.edited, beside, file, known, desk)? })
            }
            None => Some(Part { mark: hand.mark().to_owned(), ..first.clone()? }),
        });
        let second = second.map(|part| Part { opposite_hand_of: Some(common.mark.to_owned()), ..part });
        for whole in first.into_iter().chain(second) {
            let pieces = pieces(whole);
            for piece in pieces.iter().filter(|piece| piece.piece_of.is_some()) {
                marks.take(&piece.mark, &place.field("mark"), desk);
            }
            parts.extend(pieces);
        }
    }
    parts
}

/// A part as it is, or the pieces it is made of, each under its own mark.
fn pieces(whole: Part) -> Vec<Part> {
    let pieces = whole.shape.recipe().pieces();
    if pieces.is_empty() {
        return vec![whole];
    }
    let is_hand = whole.opposite_hand_of.is_some();
    let named = |piece: ::shapes::Piece| {
        if !is_hand {
            return piece;
        }
        let words = other_hand::exchanged(&piece.words);
        ::shapes::Piece { words, suffix: other_hand::exchanged_suffix(&piece.suffix), ..piece }
    };
    let part = |(number, piece): (usize, ::shapes::Piece)| {
        // The hand of a starboard piece is a port one: its mark says its own side, and whose image it is.
        let opposite_hand_of =
            whole.opposite_hand_of.as_ref().map(|other| format!("{other}-{}", piece.suffix));
        let piece = named(piece);
        Part {
            mark: format!("{}-{}", whole.mark, piece.suffix),
            quantity: whole.quantity.saturating_mul(piece.count),
            opposite_hand_of,
            piece_of: Some(PieceOf { whole: whole.mark.clone(), number, piece }),
            ..whole.clone()
        }
    };
    pieces.into_iter().enumerate().map(part).collect()
}

/// Marks so far, in small letters: on some machines `l1.svg` and `L1.svg` are one file.
#[derive(Default)]
struct Marks(BTreeMap<String, String>);

impl Marks {
    fn take(&mut self, mark: &str, place: &Place, desk: &mut Desk<'_>) {
        let fits = |c: char| c.is_alphanumeric() || matches!(c, '-' | '_' | '.');
        let named = mark.chars().next().is_some_and(char::is_alphanumeric);
        if !named || !mark.chars().all(fits) || mark.chars().count() > LONGEST_MARK {
            let wrong = "a mark is also the name of a drawing, and this one cannot be";
            let remedy = format!(
                "use letters, digits, - and _, a letter or digit first, {LONGEST_MARK} characters at most"
            );
            return desk.add(place, mark, wrong, remedy);
        }
        if is_kept_by_windows(mark) {
            let wrong = "a mark is also the name of a drawing, and Windows keeps this name for itself";
            return desk.add(place, mark, wrong, "put a letter or digit behind it");
        }
        match self.0.insert(mark.to_lowercase(), mark.to_owned()) {
            Some(other) if other == mark => {
                desk.add(place, mark, "this mark is used twice", "give each part its own mark");
            }
            Some(other) => {
                let wrong = format!("differs from {other} only in large and small letters");
                desk.add(place, mark, wrong, "give each part its own mark");
            }
            None => {}
        }
    }
}

/// Names of devices that no file may have on Windows, whatever its ending.
///
/// Source: Windows file naming rules (Microsoft, "Naming Files, Paths, and Namespaces").
fn is_kept_by_windows(mark: &str) -> bool {
    let stem = mark.split('.').next().unwrap_or(mark).to_lowercase();
    let numbered = |device: &str| {
        let number = stem.strip_prefix(device).unwrap_or("");
        matches!(number, "1" | "2" | "3" | "4" | "5" | "6" | "7" | "8" | "9")
    };
    matches!(stem.as_str(), "con" | "prn" | "aux" | "nul") || numbered("com") || numbered("lpt")
}

/// The part at one place of the list; `None` where something was found.
fn part(
    number: usize,
    beside: &Beside<'_>,
    job: &JobFile,
    known: &Known<'_>,
    desk: &mut Desk<'_>,
) -> Option<Part> {
    let file = job.parts.get(number)?.as_ref()?;
    let notes = beside.notes.parts.get(number).cloned().unwrap_or_default();
    let common = file.common();
    let written = Written {
        part: beside.tree.get("parts").and_then(|parts| parts.get(number)).cloned().unwrap_or_default(),
        edited: beside.hands.edited_fields(number).to_vec(),
        shop: beside.tree.get("shop").cloned().unwrap_or_default(),
    };
    let place = Place::hand(common.mark, &written.edited);
    if !known.metals.iter().any(|(name, _)| name == common.metal) {
        unknown_metal(&place.field("metal"), common.metal, job, desk);
    }
    let number = number_of(known.metals, common.metal);
    let metals = || known.metals.iter().filter_map(|(_, metal)| metal.as_ref());
    let metal = number.and_then(|number| metals().nth(number));
    let shape = shapes::shape(file, &shapes::Known { openings: known.openings, metal }, &place, desk);
    let (number, metal) = number.zip(metal)?;
    let lay = lay(&common, metal, &place, desk);
    let may_mirror = may_mirror(&common, metal, &place, desk);
    let turns = turns::of_part(&common, metal, &place, desk);
    let corner = corner(file, (known.shop, metal), shape.as_ref(), &place, desk);
    let seam_gap = seam_gap(file, known.shop, metal, &place, desk);
    let making = Making {
        number: metal.number.clone(),
        relief: relief(&common, known.shop),
        corner: corner?,
        seam_gap: seam_gap?,
        style: desk.style,
    };
    let face = file.face().map(|face| match face {
        FaceFile::Outside => FaceSide::Outside,
        FaceFile::Inside => FaceSide::Inside,
    });
    let shape = shape.map(|shape| stand_outs::told((shape, common.mark), &making, (metal, face), desk));
    Some(Part {
        mark: common.mark.to_owned(),
        quantity: common.quantity,
        metal: number,
        shape: shape?,
        making,
        lay: lay?,
        may_mirror: may_mirror?,
        turns: turns?,
        face,
        drawn_face: file.drawn_face().map(|face| match face {
            DrawnFaceFile::Upper => DrawnFace::Upper,
            DrawnFaceFile::Under => DrawnFace::Under,
            DrawnFaceFile::Outer => DrawnFace::Outer,
            DrawnFaceFile::Inner => DrawnFace::Inner,
            DrawnFaceFile::Front => DrawnFace::Front,
            DrawnFaceFile::Rear => DrawnFace::Rear,
            DrawnFaceFile::After => DrawnFace::After,
            DrawnFaceFile::Forward => DrawnFace::Forward,
        }),
        opposite_hand_of: None,
        piece_of: None,
        hand_edits: Vec::new(),
        notes,
        written,
    })
}

/// How the part's bends are relieved where they meet; a hole is as large as the shop's own.
fn relief(common: &PartCommon<'_>, shop: &Shop) -> ReliefStyle {
    common.relief.map_or(shop.relief, |file| style_of(file, shop.relief_hole))
}

/// The gap at its seams; shapes without seams have none to give.
fn seam_gap(
    file: &PartFile,
    shop: &Shop,
    metal: &JobMetal,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<Length> {
    let place = place.field("seam_gap");
    let written = file.common().seam_gap;
    if matches!(file, PartFile::Plate(_) | PartFile::BrakeProfile(_))
        && let Some(written) = written
    {
        let wrong = "this shape has no two plates that meet without a bend";
        desk.add(&place, &written.to_string(), wrong, "take it out");
        return None;
    }
    super::shop::seam_gap(written, shop, &metal.metal, &place, desk)
}

/// How the part's corners are made, where its shape and metal can be made so.
fn corner(
    file: &PartFile,
    (shop, metal): (&Shop, &JobMetal),
    shape: Option<&ShapeInput>,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<CornerStyle> {
    let common = file.common();
    let corner = asked_corner(file, shop, place, desk)?;
    let corner = made_so(corner, shape, &common, place, desk)?;
    let own = common.corner.is_some();
    (!own || super::shop::check_corner_gaps(&metal.metal, &corner, place, desk)).then_some(corner)
}

/// How the part's corners are made: as it says, or as the shop makes them.
fn asked_corner(file: &PartFile, shop: &Shop, place: &Place, desk: &mut Desk<'_>) -> Option<CornerStyle> {
    let Some(corner) = file.common().corner else { return Some(shop.corner.clone()) };
    let place = place.field("corner");
    if matches!(file, PartFile::Plate(_) | PartFile::BrakeProfile(_)) {
        let wrong = "this shape has no corners where two plates meet";
        desk.add(&place, "as given", wrong, "take it out");
        return None;
    }
    super::corner::corner(corner, &shop.corner, &place, desk)
}

/// Butt, lap and tab corners are made on panels, lids, pans, trays, boxes, gutters, coamings and hoppers; consoles and
/// lockers say between which of their pieces they can be. What is asked for elsewhere is refused, and what the shop does by habit is said to be
/// left.
fn made_so(
    corner: CornerStyle,
    shape: Option<&ShapeInput>,
    common: &PartCommon<'_>,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<CornerStyle> {
    use ShapeInput::{Coaming, CrownedLid, DayBox, Hopper, Lid, MadeUpLid, MadeUpPan, Pan, TaperedLid, Tray};
    use ShapeInput::{Cone, Console, Cylinder, EdgedLid, Gutter, Locker, Panel, SetBox, Transition};
    let ring = matches!(
        shape,
        None | Some(TaperedLid(_) | EdgedLid(_) | Lid(_) | Pan(_) | DayBox(_) | Tray(_) | Panel(_))
    );
    let shell = matches!(
        shape,
        Some(MadeUpLid(_) | CrownedLid(_) | MadeUpPan(_) | Coaming(_) | Hopper(_) | Gutter(_) | SetBox(_))
    );
    if let (Some(Panel(panel)), true) = (shape, common.corner.is_some())
        && !panel.has_corners()
    {
        let wrong = "no two flanges of this panel meet at a corner, bent the same way";
        desk.add(&place.field("corner"), "as given", wrong, "take it out");
        return None;
    }
    if ring || shell {
        return Some(corner);
    }
    let through = match shape {
        Some(Console(_)) => Some("wrap"),
        Some(Locker(_)) => Some("front"),
        _ => None,
    };
    if let Some(through) = through {
        if common.corner.is_some() {
            return Some(corner);
        }
        if corner != CornerStyle::Open {
            let words = format!("{}: its {through} runs through, not the shop's corner.", common.mark);
            desk.assumptions.push(words);
        }
        return Some(CornerStyle::Butt { through: Chosen::Sides(vec![through.to_owned()]) });
    }
    if corner == CornerStyle::Open {
        return Some(corner);
    }
    if common.corner.is_some() {
        let wrong = "this shape, as it is made here, has open corners and mitres only";
        let remedy = match shape {
            Some(Cylinder(_) | Cone(_)) => "take it out, and say how its one seam is made under \"seam\"",
            Some(Transition(_)) => "take it out, and say how its seams are made under \"seam\"",
            _ => "take it out, or ask for \"open\"",
        };
        desk.add(&place.field("corner"), "as given", wrong, remedy);
        return None;
    }
    desk.assumptions.push(format!("{}: open corners and mitres, not the shop's corner.", common.mark));
    Some(CornerStyle::Open)
}

/// Whether it may be cut from the other face: where the two are not equal, nobody can want it.
fn may_mirror(common: &PartCommon<'_>, metal: &JobMetal, place: &Place, desk: &mut Desk<'_>) -> Option<bool> {
    if common.mirror != Some(MirrorFile::Allowed) {
        return Some(false);
    }
    let uneven = match (metal.metal.pattern, metal.metal.film, metal.face_shows) {
        (Pattern::Tread, ..) => {
            "has its lugs on one face: a copy cut from the other face would have them inside out"
        }
        (_, Film::OneSide, _) => {
            "has film on one face: a copy cut from the other face would have it inside out"
        }
        (.., true) => "is to show its face: a copy cut from the other face would show the back of the sheet",
        (Pattern::Plain, Film::Bare | Film::BothSides, false) => return Some(true),
    };
    let wrong = format!("{} {uneven}", metal.metal.name);
    desk.add(&place.field("mirror"), "allowed", wrong, "take it out; allow it where both faces are alike");
    None
}

/// The part's lay; the outer `None` is a finding.
fn lay(
    common: &PartCommon<'_>,
    metal: &JobMetal,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<Option<PartLay>> {
    let given = common.lay.map(|lay| match lay {
        PartLayFile::Along => (PartLay::Along, "along"),
        PartLayFile::Across => (PartLay::Across, "across"),
    });
    match (given, metal.metal.lay) {
        (Some((_, word)), None) => {
            let wrong = format!("{} has no lay to lie to", metal.metal.name);
            desk.add(&place.field("lay"), word, wrong, "give the metal its lay, or take this out");
            None
        }
        (Some((lay, _)), Some(_)) => Some(Some(lay)),
        (None, Some(_)) => {
            let taken = "the lay is not given and taken along the flat's x axis";
            desk.assumptions.push(format!("{}: {taken}.", common.mark));
            Some(Some(PartLay::Along))
        }
        (None, None) => Some(None),
    }
}
