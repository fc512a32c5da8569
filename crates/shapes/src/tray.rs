//! A tray: a pan with dividers across and along it, slotted into one another where they cross, loose between the walls or
//! with a flange at each end to rivet or weld by.

mod meeting;

use fold::part::Side::Face;
use geometry::{Frame, Plane, Point3, Vector3, tolerance, trig};
use units::Length;

use crate::pan::Pan;
use crate::plan::at_height;
use crate::ring::Corners;
use crate::shell::{Shell, ShellPiece, ShellPlate, shell_problem};
use crate::{CornerStyle, FaceSide, Fact, Figure, Making, Piece, Places, Problem, Recipe, Shaped, whole};

/// A tray.
#[derive(Debug, Clone, PartialEq)]
pub struct Tray {
    /// The pan.
    pub pan: Pan,
    /// Dividers that run across it, beside DA: from the inside of wall DA at the floor to the near face of each.
    pub across: Vec<Length>,
    /// Dividers that run along it, beside AB: from the inside of wall AB at the floor to the near face of each.
    pub along: Vec<Length>,
    /// Height of the dividers above the floor.
    pub height: Length,
    /// What stays free at each end, and at each side of a slot.
    pub play: Length,
    /// Flange at both ends of every divider.
    pub flange: Option<Length>,
}

/// Which way a divider runs, and where its near face is.
#[derive(Debug, Clone, Copy)]
struct Divider {
    /// The side of the floor that it runs beside: 0 (AB) or 3 (DA).
    beside: usize,
    at: Length,
}

/// The far side of the floor from a divider's: what its slots are counted from.
const AB: usize = 0;
const DA: usize = 3;

impl Recipe for Tray {
    fn word(&self) -> &'static str {
        "tray"
    }

    fn words(&self) -> &'static str {
        "tray"
    }

    fn natural_face(&self) -> Option<FaceSide> {
        Some(FaceSide::Inside)
    }

    fn tight_field(&self) -> &'static str {
        "dividers"
    }

    fn field_of_face(&self, face: &str) -> &'static str {
        match face.split(' ').next() {
            Some("floor" | "wall" | "rim") => self.pan.sizing_field(face),
            _ => self.tight_field(),
        }
    }

    fn pieces(&self) -> Vec<Piece> {
        let piece = |suffix: String, words: String| Piece { suffix, words, count: 1 };
        let run = |way: &str, number: usize| {
            piece(format!("{way}{number}"), format!("divider {way}, number {number}, of the tray"))
        };
        let across = (1..=self.across.len()).map(|number| run("across", number));
        let along = (1..=self.along.len()).map(|number| run("along", number));
        let pan = piece("pan".to_owned(), "pan of the tray".to_owned());
        std::iter::once(pan).chain(across).chain(along).collect()
    }

    fn places(&self, piece: usize, making: &Making) -> Places {
        let divider = piece.checked_sub(1).and_then(|number| self.dividers().get(number).copied());
        let (Some(divider), Ok(floor)) = (divider, self.floor(making)) else { return Places::default() };
        self.edges_by_name(divider, &floor, making).unwrap_or_default()
    }

    fn put_together(&self, making: &Making) -> Vec<(usize, Frame)> {
        let Ok(floor) = self.floor(making) else { return Vec::new() };
        let dividers = self.dividers().into_iter().map(|divider| self.built(divider, &floor, making));
        let roots: Result<Vec<Frame>, _> = dividers.map(|built| built.map(|built| built.frames[0])).collect();
        roots.map_or_else(|_| Vec::new(), |roots| whole::numbered(std::iter::once(Frame::WORLD).chain(roots)))
    }

    fn whole_sizes(&self, making: &Making) -> Vec<Fact> {
        let runs = [("across", "DA", &self.across), ("along", "AB", &self.along)];
        let place = |(way, wall, places): (&str, &str, &Vec<Length>)| {
            let all: Vec<String> = places.iter().map(|at| making.print(*at)).collect();
            let name =
                format!("dividers {way}, from the inside of wall {wall} at the floor to their nearer faces");
            (!all.is_empty()).then(|| Fact::words(name, all.join(", "), format!("dividers.{way}")))
        };
        runs.into_iter().filter_map(place).collect()
    }

    fn shape_piece(&self, piece: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        let floor = self.floor(making)?;
        self.check(&floor, making)?;
        let dividers = self.dividers();
        let mut shaped = match piece.checked_sub(1) {
            None => self.pan.shape(making)?,
            Some(number) => self.divider(dividers[number.min(dividers.len() - 1)], &floor, making)?,
        };
        shaped.facts.extend(self.seam_facts(piece, &floor, making)?);
        Ok(shaped)
    }
}

impl Tray {
    /// All dividers, as the pieces have them.
    fn dividers(&self) -> Vec<Divider> {
        let across = self.across.iter().map(|&at| Divider { beside: DA, at });
        let along = self.along.iter().map(|&at| Divider { beside: AB, at });
        across.chain(along).collect()
    }

    /// The pan's floor, square-cornered.
    fn floor(&self, making: &Making) -> Result<Figure, Vec<Problem>> {
        self.pan.check(making)?;
        let (floor, _) = self.pan.floor(making)?;
        let square = |corner: usize| {
            (floor.corner_angle(corner) - std::f64::consts::FRAC_PI_2).abs() <= tolerance::PARALLEL_SINE
        };
        if floor.count() != 4 || !(0..4).all(square) {
            let wrong = "dividers are made for a square-cornered floor";
            return Err(vec![Problem::new(
                "lifts_through",
                "crooked",
                wrong,
                "size the tray by its outside",
            )]);
        }
        Ok(floor)
    }

    fn check(&self, floor: &Figure, making: &Making) -> Result<(), Vec<Problem>> {
        let mut problems = Vec::new();
        making.above_zero("dividers.height", self.height, &mut problems);
        making.not_below_zero("dividers.play", self.play, &mut problems);
        if let Some(flange) = self.flange {
            making.above_zero("dividers.flange", flange, &mut problems);
        }
        let over_rim = Length::from_millimetres(self.pan.over_rim_mm(making));
        let most = self.pan.height - over_rim - making.number.thickness();
        if most < self.height {
            let wrong = "the dividers would stand above the rim";
            let remedy = if making.has_room(most.millimetres()) {
                format!("make them {} or lower", making.print(most))
            } else {
                "no divider fits: the floor's thickness takes all of the height; make the tray higher"
                    .to_owned()
            };
            problems.push(Problem::new("dividers.height", making.print(self.height), wrong, remedy));
        }
        let least = self.taken_off(making);
        if self.height <= least {
            let wrong = "the lower corners, taken off to clear the bends, leave nothing of the ends";
            let remedy = format!("make them higher than {}", making.print(least));
            problems.push(Problem::new("dividers.height", making.print(self.height), wrong, remedy));
        }
        for (field, beside, places) in [("across", DA, &self.across), ("along", AB, &self.along)] {
            self.check_places(field, (beside, places), floor, making, &mut problems);
        }
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }

    /// How much of the lower corners of a divider is taken off at 45°: enough to clear the inside radius of the floor's
    /// bends, and the bend of a flange as well.
    fn taken_off(&self, making: &Making) -> Length {
        let radius = making.number.inside_radius();
        let bend = radius + making.number.thickness();
        if self.flange.is_some() { bend + bend } else { radius }
    }

    /// Dividers must stand apart from the walls beside them and from one another.
    fn check_places(
        &self,
        field: &str,
        (beside, places): (usize, &[Length]),
        floor: &Figure,
        making: &Making,
        problems: &mut Vec<Problem>,
    ) {
        let inside = self.inside(floor, making.thickness_mm(), making);
        let room_mm = if beside == DA { inside.side_mm(AB) } else { inside.side_mm(DA) };
        let least_mm =
            making.number.inside_radius().millimetres() + self.flange.map_or(0.0, Length::millimetres);
        let mut before_mm = 0.0;
        for (number, at) in places.iter().enumerate() {
            let near_mm = at.millimetres();
            let far_mm = near_mm + making.thickness_mm();
            if near_mm < before_mm + least_mm.min(room_mm) || room_mm - far_mm < least_mm {
                let wrong = format!(
                    "leaves less than {} to what is beside it, in {} between the walls",
                    making.print_mm(least_mm),
                    making.print_mm(room_mm)
                );
                let remedy = "give the places in order from the wall, farther apart";
                problems.push(Problem::new(
                    format!("dividers.{field}[{number}]"),
                    making.print(*at),
                    wrong,
                    remedy,
                ));
            }
            before_mm = far_mm;
        }
    }

    /// Plan of the inside of the walls at a height above the outside of the floor.
    fn inside(&self, floor: &Figure, z_mm: f64, making: &Making) -> Figure {
        let outward = |side: usize| {
            let lean = self.pan.lean_rad(side);
            z_mm * trig::tan(lean) - making.thickness_mm() / trig::cos(lean)
        };
        let moved = floor.moved(&(0..floor.count()).map(outward).collect::<Vec<f64>>());
        moved.unwrap_or_else(|| floor.clone())
    }

    /// The inside of a wall, normal outward, less the play.
    fn wall(&self, floor: &Figure, side: usize, making: &Making) -> Plane {
        let (_, outward) = crate::plan::side_directions(floor, side);
        let lean = self.pan.lean_rad(side);
        let normal = outward * trig::cos(lean) + Vector3::new(0.0, 0.0, -trig::sin(lean));
        let on_outside = at_height(floor.corners[side], 0.0);
        Plane::through(on_outside, normal).moved(-making.thickness_mm() - self.play.millimetres())
    }

    fn divider(&self, divider: Divider, floor: &Figure, making: &Making) -> Result<Shaped, Vec<Problem>> {
        let [first, second] = self.ends(divider, floor, making);
        let built = self.built(divider, floor, making)?;
        let facts = vec![
            Fact::length_mm(
                "divider, at the floor",
                first[0].distance(second[0]),
                "inside of the walls less play",
            ),
            Fact::length_mm(
                "divider, at its top",
                first[2].distance(second[2]),
                "inside of the walls less play",
            ),
            Fact::words(
                "lower corners",
                format!("taken off {} to clear the floor's bends", making.print(self.taken_off(making))),
                "inside radius, thickness",
            ),
        ];
        Ok(Shaped { part: built.part, facts })
    }

    /// The walls at the two ends of a divider: numbers of the floor's sides.
    fn walls_of(divider: Divider) -> [usize; 2] {
        if divider.beside == DA { [AB, 2] } else { [DA, 1] }
    }

    /// Of each end of a divider's near face the corner at the floor, above the bend, and at the top.
    fn ends(&self, divider: Divider, floor: &Figure, making: &Making) -> [[Point3; 3]; 2] {
        let thickness_mm = making.thickness_mm();
        let inside = self.inside(floor, thickness_mm, making);
        let start = inside.corners[divider.beside];
        let (_, toward_wall) = crate::plan::side_directions(floor, divider.beside);
        let near = Plane::through(at_height(start, 0.0), toward_wall).moved(-divider.at.millimetres());
        let walls = Self::walls_of(divider).map(|side| self.wall(floor, side, making));
        let level = |z_mm: f64| Plane::through(Point3::new(0.0, 0.0, z_mm), Vector3::new(0.0, 0.0, 1.0));
        let low_mm = thickness_mm + self.taken_off(making).millimetres();
        let heights = [thickness_mm, low_mm, thickness_mm + self.height.millimetres()];
        walls.map(|wall| heights.map(|z_mm| near.meeting(wall, level(z_mm)).unwrap_or_default()))
    }

    fn built(&self, divider: Divider, floor: &Figure, making: &Making) -> Result<ShellPiece, Vec<Problem>> {
        let inside = self.inside(floor, making.thickness_mm(), making);
        let (_, toward_wall) = crate::plan::side_directions(floor, divider.beside);
        let corners = self.outline(divider, self.ends(divider, floor, making), &inside, making);
        let mut shell = Shell {
            plates: vec![ShellPlate::new("divider", corners, Face)],
            bends: Vec::new(),
            number: making.number.clone(),
            // Styles of corners are the tray's own.
            making: Corners { style: CornerStyle::Open, ..making.corners() },
        };
        if shell.plates[0].normal().dot(toward_wall) < 0.0 {
            // Its flat is squared to its first edge, the one on the floor.
            shell.plates[0].corners.reverse();
            shell.plates[0].corners.rotate_right(2);
        }
        for (number, side) in Self::walls_of(divider).into_iter().enumerate() {
            self.end(&mut shell, number, self.wall(floor, side, making), toward_wall);
        }
        shell.piece(0).map_err(|error| vec![shell_problem(&error, "dividers", making)])
    }

    /// Corners of a divider: lower corners taken off by the inside radius, slots where others cross. Of each end the
    /// corner at the floor, above the radius, and at the top.
    fn outline(
        &self,
        divider: Divider,
        [first, second]: [[Point3; 3]; 2],
        inside: &Figure,
        making: &Making,
    ) -> Vec<Point3> {
        let run = (second[0] - first[0]).unit();
        let off_mm = self.taken_off(making).millimetres();
        let up = Vector3::new(0.0, 0.0, 0.5 * self.height.millimetres() + self.play.millimetres());
        let others = if divider.beside == DA { &self.along } else { &self.across };
        let origin = at_height(inside.corners[AB], first[0].z);
        let half_mm = 0.5 * making.thickness_mm() + self.play.millimetres();
        let slots: Vec<[f64; 2]> = others
            .iter()
            .map(|at| {
                let middle_mm = at.millimetres() + 0.5 * making.thickness_mm() - (first[0] - origin).dot(run);
                [middle_mm - half_mm, middle_mm + half_mm]
            })
            .collect();
        let place = |along_mm: f64, z_mm: f64| {
            let p = first[0] + run * along_mm;
            Point3::new(p.x, p.y, z_mm)
        };
        let (low, high) = (first[0].z, first[2].z);
        let mut corners = vec![first[0] + run * off_mm];
        // Those that run across have their slots from below, the others from above.
        if divider.beside == DA {
            for [near, far] in &slots {
                corners.extend([
                    place(*near, low),
                    place(*near, low) + up,
                    place(*far, low) + up,
                    place(*far, low),
                ]);
            }
        }
        corners.extend([second[0] + run * -off_mm, second[1], second[2]]);
        if divider.beside == AB {
            for [near, far] in slots.iter().rev() {
                corners.extend([
                    place(*far, high),
                    place(*far, high) + -up,
                    place(*near, high) + -up,
                    place(*near, high),
                ]);
            }
        }
        corners.extend([first[2], first[1]]);
        corners
    }

    /// Cuts an end along its wall, or bends a flange there, flat against the wall.
    fn end(&self, shell: &mut Shell, number: usize, wall: Plane, toward_wall: Vector3) {
        let on = |p: Point3| wall.distance(p).abs() <= tolerance::SAME_POINT_MM;
        let count = shell.plates[0].corners.len();
        let along_wall = |&edge: &usize| {
            let (a, b) = shell.plates[0].edge(edge);
            on(a) && on(b)
        };
        let Some(edge) = (0..count).find(along_wall) else { return };
        let Some(width) = self.flange else {
            shell.plates[0].cuts.push((edge, wall));
            return;
        };
        let (a, b) = shell.plates[0].edge(edge);
        // The flange turns away from the near face, so that its face side lies against the wall.
        let away = toward_wall * -width.millimetres();
        let flange = ShellPlate::new(format!("flange {}", number + 1), vec![b, a, a + away, b + away], Face);
        shell.bends.push((0, shell.plates.len()));
        shell.plates.push(flange);
    }
}
