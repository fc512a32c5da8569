//! Roll goods with the panels of every piece, and wear liner.

use std::collections::BTreeMap;

use units::{Length, MassPerArea, Money, Temperature, rounding};

use super::desk::{Desk, Range};
use super::seams::{NoSeam, seams};
use crate::file::{CoveringFile, CoveringPieceFile, ExpansionFile, LinerFile};
use crate::place::Place;

/// One kind of roll good.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JobCovering {
    /// What is ordered.
    pub name: String,
    /// Width of the roll.
    pub width: Length,
    /// Longest roll that can be had.
    pub longest: Option<Length>,
    /// Cut off each side of the roll.
    pub selvedge: Length,
    /// Cut off the end of every length to make it square; zero where nothing is counted for it.
    pub squaring: Length,
    /// True where pieces keep the direction of the roll.
    pub nap: bool,
    /// Pattern repeat along the roll.
    pub repeat: Option<Length>,
    /// Pattern repeat across the roll.
    pub repeat_across: Option<Length>,
    /// Added to each panel at a seam.
    pub seam_allowance: Length,
    /// Price, and the length it is for.
    pub price: Option<(Money, Length)>,
    /// Lengths sold are multiples of this.
    pub sold_by: Option<Length>,
    /// Weight of an area of it.
    pub weight: Option<MassPerArea>,
    /// What is cut from it.
    pub pieces: Vec<CoveringPiece>,
}

/// A piece of a roll good.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CoveringPiece {
    /// Its mark.
    pub mark: String,
    /// Size along the nap and across it.
    pub size: [Length; 2],
    /// Where its seams run, across from its left side; none for a piece in one.
    pub seams: Vec<Length>,
    /// Whether seams are allowed that it does not have: parted there, it might take less of the roll.
    pub other_seams: bool,
    /// How many.
    pub quantity: u32,
    /// Room or place that it lies in.
    pub lies_in: Option<String>,
}

/// Wear liner of plastic sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JobLiner {
    /// What is ordered.
    pub name: String,
    /// Size of a sheet, the larger side first.
    pub sheet: [Length; 2],
    /// Price of one.
    pub price: Option<Money>,
    /// Width of one cut.
    pub kerf: Length,
    /// Weight of an area of it.
    pub weight: Option<MassPerArea>,
    /// How it grows.
    pub expansion: Expansion,
    /// Faces to line.
    pub areas: Vec<LinedArea>,
}

/// A face to line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LinedArea {
    /// Its mark.
    pub mark: String,
    /// Length and width.
    pub size: [Length; 2],
    /// How many.
    pub quantity: u32,
    /// Room or place that it is in.
    pub lies_in: Option<String>,
}

/// How a plastic grows with heat.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Expansion {
    /// Growth of a thousand million lengths for one kelvin.
    pub billionths_per_kelvin: i64,
    /// Where that stands.
    pub source: String,
    /// When laid.
    pub laid_at: Temperature,
    /// Coldest.
    pub coldest: Temperature,
    /// Warmest.
    pub warmest: Temperature,
}

impl JobCovering {
    /// Width that can be used.
    #[must_use]
    pub fn usable(&self) -> Length {
        self.width - self.selvedge - self.selvedge
    }

    /// The longest piece that can be cut, once the end of the longest roll is square.
    #[must_use]
    pub fn longest_piece(&self) -> Option<Length> {
        self.longest.map(|longest| longest - self.squaring)
    }
}

impl Expansion {
    /// How much a length grows from being laid to the warmest, rounded up to the nanometre; expansion = coefficient × length
    /// × rise in temperature.
    #[must_use]
    pub fn growth(&self, length: Length) -> Length {
        self.change(length, self.laid_at, self.warmest)
    }

    /// How much it shrinks from being laid to the coldest.
    #[must_use]
    pub fn shrinkage(&self, length: Length) -> Length {
        self.change(length, self.coldest, self.laid_at)
    }

    fn change(&self, length: Length, cold: Temperature, warm: Temperature) -> Length {
        const STEPS_TO_KELVIN: f64 = 10_000.0;
        const WHOLE: i128 = 1_000_000_000 * 10_000;
        let rise = rounding::wide_count((warm.kelvins() - cold.kelvins()) * STEPS_TO_KELVIN);
        let product = i128::from(length.nanometres()) * i128::from(self.billionths_per_kelvin) * rise;
        Length::from_nanometres(i64::try_from((product + WHOLE - 1).div_euclid(WHOLE)).unwrap_or(i64::MAX))
    }
}

/// Every roll good that can be read.
pub(super) fn coverings(files: &[Option<CoveringFile>], desk: &mut Desk<'_>) -> Vec<JobCovering> {
    let mut coverings: Vec<JobCovering> = Vec::new();
    for (number, file) in files.iter().enumerate() {
        let Some(file) = file else { continue };
        let place = Place::top("coverings").entry(number);
        let before = files[..number].iter().flatten().map(|known| &known.covering);
        desk.once(&place.field("covering"), &file.covering, before, "put its pieces under one entry");
        coverings.extend(covering(file, &place, desk));
    }
    coverings
}

fn covering(file: &CoveringFile, place: &Place, desk: &mut Desk<'_>) -> Option<JobCovering> {
    let width = desk.length(&place.field("width"), &file.width, Range::AboveZero);
    let mut of_roll = |field: &str, size: Option<&_>| desk.optional(&place.field(field), size, Range::Roll);
    let longest = of_roll("longest", file.longest.as_ref());
    let price_for = of_roll("price_for", file.price_for.as_ref());
    let sold_by = of_roll("sold_by", file.sold_by.as_ref());
    let mut above =
        |field: &str, size: Option<&_>| desk.optional(&place.field(field), size, Range::AboveZero);
    let repeat = above("repeat", file.repeat.as_ref());
    let repeat_across = above("repeat_across", file.repeat_across.as_ref());
    let mut zero =
        |field: &str, size: Option<&_>| desk.optional(&place.field(field), size, Range::ZeroOrMore);
    let selvedge = zero("selvedge", file.selvedge.as_ref());
    let squaring = zero("squaring", file.squaring.as_ref());
    let allowance = zero("seam_allowance", file.seam_allowance.as_ref());
    let price = price(file, price_for.flatten(), place, desk);
    let weight = desk.text(&place.field("weight"), file.weight.as_ref(), MassPerArea::read);
    let (width, selvedge) = (width?, selvedge?.unwrap_or(Length::ZERO));
    let squaring = squaring?.unwrap_or(Length::ZERO);
    let allowance = allowance?.unwrap_or(Length::ZERO);
    let (repeat, repeat_across, longest, sold_by) = (repeat?, repeat_across?, longest?, sold_by?);
    let mut covering = JobCovering {
        name: file.covering.clone(),
        width,
        longest,
        selvedge,
        squaring,
        nap: file.nap.unwrap_or(true),
        repeat,
        repeat_across,
        seam_allowance: allowance,
        price: price.flatten(),
        sold_by,
        weight: weight?,
        pieces: Vec::new(),
    };
    if !is_sound(&covering, file.nap, place, desk) {
        return None;
    }
    let pieces: Vec<Option<CoveringPiece>> = file
        .pieces
        .iter()
        .enumerate()
        .map(|(number, file)| piece(file, &covering, &place.field("pieces").entry(number), desk))
        .collect();
    covering.pieces = pieces.into_iter().collect::<Option<_>>()?;
    // A price that cannot be read is a finding already.
    price.map(|_| covering)
}

/// Whether what is said of a roll can be; says what cannot.
fn is_sound(covering: &JobCovering, nap: Option<bool>, place: &Place, desk: &mut Desk<'_>) -> bool {
    if covering.usable() <= Length::ZERO {
        let wrong = "cutting it off both sides leaves nothing of the roll";
        desk.add(
            &place.field("selvedge"),
            &covering.selvedge.print(desk.style),
            wrong,
            "check width and selvedge",
        );
        return false;
    }
    if let Some(longest) = covering.longest.filter(|longest| *longest <= covering.squaring) {
        let wrong = format!("leaves nothing of the longest roll, {}", longest.print(desk.style));
        desk.add(
            &place.field("squaring"),
            &covering.squaring.print(desk.style),
            wrong,
            "check squaring and longest",
        );
        return false;
    }
    if let (Some(longest), Some(step)) = (covering.longest, covering.sold_by)
        && longest < step
    {
        let wrong = format!(
            "is longer than the longest roll, {}: no length of it is sold",
            longest.print(desk.style)
        );
        let remedy = "check sold_by and longest; leave sold_by out where whole rolls are sold as they come";
        desk.add(&place.field("sold_by"), &step.print(desk.style), wrong, remedy);
        return false;
    }
    let has_pattern = covering.repeat.is_some() || covering.repeat_across.is_some();
    if nap == Some(false) && has_pattern {
        let wrong = "a pattern has a direction";
        desk.add(&place.field("nap"), "false", wrong, "leave nap out, or the repeat");
        return false;
    }
    true
}

fn price(
    file: &CoveringFile,
    price_for: Option<Length>,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<Option<(Money, Length)>> {
    let Some(written) = &file.price else {
        if let Some(length) = price_for {
            let remedy = "give the price of that length, or leave price_for out";
            desk.add(&place.field("price_for"), &length.print(desk.style), "there is no price", remedy);
            return None;
        }
        return Some(None);
    };
    let money = desk.price(&place.field("price"), written)?;
    if file.price_for.is_none() {
        let remedy = "give price_for, like \"1 ft\" or \"1 m\"";
        desk.add(&place.field("price"), &written.0.to_string(), "is for no length that is given", remedy);
        return None;
    }
    Some(Some((money, price_for?)))
}

fn piece(
    file: &CoveringPieceFile,
    covering: &JobCovering,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<CoveringPiece> {
    let size = desk.pair(&place.field("size"), &file.size, Range::AboveZero);
    let seams: Vec<Option<Length>> = file
        .seams
        .iter()
        .enumerate()
        .map(|(number, seam)| desk.length(&place.field("seams").entry(number), seam, Range::AboveZero))
        .collect();
    let size = size?;
    let mut allowed = seams.into_iter().collect::<Option<Vec<Length>>>()?;
    allowed.sort_unstable();
    allowed.dedup();
    if let Some(beyond) = allowed.iter().find(|seam| size[1] <= **seam) {
        let wrong = format!("lies beyond {}, {} wide", file.mark, size[1].print(desk.style));
        desk.add(
            &place.field("seams"),
            &beyond.print(desk.style),
            wrong,
            "measure it across from its left side",
        );
        return None;
    }
    let fits = |[along, across]: [Length; 2]| {
        across <= covering.usable() && covering.longest_piece().is_none_or(|longest| along <= longest)
    };
    let turned_fits = !covering.nap && fits([size[1], size[0]]);
    if covering.longest_piece().is_some_and(|longest| longest < size[0]) && !turned_fits {
        let squared = if covering.squaring == Length::ZERO { "" } else { ", once its end is squared" };
        let wrong = format!("{} is longer than the longest roll{squared}", file.mark);
        desk.add(&place.field("size"), &words(size, desk), wrong, "divide it into pieces of their own marks");
        return None;
    }
    let seams = if fits(size) || turned_fits {
        Vec::new()
    } else {
        seams_of((&file.mark, size), &allowed, covering, place, desk)?
    };
    Some(CoveringPiece {
        mark: file.mark.clone(),
        size,
        other_seams: seams.len() < allowed.len(),
        seams,
        quantity: file.quantity.unwrap_or(1),
        lies_in: file.lies_in.clone(),
    })
}

fn words(size: [Length; 2], desk: &Desk<'_>) -> String {
    size.map(|length| length.print(desk.style)).join(" × ")
}

fn seams_of(
    (mark, size): (&str, [Length; 2]),
    allowed: &[Length],
    covering: &JobCovering,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<Vec<Length>> {
    let found = seams(size[1], allowed, covering);
    let told = |NoSeam { from, to }: NoSeam| {
        let wrong = format!(
            "{mark} is wider than the {} of the roll that can be used, and no seam is allowed from {} to {}",
            covering.usable().print(desk.style),
            from.print(desk.style),
            to.print(desk.style)
        );
        let remedy = "allow a seam there under seams, or take a wider roll";
        desk.add(&place.field("size"), &words(size, desk), wrong, remedy);
    };
    found.map_err(told).ok()
}

/// A mark is one piece of one roll or liner: cut lists and labels name pieces by their marks alone.
pub(super) fn judge_marks(
    coverings: &[Option<CoveringFile>],
    liners: &[Option<LinerFile>],
    desk: &mut Desk<'_>,
) {
    let pieces = coverings.iter().enumerate().flat_map(|(number, covering)| {
        let list = Place::top("coverings").entry(number).field("pieces");
        let pieces = covering.iter().flat_map(|covering| &covering.pieces).enumerate();
        pieces.map(move |(number, piece)| (list.entry(number), &piece.mark))
    });
    let areas = liners.iter().enumerate().flat_map(|(number, liner)| {
        let list = Place::top("liners").entry(number).field("areas");
        let areas = liner.iter().flat_map(|liner| &liner.areas).enumerate();
        areas.map(move |(number, area)| (list.entry(number), &area.mark))
    });
    let mut marks: BTreeMap<String, &String> = BTreeMap::new();
    for (place, mark) in pieces.chain(areas) {
        let wrong = match marks.insert(mark.to_lowercase(), mark) {
            None => continue,
            Some(other) if other == mark => "this mark is used twice".to_owned(),
            Some(other) => format!("differs from {other} only in large and small letters"),
        };
        let remedy = "give each piece and each area its own mark, or raise quantity";
        desk.add(&place.field("mark"), mark, wrong, remedy);
    }
}

/// Every wear liner that can be read.
pub(super) fn liners(files: &[Option<LinerFile>], desk: &mut Desk<'_>) -> Vec<JobLiner> {
    let mut liners: Vec<JobLiner> = Vec::new();
    for (number, file) in files.iter().enumerate() {
        let Some(file) = file else { continue };
        let place = Place::top("liners").entry(number);
        let before = files[..number].iter().flatten().map(|known| &known.liner);
        desk.once(&place.field("liner"), &file.liner, before, "put its areas under one entry");
        liners.extend(liner(file, &place, desk));
    }
    liners
}

fn liner(file: &LinerFile, place: &Place, desk: &mut Desk<'_>) -> Option<JobLiner> {
    let sheet = desk.pair(&place.field("sheet"), &file.sheet, Range::AboveZero);
    let price = desk.optional_price(&place.field("price"), file.price.as_ref());
    let kerf = desk.optional(&place.field("kerf"), file.kerf.as_ref(), Range::ZeroOrMore);
    let weight = desk.text(&place.field("weight"), file.weight.as_ref(), MassPerArea::read);
    let expansion = expansion(&file.expansion, &place.field("expansion"), desk);
    let mut areas = Vec::new();
    for (number, area) in file.areas.iter().enumerate() {
        let size = &place.field("areas").entry(number).field("size");
        let size = desk.pair(size, &area.size, Range::AboveZero);
        areas.push(size.map(|size| LinedArea {
            mark: area.mark.clone(),
            size,
            quantity: area.quantity.unwrap_or(1),
            lies_in: area.lies_in.clone(),
        }));
    }
    let [a, b] = sheet?;
    Some(JobLiner {
        name: file.liner.clone(),
        sheet: [a.max(b), a.min(b)],
        price: price?,
        kerf: kerf?.unwrap_or(Length::ZERO),
        weight: weight?,
        expansion: expansion?,
        areas: areas.into_iter().collect::<Option<_>>()?,
    })
}

/// The least and greatest coefficient that a solid has, in billionths per kelvin (common practice, no source: steel has
/// 12,000, polyethylene some 200,000).
const COEFFICIENTS: [i64; 2] = [1_000, 1_000_000];

fn expansion(file: &ExpansionFile, place: &Place, desk: &mut Desk<'_>) -> Option<Expansion> {
    let mut read = |field: &str, text: &String| desk.text(&place.field(field), Some(text), Temperature::read);
    let laid_at = read("laid_at", &file.laid_at);
    let coldest = read("coldest", &file.coldest);
    let warmest = read("warmest", &file.warmest);
    let [least, most] = COEFFICIENTS;
    let billionths = file.per_degree_c.as_f64().map_or(0, |number| rounding::whole_count(number * 1e9));
    let is_coefficient = (least..=most).contains(&billionths);
    if !is_coefficient {
        let remedy = "give the maker's figure per degree Celsius, like 0.00018";
        let value = file.per_degree_c.to_string();
        desk.add(&place.field("per_degree_c"), &value, "is no coefficient of a solid", remedy);
    }
    let (laid_at, coldest, warmest) = (laid_at??, coldest??, warmest??);
    if warmest <= coldest {
        let remedy = "give the warmest and the coldest that it meets";
        desk.add(&place.field("warmest"), &file.warmest, "is no warmer than the coldest", remedy);
        return None;
    }
    if laid_at < coldest || warmest < laid_at {
        let wrong = "is not between the coldest and the warmest";
        desk.add(&place.field("laid_at"), &file.laid_at, wrong, "check the three temperatures");
        return None;
    }
    let source = file.source.clone();
    is_coefficient.then_some(Expansion {
        billionths_per_kelvin: billionths,
        source,
        laid_at,
        coldest,
        warmest,
    })
}
