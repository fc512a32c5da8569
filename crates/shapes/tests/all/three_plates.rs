//! Where three plates of real thickness meet: the exact places of their ends, by closed formulas.
//!
//! Source: plane geometry, for equal slopes over a square corner. θ is the turn at the top, c its cosine, R the inside
//! radius, T the thickness, S = (R + T)·tan(θ/2) the setback, φ the angle between the slopes inside, cos φ = −c². In the
//! outside of a slope, x runs inward along the bend from the outside corner and y down the slope: the corner line is
//! x = −c·y, and the cut edge stands back t = (T·cos(φ/2) + g/2) / sin(φ/2) from it, that is, t·√(1 + c²) along x.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use crate::common::{inches, making};
use fold::{FlatPattern, refold};
use geometry::{Frame, Point3, trig};
use shapes::pan::{Pan, PanPlan, Rim};
use shapes::tapered_lid::TaperedLid;
use shapes::{Figure, Making, Shaped};

const EXACT_MM: f64 = 1e-6;

struct Corner {
    thickness_mm: f64,
    radius_mm: f64,
    gap_mm: f64,
    /// Cosine of the turn at the top.
    cosine: f64,
}

impl Corner {
    fn new(making: &Making, turn_rad: f64) -> Self {
        Self {
            thickness_mm: making.number.thickness().millimetres(),
            radius_mm: making.number.inside_radius().millimetres(),
            gap_mm: making.seam_gap.millimetres(),
            cosine: trig::cos(turn_rad),
        }
    }

    fn setback_mm(&self, turn_rad: f64) -> f64 {
        (self.radius_mm + self.thickness_mm) * trig::tan(0.5 * turn_rad)
    }

    /// Across a bend, between the ends of its inside arc, mm.
    fn chord_mm(&self, turn_rad: f64) -> f64 {
        2.0 * self.radius_mm * trig::sin(0.5 * turn_rad)
    }

    /// How far the cut edge of a slope stands back from the corner line, along x, mm.
    fn back_mm(&self, cosine: f64) -> f64 {
        let half = 0.5 * trig::acos(-cosine * cosine);
        let trim = (self.thickness_mm * trig::cos(half) + 0.5 * self.gap_mm) / trig::sin(half);
        trim * (1.0 + cosine * cosine).sqrt()
    }
}

/// A refolded part and how to find places on it.
struct Folded {
    flat: FlatPattern,
    frames: Vec<Frame>,
    /// Height of the inside of the part above the back of every face, mm.
    inside_mm: f64,
}

impl Folded {
    fn new(shaped: &Shaped, inside_mm: f64, gap_mm: f64) -> Self {
        let flat = shaped.unfold().unwrap();
        for seam in refold::prove(&shaped.part, &flat).unwrap().seams {
            let exact = |mm: f64| (mm - gap_mm).abs() < EXACT_MM;
            assert!(exact(seam.least_mm - seam.interference_mm) && exact(seam.largest_mm), "{seam:?}");
        }
        Self { frames: refold::fold(&flat), flat, inside_mm }
    }

    fn face(&self, name: &str) -> usize {
        let names = || self.flat.faces.iter().map(|face| face.name.as_str());
        names()
            .position(|own| own == name)
            .unwrap_or_else(|| panic!("{name}: {:?}", names().collect::<Vec<_>>()))
    }

    /// Both ends of a face's cut edge at seam `name`, on the inside of the part.
    fn cut_edge(&self, name: &str, face: usize) -> [Point3; 2] {
        let seam = self.flat.seams.iter().find(|seam| seam.name == name).unwrap();
        let (_, ends) = if seam.first.0 == face { seam.first } else { seam.second };
        ends.map(|end| self.frames[face].place(end, self.inside_mm))
    }

    fn is_cut_off(&self, name: &str) -> bool {
        self.flat.seams.iter().any(|seam| seam.name == name && !seam.cut_off.is_empty())
    }

    fn corners(&self, face: usize) -> impl Iterator<Item = Point3> + '_ {
        self.flat.faces[face].corners.iter().map(move |&p| self.frames[face].place(p, self.inside_mm))
    }

    /// From the nearest inside corner of `face` to `place`, mm.
    fn nearest_mm(&self, face: usize, place: Point3) -> f64 {
        self.corners(face).map(|corner| corner.distance(place)).fold(f64::INFINITY, f64::min)
    }
}

/// The end of `edge` that is nearer to `face`.
fn end_at(folded: &Folded, edge: [Point3; 2], face: usize) -> Point3 {
    let far = |end: Point3| folded.nearest_mm(face, end);
    if far(edge[0]) < far(edge[1]) { edge[0] } else { edge[1] }
}

fn near(found_mm: f64, expected_mm: f64, what: &str) {
    assert!((found_mm - expected_mm).abs() < EXACT_MM, "{what}: {found_mm}, expected {expected_mm}");
}

fn makings() -> Vec<Making> {
    let cases = [(".125", ".125", "0"), (".125", ".1875", "1/64"), (".063", ".125", "1/16")];
    cases.map(|(t, r, gap)| Making { seam_gap: inches(gap), ..making(t, r, 0.42) }).to_vec()
}

/// A lid with equal slopes over a square opening, its skirt plumb.
fn lid(making: &Making, rise: &str, inset: &str) -> Folded {
    let over = Figure::rectangle(inches("30").millimetres(), inches("24").millimetres()).unwrap();
    let lid = TaperedLid {
        over,
        outset: inches("1"),
        rise: inches(rise),
        inset: vec![inches(inset); 4],
        skirt: inches("2"),
        return_width: None,
    };
    Folded::new(&lid.shape(making).unwrap(), 0.0, making.seam_gap.millimetres())
}

fn slopes() -> impl Iterator<Item = (Making, f64, Folded)> {
    let cases = [("3", "3"), ("2", "5"), ("6", "2 1/2")];
    makings().into_iter().flat_map(move |making| {
        cases.map(|(rise, inset)| {
            let turn_rad = trig::atan2(inches(rise).millimetres(), inches(inset).millimetres());
            (making.clone(), turn_rad, lid(&making, rise, inset))
        })
    })
}

/// Top and two slopes: each slope ends (S + c·S − t·√(1 + c²)) short of the top's own corner, a chord away across the
/// bend, and the gap from the other.
#[test]
fn a_hip_meets_the_bend_at_the_top() {
    let mut exact = 0;
    for (making, turn_rad, lid) in slopes() {
        // Where a step too fine to cut is taken off with the slope's corner, that ends sooner.
        if lid.is_cut_off("slope at corner B") {
            continue;
        }
        exact += 1;
        let corner = Corner::new(&making, turn_rad);
        let setback = corner.setback_mm(turn_rad);
        let along = setback + corner.cosine * setback - corner.back_mm(corner.cosine);
        let expected = trig::hypot(along, corner.chord_mm(turn_rad));
        let ends = ["slope AB", "slope BC"].map(|slope| {
            let slope = lid.face(slope);
            end_at(&lid, lid.cut_edge("slope at corner B", slope), 0)
        });
        ends.iter().for_each(|&end| near(lid.nearest_mm(0, end), expected, "slope to top"));
        near(ends[0].distance(ends[1]), corner.gap_mm, "slope to slope");
    }
    assert!(5 < exact, "only {exact} hips kept their corners");
}

/// Two slopes and two skirts: at the rim a slope ends c·S' + t·√(1 + c²) from the outside corner and a skirt its own
/// trim, T + g/√2, for skirts meet square; between them lies the chord of the rim bend, which turns 90° − θ.
#[test]
fn a_hip_meets_the_bend_at_the_rim_and_the_skirt_corner() {
    let mut exact = 0;
    for (making, turn_rad, lid) in slopes() {
        if lid.is_cut_off("slope at corner B") || lid.is_cut_off("skirt at corner B") {
            continue;
        }
        exact += 1;
        let corner = Corner::new(&making, turn_rad);
        let rim_turn = std::f64::consts::FRAC_PI_2 - turn_rad;
        let of_slope = corner.cosine * corner.setback_mm(rim_turn) + corner.back_mm(corner.cosine);
        let of_skirt = corner.thickness_mm + corner.gap_mm * std::f64::consts::FRAC_1_SQRT_2;
        let expected = trig::hypot(of_slope - of_skirt, corner.chord_mm(rim_turn));
        let ends = ["AB", "BC"].map(|side| {
            let (slope, skirt) = (lid.face(&format!("slope {side}")), lid.face(&format!("skirt {side}")));
            let of_slope = end_at(&lid, lid.cut_edge("slope at corner B", slope), skirt);
            let of_skirt = end_at(&lid, lid.cut_edge("skirt at corner B", skirt), slope);
            near(of_slope.distance(of_skirt), expected, "slope to skirt");
            [of_slope, of_skirt]
        });
        near(ends[0][0].distance(ends[1][0]), corner.gap_mm, "slope to slope");
        near(ends[0][1].distance(ends[1][1]), corner.gap_mm, "skirt to skirt");
    }
    assert!(5 < exact, "only {exact} corners were kept");
}

/// Floor and two plumb walls, the slope turned to 90°: along the bend R + T is left less the trim, and the chord is R·√2;
/// with no gap the ends of both walls are R·√3 from the corner of the floor.
#[test]
fn a_square_box_corner() {
    for making in makings() {
        let pan = Pan {
            plan: PanPlan::Outside { length: inches("20"), width: inches("12") },
            height: inches("4"),
            rims: vec![Rim::None],
            lean: Vec::new(),
            edge: shapes::edge::EdgeEnd::Plain,
        };
        let corner = Corner::new(&making, std::f64::consts::FRAC_PI_2);
        let pan = Folded::new(&pan.shape(&making).unwrap(), corner.thickness_mm, corner.gap_mm);
        let along = corner.radius_mm - corner.gap_mm * std::f64::consts::FRAC_1_SQRT_2;
        let expected = (along * along + 2.0 * corner.radius_mm * corner.radius_mm).sqrt();
        for wall in ["wall AB", "wall BC"] {
            let end = end_at(&pan, pan.cut_edge("wall at corner B", pan.face(wall)), 0);
            near(pan.nearest_mm(0, end), expected, wall);
        }
        if corner.gap_mm <= 0.0 {
            near(expected, corner.radius_mm * 3.0_f64.sqrt(), "in a tight corner");
        }
    }
}
