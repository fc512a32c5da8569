//! Finding room: labels that touch no other text and cross no line, columns of labels that keep their distance, and the free
//! places of a drawing for a picture.

mod field;
mod free;
mod spread;

pub use field::Field;
pub use free::Free;
pub use spread::spread;
