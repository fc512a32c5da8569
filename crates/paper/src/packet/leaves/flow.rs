//! Words, tables and small drawings one below the other, on as many leaves as they need.

use geometry::{Point, Vector};

use super::set_table::{GAP_MM, LINE_EM, RULE_EM, SMALL_SIZES_MM, SetTable, TABLE_SIZES_MM};
use super::sheet::{self, TEXT_MM};
use crate::lists::table::Table;
use crate::page::font::{self, Weight};
use crate::page::{Anchor, Item, Page, Pen, READABLE_MM, Text, fit};
use crate::pdf::{Leaf, Placed};

/// Room for the name of a piece beside its boxes, a box to tick, and the questions over the boxes, mm.
const NAME_MM: f64 = 62.0;
const BOX_MM: f64 = 4.0;
const SMALL_MM: f64 = 2.8;

/// Headings, mm.
const TITLE_MM: f64 = 6.2;
const HEADING_MM: f64 = 4.2;
const SMALL_HEADING_MM: f64 = 3.2;

/// How far sentences of a list stand in, mm.
const INDENT_MM: f64 = 4.5;

/// Rows of a table that are not parted from one another at its beginning and at its end.
const JOINED_ROWS: usize = 3;

/// A sentence of so many lines stands on one leaf.
const WHOLE_LINES: usize = 6;

/// A table no higher than this is not broken, mm.
const WHOLE_TABLE_MM: f64 = 50.0;

/// Between a chapter and the one that begins below it, mm.
const CHAPTER_GAP_MM: f64 = 7.0;

/// A chapter begins below another where it puts so much there, mm.
const BEGINNING_MM: f64 = 40.0;

/// A piece that boxes are ticked for.
pub(crate) struct Asked {
    /// Its name.
    pub(crate) name: String,
    /// Questions that make no sense of it: bends of a flat.
    pub(crate) never: Vec<&'static str>,
}

/// Leaves of words in the making.
pub(crate) struct Flow<'a> {
    size_mm: (f64, f64),
    name: String,
    leaves: Vec<Leaf<'a>>,
    /// Where the chapter that is being set begins among them.
    first: usize,
    /// What was free of the first leaf when it was turned, as `free_mm`.
    turned_mm: f64,
    /// Height above the lower edge of the paper that is still free, mm.
    free_mm: f64,
    /// The heading that stands over what is set, for the next leaf of a table.
    under: String,
    /// Which items of the last leaf are a heading that nothing stands under yet: from and to.
    bare: (usize, usize),
    /// Height of that heading's text, mm.
    bare_mm: f64,
}

/// So much lower, mm, a drawing that fills its leaf is set, lest rounding turn the leaf.
const ROUNDING_MM: f64 = 0.01;

/// Down to this share of its size a drawing is set under the title of its chapter.
const UNDER_TITLE: f64 = 0.85;

impl<'a> Flow<'a> {
    /// Leaves called `name` among the bookmarks.
    pub(crate) fn new(name: &str, size_mm: (f64, f64)) -> Self {
        let mut flow = Self::empty(size_mm);
        flow.begin(name);
        flow
    }

    /// No leaf yet: chapters follow.
    pub(crate) const fn empty(size_mm: (f64, f64)) -> Self {
        Self {
            size_mm,
            name: String::new(),
            leaves: Vec::new(),
            first: 0,
            turned_mm: 0.0,
            free_mm: 0.0,
            under: String::new(),
            bare: (0, 0),
            bare_mm: HEADING_MM,
        }
    }

    /// The same, going on below what stands on a leaf already; `free_mm` of it are free above the lower edge of the paper.
    pub(crate) fn below(leaf: Leaf<'a>, free_mm: f64) -> Self {
        let (size_mm, name) = (leaf.size_mm, leaf.bookmark.clone());
        Self { under: name.clone(), name, leaves: vec![leaf], free_mm, ..Self::empty(size_mm) }
    }

    /// A chapter called `name` among the bookmarks: below the one before where all of it has room there, or a good beginning;
    /// else on a leaf of its own.
    pub(crate) fn chapter(&mut self, name: &str, set: impl Fn(&mut Self)) {
        if self.has_room_for(&set) {
            self.space(CHAPTER_GAP_MM);
            self.first = self.leaves.len() - 1;
            name.clone_into(&mut self.name);
            name.clone_into(&mut self.under);
            if let Some(leaf) = self.leaves.last_mut() {
                leaf.also.push(name.to_owned());
            }
        } else {
            self.begin(name);
        }
        set(self);
    }

    fn begin(&mut self, name: &str) {
        name.clone_into(&mut self.name);
        name.clone_into(&mut self.under);
        self.first = self.leaves.len();
        self.turn();
    }

    /// Whether a chapter may begin below what is set, tried on a leaf that is as full as this one.
    fn has_room_for(&self, set: impl Fn(&mut Self)) -> bool {
        let from = self.free_mm - CHAPTER_GAP_MM;
        if self.leaves.is_empty() || from - sheet::FOOT_MM < BEGINNING_MM {
            return false;
        }
        let mut tried = Self::below(sheet::blank(String::new(), self.size_mm), from);
        set(&mut tried);
        let beginning = from - tried.turned_mm;
        tried.leaves.len() == 1 || BEGINNING_MM <= beginning
    }

    /// How much of the first leaf is taken, mm; `None` where there are more.
    pub(crate) fn taken_mm(&self) -> Option<f64> {
        let (low, _, height) = sheet::room(self.size_mm);
        (self.leaves.len() == 1).then_some(low.y + height - self.free_mm)
    }

    /// What has been set.
    pub(crate) fn finish(self) -> Vec<Leaf<'a>> {
        self.leaves
    }

    /// The heading of the whole.
    pub(crate) fn title(&mut self, words: &str) {
        self.lines(words, TITLE_MM, Weight::Bold, 0.0);
        words.clone_into(&mut self.under);
        self.space(0.4 * TITLE_MM);
    }

    /// A heading within; it is not left alone at the foot of a leaf.
    pub(crate) fn heading(&mut self, words: &str) {
        self.heading_of(words, HEADING_MM);
    }

    /// A heading of the appendix.
    pub(crate) fn small_heading(&mut self, words: &str) {
        self.heading_of(words, SMALL_HEADING_MM);
    }

    fn heading_of(&mut self, words: &str, size_mm: f64) {
        self.space(0.9 * size_mm);
        self.need(5.0 * size_mm);
        let from = self.set_items();
        self.lines(words, size_mm, Weight::Bold, 0.0);
        self.bare = (from, self.set_items());
        self.bare_mm = size_mm;
        self.space(0.3 * size_mm);
        words.clone_into(&mut self.under);
    }

    /// A paragraph.
    pub(crate) fn paragraph(&mut self, words: &str) {
        self.lines(words, TEXT_MM, Weight::Regular, 0.0);
        self.space(0.4 * TEXT_MM);
    }

    /// Sentences, each under its number or behind a dash.
    pub(crate) fn sentences(&mut self, sentences: &[String], numbered: bool) {
        let (_, room, _) = sheet::room(self.size_mm);
        for (number, sentence) in sentences.iter().enumerate() {
            // A caution that goes on overleaf is read half.
            let lines =
                font::wrapped(sentence, Weight::Regular, TEXT_MM, room - INDENT_MM - 0.5 * TEXT_MM).len();
            self.need(LINE_EM * TEXT_MM * if lines <= WHOLE_LINES { lines as f64 } else { 1.0 });
            let lead = if numbered { format!("{}.", number + 1) } else { "–".to_owned() };
            let x = if numbered { INDENT_MM - 0.3 * TEXT_MM } else { 0.0 };
            let anchor = if numbered { Anchor::End } else { Anchor::Start };
            let indent = if numbered { INDENT_MM + 0.5 * TEXT_MM } else { INDENT_MM };
            let at = Point::new(sheet::EDGE_MM + x + indent - INDENT_MM, self.baseline(TEXT_MM));
            self.put(Item::Text(Text::new(at, lead, TEXT_MM).anchored(anchor)));
            self.lines(sentence, TEXT_MM, Weight::Regular, indent);
            self.space(0.25 * TEXT_MM);
        }
    }

    /// A drawing across the room, not larger than drawn and on one leaf.
    pub(crate) fn drawing(&mut self, page: &'a Page) {
        self.drawing_at(page, fit(page, self.size_mm));
    }

    /// Drawings, two to a leaf where both are readable there.
    pub(crate) fn drawings(&mut self, pages: &'a [Page]) {
        let (_, _, height) = sheet::room(self.size_mm);
        for (number, page) in pages.iter().enumerate() {
            let whole = fit(page, self.size_mm);
            let half = (0.5 * height - TEXT_MM) / page.height_mm();
            let is_readable = READABLE_MM <= half * page.text_mm;
            let scale = if is_readable { whole.min(half) } else { whole };
            // A title is not left alone on its leaf for a drawing that would hardly be smaller under it.
            let left = (self.free_mm - sheet::FOOT_MM - ROUNDING_MM) / page.height_mm();
            let is_near = number == 0 && left < scale && UNDER_TITLE <= left / scale;
            self.drawing_at(page, if is_near { left } else { scale });
        }
    }

    fn drawing_at(&mut self, page: &'a Page, scale: f64) {
        let (low, ..) = sheet::room(self.size_mm);
        self.need_under(scale * page.height_mm());
        self.free_mm -= scale * page.height_mm();
        let at = Point::new(low.x, self.free_mm);
        if let Some(leaf) = self.leaves.last_mut() {
            leaf.drawings.push(Placed { page, at, scale, window: None });
        }
        self.space(TEXT_MM);
    }

    /// A table; what it is of and its heading stand again on every leaf, and neither stands alone at the foot of one.
    pub(crate) fn table(&mut self, table: &Table) {
        self.table_in(table, &TABLE_SIZES_MM);
    }

    /// A table of the appendix.
    pub(crate) fn small_table(&mut self, table: &Table) {
        self.table_in(table, &SMALL_SIZES_MM);
    }

    fn table_in(&mut self, table: &Table, sizes_mm: &[f64]) {
        let (_, room, _) = sheet::room(self.size_mm);
        let set = SetTable::fit(table, room, sizes_mm);
        let heading: Vec<String> = table.columns().iter().map(|(words, _)| words.clone()).collect();
        let heights: Vec<f64> = table.rows().map(|(cells, is_sum)| set.row_mm(cells, is_sum)).collect();
        // So much from here on stands on one leaf: a row, or the last rows together.
        let together = |from: usize| -> f64 {
            let is_end = heights.len() - from == JOINED_ROWS;
            heights[from..].iter().take(if is_end { JOINED_ROWS } else { 1 }).sum()
        };
        let is_short = heights.len() <= JOINED_ROWS + 1 || heights.iter().sum::<f64>() <= WHOLE_TABLE_MM;
        let first: f64 = heights.iter().take(if is_short { heights.len() } else { JOINED_ROWS }).sum();
        self.need_under(set.height_mm(&heading, Weight::Bold) + set.size_mm + first);
        self.row(&set, &heading, Weight::Bold);
        self.rule(&set);
        for (number, (cells, is_sum)) in table.rows().enumerate() {
            if self.free_mm - together(number) < sheet::FOOT_MM {
                self.turn();
                let under = format!("{}, continued", self.under);
                self.lines(&under, TEXT_MM, Weight::Bold, 0.0);
                self.space(0.4 * TEXT_MM);
                self.row(&set, &heading, Weight::Bold);
                self.rule(&set);
            }
            if is_sum {
                self.rule(&set);
            }
            self.row(&set, cells, Weight::Regular);
        }
        self.space(TEXT_MM);
    }

    /// Boxes to tick and lines to sign: one row a piece, one column a question. Headings stand again on every leaf.
    pub(crate) fn boxes(&mut self, questions: &[&str], pieces: &[Asked]) {
        let (low, room, _) = sheet::room(self.size_mm);
        let step = (room - NAME_MM) / questions.len().max(1) as f64;
        for (number, piece) in pieces.iter().enumerate() {
            let name = font::wrapped(&piece.name, Weight::Regular, TEXT_MM, NAME_MM - GAP_MM);
            let height = (LINE_EM * TEXT_MM * name.len() as f64).max(BOX_MM) + BOX_MM;
            let is_over = 0 < number && self.free_mm - height < sheet::FOOT_MM;
            if is_over {
                self.turn();
                let under = format!("{}, continued", self.under);
                self.lines(&under, TEXT_MM, Weight::Bold, 0.0);
                self.space(0.4 * TEXT_MM);
            }
            if number == 0 || is_over {
                self.need(height + 4.0 * BOX_MM);
                self.questions(questions, step);
            }
            let top = self.free_mm;
            for (line, words) in name.into_iter().enumerate() {
                let drop = (font::ASCENT_EM + LINE_EM * line as f64) * TEXT_MM;
                self.put(Item::Text(Text::new(Point::new(low.x, top - drop), words, TEXT_MM)));
            }
            let mut left = low.x + NAME_MM;
            for question in questions {
                if piece.never.contains(question) {
                    let at = Point::new(left, top - font::ASCENT_EM * TEXT_MM);
                    self.put(Item::Text(Text::new(at, "—", TEXT_MM)));
                    left += step;
                    continue;
                }
                let corner = Point::new(left, top - BOX_MM);
                let (right, up) = (Vector::new(BOX_MM, 0.0), Vector::new(0.0, BOX_MM));
                self.put(Item::edge(&[corner, corner + right, corner + right + up, corner + up], Pen::Datum));
                let line = corner + right * 1.4;
                self.put(Item::line(line, Point::new(left + step - GAP_MM, line.y), Pen::Frame));
                left += step;
            }
            self.free_mm = top - height;
        }
    }

    fn questions(&mut self, questions: &[&str], step_mm: f64) {
        let (low, ..) = sheet::room(self.size_mm);
        let mut left = low.x + NAME_MM;
        let mut lines = 1;
        for question in questions {
            let wrapped = font::wrapped(question, Weight::Bold, SMALL_MM, step_mm - GAP_MM);
            lines = lines.max(wrapped.len());
            for (line, words) in wrapped.into_iter().enumerate() {
                let drop = (font::ASCENT_EM + LINE_EM * line as f64) * SMALL_MM;
                self.put(Item::Text(
                    Text::new(Point::new(left, self.free_mm - drop), words, SMALL_MM).bold(),
                ));
            }
            left += step_mm;
        }
        self.space(LINE_EM * SMALL_MM * lines as f64 + 0.5 * BOX_MM);
    }

    fn row(&mut self, set: &SetTable<'_>, cells: &[String], weight: Weight) {
        let height = set.height_mm(cells, weight);
        self.need(height);
        let top = self.free_mm;
        set.items(cells, weight, Point::new(sheet::EDGE_MM, top)).into_iter().for_each(|item| self.put(item));
        self.free_mm = top - height;
    }

    fn rule(&mut self, set: &SetTable<'_>) {
        let from = Point::new(sheet::EDGE_MM, self.free_mm);
        self.put(Item::line(from, from + Vector::new(set.width_mm(), 0.0), Pen::Frame));
        self.space(RULE_EM * set.size_mm);
    }

    fn lines(&mut self, words: &str, size_mm: f64, weight: Weight, indent_mm: f64) {
        let (low, room, _) = sheet::room(self.size_mm);
        for line in font::wrapped(words, weight, size_mm, room - indent_mm) {
            self.need(LINE_EM * size_mm);
            let at = Point::new(low.x + indent_mm, self.baseline(size_mm));
            self.put(Item::Text(Text { weight, ..Text::new(at, line, size_mm) }));
            self.free_mm -= LINE_EM * size_mm;
        }
    }

    /// Where the next line of text stands.
    fn baseline(&self, size_mm: f64) -> f64 {
        self.free_mm - font::ASCENT_EM * size_mm
    }

    fn space(&mut self, height_mm: f64) {
        self.free_mm -= height_mm;
    }

    /// How many items stand on the last leaf.
    fn set_items(&self) -> usize {
        self.leaves.last().map_or(0, |leaf| leaf.items.len())
    }

    /// A new leaf unless so much is free; a heading right over it goes along.
    fn need_under(&mut self, height_mm: f64) {
        let (from, to) = self.bare;
        let is_bare = 0 < from && from < to && to == self.set_items();
        if sheet::FOOT_MM <= self.free_mm - height_mm || !is_bare {
            self.need(height_mm);
            return;
        }
        if let Some(leaf) = self.leaves.last_mut() {
            leaf.items.truncate(from);
        }
        self.turn();
        let words = self.under.clone();
        self.heading_of(&words, self.bare_mm);
        self.need(height_mm);
    }

    /// A new leaf unless so much is free.
    fn need(&mut self, height_mm: f64) {
        if self.free_mm - height_mm < sheet::FOOT_MM {
            self.turn();
        }
    }

    fn turn(&mut self) {
        let (low, _, height) = sheet::room(self.size_mm);
        if self.leaves.len() == 1 {
            self.turned_mm = self.free_mm;
        }
        self.free_mm = low.y + height;
        let name = match self.leaves.len() - self.first {
            0 => self.name.clone(),
            before => format!("{} ({})", self.name, before + 1),
        };
        self.leaves.push(sheet::blank(name, self.size_mm));
    }

    fn put(&mut self, item: Item) {
        if let Some(leaf) = self.leaves.last_mut() {
            leaf.items.push(item);
        }
    }
}
