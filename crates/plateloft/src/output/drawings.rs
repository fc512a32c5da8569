//! Drawings of a plan: one layout sheet a part, one map a sheet, one plain outline a part.

use fold::SeamStyle;
use fold::refold::SeamGap;
use geometry::Vector;
use job::Job;
use paper::layout_sheet::{Fact, PartSheet};
use paper::lists::ListUnits;
use paper::sheet_map::{Drop, Piece, SheetMap};
use paper::{Page, layout_sheet, sheet_map};
use shapes::FactValue;
use units::Length;

use super::bend_words::{number_words, overbend_fact};
use super::words::{named_metal_words, weight_words};
use super::{fits, hands};
use crate::plan::{Flats, MetalNest, Plan, PlannedPart, PlannedSheet, marked_with};

/// Lay of a flat as drawn: along x, or across it; none for metal without lay.
fn lay_of(flats: &Flats, part: &PlannedPart) -> Option<Vector> {
    flats.job.metals[part.part.metal].metal.lay?;
    Some(if part.lay_across() { Vector::new(0.0, 1.0) } else { Vector::new(1.0, 0.0) })
}

/// The layout sheet of one part.
pub(crate) fn part_page(flats: &Flats, part: &PlannedPart) -> Page {
    let job = &flats.job;
    let metal = &job.metals[part.part.metal];
    let bent = !part.flat.bends.is_empty();
    let number = if bent { number_words(&metal.number, &part.flat, job.style) } else { String::new() };
    let proof = if bent { proof_words(part) } else { String::new() };
    let title = title(part);
    let notes: Vec<String> =
        hands::notes(flats, part).into_iter().chain(part.part.notes.iter().cloned()).collect();
    let found = part.findings.iter().map(ToString::to_string);
    let cautions: Vec<String> = fits::refusals_of(flats, &part.part.mark).into_iter().chain(found).collect();
    layout_sheet::draw(&PartSheet {
        job: &job.name,
        mark: &part.part.mark,
        title: &title,
        metal: &named_metal_words(job, metal),
        quantity: part.part.quantity,
        flat: &part.flat,
        style: job.style,
        facts: &drawn_facts(flats, part),
        bend_number: &number,
        proof: &proof,
        lay: lay_of(flats, part),
        face: &part.face_words(metal),
        weight: &weight_words(job, part),
        notes: &notes,
        cautions: &cautions,
        marked_with: marked_with(metal),
    })
}

/// "culling wing, opposite hand of W1".
pub(crate) fn title(part: &PlannedPart) -> String {
    let shape = part.part.piece_of.as_ref().map_or_else(
        || part.part.shape.recipe().words().to_owned(),
        |piece| format!("{} of {}", piece.piece.words, piece.whole),
    );
    match &part.part.opposite_hand_of {
        Some(other) => format!("{shape}, opposite hand of {other}"),
        None => shape,
    }
}

/// What refolding showed, in words; in millimetres and inches, since it is far below any tape.
fn proof_words(part: &PlannedPart) -> String {
    let corners: usize = part.flat.faces.iter().map(|face| 2 * face.corners.len()).sum();
    format!(
        "folded again on the neutral line: {corners} corners on both sides of {} faces, {} sizes and {} seams \
         compared; worst deviation {:.4} mm",
        part.flat.faces.len(),
        part.proof.sizes.len(),
        part.proof.seams.len(),
        part.proof.worst_mm
    )
}

/// Facts of a part as printed: its own, then the seams.
pub(crate) fn facts(flats: &Flats, part: &PlannedPart) -> Vec<Fact> {
    let own = part.shaped.facts.iter().map(|fact| fact_words(&flats.job, fact));
    let seams = part.proof.seams.iter().map(|seam| seam_fact(flats, seam));
    own.chain(seams).collect()
}

/// Facts of a part for the packet: as in [`facts`], and how far its bends are pressed, which no list of bends says there.
pub(crate) fn packet_facts(flats: &Flats, part: &PlannedPart) -> Vec<Fact> {
    let overbend = overbend_fact(&flats.job.metals[part.part.metal], &part.flat);
    facts(flats, part).into_iter().chain(overbend).collect()
}

/// One seam as refolded.
fn seam_fact(flats: &Flats, seam: &SeamGap) -> Fact {
    let print = |millimetres: f64| Length::from_millimetres(millimetres).print(flats.job.style);
    Fact {
        name: format!("seam, {}", seam.name),
        value: format!(
            "{}, {} long outside, gap {} to {}",
            style_words(seam.style),
            print(seam.length_mm),
            print(seam.least_mm),
            print(seam.largest_mm)
        ),
        origin: "measured between the refolded plates along the whole seam".to_owned(),
    }
}

/// A style of seams in the trade's words.
const fn style_words(style: SeamStyle) -> &'static str {
    match style {
        SeamStyle::Open => "open",
        SeamStyle::Butt { .. } => "butt",
        SeamStyle::Lap { outside: true, .. } => "lap outside",
        SeamStyle::Lap { outside: false, .. } => "lap inside",
        SeamStyle::TabAndSlot { .. } => "tabs in slots",
    }
}

/// Facts for the drawing: those of the part, and all seams that close in one line.
fn drawn_facts(flats: &Flats, part: &PlannedPart) -> Vec<Fact> {
    let closed =
        |seam: &&SeamGap| seam.style == SeamStyle::Open && seam.largest_mm < geometry::tolerance::REFOLD_MM;
    let count = part.proof.seams.iter().filter(closed).count();
    let open = part.proof.seams.iter().filter(|seam| !closed(seam));
    let own = part.shaped.facts.iter().map(|fact| fact_words(&flats.job, fact));
    let overbend = overbend_fact(&flats.job.metals[part.part.metal], &part.flat);
    let mut facts: Vec<Fact> = own.chain(overbend).chain(open.map(|seam| seam_fact(flats, seam))).collect();
    if count > 0 {
        facts.push(Fact {
            name: "open corners".to_owned(),
            value: format!("{count}, inside edges touching, V outside for the weld"),
            origin: "measured between the inside edges of the refolded plates".to_owned(),
        });
    }
    facts
}

/// A fact as printed.
pub(crate) fn fact_words(job: &Job, fact: &shapes::Fact) -> Fact {
    let value = match &fact.value {
        FactValue::Length(length) => length.print(job.style),
        FactValue::Angle(angle) => format!("{}°", angle.print(1)),
        FactValue::Area(area) => area.print_with_unit(ListUnits::of(job.style).area, 2),
        FactValue::Words(words) => words.clone(),
    };
    Fact { name: fact.name.clone(), value, origin: fact.origin.clone() }
}

/// The map of one sheet.
pub(crate) fn sheet_page(plan: &Plan, nest: &MetalNest, sheet: &PlannedSheet) -> Page {
    let flats = &plan.flats;
    let metal = &flats.job.metals[nest.metal];
    let pieces: Vec<Piece> = sheet
        .pieces
        .iter()
        .zip(&sheet.laid.pieces)
        .map(|(piece, (mark, outline))| {
            let part = &flats.parts[piece.part];
            let line =
                |bend: &fold::flat::BendLine| (piece.place.place(bend.from), piece.place.place(bend.to));
            Piece {
                mark: mark.clone(),
                copy: piece.copy,
                of: part.part.quantity,
                outline: outline.clone(),
                bend_lines: part.flat.bends.iter().map(line).collect(),
            }
        })
        .collect();
    let drops: Vec<Drop> = sheet.laid.drops.iter().map(|&[low, high]| Drop { low, high }).collect();
    let shares = plan.report.sheets.iter().find(|row| row.sheet == sheet.laid.name);
    let facts = shares.map_or_else(Vec::new, |row| {
        let percent = |share: f64| format!("{:.1} %", 100.0 * share);
        vec![
            ("yield".to_owned(), percent(row.breakdown.yield_share())),
            ("yield with kept drops".to_owned(), percent(row.breakdown.yield_share_with_drops())),
        ]
    });
    let face =
        if metal.metal.has_face_side() { "face side up: lugs or film toward you" } else { "marked face up" };
    sheet_map::draw(&SheetMap {
        job: &flats.job.name,
        sheet: &sheet.laid.name,
        metal: &named_metal_words(&flats.job, metal),
        face,
        length_mm: sheet.laid.size[0].millimetres(),
        width_mm: sheet.laid.size[1].millimetres(),
        edge_trim_mm: sheet.laid.edge_trim.millimetres(),
        style: flats.job.style,
        lay: metal.metal.lay.map(|_| Vector::new(1.0, 0.0)),
        pieces: &pieces,
        drops: &drops,
        facts: &facts,
    })
}
