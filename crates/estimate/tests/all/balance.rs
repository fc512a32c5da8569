//! Lids, struts, stations and hand lifts: identities of statics, and sums done by hand.

#![expect(clippy::unwrap_used, reason = "a test that cannot go on stops there")]

use estimate::{
    GasStrut, Grip, HandLift, HungLoad, Lid, LiftFault, Loading, StationLoad, StrutFault, StrutMounts,
    Support, SupportsFault, gas_share,
};
use proptest::prelude::*;
use units::{Angle, Force, Length, Mass, MassUnit, Temperature, TorqueUnit};

fn inches(value: f64) -> Length {
    Length::from_inches(value)
}

fn degrees(value: f64) -> Angle {
    Angle::from_degrees(value)
}

fn load(pounds: f64, out: f64, up: f64) -> HungLoad {
    HungLoad { what: "load".to_owned(), mass: Mass::from_pounds(pounds), out: inches(out), up: inches(up) }
}

/// A lid of 40 lb at 12 in with two struts.
fn worked() -> (Lid, StrutMounts) {
    let mounts = StrutMounts {
        count: 2,
        fixed: [inches(3.0), inches(-7.0)],
        on_lid: [inches(9.0), inches(0.0)],
        opens: degrees(80.0),
    };
    (Lid { loads: vec![load(40.0, 12.0, 0.0)] }, mounts)
}

fn strut(force: &str, ratio: f64) -> GasStrut {
    let (compressed, extended) = (inches(9.0), inches(16.5));
    GasStrut { force: Force::read(force).unwrap(), ratio, compressed, extended }
}

/// Worked by hand from M = W·d·cos θ, L = |AB| and r = (xa·yb − ya·xb)/L with A (3, −7), B 9 in from the pin; no
/// published table.
#[test]
fn the_swing_is_the_sum_done_by_hand() {
    let (lid, mounts) = worked();
    let rows = [
        (0.0, 9.22, 6.83, 480.0, 35.1),
        (15.0, 10.93, 6.21, 463.6, 37.3),
        (30.0, 12.46, 5.46, 415.7, 38.0),
        (45.0, 13.78, 4.62, 339.4, 36.7),
        (60.0, 14.87, 3.69, 240.0, 32.5),
        (80.0, 15.93, 2.36, 83.4, 17.7),
    ];
    let table = mounts.table(&lid);
    for (angle, length, arm, moment, force) in rows {
        let step = table.iter().find(|step| (step.angle.degrees() - angle).abs() < 0.001).unwrap();
        assert!((step.place.length_mm / 25.4 - length).abs() < 0.006, "{step:?}");
        assert!((step.place.arm_mm / 25.4 - arm).abs() < 0.006, "{step:?}");
        assert!((step.lid.number(TorqueUnit::InchPound) - moment).abs() < 0.06, "{step:?}");
        assert!((step.needed.unwrap().pounds_force() - force).abs() < 0.06, "{step:?}");
    }
    assert_eq!(table.len(), 7);
    let hardest = mounts.hardest(&lid).unwrap().needed.unwrap().pounds_force();
    assert!((38.0..38.2).contains(&hardest), "{hardest}");
}

/// `OpenStax`, University Physics, volume 1, example 12.4 (from memory): a weight of 50 lb at 13 in from the elbow is held
/// by a pull of 433 1/3 lb straight up at 1 1/2 in from it, and by the same with the forearm at any other angle, since both
/// arms shrink alike. A strut that stands straight up under the lid pushes in the same line.
#[test]
fn the_forearm_of_the_textbook_holds_its_weight() {
    let lid = Lid { loads: vec![load(50.0, 13.0, 0.0)] };
    for opened in [0.0, 30.0, 60.0] {
        let open = degrees(opened);
        let arm = geometry::Vector { x: 1.5, y: 0.0 }.turned(open.radians()).x;
        let mounts = StrutMounts {
            count: 1,
            fixed: [inches(arm), inches(-11.0)],
            on_lid: [inches(1.5), inches(0.0)],
            opens: degrees(60.0),
        };
        let step = mounts
            .table(&lid)
            .into_iter()
            .find(|step| (step.angle.degrees() - opened).abs() < 0.001)
            .unwrap();
        assert!((step.needed.unwrap().pounds_force() - 433.333).abs() < 0.01, "{step:?}");
        assert!((step.place.arm_mm / 25.4 - arm).abs() < 0.000_1, "{step:?}");
    }
}

/// The moment balance about a pin with one two-force member, as statics texts work it; no text's own numbers: a door of 60 lb, its centre and
/// the strut's end 48 from the hinge, the strut's foot 36 below the hinge. Level, a 3-4-5 triangle: 60 long, its arm 36 × 48 / 60 = 28.8, so
/// 60 × 48 = F × 28.8 and F is 100. Opened by the angle of the same triangle, the end lies at (38.4, 28.8): 36 × 38.4 = 1382.4 over the length
/// √(38.4² + 64.8²) = 75.32 is an arm of 18.353, and 60 × 38.4 = F × 18.353 makes 125.54.
#[test]
fn a_door_on_a_strut_balances_as_statics_texts_work_it() {
    let lid = Lid { loads: vec![load(60.0, 48.0, 0.0)] };
    let mounts = StrutMounts {
        count: 1,
        fixed: [inches(0.0), inches(-36.0)],
        on_lid: [inches(48.0), inches(0.0)],
        // The angle of 3 up and 4 along.
        opens: degrees(36.869_897_645_8),
    };
    let table = mounts.table(&lid);
    for (step, length, arm, force) in
        [(&table[0], 60.0, 28.8, 100.0), (&table[table.len() - 1], 75.323, 18.353, 125.54)]
    {
        assert!((step.place.length_mm / 25.4 - length).abs() < 0.001, "{step:?}");
        assert!((step.place.arm_mm / 25.4 - arm).abs() < 0.001, "{step:?}");
        assert!((step.needed.unwrap().pounds_force() - force).abs() < 0.01, "{step:?}");
    }
}

/// `OpenStax`, University Physics, volume 1, example 12.3 (from memory): on a stick of 150 g that rests on an edge, 50 g hang
/// at 70 cm and 75 g at 40 cm on the side where its middle lies at 20 cm; 316.7 g at 30 cm on the other side balance them.
#[test]
fn the_stick_of_the_textbook_balances() {
    let hung = |grams: f64, centimetres: f64| HungLoad {
        what: "load".to_owned(),
        mass: Mass::from_kilograms(grams / 1000.0),
        out: Length::from_millimetres(10.0 * centimetres),
        up: Length::ZERO,
    };
    let mut stick = Lid { loads: vec![hung(50.0, 70.0), hung(75.0, 40.0), hung(150.0, 20.0)] };
    let closes = stick.moment(degrees(0.0)).newton_millimetres();
    let weight = 9.80665 * 0.3167;
    assert!((closes / weight / 10.0 - 30.0).abs() < 0.005, "{closes}");
    stick.loads.push(hung(316.7, -30.0));
    assert!(stick.moment(degrees(0.0)).newton_millimetres().abs() < 0.001 * closes);
}

/// Own sum on invented weights: (32.4 + 4.6) × 13 = 481, and upright −32.4 × 1.8 = −58.32; at the handle 481 / 26 = 18.5.
#[test]
fn a_lid_of_37_pounds_at_13_inches_closes_with_481_inch_pounds() {
    let lid = Lid { loads: vec![load(32.4, 13.0, 1.8), load(4.6, 13.0, 0.0)] };
    assert_eq!(lid.moment(degrees(0.0)).print(TorqueUnit::InchPound, 1), "481.0");
    assert!((lid.centre().unwrap().x - 330.2).abs() < 0.001);
    // Standing upright, what lies above the pin when closed hangs behind it: −32.4 × 1.8.
    assert_eq!(lid.moment(degrees(90.0)).print(TorqueUnit::InchPound, 1), "-58.3");
    let handle = lid.force_at_handle(inches(26.0)).unwrap().pounds_force();
    assert!((handle - 18.5).abs() < 0.001, "half the weight at twice the arm: {handle}");
    assert_eq!(lid.force_at_handle(Length::ZERO), None);
}

/// Gas at constant volume: pressure goes with absolute temperature (Gay-Lussac).
#[test]
fn gas_pushes_by_its_absolute_temperature() {
    for (celsius, share) in
        [("-20 C", 0.864), ("0 C", 0.932), ("20 C", 1.0), ("40 C", 1.068), ("50 C", 1.102)]
    {
        let found = gas_share(Temperature::read(celsius).unwrap());
        assert!((found - share).abs() < 0.0006, "{celsius}: {found}");
    }
    let strut = strut("100 N", 1.3);
    let at = Temperature::TWENTY_CELSIUS;
    let newtons = |length: Length| strut.force_at(length.millimetres(), at).newtons();
    assert!((newtons(strut.extended) - 100.0).abs() < 0.001);
    assert!((newtons(strut.compressed) - 130.0).abs() < 0.001);
    assert!((newtons(inches(12.75)) - 115.0).abs() < 0.001);
}

#[test]
fn places_and_data_that_contradict_are_refused() {
    let (_, good) = worked();
    assert_eq!(good.check(), Ok(()));
    let with = |change: &dyn Fn(&mut StrutMounts)| {
        let mut mounts = good.clone();
        change(&mut mounts);
        mounts.check()
    };
    let zero = [Length::ZERO; 2];
    assert_eq!(with(&|mounts| mounts.fixed = zero), Err(StrutFault::FixedInPin));
    assert_eq!(with(&|mounts| mounts.on_lid = zero), Err(StrutFault::LidEndNotOnLid));
    assert_eq!(with(&|mounts| mounts.on_lid[0] = inches(-2.0)), Err(StrutFault::LidEndNotOnLid));
    assert_eq!(with(&|mounts| mounts.opens = degrees(0.0)), Err(StrutFault::Opens));
    assert_eq!(with(&|mounts| mounts.count = 0), Err(StrutFault::None));
    assert_eq!(with(&|mounts| mounts.fixed = [inches(-3.0), inches(7.0)]), Err(StrutFault::HoldsShut));
    assert_eq!(with(&|mounts| mounts.fixed = [inches(9.0), Length::ZERO]), Err(StrutFault::EndsMeet));
    let data = |change: &dyn Fn(&mut GasStrut)| {
        let mut strut = strut("200 N", 1.3);
        change(&mut strut);
        strut.check(&good)
    };
    assert_eq!(data(&|_| {}), Ok(()));
    assert_eq!(data(&|strut| strut.extended = strut.compressed), Err(StrutFault::NoStroke));
    assert_eq!(data(&|strut| strut.extended = inches(18.0)), Err(StrutFault::StrokeBeyondTube));
    assert_eq!(data(&|strut| strut.ratio = 0.9), Err(StrutFault::RatioBelowOne));
    assert_eq!(data(&|strut| strut.force = Force::default()), Err(StrutFault::NoForce));
    assert!(matches!(data(&|strut| strut.extended = inches(15.0)), Err(StrutFault::TooShort { .. })));
    assert!(matches!(data(&|strut| strut.compressed = inches(10.0)), Err(StrutFault::TooLong { .. })));
}

#[test]
fn a_lid_that_struts_cannot_open_is_not_balanced() {
    let (lid, mut mounts) = worked();
    // Past the pin when closed: 3 × −4 + 1 × 8 is below zero, and only later above it.
    mounts.fixed = [inches(3.0), inches(-1.0)];
    mounts.on_lid = [inches(8.0), inches(-4.0)];
    mounts.check().unwrap();
    assert_eq!(mounts.hardest(&lid).map(|_| ()).unwrap_err().angle, degrees(0.0));
}

#[test]
fn loads_turn_about_their_datum_and_their_supports() {
    let load = |what: &str, pounds: f64, at: f64| StationLoad {
        what: what.to_owned(),
        mass: Mass::from_pounds(pounds),
        at: inches(at),
    };
    // A lever: 100 lb at 60 in and 50 lb at −30 in balance at 30 in: (6000 − 1500)/150.
    let loading = Loading { loads: vec![load("a", 100.0, 60.0), load("b", 50.0, -30.0)] };
    assert!((loading.centre_mm().unwrap() / 25.4 - 30.0).abs() < 0.000_1);
    let support = |at: f64| Support { name: "support".to_owned(), at: inches(at) };
    let pounds = |mass: Mass| mass.print(MassUnit::Pound, 2);
    // Supports at 0 and 90: a third of the way.
    assert_eq!(loading.carried(&[support(0.0), support(90.0)]).unwrap().map(pounds), ["100.00", "50.00"]);
    // Both behind the centre: the farther one must be held down.
    let [near, far] = loading.carried(&[support(-30.0), support(0.0)]).unwrap();
    assert!(near < Mass::ZERO && far > Mass::from_pounds(150.0));
    assert_eq!(loading.carried(&[support(4.0), support(4.0)]), Err(SupportsFault));
}

/// The factors of DHHS (NIOSH) 94-110 in its metric form, by hand and to hundredths: 250/381 = .66 (.656), 1 − .003·(127 − 75) = .84
/// (.844) below 1 − .003·(75 − 50.8) = .93, .82 + 4.5/76.2 = .88 (.879), .95.
#[test]
fn a_lift_has_the_limit_of_the_lifting_equation() {
    let lift = HandLift {
        reach: inches(15.0),
        from_and_to: [inches(20.0), inches(50.0)],
        turned: degrees(0.0),
        grip: Grip::Fair,
    };
    let by_hand = 23.0 * 0.66 * 0.84 * 0.88 * 0.95;
    assert!((lift.limit().unwrap().limit.kilograms() - by_hand).abs() < 0.000_1);
    let exact = 23.0 * (250.0 / 381.0) * (1.0 - 0.003 * (127.0 - 75.0)) * (0.82 + 4.5 / 76.2) * 0.95;
    assert!((by_hand - exact).abs() < 0.01 * exact);
    let ideal = HandLift {
        reach: Length::from_millimetres(250.0),
        from_and_to: [Length::from_millimetres(750.0); 2],
        turned: degrees(0.0),
        grip: Grip::Good,
    };
    assert_eq!(ideal.limit().unwrap().limit, HandLift::ideal_limit());
    let far = HandLift { reach: inches(26.0), ..lift.clone() };
    assert_eq!(far.limit(), Err(LiftFault::Reach));
    let turned = HandLift { turned: degrees(140.0), ..lift };
    assert_eq!(turned.limit(), Err(LiftFault::Turned));
}

proptest! {
    /// Virtual work: the arm is how much the strut grows for a turn of the lid, r = dL/dθ.
    #[test]
    fn the_arm_is_the_rate_at_which_the_strut_grows(
        fixed in (-10.0..10.0_f64, -20.0..-4.0_f64),
        on_lid in (2.0..20.0_f64, -1.0..2.0_f64),
        at in 1.0..89.0_f64,
    ) {
        let mounts = StrutMounts {
            count: 1,
            fixed: [inches(fixed.0), inches(fixed.1)],
            on_lid: [inches(on_lid.0), inches(on_lid.1)],
            opens: degrees(90.0),
        };
        let step = 0.01;
        let length = |angle: f64| mounts.place(degrees(angle)).length_mm;
        let rate = (length(at + step) - length(at - step)) / (2.0 * step).to_radians();
        prop_assert!((mounts.place(degrees(at)).arm_mm - rate).abs() < 0.01);
        let [low, high] = mounts.length_range_mm();
        prop_assert!(low - 0.001 <= length(at) && length(at) <= high + 0.001);
    }

    /// Moments about any pin: the sum of the loads' is the whole weight at the centre.
    #[test]
    fn the_whole_weight_turns_at_the_centre(
        loads in prop::collection::vec((0.5..200.0_f64, -30.0..60.0_f64, -5.0..5.0_f64), 1..6),
        open in 0.0..180.0_f64,
    ) {
        let lid = Lid { loads: loads.into_iter().map(|(pounds, out, up)| load(pounds, out, up)).collect() };
        let centre = lid.centre().unwrap();
        let whole = HungLoad {
            what: String::new(),
            mass: lid.mass(),
            out: Length::from_millimetres(centre.x),
            up: Length::from_millimetres(centre.y),
        };
        let difference = lid.moment(degrees(open)) - whole.moment(degrees(open));
        prop_assert!(difference.newton_millimetres().abs() < 0.1, "{difference:?}");
    }
}
