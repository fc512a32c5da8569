//! Weights, lids, struts and stations as whole commands.
#![expect(clippy::disallowed_methods, reason = "a test of a program that reads a file writes it")]

use std::fs;

use serde_json::{Value, json};
use tempfile::tempdir;

use crate::program::{packet_of_job, plateloft, plateloft_in, plateloft_on, top};

const LOCKER: &str = "fixtures/jobs/litter-locker.json";

fn locker() -> Value {
    serde_json::from_str(&fs::read_to_string(top().join(LOCKER)).unwrap()).unwrap()
}

fn answer(job: &Value, command: &str) -> Value {
    let run = plateloft_on(job, &[command, "--json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    serde_json::from_str(&run.stdout).unwrap()
}

/// One sum, one rounding: what all parts weigh is the same in the weights, in the quote and in its kit, on every small job.
#[test]
fn all_parts_weigh_the_same_wherever_it_is_told() {
    let mut differ = Vec::new();
    let shapes = fs::read_dir(top().join("fixtures/shapes")).unwrap().map(|entry| entry.unwrap().path());
    let mut jobs: Vec<_> = shapes.filter(|path| path.extension().is_some_and(|end| end == "json")).collect();
    jobs.extend(["gig-lockers", "exhaust-canopy"].map(|job| top().join(format!("fixtures/jobs/{job}.json"))));
    jobs.sort();
    for path in jobs {
        let job = path.to_str().unwrap();
        let told = |command: &str| -> Option<Value> {
            let run = plateloft(&[command, job, "--json"]);
            (run.code == 0).then(|| serde_json::from_str(&run.stdout).unwrap())
        };
        let (Some(weights), Some(quote)) = (told("weights"), told("quote")) else { continue };
        let (all, quoted) = (number(&weights["job_weight"]), number(&quote["quotes"][0]["weight"]));
        if (all - quoted).abs() > 1e-9 {
            differ.push(format!("{job}: {all} in the weights, {quoted} in the quote"));
        }
        if let Some(kit) = job.contains("gig-lockers").then(|| told("kit")).flatten() {
            let crates = kit["crates"].as_array().unwrap();
            let flats: f64 = crates.iter().map(|of| number(&of["flats"])).sum();
            if (all - flats).abs() > 0.001 {
                differ.push(format!("{job}: {all} in the weights, {flats} in the crates"));
            }
        }
    }
    assert!(differ.is_empty(), "{differ:#?}");
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

/// Two plain plates of a metal with its own density.
fn plate(units: &str, size: [f64; 2], thickness: f64, density: &str) -> Value {
    json!({
        "plateloft": 1, "job": "Sheet", "units": units, "tape": if units == "mm" { "1" } else { "1/16" },
        "shop": { "gap": 7, "edge_trim": 0 },
        "metals": { "skin": { "alloy": "5052-H32", "thickness": thickness, "density": density } },
        "sheets": [{ "metal": "skin", "size": [size[0] + 10.0, size[1] + 10.0] }],
        "parts": [{ "mark": "P", "shape": "plate", "metal": "skin", "size": size }]
    })
}

/// Two worked sums as a stockholder prints them (`sheet_weights.json`): 43.98 lb and 7.00 kg.
#[test]
fn sheets_weigh_their_volume_times_their_density() {
    let inch = answer(&plate("inch", [144.0, 48.0], 0.063, "0.101 lb/in3"), "weights");
    assert!((number(&inch["parts"][0]["each"]) - 43.98).abs() < 0.01, "{inch}");
    let metric = answer(&plate("mm", [2500.0, 1250.0], 0.8, "2.80 g/cm3"), "weights");
    assert!((number(&metric["parts"][0]["each"]) - 7.00).abs() < 0.005, "{metric}");
    // Steel plate weighs 40.8 lb/ft2 an inch of thickness: AISC, Manual of Steel Construction, from memory.
    let steel = answer(&plate("inch", [48.0, 48.0], 0.25, "0.2833 lb/in3"), "weights");
    assert!((number(&steel["parts"][0]["each"]) - 40.8 * 0.25 * 16.0).abs() < 0.05, "{steel}");
    let centre: Vec<f64> = metric["parts"][0]["centre"].as_array().unwrap().iter().map(number).collect();
    assert_eq!(centre, [1250.0, 625.0, 0.4]);
}

/// Every gauge that was read of the table of 15 U.S.C. 206, whose iron weighs 480 lb/ft3, by the sheet of 4 × 8.
#[test]
fn sheets_weigh_what_the_statute_says() {
    let table: Value =
        serde_json::from_str(include_str!("../fixtures/published/sheet_weights.json")).unwrap();
    let density = format!("{:.7} lb/in3", number(&table["iron_density_lb_per_ft3"]) / 1728.0);
    let rows = table["rows"].as_array().unwrap();
    assert_eq!(rows.len(), 10);
    for row in rows {
        let sheet = answer(&plate("inch", [96.0, 48.0], number(&row["thickness_in"]), &density), "weights");
        let printed = number(&row["weight_lb_per_ft2"]) * 32.0;
        assert!((number(&sheet["parts"][0]["each"]) - printed).abs() < 0.01, "{row}: {sheet}");
    }
}

/// Sheets of the alloys that boats are made of, by the density that the program itself takes for each: against weights derived from
/// densities that were read, rounded to .001 lb/in3; and, as a second check, against what stockholders print to two decimals, from memory.
#[test]
fn sheets_of_each_alloy_weigh_what_is_printed_of_it() {
    let table: Value =
        serde_json::from_str(include_str!("../fixtures/published/sheet_weights.json")).unwrap();
    let rows = table["by_alloy"].as_array().unwrap();
    assert!(
        rows.iter().any(|row| row["how"] == "derived") && rows.iter().any(|row| row["how"] == "from memory")
    );
    for row in rows {
        let thickness = number(&row["thickness_in"]);
        let mut job = plate("inch", [96.0, 48.0], thickness, "1 g/cm3");
        let metal = job["metals"]["skin"].as_object_mut().unwrap();
        metal.remove("density");
        let temper = match row["alloy"].as_str().unwrap() {
            "6061" => "T6",
            "3003" => "H14",
            _ => "H32",
        };
        metal.insert("alloy".to_owned(), json!(format!("{}-{temper}", row["alloy"].as_str().unwrap())));
        let each = number(&answer(&job, "weights")["parts"][0]["each"]);
        let printed = number(&row["weight_lb_per_ft2"]);
        // Half the last digit of the density, and of the weight where it has two decimals.
        let slack = 144.0 * thickness * 0.0005 + if row["how"] == "derived" { 0.0005 } else { 0.005 };
        assert!((each / 32.0 - printed).abs() < slack, "{row}: {} lb/ft2", each / 32.0);
    }
}

/// An invented lid, own sum: 32.4 lb bare, 16.614 ft2 of 1.95 lb/ft2; with 4.6 lb of hardware in its middle, 481 in-lb about the hinge.
#[test]
fn the_litter_locker_lid_closes_with_481_inch_pounds() {
    let weights = answer(&locker(), "weights");
    let lid = &weights["lids"][0];
    assert!((number(&weights["parts"][0]["each"]) - 32.4).abs() < 0.05, "{weights}");
    assert!((number(&lid["closed_moment"]) - 481.0).abs() < 0.5, "{lid}");
    assert!((number(&lid["loads"][0]["out"]) - 13.0).abs() < 0.001);
    // Side CD is the other long side: the same by symmetry. A short side: 39 in from its hinge.
    let hinged = |side: &str| {
        let mut job = locker();
        job["weights"]["lids"][0]["hinge"] = json!(side);
        number(&answer(&job, "weights")["lids"][0]["loads"][0]["out"])
    };
    assert!((hinged("CD") - 13.0).abs() < 0.001);
    assert!((hinged("BC") - 39.0).abs() < 0.001);
    // A pin 1/2 behind the side and 2 up, level with the top: farther out, and the lid's weight below the pin.
    let mut job = locker();
    job["weights"]["lids"][0]["pin"] = json!(["1/2", "2"]);
    let load = answer(&job, "weights")["lids"][0]["loads"][0].clone();
    assert!((number(&load["out"]) - 13.5).abs() < 0.001 && number(&load["up"]) < -0.1, "{load}");
}

/// By hand, mid-thickness areas: top 78 × 26 at 1.9375 up, two skirts 78 × 2 and two 26 × 2 at their middle, about 1 up:
/// (2028 × 1.9375 + 416 × 1) / 2444 = 1.778. Bends and corners shift it by hundredths.
#[test]
fn the_centre_of_a_lid_lies_below_its_top() {
    let weights = answer(&locker(), "weights");
    let centre = weights["parts"][0]["centre"].as_array().unwrap();
    assert!((number(&centre[2]) - 1.778).abs() < 0.02, "{centre:?}");
    assert!((number(&centre[0]) - 39.0).abs() < 0.001 && (number(&centre[1]) - 13.0).abs() < 0.001);
}

#[test]
fn every_column_of_weights_adds_up() {
    for name in ["litter-locker", "oyster-skiff", "marina-gangway", "gig-lockers"] {
        let run = plateloft(&["weights", &format!("fixtures/jobs/{name}.json"), "--json"]);
        assert_eq!(run.code, 0, "{name}: {}", run.stderr);
        let weights: Value = serde_json::from_str(&run.stdout).unwrap();
        let sum = |list: &Value, field: &str| -> f64 {
            list.as_array().unwrap().iter().map(|row| number(&row[field])).sum()
        };
        assert!((sum(&weights["parts"], "all") - number(&weights["job_weight"])).abs() < 0.005, "{name}");
        for part in weights["parts"].as_array().unwrap() {
            let all = number(&part["each"]) * number(&part["quantity"]);
            assert!((all - number(&part["all"])).abs() < 0.005 + 1e-9, "{name}: {part}");
            // A centre of gravity lies within its box.
            for (centre, size) in
                part["centre"].as_array().unwrap().iter().zip(part["box"].as_array().unwrap())
            {
                assert!((0.0..=number(size) + 0.001).contains(&number(centre)), "{name}: {part}");
            }
        }
        for stations in weights["stations"].as_array().unwrap() {
            let whole = number(&stations["weight"]);
            assert!((sum(&stations["loads"], "weight") - whole).abs() < 0.002);
            assert!((sum(&stations["supports"], "carries") - whole).abs() < 0.002);
            let moment = sum(&stations["loads"], "moment");
            assert!((moment / whole - number(&stations["centre"])).abs() < 0.01, "{stations}");
        }
    }
}

#[test]
fn heavy_pieces_and_lifts_are_pointed_out_with_their_source() {
    let light = plateloft_on(&locker(), &["weights"]);
    assert!(light.stdout.contains("NIOSH") && light.stdout.contains("certifies nothing"), "{}", light.stdout);
    assert!(light.stdout.contains("CAUTION: above the limit"), "{}", light.stdout);
    assert!(light.stdout.lines().all(|line| line.chars().count() <= 100), "{}", light.stdout);
    let mut heavy = locker();
    heavy["weights"]["lids"][0]["hardware"][0]["weight"] = json!("20 lb");
    let above = answer(&heavy, "weights")["hand_lift"]["above"].clone();
    assert_eq!(above[0]["what"], "LL with its hardware");
    assert_eq!(above.as_array().unwrap().len(), 1);
}

#[test]
fn struts_are_balanced_over_the_swing() {
    let struts = answer(&locker(), "strut");
    let lid = &struts["lids"][0];
    let swing = lid["swing"].as_array().unwrap();
    assert_eq!(swing.len(), 7);
    for step in swing {
        // Redone from the printed numbers: lid = 2 × force × arm.
        let push = 2.0 * number(&step["each_must_push"]) * number(&step["arm"]);
        // Forces are printed to a tenth, so twice half a tenth by the arm.
        assert!((push - number(&step["lid"])).abs() < 0.05 + 0.1 * number(&step["arm"]), "{step}");
        // The law of cosines at the pin: ends 7.616 and 9.055 from it.
        let (fixed, on_lid) = (9.0_f64 + 49.0, 81.0_f64 + 1.0);
        let between = (7.0_f64 / 3.0).atan() + (1.0_f64 / 9.0).atan() + number(&step["open"]).to_radians();
        let length = (fixed + on_lid - 2.0 * (fixed * on_lid).sqrt() * between.cos()).sqrt();
        assert!((length - number(&step["length"])).abs() < 0.001, "{step}");
    }
    let at = lid["chosen"]["at"].as_array().unwrap();
    assert_eq!(at.len(), 2);
    let each = |at: &Value| number(&at["swing"][0]["each_pushes"]);
    // 55.7 and 68.9 lbf, each to a tenth.
    assert!((each(&at[1]) / each(&at[0]) - 313.15 / 253.15).abs() < 0.002);
    assert!(at.iter().all(|at| at["stays_open"] == true));
}

/// The columns of the printed table: number of struts × push of each × lever arm, and what is left over of it.
#[test]
fn the_push_of_all_struts_is_the_product_of_what_is_printed() {
    let mut redone = 0;
    for fixed in [["3", "-7"], ["2 13/16", "-6 5/8"], ["3 1/4", "-6 15/16"]] {
        let mut job = locker();
        let struts = &mut job["weights"]["lids"][0]["struts"];
        struts["fixed"] = json!(fixed);
        let run = plateloft_on(&job, &["strut"]);
        assert!(run.code <= 1, "{}", run.stderr);
        let rows = |over: &str| -> Vec<Vec<f64>> {
            let table = run.stdout.split(over).nth(1).unwrap().split('\n');
            let numbers = |line: &str| -> Vec<f64> {
                let words = line.replace(['°'], "").replace(" lbf", "");
                words.split_whitespace().filter_map(|word| word.parse().ok()).collect()
            };
            let rows = table
                .skip_while(|line| !line.starts_with(['-', ' ']))
                .skip_while(|line| !line.starts_with('-'));
            rows.skip(1).map(numbers).take_while(|row| row.len() == 5).collect()
        };
        let swing = rows("each must push\n");
        for at in ["at -4 °F  each", "at 104 °F  each"] {
            let table = rows(at);
            assert_eq!(table.len(), swing.len(), "{}", run.stdout);
            for (row, step) in table.iter().zip(&swing) {
                let push = 2.0 * row[1] * step[2];
                assert!((push - row[2]).abs() < 0.05 + 1e-6, "{row:?} {step:?}: {}", run.stdout);
                assert!(
                    (row[2] - row[3] - row[4]).abs() < 1e-6 && (row[3] - step[3]).abs() < 1e-9,
                    "{row:?}"
                );
                redone += 1;
            }
        }
    }
    assert!(30 < redone, "{redone}");
}

#[test]
fn a_strut_that_lets_the_lid_fall_is_a_no() {
    let mut weak = locker();
    weak["weights"]["lids"][0]["struts"]["maker"]["force"] = json!("4 lbf");
    let run = plateloft_on(&weak, &["strut"]);
    assert_eq!(run.code, 1, "{}", run.stdout);
    assert!(run.stderr.starts_with("no: LL does not stay open at -4 °F"), "{}", run.stderr);
    assert!(run.stdout.contains("FALLS") && run.stdout.contains("certifies nothing"), "{}", run.stdout);
}

#[test]
fn nothing_is_guessed_of_a_strut_that_is_not_chosen() {
    let mut open = locker();
    open["weights"]["lids"][0]["struts"].as_object_mut().unwrap().remove("maker");
    let run = plateloft_on(&open, &["strut"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    assert!(
        run.stdout.contains("No strut is chosen")
            && run.stdout.contains("At 104 °F, the hottest, gas")
            && !run.stdout.contains("left over"),
        "{}",
        run.stdout
    );
}

#[test]
fn the_plot_is_drawn_once_and_never_over_another_file() {
    let folder = tempdir().unwrap();
    fs::write(folder.path().join("job.json"), locker().to_string()).unwrap();
    let plot = || plateloft_in(folder.path(), &["strut", "job.json", "--plot", "plot.svg"]);
    assert_eq!(plot().code, 0);
    let svg = fs::read_to_string(folder.path().join("plot.svg")).unwrap();
    let document = roxmltree::Document::parse(&svg).unwrap();
    let texts: Vec<&str> = document.descendants().filter_map(|node| node.text()).map(str::trim).collect();
    for name in ["lid closes with", "struts at -4 °F", "struts at 104 °F", "lid open, degrees"] {
        assert!(texts.contains(&name), "{name}: {texts:?}");
    }
    let again = plot();
    assert_eq!((again.code, again.stdout.as_str()), (2, ""));
}

#[test]
fn a_hinge_on_no_side_and_a_job_without_struts_are_refused() {
    let mut job = locker();
    job["weights"]["lids"][0]["hinge"] = json!("AX");
    let wrong = plateloft_on(&job, &["weights"]);
    assert_eq!(wrong.code, 2);
    assert!(
        wrong.stderr.starts_with("job.json: weights.lids[0].hinge: AX: LL has no side"),
        "{}",
        wrong.stderr
    );
    let mut none = locker();
    none.as_object_mut().unwrap().remove("weights");
    let wrong = plateloft_on(&none, &["strut"]);
    assert_eq!((wrong.code, wrong.stdout.as_str()), (2, ""));
    assert!(wrong.stderr.contains("no lid has struts"), "{}", wrong.stderr);
    assert_eq!(plateloft_on(&none, &["weights"]).code, 0);
}

/// The front page says who lifts what is heavy, by which limit, and what of the soft goods nobody has weighed.
#[test]
fn heavy_sheets_say_what_each_pair_of_hands_bears() {
    let job = |thickness: f64| {
        let mut job = plate("inch", [48.0, 96.0], thickness, "0.097 lb/in3");
        job["sheets"][0]["size"] = json!([50, 100]);
        plateloft_on(&job, &["weights"]).stdout.replace('\n', " ")
    };
    // By hand: 50 × 100 × T × .097 = 485·T lb. T .125 is 60.63, of two 30.31 each; two together lift 4/3 of 50.71 = 67.61,
    // three 3/2 of it = 76.06.
    let two = job(0.125);
    assert!(two.contains("at 60.63 lb: two people, 30.31 lb each"), "{two}");
    assert!(two.contains("67.61 lb") && two.contains("L23: from memory") && two.contains("94-110"), "{two}");
    // T .150 is 72.75: 36.38 and 24.25.
    let three = job(0.15);
    assert!(
        three.contains("heavy for two, 36.38 lb each: a third hand, 24.25 lb each, or a hoist"),
        "{three}"
    );
    // T .190 is 92.15: 46.08 and 30.72.
    let hoist = job(0.19);
    assert!(
        hoist.contains("heavy for two, 46.08 lb each, and for three, 30.72 lb each: a hoist with"),
        "{hoist}"
    );
}

#[test]
fn soft_goods_without_a_weight_are_named_where_lifts_are_judged() {
    let mut job = plate("inch", [20.0, 20.0], 0.125, "0.097 lb/in3");
    job["liners"] = json!([{
        "liner": "UHMW-PE 3/8", "sheet": ["48", "96"], "price": 155,
        "kerf": "1/8",
        "expansion": { "per_degree_c": 0.00018, "source": "invented", "laid_at": "68 F", "coldest": "10 F", "warmest": "110 F" },
        "areas": [{ "mark": "W1", "size": ["40", "20"] }]
    }]);
    let run = plateloft_on(&job, &["weights"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let told = run.stdout.replace('\n', " ");
    assert!(told.contains("Not weighed, so not looked at for lifting: sheets of UHMW-PE 3/8."), "{told}");
    job["liners"][0]["weight"] = json!("1.85 lb/ft2");
    let told = plateloft_on(&job, &["weights"]).stdout.replace('\n', " ");
    // 32 ft2 × 1.85 = 59.20 lb.
    assert!(
        !told.contains("Not weighed") && told.contains("a whole sheet of UHMW-PE 3/8, 96 × 48, at 59.20 lb"),
        "{told}"
    );
}

/// A rectangular lid of 30 × 24 clear, its rim 7/8 out all round.
fn hatch(made: &str, opening: [&str; 3], rise_inset: [&str; 2]) -> Value {
    let [long, wide, across] = opening;
    json!({
        "plateloft": 1, "job": "Hatch", "units": "inch", "tape": "1/16", "shop": { "gap": "1/4", "edge_trim": "1/2" },
        "metals": { "skin": { "alloy": "5052-H32", "thickness": ".125", "inside_radius": ".125", "k_factor": 0.42 } },
        "sheets": [{ "metal": "skin", "size": ["60", "120"] }],
        "openings": { "hatch": { "AB": long, "BC": wide, "CD": long, "DA": wide, "AC": across, "corners_run": "counter-clockwise" } },
        "parts": [{ "mark": "L1", "shape": "tapered_lid", "metal": "skin", "over": "hatch", "outset": "7/8",
                    "rise": rise_inset[0], "inset": rise_inset[1], "skirt": "1 1/8", "made": made }],
        "weights": { "lids": [{ "part": "L1", "hinge": "AB", "pin": ["1/4", "0"], "opens": "80", "handle": "25" }] }
    })
}

/// Pieces below the ceiling of one person, put together above it: told of the whole and of the assembly, in the answer, on the
/// first page of the packet and on the page of the whole.
#[test]
fn what_is_put_together_is_judged_as_one_lift() {
    let mut job = hatch("plates", ["75", "60", "96"], ["6", "12"]);
    job["weights"] = json!({ "assemblies": [{ "name": "lid tacked", "loads": [
        { "part": "L1-top", "at": ["0", "0", "0"] }, { "part": "L1-AB", "at": ["0", "0", "0"] },
        { "item": "engine box", "weight": "80 lb", "at": ["0", "0", "0"] }] }] });
    let told = answer(&job, "weights");
    let each = told["parts"].as_array().unwrap().iter().map(|part| number(&part["each"]));
    assert!(each.clone().all(|each| each < 50.71), "a piece alone is above the ceiling: {told}");
    let above = told["hand_lift"]["above"].as_array().unwrap();
    let of = |start: &str| {
        let found = above.iter().find(|one| one["what"].as_str().unwrap().starts_with(start));
        number(&found.unwrap_or_else(|| panic!("{start}: {above:?}"))["weight"])
    };
    assert!((of("L1, ") - each.sum::<f64>()).abs() < 0.001);
    let pieces = ["L1-top", "L1-AB"].map(|mark| {
        let parts = told["parts"].as_array().unwrap();
        number(&parts.iter().find(|part| part["mark"] == mark).unwrap()["each"])
    });
    assert!((of("lid tacked") - pieces.iter().sum::<f64>() - 80.0).abs() < 0.001);
    let packet = packet_of_job(&job, &[]);
    let page = std::str::from_utf8(&packet["index.html"]).unwrap();
    let cautions = page.split("Above the 50.71 lb").nth(1).expect("no caution");
    let cautions = cautions.split("Two who lift").next().unwrap();
    assert!(
        cautions.contains("L1, all its pieces") && cautions.contains("lid tacked, put together"),
        "{cautions}"
    );
    // The drawings of both wholes say so.
    assert!(2 <= page.matches("CAUTION, too heavy for one person").count());
    let mut light = hatch("plates", ["30", "24", "38 7/16"], ["2", "3"]);
    light["weights"] = json!({});
    assert_eq!(answer(&light, "weights")["hand_lift"]["above"], json!([]));
}

/// A lid of a rectangle balances over its middle, however it is made: half of 24 + 2 × 7/8, and 1/4 to the pin.
#[test]
fn a_lid_of_pieces_is_hinged_by_the_mark_of_the_whole() {
    let lid = |made: &str| {
        let told = answer(&hatch(made, ["30", "24", "38 7/16"], ["2", "3"]), "weights");
        (told["lids"][0].clone(), told["wholes"][0].clone())
    };
    let (whole, _) = lid("one_piece");
    for made in ["plates", "top_and_ring"] {
        let (lid, of_pieces) = lid(made);
        let load = &lid["loads"][0];
        assert_eq!(load["what"], "L1, bare");
        assert!((number(&load["weight"]) - number(&of_pieces["all"])).abs() < 0.001, "{made}: {lid}");
        assert!((number(&load["out"]) - (12.875 + 0.25)).abs() < 0.01, "{made}: {load}");
        // Bent or welded at the same edges, a lid weighs and stands nearly the same.
        for field in ["weight", "out", "up"] {
            let [one, other] = [load, &whole["loads"][0]].map(|load| number(&load[field]));
            assert!((one - other).abs() < 0.02 * other.abs() + 0.03, "{made}: {field}: {one}, not {other}");
        }
        let sizes: Vec<f64> = of_pieces["box"].as_array().unwrap().iter().map(number).collect();
        let centre: Vec<f64> = of_pieces["centre"].as_array().unwrap().iter().map(number).collect();
        assert!((sizes[0] - 31.75).abs() < 0.03 && (sizes[1] - 25.75).abs() < 0.03, "{made}: {sizes:?}");
        assert!((sizes[2] - 3.125).abs() < 0.03, "{made}: {sizes:?}");
        for axis in 0..2 {
            assert!((centre[axis] - 0.5 * sizes[axis]).abs() < 0.01, "{made}: {centre:?} of {sizes:?}");
        }
    }
    let mut wrong = hatch("plates", ["30", "24", "38 7/16"], ["2", "3"]);
    wrong["weights"]["lids"][0]["hinge"] = json!("AC");
    let run = plateloft_on(&wrong, &["weights"]);
    assert_eq!(run.code, 2);
    assert!(run.stderr.contains("weights.lids[0].hinge: AC: L1 has no side of this name"), "{}", run.stderr);
}

/// A whole of pieces is lifted, and put together with other things, by the mark that the job gave it: it weighs and balances as
/// under the wholes, and turned about z by a quarter its box and its centre turn with it.
#[test]
fn a_whole_of_pieces_is_lifted_and_put_together_by_its_mark() {
    for made in ["plates", "top_and_ring"] {
        let mut job = hatch(made, ["30", "24", "38 7/16"], ["2", "3"]);
        let at = json!(["10", "20", "5"]);
        job["weights"] = json!({
            "assemblies": [
                { "name": "as it lies", "loads": [{ "part": "L1", "at": at }] },
                { "name": "turned", "loads": [{ "part": "L1", "at": at, "turned_about": ["z"] }] },
            ],
            "lifts": [{ "part": "L1", "reach": "15", "from": "20", "to": "50", "grip": "fair" }],
        });
        let told = answer(&job, "weights");
        let whole = &told["wholes"][0];
        let sizes = |value: &Value| -> Vec<f64> { value.as_array().unwrap().iter().map(number).collect() };
        let (size, centre) = (sizes(&whole["box"]), sizes(&whole["centre"]));
        let turned = [size[1] - centre[1], centre[0], centre[2]];
        for (assembly, own) in told["assemblies"].as_array().unwrap().iter().zip([&centre[..], &turned]) {
            assert_eq!(assembly["loads"][0]["what"], "L1");
            assert!(
                (number(&assembly["weight"]) - number(&whole["all"])).abs() < 0.001,
                "{made}: {assembly}"
            );
            for (found, expected) in sizes(&assembly["centre"])
                .iter()
                .zip([10.0, 20.0, 5.0])
                .zip(own)
                .map(|((found, corner), own)| (*found, corner + own))
            {
                assert!((found - expected).abs() < 0.001, "{made}: {found}, not {expected}: {assembly}");
            }
        }
        let lift = &told["hand_lift"]["lifts"][0];
        assert_eq!(lift["part"], "L1");
        assert!((number(&lift["weight"]) - number(&whole["all"])).abs() < 0.001, "{made}: {lift}");
        let text = plateloft_on(&job, &["weights"]);
        assert!(text.stdout.contains("L1, lifted as the job says:"), "{}", text.stdout);
        // Every piece of it is in the picture of the assembly.
        let packet = packet_of_job(&job, &[]);
        let page = std::str::from_utf8(&packet["index.html"]).unwrap();
        let pieces = told["parts"].as_array().unwrap().iter().map(|part| part["mark"].as_str().unwrap());
        for mark in pieces {
            assert!(page.contains(mark), "{made}: {mark}");
        }
        assert!(page.contains("as it lies"), "{made}: no picture of the assembly");
    }
}

/// A plate hinged at one side with struts, its lengths in inches or in millimetres.
fn hinged(unit: &str) -> Value {
    let length = |inches: f64| {
        if unit == "mm" { json!(format!("{:.2}", inches * 25.4)) } else { json!(format!("{inches}")) }
    };
    let pair = |a: f64, b: f64| json!([length(a), length(b)]);
    json!({
        "plateloft": 1, "job": "Hinged plate", "units": unit, "tape": if unit == "mm" { "0.01" } else { ".001" },
        "shop": { "gap": length(0.25), "edge_trim": length(0.5) },
        "metals": { "skin": { "alloy": "5052-H32", "thickness": length(0.25), "weight": "3.5 lb/ft2" } },
        "parts": [{ "mark": "H", "shape": "plate", "metal": "skin", "size": pair(60.0, 30.0) }],
        "weights": {
            "lids": [{
                "part": "H", "hinge": "AB", "pin": pair(0.0, 0.0), "opens": 80,
                "struts": {
                    "count": 2, "fixed": pair(3.0, -7.0), "on_lid": pair(9.0, 1.0), "temperatures": ["-20 C", "40 C"],
                    "margin": 10,
                    "maker": { "name": "invented strut", "force": "80 lbf", "ratio": 1.3, "compressed": length(9.0),
                               "extended": length(17.0), "temperatures": ["-30 C", "80 C"] }
                }
            }],
            "stations": [{
                "name": "Trailer", "datum": "coupling",
                "loads": [{ "part": "H", "at": length(180.0) }, { "item": "hull", "weight": "640 lb", "at": length(168.0) }]
            }]
        }
    })
}

/// Every number of a line, the unit and the words left out.
fn numbers_of(line: &str) -> Vec<f64> {
    line.split(|letter: char| !(letter.is_ascii_digit() || letter == '.' || letter == '-'))
        .filter_map(|word| word.parse().ok())
        .collect()
}

/// What stands beside a printed moment makes that moment, in either unit; and both units tell of the same lid.
#[test]
fn moments_and_forces_can_be_redone_from_what_is_printed_in_either_unit() {
    let mut pushes = Vec::new();
    let mut carried = Vec::new();
    for unit in ["inch", "mm"] {
        let (thousand, gravity) = if unit == "mm" { (1000.0, 9.80665) } else { (1.0, 1.0) };
        let job = hinged(unit);
        let run = plateloft_on(&job, &["strut"]);
        assert!(run.code <= 1, "{}", run.stderr);
        let said = run.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
        let line = said.split("hardest at").nth(1).unwrap().split("gas at").next().unwrap();
        let sum = numbers_of(line);
        let (moment, struts, arm, push) = match (unit, &sum[1..]) {
            ("mm", &[moment, by, struts, arm, push]) => {
                assert!((by - thousand).abs() < 1e-9, "{line}");
                (moment, struts, arm, push)
            }
            ("inch", &[moment, struts, arm, push]) => (moment, struts, arm, push),
            other => panic!("{other:?}: {line}"),
        };
        assert!((moment * thousand / (struts * arm) - push).abs() < 0.11, "{line}");
        pushes.push(if unit == "mm" { push / 4.448_221_615_260_5 } else { push });
        let factor = if unit == "mm" { " × 1000" } else { "" };
        assert!(said.contains(&format!("each must push = lid{factor} / (struts × arm)")), "{said}");

        let weights = plateloft_on(&job, &["weights"]).stdout;
        let formula = if unit == "mm" { "weight × 9.80665 × station / 1000" } else { "weight × station" };
        assert!(weights.contains(&format!("moment = {formula};")), "{weights}");
        let answer = answer(&job, "weights");
        for (loads, arm, total) in [
            (&answer["lids"][0]["loads"], "out", &answer["lids"][0]["closed_moment"]),
            (&answer["stations"][0]["loads"], "station", &Value::Null),
        ] {
            for load in loads.as_array().unwrap() {
                let moment = number(&load["weight"]) * gravity * number(&load[arm]) / thousand;
                assert!((moment - number(&load["moment"])).abs() < 0.051, "{unit} {moment}: {load}");
            }
            assert!(total.is_null() || number(total) > 0.0);
        }
        let moments = answer["stations"][0]["loads"].as_array().unwrap().iter();
        let sum: f64 = moments.map(|load| number(&load["moment"])).sum();
        carried.push(if unit == "mm" { sum / 0.112_984_829_027_616_7 } else { sum });
    }
    assert!((pushes[0] - pushes[1]).abs() < 0.2, "{pushes:?}");
    // Printed weights differ by half a hundredth of a kilogram at most: .011 lb at 180 in, twice.
    assert!((carried[0] - carried[1]).abs() < 5.0, "{carried:?}");
}
