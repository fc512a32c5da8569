//! Options of a job: priced to the cent as the jobs that they come to, and refused where they contradict.

use serde_json::{Value, json};

use crate::program::plateloft_on;
use crate::quote::{hatch, quote};

/// The four kinds of options of the hatch in one job.
fn hatch_with_options() -> Value {
    let mut job = hatch();
    let sheet = |price: i64| json!([{ "metal": "skin", "size": ["48", "96"], "price": price }]);
    job["options"] = json!([
        { "name": "plain", "instead": { "metals": { "skin": { "pattern": "plain" } }, "sheets": sheet(340) } },
        { "name": "thinner", "instead": {
            "metals": { "skin": { "thickness": ".090", "weight": "1.5 lb/ft2" } }, "sheets": sheet(300) } },
        { "name": "flush over a gutter",
          "instead": { "parts": { "L": { "skirt": "1" } },
                       "quote": { "welds_between": [{ "what": "mitres", "joint": "butt", "length": "4 1/4", "count": 4 }] } },
          "add": [{ "mark": "G", "shape": "gutter", "metal": "skin", "opening": "well", "width": "1 3/4", "depth": "1 1/4" }] },
        { "name": "kit", "as_kit": true }
    ]);
    job
}

/// Every option is priced to the cent as the job file that it comes to, written out by hand.
#[test]
fn options_stand_side_by_side_and_cost_what_jobs_of_their_own_cost() {
    let run = plateloft_on(&hatch_with_options(), &["quote", "--json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let answer: Value = serde_json::from_str(&run.stdout).unwrap();
    let quotes = answer["quotes"].as_array().unwrap();
    assert_eq!(quotes.len(), 5);
    let mut plain = hatch();
    plain["metals"]["skin"]["pattern"] = json!("plain");
    plain["sheets"][0]["price"] = json!(340);
    for (number, alone) in [hatch(), plain].iter().enumerate() {
        let alone = quote(alone);
        assert_eq!(alone["lines"], quotes[number]["lines"]);
        assert_eq!(alone["total"], quotes[number]["total"]);
    }
    let kit = plateloft_on(&hatch(), &["quote", "--kit", "--json"]);
    let kit: Value = serde_json::from_str(&kit.stdout).unwrap();
    assert_eq!(kit["quotes"][1]["total"], quotes[4]["total"]);
    assert_eq!(quotes[1]["differences"][0], "metals.skin.pattern plain instead of tread");
    let text = plateloft_on(&hatch_with_options(), &["quote", "--side-by-side"]).stdout;
    assert!(text.starts_with("Side by side\nA  "), "{text}");
    let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for told in [
        "D flush over a gutter",
        "with G, gutter",
        "L.skirt 1 instead of 1 1/2",
        "B costs ",
        " less than A",
        "hours, maker",
        "sheets bought",
    ] {
        assert!(words.contains(told), "{told}: {text}");
    }
    let cents = |words: &str| words.replace('.', "").parse::<i64>().unwrap();
    let total = text.lines().find(|line| line.starts_with("total")).unwrap();
    let totals: Vec<i64> = total.split_whitespace().skip(1).map(cents).collect();
    let expected: Vec<i64> = quotes.iter().map(|quote| quote["total"].as_i64().unwrap()).collect();
    assert_eq!(totals, expected);
    // The difference in words is the difference of the two columns.
    let said = text.lines().find(|line| line.starts_with("B costs ")).unwrap();
    assert_eq!(cents(said.split_whitespace().nth(2).unwrap()), totals[0] - totals[1]);
}

#[test]
fn options_that_contradict_are_refused() {
    let refused = |options: Value, told: &str| {
        let mut job = hatch();
        job["options"] = options;
        for command in ["quote", "check"] {
            let run = plateloft_on(&job, &[command]);
            assert_eq!(run.code, 2, "{told}: {}", run.stdout);
            assert!(run.stderr.contains(told), "{told}: {}", run.stderr);
        }
    };
    refused(
        json!([{ "name": "a", "instead": { "parts": { "L": { "skirt": "2" } } }, "leave_out": ["L"] }]),
        "options[0].instead.parts.L: is changed and left out at once",
    );
    refused(
        json!([{ "name": "a", "leave_out": ["LL"] }]),
        "options[0].leave_out: LL: the job has no part of this mark",
    );
    refused(
        json!([{ "name": "a", "instead": { "parts": { "M": { "skirt": "2" } } } }]),
        "options[0].instead.parts: M: the job has no part",
    );
    refused(
        json!([{ "name": "a", "instead": { "parts": { "L": { "skirt": "1 1/2" } } } }]),
        "nothing in it differs",
    );
    // The same in another writing is the same.
    let metal = json!({ "skin": { "thickness": "1/8" } });
    let written = json!({ "parts": { "L": { "skirt": 1.5 } }, "metals": metal });
    refused(json!([{ "name": "a", "instead": written }]), "options[0]: a: nothing in it differs");
    refused(
        json!([{ "name": "a", "instead": { "units": "mm" } }]),
        "all options of a job have this in common",
    );
    refused(
        json!([{ "name": "a", "instead": { "metals": { "skin": { "thickness": ".09" } } } }]),
        "options[0].instead.metals.skin.thickness: the sheets of this metal keep the price of another",
    );
    let skirt = |name: &str, skirt: &str| json!({ "name": name, "instead": { "parts": { "L": { "skirt": skirt } } } });
    refused(json!([skirt("a", "2"), skirt("a", "1")]), "options[1].name: a: is the name of another option");
    refused(json!([skirt("a", "2"), skirt("b", "2")]), "options[1]: b: comes to the same job as \"a\"");
    refused(json!([skirt("a", "2"), skirt("b", "2.0")]), "options[1]: b: comes to the same job as \"a\"");
    refused(json!([{ "name": "a", "instead": { "parts": [] } }]), "must name parts by their marks");
    // What only shows when the option is read as a job names the option.
    let mut job = hatch();
    job["options"] = json!([skirt("deep", "-2")]);
    let run = plateloft_on(&job, &["quote"]);
    assert_eq!(run.code, 2);
    assert!(run.stderr.contains("option \"deep\" of job.json: L: skirt: -2"), "{}", run.stderr);
    let run = plateloft_on(&hatch(), &["quote", "--side-by-side"]);
    assert_eq!(run.code, 2);
    assert!(run.stderr.contains("there is only one"), "{}", run.stderr);
}
