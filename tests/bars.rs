//! Bars cut from sticks: the program's own words, and lengths no stick holds.
#![expect(clippy::disallowed_methods, reason = "a test that needs a job of its own writes it")]

use serde_json::{Value, json};
use tempfile::tempdir;

use crate::program::{packet_of, plateloft, plateloft_in};

#[test]
fn the_step_and_its_posts_are_cut_at_least_cost_from_the_rack_first() {
    let run = plateloft(&["bars", "fixtures/shapes/step.json", "--json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let answer: Value = serde_json::from_str(&run.stdout).unwrap();
    let bar = &answer["bars"][0];
    let pieces = bar["pieces"].as_array().unwrap();
    // Rolled pipe of the step: 30 and 16 with half of 1.900 outside each, tails of 1 1/2, two quarter bends of 6:
    // legs 18.45 + 31.9 + 18.45, less 2 x (2 x 6 - 3 pi) at the corners.
    let pipe = pieces.iter().find(|piece| piece["mark"] == "SS pipe").unwrap();
    let expected = 18.45 + 31.9 + 18.45 - 2.0 * (12.0 - 3.0 * std::f64::consts::PI);
    assert!((pipe["length"].as_f64().unwrap() - expected).abs() < 0.001, "{pipe}");
    // Every piece is cut as often as it is needed, and every stick holds what is cut from it.
    let sticks = bar["sticks"].as_array().unwrap();
    for piece in pieces {
        let cut = sticks.iter().flat_map(|stick| stick["pieces"].as_array().unwrap());
        assert_eq!(
            cut.filter(|mark| **mark == piece["mark"]).count() as u64,
            piece["quantity"].as_u64().unwrap()
        );
    }
    let length = |mark: &Value| {
        pieces.iter().find(|piece| piece["mark"] == *mark).unwrap()["length"].as_f64().unwrap()
    };
    for stick in sticks {
        let marks = stick["pieces"].as_array().unwrap();
        let used: f64 = marks.iter().map(length).sum::<f64>() + 0.0625 * (marks.len() as f64 - 1.0) + 0.25;
        assert!(used <= stick["length"].as_f64().unwrap() + 0.001, "{stick}");
    }
    assert_eq!(bar["proved_least"], json!(true));
    assert_eq!(bar["cost"], bar["least_possible"]);
    assert!(sticks.iter().any(|stick| stick["on_rack"] == json!(true)), "the rack costs nothing");
    let packet = packet_of("fixtures/shapes/step.json", &[]);
    let page = std::str::from_utf8(&packet["index.html"]).unwrap();
    let chapter = page.split("<h2>Bars</h2>").nth(1).unwrap().split("</section>").next().unwrap();
    for origin in
        ["title=\"1: pieces of ", "title=\"1: sticks of ", "title=\"1: the stick, less its end trim"]
    {
        assert!(chapter.contains(origin), "{origin}: {chapter}");
    }
    let text = plateloft(&["bars", "fixtures/shapes/step.json"]).stdout;
    assert!(text.contains("proved least") && text.contains("from the rack"), "{text}");
}

#[test]
fn a_piece_longer_than_every_stick_is_refused() {
    let folder = tempdir().unwrap();
    let job = json!({
        "plateloft": 1, "job": "Rail", "units": "inch", "tape": "1/16", "shop": { "gap": 0, "edge_trim": 0 },
        "metals": { "skin": { "alloy": "5052-H32", "thickness": ".125", "inside_radius": ".125", "k_factor": 0.42 } },
        "parts": [{ "mark": "P", "shape": "plate", "metal": "skin", "size": ["20", "20"] }],
        "bars": [{ "bar": "angle", "kerf": "1/8", "sticks": [{ "length": "60" }], "pieces": [{ "mark": "A", "length": "61" }] }]
    });
    std::fs::write(folder.path().join("job.json"), job.to_string()).unwrap();
    let run = plateloft_in(folder.path(), &["bars", "job.json"]);
    assert_eq!(run.code, 2);
    assert!(run.stdout.is_empty());
    assert!(run.stderr.contains("bars[0]: angle: A of 61 is longer than any stick"), "{}", run.stderr);
}
