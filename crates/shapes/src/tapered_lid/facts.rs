//! What a shop reads off a tapered lid, worked from its rim, its top and its rise alone.

use std::f64::consts::FRAC_PI_2;

use geometry::{Point3, Vector3, trig};

use super::TaperedLid;
use crate::plan::at_height;
use crate::{Fact, Figure};

/// Slants, turns, hips and corner angles, outside.
pub(super) fn analytic(lid: &TaperedLid, rim: &Figure, top: &Figure) -> Vec<Fact> {
    let mut facts = Vec::new();
    let rise = lid.rise.millimetres();
    for (side, name) in rim.sides.iter().enumerate() {
        let inset = lid.inset[side].millimetres();
        let turn = trig::atan2(rise, inset);
        let origin = format!("√(inset.{name}² + rise²)");
        facts.push(Fact::length_mm(format!("slant {name}, outside"), trig::hypot(inset, rise), origin));
        let origin = format!("atan(rise / inset.{name})");
        facts.push(Fact::angle_rad(format!("turn at the top {name}"), turn, origin));
        let name_at_rim = format!("turn at the rim {name}");
        if lid.inset[side] > units::Length::ZERO {
            facts.push(Fact::angle_rad(name_at_rim, FRAC_PI_2 - turn, "90° less the turn at the top"));
        } else {
            facts.push(Fact::words(
                name_at_rim,
                "none: this side is plumb from top to foot",
                "inset of zero",
            ));
        }
    }
    for (corner, name) in rim.names.iter().enumerate() {
        let run = rim.corners[corner].distance(top.corners[corner]);
        let hip = trig::hypot(run, rise);
        facts.push(Fact::length_mm(
            format!("hip {name}, outside"),
            hip,
            "√(plan run of the corner² + rise²)",
        ));
        facts.push(Fact::angle_rad(
            format!("hip slope {name}"),
            trig::atan2(rise, run),
            "atan(rise / plan run)",
        ));
    }
    let normals: Vec<Vector3> = (0..rim.count()).map(|side| normal(rim, top, side, rise)).collect();
    for (corner, name) in rim.names.iter().enumerate() {
        let before = normals[(corner + rim.count() - 1) % rim.count()];
        let inside = std::f64::consts::PI - before.angle_to(normals[corner]);
        let origin = "180° less the angle between the two plates' normals";
        facts.push(Fact::angle_rad(format!("inside corner angle, slope at corner {name}"), inside, origin));
    }
    facts
}

/// Outward normal of a sloping side.
fn normal(rim: &Figure, top: &Figure, side: usize, rise_mm: f64) -> Vector3 {
    let (a, b) = rim.side(side);
    let place = |point, z| -> Point3 { at_height(point, z) };
    let along = place(b, 0.0) - place(a, 0.0);
    along.cross(place(top.side(side).0, rise_mm) - place(a, 0.0)).unit()
}
