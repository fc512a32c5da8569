//! Growing pieces to what they hinder anyway.

use crate::rect::bound::Block;

/// The finest sheet that sums are listed for.
const FINEST: i64 = 1 << 16;

/// Grows blocks, one after another, as long as any grows. Blocks that may be turned stay, and their sizes either way
/// count among the sums.
pub(crate) fn grown(mut blocks: Vec<Block>, sheet: (i64, i64)) -> Vec<Block> {
    if FINEST < sheet.0.max(sheet.1) {
        return blocks;
    }
    // Every kind of block is taken apart into single ones first: each grows on its own.
    blocks = blocks
        .into_iter()
        .flat_map(|block| (0..block.quantity).map(move |_| Block { quantity: 1, ..block.clone() }))
        .collect();
    blocks.sort_by_key(|block| std::cmp::Reverse(block.sizes.iter().map(|(l, w)| l * w).max()));
    if blocks.len() <= 200 {
        for at in 0..blocks.len() {
            if let [(length, width)] = blocks[at].sizes[..] {
                let length = length + unfilled(&blocks, at, sheet, |size| *size);
                blocks[at].sizes = vec![(length, width)];
                let width = width + unfilled(&blocks, at, sheet, |&(l, w)| (w, l));
                blocks[at].sizes = vec![(length, width)];
            }
        }
    }
    blocks
}

/// What no row through block `at` ever fills of the sheet's first side.
fn unfilled(blocks: &[Block], at: usize, sheet: (i64, i64), turn: fn(&(i64, i64)) -> (i64, i64)) -> i64 {
    let (length, _) = turn(&sheet);
    let (own, _) = turn(&blocks[at].sizes[0]);
    let Ok(room) = usize::try_from(length - own) else { return 0 };
    let mut reached = vec![false; room + 1];
    reached[0] = true;
    for (_, other) in blocks.iter().enumerate().filter(|&(number, _)| number != at) {
        // A block is used once, one way or the other.
        let before = reached.clone();
        for size in &other.sizes {
            let Ok(size) = usize::try_from(turn(size).0) else { continue };
            for sum in size..=room {
                reached[sum] |= before[sum - size];
            }
        }
    }
    let fullest = (0..=room).rev().find(|&sum| reached[sum]).unwrap_or(0);
    i64::try_from(room - fullest).unwrap_or(0)
}
