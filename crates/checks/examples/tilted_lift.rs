//! How long a tilted lift-out takes: a tray with a rim, tight, easy and impossible. Run with `--release`.
#![expect(
    clippy::disallowed_methods,
    clippy::print_stdout,
    reason = "a benchmark looks at the clock and prints"
)]

use std::time::Instant;

use checks::fit::tilted::{Space, way_out};
use geometry::Point;
use geometry::grid::{GridOutline, GridPoint};

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
}
