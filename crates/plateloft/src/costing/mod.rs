//! From a plan to what it costs: what the plan has of metal, cuts, bends and seams is counted here; every sum is made by
//! `estimate`.

mod order;
mod ordering;
mod ordering_others;
mod quoting;
mod rack_first;
mod work;

pub(crate) use order::{choice_notes, choices, lines_of, order_lines, rack_pieces};
pub(crate) use ordering::{Order, measuring, packing};
pub(crate) use ordering_others::{MEASURING_OTHERS, covering_lines, liner_lines};
pub(crate) use quoting::{Quoted, quoted};
pub(crate) use rack_first::offer;
