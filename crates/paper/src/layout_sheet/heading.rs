//! Over the drawing: mark, title, job, metal, quantity, sizes, weight, bend number, proof, facts.

use geometry::Vector;

use super::PartSheet;
use crate::drawing::block::Block;
use crate::drawing::{printed, printed_thickness, unit_mark, unit_words};

/// The heading, its head at height 0.
pub(super) fn block(sheet: &PartSheet<'_>, left_mm: f64, width_mm: f64, text_mm: f64) -> Block {
    let mut block = Block::new(left_mm, width_mm);
    let job = format!("{}: make {}", sheet.job, sheet.quantity);
    block.title(sheet.mark, sheet.title, &job, text_mm);
    block.ruled_pairs(&pairs(sheet), text_mm);
    block
}

fn pairs(sheet: &PartSheet<'_>) -> Vec<(String, String)> {
    let (width, height) = sheet.flat.extents_mm();
    let size = |mm: f64| printed(mm, sheet.style);
    let unit = unit_mark(sheet.style);
    let mut pairs = vec![
        ("metal", sheet.metal.to_owned()),
        ("blank", format!("{} × {} {unit}", size(width), size(height))),
        ("thickness", format!("{} {unit}", printed_thickness(sheet.flat.thickness_mm, sheet.style))),
        ("weight of one", sheet.weight.to_owned()),
        ("drawn with", sheet.face.to_owned()),
        ("numbers in", unit_words(sheet.style)),
    ];
    if !sheet.flat.bends.is_empty() {
        pairs.push((
            "inside radius",
            format!("{} {unit}", printed_thickness(sheet.flat.inside_radius_mm, sheet.style)),
        ));
        pairs.push(("bends by", sheet.bend_number.to_owned()));
        pairs.push(("refolded", sheet.proof.to_owned()));
    }
    if let Some(lay) = sheet.lay {
        pairs.push(("lay", lay_words(lay)));
    }
    let facts = sheet.facts.iter().map(|fact| (fact.name.clone(), fact.value.clone()));
    let own = pairs.into_iter().filter(|(_, value)| !value.is_empty());
    own.map(|(name, value)| (name.to_owned(), value)).chain(facts).collect()
}

fn lay_words(lay: Vector) -> String {
    let along = crate::drawing::label::reading(lay);
    let turn = units::Angle::from_radians(along.angle()).print(0);
    match turn.as_str() {
        "0" => "runs left and right on this drawing".to_owned(),
        "90" => "runs up and down on this drawing".to_owned(),
        _ => format!("runs {turn}° from the lower datum edge"),
    }
}
