//! Flanges of a panel that are bent opposite ways past square beside one corner, and slight turns.
#![allow(clippy::unwrap_used, reason = "a test may stop at a part that cannot be made")]

use crate::common::{inches, making};
use fold::Direction::{self, Down, Up};
use fold::refold;
use geometry::{Point, trig};
use shapes::hopper::{Hopper, HopperMade, HopperStands, RimEdge};
use shapes::panel::{Flange, Panel};
use shapes::{Figure, Making, Recipe, ReliefHole, ReliefStyle};
use units::{Angle, Length};

fn flange(side: &str, leg: &str, (direction, degrees): (Direction, f64), short: &str) -> Flange {
    let (turn, short) = (Angle::from_degrees(degrees), inches(short));
    let short = if side == "AB" { [Length::ZERO, short] } else { [short, Length::ZERO] };
    Flange { side: side.to_owned(), leg: inches(leg), direction, turn, short }
}

fn panel(flanges: Vec<Flange>) -> Panel {
    let outline = Figure::rectangle(20.0 * 25.4, 12.0 * 25.4).unwrap();
    Panel { outline, flanges, holes: Vec::new(), notches: Vec::new(), edges: Vec::new() }
}

/// Up along AB and down along BC never meet, whatever their turns: each ends at the corner as drawn. Past square that is short of
/// where the mold lines cross, which lies (R + T)·(tan(θ/2) − 1) out in the air beyond the outermost metal.
#[test]
fn flanges_bent_opposite_ways_past_square_end_at_the_corner_as_drawn() {
    let plain = making(".125", ".125", 0.42);
    let all = [90.0, 100.0, 105.0, 120.0, 135.0, 150.0];
    for relief in [ReliefStyle::Square, ReliefStyle::Round { hole: ReliefHole::Handbook }] {
        let making = Making { relief, ..plain.clone() };
        for (up, down) in all.iter().flat_map(|up| all.map(|down| (*up, down))) {
            let panel = panel(vec![flange("AB", "2", (Up, up), "0"), flange("BC", "1", (Down, down), "0")]);
            let part = panel.shape(&making).unwrap().part;
            let flat =
                fold::flat::unfold(&part).unwrap_or_else(|error| panic!("{up} up, {down} down: {error}"));
            let proof = refold::prove(&part, &flat).unwrap();
            assert!(proof.worst_mm < 0.001, "{up} up, {down} down");
            // Seen flat, AB's flange ends right at the drawn end of its side.
            let along = |face: usize, pick: fn(Point) -> f64| {
                let corners = flat.faces[face].corners.iter().map(|corner| pick(*corner));
                let root = flat.faces[0].placement.place(Point::default());
                corners.fold(f64::NEG_INFINITY, f64::max) - pick(root)
            };
            let end = along(1, |corner| corner.x) / 25.4;
            assert!((end - 20.0).abs() < 1e-6, "{up} up, {down} down: {end}");
        }
    }
}

/// 1/8 short of the corner both bends still run into one another; the least of those tried that does is told and works.
#[test]
fn flanges_that_stop_too_little_short_are_told_how_far() {
    let making = making(".125", ".125", 0.42);
    let with = |short: &str| {
        panel(vec![flange("AB", "2", (Up, 120.0), short), flange("BC", "1", (Down, 120.0), short)])
    };
    let unfolds = |short: &str| fold::flat::unfold(&with(short).shape(&making).unwrap().part).is_ok();
    assert!(!unfolds("1/8") && unfolds("7/16"));
    let remedy = with("1/8").nearest_remedy(&making).unwrap();
    assert!(remedy.contains("flange AB and flange BC both .438 short of corner B"), "{remedy}");
    assert_eq!(with("7/16").nearest_remedy(&making), None);
}

fn crooked(by_inches: f64) -> Hopper {
    let figure = |corners: [(f64, f64); 4]| {
        let corners = corners.map(|(x, y)| Point::new(x * 25.4, y * 25.4));
        Figure::lettered(&corners).unwrap()
    };
    Hopper {
        stands: HopperStands::RimDown,
        rim: figure([(0.0, 0.0), (30.0, 0.0), (30.0, 24.0), (0.0, 24.0 - by_inches)]),
        collar: figure([(10.0, 7.0), (18.0, 7.0), (18.0, 15.0), (10.0, 15.0)]),
        rise: inches("16"),
        rim_edge: RimEdge::None,
        collar_height: None,
        made: HopperMade::OnePiece,
        least_slope: None,
    }
}

/// A rim out by 1/8 turns its face along the diagonal by a third of a degree. Nothing bends that; the folded corners are as taped
/// all the same. Out by an inch it is a bend.
#[test]
fn a_crooked_rim_springs_its_face() {
    let making = making(".063", ".063", 0.42);
    for (by, sprung) in [(1.0 / 16.0, true), (0.125, true), (0.25, true), (1.0, false)] {
        let shaped = crooked(by).shape_piece(0, &making).unwrap();
        let flat = shaped.unfold().unwrap();
        assert!(refold::prove(&shaped.part, &flat).unwrap().worst_mm < 0.001);
        let slight: Vec<_> = flat.bends.iter().filter(|bend| bend.forming == fold::Forming::Sprung).collect();
        assert_eq!(slight.len(), usize::from(sprung), "{by}");
        // 16·(the rim's slope across) is what the plane of the face is out by; under a degree in all of these.
        assert!(slight.iter().all(|bend| trig::sin(bend.turn_rad) < trig::sin(1.0_f64.to_radians())));
    }
}
