//! Folded sheets: which parts get one, which way up they stand, and their seams in words.

use fold::part::{FoldedPart, Seam, SeamSide, SeamStyle};
use fold::refold::SeamGap;
use geometry::{Point, polygon, tolerance};
use job::{Job, ShapeInput};
use paper::folded_sheet::{self, FoldedSheet};
use paper::isometric::Standing;
use paper::layout_sheet::Fact;
use paper::lists::refold::SeamRow;
use paper::paper_model::{self, PaperModel};
use paper::{Page, picture};
use shapes::FaceSide;
use shapes::deck::{Deck, DeckStation};
use shapes::panel::Panel;
use units::{Angle, Length};

use super::corners;
use super::drawings::{proof_words, title};
use crate::plan::{Flats, PlannedPart, body_of};

/// The folded sheet of a part that has bends.
pub(crate) fn folded_page(flats: &Flats, part: &PlannedPart) -> Option<Page> {
    if part.flat.bends.is_empty() {
        return None;
    }
    let seams: Vec<SeamRow> = seam_rows(&flats.job, part);
    Some(folded_sheet::draw(&FoldedSheet {
        job: &flats.job.name,
        mark: &part.part.mark,
        title: &title(flats, part),
        flat: &part.flat,
        named: &corners::named(part),
        standing: standing(part),
        seams: &seams,
        style: flats.job.style,
        proof: &proof_words(part, flats.job.unit),
        sizes: &sizes_to_check(flats, part),
    }))
}

/// What the shape asks of the finished part, and the box that it stands in.
fn sizes_to_check(flats: &Flats, part: &PlannedPart) -> Vec<Fact> {
    let print = |millimetres: f64| Length::from_millimetres(millimetres).print(flats.job.style);
    let is_hopper = matches!(part.part.shape, ShapeInput::Hopper(_));
    let name = |name: &str| match name.split_once(" to ") {
        Some((plate, other)) if is_hopper => format!("edge between {plate} and {other}"),
        _ => name.to_owned(),
    };
    let mut proven: Vec<Fact> = part
        .proof
        .sizes
        .iter()
        .map(|size| Fact {
            name: name(&size.name),
            value: print(size.expected_mm),
            origin: "what the shape asks for; the refolded flat was measured against it".to_owned(),
            ..Fact::default()
        })
        .collect();
    if matches!(part.part.shape, ShapeInput::Deck(_)) {
        proven = outboard_flanges_as_one(proven);
    }
    let (low, high) = body_of(part).bounds();
    let over_all = [high.x - low.x, high.y - low.y, high.z - low.z].map(print).join(" × ");
    let root = part.shaped.part.faces.first().map_or("first face", |face| face.name.as_str());
    let boxed = Fact {
        name: format!("over all, {root} level"),
        value: over_all,
        origin: "smallest upright box round the refolded flat".to_owned(),
        ..Fact::default()
    };
    let more = match &part.part.shape {
        ShapeInput::Hopper(_) => bevel_and_diagonals(flats, part),
        ShapeInput::Deck(deck) => widths(flats, part, deck),
        ShapeInput::Panel(panel) => corner_widths(flats, panel),
        _ => Vec::new(),
    };
    proven.into_iter().chain(more).chain([boxed]).collect()
}

/// The depths of the flanges along the outboard runs of a deck as one row, where all are alike.
fn outboard_flanges_as_one(sizes: Vec<Fact>) -> Vec<Fact> {
    let is_depth = |fact: &&Fact| fact.name.starts_with("depth of flange outboard");
    let depths: Vec<&Fact> = sizes.iter().filter(is_depth).collect();
    let Some(first) = depths.first().filter(|first| depths.iter().all(|fact| fact.value == first.value))
    else {
        return sizes;
    };
    let all = Fact { name: "depth of every outboard flange, outside".to_owned(), ..(*first).clone() };
    let others = sizes.iter().filter(|fact| !is_depth(fact)).cloned();
    std::iter::once(all).chain(others).collect()
}

/// Width of a deck at every station that lies on the piece.
fn widths(flats: &Flats, part: &PlannedPart, deck: &Deck) -> Vec<Fact> {
    let print = |length: Length| length.print(flats.job.style);
    let piece = part.part.piece_of.as_ref().map_or(0, |piece| piece.number);
    let width = |station: &DeckStation| Fact {
        name: format!("width at station {}", print(station.at)),
        value: print(station.width),
        origin: "stations; square to the inboard edge, over the outsides".to_owned(),
        ..Fact::default()
    };
    deck.stations_on(piece).iter().map(width).collect()
}

/// How far every corner of a panel of more than four lies from its longest side with a square flange; none for a plainer panel,
/// whose own sizes tell.
fn corner_widths(flats: &Flats, panel: &Panel) -> Vec<Fact> {
    let outline = &panel.outline;
    let is_square = |turn: Angle| (turn.radians() - Angle::RIGHT.radians()).abs() <= tolerance::PARALLEL_SINE;
    let flanged = panel.flanges.iter().filter(|flange| is_square(flange.turn));
    let sides = flanged.filter_map(|flange| outline.side_number(&flange.side));
    let longest = sides.max_by(|&a, &b| outline.side_mm(a).total_cmp(&outline.side_mm(b)));
    let Some(base) = longest.filter(|_| 4 < outline.count()) else { return Vec::new() };
    let (from, to) = outline.side(base);
    let inward = (to - from).unit().left();
    let others = outline.names.iter().zip(&outline.corners);
    let others = others.filter(|(_, corner)| **corner != from && **corner != to);
    let off = |(name, corner): (&String, &Point)| Fact {
        name: format!("corner {name}, square from the outside of flange {}", outline.sides[base]),
        value: Length::from_millimetres((*corner - from).dot(inward).abs()).print(flats.job.style),
        origin: "outline, over the outsides".to_owned(),
        ..Fact::default()
    };
    others.map(off).collect()
}

/// What bevel and tape prove on a piece of a hopper beside its edges: the inside angle of every bend, and both diagonals of
/// the face between the corners where its outsides meet those of the plates beside it.
fn bevel_and_diagonals(flats: &Flats, part: &PlannedPart) -> Vec<Fact> {
    let name = |face: usize| part.flat.faces[face].name.as_str();
    let angles = part.flat.bends.iter().map(|bend| Fact {
        name: format!("inside angle of {} and {}", name(bend.parent), name(bend.child)),
        value: format!("{}°", Angle::from_radians(std::f64::consts::PI - bend.turn_rad).print(1)),
        origin: "180° less the turn of the bend".to_owned(),
        ..Fact::default()
    });
    angles.chain(diagonals(flats, part)).collect()
}

/// Both diagonals between the four lettered corners of the face, where all its sides between them are proven sizes; none
/// for any other face.
fn diagonals(flats: &Flats, part: &PlannedPart) -> Vec<Fact> {
    let mut ring = corners::named(part).letters(&part.flat);
    let (low, high) = polygon::bounds(&ring.iter().map(|(_, at)| *at).collect::<Vec<Point>>());
    let middle = low.toward(high, 0.5);
    ring.sort_by(|a, b| (a.1 - middle).angle().total_cmp(&(b.1 - middle).angle()));
    let [a, b, c, d] = ring.as_slice() else { return Vec::new() };
    let is_proven = |from: Point, to: Point| {
        let off = |size_mm: f64| (size_mm - from.distance(to)).abs();
        part.proof.sizes.iter().any(|size| off(size.expected_mm) <= tolerance::REFOLD_MM)
    };
    if ![(a, b), (b, c), (c, d), (d, a)].iter().all(|(from, to)| is_proven(from.1, to.1)) {
        return Vec::new();
    }
    [(a, c), (b, d)]
        .map(|(from, to)| Fact {
            name: format!("diagonal, {} to {}", from.0, to.0),
            value: Length::from_millimetres(from.1.distance(to.1)).print(flats.job.style),
            origin: "between the corners of the face, where outsides meet".to_owned(),
            ..Fact::default()
        })
        .to_vec()
}

/// The paper model of a part that has bends.
pub(crate) fn model_page(flats: &Flats, part: &PlannedPart) -> Option<Page> {
    if part.flat.bends.is_empty() {
        return None;
    }
    let metal = &flats.job.metals[part.part.metal];
    Some(paper_model::draw(&PaperModel {
        job: &flats.job.name,
        mark: &part.part.mark,
        title: &title(flats, part),
        pattern: &fold::thin::unfold(&part.shaped.part),
        style: flats.job.style,
        face: &part.face_words(metal),
    }))
}

/// A small picture of a part, folded and flat.
pub(crate) fn picture_page(part: &PlannedPart) -> Page {
    picture::draw(&part.part.mark, &part.flat, standing(part))
}

/// Lids stand with their top up, pans and boxes with their opening up, all else as it is drawn.
pub(crate) fn standing(part: &PlannedPart) -> Standing {
    let recipe = part.part.shape.recipe();
    match recipe.natural_face() {
        _ if recipe.is_lid() => Standing::RootOnTop,
        Some(FaceSide::Inside) => Standing::RootBelow,
        Some(FaceSide::Outside) | None => Standing::FaceUp,
    }
}

/// Every seam of a part with what was designed and what refolding measured.
pub(crate) fn seam_rows(job: &Job, part: &PlannedPart) -> Vec<SeamRow> {
    let pairs = part.shaped.part.seams.iter().zip(&part.proof.seams);
    pairs.map(|(design, measured)| seam_row(job, &part.shaped.part, design, measured)).collect()
}

fn seam_row(job: &Job, part: &FoldedPart, design: &Seam, measured: &SeamGap) -> SeamRow {
    let print = |millimetres: f64| Length::from_millimetres(millimetres).print(job.style);
    SeamRow {
        name: measured.name.clone(),
        style: match measured.at_cut_off_mm {
            Some(open_mm) => {
                let words = style_words(job, part, design);
                format!("{words}; corners cut off clear of bends, {} open there", print(open_mm))
            }
            None => style_words(job, part, design),
        },
        inside_angle: format!("{}°", Angle::from_radians(measured.inside_angle_rad).print(1)),
        length: print(measured.length_mm),
        designed: print(design.gap_mm),
        least: print(measured.least_mm),
        largest: print(measured.largest_mm),
        interference: if measured.interference_mm > tolerance::SAME_POINT_MM {
            print(measured.interference_mm)
        } else {
            "none".to_owned()
        },
    }
}

/// How two plates meet, in words: "butt, wall AB runs through".
pub(crate) fn style_words(job: &Job, part: &FoldedPart, seam: &Seam) -> String {
    let print = |millimetres: f64| Length::from_millimetres(millimetres).print(job.style);
    let face = |side: SeamSide| match side {
        SeamSide::First => part.faces[seam.first.0].name.as_str(),
        SeamSide::Second => part.faces[seam.second.0].name.as_str(),
    };
    match seam.style {
        SeamStyle::Open if std::f64::consts::PI - seam.inside_angle_rad < tolerance::PARALLEL_SINE => {
            "edge to edge".to_owned()
        }
        SeamStyle::Open => "open corner".to_owned(),
        SeamStyle::Butt { through } => format!("butt, {} runs through", face(through)),
        SeamStyle::Lap { width_mm, carrier, outside } => {
            let side = if outside { "outside" } else { "inside" };
            format!("lap {} {side}, on {}", print(width_mm), face(carrier))
        }
        SeamStyle::TabAndSlot { clearance_mm, count, tabs, .. } => {
            let other = match tabs {
                SeamSide::First => SeamSide::Second,
                SeamSide::Second => SeamSide::First,
            };
            let (tab, slot) = (Notched::of(part, seam, tabs), Notched::of(part, seam, other));
            let apart = match tab.apart_mm {
                Some(apart) => format!(", {} from one to the next", print(apart)),
                None => String::new(),
            };
            format!(
                "{count} tabs {} wide on {}, standing out {}{apart}; slots {} wide and {} deep in {}, play {} a side",
                print(tab.wide_mm),
                face(tabs),
                print(tab.deep_mm),
                print(slot.wide_mm),
                print(slot.deep_mm),
                face(other),
                print(clearance_mm)
            )
        }
    }
}

/// The tabs or the slots along the edge of a plate, read off its outline.
struct Notched {
    wide_mm: f64,
    deep_mm: f64,
    /// From one to the next; `None` where there is one only.
    apart_mm: Option<f64>,
}

impl Notched {
    /// Behind the end of the seam's edge, or before its start on an opposite hand, the outline goes out or in, along, and
    /// back to the edge's line, once for each.
    fn of(part: &FoldedPart, seam: &Seam, side: SeamSide) -> Self {
        let (face, edge) = match side {
            SeamSide::First => seam.first,
            SeamSide::Second => seam.second,
        };
        let corners = &part.faces[face].corners;
        let count = corners.len();
        let (a, b) = part.faces[face].edge(edge);
        let along = (b - a).unit();
        let on_line = |corner: Point| (corner - a).cross(along).abs() <= tolerance::SAME_POINT_MM;
        let forward = |step: usize| corners[(edge + 1 + step) % count];
        let backward = |step: usize| corners[(edge + 5 * count - step) % count];
        let at: &dyn Fn(usize) -> Point = if on_line(forward(3)) { &forward } else { &backward };
        let many = matches!(seam.style, SeamStyle::TabAndSlot { count, .. } if count > 1);
        Self {
            wide_mm: at(1).distance(at(2)),
            deep_mm: at(0).distance(at(1)),
            apart_mm: many.then(|| at(0).distance(at(4))),
        }
    }
}
