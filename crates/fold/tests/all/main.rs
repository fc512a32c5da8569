//! All tests of `fold` in one program: one link instead of one a file.

mod allowances;
mod bend_order;
mod boxes_on_machines;
mod common;
mod corner_relief;
mod deductions;
mod drilled_relief;
mod handling;
mod hindered_orders;
mod other_tools;
mod published;
mod reversed_bends;
mod springback;
mod strikes;
mod strips;
mod whole;
mod wide_turns;
