//! The lines of a quote: metal, work, consumables, work done elsewhere.

use estimate::{
    Counted, Minutes, PriceOfMass, PrintedMass, Quote, QuoteLine, purchase, quote, waste, work_lines, worths,
};
use fold::flat::BendLine;
use fold::part::Forming;
use job::{Consumable, ConsumedBy, Cutting, Hardware, MaterialCharge, Rate};
use paper::lists::ListUnits;
use paper::scrap_report;
use units::{Length, LengthUnit, Money};

use super::granted::assumptions;
use super::order::order_lines;
use super::others::{goods_lines, goods_order};
use super::uncounted::{Uncounted, WhatOfLid, uncounted};
use super::work::{Work, along, workloads};
use crate::kit::PackedKit;
use crate::plan::{CutBar, LaidSheet, Others, Plan, PlannedPart, us_tons};

/// A credit by weight: its field under "buying", the rate, and what is asked where it is not set.
struct Credit<'a> {
    field: &'static str,
    rate: &'a Rate<PriceOfMass>,
    ask: &'static str,
}

impl Credit<'_> {
    fn question(&self) -> Option<String> {
        self.rate.question(self.ask, self.field, "buying")
    }
}

/// What everything goes by that is worth what a drop is worth.
const fn drop_value(rate: &Rate<PriceOfMass>) -> Credit<'_> {
    Credit { field: "drop_value", rate, ask: "What is a kept drop worth (a price of 0 for nothing)?" }
}

/// A quote and what stands around it.
#[derive(Debug, Clone)]
pub(crate) struct Quoted {
    /// The sums.
    pub(crate) quote: Quote,
    /// What there is.
    pub(crate) facts: Vec<(String, String)>,
    /// What was taken for granted.
    pub(crate) assumptions: Vec<String>,
    /// Thousandths of a minute of the maker and of a second hand, where every rate is set.
    pub(crate) minutes: Option<[i64; 2]>,
}

/// Lines in the making, with the questions behind those that stay open.
#[derive(Debug, Default)]
struct Lines {
    lines: Vec<QuoteLine>,
    asked: Vec<String>,
}

impl Lines {
    fn add(&mut self, group: &'static str, what: &str, how: impl Into<String>, money: Option<Money>) {
        self.lines.push(QuoteLine { group, what: what.to_owned(), how: how.into(), money });
    }

    fn ask(&mut self, question: &str) {
        self.asked.push(question.to_owned());
    }
}

/// Prices a plan, fitted by the shop, or as the kit that is given.
pub(crate) fn quoted(plan: &Plan, bars: &[CutBar], others: &Others, kit: Option<&PackedKit>) -> Quoted {
    let work = Work::of(plan, bars, others, kit);
    let mut lines = Lines::default();
    add_metal(plan, bars, &mut lines);
    add_rack(plan, &mut lines);
    add_hardware(plan, &mut lines);
    add_uncounted(plan, &mut lines);
    add_coverings(plan, others, &mut lines);
    let minutes = add_work(plan, &work, &mut lines);
    if kit.is_none() {
        ask_for_welds(plan, &mut lines);
    }
    add_consumables(plan, &work, &mut lines);
    add_outside_work(plan, &mut lines);
    if let Some(kit) = kit {
        add_kit(kit, &mut lines);
    }
    if plan.flats.job.quote.valid_until.is_none() {
        lines.ask("Until what day does the quote hold? \"valid_until\" under \"quote\" is not set.");
    }
    let quote = quote(&plan.flats.job.quote.pricing, lines.lines, &lines.asked);
    let mut facts = facts(plan, &work, kit);
    facts.extend(minutes.map(|minutes| ("time".to_owned(), time_words(minutes))));
    Quoted { quote, facts, assumptions: assumptions(plan, bars, others, kit), minutes }
}

/// The sheets, or the job's share of them; what comes with the order; what drops and scrap bring back.
fn add_metal(plan: &Plan, bars: &[CutBar], lines: &mut Lines) {
    const METAL: &str = "metal";
    let job = &plan.flats.job;
    let order = order_lines(plan, bars);
    let bought = purchase(&job.buying.terms, &order);
    lines.asked.extend(bought.questions.iter().map(ToString::to_string));
    match job.quote.material {
        None => {
            lines.ask("Is all that is bought charged, or a share of the sheets? \"material\" under \"quote\" is not set.");
            lines.add(METAL, "sheets", "not said how they are charged", None);
        }
        Some(MaterialCharge::Bought) => {
            for (line, money) in order.iter().zip(&bought.lines) {
                lines.add(METAL, &format!("{} of {}", line.quantity, line.what), "bought", *money);
            }
        }
        Some(MaterialCharge::Share) => {
            let parts = plan.report.sheets.iter().flat_map(|sheet| &sheet.parts);
            let sheets: Option<Money> = parts.map(|part| part.charged).sum();
            let sticks = order_lines(plan, bars).len() - order_lines(plan, &[]).len();
            let sticks: Option<Money> = bought.lines[bought.lines.len() - sticks..].iter().copied().sum();
            let charged = sheets.zip(sticks).map(|(sheets, sticks)| sheets + sticks);
            let how = if bars.is_empty() {
                "bought, less the price of kept drops by their area"
            } else {
                "bought, less the price of kept drops by their area; sticks whole"
            };
            lines.add(METAL, "share of the sheets", how, charged);
        }
    }
    lines.add(METAL, "up to the minimum charge", "of the order", bought.up_to_minimum);
    if bought.cuts != Some(Money::ZERO) {
        lines.add(METAL, "the supplier's cuts", "of the order", bought.cuts);
    }
    lines.add(METAL, "freight for long sheets", "of the order", bought.over_length);
    lines.add(METAL, "delivery", "of the order", bought.delivery);
    lines.add(METAL, "tax on metal", "of the whole order", bought.tax);
    if job.quote.material == Some(MaterialCharge::Bought) {
        let kept = scrap_report::kept_drops(&plan.report, ListUnits::of(job.style));
        add_credit(plan, lines, "kept drops", &kept, &drop_value(&job.buying.drop_value));
    }
    let scrap = scrap_report::saleable(&plan.report, ListUnits::of(job.style));
    let credit = Credit {
        field: "scrap_credit",
        rate: &job.buying.scrap_credit,
        ask: "What does the dealer pay for scrap (a price of 0 for nothing)?",
    };
    add_credit(plan, lines, "scrap and edge trim", &scrap, &credit);
}

/// What the pieces of the rack weigh that are cut up for these sheets, as the report prints them.
pub(crate) fn rack_weights(plan: &Plan, of: impl Fn(&LaidSheet) -> bool) -> Vec<PrintedMass> {
    let weights = scrap_report::wholes(&plan.report, ListUnits::of(plan.flats.job.style));
    let sheets = plan.nests.iter().flat_map(|nest| &nest.sheets).zip(weights);
    let used = sheets.filter(|(sheet, _)| sheet.laid.from_rack.is_some() && of(&sheet.laid));
    used.map(|(_, weight)| weight).collect()
}

/// Pieces of the rack are worth to the shop what it says that a drop is worth.
fn add_rack(plan: &Plan, lines: &mut Lines) {
    let job = &plan.flats.job;
    let units = ListUnits::of(job.style);
    let mut used = rack_weights(plan, |_| true);
    if job.quote.material == Some(MaterialCharge::Share) {
        let kept = scrap_report::kept_drops(&plan.report, units).into_iter();
        let sheets = plan.nests.iter().flat_map(|nest| &nest.sheets).zip(kept);
        let of_rack = sheets.filter(|(sheet, _)| sheet.laid.from_rack.is_some());
        for (whole, (_, kept)) in used.iter_mut().zip(of_rack) {
            whole.hundredths -= kept.hundredths;
        }
    }
    if used.is_empty() {
        return;
    }
    let weight = scrap_report::sum_words(&used, units);
    let rate = job.buying.drop_value.set().copied();
    lines.asked.extend(drop_value(&job.buying.drop_value).question());
    let each = sheet_by_sheet(&used);
    let how = rate.map_or_else(|| weight.clone(), |rate| format!("{weight} at {}{each}", rate.print()));
    let money = rate.map(|rate| worths(&used, rate).into_iter().sum());
    lines.add("metal", "pieces of the rack", how, money);
}

fn add_hardware(plan: &Plan, lines: &mut Lines) {
    for Hardware { item, count, price } in &plan.flats.job.hardware {
        let how = price.map_or_else(|| count.to_string(), |price| format!("{count} at {}", price.print()));
        if price.is_none() {
            lines.ask(&format!(
                "What does one {item} cost? \"price\" under \"hardware\" is not set; 0 if it is not yours."
            ));
        }
        lines.add("hardware", item, how, price.map(|price| price * i64::from(*count)));
    }
}

/// What lids take and the hardware does not count stays open: without a price the quote would be too low.
fn add_uncounted(plan: &Plan, lines: &mut Lines) {
    let mut open = |what: &str, how: String, question: String| {
        lines.ask(&question);
        lines.add("hardware", what, how, None);
    };
    for Uncounted { lid, what } in uncounted(&plan.flats.job) {
        const COUNT_IT: &str = "count and price it under \"hardware\"; 0 if it is not yours.";
        match what {
            WhatOfLid::Struts(count, name) => {
                let name = name.unwrap_or_else(|| "none chosen".to_owned());
                let question = format!("What does one gas strut for {lid} cost ({name})? {COUNT_IT}");
                open(&format!("gas strut for {lid}, {name}"), count.to_string(), question);
            }
            WhatOfLid::Named(named) => {
                for item in named {
                    let question = format!(
                        "What does this cost: {item}, which {lid} names with a weight only? {COUNT_IT}"
                    );
                    open(&item, format!("for {lid}"), question);
                }
            }
        }
    }
}

/// Roll goods and liner, as they are bought: an order of their own.
fn add_coverings(plan: &Plan, others: &Others, lines: &mut Lines) {
    const GROUP: &str = "coverings";
    let job = &plan.flats.job;
    let goods = goods_lines(job, others);
    if goods.is_empty() {
        return;
    }
    for line in &goods {
        if line.money.is_none() {
            lines.ask(&line.question);
        }
        lines.add(GROUP, &line.name, line.how.clone(), line.money);
    }
    let order = goods_order(job, &goods);
    lines.add(GROUP, "up to the minimum of coverings", "of their order", order.up_to_minimum);
    lines.add(GROUP, "delivery of coverings", "of their order", order.delivery);
    lines.add(GROUP, "tax on coverings", "of their whole order", order.tax);
    lines.asked.extend(order.questions);
}

/// Welds that join the pieces of a whole are in no part: they are said, or asked for.
fn ask_for_welds(plan: &Plan, lines: &mut Lines) {
    if plan.flats.job.quote.welds_between.is_some() {
        return;
    }
    let mut wholes: Vec<&str> = Vec::new();
    for part in plan.flats.parts.iter().filter(|part| part.part.piece_of.is_some()) {
        let mark = part.part.written_mark();
        if !wholes.contains(&mark) {
            wholes.push(mark);
        }
    }
    if wholes.is_empty() {
        return;
    }
    lines.add("work", "welds between pieces", "not said", None);
    lines.ask(&format!(
        "What welds join the pieces of {}? \"welds_between\" under \"quote\" is not set; [] for none.",
        wholes.join(", ")
    ));
}

/// Crates and carriage of a kit.
fn add_kit(kit: &PackedKit, lines: &mut Lines) {
    let crates = i64::try_from(kit.crates.len()).unwrap_or(i64::MAX);
    let price = kit.kit.crate_price;
    if price.is_none() {
        lines
            .ask("What does one empty crate cost? \"price\" under \"kit.crates\" is not set; 0 for nothing.");
    }
    let how = price.map_or_else(|| crates.to_string(), |price| format!("{crates} at {}", price.print()));
    lines.add("kit", "crates and packing", how, price.map(|price| price * crates));
    if kit.kit.carriage.is_none() {
        lines.ask(
            "What does carriage to the buyer cost? \"carriage\" under \"kit\" is not set; 0 for nothing.",
        );
    }
    lines.add("kit", "carriage", "all crates", kit.kit.carriage);
}

/// A credit for metal by weight; it is summed over the sheets as the scrap report has it.
fn add_credit(plan: &Plan, lines: &mut Lines, what: &str, weights: &[PrintedMass], credit: &Credit<'_>) {
    if weights.iter().all(|weight| weight.hundredths == 0) {
        return;
    }
    let weight = scrap_report::sum_words(weights, ListUnits::of(plan.flats.job.style));
    match credit.rate.set() {
        Some(rate) => {
            let worth: Money = worths(weights, *rate).into_iter().sum();
            let each = sheet_by_sheet(weights);
            lines.add("metal", what, format!("credit for {weight} at {}{each}", rate.print()), Some(-worth));
        }
        None => {
            lines.asked.extend(credit.question());
            lines.add("metal", what, format!("credit for {weight}"), None);
        }
    }
}

/// Said where weights of several sheets are rounded one by one: the sum of the lines may be a cent off the sum's own product.
fn sheet_by_sheet(weights: &[PrintedMass]) -> &'static str {
    let counted = weights.iter().filter(|weight| weight.hundredths != 0).count();
    if 1 < counted { ", each sheet rounded" } else { "" }
}

/// The lines of work; gives thousandths of a minute of the maker and of a second hand, where every rate is set.
fn add_work(plan: &Plan, work: &Work, lines: &mut Lines) -> Option<[i64; 2]> {
    let mut hours = Some([0_i64; 2]);
    let mut alone: Vec<&str> = Vec::new();
    for line in work_lines(&plan.flats.job.quote.hours, &workloads(plan, work)) {
        let second = line.second_hand_time.filter(|time| 0 < time.thousandths());
        let second = second.map(|time| format!(" and a second hand {}", time.print())).unwrap_or_default();
        let time = line.time.map(|time| format!(": {}{second}", time.print())).unwrap_or_default();
        hours = hours.zip(line.time.zip(line.second_hand_time)).map(|([first, other], (time, second))| {
            [first + time.thousandths(), other + second.thousandths()]
        });
        lines.add("work", line.kind.words(), format!("{}{time}", line.amount.print()), line.money);
        lines.asked.extend(line.questions);
        if line.asks_second_hand {
            alone.push(line.kind.words());
        }
    }
    if !alone.is_empty() {
        lines.ask(&format!(
            "How many minutes of a second hand does each take at: {}? \"second_hand\" of these under \"quote.work\" is not set; \
             0 where nobody else is at it.",
            alone.join("; ")
        ));
    }
    hours
}

fn time_words(minutes: [i64; 2]) -> String {
    let [maker, second] = minutes.map(|thousandths| Minutes::from_thousandths(thousandths).print());
    format!("maker {maker}, second hand {second}")
}

fn add_consumables(plan: &Plan, work: &Work, lines: &mut Lines) {
    const GROUP: &str = "consumables";
    let job = &plan.flats.job;
    let Some(consumables) = &job.quote.consumables else {
        lines.ask(
            "What is used up, wire, gas, discs, blades? \"consumables\" under \"quote\" is not set; [] where none is charged.",
        );
        return lines.add(GROUP, GROUP, "not said", None);
    };
    for Consumable { item, price, per } in consumables {
        let amount = per.map(|per| match per {
            ConsumedBy::Job => (Counted::Each(1), "a job"),
            ConsumedBy::Piece => (Counted::Each(work.pieces), "a piece"),
            ConsumedBy::CutLength => (along(work.cut_mm(), job.unit), "of cut"),
            ConsumedBy::WeldLength => (along(work.weld_mm(), job.unit), "of weld"),
        });
        if amount.is_none() {
            lines.ask(&format!(
                "{item}: is its price for a job, a piece, a length of cut or of weld? \"per\" under \"consumables\" is not set."
            ));
        }
        if price.is_none() {
            lines.ask(&format!(
                "What does {item} cost? \"price\" under \"consumables\" is not set; 0 for nothing."
            ));
        }
        let at = price.map_or_else(|| "open".to_owned(), Money::print);
        let how = match amount {
            Some((amount, per)) => format!("{} at {at} {per}", amount.print()),
            None => format!("at {at}"),
        };
        let money = amount.zip(*price).map(|((amount, _), price)| amount.price(price));
        lines.add(GROUP, item, how, money);
    }
}

fn add_outside_work(plan: &Plan, lines: &mut Lines) {
    const GROUP: &str = "outside work";
    let Some(work) = &plan.flats.job.quote.outside_work else {
        lines.ask(
            "What is done elsewhere, anodising, powder coat? \"outside_work\" under \"quote\" is not set; [] where nothing is.",
        );
        return lines.add(GROUP, GROUP, "not said", None);
    };
    for (what, money) in work {
        if money.is_none() {
            lines.ask(&format!(
                "What does {what} cost? \"price\" under \"outside_work\" is not set; 0 for nothing."
            ));
        }
        lines.add(GROUP, what, "as the job says", *money);
    }
}

fn facts(plan: &Plan, work: &Work, kit: Option<&PackedKit>) -> Vec<(String, String)> {
    let job = &plan.flats.job;
    let units = ListUnits::of(job.style);
    let fact = |name: &str, value: String| (name.to_owned(), value);
    let weight = plan.flats.weight();
    let heaviest = plan.flats.parts.iter().max_by_key(|part| part.weight);
    let heaviest = heaviest.map_or_else(String::new, |part| {
        format!("; heaviest {} at {}", part.part.mark, part.weight.print_with_unit(units.mass, 1))
    });
    let length = |millimetres: f64| along(millimetres, job.unit).print();
    let mut facts = vec![
        fact("pieces", format!("{}, {}{heaviest}", work.pieces, weight.print_with_unit(units.mass, 2))),
        fact(
            "cuts",
            format!(
                "{}by saw, torch or router straight {}, curved {}; round holes drilled {}",
                match job.shop.cutting {
                    Cutting::ByHand => String::new(),
                    Cutting::Shear { .. } => format!("strokes of the shear {}; ", work.strokes),
                },
                length(work.straight_mm),
                length(work.curved_mm),
                work.holes
            ),
        ),
        fact("bends", format!("{}, {} in all{}", work.bends, length(work.bend_mm), heaviest_bend(plan, kit))),
        fact(
            "corners",
            format!(
                "{}: open {}, butt {}, lap {}, tab {}",
                work.corners,
                length(work.seams_mm[0]),
                length(work.seams_mm[1]),
                length(work.seams_mm[2]),
                length(work.seams_mm[3])
            ),
        ),
    ];
    let total = &plan.report.total;
    let area = |area: units::Area| area.square_nanometres();
    if let Some((on_parts, of_whole)) = waste(area(total.parts.area), area(total.whole.area)) {
        let whole = if plan.report.sheets.iter().any(|sheet| sheet.from_rack) { "cut up" } else { "bought" };
        let words = format!("{} on the parts = {} of what is {whole}", on_parts.print(), of_whole.print());
        facts.push(fact("waste and drops", words));
    }
    facts
}

/// The bend of the shop's own machine that takes the most force, by the formula of the published charts; of a kit those of
/// parts that stay here.
fn heaviest_bend(plan: &Plan, kit: Option<&PackedKit>) -> String {
    let own = kit.map(|kit| {
        let mut own = plan.flats.job.clone();
        own.shop.brake.clone_from(&kit.own_brake);
        own
    });
    let job = own.as_ref().unwrap_or(&plan.flats.job);
    let is_bent_here = |part: usize| kit.is_none_or(|kit| !kit.kit.parts.contains(&part));
    let bent_here = plan.flats.parts.iter().enumerate().filter(|(number, _)| is_bent_here(*number));
    let style = job.style;
    let fine = crate::plan::finer(style);
    let mut heaviest: Option<(f64, Length, &PlannedPart, &BendLine)> = None;
    for (_, part) in bent_here {
        let metal = &job.metals[part.part.metal];
        for bend in
            part.flat.bends.iter().filter(|bend| !matches!(bend.forming, Forming::Rolled | Forming::Sprung))
        {
            let Some((tons, v)) = us_tons(job, metal, bend) else {
                let thick = metal.metal.thickness.print(fine);
                return format!("; the heaviest is not known: no V opening is given for metal {thick} thick");
            };
            if heaviest.is_none_or(|(most, ..)| most < tons) {
                heaviest = Some((tons, v, part, bend));
            }
        }
    }
    heaviest.map_or_else(String::new, |(tons, v, part, bend)| {
        let long = Length::from_millimetres(bend.from.distance(bend.to)).print(style);
        let thick = Length::from_millimetres(part.flat.thickness_mm).print(fine);
        let force = match job.unit {
            LengthUnit::Inch => format!("{tons:.1} tons"),
            LengthUnit::Millimetre => format!("{:.0} kN", tons * KN_PER_US_TON),
        };
        format!(
            "; heaviest {long} of {thick} on {}, about {force} in air over a V of {}",
            part.part.mark,
            v.print(style)
        )
    })
}

/// 2,000 lb at standard gravity, exactly 4.4482216152605 N each, in kilonewtons.
const KN_PER_US_TON: f64 = 8.896_443_230_521;
