//! What a welder who never saw the program must find on the pages.
#![expect(clippy::disallowed_methods, reason = "a test of fixtures reads them")]

use roxmltree::Document;
use serde_json::{Value, json};

use crate::program::{SKIFF, packet_of, packet_of_job, packet_of_the_skiff, plateloft, plateloft_on};
use crate::written::places::{letters, words};

fn is_drawn_part(name: &str) -> bool {
    name.starts_with("parts/") && name.ends_with(".svg")
}

/// Sides go by their letters: every corner of a plate or a panel has its own, and none stands for a corner that is not there.
#[test]
fn corners_have_their_letters_and_no_others() {
    let skiff = packet_of_the_skiff();
    // Seen from the marked face, A is lower left and AB runs right; the opposite hand is mirrored.
    for (part, right) in [("P1", true), ("WS", true), ("WP", false)] {
        let found = letters(&skiff[&format!("parts/{part}.svg")]);
        let at = |letter: &str| {
            let places: Vec<[f64; 2]> =
                found.iter().filter(|(found, _)| found == letter).map(|(_, at)| *at).collect();
            assert_eq!(places.len(), 1, "{part}: {letter}: {found:?}");
            places[0]
        };
        let [a, b, c, d] = ["A", "B", "C", "D"].map(at);
        assert_eq!(a[0] < b[0], right, "{part}");
        assert_eq!(d[0] < c[0], right, "{part}");
        assert!(d[1] < a[1] && c[1] < b[1], "{part}: {found:?}");
    }
    // Both views of a channel have the ends of its mitres.
    for name in ["parts/G1-AB.svg", "folded/G1-AB.svg"] {
        let found: Vec<String> = letters(&skiff[name]).into_iter().map(|(letter, _)| letter).collect();
        assert!(found == ["A", "B"] || found == ["B", "A"], "{name}: {found:?}");
    }
    assert!(words(&skiff["parts/P1.svg"]).iter().any(|(words, _)| words == "C (cut away)"));
    let canopy = packet_of("fixtures/jobs/exhaust-canopy.json", &[]);
    for (part, ends) in [("AB", ["A", "B"]), ("BC", ["B", "C"]), ("CD", ["C", "D"]), ("DA", ["A", "D"])] {
        for folder in ["parts", "folded"] {
            let svg = &canopy[&format!("{folder}/HOOD-{part}.svg")];
            let mut found: Vec<String> = letters(svg).into_iter().map(|(letter, _)| letter).collect();
            found.sort();
            assert_eq!(found, ends, "{folder} {part}: one letter a corner of the rim");
            for end in ends {
                let collar = format!("{end} at the collar");
                assert!(words(svg).iter().any(|(words, _)| *words == collar), "{folder} {part}: {collar}");
            }
        }
    }
}

/// Every face that a table or a card names is named on the flat.
#[test]
fn every_flange_has_its_name_on_the_layout() {
    let skiff = packet_of_the_skiff();
    let flats: Value = serde_json::from_slice(&skiff["flats.json"]).unwrap();
    let mut looked = 0;
    for part in flats["parts"].as_array().unwrap() {
        let mark = part["mark"].as_str().unwrap();
        let on_it: Vec<String> =
            words(&skiff[&format!("parts/{mark}.svg")]).into_iter().map(|(words, _)| words).collect();
        for bend in part["bends"].as_array().unwrap() {
            let face = bend["between"][1].as_str().unwrap();
            assert!(on_it.iter().any(|words| words == face), "{mark}: {face}");
            looked += 1;
        }
    }
    assert!(30 < looked, "{looked} faces were looked for");
}

/// Words that the sizes use stand on the drawing, and so do sizes of openings.
#[test]
fn covers_and_decks_say_which_way_they_lie() {
    let covers = packet_of("fixtures/shapes/covers.json", &[]);
    let (_, svg) = covers.iter().find(|(name, _)| is_drawn_part(name)).unwrap();
    let on_it: Vec<String> = words(svg).into_iter().map(|(words, _)| words).collect();
    for way in ["UPSTREAM", "DOWNSTREAM", "LEFT WALL", "RIGHT WALL"] {
        assert!(on_it.iter().any(|words| words == way), "{way}: {on_it:?}");
    }
    let deck = packet_of("fixtures/shapes/deck.json", &[]);
    for (name, svg) in deck.iter().filter(|(name, _)| is_drawn_part(name) && !name.contains("strip")) {
        let on_it: Vec<String> = words(svg).into_iter().map(|(words, _)| words).collect();
        for way in ["AFT", "FORWARD", "INBOARD", "OUTBOARD"] {
            // An end at a seam goes on with the seam's name.
            assert!(on_it.iter().any(|words| words.split(',').next() == Some(way)), "{name}: {way}");
        }
        assert!(on_it.iter().any(|words| words.starts_with("station ")), "{name}");
    }
}

/// Numbers are in the job's own unit alone, and "+ .019" is said to be no tolerance.
#[test]
fn a_page_has_one_unit_and_says_how_its_numbers_are_read() {
    let skiff = packet_of_the_skiff();
    for (name, svg) in skiff.iter().filter(|(name, _)| name.ends_with(".svg")) {
        for (words, _) in words(svg) {
            assert!(!words.ends_with(" mm") && !words.contains(" mm "), "{name}: {words}");
            assert!(!words.contains('±'), "{name}: {words}");
        }
    }
    let all: Vec<String> = words(&skiff["parts/L1.svg"]).into_iter().map(|(words, _)| words).collect();
    let all = all.join(" ");
    assert!(all.contains("1/16 on the tape, then thousandths more (+) or less (-)"), "{all}");
}

/// Details show which side of a line is metal, and leaders of their names run through no other words.
#[test]
fn details_show_the_metal() {
    let skiff = packet_of_the_skiff();
    let text = std::str::from_utf8(&skiff["details/L1.svg"]).unwrap();
    assert!(text.contains("Grey is metal, white is cut away."));
    let document = Document::parse(text).unwrap();
    let filled = document.descendants().filter(|node| {
        node.has_tag_name("path") && node.attribute("fill").is_some_and(|fill| fill != "none")
    });
    assert!(4 <= filled.count(), "one a detail");
}

/// A part with more corners than its rows hold has every point in one table, each number once, and no number in its rows is
/// for several corners.
#[test]
fn a_crowded_part_has_one_table_of_its_whole_outline() {
    let canopy = packet_of("fixtures/jobs/exhaust-canopy.json", &[]);
    let flats: Value = serde_json::from_slice(&canopy["flats.json"]).unwrap();
    for part in ["HOOD-AB", "HOOD-CD"] {
        let table = words(&canopy[&format!("points/{part}.svg")]);
        // The drawing's numbers stand over the table's head.
        let head = table.iter().find(|(words, _)| words == "point").unwrap().1[1];
        let is_number = |words: &str| words.parse::<usize>().is_ok();
        let columns: Vec<f64> =
            table.iter().filter(|(words, _)| words == "point").map(|(_, at)| at[0]).collect();
        let in_column = |at: [f64; 2]| head < at[1] && columns.iter().any(|left| (left - at[0]).abs() < 0.01);
        let mut numbers: Vec<usize> = table
            .iter()
            .filter(|(words, at)| is_number(words) && in_column(*at))
            .map(|(words, _)| words.parse().unwrap())
            .collect();
        numbers.sort_unstable();
        assert!(30 < numbers.len(), "{part}: {numbers:?}");
        assert_eq!(numbers, (1..=numbers.len()).collect::<Vec<_>>(), "{part}: each once");
        // Details go by the same numbers: what the drawing says a detail holds, its page shows.
        let is_page = |name: &str| name.starts_with(&format!("details/{part}"));
        let detailed: Vec<String> = canopy
            .iter()
            .filter(|(name, _)| is_page(name))
            .flat_map(|(_, svg)| words(svg).into_iter().map(|(words, _)| words))
            .collect();
        let mut looked = 0;
        for (words, _) in table.iter().filter(|(words, _)| words.starts_with("detail ")) {
            for span in words.split_once(": ").unwrap().1.split(", ") {
                let (first, last) = span.split_once('–').unwrap_or((span, span));
                for number in first.parse::<usize>().unwrap()..=last.parse().unwrap() {
                    assert!(detailed.contains(&number.to_string()), "{part}: {words}: {number}");
                    looked += 1;
                }
            }
        }
        assert!(20 < looked && looked <= numbers.len(), "{part}: {looked}");
        // Every bend line runs from one point to another.
        let own = flats["parts"].as_array().unwrap().iter().find(|own| own["mark"] == part).unwrap();
        let all = rows(&canopy[&format!("points/{part}.svg")]);
        let lines = all.iter().filter(|row| row[0].starts_with("bend ") && row[2].starts_with("from "));
        assert_eq!(lines.count(), own["bends"].as_array().unwrap().len(), "{part}");
        let rows = words(&canopy[&format!("parts/{part}.svg")]);
        assert!(rows.iter().all(|(words, _)| !words.starts_with('(')), "{part}");
        assert!(rows.iter().any(|(words, _)| words.starts_with("Crowded corners have no numbers here")));
    }
}

/// Paths of the job file stand in the appendix alone: a welder knows stations and flanges.
#[test]
fn pages_for_the_bench_speak_of_stations_and_not_of_fields() {
    let skiff = packet_of("fixtures/jobs/rescue-skiff.json", &[]);
    let mut said = 0;
    for (name, svg) in skiff.iter().filter(|(name, _)| name.ends_with(".svg")) {
        for (words, _) in words(svg) {
            assert!(!words.contains("[") && !words.contains("shop.brake"), "{name}: {words}");
            said += usize::from(words.contains("station 60: width from the inboard edge"));
        }
    }
    assert!(0 < said);
    let page = std::str::from_utf8(&skiff["index.html"]).unwrap();
    assert!(!page.contains("stations["), "also in the cautions");
}

/// Where a bend makes the edge at which a width was given, the flat has nothing to scribe there: every number beside a deck is that
/// of a point in its table, so that no station can be taken for the bend line next to it.
#[test]
fn stations_on_a_bent_edge_have_no_numbers_to_scribe() {
    let skiff = packet_of("fixtures/jobs/rescue-skiff.json", &[]);
    for part in ["SDP-1", "SDP-2", "SDS-1", "SDS-2"] {
        let table: Vec<String> =
            words(&skiff[&format!("points/{part}.svg")]).into_iter().map(|(words, _)| words).collect();
        let sheet = words(&skiff[&format!("parts/{part}.svg")]);
        let text = std::str::from_utf8(&skiff[&format!("parts/{part}.svg")]).unwrap();
        let document = Document::parse(text).unwrap();
        let named = |node: &roxmltree::Node<'_, '_>| {
            let title = node.children().find(|child| child.has_tag_name("title"));
            title.and_then(|title| title.text()) == Some(&format!("{part} dimensions"))
        };
        let group = document.descendants().find(named).unwrap();
        let beside: Vec<&str> = group
            .descendants()
            .filter(|node| node.has_tag_name("text"))
            .filter_map(|node| node.text())
            .collect();
        assert!(4 < beside.len(), "{part}: {beside:?}");
        for number in beside {
            let is_point = number == "0" || table.iter().any(|words| words == number);
            assert!(is_point, "{part}: {number} is no point: {table:?}");
        }
        let all: Vec<&str> = sheet.iter().map(|(words, _)| words.as_str()).collect();
        assert!(all.iter().any(|words| words.starts_with("station ")), "{part}: stations keep their names");
        let said = all.join(" ");
        assert!(said.contains("Nothing is scribed there"), "{part}: {said}");
    }
}

/// Walls and rims that stand edge to edge meet while a bend is pressed past its turn: the order lets that pass, and the
/// stroke says so.
#[test]
fn faces_that_meet_while_overbent_are_told_at_their_stroke() {
    let skiff = packet_of_the_skiff();
    let cards = skiff.iter().filter(|(name, _)| name.starts_with("bends/T"));
    let said: Vec<String> = cards.flat_map(|(_, svg)| words(svg)).map(|(words, _)| words).collect();
    let said = said.join(" ");
    assert!(said.contains("care: while overbent, rim "), "{said}");
    assert!(said.contains("wedge the free one aside before the stroke"), "{said}");
    // One flange alone has nothing to meet.
    let wing: Vec<String> = words(&skiff["bends/WS.svg"]).into_iter().map(|(words, _)| words).collect();
    assert!(!wing.join(" ").contains("while overbent"), "{wing:?}");
    let flats = plateloft(&["flats", "fixtures/jobs/oyster-skiff.json", "--json"]);
    let flats: Value = serde_json::from_str(&flats.stdout).unwrap();
    let parts = flats["parts"].as_array().unwrap();
    let told = |mark: &str| {
        let part = parts.iter().find(|part| part["mark"] == mark).unwrap();
        let steps = part["bend_order"]["steps"].as_array().unwrap();
        steps.iter().flat_map(|step| step["touching"].as_array().unwrap()).cloned().collect::<Vec<_>>()
    };
    let trays = told("T");
    assert!(trays.iter().any(|meeting| meeting["while_overbent"] == true), "{trays:?}");
    let rims = |meeting: &Value| {
        ["front", "back"]
            .iter()
            .all(|side| meeting[side].as_str().is_some_and(|face| face.starts_with("rim ")))
    };
    assert!(trays.iter().all(rims), "{trays:?}");
    assert!(told("WS").is_empty(), "one flange alone");
}

/// A test strip shows what is done with it: its bend line, the turn, both legs to measure and what they should be together.
#[test]
fn a_test_strip_is_drawn_as_one() {
    let packet = packet_of("fixtures/jobs/gig-lockers.json", &[]);
    let strip = words(&packet["parts/TS.svg"]);
    let has = |wanted: &str| strip.iter().any(|(words, _)| words.starts_with(wanted));
    // Most bends of its metal, the skirts of the lids, are turned down.
    for wanted in ["bend DOWN 90.0°", "leg 1, outside", "leg 2, outside", "turn by the square"] {
        assert!(has(wanted), "{wanted}: {strip:?}");
    }
    // 4 in across its middle at 2; together the legs are its length and the deduction of the job's metal.
    assert!(has("2"), "the bend line has its running dimension");
    let kit = plateloft(&["kit", "fixtures/jobs/gig-lockers.json", "--json"]);
    let kit: Value = serde_json::from_str(&kit.stdout).unwrap();
    let steps = kit["test_strips"][0]["steps"].to_string();
    let sum = strip.iter().find_map(|(words, _)| words.strip_prefix("leg 1 + leg 2 should be ")).unwrap();
    assert!(steps.contains(&format!(" = {sum}")), "{sum}: {steps}");
}

/// A part that goes on the sheet turned is said to be: its datum corner is then not the lower left one.
#[test]
fn the_order_of_cuts_says_how_a_piece_is_turned() {
    let run = plateloft(&["nest", SKIFF]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    assert!(run.stdout.contains("its layout sheet lies a quarter turn to the left"), "{}", run.stdout);
}

/// What the job says as a whole is on the first page, and what is bought beside sheets stands with the sheets.
#[test]
fn notes_of_the_job_and_everything_to_buy_are_in_the_packet() {
    let skiff = packet_of_the_skiff();
    let page = std::str::from_utf8(&skiff["index.html"]).unwrap();
    let job: Value =
        serde_json::from_str(&std::fs::read_to_string(crate::program::top().join(SKIFF)).unwrap()).unwrap();
    let escaped = |words: &str| words.replace('&', "&amp;").replace('"', "&quot;").replace('\'', "&#39;");
    for note in job["notes"].as_array().unwrap() {
        assert!(page.contains(&escaped(note.as_str().unwrap())), "{note} is not in the packet");
    }
    for hardware in job["hardware"].as_array().unwrap() {
        let line = format!("{} × {}", hardware["count"], hardware["item"].as_str().unwrap());
        assert!(page.contains(&escaped(&line)), "{line} is not in the packet");
    }
    let barge = packet_of("fixtures/jobs/work-barge.json", &[]);
    let page = std::str::from_utf8(&barge["index.html"]).unwrap();
    let also = page.split("Also to buy").nth(1).expect("a list of what else is bought");
    let also = also.split("</section>").next().unwrap();
    assert!(also.contains(" wide: ") && also.contains("UHMW"), "{also}");
}

/// Edges that are joined go by one name on both plates, and that of a plate in pieces has its own letters.
#[test]
fn joined_edges_have_one_name_on_both_plates() {
    let gangway = packet_of("fixtures/jobs/marina-gangway.json", &[]);
    for (part, other) in [("F-1", 2), ("F-2", 1)] {
        let svg = &gangway[&format!("parts/{part}.svg")];
        let on_it: Vec<String> = words(svg).into_iter().map(|(words, _)| words).collect();
        let seam = format!("JOINT EF, 4.0 open, to piece {other}");
        assert!(on_it.contains(&seam), "{part}: {on_it:?}");
        let found: Vec<String> = letters(svg).into_iter().map(|(letter, _)| letter).collect();
        for end in ["E", "F"] {
            assert!(found.iter().any(|letter| letter == end), "{part}: {found:?}");
        }
        assert!(on_it.iter().all(|words| !words.starts_with("edge ")), "{part}: {on_it:?}");
    }
    let lockers = packet_of("fixtures/jobs/gig-lockers.json", &[]);
    for plate in ["LS-top", "LS-front", "LP-top", "LP-front"] {
        for (length, named) in [(1, "FORWARD, seam 1, to length 2"), (2, "AFT, seam 1, to length 1")] {
            let on_it = words(&lockers[&format!("parts/{plate}{length}.svg")]);
            assert!(on_it.iter().any(|(words, _)| words == named), "{plate}{length}: {on_it:?}");
        }
    }
}

/// Lids are laid by the numbers of the top's own page, frames by those of top and front.
#[test]
fn lids_and_frames_of_a_locker_have_their_places() {
    let lockers = packet_of("fixtures/jobs/gig-lockers.json", &[]);
    let flats: Value = serde_json::from_slice(&lockers["flats.json"]).unwrap();
    let fact = |mark: &str, name: &str| -> String {
        let part = flats["parts"].as_array().unwrap().iter().find(|part| part["mark"] == mark).unwrap();
        let fact = part["facts"].as_array().unwrap().iter().find(|fact| fact["name"] == name).unwrap();
        fact["value"].as_str().unwrap().to_owned()
    };
    // The second lid lies 59 from the locker's aft end, 13 from the seam at 46; the first 13 from the aft end.
    let (first, second) = (fact("LS-top1", "lid 1 lies"), fact("LS-top2", "lid 2 lies"));
    assert!(
        first.starts_with("20 along × 10 across; its aft edge 13 from the aft end of this plate, "),
        "{first}"
    );
    assert!(second.contains("13 from the aft end of this plate, 59 from that of the locker, "), "{second}");
    assert!(second.contains("its rear edge 1 1/2 from "), "{second}");
    let by_rows = "; scribe them by the running dimensions";
    for plate in ["LS-top", "LS-front"] {
        let name = "frames, from the aft end of this plate";
        assert_eq!(fact(&format!("{plate}1"), name), format!("frame 1 23, frame 2 46{by_rows}"));
        assert_eq!(fact(&format!("{plate}2"), name), format!("frame 2 0, frame 3 23{by_rows}"));
    }
    // On the drawings they are running dimensions from the datum corner: the top's is its aft end, the front's its forward end.
    // The two flanges of the top are bent off its edges, so that the lid's rear edge at 1 1/2 lies higher on the flat by what the
    // rear flange takes.
    let numbers = |mark: &str| -> Vec<String> {
        words(&lockers[&format!("parts/{mark}.svg")]).into_iter().map(|(words, _)| words).collect()
    };
    let holds = |mark: &str, wanted: &[&str]| {
        let numbers = numbers(mark);
        for number in wanted {
            assert!(numbers.iter().any(|words| words == number), "{mark}: {number} in {numbers:?}");
        }
    };
    holds("LS-top1", &["13", "23", "33", "lid 1, rear aft corner", "lid 1, front forward corner"]);
    holds("LS-top2", &["13", "23", "33"]);
    holds("LS-front1", &["0", "23"]);
    holds("LS-front2", &["23", "46"]);
}

/// A piece of a hopper is proven by its edges, both diagonals of its face, and the bevel; the whole by rim, collar, rise and how
/// far the collar stands off the rim, on every page.
#[test]
fn pieces_of_a_hopper_have_sizes_for_tape_and_bevel() {
    let canopy = packet_of("fixtures/jobs/exhaust-canopy.json", &[]);
    let said = |mark: &str| -> String {
        let words = words(&canopy[&format!("folded/HOOD-{mark}.svg")]);
        words.into_iter().map(|(words, _)| words).collect::<Vec<_>>().join(" ")
    };
    for mark in ["AB", "BC", "CD", "DA"] {
        let said = said(mark);
        for size in [
            format!("inside angle of face {mark} and leg {mark}"),
            format!("inside of leg {mark} to inside of collar {mark}, level"),
            format!("height of face {mark} standing on its rim, to the edge of the collar"),
            "AB 72, BC 42, CD 72, DA 42; diagonals A to C".to_owned(),
            "AB 20, BC 14, CD 20, DA 14; diagonals A to C".to_owned(),
            "18 square from the rim".to_owned(),
            "20 from AB; 30 from BC; 8 from CD; 22 from DA".to_owned(),
            "outside is the face up on the layout sheet, inside its back".to_owned(),
        ] {
            assert!(said.contains(&size), "{mark}: {size}: {said}");
        }
        assert_eq!(
            said.matches("diagonal of face").count() + said.matches("diagonal, ").count(),
            2,
            "{mark}: {said}"
        );
        assert!(!said.contains(", back"), "{mark}: {said}");
    }
    assert!(
        said("AB").contains("face AB to collar AB, inside, corner to corner (the fold stops short of both)")
    );
    for cut in ["cut edge of face BC along hip B", "cut edge of face BC along hip C"] {
        assert!(said("BC").contains(cut), "{cut}: {}", said("BC"));
    }
}

/// A crowned lid is measured as it lies, and its four corners have their letters on both drawings.
#[test]
fn a_crowned_lid_is_measured_as_it_lies() {
    let bin = packet_of("fixtures/jobs/sled-bin.json", &[]);
    for drawing in ["parts/LID.svg", "folded/LID.svg"] {
        let mut found: Vec<String> = letters(&bin[drawing]).into_iter().map(|(letter, _)| letter).collect();
        found.sort();
        assert_eq!(found, ["A", "B", "C", "D"], "{drawing}");
    }
    let said: Vec<String> = words(&bin["folded/LID.svg"]).into_iter().map(|(words, _)| words).collect();
    let said = said.join(" ");
    // The rim's outside 55.004 × 25.435, 3/8 beyond it all round; 1-1/4 of skirt and 1/2 of crown.
    for size in [
        "over all as it lies in use, rim level 55 3/4 + .004 × 26 3/16 - .003 × 1 3/4",
        "height of skirt DA, outside 1 1/4",
        "height of skirt AB at the crown, outside 1 3/4",
    ] {
        assert!(said.contains(size), "{size}: {said}");
    }
}

/// A part that stands has no upper face: the job says which one is drawn, of both hands.
#[test]
fn a_carcass_side_says_which_face_is_drawn() {
    let truck = packet_of("fixtures/jobs/call-out-truck.json", &[]);
    for mark in ["CS-R", "CS-L"] {
        let svg = String::from_utf8(truck[&format!("parts/{mark}.svg")].clone()).unwrap();
        assert!(svg.contains("this face up: inner face of the finished part, film up"), "{mark}");
        assert!(!svg.contains("upper face"), "{mark}");
    }
}

/// A strip that is bent once is not listed as flat, nor as weighing nothing.
#[test]
fn a_test_strip_is_listed_with_its_bend_and_its_weight() {
    let lockers = packet_of("fixtures/jobs/gig-lockers.json", &[]);
    let list = String::from_utf8(lockers["cut-list.csv"].clone()).unwrap();
    let mut rows = list.lines().map(|row| row.split(',').collect::<Vec<_>>());
    let bends = rows.next().unwrap().iter().position(|heading| *heading == "bends each").unwrap();
    let strip = rows.find(|row| row[0] == "TS").unwrap();
    assert_eq!(strip[bends], "1", "{strip:?}");
    let svg = String::from_utf8(lockers["parts/TS.svg"].clone()).unwrap();
    // 4 × 1 of .090 at .097 lb/in3 (5052) comes to some .035 lb; the sheet has the number of the lists.
    let weight = svg.split(" lb<").next().unwrap().rsplit(['>', ' ']).next().unwrap();
    assert!((0.03..0.04).contains(&weight.parse::<f64>().unwrap()), "weight of the strip: {weight}");
    assert!(strip.contains(&weight), "{weight}: {strip:?}");
}

/// The sled bin with a sheet at hand that costs nothing.
fn bin_with_a_free_sheet() -> Value {
    let mut job: Value = serde_json::from_str(include_str!("../fixtures/jobs/sled-bin.json")).unwrap();
    let free =
        json!({ "metal": "skin", "size": ["47", "62 1/2"], "price": 0, "count": 1, "note": "At hand." });
    job["sheets"].as_array_mut().unwrap().insert(0, free);
    job
}

/// Which of two choices at one price is taken has a reason, and it stands where the choice is told.
#[test]
fn a_free_sheet_that_goes_first_says_why() {
    let why = "47 × 62 1/2 goes first though the price is the same without it";
    let job = bin_with_a_free_sheet();
    assert!(plateloft_on(&job, &["buy"]).stdout.replace('\n', " ").contains(why));
    let bin = packet_of_job(&job, &[]);
    let page = std::str::from_utf8(&bin["index.html"]).unwrap();
    assert!(page.contains(why));
    assert!(page.contains("47 × 62 1/2, one of it: At hand."), "no note of the sheet");
    // Where nothing is free there is nothing to say.
    assert!(!plateloft(&["buy", SKIFF]).stdout.contains("goes first"));
}

/// Columns of numbers at the same height on a page, left to right: the rows of its tables.
fn rows(svg: &[u8]) -> Vec<Vec<String>> {
    let mut all = words(svg);
    all.sort_by(|a, b| a.1[1].total_cmp(&b.1[1]).then(a.1[0].total_cmp(&b.1[0])));
    let mut rows: Vec<(f64, Vec<String>)> = Vec::new();
    for (words, at) in all {
        match rows.last_mut().filter(|(height, _)| (height - at[1]).abs() < 0.01) {
            Some((_, row)) => row.push(words),
            None => rows.push((at[1], vec![words])),
        }
    }
    rows.into_iter().map(|(_, row)| row).collect()
}

/// Two halves of one part that are mirror images have the same points, whichever way the numbers run along them.
#[test]
fn halves_of_a_symmetrical_part_have_the_same_points() {
    let packet = packet_of("fixtures/jobs/sled-bin.json", &[]);
    let mut points: Vec<[f64; 2]> = Vec::new();
    let length = |words: &str| units::Length::read(words, units::LengthUnit::Inch).map(units::Length::inches);
    for (_, svg) in packet.iter().filter(|(name, _)| name.starts_with("points/TUB")) {
        for row in rows(svg) {
            // Number, right, up, and "bend" or "slight" or nothing, side by side.
            for (place, number) in row.iter().enumerate() {
                let is_number = number.parse::<usize>().is_ok();
                let [Some(right), Some(up)] = [1, 2].map(|step| row.get(place + step)) else { continue };
                if let (true, Ok(right), Ok(up)) = (is_number, length(right), length(up)) {
                    points.push([right, up]);
                }
            }
        }
    }
    let high = points.iter().map(|point| point[1]).fold(0.0, f64::max);
    assert!(40 < points.len() && 40.0 < high, "{points:?}");
    for [right, up] in &points {
        let mirrored = points.iter().any(|[other_right, other_up]| {
            (right - other_right).abs() < 0.0025 && (high - up - other_up).abs() < 0.0025
        });
        assert!(mirrored, "{right} right, {up} up has no mirror image");
    }
}

/// A slit is cut in the same way by its caution and beside its drawing.
#[test]
fn a_slit_is_told_in_one_way() {
    let packet = packet_of("fixtures/jobs/sled-bin.json", &[]);
    let said = |folder: &str| -> String {
        let start = format!("{folder}/LID");
        let own = packet.iter().filter(|(name, _)| name.starts_with(&start) && name.ends_with(".svg"));
        own.flat_map(|(_, svg)| words(svg)).map(|(words, _)| words).collect::<Vec<_>>().join(" ")
    };
    let how = "no saw or disc passes: part it along one line with snips or a chisel";
    for folder in ["parts", "details"] {
        assert!(said(folder).contains(how), "{folder}: {}", said(folder));
        assert!(!said(folder).contains("one saw cut"), "{folder}");
    }
}

/// Seams in one plane are no corners, and details that come out smaller than the part are not called enlarged.
#[test]
fn corners_and_details_are_called_what_they_are() {
    let packet = packet_of("fixtures/jobs/sled-bin.json", &[]);
    let tub: Vec<String> = words(&packet["parts/TUB.svg"]).into_iter().map(|(words, _)| words).collect();
    let tub = tub.join(" ");
    assert!(tub.contains("open corners 4, inside edges touching"), "{tub}");
    assert!(tub.contains("flat seams 4, edge to edge"), "{tub}");
    for (name, svg) in packet.iter().filter(|(name, _)| name.starts_with("details/")) {
        let all: Vec<String> = words(svg).into_iter().map(|(words, _)| words).collect();
        let all = all.join(" ");
        assert!(!all.contains("enlarged") && all.contains("full size"), "{name}: {all}");
    }
    let page = std::str::from_utf8(&packet["index.html"]).unwrap();
    assert!(page.contains("<h3>Areas, weights and lengths of cut</h3>"), "the second table has a heading");
}

/// Of two rims alike both are named where a punch meets them, on both hands; and the die that is assumed is that of the cards.
#[test]
fn what_is_alike_is_named_alike() {
    let packet = packet_of("fixtures/jobs/rescue-skiff.json", &[]);
    let page = std::str::from_utf8(&packet["index.html"]).unwrap();
    let page = page.replace("&#39;", "'");
    for hand in ["DBP", "DBS"] {
        let caution = page.split(&format!("{hand}: bend order: ")).nth(1).unwrap().split('<').next().unwrap();
        let both = "rim BC, rim DA meet the punch up to the ram at strokes 7, 8";
        assert!(caution.contains(both), "{hand}: {caution}");
    }
    for (metal, die) in [("skin", "V .540, 6 T"), ("deck", "V 1.000, 8 T")] {
        assert!(page.contains(&format!("{die}, for {metal}")), "{metal}");
        assert!(page.contains(&format!("{die}, by a chart: the shop names none")), "{metal}");
    }
}

/// What a tape can prove of a plate that goes by its table: every bend line, what lies beyond it, and long slanted edges.
#[test]
fn a_table_of_points_gives_lengths_to_prove() {
    let packet = packet_of("fixtures/jobs/exhaust-canopy.json", &[]);
    let all = rows(&packet["points/HOOD-BC.svg"]);
    let starts = |words: &str| all.iter().position(|row| row.first().is_some_and(|first| first == words));
    let bends = starts("bend line").expect("a table of bend lines");
    assert_eq!(all[bends][3..], ["long", "to edge or next line"]);
    // 42 + .031 - ... of the leg's line: from 0 + .015 to 42 - .015 at one height.
    let leg = all[bends + 1..].iter().find(|row| row[1] == "face BC to leg BC").unwrap();
    assert_eq!(leg[3], "42 - .031", "{leg:?}");
    let slanted = starts("slanted edge of").expect("a table of slanted edges");
    let weld = &all[slanted + 1];
    assert_eq!(weld[0], "face BC", "{weld:?}");
}
