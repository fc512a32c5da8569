//! A long profile in pieces, joined at stations.

use super::BrakeProfile;
use super::ends::LegTrim;
use crate::{Making, Piece, Problem};

/// One piece more than there are joints; none where there is no joint.
pub(super) fn pieces(profile: &BrakeProfile) -> Vec<Piece> {
    if profile.joints.is_empty() {
        return Vec::new();
    }
    let count = profile.joints.len() + 1;
    (1..=count)
        .map(|number| Piece {
            suffix: number.to_string(),
            words: format!("piece {number} of {count}, from the start"),
            count: 1,
        })
        .collect()
}

/// From where to where piece `piece` runs, mm.
///
/// # Errors
/// Joints that do not rise, or that fall in a mitred end.
pub(super) fn span(
    profile: &BrakeProfile,
    piece: usize,
    trims: &[LegTrim],
    making: &Making,
) -> Result<[f64; 2], Vec<Problem>> {
    let mut problems = Vec::new();
    making.not_below_zero("joint_gap", profile.joint_gap, &mut problems);
    let half = 0.5 * profile.joint_gap.millimetres();
    let edges = || trims.iter().flat_map(|trim| [trim.low, trim.high, trim.low_bend(), trim.high_bend()]);
    let first = edges().map(|[from, _]| from).fold(0.0, f64::max);
    let last = edges().map(|[_, to]| to).fold(f64::INFINITY, f64::min);
    let mut before = first;
    for (number, joint) in profile.joints.iter().enumerate() {
        let at = joint.millimetres();
        let room = at - half > before && at + half < last;
        if !room {
            let wrong = "leaves nothing of a piece, or falls in an end that is not square";
            let remedy = format!(
                "put it between {} and {}, joints in rising order",
                making.print_mm(before + half),
                making.print_mm(last - half)
            );
            problems.push(Problem::new(format!("joints[{number}]"), making.print(*joint), wrong, remedy));
        }
        before = at + half;
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    let at = |number: usize| profile.joints[number].millimetres();
    let from = if piece == 0 { 0.0 } else { at(piece - 1) + half };
    let to = if piece == profile.joints.len() { profile.length.millimetres() } else { at(piece) - half };
    Ok([from, to])
}
