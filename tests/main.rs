//! Tests of the whole: order in the workspace, whole commands, refusals, and the committed samples.

mod commands;
mod packet;
mod program;
mod refusals;
mod samples;
mod tidy;
