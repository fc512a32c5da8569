//! What parts weigh and where their weight lies, in words and tables.

mod as_json;
mod assemblies;
mod lifting;

use estimate::{HungLoad, Loading};
use job::{HingedLid, Stations};
use paper::lists::passages::{Column, Passage, sheet};
use units::{Force, ForceUnit, Length, LengthUnit, Mass, Torque};

pub(crate) use as_json::{everything, torque_json};
pub(crate) use lifting::{
    caution_of_whole, crates_caution, lift_cautions, one_of_each_whole, sheets_of_the_job, sheets_of_the_plan,
};

use super::soft_goods;
use crate::plan::balance::{self, MASS_PLACES, PlannedLid, WeighedPart, closed_moment, lid, loading, units};
use crate::plan::{Flats, finer, standing};
use crate::speech::Refusal;

/// What the program does not do, at the end of every answer about weights.
pub(crate) const NO_CERTIFICATE: &str = "plateloft certifies nothing: this is arithmetic on the job's own figures. Weigh it, and prove it, before you \
     trust it.";

/// Everything that there is to say about the weights of a job and of the sheets that are lifted for it, a block each.
///
/// # Errors
/// Questions of the job that have no answer.
pub(crate) fn blocks(
    flats: &Flats,
    parts: &[WeighedPart],
    lids: &[(&HingedLid, PlannedLid)],
    sheets: &[(String, Mass)],
) -> Result<Vec<Vec<Passage>>, Refusal> {
    let mut blocks = vec![parts_words(flats, parts)];
    blocks.extend(wholes_words(flats, parts));
    let wholes = balance::assemblies(flats, parts)?;
    blocks.extend(wholes.iter().map(|(asked, whole)| assemblies::words(flats, &asked.name, whole)));
    blocks.extend(lids.iter().map(|(asked, lid)| lid_words(flats, asked, lid)));
    for stations in &flats.job.weights.stations {
        blocks.push(stations_words(flats, stations)?);
    }
    let lifting = Passage::Words(lifting::text(flats, (parts, lids), sheets)?);
    blocks.push(vec![Passage::Heading("Lifting by hand\n".to_owned()), lifting]);
    Ok(blocks)
}

/// Every lid of the job.
pub(crate) fn lids(flats: &Flats) -> Result<Vec<(&HingedLid, PlannedLid)>, Refusal> {
    let asked = flats.job.weights.lids.iter().enumerate();
    asked.map(|(number, asked)| Ok((asked, lid(flats, number, asked)?))).collect()
}

/// A length as on the tape.
fn length_words(flats: &Flats, length: Length) -> String {
    length.print(flats.job.style)
}

/// A length to thousandths of an inch or hundredths of a millimetre, where sums go by it.
pub(crate) fn decimal_words(flats: &Flats, length: Length) -> String {
    length.print(finer(flats.job.style))
}

fn mass_words(flats: &Flats, mass: Mass) -> String {
    mass.print_with_unit(units(flats).0, MASS_PLACES)
}

fn mass_number(flats: &Flats, mass: Mass) -> String {
    mass.print(units(flats).0, MASS_PLACES)
}

fn torque_number(flats: &Flats, torque: Torque) -> String {
    let unit = units(flats).1;
    torque.print(unit, unit.places())
}

/// A force in the job's unit.
pub(crate) fn force_words(flats: &Flats, force: Force) -> String {
    match flats.job.unit {
        LengthUnit::Inch => force.print_with_unit(ForceUnit::PoundForce, 1),
        LengthUnit::Millimetre => force.print_with_unit(ForceUnit::Newton, 1),
    }
}

/// How a moment is worked from the numbers beside it: "weight × station", and where weights are masses and lengths mm, by what
/// they come to newton-metres. 9.80665 m/s² is the standard acceleration, exact by definition (3rd CGPM, 1901).
fn moment_words(flats: &Flats, arm: &str) -> String {
    match flats.job.unit {
        LengthUnit::Inch => format!("weight × {arm}"),
        LengthUnit::Millimetre => format!("weight × 9.80665 × {arm} / 1000"),
    }
}

fn job_total(parts: &[WeighedPart]) -> Mass {
    parts.iter().map(|part| part.all).sum()
}

fn parts_words(flats: &Flats, parts: &[WeighedPart]) -> Vec<Passage> {
    let unit = units(flats).0.name();
    let centre =
        "centre of the weight of the folded part in that box: plates and bends weighed each at its middle";
    let columns = vec![
        Column::words("mark"),
        Column::numbers("pieces", "quantity of the part in the job").summed("sum of the column"),
        Column::numbers(format!("each, {unit}"), "area of the flat × weight per area of its metal"),
        Column::numbers(format!("all, {unit}"), "pieces × the printed weight of one")
            .summed("sum of the column"),
        Column::numbers("box when folded", "smallest upright box round the folded part, its root face level")
            .as_words(),
        Column::numbers("centre: x", centre),
        Column::numbers("y", centre),
        Column::numbers("z", centre),
    ];
    let words = |length: Length| length_words(flats, length);
    let row = |(planned, part): (&crate::plan::PlannedPart, &WeighedPart)| {
        let mut row = vec![
            planned.part.mark.clone(),
            planned.part.quantity.to_string(),
            part.each.print(units(flats).0, part.each.places_of_one(units(flats).0)),
            mass_number(flats, part.all),
            part.size.map(words).join(" × "),
        ];
        row.extend(part.centre.map(words));
        row
    };
    let rows = flats.parts.iter().zip(parts).map(row).collect();
    let pieces: u32 = flats.parts.iter().map(|part| part.part.quantity).sum();
    let mut sum =
        vec!["job".to_owned(), pieces.to_string(), String::new(), mass_number(flats, job_total(parts))];
    sum.resize(columns.len(), String::new());
    let table = sheet(columns, rows, Some(sum));
    let mut text = String::from(
        "Weights are of the net flats. Centres are from the left, front and lower sides of the smallest upright box \
         round the folded part, its root face level: z is up. Each line is rounded once; sums are of printed lines.\n",
    );
    text.push_str("Welds, paint and hardware are not in these weights.\n");
    text.extend(soft_goods::left_out(&flats.job).map(|words| words + "\n"));
    for caution in flats.job.metals.iter().filter(|metal| metal.metal.pattern == stock::Pattern::Tread) {
        text.push_str(&format!(
            "{} is tread plate: {}.\n",
            caution.metal.name,
            if caution.metal.pattern_included {
                "its weight per area is the one that the job gives, lugs and all"
            } else {
                "its weight is that of the base, lugs not counted: no weight of them is known"
            }
        ));
    }
    vec![table, Passage::Words(text)]
}

/// Wholes that are made of pieces: mark and weight of all of the mark.
fn wholes(flats: &Flats, parts: &[WeighedPart]) -> Vec<(String, Mass)> {
    let mut wholes: Vec<(String, Mass)> = Vec::new();
    for (planned, part) in flats.parts.iter().zip(parts) {
        if planned.part.piece_of.is_none() {
            continue;
        }
        let mark = planned.part.written_mark();
        match wholes.iter_mut().find(|(whole, _)| whole == mark) {
            Some((_, mass)) => *mass += part.all,
            None => wholes.push((mark.to_owned(), part.all)),
        }
    }
    wholes
}

fn wholes_words(flats: &Flats, parts: &[WeighedPart]) -> Option<Vec<Passage>> {
    let wholes = wholes(flats, parts);
    if wholes.is_empty() {
        return None;
    }
    let unit = units(flats).0.name();
    let centre = "Σ(weight × place) / Σ weight, every piece where the shape puts it";
    let columns = vec![
        Column::words("made of pieces"),
        Column::numbers(format!("all its pieces, {unit}"), "sum of the printed weights of its pieces above"),
        Column::numbers(
            "box put together",
            "smallest upright box round the pieces of one where the shape puts them",
        )
        .as_words(),
        Column::numbers("centre: x", centre),
        Column::numbers("y", centre),
        Column::numbers("z", centre),
    ];
    let mut unplaced: Vec<&str> = Vec::new();
    let mut rows = Vec::new();
    for (mark, mass) in &wholes {
        let mut row = vec![mark.clone(), mass_number(flats, *mass)];
        match standing::whole(flats, mark) {
            Some(whole) => {
                let [size, centre] = whole.boxed().map(|of| of.map(|length| length_words(flats, length)));
                row.push(size.join(" × "));
                row.extend(centre);
            }
            None => {
                unplaced.push(mark);
                row.resize(columns.len(), String::new());
            }
        }
        rows.push(row);
    }
    let mut text =
        "The centre of a whole is from the left, front and lower sides of its box, put together.\n"
            .to_owned();
    if !unplaced.is_empty() {
        text.push_str(&format!(
            "Where every piece stands is not known of {}: no centre of it is worked out.\n",
            unplaced.join(", ")
        ));
    }
    Some(vec![sheet(columns, rows, None), Passage::Words(text)])
}

fn lid_words(flats: &Flats, asked: &HingedLid, planned: &PlannedLid) -> Vec<Passage> {
    let (mass, torque) = units(flats);
    let [behind, above] = asked.pin.map(|length| length_words(flats, length));
    let head = format!(
        "{} hinged at {}, pin {behind} behind that side and {above} above its lower edge; closed and level\n\n",
        planned.mark, asked.hinge
    );
    let centre = "Σ(weight × place) / Σ weight";
    let columns = vec![
        Column::words("what"),
        Column::numbers(
            mass.name(),
            "the part's printed weight, or weight of the hardware in the job (weights, lids)",
        )
        .summed("sum of the column"),
        Column::numbers("out from pin", "centre of the weight, or place in the job, less the pin's")
            .summed(centre),
        Column::numbers("up from pin", "centre of the weight, or place in the job, less the pin's")
            .summed(centre),
        Column::numbers(format!("moment, {}", torque.name()), moment_words(flats, "out from pin"))
            .summed("sum of the column"),
    ];
    let row = |load: &HungLoad| {
        vec![
            load.what.clone(),
            mass_number(flats, load.mass),
            length_words(flats, load.out),
            length_words(flats, load.up),
            torque_number(flats, closed_moment(flats, load)),
        ]
    };
    let centre = planned.lid.centre().map(|at| [at.x, at.y].map(Length::from_millimetres));
    let [out, up] = centre.map_or([String::new(), String::new()], |at| at.map(|at| length_words(flats, at)));
    let sum = vec![
        "in all".to_owned(),
        mass_number(flats, planned.lid.mass()),
        out,
        up,
        torque_number(flats, lid_moment(flats, planned)),
    ];
    let table = sheet(columns, planned.lid.loads.iter().map(row).collect(), Some(sum));
    let mut text = format!(
        "moment = {}; the sum's places are its centre, Σ(weight × place) / Σ weight.\n",
        moment_words(flats, "out from pin")
    );
    if let Some((handle, force)) = asked.handle.and_then(|at| Some((at, planned.lid.force_at_handle(at)?))) {
        text.push_str(&format!(
            "To lift it from closed at a handle {} out takes {}, pulled square to the lid.\n",
            length_words(flats, handle),
            force_words(flats, force)
        ));
    }
    text.push_str(&falling_words(asked, planned));
    vec![Passage::Heading(head), table, Passage::Words(text)]
}

/// What keeps a lid from falling shut.
fn falling_words(asked: &HingedLid, planned: &PlannedLid) -> String {
    match &asked.struts {
        Some(struts) => format!(
            "That is without its {} gas struts, which have a sum of their own under \"Gas struts of {}\".\n\
             A strut that has lost its gas lets it fall shut: prop it before you reach under it.\n",
            struts.mounts.count, planned.mark
        ),
        None => "Without a stay that is fixed it falls shut: prop it before you reach under it.\n".to_owned(),
    }
}

fn lid_moment(flats: &Flats, planned: &PlannedLid) -> Torque {
    planned.lid.loads.iter().map(|load| closed_moment(flats, load)).sum()
}

fn stations_words(flats: &Flats, stations: &Stations) -> Result<Vec<Passage>, Refusal> {
    let loading = loading(flats, stations);
    let (mass, torque) = units(flats);
    let columns = vec![
        Column::words("what"),
        Column::numbers(mass.name(), "the part's printed weight, or weight in the job (weights, stations)")
            .summed("sum of the column"),
        Column::numbers("station", "place in the job (weights, stations)")
            .summed("Σ(weight × station) / Σ weight"),
        Column::numbers(format!("moment, {}", torque.name()), moment_words(flats, "station"))
            .summed("sum of the column"),
    ];
    let row = |load: &estimate::StationLoad| {
        vec![
            load.what.clone(),
            mass_number(flats, load.mass),
            length_words(flats, load.at),
            torque_number(flats, station_moment(flats, load)),
        ]
    };
    let centre = loading.centre_mm().map(Length::from_millimetres);
    let sum = vec![
        "in all".to_owned(),
        mass_number(flats, loading.mass()),
        centre.map_or_else(String::new, |at| length_words(flats, at)),
        torque_number(flats, loading.loads.iter().map(|load| station_moment(flats, load)).sum()),
    ];
    let head = format!("{}: stations from {}\n\n", stations.name, stations.datum);
    let table = sheet(columns, loading.loads.iter().map(row).collect(), Some(sum));
    let mut text = format!(
        "moment = {}; the sum's station is its centre, Σ(weight × station) / Σ weight.\n",
        moment_words(flats, "station")
    );
    text.extend(soft_goods::left_out(&flats.job).map(|words| words + "\n"));
    if let Some((supports, carried)) = carried(flats, stations, &loading)? {
        for (support, mass) in supports.iter().zip(carried) {
            let note = if mass < Mass::ZERO { ": below zero, it must be held down" } else { "" };
            let (at, mass) = (length_words(flats, support.at), mass_words(flats, mass));
            text.push_str(&format!("{} at {at} carries {mass}{note}\n", support.name));
        }
        text.push_str(
            "by moments about the other support; limits of axle, coupling and hull are their makers'.\n",
        );
    }
    Ok(vec![Passage::Heading(head), table, Passage::Words(text)])
}

fn station_moment(flats: &Flats, load: &estimate::StationLoad) -> Torque {
    let unit = units(flats).1;
    load.moment().as_printed(unit, unit.places())
}

type Carried<'a> = Option<(&'a [estimate::Support; 2], [Mass; 2])>;

/// What the supports carry: the second as it prints, the first the rest.
fn carried<'a>(flats: &Flats, stations: &'a Stations, loading: &Loading) -> Result<Carried<'a>, Refusal> {
    let Some(supports) = &stations.supports else { return Ok(None) };
    let [_, second] = loading
        .carried(supports)
        .map_err(|fault| Refusal::bad(format!("{}: {}: {fault}", flats.file, stations.name)))?;
    let second = second.as_printed(units(flats).0, MASS_PLACES);
    Ok(Some((supports, [loading.mass() - second, second])))
}
