//! Test strips of a kit: one of every metal that the buyer bends.

use fold::Direction;
use fold::bend::BendNumber;
use job::Kit;
use paper::layout_sheet::side_words;
use paper::lists::kit::StripCard;
use units::{Length, LengthUnit};

use super::PackedKit;
use crate::plan::{Flats, PlannedPart, finer, marked_with};
use crate::speech::Refusal;

/// The strips, each with its metal; every metal that is bent must have one, long enough to bend across its middle.
pub(super) fn strips(flats: &Flats, kit: &Kit) -> Result<Vec<(usize, usize)>, Refusal> {
    let file = &flats.file;
    let mut wrong = Vec::new();
    for &number in &kit.test_strips {
        let part = &flats.parts[number];
        let mark = &part.part.mark;
        if !part.flat.bends.is_empty() {
            wrong.push(format!(
                "{file}: {mark}: kit.test_strips: is bent already\n    make the strip a flat plate, like {}",
                usual_strip(flats)
            ));
        } else if let Some(least) = shortest_flange(flats).filter(|least| leg(part) < *least) {
            wrong.push(format!(
                "{file}: {mark}: kit.test_strips: bent across its middle its legs are {}, and the brake takes {} at \
                 least\n    make the strip longer",
                leg(part).print(finer(flats.job.style)),
                least.print(finer(flats.job.style))
            ));
        }
    }
    let strips: Vec<(usize, usize)> =
        kit.test_strips.iter().map(|&number| (number, flats.parts[number].part.metal)).collect();
    for (metal, row) in flats.job.metals.iter().enumerate() {
        let bent = |&&number: &&usize| {
            let part = &flats.parts[number];
            part.part.metal == metal && !part.flat.bends.is_empty()
        };
        let has_strip = strips.iter().any(|(_, of)| *of == metal);
        if let Some(&first) = kit.parts.iter().find(bent).filter(|_| !has_strip) {
            wrong.push(format!(
                "{file}: kit.test_strips: {}: {} is bent of it, and no test strip of it is in the kit\n    \
                 add a plate of it to the parts, like {}, and name it here",
                row.metal.name,
                flats.parts[first].part.mark,
                usual_strip(flats)
            ));
        }
    }
    if wrong.is_empty() { Ok(strips) } else { Err(Refusal::BadInput(wrong)) }
}

/// A size of strip in the unit of the job; common practice, no source.
const fn usual_strip(flats: &Flats) -> &'static str {
    match flats.job.unit {
        LengthUnit::Inch => "4 × 1",
        LengthUnit::Millimetre => "100 × 25",
    }
}

fn shortest_flange(flats: &Flats) -> Option<Length> {
    flats.job.shop.brake.as_ref().and_then(|brake| brake.shortest_flange)
}

/// Half of the longer side.
fn leg(part: &PlannedPart) -> Length {
    Length::from_nanometres(longer_side(part).nanometres() / 2)
}

fn longer_side(part: &PlannedPart) -> Length {
    let (length, width) = part.flat.extents_mm();
    Length::from_millimetres(length.max(width))
}

/// What the legs of a strip bent square across its middle should be together: its length and the bend deduction.
pub(crate) fn strip_legs_together(part: &PlannedPart, number: &BendNumber) -> Length {
    longer_side(part) + Length::from_millimetres(number.deduction_mm(std::f64::consts::FRAC_PI_2))
}

/// Which way a strip of this metal is bent: as most bends of its parts, so that lugs or film come to lie alike.
pub(crate) fn strip_direction(flats: &Flats, metal: usize) -> Direction {
    let parts = flats.parts.iter().filter(|part| part.part.metal == metal);
    let bends: Vec<Direction> =
        parts.flat_map(|part| part.flat.bends.iter().map(|bend| bend.direction)).collect();
    let up = bends.iter().filter(|&&direction| direction == Direction::Up).count();
    if bends.len() <= 2 * up { Direction::Up } else { Direction::Down }
}

impl PackedKit {
    /// How each strip is bent, measured and told.
    pub(crate) fn strip_cards(&self) -> Vec<StripCard> {
        self.strips.iter().map(|&(number, metal)| self.strip_card(number, metal)).collect()
    }

    fn strip_card(&self, number: usize, metal: usize) -> StripCard {
        let job = &self.plan.flats.job;
        let fine = finer(job.style);
        let row = &job.metals[metal];
        let part = self.part(number);
        let (long, half) = (longer_side(part), leg(part));
        let square = std::f64::consts::FRAC_PI_2;
        let deduction = Length::from_millimetres(row.number.deduction_mm(square));
        let print = |length: Length| length.print_with_unit(fine);
        let mut sheets = self.sheets_of(number);
        sheets.dedup();
        let title = format!(
            "Test strip {}: {} {}, from sheet {}",
            part.part.mark,
            row.metal.alloy_and_temper(),
            row.metal.thickness.print_with_unit(fine),
            sheets.join(", ")
        );
        let mut steps = vec![
            format!(
                "Bend it before any part. Measure its length, {} as drawn: ________, and its thickness, {} as \
                 ordered: ________.",
                print(long),
                print(row.metal.thickness)
            ),
            format!("Mark the bend line across its middle, {} from either end.", print(half)),
            format!(
                "Bend it to 90°{}, set up as you will for the parts. Check with a square; turn: ________.",
                self.strip_side(metal)
            ),
            "Measure both legs over the outside: ________ and ________.".to_owned(),
            format!(
                "Together they should be {} + {} = {}: the flats were worked for that.",
                print(long),
                print(deduction),
                print(strip_legs_together(part, &row.number))
            ),
            "If they are more or less by d, every such bend makes its two legs longer or shorter by d together: where \
             that matters, tell the shop before you bend a part."
                .to_owned(),
            format!(
                "The shop enters it: plateloft bend strip add --metal {} --thickness __ --radius {} --length __ --legs \
                 __ __ --date __",
                row.metal.alloy_and_temper(),
                row.metal.inside_radius.print(fine)
            ),
        ];
        steps.extend(self.other_sheets(number, metal));
        StripCard { title, steps }
    }

    /// ", lugs outside, as most bends of the parts": where the marked face comes to lie; empty for plain metal.
    fn strip_side(&self, metal: usize) -> String {
        let flats = &self.plan.flats;
        match side_words(strip_direction(flats, metal), marked_with(&flats.job.metals[metal])) {
            plain if plain.is_empty() => plain,
            side => format!("{side}, as most bends of the parts"),
        }
    }

    /// A word where bent parts of the metal come from sheets that no strip of it is from.
    fn other_sheets(&self, number: usize, metal: usize) -> Option<String> {
        let strip_sheets: Vec<&str> = self
            .strips
            .iter()
            .filter(|(_, of)| *of == metal)
            .flat_map(|(strip, _)| self.sheets_of(*strip))
            .collect();
        let mut others: Vec<&str> = self
            .sent()
            .filter(|&part| self.part(part).part.metal == metal && !self.part(part).flat.bends.is_empty())
            .flat_map(|part| self.sheets_of(part))
            .filter(|sheet| !strip_sheets.contains(sheet))
            .collect();
        others.sort_unstable();
        others.dedup();
        (!others.is_empty()).then(|| {
            format!(
                "Bent parts also come from sheet {}: raise the quantity of {} until a strip comes from each, or \
                 measure that the sheets are equally thick.",
                others.join(", "),
                self.part(number).part.mark
            )
        })
    }
}
