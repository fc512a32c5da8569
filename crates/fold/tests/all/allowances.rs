//! Bend allowances against published charts and formulas, row by row.

use std::f64::consts::{FRAC_PI_2, PI};

use crate::common::{in_inches, rows, shared};
use fold::bend::formula;
use stock::{BendModel, Hardness};

const FAA: &str = include_str!("../../../../fixtures/published/faa_bend_allowance.json");
const CHANNEL: &str = include_str!("../../../../fixtures/published/faa_channel.json");
const EMPIRICAL: &str = include_str!("../../../../fixtures/published/machinerys_empirical.json");

// FAA-H-8083-31, chapter 4: per degree .01743 R + .0078 T, worked out in full for 60 pairs of T and R.
#[test]
fn the_per_degree_formula_of_the_faa() {
    let rows = rows(FAA, 72);
    let formula_rows =
        rows.iter().filter(|row| row.word("how") == "derived from the formula" && row.has("allowance_90_in"));
    let mut seen = 0;
    for row in formula_rows {
        let number = row.bend_number(BendModel::FaaHandbook);
        row.is_rounded("allowance_90_in", in_inches(number.allowance_mm(FRAC_PI_2)), 4);
        row.is_rounded("allowance_per_degree_in", in_inches(number.allowance_mm(PI / 180.0)), 6);
        seen += 1;
    }
    assert_eq!(seen, 60);
}

// Nine cells of the printed chart, recalled and not read again: they back up the formula and prove nothing by themselves.
// Each stands beside a row derived from the formula, which `published.rs` asks for. The chart works with radii cut to
// three places and cuts its results again, so its cells may be .0015 off.
#[test]
fn nine_cells_of_the_faa_chart_from_memory_agree_with_its_formula() {
    let rows = rows(FAA, 72);
    let cells = rows.iter().filter(|row| row.word("source").contains("chart of 90°"));
    let mut seen = 0;
    for row in cells {
        let number = row.bend_number(BendModel::FaaHandbook);
        assert_eq!(row.word("how"), "from memory");
        row.is_within("allowance_90_in", in_inches(number.allowance_mm(FRAC_PI_2)), 0.0015);
        seen += 1;
    }
    assert_eq!(seen, 9);
}

// Fig. 4-128 was read; it computes with π/180 instead of .01743, hence 1e-5 a degree.
#[test]
fn the_cell_for_one_degree_and_the_mid_line_form() {
    let rows = rows(FAA, 72);
    let cell = rows.iter().find(|row| row.has("allowance_60_in")).unwrap();
    let number = cell.bend_number(BendModel::FaaHandbook);
    cell.is_within("allowance_per_degree_in", in_inches(number.allowance_mm(PI / 180.0)), 1e-5);
    cell.is_within("allowance_60_in", in_inches(number.allowance_mm(PI / 3.0)), 60.0 * 1e-5);
    // In full, and as recalled of a worked example.
    for (how, places) in [("derived from the formula", 4), ("from memory", 3)] {
        let mid_line =
            rows.iter().find(|row| row.has("mid_line_allowance_90_in") && row.word("how") == how).unwrap();
        let number = mid_line.bend_number(BendModel::KFactor(0.5));
        mid_line.is_rounded("mid_line_allowance_90_in", in_inches(number.allowance_mm(FRAC_PI_2)), places);
    }
}

#[test]
fn the_channel_worked_by_the_faa() {
    let (rows, channel) = (rows(CHANNEL, 7), shared(CHANNEL));
    let number = channel.bend_number(BendModel::FaaHandbook);
    let turn = channel.radians("turn_degrees");
    let legs = channel.numbers("mold_lines_in");
    let setback = in_inches(number.setback_mm(turn));
    let developed = legs.iter().sum::<f64>() - 2.0 * in_inches(number.deduction_mm(turn));
    for row in &rows {
        let (computed, within) = match row.word("step") {
            "inside radius" => (number.inside_radius().inches(), 1e-6),
            "setback" => (setback, 1e-6),
            "flat of a side" => (legs[0] - setback, 1e-6),
            "flat of the middle" => (legs[1] - 2.0 * setback, 1e-6),
            // Cut to two places in print.
            "allowance" => (in_inches(number.allowance_mm(turn)), 0.01),
            "developed width" => (developed, row.number("within_in")),
            step => panic!("a step without a test: {step}"),
        };
        row.is_within("value_in", computed, within);
    }
}

fn hardness(group: &str) -> Hardness {
    match group {
        "soft" => Hardness::Soft,
        "half-hard" => Hardness::HalfHard,
        "hard" => Hardness::Hard,
        _ => panic!("an unknown group of metals: {group}"),
    }
}

// Machinery's Handbook, 31st edition, page 1421.
#[test]
fn the_empirical_lengths_by_group_of_metals() {
    let rows = rows(EMPIRICAL, 111);
    let mut seen = 0;
    for row in rows.iter().filter(|row| row.has("length_90_in")) {
        let number = row.bend_number(BendModel::EmpiricalByMaterial(hardness(row.word("group"))));
        row.is_rounded("length_90_in", in_inches(number.allowance_mm(FRAC_PI_2)), 6);
        seen += 1;
    }
    assert_eq!(seen, 105);
}

// Equations 32 to 34: with no radius the neutral line lies coefficient/(π/2) of the thickness in.
#[test]
fn the_empirical_coefficients_and_the_factor_behind_them() {
    let rows = rows(EMPIRICAL, 111);
    let mut seen = 0;
    for row in rows.iter().filter(|row| row.has("k_factor")) {
        let coefficient = row.number("thickness_coefficient");
        let of_thickness = formula::allowance_empirical(FRAC_PI_2, 0.0, 1.0, coefficient);
        row.is_rounded("k_factor", of_thickness / FRAC_PI_2, 4);
        row.is_within("thickness_coefficient", of_thickness, 1e-12);
        let of_radius = formula::allowance_empirical(FRAC_PI_2, 1.0, 0.0, coefficient);
        row.is_within("radius_coefficient", of_radius, 1e-12);
        seen += 1;
    }
    assert_eq!(seen, 3);
}

// Fig. 13: a bar of soft steel with two bends, one of a half turn.
#[test]
fn the_bar_with_two_bends() {
    let rows = rows(EMPIRICAL, 111);
    let bends: Vec<_> = rows.iter().filter(|row| row.has("exact_in")).collect();
    assert_eq!(bends.len(), 2);
    let mut lengths = 0.0;
    for row in bends {
        let number = row.bend_number(BendModel::EmpiricalByMaterial(hardness(row.word("group"))));
        let length = in_inches(number.allowance_mm(row.radians("turn_degrees")));
        row.is_within("exact_in", length, 5.1e-5);
        row.is_rounded("length_in", length, 3);
        lengths += length;
    }
    let bar = rows.iter().find(|row| row.has("total_in")).unwrap();
    bar.is_within("total_in", bar.number("straight_in") + lengths, 0.001);
}
