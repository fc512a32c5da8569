//! One side view, cut to a window.

use fold::order::{SideView, Step};
use geometry::{Contour, Point, polygon};

use super::{PICTURE_MM, TEXT_MM};
use crate::page::{Fill, Item, Pen, Shape, Text};

/// Most of a part that is shown on either side of the bend, mm; the rest runs out of the picture.
const MOST_SHOWN_MM: f64 = 260.0;

/// Least that is shown, mm.
const LEAST_SHOWN_MM: f64 = 60.0;

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
        let metal: Vec<Point> = views.flat_map(|view| view.cut.iter().flatten()).map(near).collect();
        let (low, high) = polygon::bounds(&metal);
        let (wide, tall) = ((high.x - low.x).max(LEAST_SHOWN_MM), (high.y - low.y).max(LEAST_SHOWN_MM));
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
        let place = |p: &Point| {
            Point::new(corner.x + (p.x - self.low.x) * self.scale, corner.y + (p.y - self.low.y) * self.scale)
        };
        (left.len() > 2).then(|| left.iter().map(place).collect())
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

/// The picture with its lower left corner at `corner`, its caption over it.
pub(super) fn items(view: &SideView, window: &Window, corner: Point, caption: &str) -> Vec<Item> {
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
    let (wide, high) = PICTURE_MM;
    let frame = [(0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high)]
        .map(|(x, y)| Point::new(corner.x + x, corner.y + y));
    items.push(Item::edge(&frame, Pen::Frame));
    let at = Point::new(corner.x, corner.y + high + 0.35 * TEXT_MM);
    items.push(Item::Text(Text::new(at, caption, 0.85 * TEXT_MM)));
    items
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_caption_stands_outside_the_picture() {
        let window = Window { low: Point::new(0.0, 0.0), high: Point::new(10.0, 10.0), scale: 4.0 };
        let corner = Point::new(100.0, 50.0);
        let items = items(&SideView::default(), &window, corner, "bent");
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
}
