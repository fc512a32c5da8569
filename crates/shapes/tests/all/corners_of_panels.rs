//! Corners of panels, gutters and day boxes that are butted, lapped, tabbed or left open by a gap of their own, as refolded.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use crate::common::{inches, making, sixteenths};
use crate::seams::{Most, Tally, every_seam_is_as_asked, made_with, openings, runner, styles};
use fold::Direction::{self, Down, Up};
use fold::SeamStyle;
use fold::part::SeamSide;
use fold::refold::{self, SeamGap};
use geometry::{Point, tolerance};
use proptest::prelude::*;
use shapes::day_box::{BackCut, CutCorner, CutStyle, SetBox};
use shapes::gutter::Gutter;
use shapes::pan::Rim;
use shapes::panel::{Flange, Notch, Panel};
use shapes::{Chosen, CornerStyle, FactValue, Figure, Making, Recipe, Shaped};
use units::{Angle, Length};

const GAP: &str = "1/64";

fn made(corner: CornerStyle) -> Making {
    Making { corner, seam_gap: inches(GAP), ..making(".090", ".090", 0.42) }
}

fn flange(side: &str, leg: Length, direction: Direction, degrees: f64) -> Flange {
    let turn = Angle::from_degrees(degrees);
    Flange { side: side.to_owned(), leg, direction, turn, short: [Length::ZERO; 2] }
}

fn panel(outline: Figure, flanges: Vec<Flange>) -> Panel {
    Panel { outline, flanges, holes: Vec::new(), notches: Vec::new(), edges: Vec::new() }
}

fn named_butt(side: &str) -> CornerStyle {
    CornerStyle::Butt { through: Chosen::Sides(vec![side.to_owned()]) }
}

fn lap(width: &str) -> CornerStyle {
    CornerStyle::Lap { width: inches(width), carried_by: Chosen::LongSides, outside: false }
}

fn tabs() -> CornerStyle {
    CornerStyle::TabAndSlot {
        tab: inches("3/8"),
        clearance: inches("1/64"),
        count: 1,
        tabs_on: Chosen::ShortSides,
    }
}

fn by_name(named: &[(&str, CornerStyle)]) -> CornerStyle {
    let named = named.iter().map(|(name, style)| ((*name).to_owned(), style.clone())).collect();
    CornerStyle::ByName { named, others: Box::new(CornerStyle::Open) }
}

fn measured(shaped: &Shaped) -> Vec<SeamGap> {
    let flat = shaped.unfold().unwrap();
    let proof = refold::prove(&shaped.part, &flat).unwrap();
    assert!(proof.worst_mm < 0.001, "{}", proof.worst_mm);
    proof.seams
}

/// A tray of a panel, each corner in another way: one of them stands a gap of its own apart.
#[test]
fn the_four_corners_of_a_panel_are_made_in_four_ways() {
    let outline = Figure::rectangle(508.0, 304.8).unwrap();
    let flanges = ["AB", "BC", "CD", "DA"].map(|side| flange(side, inches("3"), Up, 90.0)).to_vec();
    let gap = CornerStyle::Gap { gap: inches("3/16") };
    let corner = by_name(&[("A", named_butt("AB")), ("B", lap("5/8")), ("C", tabs()), ("D", gap)]);
    let seams = measured(&panel(outline, flanges).shape(&made(corner)).unwrap());
    let seam = |name: &str| seams.iter().find(|seam| seam.name == name).unwrap();
    assert_eq!(seam("flange at corner A").style, SeamStyle::Butt { through: SeamSide::Second });
    assert!(matches!(seam("flange at corner B").style, SeamStyle::Lap { .. }));
    assert!(matches!(seam("flange at corner C").style, SeamStyle::TabAndSlot { .. }));
    for (name, gap) in [("A", GAP), ("B", GAP), ("C", GAP), ("D", "3/16")] {
        let least_mm = seam(&format!("flange at corner {name}")).least_mm;
        assert!((least_mm - inches(gap).millimetres()).abs() < tolerance::REFOLD_MM, "{name}: {least_mm}");
    }
    let open = seam("flange at corner D");
    assert_eq!(open.style, SeamStyle::Open);
    assert!((open.largest_mm - inches("3/16").millimetres()).abs() < tolerance::REFOLD_MM, "{open:?}");
}

/// A side that a notch cuts short goes by its own name all the same.
#[test]
fn a_side_beside_a_notch_keeps_its_name() {
    let outline = Figure::rectangle(508.0, 304.8).unwrap();
    let flanges = ["AB", "BC"].map(|side| flange(side, inches("2"), Down, 90.0)).to_vec();
    let notch = Notch::Corner { corner: "A".to_owned(), along: inches("2"), across: inches("2") };
    let panel = Panel { notches: vec![notch], ..panel(outline, flanges) };
    for (side, through) in [("AB", SeamSide::First), ("BC", SeamSide::Second)] {
        let seams = measured(&panel.shape(&made(named_butt(side))).unwrap());
        assert_eq!(seams[0].style, SeamStyle::Butt { through }, "{side}");
    }
}

fn with_gaps() -> impl Strategy<Value = CornerStyle> {
    prop_oneof![4 => styles(), 1 => sixteenths(0..4).prop_map(|gap| CornerStyle::Gap { gap })]
}

/// Flanges round a panel of three to eight sides, steep, square and past square.
#[test]
fn panels_close_as_asked() {
    let turn = prop_oneof![2 => Just(90.0_f64), 2 => 45.0_f64..90.0, 1 => 90.0_f64..115.0];
    let legs = prop::collection::vec(sixteenths(16..48), 8);
    let strategy = (made_with(with_gaps()), openings(), turn, legs, prop::bool::ANY, 0.0_f64..8.0);
    let tally = Tally::default();
    let outcome = runner().run(&strategy, |(making, outline, turn, legs, down, slant)| {
        let direction = if down { Down } else { Up };
        let of_side = |(side, leg): (&String, Length)| {
            let more = if side.starts_with('A') { slant } else { 0.0 };
            flange(side, leg, direction, turn + more)
        };
        let flanges = outline.sides.iter().zip(legs).map(of_side).collect();
        tally.measure(panel(outline.clone(), flanges).shape(&making))
    });
    outcome.unwrap();
    tally.check(&Most {
        overlaps: 0.85,
        too_short: 0.1,
        no_relief: 0.0,
        runs_into: 0.01,
        strip_runs_into: 0.02,
        no_such_shape: 0.35,
    });
}

/// Pieces that are welded to one another: every gap of the refolded pieces put together is as asked.
fn welds_are_as_asked(recipe: &dyn Recipe, making: &Making, gap: &str, style: &str) -> usize {
    let gap = making.print(inches(gap));
    let gap = format!("gap designed {gap}, least {gap}, largest {gap}");
    let mut found = 0;
    for piece in 0..recipe.pieces().len().max(1) {
        let shaped = recipe
            .shape_piece(piece, making)
            .unwrap_or_else(|problems| panic!("{piece} {:?}: {problems:?}", making.corner));
        assert_eq!(every_seam_is_as_asked(&shaped.part).unwrap(), crate::seams::Seen::Measured);
        for fact in shaped.facts.iter().filter(|fact| fact.name.starts_with("weld ")) {
            let FactValue::Words(words) = &fact.value else { continue };
            if words.contains("gap designed") && words.contains(style) && !words.contains(", flat") {
                assert!(words.contains(&gap), "{}: {words}", fact.name);
                found += 1;
            }
        }
    }
    found
}

fn gutter() -> Gutter {
    let corners = [(0.0, 0.0), (31.25, 0.0), (31.0, 24.6), (0.1, 25.1)];
    Gutter {
        opening: Figure::lettered(&corners.map(|(x, y)| Point::new(x * 25.4, y * 25.4))).unwrap(),
        outset: Length::ZERO,
        width: inches("1 3/4"),
        depth: inches("1 1/4"),
        inner_depth: inches("1"),
        drain: None,
    }
}

#[test]
fn the_walls_of_a_gutter_are_butted_lapped_or_stand_a_gap_apart() {
    // Four corners, an outer and an inner wall at each, told on both channels.
    let butt = made(CornerStyle::Butt { through: Chosen::LongSides });
    assert_eq!(welds_are_as_asked(&gutter(), &butt, GAP, "runs through"), 16);
    let gap = made(CornerStyle::Gap { gap: inches("1/16") });
    assert_eq!(welds_are_as_asked(&gutter(), &gap, "1/16", "open corner"), 16);
    assert_eq!(welds_are_as_asked(&gutter(), &made(lap("1/2")), GAP, "carries the strip"), 16);
}

pub(crate) fn set_box(cut: Option<BackCut>) -> SetBox {
    SetBox {
        width: inches("16"),
        height: inches("9"),
        depth_top: inches("5"),
        depth_bottom: inches("7"),
        face_lean: Angle::from_degrees(20.0),
        cut,
        rim: Rim::Out(inches("1 1/4")),
        door_lip: None,
    }
}

#[test]
fn the_corners_of_a_box_set_in_a_leaning_face_are_made_in_every_style() {
    let sloped =
        BackCut { corner: CutCorner::Lower, back: inches("3"), level: inches("2"), style: CutStyle::Sloped };
    for cut in [None, Some(sloped)] {
        for lip in [None, Some(inches("3/4"))] {
            let [long, short] =
                [Chosen::LongSides, Chosen::ShortSides].map(|through| CornerStyle::Butt { through });
            for style in [long, short, lap("1/2"), tabs(), CornerStyle::Gap { gap: inches("1/16") }] {
                let set = SetBox { door_lip: lip, ..set_box(cut) };
                let shaped = set.shape_piece(0, &made(style.clone()));
                let shaped = shaped.unwrap_or_else(|problems| panic!("{style:?}: {problems:?}"));
                assert_eq!(
                    every_seam_is_as_asked(&shaped.part).unwrap(),
                    crate::seams::Seen::Measured,
                    "{style:?}"
                );
                // Bottom and top, and the slope between bottom and back, against both ends; the lips at their corners.
                let own = shaped.part.seams.iter().filter(|seam| !seam.name.starts_with("rim "));
                let own =
                    own.filter(|seam| style != CornerStyle::Gap { gap: inches("1/16") } || 1.0 < seam.gap_mm);
                let count = 4 + 2 * usize::from(cut.is_some()) + 4 * usize::from(lip.is_some());
                assert_eq!(own.count(), count, "{style:?}");
            }
        }
    }
}

/// Ends of their own: the shell runs over them, or they over it. Where the shell runs through, an end goes round the hollow of
/// riser and shelf, and nothing is cut off it there: a straight cut would have added metal, and met the riser.
#[test]
fn a_box_with_a_stepped_back_is_butted_all_round_its_ends() {
    let stepped =
        BackCut { corner: CutCorner::Lower, back: inches("3"), level: inches("2"), style: CutStyle::Stepped };
    let set = set_box(Some(stepped));
    for through in [vec!["AB", "CD"], vec!["BC", "DA"]] {
        let through = Chosen::Sides(through.into_iter().map(str::to_owned).collect());
        let found = welds_are_as_asked(&set, &made(CornerStyle::Butt { through }), GAP, "runs through");
        // Bottom, riser, shelf, back and top against both ends, told on both pieces.
        assert!(20 <= found, "{found}");
    }
}

/// A corner style says nothing of a panel whose flanges never meet.
#[test]
fn a_panel_has_corners_where_two_flanges_bent_alike_meet() {
    let outline = || Figure::rectangle(508.0, 304.8).unwrap();
    let two = |second: Flange| panel(outline(), vec![flange("AB", inches("2"), Up, 90.0), second]);
    assert!(two(flange("BC", inches("2"), Up, 90.0)).has_corners());
    assert!(!two(flange("BC", inches("2"), Down, 90.0)).has_corners());
    assert!(!two(flange("CD", inches("2"), Up, 90.0)).has_corners());
    for (side, short, meets) in
        [("BC", ["1", "0"], false), ("CB", ["1", "0"], true), ("DA", ["0", "1"], false)]
    {
        let flange = Flange { short: short.map(inches), ..flange(side, inches("2"), Up, 90.0) };
        assert_eq!(two(flange).has_corners(), meets, "{side} {short:?}");
    }
}
