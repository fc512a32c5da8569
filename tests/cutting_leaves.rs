//! Orders of cuts on paper: on the map where there is room, else on the leaf behind it.

use std::collections::BTreeMap;

use crate::program::packet_of;
use crate::written::{Seen, pdf};

fn leaves(packet: &BTreeMap<String, Vec<u8>>) -> Vec<Seen> {
    pdf::leaves(&packet["packet.pdf"])
}

fn has(leaf: &Seen, words: &str) -> bool {
    leaf.texts.iter().any(|text| text.words == words)
}

/// Every step of every sheet is on paper: on the sheet's map, or on the leaf directly behind its maps.
#[test]
fn orders_of_cuts_stand_on_their_maps_or_behind_them() {
    let mut behind = 0;
    for job in
        ["oyster-skiff", "call-out-truck", "work-barge", "marina-gangway", "rescue-skiff", "gig-lockers"]
    {
        let packet = packet_of(&format!("fixtures/jobs/{job}.json"), &[]);
        let leaves = leaves(&packet);
        let nest: serde_json::Value = serde_json::from_slice(&packet["nest.json"]).unwrap();
        let sheets = nest["metals"].as_array().unwrap().iter();
        let sheets: Vec<usize> = sheets
            .flat_map(|metal| metal["sheets"].as_array().unwrap())
            .map(|sheet| sheet["cuts"].as_array().unwrap().len())
            .collect();
        let mut map = None;
        let mut on_paper: Vec<usize> = Vec::new();
        for leaf in &leaves {
            let is_order = leaf.name.starts_with("Order of cuts: ");
            if let Some(name) = leaf.name.strip_prefix("Sheet: ") {
                let is_stretch = map.is_some_and(|sheet: &str| name.starts_with(sheet));
                if !is_stretch {
                    map = Some(name);
                    on_paper.push(0);
                }
            } else if is_order {
                let of = leaf.name["Order of cuts: ".len()..]
                    .trim_end_matches(|end: char| " ()0123456789".contains(end));
                assert!(
                    map.is_some_and(|sheet| sheet.starts_with(of)),
                    "{job}: {} behind {map:?}",
                    leaf.name
                );
                behind += 1;
            } else {
                map = None;
            }
            if is_order || has(leaf, "Order of cuts") {
                let is_number =
                    |words: &str| words.strip_suffix('.').is_some_and(|n| n.parse::<u32>().is_ok());
                let steps = leaf.texts.iter().filter(|text| is_number(&text.words)).count();
                *on_paper.last_mut().unwrap() += steps;
            }
        }
        assert_eq!(on_paper, sheets, "{job}: steps of every sheet on paper");
    }
    assert!(0 < behind);
}
