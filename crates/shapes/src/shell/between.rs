//! Lap strips, tabs and slots at the corners between two pieces: each piece is cut, or has its strip, for where the other's plate
//! comes to lie. What comes of it is measured on both pieces refolded and put together, as every weld is.

use fold::part::{SeamSide, SeamStyle};

use super::weld::Weld;
use super::{Shell, ShellError, ShellPiece};
use crate::ring::lap::{self, Along, Lapped};
use crate::ring::tabs::{self, Half, Tabbed};

impl Shell {
    /// Makes the piece's own half of every corner with another piece that is lapped or tabbed.
    pub(super) fn join(&self, piece: &mut ShellPiece) -> Result<(), ShellError> {
        for weld in self.welds() {
            let ends = [weld.first, weld.second];
            let own = match ends.map(|(plate, _)| piece.face_of(plate).is_some()) {
                [true, false] => 0,
                [false, true] => 1,
                _ => continue,
            };
            let style = self.style(&weld);
            if !matches!(style, SeamStyle::Lap { .. } | SeamStyle::TabAndSlot { .. }) {
                continue;
            }
            // A neighbour that cannot be built is refused for that, under its own mark.
            let Ok(other) = self.plates_of(ends[1 - own].0) else { continue };
            self.join_one(piece, (&weld, own), &other, style).map_err(ShellError::Corner)?;
        }
        Ok(())
    }

    fn join_one(
        &self,
        piece: &mut ShellPiece,
        (weld, own): (&Weld, usize),
        other: &ShellPiece,
        style: SeamStyle,
    ) -> Result<(), crate::ring::RingError> {
        let ends = [weld.first, weld.second];
        let edge = |piece: &ShellPiece, (plate, edge): (usize, usize)| {
            let face = piece.face_of(plate)?;
            Some((face, piece.edge_at(face, edge)?))
        };
        let (Some(mine), Some(its)) = (edge(piece, ends[own]), edge(other, ends[1 - own])) else {
            return Ok(());
        };
        let is_own = |side: SeamSide| usize::from(side == SeamSide::Second) == own;
        let inside_angle_rad = weld.inside_angle_rad;
        match style {
            SeamStyle::Lap { width_mm, carrier, outside } if is_own(carrier) => {
                let along = Along::of(&other.part, &other.frames[its.0], its);
                let lapped = Lapped { seam: &weld.name, width_mm, outside, inside_angle_rad };
                let (part, frames) = (&mut piece.part, &mut piece.frames);
                let face = lap::add(part, frames, (mine, along), &lapped, &mut None)?;
                piece.strips.push((ends[own], face));
            }
            SeamStyle::TabAndSlot { tab_mm, clearance_mm, count, tabs } => {
                let gap_mm = self.weld_gap_mm(weld);
                let made = Tabbed { seam: &weld.name, tab_mm, clearance_mm, count, inside_angle_rad, gap_mm };
                let my_ends = tabs::ends(&piece.part, &piece.frames, mine);
                let its_ends = tabs::ends(&other.part, &other.frames, its);
                let (half, ends) = if is_own(tabs) {
                    (Half::Tabs, [my_ends, its_ends])
                } else {
                    (Half::Slots, [its_ends, my_ends])
                };
                tabs::cut_half(&mut piece.part, &piece.frames, (mine, half), ends, &made)?;
            }
            SeamStyle::Open | SeamStyle::Butt { .. } | SeamStyle::Lap { .. } => {}
        }
        Ok(())
    }
}
