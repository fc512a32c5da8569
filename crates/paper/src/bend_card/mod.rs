//! The bend card: how one part goes through the brake, stroke by stroke, in side views.
//!
//! Every stroke has two pictures of one scale: the part laid in, and the part bent. The metal where it is cut across
//! the bend is black, what lies beyond it grey, the machine a thin outline. The words beside them say which side lies
//! up, what lies against the stop and how far from the bend line.

mod picture;
mod strikes;
mod words;

use fold::order::{BendOrder, Hindered, Needs, TALL_PUNCH_MM};
use fold::{FlatPattern, Forming};
use geometry::{Point, Vector};
use units::{Length, LengthStyle};

use crate::drawing::block::Block;
use crate::drawing::{self, unit_words, which};
use crate::layout_sheet::{Fact, TAPE_FROM};
use crate::page::font::Weight;
use crate::page::{Item, Page};
use picture::{DrawnStop, Shown, Window};

/// Height of ordinary text on a card, mm: the card prints at its own size.
const TEXT_MM: f64 = 3.0;

/// Width and height of one picture, mm.
const PICTURE_MM: (f64, f64) = (44.0, 40.0);

/// Width of one stroke's cell, mm: two pictures and the room between.
const CELL_MM: f64 = 94.0;

/// Cells side by side.
const COLUMNS: usize = 2;

/// Height of a page that still prints readable on letter paper, mm.
const HEIGHT_MM: f64 = 282.0;

/// Said on every card of a press brake.
const PRESS_CAUTION: &str = "Brakes crush hands: keep clear of punch and die, and of the swinging sheet, and follow the \
                             machine's guards and your local rules.";

/// Said on every card of a folder.
const FOLDER_CAUTION: &str = "Folders crush hands: keep clear of clamp and leaf, and of the swinging sheet, and follow the \
                              machine's guards and your local rules.";

/// Said under pictures of which one has something dashed in it.
const DASHED: &str = "Dashed is what of the machine is in the way by a size that nobody gave.";

/// Said under strokes that meet sizes that are only assumed.
const ASSUMED: &str = "Sizes of the shop's brake are assumed; no order is clear of every one of them, and this one meets the \
                       fewest. Look at the machine first, or try it with a paper model.";

/// The same where an order that meets fewer is not ruled out.
const ASSUMED_SOME: &str = "Sizes of the shop's brake are assumed; no order is clear of every one of them. With so many bends not \
                            every order could be tried, and another may meet fewer. Look at the machine first, or try it with a \
                            paper model.";

/// Said under strokes of which one goes by its line while the marked face lies down.
const BLIND: &str = "Where a bend goes by its line with the marked face down, the line is underneath: carry it round both edges \
                     and onto the other face first.";

/// Said under strokes of which one needs a taller one.
const TALL: &str =
    "Few presses open for a punch that tall: where yours does not, weld a seam in place of a bend.";

/// All that a bend card shows.
#[derive(Debug, Clone, Copy)]
pub struct BendCard<'a> {
    /// Name of the job.
    pub job: &'a str,
    /// Mark of the part.
    pub mark: &'a str,
    /// What it is, in words.
    pub title: &'a str,
    /// The metal, in words.
    pub metal: &'a str,
    /// How many to make.
    pub quantity: u32,
    /// The machine, in words.
    pub machine: &'a str,
    /// The V die of a press brake and who chose it, in words; none on a folder.
    pub die: Option<&'a str>,
    /// True for a press brake, where both sides rise; false where one side is clamped.
    pub press: bool,
    /// Width of that die's mouth, or of the one that the chart gives.
    pub v_opening: Option<Length>,
    /// The flat as the machine bends it, every strike of a bumped face a bend.
    pub flat: &'a FlatPattern,
    /// The flat that is cut.
    pub cut: &'a FlatPattern,
    /// The order.
    pub order: &'a BendOrder,
    /// More words to a bend, such as how far to overbend, by its number in the flat; empty for none.
    pub remarks: &'a [String],
    /// What to take care of at a bend, such as a leg too short for the V, by its number in the flat; empty for none.
    pub cautions: &'a [String],
    /// How lengths are printed.
    pub style: LengthStyle,
}

/// The sentences of one step, as on the card: first what is bent, then how the part lies, the stop, the tooling.
#[must_use]
pub fn step_words(card: &BendCard<'_>, step: usize) -> Vec<String> {
    words::step(card, step).into_iter().map(|sentence| sentence.words).collect()
}

/// Draws the card of one part, on as many pages as keep its text readable.
#[must_use]
pub fn draw(card: &BendCard<'_>) -> Vec<Page> {
    let window = Window::about(&card.order.steps);
    let numbers: Vec<usize> = (0..card.order.steps.len()).collect();
    let width = CELL_MM * if numbers.len() < COLUMNS { 1.0 } else { 2.0 };
    let taken = heading(card, width, "").foot_mm + foot(card, width, &numbers).foot_mm;
    let mut rows: Vec<Vec<Row>> = Vec::new();
    let mut left = 0.0;
    for steps in numbers.chunks(COLUMNS) {
        let row = row(card, steps, &window);
        let height = row.height_mm + 1.5 * TEXT_MM;
        match rows.last_mut() {
            Some(page) if height <= left => page.push(row),
            _ => {
                rows.push(vec![row]);
                left = HEIGHT_MM + taken;
            }
        }
        left -= height;
    }
    let count = rows.len();
    let pages = rows.iter().enumerate();
    pages.map(|(number, rows)| page(card, rows, width, &which("page", number + 1, count))).collect()
}

/// One page of the card.
fn page(card: &BendCard<'_>, rows: &[Row], width_mm: f64, which: &str) -> Page {
    let mut items = Vec::new();
    let mut head = 0.0;
    for row in rows {
        items.extend(row.items.iter().map(|item| item.moved(Vector::new(0.0, head))));
        head -= row.height_mm + 1.5 * TEXT_MM;
    }
    let title = format!("{}: {}: bend card{which}", card.job, card.mark);
    let steps: Vec<usize> = rows.iter().flat_map(|row| row.steps.iter().copied()).collect();
    drawing::assemble(title, items, heading(card, width_mm, which), foot(card, width_mm, &steps), TEXT_MM)
}

/// Strokes side by side, their heads at height 0.
struct Row {
    steps: Vec<usize>,
    items: Vec<Item>,
    height_mm: f64,
}

fn row(card: &BendCard<'_>, steps: &[usize], window: &Window) -> Row {
    let mut row = Row { steps: steps.to_vec(), items: Vec::new(), height_mm: 0.0 };
    let mut left = 0.0;
    for &step in steps {
        let (cell, foot) = cell(card, step, window, Point::new(left, 0.0));
        row.items.push(Item::group(format!("step {}", step + 1), cell));
        row.height_mm = row.height_mm.max(-foot);
        left += CELL_MM;
    }
    row
}

/// One stroke: its words over its two pictures. Gives the items and their foot.
fn cell(card: &BendCard<'_>, number: usize, window: &Window, corner: Point) -> (Vec<Item>, f64) {
    let step = &card.order.steps[number];
    let mut block = Block::new(corner.x, CELL_MM - 2.0 * TEXT_MM);
    block.foot_mm = corner.y;
    let sentences = words::step(card, number);
    for (place, sentence) in sentences.iter().enumerate() {
        let (weight, lead) = if place == 0 {
            (Weight::Bold, format!("{}", number + 1))
        } else {
            (Weight::Regular, "–".to_owned())
        };
        let size_mm = if place == 0 { 1.1 * TEXT_MM } else { 0.95 * TEXT_MM };
        block.paragraph_from((&sentence.words, sentence.from), weight, size_mm, &lead);
    }
    block.skip(0.8 * TEXT_MM);
    let mut items = block.items;
    let (wide, high) = PICTURE_MM;
    let top = block.foot_mm - picture::CAPTION_MM;
    let whole: Vec<&str> = card.flat.faces.iter().map(|face| face.name.as_str()).collect();
    let names = picture::names(&whole);
    let stop = drawn_stop(card, number);
    let captions = if step.by_hand { ["off the brake", "closed"] } else { ["laid in", "bent"] };
    for (place, (view, caption)) in [&step.before, &step.after].into_iter().zip(captions).enumerate() {
        let left = if place == 0 { corner.x } else { corner.x + wide + 0.5 * TEXT_MM };
        let stop = if place == 0 { stop.as_ref() } else { None };
        let shown = Shown { view, caption, names: &names, stop };
        items.extend(picture::items(&shown, window, Point::new(left, top - high)));
    }
    (items, top - high)
}

/// The stop of a step as it is drawn.
fn drawn_stop(card: &BendCard<'_>, number: usize) -> Option<DrawnStop> {
    let step = &card.order.steps[number];
    let stop = step.stop.filter(|_| step.tooling.is_some())?;
    Some(DrawnStop {
        distance_mm: stop.distance.millimetres(),
        height_mm: stop.raised.unwrap_or(Length::ZERO).millimetres(),
        words: stop.distance.print(card.style),
    })
}

fn heading(card: &BendCard<'_>, width_mm: f64, which: &str) -> Block {
    let mut block = Block::new(0.0, width_mm);
    let job = format!("{}: make {}", card.job, card.quantity);
    block.title(card.mark, &format!("Bend card{which}: {}", card.title), &job, TEXT_MM);
    let order = card.order;
    let fact = |name: &str, value: String, origin: &str| Fact {
        name: name.to_owned(),
        value,
        origin: origin.to_owned(),
        ..Fact::default()
    };
    let mut facts =
        vec![fact("metal", card.metal.to_owned(), METAL), fact("on", card.machine.to_owned(), MACHINE)];
    facts.extend(card.die.map(|die| fact("die", die.to_owned(), DIE)));
    facts.extend([
        fact("strokes", order.steps.iter().filter(|step| !step.by_hand).count().to_string(), STROKES),
        fact("turned over", times(order.turn_overs), STROKES),
        fact("turned round", times(order.turn_rounds), STROKES),
        fact("numbers in", unit_words(card.style), TAPE_FROM),
    ]);
    facts.extend(card.flat.bends.iter().filter(|bend| bend.forming == Forming::Sprung).map(|bend| {
        let off = Length::from_millimetres(card.flat.off_plane_mm(bend)).print(card.style);
        let face = &card.flat.faces[bend.child].name;
        fact("not bent", format!("{face}: sprung by hand by {off} as the part is closed"), STROKES)
    }));
    block.ruled_facts(&facts, TEXT_MM);
    block
}

/// Where the numbers over a card come from.
const METAL: &str = "the job's metal";
const MACHINE: &str = "the shop's machine in the job";
const DIE: &str = "the shop's own dies in the job; where it names none, so many thicknesses of the sheet by the published chart of dies";
const STROKES: &str = "counted in the order of bends, found by trying orders on the machine";

/// Where the numbers of bend cards come from, by what they are.
pub(crate) fn origins() -> impl Iterator<Item = (&'static str, &'static str)> {
    [
        ("metal", METAL),
        ("machine", MACHINE),
        ("die", DIE),
        ("strokes, turned over, turned round, not bent", STROKES),
    ]
    .into_iter()
    .chain(words::STROKE_ORIGINS)
}

fn times(count: usize) -> String {
    match count {
        0 => "never".to_owned(),
        1 => "once".to_owned(),
        count => format!("{count} times"),
    }
}

/// What is said under some strokes: what holds of all cards, and each note that is about one of these.
fn foot(card: &BendCard<'_>, width_mm: f64, numbers: &[usize]) -> Block {
    let mut block = Block::new(0.0, width_mm);
    block.rule();
    let window = Window::about(&card.order.steps);
    let stops: Vec<DrawnStop> = numbers.iter().filter_map(|&number| drawn_stop(card, number)).collect();
    let stop = match (
        stops.iter().any(|stop| window.shows_stop(stop)),
        stops.iter().any(|stop| !window.shows_stop(stop)),
    ) {
        (true, true) => {
            ", the small black block is the back stop; < before it says that it stands left of the picture"
        }
        (true, false) => ", the small black block is the back stop",
        (false, true) => ", a back stop with < before it stands left of the picture",
        (false, false) => "",
    };
    let legend = format!(
        "Side views at one scale, the back of the machine on the left: black is the metal cut across the bend, grey is metal \
         beyond, the thin outline is the machine{stop}. Letters stand at the ends of the faces that are cut."
    );
    block.paragraph(&legend, Weight::Regular, 0.95 * TEXT_MM, "");
    let caution = if card.press { PRESS_CAUTION } else { FOLDER_CAUTION };
    block.paragraph(caution, Weight::Bold, 0.95 * TEXT_MM, "!");
    let steps = || numbers.iter().map(|&number| &card.order.steps[number]);
    if steps().any(words::is_blind) {
        block.paragraph(BLIND, Weight::Regular, 0.95 * TEXT_MM, "–");
    }
    if steps().any(|step| [&step.before, &step.after].iter().any(|view| !view.in_the_way.is_empty())) {
        block.paragraph(DASHED, Weight::Regular, 0.95 * TEXT_MM, "–");
    }
    for caution in strikes::cautions(card, numbers) {
        block.paragraph_from((&caution, words::STRIKES), Weight::Regular, 0.95 * TEXT_MM, "–");
    }
    let hindered = || steps().flat_map(|step| &step.with_assumed);
    if hindered().next().is_some() {
        let words = if card.order.is_best { ASSUMED } else { ASSUMED_SOME };
        block.paragraph(words, Weight::Regular, 0.95 * TEXT_MM, "–");
    }
    let tall = |hindered: &Hindered| matches!(hindered.needs, Some(Needs::PunchHeight(height)) if TALL_PUNCH_MM < height.millimetres());
    if hindered().any(tall) {
        block.paragraph(TALL, Weight::Regular, 0.95 * TEXT_MM, "–");
    }
    block
}
