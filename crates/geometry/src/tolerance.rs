//! Every tolerance of the project: a length with a reason, and nowhere else.

/// Two computed points closer than this (mm) are one point.
///
/// Reason: arithmetic. Sizes reach some 10 m and `f64` keeps about 16 digits, so honest rounding stays
/// far below a millionth of a millimetre; nothing a tape or caliper reads comes near it.
pub const SAME_POINT_MM: f64 = 1e-6;

/// Sine below which two directions count as parallel.
///
/// Reason: arithmetic. Over a 10 m edge this is a ten-thousandth of a millimetre.
pub const PARALLEL_SINE: f64 = 1e-8;

/// Largest distance (mm) between an arc and the chords that stand in for it when an outline is made of straight
/// pieces for nesting.
///
/// Reason: shop. Half a tenth is a tenth of the thinnest kerf, and chords are always laid on the safe side.
pub const ARC_CHORD_MM: f64 = 0.05;

/// Worst deviation (mm) between a refolded part and its design before the program refuses to print.
///
/// Reason: the flat is computed, not measured; anything above a fiftieth of a millimetre is a fault in the sums,
/// far below what a brake can hold.
pub const REFOLD_MM: f64 = 0.02;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tolerances_keep_their_order() {
        let ladder = [SAME_POINT_MM, REFOLD_MM, ARC_CHORD_MM];
        assert!(ladder.windows(2).all(|pair| pair[0] < pair[1]));
    }
}
