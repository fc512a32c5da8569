//! A step or platform top: a plate with a rolled pipe along three edges, a flange along the fourth, pads, and drains.
//!
//! AB lies against the hull; the pipe runs along BC, round the corner at C, along CD, round D and along DA, with a
//! straight tail past A and B. The plate butts the pipe at the middle of its height, so its corners at C and D are rounded
//! to the throat of the pipe. The pipe is bought by its cut length, which stands among the facts.

mod pads;

use fold::FoldedPart;
use geometry::{Frame, Point, Vector, tolerance};
use units::{Angle, Length};

use crate::flat_piece::flat_piece;
use crate::hole::Hole;
use crate::panel::{Flange, Panel};
use crate::rolled_pipe::{PipeRun, RolledPipe};
use crate::{Fact, Figure, Making, Piece, Problem, Recipe, Shaped};

/// A step.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// Along AB, and out from it: of the plate, to the outside.
    pub size: [Length; 2],
    /// Along AB.
    pub flange: Option<Flange>,
    /// Along the other three edges.
    pub pipe: Option<StepPipe>,
    /// Drains and others, from A along AB and across.
    pub holes: Vec<Hole>,
    /// Flat pads of the same metal.
    pub pads: Vec<Pad>,
}

/// The pipe round a step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StepPipe {
    /// What the shop orders: "1-1/2 pipe, schedule 40".
    pub name: String,
    /// The pipe and its radius.
    pub pipe: RolledPipe,
    /// How far it runs straight past B and past A.
    pub tails: [Length; 2],
}

/// Pads alike.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pad {
    /// Length along AB, and width out from it.
    pub size: [Length; 2],
    /// How many to one step.
    pub count: u32,
    /// Where each lies under the top: its corner nearest to A, along AB and out from it. None at all when not given.
    pub at: Vec<[Length; 2]>,
}

impl Recipe for Step {
    fn word(&self) -> &'static str {
        "step"
    }

    fn words(&self) -> &'static str {
        "step or platform top"
    }

    fn tight_field(&self) -> &'static str {
        "flange"
    }

    fn pieces(&self) -> Vec<Piece> {
        if self.pads.is_empty() {
            return Vec::new();
        }
        let top = Piece { suffix: "top".to_owned(), words: "top".to_owned(), count: 1 };
        let pad = |(number, pad): (usize, &Pad)| Piece {
            suffix: format!("pad{}", number + 1),
            words: "pad under the top".to_owned(),
            count: pad.count,
        };
        std::iter::once(top).chain(self.pads.iter().enumerate().map(pad)).collect()
    }

    fn put_together(&self, making: &Making) -> Vec<(usize, Frame)> {
        let pads = self.pad_roots(making);
        if pads.is_empty() { pads } else { std::iter::once((0, Frame::WORLD)).chain(pads).collect() }
    }

    fn shape_piece(&self, piece: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        match piece.checked_sub(1).and_then(|number| Some((number, self.pads.get(number)?))) {
            None => self.top(making),
            Some((number, pad)) => {
                let mut shaped = pad.shape(&format!("pads[{number}]"), making)?;
                shaped.facts.extend(self.pad_seams(Some(number), making)?);
                Ok(shaped)
            }
        }
    }
}

impl Step {
    /// The run of its pipe, from the tail past B to the tail past A.
    #[must_use]
    pub fn pipe_run(&self) -> Option<PipeRun> {
        let pipe = self.pipe.as_ref()?;
        let half = Length::from_millimetres(0.5 * pipe.pipe.outside_diameter.millimetres());
        let [length, width] = self.size;
        let out = width + half;
        let legs = vec![out + pipe.tails[0], length + half + half, out + pipe.tails[1]];
        Some(PipeRun { pipe: pipe.pipe, legs, turns: vec![Angle::from_degrees(90.0); 2] })
    }

    fn top(&self, making: &Making) -> Result<Shaped, Vec<Problem>> {
        let mut shaped = Shaped { part: self.top_part(making)?, facts: self.facts(making) };
        let sound = |size: &Length| *size > Length::ZERO;
        if self.pads.iter().all(|pad| pad.size.iter().all(sound)) {
            shaped.facts.extend(self.pad_seams(None, making)?);
        }
        Ok(shaped)
    }

    fn top_part(&self, making: &Making) -> Result<FoldedPart, Vec<Problem>> {
        let mut problems = Vec::new();
        for (number, size) in self.size.iter().enumerate() {
            making.above_zero(&format!("size[{number}]"), *size, &mut problems);
        }
        if let Some(pipe) = &self.pipe {
            self.check_pipe(pipe, making, &mut problems);
        }
        let outline = Figure::lettered(&self.outline());
        let (true, Some(outline)) = (problems.is_empty(), outline) else { return Err(problems) };
        let panel = Panel {
            outline,
            flanges: self.flange.iter().cloned().collect(),
            holes: self.holes.clone(),
            notches: Vec::new(),
            edges: Vec::new(),
        };
        Ok(panel.shape(making).map_err(own_fields)?.part)
    }

    fn check_pipe(&self, pipe: &StepPipe, making: &Making, problems: &mut Vec<Problem>) {
        pipe.pipe.problems("pipe", making, problems);
        for (number, tail) in pipe.tails.iter().enumerate() {
            making.not_below_zero(&format!("pipe.tails[{number}]"), *tail, problems);
        }
        let [length, width] = self.size.map(Length::millimetres);
        let most = (0.5 * length).min(width);
        if pipe.pipe.throat_mm() >= most - tolerance::SAME_POINT_MM && most > 0.0 {
            let largest = most + 0.5 * pipe.pipe.outside_diameter.millimetres();
            let wrong = "the bends at C and D take all of an edge of the plate";
            let remedy = format!("make it less than {}", making.print_mm(largest));
            problems.push(Problem::new("pipe.radius", making.print(pipe.pipe.radius), wrong, remedy));
        }
    }

    /// A, B, then round C and D to the throat of the pipe.
    fn outline(&self) -> Vec<Point> {
        let [length, width] = self.size.map(Length::millimetres);
        let radius = self.pipe.as_ref().map_or(0.0, |pipe| pipe.pipe.throat_mm());
        let mut corners = vec![Point::new(0.0, 0.0), Point::new(length, 0.0)];
        for (corner, start) in [(Point::new(length, width), 0.0), (Point::new(0.0, width), 1.0)] {
            if radius <= 0.0 {
                corners.push(corner);
                continue;
            }
            let quarter = std::f64::consts::FRAC_PI_2;
            let toward = if start > 0.0 { radius } else { -radius };
            let centre = corner + Vector::new(toward, -radius);
            let chords = chords(radius);
            for number in 0..=chords {
                let share = f64::from(number) / f64::from(chords);
                corners.push(centre + Vector::at_angle(quarter * (start + share)) * radius);
            }
        }
        corners
    }

    fn facts(&self, making: &Making) -> Vec<Fact> {
        let mut facts = vec![
            Fact::length_mm("side AB", self.size[0].millimetres(), "size"),
            Fact::length_mm("side BC", self.size[1].millimetres(), "size"),
        ];
        if let (Some(pipe), Some(run)) = (&self.pipe, self.pipe_run()) {
            let throat = making.print_mm(pipe.pipe.throat_mm());
            let words = format!("rounded to the throat, radius {throat}");
            facts.push(Fact::words("corners C and D", words, "pipe.radius, pipe.outside_diameter"));
            facts.extend(run.facts(&pipe.name));
        }
        facts
    }
}

impl Pad {
    fn shape(&self, field: &str, making: &Making) -> Result<Shaped, Vec<Problem>> {
        let mut problems = Vec::new();
        for (number, size) in self.size.iter().enumerate() {
            making.above_zero(&format!("{field}.size[{number}]"), *size, &mut problems);
        }
        if !problems.is_empty() {
            return Err(problems);
        }
        let [x, y] = self.size.map(Length::millimetres);
        let facts = vec![Fact::length_mm("length", x, field), Fact::length_mm("width", y, field)];
        Ok(Shaped { part: self.part(making), facts })
    }

    fn part(&self, making: &Making) -> FoldedPart {
        flat_piece("pad", self.corners_at([Length::ZERO; 2]).to_vec(), Vec::new(), making)
    }
}

/// Chords that keep a quarter circle within the chord tolerance: a chord over angle α sags by r·(1 − cos(α/2)).
fn chords(radius_mm: f64) -> u32 {
    let sag = |chords: u32| {
        let half = std::f64::consts::FRAC_PI_4 / f64::from(chords);
        radius_mm * (1.0 - geometry::trig::cos(half))
    };
    (2..).find(|&chords| sag(chords) <= tolerance::ARC_CHORD_MM).unwrap_or(2)
}

/// Problems of the panel under the fields of the step.
fn own_fields(problems: Vec<Problem>) -> Vec<Problem> {
    problems
        .into_iter()
        .map(|problem| Problem { field: problem.field.replace("flanges.AB", "flange"), ..problem })
        .collect()
}
