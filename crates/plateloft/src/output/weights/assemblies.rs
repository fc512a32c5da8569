//! Parts put together: every part at its place, and the centre of the whole.

use estimate::{Assembly, PlacedMass};
use paper::lists::passages::{Column, Passage, sheet};
use serde_json::{Value, json};

use super::{length_words, mass_number};
use crate::output::Numbers;
use crate::plan::Flats;
use crate::plan::balance::units;

/// The sum of one whole.
pub(super) fn words(flats: &Flats, name: &str, whole: &Assembly) -> Vec<Passage> {
    let weight = units(flats).0.name();
    let place = |heading: &str| {
        Column::numbers(
            heading,
            "centre of the weight of the part or whole in its box, put where the job puts the box (assemblies)",
        )
        .summed("Σ(weight × place) / Σ weight")
    };
    let columns = vec![
        Column::words("what"),
        Column::numbers(weight, "printed weight of the part, or of the pieces of the whole")
            .summed("sum of the column"),
        place("centre: x"),
        place("y"),
        place("z"),
    ];
    let row = |load: &PlacedMass| {
        let mut row = vec![load.what.clone(), mass_number(flats, load.mass)];
        row.extend(load.centre.map(|along| length_words(flats, along)));
        row
    };
    let mut sum = vec!["in all".to_owned(), mass_number(flats, whole.mass())];
    match whole.centre() {
        Some(centre) => sum.extend(centre.map(|along| length_words(flats, along))),
        None => sum.resize(columns.len(), String::new()),
    }
    vec![
        Passage::Heading(format!("{name}, put together\n\n")),
        sheet(columns, whole.loads.iter().map(row).collect(), Some(sum)),
        Passage::Words(
            "centre = Σ(weight × place) / Σ weight, each way; every part and every whole where the job puts its box.\n"
                .to_owned(),
        ),
    ]
}

/// The same as JSON.
pub(super) fn json(flats: &Flats, name: &str, whole: &Assembly) -> Value {
    let numbers = Numbers::of(&flats.job);
    let load = |load: &PlacedMass| {
        json!({
            "what": load.what,
            "weight": numbers.mass(load.mass),
            "centre": load.centre.map(|along| numbers.length(along)),
        })
    };
    json!({
        "name": name,
        "loads": whole.loads.iter().map(load).collect::<Vec<_>>(),
        "weight": numbers.mass(whole.mass()),
        "centre": whole.centre().map(|centre| centre.map(|along| numbers.length(along))),
    })
}
