//! Sheet maps as they are written.

use crate::common::written;
use geometry::{Point, Vector};
use paper::layout_sheet::Fact;
use paper::page::Page;
use paper::sheet_map::{Drop, Piece, PieceDatum, SheetMap, draw, draw_all};
use units::{LengthStyle, TapeDenominator};

const STYLES: [LengthStyle; 2] =
    [LengthStyle::Tape { denominator: TapeDenominator::Sixteenths }, LengthStyle::Millimetres { places: 1 }];

fn piece(mark: &str, copy: u32, of: u32, flat: &fold::FlatPattern, at: (f64, f64)) -> Piece {
    let by = Vector::new(at.0, at.1);
    Piece {
        mark: mark.to_owned(),
        copy,
        of,
        outline: flat.outline.mapped(false, |p| p + by),
        bend_lines: flat.bends.iter().map(|bend| (bend.direction, bend.from + by, bend.to + by)).collect(),
        datum: PieceDatum {
            corner: Point::default() + by,
            along: Vector::new(1.0, 0.0),
            up: Vector::new(0.0, 1.0),
        },
    }
}

/// A 96 × 48 in sheet with two large parts, a crowd of small ones, and a drop.
fn map(style: LengthStyle, lay: Option<Vector>) -> (Page, Vec<Piece>) {
    let clip = crate::common::clip();
    let mut pieces = vec![
        piece("T", 1, 2, &crate::common::tray(), (12.7, 12.7)),
        piece("L1", 1, 1, &crate::common::tapered_lid(), (970.0, 12.7)),
    ];
    for copy in 1..=24 {
        let (column, row) = ((copy - 1) % 12, (copy - 1) / 12);
        let at = (20.0 + 67.0 * f64::from(column), 800.0 + 90.0 * f64::from(row));
        pieces.push(piece("C", copy, 24, &clip, at));
    }
    let drops =
        [Drop { low: Point::new(1860.0, 12.7), high: Point::new(2425.7, 1206.5), comes_off_mm: None }];
    let page = draw(&SheetMap {
        job: "Oyster skiff",
        style,
        lay,
        pieces: &pieces,
        drops: &drops,
        facts: &[Fact { name: "yield".to_owned(), value: "39.3 %".to_owned(), ..Fact::default() }],
        ..bare_map()
    });
    (page, pieces)
}

#[test]
fn no_two_texts_overlap_and_all_lie_on_the_paper() {
    for style in STYLES {
        for lay in [None, Some(Vector::new(1.0, 0.0)), Some(Vector::new(0.0, 1.0))] {
            let (page, _) = map(style, lay);
            let text = paper::svg::write(&page);
            let texts = written::texts(&roxmltree::Document::parse(&text).unwrap());
            assert_eq!(written::overlaps(&texts), []);
            let inside =
                |p: &Point| 0.0 <= p.x && p.x <= page.width_mm() && 0.0 <= p.y && p.y <= page.height_mm();
            assert!(texts.iter().all(|text| text.room.corners.iter().all(inside)));
        }
    }
}

#[test]
fn every_piece_is_a_group_with_its_mark_and_copy() {
    let (page, pieces) = map(STYLES[1], None);
    let text = paper::svg::write(&page);
    let document = roxmltree::Document::parse(&text).unwrap();
    let titles = |mark: &str| {
        document.descendants().filter(|node| node.has_tag_name("title") && node.text() == Some(mark)).count()
    };
    assert_eq!((titles("T"), titles("L1"), titles("C")), (1, 1, 24));
    let words: Vec<&str> = page.texts().iter().map(|text| text.words.as_str()).collect();
    for piece in pieces {
        let long = format!("{} no. {} of {}", piece.mark, piece.copy, piece.of);
        let short = format!("{} no. {}", piece.mark, piece.copy);
        let found = words.iter().filter(|words| **words == long || **words == short).count();
        assert!(found == 1 || piece.of == 1, "{long}");
    }
}

#[test]
fn labels_of_parts_touch_no_cut_edge() {
    let (page, pieces) = map(STYLES[0], None);
    for text in page.texts() {
        let room = text.bounding_box();
        for piece in &pieces {
            let corners = piece.outline.outer.corners(geometry::outline::Chords::On);
            assert!(!geometry::polygon::edges(&corners).any(|edge| room.meets(edge)), "{}", text.words);
        }
    }
}

#[test]
fn the_drop_is_hatched_and_its_size_is_printed() {
    let (page, _) = map(STYLES[1], None);
    assert!(page.texts().iter().any(|text| text.words == "drop d1: 565.7 × 1193.8"));
    let hatch = page.lines(paper::page::Pen::Hatch);
    let (low, high) = (Point::new(1860.0, 12.7), Point::new(2425.7, 1206.5));
    let on_drop =
        hatch.iter().filter(|line| low.x <= line.from.x && line.from.x <= high.x && low.y <= line.from.y);
    assert!(20 < on_drop.count());
}

#[test]
fn the_sheet_is_drawn_in_true_size() {
    let (page, _) = map(STYLES[1], None);
    let tree =
        resvg::usvg::Tree::from_str(&paper::svg::write(&page), &resvg::usvg::Options::default()).unwrap();
    let resvg::usvg::Node::Group(sheet) = tree.node_by_id("sheet").unwrap() else { panic!("no group") };
    let resvg::usvg::Node::Path(edge) = &sheet.children()[0] else { panic!("no edge") };
    let millimetres = |pixels: f32| f64::from(pixels) * 25.4 / 96.0;
    assert!((millimetres(edge.abs_bounding_box().width()) - 2438.4).abs() < 0.01);
    assert!((millimetres(edge.abs_bounding_box().height()) - 1219.2).abs() < 0.01);
}

/// A 48 x 96 in sheet of skin with nothing on it.
const fn bare_map() -> SheetMap<'static> {
    SheetMap {
        job: "Skiff",
        sheet: "skin-1",
        metal: "skin",
        face: "marked face up",
        length_mm: 2438.4,
        width_mm: 1219.2,
        offcut: None,
        edge_trim_mm: 12.7,
        style: STYLES[1],
        lay: None,
        pieces: &[],
        drops: &[],
        facts: &[],
    }
}

#[test]
fn an_empty_sheet_is_still_a_map() {
    let page = draw(&SheetMap {
        job: "",
        sheet: "",
        metal: "",
        face: "",
        length_mm: 100.0,
        width_mm: 50.0,
        offcut: None,
        edge_trim_mm: 0.0,
        style: STYLES[1],
        lay: None,
        pieces: &[],
        drops: &[],
        facts: &[],
    });
    assert!(page.texts().iter().any(|text| text.words == "100.0"));
}

/// Two hundred small parts on one sheet, one of them with a mark of three hundred letters: too many to name on one map.
fn crowd() -> Vec<Page> {
    crowd_at(|column| 20.0 + 118.0 * column)
}

/// The same with the columns at places of their own.
fn crowd_at(place: impl Fn(f64) -> f64) -> Vec<Page> {
    let clip = crate::common::clip();
    let long = "W".repeat(300);
    let pieces: Vec<Piece> = (0_u32..200)
        .map(|number| {
            let (column, row) = (number % 20, number / 20);
            let at = (place(f64::from(column)), 20.0 + 115.0 * f64::from(row));
            let mark = if number == 7 { long.clone() } else { format!("C{number}") };
            piece(&mark, 1, 1, &clip, at)
        })
        .collect();
    draw_all(&SheetMap {
        job: "Clips",
        pieces: &pieces,
        drops: &[Drop {
            low: Point::new(20.0, 1180.0),
            high: Point::new(2400.0, 1206.0),
            comes_off_mm: None,
        }],
        ..bare_map()
    })
}

/// Where a stretch in the middle holds no part, the key plan still shows those that have a map behind it.
#[test]
fn the_key_plan_shows_the_stretches_that_are_behind_it() {
    let pages = crowd_at(|column| if column < 10.0 { 20.0 + 24.0 * column } else { 1900.0 + 24.0 * column });
    let shown: Vec<String> = pages[0].texts().iter().map(|text| text.words.clone()).collect();
    let shown: Vec<&str> = shown.iter().filter_map(|words| words.strip_prefix("stretch ")).collect();
    let behind: Vec<&str> = pages[1..]
        .iter()
        .filter_map(|page| page.title.rsplit_once(", stretch ")?.1.split(' ').next())
        .collect();
    assert_eq!(shown, behind);
    assert!(
        behind.last().is_some_and(|last| *last != behind.len().to_string()),
        "no stretch is empty: {behind:?}"
    );
}

#[test]
fn a_crowded_sheet_comes_in_stretches_that_can_be_read() {
    let pages = crowd();
    assert!(2 < pages.len(), "{} pages", pages.len());
    let words = |page: &Page| page.texts().iter().map(|text| text.words.clone()).collect::<Vec<String>>();
    assert!(words(&pages[0]).iter().any(|words| words.starts_with("Key plan")));
    for number in (0..200).filter(|number| *number != 7) {
        let mark = format!("C{number}");
        let found = pages[1..].iter().filter(|page| words(page).contains(&mark)).count();
        assert_eq!(found, 1, "{mark}");
    }
    let shortened =
        pages[1..].iter().flat_map(words).filter(|words| words.starts_with("WWW") && words.ends_with('…'));
    assert_eq!(shortened.count(), 1);
    for page in &pages {
        let text = paper::svg::write(page);
        let texts = written::texts(&roxmltree::Document::parse(&text).unwrap());
        assert_eq!(written::overlaps(&texts), []);
        assert!(page.width_mm() < 4000.0, "a long mark does not widen the page: {}", page.width_mm());
        assert!(1.9 < paper::page::printed_text_mm(page), "{}", paper::page::printed_text_mm(page));
    }
    // A place is measured from the datum corner of the sheet, on every stretch.
    let last = &pages[pages.len() - 1];
    let column = format!("{:.1}", 20.0 + 118.0 * 19.0);
    assert!(words(last).contains(&column), "{column}: {:?}", words(last));
}

/// From the map alone a kept drop can be scribed: where its lower left corner lies, and its size.
#[test]
fn every_drop_has_its_place_and_size_in_a_table() {
    let drop = |low: (f64, f64), high: (f64, f64)| Drop {
        low: Point::new(low.0, low.1),
        high: Point::new(high.0, high.1),
        comes_off_mm: None,
    };
    let drops = [drop((1200.0, 12.7), (2400.0, 500.0)), drop((1210.5, 600.0), (1211.5, 1200.0))];
    let page = draw(&SheetMap {
        pieces: &[piece("T", 1, 1, &crate::common::tray(), (12.7, 12.7))],
        drops: &drops,
        ..bare_map()
    });
    let at = |words: &str| {
        page.texts().iter().filter(|text| text.words == words).map(|text| text.at).collect::<Vec<_>>()
    };
    for (mark, row) in
        [("drop d1", ["1200.0", "12.7", "1200.0", "487.3"]), ("drop d2", ["1210.5", "600.0", "1.0", "600.0"])]
    {
        let line = at(mark).into_iter().map(|at| at.y);
        let holds = |y: f64| row.iter().all(|cell| at(cell).iter().any(|cell| (cell.y - y).abs() < 1e-6));
        assert!(line.into_iter().any(holds), "{mark}");
    }
    // The wide one is named on its hatching, the narrow one on a leader.
    assert_eq!(at("drop d1: 1200.0 × 487.3").len(), 1);
    assert_eq!(at("drop d2").len(), 2);
    // The first one comes off with a rim: both its sizes stand on it and in its row.
    let drops = [Drop { comes_off_mm: Some([1238.4, 500.0]), ..drops[0] }, drops[1]];
    let rimmed = draw(&SheetMap { drops: &drops, ..bare_map() });
    let has = |words: &str| rimmed.texts().iter().any(|text| text.words == words);
    assert!(has("drop d1: 1238.4 × 500.0 whole, 1200.0 × 487.3 usable"));
    assert!(has("comes off as") && has("1238.4 × 500.0") && has("1.0 × 600.0"));
    let texts = written::texts(&roxmltree::Document::parse(&paper::svg::write(&page)).unwrap());
    assert_eq!(written::overlaps(&texts), []);
}

/// A part that lies turned is started from the corner that its layout sheet starts from.
#[test]
fn the_datum_corner_of_every_part_is_marked_as_it_lies() {
    let flat = crate::common::tray();
    let (_, high) = flat.outline.bounds();
    let by = Vector::new(1000.0, 700.0);
    // Half a turn: the flat's datum corner comes to lie upper right.
    let turned = Piece {
        outline: flat.outline.mapped(false, |p| Point::default() - (p - Point::default()) + by),
        bend_lines: Vec::new(),
        datum: PieceDatum {
            corner: Point::default() + by,
            along: Vector::new(-1.0, 0.0),
            up: Vector::new(0.0, -1.0),
        },
        ..piece("T", 1, 1, &flat, (0.0, 0.0))
    };
    let page = draw(&SheetMap {
        length_mm: high.x + 1500.0,
        width_mm: high.y + 800.0,
        edge_trim_mm: 0.0,
        pieces: &[turned],
        ..bare_map()
    });
    let mut corners = Vec::new();
    paper::page::visit(&page.items, &mut |item| {
        if let paper::page::Item::Group(group) = item
            && group.name == "T"
        {
            corners.extend(group.items.iter().filter_map(|item| match item {
                paper::page::Item::Shape(shape) if shape.fill == Some(paper::page::Fill::Black) => {
                    let corners = shape.contours[0].corners(geometry::outline::Chords::On);
                    (corners.len() == 3).then_some(corners)
                }
                _ => None,
            }));
        }
    });
    let [triangle] = corners.as_slice() else { panic!("{} triangles", corners.len()) };
    // Its right angle points at the datum corner; all of it lies inside the part, so that signs of neighbours stay apart.
    let corner = Point::new(1000.0, 700.0);
    let nearest = triangle.iter().map(|at| at.distance(corner)).fold(f64::INFINITY, f64::min);
    let leg = triangle[0].distance(triangle[1]).min(triangle[1].distance(triangle[2]));
    assert!(0.0 < nearest && nearest < 0.4 * leg, "{triangle:?}");
    assert!(triangle.iter().all(|at| at.x < corner.x && at.y < corner.y), "{triangle:?}");
    // It is the one corner that is dimensioned, and the order of cuts tells the same one.
    let has = |words: &str| page.texts().iter().any(|text| text.words == words);
    let shown = |mm: f64| units::Length::from_millimetres(mm).print(bare_map().style);
    assert!(has(&shown(1000.0)) && has(&shown(700.0)));
    assert!(
        !has(&shown(1000.0 - high.x)) && !has(&shown(700.0 - high.y)),
        "lower left corner of the turned part"
    );
    assert!(page.texts().iter().any(|text| text.words.starts_with("datum corner of a part's layout sheet")));
}
