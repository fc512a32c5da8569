//! Pictures of a part on its way out, or standing where it cannot get out.

use geometry::grid::GridOutline;
use geometry::{Point, Vector};

use super::super::answer::{Role, Scene};
use super::about::Line;
use super::{Pose, Space, TiltedPath, posed};

/// Start, middle and end of a way out.
pub(super) fn of_way(
    mark: &str,
    (space, line): (&Space, Line),
    profile: &GridOutline,
    path: &TiltedPath,
) -> Vec<Scene> {
    // The middle picture shows the part half through: the pose nearest to having as much above the deck as below it.
    let middle = path.poses.iter().min_by(|a, b| a.at.y.abs().total_cmp(&b.at.y.abs()));
    let chosen = [path.poses.first(), middle, path.poses.last()];
    let titles = [START, "half way", "out"];
    let scene = |(title, pose): (&str, &Pose)| {
        let degrees = f64::from(pose.tilt_millidegrees) / 1000.0;
        let scene = standing(space, profile, &titled((title, line), degrees.abs())).with(
            Role::Part,
            posed(profile, pose),
            mark,
        );
        if title == START { with_borders(scene, (space, line)) } else { scene }
    };
    titles.into_iter().zip(chosen).filter_map(|(title, pose)| Some(scene((title, pose?)))).collect()
}

/// Title of the picture in which the part stands in the space below.
const START: &str = "start";

/// The picture with both ends, or both sides, of the opening named.
fn with_borders(mut scene: Scene, (space, line): (&Space, Line)) -> Scene {
    let up = Vector::new(0.0, 1.0);
    for (x, which) in [(0.0, "first"), (space.opening_mm, "second")] {
        scene.labels.push((Point::new(x, 0.0), up, format!("{which} {}", line.border())));
    }
    scene
}

fn titled((title, line): (&str, Line), degrees: f64) -> String {
    let title = seen(title, line);
    if 0.0 < degrees { format!("{title}, tilted {degrees:.1}°") } else { format!("{title}, level") }
}

/// Who looks along the opening is told so.
fn seen(title: &str, line: Line) -> String {
    match line {
        Line::Across => title.to_owned(),
        Line::Along => format!("{title}, seen along the opening"),
    }
}

fn standing(space: &Space, profile: &GridOutline, title: &str) -> Scene {
    let (low, high) = profile.bounds();
    let size = (high - low).millimetres();
    let drawn = space.drawn(size.x + size.y).into_iter();
    drawn.fold(Scene::titled(title), |scene, (name, corners)| scene.with(Role::Fixed, corners, name))
}

/// The part in the space below, where it cannot get out.
pub(super) fn still((space, line): (&Space, Line), profile: &GridOutline) -> Scene {
    let (low, _) = profile.bounds();
    let floor = -space.deck_mm - space.depth_mm - low.millimetres().y;
    let pose = Pose { tilt_millidegrees: 0, at: Point::new(0.5 * space.opening_mm, floor) };
    standing(space, profile, &seen("as it stands", line)).with(Role::Part, posed(profile, &pose), "")
}
