//! Nesting the flats of one metal on its sheets.

use geometry::grid::{GridOutline, GridPoint, Turn};
use geometry::outline::Chords;
use geometry::tolerance::GRID_STEP_MM;
use geometry::{Outline, Point, Vector};
use job::{Cutting, Job, JobSheet, Turns};
use nest::rect::Cut;
use nest::{Choice, Comparison, NestError, Nested};
use units::{Area, Length, LengthStyle};

use super::by_order;
use super::grid::{steps_down, steps_up};
use super::kept_drops;
use super::no_nest::nest_refusal;
use super::part::PlannedPart;
use super::stock_shape::{StockShape, laid_size, sheet_words, stock_shape};
use super::straight_cuts;
use super::use_of_sheet::LaidSheet;
use crate::speech::Refusal;

/// How long each choice of sheets is looked at unless the job says; the packet states it. Enough for a boat's worth of
/// parts in about a second; more of it seldom saves a sheet.
pub(super) const EFFORT: nest::Effort = nest::Effort { evaluations: 10_000, starts: 4, seed: 1 };

/// How long each choice of sheets of this job is looked at.
pub(crate) fn effort(job: &Job) -> nest::Effort {
    let job::Nesting { evaluations, seed } = job.shop.nesting;
    nest::Effort {
        evaluations: evaluations.unwrap_or(EFFORT.evaluations),
        seed: seed.unwrap_or(EFFORT.seed),
        ..EFFORT
    }
}

/// The sheets of one metal with what lies on them.
#[derive(Debug, Clone)]
pub(crate) struct MetalNest {
    /// Which metal, by its place in the job.
    pub(crate) metal: usize,
    /// The sheet sizes that were compared, as in the comparison.
    pub(crate) sizes: Vec<JobSheet>,
    /// For each of them, where the nest's origin lies on it.
    origins: Vec<GridPoint>,
    /// Every size alone, and the best mix.
    pub(crate) comparison: Comparison,
    /// For every row how its sheets are cut up: what is kept of them goes by that.
    orders: Vec<SheetOrders>,
    /// The sheets of the best row.
    pub(crate) sheets: Vec<PlannedSheet>,
}

/// How the sheets of a row are cut up, one by one, and the cuts of each that serve two parts.
type SheetOrders = Vec<(CuttingOrder, Vec<nest::SharedCut>)>;

/// One sheet to cut.
#[derive(Debug, Clone)]
pub(crate) struct PlannedSheet {
    /// "skin-1".
    pub(crate) mark: String,
    /// Its pieces, kerf, drops.
    pub(crate) laid: LaidSheet,
    /// Every piece.
    pub(crate) pieces: Vec<PlannedPiece>,
    /// How it is cut up.
    pub(crate) order: CuttingOrder,
    /// Cuts that serve two parts; pieces are numbered as on the sheet.
    pub(crate) shared: Vec<nest::SharedCut>,
}

/// How a sheet is cut up, step by step. Coordinates are grid steps.
#[derive(Debug, Clone)]
pub(crate) enum CuttingOrder {
    /// By saw or torch, from the sheet's own corner; pieces are numbered as on the sheet.
    ByHand(Vec<nest::Step>),
    /// Cuts of the shear, from the corner of the trimmed sheet.
    Sheared(Vec<Cut>),
}

/// One piece on a sheet.
#[derive(Debug, Clone)]
pub(crate) struct PlannedPiece {
    /// Which part, by its place in the plan.
    pub(crate) part: usize,
    /// Which of its copies, from 1.
    pub(crate) copy: u32,
    /// Where its flat lies.
    pub(crate) place: FlatPlace,
}

/// Where a flat lies on a sheet: turned over about its x axis or not, turned about its datum corner, then moved.
#[derive(Debug, Clone, Copy)]
pub(crate) struct FlatPlace {
    /// True when the marked face is down: what is up on its layout sheet is down before it is turned.
    pub(crate) over: bool,
    /// Counter-clockwise turn of the flat.
    pub(crate) turn: Turn,
    /// Where its datum corner comes to lie, mm.
    pub(crate) datum: Point,
}

impl FlatPlace {
    /// Where a point of the flat comes to lie on the sheet. Quarter turns are exact.
    pub(crate) fn place(&self, point: Point) -> Point {
        let v = point - Point::default();
        let v = if self.over { Vector::new(v.x, -v.y) } else { v };
        let turned = match self.turn.quarters() {
            Some(0) => v,
            Some(1) => v.left(),
            Some(2) => -v,
            Some(_) => v.right(),
            None => v.turned(self.turn.radians()),
        };
        self.datum + turned
    }
}

/// The nests of one metal on every choice of sheets, before one is chosen.
pub(super) struct Compared {
    pub(super) metal: usize,
    pub(super) sizes: Vec<JobSheet>,
    origins: Vec<GridPoint>,
    problem: nest::Problem,
    pub(super) comparison: Comparison,
    /// Of the shear: for every row the cuts of its sheets.
    sheared: Option<Vec<Vec<Vec<Cut>>>>,
}

/// Nests all parts of one metal.
pub(super) fn compare(
    file: &str,
    job: &Job,
    metal: usize,
    parts: &[PlannedPart],
    (watch, pace): (&nest::Watch<'_>, nest::Pace<'_>),
) -> Result<Compared, Refusal> {
    let members = members(metal, parts);
    let sizes: Vec<JobSheet> = job.sheets.iter().filter(|sheet| sheet.metal == metal).cloned().collect();
    let (problem, origins) = problem(file, job, metal, (&members, parts), &sizes)?;
    let offers = by_order::offers(job, &sizes);
    // What is still to come after this look of all sizes, or of those of an offer.
    let begin = |later: usize| {
        let more = later * choices(job, metal);
        move |left: usize| (pace.begin)(if left == 0 { 0 } else { left + more })
    };
    let first = begin(offers.len());
    let paced = nest::Pace { begin: &first, ..pace };
    let mut looked = look(file, job, (metal, parts), &problem, (watch, paced))?;
    // Numbers of sizes are others there.
    let quiet = nest::Watch { progress: &|_| {}, ..*watch };
    let count = offers.len();
    for (number, offer) in offers.into_iter().enumerate() {
        let own = begin(count - number - 1);
        let paced = nest::Pace { begin: &own, ..pace };
        let (offered, at_prices): (Vec<usize>, Vec<JobSheet>) = offer.into_iter().unzip();
        let (other, _) = self::problem(file, job, metal, (&members, parts), &at_prices)?;
        match look(file, job, (metal, parts), &other, (&quiet, paced)) {
            Ok(found) => by_order::add(file, &problem, &offered, found, &mut looked)?,
            Err(failed @ Refusal::ProofFailed(_)) => return Err(failed),
            // What these sizes do not hold is cut from others.
            Err(_) => {}
        }
    }
    let Looked { comparison, cuts: sheared } = looked;
    Ok(Compared { metal, sizes, origins, problem, comparison, sheared })
}

/// How many choices of sheets of a metal there are: every size alone, and their mix.
pub(super) fn choices(job: &Job, metal: usize) -> usize {
    let sizes = job.sheets.iter().filter(|sheet| sheet.metal == metal).count();
    sizes + usize::from(1 < sizes)
}

/// What was found.
pub(super) struct Looked {
    pub(super) comparison: Comparison,
    /// Of the shear: for every row the cuts of its sheets.
    pub(super) cuts: Option<Vec<Vec<Vec<Cut>>>>,
}

fn look(
    file: &str,
    job: &Job,
    of_metal: (usize, &[PlannedPart]),
    problem: &nest::Problem,
    (watch, pace): (&nest::Watch<'_>, nest::Pace<'_>),
) -> Result<Looked, Refusal> {
    let refused = |error: NestError| nest_refusal(file, job, of_metal, &error);
    let effort = effort(job);
    Ok(match job.shop.cutting {
        Cutting::ByHand => {
            let comparison = nest::compare_paced(problem, &effort, watch, Some(pace)).map_err(refused)?;
            Looked { comparison, cuts: None }
        }
        Cutting::Shear { longest_cut, rounds } => {
            let longest_cut = longest_cut.map(steps_down);
            let shear = nest::rect::Shear { stages: rounds, longest_cut, kerf: steps_up(job.shop.kerf) };
            let sheared = nest::shear::compare(problem, shear, &effort, watch).map_err(refused)?;
            Looked { comparison: sheared.comparison, cuts: Some(sheared.cuts) }
        }
    })
}

fn members(metal: usize, parts: &[PlannedPart]) -> Vec<usize> {
    (0..parts.len()).filter(|&part| parts[part].part.metal == metal).collect()
}

impl Compared {
    /// The rows that may be chosen, the one with the cheapest sheets first; where a sheet has no price, the one with the
    /// least area alone.
    pub(super) fn ranked(&self) -> Vec<usize> {
        let mut ranked = nest::ranked(&self.problem, &self.comparison.rows);
        if !self.problem.is_priced() {
            ranked.truncate(1);
        }
        ranked
    }

    /// Whether this row takes pieces of the rack.
    pub(super) fn takes_of_rack(&self, row: usize) -> bool {
        let Ok(nested) = &self.comparison.rows[row].outcome else { return false };
        let used = self.sizes.iter().zip(&nested.take.sheets).filter(|(_, count)| 0 < **count);
        used.into_iter().any(|(size, _)| size.from_rack.is_some())
    }

    /// What can be used of the largest drop that this row leaves to keep; nothing where it leaves none.
    pub(super) fn largest_drop(&self, job: &Job, row: usize) -> Area {
        let Ok(nested) = &self.comparison.rows[row].outcome else { return Area::ZERO };
        let kept = nested.drops.iter().flat_map(|drops| kept_drops(job, drops));
        kept.map(|drop| super::area_of(drop.area())).max().unwrap_or(Area::ZERO)
    }

    /// The sheets of this row, which is chosen, in the order in which they are cut up.
    pub(super) fn chosen(self, job: &Job, parts: &[PlannedPart], row: usize) -> MetalNest {
        let own = members(self.metal, parts);
        let rows = 0..self.comparison.rows.len();
        let orders: Vec<SheetOrders> = rows.map(|row| self.orders(job, &own, row)).collect();
        let Self { metal, sizes, origins, mut comparison, .. } = self;
        comparison.best = row;
        let mut nest = MetalNest { metal, sizes, origins, comparison, orders, sheets: Vec::new() };
        nest.sheets = nest.sheets_of_row(job, parts, row);
        nest
    }

    /// How every sheet of a row is cut up; nothing where it holds no nest.
    fn orders(&self, job: &Job, own: &[usize], row: usize) -> SheetOrders {
        let Ok(nested) = &self.comparison.rows[row].outcome else { return Vec::new() };
        if let Some(cuts) = &self.sheared {
            let sheared = |cuts: &Vec<Cut>| (CuttingOrder::Sheared(cuts.clone()), Vec::new());
            return cuts[row].iter().map(sheared).collect();
        }
        let strips = job.kit.as_ref().map_or(&[][..], |kit| &kit.test_strips);
        let is_strip = |step: &nest::Step, sheet: &nest::Sheet| match *step {
            nest::Step::CutOuts(piece) | nest::Step::Outline(piece) => {
                strips.contains(&own[sheet.placements[piece].part])
            }
            nest::Step::Shared(cut) => [cut.first, cut.second]
                .iter()
                .any(|&piece| strips.contains(&own[sheet.placements[piece].part])),
            nest::Step::Across { .. } | nest::Step::Drop(_) | nest::Step::FromCutOut { .. } => false,
        };
        let by_hand = |(sheet, drops): (&nest::Sheet, &Vec<nest::Drop>)| {
            let kept = kept_drops(job, drops);
            let mut order = nest::cutting_order(&self.problem, sheet, &kept, steps_up(job.shop.kerf));
            // A strip proves the number that the others are laid out by: it is cut and bent before them.
            order.sort_by_key(|step| !is_strip(step, sheet));
            (CuttingOrder::ByHand(order), nest::shared_cuts(&self.problem, sheet))
        };
        nested.nest.sheets.iter().zip(&nested.drops).map(by_hand).collect()
    }
}

impl MetalNest {
    /// The sheets of any row of the comparison; none where the row holds no nest.
    pub(crate) fn sheets_of_row(&self, job: &Job, parts: &[PlannedPart], row: usize) -> Vec<PlannedSheet> {
        let nested = self.comparison.rows[row].outcome.as_ref();
        nested.map_or_else(
            |_| Vec::new(),
            |nested| {
                let sizes = (&self.sizes[..], &self.origins[..]);
                let members = members(self.metal, parts);
                let orders = self.orders[row].clone();
                planned_sheets(job, self.metal, (&members, parts), sizes, (nested, orders))
            },
        )
    }
}

/// Base turn that brings the flat's lay along x.
fn base_turn(part: &PlannedPart) -> Turn {
    if part.lay_across() { Turn::QUARTER } else { Turn::NONE }
}

/// The problem, and for each size of sheet where the nest's origin lies on it.
fn problem(
    file: &str,
    job: &Job,
    metal: usize,
    (members, parts): (&[usize], &[PlannedPart]),
    sizes: &[JobSheet],
) -> Result<(nest::Problem, Vec<GridPoint>), Refusal> {
    let has_lay = job.metals[metal].metal.lay.is_some();
    let mut nest_parts = Vec::new();
    for &member in members {
        let part = &parts[member];
        let polygon = part.flat.outline.to_polygon(Chords::Outside);
        let outline = GridOutline::from_polygon_within(&polygon, part.flat.outline.bounds())
            .map_err(|error| Refusal::ProofFailed(format!("{file}: {}: {error}", part.part.mark)))?;
        let turns = match (has_lay, part.part.turns.as_ref().unwrap_or(&job.metals[metal].turns)) {
            (true, _) | (false, Turns::Half) => nest::Turns::Half,
            (false, Turns::Quarter) => nest::Turns::Quarter,
            (false, Turns::Any) => nest::Turns::Any,
            (false, Turns::Listed(turns)) => {
                nest::Turns::Listed(turns.iter().map(|&turn| Turn::from_millidegrees(turn)).collect())
            }
        };
        nest_parts.push(nest::Part {
            mark: part.part.mark.clone(),
            outline: outline.turned(base_turn(part)),
            quantity: part.part.quantity,
            turns,
            mirror: if part.part.may_mirror { nest::Mirror::Allowed } else { nest::Mirror::Never },
        });
    }
    let shaped = sizes.iter().map(|sheet| stock_of(file, job, sheet));
    let (stock, origins) = shaped.collect::<Result<Vec<_>, _>>()?.into_iter().unzip();
    let rules = nest::Rules {
        gap: steps_up(job.shop.gap),
        edge_trim: steps_up(job.shop.edge_trim),
        least_drop: job.shop.keep_drop.map_or(i64::MAX, |[smaller, _]| steps_up(smaller)),
    };
    let number =
        |part: &usize| members.iter().position(|&member| parts[member].part.mark == job.parts[*part].mark);
    let own = |group: &job::OneSheet| -> Option<nest::Together> {
        let parts = group.parts.iter().map(number);
        Some(nest::Together { parts: parts.collect::<Option<_>>()?, same_lay: group.same_turn })
    };
    let together = job.one_sheet.iter().filter_map(own).collect();
    let problem = nest::Problem::new(nest_parts, stock, rules).and_then(|problem| problem.keeping(together));
    let problem = problem.map(|problem| problem.sawn(steps_up(job.shop.kerf)));
    let shared = job.shop.shared_cuts.then(|| steps_up(job.shop.kerf));
    let problem = problem.map(|problem| match shared {
        Some(kerf) => problem.sharing_cuts(kerf),
        None => problem,
    });
    let problem = problem.map_err(|faults| {
        Refusal::BadInput(faults.iter().map(|fault| fault_words(file, job, fault)).collect())
    })?;
    Ok((problem, origins))
}

/// What the job gave that cannot be nested, by its field where it is one.
fn fault_words(file: &str, job: &Job, fault: &nest::ProblemFault) -> String {
    let print = |length: Length| length.print(job.style);
    let (gap, trim) = (print(job.shop.gap), print(job.shop.edge_trim));
    match fault {
        nest::ProblemFault::GapTooWide { name } => format!(
            "{file}: shop.gap: {gap}: wider than {name} inside its edge trim of {trim}\n    give the room that the cut needs \
             between two parts, or a larger sheet"
        ),
        nest::ProblemFault::TrimmedAway { name } => format!(
            "{file}: shop.edge_trim: {trim}: nothing of {name} is left inside it\n    give what is cut off every edge, or a \
             larger sheet"
        ),
        _ => format!("{file}: {fault}\n    check parts, sheets, gap and edge trim"),
    }
}

/// A sheet as the nest sees it, lay along x, and where the nest's origin lies on it.
fn stock_of(file: &str, job: &Job, sheet: &JobSheet) -> Result<(nest::Stock, GridPoint), Refusal> {
    let name = sheet_words(sheet, job.style);
    let StockShape { shape, origin } = stock_shape(job, sheet).map_err(|error| {
        let remedy = "leave it out of the rack, or cut it to a simpler outline";
        Refusal::bad(format!("{file}: {name}: cannot be nested on: {error}\n    {remedy}"))
    })?;
    let price = sheet.price.and_then(|price| u64::try_from(price.cents()).ok());
    Ok((nest::Stock { name, shape, price, limit: sheet.count }, origin))
}

#[expect(clippy::cast_precision_loss, reason = "sheets are far smaller than 2^53 steps")]
fn point_of(point: GridPoint) -> Point {
    Point::new(point.x as f64 * GRID_STEP_MM, point.y as f64 * GRID_STEP_MM)
}

fn planned_sheets(
    job: &Job,
    metal: usize,
    (members, parts): (&[usize], &[PlannedPart]),
    (sizes, origins): (&[JobSheet], &[GridPoint]),
    (nested, orders): (&Nested, Vec<(CuttingOrder, Vec<nest::SharedCut>)>),
) -> Vec<PlannedSheet> {
    let name = &job.metals[metal].metal.name;
    let mut copies = vec![0; parts.len()];
    let mut sheets = Vec::new();
    let laid_out = nested.nest.sheets.iter().zip(&nested.drops).zip(orders);
    for (number, ((sheet, drops), (order, shared))) in laid_out.enumerate() {
        let mut pieces = Vec::new();
        let (size, origin) = (&sizes[sheet.stock], origins[sheet.stock]);
        for placement in &sheet.placements {
            let part = members[placement.part];
            copies[part] += 1;
            let nest::Pose { over, turn } = placement.pose;
            let base = base_turn(&parts[part]).millidegrees();
            // Turned over after the base turn is turned over before it and turned back.
            let base = if over { Turn::FULL_MILLIDEGREES - base } else { base };
            let turn = Turn::from_millidegrees(base + turn.millidegrees());
            let place = FlatPlace { over, turn, datum: point_of(placement.shift + origin) };
            pieces.push(PlannedPiece { part, copy: copies[part], place });
        }
        let mark = format!("{name}-{}", number + 1);
        let usable: Vec<[Point; 2]> =
            kept_drops(job, drops).iter().map(|drop| placed(drop, origin)).collect();
        let size_mm = laid_size(job, size).map(Length::millimetres);
        let laid = LaidSheet {
            name: format!("{mark} ({})", sheet_words(size, job.style)),
            metal: name.clone(),
            size: laid_size(job, size),
            outline: size.outline.clone(),
            edge_trim: job.shop.edge_trim,
            kerf: job.shop.kerf,
            weight_per_area: size.weight_per_area(&job.metals[metal].metal),
            thickness: size.thickness,
            from_rack: size.from_rack.clone(),
            face: size.face,
            price: size.price,
            pieces: pieces.iter().map(|piece| laid_piece(&parts[piece.part], piece)).collect(),
            drops: kept_drops::kept(job, &order, (size_mm, size.outline.is_some()), &usable),
            notes: size.notes.clone(),
            straight_cuts: straight_cuts::kerfs(job, &order),
        };
        sheets.push(PlannedSheet { mark, laid, pieces, order, shared });
    }
    sheets
}

fn laid_piece(part: &PlannedPart, piece: &PlannedPiece) -> (String, Outline) {
    (part.part.mark.clone(), part.flat.outline.mapped(piece.place.over, |point| piece.place.place(point)))
}

/// Drops that reach the job's least size both ways.
fn kept_drops(job: &Job, drops: &[nest::Drop]) -> Vec<nest::Drop> {
    let Some(least) = job.shop.keep_drop else { return Vec::new() };
    let [smaller, larger] = least.map(steps_up);
    let large_enough = |drop: &&nest::Drop| {
        let size = drop.high - drop.low;
        smaller <= size.x.min(size.y) && larger <= size.x.max(size.y)
    };
    drops.iter().filter(large_enough).copied().collect()
}

/// Lower left and upper right corner of a drop on its sheet.
fn placed(drop: &nest::Drop, origin: GridPoint) -> [Point; 2] {
    [drop.low, drop.high].map(|corner| point_of(corner + origin))
}

/// What a row of the comparison uses, in words.
pub(crate) fn choice_words(nest: &MetalNest, choice: Choice, style: LengthStyle) -> String {
    match choice {
        Choice::Alone(size) => sheet_words(&nest.sizes[size], style),
        Choice::Mix => "best mix".to_owned(),
    }
}

/// What a row of a metal uses, before there is a nest: "48 × 96", "a mix of its sizes".
pub(super) fn sizes_words(job: &Job, metal: usize, choice: Choice) -> String {
    let mut sizes = job.sheets.iter().filter(|sheet| sheet.metal == metal);
    let size = match choice {
        Choice::Alone(size) => sizes.nth(size),
        Choice::Mix => None,
    };
    size.map_or_else(|| "a mix of its sizes".to_owned(), |size| sheet_words(size, job.style))
}
