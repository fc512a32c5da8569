//! Draws the test flats into a folder, to be looked at.

#[path = "../tests/all/common/mod.rs"]
mod common;

use paper::layout_sheet::{Fact, PartSheet, draw};
use units::{LengthStyle, TapeDenominator};

#[expect(clippy::disallowed_methods, reason = "an example for the developer's eyes writes its own files")]
fn main() -> std::io::Result<()> {
    let folder = std::env::args().nth(1).unwrap_or_else(|| ".".to_owned());
    let facts = [
        Fact {
            name: "hip B, true length".to_owned(),
            value: "4.396".to_owned(),
            origin: "roof sums".to_owned(),
            ..Fact::default()
        },
        Fact {
            name: "hip C, true length".to_owned(),
            value: "5.279".to_owned(),
            origin: "roof sums".to_owned(),
            ..Fact::default()
        },
    ];
    let notes = ["Cut the corner reliefs before bending.".to_owned()];
    let cautions = ["Sharp edges: break every cut edge before handling.".to_owned()];
    for (k, (mark, flat)) in common::all().iter().enumerate() {
        let style = match k % 3 {
            0 => LengthStyle::Inches { places: 3 },
            1 => LengthStyle::Tape { denominator: TapeDenominator::Sixteenths },
            _ => LengthStyle::Millimetres { places: 1 },
        };
        let page = draw(&PartSheet {
            job: "Oyster skiff",
            mark,
            title: "Test part as it might come",
            metal: "skin: 5052-H32 plain sheet",
            quantity: 6,
            flat,
            style,
            facts: &facts,
            bend_number: "the shop's strip 4.000 → 2.118 + 2.103 at 90°, deduction .221, K .421",
            proof: "worst deviation 0.0000 mm over 14 sizes and 4 seams",
            lay: Some(geometry::Vector::new(1.0, 0.0)),
            face: "this face up",
            weight: "12.8 lb",
            notes: &notes,
            cautions: &cautions,
            marked_with: "",
            origins: paper::layout_sheet::Origins::default(),
            named: &paper::layout_sheet::Named::default(),
            folded: None,
            strip: None,
        })
        .layout;
        std::fs::write(format!("{folder}/{mark}.svg"), paper::svg::write(&page))?;
    }
    Ok(())
}
