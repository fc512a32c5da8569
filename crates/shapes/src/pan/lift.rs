//! A pan that lifts out through its opening, level: how far every wall stands out with its rim and its edge.

use std::f64::consts::FRAC_PI_2;

use geometry::{tolerance, trig};
use units::Length;

use super::{Pan, PanPlan, Rim};
use crate::ring::EndLimit;
use crate::{Clearance, Fact, Figure, Making, Problem, Shaped, edge};

/// How far metal may stand beyond what the sum of clearances leaves it, mm: rounding, and how far fine steps of a bend stand
/// beyond its arc.
const OFF_MM: f64 = 0.002;

/// What one wall takes of the opening beside the clearance.
#[derive(Debug, Clone, Copy, Default)]
struct Takes {
    /// Its rim.
    rim: Length,
    /// Its lean, up to where its outside ends.
    lean: Length,
    /// What is bent at its edge, beyond rim and lean.
    edge: Length,
}

impl Takes {
    fn total(self) -> Length {
        self.rim + self.lean + self.edge
    }
}

impl Pan {
    /// The outside of the walls of a pan that lifts out: the opening less clearance, rim, lean and edge.
    pub(super) fn lifted(
        &self,
        making: &Making,
        opening: &Figure,
        free: &Clearance,
    ) -> Result<(Figure, Option<Fact>), Vec<Problem>> {
        let mut problems = Vec::new();
        let clearance = free.checked_total(making, &mut problems);
        if !problems.is_empty() {
            return Err(problems);
        }
        let takes: Vec<Takes> = (0..opening.count()).map(|side| self.takes(side, making)).collect();
        let each: Vec<Length> = takes.iter().map(|takes| clearance + takes.total()).collect();
        let widest = (0..each.len()).max_by_key(|&side| each[side]).unwrap_or(0);
        let a_side = each.get(widest).copied().unwrap_or(clearance);
        let widest = takes.get(widest).copied().unwrap_or_default();
        let too_wide = || vec![self.no_floor(opening, (clearance, widest), making)];
        let inward: Vec<f64> = each.iter().map(|take| -take.millimetres()).collect();
        // Mitred rims end in the corners of the opening less its clearance, so these must be there.
        opening.grown(-clearance.millimetres()).ok_or_else(too_wide)?;
        let floor = opening.moved(&inward).ok_or_else(too_wide)?;
        let sum = |takes: &Takes| {
            let more = |length: Length, word: &str| {
                let there = length > Length::ZERO;
                if there { format!(" + {} {word}", making.print(length)) } else { String::new() }
            };
            format!(
                "{} + {} rim{}{} = {} a side",
                free.words(making.style),
                making.print(takes.rim),
                more(takes.lean, "lean"),
                more(takes.edge, self.edge.kind()),
                making.print(clearance + takes.total())
            )
        };
        let alike = each.iter().all(|&take| take == a_side);
        let only_rims =
            takes.iter().all(|other| other.total() == Length::ZERO || other.total() == widest.rim);
        let words = if alike {
            format!("opening less, each side: {}", sum(&widest))
        } else if only_rims {
            format!("opening less, each side that has the rim: {}", sum(&widest))
        } else {
            let sides = takes.iter().zip(&opening.sides);
            let sums: Vec<String> = sides.map(|(takes, side)| format!("{side}: {}", sum(takes))).collect();
            format!("opening less, {}", sums.join("; "))
        };
        let also = |there: bool, field: &'static str| if there { field } else { "" };
        let origin = format!(
            "lifts_through, clearance, rim{}{}",
            also(takes.iter().any(|takes| takes.lean > Length::ZERO), ", lean"),
            also(takes.iter().any(|takes| takes.edge > Length::ZERO), ", edge")
        );
        Ok((floor, Some(Fact::words("lifts through", words, origin))))
    }

    /// What the ends of a rim must not pass. Turned outward, the outermost of every other wall, carried on straight: at a
    /// blunt corner whose other wall has no rim a square end would stand out beyond that wall, into the side of the
    /// opening. Turned inward, the insides of the other walls, where a square end at a sharp corner would run into one.
    pub(super) fn rim_limits(&self, floor: &Figure, side: usize, making: &Making) -> Vec<EndLimit> {
        let height_mm = self.height.millimetres() - self.over_rim_mm(making);
        let limit = |other: usize| {
            let (a, b) = floor.side(other);
            let lean_rad = self.lean_rad(other);
            let (out_mm, beyond_mm) = match self.rim(side) {
                Rim::None => return None,
                Rim::Out(_) => (self.reach_mm(other, making).max(0.0), self.edge_beyond_mm(side, making)),
                Rim::In(_) => {
                    let inside_mm = making.thickness_mm() / trig::cos(lean_rad);
                    (height_mm * trig::tan(lean_rad) - inside_mm, 0.0)
                }
            };
            Some(EndLimit { plane: edge::upright(a, b).moved(out_mm), beyond_mm })
        };
        (0..floor.count()).filter(|&other| other != side).filter_map(limit).collect()
    }

    /// The folded pan is measured against its opening: what is bent at the edges of walls and rims has square ends, which at
    /// a blunt corner may stand out beyond the wall beside it. So may the square end of a wall that is butted there, by a part
    /// of the thickness: that takes of the clearance, and is told while the clearance holds it.
    pub(super) fn check_lifts(
        &self,
        shaped: &Shaped,
        floor: &Figure,
        making: &Making,
    ) -> Result<Option<Fact>, Vec<Problem>> {
        let (PanPlan::LiftsThrough { clearance, .. }, Ok(flat)) = (&self.plan, shaped.unfold()) else {
            return Ok(None);
        };
        let base = flat.faces[0].placement.frame();
        let places: Vec<_> =
            fold::facets::reach(&flat).into_iter().map(|place| base.local(place).0).collect();
        // Strips of lapped corners have their own item in the sum of clearances.
        let strips_mm = making.lap_strip_mm(true);
        let beyond = |side: usize| {
            let (a, b) = floor.side(side);
            let outward = (b - a).unit().right();
            let most = places.iter().map(|&at| (at - a).dot(outward)).fold(f64::NEG_INFINITY, f64::max);
            most - self.reach_mm(side, making).max(0.0) - strips_mm / trig::cos(self.lean_rad(side))
        };
        let worst = (0..floor.count()).max_by(|&a, &b| beyond(a).total_cmp(&beyond(b))).unwrap_or(0);
        let beyond_mm = beyond(worst);
        if beyond_mm <= OFF_MM {
            return Ok(None);
        }
        let left_mm = clearance.checked_total(making, &mut Vec::new()).millimetres() - beyond_mm;
        if self.edge.is_plain() && 0.0 < left_mm {
            let words = format!(
                "a square end stands {} nearer to side {} of the opening: {} left of the clearance there",
                making.print_least_mm(beyond_mm),
                floor.sides[worst],
                making.print_most_mm(left_mm)
            );
            let from = "the folded pan, measured to the line of the opening's side";
            return Ok(Some(Fact::words("least clearance", words, from)));
        }
        let wrong = format!(
            "at a blunt corner a square end of it would stand {} nearer to side {} of the opening than the clearance",
            making.print_least_mm(beyond_mm),
            floor.sides[worst]
        );
        let (field, value) =
            if self.edge.is_plain() { ("rim", "as given") } else { ("edge", self.edge.kind()) };
        let remedy = "leave the edge plain, give all sides alike, or add as much to the clearance";
        Err(vec![Problem::new(field, value, wrong, remedy)])
    }

    /// Where the ends of rims are cut to a slant: at blunt corners whose other wall has no such rim.
    pub(super) fn slanted_ends(&self, floor: &Figure) -> Vec<Fact> {
        let count = floor.count();
        let is_out = |side: usize| matches!(self.rim(side), Rim::Out(_));
        let blunt = |corner: usize| floor.corner_angle(corner) > FRAC_PI_2 + tolerance::PARALLEL_SINE;
        let slanted = |side: usize| {
            let ends = [(side, (side + count - 1) % count), ((side + 1) % count, (side + 1) % count)];
            let words: Vec<String> = ends
                .into_iter()
                .filter(|&(corner, beside)| blunt(corner) && !is_out(beside))
                .map(|(corner, beside)| {
                    let (corner, beside) = (&floor.names[corner], &floor.sides[beside]);
                    format!("at {corner} cut on a slant, to stand out no farther than wall {beside}")
                })
                .collect();
            (is_out(side) && !words.is_empty()).then(|| {
                let name = format!("ends of the rim {}", floor.sides[side]);
                Fact::words(
                    name,
                    words.join("; "),
                    "rim; a square end would pass the line of the wall beside it",
                )
            })
        };
        (0..count).filter_map(slanted).collect()
    }

    fn takes(&self, side: usize, making: &Making) -> Takes {
        let whole_mm = self.reach_mm(side, making);
        let width = match self.rim(side) {
            Rim::Out(width) => width,
            Rim::None | Rim::In(_) => Length::ZERO,
        };
        let edge_mm = self.edge_beyond_mm(side, making);
        let out = Length::from_millimetres((whole_mm - edge_mm).max(0.0));
        let rim = width.min(out);
        let edge = Length::from_millimetres(whole_mm.max(0.0)) - out;
        Takes { rim, lean: out - rim, edge }
    }

    /// How far a wall with its rim and its edge reaches out beyond the floor, mm; below zero where its lean takes it
    /// inward.
    pub(crate) fn reach_mm(&self, side: usize, making: &Making) -> f64 {
        let lean_rad = self.lean_rad(side);
        // Edges turned in are mitred at the outsides of the walls beside them, and reach out along those to their full height.
        let mitred_up = self.rim(side) == Rim::None && self.edge.is_turned_in() && lean_rad > 0.0;
        let drop_mm = if mitred_up { 0.0 } else { self.drop_mm(side, making) };
        let run_mm = (self.height.millimetres() - drop_mm) * trig::tan(lean_rad);
        let width_mm = match self.rim(side) {
            Rim::Out(width) => width.millimetres(),
            Rim::None | Rim::In(_) => 0.0,
        };
        run_mm + width_mm + self.edge_beyond_mm(side, making)
    }

    /// How far the outermost metal of the edge stands beyond the outside of the wall at its top, or beyond its rim, mm.
    fn edge_beyond_mm(&self, side: usize, making: &Making) -> f64 {
        match self.rim(side) {
            Rim::None => self.edge.beyond_wall_mm(self.lean_rad(side), making),
            Rim::Out(_) => self.edge.beyond_end_mm(making),
            Rim::In(_) => 0.0,
        }
    }

    /// Clearance, rim, lean and edge of the widest side leave no floor of an opening.
    fn no_floor(&self, opening: &Figure, (clearance, takes): (Length, Takes), making: &Making) -> Problem {
        let Takes { rim, lean, edge } = takes;
        let narrow = (0..opening.count()).map(|side| opening.side_mm(side)).fold(f64::INFINITY, f64::min);
        let kind = self.edge.kind();
        let named = [("clearance", true), ("lean", lean > Length::ZERO), (kind, edge > Length::ZERO)];
        let others: Vec<&str> = named.iter().filter(|(_, there)| *there).map(|(name, _)| *name).collect();
        let wrong = format!(
            "{} and rim take {} a side: no floor is left",
            others.join(", "),
            making.print(clearance + takes.total())
        );
        let most_mm = 0.5 * narrow - (clearance + lean + edge).millimetres();
        let has_rim = rim > Length::ZERO;
        let remedy = if has_rim && making.has_room(most_mm) {
            format!("the largest rim that could pass is under {}", making.print_most_mm(most_mm))
        } else if lean > Length::ZERO && !has_rim {
            let most_mm = 0.5 * narrow - (clearance + edge).millimetres();
            format!(
                "lean the walls by less: their tops may stand out under {}",
                making.print_most_mm(most_mm.max(0.0))
            )
        } else if edge > Length::ZERO && !has_rim {
            let most_mm = 0.5 * narrow - clearance.millimetres();
            let none = "the clearance alone takes all of the opening";
            format!("bend the {kind} inward, or {}", making.keep_under(most_mm, none))
        } else {
            let rest = match others.as_slice() {
                [_] => "the clearance alone takes".to_owned(),
                [first, rest @ ..] => format!("the {first} and the {} alone take", rest.join(" and the ")),
                [] => String::new(),
            };
            format!("no rim passes: {rest} all of the opening")
        };
        let (field, value) = if has_rim {
            ("rim", making.print(rim))
        } else if lean > Length::ZERO {
            ("lean", making.print(lean))
        } else if edge > Length::ZERO {
            ("edge", making.print(edge))
        } else {
            ("clearance", making.print(clearance))
        };
        Problem::new(field, value, wrong, remedy)
    }
}
