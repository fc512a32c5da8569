//! Drawings, lists and the packet: what goes to the bench on paper.
//!
//! A drawing becomes a neutral [`page`] of lines, areas and text in paper millimetres; thin writers translate it.
//! This crate places and prints; it never computes a size, and it touches no files. Modules in reading order.

pub mod page;
pub mod placing;

mod drawing;
mod line_breaks;
mod markup;

pub mod bend_card;
pub mod covering_map;
pub mod crate_layer;
pub mod fit_drawing;
pub mod folded_sheet;
pub mod isometric;
pub mod layout_sheet;
pub mod offcut_label;
pub mod paper_model;
pub mod roll_card;
pub mod sheet_map;
pub mod strut_plot;
pub mod whole_sheet;

pub mod lists;
pub mod scrap_report;

pub mod cautions;

pub mod kit_page;

pub mod packet;
pub mod pdf;
pub mod picture;
pub mod plain_outline;
pub mod svg;

pub use page::Page;
