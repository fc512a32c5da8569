//! What sheets hold on the shear, by a program of its own: whatever comes off in one lump is one blank, or two lumps side by side or one
//! above the other. Rounds and the length of the blade are left out, so what does not go here does not go there.

use std::collections::BTreeMap;

use super::{Corner, Looked, NOTHING_MM, block};

/// How many of every part.
type Lump = Vec<u32>;

/// The most lumps that are looked at.
const MOST_LUMPS: usize = 3000;

/// Whether these sheets are too little for the blanks of all parts; false where there are too many to be looked at.
pub(super) fn are_too_little(parts: &[Looked], sheets: &[Corner], gap: f64) -> bool {
    let all: Lump = parts.iter().map(|part| part.quantity).collect();
    let lumps = within(&all);
    if MOST_LUMPS < lumps.len() {
        return false;
    }
    let mut boxes: BTreeMap<Lump, Vec<Corner>> = BTreeMap::new();
    for lump in &lumps {
        let found = boxes_of(parts, lump, gap, &boxes);
        let fits = |size: &Corner| sheets.iter().any(|sheet| goes_on(*size, *sheet));
        boxes.insert(lump.clone(), least(found.into_iter().filter(fits).collect()));
    }
    let mut left = vec![all.clone()];
    for sheet in sheets {
        let on_it: Vec<&Lump> =
            lumps.iter().filter(|lump| boxes[*lump].iter().any(|size| goes_on(*size, *sheet))).collect();
        let mut after = left.clone();
        for before in &left {
            let fitting =
                on_it.iter().filter(|lump| lump.iter().zip(before).all(|(own, there)| own <= there));
            after.extend(fitting.map(|lump| rest(before, lump)));
        }
        after.sort();
        after.dedup();
        left = after;
    }
    left.iter().all(|left| left.iter().any(|&count| 0 < count))
}

fn goes_on(size: Corner, sheet: Corner) -> bool {
    (0..2).all(|axis| size[axis] <= sheet[axis] + NOTHING_MM)
}

fn rest(all: &Lump, part: &Lump) -> Lump {
    all.iter().zip(part).map(|(all, part)| all - part).collect()
}

/// Every lump within one, smaller ones first, but none.
fn within(all: &Lump) -> Vec<Lump> {
    let mut lumps = vec![Lump::new()];
    for &count in all {
        let longer =
            |lump: &Lump| (0..=count).map(|own| [lump.clone(), vec![own]].concat()).collect::<Vec<_>>();
        lumps = lumps.iter().flat_map(longer).collect();
    }
    lumps.sort_by_key(|lump| lump.iter().sum::<u32>());
    lumps.split_off(1)
}

fn boxes_of(parts: &[Looked], lump: &Lump, gap: f64, known: &BTreeMap<Lump, Vec<Corner>>) -> Vec<Corner> {
    if lump.iter().sum::<u32>() == 1 {
        let part = lump.iter().position(|&count| count == 1).unwrap();
        return parts[part].lying.iter().map(|lying| lying.size).collect();
    }
    let mut found = Vec::new();
    for one in within(lump).iter().filter(|one| *one != lump) {
        for a in &known[one] {
            for b in &known[&rest(lump, one)] {
                found.push([a[0] + gap + b[0], a[1].max(b[1])]);
                found.push([a[0].max(b[0]), a[1] + gap + b[1]]);
            }
        }
    }
    found
}

/// Those that hide no smaller one.
fn least(mut boxes: Vec<Corner>) -> Vec<Corner> {
    boxes.sort_by(|a, b| a[0].total_cmp(&b[0]).then(a[1].total_cmp(&b[1])));
    let mut narrowest = f64::MAX;
    boxes.retain(|size| {
        let kept = size[1] < narrowest;
        narrowest = narrowest.min(size[1]);
        kept
    });
    boxes
}

/// Four around a fifth come off no sheet of 500 × 500 by through cuts, and off 500 × 600 they do.
#[test]
fn a_pinwheel_is_too_much_for_its_sheet() {
    let pinwheel = [block(300.0, 200.0, 2), block(200.0, 300.0, 2), block(100.0, 100.0, 1)];
    assert!(are_too_little(&pinwheel, &[[500.0, 500.0]], 0.0));
    assert!(!are_too_little(&pinwheel, &[[500.0, 600.0]], 0.0));
    assert!(!are_too_little(&pinwheel, &[[500.0, 500.0], [200.0, 300.0]], 0.0));
    assert!(are_too_little(&[block(100.0, 100.0, 2)], &[[200.0, 100.0]], 1.0));
}
