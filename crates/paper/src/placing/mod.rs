//! Finding room: labels that touch no other text and cross no line, and columns of labels that keep their distance.

mod field;
mod spread;

pub use field::Field;
pub use spread::spread;
