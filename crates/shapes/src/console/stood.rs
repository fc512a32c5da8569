//! A console put together: where its recess stands, what its drawings name, and how a tape proves it.

use geometry::{Frame, Point3, Vector3, tolerance, trig};

use super::Console;
use crate::{Fact, Making, Places, Problem, whole};

impl Console {
    /// Where the back of the foot recess lies, its rim on the face of its leg; `None` without one.
    pub(super) fn recess_root(&self, making: &Making) -> Option<Frame> {
        let recess = self.foot_recess.as_ref()?;
        let side = self.outline.side_number(&recess.leg)?;
        let (start, end) = self.outline.side(side);
        let along = (end - start).unit();
        let out = along.right();
        let [width, height, depth, from] =
            [recess.width, recess.height, recess.depth, recess.from_corner].map(units::Length::millimetres);
        let from_first = recess.leg.starts_with(self.outline.names[side].as_str());
        let reach = along * (from + 0.5 * height);
        let middle = if from_first { start + reach } else { end - reach };
        let space = |vector: geometry::Vector| Vector3::new(vector.x, vector.y, 0.0);
        // The box is drawn from its front with its top up.
        let up = if along.y < 0.0 { space(-along) } else { space(along) };
        let (z, right) = (space(out), up.cross(space(out)));
        let middle = Point3::new(middle.x, middle.y, -0.5 * self.width.millimetres());
        let back = z * (making.thickness_mm() - depth);
        Some(Frame {
            origin: middle + back + right * (-0.5 * width) + up * (-0.5 * height),
            x: right,
            y: up,
            z,
        })
    }

    /// The outline's own letters on a side, and what lies along its edges.
    pub(super) fn side_places(&self, making: &Making) -> Places {
        let Some(inside) = self.moved_in(self.side_in_mm(making)) else { return Places::default() };
        let legs = self.legs();
        let words = |side: usize| {
            let name = &self.outline.sides[side];
            if legs.contains(&side) { format!("{name}, wrapped") } else { format!("{name}, open") }
        };
        (0..inside.count()).fold(Places::lettered(&inside), |places, side| {
            let (a, b) = inside.side(side);
            places.with_edge(&words(side), a, b)
        })
    }

    /// Over the sides, and both diagonals of every side of the outline that is left open. Legs are those of the wrap as it is cut.
    pub(super) fn put_together_sizes(&self, making: &Making) -> Vec<Fact> {
        let mut facts =
            vec![Fact::words("over the outsides of both sides", making.print(self.width), "width")];
        let Some(inside) = self.moved_in(self.side_in_mm(making)) else { return facts };
        let legs = self.legs();
        for side in (0..inside.count()).filter(|side| !legs.contains(side)) {
            let name = format!(
                "diagonals across the open side {}, between the corners of the sides",
                inside.sides[side]
            );
            let words = whole::square_words([self.width.millimetres(), inside.side_mm(side)], making);
            facts.push(Fact::words(name, words, "width, outline"));
        }
        facts.extend(self.recess_fact(making));
        facts
    }

    /// Where the rim of the foot recess lies on its leg, as a tape finds it.
    fn recess_fact(&self, making: &Making) -> Option<Fact> {
        let recess = self.foot_recess.as_ref()?;
        let side = self.outline.side_number(&recess.leg)?;
        let names = [side, self.corner_after(side)].map(|corner| self.outline.names[corner].as_str());
        let from = names.into_iter().find(|name| recess.leg.starts_with(name))?;
        let rim_mm = recess.rim.millimetres();
        let along = making.print_mm(recess.from_corner.millimetres() - rim_mm);
        let across = 0.5 * (self.width - recess.width).millimetres() - rim_mm;
        let words = format!(
            "edge of its rim {along} from corner {from} along leg {}, and {} from the outside of either side; the box {} farther in",
            recess.leg,
            making.print_mm(across),
            making.print(recess.rim)
        );
        Some(Fact::words("foot recess lies", words, "foot_recess"))
    }

    /// How far the inner edge of a joining flange stands past the open side beside it, where the flange is cut square at a corner that
    /// is not: T·cos of the inside angle there (plane geometry). Flush it goes by hand.
    fn flanges_past_the_end(&self, making: &Making) -> Option<Problem> {
        self.side_flange?;
        let legs = self.legs();
        let last = *legs.last()?;
        let ends = [(*legs.first()?, *legs.first()?), (last, self.corner_after(last))];
        let past = |(leg, corner): (usize, usize)| {
            let past_mm = making.thickness_mm() * trig::cos(self.outline.corner_angle(corner));
            (tolerance::SCRIBED_LINE_MM < past_mm).then(|| {
                let (leg, corner) = (&self.outline.sides[leg], &self.outline.names[corner]);
                format!("flange {leg} by {} at {corner}", making.print_mm(past_mm))
            })
        };
        let all: Vec<String> = ends.into_iter().filter_map(past).collect();
        let wrong = "its end is cut square to the bend, so its inner edge stands past the open side";
        let remedy = "file it flush before the console is set down, or it rocks on it";
        (!all.is_empty()).then(|| Problem::new("side_flange", all.join(", "), wrong, remedy))
    }

    /// What to look at before a piece is cut.
    pub(super) fn look_first(&self, piece: usize, making: &Making) -> Vec<Problem> {
        let is_side = piece == 1 || piece == 2;
        let past = is_side.then(|| self.flanges_past_the_end(making)).flatten();
        self.sharp_corners(piece, making).into_iter().chain(past).collect()
    }

    /// Corners that are cut sharp where legs and hands pass: of the rim of the foot recess, and of the wrap at its two ends. They are
    /// rounded by hand, 1/4 in or more (common practice, no source).
    fn sharp_corners(&self, piece: usize, making: &Making) -> Option<Problem> {
        let by_hand =
            format!("round them by {} or more and dress the edges before it goes on", making.print_mm(6.35));
        match (piece, &self.foot_recess) {
            (0, _) => {
                let legs = self.legs();
                let names = &self.outline.names;
                let (first, last) = (&names[*legs.first()?], &names[self.corner_after(*legs.last()?)]);
                let wrong = "its corners there are cut sharp, and stand bare unless what the console stands on covers them";
                Some(Problem::new("wrapped", format!("the wrap ends at {first} and {last}"), wrong, by_hand))
            }
            (3, Some(recess)) => {
                let wrong = "the four outer corners of the rim are cut sharp, where feet and legs pass";
                Some(Problem::new("foot_recess.rim", making.print(recess.rim), wrong, by_hand))
            }
            _ => None,
        }
    }
}
