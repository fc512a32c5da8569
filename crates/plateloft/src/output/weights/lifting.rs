//! Lifts by hand: what is above the most that one person may lift, and every lift that the job asks about.

use estimate::{Assembly, HandLift, LiftFactor};
use job::{HingedLid, Job, JobAssembly, JobSheet, Lift, SheetOutline};
use units::{Mass, MassUnit};

use super::mass_words;
use crate::output::soft_goods;
use crate::plan::balance::{PlannedLid, WeighedPart, assemblies, pieces_of, units, weight_of};
use crate::plan::{Flats, LaidSheet, Plan, PlannedPart, sheet_words};
use crate::speech::Refusal;

/// Where the limit of a lift by hand comes from.
pub(super) const LIFT_SOURCE: &str = "Revised NIOSH Lifting Equation, DHHS (NIOSH) 94-110, rev. 9/2021";

/// Parts as weighed, and lids with what hangs on them.
type Weighed<'a> = (&'a [WeighedPart], &'a [(&'a HingedLid, PlannedLid)]);

/// A part, a lid with its hardware or a sheet above what hands can take.
const SHEET_HOIST: &str = "a hoist with sheet clamps, or slide it on edge and never lift it clear";
/// The same of something put together or packed.
const HOIST: &str = "a hoist, or rollers under it, and never lift it clear";

/// Whether the pieces of a whole are joined and lifted as one: covers and panels of a walk lie loose, each lifted by itself.
const fn is_joined(part: &PlannedPart) -> bool {
    !matches!(part.part.shape, job::ShapeInput::Covers(_) | job::ShapeInput::Walk(_))
}

/// One whole of every mark whose pieces are joined, and what it weighs.
pub(crate) fn one_of_each_whole(flats: &Flats) -> Vec<(&str, Mass)> {
    let mut wholes: Vec<(&str, Mass)> = Vec::new();
    for part in flats.parts.iter().filter(|part| part.part.piece_of.is_some() && is_joined(part)) {
        let mark = part.part.written_mark();
        let mass = pieces_of(flats, part, mark);
        match wholes.iter_mut().find(|(whole, _)| *whole == mark) {
            Some((_, sum)) => *sum += mass,
            None => wholes.push((mark, mass)),
        }
    }
    wholes
}

/// What is lifted once its parts are put together: wholes of pieces, and the assemblies of the job.
pub(super) fn put_together(flats: &Flats, together: &[(&JobAssembly, Assembly)]) -> Vec<(String, Mass)> {
    let wholes = one_of_each_whole(flats).into_iter();
    let wholes = wholes.map(|(mark, mass)| (format!("{mark}, all its pieces put together,"), mass));
    let assemblies = together.iter();
    wholes
        .chain(assemblies.map(|(asked, whole)| (format!("{}, put together,", asked.name), whole.mass())))
        .collect()
}

/// Who lifts a whole, for its own drawing; nothing for what one person may lift.
pub(crate) fn caution_of_whole(flats: &Flats, mass: Mass) -> Option<String> {
    (HandLift::ideal_limit() < mass)
        .then(|| format!("{}: CAUTION, too heavy for one person", mass_words(flats, mass)))
}

/// What is to be said of packed crates, by their names and weights, that are above what one person may lift.
pub(crate) fn crates_caution(flats: &Flats, crates: &[(String, Mass)]) -> Option<String> {
    let limit = HandLift::ideal_limit();
    let heavy = crates.iter().filter(|(_, mass)| limit < *mass);
    let heavy: Vec<String> = heavy.map(|(what, mass)| heavy_words(flats, what, *mass, HOIST)).collect();
    (!heavy.is_empty()).then(|| {
        format!(
            "CAUTION: above the {} that one person may lift at best ({LIFT_SOURCE}): {}. Mark the weight on the crate. {}",
            ideal_words(flats, limit),
            heavy.join("; "),
            together_words(flats)
        )
    })
}

/// What is lifted in one piece: its name and weight.
pub(super) fn lifted(flats: &Flats, (parts, lids): Weighed<'_>) -> Vec<(String, Mass)> {
    let bare = flats.parts.iter().zip(parts).map(|(planned, part)| (planned.part.mark.clone(), part.each));
    let hung = lids.iter().filter(|(asked, _)| !asked.hardware.is_empty());
    bare.chain(hung.map(|(_, lid)| (format!("{} with its hardware", lid.mark), lid.lid.mass()))).collect()
}

/// Whole sheets of every size that the job may buy: they are lifted before any part is.
pub(crate) fn sheets_of_the_job(job: &Job) -> Vec<(String, Mass)> {
    let bought = job.sheets.iter().filter(|sheet| sheet.from_rack.is_none() && sheet.outline.is_none());
    let named = |sheet: &JobSheet| {
        let metal = &job.metals[sheet.metal].metal;
        let words = format!("a whole sheet of {}, {}", metal.name, sheet_words(sheet, job.style));
        (words, sheet.weight_per_area(metal).over(sheet.width * sheet.length))
    };
    bought.map(named).chain(liner_sheets(job)).collect()
}

/// Whole sheets of liner of which the job gives the weight.
fn liner_sheets(job: &Job) -> impl Iterator<Item = (String, Mass)> + '_ {
    job.liners.iter().filter_map(|liner| {
        let [long, wide] = liner.sheet;
        let size = liner.sheet.map(|side| side.print(job.style)).join(" × ");
        Some((format!("a whole sheet of {}, {size},", liner.name), liner.weight?.over(long * wide)))
    })
}

/// Every sheet that a plan cuts, bought or from the rack, those that are alike together, each with the weight of one.
pub(crate) fn sheets_of_the_plan(plan: &Plan) -> Vec<(String, Mass)> {
    let mut alike: Vec<(&LaidSheet, usize)> = Vec::new();
    for laid in plan.nests.iter().flat_map(|nest| &nest.sheets).map(|sheet| &sheet.laid) {
        let is_alike = |other: &LaidSheet| {
            (&other.metal, other.size, &other.outline, other.weight_per_area)
                == (&laid.metal, laid.size, &laid.outline, laid.weight_per_area)
        };
        match alike.iter_mut().find(|(other, _)| is_alike(other)) {
            Some((_, count)) => *count += 1,
            None => alike.push((laid, 1)),
        }
    }
    let named = |(laid, count): (&LaidSheet, usize)| {
        let area = laid.outline.as_ref().map_or(laid.size[0] * laid.size[1], SheetOutline::area);
        let size = laid.name.split_once(" (").map_or("", |(_, size)| size.trim_end_matches(')'));
        let sheets = if count == 1 { "a sheet".to_owned() } else { format!("each of {count} sheets") };
        (format!("{sheets} of {}, {size},", laid.metal), laid.weight_per_area.over(area))
    };
    alike.into_iter().map(named).chain(liner_sheets(&plan.flats.job)).collect()
}

/// What the hands of two and of three together lift of what they would lift one by one (HSE, Manual handling, L23: from
/// memory).
const TWO_TOGETHER: f64 = 2.0 * 2.0 / 3.0;
const THREE_TOGETHER: f64 = 3.0 / 2.0;

/// "LL at 66.10 lb: two people, 33.05 lb each".
fn heavy_words(flats: &Flats, what: &str, mass: Mass, hoist: &str) -> String {
    format!("{what} at {}: {}", mass_words(flats, mass), hands_words(flats, mass, hoist))
}

/// How many hands take a weight above the limit of one person, and what each then bears: "two people, 31.37 lb each".
fn hands_words(flats: &Flats, mass: Mass, hoist: &str) -> String {
    let each = |people: f64| mass_words(flats, Mass::from_kilograms(mass.kilograms() / people));
    let times = mass.kilograms() / HandLift::ideal_limit().kilograms();
    if times <= TWO_TOGETHER {
        format!("two people, {} each", each(2.0))
    } else if times <= THREE_TOGETHER {
        format!("heavy for two, {} each: a third hand, {} each, or a hoist", each(2.0), each(3.0))
    } else {
        format!("heavy for two, {} each, and for three, {} each: {hoist}", each(2.0), each(3.0))
    }
}

/// What people who lift together are reckoned to lift, with its source.
fn together_words(flats: &Flats) -> String {
    let limit = HandLift::ideal_limit().kilograms();
    let [two, three] =
        [TWO_TOGETHER, THREE_TOGETHER].map(|times| mass_words(flats, Mass::from_kilograms(times * limit)));
    format!(
        "Two who lift together are reckoned at two thirds of what they lift one by one, here {two}, three at half of it, {three} \
         (HSE, Manual handling, L23: from memory)."
    )
}

/// How a sheet is carried; packed crates have none.
const CARRY_SHEETS: &str = "A sheet has no handles and sags: carry it on edge in sheet clamps or on a trolley, in gloves, out of the wind.";

/// What is above the most that one person may lift, with its weight and who lifts it: "LL at 66.10 lb: two people, …".
fn above_one_person(
    flats: &Flats,
    weighed: Weighed<'_>,
    sheets: &[(String, Mass)],
) -> Result<Vec<String>, Refusal> {
    let limit = HandLift::ideal_limit();
    let by = |hoist: &'static str| move |(what, mass): (String, Mass)| (what, mass, hoist);
    let all = lifted(flats, weighed).into_iter().map(by(SHEET_HOIST));
    let together = assemblies(flats, weighed.0)?;
    let all = all.chain(put_together(flats, &together).into_iter().map(by(HOIST)));
    let all = all.chain(sheets.iter().cloned().map(by(SHEET_HOIST)));
    let heavy = all.filter(|(_, mass, _)| limit < *mass);
    Ok(heavy.map(|(what, mass, hoist)| heavy_words(flats, &what, mass, hoist)).collect())
}

/// What hands should know of before anything is lifted, for the first page: what is above the most that one person may lift,
/// and every lift of the job that is above its own limit.
///
/// # Errors
/// A lift that the equation does not hold for.
pub(crate) fn lift_cautions(
    flats: &Flats,
    weighed: Weighed<'_>,
    sheets: &[(String, Mass)],
) -> Result<Vec<String>, Refusal> {
    let ideal = ideal_words(flats, HandLift::ideal_limit());
    let heavy = above_one_person(flats, weighed, sheets)?;
    let mut cautions = Vec::new();
    if !heavy.is_empty() {
        cautions.push(format!(
            "Above the {ideal} that one person may lift at best ({LIFT_SOURCE}): {}. {} {CARRY_SHEETS}",
            heavy.join("; "),
            together_words(flats)
        ));
    }
    cautions.extend(not_looked_at(flats));
    for (number, Lift { mark, parts, lift }) in flats.job.weights.lifts.iter().enumerate() {
        let limit = lift.limit().map_err(|fault| lift_fault(flats, number, fault))?.limit;
        let mass = weight_of(flats, mark, parts);
        if limit < mass {
            let [limit, mass] = [limit, mass].map(|mass| mass_words(flats, mass));
            cautions.push(format!(
                "{mark} weighs {mass}, and lifted as the job says one person may lift {limit}: more hands, or a hoist"
            ));
        }
    }
    Ok(cautions)
}

/// What of the coverings and liners nobody has weighed: whether one person lifts it is not known.
fn not_looked_at(flats: &Flats) -> Option<String> {
    let names = soft_goods::without_weight(&flats.job);
    (!names.is_empty()).then(|| {
        format!(
            "Not weighed, so not looked at for lifting: {}. Their weight per area is not in the job: weigh one before it is lifted, \
             or give the maker's figure.",
            names.join("; ")
        )
    })
}

pub(super) fn lift_fault(flats: &Flats, number: usize, fault: estimate::LiftFault) -> Refusal {
    Refusal::bad(format!("{}: weights.lifts[{number}]: {fault}", flats.file))
}

/// "50.71 lb", or "23 kg", the constant of the equation as it is published.
fn ideal_words(flats: &Flats, limit: Mass) -> String {
    match units(flats).0 {
        MassUnit::Pound => mass_words(flats, limit),
        MassUnit::Kilogram => "23 kg".to_owned(),
    }
}

/// The limit and its source, what is above it, and the lifts that the job asks about.
pub(super) fn text(
    flats: &Flats,
    weighed: Weighed<'_>,
    sheets: &[(String, Mass)],
) -> Result<String, Refusal> {
    let limit = HandLift::ideal_limit();
    let mut text = format!(
        "The most that one person may lift under ideal conditions (close, waist high, good handles, now \
         and then) is {}: {LIFT_SOURCE}. It is a ceiling, not a weight to design for.\n",
        ideal_words(flats, limit)
    );
    let heavy = above_one_person(flats, weighed, sheets)?;
    if heavy.is_empty() {
        text.push_str("No part, nothing that the job puts together and no whole sheet of this job is above that ceiling of ideal conditions by its weight alone; a large sheet still takes two. Cut edges cut: wear gloves.\n");
    } else {
        let list = heavy.join("; ");
        text.push_str(&format!("CAUTION: above it: {list}.\n{} {CARRY_SHEETS}\n", together_words(flats)));
    }
    text.extend(not_looked_at(flats).map(|words| words + "\n"));
    for (number, Lift { mark, parts, lift }) in flats.job.weights.lifts.iter().enumerate() {
        let limit = lift.limit().map_err(|fault| lift_fault(flats, number, fault))?;
        let mass = weight_of(flats, mark, parts);
        let factor = |factor: &LiftFactor| format!("{} {:.2}", factor.what, factor.factor);
        let factors: Vec<String> = limit.factors.iter().map(factor).collect();
        let index = mass.kilograms() / limit.limit.kilograms();
        let verdict = if index > 1.0 {
            "CAUTION: above the limit of this lift"
        } else {
            "within the limit of this lift"
        };
        text.push_str(&format!(
            "{mark}, lifted as the job says: limit {} = {} × {}; {mark} weighs {}, {index:.2} times it: {verdict}\n",
            mass_words(flats, limit.limit),
            ideal_words(flats, HandLift::ideal_limit()),
            factors.join(" × "),
            mass_words(flats, mass)
        ));
        let recalled = limit.factors.iter().filter(|factor| factor.from_memory).map(|factor| factor.what);
        text.push_str(&format!(
            "The rules for {} are from memory: look them up in the manual before you rely on them.\n",
            recalled.collect::<Vec<_>>().join(" and ")
        ));
    }
    Ok(text)
}
