//! Sheet maps, each with its order of cuts below it where both are readable on one leaf; orders that find no such room
//! follow one another behind the maps.

use super::flow::Flow;
use super::{sheet, sizes};
use crate::packet::{DrawnSheet, over_the_cuts};
use crate::page::{PaperSize, READABLE_MM, SMALLEST_MM, fit, room, smallest_text_mm};
use crate::pdf::Leaf;

/// A map is drawn smaller for its order of cuts to this share of the leaf's largest, and never less than readable.
const LEAST_SHARE: f64 = 0.75;

/// Between a map and its order of cuts, mm.
const GAP_MM: f64 = 2.0;

/// All maps, and behind them the orders of cuts that do not stand on their maps.
pub(super) fn leaves(sheets: &[DrawnSheet], paper: PaperSize, map_paper: PaperSize) -> Vec<Leaf<'_>> {
    let (mut leaves, mut waiting) = (Vec::new(), Vec::new());
    for drawn in sheets {
        let mut maps = maps(drawn, map_paper);
        if !drawn.steps.is_empty() {
            match with_order(drawn, map_paper) {
                Some(first) => maps[0] = first,
                None => waiting.push(drawn),
            }
        }
        leaves.extend(maps);
    }
    leaves.extend(orders(&waiting, paper));
    leaves
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
    let largest = sizes(paper).map(|size| fit(page, size)).into_iter().fold(0.0, f64::max);
    let readable = (READABLE_MM / page.text_mm).max(SMALLEST_MM / smallest_text_mm(page));
    let least = readable.max(LEAST_SHARE * largest);
    let ways = sizes(paper).into_iter().filter_map(|size_mm| {
        let mut alone = Flow::new("", size_mm);
        set(&mut alone, &drawn.steps);
        let left = room(size_mm).2 - alone.taken_mm()? - GAP_MM;
        let scale = fit(page, size_mm).min(left / page.height_mm());
        (least <= scale).then_some((scale, size_mm))
    });
    let (scale, size_mm) = ways.max_by(|(a, _), (b, _)| a.total_cmp(b))?;
    let mut leaf = sheet::blank(format!("Sheet: {}", drawn.name), size_mm);
    leaf.drawings.push(sheet::top_middle(page, size_mm, scale));
    let (low, _, height) = room(size_mm);
    let mut flow = Flow::below(leaf, low.y + height - scale * page.height_mm() - GAP_MM);
    set(&mut flow, &drawn.steps);
    flow.taken_mm()?;
    flow.finish().pop()
}

fn set(flow: &mut Flow<'_>, steps: &[String]) {
    flow.heading("Order of cuts");
    flow.paragraph(&over_the_cuts());
    flow.sentences(steps, true);
}

/// The orders of cuts of several sheets, one below the other.
fn orders<'a>(sheets: &[&DrawnSheet], paper: PaperSize) -> Vec<Leaf<'a>> {
    let Some(first) = sheets.first() else { return Vec::new() };
    let is_alone = sheets.len() == 1;
    let name = if is_alone { format!("Order of cuts: {}", first.name) } else { "Orders of cuts".to_owned() };
    let mut flow = Flow::new(&name, paper.upright_mm());
    flow.title(&name);
    flow.paragraph(&over_the_cuts());
    for drawn in sheets {
        if !is_alone {
            flow.heading(&drawn.name);
        }
        flow.sentences(&drawn.steps, true);
    }
    flow.finish()
}
