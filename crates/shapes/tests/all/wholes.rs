//! Wholes: every piece laid flat, refolded and put where its recipe says that it stands. None lies in another, and the box round
//! them is the one that the sizes ask for.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use crate::common::{inches, making, split_deck};
use fold::facets;
use fold::refold::{PlacedPiece, measure_whole};
use geometry::{Frame, Point, Point3};
use shapes::day_box::{BackCut, CutCorner, CutStyle, SetBox};
use shapes::edge::EdgeEnd;
use shapes::hopper::{Hopper, HopperMade, HopperStands};
use shapes::pan::{Pan, PanPlan, Rim};
use shapes::tapered_lid::{LidMade, Split};
use shapes::transition::MadeOf;
use shapes::tray::Tray;
use shapes::{Chosen, CornerStyle, FactValue, Making, Recipe};
use units::Angle;

/// The box round all pieces, inches, and that none lies in another.
pub(crate) fn stood(recipe: &dyn Recipe, making: &Making) -> [f64; 3] {
    stood_but(recipe, making, 0)
}

/// The same, the last few not looked at: what is let into a hole of another that is not round, which the measure takes for metal.
fn stood_but(recipe: &dyn Recipe, making: &Making, let_in: usize) -> [f64; 3] {
    let places = recipe.put_together(making);
    assert!(1 < places.len());
    let part = |piece: usize| {
        recipe.shape_piece(piece, making).unwrap_or_else(|problems| panic!("{problems:?}")).part
    };
    let parts: Vec<_> = places.iter().map(|(piece, _)| part(*piece)).collect();
    let flats: Vec<_> = parts.iter().map(|part| fold::flat::unfold(part).unwrap()).collect();
    let names: Vec<String> = places.iter().map(|(piece, _)| format!("piece {piece}")).collect();
    let placed: Vec<PlacedPiece<'_>> = (0..places.len())
        .map(|number| PlacedPiece {
            name: &names[number],
            part: &parts[number],
            flat: &flats[number],
            root: places[number].1,
        })
        .collect();
    let proof = measure_whole(&placed[..placed.len() - let_in], &[]).unwrap();
    assert!(proof.deepest.is_none(), "{:?}", proof.deepest);
    let mut corners: Vec<Point3> = Vec::new();
    for piece in &placed {
        let drawn: Frame = piece.flat.faces[0].placement.frame();
        for corner in facets::of(piece.flat).facets.iter().flat_map(|facet| &facet.rings[0]) {
            let (plan, z): (Point, f64) = drawn.local(*corner);
            corners.push(piece.root.place(plan, z));
        }
    }
    let reach = |of: fn(&Point3) -> f64| {
        let ends = corners.iter().map(of);
        (ends.clone().fold(f64::NEG_INFINITY, f64::max) - ends.fold(f64::INFINITY, f64::min)) / 25.4
    };
    [reach(|at| at.x), reach(|at| at.y), reach(|at| at.z)]
}

fn assert_box(found: [f64; 3], expected: [f64; 3], within: f64) {
    let off = found.iter().zip(expected).map(|(found, expected)| (found - expected).abs());
    assert!(off.fold(0.0, f64::max) < within, "{found:?}, not {expected:?}");
}

/// The words of one size of a whole.
fn size(recipe: &dyn Recipe, making: &Making, name: &str) -> String {
    let sizes = recipe.whole_sizes(making);
    let fact = sizes.iter().find(|fact| fact.name.contains(name)).unwrap_or_else(|| panic!("{sizes:?}"));
    match &fact.value {
        FactValue::Words(words) => words.clone(),
        value => panic!("{value:?}"),
    }
}

/// By hand: rim 72 × 42 to the inside, .063 of plumb leg on each side; 1 of drip below the rim, 18 of rise, 3 of collar.
#[test]
fn four_plates_of_a_canopy_stand_round_its_rim_either_way_up() {
    let making = making(".063", ".063", 0.42);
    let weld_flange = Some(inches("5/8"));
    for made in [crate::hoppers::FOUR, HopperMade::FourPlates { weld_flange }, HopperMade::TwoHalves] {
        let canopy = crate::hoppers::canopy(made);
        assert_box(stood(&canopy, &making), [72.126, 42.126, 22.0], 0.001);
        let hopper = Hopper { stands: HopperStands::RimUp, ..canopy };
        assert_box(stood(&hopper, &making), [72.126, 42.126, 22.0], 0.001);
        // √(72² + 42²).
        assert!(size(&hopper, &making, "rim, inside").contains("A to C 83.355"));
    }
}

/// By hand: 92 long, 13 wide; 10.5 + .09 + .09 from the top's outside down, and of the rear flange, 1 up from the underside
/// of the top, .91 above it.
#[test]
fn plates_of_a_locker_stand_together() {
    let corner = CornerStyle::Butt { through: Chosen::LongSides };
    let making = Making { corner, ..making(".090", ".090", 0.42) };
    let gig = crate::lockers::gig();
    assert_box(stood(&gig, &making), [92.0, 13.0, 11.59], 0.001);
    // √(92² + 13²).
    assert!(size(&gig, &making, "diagonals of the top").contains("92.914"));
}

/// The outline is 22 long and 38 high, the sides 28 over their outsides; the recess's rim lies on the face of its leg, which
/// leans: .025 before the foot.
#[test]
fn a_console_stands_with_its_recess_in_its_leg() {
    let console = crate::consoles::console();
    assert_box(stood_but(&console, &crate::consoles::skin(), 1), [22.025, 28.0, 38.0], 0.01);
    // √(28² + (22 − the sides' own shortening)²): over both corners of the sides at the foot.
    let words = size(&console, &crate::consoles::skin(), "open side AB");
    let across: f64 = words.split(' ').nth(1).unwrap().parse().unwrap();
    assert!((across - geometry::trig::hypot(28.0, 21.749)).abs() < 0.002, "{words}");
}

/// A tray with dividers both ways, its walls leaning by these degrees.
pub(crate) fn tray(lean: [f64; 4]) -> Tray {
    let plan = PanPlan::Outside { length: inches("24"), width: inches("12") };
    let rims = vec![Rim::Out(inches("1/2"))];
    let lean = lean.map(Angle::from_degrees).to_vec();
    Tray {
        pan: Pan { plan, height: inches("3"), rims, lean, edge: EdgeEnd::Plain },
        across: vec![inches("8"), inches("16")],
        along: vec![inches("5")],
        height: inches("2"),
        play: inches("1/32"),
        flange: Some(inches("1/2")),
    }
}

#[test]
fn dividers_stand_in_their_tray() {
    let tray = tray([0.0; 4]);
    let making = making(".063", ".063", 0.42);
    assert_box(stood(&tray, &making), [25.0, 13.0, 3.0], 0.001);
    assert_eq!(size(&tray, &making, "dividers across"), "8.000, 16.000");
}

/// 60 long, 13 1/4 at its widest station, flanges 1 1/2 down; a frame every 7 1/2, the ends not counted.
#[test]
fn lengths_and_strips_of_a_deck_stand_together_with_frames_across() {
    let deck = split_deck();
    let making = making(".125", ".1875", 0.42);
    assert_box(stood(&deck, &making), [60.0, 13.25, 1.5], 0.03);
    let frames = deck.lines_across(&making);
    assert_eq!(frames.len(), 7);
    // At 22 1/2 the deck is half way from 12 1/4 to 12 7/8 wide.
    let [from, to] = frames[2].1;
    assert!((from.x / 25.4 - 22.5).abs() < 1e-6 && (to.y / 25.4 - 12.5625).abs() < 1e-6, "{frames:?}");
    // √(60² + 12²).
    assert!(size(&deck, &making, "diagonals").contains("inboard aft to outboard forward 61.188"));
}

/// A box with a stepped back comes in three pieces, its rim 1 1/4 round a face 16 wide.
#[test]
fn ends_of_a_set_box_stand_at_its_shell() {
    let set = SetBox {
        width: inches("16"),
        height: inches("9"),
        depth_top: inches("5"),
        depth_bottom: inches("7"),
        face_lean: Angle::from_degrees(20.0),
        cut: Some(BackCut {
            corner: CutCorner::Lower,
            back: inches("2 1/2"),
            level: inches("2"),
            style: CutStyle::Stepped,
        }),
        rim: Rim::Out(inches("1 1/4")),
        door_lip: None,
    };
    let making = making(".125", ".125", 0.42);
    let [wide, _, _] = stood(&set, &making);
    assert!((wide - 18.5).abs() < 0.001, "{wide}");
    // √(18.5² + 11.5²).
    assert_eq!(size(&set, &making, "diagonals"), "both 21.783 when it is square");
}

/// Rise 2 and skirt 1 1/8, however the lid is made up.
#[test]
fn pieces_of_a_lid_stand_together() {
    let making = making(".125", ".125", 0.42);
    let ends = [("AB", "15"), ("CD", "17")].map(|(side, at)| (side.to_owned(), inches(at)));
    for made in [LidMade::TopAndRing, LidMade::Plates, LidMade::TwoHalves(Split { ends, flange: None })] {
        let lid = crate::made_up_lids::lid(made, crate::made_up_lids::FOUR_SLOPES);
        let [_, _, high] = stood(&lid, &making);
        assert!((high - 3.125).abs() < 0.001, "{high}");
    }
}

#[test]
fn quarters_of_a_transition_stand_together() {
    let transition = crate::round_work::transition(MadeOf::Quarters);
    let [long, wide, _] = stood(&transition, &making(".050", ".050", 0.42));
    assert!((long - 14.0).abs() < 0.2 && (wide - 12.0).abs() < 0.2, "{long} × {wide}");
}

/// The mirror image of a whole is that of its pieces: its box is the same.
#[test]
fn the_other_hand_stands_as_the_mirror_image() {
    let place = Frame { origin: Point3::new(3.0, 4.0, 5.0), ..Frame::WORLD };
    let other = place.of_mirrored(geometry::Vector3::new(1.0, 0.0, 0.0));
    // A corner at (2, 1) of the piece is at (−2, 1) of its image.
    let (at, image) = (place.place(Point::new(2.0, 1.0), 0.5), other.place(Point::new(-2.0, 1.0), 0.5));
    assert!(image.distance(Point3::new(-at.x, at.y, at.z)) < 1e-9);
    assert!((other.x.cross(other.y).dot(other.z) - 1.0).abs() < 1e-9, "right-handed");
}
