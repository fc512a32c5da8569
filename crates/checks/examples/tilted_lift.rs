//! How long a tilted lift-out takes: a tray with a rim, tight, easy and impossible, in side view; and judged about both lines, one
//! side first and impossible. Run with `--release`.
#![expect(
    clippy::disallowed_methods,
    clippy::print_stdout,
    reason = "a benchmark looks at the clock and prints"
)]

use std::time::Instant;

use checks::fit::Body;
use checks::fit::tilted::{Lies, Space, TiltedLift, way_out};
use fold::BendNumber;
use fold::bend::Origin;
use geometry::Point;
use geometry::grid::{GridOutline, GridPoint};
use shapes::edge::EdgeEnd;
use shapes::pan::{Pan, PanPlan, Rim};
use shapes::{Clearance, CornerStyle, Figure, Making, ReliefStyle};
use stock::BendModel;
use units::{Length, LengthStyle};

fn main() {
    let corners = [(0, 0), (584, 0), (584, 97), (597, 97), (597, 100), (-13, 100), (-13, 97), (0, 97)];
    let corners = corners.map(|(x, y)| GridPoint::near(Point::new(f64::from(x), f64::from(y))));
    let Ok(tray) = GridOutline::new(corners.to_vec(), Vec::new()) else { return };
    let space = |opening_mm, depth_mm| Space {
        opening_mm,
        clearance_mm: 6.0,
        deck_mm: 30.0,
        depth_mm,
        reach_mm: [150.0, 150.0],
        headroom_mm: Some(1200.0),
    };
    for (name, space) in
        [("easy", space(560.0, 320.0)), ("tight", space(480.0, 205.0)), ("impossible", space(330.0, 200.0))]
    {
        let begun = Instant::now();
        let path = way_out(&space, &tray);
        let poses = path.ok().flatten().map(|path| (path.poses.len(), path.margin_mm));
        println!("{name}: {poses:?}, {:.3} s", begun.elapsed().as_secs_f64());
    }
    let Some(body) = body() else { return };
    let style = LengthStyle::Millimetres { places: 1 };
    for (name, opening) in [("one side first", [700.0, 430.0]), ("impossible both ways", [420.0, 330.0])] {
        let Some(opening) = Figure::rectangle(opening[0], opening[1]) else { return };
        let mm = Length::from_millimetres;
        let lift = TiltedLift {
            opening,
            clearance: Clearance::single("gap", mm(5.0)),
            lies: Lies::Along,
            deck: mm(30.0),
            depth_below: mm(420.0),
            reach_below: [mm(200.0); 2],
            reach_sides: Some([mm(200.0); 2]),
            headroom: Some(mm(1200.0)),
        };
        let begun = Instant::now();
        let answer = lift.judge("T", &body, style);
        println!("{name}: {}, {:.3} s", answer.fits, begun.elapsed().as_secs_f64());
    }
}

/// A tray 580 × 440 × 100 with a rim all round.
fn body() -> Option<Body> {
    let mm = Length::from_millimetres;
    let number = BendNumber::new(mm(2.0), mm(2.0), BendModel::KFactor(0.42), Origin::Job).ok()?;
    let making = Making {
        number,
        relief: ReliefStyle::Square,
        corner: CornerStyle::Open,
        seam_gap: Length::ZERO,
        style: LengthStyle::Millimetres { places: 1 },
    };
    let pan = Pan {
        plan: PanPlan::Outside { length: mm(580.0), width: mm(440.0) },
        height: mm(100.0),
        rims: vec![Rim::Out(mm(13.0))],
        lean: Vec::new(),
        edge: EdgeEnd::Plain,
    };
    let part = pan.shape(&making).ok()?.part;
    let flat = fold::flat::unfold(&part).ok()?;
    Some(Body::of(&part, &flat, false))
}
