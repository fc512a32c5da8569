//! The flat as a press sees it: every strike of a bumped face is a bend of its own, with flat lands between.

use geometry::{Point, tolerance};

use super::MOST_BENDS;
use crate::flat::{BendLine, FlatFace, FlatPattern};
use crate::part::Forming;

/// One strike of a bumped bend.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StrikeOf {
    /// The bend, by its number in the flat that is cut.
    pub bend: usize,
    /// Which strike, 1 the nearest to the parent.
    pub number: usize,
    /// Of how many.
    pub of: usize,
}

impl FlatPattern {
    /// Which strike of which bend of this flat is bend `number` of the same [`Self::struck`]; `None` for one that is not
    /// bumped in several.
    #[must_use]
    pub fn strike_of(&self, number: usize) -> Option<StrikeOf> {
        let mut next = self.bends.len();
        for (bend, line) in self.bends.iter().enumerate() {
            let Some(of) = strikes(line) else { continue };
            if number == bend {
                return Some(StrikeOf { bend, number: 1, of });
            }
            if (next..next + of - 1).contains(&number) {
                return Some(StrikeOf { bend, number: number - next + 2, of });
            }
            next += of - 1;
        }
        None
    }

    /// The same flat with every bend that is bumped in several strikes as so many bends, where their marks lie
    /// ([`BendLine::marks`]), and lands between them as faces; `None` where there is none, and where so many bends are more
    /// than an order is looked for. Faces and bends keep their numbers, the first strike that of its bend; further ones follow.
    ///
    /// Only machines go by it: a strike has the metal's own inside radius, and a zone as wide as the middle of the sheet is long
    /// in that, but at most half a pitch. Nothing is measured off it.
    #[must_use]
    pub fn struck(&self) -> Option<Self> {
        let more: usize = self.bends.iter().filter_map(strikes).map(|strikes| strikes - 1).sum();
        if more == 0 || MOST_BENDS < self.bends.len() + more {
            return None;
        }
        let mut struck = self.clone();
        for (number, bend) in self.bends.iter().enumerate() {
            if let Some(strikes) = strikes(bend) {
                struck.strike(number, bend, strikes);
            }
        }
        Some(struck)
    }

    /// Puts the strikes in the place of one bend.
    fn strike(&mut self, number: usize, bend: &BendLine, strikes: usize) {
        let marks = bend.marks(self.thickness_mm);
        let count = f64::from(u32::try_from(strikes).unwrap_or(u32::MAX));
        let (turn_rad, pitch_mm) = (bend.turn_rad / count, bend.zone_mm / count);
        let zone_mm = (turn_rad * (self.inside_radius_mm + 0.5 * self.thickness_mm)).min(0.5 * pitch_mm);
        let half = bend.across() * (0.5 * zone_mm);
        // The faces on both sides reach on to the first and the last strike.
        let flat_mm = 0.5 * (pitch_mm - zone_mm);
        self.faces[bend.parent].reach_on(bend, -0.5 * bend.zone_mm, flat_mm);
        self.faces[bend.child].reach_on(bend, 0.5 * bend.zone_mm, -flat_mm);
        let toward = self.faces[bend.child].name.clone();
        let first_land = self.faces.len();
        for (strike, pair) in marks.windows(2).enumerate() {
            let [(a, b), (c, d)] = [pair[0], pair[1]];
            self.faces.push(FlatFace {
                name: format!("land {} toward {toward}", strike + 1),
                placement: self.faces[bend.parent].placement,
                corners: vec![a + half, c - half, d - half, b + half],
            });
        }
        for (strike, (from, to)) in marks.iter().enumerate() {
            let parent = if strike == 0 { bend.parent } else { first_land + strike - 1 };
            let child = if strike + 1 == strikes { bend.child } else { first_land + strike };
            let line = BendLine {
                parent,
                child,
                from: *from,
                to: *to,
                turn_rad,
                zone_mm,
                inside_radius_mm: self.inside_radius_mm,
                own_radius: false,
                forming: Forming::Bumped(1),
                ..*bend
            };
            let zone = vec![*from - half, *from + half, *to + half, *to - half];
            if strike == 0 {
                self.bends[number] = line;
                self.zones[number] = zone;
            } else {
                self.bends.push(line);
                self.zones.push(zone);
            }
        }
    }
}

impl FlatFace {
    /// Moves the corners that lie on a line beside a bend, so far across from it, by `by_mm` across.
    fn reach_on(&mut self, bend: &BendLine, line_mm: f64, by_mm: f64) {
        let across = bend.across();
        let on_line = |p: &Point| ((*p - bend.from).dot(across) - line_mm).abs() <= tolerance::REFOLD_MM;
        for corner in self.corners.iter_mut().filter(|corner| on_line(corner)) {
            *corner = *corner + across * by_mm;
        }
    }
}

/// In how many strikes a bend is bumped, where these are several.
fn strikes(bend: &BendLine) -> Option<usize> {
    match bend.forming {
        Forming::Bumped(strikes) if 1 < strikes => usize::try_from(strikes).ok(),
        _ => None,
    }
}
