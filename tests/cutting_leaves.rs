//! Orders of cuts on paper: on the map where there is room, else one below the other.

use std::collections::BTreeMap;

use crate::program::packet_of;
use crate::written::{Seen, pdf};

fn leaves(packet: &BTreeMap<String, Vec<u8>>) -> Vec<Seen> {
    pdf::leaves(&packet["packet.pdf"])
}

fn has(leaf: &Seen, words: &str) -> bool {
    leaf.texts.iter().any(|text| text.words == words)
}

/// Every step of every sheet is on paper, and a leaf with an order of cuts has a map on it or more than one order, unless the
/// job has but one such order.
#[test]
fn orders_of_cuts_stand_on_their_maps_or_together() {
    for job in
        ["oyster-skiff", "call-out-truck", "work-barge", "marina-gangway", "rescue-skiff", "gig-lockers"]
    {
        let packet = packet_of(&format!("fixtures/jobs/{job}.json"), &[]);
        let leaves = leaves(&packet);
        let nest: serde_json::Value = serde_json::from_slice(&packet["nest.json"]).unwrap();
        let metals = nest["metals"].as_array().unwrap();
        let sheets: Vec<&serde_json::Value> =
            metals.iter().flat_map(|metal| metal["sheets"].as_array().unwrap()).collect();
        let steps: usize = sheets.iter().map(|sheet| sheet["cuts"].as_array().unwrap().len()).sum();
        let on_map = leaves.iter().filter(|leaf| has(leaf, "Order of cuts")).count();
        let apart = leaves.iter().filter(|leaf| leaf.name.starts_with("Order")).count();
        assert!(0 < on_map + apart, "{job}");
        let ordered: Vec<&Seen> = leaves
            .iter()
            .filter(|leaf| has(leaf, "Order of cuts") || leaf.name.starts_with("Order"))
            .collect();
        let numbered = |leaf: &&Seen| {
            let is_number = |words: &str| words.strip_suffix('.').is_some_and(|n| n.parse::<u32>().is_ok());
            leaf.texts.iter().filter(|text| is_number(&text.words)).count()
        };
        assert_eq!(ordered.iter().map(numbered).sum::<usize>(), steps, "{job}: steps on paper");
        let ordered_sheets =
            sheets.iter().filter(|sheet| !sheet["cuts"].as_array().unwrap().is_empty()).count();
        assert!(
            apart <= ordered_sheets.div_ceil(2) || ordered_sheets - on_map == 1,
            "{job}: {apart} leaves of orders"
        );
    }
}
