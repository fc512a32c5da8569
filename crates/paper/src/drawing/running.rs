//! Running dimensions: every place is measured from the datum, none from its neighbour.
//!
//! Extension lines run straight to a band beside the part; there they jog to labels that keep their distance.
//! Where one row would be crowded, places in the far half of the part get a row on the far side, still measured
//! from the datum; so do those that could be taken for a place in the near half that lies nearly as far along: of a tapered
//! plate both ends have their own numbers beside them.

use geometry::{Point, Vector, tolerance};
use units::LengthStyle;

use super::printed;
use crate::page::{Anchor, Item, Pen, Text, TextBox};
use crate::placing::{Field, spread};

/// Which coordinate a row of dimensions shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Axis {
    /// x, in rows under and over the part, the words turned upright.
    X,
    /// y, in columns left and right of it.
    Y,
}

/// One row of labels.
#[derive(Debug, Clone, Copy)]
struct Row {
    axis: Axis,
    /// Where the part ends and the band begins, mm across the axis.
    edge_mm: f64,
    /// −1 for the rows at the datum edges, 1 for the far ones.
    outward: f64,
}

/// Where the numbers of both axes come from: the appendix tells the same.
pub(crate) const ORIGINS: [(&str, &str); 2] = [
    (
        "running dimensions along the lower edge and over the drawing",
        "measured on the drawn figure, to the right from the left datum edge; each is rounded once, never from its neighbour",
    ),
    (
        "running dimensions along the left edge and right of the drawing",
        "measured on the drawn figure, up from the lower datum edge; each is rounded once, never from its neighbour",
    ),
];

/// One label, with the points it stands for.
struct Station {
    words: String,
    points: Vec<Point>,
}

/// The datum corner.
const DATUM: Point = Point::new(0.0, 0.0);

/// What a drawing of this extent needs to know for its dimensions.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Frame {
    /// Extent along x, mm.
    pub(crate) width_mm: f64,
    /// Extent along y, mm.
    pub(crate) height_mm: f64,
    /// How lengths are printed.
    pub(crate) style: LengthStyle,
    /// Height of the words, mm.
    pub(crate) text_mm: f64,
    /// From the datum corner to the corner of what is drawn, where only a stretch of the whole is.
    pub(crate) begins: Vector,
}

/// Where the band begins, where the jog ends, and where the words begin, in text heights from the edge.
const BAND_EM: [f64; 3] = [1.1, 2.7, 3.3];

/// Distance between labels, in text heights.
pub(crate) const PITCH_EM: f64 = 1.12;

/// Share of a side that labels may fill before the far side gets a row of its own.
pub(crate) const CROWDED: f64 = 0.6;

/// Draws the running dimensions of `points` both ways from (0, 0), and takes their room in the field.
pub(crate) fn both_ways(field: &mut Field, points: &[Point], frame: Frame) -> Vec<Item> {
    rows(field, [points, points], frame)
}

/// The same, with points of their own for the rows along x and for the columns along y.
pub(crate) fn rows(field: &mut Field, [along_x, along_y]: [&[Point]; 2], frame: Frame) -> Vec<Item> {
    let (mut items, highest) = axis(field, along_y, frame, Axis::Y, frame.width_mm);
    // Labels right of the part may reach over its top; the row over the part then stands clear of them.
    let (rows, _) = axis(field, along_x, frame, Axis::X, frame.height_mm.max(highest));
    items.extend(rows);
    items
}

/// All rows of one axis; also how far along the axis the labels of the far row reach.
fn axis(field: &mut Field, points: &[Point], frame: Frame, axis: Axis, far_mm: f64) -> (Vec<Item>, f64) {
    let (length, depth) = match axis {
        Axis::X => (frame.width_mm, frame.height_mm),
        Axis::Y => (frame.height_mm, frame.width_mm),
    };
    let near_row = Row { axis, edge_mm: 0.0, outward: -1.0 };
    let far_row = Row { axis, edge_mm: far_mm, outward: 1.0 };
    // A stretch that begins elsewhere does not show the datum edge.
    let begins = near_row.along(Point::default() + frame.begins);
    let datum = if begins.abs() <= tolerance::SAME_POINT_MM { vec![DATUM] } else { Vec::new() };
    let all = stations(points.iter().chain(&datum), near_row, frame);
    let count: f64 = all.iter().map(|_| 1.0).sum();
    let crowded = CROWDED * length < count * PITCH_EM * frame.text_mm;
    let is_far = |point: &Point| 0.5 * depth < near_row.across(*point);
    let mistaken = mistaken(&all, near_row, is_far, MISTAKEN_EM * frame.text_mm);
    let goes_far = |point: &&Point| {
        is_far(point)
            && (crowded
                || mistaken.iter().any(|at| (at - near_row.along(**point)).abs() <= tolerance::SAME_POINT_MM))
    };
    let (far, near): (Vec<Point>, Vec<Point>) = points.iter().partition(goes_far);
    let near = stations(near.iter().chain(&datum), near_row, frame);
    let mut far = stations(far.iter(), far_row, frame);
    far.retain(|station| near.iter().all(|known| known.words != station.words));
    let (mut items, _) = row(field, &near, near_row, frame);
    let (rest, reach) = row(field, &far, far_row, frame);
    items.extend(rest);
    (items, reach)
}

/// Numbers nearer to one another than this, in text heights, do not show which of two places each stands for.
const MISTAKEN_EM: f64 = 2.3;

/// How far along the places of the far half lie which could be taken for one of the near half, for all that their numbers
/// show in one row.
fn mistaken(all: &[Station], row: Row, is_far: impl Fn(&Point) -> bool, near_mm: f64) -> Vec<f64> {
    let along = |station: &Station| row.along(station.points[0]);
    let alone = all.iter().filter(|station| station.points.iter().all(&is_far));
    let beside = alone.filter(|station| {
        let others = all.iter().filter(|other| !other.points.iter().all(&is_far));
        others.map(|other| (along(other) - along(station)).abs()).any(|apart| apart < near_mm)
    });
    beside.flat_map(|station| station.points.iter().map(|point| row.along(*point))).collect()
}

impl Row {
    /// The coordinate that is printed.
    const fn along(self, point: Point) -> f64 {
        match self.axis {
            Axis::X => point.x,
            Axis::Y => point.y,
        }
    }

    /// The other coordinate.
    const fn across(self, point: Point) -> f64 {
        match self.axis {
            Axis::X => point.y,
            Axis::Y => point.x,
        }
    }

    /// The point at `along` on the axis, `out_mm` outside the edge.
    fn outside(self, along: f64, out_mm: f64) -> Point {
        let across = self.edge_mm + self.outward * out_mm;
        match self.axis {
            Axis::X => Point::new(along, across),
            Axis::Y => Point::new(across, along),
        }
    }
}

/// Draws one row; also how far along the axis its last label reaches.
fn row(field: &mut Field, stations: &[Station], row: Row, frame: Frame) -> (Vec<Item>, f64) {
    let wanted: Vec<f64> = stations.iter().map(|station| row.along(station.points[0])).collect();
    let places = spread(&wanted, PITCH_EM * frame.text_mm, -0.1 * frame.text_mm);
    let reach = places.last().map_or(0.0, |place| place + frame.text_mm);
    let mut items = Vec::new();
    for (station, &place) in stations.iter().zip(&places) {
        station_lines(field, station, row, place, frame.text_mm, &mut items);
        let text = station_text(station, row, place, frame.text_mm);
        field.take(text.bounding_box());
        items.push(Item::Text(text));
    }
    let spans: Vec<(f64, f64)> =
        wanted.iter().zip(&places).map(|(at, place)| (at.min(*place), at.max(*place))).collect();
    keep_clear(field, row, &spans, frame.text_mm);
    (items, reach)
}

/// The points by what is printed for them, in rising order. Points no farther along than a scribed line is wide share
/// the first one's number; of those on one line only the one nearest to the row gets an extension line, since that
/// passes through the others.
fn stations<'a>(points: impl Iterator<Item = &'a Point>, row: Row, frame: Frame) -> Vec<Station> {
    let begins = row.along(Point::default() + frame.begins);
    let mut sorted: Vec<Point> = points.copied().collect();
    let depth = |point: Point| -row.outward * row.across(point);
    sorted.sort_by(|a, b| row.along(*a).total_cmp(&row.along(*b)));
    let mut stations: Vec<Station> = Vec::new();
    let mut farthest = String::new();
    for point in sorted {
        let along = row.along(point);
        let words = printed(begins + along, frame.style);
        let joins = |last: &Station| {
            last.words == words || along - row.along(last.points[0]) <= tolerance::SCRIBED_LINE_MM
        };
        match stations.last_mut().filter(|last| joins(last)) {
            Some(last) => {
                let same =
                    |known: &&mut Point| (row.along(**known) - along).abs() <= tolerance::SAME_POINT_MM;
                match last.points.iter_mut().find(same) {
                    Some(known) if depth(point) < depth(*known) => *known = point,
                    Some(_) => {}
                    None => last.points.push(point),
                }
            }
            None => stations.push(Station { words, points: vec![point] }),
        }
        // The last number of a row is the size of the part and is printed as it is.
        farthest = printed(begins + along, frame.style);
    }
    if let Some(last) = stations.last_mut() {
        last.words = farthest;
    }
    stations
}

/// The extension line of every point, and its jog to the label.
fn station_lines(
    field: &mut Field,
    station: &Station,
    row: Row,
    place: f64,
    text_mm: f64,
    items: &mut Vec<Item>,
) {
    let [band, jog, words] = BAND_EM.map(|share| share * text_mm);
    for &point in &station.points {
        let edge = row.outside(row.along(point), band);
        items.push(Item::line(point, edge, Pen::Extension));
        field.add_hairline(point, edge);
        let knee = row.outside(place, jog);
        items.push(Item::line(edge, knee, Pen::Dimension));
        field.add_line(edge, knee);
        items.push(Item::line(knee, row.outside(place, words - 0.2 * text_mm), Pen::Dimension));
    }
}

fn station_text(station: &Station, row: Row, place: f64, text_mm: f64) -> Text {
    // Half the height of a figure, so that the line meets the middle of the number.
    let drop = 0.35 * text_mm;
    let at = row.outside(place, BAND_EM[2] * text_mm);
    let text = match row.axis {
        Axis::X => Text::new(at + Vector::new(drop, 0.0), station.words.as_str(), text_mm)
            .turned(std::f64::consts::FRAC_PI_2),
        Axis::Y => Text::new(at - Vector::new(0.0, drop), station.words.as_str(), text_mm),
    };
    let [(_, right), (_, up)] = ORIGINS;
    let origin = match row.axis {
        Axis::X => right,
        Axis::Y => up,
    };
    text.from(origin).anchored(if row.outward < 0.0 { Anchor::End } else { Anchor::Start })
}

/// Stretches of a far row without numbers are left to leaders where they are longer than this, in text heights; those of a near
/// row where nobody would take the words for a number of it.
const GAP_EM: f64 = 2.0;
const NEAR_GAP_EM: f64 = 6.0;

/// Keeps everything else out of the strip between an edge and the labels of its row; `spans` are what every number and its jog
/// take along the row, in rising order. A row that has few numbers leaves what is free between them.
fn keep_clear(field: &mut Field, row: Row, spans: &[(f64, f64)], text_mm: f64) {
    let gap_mm = if row.outward < 0.0 { NEAR_GAP_EM } else { GAP_EM } * text_mm;
    let mut stretches: Vec<(f64, f64)> = Vec::new();
    for &(begin, end) in spans {
        match stretches.last_mut().filter(|last| begin - last.1 <= gap_mm + 2.0 * text_mm) {
            Some(last) => last.1 = last.1.max(end),
            None => stretches.push((begin, end)),
        }
    }
    for (begin, end) in stretches {
        let (near, far) = (
            row.outside(begin - text_mm, 0.2 * text_mm),
            row.outside(end + text_mm, (BAND_EM[2] - 0.1) * text_mm),
        );
        let low = Point::new(near.x.min(far.x), near.y.min(far.y));
        let size = Vector::new((near.x - far.x).abs(), (near.y - far.y).abs());
        field.take(TextBox::new(low, Vector::new(1.0, 0.0), size.x, size.y));
    }
}
