//! Light lines stop at words: where an extension line or the bend line of a map would run through a word, it is left out.

use geometry::Point;

use crate::page::{self, Item, Line, Pen, TextBox};

/// Shortest piece of a line that is still drawn, in text heights.
const SHORTEST_EM: f64 = 0.15;

/// The items with light lines cut where words lie.
pub(super) fn left_for_words(items: Vec<Item>, text_mm: f64) -> Vec<Item> {
    let mut words = Vec::new();
    page::visit(&items, &mut |item| {
        if let Item::Text(text) = item {
            words.push(text.bounding_box());
        }
    });
    cut(items, &words, SHORTEST_EM * text_mm)
}

fn cut(items: Vec<Item>, words: &[TextBox], shortest_mm: f64) -> Vec<Item> {
    let each = |item: Item| match item {
        Item::Group(group) => vec![Item::group(group.name, cut(group.items, words, shortest_mm))],
        Item::Line(line) if is_light(line.pen) => pieces(line, words, shortest_mm),
        other => vec![other],
    };
    items.into_iter().flat_map(each).collect()
}

const fn is_light(pen: Pen) -> bool {
    matches!(pen, Pen::Extension | Pen::Scribed | Pen::BendLightUp | Pen::BendLightDown)
}

/// What is left of a line outside all words.
fn pieces(line: Line, words: &[TextBox], shortest_mm: f64) -> Vec<Item> {
    let Line { from, to, pen } = line;
    let mut hidden: Vec<(f64, f64)> = words.iter().filter_map(|room| shares_within(room, from, to)).collect();
    if hidden.is_empty() {
        return vec![Item::Line(line)];
    }
    hidden.sort_by(|a, b| a.0.total_cmp(&b.0));
    let length = (to - from).length();
    let (mut left, mut begin) = (Vec::new(), 0.0_f64);
    for (enter, leave) in hidden.into_iter().chain([(1.0, 1.0)]) {
        if shortest_mm < (enter - begin) * length {
            left.push(Item::line(from.toward(to, begin), from.toward(to, enter), pen));
        }
        begin = begin.max(leave);
    }
    left
}

/// From which to which share of its length a line runs within a room; `None` when it runs past it.
fn shares_within(room: &TextBox, from: Point, to: Point) -> Option<(f64, f64)> {
    let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
    for corner in 0..4 {
        let (at, next) = (room.corners[corner], room.corners[(corner + 1) % 4]);
        // Corners run counter-clockwise, so the room is to the left of each side.
        let inward = (next - at).left();
        let (depth, rise) = ((from - at).dot(inward), (to - from).dot(inward));
        if rise == 0.0 {
            if depth <= 0.0 {
                return None;
            }
        } else if 0.0 < rise {
            enter = enter.max(-depth / rise);
        } else {
            leave = leave.min(-depth / rise);
        }
    }
    (enter < leave).then_some((enter, leave))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::page::Text;

    fn lines(items: &[Item]) -> Vec<(f64, f64)> {
        let mut found = Vec::new();
        page::visit(items, &mut |item| {
            if let Item::Line(line) = item {
                found.push((line.from.x, line.to.x));
            }
        });
        found
    }

    #[test]
    fn a_light_line_stops_at_a_word_and_goes_on_behind_it() {
        let text = Text::new(Point::new(40.0, -1.0), "HATCH", 3.0);
        let width = text.width_mm();
        let line = |pen| Item::line(Point::new(0.0, 0.0), Point::new(100.0, 0.0), pen);
        let drawn = |pen| {
            lines(&left_for_words(vec![Item::group("all", vec![line(pen), Item::Text(text.clone())])], 3.0))
        };
        let left = drawn(Pen::BendLightUp);
        assert_eq!(left.len(), 2);
        assert!((left[0].1 - 40.0).abs() < 1e-9 && (left[1].0 - 40.0 - width).abs() < 1e-9, "{left:?}");
        assert_eq!(drawn(Pen::CutEdge), [(0.0, 100.0)], "cut edges are never left out");
    }

    #[test]
    fn a_line_beside_the_words_stays_whole() {
        let text = Text::new(Point::new(40.0, 1.5), "HATCH", 3.0);
        let line = Item::line(Point::new(0.0, 0.0), Point::new(100.0, 0.0), Pen::Extension);
        assert_eq!(lines(&left_for_words(vec![line, Item::Text(text)], 3.0)), [(0.0, 100.0)]);
    }
}
