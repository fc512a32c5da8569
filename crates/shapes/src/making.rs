//! What all recipes share: the metal's bend number, how corners are made, and how lengths are worded.

use fold::part::{FoldedPart, HoleSize, Relief};
use fold::{BendNumber, FlatPattern, flat};
use units::{Length, LengthStyle};

use crate::problem::above_zero;
use crate::ring::{Corners, RingError};
use crate::{CornerStyle, Fact, Problem};

/// Corner relief as the shop asks for it; [`Relief`] says what is cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ReliefStyle {
    /// None, in thin sheet: the flanges' edges meet where the bend lines cross.
    None,
    /// A sawn notch to where the inside tangent lines cross.
    Square,
    /// A drilled hole about that crossing.
    Round {
        /// Its size.
        hole: ReliefHole,
    },
    /// A round-bottomed notch: the hole, and straight sides out to the flanges' edges.
    TearDrop {
        /// Size of its round bottom.
        hole: ReliefHole,
    },
}

/// What the diameter of a relief hole goes by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ReliefHole {
    /// The handbook's rule, [`round_relief_diameter`], with the larger inside radius of the two bends.
    Handbook,
    /// The width of the wider of the two bend zones, so that the hole reaches both bend lines.
    Zone,
    /// As given.
    Diameter(Length),
}

/// The finest division of a tape, mm.
const SIXTY_FOURTH_MM: f64 = 25.4 / 64.0;

/// Smaller than this no size is suggested, mm: the finest division of a tape, 1/64 in (common practice, no source).
const LEAST_SUGGESTED_MM: f64 = 0.4;

/// Metal and habits for one part.
#[derive(Debug, Clone, PartialEq)]
pub struct Making {
    /// Bend number of the metal.
    pub number: BendNumber,
    /// Corner relief.
    pub relief: ReliefStyle,
    /// How two plates meet at a corner.
    pub corner: CornerStyle,
    /// Gap between the two plates at a corner.
    pub seam_gap: Length,
    /// How lengths read in messages and facts.
    pub style: LengthStyle,
}

/// A shaped part.
#[derive(Debug, Clone, PartialEq)]
pub struct Shaped {
    /// The folded part.
    pub part: FoldedPart,
    /// What the shop wants to read off it.
    pub facts: Vec<Fact>,
}

/// Diameter of a relief hole: twice the inside radius, and not under 1/8 in for sheet up to .064 or 3/16 in above.
///
/// Source: FAA-H-8083-31, chapter 4, relief holes of a folded box (the table ends at .128; thicker sheet keeps
/// 3/16 in as the least and grows with the radius).
#[must_use]
pub fn round_relief_diameter(thickness: Length, inside_radius: Length) -> Length {
    let thin = thickness.inches() <= 0.064;
    let least = if thin { Length::from_sixty_fourths(8) } else { Length::from_sixty_fourths(12) };
    least.max(inside_radius + inside_radius)
}

impl Making {
    /// Corner sizes in millimetres.
    #[must_use]
    pub fn corners(&self) -> Corners {
        let thickness = self.number.thickness();
        let size = |hole: ReliefHole| match hole {
            ReliefHole::Handbook => HoleSize::Handbook {
                least_diameter_mm: round_relief_diameter(thickness, Length::ZERO).millimetres(),
            },
            ReliefHole::Zone => HoleSize::Zone,
            ReliefHole::Diameter(diameter) => HoleSize::Given { radius_mm: 0.5 * diameter.millimetres() },
        };
        let relief = match self.relief {
            ReliefStyle::None => Relief::None,
            ReliefStyle::Square => Relief::Square,
            ReliefStyle::Round { hole } => Relief::Round(size(hole)),
            ReliefStyle::TearDrop { hole } => Relief::TearDrop(size(hole)),
        };
        Corners {
            relief,
            style: self.corner.clone(),
            gap_mm: self.seam_gap.millimetres(),
            notch_width_mm: thickness.millimetres().max(Length::from_sixty_fourths(4).millimetres()),
        }
    }

    /// Thickness, mm.
    #[must_use]
    pub fn thickness_mm(&self) -> f64 {
        self.number.thickness().millimetres()
    }

    /// A length as it reads in messages.
    #[must_use]
    pub fn print(&self, length: Length) -> String {
        length.print(self.style)
    }

    /// A thickness or a small allowance as it reads in messages: a caliper's decimals, where the tape has sixteenths.
    #[must_use]
    pub fn print_fine(&self, length: Length) -> String {
        length.print(self.fine_style())
    }

    /// How thicknesses and small allowances are printed.
    #[must_use]
    pub const fn fine_style(&self) -> LengthStyle {
        match self.style {
            LengthStyle::Tape { .. } => LengthStyle::Inches { places: 3 },
            other => other,
        }
    }

    /// Computed millimetres as they read in messages.
    #[must_use]
    pub fn print_mm(&self, millimetres: f64) -> String {
        Length::from_millimetres(millimetres).print(self.style)
    }

    /// The largest size that may be, as it reads in messages: rounded down, but for what arithmetic lacks of a digit.
    #[must_use]
    pub fn print_most_mm(&self, millimetres: f64) -> String {
        Length::from_millimetres(millimetres + geometry::tolerance::SAME_POINT_MM).print_down(self.style)
    }

    /// The least size that may be, as it reads in messages: rounded up, but for what arithmetic has beyond a digit.
    #[must_use]
    pub fn print_least_mm(&self, millimetres: f64) -> String {
        Length::from_millimetres(millimetres - geometry::tolerance::SAME_POINT_MM).print_up(self.style)
    }

    /// What lap strips on one side of the plates they lie on take of the room there, mm: thickness and the gap behind them; zero
    /// where no corner is lapped so.
    pub(crate) fn lap_strip_mm(&self, on_outside: bool) -> f64 {
        let is_own =
            |style: &CornerStyle| matches!(style, CornerStyle::Lap { outside, .. } if *outside == on_outside);
        let lapped = self.corner.single().into_iter().any(|(_, style)| is_own(style));
        if lapped { self.thickness_mm() + self.seam_gap.millimetres() } else { 0.0 }
    }

    /// What to do about a size that is too large: the most that there is room for, or that no size fits and why.
    pub(crate) fn keep_under(&self, most_mm: f64, no_room: &str) -> String {
        if self.has_room(most_mm) {
            format!("keep it under {}", self.print_most_mm(most_mm))
        } else {
            format!("no size fits: {no_room}")
        }
    }

    /// True when a largest possible size is one that can be read off a tape: finer is nothing.
    pub(crate) fn has_room(&self, most_mm: f64) -> bool {
        LEAST_SUGGESTED_MM <= most_mm
    }

    /// A size that must be above zero.
    pub(crate) fn above_zero(&self, field: &str, length: Length, problems: &mut Vec<Problem>) {
        above_zero(self.style, field, length, problems);
    }

    /// A size that may be zero but not below.
    pub(crate) fn not_below_zero(&self, field: &str, length: Length, problems: &mut Vec<Problem>) {
        if length < Length::ZERO {
            problems.push(Problem::new(
                field,
                self.print(length),
                "must not be below zero",
                "give zero or more",
            ));
        }
    }
}

/// A ring that cannot be built, as a problem with the field that governs the plate at fault; `field` where its name
/// does not tell.
pub(crate) fn ring_problem(error: &RingError, field: &str, making: &Making) -> Problem {
    let (name, wrong) = match error {
        RingError::NoBend { name } => (name, "its plate makes no bend with the one before it"),
        RingError::Nothing { name } => (name, "nothing is left of it; its ends or edges meet"),
        RingError::NotChosen { .. }
        | RingError::NoSuchSeam { .. }
        | RingError::InOnePlane { .. }
        | RingError::TooFlat { .. }
        | RingError::NarrowLap { .. }
        | RingError::NoRoomForTabs { .. } => return corner_problem(error, making),
    };
    let (what, side) = name.split_once(' ').unwrap_or((name, ""));
    let field = match what {
        "rim" | "skirt" | "return" => what.to_owned(),
        "slope" => format!("inset.{side}"),
        "flange" => format!("flanges.{side}"),
        "lap" => corner_field(making, name, "lap"),
        _ => field.to_owned(),
    };
    Problem::new(field, name, wrong, "check its sizes against its neighbours")
}

/// The field that asks for the style of the corner or seam `name`, and within it for `what`, where that stands in it.
fn corner_field(making: &Making, name: &str, what: &str) -> String {
    let asks = |style: &CornerStyle| match (what, style) {
        ("lap", CornerStyle::Lap { .. }) | ("count", CornerStyle::TabAndSlot { .. }) => true,
        (what, style) => what.is_empty() && *style != CornerStyle::Open,
    };
    let single = making.corner.single();
    let of_name = |field: &str| {
        field.strip_prefix(".at.").is_none_or(|own| {
            name == own || name.ends_with(&format!("corner {own}")) || own.ends_with(&format!(" {name}"))
        })
    };
    let found = single.iter().find(|(field, style)| of_name(field) && asks(style));
    let field = found.map_or("", |(field, _)| field.as_str());
    let what = if what.is_empty() { String::new() } else { format!(".{what}") };
    format!("corner{field}{what}")
}

/// Corners and seams as they are listed: "A, B, C and D".
fn listed(names: impl Iterator<Item = String>) -> String {
    let mut all: Vec<String> = Vec::new();
    for name in names {
        if !all.contains(&name) {
            all.push(name);
        }
    }
    all.sort();
    match all.split_last() {
        Some((last, [])) => last.clone(),
        Some((last, before)) => format!("{} and {last}", before.join(", ")),
        None => String::new(),
    }
}

/// A corner that cannot be made in the style asked for.
fn corner_problem(error: &RingError, making: &Making) -> Problem {
    match error {
        RingError::NoSuchSeam { names, known } => {
            let wrong = "no two plates of this part meet without a bend there";
            let remedy = if known.is_empty() {
                "take it out".to_owned()
            } else {
                format!(
                    "its corners are {}; its single seams {}",
                    listed(known.iter().map(|name| name.corner.clone())),
                    listed(known.iter().map(|name| format!("\"{}\"", name.seam)))
                )
            };
            Problem::new("corner.at", names.join(", "), wrong, remedy)
        }
        RingError::InOnePlane { seam } => {
            let wrong =
                "its plates lie in one plane: they meet edge to edge, and neither can run past the other";
            let remedy = "ask for \"open\" there, or for {\"gap\": …}";
            Problem::new(format!("corner.at.{seam}"), "as given", wrong, remedy)
        }
        RingError::TooFlat { corner, inside_angle_rad, flattest_rad } => {
            let degrees = inside_angle_rad.to_degrees();
            let wrong = format!(
                "its plates stand at {degrees:.1}°: so flat that one would be cut back by more than a twentieth of the \
                 shorter side to stop against the other"
            );
            let flattest = (10.0 * flattest_rad.to_degrees()).floor() / 10.0;
            let remedy = format!(
                "make the part with open corners, or its plates steeper: up to {flattest:.1}° can be made so"
            );
            Problem::new(corner_field(making, corner, ""), format!("corner {corner}"), wrong, remedy)
        }
        RingError::NarrowLap { corner, inside_angle_rad, narrowest_mm } => {
            let wrong = format!(
                "its plates stand at {:.1}°: so flat that the strip lies on the other plate by less than a thickness",
                inside_angle_rad.to_degrees()
            );
            // Up to the next 1/64 in, so that what is named works however it is printed.
            let narrowest_mm = (narrowest_mm / SIXTY_FOURTH_MM).ceil() * SIXTY_FOURTH_MM;
            let narrowest = making.print_mm(narrowest_mm);
            let remedy = format!("make it {narrowest} wide or more, or the corner otherwise");
            Problem::new(corner_field(making, corner, "lap"), format!("corner {corner}"), wrong, remedy)
        }
        RingError::NoRoomForTabs { seam, most } => {
            let wrong = "has no room for so many tabs with a thickness of metal beside each";
            let remedy = match most {
                0 => {
                    "no tab of this width fits there: make them narrower, or the corner otherwise".to_owned()
                }
                most => format!("ask for {most} at most, or for narrower ones"),
            };
            Problem::new(corner_field(making, seam, "count"), seam, wrong, remedy)
        }
        RingError::NotChosen { corner }
        | RingError::NoBend { name: corner }
        | RingError::Nothing { name: corner } => {
            let wrong = "both of its sides are named, or neither";
            let remedy = "name one of the two sides that meet at each corner, or say \"long sides\"";
            Problem::new(corner_field(making, corner, ""), format!("corner {corner}"), wrong, remedy)
        }
    }
}

impl Shaped {
    /// Lays the part flat.
    ///
    /// # Errors
    /// [`flat::UnfoldError`] when it cannot come out of one piece.
    pub fn unfold(&self) -> Result<FlatPattern, flat::UnfoldError> {
        flat::unfold(&self.part)
    }
}
