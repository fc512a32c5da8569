//! The part without thickness closes at every seam: what its paper model is worth.

#![allow(clippy::unwrap_used, reason = "a test may stop at a part that cannot be made")]

use fold::bend::Origin;
use fold::{BendNumber, thin};
use geometry::{Point, tolerance};
use proptest::prelude::*;
use shapes::tapered_lid::TaperedLid;
use shapes::{Figure, Making, ReliefStyle};
use stock::BendModel;
use units::{Length, LengthStyle};

fn making(seam_gap: f64) -> Making {
    let length = Length::from_millimetres;
    let number =
        BendNumber::new(length(3.0), length(3.0), BendModel::KFactor(0.42), Origin::General).unwrap();
    let style = LengthStyle::Millimetres { places: 1 };
    Making {
        number,
        relief: ReliefStyle::Square,
        corner: shapes::CornerStyle::Open,
        seam_gap: length(seam_gap),
        style,
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]
    #[test]
    fn tapered_lids_of_paper_close(
        crooked in prop::collection::vec(0.0..60.0_f64, 4),
        insets in prop::collection::vec(40.0..150.0_f64, 4),
        rise in 20.0..200.0_f64,
        skirt in 15.0..60.0_f64,
        gap in 0.0..2.0_f64,
    ) {
        let corners =
            [(0.0, 0.0), (800.0, crooked[0]), (790.0 - crooked[1], 640.0), (crooked[2], 620.0 - crooked[3])];
        let over = Figure::lettered(&corners.map(|(x, y)| Point::new(x, y))).unwrap();
        let length = Length::from_millimetres;
        let inset = insets.iter().map(|&mm| length(mm)).collect();
        let lid = TaperedLid {
            over,
            outset: length(20.0),
            rise: length(rise),
            inset,
            skirt: length(skirt),
            return_width: None,
        };
        let part = lid.shape(&making(gap)).unwrap().part;
        let pattern = thin::unfold(&part);
        prop_assert_eq!(pattern.seams.len(), part.seams.len());
        for seam in &pattern.seams {
            prop_assert!(seam.open_mm <= tolerance::REFOLD_MM, "{} gapes {} mm", seam.name, seam.open_mm);
        }
        // Folds run from corner to corner: the edges that meet at a seam start where the fold ends.
        for fold in &pattern.folds {
            let face = &pattern.faces[fold.child];
            prop_assert!(face.corners[0].distance(fold.ends[1]) <= tolerance::REFOLD_MM);
            prop_assert!(face.corners[1].distance(fold.ends[0]) <= tolerance::REFOLD_MM);
        }
    }
}
