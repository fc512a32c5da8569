//! What is told of every bend is what a tape finds on the folded metal: where the outsides of both plates cross, and past a quarter
//! turn the outermost metal. Legs so taped, less the deduction told, are the flat: of every shape that has bends.

use fold::facets::{self, Place};
use fold::flat::BendLine;
use fold::part::Forming;
use fold::{FlatPattern, FoldedPart, flat, refold};
use geometry::{Frame, tolerance};
use proptest::prelude::*;
use shapes::coaming::{Coaming, CoamingMade};
use shapes::day_box::DayBox;
use shapes::edge::{EdgeEnd, HemKind};
use shapes::gutter::Gutter;
use shapes::hopper::HopperMade;
use shapes::pan::{Pan, PanPlan, Rim};
use shapes::{Figure, Recipe};
use units::Angle;

use super::random::flat_parts;
use crate::common::{inches, making, split_deck};

/// Bends are drawn as strips of at most 10°: the farthest of a strip lies within 1 − cos 5° of the outer radius.
const OF_STRIP: f64 = 0.0039;

/// From a bend's tangent line on one of its faces out to what a tape finds there, mm.
fn taped_mm(part: &FoldedPart, flat: &FlatPattern, frames: &[Frame], number: usize, on_child: bool) -> f64 {
    let bend: &BendLine = &flat.bends[number];
    let (face, other) = if on_child { (bend.child, bend.parent) } else { (bend.parent, bend.child) };
    let outward = if on_child { -bend.across() } else { bend.across() };
    let tangent = bend.from - outward * (0.5 * bend.zone_mm);
    let (frame, toward) = (&frames[face], frames[face].direct(outward));
    if bend.turn_rad <= std::f64::consts::FRAC_PI_2 + tolerance::PARALLEL_SINE {
        let outside_mm = part.side_mm(bend.direction.outside());
        let plane = frames[other].plane(outside_mm);
        return -plane.distance(frame.place(tangent, outside_mm)) / plane.normal.dot(toward);
    }
    let start = frame.place(tangent, 0.0);
    let of_bend = facets::of(flat).facets.into_iter().filter(|facet| facet.place == Place::Bend(number));
    let places = of_bend.flat_map(|facet| facet.rings.concat());
    places.map(|place| (place - start).dot(toward)).fold(0.0, f64::max)
}

/// How many bends past a quarter turn a part has, all its bends found as they are told.
fn as_told(part: &FoldedPart, flat: &FlatPattern, what: &str) -> usize {
    let frames = refold::fold(flat);
    let is_one_bend = |bend: &&BendLine| !matches!(bend.forming, Forming::Sprung);
    let mut past = 0;
    for number in 0..flat.bends.len() {
        let bend = &flat.bends[number];
        if !is_one_bend(&bend) {
            continue;
        }
        let told_mm = part.taped_setback_mm(number);
        let found_mm = [false, true].map(|on_child| taped_mm(part, flat, &frames, number, on_child));
        let within_mm = tolerance::REFOLD_MM + OF_STRIP * (bend.inside_radius_mm + flat.thickness_mm);
        for mm in found_mm {
            assert!((mm - told_mm).abs() < within_mm, "{what} bend {number}: {mm}, told {told_mm}");
        }
        // Both legs as found, less the zone that the flat has between their tangent lines.
        let deduction_mm = found_mm[0] + found_mm[1] - bend.zone_mm;
        let told_mm = part.taped_deduction_mm(number);
        assert!((deduction_mm - told_mm).abs() < 2.0 * within_mm, "{what}: {deduction_mm}, told {told_mm}");
        past += usize::from(std::f64::consts::FRAC_PI_2 + tolerance::PARALLEL_SINE < bend.turn_rad);
    }
    past
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn every_bend_of_lids_pans_and_panels_is_as_a_tape_finds_it((part, flat) in flat_parts()) {
        as_told(&part, &flat, "at random");
    }

    #[test]
    fn every_bend_of_shapes_with_leaning_plates_is_as_a_tape_finds_it(
        leans in prop::collection::vec(3_u32..40, 4),
        corner in (2.0_f64..12.0, 8.0_f64..24.0),
        turn in 95_u32..145,
        radius in prop::sample::select(vec![".063", ".125", ".1875"]),
    ) {
        let making = making(".080", radius, 0.42);
        let lean: Vec<Angle> = leans.iter().map(|lean| Angle::from_degrees(f64::from(*lean))).collect();
        let plan = PanPlan::Outside { length: inches("24"), width: inches("18") };
        let pan = Pan { plan, height: inches("4"), rims: vec![Rim::In(inches("1 1/4"))], lean, edge: EdgeEnd::Plain };
        let corners = [(0.0, 0.0), (24.0, 0.0), corner].map(|(x, y)| geometry::Point::new(x * 25.4, y * 25.4));
        let opening = Figure::lettered(&corners).unwrap();
        let coaming = Coaming {
            opening: opening.clone(),
            outset: inches("1/8"),
            height: inches("3"),
            top: Rim::None,
            made: CoamingMade::Strip,
        };
        let gutter = Gutter {
            opening,
            outset: inches("1/2"),
            width: inches("2"),
            depth: inches("1 1/2"),
            inner_depth: inches("1 3/4"),
            drain: None,
        };
        let lip = EdgeEnd::Return {
            length: inches("1"),
            turn: Angle::from_degrees(f64::from(turn)),
            way: None,
        };
        let lipped = Pan { edge: lip, rims: vec![Rim::None], ..pan.clone() };
        let hem = EdgeEnd::Hem { kind: HemKind::Open { gap: inches("1/8") }, length: inches("5/8"), way: None };
        let hemmed = Pan { edge: hem, rims: vec![Rim::None], ..pan.clone() };
        let shapes: [(&dyn Recipe, usize); 5] = [(&pan, 4), (&coaming, 1), (&gutter, 0), (&lipped, 4), (&hemmed, 4)];
        for (recipe, least) in shapes {
            for piece in 0..recipe.pieces().len().max(1) {
                let Ok(shaped) = recipe.shape_piece(piece, &making) else { continue };
                let Ok(flat) = flat::unfold(&shaped.part) else { continue };
                prop_assert!(least <= as_told(&shaped.part, &flat, recipe.word()), "{}", recipe.word());
            }
        }
    }
}

/// One of every other shape: day boxes with each rim and set in a leaning face, a step, a tray, a bulkhead, a hopper of one piece. At
/// every bend both legs as a tape finds them on the folded metal, less the deduction told, are the flat.
#[test]
fn every_bend_of_boxes_steps_trays_bulkheads_and_hoppers_is_as_a_tape_finds_it() {
    let [thick, thin] = [making(".125", ".125", 0.42), making(".063", ".063", 0.42)];
    let day_box = |rim| DayBox {
        width: inches("18"),
        height: inches("14"),
        depth_top: inches("9"),
        depth_bottom: inches("6 1/2"),
        back_height: inches("12"),
        rim,
    };
    let boxes = [Rim::None, Rim::Out(inches("1")), Rim::In(inches("3/4"))].map(day_box);
    let set = crate::corners_of_panels::set_box(None);
    let step = crate::put_together::step(&[("8", "1/4"), ("24", "13")]);
    let tray = crate::wholes::tray([5.0, 10.0, 5.0, 0.0]);
    let bulkhead = crate::bulkheads::bulkhead();
    let [one, halves] = [HopperMade::OnePiece, HopperMade::TwoHalves].map(crate::hoppers::canopy);
    let mut shapes: Vec<(&dyn Recipe, &shapes::Making, usize)> =
        boxes.iter().zip([4, 8, 8]).map(|(day_box, least)| (day_box as &dyn Recipe, &thin, least)).collect();
    shapes.extend([
        (&set as &dyn Recipe, &thin, 8),
        (&step, &thick, 1),
        (&tray, &thin, 12),
        (&bulkhead, &thick, 3),
        (&one, &thin, 6),
        (&halves, &thin, 5),
    ]);
    for (recipe, making, least) in shapes {
        let mut bends = 0;
        for piece in 0..recipe.pieces().len().max(1) {
            let part = recipe.shape_piece(piece, making).unwrap().part;
            let flat = flat::unfold(&part).unwrap();
            as_told(&part, &flat, recipe.word());
            bends += flat.bends.len();
        }
        assert!(least <= bends, "{}: {bends}", recipe.word());
    }
}

/// One of every other shape: decks, consoles, lockers, hoppers, canopies.
#[test]
fn every_bend_of_the_other_shapes_is_as_a_tape_finds_it() {
    let thick = making(".125", ".125", 0.42);
    let thin = making(".063", ".063", 0.42);
    let corner = shapes::CornerStyle::Butt { through: shapes::Chosen::LongSides };
    let locker_making = shapes::Making { corner, ..making(".090", ".090", 0.42) };
    let skin = crate::consoles::skin();
    let (deck, console, gig) = (split_deck(), crate::consoles::console(), crate::lockers::gig());
    let canopy = crate::hoppers::canopy(crate::hoppers::FOUR);
    let shapes: [(&dyn Recipe, &shapes::Making); 4] =
        [(&deck, &thick), (&console, &skin), (&gig, &locker_making), (&canopy, &thin)];
    for (recipe, making) in shapes {
        let mut bends = 0;
        for piece in 0..recipe.pieces().len().max(1) {
            let part = recipe.shape_piece(piece, making).unwrap().part;
            let flat = flat::unfold(&part).unwrap();
            as_told(&part, &flat, recipe.word());
            bends += flat.bends.len();
        }
        assert!(bends > 0, "{}", recipe.word());
    }
}
