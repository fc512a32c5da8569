//! Lists, scrap report and packet as they are printed.

#![allow(clippy::unwrap_used, reason = "a fixture that cannot be made fails the test that asks for it")]

use estimate::{PartOnSheet, ScrapReport, SheetUse, scrap_report};
use geometry::tolerance::SAME_POINT_MM;
use paper::cautions::{Speaks, standing};
use paper::layout_sheet::{Fact, PartSheet};
use paper::lists::cut_list::{self, CutRow};
use paper::lists::sheet_choices::{self, Limit, Proof, SheetChoice, Taken, bound_words};
use paper::lists::{ListUnits, cut_list as list};
use paper::packet::{
    DrawnPart, DrawnSheet, FactTable, LabelSheet, MetalChoices, Packet, PaperSize, Papers, PieceLabel, html,
    leaves,
};
use units::{Area, AreaUnit, Length, LengthStyle, Mass, MassPerArea, MassUnit, Money, TapeDenominator};

const STYLES: [LengthStyle; 3] = [
    LengthStyle::Inches { places: 3 },
    LengthStyle::Tape { denominator: TapeDenominator::ThirtySeconds },
    LengthStyle::Millimetres { places: 1 },
];

fn square_feet(feet: f64) -> Area {
    Area::from_square_millimetres(feet * 92_903.04)
}

/// Two sheets of 32 and 50 square feet; numbers that do not come out even.
fn report(second_price: Option<Money>) -> ScrapReport {
    let weight = MassPerArea::read("1.746 lb/ft2").unwrap();
    let sheet = |name: &str, area: f64, price| SheetUse {
        sheet: name.to_owned(),
        metal: name[..4].to_owned(),
        area: square_feet(area),
        weight_per_area: weight,
        from_rack: false,
        price,
        parts: vec![
            PartOnSheet { mark: "L1".to_owned(), area: square_feet(7.354_321), quantity: 1 },
            PartOnSheet { mark: "T".to_owned(), area: square_feet(5.501_239), quantity: 3 },
        ],
        kept_drops: vec![square_feet(2.111_111)],
        kerf: square_feet(0.333_333),
        edge_trim: square_feet(1.007_777),
        measured_skeleton: square_feet(
            area - 7.354_321 - 3.0 * 5.501_239 - 2.111_111 - 0.333_333 - 1.007_777,
        ),
        arc_length: Length::ZERO,
    };
    let first = sheet("skin, sheet 1", 32.0, Some(Money::from_cents(21_001)));
    scrap_report(&[first, sheet("tray, sheet 1", 50.0, second_price)]).unwrap()
}

fn rows() -> Vec<CutRow> {
    let row = |mark: &str, what: &str, quantity| CutRow {
        mark: mark.to_owned(),
        quantity,
        what: what.to_owned(),
        metal: "5052-H32 .125, plain".to_owned(),
        thickness: Length::from_inches(0.125),
        blank: [Length::from_inches(37.293), Length::from_inches(29.543)],
        area: square_feet(7.35),
        weight: Mass::from_pounds(12.833),
        weight_from: "area of the flat × weight per area of skin (a table)".to_owned(),
        sheets: vec!["skin-1".to_owned(), "skin-2".to_owned()],
        bends: 8,
        cut_length: Length::from_inches(171.4),
    };
    vec![row("L1", "tapered lid, \"forward\"", 1), row("T", "pan, opposite hand of a thing with a name", 6)]
}

/// Decimal numbers of a line that stand alone.
fn numbers(line: &str) -> Vec<f64> {
    line.split("  ").filter_map(|cell| cell.trim().trim_end_matches(" %").parse().ok()).collect()
}

#[test]
fn every_printed_table_of_the_scrap_report_adds_up_to_its_last_digit() {
    for style in STYLES {
        let text = paper::scrap_report::text(
            "Oyster skiff",
            &report(Some(Money::from_cents(33_000))),
            ListUnits::of(style),
        );
        let mut tables = 0;
        let mut rows: Vec<Vec<f64>> = Vec::new();
        for line in text.lines() {
            if line.starts_with("parts ") {
                rows.clear();
            }
            rows.push(numbers(line));
            if line.starts_with("bought ") {
                let bought = rows.pop().unwrap();
                for column in 0..3 {
                    let sum: f64 = rows.iter().filter(|row| row.len() == 4).map(|row| row[column]).sum();
                    assert!((sum - bought[column]).abs() < SAME_POINT_MM, "{text}");
                }
                tables += 1;
            }
        }
        assert_eq!(tables, 3, "{text}");
        assert!(text.lines().all(|line| line.chars().count() <= 100));
    }
}

#[test]
fn the_parts_of_a_sheet_add_up_to_its_line_of_parts() {
    let text = paper::scrap_report::text("Oyster skiff", &report(None), ListUnits::of(STYLES[0]));
    let parts = text.split("Parts on skin, sheet 1\n").nth(1).unwrap();
    let rows: Vec<Vec<f64>> = parts.lines().take(6).map(numbers).filter(|row| row.len() == 5).collect();
    let (sum, parts) = rows.split_last().unwrap();
    for column in 0..5 {
        let total: f64 = parts.iter().map(|row| row[column]).sum();
        assert!((total - sum[column]).abs() < SAME_POINT_MM, "{column} {rows:?}");
    }
    let line = text.lines().find(|line| line.starts_with("parts ")).unwrap();
    assert_eq!(numbers(line)[..2], sum[1..3]);
}

#[test]
fn a_sheet_without_price_is_said_and_leaves_no_sum_of_money() {
    let text = paper::scrap_report::text("Oyster skiff", &report(None), ListUnits::of(STYLES[0]));
    assert!(text.contains("1 of 2 sheets have no price"), "{text}");
    let all = text.split("All 2 sheets").nth(1).unwrap();
    assert!(all.lines().find(|line| line.starts_with("bought")).unwrap().contains("no price"));
}

#[test]
fn the_cut_list_fits_its_lines_and_counts_its_pieces() {
    for style in STYLES {
        let text = list::text("Oyster skiff", &rows(), ListUnits::of(style));
        assert!(text.lines().all(|line| line.chars().count() <= 100), "{text}");
        let sum = text.lines().find(|line| line.starts_with("all ")).unwrap();
        assert!(sum.contains(" 7 "), "{text}");
    }
    // 7 × 12.83 as printed = 89.81 lb, as a sum by hand.
    let text = cut_list::text("Oyster skiff", &rows(), ListUnits::of(STYLES[0]));
    assert!(text.contains("89.81"), "{text}");
}

#[test]
fn the_csv_has_a_field_for_every_heading_and_quotes_what_it_must() {
    let csv = cut_list::csv(&rows(), ListUnits::of(STYLES[0]));
    assert!(csv.contains("\"tapered lid, \"\"forward\"\"\""), "{csv}");
    assert!(csv.ends_with("\r\n"));
    let heading = csv.lines().next().unwrap();
    assert_eq!(heading.split(',').count(), 13);
    assert!(csv.contains(",37.2930,29.5430,"), "{csv}");
}

#[test]
fn bounds_are_said_in_words() {
    assert_eq!(bound_words(2, 2), "2 sheets, proved least of this size");
    assert_eq!(bound_words(1, 1), "1 sheet, proved least");
    assert_eq!(bound_words(4, 3), "4 sheets; 3 of this size not excluded");
}

/// So many sheets not excluded by the area of the parts, which take 50 ft2 of 32 on each.
fn proof(sheets: u32) -> Proof {
    let areas = [50.0, 32.0].map(square_feet);
    Proof::LeastSheets(Limit { sheets, argument: "area of the parts".to_owned(), areas })
}

#[test]
fn what_is_not_proved_says_by_how_much() {
    let mut open = choices();
    let taken = open[0].outcome.as_mut().unwrap();
    taken.sheets = 3;
    let text = sheet_choices::text("skin", &open, ListUnits::of(STYLES[0]));
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    // 50 of 2 × 32; on one sheet 50 - 32.
    let told = "48 × 96: 3 found, 2 neither found nor excluded; fewer cannot be, by the area of the parts. With half the gap around each the \
                parts take 50.0 of 64.0 ft2 on 2; on 1 they would be 18.0 ft2 short.";
    assert!(text.contains(told), "{text}");
}

fn choices() -> Vec<SheetChoice> {
    let taken = Taken {
        sheets: 2,
        area: square_feet(64.0),
        money: None,
        yield_permille: 714,
        proof: proof(2),
        as_mix: None,
        order: None,
    };
    let fits = SheetChoice { name: "48 × 96".to_owned(), outcome: Ok(taken), chosen: true };
    let reason = "T fits no sheet: it needs 37.293 × 29.543 and the trimmed sheet has 23 × 47";
    let none = SheetChoice { name: "24 × 48".to_owned(), outcome: Err(reason.to_owned()), chosen: false };
    vec![fits, none]
}

#[test]
fn the_table_of_sheets_says_what_fits_none() {
    let text = sheet_choices::text("skin", &choices(), ListUnits::of(STYLES[0]));
    assert!(text.contains("used  48 × 96  2 sheets, proved least of this size  "), "{text}");
    assert!(text.contains("no price") && text.contains("71.4 %"), "{text}");
    assert!(text.contains("24 × 48: T fits no sheet"), "{text}");
}

fn papers() -> Papers {
    let labels = LabelSheet::usual(PaperSize::Letter);
    Papers { leaves: PaperSize::Letter, maps: PaperSize::A3, labels }
}

fn packet_html(job: &str, mark: &str) -> String {
    let flat = crate::common::clip();
    let style = STYLES[0];
    let facts = vec![Fact {
        name: "<b>hip</b>".to_owned(),
        value: "4.396".to_owned(),
        origin: "a & b".to_owned(),
        fields: vec!["hip".to_owned()],
    }];
    let page = paper::layout_sheet::draw(&PartSheet {
        job,
        mark,
        title: mark,
        metal: "skin",
        quantity: 2,
        flat: &flat,
        style,
        facts: &facts,
        bend_number: "K .42",
        proof: "",
        lay: None,
        face: "this face up",
        weight: "1 lb",
        notes: &[],
        cautions: &[],
        marked_with: "",
        origins: paper::layout_sheet::Origins::default(),
        named: &paper::layout_sheet::Named::default(),
        folded: None,
        strip: None,
    })
    .layout;
    let report = report(None);
    let picture = paper::scrap_report::bars(job, &report);
    let words = [mark.to_owned()];
    let packet = Packet {
        job,
        head: &[("date".to_owned(), "2026-11-25".to_owned())],
        notes: &words,
        also_to_buy: &words,
        assumptions: &words,
        cautions: &words,
        standing_cautions: &standing(Speaks { lids: true, ..Speaks::default() }),
        parts: &[(); 2].map(|()| drawn_part(mark, &page, &facts)),
        openings: &[FactTable { name: mark.to_owned(), facts }],
        fits: &[],
        choices: &[MetalChoices { metal: mark.to_owned(), choices: choices(), notes: words.to_vec() }],
        sheets: &[drawn_sheet(mark, page)],
        wholes: &[],
        metal_origins: &[],
        kept_drops: &words,
        labels: &[PieceLabel { mark: mark.to_owned(), words: words.to_vec() }],
        cut_list: &rows(),
        also_cut: &[],
        chapters: &[],
        scrap: Some((&report, &picture)),
        credit: None,
        money: "Money is in ducats.",
        units: ListUnits::of(style),
    };
    html(&packet, &leaves(&packet, &papers()))
}

fn drawn_sheet(mark: &str, page: paper::Page) -> DrawnSheet {
    DrawnSheet {
        name: mark.to_owned(),
        pages: vec![page],
        over_the_cuts: paper::cautions::SCRIBE_FIRST.to_owned(),
        steps: vec![mark.to_owned()],
    }
}

/// A part of which every drawing is the same page.
fn drawn_part(mark: &str, page: &paper::Page, facts: &[Fact]) -> DrawnPart {
    DrawnPart {
        mark: mark.to_owned(),
        title: mark.to_owned(),
        quantity: 2,
        is_bent: true,
        numbers: None,
        page: page.clone(),
        points: vec![page.clone()],
        details: vec![page.clone()],
        folded: Some(page.clone()),
        model: Some(page.clone()),
        heading: facts.to_vec(),
        facts: facts.to_vec(),
        bend_cards: Vec::new(),
    }
}

#[test]
fn the_packet_is_well_formed_whatever_the_words_and_holds_no_script() {
    for hostile in ["<script>alert(1)</script>", "</style><img src=x onerror=y>", "\"'&", "غطاء", "a\u{0}b"]
    {
        let text = packet_html(hostile, hostile);
        // But for its first line the page is XML, so a strict reader can prove that nothing broke out.
        let document = roxmltree::Document::parse(text.strip_prefix("<!DOCTYPE html>\n").unwrap()).unwrap();
        let forbidden = ["script", "img", "link", "iframe", "b"];
        assert!(!document.descendants().any(|node| forbidden.contains(&node.tag_name().name())));
        assert!(
            !document.descendants().flat_map(|node| node.attributes()).any(|a| a.name().starts_with("on"))
        );
        let heading = document.descendants().find(|node| node.has_tag_name("h1")).unwrap();
        assert_eq!(heading.text().unwrap(), hostile.replace('\u{0}', "\u{fffd}"));
    }
}

#[test]
fn the_packet_names_nothing_twice_and_every_link_leads_somewhere() {
    let text = packet_html("Job", "C");
    let document = roxmltree::Document::parse(text.strip_prefix("<!DOCTYPE html>\n").unwrap()).unwrap();
    let mut names: Vec<&str> = document.descendants().filter_map(|node| node.attribute("id")).collect();
    let count = names.len();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), count);
    let links = document.descendants().filter_map(|node| node.attribute("href"));
    assert!(links.clone().count() > 4);
    assert!(links.map(|link| link.trim_start_matches('#')).all(|link| names.contains(&link)));
    assert!(
        !text.contains("http://")
            || text.matches("http://").count() == text.matches("http://www.w3.org/2000/svg").count()
    );
}

#[test]
fn units_go_with_the_style_of_lengths() {
    let units = ListUnits::of(STYLES[2]);
    assert_eq!((units.area, units.mass), (AreaUnit::SquareMetre, MassUnit::Kilogram));
}
