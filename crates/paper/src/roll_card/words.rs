//! The sentences of a roll card.

use units::{Length, LengthStyle};

use super::{Check, RollCard};
use crate::drawing::unit_mark;

/// Where the numbers come from.
pub(super) const METAL: &str = "the job's metal";
pub(super) const DIAMETERS: &str =
    "the ring as it is developed: middle of the plate, less or more half the thickness";
pub(super) const CHECKS: &str = "rise = R − √(R² − chord²/4), R the inside radius (plane geometry)";
pub(super) const GIRTHS: &str = "π × the outside diameter";
pub(super) const FLAT_ENDS: &str = "1 1/4 of the least inside radius that the shop gives for its roll: half the way to the rear roll \
                                    (common practice, no source)";

pub(super) const CAUTIONS: [&str; 2] = [
    "Rolls draw in fingers, gloves and sleeves: keep hands off the sheet near the pinch, the stop within reach, and follow the \
     machine's guards and your local rules.",
    "A ring held closed is a spring: clamp both ends of its seam before you tack, and keep your face out of its way.",
];

/// Inside diameter under which a ring is told to be small for a slip roll, mm: 3 in (common practice, no source).
const SMALL_RING_MM: f64 = 76.2;

/// Said of such a ring.
const SMALL_RING: &str = "a ring this small goes about few top rolls: measure yours first. Where it does not, form the ring over a bar \
                          or pipe somewhat thinner than its inside, by the same numbers (common practice, no source)";

/// "inside diameter", "10"; of a cone both ends.
pub(super) fn diameters(card: &RollCard<'_>) -> Vec<(String, String)> {
    let print = |mm: f64| Length::from_millimetres(mm).print(card.style);
    let of = |what: &str, sizes: &[f64]| match sizes {
        [small, large] => vec![
            (format!("{what} diameter, small end"), print(*small)),
            (format!("{what} diameter, large end"), print(*large)),
        ],
        sizes => sizes.iter().map(|size| (format!("{what} diameter"), print(*size))).collect(),
    };
    let ring = card.ring;
    of("inside", &ring.inside_mm).into_iter().chain(of("outside", &ring.outside_mm)).collect()
}

/// What is done, in its order.
pub(super) fn steps(card: &RollCard<'_>) -> Vec<(String, &'static str)> {
    let ring = card.ring;
    let mut steps: Vec<(String, &'static str)> = Vec::new();
    if let Some(outward) = ring.lap_outward {
        let way = if outward { "outward" } else { "inward" };
        steps.push((
            format!(
                "set the joggle of the seam on the brake first, while the sheet is flat: its lines are on the layout sheet, and its \
                 strip steps {way}. NOT TRIED on any machine: it needs joggle dies, or packing set out by trial"
            ),
            "",
        ));
    }
    if ring.inside_mm.iter().any(|inside| *inside < SMALL_RING_MM) {
        steps.push((SMALL_RING.to_owned(), ""));
    }
    steps.push((pre_bend(card), FLAT_ENDS));
    steps.push((laid_in(card), ""));
    steps.push((passes(card), ""));
    steps.push((by_straightedge(card), CHECKS));
    steps.push((closing(card), ""));
    steps.push((by_tape(card), GIRTHS));
    steps
}

fn pre_bend(card: &RollCard<'_>) -> String {
    let to = match card.ring.lap_outward {
        None => "both ends",
        Some(_) => "the plain end, and the metal beside the joggle,",
    };
    let how = "with a few light strikes on the brake, or with a mallet over a pipe, to the straightedge numbers below";
    let Some(flat) = card.ring.flat_end else {
        return format!(
            "before rolling bend {to} {how}: a three-roll machine leaves about half the way from its pinch to its rear roll flat at \
             either end (common practice, no source). The shop's roll is not given: roll an offcut, measure what stays flat on it, \
             and bend that much"
        );
    };
    let about = about(flat.millimetres(), card.style);
    format!(
        "before rolling bend {to} over about {about} {how}: so much stays flat, half the way from the pinch to the rear roll, if the \
         rolls are as thick as the roll's least inside radius tells (common practice, no source). Roll an offcut and measure it"
    )
}

/// Which edge goes in first, and which face lies up.
fn laid_in(card: &RollCard<'_>) -> String {
    let ring = card.ring;
    let [first, last] = &ring.ends;
    let face = if ring.marked_outside { "down" } else { "up" };
    let why =
        if ring.marked_outside { "the marked face is the outside" } else { "the marked face is the inside" };
    let edge = match ring.lap_outward {
        None => format!("the edge of {first} first; {last}, at the other end, would do as well"),
        Some(_) => format!(
            "the plain edge, of {first}, first: the joggle at the other end would be pressed flat in the pinch"
        ),
    };
    let lines = match (ring.cone.is_some(), ring.sloped) {
        (true, _) => {
            "that edge, which is an element line, in the pinch; the curved edges then lie askew to the rolls"
        }
        (false, true) => {
            "its straight seam edge along the rolls, never a curved end, and the element lines in line with them"
        }
        (false, false) => "its edge in line with the rolls all along",
    };
    format!(
        "into the roll, marked face {face} ({why}, and the sheet turns up): {edge}. Lay it in with {lines}"
    )
}

/// How it goes round.
fn passes(card: &RollCard<'_>) -> String {
    let ring = card.ring;
    let lines = ring.lines;
    let stop = match ring.lap_outward {
        None => "",
        Some(_) => {
            ". Stop each pass before the joggle is in the pinch, and form what is left beside it over a pipe"
        }
    };
    if ring.cone.is_some() {
        return format!(
            "in several passes, the rear roll set on a slant, nearer at the small end. The small end must lag: hold it back at the end \
             of the rolls, and turn the sheet so that each of the {lines} element lines lies in the pinch as it comes there \
             (common practice, no source){stop}"
        );
    }
    format!(
        "in several passes, the rear roll up a little before each and by the same at both ends. Sight along the {lines} element lines: one \
         that is not in line with the rolls says that the sheet runs off{stop}"
    )
}

/// The chord and rise of every end.
fn by_straightedge(card: &RollCard<'_>) -> String {
    let unit = unit_mark(card.style);
    let print = |mm: f64| Length::from_millimetres(mm).print(card.style);
    let one = |check: &Check| {
        let end = if check.end.is_empty() { String::new() } else { format!("at the {}, ", check.end) };
        format!(
            "{end}a straightedge {} {unit} long, its middle {} {unit} off the metal",
            print(check.chord_mm),
            print(check.rise_mm)
        )
    };
    let checks: Vec<String> = card.ring.checks.iter().map(one).collect();
    let square = if card.ring.cone.is_some() {
        "square to the axis, against the inside edge of the end"
    } else {
        "square to the element lines, against the inside"
    };
    format!(
        "after each pass, and all the way round when done, {square}: {}. Less off is too open, more is too tight: a ring rolled too \
         tight is opened again by hand only",
        checks.join("; ")
    )
}

fn closing(card: &RollCard<'_>) -> String {
    let off = "a closed ring comes off only where the top roll swings out at one end: with any other, stop while the gap is wider than \
               the top roll is thick, and close it by hand";
    let seam = match card.ring.lap_outward {
        None => "bring the edges together level inside and outside",
        Some(true) => "lay the strip over the plain edge, so that the inside is even",
        Some(false) => "lay the strip under the plain edge, so that the outside is even",
    };
    format!("{off}; {seam}, clamp and tack")
}

/// What a tape reads round the outside.
fn by_tape(card: &RollCard<'_>) -> String {
    let unit = unit_mark(card.style);
    let ring = card.ring;
    let names: &[&str] = if ring.cone.is_some() { &["small end ", "large end "] } else { &[""] };
    let one = |(girth_mm, name): (&f64, &&str)| {
        let girth = Length::from_millimetres(*girth_mm).print(card.style);
        format!("{name}{girth} {unit}")
    };
    let girths: Vec<String> = ring.girths_mm.iter().zip(names).map(one).collect();
    let lap =
        if ring.lap_outward == Some(true) { ", beside the lap's strip read more by its step" } else { "" };
    let where_to = if ring.cone.is_some() { "at the very edge of each end" } else { "square to the axis" };
    format!(
        "then a tape round the outside {where_to} reads {}{lap}, and two diameters square to one another are alike",
        girths.join(", ")
    )
}

/// "1 1/2 in": to a quarter of an inch, or five millimetres.
fn about(mm: f64, style: LengthStyle) -> String {
    let step_mm = if style.unit() == units::LengthUnit::Millimetre { 5.0 } else { 25.4 / 4.0 };
    let length = Length::from_millimetres((mm / step_mm).round().max(1.0) * step_mm);
    format!("{} {}", length.print(style), unit_mark(style))
}
