//! A lid parted along a line across it: every plate that the line crosses is cut there, and both halves may carry a
//! flange turned down to join them by.

use std::f64::consts::PI;

use fold::flat;
use fold::part::Side::{Back, Face};
use fold::part::{SeamSide, SeamStyle};
use fold::refold::{self, Joint, JointEnd};
use geometry::{Plane, Point, Point3, Vector3, tolerance};
use units::Length;

use super::made_up::{LidMade, MadeUpLid, Split};
use crate::joined::{self, Joined, Standing};
use crate::nearest::{self, Tried, Way};
use crate::plan::at_height;
use crate::shell::{Shell, ShellPiece, ShellPlate, shell_problem};
use crate::{Fact, Figure, Making, Problem};

/// What the flange along the line is called.
const FLANGE: &str = "joining flange";

/// Steps in which a flange is made shorter that does not come out of one piece over its whole line.
const SHORT_STEP: Length = Length::from_sixty_fourths(8);

/// The most of its line that a flange gives up at each end (common practice, no source: half of it is left to join by).
const MOST_SHORT: f64 = 0.25;

/// The shells of both halves; plate 0 is the top in each.
///
/// A flange runs along all of the line where the halves come out so. On a slanted line it may lie on a slope in the flat, or
/// its bend run into one: then it stops short of both its ends, by as little as does.
pub(super) fn halves(
    split: &Split,
    rim: &Figure,
    whole: &Shell,
    (rise, making): (Length, &Making),
) -> Result<Vec<Shell>, Vec<Problem>> {
    let [from, to] = ends(split, rim, making)?;
    whole.check_names().map_err(|error| vec![shell_problem(&error, "split", making)])?;
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
    let parted = |short_mm: f64| -> Result<Vec<Shell>, Vec<Problem>> {
        let half_of = |sign: f64| {
            let plane = Plane::through(at_height(from, 0.0), normal * sign).moved(-half_gap_mm);
            half((split, short_mm), whole, plane, making)
        };
        [1.0, -1.0].into_iter().map(half_of).collect()
    };
    let shells = parted(0.0)?;
    if split.flange.is_none() || shells.iter().all(comes_out) {
        return Ok(shells);
    }
    let most_mm = MOST_SHORT * flange_mm(&shells[0]).unwrap_or(0.0);
    let least_mm = 2.0 * making.corners().notch_width_mm;
    let steps = std::iter::successors(Some(least_mm), |short_mm| Some(short_mm + SHORT_STEP.millimetres()));
    let shorter = steps.take_while(|short_mm| *short_mm <= most_mm).find_map(|short_mm| {
        let shells = parted(short_mm).ok()?;
        shells.iter().all(comes_out).then_some(shells)
    });
    Ok(shorter.unwrap_or(shells))
}

/// True for a half that comes out of one piece, and folds back to it.
fn comes_out(half: &Shell) -> bool {
    half.piece(0).is_ok_and(|piece| {
        flat::unfold(&piece.part).is_ok_and(|flat| refold::prove(&piece.part, &flat).is_ok())
    })
}

/// Length of the flange's edge on the top, mm.
fn flange_mm(half: &Shell) -> Option<f64> {
    let flange = half.plates.iter().find(|plate| plate.name == FLANGE)?;
    let (a, b) = flange.edge(0);
    Some(a.distance(b))
}

/// How far the flange stops short of the slopes at both its ends; none where it runs up to them, or there is none.
fn short_fact(half: &Shell, making: &Making) -> Option<Fact> {
    let flange = half.plates.iter().find(|plate| plate.name == FLANGE)?;
    let short_mm = flange.short_mm[0];
    let name = "joining flange, short of the edges of the top at both ends";
    let origin = "the least, by 1/8 in, at which both halves come out of one piece";
    (tolerance::SAME_POINT_MM < short_mm).then(|| Fact::words(name, making.print_mm(short_mm), origin))
}

/// Every seam along the line, measured on both halves put together; `own` is half `piece`, already built.
///
/// Plates that the line crosses are cut square, so where it runs askew through a plate a wedge of the thickness stays open:
/// with c the part of the line's normal that stands square to the plate, the edges are (g + T·c) / √(1 − c²) apart.
pub(super) fn seam_facts(
    (piece, own): (usize, &ShellPiece),
    shells: [&Shell; 2],
    making: &Making,
) -> Result<Vec<Fact>, Vec<Problem>> {
    let mut pieces = Vec::with_capacity(2);
    let mut built = Vec::with_capacity(2);
    for (number, shell) in shells.into_iter().enumerate() {
        let half = if number == piece {
            own.clone()
        } else {
            shell.piece(0).map_err(|error| vec![shell_problem(&error, "split", making)])?
        };
        if let Some(off) = (0..shell.plates.len()).find(|plate| !half.plates.contains(plate)) {
            let wrong = "is cut off from the top by the line, and would be left out";
            let remedy =
                "move the line's ends so that it crosses both of its sides between their corners at the top";
            return Err(vec![Problem::new("split", &shell.plates[off].name, wrong, remedy)]);
        }
        let name = format!("half {}", number + 1);
        pieces.push(Standing { name, part: half.part.clone(), root: half.frames[0] });
        built.push(half);
    }
    let joints: Vec<Joined> =
        (0..shells[0].plates.len()).filter_map(|plate| joint(plate, shells, &built, making)).collect();
    let seams = joined::seam_facts(piece, &pieces, &joints, ["split", "split"], making)?;
    Ok(short_fact(shells[0], making).into_iter().chain(seams).collect())
}

/// The seam between the two parts of plate `plate` of the first half, or between both joining flanges.
fn joint(plate: usize, shells: [&Shell; 2], built: &[ShellPiece], making: &Making) -> Option<Joined> {
    let name = &shells[0].plates[plate].name;
    let of_second = shells[1].plates.iter().position(|other| other.name == *name)?;
    let gap_mm = making.seam_gap.millimetres();
    if name == FLANGE {
        let end = |piece: usize, plate: usize| {
            Some(JointEnd { piece, face: built[piece].face_of(plate)?, edge: 2 })
        };
        let (a, b) = shells[0].plates[plate].edge(0);
        let width_mm = a.distance(shells[0].plates[plate].corners[3]);
        let style = SeamStyle::Lap { width_mm, carrier: SeamSide::First, outside: false };
        let joint = Joint {
            name: "joining flange of half 1 to that of half 2".to_owned(),
            first: end(0, plate)?,
            second: end(1, of_second)?,
            inside_angle_rad: PI,
            length_mm: a.distance(b) - shells[0].plates[plate].short_mm.iter().sum::<f64>(),
            style,
            gap_mm,
        };
        return Some(Joined { joint, style: "flange to flange".to_owned() });
    }
    let (edge, line) = shells[0].plates[plate].cuts.first()?;
    let (other_edge, _) = shells[1].plates[of_second].cuts.first()?;
    let askew = line.normal.dot(shells[0].plates[plate].normal()).abs();
    let (a, b) = shells[0].plates[plate].edge(*edge);
    let joint = Joint {
        name: format!("{name} of half 1 to half 2"),
        first: built[0].end(0, (plate, *edge))?,
        second: built[1].end(1, (of_second, *other_edge))?,
        inside_angle_rad: PI,
        length_mm: a.distance(b),
        style: SeamStyle::Open,
        gap_mm: (gap_mm + making.thickness_mm() * askew) / (1.0 - askew * askew).sqrt(),
    };
    Some(Joined { joint, style: "edge to edge".to_owned() })
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

/// The half behind `plane`, with its flange, which stops so far short of both its ends, mm.
fn half(
    (split, short_mm): (&Split, f64),
    whole: &Shell,
    plane: Plane,
    making: &Making,
) -> Result<Shell, Vec<Problem>> {
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
    // Corners beyond the line are the other half's.
    shell.making.style = whole.making.style.only(&shell.seam_names());
    if let (Some(depth), Some(edge)) = (split.flange, top_cut) {
        let flange = ShellPlate { short_mm: [short_mm; 2], ..flange(&shell, edge, plane, (depth, making)) };
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
    let mut flange = ShellPlate::new(FLANGE, vec![b, a, a + down, b + down], Face);
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

impl MadeUpLid {
    /// The line that parts it, moved: both ends as far toward the middles of their sides.
    pub(super) fn split_ways<'a>(&'a self, making: &'a Making) -> Vec<Way<'a>> {
        let LidMade::TwoHalves(split) = &self.made else { return Vec::new() };
        let at = move |steps: u32| {
            let step = nearest::step(making);
            let moved = |(side, at): &(String, Length)| {
                let number = self.lid.over.side_number(side)?;
                let middle = Length::from_millimetres(0.5 * self.lid.over.side_mm(number));
                let by = step * i64::from(steps);
                let at = if *at < middle { (*at + by).min(middle) } else { (*at - by).max(middle) };
                Some((side.clone(), at))
            };
            let ends = [moved(&split.ends[0])?, moved(&split.ends[1])?];
            if ends == split.ends {
                return None;
            }
            let words = ends.iter().map(|(side, at)| format!("{} on {side}", making.print(*at)));
            let words = format!("a line from {}", words.collect::<Vec<_>>().join(" to "));
            let made = LidMade::TwoHalves(Split { ends, flange: split.flange });
            Some(Tried { words, recipe: Box::new(Self { made, ..self.clone() }), making: making.clone() })
        };
        vec![Way { field: "split", at: Box::new(at) }]
    }
}
