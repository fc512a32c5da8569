//! Maps and labels of roll goods and wear liner.

use geometry::Point;
use job::{Job, JobCovering, JobLiner, LinedArea};
use nest::covering::PlacedPatch;
use paper::Page;
use paper::covering_map::{CoveringMap, Ground, MappedPiece, MappedSeam, draw};
use paper::layout_sheet::Fact;
use paper::packet::PieceLabel;
use units::Length;

use super::coverings::{
    FASTENING, buy_words, gap_words, liner_panel_words, named_panels, panel_words, roll_words, sheets_words,
};
use super::edition::label_head;
use crate::plan::{CutLiner, LaidCovering, Others, Panel, Paneled, Side, at_each_end, length_of};
use crate::speech::counted;

/// All maps: a roll each, then every lined face and every sheet of liner.
pub(super) fn maps(job: &Job, others: &Others) -> Vec<Page> {
    let rolls = others.coverings.iter().flat_map(|laid| {
        let count = laid.laid.rolls.len();
        (0..count).flat_map(move |number| roll_map(job, laid, number))
    });
    rolls.chain(others.liners.iter().flat_map(|cut| liner_maps(job, cut))).collect()
}

/// A label for every panel of roll goods and every panel of liner.
pub(super) fn labels(job: &Job, others: &Others) -> Vec<PieceLabel> {
    let rolls = others.coverings.iter().flat_map(|laid| {
        let covering = &job.coverings[laid.covering];
        laid.panels.iter().map(move |panel| panel_label(job, covering, panel))
    });
    rolls.chain(others.liners.iter().flat_map(|cut| liner_labels(job, cut))).collect()
}

fn mm(steps: i64) -> f64 {
    length_of(steps).millimetres()
}

/// "roll", or "roll 2 of 3".
fn which(what: &str, number: usize, count: usize) -> String {
    if count == 1 { what.to_owned() } else { format!("{what} {} of {count}", number + 1) }
}

/// Where the numbers over the maps come from.
const GIVEN: &str = "as the job gives it for the covering or the liner";
const BUY: &str =
    "what its pieces take as they are laid, in whole steps that it is sold by, at the prices of the job";
const LAID: &str = "pieces laid on it, counted";
const PANELS: &str = "the fewest equal panels that go on the sheet, each smaller than its share of the face by what it grows, rounded down to the tape";
const GROWTH: &str = "gap: what is left of its share beside the panel; growth: coefficient × length × rise in temperature from laying to the hottest";

fn fact(name: &str, value: String, origin: &str) -> Fact {
    Fact { name: name.to_owned(), value, origin: origin.to_owned(), ..Fact::default() }
}

fn roll_map(job: &Job, laid: &LaidCovering, number: usize) -> Vec<Page> {
    let covering = &job.coverings[laid.covering];
    let placed = &laid.laid.rolls[number];
    let pieces: Vec<MappedPiece> =
        placed.iter().map(|placed| roll_piece(job, covering, laid, *placed)).collect();
    let bought = laid.buy[number];
    let facts = [
        fact("roll", roll_words(job, covering), GIVEN),
        fact("buy", buy_words(job, laid), BUY),
        fact("this length", bought.print(job.style), BUY),
        fact("pieces on it", pieces.len().to_string(), LAID),
    ];
    let nap = if covering.nap { "Its nap runs away from you. " } else { "" };
    let square = if covering.squaring == Length::ZERO {
        String::new()
    } else {
        format!(
            "First square the end: of the length bought {} are counted for that and not drawn. ",
            covering.squaring.print_with_unit(job.style)
        )
    };
    let notes = [format!(
        "{square}The roll is seen from above, its face up, rolled out away from you. {nap}Numbers start at the squared end, and at the \
         left side once its strip is cut off. Sizes are along × across."
    )];
    // What is cut off to square the end lies before all numbers.
    let squared = bought - covering.squaring;
    let cuts = cuts_across(&pieces, squared.millimetres());
    draw(&CoveringMap {
        job: &job.name,
        name: &covering.name,
        title: &format!("Map of the {}", which("roll", number, laid.laid.rolls.len())),
        ground: Ground::Roll {
            selvedge_mm: covering.selvedge.millimetres(),
            cuts_mm: &cuts,
            nap: covering.nap,
        },
        width_mm: covering.usable().millimetres(),
        length_mm: squared.millimetres(),
        style: job.style,
        pieces: &pieces,
        facts: &facts,
        notes: &notes,
    })
}

/// Places along the roll where no piece is in the way of a cut right across it: behind pieces that end there.
fn cuts_across(pieces: &[MappedPiece], length_mm: f64) -> Vec<f64> {
    let play = geometry::tolerance::SCRIBED_LINE_MM;
    let mut ends: Vec<f64> = pieces.iter().map(|piece| piece.high.y).collect();
    ends.sort_by(f64::total_cmp);
    ends.dedup_by(|a, b| (*a - *b).abs() <= play);
    let is_free =
        |at: &f64| pieces.iter().all(|piece| *at <= piece.low.y + play || piece.high.y <= *at + play);
    ends.into_iter().filter(|at| *at + play < length_mm).filter(is_free).collect()
}

fn roll_piece(job: &Job, covering: &JobCovering, laid: &LaidCovering, placed: PlacedPatch) -> MappedPiece {
    let panel = &laid.panels[placed.patch];
    let [along, across] = if placed.turned { [panel.size[1], panel.size[0]] } else { panel.size };
    let low = Point::new(mm(placed.y), mm(placed.x));
    let high = Point::new(low.x + across.millimetres(), low.y + along.millimetres());
    MappedPiece {
        mark: panel_words(covering, panel),
        size: format!("{} × {}", along.print(job.style), across.print(job.style)),
        low,
        high,
        seams: seams(job, covering, panel, (low, high, placed.turned)),
    }
}

/// Its seams, with what lies past them to be cut through: on the right of all panels but the last, on the left of all but the
/// first. Of a panel turned a quarter to the left, the right side lies up the roll.
fn seams(
    job: &Job,
    covering: &JobCovering,
    panel: &Panel,
    (low, high, turned): (Point, Point, bool),
) -> Vec<MappedSeam> {
    let over = covering.seam_allowance.millimetres();
    let (number, count) = panel.number;
    let edge = match covering.seam_allowance {
        Length::ZERO => "seam at this edge".to_owned(),
        over => format!("seam {} from this edge", over.print(job.style)),
    };
    let seam = |which: usize, at: f64| {
        let (from, to) = if turned {
            (Point::new(low.x, low.y + at), Point::new(high.x, low.y + at))
        } else {
            (Point::new(low.x + at, low.y), Point::new(low.x + at, high.y))
        };
        let place = covering.pieces[panel.piece].seams.get(which)?;
        let words = format!("{edge} ({} from the left of the laid piece)", place.print(job.style));
        Some(MappedSeam { from, to, words })
    };
    let width = panel.size[1].millimetres();
    let left = (1 < number).then(|| seam(number.wrapping_sub(2), over)).flatten();
    let right = (number < count).then(|| seam(number - 1, width - over)).flatten();
    left.into_iter().chain(right).collect()
}

fn panel_label(job: &Job, covering: &JobCovering, panel: &Panel) -> PieceLabel {
    let piece = &covering.pieces[panel.piece];
    let print = |length: Length| length.print(job.style);
    let [along, across] = panel.size;
    let mut words = label_head(job);
    words.push(covering.name.clone());
    if covering.nap {
        words.push(format!("{} along the nap × {} across it", print(along), print(across)));
        words.push("nap up, running along the first size".to_owned());
    } else {
        words.push(format!("{} × {}", print(along), print(across)));
        words.push("face up; no nap, lies either way round".to_owned());
    }
    let (number, count) = panel.number;
    if 1 < count {
        let sides = match number {
            1 => "right side",
            last if last == count => "left side",
            _ => "both sides",
        };
        words.push(format!("seam on its {sides}, {} past it to cut through", print(covering.seam_allowance)));
    }
    words.extend(piece.lies_in.iter().map(|place| format!("lies in: {place}")));
    PieceLabel { mark: panel_words(covering, panel), words }
}

fn liner_maps(job: &Job, cut: &CutLiner) -> Vec<Page> {
    let liner = &job.liners[cut.liner];
    let faces = liner.areas.iter().zip(&cut.faces).flat_map(|(area, face)| face_map(job, liner, area, face));
    let count = cut.packing.sheets.len();
    let sheets = named_panels(job, cut).into_iter().enumerate();
    let sheets =
        sheets.flat_map(|(number, sheet)| liner_sheet(job, cut, sheet, &which("sheet", number, count)));
    faces.chain(sheets).collect()
}

/// The panels of a face where they are laid, with the gaps that they grow into.
fn face_map(job: &Job, liner: &JobLiner, area: &LinedArea, face: &Paneled) -> Vec<Page> {
    let print = |length: Length| length.print(job.style);
    let [along, across] = face.sides;
    let place = |side: &Side, number: i64| {
        let share = side.panel + side.gap;
        (at_each_end(side.gap) + share * number).millimetres()
    };
    let size = format!("{} × {}", print(along.panel), print(across.panel));
    let mut pieces = Vec::new();
    for row in 0..across.count {
        for column in 0..along.count {
            let low = Point::new(place(&along, column), place(&across, row));
            let high = Point::new(low.x + along.panel.millimetres(), low.y + across.panel.millimetres());
            let number = row * along.count + column + 1;
            // One face is drawn for all copies of it.
            let one = LinedArea { quantity: 1, ..area.clone() };
            let mark = liner_panel_words(&one, face, (1, number));
            pieces.push(MappedPiece { mark, size: size.clone(), low, high, seams: Vec::new() });
        }
    }
    let [length, width] = area.size;
    let facts = [
        fact("face", format!("{} × {}, {} of it", print(length), print(width), area.quantity), GIVEN),
        fact("panels", format!("{} × {}, each {size}", along.count, across.count), PANELS),
        fact("gaps along its length", gap_and_growth(job, &along), GROWTH),
        fact("gaps along its width", gap_and_growth(job, &across), GROWTH),
        fact("laid at", super::Numbers::of(job).temperature_words(liner.expansion.laid_at), GIVEN),
    ];
    let place = area.lies_in.iter().map(|place| format!("Lies in: {place}."));
    let notes: Vec<String> = place.chain([FASTENING.to_owned()]).collect();
    draw(&CoveringMap {
        job: &job.name,
        name: &area.mark,
        title: &format!("Panels on the face, {}", liner.name),
        ground: Ground::Face,
        width_mm: length.millimetres(),
        length_mm: width.millimetres(),
        style: job.style,
        pieces: &pieces,
        facts: &facts,
        notes: &notes,
    })
}

/// "1/4 between panels, 1/8 at each end; a panel grows 3/16".
fn gap_and_growth(job: &Job, side: &Side) -> String {
    format!("{}; a panel grows {}", gap_words(job, side, side.gap), side.growth.print(job.style))
}

fn liner_sheet(
    job: &Job,
    cut: &CutLiner,
    sheet: Vec<(nest::rect::Placed, String)>,
    which: &str,
) -> Vec<Page> {
    let liner = &job.liners[cut.liner];
    let piece = |(placed, mark): (nest::rect::Placed, String)| {
        let sides = cut.faces[placed.piece].sides.map(|side| side.panel);
        let [right, up] = if placed.turned { [sides[1], sides[0]] } else { sides };
        let low = Point::new(mm(placed.x), mm(placed.y));
        MappedPiece {
            mark,
            size: format!("{} × {}", right.print(job.style), up.print(job.style)),
            low,
            high: Point::new(low.x + right.millimetres(), low.y + up.millimetres()),
            seams: Vec::new(),
        }
    };
    let pieces: Vec<MappedPiece> = sheet.into_iter().map(piece).collect();
    let [long, short] = liner.sheet;
    let facts = [
        fact("sheet", format!("{} × {}", short.print(job.style), long.print(job.style)), GIVEN),
        fact("buy", sheets_words(job, liner, cut), BUY),
        fact("kerf", liner.kerf.print(job.style), GIVEN),
        fact("panels on it", counted(pieces.len(), "panel"), LAID),
    ];
    draw(&CoveringMap {
        job: &job.name,
        name: &liner.name,
        title: &format!("Map of the {which}"),
        ground: Ground::Sheet,
        width_mm: long.millimetres(),
        length_mm: short.millimetres(),
        style: job.style,
        pieces: &pieces,
        facts: &facts,
        notes: &[],
    })
}

fn liner_labels(job: &Job, cut: &CutLiner) -> Vec<PieceLabel> {
    let liner = &job.liners[cut.liner];
    let faces = liner.areas.iter().zip(&cut.faces);
    faces.flat_map(|(area, face)| face_labels(job, liner, area, face)).collect()
}

/// A label for every panel of every copy of a face.
fn face_labels(job: &Job, liner: &JobLiner, area: &LinedArea, face: &Paneled) -> Vec<PieceLabel> {
    let [along, across] = face.sides;
    let mut words = label_head(job);
    words.push(liner.name.clone());
    words.push(format!(
        "{} along the face's length × {} along its width",
        along.panel.print(job.style),
        across.panel.print(job.style)
    ));
    words.push(format!("gaps along its length: {}", gap_and_growth(job, &along)));
    words.push(format!("gaps along its width: {}", gap_and_growth(job, &across)));
    words.push("either face up, unless its maker says which wears".to_owned());
    words.push("fasten at its middle only, slots elsewhere".to_owned());
    words.extend(area.lies_in.iter().map(|place| format!("lies in: {place}")));
    let panels = |copy: u32| (1..=along.count * across.count).map(move |panel| (copy, panel));
    let label =
        |which: (u32, i64)| PieceLabel { mark: liner_panel_words(area, face, which), words: words.clone() };
    (1..=area.quantity).flat_map(panels).map(label).collect()
}
