//! Sheet maps, each with its order of cuts below it where both are readable on one leaf, else on the next leaf.

use super::flow::Flow;
use super::{sheet, sizes};
use crate::packet::DrawnSheet;
use crate::page::{PaperSize, READABLE_MM, SMALLEST_MM, fit, room, smallest_text_mm};
use crate::pdf::Leaf;

/// Between a map and its order of cuts, mm.
const GAP_MM: f64 = 2.0;

/// The maps of every sheet, each with its order of cuts.
pub(super) fn leaves(sheets: &[DrawnSheet], paper: PaperSize, map_paper: PaperSize) -> Vec<Leaf<'_>> {
    let of_sheet = |drawn| {
        let mut maps = maps(drawn, map_paper);
        if !drawn.steps.is_empty() {
            match with_order(drawn, map_paper) {
                Some(first) => maps[0] = first,
                None => maps.extend(order(drawn, paper)),
            }
        }
        maps
    };
    sheets.iter().flat_map(of_sheet).collect()
}

fn maps(drawn: &DrawnSheet, paper: PaperSize) -> Vec<Leaf<'_>> {
    let named = |number: usize, title: &str| match number {
        0 => format!("Sheet: {}", drawn.name),
        _ => format!("Sheet: {}", title.rsplit(": ").next().unwrap_or(&drawn.name)),
    };
    let pages = drawn.pages.iter().enumerate();
    pages.map(|(number, page)| sheet::drawn(named(number, &page.title), page, sizes(paper))).collect()
}

/// The first map of a sheet with the order of cuts below it, the paper held the way that leaves the map larger.
fn with_order(drawn: &DrawnSheet, paper: PaperSize) -> Option<Leaf<'_>> {
    let page = drawn.pages.first()?;
    let least = (READABLE_MM / page.text_mm).max(SMALLEST_MM / smallest_text_mm(page));
    let ways = sizes(paper).into_iter().filter_map(|size_mm| {
        let mut alone = Flow::new("", size_mm);
        set(&mut alone, drawn);
        let left = room(size_mm).2 - alone.taken_mm()? - GAP_MM;
        let scale = fit(page, size_mm).min(left / page.height_mm());
        (least <= scale).then_some((scale, size_mm))
    });
    let (scale, size_mm) = ways.max_by(|(a, _), (b, _)| a.total_cmp(b))?;
    let mut leaf = sheet::blank(format!("Sheet: {}", drawn.name), size_mm);
    leaf.drawings.push(sheet::top_middle(page, size_mm, scale));
    let (low, _, height) = room(size_mm);
    let mut flow = Flow::below(leaf, low.y + height - scale * page.height_mm() - GAP_MM);
    set(&mut flow, drawn);
    flow.taken_mm()?;
    flow.finish().pop()
}

fn set(flow: &mut Flow<'_>, drawn: &DrawnSheet) {
    flow.heading("Order of cuts");
    flow.paragraph(&drawn.over_the_cuts);
    flow.sentences(&drawn.steps, true);
}

/// The order of cuts of one sheet on leaves of its own.
fn order<'a>(drawn: &DrawnSheet, paper: PaperSize) -> Vec<Leaf<'a>> {
    let name = format!("Order of cuts: {}", drawn.name);
    let mut flow = Flow::new(&name, paper.upright_mm());
    flow.title(&name);
    flow.paragraph(&drawn.over_the_cuts);
    flow.sentences(&drawn.steps, true);
    flow.finish()
}
