//! Faces that touch one another in a stroke that is let pass: the order allows what a hand can spring or hold aside, and
//! whoever bends the part must be told where.

use super::itself::{self, Held, Touch};
use super::stroke::{Stroke, Trials};

/// Two faces of the part that meet while a bend is swung, so little that the stroke can be made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Touching {
    /// The face before the bend.
    pub front: usize,
    /// The face behind it.
    pub back: usize,
    /// They meet only while the bend is pressed past its turn: one of them is held aside for that moment. Else one is
    /// sprung past the other on the way.
    pub overbent: bool,
}

/// Every pair of faces, one on each side of the bend, that touches in a stroke.
pub(super) fn of_stroke(trials: &Trials<'_>, stroke: &Stroke, made: u64, faces: &[usize]) -> Vec<Touching> {
    if stroke.tooling.is_none() {
        return Vec::new();
    }
    let (position, bits) = (stroke.position, stroke.bits());
    let motion = trials.bench.motion(trials.metal, position.bend);
    let held = |&face: &usize| {
        let (at_front, on_way) = trials.lies(position, bits, made, face);
        (at_front, Held { face, made: on_way })
    };
    let (front, back): (Vec<_>, Vec<_>) = faces.iter().map(held).partition(|(at_front, _)| *at_front);
    let pairs = front.iter().flat_map(|(_, front)| back.iter().map(move |(_, back)| (*front, *back)));
    let apart = pairs.filter(|(front, back)| !trials.are_joined(bits, (front.face, back.face)));
    let touching = apart.filter_map(|pair| {
        let touch = itself::touch((trials.metal, trials.routes), (position, &motion), pair)?;
        let overbent = touch == Touch::WhileOverbent;
        Some(Touching { front: pair.0.face, back: pair.1.face, overbent })
    });
    touching.collect()
}
