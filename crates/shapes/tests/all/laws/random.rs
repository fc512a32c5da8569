//! Lids, pans and panels at random, and what they are made of.

use fold::bend::Origin;
use fold::refold::{self, RefoldError};
use fold::{BendNumber, Direction, FlatPattern, FoldedPart};
use geometry::{Point, Vector};
use proptest::prelude::*;
use shapes::lid::{Lid, LidPlan};
use shapes::pan::{Pan, PanPlan, Rim};
use shapes::panel::{Flange, Panel};
use shapes::tapered_lid::TaperedLid;
use shapes::{Figure, Making, ReliefHole, ReliefStyle};
use stock::BendModel;
use units::{Angle, Length, LengthStyle};

use crate::common::{inches, sixteenths};

/// Sheet of usual thicknesses by K-factor, corners sawn or drilled, seams closed or open.
pub(crate) fn makings() -> impl Strategy<Value = Making> {
    let thickness = prop::sample::select(vec![".063", ".080", ".090", ".125", ".1875"]);
    let relief = prop::sample::select(vec![
        ReliefStyle::Square,
        ReliefStyle::Round { hole: ReliefHole::Handbook },
        ReliefStyle::Round { hole: ReliefHole::Diameter(inches("1/2")) },
    ]);
    (thickness, 1_i64..4, 0.33_f64..0.5, relief, 0_i64..4).prop_map(|(thickness, times, k, relief, gap)| {
        let (thickness, model) = (inches(thickness), BendModel::KFactor(k));
        Making {
            number: BendNumber::new(thickness, thickness * times, model, Origin::Job).unwrap(),
            relief,
            corner: shapes::CornerStyle::Open,
            seam_gap: Length::from_sixty_fourths(gap),
            style: LengthStyle::Inches { places: 3 },
        }
    })
}

/// A convex figure of three to six corners on an ellipse.
pub(crate) fn convex() -> impl Strategy<Value = Figure> {
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
pub(crate) fn crooked_openings() -> impl Strategy<Value = Figure> {
    prop::collection::vec(-50.0_f64..50.0, 8).prop_map(|off| {
        let corners = [(0.0, 0.0), (900.0, 0.0), (900.0, 700.0), (0.0, 700.0)];
        let moved = corners.iter().zip(off.chunks(2)).map(|((x, y), off)| Point::new(x + off[0], y + off[1]));
        Figure::lettered(&moved.collect::<Vec<_>>()).unwrap()
    })
}

/// Lids tapered on all sides, with and without a return.
pub(crate) fn tapered_lids() -> impl Strategy<Value = FoldedPart> {
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

/// Rims of pans.
pub(crate) fn rims() -> impl Strategy<Value = Rim> {
    prop_oneof![Just(Rim::None), sixteenths(24..40).prop_map(Rim::Out), sixteenths(24..40).prop_map(Rim::In),]
}

/// Pans with plumb or leaning walls.
pub(crate) fn pans() -> impl Strategy<Value = FoldedPart> {
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
            Pan { plan, height, rims: vec![rim], lean, edge: shapes::edge::EdgeEnd::Plain }
                .shape(&making)
                .ok()
                .map(|shaped| shaped.part)
        },
    )
}

/// Flat lids turned down all round.
pub(crate) fn lids() -> impl Strategy<Value = FoldedPart> {
    (makings(), convex(), sixteenths(24..60), 0_i64..16).prop_filter_map(
        "refused",
        |(making, opening, skirt, gap)| {
            let clearance = shapes::Clearance::single("gap", Length::from_sixty_fourths(gap));
            let lid =
                Lid { plan: LidPlan::Over { opening, clearance }, skirt, edge: shapes::edge::EdgeEnd::Plain };
            lid.shape(&making).ok().map(|shaped| shaped.part)
        },
    )
}

/// Panels with flanges up and down, some stopping short.
pub(crate) fn panels() -> impl Strategy<Value = FoldedPart> {
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
        let panel = Panel {
            outline: outline.clone(),
            flanges,
            holes: Vec::new(),
            notches: Vec::new(),
            edges: Vec::new(),
        };
        panel.shape(&making).ok().map(|shaped| shaped.part)
    })
}

/// Parts that can be laid flat and whose faces do not run into one another when folded, with their flats.
pub(crate) fn flat_parts() -> impl Strategy<Value = (FoldedPart, FlatPattern)> {
    prop_oneof![tapered_lids(), pans(), lids(), panels()].prop_filter_map("cannot be", |part| {
        let flat = fold::flat::unfold(&part).ok()?;
        let runs_into = matches!(refold::prove(&part, &flat), Err(RefoldError::RunsInto { .. }));
        (!runs_into).then_some((part, flat))
    })
}
