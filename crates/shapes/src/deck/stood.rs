//! A deck put together: where its lengths and strips lie, its frames, and how a tape proves it.

use geometry::{Frame, Point3, trig};
use units::Length;

use super::Deck;
use crate::{Fact, Making, joined};

impl Deck {
    /// Where the root face of a length lies, the aft end of the deck at x = 0.
    pub(super) fn length_root(&self, length: usize) -> Frame {
        let aft_mm = (self.stations_of(length)[0].at - self.stations[0].at).millimetres();
        Frame { origin: Point3::new(aft_mm, 0.0, 0.0), ..Frame::WORLD }
    }

    /// The same of a backing strip.
    pub(super) fn strip_root(&self, number: usize, making: &Making) -> Frame {
        let along = (self.splits_at[number] - self.stations[0].at).millimetres();
        let half_mm = 0.5 * self.backing_strip.unwrap_or(Length::ZERO).millimetres();
        let [from, _] = self.strip_reach_mm(number, making);
        joined::across(Point3::new(along + half_mm, from, -making.thickness_mm()))
    }

    /// Frames between both ends of the deck, on its face.
    pub(super) fn frame_lines(&self, making: &Making) -> Vec<(String, [Point3; 2])> {
        let Some(every) = self.frames_every.filter(|every| Length::ZERO < *every) else { return Vec::new() };
        let [first, last] = [0, self.stations.len() - 1].map(|station| self.stations[station].at);
        // Frames count from station 0.
        let all = (1_i64..).map(|number| (number, every * number)).take_while(|(_, at)| *at < last);
        let line = |(number, at): (i64, Length)| {
            let width_mm = self.on_chord(at).width.millimetres();
            let x = (at - first).millimetres();
            (format!("frame {number}"), [0.0, width_mm].map(|y| Point3::new(x, y, making.thickness_mm())))
        };
        all.filter(|(_, at)| first < *at).map(line).collect()
    }

    /// Length, widths and both diagonals, over the outsides.
    pub(super) fn put_together_sizes(&self, making: &Making) -> Vec<Fact> {
        let [aft, forward] = [self.stations[0], self.stations[self.stations.len() - 1]];
        let long_mm = (forward.at - aft.at).millimetres();
        let diagonal = |width: Length| making.print_mm(trig::hypot(long_mm, width.millimetres()));
        let width = |station: &super::DeckStation| {
            format!("{} at {}", making.print(station.width), making.print(station.at))
        };
        let widths: Vec<String> = self.stations.iter().map(width).collect();
        vec![
            Fact::words("inboard edge, end to end", making.print_mm(long_mm), "stations"),
            Fact::words(
                "widths at the stations, square to the inboard edge, over the outsides",
                widths.join(", "),
                "stations",
            ),
            Fact::words(
                "diagonals over the outsides",
                format!(
                    "inboard aft to outboard forward {}, inboard forward to outboard aft {}",
                    diagonal(forward.width),
                    diagonal(aft.width)
                ),
                "stations",
            ),
        ]
    }
}
