//! All tests of `shapes` in one program: one link instead of one a file.

mod brake_profile;
mod bulkheads;
mod common;
mod consoles;
mod crowned_lids;
mod decks;
mod development;
mod dripping_pan;
mod edges;
mod gutters;
mod hoppers;
mod laws;
mod lockers;
mod made_up_lids;
mod made_up_pans;
mod panels_and_boxes;
mod pans_and_lids;
mod paper_models;
mod roof_hips;
mod round_work;
mod seams;
mod second_opinion;
mod shell_seams;
mod tapered_lid;
mod three_plates;
