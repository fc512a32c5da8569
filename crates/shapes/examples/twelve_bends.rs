//! Times the search for the order of twelve bends: a tapered lid with a lip turned in at the foot of its skirt.
//!
//! `cargo run --release -p shapes --example twelve_bends`
#![expect(clippy::print_stdout, clippy::disallowed_methods, reason = "a benchmark tells how long it took")]

use std::error::Error;
use std::time::Instant;

use fold::bend::Origin;
use fold::order::{self, Outcome};
use fold::{BendNumber, flat};
use shapes::tapered_lid::TaperedLid;
use shapes::{CornerStyle, Figure, Making, ReliefStyle};
use stock::BendModel;
use stock::brake::{Machine, PressBrake};
use units::{Length, LengthStyle};

fn main() -> Result<(), Box<dyn Error>> {
    let inches = Length::from_inches;
    let number = BendNumber::new(inches(0.125), inches(0.125), BendModel::KFactor(0.42), Origin::General)?;
    let making = Making {
        number,
        relief: ReliefStyle::Square,
        corner: CornerStyle::Open,
        seam_gap: Length::ZERO,
        style: LengthStyle::Inches { places: 3 },
    };
    for lip in [1.0, 2.5] {
        let over = Figure::rectangle(800.0, 640.0).ok_or("no opening")?;
        let inset = [3.0, 2.5, 4.25, 2.0].map(inches).to_vec();
        let (outset, rise, skirt) = (inches(0.875), inches(2.0), inches(2.0));
        let lid = TaperedLid { over, outset, rise, inset, skirt, return_width: Some(inches(lip)) };
        let part = lid.shape(&making).map_err(|problems| format!("{problems:?}"))?.part;
        let flat = flat::unfold(&part)?;
        let begun = Instant::now();
        let outcome = order::find(&flat, &Machine::Press(PressBrake::default()), Some(inches(1.0)), &[]);
        let words = match outcome {
            Outcome::Order(order) => format!("{} strokes", order.steps.len()),
            Outcome::Impossible(_) => "no order".to_owned(),
            Outcome::Unsettled => "unsettled".to_owned(),
        };
        println!("{} bends, lip {lip} in: {words}, {} ms", flat.bends.len(), begun.elapsed().as_millis());
    }
    Ok(())
}
