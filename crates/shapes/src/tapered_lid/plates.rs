//! The plates of a tapered lid, and which of them are bent out of one piece.

use fold::flat::{self, UnfoldError};
use fold::part::Side::Face;
use geometry::{Frame, Point3, Vector3};
use units::Length;

use super::made_up::{LidMade, LiftingNotch, MadeUpLid};
use super::split;
use crate::plan::at_height;
use crate::shell::{Shell, ShellPiece, ShellPlate, shell_problem};
use crate::{Fact, Figure, Making, Problem};

/// The plates of a lid with their joints.
pub(super) struct LidPlates<'a> {
    lid: &'a MadeUpLid,
    making: &'a Making,
    /// One shell for each half of a lid that is parted, else one.
    shells: Vec<Shell>,
    /// Shell and root of every piece.
    roots: Vec<(usize, usize)>,
}

/// Plate numbers of one side.
#[derive(Debug, Clone, Copy)]
pub(super) struct SidePlates {
    /// The slope, or the whole side where it is plumb.
    pub(super) slope: usize,
}

impl<'a> LidPlates<'a> {
    /// All plates of the lid.
    pub(super) fn new(
        lid: &'a MadeUpLid,
        rim: &Figure,
        top: &Figure,
        making: &'a Making,
    ) -> Result<Self, Vec<Problem>> {
        let mut shell = Shell {
            plates: Vec::new(),
            bends: Vec::new(),
            number: making.number.clone(),
            making: making.corners(),
        };
        let corners = top.corners.iter().map(|&corner| at_height(corner, 0.0)).collect();
        shell.plates.push(ShellPlate::new("top", corners, Face));
        let inner = inner_of_return(lid, rim, making)?;
        let sides: Vec<SidePlates> = (0..rim.count())
            .map(|side| add_side(lid, (rim, top, inner.as_ref()), side, &mut shell))
            .collect();
        if let Some(notch) = &lid.notch {
            cut_notch(notch, rim, &mut shell, making)?;
        }
        let count = sides.len();
        let (shells, roots) = match &lid.made {
            LidMade::OnePiece => {
                shell.bends.extend(sides.iter().map(|side| (0, side.slope)));
                (vec![shell], vec![(0, 0)])
            }
            LidMade::TopAndRing => {
                shell.bends.extend((1..count).map(|side| (sides[side - 1].slope, sides[side].slope)));
                (vec![shell], vec![(0, 0), (0, sides[count / 2].slope)])
            }
            LidMade::Plates => {
                let roots = std::iter::once(0).chain(sides.iter().map(|side| side.slope));
                (vec![shell], roots.map(|root| (0, root)).collect())
            }
            LidMade::TwoHalves(line) => {
                shell.bends.extend(sides.iter().map(|side| (0, side.slope)));
                let halves = split::halves(line, rim, &shell, (lid.lid.rise, making))?;
                (halves, vec![(0, 0), (1, 0)])
            }
        };
        Ok(Self { lid, making, shells, roots })
    }

    /// Where the root face of every piece lies.
    pub(super) fn root_frames(&self) -> Vec<Frame> {
        self.roots.iter().flat_map(|&(shell, root)| self.shells[shell].roots(std::iter::once(root))).collect()
    }

    /// Builds a piece, and what is to be welded to it.
    pub(super) fn piece(&self, piece: usize) -> Result<(ShellPiece, Vec<Fact>), Vec<Problem>> {
        let (shell, root) = self.roots[piece.min(self.roots.len() - 1)];
        let shell = &self.shells[shell];
        let mut built =
            shell.piece(root).map_err(|error| vec![shell_problem(&error, "inset", self.making)])?;
        if let (Err(UnfoldError::Overlap { first, second }), false) =
            (flat::unfold(&built.part), self.lid.made == LidMade::OnePiece)
        {
            let wrong = format!("{first} and {second} would lie on one another in the flat");
            return Err(vec![Problem::new("made", "as given", wrong, "make it of plates")]);
        }
        let mut welds = shell.weld_facts(&built, self.making)?;
        if let [first, second] = self.shells.as_slice() {
            welds.extend(split::seam_facts((piece, &built), [first, second], self.making)?);
        }
        welds.extend(self.lid.treat(shell, &mut built, self.making)?);
        Ok((built, welds))
    }
}

/// Inner edges of the return.
fn inner_of_return(lid: &MadeUpLid, rim: &Figure, making: &Making) -> Result<Option<Figure>, Vec<Problem>> {
    let Some(width) = lid.lid.return_width else { return Ok(None) };
    let inner = rim.grown(-width.millimetres()).ok_or_else(|| {
        let narrow = (0..rim.count()).map(|side| rim.side_mm(side)).fold(f64::INFINITY, f64::min);
        let remedy = making.keep_under(0.5 * narrow, "the rim has no width");
        vec![Problem::new("return", making.print(width), "the returns of opposite sides meet", remedy)]
    })?;
    Ok(Some(inner))
}

/// Adds slope, skirt and return of one side, bent off one another.
fn add_side(
    lid: &MadeUpLid,
    (rim, top, inner): (&Figure, &Figure, Option<&Figure>),
    side: usize,
    shell: &mut Shell,
) -> SidePlates {
    let count = rim.count();
    let next = (side + 1) % count;
    let (rim_z, skirt_mm) = (-lid.lid.rise.millimetres(), lid.lid.skirt.millimetres());
    let foot_z = rim_z - skirt_mm;
    let at = |figure: &Figure, corner: usize, z: f64| at_height(figure.corners[corner], z);
    let name = &rim.sides[side];
    let [rim_a, rim_b] = [side, next].map(|corner| at(rim, corner, rim_z));
    let [foot_a, foot_b] = [side, next].map(|corner| at(rim, corner, foot_z));
    let [top_a, top_b] = [side, next].map(|corner| at(top, corner, 0.0));
    let slope = shell.plates.len();
    let plumb = |side: usize| lid.lid.inset[side] <= Length::ZERO;
    let mut last = slope;
    if plumb(side) {
        let mut corners = vec![foot_a, foot_b];
        corners.extend((!plumb(next)).then_some(rim_b));
        corners.extend([top_b, top_a]);
        corners.extend((!plumb((side + count - 1) % count)).then_some(rim_a));
        shell.plates.push(ShellPlate::new(format!("plumb side {name}"), corners, Face));
    } else {
        let corners = vec![rim_a, rim_b, top_b, top_a];
        shell.plates.push(ShellPlate::new(format!("slope {name}"), corners, Face));
        let skirt = vec![foot_a, foot_b, rim_b, rim_a];
        shell.plates.push(ShellPlate::new(format!("skirt {name}"), skirt, Face));
        last = slope + 1;
        shell.bends.push((slope, last));
    }
    if let Some(inner) = inner {
        let [inner_a, inner_b] = [side, next].map(|corner| at(inner, corner, foot_z));
        let corners = vec![inner_a, inner_b, foot_b, foot_a];
        shell.plates.push(ShellPlate::new(format!("return {name}"), corners, Face));
        shell.bends.push((last, last + 1));
    }
    SidePlates { slope }
}

/// Cuts the notch into the foot of a skirt or plumb side.
fn cut_notch(
    notch: &LiftingNotch,
    rim: &Figure,
    shell: &mut Shell,
    making: &Making,
) -> Result<(), Vec<Problem>> {
    let Some(side) = rim.side_number(&notch.side) else { return Ok(()) };
    let name = &rim.sides[side];
    let wanted = [format!("skirt {name}"), format!("plumb side {name}")];
    let Some(plate) = shell.plates.iter_mut().find(|plate| wanted.contains(&plate.name)) else {
        return Ok(());
    };
    let (a, b) = plate.edge(0);
    let length_mm = a.distance(b);
    let forward = notch.side.starts_with(rim.names[side].as_str());
    let middle_mm = match notch.at {
        None => 0.5 * length_mm,
        Some(at) if forward => at.millimetres(),
        Some(at) => length_mm - at.millimetres(),
    };
    let half_mm = 0.5 * notch.width.millimetres();
    let end_mm = making.thickness_mm() + making.number.inside_radius().millimetres();
    if middle_mm - half_mm <= end_mm || middle_mm + half_mm >= length_mm - end_mm {
        let wrong = format!("the notch does not lie within the side, {} long", making.print_mm(length_mm));
        let most_mm = length_mm - 2.0 * end_mm;
        let remedy = if making.has_room(most_mm) {
            format!("move it to the middle, or keep its width under {}", making.print_mm(most_mm))
        } else {
            "no notch fits: the bends at its corners take all of the side".to_owned()
        };
        return Err(vec![Problem::new("notch", making.print(notch.width), wrong, remedy)]);
    }
    let (along, up) = ((b - a).unit(), Vector3::new(0.0, 0.0, notch.depth.millimetres()));
    let corner_mm = notch.corner.millimetres();
    let place = |along_mm: f64, share: f64| -> Point3 { a + along * along_mm + up * share };
    let (near, far) = (middle_mm - half_mm, middle_mm + half_mm);
    let below = 1.0 - corner_mm / notch.depth.millimetres();
    let taken_off = corner_mm > geometry::tolerance::SAME_POINT_MM;
    let head = if taken_off {
        vec![place(near, below), place(near + corner_mm, 1.0), place(far - corner_mm, 1.0), place(far, below)]
    } else {
        vec![place(near, 1.0), place(far, 1.0)]
    };
    let corners = [vec![place(near, 0.0)], head, vec![place(far, 0.0)]].concat();
    let ends = [place(near, 0.0), place(far, 0.0)];
    plate.corners.splice(1..1, corners);
    part_return(shell, (rim, side), ends, making)
}

/// Parts the return of a side, where it has one, into one on each side of its notch, whose two ends at the foot are given.
fn part_return(
    shell: &mut Shell,
    (rim, side): (&Figure, usize),
    ends: [Point3; 2],
    making: &Making,
) -> Result<(), Vec<Problem>> {
    let name = format!("return {}", rim.sides[side]);
    let Some(first) = shell.plates.iter().position(|plate| plate.name == name) else { return Ok(()) };
    let [inner_a, inner_b, foot_b, foot_a] = shell.plates[first].corners[..] else { return Ok(()) };
    let along = (foot_b - foot_a).unit();
    let inward = inner_a - foot_a - along * (inner_a - foot_a).dot(along);
    let [near, far] = ends.map(|end| [end, end + inward]);
    // A notch and as much metal again beside what the mitre takes.
    let least_mm = 2.0 * making.corners().notch_width_mm;
    let left_mm = [(near[1] - inner_a).dot(along), (inner_b - far[1]).dot(along)];
    if let Some(left_mm) = left_mm.into_iter().find(|left_mm| *left_mm < least_mm) {
        let wrong = "leaves too little of the return between it and the corner";
        let remedy = format!(
            "move it {} toward the middle of the side, make it narrower, or leave out the return",
            making.print_mm(least_mm - left_mm)
        );
        return Err(vec![Problem::new("notch", &rim.sides[side], wrong, remedy)]);
    }
    let Some(carrier) = shell.bends.iter().find(|bend| bend.1 == first).map(|bend| bend.0) else {
        return Ok(());
    };
    let corner = |corner: usize| &rim.names[corner % rim.count()];
    let halves = [
        (corner(side), vec![inner_a, near[1], near[0], foot_a]),
        (corner(side + 1), vec![far[1], inner_b, foot_b, far[0]]),
    ];
    let [one, other] =
        halves.map(|(corner, corners)| ShellPlate::new(format!("{name} at {corner}"), corners, Face));
    shell.plates[first] = one;
    shell.bends.push((carrier, shell.plates.len()));
    shell.plates.push(other);
    Ok(())
}
