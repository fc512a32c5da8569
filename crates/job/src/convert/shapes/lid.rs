//! Sizes of a flat lid.

use shapes::lid::{Lid, LidPlan};

use super::edge::edge;
use super::openings;
use crate::convert::clearance::clearance;
use crate::convert::desk::{Desk, Range};
use crate::convert::openings::Openings;
use crate::file::LidFile;
use crate::place::Place;

pub(super) fn lid(file: &LidFile, openings: &Openings, place: &Place, desk: &mut Desk<'_>) -> Option<Lid> {
    let skirt = desk.length(&place.field("skirt"), &file.skirt, Range::AboveZero);
    let plan = plan(file, openings, place, desk);
    let edge = edge(file.edge.as_ref(), place, desk);
    Some(Lid { plan: plan?, skirt: skirt?, edge: edge? })
}

fn plan(file: &LidFile, openings: &Openings, place: &Place, desk: &mut Desk<'_>) -> Option<LidPlan> {
    match (&file.over, &file.clearance, &file.outside) {
        (None, None, Some(outside)) => {
            let [length, width] = desk.pair(&place.field("outside"), outside, Range::AboveZero)?;
            Some(LidPlan::Outside { length, width })
        }
        (Some(over), Some(free), None) => {
            let opening = openings::figure(over, openings, &place.field("over"), desk);
            let clearance = clearance(free, &place.field("clearance"), desk);
            Some(LidPlan::Over { opening: opening?, clearance: clearance? })
        }
        (Some(_), None, None) => {
            let remedy = "give what stays free each side between the opening and the inside of the skirt";
            desk.add(&place.field("clearance"), "", "is missing beside \"over\"", remedy);
            None
        }
        (None, Some(_), _) => {
            let remedy = "give \"over\" too, or take the clearance out";
            desk.add(&place.field("clearance"), "", "goes only with \"over\"", remedy);
            None
        }
        (Some(_), _, Some(_)) => {
            let wrong = "\"over\" and \"outside\" both size the lid";
            desk.add(&place.field("outside"), "", wrong, "keep one of the two");
            None
        }
        (None, None, None) => {
            let remedy = "give \"outside\", or \"over\" with \"clearance\"";
            desk.add(&place.field("outside"), "", "nothing sizes the lid", remedy);
            None
        }
    }
}
