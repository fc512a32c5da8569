//! Pairs: mirrored, the face side kept, own marks, and an edited pair flagged wherever it is printed.

use serde_json::{Value, json};

use crate::program::{SKIFF, packet_of, plateloft, plateloft_on};

const DECKS: &str = "fixtures/jobs/deck-pair.json";

fn part<'a>(flats: &'a Value, mark: &str) -> &'a Value {
    flats["parts"].as_array().unwrap().iter().find(|part| part["mark"] == mark).unwrap()
}

fn flats(job: &str) -> Value {
    let run = plateloft(&["flats", job, "--json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    serde_json::from_str(&run.stdout).unwrap()
}

#[test]
fn an_edited_pair_lists_what_differs_on_both_hands() {
    // Starboard 3/16 less at 60 and 75 than port's 13 1/2: plane arithmetic, 13 5/16.
    let flats = flats(DECKS);
    let (port, starboard) = (part(&flats, "SDP"), part(&flats, "SDS"));
    assert_eq!(port["pair"]["exact"], false);
    assert_eq!(port["pair"]["with"], "SDS");
    let differs = port["pair"]["differs"].as_array().unwrap();
    let fields: Vec<&str> = differs.iter().map(|row| row["field"].as_str().unwrap()).collect();
    assert_eq!(fields, ["outline[2][1]", "outline[3][1]"]);
    assert!(differs.iter().all(|row| row["this"] == "13 1/2" && row["other"] == "13 5/16"));
    assert!(starboard["pair"]["differs"].as_array().unwrap().iter().all(|row| row["this"] == "13 5/16"));
    // The top loses a strip 3/16 wide between 60 and 75 and a wedge of it between 45 and 60:
    // 3/16 × 15 + 3/16 × 15 / 2 = 4.21875 in² by plane geometry; the flanges keep their lengths to a hundredth.
    let area = |part: &Value| part["area"].as_f64().unwrap() * 144.0;
    let lost = area(port) - area(starboard);
    assert!((lost - 4.218_75).abs() < 0.1, "{lost}");
    let width = |part: &Value| part["blank"][1].as_f64().unwrap();
    assert!((width(port) - width(starboard) - 3.0 / 16.0).abs() < 0.001);
}

#[test]
fn hands_keep_the_face_and_turn_the_same_way() {
    for (job, first, second) in [(DECKS, "SDP", "SDS"), (SKIFF, "WS", "WP")] {
        let flats = flats(job);
        let (first, second) = (part(&flats, first), part(&flats, second));
        assert_eq!(first["face"], second["face"], "{job}");
        assert!(first["face"].as_str().unwrap().contains("lugs up"), "{job}");
        let ways = |part: &Value| -> Vec<Value> {
            part["bends"].as_array().unwrap().iter().map(|bend| bend["direction"].clone()).collect()
        };
        assert_eq!(ways(first), ways(second), "{job}");
    }
}

#[test]
fn an_exact_pair_is_an_exact_pair() {
    let flats = flats(SKIFF);
    for (mark, other) in [("WS", "WP"), ("WP", "WS")] {
        let pair = &part(&flats, mark)["pair"];
        assert_eq!((&pair["exact"], &pair["with"]), (&Value::from(true), &Value::from(other)));
        assert_eq!(pair["this"], pair["other"]);
    }
    assert_eq!(part(&flats, "L1")["pair"], Value::Null);
}

#[test]
fn the_paper_of_both_hands_says_that_the_pair_is_not_exact() {
    let packet = packet_of(DECKS, &[]);
    let text = |name: &str| String::from_utf8(packet[name].clone()).unwrap();
    for (own, other) in [("SDP", "SDS"), ("SDS", "SDP")] {
        assert!(text(&format!("parts/{own}.svg")).contains(&format!("NOT AN EXACT PAIR with {other}")));
    }
    assert!(text("index.html").contains("SDP and SDS are not an exact pair"));
}

#[test]
fn the_drawing_says_where_the_lugs_come_to_lie() {
    for (job, part, words) in [(SKIFF, "WS", "lugs inside"), (DECKS, "SDP", "lugs outside")] {
        let drawing = String::from_utf8(packet_of(job, &[])[&format!("parts/{part}.svg")].clone()).unwrap();
        assert!(drawing.contains(words), "{part}");
    }
}

/// Hands whose blanks are alike say so on both sheets. The wings of the skiff taper and are bent at one edge: no blank of theirs
/// can be laid on the other's.
#[test]
fn hands_of_one_blank_are_told_apart_in_words() {
    let page = |job: &str| String::from_utf8(packet_of(job, &[])["index.html"].clone()).unwrap();
    let gig = page("fixtures/jobs/gig-lockers.json");
    for other in ["LP-top1", "LS-top1"] {
        let words = format!("Same blank as {other}, bent the same way");
        assert!(gig.contains(&words), "{words}");
    }
    assert!(!page(SKIFF).contains("Same blank as"));
}

/// Starboard is 3/16 less at 60 and 75, and the deck is split at 75: the forward length has station 75 alone, and the strip
/// under the seam no station, but its own length.
#[test]
fn pieces_of_an_edited_pair_list_what_differs_on_them() {
    let packet = packet_of("fixtures/jobs/rescue-skiff.json", &[]);
    let page = |mark: &str| String::from_utf8(packet[&format!("parts/{mark}.svg")].clone()).unwrap();
    let words = |mark: &str| -> String {
        let svg = page(mark);
        svg.split('>')
            .filter_map(|piece| piece.split_once("</text").map(|(words, _)| words))
            .collect::<Vec<_>>()
            .join(" ")
    };
    for mark in ["SDP-1", "SDS-1", "SDP-2", "SDS-2", "SDP-strip1", "SDS-strip1"] {
        let words = words(mark);
        assert!(words.contains("NOT AN EXACT PAIR"), "{mark}: {words}");
        assert_eq!(words.contains("station 60: width"), mark.ends_with("-1"), "{mark}: {words}");
        assert_eq!(words.contains("station 75: width"), !mark.contains("strip"), "{mark}: {words}");
        assert_eq!(words.contains("length of the strip:"), mark.contains("strip"), "{mark}: {words}");
    }
    assert!(page("SDS-2").contains("opposite hand of SDP-2, not an exact pair"));
    let all = String::from_utf8(packet["index.html"].clone()).unwrap();
    assert!(all.contains("OPPOSITE HAND of SDP-2, not an exact pair"));
    for size in [
        "depth of every outboard flange, outside",
        "widths at the stations",
        "depth of flange inboard, outside",
    ] {
        assert!(all.contains(size), "{size}");
    }
}

/// The tips of warped faces beside a weld flange were once cut clear along the one edge on one hand and along the other on the
/// other. Whatever is called an exact pair has the same blanks, and all of this hopper are.
#[test]
fn hands_of_a_twisted_hopper_are_cut_alike() {
    let hopper = json!({
        "plateloft": 1, "job": "A twisted hopper", "units": "inch", "tape": "1/32",
        "shop": { "gap": "1/4", "kerf": "1/8", "edge_trim": "1/2" },
        "metals": { "s": { "alloy": "mild steel", "thickness": ".063", "inside_radius": ".063", "k_factor": 0.42 } },
        "parts": [{
            "mark": "H", "shape": "hopper", "metal": "s", "stands": "rim_down", "rise": "8.8471229",
            "rim_outline": [
                ["1.5113732", "-1.7079137"], ["28.2309971", ".0761442"],
                ["28.7918061", "23.0614009"], ["1.8292330", "25.1157543"],
            ],
            "collar_outline": [
                ["8.5382620", "7.1697915"], ["16.8919989", "10.5186840"],
                ["13.9152056", "17.9442279"], ["5.5614687", "14.5953354"],
            ],
            "made": "four_plates", "weld_flange": "3/4", "opposite_hand": "HX",
        }],
    });
    let run = plateloft_on(&hopper, &["flats", "--json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let flats: Value = serde_json::from_str(&run.stdout).unwrap();
    for side in ["AB", "BC", "CD", "DA"] {
        let (own, other) = (part(&flats, &format!("H-{side}")), part(&flats, &format!("HX-{side}")));
        let apart =
            |at: usize| (own["blank"][at].as_f64().unwrap() - other["blank"][at].as_f64().unwrap()).abs();
        assert!(apart(0).max(apart(1)) < 0.001, "{side}");
        assert_eq!(own["pair"]["exact"], true, "{side}");
        assert_eq!(other["pair"]["exact"], true, "{side}");
    }
}
