//! What a card asks of the hand at the brake: orders, stops, turnings and tools of the worked jobs.

use serde_json::Value;

use crate::program::{packet_of, plateloft, plateloft_on};

/// The bend order of a part of a worked job.
fn order(job: &str, mark: &str) -> Value {
    let run = plateloft(&["flats", "--json", &format!("fixtures/jobs/{job}.json")]);
    let flats: Value = serde_json::from_str(&run.stdout).unwrap();
    let parts = flats["parts"].as_array().unwrap();
    parts.iter().find(|part| part["mark"] == mark).unwrap()["bend_order"].clone()
}

fn steps(order: &Value) -> &Vec<Value> {
    order["steps"].as_array().unwrap()
}

/// At which stroke a bend between two faces is made.
fn stroke_of(order: &Value, child: &str) -> usize {
    let makes = |step: &Value| step["bends"].as_array().unwrap().iter().any(|bend| bend[1] == child);
    steps(order).iter().position(makes).unwrap()
}

/// Bent last, the rims of these pans would want the bed, or the punch, within the pan.
#[test]
fn rims_of_deep_pans_come_before_their_walls() {
    for (job, mark) in [("sled-bin", "TUB"), ("rescue-skiff", "DBP"), ("rescue-skiff", "DBS")] {
        let order = order(job, mark);
        for side in ["AB", "BC", "CD", "DA"] {
            let (rim, wall) =
                (stroke_of(&order, &format!("rim {side}")), stroke_of(&order, &format!("wall {side}")));
            assert!(rim < wall, "{mark}: {side}: {order:#}");
        }
    }
}

#[test]
fn skirts_of_a_tapered_lid_are_bent_on_long_tools() {
    let order = order("oyster-skiff", "L1");
    for side in ["AB", "BC", "CD", "DA"] {
        let step = &steps(&order)[stroke_of(&order, &format!("skirt {side}"))];
        assert!(step["tooling"]["short_by"].as_f64().unwrap() < 1e-9, "{step:#}");
        assert_eq!(step["least_clearance"], Value::Null, "{step:#}");
    }
}

/// A rim of nine millimetres is not held while half a metre of sheet swings up out of reach: the pans of the truck are turned end
/// for end (common practice, no source).
#[test]
fn the_sheet_is_on_the_side_of_the_man() {
    for mark in ["D560-220", "D270-90", "D270-140"] {
        for step in steps(&order("call-out-truck", mark)) {
            let [behind, before] = ["behind", "before"].map(|side| step[side].as_f64().unwrap());
            assert!(behind < before, "{mark}: {step:#}");
        }
    }
}

/// The card says how long each bend is, and repeats at its stroke that a rim is too short for the V.
#[test]
fn a_stroke_tells_its_length_and_a_leg_too_short_for_the_die() {
    let run = plateloft(&["flats", "fixtures/jobs/oyster-skiff.json"]);
    let rim =
        run.stdout.lines().find(|line| line.contains("wall AB to rim AB: 90.0°, 28 5/8 in long;")).unwrap();
    assert!(rim.contains("care: rim AB is 9/16 + .028, shorter than seven tenths of the V"), "{rim}");
    let wall = run.stdout.lines().find(|line| line.contains("floor to wall AB: 90.0°, ")).unwrap();
    assert!(!wall.contains("care: "), "{wall}");
}

/// No stop is farther off than 24 in, and none stands at the crease of a crown.
#[test]
fn stops_are_in_reach_and_stop_something() {
    for (job, mark) in [("litter-locker", "LL"), ("sled-bin", "TUB"), ("sled-bin", "LID")] {
        for step in steps(&order(job, mark)) {
            let distance = step["stop"]["distance"].as_f64();
            assert!(distance.is_none_or(|distance| distance <= 24.0), "{mark}: {step:#}");
        }
    }
}

/// A deck edge of short pieces a degree apart is swung from one to the next, and a short piece at the stop does not
/// square a long bend.
#[test]
fn a_degree_is_no_turning_round_and_a_short_edge_does_not_square_a_long_bend() {
    let order = order("rescue-skiff", "SDP-1");
    assert!(order["turned_round"].as_u64().unwrap() < 2, "{order:#}");
    let inboard = &steps(&order)[stroke_of(&order, "flange inboard")];
    let at_short = inboard["stop"]["against"].as_str().is_some_and(|face| face.contains("outboard"));
    assert_eq!(inboard["stop"]["skews"], at_short, "{inboard:#}");
}

/// What a size that nobody gave asks for is said in one line: no line of the look-at list is a paragraph.
#[test]
fn what_a_brake_must_have_is_one_short_line() {
    let run = plateloft(&["flats", "fixtures/jobs/exhaust-canopy.json"]);
    let told: Vec<&str> = run.stdout.lines().filter(|line| line.contains("look at: bend order")).collect();
    assert!(!told.is_empty());
    for line in told {
        assert!(line.contains("needs "), "{line}");
        assert!(line.len() < 330, "{}: {line}", line.len());
    }
}

/// The lip of a skirt that leans back stands over the die by its own width times the sine of its lean, at the least less the
/// thickness: a stop level with the die would let the sheet slide in under it.
#[test]
fn a_stop_at_the_lip_of_a_leaning_skirt_says_how_high_it_stands() {
    let order = order("oyster-skiff", "L1");
    let mut raised = 0;
    for step in steps(&order).iter().filter(|step| step["bends"][0][0] == "top") {
        let (Some(height), Some(skirt)) = (step["stop"]["raised"].as_f64(), step["stop"]["against"].as_str())
        else {
            continue;
        };
        let own = &steps(&order)[stroke_of(&order, skirt)];
        let sine = geometry::trig::sin(own["turn"].as_f64().unwrap().to_radians());
        let wide = own["stop"]["distance"].as_f64().unwrap();
        assert!((height - wide * sine).abs() < 0.125, "{height} for {wide} × {sine}: {step:#}");
        raised += 1;
    }
    assert!(raised >= 3, "{order:#}");
}

/// Flanges beside saw cuts on a kinked edge lie flat on one another's lines: every one that is bent before its neighbour says
/// before what its tools must end.
#[test]
fn tools_end_before_the_next_flange_on_a_kinked_edge() {
    let order = order("deck-pair", "SDP");
    for child in ["flange CD", "flange GH"] {
        let step = &steps(&order)[stroke_of(&order, child)];
        for tool in ["punch_ends_before", "die_ends_before"] {
            let ends = step["tooling"][tool].as_array().unwrap();
            assert!(!ends.is_empty(), "{child}: {step:#}");
        }
    }
}

/// A collar that hangs below the sheet past one end of the bend is in the way of a longer die, and of no punch.
#[test]
fn a_die_ends_before_a_collar_that_hangs_beside_it() {
    let order = order("exhaust-canopy", "HOOD-AB");
    for child in ["weld flange on face BC", "weld flange on face DA"] {
        let step = &steps(&order)[stroke_of(&order, child)];
        let die = step["tooling"]["die_ends_before"].as_array().unwrap();
        assert!(die.iter().any(|end| end["face"] == "collar AB"), "{child}: {step:#}");
    }
}

/// The order takes joggles and rolled bends as made: the card says of each that it was not tried, and of no other. Strikes are
/// tried, each with its stop or line.
#[test]
fn what_the_order_does_not_try_is_said_on_the_card() {
    let (mut said, mut struck) = ([0, 0], 0);
    for shape in ["brake_profile", "cone", "console", "edges", "panel"] {
        let run = plateloft(&["flats", &format!("fixtures/shapes/{shape}.json")]);
        for line in run.stdout.lines().filter(|line| line.trim_start().starts_with("stroke ")) {
            let ways = [
                (line.contains("joggle, both bends at once"), "needs joggle dies"),
                (line.contains(", rolled"), "made on the roll"),
            ];
            for (number, (made_so, words)) in ways.into_iter().enumerate() {
                assert_eq!(made_so, line.contains(words), "{shape}: {line}");
                said[number] += usize::from(made_so);
            }
            assert_eq!(ways.iter().any(|way| way.0), line.contains("NOT TRIED"), "{shape}: {line}");
            if line.contains(", one strike") || line.contains(", strike ") {
                assert!(line.contains("stop: ") || line.contains("by the scribed line"), "{shape}: {line}");
                struck += 1;
            }
        }
    }
    assert!(said.iter().all(|&count| count > 0), "{said:?}");
    assert!(struck > 20, "{struck}");
}

/// Strikes of one round follow one another, each is told by its number, and what closes about the punch is closed by hand.
#[test]
fn a_bumped_round_is_told_strike_by_strike() {
    let answer = |shape: &str| -> Value {
        let run = plateloft(&["flats", &format!("fixtures/shapes/{shape}.json"), "--json"]);
        serde_json::from_str(&run.stdout).unwrap()
    };
    let profiles = answer("brake_profile");
    let edge = profiles["parts"].as_array().unwrap().iter().find(|part| part["mark"] == "EDGE").unwrap();
    let steps = edge["bend_order"]["steps"].as_array().unwrap();
    let numbers: Vec<u64> = steps.iter().filter_map(|step| step["strike"]["number"].as_u64()).collect();
    assert_eq!(numbers, [1, 2, 3, 4, 5]);
    assert!(steps.iter().all(|step| step["tried"] == true), "{steps:#?}");
    let cones = answer("cone");
    let steps = cones["parts"][0]["bend_order"]["steps"].as_array().unwrap();
    let closed: Vec<&Value> = steps.iter().filter(|step| step["closed_by_hand"] == true).collect();
    assert!(closed.len() == 1 && steps.last().unwrap()["closed_by_hand"] == true, "{steps:#?}");
    let cards = packet_of("fixtures/shapes/cone.json", &[]);
    let words: String =
        cards.iter().filter(|(name, _)| name.starts_with("bends/CN")).map(|(_, b)| words_of(b)).collect();
    for told in ["closed by hand", "it is a spring", "Strikes: set the depth on an offcut"] {
        assert!(words.contains(told), "{told}: {words}");
    }
}

/// A bend of more than twelve thicknesses, .96 in sheet of .080, is not swung in one stroke, whatever it is called: its stroke says
/// that it was not tried, and the flats that gaps go along seams and not into what relief leaves open.
#[test]
fn what_is_not_judged_is_said_of_large_radii_and_of_relief() {
    for (radius, tried) in [(".900", true), ("1.000", false)] {
        let bend = serde_json::json!({ "turn": 90, "direction": "up", "radius": radius });
        let job = job_of(&profile("skin", &bend), None);
        let run = plateloft_on(&job, &["flats"]);
        let stroke = run.stdout.lines().find(|line| line.trim_start().starts_with("stroke ")).unwrap();
        assert_eq!(stroke.contains("NOT TRIED"), !tried, "{stroke}");
        let answer: Value = serde_json::from_str(&plateloft_on(&job, &["flats", "--json"]).stdout).unwrap();
        assert_eq!(answer["parts"][0]["bend_order"]["steps"][0]["tried"], tried);
    }
    let run = plateloft(&["flats", "fixtures/shapes/lid.json", "--refold"]);
    let said = run.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("by its relief, which they do not count: square"), "{said}");
}

/// A rolled ring has a card too: its straightedge and how far its middle stands off tell the radius, c²/(8h) + h/2, and a tape
/// round it π times its diameter; what stays flat at its ends goes by the shop's own roll.
#[test]
fn a_rolled_ring_has_a_card_that_proves_it_round() {
    for (shape, text, mark, words) in [
        ("cylinder", include_str!("../fixtures/shapes/cylinder.json"), "COL", "straightedge 6"),
        ("cone", include_str!("../fixtures/shapes/cone.json"), "CL", "the plain edge, of flat 1, first"),
        ("spout", include_str!("../fixtures/shapes/spout.json"), "GS-spout", "straightedge 1/2"),
    ] {
        let path = format!("fixtures/shapes/{shape}.json");
        let mut job: Value = serde_json::from_str(text).unwrap();
        let card = |job: &Value| {
            let run = plateloft_on(job, &["flats", "--json"]);
            let answer: Value = serde_json::from_str(&run.stdout).unwrap();
            let part =
                answer["parts"].as_array().unwrap().iter().find(|part| part["mark"] == mark).unwrap().clone();
            part["rolled_ring"].clone()
        };
        let ring = card(&job);
        let (inside, outside) =
            (ring["inside_diameters"].as_array().unwrap(), ring["outside_diameters"].as_array().unwrap());
        for (edge, inside) in ring["straightedges"].as_array().unwrap().iter().zip(inside) {
            let (long, off) = (edge["long"].as_f64().unwrap(), edge["off_the_metal"].as_f64().unwrap());
            let radius = long * long / (8.0 * off) + 0.5 * off;
            assert!((2.0 * radius - inside.as_f64().unwrap()).abs() < 0.005, "{ring:#}");
        }
        for (round, outside) in ring["round_the_outside"].as_array().unwrap().iter().zip(outside) {
            let girth = std::f64::consts::PI * outside.as_f64().unwrap();
            assert!((round.as_f64().unwrap() - girth).abs() < 0.005, "{ring:#}");
        }
        assert!(ring["flat_ends"].is_null(), "{ring:#}");
        job["shop"]["roll"] = serde_json::json!({ "least_radius": ".4" });
        // 1.25 × .4 by hand.
        assert!((card(&job)["flat_ends"].as_f64().unwrap() - 0.5).abs() < 1e-6);
        let packet = packet_of(&path, &[]);
        let told: String = packet
            .iter()
            .filter(|(name, _)| *name == &format!("bends/{mark}.svg"))
            .map(|(_, b)| words_of(b))
            .collect();
        assert!(told.contains(words) && told.contains("Rolls draw in fingers"), "{told}");
    }
}

/// A stepped rim that a press brake of common sizes bends, of one piece and of panels: every order is found clear of its sizes.
#[test]
fn stepped_rims_of_the_right_sizes_are_bent_on_a_common_brake() {
    let run = plateloft(&["flats", "--json", "fixtures/shapes/stepped_rim.json"]);
    let flats: Value = serde_json::from_str(&run.stdout).unwrap();
    let mut bent = 0;
    for part in flats["parts"].as_array().unwrap() {
        let order = &part["bend_order"];
        if part["bends"].as_array().unwrap().is_empty() {
            continue;
        }
        assert_eq!(order["meets_assumed_sizes"], false, "{}: {order:#}", part["mark"]);
        bent += usize::from(part["bends"].to_string().contains("outer rim"));
    }
    assert_eq!(bent, 5, "one of one piece and four walls of panels");
}

/// Relief holes by the handbook, FAA-H-8083-31, chapter 4: 1/8 in sheet up to .064, 3/16 above, twice the radius of .188 where that
/// is more; the sheet says whose rule that is where it gives the diameter.
#[test]
fn relief_holes_by_the_handbook_name_it_where_they_are_sized() {
    let run = plateloft(&["flats", "fixtures/shapes/handbook_relief.json"]);
    let told: Vec<&str> = run.stdout.lines().filter(|line| line.contains("corner relief:")).collect();
    assert_eq!(told.len(), 3, "{told:?}");
    for (line, diameter) in told.iter().zip(["dia .125", "dia .188", "dia .376"]) {
        assert!(line.contains(diameter) && line.contains("diameter by FAA-H-8083-31, chapter 4"), "{line}");
    }
}

/// All words of the cards of a packet, by file.
fn cards(job: &str) -> Vec<(String, String)> {
    let packet = packet_of(&format!("fixtures/jobs/{job}.json"), &[]);
    let cards = packet.iter().filter(|(name, _)| name.starts_with("bends/"));
    cards.map(|(name, bytes)| (name.clone(), words_of(bytes))).collect()
}

/// The words of a drawing, its texts one after the other.
fn words_of(svg: &[u8]) -> String {
    let text = std::str::from_utf8(svg).unwrap();
    let document = roxmltree::Document::parse(text).unwrap();
    let texts = document.descendants().filter(|node| node.has_tag_name("text"));
    texts.filter_map(|node| node.text()).collect::<Vec<_>>().join(" ")
}

/// The V stands on every card of a press, whoever chose it, and on none of a folder.
#[test]
fn every_card_of_a_press_names_its_die() {
    for (job, die) in [
        // .090 and .125 sheet, no brake given: 6 T and 8 T of the chart.
        ("rescue-skiff", "by a chart"),
        ("oyster-skiff", "of the shop's own"),
    ] {
        let cards = cards(job);
        assert!(3 < cards.len());
        for (name, words) in cards {
            assert!(words.contains("die V ") && words.contains(die), "{job}: {name}: {words}");
        }
    }
    for (name, words) in cards("gig-lockers") {
        assert!(!words.contains("die V "), "{name}: {words}");
    }
}

/// A bend of more than 90° asks for acute tools and says how far it closes; one of 90° does not.
#[test]
fn bends_sharper_than_square_ask_for_acute_tools() {
    let mut acute = 0;
    for job in ["exhaust-canopy", "rescue-skiff", "oyster-skiff", "sled-bin"] {
        let run = plateloft(&["flats", "--json", &format!("fixtures/jobs/{job}.json")]);
        let flats: Value = serde_json::from_str(&run.stdout).unwrap();
        let text = plateloft(&["flats", &format!("fixtures/jobs/{job}.json")]).stdout;
        let parts = flats["parts"].as_array().unwrap();
        let sharp = |step: &&Value| 90.05 < step["turn"].as_f64().unwrap() && step["tooling"] != Value::Null;
        let steps = parts.iter().filter_map(|part| part["bend_order"]["steps"].as_array()).flatten();
        let wanted = steps.filter(sharp).count();
        assert_eq!(text.matches("needs an acute punch and an acute V die").count(), wanted, "{job}");
        acute += wanted;
    }
    assert!(0 < acute, "no bend is sharper than square");
}

/// The edge of skirt BC is cut back at both ends, so that the stop finds 20 of the bend's 24.
#[test]
fn a_stop_that_bears_on_part_of_a_bend_says_on_how_much() {
    let text = plateloft(&["flats", "fixtures/shapes/tapered_lid.json"]).stdout;
    let line = text.lines().find(|line| line.contains("slope BC to skirt BC: ") && line.contains("bears on"));
    let line = line.unwrap_or_else(|| panic!("{text}"));
    assert!(line.contains("which bears on 20 in of the bend's 23 15/16 in only"), "{line}");
}

/// The last wall of the deep box: its floor and the wall beyond lie 15 5/8 behind that bend, the wall itself 12 7/16 before it.
#[test]
fn a_deep_sheet_behind_the_machine_is_told_with_its_depth() {
    let order = order("rescue-skiff", "DBP");
    let last = &steps(&order)[stroke_of(&order, "wall CD")];
    let [behind, before] = ["behind", "before"].map(|side| last[side].as_f64().unwrap());
    assert!(12.0 < behind && before < behind, "{last:#}");
    let text = plateloft(&["flats", "fixtures/jobs/rescue-skiff.json"]).stdout;
    assert!(
        text.contains("care: 15 5/8 in of sheet lies behind the bend line, 12 7/16 in before it"),
        "{text}"
    );
    // The deck lies before its long inboard bend, where the maker stands, and its flange at the stop.
    let order = self::order("rescue-skiff", "SDP-1");
    let inboard = &steps(&order)[stroke_of(&order, "flange inboard")];
    assert!(inboard["behind"].as_f64().unwrap() < 2.0, "{inboard:#}");
    assert!(!text.lines().any(|line| line.contains("flange inboard") && line.contains("care: ")), "{text}");
}

/// A job of one part in .080 sheet, with a brake or without.
fn job_of(part: &Value, brake: Option<&Value>) -> Value {
    let mut shop = serde_json::json!({ "gap": "1/4", "kerf": "1/8", "edge_trim": "1/2" });
    if let Some(brake) = brake {
        shop["brake"] = brake.clone();
    }
    serde_json::json!({
        "plateloft": 1, "job": "One part", "units": "inch", "tape": "1/16", "shop": shop,
        "metals": {
            "skin": { "alloy": "5052-H32", "thickness": ".080", "inside_radius": ".125", "k_factor": 0.41 },
            "wide": { "alloy": "5052-H32", "thickness": ".080", "inside_radius": ".500", "k_factor": 0.41 },
        },
        "parts": [part],
    })
}

fn profile(metal: &str, bend: &Value) -> Value {
    serde_json::json!({
        "mark": "P", "shape": "brake_profile", "metal": metal, "length": "22", "legs": ["3", "2"], "legs_to": "outside",
        "bends": [bend],
    })
}

/// One flat for one bend, whether its radius is given with it or with the metal; and what DIN 6935 says of it beside it.
#[test]
fn a_wide_bend_goes_by_the_same_number_wherever_its_radius_is_given() {
    let own = serde_json::json!({ "turn": 90, "direction": "up", "radius": ".500" });
    let width = |part: &Value| {
        let run = plateloft_on(&job_of(part, None), &["flats"]);
        assert_eq!(run.code, 0, "{}", run.stderr);
        assert!(run.stdout.contains("DIN 6935 takes the middle of the sheet"), "{}", run.stdout);
        run.stdout.lines().find(|line| line.contains("developed width")).map(str::to_owned).unwrap()
    };
    assert_eq!(width(&profile("skin", &own)), width(&profile("wide", &serde_json::json!("90 up"))));
}

/// What the line of the bend, its stroke, the caution and `bend` say of a half turn is one thing.
#[test]
fn a_half_turn_is_told_alike_everywhere() {
    let run = plateloft_on(&job_of(&profile("skin", &serde_json::json!("180 up")), None), &["flats"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    assert!(run.stdout.contains("swing it as far as it goes, then press it closed"), "{}", run.stdout);
    assert!(!run.stdout.contains("check the angle with a bevel"), "{}", run.stdout);
    let sum = plateloft(&["bend", "--thickness", ".080", "--radius", ".125", "--turn", "180", "--k", ".41"]);
    assert_eq!(sum.code, 0, "{}", sum.stderr);
    let past = plateloft(&["bend", "--thickness", ".080", "--radius", ".125", "--turn", "181", "--k", ".41"]);
    assert!(past.stderr.contains("must be above 0 and at most 180 degrees"), "{}", past.stderr);
}

/// Sections of 36 for a bend 44 long: said with their sum, and what would make it up.
#[test]
fn sections_too_few_for_a_bend_are_told_with_their_sum() {
    let brake = serde_json::json!({
        "kind": "press", "length": "96", "v_opening": "5/8",
        "punch": { "height": "6", "width": "1", "angle": 85, "sections": ["20", "16"] },
    });
    let mut part = profile("skin", &serde_json::json!("90 up"));
    part["length"] = serde_json::json!("44");
    let run = plateloft_on(&job_of(&part, Some(&brake)), &["check"]);
    assert_eq!(run.code, 1, "{}", run.stderr);
    let told = "the punch's sections, 20 and 16, add up to 36 for a bend 44 long";
    assert!(run.stderr.contains(told), "{}", run.stderr);
    assert!(
        run.stderr.contains("with one more section of the punch, 8, and the die alike"),
        "{}",
        run.stderr
    );
    part["length"] = serde_json::json!("80");
    let run = plateloft_on(&job_of(&part, Some(&brake)), &["check"]);
    assert!(run.stderr.contains("add sections of 44 together, to punch and die"), "{}", run.stderr);
}

/// A cylinder that is rolled wants no order of its lines; the joggle of its lap is set before.
#[test]
fn a_rolled_cylinder_with_a_lap_has_no_order_to_work_out() {
    let part = serde_json::json!({
        "mark": "P", "shape": "cylinder", "metal": "skin", "diameter": "13", "diameter_to": "inside", "length": "16",
        "made": "rolled", "seam": { "lap": "5/8" },
    });
    let run = plateloft_on(&job_of(&part, None), &["flats"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    assert!(!format!("{}{}", run.stdout, run.stderr).contains("NO BEND CARD"), "{}", run.stdout);
    assert!(run.stdout.contains("only the joggle is set on the brake, before rolling"), "{}", run.stdout);
}

/// A curl stays open round its rod: what is said of hems would flatten it.
#[test]
fn a_curl_is_not_told_to_be_pressed_closed() {
    let run = plateloft(&["flats", "fixtures/shapes/edges.json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let strokes = |mark: &str| -> Vec<&str> {
        run.stdout.lines().filter(|line| line.contains("  stroke ") && line.contains(mark)).collect()
    };
    let curls = strokes("rolled from line to line");
    assert_eq!(curls.len(), 4, "{}", run.stdout);
    for stroke in curls {
        assert!(stroke.contains("it is not pressed closed"), "{stroke}");
        assert!(!stroke.contains("then press it closed"), "{stroke}");
    }
    assert!(strokes(", hem, closed").iter().all(|stroke| stroke.contains("then press it closed")));
}
