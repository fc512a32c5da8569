//! One side view, cut to a window.

use fold::order::{SideView, Step};
use geometry::{Contour, Point, Vector, polygon};

use super::{PICTURE_MM, TEXT_MM, words};
use crate::page::{Fill, Item, Pen, Shape, Text, TextBox};

/// Most of a part that is shown on either side of the bend, mm; the rest runs out of the picture.
const MOST_SHOWN_MM: f64 = 260.0;

/// What of the machine is always shown above and below the sheet, and on either side of the bend, mm.
const MACHINE_SHOWN_MM: f64 = 90.0;

/// The window of all pictures of a card, in machine coordinates, and its scale.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Window {
    low: Point,
    high: Point,
    scale: f64,
}

impl Window {
    /// The window that shows the metal of all steps as far as it is near the bend, in the shape of a picture.
    pub(super) fn about(steps: &[Step]) -> Self {
        let views = steps.iter().flat_map(|step| [&step.before, &step.after]);
        let near = |p: &Point| {
            let most = MOST_SHOWN_MM;
            Point::new(p.x.clamp(-most, most), p.y.clamp(-most, most))
        };
        let machine = [-MACHINE_SHOWN_MM, MACHINE_SHOWN_MM].map(|at| Point::new(at, at));
        let metal: Vec<Point> =
            views.flat_map(|view| view.cut.iter().flatten()).map(near).chain(machine).collect();
        let (low, high) = polygon::bounds(&metal);
        let (wide, tall) = (high.x - low.x, high.y - low.y);
        let border = 1.15;
        let scale = (PICTURE_MM.0 / (border * wide)).min(PICTURE_MM.1 / (border * tall));
        let centre = low.toward(high, 0.5);
        let half = Point::new(0.5 * PICTURE_MM.0 / scale, 0.5 * PICTURE_MM.1 / scale);
        Self {
            low: Point::new(centre.x - half.x, centre.y - half.y),
            high: Point::new(centre.x + half.x, centre.y + half.y),
            scale,
        }
    }

    /// Whether the block of a stop stands in the pictures.
    pub(super) fn shows_stop(&self, stop: &DrawnStop) -> bool {
        STOP_MM < (-stop.distance_mm - self.low.x) * self.scale
    }

    /// A convex figure cut to the window and moved to a picture with its lower left corner at `corner`; `None` when
    /// nothing of it is in the window.
    fn shown(&self, figure: &[Point], corner: Point) -> Option<Vec<Point>> {
        let sides = [
            (self.low, (1.0, 0.0)),
            (self.high, (-1.0, 0.0)),
            (self.low, (0.0, 1.0)),
            (self.high, (0.0, -1.0)),
        ];
        let mut left = figure.to_vec();
        for (edge, inward) in sides {
            let inside = |p: Point| (p.x - edge.x) * inward.0 + (p.y - edge.y) * inward.1;
            left = cut(&left, inside);
        }
        (left.len() > 2).then(|| left.iter().map(|p| self.place(*p, corner)).collect())
    }

    /// Where a point of the machine lies on the page.
    fn place(&self, p: Point, corner: Point) -> Point {
        Point::new(corner.x + (p.x - self.low.x) * self.scale, corner.y + (p.y - self.low.y) * self.scale)
    }
}

/// What of a convex figure lies where `inside` is not below zero.
fn cut(figure: &[Point], inside: impl Fn(Point) -> f64) -> Vec<Point> {
    let mut kept = Vec::new();
    for (a, b) in polygon::edges(figure) {
        let (here, there) = (inside(a), inside(b));
        if 0.0 <= here {
            kept.push(a);
        }
        if (0.0 < here && there < 0.0) || (here < 0.0 && 0.0 < there) {
            kept.push(a.toward(b, here / (here - there)));
        }
    }
    kept
}

/// Room over a picture for its caption, mm: nothing is written where metal may be drawn.
pub(super) const CAPTION_MM: f64 = 1.3 * TEXT_MM;

/// One picture.
#[derive(Debug, Clone, Copy)]
pub(super) struct Shown<'a> {
    /// The side view.
    pub(super) view: &'a SideView,
    /// What stands over it.
    pub(super) caption: &'a str,
    /// What each face is called, in short.
    pub(super) names: &'a [String],
    /// The stop.
    pub(super) stop: Option<&'a DrawnStop>,
}

/// The stop of a picture.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct DrawnStop {
    /// How far it stands behind the bend line, mm.
    pub(super) distance_mm: f64,
    /// How high over the lower side of the sheet it touches, mm.
    pub(super) height_mm: f64,
    /// The distance as printed.
    pub(super) words: String,
}

/// What each face is called in a picture: "AB" of "wall AB" where no other face has these letters; else its whole name,
/// or "wall" where that is too long to stand at the metal and no other face is called so.
pub(super) fn names(whole: &[&str]) -> Vec<String> {
    let alone =
        |short: &str, of: fn(&str) -> &str| whole.iter().filter(|name| of(name) == short).count() == 1;
    let called = |name: &str| -> String {
        if alone(letters(name), letters) {
            return letters(name).to_owned();
        }
        let long = LONGEST_NAME_MM < Text::new(Point::default(), name, LETTERS_MM).bold().width_mm();
        let short = without_letters(name);
        if long && alone(short, without_letters) { short.to_owned() } else { name.to_owned() }
    };
    whole.iter().map(|name| called(name)).collect()
}

/// "AB" of "wall AB"; the whole name where it has no letters at its end.
fn letters(name: &str) -> &str {
    let last = name.rsplit(' ').next().unwrap_or(name);
    let is_letters = !last.is_empty() && last.chars().all(|c| c.is_ascii_uppercase());
    if is_letters { last } else { name }
}

/// "drip bottom" of "drip bottom AB".
fn without_letters(name: &str) -> &str {
    name.strip_suffix(letters(name)).map_or(name, |rest| if rest.is_empty() { name } else { rest.trim_end() })
}

/// Height of the letters in a picture, mm.
const LETTERS_MM: f64 = 0.75 * TEXT_MM;

/// A longer name would run over the tools; the words over the picture tell it, mm.
const LONGEST_NAME_MM: f64 = 12.0;

/// Side of the block that stands for the back stop, mm on the page.
const STOP_MM: f64 = 2.4;

/// The picture with its lower left corner at `corner`, its caption over it.
pub(super) fn items(shown: &Shown<'_>, window: &Window, corner: Point) -> Vec<Item> {
    let view = shown.view;
    let shape = |corners: Vec<Point>, pen: Option<Pen>, fill: Fill| {
        Item::Shape(Shape { contours: vec![Contour::polygon(&corners)], pen, fill: Some(fill) })
    };
    let seen = |figures: &[Vec<Point>]| -> Vec<Vec<Point>> {
        figures.iter().filter_map(|figure| window.shown(figure, corner)).collect()
    };
    let mut items: Vec<Item> =
        seen(&view.beyond).into_iter().map(|corners| shape(corners, None, Fill::Beyond)).collect();
    items.extend(
        seen(&view.machine).into_iter().map(|corners| shape(corners, Some(Pen::Machine), Fill::Paper)),
    );
    let in_the_way = seen(&view.in_the_way).into_iter();
    items.extend(in_the_way.map(|corners| {
        let contours = vec![Contour::polygon(&corners)];
        Item::Shape(Shape { contours, pen: Some(Pen::TrimEdge), fill: None })
    }));
    items.extend(seen(&view.cut).into_iter().map(|corners| shape(corners, Some(Pen::MetalCut), Fill::Black)));
    items.extend(named(shown, window, corner));
    items.extend(shown.stop.and_then(|stop| block(stop, window, corner)));
    let (wide, high) = PICTURE_MM;
    let frame = [(0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high)]
        .map(|(x, y)| Point::new(corner.x + x, corner.y + y));
    items.push(Item::edge(&frame, Pen::Frame));
    let at = Point::new(corner.x, corner.y + high + 0.35 * TEXT_MM);
    let from = if shown.stop.is_some() { words::STOP } else { "" };
    items.push(Item::Text(Text::new(at, caption(shown, window), 0.85 * TEXT_MM).from(from)));
    items
}

/// What words in a picture keep off, as it lies on the page.
struct Around {
    faces: Vec<(usize, Vec<Point>)>,
    metal: Vec<Seen>,
    machine: Vec<Seen>,
}

/// What shows of a figure, and the rectangle round it.
struct Seen {
    figure: Vec<Point>,
    bounds: (Point, Point),
}

impl Around {
    fn of(shown: &Shown<'_>, window: &Window, corner: Point) -> Self {
        let seen = |figures: &[Vec<Point>]| -> Vec<Seen> {
            let shown = figures.iter().filter_map(|figure| window.shown(figure, corner));
            shown.map(|figure| Seen { bounds: polygon::bounds(&figure), figure }).collect()
        };
        let view = shown.view;
        let mut machine = seen(&view.machine);
        machine.extend(seen(&view.in_the_way));
        let face = |(face, figure): &(usize, Vec<Point>)| Some((*face, window.shown(figure, corner)?));
        Self { faces: view.faces.iter().filter_map(face).collect(), metal: seen(&view.cut), machine }
    }

    /// How much nearer words stand to their own face than to any other, mm; below zero where another is nearer.
    fn nearer_mm(&self, own: usize, room: &TextBox) -> f64 {
        let nearest = |is_own: bool| {
            let faces = self.faces.iter().filter(|(face, _)| (*face == own) == is_own);
            faces
                .map(|(_, figure)| polygon::edges_distance(figure, &room.corners))
                .fold(f64::INFINITY, f64::min)
        };
        nearest(false) - nearest(true)
    }

    /// Whether words would stand on the metal, or a line of the machine would run through them.
    fn is_drawn_on(&self, room: &TextBox) -> bool {
        let near = polygon::bounds(&room.corners);
        let crosses = |seen: &&Seen| {
            let mut edges = polygon::edges(&seen.figure);
            edges.any(|edge| polygon::are_near(polygon::bounds(&[edge.0, edge.1]), near) && room.meets(edge))
        };
        let covers = |seen: &&Seen| polygon::contains(&seen.figure, room.corners[0]);
        let is_near = |seen: &&Seen| polygon::are_near(seen.bounds, near);
        self.metal.iter().filter(is_near).any(|seen| crosses(&seen) || covers(&seen))
            || self.machine.iter().filter(is_near).any(|seen| crosses(&seen))
    }

    /// The middle of what shows of a face, by its largest piece.
    fn middle_of(&self, own: usize) -> Option<Point> {
        let figures = self.faces.iter().filter(|(face, _)| *face == own);
        let bounds = figures.map(|(_, figure)| polygon::bounds(figure));
        let largest = bounds.max_by(|a, b| a.0.distance(a.1).total_cmp(&b.0.distance(b.1)));
        largest.map(|(low, high)| low.toward(high, 0.5))
    }

    /// How many tools words would stand in.
    fn count_tools_under(&self, room: &TextBox) -> usize {
        let at = room.corners[0];
        let is_near = |seen: &&Seen| polygon::are_near(seen.bounds, (at, at));
        self.machine.iter().filter(is_near).filter(|seen| polygon::contains(&seen.figure, at)).count()
    }
}

/// Where names are tried over the end of what they name and under it, nearest first, in letter heights.
const ROWS: [f64; 17] =
    [0.6, 1.1, 1.7, -1.5, -2.1, 2.4, -2.8, 3.2, -3.6, 4.2, -4.6, 5.4, -5.8, 6.6, -7.0, 8.0, 9.5];

/// Words stand so much nearer to their own face than to any other where they can, in letter heights: no reader doubts
/// which is meant.
const PLAINLY_NEARER_EM: f64 = 0.4;

/// The names of the faces that are cut, each near where what shows of it ends, away from the bend, else near its middle,
/// outside the tools where there is such a place, and nearest to its own face; one that would stand on another, on the
/// metal, on the stop or on a line of the machine, or nearer to another face, is left out: the words over the picture
/// tell it.
fn named(shown: &Shown<'_>, window: &Window, corner: Point) -> Vec<Item> {
    let (wide, high) = PICTURE_MM;
    let around = Around::of(shown, window, corner);
    let middle = window.place(Point::default(), corner);
    let mut taken: Vec<TextBox> =
        shown.stop.and_then(|stop| block_room(stop, window, corner)).into_iter().collect();
    let mut items = Vec::new();
    for (face, end) in shown_ends(&shown.view.faces, window, corner) {
        let Some(words) = shown.names.get(face) else { continue };
        let long = Text::new(corner, words.as_str(), LETTERS_MM).bold().width_mm();
        if LONGEST_NAME_MM < long {
            continue;
        }
        let share = if end.x < middle.x { 0.9 } else { 0.1 };
        let backs = [share, 0.5, 1.0 - share, 1.3 * share, if end.x < middle.x { 1.2 } else { -0.2 }];
        let places = std::iter::once(end).chain(around.middle_of(face));
        let spots = places.flat_map(|at| ROWS.iter().flat_map(move |row| backs.map(|back| (at, back, *row))));
        let texts = spots.map(|(at, back, over)| {
            let left = (at.x - back * long).clamp(corner.x + 0.5, corner.x + wide - long - 0.5);
            let foot = at.y + over * LETTERS_MM;
            let foot = foot.clamp(corner.y + 0.5, corner.y + high - LETTERS_MM);
            Text::new(Point::new(left, foot), words.as_str(), LETTERS_MM).bold()
        });
        let mut least: Option<((usize, bool), Text, TextBox)> = None;
        for text in texts {
            let room = text.bounding_box().grown(0.2);
            let tools = around.count_tools_under(&room);
            // However near to its face, words in so many tools come behind those that are known.
            let is_behind = least.as_ref().is_some_and(|(known, ..)| *known <= (tools, false));
            if is_behind || taken.iter().any(|other| other.overlaps(&room)) || around.is_drawn_on(&room) {
                continue;
            }
            let nearer_mm = around.nearer_mm(face, &room);
            let rank = (tools, nearer_mm < PLAINLY_NEARER_EM * LETTERS_MM);
            if 0.0 < nearer_mm && least.as_ref().is_none_or(|(known, ..)| rank < *known) {
                least = Some((rank, text, room));
            }
            if least.as_ref().is_some_and(|(known, ..)| *known <= (0, false)) {
                break;
            }
        }
        if let Some((_, text, room)) = least {
            taken.push(room);
            items.push(Item::Text(text));
        }
    }
    items
}

/// Where on the page each face ends that shows, as far from the bend as it shows.
fn shown_ends(faces: &[(usize, Vec<Point>)], window: &Window, corner: Point) -> Vec<(usize, Point)> {
    let middle = window.place(Point::default(), corner);
    let away = |p: &Point| p.distance(middle);
    let mut ends: Vec<(usize, Point)> = Vec::new();
    for (face, figure) in faces {
        let Some(figure) = window.shown(figure, corner) else { continue };
        let Some(&end) = figure.iter().max_by(|a, b| away(a).total_cmp(&away(b))) else { continue };
        match ends.iter_mut().find(|(known, _)| known == face) {
            Some((_, known)) if away(known) < away(&end) => *known = end,
            Some(_) => {}
            None => ends.push((*face, end)),
        }
    }
    ends
}

/// Where the block of the stop stands: behind the metal, at the height at which it touches; `None` outside the picture.
fn block_room(stop: &DrawnStop, window: &Window, corner: Point) -> Option<TextBox> {
    let face = window.place(Point::new(-stop.distance_mm, stop.height_mm), corner);
    let low = Point::new(face.x - STOP_MM, face.y - 0.4 * STOP_MM);
    window.shows_stop(stop).then(|| TextBox::new(low, Vector::new(1.0, 0.0), STOP_MM, STOP_MM))
}

/// The block of the stop, where it stands in the picture.
fn block(stop: &DrawnStop, window: &Window, corner: Point) -> Option<Item> {
    let room = block_room(stop, window, corner)?;
    let contours = vec![Contour::polygon(&room.corners)];
    Some(Item::Shape(Shape { contours, pen: Some(Pen::Machine), fill: Some(Fill::Black) }))
}

/// What stands over a picture: the distance of its stop stands here, where no line is drawn; "<" before it says that the
/// stop stands outside the picture.
fn caption(shown: &Shown<'_>, window: &Window) -> String {
    match shown.stop {
        Some(stop) if window.shows_stop(stop) => format!("{}, stop {}", shown.caption, stop.words),
        Some(stop) => format!("{}, < stop {}", shown.caption, stop.words),
        None => shown.caption.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_caption_stands_outside_the_picture() {
        let window = Window { low: Point::new(0.0, 0.0), high: Point::new(10.0, 10.0), scale: 4.0 };
        let corner = Point::new(100.0, 50.0);
        let view = SideView::default();
        let shown = Shown { view: &view, caption: "bent", names: &[], stop: None };
        let items = items(&shown, &window, corner);
        let captions: Vec<&Text> = items
            .iter()
            .filter_map(|item| match item {
                Item::Text(text) => Some(text),
                _ => None,
            })
            .collect();
        assert_eq!(captions.len(), 1);
        let feet = captions.iter().flat_map(|text| text.bounding_box().corners).map(|p| p.y);
        let foot = feet.fold(f64::INFINITY, f64::min);
        assert!(corner.y + PICTURE_MM.1 <= foot, "it covers the top of the picture: {foot}");
    }

    #[test]
    fn what_runs_out_of_the_window_is_cut_off() {
        let window = Window { low: Point::new(0.0, 0.0), high: Point::new(10.0, 10.0), scale: 2.0 };
        let long = [(-50.0, 4.0), (5.0, 4.0), (5.0, 6.0), (-50.0, 6.0)].map(|(x, y)| Point::new(x, y));
        let shown = window.shown(&long, Point::new(100.0, 0.0)).unwrap();
        let (low, high) = polygon::bounds(&shown);
        assert!((low.x - 100.0).abs() < 1e-9 && (high.x - 110.0).abs() < 1e-9);
        assert_eq!(window.shown(&long.map(|p| Point::new(p.x, p.y + 20.0)), Point::default()), None);
    }

    #[test]
    fn no_name_lies_on_the_metal() {
        let window = Window { low: Point::new(-50.0, -50.0), high: Point::new(50.0, 50.0), scale: 0.4 };
        // A leg that slants up from the bend, and one that lies level behind it.
        let leg =
            |to: Point| vec![Point::new(0.0, 0.0), to, Point::new(to.x, to.y + 2.0), Point::new(0.0, 2.0)];
        let legs = [leg(Point::new(40.0, 40.0)), leg(Point::new(-40.0, 0.0)), leg(Point::new(30.0, -5.0))];
        for pair in [[0, 1], [1, 2], [0, 2]] {
            let faces: Vec<(usize, Vec<Point>)> = (0..2).map(|n| (n, legs[pair[n]].clone())).collect();
            let cut: Vec<Vec<Point>> = faces.iter().map(|(_, figure)| figure.clone()).collect();
            let view = SideView { faces, cut: cut.clone(), ..SideView::default() };
            let names = ["slope AB".to_owned(), "skirt AB".to_owned()];
            let shown = Shown { view: &view, caption: "bent", names: &names, stop: None };
            let named = named(&shown, &window, Point::default());
            assert_eq!(named.len(), 2);
            for item in &named {
                let Item::Text(text) = item else { panic!("only words") };
                let room = text.bounding_box();
                for figure in cut.iter().filter_map(|figure| window.shown(figure, Point::default())) {
                    assert!(polygon::edges(&figure).all(|edge| !room.meets(edge)), "{}", text.words);
                }
            }
        }
    }

    #[test]
    fn a_name_stands_nearest_to_its_own_face() {
        let window = Window { low: Point::new(-50.0, -50.0), high: Point::new(50.0, 50.0), scale: 0.4 };
        let block = |low: (f64, f64), high: (f64, f64)| {
            let corners = [low, (high.0, low.1), high, (low.0, high.1)];
            corners.map(|(x, y)| Point::new(x, y)).to_vec()
        };
        // A long wall up from the bend with a short rim at its tip, and the other way about; a floor on the left.
        for rim in [4.0, 8.0, 15.0, -8.0] {
            for wall in [10.0, 25.0, 45.0] {
                let faces = vec![
                    (0, block((-45.0, 0.0), (-2.0, 2.0))),
                    (1, block((2.0, 2.0), (4.0, wall))),
                    (2, block((f64::min(4.0, 4.0 + rim), wall), (f64::max(4.0, 4.0 + rim), wall + 2.0))),
                ];
                let cut: Vec<Vec<Point>> = faces.iter().map(|(_, figure)| figure.clone()).collect();
                let view = SideView { faces, cut, ..SideView::default() };
                let names = ["floor", "wall DA", "rim DA"].map(str::to_owned);
                let shown = Shown { view: &view, caption: "bent", names: &names, stop: None };
                let around = Around::of(&shown, &window, Point::default());
                let items = named(&shown, &window, Point::default());
                assert!(2 <= items.len(), "rim {rim}, wall {wall}");
                for item in &items {
                    let Item::Text(text) = item else { panic!("only words") };
                    let own = names.iter().position(|name| *name == text.words).unwrap();
                    let centre = text.bounding_box();
                    let nearer = around.nearer_mm(own, &centre);
                    assert!(0.0 < nearer, "{}: rim {rim}, wall {wall}: {nearer}", text.words);
                }
            }
        }
    }

    #[test]
    fn no_two_faces_go_by_the_same_letters() {
        assert_eq!(names(&["floor", "wall AB", "wall BC"]), ["floor", "AB", "BC"]);
        assert_eq!(names(&["floor", "wall AB", "rim AB", "wall BC"]), ["floor", "wall AB", "rim AB", "BC"]);
        let long = names(&[
            "face AB",
            "weld flange on face BC",
            "drip bottom AB",
            "lip of the collar AB",
            "face BC",
        ]);
        assert_eq!(long, ["face AB", "weld flange on face", "drip bottom", "lip of the collar", "face BC"]);
    }

    #[test]
    fn a_face_is_known_by_its_letters() {
        assert_eq!(
            ["wall AB", "floor", "top toward BC", "leg 2"].map(letters),
            ["AB", "floor", "BC", "leg 2"]
        );
    }

    #[test]
    fn a_face_is_named_only_where_it_shows() {
        let window = Window { low: Point::new(-50.0, -50.0), high: Point::new(50.0, 50.0), scale: 0.4 };
        let strip = |from: f64, to: f64| {
            vec![Point::new(from, 0.0), Point::new(to, 0.0), Point::new(to, 3.0), Point::new(from, 3.0)]
        };
        let faces = [(0, strip(-200.0, -1.0)), (1, strip(1.0, 30.0)), (2, strip(60.0, 90.0))];
        let ends = shown_ends(&faces, &window, Point::default());
        let at: Vec<(usize, f64)> = ends.iter().map(|(face, end)| (*face, end.x)).collect();
        assert_eq!(at, [(0, 0.0), (1, 32.0)], "the first runs out of the picture, the third is beyond it");
    }

    #[test]
    fn the_stop_is_drawn_where_it_stands_and_told_where_it_does_not_show() {
        let window = Window { low: Point::new(-50.0, -50.0), high: Point::new(50.0, 50.0), scale: 0.4 };
        let view = SideView::default();
        let stop = |distance_mm: f64, height_mm: f64| DrawnStop {
            distance_mm,
            height_mm,
            words: "1 3/16".to_owned(),
        };
        let drawn = |stop: &DrawnStop| {
            let shown = Shown { view: &view, caption: "", names: &[], stop: Some(stop) };
            let items = items(&shown, &window, Point::default());
            let told =
                items.iter().any(|item| matches!(item, Item::Text(text) if text.words.contains(&stop.words)));
            let mut blocks = items.iter().filter_map(|item| match item {
                Item::Shape(shape) if shape.fill == Some(Fill::Black) => Some(shape.contours[0].bounds()),
                _ => None,
            });
            (blocks.next_back().map(|(low, _)| low.y), told)
        };
        let (level, high, away) =
            (drawn(&stop(30.0, 0.0)), drawn(&stop(30.0, 20.0)), drawn(&stop(300.0, 0.0)));
        assert!(level.1 && high.1 && away.1);
        assert_eq!(away.0, None);
        let rise = high.0.unwrap() - level.0.unwrap();
        assert!((rise - 20.0 * 0.4).abs() < 1e-9, "{rise}");
    }

    #[test]
    fn no_line_of_a_tool_runs_through_words() {
        let window = Window { low: Point::new(-50.0, -50.0), high: Point::new(50.0, 50.0), scale: 0.4 };
        let block = |low: (f64, f64), high: (f64, f64)| {
            vec![
                Point::new(low.0, low.1),
                Point::new(high.0, low.1),
                Point::new(high.0, high.1),
                Point::new(low.0, high.1),
            ]
        };
        let sheet = block((-20.0, 0.0), (50.0, 3.0));
        let machine = vec![block((-12.0, -40.0), (12.0, 0.0)), block((-4.0, 3.0), (4.0, 50.0))];
        let view =
            SideView { faces: vec![(0, sheet.clone())], cut: vec![sheet], machine, ..SideView::default() };
        let names = ["flange AB".to_owned()];
        // The stop in the picture, and one outside it.
        for (distance_mm, words) in [(20.0, "laid in, stop 3/4"), (300.0, "laid in, < stop 3/4")] {
            let stop = DrawnStop { distance_mm, height_mm: 0.0, words: "3/4".to_owned() };
            let shown = Shown { view: &view, caption: "laid in", names: &names, stop: Some(&stop) };
            let around = Around::of(&shown, &window, Point::default());
            let items = items(&shown, &window, Point::default());
            let texts: Vec<&Text> = items
                .iter()
                .filter_map(|item| if let Item::Text(text) = item { Some(text) } else { None })
                .collect();
            assert_eq!(texts.len(), 2);
            assert!(texts.iter().any(|text| text.words == words));
            assert!(texts.iter().all(|text| !around.is_drawn_on(&text.bounding_box())));
        }
    }

    #[test]
    fn a_name_without_a_clear_place_is_left_out() {
        let window = Window { low: Point::new(-50.0, -50.0), high: Point::new(50.0, 50.0), scale: 0.4 };
        let strip = |at: f64| {
            vec![
                Point::new(-50.0, at),
                Point::new(50.0, at),
                Point::new(50.0, at + 1.0),
                Point::new(-50.0, at + 1.0),
            ]
        };
        // Lines too close to one another for any word between them.
        let machine = (-16_i32..16).map(|number| strip(3.0 * f64::from(number))).collect();
        let sheet = strip(0.0);
        let view =
            SideView { faces: vec![(0, sheet.clone())], cut: vec![sheet], machine, ..SideView::default() };
        let names = ["flange AB".to_owned()];
        let shown = Shown { view: &view, caption: "laid in", names: &names, stop: None };
        assert!(named(&shown, &window, Point::default()).is_empty());
    }
}
