//! What becomes of one sheet: parts, kept drops, kerf, edge trim and skeleton, measured from the drawing.

use estimate::{PartOnSheet, SheetUse};
use geometry::outline::Chords;
use geometry::{Outline, Point, Polygon, Region, Segment};
use job::{FaceState, SheetOutline};
use units::{Area, Length, MassPerArea, Money};

use super::kept_drops::KeptDrop;
use super::left_metal::LeftMetal;

/// A sheet with what lies on it, in its own coordinates, mm.
#[derive(Debug, Clone)]
pub(crate) struct LaidSheet {
    /// Its name in the report.
    pub(crate) name: String,
    /// Name of the metal.
    pub(crate) metal: String,
    /// Length along x and width along y.
    pub(crate) size: [Length; 2],
    /// Its outline, where it is no rectangle of that size.
    pub(crate) outline: Option<SheetOutline>,
    /// Width taken off each edge.
    pub(crate) edge_trim: Length,
    /// Width of the saw cut.
    pub(crate) kerf: Length,
    /// Weight of the metal, as thick as this sheet is.
    pub(crate) weight_per_area: MassPerArea,
    /// Its thickness by caliper, where it was received.
    pub(crate) thickness: Option<Length>,
    /// The mark of the offcut, for a piece of the shop's rack.
    pub(crate) from_rack: Option<String>,
    /// What is known of the face of a piece of the rack.
    pub(crate) face: Option<FaceState>,
    /// Price of the sheet.
    pub(crate) price: Option<Money>,
    /// Every piece: its part's mark and its true outline where it lies.
    pub(crate) pieces: Vec<(String, Outline)>,
    /// Drops worth keeping.
    pub(crate) drops: Vec<KeptDrop>,
    /// What the job notes of sheets of this size.
    pub(crate) notes: Vec<String>,
    /// What the straight cuts of its order of cuts take, lower left and upper right corner.
    pub(crate) straight_cuts: Vec<[Point; 2]>,
}

impl LaidSheet {
    /// Measures the sheet: saw cuts run along the waste side of every edge, those of holes and reliefs too, and down the
    /// straight cuts between the parts; what they take inside the trimmed strip counts as kerf. A kept drop takes all metal that
    /// comes off with it, trim and rim too: it is the piece that goes to the rack.
    pub(crate) fn measure(&self) -> SheetUse {
        let (whole, inner) = (self.whole(), self.inside_trim());
        let parts: Region =
            self.pieces.iter().map(|(_, outline)| Region::of(&outline.to_polygon(Chords::On))).collect();
        let kept: Vec<LeftMetal> = self.drops.iter().map(|drop| LeftMetal::of(self, drop)).collect();
        let drops: Region = kept.iter().map(LeftMetal::region).collect();
        let straight = self.straight_cuts.iter().map(|[low, high]| Region::rectangle(*low, *high));
        let cut: Region = straight.chain([parts.grown(self.kerf.millimetres())]).collect();
        let kerf = cut.intersection(&whole).difference(&parts).difference(&drops);
        let edge = whole.difference(&inner).difference(&kerf).difference(&drops);
        let skeleton = whole.difference(&parts).difference(&kerf).difference(&drops).difference(&edge);
        let area = |region: &Region| Area::from_square_millimetres(region.area_mm2());
        // Drops have their exact area; what rounding made of them in the drawing is in the lines beside them.
        let rounded = kept.iter().map(LeftMetal::area).sum::<Area>() - area(&drops);
        let [mut kerf_area, mut edge_area] = [&kerf, &edge].map(area);
        let larger = if kerf_area < edge_area { &mut edge_area } else { &mut kerf_area };
        *larger = (*larger - rounded).max(Area::ZERO);
        SheetUse {
            sheet: self.name.clone(),
            metal: self.metal.clone(),
            area: self.outline.as_ref().map_or(self.size[0] * self.size[1], SheetOutline::area),
            weight_per_area: self.weight_per_area,
            from_rack: self.from_rack.is_some(),
            price: self.price,
            parts: self.parts(),
            kept_drops: kept.iter().map(LeftMetal::area).collect(),
            kerf: kerf_area,
            edge_trim: edge_area,
            measured_skeleton: area(&skeleton),
            arc_length: Length::from_millimetres(
                self.pieces.iter().map(|(_, outline)| arcs_mm(outline)).sum(),
            ),
        }
    }

    /// All of its metal.
    pub(super) fn whole(&self) -> Region {
        match &self.outline {
            None => self.around(0.0),
            Some(outline) => Region::of(&Polygon { outer: outline.points(), holes: outline.hole_points() }),
        }
    }

    /// Whether so much of an upright rectangle is metal that a guide lies on it.
    pub(crate) fn holds_a_guide(&self, [low, high]: [Point; 2]) -> bool {
        let rectangle = Region::rectangle(low, high);
        rectangle.difference(&self.whole()).area_mm2() <= MISSING_UNDER_A_GUIDE * rectangle.area_mm2()
    }

    /// What is missing of the rectangle around it; nothing of a rectangle.
    pub(crate) fn missing(&self) -> Region {
        self.around(0.0).difference(&self.whole())
    }

    /// The rectangle around it, so many mm smaller on every side.
    fn around(&self, inset: f64) -> Region {
        let [length, width] = self.size.map(Length::millimetres);
        Region::rectangle(Point::new(inset, inset), Point::new(length - inset, width - inset))
    }

    /// What parts may be cut from: all that is the edge trim away from every edge and from what may not be used.
    pub(crate) fn usable(&self) -> Region {
        let torn = self.outline.iter().flat_map(SheetOutline::torn_points);
        let torn: Region = torn.map(|outer| Region::of(&Polygon { outer, holes: Vec::new() })).collect();
        let trim = self.edge_trim.millimetres();
        let kept_off = if torn.is_empty() || trim <= 0.0 { torn } else { torn.grown(trim) };
        self.inside_trim().difference(&kept_off)
    }

    /// All that is the edge trim away from every edge.
    fn inside_trim(&self) -> Region {
        let trim = self.edge_trim.millimetres();
        match (&self.outline, trim <= 0.0) {
            (None, _) => self.around(trim),
            (Some(_), true) => self.whole(),
            (Some(_), false) => self.around(trim).difference(&self.missing().grown(trim)),
        }
    }

    /// One row a mark, with the true area of its outline.
    fn parts(&self) -> Vec<PartOnSheet> {
        let mut parts: Vec<PartOnSheet> = Vec::new();
        for (mark, outline) in &self.pieces {
            match parts.iter_mut().find(|part| part.mark == *mark) {
                Some(part) => part.quantity += 1,
                None => parts.push(PartOnSheet {
                    mark: mark.clone(),
                    area: Area::from_square_millimetres(outline.area_mm2()),
                    quantity: 1,
                }),
            }
        }
        parts
    }
}

/// Share of the metal between a guide and its cut that may be missing, as at a slanted end: common practice, no source.
const MISSING_UNDER_A_GUIDE: f64 = 0.1;

/// Length of all arcs of an outline, mm.
fn arcs_mm(outline: &Outline) -> f64 {
    let arcs = |contour: &geometry::Contour| -> f64 {
        let length = |(from, segment): (Point, Segment)| match segment {
            Segment::Line { .. } => 0.0,
            Segment::Arc { to, centre, counter_clockwise } => {
                geometry::outline::arc_sweep(from, to, centre, counter_clockwise).abs() * centre.distance(to)
            }
        };
        contour.pieces().map(length).sum()
    };
    arcs(&outline.outer) + outline.holes.iter().map(arcs).sum::<f64>()
}

/// The mark of a kept drop, on its label and in the rack: "Oyster skiff skin-1 d2", the job's name cut where the whole would be too long for chalk.
pub(crate) fn rack_mark(job: &str, sheet: &str, number: usize) -> String {
    const LONGEST: usize = 40;
    let tail = format!(" {sheet} d{number}");
    let room = LONGEST.saturating_sub(tail.chars().count());
    let head: String = job.chars().take(room).collect();
    // Half a word would be taken for another.
    let is_cut = job.chars().nth(room).is_some_and(|next| next != ' ');
    let whole_words = head.rfind(' ').filter(|_| is_cut).map_or(head.as_str(), |end| &head[..end]);
    format!("{}{tail}", whole_words.trim_end_matches([' ', ',', ';', ':']))
}

#[cfg(test)]
mod tests {
    use super::*;
    use geometry::Contour;

    fn sheet() -> LaidSheet {
        let square = [(100.0, 100.0), (500.0, 100.0), (500.0, 400.0), (100.0, 400.0)];
        let mut outline = Outline::polygon(&square.map(|(x, y)| Point::new(x, y)));
        outline.holes.push(Contour::round_hole(Point::new(300.0, 250.0), 50.0));
        let millimetres = Length::from_millimetres;
        LaidSheet {
            name: "skin, sheet 1".to_owned(),
            metal: "skin".to_owned(),
            size: [millimetres(2500.0), millimetres(1250.0)],
            outline: None,
            edge_trim: millimetres(10.0),
            kerf: millimetres(3.0),
            weight_per_area: MassPerArea::read("8 kg/m2").unwrap(),
            thickness: None,
            from_rack: None,
            face: None,
            price: None,
            pieces: vec![("P".to_owned(), outline)],
            drops: vec![KeptDrop {
                usable: [Point::new(600.0, 10.0), Point::new(2490.0, 1240.0)],
                between: [Point::new(600.0, 10.0), Point::new(2490.0, 1240.0)],
                whole: None,
            }],
            notes: Vec::new(),
            straight_cuts: Vec::new(),
        }
    }

    #[test]
    fn a_sheet_with_a_holed_part_adds_up() {
        let sheet = sheet();
        let report = estimate::scrap_report(&[sheet.measure()]).unwrap();
        assert!(report.total.adds_up());
        assert_eq!(report.total.whole.area, sheet.size[0] * sheet.size[1]);
    }

    /// A cut across the whole sheet, 1,250 long, and one that runs into it: what both share is taken once.
    #[test]
    fn straight_cuts_are_kerf() {
        let alone = sheet();
        let mut cut = sheet();
        cut.straight_cuts = vec![
            [Point::new(548.5, 0.0), Point::new(551.5, 1250.0)],
            [Point::new(0.0, 698.5), Point::new(550.0, 701.5)],
        ];
        let kerf = |sheet: &LaidSheet| sheet.measure().kerf.square_millimetres();
        let more = kerf(&cut) - kerf(&alone);
        assert!((more - (3.0 * 1250.0 + 3.0 * 548.5)).abs() < 0.01, "{more}");
        // The outline's own kerf, round at its corners, and the ring within its hole of 50 mm radius; arcs are chords there.
        let around = 2.0 * 3.0 * (400.0 + 300.0) + std::f64::consts::PI * 3.0 * 3.0;
        let in_hole = std::f64::consts::PI * (50.0 * 50.0 - 47.0 * 47.0);
        assert!((kerf(&alone) - around - in_hole).abs() < 3.0, "{}", kerf(&alone));
        let report = estimate::scrap_report(&[cut.measure()]).unwrap();
        assert!(report.total.adds_up());
    }
}
