//! Drawings of a plan: one layout sheet a part, one map a sheet, one plain outline a part.

use fold::Direction;
use fold::part::SeamStyle;
use geometry::{Point, Vector};
use job::{Job, JobMetal};
use paper::isometric::Folded;
use paper::layout_sheet::{Fact, Origins, PartSheet, Sheets, StripBend};
use paper::lists::ListUnits;
use paper::lists::refold::SeamRow;
use paper::packet::copy_words;
use paper::scrap_report::printed_yields;
use paper::sheet_map::{Drop, OffcutEdges, Piece, PieceDatum, SheetMap};
use paper::{Page, layout_sheet, sheet_map};
use shapes::FactValue;
use stock::Figure;
use units::LengthUnit;

use super::bend_words::{number_words, origin_words, overbend_fact, springback_words};
use super::folded::{is_flat, seam_rows};
use super::numbers::Numbers;
use super::rack_faces::face_and_parts;
use super::relief_words::relief_fact;
use super::sizes_to_check::flat_hopper_sizes;
use super::words::{finding_words, named_metal_words, origin_in_words, turns_words, weight_words};
use super::{corners, fits, hands, own_facts, seam_gaps};
use crate::kit::{strip_direction, strip_legs_together};
use crate::plan::{
    FlatPlace, Flats, KeptDrop, MetalNest, Plan, PlannedPart, PlannedSheet, finer, marked_with,
};
use crate::speech::{counted, listed, listed_counts};

/// Lay of a flat as drawn: along x, or across it; none for metal without lay.
fn lay_of(flats: &Flats, part: &PlannedPart) -> Option<Vector> {
    flats.job.metals[part.part.metal].metal.lay?;
    Some(if part.lay_across() { Vector::new(0.0, 1.0) } else { Vector::new(1.0, 0.0) })
}

/// The layout sheet of one part, with what does not fit on it.
pub(crate) fn part_pages(flats: &Flats, part: &PlannedPart, folded: Option<&Folded>) -> Sheets {
    let job = &flats.job;
    let metal = &job.metals[part.part.metal];
    let bent = !part.flat.bends.is_empty();
    let number = if bent { number_words(&part.shaped.part, &part.flat, job.style) } else { String::new() };
    let proof = if bent { proof_words(part, job.unit) } else { String::new() };
    let strip = strip_bend(flats, part);
    let title = title(flats, part);
    let notes: Vec<String> =
        hands::notes(flats, part).into_iter().chain(part.part.notes.iter().cloned()).collect();
    let found = part.findings.iter().map(finding_words);
    let cautions: Vec<String> = fits::refusals_of(flats, &part.part.mark).into_iter().chain(found).collect();
    let (facts, face, weight) = (drawn_facts(flats, part), part.face_words(metal), weight_words(job, part));
    let metal_words = named_metal_words(job, metal);
    let field =
        |name: &str| format!("{} of the metal {} in the job", name.replace('_', " "), metal.metal.name);
    let from = |figure: Figure, field: String| {
        let source = metal.metal.sources.iter().find(|(known, _)| *known == figure);
        source.map_or(field, |(_, source)| source.clone())
    };
    let (metal_from, thickness_from) = (field("alloy"), field("thickness"));
    let radius_from = from(Figure::InsideRadius, field("inside_radius"));
    let weight_from = weight_origin(metal);
    let number_from = format!(
        "bend number of {}: {}; deduction = 2 × setback − bend allowance by that number",
        metal.metal.name,
        origin_words(&metal.number)
    );
    let sheet = PartSheet {
        job: &job.name,
        mark: &part.part.mark,
        title: &title,
        metal: &metal_words,
        quantity: part.part.quantity,
        flat: &part.flat,
        style: job.style,
        facts: &facts,
        bend_number: &number,
        proof: &proof,
        lay: lay_of(flats, part),
        face: &face,
        weight: &weight,
        notes: &notes,
        cautions: &cautions,
        marked_with: marked_with(metal),
        origins: Origins {
            metal: &metal_from,
            thickness: &thickness_from,
            inside_radius: &radius_from,
            weight: &weight_from,
            bend_number: &number_from,
        },
        named: &corners::named(part),
        folded,
        strip: strip.as_ref().map(|(legs, direction)| StripBend { legs, direction: *direction }),
    };
    layout_sheet::draw(&sheet)
}

/// What a test strip is called.
const STRIP: &str = "test strip: bend it before any part";

/// True for a test strip of the kit.
pub(crate) fn is_strip(flats: &Flats, part: &PlannedPart) -> bool {
    let is_it = |&number: &usize| flats.parts[number].part.mark == part.part.mark;
    flats.job.kit.as_ref().is_some_and(|kit| kit.test_strips.iter().any(is_it))
}

/// What both legs of a test strip of the kit should be together, with the unit, and which way it is bent; `None` for
/// any other part.
fn strip_bend(flats: &Flats, part: &PlannedPart) -> Option<(String, Direction)> {
    let job = &flats.job;
    let number = &job.metals[part.part.metal].number;
    let legs = || strip_legs_together(part, number).print_with_unit(finer(job.style));
    is_strip(flats, part).then(|| (legs(), strip_direction(flats, part.part.metal)))
}

/// How a weight was worked out.
pub(crate) fn weight_origin(metal: &JobMetal) -> String {
    let source = metal.metal.sources.iter().find(|(figure, _)| *figure == Figure::WeightPerArea);
    let source = source.map_or("metals", |(_, source)| source.as_str());
    format!("area of the flat × weight per area of {} ({source})", metal.metal.name)
}

/// "culling wing, opposite hand of W1".
pub(crate) fn title(flats: &Flats, part: &PlannedPart) -> String {
    if is_strip(flats, part) {
        return STRIP.to_owned();
    }
    let shape = part.part.piece_of.as_ref().map_or_else(
        || part.part.shape.recipe().words().to_owned(),
        |piece| format!("{} of {}", piece.piece.words, piece.whole),
    );
    match hands::mirrored_words(flats, part) {
        Some(other) if hands::is_one_piece_for_both(flats, part) => {
            let made = if part.flat.bends.is_empty() { "cut" } else { "cut and bent" };
            format!("{shape}, {made} as {other}, for the other side")
        }
        Some(other) => format!("{shape}, opposite hand of {other}"),
        None => shape,
    }
}

/// A deviation in ten-thousandths, since it is far below any tape.
pub(crate) fn deviation_words(millimetres: f64, unit: LengthUnit) -> String {
    let mark = if unit == LengthUnit::Inch { "in" } else { "mm" };
    let printed = deviation(millimetres, unit);
    if printed.ends_with(".0000") {
        format!("less than {} {mark}", printed.replace("0000", "0001"))
    } else {
        format!("{printed} {mark}")
    }
}

/// A small deviation in the job's unit, to four places.
pub(crate) fn deviation(millimetres: f64, unit: LengthUnit) -> String {
    match unit {
        LengthUnit::Inch => format!("{:.4}", millimetres / 25.4).trim_start_matches('0').to_owned(),
        LengthUnit::Millimetre => format!("{millimetres:.4}"),
    }
}

/// What refolding showed, in words.
pub(crate) fn proof_words(part: &PlannedPart, unit: LengthUnit) -> String {
    let corners: usize = part.flat.faces.iter().map(|face| 2 * face.corners.len()).sum();
    let also = [(part.proof.sizes.len(), "size"), (part.proof.seams.len(), "seam")];
    format!(
        "as asked: {corners} corners of {}{}, worst off by {}",
        counted(part.flat.faces.len(), "face"),
        listed_counts(&also),
        deviation_words(part.proof.worst_mm, unit)
    )
}

/// Facts of a part as printed: its own, then the seams.
pub(crate) fn facts(flats: &Flats, part: &PlannedPart) -> Vec<Fact> {
    let own = part.shaped.facts.iter().map(|fact| fact_words(&flats.job, fact));
    let own = own.chain(relief_of(flats, part));
    own.chain(seam_rows(&flats.job, part).iter().map(|row| seam_fact(flats, part, row))).collect()
}

/// Facts of a part for the packet: as in [`facts`], and how far its bends are pressed, which no list of bends says there.
pub(crate) fn packet_facts(flats: &Flats, part: &PlannedPart) -> Vec<Fact> {
    let metal = &flats.job.metals[part.part.metal];
    let overbend = overbend_fact(metal, &part.flat, flats.job.unit);
    let below = format!("{}, among drawings and maps", springback_name(metal));
    let overbend = overbend.map(|fact| Fact { origin: below, ..fact });
    let shape = part.part.shape.recipe().word();
    let mut facts: Vec<Fact> = facts(flats, part).into_iter().chain(overbend).collect();
    for field in facts.iter_mut().flat_map(|fact| &mut fact.fields) {
        *field = field_in_words(shape, field);
    }
    facts
}

/// "spacing of the frames, counted from the aft end (`frames_every`)": the trade's words, then the field.
fn field_in_words(shape: &str, field: &str) -> String {
    let Some(words) = job::field_words(shape, field) else { return field.to_owned() };
    let mut letters = words.chars();
    let first = letters.next().map(|letter| letter.to_lowercase().to_string()).unwrap_or_default();
    format!("{first}{} ({field})", letters.as_str())
}

fn springback_name(metal: &JobMetal) -> String {
    format!("springback of {}", metal.metal.name)
}

/// Where the overbends of every metal come from, once each.
pub(crate) fn springback_facts(flats: &Flats) -> Vec<Fact> {
    let of_metal = |(number, metal): (usize, &JobMetal)| {
        let parts = flats.parts.iter().filter(|part| part.part.metal == number);
        let origin = springback_words(metal, parts.map(|part| &part.flat), flats.job.unit)?;
        Some(Fact { name: springback_name(metal), origin, ..Fact::default() })
    };
    flats.job.metals.iter().enumerate().filter_map(of_metal).collect()
}

/// The corner reliefs of a part.
fn relief_of(flats: &Flats, part: &PlannedPart) -> Option<Fact> {
    relief_fact(&part.flat, &part.proof.pressed, part.part.making.relief, flats.job.style)
}

/// Where what is said of a seam comes from.
pub(super) const SEAM_FROM: &str = "angle between the planes of the two plates, and the line where their outsides meet, less what is trimmed off \
                         its ends: as the part's shape asks for them; gap designed as the job asks at this corner or for all seams, \
                         nothing where it does not; least and largest measured between the refolded plates along the whole \
                         seam, and so is what is open where corners are cut off clear of bends";

/// One seam as designed and as refolded. A seam along a hip says that it is that edge, which has a row of its own.
fn seam_fact(flats: &Flats, part: &PlannedPart, seam: &SeamRow) -> Fact {
    let SeamRow { style, inside_angle, length, designed, least, largest, .. } = seam;
    let long = match hip_of(flats, part, seam) {
        Some((hip, value)) if value == *length => format!("{length} long outside: it is {hip}"),
        Some((hip, value)) => {
            format!("{length} long outside as trimmed: it is {hip}, {value} from mold corner to mold corner")
        }
        None => format!("{length} long outside as trimmed"),
    };
    Fact {
        name: format!("seam, {}", seam.name),
        value: format!(
            "{style}, {inside_angle} inside, {long}, gap designed {designed}, least {least}, largest {largest}"
        ),
        origin: SEAM_FROM.to_owned(),
        fields: vec!["shop.seam_gap".to_owned()],
    }
}

/// "hip B" and its length outside, as the part's own numbers give it, for the seam that runs along it.
fn hip_of(flats: &Flats, part: &PlannedPart, seam: &SeamRow) -> Option<(String, String)> {
    let (band, letter) = seam.name.rsplit_once(" at corner ")?;
    if !["slope", "wall", "side"].contains(&band) {
        return None;
    }
    let hip = format!("hip {letter}");
    let named = format!("{hip}, outside");
    let fact = part.shaped.facts.iter().find(|fact| fact.name == named)?;
    Some((hip, fact_words(&flats.job, fact).value))
}

/// Facts for the drawing: those of the part, and all seams that close in one line.
fn drawn_facts(flats: &Flats, part: &PlannedPart) -> Vec<Fact> {
    let rows = seam_rows(&flats.job, part);
    let designs = part.shaped.part.seams.iter();
    let (closed, other): (Vec<_>, Vec<_>) =
        designs.zip(&part.proof.seams).zip(&rows).partition(|((design, measured), _)| {
            design.style == SeamStyle::Open && measured.largest_mm < geometry::tolerance::REFOLD_MM
        });
    let own = part.shaped.facts.iter().map(|fact| fact_words(&flats.job, fact));
    let overbend = overbend_fact(&flats.job.metals[part.part.metal], &part.flat, flats.job.unit);
    let mut facts: Vec<Fact> = own
        .chain(relief_of(flats, part))
        .chain(overbend)
        .chain(other.iter().map(|(_, row)| seam_fact(flats, part, row)))
        .collect();
    facts.extend(flat_hopper_sizes(flats, part));
    let flat = closed.iter().filter(|((design, _), _)| is_flat(design)).count();
    let corners = closed.len() - flat;
    facts.extend(closed_seams("open corners", corners, "inside edges touching, V outside for the weld"));
    facts.extend(closed_seams("flat seams", flat, "edge to edge, in one plane"));
    let facts = seam_gaps::said_once(facts);
    match &part.part.piece_of {
        Some(own) => own_facts::of_piece(facts, &own.piece.words),
        None => facts,
    }
}

/// How many seams close in one line, and how; `None` for none.
fn closed_seams(name: &str, count: usize, how: &str) -> Option<Fact> {
    (0 < count).then(|| Fact {
        name: name.to_owned(),
        value: format!("{count}, {how}"),
        origin: SEAM_FROM.to_owned(),
        ..Fact::default()
    })
}

/// A fact as printed.
pub(crate) fn fact_words(job: &Job, fact: &shapes::Fact) -> Fact {
    let value = match &fact.value {
        FactValue::Length(length) => length.print(job.style),
        FactValue::About(length) => format!("about {}", length.print_about(job.style)),
        FactValue::Angle(angle) => format!("{}°", angle.print(1)),
        FactValue::Area(area) => area.print_with_unit(ListUnits::of(job.style).area, 2),
        FactValue::Volume { cubic_millimetres } => Numbers::of(job).volume_words(*cubic_millimetres),
        FactValue::Words(words) => words.clone(),
    };
    let (origin, fields) = origin_in_words(&fact.origin);
    Fact { name: fact.name.clone(), value, origin, fields }
}

/// Where the datum corner of a layout sheet lies on the sheet.
fn piece_datum(place: &FlatPlace) -> PieceDatum {
    let corner = place.place(Point::default());
    let way = |x: f64, y: f64| (place.place(Point::new(x, y)) - corner).unit();
    PieceDatum { corner, along: way(1.0, 0.0), up: way(0.0, 1.0) }
}

fn drawn_drop(drop: &KeptDrop) -> Drop {
    let [low, high] = drop.usable;
    Drop { low, high, comes_off_mm: drop.more_mm() }
}

/// So many pairs of pieces are named; of more, only their number is told.
const MOST_NAMED: usize = 6;

/// "3, between GU no. 1 and GU no. 2; …": the cuts that serve two parts.
fn shared_words(plan: &Plan, sheet: &PlannedSheet) -> Option<String> {
    let shared = &sheet.shared;
    let name = |piece: usize| {
        let piece = &sheet.pieces[piece];
        let part = &plan.flats.parts[piece.part].part;
        format!("{}{}", part.mark, copy_words(piece.copy, part.quantity))
    };
    let pair = |cut: &nest::SharedCut| format!("{} and {}", name(cut.first), name(cut.second));
    let slanted = shared.iter().filter(|cut| cut.straight().is_none()).count();
    let words = if shared.len() <= MOST_NAMED {
        format!("{}, between {}", shared.len(), shared.iter().map(pair).collect::<Vec<_>>().join("; "))
    } else if slanted == 0 {
        shared.len().to_string()
    } else {
        format!("{}, {slanted} of them slanted", shared.len())
    };
    (!shared.is_empty()).then_some(words)
}

/// The map of one sheet, in stretches where it is crowded.
pub(crate) fn sheet_pages(plan: &Plan, nest: &MetalNest, sheet: &PlannedSheet) -> Vec<Page> {
    let flats = &plan.flats;
    let metal = &flats.job.metals[nest.metal];
    let pieces: Vec<Piece> = sheet
        .pieces
        .iter()
        .zip(&sheet.laid.pieces)
        .map(|(piece, (mark, outline))| {
            let part = &flats.parts[piece.part];
            let marks = part
                .flat
                .marks()
                .map(|(bend, (from, to))| (bend.direction, piece.place.place(from), piece.place.place(to)));
            Piece {
                mark: mark.clone(),
                copy: piece.copy,
                of: part.part.quantity,
                outline: outline.clone(),
                bend_lines: marks.collect(),
                datum: piece_datum(&piece.place),
            }
        })
        .collect();
    let drops: Vec<Drop> = sheet.laid.drops.iter().map(drawn_drop).collect();
    let yields = printed_yields(&plan.report, ListUnits::of(flats.job.style));
    let shares = plan.report.sheets.iter().zip(yields).find(|(row, _)| row.sheet == sheet.laid.name);
    let shares = shares.map_or_else(Vec::new, |(_, [parts, with_drops])| {
        vec![("yield", parts, sheet_map::YIELD), ("yield with kept drops", with_drops, sheet_map::YIELD)]
    });
    let of_offcut = face_and_parts(plan, sheet).map(|words| ("face of the offcut", words, ""));
    let over = turned_over_words(plan, sheet).map(|words| ("turned over", words, ""));
    let shared = shared_words(plan, sheet).map(|words| ("cuts for two parts", words, sheet_map::SHARED));
    let turned = turning_words(plan, sheet).map(|words| ("laid by", words, ""));
    let facts = shares.into_iter().chain(shared).chain(over).chain(turned).chain(of_offcut);
    let facts = facts.chain(noted(sheet)).chain(torn_words(sheet));
    let facts: Vec<Fact> = facts
        .map(|(name, value, origin)| Fact {
            name: name.to_owned(),
            value,
            origin: origin.to_owned(),
            ..Fact::default()
        })
        .collect();
    let face =
        if metal.metal.has_face_side() { "face side up: lugs or film toward you" } else { "marked face up" };
    let offcut = offcut_edges(sheet);
    sheet_map::draw_all(&SheetMap {
        job: &flats.job.name,
        sheet: &sheet.laid.name,
        metal: &named_metal_words(&flats.job, metal),
        face,
        length_mm: sheet.laid.size[0].millimetres(),
        width_mm: sheet.laid.size[1].millimetres(),
        offcut: offcut.as_ref(),
        edge_trim_mm: sheet.laid.edge_trim.millimetres(),
        style: flats.job.style,
        lay: metal.metal.lay.map(|_| Vector::new(1.0, 0.0)),
        pieces: &pieces,
        drops: &drops,
        facts: &facts,
    })
}

/// "P no. 2 and Q: marked face down, turn them when they are cut", of a sheet with such pieces.
fn turned_over_words(plan: &Plan, sheet: &PlannedSheet) -> Option<String> {
    let over = sheet.pieces.iter().filter(|piece| piece.place.over);
    let names: Vec<String> = over
        .map(|piece| {
            let part = &plan.flats.parts[piece.part].part;
            format!("{}{}", part.mark, copy_words(piece.copy, part.quantity))
        })
        .collect();
    let they = if names.len() == 1 { "it when it is" } else { "them when they are" };
    (!names.is_empty()).then(|| format!("{}: marked face down; turn {they} cut", listed(&names)))
}

/// "P: half turns only", of a sheet with parts that say themselves how they may be turned.
fn turning_words(plan: &Plan, sheet: &PlannedSheet) -> Option<String> {
    let mut words: Vec<String> = Vec::new();
    for (number, part) in plan.flats.parts.iter().enumerate() {
        let Some(turns) = &part.part.turns else { continue };
        if sheet.pieces.iter().any(|piece| piece.part == number) {
            words.push(format!("{}: {}", part.part.mark, turns_words(turns)));
        }
    }
    (!words.is_empty()).then(|| words.join("; "))
}

/// What the job notes of the sheet.
fn noted(sheet: &PlannedSheet) -> Option<(&'static str, String, &'static str)> {
    let notes = &sheet.laid.notes;
    (!notes.is_empty()).then(|| ("note", notes.join(" "), ""))
}

/// Why metal of the sheet may not be used.
fn torn_words(sheet: &PlannedSheet) -> impl Iterator<Item = (&'static str, String, &'static str)> + '_ {
    let torn = sheet.laid.outline.iter().flat_map(|outline| outline.torn());
    torn.map(|zone| ("not to be used", zone.why.clone(), ""))
}

/// The edges of a sheet that is no plain rectangle.
fn offcut_edges(sheet: &PlannedSheet) -> Option<OffcutEdges> {
    let outline = sheet.laid.outline.as_ref()?;
    let usable = sheet.laid.usable().polygons().into_iter();
    Some(OffcutEdges {
        corners: outline.points(),
        holes: outline.hole_points(),
        torn: outline.torn_points(),
        missing: sheet.laid.missing().polygons().into_iter().map(|piece| piece.outer).collect(),
        usable: usable.flat_map(|piece| std::iter::once(piece.outer).chain(piece.holes)).collect(),
    })
}
