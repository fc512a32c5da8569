//! Roll goods and wear liner as whole commands.

use serde_json::{Value, json};

use crate::program::{Run, packet_of, packet_of_job, plateloft, plateloft_on};

fn job(coverings: &Value, liners: &Value) -> Value {
    json!({
        "plateloft": 1, "job": "Cabin", "units": "inch", "tape": "1/16",
        "shop": { "gap": "1/4", "edge_trim": "1/2" },
        "metals": { "skin": { "alloy": "5052-H32", "thickness": ".125" } },
        "sheets": [{ "metal": "skin", "size": ["48", "96"], "price": 210 }],
        "parts": [{ "mark": "P", "shape": "plate", "metal": "skin", "size": ["20", "10"] }],
        "coverings": coverings, "liners": liners
    })
}

fn matting(more: &Value, pieces: &Value) -> Value {
    let mut covering = json!({ "covering": "matting", "width": "72", "pieces": pieces });
    for (name, value) in more.as_object().unwrap() {
        covering[name] = value.clone();
    }
    json!([covering])
}

fn liner(expansion: &Value, areas: &Value) -> Value {
    json!([{ "liner": "UHMW-PE 3/8", "sheet": ["48", "96"], "price": 155, "kerf": "1/8", "expansion": expansion, "areas": areas }])
}

fn warm(per_degree: f64) -> Value {
    json!({ "per_degree_c": per_degree, "source": "maker's data sheet", "laid_at": "20 C", "coldest": "-20 C", "warmest": "50 C" })
}

fn asked(job: &Value, command: &[&str]) -> Value {
    let run = plateloft_on(job, command);
    assert_eq!(run.code, 0, "{}", run.stderr);
    serde_json::from_str(&run.stdout).unwrap()
}

fn refused(coverings: &Value, liners: &Value, told: &[&str]) {
    let Run { code, stderr, .. } = plateloft_on(&job(coverings, liners), &["coverings"]);
    assert_eq!(code, 2, "{stderr}");
    for told in told {
        assert!(stderr.contains(told), "{told}: {stderr}");
    }
}

#[test]
fn a_wide_piece_is_seamed_where_the_user_allows_and_nowhere_else() {
    let pieces = json!([{ "mark": "FLOOR", "size": ["120", "100"], "seams": ["30", "60", "80"] }]);
    let roll = matting(
        &json!({ "seam_allowance": "1", "selvedge": "1/2", "price": "9.80", "price_for": "1 ft", "sold_by": "1 ft" }),
        &pieces,
    );
    let answer = asked(&job(&roll, &json!([])), &["coverings", "--json"]);
    let covering = &answer["coverings"][0];
    let panels = covering["rolls"][0]["pieces"].as_array().unwrap();
    // 71 can be used and 1 is added at the seam: 60 is the farthest that goes, and leaves a panel of 40 + 1.
    let mut seen: Vec<(Value, Value, Value)> = panels
        .iter()
        .map(|panel| (panel["size"].clone(), panel["seam"].clone(), panel["begins"].clone()))
        .collect();
    seen.sort_by_key(|(size, _, _)| size.to_string());
    assert_eq!(seen[0], (json!([120.0, 41.0]), json!(null), json!(59.0)));
    assert_eq!(seen[1], (json!([120.0, 61.0]), json!(60.0), json!(0.0)));
    // 61 + 41 do not go side by side on 71: two lengths of 120, proved for these panels; 20 ft at 9.80.
    let proved = |name: &str| &covering[name];
    assert_eq!((proved("used"), proved("proved_least_for_these_panels")), (&json!(240.0), &json!(true)));
    assert_eq!(proved("proved_least"), &json!(false), "seams at 30 and 80 were not looked at");
    assert_eq!((&covering["buy"], &covering["cents"]), (&json!(240.0), &json!(19_600)));
    let exact = |name: &str| covering["exact_areas"][name].as_str().unwrap().parse::<i128>().unwrap();
    assert_eq!(exact("pieces"), 12_000 * 25_400_000 * 25_400_000);
    assert_eq!(exact("seam_allowance"), 240 * 25_400_000 * 25_400_000);
    let parts = ["pieces", "seam_allowance", "selvedge", "squaring", "waste"];
    assert_eq!(parts.iter().map(|name| exact(name)).sum::<i128>(), exact("bought"));
    let text = plateloft_on(&job(&roll, &json!([])), &["coverings"]).stdout;
    assert!(
        text.contains("its right seam lies 60 from the left side of the piece, 1 past it on both panels"),
        "{text}"
    );
    let narrow = json!([{ "mark": "FLOOR", "size": ["120", "100"], "seams": ["80"] }]);
    let told = ["coverings[0].pieces[0].size", "no seam is allowed from 0 to 72", "allow a seam there"];
    refused(&matting(&json!({}), &narrow), &json!([]), &told);
}

#[test]
fn nap_and_pattern_are_kept() {
    // Turned, both would go in 60; with the nap along the roll they take 100.
    let pieces = json!([{ "mark": "A", "size": ["50", "60"], "quantity": 2 }]);
    let used = |more: &Value| {
        asked(&job(&matting(more, &pieces), &json!([])), &["coverings", "--json"])["coverings"][0]["used"]
            .clone()
    };
    assert_eq!(used(&json!({})), json!(100.0));
    assert_eq!(used(&json!({ "width": "100" })), json!(100.0));
    assert_eq!(used(&json!({ "width": "100", "nap": false })), json!(60.0));
    // The second starts where the third pattern of 36 starts.
    assert_eq!(used(&json!({ "repeat": "36" })), json!(122.0));
    refused(
        &matting(&json!({ "repeat": "36", "nap": false }), &pieces),
        &json!([]),
        &["a pattern has a direction"],
    );
}

/// Worked by hand: 96 × 70 on 72, then 40 × 30 twice side by side and once behind. Twelve from the end of the long piece to the next
/// pattern at 108 are lost, 14 behind each of the two, none behind the last, which ends the roll at 202; 2 are bought more.
#[test]
fn waste_is_told_by_where_it_is_lost() {
    let pieces =
        json!([{ "mark": "M", "size": ["96", "70"] }, { "mark": "N", "size": ["40", "30"], "quantity": 3 }]);
    let job =
        job(&matting(&json!({ "repeat": "18", "sold_by": "1 ft", "longest": "240" }), &pieces), &json!([]));
    let answer = asked(&job, &["coverings", "--json"]);
    let covering = &answer["coverings"][0];
    let inches = |name: &str| {
        covering["exact_areas"][name].as_str().unwrap().parse::<i128>().unwrap() / (25_400_000 * 25_400_000)
    };
    assert_eq!((&covering["used"], &covering["least_possible"]), (&json!(202.0), &json!(184.0)));
    assert_eq!(inches("waste_at_pattern_starts"), 12 * 70 + 2 * 14 * 30);
    assert_eq!(inches("waste_at_ends"), 2 * 72);
    assert_eq!(inches("waste"), 204 * 72 - 96 * 70 - 3 * 40 * 30);
    assert_eq!(inches("waste_between"), inches("waste") - 1680 - 144);
    let text = plateloft_on(&job, &["coverings"]).stdout;
    assert!(
        text.contains("11.667 up to the next start of the pattern + 1.000 past the last piece + "),
        "{text}"
    );
}

/// Worked by hand: on a roll of 72, of which 2 go for squaring, a piece 40 wide and one of 100, both 20 long. A seam at 50 makes two panels
/// of 50, which lie beside nothing: 3 × 20. One at 30 makes panels of 30, which lies beside the 40, and of 70: 2 × 20.
#[test]
fn what_is_proved_of_panels_is_not_claimed_for_other_seams() {
    let pieces = |seams: Value| json!([{ "mark": "A", "size": ["20", "40"] }, { "mark": "B", "size": ["20", "100"], "seams": seams }]);
    let with = |seams: Value| matting(&json!({ "squaring": "2", "nap": true }), &pieces(seams));
    let used = |seams: Value| {
        let answer = asked(&job(&with(seams), &json!([])), &["coverings", "--json"]);
        let covering = &answer["coverings"][0];
        (covering["used"].clone(), covering["proved_least"].clone())
    };
    assert_eq!(used(json!(["50"])), (json!(62.0), json!(true)));
    assert_eq!(used(json!(["30"])), (json!(42.0), json!(true)));
    let (both, proved) = used(json!(["30", "50"]));
    assert!(proved == json!(false) || both == json!(42.0), "{both}");
    let told = plateloft_on(&job(&with(json!(["30", "50"])), &json!([])), &["coverings"]).stdout;
    assert!(told.contains("for these panels: other seams that are allowed are not looked at"), "{told}");
}

/// Worked by hand: rolls of 150 at the longest, sold by 50. 60 and 40 twice each: 60 + 60 and 40 + 40 are 120 and 80, sold as 150 and 100; 60 + 40
/// twice are 100 and 100. Both use 200.
#[test]
fn less_to_buy_in_whole_steps_is_not_called_impossible() {
    let pieces = json!([
        { "mark": "A", "size": ["60", "70"], "quantity": 2 },
        { "mark": "B", "size": ["40", "70"], "quantity": 2 }
    ]);
    let roll = matting(&json!({ "longest": "150", "sold_by": "50", "nap": true }), &pieces);
    let answer = asked(&job(&roll, &json!([])), &["coverings", "--json"]);
    let covering = &answer["coverings"][0];
    let is_least = covering["buy"] == json!(200.0);
    assert_eq!(covering["less_to_buy_not_excluded"], json!(!is_least), "{covering}");
}

/// Worked by hand: 60 and 40 one behind the other on a roll of 100 at the longest, of which 3 go for squaring: two lengths, 63 and 43 used. Sold by
/// the foot that is 72 and 48 at 1.00. Without squaring, one of 100 whole, the longest, and the list says that nothing is counted.
#[test]
fn what_squaring_the_ends_takes_is_bought_and_told() {
    let pieces = json!([{ "mark": "A", "size": ["60", "70"] }, { "mark": "B", "size": ["40", "70"] }]);
    let with = |squaring: Option<&str>| {
        let mut more = json!({ "longest": "100", "sold_by": "1 ft", "price": 1, "price_for": "1 ft" });
        if let Some(squaring) = squaring {
            more["squaring"] = json!(squaring);
        }
        job(&matting(&more, &pieces), &json!([]))
    };
    let squared = asked(&with(Some("3")), &["coverings", "--json"]);
    let covering = &squared["coverings"][0];
    assert_eq!((&covering["used"], &covering["proved_least"]), (&json!(106.0), &json!(true)));
    assert_eq!((&covering["buy"], &covering["cents"]), (&json!(120.0), &json!(1000)));
    let exact = |name: &str| {
        covering["exact_areas"][name].as_str().unwrap().parse::<i128>().unwrap() / (25_400_000 * 25_400_000)
    };
    assert_eq!(exact("squaring"), 2 * 3 * 72);
    assert_eq!((exact("waste_at_ends"), exact("waste_between")), ((9 + 5) * 72, 100 * 2));
    let text = plateloft_on(&with(Some("3")), &["coverings"]).stdout;
    for told in [
        "3 cut off the end of every length to square it",
        "3.000 squaring the ends + ",
        "3 in of every length is counted for squaring its end: cut that off first",
    ] {
        assert!(text.contains(told), "{told}: {text}");
    }
    let order = plateloft_on(&with(Some("3")), &["order"]).stdout;
    assert!(order.contains("3 in of each length is for squaring its end"), "{order}");
    let map = packet_of_job(&with(Some("3")), &[]);
    let page = std::str::from_utf8(&map["index.html"]).unwrap();
    assert!(page.contains("of the length bought 3 in are counted for that"), "no word on the map");
    let plain = asked(&with(None), &["coverings", "--json"]);
    assert_eq!(
        (&plain["coverings"][0]["used"], &plain["coverings"][0]["buy"]),
        (&json!(100.0), &json!(100.0))
    );
    let text = plateloft_on(&with(None), &["coverings"]).stdout;
    assert!(text.contains("Nothing is counted for squaring the end of a roll"), "{text}");
}

/// A turn that does not go on the width once opened a second roll; goods without nap have none to run away.
#[test]
fn goods_without_nap_are_laid_on_one_roll() {
    let pieces =
        json!([{ "mark": "M", "size": ["96", "70"] }, { "mark": "N", "size": ["100", "30"], "quantity": 3 }]);
    let run = plateloft_on(&job(&matting(&json!({ "nap": false }), &pieces), &json!([])), &["coverings"]);
    assert!(run.stdout.contains("Buy 1 length of 296 in"), "{}", run.stdout);
    assert!(!run.stdout.contains("running away"), "{}", run.stdout);
}

#[test]
fn panels_of_a_pattern_meet_in_it() {
    let pieces = json!([{ "mark": "A", "size": ["30", "100"], "seams": ["50"] }]);
    let roll = matting(
        &json!({ "repeat": "18", "repeat_across": "16", "width": "112" , "longest": "20 ft" }),
        &pieces,
    );
    // It goes in one on 112; on 108 less 5 each side it does not, and the right panel begins 50 into a pattern of 16.
    let one = asked(&job(&roll, &json!([])), &["coverings", "--json"]);
    assert_eq!(one["coverings"][0]["rolls"][0]["pieces"].as_array().unwrap().len(), 1);
    let roll =
        matting(&json!({ "repeat": "18", "repeat_across": "16", "width": "108", "selvedge": "5" }), &pieces);
    let two = asked(&job(&roll, &json!([])), &["coverings", "--json"]);
    let panels = two["coverings"][0]["rolls"][0]["pieces"].as_array().unwrap();
    assert_eq!(panels.len(), 2);
    for panel in panels {
        let [along, across, begins] = ["along", "across", "begins"].map(|name| panel[name].as_f64().unwrap());
        assert!((along / 18.0).fract().abs() < 1e-9, "{panel}");
        assert!(
            ((across - begins).rem_euclid(16.0)).min(16.0 - (across - begins).rem_euclid(16.0)) < 1e-3,
            "{panel}"
        );
    }
}

#[test]
fn liner_panels_have_room_to_grow() {
    let areas = json!([{ "mark": "FLOOR", "size": ["180", "40"] }]);
    let answer = asked(&job(&json!([]), &liner(&warm(0.0002), &areas)), &["coverings", "--json"]);
    let face = &answer["liners"][0]["areas"][0];
    // 180 takes two panels of a 96 sheet. Each has 90: it grows by .0002 × 90 × 30 = .54 until 50 °C, and 89.46 rounds down
    // to 89 7/16 on the tape.
    assert_eq!(face["panels"], json!([2, 1]));
    assert_eq!(face["panel"], json!([89.4375, 39.75]));
    assert_eq!(face["gap"], json!([0.5625, 0.25]));
    // From 20 down to -20 °C a panel shrinks by .0002 × 89.4375 × 40 = .7155.
    assert_eq!(face["gap_at_coldest"], json!([1.278, 0.568]));
    let growth = face["growth"][0].as_f64().unwrap();
    assert!((growth - 0.5366).abs() < 1e-4 && growth <= 0.5625, "{growth}");
    assert_eq!(
        (&answer["liners"][0]["sheets"], &answer["liners"][0]["proved_least"]),
        (&json!(2), &json!(true))
    );
    assert_eq!(answer["liners"][0]["cents"], 31_000);
    for (expansion, told) in [
        (warm(0.2), "is no coefficient of a solid"),
        (warm(0.0), "is no coefficient of a solid"),
        (
            json!({ "per_degree_c": 0.0002, "source": "x", "laid_at": "60 C", "coldest": "-20 C", "warmest": "50 C" }),
            "laid_at: 60 C: is not between the coldest and the warmest",
        ),
        (
            json!({ "per_degree_c": 0.0002, "source": "x", "laid_at": "20 C", "coldest": "20 C", "warmest": "20 C" }),
            "liners[0].expansion.warmest: 20 C: is no warmer than the coldest",
        ),
        (
            json!({ "per_degree_c": 0.0002, "source": "x", "laid_at": "60", "coldest": "-20 C", "warmest": "50 C" }),
            "laid_at",
        ),
        (
            json!({ "per_degree_c": 0.0002, "laid_at": "20 C", "coldest": "-20 C", "warmest": "50 C" }),
            "source",
        ),
    ] {
        refused(&json!([]), &liner(&expansion, &areas), &[told]);
    }
    refused(
        &json!([]),
        &liner(&warm(0.0002), &json!([{ "mark": "CHIP", "size": ["1/16", "40"] }])),
        &["liners[0].areas[0].size: 1/16 × 40: CHIP cannot be divided"],
    );
}

/// 100 ft are 30.48 m: longer than any part, but not than a roll.
#[test]
fn a_roll_is_priced_and_sold_by_any_length_that_rolls_have() {
    let pieces = json!([{ "mark": "A", "size": ["60", "40"] }]);
    let roll = matting(&json!({ "price": "980", "price_for": "100 ft", "sold_by": "90 ft" }), &pieces);
    let answer = asked(&job(&roll, &json!([])), &["coverings", "--json"]);
    assert_eq!(
        (&answer["coverings"][0]["buy"], &answer["coverings"][0]["cents"]),
        (&json!(1080.0), &json!(88_200))
    );
    let long = matting(&json!({ "price": "980", "price_for": "700 ft" }), &pieces);
    refused(&long, &json!([]), &["coverings[0].price_for: 700 ft: is more than 200 m"]);
}

#[test]
fn a_price_below_zero_is_refused_in_words_that_suit_what_is_priced() {
    let pieces = json!([{ "mark": "A", "size": ["60", "40"] }]);
    let roll = matting(&json!({ "price": "-5", "price_for": "1 ft" }), &pieces);
    let told = "coverings[0].price: -5: a price must not be below zero\n    give what it costs, or 0\n";
    refused(&roll, &json!([]), &[told]);
}

#[test]
fn wrong_rolls_are_refused_all_at_once() {
    let wrong = json!([{
        "covering": "matting", "width": "72", "selvedge": "36", "price": 5, "pieces": [{ "mark": "A", "size": ["0", "10"] }]
    }, {
        "covering": "carpet", "width": "72", "longest": "100", "price_for": "1 ft",
        "pieces": [{ "mark": "B", "size": ["101", "10"] }, { "mark": "C", "size": ["10", "10"], "seams": ["10"] }]
    }, { "covering": "carpet", "width": "72", "pieces": [{ "mark": "D", "size": ["10", "10"] }] }]);
    let told = [
        "coverings[0].price",
        "leaves nothing of the roll",
        "coverings[1].price_for",
        "is longer than the longest roll",
        "lies beyond C, 10 wide",
        "coverings[2].covering: carpet: is given twice",
    ];
    refused(&wrong, &json!([]), &told);
}

#[test]
fn a_mark_is_one_piece() {
    let piece = |mark: &str| json!({ "mark": mark, "size": ["20", "10"] });
    let rolls = matting(&json!({}), &json!([piece("A"), piece("B"), piece("A")]));
    let lined = liner(&warm(0.0002), &json!([piece("b"), piece("C")]));
    let told = [
        "coverings[0].pieces[2].mark: A: this mark is used twice\n    give each piece and each area its own mark",
        "liners[0].areas[0].mark: b: differs from B only in large and small letters",
        "2 problems",
    ];
    refused(&rolls, &lined, &told);
}

/// Everything that is refused says where it stands, what is written there, what is wrong, and what to do.
#[test]
fn what_cannot_be_laid_is_told_by_its_field_and_value() {
    let many = json!([
        { "mark": "A", "size": ["20", "10"], "quantity": 200 }, { "mark": "B", "size": ["20", "10"], "quantity": 200 },
        { "mark": "C", "size": ["20", "10"] }
    ]);
    let told = "coverings[0].pieces: 401 panels: no more than 400 are laid on one kind of roll\n    divide matting into";
    refused(&matting(&json!({}), &many), &json!([]), &[told]);
    // Two panels as wide as the roll, the second 6 into a pattern of 16: both leave no play.
    let tight = json!([{ "mark": "D", "size": ["10", "10"] }, { "mark": "E", "size": ["20", "144"], "seams": ["72"] }]);
    let told = "coverings[0].pieces[1].seams: 72: panels of E with seams there meet in a pattern of 16 nowhere on the 72";
    refused(&matting(&json!({ "repeat_across": "16" }), &tight), &json!([]), &[told, "take a wider roll"]);
    let lined = liner(&warm(0.0002), &json!([{ "mark": "F", "size": ["40", "40"] }]));
    let mut thick = lined.clone();
    thick[0]["kerf"] = json!("50");
    refused(&json!([]), &thick, &["liners[0].kerf: 50: is as wide as the sheet\n    check kerf and sheet"]);
    let mut all = lined;
    all[0]["sheet"] = json!(["12", "12"]);
    all[0]["areas"] = json!([{ "mark": "G", "size": ["700", "700"], "quantity": 200 }]);
    let told = "liners[0].areas[0].quantity: 200: G comes to more panels than the";
    refused(&json!([]), &all, &[told, "divide UHMW-PE 3/8 into two entries"]);
}

/// 72 1/16 and 100 1/16 in end between two steps of the grid.
#[test]
fn a_piece_as_large_as_the_roll_goes_on_it() {
    let pieces = json!([{ "mark": "A", "size": ["100 1/16", "72 1/16"] }]);
    let roll = matting(&json!({ "width": "72 1/16", "longest": "100 1/16" }), &pieces);
    assert_eq!(
        asked(&job(&roll, &json!([])), &["coverings", "--json"])["coverings"][0]["used"],
        json!(100.0625)
    );
}

/// With one seam, at 72, both panels are as wide as the roll, and 8 apart in the pattern. A second seam leaves a panel of 56, which
/// has the play.
#[test]
fn seams_are_chosen_so_that_panels_meet_in_the_pattern() {
    let pieces = json!([{ "mark": "A", "size": ["20", "144"], "seams": ["64", "72", "128"] }]);
    let seams = |more: &Value| {
        let answer = asked(&job(&matting(more, &pieces), &json!([])), &["coverings", "--json"]);
        let panels = answer["coverings"][0]["rolls"][0]["pieces"].as_array().unwrap().clone();
        let mut seams: Vec<f64> = panels.iter().filter_map(|panel| panel["seam"].as_f64()).collect();
        seams.sort_by(f64::total_cmp);
        seams
    };
    assert_eq!(seams(&json!({})), [72.0]);
    assert_eq!(seams(&json!({ "repeat_across": "16" })), [72.0, 128.0]);
}

#[test]
fn one_sheet_of_liner_is_quoted_as_one() {
    let areas = json!([{ "mark": "FLOOR", "size": ["40", "40"] }]);
    let quoted = plateloft_on(&job(&json!([]), &liner(&warm(0.0002), &areas)), &["quote"]);
    assert_eq!(quoted.code, 0, "{}", quoted.stderr);
    assert!(quoted.stdout.contains("1 sheet ") && !quoted.stdout.contains("1 sheets"), "{}", quoted.stdout);
}

#[test]
fn coverings_stand_in_the_shopping_list_the_quote_and_the_packet() {
    let name = "fixtures/jobs/work-barge.json";
    let bought = plateloft(&["buy", name]);
    assert_eq!(bought.code, 0, "{}", bought.stderr);
    for told in [
        "coverings and liner, an order of their own",
        "deck matting, grey, 72 wide: 1 length of ",
        "UHMW-PE 3/8: ",
    ] {
        assert!(bought.stdout.contains(told), "{told}: {}", bought.stdout);
    }
    let quoted = plateloft(&["quote", name]);
    assert!(quoted.stdout.contains("cuts that serve two parts are counted once"), "{}", quoted.stdout);
    assert!(quoted.stdout.contains("deck matting, grey"), "{}", quoted.stdout);
    let listed: Value = serde_json::from_str(&plateloft(&["buy", name, "--json"]).stdout).unwrap();
    assert!(
        listed["coverings"][0]["least_possible"].as_f64().unwrap()
            <= listed["coverings"][0]["used"].as_f64().unwrap()
    );
    let packet = packet_of(name, &[]);
    // With the pattern 1 on, the panel of 41 lies at the edge from 0 to 96, the two of 30 beside it at 0 and at 54; that of 28 1/2
    // follows at 108, and the panel of 61 from 144 to 240. Their weights fill 13 repeats of 18, the last of them for 4 at least.
    let matting = &listed["coverings"][0];
    assert_eq!((&matting["buy"], &matting["least_possible"]), (&json!(240.0), &json!(220.0)));
    let page = std::str::from_utf8(&packet["index.html"]).unwrap();
    assert!(page.contains("its right seam lies") && page.contains("Fasten a panel at its middle only"));
}

/// By hand: 60 of matting at 9.80 a foot is 49.00, one sheet of liner 155; 204 is lifted to 250 by 46; with delivery of 35
/// that is 285, and a tax of 8.875 % is 25.29375. Tax on metal does not count them.
#[test]
fn coverings_and_liner_are_an_order_of_their_own() {
    let mut job = job(
        &matting(
            &json!({ "price": "9.80", "price_for": "1 ft" }),
            &json!([{ "mark": "M", "size": ["60", "72"] }]),
        ),
        &liner(&warm(0.000_15), &json!([{ "mark": "L1", "size": ["60", "30"] }])),
    );
    job["buying"] = json!({
        "minimum_charge": 0, "over_length": { "longer_than": "120", "freight": 0 }, "delivery": 10, "tax": 10,
        "coverings": { "minimum_charge": 250, "delivery": 35, "tax": 8.875 }
    });
    let bought = asked(&job, &["buy", "--json"]);
    let sums = &bought["coverings_cents"];
    assert_eq!(
        [&sums["goods"], &sums["up_to_minimum"], &sums["delivery"], &sums["tax"], &sums["total"]],
        [&json!(20_400), &json!(4_600), &json!(3_500), &json!(2_529), &json!(31_029)]
    );
    // 210 and 10, and a tenth.
    assert_eq!(bought["order_cents"]["total"], 24_200);
    let quoted = asked(&job, &["quote", "--json"]);
    let lines = quoted["quotes"][0]["lines"].as_array().unwrap().clone();
    let of_group = |name: &str| -> i64 {
        let lines = lines.iter().filter(|line| line["group"] == name);
        lines.map(|line| line["cents"].as_i64().unwrap_or(0)).sum()
    };
    assert_eq!(of_group("coverings"), 31_029);
    let text = plateloft_on(&job, &["buy"]).stdout;
    for told in ["coverings and liner, an order of their own", "310.29"] {
        assert!(text.contains(told), "{told}: {text}");
    }
    let page = String::from_utf8(packet_of_job(&job, &[])["index.html"].clone()).unwrap();
    let told = "coverings and liner as an order of their own: 310.29 together (goods 204.00, up to the minimum 46.00, delivery \
                35.00, tax 25.29)";
    assert!(page.contains(told), "the packet does not say what they come to");
    // What is not set is asked for, and the sum stays open.
    job["buying"].as_object_mut().unwrap().remove("coverings");
    let open = asked(&job, &["quote", "--json"])["quotes"][0].clone();
    let questions = open["questions"].to_string();
    for field in ["minimum_charge", "delivery", "tax"] {
        assert!(
            questions.contains(&format!("\\\"{field}\\\" under \\\"buying.coverings\\\" is not set")),
            "{questions}"
        );
    }
    assert_eq!(open["cost"], Value::Null);
    assert_eq!(asked(&job, &["buy", "--json"])["coverings_cents"]["total"], Value::Null);
    // Without any there is no such order.
    job["coverings"] = json!([]);
    job["liners"] = json!([]);
    assert_eq!(asked(&job, &["buy", "--json"])["coverings_cents"]["total"], 0);
    assert!(!plateloft_on(&job, &["buy"]).stdout.contains("overings"));
}

/// Nothing is said to be bought nothing of where coverings are.
#[test]
fn a_job_of_coverings_alone_buys_no_sheet() {
    let job = json!({
        "plateloft": 1, "job": "Cabin", "units": "inch", "tape": "1/16", "shop": { "gap": "1/4", "edge_trim": "1/2" },
        "coverings": matting(&json!({}), &json!([{ "mark": "M", "size": ["60", "72"] }]))
    });
    for command in ["buy", "order"] {
        let run = plateloft_on(&job, &[command]);
        assert_eq!(run.code, 0, "{}", run.stderr);
        assert!(run.stdout.contains("No sheet, bar or pipe is to be"), "{}", run.stdout);
        assert!(!run.stdout.contains("Nothing is to be") && run.stdout.contains("matting"), "{}", run.stdout);
    }
}

#[test]
fn the_take_off_lists_coverings_liners_and_bars() {
    let mut job = job(
        &matting(
            &json!({}),
            &json!([{ "mark": "M1", "size": ["100", "40"], "quantity": 2 }, { "mark": "M2", "size": ["36", "12"] }]),
        ),
        &liner(&warm(0.000_15), &json!([{ "mark": "L1", "size": ["60", "30"] }])),
    );
    job["bars"] = json!([{ "bar": "angle 1 1/2 x 1/8", "kerf": "1/16", "sticks": [{ "length": "240" }],
        "pieces": [{ "mark": "A1", "length": "31 1/2", "quantity": 4 }] }]);
    let run = plateloft_on(&job, &["take-off"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let words = run.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
    // 2 × 100 × 40 and 36 × 12 square inches at 144 to the square foot: 55.556 and 3.000; 60 × 30 are 12.500.
    for row in [
        "matting, 72 wide",
        "Cabin M1 2 100 × 40 55.556",
        "Cabin M2 1 36 × 12 3.000",
        "all 3 58.556",
        "Cabin L1 1 60 × 30 12.500",
        "angle 1 1/2 x 1/8 Cabin, A1 4 31 1/2",
    ] {
        assert!(words.contains(row), "{row} in {}", run.stdout);
    }
}

#[test]
fn coverings_and_liners_are_an_order_of_their_own() {
    let job = job(
        &matting(
            &json!({ "repeat": "18" }),
            &json!([{ "mark": "M1", "size": ["100", "40"], "quantity": 2 }]),
        ),
        &liner(&warm(0.000_15), &json!([{ "mark": "L1", "size": ["60", "30"] }])),
    );
    let run = plateloft_on(&job, &["order"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let own = run.stdout.split("coverings and wear liner").nth(1).expect("a second order");
    let words = own.split_whitespace().collect::<Vec<_>>().join(" ");
    for told in [
        "1. 1 length: matting, 72 in wide × 208 in long",
        "every length in one piece, without a join",
        "repeats every 18 in along",
        "2. 1 sheet: UHMW-PE 3/8, 48 in × 96 in",
        "length 1 of 1",
        "[ ] label reads UHMW-PE 3/8",
        "ordered 208 in",
    ] {
        assert!(words.contains(told), "{told} in {own}");
    }
    assert!(!own.contains("in all"), "goods of two kinds have no sum: {own}");
    let answer = asked(&job, &["order", "--json"]);
    assert_eq!(answer["liners"][0]["line"], "1 sheet: UHMW-PE 3/8, 48 in × 96 in");
    assert_eq!(answer["coverings"][0]["line"], "1 length: matting, 72 in wide × 208 in long");
}

/// Weights by hand: 96 × 61 of 1 lb/ft² is 5856 / 144 = 40.67 lb, 96 × 41 is 27.33; 40 × 30 is 8.33, two of them 16.66 as printed; 28 1/2 × 20 is
/// 3.96. What has no weight in the job is named, not guessed.
#[test]
fn matting_is_weighed_where_its_weight_is_given_and_listed_in_the_cut_list() {
    let mut job: Value = serde_json::from_str(include_str!("../fixtures/jobs/work-barge.json")).unwrap();
    job["coverings"][0]["weight"] = json!("1 lb/ft2");
    let packet = packet_of_job(&job, &[]);
    let list = std::str::from_utf8(&packet["cut-list.txt"]).unwrap();
    let row = |mark: &str| list.lines().find(|line| line.starts_with(mark)).unwrap();
    for (panel, weight) in [("M1, panel 1", "40.67"), ("M1, panel 2", "27.33")] {
        assert!(row(panel).ends_with(&format!("{weight}        {weight}")), "{}", row(panel));
    }
    assert!(row("M2 ").trim_end().ends_with("16.66") && row("M2 ").contains("8.33"), "{}", row("M2 "));
    assert!(row("L1 panel").ends_with("not weighed"), "{}", row("L1 panel"));
    assert!(row("all that is weighed").ends_with("88.62"), "{}", row("all that is weighed"));
    assert!(list.contains("Not weighed: UHMW-PE 3/8: no weight per area is given in the job."), "{list}");
    assert!(std::str::from_utf8(&packet["index.html"]).unwrap().contains("Matting and liner to cut"));
    let run = plateloft_on(&job, &["weights"]);
    assert!(run.stdout.contains("Matting and liner are not in these weights"), "{}", run.stdout);
    job["coverings"][0]["weight"] = json!("heavy");
    let run = plateloft_on(&job, &["check"]);
    assert!(run.code == 2 && run.stderr.contains("coverings[0].weight"), "{}", run.stderr);
}
