//! Sizes of a tapered lid.

use shapes::tapered_lid::{EdgedLid, Hinge, LidMade, LiftingNotch, MadeUpLid, Seat, Split, TaperedLid};
use units::{Length, LengthStyle};

use super::edge::edge;
use super::sides::each_side;
use super::{Known, openings};
use crate::convert::clearance::clearance;
use crate::convert::desk::{Desk, Range};
use crate::file::{HingeFile, LidMadeFile, LiftingNotchFile, SplitFile, TaperedLidFile};
use crate::model::{JobMetal, ShapeInput};
use crate::place::Place;

/// A hinge leaf that takes more is pointed out, 1/2 in: two leaves of heavy strap hinge with their screw heads take less
/// (common practice, no source).
const THICKEST_LEAF: Length = Length::from_sixty_fourths(32);

pub(super) fn tapered_lid(
    file: &TaperedLidFile,
    known: &Known<'_>,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<ShapeInput> {
    let over = openings::figure(&file.over, known.openings, &place.field("over"), desk);
    let seat = seat(file, place, desk);
    let rise = desk.length(&place.field("rise"), &file.rise, Range::AboveZero);
    let skirt = desk.length(&place.field("skirt"), &file.skirt, Range::AboveZero);
    let lip = desk.optional(&place.field("return"), file.return_width.as_ref(), Range::AboveZero);
    let hinge = found(file.hinge.as_ref(), &place.field("hinge"), desk, hinge);
    let made = made(file, place, desk);
    let notch = found(file.notch.as_ref(), &place.field("notch"), desk, notch);
    let end = edge(file.edge.as_ref(), place, desk);
    let over = over?;
    let inset = each_side(&file.inset, &over, Range::ZeroOrMore, &place.field("inset"), desk);
    let (outset, seat) = seat?;
    let lid = TaperedLid { inset: inset?, over, outset, rise: rise?, skirt: skirt?, return_width: lip? };
    let (hinge, made, notch, end) = (hinge?, made?, notch?, end?);
    if let (Seat::Proud, Some(metal)) = (&seat, known.metal) {
        let mark = place.mark().unwrap_or_default();
        desk.cautions.extend(over_coaming(&lid, metal, desk.style).map(|words| format!("{mark}: {words}.")));
    }
    let plumb = lid.inset.contains(&Length::ZERO);
    let plain = made == LidMade::OnePiece && seat == Seat::Proud && notch.is_none() && !plumb;
    Some(if plain && end.is_plain() && hinge.is_none() {
        ShapeInput::TaperedLid(lid)
    } else if plain && !end.is_plain() {
        ShapeInput::EdgedLid(EdgedLid { lid, edge: end, hinge })
    } else {
        ShapeInput::MadeUpLid(MadeUpLid { lid, seat, hinge, made, notch, edge: end })
    })
}

/// A proud lid whose skirt or return leaves nothing to go over a coaming along the opening, in words.
fn over_coaming(lid: &TaperedLid, metal: &JobMetal, style: LengthStyle) -> Option<String> {
    let thickness = metal.number.thickness();
    let (taken, taker) = match lid.return_width {
        Some(width) if thickness < width => (width, "return"),
        _ => (thickness, "metal"),
    };
    (lid.outset < taken).then(|| {
        let [outset, taken, over] = [lid.outset, taken, taken - lid.outset].map(|length| length.print(style));
        format!(
            "outset of {outset} less {taken} {taker} comes to {over} inside the opening's line; the lid does not go over \
             a coaming there: make outset more than {taken}, with what must stay free"
        )
    })
}

/// A group of fields if it is there; the outer `None` is a finding.
fn found<F, T>(
    file: Option<&F>,
    place: &Place,
    desk: &mut Desk<'_>,
    read: fn(&F, &Place, &mut Desk<'_>) -> Option<T>,
) -> Option<Option<T>> {
    file.map_or(Some(None), |file| read(file, place, desk).map(Some))
}

/// Outset of a proud lid, or the clearance of a flush one.
fn seat(file: &TaperedLidFile, place: &Place, desk: &mut Desk<'_>) -> Option<(Length, Seat)> {
    match (&file.outset, &file.flush) {
        (Some(outset), None) => {
            desk.length(&place.field("outset"), outset, Range::ZeroOrMore).map(|outset| (outset, Seat::Proud))
        }
        (None, Some(free)) => {
            clearance(free, &place.field("flush"), desk).map(|free| (Length::ZERO, Seat::Flush(free)))
        }
        _ => {
            let wrong = "a lid is proud by its \"outset\", or \"flush\" in the opening by a clearance";
            desk.add(&place.field("outset"), "", wrong, "give exactly one of them");
            None
        }
    }
}

fn hinge(file: &HingeFile, place: &Place, desk: &mut Desk<'_>) -> Option<Hinge> {
    let leaf = desk.length(&place.field("leaf"), &file.leaf, Range::ZeroOrMore)?;
    if THICKEST_LEAF < leaf {
        let mark = place.mark().unwrap_or_default();
        let leaf = leaf.print(desk.style);
        let meant = "it is what the leaf takes between skirt and coaming, its thickness and not its length";
        desk.cautions.push(format!("{mark}: hinge.leaf of {leaf} is a great deal; {meant}."));
    }
    Some(Hinge { side: file.side.clone(), leaf })
}

fn made(file: &TaperedLidFile, place: &Place, desk: &mut Desk<'_>) -> Option<LidMade> {
    let made = file.made.unwrap_or(LidMadeFile::OnePiece);
    if file.split.is_some() != (made == LidMadeFile::TwoHalves) {
        let wrong = "goes with \"made\": \"two_halves\", and only with it";
        desk.add(&place.field("split"), "", wrong, "give both, or neither");
        return None;
    }
    match (made, &file.split) {
        (LidMadeFile::TwoHalves, Some(file)) => {
            split(file, &place.field("split"), desk).map(LidMade::TwoHalves)
        }
        (LidMadeFile::TopAndRing, _) => Some(LidMade::TopAndRing),
        (LidMadeFile::Plates, _) => Some(LidMade::Plates),
        _ => Some(LidMade::OnePiece),
    }
}

fn split(file: &SplitFile, place: &Place, desk: &mut Desk<'_>) -> Option<Split> {
    let flange = desk.optional(&place.field("flange"), file.flange.as_ref(), Range::AboveZero);
    let across = place.field("across");
    let [first, second] = file.across.0.as_slice() else {
        desk.add(&across, "", "a line crosses two sides", "give two sides and where it crosses each");
        return None;
    };
    let end = |(side, at): &(String, crate::file::Size), desk: &mut Desk<'_>| {
        desk.length(&across.field(side), at, Range::AboveZero).map(|at| (side.clone(), at))
    };
    let (first, second) = (end(first, desk), end(second, desk));
    Some(Split { ends: [first?, second?], flange: flange? })
}

fn notch(file: &LiftingNotchFile, place: &Place, desk: &mut Desk<'_>) -> Option<LiftingNotch> {
    let at = desk.optional(&place.field("at"), file.at.as_ref(), Range::AboveZero);
    let width = desk.length(&place.field("width"), &file.width, Range::AboveZero);
    let depth = desk.length(&place.field("depth"), &file.depth, Range::AboveZero);
    let corner = desk.optional(&place.field("corner"), file.corner.as_ref(), Range::ZeroOrMore);
    Some(LiftingNotch {
        side: file.side.clone(),
        at: at?,
        width: width?,
        depth: depth?,
        corner: corner?.unwrap_or(Length::ZERO),
    })
}
