//! Every tolerance of the project: a length with a reason, and nowhere else.

/// Two computed points closer than this (mm) are one point.
///
/// Reason: arithmetic. Sizes reach some 10 m and `f64` keeps about 16 digits, so honest rounding stays
/// far below a millionth of a millimetre; nothing a tape or caliper reads comes near it.
pub const SAME_POINT_MM: f64 = 1e-6;

/// Share by which the squares of two lengths may differ and the longer still come out as the shorter, or as long.
///
/// Reason: arithmetic. Two products, a sum and a root are each right to a part in 10^16; this is some thousand times that.
pub const SQUARE_ROUNDING: f64 = 1e-12;

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

/// A part that lacks no more than this (mm) to its place still fits.
///
/// Reason: shop. The same as [`REFOLD_MM`]: a part made exactly to its opening less the clearance must not fail by
/// rounding, and no saw or file works to a fiftieth of a millimetre.
pub const FIT_MM: f64 = REFOLD_MM;

/// How deep (mm) the round of a bend may lie in other metal of the refolded part before the part is refused.
///
/// Reason: shop. Half a scribed line ([`SCRIBED_LINE_MM`]) is what cutting by hand can tell; as much again stands for zones
/// that are cut straight, by what is found at a few lines across them. A file takes off more in a stroke.
pub const ROUND_MM: f64 = SCRIBED_LINE_MM;

/// One step (mm) of the integer grid on which parts are placed and every nest is checked.
///
/// Reason: arithmetic. An eighth of a micrometre: 1/64 in is 3,175 steps and .001 mm is 8, so that sizes of the tape come to
/// whole steps and pieces that fill a sheet to the last 64th are not refused by rounding; a 3 m sheet is 24 million steps, so
/// exact sums stay small.
pub const GRID_STEP_MM: f64 = 0.000_125;

/// Steps of the grid by which a slanted edge is moved away from the metal before its ends are rounded.
///
/// Reason: arithmetic. Rounding moves an end by at most √(1² + ½²) steps, joining edges by about one more; three
/// steps outweigh both and are a three-hundredth of a millimetre at the most.
pub const OUTWARD_STEPS: f64 = 3.0;

/// Share of a sheet's area by which its skeleton, measured as what is left of the sheet, may differ from what the
/// scrap report leaves over. Arcs that were measured as chords may add [`ARC_CHORD_MM`] times their length.
///
/// Reason: drawing. A ten-thousandth of a 48 × 96 sheet is a patch of 17 mm square. Outlines rounded outward to
/// the grid along 60 m of cut come to some 200 mm², under it; a part that was counted twice is far over it.
pub const SKELETON_SHARE: f64 = 1e-4;

/// Area (mm²) by which parts, kept drops, kerf and trim together may pass the sheet they fill completely.
///
/// Reason: arithmetic. The area of a 10 m outline is computed to far better than this; a hundredth of a square
/// millimetre weighs less than a tenth of a milligram.
pub const AREA_ROUNDING_MM2: f64 = 0.01;

/// Places on a drawing no farther apart than this (mm) share one running dimension.
///
/// Reason: shop. A scribed line is some 0.2 mm wide and a pencil line wider; two lines half of that apart cannot be
/// laid out side by side, and a hundred such numbers hide the ones that matter. Files for machines are not rounded.
pub const SCRIBED_LINE_MM: f64 = 0.1;

/// A jog in an outline that is shorter, mm (1/64 in), is not marked on a drawing: its two corners are one.
///
/// Shop limit: nobody saws or shears a step so small by hand, and two scribed lines so near are one (common practice, no
/// source).
pub const SAWN_JOG_MM: f64 = 25.4 / 64.0;

/// Sine below which two bend lines of a flat run the same way for the hands that turn the part at the brake.
///
/// Reason: shop. Over a metre this is a tenth of a millimetre, [`SCRIBED_LINE_MM`].
pub const SAME_HEADING_SINE: f64 = 1e-4;

/// How far (mm) a curve may stand off the straights between the points it is laid out through.
///
/// Reason: shop. A batten sprung through the points fairs it; half a millimetre is two scribed lines, and the outline for
/// machines keeps [`ARC_CHORD_MM`].
pub const BATTEN_MM: f64 = 0.5;

/// Corners of facets closer than this (mm) are one corner when a folded part is drawn.
///
/// Reason: drawing. Polygon booleans snap to a grid some millionths of the part's size wide; a micrometre is above
/// that and far below the finest line. Nothing is cut or bent by such corners.
pub const DRAWN_POINT_MM: f64 = 1e-3;

/// An edge is hidden by a facet that stands at least this much (mm) nearer to the eye.
///
/// Reason: drawing. Twice [`REFOLD_MM`], by which plates that touch may run into one another, and far less than the
/// thinnest sheet, which must hide what lies behind it.
pub const HIDDEN_DEPTH_MM: f64 = 2.0 * REFOLD_MM;

/// Cosine between a facet's normal and the line of sight below which the facet is seen on edge and hides nothing.
///
/// Reason: arithmetic. Depth over such a facet changes ten thousand times as fast as place, so that
/// [`DRAWN_POINT_MM`] would become a centimetre.
pub const EDGE_ON_COSINE: f64 = 1e-4;

/// How far beyond an edge (mm) a drawing looks for what lies behind it, to tell the outline from inner edges.
///
/// Reason: drawing. Ten times [`DRAWN_POINT_MM`], a tenth of the finest gap that can be drawn.
pub const OUTLINE_STEP_MM: f64 = 0.01;

/// How near to a tangent line a bend zone is cut through, as a share of the zone.
///
/// Reason: arithmetic. On the line itself a section may fall to the face beside the zone; a zone of 100 mm is cut a ten-millionth of
/// a millimetre from it.
pub const ZONE_END_SHARE: f64 = 1e-9;

/// A column of a linear program enters when it saves at least this share of the top price.
///
/// Reason: arithmetic. Sums of some hundred products near 1 are good to about a tenth of this.
pub const EXCHANGE_GAIN_SHARE: f64 = 1e-9;

/// A new filling of a stick must beat its price by this share of the top price to be added to a linear program.
///
/// Reason: arithmetic. Twice [`EXCHANGE_GAIN_SHARE`], so that a column already there is not found again.
pub const FILLING_GAIN_SHARE: f64 = 2e-9;

/// Whole-number weights are taken this share below the worth they come from.
///
/// Reason: arithmetic. Ten times [`FILLING_GAIN_SHARE`]: the weights then pass their exact check. Proofs never
/// rest on it; weights that do not pass are not used.
pub const WEIGHT_MARGIN_SHARE: f64 = 2e-8;

/// Smallest entry on which a linear program exchanges columns.
///
/// Reason: arithmetic. Dividing by less would multiply rounding beyond use.
pub const PIVOT_ENTRY: f64 = 1e-8;

/// Entries of an inverse smaller than this are rounding.
///
/// Reason: arithmetic. Some hundred times the spacing of numbers near 1.
pub const INVERSE_ROUNDING: f64 = 1e-13;

/// Demands of a linear program are spread by about this many pieces, so that ties are rare.
///
/// Reason: arithmetic. Above rounding, and far below [`FRACTION_OF_STICK`] even when hundreds add up.
pub const TIE_SPREAD_PIECES: f64 = 1e-7;

/// Demands are spread by about this many pieces to look for another solution of nearly the same cost.
///
/// Reason: search. Hundreds of pieces then shift the cost by less than a stick.
pub const OTHER_CORNER_PIECES: f64 = 1e-3;

/// A number of sticks this near to whole counts as whole.
///
/// Reason: arithmetic. Far above what [`TIE_SPREAD_PIECES`] shifts; true fractions are ratios of small numbers.
pub const FRACTION_OF_STICK: f64 = 1e-4;

/// Deductions of two test strips no farther apart than this (mm) agree.
///
/// Reason: shop. A strip takes three readings, strip and two legs; the six of two strips, each good to half a division
/// of a caliper that reads twentieths of a millimetre, explain this much at worst.
pub const STRIPS_AGREE_MM: f64 = 0.15;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tolerances_keep_their_order() {
        let ladder = [SAME_POINT_MM, REFOLD_MM, ARC_CHORD_MM, SCRIBED_LINE_MM, BATTEN_MM];
        assert!(ladder.windows(2).all(|pair| pair[0] < pair[1]));
    }
}
