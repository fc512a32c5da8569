//! How sheets are cut up, as the program says it.

use serde_json::Value;

use crate::program::plateloft;

fn cuts(job: &str) -> Vec<Vec<String>> {
    let run = plateloft(&["nest", job, "--json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let answer: Value = serde_json::from_str(&run.stdout).unwrap();
    let metals = answer["metals"].as_array().unwrap().iter();
    let sheets = metals.flat_map(|metal| metal["sheets"].as_array().unwrap());
    let words = |sheet: &Value| -> Vec<String> {
        sheet["cuts"].as_array().unwrap().iter().map(|cut| cut.as_str().unwrap().to_owned()).collect()
    };
    sheets.map(words).collect()
}

#[test]
fn the_truck_is_sheared_in_rounds_from_trimmed_sheets() {
    for sheet in cuts("fixtures/jobs/call-out-truck.json") {
        assert_eq!(sheet[0], "trim 10.0 off all four edges");
        assert!(sheet[1].starts_with("round 1: straight cut at "), "{sheet:?}");
        assert_eq!(sheet.last().unwrap(), "cut each part from its blank");
        // The job's shear is worked in four rounds at most.
        assert!(sheet.iter().all(|cut| !cut.starts_with("round 5")), "{sheet:?}");
    }
}

#[test]
fn the_rescue_skiff_is_cut_by_hand_along_a_guide_each_piece_once() {
    let sheets = cuts("fixtures/jobs/rescue-skiff.json");
    let mut outlines = 0;
    for sheet in &sheets {
        for cut in sheet.iter().filter(|cut| cut.starts_with("straight cut")) {
            assert!(cut.contains("clamp the guide at "), "{cut}");
        }
        outlines += sheet.iter().filter(|cut| cut.starts_with("the outline of ")).count();
    }
    // Deck pieces, boxes, chase and lids of the job: what the flats command lists.
    let flats = plateloft(&["flats", "fixtures/jobs/rescue-skiff.json", "--json"]);
    let answer: Value = serde_json::from_str(&flats.stdout).unwrap();
    let parts = answer["parts"].as_array().unwrap();
    let pieces: u64 = parts.iter().map(|part| part["quantity"].as_u64().unwrap()).sum();
    assert_eq!(u64::try_from(outlines).unwrap(), pieces);
}
