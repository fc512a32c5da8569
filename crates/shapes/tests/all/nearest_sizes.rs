//! A shape that is refused names the nearest size that works: that size works, a step less far does not, and it is said in the unit
//! of the job.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use crate::common::{inches, making};
use fold::Direction;
use shapes::brake_profile::{BendWay, BrakeProfile, End, Leg, LegTo, ProfileBend};
use shapes::cone::Cone;
use shapes::edge::{EdgeEnd, EdgeWay};
use shapes::pan::{Pan, PanPlan, Rim};
use shapes::panel::{Flange, Panel};
use shapes::tapered_lid::{EdgedLid, LidMade, MadeUpLid, Seat, Split, TaperedLid};
use shapes::wrap::{DiameterTo, WrapMaking, WrapSeam};
use shapes::{Chosen, CornerStyle, Figure, Making, Recipe, nearest};
use units::{Angle, Length, LengthStyle};

fn rectangle(length: f64, width: f64) -> Figure {
    let corners = [(0.0, 0.0), (length, 0.0), (length, width), (0.0, width)];
    Figure::lettered(&corners.map(|(x, y)| geometry::Point::new(x * 25.4, y * 25.4))).unwrap()
}

fn lid(return_width: Option<&str>) -> TaperedLid {
    TaperedLid {
        over: rectangle(30.0, 20.0),
        outset: inches("1/2"),
        rise: inches("2"),
        inset: vec![inches("3"); 4],
        skirt: inches("1"),
        return_width: return_width.map(inches),
    }
}

fn curl(radius: &str, way: EdgeWay) -> EdgeEnd {
    EdgeEnd::Curl { radius: inches(radius), turn: Angle::from_degrees(270.0), way: Some(way) }
}

fn profile(legs: &[&str], turn: f64, edge: EdgeEnd) -> BrakeProfile {
    let leg = |length: &&str| Leg {
        length: inches(length),
        to: LegTo::Outside,
        short: [Length::ZERO; 2],
        holes: Vec::new(),
    };
    let bend = ProfileBend::Bend {
        turn: Angle::from_degrees(turn),
        direction: Direction::Up,
        radius: None,
        way: BendWay::Brake,
    };
    BrakeProfile {
        length: inches("24"),
        legs: legs.iter().map(leg).collect(),
        bends: vec![bend; legs.len() - 1],
        flat_leg: 0,
        ends: [End::Square; 2],
        edges: [edge, EdgeEnd::Plain],
        joints: Vec::new(),
        joint_gap: Length::ZERO,
    }
}

fn cone(height: &str, strikes: u32) -> Cone {
    Cone {
        large: inches("12"),
        small: inches("6"),
        to: DiameterTo::Middle,
        height: inches(height),
        made: WrapMaking { rolled: false, strikes: Some(strikes), seam: WrapSeam::Butt },
    }
}

fn split(from: &str) -> MadeUpLid {
    let ends = [("AB".to_owned(), inches(from)), ("BC".to_owned(), inches("1/2"))];
    MadeUpLid {
        lid: lid(None),
        seat: Seat::Proud,
        hinge: None,
        made: LidMade::TwoHalves(Split { ends, flange: None }),
        notch: None,
        edge: EdgeEnd::Plain,
    }
}

fn inward_flanges() -> Panel {
    let flange = |side: &str| Flange {
        side: side.to_owned(),
        leg: inches("5"),
        direction: Direction::Up,
        turn: Angle::from_degrees(150.0),
        short: [Length::ZERO; 2],
    };
    Panel {
        outline: rectangle(20.0, 6.0),
        flanges: vec![flange("AB"), flange("CD")],
        holes: Vec::new(),
        notches: Vec::new(),
        edges: Vec::new(),
    }
}

fn pan() -> Pan {
    Pan {
        plan: PanPlan::Outside { length: inches("20"), width: inches("14") },
        height: inches("5"),
        rims: vec![Rim::Out(inches("1"))],
        lean: Vec::new(),
        edge: curl("1/2", EdgeWay::In),
    }
}

/// Every shape here is refused, and every one of the ways named comes to a size that works; `fields` are theirs.
fn names_what_works(recipe: &dyn Recipe, making: &Making, fields: &[&str]) {
    assert!(!nearest::works(recipe, making));
    for field in fields {
        let ways = recipe.ways(making);
        let named = ways.iter().filter(|way| field.starts_with(way.field));
        let found: Vec<_> = named.filter_map(|way| Some((way, way.nearest()?))).collect();
        assert!(!found.is_empty(), "{}: {field}", recipe.word());
        for (way, (steps, words)) in found {
            let works = |steps: u32| {
                let tried = (way.at)(steps).unwrap();
                nearest::works(&*tried.recipe, &tried.making)
            };
            assert!(works(steps), "{words}");
            assert!(steps == 1 || !works(steps - 1), "{words}: a step less far works too");
            assert!(words.contains(|c: char| c.is_ascii_digit()), "{words}");
        }
        let words = nearest::nearest(recipe, Some(field), making).unwrap();
        assert!(words.ends_with("would do") && !words.contains(" mm"), "{words}");
        // The same, said in millimetres where the job is.
        let metric = Making { style: LengthStyle::Millimetres { places: 1 }, ..making.clone() };
        assert!(nearest::nearest(recipe, Some(field), &metric).is_some(), "{field}");
    }
}

#[test]
fn refused_shapes_name_the_nearest_size_that_works() {
    let making = making(".125", ".125", 0.42);
    names_what_works(&lid(Some("12")), &making, &["return"]);
    let edge = EdgeEnd::Return { length: inches("11"), turn: Angle::RIGHT, way: None };
    names_what_works(&EdgedLid { lid: lid(None), edge, hinge: None }, &making, &["edge.return"]);
    let edge = curl("1", EdgeWay::In);
    names_what_works(&EdgedLid { lid: lid(None), edge, hinge: None }, &making, &["edge.curl"]);
    names_what_works(&pan(), &making, &["edge.curl"]);
    names_what_works(&profile(&["4", "2", "2", "4"], 100.0, EdgeEnd::Plain), &making, &["legs"]);
    let curled = profile(&["1", "4"], 90.0, curl("3/4", EdgeWay::Up));
    names_what_works(&curled, &making, &["edges.first.curl"]);
    names_what_works(&cone("1/8", 16), &making, &["height"]);
    names_what_works(&split("1/2"), &making, &["split"]);
    names_what_works(&inward_flanges(), &making, &["flanges"]);
}

/// Where plates of a lid lie on one another in the flat, or its tabs find no room, a size of the lid or of the tab is named.
#[test]
fn lids_that_do_not_come_out_of_one_piece_name_what_does() {
    let mut steep = lid(None);
    steep.inset = ["3", "1", "5", "1"].map(inches).to_vec();
    steep.skirt = inches("6");
    let butt = CornerStyle::Butt { through: Chosen::LongSides };
    let making = Making { corner: butt, ..making(".125", ".125", 0.42) };
    names_what_works(&steep, &making, &["inset"]);
    // Of the styles the open one does too, and is said.
    assert!(nearest::nearest(&steep, None, &making).unwrap().ends_with("open corners would do"));
    let tabs = CornerStyle::TabAndSlot {
        tab: inches("2"),
        clearance: inches("1/64"),
        count: 2,
        tabs_on: Chosen::LongSides,
    };
    let making = Making { corner: tabs, ..making };
    let walls = Pan { edge: EdgeEnd::Plain, height: inches("3"), rims: vec![Rim::None], ..pan() };
    assert!(!nearest::works(&walls, &making));
    let words = nearest::nearest(&walls, Some("corner.count"), &making).unwrap();
    let most = words.strip_prefix("tabs ").unwrap().strip_suffix(" wide would do").unwrap().to_owned();
    let with = |tab: Length| {
        let tabs =
            CornerStyle::TabAndSlot { tab, clearance: inches("1/64"), count: 2, tabs_on: Chosen::LongSides };
        nearest::works(&walls, &Making { corner: tabs, ..making.clone() })
    };
    let most = inches(&most);
    assert!(with(most) && !with(most + inches("1/16")), "{words}");
}

#[test]
fn no_refusal_of_an_inch_job_is_in_millimetres() {
    let making = making(".125", ".125", 0.42);
    let refused: [&dyn Recipe; 6] = [
        &lid(Some("12")),
        &pan(),
        &profile(&["1", "4"], 90.0, curl("3/4", EdgeWay::Up)),
        &profile(&["4", "2", "2", "4"], 100.0, EdgeEnd::Plain),
        &cone("1/8", 16),
        &split("1/2"),
    ];
    for recipe in refused {
        let problems = recipe.shape_piece(0, &making).unwrap_err();
        for problem in problems {
            let problem = nearest::with_nearest(recipe, problem, &making).to_string();
            assert!(!problem.contains(" mm"), "{problem}");
            assert!(problem.contains("would do"), "{problem}");
        }
    }
}
