//! Plain outlines read back as what was written.

use geometry::{Contour, Segment};
use paper::plain_outline::{OutlineError, PlainOutline, read, write};
use units::LengthUnit;

fn written(unit: LengthUnit, flat: &fold::FlatPattern) -> String {
    write(&PlainOutline {
        unit,
        job: "Oyster skiff",
        mark: "L1",
        metal: "skin: 5052-H32 .125",
        quantity: 2,
        face: "this face up",
        flat,
    })
}

/// Largest distance between points of the same place in two contours, mm.
fn apart(first: &Contour, second: &Contour) -> f64 {
    assert_eq!(first.segments.len(), second.segments.len());
    let pairs = first.segments.iter().zip(&second.segments);
    pairs
        .map(|pair| match pair {
            (Segment::Line { to }, Segment::Line { to: other }) => to.distance(*other),
            (
                Segment::Arc { to, centre, counter_clockwise },
                Segment::Arc { to: other, centre: other_centre, counter_clockwise: sense },
            ) => {
                assert_eq!(counter_clockwise, sense);
                to.distance(*other).max(centre.distance(*other_centre))
            }
            pair => panic!("{pair:?}"),
        })
        .fold(0.0, f64::max)
}

#[test]
fn every_flat_comes_back_within_the_last_decimal() {
    // Four decimals of a millimetre or an inch are off by half of the last one, on the slant by √2 of that.
    for (unit, slack) in [(LengthUnit::Millimetre, 0.000_071), (LengthUnit::Inch, 0.0018)] {
        for (mark, flat) in crate::common::all() {
            let back = read(&written(unit, &flat)).unwrap();
            assert!(apart(&flat.outline.outer, &back.outline.outer) < slack, "{mark}");
            assert_eq!(flat.outline.holes.len(), back.outline.holes.len());
            for (hole, other) in flat.outline.holes.iter().zip(&back.outline.holes) {
                assert!(apart(hole, other) < slack, "{mark}");
            }
            for (bend, other) in flat.bends.iter().zip(&back.bends) {
                assert_eq!(bend.direction, other.direction);
                assert!(bend.from.distance(other.from).max(bend.to.distance(other.to)) < slack);
                assert!((bend.turn_rad.to_degrees() - other.turn_degrees).abs() < 0.0001);
            }
            let (area, other) = (flat.outline.area_mm2(), back.outline.area_mm2());
            assert!((area - other).abs() / area < 0.0001, "{mark}: {area} {other}");
        }
    }
}

#[test]
fn free_text_survives_line_ends_and_backslashes() {
    let flat = crate::common::clip();
    let part = PlainOutline {
        unit: LengthUnit::Millimetre,
        job: "two\nlines \\ and\r more",
        mark: "# 1 end",
        metal: "",
        quantity: 1,
        face: "غطاء",
        flat: &flat,
    };
    let back = read(&write(&part)).unwrap();
    assert_eq!((back.job.as_str(), back.mark.as_str()), (part.job, part.mark));
    assert_eq!((back.metal.as_str(), back.face.as_str()), (part.metal, part.face));
}

#[test]
fn damaged_files_are_refused_with_the_line() {
    let good = written(LengthUnit::Millimetre, &crate::common::clip());
    let damage = |from: &str, to: &str| read(&good.replacen(from, to, 1)).unwrap_err();
    assert_eq!(damage("outline 1", "outline 7"), OutlineError::Version { found: "7".to_owned() });
    assert!(matches!(damage("units mm", "units cubit"), OutlineError::Unexpected { line: 2, .. }));
    assert!(matches!(damage("thickness 1", "thickness one 1"), OutlineError::NotANumber { line: 7, .. }));
    assert!(matches!(damage("start ", "start 9"), OutlineError::Open { .. }));
    assert!(matches!(damage("radius 5", "radius 6"), OutlineError::Arc { .. }));
    assert!(matches!(damage("\nend\n", "\n"), OutlineError::TooShort { expected: "end" }));
    assert!(matches!(read(""), Err(OutlineError::TooShort { .. })));
    assert!(matches!(read(&(good.clone() + "more\n")), Err(OutlineError::Unexpected { .. })));
    assert!(read(&(good + "# a remark\n")).is_ok());
}
