//! Arrows between crates run one way, and only one crate names the polygon libraries.

use super::{crates, text};

/// The crates in order: each may use only those before it.
const ORDER: [&str; 11] = [
    "units",
    "geometry",
    "stock",
    "fold",
    "shapes",
    "checks",
    "nest",
    "estimate",
    "paper",
    "job",
    "plateloft",
];

/// Names under `[dependencies]` of a crate's manifest.
fn dependencies(name: &str) -> Vec<String> {
    let manifest = text(format!("crates/{name}/Cargo.toml"));
    let section = manifest.split("[dependencies]").nth(1).unwrap_or("").split("\n[").next().unwrap_or("");
    let names = section.lines().filter_map(|line| line.split(['.', ' ', '=']).next());
    names.filter(|name| !name.is_empty()).map(str::to_owned).collect()
}

#[test]
fn every_crate_is_in_the_order() {
    let mut ordered: Vec<String> = ORDER.iter().map(|&name| name.to_owned()).collect();
    ordered.sort();
    assert_eq!(crates(), ordered);
}

#[test]
fn arrows_run_one_way() {
    for (place, name) in ORDER.iter().enumerate() {
        for dependency in dependencies(name) {
            if let Some(other) = ORDER.iter().position(|known| *known == dependency) {
                assert!(other < place, "{name} may not use {dependency}");
            }
        }
    }
}

#[test]
fn the_test_of_arrows_sees_arrows() {
    assert!(dependencies("plateloft").contains(&"nest".to_owned()));
    assert!(dependencies("fold").contains(&"geometry".to_owned()));
}

#[test]
fn nesting_knows_no_metal() {
    let allowed = ["geometry", "rayon", "thiserror", "libm"];
    let found = dependencies("nest");
    assert!(found.iter().all(|name| allowed.contains(&name.as_str())), "{found:?}");
}

#[test]
fn only_geometry_names_the_polygon_libraries() {
    for name in ORDER.iter().filter(|name| **name != "geometry") {
        let found = dependencies(name);
        assert!(found.iter().all(|name| !name.starts_with("geo-") && name != "geo" && name != "i_overlay"));
    }
}
