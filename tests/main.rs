//! Tests of the whole: order in the workspace, whole commands, refusals, and the committed samples.

#![expect(clippy::unwrap_used, reason = "a test that cannot go on stops there")]

mod adds_up;
mod bars;
mod bend_cards;
mod bend_strips;
mod buying;
mod commands;
mod covering_maps;
mod coverings;
mod cutting;
mod cutting_leaves;
mod exact_fits;
mod fits;
mod full_size;
mod hands;
mod kit;
mod legible;
mod mirror;
mod money;
mod nesting_effort;
mod new_reader;
mod odd_names;
mod options;
mod order;
mod outside;
mod packet;
mod points_by_number;
mod program;
mod proofs;
mod quote;
mod rack;
mod rack_blemishes;
mod rack_drops;
mod rack_faces;
mod rack_labels;
mod readme_runs;
mod receive;
mod refusals;
mod samples;
mod tidy;
mod turns;
mod unknown_radius;
mod weights;
mod wholes;
mod written;
