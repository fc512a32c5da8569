//! What is written and printed of a plan: numbers as JSON, text, drawings, and the packet that holds them all.

mod bars;
mod bend_cards;
mod bend_json;
mod bend_words;
mod cutting_words;
mod drawings;
mod fits;
mod flats_json;
mod flats_text;
mod folded;
mod folder;
mod hands;
mod nest_json;
mod numbers;
mod packet;
mod packet_labels;
mod pictures;
mod refold_text;
mod relief_words;
mod remarks;
mod rows;
mod scrap_json;
mod words;

pub(crate) use bars::{bars_json, bars_text};
pub(crate) use fits::{json as fits_json, refusals as fit_refusals, sentences as fit_sentences};
pub(crate) use flats_json::flats_json;
pub(crate) use flats_text::flats_text;
pub(crate) use nest_json::{nest_json, reason_words};
pub(crate) use numbers::{Numbers, rounded};
pub(crate) use packet::packet;
pub(crate) use pictures::pictures;
pub(crate) use refold_text::refold_text;
pub(crate) use remarks::assumptions_and_cautions;
pub(crate) use rows::{mix_words, nest_text};
pub(crate) use words::named_metal_words;
