//! What a card says of faces that are bumped in strikes.

use fold::FlatPattern;
use fold::flat::BendLine;
use fold::order::Step;
use units::{Angle, Length};

use super::BendCard;
use crate::drawing::unit_mark;

/// So few strikes are no row whose errors add up.
const FEW_STRIKES: usize = 3;

/// Lines nearer to one another than this share of the V run together.
const RUN_TOGETHER: f64 = 0.05;

/// A gap less than this share of the one at the other end is a narrow end.
const NARROWER: f64 = 0.9;

/// "leg 2 to leg 3, strike 2 of 5, lines 1/4 apart: 12.00°": one strike of a bend that is bumped in several; `None` for any other.
pub(super) fn one_of_many(card: &BendCard<'_>, number: usize) -> Option<String> {
    let strike = card.cut.strike_of(number).filter(|_| card.is_struck())?;
    let (bend, faces) = (&card.cut.bends[strike.bend], &card.cut.faces);
    let count = f64::from(u32::try_from(strike.of).unwrap_or(u32::MAX));
    let apart = Length::from_millimetres(bend.zone_mm / count).print(card.style);
    let each = Angle::from_radians(bend.turn_rad / count).print(2);
    Some(format!(
        "{} to {}, strike {} of {}, lines {apart} apart: {each}°",
        faces[bend.parent].name, faces[bend.child].name, strike.number, strike.of
    ))
}

/// The last strikes of a round that closes about the punch.
pub(super) fn closed_by_hand(card: &BendCard<'_>, step: &Step) -> [String; 3] {
    let faces = &card.flat.faces;
    let lines = step.bends.iter().map(|&bend| {
        let bend = &card.flat.bends[bend];
        let turn = Angle::from_radians(bend.turn_rad).print(1);
        format!("{} to {} {turn}°", faces[bend.parent].name, faces[bend.child].name)
    });
    [
        format!("no stroke, closed by hand: {}", lines.collect::<Vec<_>>().join(", and ")),
        format!(
            "made there too, the round would close about the {} and shut it in: take it off the brake open, then turn these lines \
             in over a pipe or bar, and draw the edges together with clamps or a strap (common practice, no source)",
            if card.press { "punch" } else { "clamp's fingers" }
        ),
        "care: drawn together it is a spring. Clamp both ends before tacking, keep your face out of its way, and check the round by \
         its template before welding"
            .to_owned(),
    ]
}

/// What is said under some strokes of which there are strikes: that errors add up, and that lines lie close for the die.
pub(super) fn cautions(card: &BendCard<'_>, numbers: &[usize]) -> Vec<String> {
    let strikes: Vec<usize> = numbers
        .iter()
        .flat_map(|&number| &card.order.steps[number].bends)
        .copied()
        .filter(|&bend| card.flat.bends[bend].forming.is_strike())
        .collect();
    let in_all = card.flat.bends.iter().filter(|bend| bend.forming.is_strike()).count();
    if strikes.is_empty() || in_all < FEW_STRIKES {
        return Vec::new();
    }
    let mut cautions = vec![format!(
        "Strikes: set the depth on an offcut of the same sheet, and try a template after every third strike at the most: half a \
         degree too much at each is {}° after {in_all}.",
        0.5 * f64::from(u32::try_from(in_all).unwrap_or(u32::MAX))
    )];
    cautions.extend(close_lines(card, &strikes));
    cautions
}

/// That lines lie nearer to one another than half the V.
fn close_lines(card: &BendCard<'_>, strikes: &[usize]) -> Option<String> {
    let v_mm = card.v_opening.filter(|_| card.press)?.millimetres();
    let gaps = strikes.iter().flat_map(|&strike| gaps_mm(card.flat, strike));
    let (least, widest) = gaps.min_by(|a, b| a.0.total_cmp(&b.0))?;
    if 0.5 * v_mm <= least {
        return None;
    }
    if least < RUN_TOGETHER * v_mm {
        return Some(
            "Lines run together at one end: there the strikes before lie in the mouth of the die, and one depth no longer gives one \
             angle. Go by a template at the wide end, and come to each turn little by little."
                .to_owned(),
        );
    }
    let (apart, unit) = (Length::from_millimetres(least).print(card.style), unit_mark(card.style));
    let narrow = if least < NARROWER * widest { " at their narrow end" } else { "" };
    Some(format!(
        "Lines lie {apart} {unit} apart{narrow}, less than half the V of the die: there the strike before lies in its mouth, and one \
         depth no longer gives one angle. Set it by a strip with several strikes, or take a narrower V."
    ))
}

/// How far a strike's line is from the next ones over the faces beside it: at the narrow end, and at the wide end, mm.
fn gaps_mm(flat: &FlatPattern, strike: usize) -> Vec<(f64, f64)> {
    let own = &flat.bends[strike];
    let beside = |other: &&BendLine| {
        let follows = other.parent == own.child || other.child == own.parent;
        other.forming.is_strike() && follows
    };
    let off = |line: &BendLine| {
        let along = own.along();
        [line.from, line.to].map(|p| (p - own.from).cross(along).abs())
    };
    let gap = |line: &BendLine| {
        let [a, b] = off(line);
        (a.min(b), a.max(b))
    };
    flat.bends.iter().filter(beside).map(gap).collect()
}

impl BendCard<'_> {
    /// Whether the machine's flat has more bends than the one that is cut.
    fn is_struck(&self) -> bool {
        self.cut.bends.len() < self.flat.bends.len()
    }
}
