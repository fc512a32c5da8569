//! Sizes of a panel.

use shapes::panel::Panel;

use super::{drawn, edge, features};
use crate::convert::desk::Desk;
use crate::file::PanelFile;
use crate::place::Place;

pub(super) fn panel(file: &PanelFile, place: &Place, desk: &mut Desk<'_>) -> Option<Panel> {
    let outline = drawn::figure(file.size.as_ref(), file.outline.as_ref(), "", place, desk);
    let flanges = features::flanges(&file.flanges, &place.field("flanges"), desk);
    let holes = features::holes(&file.holes, &place.field("holes"), desk);
    let notches = features::notches(&file.notches, &place.field("notches"), desk);
    let edges = edge::edges(&file.edges, &place.field("edges"), desk);
    let (outline, flanges, holes) = (outline?, flanges?, holes?);
    Some(Panel { outline, flanges, holes, notches: notches?, edges: edges? })
}
