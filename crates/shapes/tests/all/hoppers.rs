//! Hoppers and canopies: slants, slopes and hips against worked and published values; every piece refolds and closes.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use crate::common::{inches, making, value};
use fold::part::Measure;
use geometry::{Point, Point3};
use proptest::prelude::*;
use shapes::hopper::{Hopper, HopperMade, HopperStands, RimEdge};
use shapes::{Figure, Making, Recipe, Shaped};
use units::Angle;

fn figure(corners: [(f64, f64); 4]) -> Figure {
    let corners = corners.map(|(x, y)| Point::new(x * 25.4, y * 25.4));
    Figure::lettered(&corners).unwrap()
}

/// An exhaust canopy: rim 72 × 42, collar 20 × 14, 22 from the left, 20 from the front, rise 18.
pub(crate) fn canopy(made: HopperMade) -> Hopper {
    Hopper {
        stands: HopperStands::RimDown,
        rim: figure([(0.0, 0.0), (72.0, 0.0), (72.0, 42.0), (0.0, 42.0)]),
        collar: figure([(22.0, 20.0), (42.0, 20.0), (42.0, 34.0), (22.0, 34.0)]),
        rise: inches("18"),
        rim_edge: RimEdge::Drip { down: inches("1"), inward: inches("1"), up: inches("1") },
        collar_height: Some(inches("3")),
        made,
        least_slope: None,
    }
}

pub(crate) const FOUR: HopperMade = HopperMade::FourPlates { weld_flange: None };

fn thin() -> Making {
    making(".063", ".063", 0.42)
}

/// All pieces, each unfolded and proven by refolding.
fn proven(hopper: &Hopper, making: &Making) -> Vec<Shaped> {
    let count = hopper.pieces().len().max(1);
    let piece = |number: usize| {
        let shaped = hopper.shape_piece(number, making).unwrap();
        let flat = shaped.unfold().unwrap_or_else(|error| panic!("piece {number}: {error}"));
        let proof = fold::refold::prove(&shaped.part, &flat).unwrap();
        assert!(proof.worst_mm < 0.001, "{}", proof.worst_mm);
        shaped
    };
    (0..count).map(piece).collect()
}

// Source of the check values: worked from the same inputs by a separate script from the rise and the four runs (22, 30,
// 20, 8), then cross-checked; an invented canopy.
#[test]
fn slants_slopes_hips_and_area_of_a_canopy() {
    let facts = proven(&canopy(FOUR), &thin()).remove(0).facts;
    let sides = [("AB", 26.907, 41.99), ("CD", 19.698, 66.04), ("DA", 28.425, 39.29), ("BC", 34.986, 30.96)];
    for (side, slant, slope) in sides {
        assert!((value(&facts, &format!("slant {side}, inside")) - slant).abs() < 0.0005);
        assert!((value(&facts, &format!("slope {side}")) - slope).abs() < 0.005);
    }
    for (corner, hip) in [("A", 34.756), ("B", 40.299), ("D", 29.530), ("C", 35.889)] {
        assert!((value(&facts, &format!("hip {corner}, inside")) - hip).abs() < 0.0005);
    }
    let area = facts.iter().find(|fact| fact.name == "the four faces, inside").map(|fact| &fact.value);
    let Some(shapes::FactValue::Area(area)) = area else { panic!("no area") };
    assert!((area.square_millimetres() / (304.8 * 304.8) - 27.22).abs() < 0.005);
}

#[test]
fn every_way_of_making_refolds() {
    let flanged = HopperMade::FourPlates { weld_flange: Some(inches("5/8")) };
    for (made, pieces) in [(FOUR, 4), (flanged, 4), (HopperMade::TwoHalves, 3), (HopperMade::OnePiece, 2)] {
        assert_eq!(proven(&canopy(made), &thin()).len(), pieces);
    }
}

/// A hip with a flange to weld to is a seam of both its pieces: the flange lies on the face, whose edge stands over the round of
/// the flange's bend (plane geometry, worked out here from the inside angle φ: its inside edge stands T·cot(180° − φ) short of the
/// bend's corner).
#[test]
fn hips_with_weld_flanges_are_measured_on_both_pieces() {
    let hopper = canopy(HopperMade::FourPlates { weld_flange: Some(inches("5/8")) });
    let thickness_and_radius = 0.063 * 25.4 + thin().number.inside_radius().millimetres();
    for piece in 0..4 {
        let shaped = hopper.shape_piece(piece, &thin()).unwrap();
        let hips: Vec<_> = shaped.facts.iter().filter(|fact| fact.name.starts_with("weld hip ")).collect();
        assert_eq!(hips.len(), 4, "{:?}", shaped.facts);
        for fact in hips {
            let gap = fact.gap.as_ref().unwrap();
            assert!(gap.interference_mm < 0.02, "{fact:?}");
            if fact.name.contains("edge of face") {
                let turn = std::f64::consts::PI - gap.inside_angle_rad;
                let short = 0.063 * 25.4 / geometry::trig::tan(turn);
                let from_tangent = thickness_and_radius * geometry::trig::tan(0.5 * turn) - short;
                let radius = thickness_and_radius;
                let over = (from_tangent * from_tangent + radius * radius).sqrt() - radius;
                assert!(0.0 < from_tangent, "{fact:?}");
                assert!((gap.designed_mm - over).abs() < 0.001, "{fact:?} {over}");
                assert!((gap.least_mm - over).abs() < 0.02, "{fact:?} {over}");
                assert!((gap.largest_mm - over).abs() < 0.02, "{fact:?} {over}");
            } else {
                assert!(gap.made.starts_with("lap"), "{fact:?}");
                assert!(gap.designed_mm.abs() < 1e-9 && gap.largest_mm < 0.02, "{fact:?}");
            }
        }
    }
}

#[test]
fn a_face_too_flat_is_refused_with_how_far_the_collar_must_move() {
    let hopper = Hopper { least_slope: Some(Angle::from_degrees(35.0)), ..canopy(FOUR) };
    let problems = hopper.shape_piece(0, &thin()).unwrap_err();
    assert_eq!(problems.len(), 1, "{problems:?}");
    assert!(problems[0].value.contains("BC"));
    assert!(problems[0].wrong.contains("30.96°"), "{}", problems[0]);
    // 18 / tan 35° = 25.707, so 30 − 25.707 = 4.293 to move.
    assert!(problems[0].remedy.contains("4.293") && problems[0].remedy.contains("25.707"), "{}", problems[0]);
}

#[test]
fn a_turned_collar_makes_triangles_that_refold() {
    let turned = |degrees: f64| {
        let centre = Point::new(32.0 * 25.4, 21.0 * 25.4);
        let mut hopper = canopy(FOUR);
        let about =
            |p: Point| centre + (p - Point::new(32.0 * 25.4, 27.0 * 25.4)).turned(degrees.to_radians());
        hopper.collar =
            Figure { corners: hopper.collar.corners.iter().map(|&p| about(p)).collect(), ..hopper.collar };
        hopper
    };
    for degrees in [-40.0, -5.0, 12.0, 45.0] {
        for edge in [RimEdge::None, RimEdge::Flange(inches("1"))] {
            let hopper = Hopper { rim_edge: edge, ..turned(degrees) };
            let shaped = proven(&hopper, &thin());
            assert_eq!(shaped.len(), 4);
            assert!(shaped[0].facts.iter().any(|fact| fact.name == "face AB"), "says that it is warped");
        }
        let whole = Hopper { rim_edge: RimEdge::None, made: HopperMade::TwoHalves, ..turned(degrees) };
        assert_eq!(proven(&whole, &thin()).len(), 3);
    }
}

#[test]
fn a_rim_flange_on_bent_hips_is_refused_because_it_would_overlap() {
    let hopper = Hopper { rim_edge: RimEdge::Flange(inches("1")), ..canopy(HopperMade::TwoHalves) };
    let problems = hopper.shape_piece(0, &thin()).unwrap_err();
    assert!(problems[0].wrong.contains("would lie on one another"), "{}", problems[0]);
}

/// Faces of four plates without rim or collar, seen from outside: how far the collar's edge begins from the left end of
/// the rim's, with the rim turned down, inches.
fn from_left(hopper: &Hopper, face: usize) -> f64 {
    let shaped = hopper.shape_piece(face, &thin()).unwrap();
    assert_eq!(shaped.facts[0].name, "stands");
    let corners = shaped.unfold().unwrap().outline.outer.corners(geometry::outline::Chords::On);
    let edges: Vec<(Point, Point)> = geometry::polygon::edges(&corners).collect();
    let rim = edges.iter().max_by(|a, b| a.0.distance(a.1).total_cmp(&b.0.distance(b.1))).unwrap();
    // Counter-clockwise from outside, the metal lies to the left of the rim: the rim runs from its left end.
    let along = (rim.1 - rim.0).unit();
    let off = |p: &Point| (*p - rim.0).dot(along.left());
    let high = corners.iter().map(off).fold(0.0, f64::max);
    let collar = corners.iter().filter(|p| off(p) > 0.5 * high).map(|p| (*p - rim.0).dot(along));
    collar.fold(f64::INFINITY, f64::min) / 25.4
}

// Plane geometry, worked by hand: taped from above, counter-clockwise, A is the left end of AB to who stands before it. The
// collar begins 22 from A and ends 30 from B. Rim down, the face turned rim down begins 22 from its left end; rim up, it is
// turned over end for end, and begins 30 from its left end. Of BC: 20 from B, 8 from C. The metal is .063 thick.
#[test]
fn the_same_sizes_rim_up_and_rim_down_make_opposite_hands() {
    use HopperStands::{RimDown, RimUp};
    for (stands, expected) in [(RimDown, [22.0, 20.0]), (RimUp, [30.0, 8.0])] {
        let bare = Hopper { stands, rim_edge: RimEdge::None, collar_height: None, ..canopy(FOUR) };
        for (face, expected) in expected.into_iter().enumerate() {
            let found = from_left(&bare, face);
            assert!((found - expected).abs() < 0.1, "{stands:?} face {face}: {found}, expected {expected}");
        }
        proven(&bare, &thin());
    }
}

fn frustum(rim: (f64, f64), collar: [(f64, f64); 4], rise: f64) -> Hopper {
    Hopper {
        stands: HopperStands::RimDown,
        rim: figure([(0.0, 0.0), (rim.0, 0.0), (rim.0, rim.1), (0.0, rim.1)]),
        collar: figure(collar),
        rise: units::Length::from_inches(rise),
        rim_edge: RimEdge::None,
        collar_height: None,
        made: FOUR,
        least_slope: None,
    }
}

// Source: mathcentral.uregina.ca, a sheet-metal hood 28 × 36 drawn in to 6 × 6 over a height of 16: slopes of its faces
// as printed; slants, hip and corner angle derived from them.
#[test]
fn a_hood_drawn_in_to_a_square() {
    let hood = frustum((28.0, 36.0), [(11.0, 15.0), (17.0, 15.0), (17.0, 21.0), (11.0, 21.0)], 16.0);
    let facts = proven(&hood, &thin()).remove(0).facts;
    for (side, slope, slant) in [("AB", 46.85, 21.931_71), ("BC", 55.49, 19.416_49)] {
        assert!((value(&facts, &format!("slope {side}")) - slope).abs() < 0.005_01);
        assert!((value(&facts, &format!("slant {side}, inside")) - slant).abs() < 0.000_006);
    }
    for corner in ["A", "B", "C", "D"] {
        assert!((value(&facts, &format!("hip {corner}, inside")) - 24.535_69).abs() < 0.000_006);
        assert!((value(&facts, &format!("inside angle at hip {corner}")) - 112.797_31).abs() < 0.000_006);
    }
}

// Source: roof framing, unequal pitches over a square corner: 12/12 and 8/12, backing 36.03989 + 17.92021 (row of fixtures/published/hip_backing.json);
// equal pitch 12/12, corner angle 120° (framing square, run 12).
#[test]
fn corner_angles_of_hoppers_are_those_of_hip_roofs() {
    let angle = |runs: (f64, f64), rise: f64| {
        let (x, y) = (40.0, 40.0);
        let collar = [(runs.0, runs.1), (x - runs.0, runs.1), (x - runs.0, y - runs.1), (runs.0, y - runs.1)];
        value(&proven(&frustum((x, y), collar, rise), &thin()).remove(0).facts, "inside angle at hip A")
    };
    assert!((180.0 - angle((12.0, 18.0), 12.0) - 36.039_89 - 17.920_21).abs() < 0.000_02);
    assert!((angle((12.0, 12.0), 12.0) - 120.0).abs() < 0.000_006);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    // Any rim and collar without inside corners: every piece refolds, and every seam inside a piece is as wide along
    // its whole length as was asked.
    #[test]
    fn random_hoppers_refold_and_close(
        shift in proptest::array::uniform8(-2.0..2.0f64),
        place in (6.0..12.0f64, 5.0..9.0f64),
        rise in 6.0..20.0f64,
        turned in -30.0..30.0f64,
        gap in 0.0..0.06f64,
        halves: bool,
    ) {
        let [a, b, c, d, e, f, g, h] = shift;
        let rim = [(a, b), (30.0 + c, d), (30.0 + e, 24.0 + f), (g, 24.0 + h)];
        let (x, y) = place;
        let mut hopper = frustum((30.0, 24.0), [(x, y), (x + 9.0, y), (x + 9.0, y + 8.0), (x, y + 8.0)], rise);
        hopper.rim = figure(rim);
        let centre = Point::new((x + 4.5) * 25.4, (y + 4.0) * 25.4);
        hopper.collar.corners.iter_mut().for_each(|p| *p = centre + (*p - centre).turned(turned.to_radians()));
        hopper.made = if halves { HopperMade::TwoHalves } else { FOUR };
        let making = Making { seam_gap: units::Length::from_inches(gap), ..thin() };
        for number in 0..hopper.pieces().len() {
            let shaped = match hopper.shape_piece(number, &making) {
                Ok(shaped) => shaped,
                // At the tips of warped faces bent hips may overlap, and the trims of a warped face may meet: both are
                // refused in words.
                Err(problems) => {
                    let overlap = halves && problems[0].wrong.contains("would lie on one another");
                    prop_assert!(overlap || problems[0].wrong.contains("nothing is left of it"), "{problems:?}");
                    continue;
                }
            };
            let flat = shaped.unfold().map_err(|error| TestCaseError::fail(error.to_string()))?;
            let proof = fold::refold::prove(&shaped.part, &flat).map_err(|error| TestCaseError::fail(error.to_string()))?;
            prop_assert!(proof.worst_mm < 0.001, "{}", proof.worst_mm);
        }
    }
}

/// A canopy so low that a channel turned inside and flanges to weld to run into one another: what would do is said, and does.
#[test]
fn edges_in_a_canopy_too_low_for_them_say_which_would_do() {
    let low = |rise: &str, flange: Option<&str>| Hopper {
        rise: inches(rise),
        rim_edge: RimEdge::Drip { down: inches("1 1/4"), inward: inches("1 1/4"), up: inches("1 1/4") },
        collar_height: None,
        ..canopy(HopperMade::FourPlates { weld_flange: flange.map(inches) })
    };
    let works = |hopper: &Hopper| {
        (0..4).all(|piece| {
            let shaped = hopper.shape_piece(piece, &thin());
            shaped.is_ok_and(|shaped| {
                shaped.unfold().is_ok_and(|flat| fold::refold::prove(&shaped.part, &flat).is_ok())
            })
        })
    };
    let mut refused = 0;
    for rise in ["1/2", "1", "2", "4", "8"] {
        let hopper = low(rise, Some("1 1/2"));
        let Some(problem) = (0..4).find_map(|piece| hopper.shape_piece(piece, &thin()).err()?.pop()) else {
            continue;
        };
        refused += 1;
        let after =
            |words: &str| problem.remedy.split(words).nth(1).map(|rest| rest.split(' ').next().unwrap());
        let widest = after("the widest weld flange that would do is ").map(|size| size.trim_end_matches(';'));
        let higher = after("a rise of ");
        assert!(
            widest.is_some() || higher.is_some() || problem.remedy.contains("leave weld_flange out"),
            "{problem}"
        );
        assert!(widest.is_none_or(|size| works(&low(rise, Some(size)))), "{problem}");
        assert!(higher.is_none_or(|size| works(&low(size, Some("1 1/2")))), "{problem}");
    }
    assert!(0 < refused);
}

/// A canopy with flanges to weld on: BC and DA are cut along both hips.
fn flanged() -> Hopper {
    canopy(HopperMade::FourPlates { weld_flange: Some(inches("5/8")) })
}

fn sized(shaped: &Shaped, name: &str) -> f64 {
    let size = shaped.part.sizes.iter().find(|size| size.name.split(", held").next() == Some(name));
    size.unwrap_or_else(|| panic!("no {name} among {:?}", shaped.part.sizes)).expected_mm / 25.4
}

// Worked by hand from the sizes of the canopy: 72 − 22 − 20 = 30 from BC, 42 − 20 − 14 = 8 from CD; √(72² + 42²) = 83.355,
// √(20² + 14²) = 24.413.
#[test]
fn the_whole_canopy_is_checked_by_rim_collar_rise_and_offset() {
    let words: Vec<String> =
        flanged().whole(&thin()).into_iter().map(|fact| format!("{}: {:?}", fact.name, fact.value)).collect();
    let all = words.join("\n");
    for expected in [
        "AB 72.000, BC 42.000, CD 72.000, DA 42.000; diagonals A to C 83.355, B to D 83.355",
        "AB 20.000, BC 14.000, CD 20.000, DA 14.000; diagonals A to C 24.413, B to D 24.413",
        "18.000 square from the rim's plane to the collar's",
        "20.000 from AB; 30.000 from BC; 8.000 from CD; 22.000 from DA",
        "none: its side AB runs as the rim's AB",
    ] {
        assert!(all.contains(expected), "{expected}: {all}");
    }
    let mut turned = flanged();
    let centre = Point::new(32.0 * 25.4, 27.0 * 25.4);
    turned.collar.corners.iter_mut().for_each(|p| *p = centre + (*p - centre).turned(0.1));
    let words: Vec<String> = turned.whole(&thin()).iter().map(|fact| format!("{:?}", fact.value)).collect();
    assert!(words[4].contains("turned 5.7° from the rim's AB, counter-clockwise from above"), "{}", words[4]);
}

// By hand: the leg of BC is cut where the insides of the legs cross, 42 apart; the collar likewise, 14. Square between them lie
// the runs of slants_slopes_hips_and_area_of_a_canopy; on its channel, 1 deep, the face stands 1 + 18 + 3 high.
#[test]
fn a_face_that_is_cut_along_its_hips_has_sizes_on_its_own_metal() {
    for stands in [HopperStands::RimDown, HopperStands::RimUp] {
        let shaped = proven(&Hopper { stands, ..flanged() }, &thin());
        let face = &shaped[1];
        for (name, expected, within) in [
            ("leg BC, cut end to cut end", 42.0, 1e-6),
            ("collar BC, cut end to cut end", 14.0, 1e-6),
            ("inside of leg BC to inside of collar BC, level", 30.0, 1e-6),
            ("height of face BC standing on its rim, to the edge of the collar", 22.0, 1e-6),
            // The hips inside, from plane to plane: the tape lies on mold lines, which stand out by less than R + T.
            ("cut edge of face BC along hip B", 40.299, 0.126),
            ("cut edge of face BC along hip C", 35.889, 0.126),
        ] {
            let found = sized(face, name);
            assert!((found - expected).abs() <= within, "{name}: {found}, expected {expected}");
        }
        let diagonals = face.part.sizes.iter().filter(|size| size.name.starts_with("diagonal of face BC"));
        assert_eq!(diagonals.count(), 2);
    }
}

/// The two ends of every such size are places that a tape can be held to: between the corners of the refolded metal nearest to
/// them lies the same length, to half a division of the tape in thin sheet and a whole one in thick; halfway down a cut end there
/// is no corner, but the end's own edge.
#[test]
fn both_ends_of_a_cut_edge_lie_on_refolded_metal() {
    let (mut measured, mut wrong) = (0, Vec::new());
    let thick = making(".125", ".125", 0.42);
    for (making, most) in [(thin(), 1.0 / 32.0), (thick, 1.0 / 16.0)] {
        for hopper in [flanged(), canopy(FOUR), Hopper { rim_edge: RimEdge::None, ..flanged() }] {
            for shaped in proven(&hopper, &making) {
                let flat = shaped.unfold().unwrap();
                let frames = fold::refold::fold(&flat);
                let facets = fold::facets::of(&flat).facets;
                let rings = || facets.iter().flat_map(|facet| &facet.rings);
                for size in &shaped.part.sizes {
                    let Measure::Spots(from, to) = size.measure else { continue };
                    let places = [from, to].map(|spot| {
                        let at = flat.faces[spot.face].placement.place(spot.at);
                        frames[spot.face].place(at, shaped.part.side_mm(spot.side))
                    });
                    measured += 1;
                    if size.name.contains(", cut end to cut end") {
                        let on_an_edge = |place: Point3| {
                            rings().any(|ring| {
                                let ends = (0..ring.len()).map(|at| (ring[at], ring[(at + 1) % ring.len()]));
                                ends.into_iter().any(|(a, b)| {
                                    (a.distance(place) + b.distance(place) - a.distance(b)).abs() < 1e-6
                                })
                            })
                        };
                        assert!(places.into_iter().all(on_an_edge), "{}: not on the metal", size.name);
                        continue;
                    }
                    let [from, to] = places.map(|place| {
                        let off = |corner: &Point3| corner.distance(place);
                        let corners = rings().flatten().copied();
                        corners.min_by(|a, b| off(a).total_cmp(&off(b))).unwrap()
                    });
                    let (found, said) = (from.distance(to) / 25.4, size.expected_mm / 25.4);
                    if most < (found - said).abs() {
                        wrong.push(format!("{}: {found:.4} on the metal, {said:.4} said", size.name));
                    }
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
    assert!(40 < measured, "{measured}");
}

/// Seen from its other side a piece keeps its sizes.
#[test]
fn sizes_of_a_piece_are_the_same_from_inside() {
    for shaped in proven(&flanged(), &thin()) {
        let turned = shaped.part.seen_from_back();
        let flat = fold::flat::unfold(&turned).unwrap();
        let proof = fold::refold::prove(&turned, &flat).unwrap();
        assert_eq!(proof.sizes.len(), shaped.part.sizes.len());
        assert!(proof.worst_mm < 0.001);
    }
}

/// Collar past the rim: the level distance is told, and the side by its name.
#[test]
fn a_collar_outside_the_rim_is_proven_on_that_side() {
    let corners = [(11.0, -2.0), (20.0, -2.0), (20.0, 7.0), (11.0, 7.0)];
    let rim_edge = RimEdge::Drip { down: inches("1"), inward: inches("1"), up: inches("1/2") };
    let hopper = Hopper {
        rim_edge,
        collar_height: Some(inches("3")),
        made: FOUR,
        ..frustum((28.0, 22.0), corners, 11.0)
    };
    let sizes = proven(&hopper, &thin()).remove(0).part.sizes;
    let level = sizes.iter().find(|size| size.name.contains("to inside of collar AB")).unwrap();
    assert!(level.name.ends_with("level, the collar outside the leg"), "{}", level.name);
    assert!((level.expected_mm - 2.0 * 25.4).abs() < 1e-9, "{}", level.expected_mm);
}

/// A flat's outline, and the mirror image of its opposite hand's, corner by corner.
fn assert_mirrored(shaped: &Shaped) -> Result<(), TestCaseError> {
    let hand = Shaped { part: shaped.part.mirrored(), facts: Vec::new() };
    let fail = |error: fold::flat::UnfoldError| TestCaseError::fail(error.to_string());
    let (own, hand) = (shaped.unfold().map_err(fail)?, hand.unfold().map_err(fail)?);
    let corners = |flat: &fold::FlatPattern| flat.outline.outer.corners(geometry::outline::Chords::On);
    let (first, second) = (corners(&own), corners(&hand));
    prop_assert_eq!(first.len(), second.len());
    let [(long, wide), (hand_long, hand_wide)] = [own.extents_mm(), hand.extents_mm()];
    prop_assert!((long - hand_long).abs() < 0.02 && (wide - hand_wide).abs() < 0.02, "{long} {hand_long}");
    let nearest = |at: Point| second.iter().map(|p| p.distance(at)).fold(f64::INFINITY, f64::min);
    for corner in first {
        let off_mm = nearest(Point::new(long - corner.x, corner.y));
        prop_assert!(off_mm < 0.02, "{off_mm}");
    }
    let off_mm2 = (own.outline.area_mm2() - hand.outline.area_mm2()).abs();
    prop_assert!(off_mm2 < 0.02 * (long + wide), "{off_mm2}");
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    // The flats of both hands of a hopper are mirror images: no cut is made on one side by preference.
    #[test]
    fn opposite_hands_of_random_hoppers_are_mirror_images(
        shift in proptest::array::uniform8(-2.0..2.0f64),
        place in (6.0..12.0f64, 5.0..9.0f64),
        rise in 8.0..20.0f64,
        turned in -25.0..25.0f64,
        made in 0..5_usize,
        gap in prop::sample::select(vec!["0", "1/32", "1/16"]),
    ) {
        let [a, b, c, d, e, f, g, h] = shift;
        let (x, y) = place;
        let mut hopper = frustum((30.0, 24.0), [(x, y), (x + 9.0, y), (x + 9.0, y + 8.0), (x, y + 8.0)], rise);
        hopper.rim = figure([(a, b), (30.0 + c, d), (30.0 + e, 24.0 + f), (g, 24.0 + h)]);
        let centre = Point::new((x + 4.5) * 25.4, (y + 4.0) * 25.4);
        hopper.collar.corners.iter_mut().for_each(|p| *p = centre + (*p - centre).turned(turned.to_radians()));
        let flanged = |width| HopperMade::FourPlates { weld_flange: Some(inches(width)) };
        hopper.made = [FOUR, HopperMade::TwoHalves, HopperMade::OnePiece, flanged("5/8"), flanged("1")][made];
        let making = Making { seam_gap: inches(gap), ..thin() };
        for number in 0..hopper.pieces().len().max(1) {
            // What cannot be made so is refused in words.
            if let Ok(shaped) = hopper.shape_piece(number, &making) {
                assert_mirrored(&shaped)?;
            }
        }
    }
}

/// A rim a little crooked makes the faces BC and DA two triangles each: a weld flange lies on one of them, short of the bend to the
/// other, which it had run into by .03 mm.
#[test]
fn weld_flanges_of_a_crooked_canopy_lie_on_one_triangle() {
    let rim = [(0.0, 0.0), (72.0, 0.0), (71.875, 42.0), (0.125, 41.875)];
    let collar = [(22.0, 20.0), (42.0, 20.0), (42.0, 34.0), (22.0, 34.0)];
    let canopy = Hopper {
        stands: HopperStands::RimDown,
        rim: figure(rim),
        collar: figure(collar),
        rise: inches("18"),
        rim_edge: RimEdge::Drip { down: inches("1"), inward: inches("1"), up: inches("1") },
        collar_height: Some(inches("3")),
        made: HopperMade::FourPlates { weld_flange: Some(inches("5/8")) },
        least_slope: None,
    };
    let making = making(".125", ".125", 0.42);
    for piece in 0..4 {
        let shaped = canopy.shape_piece(piece, &making).unwrap_or_else(|problems| panic!("{problems:?}"));
        let flat = shaped.unfold().unwrap();
        assert!(fold::refold::prove(&shaped.part, &flat).unwrap().worst_mm < 0.001);
    }
}

/// A narrow face: 8 in at the rim and 6 at the collar hold no two flanges of 5 and more. The width that is named is made; where they run side by side they take the collar's 6 between them at the most, near square to its edge.
#[test]
fn two_weld_flanges_on_one_face_do_not_lie_over_one_another() {
    let hopper = |width: &str| Hopper {
        rim: figure([(0.0, 0.0), (30.0, 0.0), (30.0, 8.0), (0.0, 8.0)]),
        collar: figure([(10.0, 1.0), (20.0, 1.0), (20.0, 7.0), (10.0, 7.0)]),
        rise: inches("20"),
        rim_edge: RimEdge::None,
        collar_height: None,
        ..canopy(HopperMade::FourPlates { weld_flange: Some(inches(width)) })
    };
    for wide in ["5", "6", "7 1/2", "9"] {
        let problem = hopper(wide).shape_piece(0, &thin()).unwrap_err().remove(0);
        assert_eq!(problem.field, "weld_flange");
        assert!(problem.wrong.contains("lie over one another on face "), "{problem}");
        let named = problem.remedy.strip_prefix("the widest weld flange that would do is ").unwrap();
        assert_eq!(proven(&hopper(named), &thin()).len(), 4, "{problem}");
    }
    assert!(hopper("3 3/16").shape_piece(0, &thin()).is_err());
    assert_eq!(proven(&hopper("3 1/8"), &thin()).len(), 4);
}
