//! Money: prices, percentages and minutes read and judged.

use estimate::{
    CutToSize, GoodsTerms, HourRates, Minutes, OverLength, Percent, PriceOfMass, Pricing, Profit, Terms,
    WorkKind, WorkRate,
};
use units::{Length, MassUnit, Money};

use super::desk::{Desk, Range};
use super::order::OrderTerms;
use super::rate::Rate;
use crate::file::{
    ConsumableFile, CutToSizeFile, GoodsTermsFile, JobFile, JointFile, LumpFile, MassUnitFile, MaterialFile,
    MinutesFile, PerFile, Percentage, Price, PriceOfMassFile, QuoteFile, Size, WeldFile, WorkRateFile,
};
use crate::percentage;
use crate::place::Place;

/// What buying and selling metal costs and brings.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Buying {
    /// The supplier's terms.
    pub terms: Terms,
    /// What the dealer pays for scrap.
    pub scrap_credit: Rate<PriceOfMass>,
    /// What a kept drop is worth to the shop.
    pub drop_value: Rate<PriceOfMass>,
    /// What the supplier asks for rectangles cut to size.
    pub cut_to_size: Rate<CutToSize>,
    /// The terms of who sells coverings and wear liner.
    pub coverings: GoodsTerms,
    /// What the order says beside the sheets.
    pub order: OrderTerms,
}

/// The shop's own rates.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct QuoteRates {
    /// How the metal is charged, when said.
    pub material: Option<MaterialCharge>,
    /// Hours.
    pub hours: HourRates,
    /// Minutes for each kind of work that the file names.
    pub work: Vec<(WorkKind, WorkRate)>,
    /// Welds between pieces, when the file says which there are.
    pub welds_between: Option<Vec<WeldBetween>>,
    /// What is used up, when the file says; nothing where its list is empty.
    pub consumables: Option<Vec<Consumable>>,
    /// Work done elsewhere, when the file says: what, and its price when said.
    pub outside_work: Option<Vec<(String, Option<Money>)>>,
    /// From cost to price.
    pub pricing: Pricing,
    /// The last day the quote holds.
    pub valid_until: Option<String>,
}

/// Hardware that the job names.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hardware {
    /// What it is.
    pub item: String,
    /// How many.
    pub count: u32,
    /// What one costs, when said.
    pub price: Option<Money>,
}

/// Welds of one kind between pieces.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WeldBetween {
    /// What is joined.
    pub what: String,
    /// The rate that it goes by.
    pub joint: WorkKind,
    /// Length of one weld.
    pub length: Length,
    /// How many.
    pub count: u32,
}

/// How the metal is charged.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MaterialCharge {
    /// All that is bought, less what the kept drops are worth.
    Bought,
    /// The share of each sheet that is no kept drop.
    Share,
}

/// Something used up.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Consumable {
    /// What it is.
    pub item: String,
    /// Its price, when said.
    pub price: Option<Money>,
    /// What the price is for, when said.
    pub per: Option<ConsumedBy>,
}

/// What uses a consumable up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ConsumedBy {
    /// The whole job.
    Job,
    /// One piece.
    Piece,
    /// A foot or metre of cut.
    CutLength,
    /// A foot or metre of weld.
    WeldLength,
}

/// The terms of the file; nothing set where there are none.
pub(super) fn buying(job: &JobFile, desk: &mut Desk<'_>) -> Buying {
    let Some(file) = &job.buying else { return Buying::default() };
    let place = Place::top("buying");
    let over_length = file.over_length.as_ref().map(|rule| {
        let place = place.field("over_length");
        let longer_than = rule.longer_than.as_ref();
        OverLength {
            longer_than: longer_than
                .and_then(|length| desk.length(&place.field("longer_than"), length, Range::AboveZero)),
            freight: charge(&place.field("freight"), rule.freight.as_ref(), desk),
        }
    });
    Buying {
        terms: Terms {
            minimum_charge: charge(&place.field("minimum_charge"), file.minimum_charge.as_ref(), desk),
            cut_charge: charge(&place.field("cut_charge"), file.cut_charge.as_ref(), desk),
            over_length,
            delivery: charge(&place.field("delivery"), file.delivery.as_ref(), desk),
            tax: percent(&place.field("tax"), file.tax.as_ref(), Most::Any, desk),
        },
        scrap_credit: price_of_mass(&place.field("scrap_credit"), file.scrap_credit.as_ref(), desk),
        drop_value: price_of_mass(&place.field("drop_value"), file.drop_value.as_ref(), desk),
        cut_to_size: file
            .cut_to_size
            .as_ref()
            .map_or(Rate::Unset, |cut| cut_to_size(&place.field("cut_to_size"), cut, desk)),
        coverings: coverings(file.coverings.as_ref(), &place.field("coverings"), desk),
        order: super::order::order(job, desk),
    }
}

fn coverings(file: Option<&GoodsTermsFile>, place: &Place, desk: &mut Desk<'_>) -> GoodsTerms {
    let Some(file) = file else { return GoodsTerms::default() };
    GoodsTerms {
        minimum_charge: charge(&place.field("minimum_charge"), file.minimum_charge.as_ref(), desk),
        delivery: charge(&place.field("delivery"), file.delivery.as_ref(), desk),
        tax: percent(&place.field("tax"), file.tax.as_ref(), Most::Any, desk),
    }
}

fn cut_to_size(place: &Place, file: &CutToSizeFile, desk: &mut Desk<'_>) -> Rate<CutToSize> {
    let price = file.price.as_ref().and_then(|price| desk.price(&place.field("price"), price));
    let cut_charge = charge(&place.field("cut_charge"), file.cut_charge.as_ref(), desk);
    let allowance = file.allowance.as_ref();
    let allowance =
        allowance.and_then(|size| desk.length(&place.field("allowance"), size, Range::ZeroOrMore));
    match (price, file.per, cut_charge, allowance) {
        (Some(price), Some(per), Some(cut_charge), Some(allowance)) => {
            let metal = PriceOfMass { price, unit: mass_unit(per) };
            Rate::Set(CutToSize { metal, cut_charge, allowance })
        }
        _ => Rate::missing(&[
            ("price", price.is_some()),
            ("per", file.per.is_some()),
            ("cut_charge", cut_charge.is_some()),
            ("allowance", allowance.is_some()),
        ]),
    }
}

/// The rates of the file; nothing set where there are none.
pub(super) fn quote(job: &JobFile, desk: &mut Desk<'_>) -> QuoteRates {
    let Some(file) = &job.quote else { return QuoteRates::default() };
    let place = Place::top("quote");
    if let Some(date) = &file.valid_until {
        desk.date_to_come(&place.field("valid_until"), date, job.date.as_deref());
    }
    let pricing = Pricing {
        risk: percent(&place.field("risk"), file.risk.as_ref(), Most::Any, desk),
        profit: profit(file, &place, desk),
        round_up_to: round_up_to(file, &place, desk),
        sales_tax: percent(&place.field("sales_tax"), file.sales_tax.as_ref(), Most::Any, desk),
    };
    QuoteRates {
        material: file.material.map(|material| match material {
            MaterialFile::Bought => MaterialCharge::Bought,
            MaterialFile::Share => MaterialCharge::Share,
        }),
        hours: HourRates {
            hour: charge(&place.field("hour"), file.hour.as_ref(), desk),
            second_hand_hour: charge(&place.field("second_hand_hour"), file.second_hand_hour.as_ref(), desk),
        },
        work: work(file, &place, desk),
        welds_between: file.welds_between.as_ref().map(|welds| welds_between(welds, &place, desk)),
        consumables: file.consumables.as_ref().map(|rows| consumables(rows, &place, desk)),
        outside_work: file.outside_work.as_ref().map(|rows| outside_work(rows, &place, desk)),
        pricing,
        valid_until: file.valid_until.clone(),
    }
}

fn work(file: &QuoteFile, place: &Place, desk: &mut Desk<'_>) -> Vec<(WorkKind, WorkRate)> {
    let work = &file.work;
    let rates = [
        (WorkKind::LayOut, &work.lay_out),
        (WorkKind::CutStraight, &work.cut_straight),
        (WorkKind::CutCurved, &work.cut_curved),
        (WorkKind::Shear, &work.shear),
        (WorkKind::Holes, &work.holes),
        (WorkKind::Bend, &work.bend),
        (WorkKind::WeldOpen, &work.weld_open),
        (WorkKind::WeldButt, &work.weld_butt),
        (WorkKind::WeldLap, &work.weld_lap),
        (WorkKind::WeldTab, &work.weld_tab),
        (WorkKind::Corners, &work.corners),
        (WorkKind::Finish, &work.finish),
        (WorkKind::SawBars, &work.saw_bars),
        (WorkKind::FitCoverings, &work.fit_coverings),
        (WorkKind::Pack, &work.pack),
    ];
    let place = place.field("work");
    let read = |(kind, rate): (WorkKind, &Option<WorkRateFile>)| {
        Some((kind, work_rate(&place.field(kind.field()), rate.as_ref()?, desk)))
    };
    rates.into_iter().filter_map(read).collect()
}

fn work_rate(place: &Place, file: &WorkRateFile, desk: &mut Desk<'_>) -> WorkRate {
    let mut read = |name: &str, written: &Option<MinutesFile>| {
        written.as_ref().and_then(|written| minutes(&place.field(name), written, desk))
    };
    WorkRate {
        set_up: read("set_up", &file.set_up),
        each: read("each", &file.each),
        second_hand: read("second_hand", &file.second_hand),
    }
}

/// The hardware of the file.
pub(super) fn hardware(job: &JobFile, desk: &mut Desk<'_>) -> Vec<Hardware> {
    let mut read = Vec::new();
    for (number, row) in job.hardware.iter().enumerate() {
        let Some(row) = row else { continue };
        let place = Place::top("hardware").entry(number).field("price");
        let price = row.price.as_ref().and_then(|price| desk.price(&place, price));
        read.push(Hardware { item: row.item.clone(), count: row.count, price });
    }
    read
}

fn welds_between(welds: &[WeldFile], place: &Place, desk: &mut Desk<'_>) -> Vec<WeldBetween> {
    let place = place.field("welds_between");
    let mut read = Vec::new();
    for (number, weld) in welds.iter().enumerate() {
        let joint = match weld.joint {
            JointFile::Open => WorkKind::WeldOpen,
            JointFile::Butt => WorkKind::WeldButt,
            JointFile::Lap => WorkKind::WeldLap,
            JointFile::Tab => WorkKind::WeldTab,
        };
        let length = desk.length(&place.entry(number).field("length"), &weld.length, Range::AboveZero);
        let count = weld.count.unwrap_or(1);
        read.extend(length.map(|length| WeldBetween { what: weld.what.clone(), joint, length, count }));
    }
    read
}

fn consumables(rows: &[ConsumableFile], place: &Place, desk: &mut Desk<'_>) -> Vec<Consumable> {
    let mut read = Vec::new();
    for (number, consumable) in rows.iter().enumerate() {
        let place = place.field("consumables").entry(number).field("price");
        let per = consumable.per.map(|per| match per {
            PerFile::Job => ConsumedBy::Job,
            PerFile::Piece => ConsumedBy::Piece,
            PerFile::CutLength => ConsumedBy::CutLength,
            PerFile::WeldLength => ConsumedBy::WeldLength,
        });
        let price = consumable.price.as_ref().and_then(|price| desk.price(&place, price));
        read.push(Consumable { item: consumable.item.clone(), price, per });
    }
    read
}

fn outside_work(rows: &[LumpFile], place: &Place, desk: &mut Desk<'_>) -> Vec<(String, Option<Money>)> {
    let mut read = Vec::new();
    for (number, lump) in rows.iter().enumerate() {
        let place = place.field("outside_work").entry(number).field("price");
        let price = lump.price.as_ref().and_then(|price| desk.price(&place, price));
        read.push((lump.item.clone(), price));
    }
    read
}

/// Markup or margin. Both at once must say the same to a hundredth of a percent; the markup then counts.
fn profit(file: &QuoteFile, place: &Place, desk: &mut Desk<'_>) -> Option<Profit> {
    let markup = percent(&place.field("markup"), file.markup.as_ref(), Most::Any, desk);
    let margin = percent(&place.field("margin"), file.margin.as_ref(), Most::BelowWhole, desk);
    match (markup, margin) {
        (Some(markup), Some(margin)) if markup.markup_to_margin() != Some(margin.to_hundredths()) => {
            let as_margin = markup.markup_to_margin().map_or_else(String::new, Percent::print);
            let wrong = format!(
                "does not go with the markup of {}, which is a margin of {as_margin}",
                markup.print()
            );
            desk.add(&place.field("margin"), &margin.print(), wrong, "give one of the two");
            None
        }
        (Some(markup), _) => Some(Profit::Markup(markup)),
        (None, margin) => margin.map(Profit::Margin),
    }
}

fn round_up_to(file: &QuoteFile, place: &Place, desk: &mut Desk<'_>) -> Option<Money> {
    let step = desk.money(&place.field("round_up_to"), file.round_up_to.as_ref()?)?;
    if step > Money::ZERO {
        return Some(step);
    }
    desk.add(
        &place.field("round_up_to"),
        &step.print(),
        "must be above zero",
        "write 0.01 to round to the cent",
    );
    None
}

fn charge(place: &Place, written: Option<&Price>, desk: &mut Desk<'_>) -> Option<Money> {
    desk.charge(place, written?)
}

fn price_of_mass(place: &Place, written: Option<&PriceOfMassFile>, desk: &mut Desk<'_>) -> Rate<PriceOfMass> {
    let Some(written) = written else { return Rate::Unset };
    let price = charge(&place.field("price"), written.price.as_ref(), desk);
    match (price, written.per) {
        (Some(price), Some(per)) => Rate::Set(PriceOfMass { price, unit: mass_unit(per) }),
        (price, per) => Rate::missing(&[("price", price.is_some()), ("per", per.is_some())]),
    }
}

const fn mass_unit(unit: MassUnitFile) -> MassUnit {
    match unit {
        MassUnitFile::Pound => MassUnit::Pound,
        MassUnitFile::Kilogram => MassUnit::Kilogram,
    }
}

/// How large a percentage may be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Most {
    /// A share of what it is counted on.
    Any,
    /// A share of the whole that it is part of.
    BelowWhole,
}

/// A percentage that is added to what it is counted on.
pub(super) fn added_percent(place: &Place, written: &Percentage, desk: &mut Desk<'_>) -> Option<Percent> {
    percent(place, Some(written), Most::Any, desk)
}

/// A percentage from zero, to a thousandth.
fn percent(place: &Place, written: Option<&Percentage>, most: Most, desk: &mut Desk<'_>) -> Option<Percent> {
    const WHOLE: i64 = 100_000;
    const LARGEST: i64 = 10_000_000;
    let written = written?;
    let text = written.0.to_string();
    let read = match &written.0 {
        Size::Text(text) => percentage::of_text(text),
        Size::Number(number) => number.as_f64().and_then(percentage::of_number),
    };
    let Some(thousandths) = read else {
        desk.add(place, &text, "is no percentage of at most three decimals", "write 25, 8.25 or 8.875");
        return None;
    };
    let (wrong, remedy) = if thousandths < 0 {
        ("must not be below zero", "write 25 for a quarter, 0 for none")
    } else if most == Most::BelowWhole && WHOLE <= thousandths {
        ("a margin is part of the price and stays below 100 %", "write 25 for a quarter")
    } else if LARGEST < thousandths {
        ("is more than 10 000 %, which cannot be", "write 25 for a quarter")
    } else {
        return Some(Percent::from_thousandths(thousandths));
    };
    desk.add(place, &text, wrong, remedy);
    None
}

/// Minutes from zero, to a thousandth.
fn minutes(place: &Place, written: &MinutesFile, desk: &mut Desk<'_>) -> Option<Minutes> {
    const LARGEST: f64 = 100_000.0;
    match written.0.as_f64() {
        Some(minutes) if (0.0..=LARGEST).contains(&minutes) => {
            Some(Minutes::from_thousandths(units::rounding::whole_count(minutes * 1000.0)))
        }
        _ => {
            let wrong = "is no time from 0 to 100 000 minutes";
            desk.add(place, &written.0.to_string(), wrong, "give minutes");
            None
        }
    }
}
