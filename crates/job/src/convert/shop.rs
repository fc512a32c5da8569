//! The shop's habits and its test strips.

use fold::bend::ShopStrip;
use shapes::{CornerStyle, ReliefHole, ReliefStyle};
use units::{Angle, Length};

use super::desk::{Desk, Range};
use super::metals::Metals;
use super::strip_log::{turn_in_die_of_strip, turn_of_strip};
use crate::file::{
    CuttingFile, JobFile, NestingFile, PartFile, ReliefFile, ReliefRuleFile, ShearFile, ShopFile, Size,
    StripFile,
};
use crate::model::{Cutting, Nesting, Shop};
use crate::nearest::{list, remedy};
use crate::place::Place;

/// Widest gap taken at a corner, in thicknesses (common practice, no source).
const WIDEST_GAP_IN_THICKNESSES: i64 = 3;

/// Least distance from the edge of the cut to the guide: a saw's shoe, a router's collar or a torch's tip takes so much beside its
/// cut (common practice, no source).
const LEAST_BESIDE_CUT: Length = Length::from_sixty_fourths(8);

/// Gaps wider than this are pointed out: torch, saw and router need less (common practice, no source).
const WIDEST_USUAL_GAP: Length = Length::from_sixty_fourths(128);

/// A strip as written in the job, its sizes read.
#[derive(Debug, Clone)]
pub(super) struct Strip {
    /// Where it stands.
    pub(super) place: Place,
    /// The metal it was cut from.
    pub(super) metal: String,
    /// Length of the flat strip.
    pub(super) length: Length,
    /// Both legs, outside.
    pub(super) legs: [Length; 2],
    /// Turn from flat.
    pub(super) turn: Angle,
    /// Turn in the die, if measured.
    pub(super) turn_in_die: Option<Angle>,
    /// When it was bent, if noted.
    pub(super) date: Option<String>,
}

/// All strips there are to choose from, and the die that the job bends over.
#[derive(Debug)]
pub(super) struct Strips<'a> {
    /// Those of the job.
    pub(super) of_job: Vec<Strip>,
    /// Those of the shop's log.
    pub(super) of_log: &'a [ShopStrip],
    /// Openings of the dies, those that the job names.
    pub(super) v_openings: Vec<Length>,
}

/// The shop's habits. Where a size could not be read a stand-in serves to judge the rest; the finding stops the job.
pub(super) fn shop(file: Option<&ShopFile>, parts: &[Option<PartFile>], desk: &mut Desk<'_>) -> Shop {
    let place = Place::top("shop");
    let zero = Length::ZERO;
    let Some(file) = file else { return without_file() };
    let gap = desk.length(&place.field("gap"), &file.gap, Range::ZeroOrMore);
    let edge_trim = desk.length(&place.field("edge_trim"), &file.edge_trim, Range::ZeroOrMore);
    let kerf = desk.optional(&place.field("kerf"), file.kerf.as_ref(), Range::ZeroOrMore).flatten();
    if let (Some(gap), Some(kerf), Some(written)) = (gap, kerf, &file.kerf)
        && kerf > gap
    {
        let wrong = format!("the cut is wider than the gap of {} it runs in", gap.print(desk.style));
        desk.add(&place.field("kerf"), &written.to_string(), wrong, "widen the gap to the kerf or more");
    }
    if let Some(gap) = gap.filter(|&gap| WIDEST_USUAL_GAP < gap) {
        let (gap, usual) = (gap.print(desk.style), WIDEST_USUAL_GAP.print(desk.style));
        desk.cautions.push(format!(
            "The gap between parts is {gap}, wider than {usual}: so much metal is left around every part. Is it meant?"
        ));
    }
    if file.kerf.is_none() {
        desk.assumptions
            .push("No kerf is given: it is taken as nothing, and the gap counts as scrap.".to_owned());
    }
    if file.keep_drop.is_none() {
        desk.assumptions.push(
            "No least size of a drop worth keeping is given: no drop is kept, and all of them count as \
                   scrap."
                .to_owned(),
        );
    }
    let seam = desk.optional(&place.field("seam_gap"), file.seam_gap.as_ref(), Range::ZeroOrMore).flatten();
    let corner =
        file.corner.as_ref().and_then(|corner| super::corner::of_shop(corner, &place.field("corner"), desk));
    let guide = guide_offset(file, kerf.unwrap_or(zero), &place, desk);
    let keep_drop = file
        .keep_drop
        .as_ref()
        .and_then(|sizes| desk.pair(&place.field("keep_drop"), sizes, Range::AboveZero))
        .map(|[a, b]| [a.min(b), a.max(b)]);
    let relief_hole = relief_hole(file, &place, desk);
    check_relief_hole(file, parts, &place, desk);
    let nesting = nesting(file.nesting.as_ref());
    let cutting = cutting(file.cutting.as_ref(), &place.field("cutting"), desk);
    Shop {
        gap: gap.unwrap_or(zero),
        edge_trim: edge_trim.unwrap_or(zero),
        kerf: kerf.unwrap_or(zero),
        cutting,
        guide_offset: guide,
        shared_cuts: shared_cuts(file, (kerf, cutting), &place, desk),
        relief: style_of(file.relief.unwrap_or(ReliefFile::Square), relief_hole),
        relief_hole,
        corner: corner.unwrap_or_default(),
        seam_gap: seam.unwrap_or(zero),
        brake: file.brake.as_ref().map(|brake| super::brake::brake(brake, &place.field("brake"), desk)),
        roll: file.roll.as_ref().map(|roll| super::brake::roll(roll, &place.field("roll"), desk)),
        stop_below_least_radius: file.stop_below_least_radius,
        keep_drop,
        nesting,
    }
}

/// Where the guide stands beside the cut.
fn guide_offset(file: &ShopFile, kerf: Length, place: &Place, desk: &mut Desk<'_>) -> Option<Length> {
    let written = file.guide_offset.as_ref()?;
    let offset = desk.length(&place.field("guide_offset"), written, Range::AboveZero)?;
    check_guide(offset, kerf, (place, &written.to_string()), desk);
    Some(offset)
}

/// A guide in the cut, or nearer to it than any shoe or tip is wide beside it, is a slip: most likely it was measured to something else.
fn check_guide(offset: Length, kerf: Length, (place, written): (&Place, &str), desk: &mut Desk<'_>) {
    let half = Length::from_nanometres(kerf.nanometres() / 2);
    let least = half + LEAST_BESIDE_CUT;
    if least <= offset {
        return;
    }
    let print = |length: Length| length.print(desk.style);
    let wrong = if offset <= half {
        format!(
            "lies in the cut of {}, which reaches {} to both sides of its middle",
            print(kerf),
            print(half)
        )
    } else {
        format!(
            "leaves {} between the cut and the guide, and no saw's shoe or torch's tip runs so near beside it",
            print(offset - half)
        )
    };
    let remedy = format!(
        "measure from the middle of the cut to the guide, {} or more; without a guide leave it out",
        print(least)
    );
    desk.add(&place.field("guide_offset"), written, wrong, remedy);
}

/// How long nests are looked for; the schema holds the limits.
fn nesting(file: Option<&NestingFile>) -> Nesting {
    file.map_or_else(Nesting::default, |file| Nesting { evaluations: file.evaluations, seed: file.seed })
}

/// Whether one cut may serve two parts; it must then be known how wide the cut is, and it is no shear's.
fn shared_cuts(
    file: &ShopFile,
    (kerf, cutting): (Option<Length>, Cutting),
    place: &Place,
    desk: &mut Desk<'_>,
) -> bool {
    let place = place.field("shared_cuts");
    if file.shared_cuts && kerf.is_none_or(|kerf| kerf == Length::ZERO) {
        let wrong = "matching edges lie one kerf apart, and no kerf is given";
        desk.add(&place, "true", wrong, "give the kerf of the saw, or leave shared_cuts out");
    }
    if file.shared_cuts && cutting != Cutting::ByHand {
        let wrong = "a shear's cut has no width, and always serves both sides";
        desk.add(&place, "true", wrong, "leave shared_cuts out, or cut \"by hand\"");
    }
    file.shared_cuts
}

/// What stands where the job says nothing of the shop.
const fn without_file() -> Shop {
    let zero = Length::ZERO;
    Shop {
        gap: zero,
        edge_trim: zero,
        kerf: zero,
        cutting: Cutting::ByHand,
        guide_offset: None,
        shared_cuts: false,
        relief: ReliefStyle::Square,
        relief_hole: ReliefHole::Handbook,
        corner: CornerStyle::Open,
        seam_gap: zero,
        brake: None,
        roll: None,
        stop_below_least_radius: false,
        keep_drop: None,
        nesting: Nesting { evaluations: None, seed: None },
    }
}

/// How sheets are cut.
fn cutting(file: Option<&CuttingFile>, place: &Place, desk: &mut Desk<'_>) -> Cutting {
    match file {
        None => Cutting::ByHand,
        Some(CuttingFile::Words(text)) => match text.trim().to_ascii_lowercase().as_str() {
            "by hand" => Cutting::ByHand,
            "shear" => Cutting::Shear { longest_cut: None, rounds: None },
            _ => {
                let remedy = "write \"by hand\", \"shear\" or {\"longest_cut\": \"52\", \"rounds\": 3}";
                desk.add(place, text, "no sheet is cut so", remedy);
                Cutting::ByHand
            }
        },
        Some(CuttingFile::Shear(ShearFile { longest_cut, rounds })) => {
            let longest_cut = desk.length(&place.field("longest_cut"), longest_cut, Range::AboveZero);
            if let Some(rounds) = rounds.filter(|rounds| !(1..=20).contains(rounds)) {
                let remedy = "give the rounds of parallel cuts, 1 to 20, or leave it out";
                desk.add(&place.field("rounds"), &rounds.to_string(), "no shear is worked so", remedy);
            }
            Cutting::Shear { longest_cut, rounds: *rounds }
        }
    }
}

/// A gap so wide that no weld closes it is a slip. Said once, for the thinnest metal that parts are made of.
pub(super) fn check_seam_gap(file: &JobFile, shop: &Shop, metals: &Metals, desk: &mut Desk<'_>) {
    let is_used = |name: &str| file.parts.iter().flatten().any(|part| part.common().metal == name);
    let used = metals.iter().filter(|(name, _)| is_used(name));
    let thinnest = used.filter_map(|(_, metal)| metal.as_ref()).min_by_key(|metal| metal.metal.thickness);
    let Some(metal) = thinnest else { return };
    let written = file.shop.as_ref().and_then(|shop| shop.seam_gap.as_ref());
    let place = Place::top("shop");
    if let Some(written) = written {
        let written = (&place.field("seam_gap"), &*written.to_string());
        check_gap_in(&metal.metal, shop.seam_gap, written, desk);
    }
    check_corner_gaps(&metal.metal, &shop.corner, &place, desk);
}

/// True when the gaps that single corners have as a style of their own can be such in this metal; says so when not.
pub(super) fn check_corner_gaps(
    metal: &stock::Metal,
    corner: &CornerStyle,
    place: &Place,
    desk: &mut Desk<'_>,
) -> bool {
    let mut all_can_be = true;
    for (field, style) in corner.single() {
        if let CornerStyle::Gap { gap } = style {
            let place = place.field(&format!("corner{field}.gap"));
            all_can_be &= check_gap_in(metal, *gap, (&place, &gap.print(desk.style)), desk);
        }
    }
    all_can_be
}

/// True when the gap can be one in this metal; says so when not.
fn check_gap_in(
    metal: &stock::Metal,
    gap: Length,
    (place, written): (&Place, &str),
    desk: &mut Desk<'_>,
) -> bool {
    let most = metal.thickness * WIDEST_GAP_IN_THICKNESSES;
    if gap > most {
        let wrong = format!("wider than {WIDEST_GAP_IN_THICKNESSES} thicknesses of {}", metal.name);
        let most = most.print(desk.style);
        let remedy =
            format!("give the gap between the plates at a corner, {most} at most, zero for a full weld");
        desk.add(place, written, wrong, remedy);
    }
    gap <= most
}

/// The gap at the seams of one part: its own, else the shop's. `None` is a finding.
pub(super) fn seam_gap(
    written: Option<&Size>,
    shop: &Shop,
    metal: &stock::Metal,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<Length> {
    let Some(written) = written else { return Some(shop.seam_gap) };
    let gap = desk.length(place, written, Range::ZeroOrMore)?;
    check_gap_in(metal, gap, (place, &written.to_string()), desk).then_some(gap)
}

/// The size of a hole says something only where the shop or a part drills one.
fn check_relief_hole(file: &ShopFile, parts: &[Option<PartFile>], place: &Place, desk: &mut Desk<'_>) {
    let is_drilled =
        |relief: Option<ReliefFile>| matches!(relief, Some(ReliefFile::Round | ReliefFile::TearDrop));
    let drilled =
        is_drilled(file.relief) || parts.iter().flatten().any(|part| is_drilled(part.common().relief));
    let kind =
        if file.relief == Some(ReliefFile::None) { "a corner without relief" } else { "square relief" };
    let remedy = "write \"relief\": \"round\" or \"tear_drop\", here or at a part, or take this out";
    if let Some(written) = file.relief_hole.as_ref().filter(|_| !drilled) {
        let wrong = format!("{kind} has no hole");
        desk.add(&place.field("relief_hole"), &written.to_string(), wrong, remedy);
    } else if file.relief_rule.is_some() && !drilled {
        desk.add(&place.field("relief_rule"), "as given", format!("{kind} has no hole"), remedy);
    }
}

/// A relief of this kind with holes of this size.
pub(super) const fn style_of(file: ReliefFile, hole: ReliefHole) -> ReliefStyle {
    match file {
        ReliefFile::None => ReliefStyle::None,
        ReliefFile::Square => ReliefStyle::Square,
        ReliefFile::Round => ReliefStyle::Round { hole },
        ReliefFile::TearDrop => ReliefStyle::TearDrop { hole },
    }
}

fn relief_hole(file: &ShopFile, place: &Place, desk: &mut Desk<'_>) -> ReliefHole {
    let field = place.field("relief_hole");
    let diameter = desk.optional(&field, file.relief_hole.as_ref(), Range::AboveZero).flatten();
    if let (Some(written), Some(_)) = (&file.relief_hole, file.relief_rule) {
        let wrong = "a diameter and a rule both size the hole";
        desk.add(&field, &written.to_string(), wrong, "keep one of \"relief_hole\" and \"relief_rule\"");
    }
    match (diameter, file.relief_rule) {
        (Some(diameter), _) => ReliefHole::Diameter(diameter),
        (None, Some(ReliefRuleFile::Zone)) => ReliefHole::Zone,
        (None, Some(ReliefRuleFile::Handbook) | None) => ReliefHole::Handbook,
    }
}

/// Every strip of the job whose sizes can be read and whose metal is known.
pub(super) fn strips(file: &JobFile, desk: &mut Desk<'_>) -> Vec<Strip> {
    let files = file.shop.as_ref().map(|shop| shop.strips.as_slice()).unwrap_or_default();
    let read = |(number, strip): (usize, &Option<StripFile>)| {
        let place = Place::top("shop").field("strips").entry(number);
        self::strip(strip.as_ref()?, place, file, desk)
    };
    files.iter().enumerate().filter_map(read).collect()
}

fn strip(strip: &StripFile, place: Place, file: &JobFile, desk: &mut Desk<'_>) -> Option<Strip> {
    let known = file.metals.0.iter().any(|(name, _)| *name == strip.metal);
    if !known {
        unknown_metal(&place.field("metal"), &strip.metal, file, desk);
    }
    let length = desk.length(&place.field("length"), &strip.length, Range::AboveZero);
    let legs = desk.pair(&place.field("legs"), &strip.legs, Range::AboveZero);
    let quarter = Some(Angle::RIGHT);
    let turn = strip.turn.as_ref().map_or(quarter, |turn| turn_of_strip(&place.field("turn"), turn, desk));
    let turn_in_die = match (&strip.turn_in_die, turn) {
        (Some(written), Some(turn)) => {
            turn_in_die_of_strip(&place.field("turn_in_die"), written, turn, desk).map(Some)
        }
        _ => Some(None),
    };
    if strip.date.as_ref().is_some_and(|date| !desk.date(&place.field("date"), date)) {
        return None;
    }
    let (length, legs, turn, turn_in_die) = (length?, legs?, turn?, turn_in_die?);
    let (metal, date) = (strip.metal.clone(), strip.date.clone());
    known.then_some(Strip { place, metal, length, legs, turn, turn_in_die, date })
}

/// A name that no metal has.
pub(super) fn unknown_metal(place: &Place, name: &str, file: &JobFile, desk: &mut Desk<'_>) {
    let known: Vec<&str> = file.metals.0.iter().map(|(name, _)| name.as_str()).collect();
    let remedy = remedy(name, &known, || match known[..] {
        [] => "describe it under \"metals\"".to_owned(),
        _ => format!("the metals are {}; or describe it under \"metals\"", list(known.iter().copied())),
    });
    desk.add(place, name, "the job has no metal of this name", remedy);
}
