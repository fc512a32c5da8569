//! Wholes put together, and what bent parts and wholes are checked by.

use crate::program::packet_of;

fn text(bytes: &[u8]) -> &str {
    std::str::from_utf8(bytes).unwrap()
}

/// A ring of channels, a set of panels and an assembly are drawn once as they stand, every piece marked or named as hidden.
#[test]
fn pieces_of_a_whole_are_drawn_put_together() {
    for (job, wholes, marks) in [
        ("fixtures/shapes/gutter.json", vec!["G"], vec!["G-AB", "G-BC", "G-CD", "G-DA"]),
        (
            "fixtures/jobs/gig-lockers.json",
            vec!["LS", "LP", "three lids in their stack"],
            vec![
                "LS-top1",
                "LS-top2",
                "LS-front1",
                "LS-front2",
                "LS-end-aft",
                "LS-end-fwd",
                "LS-top-strip1",
                "LP-top1",
                "LP-end-fwd",
                "opposite hand of LS",
                "diagonals of the top",
            ],
        ),
        (
            "fixtures/jobs/exhaust-canopy.json",
            vec!["HOOD"],
            vec![
                "HOOD-AB",
                "HOOD-BC",
                "HOOD-CD",
                "HOOD-DA",
                "B at the collar",
                "rim, inside",
                "rise",
                "over all",
            ],
        ),
        ("fixtures/shapes/hopper.json", vec!["H1", "H2"], vec!["H1-AB", "H2-half1", "H2-half2"]),
        (
            "fixtures/shapes/console.json",
            vec!["CN", "CF"],
            vec!["CN-wrap", "CN-side-s", "CN-side-p", "CN-recess", "diagonals across the open side AB"],
        ),
        ("fixtures/shapes/tray.json", vec!["T1", "T2"], vec!["T1-pan", "T1-across1", "dividers across"]),
        (
            "fixtures/shapes/deck.json",
            vec!["DK", "DKS"],
            vec!["DK-1", "DK-2", "DKS-2", "frame 1", "diagonals"],
        ),
        ("fixtures/shapes/day_box.json", vec!["B2"], vec!["B2-shell", "B2-right", "B2-left"]),
    ] {
        let packet = packet_of(job, &[]);
        let html = text(&packet["index.html"]);
        let (_, chapter) = html.split_once("Pieces put together</h2>").unwrap_or_else(|| panic!("{job}"));
        let chapter = chapter.split("</section>").next().unwrap();
        assert_eq!(chapter.matches("<svg").count(), wholes.len(), "{job}");
        for words in wholes.iter().chain(&marks) {
            assert!(chapter.contains(words), "{job}: {words}");
        }
    }
    // One piece by itself is no whole.
    let html = packet_of("fixtures/shapes/lid.json", &[]);
    assert!(!text(&html["index.html"]).contains("Pieces put together"));
}

/// What a bent part is checked by: every leg or height, and every angle, of whatever shape it is, and what to do where one is off.
/// What is wrapped round an axis has bends to sight by, and none of them is an angle.
#[test]
fn every_bent_part_is_checked_by_its_legs_and_angles() {
    let mut bare = Vec::new();
    for job in [
        "shapes/console",
        "shapes/tray",
        "shapes/deck",
        "shapes/day_box",
        "shapes/hopper",
        "shapes/gutter",
        "shapes/coaming",
        "shapes/locker",
        "shapes/brake_profile",
        "shapes/bulkhead",
        "shapes/step",
        "shapes/edges",
        "shapes/panel",
        "jobs/exhaust-canopy",
        "jobs/gig-lockers",
    ] {
        let packet = packet_of(&format!("fixtures/{job}.json"), &[]);
        for (name, bytes) in packet.iter().filter(|(name, _)| name.starts_with("folded/")) {
            let page = text(bytes);
            let has = |words: &[&str]| words.iter().any(|words| page.contains(words));
            let legs = ["outside", "height of", "depth of", "width of", "to its edge", "cut edge of"];
            if !has(&legs) || !has(&["inside angle of", "joggle"]) || !has(&["Off by more than"]) {
                bare.push(format!("{job} {name}"));
            }
        }
    }
    assert!(bare.is_empty(), "{bare:#?}");
    let canopy = packet_of("fixtures/jobs/exhaust-canopy.json", &[]);
    let page = text(&canopy["folded/HOOD-AB.svg"]);
    for words in [
        "leg AB, outside of face AB to outside of drip bottom AB",
        "drip bottom AB, outside of leg AB to outside of ",
        "lip AB, outside of its bend to its edge",
        "weld flange on face BC, outside of its bend to its edge",
        "collar AB, outside of its bend to its edge",
    ] {
        assert!(page.contains(words), "{words}");
    }
    let channel = packet_of("fixtures/shapes/brake_profile.json", &[]);
    let all: String =
        channel.iter().filter(|(name, _)| name.starts_with("folded/")).map(|(_, page)| text(page)).collect();
    // End legs of a profile are sizes that refolding proves.
    for words in [
        "height of leg 1 off leg 2, outside",
        "from the outermost metal of its bend to its edge",
        "inside angle of",
    ] {
        assert!(all.contains(words), "{words}");
    }
}

/// A folded sheet or a leaf of a whole, with the words of its texts run together.
fn words_of(page: &str) -> String {
    let tree = roxmltree::Document::parse(page).unwrap();
    let texts = tree.descendants().filter(|node| node.has_tag_name("text"));
    let words = |text: roxmltree::Node<'_, '_>| -> String {
        text.descendants().filter(roxmltree::Node::is_text).filter_map(|node| node.text()).collect()
    };
    texts.fold("| ".to_owned(), |all, text| all + &words(text) + " | ")
}

/// The chapter of wholes of a packet, one drawing after another.
fn wholes_of(job: &str) -> (std::collections::BTreeMap<String, Vec<u8>>, Vec<String>) {
    let packet = packet_of(job, &[]);
    let html = text(&packet["index.html"]).to_owned();
    let (_, chapter) = html.split_once("Pieces put together</h2>").unwrap();
    let chapter = chapter.split("</section>").next().unwrap();
    let drawings = chapter.split("<svg").skip(1).map(|svg| {
        let svg = format!("<svg{}", svg.split("</svg>").next().unwrap());
        words_of(&(svg + "</svg>"))
    });
    let drawings = drawings.collect();
    (packet, drawings)
}

/// One number for one thing: the legs of a console are those of its wrap as cut, short of the outline where its ends are cut square
/// to leaning legs: BC by T·cot 83.99° = .0132, EA by T·cot 88.09° = .0042 (plane geometry).
#[test]
fn legs_of_a_whole_are_those_of_its_pieces() {
    let (packet, wholes) = wholes_of("fixtures/shapes/console.json");
    for (whole, piece) in [(0, "folded/CN-wrap.svg"), (1, "folded/CF-wrap.svg")] {
        let piece = words_of(text(&packet[piece]));
        let is_row = |leg: &&str| leg.split(" | ").next().is_some_and(|name| name.contains(", "));
        let legs: Vec<&str> = piece.split("| leg ").skip(1).filter(is_row).collect();
        let mut told = 0;
        for leg in legs {
            let row: String = leg.split(" | ").take(2).collect::<Vec<_>>().join(" | ");
            assert!(wholes[whole].contains(&format!("| leg {row}")), "{row}: {}", wholes[whole]);
            told += 1;
        }
        assert!(4 <= told, "{piece}");
    }
    assert!(wholes[0].contains("38 3/16 + .009") && wholes[0].contains("30 + .012"), "{}", wholes[0]);
}

/// Nothing hooks on the outside of a large rolled corner: legs to it say how they are taken, and no diagonal ends there.
#[test]
fn legs_to_a_rolled_corner_say_how_they_are_taken() {
    let packet = packet_of("fixtures/shapes/console.json", &[]);
    let wrap = words_of(text(&packet["folded/CN-wrap.svg"]));
    for words in [
        "leg BC, from where straightedges on its outside and that of leg CD cross to its edge",
        "leg CD, outside of its bend to leg DE to where straightedges on its outside and that of leg BC cross",
    ] {
        assert!(wrap.contains(words), "{wrap}");
    }
    assert!(!wrap.contains("diagonals of leg BC"), "{wrap}");
    let side = words_of(text(&packet["folded/CF-side-s.svg"]));
    assert!(
        side.contains("edge CD, over the outsides, to where straightedges along both edges cross at C"),
        "{side}"
    );
    assert!(side.contains("A to D 34 1/4") && !side.contains("A to C"), "{side}");
    let card = packet.iter().filter(|(name, _)| name.starts_with("bends/CF-wrap"));
    let card = card.map(|(_, svg)| words_of(text(svg))).collect::<Vec<_>>().join(" | ");
    // 83.29° in nine strikes.
    assert!(card.contains("strike 1 of 9, lines ") && card.contains("9.25°"), "{card}");
}

/// By hand: 34 less the wrap's .125, and the inner edge of flange BC past the open side by .125·cos 83.29° = .0146; and the two
/// lengths of a deck reach past its ends by what the whole does, to the thousandth each is rounded to.
#[test]
fn boxes_are_as_large_as_a_tape_finds_the_metal() {
    let (packet, wholes) = wholes_of("fixtures/shapes/console.json");
    let side = words_of(text(&packet["folded/CF-side-s.svg"]));
    assert!(side.contains("33 7/8 + .015 × 1"), "{side}");
    assert!(wholes[1].contains("× 34 + .015"), "{}", wholes[1]);
    assert!(text(&packet["index.html"]).contains("flange BC by 0 + .015 at B"));
    let (packet, wholes) = wholes_of("fixtures/shapes/deck.json");
    let past = |words: &str, of: &str| -> i32 {
        let (_, rest) = words.split_once(of).unwrap_or_else(|| panic!("{of}: {words}"));
        rest.split(' ').next().unwrap().parse().unwrap()
    };
    let [first, second] =
        ["DK-1", "DK-2"].map(|mark| past(&words_of(text(&packet[&format!("folded/{mark}.svg")])), "54 + ."));
    let whole = past(&wholes[0], "108 + .");
    assert!((first + second - whole).abs() <= 1, "{first}, {second}, {whole}");
}

/// Which end is which is told on a deck put together; both pictures of a hood have every letter, in brackets where the corner is
/// behind metal; a recess says from which edges it lies.
#[test]
fn a_whole_says_which_end_is_which() {
    let (_, wholes) = wholes_of("fixtures/shapes/deck.json");
    for whole in &wholes {
        for words in ["AFT", "FORWARD", "INBOARD", "OUTBOARD"] {
            assert!(whole.matches(&format!("| {words} |")).count() >= 2, "{words}: {whole}");
        }
    }
    let (_, wholes) = wholes_of("fixtures/jobs/exhaust-canopy.json");
    for letter in ["A", "B", "C", "D"] {
        let found = [format!("| {letter} |"), format!("| ({letter}) |")];
        let count: usize = found.iter().map(|words| wholes[0].matches(words.as_str()).count()).sum();
        assert!(2 <= count, "{letter}: {}", wholes[0]);
    }
    assert!(wholes[0].contains("A letter in brackets is that of a corner behind metal."), "{}", wholes[0]);
    let (_, wholes) = wholes_of("fixtures/shapes/console.json");
    // 18 along the leg less the rim of 1; half of 28 less 18, less the rim.
    let recess = "edge of its rim 17 from corner E along leg EA, and 4 from the outside of either side";
    assert!(wholes[0].contains(recess), "{}", wholes[0]);
}

/// Pieces that are made to go together are shown so: panels of a walk with the joints between them, lengths of a profile.
#[test]
fn walks_and_profiles_in_pieces_are_drawn_put_together() {
    let (_, wholes) = wholes_of("fixtures/shapes/walk.json");
    assert!(wholes[0].matches("DW-A").count() >= 2 && wholes[0].contains("DW-B"), "{wholes:?}");
    // 202 over all less half a joint of 3/16 at either end.
    assert!(wholes[0].contains("201 13/16 × 30"), "{}", wholes[0]);
    let (_, wholes) = wholes_of("fixtures/shapes/brake_profile.json");
    assert!(
        !wholes.is_empty() && wholes.iter().all(|whole| whole.contains("middles of the joints")),
        "{wholes:?}"
    );
}

/// Of a row of covers the ends of the row are named, not the two ends of its first cover, and both walls.
#[test]
fn the_ends_of_a_row_of_covers_are_those_of_its_first_and_last() {
    let packet = packet_of("fixtures/jobs/channel-covers.json", &[]);
    let (_, chapter) = text(&packet["index.html"]).split_once("Pieces put together</h2>").unwrap();
    let svg = chapter.split("<svg").nth(1).unwrap().split("</svg>").next().unwrap();
    let at = |words: &str| -> [f64; 2] {
        let (before, _) = svg.split_once(&format!(">{words}</text>")).unwrap_or_else(|| panic!("{words}"));
        let tag = before.rsplit("<text").next().unwrap();
        [" x=\"", " y=\""]
            .map(|name| tag.split(name).nth(1).unwrap().split('"').next().unwrap().parse().unwrap())
    };
    let apart = |one: &str, other: &str| {
        let ([a, b], [c, d]) = (at(one), at(other));
        (a - c).abs() + (b - d).abs()
    };
    assert!(apart("UPSTREAM", "CV-01") < apart("UPSTREAM", "CV-11"));
    assert!(apart("DOWNSTREAM", "CV-11") < apart("DOWNSTREAM", "CV-01"));
    assert!(svg.contains(">LEFT WALL<") && svg.contains(">RIGHT WALL<"));
}
