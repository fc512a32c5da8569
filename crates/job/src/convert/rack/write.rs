//! Writing the rack: one offcut a line, so that two versions of it can be compared by eye.

use serde_json::json;
use stock::{Film, Pattern};
use units::Length;

use super::VERSION;
use super::offcut::{FaceState, Offcut, OffcutLay, Rack, Standing};
use crate::file::{FaceStateFile, FilmFile, OffcutFile, OffcutLayFile, PatternFile, TornFile};

/// The whole file.
#[must_use]
pub fn rack_text(rack: &Rack) -> String {
    let least = rack.least.map(|sizes| json!(sizes.map(exact_length)).to_string());
    let least = least.map(|least| format!("  \"least\": {least},\n")).unwrap_or_default();
    // An offcut has only texts and plain words in it, which JSON always holds.
    let line = |offcut: &Offcut| serde_json::to_string(&file_of(offcut)).unwrap_or_default();
    let lines: Vec<String> = rack.offcuts.iter().map(|offcut| format!("    {}", line(offcut))).collect();
    let offcuts = if lines.is_empty() { String::new() } else { format!("\n{}\n  ", lines.join(",\n")) };
    format!("{{\n  \"plateloft_rack\": {VERSION},\n{least}  \"offcuts\": [{offcuts}]\n}}\n")
}

fn ring(corners: &[[Length; 2]]) -> Vec<[String; 2]> {
    corners.iter().map(|corner| corner.map(exact_length)).collect()
}

fn file_of(offcut: &Offcut) -> OffcutFile {
    let (reserved_for, taken_for) = match &offcut.standing {
        Standing::Free => (None, None),
        Standing::Reserved(job) => (Some(job.clone()), None),
        Standing::Taken(job) => (None, Some(job.clone())),
    };
    let temper = offcut.metal.temper.as_ref().map(|temper| format!("-{temper}")).unwrap_or_default();
    OffcutFile {
        mark: offcut.mark.clone(),
        metal: format!("{}{temper}", offcut.metal.alloy),
        pattern: (offcut.metal.pattern == Pattern::Tread).then_some(PatternFile::Tread),
        unlisted: offcut.metal.unlisted,
        thickness: exact_length(offcut.thickness),
        not_measured: !offcut.measured,
        outline: ring(&offcut.outline),
        holes: offcut.holes.iter().map(|hole| ring(hole)).collect(),
        torn: offcut
            .torn
            .iter()
            .map(|zone| TornFile { outline: ring(&zone.outline), why: zone.why.clone() })
            .collect(),
        film: match offcut.film {
            Film::Bare => FilmFile::Bare,
            Film::OneSide => FilmFile::OneSide,
            Film::BothSides => FilmFile::BothSides,
        },
        face: match offcut.face {
            FaceState::Good => FaceStateFile::Good,
            FaceState::Scratched => FaceStateFile::Scratched,
            FaceState::Unknown => FaceStateFile::Unknown,
        },
        lay: match offcut.lay {
            OffcutLay::AlongX => OffcutLayFile::AlongX,
            OffcutLay::AlongY => OffcutLayFile::AlongY,
            OffcutLay::None => OffcutLayFile::None,
            OffcutLay::Unknown => OffcutLayFile::Unknown,
        },
        place: offcut.place.clone(),
        from_job: offcut.from_job.clone(),
        cut_from: offcut.cut_from.clone(),
        date: offcut.date.clone(),
        reserved_for,
        taken_for,
        note: offcut.note.clone(),
    }
}

/// A length to the last nanometre with its unit: inches where a millionth of an inch holds it, else millimetres.
#[must_use]
pub fn exact_length(length: Length) -> String {
    let nanometres = i128::from(length.nanometres());
    let inch_holds_it =
        nanometres % 25_400 == 0 || (nanometres * 10 % 254 == 0 && nanometres % 1_000_000 != 0);
    let (count, unit) = if inch_holds_it { (nanometres * 10 / 254, "in") } else { (nanometres, "mm") };
    let (whole, rest) = (count.unsigned_abs() / 1_000_000, count.unsigned_abs() % 1_000_000);
    let sign = if count < 0 { "-" } else { "" };
    let digits = format!("{rest:06}");
    let digits = digits.trim_end_matches('0');
    let point = if digits.is_empty() { "" } else { "." };
    format!("{sign}{whole}{point}{digits} {unit}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use units::LengthUnit;

    #[test]
    fn written_lengths_read_back_exactly() {
        let read = |text: &str| Length::read(text, LengthUnit::Inch).unwrap();
        for text in
            ["23 5/16", ".126", "589 mm", "0.1 mm", "1/64", "3.175 mm", "-4 1/8", "0", "12", "0.01 mm"]
        {
            let length = read(text);
            assert_eq!(read(&exact_length(length)), length, "{text}: {}", exact_length(length));
        }
        assert_eq!(exact_length(read("23 5/16")), "23.3125 in");
        assert_eq!(exact_length(read("589 mm")), "589 mm");
    }
}
