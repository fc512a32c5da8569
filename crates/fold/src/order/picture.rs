//! Side views of one step: the part cut square across the middle of the bend, what lies beyond the cut, the machine.

use geometry::{Point, Point3, trig};

use super::blocks::{LyingSlab, Sweep};
use super::bodies;
use super::convex::Convex;
use super::motion::Motion;
use super::stroke::{Stroke, Trials};

/// One side view. Machine coordinates in mm, x from the back of the machine to its front, y up; convex figures.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SideView {
    /// The metal where it is cut square across the middle of the bend.
    pub cut: Vec<Vec<Point>>,
    /// Metal that lies before or behind the cut, as seen along the bend.
    pub beyond: Vec<Vec<Point>>,
    /// The machine; of a body whose assumed size is in the way, only what every such machine has of it at least.
    pub machine: Vec<Vec<Point>>,
    /// Bodies of assumed size that are in the way.
    pub in_the_way: Vec<Vec<Point>>,
    /// The faces that are cut, by their numbers: figures of `cut`.
    pub faces: Vec<(usize, Vec<Point>)>,
}

impl SideView {
    /// How far the metal reaches to the back of the machine and to its front from the bend line, mm.
    pub(super) fn reach_mm(&self) -> [f64; 2] {
        let metal = self.cut.iter().chain(&self.beyond).flatten();
        metal.fold([0.0, 0.0], |[behind, before], p| [behind.max(-p.x), before.max(p.x)])
    }
}

/// Largest turn of one straight piece of a drawn arc, radians.
const DRAWN_PIECE_RAD: f64 = std::f64::consts::PI / 16.0;

/// The part before the stroke and at its end.
pub(super) fn side_views(trials: &Trials<'_>, stroke: &Stroke, slabs: &[LyingSlab]) -> [SideView; 2] {
    let sweep = Sweep::of(trials.metal, trials.bench, stroke.position.bend);
    let motion = trials.bench.motion(trials.metal, stroke.position.bend);
    let own =
        trials.metal.lines[stroke.position.bend].from.distance(trials.metal.lines[stroke.position.bend].to);
    [0.0, sweep.kept_rad()].map(|turn| {
        let mut view = view(&sweep, &motion, slabs, 0.5 * own, turn);
        let untold = [bodies::HIGH_RAM, bodies::TALL_PUNCH];
        for body in sweep.all_bodies().iter().filter(|body| !untold.contains(&body.name)) {
            let Convex(figure) = sweep.body_at(body, turn);
            let in_the_way = stroke.hindrances.iter().any(|hindrance| hindrance.body == body.name);
            if !body.given && in_the_way {
                view.in_the_way.push(figure);
            } else if in_the_way || !body.core {
                view.machine.push(figure);
            }
        }
        view
    })
}

/// The last strikes of a round, drawn closed by hand: before it, and with all of them made. No machine stands about it.
pub(super) fn closing_views(
    trials: &Trials<'_>,
    stroke: &Stroke,
    made: u64,
    faces: &[usize],
) -> [SideView; 2] {
    let middle = stroke.position.bend;
    let one = Stroke { bends: vec![middle], ..stroke.clone() };
    let sweep = Sweep::of(trials.metal, trials.bench, middle);
    let motion = trials.bench.motion(trials.metal, middle);
    let line = &trials.metal.lines[middle];
    let station_mm = 0.5 * line.from.distance(line.to);
    let others = stroke.bits() & !(1 << middle);
    [(made, 0.0), (made | others, sweep.kept_rad())].map(|(made, turn)| {
        let slabs = trials.slabs(&one, made, faces);
        view(&sweep, &motion, &slabs, station_mm, turn)
    })
}

fn view(sweep: &Sweep, motion: &Motion, slabs: &[LyingSlab], station_mm: f64, turn: f64) -> SideView {
    let mut view = SideView { cut: zone(motion, turn), ..SideView::default() };
    for LyingSlab { face, at_front, slab } in slabs {
        let side = sweep.side(*at_front, turn);
        let placed = slab.placed(|p| {
            let at = side.place(p.x, p.y);
            Point3::new(at.x, at.y, p.z)
        });
        let Convex(cut) = placed.section(station_mm);
        if cut.len() > 2 {
            view.faces.push((*face, cut.clone()));
            view.cut.push(cut);
        }
        view.beyond.push(placed.side_view().0);
    }
    view
}

/// The bend itself: its arc so far, and what of its zone is still straight.
fn zone(motion: &Motion, turn: f64) -> Vec<Vec<Point>> {
    let half = 0.5 * motion.zone_mm;
    let bent = turn * motion.neutral_mm;
    let strip = |from: f64, to: f64, place: &dyn Fn(f64, f64) -> Point| {
        let ring = [(from, 0.0), (to, 0.0), (to, motion.thickness_mm), (from, motion.thickness_mm)];
        (from < to).then(|| ring.map(|(x, y)| place(x, y)).to_vec())
    };
    let (back, front) = (motion.back(turn), motion.front(turn));
    let (front_from, back_to) = match motion.half_v_mm {
        Some(_) => (0.5 * bent, -0.5 * bent),
        None => (bent - half, -half),
    };
    let straight =
        [strip(front_from, half, &|x, y| front.place(x, y)), strip(-half, back_to, &|x, y| back.place(x, y))];
    straight.into_iter().flatten().chain(arc(motion, turn)).collect()
}

fn arc(motion: &Motion, turn: f64) -> Vec<Vec<Point>> {
    let (centre, start) = match motion.half_v_mm {
        Some(_) => {
            let tip = motion.tip(turn);
            (Point::new(tip.x, tip.y + motion.radius_mm), -0.5 * turn)
        }
        None => (Point::new(-0.5 * motion.zone_mm, motion.thickness_mm + motion.radius_mm), 0.0),
    };
    let pieces = (turn / DRAWN_PIECE_RAD).ceil();
    let at = |angle: f64, radius: f64| {
        Point::new(centre.x + radius * trig::sin(angle), centre.y - radius * trig::cos(angle))
    };
    let outer = motion.radius_mm + motion.thickness_mm;
    let piece = |number: f64| {
        let (from, to) = (start + turn * number / pieces, start + turn * (number + 1.0) / pieces);
        vec![at(from, outer), at(to, outer), at(to, motion.radius_mm), at(from, motion.radius_mm)]
    };
    std::iter::successors(Some(0.0), |n| Some(n + 1.0)).take_while(|n| *n < pieces).map(piece).collect()
}
