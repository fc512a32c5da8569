//! Slopes that meet before the top: what rise, or what insets, would leave something flat.

use units::Length;

use crate::{Figure, Making, Problem};

/// Halvings until the share is known to far better than a tape reads.
const HALVINGS: u32 = 50;

/// The share of the given insets at which nothing flat would be left, between 0 and 1.
fn share_that_meets(rim: &Figure, inset: &[Length]) -> f64 {
    let leaves_top = |share: f64| {
        let inward: Vec<f64> = inset.iter().map(|inset| -share * inset.millimetres()).collect();
        rim.moved(&inward).is_some()
    };
    let (mut most, mut too_much) = (0.0, 1.0);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (most + too_much);
        if leaves_top(middle) { most = middle } else { too_much = middle }
    }
    most
}

/// That the sides meet in a ridge below the top, with the rise and the insets that are possible.
pub(super) fn meets_problem(rim: &Figure, inset: &[Length], rise: Length, making: &Making) -> Problem {
    let share = share_that_meets(rim, inset);
    let list = |of: &dyn Fn(Length) -> String| {
        let each = rim.sides.iter().zip(inset).map(|(side, &inset)| format!("{side} {}", of(inset)));
        each.collect::<Vec<String>>().join(", ")
    };
    let given = list(&|inset| making.print(inset));
    let possible = list(&|inset| making.print_mm(share * inset.millimetres()));
    let wrong = format!(
        "the sides meet in a ridge {} above the rim, below the top: nothing flat is left",
        making.print_mm(share * rise.millimetres())
    );
    let most_rise_mm = share * rise.millimetres();
    let remedy = if making.has_room(most_rise_mm) {
        format!(
            "keep these slopes with a rise under {}, or this rise with insets under {possible}",
            making.print_mm(most_rise_mm)
        )
    } else {
        "no rise fits these insets: the rim is too narrow for them".to_owned()
    };
    Problem::new("inset", given, wrong, remedy)
}
