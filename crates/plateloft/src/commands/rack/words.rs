//! How offcuts are told.

use job::{Offcut, OffcutLay, exact_length};
use serde_json::{Value, json};
use stock::Film;
use units::{AreaUnit, Length, LengthStyle, LengthUnit, TapeDenominator};

use crate::output::face_words;
use crate::plan::blemish_words;

/// How the sides of a piece are printed: as packet and labels of drops do, by the tape, the rest in
/// thousandths; where no job says which tape, by one of sixteenths.
/// Thicknesses go by the caliper, in `style`.
pub(super) const fn by_tape(style: LengthStyle) -> LengthStyle {
    match style {
        LengthStyle::Tape { .. } | LengthStyle::Millimetres { .. } => style,
        LengthStyle::Inches { .. } => LengthStyle::Tape { denominator: TapeDenominator::Sixteenths },
    }
}

/// Thicknesses are no places of a tape: thousandths of an inch where a job goes by fractions.
pub(super) const fn by_caliper(style: LengthStyle) -> LengthStyle {
    match style {
        LengthStyle::Tape { .. } => LengthStyle::Inches { places: 3 },
        LengthStyle::Inches { .. } | LengthStyle::Millimetres { .. } => style,
    }
}

/// "R12  5052-H32 tread .126  30 × 20 1/16 (outline of 6 corners, 3.500 ft2)  face good, film one side …".
pub(super) fn line(offcut: &Offcut, style: LengthStyle) -> String {
    let as_ordered = if offcut.measured { "" } else { " as ordered" };
    let job = offcut.from_job.as_ref().map(|job| format!(" from {job}")).unwrap_or_default();
    let note: String = torn(offcut).chain(offcut.note.clone()).map(|words| format!("; {words}")).collect();
    format!(
        "{}  {} {}{as_ordered}  {}  {}  {}  {}  {}{job}{note}",
        offcut.mark,
        offcut.metal.words(),
        offcut.thickness.print(by_caliper(style)),
        size(offcut, style),
        state(offcut),
        offcut.place,
        offcut.standing.words(),
        offcut.date,
    )
}

/// "30 × 20 1/16", or with its area when it is no rectangle.
pub(super) fn size(offcut: &Offcut, style: LengthStyle) -> String {
    let [length, width] = offcut.extents().map(|size| size.print(by_tape(style)));
    if offcut.is_rectangle() {
        return format!("{length} × {width}");
    }
    let area = area_unit(style);
    format!(
        "{length} × {width} over all, {} corners{}, {}",
        offcut.outline.len(),
        blemish_words(offcut.holes.len(), offcut.torn.len()),
        offcut.area().print_with_unit(area, 3)
    )
}

/// Why zones of it may not be used: "not to be used: creased by a strap".
pub(super) fn torn(offcut: &Offcut) -> impl Iterator<Item = String> + '_ {
    offcut.torn.iter().map(|zone| format!("not to be used: {}", zone.why))
}

pub(super) const fn area_unit(style: LengthStyle) -> AreaUnit {
    match style.unit() {
        LengthUnit::Inch => AreaUnit::SquareFoot,
        LengthUnit::Millimetre => AreaUnit::SquareMetre,
    }
}

/// "face good, film one side, lay along x".
pub(super) fn state(offcut: &Offcut) -> String {
    let face = face_words(offcut.face);
    let film = match offcut.film {
        Film::Bare => "no film",
        Film::OneSide => "film one side",
        Film::BothSides => "film both sides",
    };
    let lay = match offcut.lay {
        OffcutLay::AlongX => ", lay along x",
        OffcutLay::AlongY => ", lay along y",
        OffcutLay::None => "",
        OffcutLay::Unknown => ", lay unknown",
    };
    format!("face {face}, {film}{lay}")
}

/// Everything about an offcut; lengths exact, with their units.
pub(super) fn json(offcut: &Offcut) -> Value {
    let ring = |corners: &[[Length; 2]]| -> Vec<[String; 2]> {
        corners.iter().map(|corner| corner.map(exact_length)).collect()
    };
    json!({
        "mark": offcut.mark,
        "metal": offcut.metal.words(),
        "thickness": exact_length(offcut.thickness),
        "measured": offcut.measured,
        "outline": ring(&offcut.outline),
        "holes": offcut.holes.iter().map(|hole| ring(hole)).collect::<Vec<_>>(),
        "torn": offcut
            .torn
            .iter()
            .map(|zone| json!({ "outline": ring(&zone.outline), "why": zone.why }))
            .collect::<Vec<_>>(),
        "rectangle": offcut.is_rectangle(),
        "exact_area": offcut.area().square_nanometres().to_string(),
        "state": state(offcut),
        "place": offcut.place,
        "from_job": offcut.from_job,
        "cut_from": offcut.cut_from,
        "date": offcut.date,
        "standing": offcut.standing.words(),
        "note": offcut.note,
    })
}
