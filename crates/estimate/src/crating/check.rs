//! What no crate takes, and a second look at what was packed.

use units::{Length, Mass};

use super::{Crate, CrateLimits, FlatToSend, Packed};

/// Why flats cannot be sent so.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum CratingFault {
    /// A flat is larger than the crate, either way round.
    #[error("{mark} of {size:?} is larger than the {room:?} that a crate has")]
    TooLarge {
        /// Its mark.
        mark: String,
        /// Its sizes.
        size: [Length; 2],
        /// Length and width inside, less what is kept clear.
        room: [Length; 2],
    },
    /// A flat is too thick for the crate's height with its packing.
    #[error("{mark} is thicker than the crate is high")]
    TooThick {
        /// Its mark.
        mark: String,
        /// Height inside, less the packing.
        room: Length,
    },
    /// A flat weighs more than a crate may.
    #[error("{mark} makes a crate of {gross:?}")]
    TooHeavy {
        /// Its mark.
        mark: String,
        /// A crate with nothing else in it.
        gross: Mass,
    },
    /// More crates than may be sent.
    #[error("{needed} crates are needed")]
    TooManyCrates {
        /// How many.
        needed: usize,
    },
    /// What was packed fails its check.
    #[error("the packed crates fail their check: {0}")]
    Unsound(String),
}

/// Every mark that no crate takes, each once.
pub(super) fn flats(flats: &[FlatToSend], limits: &CrateLimits) -> Vec<CratingFault> {
    let clear = limits.clear + limits.clear;
    let room = [limits.inside[0] - clear, limits.inside[1] - clear];
    let height = limits.inside[2] - limits.between - limits.between;
    let mut found = Vec::new();
    for flat in flats.iter().filter(|flat| flat.copy == 1) {
        let fits = |turned: bool| {
            let [a, b] = flat.laid(turned);
            a <= room[0] && b <= room[1]
        };
        let gross = limits.empty + limits.packing(1) + flat.weight;
        let mark = flat.mark.clone();
        if !fits(false) && !fits(true) {
            found.push(CratingFault::TooLarge { mark, size: flat.size, room });
        } else if height < flat.thickness {
            found.push(CratingFault::TooThick { mark, room: height });
        } else if limits.heaviest < gross {
            found.push(CratingFault::TooHeavy { mark, gross });
        }
    }
    found
}

/// Every flat once, inside, clear of walls and of one another, hands apart, nothing too high, too heavy or too many.
pub(super) fn crates(
    crates: &[Crate],
    flats: &[FlatToSend],
    limits: &CrateLimits,
) -> Result<(), Vec<CratingFault>> {
    let unsound = |words: String| Err(vec![CratingFault::Unsound(words)]);
    let mut seen = vec![0_u32; flats.len()];
    for (number, packed) in crates.iter().enumerate() {
        let all = packed.layers.iter().flat_map(|layer| &layer.flats);
        let weight: Mass = all.clone().map(|laid| flats[laid.flat].weight).sum();
        all.for_each(|laid| seen[laid.flat] += 1);
        if weight != packed.flats || limits.heaviest < limits.gross(packed) {
            return unsound(format!("weight of crate {}", number + 1));
        }
        if limits.inside[2] < limits.height(&packed.layers) {
            return unsound(format!("height of crate {}", number + 1));
        }
        for (layer, lying) in packed.layers.iter().enumerate() {
            if let Some(words) = layer_fault(&lying.flats, flats, limits) {
                return unsound(format!("crate {}, layer {}: {words}", number + 1, layer + 1));
            }
            if lying.flats.iter().any(|laid| lying.thickness < flats[laid.flat].thickness) {
                return unsound(format!("thickness of layer {} of crate {}", layer + 1, number + 1));
            }
        }
    }
    if let Some(flat) = seen.iter().position(|count| *count != 1) {
        return unsound(format!("{} is packed {} times", flats[flat].mark, seen[flat]));
    }
    if limits.most.is_some_and(|most| (most as usize) < crates.len()) {
        return Err(vec![CratingFault::TooManyCrates { needed: crates.len() }]);
    }
    Ok(())
}

fn layer_fault(lying: &[Packed], flats: &[FlatToSend], limits: &CrateLimits) -> Option<String> {
    let clear = limits.clear;
    for (number, one) in lying.iter().enumerate() {
        let (piece, size) = (&flats[one.flat], flats[one.flat].laid(one.turned));
        let inside =
            |axis: usize| clear <= one.at[axis] && one.at[axis] + size[axis] + clear <= limits.inside[axis];
        if !(inside(0) && inside(1)) {
            return Some(format!("{} leaves the crate", piece.mark));
        }
        for other in &lying[number + 1..] {
            let (second, reach) = (&flats[other.flat], flats[other.flat].laid(other.turned));
            let apart = |axis: usize| {
                one.at[axis] + size[axis] + clear <= other.at[axis]
                    || other.at[axis] + reach[axis] + clear <= one.at[axis]
            };
            if !(apart(0) || apart(1)) {
                return Some(format!("{} lies on {}", piece.mark, second.mark));
            }
            if piece.opposite_hand.as_ref() == Some(&second.mark) {
                return Some(format!("{} lies with {}", piece.mark, second.mark));
            }
        }
    }
    None
}
