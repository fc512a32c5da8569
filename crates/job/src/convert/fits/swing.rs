//! Sizes round a hinged lid.

use checks::fit::swing::{LidSwing, Obstacle};
use geometry::{Point, polygon};
use shapes::Clearance;

use crate::convert::clearance::clearance;
use crate::convert::desk::{Desk, Range};
use crate::file::{LidSwingFile, ObstacleFile, Size};
use crate::place::Place;

/// How far a deck is taken to reach, and how deep: beyond any lid.
const DECK_MM: f64 = 20_000.0;

pub(super) fn lid_swing(file: &LidSwingFile, place: &Place, desk: &mut Desk<'_>) -> Option<LidSwing> {
    let pin = desk.pair(&place.field("pin"), &file.pin, Range::Any);
    let opens = desk.angle(&place.field("opens"), &file.opens);
    let free = match &file.clearance {
        None => Some(Clearance::default()),
        Some(written) => clearance(written, &place.field("clearance"), desk),
    };
    let deck = desk.optional(&place.field("deck_below_pin"), file.deck_below_pin.as_ref(), Range::Any);
    let obstacles = file.around.iter().enumerate();
    let read = |(number, written): (usize, &ObstacleFile)| {
        obstacle(written, &place.field("around").entry(number), desk)
    };
    let around: Vec<Option<Obstacle>> = obstacles.map(read).collect();
    let mut around: Vec<Obstacle> = around.into_iter().collect::<Option<_>>()?;
    if let Some(below) = deck? {
        around.insert(0, deck_below(below.millimetres()));
    }
    if around.is_empty() {
        let remedy = "give \"deck_below_pin\", or what stands around it";
        desk.add(&place.field("around"), "", "there is nothing for the lid to meet", remedy);
        return None;
    }
    let ([pin_behind, pin_above], opens) = (pin?, opens?);
    if !(0.0..=180.0).contains(&opens.degrees()) {
        let remedy = "measure from closed: 90 stands upright";
        desk.add(&place.field("opens"), &file.opens.0.to_string(), "a lid opens by 0 to 180°", remedy);
        return None;
    }
    Some(LidSwing { pin_behind, pin_above, opens, clearance: free?, around })
}

fn deck_below(below_mm: f64) -> Obstacle {
    let corners = [(-DECK_MM, -DECK_MM), (DECK_MM, -DECK_MM), (DECK_MM, -below_mm), (-DECK_MM, -below_mm)];
    let corners = corners.map(|(x, y)| Point::new(x, y)).to_vec();
    Obstacle { name: "the deck".to_owned(), corners, along: None, touches: true }
}

fn obstacle(file: &ObstacleFile, place: &Place, desk: &mut Desk<'_>) -> Option<Obstacle> {
    let along = match &file.along {
        None => Some(None),
        Some(sizes) => desk.pair(&place.field("along"), sizes, Range::Any).map(Some),
    };
    let given = [file.corners.is_some(), file.point.is_some(), file.outline.is_some()];
    if given.into_iter().filter(|&given| given).count() != 1 {
        let remedy = "give exactly one of \"box\", \"point\" and \"outline\"";
        desk.add(&place.field("box"), "", "one field must give its shape", remedy);
        return None;
    }
    let corners = if let Some([low, high]) = &file.corners {
        let here = place.field("box");
        let (a, b) = (point(low, &here.entry(0), desk), point(high, &here.entry(1), desk));
        upright(a?, b?)
    } else if let Some(at) = &file.point {
        vec![point(at, &place.field("point"), desk)?]
    } else {
        let here = place.field("outline");
        let written = file.outline.iter().flatten().enumerate();
        let points: Vec<Option<Point>> =
            written.map(|(number, at)| point(at, &here.entry(number), desk)).collect();
        points.into_iter().collect::<Option<Vec<Point>>>()?
    };
    let [low, high] = along?.map_or([None, None], |[low, high]| [Some(low), Some(high)]);
    let along = low.zip(high).map(|(low, high)| if low <= high { [low, high] } else { [high, low] });
    let corners = sound(corners, place, desk)?;
    Some(Obstacle { name: file.name.clone(), corners, along, touches: file.touches.unwrap_or(false) })
}

fn point(sizes: &[Size; 2], place: &Place, desk: &mut Desk<'_>) -> Option<Point> {
    let [x, y] = desk.pair(place, sizes, Range::Any)?;
    Some(Point::new(x.millimetres(), y.millimetres()))
}

fn upright(a: Point, b: Point) -> Vec<Point> {
    let (low, high) = polygon::bounds(&[a, b]);
    vec![low, Point::new(high.x, low.y), high, Point::new(low.x, high.y)]
}

/// A point, or corners that enclose an area without crossing, counter-clockwise.
fn sound(mut corners: Vec<Point>, place: &Place, desk: &mut Desk<'_>) -> Option<Vec<Point>> {
    if corners.len() == 1 {
        return Some(corners);
    }
    let area = polygon::signed_area(&corners);
    if area.abs() <= geometry::tolerance::SAME_POINT_MM || polygon::self_crossing(&corners).is_some() {
        let remedy = "give the corners in order, once round";
        desk.add(place, "", "these corners enclose no area, or cross", remedy);
        return None;
    }
    if area < 0.0 {
        corners.reverse();
    }
    Some(corners)
}
