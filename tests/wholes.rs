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
        "leg AB, outside to outside",
        "drip bottom AB, outside to outside",
        "lip AB, outside of its bend to its edge",
        "weld flange on face BC, outside of its bend to its edge",
        "collar AB, outside of its bend to its edge",
    ] {
        assert!(page.contains(words), "{words}");
    }
    let channel = packet_of("fixtures/shapes/brake_profile.json", &[]);
    let all: String =
        channel.iter().filter(|(name, _)| name.starts_with("folded/")).map(|(_, page)| text(page)).collect();
    assert!(all.contains("outside of its bend to its edge") && all.contains("inside angle of"));
}
