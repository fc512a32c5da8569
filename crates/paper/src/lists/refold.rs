//! What refolding showed, in tables: every size as designed and as refolded, every seam with its gaps.

use super::ListUnits;
use super::table::{self, Side, Table};

/// One seam as printed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SeamRow {
    /// Its name.
    pub name: String,
    /// How the plates meet: "open corner", "butt", "lap".
    pub style: String,
    /// Inside angle between the plates, degrees.
    pub inside_angle: String,
    /// Outside length.
    pub length: String,
    /// The gap designed, between the nearest edges.
    pub designed: String,
    /// Least gap measured.
    pub least: String,
    /// Largest gap measured.
    pub largest: String,
    /// How deep the plates run into one another; "none" where they do not.
    pub interference: String,
}

/// One size as printed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SizeRow {
    /// Its name.
    pub name: String,
    /// As designed.
    pub designed: String,
    /// As refolded.
    pub refolded: String,
    /// By how much they differ, in the unit of lengths.
    pub off: String,
}

/// What the gaps of seams do not count, in lines: the corner relief at their ends. `None` where nothing is cut there.
#[must_use]
pub fn beyond_gaps(relief: &str) -> Option<String> {
    let words = format!(
        "Gaps are those along the seams. Past the end of a seam, where bends meet, the corner stands open by its relief, which \
         they do not count: {relief}."
    );
    (!relief.is_empty()).then(|| table::hung("", &words))
}

/// Headings of the table of seams.
pub(crate) const SEAM_HEADINGS: [&str; 8] =
    ["seam", "style", "inside angle", "outside length", "gap designed", "least", "largest", "interference"];

/// Where the numbers under [`SEAM_HEADINGS`] come from.
const SEAM_ORIGINS: [&str; 8] = [
    "",
    "joint as the job asks for it; where corners are cut off clear of bends, the widest opening there, measured on the refolded plates",
    "angle between the planes of the two plates, as the part's shape asks for it",
    "length of the line where the outsides of the two plates meet",
    "gap that the joint asks for, square to the seam",
    "nearest distance between the two edges, measured on the plates refolded from the flat",
    "largest distance between the two edges where both run side by side, measured on the plates refolded from the flat; corners cut off \
     clear of bends are told with the style, corner relief under the table",
    "how deep one plate lies in the other, measured on the plates refolded from the flat",
];

/// The headings with where the numbers under them come from.
pub(crate) fn seam_columns() -> [(&'static str, &'static str); 8] {
    std::array::from_fn(|number| (SEAM_HEADINGS[number], SEAM_ORIGINS[number]))
}

impl SeamRow {
    /// The cells under [`SEAM_HEADINGS`].
    pub(crate) fn cells(&self) -> Vec<String> {
        [
            &self.name,
            &self.style,
            &self.inside_angle,
            &self.length,
            &self.designed,
            &self.least,
            &self.largest,
            &self.interference,
        ]
        .map(String::clone)
        .to_vec()
    }
}

/// The seams as text.
#[must_use]
pub fn seams(rows: &[SeamRow], units: ListUnits) -> String {
    let headings = SEAM_HEADINGS.map(|heading| match heading {
        "outside length" => format!("outside length {}", units.length_mark()),
        _ => heading.to_owned(),
    });
    let side = |number: usize| if number < 2 { Side::Words } else { Side::Number };
    let columns: Vec<(&str, Side)> =
        headings.iter().enumerate().map(|(number, heading)| (heading.as_str(), side(number))).collect();
    let mut table = Table::new(&columns);
    rows.iter().for_each(|row| table.row(row.cells()));
    table.text()
}

/// The sizes as text.
#[must_use]
pub fn sizes(rows: &[SizeRow], units: ListUnits) -> String {
    let designed = format!("designed {}", units.length_mark());
    let refolded = format!("refolded {}", units.length_mark());
    let off = format!("off, {}", units.length_mark());
    let columns = [
        ("size", Side::Words),
        (designed.as_str(), Side::Number),
        (refolded.as_str(), Side::Number),
        (off.as_str(), Side::Number),
    ];
    let mut table = Table::new(&columns);
    for SizeRow { name, designed, refolded, off } in rows {
        table.row([name, designed, refolded, off].map(String::clone).to_vec());
    }
    table.text()
}

#[cfg(test)]
mod tests {
    use super::*;
    use units::LengthStyle;

    #[test]
    fn a_seam_says_how_it_meets_and_how_wide_it_is() {
        let row = SeamRow {
            name: "slope at corner B".to_owned(),
            style: "open corner".to_owned(),
            inside_angle: "130.4°".to_owned(),
            length: "4.396".to_owned(),
            designed: "0.000".to_owned(),
            least: "0.000".to_owned(),
            largest: "0.001".to_owned(),
            interference: "none".to_owned(),
        };
        let text = seams(&[row], ListUnits::of(LengthStyle::Inches { places: 3 }));
        let lines: Vec<&str> = text.lines().collect();
        assert!(lines[0].starts_with("seam") && lines[0].contains("outside length in"), "{text}");
        assert!(
            lines[2].contains("open") && lines[2].ends_with("none") && lines[3].contains("corner"),
            "{text}"
        );
    }
}
