//! Words of a picture: each where no line is drawn and no other word stands, beside its thing or on a leader to it.

use checks::fit::{Role, Scene, SceneFigure, Turned};
use geometry::{Point, Vector, polygon};

use super::{ANSWER, ARC_STEP_DEGREES, DOT_EM, TEXT_MM};
use crate::drawing::label::Label;
use crate::drawing::leader;
use crate::page::font::Weight;
use crate::page::{self, Ink, Item, TextBox};
use crate::placing::Field;

/// How far words stand off what they name, in text heights.
const OFF_EM: f64 = 0.35;

/// Black lies in the way of words by lines so far apart, mm: no word passes between them.
const HATCH_MM: f64 = 0.8;

/// Places tried over and across a figure, each way.
const STEPS: u32 = 9;

/// The words of one picture in the making.
pub(super) struct Words {
    field: Field,
    bounds: (Point, Point),
}

impl Words {
    /// A field with everything that is drawn.
    pub(super) fn beside(scene: &Scene, drawn: &[Item], put: impl Fn(Point) -> Point) -> Self {
        let mut field = Field::default();
        for figure in &scene.figures {
            let placed = placed(figure, &put);
            placed.edges().for_each(|(from, to)| field.add_line(from, to));
            if matches!(figure.role, Role::Part | Role::Before) {
                field.add_area(placed.0);
            }
        }
        for turned in &scene.turns {
            let points: Vec<Point> = along_arc(turned).into_iter().map(&put).collect();
            points.windows(2).for_each(|pair| field.add_line(pair[0], pair[1]));
            let about = put(turned.about);
            [points.first(), points.last()].into_iter().flatten().for_each(|&end| {
                // The arms run on past the arc, and the last has the arrow's head on it.
                field.add_line(about, about + (end - about) * 1.1);
                field.add_line(end - Vector::new(0.0, 0.3 * TEXT_MM), end + Vector::new(0.0, 0.3 * TEXT_MM));
                field.add_line(end - Vector::new(0.3 * TEXT_MM, 0.0), end + Vector::new(0.3 * TEXT_MM, 0.0));
            });
        }
        for (place, _) in &scene.marks {
            let (at, half) = (put(*place), DOT_EM * TEXT_MM);
            field.add_line(at - Vector::new(half, 0.0), at + Vector::new(half, 0.0));
            field.add_line(at - Vector::new(0.0, half), at + Vector::new(0.0, half));
        }
        Self { field, bounds: page::bounds(drawn).unwrap_or_default() }
    }

    /// All words of the picture.
    pub(super) fn items(&mut self, scene: &Scene, put: impl Fn(Point) -> Point) -> Vec<Item> {
        let mut items = Vec::new();
        let named = || scene.figures.iter().filter(|figure| !figure.name.is_empty());
        // White on black first: the black is then closed to all other words.
        let mut outside = Vec::new();
        for figure in named().filter(|figure| figure.role == Role::Fixed) {
            let label = Label { ink: Ink::White, ..Label::new(figure.name.as_str(), TEXT_MM) };
            match self.inside(&label, &placed(figure, &put)) {
                Some(name) => items.extend(name),
                None => outside.push(figure),
            }
        }
        for figure in scene.figures.iter().filter(|figure| figure.role == Role::Fixed) {
            placed(figure, &put).hatch(&mut self.field);
        }
        for turned in &scene.turns {
            items.extend(self.turn(turned, &put));
        }
        for (place, way, words) in &scene.labels {
            let label = Label::new(words.as_str(), 0.85 * TEXT_MM).from(ANSWER);
            items.extend(self.at(&label, put(*place), &[*way], 0.0));
        }
        for (place, words) in &scene.marks {
            let label = Label::new(words.as_str(), 0.9 * TEXT_MM).from(ANSWER);
            items.extend(self.at(&label, put(*place), &AROUND, DOT_EM * TEXT_MM));
        }
        for figure in named().filter(|figure| figure.role != Role::Fixed) {
            let label = Label::new(figure.name.as_str(), TEXT_MM);
            let placed = placed(figure, &put);
            let own = if figure.role == Role::Opening { None } else { self.inside(&label, &placed) };
            items.extend(own.unwrap_or_else(|| self.over(&label, &placed)));
        }
        for figure in outside {
            items.extend(self.over(&Label::new(figure.name.as_str(), TEXT_MM), &placed(figure, &put)));
        }
        items
    }

    /// Words that lie wholly in a figure, as near to its middle as they are clear.
    fn inside(&mut self, label: &Label, figure: &Placed) -> Option<Vec<Item>> {
        let (low, high) = figure.bounds();
        let middle = low.toward(high, 0.5);
        let mut centres: Vec<Point> = shares()
            .flat_map(|x| shares().map(move |y| (x, y)))
            .map(|(x, y)| Point::new(low.x + x * (high.x - low.x), low.y + y * (high.y - low.y)))
            .collect();
        centres.sort_by(|a, b| a.distance(middle).total_cmp(&b.distance(middle)));
        let lies_in = |centre: &Point| {
            let room = room(label, *centre);
            room.corners.iter().all(|&corner| polygon::contains(&figure.0, corner))
                && self.field.is_clear(&room)
        };
        let centre = centres.into_iter().find(lies_in)?;
        Some(self.laid(label, centre))
    }

    /// Words over a figure, or under it; on a leader where there is no room.
    fn over(&mut self, label: &Label, figure: &Placed) -> Vec<Item> {
        let (low, high) = figure.bounds();
        let off = 0.5 * label.height_mm() + OFF_EM * TEXT_MM;
        let rows = [high.y + off, low.y - off];
        let places =
            rows.into_iter().flat_map(|y| shares().map(move |x| Point::new(low.x + x * (high.x - low.x), y)));
        // Words on another figure would seem to name that.
        let places: Vec<Point> = places.collect();
        let free = |centre: &Point| {
            let room = room(label, *centre);
            self.field.is_clear(&room) && !self.field.lies_on_area(&room)
        };
        let clear = |centre: &Point| self.field.is_clear(&room(label, *centre));
        let best = places.iter().copied().find(free).or_else(|| places.iter().copied().find(clear));
        if let Some(centre) = best {
            return self.laid(label, centre);
        }
        let tips: Vec<Point> = figure.edges().map(|(from, to)| from.toward(to, 0.5)).collect();
        leader::place(&mut self.field, label, &tips, self.bounds)
    }

    /// Words beside a place, on one of these sides of it; on a leader where there is no room.
    fn at(&mut self, label: &Label, place: Point, ways: &[Vector], keep_off_mm: f64) -> Vec<Item> {
        let reach = |way: Vector| {
            // Along a slanting way the nearer of both sides of the room is what keeps off.
            let side = if 0.5 < way.x.abs() { 0.5 * label.width_mm() } else { 0.0 };
            let height = if 0.5 < way.y.abs() { 0.5 * label.height_mm() } else { 0.0 };
            let off = keep_off_mm + OFF_EM * TEXT_MM;
            place
                + Vector::new(way.x.signum() * (side + if side > 0.0 { off } else { 0.0 }), 0.0)
                + Vector::new(0.0, way.y.signum() * (height + if height > 0.0 { off } else { 0.0 }))
        };
        let slides = [0.0, 1.0, -1.0, 2.0, -2.0, 4.0, -4.0];
        let centres = slides.into_iter().flat_map(|slide| {
            ways.iter().map(move |&way| reach(way) + way.left() * (slide * TEXT_MM)).collect::<Vec<_>>()
        });
        let clear = |centre: &Point| self.field.is_clear(&room(label, *centre));
        if let Some(centre) = centres.into_iter().find(clear) {
            return self.laid(label, centre);
        }
        leader::place(&mut self.field, label, &[place], self.bounds)
    }

    /// Words of an angle outside its arc.
    fn turn(&mut self, turned: &Turned, put: impl Fn(Point) -> Point) -> Vec<Item> {
        let label = Label::new(turned.words.as_str(), TEXT_MM).from(ANSWER);
        let label = Label { weight: Weight::Bold, ..label };
        let about = put(turned.about);
        let tips: Vec<Point> = along_arc(turned).into_iter().map(put).collect();
        let beside = |tip: Point| {
            let out = (tip - about).unit();
            let reach = Vector::new(
                out.x * (0.5 * label.width_mm() + OFF_EM * TEXT_MM),
                out.y * (0.5 * label.height_mm() + OFF_EM * TEXT_MM),
            );
            tip + reach
        };
        let middle = tips.len() / 2;
        let mut by_middle: Vec<(usize, Point)> = tips.iter().copied().enumerate().collect();
        by_middle.sort_by_key(|(number, _)| number.abs_diff(middle));
        let clear = |centre: &Point| self.field.is_clear(&room(&label, *centre));
        let centre = by_middle.into_iter().map(|(_, tip)| beside(tip)).find(clear);
        match (centre, tips.get(middle)) {
            (Some(centre), _) => self.laid(&label, centre),
            (None, Some(&tip)) => leader::place(&mut self.field, &label, &[tip], self.bounds),
            (None, None) => Vec::new(),
        }
    }

    fn laid(&mut self, label: &Label, centre: Point) -> Vec<Item> {
        self.field.take(room(label, centre));
        label.items(centre, LEVEL)
    }
}

const LEVEL: Vector = Vector { x: 1.0, y: 0.0 };

/// Sides of a mark: corners of an opening have theirs outside, so slanting ones come first.
const AROUND: [Vector; 8] = [
    Vector { x: -0.71, y: 0.71 },
    Vector { x: 0.71, y: 0.71 },
    Vector { x: -0.71, y: -0.71 },
    Vector { x: 0.71, y: -0.71 },
    Vector { x: 0.0, y: 1.0 },
    Vector { x: 1.0, y: 0.0 },
    Vector { x: -1.0, y: 0.0 },
    Vector { x: 0.0, y: -1.0 },
];

fn room(label: &Label, centre: Point) -> TextBox {
    label.room(centre, LEVEL).grown(0.1 * label.size_mm)
}

/// Shares of a length, its middle first.
fn shares() -> impl Iterator<Item = f64> {
    let step = 0.5 / f64::from(STEPS + 1);
    (0..=STEPS).flat_map(move |number| {
        let off = f64::from(number) * step;
        [0.5 - off, 0.5 + off]
    })
}

/// Points of an arc from its start to its end.
pub(super) fn along_arc(turned: &Turned) -> Vec<Point> {
    let arm = turned.from - turned.about;
    let steps = (turned.turn_rad.abs().to_degrees() / ARC_STEP_DEGREES).ceil().max(1.0);
    let mut points = Vec::new();
    let mut step = 0.0;
    while step <= steps {
        points.push(turned.about + arm.turned(step / steps * turned.turn_rad));
        step += 1.0;
    }
    points
}

/// The corners of a figure on the page.
struct Placed(Vec<Point>);

fn placed(figure: &SceneFigure, put: impl Fn(Point) -> Point) -> Placed {
    Placed(figure.corners.iter().map(|&corner| put(corner)).collect())
}

impl Placed {
    fn edges(&self) -> impl Iterator<Item = (Point, Point)> + '_ {
        polygon::edges(&self.0)
    }

    fn bounds(&self) -> (Point, Point) {
        polygon::bounds(&self.0)
    }

    /// Closes the inside of the figure to words.
    fn hatch(&self, field: &mut Field) {
        let (low, high) = self.bounds();
        let mut y = low.y + 0.5 * HATCH_MM;
        while y < high.y {
            let crossing = |(a, b): (Point, Point)| {
                ((a.y < y) != (b.y < y)).then(|| a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y))
            };
            let mut crossings: Vec<f64> = self.edges().filter_map(crossing).collect();
            crossings.sort_by(f64::total_cmp);
            for pair in crossings.chunks_exact(2) {
                field.add_line(Point::new(pair[0], y), Point::new(pair[1], y));
            }
            y += HATCH_MM;
        }
    }
}
