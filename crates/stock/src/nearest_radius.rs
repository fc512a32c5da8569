//! The row of the least inside radii that lies nearest to a metal without one.
//!
//! It is there to go by until a strip is bent, and never stands for the metal itself.

use units::Length;

use crate::inside_radius::{LeastInsideRadius, least_inside_radius, rows_of, thickest_row};

/// The nearest row, for a metal that has none.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct NearestRadius {
    /// The row's temper; none where the alloy is sold without.
    pub temper: Option<String>,
    /// How hard that temper is beside the metal's own.
    pub beside: TemperBeside,
    /// What the row gives at the thickness of the sheet.
    pub least: LeastInsideRadius,
    /// The sheet is thicker than any that the rows of this temper go up to, and the thickest row was taken.
    pub for_thinner_sheet: bool,
}

/// How hard the temper of a row is beside the metal's own.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TemperBeside {
    /// It is the same temper.
    Same,
    /// Another temper of the same degree.
    Alike,
    /// The row's temper is softer: the metal cracks sooner than the row says.
    Softer,
    /// The row's temper is harder: the metal should take what the row says.
    Harder,
    /// No temper is named for the metal; the row is that of the softest.
    Unnamed,
}

/// How hard a temper is, in eighths of the way from annealed to full hard; none for a temper that is not known here.
///
/// *Source*: the temper designations of ANSI H35.1, from memory: the second digit of H1x, H2x and H3x is the degree of
/// strain hardening in eighths; H111 and H112 are hardened less than H11. H116 and H321 are sold to one strength, that
/// of H32 (ASTM B928, from memory). T651 is T6 stretched.
fn degree(temper: &str) -> Option<f64> {
    match temper {
        "O" => Some(0.0),
        "H111" | "H112" => Some(1.0),
        "H116" | "H321" => Some(2.0),
        "T4" => Some(4.0),
        "T6" | "T651" => Some(8.0),
        _ => {
            let digits = temper.strip_prefix('H').filter(|digits| digits.len() == 2)?;
            digits.chars().nth(1)?.to_digit(10).map(f64::from)
        }
    }
}

/// The nearest row of the same alloy for a metal that has none: its own temper in thinner sheet, else the temper that is
/// nearest in hardness, of two equally near the harder; for a metal without a temper the softest.
///
/// None where the alloy has no rows, and where [`least_inside_radius`] has the metal's own.
#[must_use]
pub fn nearest_inside_radius(alloy: &str, temper: Option<&str>, thickness: Length) -> Option<NearestRadius> {
    if least_inside_radius(alloy, temper, thickness).is_some() {
        return None;
    }
    let mut known: Vec<Option<&str>> = Vec::new();
    for row in rows_of(alloy) {
        if !known.contains(&row) {
            known.push(row);
        }
    }
    let (chosen, beside) = if known.contains(&temper) {
        (temper, TemperBeside::Same)
    } else if let Some(own) = temper {
        let own = degree(own)?;
        let tempers = known.iter().flatten().filter_map(|&temper| Some((temper, degree(temper)?)));
        // Of two equally near the harder is taken, which asks for more.
        let (nearest, of_row) = tempers.min_by(|a, b| {
            (a.1 - own).abs().total_cmp(&(b.1 - own).abs()).then_with(|| b.1.total_cmp(&a.1))
        })?;
        let beside = match of_row.total_cmp(&own) {
            std::cmp::Ordering::Less => TemperBeside::Softer,
            std::cmp::Ordering::Equal => TemperBeside::Alike,
            std::cmp::Ordering::Greater => TemperBeside::Harder,
        };
        (Some(nearest), beside)
    } else {
        let tempers = known.iter().flatten().filter_map(|&temper| Some((temper, degree(temper)?)));
        let (softest, _) = tempers.min_by(|a, b| a.1.total_cmp(&b.1))?;
        (Some(softest), TemperBeside::Unnamed)
    };
    let own_row = least_inside_radius(alloy, chosen, thickness);
    let for_thinner_sheet = own_row.is_none();
    let least = own_row.or_else(|| thickest_row(alloy, chosen, thickness))?;
    Some(NearestRadius { temper: chosen.map(str::to_owned), beside, least, for_thinner_sheet })
}
