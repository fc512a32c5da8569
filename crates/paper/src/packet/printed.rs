//! What a browser prints of the page: the leaves of the PDF, each on a sheet of paper of its own size.

use rayon::prelude::*;

use crate::markup::Markup;
use crate::page::Page;
use crate::pdf::Leaf;
use crate::svg;

/// Every size of paper that the leaves need, mm, in their order.
pub(super) fn sizes(leaves: &[Leaf<'_>]) -> Vec<(f64, f64)> {
    let mut sizes: Vec<(f64, f64)> = Vec::new();
    for leaf in leaves {
        if size_of(&sizes, leaf).is_none() {
            sizes.push(leaf.size_mm);
        }
    }
    sizes
}

fn size_of(sizes: &[(f64, f64)], leaf: &Leaf<'_>) -> Option<usize> {
    let same = |a: f64, b: f64| a.total_cmp(&b).is_eq();
    sizes.iter().position(|size| same(size.0, leaf.size_mm.0) && same(size.1, leaf.size_mm.1))
}

/// The leaves, of a page in which these drawings stand already.
pub(super) fn write(
    markup: &mut Markup,
    drawings: &[(&Page, String)],
    (leaves, sizes): (&[Leaf<'_>], &[(f64, f64)]),
) {
    let named = |page: &Page| {
        let known = drawings.iter().find(|(drawing, _)| std::ptr::eq(*drawing, page));
        known.map(|(_, name)| svg::name_of(&format!("{name}-")))
    };
    let drawn = leaves.par_iter().enumerate();
    let drawn: Vec<String> =
        drawn.map(|(number, leaf)| svg::leaf(leaf, &format!("leaf-{number}-"), named)).collect();
    markup.open("div", &[("class", "leaves".to_owned())]);
    for (leaf, drawing) in leaves.iter().zip(&drawn) {
        let size = size_of(sizes, leaf).unwrap_or_default();
        markup.open("div", &[("class", format!("leaf size-{size}"))]);
        markup.raw(drawing);
        markup.close("div");
    }
    markup.close("div");
}
