//! Roll goods and wear liner, for the bench and as JSON.

use job::{Job, JobCovering, JobLiner, LinedArea};
use nest::covering::PlacedPatch;
use paper::lists::passages::{Column, Passage, in_text, sheet};
use paper::packet::copy_words;
use units::{Area, Length, LengthUnit, rounding};

use super::numbers::Numbers;
use super::soft_goods;
use crate::plan::{CutLiner, LaidCovering, Others, Panel, Paneled, Side, at_each_end, length_of};
use crate::speech::{counted, listed};

/// Said once with the lists.
const CAUTION: &str = "Measure the place again before cutting: a floor is seldom square. Cut soft goods with a hooked blade, away from \
                       yourself.";

/// Said of a roll good of which nothing is counted for it.
const NO_SQUARING: &str = "Nothing is counted for squaring the end of a roll: order on top what that takes, with a pattern up to its next start.";

/// Said of every liner.
pub(super) const FASTENING: &str = "Fasten a panel at its middle only; every other hole is a slot or larger than its screw by the growth, or the panel buckles.";

/// All roll goods and liners of a job, as text.
pub(crate) fn coverings_text(job: &Job, others: &Others) -> String {
    if others.coverings.is_empty() && others.liners.is_empty() {
        return "The job names no coverings and no liners.".to_owned();
    }
    let mut passages = coverings_passages(job, others);
    // Ahead of the caution. In a packet this list stands beside the cut list.
    let caution = passages.pop();
    passages.extend(soft_goods::list(job, others).into_iter().chain(caution));
    in_text(&passages)
}

/// All roll goods and liners of a job: words, and tables of what is cut where.
pub(crate) fn coverings_passages(job: &Job, others: &Others) -> Vec<Passage> {
    let Others { coverings, liners } = others;
    let mut passages: Vec<Passage> = coverings.iter().flat_map(|laid| covering_passages(job, laid)).collect();
    passages.extend(liners.iter().flat_map(|cut| liner_passages(job, cut)));
    passages.push(Passage::Words(CAUTION.to_owned()));
    passages
}

/// A line each to buy: what, and how it is bought.
pub(crate) fn coverings_to_buy(job: &Job, others: &Others) -> Vec<(String, String)> {
    let rolls = others.coverings.iter().map(|laid| {
        let covering = &job.coverings[laid.covering];
        let how = format!("{}; {}", buy_words(job, laid), area_words(job, laid));
        (format!("{}, {} wide", covering.name, covering.width.print(job.style)), how)
    });
    let sheets = others.liners.iter().map(|cut| {
        let liner = &job.liners[cut.liner];
        (liner.name.clone(), sheets_words(job, liner, cut))
    });
    rolls.chain(sheets).collect()
}

fn covering_passages(job: &Job, laid: &LaidCovering) -> Vec<Passage> {
    let covering = &job.coverings[laid.covering];
    let mut passages = vec![
        Passage::Heading(format!("Covering: {}\n", covering.name)),
        Passage::Words(format!("{}\nBuy {}\n", roll_words(job, covering), buy_words(job, laid))),
    ];
    let rolls = laid.laid.rolls.len();
    for (number, roll) in laid.laid.rolls.iter().enumerate() {
        let which = if rolls == 1 { String::new() } else { format!(" {} of {rolls}", number + 1) };
        passages.push(Passage::Words(format!(
            "\nRoll{which}: places are measured along from its squared end, and across from its {}\n",
            left_edge(covering)
        )));
        let mut placed: Vec<PlacedPatch> = roll.clone();
        placed.sort_by_key(|placed| (placed.x, placed.y));
        passages.push(roll_table(job, laid, &placed));
        let seams = placed.iter().filter_map(|placed| seam_words(job, covering, &laid.panels[placed.patch]));
        passages.push(Passage::Words(seams.collect()));
    }
    passages.push(Passage::Words(format!(
        "\nArea, {}\n{}\n{}\n\n",
        area_words(job, laid),
        waste_words(job, laid),
        squaring_words(job, covering)
    )));
    passages
}

/// What is counted for squaring the ends of rolls.
fn squaring_words(job: &Job, covering: &JobCovering) -> String {
    if covering.squaring == Length::ZERO {
        return NO_SQUARING.to_owned();
    }
    let which = if covering.repeat.is_some() { ", up to the next start of the pattern" } else { "" };
    format!(
        "{} of every length is counted for squaring its end{which}: cut that off first, and measure from there. Where it takes more, \
         order that on top.",
        covering.squaring.print_with_unit(job.style)
    )
}

/// "left trimmed edge, the nap running away from you".
fn left_edge(covering: &JobCovering) -> String {
    let trimmed = if covering.selvedge == Length::ZERO { "" } else { "trimmed " };
    let nap = if covering.nap { ", the nap running away from you" } else { "" };
    format!("left {trimmed}edge{nap}")
}

/// What is cut from one roll, in its order along it.
fn roll_table(job: &Job, laid: &LaidCovering, placed: &[PlacedPatch]) -> Passage {
    let covering = &job.coverings[laid.covering];
    let print = |length: Length| length.print(job.style);
    let laid_out = "the layout of the roll, verified before it is printed";
    let size =
        |which: &str| format!("size of the piece in the job (coverings of {}), {which}", covering.name);
    let columns = vec![
        Column::numbers("cut", "counted along the roll"),
        Column::words("mark"),
        Column::numbers("at, along", laid_out),
        Column::numbers("at, across", laid_out),
        Column::numbers("size along", size("along the nap")),
        Column::numbers(
            "size across",
            size("across it; a panel's between its seams, with what lies past them"),
        ),
        Column::words(""),
    ];
    let row = |(step, placed): (usize, &PlacedPatch)| {
        let panel = &laid.panels[placed.patch];
        let [along, across] = if placed.turned { [panel.size[1], panel.size[0]] } else { panel.size };
        vec![
            (step + 1).to_string(),
            panel_words(covering, panel),
            print(length_of(placed.x)),
            print(length_of(placed.y)),
            print(along),
            print(across),
            if placed.turned { "turned a quarter".to_owned() } else { String::new() },
        ]
    };
    sheet(columns, placed.iter().enumerate().map(row).collect(), None)
}

/// "72 wide, 1/2 cut off each side; the nap runs along every piece; pattern 18 along, 24 across".
pub(super) fn roll_words(job: &Job, covering: &JobCovering) -> String {
    let print = |length: Length| length.print(job.style);
    let mut words = vec![format!("{} wide", print(covering.width))];
    if covering.selvedge != Length::ZERO {
        words.push(format!("{} cut off each side", print(covering.selvedge)));
    }
    if covering.squaring != Length::ZERO {
        words.push(format!("{} cut off the end of every length to square it", print(covering.squaring)));
    }
    words.push(if covering.nap {
        "the nap of every piece runs along the roll".to_owned()
    } else {
        "no nap: pieces may be turned".to_owned()
    });
    if let Some(repeat) = covering.repeat {
        words.push(format!("every piece starts where a pattern of {} starts", print(repeat)));
    }
    if let Some(repeat) = covering.repeat_across {
        words.push(format!("panels meet in the pattern, {} across", print(repeat)));
    }
    words.join("; ")
}

/// "1 length of 252 in: 205.80".
fn lengths_words(job: &Job, laid: &LaidCovering) -> String {
    let lengths: Vec<String> = laid.buy.iter().map(|length| length.print_with_unit(job.style)).collect();
    let count = counted(lengths.len(), "length");
    let cost = laid.price(job).map_or_else(|| "no price".to_owned(), units::Money::print);
    format!("{count} of {}: {cost}", listed(&lengths))
}

pub(super) fn buy_words(job: &Job, laid: &LaidCovering) -> String {
    let print = |steps: i64| length_of(steps).print_with_unit(job.style);
    let used = laid.laid.length();
    let proof = if laid.laid.is_proved() {
        "proved least".to_owned()
    } else {
        format!("less than {} is excluded", print(laid.laid.least))
    };
    let rolls = match laid.laid.rolls.len() {
        1 => String::new(),
        rolls => format!(" for {rolls} lengths"),
    };
    let panels = if laid.has_other_seams(job) {
        " for these panels: other seams that are allowed are not looked at"
    } else {
        ""
    };
    let to_buy = if laid.may_buy_less(job) {
        "; less to buy, otherwise divided among the lengths, is not excluded"
    } else {
        ""
    };
    format!("{}; used {}, {proof}{rolls}{panels}{to_buy}", lengths_words(job, laid), print(used))
}

/// "M1 no. 1 of 2, panel 1 of 2 from the left".
pub(super) fn panel_words(covering: &JobCovering, panel: &Panel) -> String {
    let piece = &covering.pieces[panel.piece];
    let copy = copy_words(panel.copy, piece.quantity);
    let (number, count) = panel.number;
    let of = if count == 1 { String::new() } else { format!(", panel {number} of {count} from the left") };
    format!("{}{copy}{of}", piece.mark)
}

/// "M1, panel 1 of 2 from the left: its right seam lies 40 from the left side of the piece, 1 past it to cut through".
fn seam_words(job: &Job, covering: &JobCovering, panel: &Panel) -> Option<String> {
    let (number, _) = panel.number;
    let seam = covering.pieces[panel.piece].seams.get(number - 1)?;
    let over = if covering.seam_allowance == Length::ZERO {
        String::new()
    } else {
        format!(", {} past it on both panels to cut through", covering.seam_allowance.print(job.style))
    };
    let (panel, seam) = (panel_words(covering, panel), seam.print(job.style));
    Some(format!("{panel}: its right seam lies {seam} from the left side of the piece{over}\n"))
}

fn area_words(job: &Job, laid: &LaidCovering) -> String {
    let (name, [bought, pieces, allowance, selvedge, squaring, starts, ends, between]) =
        thousandths(job, laid);
    let [bought, pieces, allowance, selvedge, squaring, waste] =
        [bought, pieces, allowance, selvedge, squaring, starts + ends + between].map(three_decimals);
    let is_squared = job.coverings[laid.covering].squaring != Length::ZERO;
    let squaring = if is_squared { format!(" + {squaring} squaring the ends") } else { String::new() };
    format!(
        "{name}: {bought} bought = {pieces} pieces + {allowance} for seams + {selvedge} off the sides{squaring} + {waste} waste"
    )
}

/// "Waste, sq ft: 9.188 = 4.375 up to the next start of the pattern + 1.000 past the last piece + 3.813 beside and between pieces".
fn waste_words(job: &Job, laid: &LaidCovering) -> String {
    let (name, [.., starts, ends, between]) = thousandths(job, laid);
    let patterned = job.coverings[laid.covering].repeat.is_some();
    let [waste, starts, ends, between] = [starts + ends + between, starts, ends, between].map(three_decimals);
    let starts =
        if patterned { format!("{starts} up to the next start of the pattern + ") } else { String::new() };
    format!(
        "Waste, {name}: {waste} = {starts}{ends} past the last piece + {between} beside and between pieces"
    )
}

fn three_decimals(count: i128) -> String {
    format!("{}.{:03}", count / 1000, count % 1000)
}

/// The name of the unit; bought, and what becomes of it, in thousandths.
fn thousandths(job: &Job, laid: &LaidCovering) -> (&'static str, [i128; 8]) {
    let (name, _) = Numbers::of(job).other_units();
    let areas = &laid.areas;
    let shares =
        [areas.pieces, areas.allowance, areas.selvedge, areas.squaring, areas.at_starts, areas.at_ends];
    (name, rounded_shares(job, areas.bought, shares))
}

/// Thousandths of a square foot or metre that add up as printed: what is left takes the rounding.
fn rounded_shares(job: &Job, bought: Area, shares: [Area; 6]) -> [i128; 8] {
    // Square nanometres to a thousandth of the unit.
    let unit: i128 = match job.unit {
        LengthUnit::Inch => 304_800_000 * 304_800_000 / 1000,
        LengthUnit::Millimetre => 1_000_000_000 * 1_000_000_000 / 1000,
    };
    let round = |area: Area| rounding::divide(area.square_nanometres(), unit).unwrap_or(0);
    let [pieces, allowance, selvedge, squaring, starts, ends] = shares.map(round);
    let told = pieces + allowance + selvedge + squaring + starts + ends;
    // Never below nothing, where the others are rounded up.
    let bought = round(bought).max(told);
    [bought, pieces, allowance, selvedge, squaring, starts, ends, bought - told]
}

fn liner_passages(job: &Job, cut: &CutLiner) -> Vec<Passage> {
    let liner = &job.liners[cut.liner];
    let expansion = &liner.expansion;
    let degrees = |temperature: units::Temperature| Numbers::of(job).temperature_words(temperature);
    let mut text = format!(
        "It grows by {} millionths of its length for a degree Celsius ({}). Laid at {}, from {} to {}.\n\n",
        millionths(expansion.billionths_per_kelvin),
        expansion.source,
        degrees(expansion.laid_at),
        degrees(expansion.coldest),
        degrees(expansion.warmest)
    );
    for (area, face) in liner.areas.iter().zip(&cut.faces) {
        text.push_str(&face_words(job, area, face));
    }
    text.push_str(&format!("\nBuy {}\n", sheets_words(job, liner, cut)));
    vec![
        Passage::Heading(format!("Liner: {}\n", liner.name)),
        Passage::Words(text),
        sheets_table(job, cut),
        Passage::Words(format!("\n{FASTENING}\n\n")),
    ]
}

fn millionths(billionths: i64) -> String {
    let text = format!("{}.{:03}", billionths / 1000, billionths % 1000);
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

fn face_words(job: &Job, area: &LinedArea, face: &Paneled) -> String {
    let LinedArea { mark, size, quantity, .. } = area;
    let print = |length: Length| length.print(job.style);
    let [along, across] = face.sides;
    let times = if *quantity == 1 { String::new() } else { format!("{quantity} times ") };
    let mut text = format!(
        "{mark}, {times}{} × {}: {} × {} panels, each {} × {}\n",
        print(size[0]),
        print(size[1]),
        along.count,
        across.count,
        print(along.panel),
        print(across.panel)
    );
    for (name, side) in [("length", along), ("width", across)] {
        let gaps = |gap: Length| gap_words(job, &side, gap);
        text.push_str(&format!(
            "  along its {name}: {}; a panel grows {}; at the coldest {}\n",
            gaps(side.gap),
            print(side.growth),
            gaps(side.cold_gap)
        ));
    }
    text
}

/// "1/4 between panels, 1/8 at each end", at some gap.
pub(super) fn gap_words(job: &Job, side: &Side, gap: Length) -> String {
    let between =
        if side.count == 1 { String::new() } else { format!("{} between panels, ", gap.print(job.style)) };
    format!("{between}{} at each end", at_each_end(gap).print(job.style))
}

/// "2 sheets of 48 × 96: 310.00, proved least for these panels".
pub(super) fn sheets_words(job: &Job, liner: &JobLiner, cut: &CutLiner) -> String {
    let sheets = counted(cut.packing.sheets.len(), "sheet");
    let proof = if cut.packing.proved {
        "proved least for these panels".to_owned()
    } else {
        format!("less than {} is excluded", cut.packing.bound.sheets)
    };
    let cost = cut.price(job).map_or_else(|| "no price".to_owned(), units::Money::print);
    let [long, short] = liner.sheet.map(|side| side.print(job.style));
    format!("{sheets} of {short} × {long}: {cost}, {proof}")
}

/// "HB no. 1 of 2, panel 3 of 6": a panel of a face, on its label and on every map and list.
pub(super) fn liner_panel_words(area: &LinedArea, face: &Paneled, (copy, panel): (u32, i64)) -> String {
    let count: i64 = face.sides.iter().map(|side| side.count).product();
    let copy = copy_words(copy, area.quantity);
    let panel = if count == 1 { String::new() } else { format!(", panel {panel} of {count}") };
    format!("{}{copy}{panel}", area.mark)
}

/// What every panel is called, sheet by sheet: those of a face are alike, and are numbered as they come off the sheets.
pub(super) fn named_panels(job: &Job, cut: &CutLiner) -> Vec<Vec<(nest::rect::Placed, String)>> {
    let liner = &job.liners[cut.liner];
    let mut before = vec![0; cut.faces.len()];
    let mut name = |placed: &nest::rect::Placed| {
        let face = &cut.faces[placed.piece];
        let count: i64 = face.sides.iter().map(|side| side.count).product();
        let number: i64 = before[placed.piece];
        before[placed.piece] += 1;
        let copy = u32::try_from(number / count.max(1) + 1).unwrap_or(u32::MAX);
        let words = liner_panel_words(&liner.areas[placed.piece], face, (copy, number % count.max(1) + 1));
        (*placed, words)
    };
    cut.packing.sheets.iter().map(|sheet| sheet.iter().map(&mut name).collect()).collect()
}

/// What is cut from every sheet.
fn sheets_table(job: &Job, cut: &CutLiner) -> Passage {
    let print = |length: Length| length.print(job.style);
    let laid_out = "the layout of the sheet, verified before it is printed";
    let panel = "an equal share of the face, less the growth of a panel, down to the tape's next division";
    let columns = vec![
        Column::numbers("sheet", "counted"),
        Column::words("mark"),
        Column::numbers("from the left", laid_out),
        Column::numbers("up", laid_out),
        Column::numbers("length", panel),
        Column::numbers("height", panel),
    ];
    let row = |number: usize, (placed, words): (nest::rect::Placed, String)| {
        let [along, across] = cut.faces[placed.piece].sides.map(|side| side.panel);
        let [along, across] = if placed.turned { [across, along] } else { [along, across] };
        vec![
            (number + 1).to_string(),
            words,
            print(length_of(placed.x)),
            print(length_of(placed.y)),
            print(along),
            print(across),
        ]
    };
    let sheets = named_panels(job, cut).into_iter().enumerate();
    let rows = sheets.flat_map(|(number, sheet)| sheet.into_iter().map(move |named| row(number, named)));
    sheet(columns, rows.collect(), None)
}
