//! Small pictures of parts for documents: folded and flat, side by side.

use paper::svg;

use super::folded::picture_page;
use super::folder::Files;
use crate::plan::Flats;

/// One picture a part, named after its mark.
pub(crate) fn pictures(flats: &Flats) -> Files {
    let mut files = Files::default();
    for part in &flats.parts {
        files.add(format!("{}.svg", part.part.mark), svg::write(&picture_page(part)));
    }
    files
}
