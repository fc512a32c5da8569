//! What is drawn on one leaf, as drawing commands.

use geometry::outline::arc_sweep;
use geometry::{Contour, Point, Segment, Vector, trig};
use pdf_writer::types::{LineCapStyle, LineJoinStyle};
use pdf_writer::{Content, Name, Str};

use super::letters::Letters;
use super::reading_order::in_sight;
use super::{Leaf, Placed};
use crate::markup::readable;
use crate::page::font::Weight;
use crate::page::{Anchor, Item, Look, Pen, Shape, Text};

/// Points to the millimetre: 72 to the inch of 25.4 mm.
pub(super) const POINTS_PER_MM: f64 = 72.0 / 25.4;

/// Arcs are drawn in pieces of at most this; a cubic then keeps to the arc within five millionths of its radius
/// (Goldapp, "Approximation of circular arcs by cubic polynomials", 1991; figure from memory).
const ARC_PIECE_RAD: f64 = 0.25 * std::f64::consts::PI;

/// Names of the two weights in the document.
pub(super) const FONT_NAMES: [Name<'static>; 2] = [Name(b"F0"), Name(b"F1")];

/// The two weights, regular first.
pub(super) type Fonts = [Letters; 2];

/// The commands of a leaf.
pub(super) fn write(leaf: &Leaf<'_>, fonts: &mut Fonts) -> Vec<u8> {
    let mut content = Content::new();
    content.set_line_join(LineJoinStyle::RoundJoin);
    for drawing in &leaf.drawings {
        let mut canvas = Canvas {
            content: &mut content,
            fonts,
            placed: Some(*drawing),
            text_mm: drawing.page.text_mm * drawing.scale,
        };
        canvas.drawing(&drawing.page.items);
    }
    let mut canvas = Canvas { content: &mut content, fonts, placed: None, text_mm: leaf.text_mm };
    canvas.items(&leaf.items);
    content.finish().into_vec()
}

struct Canvas<'a> {
    content: &'a mut Content,
    fonts: &'a mut Fonts,
    placed: Option<Placed<'a>>,
    text_mm: f64,
}

/// Points as the format takes them.
#[expect(
    clippy::cast_possible_truncation,
    reason = "a leaf is some thousand points wide; single precision keeps them"
)]
pub(super) fn points(millimetres: f64) -> f32 {
    (millimetres * POINTS_PER_MM) as f32
}

/// A share or a colour.
#[expect(clippy::cast_possible_truncation, reason = "shares lie between -1 and 1")]
fn share(value: f64) -> f32 {
    value as f32
}

impl Canvas<'_> {
    fn scale(&self) -> f64 {
        self.placed.map_or(1.0, |placed| placed.scale)
    }

    fn place(&self, point: Point) -> (f32, f32) {
        let on_paper = self.placed.map_or(point, |placed| placed.place(point));
        (points(on_paper.x), points(on_paper.y))
    }

    /// The items of a drawing, within its window if it has one.
    fn drawing(&mut self, items: &[Item]) {
        let Some((low, high)) = self.placed.and_then(|placed| placed.window) else {
            return self.items(items);
        };
        self.content.save_state();
        let [x, y] = [low.x, low.y].map(points);
        self.content.rect(x, y, points(high.x - low.x), points(high.y - low.y)).clip_nonzero().end_path();
        self.items(items);
        self.content.restore_state();
    }

    fn items(&mut self, items: &[Item]) {
        for item in items {
            match item {
                Item::Group(group) => self.items(&group.items),
                Item::Line(line) => {
                    self.pen(line.pen);
                    self.move_to(line.from);
                    self.line_to(line.to);
                    self.content.stroke();
                }
                Item::Shape(shape) => self.shape(shape),
                Item::Text(text) => self.text(text),
            }
        }
    }

    fn move_to(&mut self, point: Point) {
        let (x, y) = self.place(point);
        self.content.move_to(x, y);
    }

    fn line_to(&mut self, point: Point) {
        let (x, y) = self.place(point);
        self.content.line_to(x, y);
    }

    fn pen(&mut self, pen: Pen) {
        let Look { weight_mm, dashes_mm, ink, round_ends } = pen.look(self.text_mm);
        let [red, green, blue] = colour(ink.hex());
        self.content.set_stroke_rgb(red, green, blue);
        self.content.set_line_width(points(weight_mm));
        self.content.set_line_cap(if round_ends { LineCapStyle::RoundCap } else { LineCapStyle::ButtCap });
        self.content.set_dash_pattern(dashes_mm.iter().map(|dash| points(*dash)), 0.0);
    }

    fn shape(&mut self, shape: &Shape) {
        if let Some(fill) = shape.fill {
            let [red, green, blue] = colour(fill.hex());
            self.content.set_fill_rgb(red, green, blue);
        }
        if let Some(pen) = shape.pen {
            self.pen(pen);
        }
        for contour in shape.contours.iter().filter(|contour| !contour.segments.is_empty()) {
            self.contour(contour);
        }
        match (shape.fill, shape.pen) {
            (Some(_), Some(_)) => self.content.fill_even_odd_and_stroke(),
            (Some(_), None) => self.content.fill_even_odd(),
            (None, Some(_)) => self.content.stroke(),
            (None, None) => self.content.end_path(),
        };
    }

    fn contour(&mut self, contour: &Contour) {
        self.move_to(contour.start());
        for (from, segment) in contour.pieces() {
            match segment {
                Segment::Line { to } => self.line_to(to),
                Segment::Arc { to, centre, counter_clockwise } => {
                    self.arc(from, centre, arc_sweep(from, to, centre, counter_clockwise));
                }
            }
        }
        self.content.close_path();
    }

    /// An arc in cubics: handles of 4/3 tan(θ/4) radii along the tangents.
    fn arc(&mut self, from: Point, centre: Point, sweep: f64) {
        let count = (sweep.abs() / ARC_PIECE_RAD).ceil().max(1.0);
        let step = sweep / count;
        let handle = 4.0 / 3.0 * trig::tan(0.25 * step);
        let radius = centre.distance(from);
        let begin = (from - centre).angle();
        let mut number = 0.0;
        while number < count {
            let [old, new] = [number, number + 1.0].map(|k| Vector::at_angle(begin + k * step) * radius);
            let (x1, y1) = self.place(centre + old + old.left() * handle);
            let (x2, y2) = self.place(centre + new - new.left() * handle);
            let (x3, y3) = self.place(centre + new);
            self.content.cubic_to(x1, y1, x2, y2, x3, y3);
            number += 1.0;
        }
    }

    fn text(&mut self, text: &Text) {
        let which = usize::from(text.weight == Weight::Bold);
        let size_mm = text.size_mm * self.scale();
        let runs = self.fonts[which].runs(&in_sight(&readable(&text.words)));
        let width: f64 = runs.iter().map(|run| run.width_em).sum::<f64>() * size_mm;
        let along = Vector::at_angle(text.turn_rad);
        let back = match text.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => 0.5 * width,
            Anchor::End => width,
        };
        let at = self.placed.map_or(text.at, |placed| placed.place(text.at));
        let mut start = at - along * back;
        let [red, green, blue] = colour(text.ink.hex());
        self.content.set_fill_rgb(red, green, blue);
        self.content.begin_text();
        for run in runs {
            let (cosine, sine) = (share(along.x), share(along.y));
            self.content.set_font(FONT_NAMES[which], points(size_mm * run.size_em));
            self.content.set_text_matrix([cosine, sine, -sine, cosine, points(start.x), points(start.y)]);
            self.content.show(Str(&run.codes));
            start = start + along * (run.width_em * size_mm);
        }
        self.content.end_text();
    }
}

/// Six hexadecimal digits after a number sign, as shares of red, green and blue.
fn colour(hex: &str) -> [f32; 3] {
    [1, 3, 5].map(|at| {
        let value = hex.get(at..at + 2).and_then(|digits| u8::from_str_radix(digits, 16).ok()).unwrap_or(0);
        f32::from(value) / 255.0
    })
}
