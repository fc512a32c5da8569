//! Maps and labels of roll goods and wear liner in the packet, and jobs that make nothing else.

use serde_json::{Value, json};

use crate::program::{packet_of, packet_of_job, plateloft_on};
use crate::written::{Seen, pdf, svg};

const BARGE: &str = "fixtures/jobs/work-barge.json";

fn html(packet: &std::collections::BTreeMap<String, Vec<u8>>) -> &str {
    std::str::from_utf8(&packet["index.html"]).unwrap()
}

fn count(drawing: &Seen, words: &str) -> usize {
    drawing.texts.iter().filter(|text| text.words == words).count()
}

#[test]
fn every_roll_face_and_sheet_of_liner_is_drawn() {
    let packet = packet_of(BARGE, &[]);
    let drawings = svg::drawings(html(&packet));
    let named = |end: &str| {
        let mut found = drawings.iter().filter(|drawing| drawing.name.ends_with(end));
        found
            .next()
            .unwrap_or_else(|| panic!("{end}: {:?}", drawings.iter().map(|d| &d.name).collect::<Vec<_>>()))
    };
    let roll = named("Map of the roll");
    // Panels of 41 and 61 of M1, the seam 60 from its left side, 1 past it: drawn on both. Beside the narrow one lie M2, M3 and
    // M2 to 130, and that is where nothing is in the way of a cut across; the wide panel from 144 on ends the length of 240.
    assert_eq!(count(roll, "seam 1 from this edge (60 from the left of the laid piece)"), 2);
    for words in ["cut across at 130", "M2 no. 1 of 2", "M3", "28 1/2 × 20", "96 × 61"] {
        assert_eq!(count(roll, words), 1, "{words}");
    }
    assert_eq!(roll.texts.iter().filter(|text| text.words.starts_with("cut across at ")).count(), 1);
    // L1 is 120 × 46: two panels along it, on two sheets; L2 goes twice on what is left of them or on a third.
    let face = named("Panels on the face, UHMW-PE 3/8");
    assert_eq!((count(face, "L1, panel 1 of 2"), count(face, "L1, panel 2 of 2")), (1, 1));
    let sheets = drawings.iter().filter(|drawing| drawing.name.contains("UHMW-PE 3/8, Map of the sheet"));
    let sheets: Vec<&Seen> = sheets.collect();
    let panels = ["L1, panel 1 of 2", "L1, panel 2 of 2", "L2 no. 1 of 2", "L2 no. 2 of 2"];
    for panel in panels {
        assert_eq!(sheets.iter().map(|sheet| count(sheet, panel)).sum::<usize>(), 1, "{panel}");
    }
    // Listed once, and as it is cut: 101 wide in all from a roll of 72.
    let page = html(&packet);
    assert_eq!(page.matches("<h3>Matting and liner to cut</h3>").count(), 1);
    let list = std::str::from_utf8(&packet["cut-list.txt"]).unwrap();
    let of_m1: Vec<&str> = list.lines().filter(|line| line.starts_with("M1")).collect();
    assert_eq!(of_m1.len(), 2, "{of_m1:?}");
    for (line, width) in of_m1.iter().zip(["61", "41"]) {
        assert!(
            line.contains("from the left") && line.split_whitespace().any(|word| word == width),
            "{line}"
        );
    }
    let leaves = pdf::leaves(&packet["packet.pdf"]);
    let labels: Vec<&str> =
        leaves.iter().flat_map(|leaf| &leaf.texts).map(|text| text.words.as_str()).collect();
    let more = ["nap up, running along the first size", "M1, panel 1 of 2 from the left"];
    for words in panels.into_iter().chain(more) {
        assert!(labels.contains(&words), "{words}");
    }
    for way in ["gaps along its length: ", "gaps along its width: "] {
        assert!(labels.iter().any(|words| words.starts_with(way)), "{way}");
    }
}

#[test]
fn a_label_says_where_a_piece_lies() {
    let job = alone(&json!({ "coverings": [{ "covering": "carpet", "width": "72", "pieces": [
        { "mark": "C1", "size": ["60", "40"], "lies_in": "wheelhouse floor" }] }] }));
    let packet = packet_of_job(&job, &[]);
    assert!(html(&packet).contains("lies in: wheelhouse floor"));
}

/// A job without parts.
fn alone(more: &Value) -> Value {
    let mut job = json!({
        "plateloft": 1, "job": "Cabin", "units": "inch", "tape": "1/16", "shop": { "gap": "1/4", "edge_trim": "1/2" }
    });
    for (name, value) in more.as_object().unwrap() {
        job[name] = value.clone();
    }
    job
}

#[test]
fn bars_or_coverings_alone_are_a_job_with_its_list_of_what_to_buy() {
    let bars = json!([{ "bar": "angle 1 1/2 x 1/8", "kerf": "1/16", "sticks": [{ "length": "240", "price": 31 }],
        "pieces": [{ "mark": "A1", "length": "31 1/2", "quantity": 4 }] }]);
    let coverings =
        json!([{ "covering": "carpet", "width": "72", "pieces": [{ "mark": "C1", "size": ["60", "40"] }] }]);
    for (job, told) in [
        (alone(&json!({ "bars": bars })), "1 × angle 1 1/2 x 1/8 240"),
        (alone(&json!({ "coverings": coverings })), "carpet, 72 wide: 1 length of 60"),
    ] {
        let packet = packet_of_job(&job, &[]);
        let page = html(&packet);
        let list = page.split("<h2>To buy</h2>").nth(1).expect("a list of what to buy");
        assert!(list.split("</section>").next().unwrap().contains(told), "{told}");
        let leaves = pdf::leaves(&packet["packet.pdf"]);
        assert!(leaves.iter().any(|leaf| leaf.texts.iter().any(|text| text.words.contains(told))), "{told}");
        assert!(
            !page.contains("Sheets to buy") && !page.contains("Scrap report"),
            "nothing is said of sheets"
        );
    }
}

#[test]
fn a_job_that_makes_nothing_is_refused() {
    for (job, told) in [
        (alone(&json!({})), "parts: is missing\n    give parts to make, or bars, coverings or liners"),
        (alone(&json!({ "parts": [], "bars": [] })), "parts: []: names nothing to make"),
        (
            alone(
                &json!({ "parts": [{ "mark": "P", "shape": "plate", "metal": "skin", "size": ["20", "10"] }] }),
            ),
            "metals: is missing\n    give metals by the name that parts and sheets call them",
        ),
    ] {
        let run = plateloft_on(&job, &["check"]);
        assert_eq!(run.code, 2, "{}", run.stdout);
        assert!(run.stderr.contains(told), "{told}: {}", run.stderr);
    }
}

/// 40 ft of roll, 6 ft wide: read in one picture it would be a ribbon.
#[test]
fn a_long_roll_is_drawn_in_stretches_that_are_measured_from_its_end() {
    let job = alone(&json!({ "coverings": [{ "covering": "carpet", "width": "72", "pieces": [
        { "mark": "C", "size": ["120", "70"], "quantity": 4 }] }] }));
    let packet = packet_of_job(&job, &[]);
    let drawings = svg::drawings(html(&packet));
    let stretch = |number: usize| {
        let end = format!("Map of the roll, stretch {number} of 2");
        drawings.iter().find(|drawing| drawing.name.ends_with(&end)).unwrap_or_else(|| panic!("{end}"))
    };
    assert_eq!((count(stretch(1), "cut across at 120"), count(stretch(1), "cut across at 240")), (1, 1));
    assert_eq!((count(stretch(2), "cut across at 360"), count(stretch(2), "480")), (1, 2));
    // 0 across on both, 0 along only where the roll begins; 480 along, and as the length to buy.
    assert_eq!((1..=2).map(|number| count(stretch(number), "0")).collect::<Vec<_>>(), [2, 1]);
}
