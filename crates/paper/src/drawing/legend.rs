//! The legend: samples of the lines a drawing uses, with what they mean.

use fold::Direction;
use geometry::{Contour, Point, Vector};

use super::block::Block;
use super::symbols;
use crate::page::font::{self, Weight};
use crate::page::{Fill, Item, Pen, Text, hatch_lines};

/// Something a legend explains.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Entry {
    /// The cut edge.
    Cut,
    /// A bend.
    Bend(Direction),
    /// The datum corner.
    Datum,
    /// The datum corner of the rectangle around an offcut.
    DatumAround,
    /// What is missing of that rectangle.
    NoMetal,
    /// Metal of an offcut that may not be used.
    Torn,
    /// The edge trim.
    Trim,
    /// A drop.
    Drop,
    /// Datum corner of a part's layout sheet, on a sheet map.
    PartDatum,
    /// What is left of a roll or a sheet of liner.
    Waste,
    /// Cut off the sides of a roll.
    Selvedge,
    /// A seam in a panel of a roll good.
    Seam,
    /// A line scribed across a part: a frame.
    Scribed,
    /// A cut right across a roll.
    CutAcross,
    /// The way the nap runs.
    Nap,
    /// Tabs of a paper model.
    GlueTab,
    /// A bend up on a sheet map.
    LightBendUp,
    /// A bend down on a sheet map.
    LightBendDown,
    /// Tangent lines of bends on a view of the folded part.
    ViewTangent,
}

impl Entry {
    const fn words(self) -> &'static str {
        match self {
            Self::Cut => "cut",
            Self::Bend(Direction::Up) => "bend UP: toward you as you look at this face",
            Self::Bend(Direction::Down) => "bend DOWN: away from you as you look at this face",
            Self::Datum => "datum corner: all running dimensions start at its two edges",
            Self::DatumAround => {
                "datum corner of the rectangle around the offcut: all running dimensions start at its two sides"
            }
            Self::NoMetal => "no metal: outside the offcut, or a hole in it",
            Self::Torn => "torn, or not to be used for another reason",
            Self::Trim => "edge trim: no metal is used outside this line",
            Self::Drop => "drop to keep",
            Self::PartDatum => {
                "datum corner of a part's layout sheet: the numbers here lead to it, those of that sheet start at it"
            }
            Self::Waste => "waste",
            Self::Selvedge => "cut off the side before anything is measured",
            Self::Seam => "seam: lap the panels to this line, cut through both",
            Self::Scribed => "scribe only, NO CUT and NO BEND: where a frame runs",
            Self::CutAcross => "cut straight across the roll",
            Self::Nap => "the nap runs this way",
            Self::GlueTab => "fold of a glue tab",
            Self::LightBendUp => "bend UP",
            Self::LightBendDown => "bend DOWN",
            Self::ViewTangent => "where a bend begins and ends",
        }
    }

    /// Width of the sample in text heights.
    const fn sample_em(self) -> f64 {
        match self {
            Self::Cut
            | Self::Trim
            | Self::ViewTangent
            | Self::GlueTab
            | Self::Seam
            | Self::Scribed
            | Self::CutAcross => 3.0,
            Self::LightBendUp | Self::LightBendDown => 4.0,
            Self::Bend(_) => 9.5,
            Self::Datum | Self::DatumAround => 1.4,
            Self::PartDatum | Self::Nap => 1.0,
            Self::Drop | Self::NoMetal | Self::Torn | Self::Waste | Self::Selvedge => 2.2,
        }
    }

    /// The sample, its middle line starting at `at`.
    fn sample(self, at: Point, text_mm: f64) -> Vec<Item> {
        let right = |share: f64| at + Vector::new(share * text_mm, 0.0);
        let up = |share: f64| Vector::new(0.0, share * text_mm);
        match self {
            Self::Cut => vec![Item::line(at, right(3.0), Pen::CutEdge)],
            Self::ViewTangent => vec![Item::line(at, right(3.0), Pen::ViewTangent)],
            Self::GlueTab => vec![Item::line(at, right(3.0), Pen::BendLight)],
            Self::LightBendUp => vec![Item::line(at, right(4.0), Pen::BendLightUp)],
            Self::LightBendDown => vec![Item::line(at, right(4.0), Pen::BendLightDown)],
            Self::Trim => vec![Item::line(at, right(3.0), Pen::TrimEdge)],
            Self::Bend(direction) => bend_sample(direction, at, text_mm),
            Self::Datum | Self::DatumAround => {
                let corner = right(0.7) + up(0.1);
                let arms = [right(1.4) + up(0.1), corner + up(0.5)];
                let lines = arms.map(|end| Item::line(corner, end, Pen::Datum));
                lines.into_iter().chain([symbols::datum_block(corner, 0.5 * text_mm)]).collect()
            }
            Self::Seam => vec![Item::line(at, right(3.0), Pen::Seam)],
            Self::Scribed => vec![Item::line(at, right(3.0), Pen::Scribed)],
            Self::CutAcross => vec![Item::line(at, right(3.0), Pen::CutAcross)],
            Self::Nap => symbols::nap_arrow(right(0.4) - up(0.6), Vector::new(0.0, 1.0), 1.2 * text_mm),
            Self::Waste => {
                let mut items =
                    hatch_lines(&[Contour::polygon(&patch(at, text_mm))], WASTE_EM * text_mm, WASTE_ANGLE);
                items.push(Item::edge(&patch(at, text_mm), Pen::CutEdge));
                items
            }
            Self::Selvedge => {
                let mut items = vec![Item::area(&patch(at, text_mm), Fill::Beyond)];
                items.push(Item::edge(&patch(at, text_mm), Pen::Extension));
                items
            }
            Self::PartDatum => {
                let edges = [Vector::new(1.0, 0.0), Vector::new(0.0, 1.0)];
                vec![symbols::datum_triangle(at - up(0.35), edges, 0.7 * text_mm)]
            }
            Self::Drop => {
                let corners = patch(at, text_mm);
                let contour = Contour::polygon(&corners);
                let mut items = hatch_lines(&[contour], 0.5 * text_mm, std::f64::consts::FRAC_PI_4);
                items.push(Item::edge(&corners, Pen::DropEdge));
                items
            }
            Self::NoMetal => {
                let contour = Contour::polygon(&patch(at, text_mm));
                hatch_lines(&[contour], 0.8 * text_mm, 0.75 * std::f64::consts::PI)
            }
            Self::Torn => {
                let corners = patch(at, text_mm);
                let mut items = hatch_lines(&[Contour::polygon(&corners)], TORN_EM * text_mm, TORN_ANGLE);
                items.push(Item::edge(&corners, Pen::Hatch));
                items
            }
        }
    }
}

/// Hatching of waste: from line to line in text heights, and which way it runs.
pub(crate) const WASTE_EM: f64 = 0.8;
pub(crate) const WASTE_ANGLE: f64 = 0.75 * std::f64::consts::PI;

/// Hatching of metal that may not be used: close lines straight up, unlike any other.
pub(crate) const TORN_EM: f64 = 0.4;
pub(crate) const TORN_ANGLE: f64 = std::f64::consts::FRAC_PI_2;

/// Corners of a sample of an area whose middle line starts at `at`.
fn patch(at: Point, text_mm: f64) -> [Point; 4] {
    let (right, up) = (Vector::new(2.2 * text_mm, 0.0), Vector::new(0.0, 0.4 * text_mm));
    [at - up, at + right - up, at + right + up, at + up]
}

/// The line, its triangle, and the sheet seen on edge.
fn bend_sample(direction: Direction, at: Point, text_mm: f64) -> Vec<Item> {
    let right = |share: f64| at + Vector::new(share * text_mm, 0.0);
    let mut items = vec![Item::line(at, right(5.2), Pen::bend(direction))];
    items.push(symbols::bend_triangle(direction, right(6.0), Vector::new(0.0, 1.0), 0.8 * text_mm));
    items.extend(symbols::edge_view(direction, right(7.2), 2.0 * text_mm));
    items
}

/// Sets the entries in lines, as many to a line as fit.
pub(crate) fn set(block: &mut Block, entries: &[Entry], text_mm: f64) {
    let pitch = 1.9 * text_mm;
    let mut x = 0.0;
    block.skip(pitch);
    for entry in entries {
        let sample = entry.sample_em() * text_mm;
        let width = sample + 0.6 * text_mm + font::width_mm(entry.words(), Weight::Regular, text_mm);
        if 0.0 < x && block.width_mm < x + width {
            x = 0.0;
            block.skip(pitch);
        }
        let at = Point::new(block.left_mm + x, block.foot_mm);
        block.items.extend(entry.sample(at + Vector::new(0.0, 0.35 * text_mm), text_mm));
        let words = at + Vector::new(sample + 0.6 * text_mm, 0.0);
        block.items.push(Item::Text(Text::new(words, entry.words(), text_mm)));
        x += width + 2.0 * text_mm;
    }
}
