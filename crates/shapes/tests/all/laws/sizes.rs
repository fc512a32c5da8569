//! Blanks by their own sums, and lids that a shop makes every week.

use fold::BendNumber;
use fold::bend::Origin;
use geometry::tolerance;
use proptest::prelude::*;
use shapes::pan::{Pan, PanPlan, Rim};
use shapes::tapered_lid::TaperedLid;
use shapes::{Making, ReliefHole, ReliefStyle};
use stock::BendModel;
use units::{Length, LengthStyle};

use super::random::{crooked_openings, makings, rims};
use crate::common::inches;
use crate::common::sixteenths;

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    // Source: the deduction formula; legs run mold line to mold line, so an outward rim's leg starts at the inside
    // of the wall, a thickness in.
    #[test]
    fn the_blank_of_a_plumb_pan_is_its_legs_less_its_deductions(
        making in makings(),
        length in sixteenths(160..600),
        width in sixteenths(160..500),
        height in sixteenths(32..120),
        rim in rims(),
    ) {
        let pan = Pan { plan: PanPlan::Outside { length, width }, height, rims: vec![rim], lean: Vec::new(), edge: shapes::edge::EdgeEnd::Plain };
        let Ok(shaped) = pan.shape(&making) else { return Err(TestCaseError::reject("refused")) };
        let Ok(flat) = shaped.unfold() else { return Err(TestCaseError::reject("not of one piece")) };
        let (thickness, radius) = (making.thickness_mm(), making.number.inside_radius().millimetres());
        let BendModel::KFactor(k) = making.number.model() else { panic!("by K-factor") };
        let deduction = 2.0 * (radius + thickness) - std::f64::consts::FRAC_PI_2 * (radius + k * thickness);
        let added = match rim {
            Rim::None => 0.0,
            Rim::Out(width) => width.millimetres() + thickness - deduction,
            Rim::In(width) => width.millimetres() - deduction,
        };
        let (found_length, found_width) = flat.extents_mm();
        for (found, floor) in [(found_length, length), (found_width, width)] {
            let expected = floor.millimetres() + 2.0 * (height.millimetres() - deduction + added);
            prop_assert!((found - expected).abs() < tolerance::SAME_POINT_MM, "{found} for {expected}");
        }
    }

    // What a shop makes every week: no inset more than twice another, no radius above twice the thickness.
    #[test]
    fn an_ordinary_hatch_lid_is_never_refused(
        thickness in prop::sample::select(vec![".063", ".080", ".090", ".125", ".1875"]),
        double in prop::bool::ANY,
        drilled in prop::bool::ANY,
        over in crooked_openings(),
        rise in sixteenths(8..48),
        inset in prop::collection::vec(sixteenths(24..48), 4),
        skirt in sixteenths(16..48),
    ) {
        let thickness = inches(thickness);
        let (radius, model) = (thickness * if double { 2 } else { 1 }, BendModel::KFactor(0.42));
        let making = Making {
            number: BendNumber::new(thickness, radius, model, Origin::Job).unwrap(),
            relief: if drilled { ReliefStyle::Round { hole: ReliefHole::Handbook } } else { ReliefStyle::Square },
            corner: shapes::CornerStyle::Open,
            seam_gap: Length::ZERO,
            style: LengthStyle::Inches { places: 3 },
        };
        let lid = TaperedLid { over, outset: inches("7/8"), rise, inset, skirt, return_width: None };
        let flat = lid.shape(&making).unwrap().unfold();
        prop_assert!(flat.is_ok(), "{flat:?}");
    }
}
