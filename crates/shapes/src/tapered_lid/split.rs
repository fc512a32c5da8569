//! A lid parted along a line across it: every plate that the line crosses is cut there, and both halves may carry a
//! flange turned down to join them by.

use fold::part::Side::{Back, Face};
use geometry::{Plane, Point, Point3, Vector3, tolerance};
use units::Length;

use super::made_up::Split;
use crate::plan::at_height;
use crate::shell::{Shell, ShellPlate};
use crate::{Figure, Making, Problem};

/// The shells of both halves; plate 0 is the top in each.
pub(super) fn halves(
    split: &Split,
    rim: &Figure,
    whole: &Shell,
    (rise, making): (Length, &Making),
) -> Result<Vec<Shell>, Vec<Problem>> {
    let [from, to] = ends(split, rim, making)?;
    if let Some(depth) = split.flange {
        let mut problems = Vec::new();
        making.above_zero("split.flange", depth, &mut problems);
        if depth >= rise {
            let wrong = "the joining flange would reach the rim";
            let remedy = making.keep_under(rise.millimetres(), "the lid has no rise");
            problems.push(Problem::new("split.flange", making.print(depth), wrong, remedy));
        }
        if !problems.is_empty() {
            return Err(problems);
        }
    }
    let right = (to - from).unit().right();
    let normal = Vector3::new(right.x, right.y, 0.0);
    let half_gap_mm = 0.5 * making.seam_gap.millimetres();
    [1.0, -1.0]
        .into_iter()
        .map(|sign| {
            let plane = Plane::through(at_height(from, 0.0), normal * sign).moved(-half_gap_mm);
            half(split, whole, plane, making)
        })
        .collect()
}

/// Where the line starts and ends on the rim.
fn ends(split: &Split, rim: &Figure, making: &Making) -> Result<[Point; 2], Vec<Problem>> {
    let mut problems = Vec::new();
    let mut place = |(side, at): &(String, Length)| {
        let field = format!("split.across.{side}");
        let Some(number) = rim.side_number(side) else {
            let remedy = format!("the sides are {}", rim.sides.join(", "));
            problems.push(Problem::new(field, side, "the opening has no such side", remedy));
            return Point::default();
        };
        let (a, b) = rim.side(number);
        let length_mm = a.distance(b);
        if *at <= Length::ZERO || at.millimetres() >= length_mm {
            let remedy = format!("keep it between 0 and {}", making.print_mm(length_mm));
            problems.push(Problem::new(field, making.print(*at), "is not on the side", remedy));
        }
        let forward = side.starts_with(rim.names[number].as_str());
        let along_mm = if forward { at.millimetres() } else { length_mm - at.millimetres() };
        a + (b - a).unit() * along_mm
    };
    let found = [place(&split.ends[0]), place(&split.ends[1])];
    if rim.side_number(&split.ends[0].0) == rim.side_number(&split.ends[1].0) {
        let remedy = "name two sides, and where the line crosses each";
        problems.push(Problem::new("split", &split.ends[0].0, "starts and ends on one side", remedy));
    }
    if problems.is_empty() { Ok(found) } else { Err(problems) }
}

/// The half behind `plane`, with its flange.
fn half(split: &Split, whole: &Shell, plane: Plane, making: &Making) -> Result<Shell, Vec<Problem>> {
    let mut shell = Shell { plates: Vec::new(), bends: Vec::new(), ..whole.clone() };
    let mut numbers = Vec::with_capacity(whole.plates.len());
    let mut top_cut = None;
    for (number, plate) in whole.plates.iter().enumerate() {
        let kept = keep_behind(plate, plane);
        numbers.push(kept.as_ref().map(|_| shell.plates.len()));
        if let Some((mut kept, cut)) = kept {
            match cut {
                Some(edge) if number == 0 && split.flange.is_some() => top_cut = Some(edge),
                Some(edge) => kept.cuts.push((edge, plane)),
                None => {}
            }
            shell.plates.push(kept);
        }
    }
    if numbers[0].is_none()
        || !shell.plates[0].corners.iter().any(|&p| plane.distance(p).abs() < tolerance::SAME_POINT_MM)
    {
        let remedy = "move its ends toward the middle of the lid";
        return Err(vec![Problem::new("split", "as given", "the line does not cross the top", remedy)]);
    }
    let both = |&(a, b): &(usize, usize)| Some((numbers[a]?, numbers[b]?));
    shell.bends = whole.bends.iter().filter_map(both).collect();
    if let (Some(depth), Some(edge)) = (split.flange, top_cut) {
        let flange = flange(&shell, edge, plane, (depth, making));
        shell.bends.push((0, shell.plates.len()));
        shell.plates.push(flange);
    }
    Ok(shell)
}

/// What of a plate lies behind `plane`, and the number of the edge along it.
fn keep_behind(plate: &ShellPlate, plane: Plane) -> Option<(ShellPlate, Option<usize>)> {
    let count = plate.corners.len();
    let off: Vec<f64> = plate.corners.iter().map(|&corner| plane.distance(corner)).collect();
    let mut corners: Vec<Point3> = Vec::new();
    for number in 0..count {
        let next = (number + 1) % count;
        if off[number] <= tolerance::SAME_POINT_MM {
            corners.push(plate.corners[number]);
        }
        let crosses = off[number].min(off[next]) < -tolerance::SAME_POINT_MM
            && off[number].max(off[next]) > tolerance::SAME_POINT_MM;
        if crosses {
            let share = off[number] / (off[number] - off[next]);
            corners.push(plate.corners[number].toward(plate.corners[next], share));
        }
    }
    let inside = corners.iter().any(|&corner| plane.distance(corner) < -tolerance::SAME_POINT_MM);
    if corners.len() < 3 || !inside {
        return None;
    }
    let on = |corner: Point3| plane.distance(corner).abs() <= tolerance::SAME_POINT_MM;
    let cut = (0..corners.len()).find(|&edge| on(corners[edge]) && on(corners[(edge + 1) % corners.len()]));
    Some((ShellPlate { corners, ..plate.clone() }, cut))
}

/// The joining flange: down along `plane` from the top's cut edge, between the insides of the sides it meets.
fn flange(shell: &Shell, edge: usize, plane: Plane, (depth, making): (Length, &Making)) -> ShellPlate {
    let (a, b) = shell.plates[0].edge(edge);
    let down = Vector3::new(0.0, 0.0, -depth.millimetres());
    let mut flange = ShellPlate::new("joining flange", vec![b, a, a + down, b + down], Face);
    // Edge 1 runs down at a, edge 3 up at b; there the flange stops against the inside of a side.
    for (number, corner) in [(1, a), (3, b)] {
        let is_there = |&plate: &usize| {
            let corners = &shell.plates[plate].corners;
            let on_line = corners.iter().filter(|&&p| plane.distance(p).abs() <= tolerance::SAME_POINT_MM);
            on_line.count() > 1 && corners.iter().any(|&p| p.distance(corner) <= tolerance::SAME_POINT_MM)
        };
        let stop = (1..shell.plates.len()).find(is_there);
        if let Some(plate) = stop {
            let inside = shell.plane(plate, Back).moved(-making.seam_gap.millimetres());
            flange.cuts.push((number, inside));
        }
    }
    flange
}
