//! From the file's structs to the model: lengths read, names found, sizes judged one by one.

mod assembly;
mod bars;
mod bend_number;
mod brake;
mod clearance;
mod corner;
mod coverings;
mod date;
mod desk;
mod fits;
mod kit;
mod marks;
mod metals;
mod money;
mod one_sheet;
mod openings;
mod order;
mod parts;
mod rack;
mod rate;
mod received;
mod seams;
mod shapes;
mod sheets;
mod shop;
mod shop_files;
mod stand_outs;
mod strip_log;
mod turns;
mod weights;

pub use assembly::{JobAssembly, Placed};
pub use coverings::{CoveringPiece, Expansion, JobCovering, JobLiner, LinedArea};
pub use kit::Kit;
pub use money::{Buying, Consumable, ConsumedBy, Hardware, MaterialCharge, QuoteRates, WeldBetween};
pub use order::{Interleaf, OrderTerms};
pub use rack::{
    FaceState, Mismatch, NewOffcut, NewTornZone, Offcut, OffcutLay, OffcutMetal, Rack, Standing, TornZone,
    Wanted, exact_length, is_thickness, new_offcut, rack_text, read_rack, suits,
};
pub use rate::Rate;
pub use received::{NewReceived, Received, ReceivedSheet, new_received, read_received, received_text};
pub use strip_log::{LoggedStrip, NewStrip, new_strip_line, read_strip_log};
pub use weights::{HingedLid, Lift, Load, Loaded, Stations, Struts, Weights};

use fold::bend::ShopStrip;
use serde::Deserialize;
use serde_json::Value;
use units::{Length, LengthStyle, LengthUnit, TapeDenominator};

use crate::file::{JobFile, Size, UnitsFile};
use crate::model::Job;
use crate::place::{Findings, Place};
use crate::reading::{Hands, Notes};
use desk::{Desk, Range};

/// Decimal divisions of an inch that a caliper or a decimal rule has, and the places they print with.
const DECIMAL_TAPES: [(&str, u8); 3] = [(".1", 1), (".01", 2), (".001", 3)];

/// What is read beside the structs.
#[derive(Clone, Copy)]
pub(crate) struct Beside<'a> {
    /// Notes.
    pub(crate) notes: &'a Notes,
    /// Opposite hands that are edited.
    pub(crate) hands: &'a Hands,
    /// Strips of the shop's log.
    pub(crate) log: &'a [ShopStrip],
    /// The file's tree, for messages that come later.
    pub(crate) tree: &'a Value,
    /// Thicknesses that a caliper found, by the metal's name.
    pub(crate) thicknesses: &'a [(String, Length)],
}

/// The job; `None` when nothing could be judged because every length depends on what is wrong.
pub(crate) fn job(file: &JobFile, beside: &Beside<'_>, findings: &mut Findings) -> Option<Job> {
    let unit = unit(file.units);
    date::judge(file.date.as_deref(), findings);
    let (tape, style) = tape(file, unit, findings)?;
    let mut desk = Desk { findings, unit, style, assumptions: Vec::new(), cautions: Vec::new() };
    let shop = shop::shop(file.shop.as_ref(), &file.parts, &mut desk);
    let strips = shop::Strips {
        of_job: shop::strips(file, &mut desk),
        of_log: beside.log,
        v_openings: shop.brake.as_ref().map(crate::model::Brake::v_openings).unwrap_or_default(),
    };
    let metals = metals::metals(file, &strips, beside.thicknesses, &mut desk);
    shop::check_seam_gap(file, &shop, &metals, &mut desk);
    let openings = openings::openings(file, tape, &mut desk);
    let parts = parts::parts(
        file,
        beside,
        &parts::Known { shop: &shop, metals: &metals, openings: &openings },
        &mut desk,
    );
    let fits = fits::fits(file, (&parts, &openings), &beside.notes.fits, &mut desk);
    let sheets = sheets::sheets(file, &metals, &shop, (&parts, &beside.notes.sheets), &mut desk);
    let one_sheet = one_sheet::one_sheet(&file.one_sheet, &parts, &mut desk);
    let bars = bars::bars(&file.bars, &mut desk);
    let coverings = coverings::coverings(&file.coverings, &mut desk);
    let liners = coverings::liners(&file.liners, &mut desk);
    coverings::judge_marks(&file.coverings, &file.liners, &mut desk);
    let buying = money::buying(file, &mut desk);
    let hardware = money::hardware(file, &mut desk);
    let quote = money::quote(file, &mut desk);
    let weights = weights::weights(file.weights.as_ref(), &parts, &mut desk);
    let kit = kit::kit(file.kit.as_ref(), &parts, &mut desk);
    Some(Job {
        options: Vec::new(),
        name: file.job.clone().unwrap_or_default(),
        revision: file.revision.clone(),
        date: file.date.clone(),
        currency: file.currency.clone(),
        notes: beside.notes.job.clone(),
        style,
        unit,
        tape,
        shop,
        metals: metals.into_iter().filter_map(|(_, metal)| metal).collect(),
        sheets,
        openings: openings.into_iter().filter_map(|(_, opening)| opening).collect(),
        parts,
        fits,
        one_sheet,
        bars,
        coverings,
        liners,
        hardware,
        buying,
        quote,
        weights,
        kit,
        assumptions: desk.assumptions,
        cautions: desk.cautions,
    })
}

/// Judges a length in a part or other unit that cannot be judged as a whole.
pub(crate) fn judge_length(written: &Value, place: &Place, units: UnitsFile, findings: &mut Findings) {
    if let Ok(size) = Size::deserialize(written) {
        bare_desk(unit(units), findings).length(place, &size, Range::Any);
    }
}

/// How thicknesses print whatever the tape: in ten-thousandths of an inch or hundredths of a millimetre.
pub(crate) const fn fine(unit: LengthUnit) -> LengthStyle {
    match unit {
        LengthUnit::Inch => LengthStyle::Inches { places: 4 },
        LengthUnit::Millimetre => LengthStyle::Millimetres { places: 2 },
    }
}

const fn unit(units: UnitsFile) -> LengthUnit {
    match units {
        UnitsFile::Inch => LengthUnit::Inch,
        UnitsFile::Mm => LengthUnit::Millimetre,
    }
}

/// A desk for lengths alone, before it is known how they print.
fn bare_desk(unit: LengthUnit, findings: &mut Findings) -> Desk<'_> {
    let style = LengthStyle::Millimetres { places: 3 };
    Desk { findings, unit, style, assumptions: Vec::new(), cautions: Vec::new() }
}

/// The tape's division, and how lengths print by it.
fn tape(file: &JobFile, unit: LengthUnit, findings: &mut Findings) -> Option<(Length, LengthStyle)> {
    let mut desk = bare_desk(unit, findings);
    let place = Place::top("tape");
    let tape = desk.length(&place, &file.tape, Range::AboveZero)?;
    let (style, words) = match unit {
        LengthUnit::Inch => (inch_style(tape), "1/2, 1/4, 1/8, 1/16, 1/32, 1/64, .1, .01 or .001"),
        LengthUnit::Millimetre => (metric_style(tape), "1, 0.5, 0.1 or 0.01"),
    };
    if style.is_none() {
        let remedy = format!("give the smallest division you read: {words}");
        desk.findings.add(&place, &file.tape.to_string(), "no tape is divided so", remedy);
    }
    Some((tape, style?))
}

fn inch_style(tape: Length) -> Option<LengthStyle> {
    let fraction = TapeDenominator::ALL.into_iter().find(|division| division.length() == tape);
    if let Some(denominator) = fraction {
        return Some(LengthStyle::Tape { denominator });
    }
    let decimal = |(text, _): &&(&str, u8)| Length::read(text, LengthUnit::Inch) == Ok(tape);
    DECIMAL_TAPES.iter().find(decimal).map(|&(_, places)| LengthStyle::Inches { places })
}

/// Worked sizes print finer than a tape of whole millimetres reads.
fn metric_style(tape: Length) -> Option<LengthStyle> {
    let divisions = [("1", 1), ("0.5", 1), ("0.1", 1), ("0.01", 2)];
    let same = |(text, _): &&(&str, u8)| Length::read(text, LengthUnit::Millimetre) == Ok(tape);
    divisions.iter().find(same).map(|&(_, places)| LengthStyle::Millimetres { places })
}
