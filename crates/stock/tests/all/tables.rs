//! The tables themselves: every row has a source, and the rows agree with what was published.

use serde_json::Value;
use stock::{
    Family, Forming, Hardness, alloys, find_neutral_factor, recommended_k_factor, sheet_sizes, yield_strength,
};
use units::{Length, LengthUnit};

const FILES: [(&str, &str); 12] = [
    ("air_bend_radii", include_str!("../../data/air_bend_radii.json")),
    ("alloys", include_str!("../../data/alloys.json")),
    ("bend_force_factors", include_str!("../../data/bend_force_factors.json")),
    ("hem_force", include_str!("../../data/hem_force.json")),
    ("k_factors", include_str!("../../data/k_factors.json")),
    ("least_inside_radii", include_str!("../../data/least_inside_radii.json")),
    ("neutral_factors", include_str!("../../data/neutral_factors.json")),
    ("sheet_sizes", include_str!("../../data/sheet_sizes.json")),
    ("supply_standards", include_str!("../../data/supply_standards.json")),
    ("tread_plate", include_str!("../../data/tread_plate.json")),
    ("v_openings", include_str!("../../data/v_openings.json")),
    ("yield_strengths", include_str!("../../data/yield_strengths.json")),
];

/// Says how a figure was got.
const MARKS: [&str; 3] = ["read", "from memory", "no source"];

#[test]
fn every_row_of_every_table_has_a_source() {
    for (name, text) in FILES {
        let table: Value = serde_json::from_str(text).unwrap();
        let rows = table["rows"].as_array().unwrap();
        assert!(!rows.is_empty(), "{name}");
        for row in rows {
            let source = row["source"].as_str().unwrap_or_default();
            assert!(MARKS.iter().any(|mark| source.contains(mark)), "{name}: {row}");
        }
    }
}

#[test]
fn every_data_file_is_checked_here() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("data");
    let mut found: Vec<String> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path().file_stem().unwrap().to_string_lossy().into_owned())
        .collect();
    found.sort();
    let listed: Vec<&str> = FILES.iter().map(|(name, _)| *name).collect();
    assert_eq!(found, listed);
}

#[test]
fn sheet_sizes_are_those_of_the_trade() {
    let inches = |number: f64| Length::from_inches(number);
    let sizes: Vec<(Length, Length)> = sheet_sizes().iter().map(|size| (size.width, size.length)).collect();
    for (width, length) in
        [(48.0, 96.0), (48.0, 120.0), (60.0, 96.0), (60.0, 120.0), (60.0, 144.0), (72.0, 144.0)]
    {
        assert!(sizes.contains(&(inches(width), inches(length))), "{width} x {length}");
    }
    for (width, length) in [(1250.0, 2500.0), (1500.0, 3000.0)] {
        assert!(sizes.contains(&(Length::from_millimetres(width), Length::from_millimetres(length))));
    }
    assert_eq!(sizes.len(), 8);
    assert!(sizes.iter().all(|(width, length)| width < length));
}

#[test]
fn recommended_k_factors_say_that_they_have_no_source() {
    for family in [Family::Aluminium, Family::MildSteel, Family::StainlessSteel] {
        let row = recommended_k_factor(family).unwrap();
        assert_eq!(row.source, "common practice, no source");
        assert!((0.4..=0.46).contains(&row.k_factor));
    }
    assert_eq!(recommended_k_factor(Family::Unlisted), None);
}

#[test]
fn neutral_factors_by_radius() {
    let read = |text: &str| Length::read(text, LengthUnit::Inch).unwrap();
    let factor = |forming, radius: &str, hardness| {
        find_neutral_factor(forming, read(radius), read(".125")).map(|row| row.factor(hardness))
    };
    // K-factor table of an encyclopaedia article on bending metal, rows for air bends (read).
    assert_eq!(factor(Forming::AirBend, ".125", Hardness::Soft), Some(0.33));
    assert_eq!(factor(Forming::AirBend, ".1875", Hardness::HalfHard), Some(0.43));
    assert_eq!(factor(Forming::AirBend, ".375", Hardness::Hard), Some(0.45));
    assert_eq!(factor(Forming::AirBend, ".5", Hardness::Soft), Some(0.50));
    // The same table, from memory.
    assert_eq!(factor(Forming::Coining, ".0625", Hardness::Hard), Some(0.44));
    assert_eq!(factor(Forming::Bottoming, ".5", Hardness::Soft), None);
}

#[test]
fn yield_strengths_are_those_of_the_trade() {
    let ksi = |alloy, temper| yield_strength(alloy, Some(temper)).map(|row| row.yield_ksi);
    // Typical base-metal yields of a welding-wire maker's technical guide (read).
    assert_eq!(ksi("5052", "H32"), Some(28.0));
    assert_eq!(ksi("5083", "H116"), Some(33.0));
    assert_eq!(ksi("5086", "H34"), Some(37.0));
    assert_eq!(ksi("6061", "T6"), Some(40.0));
    // Nobody can say how far an alloy of unknown temper springs.
    assert_eq!(yield_strength("5052", None), None);
    assert!(yield_strength("mild steel", None).is_some());
}

#[test]
fn harder_tempers_of_an_alloy_yield_later() {
    let mut seen = 0;
    for alloy in alloys() {
        let of = |temper: &str| yield_strength(&alloy.name, Some(temper));
        let Some(soft) = of("O") else { continue };
        for row in alloy.tempers.iter().filter(|temper| *temper != "O").filter_map(|temper| of(temper)) {
            assert!(row.yield_ksi > soft.yield_ksi, "{row:?}");
            assert!((0.0..0.01).contains(&row.strain()), "{row:?}");
            seen += 1;
        }
    }
    assert!(seen >= 18, "{seen}");
}
