//! From a plan to what it costs: what the plan has of metal, cuts, bends and seams is counted here; every sum is made by
//! `estimate`.

mod granted;
mod order;
mod ordering;
mod ordering_others;
mod others;
mod quoting;
mod rack_first;
mod uncounted;
mod work;

pub(crate) use granted::STICKS_WITH_SHEETS;
pub(crate) use order::{choice_notes, choices, lines_of, order_lines, rack_pieces};
pub(crate) use ordering::{Order, measuring, packing};
pub(crate) use ordering_others::{MEASURING_OTHERS, covering_lines, liner_lines};
pub(crate) use others::{GoodsLine, goods_lines, goods_order};
pub(crate) use quoting::{Quoted, quoted, rack_weights};
pub(crate) use rack_first::offer;
pub(crate) use uncounted::{Uncounted, WhatOfLid, uncounted};
