//! A kit as text, as JSON and as pages.

use estimate::HandLift;
use geometry::outline::Chords;
use geometry::{Outline, Point, Vector};
use job::JobMetal;
use paper::crate_layer::{self, LaidFlat};
use paper::kit_page::KitDrawings;
use paper::lists::ListUnits;
use paper::lists::kit::{CratePaper, KitPaper, KitRow};
use paper::offcut_label::OffcutLabel;
use paper::packet::{PieceLabel, copy_words};
use paper::{Page, lists};
use serde_json::{Value, json as value};
use stock::Pattern;
use units::Length;

use super::{PackedKit, other_hand};
use crate::output::{self, Numbers};
use crate::plan::{self, finer};
use crate::speech::counted;

/// Hands the kit on paper to `show`.
pub(crate) fn with_paper<T>(packed: &PackedKit, heading: &str, show: impl FnOnce(&KitPaper<'_>) -> T) -> T {
    show(&KitPaper {
        heading,
        crates: &crates(packed),
        terms: &terms(packed),
        beside: &beside(packed),
        hands: &hands(packed),
        strips: &packed.strip_cards(),
        folding: &folding(packed),
        questions: &questions(packed),
    })
}

/// The kit as text.
pub(crate) fn text(packed: &PackedKit, heading: &str) -> String {
    let units = ListUnits::of(packed.plan.flats.job.style);
    with_paper(packed, heading, |paper| lists::kit::text(paper, units))
}

fn crates(packed: &PackedKit) -> Vec<CratePaper> {
    let limits = &packed.kit.limits;
    let numbered = packed.crates.iter().enumerate();
    // How many pieces of each part are told already.
    let mut told = vec![0_u32; packed.plan.flats.parts.len()];
    numbered
        .map(|(number, one)| CratePaper {
            number: number + 1,
            empty: limits.empty,
            packing: limits.packing(one.layers.len()),
            height: limits.height(&one.layers),
            rows: rows(packed, one, &mut told),
        })
        .collect()
}

fn rows(packed: &PackedKit, one: &estimate::Crate, told: &mut [u32]) -> Vec<KitRow> {
    let unit = ListUnits::of(packed.plan.flats.job.style).mass;
    let mut rows = Vec::new();
    for (layer, lying) in one.layers.iter().enumerate() {
        for laid in &lying.flats {
            let (number, flat) = &packed.flats[laid.flat];
            let part = packed.part(*number);
            let copy = packed.sheets_of(*number);
            // Rounded one by one, many small pieces would weigh what they do not.
            let before = part.weight.of_pieces(told[*number], unit);
            told[*number] += 1;
            let weight = part.weight.of_pieces(told[*number], unit) - before;
            rows.push(KitRow {
                layer: layer + 1,
                mark: marked(packed, *number, flat.copy),
                hand: packed.hand(*number).map(str::to_owned),
                what: what(packed, *number),
                blank: flat.size,
                weight,
                sheet: copy.get(flat.copy as usize - 1).map(|sheet| (*sheet).to_owned()).unwrap_or_default(),
            });
        }
    }
    rows
}

/// "T no. 2 of 6".
fn marked(packed: &PackedKit, number: usize, copy: u32) -> String {
    let part = &packed.part(number).part;
    format!("{}{}", part.mark, copy_words(copy, part.quantity))
}

fn what(packed: &PackedKit, number: usize) -> String {
    let part = packed.part(number);
    if packed.strips.iter().any(|(strip, _)| *strip == number) {
        return "TEST STRIP: bend it first".to_owned();
    }
    let bends = match part.flat.bends.len() {
        0 => "stays flat".to_owned(),
        count => counted(count, "bend"),
    };
    let piece = part.part.piece_of.as_ref().map(|piece| piece.piece.words.clone());
    let words = piece.unwrap_or_else(|| part.part.shape.recipe().words().to_owned());
    format!("{words}, {bends}")
}

/// Inside sizes, limits and packing, one sentence each.
fn terms(packed: &PackedKit) -> Vec<String> {
    let job = &packed.plan.flats.job;
    let units = ListUnits::of(job.style);
    let limits = &packed.kit.limits;
    let fine = finer(job.style);
    let inside = limits.inside.map(|side| side.print(job.style)).join(" × ");
    let mass = |mass: units::Mass| mass.print_with_unit(units.mass, 2);
    let weight = limits.between_weight.map_or_else(
        || "its weight is not given and not counted".to_owned(),
        // So finely that its multiples come to the weight of the packing.
        |weight| format!("one sheet of it {}", weight.over(limits.floor()).print_with_unit(units.mass, 4)),
    );
    let mut words = vec![
        format!(
            "Inside {inside} (length, width, height), empty {}, full {} at most. Outside it is larger by its walls, floor and lid: \
             measure it before carriage is asked for.",
            mass(limits.empty),
            mass(limits.heaviest)
        ),
        format!(
            "{}, {} thick, under the first layer, between layers and over the last; {weight}.",
            packed.kit.packing,
            limits.between.print_with_unit(fine)
        ),
        format!(
            "{} is kept clear along the walls and between the flats of a layer: fill it, so that nothing slides.",
            limits.clear.print_with_unit(job.style)
        ),
        "Before it is packed every flat gets its label on the marked face, and every bend line a nick at both edges."
            .to_owned(),
        "Weights are as in the cut list, summed as printed; pieces of one mark are rounded over all of them. Screws, straps and labels \
         are not counted."
            .to_owned(),
    ];
    let gross = crates(packed).into_iter().map(|one| (format!("crate {}", one.number), one.gross(units)));
    let caution = output::weights::crates_caution(&packed.plan.flats, &gross.collect::<Vec<_>>());
    words.splice(0..0, caution);
    for metal in tread(packed) {
        words.push(match metal.lug_height {
            Some(height) => format!(
                "{}: lugs of {} on the base are in the heights.",
                metal.metal.name,
                height.print_with_unit(fine)
            ),
            None => format!("{}: lugs are NOT in the heights: leave room for them.", metal.metal.name),
        });
    }
    words
}

/// Tread plate that is sent.
fn tread(packed: &PackedKit) -> impl Iterator<Item = &JobMetal> {
    let metals = packed.plan.flats.job.metals.iter().enumerate();
    let is_sent = |metal: usize| packed.sent().any(|part| packed.part(part).part.metal == metal);
    metals
        .filter(move |(number, metal)| metal.metal.pattern == Pattern::Tread && is_sent(*number))
        .map(|(_, metal)| metal)
}

/// What the job sells and no crate holds: hardware, bars, rolls and liners, a line each.
fn beside(packed: &PackedKit) -> Vec<String> {
    let flats = &packed.plan.flats;
    let job = &flats.job;
    let hardware = job.hardware.iter().map(|line| format!("{} × {}", line.count, line.item));
    let bars = job.bars.iter().flat_map(|bar| {
        plan::pieces_of_bar(bar, &flats.parts).into_iter().map(|(mark, length, quantity)| {
            format!("{quantity} × {mark}, {} of {}", length.print_with_unit(job.style), bar.name)
        })
    });
    let coverings = job.coverings.iter().flat_map(|covering| {
        let pieces = covering.pieces.iter();
        pieces.map(|piece| format!("{} × {}, of {}", piece.quantity, piece.mark, covering.name))
    });
    let liners = job.liners.iter().flat_map(|liner| {
        let areas = liner.areas.iter();
        areas.map(|area| format!("{} × {}, lining of {}", area.quantity, area.mark, liner.name))
    });
    hardware.chain(bars).chain(coverings).chain(liners).collect()
}

/// Which hand is which, one sentence a pair.
fn hands(packed: &PackedKit) -> Vec<String> {
    let flats = &packed.plan.flats;
    let mut words = Vec::new();
    for number in packed.sent() {
        let part = packed.part(number);
        let Some(other) = other_hand(flats, number).filter(|_| part.part.opposite_hand_of.is_none()) else {
            continue;
        };
        let place = flats.parts.iter().position(|found| found.part.mark == other);
        let (Some(place), Some(hand)) = (place, packed.hand(number)) else { continue };
        let second = packed.hand(place).unwrap_or_default();
        words.push(format!(
            "{} is {}, {other} is {}: these two are never in one layer, each has its hand on its label",
            part.part.mark,
            hand.to_uppercase(),
            second.to_uppercase()
        ));
    }
    if !words.is_empty() {
        words.push(
            "a layer may hold one hand of one part and the other hand of another: go by the labels"
                .to_owned(),
        );
    }
    words
}

/// Where every test strip is found when the crates are opened: "Test strip TS lies in crate 1, uppermost."
fn where_strips_lie(packed: &PackedKit) -> Vec<String> {
    let crates = packed.crates.iter().enumerate();
    let laid = crates.flat_map(|(number, one)| {
        let layers = one.layers.iter().enumerate();
        layers.flat_map(move |(layer, lying)| {
            lying.flats.iter().map(move |laid| (number + 1, [layer + 1, one.layers.len()], laid.flat))
        })
    });
    let strips = laid.filter_map(|(number, [layer, layers], flat)| {
        let (part, flat) = &packed.flats[flat];
        packed.strips.iter().any(|(strip, _)| strip == part).then(|| {
            let place = if layer == layers {
                "uppermost".to_owned()
            } else {
                format!("layer {layer} of {layers} from below")
            };
            format!("Test strip {} lies in crate {number}, {place}.", marked(packed, *part, flat.copy))
        })
    });
    strips.collect()
}

/// What to know before folding, one sentence each.
fn folding(packed: &PackedKit) -> Vec<String> {
    let job = &packed.plan.flats.job;
    let mut words = vec![
        "Wear gloves: cut edges cut. Lift long flats with two people.".to_owned(),
        "Bend the test strip first. Bend one part whole and measure it before the next.".to_owned(),
        "The label says which face is up, the bend card which way each bend goes, seen from that face."
            .to_owned(),
    ];
    words.extend(where_strips_lie(packed));
    match job.shop.brake.as_ref().filter(|_| packed.kit.brake.is_some()) {
        Some(brake) => {
            let long =
                brake.machine.length().map(|length| format!(", {} long", length.print_with_unit(job.style)));
            words.push(format!(
                "Bend cards are for the buyer's {}{}; every part was found to go on it.",
                brake.machine.name(),
                long.unwrap_or_default()
            ));
        }
        None => words.push("Bend cards are for the shop's own machine, not for the buyer's.".to_owned()),
    }
    let longest = packed.sent().flat_map(|part| &packed.part(part).flat.bends);
    let longest = longest.map(|bend| bend.from.distance(bend.to)).fold(0.0, f64::max);
    if 0.0 < longest {
        words.push(format!(
            "The longest bend is {}.",
            Length::from_millimetres(longest).print_with_unit(job.style)
        ));
    }
    words.push("plateloft certifies nothing: it works out shapes, not safety.".to_owned());
    words
}

fn questions(packed: &PackedKit) -> Vec<String> {
    let mut words = Vec::new();
    if packed.kit.brake.is_none() {
        words.push("What does the buyer bend on? \"buyer_brake\" under \"kit\" is not set.".to_owned());
    }
    if packed.kit.limits.between_weight.is_none() {
        words.push("What does the packing weigh? \"weight\" under \"kit.packing\" is not set.".to_owned());
    }
    for metal in tread(packed).filter(|metal| metal.lug_height.is_none()) {
        words.push(format!(
            "How high are the lugs of {}? \"lug_height\" under \"metals\" is not set.",
            metal.metal.name
        ));
    }
    words
}

/// Layers of every crate, and the bend cards.
pub(crate) fn drawings(packed: &PackedKit) -> KitDrawings {
    let limits = &packed.kit.limits;
    let inside = [limits.inside[0], limits.inside[1]].map(Length::millimetres);
    let mut layers = Vec::new();
    for (number, one) in packed.crates.iter().enumerate() {
        let pages = one.layers.iter().enumerate().map(|(layer, lying)| {
            let title =
                format!("crate {}, layer {} of {} from below", number + 1, layer + 1, one.layers.len());
            let flats: Vec<LaidFlat> = lying.flats.iter().map(|laid| laid_flat(packed, laid)).collect();
            crate_layer::draw(&title, inside, &flats)
        });
        layers.push(pages.collect::<Vec<Page>>());
    }
    let flats = &packed.plan.flats;
    let card = |number: usize| {
        let part = packed.part(number);
        (part.part.mark.clone(), output::bend_cards(flats, part))
    };
    let cards = packed.sent().map(card).filter(|(_, pages)| !pages.is_empty());
    let labels = labels(packed).into_iter().map(|label| PieceLabel { mark: label.mark, words: label.words });
    KitDrawings { cards: cards.collect(), layers, labels: labels.collect() }
}

fn laid_flat(packed: &PackedKit, laid: &estimate::Packed) -> LaidFlat {
    let (number, flat) = &packed.flats[laid.flat];
    let outline = &packed.part(*number).flat.outline;
    LaidFlat {
        mark: marked(packed, *number, flat.copy),
        hand: packed.hand(*number).map(str::to_owned),
        outline: moved(outline, laid.at.map(Length::millimetres), laid.turned),
    }
}

/// The outline with its low corner at a place of the crate, turned left by a quarter where it is turned.
fn moved(outline: &Outline, at: [f64; 2], turned: bool) -> Outline {
    let turn = |point: Point| if turned { Point::new(-point.y, point.x) } else { point };
    let turned = outline.mapped(false, turn);
    let (low, _) = turned.bounds();
    let by = Vector::new(at[0], at[1]) - (low - Point::default());
    turned.mapped(false, |point| point + by)
}

/// A label for every flat, its hand large beside its mark.
pub(crate) fn labels(packed: &PackedKit) -> Vec<OffcutLabel> {
    let job = &packed.plan.flats.job;
    let mut labels = Vec::new();
    for (crate_number, one) in packed.crates.iter().enumerate() {
        for (layer, lying) in one.layers.iter().enumerate() {
            for laid in &lying.flats {
                let (number, flat) = &packed.flats[laid.flat];
                let part = packed.part(*number);
                let metal = &job.metals[part.part.metal];
                let hand =
                    packed.hand(*number).map(|hand| format!(" {}", hand.to_uppercase())).unwrap_or_default();
                let mut words = output::label_head(job);
                words.extend([what(packed, *number), part.face_words(metal)]);
                words.push(output::named_metal_words(job, metal));
                words.extend(output::hand_on_a_label(&packed.plan.flats, part));
                words.push(format!("crate {}, layer {}", crate_number + 1, layer + 1));
                labels.push(OffcutLabel {
                    mark: format!("{}{hand}", marked(packed, *number, flat.copy)),
                    words,
                    outline: part.flat.outline.outer.corners(Chords::On),
                    holes: Vec::new(),
                    torn: Vec::new(),
                    lay: None,
                });
            }
        }
    }
    labels
}

/// The kit as JSON.
pub(crate) fn json(packed: &PackedKit) -> Value {
    let job = &packed.plan.flats.job;
    let numbers = Numbers::of(job);
    let limits = &packed.kit.limits;
    let units = ListUnits::of(job.style);
    let crates: Vec<Value> = crates(packed)
        .iter()
        .zip(&packed.crates)
        .map(|(paper, one)| {
            let flats =
                paper.rows.iter().zip(one.layers.iter().flat_map(|layer| &layer.flats)).map(|(row, laid)| {
                    value!({
                        "layer": row.layer,
                        "mark": row.mark,
                        "hand": row.hand,
                        "what": row.what,
                        "blank": row.blank.map(|side| numbers.length(side)),
                        "at": laid.at.map(|side| numbers.length(side)),
                        "turned": laid.turned,
                        "sheet": row.sheet,
                        "weight": numbers.mass(row.weight),
                    })
                });
            value!({
                "crate": paper.number,
                "layers": one.layers.len(),
                "height": numbers.length(paper.height),
                "flats": numbers.mass(paper.flats()),
                "packing": numbers.mass(paper.packing.as_printed(units.mass, 2)),
                "empty": numbers.mass(paper.empty.as_printed(units.mass, 2)),
                "in_all": numbers.mass(paper.gross(units)),
                "above_one_person": HandLift::ideal_limit() < paper.gross(units),
                "packed": flats.collect::<Vec<_>>(),
            })
        })
        .collect();
    let strips: Vec<Value> = packed
        .strip_cards()
        .iter()
        .map(|card| value!({ "title": card.title, "steps": card.steps }))
        .collect();
    value!({
        "plateloft": 1,
        "job": job.name,
        "units": { "length": numbers.length_unit(), "weight": numbers.other_units().1 },
        "inside": limits.inside.map(|side| numbers.length(side)),
        "heaviest": numbers.mass(limits.heaviest),
        "crates": crates,
        "beside": beside(packed),
        "hands": hands(packed),
        "test_strips": strips,
        "folding": folding(packed),
        "questions": questions(packed),
    })
}
