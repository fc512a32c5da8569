//! Fit checks through the whole program: answers, exit codes, the packet.
#![expect(clippy::disallowed_methods, reason = "a test that needs a job of its own writes it")]

use std::fs;

use serde_json::{Value, json};
use tempfile::tempdir;

use crate::program::{Run, files, plateloft, plateloft_in};

const CHECKS: &str = "fixtures/jobs/fit-checks.json";

/// A job in millimetres with the drawer pan of a truck insert and these fit checks.
fn drawer_job(fits: &Value) -> String {
    json!({
        "plateloft": 1, "job": "Drawer", "units": "mm", "tape": 1,
        "shop": { "gap": 6, "edge_trim": 10 },
        "metals": { "drawer": {
            "alloy": "5052-H32", "thickness": 1.5, "inside_radius": 1.5, "film": "one side", "k_factor": 0.42
        } },
        "sheets": [{ "metal": "drawer", "size": [1500, 3000] }],
        "parts": [
            { "mark": "D560", "shape": "pan", "metal": "drawer", "outside": [700, 560], "height": 220, "rim": "none",
              "face": "outside" },
            { "mark": "TR", "shape": "pan", "metal": "drawer", "outside": [600, 400], "height": 100, "rim": "20 out" }
        ],
        "fits": fits
    })
    .to_string()
}

fn run(command: &str, fits: &Value, more: &[&str]) -> Run {
    let folder = tempdir().unwrap();
    fs::write(folder.path().join("job.json"), drawer_job(fits)).unwrap();
    plateloft_in(folder.path(), &[&[command, "job.json"], more].concat())
}

fn parsed(run: &Run) -> Value {
    serde_json::from_str(&run.stdout).unwrap_or_else(|error| panic!("{error}: {}", run.stderr))
}

fn fact(fit: &Value, name: &str) -> Value {
    let facts = fit["facts"].as_array().unwrap();
    facts.iter().find(|fact| fact["name"] == name).unwrap_or_else(|| panic!("{name}: {facts:?}"))["value"]
        .clone()
}

#[test]
fn the_demo_answers_every_kind_of_question_with_yes() {
    let run = plateloft(&["check", CHECKS, "--json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let checked = parsed(&run);
    let fits = checked["fits"].as_array().unwrap();
    let mut kinds: Vec<&str> = fits.iter().map(|fit| fit["fit"].as_str().unwrap()).collect();
    kinds.dedup();
    assert_eq!(kinds, ["lift_out", "tilt_out", "door", "lid_swing", "together"]);
    assert!(fits.iter().all(|fit| fit["fits"] == true));
    // The dry box under 23 × 17 1/2: top 22 × 17 1/4, so 1/8 and 1/2 a side, less the clearance of 1/16 + .024. 15 deep is
    // to the inside edge of the sloping wall, 4 3/4 out over 15: its outside ends T·sin lower and T·sin·tan further in,
    // which both sides share.
    let slope = 4.75_f64 / 15.0;
    let half = 0.5 * 0.090 * geometry::trig::sin(geometry::trig::atan(slope)) * slope;
    let spare = |side: &str| fact(&fits[0], side).as_f64().unwrap();
    assert!((spare("spare at side 1–2, to wall AB") - (0.125 + half - 0.0865)).abs() < 0.001);
    assert!((spare("spare at side 2–3, to wall BC") - (0.5 - 0.0865)).abs() < 0.001);
}

#[test]
fn a_drawer_behind_a_door_that_stops_short_is_a_no() {
    // Clear 588 × 1010, drawer 560, runners 13 each side; at 88° the door takes 9.
    let door = |intrusion: i32| {
        json!([{ "fit": "door", "part": "D560", "through": [588, 1010], "clearance": { "runner": 13 },
                 "way": "endwise", "opens": 88, "intrusion": intrusion }])
    };
    let short = run("check", &door(9), &["--json"]);
    assert_eq!(short.code, 1, "{}", short.stderr);
    let fit = parsed(&short)["fits"][0].clone();
    assert_eq!((&fit["fits"], fact(&fit, "spare in width")), (&json!(false), json!(-7.0)));
    assert_eq!(fact(&fit, "spare without the door"), json!(2.0));
    assert_eq!(run("check", &door(2), &[]).code, 0);
}

#[test]
fn the_largest_rim_that_passes_is_found_both_ways() {
    // Walls 600 × 400, rim 20, through 660 × 430 less 5 a side: 10 of rim pass across, 25 along; the narrower rules.
    let lift =
        |through: [i32; 2]| json!([{ "fit": "lift_out", "part": "TR", "through": through, "clearance": 5 }]);
    let narrow = run("check", &lift([660, 430]), &["--json"]);
    assert_eq!(narrow.code, 1);
    let fit = parsed(&narrow)["fits"][0].clone();
    assert!((fact(&fit, "largest rim that passes").as_f64().unwrap() - 10.0).abs() < 0.05, "{fit}");
    assert!(fit["answer"].as_str().unwrap().contains("rim"), "{fit}");
    let wide = run("check", &lift([680, 480]), &["--json"]);
    assert_eq!(wide.code, 0);
    assert!(
        (fact(&parsed(&wide)["fits"][0], "largest rim that passes").as_f64().unwrap() - 35.0).abs() < 0.05
    );
}

#[test]
fn a_part_turned_over_or_mirrored_is_judged_as_the_same_part() {
    // The marked face changes which side is drawn, not the part: the same spares, side by side.
    let lift = |face: &str| {
        let job = drawer_job(&json!([
            { "fit": "lift_out", "part": "TR", "through": [700, 500], "clearance": 0 },
            { "fit": "lift_out", "part": "TR", "through": [120, 700], "clearance": 0, "turn": "quarter", "way": "endwise" }
        ]));
        let mut job: Value = serde_json::from_str(&job).unwrap();
        job["parts"][1]["face"] = json!(face);
        let folder = tempdir().unwrap();
        fs::write(folder.path().join("job.json"), job.to_string()).unwrap();
        parsed(&plateloft_in(folder.path(), &["flats", "job.json", "--json"]))["fits"].clone()
    };
    assert_eq!(lift("inside"), lift("outside"));
}

#[test]
fn the_packet_asks_and_answers_with_pictures_and_puts_a_no_first() {
    let folder = tempdir().unwrap();
    let fits = json!([
        { "fit": "lift_out", "part": "TR", "through": [630, 430], "clearance": 0 },
        { "fit": "tilt_out", "part": "TR", "through": [560, 480], "clearance": 5, "deck": 30, "depth_below": 400,
          "reach_below": [150, 150] }
    ]);
    fs::write(folder.path().join("job.json"), drawer_job(&fits)).unwrap();
    let run = plateloft_in(folder.path(), &["packet", "job.json", "--out", "packet"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let packet = files(&folder.path().join("packet"));
    let index = String::from_utf8(packet["index.html"].clone()).unwrap();
    assert!(
        index.contains("Does it fit? TR, straight out")
            && index.contains("Does it fit? TR, out one end first")
    );
    let first = index.split("Look at this before cutting").nth(1).unwrap();
    let first = first.split("<li").nth(1).unwrap().split_once('>').unwrap().1;
    assert!(first.starts_with("does not fit: TR"), "{first}");
    assert!(index.contains("ways that were tried") && index.contains("not turned in plan"));
    for picture in ["start, level", "half way, tilted", "out, tilted"] {
        assert!(index.contains(picture), "{picture}");
    }
    let sheet = String::from_utf8(packet["parts/TR.svg"].clone()).unwrap();
    assert!(sheet.contains("does not fit"), "the drawing of the part must say so too");
}

#[test]
fn what_stops_a_tilted_part_is_named() {
    let tilt = |through: [i32; 2], depth: i32, headroom: i32| {
        json!([{ "fit": "tilt_out", "part": "TR", "through": through, "clearance": 5, "deck": 30,
                 "depth_below": depth, "reach_below": [400, 400], "headroom": headroom }])
    };
    for (fits, word) in [
        (tilt([560, 430], 400, 900), "too wide"),
        (tilt([450, 480], 125, 900), "floor"),
        (tilt([450, 480], 90, 900), "does not stand level"),
        (tilt([450, 480], 400, 60), "overhead"),
        (tilt([100, 480], 2000, 2000), "an opening"),
    ] {
        let answered = run("check", &fits, &["--json"]);
        assert_eq!(answered.code, 1, "{}", answered.stdout);
        let answer = parsed(&answered)["fits"][0]["answer"].clone();
        let answer = answer.as_str().unwrap();
        assert!(answer.contains(word), "{word}: {answer}");
        // A "no" of the search is one of the ways that it looks at, about either line.
        assert!(answer.contains("was not tried"), "{answer}");
        assert!(answer.contains("end first, ") && answer.contains("side first, "), "{answer}");
    }
}

#[test]
fn a_tray_too_wide_for_its_opening_is_tilted_out_over_a_side() {
    let tilt = |reach: Value| {
        let mut fit = json!({ "fit": "tilt_out", "part": "TR", "through": [700, 430], "clearance": 5, "deck": 30,
                              "depth_below": 600, "reach_below": [0, 0] });
        fit.as_object_mut().unwrap().extend(reach.as_object().unwrap().clone());
        run("check", &json!([fit]), &["--json"])
    };
    let out = tilt(json!({ "reach_sides": [200, 200] }));
    assert_eq!(out.code, 0, "{}", out.stdout);
    let answer = parsed(&out)["fits"][0].clone();
    assert!(answer["answer"].as_str().unwrap().contains("its side toward the"), "{answer}");
    assert_eq!(fact(&answer, "one end first"), json!("no way was found"));
    // Without a word how far the space reaches that way it is taken as no farther, and the answer says so.
    let unknown = tilt(json!({}));
    let answer = parsed(&unknown)["fits"][0]["answer"].clone();
    assert!(answer.as_str().unwrap().contains("taken as no farther than the opening"), "{answer}");
    let wrong = tilt(json!({ "reach_sides": [200, -1] }));
    assert_eq!(wrong.code, 2);
    assert!(wrong.stderr.contains("fits[0].reach_sides[1]"), "{}", wrong.stderr);
}

#[test]
fn a_drawer_of_the_call_out_truck_does_not_pass_its_door() {
    let run = plateloft(&["check", "fixtures/jobs/call-out-truck.json", "--json"]);
    assert_eq!(run.code, 1, "{}", run.stderr);
    let fits = parsed(&run)["fits"].clone();
    // 560 and two rims of 8.5, 2 free at each side: 581 of the 588 − 9 = 579 that the door leaves.
    assert_eq!((&fits[0]["fits"], fact(&fits[0], "spare in width")), (&json!(false), json!(-2.0)));
    assert_eq!(fact(&fits[0], "spare without the door"), json!(7.0));
    // The lower drawers are as wide; those of 270 pass.
    for wide in [1, 2] {
        assert_eq!((&fits[wide]["fits"], fact(&fits[wide], "spare in width")), (&json!(false), json!(-2.0)));
    }
    assert_eq!((&fits[3]["fits"], fact(&fits[3], "spare in width")), (&json!(true), json!(288.0)));
}

#[test]
fn the_boxes_of_the_rescue_skiff_lift_out_and_its_lid_opens() {
    let run = plateloft(&["check", "fixtures/jobs/rescue-skiff.json", "--json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let fits = parsed(&run)["fits"].clone();
    // Top 22 × 17 1/4 in a hole of 23 × 17 1/2: 1/2 and 1/8 a side, less the clearance of 1/16 and .024. The rim turns
    // 107.57° off the leaning wall, so the outermost metal is the round of that bend, outside radius .18: it lies
    // .18·(tan 53.785° − 1) = .0659 inside the mold line, and that much less the chord of its drawing is free, half a side.
    for dry_box in [&fits[0], &fits[1]] {
        let spare = |side: &str| {
            let facts = dry_box["facts"].as_array().unwrap();
            let named = |fact: &&Value| fact["name"].as_str().unwrap().starts_with(side);
            facts.iter().find(named).unwrap()["value"].as_f64().unwrap()
        };
        assert!((spare("spare at side 1–2") - (0.125 + 0.0659 / 2.0 - 0.0865)).abs() < 0.001);
        assert!((spare("spare at side 2–3") - (0.5 - 0.0865)).abs() < 0.001);
    }
    assert_eq!(fits[2]["fits"], json!(true));
    let open = fact(&fits[2], "largest opening").as_f64().unwrap();
    // The pin stands 1/4 behind the skirt and 1/4 above its edge. The corner between them is 1/4·√2 from the pin, at 45°
    // below and before it, and meets the deck 1/4 below the pin when it has swung on by 90° and more.
    assert!((100.0..120.0).contains(&open), "{open}");
}

#[test]
fn a_tray_tilts_out_of_an_opening_whose_corners_are_cut_off() {
    let tilt = |opening: Value| {
        let mut fit = json!({ "fit": "tilt_out", "part": "TR", "clearance": 2, "deck": 40, "depth_below": 400,
                              "reach_below": [300, 300] });
        fit.as_object_mut().unwrap().extend(opening.as_object().unwrap().clone());
        run("check", &json!([fit]), &["--json"])
    };
    let length = "length of the opening for this width";
    let square = parsed(&tilt(json!({ "through": [560, 540] })))["fits"][0].clone();
    assert_eq!((&square["fits"], fact(&square, length)), (&json!(true), json!(560.0)));
    // 440 wide over its rims and 2 free a side, of 540: corners cut off by 48 at 45° are never reached.
    let cut = json!([[48, 0], [512, 0], [560, 48], [560, 492], [512, 540], [48, 540], [0, 492], [0, 48]]);
    let eight = parsed(&tilt(json!({ "outline": cut })))["fits"][0].clone();
    assert_eq!(eight["fits"], json!(true), "{eight}");
    assert!((fact(&eight, length).as_f64().unwrap() - 560.0).abs() < 0.1, "{eight}");
    let inside = tilt(json!({ "outline": [[0, 0], [560, 0], [560, 300], [300, 300], [300, 540], [0, 540]] }));
    assert_eq!(inside.code, 2, "{}", inside.stderr);
    assert!(
        inside.stderr.contains("fits[0].outline") && inside.stderr.contains("inside corner"),
        "{}",
        inside.stderr
    );
}
