//! Free cutting: all largest free rectangles, which may overlap.
//!
//! Source: empty maximal spaces, Lai, Chan, *Computers & Industrial Engineering* 32 (1997) (from memory).

use crate::rect::ground::{Ground, Rule, Spot, Upright};

/// The largest free rectangles of a sheet.
#[derive(Debug, Clone)]
pub(crate) struct Spaces {
    free: Vec<Upright>,
}

impl Spaces {
    pub(crate) fn new(length: i64, width: i64) -> Self {
        Self { free: vec![Upright { x: 0, y: 0, length, width }] }
    }
}

impl Ground for Spaces {
    fn spot(&self, length: i64, width: i64, rule: Rule) -> Option<Spot> {
        let fits = |(_, free): &(usize, &Upright)| length <= free.length && width <= free.width;
        let spot = |(area, free): (usize, &Upright)| Spot {
            score: rule.score(free, length, width),
            x: free.x,
            y: free.y,
            area,
            way: 0,
        };
        self.free.iter().enumerate().filter(fits).map(spot).min()
    }

    fn take(&mut self, spot: Spot, length: i64, width: i64) {
        let (left, low, right, high) = (spot.x, spot.y, spot.x + length, spot.y + width);
        let mut pieces = Vec::with_capacity(8);
        self.free.retain(|free| {
            let (end_x, end_y) = (free.x + free.length, free.y + free.width);
            if right <= free.x || end_x <= left || high <= free.y || end_y <= low {
                return true;
            }
            if free.x < left {
                pieces.push(Upright { length: left - free.x, ..*free });
            }
            if right < end_x {
                pieces.push(Upright { x: right, length: end_x - right, ..*free });
            }
            if free.y < low {
                pieces.push(Upright { width: low - free.y, ..*free });
            }
            if high < end_y {
                pieces.push(Upright { y: high, width: end_y - high, ..*free });
            }
            false
        });
        let kept = self.free.len();
        for (at, piece) in pieces.iter().enumerate() {
            let hidden = self.free[..kept].iter().any(|other| holds(other, piece))
                || pieces.iter().enumerate().any(|(number, other)| {
                    number != at && holds(other, piece) && (number < at || !holds(piece, other))
                });
            if !hidden {
                self.free.push(*piece);
            }
        }
    }
}

/// True when `outer` covers `inner`.
const fn holds(outer: &Upright, inner: &Upright) -> bool {
    outer.x <= inner.x
        && outer.y <= inner.y
        && inner.x + inner.length <= outer.x + outer.length
        && inner.y + inner.width <= outer.y + outer.width
}
