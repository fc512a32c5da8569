//! Corners of every style and relief: bends are solids, and no metal lies in the round of another's bend. What cannot be cut
//! clear is refused, with how deep. The collision library of `bend_zones` gives a second opinion on what passes.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use std::cell::Cell;

use crate::bend_zones::deepest;
use crate::common::{inches, making, sixteenths};
use fold::FoldedPart;
use fold::refold::{self, RefoldError};
use geometry::{Point, tolerance};
use proptest::prelude::*;
use proptest::test_runner::TestRunner;
use shapes::hopper::{Hopper, HopperMade, HopperStands, RimEdge};
use shapes::pan::{Pan, PanPlan, Rim};
use shapes::tapered_lid::{LidMade, MadeUpLid, TaperedLid};
use shapes::{Chosen, CornerStyle, Figure, Making, Recipe, ReliefHole, ReliefStyle};
use units::{Angle, Length};

/// What the library may find in a part that passes, mm: [`tolerance::ROUND_MM`], and strips of 10° filled out to their hulls
/// stand out of the metal by some hundredths.
const LIBRARY_MM: f64 = 0.15;

/// How many parts were measured, and how many were refused for a bend.
#[derive(Default)]
struct Tally {
    passed: Cell<u32>,
    refused: Cell<u32>,
    cut: Cell<u32>,
}

impl Tally {
    fn look(&self, part: &FoldedPart) -> Result<(), TestCaseError> {
        let Ok(flat) = fold::flat::unfold(part) else { return Err(TestCaseError::reject("of no one flat")) };
        match refold::prove(part, &flat) {
            Ok(_) => {}
            Err(RefoldError::RunsInto { first, second, depth_mm }) => {
                if !first.contains("the bend of") && !second.contains("the bend of") {
                    return Err(TestCaseError::reject("its faces run into one another"));
                }
                prop_assert!(depth_mm > tolerance::ROUND_MM);
                self.refused.set(self.refused.get() + 1);
                return Ok(());
            }
            Err(error) => return Err(TestCaseError::fail(error.to_string())),
        }
        let found = deepest(part, &flat);
        prop_assert!(found.is_none_or(|(deep_mm, ..)| deep_mm < LIBRARY_MM), "{found:?}");
        self.passed.set(self.passed.get() + 1);
        let corners = |face: usize| flat.faces[face].corners.len() > part.faces[face].corners.len();
        let cut = (0..part.faces.len()).any(corners) || flat.zones.iter().any(|zone| zone.len() > 4);
        self.cut.set(self.cut.get() + u32::from(cut));
        Ok(())
    }

    /// At most one in fifty may be refused for a bend; and some must have been cut, or the test shows nothing.
    fn close(&self) {
        let (passed, refused, cut) = (self.passed.get(), self.refused.get(), self.cut.get());
        assert!(50 * refused <= passed + refused, "{refused} refused of {}", passed + refused);
        assert!(0 < cut, "none of {passed} was cut");
    }
}

fn run<T: std::fmt::Debug>(
    cases: u32,
    strategy: impl Strategy<Value = T>,
    part: impl Fn(T) -> Result<Vec<FoldedPart>, TestCaseError>,
) {
    let config = ProptestConfig {
        cases,
        failure_persistence: None,
        max_global_rejects: 4000,
        ..ProptestConfig::default()
    };
    let (tally, mut runner) = (Tally::default(), TestRunner::new(config));
    runner.run(&strategy, |value| part(value)?.iter().try_for_each(|part| tally.look(part))).unwrap();
    tally.close();
}

pub(crate) fn makings() -> impl Strategy<Value = Making> {
    let reliefs = prop::sample::select(vec![
        ReliefStyle::Square,
        ReliefStyle::Round { hole: ReliefHole::Handbook },
        ReliefStyle::TearDrop { hole: ReliefHole::Zone },
    ]);
    (crate::seams::makings(), reliefs).prop_map(|(making, relief)| Making { relief, ..making })
}

#[test]
fn tapered_lids() {
    let insets = prop::collection::vec(sixteenths(16..80), 8);
    let sizes = (sixteenths(16..80), prop::option::of(sixteenths(16..40)));
    run(
        60,
        (makings(), crate::seams::openings(), sizes, insets),
        |(making, over, (rise, return_width), mut inset)| {
            inset.truncate(over.count());
            let lid =
                TaperedLid { over, outset: inches("1/4"), rise, inset, skirt: inches("2"), return_width };
            let shaped = lid.shape(&making).map_err(|_| TestCaseError::reject("no such lid"))?;
            Ok(vec![shaped.part])
        },
    );
}

/// Pans without a rim or with one, each wall leaning as it likes, in all styles of corner and relief.
pub(crate) fn leaning_pan() -> impl Strategy<Value = (Making, Pan)> {
    let rims = prop_oneof![
        Just(Rim::None),
        sixteenths(16..40).prop_map(Rim::Out),
        sixteenths(16..40).prop_map(Rim::In)
    ];
    let leans = prop::collection::vec(0_u32..45, 4);
    let sizes = (sixteenths(160..600), sixteenths(160..500), sixteenths(32..120));
    (makings(), sizes, leans, rims).prop_map(|(making, (length, width, height), leans, rim)| {
        let plan = PanPlan::Outside { length, width };
        let lean = leans.into_iter().map(|degrees| Angle::from_degrees(f64::from(degrees))).collect();
        (making, Pan { plan, height, rims: vec![rim], lean, edge: shapes::edge::EdgeEnd::Plain })
    })
}

#[test]
fn leaning_pans() {
    run(90, leaning_pan(), |(making, pan)| {
        let shaped = pan.shape(&making).map_err(|_| TestCaseError::reject("no such pan"))?;
        Ok(vec![shaped.part])
    });
}

#[test]
fn hoppers() {
    let place = (6.0..12.0_f64, 5.0..9.0_f64, 6.0..20.0_f64);
    let made = prop::sample::select(vec![
        HopperMade::OnePiece,
        HopperMade::TwoHalves,
        HopperMade::FourPlates { weld_flange: None },
    ]);
    let drip = RimEdge::Drip { down: inches("1"), inward: inches("1"), up: inches("1") };
    run(40, (makings(), place, made, any::<bool>()), move |(making, (x, y, rise), made, with_drip)| {
        let figure = |corners: [(f64, f64); 4]| {
            Figure::lettered(&corners.map(|(x, y)| Point::new(x * 25.4, y * 25.4))).unwrap()
        };
        let hopper = Hopper {
            stands: HopperStands::RimDown,
            rim: figure([(0.0, 0.0), (30.0, 0.0), (30.0, 24.0), (0.0, 24.0)]),
            collar: figure([(x, y), (x + 9.0, y), (x + 9.0, y + 8.0), (x, y + 8.0)]),
            rise: Length::from_inches(rise),
            rim_edge: if with_drip { drip } else { RimEdge::None },
            collar_height: with_drip.then(|| inches("2")),
            made,
            least_slope: None,
        };
        let pieces = 0..hopper.pieces().len().max(1);
        let parts: Vec<FoldedPart> =
            pieces.filter_map(|piece| Some(hopper.shape_piece(piece, &making).ok()?.part)).collect();
        if parts.is_empty() { Err(TestCaseError::reject("no such hopper")) } else { Ok(parts) }
    });
}

/// A lap strip outside is carried by a wall that runs on past the corner, under the rim of the other, which is turned out there: its
/// corner is cut clear of that rim and of its bend. Of 237 such pans 44 had run into themselves, by up to a millimetre.
#[test]
fn walls_that_carry_laps_outside_are_cut_clear_of_rims_turned_out() {
    let config = ProptestConfig {
        cases: 120,
        failure_persistence: None,
        max_global_rejects: 4000,
        ..ProptestConfig::default()
    };
    let sheets =
        prop::sample::select(vec![(".063", ".063"), (".125", ".125"), (".125", ".25"), (".190", ".25")]);
    let gaps = prop::sample::select(vec!["0", "1/64", "1/32"]);
    let leans = prop::collection::vec(0_u32..45, 4);
    let sizes = (sixteenths(160..600), sixteenths(160..500), sixteenths(32..120));
    let strategy = (sheets, sixteenths(10..24), any::<bool>(), gaps, leans, sizes, sixteenths(16..40));
    let cut = Cell::new(0);
    let outcome = TestRunner::new(config).run(
        &strategy,
        |((thickness, radius), lap, long, gap, leans, (length, width, height), rim)| {
            let lean = leans.into_iter().map(|degrees| Angle::from_degrees(f64::from(degrees))).collect();
            let plan = PanPlan::Outside { length, width };
            let edge = shapes::edge::EdgeEnd::Plain;
            let pan = Pan { plan, height, rims: vec![Rim::Out(rim)], lean, edge };
            let carried_by = if long { Chosen::LongSides } else { Chosen::ShortSides };
            let corner = CornerStyle::Lap { width: lap, carried_by, outside: true };
            let making = Making { corner, seam_gap: inches(gap), ..making(thickness, radius, 0.42) };
            let part = pan.shape(&making).map_err(|_| TestCaseError::reject("no such pan"))?.part;
            let flat =
                fold::flat::unfold(&part).map_err(|_| TestCaseError::reject("lies on itself in the flat"))?;
            let proof =
                refold::prove(&part, &flat).map_err(|error| TestCaseError::fail(error.to_string()))?;
            prop_assert!(proof.worst_mm < tolerance::REFOLD_MM);
            cut.set(cut.get() + u32::from(flat.seams.iter().any(|seam| !seam.cut_off.is_empty())));
            Ok(())
        },
    );
    outcome.unwrap();
    assert!(50 < cut.get(), "only {} pans were cut: this test shows nothing", cut.get());
}

/// A plumb pan with one wall that leans: the wall that stops at it begins lower than its bend ends, and its corner is cut
/// off clear of the round, no farther than that reaches.
#[test]
fn a_corner_in_the_round_of_a_bend_is_cut_off() {
    let plan = PanPlan::Outside { length: inches("20"), width: inches("12") };
    let lean = [0.0, 0.0, 30.0, 0.0].map(Angle::from_degrees).to_vec();
    let pan =
        Pan { plan, height: inches("4"), rims: vec![Rim::None], lean, edge: shapes::edge::EdgeEnd::Plain };
    let corner = CornerStyle::Butt { through: Chosen::ShortSides };
    let making = Making { corner, ..making(".125", ".25", 0.42) };
    let part = pan.shape(&making).unwrap().part;
    let flat = fold::flat::unfold(&part).unwrap();
    refold::prove(&part, &flat).unwrap();
    let wall = flat.faces.iter().find(|face| face.name == "wall CD").unwrap();
    // Setbacks of .375·tan(turn/2) at turns of 90° and 60°: the wall begins .158 sooner than its neighbours' bends end.
    assert_eq!(wall.corners.len(), 6, "{:?}", wall.corners);
    let design = &part.faces[flat.faces.iter().position(|face| face.name == "wall CD").unwrap()];
    let lost =
        geometry::polygon::signed_area(&design.corners) - geometry::polygon::signed_area(&wall.corners);
    let strip = design.corners[0].distance(design.corners[1])
        * 25.4
        * 0.375
        * geometry::trig::tan(30_f64.to_radians());
    assert!((0.0..25.0).contains(&(lost - strip)), "{lost} {strip}");
}

/// Two bends that touch in one edge of the metal at a relieved corner: the library once took the length of that edge for a
/// depth.
#[test]
fn bends_that_touch_in_an_edge_do_not_lie_in_one_another() {
    let plan = PanPlan::Outside { length: inches("28 3/8"), width: inches("24 3/16") };
    let lean = [38.0, 5.0, 25.0, 19.0].map(Angle::from_degrees).to_vec();
    let rims = vec![Rim::Out(inches("2 1/4"))];
    let pan = Pan { plan, height: inches("2 7/8"), rims, lean, edge: shapes::edge::EdgeEnd::Plain };
    let (tab, clearance) = (inches("1/4"), inches("1/32"));
    let corner = CornerStyle::TabAndSlot { tab, clearance, count: 1, tabs_on: Chosen::LongSides };
    let part = pan.shape(&Making { corner, ..making(".125", ".25", 0.42) }).unwrap().part;
    let flat = fold::flat::unfold(&part).unwrap();
    refold::prove(&part, &flat).unwrap();
    assert_eq!(deepest(&part, &flat), None);
}

/// Low lids made of plates over narrow corners: the slope that runs through reaches past the skirt of the other, whose bend ends
/// later than the skirt does. It had been cut clear of the skirt alone, and ran .004 to .007 in into the bend.
#[test]
fn a_slope_that_runs_through_is_cut_clear_of_the_whole_bend_beside_it() {
    let cases = [
        (
            ".090",
            [(37.159, 0.0), (-18.579, 10.229), (-18.579, -10.229)],
            "1/4",
            ["2 7/16", "1 1/2", "3 7/8"],
            Chosen::LongSides,
        ),
        (
            ".125",
            [(26.3, 0.0), (-13.15, 19.756), (-13.15, -19.756)],
            "5/16",
            ["1 1/2", "1 1/2", "5"],
            Chosen::ShortSides,
        ),
        (
            ".125",
            [(41.409, 0.0), (-20.705, 26.172), (-24.62, -24.299)],
            "1/4",
            ["1 1/2", "1 1/2", "3 7/16"],
            Chosen::LongSides,
        ),
        (
            ".063",
            [(22.463, 0.0), (-11.231, 18.82), (-9.92, -19.497)],
            "1/4",
            ["1 1/2", "4 3/8", "1 1/2"],
            Chosen::LongSides,
        ),
        (
            ".090",
            [(42.867, 9.328), (-10.652, 27.458), (-22.707, -24.462)],
            "1/4",
            ["1 1/2", "3 13/16", "1 1/2"],
            Chosen::ShortSides,
        ),
    ];
    for (thickness, corners, rise, inset, through) in cases {
        let over = Figure::lettered(&corners.map(|(x, y)| Point::new(x * 25.4, y * 25.4))).unwrap();
        let lid = TaperedLid {
            over,
            outset: inches("1/4"),
            rise: inches(rise),
            inset: inset.map(inches).to_vec(),
            skirt: inches("1 1/2"),
            return_width: None,
        };
        let lid = MadeUpLid { lid, ..crate::made_up_lids::lid(LidMade::Plates, ["0"; 4]) };
        let corner = CornerStyle::Butt { through };
        let making = Making { corner, seam_gap: Length::ZERO, ..making(thickness, thickness, 0.42) };
        for piece in 0..lid.pieces().len() {
            let shaped = lid.shape_piece(piece, &making);
            let shaped = shaped.unwrap_or_else(|problems| panic!("{thickness} {rise}: {problems:?}"));
            let flat = shaped.unfold().unwrap();
            refold::prove(&shaped.part, &flat).unwrap();
        }
    }
}
