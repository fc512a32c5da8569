//! Seams where a plate of one piece lies on one of another, as a flange to weld to does: the flange on that plate, what is left of
//! the carrier's edge beyond the flange's ends, and the edge of the other plate over the flange's bend.

use fold::part::{SeamSide, SeamStyle};
use fold::refold::{self, Joint, JointEnd, SeamGap};
use geometry::trig;

use super::weld::{Pieces, weld_name};
use super::{Shell, ShellPiece};
use crate::joined;
use crate::{Fact, JoinedGap, Making, Problem};

/// A flange on a plate of another piece.
struct Lying {
    flange: usize,
    /// The plate it is bent off, and that plate's edge.
    carrier: (usize, usize),
    /// The plate it lies on, and that plate's edge beside it.
    on: (usize, usize),
}

/// A seam as measured and how it is made.
struct Measured {
    gap: SeamGap,
    designed_mm: f64,
    made: String,
}

impl Shell {
    /// Every flange that lies on a plate of another piece.
    fn lying(&self) -> Vec<Lying> {
        let plates = self.plates.iter().enumerate();
        let lying = plates.filter_map(|(flange, plate)| {
            let on = plate.lies_on?;
            let (carrier, _) = *self.bends.iter().find(|(_, bent)| *bent == flange)?;
            let stop = self.plates[carrier].stops.iter().find(|(edge, (other, _))| {
                let joint = self.joint(carrier, *edge);
                *other == on && joint.is_some_and(|joint| joint.other == flange)
            });
            stop.map(|&(edge, at)| Lying { flange, carrier: (carrier, edge), on: at })
        });
        lying.collect()
    }

    /// What was measured where a flange of this piece lies on another, or one of another on this.
    ///
    /// # Errors
    /// A [`Problem`] when a flange does not lie on the other plate as designed.
    pub(super) fn flange_facts(
        &self,
        built: &ShellPiece,
        making: &Making,
    ) -> Result<Vec<Fact>, Vec<Problem>> {
        let mut pieces = Pieces::of(built);
        let mut facts = Vec::new();
        for lying in self.lying() {
            let other = match [lying.flange, lying.on.0].map(|plate| built.plates.contains(&plate)) {
                [true, false] => lying.on.0,
                [false, true] => lying.carrier.0,
                _ => continue,
            };
            // A flange stops short as bent off its carrier, so the other piece is built from that.
            let Some((own, beyond)) = pieces.with(self, other) else { continue };
            let (carrying, carried) = if other == lying.carrier.0 { (beyond, own) } else { (own, beyond) };
            let names = [lying.carrier.0, lying.on.0]
                .map(|plate| format!("the piece of {}", self.plates[plate].name));
            let (Some(first), Some(second)) = (carrying.placed(&names[0]), carried.placed(&names[1])) else {
                continue;
            };
            let pieces = [&carrying.piece, &carried.piece];
            let measured = self.at_flange(&lying, pieces, &[first, second], making)?;
            facts.extend(measured.iter().map(|measured| fact(measured, making)));
        }
        Ok(facts)
    }

    /// The seams about one flange.
    fn at_flange(
        &self,
        lying: &Lying,
        [carrying, carried]: [&ShellPiece; 2],
        placed: &[refold::PlacedPiece<'_>; 2],
        making: &Making,
    ) -> Result<Vec<Measured>, Vec<Problem>> {
        let ends = carrying.face_of(lying.flange).zip(carried.end(1, lying.on));
        let Some((flange, on)) = ends else { return Ok(Vec::new()) };
        let lap = self.lap(lying, (flange, on));
        let proof = refold::measure_whole(placed, std::slice::from_ref(&lap))
            .map_err(|error| vec![joined::problem(&error, "weld_flange", making)])?;
        if let Some(overlap) = &proof.deepest {
            return Err(vec![joined::overlap_problem(overlap, "weld_flange", making)]);
        }
        let SeamStyle::Lap { width_mm, .. } = lap.style else { return Ok(Vec::new()) };
        let made = format!("lap, the flange of {} lies flat against the inside", making.print_mm(width_mm));
        let edge = self.edge_over(lying, &lap, placed, making);
        let laps = proof.seams.into_iter().map(|gap| Measured { gap, designed_mm: 0.0, made: made.clone() });
        Ok(laps.chain([edge]).collect())
    }

    /// The flange on the other plate, as it is measured.
    fn lap(&self, lying: &Lying, (flange, on): (usize, JointEnd)) -> Joint {
        let name = weld_name(&self.plates[lying.carrier.0].name, &self.plates[lying.on.0].name);
        let turn_rad = self.plates[lying.carrier.0].normal().angle_to(self.plates[lying.on.0].normal());
        let (a, b) = self.plates[lying.on.0].edge(lying.on.1);
        let (start, end) = self.plates[lying.flange].edge(1);
        Joint {
            name,
            first: JointEnd { piece: 0, face: flange, edge: 0 },
            second: on,
            inside_angle_rad: std::f64::consts::PI - turn_rad,
            length_mm: a.distance(b) - self.plates[lying.flange].short_mm.iter().sum::<f64>(),
            style: SeamStyle::Lap { width_mm: start.distance(end), carrier: SeamSide::First, outside: false },
            gap_mm: 0.0,
        }
    }

    /// The edge of the other plate over the round of the flange's bend, which is welded along it.
    ///
    /// Source: plane geometry. The edge is cut square where the plate's outside comes to the carrier's, so its inside stands
    /// T·cot(turn) short of where the outsides of the flange's bend cross, up to a quarter turn. What is left, x, of the setback
    /// (R + T)·tan(turn/2) lies over the round, which is √(x² + (R + T)²) − (R + T) below it.
    fn edge_over(
        &self,
        lying: &Lying,
        lap: &Joint,
        placed: &[refold::PlacedPiece<'_>; 2],
        making: &Making,
    ) -> Measured {
        let [at_end, at_start] = self.plates[lying.flange].short_mm;
        let off = refold::edge_off(placed, &lap.second, [at_start, at_end]);
        let radius_mm = self.number.inside_radius().millimetres() + self.thickness_mm();
        let turn_rad = std::f64::consts::PI - lap.inside_angle_rad;
        let short_mm = self.thickness_mm() * (1.0 / trig::tan(turn_rad)).max(0.0);
        let over_mm = (radius_mm * trig::tan(0.5 * turn_rad) - short_mm).max(0.0);
        let gap = SeamGap {
            name: format!("{}, edge of {}", lap.name, self.plates[lying.on.0].name),
            style: SeamStyle::Butt { through: SeamSide::First },
            least_mm: off.least_mm,
            largest_mm: off.largest_mm,
            interference_mm: 0.0,
            at_cut_off_mm: None,
            near_bend: None,
            inside_angle_rad: lap.inside_angle_rad,
            length_mm: lap.length_mm,
            past: None,
        };
        let made = format!(
            "edge over the round of the flange's bend; up to {} open beyond the flange's ends",
            making.print_mm(off.at_ends_mm)
        );
        Measured { gap, designed_mm: trig::hypot(over_mm, radius_mm) - radius_mm, made }
    }
}

fn fact(measured: &Measured, making: &Making) -> Fact {
    let Measured { gap, designed_mm, made } = measured;
    let words = format!(
        "{}, {:.1}° inside, {made}, gap designed {}, least {}, largest {}, no metal in the other piece",
        making.print_mm(gap.length_mm),
        gap.inside_angle_rad.to_degrees(),
        making.print_mm(*designed_mm),
        making.print_mm(gap.least_mm),
        making.print_mm(gap.largest_mm),
    );
    let origin = "corners of the design; angle between the plates; gaps of the refolded pieces, put together";
    let joined = JoinedGap::of(gap, *designed_mm, made.clone());
    Fact { gap: Some(joined), ..Fact::words(format!("weld {}", gap.name), words, origin) }
}
