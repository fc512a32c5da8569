//! Every least price that is claimed of a mix, proved once more: no set of whole sheets that costs less can do.

use std::collections::BTreeMap;

use serde_json::Value;

use super::{Corner, Looked, Lying, NOTHING_MM, block, count, least_sheets, length, sheared};

/// A size of sheet, trimmed, with what one costs and how many there are.
#[derive(Debug, Clone)]
pub(super) struct Offer {
    size: Corner,
    cents: u64,
    there: u64,
}

/// Sizes and prices of a metal's sheets in a job, lengths in millimetres of its unit; `None` where one has an outline of its own or no price.
pub(super) fn offers((job, unit): (&Value, f64), metal: &str, trim: f64) -> Option<Vec<Offer>> {
    let own = job["sheets"].as_array().unwrap().iter().filter(|sheet| sheet["metal"] == metal);
    let offer = |sheet: &Value| {
        let mut sides = [0, 1].map(|side| length(&sheet["size"][side], unit) - 2.0 * trim);
        sides.sort_by(f64::total_cmp);
        let price = sheet["price"].as_f64().filter(|_| sheet["outline"].is_null())?;
        let there = sheet["count"].as_u64().unwrap_or(u64::MAX);
        let cents = u64::try_from(count(price * 100.0)).ok()?;
        Some(Offer { size: [sides[1], sides[0]], cents, there })
    };
    own.map(offer).collect()
}

/// A set of sheets, so many of each size, that costs less than `claimed` and is not shown here to be too little: by area with half the
/// gap beyond the free edges, by the number of sheets of just its sizes, and by both for the parts that only some sizes hold; on the shear also by
/// every way of through cuts.
pub(super) fn cheaper_set(
    parts: &[Looked],
    offers: &[Offer],
    (gap, on_the_shear): (f64, bool),
    claimed: u64,
) -> Option<Vec<u64>> {
    let holds = |offer: &Offer, part: &Looked| {
        let fits = |lying: &Lying| {
            lying.size[0] <= offer.size[0] + NOTHING_MM && lying.size[1] <= offer.size[1] + NOTHING_MM
        };
        part.lying.iter().any(fits)
    };
    let holders = |part: &Looked| -> Vec<usize> {
        (0..offers.len()).filter(|&offer| holds(&offers[offer], part)).collect()
    };
    let mut kinds: Vec<Vec<usize>> = parts.iter().map(holders).chain([(0..offers.len()).collect()]).collect();
    kinds.sort();
    kinds.dedup();
    let of_kind = |kind: &Vec<usize>| -> Vec<Looked> {
        let within = |part: &&Looked| holders(part).iter().all(|holder| kind.contains(holder));
        parts.iter().filter(within).cloned().collect()
    };
    let kinds: Vec<(Vec<usize>, Vec<Looked>)> =
        kinds.into_iter().map(|kind| (kind.clone(), of_kind(&kind))).collect();
    let mut fewest: BTreeMap<(usize, Vec<usize>), u32> = BTreeMap::new();
    let mut is_too_little = |set: &[u64]| {
        (0..kinds.len()).any(|number| {
            let (kind, own) = &kinds[number];
            let used: Vec<usize> = kind.iter().copied().filter(|&offer| 0 < set[offer]).collect();
            let sheets: u64 = used.iter().map(|&offer| set[offer]).sum();
            let grown = |part: &Looked| f64::from(part.quantity) * (part.area + gap / 2.0 * part.free_edges);
            let needed: f64 = own.iter().map(grown).sum();
            let room = |&offer: &usize| {
                let [x, y] = offers[offer].size.map(|side| side + gap);
                f64::from(u32::try_from(set[offer]).unwrap()) * x * y
            };
            if used.iter().map(room).sum::<f64>() + NOTHING_MM < needed || (sheets == 0 && !own.is_empty()) {
                return true;
            }
            let sizes: Vec<Corner> = used.iter().map(|&offer| offers[offer].size).collect();
            let fewest =
                fewest.entry((number, used)).or_insert_with(|| least_sheets(own, &sizes, gap, u32::MAX));
            !own.is_empty() && sheets < u64::from(*fewest)
        })
    };
    let mut sets: Vec<(u64, Vec<u64>)> = vec![(0, vec![0; offers.len()])];
    for (number, offer) in offers.iter().enumerate() {
        // What costs nothing is all taken.
        let least = if offer.cents == 0 { offer.there.min(50) } else { 0 };
        let more = |(sum, set): &(u64, Vec<u64>)| -> Vec<(u64, Vec<u64>)> {
            let counts = (least..=offer.there.min(50)).map(|count| (sum + count * offer.cents, count));
            let with = |(sum, count): (u64, u64)| {
                let mut set = set.clone();
                set[number] = count;
                (sum, set)
            };
            counts.take_while(|&(sum, _)| sum < claimed).map(with).collect()
        };
        sets = sets.iter().flat_map(more).collect();
    }
    let is_too_little_to_shear = |set: &[u64]| {
        let of_size = |(offer, &count): (&Offer, &u64)| vec![offer.size; usize::try_from(count).unwrap()];
        let sheets: Vec<Corner> = offers.iter().zip(set).flat_map(of_size).collect();
        on_the_shear && sheared::are_too_little(parts, &sheets, gap)
    };
    sets.into_iter().map(|(_, set)| set).find(|set| !is_too_little(set) && !is_too_little_to_shear(set))
}

#[test]
fn sets_of_sheets_are_counted_right() {
    // Five of 500 × 500 take three of the large sheets at 3.00, or one of these and three small ones of 520 × 500 at 1.10.
    let offer = |size: Corner, cents: u64, there: u64| Offer { size, cents, there };
    let offers = [offer([1000.0, 500.0], 300, 9), offer([520.0, 500.0], 110, 9)];
    let five = [block(500.0, 500.0, 5)];
    assert_eq!(cheaper_set(&five, &offers, (0.0, false), 550), None, "five small ones, at 5.50");
    assert_eq!(cheaper_set(&five, &offers, (0.0, false), 551), Some(vec![0, 5]));
    assert_eq!(
        cheaper_set(&five, &[offers[0].clone(), offer([520.0, 500.0], 110, 4)], (0.0, false), 630),
        None
    );
    // One longer part takes a large sheet.
    let longer = [block(500.0, 500.0, 4), block(600.0, 500.0, 1)];
    assert_eq!(cheaper_set(&longer, &offers, (0.0, false), 740), None);
    assert_eq!(cheaper_set(&longer, &offers, (0.0, false), 741), Some(vec![1, 4]));
}
