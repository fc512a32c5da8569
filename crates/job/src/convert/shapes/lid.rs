//! Sizes of a flat lid.

use shapes::lid::{Crown, CrownedLid, Lid, LidPlan, SkirtEdge};

use super::edge::edge;
use super::openings;
use crate::convert::clearance::clearance;
use crate::convert::desk::{Desk, Range};
use crate::convert::openings::Openings;
use crate::file::{CrownFile, LidFile, SkirtEdgeFile};
use crate::model::ShapeInput;
use crate::place::Place;

pub(super) fn lid(
    file: &LidFile,
    openings: &Openings,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<ShapeInput> {
    let skirt = desk.length(&place.field("skirt"), &file.skirt, Range::AboveZero);
    let plan = plan(file, openings, place, desk);
    let edge = edge(file.edge.as_ref(), place, desk);
    let crown = match &file.crown {
        Some(file) => Some(crown(file, &place.field("crown"), desk)?),
        None => None,
    };
    let lid = Lid { plan: plan?, skirt: skirt?, edge: edge? };
    if crown.is_some() && lid.edge != shapes::edge::EdgeEnd::Plain {
        let wrong = "the skirt of a crowned lid has no hem, return or curl";
        let remedy = "take out \"crown\": a flat lid has the edge; or take out \"edge\", and make the skirt deeper by what it \
                      would have stood in";
        desk.add(&place.field("edge"), "given with crown", wrong, remedy);
        return None;
    }
    Some(match crown {
        Some(crown) => ShapeInput::CrownedLid(CrownedLid { lid, crown }),
        None => ShapeInput::Lid(lid),
    })
}

fn crown(file: &CrownFile, place: &Place, desk: &mut Desk<'_>) -> Option<Crown> {
    let rise = desk.length(&place.field("rise"), &file.rise, Range::AboveZero)?;
    let skirt_edge = match file.skirt_edge {
        Some(SkirtEdgeFile::AlongCrown) => SkirtEdge::AlongCrown,
        Some(SkirtEdgeFile::Level) | None => SkirtEdge::Level,
    };
    Some(Crown { rise, along: file.along.clone(), skirt_edge })
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
