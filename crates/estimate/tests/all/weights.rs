//! Weights of parts.

use estimate::{PartToWeigh, take_off};
use units::{Length, MassPerArea, MassUnit};

#[test]
fn parts_are_weighed_by_their_flats() {
    let part = |mark: &str, metal: &str, width: f64, length: f64, weight: &str, quantity| PartToWeigh {
        mark: mark.to_owned(),
        metal: metal.to_owned(),
        area: Length::from_inches(width) * Length::from_inches(length),
        weight_per_area: MassPerArea::read(weight).unwrap(),
        quantity,
    };
    let sum = take_off(&[
        // By hand: a litter-locker lid blank of 81.504 × 29.504 less four corners of 1.752 square is 2392.42 in2,
        // 16.614 ft2; at 1.95 lb/ft2 that is 32.397 lb. Here the whole rectangle: 2404.694 in2, 32.564 lb.
        part("L", "tread", 81.504, 29.504, "1.95 lb/ft2", 1),
        // 12 × 12 in of 1.742 lb/ft2 is 1.742 lb, five of them 8.710 lb.
        part("P", "skin", 12.0, 12.0, "1.742 lb/ft2", 5),
        part("Q", "skin", 24.0, 12.0, "1.742 lb/ft2", 1),
    ]);
    let pounds = |mass: units::Mass| mass.print(MassUnit::Pound, 3);
    assert_eq!(pounds(sum.parts[0].each), "32.564");
    assert_eq!(pounds(sum.parts[1].mass), "8.710");
    assert_eq!(sum.parts[1].mass, sum.parts[1].each * 5);
    let metals: Vec<&str> = sum.metals.iter().map(|metal| metal.metal.as_str()).collect();
    assert_eq!(metals, ["tread", "skin"]);
    assert_eq!((pounds(sum.metals[1].mass).as_str(), sum.metals[1].quantity), ("12.194", 6));
    assert_eq!(sum.mass, sum.metals[0].mass + sum.metals[1].mass);
    assert_eq!(sum.area, sum.metals[0].area + sum.metals[1].area);
}
