//! A tree with every quantity in one writing, so that 1/8 and .125 are seen to be the same.

use serde_json::{Number, Value};
use units::{Angle, Length, LengthUnit, Money};

use super::prune::find;
use super::walk::{Quantity, walk};
use crate::percentage;

/// The tree of a job with every length, angle, price and percentage that can be read written in one way, and every other number
/// too. What cannot be read stays as it is: it is refused elsewhere.
pub(super) fn plain(tree: &Value) -> Value {
    let unit = match tree.get("units").and_then(Value::as_str) {
        Some("mm") => LengthUnit::Millimetre,
        _ => LengthUnit::Inch,
    };
    let mut plain = tree.clone();
    for (steps, written, quantity) in &walk(tree).quantities {
        if let (Some(count), Some(place)) = (count(written, *quantity, unit), find(&mut plain, steps)) {
            *place = Value::from(count.to_string());
        }
    }
    numbers(&mut plain);
    plain
}

/// A quantity in whole steps of its kind.
fn count(written: &Value, quantity: Quantity, unit: LengthUnit) -> Option<i64> {
    let count = match written {
        Value::String(text) => match quantity {
            Quantity::Length => Length::read(text, unit).map(Length::nanometres),
            Quantity::Angle => Angle::read(text).map(Angle::nanodegrees),
            Quantity::Price => Money::read(text).map(Money::cents),
            Quantity::Percentage => return percentage::of_text(text),
        },
        Value::Number(number) => {
            let number = number.as_f64()?;
            match quantity {
                Quantity::Length => Length::try_from_number(number, unit).map(Length::nanometres),
                Quantity::Angle => Angle::try_from_degrees(number).map(Angle::nanodegrees),
                Quantity::Price => Money::try_from_number(number).map(Money::cents),
                Quantity::Percentage => return percentage::of_number(number),
            }
        }
        _ => return None,
    };
    count.ok()
}

/// 1 and 1.0 are the same number.
fn numbers(tree: &mut Value) {
    match tree {
        Value::Number(number) => {
            if let Some(same) = number.as_f64().and_then(Number::from_f64) {
                *number = same;
            }
        }
        Value::Array(entries) => entries.iter_mut().for_each(numbers),
        Value::Object(fields) => fields.values_mut().for_each(numbers),
        _ => {}
    }
}
