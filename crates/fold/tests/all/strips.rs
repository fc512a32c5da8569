//! Choosing among the shop's strips: limits on both sides, nearest first, spread, and strips that contradict.

#![expect(clippy::unwrap_used, reason = "a strip that proves nothing fails its test")]

use std::f64::consts::FRAC_PI_2;

use fold::bend::choice::{DieMatch, StripChoice, Wanted, choose};
use fold::bend::{Origin, ShopStrip, StripMetal, TestStrip, formula};
use fold::{BendNumber, FoldedPart};
use stock::{BendModel, Family};
use units::{Angle, Length};

fn inches(number: f64) -> Length {
    Length::from_inches(number)
}

fn metal(alloy: &str, temper: Option<&str>) -> StripMetal {
    StripMetal {
        alloy: alloy.to_owned(),
        temper: temper.map(str::to_owned),
        family: if alloy == "mild steel" { Family::MildSteel } else { Family::Aluminium },
        tread: false,
    }
}

/// 5052-H32 .125, R .125, over the 1 in die.
fn wanted() -> Wanted {
    Wanted {
        metal: metal("5052", Some("H32")),
        thickness: inches(0.125),
        inside_radius: inches(0.125),
        v_openings: vec![inches(1.0)],
    }
}

/// A strip as wanted that gives `k_factor` at `turn` degrees.
struct Bent {
    metal: StripMetal,
    thickness: f64,
    radius: f64,
    die: Option<f64>,
    turn: f64,
    k_factor: f64,
    date: &'static str,
}

impl Default for Bent {
    fn default() -> Self {
        let metal = metal("5052", Some("H32"));
        Self {
            metal,
            thickness: 0.125,
            radius: 0.125,
            die: Some(1.0),
            turn: 90.0,
            k_factor: 0.42,
            date: "2026-03-04",
        }
    }
}

impl Bent {
    fn strip(self) -> ShopStrip {
        let turn = Angle::from_degrees(self.turn);
        let allowance = formula::allowance(turn.radians(), self.radius, self.thickness, self.k_factor);
        let deduction = formula::deduction(
            formula::capped_setback(turn.radians(), self.radius, self.thickness),
            allowance,
        );
        let test = TestStrip {
            length: inches(4.0),
            legs: [inches(2.0), inches(2.0 + deduction)],
            turn,
            thickness: inches(self.thickness),
            inside_radius: inches(self.radius),
        };
        let mut strip = ShopStrip::new(test, self.metal, self.date.to_owned()).unwrap();
        strip.v_opening = self.die.map(inches);
        strip.date = Some(self.date.to_owned());
        strip
    }
}

fn chosen(strips: &[ShopStrip]) -> Option<StripChoice> {
    choose(&wanted(), strips).unwrap()
}

fn is_taken(bent: Bent) -> bool {
    chosen(&[bent.strip()]).is_some()
}

#[test]
fn only_a_strip_of_the_metal_or_its_temper_stands_for_it() {
    let of = |alloy, temper| is_taken(Bent { metal: metal(alloy, temper), ..Bent::default() });
    assert!(of("5052", Some("H32")));
    assert!(of("5086", Some("H32")), "the same temper of another alloy of the family");
    assert!(!of("5052", Some("H34")));
    assert!(!of("5052", None), "a temper that nobody named");
    assert!(!of("mild steel", None));
    let tread = StripMetal { tread: true, ..metal("5052", Some("H32")) };
    assert!(!is_taken(Bent { metal: tread, ..Bent::default() }));
}

#[test]
fn steels_have_no_tempers_to_agree() {
    let mut job = wanted();
    job.metal = metal("mild steel", None);
    let strip = Bent { metal: metal("mild steel", None), ..Bent::default() }.strip();
    assert!(choose(&job, &[strip]).unwrap().is_some());
    job.metal = metal("5052", None);
    let other = Bent { metal: metal("6061", None), ..Bent::default() }.strip();
    assert!(choose(&job, &[other]).unwrap().is_none(), "two aluminiums without tempers are not alike");
}

#[test]
fn thickness_radius_and_die_have_limits() {
    // A twentieth of .125 is .00625, a quarter of it .03125, a quarter of the die .25.
    assert!(is_taken(Bent { thickness: 0.1312, ..Bent::default() }));
    assert!(!is_taken(Bent { thickness: 0.1313, ..Bent::default() }));
    assert!(is_taken(Bent { radius: 0.1562, ..Bent::default() }));
    assert!(!is_taken(Bent { radius: 0.1563, ..Bent::default() }));
    assert!(is_taken(Bent { die: Some(1.25), ..Bent::default() }));
    assert!(!is_taken(Bent { die: Some(1.26), ..Bent::default() }));
    assert!(is_taken(Bent { die: None, ..Bent::default() }));
}

/// Of all dies that the shop has one with a strip is as good as another: the nearest radius and thickness decide, then the die
/// that the shop would take first; and the part is bent in the die of its strips, which are never those of two dies.
#[test]
fn strips_of_any_die_of_the_shop_are_compared() {
    let mut job = wanted();
    job.v_openings = vec![inches(1.0), inches(1.5), inches(0.625)];
    let of = |strips: &[ShopStrip]| choose(&job, strips).unwrap();
    let bent = |die: f64, radius: f64, k_factor: f64| {
        Bent { die: Some(die), radius, k_factor, ..Bent::default() }.strip()
    };
    let only = of(&[bent(1.5, 0.125, 0.40)]).unwrap();
    assert_eq!(
        (only.bent_in(), only.die_match(&only.nearest(FRAC_PI_2).used)),
        (Some(inches(1.5)), DieMatch::Same)
    );
    let nearer = of(&[bent(1.0, 0.150, 0.44), bent(0.625, 0.125, 0.38)]).unwrap();
    assert_eq!(nearer.bent_in(), Some(inches(0.625)), "its radius is the job's own");
    let first = of(&[bent(1.5, 0.125, 0.40), bent(1.0, 0.125, 0.44), bent(1.5, 0.125, 0.41)]).unwrap();
    assert_eq!(first.bent_in(), Some(inches(1.0)), "the die that the shop would take");
    assert!(first.nearest(FRAC_PI_2).others.is_empty(), "a strip of another die is no second reading");
    let beside = of(&[bent(1.25, 0.125, 0.40)]).unwrap();
    let strip = &beside.nearest(FRAC_PI_2).used;
    assert_eq!((beside.bent_in(), beside.die_match(strip)), (None, DieMatch::Other));
    assert_eq!(of(&[bent(2.5, 0.125, 0.40)]), None, "far from every die");
}

#[test]
fn the_nearest_comes_first() {
    let used = |strips: &[ShopStrip]| chosen(strips).unwrap().nearest(FRAC_PI_2).used.k_factor();
    let near = |k_factor: f64, expected: f64| (k_factor - expected).abs() < 1e-6;
    let exact = || Bent { k_factor: 0.40, ..Bent::default() }.strip();
    let worse = [
        Bent { metal: metal("5086", Some("H32")), k_factor: 0.30, date: "2026-09-01", ..Bent::default() },
        Bent { die: Some(1.125), k_factor: 0.30, date: "2026-09-01", ..Bent::default() },
        Bent { die: None, k_factor: 0.30, date: "2026-09-01", ..Bent::default() },
        Bent { radius: 0.14, k_factor: 0.30, date: "2026-09-01", ..Bent::default() },
        Bent { radius: 0.110, k_factor: 0.30, date: "2026-09-01", ..Bent::default() },
    ];
    for other in worse {
        let other = other.strip();
        assert!(near(used(&[exact(), other.clone()]), 0.40));
        assert!(near(used(&[other, exact()]), 0.40));
    }
    // The die comes before the radius, an unnamed die before another.
    let of_die = Bent { radius: 0.15, k_factor: 0.33, ..Bent::default() }.strip();
    let unnamed = Bent { die: None, k_factor: 0.35, ..Bent::default() }.strip();
    let another = Bent { die: Some(1.125), k_factor: 0.37, ..Bent::default() }.strip();
    assert!(near(used(&[another.clone(), unnamed.clone(), of_die]), 0.33));
    assert!(near(used(&[another.clone(), unnamed]), 0.35));
    assert_eq!(chosen(std::slice::from_ref(&another)).unwrap().die_match(&another), DieMatch::Other);
}

#[test]
fn each_bend_goes_by_the_strip_nearest_to_its_turn() {
    let strips = [(30.0, 0.36), (90.0, 0.42), (135.0, 0.45)]
        .map(|(turn, k_factor)| Bent { turn, k_factor, ..Bent::default() }.strip());
    let number = BendNumber::from_strips(chosen(&strips).unwrap()).unwrap();
    for (turn, expected) in
        [(10.0, 0.36), (30.0, 0.36), (59.0, 0.36), (61.0, 0.42), (90.0, 0.42), (150.0, 0.45)]
    {
        let k_factor = number.k_factor(Angle::from_degrees(turn));
        assert!((k_factor - expected).abs() < 1e-6, "{turn}: {k_factor}");
    }
    // Halfway between two, the larger turn.
    assert!((number.k_factor(Angle::from_degrees(60.0)) - 0.42).abs() < 1e-6);
    let strips = number.strips().unwrap();
    assert!(strips.is_turn_of_strip(FRAC_PI_2) && !strips.is_turn_of_strip(1.2));
    // A strip gives its own deduction back at its own turn.
    assert!(matches!(number.model(), BendModel::KFactor(k) if (k - 0.42).abs() < 1e-6));
}

#[test]
fn of_strips_bent_alike_the_newest_is_used_and_the_others_say_how_far_it_may_be_off() {
    let strip = |k_factor, date| Bent { k_factor, date, ..Bent::default() }.strip();
    let strips = [strip(0.42, "2026-03-04"), strip(0.37, "2026-05-01"), strip(0.43, "2025-12-30")];
    let choice = chosen(&strips).unwrap();
    let of_turn = choice.nearest(FRAC_PI_2);
    assert_eq!(of_turn.used.date.as_deref(), Some("2026-05-01"));
    assert_eq!(of_turn.conflicting().count(), 2);
    assert!((of_turn.k_spread() - 0.06).abs() < 1e-6);
    let number = BendNumber::from_strips(choice).unwrap();
    // The farthest strip's own deduction lies at the end of the spread: ΔK × T × turn.
    let spread = number.spread_at_mm(FRAC_PI_2, 3.175);
    assert!((spread - 0.06 * 3.175 * FRAC_PI_2).abs() < 1e-5, "{spread}");
    let farthest = BendNumber::from_strips(chosen(&strips[2..]).unwrap()).unwrap();
    let off = number.deduction_mm(FRAC_PI_2) - farthest.deduction_mm(FRAC_PI_2);
    assert!((off.abs() - spread).abs() < 1e-6);
}

#[test]
fn what_reading_explains_is_no_spread() {
    // .15 mm over T × turn of 3.175 × π/2 is .0301 of K.
    let strips = |k_factor| {
        [Bent::default().strip(), Bent { k_factor, date: "2026-03-03", ..Bent::default() }.strip()]
    };
    assert!(chosen(&strips(0.449)).unwrap().nearest(FRAC_PI_2).k_spread() < 1e-9);
    assert!(chosen(&strips(0.4505)).unwrap().nearest(FRAC_PI_2).k_spread() > 0.03);
}

#[test]
fn strips_too_far_apart_contradict_one_another() {
    let strips = |k_factor| {
        [Bent::default().strip(), Bent { k_factor, date: "2026-03-03", ..Bent::default() }.strip()]
    };
    assert!(choose(&wanted(), &strips(0.171)).is_ok());
    let error = choose(&wanted(), &strips(0.169)).unwrap_err();
    assert_eq!(error.first.date.as_deref(), Some("2026-03-04"));
    assert!((error.second.k_factor() - 0.169).abs() < 1e-6);
    // Strips of another turn, or of worse tooling, contradict nobody.
    let far = Bent { k_factor: 0.1, turn: 60.0, ..Bent::default() }.strip();
    assert!(choose(&wanted(), &[Bent::default().strip(), far]).is_ok());
    let other = Bent { k_factor: 0.1, die: None, ..Bent::default() }.strip();
    assert!(choose(&wanted(), &[Bent::default().strip(), other]).is_ok());
}

#[test]
fn the_jobs_own_strip_comes_before_a_newer_one_of_the_log() {
    let mut own = Bent { k_factor: 0.40, die: None, ..Bent::default() }.strip();
    own.of_job = true;
    own.date = None;
    let choice = chosen(&[Bent::default().strip(), own]).unwrap();
    assert!(choice.nearest(FRAC_PI_2).used.of_job);
    assert_eq!(choice.nearest(FRAC_PI_2).others.len(), 1);
}

/// A channel: root, two flanges off opposite sides, and one flange off a third side.
fn tray(number: BendNumber) -> FoldedPart {
    shapes_free::three_flanges(number)
}

mod shapes_free {
    use fold::part::{Bend, Direction, Edge, Face, Forming, LegsTo, Relief};
    use fold::{BendNumber, FoldedPart};
    use geometry::Point;

    fn rectangle(name: &str, length_mm: f64, width_mm: f64, edges: Vec<Edge>) -> Face {
        let corners = [(0.0, 0.0), (length_mm, 0.0), (length_mm, width_mm), (0.0, width_mm)];
        Face {
            name: name.to_owned(),
            corners: corners.map(|(x, y)| Point::new(x, y)).to_vec(),
            edges,
            holes: Vec::new(),
            rim: None,
        }
    }

    /// A panel 200 × 100 with flanges of 30 up from both long sides and from one short side.
    pub(crate) fn three_flanges(number: BendNumber) -> FoldedPart {
        let flange = |name: &str, length: f64| {
            rectangle(name, length, 30.0, vec![Edge::Parent, Edge::Free, Edge::Free, Edge::Free])
        };
        let bend = |parent_edge: usize, child: usize| Bend {
            parent: 0,
            parent_edge,
            child,
            turn_rad: std::f64::consts::FRAC_PI_2,
            direction: Direction::Up,
            inside_radius_mm: 3.175,
            legs_to: LegsTo::MoldLine,
            forming: Forming::Brake,
        };
        let edges = vec![Edge::Bend(0), Edge::Bend(1), Edge::Bend(2), Edge::Free];
        FoldedPart {
            number,
            faces: vec![
                rectangle("floor", 200.0, 100.0, edges),
                flange("front", 190.0),
                flange("right", 90.0),
                flange("back", 190.0),
            ],
            bends: vec![bend(0, 1), bend(1, 2), bend(2, 3)],
            seams: Vec::new(),
            sizes: Vec::new(),
            relief: Relief::Square,
            notch_width_mm: 3.0,
            mitres: Vec::new(),
            tips: Vec::new(),
            wrapped_inside_mm: None,
        }
    }
}

#[test]
fn the_blank_is_off_by_the_spread_of_every_bend_crossed() {
    let strip = |k_factor, date| Bent { k_factor, date, ..Bent::default() }.strip();
    let strips = [strip(0.42, "2026-03-04"), strip(0.37, "2026-03-03")];
    let used = BendNumber::from_strips(chosen(&strips).unwrap()).unwrap();
    let other = BendNumber::from_strips(chosen(&strips[1..]).unwrap()).unwrap();
    let flat = fold::flat::unfold(&tray(used.clone())).unwrap();
    let each = used.spread_at_mm(FRAC_PI_2, 3.175);
    let (along, across) = flat.spread_mm(&used);
    // One bend is crossed along the panel, two across it.
    assert!((along - each).abs() < 1e-9 && (across - 2.0 * each).abs() < 1e-9, "{along} {across}");
    // And so much larger or smaller the blank would be by the other strip.
    let by_other = fold::flat::unfold(&tray(other)).unwrap().extents_mm();
    let extents = flat.extents_mm();
    assert!(((extents.0 - by_other.0).abs() - along).abs() < 1e-5, "{extents:?} {by_other:?}");
    assert!(((extents.1 - by_other.1).abs() - across).abs() < 1e-5, "{extents:?} {by_other:?}");
}

#[test]
fn a_number_without_strips_has_no_spread() {
    let model = BendModel::KFactor(0.42);
    let number = BendNumber::new(inches(0.125), inches(0.125), model, Origin::General).unwrap();
    assert!(number.spread_at_mm(FRAC_PI_2, 3.175).abs() < f64::EPSILON && number.strips().is_none());
}
