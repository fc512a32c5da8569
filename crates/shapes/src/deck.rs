//! A side deck from station offsets: a straight inboard edge, widths at stations, the outboard edge in straight runs
//! from station to station. Flanges follow the runs as separate pieces with a slit at every station. A deck longer
//! than the sheet is split at frames, each seam with a backing strip under it.
//!
//! Seen from above with the bow to the right, the inboard edge lies below: a port deck. The upper face is marked.
//! Widths run from edge to edge over the outsides of the flanges.

mod check;
mod edges;
mod facts;
mod sizes;
mod stood;

use fold::Direction;
use fold::part::{Edge, Face, FoldedPart, SeamStyle};
use fold::refold::{Joint, JointEnd};
use geometry::{Frame, Point, Point3};
use units::Length;

use crate::edge::{EdgeEnd, finish_runs};
use crate::joined::{self, Joined, Standing};
use crate::places::at_seam;
use crate::runs::{NoRoom, Run, RunFlange, Runs};
use crate::strip_on_frame::StripAcross;
use crate::{Fact, Making, Piece, Places, Problem, Recipe, Shaped, whole};

pub use sizes::width_at;

/// A deck.
#[derive(Debug, Clone, PartialEq)]
pub struct Deck {
    /// Stations from aft forward.
    pub stations: Vec<DeckStation>,
    /// Flange along the outboard runs.
    pub outboard: Option<DeckFlange>,
    /// Flange along the straight inboard edge.
    pub inboard: Option<DeckFlange>,
    /// What is done to the outboard and to the inboard edge: of the flange where there is one, else of the deck itself.
    pub edges: [EdgeEnd; 2],
    /// Width of the slit between the flanges of two runs.
    pub slit: Length,
    /// Where it is split, from aft forward.
    pub splits_at: Vec<Length>,
    /// Spacing of the frames, counted from station 0; a seam lies on a frame only.
    pub frames_every: Option<Length>,
    /// Longest piece that can be had.
    pub longest: Option<Length>,
    /// Width of the backing strip under each seam; none when not given.
    pub backing_strip: Option<Length>,
}

/// A station and the deck's width there.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DeckStation {
    /// Along the boat.
    pub at: Length,
    /// From the inboard to the outboard edge.
    pub width: Length,
}

/// A flange of a deck.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DeckFlange {
    /// Outside leg.
    pub leg: Length,
    /// Up or down, seen from above.
    pub direction: Direction,
}

impl Recipe for Deck {
    fn word(&self) -> &'static str {
        "deck"
    }

    fn words(&self) -> &'static str {
        "deck"
    }

    fn tight_field(&self) -> &'static str {
        "outboard"
    }

    fn pieces(&self) -> Vec<Piece> {
        if self.splits_at.is_empty() {
            return Vec::new();
        }
        let lengths = (0..=self.splits_at.len()).map(|number| Piece {
            suffix: (number + 1).to_string(),
            words: format!("length {} of the deck, from aft", number + 1),
            count: 1,
        });
        let strips = (0..self.strips()).map(|number| Piece {
            suffix: format!("strip{}", number + 1),
            words: format!("backing strip under seam {}, from aft", number + 1),
            count: 1,
        });
        lengths.chain(strips).collect()
    }

    fn backs_a_seam(&self, piece: usize) -> bool {
        self.splits_at.len() < piece
    }

    fn cautions(&self, piece: usize, making: &Making) -> Vec<Problem> {
        let strip = piece.checked_sub(self.splits_at.len() + 1);
        strip.map_or_else(Vec::new, |seam| self.frames_under_strip(seam, making))
    }

    fn shape_piece(&self, piece: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        self.check(making)?;
        match piece.checked_sub(self.splits_at.len() + 1) {
            None => self.length(piece, making),
            Some(strip) => {
                let mut shaped = self.strip(strip, making)?;
                shaped.facts.extend(self.seam_facts(piece, making)?);
                Ok(shaped)
            }
        }
    }

    fn put_together(&self, making: &Making) -> Vec<(usize, Frame)> {
        if self.splits_at.is_empty() {
            return Vec::new();
        }
        let lengths = (0..=self.splits_at.len()).map(|length| self.length_root(length));
        let strips = (0..self.strips()).map(|strip| self.strip_root(strip, making));
        whole::numbered(lengths.chain(strips))
    }

    fn whole_sizes(&self, making: &Making) -> Vec<Fact> {
        self.put_together_sizes(making)
    }

    fn lines_across(&self, making: &Making) -> Vec<(String, [Point3; 2])> {
        self.frame_lines(making)
    }

    fn places(&self, piece: usize, making: &Making) -> Places {
        if self.backs_a_seam(piece) {
            return Places::default();
        }
        let stations = self.stations_of(piece);
        let (first, last) = (stations[0], stations[stations.len() - 1]);
        let edge = |station: DeckStation| {
            let x = (station.at - first.at).millimetres();
            [Point::new(x, 0.0), Point::new(x, station.width.millimetres())]
        };
        let ([aft, aft_out], [forward, forward_out]) = (edge(first), edge(last));
        let named =
            |station: &DeckStation| (format!("station {}", making.print(station.at)), edge(*station)[1]);
        // The outboard edge goes by its longest run.
        let runs = stations.windows(2).map(|pair| [edge(pair[0])[1], edge(pair[1])[1]]);
        let longest = runs.max_by(|a, b| a[0].distance(a[1]).total_cmp(&b[0].distance(b[1])));
        let [from, to] = longest.unwrap_or([aft_out, forward_out]);
        let named = stations.iter().map(named).collect();
        let is_bent = self.outboard.is_some() || self.edges[0] != EdgeEnd::Plain;
        let [stations, on_bends] = if is_bent { [Vec::new(), named] } else { [named, Vec::new()] };
        Places { stations, on_bends, ..Places::default() }
            .with_edge(&at_seam("AFT", piece.checked_sub(1), "length", piece), aft, aft_out)
            .with_edge(
                &at_seam("FORWARD", (piece < self.splits_at.len()).then_some(piece), "length", piece + 2),
                forward,
                forward_out,
            )
            .with_edge("INBOARD", aft, forward)
            .with_edge("OUTBOARD", from, to)
    }
}

impl Deck {
    fn strips(&self) -> usize {
        if self.backing_strip.is_some() { self.splits_at.len() } else { 0 }
    }

    /// Stations of one length, with those at its seams.
    fn stations_of(&self, length: usize) -> Vec<DeckStation> {
        let (first, last) = (self.stations[0].at, self.stations[self.stations.len() - 1].at);
        let from = length.checked_sub(1).map_or(first, |before| self.splits_at[before]);
        let to = self.splits_at.get(length).copied().unwrap_or(last);
        let inner = self.stations.iter().filter(|station| from < station.at && station.at < to);
        std::iter::once(self.on_chord(from))
            .chain(inner.copied())
            .chain(std::iter::once(self.on_chord(to)))
            .collect()
    }

    /// The station at `at`; between two stations the edge is straight.
    fn on_chord(&self, at: Length) -> DeckStation {
        let after = self.stations.iter().position(|station| at <= station.at).unwrap_or(0).max(1);
        let (a, b) = (self.stations[after - 1], self.stations[after]);
        let share = (at - a.at).millimetres() / (b.at - a.at).millimetres();
        let width = a.width.millimetres() + share * (b.width - a.width).millimetres();
        let exact = if at == a.at { Some(a) } else { (at == b.at).then_some(b) };
        exact.unwrap_or(DeckStation { at, width: Length::from_millimetres(width) })
    }

    /// The runs of one length: inboard edge, forward end, outboard runs from forward aft, aft end.
    fn runs(&self, stations: &[DeckStation], making: &Making) -> Runs {
        let aft = stations[0].at;
        let along = |station: &DeckStation| (station.at - aft).millimetres();
        let last = &stations[stations.len() - 1];
        let mut corners = vec![Point::new(0.0, 0.0), Point::new(along(last), 0.0)];
        corners.extend(stations.iter().rev().map(|at| Point::new(along(at), at.width.millimetres())));
        let flange = |flange: Option<DeckFlange>| {
            flange.map(|flange| RunFlange { leg_mm: flange.leg.millimetres(), direction: flange.direction })
        };
        let run = |name: String, flange| Run { name, flange, least_back_mm: 0.0 };
        let mut runs =
            vec![run("inboard".to_owned(), flange(self.inboard)), run("forward end".to_owned(), None)];
        for pair in stations.windows(2).rev() {
            let name = format!("outboard {} to {}", making.print(pair[0].at), making.print(pair[1].at));
            runs.push(run(name, flange(self.outboard)));
        }
        runs.push(run("aft end".to_owned(), None));
        Runs {
            name: "deck".to_owned(),
            corners,
            runs,
            holes: Vec::new(),
            slit_mm: self.slit.millimetres(),
            ends_meet: !self.splits_at.is_empty(),
        }
    }

    fn length(&self, number: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        let stations = self.stations_of(number);
        let runs = self.runs(&stations, making);
        let (mut part, edge_facts) = self.built(&runs, making)?;
        let sizes = self.sizes(&runs, &part);
        let widths = self.widths(&stations, &runs, &part, making);
        part.sizes.extend(sizes.into_iter().chain(widths));
        let mut facts = self.facts(&stations, &runs, making);
        facts.extend(edge_facts);
        facts.extend(self.seam_facts(number, making)?);
        Ok(Shaped { part, facts })
    }

    /// The folded part of a length with its edges treated, and what is done to them.
    fn built(&self, runs: &Runs, making: &Making) -> Result<(FoldedPart, Vec<Fact>), Vec<Problem>> {
        let mut part = runs.build(making).map_err(|room| vec![no_room(runs, room, making)])?;
        let edges = self.run_edges(&part, runs);
        let facts = finish_runs(&mut part, &edges, making)?;
        Ok((part, facts))
    }

    /// The seams of a piece with its neighbours, measured on all put together: lengths edge to edge, strips flat under both.
    fn seam_facts(&self, number: usize, making: &Making) -> Result<Vec<Fact>, Vec<Problem>> {
        if self.splits_at.is_empty() {
            return Ok(Vec::new());
        }
        let mut pieces = Vec::new();
        let mut ends = Vec::new();
        for length in 0..=self.splits_at.len() {
            let stations = self.stations_of(length);
            let runs = self.runs(&stations, making);
            let (part, _) = self.built(&runs, making)?;
            let root = self.length_root(length);
            let long_mm = (stations[stations.len() - 1].at - stations[0].at).millimetres();
            let at = |x: f64| {
                let line = [Point::new(x, 0.0), Point::new(x, 1.0)];
                let edge = joined::longest_on(&part.faces[0].corners, line)?;
                Some(JointEnd { piece: length, face: 0, edge })
            };
            ends.push([at(0.0), at(long_mm)]);
            pieces.push(Standing { name: format!("length {}", length + 1), part, root });
        }
        let joint = |(split, pair): (usize, &[[Option<JointEnd>; 2]])| {
            let (first, second) = (pair[0][1]?, pair[1][0]?);
            let (a, b) = pieces[split].part.faces[0].edge(first.edge);
            let joint = Joint {
                name: format!("length {} to length {} of the deck", split + 1, split + 2),
                first,
                second,
                inside_angle_rad: std::f64::consts::PI,
                length_mm: a.distance(b),
                style: SeamStyle::Open,
                gap_mm: 0.0,
            };
            Some(Joined { joint, style: "edge to edge".to_owned() })
        };
        let found: Vec<Option<Joined>> = ends.windows(2).enumerate().map(joint).collect();
        let lost = found
            .iter()
            .enumerate()
            .filter(|(split, joint)| joint.is_none() && [*split, split + 1].contains(&number));
        let lost: Vec<Fact> = lost
            .map(|(split, _)| {
                let name = format!("length {} to length {} of the deck", split + 1, split + 2);
                joined::unmeasured(&name, "no edge of the plate lies along the split on both lengths")
            })
            .collect();
        let mut joints: Vec<Joined> = found.into_iter().flatten().collect();
        for strip in 0..self.strips() {
            let own = pieces.len();
            pieces.push(self.standing_strip(strip, making)?);
            joints.extend([strip, strip + 1].map(|length| {
                let words = format!("length {} of the deck", length + 1);
                joined::lies_on((own, &pieces[own].name), (length, &words), &pieces)
            }));
        }
        let measured = joined::seam_facts(number, &pieces, &joints, ["splits_at", "splits_at"], making)?;
        Ok(measured.into_iter().chain(lost).collect())
    }

    /// Frames that the backing strip of a seam lies on.
    fn frames_under_strip(&self, seam: usize, making: &Making) -> Vec<Problem> {
        let Some(every) = self.frames_every.filter(|every| Length::ZERO < *every) else { return Vec::new() };
        let width_mm = self.backing_strip.unwrap_or(Length::ZERO).millimetres();
        let at_mm = self.splits_at[seam].millimetres();
        let every_mm = every.millimetres();
        // Frames count from station 0; only those beside the seam can lie under its strip.
        let numbers = (1_u32..).map(|number| (number, f64::from(number) * every_mm));
        let frames: Vec<(usize, f64)> = numbers
            .take_while(|(_, at)| *at <= at_mm + width_mm)
            .map(|(number, at)| (usize::try_from(number).unwrap_or(usize::MAX), at))
            .collect();
        StripAcross { seam: seam + 1, at_mm, width_mm }.cautions(&frames, making)
    }

    /// A backing strip in its place: under the seam, and between the bends of both flanges.
    fn standing_strip(&self, number: usize, making: &Making) -> Result<Standing, Vec<Problem>> {
        let root = self.strip_root(number, making);
        let part = self.strip(number, making)?.part;
        Ok(Standing { name: format!("backing strip {}", number + 1), part, root })
    }

    /// Where a backing strip lies flat, across from the inboard edge: between the bends of both flanges, where the deck is
    /// narrowest over the strip's own width.
    fn strip_reach_mm(&self, number: usize, making: &Making) -> [f64; 2] {
        let at = self.splits_at[number];
        let half = Length::from_nanometres(self.backing_strip.unwrap_or(Length::ZERO).nanometres() / 2);
        let [first, last] = [0, self.stations.len() - 1].map(|station| self.stations[station].at);
        let (aft, forward) = ((at - half).max(first), (at + half).min(last));
        let bend = making.thickness_mm() + making.number.inside_radius().millimetres();
        let below =
            |flange: &Option<DeckFlange>| flange.is_some_and(|flange| flange.direction == Direction::Down);
        let runs = self.stations.windows(2).filter(|pair| pair[0].at < forward && aft < pair[1].at);
        let least = |pair: &[DeckStation]| {
            let [from, to] = [pair[0].at.max(aft), pair[1].at.min(forward)].map(|at| self.on_chord(at));
            let slope =
                (pair[1].width - pair[0].width).millimetres() / (pair[1].at - pair[0].at).millimetres();
            let bend = if below(&self.outboard) { bend * geometry::trig::hypot(1.0, slope) } else { 0.0 };
            from.width.min(to.width).millimetres() - bend
        };
        let from = if below(&self.inboard) { bend } else { 0.0 };
        [from, runs.map(least).fold(f64::INFINITY, f64::min)]
    }

    /// Length of a backing strip, across the deck, mm.
    fn strip_mm(&self, number: usize, making: &Making) -> f64 {
        let [from, to] = self.strip_reach_mm(number, making);
        to - from
    }

    fn strip(&self, number: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        let width = self.backing_strip.unwrap_or(Length::ZERO).millimetres();
        flat_strip(self.strip_mm(number, making), width, making).ok_or_else(|| {
            let at = making.print(self.splits_at[number]);
            let remedy = "leave the strip out, or widen the deck";
            vec![Problem::new("backing_strip", at, "no room is left between the flanges", remedy)]
        })
    }
}

/// A rectangle of plate; `None` without area.
pub(crate) fn flat_strip(length_mm: f64, width_mm: f64, making: &Making) -> Option<Shaped> {
    let figure = crate::Figure::rectangle(length_mm.max(0.0), width_mm)?;
    let corners = making.corners();
    let facts = crate::plan::side_facts(&figure, "side", "backing_strip, and what lies between the bends");
    let face = Face {
        name: "strip".to_owned(),
        edges: vec![Edge::Free; figure.count()],
        corners: figure.corners,
        holes: Vec::new(),
        rim: None,
    };
    let part = FoldedPart::unbent(making.number.clone(), vec![face], corners.relief, corners.notch_width_mm);
    Some(Shaped { part, facts })
}

fn no_room(runs: &Runs, room: NoRoom, making: &Making) -> Problem {
    let wrong = "is too short for a flange of its own";
    let remedy = format!(
        "the slits at its ends take {}: leave a station out, or give a narrower slit",
        making.print_mm(room.taken_mm)
    );
    Problem::new("stations", &runs.runs[room.run].name, wrong, remedy)
}
