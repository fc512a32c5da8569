//! A picture of a nested strip.

use std::fmt::Write as _;

use geometry::grid::{GridOutline, GridPoint};
use nest::{Part, Placement, RollNest};

use crate::row::Row;

/// Longest side of the drawing, in pixels.
const LONGEST: f64 = 1000.0;

/// Room around the strip, and below it for the words, in pixels.
const MARGIN: f64 = 12.0;
const WORDS: f64 = 30.0;

/// The strip, its pieces and what came out, as SVG, with `steps` to a unit of the file. Parts of one outline share a
/// tint.
pub(crate) fn drawn(parts: &[Part], width: i64, nest: &RollNest, row: &Row, steps: f64) -> String {
    let (length, width) = (number(nest.used_length), number(width));
    let scale = LONGEST / length.max(width);
    let place = |p: &GridPoint| (MARGIN + scale * number(p.x), MARGIN + scale * (width - number(p.y)));
    let (right, below) = (2.0 * MARGIN + scale * length, 2.0 * MARGIN + scale * width + WORDS);
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {right:.1} {below:.1}\" \
         font-family=\"sans-serif\" font-size=\"16\">\n<rect width=\"100%\" height=\"100%\" fill=\"white\"/>\n"
    );
    let outline =
        |placed: &Placement| parts[placed.part].outline.turned(placed.pose.turn).shifted(placed.shift);
    for placed in &nest.placements {
        let _ = writeln!(svg, "{}", piece(&outline(placed), placed.part, place));
    }
    let _ = writeln!(
        svg,
        "<rect x=\"{MARGIN}\" y=\"{MARGIN}\" width=\"{:.2}\" height=\"{:.2}\" fill=\"none\" stroke=\"black\"/>",
        scale * length,
        scale * width
    );
    let _ = writeln!(
        svg,
        "<text x=\"{MARGIN}\" y=\"{:.1}\">{}: {} pieces fill {:.2} % of a strip {:.3} long</text>\n</svg>",
        below - MARGIN,
        row.name,
        nest.placements.len(),
        row.density_pct,
        length / steps
    );
    svg
}

fn piece(outline: &GridOutline, part: usize, place: impl Fn(&GridPoint) -> (f64, f64)) -> String {
    let mut path = String::new();
    for ring in outline.rings() {
        for (index, corner) in ring.iter().enumerate() {
            let (x, y) = place(corner);
            let _ = write!(path, "{}{x:.2} {y:.2}", if index == 0 { "M" } else { "L" });
        }
        path.push('Z');
    }
    // Neighbouring parts get hues far apart.
    let hue = 137 * part % 360;
    format!(
        "<path d=\"{path}\" fill=\"hsl({hue},45%,78%)\" fill-rule=\"evenodd\" stroke=\"black\" stroke-width=\"0.7\"/>"
    )
}

#[expect(clippy::cast_precision_loss, reason = "grid numbers are exact in f64")]
fn number(steps: i64) -> f64 {
    steps as f64
}
