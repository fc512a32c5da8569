//! Laws that hold for every part that can be shaped: its flat refolds, mirroring undoes itself, a blank is its legs
//! less its deductions, and a damaged flat is refused.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

mod common;

use common::inches;
use fold::bend::Origin;
use fold::{BendNumber, Direction, FlatPattern, FoldedPart, refold};
use geometry::{Point, Vector, tolerance, trig};
use proptest::prelude::*;
use shapes::lid::{Lid, LidPlan};
use shapes::pan::{Pan, PanPlan, Rim};
use shapes::panel::{Flange, Panel};
use shapes::tapered_lid::TaperedLid;
use shapes::{Figure, Making, ReliefStyle};
use stock::BendModel;
use units::{Angle, Length, LengthStyle};

/// Worst deviation of a refolded flat, mm: a micrometre, a twentieth of what the program itself lets pass.
const WORST_MM: f64 = 0.001;

fn sixteenths(range: std::ops::Range<i64>) -> impl Strategy<Value = Length> {
    range.prop_map(|count| Length::from_sixty_fourths(4 * count))
}

fn makings() -> impl Strategy<Value = Making> {
    let thickness = prop::sample::select(vec![".063", ".080", ".090", ".125", ".1875"]);
    let relief = prop::sample::select(vec![
        ReliefStyle::Square,
        ReliefStyle::Round { diameter: None },
        ReliefStyle::Round { diameter: Some(inches("1/2")) },
    ]);
    (thickness, 1_i64..4, 0.33_f64..0.5, relief, 0_i64..4).prop_map(|(thickness, times, k, relief, gap)| {
        let (thickness, model) = (inches(thickness), BendModel::KFactor(k));
        Making {
            number: BendNumber::new(thickness, thickness * times, model, Origin::Job).unwrap(),
            relief,
            seam_gap: Length::from_sixty_fourths(gap),
            style: LengthStyle::Inches { places: 3 },
        }
    })
}

/// A convex figure of three to six corners on an ellipse.
fn convex() -> impl Strategy<Value = Figure> {
    let corners = (3_usize..=6).prop_flat_map(|count| prop::collection::vec(-0.25_f64..0.25, count));
    (corners, 300.0_f64..1200.0, 300.0_f64..800.0).prop_filter_map("no figure", |(jitter, width, height)| {
        let step = 2.0 * std::f64::consts::PI / jitter.iter().map(|_| 1.0).sum::<f64>();
        let corner = |(jitter, number): (&f64, u32)| {
            let at = Vector::at_angle(step * (f64::from(number) + jitter));
            Point::new(at.x * width, at.y * height)
        };
        let figure = Figure::lettered(&jitter.iter().zip(0..).map(corner).collect::<Vec<_>>())?;
        geometry::polygon::is_convex(&figure.corners).then_some(figure)
    })
}

/// Openings some 36 by 28 inches, no corner where it should be.
fn crooked_openings() -> impl Strategy<Value = Figure> {
    prop::collection::vec(-50.0_f64..50.0, 8).prop_map(|off| {
        let corners = [(0.0, 0.0), (900.0, 0.0), (900.0, 700.0), (0.0, 700.0)];
        let moved = corners.iter().zip(off.chunks(2)).map(|((x, y), off)| Point::new(x + off[0], y + off[1]));
        Figure::lettered(&moved.collect::<Vec<_>>()).unwrap()
    })
}

fn tapered_lids() -> impl Strategy<Value = FoldedPart> {
    let sizes = (sixteenths(0..20), sixteenths(12..90), sixteenths(24..60));
    let insets = prop::collection::vec(sixteenths(16..80), 6);
    let lips = prop::option::of(sixteenths(24..40));
    (makings(), convex(), sizes, insets, lips).prop_filter_map(
        "refused",
        |(making, over, (outset, rise, skirt), mut inset, return_width)| {
            inset.truncate(over.count());
            let lid = TaperedLid { over, outset, rise, inset, skirt, return_width };
            lid.shape(&making).ok().map(|shaped| shaped.part)
        },
    )
}

fn rims() -> impl Strategy<Value = Rim> {
    prop_oneof![Just(Rim::None), sixteenths(24..40).prop_map(Rim::Out), sixteenths(24..40).prop_map(Rim::In),]
}

fn pans() -> impl Strategy<Value = FoldedPart> {
    let sizes = (sixteenths(160..600), sixteenths(160..500), sixteenths(32..120));
    let leans = prop_oneof![Just(Vec::new()), prop::collection::vec(0_u32..45, 4)];
    (makings(), sizes, leans, rims(), prop::bool::ANY).prop_filter_map(
        "refused",
        |(making, (length, width, height), leans, rim, inside)| {
            let plan = if inside {
                PanPlan::InsideFloor { length, width }
            } else {
                PanPlan::Outside { length, width }
            };
            let lean = leans.into_iter().map(|degrees| Angle::from_degrees(f64::from(degrees))).collect();
            Pan { plan, height, rim, lean }.shape(&making).ok().map(|shaped| shaped.part)
        },
    )
}

fn lids() -> impl Strategy<Value = FoldedPart> {
    (makings(), convex(), sixteenths(24..60), 0_i64..16).prop_filter_map(
        "refused",
        |(making, opening, skirt, gap)| {
            let clearances = vec![("gap".to_owned(), Length::from_sixty_fourths(gap))];
            let lid = Lid { plan: LidPlan::Over { opening, clearances }, skirt };
            lid.shape(&making).ok().map(|shaped| shaped.part)
        },
    )
}

fn panels() -> impl Strategy<Value = FoldedPart> {
    let side = (prop::bool::ANY, prop::bool::ANY, sixteenths(24..50), 20_u32..140, prop::bool::ANY);
    let sides = prop::collection::vec(side, 6);
    (makings(), convex(), sides).prop_filter_map("refused", |(making, outline, sides)| {
        let bent = outline.sides.iter().zip(sides).filter(|(_, (bent, ..))| *bent);
        let flange =
            |(side, (_, up, leg, degrees, short)): (&String, (bool, bool, Length, u32, bool))| Flange {
                side: side.clone(),
                leg,
                direction: if up { Direction::Up } else { Direction::Down },
                turn: Angle::from_degrees(f64::from(degrees)),
                short: if short { [inches("1 1/2"), inches("2")] } else { [Length::ZERO; 2] },
            };
        let flanges: Vec<Flange> = bent.map(flange).collect();
        let panel = Panel { outline: outline.clone(), flanges, holes: Vec::new(), notches: Vec::new() };
        panel.shape(&making).ok().map(|shaped| shaped.part)
    })
}

/// Parts that can be laid flat, with their flats.
fn flat_parts() -> impl Strategy<Value = (FoldedPart, FlatPattern)> {
    prop_oneof![tapered_lids(), pans(), lids(), panels()]
        .prop_filter_map("not of one piece", |part| fold::flat::unfold(&part).ok().map(|flat| (part, flat)))
}

fn same_places(first: &FoldedPart, second: &FoldedPart) -> bool {
    let near = |(a, b): (&Point, &Point)| a.distance(*b) <= tolerance::SAME_POINT_MM;
    first.faces.iter().zip(&second.faces).all(|(a, b)| {
        a.name == b.name
            && a.edges == b.edges
            && a.corners.len() == b.corners.len()
            && a.corners.iter().zip(&b.corners).all(near)
    }) && first.bends == second.bends
        && first.seams == second.seams
        && first.sizes == second.sizes
        && first.faces.len() == second.faces.len()
}

/// The flat with bend number `number` changed.
fn damaged(flat: &FlatPattern, number: usize, change: impl Fn(&mut fold::flat::BendLine)) -> FlatPattern {
    let mut flat = flat.clone();
    change(&mut flat.bends[number]);
    flat
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, ..ProptestConfig::default() })]

    #[test]
    fn every_flat_refolds((part, flat) in flat_parts()) {
        let proof = refold::prove(&part, &flat).unwrap();
        prop_assert!(proof.worst_mm < WORST_MM, "{}", proof.worst_mm);
        for other in [part.mirrored(), part.seen_from_back()] {
            let flat = fold::flat::unfold(&other).unwrap();
            let proof = refold::prove(&other, &flat).unwrap();
            prop_assert!(proof.worst_mm < WORST_MM, "{}", proof.worst_mm);
        }
    }

    #[test]
    fn mirrored_twice_is_the_part_itself((part, _) in flat_parts()) {
        prop_assert!(same_places(&part, &part.mirrored().mirrored()));
        prop_assert!(same_places(&part, &part.seen_from_back().seen_from_back()));
    }

    #[test]
    fn the_opposite_hand_and_the_back_have_the_same_blank((part, flat) in flat_parts()) {
        let (width, height) = flat.extents_mm();
        for other in [part.mirrored(), part.seen_from_back()] {
            let other = fold::flat::unfold(&other).unwrap();
            let off = (other.outline.area_mm2() - flat.outline.area_mm2()).abs();
            prop_assert!(off < WORST_MM * (width + height), "{off}");
            let (other_width, other_height) = other.extents_mm();
            prop_assert!((other_width - width).abs() < WORST_MM);
            prop_assert!((other_height - height).abs() < WORST_MM);
        }
    }

    // Source: the deduction formula; legs run mold line to mold line, so an outward rim's leg starts at the inside
    // of the wall, a thickness in.
    #[test]
    fn the_blank_of_a_plumb_pan_is_its_legs_less_its_deductions(
        making in makings(),
        length in sixteenths(160..600),
        width in sixteenths(160..500),
        height in sixteenths(32..120),
        rim in rims(),
    ) {
        let pan = Pan { plan: PanPlan::Outside { length, width }, height, rim, lean: Vec::new() };
        let Ok(shaped) = pan.shape(&making) else { return Err(TestCaseError::reject("refused")) };
        let Ok(flat) = shaped.unfold() else { return Err(TestCaseError::reject("not of one piece")) };
        let (thickness, radius) = (making.thickness_mm(), making.number.inside_radius().millimetres());
        let BendModel::KFactor(k) = making.number.model() else { panic!("by K-factor") };
        let deduction = 2.0 * (radius + thickness) - std::f64::consts::FRAC_PI_2 * (radius + k * thickness);
        let added = match rim {
            Rim::None => 0.0,
            Rim::Out(width) => width.millimetres() + thickness - deduction,
            Rim::In(width) => width.millimetres() - deduction,
        };
        let (found_length, found_width) = flat.extents_mm();
        for (found, floor) in [(found_length, length), (found_width, width)] {
            let expected = floor.millimetres() + 2.0 * (height.millimetres() - deduction + added);
            prop_assert!((found - expected).abs() < tolerance::SAME_POINT_MM, "{found} for {expected}");
        }
    }

    // What a shop makes every week: no inset more than twice another, no radius above twice the thickness.
    #[test]
    fn an_ordinary_hatch_lid_is_never_refused(
        thickness in prop::sample::select(vec![".063", ".080", ".090", ".125", ".1875"]),
        double in prop::bool::ANY,
        drilled in prop::bool::ANY,
        over in crooked_openings(),
        rise in sixteenths(8..48),
        inset in prop::collection::vec(sixteenths(24..48), 4),
        skirt in sixteenths(16..48),
    ) {
        let thickness = inches(thickness);
        let (radius, model) = (thickness * if double { 2 } else { 1 }, BendModel::KFactor(0.42));
        let making = Making {
            number: BendNumber::new(thickness, radius, model, Origin::Job).unwrap(),
            relief: if drilled { ReliefStyle::Round { diameter: None } } else { ReliefStyle::Square },
            seam_gap: Length::ZERO,
            style: LengthStyle::Inches { places: 3 },
        };
        let lid = TaperedLid { over, outset: inches("7/8"), rise, inset, skirt, return_width: None };
        let flat = lid.shape(&making).unwrap().unfold();
        prop_assert!(flat.is_ok(), "{flat:?}");
    }

    // Each damage lands the plate beyond at least .05 mm, or its far edge a tenth of a degree, from its place; the
    // program refuses from .02 mm on.
    #[test]
    fn a_damaged_flat_is_refused((part, flat) in flat_parts()) {
        let off_mm = 0.05;
        for number in 0..flat.bends.len() {
            let half_turn = 0.5 * flat.bends[number].turn_rad;
            let moved = damaged(&flat, number, |bend| {
                let by = bend.across() * (off_mm / (2.0 * trig::sin(half_turn)));
                (bend.from, bend.to) = (bend.from + by, bend.to + by);
            });
            let widened = damaged(&flat, number, |bend| bend.zone_mm += off_mm / trig::cos(half_turn));
            let narrowed = damaged(&flat, number, |bend| bend.zone_mm -= off_mm / trig::cos(half_turn));
            let turned = damaged(&flat, number, |bend| bend.turn_rad += 0.1_f64.to_radians());
            let reversed = damaged(&flat, number, |bend| bend.direction = bend.direction.reversed());
            for (what, flat) in [
                ("moved", moved),
                ("widened", widened),
                ("narrowed", narrowed),
                ("turned", turned),
                ("reversed", reversed),
            ] {
                prop_assert!(refold::prove(&part, &flat).is_err(), "bend {number} {what}");
            }
        }
    }
}
