//! A kit: crates and packing read and judged, marks found, hands named.

use estimate::CrateLimits;
use units::{Length, Mass, MassPerArea, Money};

use super::desk::{Desk, Range};
use crate::file::{CratesFile, KitFile, PackingFile};
use crate::model::{Brake, Part};
use crate::nearest::{list, nearest};
use crate::place::Place;

/// What is sent as a kit.
#[derive(Debug, Clone, PartialEq)]
pub struct Kit {
    /// Crates and packing.
    pub limits: CrateLimits,
    /// What the packing is.
    pub packing: String,
    /// The buyer's machine.
    pub brake: Option<Brake>,
    /// Test strips, by their places in the job.
    pub test_strips: Vec<usize>,
    /// Words for the two hands of a pair, first the part that is drawn.
    pub hands: Option<[String; 2]>,
    /// What one empty crate costs.
    pub crate_price: Option<Money>,
    /// What carrying all crates costs.
    pub carriage: Option<Money>,
    /// Parts that go with the kit, by their places in the job, test strips among them.
    pub parts: Vec<usize>,
}

/// The kit of the file, if it has one.
pub(super) fn kit(file: Option<&KitFile>, parts: &[Part], desk: &mut Desk<'_>) -> Option<Kit> {
    let file = file?;
    let place = Place::top("kit");
    let limits = limits(&file.crates, &file.packing, &place, desk);
    let brake =
        file.buyer_brake.as_ref().map(|brake| super::brake::brake(brake, &place.field("buyer_brake"), desk));
    let test_strips = marked(&file.test_strips, &place.field("test_strips"), parts, desk);
    let stays = marked(&file.stays_here, &place.field("stays_here"), parts, desk);
    let sent: Vec<usize> = (0..parts.len()).filter(|part| !stays.contains(part)).collect();
    if sent.is_empty() {
        let remedy = "let some of them go, or take the kit out";
        desk.add(&place.field("stays_here"), "", "no part is left to be sent", remedy);
    }
    let hands = hands(file, &place, (parts, &sent), desk);
    for part in test_strips.iter().filter(|part| !sent.contains(part)) {
        let mark = &parts[*part].mark;
        desk.add(
            &place.field("test_strips"),
            mark,
            "stays here and cannot be bent by the buyer",
            "send it too",
        );
    }
    let crate_price = file.crates.price.as_ref();
    let crate_price = crate_price.and_then(|price| desk.price(&place.field("crates").field("price"), price));
    let carriage = file.carriage.as_ref().and_then(|price| desk.charge(&place.field("carriage"), price));
    Some(Kit {
        limits: limits?,
        packing: file.packing.what.clone(),
        brake,
        test_strips,
        hands: hands?,
        crate_price,
        carriage,
        parts: sent,
    })
}

fn limits(
    crates: &CratesFile,
    packing: &PackingFile,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<CrateLimits> {
    let (in_crates, in_packing) = (place.field("crates"), place.field("packing"));
    let inside = in_crates.field("inside");
    let mut side =
        |number: usize| desk.length(&inside.entry(number), &crates.inside[number], Range::AboveZero);
    let sides = [side(0), side(1), side(2)];
    let empty = mass(&in_crates.field("empty"), &crates.empty, desk);
    let heaviest = mass(&in_crates.field("heaviest"), &crates.heaviest, desk);
    let between = desk.length(&in_packing.field("thickness"), &packing.thickness, Range::ZeroOrMore);
    let weight = desk.text(&in_packing.field("weight"), packing.weight.as_ref(), MassPerArea::read);
    let clear = desk.length(&in_packing.field("clear"), &packing.clear, Range::ZeroOrMore);
    let [Some(length), Some(width), Some(height)] = sides else { return None };
    let limits = CrateLimits {
        inside: [length, width, height],
        clear: clear?,
        between: between?,
        between_weight: weight?,
        empty: empty?,
        heaviest: heaviest?,
        most: crates.most,
    };
    if limits.heaviest <= limits.empty {
        let wrong = "is not more than the empty crate weighs";
        desk.add(&in_crates.field("heaviest"), &crates.heaviest, wrong, "check both weights and their units");
        return None;
    }
    let twice = |length: Length| length + length;
    if length.min(width) <= twice(limits.clear) || height <= twice(limits.between) {
        let value = crates.inside.each_ref().map(ToString::to_string).join(" x ");
        let wrong = "packing and clear edges leave nothing of it";
        desk.add(&inside, &value, wrong, "check the crate's sizes and the packing");
        return None;
    }
    Some(limits)
}

fn mass(place: &Place, written: &str, desk: &mut Desk<'_>) -> Option<Mass> {
    let mass = desk.text(place, Some(&written.to_owned()), Mass::read)??;
    if mass < Mass::ZERO {
        desk.add(place, written, "must not be below zero", "give a weight with its unit, like \"34 lb\"");
        return None;
    }
    Some(mass)
}

/// The parts of these marks; the pieces of a whole go by its mark too.
fn marked(marks: &[String], place: &Place, parts: &[Part], desk: &mut Desk<'_>) -> Vec<usize> {
    let mut found = Vec::new();
    for (number, mark) in marks.iter().enumerate() {
        let before = found.len();
        let of_mark = |part: &&Part| part.mark == *mark || part.written_mark() == mark.as_str();
        found.extend(parts.iter().enumerate().filter(|(_, part)| of_mark(part)).map(|(part, _)| part));
        if found.len() == before {
            let known: Vec<&str> = parts.iter().map(|part| part.mark.as_str()).collect();
            let remedy = nearest(mark, &known).map_or_else(
                || format!("marks are {}", list(known.iter().copied())),
                |near| format!("did you mean {near}?"),
            );
            desk.add(&place.entry(number), mark, "no part has this mark", remedy);
        }
    }
    found.sort_unstable();
    found.dedup();
    found
}

/// The words for two hands; a kit with a pair in it must have them, and no mark may read as the other hand.
fn hands(
    file: &KitFile,
    place: &Place,
    (parts, sent): (&[Part], &[usize]),
    desk: &mut Desk<'_>,
) -> Option<Option<[String; 2]>> {
    let pairs: Vec<&Part> =
        sent.iter().map(|&part| &parts[part]).filter(|part| part.opposite_hand_of.is_some()).collect();
    let place = place.field("hands");
    let Some(hands) = &file.hands else {
        let Some(first) = pairs.first() else { return Some(None) };
        let value = format!("{} and {}", first.opposite_hand_of.clone().unwrap_or_default(), first.mark);
        let remedy = "name them, the part that is drawn first: \"hands\": [\"port\", \"starboard\"]";
        desk.add(&place, &value, "two hands look alike in a crate, and are not named", remedy);
        return None;
    };
    let [first, second] = hands.each_ref().map(|word| word.trim().to_lowercase());
    if first.is_empty() || second.is_empty() || first == second {
        desk.add(&place, &hands.join(", "), "the two hands need two words", "write two different words");
        return None;
    }
    let initial = |word: &str| word.chars().next();
    if initial(&first) == initial(&second) {
        return Some(Some(hands.clone()));
    }
    let mut sound = true;
    for part in pairs {
        let other = part.opposite_hand_of.clone().unwrap_or_default();
        for (mark, [is, not]) in [(&other, [&first, &second]), (&part.mark, [&second, &first])] {
            let whole = mark.split('-').next().unwrap_or_default().to_lowercase();
            let last = whole.chars().last();
            if 1 < whole.chars().count() && last == initial(not) && last != initial(is) {
                let wrong = format!("is the {is} hand, and its mark ends in the letter of {not}");
                desk.add(&place, mark, wrong, "give it another mark, or turn the two words round");
                sound = false;
            }
        }
    }
    sound.then(|| Some(hands.clone()))
}
