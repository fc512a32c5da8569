//! Folded sheets: which parts get one, which way up they stand, and their seams in words.

use fold::part::{FoldedPart, Seam, SeamSide, SeamStyle};
use fold::refold::SeamGap;
use geometry::{Point, tolerance};
use job::Job;
use paper::folded_sheet::{self, FoldedSheet};
use paper::isometric::{Folded, Standing};
use paper::lists::refold::SeamRow;
use paper::paper_model::{self, PaperModel};
use paper::{Page, picture};
use shapes::FaceSide;
use units::{Angle, Length};

use super::corners;
use super::drawings::{proof_words, title};
use super::relief_words::cut_relief;
use super::sizes_to_check::sizes_to_check;
use crate::plan::{Flats, PlannedPart};

/// A part that has bends, folded and looked at.
pub(crate) fn folded(part: &PlannedPart) -> Option<Folded> {
    (!part.flat.bends.is_empty()).then(|| Folded::of(&part.flat, standing(part)))
}

/// The folded sheet of a part that has bends.
pub(crate) fn folded_page(flats: &Flats, part: &PlannedPart, folded: &Folded) -> Page {
    let seams: Vec<SeamRow> = seam_rows(&flats.job, part);
    folded_sheet::draw(&FoldedSheet {
        job: &flats.job.name,
        mark: &part.part.mark,
        title: &title(flats, part),
        flat: &part.flat,
        named: &corners::named(part),
        folded,
        seams: &seams,
        has_relief: !cut_relief(part, flats.job.style).is_empty(),
        style: flats.job.style,
        proof: &proof_words(part, flats.job.unit),
        sizes: &sizes_to_check(flats, part),
    })
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

/// The least gap of a seam: between its edges, where a corner cut off clear of the other side's bends comes nearer to them, or
/// where a bend beside it does.
pub(crate) fn least_mm(seam: &SeamGap) -> f64 {
    seam.least_with_bends_mm().min(seam.at_cut_off_mm.unwrap_or(f64::INFINITY))
}

/// Every seam between a part and other pieces of its whole that was measured on both, put together.
pub(crate) fn joined_rows(job: &Job, part: &PlannedPart) -> Vec<SeamRow> {
    let print = |millimetres: f64| Length::from_millimetres(millimetres).print(job.style);
    let measured = part.shaped.facts.iter().filter_map(|fact| Some((fact, fact.gap.as_ref()?)));
    let row = |(fact, gap): (&shapes::Fact, &shapes::JoinedGap)| SeamRow {
        name: joined_name(fact).to_owned(),
        style: format!("{}, between pieces", gap.made),
        inside_angle: format!("{}°", Angle::from_radians(gap.inside_angle_rad).print(1)),
        length: print(gap.length_mm),
        designed: print(gap.designed_mm),
        least: print(gap.least_mm),
        largest: print(gap.largest_mm),
        interference: interference(job, gap.interference_mm),
    };
    measured.map(row).collect()
}

/// A seam between pieces without the word that its fact begins with.
pub(crate) fn joined_name(fact: &shapes::Fact) -> &str {
    let name = fact.name.as_str();
    name.strip_prefix("seam, ").or_else(|| name.strip_prefix("weld ")).unwrap_or(name)
}

fn interference(job: &Job, depth_mm: f64) -> String {
    if depth_mm > tolerance::SAME_POINT_MM {
        Length::from_millimetres(depth_mm).print(job.style)
    } else {
        "none".to_owned()
    }
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
        } + &shapes::near_bend_words(measured, job.style),
        inside_angle: format!("{}°", Angle::from_radians(measured.inside_angle_rad).print(1)),
        length: print(measured.length_mm),
        designed: print(design.gap_mm),
        least: print(least_mm(measured)),
        largest: print(measured.largest_mm),
        interference: interference(job, measured.interference_mm),
    }
}

/// Whether the two plates of a seam lie in one plane.
pub(crate) fn is_flat(seam: &Seam) -> bool {
    (std::f64::consts::PI - seam.inside_angle_rad).abs() < tolerance::PARALLEL_SINE
}

/// How two plates meet, in words: "butt, wall AB runs through".
pub(crate) fn style_words(job: &Job, part: &FoldedPart, seam: &Seam) -> String {
    let print = |millimetres: f64| Length::from_millimetres(millimetres).print(job.style);
    let face = |side: SeamSide| match side {
        SeamSide::First => part.faces[seam.first.0].name.as_str(),
        SeamSide::Second => part.faces[seam.second.0].name.as_str(),
    };
    match seam.style {
        SeamStyle::Open if is_flat(seam) => "edge to edge".to_owned(),
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
