//! Sentences about metals and parts, shared by the lists and drawings.

use fold::Direction;
use job::{Job, JobMetal, Turns};
use paper::lists::ListUnits;
use stock::{FigureValue, Film, Pattern};
use units::{Area, DensityUnit, LengthUnit, MassPerAreaUnit};

use crate::plan::{Flats, PlannedPart, finer};
use crate::speech::listed;

/// "5052-H32 .125, plain" in the job's unit.
pub(crate) fn metal_words(job: &Job, metal: &JobMetal) -> String {
    let pattern = match metal.metal.pattern {
        Pattern::Plain => "plain",
        Pattern::Tread => "tread; thickness, sizes and stops are to the base, between the lugs",
    };
    let film = match metal.metal.film {
        Film::Bare => "",
        Film::OneSide => ", film on one side",
        Film::BothSides => ", film on both sides",
    };
    let thickness = metal.metal.thickness.print(finer(job.style));
    format!("{} {thickness}, {pattern}{film}", metal.metal.alloy_and_temper())
}

/// A step all round is told by its first turns.
const TOLD_TURNS: usize = 4;

/// "half turns only", of a part that says itself how it may be turned on the sheet.
pub(crate) fn turns_words(turns: &Turns) -> String {
    match turns {
        Turns::Half => "half turns only".to_owned(),
        Turns::Quarter => "quarter turns".to_owned(),
        Turns::Any => "any turn".to_owned(),
        Turns::Listed(turns) => {
            let degrees = |turn: &u32| {
                let whole = turn / 1000;
                let part = format!("{:03}", turn % 1000);
                let part = part.trim_end_matches('0');
                if part.is_empty() { format!("{whole}°") } else { format!("{whole}.{part}°") }
            };
            let mut words: Vec<String> = turns.iter().take(TOLD_TURNS).map(degrees).collect();
            if TOLD_TURNS < turns.len() {
                words.push(format!("{} more", turns.len() - TOLD_TURNS));
            }
            format!("turns of {} only", listed(&words))
        }
    }
}

/// "skin: 5052-H32 .125, plain": the job's own name for a metal, then the metal.
pub(crate) fn named_metal_words(job: &Job, metal: &JobMetal) -> String {
    format!("{}: {}", metal.metal.name, metal_words(job, metal))
}

/// Weight of one part.
pub(crate) fn weight_words(job: &Job, part: &PlannedPart) -> String {
    part.weight.print_of_one(ListUnits::of(job.style).mass)
}

/// An area in the job's unit.
pub(crate) fn area_words(flats: &Flats, area: Area) -> String {
    area.print_with_unit(ListUnits::of(flats.job.style).area, 2)
}

/// "4 bends: 4 up" or "8 bends: 4 up, 4 down".
pub(crate) fn bend_count_words(part: &PlannedPart) -> String {
    let up = part.flat.bends.iter().filter(|bend| bend.direction == Direction::Up).count();
    let down = part.flat.bends.len() - up;
    match (up, down) {
        (0, 0) => "flat".to_owned(),
        (up, 0) => format!("{up} up"),
        (0, down) => format!("{down} down"),
        (up, down) => format!("{up} up, {down} down"),
    }
}

/// Every table figure that the job replaced, one sentence each.
pub(crate) fn override_sentences(job: &Job) -> Vec<String> {
    let sentence = |metal: &JobMetal, row: &stock::Override| {
        format!(
            "{}: {} {} as the job says, not {} ({})",
            metal.metal.name,
            row.figure.name(),
            figure_words(job, row.job),
            figure_words(job, row.table),
            row.table_source
        )
    };
    job.metals
        .iter()
        .flat_map(|metal| metal.metal.overrides.iter().map(move |row| sentence(metal, row)))
        .collect()
}

/// The steps of a path as words: "flanges, AB, no. 1" for `flanges.AB[0]`.
pub(crate) fn spelled(field: &str) -> String {
    let words = field.split('.').map(|step| {
        let mut entries = step.split('[');
        let name = entries.next().unwrap_or_default().replace('_', " ");
        let numbers = entries.filter_map(|entry| entry.strip_suffix(']')?.parse::<usize>().ok());
        std::iter::once(name)
            .chain(numbers.map(|number| format!("no. {}", number + 1)))
            .collect::<Vec<_>>()
            .join(", ")
    });
    words.collect::<Vec<_>>().join(", ")
}

/// The origin of a number in words of the trade, `√(back height² + run²)`, and the fields of the job file that it names:
/// `back_height`.
pub(crate) fn origin_in_words(origin: &str) -> (String, Vec<String>) {
    let (mut words, mut fields) = (String::new(), Vec::<String>::new());
    let mut rest = origin;
    while let Some(start) = rest.find(|letter: char| letter.is_ascii_alphabetic()) {
        words.push_str(&rest[..start]);
        let (name, behind) = rest[start..].split_at(path_end(&rest[start..]));
        let is_path = name.contains(['_', '.', '[']);
        words.push_str(&if is_path { spelled(name).replace(", ", " ") } else { name.to_owned() });
        if is_path && fields.iter().all(|field| field != name) {
            fields.push(name.to_owned());
        }
        rest = behind;
    }
    words.push_str(rest);
    (words, fields)
}

/// Where a name at the head of `text` ends: letters, digits and underscores, a point before a letter, a number in brackets.
fn path_end(text: &str) -> usize {
    let letters: Vec<char> = text.chars().take_while(char::is_ascii).collect();
    let mut end = 0;
    while let Some(letter) = letters.get(end) {
        let next = letters.get(end + 1);
        let step = match letter {
            'a'..='z' | 'A'..='Z' | '0'..='9' | '_' => 1,
            '.' if next.is_some_and(char::is_ascii_alphabetic) => 1,
            '[' if next.is_some_and(char::is_ascii_digit) => {
                let closes = letters[end..].iter().position(|letter| *letter == ']');
                closes.map_or(0, |closes| closes + 1)
            }
            _ => 0,
        };
        if step == 0 {
            break;
        }
        end += step;
    }
    end
}

/// A finding as it stands on paper: fields of the job file are for whoever writes the job, not for the bench.
pub(crate) fn finding_words(finding: &checks::Finding) -> String {
    let checks::Finding { place, measured, wrong, remedy, .. } = finding;
    let place =
        if place.contains(' ') { place.clone() } else { spelled(place).replace("holes, no.", "hole no.") };
    format!("{place}: {measured}: {wrong}; {}", remedy.replace(" under shop.brake", ""))
}

/// A figure of a metal in the job's unit.
pub(crate) fn figure_words(job: &Job, value: FigureValue) -> String {
    let inch = job.unit == LengthUnit::Inch;
    match value {
        FigureValue::Density(density) => density.print_with_unit(
            if inch { DensityUnit::PoundPerCubicInch } else { DensityUnit::GramPerCubicCentimetre },
            4,
        ),
        FigureValue::WeightPerArea(weight) => weight.print_with_unit(
            if inch { MassPerAreaUnit::PoundPerSquareFoot } else { MassPerAreaUnit::KilogramPerSquareMetre },
            3,
        ),
        FigureValue::Length(length) => length.print(finer(job.style)),
        FigureValue::BendModel(model) => model.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn origins_say_the_trades_words_and_the_fields_apart() {
        for (origin, words, fields) in [
            ("√(inset.AB² + rise²)", "√(inset AB² + rise²)", "inset.AB"),
            ("depth_top", "depth top", "depth_top"),
            ("lifts_through, clearance, rim", "lifts through, clearance, rim", "lifts_through"),
            ("atan(rise / flanges.AB[0])", "atan(rise / flanges AB no. 1)", "flanges.AB[0]"),
            (
                "back_height + rim_width - back_height",
                "back height + rim width - back height",
                "back_height, rim_width",
            ),
            ("height / cos(lean). A second sentence.", "height / cos(lean). A second sentence.", ""),
        ] {
            let (in_words, named) = origin_in_words(origin);
            assert_eq!((in_words.as_str(), named.join(", ").as_str()), (words, fields));
        }
    }
}
