//! A console: two side panels of one outline, and a sheet wrapped round them, its bends and rolled corners where the
//! outline turns; a dash at its own angle is one of the legs. A foot recess may be let into a leg.
//!
//! The outline is the side view seen from starboard, to the outside of the wrap; corners A, B, C … once round. A
//! corner's radius is that of the outside of the wrap. Sides stand inside the wrap, their outsides flush with its
//! edges: their outline is the inside face of the wrap, which is what makes their edges and its legs agree. So the wrap
//! runs through and the sides stop against it. As asked, the sides run through instead, or the corners stay open; or the
//! sides have a joining flange that the wrap lies on. Marked faces are the outer ones.

mod agree;
mod check;
mod meeting;
mod side;
mod stood;
mod wrap;

use geometry::{Frame, tolerance};
use units::Length;

use crate::day_box::DayBox;
use crate::pan::Rim;
use crate::{CornerStyle, DrawnFace, Fact, Figure, Making, Piece, Places, Problem, Recipe, Shaped, whole};

/// A console.
#[derive(Debug, Clone, PartialEq)]
pub struct Console {
    /// The side view.
    pub outline: Figure,
    /// Radii of corners, outside of the wrap, by corner name; a brake bend where none is given.
    pub radii: Vec<(String, Length)>,
    /// Radius of the bare corners of the side panels, which the wrap does not come to; sharp when not given.
    pub corner_radius: Option<Length>,
    /// In how many strikes corners with a radius are bumped; rolled when not given.
    pub strikes: Option<u32>,
    /// Names of the sides of the outline that the sheet is wrapped round, one after another.
    pub wrapped: Vec<String>,
    /// Over the outsides of both side panels.
    pub width: Length,
    /// Flange of the side panels, turned in under the wrap; plain edges when not given.
    pub side_flange: Option<Length>,
    /// The side of the outline that is the dash.
    pub dash: Option<String>,
    /// A foot recess.
    pub foot_recess: Option<FootRecess>,
    /// Legs of the wrap as taped on the boat, to be checked against the outline.
    pub taped: Vec<(String, Length)>,
}

/// A box let into a leg of the wrap.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FootRecess {
    /// The leg.
    pub leg: String,
    /// Along the leg, from its first named corner to the box.
    pub from_corner: Length,
    /// Outside of the box, across the console.
    pub width: Length,
    /// Outside of the box, along the leg.
    pub height: Length,
    /// From the face of the rim.
    pub depth: Length,
    /// Rim of the box on the face of the wrap, beyond the outside of its walls.
    pub rim: Length,
    /// Between the box and the edge of the cut-out, each side.
    pub clearance: Length,
}

impl Recipe for Console {
    fn word(&self) -> &'static str {
        "console"
    }

    fn words(&self) -> &'static str {
        "console"
    }

    fn drawn_face(&self) -> DrawnFace {
        DrawnFace::Outer
    }

    fn tight_field(&self) -> &'static str {
        "outline"
    }

    fn pieces(&self) -> Vec<Piece> {
        let piece = |suffix: &str, words: &str| Piece {
            suffix: suffix.to_owned(),
            words: words.to_owned(),
            count: 1,
        };
        let mut pieces = vec![
            piece("wrap", "wrap of the console"),
            piece("side-s", "starboard side of the console"),
            piece("side-p", "port side of the console"),
        ];
        if self.foot_recess.is_some() {
            pieces.push(piece("recess", "foot recess of the console"));
        }
        pieces
    }

    fn put_together(&self, making: &Making) -> Vec<(usize, Frame)> {
        let Ok(pieces) = self.standing(making) else { return Vec::new() };
        let roots = pieces.iter().map(|piece| piece.root).chain(self.recess_root(making));
        whole::numbered(roots.map(whole::stood_up))
    }

    fn whole_sizes(&self, making: &Making) -> Vec<Fact> {
        self.put_together_sizes(making)
    }

    fn places(&self, piece: usize, making: &Making) -> Places {
        match piece {
            1 => self.side_places(making),
            2 => self.side_places(making).mirrored(),
            _ => Places::default(),
        }
    }

    fn cautions(&self, piece: usize, making: &Making) -> Vec<Problem> {
        self.look_first(piece, making)
    }

    fn shape_piece(&self, piece: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        self.check(making)?;
        let mut shaped = match piece {
            0 => self.wrap(making),
            1 => self.side(making),
            2 => self.side(making).map(|side| Shaped { part: side.part.mirrored(), ..side }),
            _ => self.recess(making),
        }?;
        self.prove_agreement(making)?;
        if piece < 3 {
            shaped.facts.extend(self.facts(making));
            shaped.facts.extend(self.seam_facts(piece, making)?);
        }
        Ok(shaped)
    }
}

impl Console {
    /// The wrapped sides of the outline in the order of the figure, counter-clockwise.
    fn legs(&self) -> Vec<usize> {
        let mut legs: Vec<usize> =
            self.wrapped.iter().filter_map(|name| self.outline.side_number(name)).collect();
        let count = self.outline.count();
        if let [first, second, ..] = legs[..]
            && (first + 1) % count != second
        {
            legs.reverse();
        }
        legs
    }

    /// The corner at the end of leg `number`, by its place in the outline.
    fn corner_after(&self, leg: usize) -> usize {
        (leg + 1) % self.outline.count()
    }

    /// How far the outline turns at a corner, radians: above zero where it bulges.
    fn turn_rad(&self, corner: usize) -> f64 {
        std::f64::consts::PI - self.outline.corner_angle(corner)
    }

    fn radius(&self, corner: usize) -> Option<Length> {
        let name = &self.outline.names[corner];
        self.radii.iter().find(|(of, _)| of == name).map(|(_, radius)| *radius)
    }

    /// Corners of the side panels that stand out bare: the wrap lies on neither of their sides.
    fn bare_corners(&self) -> Vec<usize> {
        let (legs, count) = (self.legs(), self.outline.count());
        let bare = |corner: &usize| {
            let sides = [(*corner + count - 1) % count, *corner];
            0.0 < self.turn_rad(*corner) && !sides.iter().any(|side| legs.contains(side))
        };
        (0..count).filter(bare).collect()
    }

    /// How far a bare corner's radius reaches along its two sides: R·tan(turn/2) (plane geometry), mm; zero at other corners.
    fn bare_reach_mm(&self, corner: usize) -> f64 {
        let radius = self.corner_radius.filter(|_| self.bare_corners().contains(&corner));
        radius.map_or(0.0, |radius| radius.millimetres() * geometry::trig::tan(0.5 * self.turn_rad(corner)))
    }

    /// Inside radius of the bend at a corner, mm: the outside face carries the given radius where the outline bulges,
    /// and the same face is the inner one in a hollow.
    fn bend_radius_mm(&self, corner: usize, making: &Making) -> f64 {
        match self.radius(corner) {
            Some(radius) if self.turn_rad(corner) > 0.0 => radius.millimetres() - making.thickness_mm(),
            Some(radius) => radius.millimetres(),
            None => making.number.inside_radius().millimetres(),
        }
    }

    /// Whether no straight is left of a leg because the radii at both its ends take just all of it: as at a half-round top, where
    /// one curve goes over into the next.
    fn is_all_round(&self, number: usize, making: &Making) -> bool {
        let legs = self.legs();
        let between = 0 < number && number + 1 < legs.len();
        let ends = [legs[number], self.corner_after(legs[number])];
        let reach_mm = |corner: usize| {
            self.radius(corner)?;
            let outside_mm = self.bend_radius_mm(corner, making) + making.thickness_mm();
            Some(outside_mm * geometry::trig::tan(0.5 * self.turn_rad(corner).abs()))
        };
        let Some(taken_mm) = ends.map(reach_mm).into_iter().sum::<Option<f64>>() else { return false };
        between && (self.leg_mm(number, making) - taken_mm).abs() <= tolerance::SAME_POINT_MM
    }

    /// The outline moved in to the inside face of the wrap.
    fn inside(&self, making: &Making) -> Option<Figure> {
        self.moved_in(making.thickness_mm())
    }

    /// The outline, its wrapped sides moved in by so much.
    fn moved_in(&self, inward_mm: f64) -> Option<Figure> {
        let legs = self.legs();
        let inward = |side: usize| if legs.contains(&side) { -inward_mm } else { 0.0 };
        self.outline.moved(&(0..self.outline.count()).map(inward).collect::<Vec<f64>>())
    }

    fn recess(&self, making: &Making) -> Result<Shaped, Vec<Problem>> {
        let Some(recess) = &self.foot_recess else { return Err(Vec::new()) };
        let day_box = DayBox {
            width: recess.width,
            height: recess.height,
            depth_top: recess.depth,
            depth_bottom: recess.depth,
            back_height: recess.height,
            rim: Rim::Out(recess.rim),
        };
        let named = |problem: Problem| Problem { field: format!("foot_recess.{}", problem.field), ..problem };
        // The style is that of wrap and sides; the box has open corners.
        let making = Making { corner: CornerStyle::Open, ..making.clone() };
        day_box.shape(&making).map_err(|problems| problems.into_iter().map(named).collect())
    }

    fn facts(&self, making: &Making) -> Vec<Fact> {
        let mut facts: Vec<Fact> = self
            .legs()
            .into_iter()
            .map(|leg| {
                let name =
                    format!("{} of the outline, sharp corner to sharp corner", self.outline.sides[leg]);
                Fact::length_mm(name, self.outline.side_mm(leg), "outline")
            })
            .collect();
        for pair in self.legs().windows(2) {
            let corner = self.corner_after(pair[0]);
            let name = format!("turn at {}", self.outline.names[corner]);
            facts.push(Fact::angle_rad(
                name,
                self.turn_rad(corner).abs(),
                "180° less the angle of the outline",
            ));
        }
        facts.extend(self.round_facts(making));
        if let Some(radius) = self.corner_radius {
            let bare = self.bare_corners();
            let names: Vec<&str> = bare.iter().map(|&corner| self.outline.names[corner].as_str()).collect();
            let words = format!("{} at {}, edges dressed", making.print(radius), names.join(", "));
            facts.push(Fact::words("bare corners of the sides, radius", words, "corner_radius"));
        }
        facts.extend(self.dash_fact());
        for (number, leg) in self.agreement(making).into_iter().enumerate() {
            let name = &leg.name;
            let short_mm = leg.edge_mm - leg.covered_mm;
            // Sides that run through, or stand a gap off, are cut elsewhere than along the wrap's inside.
            let as_cut = (self.side_in_mm(making) - making.thickness_mm()).abs() <= tolerance::SAME_POINT_MM;
            let (what, origin) = if as_cut {
                (format!("edge {name} of the sides"), "inside face of the wrap = edge of the sides")
            } else {
                let origin = "outline less the wrap's thickness; the sides are cut to their own mold lines";
                (format!("inside of the wrap along {name}"), origin)
            };
            let origin = if short_mm > tolerance::SAME_POINT_MM {
                format!(
                    "{}; the wrap's inside ends {} before it",
                    if as_cut { "as cut" } else { origin },
                    making.print_mm(short_mm)
                )
            } else {
                origin.to_owned()
            };
            facts.push(Fact::length_mm(what, leg.edge_mm, origin));
            let cut_mm: f64 = self.end_cuts_mm(number, making).iter().sum();
            if cut_mm > tolerance::SAME_POINT_MM {
                let origin = "T·cot of the sharp corner: the wrap's end is cut square and may not stand past the sides";
                facts.push(Fact::length_mm(
                    format!("cut off the outside of leg {name} at its end"),
                    cut_mm,
                    origin,
                ));
            }
        }
        facts
    }

    /// Where curves go over into one another without a straight.
    fn round_facts(&self, making: &Making) -> Vec<Fact> {
        let legs = self.legs();
        let fact = |(number, &leg): (usize, &usize)| {
            self.is_all_round(number, making).then(|| {
                let ends = [leg, self.corner_after(leg)];
                let names = ends.map(|corner| self.outline.names[corner].as_str()).join(" and ");
                let [first, second] = ends.map(|corner| self.turn_rad(corner));
                let words = if 0.0 < first * second {
                    let turn = units::Angle::from_radians((first + second).abs());
                    format!(
                        "no straight between them: one curve goes over into the other, {}° in all",
                        turn.print(1)
                    )
                } else {
                    "no straight between them: one curve goes over into the other, which turns back"
                        .to_owned()
                };
                Fact::words(format!("round of {names}"), words, "outline, radii")
            })
        };
        legs.iter().enumerate().filter_map(fact).collect()
    }

    fn dash_fact(&self) -> Option<Fact> {
        let (a, b) = self.outline.side(self.outline.side_number(self.dash.as_ref()?)?);
        let along = b - a;
        let slope = geometry::trig::atan2(along.y.abs(), along.x.abs());
        Some(Fact::angle_rad("dash above level", slope, "outline"))
    }
}
