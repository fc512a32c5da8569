//! Times shaping, unfolding and refolding a thousand tapered lids over crooked openings.
//!
//! `cargo run --release -p shapes --example thousand_lids`
#![expect(clippy::print_stdout, clippy::disallowed_methods, reason = "a benchmark tells how long it took")]

use std::error::Error;
use std::time::Instant;

use fold::bend::Origin;
use fold::{BendNumber, flat, refold};
use geometry::Point;
use shapes::tapered_lid::TaperedLid;
use shapes::{Figure, Making, ReliefStyle};
use stock::BendModel;
use units::{Length, LengthStyle};

const LIDS: u32 = 1000;

fn main() -> Result<(), Box<dyn Error>> {
    let inches = Length::from_inches;
    let number = BendNumber::new(inches(0.125), inches(0.125), BendModel::KFactor(0.42), Origin::General)?;
    let style = LengthStyle::Inches { places: 3 };
    let making = Making {
        number,
        relief: ReliefStyle::Square,
        corner: shapes::CornerStyle::Open,
        seam_gap: Length::ZERO,
        style,
    };
    let mut parts = Vec::new();
    let begun = Instant::now();
    for lid in 0..LIDS {
        let crooked = f64::from(lid) / 100.0;
        let corners = [(0.0, 0.0), (800.0, crooked), (790.0 - crooked, 640.0), (crooked, 620.0)];
        let over = Figure::lettered(&corners.map(|(x, y)| Point::new(x, y))).ok_or("no opening")?;
        let inset = [3.0, 2.5, 4.25, 2.0].map(inches).to_vec();
        let (outset, rise, skirt) = (inches(0.875), inches(2.0), inches(1.125));
        let lid = TaperedLid { over, outset, rise, inset, skirt, return_width: None };
        parts.push(lid.shape(&making).map_err(|problems| format!("{problems:?}"))?.part);
    }
    let shaped = begun.elapsed();
    let flats = parts.iter().map(flat::unfold).collect::<Result<Vec<_>, _>>()?;
    let unfolded = begun.elapsed();
    for (part, flat) in parts.iter().zip(&flats) {
        refold::prove(part, flat)?;
    }
    let proven = begun.elapsed();
    println!(
        "{LIDS} lids: shaped in {} ms, unfolded in {} ms, proven in {} ms",
        shaped.as_millis(),
        (unfolded - shaped).as_millis(),
        (proven - unfolded).as_millis()
    );
    Ok(())
}
