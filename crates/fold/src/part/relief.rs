//! Relief where two bends of a face meet.

use super::FoldedPart;

/// How bends that meet at a corner are relieved. All of them are about the crossing of the inside tangent lines, the
/// edges of the two bend zones on the face that both bends belong to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Relief {
    /// None: the cut edges of both flanges run straight to where the two bend lines cross. The metal between there and
    /// the crossing of the tangent lines is bent twice; it bulges or tears.
    None,
    /// Sawn notch: both bend zones are cut square where the inside tangent lines cross.
    Square,
    /// Drilled hole about that crossing.
    Round(HoleSize),
    /// Round-bottomed notch: a hole about that crossing, and two straight sides that touch it and run out across the
    /// bend zones to where the cut edges of the flanges begin, on the far tangent lines.
    TearDrop(HoleSize),
}

/// What the radius of a relief hole goes by; at every corner by the two bends that meet there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum HoleSize {
    /// As given.
    Given {
        /// Radius, mm.
        radius_mm: f64,
    },
    /// Diameter twice the larger inside radius of the two bends, and not under this.
    ///
    /// Source: FAA-H-8083-31, chapter 4, relief holes of a folded box.
    Handbook {
        /// Least diameter, mm.
        least_diameter_mm: f64,
    },
    /// Radius half the width of the wider of the two bend zones, so that the hole reaches both bend lines (common
    /// practice, no source).
    Zone,
}

impl FoldedPart {
    /// Radius of the relief hole where bends `pair` meet, mm; `None` for a relief without a hole.
    #[must_use]
    pub fn relief_radius_mm(&self, pair: [usize; 2]) -> Option<f64> {
        let (Relief::Round(size) | Relief::TearDrop(size)) = self.relief else { return None };
        let larger = |of: &dyn Fn(usize) -> f64| of(pair[0]).max(of(pair[1]));
        Some(match size {
            HoleSize::Given { radius_mm } => radius_mm,
            HoleSize::Handbook { least_diameter_mm } => {
                larger(&|bend| self.bends[bend].inside_radius_mm).max(0.5 * least_diameter_mm)
            }
            HoleSize::Zone => 0.5 * larger(&|bend| self.allowance_mm(bend)),
        })
    }
}
