//! The field of a drawing: what is taken, and whether a label may lie somewhere.

use geometry::{Point, Vector, polygon};

use crate::page::TextBox;

/// What already lies on a drawing.
#[derive(Debug, Clone, Default)]
pub struct Field {
    texts: Vec<Bounded<TextBox>>,
    quiet: Vec<Bounded<TextBox>>,
    lines: Vec<Bounded<(Point, Point)>>,
    leaders: Vec<Bounded<Leader>>,
    hairlines: Vec<Bounded<(Point, Point)>>,
    areas: Vec<Bounded<Vec<Point>>>,
    faces: Vec<Bounded<Vec<Point>>>,
}

/// A leader and the words at its end.
#[derive(Debug, Clone)]
struct Leader {
    ends: (Point, Point),
    words: String,
}

/// A thing with its upright bounds: most questions are answered by these alone.
#[derive(Debug, Clone)]
struct Bounded<T> {
    thing: T,
    bounds: (Point, Point),
}

impl<T> Bounded<T> {
    fn new(thing: T, points: &[Point]) -> Self {
        Self { thing, bounds: polygon::bounds(points) }
    }

    fn reaches(&self, (low, high): (Point, Point)) -> bool {
        let (own_low, own_high) = self.bounds;
        own_low.x <= high.x && low.x <= own_high.x && own_low.y <= high.y && low.y <= own_high.y
    }
}

/// The things whose bounds reach `bounds`.
fn reaching<T>(things: &[Bounded<T>], bounds: (Point, Point)) -> impl Iterator<Item = &T> {
    things.iter().filter(move |thing| thing.reaches(bounds)).map(|bounded| &bounded.thing)
}

impl Field {
    /// Room taken by text: nothing else may lie there, and no leader may cross it.
    pub fn take(&mut self, room: TextBox) {
        self.texts.push(Bounded::new(room, &room.corners));
    }

    /// Room round a text where no other text may lie; leaders may pass through it.
    pub fn keep_quiet(&mut self, room: TextBox) {
        self.quiet.push(Bounded::new(room, &room.corners));
    }

    /// A line no text may touch: cut edges, bend lines.
    pub fn add_line(&mut self, from: Point, to: Point) {
        self.lines.push(Bounded::new((from, to), &[from, to]));
    }

    /// A leader with the words at its end: no text may touch it, and other leaders should not cross it.
    pub fn add_leader(&mut self, from: Point, to: Point, words: &str) {
        let leader = Leader { ends: (from, to), words: words.to_owned() };
        self.leaders.push(Bounded::new(leader, &[from, to]));
    }

    /// A line text should keep off if it can: extension lines.
    pub fn add_hairline(&mut self, from: Point, to: Point) {
        self.hairlines.push(Bounded::new((from, to), &[from, to]));
    }

    /// A figure on which a label that stands off its own thing should not lie, lest it seem to name that figure.
    pub fn add_area(&mut self, corners: Vec<Point>) {
        let bounds = polygon::bounds(&corners);
        self.areas.push(Bounded { thing: corners, bounds });
    }

    /// A face of the part itself: a name on a leader should rather stand off it, lest it be read as that face's.
    pub fn add_face(&mut self, corners: Vec<Point>) {
        let bounds = polygon::bounds(&corners);
        self.faces.push(Bounded { thing: corners, bounds });
    }

    /// The part of the field that a search within this upright rectangle can meet. Searches look at it hundreds of
    /// times; a sheet with many parts has thousands of lines, most of them far away.
    #[must_use]
    pub fn within(&self, low: Point, high: Point) -> Self {
        fn near<T: Clone>(things: &[Bounded<T>], bounds: (Point, Point)) -> Vec<Bounded<T>> {
            things.iter().filter(|thing| thing.reaches(bounds)).cloned().collect()
        }
        let bounds = (low, high);
        Self {
            texts: near(&self.texts, bounds),
            quiet: near(&self.quiet, bounds),
            lines: near(&self.lines, bounds),
            leaders: near(&self.leaders, bounds),
            hairlines: near(&self.hairlines, bounds),
            areas: near(&self.areas, bounds),
            faces: near(&self.faces, bounds),
        }
    }

    /// True when the middle or a corner of `room` lies on one of the figures of [`Field::add_area`].
    #[must_use]
    pub fn lies_on_area(&self, room: &TextBox) -> bool {
        Self::lies_on(&self.areas, room)
    }

    /// The same for the figures of [`Field::add_face`].
    #[must_use]
    pub fn lies_on_face(&self, room: &TextBox) -> bool {
        Self::lies_on(&self.faces, room)
    }

    fn lies_on(figures: &[Bounded<Vec<Point>>], room: &TextBox) -> bool {
        let points = [room.centre(), room.corners[0], room.corners[1], room.corners[2], room.corners[3]];
        reaching(figures, polygon::bounds(&points))
            .any(|area| points.iter().any(|&point| polygon::contains(area, point)))
    }

    /// True when `room` touches no text and no line.
    #[must_use]
    pub fn is_clear(&self, room: &TextBox) -> bool {
        let bounds = polygon::bounds(&room.corners);
        let mut taken = reaching(&self.texts, bounds).chain(reaching(&self.quiet, bounds));
        !taken.any(|text| text.overlaps(room))
            && !reaching(&self.lines, bounds).any(|&line| room.meets(line))
            && !reaching(&self.leaders, bounds).any(|leader| room.meets(leader.ends))
    }

    /// How many hairlines run through `room`.
    #[must_use]
    pub fn hairlines_through(&self, room: &TextBox) -> usize {
        reaching(&self.hairlines, polygon::bounds(&room.corners)).filter(|&&line| room.meets(line)).count()
    }

    /// Whether a leader would run through text, or begin in it.
    #[must_use]
    pub fn runs_through_text(&self, leader: (Point, Point)) -> bool {
        let bounds = polygon::bounds(&[leader.0, leader.1]);
        reaching(&self.texts, bounds).any(|text| text.meets(leader))
    }

    /// How many texts a leader would pass nearer than this, mm: it would seem to belong to them.
    #[must_use]
    pub fn texts_near(&self, leader: (Point, Point), near_mm: f64) -> usize {
        let (low, high) = polygon::bounds(&[leader.0, leader.1]);
        let margin = Vector::new(near_mm, near_mm);
        let texts = reaching(&self.texts, (low - margin, high + margin));
        texts.filter(|text| text.grown(near_mm).meets(leader)).count()
    }

    /// How many lines a leader would cross, other leaders not counted; `None` when it would run through text.
    #[must_use]
    pub fn crossings(&self, leader: (Point, Point)) -> Option<usize> {
        if self.runs_through_text(leader) {
            return None;
        }
        let bounds = polygon::bounds(&[leader.0, leader.1]);
        Some(reaching(&self.lines, bounds).filter(|&&line| polygon::segments_touch(line, leader)).count())
    }

    /// How many other leaders one with these words would cross, and how many of them have the same words: nobody could tell which of
    /// the two is which.
    #[must_use]
    pub fn leaders_crossed(&self, leader: (Point, Point), words: &str) -> [usize; 2] {
        let bounds = polygon::bounds(&[leader.0, leader.1]);
        let crossed =
            || reaching(&self.leaders, bounds).filter(|other| polygon::segments_touch(other.ends, leader));
        [crossed().count(), crossed().filter(|other| other.words == words).count()]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_and_lines_forbid_but_hairlines_only_count() {
        let mut field = Field::default();
        let room = TextBox::new(Point::new(0.0, 0.0), Vector::new(1.0, 0.0), 10.0, 3.0);
        field.add_hairline(Point::new(5.0, -9.0), Point::new(5.0, 9.0));
        assert!(field.is_clear(&room));
        assert_eq!(field.hairlines_through(&room), 1);
        field.add_line(Point::new(5.0, -9.0), Point::new(5.0, 9.0));
        assert!(!field.is_clear(&room));
        field.take(room);
        assert_eq!(field.crossings((Point::new(-1.0, 1.0), Point::new(1.0, 1.0))), None);
        let over = (Point::new(-9.0, 4.0), Point::new(9.0, 4.0));
        assert_eq!((field.texts_near(over, 0.9), field.texts_near(over, 1.1)), (0, 1));
        assert_eq!(field.crossings((Point::new(0.0, 5.0), Point::new(9.0, 5.0))), Some(1));
        field.add_leader(Point::new(7.0, 4.0), Point::new(8.0, 9.0), "leg AB");
        let across = (Point::new(0.0, 5.0), Point::new(9.0, 5.0));
        assert_eq!(field.crossings(across), Some(1));
        assert_eq!(field.leaders_crossed(across, "lip AB"), [1, 0]);
        assert_eq!(field.leaders_crossed(across, "leg AB"), [1, 1]);
        let beside = TextBox::new(Point::new(7.0, 6.0), Vector::new(1.0, 0.0), 2.0, 1.0);
        assert!(!field.is_clear(&beside));
    }

    #[test]
    fn quiet_room_is_for_leaders_alone() {
        let mut field = Field::default();
        let room = TextBox::new(Point::new(0.0, 0.0), Vector::new(1.0, 0.0), 10.0, 3.0);
        field.keep_quiet(room);
        assert!(!field.is_clear(&room));
        assert_eq!(field.crossings((Point::new(-1.0, 1.0), Point::new(11.0, 1.0))), Some(0));
    }

    #[test]
    fn a_part_of_the_field_answers_like_the_whole_within_its_bounds() {
        let mut field = Field::default();
        field.add_line(Point::new(-100.0, 1.0), Point::new(100.0, 1.0));
        field.add_line(Point::new(50.0, 50.0), Point::new(60.0, 60.0));
        let part = field.within(Point::new(0.0, 0.0), Point::new(10.0, 10.0));
        let room = TextBox::new(Point::new(2.0, 0.0), Vector::new(1.0, 0.0), 3.0, 3.0);
        assert_eq!(part.is_clear(&room), field.is_clear(&room));
        assert!(!part.is_clear(&room));
        assert_eq!(part.lines.len(), 1);
    }
}
