//! Leaves, fonts and bookmarks put together, every object under a fixed number.

use pdf_writer::types::{CidFontType, FontFlags, PageMode, SystemInfo, UnicodeCmap};
use pdf_writer::{Filter, Finish, Name, Pdf, Rect, Ref, Str, TextStr};
use rayon::prelude::*;

use super::content::{self, FONT_NAMES, points};
use super::letters::Letters;
use super::{Leaf, PdfError};
use crate::markup::readable;
use crate::page::font::Weight;

/// How hard streams are pressed together, of ten.
const PRESSING: u8 = 6;

/// Objects of the document as a whole: catalogue, tree of pages, tree of bookmarks, information.
const CATALOGUE: i32 = 1;
const TREE: i32 = 2;
const OUTLINE: i32 = 3;
const INFORMATION: i32 = 4;

/// The first object of the fonts, and how many each has: font, letters, description, file, meaning.
const FIRST_FONT: i32 = 5;
const PER_FONT: i32 = 5;

/// The first object of the leaves, and how many each has: page, content. Bookmarks stand behind the last of them.
const FIRST_LEAF: i32 = FIRST_FONT + 2 * PER_FONT;
const PER_LEAF: i32 = 2;

/// Names of the cut-down fonts: six letters before the plus sign mark a part of a font.
const FONT_NAMED: [&[u8]; 2] = [b"PLATEA+LiberationSans", b"PLATEB+LiberationSans-Bold"];

const ORDER: SystemInfo<'static> =
    SystemInfo { registry: Str(b"Adobe"), ordering: Str(b"Identity"), supplement: 0 };

pub(super) fn write(title: &str, leaves: &[Leaf<'_>]) -> Result<Vec<u8>, PdfError> {
    let count = i32::try_from(leaves.len()).map_err(|_| PdfError::TooLarge)?;
    let marks = bookmarks(leaves);
    let bookmarks = i32::try_from(marks.len()).map_err(|_| PdfError::TooLarge)?;
    if (i32::MAX - FIRST_LEAF - bookmarks) / PER_LEAF <= count {
        return Err(PdfError::TooLarge);
    }
    let mut pdf = Pdf::new();
    let mut catalogue = pdf.catalog(Ref::new(CATALOGUE));
    catalogue.pages(Ref::new(TREE));
    if 0 < count {
        catalogue.outlines(Ref::new(OUTLINE)).page_mode(PageMode::UseOutlines);
    }
    catalogue.finish();
    pdf.document_info(Ref::new(INFORMATION)).title(TextStr(&readable(title))).producer(TextStr("plateloft"));
    pdf.pages(Ref::new(TREE)).kids((0..count).map(|number| leaf_object(number, 0))).count(count);
    let mut fonts = [Letters::of(Weight::Regular)?, Letters::of(Weight::Bold)?];
    // Letters are numbered as they come; pressing is the longer part and needs no order.
    let commands: Vec<Vec<u8>> = leaves.iter().map(|leaf| content::write(leaf, &mut fonts)).collect();
    let commands: Vec<Vec<u8>> = commands.par_iter().map(|commands| pressed(commands)).collect();
    for ((number, leaf), commands) in (0..count).zip(leaves).zip(&commands) {
        write_leaf(&mut pdf, number, leaf, commands);
    }
    if 0 < count {
        write_bookmarks(&mut pdf, leaf_object(count, 0), &marks);
    }
    for (number, letters) in (0..).zip(&fonts) {
        write_font(&mut pdf, number, letters)?;
    }
    Ok(pdf.finish())
}

fn leaf_object(number: i32, which: i32) -> Ref {
    Ref::new(FIRST_LEAF + PER_LEAF * number + which)
}

fn font_object(number: i32, which: i32) -> Ref {
    Ref::new(FIRST_FONT + PER_FONT * number + which)
}

fn pressed(bytes: &[u8]) -> Vec<u8> {
    miniz_oxide::deflate::compress_to_vec_zlib(bytes, PRESSING)
}

fn write_leaf(pdf: &mut Pdf, number: i32, leaf: &Leaf<'_>, commands: &[u8]) {
    let (width, height) = leaf.size_mm;
    let mut page = pdf.page(leaf_object(number, 0));
    page.parent(Ref::new(TREE)).media_box(Rect::new(0.0, 0.0, points(width), points(height)));
    page.contents(leaf_object(number, 1));
    let mut resources = page.resources();
    resources.fonts().pair(FONT_NAMES[0], font_object(0, 0)).pair(FONT_NAMES[1], font_object(1, 0));
    resources.finish();
    page.finish();
    pdf.stream(leaf_object(number, 1), commands).filter(Filter::FlateDecode);
}

/// Every bookmark: its words and the number of its leaf.
fn bookmarks<'l>(leaves: &'l [Leaf<'_>]) -> Vec<(&'l str, i32)> {
    let of_leaf = |(number, leaf): (i32, &'l Leaf<'_>)| {
        std::iter::once(&leaf.bookmark).chain(&leaf.also).map(move |words| (words.as_str(), number))
    };
    (0..).zip(leaves).flat_map(of_leaf).collect()
}

/// The bookmarks under numbers from `first` on.
fn write_bookmarks(pdf: &mut Pdf, first: Ref, marks: &[(&str, i32)]) {
    let Ok(count) = i32::try_from(marks.len()) else { return };
    let object = |number: i32| Ref::new(first.get() + number);
    let mut outline = pdf.outline(Ref::new(OUTLINE));
    outline.first(object(0)).last(object(count - 1)).count(count);
    outline.finish();
    for (number, (words, leaf)) in (0..count).zip(marks) {
        let mut item = pdf.outline_item(object(number));
        item.title(TextStr(&readable(words))).parent(Ref::new(OUTLINE));
        if 0 < number {
            item.prev(object(number - 1));
        }
        if number + 1 < count {
            item.next(object(number + 1));
        }
        item.dest().page(leaf_object(*leaf, 0)).fit();
    }
}

fn write_font(pdf: &mut Pdf, number: i32, letters: &Letters) -> Result<(), PdfError> {
    let named = Name(FONT_NAMED[usize::try_from(number).map_err(|_| PdfError::Font)?]);
    let mut font = pdf.type0_font(font_object(number, 0));
    font.base_font(named).encoding_predefined(Name(b"Identity-H"));
    font.descendant_font(font_object(number, 1)).to_unicode(font_object(number, 4));
    font.finish();
    let face = &letters.face;
    let em = f32::from(face.units_per_em());
    let thousandths = |units: i16| f32::from(units) * 1000.0 / em;
    let mut cid = pdf.cid_font(font_object(number, 1));
    cid.subtype(CidFontType::Type2).base_font(named).system_info(ORDER);
    cid.font_descriptor(font_object(number, 2))
        .default_width(0.0)
        .cid_to_gid_map_predefined(Name(b"Identity"));
    let mut widths = cid.widths();
    for (code, (_, advance)) in &letters.meaning {
        widths.consecutive(*code, [f32::from(*advance) * 1000.0 / em]);
    }
    widths.finish();
    cid.finish();
    let bounds = face.global_bounding_box();
    let [left, low, right, high] = [bounds.x_min, bounds.y_min, bounds.x_max, bounds.y_max].map(thousandths);
    let mut description = pdf.font_descriptor(font_object(number, 2));
    description.name(named).flags(FontFlags::SYMBOLIC).bbox(Rect::new(left, low, right, high));
    description.italic_angle(0.0).ascent(thousandths(face.ascender())).descent(thousandths(face.descender()));
    description.cap_height(thousandths(face.capital_height().unwrap_or(face.ascender())));
    // Thickness of the stems, by which a reader without the font would choose another; common practice, no source.
    description.stem_v(if number == 0 { 80.0 } else { 120.0 }).font_file2(font_object(number, 3));
    description.finish();
    let file = pressed(&letters.cut_down()?);
    pdf.stream(font_object(number, 3), &file).filter(Filter::FlateDecode);
    let mut meaning = UnicodeCmap::<u16>::new(Name(b"Custom"), ORDER);
    for (code, (letter, _)) in &letters.meaning {
        meaning.pair(*code, *letter);
    }
    let meaning = meaning.finish().into_vec();
    pdf.cmap(font_object(number, 4), &meaning);
    Ok(())
}
