//! Does the finished part go where it must go? One file a question.
//!
//! A fit check takes the part as it is refolded, with the thickness of every face and the round of every bend, and holds
//! it against what is around it. It never changes the part. Whatever is not known exactly is taken on the safe side:
//! shadows are rounded outward, holes in the part are taken as filled.

pub mod answer;
pub mod body;
pub mod door;
pub mod level;
mod outside;
pub mod rolled;
pub mod shadow;
pub mod swing;
pub mod tilted;
pub mod together;

pub use answer::{Answer, Role, Scene, SceneFigure, Turned};
pub use body::{Body, BodyPiece};
pub use shadow::View;
