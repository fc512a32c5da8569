//! The order to the supplier: the sheets and sticks of the plan, in a supplier's words, and what is checked when they come.

use job::{Interleaf, Job, JobMetal};
use paper::lists::ListUnits;
use paper::lists::order::{Check, SupplyLine};
use stock::{Film, Lay, Pattern, supply_standard};
use units::{Area, Length, LengthStyle, LengthUnit, Mass};

use crate::plan::{CutBar, MetalNest, Plan, caliper};

/// An order worked out.
#[derive(Debug, Clone)]
pub(crate) struct Order {
    /// Sheets, then sticks.
    pub(crate) sheets: Vec<OrderedSheet>,
    /// Sticks of bar, pipe and section.
    pub(crate) sticks: Vec<OrderedStick>,
    /// What to settle before it is sent.
    pub(crate) questions: Vec<String>,
}

/// Sheets of one metal and size.
#[derive(Debug, Clone)]
pub(crate) struct OrderedSheet {
    /// The metal's place in the job.
    pub(crate) metal: usize,
    /// The shorter side, then the longer.
    pub(crate) size: [Length; 2],
    /// How many.
    pub(crate) quantity: u32,
    /// What one weighs.
    pub(crate) each: Mass,
    /// The text.
    pub(crate) line: SupplyLine,
}

/// Sticks of one bar and length.
#[derive(Debug, Clone)]
pub(crate) struct OrderedStick {
    /// What it is.
    pub(crate) bar: String,
    /// Its length.
    pub(crate) length: Length,
    /// How many.
    pub(crate) quantity: u32,
    /// The text.
    pub(crate) line: SupplyLine,
}

impl Order {
    /// The order for the same sheets that `buy` chooses; pieces of the rack are left out.
    pub(crate) fn of(plan: &Plan, bars: &[CutBar]) -> Self {
        let job = &plan.flats.job;
        let mut sheets = Vec::new();
        for nest in &plan.nests {
            sheets.extend(sheets_of(plan, nest));
        }
        let sticks = bars.iter().flat_map(|bar| sticks_of(job, bar)).collect();
        let questions = questions(job, &sheets);
        Self { sheets, sticks, questions }
    }

    /// The lines in order.
    pub(crate) fn lines(&self) -> Vec<SupplyLine> {
        let sheets = self.sheets.iter().map(|sheet| sheet.line.clone());
        sheets.chain(self.sticks.iter().map(|stick| stick.line.clone())).collect()
    }

    /// How many sheets, their area and their weight: the sums of the lines as printed.
    pub(crate) fn sums(&self, units: ListUnits) -> (u32, Area, Mass) {
        let mut sums = (0, Area::ZERO, Mass::ZERO);
        for sheet in &self.sheets {
            sums.0 += sheet.quantity;
            sums.1 += sheet.size[0] * sheet.size[1] * i64::from(sheet.quantity);
            sums.2 += sheet.each.as_printed(units.mass, 2) * i64::from(sheet.quantity);
        }
        sums
    }
}

fn sheets_of(plan: &Plan, nest: &MetalNest) -> Vec<OrderedSheet> {
    let Ok(nested) = &nest.comparison.rows[nest.comparison.best].outcome else { return Vec::new() };
    let job = &plan.flats.job;
    let metal = &job.metals[nest.metal];
    let counted = nest.sizes.iter().zip(&nested.take.sheets);
    let bought = counted.filter(|(size, count)| 0 < **count && size.from_rack.is_none());
    bought
        .map(|(size, &quantity)| {
            let each = metal.metal.weight_per_area.over(size.width * size.length);
            let cuts = size.supplier_cuts;
            let size = [size.width, size.length];
            OrderedSheet {
                metal: nest.metal,
                size,
                quantity,
                each,
                line: sheet_line(job, metal, (size, quantity, each), cuts),
            }
        })
        .collect()
}

fn sheet_line(
    job: &Job,
    metal: &JobMetal,
    (size, quantity, each): ([Length; 2], u32, Mass),
    cuts: u32,
) -> SupplyLine {
    let units = ListUnits::of(job.style);
    let [width, length] = size.map(|side| side.print_with_unit(job.style));
    let fine = caliper(job.unit);
    let thickness = metal.metal.thickness.print_with_unit(fine);
    let printed = each.as_printed(units.mass, 2);
    let all = printed * i64::from(quantity);
    let lugs =
        if metal.metal.pattern_included { "" } else { ", lugs not counted: no weight of them is known" };
    let weight = format!(
        "{} each, {} in all, by the figures of the job{lugs}",
        printed.print_with_unit(units.mass, 2),
        all.print_with_unit(units.mass, 2)
    );
    let [product, tolerance, recalled] = standards(job, metal);
    let mut terms = vec![
        ("pattern", pattern_words(metal.metal.pattern).to_owned()),
        ("thickness", thickness_words(metal.metal.pattern, &thickness)),
        ("size", format!("{width} wide × {length} long{}", cut_words(cuts))),
        ("film", film_words(metal.metal.film).to_owned()),
        ("lay", lay_words(metal, size, job.style)),
        ("made to", product),
        ("tolerance", tolerance),
        ("check", recalled),
        ("weight", weight),
    ];
    terms.retain(|(_, words)| !words.is_empty());
    let checks = (1..=quantity).map(|number| sheet_check(job, metal, size, (number, quantity))).collect();
    let sheets = if quantity == 1 { "sheet" } else { "sheets" };
    let tread = if metal.metal.pattern == Pattern::Tread { " tread plate" } else { "" };
    SupplyLine {
        quantity: format!("{quantity} {sheets}"),
        what: format!("{}{tread}, {thickness}, {width} × {length}", metal.metal.alloy_and_temper()),
        terms,
        checks,
    }
}

/// How a sheet comes to its size.
fn cut_words(cuts: u32) -> String {
    match cuts {
        0 => String::new(),
        1 => ", cut to it by you with 1 cut".to_owned(),
        more => format!(", cut to it by you with {more} cuts"),
    }
}

const fn pattern_words(pattern: Pattern) -> &'static str {
    match pattern {
        Pattern::Plain => "plain, mill finish",
        Pattern::Tread => "raised lugs on one face, the other face plain",
    }
}

fn thickness_words(pattern: Pattern, thickness: &str) -> String {
    match pattern {
        Pattern::Plain => format!("{thickness}; a decimal size, no gauge number"),
        Pattern::Tread => {
            format!("{thickness} of the flat base, tread lugs excluded; a decimal size, no gauge number")
        }
    }
}

const fn film_words(film: Film) -> &'static str {
    match film {
        Film::Bare => "none",
        Film::OneSide => "protective film on one face, fit to stay on through cutting and bending",
        Film::BothSides => "protective film on both faces, fit to stay on through cutting and bending",
    }
}

fn lay_words(metal: &JobMetal, size: [Length; 2], style: LengthStyle) -> String {
    let what = if metal.metal.pattern == Pattern::Tread { "pattern" } else { "rolling direction" };
    match metal.metal.lay {
        Some(Lay::LongSide) => format!("{what} along the {} side", size[1].print_with_unit(style)),
        Some(Lay::ShortSide) => format!("{what} along the {} side", size[0].print_with_unit(style)),
        None => "any".to_owned(),
    }
}

/// What the product and its tolerances go by: the shop's own words, the published standard, or the mill; and what the
/// supplier is to confirm of it.
fn standards(job: &Job, metal: &JobMetal) -> [String; 3] {
    let metal_name = &metal.metal.name;
    let row = supply_standard(metal.metal.alloy.family, metal.metal.pattern, job.unit);
    let own = job.buying.order.tolerances.iter().find(|(name, _)| name == metal_name);
    let tolerance = match (own, row) {
        (Some((_, words)), _) => words.clone(),
        (None, Some(row)) => format!("thickness, size and flatness to {}, current issue", row.tolerances),
        (None, None) => {
            "no standard is known for this metal: ask the mill, and write down what it says".to_owned()
        }
    };
    let recalled = row.filter(|row| row.is_from_memory()).map(|_| {
        if own.is_some() {
            "the standard it is made to is named from memory: confirm it with your offer"
        } else {
            "the standards are named from memory: confirm with your offer that they cover this metal and size"
        }
    });
    [
        row.map(|row| format!("{}, current issue", row.product)).unwrap_or_default(),
        tolerance,
        recalled.unwrap_or_default().to_owned(),
    ]
}

fn sheet_check(job: &Job, metal: &JobMetal, size: [Length; 2], (number, of): (u32, u32)) -> Check {
    let style = job.style;
    let order = &job.buying.order;
    let [width, length] = size.map(|side| side.print_with_unit(style));
    let mut boxes = vec![format!("tag or stencil reads {}", metal.metal.alloy_and_temper())];
    if metal.metal.pattern == Pattern::Tread {
        boxes.push("lugs on one face, sound".to_owned());
    }
    if metal.metal.lay.is_some() {
        boxes.push(lay_words(metal, size, style));
    }
    match metal.metal.film {
        Film::Bare => boxes.push("both faces free of scratches, stains and water marks".to_owned()),
        Film::OneSide => boxes.push("film whole, on one face".to_owned()),
        Film::BothSides => boxes.push("film whole, on both faces".to_owned()),
    }
    if order.certificate == Some(true) {
        boxes.push("heat number is on the certificate".to_owned());
    }
    boxes.push("lies flat, edges and corners not bruised".to_owned());
    let thickness = metal.metal.thickness.print_with_unit(caliper(job.unit));
    Check {
        which: format!("{}, sheet {number} of {of}", metal.metal.name),
        boxes,
        blanks: vec![
            ("thickness", 4, thickness),
            ("width, both ends", 2, width),
            ("length, both edges", 2, length),
            ("diagonals", 2, "alike".to_owned()),
        ],
        entry: entry_words(metal, size, style),
    }
}

/// The command that enters what was measured; blanks where the numbers go.
fn entry_words(metal: &JobMetal, size: [Length; 2], style: LengthStyle) -> String {
    let plain = |letter: char| letter.is_ascii_alphanumeric() || "./-_".contains(letter);
    let quoted = |text: String| {
        if text.chars().all(plain) {
            text
        } else if text.contains(['"', '$', '`', '\\', '!']) {
            format!("'{}'", text.replace('\'', "'\\''"))
        } else {
            format!("\"{text}\"")
        }
    };
    let [width, length] = size.map(|side| quoted(side.print(style)));
    let name = quoted(metal.metal.name.clone());
    format!(
        "plateloft receive add JOB --metal {name} --ordered {width} {length} --size __ __ --thickness __ --date __"
    )
}

fn sticks_of(job: &Job, cut: &CutBar) -> Vec<OrderedStick> {
    let bar = &job.bars[cut.bar];
    let bought = bar.sticks.iter().enumerate().filter(|(_, stick)| !stick.on_rack);
    bought
        .filter_map(|(number, stick)| {
            let quantity = Some(cut.bought(number)).filter(|count| 0 < *count)?;
            let length = stick.length.print_with_unit(job.style);
            let word = if quantity == 1 { "stick" } else { "sticks" };
            let checks = vec![Check {
                which: bar.name.clone(),
                boxes: vec![format!("{quantity} {word}"), "straight, ends not bruised".to_owned()],
                blanks: vec![("shortest", 1, length.clone())],
                entry: String::new(),
            }];
            let line = SupplyLine {
                quantity: format!("{quantity} {word}"),
                what: format!("{}, {length} long", bar.name),
                terms: vec![("length", format!("{length}, not under"))],
                checks,
            };
            Some(OrderedStick { bar: bar.name.clone(), length: stick.length, quantity, line })
        })
        .collect()
}

/// Packing and papers, one sentence each; what the job does not say is not there, but asked for.
pub(crate) fn packing(job: &Job, order: &Order) -> Vec<String> {
    let terms = &job.buying.order;
    let units = ListUnits::of(job.style);
    let mut words = Vec::new();
    match terms.on_skids {
        Some(true) => words.push(
            "On skids as long and as wide as the sheets, strapped over edge guards, covered against rain."
                .to_owned(),
        ),
        Some(false) => words.push("Loose, covered against rain.".to_owned()),
        None => {}
    }
    match terms.interleaf {
        Some(Interleaf::Paper) => words.push("Paper between the sheets.".to_owned()),
        Some(Interleaf::Foam) => words.push("Foam between the sheets.".to_owned()),
        Some(Interleaf::Nothing) => words.push("Nothing between the sheets.".to_owned()),
        None => {}
    }
    if has_film_on_one_side(job, order) {
        match terms.film_up {
            Some(true) => words.push("Film side up, every sheet the same.".to_owned()),
            Some(false) => words.push("Film side down, every sheet the same.".to_owned()),
            None => {}
        }
    }
    if let Some(heaviest) = terms.heaviest_pack {
        words.push(format!("No pack over {}.", heaviest.print_with_unit(units.mass, 0)));
    }
    match terms.certificate {
        Some(true) => words.push("With the mill's certificate, the heat number on every sheet.".to_owned()),
        Some(false) => words.push("No certificate is needed.".to_owned()),
        None => {}
    }
    words.push(
        "A line that cannot be had as written is not replaced by another without being asked first."
            .to_owned(),
    );
    words
}

fn has_film_on_one_side(job: &Job, order: &Order) -> bool {
    order.sheets.iter().any(|sheet| job.metals[sheet.metal].metal.film == Film::OneSide)
}

fn questions(job: &Job, sheets: &[OrderedSheet]) -> Vec<String> {
    let terms = &job.buying.order;
    let film = sheets.iter().any(|sheet| job.metals[sheet.metal].metal.film == Film::OneSide);
    let asked = [
        (terms.supplier.is_none(), "Who is it ordered from?", "supplier"),
        (terms.number.is_none(), "What is the order's number?", "number"),
        (terms.deliver_to.is_none(), "Where is it delivered?", "deliver_to"),
        (terms.contact.is_none(), "Whom does the driver call?", "contact"),
        (terms.wanted_by.is_none(), "By what day is it wanted?", "wanted_by"),
        (terms.unloading.is_none(), "How does it come off the truck?", "unloading"),
        (terms.on_skids.is_none(), "On skids or loose?", "packed"),
        (terms.interleaf.is_none(), "What lies between the sheets?", "interleaf"),
        (film && terms.film_up.is_none(), "Does the film lie up or down?", "film_side"),
        (terms.heaviest_pack.is_none(), "What may one pack weigh?", "heaviest_pack"),
        (terms.certificate.is_none(), "Is the mill's certificate wanted?", "certificate"),
    ];
    let mut questions: Vec<String> = asked
        .into_iter()
        .filter(|(open, ..)| *open)
        .map(|(_, question, field)| format!("{question} \"{field}\" under \"buying.order\" is not set."))
        .collect();
    let mut named: Vec<usize> = Vec::new();
    for sheet in sheets {
        let metal = &job.metals[sheet.metal].metal;
        questions.extend(too_heavy_for_a_pack(job, sheet));
        if named.contains(&sheet.metal) {
            continue;
        }
        named.push(sheet.metal);
        if metal.temper.is_none() && metal.alloy.family == stock::Family::Aluminium {
            questions.push(format!(
                "Which temper of {}? \"alloy\" of {} names none.",
                metal.alloy.name, metal.name
            ));
        }
    }
    questions
}

/// A sheet that no pack of the weight asked for could hold.
fn too_heavy_for_a_pack(job: &Job, sheet: &OrderedSheet) -> Option<String> {
    let unit = ListUnits::of(job.style).mass;
    let each = sheet.each.as_printed(unit, 2);
    let heaviest = job.buying.order.heaviest_pack.filter(|heaviest| heaviest.as_printed(unit, 2) < each)?;
    Some(format!(
        "One sheet of {} weighs {}, more than a pack of {} may: what is \"heaviest_pack\"?",
        job.metals[sheet.metal].metal.name,
        each.print_with_unit(unit, 2),
        heaviest.print_with_unit(unit, 0)
    ))
}

/// How the sheets are measured when they come; nothing where none is ordered.
pub(crate) fn measuring(job: &Job, order: &Order) -> Vec<String> {
    let mut metals: Vec<&stock::Metal> = Vec::new();
    for sheet in &order.sheets {
        let metal = &job.metals[sheet.metal].metal;
        if metals.iter().all(|known| known.name != metal.name) {
            metals.push(metal);
        }
    }
    if metals.is_empty() {
        return Vec::new();
    }
    let from_edge = match job.unit {
        LengthUnit::Inch => "1 in",
        LengthUnit::Millimetre => "25 mm",
    };
    let tread = metals.iter().any(|metal| metal.pattern == Pattern::Tread);
    let lugs = if tread { "; on tread plate between the lugs, never over one" } else { "" };
    let mut words = vec![format!(
        "Thickness by micrometer or caliper at four places, {from_edge} or more in from the edge{lugs}."
    )];
    if metals.iter().any(|metal| metal.film != Film::Bare) {
        words.push("Film is not counted: peel a corner back, and lay it down again.".to_owned());
    }
    words.push(
        "Both diagonals: where they differ the sheet is out of square, and holds less than its sides."
            .to_owned(),
    );
    let share = |metal: &&stock::Metal| {
        let twentieth = Length::from_nanometres(metal.thickness.nanometres() / 20);
        format!("{} {}", metal.name, twentieth.print(caliper(job.unit)))
    };
    let shares: Vec<String> = metals.iter().map(share).collect();
    words.push(format!(
        "A sheet off by more than a twentieth of its thickness ({}) is not what was ordered.",
        shares.join(", ")
    ));
    words.push("Enter every sheet, then run: plateloft receive check JOB. Cut nothing before.".to_owned());
    words
}
