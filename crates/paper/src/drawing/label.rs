//! A label: a line of words with a bend triangle before it, if it speaks of a bend.

use fold::Direction;
use geometry::{Point, Vector};

use super::symbols;
use crate::page::font::{self, Weight};
use crate::page::{Anchor, Ink, Item, Text, TextBox};
use crate::placing::Field;

/// Where the numbers of a bend's label come from.
pub(crate) const BEND_FROM: &str = "turn: how far one face is swung out of the other, as the part's shape asks for it; the line lies in the middle \
                         of the bend zone, which is as wide as the bend allowance";

/// A label that still has no place.
#[derive(Debug, Clone)]
pub(crate) struct Label {
    /// The words.
    pub(crate) words: String,
    /// Height of the em, mm.
    pub(crate) size_mm: f64,
    /// Regular or bold.
    pub(crate) weight: Weight,
    /// Colour of the words.
    pub(crate) ink: Ink,
    /// The way of the bend it speaks of.
    pub(crate) bend: Option<Direction>,
    /// Where its numbers come from; empty for names, and for bends, whose numbers have one origin.
    pub(crate) origin: &'static str,
}

impl Label {
    /// Black words of ordinary weight.
    pub(crate) fn new(words: impl Into<String>, size_mm: f64) -> Self {
        let words = words.into();
        Self { words, size_mm, weight: Weight::Regular, ink: Ink::Black, bend: None, origin: "" }
    }

    /// The same label with where its numbers come from.
    pub(crate) fn from(self, origin: &'static str) -> Self {
        Self { origin, ..self }
    }

    /// The same label with no more of its words than `longest_em` text heights hold.
    pub(crate) fn shortened(&self, longest_em: f64) -> Self {
        let words = font::shortened(&self.words, self.weight, self.size_mm, longest_em * self.size_mm);
        Self { words, ..self.clone() }
    }

    fn symbol_mm(&self) -> f64 {
        if self.bend.is_some() { 1.1 * self.size_mm } else { 0.0 }
    }

    /// Width along the line, mm.
    pub(crate) fn width_mm(&self) -> f64 {
        self.symbol_mm() + font::width_mm(&self.words, self.weight, self.size_mm)
    }

    /// Height from descenders to capitals, mm.
    pub(crate) fn height_mm(&self) -> f64 {
        (font::ASCENT_EM + font::DESCENT_EM) * self.size_mm
    }

    /// The room it takes with its middle at `centre`, reading along `along`.
    pub(crate) fn room(&self, centre: Point, along: Vector) -> TextBox {
        TextBox::centred(centre, along, self.width_mm(), self.height_mm())
    }

    /// What to draw with its middle at `centre`, reading along `along`.
    pub(crate) fn items(&self, centre: Point, along: Vector) -> Vec<Item> {
        let up = along.left();
        let start = centre - along * (0.5 * self.width_mm());
        let baseline = start - up * (0.5 * self.height_mm() - font::DESCENT_EM * self.size_mm);
        let text = Text {
            at: baseline + along * self.symbol_mm(),
            words: self.words.clone(),
            size_mm: self.size_mm,
            weight: self.weight,
            anchor: Anchor::Start,
            turn_rad: along.angle(),
            ink: self.ink,
            origin: None,
        };
        let has_number = self.words.contains(|letter: char| letter.is_ascii_digit());
        let own = if has_number { self.origin } else { "" };
        let text = text.from(if self.bend.is_some() { BEND_FROM } else { own });
        let triangle = self.bend.map(|direction| {
            let middle = baseline + along * (0.42 * self.size_mm) + up * (0.36 * self.size_mm);
            symbols::bend_triangle(direction, middle, up, 0.66 * self.size_mm)
        });
        triangle.into_iter().chain([Item::Text(text)]).collect()
    }
}

/// The way a label along `direction` reads: from left to right, or upward.
pub(crate) fn reading(direction: Vector) -> Vector {
    let along = direction.unit();
    let leftward = along.x < -geometry::tolerance::PARALLEL_SINE;
    let downward = along.x.abs() <= geometry::tolerance::PARALLEL_SINE && along.y < 0.0;
    if leftward || downward { -along } else { along }
}

/// Lays `label` beside the straight piece `line`, at the best clear place whose middle `suits`; `None` where there is none.
pub(crate) fn lay_beside(
    field: &mut Field,
    label: &Label,
    line: (Point, Point),
    suits: impl Fn(&Field, Point) -> bool,
) -> Option<Vec<Item>> {
    let places = places_beside(field, label, line);
    let centre = places.into_iter().map(|(_, centre)| centre).find(|&centre| suits(field, centre))?;
    let along = reading(line.1 - line.0);
    field.take(label.room(centre, along));
    Some(label.items(centre, along))
}

/// Clear places of `label` beside the straight piece `(from, to)`, best first: (cost, middle of the label).
pub(crate) fn places_beside(field: &Field, label: &Label, (from, to): (Point, Point)) -> Vec<(f64, Point)> {
    const SHARES: [f64; 17] =
        [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88, 0.45, 0.55, 0.35, 0.65, 0.25, 0.75, 0.16, 0.84];
    let length = from.distance(to);
    if length < label.width_mm() {
        return Vec::new();
    }
    let along = reading(to - from);
    let off = 0.5 * label.height_mm() + 0.3 * label.size_mm;
    let mut places = Vec::new();
    for (rank, share) in (0_u32..).zip(SHARES) {
        let half = 0.5 * label.width_mm() / length;
        if share < half || 1.0 - half < share {
            continue;
        }
        for (side_cost, side) in [(0.0, off), (0.2, -off)] {
            let centre = from.toward(to, share) + along.left() * side;
            let room = label.room(centre, along).grown(0.15 * label.size_mm);
            if field.is_clear(&room) {
                let hairlines =
                    u32::try_from(field.hairlines_through(&room)).map_or(f64::INFINITY, f64::from);
                places.push((hairlines + 0.3 * f64::from(rank) + side_cost, centre));
            }
        }
    }
    places.sort_by(|a, b| a.0.total_cmp(&b.0));
    places
}
