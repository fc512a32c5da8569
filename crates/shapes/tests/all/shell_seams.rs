//! Corners of hoppers, crowned and made-up lids and coamings that are butted, lapped or tabbed, as refolded.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use crate::common::{inches, making};
use fold::SeamStyle;
use fold::refold::SeamGap;
use geometry::Point;
use shapes::coaming::{Coaming, CoamingMade};
use shapes::edge::EdgeEnd;
use shapes::hopper::{Hopper, HopperMade, HopperStands, RimEdge};
use shapes::lid::{Crown, CrownedLid, Lid, LidPlan, SkirtEdge};
use shapes::pan::{Pan, PanPlan, Rim};
use shapes::tapered_lid::{LidMade, MadeUpLid, Seat, TaperedLid};
use shapes::{Chosen, CornerStyle, Figure, Making, Problem, Recipe, nearest_lap};
use units::Angle;

const GAP: &str = "1/64";

fn styles() -> [CornerStyle; 4] {
    let lap = |outside| CornerStyle::Lap { width: inches("5/8"), carried_by: Chosen::LongSides, outside };
    [
        CornerStyle::Butt { through: Chosen::LongSides },
        CornerStyle::Butt { through: Chosen::ShortSides },
        lap(true),
        CornerStyle::TabAndSlot {
            tab: inches("3/8"),
            clearance: inches("1/64"),
            count: 1,
            tabs_on: Chosen::ShortSides,
        },
    ]
}

fn made(corner: CornerStyle) -> Making {
    Making { corner, seam_gap: inches(GAP), ..making(".063", ".063", 0.42) }
}

fn figure(corners: [(f64, f64); 4]) -> Figure {
    Figure::lettered(&corners.map(|(x, y)| Point::new(x * 25.4, y * 25.4))).unwrap()
}

fn crowned() -> CrownedLid {
    let plan = LidPlan::Outside { length: inches("18"), width: inches("10") };
    let crown = Crown { rise: inches("1"), along: None, skirt_edge: SkirtEdge::Level };
    CrownedLid { lid: Lid { plan, skirt: inches("2"), edge: EdgeEnd::Plain }, crown }
}

fn tapered() -> MadeUpLid {
    let lid = TaperedLid {
        over: figure([(0.0, 0.0), (31.25, 0.0), (31.0, 24.6), (0.1, 25.1)]),
        outset: inches("7/8"),
        rise: inches("3"),
        inset: ["3", "2 1/2", "2 1/4", "0"].map(inches).to_vec(),
        skirt: inches("1 3/4"),
        return_width: None,
    };
    MadeUpLid {
        lid,
        seat: Seat::Proud,
        hinge: None,
        made: LidMade::OnePiece,
        notch: None,
        edge: EdgeEnd::Plain,
    }
}

fn hopper(made: HopperMade) -> Hopper {
    Hopper {
        stands: HopperStands::RimDown,
        rim: figure([(0.0, 0.0), (30.0, 0.0), (30.0, 20.0), (0.0, 20.0)]),
        collar: figure([(11.0, 6.0), (19.0, 6.0), (19.0, 12.0), (11.0, 12.0)]),
        rise: inches("14"),
        rim_edge: RimEdge::None,
        collar_height: None,
        made,
        least_slope: None,
    }
}

fn seams(recipe: &dyn Recipe, piece: usize, making: &Making) -> Result<Vec<SeamGap>, Vec<Problem>> {
    let shaped = recipe.shape_piece(piece, making)?;
    let flat = shaped.unfold().unwrap_or_else(|error| panic!("{:?}: {error}", making.corner));
    let proof =
        fold::refold::prove(&shaped.part, &flat).unwrap_or_else(|e| panic!("{:?}: {e}", making.corner));
    assert!(proof.worst_mm < 0.001, "{}", proof.worst_mm);
    Ok(proof.seams)
}

#[test]
fn crowned_and_made_up_lids_and_one_piece_hoppers_close_in_every_style() {
    let gap_mm = inches(GAP).millimetres();
    let one_piece = hopper(HopperMade::OnePiece);
    for style in styles() {
        // The strips of hips as long as these do not come out of one piece with a lid.
        let lapped = matches!(style, CornerStyle::Lap { .. });
        let hips: (&dyn Recipe, usize) = if lapped { (&one_piece, 1) } else { (&tapered(), 4) };
        for (recipe, corners) in [(&crowned() as &dyn Recipe, 4), hips, (&one_piece, 1)] {
            let seams = seams(recipe, 0, &made(style.clone())).unwrap();
            let so_made = seams.iter().filter(|seam| seam.style != SeamStyle::Open);
            assert!(so_made.clone().count() >= corners, "{style:?}");
            for seam in so_made {
                assert!((seam.least_mm - gap_mm).abs() < 0.02, "{}: {}", seam.name, seam.least_mm);
                assert!((seam.largest_mm - gap_mm).abs() < 0.02, "{}: {}", seam.name, seam.largest_mm);
            }
        }
    }
}

#[test]
fn a_hopper_of_plates_is_butted_and_says_which_plate_runs_through() {
    let four = hopper(HopperMade::FourPlates { weld_flange: None });
    let [butt, ..] = styles();
    for piece in 0..4 {
        let shaped = four.shape_piece(piece, &made(butt.clone())).unwrap();
        let flat = shaped.unfold().unwrap();
        assert!(fold::refold::prove(&shaped.part, &flat).unwrap().worst_mm < 0.001);
        let words = format!("{:?}", shaped.facts);
        assert!(words.contains("face AB runs through") || words.contains("face CD runs through"), "{words}");
        assert!(!words.contains("face BC runs through"), "{words}");
    }
}

#[test]
fn the_sides_of_a_coaming_are_butted_or_its_strip_is_lapped() {
    let coaming = |made, top| Coaming {
        opening: figure([(0.0, 0.0), (20.0, 0.0), (19.0, 14.0), (0.0, 15.0)]),
        outset: inches("0"),
        height: inches("3"),
        top,
        made,
    };
    let [butt, _, lap, tabs] = styles();
    for style in [butt.clone(), lap, tabs] {
        let strip = coaming(CoamingMade::Strip, Rim::None);
        assert_eq!(seams(&strip, 0, &made(style)).unwrap().len(), 1);
    }
    for piece in 0..4 {
        seams(&coaming(CoamingMade::Sides, Rim::Out(inches("1"))), piece, &made(butt.clone())).unwrap();
    }
}

#[test]
fn a_corner_too_flat_to_butt_says_how_steep_it_must_be() {
    let shaped = |rise: &str| {
        let mut flat = tapered();
        flat.lid.rise = inches(rise);
        flat.lid.inset[3] = inches("2");
        flat.shape_piece(0, &made(styles()[0].clone()))
    };
    let problems = shaped("1/16").unwrap_err();
    assert!(problems[0].wrong.contains("so flat"), "{}", problems[0]);
    let most: f64 =
        problems[0].remedy.split("up to ").nth(1).unwrap().split('°').next().unwrap().parse().unwrap();
    // (T + g) / sin φ = a twentieth of the shortest edge at the corner: side BC of the top, 24.6 and twice 7/8 less 5 1/4.
    let sine = (0.063 + 1.0 / 64.0) / ((24.6 + 1.75 - 5.25) / 20.0);
    assert!((most - (180.0 - geometry::trig::asin(sine).to_degrees())).abs() < 0.1, "{most}");
    // What is named works: a lid a little steeper than that.
    assert!(shaped("1/4").is_ok());
}

/// Two sides of this three-sided lid run nearly the same way, and its top is short between flat corners that are cut back
/// by much: it is refused for that, and the weld is never measured at the neighbour of the edge that is welded.
#[test]
fn a_short_side_of_a_lopsided_top_is_refused_for_its_flat_corners() {
    let corners = [
        (264.904_703_345_927_7, 247.349_634_446_501_17),
        (-34.396_598_256_230_156, 500.897_398_177_240_4),
        (-29.527_037_356_405_632, -501.751_112_440_437_9),
    ];
    let over = Figure::lettered(&corners.map(|(x, y)| Point::new(x, y))).unwrap();
    let lid = TaperedLid {
        over,
        outset: inches("1/4"),
        rise: inches("15/16"),
        inset: ["5 3/16", "5 1/4", "5 15/16"].map(inches).to_vec(),
        skirt: inches("1 1/2"),
        return_width: None,
    };
    let lid = MadeUpLid {
        lid,
        seat: Seat::Proud,
        hinge: None,
        made: LidMade::Plates,
        notch: None,
        edge: EdgeEnd::Plain,
    };
    let [butt, ..] = styles();
    for piece in 0..4 {
        let shaped = lid.shape_piece(piece, &Making { seam_gap: units::Length::ZERO, ..made(butt.clone()) });
        let so_flat =
            |problems: Vec<Problem>| problems.iter().all(|problem| problem.wrong.contains("so flat"));
        assert_eq!(shaped.map_err(so_flat).err(), (piece > 0).then_some(true), "{piece}");
    }
}

/// A side of the top that is shorter than what its corners take of it: the plate says so, and how long it must be.
#[test]
fn a_side_of_the_top_too_short_for_its_corners_says_how_long_it_must_be() {
    let shaped = |inset: &str| {
        let mut lid = tapered();
        lid.lid.over = figure([(0.0, 0.0), (30.0, 0.0), (17.0, 20.0), (13.0, 20.0)]);
        lid.lid.outset = inches("0");
        lid.lid.inset = ["1", "2", inset, "2"].map(inches).to_vec();
        lid.made = LidMade::Plates;
        lid.shape_piece(0, &made(CornerStyle::Open))
    };
    // Side CD of the top is 4 less 2·2·√(1 + .65²) long, and 1.3 more for each inch of its own inset.
    let problem = shaped(".6").unwrap_err().remove(0);
    assert!(problem.wrong.contains("an edge of it, .009 long"), "{problem}");
    let least: f64 =
        problem.remedy.split("longer than ").nth(1).unwrap().split(',').next().unwrap().parse().unwrap();
    assert!(shaped(&format!("{:.3}", (least + 0.01 + 0.771) / 1.3)).is_ok(), "{problem}");
    assert!(shaped(&format!("{:.3}", (least - 0.01 + 0.771) / 1.3)).is_err(), "{problem}");
}

/// A pan whose walls lean far out: square strips of its corners would lie on their neighbours in the flat. Tapered they
/// come out, keep their width along half of their length, and lie the gap off the other wall.
#[test]
fn a_strip_on_a_leaning_wall_is_tapered_until_it_comes_out() {
    let plan = PanPlan::Outside { length: inches("20"), width: inches("12") };
    let mut tapered = Vec::new();
    for lean in [20.0, 30.0, 40.0] {
        let pan = Pan {
            plan: plan.clone(),
            height: inches("4"),
            rims: vec![Rim::None],
            lean: [lean; 4].map(Angle::from_degrees).to_vec(),
            edge: EdgeEnd::Plain,
        };
        for sixteenths in 6..32 {
            let width = units::Length::from_sixty_fourths(4 * sixteenths);
            let making = made(CornerStyle::Lap { width, carried_by: Chosen::LongSides, outside: false });
            let Ok(shaped) = pan.shape(&making) else { continue };
            let strips = || shaped.part.faces.iter().filter(|face| face.name.ends_with(", tapered"));
            let Ok(flat) = shaped.unfold() else { continue };
            if strips().count() == 0 {
                continue;
            }
            for strip in strips() {
                let at_edge = |p: &&Point| (p.y - width.millimetres()).abs() < 1e-6;
                let places: Vec<f64> = strip.corners.iter().filter(at_edge).map(|p| p.x).collect();
                let bent = strip.corners[0].distance(strip.corners[1]);
                let full = places.iter().copied().fold(0.0, f64::max)
                    - places.iter().copied().fold(f64::INFINITY, f64::min);
                assert!(places.len() == 2 && full >= 0.5 * bent - 1e-6, "{full} of {bent}");
            }
            let Ok(proof) = fold::refold::prove(&shaped.part, &flat) else { continue };
            let gap_mm = inches(GAP).millimetres();
            for seam in &proof.seams {
                assert!(
                    (seam.least_mm - gap_mm).abs() < 0.02 && (seam.largest_mm - gap_mm).abs() < 0.02,
                    "{seam:?}"
                );
            }
            tapered.push((lean, sixteenths));
        }
    }
    assert!(tapered.len() > 5, "{tapered:?}");
}

/// A pan whose walls lean far out: the strips of its corners lie on one another in the flat when they are wide.
#[test]
fn a_lap_that_does_not_come_out_of_one_piece_says_what_would() {
    let size = (inches("20"), inches("12"));
    let plan = PanPlan::Outside { length: size.0, width: size.1 };
    let lean = [35.0; 4].map(Angle::from_degrees).to_vec();
    let pan = Pan { plan, height: inches("4"), rims: vec![Rim::None], lean, edge: EdgeEnd::Plain };
    let lap = |width| made(CornerStyle::Lap { width, carried_by: Chosen::LongSides, outside: false });
    let works = |width| {
        let shaped = pan.shape(&lap(width)).unwrap();
        shaped.unfold().is_ok_and(|flat| fold::refold::prove(&shaped.part, &flat).is_ok())
    };
    assert!(!works(inches("6")), "else this test shows nothing");
    let problem = nearest_lap(&pan, 0, &lap(inches("6"))).unwrap();
    assert_eq!(problem.field, "corner.lap");
    let most =
        problem.remedy.strip_prefix("the widest that would do is ").unwrap().split(' ').next().unwrap();
    let most = inches(most);
    assert!(works(most), "{problem}");
    assert!(!works(most + inches("1/8")), "a wider one would do: {problem}");
}
