//! How two plates of a shell that are welded at a corner meet: open, butt, lapped or tabbed.
//!
//! The style goes for corners between plates of two sides. Where a side meets a top, a floor or another plate of its own side,
//! as a face its collar, the weld stays open.

use std::f64::consts::PI;

use fold::part::{SeamSide, SeamStyle};

use super::weld::{Weld, weld_name};
use super::{Joint, Shell, ShellError, ShellPiece, ShellPlate};
use crate::CornerStyle;
use crate::corner_style::SeamName;
use crate::ring::trim::{self, Slabs};
use crate::ring::{RingError, lap, tabs};

impl Shell {
    /// How far plate `plate` stands back from the outside corner line of a weld, mm, and how the two meet, this plate
    /// the first; `None` for an open corner.
    pub(super) fn trim(&self, plate: usize, joint: &Joint) -> Option<(f64, SeamStyle)> {
        let sides = [plate, joint.other].map(|number| self.plates[number].side.as_ref());
        let [Some(own), Some(other)] = sides else { return None };
        if own.0 == other.0 {
            return None;
        }
        let asked = self.making.style.at(|| self.name([plate.min(joint.other), plate.max(joint.other)]));
        let first = asked.chosen()?.is_first([(&own.0, own.1), (&other.0, other.1)])?;
        let slabs = Slabs::of(PI - joint.turn_rad, &self.number, &self.making, asked);
        let ([trim_mm, _], style) = trim::trims(&slabs, asked, first);
        (style != SeamStyle::Open).then_some((trim_mm, style))
    }

    /// The gap between two plates that meet without a bend, mitred ones too, mm: the part's, or that of their
    /// corner's own style.
    pub(super) fn gap_mm(&self, plates: [usize; 2]) -> f64 {
        let of_part = self.making.gap_mm;
        let sides = plates.map(|plate| self.plates[plate].side.as_ref().map(|side| &side.0));
        match sides {
            [Some(own), Some(other)] if own != other => {
                let [own, other] = plates;
                self.making.style.at(|| self.name([own.min(other), own.max(other)])).gap_mm(of_part)
            }
            _ => of_part,
        }
    }

    /// What the weld between two plates of two sides goes by.
    fn name(&self, plates: [usize; 2]) -> SeamName {
        let [first, second] = plates.map(|plate| &self.plates[plate]);
        let seam = weld_name(&first.name, &second.name);
        let side = |plate: &ShellPlate| plate.side.as_ref().map_or_else(String::new, |side| side.0.clone());
        let corner = shared_corner(&side(first), &side(second)).unwrap_or_else(|| seam.clone());
        SeamName { corner, seam }
    }

    /// True for a weld that has a style: between plates of two sides that do not lie in one plane.
    fn has_style(&self, weld: &Weld) -> bool {
        self.is_of_two_sides(weld) && !trim::in_one_plane(weld.inside_angle_rad)
    }

    fn is_of_two_sides(&self, weld: &Weld) -> bool {
        let [first, second] = [weld.first.0, weld.second.0].map(|plate| self.plates[plate].side.as_ref());
        first.zip(second).is_some_and(|(own, other)| own.0 != other.0)
    }

    /// All welds that a style, or where they are mitred a gap, can be asked for.
    pub(crate) fn seam_names(&self) -> Vec<SeamName> {
        let welds = self.welds().into_iter().filter(|weld| self.is_of_two_sides(weld));
        welds.map(|weld| self.name([weld.first.0, weld.second.0])).collect()
    }

    /// Those among them whose plates lie in one plane.
    fn mitred_names(&self) -> Vec<SeamName> {
        let mitred = |weld: &Weld| self.is_of_two_sides(weld) && !self.has_style(weld);
        let welds = self.welds().into_iter().filter(mitred);
        welds.map(|weld| self.name([weld.first.0, weld.second.0])).collect()
    }

    /// Every name that a style is asked for by must be that of a corner or weld of the whole.
    pub(crate) fn check_names(&self) -> Result<(), ShellError> {
        if !matches!(self.making.style, CornerStyle::ByName { .. }) {
            return Ok(());
        }
        let (known, mitred) = (self.seam_names(), self.mitred_names());
        RingError::of_names(&self.making.style, &known, &mitred).map_err(ShellError::Corner)
    }

    /// How the plates of a weld meet.
    pub(super) fn style(&self, weld: &Weld) -> SeamStyle {
        let (plate, edge) = weld.first;
        let trim = self.joint(plate, edge).and_then(|joint| self.trim(plate, &joint));
        trim.map_or(SeamStyle::Open, |(_, style)| style)
    }

    /// What runs through, carries the strip or has the tabs at a weld; `None` for an open one.
    pub(super) fn style_words(&self, weld: &Weld) -> Option<String> {
        let plate = |side: SeamSide| match side {
            SeamSide::First => &self.plates[weld.first.0].name,
            SeamSide::Second => &self.plates[weld.second.0].name,
        };
        match self.style(weld) {
            SeamStyle::Open => None,
            SeamStyle::Butt { through } => Some(format!("butt, {} runs through", plate(through))),
            SeamStyle::Lap { carrier, .. } => Some(format!("lap, {} carries the strip", plate(carrier))),
            SeamStyle::TabAndSlot { tabs, .. } => Some(format!("tabs on {}", plate(tabs))),
        }
    }

    /// Every corner that the plates of one piece have a share in must be one that the style asked for can make.
    pub(super) fn check_corners(&self, plates: &[usize]) -> Result<(), ShellError> {
        self.check_names()?;
        if self.making.style == CornerStyle::Open {
            return Ok(());
        }
        for weld in self.welds().into_iter().filter(|weld| self.has_style(weld)) {
            let [first, second] = [weld.first.0, weld.second.0];
            let (Some(own), Some(other)) = (&self.plates[first].side, &self.plates[second].side) else {
                continue;
            };
            let ours = [first, second].map(|plate| plates.contains(&plate));
            let asked = self.making.style.at(|| self.name([first, second]));
            let (Some(chosen), true) = (asked.chosen(), ours != [false, false]) else { continue };
            let corner = || self.name([first, second]).corner;
            if chosen.is_first([(&own.0, own.1), (&other.0, other.1)]).is_none() {
                return Err(ShellError::Corner(RingError::NotChosen { corner: corner() }));
            }
            let shorter_mm = [(own, weld.first), (other, weld.second)]
                .map(|(side, (plate, edge))| side.1.min(self.shortest_beside_mm(plate, edge)));
            let slabs = Slabs::of(weld.inside_angle_rad, &self.number, &self.making, asked);
            let made = slabs.check(asked, shorter_mm[0].min(shorter_mm[1]), corner);
            made.map_err(ShellError::Corner)?;
        }
        Ok(())
    }

    /// The shorter of the two edges of a plate that end at its edge `edge`, mm: what is cut off along the edge takes from
    /// both, and at a slope of a lid the one along the top may be much the shorter.
    fn shortest_beside_mm(&self, plate: usize, edge: usize) -> f64 {
        let count = self.plates[plate].corners.len();
        let length_mm = |edge: usize| {
            let (a, b) = self.plates[plate].edge(edge % count);
            a.distance(b)
        };
        length_mm(edge + count - 1).min(length_mm(edge + 1))
    }
}

impl ShellPiece {
    /// Bends lap strips on, and cuts tabs and slots.
    pub(super) fn make_corners(&mut self) -> Result<(), ShellError> {
        lap::add_strips(&mut self.part, &mut self.frames).map_err(ShellError::Corner)?;
        tabs::cut(&mut self.part, &self.frames).map_err(ShellError::Corner)
    }
}

/// The corner that two sides share: "B" of "AB" and "BC".
fn shared_corner(first: &str, second: &str) -> Option<String> {
    let ends = |side: &str| {
        let at = side
            .char_indices()
            .skip(1)
            .find(|(_, c)| c.is_ascii_uppercase())
            .map_or(side.len(), |(at, _)| at);
        let (from, to) = side.split_at(at);
        [from.to_owned(), to.to_owned()]
    };
    let second = ends(second);
    ends(first).into_iter().find(|corner| second.contains(corner))
}
