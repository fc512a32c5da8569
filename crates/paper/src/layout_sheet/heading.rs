//! Over the drawing: mark, title, job, metal, quantity, sizes, weight, bend number, proof, facts.

use geometry::{Point, Vector, tolerance};

use super::{Fact, Origins, PartSheet};
use crate::drawing::block::Block;
use crate::drawing::{printed, printed_thickness, unit_mark, unit_words};

/// The heading, its head at height 0.
pub(super) fn block(sheet: &PartSheet<'_>, left_mm: f64, width_mm: f64, text_mm: f64) -> Block {
    let mut block = Block::new(left_mm, width_mm);
    let job = format!("{}: make {}", sheet.job, sheet.quantity);
    block.title(sheet.mark, sheet.title, &job, text_mm);
    let facts: Vec<Fact> = own(sheet).into_iter().chain(sheet.facts.iter().cloned()).collect();
    block.ruled_facts(&facts, text_mm);
    block
}

/// The page of numbers: what the heading leaves to it, and nothing that the heading says.
pub(super) fn numbers(sheet: &PartSheet<'_>, width_mm: f64, text_mm: f64) -> Block {
    let mut block = Block::new(0.0, width_mm);
    let job = format!("{}: make {}", sheet.job, sheet.quantity);
    block.title(sheet.mark, &format!("{}: numbers", sheet.title), &job, text_mm);
    let unit = Fact {
        name: "numbers in".to_owned(),
        value: unit_words(sheet.style),
        origin: UNIT_FROM.to_owned(),
        ..Fact::default()
    };
    let facts: Vec<Fact> = std::iter::once(unit).chain(sheet.facts.iter().cloned()).collect();
    block.ruled_facts(&facts, text_mm);
    block
}

/// What every layout sheet says, each with its origin.
pub(super) fn own(sheet: &PartSheet<'_>) -> Vec<Fact> {
    let (width, height) = sheet.flat.extents_mm();
    let size = |mm: f64| printed(mm, sheet.style);
    let unit = unit_mark(sheet.style);
    let Origins { metal, thickness, inside_radius, weight, bend_number } = sheet.origins;
    let diagonal = Point::default().distance(Point::new(width, height));
    let own_diagonals = own_diagonals(sheet);
    let mut facts = vec![
        ("metal", sheet.metal.to_owned(), metal),
        ("blank", format!("{} × {} {unit}", size(width), size(height)), BLANK_FROM),
        ("blank, if cut square first: both diagonals", format!("{} {unit}", size(diagonal)), DIAGONAL_FROM),
        (
            "thickness",
            format!("{} {unit}", printed_thickness(sheet.flat.thickness_mm, sheet.style)),
            thickness,
        ),
        ("weight of one", sheet.weight.to_owned(), weight),
        ("drawn with", sheet.face.to_owned(), FACE_FROM),
        ("numbers in", unit_words(sheet.style), TAPE_FROM),
    ];
    for (name, words) in &own_diagonals {
        facts.push((name, words.clone(), "between the corners named on the drawing"));
    }
    if !sheet.flat.bends.is_empty() {
        let radius = printed_thickness(sheet.flat.inside_radius_mm, sheet.style);
        facts.push(("inside radius", format!("{radius} {unit}"), inside_radius));
        facts.push(("bends by", sheet.bend_number.to_owned(), bend_number));
        facts.push(("refolded", sheet.proof.to_owned(), PROOF_FROM));
    }
    if let Some(lay) = sheet.lay {
        facts.push(("lay", lay_words(lay), "lay of the metal and of the part"));
    }
    let fact = |(name, value, origin): (&str, String, &str)| Fact {
        name: name.to_owned(),
        value,
        origin: origin.to_owned(),
        ..Fact::default()
    };
    facts.into_iter().filter(|(_, value, _)| !value.is_empty()).map(fact).collect()
}

/// Both diagonals of a flat of four corners that are not those of its blank: by these it is proven, not by the blank's.
fn own_diagonals(sheet: &PartSheet<'_>) -> Vec<(String, String)> {
    let letters = sheet.named.letters(sheet.flat);
    let [a, b, c, d] = letters.as_slice() else { return Vec::new() };
    if sheet.flat.faces.len() != 1 {
        return Vec::new();
    }
    let (width, height) = sheet.flat.extents_mm();
    let blank = Point::default().distance(Point::new(width, height));
    let is_blank =
        |one: Point, other: Point| (one.distance(other) - blank).abs() < tolerance::SCRIBED_LINE_MM;
    if is_blank(a.1, c.1) && is_blank(b.1, d.1) {
        return Vec::new();
    }
    let diagonal = |one: &(String, Point), other: &(String, Point)| {
        let length = printed(one.1.distance(other.1), sheet.style);
        (format!("its own diagonal {}–{}", one.0, other.0), format!("{length} {}", unit_mark(sheet.style)))
    };
    vec![diagonal(a, c), diagonal(b, d)]
}

/// Origins that are the same for every part.
pub(crate) const TAPE_FROM: &str = "units and tape of the job";
const BLANK_FROM: &str = "smallest upright rectangle about the flat, which is unfolded by the bend number and proven by \
                          folding it again";
const UNIT_FROM: &str = "units and tape of the job";
const DIAGONAL_FROM: &str = "√(length² + width²) of the blank";
const FACE_FROM: &str = "the face side of the part's shape, or the face that the job names";
pub(crate) const PROOF_FROM: &str =
    "the flat folded again on its neutral line and compared with the sizes asked for";

fn lay_words(lay: Vector) -> String {
    let along = crate::drawing::label::reading(lay);
    let turn = units::Angle::from_radians(along.angle()).print(0);
    match turn.as_str() {
        "0" => "runs left and right on this drawing".to_owned(),
        "90" => "runs up and down on this drawing".to_owned(),
        _ => format!("runs {turn}° from the lower datum edge"),
    }
}
