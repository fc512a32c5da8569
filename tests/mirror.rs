//! Parts that may be cut from the other face of the sheet, from the job file to the label.
#![expect(clippy::disallowed_methods, reason = "a test of a program that writes files reads them")]

use std::fs;

use serde_json::Value;
use tempfile::tempdir;

use crate::program::{plateloft_in, top};

fn job() -> String {
    fs::read_to_string(top().join("fixtures/shapes/turned-over.json")).unwrap()
}

fn sheets(answer: &Value) -> &Vec<Value> {
    answer["metals"][0]["sheets"].as_array().unwrap()
}

fn nested(job: &str) -> Value {
    let folder = tempdir().unwrap();
    fs::write(folder.path().join("job.json"), job).unwrap();
    let run = plateloft_in(folder.path(), &["nest", "job.json", "--json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    serde_json::from_str(&run.stdout).unwrap()
}

/// P slants the other way than Q at either of its turns: one sheet holds both only with P turned over. Its corners are
/// worked out here from what the answer says, and lie beside Q's.
#[test]
fn a_plate_is_turned_over_where_that_saves_a_sheet() {
    let never = nested(&job().replace("\"mirror\": \"allowed\",", ""));
    assert_eq!(sheets(&never).len(), 2);
    let none_over = |sheet: &Value| {
        sheet["pieces"].as_array().unwrap().iter().all(|piece| piece["turned_over"] == Value::Bool(false))
    };
    assert!(sheets(&never).iter().all(none_over));
    let answer = nested(&job());
    assert_eq!(sheets(&answer).len(), 1);
    let pieces = sheets(&answer)[0]["pieces"].as_array().unwrap();
    let corners = |mark: &str, own: [[f64; 2]; 4]| {
        let piece = pieces.iter().find(|piece| piece["mark"] == mark).unwrap();
        let at = |axis: usize| piece["datum"][axis].as_f64().unwrap();
        let over = piece["turned_over"].as_bool().unwrap();
        let half = match piece["turn"].as_f64().unwrap() {
            turn if turn < 1.0 => 1.0,
            turn => {
                assert!((turn - 180.0).abs() < 1e-9, "{turn}");
                -1.0
            }
        };
        let placed = own.map(|[x, y]| [at(0) + half * x, at(1) + half * if over { -y } else { y }]);
        (over, placed)
    };
    let (p_over, p) = corners("P", [[0.0, 0.0], [30.0, 0.0], [20.0, 10.0], [0.0, 10.0]]);
    let (q_over, q) = corners("Q", [[0.0, 0.0], [20.0, 0.0], [30.0, 10.0], [0.0, 10.0]]);
    assert!(p_over && !q_over);
    for [x, y] in p.into_iter().chain(q) {
        assert!((0.249..=50.751).contains(&x) && (0.249..=10.376).contains(&y), "{x}, {y}");
    }
    // Slants run the same way: x less y at the slant of one, and of the other, a gap apart square to it.
    let slant = |corners: [[f64; 2]; 4]| (corners[1], corners[2]);
    let ((a, b), (c, d)) = (slant(p), slant(q));
    let way = |[x, y]: [f64; 2], [to_x, to_y]: [f64; 2]| (to_x - x) / (to_y - y);
    assert!((way(a, b) - way(c, d)).abs() < 1e-6, "the slants are not alongside one another");
    let off = |[x, y]: [f64; 2], by: f64| x - by * y;
    let by = way(a, b);
    let apart = (off(a, by) - off(c, by)).abs() / (1.0 + by * by).sqrt();
    assert!(0.2499 < apart, "{apart}");
}

/// Whoever scribes, cuts and sorts the parts is told: on the map, in the order of cuts and on the label.
#[test]
fn a_plate_turned_over_is_said_to_be_so_on_all_paper() {
    let folder = tempdir().unwrap();
    fs::write(folder.path().join("job.json"), job()).unwrap();
    let run = plateloft_in(folder.path(), &["packet", "job.json", "--out", "packet"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let page = fs::read_to_string(folder.path().join("packet/index.html")).unwrap();
    for words in [
        "P: marked face down; turn it when it is cut",
        "it lies TURNED OVER, its marked face down",
        "cut TURNED OVER: this face was down on the sheet",
    ] {
        assert!(page.contains(words), "{words}");
    }
    let map = fs::read_to_string(folder.path().join("packet/sheets/skin-1.svg")).unwrap();
    assert!(map.contains("P, turned over"));
}
