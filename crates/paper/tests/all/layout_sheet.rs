//! Layout sheets as they are written: nothing overlaps, sizes are true, everything asked for is there.

use crate::common::written;
use geometry::outline::Chords;
use geometry::{Point, Vector};
use paper::isometric::{Folded, Standing};
use paper::layout_sheet::{Fact, Named, PartSheet, Sheets, draw};
use paper::page::{AT_ARMS_LENGTH_MM, Item, Page, Pen, printed_text_mm};
use proptest::prelude::*;
use units::{Length, LengthStyle, TapeDenominator};

const STYLES: [LengthStyle; 3] = [
    LengthStyle::Inches { places: 3 },
    LengthStyle::Tape { denominator: TapeDenominator::Sixteenths },
    LengthStyle::Millimetres { places: 1 },
];

fn page(mark: &str, title: &str, flat: &fold::FlatPattern, style: LengthStyle) -> Page {
    sheets(mark, title, flat, style).layout
}

fn sheets(mark: &str, title: &str, flat: &fold::FlatPattern, style: LengthStyle) -> Sheets {
    let folded = (!flat.bends.is_empty()).then(|| Folded::of(flat, Standing::FaceUp));
    sheets_with(folded.as_ref(), (mark, title), flat, style)
}

fn sheets_with(
    folded: Option<&Folded>,
    (mark, title): (&str, &str),
    flat: &fold::FlatPattern,
    style: LengthStyle,
) -> Sheets {
    let fact = |name: &str| Fact { name: name.to_owned(), value: "4.396".to_owned(), ..Fact::default() };
    let facts = [fact("hip B, true length"), fact("hip C, true length")];
    let notes = ["Cut the corner reliefs before bending; drill them where a diameter is given.".to_owned()];
    draw(&PartSheet {
        job: "Oyster skiff",
        mark,
        title,
        metal: "skin: 5052-H32 plain sheet",
        quantity: 6,
        flat,
        style,
        facts: &facts,
        bend_number: "the shop's strip 4.000 → 2.118 + 2.103 at 90°, deduction .221, K .421",
        proof: "worst deviation 0.0000 mm",
        lay: Some(Vector::new(1.0, 0.0)),
        face: "this face up",
        weight: "12.8 lb",
        notes: &notes,
        cautions: &notes,
        marked_with: "lugs",
        origins: paper::layout_sheet::Origins::default(),
        named: &Named::default(),
        folded,
        strip: None,
    })
}

/// Every flat in every style.
fn pages() -> Vec<(&'static str, fold::FlatPattern, LengthStyle, Page)> {
    let mut pages = Vec::new();
    for (mark, flat) in crate::common::all() {
        for style in STYLES {
            pages.push((mark, flat.clone(), style, page(mark, "Part", &flat, style)));
        }
    }
    pages
}

#[test]
fn no_two_texts_overlap_and_none_touches_a_bend_line() {
    for (mark, _, style, page) in pages() {
        let text = paper::svg::write(&page);
        let document = roxmltree::Document::parse(&text).unwrap();
        let texts = written::texts(&document);
        assert_eq!(written::overlaps(&texts), [], "{mark} {style:?}");
        for pen in [Pen::BendUp, Pen::BendDown] {
            for line in written::lines(&document, pen, page.text_mm) {
                let crossed: Vec<&str> = texts
                    .iter()
                    .filter(|text| text.room.meets(line))
                    .map(|text| text.words.as_str())
                    .collect();
                assert_eq!(crossed, [""; 0], "{mark} {style:?}");
            }
        }
    }
}

/// The view of the folded part takes room that the flat cannot use: the flat comes out as large as without it, its words no
/// smaller than they must be. Where there is no such room, a line of words takes its place, which costs two hundredths at the most.
#[test]
fn a_folded_view_makes_no_flat_smaller() {
    let (mut views, mut told) = (0, 0);
    for (mark, flat) in crate::common::all() {
        for style in STYLES {
            let without = sheets_with(None, (mark, "Part"), &flat, style).layout;
            let with = page(mark, "Part", &flat, style);
            let has = |name: &str| {
                let named = |item: &Item| matches!(item, Item::Group(group) if group.name == format!("{mark} {name}"));
                with.items.iter().any(named)
            };
            let (before, after) = (printed_text_mm(&without), printed_text_mm(&with));
            let share = (after / with.text_mm) / (before / without.text_mm);
            assert!(0.98 * before.min(AT_ARMS_LENGTH_MM) <= after, "{mark} {style:?}: {after} of {before}");
            match (flat.bends.is_empty(), has("folded view")) {
                (true, view) => assert!(!view && with == without, "{mark}"),
                (false, true) => {
                    views += 1;
                    assert!(1.0 - 1e-9 <= share, "{mark} {style:?}: {share}");
                }
                (false, false) => {
                    told += 1;
                    assert!(has("folded words") && 0.98 <= share, "{mark} {style:?}: {share}");
                }
            }
        }
    }
    assert!(3 * told < views, "{views} views, {told} told in words");
}

#[test]
fn no_label_of_the_drawing_touches_a_cut_edge() {
    for (mark, flat, _, page) in pages() {
        for text in page.texts() {
            let room = text.bounding_box();
            for contour in std::iter::once(&flat.outline.outer).chain(&flat.outline.holes) {
                let corners = contour.corners(Chords::On);
                let crossed = geometry::polygon::edges(&corners).any(|edge| room.meets(edge));
                assert!(!crossed, "{mark}: {}", text.words);
            }
        }
    }
}

#[test]
fn all_text_lies_on_the_paper() {
    for (mark, _, style, page) in pages() {
        for text in page.texts() {
            for corner in text.bounding_box().corners {
                let inside = page.low.x <= corner.x
                    && corner.x <= page.high.x
                    && page.low.y <= corner.y
                    && corner.y <= page.high.y;
                assert!(inside, "{mark} {style:?}: {}", text.words);
            }
        }
    }
}

#[test]
fn every_corner_bend_end_and_hole_centre_has_its_running_dimensions() {
    for (mark, flat, style, page) in pages() {
        let unit = style.unit();
        // Crowded corners stand in tables.
        let Sheets { points: tables, details, .. } = sheets(mark, "Part", &flat, style);
        let printed: Vec<f64> = std::iter::once(&page)
            .chain(&tables)
            .chain(&details)
            .flat_map(|page| page.texts())
            .filter_map(|text| Length::read(&text.words, unit).ok())
            .map(Length::millimetres)
            .collect();
        let ring: Vec<Point> = flat.outline.outer.segments.iter().map(|segment| segment.end()).collect();
        let mut points = ring.clone();
        points.retain(|&p| flat.bends.iter().all(|bend| !on_edge_beside(bend, p)));
        points.retain(|&p| !is_too_small_to_saw(&ring, p));
        points.extend(flat.bends.iter().flat_map(|bend| [bend.from, bend.to]));
        assert!(ring.len() < 3 * points.len(), "{mark}: most corners are looked for");
        for point in points {
            for value in [point.x, point.y] {
                // Half of the last printed digit at the most: 0.05 mm, or .0005 in, which is less.
                let slack = geometry::tolerance::SCRIBED_LINE_MM + 0.051;
                let found = printed.iter().any(|number| (number - value).abs() <= slack);
                assert!(found, "{mark} {style:?}: {value} mm is missing");
            }
        }
        let (width, height) = flat.extents_mm();
        for size in [width, height] {
            let words = Length::from_millimetres(size).print(style);
            assert!(
                page.texts().iter().any(|text| text.words == words),
                "{mark} {style:?}: {words} is missing"
            );
        }
    }
}

/// True for a corner beside a short piece that stands less than 1/64 in off the straight between two of those about it, or
/// less than that from the one before or after it.
fn is_too_small_to_saw(ring: &[Point], corner: Point) -> bool {
    let count = ring.len();
    let Some(place) = ring.iter().position(|&at| at == corner) else { return false };
    let before = |step: usize| ring[(place + count - step) % count];
    let after = |step: usize| ring[(place + step) % count];
    let jog = geometry::tolerance::SAWN_JOG_MM;
    let nearest = corner.distance(before(1)).min(corner.distance(after(1)));
    let steps = 1..=3_usize.min(count / 3);
    let aside = steps.clone().any(|back| {
        steps.clone().any(|on| geometry::polygon::point_to_segment(corner, (before(back), after(on))) < jog)
    });
    nearest < jog || (nearest < 30.0 && aside)
}

/// True for the ends of a bend zone, which are no corners where the edge runs straight across the zone.
fn on_edge_beside(bend: &fold::flat::BendLine, point: Point) -> bool {
    [bend.from, bend.to].iter().any(|end| end.distance(point) < bend.zone_mm)
}

#[test]
fn every_bend_says_its_way_and_turn_in_words() {
    for (mark, flat, _, page) in pages() {
        // The sheet is of tread plate: a bend up closes over the lugs.
        let wanted = |bend: &fold::flat::BendLine| {
            let lugs = if bend.direction == fold::Direction::Up { "inside" } else { "outside" };
            // A bevel held into a bend reads what the turn leaves of a straight angle; said where the two could be confused.
            let turn = (bend.turn_rad.to_degrees() * 10.0).round() / 10.0;
            let confused = (10.0..170.0).contains(&turn) && 0.05 < (turn - 90.0).abs();
            let inside = if confused { format!(" (inside {:.1}°)", 180.0 - turn) } else { String::new() };
            format!("{}{inside}, lugs {lugs}", paper::layout_sheet::bend_words(bend.direction, bend.turn_rad))
        };
        let mut words: Vec<String> = flat.bends.iter().map(wanted).collect();
        for text in page.texts() {
            if let Some(place) = words.iter().position(|wanted| *wanted == text.words) {
                words.swap_remove(place);
            }
        }
        assert_eq!(words, [""; 0], "{mark}");
    }
}

/// Dotted lines run to a number; words on top of them are hard to read, and these are the ones that must be read.
#[test]
fn words_of_bends_and_faces_stand_off_the_extension_lines() {
    for (mark, _, style, page) in pages() {
        let lines = page.lines(Pen::Extension);
        let texts = page.texts();
        let words = texts.iter().filter(|text| {
            text.words.starts_with("bend UP ")
                || text.words.starts_with("bend DOWN ")
                || text.words == "this face up"
        });
        for text in words {
            let room = text.bounding_box();
            let crossed = lines.iter().any(|line| room.meets((line.from, line.to)));
            assert!(!crossed, "{mark} {style:?}: {}", text.words);
        }
    }
}

#[test]
fn edges_and_stations_are_named_and_letters_stand_at_their_corners() {
    let flat = crate::common::side_deck();
    let root = &flat.faces[0].corners;
    let named = Named {
        corners: vec![("A".to_owned(), root[0]), ("B".to_owned(), root[1])],
        edges: vec![("INBOARD".to_owned(), [root[0], root[1]])],
        stations: vec![("station 15".to_owned(), root[3])],
        on_bends: Vec::new(),
        lines: Vec::new(),
    };
    let page = draw(&PartSheet {
        job: "Deck",
        mark: "D",
        title: "side deck",
        metal: "deck",
        quantity: 1,
        flat: &flat,
        style: STYLES[1],
        facts: &[],
        bend_number: "",
        proof: "",
        lay: None,
        face: "this face up",
        weight: "",
        notes: &[],
        cautions: &[],
        marked_with: "",
        origins: paper::layout_sheet::Origins::default(),
        named: &named,
        folded: None,
        strip: None,
    })
    .layout;
    let texts = page.texts();
    let find =
        |words: &str| texts.iter().find(|text| text.words == words).unwrap_or_else(|| panic!("{words}"));
    for words in ["INBOARD", "station 15"] {
        find(words);
    }
    // Beside its corner, or on a leader that starts in it.
    let leaders = page.lines(Pen::Dimension);
    for (letter, corner) in &named.corners {
        let room = find(letter).bounding_box();
        let near = room.corners.iter().any(|point| point.distance(*corner) < 2.5 * page.text_mm);
        let led = leaders.iter().any(|line| line.from.distance(*corner) < 0.01);
        assert!(near || led, "{letter}");
    }
}

/// A part so long that the largest scale that fits says nothing of its crowds keeps one layout sheet, whose numbers are large, and
/// is the key plan of details in which they are told apart: a plank cut over several leaves would part its running dimensions from
/// the datum that they are measured from.
#[test]
fn a_part_longer_than_any_leaf_shows_its_crowds_in_details() {
    let (length, width) = (20.0 * 12.0 * 25.4, 6.0 * 25.4);
    // Three times three: a dozen would go to the table of holes.
    let crowd = |x: f64| [(x, 40.0), (x + 20.0, 40.0), (x, 60.0)];
    let holes: Vec<(f64, f64)> = [900.0, 3000.0, 5900.0].into_iter().flat_map(crowd).collect();
    let shares: Vec<(f64, f64, f64)> =
        holes.iter().map(|(x, y)| (x / length, y / width, 3.0 / width)).collect();
    let flat = crate::common::plate((length, width), &shares);
    let Sheets { layout, details, points, .. } = sheets("PL", "Plank", &flat, STYLES[2]);
    assert!(AT_ARMS_LENGTH_MM <= printed_text_mm(&layout) + 1e-9);
    let told: Vec<String> = details.iter().flat_map(Page::texts).map(|text| text.words.clone()).collect();
    assert_eq!(told.iter().filter(|words| words.starts_with("detail ")).count(), 3, "{told:?}");
    for (x, y) in holes {
        for number in [format!("{x:.1}"), format!("{y:.1}")] {
            assert!(told.contains(&number), "{number} in {told:?}");
        }
    }
    for page in details.iter().chain(&points) {
        assert!(paper::page::READABLE_MM <= printed_text_mm(page), "{}", page.title);
    }
}

/// No corner that a ring shows is without a name: points by number, those of other details too, and corners too slight to be sawn
/// by the number before them and a letter.
#[test]
fn every_corner_in_the_ring_of_a_detail_has_its_name() {
    let mut rings = 0;
    for (mark, flat) in crate::common::all() {
        let Sheets { details, .. } = sheets(mark, "Part", &flat, STYLES[2]);
        for page in &details {
            for item in &page.items {
                let Item::Group(group) = item else { continue };
                let Some((centre, radius)) = ring_of(group) else { continue };
                rings += 1;
                let mut corners: Vec<Point> = Vec::new();
                for corner in sharp_corners(group) {
                    // Those at the rim itself are seen but in part; those less than a millimetre apart are seen as one.
                    let seen = corner.distance(centre) < 0.9 * radius;
                    if seen && corners.iter().all(|known| 1.0 <= known.distance(corner)) {
                        corners.push(corner);
                    }
                }
                let names = names_of(group);
                assert!(corners.len() <= names.len(), "{mark}: {}: {corners:?} {names:?}", group.name);
                for corner in corners {
                    let near = names.iter().any(|at| at.distance(corner) < 9.0);
                    assert!(near, "{mark}: {}: a corner without a name", group.name);
                }
            }
        }
    }
    assert!(4 < rings, "{rings} rings were looked at");
}

/// Middle and radius of the ring of a detail; `None` for what is no detail.
fn ring_of(group: &paper::page::Group) -> Option<(Point, f64)> {
    let ring = group
        .items
        .iter()
        .find(|item| matches!(item, Item::Shape(shape) if shape.pen == Some(Pen::Dimension)))?;
    let (low, high) = ring.bounds().filter(|_| group.name.starts_with("detail "))?;
    Some((low.toward(high, 0.5), 0.5 * (high.x - low.x)))
}

/// Where two cut edges of a detail meet at more than 20°.
fn sharp_corners(group: &paper::page::Group) -> Vec<Point> {
    let mut cuts = Vec::new();
    paper::page::visit(&group.items, &mut |item| {
        if let Item::Line(line) = item
            && line.pen == Pen::CutEdge
        {
            cuts.push((line.from, line.to));
        }
    });
    let meets = |(from, to): &(Point, Point)| {
        let turn = |(next, end): &(Point, Point)| {
            let (first, second) = ((*to - *from).unit(), (*end - *next).unit());
            next.distance(*to) < 1e-6 && 0.34 < first.cross(second).abs()
        };
        cuts.iter().any(turn).then_some(*to)
    };
    cuts.iter().filter_map(meets).collect()
}

/// The middle of every name in a detail: a number, or a number and a letter.
fn names_of(group: &paper::page::Group) -> Vec<Point> {
    let mut names = Vec::new();
    paper::page::visit(&group.items, &mut |item| {
        if let Item::Text(text) = item
            && text.words.trim_end_matches(char::is_alphabetic).parse::<u32>().is_ok()
            && text.words.len() < 5
        {
            names.push(text.bounding_box().centre());
        }
    });
    names
}

#[test]
fn a_real_reader_finds_the_part_in_true_size() {
    for (mark, flat, _, page) in pages() {
        let tree =
            resvg::usvg::Tree::from_str(&paper::svg::write(&page), &resvg::usvg::Options::default()).unwrap();
        // usvg counts 96 user units to the inch for sizes in millimetres.
        let unit = 96.0 / 25.4;
        let near = |found: f32, wanted: f64| (f64::from(found) / unit - wanted).abs() < 0.01;
        assert!(near(tree.size().width(), page.width_mm()), "{mark}");
        let node = tree.node_by_id(mark).unwrap();
        let resvg::usvg::Node::Group(group) = node else { panic!("{mark} is no group") };
        let resvg::usvg::Node::Path(outline) = &group.children()[0] else { panic!("{mark} has no outline") };
        let found = outline.abs_bounding_box();
        let (width, height) = flat.extents_mm();
        assert!(near(found.width(), width), "{mark}: {} {width}", found.width());
        assert!(near(found.height(), height), "{mark}: {} {height}", found.height());
    }
}

#[test]
fn holes_are_open() {
    let flat = crate::common::panel();
    let text = paper::svg::write(&page("P", "Panel", &flat, STYLES[2]));
    let document = roxmltree::Document::parse(&text).unwrap();
    let group = document.descendants().find(|node| node.attribute("id") == Some("P")).unwrap();
    let path = group.children().find(|node| node.has_tag_name("path")).unwrap();
    assert_eq!(path.attribute("fill-rule"), Some("evenodd"));
    let contours = path.attribute("d").unwrap().matches('M').count();
    assert_eq!(contours, 1 + flat.outline.holes.len());
}

#[test]
fn the_same_sheet_gives_the_same_bytes() {
    let flat = crate::common::tapered_lid();
    let once = paper::svg::write(&page("L1", "Lid", &flat, STYLES[0]));
    assert_eq!(once, paper::svg::write(&page("L1", "Lid", &flat, STYLES[0])));
}

#[test]
fn hostile_marks_stay_words() {
    let flat = crate::common::clip();
    for mark in ["<script>alert(1)</script>", "\"quoted' & more", "غطاء 12", "a\u{0}b"] {
        let text = paper::svg::write(&page(mark, mark, &flat, STYLES[0]));
        let document = roxmltree::Document::parse(&text).unwrap();
        assert!(!document.descendants().any(|node| node.has_tag_name("script")));
        let shown = mark.replace('\u{0}', "\u{fffd}");
        assert!(written::texts(&document).iter().any(|found| found.words == shown), "{mark}");
    }
}

#[test]
fn a_mark_and_title_of_300_letters_stay_on_the_paper() {
    let flat = crate::common::clip();
    let long = "endless ".repeat(38);
    let page = page(&long.replace(' ', "-"), &long, &flat, STYLES[0]);
    let text = paper::svg::write(&page);
    let texts = written::texts(&roxmltree::Document::parse(&text).unwrap());
    assert_eq!(written::overlaps(&texts), []);
    assert!(page.texts().iter().all(|text| text.bounding_box().corners.iter().all(|p| p.x <= page.high.x)));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]
    #[test]
    fn random_plates_never_get_overlapping_texts(
        size in (60.0..2500.0_f64, 60.0..1200.0_f64),
        shares in prop::collection::vec((0.05..0.95_f64, 0.05..0.95_f64, 0.002..0.03_f64), 0..14),
    ) {
        let flat = crate::common::plate(size, &shares);
        let page = page("Q", "Plate", &flat, STYLES[1]);
        let text = paper::svg::write(&page);
        let texts = written::texts(&roxmltree::Document::parse(&text).unwrap());
        prop_assert_eq!(written::overlaps(&texts), []);
    }

    #[test]
    fn random_pans_keep_texts_apart_and_off_their_bend_lines(
        size in (80.0..2500.0_f64, 80.0..1500.0_f64),
        wall in 30.0..300.0_f64,
        rim in 13.0..60.0_f64,
        rim_up in any::<bool>(),
        lean in -40.0..20.0_f64,
        style in 0..3_usize,
    ) {
        let flat = crate::common::pan(size, wall, rim, rim_up, lean);
        let page = page("Q7", "Pan", &flat, STYLES[style]);
        let text = paper::svg::write(&page);
        let document = roxmltree::Document::parse(&text).unwrap();
        let texts = written::texts(&document);
        prop_assert_eq!(written::overlaps(&texts), []);
        for pen in [Pen::BendUp, Pen::BendDown] {
            for line in written::lines(&document, pen, page.text_mm) {
                prop_assert!(texts.iter().all(|text| !text.room.meets(line)));
            }
        }
    }
}
