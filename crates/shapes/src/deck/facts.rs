//! What the shop wants to read off a deck.

use units::Length;

use super::{Deck, DeckStation};
use crate::runs::Runs;
use crate::{Fact, Making};

impl Deck {
    /// Facts of one length of the deck, and of the whole.
    pub(super) fn facts(&self, stations: &[DeckStation], runs: &Runs, making: &Making) -> Vec<Fact> {
        let mut facts = vec![
            Fact::area_mm2("top of the whole deck", area_mm2(&self.stations), "stations, by trapezoids"),
            Fact::about_mm(
                "outboard edge of the whole deck",
                chords_mm(&self.stations),
                "sum of the chords from station to station, to the tape",
            ),
        ];
        if !self.splits_at.is_empty() {
            facts.push(Fact::area_mm2("top of this length", area_mm2(stations), "stations, by trapezoids"));
            facts.push(Fact::about_mm(
                "outboard edge of this length",
                chords_mm(stations),
                "sum of the chords from station to station, to the tape",
            ));
        }
        for pair in stations.windows(2) {
            let name = format!("outboard run {} to {}", making.print(pair[0].at), making.print(pair[1].at));
            facts.push(Fact::length_mm(
                name,
                chord_mm(pair[0], pair[1]),
                "√(station step² + step in width²)",
            ));
        }
        facts.extend(slits(stations, runs, making));
        for (number, &at) in self.splits_at.iter().enumerate().take(self.strips()) {
            let name = format!("backing strip under the seam at {}", making.print(at));
            let length = self.strip_mm(number, making);
            facts.push(Fact::length_mm(
                name,
                length,
                "least width over the strip, less R + T at each flange turned down",
            ));
        }
        facts
    }
}

/// The cut at every station between two runs.
fn slits(stations: &[DeckStation], runs: &Runs, making: &Making) -> Vec<Fact> {
    let count = stations.len();
    let slit = |number: usize| {
        // Outboard runs go from forward aft and begin at corner 2, the forward end.
        let cut = runs.cut(2 + count - 1 - number, making)?;
        let degrees = units::Angle::from_radians(cut.turn_rad.abs()).degrees();
        let [bend, edge, folded] =
            [cut.at_bend_mm, cut.at_edge_mm, cut.folded_mm].map(|mm| making.print_mm(mm));
        let words = if cut.turn_rad >= 0.0 {
            let corner = cut.corner_words(making);
            format!(
                "the edge bulges by {degrees:.2}°: notch {bend} wide at the bend and {edge} at the flange's edge; {folded} is left when folded{corner}"
            )
        } else {
            format!(
                "the edge is hollow by {degrees:.2}°: V cut {bend} wide at the bend and {edge} at the flange's edge; it stands {folded} open when folded"
            )
        };
        Some(Fact::words(
            format!("slit at station {}", making.print(stations[number].at)),
            words,
            "stations, slit",
        ))
    };
    (1..count - 1).filter_map(slit).collect()
}

fn chord_mm(a: DeckStation, b: DeckStation) -> f64 {
    geometry::trig::hypot((b.at - a.at).millimetres(), (b.width - a.width).millimetres())
}

fn chords_mm(stations: &[DeckStation]) -> f64 {
    stations.windows(2).map(|pair| chord_mm(pair[0], pair[1])).sum()
}

fn area_mm2(stations: &[DeckStation]) -> f64 {
    let strip = |pair: &[DeckStation]| {
        let step: Length = pair[1].at - pair[0].at;
        step.millimetres() * 0.5 * (pair[0].width + pair[1].width).millimetres()
    };
    stations.windows(2).map(strip).sum()
}
