//! How dividers stand in their tray, and the measure of it: pan and dividers refolded and put together in space.

use std::f64::consts::FRAC_PI_2;

use fold::part::{SeamSide, SeamStyle};
use fold::refold::{Joint, JointEnd};
use geometry::{Frame, Point3, polygon};

use super::{Divider, Tray};
use crate::joined::{self, Joined, Standing};
use crate::{Fact, Figure, Making, Places, Problem};

impl Tray {
    /// How far every divider stands off the walls at its ends and off the floor, of those that `piece` has a share in.
    pub(super) fn seam_facts(
        &self,
        piece: usize,
        floor: &Figure,
        making: &Making,
    ) -> Result<Vec<Fact>, Vec<Problem>> {
        let pan =
            Standing { name: "the pan".to_owned(), part: self.pan.shape(making)?.part, root: Frame::WORLD };
        let mut pieces = vec![pan];
        let (mut joints, mut lost) = (Vec::new(), Vec::new());
        for (number, divider) in self.dividers().into_iter().enumerate() {
            let built = self.built(divider, floor, making)?;
            let name = match number.checked_sub(self.across.len()) {
                None => format!("divider across {}", number + 1),
                Some(along) => format!("divider along {}", along + 1),
            };
            let (root, part) = (built.frames[0], built.part);
            pieces.push(Standing { name, part, root });
            let (found, unfound) = self.joints(&pieces, divider, floor, making);
            joints.extend(found);
            // The pan and the divider itself have a share in what was not found.
            let shares = piece == 0 || piece == pieces.len() - 1;
            lost.extend(unfound.into_iter().filter(|_| shares));
        }
        for (own, other) in self.crossings() {
            match self.crossing((own, other), &pieces, making) {
                Some(joint) => joints.push(joint),
                None if [0, own, other].contains(&piece) => {
                    lost.push(format!("{} to {}", pieces[own].name, pieces[other].name));
                }
                None => {}
            }
        }
        let measured = joined::seam_facts(piece, &pieces, &joints, ["dividers", "dividers"], making)?;
        let lost =
            lost.iter().map(|name| joined::unmeasured(name, "no straight edge lies along the other plate"));
        Ok(measured.into_iter().chain(lost).collect())
    }

    /// The ends of a divider by the walls that they meet, and its edges on the floor and on top: its slots are not in its middle, so
    /// that turned round it would fit no tray.
    pub(super) fn edges_by_name(
        &self,
        divider: Divider,
        floor: &Figure,
        making: &Making,
    ) -> Result<Places, Vec<Problem>> {
        let built = self.built(divider, floor, making)?;
        let own = Standing { name: String::new(), part: built.part, root: built.frames[0] };
        let on_face = |corner: Point3| own.root.local(corner).0;
        let ends = Self::walls_of(divider).into_iter().zip(self.ends(divider, floor, making));
        let places = ends.fold(Places::default(), |places, (side, [_, low, high])| {
            places.with_edge(&format!("end at wall {}", floor.sides[side]), on_face(low), on_face(high))
        });
        let top_mm = making.thickness_mm() + self.height.millimetres();
        let top = Self::runs(&own, |point| own.root.place(point, 0.0).z - top_mm);
        let level = [("floor edge", Self::foot(&own, making)), ("top edge", top)];
        Ok(level.iter().fold(places, |places, (words, runs)| match Self::longest(runs) {
            // Of an edge with slots in it the longest run has the words.
            Some(edge) => {
                let (a, b) = own.part.faces[0].edge(edge);
                places.with_edge(words, a, b)
            }
            None => places,
        }))
    }

    /// Every pair of dividers that cross, by their places among the pieces: across and along.
    fn crossings(&self) -> Vec<(usize, usize)> {
        let (across, along) = (self.across.len(), self.along.len());
        (0..across).flat_map(|own| (0..along).map(move |other| (1 + own, 1 + across + other))).collect()
    }

    /// The slot of a divider that runs across, on the plate that stands in it: its sides stand the play off both faces.
    fn crossing(
        &self,
        (piece, other): (usize, usize),
        pieces: &[Standing],
        making: &Making,
    ) -> Option<Joined> {
        let (own, through) = (&pieces[piece], &pieces[other]);
        let off_mm = self.play.millimetres();
        let runs = Self::runs(own, |point| {
            // A square cut stands off by the same on both sides of its own metal.
            let (_, z_mm) = through.root.local(own.root.place(point, 0.0));
            (z_mm + off_mm).abs().min((z_mm - making.thickness_mm() - off_mm).abs())
        });
        // Both sides of the slot run along the other plate; one of them is the seam.
        let edge = Self::longest(&runs)?;
        let ends = [JointEnd { piece, face: 0, edge }, JointEnd { piece: other, face: 0, edge: 0 }];
        let name = format!("{} to {}", own.name, through.name);
        let style = SeamStyle::Butt { through: SeamSide::Second };
        let words = "crossed, each in a slot of the other".to_owned();
        Some(self.joint((name, words), ends, (style, off_mm), pieces))
    }

    /// The last divider against the walls and on the floor; and the names of those of these seams that are not found.
    fn joints(
        &self,
        pieces: &[Standing],
        divider: Divider,
        floor: &Figure,
        making: &Making,
    ) -> (Vec<Joined>, Vec<String>) {
        let piece = pieces.len() - 1;
        let own = &pieces[piece];
        let wall_name = |side: usize| format!("wall {}", floor.sides[side]);
        let against = |(end, side): (usize, usize)| {
            let wall = wall_name(side);
            let face = pieces[0].part.faces.iter().position(|face| face.name == wall)?;
            let second = JointEnd { piece: 0, face, edge: 0 };
            let flange = format!("flange {}", end + 1);
            let (first, style, words) = match self.flange {
                Some(width) => {
                    let face = own.part.faces.iter().position(|face| face.name == flange)?;
                    let style = SeamStyle::Lap {
                        width_mm: width.millimetres(),
                        carrier: SeamSide::First,
                        outside: false,
                    };
                    let words = format!("lap, a flange of {} lies along the wall", making.print(width));
                    (JointEnd { piece, face, edge: 2 }, style, words)
                }
                None => {
                    let edge = self.end_edge(own, side, floor, making)?;
                    let style = SeamStyle::Butt { through: SeamSide::Second };
                    (JointEnd { piece, face: 0, edge }, style, "the divider stops at the wall".to_owned())
                }
            };
            let name = format!("{} to {wall}", own.name);
            Some(self.joint((name, words), [first, second], (style, self.play.millimetres()), pieces))
        };
        let (mut joints, mut lost) = (Vec::new(), Vec::new());
        for (end, side) in Self::walls_of(divider).into_iter().enumerate() {
            match against((end, side)) {
                Some(joint) => joints.push(joint),
                None => lost.push(format!("{} to {}", own.name, wall_name(side))),
            }
        }
        let foot = Self::foot(own, making);
        if let Some(edge) = Self::longest(&foot) {
            let ends = [JointEnd { piece, face: 0, edge }, JointEnd { piece: 0, face: 0, edge: 0 }];
            let style = SeamStyle::Butt { through: SeamSide::Second };
            let runs: Vec<String> = foot.iter().map(|(_, long_mm)| making.print_mm(*long_mm)).collect();
            let words = match &runs[..] {
                [_] => "the divider stands on the floor".to_owned(),
                several => {
                    format!(
                        "the divider stands on the floor in {} runs, {}",
                        several.len(),
                        several.join(" + ")
                    )
                }
            };
            let mut joined =
                self.joint((format!("{} to floor", own.name), words), ends, (style, 0.0), pieces);
            joined.joint.length_mm = foot.iter().map(|(_, long_mm)| long_mm).sum();
            joints.push(joined);
        } else {
            lost.push(format!("{} to floor", own.name));
        }
        (joints, lost)
    }

    fn joint(
        &self,
        (name, words): (String, String),
        [first, second]: [JointEnd; 2],
        (style, gap_mm): (SeamStyle, f64),
        pieces: &[Standing],
    ) -> Joined {
        let (a, b) = pieces[first.piece].part.faces[first.face].edge(first.edge);
        let length_mm = a.distance(b);
        let joint = Joint { name, first, second, inside_angle_rad: FRAC_PI_2, length_mm, style, gap_mm };
        Joined { joint, style: words }
    }

    /// The longest edge of a divider within the play of a wall.
    fn end_edge(&self, own: &Standing, side: usize, floor: &Figure, making: &Making) -> Option<usize> {
        let wall = self.wall(floor, side, making);
        let runs = Self::runs(own, |point| {
            // A square cut along a leaning wall touches the play's plane on one side of the metal only.
            let reach = |z_mm: f64| wall.distance(own.root.place(point, z_mm));
            reach(0.0).max(reach(making.thickness_mm()))
        });
        Self::longest(&runs)
    }

    /// The edges of a divider on the floor, between the slots of those that cross it, with their lengths, mm.
    fn foot(own: &Standing, making: &Making) -> Vec<(usize, f64)> {
        Self::runs(own, |point| own.root.place(point, 0.0).z - making.thickness_mm())
    }

    /// The edges of a divider's plate along which `off` is nothing, with their lengths, mm.
    fn runs(own: &Standing, off: impl Fn(geometry::Point) -> f64) -> Vec<(usize, f64)> {
        let on = |point| off(point).abs() <= geometry::tolerance::REFOLD_MM;
        let edges = polygon::edges(&own.part.faces[0].corners).enumerate();
        let along = edges.filter(|(_, (p, q))| on(*p) && on(*q));
        along.map(|(number, (p, q))| (number, p.distance(q))).collect()
    }

    /// The longest of such edges.
    fn longest(runs: &[(usize, f64)]) -> Option<usize> {
        runs.iter().max_by(|a, b| a.1.total_cmp(&b.1)).map(|(number, _)| *number)
    }
}
